/*
 * Does it slide? Gaps worked out by hand from the printed sizes.
 */
#include "stock_of.h"
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"

#include <string.h>

#define SQRT2 1.41421356237309504880

/* Sizes are some 25 mm; differences of them are good to their rounding. */
static const double ROUNDING = 64.0 * DBL_EPSILON;
static const double SIZE = 0.0254;

static trivet_fit fit_of(trivet_profile outer, trivet_profile inner, double seam)
{
    trivet_fit fit;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_fit_defaults(&fit, sizeof fit), TRIVET_OK);
    must(trivet_fit_solve(&outer, &inner, seam, &fit, &message), &message);
    return fit;
}

/*
 * Common practice: a 7/8 in square bar does not slide into a 1 in square tube of 14 gauge,
 * whichever gauge is meant. BWG 0.083 in leaves 0.834 in, MSG 0.0747 in leaves 0.8506 in, for 0.875
 * in; and the inside corners, of radius T, ask for more to come off: 2 (e - T/sqrt 2), with e the
 * distance by which the bar's corner stands beyond the centre of the rounding.
 */
START_TEST(seven_eighths_bar_does_not_slide_into_one_inch_fourteen_gauge)
{
    static const struct {
        int32_t system;
        double wall; /* in */
    } gauges[] = {{TRIVET_BWG, 0.083}, {TRIVET_MSG, 0.0747}};
    for (size_t i = 0; i < 2; i++) {
        const double T = gauges[i].wall;
        double wall = 0.0;
        ck_assert_int_eq(trivet_gauge_thickness(gauges[i].system, 14, &wall, NULL), TRIVET_OK);
        trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 25.4, 0);
        tube.wall = wall;
        const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 22.225, 0);
        const trivet_fit fit = fit_of(tube, bar, 0.0);
        const double e = 0.4375 - (0.5 - T - T);
        ck_assert_int_eq(fit.slides, 0);
        near_scaled(fit.gap_height, (1.0 - 2.0 * T - 0.875) * 0.0254, ROUNDING, SIZE);
        near_scaled(fit.gap_width, (1.0 - 2.0 * T - 0.875) * 0.0254, ROUNDING, SIZE);
        near_scaled(fit.gap_corner, (T - e * SQRT2) * 0.0254, ROUNDING, SIZE);
        near_scaled(fit.take_off, 2.0 * (e - T / SQRT2) * 0.0254, ROUNDING, SIZE);

        /* Corners filed off, or a sharp tube: only the flats count. */
        tube.corner = TRIVET_CORNER_SHARP;
        const trivet_fit sharp = fit_of(tube, bar, 0.0);
        near_scaled(sharp.take_off, (0.875 - 1.0 + 2.0 * T) * 0.0254, ROUNDING, SIZE);
        near_scaled(sharp.gap_corner, 0.5 * (1.0 - 2.0 * T - 0.875) * 0.0254 * SQRT2, ROUNDING,
                    SIZE);
    }
}
END_TEST

START_TEST(loose_bar_slides_until_the_seam_stands_in_its_way)
{
    /* 20 x 20 x 2 leaves 16 mm with corners of 2 mm; a 15 mm bar has 0.5 mm a side. */
    const trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 20, 2);
    const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    /* Corner: 2 mm - (7.5 - 6) mm sqrt 2, below 0: the sharp bar does not pass the rounding. */
    const trivet_fit tight = fit_of(tube, bar, 0.0);
    near_scaled(tight.gap_height, 0.001, ROUNDING, SIZE);
    near_scaled(tight.gap_corner, (2.0 - 1.5 * SQRT2) / 1e3, ROUNDING, SIZE);
    ck_assert_int_eq(tight.slides, 0);
    near_scaled(tight.take_off, 2.0 * (1.5 - 2.0 / SQRT2) / 1e3, ROUNDING, SIZE);

    const trivet_profile smaller = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 14.5, 0);
    const trivet_fit loose = fit_of(tube, smaller, 0.0);
    ck_assert_int_eq(loose.slides, 1);
    ck_assert(loose.take_off == 0.0);
    const trivet_fit seamed = fit_of(tube, smaller, 0.002);
    ck_assert_int_eq(seamed.slides, 0);
    ck_assert(seamed.seam == 0.002);
    near_scaled(seamed.gap_height, 0.0015, ROUNDING, SIZE);
    ck_assert(seamed.take_off >= 0.0005);
}
END_TEST

START_TEST(round_in_round_counts_the_diameter)
{
    const trivet_profile tube = round_of(TRIVET_SHAPE_ROUND_TUBE, 25, 2);
    const trivet_profile bar = round_of(TRIVET_SHAPE_ROUND_BAR, 20, 0);
    const trivet_fit fit = fit_of(tube, bar, 0.0);
    near_scaled(fit.gap_height, 0.001, ROUNDING, SIZE);
    ck_assert(isnan(fit.gap_corner));
    ck_assert_int_eq(fit.slides, 1);
    const trivet_fit seamed = fit_of(tube, bar, 0.0015);
    ck_assert_int_eq(seamed.slides, 0);
    near_scaled(seamed.take_off, 0.0005, ROUNDING, SIZE);
}
END_TEST

START_TEST(square_in_round_counts_the_diagonal)
{
    /* 21 mm inside; a 15 mm square has a diagonal of 21.213 mm. */
    const trivet_profile tube = round_of(TRIVET_SHAPE_ROUND_TUBE, 25, 2);
    const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    const trivet_fit fit = fit_of(tube, bar, 0.0);
    near_scaled(fit.gap_width, (21.0 - 15.0 * SQRT2) / 1e3, ROUNDING, SIZE);
    ck_assert(isnan(fit.gap_corner));
    near_scaled(fit.take_off, (15.0 - 21.0 / SQRT2) / 1e3, ROUNDING, SIZE);
}
END_TEST

START_TEST(round_in_square_counts_the_smaller_side)
{
    const trivet_profile tube = profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, 40, 20, 2);
    const trivet_profile bar = round_of(TRIVET_SHAPE_ROUND_BAR, 16, 0);
    const trivet_fit fit = fit_of(tube, bar, 0.0);
    near_scaled(fit.gap_height, 0.020, ROUNDING, SIZE);
    near_scaled(fit.gap_width, 0.0, ROUNDING, SIZE);
    ck_assert_int_eq(fit.slides, 1);
}
END_TEST

START_TEST(tube_in_tube_slides_with_its_rounded_corners)
{
    /* 40 x 40 x 2 leaves 36 mm, corners 2 mm; 35 x 35 x 2 has corners of 4 mm outside. */
    const trivet_fit fit = fit_of(profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 40, 2),
                                  profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 35, 2), 0.0);
    near_scaled(fit.gap_width, 0.001, ROUNDING, SIZE);
    near_scaled(fit.gap_corner, 0.0005, ROUNDING, SIZE);
    ck_assert_int_eq(fit.slides, 1);
    const trivet_fit flat = fit_of(profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 40, 2),
                                   profile_of(TRIVET_SHAPE_FLAT_BAR, 30, 6, 0), 0.0);
    near_scaled(flat.gap_height, 0.006, ROUNDING, SIZE);
    near_scaled(flat.gap_width, 0.030, ROUNDING, SIZE);
    ck_assert_int_eq(flat.slides, 1);
}
END_TEST

static void expect_refusal(trivet_profile outer, trivet_profile inner, double seam,
                           const char *thing, const char *problem)
{
    trivet_fit fit;
    trivet_message message;
    ck_assert_int_eq(trivet_fit_defaults(&fit, sizeof fit), TRIVET_OK);
    ck_assert_int_eq(trivet_fit_solve(&outer, &inner, seam, &fit, &message), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, thing);
    ck_assert_str_eq(message.problem, problem);
    ck_assert(fit.gap_height == 0.0 && fit.slides == 0);
}

START_TEST(bad_fits_are_refused)
{
    const trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 20, 2);
    const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    const trivet_profile angle = profile_of(TRIVET_SHAPE_ANGLE, 20, 20, 3);
    const trivet_profile thick = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 20, 12);
    expect_refusal(bar, bar, 0.0, "outer, square bar", "nothing slides into this shape");
    expect_refusal(tube, angle, 0.0, "inner, angle", "this shape does not serve as an insert");
    expect_refusal(thick, bar, 0.0, "outer, square tube",
                   "the wall of 12 mm leaves no room inside");
    expect_refusal(tube, bar, -0.001, "weld seam", "a height of -1 mm does not fit the tube");
    expect_refusal(tube, bar, 0.016, "weld seam", "a height of 16 mm does not fit the tube");
    expect_refusal(tube, bar, (double)NAN, "weld seam",
                   "a height of not known does not fit the tube");
    trivet_fit fit;
    trivet_message message;
    ck_assert_int_eq(trivet_fit_defaults(&fit, sizeof fit), TRIVET_OK);
    ck_assert_int_eq(trivet_fit_solve(NULL, &bar, 0.0, &fit, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_fit_solve(&tube, NULL, 0.0, &fit, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_fit_solve(&tube, &bar, 0.0, NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "fit_out");
}
END_TEST

START_TEST(only_the_sizes_we_have_had_are_accepted)
{
    defaults_take_own_size(trivet_fit, trivet_fit_defaults);
    const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    trivet_fit fit = {.size = 3};
    trivet_message message;
    ck_assert_int_eq(trivet_fit_solve(&bar, &bar, 0.0, &fit, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 3, sizeof fit);
}
END_TEST

static void expect_words(trivet_profile outer, trivet_profile inner, const char *wanted)
{
    char text[256];
    const trivet_fit fit = fit_of(outer, inner, 0.0);
    ck_assert_uint_eq(trivet_fit_text(&fit, NULL, text, sizeof text), strlen(wanted));
    ck_assert_str_eq(text, wanted);
}

/*
 * Sharp-cornered tube 20 x 20 x 2 leaves 16 mm. With the rounding of EN 10219-2 the inside radius
 * is 2 mm: the corner of a 15 mm bar stands 1.5 mm each way beyond the rounding's centre at 6
 * mm, 2.12 mm from it; 2 (1.5 - 2 / sqrt 2) = 0.17 mm must come off.
 */
START_TEST(fits_are_told_in_words)
{
    trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 20, 2);
    const trivet_profile rounded = tube;
    tube.corner = TRIVET_CORNER_SHARP;
    expect_words(tube, profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0),
                 "slides in with 1 mm to spare");
    expect_words(tube, profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 17, 0),
                 "does not slide in: 1 mm must come off its size");
    /* A flat bar 10 high and 14 wide: 16 - 14 = 2 mm is the smaller gap. */
    expect_words(tube, profile_of(TRIVET_SHAPE_FLAT_BAR, 10, 14, 0),
                 "slides in with 2 mm to spare");
    expect_words(rounded, profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0),
                 "does not slide in: its corners are too sharp for the tube's; round them, or take "
                 "0.17 mm off its size");
    char text[8] = "x";
    ck_assert_uint_eq(trivet_fit_text(NULL, NULL, text, sizeof text), 0);
    ck_assert_str_eq(text, "");
}
END_TEST

int main(void)
{
    return run_tests("fits",
                     TESTS(seven_eighths_bar_does_not_slide_into_one_inch_fourteen_gauge,
                           loose_bar_slides_until_the_seam_stands_in_its_way,
                           round_in_round_counts_the_diameter, square_in_round_counts_the_diagonal,
                           round_in_square_counts_the_smaller_side,
                           tube_in_tube_slides_with_its_rounded_corners, fits_are_told_in_words,
                           bad_fits_are_refused, only_the_sizes_we_have_had_are_accepted));
}
