/*
 * Figures in the plane, against lengths and areas that can be read off a drawing.
 */
#include "frame/plane_figure.h"
#include "support/dice.h"
#include "support/near.h"
#include "support/run.h"

static const double ROUNDING = 8.0 * DBL_EPSILON;

START_TEST(a_point_is_as_far_from_a_side_as_from_its_nearest_place)
{
    const double a[2] = {0.0, 0.0};
    const double b[2] = {4.0, 0.0};
    const double above[2] = {1.0, 3.0};
    const double beyond[2] = {7.0, 4.0};
    const double before[2] = {-3.0, -4.0};
    const double on[2] = {2.0, 0.0};
    near_relative(trivet__distance_to_side(a, b, above), 3.0, ROUNDING);
    near_relative(trivet__distance_to_side(a, b, beyond), 5.0, ROUNDING);
    near_relative(trivet__distance_to_side(a, b, before), 5.0, ROUNDING);
    ck_assert_double_eq(trivet__distance_to_side(a, b, on), 0.0);
    near_relative(trivet__distance_to_side(a, a, above), sqrt(10.0), ROUNDING);
}
END_TEST

START_TEST(sides_that_cross_are_not_apart)
{
    const double a[2] = {0.0, 0.0};
    const double b[2] = {4.0, 4.0};
    const double c[2] = {0.0, 4.0};
    const double d[2] = {4.0, 0.0};
    const double e[2] = {10.0, 4.0};
    const double f[2] = {10.0, -4.0};
    const double g[2] = {2.0, 2.0};
    ck_assert_double_eq(trivet__distance_of_sides(a, b, c, d), 0.0);
    ck_assert_double_eq(trivet__distance_of_sides(a, b, c, g), 0.0);
    near_relative(trivet__distance_of_sides(a, b, e, f), 6.0, ROUNDING);
    near_relative(trivet__distance_of_sides(f, e, b, a), 6.0, ROUNDING);
}
END_TEST

START_TEST(a_convex_outline_runs_round_what_it_holds)
{
    /* A square with points inside, on its sides, and corners twice. */
    const double points[] = {1, 1, 0, 0, 2, 0, 2, 2, 0, 2, 1, 0, 2, 1, 0.5, 1.5, 2, 2, 0, 0, 0, 1};
    double hull[22];
    ck_assert_int_eq(trivet__convex_outline(points, 11, hull), 4);
    const double wanted[8] = {0, 0, 2, 0, 2, 2, 0, 2};
    for (int i = 0; i < 8; i++) {
        ck_assert_double_eq(hull[i], wanted[i]);
    }
    near_relative(trivet__polygon_area(hull, 4), 4.0, ROUNDING);
}
END_TEST

/* Where the walk begins may lie on a straight side within rounding: it then ends elsewhere. */
START_TEST(rounding_makes_no_corner_and_no_second_lap)
{
    const double points[] = {0, 0, -1e-13, 1, 0, 2, 3, 0, 3, 2, 1, 1, 2, 1, 1.5, 0.5, 1.5, 1e-13};
    double hull[18];
    ck_assert_int_eq(trivet__convex_outline(points, 9, hull), 4);
    near_relative(trivet__polygon_area(hull, 4), 6.0, 1e-12);
}
END_TEST

START_TEST(points_in_one_line_have_two_ends_and_one_point_itself)
{
    const double row[] = {1, 1, 3, 3, 0, 0, 2, 2};
    const double one[] = {5, 6, 5, 6};
    double hull[8];
    ck_assert_int_eq(trivet__convex_outline(row, 4, hull), 2);
    ck_assert(hull[0] == 0.0 && hull[1] == 0.0 && hull[2] == 3.0 && hull[3] == 3.0);
    ck_assert_int_eq(trivet__convex_outline(one, 2, hull), 1);
    ck_assert(hull[0] == 5.0 && hull[1] == 6.0);
}
END_TEST

/* Every point lies inside or on it, and it turns left all the way. */
START_TEST(convex_outlines_of_random_points)
{
    enum { COUNT = 40 };
    for (uint64_t seed = 1; seed <= 200; seed++) {
        dice throws = dice_new(seed);
        double points[2 * COUNT];
        double hull[2 * COUNT];
        for (int i = 0; i < 2 * COUNT; i++) {
            points[i] = dice_between(&throws, -1.0, 1.0);
        }
        const int32_t count = trivet__convex_outline(points, COUNT, hull);
        ck_assert_int_ge(count, 3);
        for (int i = 0; i < COUNT; i++) {
            ck_assert(trivet__polygon_depth(hull, count, points + 2 * i) > -1e-8);
        }
        int32_t one = 0;
        int32_t other = 0;
        ck_assert_int_eq(trivet__polygon_crosses(hull, count, &one, &other), 0);
        ck_assert(trivet__polygon_area(hull, count) > 0.0);
    }
}
END_TEST

START_TEST(polygons_that_cross_or_fold_back_are_told)
{
    const double bow[] = {0, 0, 2, 2, 2, 0, 0, 2};
    const double spike[] = {0, 0, 2, 0, 4, 0, 2, 0, 2, 2};
    const double twice[] = {0, 0, 2, 0, 2, 0, 2, 2};
    const double notched[] = {0, 0, 4, 0, 4, 4, 2, 1, 0, 4};
    int32_t one = -1;
    int32_t other = -1;
    ck_assert_int_eq(trivet__polygon_crosses(bow, 4, &one, &other), 1);
    ck_assert(one == 0 && other == 2);
    ck_assert_int_eq(trivet__polygon_crosses(spike, 5, &one, &other), 1);
    ck_assert_int_eq(trivet__polygon_crosses(twice, 4, &one, &other), 1);
    ck_assert_int_eq(trivet__polygon_crosses(notched, 5, &one, &other), 0);
}
END_TEST

START_TEST(depth_is_the_distance_to_the_nearest_side)
{
    const double notched[] = {0, 0, 4, 0, 4, 4, 2, 1, 0, 4};
    const double inside[2] = {2.0, 0.25};
    const double in_notch[2] = {2.0, 3.0};
    const double left[2] = {-1.0, 1.0};
    near_relative(trivet__polygon_depth(notched, 5, inside), 0.25, ROUNDING);
    /* From (2, 3) to the line through (2, 1) and (4, 4): 2 |(2, 3)| across over its length. */
    near_relative(trivet__polygon_depth(notched, 5, in_notch), -4.0 / sqrt(13.0), ROUNDING);
    near_relative(trivet__polygon_depth(notched, 5, left), -1.0, ROUNDING);
    near_relative(trivet__polygon_depth(notched, 1, inside), -hypot(2.0, 0.25), ROUNDING);
}
END_TEST

int main(void)
{
    return run_tests(
        "plane_figure",
        TESTS(
            a_point_is_as_far_from_a_side_as_from_its_nearest_place, sides_that_cross_are_not_apart,
            a_convex_outline_runs_round_what_it_holds, rounding_makes_no_corner_and_no_second_lap,
            points_in_one_line_have_two_ends_and_one_point_itself, convex_outlines_of_random_points,
            polygons_that_cross_or_fold_back_are_told, depth_is_the_distance_to_the_nearest_side));
}
