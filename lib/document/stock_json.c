/*
 * The built-in gauges and materials as JSON, in SI.
 */
#include "base/message.h"
#include "base/text.h"
#include "document/json.h"
#include "trivet/document.h"

#include <stdio.h>
#include <string.h>

static void put_material(trivet__json *json, json_t *list, const trivet_material *material)
{
    json_t *const one = trivet__json_object(json);
    trivet__json_put_text(json, one, "name", material->name);
    trivet__json_put_number(json, one, "E", material->E);
    trivet__json_put_number(json, one, "G", material->G);
    trivet__json_put_number(json, one, "density", material->density);
    trivet__json_put_number(json, one, "yield", material->yield);
    trivet__json_put_number(json, one, "tensile", material->tensile);
    trivet__json_put_number(json, one, "expansion", material->expansion);
    trivet__json_put_number(json, one, "welded_yield", material->welded_yield);
    trivet__json_put_number(json, one, "welded_tensile", material->welded_tensile);
    trivet__json_put_text(json, one, "source", material->source);
    trivet__json_push(json, list, one);
}

/* Every thickness that a system of gauges has. */
static void put_gauges(trivet__json *json, json_t *gauges, const char *name, int32_t system)
{
    int32_t first = 0;
    int32_t last = -1;
    json_t *const map = trivet__json_object(json);
    trivet_gauge_range(&first, &last);
    for (int32_t number = first; number <= last; number++) {
        double thickness = 0.0;
        char text[16];
        if (trivet_gauge_thickness(system, number, &thickness, NULL) == TRIVET_OK) {
            snprintf(text, sizeof text, "%d", (int)number);
            trivet__json_put_number(json, map, text, thickness);
        }
    }
    trivet__json_put(json, gauges, name, map);
}

typedef struct gauge_system {
    const char *name;
    int32_t system;
} gauge_system;

static const gauge_system systems[] = {{"BWG", TRIVET_BWG}, {"MSG", TRIVET_MSG}};

enum { SYSTEM_COUNT = sizeof systems / sizeof systems[0] };

static trivet_status put_all_materials(trivet__json *json, json_t *list)
{
    for (int32_t i = 0; i < trivet_material_count(); i++) {
        trivet_material material;
        trivet_status status = trivet_material_defaults(&material, sizeof material);
        if (!status) {
            status = trivet_material_at(i, &material);
        }
        if (status) {
            return status;
        }
        put_material(json, list, &material);
    }
    return TRIVET_OK;
}

/* All, or the one system or material of that name. */
static trivet_status fill(trivet__json *json, json_t *gauges, json_t *materials, const char *name,
                          trivet_message *message)
{
    int is_system = 0;
    for (int i = 0; i < SYSTEM_COUNT; i++) {
        if (!name || strcmp(name, systems[i].name) == 0) {
            put_gauges(json, gauges, systems[i].name, systems[i].system);
            is_system = 1;
        }
    }
    if (!name) {
        return put_all_materials(json, materials);
    }
    if (is_system) {
        return TRIVET_OK;
    }
    trivet_material material;
    trivet_status status = trivet_material_defaults(&material, sizeof material);
    if (!status) {
        status = trivet_material_find(name, &material, message);
    }
    if (!status) {
        put_material(json, materials, &material);
    }
    return status;
}

trivet_status trivet_stock_json(const char *name, char **text_out, trivet_message *message)
{
    if (!text_out) {
        return trivet__missing(message, "text_out");
    }
    *text_out = NULL;
    trivet__json json = {0};
    json_t *const root = trivet__json_object(&json);
    json_t *const gauges = trivet__json_object(&json);
    json_t *const materials = trivet__json_list(&json);
    const trivet_status status = fill(&json, gauges, materials, name, message);
    trivet__json_put_text(&json, root, "trivet", trivet_version());
    trivet__json_put(&json, root, "gauges", gauges);
    trivet__json_put(&json, root, "materials", materials);
    if (status) {
        json_decref(root);
        return status;
    }
    return trivet__json_text(&json, root, text_out, message);
}
