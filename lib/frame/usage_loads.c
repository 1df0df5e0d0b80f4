/*
 * The cases of a usage that push, lift or pull at certain places. Where the frame does not tell the
 * place, a gap says what to add.
 */
#include "frame/usage.h"

#include "base/text.h"
#include "base/vec3.h"

#include <math.h>
#include <string.h>

#define NEAR 1e-3 /* m: what lies nearer than this lies equally far out */

static const double WEIGHT[3] = {0.0, 0.0, -1.0};

void trivet__usage_push_joint(trivet__usage_adding *adding, int32_t in_case, int32_t joint,
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

static void add_leaning(trivet__usage_adding *adding, int32_t cargo)
{
    const trivet_usage *const usage = adding->usage;
    const double *const centre = adding->frame->cargos[cargo].centre;
    if (adding->frame->mount_count == 0) {
        trivet__usage_gap(adding, "there is no mount to measure the height of the back from");
        return;
    }
    if (isnan(usage->height)) {
        trivet__usage_gap(adding, "say how high above the mounts the passenger's back leans: "
                                  "two-up: {height: 350 mm}");
        return;
    }
    const double at[3] = {centre[0], centre[1], highest_mount(adding->frame) + usage->height};
    const double force[3] = {-usage->force, 0.0, 0.0};
    const int32_t made = trivet__usage_case(
        adding, "leaning back", WEIGHT,
        "the passenger leans back against the load and pushes it backward with # N at the height "
        "of the back",
        usage->force, TRIVET__PRACTICE);
    push_cargo(adding, made, cargo, force, at);
}

double trivet__usage_person(const trivet_usage *usage)
{
    return usage->mass * usage->settle * TRIVET__GRAVITY;
}

/* The force downward acts along the vertical through the cargo's centre, at whatever height. */
void trivet__usage_two_up(trivet__usage_adding *adding)
{
    const int32_t cargo = find_cargo(adding);
    const double weight = trivet__usage_person(adding->usage);
    const double force[3] = {0.0, 0.0, -weight};
    const int leans = adding->usage->force > 0.0;
    if (cargo < 0 && (leans || weight > 0.0)) {
        trivet__usage_gap(adding, "say which cargo the passenger leans on: "
                                  "two-up: {on: NAME, height: 350 mm}");
        return;
    }
    if (leans) {
        add_leaning(adding, cargo);
    }
    if (!(weight > 0.0)) {
        return;
    }
    const int32_t settling = trivet__usage_case(
        adding, "settling", WEIGHT,
        "the passenger sits down on the load instead of the seat, with a jolt: # N downward on "
        "top of the weight",
        weight, TRIVET__OURS);
    push_cargo(adding, settling, cargo, force, NULL);
}

void trivet__usage_grab(trivet__usage_adding *adding)
{
    const trivet_usage *const usage = adding->usage;
    if (!(usage->force > 0.0)) {
        return;
    }
    if (usage->tube < 0) {
        trivet__usage_gap(adding, "say which tube a passenger holds on to: grab: {rail: NAME}");
        return;
    }
    const double force[3] = {0.0, 0.0, usage->force};
    const double middle = 0.5 * trivet_frame_tube_length(adding->frame, usage->tube);
    const int32_t made = trivet__usage_case(
        adding, "holding on", WEIGHT,
        "the passenger hangs on to the rail: # N upward in its middle", usage->force,
        "Commission Delegated Regulation (EU) No 44/2014, passenger handholds (from memory)");
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

/*
 * The joints without a mount that lie farthest along a direction, to a millimetre: of those the
 * leftmost and the rightmost, which may be one. Returns how many, 0 if every joint has a mount.
 */
static int32_t find_ends(const trivet_frame *frame, const double direction[3],
                         int32_t joints_out[2])
{
    double farthest = -HUGE_VAL;
    int32_t left = -1;
    int32_t right = -1;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        if (!is_mounted(frame, j)) {
            farthest = fmax(farthest, trivet__dot3(frame->joints[j].position, direction));
        }
    }
    for (int32_t j = 0; j < frame->joint_count; j++) {
        const double *const at = frame->joints[j].position;
        if (is_mounted(frame, j) || !(trivet__dot3(at, direction) > farthest - NEAR)) {
            continue;
        }
        left = left < 0 || at[1] > frame->joints[left].position[1] ? j : left;
        right = right < 0 || at[1] < frame->joints[right].position[1] ? j : right;
    }
    joints_out[0] = left;
    joints_out[1] = right;
    return left < 0 ? 0 : left == right ? 1 : 2;
}

/* The first of the joints without a mount that lie farthest along a direction, or -1. */
static int32_t find_outermost(const trivet_frame *frame, const double direction[3])
{
    int32_t found = -1;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        if (!is_mounted(frame, j) &&
            (found < 0 || trivet__dot3(frame->joints[j].position, direction) >
                              trivet__dot3(frame->joints[found].position, direction) + NEAR)) {
            found = j;
        }
    }
    return found;
}

void trivet__usage_lifted(trivet__usage_adding *adding)
{
    static const double BACKWARD[3] = {-1.0, 0.0, 0.0};
    int32_t joints[2];
    const double mass = vehicle_mass(adding->frame);
    const int32_t count = find_ends(adding->frame, BACKWARD, joints);
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
        lift, TRIVET__OURS);
    for (int32_t i = 0; i < count; i++) {
        trivet__usage_push_joint(adding, made, joints[i], force);
    }
}

/* The fallen vehicle lies on one side of the frame; gravity points there. */
static void add_fall(trivet__usage_adding *adding, const char *name, double way, double push)
{
    const double sideways[3] = {0.0, way, 0.0};
    const double force[3] = {0.0, -way * push, 0.0};
    const int32_t joint = find_outermost(adding->frame, sideways);
    const int32_t made = trivet__usage_case(
        adding, name, sideways,
        "the vehicle falls over and the frame's outermost corner hits the ground: half of the "
        "vehicle's weight, twice for the blow, # N from the side",
        push, TRIVET__OURS);
    trivet__usage_push_joint(adding, made, joint, force);
}

void trivet__usage_fall(trivet__usage_adding *adding)
{
    const double mass = vehicle_mass(adding->frame);
    if (isnan(mass)) {
        trivet__usage_gap(adding, "say what the vehicle weighs: "
                                  "vehicle: {front load: 90 kg, rear load: 95 kg}");
        return;
    }
    if (find_outermost(adding->frame, WEIGHT) < 0) {
        trivet__usage_gap(adding, "there is no joint without a mount that could hit the ground");
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
    if (!(adding->usage->force > 0.0)) {
        return;
    }
    if (cargo < 0) {
        trivet__usage_gap(adding, "say which cargo is strapped down: straps: {on: NAME}");
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, "pulled tight", WEIGHT,
        "straps pulled tight by hand press the load down: # N more on each joint under it",
        adding->usage->force, TRIVET__PRACTICE);
    for (int32_t i = 0; i < adding->frame->cargos[cargo].joint_count; i++) {
        trivet__usage_push_joint(adding, made, adding->frame->cargos[cargo].joints[i], force);
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

static void add_misfit(trivet__usage_adding *adding, int32_t mount)
{
    const trivet_mount *const of = &adding->frame->mounts[mount];
    const char *const name = adding->frame->joints[of->joint].name;
    const int way = find_way(of);
    double move[6] = {0.0};
    if (way < 0) {
        char why[TRIVET_NAME_MAX + 64];
        trivet__text_print(why, sizeof why, "mount %s holds no way along which it could be pulled",
                           name);
        trivet__usage_gap(adding, why);
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, name, NULL, "this mount does not fit and is pulled # mm into place by its bolt",
        1e3 * adding->usage->move, TRIVET__PRACTICE);
    move[way] = adding->usage->move;
    if (adding->status == TRIVET_OK) {
        adding->status =
            trivet_frame_set_mount_move(adding->frame, made, mount, move, adding->message);
    }
}

void trivet__usage_misfit(trivet__usage_adding *adding)
{
    const int32_t count = adding->usage->move > 0.0 ? adding->frame->mount_count : 0;
    for (int32_t m = 0; m < count; m++) {
        add_misfit(adding, m);
    }
}

void trivet__usage_push(trivet__usage_adding *adding)
{
    static const double UPWARD[3] = {0.0, 0.0, 1.0};
    const double push = adding->usage->force;
    const double force[3] = {0.0, push, 0.0};
    const int32_t joint = find_outermost(adding->frame, UPWARD);
    if (!(push > 0.0)) {
        return;
    }
    if (joint < 0) {
        trivet__usage_gap(adding, "there is no joint without a mount to lean against");
        return;
    }
    const int32_t made = trivet__usage_case(
        adding, "leaned against", WEIGHT,
        "somebody leans against it: # N from the side at the highest joint", push, TRIVET__OURS);
    trivet__usage_push_joint(adding, made, joint, force);
}
