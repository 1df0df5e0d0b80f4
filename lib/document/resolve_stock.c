/*
 * Stock: shape by shape, with its material.
 */
#include "document/reading.h"

#include "base/text.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

typedef struct shape_row {
    const char *word;
    int32_t shape;
    trivet__key_place keys;
} shape_row;

static const shape_row shape_rows[] = {
    {"square tube", TRIVET_SHAPE_SQUARE_TUBE, TRIVET__KEYS_SQUARE_TUBE},
    {"rectangular tube", TRIVET_SHAPE_RECTANGULAR_TUBE, TRIVET__KEYS_RECTANGULAR_TUBE},
    {"round tube", TRIVET_SHAPE_ROUND_TUBE, TRIVET__KEYS_ROUND_TUBE},
    {"square bar", TRIVET_SHAPE_SQUARE_BAR, TRIVET__KEYS_SQUARE_BAR},
    {"flat bar", TRIVET_SHAPE_FLAT_BAR, TRIVET__KEYS_FLAT_BAR},
    {"round bar", TRIVET_SHAPE_ROUND_BAR, TRIVET__KEYS_ROUND_BAR},
    {"angle", TRIVET_SHAPE_ANGLE, TRIVET__KEYS_ANGLE},
    {"channel", TRIVET_SHAPE_CHANNEL, TRIVET__KEYS_CHANNEL},
    {"values", TRIVET_SHAPE_GIVEN_VALUES, TRIVET__KEYS_VALUES},
};

enum { SHAPE_COUNT = sizeof shape_rows / sizeof shape_rows[0] };

/* The shape comes first: it decides which keys may follow. */
static trivet_status read_shape(const trivet__reading *reading, const trivet__node *map,
                                const trivet__node *name, const trivet__thing *thing,
                                int32_t *row_out)
{
    const trivet__node *const node = trivet__member(reading, map, "shape");
    trivet_status status = trivet__need_map(reading, map, thing);
    if (status) {
        return status;
    }
    if (!node) {
        return trivet__refuse_node(reading, name, thing, TRIVET_INCOMPLETE, "\"shape\" is missing",
                                   "add it, such as shape: square tube");
    }
    const char *words[SHAPE_COUNT];
    for (int32_t i = 0; i < SHAPE_COUNT; i++) {
        words[i] = shape_rows[i].word;
    }
    trivet__thing place;
    trivet__thing_key(&place, thing, "shape");
    return trivet__read_choice(reading, node, &place, words, SHAPE_COUNT, row_out);
}

static trivet_status read_corner(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, trivet_profile *profile)
{
    const trivet__node *const node = trivet__member(reading, map, "corner");
    if (!node) {
        return TRIVET_OK;
    }
    if (strcmp(trivet__tree_text(reading->tree, node), "sharp") == 0) {
        profile->corner = TRIVET_CORNER_SHARP;
        return TRIVET_OK;
    }
    profile->corner = TRIVET_CORNER_RADIUS;
    return trivet__read_key(reading, map, thing, "corner", TRIVET_LENGTH, TRIVET__POSITIVE,
                            &profile->corner_radius);
}

/* Lengths of a profile by key; a key that the shape does not know is not in the map. */
static trivet_status read_sizes(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, trivet_profile *profile)
{
    const struct {
        const char *key;
        double *value;
    } sizes[] = {
        {"height", &profile->height},     {"width", &profile->width},   {"wall", &profile->wall},
        {"diameter", &profile->diameter}, {"flange", &profile->flange},
    };
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0] && !status; i++) {
        status = trivet__read_key(reading, map, thing, sizes[i].key, TRIVET_LENGTH,
                                  TRIVET__POSITIVE, sizes[i].value);
    }
    double legs[2] = {profile->height, profile->width};
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "legs", TRIVET_LENGTH, TRIVET__POSITIVE,
                                      2, legs);
    }
    profile->height = legs[0];
    profile->width = legs[1];
    return status ? status : read_corner(reading, map, thing, profile);
}

static trivet_status read_given(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, trivet_profile *profile)
{
    const struct {
        const char *key;
        trivet_dimension dimension;
        int32_t count;
        double *values;
    } rows[] = {
        {"area", TRIVET_AREA, 1, &profile->given_area},
        {"shear areas", TRIVET_AREA, 2, profile->given_shear_area},
        {"second moments", TRIVET_SECOND_MOMENT, 2, profile->given_second_moment},
        {"torsion constant", TRIVET_SECOND_MOMENT, 1, &profile->given_torsion_constant},
        {"section moduli", TRIVET_VOLUME, 2, profile->given_section_modulus},
        {"torsion modulus", TRIVET_VOLUME, 1, &profile->given_torsion_modulus},
        {"mass per length", TRIVET_MASS_PER_LENGTH, 1, &profile->given_mass_per_length},
    };
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && !status; i++) {
        status = rows[i].count == 1
                     ? trivet__read_key(reading, map, thing, rows[i].key, rows[i].dimension,
                                        TRIVET__POSITIVE, rows[i].values)
                     : trivet__read_row_key(reading, map, thing, rows[i].key, rows[i].dimension,
                                            TRIVET__POSITIVE, rows[i].count, rows[i].values);
    }
    return status;
}

static trivet_status read_own_material(const trivet__reading *reading, const trivet__node *map,
                                       const trivet__thing *thing, trivet_material *material)
{
    const struct {
        const char *key;
        trivet_dimension dimension;
        double *value;
    } rows[] = {
        {"E", TRIVET_STRESS, &material->E},
        {"G", TRIVET_STRESS, &material->G},
        {"density", TRIVET_DENSITY, &material->density},
        {"yield", TRIVET_STRESS, &material->yield},
        {"tensile", TRIVET_STRESS, &material->tensile},
        {"expansion", TRIVET_EXPANSION, &material->expansion},
    };
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_MATERIAL);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && !status; i++) {
        const int may_be_nothing = strcmp(rows[i].key, "expansion") == 0;
        status = trivet__read_key(reading, map, thing, rows[i].key, rows[i].dimension,
                                  may_be_nothing ? TRIVET__ANY : TRIVET__POSITIVE, rows[i].value);
    }
    trivet__text_copy(material->name, sizeof material->name, "own values");
    trivet__text_copy(material->source, sizeof material->source, "given in the file");
    return status;
}

trivet_status trivet__read_material(const trivet__reading *reading, const trivet__node *map,
                                    const trivet__thing *within, trivet_material *material)
{
    const trivet__node *const node = trivet__member(reading, map, "material");
    trivet__thing thing;
    trivet__thing_key(&thing, within, "material");
    trivet_status status = trivet_material_defaults(material, sizeof *material);
    if (status) {
        return status;
    }
    if (node->kind == TRIVET__MAP) {
        return read_own_material(reading, node, &thing, material);
    }
    const char *name = NULL;
    status = trivet__read_name(reading, node, &thing, &name);
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_material_find(name, material, reading->message);
        if (status && status != TRIVET_NO_MEMORY) {
            trivet__locate(reading, node, status);
            trivet__tell_thing(reading, &thing);
        }
    }
    return status;
}

/* What is wrong with sizes that do not fit each other is told by stock/, under our name for it. */
static trivet_status check_section(const trivet__reading *reading, const trivet__node *map,
                                   const trivet__thing *thing, const trivet_profile *profile)
{
    trivet_section section;
    trivet_status status = trivet_section_defaults(&section, sizeof section);
    trivet_message_clear(reading->message);
    if (!status) {
        status = trivet_section_solve(profile, &section, reading->message);
    }
    if (status && status != TRIVET_NO_MEMORY) {
        trivet__locate(reading, map, status);
        trivet__tell_thing(reading, thing);
    }
    return status;
}

static trivet_status read_profile(const trivet__reading *reading, const trivet__node *name,
                                  const trivet__node *map, const trivet__thing *thing,
                                  trivet_profile *profile)
{
    int32_t row = 0;
    trivet_status status = read_shape(reading, map, name, thing, &row);
    if (!status) {
        status = trivet__check_keys(reading, map, name, thing, shape_rows[row].keys);
    }
    if (!status) {
        status = trivet_profile_defaults(profile, sizeof *profile);
    }
    if (status) {
        return status;
    }
    profile->shape = shape_rows[row].shape;
    return profile->shape == TRIVET_SHAPE_GIVEN_VALUES ? read_given(reading, map, thing, profile)
                                                       : read_sizes(reading, map, thing, profile);
}

/* What it costs, and how much of it there is. */
static trivet_status read_note(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *thing, trivet__stock_note *note)
{
    *note = (trivet__stock_note){(double)NAN, (double)NAN};
    const trivet_status status = trivet__read_key(reading, map, thing, "price", TRIVET_NUMBER,
                                                  TRIVET__NOT_NEGATIVE, &note->price);
    return status ? status
                  : trivet__read_key(reading, map, thing, "have", TRIVET_LENGTH,
                                     TRIVET__NOT_NEGATIVE, &note->have);
}

static trivet_status read_choice(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *map, trivet__stock_choice *choice)
{
    trivet__thing thing;
    const char *text = NULL;
    trivet__thing_named(&thing, "stock", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        trivet__text_copy(choice->name, sizeof choice->name, text);
        status = read_profile(reading, name, map, &thing, &choice->profile);
    }
    if (!status) {
        status = trivet__read_material(reading, map, &thing, &choice->material);
    }
    return status ? status : read_note(reading, map, &thing, &choice->note);
}

trivet_status trivet__read_stock_choice(const trivet__reading *reading, const trivet__node *name,
                                        const trivet__node *map, trivet__stock_choice *choice)
{
    trivet__thing thing;
    trivet__thing_named(&thing, "stock", name);
    const trivet_status status = read_choice(reading, name, map, choice);
    return status ? status : check_section(reading, map, &thing, &choice->profile);
}

/* Adds it to the frame. What is wrong with its sizes is told under our name for it. */
static trivet_status add_stock(const trivet__reading *reading, const trivet__node *name,
                               const trivet__node *map, const trivet__stock_choice *choice)
{
    trivet__thing thing;
    trivet_message_clear(reading->message);
    trivet_status status =
        trivet_frame_add_stock(reading->frame, trivet__tree_text(reading->tree, name),
                               &choice->profile, &choice->material, NULL, reading->message);
    if (status && status != TRIVET_NO_MEMORY) {
        const trivet_message said = *reading->message;
        trivet__thing_named(&thing, "stock", name);
        const trivet_status of_sizes = check_section(reading, map, &thing, &choice->profile);
        if (!of_sizes) {
            *reading->message = said;
        }
        status = of_sizes ? of_sizes : status;
    }
    return trivet__locate(reading, name, status);
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__stock_choice own;
    const trivet__stock_choice *const instead =
        trivet__override_stock(reading->overrides, trivet__tree_text(reading->tree, name));
    trivet_status status = TRIVET_OK;
    if (instead && !instead->node) {
        own = *instead;
    } else {
        status = read_choice(reading, name, instead ? instead->node : map, &own);
    }
    if (!status) {
        status = add_stock(reading, name, instead && instead->node ? instead->node : map, &own);
    }
    if (!status &&
        !trivet__note(reading->document, &reading->document->stocks, &own.note, sizeof own.note)) {
        status = trivet__no_memory(reading->message);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_STOCK, name);
}

trivet_status trivet__read_stock(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "stock", read_one);
}
