/*
 * Curves, categories and factors of EN 1993-1-9 against printed values: every row of cracking.csv,
 * but for the groups that are named here with the reason.
 */
#include "checks/stress_cycles.h"

#include "support/printed.h"
#include "support/run.h"
#include "support/table.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MPA 1e6

enum { ROWS = 140, TESTED = 68 };

/* The number behind a word: 71 of "endurance at dS=60, category 71, gMf=1" after "category ". */
static double number_after(const char *text, const char *word)
{
    const char *const at = strstr(text, word);
    ck_assert_msg(at != NULL, "no '%s' in '%s'", word, text);
    return at ? strtod(at + strlen(word), NULL) : (double)NAN;
}

/* Ratios of the curves of a category of 1, limits and endurances of a category of MPa. */
static double value_of_curve(const table *from, int row)
{
    const char *const of = table_text(from, row, "case");
    const char *const quantity = table_text(from, row, "quantity");
    if (strcmp(quantity, "CAFL ratio") == 0) {
        return trivet__range_stood(1.0, 3, 5e6);
    }
    if (strcmp(quantity, "cut-off ratio") == 0) {
        return strcmp(of, "shear stress") == 0
                   ? trivet__range_stood(1.0, 5, 1e8)
                   : trivet__range_stood(1.0, 3, 1e8) / trivet__range_stood(1.0, 3, 5e6);
    }
    const double category = number_after(of, "category ") * MPA;
    if (strcmp(quantity, "constant amplitude fatigue limit") == 0) {
        return trivet__range_stood(category, 3, 5e6) / MPA;
    }
    if (strcmp(quantity, "cut-off limit") == 0) {
        return trivet__range_stood(category, 3, 1e8) / MPA;
    }
    ck_assert_str_eq(quantity, "cycles");
    return trivet__times_stood(category / number_after(of, "gMf="), 3,
                               number_after(of, "dS=") * MPA);
}

/* "80 MPa x 2e4; 50 x 2e5; ...": the sum of n / N. */
static double value_of_damage(const table *from, int row)
{
    const char *const of = table_text(from, row, "case");
    const double category = number_after(of, "category ") * MPA / number_after(of, "gMf=");
    const char *at = table_text(from, row, "inputs");
    double sum = 0.0;
    while (at) {
        const double range = strtod(at, NULL) * MPA;
        sum += number_after(at, "x ") / trivet__times_stood(category, 3, range);
        at = strchr(at, ';');
        at = at ? at + 1 : NULL;
    }
    return sum;
}

static double value_of_detail(const table *from, int row)
{
    const char *const name = table_text(from, row, "case");
    for (int32_t i = 0; trivet__detail_at(i); i++) {
        if (strcmp(trivet__detail_at(i)->name, name) == 0) {
            return trivet__detail_at(i)->category / MPA;
        }
    }
    ck_abort_msg("no detail is called %s", name);
    return (double)NAN;
}

static double value_of_factor(const table *from, int row)
{
    for (int32_t i = 0; i < TRIVET__CRACK_FACTOR_COUNT; i++) {
        const trivet__crack_factor *const factor = trivet__crack_factor_at(i);
        if (strcmp(factor->life, table_text(from, row, "case")) == 0 &&
            strcmp(factor->consequence, table_text(from, row, "quantity")) == 0) {
            return factor->value;
        }
    }
    ck_abort_msg("no factor for %s", table_text(from, row, "case"));
    return (double)NAN;
}

static double value_of_scope(const table *from, int row)
{
    ck_assert_str_eq(table_text(from, row, "unit"), "mm");
    return TRIVET__WALL_TESTED / 1e-3;
}

/* The groups that this part works with. */
static const struct {
    const char *group;
    double (*value)(const table *from, int row);
} applicable[] = {
    {"EN 1993-1-9 S-N", value_of_curve},
    {"EN 1993-1-9 damage", value_of_damage},
    {"EN 1993-1-9 detail category", value_of_detail},
    {"EN 1993-1-9 gamma_Mf", value_of_factor},
    {"hot spot method scope", value_of_scope},
};

/* Groups that speak of other methods. */
static const struct {
    const char *group;
    int rows;
    const char *why;
} not_applicable[] = {
    {"IIW FAT (steel)", 14, "another set of recommendations for the same details"},
    {"Basquin", 4, "plain parts without welds, of a known tensile strength"},
    {"Marin", 16, "plain parts: surface, size and reliability"},
    {"mean stress", 3, "a weld does not feel the mean, its own stresses are at yield"},
    {"rainflow", 4, "counting of a history; cycles are given in counts here"},
    {"Dirlik", 25, "random shaking: ranges from a spectrum"},
    {"narrow band (Rayleigh)", 4, "random shaking"},
    {"Wirsching-Light", 2, "random shaking"},
};

static void compare(const table *from, int row, double got)
{
    const double want = table_number(from, row, "expected");
    const double tolerance = table_number(from, row, "tol_abs");
    ck_assert_msg(rounds_to(got, want, tolerance),
                  "%s %s: computed %.9g, printed %.9g, off by %.3g, allowed %.3g",
                  table_text(from, row, "id"), table_text(from, row, "case"), got, want, got - want,
                  tolerance);
}

START_TEST(curves_categories_and_factors_match_every_row)
{
    table *const from = table_read(TEST_DATA "/cracking.csv");
    int tested = 0;
    for (int row = 0; row < table_rows(from); row++) {
        const char *const group = table_text(from, row, "group");
        for (size_t i = 0; i < sizeof applicable / sizeof applicable[0]; i++) {
            if (strcmp(applicable[i].group, group) == 0) {
                compare(from, row, applicable[i].value(from, row));
                tested++;
            }
        }
    }
    ck_assert_int_eq(tested, TESTED);
    table_free(from);
}
END_TEST

START_TEST(every_other_row_is_left_out_for_a_reason)
{
    table *const from = table_read(TEST_DATA "/cracking.csv");
    int left_out = 0;
    for (size_t i = 0; i < sizeof not_applicable / sizeof not_applicable[0]; i++) {
        int rows = 0;
        for (int row = 0; row < table_rows(from); row++) {
            rows += strcmp(table_text(from, row, "group"), not_applicable[i].group) == 0;
        }
        ck_assert_msg(rows == not_applicable[i].rows, "%d rows of %s (%s)", rows,
                      not_applicable[i].group, not_applicable[i].why);
        left_out += rows;
    }
    ck_assert_int_eq(table_rows(from), ROWS);
    ck_assert_int_eq(left_out, ROWS - TESTED);
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests("printed values of cracking",
                     TESTS(curves_categories_and_factors_match_every_row,
                           every_other_row_is_left_out_for_a_reason));
}
