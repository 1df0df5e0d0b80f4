/*
 * The working of every check: each formula, worked out from the lines above it, gives its number;
 * the last line is the utilisation.
 */
#include "beam.h"
#include "formula.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SYMBOLS_MAX = 64 };

static trivet_step step_of(const beam *of, int32_t index, int32_t number)
{
    trivet_step step = {.size = sizeof step};
    ck_assert_int_eq(trivet_checks_step(of->checks, index, number, &step), TRIVET_OK);
    return step;
}

/* Holds one check's lines against their formulas. */
static void follow(const beam *of, int32_t index)
{
    trivet_check check = {.size = sizeof check};
    formula_symbol symbols[SYMBOLS_MAX];
    ck_assert_int_eq(trivet_checks_at(of->checks, index, &check), TRIVET_OK);
    ck_assert_int_gt(check.step_count, 2);
    ck_assert_int_lt(check.step_count, SYMBOLS_MAX);
    double scale = 0.0; /* of what is added and taken off above */
    for (int32_t i = 0; i < check.step_count; i++) {
        const trivet_step step = step_of(of, index, i);
        ck_assert_msg(step.source && step.source[0], "%s: no source", step.symbol);
        ck_assert_msg(step.meaning && step.meaning[0], "%s: no meaning", step.symbol);
        if (step.formula[0]) {
            const double worked_out = formula_value(step.formula, symbols, i);
            scale =
                step.dimension == TRIVET_STRESS ? fmax(scale, fabs(step.value)) : fabs(step.value);
            near_scaled(step.value, worked_out, 1e-12, scale);
        }
        for (int32_t k = 0; k < i; k++) {
            ck_assert_msg(strcmp(symbols[k].name, step.symbol) != 0, "%s twice", step.symbol);
        }
        snprintf(symbols[i].name, sizeof symbols[i].name, "%s", step.symbol);
        symbols[i].value = step.value;
    }
    const trivet_step last = step_of(of, index, check.step_count - 1);
    const trivet_step limit = step_of(of, index, check.step_count - 2);
    ck_assert_str_eq(last.symbol, "used");
    ck_assert(last.value == check.utilisation);
    ck_assert(limit.value == check.limit);
    const double demand = formula_value("used * limit", symbols, check.step_count);
    near_relative(demand, check.demand, 1e-15 * 4.0);
}

/* One frame with every kind of section, an insert, mount limits, spans and reaches. */
static beam everything(void)
{
    beam of = beam_new();
    trivet_mount mount;
    const trivet_material material = beam_material(235e6, 150e6);
    const int32_t square = beam_stock(&of, "square", square_tube(0.03, 0.002), material);
    const int32_t round = beam_stock(&of, "round", round_tube(0.03, 0.002), material);
    const int32_t skew = beam_stock(&of, "angle", angle_bar(0.04, 0.03, 0.004), material);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.024), beam_material(100e6, 0.0));
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.3, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", -0.4, 0.3, 0.0);
    const int32_t C = must_add_joint(of.frame, "C", -0.7, 0.3, 0.0);
    const int32_t D = must_add_joint(of.frame, "D", 0.0, -0.3, 0.0);
    const int32_t E = must_add_joint(of.frame, "E", -0.4, -0.3, 0.0);
    const int32_t F = must_add_joint(of.frame, "F", -0.7, -0.3, 0.0);
    const int32_t left = beam_tube_of_three(&of, "left", square, A, B, C);
    beam_tube_of_three(&of, "right", square, D, E, F);
    const int32_t back = beam_tube(&of, "back", round, C, F);
    const int32_t middle = beam_tube(&of, "middle", skew, B, E);
    ck_assert_int_eq(
        trivet_frame_add_insert(of.frame, left, A, 0.08, plug, TRIVET_SIDE_BY_SIDE, NULL),
        TRIVET_OK);
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    mount.held = TRIVET_ALL;
    mount.limit_pull = 500.0;
    mount.limit_push = 600.0;
    mount.limit_shear = 700.0;
    mount.limit_moment = 80.0;
    const int32_t held[4] = {A, B, D, E};
    for (int i = 0; i < 4; i++) {
        mount.joint = held[i];
        mount.held = i % 2 ? TRIVET_POSITION : TRIVET_ALL;
        ck_assert_int_eq(trivet_frame_add_mount(of.frame, &mount, NULL, NULL), TRIVET_OK);
    }
    const int32_t loaded = beam_case(&of, "loaded");
    const int32_t leaning = beam_case(&of, "leaning");
    beam_line(&of, loaded, back, 900.0);
    beam_line(&of, loaded, middle, 200.0);
    beam_force(&of, leaning, C, -150.0, 120.0, -300.0);
    beam_moment(&of, leaning, F, 9.0, 5.0, -7.0);
    of.limits.droop = 0.004;
    of.limits.droop_ratio = 0.005;
    beam_check(&of);
    return of;
}

START_TEST(every_line_follows_from_those_above_it)
{
    beam of = everything();
    /* 4 tubes with yield, droop and droop ratio, 4 mounts with 4 limits, in 2 cases. */
    ck_assert_int_eq(trivet_checks_count(of.checks), 2 * (4 * 3 + 4 * 4));
    for (int32_t i = 0; i < trivet_checks_count(of.checks); i++) {
        follow(&of, i);
    }
    beam_free(&of);
}
END_TEST

/* Bar of 20 mm, 0.8 m, 100 N: M = 80 N m, I = h^4/12, 60 MPa. */
START_TEST(the_working_of_a_cantilever_reads_as_by_hand)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    int seen = 0;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "push");
    for (int32_t i = 0; i < check.step_count; i++) {
        const trivet_step step = step_of(&of, 0, i);
        if (strcmp(step.symbol, "My") == 0) {
            near_relative(fabs(step.value), 80.0, 1e-10);
            ck_assert_str_eq(step.formula, "");
            ck_assert_str_eq(step.source, "from the solution");
            seen++;
        } else if (strcmp(step.symbol, "sigma_My") == 0) {
            near_relative(fabs(step.value), 60e6, 1e-10);
            ck_assert_str_eq(step.formula, "My * z / Iyy");
            seen++;
        } else if (strcmp(step.symbol, "f_y") == 0) {
            ck_assert(step.value == 235e6);
            ck_assert_str_eq(step.source, "made up for the test");
            seen++;
        }
    }
    ck_assert_int_eq(seen, 3);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("working", TESTS(every_line_follows_from_those_above_it,
                                      the_working_of_a_cantilever_reads_as_by_hand));
}
