/*
 * Quantiles of chi squared beside printed ones: Abramowitz and Stegun, Handbook of Mathematical
 * Functions, table 26.8 (from memory).
 */
#include "checks/chi_squared.h"

#include "support/near.h"
#include "support/printed.h"
#include "support/run.h"

#include <check.h>
#include <stdlib.h>

START_TEST(quantiles_stand_in_the_table)
{
    static const struct {
        int32_t freedom;
        double beyond;
        const char *printed;
    } ROWS[] = {
        {1, 0.001, "10.828"},  {2, 0.001, "13.816"},  {3, 0.001, "16.266"},
        {4, 0.001, "18.467"},  {5, 0.001, "20.515"},  {6, 0.001, "22.458"},
        {7, 0.001, "24.322"},  {9, 0.001, "27.877"},  {10, 0.001, "29.588"},
        {20, 0.001, "45.315"}, {30, 0.001, "59.703"}, {100, 0.001, "149.449"},
        {1, 0.05, "3.841"},    {2, 0.05, "5.991"},    {5, 0.05, "11.070"},
        {10, 0.05, "18.307"},  {10, 0.95, "3.940"},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        const double got = trivet__chi_squared_quantile(ROWS[i].freedom, ROWS[i].beyond);
        ck_assert_msg(rounds_to(got, atof(ROWS[i].printed), half_unit(ROWS[i].printed)),
                      "%d degrees, %g: %.6f, printed %s", (int)ROWS[i].freedom, ROWS[i].beyond, got,
                      ROWS[i].printed);
    }
}
END_TEST

/* With two degrees exp(-x/2) is left beyond x: -2 ln 0.001, a closed form. */
START_TEST(two_degrees_have_a_closed_form)
{
    near_relative(trivet__chi_squared_quantile(2, 0.001), -2.0 * log(0.001), 1e-12);
}
END_TEST

/* The cube of Wilson and Hilferty takes over beyond 200: no step there. Slope about 1.13. */
START_TEST(many_degrees_go_on_where_the_sum_ends)
{
    const double before = trivet__chi_squared_quantile(200, 0.001);
    const double after = trivet__chi_squared_quantile(201, 0.001);
    ck_assert_double_gt(after - before, 1.0);
    ck_assert_double_lt(after - before, 1.3);
}
END_TEST

int main(void)
{
    return run_tests("chi_squared",
                     TESTS(quantiles_stand_in_the_table, two_degrees_have_a_closed_form,
                           many_degrees_go_on_where_the_sum_ends));
}
