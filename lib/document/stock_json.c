/*
 * The built-in gauges, materials, threads, grades of screws and fillers as JSON, in SI.
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

static void put_thread(trivet__json *json, json_t *list, const trivet_thread *thread)
{
    const struct {
        const char *name;
        double value;
    } values[] = {
        {"diameter", thread->diameter},
        {"pitch", thread->pitch},
        {"pitch_diameter", thread->pitch_diameter},
        {"minor_diameter", thread->minor_diameter},
        {"root_diameter", thread->root_diameter},
        {"stress_area", thread->stress_area},
        {"screw_major_least", thread->screw_major_least},
        {"screw_pitch_least", thread->screw_pitch_least},
        {"hole_minor_most", thread->hole_minor_most},
        {"hole_pitch_most", thread->hole_pitch_most},
        {"tapping_drill", thread->tapping_drill},
        {"clearance_hole", thread->clearance_hole},
        {"hexagon_width", thread->hexagon_width},
        {"socket_head", thread->socket_head},
        {"countersunk_head", thread->countersunk_head},
        {"countersunk_angle", thread->countersunk_angle},
    };
    json_t *const one = trivet__json_object(json);
    trivet__json_put_text(json, one, "name", thread->name);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        trivet__json_put_number(json, one, values[i].name, values[i].value);
    }
    trivet__json_push(json, list, one);
}

static trivet_status put_all_threads(trivet__json *json, json_t *list)
{
    for (int32_t i = 0; i < trivet_thread_count(); i++) {
        trivet_thread thread;
        trivet_status status = trivet_thread_defaults(&thread, sizeof thread);
        if (!status) {
            status = trivet_thread_at(i, &thread);
        }
        if (status) {
            return status;
        }
        put_thread(json, list, &thread);
    }
    return TRIVET_OK;
}

static void put_grade(trivet__json *json, json_t *list, const trivet_grade *grade)
{
    json_t *const one = trivet__json_object(json);
    trivet__json_put_text(json, one, "name", grade->name);
    trivet__json_put_number(json, one, "proof", grade->proof);
    trivet__json_put_number(json, one, "yield", grade->yield);
    trivet__json_put_number(json, one, "tensile", grade->tensile);
    trivet__json_put_number(json, one, "tensile_design", grade->tensile_design);
    trivet__json_put_number(json, one, "shear_factor", grade->shear_factor);
    trivet__json_put_text(json, one, "source", grade->source);
    trivet__json_push(json, list, one);
}

static trivet_status put_all_grades(trivet__json *json, json_t *list)
{
    for (int32_t i = 0; i < trivet_grade_count(); i++) {
        trivet_grade grade;
        trivet_status status = trivet_grade_defaults(&grade, sizeof grade);
        if (!status) {
            status = trivet_grade_at(i, &grade);
        }
        if (status) {
            return status;
        }
        put_grade(json, list, &grade);
    }
    return TRIVET_OK;
}

static void put_filler(trivet__json *json, json_t *list, const trivet_filler *filler)
{
    json_t *const one = trivet__json_object(json);
    trivet__json_put_text(json, one, "name", filler->name);
    trivet__json_put_number(json, one, "yield", filler->yield);
    trivet__json_put_number(json, one, "tensile", filler->tensile);
    trivet__json_put_text(json, one, "source", filler->source);
    trivet__json_push(json, list, one);
}

static trivet_status put_all_fillers(trivet__json *json, json_t *list)
{
    for (int32_t i = 0; i < trivet_filler_count(); i++) {
        trivet_filler filler;
        trivet_status status = trivet_filler_defaults(&filler, sizeof filler);
        if (!status) {
            status = trivet_filler_at(i, &filler);
        }
        if (status) {
            return status;
        }
        put_filler(json, list, &filler);
    }
    return TRIVET_OK;
}

/* What is filled: gauges a map, the others lists. */
typedef struct stock_lists {
    json_t *gauges;
    json_t *materials;
    json_t *threads;
    json_t *grades;
    json_t *fillers;
} stock_lists;

static trivet_status put_all(trivet__json *json, const stock_lists *lists)
{
    for (int i = 0; i < SYSTEM_COUNT; i++) {
        put_gauges(json, lists->gauges, systems[i].name, systems[i].system);
    }
    trivet_status status = put_all_materials(json, lists->materials);
    if (!status) {
        status = put_all_threads(json, lists->threads);
    }
    if (!status) {
        status = put_all_grades(json, lists->grades);
    }
    return status ? status : put_all_fillers(json, lists->fillers);
}

/* Keeps the first refusal that offers a name. */
static void keep_offer(const trivet_message *refused, trivet_message *kept)
{
    static const char OFFER[] = "did you mean";
    if (kept->status == TRIVET_OK && strncmp(refused->remedy, OFFER, strlen(OFFER)) == 0) {
        *kept = *refused;
    }
}

/* The material, thread, grade or filler of that name; else the refusal of the first kind that has
 * one near it. */
static trivet_status put_named(trivet__json *json, const stock_lists *lists, const char *name,
                               trivet_message *message)
{
    trivet_material material;
    trivet_thread thread;
    trivet_grade grade;
    trivet_filler filler;
    trivet_message refused;
    trivet_message kept;
    trivet_message_clear(&kept);
    trivet_material_defaults(&material, sizeof material);
    trivet_thread_defaults(&thread, sizeof thread);
    trivet_grade_defaults(&grade, sizeof grade);
    trivet_filler_defaults(&filler, sizeof filler);
    if (trivet_material_find(name, &material, &refused) == TRIVET_OK) {
        put_material(json, lists->materials, &material);
        return TRIVET_OK;
    }
    keep_offer(&refused, &kept);
    if (trivet_thread_find(name, &thread, &refused) == TRIVET_OK) {
        put_thread(json, lists->threads, &thread);
        return TRIVET_OK;
    }
    keep_offer(&refused, &kept);
    if (trivet_grade_find(name, &grade, &refused) == TRIVET_OK) {
        put_grade(json, lists->grades, &grade);
        return TRIVET_OK;
    }
    keep_offer(&refused, &kept);
    if (trivet_filler_find(name, &filler, &refused) == TRIVET_OK) {
        put_filler(json, lists->fillers, &filler);
        return TRIVET_OK;
    }
    keep_offer(&refused, &kept);
    if (kept.status == TRIVET_OK) {
        return trivet__refuse(message, TRIVET_BAD_NAME, name, "nothing built in has this name",
                              "list what there is with trivet stock");
    }
    if (message) {
        *message = kept;
    }
    return TRIVET_BAD_NAME;
}

/* All, or what has that name. */
static trivet_status fill(trivet__json *json, const stock_lists *lists, const char *name,
                          trivet_message *message)
{
    if (!name) {
        return put_all(json, lists);
    }
    for (int i = 0; i < SYSTEM_COUNT; i++) {
        if (strcmp(name, systems[i].name) == 0) {
            put_gauges(json, lists->gauges, systems[i].name, systems[i].system);
            return TRIVET_OK;
        }
    }
    return put_named(json, lists, name, message);
}

trivet_status trivet_stock_json(const char *name, char **text_out, trivet_message *message)
{
    if (!text_out) {
        return trivet__missing(message, "text_out");
    }
    *text_out = NULL;
    trivet__json json = {0};
    json_t *const root = trivet__json_object(&json);
    const stock_lists lists = {
        .gauges = trivet__json_object(&json),
        .materials = trivet__json_list(&json),
        .threads = trivet__json_list(&json),
        .grades = trivet__json_list(&json),
        .fillers = trivet__json_list(&json),
    };
    const trivet_status status = fill(&json, &lists, name, message);
    trivet__json_put_text(&json, root, "trivet", trivet_version());
    trivet__json_put(&json, root, "gauges", lists.gauges);
    trivet__json_put(&json, root, "materials", lists.materials);
    trivet__json_put(&json, root, "threads", lists.threads);
    trivet__json_put(&json, root, "grades", lists.grades);
    trivet__json_put(&json, root, "fillers", lists.fillers);
    if (status) {
        json_decref(root);
        return status;
    }
    return trivet__json_text(&json, root, text_out, message);
}
