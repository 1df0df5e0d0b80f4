/*
 * The worst von Mises stress of a stretch: shaft formulas of handbooks, and a fine grid as referee.
 */
#include "checks/stress.h"

#include "support/dice.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { N = 0, VY = 1, VZ = 2, T = 3, MY = 4, MZ = 5 };

static const double PI = 3.14159265358979323846;

/* Section values of a round bar or tube from their definitions. */
static trivet_section round_section(double outer, double inner)
{
    trivet_section section;
    memset(&section, 0, sizeof section);
    section.area = PI * (outer * outer - inner * inner);
    section.second_moment[0] = PI / 4.0 * (pow(outer, 4.0) - pow(inner, 4.0));
    section.second_moment[1] = section.second_moment[0];
    section.torsion_modulus = 2.0 * section.second_moment[0] / outer;
    section.outer_radius = outer;
    section.inner_radius = inner;
    return section;
}

static trivet__spot nothing_yet(void)
{
    return (trivet__spot){-1.0, 0.0, 0.0, 0.0, -1};
}

/* Shaft under bending and twist, Shigley: sigma' = 16/(pi d^3) sqrt(4 M^2 + 3 T^2) (from memory).
 */
START_TEST(bar_under_bending_and_twist_matches_the_shaft_formula)
{
    const double d = 0.02;
    const trivet_section section = round_section(d / 2.0, 0.0);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    stretch.forces[MY][0] = 30.0;
    stretch.forces[MZ][0] = 40.0; /* resultant 50 N m */
    stretch.forces[T][0] = 60.0;
    ck_assert_int_eq(trivet__stress_of_rim(&section, &stretch, &spot), 1);
    const double expected = 16.0 / (PI * d * d * d) * sqrt(4.0 * 2500.0 + 3.0 * 3600.0);
    near_relative(sqrt(spot.square), expected, 1e-13);
    /* The place lies across the axis of the resultant moment: along (z, -y) of (My, Mz). */
    near_scaled(fabs(spot.z / spot.y), 30.0 / 40.0, 1e-9, 1.0);
}
END_TEST

/* Jourawski: largest shear stress 4/3 V/A in a bar, 2 V/A in a thin tube (from memory). */
START_TEST(shear_alone_is_worst_at_the_neutral_axis)
{
    const trivet_section bar = round_section(0.01, 0.0);
    const trivet_section tube = round_section(0.01, 0.00999);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    stretch.forces[VZ][0] = 1000.0;
    ck_assert_int_eq(trivet__stress_of_rim(&bar, &stretch, &spot), 1);
    near_relative(sqrt(spot.square), sqrt(3.0) * 4.0 / 3.0 * 1000.0 / bar.area, 1e-13);
    near_scaled(spot.z, 0.0, 1e-9, 0.01);
    spot = nothing_yet();
    ck_assert_int_eq(trivet__stress_of_rim(&tube, &stretch, &spot), 1);
    near_relative(sqrt(spot.square), sqrt(3.0) * 2.0 * 1000.0 / tube.area, 1e-3);
}
END_TEST

/* Vz and T along the same way at +y: the resultant V^T adds there and takes off at -y. */
START_TEST(shear_and_twist_add_on_one_side)
{
    const trivet_section bar = round_section(0.01, 0.0);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    stretch.forces[VZ][0] = 900.0;
    stretch.forces[T][0] = 5.0;
    ck_assert_int_eq(trivet__stress_of_rim(&bar, &stretch, &spot), 1);
    const double tau = 4.0 / 3.0 * 900.0 / bar.area + 5.0 / bar.torsion_modulus;
    near_relative(sqrt(spot.square), sqrt(3.0) * tau, 1e-13);
    near_relative(spot.y, 0.01, 1e-9);
}
END_TEST

static void random_forces(dice *d, trivet__stretch *stretch)
{
    for (int i = 0; i < 6; i++) {
        const double size = i == N ? 4000.0 : i < T ? 900.0 : 20.0;
        for (int k = 0; k < 4; k++) {
            stretch->forces[i][k] = dice_chance(d, 0.7) ? dice_between(d, -size, size) : 0.0;
        }
    }
}

/* sigma^2 + 3 tau^2 on the rim by the formulas of a textbook, at one place and angle. */
static double rim_square(const trivet_section *s, const trivet__stretch *stretch, double t,
                         double phi)
{
    double f[6];
    for (int i = 0; i < 6; i++) {
        const double *const c = stretch->forces[i];
        f[i] = c[0] + t * c[1] + t * t * c[2] + t * t * t * c[3];
    }
    const double ro = s->outer_radius;
    const double ri = s->inner_radius;
    const double y = ro * cos(phi);
    const double z = ro * sin(phi);
    const double k = 4.0 / 3.0 * (ro * ro + ro * ri + ri * ri) / (ro * ro + ri * ri);
    const double sigma =
        f[N] / s->area + f[MY] * z / s->second_moment[0] - f[MZ] * y / s->second_moment[0];
    const double tau =
        f[T] / s->torsion_modulus + k / s->area * (f[VZ] * cos(phi) - f[VY] * sin(phi));
    return sigma * sigma + 3.0 * tau * tau;
}

START_TEST(no_place_on_a_fine_grid_of_the_rim_is_worse)
{
    dice d = dice_new((uint64_t)_i + 1);
    const trivet_section section = round_section(0.0125, _i % 2 ? 0.0105 : 0.0);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    random_forces(&d, &stretch);
    ck_assert_int_eq(trivet__stress_of_rim(&section, &stretch, &spot), 1);
    double largest = 0.0;
    for (int i = 0; i <= 200; i++) {
        for (int k = 0; k < 360; k++) {
            largest = fmax(largest, rim_square(&section, &stretch, i / 200.0, k * PI / 180.0));
        }
    }
    ck_assert_msg(spot.square >= largest * (1.0 - 1e-12), "seed %d: %g below %g", _i + 1,
                  spot.square, largest);
    near_relative(rim_square(&section, &stretch, spot.t, atan2(spot.z, spot.y)), spot.square, 1e-9);
}
END_TEST

/* A section of four points with any influence; the grid evaluates the definition. */
START_TEST(no_place_on_a_fine_grid_of_points_is_worse)
{
    dice d = dice_new((uint64_t)_i + 1001);
    trivet_section section;
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    memset(&section, 0, sizeof section);
    section.area = 2e-4;
    section.second_moment[0] = 2e-8;
    section.second_moment[1] = 1e-8;
    section.product_moment = _i % 2 ? 0.5e-8 : 0.0;
    section.is_open = _i % 3 == 0;
    section.point_count = 4;
    for (int p = 0; p < 4; p++) {
        section.points[p] =
            (trivet_stress_point){dice_between(&d, -0.01, 0.01), dice_between(&d, -0.015, 0.015),
                                  dice_between(&d, -9e3, 9e3), dice_between(&d, -9e3, 9e3), 4e6};
    }
    random_forces(&d, &stretch);
    ck_assert_int_eq(trivet__stress_of_points(&section, &stretch, &spot), 1);
    double largest = 0.0;
    for (int i = 0; i <= 4000; i++) {
        const double t = i / 4000.0;
        double f[6];
        for (int k = 0; k < 6; k++) {
            const double *const c = stretch.forces[k];
            f[k] = c[0] + t * c[1] + t * t * c[2] + t * t * t * c[3];
        }
        /* Bending by solving My = Iyz b + Iyy c, -Mz = Izz b + Iyz c for sigma = b y + c z. */
        const double D = 2e-8 * 1e-8 - pow(section.product_moment, 2.0);
        const double c = (f[MY] * 1e-8 + f[MZ] * section.product_moment) / D;
        const double b = -(f[MZ] * 2e-8 + f[MY] * section.product_moment) / D;
        for (int p = 0; p < 4; p++) {
            const trivet_stress_point *const at = &section.points[p];
            const double sigma = f[N] / 2e-4 + b * at->y + c * at->z;
            const double by_shear = at->per_Vy * f[VY] + at->per_Vz * f[VZ];
            const double by_twist = at->per_T * f[T];
            const double tau =
                section.is_open ? fabs(by_shear) + fabs(by_twist) : by_shear + by_twist;
            largest = fmax(largest, sigma * sigma + 3.0 * tau * tau);
        }
    }
    ck_assert_msg(spot.square >= largest * (1.0 - 1e-12) && spot.square <= largest * 1.0001,
                  "seed %d: %g, grid %g", _i + 1001, spot.square, largest);
}
END_TEST

/*
 * A rectangle h x b turned by an angle has Iyy, Izz and Iyz by the rotation of second moments; the
 * stress at its corner must be the one in its own axes.
 */
START_TEST(skew_axes_give_the_stress_of_the_rectangle_in_its_own_axes)
{
    const double h = 0.04;
    const double b = 0.01;
    const double angle = 0.3 + 0.2 * _i;
    const double Iu = b * h * h * h / 12.0; /* about its width axis u */
    const double Iv = h * b * b * b / 12.0;
    const double C = cos(angle);
    const double S = sin(angle);
    trivet_section section;
    memset(&section, 0, sizeof section);
    section.area = b * h;
    section.second_moment[0] = Iu * C * C + Iv * S * S;
    section.second_moment[1] = Iu * S * S + Iv * C * C;
    section.product_moment = -(Iu - Iv) * S * C;
    /* u along the width at the angle from y towards z, v along the height. */
    const double u = b / 2.0;
    const double v = h / 2.0;
    double per[3];
    trivet__normal_stress(&section, u * C - v * S, u * S + v * C, per);
    const double My = 70.0;
    const double Mz = -30.0;
    const double Mu = My * C + Mz * S;
    const double Mv = Mz * C - My * S;
    near_relative(per[1] * My + per[2] * Mz, Mu * v / Iu - Mv * u / Iv, 1e-12);
    near_relative(per[0], 1.0 / (b * h), 1e-15);
}
END_TEST

START_TEST(what_is_no_number_is_said)
{
    trivet_section section = round_section(0.01, 0.0);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = nothing_yet();
    stretch.forces[MY][1] = (double)NAN;
    ck_assert_int_eq(trivet__stress_of_rim(&section, &stretch, &spot), -1);
    section.point_count = 1;
    section.points[0].z = 0.01;
    ck_assert_int_eq(trivet__stress_of_points(&section, &stretch, &spot), -1);
    stretch.forces[MY][1] = 1e300;
    ck_assert_int_eq(trivet__stress_of_points(&section, &stretch, &spot), -1);
}
END_TEST

START_TEST(a_worse_place_elsewhere_is_kept)
{
    const trivet_section section = round_section(0.01, 0.0);
    trivet__stretch stretch = {.from = 0.0, .to = 1.0};
    trivet__spot spot = {1e30, 0.25, 0.0, 0.0, 7};
    stretch.forces[MY][0] = 1.0;
    ck_assert_int_eq(trivet__stress_of_rim(&section, &stretch, &spot), 0);
    ck_assert_int_eq(spot.point, 7);
    ck_assert(spot.t == 0.25);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(bar_under_bending_and_twist_matches_the_shaft_formula,
              shear_alone_is_worst_at_the_neutral_axis, shear_and_twist_add_on_one_side,
              what_is_no_number_is_said, a_worse_place_elsewhere_is_kept);
    tcase_add_loop_test(tests, no_place_on_a_fine_grid_of_the_rim_is_worse, 0, 60);
    tcase_add_loop_test(tests, no_place_on_a_fine_grid_of_points_is_worse, 0, 60);
    tcase_add_loop_test(tests, skew_axes_give_the_stress_of_the_rectangle_in_its_own_axes, 0, 5);
    return run_tests("stress", tests);
}
