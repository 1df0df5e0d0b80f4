/*
 * The list of checks: order, verdicts, limits, sizes of structs, bad calls.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

START_TEST(defaults_take_their_size_and_no_other)
{
    defaults_take_own_size(trivet_limits, trivet_limits_defaults);
    defaults_take_own_size(trivet_check, trivet_check_defaults);
    defaults_take_own_size(trivet_step, trivet_step_defaults);
    defaults_take_own_size(trivet_check_group, trivet_check_group_defaults);
}
END_TEST

START_TEST(default_limits_are_what_the_header_says)
{
    trivet_limits limits;
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    ck_assert(limits.yield == 1.5);
    ck_assert(limits.tight == 0.85);
    ck_assert(isnan(limits.droop));
    ck_assert(isnan(limits.droop_ratio));
}
END_TEST

/* Bar of 20 mm, 0.8 m: 60 MPa at 100 N (6 P L/h^3); yield over 1.5 is the limit. */
static int32_t verdict_at(double used)
{
    beam of = beam_cantilever(square_bar(0.02), 60e6 * 1.5 / used, 0.8, 100.0);
    beam_check(&of);
    const int32_t verdict = trivet_checks_overall(of.checks);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_OVERLOAD, NULL), verdict);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_CRACKING, NULL),
                     TRIVET_NOT_CHECKED);
    beam_free(&of);
    return verdict;
}

START_TEST(verdicts_change_at_tight_and_at_the_limit)
{
    ck_assert_int_eq(verdict_at(0.5), TRIVET_HOLDS);
    ck_assert_int_eq(verdict_at(0.8499), TRIVET_HOLDS);
    ck_assert_int_eq(verdict_at(0.8501), TRIVET_TIGHT);
    ck_assert_int_eq(verdict_at(0.9999), TRIVET_TIGHT);
    ck_assert_int_eq(verdict_at(1.0001), TRIVET_FAILS);
    ck_assert_int_eq(verdict_at(3.0), TRIVET_FAILS);
}
END_TEST

START_TEST(verdicts_have_words)
{
    ck_assert_str_eq(trivet_verdict_text(TRIVET_NOT_CHECKED), "not checked");
    ck_assert_str_eq(trivet_verdict_text(TRIVET_HOLDS), "holds");
    ck_assert_str_eq(trivet_verdict_text(TRIVET_TIGHT), "tight");
    ck_assert_str_eq(trivet_verdict_text(TRIVET_MAY_CRACK), "may crack");
    ck_assert_str_eq(trivet_verdict_text(TRIVET_FAILS), "fails");
    ck_assert_str_eq(trivet_verdict_text(-1), "not checked");
    ck_assert_str_eq(trivet_verdict_text(5), "not checked");
}
END_TEST

START_TEST(checks_stand_by_line_then_worst_first)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    for (int i = 0; i < 6; i++) {
        char name[24];
        const double pushes[6] = {70.0, 150.0, 20.0, 210.0, 90.0, 150.0};
        snprintf(name, sizeof name, "case %d", i);
        beam_force(&of, beam_case(&of, name), 1, 0.0, 0.0, -pushes[i]);
    }
    of.limits.droop = 0.02;
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_count(of.checks), 14);
    trivet_check before = {.size = sizeof before};
    ck_assert_int_eq(trivet_checks_at(of.checks, 0, &before), TRIVET_OK);
    ck_assert_str_eq(before.in_case, "case 3");
    for (int32_t i = 1; i < trivet_checks_count(of.checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(of.checks, i, &check), TRIVET_OK);
        ck_assert(check.line > before.line ||
                  (check.line == before.line && check.utilisation <= before.utilisation));
        before = check;
    }
    int32_t worst = -1;
    trivet_checks_verdict(of.checks, TRIVET_LINE_SERVICE, &worst);
    ck_assert_int_eq(worst, 7);
    beam_free(&of);
}
END_TEST

START_TEST(limits_out_of_range_are_refused_by_name)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    trivet_message message;
    beam_check(&of);
    const double bad[] = {0.99, 0.0, -1.0, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        trivet_checks *checks = of.checks;
        trivet_limits limits = of.limits;
        limits.yield = bad[i];
        ck_assert_int_eq(trivet_checks_new(of.frame, of.result, &limits, &checks, &message),
                         TRIVET_BAD_VALUE);
        ck_assert_ptr_null(checks);
        ck_assert_str_eq(message.thing, "limits, yield");
    }
    trivet_checks *checks = NULL;
    trivet_limits limits = of.limits;
    limits.droop = 0.0;
    ck_assert_int_eq(trivet_checks_new(of.frame, of.result, &limits, &checks, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, "limits, droop");
    limits = of.limits;
    limits.droop_ratio = -0.1;
    ck_assert_int_eq(trivet_checks_new(of.frame, of.result, &limits, &checks, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, "limits, droop ratio");
    limits = of.limits;
    limits.tight = 1.01;
    ck_assert_int_eq(trivet_checks_new(of.frame, of.result, &limits, &checks, NULL),
                     TRIVET_BAD_VALUE);
    limits = of.limits;
    limits.size--;
    ck_assert_int_eq(trivet_checks_new(of.frame, of.result, &limits, &checks, &message),
                     TRIVET_BAD_SIZE);
    beam_free(&of);
}
END_TEST

START_TEST(null_limits_are_the_defaults)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    trivet_checks *checks = NULL;
    beam_check(&of);
    ck_assert_int_eq(trivet_checks_new(of.frame, of.result, NULL, &checks, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_checks_count(checks), trivet_checks_count(of.checks));
    trivet_checks_free(checks);
    beam_free(&of);
}
END_TEST

START_TEST(wrong_calls_get_a_status)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    trivet_plan *plan = NULL;
    trivet_result *empty = NULL;
    trivet_checks *checks = NULL;
    trivet_message message;
    ck_assert_int_eq(trivet_plan_new(of.frame, &plan, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_result_new(plan, &empty, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_checks_new(of.frame, empty, NULL, &checks, &message), TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet_checks_new(NULL, empty, NULL, &checks, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_new(of.frame, NULL, NULL, &checks, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_new(of.frame, empty, NULL, NULL, &message),
                     TRIVET_MISSING_ARGUMENT);
    trivet_result_free(empty);
    trivet_plan_free(plan);
    beam_check(&of);
    trivet_check check = {.size = sizeof check};
    trivet_step step = {.size = sizeof step};
    ck_assert_int_eq(trivet_checks_at(of.checks, 1, &check), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_at(of.checks, -1, &check), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_at(NULL, 0, &check), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_at(of.checks, 0, NULL), TRIVET_MISSING_ARGUMENT);
    check.size = 7;
    ck_assert_int_eq(trivet_checks_at(of.checks, 0, &check), TRIVET_BAD_SIZE);
    check.size = sizeof check;
    ck_assert_int_eq(trivet_checks_at(of.checks, 0, &check), TRIVET_OK);
    ck_assert_int_eq(trivet_checks_step(of.checks, 0, check.step_count, &step), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_step(of.checks, 0, -1, &step), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_step(of.checks, 1, 0, &step), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_step(of.checks, 0, 0, NULL), TRIVET_MISSING_ARGUMENT);
    step.size++;
    ck_assert_int_eq(trivet_checks_step(of.checks, 0, 0, &step), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_checks_count(NULL), 0);
    ck_assert_int_eq(trivet_checks_omission_count(NULL), 0);
    ck_assert_int_eq(trivet_checks_overall(NULL), TRIVET_NOT_CHECKED);
    trivet_checks_free(NULL);
    beam_free(&of);
}
END_TEST

START_TEST(what_no_check_looks_at_is_always_listed)
{
    static const char *const WHAT[] = {"bolts", "buckling", "bumps and vibration",
                                       "lowest frequency"};
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    beam_check(&of);
    for (size_t i = 0; i < sizeof WHAT / sizeof WHAT[0]; i++) {
        ck_assert_msg(beam_omission(&of, WHAT[i]) != NULL, "%s is not listed", WHAT[i]);
    }
    ck_assert_ptr_null(beam_omission(&of, "twist of angles and channels"));
    const int32_t count = trivet_checks_omission_count(of.checks);
    int32_t line = 7;
    const char *why = "";
    ck_assert_ptr_null(trivet_checks_omission(of.checks, count, &line, &why));
    ck_assert_int_eq(line, -1);
    ck_assert_ptr_null(why);
    beam_free(&of);
}
END_TEST

START_TEST(an_angle_is_said_to_twist)
{
    beam of = beam_cantilever(angle_bar(0.04, 0.03, 0.004), 235e6, 0.5, 50.0);
    beam_check(&of);
    ck_assert_ptr_nonnull(beam_omission(&of, "twist of angles and channels"));
    beam_free(&of);
}
END_TEST

/* How many checks have the name of another, and how many of them fail. */
static int32_t count_alike(const trivet_checks *checks, const char *name, int32_t *failing_out)
{
    int32_t alike = 0;
    *failing_out = 0;
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(checks, i, &check), TRIVET_OK);
        if (strcmp(check.check, name) == 0) {
            alike++;
            *failing_out += check.verdict == TRIVET_FAILS || check.verdict == TRIVET_MAY_CRACK;
        }
    }
    return alike;
}

START_TEST(groups_hold_every_check_once_the_most_used_first)
{
    beam of = beam_cantilever(square_bar(0.02), 70e6, 0.8, 100.0);
    of.limits.droop = 0.02;
    beam_check(&of);
    trivet_check_group group = {.size = sizeof group};
    int32_t all = 0;
    double before = HUGE_VAL;
    for (int32_t rank = 0; trivet_checks_group(of.checks, rank, &group) == TRIVET_OK; rank++) {
        trivet_check worst = {.size = sizeof worst};
        int32_t failing = 0;
        ck_assert_int_eq(trivet_checks_at(of.checks, group.worst, &worst), TRIVET_OK);
        ck_assert_int_eq(count_alike(of.checks, worst.check, &failing), group.count);
        ck_assert_int_eq(failing, group.fail_count);
        ck_assert(group.utilisation == worst.utilisation && group.utilisation <= before);
        before = group.utilisation;
        all += group.count;
    }
    ck_assert_int_gt(all, 1);
    ck_assert_int_eq(all, trivet_checks_count(of.checks));
    ck_assert_int_eq(trivet_checks_group(of.checks, -1, &group), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_group(NULL, 0, &group), TRIVET_MISSING_ARGUMENT);
    group.size = 1;
    ck_assert_int_eq(trivet_checks_group(of.checks, 0, &group), TRIVET_BAD_SIZE);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "checks",
        TESTS(defaults_take_their_size_and_no_other, default_limits_are_what_the_header_says,
              verdicts_change_at_tight_and_at_the_limit, verdicts_have_words,
              checks_stand_by_line_then_worst_first, limits_out_of_range_are_refused_by_name,
              null_limits_are_the_defaults, wrong_calls_get_a_status,
              what_no_check_looks_at_is_always_listed, an_angle_is_said_to_twist,
              groups_hold_every_check_once_the_most_used_first));
}
