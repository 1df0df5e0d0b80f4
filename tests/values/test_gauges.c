/*
 * Gauges against the printed table: every row, inches and millimetres, both systems.
 */
#include "support/printed.h"
#include "support/run.h"
#include "support/table.h"
#include "trivet/stock.h"

#include <check.h>
#include <stdio.h>

static int compare(const table *from, int row, int32_t system, const char *column, double unit)
{
    trivet_message message = {0};
    double thickness = 0.0;
    const int32_t number = (int32_t)table_number(from, row, "gauge");
    const trivet_status status = trivet_gauge_thickness(system, number, &thickness, &message);
    ck_assert_msg(status == TRIVET_OK, "gauge %d: %s", (int)number, message.problem);
    const double printed = table_number(from, row, column);
    if (rounds_to(thickness / unit, printed, half_unit(table_text(from, row, column)))) {
        return 0;
    }
    fprintf(stderr, "gauge %d %s: %.9g, printed %.9g\n", (int)number, column, thickness / unit,
            printed);
    return 1;
}

START_TEST(gauges_match_every_row)
{
    table *const from = table_read(TEST_DATA "/gauges.csv");
    int failures = 0;
    for (int row = 0; row < table_rows(from); row++) {
        failures += compare(from, row, TRIVET_BWG, "bwg_tube_in", 0.0254);
        failures += compare(from, row, TRIVET_BWG, "bwg_tube_mm", 0.001);
        failures += compare(from, row, TRIVET_MSG, "msg_steel_sheet_in", 0.0254);
        failures += compare(from, row, TRIVET_MSG, "msg_steel_sheet_mm", 0.001);
    }
    /* The columns of galvanised sheet, stainless and aluminium are other systems: not offered. */
    ck_assert_int_eq(table_rows(from), 14);
    ck_assert_int_eq(failures, 0);
    int32_t first = 0;
    int32_t last = 0;
    trivet_gauge_range(&first, &last);
    ck_assert_int_eq(first, (int32_t)table_number(from, 0, "gauge"));
    ck_assert_int_eq(last, (int32_t)table_number(from, 13, "gauge"));
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests("printed gauges", TESTS(gauges_match_every_row));
}
