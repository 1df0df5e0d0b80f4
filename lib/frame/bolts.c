/*
 * Bolts: sets of them at mounts, ends of tubes and joints of decks.
 */
#include "frame/bolts.h"

#include "base/defaults.h"
#include "base/text.h"
#include "frame/border.h"

#include <assert.h>
#include <math.h>
#include <string.h>

trivet_status trivet_bolts_defaults(trivet_bolts *bolts, size_t size)
{
    const trivet_status status = trivet__defaults(bolts, size, sizeof *bolts);
    if (status != TRIVET_OK) {
        return status;
    }
    const double not_said = (double)NAN;
    bolts->where_index = bolts->joint = bolts->into_stock = bolts->clamped_stock = -1;
    bolts->count = 1;
    /* Common practice: dry zinc-plated steel, a torque wrench, faces as they come. */
    bolts->nut_factor = 0.2;
    bolts->scatter = 0.25;
    bolts->friction = 0.2;
    bolts->engagement = bolts->torque = not_said;
    bolts->rated_pull = bolts->rated_shear = bolts->rated_torque = not_said;
    bolts->plate = bolts->plate_yield = bolts->plate_tensile = not_said;
    bolts->edge = bolts->side = bolts->hole = not_said;
    bolts->spacer_height = bolts->spacer_diameter = not_said;
    bolts->sleeve_diameter = bolts->sleeve_wall = bolts->sleeve_yield = not_said;
    bolts->fixing_diameter = not_said;
    return TRIVET_OK;
}

void trivet__bolts_place(const trivet_frame *frame, const trivet_bolts *bolts,
                         char text[TRIVET__PLACE_TEXT_MAX])
{
    const char *const joint = frame->joints[bolts->joint].name;
    if (bolts->where_kind == TRIVET_KIND_MOUNT) {
        trivet__text_print(text, TRIVET__PLACE_TEXT_MAX, "mount %s", joint);
        return;
    }
    trivet__text_print(text, TRIVET__PLACE_TEXT_MAX, "%s %s at joint %s",
                       trivet_kind_text(bolts->where_kind),
                       trivet_frame_name(frame, bolts->where_kind, bolts->where_index), joint);
}

static trivet_status check_mount(const trivet_frame *frame, const trivet_bolts *bolts,
                                 trivet_message *message)
{
    const int32_t own = frame->mounts[bolts->where_index].joint;
    if (bolts->joint == -1 || bolts->joint == own) {
        return TRIVET_OK;
    }
    const trivet_status status =
        trivet__index_check(frame, TRIVET_KIND_JOINT, bolts->joint, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "bolts of mount %s", frame->joints[own].name);
        return status;
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "bolts of mount", frame->joints[own].name, "",
                         "leave the joint out: bolts of a mount sit at its own");
    trivet__message_problem(message, "they are said to sit at joint %s",
                            frame->joints[bolts->joint].name);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_deck(const trivet_frame *frame, const trivet_bolts *bolts,
                                trivet_message *message)
{
    const trivet__deck *const deck = &frame->decks[bolts->where_index];
    const trivet_status status =
        trivet__index_check(frame, TRIVET_KIND_JOINT, bolts->joint, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "bolts of deck %s", deck->name);
        return status;
    }
    for (int32_t i = 0; i < deck->joint_count; i++) {
        if (deck->joints[i] == bolts->joint) {
            return TRIVET_OK;
        }
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "bolts of deck", deck->name, "",
                         "name a joint of this deck");
    trivet__message_problem(message, "it does not lie on joint %s",
                            frame->joints[bolts->joint].name);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_place(const trivet_frame *frame, const trivet_bolts *bolts,
                                 trivet_message *message)
{
    const int32_t kind = bolts->where_kind;
    if (kind != TRIVET_KIND_MOUNT && kind != TRIVET_KIND_TUBE && kind != TRIVET_KIND_DECK) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "bolts",
                              "it is not said what they are the bolts of",
                              "name a mount, an end of a tube, or a joint of a deck");
    }
    const trivet_status status = trivet__index_check(frame, kind, bolts->where_index, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "bolts");
        return status;
    }
    if (kind == TRIVET_KIND_MOUNT) {
        return check_mount(frame, bolts, message);
    }
    if (kind == TRIVET_KIND_DECK) {
        return check_deck(frame, bolts, message);
    }
    int32_t position = 0;
    const trivet_status end =
        trivet__end_check(frame, bolts->where_index, bolts->joint,
                          "bolt it at its first or last joint", &position, message);
    if (end != TRIVET_OK) {
        trivet__message_within(message, "bolts");
    }
    return end;
}

static int are_bolts_at(const trivet_frame *frame, const trivet_bolts *place)
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        const trivet_bolts *const there = &frame->bolts[i];
        if (there->where_kind == place->where_kind && there->where_index == place->where_index &&
            there->joint == place->joint) {
            return 1;
        }
    }
    return 0;
}

/* Axes that were left out. Those of a tube's own end are left so: the tube may still move. */
static void fill_axes(const trivet_frame *frame, trivet_bolts *made)
{
    static const double zeros[9] = {0.0};
    static const double world[9] = {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0};
    for (int i = 0; i < 9; i++) {
        if (made->axes[i] != zeros[i]) {
            return;
        }
    }
    if (made->where_kind == TRIVET_KIND_MOUNT) {
        memcpy(made->axes, frame->mounts[made->where_index].axes, sizeof made->axes);
    } else {
        memcpy(made->axes, made->where_kind == TRIVET_KIND_DECK ? world : zeros, sizeof made->axes);
    }
}

/* Fills *made from what a caller gives, or refuses. */
static trivet_status make_bolts(const trivet_frame *frame, const trivet_bolts *bolts,
                                trivet_bolts *made, trivet_message *message)
{
    trivet_status status = trivet__size_check(bolts->size, sizeof *bolts, "bolts",
                                              "fill them with their defaults first", message);
    if (status == TRIVET_OK) {
        status = check_place(frame, bolts, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    *made = *bolts;
    if (made->where_kind == TRIVET_KIND_MOUNT) {
        made->joint = frame->mounts[made->where_index].joint;
    }
    char name[TRIVET__PLACE_TEXT_MAX];
    trivet__bolts_place(frame, made, name);
    if (are_bolts_at(frame, made)) {
        return trivet__refuse_thing(message, TRIVET_BAD_NAME, "bolts of", name,
                                    "there are bolts already",
                                    "make one set of them, with a pattern");
    }
    status = trivet__bolts_check(frame, made, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    fill_axes(frame, made);
    if (made->into == TRIVET_INTO_WALL) {
        made->engagement = frame->stocks[made->into_stock].profile.wall;
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_add_bolts(trivet_frame *frame, const trivet_bolts *bolts,
                                     int32_t *bolts_out, trivet_message *message)
{
    if (bolts_out) {
        *bolts_out = -1;
    }
    if (!frame || !bolts) {
        return trivet__missing(message, frame ? "bolts" : "frame");
    }
    trivet_bolts made;
    const trivet_status status = make_bolts(frame, bolts, &made, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const int32_t count = frame->bolts_count;
    trivet_bolts *const list =
        trivet__grown(&frame->pool, frame->bolts, count, &frame->bolts_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    frame->bolts = list;
    list[count] = made;
    frame->bolts_count++;
    if (bolts_out) {
        *bolts_out = count;
    }
    return TRIVET_OK;
}

int32_t trivet_frame_bolts_count(const trivet_frame *frame)
{
    return frame ? frame->bolts_count : 0;
}

trivet_status trivet_frame_bolts(const trivet_frame *frame, int32_t index, trivet_bolts *bolts_out)
{
    const trivet_status status = trivet__out_check(frame, bolts_out, sizeof *bolts_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (index < 0 || index >= frame->bolts_count) {
        return TRIVET_BAD_INDEX;
    }
    *bolts_out = frame->bolts[index];
    return TRIVET_OK;
}

/* Whether bolts are cut into this stock's wall, or clamp it across its walls. */
static int need_wall(const trivet_bolts *bolts, int32_t stock)
{
    return (bolts->into == TRIVET_INTO_WALL && bolts->into_stock == stock) ||
           (bolts->clamped != TRIVET_CLAMPED_SOLID && bolts->clamped_stock == stock);
}

trivet_status trivet__bolts_stock_check(const trivet_frame *frame, int32_t stock,
                                        const trivet_profile *profile, trivet_message *message)
{
    for (int32_t i = 0; !trivet__is_hollow(profile) && i < frame->bolts_count; i++) {
        if (need_wall(&frame->bolts[i], stock)) {
            char name[TRIVET__PLACE_TEXT_MAX];
            trivet__bolts_place(frame, &frame->bolts[i], name);
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "stock", frame->stocks[stock].name, "",
                                 "take a tube, or bolt into something else");
            trivet__message_problem(message, "it has no tube's wall, which the bolts of %s need",
                                    name);
            return TRIVET_BAD_VALUE;
        }
    }
    return TRIVET_OK;
}

void trivet__bolts_follow_stock(trivet_frame *frame, int32_t stock)
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        trivet_bolts *const bolts = &frame->bolts[i];
        if (bolts->into == TRIVET_INTO_WALL && bolts->into_stock == stock) {
            bolts->engagement = frame->stocks[stock].profile.wall;
        }
    }
}

void trivet__bolts_drop(trivet_frame *frame, int32_t set, int32_t bolt)
{
    trivet_bolts *const bolts = &frame->bolts[set];
    assert(bolts->count > 1 && bolt >= 0 && bolt < bolts->count);
    memmove(bolts->pattern[bolt], bolts->pattern[bolt + 1],
            (size_t)(bolts->count - bolt - 1) * sizeof bolts->pattern[0]);
    bolts->count--;
}
