/*
 * Tubes: where they run, what of, how their ends are made, what slides inside.
 */
#include "document/reading.h"

#include <assert.h>
#include <string.h>

/* A tube that is being read. */
typedef struct tube_reading {
    const trivet__reading *reading;
    const trivet__node *map;
    const trivet__thing *thing;
    int32_t tube;
    const int32_t *joints;
    int32_t joint_count;
    trivet__tube_note *note;
} tube_reading;

static trivet_status refuse_one_joint(const trivet__reading *reading, const trivet__node *node,
                                      const trivet__thing *thing, int32_t count)
{
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(reading->message, "runs through %s",
                            count == 0 ? "no joint" : "one joint only");
    trivet__message_remedy(reading->message, "name at least its two ends");
    return status;
}

/* A joint that a key of `ends` or `offset` names: one of the tube's own. */
static trivet_status read_own_joint(const tube_reading *tube, const trivet__node *node,
                                    const trivet__thing *thing, int only_ends, int32_t *place_out)
{
    int32_t joint = -1;
    const trivet_status status =
        trivet__read_thing(tube->reading, node, thing, TRIVET_KIND_JOINT, &joint);
    if (status) {
        return status;
    }
    for (int32_t i = 0; i < tube->joint_count; i++) {
        const int is_end = i == 0 || i == tube->joint_count - 1;
        if (tube->joints[i] == joint && (is_end || !only_ends)) {
            *place_out = i;
            return TRIVET_OK;
        }
    }
    char shown[TRIVET__SHOWN_MAX];
    trivet__complain(tube->reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(tube->reading->message, "joint %s is %s of this tube",
                            trivet__shown(tube->reading, node, shown),
                            only_ends ? "not an end" : "no joint");
    trivet__message_remedy(
        tube->reading->message, "name %s%s%s",
        trivet_frame_name(tube->reading->frame, TRIVET_KIND_JOINT, tube->joints[0]),
        only_ends ? " or " : ", or another that it runs through, up to ",
        trivet_frame_name(tube->reading->frame, TRIVET_KIND_JOINT,
                          tube->joints[tube->joint_count - 1]));
    return TRIVET_BAD_VALUE;
}

/* {free: [...], weld: ..., bolts: ...} */
static trivet_status read_end_map(const tube_reading *tube, const trivet__node *map,
                                  const trivet__thing *thing, int32_t joint, uint32_t *bits_out)
{
    const trivet__reading *const reading = tube->reading;
    const trivet__node *const free = trivet__member(reading, map, "free");
    const trivet__node *const bolts = trivet__member(reading, map, "bolts");
    const trivet__bolted where = {TRIVET_KIND_TUBE, tube->tube, joint,
                                  trivet_frame_tube_stock(reading->frame, tube->tube)};
    trivet__thing key;
    *bits_out = 0;
    trivet__thing_key(&key, thing, "free");
    trivet_status status =
        free ? trivet__read_directions(reading, free, &key, bits_out) : TRIVET_OK;
    if (!status) {
        status = trivet__read_weld_key(reading, map, thing, tube->tube, joint);
    }
    if (!status && bolts) {
        trivet__thing_key(&key, thing, "bolts");
        status = trivet__read_bolts(reading, NULL, bolts, &key, &where);
    }
    return status;
}

/* pinned, rigid, or a map */
static trivet_status read_end(const tube_reading *tube, const trivet__node *name,
                              const trivet__node *value, const trivet__thing *within)
{
    const trivet__reading *const reading = tube->reading;
    trivet__thing thing;
    int32_t place = 0;
    uint32_t bits = TRIVET_PINNED;
    trivet__thing_pair(&thing, within, name);
    trivet_status status = read_own_joint(tube, name, within, 1, &place);
    if (status) {
        return status;
    }
    if (value->kind == TRIVET__MAP) {
        status = trivet__check_keys(reading, value, name, &thing, TRIVET__KEYS_END);
        if (!status) {
            status = read_end_map(tube, value, &thing, tube->joints[place], &bits);
        }
    } else {
        const char *const words[] = {"pinned", "rigid"};
        int32_t choice = 0;
        status = trivet__read_choice(reading, value, &thing, words, 2, &choice);
        bits = choice == 0 ? TRIVET_PINNED : 0;
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_set_free_end(reading->frame, tube->tube, tube->joints[place], bits,
                                           reading->message);
        trivet__locate(reading, value, status);
        tube->note->free[place == 0 ? 0 : 1] = bits;
    }
    return status;
}

static trivet_status read_offset(const tube_reading *tube, const trivet__node *name,
                                 const trivet__node *value, const trivet__thing *within)
{
    const trivet__reading *const reading = tube->reading;
    trivet__thing thing;
    int32_t place = 0;
    double offset[3] = {0.0, 0.0, 0.0};
    trivet__thing_pair(&thing, within, name);
    trivet_status status = read_own_joint(tube, name, within, 0, &place);
    if (!status) {
        status = trivet__read_row(reading, value, &thing, TRIVET_LENGTH, TRIVET__ANY, 3, offset);
    }
    if (status) {
        return status;
    }
    assert(tube->note);
    if (place == 0 || place == tube->joint_count - 1) {
        memcpy(tube->note->offset[place == 0 ? 0 : 1], offset, sizeof offset);
    }
    trivet_message_clear(reading->message);
    status = trivet_frame_set_offset(reading->frame, tube->tube, tube->joints[place], offset,
                                     reading->message);
    return trivet__locate(reading, value, status);
}

static trivet_status read_cut(const tube_reading *tube, const trivet__node *name,
                              const trivet__node *value, const trivet__thing *within)
{
    trivet__thing thing;
    int32_t place = 0;
    trivet__thing_pair(&thing, within, name);
    const trivet_status status = read_own_joint(tube, name, within, 1, &place);
    return status ? status
                  : trivet__read_cut(tube->reading, value, &thing, tube->tube, tube->joints[place]);
}

typedef trivet_status read_pair(const tube_reading *tube, const trivet__node *name,
                                const trivet__node *value, const trivet__thing *within);

static trivet_status read_pairs(const tube_reading *tube, const char *key, read_pair *read)
{
    const trivet__tree *const tree = tube->reading->tree;
    trivet__thing thing;
    const trivet__node *map = NULL;
    trivet_status status =
        trivet__read_map_key(tube->reading, tube->map, tube->thing, key, &thing, &map);
    trivet__pair pair = trivet__tree_first_pair(tree, map);
    for (; pair.name && !status; pair = trivet__tree_next_pair(tree, pair)) {
        status = read(tube, pair.name, pair.value, &thing);
    }
    return status;
}

static trivet_status read_insert(const tube_reading *tube, const trivet__node *map,
                                 const trivet__thing *thing)
{
    const trivet__reading *const reading = tube->reading;
    const char *const words[] = {"side by side", "together"}; /* as trivet_bond counts */
    trivet__insert_note insert = {.tube = tube->tube, .bond = TRIVET_SIDE_BY_SIDE};
    trivet__thing key;
    int32_t place = 0;
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_INSERT);
    if (!status) {
        trivet__thing_key(&key, thing, "at");
        status = read_own_joint(tube, trivet__member(reading, map, "at"), &key, 0, &place);
    }
    if (!status) {
        status = trivet__read_key(reading, map, thing, "length", TRIVET_LENGTH, TRIVET__POSITIVE,
                                  &insert.length);
    }
    if (!status) {
        status =
            trivet__read_thing_key(reading, map, thing, "stock", TRIVET_KIND_STOCK, &insert.stock);
    }
    if (!status) {
        status = trivet__read_choice_key(reading, map, thing, "bond", words, 2, &insert.bond);
    }
    if (status) {
        return status;
    }
    insert.joint = tube->joints[place];
    trivet_message_clear(reading->message);
    status = trivet_frame_add_insert(reading->frame, tube->tube, insert.joint, insert.length,
                                     insert.stock, insert.bond, reading->message);
    trivet__locate(reading, map, status);
    if (!status &&
        !trivet__note(reading->document, &reading->document->inserts, &insert, sizeof insert)) {
        status = trivet__no_memory(reading->message);
    }
    return status;
}

static trivet_status read_inserts(const tube_reading *tube)
{
    const trivet__reading *const reading = tube->reading;
    const trivet__node *list = NULL;
    trivet__thing within;
    trivet_status status =
        trivet__read_list_key(reading, tube->map, tube->thing, "inserts",
                              "[{at: A, length: 40 mm, stock: plug}]", &within, &list);
    const trivet__node *item = status ? NULL : trivet__tree_first(reading->tree, list);
    for (int32_t i = 1; item && !status; i++) {
        trivet__thing thing;
        trivet__thing_item(&thing, tube->thing, "insert", i);
        status = read_insert(tube, item, &thing);
        item = trivet__tree_next(reading->tree, item);
    }
    return status;
}

/* The tube itself; its ends, offsets and inserts follow. */
static trivet_status add_tube(tube_reading *tube, const trivet__node *name)
{
    const trivet__reading *const reading = tube->reading;
    int32_t stock = -1;
    trivet__tube_note note;
    memset(&note, 0, sizeof note);
    trivet_status status =
        trivet__read_thing_key(reading, tube->map, tube->thing, "stock", TRIVET_KIND_STOCK, &stock);
    if (!status) {
        status = trivet__read_key(reading, tube->map, tube->thing, "roll", TRIVET_ANGLE,
                                  TRIVET__ANY, &note.roll);
    }
    if (status) {
        return status;
    }
    trivet_message_clear(reading->message);
    status =
        trivet_frame_add_tube(reading->frame, trivet__tree_text(reading->tree, name), tube->joints,
                              tube->joint_count, stock, note.roll, &tube->tube, reading->message);
    trivet__locate(reading, name, status);
    if (!status) {
        status = trivet__add_place(reading, TRIVET_KIND_TUBE, name);
    }
    tube->note =
        status ? NULL
               : trivet__note(reading->document, &reading->document->tubes, &note, sizeof note);
    return !status && !tube->note ? trivet__no_memory(reading->message) : status;
}

static trivet_status read_rest(tube_reading *tube, const trivet__node *name)
{
    trivet_status status = add_tube(tube, name);
    assert(tube->reading->met && (status || tube->note));
    for (int32_t i = 0; i < tube->joint_count; i++) {
        tube->reading->met[tube->joints[i]] = 1;
    }
    if (!status) {
        status = trivet__read_weld_key(tube->reading, tube->map, tube->thing, tube->tube, -1);
    }
    if (!status) {
        status = read_pairs(tube, "ends", read_end);
    }
    if (!status) {
        status = read_pairs(tube, "offset", read_offset);
    }
    if (!status) {
        status = read_pairs(tube, "cut", read_cut);
    }
    return status ? status : read_inserts(tube);
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__thing thing;
    trivet__thing key;
    const char *text = NULL;
    int32_t *joints = NULL;
    int32_t count = 0;
    trivet__thing_named(&thing, "tube", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_TUBE);
    }
    if (status) {
        return status;
    }
    const trivet__node *const through = trivet__member(reading, map, "through");
    trivet__thing_key(&key, &thing, "through");
    status = trivet__read_joints(reading, through, &key, &joints, &count);
    if (!status && count < 2) {
        status = refuse_one_joint(reading, through, &thing, count);
    }
    if (!status) {
        tube_reading tube = {.reading = reading,
                             .map = map,
                             .thing = &thing,
                             .joints = joints,
                             .joint_count = count};
        status = read_rest(&tube, name);
    }
    return status;
}

trivet_status trivet__read_tubes(trivet__reading *reading)
{
    const trivet__node *map = NULL;
    trivet_status status = trivet__read_section(reading, "tubes", &map);
    reading->met = trivet__room(reading->document,
                                (size_t)trivet_frame_count(reading->frame, TRIVET_KIND_JOINT), 1);
    if (!status && !reading->met) {
        status = trivet__no_memory(reading->message);
    }
    return status ? status : trivet__each_pair(reading, map, read_one);
}
