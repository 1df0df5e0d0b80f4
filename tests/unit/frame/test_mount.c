/*
 * Mounts: what they may hold, and how the ground moves under them.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static trivet_mount mount;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = must_new_frame();
    must_add_joint(frame, "FL", 0.0, 0.0, 0.0);
    must_add_joint(frame, "FR", 0.0, 0.0, 0.0);
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = 0;
    mount.held = TRIVET_POSITION;
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(void)
{
    return trivet_frame_add_mount(frame, &mount, NULL, &message);
}

START_TEST(defaults_hold_nothing_in_world_axes)
{
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    ck_assert_uint_eq(mount.size, sizeof mount);
    ck_assert_int_eq(mount.joint, -1);
    ck_assert_uint_eq(mount.held, 0);
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(mount.axes[i], i % 4 == 0 ? 1.0 : 0.0);
    }
    for (int i = 0; i < 6; i++) {
        ck_assert_double_eq(mount.spring[i], 0.0);
    }
    ck_assert(isnan(mount.limit_pull) && isnan(mount.limit_push));
    ck_assert(isnan(mount.limit_shear) && isnan(mount.limit_moment));
    defaults_take_own_size(trivet_mount, trivet_mount_defaults);
}
END_TEST

START_TEST(mounts_are_copied_and_given_back)
{
    int32_t number = -1;
    mount.spring[4] = 900.0;
    mount.limit_pull = 900.0;
    must(trivet_frame_add_mount(frame, &mount, &number, &message), &message);
    ck_assert_int_eq(number, 0);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_MOUNT, 0), "FL");
    trivet_mount got;
    must(trivet_mount_defaults(&got, sizeof got), &message);
    mount.spring[4] = 1.0;
    ck_assert_int_eq(trivet_frame_mount(frame, 0, &got), TRIVET_OK);
    ck_assert_int_eq(got.joint, 0);
    ck_assert_uint_eq(got.held, 7);
    ck_assert_double_eq(got.spring[4], 900.0);
    ck_assert_double_eq(got.limit_pull, 900.0);
    ck_assert_int_eq(trivet_frame_mount(frame, 1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_mount(frame, -1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_mount(NULL, 0, &got), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_mount(frame, 0, NULL), TRIVET_MISSING_ARGUMENT);
    got.size = 0;
    ck_assert_int_eq(trivet_frame_mount(frame, 0, &got), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    int32_t number = 7;
    refused(trivet_frame_add_mount(NULL, &mount, &number, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_mount(frame, NULL, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "mount: is NULL; hand in a pointer to it");
    const size_t known = sizeof mount;
    for (size_t size = 0; size <= known + 2; size++) {
        if (size != known) {
            mount.size = size;
            ck_assert_int_eq(add(), TRIVET_BAD_SIZE);
        }
    }
    mount.size = known;
    mount.joint = 2;
    refused(add(), TRIVET_BAD_INDEX, &message,
            "joint number 2: there is none, the frame has 2 of them; count from 0 in the order of "
            "adding");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 0);
}
END_TEST

START_TEST(a_joint_has_one_mount)
{
    must(add(), &message);
    refused(add(), TRIVET_BAD_NAME, &message,
            "mount FL: its joint has a mount already; make one of the two");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 1);
    ck_assert_int_eq(trivet__joint_mount(frame, 0), 0);
    ck_assert_int_eq(trivet__joint_mount(frame, 1), -1);
}
END_TEST

START_TEST(what_it_holds_must_make_sense)
{
    mount.held = 0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: it holds nothing; say which directions it holds, or give it springs");
    mount.held = 64;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the held directions are not made of x, y, z, rx, ry, rz; add up the bits of "
            "the directions");
    mount.held = TRIVET_ALL;
    mount.spring[4] = 900.0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: ry is held and has a spring as well; leave out the spring, or do not hold "
            "that direction");
    mount.held = TRIVET_POSITION;
    mount.spring[4] = -900.0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the spring is -900 N*m/rad; give 0 or more");
    mount.spring[4] = (double)NAN;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the spring is not a finite number; give a finite number");
    mount.spring[4] = 1e31;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    mount.spring[4] = 0.0;
    mount.held = 0;
    mount.spring[2] = 1e5;
    must(add(), &message);
}
END_TEST

START_TEST(axes_must_be_at_right_angles)
{
    static const char *const text = "mount FL: its axes are not unit vectors at right angles; give "
                                    "x, y and z of length 1 with z = x cross y";
    static const double bad[][9] = {
        {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, -1.0},
        {2.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0},
        {1.0, 0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 2.0},
        {1.0, 0.0, 0.0, 0.6, 0.8, 0.0, 0.0, 0.0, 1.0},
        {0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0},
        {(double)NAN, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0},
        {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, (double)INFINITY},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        memcpy(mount.axes, bad[i], sizeof mount.axes);
        refused(add(), TRIVET_BAD_VALUE, &message, text);
    }
    /* Turned by 30 degrees about z, from memory. */
    const double c = sqrt(3.0) / 2.0;
    const double turned[9] = {c, 0.5, 0.0, -0.5, c, 0.0, 0.0, 0.0, 1.0};
    memcpy(mount.axes, turned, sizeof mount.axes);
    must(add(), &message);
}
END_TEST

START_TEST(limits_are_numbers_or_not_known)
{
    mount.limit_push = -1.0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the limit of push is -1 N; give 0 or more");
    mount.limit_push = (double)NAN;
    mount.limit_moment = (double)INFINITY;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the limit of moment is not a finite number; give a finite number");
    mount.limit_moment = (double)NAN;
    mount.limit_pull = -(double)INFINITY;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    mount.limit_pull = 0.0;
    mount.limit_shear = -2.0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "mount FL: the limit of shear is -2 N; give 0 or more");
    mount.limit_shear = 1500.0;
    must(add(), &message);
}
END_TEST

START_TEST(the_ground_moves_in_held_and_sprung_directions)
{
    int32_t in_case = -1;
    mount.spring[4] = 900.0;
    must(trivet_frame_add_case(frame, "before", NULL, &in_case, &message), &message);
    must(add(), &message);
    must(trivet_frame_add_case(frame, "after", NULL, NULL, &message), &message);
    const double move[6] = {0.0, 0.0, 1e-3, 0.0, 2e-3, 0.0};
    for (int32_t i = 0; i < 2; i++) {
        for (int k = 0; k < 6; k++) {
            ck_assert_double_eq(frame->cases[i].mount_moves[k], 0.0);
        }
        must(trivet_frame_set_mount_move(frame, i, 0, move, &message), &message);
        ck_assert_double_eq(frame->cases[i].mount_moves[2], 1e-3);
        ck_assert_double_eq(frame->cases[i].mount_moves[4], 2e-3);
    }
    const double loose[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 1e-3};
    refused(trivet_frame_set_mount_move(frame, 0, 0, loose, &message), TRIVET_BAD_VALUE, &message,
            "case before, mount FL: it moves in rz, which it does not hold; hold that direction, "
            "or leave out its move");
    const double endless[6] = {0.0, 0.0, (double)NAN, 0.0, 0.0, 0.0};
    refused(trivet_frame_set_mount_move(frame, 0, 0, endless, &message), TRIVET_BAD_VALUE, &message,
            "case before, mount FL: the move is not a finite number; give a finite number");
    const double turns[6] = {0.0, 0.0, 0.0, 0.0, (double)INFINITY, 0.0};
    refused(trivet_frame_set_mount_move(frame, 0, 0, turns, &message), TRIVET_BAD_VALUE, &message,
            "case before, mount FL: the turn is not a finite number; give a finite number");
    ck_assert_double_eq(frame->cases[0].mount_moves[2], 1e-3);
    refused(trivet_frame_set_mount_move(frame, 2, 0, move, &message), TRIVET_BAD_INDEX, &message,
            "case number 2: there is none, the frame has 2 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_mount_move(frame, 0, 1, move, &message), TRIVET_BAD_INDEX, &message,
            "mount number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_mount_move(NULL, 0, 0, move, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_mount_move(frame, 0, 0, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "move: is NULL; hand in a pointer to it");
}
END_TEST

START_TEST(moves_stay_while_many_mounts_are_added)
{
    const double move[6] = {1e-3, 0.0, 0.0, 0.0, 0.0, 0.0};
    must(trivet_frame_add_case(frame, "c", NULL, NULL, &message), &message);
    must(add(), &message);
    must(trivet_frame_set_mount_move(frame, 0, 0, move, &message), &message);
    for (int32_t i = 0; i < 50; i++) {
        char name[16];
        const double position[3] = {i, 0.0, 0.0};
        snprintf(name, sizeof name, "j%d", (int)i);
        must(trivet_frame_add_joint(frame, name, position, &mount.joint, &message), &message);
        must(add(), &message);
    }
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 51);
    ck_assert_double_eq(frame->cases[0].mount_moves[0], 1e-3);
    for (int32_t i = 6; i < 51 * 6; i++) {
        ck_assert_double_eq(frame->cases[0].mount_moves[i], 0.0);
    }
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        defaults_hold_nothing_in_world_axes, mounts_are_copied_and_given_back,
        calls_that_are_wrong_are_refused, a_joint_has_one_mount, what_it_holds_must_make_sense,
        axes_must_be_at_right_angles, limits_are_numbers_or_not_known,
        the_ground_moves_in_held_and_sprung_directions, moves_stay_while_many_mounts_are_added);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("mount", tests);
}
