/*
 * The cases of a usage that push, lift or pull at certain places. Where the frame does not tell the
 * place, a gap says what to add.
 */
#include "frame/usage.h"

#include "base/memory.h"
#include "base/text.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

#define PRACTICE "common practice"
#define OURS "our own choice"

static const double WEIGHT[3] = {0.0, 0.0, -1.0};

/* Adds a force to the case that was just made; nothing if that failed. */
static void push_joint(trivet__usage_adding *adding, int32_t in_case, int32_t joint,
                       const double force[3])
{
    if (adding->status == TRIVET_OK) {
        adding->status = trivet_frame_add_joint_force(adding->frame, in_case, joint, force, NULL,
                                                      adding->message);
    }
}

static void push_cargo(trivet__usage_adding *adding, int32_t in_case, int32_t cargo,
                       const double force[3], const double *at)
{
    if (adding->status == TRIVET_OK) {
        adding->status = trivet_frame_add_cargo_force(adding->frame, in_case, cargo, force, NULL,
                                                      at, adding->message);
    }
}

/* Whether a cargo is the weight of a deck, which bears its name. */
static int is_plate(const trivet_frame *frame, int32_t cargo)
{
    int32_t deck = -1;
    return trivet_frame_find(frame, TRIVET_KIND_DECK, frame->cargos[cargo].name, &deck, NULL) ==
           TRIVET_OK;
}

/* The load that a usage means: the one that it names, or the only one. -1: not to be told. */
static int32_t find_cargo(const trivet__usage_adding *adding)
{
    if (adding->usage->cargo >= 0) {
        return adding->usage->cargo;
    }
    int32_t found = -1;
    for (int32_t i = 0; i < adding->frame->cargo_count; i++) {
        if (!is_plate(adding->frame, i)) {
            if (found >= 0) {
                return -1;
            }
            found = i;
        }
    }
    return found;
}

static int is_mounted(const trivet_frame *frame, int32_t joint)
{
    return trivet__joint_mount(frame, joint) >= 0;
}

static double highest_mount(const trivet_frame *frame)
{
    double highest = -HUGE_VAL;
    for (int32_t m = 0; m < frame->mount_count; m++) {
        highest = fmax(highest, frame->joints[frame->mounts[m].joint].position[2]);
    }
    return highest;
}

void trivet__usage_two_up(trivet__usage_adding *adding)
{
    const trivet_usage *const usage = adding->usage;
    const int32_t cargo = find_cargo(adding);
    if (cargo < 0) {
        trivet__usage_gap(adding, "say which cargo the passenger leans on: "
                                  "two-up: {on: NAME, height: 350 mm}");
        return;
    }
    if (isnan(usage->height)) {
        trivet__usage_gap(adding, "say how high above the mounts the passenger's back leans: "
                                  "two-up: {height: 350 mm}");
    } else {
        const double *const centre = adding->frame->cargos[cargo].centre;
        const double at[3] = {centre[0], centre[1], highest_mount(adding->frame) + usage->height};
        const double force[3] = {-usage->force, 0.0, 0.0};
        const int32_t leaning = trivet__usage_case(
            adding, "leaning back", WEIGHT,
            "the passenger leans back against the load and pushes it backward with # N at the "
            "height of the back",
            usage->force, PRACTICE);
        push_cargo(adding, leaning, cargo, force, at);
    }
    const double weight = usage->mass * usage->settle * TRIVET__GRAVITY;
    const double force[3] = {0.0, 0.0, -weight};
    const int32_t settling = trivet__usage_case(
        adding, "settling", WEIGHT,
        "the passenger sits down on the load instead of the seat, with a jolt: # N downward on "
        "top of the weight",
        weight, OURS);
    push_cargo(adding, settling, cargo, force, NULL);
}

void trivet__usage_grab(trivet__usage_adding *adding)
{
    const trivet_usage *const usage = adding->usage;
    if (usage->tube < 0) {
        trivet__usage_gap(adding, "say which tube a passenger holds on to: grab: {rail: NAME}");
        return;
    }
    const double force[3] = {0.0, 0.0, usage->force};
    const double middle = 0.5 * trivet_frame_tube_length(adding->frame, usage->tube);
    const int32_t made = trivet__usage_case(
        adding, "holding on", WEIGHT,
        "the passenger hangs on to the rail: # N upward in its middle", usage->force,
        "EU rules on passenger handholds of motorcycles (from memory)");
    if (adding->status == TRIVET_OK) {
        adding->status =
            trivet_frame_add_tube_force(adding->frame, made, usage->tube, middle, force, NULL,
                                        TRIVET_WORLD_AXES, adding->message);
    }
}

/* kg of the vehicle without frame and cargo; NaN if it is not said. */
static double vehicle_mass(const trivet_frame *frame)
{
    return frame->vehicle.size > 0 ? frame->vehicle.front_load + frame->vehicle.rear_load
                                   : (double)NAN;
}

/* The joints without a mount that lie farthest along a direction; those within a millimetre. */
static int32_t find_outermost(const trivet_frame *frame, const double direction[3],
                              int32_t *joints_out, int32_t most)
{
    double farthest = -HUGE_VAL;
    int32_t count = 0;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        if (!is_mounted(frame, j)) {
            farthest = fmax(farthest, trivet__dot3(frame->joints[j].position, direction));
        }
    }
    for (int32_t j = 0; j < frame->joint_count && count < most; j++) {
        if (!is_mounted(frame, j) &&
            trivet__dot3(frame->joints[j].position, direction) > farthest - 1e-3) {
            joints_out[count++] = j;
        }
    }
    return count;
}

void trivet__usage_lifted(trivet__usage_adding *adding)
{
    static const double BACKWARD[3] = {-1.0, 0.0, 0.0};
    int32_t joints[2];
    const double mass = vehicle_mass(adding->frame);
    const int32_t count = find_outermost(adding->frame, BACKWARD, joints, 2);
    if (isnan(mass)) {
        trivet__usage_gap(adding, "say what the vehicle weighs: "
                                  "vehicle: {front load: 90 kg, rear load: 95 kg}");
        return;
    }
    if (count == 0) {
        trivet__usage_gap(adding, "there is no joint without a mount to lift it by");
        return;
    }
    const double lift = 0.5 * mass * TRIVET__GRAVITY;
    const double force[3] = {0.0, 0.0, lift / count};
    const int32_t made = trivet__usage_case(
        adding, "by its tail", WEIGHT,
        "somebody lifts the vehicle out of the mud by the end of the frame: half of its weight, "
        "# N upward",
        lift, OURS);
    for (int32_t i = 0; i < count; i++) {
        push_joint(adding, made, joints[i], force);
    }
}

/* Which way b - a turns to the left of c - a, seen from above. */
static double turn_left(const trivet_frame *frame, int32_t a, int32_t b, int32_t c)
{
    const double *const p = frame->joints[a].position;
    const double *const q = frame->joints[b].position;
    const double *const r = frame->joints[c].position;
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
}

/* Whether a joint is a corner of the outline seen from above: some line through it has all others
 * on one side. Joints on an edge are none. */
static int is_corner(const trivet_frame *frame, int32_t joint)
{
    for (int32_t b = 0; b < frame->joint_count; b++) {
        int is_edge = b != joint;
        for (int32_t c = 0; c < frame->joint_count && is_edge; c++) {
            const double turn = turn_left(frame, joint, b, c);
            const double ahead =
                (frame->joints[b].position[0] - frame->joints[joint].position[0]) *
                    (frame->joints[c].position[0] - frame->joints[joint].position[0]) +
                (frame->joints[b].position[1] - frame->joints[joint].position[1]) *
                    (frame->joints[c].position[1] - frame->joints[joint].position[1]);
            is_edge = turn > 1e-9 || (fabs(turn) <= 1e-9 && ahead >= 0.0);
        }
        if (is_edge) {
            return 1;
        }
    }
    return 0;
}

void trivet__usage_standing(trivet__usage_adding *adding)
{
    enum { CORNERS_MAX = 8 };
    const trivet_usage *const usage = adding->usage;
    const double weight = usage->mass * usage->settle * TRIVET__GRAVITY;
    const double force[3] = {0.0, 0.0, -weight};
    int32_t count = 0;
    for (int32_t j = 0; j < adding->frame->joint_count && count < CORNERS_MAX; j++) {
        char name[TRIVET_NAME_MAX];
        if (is_mounted(adding->frame, j) || !is_corner(adding->frame, j)) {
            continue;
        }
        trivet__text_print(name, sizeof name, "on %.80s", adding->frame->joints[j].name);
        const int32_t made = trivet__usage_case(
            adding, name, WEIGHT,
            "somebody steps on this corner, to climb up or for a photograph: # N downward", weight,
            OURS);
        push_joint(adding, made, j, force);
        count++;
    }
    if (count == 0) {
        trivet__usage_gap(adding, "there is no outer corner without a mount to stand on");
    }
}

/* The weight of the fallen vehicle on one side of the frame. */
static void add_fall(trivet__usage_adding *adding, const char *name, double way, double push)
{
    const double outward[3] = {0.0, way, 0.0};
    const double sideways[3] = {0.0, way, 0.0};
    const double force[3] = {0.0, -way * push, 0.0};
    int32_t joint = -1;
    if (find_outermost(adding->frame, outward, &joint, 1) == 0) {
        trivet__usage_gap(adding, "there is no joint without a mount that could hit the ground");
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, name, sideways,
        "the vehicle falls over and the frame's outermost corner hits the ground: half of the "
        "vehicle's weight, twice for the blow, # N from the side",
        push, OURS);
    push_joint(adding, made, joint, force);
}

void trivet__usage_fall(trivet__usage_adding *adding)
{
    const double mass = vehicle_mass(adding->frame);
    if (isnan(mass)) {
        trivet__usage_gap(adding, "say what the vehicle weighs: "
                                  "vehicle: {front load: 90 kg, rear load: 95 kg}");
        return;
    }
    const double push = 2.0 * 0.5 * mass * TRIVET__GRAVITY;
    add_fall(adding, "to the left", 1.0, push);
    add_fall(adding, "to the right", -1.0, push);
}

void trivet__usage_straps(trivet__usage_adding *adding)
{
    const int32_t cargo = find_cargo(adding);
    const double force[3] = {0.0, 0.0, -adding->usage->force};
    if (cargo < 0) {
        trivet__usage_gap(adding, "say which cargo is strapped down: straps: {on: NAME}");
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, "pulled tight", WEIGHT,
        "straps pulled tight by hand press the load down: # N more on each joint under it",
        adding->usage->force, PRACTICE);
    for (int32_t i = 0; i < adding->frame->cargos[cargo].joint_count; i++) {
        push_joint(adding, made, adding->frame->cargos[cargo].joints[i], force);
    }
}

/* The direction in which a mount is pulled: its own z, or the first way that it holds. */
static int find_way(const trivet_mount *mount)
{
    static const int ORDER[] = {2, 0, 1};
    for (int i = 0; i < 3; i++) {
        if ((mount->held >> ORDER[i]) & 1U || mount->spring[ORDER[i]] > 0.0) {
            return ORDER[i];
        }
    }
    return -1;
}

void trivet__usage_misfit(trivet__usage_adding *adding)
{
    for (int32_t m = 0; m < adding->frame->mount_count && adding->status == TRIVET_OK; m++) {
        const trivet_mount *const mount = &adding->frame->mounts[m];
        const int way = find_way(mount);
        char name[TRIVET_NAME_MAX];
        double move[6] = {0.0};
        if (way < 0) {
            continue;
        }
        trivet__text_print(name, sizeof name, "%.80s", adding->frame->joints[mount->joint].name);
        const int32_t made = trivet__usage_case(
            adding, name, NULL, "this mount does not fit and is pulled # mm into place by its bolt",
            1e3 * adding->usage->move, PRACTICE);
        move[way] = adding->usage->move;
        if (adding->status == TRIVET_OK) {
            adding->status =
                trivet_frame_set_mount_move(adding->frame, made, m, move, adding->message);
        }
    }
}

void trivet__usage_push(trivet__usage_adding *adding)
{
    static const double UPWARD[3] = {0.0, 0.0, 1.0};
    const double push = adding->usage->force;
    const double force[3] = {0.0, push, 0.0};
    int32_t joint = -1;
    if (!(push > 0.0) || find_outermost(adding->frame, UPWARD, &joint, 1) == 0) {
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, "leaned against", WEIGHT,
        "somebody leans against it: # N from the side at the highest joint", push, OURS);
    push_joint(adding, made, joint, force);
}
