/*
 * The working in words, and picking the checks that answer a question. That the numbers of every
 * kind of check give its result is looked at in tests/cli/test_explain.py.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

/* 20 x 20 mm, 300 mm long, 100 N at its tip: W = 20^3/6, 30000 N mm, 22.5 N/mm^2 of 235/1.5. */
static beam arm(void)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.3, 100.0);
    of.limits.droop = 1e-3;
    beam_check(&of);
    return of;
}

static int32_t find(const beam *of, const char *kind)
{
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &check), TRIVET_OK);
        if (strcmp(check.check, kind) == 0) {
            return i;
        }
    }
    ck_abort_msg("no check of %s", kind);
    return -1;
}

/* The line of a symbol in the working of a kind of check. */
static void line_of(const beam *of, const char *kind, const char *symbol, const trivet_units *units,
                    char text[256])
{
    const int32_t index = find(of, kind);
    trivet_step step = {.size = sizeof step};
    for (int32_t i = 0; trivet_checks_step(of->checks, index, i, &step) == TRIVET_OK; i++) {
        if (strcmp(step.symbol, symbol) == 0) {
            trivet_checks_step_text(of->checks, index, i, units, text, 256);
            return;
        }
    }
    ck_abort_msg("no line %s", symbol);
}

static void check_line(const beam *of, const trivet_units *units, const char *symbol,
                       const char *line)
{
    char text[256];
    line_of(of, "yield", symbol, units, text);
    ck_assert_str_eq(text, line);
}

START_TEST(lines_stand_in_mm_and_newton)
{
    beam of = arm();
    check_line(&of, NULL, "My", "My = 30000 N*mm");
    check_line(&of, NULL, "Iyy", "Iyy = 13333.3 mm^4");
    check_line(&of, NULL, "sigma_My",
               "sigma_My = My * z / Iyy = 30000 N*mm * 10 mm / 13333.3 mm^4 = 22.5 N/mm^2");
    check_line(&of, NULL, "limit", "limit = f_y / n = 235 N/mm^2 / 1.5 = 156.667 N/mm^2");
    check_line(&of, NULL, "n", "n = 1.5");
    beam_free(&of);
}
END_TEST

START_TEST(lines_stand_in_inches_and_pounds)
{
    /* 100 N = 22.4809 lbf, 300 mm = 11.811 in; 235 N/mm^2 = 34083.9 psi */
    beam of = arm();
    trivet_units units = {.size = sizeof units};
    ck_assert_int_eq(trivet_units_defaults(&units, sizeof units), TRIVET_OK);
    snprintf(units.length, sizeof units.length, "in");
    snprintf(units.force, sizeof units.force, "lbf");
    check_line(&of, &units, "My", "My = 265.522 lbf*in");
    check_line(&of, &units, "limit", "limit = f_y / n = 34083.9 lbf/in^2 / 1.5 = 22722.6 lbf/in^2");
    beam_free(&of);
}
END_TEST

START_TEST(what_is_nothing_is_written_as_nothing)
{
    beam of = arm();
    check_line(&of, NULL, "N", "N = 0 N");
    check_line(&of, NULL, "Vy", "Vy = 0 N");
    check_line(&of, NULL, "T", "T = 0 N*mm");
    check_line(&of, NULL, "sigma_N", "sigma_N = N / A = 0 N / 400 mm^2 = 0 N/mm^2");
    beam_free(&of);
}
END_TEST

START_TEST(brackets_stand_where_a_sign_would_mislead)
{
    char text[256];
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.3, 100.0);
    beam_force(&of, 0, 1, 0.0, -50.0, 0.0);
    beam_check(&of);
    line_of(&of, "yield", "tau_V", NULL, text);
    ck_assert_msg(!strstr(text, "* -") && !strstr(text, "+ -") && !strstr(text, "- -") &&
                      !strstr(text, "(("),
                  "%s", text);
    line_of(&of, "yield", "sigma_v", NULL, text);
    ck_assert_msg(strstr(text, " N/mm^2)^2 + 3 * ("), "%s", text);
    beam_free(&of);
}
END_TEST

START_TEST(text_is_cut_to_the_room_there_is)
{
    beam of = arm();
    char text[8] = "unused";
    ck_assert_uint_eq(trivet_checks_step_text(of.checks, 0, -1, NULL, text, sizeof text), 0);
    ck_assert_str_eq(text, "");
    ck_assert_uint_eq(trivet_checks_step_text(of.checks, 0, 1000, NULL, text, sizeof text), 0);
    ck_assert_uint_eq(trivet_checks_step_text(of.checks, -1, 0, NULL, text, sizeof text), 0);
    ck_assert_uint_eq(trivet_checks_step_text(NULL, 0, 0, NULL, text, sizeof text), 0);
    const int32_t index = find(&of, "yield");
    const size_t needed = trivet_checks_step_text(of.checks, index, 4, NULL, NULL, 0);
    ck_assert_uint_eq(needed, strlen("My = 30000 N*mm"));
    ck_assert_uint_eq(trivet_checks_step_text(of.checks, index, 4, NULL, text, sizeof text),
                      needed);
    ck_assert_str_eq(text, "My = 30");
    beam_free(&of);
}
END_TEST

START_TEST(without_a_name_the_governing_check_is_picked)
{
    beam of = arm();
    int32_t indices[4] = {-1, -1, -1, -1};
    double most = -1.0;
    int32_t worst = -1;
    for (int32_t i = 0; i < trivet_checks_count(of.checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(of.checks, i, &check), TRIVET_OK);
        if (check.utilisation > most) {
            most = check.utilisation;
            worst = i;
        }
    }
    ck_assert_int_eq(trivet_checks_select(of.checks, NULL, indices, 4), 1);
    ck_assert_int_eq(indices[0], worst);
    ck_assert_int_eq(indices[1], -1);
    ck_assert_int_eq(trivet_checks_select(NULL, NULL, indices, 4), 0);
    beam_free(&of);
}
END_TEST

/* The worst of each kind at each joint: no kind twice at one place, and none left out. */
START_TEST(with_a_name_the_worst_of_each_kind_is_picked)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.3, 100.0);
    const int32_t twice = beam_case(&of, "twice");
    beam_force(&of, twice, 1, 0.0, 0.0, -200.0);
    of.limits.droop = 1e-3;
    beam_check(&of);
    int32_t indices[16];
    const int32_t count = trivet_checks_select(of.checks, "rail", indices, 16);
    int yields = 0;
    int droops = 0;
    ck_assert_int_ge(count, 2);
    ck_assert_int_le(count, 16);
    for (int32_t i = 0; i < count; i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(of.checks, indices[i], &check), TRIVET_OK);
        ck_assert(i == 0 || indices[i] > indices[i - 1]);
        ck_assert_str_eq(check.where, "rail");
        if (strcmp(check.check, "yield") == 0 || strcmp(check.check, "droop") == 0) {
            ck_assert_str_eq(check.in_case, "twice");
        }
        yields += strcmp(check.check, "yield") == 0;
        droops += strcmp(check.check, "droop") == 0;
    }
    ck_assert_int_eq(yields, 1);
    ck_assert_int_eq(droops, 1);
    ck_assert_int_eq(trivet_checks_select(of.checks, "rail", NULL, 0), count);
    ck_assert_int_eq(trivet_checks_select(of.checks, "yield", indices, 16), 1);
    ck_assert_int_eq(trivet_checks_select(of.checks, "rial", indices, 16), 0);
    ck_assert_int_eq(trivet_checks_select(of.checks, "", indices, 16), 0);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "explain",
        TESTS(lines_stand_in_mm_and_newton, lines_stand_in_inches_and_pounds,
              what_is_nothing_is_written_as_nothing, brackets_stand_where_a_sign_would_mislead,
              text_is_cut_to_the_room_there_is, without_a_name_the_governing_check_is_picked,
              with_a_name_the_worst_of_each_kind_is_picked));
}
