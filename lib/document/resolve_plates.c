/*
 * How a deck's plate is cut: outline, edge, slots. The plate is laid out once after each of them,
 * so that a complaint names the line that it is about.
 */
#include "document/reading.h"

#include <math.h>

/* A plate that is being read. The lists have room for what a plate may have at most. */
typedef struct plate_reading {
    const trivet__reading *reading;
    const trivet__node *map;
    const trivet__thing *thing;
    int32_t deck;
    trivet_plate plate;
    double *corners;    /* [TRIVET_PLATE_CORNERS_MAX][2] */
    trivet_slot *slots; /* [TRIVET_PLATE_SLOTS_MAX] */
} plate_reading;

/* Gives what was read so far to the frame and lays the plate out. */
static trivet_status take_over(const plate_reading *at, const trivet__node *node,
                               const trivet__thing *thing)
{
    const trivet__reading *const reading = at->reading;
    trivet_message_clear(reading->message);
    trivet_status status =
        trivet_frame_set_plate(reading->frame, at->deck, &at->plate, reading->message);
    if (!status) {
        status = trivet_frame_validate_plate(reading->frame, at->deck, reading->message);
    }
    if (status && status != TRIVET_NO_MEMORY) {
        trivet__tell_thing(reading, thing);
    }
    return trivet__locate(reading, node, status);
}

static trivet_status refuse_number(const plate_reading *at, const trivet__node *node,
                                   const trivet__thing *thing, int most, const char *what)
{
    trivet__complain(at->reading, node, thing, TRIVET_BAD_VALUE);
    trivet__message_problem(at->reading->message, "there are more than %d", most);
    trivet__message_remedy(at->reading->message, "give at most %d %s", most, what);
    return TRIVET_BAD_VALUE;
}

static trivet_status read_outline(plate_reading *at)
{
    const trivet__reading *const reading = at->reading;
    const trivet__node *list = NULL;
    trivet__thing thing;
    trivet_status status =
        trivet__read_list_key(reading, at->map, at->thing, "outline",
                              "[[0, 0], [300 mm, 0], [300 mm, 200 mm]]", &thing, &list);
    const trivet__node *item = status || !list ? NULL : trivet__tree_first(reading->tree, list);
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        trivet__thing corner;
        if (at->plate.corner_count == TRIVET_PLATE_CORNERS_MAX) {
            return refuse_number(at, item, &thing, TRIVET_PLATE_CORNERS_MAX, "corners");
        }
        trivet__thing_item(&corner, &thing, "corner", at->plate.corner_count + 1);
        status = trivet__read_row(reading, item, &corner, TRIVET_LENGTH, TRIVET__ANY, 2,
                                  at->corners + (ptrdiff_t)2 * at->plate.corner_count);
        at->plate.corner_count++;
    }
    if (!status && list && at->plate.corner_count == 0) {
        return trivet__refuse_node(reading, list, &thing, TRIVET_INCOMPLETE,
                                   "there is no corner in it",
                                   "write x and y of each corner, or leave it out");
    }
    return status || !list ? status : take_over(at, list, &thing);
}

/* An edge beside an outline would be read past. */
static trivet_status read_edge(plate_reading *at)
{
    const trivet__reading *const reading = at->reading;
    const trivet__node *const node = trivet__member(reading, at->map, "edge");
    trivet__thing thing;
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing_key(&thing, at->thing, "edge");
    if (at->plate.corner_count > 0) {
        return trivet__refuse_node(reading, node, &thing, TRIVET_BAD_VALUE,
                                   "there is an outline already, which says where the plate ends",
                                   "leave out one of the two");
    }
    const trivet_status status =
        trivet__read_value(reading, node, &thing, TRIVET_LENGTH, TRIVET__POSITIVE, &at->plate.edge);
    return status ? status : take_over(at, node, &thing);
}

static trivet_status read_slot(const plate_reading *at, const trivet__node *map,
                               const trivet__thing *thing, trivet_slot *slot)
{
    const trivet__reading *const reading = at->reading;
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_SLOT);
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "from", TRIVET_LENGTH, TRIVET__ANY, 2,
                                      slot->from);
    }
    if (!status) {
        status = trivet__read_row_key(reading, map, thing, "to", TRIVET_LENGTH, TRIVET__ANY, 2,
                                      slot->to);
    }
    return status ? status
                  : trivet__read_key(reading, map, thing, "width", TRIVET_LENGTH, TRIVET__POSITIVE,
                                     &slot->width);
}

static trivet_status read_slots(plate_reading *at)
{
    const trivet__reading *const reading = at->reading;
    const trivet__node *list = NULL;
    trivet__thing thing;
    trivet_status status =
        trivet__read_list_key(reading, at->map, at->thing, "slots",
                              "[{from: [0, 0], to: [0, 40 mm], width: 8 mm}]", &thing, &list);
    const trivet__node *item = status || !list ? NULL : trivet__tree_first(reading->tree, list);
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        trivet__thing place;
        if (at->plate.slot_count == TRIVET_PLATE_SLOTS_MAX) {
            return refuse_number(at, item, &thing, TRIVET_PLATE_SLOTS_MAX, "slots");
        }
        trivet__thing_item(&place, &thing, "slot", at->plate.slot_count + 1);
        status = read_slot(at, item, &place, &at->slots[at->plate.slot_count]);
        at->plate.slot_count++;
        if (!status) {
            status = take_over(at, item, &place);
        }
    }
    return status;
}

trivet_status trivet__read_plate(const trivet__reading *reading, const trivet__node *map,
                                 const trivet__thing *thing, int32_t deck)
{
    plate_reading at = {.reading = reading, .map = map, .thing = thing, .deck = deck};
    trivet_status status = trivet_plate_defaults(&at.plate, sizeof at.plate);
    if (!trivet__member(reading, map, "outline") && !trivet__member(reading, map, "edge") &&
        !trivet__member(reading, map, "slots")) {
        return status;
    }
    at.corners = trivet__room(reading->document, TRIVET_PLATE_CORNERS_MAX, 2 * sizeof *at.corners);
    at.slots = trivet__room(reading->document, TRIVET_PLATE_SLOTS_MAX, sizeof *at.slots);
    if (!at.corners || !at.slots) {
        status = trivet__no_memory(reading->message);
    }
    at.plate.corners = at.corners;
    at.plate.slots = at.slots;
    if (!status) {
        status = read_outline(&at);
    }
    if (!status) {
        status = read_edge(&at);
    }
    if (!status) {
        status = read_slots(&at);
    }
    return status;
}
