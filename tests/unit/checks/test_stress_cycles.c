/*
 * Curves of EN 1993-1-9 by hand: slope 3, slope 5, where they bend and where they end.
 */
#include "checks/stress_cycles.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Every eightfold number of times halves the range. */
START_TEST(direct_stress_falls_with_the_third_root)
{
    near_relative(trivet__range_stood(71e6, 3, 2e6), 71e6, 1e-14);
    near_relative(trivet__range_stood(71e6, 3, 250e3), 142e6, 1e-14);
    near_relative(trivet__range_stood(71e6, 3, 31250.0), 284e6, 1e-14);
}
END_TEST

/* From the knee at 5e6 a number of times 10 fold takes the range down by 10^(1/5). */
START_TEST(beyond_five_million_it_falls_with_the_fifth_root)
{
    const double knee = cbrt(0.4) * 100e6;
    near_relative(trivet__range_stood(100e6, 3, 5e6), knee, 1e-14);
    near_relative(trivet__range_stood(100e6, 3, 5e7), knee / pow(10.0, 0.2), 1e-14);
    near_relative(trivet__range_stood(100e6, 3, 1e8), knee * pow(0.05, 0.2), 1e-14);
}
END_TEST

/* Every 32 fold number of times halves the range. */
START_TEST(shear_stress_falls_with_the_fifth_root)
{
    near_relative(trivet__range_stood(80e6, 5, 2e6), 80e6, 1e-14);
    near_relative(trivet__range_stood(80e6, 5, 64e6), 40e6, 1e-14);
    near_relative(trivet__range_stood(80e6, 5, 62500.0), 160e6, 1e-14);
}
END_TEST

START_TEST(the_curves_level_out_at_both_ends)
{
    for (int32_t slope = 3; slope <= 5; slope += 2) {
        ck_assert(trivet__range_stood(50e6, slope, 1e12) == trivet__range_stood(50e6, slope, 1e8));
        ck_assert(trivet__range_stood(50e6, slope, 1.0) == trivet__range_stood(50e6, slope, 1e4));
        ck_assert(trivet__range_stood(50e6, slope, 2e4) < trivet__range_stood(50e6, slope, 1e4));
        ck_assert(trivet__range_stood(50e6, slope, 1e8) < trivet__range_stood(50e6, slope, 9e7));
    }
}
END_TEST

START_TEST(times_and_ranges_are_two_ways_to_read_one_curve)
{
    static const double times[] = {1e4, 3e5, 2e6, 4.9e6, 5.1e6, 3e7, 9.9e7};
    for (int32_t slope = 3; slope <= 5; slope += 2) {
        for (size_t i = 0; i < sizeof times / sizeof times[0]; i++) {
            const double range = trivet__range_stood(36e6, slope, times[i]);
            /* A relative error of the range counts slope fold in the times. */
            near_relative(trivet__times_stood(36e6, slope, range), times[i], 1e-14);
        }
        const double cut_off = trivet__range_stood(36e6, slope, 1e8);
        ck_assert(isinf(trivet__times_stood(36e6, slope, cut_off)));
        ck_assert(isinf(trivet__times_stood(36e6, slope, 0.0)));
        ck_assert(isfinite(trivet__times_stood(36e6, slope, 1.0001 * cut_off)));
        ck_assert(isnan(trivet__times_stood(36e6, slope, (double)NAN)));
    }
}
END_TEST

/* EN 1993-1-9 table 8.4 detail 1 and table 8.6 detail 5, from memory. */
START_TEST(a_longer_thing_welded_on_has_a_lower_category)
{
    ck_assert(trivet__detail_welded_on(0.050, 0)->category == 80e6);
    ck_assert(trivet__detail_welded_on(0.051, 0)->category == 71e6);
    ck_assert(trivet__detail_welded_on(0.081, 0)->category == 63e6);
    ck_assert(trivet__detail_welded_on(0.101, 0)->category == 56e6);
    ck_assert(trivet__detail_welded_on((double)NAN, 0)->category == 56e6);
    ck_assert(trivet__detail_welded_on(0.020, 1)->category == 71e6);
    ck_assert(trivet__detail_welded_on(0.090, 1)->category == 63e6);
    ck_assert(trivet__detail_welded_on(0.200, 1)->category == 56e6);
}
END_TEST

START_TEST(every_detail_is_named_and_has_its_slope)
{
    int32_t count = 0;
    for (const trivet__detail *at = trivet__detail_at(0); at; at = trivet__detail_at(++count)) {
        ck_assert(at->name && at->name[0] && strstr(at->source, "EN 1993-1-9 table 8."));
        ck_assert_msg(at->category >= 36e6 && at->category <= 160e6, "%s", at->name);
        ck_assert_msg(at->slope == (strstr(at->name, "(m=5)") ? 5 : 3), "%s", at->name);
    }
    ck_assert_int_gt(count, TRIVET__DETAIL_WELD_SHEAR);
    ck_assert_ptr_null(trivet__detail_at(-1));
    ck_assert_ptr_null(trivet__crack_factor_at(-1));
    ck_assert_ptr_null(trivet__crack_factor_at(TRIVET__CRACK_FACTOR_COUNT));
}
END_TEST

int main(void)
{
    return run_tests("stress_cycles", TESTS(direct_stress_falls_with_the_third_root,
                                            beyond_five_million_it_falls_with_the_fifth_root,
                                            shear_stress_falls_with_the_fifth_root,
                                            the_curves_level_out_at_both_ends,
                                            times_and_ranges_are_two_ways_to_read_one_curve,
                                            a_longer_thing_welded_on_has_a_lower_category,
                                            every_detail_is_named_and_has_its_slope));
}
