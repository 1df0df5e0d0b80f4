/*
 * Counting, naming and finding the things of a frame.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = rack_frame();
    const int32_t corners[] = {0, 3, 4, 7};
    must(trivet_frame_add_deck(frame, "top", corners, 4, NULL, &message), &message);
    trivet_cycles cycles;
    must(trivet_cycles_defaults(&cycles, sizeof cycles), &message);
    cycles.to = 1;
    must(trivet_frame_add_cycles(frame, "washboard", &cycles, NULL, &message), &message);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static int32_t find(int32_t kind, const char *name)
{
    int32_t index = 99;
    must(trivet_frame_find(frame, kind, name, &index, &message), &message);
    return index;
}

START_TEST(things_are_counted_by_kind)
{
    static const int32_t counts[] = {0, 8, 2, 4, 6, 1, 2, 1, 1, 1, 0};
    for (int32_t kind = 0; kind <= 10; kind++) {
        ck_assert_int_eq(trivet_frame_count(frame, kind), counts[kind]);
        ck_assert_int_eq(trivet_frame_count(NULL, kind), 0);
        for (int32_t i = 0; i < counts[kind]; i++) {
            ck_assert_int_eq(find(kind, trivet_frame_name(frame, kind, i)), i);
        }
        ck_assert_ptr_null(trivet_frame_name(frame, kind, counts[kind]));
        ck_assert_ptr_null(trivet_frame_name(frame, kind, -1));
        ck_assert_ptr_null(trivet_frame_name(NULL, kind, 0));
    }
    ck_assert_int_eq(trivet_frame_count(frame, -1), 0);
    ck_assert_int_eq(trivet_frame_count(frame, INT32_MAX), 0);
}
END_TEST

START_TEST(names_are_found_in_their_own_kind)
{
    ck_assert_int_eq(find(TRIVET_KIND_JOINT, "FL"), 0);
    ck_assert_int_eq(find(TRIVET_KIND_STOCK, "cross"), 1);
    ck_assert_int_eq(find(TRIVET_KIND_TUBE, "back"), 3);
    ck_assert_int_eq(find(TRIVET_KIND_MOUNT, "FR"), 3);
    ck_assert_int_eq(find(TRIVET_KIND_CARGO, "cool box"), 0);
    ck_assert_int_eq(find(TRIVET_KIND_CASE, "two-up"), 1);
    ck_assert_int_eq(find(TRIVET_KIND_COMBINATION, "both"), 0);
    ck_assert_int_eq(find(TRIVET_KIND_DECK, "top"), 0);
    ck_assert_int_eq(find(TRIVET_KIND_CYCLES, "washboard"), 0);
}
END_TEST

START_TEST(the_nearest_name_is_offered)
{
    int32_t index = 7;
    refused(trivet_frame_find(frame, TRIVET_KIND_TUBE, "left rial", &index, &message),
            TRIVET_BAD_NAME, &message,
            "tube left rial: there is no tube of this name; did you mean left rail?");
    ck_assert_int_eq(index, -1);
    refused(trivet_frame_find(frame, TRIVET_KIND_JOINT, "fl", &index, &message), TRIVET_BAD_NAME,
            &message, "joint fl: there is no joint of this name; did you mean FL?");
    refused(trivet_frame_find(frame, TRIVET_KIND_CARGO, "water tank", &index, &message),
            TRIVET_BAD_NAME, &message,
            "cargo water tank: there is no cargo of this name; check the spelling, or add it");
    refused(trivet_frame_find(frame, TRIVET_KIND_DECK, "tpo", &index, &message), TRIVET_BAD_NAME,
            &message, "deck tpo: there is no deck of this name; did you mean top?");
    refused(trivet_frame_find(frame, TRIVET_KIND_CYCLES, "washbord", &index, &message),
            TRIVET_BAD_NAME, &message,
            "cycles washbord: there are no cycles of this name; did you mean washboard?");
    ck_assert_int_eq(trivet_frame_find(frame, TRIVET_KIND_TUBE, "left rial", &index, NULL),
                     TRIVET_BAD_NAME);
}
END_TEST

START_TEST(a_joint_without_mount_is_no_mount)
{
    int32_t index = 7;
    refused(trivet_frame_find(frame, TRIVET_KIND_MOUNT, "RL", &index, &message), TRIVET_BAD_NAME,
            &message, "mount RL: there is no mount of this name; did you mean FL?");
    ck_assert_int_eq(index, -1);
}
END_TEST

START_TEST(cases_and_combinations_are_kept_apart)
{
    int32_t index = 7;
    ck_assert_int_eq(trivet_frame_find(frame, TRIVET_KIND_CASE, "both", &index, NULL),
                     TRIVET_BAD_NAME);
    ck_assert_int_eq(index, -1);
    ck_assert_int_eq(trivet_frame_find(frame, TRIVET_KIND_COMBINATION, "parked", &index, NULL),
                     TRIVET_BAD_NAME);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    int32_t index = 7;
    refused(trivet_frame_find(NULL, TRIVET_KIND_CASE, "c", &index, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(index, -1);
    refused(trivet_frame_find(frame, TRIVET_KIND_CASE, NULL, &index, &message),
            TRIVET_MISSING_ARGUMENT, &message, "name: is NULL; hand in a pointer to it");
    refused(trivet_frame_find(frame, TRIVET_KIND_CASE, "c", NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "index_out: is NULL; hand in a pointer to it");
    refused(trivet_frame_find(frame, 10, "c", &index, &message), TRIVET_BAD_NAME, &message,
            "kind 10: there is no such kind of thing; use one of the kinds that the header lists");
    ck_assert_int_eq(trivet_frame_find(frame, 0, "c", &index, NULL), TRIVET_BAD_NAME);
    ck_assert_int_eq(trivet_frame_find(frame, -1, "c", &index, NULL), TRIVET_BAD_NAME);
}
END_TEST

START_TEST(names_of_things_stay_where_they_are)
{
    const char *const name = trivet_frame_name(frame, TRIVET_KIND_JOINT, 0);
    for (int i = 0; i < 100; i++) {
        char text[16];
        const double position[3] = {i, 0.0, 0.0};
        snprintf(text, sizeof text, "j%d", i);
        must(trivet_frame_add_joint(frame, text, position, NULL, &message), &message);
    }
    ck_assert_ptr_eq(trivet_frame_name(frame, TRIVET_KIND_JOINT, 0), name);
    ck_assert_str_eq(name, "FL");
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        things_are_counted_by_kind, names_are_found_in_their_own_kind, the_nearest_name_is_offered,
        a_joint_without_mount_is_no_mount, cases_and_combinations_are_kept_apart,
        calls_that_are_wrong_are_refused, names_of_things_stay_where_they_are);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("frame_find", tests);
}
