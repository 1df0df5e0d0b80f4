/*
 * Hand calculations held against results. The arm: square bar 20 mm of S235, E = 210000 N/mm^2,
 * I = 20^4/12 = 13333.3 mm^4, L = 300 mm, 100 N at its tip.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

static answered solve_with(const char *expect)
{
    char text[4096];
    snprintf(text, sizeof text,
             "trivet: 1\n"
             "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
             "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
             "tubes: {arm: {through: [A, B], stock: rail}}\n"
             "mounts: {A: {hold: all, limit: {moment: 60 N*m, push: 200 N}}}\n"
             "limits: {yield: 1.5, droop: 1 mm}\n"
             "cases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n"
             "combine: {twice: {tip: 2}}\n"
             "expect:\n%s",
             expect);
    return answer_good(text);
}

/* The same arm screwed on, with the maker's rating of the rack. */
static answered solve_screwed(const char *expect)
{
    char text[4096];
    snprintf(text, sizeof text,
             "trivet: 1\n"
             "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
             "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
             "tubes: {arm: {through: [A, B], stock: rail, ends: {B: {bolts: {thread: M8, grade: "
             "8.8}}}}}\n"
             "mounts: {A: {hold: all, bolts: {thread: M6, grade: 8.8, torque: 9 N*m, nut factor: "
             "0.2, scatter: 25 %%}}}\n"
             "limits: {rack rating: 10 kg}\n"
             "cases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n"
             "cycles: {bumps: {to: tip}}\n"
             "expect:\n%s",
             expect);
    return answer_good(text);
}

static trivet_expectation look_at(const answered *it, int32_t index)
{
    trivet_expectation about;
    ck_assert_int_eq(trivet_expectation_defaults(&about, sizeof about), TRIVET_OK);
    ck_assert_int_eq(
        trivet_document_expect(it->document, it->result, it->checks, index, &about, NULL),
        TRIVET_OK);
    return about;
}

/* All expectations agree, and there are count of them. */
static void check_agree(answered it, int32_t count)
{
    ck_assert_int_eq(trivet_document_expectation_count(it.document), count);
    for (int32_t i = 0; i < count; i++) {
        const trivet_expectation about = look_at(&it, i);
        ck_assert_msg(about.agrees == 1, "number %d, %s: by hand %.9g, computed %.9g", (int)i,
                      about.what, about.by_hand, about.computed);
        ck_assert_str_eq(about.hint, "");
    }
    free_answered(&it);
}

static void check_all(const char *expect, int32_t count)
{
    check_agree(solve_with(expect), count);
}

/* The only expectation, about the arm, does not agree, and this is said of it. */
static void check_hint(const char *expect, const char *hint)
{
    answered it = solve_with(expect);
    const trivet_expectation about = look_at(&it, 0);
    ck_assert_int_eq(about.agrees, 0);
    ck_assert_msg(strcmp(about.hint, hint) == 0, "%s: by hand %.9g, computed %.9g, said \"%s\"",
                  about.what, about.by_hand, about.computed, about.hint);
    free_answered(&it);
}

START_TEST(movements_agree_with_the_handbook)
{
    /* F L^3 / (3 E I) = 0.321429 mm, turn F L^2 / (2 E I) = 1.607143e-3 rad (without shear, which
       adds 3 E I / (G A_s L^2), below half a percent here); at half the arm 5/16 of the tip */
    check_all("  - {what: droop, at: B, case: tip, value: 0.321429 mm, within: 0.5 %}\n"
              "  - {what: droop, at: arm, case: tip, value: 0.321429 mm}\n"
              "  - {what: droop, at: arm, from: 50 %, case: tip, value: 0.100446 mm}\n"
              "  - {what: move z, at: B, case: tip, value: -0.321429 mm}\n"
              "  - {what: move z, at: arm, from: 150 mm, case: tip, value: -0.100446 mm}\n"
              "  - {what: move y, at: B, case: tip, value: 0, within: 1e-9 mm}\n"
              "  - {what: turn y, at: B, case: tip, value: 1.607143e-3 rad, within: 1e-6}\n"
              "  - {what: droop, at: B, case: twice, value: 0.642858 mm}\n",
              8);
}
END_TEST

START_TEST(forces_agree_with_equilibrium)
{
    /* on the face whose outward normal is +x stands what the rest of the arm does to it: the tip's
       load, down, with its moment r x F about y, 0.3 * 100 at the mount */
    check_all("  - {what: reaction z, at: A, case: tip, value: 100 N, within: 1e-9}\n"
              "  - {what: reaction my, at: A, case: tip, value: -30 N*m, within: 1e-9}\n"
              "  - {what: reaction x, at: A, case: tip, value: 0, within: 1e-9 N}\n"
              "  - {what: My, at: arm, case: tip, value: 30 N*m, within: 1e-9}\n"
              "  - {what: My, at: arm, from: 0, case: tip, value: 30 N*m, within: 1e-9}\n"
              "  - {what: My, at: arm, from: 100 mm, case: tip, value: 20 N*m, within: 1e-9}\n"
              "  - {what: Vz, at: arm, case: twice, value: 200 N, within: 1e-9}\n"
              "  - {what: Vz, at: arm, from: 100 %, case: tip, value: -100 N, within: 1e-9}\n"
              "  - {what: N, at: arm, case: tip, value: 0, within: 1e-9 N}\n",
              9);
}
END_TEST

START_TEST(checks_and_mass_agree)
{
    /* sigma = 30000 / (20^3/6) = 22.5 N/mm^2, of 235/1.5 used 14.36 %; moment 30 of 60 N m;
       mass 0.02^2 * 0.3 * 7850 = 0.942 kg */
    check_all("  - {what: stress, at: arm, case: tip, value: 22.5 MPa, within: 1 %}\n"
              "  - {what: utilisation, at: arm, case: tip, value: 14.36 %}\n"
              "  - {what: utilisation, at: arm, check: droop, case: tip, value: 32.1429 %}\n"
              "  - {what: utilisation, at: A, check: mount moment, case: twice, value: 1}\n"
              "  - {what: utilisation, at: A, check: mount push, case: tip, value: 0.5}\n"
              "  - {what: mass, value: 942 g, within: 1e-9}\n",
              6);
}
END_TEST

START_TEST(section_values_agree_with_handbooks)
{
    /* a square of a = 20 mm: a^2, a^4/12, a^3/6, a^3/4, a/sqrt(12), 7850 a^2; shear area by 10 (1 +
       nu) / (12 + 11 nu) with nu = 0.3, Cowper 1966; twist 0.1406 a^4 and 0.208 a^3, Timoshenko and
       Goodier, Theory of Elasticity, table of rectangular bars (from memory) */
    check_all("  - {what: section area, at: rail, value: 400 mm^2, within: 1e-9}\n"
              "  - {what: shear area y, at: rail, value: 339.87 mm^2, within: 1e-4}\n"
              "  - {what: shear area z, at: rail, value: 339.87 mm^2, within: 1e-4}\n"
              "  - {what: second moment y, at: rail, value: 13333.333 mm^4, within: 1e-6}\n"
              "  - {what: second moment z, at: rail, value: 13333.333 mm^4, within: 1e-6}\n"
              "  - {what: section modulus y, at: rail, value: 1333.3333 mm^3, within: 1e-6}\n"
              "  - {what: section modulus z, at: rail, value: 1333.3333 mm^3, within: 1e-6}\n"
              "  - {what: plastic modulus y, at: rail, value: 2000 mm^3, within: 1e-9}\n"
              "  - {what: plastic modulus z, at: rail, value: 2000 mm^3, within: 1e-9}\n"
              "  - {what: torsion constant, at: rail, value: 22496 mm^4, within: 8 mm^4}\n"
              "  - {what: torsion modulus, at: rail, value: 1664 mm^3, within: 4 mm^3}\n"
              "  - {what: radius of gyration y, at: rail, value: 5.7735027, within: 1e-6}\n"
              "  - {what: radius of gyration z, at: rail, value: 5.7735027, within: 1e-6}\n"
              "  - {what: mass per length, at: rail, value: 3.14 kg/m, within: 1e-9}\n",
              14);
}
END_TEST

START_TEST(demands_and_limits_agree)
{
    /* 30000 / (20^3/6) and 235 / 1.5; without a case the worst of all: twice the load */
    check_all("  - {what: demand, at: arm, case: tip, value: 22.5 MPa, within: 1 %}\n"
              "  - {what: demand, at: arm, value: 45 MPa, within: 1 %}\n"
              "  - {what: limit, check: yield, at: arm, value: 156.667 MPa, within: 0.001 MPa}\n"
              "  - {what: demand, check: mount push, at: A, case: tip, value: 100, within: 1e-6}\n"
              "  - {what: demand, check: mount moment, at: A, value: 60 N*m, within: 1e-6}\n"
              "  - {what: limit, check: mount moment, at: A, value: 60 N*m, within: 1e-9}\n"
              "  - {what: demand, check: droop, at: arm, case: tip, value: 0.3214}\n"
              "  - {what: limit, check: droop, at: arm, value: 1, within: 1e-9}\n",
              8);
}
END_TEST

START_TEST(screws_and_ratings_agree)
{
    /* M6: A_s = 20.12 mm^2 (ISO 898-1), 8.8: proof strength 580 MPa; T = K F d with F = 0.75 of
       proof: 0.2 * 0.75 * 580 * 20.12 * 6 = 10503 N mm. At 9 N m, F = 9000 / (0.2 * 6) = 7500 N,
       a quarter less or more. M8: A_s = 36.61 mm^2. */
    check_agree(solve_screwed(
                    "  - {what: torque table, at: A, value: 10.503 N*m, within: 0.1 %}\n"
                    "  - {what: preload, at: A, value: 7500, within: 1e-9}\n"
                    "  - {what: least preload, at: A, value: 5625, within: 1e-9}\n"
                    "  - {what: most preload, at: A, value: 9375, within: 1e-9}\n"
                    "  - {what: torque table, at: arm, joint: B, value: 25.48 N*m, within: 0.1 %}\n"
                    "  - {what: demand, check: rack rating, value: 0.942, within: 1e-9}\n"
                    "  - {what: limit, check: rack rating, value: 10 kg, within: 1e-9}\n"
                    "  - {what: utilisation, check: rack rating, value: 9.42 %, within: 1e-9}\n"),
                8);
}
END_TEST

START_TEST(a_wrong_hand_calculation_is_told)
{
    answered it = solve_with("  - {what: reaction z, at: A, case: tip, value: 80 N, within: 5 %, "
                             "by: a slip}\n"
                             "  - {what: reaction z, at: A, case: tip, value: 98 N, within: 3 N}\n"
                             "  - {what: reaction y, at: A, case: tip, value: 0, within: 1 N}\n");
    const trivet_expectation wrong = look_at(&it, 0);
    ck_assert_int_eq(wrong.agrees, 0);
    ck_assert_str_eq(wrong.what, "reaction z");
    ck_assert_str_eq(wrong.where, "A");
    ck_assert_str_eq(wrong.in_case, "tip");
    ck_assert_str_eq(wrong.by, "a slip");
    ck_assert_int_eq(wrong.dimension, TRIVET_FORCE);
    near_relative(wrong.by_hand, 80.0, 1e-15);
    near_relative(wrong.computed, 100.0, 1e-9);
    near_relative(wrong.difference, 0.25, 1e-8);
    near_relative(wrong.within, 0.05, 1e-15);
    const trivet_expectation near_enough = look_at(&it, 1);
    ck_assert_int_eq(near_enough.agrees, 1);
    near_relative(near_enough.within, 3.0 / 98.0, 1e-12);
    ck_assert_int_eq(look_at(&it, 2).agrees, 1);
    free_answered(&it);
}
END_TEST

START_TEST(a_hint_names_what_the_numbers_show)
{
    /* true: reaction 100 N, moment -30 N m, droop 0.3214 mm, I 13333 mm^4, area 400 mm^2, turn
       0.001607 rad */
    check_hint("  - {what: reaction z, at: A, case: tip, value: 10.197 N}\n",
               "looks like mass was taken for force (a factor 9.807)");
    check_hint("  - {what: reaction z, at: A, case: tip, value: 980.665 N}\n",
               "looks like g was put in once too often (a factor 1/9.807)");
    check_hint("  - {what: mass, value: 9.238 kg}\n",
               "looks like force was taken for mass (a factor 1/9.807)");
    check_hint("  - {what: reaction my, at: A, case: tip, value: -1.1811 N*m}\n",
               "looks like inches and millimetres were mixed up (a factor 25.4)");
    check_hint("  - {what: section area, at: rail, value: 0.62 mm^2}\n",
               "looks like inches and millimetres were mixed up, squared (a factor 645.2)");
    check_hint("  - {what: section modulus y, at: rail, value: 1333.33 * 16387 mm^3}\n",
               "looks like inches and millimetres were mixed up, to the third power (a factor "
               "1/1.639e+04)");
    check_hint(
        "  - {what: droop, at: B, case: tip, value: 0.3221 m}\n",
        "looks like a unit was mixed up with one a thousand times as large, such as mm and m "
        "(a factor 1/1000)");
    check_hint(
        "  - {what: stress, at: arm, case: tip, value: 22.5 Pa}\n",
        "looks like units were mixed up, such as N/mm^2 and N/m^2, or mm^2 and m^2 (a factor "
        "1e+06)");
    check_hint("  - {what: turn y, at: B, case: tip, value: 0.09208 rad}\n",
               "looks like degrees and radians were mixed up (a factor 1/57.3)");
    check_hint("  - {what: reaction z, at: A, case: tip, value: 50 N}\n",
               "looks like one of two was left out or counted twice, or diameter was taken for "
               "radius (a factor 2)");
    check_hint("  - {what: section area, at: rail, value: 1600 mm^2}\n",
               "looks like diameter was taken for radius, or a length for half of it, in a square "
               "(a factor 1/4)");
    check_hint("  - {what: section modulus y, at: rail, value: 10667 mm^3}\n",
               "looks like diameter was taken for radius, or a length for half of it, in a cube (a "
               "factor 1/8)");
    check_hint("  - {what: second moment y, at: rail, value: 833.33 mm^4}\n",
               "looks like diameter was taken for radius, or a length for half of it, in a fourth "
               "power (a factor 16)");
    check_hint("  - {what: reaction my, at: A, case: tip, value: 30 N*m}\n",
               "the same size with the sign turned: x is forward, y left, z up; reactions are what "
               "the mount does to the frame");
    check_hint("  - {what: reaction my, at: A, case: tip, value: 3.0591 N*m}\n",
               "looks like mass was taken for force (a factor 9.807), and the sign is turned");
}
END_TEST

START_TEST(no_hint_where_the_numbers_show_nothing)
{
    /* 3, 1.02 of a factor, 8 in an area, a droop off by 5 % */
    check_hint("  - {what: reaction z, at: A, case: tip, value: 300 N}\n", "");
    check_hint("  - {what: reaction z, at: A, case: tip, value: 10.4 N}\n", "");
    check_hint("  - {what: section area, at: rail, value: 50 mm^2}\n", "");
    check_hint("  - {what: droop, at: B, case: tip, value: 0.3375 mm}\n", "");
    check_hint("  - {what: move y, at: B, case: tip, value: 0.3375 mm}\n", "");
    check_hint("  - {what: reaction z, at: A, case: tip, value: 0, within: 1 N}\n", "");
}
END_TEST

START_TEST(a_hand_formula_without_shear_is_told)
{
    /* An arm of twice its height: F L^3 / (3 E I) = 100 * 40^3 / (3 * 210000 * 13333.3) = 7.619e-4
       mm; shear adds F L / (G A_s) with A_s = 339.9 mm^2: about a fifth. */
    static const char SHORT[] =
        "trivet: 1\n"
        "units: {length: mm}\n"
        "stock: {rail: {shape: square bar, width: 20, material: S235}}\n"
        "joints: {A: [0, 0, 0], B: [40, 0, 0]}\n"
        "tubes: {arm: {through: [A, B], stock: rail}}\n"
        "mounts: {A: {hold: all}}\n"
        "cases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n"
        "expect:\n"
        "  - {what: droop, at: B, case: tip, value: 7.619e-4}\n"
        "  - {what: move z, at: arm, from: 100 %, case: tip, value: -7.619e-4}\n"
        "  - {what: droop, at: arm, case: tip, value: 7.619e-4, within: 30 %}\n"
        "  - {what: droop, at: arm, case: tip, value: 7.2e-4}\n";
    answered it = answer_good(SHORT);
    ck_assert_str_eq(look_at(&it, 0).hint, "the hand formula leaves out shear: without it the "
                                           "computed value is 0.0007619 mm");
    ck_assert_str_eq(look_at(&it, 1).hint, "the hand formula leaves out shear: without it the "
                                           "computed value is -0.0007619 mm");
    ck_assert_str_eq(look_at(&it, 2).hint, "");
    ck_assert_str_eq(look_at(&it, 3).hint, "");
    ck_assert_int_eq(look_at(&it, 0).agrees, 0);
    ck_assert_int_eq(look_at(&it, 2).agrees, 1);
    free_answered(&it);
}
END_TEST

START_TEST(a_check_that_was_not_made_is_told)
{
    answered it = solve_with("  - {what: demand, check: weld, at: arm, joint: A, value: 10 MPa}\n");
    const trivet_expectation about = look_at(&it, 0);
    ck_assert_int_eq(about.agrees, 0);
    ck_assert(isnan(about.computed));
    near_relative(about.by_hand, 10e6, 1e-12);
    ck_assert_int_eq(about.dimension, TRIVET_STRESS);
    ck_assert_str_eq(about.where, "arm at A");
    ck_assert_str_eq(about.hint, "no such check was made there: see what was not checked");
    free_answered(&it);
}
END_TEST

START_TEST(a_demand_in_the_wrong_unit_is_refused)
{
    static const char *const WRONG[] = {
        "  - {what: demand, check: mount push, at: A, value: 10 N*m}\n",
        "  - {what: demand, check: yield, at: arm, value: 10}\n",
        "  - {what: demand, check: yield, at: arm, value: 10 MPa, within: 1 mm}\n",
    };
    for (size_t i = 0; i < sizeof WRONG / sizeof WRONG[0]; i++) {
        answered it = solve_with(WRONG[i]);
        trivet_expectation about = {.size = sizeof about};
        trivet_message message;
        ck_assert_int_eq(
            trivet_document_expect(it.document, it.result, it.checks, 0, &about, &message),
            TRIVET_BAD_UNIT);
        ck_assert_str_eq(message.thing, "expect 1");
        ck_assert_int_eq(message.line, 10);
        if (i == 0) {
            ck_assert_str_eq(message.problem,
                             "the demand of the check \"mount push\" there is a force");
            ck_assert_str_eq(message.remedy, "give \"value\" in N, and \"within\" in N or %");
        }
        free_answered(&it);
    }
}
END_TEST

START_TEST(arguments_are_checked)
{
    answered it = solve_with("  - {what: mass, value: 1 kg}\n");
    trivet_expectation about;
    trivet_message message;
    ck_assert_int_eq(trivet_expectation_defaults(NULL, 1), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_expectation_defaults(&about, sizeof about - 1), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_expectation_defaults(&about, sizeof about), TRIVET_OK);
    ck_assert_int_eq(trivet_document_expect(it.document, it.result, it.checks, 1, &about, &message),
                     TRIVET_BAD_INDEX);
    ck_assert_str_eq(message.thing, "expectation number 1");
    ck_assert_int_eq(trivet_document_expect(it.document, it.result, it.checks, -1, &about, NULL),
                     TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_document_expect(it.document, NULL, it.checks, 0, &about, NULL),
                     TRIVET_MISSING_ARGUMENT);
    about.size = 0;
    ck_assert_int_eq(trivet_document_expect(it.document, it.result, it.checks, 0, &about, NULL),
                     TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_document_expectation_count(NULL), 0);
    free_answered(&it);
}
END_TEST

int main(void)
{
    return run_tests("expect",
                     TESTS(movements_agree_with_the_handbook, forces_agree_with_equilibrium,
                           checks_and_mass_agree, section_values_agree_with_handbooks,
                           demands_and_limits_agree, screws_and_ratings_agree,
                           a_wrong_hand_calculation_is_told, a_hint_names_what_the_numbers_show,
                           no_hint_where_the_numbers_show_nothing,
                           a_hand_formula_without_shear_is_told, a_check_that_was_not_made_is_told,
                           a_demand_in_the_wrong_unit_is_refused, arguments_are_checked));
}
