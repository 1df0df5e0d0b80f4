/*
 * Loads of a case: forces and moments on joints, cargo and tubes, line loads on tubes.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* The case and the thing that the load acts on exist. */
static trivet_status check_indices(const trivet_frame *frame, int32_t in_case, int32_t kind,
                                   int32_t index, trivet_message *message)
{
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CASE, in_case, message);
    if (status == TRIVET_OK) {
        status = trivet__index_check(frame, kind, index, message);
        if (status != TRIVET_OK) {
            trivet__message_within(message, "case %s", frame->cases[in_case].name);
        }
    }
    return status;
}

static trivet_status check_load(const char *kind, const char *name, const double *force,
                                const double *moment, trivet_message *message)
{
    const trivet__number_of of_force = {kind, name, "force", TRIVET_FORCE};
    const trivet__number_of of_moment = {kind, name, "moment", TRIVET_MOMENT};
    trivet_status status = force ? trivet__numbers_check(force, 3, of_force, message) : TRIVET_OK;
    if (status == TRIVET_OK && moment) {
        status = trivet__numbers_check(moment, 3, of_moment, message);
    }
    return status;
}

static trivet_status check_axes(const char *tube, int32_t axes, trivet_message *message)
{
    if (axes == TRIVET_WORLD_AXES || axes == TRIVET_TUBE_AXES) {
        return TRIVET_OK;
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", tube, "", "take world or tube axes");
    trivet__message_problem(message, "the load's axes are %d, which are none", (int)axes);
    return TRIVET_BAD_VALUE;
}

/* Says in which case the load stands that was refused. */
static trivet_status within_case(const trivet_frame *frame, int32_t in_case, trivet_status status,
                                 trivet_message *message)
{
    if (status != TRIVET_OK) {
        trivet__message_within(message, "case %s", frame->cases[in_case].name);
    }
    return status;
}

static void copy3(double into[3], const double *from)
{
    if (from) {
        memcpy(into, from, 3 * sizeof *from);
    }
}

trivet_status trivet_frame_add_joint_force(trivet_frame *frame, int32_t in_case, int32_t joint,
                                           const double *force, const double *moment,
                                           trivet_message *message)
{
    if (!frame || (!force && !moment)) {
        return trivet__missing(message, frame ? "force and moment" : "frame");
    }
    trivet_status status = check_indices(frame, in_case, TRIVET_KIND_JOINT, joint, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = check_load("joint", frame->joints[joint].name, force, moment, message);
    if (status != TRIVET_OK) {
        return within_case(frame, in_case, status, message);
    }
    trivet__case *const into = &frame->cases[in_case];
    trivet__joint_force *const list =
        trivet__grown(&frame->pool, into->joint_forces, into->joint_force_count,
                      &into->joint_force_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    into->joint_forces = list;
    trivet__joint_force *const made = &list[into->joint_force_count];
    memset(made, 0, sizeof *made);
    made->joint = joint;
    copy3(made->force, force);
    copy3(made->moment, moment);
    into->joint_force_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_cargo_force(trivet_frame *frame, int32_t in_case, int32_t cargo,
                                           const double *force, const double *moment,
                                           const double *at, trivet_message *message)
{
    if (!frame || (!force && !moment)) {
        return trivet__missing(message, frame ? "force and moment" : "frame");
    }
    trivet_status status = check_indices(frame, in_case, TRIVET_KIND_CARGO, cargo, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__cargo *const on = &frame->cargos[cargo];
    status = check_load("cargo", on->name, force, moment, message);
    if (status == TRIVET_OK && at) {
        const trivet__number_of of = {"cargo", on->name, "place of the force", TRIVET_LENGTH};
        status = trivet__numbers_check(at, 3, of, message);
    }
    if (status != TRIVET_OK) {
        return within_case(frame, in_case, status, message);
    }
    trivet__case *const into = &frame->cases[in_case];
    trivet__cargo_force *const list =
        trivet__grown(&frame->pool, into->cargo_forces, into->cargo_force_count,
                      &into->cargo_force_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    into->cargo_forces = list;
    trivet__cargo_force *const made = &list[into->cargo_force_count];
    memset(made, 0, sizeof *made);
    made->cargo = cargo;
    made->at_centre = at ? 0 : 1;
    copy3(made->force, force);
    copy3(made->moment, moment);
    copy3(made->at, at ? at : on->centre);
    into->cargo_force_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_tube_force(trivet_frame *frame, int32_t in_case, int32_t tube,
                                          double at, const double *force, const double *moment,
                                          int32_t axes, trivet_message *message)
{
    if (!frame || (!force && !moment)) {
        return trivet__missing(message, frame ? "force and moment" : "frame");
    }
    trivet_status status = check_indices(frame, in_case, TRIVET_KIND_TUBE, tube, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const char *const name = frame->tubes[tube].name;
    const trivet__number_of of_at = {"tube", name, "place of the force", TRIVET_LENGTH};
    status = trivet__not_negative_check(at, of_at, message);
    if (status == TRIVET_OK) {
        status = check_load("tube", name, force, moment, message);
    }
    if (status == TRIVET_OK) {
        status = check_axes(name, axes, message);
    }
    if (status != TRIVET_OK) {
        return within_case(frame, in_case, status, message);
    }
    trivet__case *const into = &frame->cases[in_case];
    trivet__tube_force *const list =
        trivet__grown(&frame->pool, into->tube_forces, into->tube_force_count,
                      &into->tube_force_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    into->tube_forces = list;
    trivet__tube_force *const made = &list[into->tube_force_count];
    memset(made, 0, sizeof *made);
    made->tube = tube;
    made->axes = axes;
    made->at = at;
    copy3(made->force, force);
    copy3(made->moment, moment);
    into->tube_force_count++;
    return TRIVET_OK;
}

/* The stretch of a line load; a NaN for its end means the tube's end. */
static trivet_status check_stretch(const char *tube, double from, double to,
                                   trivet_message *message)
{
    trivet__number_of of = {"tube", tube, "start of the load", TRIVET_LENGTH};
    trivet_status status = trivet__not_negative_check(from, of, message);
    if (status != TRIVET_OK || isnan(to)) {
        return status;
    }
    of.what = "end of the load";
    status = trivet__numbers_check(&to, 1, of, message);
    if (status != TRIVET_OK || to > from) {
        return status;
    }
    char from_text[TRIVET__VALUE_TEXT_MAX];
    char to_text[TRIVET__VALUE_TEXT_MAX];
    trivet_units_text(NULL, TRIVET_LENGTH, from, 6, from_text, sizeof from_text);
    trivet_units_text(NULL, TRIVET_LENGTH, to, 6, to_text, sizeof to_text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", tube, "",
                         "let it end beyond its start, or use a single force");
    trivet__message_problem(message, "the load runs from %s to %s", from_text, to_text);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_line(const char *tube, double from, double to, const double *first,
                                const double *last, int32_t axes, trivet_message *message)
{
    const trivet__number_of of = {"tube", tube, "line load", TRIVET_LINE_LOAD};
    trivet_status status = check_stretch(tube, from, to, message);
    if (status == TRIVET_OK) {
        status = trivet__numbers_check(first, 3, of, message);
    }
    if (status == TRIVET_OK) {
        status = trivet__numbers_check(last, 3, of, message);
    }
    return status == TRIVET_OK ? check_axes(tube, axes, message) : status;
}

trivet_status trivet_frame_add_tube_line(trivet_frame *frame, int32_t in_case, int32_t tube,
                                         double from, double to, const double *first,
                                         const double *last, int32_t axes, trivet_message *message)
{
    if (!frame || !first || !last) {
        return trivet__missing(message, !frame ? "frame" : !first ? "first" : "last");
    }
    trivet_status status = check_indices(frame, in_case, TRIVET_KIND_TUBE, tube, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = check_line(frame->tubes[tube].name, from, to, first, last, axes, message);
    if (status != TRIVET_OK) {
        return within_case(frame, in_case, status, message);
    }
    trivet__case *const into = &frame->cases[in_case];
    trivet__tube_line *const list =
        trivet__grown(&frame->pool, into->tube_lines, into->tube_line_count,
                      &into->tube_line_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    into->tube_lines = list;
    trivet__tube_line *const made = &list[into->tube_line_count];
    memset(made, 0, sizeof *made);
    made->tube = tube;
    made->axes = axes;
    made->from = from;
    made->to = to;
    copy3(made->first, first);
    copy3(made->last, last);
    into->tube_line_count++;
    return TRIVET_OK;
}
