/*
 * What mounts carry: statics by hand on a cantilever with one clamp.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* A cantilever of 0.5 m with given limits and axes, and force (x, y, z) at its tip. */
static beam clamped(trivet_mount mount, double x, double y, double z)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.5, 0.0, 0.0);
    beam_tube(&of, "rail", beam_stock(&of, "bar", square_bar(0.03), beam_material(235e6, 0.0)), A,
              B);
    mount.joint = A;
    mount.held = TRIVET_ALL;
    ck_assert_int_eq(trivet_frame_add_mount(of.frame, &mount, NULL, NULL), TRIVET_OK);
    beam_force(&of, beam_case(&of, "push"), B, x, y, z);
    beam_check(&of);
    return of;
}

static trivet_mount no_limits(void)
{
    trivet_mount mount;
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    return mount;
}

START_TEST(a_weight_pushes_and_a_lift_pulls)
{
    trivet_mount mount = no_limits();
    mount.limit_pull = 900.0;
    mount.limit_push = 400.0;
    beam down = clamped(mount, 0.0, 0.0, -300.0);
    near_relative(beam_find(&down, "mount push", "A", "push").demand, 300.0, 1e-10);
    ck_assert(beam_find(&down, "mount pull", "A", "push").demand == 0.0);
    near_relative(beam_find(&down, "mount push", "A", "push").utilisation, 0.75, 1e-10);
    beam_free(&down);
    beam up = clamped(mount, 0.0, 0.0, 300.0);
    near_relative(beam_find(&up, "mount pull", "A", "push").demand, 300.0, 1e-10);
    ck_assert(beam_find(&up, "mount push", "A", "push").demand == 0.0);
    ck_assert_int_eq(beam_find(&up, "mount pull", "A", "push").line, TRIVET_LINE_OVERLOAD);
    beam_free(&up);
}
END_TEST

START_TEST(shear_and_moment_are_resultants)
{
    trivet_mount mount = no_limits();
    mount.limit_shear = 100.0;
    mount.limit_moment = 1000.0;
    beam of = clamped(mount, 30.0, 40.0, 120.0);
    const trivet_check shear = beam_find(&of, "mount shear", "A", "push");
    const trivet_check moment = beam_find(&of, "mount moment", "A", "push");
    near_relative(shear.demand, 50.0, 1e-10);
    /* 0.5 m times the force across the beam, sqrt(40^2 + 120^2). */
    near_relative(moment.demand, 0.5 * sqrt(16000.0), 1e-10);
    ck_assert_int_eq(moment.dimension, TRIVET_MOMENT);
    beam_free(&of);
}
END_TEST

/* The mount's z points along world x: a force along world x pulls it away. */
START_TEST(turned_axes_turn_what_is_pull_and_what_is_shear)
{
    trivet_mount mount = no_limits();
    const double axes[9] = {0.0, 0.0, -1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0};
    memcpy(mount.axes, axes, sizeof axes);
    mount.limit_pull = 100.0;
    mount.limit_shear = 100.0;
    beam of = clamped(mount, 30.0, 0.0, -40.0);
    near_relative(beam_find(&of, "mount pull", "A", "push").demand, 30.0, 1e-10);
    near_relative(beam_find(&of, "mount shear", "A", "push").demand, 40.0, 1e-10);
    double carried[TRIVET_CARRY_COUNT];
    ck_assert_int_eq(trivet_mount_carries(of.frame, of.result, 0, 0, carried), TRIVET_OK);
    near_relative(carried[TRIVET_CARRY_PULL], 30.0, 1e-10);
    ck_assert(carried[TRIVET_CARRY_PUSH] == 0.0);
    near_relative(carried[TRIVET_CARRY_MOMENT], 20.0, 1e-10);
    beam_free(&of);
}
END_TEST

START_TEST(a_limit_of_nothing_allows_nothing)
{
    trivet_mount mount = no_limits();
    mount.limit_pull = 0.0;
    beam pulled = clamped(mount, 0.0, 0.0, 1.0);
    const trivet_check check = beam_find(&pulled, "mount pull", "A", "push");
    ck_assert(isinf(check.utilisation));
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    beam_free(&pulled);
    /* A force across leaves rounding at most along z. */
    beam across = clamped(mount, 1000.0, 700.0, 0.0);
    ck_assert_int_eq(beam_find(&across, "mount pull", "A", "push").verdict, TRIVET_HOLDS);
    beam_free(&across);
}
END_TEST

START_TEST(a_mount_without_limits_is_listed)
{
    beam of = clamped(no_limits(), 0.0, 0.0, -300.0);
    ck_assert_str_eq(beam_omission(&of, "mount A"), "no limits are given");
    beam_free(&of);
}
END_TEST

START_TEST(the_most_of_all_cases_is_told_with_its_case)
{
    beam of = beam_cantilever(square_bar(0.03), 235e6, 0.5, 100.0);
    beam_force(&of, beam_case(&of, "more"), 1, 0.0, 0.0, -250.0);
    beam_force(&of, beam_case(&of, "lift"), 1, 0.0, 7.0, 60.0);
    beam_check(&of);
    double most[TRIVET_CARRY_COUNT];
    int32_t cases[TRIVET_CARRY_COUNT];
    ck_assert_int_eq(trivet_mount_carries_most(of.frame, of.result, 0, most, cases), TRIVET_OK);
    near_relative(most[TRIVET_CARRY_PUSH], 250.0, 1e-10);
    ck_assert_int_eq(cases[TRIVET_CARRY_PUSH], 1);
    near_relative(most[TRIVET_CARRY_PULL], 60.0, 1e-10);
    ck_assert_int_eq(cases[TRIVET_CARRY_PULL], 2);
    near_relative(most[TRIVET_CARRY_SHEAR], 7.0, 1e-10);
    near_relative(most[TRIVET_CARRY_MOMENT], 125.0, 1e-10);
    ck_assert_int_eq(cases[TRIVET_CARRY_MOMENT], 1);
    beam_free(&of);
}
END_TEST

START_TEST(bad_questions_get_a_status)
{
    beam of = beam_cantilever(square_bar(0.03), 235e6, 0.5, 100.0);
    double carried[TRIVET_CARRY_COUNT];
    beam_check(&of);
    ck_assert_int_eq(trivet_mount_carries(of.frame, of.result, 0, 1, carried), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_mount_carries(of.frame, of.result, 0, -1, carried), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_mount_carries(of.frame, of.result, 1, 0, carried), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_mount_carries(of.frame, NULL, 0, 0, carried), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_mount_carries(of.frame, of.result, 0, 0, NULL),
                     TRIVET_MISSING_ARGUMENT);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("check_mount",
                     TESTS(a_weight_pushes_and_a_lift_pulls, shear_and_moment_are_resultants,
                           turned_axes_turn_what_is_pull_and_what_is_shear,
                           a_limit_of_nothing_allows_nothing, a_mount_without_limits_is_listed,
                           the_most_of_all_cases_is_told_with_its_case,
                           bad_questions_get_a_status));
}
