/*
 * Checks made again into a handle that held those of other frames are, bit for bit and in the same
 * order, those of a handle of its own; and where only the worst of each line is kept, it is the one
 * that the whole list begins with.
 */
#include "solved_plan.h"

#include "support/dice.h"
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

/* Posts on a rail with a thin wall, clamped at its ends, each pushed and turned at its top. */
static trivet_frame *posts_frame(uint64_t seed)
{
    enum { POSTS = 3, CASES = 4 };
    dice d = dice_new(seed);
    /* Large loads press the rail so much that its wall stands less. */
    const double size = dice_chance(&d, 0.5) ? 200.0 : 2000.0;
    trivet_frame *const frame = must_new_frame();
    const trivet_profile thin = square_tube(0.050, dice_between(&d, 0.0025, 0.004));
    const trivet_profile square = square_tube(0.030, 0.003);
    const trivet_profile round = round_tube(0.030, 0.003);
    const int32_t rail = must_add_stock(frame, "rail", &thin);
    const int32_t post = must_add_stock(frame, "post", dice_chance(&d, 0.5) ? &square : &round);
    int32_t along[POSTS + 2];
    int32_t tops[POSTS];
    for (int i = 0; i < POSTS + 2; i++) {
        char name[8];
        snprintf(name, sizeof name, "J%d", i);
        along[i] = must_add_joint(frame, name, 0.3 * i, 0.0, 0.0);
    }
    must_add_tube(frame, "rail", along, POSTS + 2, rail);
    must_add_mount(frame, along[0], TRIVET_ALL);
    must_add_mount(frame, along[POSTS + 1], TRIVET_ALL);
    for (int i = 0; i < POSTS; i++) {
        char name[8];
        trivet_weld weld;
        snprintf(name, sizeof name, "P%d", i);
        const double lean = dice_chance(&d, 0.5) ? 0.0 : dice_between(&d, -0.1, 0.1);
        tops[i] = must_add_joint(frame, name, 0.3 * (i + 1) + lean, 0.0, 0.2);
        const int32_t ends[2] = {along[i + 1], tops[i]};
        const int32_t tube = must_add_tube(frame, name, ends, 2, post);
        done(seed, trivet_weld_defaults(&weld, sizeof weld));
        done(seed, trivet_frame_set_weld(frame, tube, -1, &weld, NULL));
    }
    for (int32_t c = 0; c < CASES; c++) {
        char name[8];
        snprintf(name, sizeof name, "C%d", (int)c);
        must_add_case(frame, name, 0.0);
        for (int i = 0; i < POSTS; i++) {
            double force[3];
            double moment[3];
            dice_vector(&d, dice_chance(&d, 0.5) ? 3.0 * size : 0.03 * size, force);
            dice_vector(&d, dice_chance(&d, 0.5) ? size : 0.01 * size, moment);
            done(seed, trivet_frame_add_joint_force(frame, c, tops[i], force, moment, NULL));
        }
    }
    return frame;
}

/* Of most frames nothing but a wall is the worst, so that its bounds cannot hide behind others. */
START_TEST(walls_are_ruled_out_rightly)
{
    enum { SEEDS = 400 };
    handles kept = {NULL, NULL};
    int walls = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        trivet_frame *const frame = posts_frame(seed);
        trivet_result *const result = must_solve(frame);
        trivet_check worst = {.size = sizeof worst};
        check_variant(seed, frame, result, NULL, &kept);
        done(seed, trivet_checks_worst(kept.all, TRIVET_LINE_OVERLOAD, &worst));
        walls += strcmp(worst.check, "chord wall") == 0;
        trivet_result_free(result);
        trivet_frame_free(frame);
    }
    ck_assert_int_gt(walls, SEEDS / 2);
    free_handles(&kept);
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
    suite_add_tcase(suite, TESTS(walls_are_ruled_out_rightly, examples_again_are_as_new,
                                 refused_calls_change_nothing));
    return run_suite(suite);
}
