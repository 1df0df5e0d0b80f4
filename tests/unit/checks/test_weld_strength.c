/*
 * What throats and spots stand, by hand. EN 1993-1-8 table 4.1 and clauses 4.5.3 from memory.
 */
#include "checks/weld_strength.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846
#define SUMS 1e-14

static trivet_material material_named(const char *name, double tensile)
{
    trivet_material of;
    ck_assert_int_eq(trivet_material_defaults(&of, sizeof of), TRIVET_OK);
    strcpy(of.name, name);
    of.E = 210e9;
    of.yield = 200e6;
    of.tensile = tensile;
    return of;
}

START_TEST(the_correlation_factor_goes_by_name_and_else_by_strength)
{
    const struct {
        const char *name;
        double tensile;
        double beta;
    } rows[] = {
        {"S235", 360e6, 0.8},  {"E235 +SR", 420e6, 0.8},   {"S275J0H cold formed", 410e6, 0.85},
        {"S355", 470e6, 0.9},  {"E355 +N", 490e6, 0.9},    {"S420", 520e6, 1.0},
        {"S460", 540e6, 1.0},  {"304L", 482.6e6, 1.0},     {"1.4301", 540e6, 1.0},
        {"mine", 340e6, 0.8},  {"mine", 370e6, 0.8},       {"mine", 371e6, 0.85},
        {"mine", 430e6, 0.85}, {"mine", 431e6, 0.9},       {"mine", 520e6, 0.9},
        {"mine", 521e6, 1.0},  {"mine", (double)NAN, 1.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const trivet_material of = material_named(rows[i].name, rows[i].tensile);
        ck_assert_msg(trivet__weld_beta(&of) == rows[i].beta, "%s, %g", rows[i].name,
                      rows[i].tensile);
    }
    trivet_material aluminium = material_named("mine", 200e6);
    aluminium.E = 70e9;
    ck_assert(trivet__weld_beta(&aluminium) == 1.0);
}
END_TEST

START_TEST(strength_beside_a_weld_is_what_welding_leaves)
{
    trivet_material of = material_named("mine", 260e6);
    ck_assert(trivet__welded_tensile(&of) == 260e6);
    of.welded_tensile = 175e6;
    ck_assert(trivet__welded_tensile(&of) == 175e6);
    of.welded_tensile = 300e6;
    ck_assert(trivet__welded_tensile(&of) == 260e6);
    /* It softens, nobody knows how far. */
    of.welded_tensile = (double)NAN;
    of.welded_yield = 100e6;
    ck_assert(isnan(trivet__welded_tensile(&of)));
    of.welded_yield = of.yield;
    ck_assert(trivet__welded_tensile(&of) == 260e6);
}
END_TEST

static trivet__weld_strength strength_of(int32_t rule)
{
    const trivet__weld_strength of = {.rule = rule,
                                      .loads = rule == TRIVET_WELDS_AISC ? 1.0 : 1.5,
                                      .parent = 360e6,
                                      .filler = (double)NAN,
                                      .beta = 0.8,
                                      .wall = 0.002,
                                      .throat = 0.0014,
                                      .spot = 0.006};
    return of;
}

/* 100 N/mm square to the face on a throat of 1 mm: sigma = tau = 70.7, together 141.4 N/mm^2. */
START_TEST(the_directional_method_splits_a_force_on_the_throat)
{
    const trivet__weld_force square = {.q_x = 100e3};
    const trivet__weld_force along = {.q_t = -100e3};
    trivet__throat_stress stress;
    trivet__throat_stresses(&square, 0.001, &stress);
    near_relative(stress.sigma, 100e6 / sqrt(2.0), SUMS);
    near_relative(stress.tau, 100e6 / sqrt(2.0), SUMS);
    near_relative(stress.equal, 100e6 * sqrt(2.0), SUMS);
    trivet__throat_stresses(&along, 0.001, &stress);
    near_relative(stress.equal, 100e6 * sqrt(3.0), SUMS);
    /* Two at right angles in their worse sense: all shear, 2 x 70.7; sqrt(3) of that. */
    const trivet__weld_force both = {.q_x = 100e3, .q_n = -100e3};
    trivet__throat_stresses(&both, 0.001, &stress);
    near_scaled(stress.sigma, 0.0, SUMS, 100e6);
    near_relative(stress.equal, sqrt(6.0) * 100e6, SUMS);
    near_relative(stress.most, sqrt(2.0) * 100e6, SUMS);
}
END_TEST

/* sigma <= 0.9 f_u / gamma_M2 never decides: looked for all round, for the least beta_w. */
START_TEST(the_second_condition_never_decides)
{
    const trivet__weld_strength s = strength_of(TRIVET_WELDS_DIRECTIONAL);
    double nearest = 0.0;
    for (int i = 0; i <= 360; i++) {
        const double angle = i * PI / 360.0;
        const trivet__weld_force q = {.q_x = 1e5 * cos(angle), .q_n = 1e5 * sin(angle)};
        trivet__throat_stress stress;
        trivet__throat_stresses(&q, s.throat, &stress);
        const double first = stress.equal / trivet__weld_limit(&s, &q);
        const double second = stress.most / (0.9 * s.parent / TRIVET__WELD_GAMMA_M2);
        nearest = fmax(nearest, second / first);
    }
    /* 1 / (0.9 x 0.8 sqrt(3)), where q_x = q_n. */
    near_relative(nearest, 1.0 / (0.9 * 0.8 * sqrt(3.0)), 1e-12);
}
END_TEST

/* f_u 360, beta_w 0.8: 360 directional, 207.85 simplified; throat 1.4 mm: 290.99 N/mm. */
START_TEST(limits_follow_the_rules)
{
    const trivet__weld_force q = {.q_x = 30e3, .q_t = 40e3};
    trivet__weld_strength s = strength_of(TRIVET_WELDS_DIRECTIONAL);
    near_relative(trivet__weld_limit(&s, &q), 360e6, SUMS);
    near_relative(trivet__weld_demand(&s, &q),
                  1.5 * sqrt(2.0 * 30e3 * 30e3 + 3.0 * 40e3 * 40e3) / 0.0014, SUMS);
    ck_assert_int_eq(trivet__weld_dimension(&s), TRIVET_STRESS);
    s.rule = TRIVET_WELDS_SIMPLIFIED;
    near_relative(trivet__weld_limit(&s, &q), 360e6 / sqrt(3.0) * 0.0014, SUMS);
    near_relative(trivet__weld_demand(&s, &q), 1.5 * 50e3, SUMS);
    ck_assert_int_eq(trivet__weld_dimension(&s), TRIVET_LINE_LOAD);
    /* Weak weld metal counts, strong does not. */
    s.filler = 300e6;
    near_relative(trivet__weld_limit(&s, &q), 300e6 / sqrt(3.0) * 0.0014, SUMS);
    s.filler = 500e6;
    near_relative(trivet__weld_limit(&s, &q), 360e6 / sqrt(3.0) * 0.0014, SUMS);
}
END_TEST

/* 0.6 x 480 x 1.4 / 2 = 201.6 N/mm of weld metal; wall 0.6 x 360 x 2 / 2 = 216 N/mm. */
START_TEST(the_american_rule_looks_at_weld_metal_and_at_the_wall)
{
    const trivet__weld_force along = {.q_t = 40e3};
    const trivet__weld_force square = {.q_x = 40e3};
    trivet__weld_strength s = strength_of(TRIVET_WELDS_AISC);
    s.filler = 480e6;
    near_relative(trivet__weld_limit(&s, &along), 201.6e3, SUMS);
    near_relative(trivet__weld_demand(&s, &along), 40e3, SUMS);
    ck_assert_int_eq(trivet__weld_dimension(&s), TRIVET_LINE_LOAD);
    s.has_direction = 1;
    near_relative(trivet__weld_limit(&s, &along), 201.6e3, SUMS);
    near_relative(trivet__weld_limit(&s, &square), 216e3, SUMS); /* 302.4 by the weld metal */
    s.filler = (double)NAN; /* as strong as the wall: 0.6 x 360 x 1.4 / 2 */
    near_relative(trivet__weld_limit(&s, &along), 151.2e3, SUMS);
}
END_TEST

/* Spot of 6 mm on 2 mm: 28.27 mm^2 of its own, 37.70 mm^2 of wall round it. */
START_TEST(a_spot_shears_off_or_tears_the_wall_round_it)
{
    const trivet__weld_force q = {.q_x = 300.0, .q_t = 400.0};
    trivet__weld_strength s = strength_of(TRIVET_WELDS_DIRECTIONAL);
    s.is_spots = 1;
    const double shear = 360e6 / sqrt(3.0) / 1.25;
    near_relative(trivet__weld_limit(&s, &q), shear * PI * 9e-6, SUMS);
    near_relative(trivet__weld_demand(&s, &q), 750.0, SUMS);
    ck_assert_int_eq(trivet__weld_dimension(&s), TRIVET_FORCE);
    s.wall = 0.001;
    near_relative(trivet__weld_limit(&s, &q), shear * PI * 6e-6, SUMS);
    s.rule = TRIVET_WELDS_AISC;
    near_relative(trivet__weld_limit(&s, &q), 0.3 * 360e6 * PI * 6e-6, SUMS);
    s.filler = 200e6; /* 0.3 x 200 x 9 pi: less than 0.3 x 360 x 6 pi */
    near_relative(trivet__weld_limit(&s, &q), 0.3 * 200e6 * PI * 9e-6, SUMS);
}
END_TEST

int main(void)
{
    return run_tests("weld strength",
                     TESTS(the_correlation_factor_goes_by_name_and_else_by_strength,
                           strength_beside_a_weld_is_what_welding_leaves,
                           the_directional_method_splits_a_force_on_the_throat,
                           the_second_condition_never_decides, limits_follow_the_rules,
                           the_american_rule_looks_at_weld_metal_and_at_the_wall,
                           a_spot_shears_off_or_tears_the_wall_round_it));
}
