/*
 * Holes: each bolt of a set goes through a plate, through the tube that it clamps or holds on to,
 * and into what carries its thread. Which tube that is: of the stock that the set names, the first
 * at the joint that the bolt goes through.
 */
#include "shop/cuts_record.h"

#include "base/memory.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

/* Cosine above which a bolt runs along a tube, into its end. */
#define ALONG 0.7071

/* A bolt of a set. */
typedef struct bolt {
    const trivet_bolts *set;
    trivet_thread thread;
    int32_t index;
    int32_t number;
    double place[3]; /* m, world */
    double head[3];  /* unit vector towards its head */
} bolt;

static trivet_cut_hole *add_hole(trivet_cuts *cuts, const bolt *of, int32_t in)
{
    void *list = cuts->holes;
    const int has_room = trivet__make_room(&list, (size_t)cuts->hole_count, &cuts->hole_capacity,
                                           sizeof *cuts->holes);
    cuts->holes = list;
    if (!has_room) {
        return NULL;
    }
    trivet_cut_hole *const hole = &cuts->holes[cuts->hole_count++];
    trivet_cut_hole_defaults(hole, sizeof *hole);
    hole->piece = hole->from = -1;
    hole->bolts = of->index;
    hole->number = of->number;
    hole->in = in;
    hole->at = hole->at_longest = hole->towards = (double)NAN;
    hole->countersink = hole->countersink_angle = (double)NAN;
    hole->diameter = isnan(of->set->hole) ? of->thread.clearance_hole : of->set->hole;
    return hole;
}

static void sink(trivet_cut_hole *hole, const bolt *of)
{
    if (of->set->head == TRIVET_HEAD_COUNTERSUNK) {
        hole->countersink = of->thread.countersunk_head;
        hole->countersink_angle = of->thread.countersunk_angle;
    }
}

static int meets(const trivet_frame *frame, int32_t tube, int32_t joint)
{
    for (int32_t i = 0; i < frame->tubes[tube].joint_count; i++) {
        if (frame->tubes[tube].joints[i] == joint) {
            return 1;
        }
    }
    return 0;
}

/* Whether a bolt's axis goes through a tube. */
static int goes_through(const trivet_cuts *cuts, const bolt *of, int32_t tube)
{
    const trivet__end *const ends = &cuts->plan.ends[2 * (size_t)tube];
    double from[3];
    double whole[3];
    double left[3];
    trivet__minus3(of->place, ends[0].point, from);
    trivet__minus3(ends[1].point, ends[0].point, whole);
    trivet__cross3(of->head, ends[0].axes, left);
    const double along = trivet__dot3(from, ends[0].axes);
    const double length = trivet__length3(left);
    const double side = length > ALONG ? fabs(trivet__dot3(from, left)) / length : 0.0;
    return along >= -ends[0].longest && along <= trivet__length3(whole) + ends[1].longest &&
           side <
               trivet__reach_along(trivet__tube_silhouette(&cuts->plan, tube), ends[0].axes, left);
}

/* The first tube at a bolt's joint of a stock (-1: of any) that the bolt goes through, or else the
 * first of that stock; -1 if there is none. */
static int32_t find_tube(const trivet_cuts *cuts, const bolt *of, int32_t stock)
{
    const trivet_frame *const frame = cuts->frame;
    int32_t first = -1;
    for (int32_t t = 0; t < frame->tube_count; t++) {
        if (!meets(frame, t, of->set->joint) || (stock >= 0 && frame->tubes[t].stock != stock)) {
            continue;
        }
        if (goes_through(cuts, of, t)) {
            return t;
        }
        first = first < 0 ? t : first;
    }
    return first;
}

/* The tube at a joint in which an insert of a stock sits there, and which insert; -1: none. */
static int32_t tube_with_insert(const trivet_frame *frame, int32_t joint, int32_t stock,
                                int32_t *insert_out)
{
    for (int32_t t = 0; t < frame->tube_count; t++) {
        const trivet__tube *const tube = &frame->tubes[t];
        for (int32_t i = 0; i < tube->insert_count; i++) {
            const trivet__insert *const insert = &tube->inserts[i];
            if (tube->joints[insert->position] == joint && (insert->stock == stock || stock < 0)) {
                *insert_out = i;
                return t;
            }
        }
    }
    return -1;
}

/* Measures a hole in a tube from the nearer end of its piece. */
static void measure(const trivet_cuts *cuts, const bolt *of, int32_t tube, trivet_cut_hole *hole)
{
    const trivet__end *const ends = &cuts->plan.ends[2 * (size_t)tube];
    const trivet__piece *const piece = trivet__piece_of(cuts, tube, &hole->piece);
    const double *const x = ends[0].axes;
    double from[3];
    double left[3];
    if (!piece) {
        return;
    }
    trivet__minus3(of->place, ends[0].point, from);
    const double along = trivet__place_on_piece(cuts, tube, trivet__dot3(from, x));
    const double first = along + piece->ends[0]->beyond;
    const int is_last = 2.0 * first > piece->cut.length;
    hole->from = piece->ends[is_last]->joint;
    hole->at = is_last ? piece->cut.length - first : first;
    hole->at_longest = hole->at + piece->ends[is_last]->longest - piece->ends[is_last]->beyond;
    if (fabs(trivet__dot3(of->head, x)) > ALONG) {
        hole->in = TRIVET_HOLE_END;
        return;
    }
    trivet__cross3(of->head, x, left);
    hole->side = trivet__dot3(from, left) / trivet__length3(left);
    hole->towards = trivet__angle_round(ends[0].axes, of->head);
}

/* A hole for the thread in an insert, measured from its end nearer to the joint's side. */
static void measure_insert(const trivet_cuts *cuts, const bolt *of, int32_t tube, int32_t insert,
                           trivet_cut_hole *hole)
{
    const trivet__end *const ends = &cuts->plan.ends[2 * (size_t)tube];
    double from[3];
    double start = 0.0;
    double stop = 0.0;
    for (int32_t i = 0; i < cuts->piece_count; i++) {
        const trivet_cut_piece *const cut = &cuts->pieces[i].cut;
        hole->piece = cut->insert == insert && cut->tube == tube ? i : hole->piece;
    }
    trivet__minus3(of->place, ends[0].point, from);
    trivet__insert_stretch(cuts->frame, tube, insert, &start, &stop);
    const double along = trivet__dot3(from, ends[0].axes);
    const int is_last = 2.0 * along > start + stop;
    hole->from = ends[is_last].joint;
    hole->at = hole->at_longest = is_last ? stop - along : along - start;
    if (fabs(trivet__dot3(of->head, ends[0].axes)) > ALONG) {
        hole->in = TRIVET_HOLE_END;
    } else {
        hole->towards = trivet__angle_round(ends[0].axes, of->head);
    }
}

/* The hole that carries the thread, and the wall before it. */
static trivet_status drill_thread(trivet_cuts *cuts, const bolt *of)
{
    const trivet_bolts *const set = of->set;
    int32_t insert = -1;
    int32_t tube = -1;
    trivet_cut_hole *hole = NULL;
    if (set->into == TRIVET_INTO_RATED) {
        tube = find_tube(cuts, of, -1);
        hole = tube >= 0 ? add_hole(cuts, of, TRIVET_HOLE_WALL) : NULL;
        if (hole) {
            hole->diameter = (double)NAN;
            measure(cuts, of, tube, hole);
        }
        return tube >= 0 && !hole ? TRIVET_NO_MEMORY : TRIVET_OK;
    }
    if (set->into != TRIVET_INTO_TAPPED && set->into != TRIVET_INTO_WALL) {
        return TRIVET_OK;
    }
    tube = tube_with_insert(cuts->frame, set->joint, set->into_stock, &insert);
    if (tube < 0) {
        tube = find_tube(cuts, of, set->into_stock);
    }
    if (tube < 0) {
        return TRIVET_OK;
    }
    hole = add_hole(cuts, of, TRIVET_HOLE_WALL);
    if (!hole) {
        return TRIVET_NO_MEMORY;
    }
    hole->is_tapped = 1;
    hole->diameter = of->thread.tapping_drill;
    if (insert < 0) {
        measure(cuts, of, tube, hole);
        return TRIVET_OK;
    }
    measure_insert(cuts, of, tube, insert, hole);
    if (hole->in == TRIVET_HOLE_END || set->clamped != TRIVET_CLAMPED_SOLID) {
        return TRIVET_OK; /* no wall before it, or one that drill_clamped sees to */
    }
    hole = add_hole(cuts, of, TRIVET_HOLE_WALL);
    if (hole) {
        measure(cuts, of, tube, hole);
    }
    return hole ? TRIVET_OK : TRIVET_NO_MEMORY;
}

/* The tube that the bolt goes across. */
static trivet_status drill_clamped(trivet_cuts *cuts, const bolt *of)
{
    const trivet_bolts *const set = of->set;
    int32_t insert = -1;
    int32_t tube = -1;
    if (set->clamped == TRIVET_CLAMPED_INSERT) {
        tube = tube_with_insert(cuts->frame, set->joint, -1, &insert);
    }
    if (tube < 0 && set->clamped_stock >= 0) {
        tube = find_tube(cuts, of, set->clamped_stock);
    }
    if (tube < 0 || set->clamped == TRIVET_CLAMPED_SOLID) {
        return TRIVET_OK;
    }
    /* A thread in the insert ends the bolt there: the far wall stays whole. */
    const int ends_inside = insert >= 0 && set->into == TRIVET_INTO_TAPPED;
    trivet_cut_hole *hole = add_hole(cuts, of, ends_inside ? TRIVET_HOLE_WALL : TRIVET_HOLE_ACROSS);
    if (!hole) {
        return TRIVET_NO_MEMORY;
    }
    measure(cuts, of, tube, hole);
    if (isnan(set->plate)) {
        sink(hole, of);
    }
    if (insert < 0 || ends_inside) {
        return TRIVET_OK;
    }
    hole = add_hole(cuts, of, TRIVET_HOLE_WALL);
    if (hole) {
        measure_insert(cuts, of, tube, insert, hole);
    }
    return hole ? TRIVET_OK : TRIVET_NO_MEMORY;
}

static trivet_status drill_plate(trivet_cuts *cuts, const bolt *of)
{
    if (isnan(of->set->plate)) {
        return TRIVET_OK;
    }
    trivet_cut_hole *const hole = add_hole(cuts, of, TRIVET_HOLE_PLATE);
    if (hole) {
        sink(hole, of);
    }
    return hole ? TRIVET_OK : TRIVET_NO_MEMORY;
}

static trivet_status drill_set(trivet_cuts *cuts, int32_t index)
{
    bolt of = {.set = &cuts->frame->bolts[index], .index = index};
    trivet_status status = trivet_thread_defaults(&of.thread, sizeof of.thread);
    if (status == TRIVET_OK) {
        status = trivet_thread_find(of.set->thread, &of.thread, NULL);
    }
    /* A mount's bolts come from the vehicle, whose tab their head presses on; others come from the
     * part on top. */
    const double sign = of.set->where_kind == TRIVET_KIND_MOUNT ? -1.0 : 1.0;
    for (int i = 0; i < 3; i++) {
        of.head[i] = sign * of.set->axes[6 + i];
    }
    for (int32_t n = 0; n < of.set->count && status == TRIVET_OK; n++) {
        of.number = n;
        memcpy(of.place, cuts->frame->joints[of.set->joint].position, sizeof of.place);
        trivet__add3(of.place, of.set->pattern[n][0], of.set->axes);
        trivet__add3(of.place, of.set->pattern[n][1], of.set->axes + 3);
        status = drill_clamped(cuts, &of);
        if (status == TRIVET_OK) {
            status = drill_thread(cuts, &of);
        }
        if (status == TRIVET_OK) {
            status = drill_plate(cuts, &of);
        }
    }
    return status;
}

trivet_status trivet__cuts_holes(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    for (int32_t b = 0; b < cuts->frame->bolts_count && status == TRIVET_OK; b++) {
        status = drill_set(cuts, b);
    }
    return status;
}
