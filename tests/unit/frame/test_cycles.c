/*
 * Cycles: between which two states, how far, how often.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <string.h>

static trivet_frame *frame; /* two cases and a combination */
static trivet_message message;

static trivet_cycles cycles;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = rack_frame();
    must(trivet_cycles_defaults(&cycles, sizeof cycles), &message);
    cycles.to = 2;
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(const char *name)
{
    return trivet_frame_add_cycles(frame, name, &cycles, NULL, &message);
}

START_TEST(defaults_are_a_million_from_unloaded)
{
    must(trivet_cycles_defaults(&cycles, sizeof cycles), &message);
    ck_assert_uint_eq(cycles.size, sizeof cycles);
    ck_assert_int_eq(cycles.from, -1);
    ck_assert_int_eq(cycles.to, -1);
    ck_assert_double_eq(cycles.from_factor, 1.0);
    ck_assert_double_eq(cycles.to_factor, 1.0);
    ck_assert_double_eq(cycles.count, 1e6);
    defaults_take_own_size(trivet_cycles, trivet_cycles_defaults);
}
END_TEST

START_TEST(cycles_are_copied_and_given_back)
{
    int32_t number = -1;
    trivet_cycles got;
    must(trivet_cycles_defaults(&got, sizeof got), &message);
    must(add("first"), &message);
    cycles.from = 0;
    cycles.to = 1;
    cycles.from_factor = -0.5;
    cycles.to_factor = 1.25;
    cycles.count = 1.0;
    must(trivet_frame_add_cycles(frame, "second", &cycles, &number, &message), &message);
    cycles.to = 0;
    ck_assert_int_eq(number, 1);
    ck_assert_int_eq(trivet_frame_cycles(frame, 1, &got), TRIVET_OK);
    ck_assert_int_eq(got.from, 0);
    ck_assert_int_eq(got.to, 1);
    ck_assert_double_eq(got.from_factor, -0.5);
    ck_assert_double_eq(got.to_factor, 1.25);
    ck_assert_double_eq(got.count, 1.0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CYCLES), 2);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_CYCLES, 1), "second");
    ck_assert_str_eq(trivet_kind_text(TRIVET_KIND_CYCLES), "cycles");
    ck_assert_int_eq(trivet_frame_cycles(frame, 2, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_cycles(frame, -1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_cycles(NULL, 0, &got), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_cycles(frame, 0, NULL), TRIVET_MISSING_ARGUMENT);
    got.size = 0;
    ck_assert_int_eq(trivet_frame_cycles(frame, 0, &got), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(cycles_run_between_columns_that_are_there)
{
    static const char *const beyond = "cycles bumps: there is no result column 3, the frame has 3 "
                                      "cases and combinations; count the cases from 0, then the "
                                      "combinations";
    cycles.to = 3;
    refused(add("bumps"), TRIVET_BAD_INDEX, &message, beyond);
    cycles.to = 0;
    cycles.from = 3;
    refused(add("bumps"), TRIVET_BAD_INDEX, &message, beyond);
    cycles.from = -2;
    ck_assert_int_eq(add("bumps"), TRIVET_BAD_INDEX);
    cycles.from = -1;
    cycles.to = -1;
    ck_assert_int_eq(add("bumps"), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CYCLES), 0);
    cycles.to = 2;
    must(add("bumps"), &message);
}
END_TEST

START_TEST(cycles_have_finite_factors_and_happen)
{
    cycles.from_factor = (double)NAN;
    refused(add("bumps"), TRIVET_BAD_VALUE, &message,
            "cycles bumps: the factor is not a finite number; give a finite number");
    cycles.from_factor = 1.0;
    cycles.to_factor = (double)INFINITY;
    ck_assert_int_eq(add("bumps"), TRIVET_BAD_VALUE);
    cycles.to_factor = 1.0;
    cycles.count = 0.5;
    refused(add("bumps"), TRIVET_BAD_VALUE, &message,
            "cycles bumps: they happen less than once; say how many times, 1 or more");
    cycles.count = (double)NAN;
    refused(add("bumps"), TRIVET_BAD_VALUE, &message,
            "cycles bumps: the number of cycles is not a finite number; give a finite number");
    cycles.count = -1e6;
    ck_assert_int_eq(add("bumps"), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CYCLES), 0);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    int32_t number = 7;
    refused(trivet_frame_add_cycles(NULL, "bumps", &cycles, &number, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_cycles(frame, "bumps", NULL, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "cycles: is NULL; hand in a pointer to it");
    refused(add(""), TRIVET_BAD_NAME, &message, "cycles: the name is empty; give it a name");
    const size_t known = sizeof cycles;
    for (size_t size = 0; size <= known + 2; size++) {
        if (size != known) {
            cycles.size = size;
            ck_assert_int_eq(add("bumps"), TRIVET_BAD_SIZE);
            names_both_sizes(&message, size, known);
        }
    }
    cycles.size = known;
    must(add("parked"), &message); /* cycles and cases may share a name */
    refused(add("parked"), TRIVET_BAD_NAME, &message,
            "cycles parked: there are cycles of this name already; choose another name");
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(defaults_are_a_million_from_unloaded, cycles_are_copied_and_given_back,
              cycles_run_between_columns_that_are_there, cycles_have_finite_factors_and_happen,
              calls_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("cycles", tests);
}
