/*
 * Whether a frame can be planned. What needs positions, offsets and loads together is looked at
 * here, because they may change after a thing was added. Allocates nothing.
 */
#include "frame/validate.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>

static trivet_status check_parts(const trivet_frame *frame, trivet_message *message)
{
    static const struct {
        int32_t kind;
        const char *problem;
        const char *remedy;
    } needed[] = {
        {TRIVET_KIND_TUBE, "there is no tube in it", "add at least one tube"},
        {TRIVET_KIND_MOUNT, "there is no mount, so nothing holds it",
         "add a mount where it is fastened"},
        {TRIVET_KIND_CASE, "there is no case, so nothing loads it",
         "add a case, for instance gravity straight down"},
    };
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++) {
        if (trivet_frame_count(frame, needed[i].kind) == 0) {
            return trivet__refuse(message, TRIVET_INCOMPLETE, "frame", needed[i].problem,
                                  needed[i].remedy);
        }
    }
    return TRIVET_OK;
}

static int is_met(const trivet_frame *frame, int32_t joint)
{
    return frame->joints[joint].tube_count > 0;
}

static trivet_status refuse_unmet(const char *kind, const char *name, const char *problem,
                                  trivet_message *message)
{
    return trivet__refuse_thing(message, TRIVET_INCOMPLETE, kind, name, problem,
                                "run a tube through it, or leave it out");
}

/* Mounts and cargo first: they say better what was meant. */
static trivet_status check_joints(const trivet_frame *frame, trivet_message *message)
{
    for (int32_t i = 0; i < frame->mount_count; i++) {
        const int32_t joint = frame->mounts[i].joint;
        if (!is_met(frame, joint)) {
            return refuse_unmet("mount", frame->joints[joint].name,
                                "it is on a joint that no tube meets", message);
        }
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        const trivet__cargo *const cargo = &frame->cargos[i];
        for (int32_t k = 0; k < cargo->joint_count; k++) {
            if (!is_met(frame, cargo->joints[k])) {
                refuse_unmet("cargo", cargo->name, "", message);
                trivet__message_problem(message, "it rests on joint %s, which no tube meets",
                                        frame->joints[cargo->joints[k]].name);
                trivet__message_remedy(message, "run a tube through that joint, or leave it out");
                return TRIVET_INCOMPLETE;
            }
        }
    }
    for (int32_t i = 0; i < frame->joint_count; i++) {
        if (!is_met(frame, i)) {
            return refuse_unmet("joint", frame->joints[i].name, "no tube meets it", message);
        }
    }
    return TRIVET_OK;
}

/* what: "force acts" or the like. */
static trivet_status refuse_place(const trivet_frame *frame, const trivet__case *in_case,
                                  int32_t tube, double at, const char *what,
                                  trivet_message *message)
{
    char at_text[TRIVET__VALUE_TEXT_MAX];
    char length_text[TRIVET__VALUE_TEXT_MAX];
    const double length = trivet_frame_tube_length(frame, tube);
    trivet_units_text(NULL, TRIVET_LENGTH, at, 6, at_text, sizeof at_text);
    trivet_units_text(NULL, TRIVET_LENGTH, length, 6, length_text, sizeof length_text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", frame->tubes[tube].name, "",
                         "keep it on the tube");
    trivet__message_problem(message, "a %s at %s, the tube is only %s long", what, at_text,
                            length_text);
    trivet__message_within(message, "case %s", in_case->name);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_force(const trivet_frame *frame, const trivet__case *in_case,
                                 const trivet__tube_force *force, trivet_message *message)
{
    const double length = trivet_frame_tube_length(frame, force->tube);
    if (force->at <= length + TRIVET__ROUNDING * length) {
        return TRIVET_OK;
    }
    return refuse_place(frame, in_case, force->tube, force->at, "force acts", message);
}

/* A line load ends on the tube, or at its end and then begins on it by more than a point. */
static trivet_status check_line(const trivet_frame *frame, const trivet__case *in_case,
                                const trivet__tube_line *line, trivet_message *message)
{
    const double length = trivet_frame_tube_length(frame, line->tube);
    if (isnan(line->to)) {
        if (!(line->from + TRIVET__SPAN_LEAST <= length)) {
            return refuse_place(frame, in_case, line->tube, line->from, "line load begins",
                                message);
        }
    } else if (!(line->to <= length + TRIVET__ROUNDING * length)) {
        return refuse_place(frame, in_case, line->tube, line->to, "line load ends", message);
    }
    return TRIVET_OK;
}

static trivet_status check_places(const trivet_frame *frame, const trivet__case *of,
                                  trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; status == TRIVET_OK && i < of->tube_force_count; i++) {
        status = check_force(frame, of, &of->tube_forces[i], message);
    }
    for (int32_t i = 0; status == TRIVET_OK && i < of->tube_line_count; i++) {
        status = check_line(frame, of, &of->tube_lines[i], message);
    }
    return status;
}

static int has_value(const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (values[i] != 0.0) {
            return 1;
        }
    }
    return 0;
}

static int has_load(const trivet_frame *frame, const trivet__case *of)
{
    return of->joint_force_count > 0 || of->cargo_force_count > 0 || of->tube_force_count > 0 ||
           of->tube_line_count > 0 || of->warm != 0.0 || has_value(of->gravity, 3) ||
           has_value(of->mount_moves, 6 * (size_t)frame->mount_count);
}

static trivet_status check_case(const trivet_frame *frame, const trivet__case *of,
                                trivet_message *message)
{
    if (!has_load(frame, of)) {
        return trivet__refuse_thing(message, TRIVET_INCOMPLETE, "case", of->name,
                                    "there is no load in it",
                                    "give it gravity, a force, a mount's move or warmth");
    }
    return check_places(frame, of, message);
}

trivet_status trivet_frame_validate(const trivet_frame *frame, trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = check_parts(frame, message);
    if (status == TRIVET_OK) {
        status = check_joints(frame, message);
    }
    for (int32_t i = 0; status == TRIVET_OK && i < frame->tube_count; i++) {
        status = trivet__tube_validate(frame, i, message);
    }
    for (int32_t i = 0; status == TRIVET_OK && i < frame->case_count; i++) {
        status = check_case(frame, &frame->cases[i], message);
    }
    return status;
}
