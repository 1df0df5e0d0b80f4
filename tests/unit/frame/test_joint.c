/*
 * Joints: adding, moving, reading; names that cannot be; numbers that are none.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <float.h>
#include <math.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static void make(void)
{
    memset(&message, 0, sizeof message);
    must(trivet_frame_new(&frame, &message), &message);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

START_TEST(frame_needs_a_place_to_go)
{
    refused(trivet_frame_new(NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame_out: is NULL; hand in a pointer to it");
    trivet_frame_free(NULL);
}
END_TEST

START_TEST(joints_are_numbered_in_order_and_copied)
{
    double position[3] = {1.0, 2.0, 3.0};
    char name[] = "FL";
    int32_t joint = -1;
    must(trivet_frame_add_joint(frame, name, position, &joint, &message), &message);
    ck_assert_int_eq(joint, 0);
    name[0] = 'X';
    position[0] = 9.0;
    must(trivet_frame_add_joint(frame, name, position, &joint, &message), &message);
    ck_assert_int_eq(joint, 1);
    must(trivet_frame_add_joint(frame, "third", position, NULL, NULL), &message);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 3);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_JOINT, 0), "FL");
    ck_assert_double_eq(trivet_frame_position(frame, 0)[0], 1.0);
    ck_assert_double_eq(trivet_frame_position(frame, 0)[2], 3.0);
    ck_assert_double_eq(trivet_frame_position(frame, 1)[0], 9.0);
    ck_assert_ptr_null(trivet_frame_position(frame, 3));
    ck_assert_ptr_null(trivet_frame_position(frame, -1));
    ck_assert_ptr_null(trivet_frame_position(NULL, 0));
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    const double position[3] = {0.0, 0.0, 0.0};
    int32_t joint = 7;
    refused(trivet_frame_add_joint(NULL, "A", position, &joint, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(joint, -1);
    refused(trivet_frame_add_joint(frame, "A", NULL, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "position: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_joint(frame, NULL, position, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "name: is NULL; hand in a pointer to it");
    ck_assert_int_eq(trivet_frame_add_joint(frame, NULL, position, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 0);
}
END_TEST

START_TEST(names_must_be_names)
{
    const double position[3] = {0.0, 0.0, 0.0};
    char name[TRIVET_NAME_MAX + 1];
    refused(trivet_frame_add_joint(frame, "", position, NULL, &message), TRIVET_BAD_NAME, &message,
            "joint: the name is empty; give it a name");
    refused(trivet_frame_add_joint(frame, "A\nB", position, NULL, &message), TRIVET_BAD_NAME,
            &message,
            "joint: the name has a character that cannot be printed; leave out line breaks, tabs "
            "and the like");
    refused(trivet_frame_add_joint(frame, "A\x7f", position, NULL, &message), TRIVET_BAD_NAME,
            &message,
            "joint: the name has a character that cannot be printed; leave out line breaks, tabs "
            "and the like");
    refused(trivet_frame_add_joint(frame, "ab\xff", position, NULL, &message), TRIVET_BAD_NAME,
            &message, "joint: the name is not UTF-8 from byte 3 on; write it in UTF-8");
    memset(name, 'n', sizeof name);
    name[TRIVET_NAME_MAX] = '\0';
    refused(trivet_frame_add_joint(frame, name, position, NULL, &message), TRIVET_BAD_NAME,
            &message, "joint: the name is 128 bytes long, at most 127 fit; choose a shorter name");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 0);
    name[TRIVET_NAME_MAX - 1] = '\0';
    must(trivet_frame_add_joint(frame, name, position, NULL, &message), &message);
    must(trivet_frame_add_joint(frame, "hinten außen", position, NULL, &message), &message);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 2);
}
END_TEST

START_TEST(a_name_is_taken_once)
{
    const double position[3] = {0.0, 0.0, 0.0};
    int32_t joint = 7;
    must(trivet_frame_add_joint(frame, "FL", position, NULL, &message), &message);
    refused(trivet_frame_add_joint(frame, "FL", position, &joint, &message), TRIVET_BAD_NAME,
            &message, "joint FL: there is a joint of this name already; choose another name");
    ck_assert_int_eq(joint, -1);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 1);
    must(trivet_frame_add_joint(frame, "fl", position, NULL, &message), &message);
}
END_TEST

START_TEST(positions_must_be_within_reason)
{
    static const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        for (int k = 0; k < 3; k++) {
            double position[3] = {0.0, 0.0, 0.0};
            position[k] = bad[i];
            refused(trivet_frame_add_joint(frame, "A", position, NULL, &message), TRIVET_BAD_VALUE,
                    &message, "joint A: the position is not a finite number; give a finite number");
        }
    }
    const double far_off[3] = {0.0, -DBL_MAX, 0.0};
    ck_assert_int_eq(trivet_frame_add_joint(frame, "A", far_off, NULL, &message), TRIVET_BAD_VALUE);
    const double too_far[3] = {0.0, 0.0, 2e6};
    refused(trivet_frame_add_joint(frame, "A", too_far, NULL, &message), TRIVET_BAD_VALUE, &message,
            "joint A: the position is 2000000000 mm, beyond what can be reckoned with; give a "
            "smaller number");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 0);
}
END_TEST

START_TEST(joints_can_be_moved)
{
    const double position[3] = {1.0, 2.0, 3.0};
    const double other[3] = {4.0, 5.0, 6.0};
    const double bad[3] = {4.0, (double)NAN, 6.0};
    must(trivet_frame_add_joint(frame, "A", position, NULL, &message), &message);
    must(trivet_frame_set_position(frame, 0, other, &message), &message);
    ck_assert_double_eq(trivet_frame_position(frame, 0)[1], 5.0);
    refused(trivet_frame_set_position(frame, 0, bad, &message), TRIVET_BAD_VALUE, &message,
            "joint A: the position is not a finite number; give a finite number");
    ck_assert_double_eq(trivet_frame_position(frame, 0)[0], 4.0);
    refused(trivet_frame_set_position(frame, 1, other, &message), TRIVET_BAD_INDEX, &message,
            "joint number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    ck_assert_int_eq(trivet_frame_set_position(frame, -1, other, NULL), TRIVET_BAD_INDEX);
    refused(trivet_frame_set_position(NULL, 0, other, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_position(frame, 0, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "position: is NULL; hand in a pointer to it");
    /* Its own memory may be handed in. */
    must(trivet_frame_set_position(frame, 0, trivet_frame_position(frame, 0), &message), &message);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(frame_needs_a_place_to_go, joints_are_numbered_in_order_and_copied,
              missing_arguments_are_named, names_must_be_names, a_name_is_taken_once,
              positions_must_be_within_reason, joints_can_be_moved);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("joint", tests);
}
