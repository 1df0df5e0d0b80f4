/*
 * Usages: their numbers, what may be changed, and the cases that shake everything alike.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"
#include "usage_rack.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = usage_rack();
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(const trivet_usage *usage)
{
    return trivet_frame_add_usage(frame, usage, NULL, &message);
}

/* The words, and how many cases each adds to the rack when nothing is missing. */
static const struct {
    const char *word;
    int32_t cases;
} KINDS[] = {
    {"road", 7},     {"rough track", 6}, {"two-up", 2}, {"grab", 1},   {"lifted", 1},
    {"standing", 2}, {"fall", 2},        {"straps", 1}, {"misfit", 4}, {"lost bolt", 0},
    {"trailer", 6},  {"quad bike", 6},   {"stand", 2},
};

enum { KIND_COUNT = sizeof KINDS / sizeof KINDS[0], ALL_CASES = 40 };

/* A usage of a kind with what it needs. */
static trivet_usage whole(int32_t kind)
{
    trivet_usage usage = must_usage(kind);
    usage.height = kind == TRIVET_USAGE_TWO_UP ? 0.35 : (double)NAN;
    usage.tube = kind == TRIVET_USAGE_GRAB ? LEFT_RAIL : -1;
    return usage;
}

START_TEST(every_kind_has_its_word)
{
    for (int32_t kind = 1; kind <= KIND_COUNT; kind++) {
        ck_assert_str_eq(trivet_usage_text(kind), KINDS[kind - 1].word);
    }
    ck_assert_int_eq(KIND_COUNT, TRIVET_USAGE_STAND);
    ck_assert_ptr_null(trivet_usage_text(0));
    ck_assert_ptr_null(trivet_usage_text(KIND_COUNT + 1));
    ck_assert_ptr_null(trivet_usage_text(-1));
}
END_TEST

static trivet_status road_of(trivet_usage *usage, size_t size)
{
    return trivet_usage_of(usage, size, TRIVET_USAGE_ROAD);
}

START_TEST(numbers_come_from_the_kind)
{
    trivet_usage usage;
    defaults_take_own_size(trivet_usage, trivet_usage_defaults);
    defaults_take_own_size(trivet_usage, road_of);
    must(trivet_usage_defaults(&usage, sizeof usage), &message);
    ck_assert_int_eq(usage.kind, 0);
    ck_assert(usage.cargo == -1 && usage.tube == -1);
    ck_assert(isnan(usage.down) && isnan(usage.lean) && isnan(usage.height));
    ck_assert_int_eq(trivet_usage_of(&usage, sizeof usage, 0), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_usage_of(&usage, sizeof usage, KIND_COUNT + 1), TRIVET_BAD_VALUE);
    usage = must_usage(TRIVET_USAGE_ROAD);
    ck_assert_int_eq(usage.kind, TRIVET_USAGE_ROAD);
    ck_assert_double_eq(usage.down, 3.0);
    ck_assert(isnan(usage.force) && isnan(usage.move));
    usage = must_usage(TRIVET_USAGE_TWO_UP);
    ck_assert_double_eq(usage.force, 400.0);
    ck_assert(isnan(usage.down) && isnan(usage.height));
    ck_assert_double_eq(must_usage(TRIVET_USAGE_MISFIT).move, 1e-3);
}
END_TEST

/*
 * Multiples of g along x forward, y left, z up: what the issue asks for, 1.41 = 1 / cos 45 degrees
 * = sqrt 2; on a slope with sine 0.7 the cosine is sqrt(1 - 0.49) = sqrt 0.51.
 */
static const struct {
    int32_t kind;
    const char *name;
    double gravity[3];
    const char *words;
} SHAKEN[] = {
    {TRIVET_USAGE_ROAD, "road, bump", {0, 0, -3}, "weigh 3 times as much"},
    {TRIVET_USAGE_ROAD, "road, rebound", {0, 0, 1}, "with its whole weight"},
    {TRIVET_USAGE_ROAD, "road, braking", {1, 0, -1}, "forward with its whole weight"},
    {TRIVET_USAGE_ROAD, "road, pulling away", {-0.5, 0, -1}, "back with 0.5 times its weight"},
    {TRIVET_USAGE_ROAD, "road, side left", {0, 0.5, -1}, "to the left with 0.5 times"},
    {TRIVET_USAGE_ROAD, "road, side right", {0, -0.5, -1}, "to the right with 0.5 times"},
    {TRIVET_USAGE_ROAD, "road, leaning in a corner", {0, 0, -1.4142135623730951}, "1.41 times"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, bump", {0, 0, -4}, "weigh 4 times as much"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, rebound", {0, 0, 1}, "with its whole weight"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, braking", {1, 0, -1}, "its whole weight"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, pulling away", {-0.5, 0, -1}, "0.5 times"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, side left", {0, 0.5, -1}, "0.5 times"},
    {TRIVET_USAGE_ROUGH_TRACK, "rough track, side right", {0, -0.5, -1}, "0.5 times"},
    {TRIVET_USAGE_TRAILER, "trailer, bump", {0, 0, -3}, "3 times"},
    {TRIVET_USAGE_TRAILER, "trailer, rebound", {0, 0, 1}, "its whole weight"},
    {TRIVET_USAGE_TRAILER, "trailer, braking", {0.8, 0, -1}, "0.8 times"},
    {TRIVET_USAGE_TRAILER, "trailer, pulling away", {-0.5, 0, -1}, "0.5 times"},
    {TRIVET_USAGE_TRAILER, "trailer, side left", {0, 0.5, -1}, "0.5 times"},
    {TRIVET_USAGE_TRAILER, "trailer, side right", {0, -0.5, -1}, "0.5 times"},
    {TRIVET_USAGE_QUAD, "quad bike, bump", {0, 0, -4}, "4 times"},
    {TRIVET_USAGE_QUAD, "quad bike, rebound", {0, 0, 1}, "its whole weight"},
    {TRIVET_USAGE_QUAD, "quad bike, downhill", {0.7, 0, -0.714142842854285}, "0.7 times"},
    {TRIVET_USAGE_QUAD, "quad bike, uphill", {-0.7, 0, -0.714142842854285}, "0.7 times"},
    {TRIVET_USAGE_QUAD, "quad bike, side left", {0, 0.7, -1}, "0.7 times"},
    {TRIVET_USAGE_QUAD, "quad bike, side right", {0, -0.7, -1}, "0.7 times"},
    {TRIVET_USAGE_STAND, "stand, set down hard", {0, 0, -1.5}, "weigh 1.5 times as much"},
};

START_TEST(what_shakes_is_gravity)
{
    const double printed = 1e-14; /* fifteen digits stand above */
    const trivet_usage usage = must_usage(SHAKEN[_i].kind);
    must_add_usage(frame, &usage);
    const trivet__case *const got = case_of(frame, SHAKEN[_i].name);
    for (int i = 0; i < 3; i++) {
        near_scaled(got->gravity[i], SHAKEN[_i].gravity[i], printed, 1.0);
    }
    ck_assert_int_eq(got->joint_force_count + got->cargo_force_count + got->tube_force_count, 0);
    story_has(frame, SHAKEN[_i].name, SHAKEN[_i].words);
}
END_TEST

START_TEST(every_kind_adds_its_cases_with_story_and_source)
{
    must_set_loads(frame);
    for (int32_t kind = 1; kind <= KIND_COUNT; kind++) {
        const trivet_usage usage = whole(kind);
        ck_assert(!trivet_frame_has_usage(frame, kind));
        ck_assert_int_eq(must_add_usage(frame, &usage), KINDS[kind - 1].cases);
        ck_assert(trivet_frame_has_usage(frame, kind));
    }
    ck_assert_int_eq(frame->gap_count, 0);
    ck_assert_int_eq(frame->case_count, ALL_CASES);
    for (int32_t i = 0; i < frame->case_count; i++) {
        const char *source = NULL;
        const char *const story = trivet_frame_case_story(frame, i, &source);
        ck_assert_uint_gt(strlen(story), 40);
        ck_assert_ptr_null(strchr(story, '#'));
        ck_assert_uint_gt(strlen(source), 0);
    }
    trivet_result_free(must_solve(frame));
}
END_TEST

START_TEST(a_usage_is_added_once)
{
    const trivet_usage usage = must_usage(TRIVET_USAGE_ROAD);
    must_add_usage(frame, &usage);
    refused(add(&usage), TRIVET_BAD_NAME, &message,
            "usage road: it was added already; name it once");
    ck_assert_int_eq(frame->case_count, 7);
    ck_assert(!trivet_frame_has_usage(frame, TRIVET_USAGE_ROUGH_TRACK));
    ck_assert(!trivet_frame_has_usage(frame, 0));
    ck_assert(!trivet_frame_has_usage(frame, KIND_COUNT + 1));
    ck_assert(!trivet_frame_has_usage(NULL, TRIVET_USAGE_ROAD));
}
END_TEST

START_TEST(numbers_that_are_changed_are_told)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_ROAD);
    usage.down = 3.5;
    usage.lean = 0.0;
    usage.brake = (double)NAN;
    ck_assert_int_eq(must_add_usage(frame, &usage), 5);
    ck_assert_double_eq(case_of(frame, "road, bump")->gravity[2], -3.5);
    story_has(frame, "road, bump", "weigh 3.5 times as much");
    int32_t number = 0;
    ck_assert_int_eq(trivet_frame_find(frame, TRIVET_KIND_CASE, "road, braking", &number, NULL),
                     TRIVET_BAD_NAME);
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

/* All numbers of a usage become one. */
static void set_all(trivet_usage *usage, double number)
{
    usage->down = usage->up = usage->brake = usage->accelerate = usage->side = usage->lean =
        usage->force = usage->mass = usage->settle = usage->move = number;
}

START_TEST(what_is_0_or_not_said_leaves_its_cases_out)
{
    for (int32_t kind = 1; kind <= KIND_COUNT; kind++) {
        if (kind == TRIVET_USAGE_LIFTED || kind == TRIVET_USAGE_FALL) {
            continue; /* they take their numbers from the vehicle */
        }
        trivet_usage usage = must_usage(kind);
        set_all(&usage, kind % 2 == 0 ? 0.0 : (double)NAN);
        ck_assert_int_eq(must_add_usage(frame, &usage), 0);
    }
    ck_assert_int_eq(frame->case_count, 0);
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

/* The third of the cases of a road cannot be added: none is, and the names are free again. */
static void nothing_stays(void)
{
    static const char *const names[] = {"road, bump", "road, rebound", "road, side left"};
    const trivet_usage usage = must_usage(TRIVET_USAGE_ROAD);
    const int32_t cases = frame->case_count;
    int32_t count = 7;
    ck_assert_int_eq(trivet_frame_add_usage(frame, &usage, &count, &message), TRIVET_BAD_NAME);
    ck_assert_int_eq(count, 0);
    ck_assert_int_eq(frame->case_count, cases);
    ck_assert(!trivet_frame_has_usage(frame, TRIVET_USAGE_ROAD));
    for (int i = 0; i < 3; i++) {
        int32_t number = 0;
        ck_assert_int_eq(trivet_frame_find(frame, TRIVET_KIND_CASE, names[i], &number, NULL),
                         TRIVET_BAD_NAME);
        must_add_case(frame, names[i], 1.0);
        ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_CASE, cases + i), names[i]);
    }
}

START_TEST(a_name_that_is_taken_by_a_case_adds_nothing)
{
    must_add_case(frame, "road, braking", 1.0);
    nothing_stays();
    ck_assert_str_eq(message.problem, "there is a case of this name already");
}
END_TEST

START_TEST(a_name_that_is_taken_by_a_combination_adds_nothing)
{
    const int32_t parked[] = {must_add_case(frame, "parked", 1.0)};
    const double factor[] = {2.0};
    must(trivet_frame_add_combination(frame, "road, braking", parked, factor, 1, NULL, &message),
         &message);
    nothing_stays();
    int32_t number = -1;
    must(trivet_frame_find(frame, TRIVET_KIND_COMBINATION, "road, braking", &number, &message),
         &message);
    ck_assert_int_eq(number, 0);
}
END_TEST

START_TEST(numbers_must_make_sense)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_ROAD);
    usage.brake = -1.0;
    refused(add(&usage), TRIVET_BAD_VALUE, &message,
            "usage road: its braking is below 0 or too large to be meant; give a number from 0 to "
            "1000; 0 leaves its case out");
    usage.brake = (double)INFINITY;
    ck_assert_int_eq(add(&usage), TRIVET_BAD_VALUE);
    usage.brake = 1.0;
    usage.lean = 1.5; /* 86 degrees */
    refused(add(&usage), TRIVET_BAD_VALUE, &message,
            "usage road: nothing leans that far; give the angle from upright, such as 45 deg");
    usage.lean = -0.1;
    ck_assert_int_eq(add(&usage), TRIVET_BAD_VALUE);
    usage = must_usage(TRIVET_USAGE_QUAD);
    usage.accelerate = 1.1;
    trivet_message_clear(&message);
    refused(add(&usage), TRIVET_BAD_VALUE, &message,
            "usage quad bike: its pulling away is below 0 or too large to be meant; give a number "
            "from 0 to 1; 0 leaves its case out");
    usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.height = -0.35;
    ck_assert_int_eq(add(&usage), TRIVET_BAD_VALUE);
    ck_assert_int_eq(frame->case_count + frame->gap_count, 0);
}
END_TEST

START_TEST(what_is_named_must_be_there)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.cargo = 1;
    refused(add(&usage), TRIVET_BAD_INDEX, &message,
            "cargo number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    usage.cargo = -2;
    ck_assert_int_eq(add(&usage), TRIVET_BAD_INDEX);
    usage = must_usage(TRIVET_USAGE_GRAB);
    usage.tube = 3;
    trivet_message_clear(&message);
    refused(add(&usage), TRIVET_BAD_INDEX, &message,
            "tube number 3: there is none, the frame has 3 of them; count from 0 in the order of "
            "adding");
    ck_assert_int_eq(frame->case_count + frame->gap_count, 0);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_ROAD);
    int32_t count = 7;
    refused(trivet_frame_add_usage(NULL, &usage, &count, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(count, 0);
    refused(add(NULL), TRIVET_MISSING_ARGUMENT, &message,
            "usage: is NULL; hand in a pointer to it");
    const size_t known = sizeof usage;
    for (size_t size = 0; size <= known + 2; size++) {
        if (size != known) {
            usage.size = size;
            ck_assert_int_eq(add(&usage), TRIVET_BAD_SIZE);
            names_both_sizes(&message, size, known);
        }
    }
    must(trivet_usage_defaults(&usage, sizeof usage), &message);
    trivet_message_clear(&message);
    refused(add(&usage), TRIVET_BAD_VALUE, &message,
            "usage: is of no known kind; use one of trivet_usage_kind");
    usage.kind = KIND_COUNT + 1;
    ck_assert_int_eq(add(&usage), TRIVET_BAD_VALUE);
    ck_assert_int_eq(frame->case_count, 0);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(every_kind_has_its_word, numbers_come_from_the_kind,
              every_kind_adds_its_cases_with_story_and_source, a_usage_is_added_once,
              numbers_that_are_changed_are_told, what_is_0_or_not_said_leaves_its_cases_out,
              a_name_that_is_taken_by_a_case_adds_nothing,
              a_name_that_is_taken_by_a_combination_adds_nothing, numbers_must_make_sense,
              what_is_named_must_be_there, calls_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    tcase_add_loop_test(tests, what_shakes_is_gravity, 0, sizeof SHAKEN / sizeof SHAKEN[0]);
    return run_tests("usage", tests);
}
