/*
 * Welds at the ends of tubes.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <string.h>

static trivet_frame *frame; /* one tube, "rail", through A B C */
static trivet_message message;

static trivet_weld weld;

enum { A, B, C, D };

static void make(void)
{
    const int32_t joints[] = {A, B, C};
    memset(&message, 0, sizeof message);
    frame = row_of_joints_frame();
    must_add_tube(frame, "rail", joints, 3, 0);
    must(trivet_weld_defaults(&weld, sizeof weld), &message);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status set(int32_t joint)
{
    return trivet_frame_set_weld(frame, 0, joint, &weld, &message);
}

static trivet_weld get(int32_t joint)
{
    trivet_weld got;
    must(trivet_weld_defaults(&got, sizeof got), &message);
    ck_assert_int_eq(trivet_frame_weld(frame, 0, joint, &got), TRIVET_OK);
    return got;
}

START_TEST(defaults_are_a_fillet_all_round)
{
    ck_assert_uint_eq(weld.size, sizeof weld);
    ck_assert_int_eq(weld.kind, TRIVET_WELD_FILLET);
    ck_assert_uint_eq(weld.sides, 15);
    ck_assert_int_eq(weld.spot_count, 0);
    ck_assert_double_eq(weld.spot_diameter, 0.0);
    ck_assert_double_eq(weld.throat, 0.0);
    ck_assert_double_eq(weld.run, 1.0);
    ck_assert(isnan(weld.filler) && isnan(weld.detail));
    defaults_take_own_size(trivet_weld, trivet_weld_defaults);
}
END_TEST

START_TEST(a_new_tube_has_welds_not_said)
{
    for (int32_t joint = A; joint <= C; joint += C) {
        const trivet_weld got = get(joint);
        ck_assert_uint_eq(got.size, sizeof got);
        ck_assert_int_eq(got.kind, TRIVET_WELD_NOT_SAID);
        ck_assert_uint_eq(got.sides, 15);
        ck_assert_double_eq(got.run, 1.0);
    }
}
END_TEST

START_TEST(each_end_has_its_own_weld)
{
    weld.throat = 0.002;
    must(set(A), &message);
    ck_assert_double_eq(get(A).throat, 0.002);
    ck_assert_int_eq(get(C).kind, TRIVET_WELD_NOT_SAID);
    weld.kind = TRIVET_WELD_SPOTS;
    weld.spot_count = 4;
    weld.spot_diameter = 0.006;
    must(set(C), &message);
    ck_assert_int_eq(get(A).kind, TRIVET_WELD_FILLET);
    ck_assert_int_eq(get(C).spot_count, 4);
    weld.kind = TRIVET_WELD_NONE;
    must(set(-1), &message);
    ck_assert_int_eq(get(A).kind, TRIVET_WELD_NONE);
    ck_assert_int_eq(get(C).kind, TRIVET_WELD_NONE);
}
END_TEST

START_TEST(only_ends_are_welded)
{
    trivet_weld got;
    must(trivet_weld_defaults(&got, sizeof got), &message);
    refused(set(B), TRIVET_BAD_VALUE, &message,
            "tube rail: joint B is not one of its ends; weld its first or last joint");
    refused(set(D), TRIVET_BAD_VALUE, &message,
            "tube rail: it does not run through joint D; name a joint of this tube");
    refused(set(5), TRIVET_BAD_INDEX, &message,
            "tube rail, joint number 5: there is none, the frame has 5 of them; count from 0 in "
            "the order of adding");
    refused(trivet_frame_set_weld(frame, 1, A, &weld, &message), TRIVET_BAD_INDEX, &message,
            "tube number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    ck_assert_int_eq(trivet_frame_set_weld(frame, -1, -1, &weld, NULL), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_weld(frame, 0, B, &got), TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_frame_weld(frame, 0, -1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_weld(frame, 1, A, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_weld(NULL, 0, A, &got), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_weld(frame, 0, A, NULL), TRIVET_MISSING_ARGUMENT);
    got.size = 0;
    ck_assert_int_eq(trivet_frame_weld(frame, 0, A, &got), TRIVET_BAD_SIZE);
    ck_assert_int_eq(get(A).kind, TRIVET_WELD_NOT_SAID);
}
END_TEST

START_TEST(kinds_and_sides_must_be_known)
{
    weld.kind = 4;
    refused(set(-1), TRIVET_BAD_VALUE, &message,
            "tube rail: its weld is of kind 4, which is none; take a fillet, spots or none");
    weld.kind = -1;
    ck_assert_int_eq(set(-1), TRIVET_BAD_VALUE);
    weld.kind = TRIVET_WELD_FILLET;
    static const char *const text = "tube rail: the welded sides are not made of top, bottom, "
                                    "left, right; add up the bits of the sides";
    weld.sides = 0;
    trivet_message_clear(&message);
    refused(set(-1), TRIVET_BAD_VALUE, &message, text);
    weld.sides = 16;
    refused(set(-1), TRIVET_BAD_VALUE, &message, text);
    weld.sides = TRIVET_SIDE_TOP;
    must(set(-1), &message);
}
END_TEST

START_TEST(spots_are_counted_and_have_a_size)
{
    weld.kind = TRIVET_WELD_SPOTS;
    weld.spot_diameter = 0.006;
    refused(set(-1), TRIVET_BAD_VALUE, &message,
            "tube rail: it is welded by 0 spots; say how many spots hold it");
    weld.spot_count = 3;
    weld.spot_diameter = 0.0;
    refused(set(-1), TRIVET_BAD_VALUE, &message,
            "tube rail: the diameter of a weld spot is 0 mm; give more than 0");
    weld.spot_diameter = (double)NAN;
    ck_assert_int_eq(set(-1), TRIVET_BAD_VALUE);
    weld.kind = TRIVET_WELD_FILLET;
    ck_assert_int_eq(set(-1), TRIVET_BAD_VALUE);
}
END_TEST

/* Sets a member, which must be refused, and puts it back. */
static void bad_member(double *member, double value)
{
    const double before = *member;
    *member = value;
    ck_assert_int_eq(set(-1), TRIVET_BAD_VALUE);
    *member = before;
}

START_TEST(numbers_must_make_sense)
{
    const double not_a_number = (double)NAN;
    const double endless = (double)INFINITY;
    bad_member(&weld.throat, -0.001);
    bad_member(&weld.throat, not_a_number);
    bad_member(&weld.throat, endless);
    bad_member(&weld.run, 0.0);
    bad_member(&weld.run, not_a_number);
    bad_member(&weld.filler, 0.0);
    bad_member(&weld.filler, endless);
    bad_member(&weld.detail, -1.0);
    bad_member(&weld.detail, endless);
    weld.run = 1.01;
    trivet_message_clear(&message);
    refused(set(-1), TRIVET_BAD_VALUE, &message,
            "tube rail: the weld runs along more than the whole outline; give a share above 0 and "
            "at most 1 (100 %)");
    ck_assert_int_eq(get(A).kind, TRIVET_WELD_NOT_SAID);
    weld.run = 0.6;
    weld.filler = 480e6;
    weld.detail = 45e6;
    must(set(-1), &message);
    ck_assert_double_eq(get(A).run, 0.6);
    ck_assert_double_eq(get(C).filler, 480e6);
    ck_assert_double_eq(get(C).detail, 45e6);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    refused(trivet_frame_set_weld(NULL, 0, A, &weld, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_weld(frame, 0, A, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "weld: is NULL; hand in a pointer to it");
    const size_t known = sizeof weld;
    for (size_t size = 0; size <= known + 2; size++) {
        if (size != known) {
            weld.size = size;
            ck_assert_int_eq(set(-1), TRIVET_BAD_SIZE);
            names_both_sizes(&message, size, known);
        }
    }
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(defaults_are_a_fillet_all_round, a_new_tube_has_welds_not_said,
                               each_end_has_its_own_weld, only_ends_are_welded,
                               kinds_and_sides_must_be_known, spots_are_counted_and_have_a_size,
                               numbers_must_make_sense, calls_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("weld", tests);
}
