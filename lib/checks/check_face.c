/*
 * Walls that tubes are welded onto: every welded end of a tube, at the joint where it meets another
 * tube, in every result column. What the rules do not know is listed.
 */
#include "base/vec3.h"
#include "checks/bounds.h"
#include "checks/demand.h"
#include "checks/joint_shape.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* Twist, and at corners bending out of the plane, up to this share of what the tube stands is not
 * worth a line in the list. */
#define LITTLE 0.1

/* Lists a wall as not checked. */
static trivet_status omit_wall(trivet__making *making, int32_t chord, int32_t brace, int32_t joint,
                               const char *why)
{
    const trivet_frame *const frame = making->frame;
    const char *const parts[TRIVET__OMISSION_PARTS] = {
        "wall of ",          frame->tubes[chord].name, " where ", frame->tubes[brace].name,
        " is welded on at ", frame->joints[joint].name};
    return trivet__omit_parts(making->checks, TRIVET_LINE_OVERLOAD, parts, why);
}

static trivet_status omit_group(trivet__making *making, int32_t joint, const char *why)
{
    const char *const parts[TRIVET__OMISSION_PARTS] = {
        "how several tubes at ", making->frame->joints[joint].name, " work on one wall together"};
    return trivet__omit_parts(making->checks, TRIVET_LINE_OVERLOAD, parts, why);
}

/* Whether a share, of any result column, is more than little. */
static int has_twist(const trivet__making *making, int32_t tube, int32_t joint)
{
    const trivet__stock *const stock = &making->frame->stocks[making->frame->tubes[tube].stock];
    const double stands =
        stock->section.torsion_modulus * trivet__yield_at_weld(making->frame, tube) / sqrt(3.0);
    const double *const row = trivet__end_row(making, tube, joint);
    const ptrdiff_t step = trivet__column_step(making);
    for (int32_t c = 0; c < making->columns; c++) {
        if (!(making->limits.loads * fabs(row[step * c + 3]) <= LITTLE * stands)) {
            return 1;
        }
    }
    return 0;
}

static int bends_out_of_plane(const trivet__making *making, const trivet__corner_joint *corner,
                              int which)
{
    const int32_t tube = corner->tubes[which];
    for (int32_t c = 0; c < making->columns; c++) {
        double forces[6];
        double pull = 0.0;
        trivet__end_forces(making, c, tube, corner->joint, forces);
        const double in = trivet__end_moment(making, c, tube, corner->joint, corner->across, &pull);
        const double both = forces[4] * forces[4] + forces[5] * forces[5];
        const double out = sqrt(fmax(both - in * in, 0.0));
        if (!(making->limits.loads * out <=
              LITTLE * corner->plastic_out[which] * corner->knees[which].f)) {
            return 1;
        }
    }
    return has_twist(making, tube, corner->joint);
}

/* What is kept of a wall from one variant to the next. */
typedef struct trivet__face_kept {
    trivet__face face;
    trivet__face_bound bound; /* of that face */
    int32_t is_there;
} face_kept;

static int make_room(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    const size_t before = checks->face_capacity;
    void *list = checks->faces;
    const int has_room =
        trivet__reserve(&list, &checks->face_capacity, 2 * (size_t)making->frame->tube_count,
                        sizeof *checks->faces);
    checks->faces = list;
    if (checks->face_capacity > before) {
        memset(checks->faces + before, 0, (checks->face_capacity - before) * sizeof *checks->faces);
    }
    return has_room;
}

/* A wall with all that its bound takes. */
typedef struct wall {
    const trivet__welded_on *on;
    const trivet__face_bound *bound;
    const trivet_section *chord;
    const trivet__run *run; /* of the chord at the joint */
    const double *row;      /* forces at the end of the brace, first column */
    double in[3];           /* the line about which it bends in the plane, axes of the brace */
    double out[3];
} wall;

static int is_kept(const face_kept *kept, const trivet__face *face)
{
    return kept->is_there && trivet__are_same(&kept->face, face, sizeof *face);
}

/* Racks have many rungs alike: before a bound is found, it is looked for at the tube before. */
static void find_bound(const trivet__making *making, const trivet__face *face, face_kept *kept)
{
    if (is_kept(kept, face)) {
        return;
    }
    if (kept - making->checks->faces >= 2 && is_kept(kept - 2, face)) {
        kept->bound = kept[-2].bound;
    } else {
        trivet__face_bound_find(face, &kept->bound);
    }
    memcpy(&kept->face, face, sizeof *face);
    kept->is_there = 1;
}

static wall find_wall(const trivet__making *making, const trivet__welded_on *on, face_kept *kept)
{
    wall found = {.on = on, .bound = &kept->bound};
    double axes[9];
    find_bound(making, &on->face, kept);
    found.chord = &making->frame->stocks[making->frame->tubes[on->chord].stock].section;
    found.run = trivet__run_of(making, on->chord, on->joint);
    found.row = trivet__end_row(making, on->brace, on->joint);
    trivet__axes_of_tube(making, on->brace, axes);
    trivet__into_axes3(axes, on->across, found.in);
    trivet__into_axes3(axes, on->upright, found.out);
    return found;
}

/* Compression in the chord on a side of the joint, Pa; pull: its force. */
static double pressed_by(const trivet_section *section, double pull, const double forces[6])
{
    return fabs(forces[4]) / section->elastic_modulus[0] +
           fabs(forces[5]) / section->elastic_modulus[1] - pull / section->area;
}

/* The most of both sides, by the forces at the ends of all spans; sign: of their pulls. */
static double most_pressed(const wall *of, const double *ends, double sign)
{
    const int32_t spans[2] = {of->run->span_before, of->run->span_behind};
    double stress = 0.0;
    for (int i = 0; i < 2; i++) {
        if (spans[i] >= 0) {
            const double *const forces = ends + 12 * (ptrdiff_t)spans[i] + (i == 0 ? 6 : 0);
            const double here = pressed_by(of->chord, sign * forces[0], forces);
            stress = here <= stress ? stress : here;
        }
    }
    return stress;
}

/* How much of its resistance a wall uses at most by so large loads. */
static double most_by_loads(const trivet__making *making, const wall *of, double stress,
                            const double loads[3], const double moments[3])
{
    const double factor = making->limits.loads;
    const double sum = fabs(moments[0]) + fabs(moments[1]) + fabs(moments[2]);
    const double rounding = (TRIVET__BOUND_MARGIN - 1.0) * sum;
    const double rounded[3] = {loads[0], loads[1] + rounding, loads[2] + rounding};
    return trivet__face_bound_at(of->bound, &of->on->face, factor,
                                 factor * stress / of->on->face.f0, rounded);
}

/* The same in a case. */
static double most_used(const trivet__making *making, const wall *of, int32_t in_case)
{
    const ptrdiff_t column = trivet__column_step(making) * in_case;
    const double *const forces = of->row + column;
    const double loads[3] = {forces[0], fabs(trivet__dot3(of->in, forces + 3)),
                             fabs(trivet__dot3(of->out, forces + 3))};
    return most_by_loads(making, of, most_pressed(of, making->span_ends + column, 1.0), loads,
                         forces + 3);
}

static double by_sizes(const double line[3], const double sizes[3])
{
    return fabs(line[0]) * sizes[0] + fabs(line[1]) * sizes[1] + fabs(line[2]) * sizes[2];
}

/* The same in any case, pulled or pushed. */
static double most_used_ever(const trivet__making *making, const wall *of)
{
    const double *const sizes = making->end_sizes + (of->row - making->span_ends);
    const double stress = most_pressed(of, making->end_sizes, -1.0);
    const double in = by_sizes(of->in, sizes + 3);
    const double out = by_sizes(of->out, sizes + 3);
    const double pulled =
        most_by_loads(making, of, stress, (const double[3]){sizes[0], in, out}, sizes + 3);
    const double pushed =
        most_by_loads(making, of, stress, (const double[3]){-sizes[0], in, out}, sizes + 3);
    return pushed <= pulled ? pulled : pushed;
}

static void check_columns(trivet__making *making, const trivet__welded_on *on, int is_last)
{
    if (!making->is_worst_only) {
        for (int32_t c = 0; c < making->columns; c++) {
            trivet__record_face(making, on, c);
        }
        return;
    }
    const wall found =
        find_wall(making, on, &making->checks->faces[2 * (size_t)on->brace + (size_t)is_last]);
    if (!trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, most_used_ever(making, &found))) {
        return;
    }
    for (int32_t c = 0; c < making->columns; c++) {
        if (trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, most_used(making, &found, c))) {
            trivet__record_face(making, on, c);
        }
    }
}

/* A tube that ends on one that runs on. *has_twist_out is set if the tube twists there. */
static trivet_status check_welded_on(trivet__making *making, const trivet__meeting *meeting,
                                     int32_t tube, int32_t joint, int *has_twist_out)
{
    trivet__welded_on on;
    int32_t has_wall = 0;
    const char *const why = trivet__welded_on_find(making, meeting, tube, joint, &on, &has_wall);
    if (!has_wall) {
        return TRIVET_OK;
    }
    if (why) {
        return omit_wall(making, meeting->through, tube, joint, why);
    }
    check_columns(making, &on, making->frame->tubes[tube].joints[0] != joint);
    if (has_twist(making, tube, joint)) {
        *has_twist_out = 1;
    }
    return TRIVET_OK;
}

static trivet_status check_corner(trivet__making *making, const trivet__meeting *meeting,
                                  int32_t joint)
{
    trivet__corner_joint corner;
    int32_t has_wall = 0;
    const char *const why = trivet__knee_find(making, meeting, joint, &corner, &has_wall);
    if (!has_wall) {
        return TRIVET_OK;
    }
    if (why) {
        return omit_wall(making, meeting->ends[0], meeting->ends[1], joint, why);
    }
    for (int32_t c = 0; c < making->columns; c++) {
        trivet__record_knee(making, &corner, c);
    }
    if (!bends_out_of_plane(making, &corner, 0) && !bends_out_of_plane(making, &corner, 1)) {
        return TRIVET_OK;
    }
    return trivet__omit(making->checks, TRIVET_LINE_OVERLOAD,
                        "bending out of the plane of the corner at",
                        making->frame->joints[joint].name,
                        "EN 1993-1-8 table 7.16 knows only pull and bending in the plane");
}

/* What is asked once a joint, by the first tube that is welded there. */
static trivet_status check_meeting(trivet__making *making, const trivet__meeting *meeting,
                                   int32_t joint)
{
    if (meeting->through_count == 0) {
        if (meeting->end_count == 2) {
            return check_corner(making, meeting, joint);
        }
        return meeting->end_count < 3
                   ? TRIVET_OK
                   : omit_group(making, joint,
                                "three or more tubes end there and none runs on: EN 1993-1-8 has "
                                "no rule for that");
    }
    if (meeting->welded_count < 2 || meeting->is_cross) {
        return TRIVET_OK;
    }
    return omit_group(
        making, joint,
        "each is looked at by itself; EN 1993-1-8's rules for K and KT joints and for "
        "tubes on several faces are not covered");
}

static trivet_status check_end(trivet__making *making, int32_t tube, int32_t joint,
                               int *has_twist_out)
{
    if (making->meets[joint] < 2 || !trivet__end_is_welded(making->frame, tube, joint)) {
        return TRIVET_OK;
    }
    const trivet__meeting *const meeting = &making->around->meetings[joint];
    trivet_status status = TRIVET_OK;
    if (meeting->welded[0] == tube) {
        status = check_meeting(making, meeting, joint);
    }
    if (status == TRIVET_OK && meeting->through_count > 0) {
        status = check_welded_on(making, meeting, tube, joint, has_twist_out);
    }
    return status;
}

trivet_status trivet__check_faces(trivet__making *making)
{
    const trivet_frame *const frame = making->frame;
    trivet_status status = make_room(making) ? TRIVET_OK : TRIVET_NO_MEMORY;
    int twists = 0;
    for (int32_t t = 0; t < frame->tube_count && status == TRIVET_OK; t++) {
        const trivet__tube *const tube = &frame->tubes[t];
        status = check_end(making, t, tube->joints[0], &twists);
        if (status == TRIVET_OK) {
            status = check_end(making, t, tube->joints[tube->joint_count - 1], &twists);
        }
    }
    if (status == TRIVET_OK && twists) {
        status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD,
                              "twist of tubes where they are welded onto a wall", "",
                              "EN 1993-1-8 chapter 7 has no rule for it");
    }
    return status;
}
