/*
 * Gauges in quantities, and what is said when the system is missing.
 */
#include "support/near.h"
#include "support/run.h"
#include "trivet/stock.h"

#include <check.h>
#include <string.h>

START_TEST(gauge_with_its_system_is_a_length)
{
    static const struct {
        const char *text;
        double thickness; /* m */
    } cases[] = {
        {"16 ga BWG", 0.001651},     {"16 ga MSG", 0.00151892},   {"14 gauge bwg", 0.0021082},
        {"14ga MSG", 0.00189738},    {"2 * 16 ga BWG", 0.003302}, {"1 mm + 20 GA bwg", 0.001889},
        {"16 ga BWG * 2", 0.003302}, {"1-1/4 in", 0.03175},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        trivet_quantity got;
        trivet_message message = {0};
        ck_assert_msg(trivet_stock_quantity_read(cases[i].text, &got, &message) == TRIVET_OK,
                      "%s: %s", cases[i].text, message.problem);
        near_relative(got.value, cases[i].thickness, 4.0 * DBL_EPSILON);
        ck_assert(trivet_quantity_fits(&got, TRIVET_LENGTH) && got.has_unit == 1);
    }
}
END_TEST

typedef struct bad_case {
    const char *text;
    trivet_status status;
    int32_t column;
    const char *thing;
    const char *problem;
    const char *remedy;
} bad_case;

static const bad_case bad_cases[] = {
    {"16 ga", TRIVET_BAD_UNIT, 1, "gauge 16",
     "the system is missing: 16 ga is 1.651 mm as BWG (wall of tube) and 1.519 mm as MSG (steel "
     "sheet)",
     "write 16 ga BWG or 16 ga MSG"},
    {"1 mm + 14 ga", TRIVET_BAD_UNIT, 8, "gauge 14",
     "the system is missing: 14 ga is 2.108 mm as BWG (wall of tube) and 1.897 mm as MSG (steel "
     "sheet)",
     "write 14 ga BWG or 14 ga MSG"},
    {"16 ga AWG", TRIVET_BAD_UNIT, 1, "gauge 16", "\"AWG\" is no system of gauges",
     "write BWG for the wall of tube or MSG for steel sheet"},
    {"16 ga BW", TRIVET_BAD_UNIT, 1, "gauge 16", "\"BW\" is no system of gauges",
     "write BWG for the wall of tube or MSG for steel sheet"},
    {"21 ga BWG", TRIVET_BAD_VALUE, 1, "gauge 21", "is not in the table, which goes from 7 to 20",
     "give the thickness as a length, such as 1.5 mm"},
    {"6 ga MSG", TRIVET_BAD_VALUE, 1, "gauge 6", "is not in the table, which goes from 7 to 20",
     "give the thickness as a length, such as 1.5 mm"},
    {"16.5 ga BWG", TRIVET_BAD_VALUE, 1, "gauge", "a gauge is a whole number",
     "give the thickness as a length, such as 1.5 mm"},
    {"1e9 ga BWG", TRIVET_BAD_VALUE, 1, "gauge", "a gauge is a whole number",
     "give the thickness as a length, such as 1.5 mm"},
};

enum { BAD_COUNT = sizeof bad_cases / sizeof bad_cases[0] };

START_TEST(bad_gauge_is_refused)
{
    const bad_case *const wanted = &bad_cases[_i];
    trivet_quantity got;
    trivet_message message;
    ck_assert_int_eq(trivet_stock_quantity_read(wanted->text, &got, &message), wanted->status);
    ck_assert_int_eq(message.status, wanted->status);
    ck_assert_int_eq(message.column, wanted->column);
    ck_assert_str_eq(message.thing, wanted->thing);
    ck_assert_str_eq(message.problem, wanted->problem);
    ck_assert_str_eq(message.remedy, wanted->remedy);
    ck_assert(got.value == 0.0);
}
END_TEST

START_TEST(thickness_is_refused_outside_the_table)
{
    double thickness = 1.0;
    trivet_message message;
    ck_assert_int_eq(trivet_gauge_thickness(0, 16, &thickness, &message), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.problem, "0 is no system of gauges");
    ck_assert(thickness == 0.0);
    ck_assert_int_eq(trivet_gauge_thickness(3, 16, &thickness, NULL), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_gauge_thickness(TRIVET_BWG, INT32_MIN, &thickness, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_gauge_thickness(TRIVET_MSG, INT32_MAX, &thickness, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_gauge_thickness(TRIVET_BWG, 16, NULL, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_stock_quantity_read(NULL, NULL, &message), TRIVET_MISSING_ARGUMENT);
    trivet_gauge_range(NULL, NULL);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(gauge_with_its_system_is_a_length, thickness_is_refused_outside_the_table);
    tcase_add_loop_test(tests, bad_gauge_is_refused, 0, BAD_COUNT);
    return run_tests("gauges", tests);
}
