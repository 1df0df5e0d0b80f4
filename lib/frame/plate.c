/*
 * What the user says of a deck's plate: an outline or an edge, and slots.
 */
#include "base/defaults.h"
#include "frame/border.h"
#include "frame/frame.h"
#include "frame/plane_figure.h"

#include <math.h>
#include <string.h>

static const char *const kind = "deck";

trivet_status trivet_plate_defaults(trivet_plate *plate, size_t size)
{
    const trivet_status status = trivet__defaults(plate, size, sizeof *plate);
    if (status == TRIVET_OK) {
        plate->edge = (double)NAN;
    }
    return status;
}

static trivet_status check_corners(const char *name, const trivet_plate *plate,
                                   trivet_message *message)
{
    const int32_t count = plate->corner_count;
    int32_t one = 0;
    int32_t other = 0;
    if (count < 3 || count > TRIVET_PLATE_CORNERS_MAX) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "", "");
        trivet__message_problem(message, "its outline has %d corner%s", (int)count,
                                count == 1 ? "" : "s");
        trivet__message_remedy(message, "give 3 to %d corners", (int)TRIVET_PLATE_CORNERS_MAX);
        return TRIVET_BAD_VALUE;
    }
    const trivet__number_of of = {kind, name, "corner of its outline", TRIVET_LENGTH};
    const trivet_status status = trivet__numbers_check(plate->corners, 2 * count, of, message);
    if (status == TRIVET_OK && trivet__polygon_crosses(plate->corners, count, &one, &other)) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "",
                             "give its corners one after the other round the plate, none twice");
        trivet__message_problem(message,
                                "sides %d and %d of its outline cross or lie on each other",
                                (int)one + 1, (int)other + 1);
        return TRIVET_BAD_VALUE;
    }
    return status;
}

static trivet_status check_slots(const char *name, const trivet_plate *plate,
                                 trivet_message *message)
{
    if (plate->slot_count < 0 || plate->slot_count > TRIVET_PLATE_SLOTS_MAX) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "", "");
        trivet__message_problem(message, "it has %d slots", (int)plate->slot_count);
        trivet__message_remedy(message, "give at most %d", (int)TRIVET_PLATE_SLOTS_MAX);
        return TRIVET_BAD_VALUE;
    }
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; plate->slots && i < plate->slot_count && status == TRIVET_OK; i++) {
        const trivet_slot *const slot = &plate->slots[i];
        const double ends[4] = {slot->from[0], slot->from[1], slot->to[0], slot->to[1]};
        trivet__number_of of = {kind, name, "end of a slot", TRIVET_LENGTH};
        status = trivet__numbers_check(ends, 4, of, message);
        of.what = "width of a slot";
        if (status == TRIVET_OK) {
            status = trivet__positive_check(slot->width, of, message);
        }
        if (status == TRIVET_OK && !(hypot(ends[2] - ends[0], ends[3] - ends[1]) > 0.0)) {
            status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name, "",
                                          "say where its two round ends are");
            trivet__message_problem(message, "slot %d runs from a place to the same place",
                                    (int)i + 1);
        }
    }
    return status;
}

static trivet_status check_plate(const char *name, const trivet_plate *plate,
                                 trivet_message *message)
{
    trivet_status status = trivet__size_check(plate->size, sizeof *plate, "plate",
                                              "fill it with its defaults first", message);
    if (status == TRIVET_OK && plate->corner_count > 0 && !plate->corners) {
        status = trivet__missing(message, "corners");
    }
    if (status == TRIVET_OK && plate->slot_count > 0 && !plate->slots) {
        status = trivet__missing(message, "slots");
    }
    if (status == TRIVET_OK && plate->corner_count != 0) {
        status = check_corners(name, plate, message);
    }
    if (status == TRIVET_OK) {
        status = check_slots(name, plate, message);
    }
    if (status == TRIVET_OK && !isnan(plate->edge)) {
        const trivet__number_of of = {kind, name, "edge", TRIVET_LENGTH};
        status = trivet__positive_check(plate->edge, of, message);
    }
    return status;
}

trivet_status trivet_frame_set_plate(trivet_frame *frame, int32_t deck, const trivet_plate *plate,
                                     trivet_message *message)
{
    if (!frame || !plate) {
        return trivet__missing(message, frame ? "plate" : "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_DECK, deck, message);
    if (status == TRIVET_OK) {
        status = check_plate(frame->decks[deck].name, plate, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__deck *const of = &frame->decks[deck];
    const size_t corner_count = (size_t)plate->corner_count;
    const size_t slot_count = (size_t)plate->slot_count;
    double *const corners =
        trivet__pool_replace(&frame->pool, &of->plate,
                             corner_count * 2 * sizeof *corners + slot_count * sizeof *of->slots);
    if (!corners) {
        return trivet__no_memory(message);
    }
    trivet_slot *const slots = (trivet_slot *)(corners + 2 * corner_count);
    if (corner_count > 0) {
        memcpy(corners, plate->corners, corner_count * 2 * sizeof *corners);
    }
    if (slot_count > 0) {
        memcpy(slots, plate->slots, slot_count * sizeof *slots);
    }
    of->corners = corners;
    of->slots = slots;
    of->corner_count = plate->corner_count;
    of->slot_count = plate->slot_count;
    of->edge = plate->edge;
    return TRIVET_OK;
}

trivet_status trivet_frame_plate(const trivet_frame *frame, int32_t deck, trivet_plate *plate_out)
{
    const trivet_status status = trivet__out_check(frame, plate_out, sizeof *plate_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (deck < 0 || deck >= frame->deck_count) {
        return TRIVET_BAD_INDEX;
    }
    const trivet__deck *const of = &frame->decks[deck];
    plate_out->corner_count = of->corner_count;
    plate_out->slot_count = of->slot_count;
    plate_out->corners = of->corner_count > 0 ? of->corners : NULL;
    plate_out->slots = of->slot_count > 0 ? of->slots : NULL;
    plate_out->edge = of->edge;
    return TRIVET_OK;
}
