/*
 * Joints: points with names.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

static trivet_status check_position(const char *name, const double *position,
                                    trivet_message *message)
{
    const trivet__number_of of = {"joint", name, "position", TRIVET_LENGTH};
    return trivet__numbers_check(position, 3, of, message);
}

trivet_status trivet_frame_add_joint(trivet_frame *frame, const char *name, const double *position,
                                     int32_t *joint_out, trivet_message *message)
{
    if (joint_out) {
        *joint_out = -1;
    }
    if (!frame || !position) {
        return trivet__missing(message, frame ? "position" : "frame");
    }
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_JOINT, name, message);
    if (status == TRIVET_OK) {
        status = check_position(name, position, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__joint *const joints = trivet__grown(&frame->pool, frame->joints, frame->joint_count,
                                                &frame->joint_capacity, sizeof *joints);
    if (!joints) {
        return trivet__no_memory(message);
    }
    frame->joints = joints;
    trivet__joint *const joint = &joints[frame->joint_count];
    memset(joint, 0, sizeof *joint);
    memcpy(joint->position, position, sizeof joint->position);
    joint->droop_limit = (double)NAN;
    joint->name = trivet__names_add(&frame->joint_names, &frame->pool, name, frame->joint_count);
    if (!joint->name) {
        return trivet__no_memory(message);
    }
    if (joint_out) {
        *joint_out = frame->joint_count;
    }
    frame->joint_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_set_position(trivet_frame *frame, int32_t joint, const double *position,
                                        trivet_message *message)
{
    if (!frame || !position) {
        return trivet__missing(message, frame ? "position" : "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_JOINT, joint, message);
    if (status == TRIVET_OK) {
        status = check_position(frame->joints[joint].name, position, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    memmove(frame->joints[joint].position, position, sizeof frame->joints[joint].position);
    return TRIVET_OK;
}

const double *trivet_frame_position(const trivet_frame *frame, int32_t joint)
{
    return frame && joint >= 0 && joint < frame->joint_count ? frame->joints[joint].position : NULL;
}

trivet_status trivet_frame_set_droop_limit(trivet_frame *frame, int32_t joint, double limit,
                                           trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_JOINT, joint, message);
    if (status == TRIVET_OK && !isnan(limit)) {
        const trivet__number_of of = {"joint", frame->joints[joint].name, "droop limit",
                                      TRIVET_LENGTH};
        status = trivet__positive_check(limit, of, message);
    }
    if (status == TRIVET_OK) {
        frame->joints[joint].droop_limit = limit;
    }
    return status;
}

double trivet_frame_droop_limit(const trivet_frame *frame, int32_t joint)
{
    return frame && joint >= 0 && joint < frame->joint_count ? frame->joints[joint].droop_limit
                                                             : (double)NAN;
}
