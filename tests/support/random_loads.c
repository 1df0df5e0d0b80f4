/*
 * Random cases with all kinds of load.
 */
#include "support/random_loads.h"

#include <math.h>
#include <stdio.h>

static int pick_axes(dice *d, const random_options *options)
{
    return options->tube_axes && dice_chance(d, 0.5) ? TRIVET_TUBE_AXES : TRIVET_WORLD_AXES;
}

/* A place along a tube: mostly anywhere, sometimes at an end or at a joint in the middle. */
static double pick_place(dice *d, const frame_plan *plan, int tube)
{
    const double length = plan_tube_length(plan, tube);
    switch (dice_below(d, 8)) {
    case 0:
        return 0.0;
    case 1:
        return length;
    case 2: {
        double first[3];
        double there[3];
        double square = 0.0;
        plan_tube_point(plan, tube, 0, first);
        plan_tube_point(plan, tube, plan->tubes[tube].joint_count / 2, there);
        for (int i = 0; i < 3; i++) {
            square += (there[i] - first[i]) * (there[i] - first[i]);
        }
        return sqrt(square);
    }
    default:
        return dice_between(d, 0.0, length);
    }
}

static void add_joint_forces(dice *d, const frame_plan *plan, plan_case *into, int count)
{
    for (int i = 0; i < count; i++) {
        plan_force *const load = &into->joint_forces[into->joint_force_count++];
        load->on = dice_below(d, plan->joint_count);
        dice_vector(d, 300.0, load->force);
        dice_vector(d, 30.0, load->moment);
    }
}

static void add_cargo_forces(dice *d, const frame_plan *plan, plan_case *into)
{
    for (int i = 0; i < plan->cargo_count; i++) {
        into->cargo_factors[i] = dice_chance(d, 0.5) ? dice_between(d, 0.0, 2.0) : 1.0;
        if (dice_chance(d, 0.5)) {
            plan_force *const load = &into->cargo_forces[into->cargo_force_count++];
            load->on = i;
            dice_vector(d, 200.0, load->force);
            dice_vector(d, 20.0, load->moment);
            dice_vector(d, 0.1, load->at);
            for (int k = 0; k < 3; k++) {
                load->at[k] += plan->cargos[i].centre[k];
            }
        }
    }
}

static void add_tube_forces(dice *d, const random_options *options, const frame_plan *plan,
                            plan_case *into)
{
    const int count = dice_below(d, 3);
    for (int i = 0; i < count; i++) {
        plan_force *const load = &into->tube_forces[into->tube_force_count++];
        load->on = dice_below(d, plan->tube_count);
        load->axes = pick_axes(d, options);
        load->at[0] = pick_place(d, plan, load->on);
        dice_vector(d, 300.0, load->force);
        dice_vector(d, 30.0, load->moment);
    }
}

static void add_lines(dice *d, const random_options *options, const frame_plan *plan,
                      plan_case *into)
{
    const int count = dice_below(d, 3);
    for (int i = 0; i < count; i++) {
        plan_line *const load = &into->lines[into->line_count++];
        load->tube = dice_below(d, plan->tube_count);
        load->axes = pick_axes(d, options);
        const double length = plan_tube_length(plan, load->tube);
        load->from = dice_chance(d, 0.4) ? 0.0 : dice_between(d, 0.0, 0.6) * length;
        load->to =
            dice_chance(d, 0.4) ? (double)NAN : load->from + dice_between(d, 0.1, 0.39) * length;
        dice_vector(d, 500.0, load->first);
        dice_vector(d, 500.0, load->last);
        for (int k = 0; k < 3 && dice_chance(d, 0.3); k++) {
            load->last[k] = load->first[k];
        }
    }
}

static void add_mount_moves(dice *d, const frame_plan *plan, plan_case *into)
{
    for (int i = 0; i < plan->mount_count; i++) {
        const trivet_mount *const mount = &plan->mounts[i];
        for (int k = 0; k < 6; k++) {
            const int carries = (mount->held >> k & 1U) != 0 || mount->spring[k] > 0.0;
            if (carries && dice_chance(d, 0.3)) {
                const double size = k < 3 ? 1e-3 : 5e-3;
                into->mount_moves[i][k] = dice_between(d, -size, size);
            }
        }
    }
}

static void add_case(dice *d, const random_options *options, frame_plan *plan)
{
    plan_case *const into = &plan->cases[plan->case_count];
    snprintf(into->name, sizeof into->name, "c%d", plan->case_count);
    plan->case_count++;
    for (int i = 0; i < PLAN_CARGOS; i++) {
        into->cargo_factors[i] = 1.0;
    }
    if (options->gravity && dice_chance(d, 0.7)) {
        dice_vector(d, 2.0, into->gravity);
    }
    if (options->joint_forces) {
        add_joint_forces(d, plan, into, dice_below(d, 3));
    }
    add_cargo_forces(d, plan, into);
    if (options->tube_forces) {
        add_tube_forces(d, options, plan, into);
    }
    if (options->tube_lines) {
        add_lines(d, options, plan, into);
    }
    if (options->mount_moves && dice_chance(d, 0.3)) {
        add_mount_moves(d, plan, into);
    }
    if (options->warm && dice_chance(d, 0.3)) {
        into->warm = dice_between(d, -40.0, 40.0);
    }
    if (into->joint_force_count + into->cargo_force_count + into->tube_force_count +
            into->line_count ==
        0) {
        add_joint_forces(d, plan, into, 1);
    }
}

void add_random_cases(dice *d, const random_options *options, frame_plan *plan)
{
    const int count = 2 + dice_below(d, PLAN_CASES - 1);
    for (int i = 0; i < count; i++) {
        add_case(d, options, plan);
    }
    plan->has_combination = options->combination;
    for (int i = 0; i < count; i++) {
        plan->factors[i] = dice_between(d, -2.0, 2.0);
    }
}
