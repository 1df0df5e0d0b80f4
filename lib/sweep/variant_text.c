/*
 * A variant as a file of its own: the tree of the file with the variant's values written into it.
 * Values that were worked out are written in SI with 17 digits, so that they read back to the same
 * double; what a factor multiplies is written as a product, in the order in which it was worked
 * out.
 */
#include "sweep/sweep.h"

#include "base/memory.h"
#include "base/text.h"
#include "document/json.h"

#include <stdio.h>
#include <string.h>

enum { LOOK_MAX = 1400 };

typedef struct writing {
    trivet__json json;
    const trivet__reading *reading; /* of the variant */
    const trivet__overrides *values;
} writing;

/* What turns a scalar into its text in the variant. NULL: as it stands. */
typedef struct scaling {
    double factor;
    const char *unit; /* what a bare number there means; "" for a plain number */
} scaling;

static json_t *copy_node(writing *w, const trivet__node *node);

static json_t *copy_map(writing *w, const trivet__node *map)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        trivet__json_put(&w->json, object, trivet__tree_text(w->reading->tree, pair.name),
                         copy_node(w, pair.value));
    }
    return object;
}

static json_t *copy_node(writing *w, const trivet__node *node)
{
    const trivet__tree *const tree = w->reading->tree;
    if (trivet__tree_is_nothing(tree, node)) {
        return json_null();
    }
    if (node->kind == TRIVET__MAP) {
        return copy_map(w, node);
    }
    if (node->kind == TRIVET__SCALAR) {
        return json_string(trivet__tree_text(tree, node));
    }
    json_t *const list = trivet__json_list(&w->json);
    for (const trivet__node *item = trivet__tree_first(tree, node); item;
         item = trivet__tree_next(tree, item)) {
        trivet__json_push(&w->json, list, copy_node(w, item));
    }
    return list;
}

/* ---- let ---- */

static json_t *quantity_text(const trivet_quantity *quantity)
{
    static const char *const NAMES[] = {"m", "kg", "s", "K"};
    const int32_t powers[] = {quantity->length, quantity->mass, quantity->time,
                              quantity->temperature};
    char text[160];
    size_t length = trivet__text_print(text, sizeof text, "%.17g", quantity->value);
    int is_first = 1;
    for (int i = 0; i < 4; i++) {
        if (powers[i] != 0) {
            length += trivet__text_print(text + length, sizeof text - length, "%s%s",
                                         is_first ? " " : "*", NAMES[i]);
        }
        if (powers[i] != 0 && powers[i] != 1) {
            length +=
                trivet__text_print(text + length, sizeof text - length, "^%d", (int)powers[i]);
        }
        if (powers[i] != 0) {
            is_first = 0;
        }
    }
    if (is_first && quantity->has_unit) {
        trivet__text_print(text + length, sizeof text - length, " rad");
    }
    return json_string(text);
}

static json_t *copy_let(writing *w, const trivet__node *map)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const trivet_quantity *const instead = trivet__override_let(w->values, name);
        trivet__json_put(&w->json, object, name,
                         instead ? quantity_text(instead) : copy_node(w, pair.value));
    }
    return object;
}

/* ---- stock ---- */

static void put_size(writing *w, json_t *object, const char *key, double value, const char *unit)
{
    char text[64];
    trivet__text_print(text, sizeof text, "%.17g%s", value, unit);
    trivet__json_put_text(&w->json, object, key, text);
}

static void put_sizes(writing *w, json_t *object, const trivet_profile *profile)
{
    static const char *const SHAPES[] = {
        "",          "square tube", "rectangular tube", "round tube", "square bar", "flat bar",
        "round bar", "angle",       "channel",
    };
    const struct {
        const char *key;
        double value;
    } rows[] = {
        {"height", profile->height},     {"width", profile->width},   {"wall", profile->wall},
        {"diameter", profile->diameter}, {"flange", profile->flange},
    };
    trivet__json_put_text(&w->json, object, "shape", SHAPES[profile->shape]);
    if (profile->shape == TRIVET_SHAPE_ANGLE) {
        json_t *const legs = trivet__json_list(&w->json);
        char text[64];
        trivet__text_print(text, sizeof text, "%.17g m", profile->height);
        trivet__json_push(&w->json, legs, json_string(text));
        trivet__text_print(text, sizeof text, "%.17g m", profile->width);
        trivet__json_push(&w->json, legs, json_string(text));
        trivet__json_put(&w->json, object, "legs", legs);
        put_size(w, object, "wall", profile->wall, " m");
        return;
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].value > 0.0 && !(profile->shape == TRIVET_SHAPE_SQUARE_TUBE && i == 0)) {
            put_size(w, object, rows[i].key, rows[i].value, " m");
        }
    }
    if (profile->corner == TRIVET_CORNER_SHARP) {
        trivet__json_put_text(&w->json, object, "corner", "sharp");
    } else if (profile->corner == TRIVET_CORNER_RADIUS) {
        put_size(w, object, "corner", profile->corner_radius, " m");
    }
}

static void put_pair(writing *w, json_t *object, const char *key, const double *values,
                     const char *unit)
{
    json_t *const list = trivet__json_list(&w->json);
    for (int i = 0; i < 2; i++) {
        char text[64];
        trivet__text_print(text, sizeof text, "%.17g%s", values[i], unit);
        trivet__json_push(&w->json, list, json_string(text));
    }
    if (values[0] > 0.0) {
        trivet__json_put(&w->json, object, key, list);
    } else {
        json_decref(list);
    }
}

static void put_given(writing *w, json_t *object, const trivet_profile *profile)
{
    trivet__json_put_text(&w->json, object, "shape", "values");
    put_size(w, object, "area", profile->given_area, " m^2");
    put_pair(w, object, "shear areas", profile->given_shear_area, " m^2");
    put_pair(w, object, "second moments", profile->given_second_moment, " m^4");
    put_size(w, object, "torsion constant", profile->given_torsion_constant, " m^4");
    put_pair(w, object, "section moduli", profile->given_section_modulus, " m^3");
    if (profile->given_torsion_modulus > 0.0) {
        put_size(w, object, "torsion modulus", profile->given_torsion_modulus, " m^3");
    }
    if (profile->given_mass_per_length > 0.0) {
        put_size(w, object, "mass per length", profile->given_mass_per_length, " kg/m");
    }
}

/* A built-in material by its name, any other by its values. */
static void put_material(writing *w, json_t *object, const trivet_material *material)
{
    const struct {
        const char *key;
        double value;
        const char *unit;
    } rows[] = {
        {"E", material->E, " Pa"},
        {"G", material->G, " Pa"},
        {"density", material->density, " kg/m^3"},
        {"yield", material->yield, " Pa"},
        {"tensile", material->tensile, " Pa"},
        {"expansion", material->expansion, " K^-1"},
    };
    trivet_material known;
    if (trivet_material_defaults(&known, sizeof known) == TRIVET_OK &&
        trivet_material_find(material->name, &known, NULL) == TRIVET_OK) {
        trivet__json_put_text(&w->json, object, "material", material->name);
        return;
    }
    json_t *const own = trivet__json_object(&w->json);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].value > 0.0 || (i == 5 && rows[i].value != 0.0)) {
            put_size(w, own, rows[i].key, rows[i].value, rows[i].unit);
        }
    }
    trivet__json_put(&w->json, object, "material", own);
}

static json_t *copy_choice(writing *w, const trivet__stock_choice *choice)
{
    json_t *const object = trivet__json_object(&w->json);
    if (choice->profile.shape == TRIVET_SHAPE_GIVEN_VALUES) {
        put_given(w, object, &choice->profile);
    } else {
        put_sizes(w, object, &choice->profile);
    }
    put_material(w, object, &choice->material);
    if (choice->note.price >= 0.0) {
        put_size(w, object, "price", choice->note.price, "");
    }
    if (choice->note.have >= 0.0) {
        put_size(w, object, "have", choice->note.have, " m");
    }
    return object;
}

static json_t *copy_stock(writing *w, const trivet__node *map)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const trivet__stock_choice *const choice = trivet__override_stock(w->values, name);
        trivet__json_put(&w->json, object, name,
                         !choice        ? copy_node(w, pair.value)
                         : choice->node ? copy_node(w, choice->node)
                                        : copy_choice(w, choice));
    }
    return object;
}

/* ---- factors ---- */

/* "(TEXT) * F", or "((TEXT) * 1 lbf) * F" for a bare number: as it is worked out. */
static json_t *scaled_scalar(writing *w, const trivet__node *node, const scaling *by)
{
    trivet_quantity read = {0};
    char text[LOOK_MAX];
    const trivet__thing thing = {.word = ""};
    const char *const own = trivet__tree_text(w->reading->tree, node);
    const int has_unit =
        trivet__read_quantity(w->reading, node, &thing, &read) == TRIVET_OK && read.has_unit;
    if (has_unit || by->unit[0] == '\0') {
        trivet__text_print(text, sizeof text, "(%s) * %.17g", own, by->factor);
    } else {
        trivet__text_print(text, sizeof text, "((%s) * 1 %s) * %.17g", own, by->unit, by->factor);
    }
    return json_string(text);
}

static json_t *scaled_node(writing *w, const trivet__node *node, const scaling *by)
{
    const trivet__tree *const tree = w->reading->tree;
    if (node->kind == TRIVET__SCALAR) {
        return trivet__tree_is_nothing(tree, node) ? json_null() : scaled_scalar(w, node, by);
    }
    json_t *const list = trivet__json_list(&w->json);
    for (const trivet__node *item = trivet__tree_first(tree, node); item;
         item = trivet__tree_next(tree, item)) {
        trivet__json_push(&w->json, list, scaled_scalar(w, item, by));
    }
    return list;
}

/* A map in which some keys are loads; the unit is that of a bare number under them. */
typedef struct load_key {
    const char *key;
    const char *unit;
} load_key;

static json_t *scaled_map(writing *w, const trivet__node *map, const load_key *keys, double factor)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const load_key *key = keys;
        while (key->key && strcmp(key->key, name) != 0) {
            key++;
        }
        const scaling by = {factor, key->unit};
        trivet__json_put(&w->json, object, name,
                         key->key ? scaled_node(w, pair.value, &by) : copy_node(w, pair.value));
    }
    return object;
}

static json_t *scaled_maps(writing *w, const trivet__node *node, const load_key *keys,
                           double factor)
{
    const trivet__tree *const tree = w->reading->tree;
    const int is_list = node->kind == TRIVET__LIST;
    json_t *const all = is_list ? trivet__json_list(&w->json) : trivet__json_object(&w->json);
    if (is_list) {
        for (const trivet__node *item = trivet__tree_first(tree, node); item;
             item = trivet__tree_next(tree, item)) {
            trivet__json_push(&w->json, all, scaled_map(w, item, keys, factor));
        }
        return all;
    }
    trivet__pair pair = trivet__tree_first_pair(tree, node);
    for (; pair.name; pair = trivet__tree_next_pair(tree, pair)) {
        trivet__json_put(&w->json, all, trivet__tree_text(tree, pair.name),
                         scaled_map(w, pair.value, keys, factor));
    }
    return all;
}

static json_t *copy_case(writing *w, const trivet__node *map, double factor)
{
    const trivet_units *const units = &w->reading->document->units;
    const load_key forces[] = {
        {"force", units->force}, {"moment", ""}, {"line", ""}, {"to line", ""}, {NULL, NULL}};
    const load_key moves[] = {{"x", units->length}, {"y", units->length}, {"z", units->length},
                              {"rx", ""},           {"ry", ""},           {"rz", ""},
                              {NULL, NULL}};
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const scaling by = {factor, ""};
        const int is_nothing = trivet__tree_is_nothing(w->reading->tree, pair.value);
        json_t *made = NULL;
        if (!is_nothing && (strcmp(name, "gravity") == 0 || strcmp(name, "warm") == 0)) {
            made = scaled_node(w, pair.value, &by);
        } else if (!is_nothing && strstr(name, "forces")) {
            made = scaled_maps(w, pair.value, forces, factor);
        } else if (!is_nothing && strcmp(name, "mount moves") == 0) {
            made = scaled_maps(w, pair.value, moves, factor);
        } else {
            made = copy_node(w, pair.value);
        }
        trivet__json_put(&w->json, object, name, made);
    }
    return object;
}

static json_t *copy_cases(writing *w, const trivet__node *map)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const double factor = trivet__override_case(w->values, name);
        trivet__json_put(&w->json, object, name,
                         factor == 1.0 ? copy_node(w, pair.value)
                                       : copy_case(w, pair.value, factor));
    }
    return object;
}

/* Mass and items of a cargo; "mass" of an item that has a centre as well. */
static json_t *copy_load(writing *w, const trivet__node *map, double factor)
{
    const char *const unit = w->reading->document->units.mass;
    const load_key mass[] = {{"mass", unit}, {NULL, NULL}};
    const scaling by = {factor, unit};
    json_t *const object = scaled_map(w, map, mass, factor);
    const trivet__node *const items = trivet__member(w->reading, map, "items");
    if (!items) {
        return object;
    }
    json_t *const ledger = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, items);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        trivet__json_put(&w->json, ledger, trivet__tree_text(w->reading->tree, pair.name),
                         pair.value->kind == TRIVET__MAP ? scaled_map(w, pair.value, mass, factor)
                                                         : scaled_node(w, pair.value, &by));
    }
    trivet__json_put(&w->json, object, "items", ledger);
    return object;
}

static json_t *copy_cargo(writing *w, const trivet__node *map)
{
    json_t *const object = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, map);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        const double factor = trivet__override_cargo(w->values, name);
        trivet__json_put(&w->json, object, name,
                         factor == 1.0 ? copy_node(w, pair.value)
                                       : copy_load(w, pair.value, factor));
    }
    return object;
}

/* ---- the file ---- */

static json_t *copy_section(writing *w, const char *name, const trivet__node *node)
{
    const struct {
        const char *name;
        json_t *(*copy)(writing *, const trivet__node *);
    } sections[] = {
        {"let", copy_let}, {"stock", copy_stock}, {"cargo", copy_cargo}, {"cases", copy_cases}};
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) {
        if (strcmp(sections[i].name, name) == 0 && node->kind == TRIVET__MAP) {
            return sections[i].copy(w, node);
        }
    }
    return copy_node(w, node);
}

static trivet_status write_text(writing *w, char **text_out, trivet_message *message)
{
    json_t *const root = trivet__json_object(&w->json);
    trivet__pair pair = trivet__tree_first_pair(w->reading->tree, w->reading->root);
    for (; pair.name; pair = trivet__tree_next_pair(w->reading->tree, pair)) {
        const char *const name = trivet__tree_text(w->reading->tree, pair.name);
        if (strcmp(name, "vary") != 0 && strcmp(name, "expect") != 0) {
            trivet__json_put(&w->json, root, name, copy_section(w, name, pair.value));
        }
    }
    return trivet__json_text(&w->json, root, text_out, message);
}

static trivet_status write_variant(trivet__bench *bench, int64_t number, char **text_out,
                                   trivet_message *message)
{
    trivet__reading reading;
    trivet_status status = trivet__bench_resolve(bench, number);
    if (status == TRIVET_INTERRUPTED) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "variant", "", "choose another");
        trivet__message_problem(message, "is skipped: %s", bench->message.problem);
        return TRIVET_BAD_VALUE;
    }
    if (status != TRIVET_OK) {
        *message = bench->message;
        return status;
    }
    status = trivet__kept_reading(bench->document, &bench->sweep->tree, &reading, message);
    writing w = {{0}, &reading, &bench->values.all};
    return status == TRIVET_OK ? write_text(&w, text_out, message) : status;
}

trivet_status trivet_sweep_variant_text(const trivet_sweep *sweep, int64_t number, char **text_out,
                                        trivet_message *message)
{
    trivet_message said;
    trivet_message_clear(&said);
    if (text_out) {
        *text_out = NULL;
    }
    if (!sweep || !text_out) {
        return trivet__missing(message, sweep ? "text_out" : "sweep");
    }
    if (number < 0 || number >= sweep->vary.count) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "variant", "is not in the sweep",
                              "count them from 0");
    }
    trivet__bench *const bench = trivet__take(1, sizeof *bench);
    if (!bench) {
        return trivet__no_memory(message);
    }
    bench->sweep = sweep;
    const trivet_status status = write_variant(bench, number, text_out, &said);
    trivet__bench_clear(bench);
    trivet__give_back(bench);
    if (message) {
        *message = said;
    }
    return status;
}
