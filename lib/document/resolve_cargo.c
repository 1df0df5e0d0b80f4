/*
 * Cargo: a ledger of masses, its centre of gravity, what it rests on.
 */
#include "document/reading.h"

#include <string.h>

/* The joints of a deck. */
static trivet_status take_deck(const trivet__reading *reading, int32_t deck, int32_t **joints_out,
                               int32_t *count_out)
{
    const int32_t *const joints = trivet_frame_deck_joints(reading->frame, deck, count_out);
    *joints_out = trivet__room(reading->document, (size_t)*count_out, sizeof **joints_out);
    if (!*joints_out) {
        return trivet__no_memory(reading->message);
    }
    memcpy(*joints_out, joints, (size_t)*count_out * sizeof **joints_out);
    return TRIVET_OK;
}

static int is_named(const trivet__reading *reading, int32_t kind, const char *name)
{
    int32_t index = -1;
    return trivet_frame_find(reading->frame, kind, name, &index, NULL) == TRIVET_OK;
}

/* A deck has its joints already: it stands alone, not among joints. */
static trivet_status refuse_decks(const trivet__reading *reading, const trivet__node *list,
                                  const trivet__thing *thing)
{
    const trivet__node *item =
        list->kind == TRIVET__LIST ? trivet__tree_first(reading->tree, list) : NULL;
    for (; item; item = trivet__tree_next(reading->tree, item)) {
        const char *const name =
            item->kind == TRIVET__SCALAR ? trivet__tree_text(reading->tree, item) : "";
        if (is_named(reading, TRIVET_KIND_DECK, name) &&
            !is_named(reading, TRIVET_KIND_JOINT, name)) {
            trivet__complain(reading, item, thing, TRIVET_BAD_NAME);
            trivet__message_problem(reading->message, "\"%s\" is a deck, which has its own joints",
                                    name);
            trivet__message_remedy(reading->message, "write it alone: on: %s", name);
            return TRIVET_BAD_NAME;
        }
    }
    return TRIVET_OK;
}

/* A list of joints, or one joint or deck alone. A joint goes before a deck of its name. */
static trivet_status read_on(const trivet__reading *reading, const trivet__node *node,
                             const trivet__thing *thing, int32_t **joints_out, int32_t *count_out)
{
    int32_t deck = -1;
    const char *const text =
        node->kind == TRIVET__SCALAR ? trivet__tree_text(reading->tree, node) : "";
    if (trivet_frame_find(reading->frame, TRIVET_KIND_DECK, text, &deck, NULL) == TRIVET_OK &&
        !is_named(reading, TRIVET_KIND_JOINT, text)) {
        return take_deck(reading, deck, joints_out, count_out);
    }
    const trivet_status refused = refuse_decks(reading, node, thing);
    if (refused) {
        return refused;
    }
    if (node->kind == TRIVET__SCALAR && !trivet__tree_is_nothing(reading->tree, node)) {
        *joints_out = trivet__room(reading->document, 1, sizeof **joints_out);
        *count_out = 1;
        return *joints_out
                   ? trivet__read_thing(reading, node, thing, TRIVET_KIND_JOINT, *joints_out)
                   : trivet__no_memory(reading->message);
    }
    const trivet_status status = trivet__read_joints(reading, node, thing, joints_out, count_out);
    if (!status && *count_out == 0) {
        return trivet__refuse_node(reading, node, thing, TRIVET_INCOMPLETE, "rests on no joint",
                                   "name the joints under it");
    }
    return status;
}

static trivet_status add_item(const trivet__reading *reading, const trivet__node *value,
                              const trivet__thing *thing, int32_t cargo, const char *name)
{
    double mass = 0.0;
    trivet_status status =
        trivet__read_value(reading, value, thing, TRIVET_MASS, TRIVET__NOT_NEGATIVE, &mass);
    if (!status) {
        mass *= trivet__override_cargo(reading->overrides,
                                       trivet_frame_name(reading->frame, TRIVET_KIND_CARGO, cargo));
        trivet_message_clear(reading->message);
        status = trivet_frame_add_item(reading->frame, cargo, name, mass, reading->message);
        trivet__locate(reading, value, status);
    }
    return status;
}

/* Mass and centre of one item: a mass, or a map of both. */
static trivet_status read_placed(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, double *mass, double centre[3])
{
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_ITEM);
    if (!status) {
        status =
            trivet__read_key(reading, map, thing, "mass", TRIVET_MASS, TRIVET__NOT_NEGATIVE, mass);
    }
    return status ? status
                  : trivet__read_row_key(reading, map, thing, "centre", TRIVET_LENGTH, TRIVET__ANY,
                                         3, centre);
}

/*
 * The common centre of items that have one each. *is_found_out 0 if none has; one without among
 * others is refused.
 */
static trivet_status find_centre(const trivet__reading *reading, const trivet__node *items,
                                 const trivet__thing *within, double centre[3], int *is_found_out)
{
    trivet_status status = TRIVET_OK;
    trivet__pair pair = trivet__tree_first_pair(reading->tree, items);
    double sum = 0.0;
    double moments[3] = {0.0, 0.0, 0.0};
    int placed = 0;
    int count = 0;
    for (; pair.name && !status; pair = trivet__tree_next_pair(reading->tree, pair), count++) {
        trivet__thing item;
        double mass = 0.0;
        double at[3] = {0.0, 0.0, 0.0};
        trivet__thing_pair(&item, within, pair.name);
        if (pair.value->kind == TRIVET__MAP) {
            status = read_placed(reading, pair.value, &item, &mass, at);
            placed++;
        }
        sum += mass;
        for (int i = 0; i < 3; i++) {
            moments[i] += mass * at[i];
        }
        if (!status && placed != 0 && placed != count + 1) {
            status = trivet__refuse_node(reading, pair.value, &item, TRIVET_INCOMPLETE,
                                         "some items have a centre, this one has none",
                                         "give every item a centre, or the cargo one for all");
        }
    }
    *is_found_out = placed > 0 && sum > 0.0;
    for (int i = 0; i < 3 && *is_found_out; i++) {
        centre[i] = moments[i] / sum;
    }
    return status;
}

static trivet_status read_items(const trivet__reading *reading, const trivet__node *items,
                                const trivet__thing *within, int32_t cargo)
{
    trivet__thing thing;
    trivet__thing_key(&thing, within, "items");
    trivet_status status = trivet__need_map(reading, items, &thing);
    trivet__pair pair = trivet__tree_first_pair(reading->tree, items);
    for (; pair.name && !status; pair = trivet__tree_next_pair(reading->tree, pair)) {
        trivet__thing item;
        const char *text = NULL;
        const trivet__node *mass = pair.value;
        trivet__thing_pair(&item, within, pair.name);
        status = trivet__read_name(reading, pair.name, &item, &text);
        if (!status && mass->kind == TRIVET__MAP) {
            mass = trivet__member(reading, mass, "mass");
        }
        if (!status) {
            status = add_item(reading, mass, &item, cargo, text);
        }
    }
    return status;
}

static trivet_status read_ledger(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__node *name, const trivet__thing *thing,
                                 int32_t cargo)
{
    const trivet__node *const mass = trivet__member(reading, map, "mass");
    const trivet__node *const items = trivet__member(reading, map, "items");
    if (mass && items) {
        return trivet__refuse_node(reading, mass, thing, TRIVET_BAD_KEY,
                                   "has both \"mass\" and \"items\"",
                                   "keep one; the items are added up");
    }
    if (!mass && !items) {
        return trivet__refuse_node(reading, name, thing, TRIVET_INCOMPLETE, "has no mass",
                                   "add mass: 14 kg, or items: {box: 4 kg, contents: 10 kg}");
    }
    if (items) {
        return read_items(reading, items, thing, cargo);
    }
    trivet__thing key;
    trivet__thing_key(&key, thing, "mass");
    return add_item(reading, mass, &key, cargo, "mass");
}

static trivet_status read_grip(const trivet__reading *reading, const trivet__node *map,
                               const trivet__thing *within, int32_t *grip_out)
{
    const char *const words[] = {"stiff", "soft"}; /* as trivet_grip counts */
    /* A soft grip adds no stiffness that nobody asked for. */
    *grip_out = TRIVET_GRIP_SOFT;
    return trivet__read_choice_key(reading, map, within, "grip", words, 2, grip_out);
}

/* The cargo's own centre, or that of its items. */
static trivet_status read_centre(const trivet__reading *reading, const trivet__node *name,
                                 const trivet__node *map, const trivet__thing *thing,
                                 double centre[3])
{
    const trivet__node *const own = trivet__member(reading, map, "centre");
    const trivet__node *const items = trivet__member(reading, map, "items");
    int is_found = 0;
    trivet_status status = TRIVET_OK;
    if (items && items->kind == TRIVET__MAP) {
        status = find_centre(reading, items, thing, centre, &is_found);
    }
    if (!status && own && is_found) {
        return trivet__refuse_node(reading, own, thing, TRIVET_BAD_KEY,
                                   "has a centre, and so have its items",
                                   "keep one; that of the items is worked out");
    }
    if (!status && !own && !is_found) {
        return trivet__refuse_node(reading, name, thing, TRIVET_INCOMPLETE, "\"centre\" is missing",
                                   "add it, such as centre: [-250 mm, 0, 200 mm]");
    }
    return status || is_found ? status
                              : trivet__read_row_key(reading, map, thing, "centre", TRIVET_LENGTH,
                                                     TRIVET__ANY, 3, centre);
}

static trivet_status add_cargo(const trivet__reading *reading, const trivet__node *name,
                               const trivet__node *map, const trivet__thing *thing,
                               int32_t *cargo_out)
{
    trivet__thing key;
    double centre[3] = {0.0, 0.0, 0.0};
    int32_t grip = TRIVET_GRIP_SOFT;
    int32_t *joints = NULL;
    int32_t count = 0;
    trivet_status status = read_centre(reading, name, map, thing, centre);
    if (!status) {
        status = read_grip(reading, map, thing, &grip);
    }
    if (!status) {
        trivet__thing_key(&key, thing, "on");
        status = read_on(reading, trivet__member(reading, map, "on"), &key, &joints, &count);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_cargo(reading->frame, trivet__tree_text(reading->tree, name),
                                        centre, joints, count, grip, cargo_out, reading->message);
        trivet__locate(reading, name, status);
    }
    return status;
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__thing thing;
    const char *text = NULL;
    int32_t cargo = -1;
    trivet__thing_named(&thing, "cargo", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_CARGO);
    }
    if (!status) {
        status = add_cargo(reading, name, map, &thing, &cargo);
    }
    if (!status) {
        status = read_ledger(reading, map, name, &thing, cargo);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_CARGO, name);
}

trivet_status trivet__read_cargo(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "cargo", read_one);
}
