/*
 * Usages that push, lift or pull at certain places, and what they say is missing.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "usage_rack.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double G = 9.80665; /* m/s^2, ISO 80000-3 */
static const double ROUNDING = 1e-12;

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

/* Adds a kind as it comes; how many cases there are of it. */
static int32_t add(int32_t kind)
{
    const trivet_usage usage = must_usage(kind);
    return must_add_usage(frame, &usage);
}

static void is_vector(const double *got, double x, double y, double z)
{
    const double wanted[3] = {x, y, z};
    for (int i = 0; i < 3; i++) {
        near_scaled(got[i], wanted[i], ROUNDING, fmax(1.0, fabs(wanted[i])));
    }
}

/* The weight of frame and load, standing, beside what else a case has. */
static void has_weight(const trivet__case *of)
{
    is_vector(of->gravity, 0.0, 0.0, -1.0);
}

static void pushes_joint(const trivet__case *of, int32_t index, int32_t joint, double x, double y,
                         double z)
{
    ck_assert_int_lt(index, of->joint_force_count);
    ck_assert_int_eq(of->joint_forces[index].joint, joint);
    is_vector(of->joint_forces[index].force, x, y, z);
    is_vector(of->joint_forces[index].moment, 0.0, 0.0, 0.0);
}

START_TEST(a_passenger_leans_back_and_settles)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.height = 0.35;
    ck_assert_int_eq(must_add_usage(frame, &usage), 2);
    const trivet__case *const leaning = case_of(frame, "two-up, leaning back");
    has_weight(leaning);
    ck_assert_int_eq(leaning->cargo_force_count, 1);
    ck_assert_int_eq(leaning->cargo_forces[0].cargo, 0);
    is_vector(leaning->cargo_forces[0].force, -400.0, 0.0, 0.0);
    /* Over the box's centre, 350 mm above the mounts at 800 mm. */
    is_vector(leaning->cargo_forces[0].at, -0.4, 0.0, 0.8 + 0.35);
    story_has(frame, "two-up, leaning back", "400 N");
    const trivet__case *const settling = case_of(frame, "two-up, settling");
    has_weight(settling);
    ck_assert_int_eq(settling->cargo_force_count, 1);
    is_vector(settling->cargo_forces[0].force, 0.0, 0.0, -75.0 * 1.5 * G);
    ck_assert_int_eq(settling->cargo_forces[0].at_centre, 1);
    story_has(frame, "two-up, settling", "1103 N"); /* 1103.2 */
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

START_TEST(the_height_of_the_back_counts_from_the_highest_mount)
{
    const double higher[3] = {0.0, 0.16, 0.9};
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.height = 0.35;
    usage.mass = (double)NAN;
    must(trivet_frame_set_position(frame, FL, higher, &message), &message);
    ck_assert_int_eq(must_add_usage(frame, &usage), 1);
    is_vector(frame->cases[0].cargo_forces[0].at, -0.4, 0.0, 0.9 + 0.35);
}
END_TEST

START_TEST(two_up_asks_for_the_height_of_the_back)
{
    ck_assert_int_eq(add(TRIVET_USAGE_TWO_UP), 1);
    case_of(frame, "two-up, settling");
    has_one_gap(frame, "usage two-up",
                "say how high above the mounts the passenger's back leans: two-up: {height: 350 "
                "mm}");
}
END_TEST

START_TEST(two_up_without_a_force_needs_no_height)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.force = 0.0;
    ck_assert_int_eq(must_add_usage(frame, &usage), 1);
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

/* A second cargo on the two rear joints. */
static int32_t must_add_bag(const char *name)
{
    static const int32_t under[] = {RL, RR};
    const double centre[3] = {-0.6, 0.1, 1.1};
    int32_t bag = -1;
    must(trivet_frame_add_cargo(frame, name, centre, under, 2, TRIVET_GRIP_SOFT, &bag, &message),
         &message);
    return bag;
}

START_TEST(of_several_cargoes_one_must_be_named)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.height = 0.35;
    usage.cargo = must_add_bag("bag");
    trivet_usage unnamed = usage;
    unnamed.cargo = -1;
    ck_assert_int_eq(must_add_usage(frame, &unnamed), 0);
    has_one_gap(frame, "usage two-up",
                "say which cargo the passenger leans on: two-up: {on: NAME, height: 350 mm}");
    trivet_frame_free(frame);
    frame = usage_rack();
    must_add_bag("bag");
    ck_assert_int_eq(must_add_usage(frame, &usage), 2);
    ck_assert_int_eq(frame->cases[0].cargo_forces[0].cargo, 1);
    is_vector(frame->cases[0].cargo_forces[0].at, -0.6, 0.1, 0.8 + 0.35);
}
END_TEST

START_TEST(the_weight_of_a_deck_is_no_load_to_lean_on)
{
    static const int32_t under[] = {RL, RR};
    must(trivet_frame_add_deck(frame, "plate", under, 2, NULL, &message), &message);
    must_add_bag("plate");
    ck_assert_int_eq(add(TRIVET_USAGE_STRAPS), 1);
    ck_assert_int_eq(frame->cases[0].joint_force_count, 4); /* the box's own joints */
}
END_TEST

START_TEST(a_hand_pulls_at_the_middle_of_a_rail)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_GRAB);
    usage.tube = RIGHT_RAIL;
    ck_assert_int_eq(must_add_usage(frame, &usage), 1);
    const trivet__case *const got = case_of(frame, "grab, holding on");
    has_weight(got);
    ck_assert_int_eq(got->tube_force_count, 1);
    ck_assert_int_eq(got->tube_forces[0].tube, RIGHT_RAIL);
    ck_assert_int_eq(got->tube_forces[0].axes, TRIVET_WORLD_AXES);
    near_relative(got->tube_forces[0].at, 0.25, ROUNDING);
    is_vector(got->tube_forces[0].force, 0.0, 0.0, 2000.0);
    story_has(frame, "grab, holding on", "2000 N");
    const char *source = NULL;
    trivet_frame_case_story(frame, 0, &source);
    ck_assert_ptr_nonnull(strstr(source, "(from memory)"));
}
END_TEST

START_TEST(grab_asks_for_the_rail)
{
    ck_assert_int_eq(add(TRIVET_USAGE_GRAB), 0);
    has_one_gap(frame, "usage grab", "say which tube a passenger holds on to: grab: {rail: NAME}");
}
END_TEST

static const char *const SAY_LOADS =
    "say what the vehicle weighs: vehicle: {front load: 90 kg, rear load: 95 kg}";

/* Half of 180 kg. */
START_TEST(the_two_joints_farthest_back_lift_half_the_vehicle)
{
    must_set_loads(frame);
    ck_assert_int_eq(add(TRIVET_USAGE_LIFTED), 1);
    const trivet__case *const got = case_of(frame, "lifted, by its tail");
    has_weight(got);
    ck_assert_int_eq(got->joint_force_count, 2);
    pushes_joint(got, 0, RL, 0.0, 0.0, 45.0 * G);
    pushes_joint(got, 1, RR, 0.0, 0.0, 45.0 * G);
    story_has(frame, "lifted, by its tail", "883 N"); /* 882.6 */
}
END_TEST

START_TEST(of_three_joints_at_the_tail_the_outer_two_lift)
{
    must_set_loads(frame); /* all within 1 mm of the farthest */
    must_add_joint(frame, "handle", -0.5, 0.0, 0.8);
    const int32_t right = must_add_joint(frame, "far right", -0.5005, -0.3, 0.8);
    const int32_t left = must_add_joint(frame, "far left", -0.4998, 0.3, 0.8);
    add(TRIVET_USAGE_LIFTED);
    ck_assert_int_eq(frame->cases[0].joint_force_count, 2);
    pushes_joint(&frame->cases[0], 0, left, 0.0, 0.0, 45.0 * G);
    pushes_joint(&frame->cases[0], 1, right, 0.0, 0.0, 45.0 * G);
}
END_TEST

START_TEST(one_joint_alone_at_the_tail_lifts_all)
{
    must_set_loads(frame);
    const int32_t hook = must_add_joint(frame, "hook", -0.6, 0.0, 0.8);
    add(TRIVET_USAGE_LIFTED);
    ck_assert_int_eq(frame->cases[0].joint_force_count, 1);
    pushes_joint(&frame->cases[0], 0, hook, 0.0, 0.0, 90.0 * G);
}
END_TEST

START_TEST(a_fall_pushes_the_outermost_joint_of_each_side_inward)
{
    must_set_loads(frame);
    const int32_t bar = must_add_joint(frame, "crash bar", -0.1, 0.3, 0.7);
    ck_assert_int_eq(add(TRIVET_USAGE_FALL), 2);
    const trivet__case *const left = case_of(frame, "fall, to the left");
    const trivet__case *const right = case_of(frame, "fall, to the right");
    is_vector(left->gravity, 0.0, 1.0, 0.0);
    is_vector(right->gravity, 0.0, -1.0, 0.0);
    ck_assert_int_eq(left->joint_force_count, 1);
    ck_assert_int_eq(right->joint_force_count, 1);
    pushes_joint(left, 0, bar, 0.0, -180.0 * G, 0.0); /* half of 180 kg, twice */
    pushes_joint(right, 0, RR, 0.0, 180.0 * G, 0.0);
    story_has(frame, "fall, to the left", "1765 N"); /* 1765.2 */
}
END_TEST

START_TEST(lifting_and_falling_ask_for_the_vehicle)
{
    ck_assert_int_eq(add(TRIVET_USAGE_LIFTED), 0);
    has_one_gap(frame, "usage lifted", SAY_LOADS);
    trivet_vehicle vehicle;
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.front_load = 80.0; /* half of what is needed */
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), &message);
    ck_assert_int_eq(add(TRIVET_USAGE_FALL), 0);
    const char *why = NULL;
    ck_assert_str_eq(trivet_frame_gap(frame, 1, &why), "usage fall");
    ck_assert_str_eq(why, SAY_LOADS);
    ck_assert(trivet_frame_has_usage(frame, TRIVET_USAGE_FALL));
}
END_TEST

START_TEST(a_person_stands_on_each_outer_corner_without_a_mount)
{
    must_add_joint(frame, "on the edge", -0.5, 0.05, 0.8);
    must_add_joint(frame, "inside", -0.3, 0.0, 0.9);
    must_add_joint(frame, "leg under the edge", -0.5, 0.05, 0.2);
    must_add_joint(frame, "leg under RL", -0.5, 0.16, 0.2);
    ck_assert_int_eq(add(TRIVET_USAGE_STANDING), 2);
    const trivet__case *const left = case_of(frame, "standing, on RL");
    has_weight(left);
    ck_assert_int_eq(left->joint_force_count, 1);
    pushes_joint(left, 0, RL, 0.0, 0.0, -75.0 * 1.5 * G);
    pushes_joint(case_of(frame, "standing, on RR"), 0, RR, 0.0, 0.0, -75.0 * 1.5 * G);
    story_has(frame, "standing, on RR", "1103 N");
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

START_TEST(the_end_of_a_straight_arm_is_a_corner)
{
    trivet_frame *const arm = cantilever_frame(0.5, 100.0);
    must_add_joint(arm, "middle", 0.2, 0.0, 0.0);
    const trivet_usage usage = must_usage(TRIVET_USAGE_STANDING);
    ck_assert_int_eq(must_add_usage(arm, &usage), 1);
    case_of(arm, "standing, on B");
    trivet_frame_free(arm);
}
END_TEST

START_TEST(more_corners_than_eight_are_said)
{
    for (int i = 0; i < 12; i++) {
        char name[16];
        const double angle = i * 0.5235987755982988; /* pi / 6 */
        snprintf(name, sizeof name, "ring %d", i);
        must_add_joint(frame, name, 2.0 * cos(angle), 2.0 * sin(angle), 0.8);
    }
    ck_assert_int_eq(add(TRIVET_USAGE_STANDING), 8);
    has_one_gap(frame, "usage standing",
                "only the first 8 of 12 outer corners are looked at: add cases for the others");
}
END_TEST

START_TEST(long_names_are_cut_at_a_character)
{
    char name[TRIVET_NAME_MAX];
    memset(name, 0, sizeof name);
    for (int i = 0; i < (TRIVET_NAME_MAX - 1) / 2; i++) {
        memcpy(name + 2 * i, "\xc3\xa4", 2); /* a with two dots, as UTF-8 */
    }
    must_add_mount(frame, must_add_joint(frame, name, -0.9, 0.0, 0.8), TRIVET_POSITION);
    name[0] = 'a';
    name[1] = 'b';
    must_add_joint(frame, name, -1.0, 0.0, 0.8);
    ck_assert_int_eq(add(TRIVET_USAGE_STANDING), 3); /* RL, RR and this one */
    ck_assert_int_eq(add(TRIVET_USAGE_MISFIT), 5);
    ck_assert_uint_lt(strlen(trivet_frame_name(frame, TRIVET_KIND_CASE, 2)), TRIVET_NAME_MAX);
}
END_TEST

START_TEST(straps_press_on_every_joint_under_the_cargo)
{
    static const int32_t under[] = {ML, MR, RL, RR};
    ck_assert_int_eq(add(TRIVET_USAGE_STRAPS), 1);
    const trivet__case *const got = case_of(frame, "straps, pulled tight");
    has_weight(got);
    ck_assert_int_eq(got->joint_force_count, 4);
    for (int32_t i = 0; i < 4; i++) {
        pushes_joint(got, i, under[i], 0.0, 0.0, -500.0);
    }
    story_has(frame, "straps, pulled tight", "500 N");
}
END_TEST

START_TEST(straps_ask_which_cargo)
{
    must_add_bag("bag");
    ck_assert_int_eq(add(TRIVET_USAGE_STRAPS), 0);
    has_one_gap(frame, "usage straps", "say which cargo is strapped down: straps: {on: NAME}");
}
END_TEST

/* Fails unless a case moves one mount in one direction by 1 mm and no other at all. */
static void moves_only(const trivet__case *of, int32_t mount, int direction)
{
    is_vector(of->gravity, 0.0, 0.0, 0.0);
    for (int32_t i = 0; i < 6 * frame->mount_count; i++) {
        ck_assert_double_eq(of->mount_moves[i], i == 6 * mount + direction ? 1e-3 : 0.0);
    }
}

START_TEST(each_mount_is_pulled_out_of_place_the_way_it_holds)
{
    trivet_mount mount;
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = FR;
    mount.held = TRIVET_X | TRIVET_Y;
    must(trivet_frame_set_mount(frame, 1, &mount, &message), &message);
    mount.joint = ML;
    mount.held = TRIVET_X;
    mount.spring[2] = 1e5;
    must(trivet_frame_set_mount(frame, 2, &mount, &message), &message);
    mount.joint = MR;
    mount.held = TRIVET_Y | TRIVET_RX;
    mount.spring[2] = 0.0;
    must(trivet_frame_set_mount(frame, 3, &mount, &message), &message);
    ck_assert_int_eq(add(TRIVET_USAGE_MISFIT), 4);
    moves_only(case_of(frame, "misfit, FL"), 0, 2);
    moves_only(case_of(frame, "misfit, FR"), 1, 0);
    moves_only(case_of(frame, "misfit, ML"), 2, 2);
    moves_only(case_of(frame, "misfit, MR"), 3, 1);
    story_has(frame, "misfit, FL", "1 mm");
    ck_assert_int_eq(frame->gap_count, 0);
}
END_TEST

START_TEST(a_mount_that_only_keeps_from_turning_is_said)
{
    trivet_mount mount;
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = FR;
    mount.held = TRIVET_RX | TRIVET_RY;
    must(trivet_frame_set_mount(frame, 1, &mount, &message), &message);
    ck_assert_int_eq(add(TRIVET_USAGE_MISFIT), 3);
    has_one_gap(frame, "usage misfit", "mount FR holds no way along which it could be pulled");
}
END_TEST

START_TEST(somebody_leans_against_the_top_of_a_stand)
{
    const int32_t post = must_add_joint(frame, "post", -0.2, 0.0, 1.2);
    must_add_joint(frame, "as high", -0.3, 0.0, 1.2);
    ck_assert_int_eq(add(TRIVET_USAGE_STAND), 2);
    const trivet__case *const got = case_of(frame, "stand, leaned against");
    has_weight(got);
    ck_assert_int_eq(got->joint_force_count, 1);
    pushes_joint(got, 0, post, 0.0, 300.0, 0.0);
    story_has(frame, "stand, leaned against", "300 N");
}
END_TEST

/* Every joint has a mount, or there is none. */
static const struct {
    int32_t kind;
    int32_t cases; /* that are there all the same */
    const char *what;
    const char *why;
} NOWHERE[] = {
    {TRIVET_USAGE_LIFTED, 0, "usage lifted", "there is no joint without a mount to lift it by"},
    {TRIVET_USAGE_FALL, 0, "usage fall",
     "there is no joint without a mount that could hit the ground"},
    {TRIVET_USAGE_STANDING, 0, "usage standing",
     "there is no outer corner without a mount to stand on"},
    {TRIVET_USAGE_STAND, 1, "usage stand", "there is no joint without a mount to lean against"},
};

START_TEST(what_has_no_place_to_act_on_is_said)
{
    must_set_loads(frame);
    must_add_mount(frame, RL, TRIVET_POSITION);
    must_add_mount(frame, RR, TRIVET_POSITION);
    ck_assert_int_eq(add(NOWHERE[_i].kind), NOWHERE[_i].cases);
    has_one_gap(frame, NOWHERE[_i].what, NOWHERE[_i].why);
}
END_TEST

START_TEST(without_mounts_no_back_has_a_height)
{
    trivet_usage usage = must_usage(TRIVET_USAGE_TWO_UP);
    usage.height = 0.35;
    for (int32_t i = 3; i >= 0; i--) {
        must(trivet_frame_remove_mount(frame, i, &message), &message);
    }
    ck_assert_int_eq(must_add_usage(frame, &usage), 1);
    has_one_gap(frame, "usage two-up", "there is no mount to measure the height of the back from");
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        a_passenger_leans_back_and_settles, the_height_of_the_back_counts_from_the_highest_mount,
        two_up_asks_for_the_height_of_the_back, two_up_without_a_force_needs_no_height,
        of_several_cargoes_one_must_be_named, the_weight_of_a_deck_is_no_load_to_lean_on,
        a_hand_pulls_at_the_middle_of_a_rail, grab_asks_for_the_rail,
        the_two_joints_farthest_back_lift_half_the_vehicle,
        of_three_joints_at_the_tail_the_outer_two_lift, one_joint_alone_at_the_tail_lifts_all,
        a_fall_pushes_the_outermost_joint_of_each_side_inward,
        lifting_and_falling_ask_for_the_vehicle,
        a_person_stands_on_each_outer_corner_without_a_mount, the_end_of_a_straight_arm_is_a_corner,
        more_corners_than_eight_are_said, long_names_are_cut_at_a_character,
        straps_press_on_every_joint_under_the_cargo, straps_ask_which_cargo,
        each_mount_is_pulled_out_of_place_the_way_it_holds,
        a_mount_that_only_keeps_from_turning_is_said, somebody_leans_against_the_top_of_a_stand,
        without_mounts_no_back_has_a_height);
    tcase_add_checked_fixture(tests, make, give_back);
    tcase_add_loop_test(tests, what_has_no_place_to_act_on_is_said, 0,
                        sizeof NOWHERE / sizeof NOWHERE[0]);
    return run_tests("usage_loads", tests);
}
