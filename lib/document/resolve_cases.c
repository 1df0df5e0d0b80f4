/*
 * Cases and combinations of cases.
 */
#include "document/reading.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

static trivet_status note_load(const trivet__reading *reading, const trivet__load_note *load)
{
    return trivet__note(&reading->document->loads, load, sizeof *load)
               ? TRIVET_OK
               : trivet__no_memory(reading->message);
}

static trivet_status read_factor(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *value, const trivet__thing *within,
                                 int32_t in_case)
{
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    trivet__load_note load = {.kind = TRIVET__LOAD_FACTOR, .in_case = in_case};
    trivet__thing_key(&thing, within, trivet__shown(reading, name, shown));
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
    return status ? status : note_load(reading, &load);
}

static trivet_status read_mount_move(const trivet__reading *reading, const trivet__node *name,
                                     const trivet__node *value, const trivet__thing *within,
                                     int32_t in_case)
{
    static const char *const directions[] = {"x", "y", "z", "rx", "ry", "rz"};
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    double move[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    trivet__load_note load = {.kind = TRIVET__LOAD_MOVE, .in_case = in_case};
    trivet__thing_key(&thing, within, trivet__shown(reading, name, shown));
    trivet_status status =
        trivet__read_thing(reading, name, within, TRIVET_KIND_MOUNT, &load.index);
    if (!status) {
        status = trivet__check_keys(reading, value, name, &thing, TRIVET__KEYS_DIRECTIONS);
    }
    for (int i = 0; i < 6 && !status; i++) {
        status = trivet__read_key(reading, value, &thing, directions[i],
                                  i < 3 ? TRIVET_LENGTH : TRIVET_ANGLE, TRIVET__ANY, &move[i]);
    }
    if (status) {
        return status;
    }
    memcpy(load.first, move, sizeof load.first);
    memcpy(load.last, move + 3, sizeof load.last);
    trivet_message_clear(reading->message);
    status =
        trivet_frame_set_mount_move(reading->frame, in_case, load.index, move, reading->message);
    trivet__locate(reading, value, status);
    return status ? status : note_load(reading, &load);
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
        trivet_message_clear(reading->message);
        status = trivet_frame_set_warm(reading->frame, in_case, load.from, reading->message);
        trivet__locate(reading, node, status);
    }
    return status ? status : note_load(reading, &load);
}

static trivet_status read_loads(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t in_case)
{
    trivet_status status =
        trivet__each_owned_pair(reading, map, thing, "cargo", in_case, read_factor);
    if (!status) {
        status =
            trivet__read_forces(reading, trivet__member(reading, map, "forces"), thing, in_case);
    }
    if (!status) {
        status = trivet__read_tube_forces(reading, trivet__member(reading, map, "tube forces"),
                                          thing, in_case);
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
    char shown[TRIVET__SHOWN_MAX];
    const char *text = NULL;
    double gravity[3] = {0.0, 0.0, 0.0};
    int32_t in_case = -1;
    trivet__thing_set(&thing, "case", trivet__shown(reading, name, shown));
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
    const trivet__node *map = NULL;
    const trivet_status status = trivet__need_section(reading, "cases", &map);
    return status ? status : trivet__each_pair(reading, map, read_case);
}

/* The cases of a combination with their factors, into arrays of node->count. */
static trivet_status read_parts(const trivet__reading *reading, const trivet__node *map,
                                const trivet__thing *thing, int32_t *cases, double *factors)
{
    const trivet__node *name = trivet__tree_first(reading->tree, map);
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; name && !status; i++) {
        const trivet__node *const value = trivet__tree_next(reading->tree, name);
        trivet__thing part;
        char shown[TRIVET__SHOWN_MAX];
        trivet__thing_key(&part, thing, trivet__shown(reading, name, shown));
        status = trivet__read_thing(reading, name, thing, TRIVET_KIND_CASE, &cases[i]);
        if (!status) {
            status =
                trivet__read_value(reading, value, &part, TRIVET_NUMBER, TRIVET__ANY, &factors[i]);
        }
        name = trivet__tree_next(reading->tree, value);
    }
    return status;
}

static trivet_status note_parts(const trivet__reading *reading, int32_t combination,
                                const int32_t *cases, const double *factors, int32_t count)
{
    for (int32_t i = 0; i < count; i++) {
        const trivet__part_note part = {combination, cases[i], factors[i]};
        if (!trivet__note(&reading->document->parts, &part, sizeof part)) {
            return trivet__no_memory(reading->message);
        }
    }
    return TRIVET_OK;
}

static trivet_status read_combination(const trivet__reading *reading, const trivet__node *name,
                                      const trivet__node *map)
{
    trivet__thing thing;
    char shown[TRIVET__SHOWN_MAX];
    const char *text = NULL;
    int32_t combination = -1;
    trivet__thing_set(&thing, "combination", trivet__shown(reading, name, shown));
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__need_map(reading, map, &thing);
    }
    if (status) {
        return status;
    }
    int32_t *const cases = trivet__take((size_t)map->count, sizeof *cases);
    double *const factors = trivet__take((size_t)map->count, sizeof *factors);
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
    trivet__give_back(cases);
    trivet__give_back(factors);
    return status ? status : trivet__add_place(reading, TRIVET_KIND_COMBINATION, name);
}

trivet_status trivet__read_combinations(trivet__reading *reading)
{
    const trivet__node *const map = trivet__member(reading, reading->root, "combine");
    if (!map || trivet__tree_is_nothing(reading->tree, map)) {
        return TRIVET_OK;
    }
    const trivet__thing thing = {"combine"};
    const trivet_status status = trivet__need_map(reading, map, &thing);
    return status ? status : trivet__each_pair(reading, map, read_combination);
}
