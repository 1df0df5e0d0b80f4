/*
 * Stiff and soft cargo. Expected values are statics by hand, written beside each.
 */
#include "base/vec3.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "trivet/statics.h"

#include <check.h>

/* Statics by hand with forces of some 100 N: rounding leaves a few 1e-13 N of each. */
#define ROUNDING 1e-10

enum { A, B, C, D, JOINTS };

/* Four legs of 300 mm, clamped at their feet, heads A B C D in a square of 400 mm. */
static trivet_frame *four_legs(void)
{
    static const char *const heads[JOINTS] = {"A", "B", "C", "D"};
    static const char *const feet[JOINTS] = {"foot A", "foot B", "foot C", "foot D"};
    static const double places[JOINTS][2] = {{0.2, 0.2}, {-0.2, 0.2}, {-0.2, -0.2}, {0.2, -0.2}};
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = square_tube(0.02, 0.002);
    const int32_t leg = must_add_stock(frame, "leg", &profile);
    for (int i = 0; i < JOINTS; i++) {
        must_add_joint(frame, heads[i], places[i][0], places[i][1], 0.3);
    }
    for (int i = 0; i < JOINTS; i++) {
        const int32_t joints[2] = {must_add_joint(frame, feet[i], places[i][0], places[i][1], 0.0),
                                   i};
        must_add_tube(frame, heads[i], joints, 2, leg);
        must_add_mount(frame, joints[0], TRIVET_ALL);
    }
    return frame;
}

/* Cargo "box" of 10 kg on the heads, and a case that only pushes it with force at a place. */
static void add_box(trivet_frame *frame, const int32_t *joints, int32_t count, int32_t grip,
                    const double force[3], const double at[3])
{
    trivet_message message;
    const double centre[3] = {0.05, 0.0, 0.5};
    int32_t cargo = -1;
    int32_t push = -1;
    must(trivet_frame_add_cargo(frame, "box", centre, joints, count, grip, &cargo, &message),
         &message);
    must(trivet_frame_add_item(frame, cargo, "contents", 10.0, &message), &message);
    must(trivet_frame_add_case(frame, "push", NULL, &push, &message), &message);
    must(trivet_frame_add_cargo_force(frame, push, cargo, force, NULL, at, &message), &message);
}

START_TEST(stiff_cargo_keeps_its_joints_apart)
{
    const int32_t on[JOINTS] = {A, B, C, D};
    const double force[3] = {60.0, -30.0, -100.0};
    const double at[3] = {0.1, 0.1, 0.6};
    trivet_frame *const frame = four_legs();
    add_box(frame, on, JOINTS, TRIVET_GRIP_STIFF, force, at);
    trivet_result *const result = must_solve(frame);
    const double *const moves = trivet_result_moves(result, NULL, NULL);
    double widest = 0.0;
    for (int i = 0; i < JOINTS; i++) {
        widest = fmax(widest, trivet__length3(moves + 6 * i));
    }
    ck_assert(widest > 1e-5);
    for (int i = 0; i < JOINTS; i++) {
        for (int j = 0; j < i; j++) {
            /* A rigid body's small movement leaves distances alone: d . (ui - uj) = 0. */
            double d[3];
            double u[3];
            trivet__minus3(trivet_frame_position(frame, i), trivet_frame_position(frame, j), d);
            trivet__minus3(moves + 6 * i, moves + 6 * j, u);
            near_scaled(trivet__dot3(d, u), 0.0, 1e-12, widest * trivet__length3(d));
        }
    }
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(soft_cargo_shares_its_weight_by_leverage)
{
    /* 100 N at x = 0.1 between heads at x = 0.2 and -0.2: 75 N in front, 25 N behind, by halves. */
    const int32_t on[JOINTS] = {A, B, C, D};
    const double force[3] = {0.0, 0.0, -100.0};
    const double at[3] = {0.1, 0.0, 0.6};
    trivet_frame *const frame = four_legs();
    add_box(frame, on, JOINTS, TRIVET_GRIP_SOFT, force, at);
    trivet_result *const result = must_solve(frame);
    const double *const reactions = trivet_result_reactions(result, NULL, NULL);
    near_scaled(reactions[6 * A + 2], 37.5, ROUNDING, 100.0);
    near_scaled(reactions[6 * B + 2], 12.5, ROUNDING, 100.0);
    near_scaled(reactions[6 * C + 2], 12.5, ROUNDING, 100.0);
    near_scaled(reactions[6 * D + 2], 37.5, ROUNDING, 100.0);
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(soft_cargo_on_one_joint_twists_it)
{
    /* 100 N down at x = 0.1, head A at x = y = 0.2: moments about the foot of A. */
    const int32_t on[1] = {A};
    const double force[3] = {0.0, 0.0, -100.0};
    const double at[3] = {0.1, 0.0, 0.6};
    trivet_frame *const frame = four_legs();
    add_box(frame, on, 1, TRIVET_GRIP_SOFT, force, at);
    trivet_result *const result = must_solve(frame);
    const double *const reaction = trivet_result_reactions(result, NULL, NULL);
    near_scaled(reaction[2], 100.0, ROUNDING, 100.0);
    /* Loads' moment: arm (-0.1, -0.2) x (0, 0, -100) = (20, -10, 0); the mount's is against it. */
    near_scaled(reaction[3], -20.0, ROUNDING, 100.0);
    near_scaled(reaction[4], 10.0, ROUNDING, 100.0);
    near_scaled(reaction[5], 0.0, ROUNDING, 100.0);
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(stiff_cargo_on_rigid_mounts_shares_by_least_squares)
{
    /*
     * Heads held in z: nothing in the frame decides how four rigid holds share a rigid case. The
     * least squares that balance 100 N at x = 0.1 are linear in x: 37.5, 12.5, 12.5, 37.5 N.
     */
    const int32_t on[JOINTS] = {A, B, C, D};
    const double force[3] = {0.0, 0.0, -100.0};
    const double at[3] = {0.1, 0.0, 0.6};
    trivet_frame *const frame = four_legs();
    for (int32_t i = 0; i < JOINTS; i++) {
        must_add_mount(frame, i, TRIVET_Z);
    }
    add_box(frame, on, JOINTS, TRIVET_GRIP_STIFF, force, at);
    trivet_result *const result = must_solve(frame);
    const double *const reactions = trivet_result_reactions(result, NULL, NULL);
    static const double wanted[JOINTS] = {37.5, 12.5, 12.5, 37.5};
    for (int i = 0; i < JOINTS; i++) {
        near_scaled(reactions[6 * (JOINTS + i) + 2], wanted[i], ROUNDING, 100.0);
    }
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(two_bodies_on_the_same_joints_move_as_one)
{
    trivet_message message;
    const int32_t on[3] = {A, B, C};
    const int32_t upper[3] = {B, C, D};
    const double force[3] = {60.0, -30.0, -100.0};
    const double at[3] = {0.1, 0.1, 0.6};
    trivet_frame *const frame = four_legs();
    add_box(frame, on, 3, TRIVET_GRIP_STIFF, force, at);
    must(trivet_frame_add_cargo(frame, "second", at, upper, 3, TRIVET_GRIP_STIFF, NULL, &message),
         &message);
    trivet_result *const result = must_solve(frame);
    const double *const moves = trivet_result_moves(result, NULL, NULL);
    double apart[3];
    double line[3];
    /* B and C belong to both; D belongs to the second only, which may turn about B-C. */
    trivet__minus3(moves + 6 * B, moves + 6 * C, apart);
    trivet__minus3(trivet_frame_position(frame, B), trivet_frame_position(frame, C), line);
    near_scaled(trivet__dot3(apart, line), 0.0, 1e-12, 1e-3);
    trivet_quality quality;
    must(trivet_quality_defaults(&quality, sizeof quality), &message);
    must(trivet_result_quality(result, 0, &quality), &message);
    ck_assert(quality.residual < 1e-9 && quality.balance_force < 1e-9);
    trivet_result_free(result);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(stiff_cargo_on_a_line_is_refused)
{
    trivet_message message;
    trivet_result *result = NULL;
    const int32_t on[2] = {A, B};
    const double force[3] = {0.0, 0.0, -100.0};
    trivet_frame *const frame = four_legs();
    add_box(frame, on, 2, TRIVET_GRIP_STIFF, force, NULL);
    refused(trivet_frame_solve(frame, &result, &message), TRIVET_BAD_VALUE, &message,
            "cargo box: its grip is stiff, but it rests on 2 joints in one line and "
            "could swing about it; rest it on three joints that are not in one "
            "line, or make its grip soft");
    trivet_frame_free(frame);
}
END_TEST

START_TEST(mounts_that_tear_stiff_cargo_are_refused)
{
    trivet_message message;
    trivet_result *result = NULL;
    const int32_t on[JOINTS] = {A, B, C, D};
    const double force[3] = {0.0, 0.0, -100.0};
    const double move[6] = {0.0, 0.0, 0.001, 0.0, 0.0, 0.0};
    trivet_frame *const frame = four_legs();
    for (int32_t i = 0; i < JOINTS; i++) {
        must_add_mount(frame, i, TRIVET_Z);
    }
    add_box(frame, on, JOINTS, TRIVET_GRIP_STIFF, force, NULL);
    must(trivet_frame_set_mount_move(frame, 0, JOINTS, move, &message), &message);
    ck_assert_int_eq(trivet_frame_solve(frame, &result, &message), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.problem, "the mounts under it move apart");
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests(
        "ties", TESTS(stiff_cargo_keeps_its_joints_apart, soft_cargo_shares_its_weight_by_leverage,
                      soft_cargo_on_one_joint_twists_it,
                      stiff_cargo_on_rigid_mounts_shares_by_least_squares,
                      two_bodies_on_the_same_joints_move_as_one, stiff_cargo_on_a_line_is_refused,
                      mounts_that_tear_stiff_cargo_are_refused));
}
