/*
 * Yield on whole beams: bending stress and its place from the handbook.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Rounding of a solved beam with a few spans. */
#define ROUND 1e-10

/* Bar of width h: sigma = 6 P L / h^3 at the clamp (elementary). */
START_TEST(cantilever_is_worst_at_its_clamp)
{
    const double h = 0.02;
    beam of = beam_cantilever(square_bar(h), 235e6, 0.8, 100.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    near_relative(check.demand, 6.0 * 100.0 * 0.8 / (h * h * h), ROUND);
    near_relative(check.limit, 235e6 / 1.5, 1e-15);
    near_relative(check.utilisation, 60e6 * 1.5 / 235e6, ROUND);
    near_scaled(check.at, 0.0, 1e-9, 1.0);
    ck_assert_int_eq(check.line, TRIVET_LINE_OVERLOAD);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    ck_assert_int_eq(check.dimension, TRIVET_STRESS);
    beam_free(&of);
}
END_TEST

/* q L^2/8 over the section modulus, in the middle (elementary). */
START_TEST(line_load_is_worst_between_the_joints)
{
    const double h = 0.02;
    const double L = 1.2;
    beam of = beam_on_two_mounts(square_bar(h), 235e6, L);
    beam_line(&of, beam_case(&of, "snow"), 0, 300.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "snow");
    near_relative(check.demand, 300.0 * L * L / 8.0 * 6.0 / (h * h * h), ROUND);
    near_scaled(check.at, L / 2.0, 1e-6, L);
    beam_free(&of);
}
END_TEST

/* Shigley: sigma' = 16/(pi d^3) sqrt(4 M^2 + 3 T^2); shear is nil at the outermost fibre. */
START_TEST(round_bar_under_bending_and_twist_matches_the_shaft_formula)
{
    const double d = 0.025;
    const double pi = acos(-1.0);
    beam of = beam_cantilever(round_bar(d), 355e6, 0.5, 0.0);
    const int32_t twisted = beam_case(&of, "twisted");
    beam_moment(&of, twisted, 1, 80.0, 60.0, 0.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "twisted");
    near_relative(check.demand,
                  16.0 / (pi * d * d * d) * sqrt(4.0 * 60.0 * 60.0 + 3.0 * 80.0 * 80.0), ROUND);
    beam_free(&of);
}
END_TEST

/* A rail from A to C with its clamp at A; a stub meets it at x. Yield 200, beside a weld 100. */
static beam welded_rail(double stub_at, double h)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", stub_at, 0.0, 0.0);
    const int32_t C = must_add_joint(of.frame, "C", 1.0, 0.0, 0.0);
    const int32_t D = must_add_joint(of.frame, "D", stub_at, 0.2, 0.0);
    const int32_t bar = beam_stock(&of, "bar", square_bar(h), beam_material(200e6, 100e6));
    beam_tube_of_three(&of, "rail", bar, A, B, C);
    beam_tube(&of, "stub", bar, B, D);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "push"), C, 0.0, 0.0, -100.0);
    return of;
}

/* The soft zone reaches from 15 to 65 mm: its beginning governs, with P (L - 0.015). */
START_TEST(the_border_of_a_soft_zone_governs)
{
    const double h = 0.03;
    beam of = welded_rail(0.040, h);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    near_scaled(check.at, 0.015, 1e-9, 1.0);
    near_relative(check.limit, 100e6 / 1.5, 1e-15);
    near_relative(check.demand, 6.0 * 100.0 * (1.0 - 0.015) / (h * h * h), ROUND);
    beam_free(&of);
}
END_TEST

/* Zone from 875 to 925 mm, where the stress is an eighth: the clamp governs with full strength. */
START_TEST(away_from_welds_the_full_strength_counts)
{
    const double h = 0.03;
    beam of = welded_rail(0.9, h);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    near_scaled(check.at, 0.0, 1e-9, 1.0);
    near_relative(check.limit, 200e6 / 1.5, 1e-15);
    beam_free(&of);
}
END_TEST

/*
 * Square tube with a bar inside over the first 100 mm, bending together: each takes its share of
 * the moment by E I. The bare tube begins to carry all of it at 100 mm.
 */
START_TEST(insert_and_tube_share_the_moment_by_stiffness)
{
    beam of = beam_cantilever(square_tube(0.03, 0.002), 235e6, 0.5, 100.0);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.02), beam_material(20e6, 0.0));
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.1, plug, TRIVET_SIDE_BY_SIDE, NULL),
                     TRIVET_OK);
    beam_check(&of);
    const trivet_section *const tube = trivet_frame_section(of.frame, 0);
    const double I_plug = 0.02 * 0.02 * 0.02 * 0.02 / 12.0;
    const double share = I_plug / (I_plug + tube->second_moment[0]);
    const double in_plug = 50.0 * share * 0.01 / I_plug;
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    char place[256];
    trivet_checks_place_text(of.checks, 0, NULL, place, sizeof place);
    ck_assert_str_eq(place, "rail, insert plug, at A");
    near_relative(check.demand, in_plug, 1e-9);
    near_relative(check.limit, 20e6 / 1.5, 1e-15);
    beam_free(&of);
}
END_TEST

START_TEST(beyond_a_strong_insert_the_bare_tube_governs)
{
    beam of = beam_cantilever(square_tube(0.03, 0.002), 235e6, 0.5, 100.0);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.025), beam_material(235e6, 0.0));
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.1, plug, TRIVET_TOGETHER, NULL),
                     TRIVET_OK);
    beam_check(&of);
    const trivet_section *const tube = trivet_frame_section(of.frame, 0);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    near_scaled(check.at, 0.1, 1e-9, 1.0);
    /* The outermost fibre carries P (L - 0.1) z/I; a corner with some shear may carry more. */
    const double bending = 40.0 * 0.015 / tube->second_moment[0];
    ck_assert_msg(check.demand >= bending * (1.0 - ROUND) && check.demand < bending * 1.01,
                  "%g, bending alone %g", check.demand, bending);
    beam_free(&of);
}
END_TEST

START_TEST(unknown_strength_is_listed_and_not_passed)
{
    beam of = beam_cantilever(square_bar(0.02), 0.0, 0.8, 100.0);
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_count(of.checks), 0);
    ck_assert_str_eq(beam_omission(&of, "yield of rail"),
                     "the yield strength of its material is not given");
    ck_assert_int_eq(trivet_checks_overall(of.checks), TRIVET_NOT_CHECKED);
    beam_free(&of);
}
END_TEST

START_TEST(section_values_without_moduli_are_listed_and_not_passed)
{
    trivet_profile profile;
    ck_assert_int_eq(trivet_profile_defaults(&profile, sizeof profile), TRIVET_OK);
    profile.shape = TRIVET_SHAPE_GIVEN_VALUES;
    profile.given_area = 1e-4;
    profile.given_second_moment[0] = 1e-8;
    profile.given_second_moment[1] = 1e-8;
    profile.given_torsion_constant = 2e-8;
    beam of = beam_cantilever(profile, 235e6, 0.8, 100.0);
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_count(of.checks), 0);
    ck_assert_ptr_nonnull(beam_omission(&of, "yield of rail"));
    beam_free(&of);
}
END_TEST

START_TEST(unknown_strength_of_an_insert_is_listed_beside_the_tube)
{
    beam of = beam_cantilever(square_tube(0.03, 0.002), 235e6, 0.5, 100.0);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.025), beam_material(0.0, 0.0));
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.1, plug, TRIVET_TOGETHER, NULL),
                     TRIVET_OK);
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_count(of.checks), 1);
    ck_assert_ptr_nonnull(beam_omission(&of, "yield of the insert in rail"));
    beam_free(&of);
}
END_TEST

START_TEST(a_limit_of_one_and_a_half_is_the_default_and_can_be_changed)
{
    beam of = beam_cantilever(square_bar(0.02), 90e6, 0.8, 100.0);
    of.limits.yield = 1.0;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    near_relative(check.limit, 90e6, 1e-15);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("check_yield",
                     TESTS(cantilever_is_worst_at_its_clamp, line_load_is_worst_between_the_joints,
                           round_bar_under_bending_and_twist_matches_the_shaft_formula,
                           the_border_of_a_soft_zone_governs,
                           away_from_welds_the_full_strength_counts,
                           insert_and_tube_share_the_moment_by_stiffness,
                           beyond_a_strong_insert_the_bare_tube_governs,
                           unknown_strength_is_listed_and_not_passed,
                           section_values_without_moduli_are_listed_and_not_passed,
                           unknown_strength_of_an_insert_is_listed_beside_the_tube,
                           a_limit_of_one_and_a_half_is_the_default_and_can_be_changed));
}
