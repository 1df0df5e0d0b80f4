/*
 * The vehicle, and usage: ready-made cases for what the frame must stand.
 */
#include "document/reading.h"

#include <math.h>
#include <string.h>

enum { USAGE_COUNT = TRIVET_USAGE_STAND };

typedef struct number_row {
    const char *key;
    trivet_dimension dimension;
    trivet__range range;
    double *value;
} number_row;

static trivet_status read_numbers(const trivet__reading *reading, const trivet__node *map,
                                  const trivet__thing *thing, const number_row *rows, size_t count)
{
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < count && !status; i++) {
        status = trivet__read_key(reading, map, thing, rows[i].key, rows[i].dimension,
                                  rows[i].range, rows[i].value);
    }
    return status;
}

trivet_status trivet__read_vehicle(trivet__reading *reading)
{
    const trivet__node *map = NULL;
    const trivet__thing thing = {.word = "vehicle"};
    trivet_vehicle vehicle;
    trivet_status status = trivet__read_section(reading, "vehicle", &map);
    if (status || !map) {
        return status;
    }
    status = trivet_vehicle_defaults(&vehicle, sizeof vehicle);
    const number_row rows[] = {
        {"wheelbase", TRIVET_LENGTH, TRIVET__POSITIVE, &vehicle.wheelbase},
        {"rear axle", TRIVET_LENGTH, TRIVET__ANY, &vehicle.rear_axle},
        {"ground", TRIVET_LENGTH, TRIVET__ANY, &vehicle.ground},
        {"front load", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.front_load},
        {"rear load", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.rear_load},
        {"front most", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.front_most},
        {"rear most", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.rear_most},
        {"total most", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.total_most},
        {"front least", TRIVET_MASS, TRIVET__POSITIVE, &vehicle.front_least},
        {"grade", TRIVET_ANGLE, TRIVET__NOT_NEGATIVE, &vehicle.grade},
        {"accelerate", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &vehicle.accelerate},
        {"wheel radius", TRIVET_LENGTH, TRIVET__POSITIVE, &vehicle.wheel_radius},
        {"overhang", TRIVET_LENGTH, TRIVET__POSITIVE, &vehicle.overhang_most},
        {"width", TRIVET_LENGTH, TRIVET__POSITIVE, &vehicle.width_most},
    };
    if (!status) {
        status = trivet__check_keys(reading, map, NULL, &thing, TRIVET__KEYS_VEHICLE);
    }
    if (!status) {
        status = read_numbers(reading, map, &thing, rows, sizeof rows / sizeof rows[0]);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_set_vehicle(reading->frame, &vehicle, reading->message);
        trivet__locate(reading, map, status);
    }
    return status;
}

/* The numbers of a usage; map NULL or empty: those that it comes with. */
static trivet_status read_own(const trivet__reading *reading, const trivet__node *map,
                              const trivet__thing *thing, trivet_usage *usage)
{
    const number_row rows[] = {
        {"down", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->down},
        {"up", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->up},
        {"brake", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->brake},
        {"accelerate", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->accelerate},
        {"side", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->side},
        {"lean", TRIVET_ANGLE, TRIVET__NOT_NEGATIVE, &usage->lean},
        {"force", TRIVET_FORCE, TRIVET__NOT_NEGATIVE, &usage->force},
        {"mass", TRIVET_MASS, TRIVET__NOT_NEGATIVE, &usage->mass},
        {"height", TRIVET_LENGTH, TRIVET__POSITIVE, &usage->height},
        {"settle", TRIVET_NUMBER, TRIVET__NOT_NEGATIVE, &usage->settle},
        {"move", TRIVET_LENGTH, TRIVET__POSITIVE, &usage->move},
    };
    if (!map || trivet__tree_is_nothing(reading->tree, map)) {
        return TRIVET_OK;
    }
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_USAGE);
    if (!status) {
        status = read_numbers(reading, map, thing, rows, sizeof rows / sizeof rows[0]);
    }
    if (!status && trivet__member(reading, map, "on")) {
        status =
            trivet__read_thing_key(reading, map, thing, "on", TRIVET_KIND_CARGO, &usage->cargo);
    }
    if (!status && trivet__member(reading, map, "rail")) {
        status =
            trivet__read_thing_key(reading, map, thing, "rail", TRIVET_KIND_TUBE, &usage->tube);
    }
    return status;
}

/* One usage: its name, and what is changed of its numbers. */
static trivet_status add_usage(const trivet__reading *reading, const trivet__node *name,
                               const trivet__node *map)
{
    const char *words[USAGE_COUNT];
    const trivet__thing within = {.word = "usage"};
    trivet__thing thing;
    trivet_usage usage;
    int32_t choice = 0;
    for (int32_t i = 0; i < USAGE_COUNT; i++) {
        words[i] = trivet_usage_text(i + 1);
    }
    trivet__thing_pair(&thing, &within, name);
    trivet_status status = trivet__read_choice(reading, name, &within, words, USAGE_COUNT, &choice);
    if (!status) {
        status = trivet_usage_of(&usage, sizeof usage, choice + 1);
    }
    if (!status) {
        status = read_own(reading, map, &thing, &usage);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_usage(reading->frame, &usage, NULL, reading->message);
        trivet__locate(reading, name, status);
    }
    return status;
}

/* A case that a usage made stands where the usage does. */
static trivet_status note_places(const trivet__reading *reading, const trivet__node *node)
{
    trivet_status status = TRIVET_OK;
    while (!status && reading->document->places[TRIVET_KIND_CASE].count <
                          (size_t)trivet_frame_count(reading->frame, TRIVET_KIND_CASE)) {
        status = trivet__add_place(reading, TRIVET_KIND_CASE, node);
    }
    return status;
}

static trivet_status add_item(const trivet__reading *reading, const trivet__node *item)
{
    trivet_status status = TRIVET_OK;
    if (item->kind == TRIVET__MAP) {
        status = trivet__each_pair(reading, item, add_usage);
    } else {
        status = add_usage(reading, item, NULL);
    }
    return status ? status : note_places(reading, item);
}

/* Without usage, the cases have to stand in the file. */
static trivet_status need_cases(const trivet__reading *reading)
{
    const trivet__node *const node = trivet__member(reading, reading->root, "cases");
    const trivet__thing cases = {.word = "cases"};
    const trivet__thing file = {.word = "the file"};
    if (trivet_frame_count(reading->frame, TRIVET_KIND_CASE) > 0) {
        return TRIVET_OK;
    }
    if (node) {
        return trivet__refuse_node(reading, node, &cases, TRIVET_INCOMPLETE,
                                   "there is nothing in it",
                                   "add at least one, such as cases: {parked: {gravity: [0, 0, "
                                   "-1]}}, or usage: [road]");
    }
    return trivet__refuse_node(reading, reading->root, &file, TRIVET_INCOMPLETE,
                               "\"cases\" is missing",
                               "add it, such as cases: {parked: {gravity: [0, 0, -1]}}, or usage: "
                               "[road]");
}

/* A word, a list of words and maps, or a map. */
trivet_status trivet__read_usage(trivet__reading *reading)
{
    const trivet__node *const node = trivet__member(reading, reading->root, "usage");
    trivet_status status = TRIVET_OK;
    if (!node || trivet__tree_is_nothing(reading->tree, node)) {
        return need_cases(reading);
    }
    if (node->kind != TRIVET__LIST) {
        return add_item(reading, node);
    }
    const trivet__node *item = trivet__tree_first(reading->tree, node);
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        status = add_item(reading, item);
    }
    return status;
}
