/*
 * What ends of tubes, sets of bolts and cargo's joints have to carry, from the solution.
 *
 * What cargo hands on to a joint follows from the balance of the joint: whatever the tubes and the
 * mount there do not get from forces of the case, they get from cargo, shared or stiff alike.
 */
#include "checks/demand.h"

#include "base/text.h"
#include "base/vec3.h"
#include "frame/frame.h"
#include "statics/statics.h"

#include <string.h>

const double *trivet__end_row(const trivet__making *making, int32_t tube, int32_t joint)
{
    const trivet__tube *const of = &making->frame->tubes[tube];
    const int is_last = of->joints[of->joint_count - 1] == joint;
    const trivet__run *const run = trivet__run_at(making, tube, is_last ? of->joint_count - 1 : 0);
    return making->span_ends +
           (is_last ? 12 * (ptrdiff_t)run->span_before + 6 : 12 * (ptrdiff_t)run->span_behind);
}

void trivet__end_forces(const trivet__making *making, int32_t in_case, int32_t tube, int32_t joint,
                        double forces_out[6])
{
    const double *const first = trivet__end_row(making, tube, joint);
    memcpy(forces_out, first + trivet__column_step(making) * in_case, 6 * sizeof *forces_out);
}

void trivet__axes_of_tube(const trivet__making *making, int32_t tube, double axes_out[9])
{
    const trivet__run *const run = trivet__run_at(making, tube, 0);
    memcpy(axes_out, making->result->spans[run->span_behind].axes, 9 * sizeof *axes_out);
}

/*
 * Adds what a tube puts on its joint number position from a face of the section there: sign 1 for
 * the face before the rest of the tube, -1 for the one behind. sums: force and moment, world axes.
 */
static void add_face(const trivet_frame *frame, int32_t tube, int32_t position,
                     const double axes[9], const double forces[6], double sign, double sums[6])
{
    double point[3];
    double force[3];
    double moment[3];
    double turned[3];
    trivet__tube_end_point(frame, tube, position, point);
    const double *const joint = frame->joints[frame->tubes[tube].joints[position]].position;
    for (int i = 0; i < 3; i++) {
        point[i] -= joint[i];
    }
    trivet__from_axes3(axes, forces, force);
    trivet__from_axes3(axes, forces + 3, moment);
    trivet__cross3(point, force, turned);
    for (int i = 0; i < 3; i++) {
        sums[i] += sign * force[i];
        sums[3 + i] += sign * (moment[i] + turned[i]);
    }
}

static int32_t position_on_tube(const trivet__tube *tube, int32_t joint)
{
    for (int32_t i = 0; i < tube->joint_count; i++) {
        if (tube->joints[i] == joint) {
            return i;
        }
    }
    return -1;
}

/* Adds what a tube puts on a joint that it meets. */
static void add_tube(const trivet__making *making, int32_t in_case, int32_t tube, int32_t joint,
                     double sums[6])
{
    const int32_t position = position_on_tube(&making->frame->tubes[tube], joint);
    int32_t count = 0;
    int32_t all = 0;
    const double *const ends = trivet_result_span_ends(making->result, NULL, &all);
    const int32_t first = trivet_result_tube_spans(making->result, tube, &count);
    for (int32_t s = first; position >= 0 && s < first + count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(making->result, s, &span) != TRIVET_OK) {
            continue;
        }
        const double *const at = ends + 12 * ((ptrdiff_t)in_case * all + s);
        if (span.first_joint == joint) {
            add_face(making->frame, tube, position, span.axes, at, 1.0, sums);
        }
        if (span.last_joint == joint) {
            add_face(making->frame, tube, position, span.axes, at + 6, -1.0, sums);
        }
    }
}

static void add_joint_forces(const trivet__case *of, int32_t joint, double factor, double sums[6])
{
    for (int32_t i = 0; i < of->joint_force_count; i++) {
        const trivet__joint_force *const load = &of->joint_forces[i];
        for (int k = 0; load->joint == joint && k < 3; k++) {
            sums[k] += factor * load->force[k];
            sums[3 + k] += factor * load->moment[k];
        }
    }
}

/* Adds the forces that a case or combination puts on a joint itself. */
static void add_applied(const trivet_frame *frame, int32_t in_case, int32_t joint, double sums[6])
{
    if (in_case < frame->case_count) {
        add_joint_forces(&frame->cases[in_case], joint, 1.0, sums);
        return;
    }
    const trivet__combination *const sum = &frame->combinations[in_case - frame->case_count];
    for (int32_t i = 0; i < sum->case_count; i++) {
        add_joint_forces(&frame->cases[sum->cases[i]], joint, sum->factors[i], sums);
    }
}

/* Reaction [6] of a mount, world axes. */
static const double *reaction_of(const trivet__making *making, int32_t in_case, int32_t mount)
{
    int32_t count = 0;
    const double *const all = trivet_result_reactions(making->result, NULL, &count);
    return all + 6 * ((ptrdiff_t)in_case * count + mount);
}

void trivet__cargo_forces(const trivet__making *making, int32_t in_case, int32_t joint,
                          double forces_out[6])
{
    double sums[6] = {0.0};
    const int32_t mount = trivet__joint_mount(making->frame, joint);
    for (int32_t t = 0; t < making->frame->tube_count; t++) {
        add_tube(making, in_case, t, joint, sums);
    }
    add_applied(making->frame, in_case, joint, sums);
    for (int i = 0; i < 6; i++) {
        forces_out[i] = -sums[i] - (mount >= 0 ? reaction_of(making, in_case, mount)[i] : 0.0);
    }
}

/* The axes of a set of bolts: its own, or those of the tube whose end it holds. */
static void find_axes(const trivet__making *making, const trivet_bolts *bolts, double axes_out[9])
{
    memcpy(axes_out, bolts->axes, sizeof bolts->axes);
    if (trivet__dot3(bolts->axes + 6, bolts->axes + 6) == 0.0) {
        trivet__axes_of_tube(making, bolts->where_index, axes_out);
    }
}

void trivet__bolts_forces(const trivet__making *making, int32_t in_case, int32_t bolts,
                          double forces_out[6])
{
    const trivet_bolts *const set = &making->frame->bolts[bolts];
    double world[6] = {0.0};
    double axes[9];
    if (set->where_kind == TRIVET_KIND_MOUNT) {
        const double *const reaction = reaction_of(making, in_case, set->where_index);
        for (int i = 0; i < 6; i++) {
            world[i] = -reaction[i];
        }
    } else if (set->where_kind == TRIVET_KIND_TUBE) {
        add_tube(making, in_case, set->where_index, set->joint, world);
    } else {
        trivet__cargo_forces(making, in_case, set->joint, world);
    }
    find_axes(making, set, axes);
    trivet__into_axes3(axes, world, forces_out);
    trivet__into_axes3(axes, world + 3, forces_out + 3);
}

trivet__record *trivet__bolts_record(trivet__making *making, const trivet__check_kind *kind,
                                     int32_t bolts, int32_t in_case)
{
    const trivet_bolts *const set = &making->frame->bolts[bolts];
    trivet__record *const record = trivet__record_start(making, kind, set->where_index, in_case);
    record->check.where_kind = set->where_kind;
    record->check.where = trivet_frame_name(making->frame, set->where_kind, set->where_index);
    record->check.joint = set->joint;
    if (set->where_kind != TRIVET_KIND_MOUNT) {
        trivet__record_at(making, record, record->check.where, set->joint);
    }
    return record;
}

trivet_status trivet__bolts_omit_line(trivet__making *making, int32_t line, int32_t bolts,
                                      const char *what, const char *why)
{
    const trivet_frame *const frame = making->frame;
    const trivet_bolts *const set = &frame->bolts[bolts];
    const char *const where = trivet_frame_name(frame, set->where_kind, set->where_index);
    const char *const of_mount[TRIVET__OMISSION_PARTS] = {what, " mount ", where};
    const char *const of_joint[TRIVET__OMISSION_PARTS] = {
        what, " ", where, " at ", trivet_frame_name(frame, TRIVET_KIND_JOINT, set->joint)};
    return trivet__omit_parts(making->checks, line,
                              set->where_kind == TRIVET_KIND_MOUNT ? of_mount : of_joint, why);
}

trivet_status trivet__bolts_omit(trivet__making *making, int32_t bolts, const char *what,
                                 const char *why)
{
    return trivet__bolts_omit_line(making, TRIVET_LINE_OVERLOAD, bolts, what, why);
}

size_t trivet_bolts_place_text(const trivet_frame *frame, int32_t bolts, char *text, size_t size)
{
    if (!frame || bolts < 0 || bolts >= trivet_frame_bolts_count(frame)) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet_bolts *const set = &frame->bolts[bolts];
    const char *const where = trivet_frame_name(frame, set->where_kind, set->where_index);
    if (set->where_kind == TRIVET_KIND_MOUNT) {
        return trivet__text_print(text, size, "mount %s", where);
    }
    return trivet__text_print(text, size, "%s at %s", where,
                              trivet_frame_name(frame, TRIVET_KIND_JOINT, set->joint));
}
