/*
 * Shear stress in the stress points, against V Q/(I t) by hand and against equilibrium: what flows
 * along the walls must add up to the shear force.
 */
#include "stock_of.h"
#include "support/near.h"
#include "support/run.h"

static const double ROUNDING = 64.0 * DBL_EPSILON;

/* The point at a place, mm from the centroid; ends the test if there is none. */
static const trivet_stress_point *point_at(const trivet_section *s, double y, double z)
{
    for (int32_t i = 0; i < s->point_count; i++) {
        if (fabs(s->points[i].y * 1e3 - y) < 1e-6 && fabs(s->points[i].z * 1e3 - z) < 1e-6) {
            return &s->points[i];
        }
    }
    ck_abort_msg("no stress point at y %g mm, z %g mm", y, z);
    return NULL;
}

START_TEST(box_has_corners_and_middles_with_their_signs)
{
    const trivet_section s = solve(sharp_tube(60, 30, 2));
    ck_assert_int_eq(s.point_count, 8);
    /* Half the section about y: 30*30*15 - 26*28*14 mm^3, in two walls of 2 mm. */
    const double I_y = (30 * pow(60, 3) - 26 * pow(56, 3)) / 12;
    const double I_z = (60 * pow(30, 3) - 56 * pow(26, 3)) / 12;
    const double side = (30.0 * 30 * 15 - 26.0 * 28 * 14) / (I_y * 4.0) * 1e6;
    const double top = (60.0 * 15 * 7.5 - 56.0 * 13 * 6.5) / (I_z * 4.0) * 1e6;
    /* A flange on its middle line: 2 * 28 * 29 mm^3; the same about z. */
    const double corner_z = 2.0 * 28 * 29 / (I_y * 4.0) * 1e6;
    const double corner_y = 2.0 * 58 * 14 / (I_z * 4.0) * 1e6;
    for (int i = -1; i <= 1; i += 2) {
        const trivet_stress_point *const at_side = point_at(&s, 15.0 * i, 0.0);
        near_relative(at_side->per_Vz, side * i, ROUNDING);
        ck_assert(at_side->per_Vy == 0.0);
        const trivet_stress_point *const at_top = point_at(&s, 0.0, 30.0 * i);
        near_relative(at_top->per_Vy, -top * i, ROUNDING);
        ck_assert(at_top->per_Vz == 0.0);
        for (int j = -1; j <= 1; j += 2) {
            const trivet_stress_point *const corner = point_at(&s, 15.0 * i, 30.0 * j);
            near_relative(corner->per_Vz, corner_z * i, ROUNDING);
            near_relative(corner->per_Vy, -corner_y * j, ROUNDING);
        }
    }
    for (int32_t i = 0; i < s.point_count; i++) {
        near_relative(s.points[i].per_T, 1.0 / s.torsion_modulus, ROUNDING);
    }
}
END_TEST

START_TEST(bar_has_shear_in_the_middles_alone)
{
    const trivet_section s = solve(profile_of(TRIVET_SHAPE_FLAT_BAR, 40, 6, 0));
    ck_assert_int_eq(s.point_count, 8);
    const double per_V = 1.5 / (240.0 * 1e-6);
    near_relative(point_at(&s, 3, 0)->per_Vz, per_V, ROUNDING);
    near_relative(point_at(&s, -3, 0)->per_Vz, -per_V, ROUNDING);
    near_relative(point_at(&s, 0, 20)->per_Vy, -per_V, ROUNDING);
    near_relative(point_at(&s, 0, -20)->per_Vy, per_V, ROUNDING);
    near_relative(point_at(&s, 0, 20)->per_T, 1.0 / s.torsion_modulus, ROUNDING);
    const trivet_stress_point *const corner = point_at(&s, 3, 20);
    ck_assert(corner->per_Vy == 0.0 && corner->per_Vz == 0.0 && corner->per_T == 0.0);
}
END_TEST

/* Flow is a parabola along a straight wall: Simpson's rule through end, middle, end is exact. */
static double simpson(double first, double middle, double last, double length)
{
    return length / 6.0 * (first + 4.0 * middle + last);
}

START_TEST(flow_in_an_angle_adds_up_to_the_shear)
{
    /* 60 x 40 x 5; heel at -y -z. Middle lines: 57.5 mm down, 37.5 mm outward. */
    const trivet_section s = solve(profile_of(TRIVET_SHAPE_ANGLE, 60, 40, 5));
    ck_assert_int_eq(s.point_count, 17);
    const double left = -20.0 - s.centroid[0] * 1e3;
    const double foot = -30.0 - s.centroid[1] * 1e3;
    const trivet_stress_point *const heel = point_at(&s, left, foot);
    const trivet_stress_point *const upright = point_at(&s, left, foot + 60.0 - 0.5 * 57.5);
    const trivet_stress_point *const flat = point_at(&s, left + 40.0 - 0.5 * 37.5, foot);
    const trivet_stress_point *const toe = point_at(&s, left, foot + 60.0);
    ck_assert(toe->per_Vy == 0.0 && toe->per_Vz == 0.0);
    /* The walk goes down and then outward: Vz flows against it in the upright leg. */
    const double t = 0.005;
    near_relative(simpson(0.0, upright->per_Vz, heel->per_Vz, 0.0575) * t, -1.0, 1e-12);
    near_scaled(simpson(0.0, upright->per_Vy, heel->per_Vy, 0.0575) * t, 0.0, 1e-12, 1.0);
    near_relative(simpson(heel->per_Vy, flat->per_Vy, 0.0, 0.0375) * t, 1.0, 1e-12);
    near_scaled(simpson(heel->per_Vz, flat->per_Vz, 0.0, 0.0375) * t, 0.0, 1e-12, 1.0);
    near_relative(heel->per_T, 1.0 / s.torsion_modulus, ROUNDING);
}
END_TEST

START_TEST(flow_in_a_channel_adds_up_to_the_shear)
{
    /* 50 x 25, web 3, flange 4: middle lines 46 mm and 23.5 mm. */
    const trivet_section s = solve(channel_of(50, 25, 3, 4));
    ck_assert_int_eq(s.point_count, 16);
    const double back = -12.5 - s.centroid[0] * 1e3;
    /* V Q/(I t) on the middle line: in the bend Q = 23.5 * 4 * 23 mm^3. */
    const double I = 3 * pow(46, 3) / 12 + 2 * 23.5 * 4 * pow(23, 2);
    const double bend_flow = 23.5 * 4.0 * 23.0 / I * 1e3;
    const trivet_stress_point *const bend = point_at(&s, back, 25);
    near_relative(fabs(bend->per_Vz) * 0.003, bend_flow, ROUNDING);
    const trivet_stress_point *const web = point_at(&s, back, 0);
    near_relative(simpson(bend->per_Vz, web->per_Vz, bend->per_Vz, 0.046) * 0.003, -1.0, 1e-12);
    const trivet_stress_point *const flange = point_at(&s, back + 25 - 0.5 * 23.5, 25);
    /* The flow in the bend is spread over the thinner web; in the flange over 4 mm. */
    const double bend_in_flange = bend->per_Vy * 0.003 / 0.004;
    near_relative(simpson(0.0, flange->per_Vy, bend_in_flange, 0.0235) * 0.004, -0.5, 1e-12);
}
END_TEST

int main(void)
{
    return run_tests("stress points", TESTS(box_has_corners_and_middles_with_their_signs,
                                            bar_has_shear_in_the_middles_alone,
                                            flow_in_an_angle_adds_up_to_the_shear,
                                            flow_in_a_channel_adds_up_to_the_shear));
}
