/*
 * Balance and residual of a thousand random frames are rounding: by the library's own report, and
 * counted again here from the frame's data.
 */
#include "solved_plan.h"

#include <float.h>
#include <math.h>

#define STANDARD_GRAVITY 9.80665 /* m/s^2 */

/* A load on the frame: force, and moment about the world's origin. */
typedef struct wrench {
    double force[3];
    double moment[3];
    double size; /* sum of the sizes of all that was added, N; moments at PLAN_ARM */
} wrench;

static double length_of(const double v[3])
{
    return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}

static void add_to_wrench(wrench *sum, const double force[3], const double moment[3],
                          const double at[3])
{
    static const double none[3] = {0.0, 0.0, 0.0};
    const double *m = moment ? moment : none;
    sum->moment[0] += m[0] + at[1] * force[2] - at[2] * force[1];
    sum->moment[1] += m[1] + at[2] * force[0] - at[0] * force[2];
    sum->moment[2] += m[2] + at[0] * force[1] - at[1] * force[0];
    for (int i = 0; i < 3; i++) {
        sum->force[i] += force[i];
    }
    sum->size += length_of(force) + length_of(m) / PLAN_ARM;
}

static void from_tube_axes(const frame_plan *plan, int tube, int axes, const double given[3],
                           double out[3])
{
    double rows[9];
    double first[3];
    double last[3];
    plan_tube_point(plan, tube, 0, first);
    plan_tube_point(plan, tube, plan->tubes[tube].joint_count - 1, last);
    plan_section_axes(first, last, plan->tubes[tube].roll, rows);
    for (int i = 0; i < 3; i++) {
        out[i] = axes == TRIVET_WORLD_AXES
                     ? given[i]
                     : rows[i] * given[0] + rows[3 + i] * given[1] + rows[6 + i] * given[2];
    }
}

static void point_along(const frame_plan *plan, int tube, double at, double out[3])
{
    double first[3];
    double last[3];
    plan_tube_point(plan, tube, 0, first);
    plan_tube_point(plan, tube, plan->tubes[tube].joint_count - 1, last);
    const double share = at / plan_tube_length(plan, tube);
    for (int i = 0; i < 3; i++) {
        out[i] = first[i] + share * (last[i] - first[i]);
    }
}

/* A line load as two points: exact for force and moment (Gauss, two points, degree 3). */
static void add_line(const frame_plan *plan, const plan_line *line, wrench *sum)
{
    const double to = isnan(line->to) ? plan_tube_length(plan, line->tube) : line->to;
    for (int side = -1; side <= 1; side += 2) {
        const double share = 0.5 * (1.0 + side / sqrt(3.0));
        double given[3];
        double force[3];
        double at[3];
        for (int i = 0; i < 3; i++) {
            given[i] = 0.5 * (to - line->from) *
                       (line->first[i] + share * (line->last[i] - line->first[i]));
        }
        from_tube_axes(plan, line->tube, line->axes, given, force);
        point_along(plan, line->tube, line->from + share * (to - line->from), at);
        add_to_wrench(sum, force, NULL, at);
    }
}

static double weight_per_length(const solved_plan *solved, int32_t stock)
{
    return trivet_frame_section(solved->frame, stock)->area *
           trivet_frame_material(solved->frame, stock)->density * STANDARD_GRAVITY;
}

static void add_weights(const solved_plan *solved, const plan_case *of, wrench *sum)
{
    const frame_plan *plan = solved->plan;
    for (int32_t k = 0; k < solved->spans; k++) {
        const trivet_span span = span_of(solved, k);
        double force[3];
        double at[3];
        double weight =
            weight_per_length(solved, trivet_frame_tube_stock(solved->frame, span.tube));
        if (span.insert_stock >= 0) {
            weight += weight_per_length(solved, span.insert_stock);
        }
        for (int i = 0; i < 3; i++) {
            force[i] = of->gravity[i] * weight * span.length;
        }
        point_along(plan, span.tube, span.start + 0.5 * span.length, at);
        add_to_wrench(sum, force, NULL, at);
    }
    for (int i = 0; i < plan->cargo_count; i++) {
        const plan_cargo *cargo = &plan->cargos[i];
        double force[3];
        for (int k = 0; k < 3; k++) {
            force[k] = of->gravity[k] * STANDARD_GRAVITY * of->cargo_factors[i] *
                       (cargo->box + cargo->contents);
        }
        add_to_wrench(sum, force, NULL, cargo->centre);
    }
}

static wrench loads_of(const solved_plan *solved, const plan_case *of)
{
    const frame_plan *plan = solved->plan;
    wrench sum = {{0.0}, {0.0}, 0.0};
    add_weights(solved, of, &sum);
    for (int i = 0; i < of->joint_force_count; i++) {
        const plan_force *load = &of->joint_forces[i];
        add_to_wrench(&sum, load->force, load->moment, plan->joints[load->on].position);
    }
    for (int i = 0; i < of->cargo_force_count; i++) {
        const plan_force *load = &of->cargo_forces[i];
        add_to_wrench(&sum, load->force, load->moment, load->at);
    }
    for (int i = 0; i < of->tube_force_count; i++) {
        const plan_force *load = &of->tube_forces[i];
        double force[3];
        double moment[3];
        double at[3];
        from_tube_axes(plan, load->on, load->axes, load->force, force);
        from_tube_axes(plan, load->on, load->axes, load->moment, moment);
        point_along(plan, load->on, load->at[0], at);
        add_to_wrench(&sum, force, moment, at);
    }
    for (int i = 0; i < of->line_count; i++) {
        add_line(plan, &of->lines[i], &sum);
    }
    return sum;
}

static void check_balance(const solved_plan *solved, int32_t column)
{
    const frame_plan *plan = solved->plan;
    wrench sum = loads_of(solved, &plan->cases[column]);
    for (int32_t m = 0; m < solved->mounts; m++) {
        const double *reaction = solved->reactions + (ptrdiff_t)6 * (column * solved->mounts + m);
        add_to_wrench(&sum, reaction, reaction + 3, plan->joints[plan->mounts[m].joint].position);
    }
    plan_scale scale = scale_of(solved, column);
    scale.force = fmax(scale.force, sum.size);
    const double allowed = forces_allowed(scale);
    for (int i = 0; i < 3; i++) {
        agree(plan->seed, "sum of loads and reactions", sum.force[i], 0.0, allowed);
        agree(plan->seed, "sum of moments", sum.moment[i], 0.0, allowed);
    }
}

START_TEST(loads_and_reactions_balance)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        for (int32_t c = 0; c < solved.plan->case_count; c++) {
            check_balance(&solved, c);
        }
        free_solved_plan(&solved);
    }
}
END_TEST

/* What a column may be off by; a combination reports the worst residual of its cases. */
static double quality_allowed(const solved_plan *solved, int32_t column)
{
    const int32_t first = column < solved->plan->case_count ? column : 0;
    double allowed = 0.0;
    for (int32_t c = first; c <= column; c++) {
        const plan_scale scale = scale_of(solved, c);
        allowed = fmax(allowed, forces_allowed(scale) / scale.force);
    }
    return allowed;
}

START_TEST(reported_balance_and_residual_are_rounding)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        for (int32_t c = 0; c < solved.columns; c++) {
            trivet_quality quality;
            done(seed, trivet_quality_defaults(&quality, sizeof quality));
            done(seed, trivet_result_quality(solved.result, c, &quality));
            const double allowed = quality_allowed(&solved, c);
            agree(seed, "balance of forces", quality.balance_force, 0.0, allowed);
            agree(seed, "balance of moments", quality.balance_moment, 0.0, allowed);
            agree(seed, "residual", quality.residual, 0.0, allowed);
            ck_assert(quality.condition >= 1.0);
        }
        free_solved_plan(&solved);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("balance", loads_and_reactions_balance,
                          reported_balance_and_residual_are_rounding);
}
