/*
 * Checks made again into a handle that held those of other frames are, bit for bit and in the same
 * order, those of a handle of its own; and where only the worst of each line is kept, it is the one
 * that the whole list begins with.
 */
#include "solved_plan.h"

#include "support/random_joins.h"
#include "support/run.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <trivet/document.h>

/* Handles that live on from frame to frame. */
typedef struct handles {
    trivet_checks *all;
    trivet_checks *worst;
} handles;

static trivet_checks *new_checks(uint64_t seed, const trivet_frame *frame,
                                 const trivet_result *result, const trivet_limits *limits)
{
    trivet_checks *checks = NULL;
    done(seed, trivet_checks_new(frame, result, limits, &checks, NULL));
    return checks;
}

/* The kept check of a line, and its working and words, beside number index of the whole list. */
static void compare_worst(uint64_t seed, const trivet_checks *all, const trivet_checks *light,
                          int32_t line, int32_t kept)
{
    trivet_check a = {.size = sizeof a};
    trivet_check b = {.size = sizeof b};
    int32_t index = -1;
    char one[1024];
    char other[1024];
    const int32_t verdict = trivet_checks_verdict(all, line, &index);
    ck_assert_int_eq(trivet_checks_verdict(light, line, NULL), verdict);
    done(seed, trivet_checks_at(all, index, &a));
    done(seed, trivet_checks_worst(all, line, &b));
    must_be_same_check(seed, &a, &b);
    done(seed, trivet_checks_worst(light, line, &b));
    must_be_same_check(seed, &a, &b);
    done(seed, trivet_checks_at(light, kept, &b));
    must_be_same_check(seed, &a, &b);
    for (int32_t i = 0; i < a.step_count; i++) {
        trivet_checks_step_text(all, index, i, NULL, one, sizeof one);
        trivet_checks_step_text(light, kept, i, NULL, other, sizeof other);
        ck_assert_msg(strcmp(one, other) == 0, "seed %llu: %s and %s", (unsigned long long)seed,
                      one, other);
    }
    trivet_checks_sentence(all, line, NULL, one, sizeof one);
    trivet_checks_sentence(light, line, NULL, other, sizeof other);
    ck_assert_str_eq(one, other);
}

static void compare_light(uint64_t seed, const trivet_checks *all, const trivet_checks *light)
{
    int32_t lines = 0;
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        trivet_check check = {.size = sizeof check};
        if (trivet_checks_verdict(all, line, NULL) == TRIVET_NOT_CHECKED) {
            ck_assert_int_eq(trivet_checks_worst(light, line, &check), TRIVET_BAD_INDEX);
        } else {
            compare_worst(seed, all, light, line, lines++);
        }
    }
    ck_assert_int_eq(trivet_checks_count(light), lines);
    ck_assert_int_eq(trivet_checks_overall(light), trivet_checks_overall(all));
    ck_assert_int_eq(trivet_checks_omission_count(light), trivet_checks_omission_count(all));
    for (int32_t i = 0; i < trivet_checks_omission_count(all); i++) {
        ck_assert_str_eq(trivet_checks_omission(light, i, NULL, NULL),
                         trivet_checks_omission(all, i, NULL, NULL));
    }
}

/* Makes all checks anew and again. Returns how many there are. */
static int32_t check_variant(uint64_t seed, const trivet_frame *frame, const trivet_result *result,
                             const trivet_limits *limits, handles *kept)
{
    trivet_checks *const fresh = new_checks(seed, frame, result, limits);
    if (!kept->all) {
        kept->all = new_checks(seed, frame, result, NULL);
        kept->worst = new_checks(seed, frame, result, NULL);
    }
    done(seed, trivet_checks_again(kept->all, frame, result, limits, NULL));
    done(seed, trivet_checks_worst_again(kept->worst, frame, result, limits, NULL));
    must_be_same_checks(seed, fresh, kept->all);
    compare_light(seed, fresh, kept->worst);
    const int32_t count = trivet_checks_count(fresh);
    trivet_checks_free(fresh);
    return count;
}

static void free_handles(const handles *kept)
{
    trivet_checks_free(kept->all);
    trivet_checks_free(kept->worst);
}

/* A frame and three variants of it: other places, other stock, other welds. */
static void check_variants(uint64_t seed, trivet_frame *frame, handles *kept)
{
    const trivet_limits limits = random_limits(seed);
    for (uint64_t variant = 0; variant < 4; variant++) {
        trivet_result *result = NULL;
        if (variant > 0) {
            change_sizes_at_random(frame, 4 * seed + variant);
        }
        if (trivet_frame_solve(frame, &result, NULL) == TRIVET_OK) {
            check_variant(seed, frame, result, variant == 2 ? NULL : &limits, kept);
        }
        trivet_result_free(result);
    }
}

START_TEST(again_is_as_new)
{
    handles kept = {NULL, NULL};
    trivet_frame *frame = NULL;
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        trivet_frame_free(frame);
        frame = random_frame(seed, NULL);
        add_random_joins(frame, seed);
        check_variants(seed, frame, &kept);
    }
    free_handles(&kept);
    trivet_frame_free(frame);
}
END_TEST

static trivet_document *read_example(const char *name)
{
    trivet_document *document = NULL;
    trivet_message message = {0};
    char path[512];
    snprintf(path, sizeof path, "%s/%s", SOURCE_ROOT, name);
    const trivet_status status = trivet_document_read_file(path, &document, &message);
    ck_assert_msg(status == TRIVET_OK, "%s: %s", name, message.problem);
    return document;
}

/* One file a round, all into one handle: verdicts, numbers of checks and omissions all change. */
START_TEST(examples_again_are_as_new)
{
    static const char *const NAMES[] = {
        "examples/cool-box-carrier.yaml", "tests/cli/designs/backrest.yaml",
        "examples/tank-rack.yaml",        "tests/cli/designs/hoist-lug.yaml",
        "examples/wall-bracket.yaml",     "tests/cli/designs/sprayer-rack.yaml",
        "examples/cool-box-carrier.yaml",
    };
    enum { COUNT = sizeof NAMES / sizeof NAMES[0] };
    trivet_document *documents[COUNT] = {NULL};
    trivet_frame *copies[COUNT] = {NULL};
    handles kept = {NULL, NULL};
    int32_t least = INT32_MAX;
    int32_t most = 0;
    for (size_t i = 0; i < COUNT; i++) {
        trivet_limits limits = {.size = sizeof limits};
        trivet_result *result = NULL;
        documents[i] = read_example(NAMES[i]);
        ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
        ck_assert_int_eq(trivet_document_limits(documents[i], &limits), TRIVET_OK);
        done(i, trivet_frame_copy(trivet_document_frame(documents[i]), &copies[i], NULL));
        done(i, trivet_frame_solve(copies[i], &result, NULL));
        const int32_t count = check_variant(i, copies[i], result, &limits, &kept);
        least = count < least ? count : least;
        most = count > most ? count : most;
        trivet_result_free(result);
        check_variants(i, copies[i], &kept);
    }
    ck_assert_int_lt(least, most);
    free_handles(&kept);
    for (size_t i = 0; i < COUNT; i++) {
        trivet_frame_free(copies[i]);
        trivet_document_free(documents[i]);
    }
}
END_TEST

/* What is refused leaves the handle as it was. */
START_TEST(refused_calls_change_nothing)
{
    trivet_frame *const frame = rack_frame();
    trivet_frame *const portal = portal_frame();
    trivet_result *const result = must_solve(frame);
    trivet_checks *const checks = new_checks(0, frame, result, NULL);
    trivet_checks *const untouched = new_checks(0, frame, result, NULL);
    trivet_limits limits = random_limits(1);
    trivet_check check = {.size = sizeof check};
    trivet_plan *plan = NULL;
    trivet_result *empty = NULL;
    done(0, trivet_plan_new(frame, &plan, NULL));
    done(0, trivet_result_new(plan, &empty, NULL));
    ck_assert_int_eq(trivet_checks_again(NULL, frame, result, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_again(checks, NULL, result, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_again(checks, frame, NULL, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_worst_again(checks, frame, NULL, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_again(checks, frame, empty, NULL, NULL), TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet_checks_again(checks, portal, result, NULL, NULL), TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet_checks_worst_again(checks, portal, result, NULL, NULL),
                     TRIVET_BAD_ORDER);
    limits.yield = 0.5;
    ck_assert_int_eq(trivet_checks_again(checks, frame, result, &limits, NULL), TRIVET_BAD_VALUE);
    limits.size = 3;
    ck_assert_int_eq(trivet_checks_worst_again(checks, frame, result, &limits, NULL),
                     TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_checks_worst(NULL, 0, &check), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_worst(checks, 0, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_checks_worst(checks, -1, &check), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_checks_worst(checks, TRIVET_LINE_COUNT, &check), TRIVET_BAD_INDEX);
    check.size = 3;
    ck_assert_int_eq(trivet_checks_worst(checks, 0, &check), TRIVET_BAD_SIZE);
    must_be_same_checks(0, untouched, checks);
    trivet_checks_free(checks);
    trivet_checks_free(untouched);
    trivet_result_free(empty);
    trivet_plan_free(plan);
    trivet_result_free(result);
    trivet_frame_free(portal);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    Suite *const suite = suite_create("checks made again");
    TCase *const random = tcase_create("random frames");
    tcase_add_loop_test(random, again_is_as_new, 0, FRAMES / BATCH / 2);
    suite_add_tcase(suite, random);
    suite_add_tcase(suite, TESTS(examples_again_are_as_new, refused_calls_change_nothing));
    return run_suite(suite);
}
