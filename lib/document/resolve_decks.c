/*
 * Decks: plates on top, with their screws. A deck's own weight is a cargo of its name.
 */
#include "document/reading.h"

#include <string.h>

/* A deck that is being read. */
typedef struct deck_reading {
    const trivet__reading *reading;
    const trivet__node *name;
    const trivet__node *map;
    const trivet__thing *thing;
    const int32_t *joints;
    int32_t joint_count;
} deck_reading;

/* The middle of the joints unless the file says where the weight sits. */
static trivet_status read_centre(const deck_reading *deck, double centre[3])
{
    memset(centre, 0, 3 * sizeof *centre);
    for (int32_t i = 0; i < deck->joint_count; i++) {
        const double *const at = trivet_frame_position(deck->reading->frame, deck->joints[i]);
        for (int k = 0; k < 3; k++) {
            centre[k] += at[k] / deck->joint_count;
        }
    }
    return trivet__read_row_key(deck->reading, deck->map, deck->thing, "centre", TRIVET_LENGTH,
                                TRIVET__ANY, 3, centre);
}

/* A centre alone would be read past, and the deck be taken to weigh nothing. */
static trivet_status refuse_centre(const deck_reading *deck)
{
    const trivet__node *const centre = trivet__member(deck->reading, deck->map, "centre");
    trivet__thing thing;
    trivet__thing_key(&thing, deck->thing, "centre");
    return centre ? trivet__refuse_node(deck->reading, centre, &thing, TRIVET_INCOMPLETE,
                                        "there is no weight that it could be the centre of",
                                        "add mass: 2 kg, or leave it out")
                  : TRIVET_OK;
}

static trivet_status add_weight(const deck_reading *deck)
{
    const trivet__reading *const reading = deck->reading;
    const char *const name = trivet__tree_text(reading->tree, deck->name);
    double centre[3];
    double mass = 0.0;
    int32_t cargo = -1;
    trivet_status status = trivet__read_key(reading, deck->map, deck->thing, "mass", TRIVET_MASS,
                                            TRIVET__NOT_NEGATIVE, &mass);
    if (status || !trivet__member(reading, deck->map, "mass")) {
        return status ? status : refuse_centre(deck);
    }
    status = read_centre(deck, centre);
    if (!status) {
        trivet_message_clear(reading->message);
        status =
            trivet_frame_add_cargo(reading->frame, name, centre, deck->joints, deck->joint_count,
                                   TRIVET_GRIP_SOFT, &cargo, reading->message);
        trivet__locate(reading, deck->name, status);
    }
    if (!status) {
        trivet_message_clear(reading->message);
        status = trivet_frame_add_item(reading->frame, cargo, "plate", mass, reading->message);
        trivet__locate(reading, deck->name, status);
    }
    return status ? status : trivet__add_place(reading, TRIVET_KIND_CARGO, deck->name);
}

static trivet_status add_deck(const deck_reading *deck)
{
    const trivet__reading *const reading = deck->reading;
    const trivet__node *const screws = trivet__member(reading, deck->map, "screws");
    int32_t index = -1;
    trivet__thing thing;
    trivet_message_clear(reading->message);
    trivet_status status =
        trivet_frame_add_deck(reading->frame, trivet__tree_text(reading->tree, deck->name),
                              deck->joints, deck->joint_count, &index, reading->message);
    trivet__locate(reading, deck->name, status);
    if (!status) {
        status = trivet__add_place(reading, TRIVET_KIND_DECK, deck->name);
    }
    trivet__thing_key(&thing, deck->thing, "screws");
    for (int32_t i = 0; screws && i < deck->joint_count && !status; i++) {
        const trivet__bolted where = {TRIVET_KIND_DECK, index, deck->joints[i], -1};
        status = trivet__read_bolts(reading, NULL, screws, &thing, &where);
    }
    if (!status) {
        status = trivet__read_plate(reading, deck->map, deck->thing, index);
    }
    return status ? status : add_weight(deck);
}

static trivet_status read_one(const trivet__reading *reading, const trivet__node *name,
                              const trivet__node *map)
{
    trivet__thing thing;
    trivet__thing key;
    const char *text = NULL;
    int32_t *joints = NULL;
    int32_t count = 0;
    trivet__thing_named(&thing, "deck", name);
    trivet_status status = trivet__read_name(reading, name, &thing, &text);
    if (!status) {
        status = trivet__check_keys(reading, map, name, &thing, TRIVET__KEYS_DECK);
    }
    if (!status) {
        trivet__thing_key(&key, &thing, "on");
        status =
            trivet__read_joints(reading, trivet__member(reading, map, "on"), &key, &joints, &count);
    }
    if (!status && count == 0) {
        status =
            trivet__refuse_node(reading, trivet__member(reading, map, "on"), &key,
                                TRIVET_INCOMPLETE, "lies on no joint", "name the joints under it");
    }
    if (!status) {
        const deck_reading deck = {reading, name, map, &thing, joints, count};
        status = add_deck(&deck);
    }
    return status;
}

trivet_status trivet__read_decks(trivet__reading *reading)
{
    return trivet__each_in_section(reading, "decks", read_one);
}
