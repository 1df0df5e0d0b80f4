/*
 * The vehicle under the frame: what it comes with, what it may be.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/frame_usage.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;
static trivet_vehicle vehicle;

/* Places may lie below 0; the others are sizes and masses. */
static const struct {
    size_t offset;
    int is_place;
} NUMBERS[] = {
    {offsetof(trivet_vehicle, wheelbase), 0},     {offsetof(trivet_vehicle, rear_axle), 1},
    {offsetof(trivet_vehicle, ground), 1},        {offsetof(trivet_vehicle, front_load), 0},
    {offsetof(trivet_vehicle, rear_load), 0},     {offsetof(trivet_vehicle, front_most), 0},
    {offsetof(trivet_vehicle, rear_most), 0},     {offsetof(trivet_vehicle, total_most), 0},
    {offsetof(trivet_vehicle, front_least), 0},   {offsetof(trivet_vehicle, wheel_radius), 0},
    {offsetof(trivet_vehicle, overhang_most), 0}, {offsetof(trivet_vehicle, width_most), 0},
};

enum { NUMBER_COUNT = sizeof NUMBERS / sizeof NUMBERS[0] };

static double *number(trivet_vehicle *of, int i)
{
    return (double *)(void *)((char *)of + NUMBERS[i].offset);
}

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = must_new_frame();
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status set(void)
{
    return trivet_frame_set_vehicle(frame, &vehicle, &message);
}

static trivet_vehicle must_get(void)
{
    trivet_vehicle got;
    must(trivet_vehicle_defaults(&got, sizeof got), &message);
    ck_assert_int_eq(trivet_frame_vehicle(frame, &got), TRIVET_OK);
    return got;
}

/* Nothing said but a slope of 0.12 and a start of 0.5 g, as the header has it. */
static void is_default(trivet_vehicle *of)
{
    for (int i = 0; i < NUMBER_COUNT; i++) {
        ck_assert(isnan(*number(of, i)));
    }
    ck_assert_double_eq(of->grade, 0.12);
    ck_assert_double_eq(of->accelerate, 0.5);
}

START_TEST(defaults_say_nothing_but_slope_and_start)
{
    is_default(&vehicle);
    defaults_take_own_size(trivet_vehicle, trivet_vehicle_defaults);
}
END_TEST

START_TEST(a_frame_without_a_vehicle_has_the_defaults)
{
    trivet_vehicle got = must_get();
    is_default(&got);
}
END_TEST

START_TEST(a_vehicle_is_copied_and_given_back)
{
    for (int i = 0; i < NUMBER_COUNT; i++) {
        *number(&vehicle, i) = 1.0 + i;
    }
    vehicle.grade = 0.2;
    vehicle.accelerate = 0.3;
    must(set(), &message);
    vehicle.wheelbase = 99.0;
    trivet_vehicle got = must_get();
    for (int i = 0; i < NUMBER_COUNT; i++) {
        ck_assert_double_eq(*number(&got, i), 1.0 + i);
    }
    ck_assert_double_eq(got.grade, 0.2);
    ck_assert_double_eq(got.accelerate, 0.3);
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    must(set(), &message);
    got = must_get();
    is_default(&got);
}
END_TEST

START_TEST(sizes_and_masses_are_above_zero_and_places_are_finite)
{
    for (int i = 0; i < NUMBER_COUNT; i++) {
        static const double bad[] = {-1.0, 0.0, HUGE_VAL, -HUGE_VAL};
        for (size_t k = 0; k < sizeof bad / sizeof bad[0]; k++) {
            must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
            *number(&vehicle, i) = bad[k];
            const int may = NUMBERS[i].is_place && isfinite(bad[k]);
            ck_assert_int_eq(set(), may ? TRIVET_OK : TRIVET_BAD_VALUE);
            trivet_message_clear(&message);
        }
    }
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.front_load = -80.0;
    ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
    ck_assert_ptr_nonnull(strstr(message.problem, "front load"));
    ck_assert_ptr_nonnull(strstr(message.problem, "-80 kg"));
}
END_TEST

START_TEST(a_slope_and_a_start_are_always_there)
{
    static const double bad_grades[] = {-0.01, 1.0, HUGE_VAL, (double)NAN};
    static const double bad_starts[] = {-0.01, 10.0, HUGE_VAL, (double)NAN};
    for (int i = 0; i < 4; i++) {
        must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
        vehicle.grade = bad_grades[i];
        refused(set(), TRIVET_BAD_VALUE, &message,
                "vehicle: its grade or start is out of range; give a grade from 0 to 1 rad and a "
                "start from 0 to 10 g");
        must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
        vehicle.accelerate = bad_starts[i];
        ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
        trivet_message_clear(&message);
    }
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.grade = vehicle.accelerate = 0.0;
    must(set(), &message);
}
END_TEST

START_TEST(a_refused_vehicle_changes_nothing)
{
    vehicle.wheelbase = 1.45;
    must(set(), &message);
    vehicle.wheelbase = 2.0;
    vehicle.rear_load = -1.0;
    ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
    ck_assert_double_eq(must_get().wheelbase, 1.45);
    ck_assert(isnan(must_get().rear_load));
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    refused(trivet_frame_set_vehicle(NULL, &vehicle, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_vehicle(frame, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "vehicle: is NULL; hand in a pointer to it");
    const size_t known = sizeof vehicle;
    for (size_t size = 0; size <= known + 2; size++) {
        vehicle.size = size;
        const trivet_status wanted = size == known ? TRIVET_OK : TRIVET_BAD_SIZE;
        ck_assert_int_eq(set(), wanted);
        ck_assert_int_eq(trivet_frame_vehicle(frame, &vehicle), wanted);
    }
    vehicle.size = known - 8;
    ck_assert_int_eq(set(), TRIVET_BAD_SIZE);
    names_both_sizes(&message, known - 8, known);
    ck_assert_int_eq(trivet_frame_vehicle(NULL, &vehicle), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_vehicle(frame, NULL), TRIVET_MISSING_ARGUMENT);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        defaults_say_nothing_but_slope_and_start, a_frame_without_a_vehicle_has_the_defaults,
        a_vehicle_is_copied_and_given_back, sizes_and_masses_are_above_zero_and_places_are_finite,
        a_slope_and_a_start_are_always_there, a_refused_vehicle_changes_nothing,
        calls_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("vehicle", tests);
}
