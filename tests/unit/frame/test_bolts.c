/*
 * Bolts: where they may be, what must be said about them, what is filled in.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A mount at A; tube "left" through A B C; deck "top" on C and D; stock "rail", a tube of 20 x 20 x
 * 2 mm, and "plug", a bar. */
static trivet_frame *frame;
static trivet_message message;

static trivet_bolts bolts;

enum { A, B, C, D };
enum { RAIL, PLUG };

static trivet_status add(void)
{
    return trivet_frame_add_bolts(frame, &bolts, NULL, &message);
}

static void make(void)
{
    const int32_t through[] = {A, B, C};
    const int32_t under[] = {C, D};
    trivet_mount mount;
    memset(&message, 0, sizeof message);
    frame = row_of_joints_frame();
    must_add_tube(frame, "left", through, 3, RAIL);
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = A;
    mount.held = TRIVET_ALL;
    const double turned[9] = {0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 0.0, 0.0};
    memcpy(mount.axes, turned, sizeof turned);
    must(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
    must(trivet_frame_add_deck(frame, "top", under, 2, NULL, &message), &message);
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    snprintf(bolts.thread, sizeof bolts.thread, "M6");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_bolts get(int32_t index)
{
    trivet_bolts got;
    must(trivet_bolts_defaults(&got, sizeof got), &message);
    ck_assert_int_eq(trivet_frame_bolts(frame, index, &got), TRIVET_OK);
    return got;
}

START_TEST(defaults_are_one_bolt_with_a_nut)
{
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    const double unknown[] = {bolts.engagement,
                              bolts.torque,
                              bolts.rated_pull,
                              bolts.rated_shear,
                              bolts.rated_torque,
                              bolts.plate,
                              bolts.plate_yield,
                              bolts.plate_tensile,
                              bolts.edge,
                              bolts.side,
                              bolts.hole,
                              bolts.spacer_height,
                              bolts.spacer_diameter,
                              bolts.sleeve_wall,
                              bolts.sleeve_diameter,
                              bolts.sleeve_yield,
                              bolts.fixing_diameter};
    for (size_t i = 0; i < sizeof unknown / sizeof unknown[0]; i++) {
        ck_assert_msg(isnan(unknown[i]), "size number %zu is said", i);
    }
    ck_assert_uint_eq(bolts.size, sizeof bolts);
    ck_assert_int_eq(bolts.where_kind, 0);
    ck_assert_int_eq(bolts.where_index, -1);
    ck_assert_int_eq(bolts.joint, -1);
    ck_assert_int_eq(bolts.into_stock, -1);
    ck_assert_int_eq(bolts.clamped_stock, -1);
    ck_assert_int_eq(bolts.count, 1);
    ck_assert_double_eq(bolts.nut_factor, 0.2);
    ck_assert_double_eq(bolts.scatter, 0.25);
    ck_assert_double_eq(bolts.friction, 0.2);
    ck_assert_str_eq(bolts.thread, "");
    defaults_take_own_size(trivet_bolts, trivet_bolts_defaults);
}
END_TEST

START_TEST(bolts_of_a_mount_take_its_joint_and_axes)
{
    int32_t number = -1;
    bolts.torque = 10.0;
    must(trivet_frame_add_bolts(frame, &bolts, &number, &message), &message);
    bolts.torque = 99.0;
    const trivet_bolts got = get(0);
    ck_assert_int_eq(number, 0);
    ck_assert_int_eq(got.joint, A);
    ck_assert_double_eq(got.torque, 10.0);
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(got.axes[i], i == 1 || i == 5 || i == 6 ? 1.0 : 0.0);
    }
    ck_assert_int_eq(trivet_frame_bolts_count(frame), 1);
    ck_assert_int_eq(trivet_frame_bolts_count(NULL), 0);
}
END_TEST

START_TEST(axes_are_filled_in_where_they_cannot_change)
{
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.joint = D;
    must(add(), &message);
    bolts.where_kind = TRIVET_KIND_TUBE;
    bolts.joint = C;
    must(add(), &message);
    bolts.joint = A;
    const double given[9] = {0.0, 1.0, 0.0, -1.0, 0.0, 0.0, 0.0, 0.0, 1.0};
    memcpy(bolts.axes, given, sizeof given);
    must(add(), &message);
    const trivet_bolts on_deck = get(0);
    const trivet_bolts on_tube = get(1);
    const trivet_bolts turned = get(2);
    for (int i = 0; i < 9; i++) {
        ck_assert_double_eq(on_deck.axes[i], i % 4 == 0 ? 1.0 : 0.0);
        ck_assert_double_eq(on_tube.axes[i], 0.0);
        ck_assert_double_eq(turned.axes[i], given[i]);
    }
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.axes[0] = 0.5;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: its axes are not unit vectors at right angles; give x, y and z of "
            "length 1 with z = x cross y");
    bolts.axes[0] = (double)NAN;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
}
END_TEST

START_TEST(places_must_be_there)
{
    bolts.where_kind = TRIVET_KIND_CARGO;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts: it is not said what they are the bolts of; name a mount, an end of a tube, or "
            "a joint of a deck");
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 1;
    refused(add(), TRIVET_BAD_INDEX, &message,
            "bolts, mount number 1: there is none, the frame has 1 of them; count from 0 in the "
            "order of adding");
    bolts.where_index = 0;
    bolts.joint = B;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: they are said to sit at joint B; leave the joint out: bolts of a "
            "mount sit at its own");
    bolts.joint = 5;
    ck_assert_int_eq(add(), TRIVET_BAD_INDEX);
    trivet_message_clear(&message);
    bolts.where_kind = TRIVET_KIND_TUBE;
    bolts.joint = B;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts, tube left: joint B is not one of its ends; bolt it at its first or last joint");
    bolts.joint = -1;
    ck_assert_int_eq(add(), TRIVET_BAD_INDEX);
    trivet_message_clear(&message);
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.joint = A;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of deck top: it does not lie on joint A; name a joint of this deck");
    bolts.joint = -1;
    refused(add(), TRIVET_BAD_INDEX, &message,
            "bolts of deck top, joint number -1: there is none, the frame has 5 of them; count "
            "from 0 in the order of adding");
    ck_assert_int_eq(trivet_frame_bolts_count(frame), 0);
}
END_TEST

START_TEST(a_place_has_one_set)
{
    must(add(), &message);
    bolts.joint = A;
    refused(add(), TRIVET_BAD_NAME, &message,
            "bolts of mount A: there are bolts already; make one set of them, with a pattern");
    bolts.where_kind = TRIVET_KIND_TUBE;
    must(add(), &message);
    bolts.joint = C;
    must(add(), &message);
    refused(add(), TRIVET_BAD_NAME, &message,
            "bolts of tube left at joint C: there are bolts already; make one set of them, with a "
            "pattern");
    bolts.where_kind = TRIVET_KIND_DECK;
    must(add(), &message);
    ck_assert_int_eq(trivet_frame_bolts_count(frame), 4);
}
END_TEST

START_TEST(threads_and_grades_must_be_known)
{
    snprintf(bolts.thread, sizeof bolts.thread, "M60");
    ck_assert_int_eq(add(), TRIVET_BAD_NAME);
    ck_assert_str_eq(message.thing, "bolts of mount A, M60");
    snprintf(bolts.thread, sizeof bolts.thread, "m 6");
    snprintf(bolts.grade, sizeof bolts.grade, "cheese");
    ck_assert_int_eq(add(), TRIVET_BAD_NAME);
    ck_assert_str_eq(message.thing, "bolts of mount A, cheese");
    trivet_message_clear(&message);
    memset(bolts.grade, '8', sizeof bolts.grade);
    refused(add(), TRIVET_BAD_NAME, &message,
            "bolts of mount A: the name of their thread or grade is not UTF-8 text; write it in "
            "UTF-8 and close it with zero");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    must(add(), &message);
}
END_TEST

START_TEST(bolts_stand_side_by_side)
{
    bolts.count = 3;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: two bolts stand at one place: 1 and 2 are 0 mm apart, their thread "
            "is 6 mm thick; say where they sit with pattern");
    bolts.pattern[1][0] = 0.020;
    bolts.pattern[2][0] = 0.003;
    bolts.pattern[2][1] = -0.004;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: two bolts stand at one place: 1 and 3 are 5 mm apart, their thread "
            "is 6 mm thick; say where they sit with pattern");
    bolts.pattern[2][1] = (double)NAN;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the place of a bolt is not a finite number; give a finite number");
    bolts.count = 17;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: there are 17 of them; give 1 to 16 bolts at one place");
    bolts.count = 0;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    bolts.count = 2; /* the third place, which is not a number, is not looked at */
    must(add(), &message);
}
END_TEST

/* Sets a member, which must be refused, and puts it back. */
static void bad_member(double *member, double value)
{
    const double before = *member;
    *member = value;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    *member = before;
}

static void bad_choice(int32_t *member, int32_t most)
{
    const int32_t before = *member;
    *member = -1;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    *member = most + 1;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    *member = before;
}

START_TEST(numbers_must_make_sense)
{
    double *const sizes[] = {&bolts.engagement,
                             &bolts.torque,
                             &bolts.rated_pull,
                             &bolts.rated_shear,
                             &bolts.rated_torque,
                             &bolts.plate,
                             &bolts.plate_yield,
                             &bolts.plate_tensile,
                             &bolts.edge,
                             &bolts.side,
                             &bolts.hole,
                             &bolts.spacer_height,
                             &bolts.spacer_diameter,
                             &bolts.sleeve_wall,
                             &bolts.sleeve_diameter,
                             &bolts.sleeve_yield,
                             &bolts.fixing_diameter};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        bad_member(sizes[i], 0.0);
        bad_member(sizes[i], -1.0);
        bad_member(sizes[i], (double)INFINITY);
    }
    double *const factors[] = {&bolts.nut_factor, &bolts.friction};
    for (size_t i = 0; i < 2; i++) {
        bad_member(factors[i], 0.0);
        bad_member(factors[i], (double)NAN);
    }
    bad_member(&bolts.scatter, -0.1);
    bad_member(&bolts.scatter, 1.0);
    bad_member(&bolts.scatter, (double)NAN);
    trivet_message_clear(&message);
    bolts.torque = -8.0;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the tightening torque is -8 N*m; give more than 0");
    bolts.torque = 8.0;
    bolts.scatter = 0.0;
    must(add(), &message);
}
END_TEST

START_TEST(choices_must_be_known)
{
    bad_choice(&bolts.head, TRIVET_HEAD_COUNTERSUNK);
    bad_choice(&bolts.into, TRIVET_INTO_RATED);
    bad_choice(&bolts.clamped, TRIVET_CLAMPED_INSERT);
    bad_choice(&bolts.spacer, TRIVET_SPACER_PLASTIC);
    bad_choice(&bolts.is_thread_clear, 1);
    bolts.fixing_count = -1;
    ck_assert_int_eq(add(), TRIVET_BAD_VALUE);
    trivet_message_clear(&message);
    bolts.fixing_count = 2;
    bolts.head = 3;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the head is 3, which is none; take hexagon, socket or countersunk");
    bolts.head = TRIVET_HEAD_SOCKET;
    bolts.into_stock = 2;
    refused(add(), TRIVET_BAD_INDEX, &message,
            "bolts of mount A, stock number 2: there is none, the frame has 2 of them; count from "
            "0 in the order of adding");
    bolts.into_stock = -1;
    bolts.clamped_stock = -2;
    ck_assert_int_eq(add(), TRIVET_BAD_INDEX);
    bolts.clamped_stock = PLUG;
    must(add(), &message);
}
END_TEST

START_TEST(a_tapped_thread_needs_something_to_sit_in)
{
    bolts.into = TRIVET_INTO_TAPPED;
    bolts.engagement = 0.015;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the thread is tapped into nothing; name the stock that it is tapped "
            "into");
    bolts.into_stock = PLUG;
    bolts.engagement = (double)NAN;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: it is not said how much of the thread is in; give the engagement, "
            "the length over which threads meet");
    bolts.engagement = 0.015;
    must(add(), &message);
    ck_assert_double_eq(get(0).engagement, 0.015);
}
END_TEST

START_TEST(a_thread_in_a_wall_is_as_long_as_the_wall_is_thick)
{
    bolts.into = TRIVET_INTO_WALL;
    static const char *const text =
        "bolts of mount A: the thread is cut into a wall, but into no tube's; name the stock of "
        "the tube whose wall it is cut into";
    refused(add(), TRIVET_BAD_VALUE, &message, text);
    bolts.into_stock = PLUG;
    refused(add(), TRIVET_BAD_VALUE, &message, text);
    bolts.into_stock = RAIL;
    bolts.engagement = 0.5;
    must(add(), &message);
    ck_assert_double_eq(get(0).engagement, 0.002);
    const trivet_material steel = steel_material();
    const trivet_profile thinner = square_tube(0.020, 0.0015);
    must(trivet_frame_set_stock(frame, RAIL, &thinner, &steel, &message), &message);
    ck_assert_double_eq(get(0).engagement, 0.0015);
    const trivet_profile bar = square_bar(0.020);
    refused(trivet_frame_set_stock(frame, RAIL, &bar, &steel, &message), TRIVET_BAD_VALUE, &message,
            "stock rail: it has no tube's wall, which the bolts of mount A need; take a tube, or "
            "bolt into something else");
    ck_assert_int_eq(trivet_frame_profile(frame, RAIL)->shape, TRIVET_SHAPE_SQUARE_TUBE);
    must(trivet_frame_set_stock(frame, PLUG, &bar, &steel, &message), &message);
    ck_assert_double_eq(get(0).engagement, 0.0015);
}
END_TEST

START_TEST(what_is_clamped_across_is_a_tube)
{
    const trivet_material steel = steel_material();
    const trivet_profile bar = square_bar(0.020);
    bolts.clamped = TRIVET_CLAMPED_HOLLOW;
    static const char *const text = "bolts of mount A: they clamp a hollow tube, but no tube is "
                                    "named; name the stock of the tube that is clamped";
    refused(add(), TRIVET_BAD_VALUE, &message, text);
    bolts.clamped = TRIVET_CLAMPED_INSERT;
    bolts.clamped_stock = PLUG;
    refused(add(), TRIVET_BAD_VALUE, &message, text);
    bolts.clamped_stock = RAIL;
    bolts.clamped = TRIVET_CLAMPED_SLEEVE;
    bolts.sleeve_diameter = 0.012;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the size of the sleeve is not said; give its outside diameter and "
            "its wall");
    bolts.sleeve_wall = 0.0061;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the wall of the sleeve does not fit its diameter; give a wall of at "
            "most half the diameter");
    bolts.sleeve_wall = 0.0025;
    must(add(), &message);
    ck_assert_int_eq(trivet_frame_set_stock(frame, RAIL, &bar, &steel, NULL), TRIVET_BAD_VALUE);
}
END_TEST

START_TEST(a_spacer_has_a_height)
{
    bolts.spacer = TRIVET_SPACER_PLASTIC;
    refused(add(), TRIVET_BAD_VALUE, &message,
            "bolts of mount A: the height of the spacer is not said; give its height, or leave the "
            "spacer out");
    bolts.spacer_height = 0.010;
    must(add(), &message);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    int32_t number = 7;
    refused(trivet_frame_add_bolts(NULL, &bolts, &number, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_bolts(frame, NULL, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "bolts: is NULL; hand in a pointer to it");
    const size_t known = sizeof bolts;
    for (size_t size = 0; size <= known + 2; size++) {
        if (size != known) {
            bolts.size = size;
            ck_assert_int_eq(add(), TRIVET_BAD_SIZE);
            names_both_sizes(&message, size, known);
        }
    }
    bolts.size = known;
    must(add(), &message);
    trivet_bolts got;
    must(trivet_bolts_defaults(&got, sizeof got), &message);
    ck_assert_int_eq(trivet_frame_bolts(frame, 1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_bolts(frame, -1, &got), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_bolts(NULL, 0, &got), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_bolts(frame, 0, NULL), TRIVET_MISSING_ARGUMENT);
    got.size = 0;
    ck_assert_int_eq(trivet_frame_bolts(frame, 0, &got), TRIVET_BAD_SIZE);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        defaults_are_one_bolt_with_a_nut, bolts_of_a_mount_take_its_joint_and_axes,
        axes_are_filled_in_where_they_cannot_change, places_must_be_there, a_place_has_one_set,
        threads_and_grades_must_be_known, bolts_stand_side_by_side, numbers_must_make_sense,
        choices_must_be_known, a_tapped_thread_needs_something_to_sit_in,
        a_thread_in_a_wall_is_as_long_as_the_wall_is_thick, what_is_clamped_across_is_a_tube,
        a_spacer_has_a_height, calls_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("bolts", tests);
}
