/*
 * Every row of beams.csv that applies, to the row's own tolerance: straight beams are worked out in
 * beam_straights.c and beam_specials.c, bents, portals and gables in beam_bents.c, rings and bows
 * in beam_curves.c.
 */
#include "beam_rows.h"

#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>
#include <string.h>

/* Rows that do not apply: id and why. */
static const char *const unused_rows[][2] = {
    {"BEA-065", "warmth that differs between top and bottom is not among the loads of a case"},
};

enum { UNUSED_COUNT = sizeof unused_rows / sizeof unused_rows[0], ROW_COUNT = 93 };

static table *rows;

static void compare(int row, double got)
{
    const double want = table_number(rows, row, "expected");
    const double tolerance = table_number(rows, row, "tol_abs");
    ck_assert_msg(fabs(got - want) <= tolerance,
                  "%s (%s, %s, %s): %.9g, wanted %.9g %s, off by %.3g, allowed %.3g",
                  table_text(rows, row, "id"), table_text(rows, row, "group"),
                  table_text(rows, row, "case"), table_text(rows, row, "quantity"), got, want,
                  table_text(rows, row, "unit"), got - want, tolerance);
}

/* How often a row was worked out. */
static int solve_row(int row)
{
    const char *id = table_text(rows, row, "id");
    double answers[8];
    int count = solve_straights(rows, row, answers, 8);
    for (int i = 0; i < count; i++) {
        compare(row, answers[i]);
    }
    const beam_row *const lists[] = {special_rows, bent_rows, curve_rows};
    for (size_t k = 0; k < sizeof lists / sizeof lists[0]; k++) {
        for (const beam_row *entry = lists[k]; entry->id; entry++) {
            if (strcmp(entry->id, id) == 0) {
                compare(row, entry->solve(rows, row));
                count++;
            }
        }
    }
    return count;
}

static int is_unused(int row)
{
    for (int i = 0; i < UNUSED_COUNT; i++) {
        if (strcmp(unused_rows[i][0], table_text(rows, row, "id")) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(row_agrees_or_is_listed_as_unused)
{
    const int count = solve_row(_i);
    ck_assert_msg((count > 0) != is_unused(_i),
                  "%s is worked out %d times and is %slisted as unused", table_text(rows, _i, "id"),
                  count, is_unused(_i) ? "" : "not ");
}
END_TEST

START_TEST(no_row_is_added_or_lost_unseen)
{
    ck_assert_int_eq(table_rows(rows), ROW_COUNT);
    for (int i = 0; i < UNUSED_COUNT; i++) {
        ck_assert_int_ge(table_find(rows, "id", unused_rows[i][0]), 0);
    }
}
END_TEST

int main(void)
{
    rows = table_read(TEST_DATA "/beams.csv");
    TCase *const tests = TESTS(no_row_is_added_or_lost_unseen);
    tcase_add_loop_test(tests, row_agrees_or_is_listed_as_unused, 0, table_rows(rows));
    const int status = run_tests("beams", tests);
    table_free(rows);
    return status;
}
