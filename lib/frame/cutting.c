/*
 * What is cut out of sheet for a deck: outline, screw holes, slots, flat and in real size.
 *
 * A plate is a core grown outward by an edge distance: the core is the outline that the user gave,
 * grown by nothing, or the convex outline round joints and holes, grown by the edge, so that its
 * corners are arcs about them. How deep a place lies in the plate is how deep it lies in the core
 * plus that edge; for the convex core this is exact.
 */
#include "base/memory.h"
#include "base/vec3.h"
#include "frame/border.h"
#include "frame/frame.h"
#include "frame/plane_figure.h"

#include <math.h>
#include <string.h>

/* m by which a deck's joints may differ in height: a plate can be pulled down so far. */
#define LEVEL 1e-3

/* m by which rounding may bring a hole nearer to the edge than it is said to be. */
#define ROUNDING 1e-9

/* A plate reaches so many hole diameters beyond its holes unless told otherwise: common practice.
 */
#define EDGE_IN_HOLES 2.0

struct trivet_cutting {
    trivet__pool pool;   /* has the lists, unless another one does */
    double *outline;     /* [outline_count][3] x, y, bulge */
    double *holes;       /* [hole_count][3] x, y, diameter */
    int32_t *hole_bolts; /* [hole_count] set of bolts */
    trivet_slot *slots;  /* [slot_count] */
    double *places;      /* [place_count][2] joints, then holes */
    double *core;        /* [core_count][2] counter-clockwise */
    int32_t outline_count;
    int32_t hole_count;
    int32_t slot_count;
    int32_t place_count;
    int32_t core_count;
    double grow; /* m */
};

static int is_of_deck(const trivet_bolts *bolts, int32_t deck)
{
    return bolts->where_kind == TRIVET_KIND_DECK && bolts->where_index == deck;
}

/* An empty cutting with room for all that the deck may have; 0 if there is no memory. */
static int make_room(const trivet_frame *frame, int32_t deck, trivet__pool *pool,
                     trivet_cutting *made)
{
    const trivet__deck *const of = &frame->decks[deck];
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        made->hole_count += is_of_deck(&frame->bolts[i], deck) ? frame->bolts[i].count : 0;
    }
    const size_t holes = (size_t)made->hole_count;
    const size_t places = (size_t)of->joint_count + holes;
    const size_t corners = places > (size_t)of->corner_count ? places : (size_t)of->corner_count;
    made->outline = trivet__pool_take(pool, 2 * corners, 3 * sizeof *made->outline);
    made->holes = trivet__pool_take(pool, holes, 3 * sizeof *made->holes);
    made->hole_bolts = trivet__pool_take(pool, holes, sizeof *made->hole_bolts);
    made->slots = trivet__pool_take(pool, (size_t)of->slot_count, sizeof *made->slots);
    made->places = trivet__pool_take(pool, places, 2 * sizeof *made->places);
    made->core = trivet__pool_take(pool, corners, 2 * sizeof *made->core);
    return made->outline && made->holes && made->hole_bolts && made->slots && made->places &&
           made->core;
}

static void length_text(double length, char text[TRIVET__VALUE_TEXT_MAX])
{
    trivet_units_text(NULL, TRIVET_LENGTH, length, 4, text, TRIVET__VALUE_TEXT_MAX);
}

static trivet_status check_level(const trivet_frame *frame, const trivet__deck *of,
                                 trivet_message *message)
{
    const trivet__joint *low = &frame->joints[of->joints[0]];
    const trivet__joint *high = low;
    for (int32_t i = 1; i < of->joint_count; i++) {
        const trivet__joint *const joint = &frame->joints[of->joints[i]];
        low = joint->position[2] < low->position[2] ? joint : low;
        high = joint->position[2] > high->position[2] ? joint : high;
    }
    if (high->position[2] - low->position[2] <= LEVEL) {
        return TRIVET_OK;
    }
    char text[TRIVET__VALUE_TEXT_MAX];
    length_text(high->position[2] - low->position[2], text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "deck", of->name, "",
                         "put its joints at one height; a plate is laid out flat, seen from above");
    trivet__message_problem(message, "it is not level: %s stands %s above %s", high->name, text,
                            low->name);
    return TRIVET_BAD_VALUE;
}

static void add_place(trivet_cutting *cutting, double x, double y)
{
    double *const place = cutting->places + (ptrdiff_t)2 * cutting->place_count;
    for (int32_t i = 0; i < cutting->place_count; i++) {
        const double *const other = cutting->places + (ptrdiff_t)2 * i;
        if (hypot(other[0] - x, other[1] - y) < TRIVET__SPAN_LEAST) {
            return;
        }
    }
    place[0] = x;
    place[1] = y;
    cutting->place_count++;
}

/* The holes of one set of screws: its pattern lies in its axes, at its joint. */
static trivet_status add_holes(const trivet_frame *frame, int32_t index, trivet_cutting *cutting,
                               int32_t *at)
{
    const trivet_bolts *const bolts = &frame->bolts[index];
    const double *const joint = frame->joints[bolts->joint].position;
    trivet_thread thread = {.size = sizeof thread};
    const trivet_status status = trivet_thread_find(bolts->thread, &thread, NULL);
    for (int32_t i = 0; i < bolts->count && status == TRIVET_OK; i++) {
        const double flat[3] = {bolts->pattern[i][0], bolts->pattern[i][1], 0.0};
        double place[3];
        double *const hole = cutting->holes + (ptrdiff_t)3 * *at;
        trivet__from_axes3(bolts->axes, flat, place);
        hole[0] = joint[0] + place[0];
        hole[1] = joint[1] + place[1];
        hole[2] = isnan(bolts->hole) ? thread.clearance_hole : bolts->hole;
        cutting->hole_bolts[*at] = index;
        (*at)++;
    }
    return status;
}

static trivet_status place_all(const trivet_frame *frame, int32_t deck, trivet_cutting *cutting)
{
    const trivet__deck *const of = &frame->decks[deck];
    int32_t at = 0;
    for (int32_t i = 0; i < of->joint_count; i++) {
        const double *const joint = frame->joints[of->joints[i]].position;
        add_place(cutting, joint[0], joint[1]);
    }
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        const trivet_status status =
            is_of_deck(&frame->bolts[i], deck) ? add_holes(frame, i, cutting, &at) : TRIVET_OK;
        if (status != TRIVET_OK) {
            return status;
        }
    }
    for (int32_t i = 0; i < cutting->hole_count; i++) {
        add_place(cutting, cutting->holes[3 * i], cutting->holes[3 * i + 1]);
    }
    cutting->slot_count = of->slot_count;
    if (of->slot_count > 0) {
        memcpy(cutting->slots, of->slots, (size_t)of->slot_count * sizeof *of->slots);
    }
    return TRIVET_OK;
}

/* How near to the plate's edge the checks take a set of screws to be; 0 if that is not said. */
static double checked_edge(const trivet_bolts *bolts)
{
    return isnan(bolts->edge) ? 0.0 : fmin(bolts->edge, fmin(bolts->side, bolts->edge));
}

/* What the plate reaches beyond joints and holes; NaN if nothing tells. */
static double edge_of(const trivet_frame *frame, const trivet__deck *of,
                      const trivet_cutting *cutting)
{
    double said = 0.0;
    double widest = 0.0;
    if (!isnan(of->edge)) {
        return of->edge;
    }
    for (int32_t i = 0; i < cutting->hole_count; i++) {
        const trivet_bolts *const bolts = &frame->bolts[cutting->hole_bolts[i]];
        said = fmax(said, isnan(bolts->edge) ? 0.0 : fmax(bolts->edge, bolts->side));
        widest = fmax(widest, cutting->holes[3 * i + 2]);
    }
    const double edge = said > 0.0 ? said : EDGE_IN_HOLES * widest;
    return edge > 0.0 ? edge : (double)NAN;
}

static void add_corner(trivet_cutting *cutting, double x, double y, double bulge)
{
    double *const corner = cutting->outline + (ptrdiff_t)3 * cutting->outline_count;
    corner[0] = x;
    corner[1] = y;
    corner[2] = bulge;
    cutting->outline_count++;
}

/* The user's corners, turned round if they run clockwise. */
static void take_corners(const trivet__deck *of, trivet_cutting *cutting)
{
    const int is_clockwise = trivet__polygon_area(of->corners, of->corner_count) < 0.0;
    for (int32_t i = 0; i < of->corner_count; i++) {
        const int32_t from = is_clockwise ? of->corner_count - 1 - i : i;
        memcpy(cutting->core + (ptrdiff_t)2 * i, of->corners + (ptrdiff_t)2 * from,
               2 * sizeof *cutting->core);
        add_corner(cutting, cutting->core[2 * i], cutting->core[2 * i + 1], 0.0);
    }
    cutting->core_count = of->corner_count;
}

/* The unit vector that points out of the side behind corner i. */
static void outward(const trivet_cutting *cutting, int32_t i, double out[2])
{
    const int32_t count = cutting->core_count;
    const double *const a = cutting->core + (ptrdiff_t)2 * (i % count);
    const double *const b = cutting->core + (ptrdiff_t)2 * ((i + 1) % count);
    const double length = hypot(b[0] - a[0], b[1] - a[1]);
    out[0] = (b[1] - a[1]) / length;
    out[1] = (a[0] - b[0]) / length;
}

/* An arc about each corner of the core, straight sides between; a circle about a single one. */
static void grow_core(trivet_cutting *cutting)
{
    const double e = cutting->grow;
    const int32_t count = cutting->core_count;
    if (count == 1) {
        add_corner(cutting, cutting->core[0] - e, cutting->core[1], 1.0);
        add_corner(cutting, cutting->core[0] + e, cutting->core[1], 1.0);
        return;
    }
    for (int32_t i = 0; i < count; i++) {
        const double *const at = cutting->core + (ptrdiff_t)2 * i;
        double in[2];
        double out[2];
        outward(cutting, i + count - 1, in);
        outward(cutting, i, out);
        /* tan(turn/4) from sine and cosine of the turn; at a line's end it turns right back. */
        const double turn =
            count == 2 ? acos(-1.0)
                       : atan2(in[0] * out[1] - in[1] * out[0], in[0] * out[0] + in[1] * out[1]);
        add_corner(cutting, at[0] + e * in[0], at[1] + e * in[1], tan(0.25 * turn));
        add_corner(cutting, at[0] + e * out[0], at[1] + e * out[1], 0.0);
    }
}

static trivet_status make_outline(const trivet_frame *frame, const trivet__deck *of,
                                  trivet_cutting *cutting, trivet_message *message)
{
    if (of->corner_count > 0) {
        take_corners(of, cutting);
        return TRIVET_OK;
    }
    cutting->grow = edge_of(frame, of, cutting);
    if (!(cutting->grow > 0.0)) {
        return trivet__refuse_thing(message, TRIVET_INCOMPLETE, "deck", of->name,
                                    "nothing tells how far its plate reaches beyond its joints",
                                    "add an edge such as 15 mm, an outline, or screws");
    }
    cutting->core_count =
        trivet__convex_outline(cutting->places, cutting->place_count, cutting->core);
    grow_core(cutting);
    return TRIVET_OK;
}

static double depth_of(const trivet_cutting *cutting, const double place[2])
{
    return trivet__polygon_depth(cutting->core, cutting->core_count, place) + cutting->grow;
}

/*
 * The least depth along the middle line of a slot. A convex plate is least deep at one of its ends;
 * the sides of a given outline are looked at one by one.
 */
static double slot_depth(const trivet_cutting *cutting, const trivet_slot *slot)
{
    double depth = fmin(depth_of(cutting, slot->from), depth_of(cutting, slot->to));
    const int32_t count = cutting->core_count;
    for (int32_t i = 0; i < count && !(cutting->grow > 0.0) && depth > 0.0; i++) {
        depth = fmin(
            depth, trivet__distance_of_sides(slot->from, slot->to, cutting->core + (ptrdiff_t)2 * i,
                                             cutting->core + (ptrdiff_t)2 * ((i + 1) % count)));
    }
    return depth;
}

static trivet_status check_holes(const trivet_frame *frame, const trivet__deck *of,
                                 const trivet_cutting *cutting, trivet_message *message)
{
    for (int32_t i = 0; i < cutting->hole_count; i++) {
        const double *const hole = cutting->holes + (ptrdiff_t)3 * i;
        const trivet_bolts *const bolts = &frame->bolts[cutting->hole_bolts[i]];
        const char *const joint = frame->joints[bolts->joint].name;
        const double depth = depth_of(cutting, hole);
        char text[TRIVET__VALUE_TEXT_MAX];
        char wanted[TRIVET__VALUE_TEXT_MAX];
        if (!(depth > 0.5 * hole[2])) {
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "deck", of->name, "",
                                 "let the plate reach farther");
            trivet__message_problem(message, "the hole at %s does not lie inside the plate", joint);
            return TRIVET_BAD_VALUE;
        }
        if (!(depth >= checked_edge(bolts) - ROUNDING)) {
            length_text(depth, text);
            length_text(checked_edge(bolts), wanted);
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "deck", of->name, "",
                                 "let the plate reach farther, or give its screws the smaller "
                                 "distance, so that it is checked");
            trivet__message_problem(message,
                                    "the hole at %s is %s from the plate's edge, its screws are "
                                    "checked with %s",
                                    joint, text, wanted);
            return TRIVET_BAD_VALUE;
        }
    }
    return TRIVET_OK;
}

static trivet_status refuse_slot(const trivet__deck *of, int32_t slot, const char *what,
                                 const char *which, trivet_message *message)
{
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "deck", of->name, "",
                         "move it or make it narrower");
    trivet__message_problem(message, "slot %d %s%s", (int)slot + 1, what, which);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_slot(const trivet_frame *frame, const trivet__deck *of,
                                const trivet_cutting *cutting, int32_t index,
                                trivet_message *message)
{
    const trivet_slot *const slot = &cutting->slots[index];
    if (!(slot_depth(cutting, slot) > 0.5 * slot->width)) {
        return refuse_slot(of, index, "does not lie inside the plate", "", message);
    }
    for (int32_t i = 0; i < cutting->hole_count; i++) {
        const double *const hole = cutting->holes + (ptrdiff_t)3 * i;
        if (!(trivet__distance_to_side(slot->from, slot->to, hole) >
              0.5 * (slot->width + hole[2]))) {
            const trivet_bolts *const bolts = &frame->bolts[cutting->hole_bolts[i]];
            return refuse_slot(of, index, "runs into the hole at ",
                               frame->joints[bolts->joint].name, message);
        }
    }
    for (int32_t i = 0; i < index; i++) {
        const trivet_slot *const other = &cutting->slots[i];
        if (!(trivet__distance_of_sides(slot->from, slot->to, other->from, other->to) >
              0.5 * (slot->width + other->width))) {
            return refuse_slot(of, index, "runs into a slot before it", "", message);
        }
    }
    return TRIVET_OK;
}

/* Lays a deck out into an empty cutting, with lists from a pool. */
static trivet_status fill(const trivet_frame *frame, int32_t deck, trivet__pool *pool,
                          trivet_cutting *cutting, trivet_message *message)
{
    const trivet__deck *const of = &frame->decks[deck];
    if (!make_room(frame, deck, pool, cutting)) {
        return trivet__no_memory(message);
    }
    trivet_status status = check_level(frame, of, message);
    if (status == TRIVET_OK) {
        status = place_all(frame, deck, cutting);
    }
    if (status == TRIVET_OK) {
        status = make_outline(frame, of, cutting, message);
    }
    if (status == TRIVET_OK) {
        status = check_holes(frame, of, cutting, message);
    }
    for (int32_t i = 0; i < cutting->slot_count && status == TRIVET_OK; i++) {
        status = check_slot(frame, of, cutting, i, message);
    }
    return status;
}

trivet_status trivet_cutting_new(const trivet_frame *frame, int32_t deck,
                                 trivet_cutting **cutting_out, trivet_message *message)
{
    if (!cutting_out) {
        return trivet__missing(message, "cutting_out");
    }
    *cutting_out = NULL;
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_DECK, deck, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_cutting *const made = trivet__take(1, sizeof *made);
    if (!made) {
        return trivet__no_memory(message);
    }
    status = fill(frame, deck, &made->pool, made, message);
    if (status != TRIVET_OK) {
        trivet_cutting_free(made);
        return status;
    }
    *cutting_out = made;
    return TRIVET_OK;
}

void trivet_cutting_free(trivet_cutting *cutting)
{
    if (cutting) {
        trivet__pool_clear(&cutting->pool);
        trivet__give_back(cutting);
    }
}

trivet_status trivet_frame_validate_plate(trivet_frame *frame, int32_t deck,
                                          trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    const trivet_status status = trivet__index_check(frame, TRIVET_KIND_DECK, deck, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_cutting tried = {.grow = 0.0};
    trivet__pool_rewind(&frame->scratch);
    return fill(frame, deck, &frame->scratch, &tried, message);
}

const double *trivet_cutting_outline(const trivet_cutting *cutting, int32_t *count_out)
{
    if (count_out) {
        *count_out = cutting ? cutting->outline_count : 0;
    }
    return cutting ? cutting->outline : NULL;
}

const double *trivet_cutting_holes(const trivet_cutting *cutting, int32_t *count_out)
{
    if (count_out) {
        *count_out = cutting ? cutting->hole_count : 0;
    }
    return cutting ? cutting->holes : NULL;
}

const trivet_slot *trivet_cutting_slots(const trivet_cutting *cutting, int32_t *count_out)
{
    if (count_out) {
        *count_out = cutting ? cutting->slot_count : 0;
    }
    return cutting ? cutting->slots : NULL;
}
