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
static void check_all(const char *expect, int32_t count)
{
    answered it = solve_with(expect);
    ck_assert_int_eq(trivet_document_expectation_count(it.document), count);
    for (int32_t i = 0; i < count; i++) {
        const trivet_expectation about = look_at(&it, i);
        ck_assert_msg(about.agrees == 1, "number %d, %s: by hand %.9g, computed %.9g", (int)i,
                      about.what, about.by_hand, about.computed);
    }
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
    return run_tests("expect", TESTS(movements_agree_with_the_handbook,
                                     forces_agree_with_equilibrium, checks_and_mass_agree,
                                     a_wrong_hand_calculation_is_told, arguments_are_checked));
}
