/*
 * Corners: where two tubes end and nothing runs on.
 */
#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>

/* The way from a joint into a tube that ends there; 0 if the tube does not end there. */
static int way_into(const trivet_frame *frame, int32_t tube, int32_t joint, double way[3])
{
    const trivet__tube *const of = &frame->tubes[tube];
    const int32_t last = of->joint_count - 1;
    const int is_first = of->joints[0] == joint;
    double near[3];
    double far[3];
    if (!is_first && of->joints[last] != joint) {
        return 0;
    }
    trivet__tube_end_point(frame, tube, is_first ? 0 : last, near);
    trivet__tube_end_point(frame, tube, is_first ? last : 0, far);
    for (int i = 0; i < 3; i++) {
        way[i] = far[i] - near[i];
    }
    return 1;
}

static int runs_through(const trivet__tube *tube, int32_t joint)
{
    for (int32_t i = 1; i < tube->joint_count - 1; i++) {
        if (tube->joints[i] == joint) {
            return 1;
        }
    }
    return 0;
}

trivet_status trivet_frame_corner(const trivet_frame *frame, int32_t joint, double *turn_out,
                                  double *miter_out)
{
    double ways[3][3];
    double across[3];
    int count = 0;
    if (!frame || !turn_out || !miter_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    *turn_out = *miter_out = (double)NAN;
    if (joint < 0 || joint >= frame->joint_count) {
        return TRIVET_BAD_INDEX;
    }
    for (int32_t t = 0; t < frame->tube_count; t++) {
        if (runs_through(&frame->tubes[t], joint)) {
            return TRIVET_BAD_VALUE;
        }
        count += count < 3 ? way_into(frame, t, joint, ways[count]) : 0;
    }
    if (count != 2) {
        return TRIVET_BAD_VALUE;
    }
    /* Straight on means opposite ways. atan2 keeps its digits at 0 and 180 degrees. */
    trivet__cross3(ways[0], ways[1], across);
    *turn_out = atan2(trivet__length3(across), -trivet__dot3(ways[0], ways[1]));
    *miter_out = 0.5 * *turn_out;
    return TRIVET_OK;
}
