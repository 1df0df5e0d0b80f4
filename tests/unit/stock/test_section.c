/*
 * Section values by hand for one size of every shape, in mm, with the sums written out.
 */
#include "stock_of.h"
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"

#include <string.h>

#define PI 3.14159265358979323846
#define MM2 1e-6
#define MM3 1e-9
#define MM4 1e-12

/* Sums of a few dozen terms, and sizes that came from mm. */
static const double ROUNDING = 64.0 * DBL_EPSILON;

START_TEST(sharp_rectangular_tube_is_the_difference_of_two_rectangles)
{
    const trivet_section s = solve(sharp_tube(60, 30, 2));
    near_relative(s.area, (60.0 * 30.0 - 56.0 * 26.0) * MM2, ROUNDING);
    near_relative(s.second_moment[0], (30 * pow(60, 3) - 26 * pow(56, 3)) / 12 * MM4, ROUNDING);
    near_relative(s.second_moment[1], (60 * pow(30, 3) - 56 * pow(26, 3)) / 12 * MM4, ROUNDING);
    near_relative(s.plastic_modulus[0], (30.0 * 60 * 60 - 26.0 * 56 * 56) / 4 * MM3, ROUNDING);
    near_relative(s.elastic_modulus[1], s.second_moment[1] / 0.015, ROUNDING);
    near_relative(s.perimeter, 0.18, ROUNDING);
    ck_assert(s.product_moment == 0.0 && s.centroid[0] == 0.0 && s.centroid[1] == 0.0);
    ck_assert(s.principal_angle == 0.0);
    ck_assert(s.principal_moment[0] == s.second_moment[0]);
    near_relative(s.radius_of_gyration[0], sqrt(s.second_moment[0] / s.area), ROUNDING);
    ck_assert_int_eq(s.is_open, 0);
}
END_TEST

START_TEST(tube_lying_flat_has_its_larger_axis_upright)
{
    const trivet_section s = solve(sharp_tube(30, 60, 2));
    near_relative(s.principal_angle, PI / 2.0, ROUNDING);
    ck_assert(s.principal_moment[0] == s.second_moment[1]);
}
END_TEST

START_TEST(standard_corner_follows_the_wall)
{
    /* EN 10219-2: ro = 2 T to 6 mm, 2.5 T to 10 mm, 3 T above. Outline: 4 b - (8 - 2 pi) ro. */
    static const struct {
        double wall;
        double radius;
    } rows[] = {{2, 4}, {6, 12}, {6.3, 15.75}, {10, 25}, {12, 36}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const trivet_section s = solve(profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 200, rows[i].wall));
        near_relative(s.perimeter, (800.0 - (8.0 - 2.0 * PI) * rows[i].radius) / 1e3, ROUNDING);
    }
}
END_TEST

START_TEST(given_corner_radius_is_taken)
{
    trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 50, 3);
    tube.corner = TRIVET_CORNER_RADIUS;
    tube.corner_radius = 0.005;
    const trivet_section s = solve(tube);
    /* Outside 5 mm, inside 5 - 3 = 2 mm. */
    near_relative(s.area, (50.0 * 50 - 44.0 * 44 - (4 - PI) * (25.0 - 4.0)) * MM2, ROUNDING);
    /* Below the wall thickness the inside is sharp. */
    tube.corner_radius = 0.002;
    near_relative(solve(tube).area, (50.0 * 50 - 44.0 * 44 - (4 - PI) * 4.0) * MM2, ROUNDING);
}
END_TEST

START_TEST(box_shear_area_is_that_of_the_shear_flow)
{
    /* Thin square box: I^2 / integral of Q^2/t ds = 5/3 t s, s the side of the middle line. */
    const trivet_section square = solve(sharp_tube(40, 40, 2));
    near_relative(square.shear_area[0], 5.0 / 3.0 * 2.0 * 38.0 * MM2, ROUNDING);
    near_relative(square.shear_area[1], 5.0 / 3.0 * 2.0 * 38.0 * MM2, ROUNDING);

    /* 60 x 30 x 2: the flow walked along the middle line in small steps. */
    const double t = 2.0;
    const double h = 58.0;
    const double b = 28.0;
    enum { STEPS = 20000 };
    double Q = 0.0;
    double sum = 0.0;
    for (int i = 0; i < STEPS; i++) { /* half a flange, from its middle */
        const double ds = 0.5 * b / STEPS;
        const double Q_middle = Q + 0.5 * ds * t * 0.5 * h;
        sum += Q_middle * Q_middle / t * ds;
        Q += ds * t * 0.5 * h;
    }
    for (int i = 0; i < STEPS; i++) { /* half a web, from the corner */
        const double ds = 0.5 * h / STEPS;
        const double z = 0.5 * h - (i + 0.5) * ds;
        const double Q_middle = Q + 0.5 * ds * t * z;
        sum += Q_middle * Q_middle / t * ds;
        Q += ds * t * z;
    }
    const double I = t * (2.0 * b * h * h / 4.0 + h * h * h / 6.0);
    const trivet_section s = solve(sharp_tube(60, 30, 2));
    /* Middle sums are off by the square of the step: 1/20000^2. */
    near_relative(s.shear_area[1], I * I / (4.0 * sum) * MM2, 1e-8);
}
END_TEST

START_TEST(round_sections_have_shear_areas_of_cowper)
{
    /* Cowper 1966, table 1, for nu = 0.3: circle 7.8/8.8, thin tube 2(1+nu)/(4+3nu) = 2.6/4.9. */
    const trivet_section bar = solve(round_of(TRIVET_SHAPE_ROUND_BAR, 20, 0));
    near_relative(bar.shear_area[0], bar.area * 7.8 / 8.8, ROUNDING);
    const trivet_section tube = solve(round_of(TRIVET_SHAPE_ROUND_TUBE, 1000, 0.01));
    near_relative(tube.shear_area[1], tube.area * 2.6 / 4.9, 1e-4);
    const trivet_section flat = solve(profile_of(TRIVET_SHAPE_FLAT_BAR, 40, 6, 0));
    near_relative(flat.shear_area[0], flat.area * 13.0 / 15.3, ROUNDING);
}
END_TEST

START_TEST(round_sections_have_radii_and_no_points)
{
    const trivet_section tube = solve(round_of(TRIVET_SHAPE_ROUND_TUBE, 25, 2));
    near_relative(tube.outer_radius, 0.0125, ROUNDING);
    near_relative(tube.inner_radius, 0.0105, ROUNDING);
    ck_assert_int_eq(tube.point_count, 0);
    near_relative(tube.second_moment[1], PI / 64 * (pow(25, 4) - pow(21, 4)) * MM4, ROUNDING);
    near_relative(tube.plastic_modulus[0], (pow(25, 3) - pow(21, 3)) / 6 * MM3, ROUNDING);
    near_relative(tube.torsion_constant, 2.0 * tube.second_moment[0], ROUNDING);
    near_relative(tube.torsion_modulus, tube.torsion_constant / 0.0125, ROUNDING);
    near_relative(tube.perimeter, PI * 0.025, ROUNDING);
}
END_TEST

START_TEST(torsion_of_a_bar_does_not_mind_which_side_is_longer)
{
    const trivet_section up = solve(profile_of(TRIVET_SHAPE_FLAT_BAR, 40, 6, 0));
    const trivet_section flat = solve(profile_of(TRIVET_SHAPE_FLAT_BAR, 6, 40, 0));
    ck_assert(up.torsion_constant == flat.torsion_constant);
    ck_assert(up.torsion_modulus == flat.torsion_modulus);
    ck_assert(up.second_moment[0] == flat.second_moment[1]);
    /* A thin strip: b t^3/3 (1 - 0.630 t/b), Timoshenko & Goodier art. 109. */
    const trivet_section strip = solve(profile_of(TRIVET_SHAPE_FLAT_BAR, 100, 1, 0));
    near_relative(strip.torsion_constant, 100.0 / 3.0 * (1.0 - 0.630 / 100.0) * MM4, 1e-5);
}
END_TEST

/* Angle 60 x 40 x 5 with sharp corners as two rectangles: 60 x 5 upright, 35 x 5 beside its foot.
 */
START_TEST(unequal_angle_is_the_sum_of_its_legs)
{
    const double A1 = 300.0;
    const double A2 = 175.0;
    const double y1 = 2.5;
    const double z1 = 30.0;
    const double y2 = 22.5;
    const double z2 = 2.5;
    const double y = (A1 * y1 + A2 * y2) / (A1 + A2);
    const double z = (A1 * z1 + A2 * z2) / (A1 + A2);
    const double Iyy =
        5 * pow(60, 3) / 12 + A1 * pow(z1 - z, 2) + 35 * pow(5, 3) / 12 + A2 * pow(z2 - z, 2);
    const double Izz =
        60 * pow(5, 3) / 12 + A1 * pow(y1 - y, 2) + 5 * pow(35, 3) / 12 + A2 * pow(y2 - y, 2);
    const double Iyz = A1 * (y1 - y) * (z1 - z) + A2 * (y2 - y) * (z2 - z);
    const trivet_section s = solve(profile_of(TRIVET_SHAPE_ANGLE, 60, 40, 5));
    near_relative(s.area, 475.0 * MM2, ROUNDING);
    near_relative(s.centroid[0], (y - 20.0) / 1e3, ROUNDING);
    near_relative(s.centroid[1], (z - 30.0) / 1e3, ROUNDING);
    near_relative(s.second_moment[0], Iyy * MM4, ROUNDING);
    near_relative(s.second_moment[1], Izz * MM4, ROUNDING);
    near_relative(s.product_moment, Iyz * MM4, ROUNDING);
    ck_assert(s.product_moment < 0.0);
    near_relative(s.elastic_modulus[0], Iyy / (60.0 - z) * MM3, ROUNDING);
    near_relative(s.shear_area[1], 5.0 / 6.0 * 300.0 * MM2, ROUNDING);
    near_relative(s.shear_area[0], 5.0 / 6.0 * 200.0 * MM2, ROUNDING);
    ck_assert_int_eq(s.is_open, 1);
    /* 57.5 and 37.5 mm to the middle lines. */
    near_relative(s.torsion_constant, 95.0 * 125.0 / 3.0 * MM4, ROUNDING);
    near_relative(s.torsion_modulus, 95.0 * 25.0 / 3.0 * MM3, ROUNDING);
}
END_TEST

START_TEST(principal_axes_carry_no_product_and_the_larger_moment)
{
    const trivet_section s = solve(profile_of(TRIVET_SHAPE_ANGLE, 60, 40, 5));
    const double c = cos(s.principal_angle);
    const double si = sin(s.principal_angle);
    const double Iyy = s.second_moment[0];
    const double Izz = s.second_moment[1];
    const double Iyz = s.product_moment;
    /* Distance from an axis turned by the angle about +x: z cos - y sin. */
    near_relative(Iyy * c * c + Izz * si * si - 2.0 * Iyz * si * c, s.principal_moment[0],
                  ROUNDING);
    near_scaled((Iyy - Izz) * si * c + Iyz * (c * c - si * si), 0.0, ROUNDING, Iyy);
    near_relative(s.principal_moment[0] + s.principal_moment[1], Iyy + Izz, ROUNDING);
    near_relative(s.principal_moment[0] * s.principal_moment[1], Iyy * Izz - Iyz * Iyz, ROUNDING);

    /* An equal angle: the axis of symmetry runs from the heel outward at 45 degrees. */
    const trivet_section equal = solve(profile_of(TRIVET_SHAPE_ANGLE, 40, 40, 4));
    near_relative(equal.principal_angle, PI / 4.0, ROUNDING);
}
END_TEST

START_TEST(plastic_moduli_halve_the_area)
{
    /*
     * Angle 40 x 40 x 4: half of 304 mm^2 fills 3.8 mm of the foot. 152 * 1.9 below, 8 * 0.1 and
     * 144 * 18.2 above.
     */
    const trivet_section angle = solve(profile_of(TRIVET_SHAPE_ANGLE, 40, 40, 4));
    near_relative(angle.plastic_modulus[0], 2910.4 * MM3, 1e-12);
    near_relative(angle.plastic_modulus[1], 2910.4 * MM3, 1e-12);
    /*
     * Channel 50 x 25 x 3: about z, half of 282 mm^2 fills 2.82 mm of the web: 141 * 1.41 there,
     * 9 * 0.09 and 132 * 11.18 beyond. About y: 2 (75 * 23.5 + 66 * 11).
     */
    const trivet_section channel = solve(channel_of(50, 25, 3, 3));
    near_relative(channel.plastic_modulus[1], 1675.38 * MM3, 1e-12);
    near_relative(channel.plastic_modulus[0], 4977.0 * MM3, 1e-12);
}
END_TEST

START_TEST(given_values_are_handed_on)
{
    trivet_profile given = profile_of(TRIVET_SHAPE_GIVEN_VALUES, 0, 0, 0);
    given.given_area = 400 * MM2;
    given.given_second_moment[0] = 90000 * MM4;
    given.given_second_moment[1] = 40000 * MM4;
    given.given_torsion_constant = 70000 * MM4;
    const trivet_section bare = solve(given);
    ck_assert(isinf(bare.shear_area[0]) && isinf(bare.shear_area[1]));
    ck_assert(isnan(bare.elastic_modulus[0]) && isnan(bare.plastic_modulus[1]));
    ck_assert(isnan(bare.torsion_modulus) && isnan(bare.perimeter) && isnan(bare.height));
    ck_assert_int_eq(bare.point_count, 0);
    ck_assert(bare.mass_per_length == 0.0);
    near_relative(bare.radius_of_gyration[0], 0.015, ROUNDING);

    given.given_section_modulus[0] = 4500 * MM3;
    given.given_section_modulus[1] = 4000 * MM3;
    given.given_torsion_modulus = 3500 * MM3;
    given.given_shear_area[1] = 160 * MM2;
    given.given_mass_per_length = 3.2;
    const trivet_section full = solve(given);
    near_relative(full.shear_area[1], 160 * MM2, ROUNDING);
    ck_assert(full.mass_per_length == 3.2);
    ck_assert_int_eq(full.point_count, 4);
    near_relative(full.points[0].y, 0.010, ROUNDING);
    near_relative(full.points[0].z, 0.020, ROUNDING);
    near_relative(full.points[0].per_T, 1.0 / (3500 * MM3), ROUNDING);
    near_relative(full.points[0].per_Vz, 1.0 / (160 * MM2), ROUNDING);
    near_relative(full.points[0].per_Vy, -1.5 / (400 * MM2), ROUNDING);
    near_relative(full.points[2].y, -0.010, ROUNDING);
    near_relative(full.points[2].z, -0.020, ROUNDING);
}
END_TEST

START_TEST(turned_profile_swaps_its_axes)
{
    const trivet_section up = solve(profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, 60, 30, 2));
    const trivet_section flat = solve(profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, 30, 60, 2));
    for (int i = 0; i < 2; i++) {
        near_relative(up.second_moment[i], flat.second_moment[1 - i], ROUNDING);
        near_relative(up.plastic_modulus[i], flat.plastic_modulus[1 - i], ROUNDING);
        near_relative(up.shear_area[i], flat.shear_area[1 - i], ROUNDING);
    }
    near_relative(up.torsion_constant, flat.torsion_constant, ROUNDING);
}
END_TEST

START_TEST(only_the_sizes_we_have_had_are_accepted)
{
    defaults_take_own_size(trivet_section, trivet_section_defaults);

    const trivet_profile bar = round_of(TRIVET_SHAPE_ROUND_BAR, 10, 0);
    trivet_section section = {.size = 7, .area = 3.0};
    trivet_message message;
    ck_assert_int_eq(trivet_section_solve(&bar, &section, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 7, sizeof section);
    ck_assert_str_eq(message.thing, "section");
    ck_assert(section.area == 3.0);
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    const trivet_profile bar = round_of(TRIVET_SHAPE_ROUND_BAR, 10, 0);
    trivet_section section;
    trivet_message message;
    ck_assert_int_eq(trivet_section_solve(&bar, NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "section_out");
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_int_eq(trivet_section_solve(NULL, &section, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "profile");
}
END_TEST

/* EN 10219-2 annex B: 2 T up to 6 mm, 2.5 T up to 10 mm, 3 T above; inside one wall less. */
START_TEST(corner_radii_are_told)
{
    const double walls[4][3] = {
        {2.0, 4.0, 2.0}, {6.0, 12.0, 6.0}, {8.0, 20.0, 12.0}, {12.0, 36.0, 24.0}};
    double outer = 7.0;
    double inner = 7.0;
    for (int i = 0; i < 4; i++) {
        const trivet_profile tube =
            profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, 200.0, 120.0, walls[i][0]);
        ck_assert_int_eq(trivet_profile_radii(&tube, &outer, &inner), TRIVET_OK);
        near_relative(outer, walls[i][1] / 1e3, ROUNDING);
        near_relative(inner, walls[i][2] / 1e3, ROUNDING);
    }
    const trivet_profile sharp = sharp_tube(60, 30, 2);
    ck_assert_int_eq(trivet_profile_radii(&sharp, &outer, &inner), TRIVET_OK);
    ck_assert(outer == 0.0 && inner == 0.0);
    ck_assert_int_eq(trivet_profile_radii(&sharp, NULL, NULL), TRIVET_OK);
    outer = inner = 7.0;
    const trivet_profile round = round_of(TRIVET_SHAPE_ROUND_TUBE, 20.0, 2.0);
    ck_assert_int_eq(trivet_profile_radii(&round, &outer, &inner), TRIVET_BAD_VALUE);
    ck_assert(outer == 0.0 && inner == 0.0);
    ck_assert_int_eq(trivet_profile_radii(NULL, &outer, &inner), TRIVET_MISSING_ARGUMENT);
    trivet_profile strange = sharp;
    strange.size = 8;
    ck_assert_int_eq(trivet_profile_radii(&strange, &outer, &inner), TRIVET_BAD_SIZE);
}
END_TEST

int main(void)
{
    return run_tests(
        "sections",
        TESTS(sharp_rectangular_tube_is_the_difference_of_two_rectangles,
              tube_lying_flat_has_its_larger_axis_upright, standard_corner_follows_the_wall,
              given_corner_radius_is_taken, box_shear_area_is_that_of_the_shear_flow,
              round_sections_have_shear_areas_of_cowper, round_sections_have_radii_and_no_points,
              torsion_of_a_bar_does_not_mind_which_side_is_longer,
              unequal_angle_is_the_sum_of_its_legs,
              principal_axes_carry_no_product_and_the_larger_moment, plastic_moduli_halve_the_area,
              given_values_are_handed_on, turned_profile_swaps_its_axes,
              only_the_sizes_we_have_had_are_accepted, missing_arguments_are_named,
              corner_radii_are_told));
}
