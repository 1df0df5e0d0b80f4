/*
 * The cases of a person standing on the frame's outer corners.
 */
#include "frame/usage.h"

#include "base/text.h"

#include <math.h>

#define NEAR 1e-3 /* m: joints nearer than this in plan stand one above the other */

static const double WEIGHT[3] = {0.0, 0.0, -1.0};

/* From one joint to another, seen from above. */
static void plan_way(const trivet_frame *frame, int32_t from, int32_t to, double way[2])
{
    way[0] = frame->joints[to].position[0] - frame->joints[from].position[0];
    way[1] = frame->joints[to].position[1] - frame->joints[from].position[1];
}

/* Whether all joints lie to the left of the line from one to another seen from above, or on it
 * ahead. */
static int has_all_to_the_left(const trivet_frame *frame, int32_t joint, int32_t other)
{
    const double straight = 1e-9; /* m^2, of the parallelogram of two ways: rounding */
    double ahead[2];
    plan_way(frame, joint, other, ahead);
    for (int32_t j = 0; j < frame->joint_count; j++) {
        double way[2];
        plan_way(frame, joint, j, way);
        const double turn = ahead[0] * way[1] - ahead[1] * way[0];
        const int is_ahead = ahead[0] * way[0] + ahead[1] * way[1] >= 0.0;
        if (turn < -straight || (turn <= straight && !is_ahead)) {
            return 0;
        }
    }
    return 1;
}

/*
 * Whether a joint is a corner of the outline of all joints seen from above (their convex hull; a
 * joint on an edge is none), and the highest of those that stand there one above the other.
 */
static int is_corner(const trivet_frame *frame, int32_t joint)
{
    int is_on_edge = 0;
    for (int32_t other = 0; other < frame->joint_count; other++) {
        double way[2];
        plan_way(frame, joint, other, way);
        const double rise = frame->joints[other].position[2] - frame->joints[joint].position[2];
        if (!(hypot(way[0], way[1]) < NEAR)) {
            is_on_edge = is_on_edge || has_all_to_the_left(frame, joint, other);
        } else if (rise > 0.0 || (rise == 0.0 && other < joint)) {
            return 0;
        }
    }
    return is_on_edge;
}

static void add_standing(trivet__usage_adding *adding, int32_t joint, double weight)
{
    char name[TRIVET_NAME_MAX];
    const double force[3] = {0.0, 0.0, -weight};
    trivet__text_print(name, sizeof name, "on %s", adding->frame->joints[joint].name);
    const int32_t made = trivet__usage_case(
        adding, name, WEIGHT,
        "somebody steps on this corner, to climb up or for a photograph: # N downward", weight,
        TRIVET__OURS);
    trivet__usage_push_joint(adding, made, joint, force);
}

void trivet__usage_standing(trivet__usage_adding *adding)
{
    enum { CORNERS_MAX = 8 };
    const double weight = trivet__usage_person(adding->usage);
    int32_t count = 0;
    if (!(weight > 0.0)) {
        return;
    }
    for (int32_t j = 0; j < adding->frame->joint_count; j++) {
        if (trivet__joint_mount(adding->frame, j) >= 0 || !is_corner(adding->frame, j)) {
            continue;
        }
        if (count < CORNERS_MAX) {
            add_standing(adding, j, weight);
        }
        count++;
    }
    if (count == 0) {
        trivet__usage_gap(adding, "there is no outer corner without a mount to stand on");
    } else if (count > CORNERS_MAX) {
        char why[128];
        trivet__text_print(why, sizeof why,
                           "only the first %d of %d outer corners are looked at: add cases for the "
                           "others",
                           (int)CORNERS_MAX, (int)count);
        trivet__usage_gap(adding, why);
    }
}
