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

START_TEST(a_mount_is_changed_in_place)
{
    trivet_mount got;
    must(trivet_mount_defaults(&got, sizeof got), &message);
    must(add(), &message);
    mount.held = TRIVET_X;
    mount.spring[2] = 1e5;
    mount.limit_pull = 800.0;
    must(trivet_frame_set_mount(frame, 0, &mount, &message), &message);
    mount.limit_pull = 1.0;
    must(trivet_frame_mount(frame, 0, &got), &message);
    ck_assert_uint_eq(got.held, TRIVET_X);
    ck_assert_double_eq(got.spring[2], 1e5);
    ck_assert_double_eq(got.limit_pull, 800.0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 1);
}
END_TEST

START_TEST(a_change_keeps_to_the_rules_of_a_mount)
{
    trivet_mount got;
    must(trivet_mount_defaults(&got, sizeof got), &message);
    must(add(), &message);
    mount.held = 0;
    refused(trivet_frame_set_mount(frame, 0, &mount, &message), TRIVET_BAD_VALUE, &message,
            "mount FL: it holds nothing; say which directions it holds, or give it springs");
    mount.held = TRIVET_ALL;
    mount.joint = 1;
    refused(trivet_frame_set_mount(frame, 0, &mount, &message), TRIVET_BAD_VALUE, &message,
            "mount FL: it would move to another joint; remove it, and add one there");
    must(add(), &message);
    refused(trivet_frame_set_mount(frame, 0, &mount, &message), TRIVET_BAD_NAME, &message,
            "mount FR: its joint has a mount already; make one of the two");
    mount.size--;
    ck_assert_int_eq(trivet_frame_set_mount(frame, 1, &mount, &message), TRIVET_BAD_SIZE);
    mount.size++;
    trivet_message_clear(&message);
    refused(trivet_frame_set_mount(frame, 2, &mount, &message), TRIVET_BAD_INDEX, &message,
            "mount number 2: there is none, the frame has 2 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_mount(NULL, 0, &mount, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_mount(frame, 0, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "changed: is NULL; hand in a pointer to it");
    must(trivet_frame_mount(frame, 0, &got), &message);
    ck_assert_uint_eq(got.held, TRIVET_POSITION);
}
END_TEST

START_TEST(a_change_keeps_what_a_case_moves)
{
    const double move[6] = {0.0, 0.0, 1e-3, 0.0, 0.0, 0.0};
    must(add(), &message);
    must(trivet_frame_add_case(frame, "c", NULL, NULL, &message), &message);
    must(trivet_frame_set_mount_move(frame, 0, 0, move, &message), &message);
    mount.held = TRIVET_X | TRIVET_Y;
    refused(trivet_frame_set_mount(frame, 0, &mount, &message), TRIVET_BAD_VALUE, &message,
            "mount FL: a case moves it in a direction that it would not hold; hold that direction, "
            "or take the move out of the case");
    mount.spring[2] = 1e5;
    must(trivet_frame_set_mount(frame, 0, &mount, &message), &message);
    ck_assert_double_eq(frame->cases[0].mount_moves[2], 1e-3);
}
END_TEST

/* One bolt to a mount; axes NULL: along the mount's. */
static int32_t must_add_bolts(int32_t of_mount, const double *axes)
{
    trivet_bolts bolts;
    int32_t number = -1;
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = of_mount;
    snprintf(bolts.thread, sizeof bolts.thread, "M8");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    if (axes) {
        memcpy(bolts.axes, axes, sizeof bolts.axes);
    }
    must(trivet_frame_add_bolts(frame, &bolts, &number, &message), &message);
    return number;
}

/* z along world x and along world y. */
static const double FORWARD[9] = {0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 0.0, 0.0};
static const double SIDEWAYS[9] = {0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0};

START_TEST(bolts_turn_with_their_mount_unless_they_have_axes_of_their_own)
{
    must(add(), &message);
    mount.joint = 1;
    must(add(), &message);
    must_add_bolts(0, NULL);
    must_add_bolts(1, SIDEWAYS);
    memcpy(mount.axes, FORWARD, sizeof mount.axes);
    must(trivet_frame_set_mount(frame, 1, &mount, &message), &message);
    mount.joint = 0;
    must(trivet_frame_set_mount(frame, 0, &mount, &message), &message);
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(frame->bolts[0].axes[i], FORWARD[i]);
        ck_assert_double_eq(frame->bolts[1].axes[i], SIDEWAYS[i]);
    }
}
END_TEST

/* Five mounts on joints 0 to 4, each with a bolt and its own move in each of two cases. */
static void make_five(void)
{
    for (int32_t i = 2; i < 5; i++) {
        char name[16];
        snprintf(name, sizeof name, "J%d", (int)i);
        must_add_joint(frame, name, i, 0.0, 0.0);
    }
    must_add_case(frame, "first", 1.0);
    must_add_case(frame, "second", 1.0);
    for (int32_t i = 0; i < 5; i++) {
        mount.joint = i;
        must(add(), &message);
        for (int32_t c = 0; c < 2; c++) {
            const double move[6] = {i + 1.0, 0.0, 10.0 * c, 0.0, 0.0, 0.0};
            must(trivet_frame_set_mount_move(frame, c, i, move, &message), &message);
        }
    }
    for (int32_t i = 4; i >= 0; i--) {
        must_add_bolts(i, NULL);
    }
}

/* Fails unless the mounts stand on these joints, each with the bolt and moves that it came with. */
static void has_left(const int32_t *joints, int32_t count)
{
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), count);
    ck_assert_int_eq(trivet_frame_bolts_count(frame), count);
    for (int32_t i = 0; i < count; i++) {
        const trivet_bolts *const bolts = &frame->bolts[count - 1 - i];
        ck_assert_int_eq(frame->mounts[i].joint, joints[i]);
        ck_assert_int_eq(trivet__joint_mount(frame, joints[i]), i);
        ck_assert_int_eq(bolts->where_index, i);
        ck_assert_int_eq(bolts->joint, joints[i]);
        for (int32_t c = 0; c < 2; c++) {
            ck_assert_double_eq(frame->cases[c].mount_moves[6 * i], joints[i] + 1.0);
            ck_assert_double_eq(frame->cases[c].mount_moves[6 * i + 2], 10.0 * c);
        }
    }
}

START_TEST(a_mount_goes_with_its_bolts_and_moves)
{
    make_five();
    has_left((const int32_t[]){0, 1, 2, 3, 4}, 5);
    must(trivet_frame_remove_mount(frame, 2, &message), &message);
    has_left((const int32_t[]){0, 1, 3, 4}, 4);
    must(trivet_frame_remove_mount(frame, 3, &message), &message);
    has_left((const int32_t[]){0, 1, 3}, 3);
    must(trivet_frame_remove_mount(frame, 0, &message), &message);
    has_left((const int32_t[]){1, 3}, 2);
    ck_assert_int_eq(trivet__joint_mount(frame, 0), -1);
    mount.joint = 0; /* the joint is free again, and the new mount moves nowhere */
    must(add(), &message);
    for (int i = 12; i < 18; i++) {
        ck_assert_double_eq(frame->cases[1].mount_moves[i], 0.0);
    }
    for (int32_t i = 2; i >= 0; i--) {
        must(trivet_frame_remove_mount(frame, i, &message), &message);
    }
    has_left(NULL, 0);
}
END_TEST

START_TEST(bolts_elsewhere_stay)
{
    static const int32_t under[] = {0, 1};
    must_add_joint(frame, "J2", 2.0, 0.0, 0.0);
    must(trivet_frame_add_deck(frame, "top", under, 2, NULL, &message), &message);
    must(trivet_frame_add_deck(frame, "shelf", under, 2, NULL, &message), &message);
    must(add(), &message);
    trivet_bolts bolts;
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.where_index = 1;
    bolts.joint = 1;
    snprintf(bolts.thread, sizeof bolts.thread, "M6");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    must(trivet_frame_remove_mount(frame, 0, &message), &message);
    ck_assert_int_eq(frame->bolts_count, 1);
    ck_assert_int_eq(frame->bolts[0].where_index, 1);
}
END_TEST

START_TEST(what_is_not_there_is_not_removed)
{
    must(add(), &message);
    refused(trivet_frame_remove_mount(frame, 1, &message), TRIVET_BAD_INDEX, &message,
            "mount number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    ck_assert_int_eq(trivet_frame_remove_mount(frame, -1, &message), TRIVET_BAD_INDEX);
    trivet_message_clear(&message);
    refused(trivet_frame_remove_mount(NULL, 0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 1);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(defaults_hold_nothing_in_world_axes, mounts_are_copied_and_given_back,
              calls_that_are_wrong_are_refused, a_joint_has_one_mount,
              what_it_holds_must_make_sense, axes_must_be_at_right_angles,
              limits_are_numbers_or_not_known, the_ground_moves_in_held_and_sprung_directions,
              moves_stay_while_many_mounts_are_added, a_mount_is_changed_in_place,
              a_change_keeps_to_the_rules_of_a_mount, a_change_keeps_what_a_case_moves,
              bolts_turn_with_their_mount_unless_they_have_axes_of_their_own,
              a_mount_goes_with_its_bolts_and_moves, bolts_elsewhere_stay,
              what_is_not_there_is_not_removed);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("mount", tests);
}
