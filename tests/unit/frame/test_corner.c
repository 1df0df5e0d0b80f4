/*
 * Corners. That two cuts of 22.5 degrees turn a tube by 45 is common practice.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"

#include <float.h>
#include <math.h>

/* A tube along x from A into B, and one that goes on to C turned upward by so many degrees. */
static trivet_frame *bent(double degrees)
{
    trivet_frame *const frame = must_new_frame();
    const double turn = degrees * acos(-1.0) / 180.0;
    const trivet_profile profile = square_tube(0.02, 0.002);
    const int32_t stock = must_add_stock(frame, "rail", &profile);
    const int32_t a = must_add_joint(frame, "A", -0.3, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 0.0, 0.0, 0.0);
    const int32_t c = must_add_joint(frame, "C", 0.4 * cos(turn), 0.0, 0.4 * sin(turn));
    must_add_tube(frame, "first", (int32_t[]){a, b}, 2, stock);
    must_add_tube(frame, "second", (int32_t[]){c, b}, 2, stock);
    return frame;
}

START_TEST(two_cuts_of_half_the_turn_make_it)
{
    static const double turns[] = {0.0, 1e-4, 45.0, 90.0, 135.0, 180.0};
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        trivet_frame *const frame = bent(turns[i]);
        double turn = -1.0;
        double miter = -1.0;
        ck_assert_int_eq(trivet_frame_corner(frame, 1, &turn, &miter), TRIVET_OK);
        const double degree = acos(-1.0) / 180.0;
        near_scaled(turn, turns[i] * degree, 1.0, 4.0 * DBL_EPSILON);
        near_scaled(miter, turns[i] * degree / 2.0, 1.0, 2.0 * DBL_EPSILON);
        trivet_frame_free(frame);
    }
}
END_TEST

/* Common practice: a turn of 45 degrees is made of two cuts of 22.5. */
START_TEST(a_turn_of_45_degrees_is_two_cuts_of_22_and_a_half)
{
    trivet_frame *const frame = bent(45.0);
    double turn = -1.0;
    double miter = -1.0;
    ck_assert_int_eq(trivet_frame_corner(frame, 1, &turn, &miter), TRIVET_OK);
    near_scaled(miter * 180.0 / acos(-1.0), 22.5, 45.0, 4.0 * DBL_EPSILON);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(what_is_no_corner_has_no_turn)
{
    trivet_frame *const frame = bent(45.0);
    double turn = -1.0;
    double miter = -1.0;
    ck_assert_int_eq(trivet_frame_corner(frame, 0, &turn, &miter), TRIVET_BAD_VALUE);
    ck_assert(isnan(turn) && isnan(miter));
    ck_assert_int_eq(trivet_frame_corner(frame, 9, &turn, &miter), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_corner(NULL, 0, &turn, &miter), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_corner(frame, 0, NULL, &miter), TRIVET_MISSING_ARGUMENT);
    const int32_t d = must_add_joint(frame, "D", 0.3, 0.0, 0.0);
    must_add_tube(frame, "through", (int32_t[]){0, 1, d}, 3, 0);
    ck_assert_int_eq(trivet_frame_corner(frame, 1, &turn, &miter), TRIVET_BAD_VALUE);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("corner", TESTS(two_cuts_of_half_the_turn_make_it,
                                     a_turn_of_45_degrees_is_two_cuts_of_22_and_a_half,
                                     what_is_no_corner_has_no_turn));
}
