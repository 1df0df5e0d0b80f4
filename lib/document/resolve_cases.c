/*
 * Cases and combinations of cases.
 */
#include "document/reading.h"

#include "base/directions.h"

#include <assert.h>
#include <string.h>

void trivet__scale_case(const trivet__reading *reading, int32_t in_case, double *values,
                        int32_t count)
{
    const double factor = trivet__override_case(
        reading->overrides, trivet_frame_name(reading->frame, TRIVET_KIND_CASE, in_case));
    for (int32_t i = 0; i < count && factor != 1.0; i++) {
        values[i] *= factor;
    }
}

static trivet_status read_factor(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *value, const trivet__thing *within,
                                 int32_t in_case)
{
    trivet__thing thing;
    trivet__load_note load = {.kind = TRIVET__LOAD_FACTOR, .in_case = in_case};
    trivet__thing_pair(&thing, within, name);
    trivet_status status =
        trivet__read_thing(reading, name, within, TRIVET_KIND_CARGO, &load.index);
    if (!status) {
        status = trivet__read_value(reading, value, &thing, TRIVET_NUMBER, TRIVET__NOT_NEGATIVE,
                                    &load.from);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_set_cargo_factor(reading->frame, in_case, load.index, load.from,
                                               reading->message);
        trivet__locate(reading, value, status);
    }
    return status ? status : trivet__add_load(reading, &load);
}

static trivet_status read_mount_move(const trivet__reading *reading, const trivet__node *name,
                                     const trivet__node *value, const trivet__thing *within,
                                     int32_t in_case)
{
    trivet__thing thing;
    double move[TRIVET__DIRECTIONS] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    trivet__load_note load = {.kind = TRIVET__LOAD_MOVE, .in_case = in_case};
    trivet__thing_pair(&thing, within, name);
    trivet_status status =
        trivet__read_thing(reading, name, within, TRIVET_KIND_MOUNT, &load.index);
    if (!status) {
        status = trivet__check_keys(reading, value, name, &thing, TRIVET__KEYS_DIRECTIONS);
    }
    for (int i = 0; i < TRIVET__DIRECTIONS && !status; i++) {
        status = trivet__read_key(reading, value, &thing, trivet__direction_words()[i],
                                  i < 3 ? TRIVET_LENGTH : TRIVET_ANGLE, TRIVET__ANY, &move[i]);
    }
    if (status) {
        return status;
    }
    trivet__scale_case(reading, in_case, move, TRIVET__DIRECTIONS);
    memcpy(load.first, move, sizeof load.first);
    memcpy(load.last, move + 3, sizeof load.last);
    trivet_message_clear(reading->message);
    status =
        trivet_frame_set_mount_move(reading->frame, in_case, load.index, move, reading->message);
    trivet__locate(reading, value, status);
    return status ? status : trivet__add_load(reading, &load);
}

static trivet_status read_warm(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *thing, int32_t in_case)
{
    const trivet__node *const node = trivet__member(reading, map, "warm");
    if (!node) {
        return TRIVET_OK;
    }
    trivet__load_note load = {.kind = TRIVET__LOAD_WARM, .in_case = in_case};
    trivet_status status =
        trivet__read_key(reading, map, thing, "warm", TRIVET_TEMPERATURE, TRIVET__ANY, &load.from);
    if (!status) {
        trivet__scale_case(reading, in_case, &load.from, 1);
        trivet_message_clear(reading->message);
        status = trivet_frame_set_warm(reading->frame, in_case, load.from, reading->message);
        trivet__locate(reading, node, status);
    }
    return status ? status : trivet__add_load(reading, &load);
}

static trivet_status read_loads(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t in_case)
{
    trivet_status status =
        trivet__each_owned_pair(reading, map, thing, "cargo", in_case, read_factor);
    if (!status) {
        status = trivet__read_forces(reading, map, thing, in_case);
    }
    if (!status) {
        status = trivet__read_tube_forces(reading, map, thing, in_case);
    }
    if (!status) {
        status =
            trivet__each_owned_pair(reading, map, thing, "mount moves", in_case, read_mount_move);
    }
    return status ? status : read_warm(reading, map, thing, in_case);
}

static trivet_status read_case(const trivet__reading *reading, const trivet__node *name,
                               const trivet__node *map)
{
    trivet__thing thing;
    const char *text = NULL;
    double gravity[3] = {0.0, 0.0, 0.0};
    int32_t in_case = -1;
    trivet__thing_named(&thing, "case", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_CASE);
    }
    if (!status) {
        status = trivet__read_row_key(reading, map, &thing, "gravity", TRIVET_NUMBER, TRIVET__ANY,
                                      3, gravity);
        if (status == TRIVET_BAD_UNIT) {
            trivet__message_remedy(reading->message,
                                   "write multiples of weight: [0, 0, -1] for standing still");
        }
    }
    if (!status) {
        const double factor = trivet__override_case(reading->overrides, text);
        for (int i = 0; i < 3 && factor != 1.0; i++) {
            gravity[i] *= factor;
        }
        trivet_message_clear(reading->message);
        status = trivet_frame_add_case(reading->frame, text, gravity, &in_case, reading->message);
        trivet__locate(reading, name, status);
    }
    if (!status) {
        status = trivet__add_place(reading, TRIVET_KIND_CASE, name);
    }
    return status ? status : read_loads(reading, map, &thing, in_case);
}

trivet_status trivet__read_cases(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "cases", read_case);
}

/* The cases of a combination with their factors, into arrays of node->count. */
static trivet_status read_parts(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t *cases, double *factors)
{
    trivet__pair pair = trivet__tree_first_pair(reading->tree, map);
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; pair.name && !status; i++) {
        trivet__thing part;
        trivet__thing_pair(&part, thing, pair.name);
        status = trivet__read_thing(reading, pair.name, thing, TRIVET_KIND_CASE, &cases[i]);
        if (!status) {
            status = trivet__read_value(reading, pair.value, &part, TRIVET_NUMBER, TRIVET__ANY,
                                        &factors[i]);
        }
        pair = trivet__tree_next_pair(reading->tree, pair);
    }
    return status;
}

static trivet_status note_parts(const trivet__reading *reading, int32_t combination,
                                const int32_t *cases, const double *factors, int32_t count)
{
    for (int32_t i = 0; i < count; i++) {
        const trivet__part_note part = {combination, cases[i], factors[i]};
        if (!trivet__note(reading->document, &reading->document->parts, &part, sizeof part)) {
            return trivet__no_memory(reading->message);
        }
    }
    return TRIVET_OK;
}

static trivet_status read_combination(const trivet__reading *reading, const trivet__node *name,
                                      const trivet__node *map)
{
    trivet__thing thing;
    const char *text = NULL;
    int32_t combination = -1;
    trivet__thing_named(&thing, "combination", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__need_map(reading, map, &thing);
    }
    if (status) {
        return status;
    }
    int32_t *const cases = trivet__room(reading->document, (size_t)map->count, sizeof *cases);
    double *const factors = trivet__room(reading->document, (size_t)map->count, sizeof *factors);
    status = cases && factors ? read_parts(reading, map, &thing, cases, factors)
                              : trivet__no_memory(reading->message);
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_combination(reading->frame, text, cases, factors, map->count,
                                              &combination, reading->message);
        trivet__locate(reading, name, status);
    }
    if (!status) {
        assert(cases && factors);
        status = note_parts(reading, combination, cases, factors, map->count);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_COMBINATION, name);
}

trivet_status trivet__read_combinations(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "combine", read_combination);
}
