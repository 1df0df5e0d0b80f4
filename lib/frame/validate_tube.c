/*
 * Whether a tube can be what its joints, offsets and inserts say. Each check walks along the tube
 * once and allocates nothing, because every solve begins with it.
 */
#include "base/vec3.h"
#include "frame/border.h"
#include "frame/frame.h"
#include "frame/validate.h"

static void write_length(double length, char text[TRIVET__VALUE_TEXT_MAX])
{
    trivet_units_text(NULL, TRIVET_LENGTH, length, 4, text, TRIVET__VALUE_TEXT_MAX);
}

static const char *joint_name(const trivet_frame *frame, int32_t tube, int32_t position)
{
    return frame->joints[frame->tubes[tube].joints[position]].name;
}

static trivet_status refuse_no_length(const trivet_frame *frame, int32_t tube, int32_t one,
                                      int32_t other, trivet_message *message)
{
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", frame->tubes[tube].name, "",
                         "move one of the two, or leave it out");
    trivet__message_problem(message, "it has no length between joints %s and %s",
                            joint_name(frame, tube, one), joint_name(frame, tube, other));
    return TRIVET_BAD_VALUE;
}

/* Every span, and the whole from end to end, has a length. */
static trivet_status check_spans(const trivet_frame *frame, int32_t tube, trivet_message *message)
{
    const int32_t last = frame->tubes[tube].joint_count - 1;
    double first[3];
    double here[3];
    double step[3];
    trivet__tube_end_point(frame, tube, 0, first);
    trivet__tube_end_point(frame, tube, 0, here);
    for (int32_t i = 1; i <= last; i++) {
        double next[3];
        trivet__tube_end_point(frame, tube, i, next);
        trivet__minus3(next, here, step);
        if (!(trivet__length3(step) > TRIVET__SPAN_LEAST)) {
            return refuse_no_length(frame, tube, i - 1, i, message);
        }
        for (int k = 0; k < 3; k++) {
            here[k] = next[k];
        }
    }
    trivet__minus3(here, first, step);
    if (!(trivet__length3(step) > TRIVET__SPAN_LEAST)) {
        return refuse_no_length(frame, tube, 0, last, message);
    }
    return TRIVET_OK;
}

/* Joints between stand on the line from the first to the last, one after the other. */
static trivet_status check_straight(const trivet_frame *frame, int32_t tube,
                                    trivet_message *message)
{
    const trivet__tube *const of = &frame->tubes[tube];
    const int32_t last = of->joint_count - 1;
    if (last == 1) {
        return TRIVET_OK;
    }
    double first[3];
    double x[3];
    trivet__tube_end_point(frame, tube, 0, first);
    trivet__tube_end_point(frame, tube, last, x);
    trivet__minus3(x, first, x);
    const double length = trivet__length3(x);
    double before = 0.0;
    for (int32_t i = 1; i <= last; i++) {
        double from_first[3];
        double across[3];
        trivet__tube_end_point(frame, tube, i, from_first);
        trivet__minus3(from_first, first, from_first);
        trivet__cross3(x, from_first, across);
        const double off = trivet__length3(across) / length;
        if (!(off <= TRIVET__STRAIGHT * length)) {
            char text[TRIVET__VALUE_TEXT_MAX];
            write_length(off, text);
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", of->name, "",
                                 "move the joint onto the line, or make two tubes of it");
            trivet__message_problem(message, "joint %s stands %s off the line from %s to %s",
                                    joint_name(frame, tube, i), text, joint_name(frame, tube, 0),
                                    joint_name(frame, tube, last));
            return TRIVET_BAD_VALUE;
        }
        const double along = trivet__dot3(x, from_first) / length;
        if (!(along > before)) {
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", of->name, "",
                                 "name its joints in the order in which they stand");
            trivet__message_problem(message, "joint %s does not come after joint %s along it",
                                    joint_name(frame, tube, i), joint_name(frame, tube, i - 1));
            return TRIVET_BAD_VALUE;
        }
        before = along;
    }
    return TRIVET_OK;
}

static trivet_status refuse_insert(const trivet_frame *frame, int32_t tube, double length,
                                   const trivet__insert *insert, double beyond,
                                   trivet_message *message)
{
    char insert_text[TRIVET__VALUE_TEXT_MAX];
    char other_text[TRIVET__VALUE_TEXT_MAX];
    const char *const joint = joint_name(frame, tube, insert->position);
    write_length(insert->length, insert_text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", frame->tubes[tube].name, "",
                         "make the insert shorter");
    if (insert->length > length) {
        write_length(length, other_text);
        trivet__message_problem(message, "the insert at joint %s is %s long, the tube only %s",
                                joint, insert_text, other_text);
    } else {
        write_length(beyond, other_text);
        trivet__message_problem(message, "the insert at joint %s reaches %s beyond the tube's end",
                                joint, other_text);
    }
    return TRIVET_BAD_VALUE;
}

static trivet_status refuse_overlap(const trivet_frame *frame, int32_t tube, int32_t insert,
                                    double overlap, trivet_message *message)
{
    const trivet__tube *const of = &frame->tubes[tube];
    char text[TRIVET__VALUE_TEXT_MAX];
    write_length(overlap, text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", of->name, "",
                         "make one of them shorter, or one insert of the two");
    trivet__message_problem(message, "the inserts at joints %s and %s overlap by %s",
                            joint_name(frame, tube, of->inserts[insert - 1].position),
                            joint_name(frame, tube, of->inserts[insert].position), text);
    return TRIVET_BAD_VALUE;
}

/* m from one joint to the next along the tube. */
static double span_length(const trivet_frame *frame, int32_t tube, int32_t position)
{
    double here[3];
    double next[3];
    trivet__tube_end_point(frame, tube, position, here);
    trivet__tube_end_point(frame, tube, position + 1, next);
    trivet__minus3(next, here, next);
    return trivet__length3(next);
}

/*
 * Inserts stand by rising position, so neighbours alone need be compared: where no neighbours
 * overlap, each begins after all earlier ones have ended.
 */
static trivet_status check_inserts(const trivet_frame *frame, int32_t tube, trivet_message *message)
{
    const trivet__tube *const of = &frame->tubes[tube];
    if (of->insert_count == 0) {
        return TRIVET_OK;
    }
    const double length = trivet_frame_tube_length(frame, tube);
    const double rounding = TRIVET__ROUNDING * length;
    double at = 0.0;
    int32_t position = 0;
    double filled_to = 0.0;
    for (int32_t i = 0; i < of->insert_count; i++) {
        for (; position < of->inserts[i].position; position++) {
            at += span_length(frame, tube, position);
        }
        double from = 0.0;
        double to = 0.0;
        trivet__insert_stretch_at(&of->inserts[i], of->joint_count, at, &from, &to);
        const double beyond = -from > to - length ? -from : to - length;
        if (!(beyond <= rounding)) {
            return refuse_insert(frame, tube, length, &of->inserts[i], beyond, message);
        }
        if (i > 0 && !(from >= filled_to - rounding)) {
            return refuse_overlap(frame, tube, i, filled_to - from, message);
        }
        filled_to = to;
    }
    return TRIVET_OK;
}

trivet_status trivet__tube_validate(const trivet_frame *frame, int32_t tube,
                                    trivet_message *message)
{
    trivet_status status = check_spans(frame, tube, message);
    if (status == TRIVET_OK) {
        status = check_straight(frame, tube, message);
    }
    return status == TRIVET_OK ? check_inserts(frame, tube, message) : status;
}
