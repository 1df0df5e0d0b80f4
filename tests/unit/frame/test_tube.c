/*
 * Tubes: adding them, freeing their ends, offsets and inserts.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <math.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = row_of_joints_frame();
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static const int32_t through[] = {0, 1, 2};

static trivet_status add(const char *name, const int32_t *joints, int32_t count)
{
    return trivet_frame_add_tube(frame, name, joints, count, 0, 0.0, NULL, &message);
}

START_TEST(tubes_are_copied)
{
    int32_t joints[] = {0, 1, 2};
    int32_t tube = -1;
    must(trivet_frame_add_tube(frame, "left rail", joints, 3, 0, 0.5, &tube, &message), &message);
    ck_assert_int_eq(tube, 0);
    joints[0] = 4;
    int32_t count = 0;
    const int32_t *const kept = trivet_frame_tube_joints(frame, 0, &count);
    ck_assert_int_eq(count, 3);
    ck_assert_int_eq(kept[0], 0);
    ck_assert_int_eq(kept[2], 2);
    ck_assert_int_eq(trivet_frame_tube_stock(frame, 0), 0);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_TUBE, 0), "left rail");
    ck_assert_double_eq(frame->tubes[0].roll, 0.5);
    ck_assert_int_eq(frame->joints[1].tube_count, 1);
    ck_assert_int_eq(frame->joints[3].tube_count, 0);
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    int32_t tube = 7;
    refused(trivet_frame_add_tube(NULL, "t", through, 3, 0, 0.0, &tube, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(tube, -1);
    refused(add("t", NULL, 3), TRIVET_MISSING_ARGUMENT, &message,
            "joints: is NULL; hand in a pointer to it");
    refused(add(NULL, through, 3), TRIVET_MISSING_ARGUMENT, &message,
            "name: is NULL; hand in a pointer to it");
    const double offset[3] = {0.0, 0.0, 0.0};
    refused(trivet_frame_set_offset(NULL, 0, 0, offset, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_offset(frame, 0, 0, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "offset: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_free_end(NULL, 0, 0, 0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_insert(NULL, 0, 0, 1.0, 0, 0, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_TUBE), 0);
}
END_TEST

START_TEST(a_tube_needs_two_joints_and_none_twice)
{
    const int32_t twice[] = {0, 1, 0};
    refused(add("t", through, 1), TRIVET_BAD_VALUE, &message,
            "tube t: it runs through 1 joint, a tube needs two or more; name the joints at its two "
            "ends");
    refused(add("t", through, 0), TRIVET_BAD_VALUE, &message,
            "tube t: it runs through 0 joints, a tube needs two or more; name the joints at its "
            "two ends");
    ck_assert_int_eq(add("t", through, -5), TRIVET_BAD_VALUE);
    refused(add("t", twice, 3), TRIVET_BAD_VALUE, &message,
            "tube t: joint A stands in it twice; name it once");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_TUBE), 0);
    ck_assert_int_eq(frame->joints[0].tube_count, 0);
}
END_TEST

START_TEST(what_a_tube_names_must_be_there)
{
    const int32_t unknown[] = {0, 5};
    const int32_t negative[] = {-1, 0};
    refused(add("t", unknown, 2), TRIVET_BAD_INDEX, &message,
            "tube t, joint number 5: there is none, the frame has 5 of them; count from 0 in the "
            "order of adding");
    ck_assert_int_eq(add("t", negative, 2), TRIVET_BAD_INDEX);
    refused(trivet_frame_add_tube(frame, "t", through, 3, 2, 0.0, NULL, &message), TRIVET_BAD_INDEX,
            &message,
            "tube t, stock number 2: there is none, the frame has 2 of them; count from 0 in the "
            "order of adding");
    refused(trivet_frame_add_tube(frame, "t", through, 3, 0, (double)NAN, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "tube t: the roll is not a finite number; give a finite number");
    must(add("t", through, 3), &message);
    refused(add("t", through, 3), TRIVET_BAD_NAME, &message,
            "tube t: there is a tube of this name already; choose another name");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_TUBE), 1);
    ck_assert_int_eq(frame->joints[0].tube_count, 1);
}
END_TEST

START_TEST(first_and_last_ends_are_freed)
{
    must(add("t", through, 3), &message);
    must(trivet_frame_set_free_end(frame, 0, 0, TRIVET_PINNED, &message), &message);
    must(trivet_frame_set_free_end(frame, 0, 2, TRIVET_X, &message), &message);
    ck_assert_uint_eq(frame->tubes[0].free_first, 48);
    ck_assert_uint_eq(frame->tubes[0].free_last, 1);
    must(trivet_frame_set_free_end(frame, 0, 0, 0, &message), &message);
    ck_assert_uint_eq(frame->tubes[0].free_first, 0);
    refused(trivet_frame_set_free_end(frame, 0, 1, TRIVET_PINNED, &message), TRIVET_BAD_VALUE,
            &message,
            "tube t: joint B is not one of its ends; free its first or last joint, or make two "
            "tubes of it");
    refused(trivet_frame_set_free_end(frame, 0, 3, TRIVET_PINNED, &message), TRIVET_BAD_VALUE,
            &message, "tube t: it does not run through joint D; name a joint of this tube");
    refused(trivet_frame_set_free_end(frame, 0, 9, TRIVET_PINNED, &message), TRIVET_BAD_INDEX,
            &message,
            "tube t, joint number 9: there is none, the frame has 5 of them; count from 0 in the "
            "order of adding");
    refused(trivet_frame_set_free_end(frame, 1, 0, TRIVET_PINNED, &message), TRIVET_BAD_INDEX,
            &message,
            "tube number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_free_end(frame, 0, 0, 64, &message), TRIVET_BAD_VALUE, &message,
            "tube t: the free directions are not made of x, y, z, rx, ry, rz; add up the bits of "
            "the directions");
    ck_assert_uint_eq(frame->tubes[0].free_first, 0);
    ck_assert_uint_eq(frame->tubes[0].free_last, 1);
}
END_TEST

START_TEST(offsets_are_kept_for_each_joint)
{
    const double offset[3] = {0.0, 0.0, 0.01};
    const double bad[3] = {0.0, (double)INFINITY, 0.0};
    must(add("t", through, 3), &message);
    must(trivet_frame_set_offset(frame, 0, 1, offset, &message), &message);
    ck_assert_double_eq(frame->tubes[0].offsets[5], 0.01);
    ck_assert_double_eq(frame->tubes[0].offsets[2], 0.0);
    refused(trivet_frame_set_offset(frame, 0, 1, bad, &message), TRIVET_BAD_VALUE, &message,
            "tube t: the offset is not a finite number; give a finite number");
    ck_assert_double_eq(frame->tubes[0].offsets[5], 0.01);
    refused(trivet_frame_set_offset(frame, 0, 4, offset, &message), TRIVET_BAD_VALUE, &message,
            "tube t: it does not run through joint E; name a joint of this tube");
    ck_assert_int_eq(trivet_frame_set_offset(frame, -1, 0, offset, NULL), TRIVET_BAD_INDEX);
    double said[3] = {7.0, 7.0, 7.0};
    must(trivet_frame_offset(frame, 0, 1, said), NULL);
    ck_assert(said[0] == 0.0 && said[1] == 0.0 && said[2] == 0.01);
    ck_assert_int_eq(trivet_frame_offset(frame, 1, 1, said), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_offset(NULL, 0, 1, said), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_offset(frame, 0, 1, NULL), TRIVET_MISSING_ARGUMENT);
}
END_TEST

START_TEST(inserts_stand_by_rising_position)
{
    must(add("t", through, 3), &message);
    must(trivet_frame_add_insert(frame, 0, 2, 0.10, 1, TRIVET_TOGETHER, &message), &message);
    must(trivet_frame_add_insert(frame, 0, 0, 0.20, 1, TRIVET_SIDE_BY_SIDE, &message), &message);
    must(trivet_frame_add_insert(frame, 0, 1, 0.30, 1, TRIVET_SIDE_BY_SIDE, &message), &message);
    ck_assert_int_eq(frame->tubes[0].insert_count, 3);
    for (int32_t i = 0; i < 3; i++) {
        ck_assert_int_eq(frame->tubes[0].inserts[i].position, i);
    }
    ck_assert_double_eq(frame->tubes[0].inserts[0].length, 0.20);
    ck_assert_double_eq(frame->tubes[0].inserts[1].length, 0.30);
    ck_assert_int_eq(frame->tubes[0].inserts[2].bond, TRIVET_TOGETHER);
    refused(trivet_frame_add_insert(frame, 0, 1, 0.10, 1, 0, &message), TRIVET_BAD_VALUE, &message,
            "tube t: there is an insert at joint B already; make that one longer, or put this one "
            "at another joint");
    ck_assert_int_eq(frame->tubes[0].insert_count, 3);
}
END_TEST

START_TEST(inserts_that_are_none_are_refused)
{
    must(add("t", through, 3), &message);
    refused(trivet_frame_add_insert(frame, 0, 0, 0.0, 1, 0, &message), TRIVET_BAD_VALUE, &message,
            "tube t: the insert's length is 0 mm; give more than 0");
    refused(trivet_frame_add_insert(frame, 0, 0, (double)NAN, 1, 0, &message), TRIVET_BAD_VALUE,
            &message, "tube t: the insert's length is not a finite number; give a finite number");
    refused(trivet_frame_add_insert(frame, 0, 0, 0.1, 1, 2, &message), TRIVET_BAD_VALUE, &message,
            "tube t: the insert's bond is 2, which is none; take side by side or together");
    refused(trivet_frame_add_insert(frame, 0, 0, 0.1, 2, 0, &message), TRIVET_BAD_INDEX, &message,
            "tube t, stock number 2: there is none, the frame has 2 of them; count from 0 in the "
            "order of adding");
    refused(trivet_frame_add_insert(frame, 0, 3, 0.1, 1, 0, &message), TRIVET_BAD_VALUE, &message,
            "tube t: it does not run through joint D; name a joint of this tube");
    ck_assert_int_eq(trivet_frame_add_insert(frame, 1, 0, 0.1, 1, 0, NULL), TRIVET_BAD_INDEX);
    ck_assert_int_eq(frame->tubes[0].insert_count, 0);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(tubes_are_copied, missing_arguments_are_named, a_tube_needs_two_joints_and_none_twice,
              what_a_tube_names_must_be_there, first_and_last_ends_are_freed,
              offsets_are_kept_for_each_joint, inserts_stand_by_rising_position,
              inserts_that_are_none_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("tube", tests);
}
