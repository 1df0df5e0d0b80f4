/*
 * Plans outlive changes of numbers and refuse changes of topology; inserts stiffen the part of a
 * tube that they fill; every call answers for its arguments.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/statics.h"

#include <check.h>
#include <string.h>

typedef struct solver {
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
} solver;

static solver make_solver(const trivet_frame *frame)
{
    trivet_message message;
    solver made = {NULL, NULL, NULL};
    must(trivet_plan_new(frame, &made.plan, &message), &message);
    must(trivet_workspace_new(made.plan, &made.workspace, &message), &message);
    must(trivet_result_new(made.plan, &made.result, &message), &message);
    return made;
}

static trivet_status run_solver(const solver *of, const trivet_frame *frame,
                                trivet_message *message)
{
    return trivet_plan_solve(of->plan, frame, of->workspace, of->result, message);
}

static void free_solver(solver *of)
{
    trivet_result_free(of->result);
    trivet_workspace_free(of->workspace);
    trivet_plan_free(of->plan);
}

START_TEST(plan_serves_other_numbers)
{
    trivet_message message;
    trivet_frame *const frame = rack_frame();
    solver reused = make_solver(frame);
    must(run_solver(&reused, frame, &message), &message);
    const trivet_profile thicker = square_tube(0.025, 0.003);
    const trivet_material material = steel_material();
    must(trivet_frame_set_stock(frame, 0, &thicker, &material, &message), &message);
    for (int32_t joint = 0; joint < trivet_frame_count(frame, TRIVET_KIND_JOINT); joint++) {
        double moved[3];
        memcpy(moved, trivet_frame_position(frame, joint), sizeof moved);
        moved[1] *= 1.25;
        must(trivet_frame_set_position(frame, joint, moved, &message), &message);
    }
    must(run_solver(&reused, frame, &message), &message);
    solver fresh = make_solver(frame);
    must(run_solver(&fresh, frame, &message), &message);
    int32_t columns = 0;
    int32_t joints = 0;
    const double *const one = trivet_result_moves(reused.result, &columns, &joints);
    const double *const other = trivet_result_moves(fresh.result, NULL, NULL);
    /* Same numbers through the same operations: the same bits. */
    ck_assert_mem_eq(one, other, (size_t)columns * (size_t)joints * 6 * sizeof *one);
    free_solver(&fresh);
    free_solver(&reused);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(plan_refuses_another_topology)
{
    trivet_message message;
    trivet_frame *const frame = rack_frame();
    trivet_frame *const other = portal_frame();
    solver made = make_solver(frame);
    ck_assert_int_eq(run_solver(&made, other, &message), TRIVET_BAD_ORDER);
    ck_assert_str_eq(message.thing, "plan");
    ck_assert_ptr_null(trivet_result_moves(made.result, NULL, NULL));
    must(run_solver(&made, frame, &message), &message);
    ck_assert_ptr_nonnull(trivet_result_moves(made.result, NULL, NULL));
    free_solver(&made);
    trivet_frame_free(other);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(workspace_of_another_plan_is_refused)
{
    trivet_message message;
    trivet_frame *const frame = rack_frame();
    solver one = make_solver(frame);
    solver other = make_solver(frame);
    ck_assert_int_eq(trivet_plan_solve(one.plan, frame, other.workspace, one.result, &message),
                     TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet_plan_solve(one.plan, frame, one.workspace, other.result, &message),
                     TRIVET_BAD_ORDER);
    free_solver(&one);
    free_solver(&other);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(missing_arguments_are_answered)
{
    trivet_message message;
    trivet_plan *plan = NULL;
    trivet_workspace *workspace = NULL;
    trivet_result *result = NULL;
    ck_assert_int_eq(trivet_plan_new(NULL, &plan, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_workspace_new(NULL, &workspace, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_result_new(NULL, &result, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_plan_solve(NULL, NULL, NULL, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_solve(NULL, &result, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_result_at(NULL, 0, 0, 0.0, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_result_case_count(NULL), 0);
    ck_assert_int_eq(trivet_result_span_count(NULL), 0);
    ck_assert_int_eq(trivet_plan_size(NULL, NULL), 0);
    trivet_plan_free(NULL);
    trivet_workspace_free(NULL);
    trivet_result_free(NULL);
}
END_TEST

START_TEST(places_off_the_span_are_refused)
{
    trivet_message message;
    trivet_frame *const frame = cantilever_frame(0.8, -500.0);
    solver made = make_solver(frame);
    ck_assert_int_eq(trivet_result_at(made.result, 0, 0, 0.1, NULL, NULL), TRIVET_BAD_ORDER);
    must(run_solver(&made, frame, &message), &message);
    double forces[6];
    ck_assert_int_eq(trivet_result_at(made.result, 0, 0, 0.81, forces, NULL), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_result_at(made.result, 0, 0, (double)NAN, forces, NULL),
                     TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_result_at(made.result, 0, 1, 0.1, forces, NULL), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_result_at(made.result, 9, 0, 0.1, forces, NULL), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_result_at(made.result, 0, 0, 0.2, forces, NULL), TRIVET_OK);
    /* 500 N down at the tip, 0.6 m away: right-handed about y (to the left) that is +300 N m. */
    near_scaled(forces[4], -(-500.0) * 0.6, 1e-10, 300.0);
    free_solver(&made);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(insert_stiffens_the_half_it_fills)
{
    /*
     * Cantilever of L with a square bar slid in from the root over half of it. Roark, stepped
     * cantilever: P/(3E) ((L^3 - a^3)/I1 + a^3/I2), a = L/2; shear adds P a/GAs2 + P (L-a)/GAs1.
     */
    trivet_message message;
    const double L = 0.8;
    const double P = 500.0;
    const double a = 0.4;
    trivet_frame *const frame = cantilever_frame(L, -P);
    const trivet_profile bar = square_bar(0.014);
    const trivet_material material = steel_material();
    const int32_t plug = must_add_stock(frame, "plug", &bar);
    must(trivet_frame_add_insert(frame, 0, 0, L - a, plug, TRIVET_SIDE_BY_SIDE, &message),
         &message);
    solver made = make_solver(frame);
    must(run_solver(&made, frame, &message), &message);
    ck_assert_int_eq(trivet_result_span_count(made.result), 2);
    const trivet_section *const tube = trivet_frame_section(frame, 0);
    const trivet_section *const inner = trivet_frame_section(frame, plug);
    const double EI2 = material.E * tube->second_moment[0];
    const double EI1 = EI2 + material.E * inner->second_moment[0];
    const double GA2 = material.G * tube->shear_area[1];
    const double GA1 = GA2 + material.G * inner->shear_area[1];
    const double droop = P / 3.0 * ((L * L * L - a * a * a) / EI1 + a * a * a / EI2) + P * a / GA2 +
                         P * (L - a) / GA1;
    const double *const moves = trivet_result_moves(made.result, NULL, NULL);
    near_relative(moves[6 + 2], -droop, 1e-12);
    free_solver(&made);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(envelope_takes_the_worst_of_all_cases)
{
    /* Cantilever of 0.8 m: "tip" pushes 500 N up at B, "weight" hangs its own weight on it. */
    trivet_frame *const frame = cantilever_frame(0.8, 500.0);
    trivet_result *const result = must_solve(frame);
    trivet_extreme whole[6];
    int32_t least_case[6];
    int32_t most_case[6];
    ck_assert_int_eq(trivet_result_envelope(result, 0, whole, least_case, most_case), TRIVET_OK);
    const double weight = trivet_frame_mass(frame) * 9.80665;
    /* At the root: My = -P L by the push, + w L^2 / 2 by the weight. */
    near_relative(whole[4].least, -500.0 * 0.8, 1e-12);
    near_relative(whole[4].most, weight * 0.8 / 2.0, 1e-12);
    near_scaled(whole[4].least_at, 0.0, 1e-12, 0.8);
    near_scaled(whole[4].most_at, 0.0, 1e-12, 0.8);
    ck_assert_int_eq(least_case[4], 0);
    ck_assert_int_eq(most_case[4], 1);
    ck_assert_int_eq(trivet_result_envelope(result, 1, whole, NULL, NULL), TRIVET_BAD_INDEX);
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("plan",
                     TESTS(plan_serves_other_numbers, plan_refuses_another_topology,
                           workspace_of_another_plan_is_refused, missing_arguments_are_answered,
                           places_off_the_span_are_refused, insert_stiffens_the_half_it_fills,
                           envelope_takes_the_worst_of_all_cases));
}
