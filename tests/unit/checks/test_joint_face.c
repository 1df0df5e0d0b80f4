/*
 * The rules for walls that are welded onto, as plain numbers, beside arithmetic by hand on the
 * formulas of EN 1993-1-8:2005 chapter 7 (from memory). Six digits are written out; half a unit of
 * the sixth is at most 5e-6 of a number.
 */
#include "checks/joint_face.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define SIX_DIGITS 5e-6
#define RIGHT_ANGLE 1.57079632679489662

/* Steel of 235 N/mm^2, sizes in mm, at a right angle; box on box. */
static trivet__face box_on_box(double b0, double t0, double b1, double h1, double t1)
{
    trivet__face face;
    memset(&face, 0, sizeof face);
    face.b0 = face.h0 = 1e-3 * b0;
    face.t0 = 1e-3 * t0;
    face.b1 = 1e-3 * b1;
    face.h1 = 1e-3 * h1;
    face.t1 = 1e-3 * t1;
    face.f0 = face.f1 = 235e6;
    face.E = 210e9;
    face.angle = RIGHT_ANGLE;
    return face;
}

static trivet__face round_on_round(void)
{
    trivet__face face = box_on_box(42.4, 2.6, 26.9, 26.9, 2.3);
    face.is_round = face.is_round_brace = 1;
    return face;
}

static trivet__face_strength solved(trivet__face face, double n, int is_push)
{
    trivet__face_strength strength;
    trivet__face_solve(&face, n, is_push, &strength);
    return strength;
}

/*
 * 25 on 40 x 3: fy t^2 = 235 * 9 = 2115 N; beta = eta = 0.625; sqrt(1 - beta) = 0.612372.
 * At 45 degrees sin = 0.707107: 2115 / (0.375 * 0.707107) (1.25 / 0.707107 + 2.449490).
 */
START_TEST(a_narrow_tube_bends_the_face)
{
    trivet__face face = box_on_box(40.0, 3.0, 25.0, 25.0, 2.0);
    ck_assert_int_eq(trivet__face_rule_of(&face), TRIVET__FACE_NARROW);
    trivet__face_strength s = solved(face, 0.0, 0);
    /* 2115 (25 * 1.625 / 0.75 + sqrt(2 * 40 * 25 * 1.625 / 0.375)) = 2115 (54.1667 + 93.0949) */
    near_relative(s.M_of, 311.458, SIX_DIGITS);
    /* 2 * 235 * 3 (75 + sqrt(1600 * 3 * 80)) = 1410 * 694.677 */
    near_relative(s.M_od, 979.495, SIX_DIGITS);
    ck_assert(s.M_oR == s.M_of);
    /* Push or pull is the same to the face. */
    ck_assert(solved(face, 0.0, 1).N_R == s.N_R);
    face.is_round_brace = 1;
    near_relative(solved(face, 0.0, 0).N_R, 0.785398 * s.N_R, SIX_DIGITS);
    face.is_round_brace = 0;
    face.angle = 0.5 * RIGHT_ANGLE;
    near_relative(solved(face, 0.0, 0).N_R, 33637.5, SIX_DIGITS);
}
END_TEST

/* kn = 1.3 - 0.4 n / beta, not above 1: with beta 0.625 and n 0.6, 0.916; with n 0.4, 1. */
START_TEST(compression_in_the_wall_weakens_it)
{
    const trivet__face box = box_on_box(40.0, 3.0, 25.0, 25.0, 2.0);
    const double free = solved(box, 0.0, 0).N_R;
    near_relative(solved(box, 0.6, 0).N_R, 0.916 * free, 1e-12);
    ck_assert(solved(box, 0.4, 0).N_R == free);
    ck_assert(solved(box, 5.0, 0).N_R > 0.0);
    ck_assert(solved(box, 5.0, 0).N_R < 0.02 * free);
    /* kp = 1 - 0.3 n (1 + n): n 0.5, 0.775. */
    const trivet__face round = round_on_round();
    near_relative(solved(round, 0.5, 0).N_R, 0.775 * solved(round, 0.0, 0).N_R, 1e-12);
}
END_TEST

/*
 * 40 on 40 x 3, plastic modulus of the tube welded on set to 5970 mm^3: lambda = 3.46 * 11.3333 /
 * (pi sqrt(210000 / 235)) = 0.417550, phi = 0.640474, chi = 0.888000; push: chi * 235 * 3 (80 + 30)
 * = 68864.4 N; pull: 235 * 3 * 110 = 77550 N.
 */
START_TEST(as_wide_as_the_wall_the_side_walls_carry)
{
    trivet__face face = box_on_box(40.0, 3.0, 40.0, 40.0, 3.0);
    face.plastic1[0] = face.plastic1[1] = 5970e-9;
    ck_assert_int_eq(trivet__face_rule_of(&face), TRIVET__FACE_WIDE);
    const trivet__face_strength push = solved(face, 0.0, 1);
    near_relative(push.lambda, 0.417550, SIX_DIGITS);
    near_relative(push.chi, 0.888000, SIX_DIGITS);
    near_relative(push.N_R, 68864.4, SIX_DIGITS);
    near_relative(solved(face, 0.0, 0).N_R, 77550.0, 1e-12);
    /* b_eff = 10 * 3 / 40 * 40 = 30 mm; 235 * 3 (80 - 12 + 60) */
    near_relative(push.b_eff, 0.030, 1e-12);
    near_relative(push.N_b, 90240.0, 1e-12);
    /* 0.5 * 235 * 3 * 55^2; 235 (5970 - 0.25 * 40 * 37 * 3) */
    near_relative(push.M_if, 1066.3125, 1e-12);
    near_relative(push.M_ib, 1142.1, 1e-12);
    ck_assert(push.M_iR == push.M_if);
    /* 235 * 3 * 37 * 55; 235 (5970 - 0.5 / 16 * 1600 * 3); 1410 (120 + sqrt(384000)) */
    near_relative(push.M_of, 1434.675, 1e-12);
    near_relative(push.M_ob, 1367.7, 1e-12);
    near_relative(push.M_od, 1042.945, SIX_DIGITS);
    ck_assert(push.M_oR == push.M_od);
    /* From both sides: 0.8 of it, 0.8 * 68864.4. */
    face.is_cross = 1;
    near_relative(solved(face, 0.0, 1).N_R, 55091.5, SIX_DIGITS);
    near_relative(solved(face, 0.0, 0).M_if, 0.8 * 1066.3125, 1e-12);
}
END_TEST

/*
 * 55.5 on 60 x 3 (beta 0.925, half way from 0.85 to 1), 40 along: face 40643.6 N, side walls under
 * push 57956.8 N, between them 49300.2 N. 52 on 60 (0.8667 <= 0.9) may also punch through:
 * 235 * 3 / sqrt(3) (80 + 52) = 53728.2 N.
 */
START_TEST(between_face_and_side_walls_runs_a_straight_line)
{
    const trivet__face face = box_on_box(60.0, 3.0, 55.5, 40.0, 3.0);
    const trivet__face_strength s = solved(face, 0.0, 1);
    near_relative(s.N_f, 40643.6, SIX_DIGITS);
    near_relative(s.N_w, 57956.8, SIX_DIGITS);
    near_relative(s.N_R, 49300.2, SIX_DIGITS);
    ck_assert(!trivet__face_punches(&face));
    const trivet__face narrower = box_on_box(60.0, 3.0, 52.0, 40.0, 3.0);
    ck_assert(trivet__face_punches(&narrower));
    near_relative(solved(narrower, 0.0, 0).N_p, 53728.2, SIX_DIGITS);
}
END_TEST

/* 26.9 on 42.4 x 2.6: fy t^2 = 1588.6 N, beta = 0.634434, gamma = 8.15385. */
START_TEST(round_on_round_welded)
{
    trivet__face face = round_on_round();
    ck_assert_int_eq(trivet__face_rule_of(&face), TRIVET__FACE_ROUND);
    const trivet__face_strength s = solved(face, 0.0, 0);
    /* 235 / sqrt(3) * 2.6 * pi * 26.9 */
    near_relative(s.N_p, 29811.4, SIX_DIGITS);
    /* 4.85 * 1588.6 * 26.9 * 2.85549 * 0.634434 */
    near_relative(s.M_if, 375.471, SIX_DIGITS);
    /* 235 / sqrt(3) * 2.6 * 26.9^2, both ways */
    near_relative(s.M_ib, 255.261, SIX_DIGITS);
    near_relative(s.M_ob, 255.261, SIX_DIGITS);
    ck_assert(s.M_iR == s.M_ib);
    /* 1588.6 * 26.9 * 2.7 / 0.486108 */
    near_relative(s.M_of, 237.354, SIX_DIGITS);
    ck_assert(s.M_oR == s.M_of);
    /* 1588.6 * 5.2 / 0.486108 */
    face.is_cross = 1;
    near_relative(solved(face, 0.0, 0).N_R, 16993.6, SIX_DIGITS);
}
END_TEST

/* 25 on 42.4 x 2.6: 1588.6 (4 + 20 * 0.589623^2) (1 + 0.25 * 0.589623) = 19965.0 N. */
START_TEST(box_on_round)
{
    trivet__face face = box_on_box(42.4, 2.6, 25.0, 25.0, 2.0);
    face.is_round = 1;
    ck_assert_int_eq(trivet__face_rule_of(&face), TRIVET__FACE_ON_ROUND);
    const trivet__face_strength s = solved(face, 0.0, 0);
    near_relative(s.N_R, 19965.0, SIX_DIGITS);
    near_relative(s.M_iR, 0.025 * 19965.0, SIX_DIGITS);
    near_relative(s.M_oR, 0.0125 * 19965.0, SIX_DIGITS);
}
END_TEST

/*
 * 40 x 3: 3 / 13.3333^0.8 + 1 / 3 = 0.377720 + 0.333333; at 120 degrees
 * 1 - sqrt(2) cos(60 deg) (1 - 0.711054).
 */
START_TEST(corners)
{
    trivet__knee knee = {.b = 0.04, .h = 0.04, .t = 0.003, .f = 235e6, .angle = RIGHT_ANGLE};
    double right = 0.0;
    double kappa = 0.0;
    trivet__knee_factors(&knee, &right, &kappa);
    near_relative(right, 0.711054, SIX_DIGITS);
    near_relative(kappa, right, 1e-12);
    knee.angle = RIGHT_ANGLE / 2.0;
    trivet__knee_factors(&knee, &right, &kappa);
    ck_assert(kappa == right);
    knee.angle = RIGHT_ANGLE * 4.0 / 3.0;
    trivet__knee_factors(&knee, &right, &kappa);
    near_relative(kappa, 0.795684, SIX_DIGITS);
    ck_assert_ptr_null(trivet__knee_refusal(&knee));
    /* c / t = 36 + 0.1 above 33 */
    knee.t = 0.04 / 36.1;
    ck_assert_ptr_nonnull(trivet__knee_refusal(&knee));
    knee.t = 0.003;
    knee.f = 461e6;
    ck_assert_ptr_nonnull(strstr(trivet__knee_refusal(&knee), "460"));
}
END_TEST

#define refuses(face, text)                                                                        \
    do {                                                                                           \
        const trivet__face refused = (face);                                                       \
        const char *const why = trivet__face_refusal(&refused);                                    \
        ck_assert_msg(why &&strstr(why, text), "%s: %s", text, why ? why : "nothing");             \
    } while (0)

static void takes(trivet__face face)
{
    const char *const why = trivet__face_refusal(&face);
    ck_assert_msg(!why, "%s", why ? why : "");
}

START_TEST(bounds_of_the_rules_are_named)
{
    trivet__face face = box_on_box(40.0, 3.0, 25.0, 25.0, 2.0);
    takes(face);
    /* Walls alone may be thin; whoever asks says so. */
    takes(box_on_box(20.0, 2.0, 20.0, 20.0, 1.5));
    takes(box_on_box(35.0, 1.0, 35.0, 35.0, 1.0));
    takes(box_on_box(40.0, 3.0, 10.0, 20.0, 2.0));
    face.angle = 29.9 * RIGHT_ANGLE / 90.0;
    refuses(face, "30 degrees");
    face.angle = (double)NAN;
    refuses(face, "30 degrees");
    refuses(box_on_box(40.0, 3.0, 40.1, 40.0, 2.0), "wider");
    refuses(box_on_box(40.0, 3.0, 9.9, 10.0, 1.0), "narrow");
    refuses(box_on_box(35.1, 1.0, 30.0, 30.0, 2.0), "1/35");
    refuses(box_on_box(60.0, 3.0, 35.1, 35.1, 1.0), "welded on has a wall");
    refuses(box_on_box(60.0, 3.0, 20.0, 40.1, 2.0), "twice as deep");
    face = box_on_box(40.0, 3.0, 25.0, 25.0, 2.0);
    face.h0 = 0.0801;
    refuses(face, "twice as deep");
    face.h0 = 0.04;
    face.f1 = 461e6;
    refuses(face, "460");
    /* Class 2 at 355 N/mm^2: c / t to 38 * 0.813617 = 30.9; 34 - 3 = 31 is above. */
    face = box_on_box(34.0, 1.0, 20.0, 20.0, 1.0);
    takes(face);
    face.f0 = 355e6;
    refuses(face, "class 3 or 4");
}
END_TEST

START_TEST(bounds_of_round_tubes_are_named)
{
    trivet__face face = round_on_round();
    takes(face);
    face.t0 = face.b0 / 9.9;
    refuses(face, "tenth");
    face.t0 = face.b0 / 50.1;
    refuses(face, "1/50");
    face.t0 = face.b0 / 45.0;
    takes(face);
    face.is_cross = 1;
    refuses(face, "1/40");
    face = round_on_round();
    face.b1 = face.h1 = 0.19 * face.b0;
    refuses(face, "narrow");
    face = box_on_box(40.0, 3.0, 20.0, 20.0, 2.0);
    face.is_round_brace = 1;
    takes(face);
    face.b1 = face.h1 = 0.0321;
    refuses(face, "0.8");
    face.b1 = face.h1 = 0.0159;
    refuses(face, "0.4");
    face = box_on_box(42.4, 2.6, 25.0, 25.0, 2.0);
    face.is_round = 1;
    takes(face);
    face.angle = 0.9 * RIGHT_ANGLE;
    refuses(face, "right angle");
}
END_TEST

START_TEST(strong_steel_counts_for_nine_tenths)
{
    ck_assert(trivet__strong_steel_factor(355e6) == 1.0);
    ck_assert(trivet__strong_steel_factor(356e6) == 0.9);
}
END_TEST

int main(void)
{
    return run_tests("joint_face",
                     TESTS(a_narrow_tube_bends_the_face, compression_in_the_wall_weakens_it,
                           as_wide_as_the_wall_the_side_walls_carry,
                           between_face_and_side_walls_runs_a_straight_line, round_on_round_welded,
                           box_on_round, corners, bounds_of_the_rules_are_named,
                           bounds_of_round_tubes_are_named, strong_steel_counts_for_nine_tenths));
}
