/*
 * Tubes: joints in order, stock, roll; then what sits on them: free ends, offsets, inserts.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

static trivet_status check_tube(trivet_frame *frame, const char *name, const int32_t *joints,
                                int32_t joint_count, int32_t stock, double roll,
                                trivet_message *message)
{
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_TUBE, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (joint_count < 2) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", name, "",
                             "name the joints at its two ends");
        trivet__message_problem(message, "it runs through %d joint%s, a tube needs two or more",
                                (int)joint_count, joint_count == 1 ? "" : "s");
        return TRIVET_BAD_VALUE;
    }
    status =
        trivet__list_check(frame, TRIVET_KIND_JOINT, joints, joint_count, "tube", name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = trivet__index_check(frame, TRIVET_KIND_STOCK, stock, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "tube %s", name);
        return status;
    }
    const trivet__number_of of = {"tube", name, "roll", TRIVET_ANGLE};
    return trivet__numbers_check(&roll, 1, of, message);
}

/* Makes room, names the tube and puts it in; on failure the frame is as before. */
static trivet_status commit_tube(trivet_frame *frame, const char *name, const trivet__tube *made,
                                 trivet_message *message)
{
    trivet__tube *const tubes = trivet__grown(&frame->pool, frame->tubes, frame->tube_count,
                                              &frame->tube_capacity, sizeof *tubes);
    if (!tubes) {
        return trivet__no_memory(message);
    }
    frame->tubes = tubes;
    const char *const kept =
        trivet__names_add(&frame->tube_names, &frame->pool, name, frame->tube_count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    tubes[frame->tube_count] = *made;
    tubes[frame->tube_count].name = kept;
    frame->tube_count++;
    for (int32_t i = 0; i < made->joint_count; i++) {
        frame->joints[made->joints[i]].tube_count++;
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_add_tube(trivet_frame *frame, const char *name, const int32_t *joints,
                                    int32_t joint_count, int32_t stock, double roll,
                                    int32_t *tube_out, trivet_message *message)
{
    if (tube_out) {
        *tube_out = -1;
    }
    if (!frame || !joints) {
        return trivet__missing(message, frame ? "joints" : "frame");
    }
    trivet_status status = check_tube(frame, name, joints, joint_count, stock, roll, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const size_t count = (size_t)joint_count;
    trivet__tube made;
    memset(&made, 0, sizeof made);
    made.joint_count = joint_count;
    made.stock = stock;
    made.roll = roll;
    trivet_weld_defaults(&made.weld_first, sizeof made.weld_first);
    made.weld_first.kind = TRIVET_WELD_NOT_SAID;
    made.weld_last = made.weld_first;
    made.joints = trivet__pool_take(&frame->pool, count, sizeof *made.joints);
    made.offsets = trivet__pool_take(&frame->pool, count, 3 * sizeof *made.offsets);
    if (!made.joints || !made.offsets) {
        return trivet__no_memory(message);
    }
    memcpy(made.joints, joints, count * sizeof *joints);
    status = commit_tube(frame, name, &made, message);
    if (status == TRIVET_OK && tube_out) {
        *tube_out = frame->tube_count - 1;
    }
    return status;
}

/* The place of a joint along a tube, or a refusal. */
static trivet_status find_position(const trivet_frame *frame, int32_t tube, int32_t joint,
                                   int32_t *position_out, trivet_message *message)
{
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_TUBE, tube, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__tube *const on = &frame->tubes[tube];
    status = trivet__index_check(frame, TRIVET_KIND_JOINT, joint, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "tube %s", on->name);
        return status;
    }
    for (int32_t i = 0; i < on->joint_count; i++) {
        if (on->joints[i] == joint) {
            *position_out = i;
            return TRIVET_OK;
        }
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", on->name, "",
                         "name a joint of this tube");
    trivet__message_problem(message, "it does not run through joint %s", frame->joints[joint].name);
    return TRIVET_BAD_VALUE;
}

trivet_status trivet__end_check(const trivet_frame *frame, int32_t tube, int32_t joint,
                                const char *remedy, int32_t *position_out, trivet_message *message)
{
    const trivet_status status = find_position(frame, tube, joint, position_out, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__tube *const of = &frame->tubes[tube];
    if (*position_out == 0 || *position_out == of->joint_count - 1) {
        return TRIVET_OK;
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", of->name, "", remedy);
    trivet__message_problem(message, "joint %s is not one of its ends", frame->joints[joint].name);
    return TRIVET_BAD_VALUE;
}

trivet_status trivet_frame_set_free_end(trivet_frame *frame, int32_t tube, int32_t joint,
                                        uint32_t directions, trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    int32_t position = 0;
    const trivet_status status = trivet__end_check(
        frame, tube, joint, "free its first or last joint, or make two tubes of it", &position,
        message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__tube *const of = &frame->tubes[tube];
    if (directions > (uint32_t)TRIVET_ALL) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", of->name,
                                    "the free directions are not made of x, y, z, rx, ry, rz",
                                    "add up the bits of the directions");
    }
    if (position > 0) {
        of->free_last = directions;
    } else {
        of->free_first = directions;
    }
    return TRIVET_OK;
}

trivet_status trivet_frame_set_offset(trivet_frame *frame, int32_t tube, int32_t joint,
                                      const double *offset, trivet_message *message)
{
    if (!frame || !offset) {
        return trivet__missing(message, frame ? "offset" : "frame");
    }
    int32_t position = 0;
    trivet_status status = find_position(frame, tube, joint, &position, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__number_of of = {"tube", frame->tubes[tube].name, "offset", TRIVET_LENGTH};
    status = trivet__numbers_check(offset, 3, of, message);
    if (status == TRIVET_OK) {
        memmove(frame->tubes[tube].offsets + 3 * (size_t)position, offset, 3 * sizeof *offset);
    }
    return status;
}

trivet_status trivet_frame_offset(const trivet_frame *frame, int32_t tube, int32_t joint,
                                  double *offset_out)
{
    if (!frame || !offset_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    int32_t position = 0;
    const trivet_status status = find_position(frame, tube, joint, &position, NULL);
    if (status == TRIVET_OK) {
        memcpy(offset_out, frame->tubes[tube].offsets + 3 * (size_t)position,
               3 * sizeof *offset_out);
    }
    return status;
}

static trivet_status check_insert(const trivet_frame *frame, const trivet__tube *tube,
                                  double length, int32_t stock, int32_t bond,
                                  trivet_message *message)
{
    const trivet__number_of of = {"tube", tube->name, "insert's length", TRIVET_LENGTH};
    trivet_status status = trivet__positive_check(length, of, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = trivet__index_check(frame, TRIVET_KIND_STOCK, stock, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "tube %s", tube->name);
        return status;
    }
    if (bond != TRIVET_SIDE_BY_SIDE && bond != TRIVET_TOGETHER) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", tube->name, "",
                             "take side by side or together");
        trivet__message_problem(message, "the insert's bond is %d, which is none", (int)bond);
        return TRIVET_BAD_VALUE;
    }
    return TRIVET_OK;
}

/* How many inserts sit before a position; *taken_out: one sits at it. */
static int32_t count_before(const trivet__tube *tube, int32_t position, int *taken_out)
{
    int32_t before = 0;
    while (before < tube->insert_count && tube->inserts[before].position < position) {
        before++;
    }
    *taken_out = before < tube->insert_count && tube->inserts[before].position == position;
    return before;
}

trivet_status trivet_frame_add_insert(trivet_frame *frame, int32_t tube, int32_t joint,
                                      double length, int32_t stock, int32_t bond,
                                      trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet__insert made = {0, stock, bond, length};
    trivet_status status = find_position(frame, tube, joint, &made.position, message);
    if (status == TRIVET_OK) {
        status = check_insert(frame, &frame->tubes[tube], length, stock, bond, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__tube *const into = &frame->tubes[tube];
    int is_taken = 0;
    const int32_t before = count_before(into, made.position, &is_taken);
    if (is_taken) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "tube", into->name, "",
                             "make that one longer, or put this one at another joint");
        trivet__message_problem(message, "there is an insert at joint %s already",
                                frame->joints[joint].name);
        return TRIVET_BAD_VALUE;
    }
    trivet__insert *const inserts = trivet__grown(&frame->pool, into->inserts, into->insert_count,
                                                  &into->insert_capacity, sizeof *inserts);
    if (!inserts) {
        return trivet__no_memory(message);
    }
    into->inserts = inserts;
    memmove(inserts + before + 1, inserts + before,
            (size_t)(into->insert_count - before) * sizeof *inserts);
    inserts[before] = made;
    into->insert_count++;
    return TRIVET_OK;
}
