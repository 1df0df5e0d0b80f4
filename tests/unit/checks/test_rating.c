/*
 * The largest cargo, beside a search of the test's own that solves and checks every trial anew.
 */
#include "support/dice.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/checks.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FRAMES = 200 };

/* The largest utilisation of a frame with a cargo (-1: all) at factor times its mass. */
static double used_at(const trivet_frame *frame, const trivet_limits *limits, int32_t cargo,
                      double factor)
{
    trivet_message message;
    trivet_frame *copy = NULL;
    trivet_checks *checks = NULL;
    double most = 0.0;
    must(trivet_frame_copy(frame, &copy, &message), &message);
    for (int32_t i = 0; i < trivet_frame_count(copy, TRIVET_KIND_CARGO); i++) {
        if (cargo < 0 || cargo == i) {
            must(trivet_frame_scale_cargo(copy, i, factor, &message), &message);
        }
    }
    trivet_result *const result = must_solve(copy);
    must(trivet_checks_new(copy, result, limits, &checks, &message), &message);
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(checks, i, &check), TRIVET_OK);
        most = fmax(most, isnan(check.utilisation) ? HUGE_VAL : check.utilisation);
    }
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_frame_free(copy);
    return most;
}

/* The end of the stretch that holds, from a factor that does to one that does not. */
static double bisect(const trivet_frame *frame, const trivet_limits *limits, int32_t cargo,
                     double holds, double fails)
{
    while (fails - holds > 1e-4 * fails) {
        const double middle = 0.5 * (holds + fails);
        if (used_at(frame, limits, cargo, middle) <= 1.0) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    return 0.5 * (holds + fails);
}

/* Walks over factors so dense that no stretch that matters is missed, from large to small. */
static double search(const trivet_frame *frame, const trivet_limits *limits, int32_t cargo)
{
    double fails = 2048.0;
    if (used_at(frame, limits, cargo, fails) <= 1.0) {
        return HUGE_VAL;
    }
    for (double factor = fails / 2.0; factor > 1e-4; factor /= 2.0) {
        if (used_at(frame, limits, cargo, factor) <= 1.0) {
            return bisect(frame, limits, cargo, factor, fails);
        }
        fails = factor;
    }
    return used_at(frame, limits, cargo, 0.0) <= 1.0 ? bisect(frame, limits, cargo, 0.0, fails)
                                                     : (double)NAN;
}

/* A bolt at every mount: pull and shear count together there, and not in proportion. */
static void add_bolts(trivet_frame *frame)
{
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_MOUNT); i++) {
        trivet_bolts bolts;
        trivet_message message;
        ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
        bolts.where_kind = TRIVET_KIND_MOUNT;
        bolts.where_index = i;
        snprintf(bolts.thread, sizeof bolts.thread, "M6");
        snprintf(bolts.grade, sizeof bolts.grade, "8.8");
        must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    }
}

/*
 * A random frame with cargo, whose mounts have limits and bolts; NULL if the seed gives no cargo.
 * Three in four have no loads but weight, and their steel is strong, so that most hold without
 * their cargo.
 */
static trivet_frame *limited_frame(uint64_t seed, trivet_limits *limits)
{
    random_options options = random_everything();
    options.mount_moves = options.warm = false;
    if (seed % 4 != 0) {
        options.joint_forces = options.tube_forces = options.tube_lines = false;
    }
    frame_plan *const plan = random_plan(seed, &options);
    dice d = dice_new(seed + 1000000);
    for (int i = 0; i < plan->mount_count; i++) {
        plan->mounts[i].limit_pull = dice_between(&d, 500.0, 5000.0);
        plan->mounts[i].limit_shear = dice_between(&d, 500.0, 5000.0);
    }
    for (int i = 0; i < plan->stock_count; i++) {
        plan->stocks[i].material.yield = dice_between(&d, 500e6, 3000e6);
        plan->stocks[i].material.welded_yield = plan->stocks[i].material.yield;
    }
    ck_assert_int_eq(trivet_limits_defaults(limits, sizeof *limits), TRIVET_OK);
    limits->droop = dice_between(&d, 0.02, 0.3);
    trivet_frame *const frame = plan->cargo_count > 0 ? plan_build(plan) : NULL;
    free(plan);
    if (frame) {
        add_bolts(frame);
    }
    return frame;
}

/* What stops a rating is at its limit there; the next are below it, in order, and other. */
static void check_stops(const trivet_rates *rates, int32_t index)
{
    const trivet_checks *const checks = trivet_rates_checks(rates, index);
    double before = HUGE_VAL;
    ck_assert_ptr_nonnull(checks);
    for (int32_t number = 0; number < 3; number++) {
        trivet_check check = {.size = sizeof check};
        const int32_t stop = trivet_rates_stop(rates, index, number);
        ck_assert_int_eq(trivet_checks_at(checks, stop, &check), TRIVET_OK);
        ck_assert(check.utilisation <= before);
        if (number == 0) {
            ck_assert_msg(check.utilisation <= 1.0 && check.utilisation > 0.999,
                          "stopped by %s at %.9g", check.check, check.utilisation);
        }
        before = check.utilisation;
    }
}

/* Compares one rating; returns whether it has an end. */
static int compare(const trivet_frame *frame, const trivet_limits *limits,
                   const trivet_rates *rates, int32_t index, uint64_t seed)
{
    trivet_rate rate = {.size = sizeof rate};
    ck_assert_int_eq(trivet_rates_at(rates, index, &rate), TRIVET_OK);
    const double factor = search(frame, limits, rate.cargo);
    if (rate.is_open) {
        /* It looks up to a thousand times the mass given, by doubling. */
        ck_assert_msg(factor > 512.0 && used_at(frame, limits, rate.cargo, rate.factor) <= 1.0,
                      "seed %d, cargo %d: %.9g by bisection", (int)seed, (int)rate.cargo, factor);
        return 0;
    }
    if (isnan(factor)) {
        /* A stretch narrower than a factor of two may hide between two steps of the search. */
        ck_assert_msg(!rate.holds || used_at(frame, limits, rate.cargo, rate.factor) <= 1.0,
                      "seed %d, cargo %d", (int)seed, (int)rate.cargo);
        return 0;
    }
    ck_assert_msg(rate.holds, "seed %d, cargo %d: %.6g by bisection", (int)seed, (int)rate.cargo,
                  factor);
    ck_assert_msg(fabs(rate.factor / factor - 1.0) <= 1e-3,
                  "seed %d, cargo %d: %.9g, by bisection %.9g", (int)seed, (int)rate.cargo,
                  rate.factor, factor);
    near_relative(rate.mass, rate.factor * rate.given, 1e-12);
    check_stops(rates, index);
    return 1;
}

START_TEST(ratings_agree_with_bisection_on_random_frames)
{
    int frames = 0; /* with a rating that has an end */
    for (uint64_t seed = 1; frames < FRAMES; seed++) {
        int compared = 0;
        trivet_limits limits;
        trivet_message message;
        trivet_rates *rates = NULL;
        trivet_frame *const frame = limited_frame(seed, &limits);
        if (!frame) {
            continue;
        }
        must(trivet_rates_new(frame, &limits, &rates, &message), &message);
        for (int32_t i = 0; i < trivet_rates_count(rates); i++) {
            compared += compare(frame, &limits, rates, i, seed);
        }
        trivet_rates_free(rates);
        trivet_frame_free(frame);
        frames += compared > 0;
        ck_assert_int_lt((int)seed, 8 * FRAMES);
    }
}
END_TEST

/* The rack of the tests, its mounts limited. */
static trivet_rates *rate_rack(trivet_frame **frame_out)
{
    trivet_rates *rates = NULL;
    trivet_message message;
    *frame_out = rack_frame();
    must(trivet_rates_new(*frame_out, NULL, &rates, &message), &message);
    return rates;
}

START_TEST(stops_are_sentences)
{
    trivet_frame *frame = NULL;
    trivet_rates *const rates = rate_rack(&frame);
    char text[512];
    ck_assert_int_eq(trivet_rates_count(rates), 1);
    check_stops(rates, 0);
    for (int32_t number = 0; number < 3; number++) {
        const size_t length =
            trivet_checks_sentence_of(trivet_rates_checks(rates, 0),
                                      trivet_rates_stop(rates, 0, number), NULL, text, sizeof text);
        ck_assert_uint_gt(length, 20);
        ck_assert_ptr_nonnull(strstr(text, "(used "));
    }
    trivet_rates_free(rates);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(the_frame_is_not_changed)
{
    trivet_frame *frame = NULL;
    trivet_rates *const rates = rate_rack(&frame);
    trivet_cargo cargo = {.size = sizeof cargo};
    trivet_rate rate = {.size = sizeof rate};
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_rates_at(rates, 0, &rate), TRIVET_OK);
    ck_assert(cargo.mass == 14.0);
    ck_assert(rate.given == 14.0);
    trivet_rates_free(rates);
    /* and what the ratings hold is their own */
    trivet_frame_free(frame);
}
END_TEST

START_TEST(ratings_outlive_the_frame)
{
    trivet_frame *frame = NULL;
    trivet_rates *const rates = rate_rack(&frame);
    char text[512];
    trivet_frame_free(frame);
    trivet_checks_sentence_of(trivet_rates_checks(rates, 0), trivet_rates_stop(rates, 0, 0), NULL,
                              text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, " in "));
    trivet_rates_free(rates);
}
END_TEST

START_TEST(arguments_are_checked)
{
    trivet_frame *frame = NULL;
    trivet_rates *const rates = rate_rack(&frame);
    trivet_rates *none = rates;
    trivet_rate rate = {.size = sizeof rate};
    trivet_message message;
    ck_assert_int_eq(trivet_rate_defaults(NULL, sizeof rate), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_rate_defaults(&rate, sizeof rate + 1), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_rates_new(NULL, NULL, &none, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_ptr_null(none);
    ck_assert_int_eq(trivet_rates_new(frame, NULL, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_rates_at(rates, -1, &rate), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_rates_at(rates, 1, &rate), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_rates_at(NULL, 0, &rate), TRIVET_MISSING_ARGUMENT);
    ck_assert_ptr_null(trivet_rates_checks(rates, 1));
    ck_assert_int_eq(trivet_rates_stop(rates, 0, 3), -1);
    ck_assert_int_eq(trivet_rates_stop(rates, 0, -1), -1);
    ck_assert_int_eq(trivet_rates_stop(rates, 1, 0), -1);
    ck_assert_int_eq(trivet_rates_count(NULL), 0);
    rate.size = 1;
    ck_assert_int_eq(trivet_rates_at(rates, 0, &rate), TRIVET_BAD_SIZE);
    trivet_rates_free(rates);
    trivet_rates_free(NULL);
    trivet_limits limits = {.size = 3};
    ck_assert_int_eq(trivet_rates_new(frame, &limits, &none, &message), TRIVET_BAD_SIZE);
    ck_assert_ptr_null(none);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(without_cargo_there_is_nothing_to_rate)
{
    trivet_frame *const frame = cantilever_frame(0.3, -100.0);
    trivet_rates *rates = NULL;
    trivet_message message;
    ck_assert_int_eq(trivet_rates_new(frame, NULL, &rates, &message), TRIVET_INCOMPLETE);
    ck_assert_ptr_null(rates);
    ck_assert_str_eq(message.problem, "carries no cargo with mass");
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(ratings_agree_with_bisection_on_random_frames, stops_are_sentences,
                               the_frame_is_not_changed, ratings_outlive_the_frame,
                               arguments_are_checked, without_cargo_there_is_nothing_to_rate);
    tcase_set_timeout(tests, 300.0);
    return run_tests("rating", tests);
}
