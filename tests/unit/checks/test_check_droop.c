/*
 * Droop and droop ratio of beams whose deflection stands in any handbook; shear give added, since
 * the library counts it.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>

static const double E = 210e9;
static const double G = 81e9;
#define ROUND 1e-9

/* P L^3/(3 E I) + P L/(G As) (elementary, with Timoshenko's shear term). */
static double tip_droop(const beam *of, double P, double L)
{
    const trivet_section *const s = trivet_frame_section(of->frame, 0);
    return P * L * L * L / (3.0 * E * s->second_moment[0]) + P * L / (G * s->shear_area[1]);
}

START_TEST(cantilever_droops_at_its_tip)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    of.limits.droop = 0.01;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "droop", "rail", "push");
    near_relative(check.demand, tip_droop(&of, 100.0, 0.8), ROUND);
    near_scaled(check.at, 0.8, 1e-12, 1.0);
    ck_assert_int_eq(check.line, TRIVET_LINE_SERVICE);
    ck_assert_int_eq(check.dimension, TRIVET_LENGTH);
    int32_t tube = -1;
    double at = 0.0;
    double droop = 0.0;
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, 0, &tube, &at, &droop), TRIVET_OK);
    ck_assert_int_eq(tube, 0);
    ck_assert(droop == check.demand && at == check.at);
    beam_free(&of);
}
END_TEST

START_TEST(joint_may_have_a_limit_of_its_own)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    const double tip = tip_droop(&of, 100.0, 0.8);
    ck_assert_int_eq(trivet_frame_set_droop_limit(of.frame, 1, 0.5 * tip, NULL), TRIVET_OK);
    ck_assert(trivet_frame_droop_limit(of.frame, 1) == 0.5 * tip);
    ck_assert(isnan(trivet_frame_droop_limit(of.frame, 0)));
    ck_assert_int_eq(trivet_frame_set_droop_limit(of.frame, 1, 0.0, NULL), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_frame_set_droop_limit(of.frame, 7, 0.1, NULL), TRIVET_BAD_INDEX);
    beam_check(&of);
    const trivet_check check =
        beam_find(&of, "droop", trivet_frame_name(of.frame, TRIVET_KIND_JOINT, 1), "push");
    near_relative(check.demand, tip, ROUND);
    near_relative(check.utilisation, 2.0, ROUND);
    ck_assert_int_eq(check.where_kind, TRIVET_KIND_JOINT);
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    beam_free(&of);
}
END_TEST

START_TEST(joint_that_rises_uses_nothing_of_its_limit)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, -100.0);
    ck_assert_int_eq(trivet_frame_set_droop_limit(of.frame, 1, 0.001, NULL), TRIVET_OK);
    beam_check(&of);
    const trivet_check check =
        beam_find(&of, "droop", trivet_frame_name(of.frame, TRIVET_KIND_JOINT, 1), "push");
    ck_assert(check.demand == 0.0 && check.utilisation == 0.0);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    beam_free(&of);
}
END_TEST

START_TEST(what_rises_does_not_droop)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, -100.0);
    of.limits.droop = 0.01;
    of.limits.droop_ratio = 0.005;
    beam_check(&of);
    ck_assert(beam_find(&of, "droop", "rail", "push").demand == 0.0);
    ck_assert(beam_find(&of, "droop ratio", "rail", "push").demand == 0.0);
    double droop = 1.0;
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, 0, NULL, NULL, &droop), TRIVET_OK);
    ck_assert(droop == 0.0);
    beam_free(&of);
}
END_TEST

START_TEST(without_limits_there_is_no_check_and_it_is_said)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_SERVICE, NULL),
                     TRIVET_NOT_CHECKED);
    ck_assert_ptr_nonnull(beam_omission(&of, "droop limit"));
    beam_free(&of);
}
END_TEST

START_TEST(reach_counts_from_its_support)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    of.limits.droop_ratio = 0.005;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "droop ratio", "rail", "push");
    near_relative(check.demand, tip_droop(&of, 100.0, 0.8) / 0.8, ROUND);
    near_relative(check.utilisation, check.demand / 0.005, 1e-15);
    near_scaled(check.at, 0.8, 1e-12, 1.0);
    beam_free(&of);
}
END_TEST

/* 5 q L^4/(384 E I) + q L^2/(8 G As) in the middle (elementary). */
START_TEST(span_counts_from_the_line_between_its_supports)
{
    const double L = 1.2;
    const double q = 300.0;
    const int32_t sinking = 1; /* the mount at B */
    beam of = beam_on_two_mounts(square_bar(0.02), 235e6, L);
    const int32_t snow = beam_case(&of, "snow");
    const double sink[6] = {0.0, 0.0, -0.03, 0.0, 0.0, 0.0};
    beam_line(&of, snow, 0, q);
    ck_assert_int_eq(trivet_frame_set_mount_move(of.frame, snow, sinking, sink, NULL), TRIVET_OK);
    of.limits.droop_ratio = 0.005;
    beam_check(&of);
    const trivet_section *const s = trivet_frame_section(of.frame, 0);
    const double sag = 5.0 * q * pow(L, 4.0) / (384.0 * E * s->second_moment[0]) +
                       q * L * L / (8.0 * G * s->shear_area[1]);
    const trivet_check check = beam_find(&of, "droop ratio", "rail", "snow");
    near_relative(check.demand, sag / L, ROUND);
    near_scaled(check.at, L / 2.0, 1e-6, L);
    beam_free(&of);
}
END_TEST

/*
 * Mounts at 0 and a = 0.6 m, reach c = 0.3 m beyond: tip P c^2 (a + c)/(3 E I) (handbook, load on
 * an overhang), and by shear P c/(G As) plus the turn P c/(G As a) c of the span behind.
 */
START_TEST(overhang_counts_from_the_last_mount)
{
    const double a = 0.6;
    const double c = 0.3;
    const double P = 50.0;
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", a, 0.0, 0.0);
    const int32_t C = must_add_joint(of.frame, "C", a + c, 0.0, 0.0);
    const int32_t bar = beam_stock(&of, "bar", square_bar(0.02), beam_material(235e6, 0.0));
    beam_tube_of_three(&of, "rail", bar, A, B, C);
    must_add_mount(of.frame, A, TRIVET_POSITION | TRIVET_RX);
    must_add_mount(of.frame, B, TRIVET_Y | TRIVET_Z);
    beam_force(&of, beam_case(&of, "push"), C, 0.0, 0.0, -P);
    of.limits.droop_ratio = 0.005;
    beam_check(&of);
    const trivet_section *const s = trivet_frame_section(of.frame, 0);
    const double GA = G * s->shear_area[1];
    const double tip =
        P * c * c * (a + c) / (3.0 * E * s->second_moment[0]) + P * c / GA + P * c / a / GA * c;
    const trivet_check check = beam_find(&of, "droop ratio", "rail", "push");
    near_relative(check.demand, tip / c, ROUND);
    near_scaled(check.at, a + c, 1e-12, 1.0);
    beam_free(&of);
}
END_TEST

START_TEST(bad_questions_get_a_status)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    double droop = 1.0;
    int32_t tube = 5;
    beam_check(&of);
    ck_assert_int_eq(trivet_droop_worst(NULL, of.result, 0, NULL, NULL, &droop),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, 0, NULL, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, 1, &tube, NULL, &droop),
                     TRIVET_BAD_INDEX);
    ck_assert_int_eq(tube, -1);
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, -1, NULL, NULL, &droop),
                     TRIVET_BAD_INDEX);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("check_droop",
                     TESTS(cantilever_droops_at_its_tip, joint_may_have_a_limit_of_its_own,
                           joint_that_rises_uses_nothing_of_its_limit, what_rises_does_not_droop,
                           without_limits_there_is_no_check_and_it_is_said,
                           reach_counts_from_its_support,
                           span_counts_from_the_line_between_its_supports,
                           overhang_counts_from_the_last_mount, bad_questions_get_a_status));
}
