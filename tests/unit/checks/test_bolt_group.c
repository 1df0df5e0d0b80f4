/*
 * How a pattern of bolts shares forces: balance, proportion, and what it cannot take.
 */
#include "checks/bolt_group.h"

#include "support/dice.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

static trivet_bolts at_places(const double (*places)[2], int32_t count)
{
    trivet_bolts bolts = {.count = count};
    memcpy(bolts.pattern, places, (size_t)count * sizeof *places);
    return bolts;
}

/* Force and moment about the joint that the shares and the rest make up; compares. */
static void must_balance(const trivet_bolts *bolts, const double forces[6],
                         double shares[TRIVET_BOLTS_MAX][3], const double rest[3], double scale)
{
    double sums[6] = {0.0, 0.0, 0.0, rest[0], rest[1], rest[2]};
    for (int32_t i = 0; i < bolts->count; i++) {
        const double x = bolts->pattern[i][0];
        const double y = bolts->pattern[i][1];
        for (int k = 0; k < 3; k++) {
            sums[k] += shares[i][k];
        }
        sums[3] += y * shares[i][2];
        sums[4] -= x * shares[i][2];
        sums[5] += x * shares[i][1] - y * shares[i][0];
    }
    for (int k = 0; k < 6; k++) {
        near_scaled(sums[k], forces[k], 1e-12, scale);
    }
}

START_TEST(one_bolt_takes_the_force_and_no_moment)
{
    const double places[1][2] = {{0.02, 0.01}};
    const trivet_bolts bolts = at_places(places, 1);
    const double forces[6] = {10.0, 20.0, 300.0, 4.0, 5.0, 6.0};
    double shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    trivet__bolt_shares(&bolts, forces, shares, rest);
    for (int k = 0; k < 3; k++) {
        near_relative(shares[0][k], forces[k], 1e-15);
    }
    /* M - r x F with r = (0.02, 0.01, 0): r x F = (3, -6, 0.3). */
    near_relative(rest[0], 1.0, 1e-12);
    near_relative(rest[1], 11.0, 1e-12);
    near_relative(rest[2], 5.7, 1e-12);
}
END_TEST

/* Three bolts: the balance alone tells the pull. */
START_TEST(three_bolts_pull_as_balance_demands)
{
    const double places[3][2] = {{0.0, 0.0}, {0.1, 0.0}, {0.0, 0.1}};
    const trivet_bolts bolts = at_places(places, 3);
    const double forces[6] = {0.0, 0.0, 0.0, 30.0, 0.0, 0.0};
    double shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    trivet__bolt_shares(&bolts, forces, shares, rest);
    near_relative(shares[0][2], -300.0, 1e-12);
    near_scaled(shares[1][2], 0.0, 1e-12, 300.0);
    near_relative(shares[2][2], 300.0, 1e-12);
    ck_assert(rest[0] == 0.0 && rest[1] == 0.0 && rest[2] == 0.0);
}
END_TEST

/* Rows at y = -60, 0, 60 mm, two each: M y / sum y^2 = 144 x 0.06 / (4 x 0.06^2) = 600 N. */
START_TEST(pull_grows_with_the_distance)
{
    const double places[6][2] = {{-0.04, -0.06}, {0.04, -0.06}, {-0.04, 0.0},
                                 {0.04, 0.0},    {-0.04, 0.06}, {0.04, 0.06}};
    const trivet_bolts bolts = at_places(places, 6);
    const double forces[6] = {0.0, 0.0, 120.0, 144.0, 0.0, 0.0};
    double shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    trivet__bolt_shares(&bolts, forces, shares, rest);
    near_relative(shares[0][2], 20.0 - 600.0, 1e-12);
    near_relative(shares[3][2], 20.0, 1e-12);
    near_relative(shares[5][2], 20.0 + 600.0, 1e-12);
}
END_TEST

/* A row along x: My is taken (x = 30 mm: 90 x 0.03 / (2 x 0.03^2) = 1500 N), Mx is not. */
START_TEST(a_row_leaves_the_moment_about_its_own_line)
{
    const double places[2][2] = {{-0.03, 0.0}, {0.03, 0.0}};
    const trivet_bolts bolts = at_places(places, 2);
    const double forces[6] = {0.0, 0.0, 0.0, 50.0, 90.0, 12.0};
    double shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    trivet__bolt_shares(&bolts, forces, shares, rest);
    near_relative(shares[0][2], 1500.0, 1e-12);
    near_relative(shares[1][2], -1500.0, 1e-12);
    near_relative(shares[1][1], 200.0, 1e-12);
    near_relative(rest[0], 50.0, 1e-12);
    ck_assert(rest[1] == 0.0 && rest[2] == 0.0);
}
END_TEST

/* The same row turned by 35 degrees, forces turned with it: the same pulls, the rest turned. */
START_TEST(a_slanting_row_shares_like_a_straight_one)
{
    const double angle = 35.0 * acos(-1.0) / 180.0;
    const double c = cos(angle);
    const double s = sin(angle);
    const double places[3][2] = {{-0.03 * c, -0.03 * s}, {0.0, 0.0}, {0.03 * c, 0.03 * s}};
    const trivet_bolts bolts = at_places(places, 3);
    const double forces[6] = {0.0, 0.0, 60.0, 50.0 * c - 90.0 * s, 50.0 * s + 90.0 * c, 0.0};
    double shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    trivet__bolt_shares(&bolts, forces, shares, rest);
    near_relative(shares[0][2], 20.0 + 1500.0, 1e-12);
    near_relative(shares[2][2], 20.0 - 1500.0, 1e-12);
    near_relative(rest[0], 50.0 * c, 1e-12);
    near_relative(rest[1], 50.0 * s, 1e-12);
    near_scaled(rest[2], 0.0, 1e-12, 50.0);
}
END_TEST

/* Any pattern: the shares balance the load, and turning everything turns the shares. */
START_TEST(shares_balance_and_turn_with_the_pattern)
{
    dice roll = dice_new((uint64_t)_i + 1);
    trivet_bolts bolts = {.count = 2 + _i % 15};
    trivet_bolts turned = bolts;
    const double angle = dice_between(&roll, -3.0, 3.0);
    const double c = cos(angle);
    const double s = sin(angle);
    double forces[6];
    double shares[TRIVET_BOLTS_MAX][3];
    double turned_shares[TRIVET_BOLTS_MAX][3];
    double rest[3];
    double turned_rest[3];
    for (int32_t i = 0; i < bolts.count; i++) {
        const double x = bolts.pattern[i][0] = dice_between(&roll, -0.1, 0.1);
        const double y = bolts.pattern[i][1] = dice_between(&roll, -0.1, 0.1);
        turned.pattern[i][0] = c * x - s * y;
        turned.pattern[i][1] = s * x + c * y;
    }
    for (int k = 0; k < 6; k++) {
        forces[k] = dice_between(&roll, -1000.0, 1000.0);
    }
    const double turned_forces[6] = {
        c * forces[0] - s * forces[1], s * forces[0] + c * forces[1], forces[2],
        c * forces[3] - s * forces[4], s * forces[3] + c * forces[4], forces[5]};
    trivet__bolt_shares(&bolts, forces, shares, rest);
    trivet__bolt_shares(&turned, turned_forces, turned_shares, turned_rest);
    double scale = 1000.0;
    for (int32_t i = 0; i < bolts.count; i++) {
        scale = fmax(scale, fabs(shares[i][2]));
    }
    must_balance(&bolts, forces, shares, rest, scale);
    /* Narrow patterns lose digits in the determinant: by 1e6 at most, where they become rows. */
    for (int32_t i = 0; i < bolts.count; i++) {
        near_scaled(turned_shares[i][2], shares[i][2], 1e-9, scale);
        near_scaled(turned_shares[i][0], c * shares[i][0] - s * shares[i][1], 1e-9, scale);
    }
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(one_bolt_takes_the_force_and_no_moment, three_bolts_pull_as_balance_demands,
              pull_grows_with_the_distance, a_row_leaves_the_moment_about_its_own_line,
              a_slanting_row_shares_like_a_straight_one);
    tcase_add_loop_test(tests, shares_balance_and_turn_with_the_pattern, 0, 100);
    return run_tests("bolt_group", tests);
}
