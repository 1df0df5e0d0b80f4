/*
 * Changes of a frame plan that must not change its answer. The rule of section axes is written
 * here a second time on purpose: it is the referee of the library's own.
 */
#include "support/dice.h"
#include "support/frame_plan.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static void times(const double matrix[9], double v[3])
{
    const double w[3] = {v[0], v[1], v[2]};
    for (int i = 0; i < 3; i++) {
        v[i] = matrix[3 * i] * w[0] + matrix[3 * i + 1] * w[1] + matrix[3 * i + 2] * w[2];
    }
}

static double dot(const double *a, const double *b)
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

void plan_section_axes(const double first[3], const double last[3], double roll, double axes[9])
{
    const double upright = 0.1 * acos(-1.0) / 180.0;
    double x[3] = {last[0] - first[0], last[1] - first[1], last[2] - first[2]};
    const double length = sqrt(dot(x, x));
    for (int i = 0; i < 3; i++) {
        x[i] /= length;
    }
    const int is_upright = atan2(hypot(x[0], x[1]), fabs(x[2])) <= upright;
    const double wish[3] = {is_upright ? 1.0 : 0.0, 0.0, is_upright ? 0.0 : 1.0};
    const double along = dot(wish, x);
    double z[3];
    for (int i = 0; i < 3; i++) {
        z[i] = wish[i] - along * x[i];
    }
    const double size = sqrt(dot(z, z));
    for (int i = 0; i < 3; i++) {
        z[i] /= size;
    }
    const double y[3] = {z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2],
                         z[0] * x[1] - z[1] * x[0]};
    for (int i = 0; i < 3; i++) {
        axes[i] = x[i];
        axes[3 + i] = cos(roll) * y[i] + sin(roll) * z[i];
        axes[6 + i] = cos(roll) * z[i] - sin(roll) * y[i];
    }
}

static void section_axes_of(const frame_plan *plan, int tube, double roll, double axes[9])
{
    double first[3];
    double last[3];
    plan_tube_point(plan, tube, 0, first);
    plan_tube_point(plan, tube, plan->tubes[tube].joint_count - 1, last);
    plan_section_axes(first, last, roll, axes);
}

/* The roll that brings the section's z of a tube to where it should be. */
static double roll_towards(const frame_plan *plan, int tube, const double z[3])
{
    double unrolled[9];
    section_axes_of(plan, tube, 0.0, unrolled);
    return atan2(-dot(z, unrolled + 3), dot(z, unrolled + 6));
}

static void rotate_loads(plan_case *of, const double rotation[9])
{
    times(rotation, of->gravity);
    for (int i = 0; i < of->joint_force_count; i++) {
        times(rotation, of->joint_forces[i].force);
        times(rotation, of->joint_forces[i].moment);
    }
    for (int i = 0; i < of->cargo_force_count; i++) {
        times(rotation, of->cargo_forces[i].force);
        times(rotation, of->cargo_forces[i].moment);
        times(rotation, of->cargo_forces[i].at);
    }
    for (int i = 0; i < of->tube_force_count; i++) {
        if (of->tube_forces[i].axes == TRIVET_WORLD_AXES) {
            times(rotation, of->tube_forces[i].force);
            times(rotation, of->tube_forces[i].moment);
        }
    }
    for (int i = 0; i < of->line_count; i++) {
        if (of->lines[i].axes == TRIVET_WORLD_AXES) {
            times(rotation, of->lines[i].first);
            times(rotation, of->lines[i].last);
        }
    }
}

void plan_rotate(frame_plan *plan, const double rotation[9])
{
    double z[PLAN_TUBES][3];
    for (int i = 0; i < plan->tube_count; i++) {
        double axes[9];
        section_axes_of(plan, i, plan->tubes[i].roll, axes);
        memcpy(z[i], axes + 6, sizeof z[i]);
        times(rotation, z[i]);
    }
    for (int i = 0; i < plan->joint_count; i++) {
        times(rotation, plan->joints[i].position);
    }
    for (int i = 0; i < plan->tube_count; i++) {
        for (int k = 0; k < plan->tubes[i].joint_count; k++) {
            times(rotation, plan->tubes[i].offsets[k]);
        }
    }
    for (int i = 0; i < plan->tube_count; i++) {
        plan->tubes[i].roll = roll_towards(plan, i, z[i]);
    }
    for (int i = 0; i < plan->mount_count; i++) {
        for (int k = 0; k < 3; k++) {
            times(rotation, plan->mounts[i].axes + 3 * k);
        }
    }
    for (int i = 0; i < plan->cargo_count; i++) {
        times(rotation, plan->cargos[i].centre);
    }
    for (int i = 0; i < plan->case_count; i++) {
        rotate_loads(&plan->cases[i], rotation);
    }
}

/* place[old] = new, from order[new] = old. */
static void invert(const int *order, int count, int *place)
{
    for (int i = 0; i < count; i++) {
        place[order[i]] = i;
    }
}

static void renumber_joints(frame_plan *plan, dice *d)
{
    int order[PLAN_JOINTS];
    int place[PLAN_JOINTS];
    plan_joint old[PLAN_JOINTS];
    dice_order(d, plan->joint_count, order);
    invert(order, plan->joint_count, place);
    memcpy(old, plan->joints, sizeof old);
    for (int i = 0; i < plan->joint_count; i++) {
        plan->joints[i] = old[order[i]];
    }
    for (int i = 0; i < plan->tube_count; i++) {
        for (int k = 0; k < plan->tubes[i].joint_count; k++) {
            plan->tubes[i].joints[k] = place[plan->tubes[i].joints[k]];
        }
    }
    for (int i = 0; i < plan->mount_count; i++) {
        plan->mounts[i].joint = place[plan->mounts[i].joint];
    }
    for (int i = 0; i < plan->cargo_count; i++) {
        for (int k = 0; k < plan->cargos[i].joint_count; k++) {
            plan->cargos[i].joints[k] = place[plan->cargos[i].joints[k]];
        }
    }
    for (int i = 0; i < plan->case_count; i++) {
        for (int k = 0; k < plan->cases[i].joint_force_count; k++) {
            plan->cases[i].joint_forces[k].on = place[plan->cases[i].joint_forces[k].on];
        }
    }
}

static void renumber_tubes(frame_plan *plan, dice *d)
{
    int order[PLAN_TUBES];
    int place[PLAN_TUBES];
    dice_order(d, plan->tube_count, order);
    invert(order, plan->tube_count, place);
    /* Swap in place: tubes are too big to copy them all onto the stack. */
    for (int i = 0; i < plan->tube_count; i++) {
        while (place[i] != i) {
            const int to = place[i];
            const plan_tube kept = plan->tubes[to];
            plan->tubes[to] = plan->tubes[i];
            plan->tubes[i] = kept;
            place[i] = place[to];
            place[to] = to;
        }
    }
    invert(order, plan->tube_count, place);
    for (int i = 0; i < plan->case_count; i++) {
        plan_case *const of = &plan->cases[i];
        for (int k = 0; k < of->tube_force_count; k++) {
            of->tube_forces[k].on = place[of->tube_forces[k].on];
        }
        for (int k = 0; k < of->line_count; k++) {
            of->lines[k].tube = place[of->lines[k].tube];
        }
    }
}

static void renumber_stock(frame_plan *plan, dice *d)
{
    int order[PLAN_STOCKS];
    int place[PLAN_STOCKS];
    plan_stock old[PLAN_STOCKS];
    dice_order(d, plan->stock_count, order);
    invert(order, plan->stock_count, place);
    memcpy(old, plan->stocks, sizeof old);
    for (int i = 0; i < plan->stock_count; i++) {
        plan->stocks[i] = old[order[i]];
    }
    for (int i = 0; i < plan->tube_count; i++) {
        plan_tube *const tube = &plan->tubes[i];
        tube->stock = place[tube->stock];
        for (int k = 0; k < tube->insert_count; k++) {
            tube->inserts[k].stock = place[tube->inserts[k].stock];
        }
    }
}

static void renumber_cargo(frame_plan *plan, dice *d)
{
    int order[PLAN_CARGOS];
    int place[PLAN_CARGOS];
    plan_cargo old[PLAN_CARGOS];
    dice_order(d, plan->cargo_count, order);
    invert(order, plan->cargo_count, place);
    memcpy(old, plan->cargos, sizeof old);
    for (int i = 0; i < plan->cargo_count; i++) {
        plan->cargos[i] = old[order[i]];
    }
    for (int i = 0; i < plan->case_count; i++) {
        plan_case *const of = &plan->cases[i];
        double factors[PLAN_CARGOS];
        memcpy(factors, of->cargo_factors, sizeof factors);
        for (int k = 0; k < plan->cargo_count; k++) {
            of->cargo_factors[k] = factors[order[k]];
        }
        for (int k = 0; k < of->cargo_force_count; k++) {
            of->cargo_forces[k].on = place[of->cargo_forces[k].on];
        }
    }
}

void plan_renumber(frame_plan *plan, uint64_t seed)
{
    dice d = dice_new(seed);
    renumber_joints(plan, &d);
    renumber_tubes(plan, &d);
    renumber_stock(plan, &d);
    renumber_cargo(plan, &d);
}

/* How far a place along the tube's line is from the nearest end of an insert, m. */
static double distance_to_inserts(const frame_plan *plan, int tube, double at)
{
    const plan_tube *const of = &plan->tubes[tube];
    const double length = plan_tube_length(plan, tube);
    double nearest = length;
    for (int i = 0; i < of->insert_count; i++) {
        const plan_insert *const insert = &of->inserts[i];
        double first[3];
        double there[3];
        plan_tube_point(plan, tube, 0, first);
        plan_tube_point(plan, tube, insert->position, there);
        const double joint =
            hypot(hypot(there[0] - first[0], there[1] - first[1]), there[2] - first[2]);
        const int is_last = insert->position == of->joint_count - 1;
        const double share = insert->position == 0 ? 0.0 : is_last ? 1.0 : 0.5;
        const double from = joint - share * insert->length;
        nearest = fmin(nearest, fmin(fabs(at - from), fabs(at - from - insert->length)));
    }
    return nearest;
}

/* Makes the point at share of a span a joint of its own; the tube's line runs through it. */
static void split_span(frame_plan *plan, int tube, int span, const double point[3])
{
    plan_tube *const of = &plan->tubes[tube];
    plan_joint *const joint = &plan->joints[plan->joint_count];
    snprintf(joint->name, sizeof joint->name, "split%d", plan->joint_count);
    memcpy(joint->position, point, sizeof joint->position);
    for (int k = of->joint_count; k > span + 1; k--) {
        of->joints[k] = of->joints[k - 1];
        memcpy(of->offsets[k], of->offsets[k - 1], sizeof of->offsets[k]);
    }
    of->joints[span + 1] = plan->joint_count;
    memset(of->offsets[span + 1], 0, sizeof of->offsets[span + 1]);
    of->joint_count++;
    plan->joint_count++;
    for (int i = 0; i < of->insert_count; i++) {
        if (of->inserts[i].position > span) {
            of->inserts[i].position++;
        }
    }
}

void plan_split(frame_plan *plan, uint64_t seed)
{
    dice d = dice_new(seed);
    for (int i = 0; i < plan->tube_count; i++) {
        const plan_tube *const of = &plan->tubes[i];
        if (plan->joint_count == PLAN_JOINTS || of->joint_count == PLAN_TUBE_JOINTS) {
            continue;
        }
        const int span = dice_below(&d, of->joint_count - 1);
        const double share = dice_between(&d, 0.2, 0.8);
        double first[3];
        double a[3];
        double b[3];
        plan_tube_point(plan, i, 0, first);
        plan_tube_point(plan, i, span, a);
        plan_tube_point(plan, i, span + 1, b);
        for (int k = 0; k < 3; k++) {
            a[k] += share * (b[k] - a[k]);
        }
        const double at = hypot(hypot(a[0] - first[0], a[1] - first[1]), a[2] - first[2]);
        /* A span of next to no length beside an insert's end would only cost digits. */
        if (distance_to_inserts(plan, i, at) > 0.01) {
            split_span(plan, i, span, a);
        }
    }
}
