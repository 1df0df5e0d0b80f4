/*
 * Finding grades of screws. Their printed strengths are compared in values/test_screws.c.
 */
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/stock.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static trivet_grade empty_grade(void)
{
    trivet_grade grade;
    ck_assert_int_eq(trivet_grade_defaults(&grade, sizeof grade), TRIVET_OK);
    return grade;
}

START_TEST(grade_is_found_in_every_spelling)
{
    static const char *const texts[][2] = {
        {"8.8", "8.8"},         {" 8.8 ", "8.8"},      {"A2-70", "A2-70"},
        {"a4-80", "A4-80"},     {"12.9", "12.9"},      {"grade 5", "grade 5"},
        {"Grade 5", "grade 5"}, {"grade8", "grade 8"}, {"a2 -70", "A2-70"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        trivet_grade grade = empty_grade();
        trivet_message message = {0};
        ck_assert_msg(trivet_grade_find(texts[i][0], &grade, &message) == TRIVET_OK, "%s: %s",
                      texts[i][0], message.problem);
        ck_assert_str_eq(grade.name, texts[i][1]);
    }
}
END_TEST

START_TEST(unknown_grade_gets_the_nearest)
{
    static const char *const texts[][2] = {
        {"8.9", "8.8"}, {"A4-90", "A4-70"}, {"grade 6", "grade 2"}, {"10,9", "10.9"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        trivet_grade grade = empty_grade();
        trivet_message message;
        char remedy[64];
        snprintf(remedy, sizeof remedy, "did you mean \"%s\"?", texts[i][1]);
        ck_assert_int_eq(trivet_grade_find(texts[i][0], &grade, &message), TRIVET_BAD_NAME);
        ck_assert_str_eq(message.thing, texts[i][0]);
        ck_assert_str_eq(message.problem, "no built-in grade of screws has this name");
        ck_assert_str_eq(message.remedy, remedy);
        ck_assert_str_eq(grade.name, "");
    }
    trivet_grade grade = empty_grade();
    trivet_message message;
    ck_assert_int_eq(trivet_grade_find("chewing gum", &grade, &message), TRIVET_BAD_NAME);
    ck_assert_ptr_nonnull(strstr(message.remedy, "trivet stock"));
}
END_TEST

/* EN 1993-1-8 tables 3.1 and 3.4, from memory; 9.8 and 12.9 are not in it. */
START_TEST(design_values_are_those_of_the_standard)
{
    static const struct {
        const char *name;
        double tensile; /* MPa */
        double shear_factor;
    } rows[] = {
        {"4.6", 400.0, 0.6}, {"4.8", 400.0, 0.5}, {"5.6", 500.0, 0.6},   {"5.8", 500.0, 0.5},
        {"6.8", 600.0, 0.5}, {"8.8", 800.0, 0.6}, {"10.9", 1000.0, 0.5},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        trivet_grade grade = empty_grade();
        ck_assert_int_eq(trivet_grade_find(rows[i].name, &grade, NULL), TRIVET_OK);
        near_relative(grade.tensile_design, rows[i].tensile * 1e6, 1e-15);
        near_relative(grade.shear_factor, rows[i].shear_factor, 1e-15);
        ck_assert_ptr_nonnull(strstr(grade.source, "EN 1993-1-8"));
    }
    static const char *const outside[] = {"9.8", "12.9"};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        trivet_grade grade = empty_grade();
        ck_assert_int_eq(trivet_grade_find(outside[i], &grade, NULL), TRIVET_OK);
        ck_assert_ptr_nonnull(strstr(grade.source, "not in EN 1993-1-8"));
    }
    trivet_grade inch = empty_grade();
    ck_assert_int_eq(trivet_grade_find("grade 5", &inch, NULL), TRIVET_OK);
    /* 1 ksi is 6.894757 MPa (any table of units). */
    near_relative(inch.proof, 85.0 * 6.894757e6, 1e-7);
}
END_TEST

START_TEST(every_grade_makes_sense)
{
    for (int32_t i = 0; i < trivet_grade_count(); i++) {
        trivet_grade g = empty_grade();
        ck_assert_int_eq(trivet_grade_at(i, &g), TRIVET_OK);
        ck_assert_msg(g.proof > 0.0 && g.proof <= g.yield && g.yield < g.tensile, "%s", g.name);
        ck_assert_msg(g.tensile_design <= g.tensile && g.tensile_design > g.yield, "%s", g.name);
        /* A metric class says its nominal strength and yield: 8.8 is 800 MPa and 0.8 of it. */
        if (g.name[0] >= '1' && g.name[0] <= '9') {
            const double hundreds = strtod(g.name, NULL);
            near_relative(g.tensile_design, 1e8 * floor(hundreds), 1e-15);
        }
        /* Nothing of the source was cut. */
        ck_assert_msg(strlen(g.source) < sizeof g.source - 1, "%s", g.source);
        trivet_grade again = empty_grade();
        ck_assert_int_eq(trivet_grade_find(g.name, &again, NULL), TRIVET_OK);
        ck_assert_str_eq(again.name, g.name);
    }
}
END_TEST

START_TEST(grade_outside_the_list_is_refused)
{
    trivet_grade grade = empty_grade();
    ck_assert_int_eq(trivet_grade_at(-1, &grade), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_grade_at(trivet_grade_count(), &grade), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_grade_at(0, NULL), TRIVET_MISSING_ARGUMENT);
    grade.size = 8;
    ck_assert_int_eq(trivet_grade_at(0, &grade), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(grade_takes_its_own_size_only)
{
    defaults_take_own_size(trivet_grade, trivet_grade_defaults);
    trivet_grade grade = {.size = 5};
    trivet_message message;
    ck_assert_int_eq(trivet_grade_find("8.8", &grade, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 5, sizeof grade);
    ck_assert_int_eq(trivet_grade_find(NULL, &grade, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_grade_find("8.8", NULL, &message), TRIVET_MISSING_ARGUMENT);
}
END_TEST

int main(void)
{
    return run_tests("grades",
                     TESTS(grade_is_found_in_every_spelling, unknown_grade_gets_the_nearest,
                           design_values_are_those_of_the_standard, every_grade_makes_sense,
                           grade_outside_the_list_is_refused, grade_takes_its_own_size_only));
}
