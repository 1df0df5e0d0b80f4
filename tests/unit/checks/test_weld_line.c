/*
 * Welds as lines: sums against closed forms, forces against statics by hand.
 */
#include "checks/weld_line.h"

#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

/* Sums of a dozen terms. */
#define SUMS 1e-13
/* The arcs' rule and the search on them promise this. */
#define ARCS 1e-12

static const trivet_section NO_SECTION = {.size = 0};

static trivet_profile rectangle(double height, double width, double wall, double radius)
{
    trivet_profile of;
    ck_assert_int_eq(trivet_profile_defaults(&of, sizeof of), TRIVET_OK);
    of.shape = TRIVET_SHAPE_RECTANGULAR_TUBE;
    of.corner = radius > 0.0 ? TRIVET_CORNER_RADIUS : TRIVET_CORNER_SHARP;
    of.corner_radius = radius;
    of.height = height;
    of.width = width;
    of.wall = wall;
    return of;
}

static trivet__weld_line outline_of(trivet_profile profile, uint32_t sides)
{
    trivet__weld_line line;
    trivet_section section = NO_SECTION;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_OK);
    trivet__weld_line_start(&line);
    ck_assert_int_eq(trivet__weld_outline(&profile, &section, sides, &line), 1);
    return line;
}

static trivet__weld_line solved(trivet_profile profile, uint32_t sides)
{
    trivet__weld_line line = outline_of(profile, sides);
    trivet__weld_line_solve(&line);
    return line;
}

/* Blodgett's box and circle: 2(b + d), bd^2/2 + d^3/6; 2 pi r, pi r^3. */
START_TEST(box_and_circle_match_their_closed_forms)
{
    const double b = 0.02;
    const double d = 0.04;
    const trivet__weld_line box = solved(rectangle(d, b, 0.002, 0.0), TRIVET_SIDES_ALL);
    near_relative(box.amount, 2.0 * (b + d), SUMS);
    near_relative(box.S_yy, b * d * d / 2.0 + d * d * d / 6.0, SUMS);
    near_relative(box.S_zz, d * b * b / 2.0 + b * b * b / 6.0, SUMS);
    ck_assert(box.S_yz == 0.0 && box.centre[0] == 0.0 && box.centre[1] == 0.0);
    ck_assert_int_eq(box.spread, TRIVET__WELD_PLANE);
    const double r = 0.0127;
    const trivet__weld_line circle = solved(round_tube(2.0 * r, 0.001651), TRIVET_SIDES_ALL);
    near_relative(circle.amount, 2.0 * PI * r, ARCS);
    near_relative(circle.S_yy, PI * r * r * r, ARCS);
    near_relative(circle.S_zz, PI * r * r * r, ARCS);
}
END_TEST

/*
 * Rounded corners: four flats, and four quarters about z_c = d/2 - r with
 * the integral of (z_c + r sin)^2 r = r (pi/2 z_c^2 + 2 z_c r + pi/4 r^2) each.
 */
START_TEST(rounded_corners_are_counted_as_arcs)
{
    const double b = 0.02;
    const double d = 0.04;
    const double r = 0.004;
    const double zc = d / 2.0 - r;
    const trivet__weld_line line = solved(rectangle(d, b, 0.002, r), TRIVET_SIDES_ALL);
    const double flats = 2.0 * (b - 2.0 * r) * d * d / 4.0 + 2.0 * pow(d - 2.0 * r, 3.0) / 12.0;
    const double arcs = 4.0 * r * (PI / 2.0 * zc * zc + 2.0 * zc * r + PI / 4.0 * r * r);
    near_relative(line.amount, 2.0 * (b + d) - 8.0 * r + 2.0 * PI * r, ARCS);
    near_relative(line.S_yy, flats + arcs, ARCS);
}
END_TEST

START_TEST(a_corner_belongs_to_the_weld_if_both_its_sides_do)
{
    const double b = 0.02;
    const double r = 0.004;
    const trivet_profile of = rectangle(b, b, 0.002, r);
    const double flat = b - 2.0 * r;
    near_relative(solved(of, TRIVET_SIDE_TOP).amount, flat, SUMS);
    near_relative(solved(of, TRIVET_SIDE_TOP | TRIVET_SIDE_BOTTOM).amount, 2.0 * flat, SUMS);
    near_relative(solved(of, TRIVET_SIDE_TOP | TRIVET_SIDE_LEFT).amount, 2.0 * flat + PI * r / 2.0,
                  ARCS);
    const trivet__weld_line top = solved(of, TRIVET_SIDE_TOP);
    ck_assert_int_eq(top.spread, TRIVET__WELD_ROW);
    near_relative(top.centre[1], b / 2.0, SUMS);
    near_relative(fabs(top.along[0]), 1.0, SUMS);
    const trivet__weld_line left = solved(of, TRIVET_SIDE_LEFT);
    near_relative(left.centre[0], b / 2.0, SUMS);
    near_relative(fabs(left.along[1]), 1.0, SUMS);
    /* Top and left: the line from one to the other slopes, y and z of its places are less at once.
     */
    ck_assert(solved(of, TRIVET_SIDE_TOP | TRIVET_SIDE_LEFT).S_yz < 0.0);
    near_relative(solved(round_tube(0.02, 0.002), TRIVET_SIDE_RIGHT).amount, PI * 0.005, ARCS);
    near_relative(solved(round_tube(0.02, 0.002), TRIVET_SIDE_RIGHT).centre[0],
                  -0.01 * sin(PI / 4.0) / (PI / 4.0), ARCS); /* middle of an arc of 90 degrees */
}
END_TEST

START_TEST(a_share_of_the_run_shares_length_and_moments)
{
    trivet__weld_line half = outline_of(square_tube(0.025, 0.002), TRIVET_SIDES_ALL);
    const trivet__weld_line whole = solved(square_tube(0.025, 0.002), TRIVET_SIDES_ALL);
    half.run = 0.5;
    trivet__weld_line_solve(&half);
    near_relative(half.amount, 0.5 * whole.amount, SUMS);
    near_relative(half.S_yy, 0.5 * whole.S_yy, SUMS);
    near_relative(half.outline, whole.outline, SUMS);
}
END_TEST

/* Outlines of angle and channel are as long round as their box; the centroid is the tube's axis. */
START_TEST(open_stock_is_welded_round_its_own_outline)
{
    const trivet__weld_line angle = solved(angle_bar(0.04, 0.03, 0.004), TRIVET_SIDES_ALL);
    near_relative(angle.amount, 2.0 * (0.04 + 0.03), SUMS);
    trivet_profile channel;
    ck_assert_int_eq(trivet_profile_defaults(&channel, sizeof channel), TRIVET_OK);
    channel.shape = TRIVET_SHAPE_CHANNEL;
    channel.height = 0.05;
    channel.width = 0.03;
    channel.wall = 0.004;
    channel.flange = 0.005;
    const trivet__weld_line round = solved(channel, TRIVET_SIDES_ALL);
    near_relative(round.amount, 2.0 * 0.05 + 4.0 * 0.03 - 2.0 * 0.004, SUMS);
    ck_assert(fabs(round.centre[1]) <= SUMS * 0.05 && round.S_yz == 0.0);
    /* By hand, from the back of the web: outline 0.212 m; moment of the lengths 50, 4 x 30 less
     * the two thicknesses of the web on the inside: see the sum below. Centroid of the area: */
    const double area = 0.05 * 0.004 + 2.0 * 0.026 * 0.005;
    const double centroid = (0.05 * 0.004 * 0.002 + 2.0 * 0.026 * 0.005 * 0.017) / area;
    const double lengths = 2.0 * 0.03 * 0.015 +            /* outer faces of the flanges */
                           2.0 * 0.026 * (0.004 + 0.013) + /* inner faces */
                           (0.05 - 2.0 * 0.005) * 0.004 +  /* inner face of the web */
                           2.0 * 0.005 * 0.03;             /* toes */
    near_scaled(round.centre[0], lengths / 0.212 - centroid, SUMS, 0.03);
    trivet_profile given;
    ck_assert_int_eq(trivet_profile_defaults(&given, sizeof given), TRIVET_OK);
    given.shape = TRIVET_SHAPE_GIVEN_VALUES;
    trivet__weld_line none;
    trivet__weld_line_start(&none);
    ck_assert_int_eq(trivet__weld_outline(&given, &NO_SECTION, TRIVET_SIDES_ALL, &none), 0);
}
END_TEST

/* ---- leaning ---- */

static trivet__weld_line leaning(trivet_profile profile, double angle, double y, double z)
{
    trivet__weld_line line = outline_of(profile, TRIVET_SIDES_ALL);
    line.cosine = cos(angle);
    line.lean[0] = y;
    line.lean[1] = z;
    trivet__weld_line_solve(&line);
    return line;
}

START_TEST(a_slanted_cut_stretches_the_sides_along_the_lean)
{
    const double b = 0.02;
    const double d = 0.04;
    const double long_side = d / sin(PI / 6.0);
    const trivet__weld_line line = leaning(rectangle(d, b, 0.002, 0.0), PI / 6.0, 0.0, -1.0);
    near_relative(line.amount, 2.0 * (b + long_side), SUMS);
    near_relative(line.S_yy, b * long_side * long_side / 2.0 + pow(long_side, 3.0) / 6.0, SUMS);
    near_relative(line.S_zz, long_side * b * b / 2.0 + b * b * b / 6.0, SUMS);
}
END_TEST

/* A round tube becomes an ellipse. Length 4 a E(m): E(0.5) = 1.3506438810476755 (Abramowitz &
 * Stegun, table 17.1); moments by the trapezium rule, which is exact to rounding on closed curves.
 */
START_TEST(a_slanted_round_tube_is_an_ellipse)
{
    const double r = 0.0125;
    const trivet__weld_line at_45 = leaning(round_tube(2.0 * r, 0.002), PI / 4.0, 1.0, 0.0);
    near_relative(at_45.amount, 4.0 * sqrt(2.0) * r * 1.3506438810476755, ARCS);
    const double angles[] = {PI / 3.0, PI / 6.0, PI / 18.0};
    for (int i = 0; i < 3; i++) {
        const trivet__weld_line line = leaning(round_tube(2.0 * r, 0.002), angles[i], 0.6, 0.8);
        const double a = r / sin(angles[i]);
        double length = 0.0;
        double along = 0.0;
        double across = 0.0;
        const int count = 20000;
        for (int k = 0; k < count; k++) {
            const double t = 2.0 * PI * k / count;
            const double step = hypot(a * sin(t), r * cos(t)) * 2.0 * PI / count;
            length += step;
            along += step * a * a * cos(t) * cos(t);
            across += step * r * r * sin(t) * sin(t);
        }
        near_relative(line.amount, length, ARCS);
        near_relative(line.S_along, along, ARCS);
        near_relative(line.S_yy + line.S_zz, along + across, ARCS);
        near_scaled(fabs(line.along[0]), 0.6, ARCS, 1.0);
    }
}
END_TEST

/* A pull N at 30 degrees: N sin 30 square to the cut, N cos 30 in it. */
START_TEST(forces_are_turned_with_the_cut)
{
    trivet__weld_line line;
    double turned[6];
    trivet__weld_line_start(&line);
    line.cosine = cos(PI / 6.0);
    line.lean[0] = 0.0;
    line.lean[1] = -1.0;
    const double pull[6] = {100.0, 0.0, 0.0, 7.0, 0.0, 0.0};
    trivet__weld_turn(&line, pull, turned);
    near_relative(turned[0], 50.0, SUMS);
    near_scaled(turned[1], 0.0, SUMS, 100.0);
    near_relative(turned[2], -100.0 * cos(PI / 6.0), SUMS);
    near_relative(turned[3], 3.5, SUMS);
    /* Downward, towards the lean: presses on the face by the cosine, slides by the sine. */
    const double down[6] = {0.0, 0.0, -100.0, 0.0, 0.0, 0.0};
    trivet__weld_turn(&line, down, turned);
    near_relative(turned[0], -100.0 * cos(PI / 6.0), SUMS);
    near_relative(turned[2], -50.0, SUMS);
    /* What lies across the plane of the two tubes stays, sizes as well. */
    const double any[6] = {3.0, 5.0, 7.0, 11.0, 13.0, 17.0};
    trivet__weld_turn(&line, any, turned);
    near_relative(turned[1], 5.0, SUMS);
    near_relative(turned[4], 13.0, SUMS);
    near_relative(turned[0] * turned[0] + turned[2] * turned[2], 9.0 + 49.0, SUMS);
    near_relative(turned[3] * turned[3] + turned[5] * turned[5], 121.0 + 289.0, SUMS);
}
END_TEST

/* ---- forces ---- */

static double resultant(const void *with, const trivet__weld_force *force)
{
    (void)with;
    return sqrt(force->q_x * force->q_x + force->q_t * force->q_t + force->q_n * force->q_n);
}

static double worst(const trivet__weld_line *line, const double forces[6], trivet__weld_force *at)
{
    trivet__weld_load load;
    trivet__weld_load_find(line, forces, &load);
    return trivet__weld_worst(line, &load, resultant, NULL, at);
}

/* Bending about both axes of a circle: sqrt(My^2 + Mz^2) / (pi r^2), on the line between. */
START_TEST(the_worst_place_of_a_round_weld_is_found_between_samples)
{
    const double r = 0.0125;
    const trivet__weld_line line = solved(round_tube(2.0 * r, 0.002), TRIVET_SIDES_ALL);
    const double moments[][2] = {{40.0, 0.0}, {30.0, 40.0}, {-5.0, 12.0}, {1.0, -0.1}};
    for (int i = 0; i < 4; i++) {
        const double M = hypot(moments[i][0], moments[i][1]);
        const double forces[6] = {0.0, 0.0, 0.0, 0.0, moments[i][0], moments[i][1]};
        trivet__weld_force at;
        near_relative(worst(&line, forces, &at), M / (PI * r * r), ARCS);
        near_scaled(at.z * moments[i][1] + at.y * moments[i][0], 0.0, 1e-6, r * M);
    }
}
END_TEST

/* A weld on the top alone: the pull comes off the axis, N b/2 turns it about its own line. */
START_TEST(one_run_takes_moments_about_its_own_line_by_its_throat)
{
    const double b = 0.02;
    const double a = 0.0014;
    trivet__weld_line line = outline_of(rectangle(b, b, 0.002, 0.0), TRIVET_SIDE_TOP);
    line.thickness = a;
    trivet__weld_line_solve(&line);
    const double forces[6] = {900.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    trivet__weld_force at;
    near_relative(worst(&line, forces, &at), 900.0 / b + 6.0 * (900.0 * b / 2.0) / (b * a), SUMS);
    /* Bending in its plane: M / (b^2/6) at its end; and twist: T (b/2) / (b^3/12). */
    const double bent[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 4.0};
    near_relative(worst(&line, bent, &at), 4.0 / (b * b / 6.0), SUMS);
    near_relative(fabs(at.y), b / 2.0, SUMS);
    const double twisted[6] = {0.0, 0.0, 0.0, 4.0, 0.0, 0.0};
    near_relative(worst(&line, twisted, &at), 4.0 * 6.0 / (b * b), SUMS);
    near_relative(fabs(at.q_n), 4.0 * 6.0 / (b * b), SUMS);
}
END_TEST

/* Two sides that meet: the weld is skew. What its forces add up to must be what it carries. */
START_TEST(forces_along_a_skew_weld_add_up_to_the_load)
{
    const trivet__weld_line line =
        solved(rectangle(0.04, 0.02, 0.002, 0.0), TRIVET_SIDE_TOP | TRIVET_SIDE_LEFT);
    const double forces[6] = {300.0, -200.0, 500.0, 8.0, -20.0, 15.0};
    double sums[6] = {0.0};
    trivet__weld_load load;
    trivet__weld_load_find(&line, forces, &load);
    for (int32_t piece = 0; piece < line.piece_count; piece++) {
        for (int p = 0; p < 2; p++) {
            /* Gauss's two points: exact for what grows with the square. */
            trivet__weld_force q;
            trivet__weld_force_at(&line, &load, piece, 0.5 + (p ? 0.5 : -0.5) / sqrt(3.0), &q);
            const double y = q.y + line.centre[0];
            const double z = q.z + line.centre[1];
            const double part = 0.5 * line.lengths[piece];
            const double each[6] = {q.q_x,     q.q_y,     q.q_z, q.q_z * y - q.q_y * z,
                                    q.q_x * z, -q.q_x * y};
            for (int i = 0; i < 6; i++) {
                sums[i] += part * each[i];
            }
        }
    }
    for (int i = 0; i < 6; i++) {
        near_scaled(sums[i], forces[i], SUMS, i < 3 ? 500.0 : 20.0);
    }
}
END_TEST

/* ---- spots ---- */

static trivet__weld_line spots(int32_t count, uint32_t sides)
{
    trivet__weld_line line = outline_of(rectangle(0.02, 0.02, 0.002, 0.0), sides);
    line.spot_count = count;
    line.thickness = 0.005;
    trivet__weld_line_solve(&line);
    return line;
}

START_TEST(spots_sit_evenly_round_the_tube_from_the_middle_of_the_top)
{
    const trivet__weld_line four = spots(4, TRIVET_SIDES_ALL);
    near_relative(four.amount, 4.0, SUMS);
    near_relative(four.S_yy, 2.0 * 0.01 * 0.01, SUMS); /* top and bottom */
    near_relative(four.S_zz, 2.0 * 0.01 * 0.01, SUMS);
    const trivet__weld_line two = spots(2, TRIVET_SIDES_ALL);
    ck_assert_int_eq(two.spread, TRIVET__WELD_ROW);
    near_relative(fabs(two.along[1]), 1.0, SUMS);
    near_relative(two.S_along, 2.0 * 0.01 * 0.01, SUMS);
    ck_assert_int_eq(spots(1, TRIVET_SIDES_ALL).spread, TRIVET__WELD_POINT);
    /* On two sides, a quarter of the way from their ends. */
    const trivet__weld_line split = spots(4, TRIVET_SIDE_TOP | TRIVET_SIDE_BOTTOM);
    near_relative(split.S_zz, 4.0 * 0.005 * 0.005, SUMS);
    near_relative(split.S_yy, 4.0 * 0.01 * 0.01, SUMS);
    /* 80 mm round, spots of 5 mm. */
    ck_assert_int_eq(spots(2000000000, TRIVET_SIDES_ALL).spot_count, 16);
}
END_TEST

/* 4 spots, M = 30 N m about y: top and bottom carry 30/0.02 = 1500 N each; twist: r = 10 mm. */
START_TEST(spots_share_like_bolts)
{
    const trivet__weld_line line = spots(4, TRIVET_SIDES_ALL);
    const double bent[6] = {0.0, 0.0, 0.0, 0.0, 30.0, 0.0};
    trivet__weld_force at;
    near_relative(worst(&line, bent, &at), 1500.0, SUMS);
    const double twisted[6] = {0.0, 0.0, 0.0, 30.0, 0.0, 0.0};
    near_relative(worst(&line, twisted, &at), 30.0 / (4.0 * 0.01), SUMS);
    /* One spot, in the middle of the top: 8 M/d and 4 T/d as well as the force. */
    const trivet__weld_line one = spots(1, TRIVET_SIDES_ALL);
    const double pulled[6] = {100.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    near_relative(worst(&one, pulled, &at), 100.0 + 8.0 * 100.0 * 0.01 / 0.005, SUMS);
    const double turned[6] = {0.0, 0.0, 50.0, 2.0, 0.0, 0.0};
    near_relative(worst(&one, turned, &at), 50.0 + 4.0 * 2.0 / 0.005, SUMS);
}
END_TEST

int main(void)
{
    return run_tests(
        "weld line",
        TESTS(box_and_circle_match_their_closed_forms, rounded_corners_are_counted_as_arcs,
              a_corner_belongs_to_the_weld_if_both_its_sides_do,
              a_share_of_the_run_shares_length_and_moments,
              open_stock_is_welded_round_its_own_outline,
              a_slanted_cut_stretches_the_sides_along_the_lean, a_slanted_round_tube_is_an_ellipse,
              forces_are_turned_with_the_cut,
              the_worst_place_of_a_round_weld_is_found_between_samples,
              one_run_takes_moments_about_its_own_line_by_its_throat,
              forces_along_a_skew_weld_add_up_to_the_load,
              spots_sit_evenly_round_the_tube_from_the_middle_of_the_top, spots_share_like_bolts));
}
