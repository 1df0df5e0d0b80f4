/*
 * Random frames that stand. Held by construction: a tree of tubes without releases joins every
 * joint to the first, which is clamped; tubes that are added to the tree may be released as long
 * as each still hangs on to the rest by itself.
 */
#include "support/frames.h"
#include "support/random_loads.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { JOINTS_MOST = 14, FIRST_JOINTS_MOST = 10 };

random_options random_everything(void)
{
    const random_options all = {true, true, true, true, true, true, true, true, true, true,
                                true, true, true, true, true, true, true, true, true, true};
    return all;
}

static double distance_between(const double *a, const double *b)
{
    return hypot(hypot(a[0] - b[0], a[1] - b[1]), a[2] - b[2]);
}

static int is_clear(const frame_plan *plan, const double *position, double distance)
{
    for (int i = 0; i < plan->joint_count; i++) {
        if (distance_between(plan->joints[i].position, position) < distance) {
            return 0;
        }
    }
    return 1;
}

static int add_joint(frame_plan *plan, const double *position)
{
    plan_joint *const joint = &plan->joints[plan->joint_count];
    snprintf(joint->name, sizeof joint->name, "j%d", plan->joint_count);
    memcpy(joint->position, position, sizeof joint->position);
    return plan->joint_count++;
}

/* Some joints stand exactly above another, so that upright tubes come up as well. */
static void add_joints(dice *d, frame_plan *plan)
{
    const int count = 4 + dice_below(d, FIRST_JOINTS_MOST - 3);
    while (plan->joint_count < count) {
        double position[3];
        dice_vector(d, 0.5, position);
        if (plan->joint_count > 0 && dice_chance(d, 0.15)) {
            const double *const below = plan->joints[dice_below(d, plan->joint_count)].position;
            position[0] = below[0];
            position[1] = below[1];
        }
        if (is_clear(plan, position, 0.15)) {
            add_joint(plan, position);
        }
    }
}

static trivet_profile pick_profile(dice *d, const random_options *options)
{
    trivet_profile profile = square_tube(0.0, 0.0);
    profile.shape = TRIVET_SHAPE_SQUARE_TUBE + dice_below(d, options->unsymmetric ? 7 : 6);
    switch (profile.shape) {
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        profile.height = dice_between(d, 0.025, 0.05);
        profile.width = dice_between(d, 0.015, 0.025);
        profile.wall = dice_between(d, 0.0015, 0.0025);
        break;
    case TRIVET_SHAPE_ROUND_TUBE:
        profile.diameter = dice_between(d, 0.015, 0.04);
        profile.wall = dice_between(d, 0.001, 0.003);
        break;
    case TRIVET_SHAPE_SQUARE_BAR:
        profile.width = dice_between(d, 0.008, 0.02);
        break;
    case TRIVET_SHAPE_FLAT_BAR:
        profile.height = dice_between(d, 0.02, 0.04);
        profile.width = dice_between(d, 0.005, 0.01);
        break;
    case TRIVET_SHAPE_ROUND_BAR:
        profile.diameter = dice_between(d, 0.008, 0.016);
        break;
    case TRIVET_SHAPE_ANGLE:
        profile.height = dice_between(d, 0.02, 0.04);
        profile.width = dice_between(d, 0.02, 0.04);
        profile.wall = dice_between(d, 0.002, 0.004);
        break;
    default:
        profile.width = dice_between(d, 0.015, 0.04);
        profile.wall = dice_between(d, 0.001, 0.003);
        profile.corner = dice_chance(d, 0.3) ? TRIVET_CORNER_SHARP : TRIVET_CORNER_STANDARD;
        break;
    }
    return profile;
}

/* Steel, sometimes something light (E, G, density, expansion as of aluminium, common practice). */
static void add_stocks(dice *d, const random_options *options, frame_plan *plan)
{
    plan->stock_count = 2 + dice_below(d, 3);
    for (int i = 0; i < plan->stock_count; i++) {
        plan_stock *const stock = &plan->stocks[i];
        snprintf(stock->name, sizeof stock->name, "s%d", i);
        stock->profile = pick_profile(d, options);
        stock->material = steel_material();
        if (dice_chance(d, 0.2)) {
            stock->material.E = 70e9;
            stock->material.G = 26e9;
            stock->material.density = 2700.0;
            stock->material.expansion = 23e-6;
        }
    }
}

static plan_tube *add_tube(dice *d, const random_options *options, frame_plan *plan, int from,
                           int to)
{
    plan_tube *const tube = &plan->tubes[plan->tube_count];
    snprintf(tube->name, sizeof tube->name, "t%d", plan->tube_count);
    plan->tube_count++;
    tube->joint_count = 2;
    tube->joints[0] = from;
    tube->joints[1] = to;
    tube->stock = dice_below(d, plan->stock_count);
    tube->roll = options->roll && dice_chance(d, 0.6) ? dice_between(d, -3.0, 3.0) : 0.0;
    return tube;
}

/* Puts a new joint into the middle third or so of a tube that still has two. */
static void run_through(dice *d, frame_plan *plan, plan_tube *tube)
{
    const double *const a = plan->joints[tube->joints[0]].position;
    const double *const b = plan->joints[tube->joints[1]].position;
    const double share = dice_between(d, 0.3, 0.7);
    double middle[3];
    for (int i = 0; i < 3; i++) {
        middle[i] = a[i] + share * (b[i] - a[i]);
    }
    if (plan->joint_count < JOINTS_MOST && is_clear(plan, middle, 0.08)) {
        tube->joints[2] = tube->joints[1];
        tube->joints[1] = add_joint(plan, middle);
        tube->joint_count = 3;
    }
}

static void add_tree(dice *d, const random_options *options, frame_plan *plan)
{
    const int count = plan->joint_count;
    for (int i = 1; i < count; i++) {
        const int parent = dice_below(d, i);
        plan_tube *const tube = dice_chance(d, 0.5) ? add_tube(d, options, plan, parent, i)
                                                    : add_tube(d, options, plan, i, parent);
        if (options->through && dice_chance(d, 0.3)) {
            run_through(d, plan, tube);
        }
    }
}

/* Two joints on the same tube would lie side by side with it. */
static int share_tube(const frame_plan *plan, int a, int b)
{
    for (int i = 0; i < plan->tube_count; i++) {
        int found = 0;
        for (int k = 0; k < plan->tubes[i].joint_count; k++) {
            found += plan->tubes[i].joints[k] == a || plan->tubes[i].joints[k] == b;
        }
        if (found > 1) {
            return 1;
        }
    }
    return 0;
}

/* Either pinned at both ends, or anything but all six at one end while the other is rigid. */
static void release_ends(dice *d, plan_tube *tube)
{
    if (dice_chance(d, 0.4)) {
        tube->free_first = TRIVET_PINNED;
        tube->free_last = TRIVET_PINNED;
        if (dice_chance(d, 0.3)) {
            tube->free_first |= TRIVET_RX;
        }
    } else if (dice_chance(d, 0.5)) {
        tube->free_first = dice_chance(d, 0.5) ? (uint32_t)TRIVET_PINNED
                                               : (uint32_t)(1 + dice_below(d, TRIVET_ALL - 1));
    } else {
        tube->free_last = (uint32_t)(1 + dice_below(d, TRIVET_ALL - 1));
    }
}

static void add_extra_tubes(dice *d, const random_options *options, frame_plan *plan)
{
    const int wanted = dice_below(d, 2 + plan->joint_count / 2);
    for (int i = 0; i < wanted; i++) {
        const int a = dice_below(d, plan->joint_count);
        const int b = dice_below(d, plan->joint_count);
        if (a == b || share_tube(plan, a, b)) {
            continue;
        }
        plan_tube *const tube = add_tube(d, options, plan, a, b);
        if (options->through && dice_chance(d, 0.2)) {
            run_through(d, plan, tube);
        }
        if (options->releases && dice_chance(d, 0.6)) {
            release_ends(d, tube);
        }
    }
}

/* A tube through three joints is shifted as a whole and so stays straight. */
static void add_offsets(dice *d, frame_plan *plan)
{
    for (int i = 0; i < plan->tube_count; i++) {
        plan_tube *const tube = &plan->tubes[i];
        if (!dice_chance(d, 0.3)) {
            continue;
        }
        dice_vector(d, 0.02, tube->offsets[0]);
        for (int k = 1; k < tube->joint_count; k++) {
            memcpy(tube->offsets[k], tube->offsets[0], sizeof tube->offsets[k]);
        }
        if (tube->joint_count == 2 && dice_chance(d, 0.7)) {
            dice_vector(d, 0.02, tube->offsets[1]);
        }
    }
}

static void add_insert(dice *d, const frame_plan *plan, plan_tube *tube, int position,
                       double length)
{
    plan_insert *const insert = &tube->inserts[tube->insert_count++];
    insert->position = position;
    insert->length = length;
    insert->stock = dice_below(d, plan->stock_count);
    insert->bond = dice_below(d, 2);
}

/* Short enough to end before the next joint: joints stand at 0.3 to 0.7 of the tube. */
static void add_inserts(dice *d, frame_plan *plan)
{
    for (int i = 0; i < plan->tube_count; i++) {
        plan_tube *const tube = &plan->tubes[i];
        const double length = plan_tube_length(plan, i);
        if (!dice_chance(d, 0.25)) {
            continue;
        }
        if (tube->joint_count == 3 && dice_chance(d, 0.5)) {
            add_insert(d, plan, tube, 1, dice_between(d, 0.1, 0.5) * length);
            continue;
        }
        if (dice_chance(d, 0.6)) {
            add_insert(d, plan, tube, 0, dice_between(d, 0.05, 0.28) * length);
        }
        if (dice_chance(d, 0.6)) {
            add_insert(d, plan, tube, tube->joint_count - 1, dice_between(d, 0.05, 0.28) * length);
        }
    }
}

static trivet_mount *add_mount(dice *d, const random_options *options, frame_plan *plan, int joint)
{
    trivet_mount *const mount = &plan->mounts[plan->mount_count++];
    ck_assert_int_eq(trivet_mount_defaults(mount, sizeof *mount), TRIVET_OK);
    mount->joint = joint;
    mount->held = TRIVET_ALL;
    if (options->turned_mounts && dice_chance(d, 0.5)) {
        dice_rotation(d, mount->axes);
    }
    return mount;
}

static void add_mounts(dice *d, const random_options *options, frame_plan *plan)
{
    add_mount(d, options, plan, 0);
    const int more = options->more_mounts ? dice_below(d, 3) : 0;
    for (int i = 0; i < more; i++) {
        const int joint = 1 + dice_below(d, plan->joint_count - 1);
        if (plan->mount_count > 1 && plan->mounts[1].joint == joint) {
            continue;
        }
        trivet_mount *const mount = add_mount(d, options, plan, joint);
        mount->held = (uint32_t)(1 + dice_below(d, TRIVET_ALL));
        for (int k = 0; options->springs && k < 6; k++) {
            if ((mount->held >> k & 1U) == 0 && dice_chance(d, 0.4)) {
                mount->spring[k] = k < 3 ? dice_between(d, 1e4, 1e6) : dice_between(d, 1e2, 1e4);
            }
        }
    }
}

static int is_mounted(const frame_plan *plan, int joint)
{
    for (int i = 0; i < plan->mount_count; i++) {
        if (plan->mounts[i].joint == joint) {
            return 1;
        }
    }
    return 0;
}

/* Twice the area of the triangle of three joints, m^2. */
static double spread_of(const frame_plan *plan, const int *joints)
{
    double u[3];
    double v[3];
    for (int i = 0; i < 3; i++) {
        u[i] = plan->joints[joints[1]].position[i] - plan->joints[joints[0]].position[i];
        v[i] = plan->joints[joints[2]].position[i] - plan->joints[joints[0]].position[i];
    }
    return hypot(hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2]),
                 u[0] * v[1] - u[1] * v[0]);
}

/*
 * Whether stiff cargo may sit there: not on joints in one line; and on one mounted joint at most
 * for all stiff cargo together, because a rigid body cannot follow two grounds that move apart.
 */
static int can_be_stiff(const frame_plan *plan, const plan_cargo *cargo)
{
    int mounted = 0;
    for (int i = 0; i < cargo->joint_count; i++) {
        mounted += is_mounted(plan, cargo->joints[i]);
    }
    const int is_first = plan->cargo_count == 0;
    return cargo->joint_count >= 3 && spread_of(plan, cargo->joints) > 0.02 &&
           mounted <= (is_first ? 1 : 0);
}

static void add_cargo(dice *d, const random_options *options, frame_plan *plan)
{
    plan_cargo *const cargo = &plan->cargos[plan->cargo_count];
    int order[JOINTS_MOST];
    snprintf(cargo->name, sizeof cargo->name, "g%d", plan->cargo_count);
    dice_order(d, plan->joint_count, order);
    cargo->joint_count = 1 + dice_below(d, PLAN_CARGO_JOINTS);
    memcpy(cargo->joints, order, (size_t)cargo->joint_count * sizeof *order);
    dice_vector(d, 0.1, cargo->centre);
    for (int i = 0; i < cargo->joint_count; i++) {
        for (int k = 0; k < 3; k++) {
            cargo->centre[k] +=
                plan->joints[cargo->joints[i]].position[k] / (double)cargo->joint_count;
        }
    }
    cargo->box = dice_between(d, 0.5, 5.0);
    cargo->contents = dice_between(d, 0.0, 20.0);
    const int is_stiff = options->stiff_cargo && can_be_stiff(plan, cargo);
    if (is_stiff || options->soft_cargo) {
        cargo->grip = is_stiff ? TRIVET_GRIP_STIFF : TRIVET_GRIP_SOFT;
        plan->cargo_count++;
    }
}

frame_plan *random_plan(uint64_t seed, const random_options *options)
{
    const random_options all = random_everything();
    const random_options *const use = options ? options : &all;
    frame_plan *const plan = calloc(1, sizeof *plan);
    ck_assert_ptr_nonnull(plan);
    dice d = dice_new(seed);
    plan->seed = seed;
    add_joints(&d, plan);
    add_stocks(&d, use, plan);
    add_tree(&d, use, plan);
    if (use->extra_tubes) {
        add_extra_tubes(&d, use, plan);
    }
    if (use->offsets) {
        add_offsets(&d, plan);
    }
    if (use->inserts) {
        add_inserts(&d, plan);
    }
    add_mounts(&d, use, plan);
    const int cargos = use->stiff_cargo || use->soft_cargo ? dice_below(&d, PLAN_CARGOS + 1) : 0;
    for (int i = 0; i < cargos; i++) {
        add_cargo(&d, use, plan);
    }
    add_random_cases(&d, use, plan);
    return plan;
}

trivet_frame *random_frame(uint64_t seed, const random_options *options)
{
    frame_plan *const plan = random_plan(seed, options);
    trivet_frame *const frame = plan_build(plan);
    free(plan);
    return frame;
}
