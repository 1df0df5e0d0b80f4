/*
 * Which tube is welded onto which wall: the one that ends at a joint onto the one that runs on
 * through it; where none runs on, two that end there make a corner.
 *
 * The plane of the two holds both axes. A tube that stands on a box must stand on one face and lie
 * square to it, or the rules, which know only that, say nothing.
 */
#include "checks/joint_shape.h"

#include "base/vec3.h"
#include "checks/demand.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* Cosine of 5 degrees: what stands as near as that to square is taken as square. */
#define SQUARE 0.99619469809

/* Sizes that differ by no more than this share are equal. */
#define EQUAL 0.01

/* Below this, Pa, a metal is no steel: aluminium has 70e9, steel 190e9 and above. */
#define STEEL_LEAST 150e9

static int is_bolted(const trivet_frame *frame, int32_t tube, int32_t joint)
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        const trivet_bolts *const bolts = &frame->bolts[i];
        if (bolts->where_kind == TRIVET_KIND_TUBE && bolts->where_index == tube &&
            bolts->joint == joint) {
            return 1;
        }
    }
    return 0;
}

int trivet__end_is_welded(const trivet_frame *frame, int32_t tube, int32_t joint)
{
    const trivet__tube *const of = &frame->tubes[tube];
    const trivet_weld *const weld = of->joints[0] == joint ? &of->weld_first : &of->weld_last;
    return weld->kind != TRIVET_WELD_NONE && !is_bolted(frame, tube, joint);
}

/* Direction from a joint into the tube that ends there. */
static void direction(const trivet__making *making, int32_t tube, int32_t joint, double out[3])
{
    double axes[9];
    trivet__axes_of_tube(making, tube, axes);
    const double sign = making->frame->tubes[tube].joints[0] == joint ? 1.0 : -1.0;
    for (int i = 0; i < 3; i++) {
        out[i] = sign * axes[i];
    }
}

static void add_end(const trivet_frame *frame, int32_t tube, int32_t joint, trivet__meeting *to)
{
    if (to->end_count < 2) {
        to->ends[to->end_count] = tube;
    }
    to->end_count++;
    if (trivet__end_is_welded(frame, tube, joint)) {
        if (to->welded_count < 2) {
            to->welded[to->welded_count] = tube;
        }
        to->welded_count++;
    }
}

static void find_meeting(const trivet__making *making, int32_t joint, trivet__meeting *out)
{
    const trivet_frame *const frame = making->frame;
    const trivet__around *const around = making->around;
    memset(out, 0, sizeof *out);
    out->through = -1;
    for (int32_t r = around->starts[joint]; r < around->starts[joint + 1]; r++) {
        const int32_t t = around->runs[r].tube;
        const int32_t position = around->runs[r].position;
        if (position == 0 || position == frame->tubes[t].joint_count - 1) {
            add_end(frame, t, joint, out);
        } else {
            out->through = out->through_count == 0 ? t : out->through;
            out->through_count++;
        }
    }
    if (out->welded_count == 2) {
        double one[3];
        double other[3];
        direction(making, out->welded[0], joint, one);
        direction(making, out->welded[1], joint, other);
        out->is_cross = trivet__dot3(one, other) < -SQUARE;
    }
}

int trivet__meetings_find(trivet__making *making)
{
    trivet__around *const around = &making->checks->around;
    const int32_t joints = making->frame->joint_count;
    void *list = around->meetings;
    if (!trivet__reserve(&list, &around->meeting_capacity, (size_t)joints,
                         sizeof *around->meetings)) {
        return 0;
    }
    around->meetings = list;
    for (int32_t joint = 0; joint < joints; joint++) {
        find_meeting(making, joint, &around->meetings[joint]);
    }
    return 1;
}

void trivet__meeting_find(const trivet__making *making, int32_t joint, trivet__meeting *meeting_out)
{
    *meeting_out = making->around->meetings[joint];
}

double trivet__yield_at_weld(const trivet_frame *frame, int32_t tube)
{
    const trivet_material *const of = &frame->stocks[frame->tubes[tube].stock].material;
    return of->welded_yield > 0.0 ? fmin(of->yield, of->welded_yield) : of->yield;
}

double trivet__end_moment(const trivet__making *making, int32_t in_case, int32_t tube,
                          int32_t joint, const double line[3], double *pull_out)
{
    double axes[9];
    double forces[6];
    double moment[3];
    trivet__axes_of_tube(making, tube, axes);
    trivet__end_forces(making, in_case, tube, joint, forces);
    trivet__from_axes3(axes, forces + 3, moment);
    *pull_out = forces[0];
    return trivet__dot3(moment, line);
}

static const trivet__stock *stock_of(const trivet_frame *frame, int32_t tube)
{
    return &frame->stocks[frame->tubes[tube].stock];
}

static int is_round_tube(const trivet__stock *stock)
{
    return stock->profile.shape == TRIVET_SHAPE_ROUND_TUBE;
}

static int is_tube(const trivet__stock *stock)
{
    return is_round_tube(stock) || stock->profile.shape == TRIVET_SHAPE_SQUARE_TUBE ||
           stock->profile.shape == TRIVET_SHAPE_RECTANGULAR_TUBE;
}

static int is_solid(const trivet__stock *stock)
{
    const int32_t shape = stock->profile.shape;
    return shape == TRIVET_SHAPE_SQUARE_BAR || shape == TRIVET_SHAPE_FLAT_BAR ||
           shape == TRIVET_SHAPE_ROUND_BAR;
}

/* Why two stocks are none of what the rules know. */
static const char *refuse_stock(const trivet__stock *chord, const trivet__stock *brace)
{
    if (!is_tube(chord)) {
        return "it is no round, square or rectangular tube that is welded onto";
    }
    if (!is_tube(brace)) {
        return "EN 1993-1-8 chapter 7 speaks of tubes; what is welded on is none";
    }
    if (!(chord->material.E >= STEEL_LEAST && brace->material.E >= STEEL_LEAST)) {
        return "EN 1993-1-8 is made for steel";
    }
    return chord->material.yield > 0.0 && brace->material.yield > 0.0
               ? NULL
               : "the yield strength of a material is not given";
}

/* Whether an insert lies in a tube at its joint number position. */
static int is_filled(const trivet_frame *frame, int32_t tube, int32_t position)
{
    const int32_t count = frame->tubes[tube].insert_count;
    const double at = count > 0 ? trivet__tube_distance(frame, tube, position) : 0.0;
    for (int32_t i = 0; i < count; i++) {
        double from = 0.0;
        double to = 0.0;
        trivet__insert_stretch(frame, tube, i, &from, &to);
        if (from <= at + TRIVET__SPAN_LEAST && at <= to + TRIVET__SPAN_LEAST) {
            return 1;
        }
    }
    return 0;
}

/* Which of a section's axes, 1 for y or 2 for z, lies along a line; 0: none within 5 degrees. */
static int axis_along(const double axes[9], const double line[3])
{
    for (int i = 1; i < 3; i++) {
        if (fabs(trivet__dot3(axes + 3 * i, line)) >= SQUARE) {
            return i;
        }
    }
    return 0;
}

/* Outside size along the section's axis 1 (y, the width) or 2 (z, the height). */
static double size_along(const trivet_section *section, int axis)
{
    return axis == 1 ? section->width : section->height;
}

/* The plane of two tubes that are not in line: unit vectors, from the chord's x and out into the
 * brace. out[0] stands up from the chord in the plane, out[1] lies across it. 0: in line. */
static int span_plane(const double x[3], const double out_into[3], double out[2][3])
{
    const double along = trivet__dot3(x, out_into);
    double up[3];
    memcpy(up, out_into, sizeof up);
    trivet__add3(up, -along, x);
    const double length = trivet__length3(up);
    if (!(length > 1e-3)) {
        return 0;
    }
    for (int i = 0; i < 3; i++) {
        out[0][i] = up[i] / length;
    }
    trivet__cross3(out[0], x, out[1]);
    return 1;
}

/* Sizes of the tube that is welded onto, seen from the one that is welded on. */
static const char *fill_chord(const trivet__stock *stock, const double axes[9], const double up[3],
                              trivet__face *face)
{
    const trivet_section *const section = &stock->section;
    face->is_round = is_round_tube(stock);
    face->t0 = stock->profile.wall;
    face->E = stock->material.E;
    if (face->is_round) {
        face->b0 = face->h0 = 2.0 * section->outer_radius;
        return NULL;
    }
    const int depth = axis_along(axes, up);
    if (depth == 0) {
        return "it does not stand square on one face";
    }
    face->h0 = size_along(section, depth);
    face->b0 = size_along(section, 3 - depth);
    return NULL;
}

/* Sizes of the tube that is welded on; across lies across the face. */
static const char *fill_brace(const trivet__stock *stock, const double axes[9],
                              const double across[3], trivet__face *face)
{
    const trivet_section *const section = &stock->section;
    face->is_round_brace = is_round_tube(stock);
    face->t1 = stock->profile.wall;
    face->area1 = section->area;
    /* About any axis of a round tube it is the same. */
    const int width = face->is_round_brace ? 1 : axis_along(axes, across);
    if (width == 0) {
        return "it is turned (rolled) against the wall that it stands on";
    }
    face->b1 = size_along(section, width);
    face->h1 = size_along(section, 3 - width);
    for (int i = 0; i < 2; i++) {
        const int about = i == 0 ? width - 1 : 2 - width;
        face->elastic1[i] = section->elastic_modulus[about];
        face->plastic1[i] = section->plastic_modulus[about];
    }
    return NULL;
}

const char *trivet__welded_on_find(const trivet__making *making, const trivet__meeting *meeting,
                                   int32_t brace, int32_t joint, trivet__welded_on *out,
                                   int32_t *has_wall_out)
{
    const trivet_frame *const frame = making->frame;
    const int32_t chord = meeting->through;
    const trivet__stock *const onto = stock_of(frame, chord);
    memset(out, 0, sizeof *out);
    out->joint = joint;
    out->chord = chord;
    out->brace = brace;
    *has_wall_out = !is_solid(onto);
    if (meeting->through_count > 1) {
        return "several tubes run through there: which wall carries it is not told";
    }
    const char *why = refuse_stock(onto, stock_of(frame, brace));
    if (why) {
        return why;
    }
    double chord_axes[9];
    double brace_axes[9];
    double into[3];
    double plane[2][3];
    trivet__axes_of_tube(making, chord, chord_axes);
    trivet__axes_of_tube(making, brace, brace_axes);
    direction(making, brace, joint, into);
    if (!span_plane(chord_axes, into, plane)) {
        return "the tubes meet at less than 30 degrees, outside EN 1993-1-8 chapter 7";
    }
    trivet__face *const face = &out->face;
    face->angle = asin(fmin(trivet__dot3(plane[0], into), 1.0));
    face->is_cross = meeting->is_cross;
    face->f0 = trivet__yield_at_weld(frame, chord);
    face->f1 = trivet__yield_at_weld(frame, brace);
    memcpy(out->across, plane[1], sizeof out->across);
    trivet__cross3(plane[1], into, out->upright);
    why = fill_chord(onto, chord_axes, plane[0], face);
    why = why ? why : fill_brace(stock_of(frame, brace), brace_axes, plane[1], face);
    out->has_insert = is_filled(frame, chord, trivet__run_of(making, chord, joint)->position);
    return why ? why : trivet__face_refusal(face);
}

/* One tube's part of a corner; across lies across its plane. */
static const char *fill_knee(const trivet__making *making, const trivet__corner_joint *corner,
                             int which, trivet__knee *knee, double *plastic_out)
{
    const int32_t tube = corner->tubes[which];
    const trivet__stock *const stock = stock_of(making->frame, tube);
    double axes[9];
    trivet__axes_of_tube(making, tube, axes);
    const int width = axis_along(axes, corner->across);
    if (width == 0 || is_round_tube(stock)) {
        return "EN 1993-1-8 table 7.16 knows only corners of square and rectangular tubes that lie "
               "in the plane of the corner";
    }
    knee->b = size_along(&stock->section, width);
    knee->h = size_along(&stock->section, 3 - width);
    knee->t = stock->profile.wall;
    knee->f = trivet__yield_at_weld(making->frame, tube);
    knee->area = stock->section.area;
    knee->plastic = stock->section.plastic_modulus[width - 1];
    *plastic_out = stock->section.plastic_modulus[2 - width];
    return NULL;
}

static int are_equal(double one, double other)
{
    return fabs(one - other) <= EQUAL * one;
}

const char *trivet__knee_find(const trivet__making *making, const trivet__meeting *meeting,
                              int32_t joint, trivet__corner_joint *out, int32_t *has_wall_out)
{
    const trivet_frame *const frame = making->frame;
    const trivet__stock *const stocks[2] = {stock_of(frame, meeting->ends[0]),
                                            stock_of(frame, meeting->ends[1])};
    double into[2][3];
    double plane[2][3];
    const char *why = NULL;
    memset(out, 0, sizeof *out);
    out->joint = joint;
    for (int i = 0; i < 2; i++) {
        out->tubes[i] = meeting->ends[i];
        direction(making, out->tubes[i], joint, into[i]);
    }
    *has_wall_out =
        !is_solid(stocks[0]) && !is_solid(stocks[1]) && trivet__dot3(into[0], into[1]) > -SQUARE;
    why = refuse_stock(stocks[0], stocks[1]);
    if (why || !*has_wall_out) {
        return why;
    }
    if (!span_plane(into[0], into[1], plane)) {
        return "the two tubes lie on each other";
    }
    memcpy(out->across, plane[1], sizeof out->across);
    for (int i = 0; i < 2; i++) {
        const char *const unfit = fill_knee(making, out, i, &out->knees[i], &out->plastic_out[i]);
        why = why ? why : unfit;
        out->knees[i].angle = acos(fmax(fmin(trivet__dot3(into[0], into[1]), 1.0), -1.0));
        out->twist[i] = stocks[i]->section.torsion_modulus;
        const trivet__run *const run = trivet__run_of(making, out->tubes[i], joint);
        out->has_insert |= is_filled(frame, out->tubes[i], run->position);
    }
    if (why) {
        return why;
    }
    if (!are_equal(out->knees[0].b, out->knees[1].b) ||
        !are_equal(out->knees[0].h, out->knees[1].h) ||
        !are_equal(out->knees[0].t, out->knees[1].t)) {
        return "EN 1993-1-8 table 7.16 knows only corners of two equal tubes";
    }
    why = trivet__knee_refusal(&out->knees[0]);
    return why ? why : trivet__knee_refusal(&out->knees[1]);
}
