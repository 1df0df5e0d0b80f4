/*
 * How a deck's plate is cut: what is said of it, and how it is laid out. The joints A B C D lie 1 m
 * apart in a row along x, E at (1, 1): numbers 0 to 4.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <stdio.h>
#include <string.h>

#define PI 3.14159265358979323846

static const double ROUNDING = 16.0 * DBL_EPSILON;

static trivet_frame *frame;
static trivet_message message;
static trivet_plate plate;
static trivet_cutting *cutting;

static const int32_t joints[] = {0, 1, 4};
static const double triangle[] = {-0.1, -0.1, 1.3, -0.1, 1.3, 1.3};

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = row_of_joints_frame();
    cutting = NULL;
    must(trivet_frame_add_deck(frame, "top", joints, 3, NULL, &message), &message);
    must(trivet_plate_defaults(&plate, sizeof plate), &message);
}

static void give_back(void)
{
    trivet_cutting_free(cutting);
    trivet_frame_free(frame);
}

static trivet_status set(void)
{
    return trivet_frame_set_plate(frame, 0, &plate, &message);
}

/* Looks whether it can be done as well, which must be answered alike. */
static trivet_status lay_out(void)
{
    trivet_message other;
    trivet_message_clear(&other);
    trivet_message_clear(&message);
    const trivet_status looked = trivet_frame_validate_plate(frame, 0, &other);
    const trivet_status made = trivet_cutting_new(frame, 0, &cutting, &message);
    ck_assert_int_eq(looked, made);
    ck_assert_str_eq(other.problem, message.problem);
    ck_assert_str_eq(other.remedy, message.remedy);
    return made;
}

static void screw(int32_t joint, double edge)
{
    trivet_bolts bolts;
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.where_index = 0;
    bolts.joint = joint;
    bolts.edge = edge;
    snprintf(bolts.thread, sizeof bolts.thread, "M6");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
}

START_TEST(defaults_say_nothing)
{
    defaults_take_own_size(trivet_plate, trivet_plate_defaults);
    ck_assert(plate.corner_count == 0 && plate.slot_count == 0);
    ck_assert(!plate.corners && !plate.slots && isnan(plate.edge));
    plate.edge = 3.0;
    must(trivet_frame_plate(frame, 0, &plate), &message);
    ck_assert(plate.corner_count == 0 && plate.slot_count == 0 && isnan(plate.edge));
}
END_TEST

START_TEST(what_is_said_is_copied_and_may_be_said_again)
{
    double corners[] = {-0.1, -0.1, 1.3, -0.1, 1.3, 1.3};
    trivet_slot slots[] = {{{0.5, 0.0}, {0.6, 0.0}, 0.01}};
    plate.corners = corners;
    plate.corner_count = 3;
    plate.slots = slots;
    plate.slot_count = 1;
    must(set(), &message);
    corners[0] = 9.0;
    slots[0].width = 9.0;
    trivet_plate said = {.size = sizeof said};
    must(trivet_frame_plate(frame, 0, &said), &message);
    ck_assert_int_eq(said.corner_count, 3);
    ck_assert_double_eq(said.corners[0], -0.1);
    ck_assert_int_eq(said.slot_count, 1);
    ck_assert_double_eq(said.slots[0].width, 0.01);
    must(trivet_plate_defaults(&plate, sizeof plate), &message);
    plate.edge = 0.02;
    must(set(), &message);
    must(trivet_frame_plate(frame, 0, &said), &message);
    ck_assert(said.corner_count == 0 && said.slot_count == 0 && said.edge == 0.02);
}
END_TEST

START_TEST(what_was_read_may_be_changed_and_set)
{
    trivet_slot slots[] = {{{0.5, 0.0}, {0.6, 0.0}, 0.01}, {{0.7, 0.0}, {0.8, 0.0}, 0.02}};
    plate.corners = triangle;
    plate.corner_count = 3;
    plate.slots = slots;
    plate.slot_count = 2;
    must(set(), &message);
    trivet_plate said = {.size = sizeof said};
    must(trivet_frame_plate(frame, 0, &said), &message);
    said.slots++;
    said.slot_count = 1;
    said.edge = 0.5;
    must(trivet_frame_set_plate(frame, 0, &said, &message), &message);
    must(trivet_frame_plate(frame, 0, &said), &message);
    ck_assert(said.corner_count == 3 && said.slot_count == 1 && said.edge == 0.5);
    ck_assert_mem_eq(said.corners, triangle, sizeof triangle);
    ck_assert_mem_eq(said.slots, &slots[1], sizeof slots[1]);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    refused(trivet_frame_set_plate(NULL, 0, &plate, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_plate(frame, 0, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "plate: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_plate(frame, 1, &plate, &message), TRIVET_BAD_INDEX, &message,
            "deck number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_cutting_new(frame, -1, &cutting, &message), TRIVET_BAD_INDEX, &message,
            "deck number -1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_validate_plate(frame, 1, &message), TRIVET_BAD_INDEX, &message,
            "deck number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_validate_plate(NULL, 0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_cutting_new(NULL, 0, &cutting, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_cutting_new(frame, 0, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "cutting_out: is NULL; hand in a pointer to it");
    ck_assert_int_eq(trivet_frame_plate(frame, 1, &plate), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_plate(NULL, 0, &plate), TRIVET_MISSING_ARGUMENT);
    plate.corner_count = 3;
    refused(set(), TRIVET_MISSING_ARGUMENT, &message, "corners: is NULL; hand in a pointer to it");
    plate.corner_count = 0;
    plate.slot_count = 1;
    refused(set(), TRIVET_MISSING_ARGUMENT, &message, "slots: is NULL; hand in a pointer to it");
    plate.size = 8;
    ck_assert_int_eq(set(), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 8, sizeof plate);
    int32_t count = 7;
    trivet_cutting_free(NULL);
    ck_assert_ptr_null(trivet_cutting_outline(NULL, &count));
    ck_assert_int_eq(count, 0);
    ck_assert_ptr_null(trivet_cutting_holes(NULL, NULL));
    ck_assert_ptr_null(trivet_cutting_slots(NULL, &count));
}
END_TEST

static void refuse_plate(const char *text)
{
    trivet_plate before = {.size = sizeof before};
    trivet_plate after = {.size = sizeof after};
    must(trivet_frame_plate(frame, 0, &before), &message);
    refused(set(), TRIVET_BAD_VALUE, &message, text);
    must(trivet_frame_plate(frame, 0, &after), &message);
    ck_assert(before.corner_count == after.corner_count && before.corners == after.corners);
    ck_assert(before.slot_count == after.slot_count && before.slots == after.slots);
    ck_assert(before.edge == after.edge || (isnan(before.edge) && isnan(after.edge)));
}

START_TEST(plates_that_cannot_be_are_refused)
{
    const double bow[] = {0, 0, 1, 1, 1, 0, 0, 1};
    const double endless[] = {0, 0, 1, 0, 1, (double)INFINITY};
    plate.corners = bow;
    plate.corner_count = 2;
    refuse_plate("deck top: its outline has 2 corners; give 3 to 256 corners");
    plate.corner_count = 4;
    refuse_plate("deck top: sides 1 and 3 of its outline cross or lie on each other; give its "
                 "corners one after the other round the plate, none twice");
    plate.corners = endless;
    plate.corner_count = 3;
    ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
    plate.corners = NULL;
    plate.corner_count = 0;
    plate.edge = -0.01;
    ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
    plate.edge = (double)NAN;
    trivet_slot slot = {{0.5, 0.0}, {0.5, 0.0}, 0.01};
    plate.slots = &slot;
    plate.slot_count = 1;
    refuse_plate("deck top: slot 1 runs from a place to the same place; say where its two round "
                 "ends are");
    slot.to[0] = 0.6;
    slot.width = (double)NAN;
    ck_assert_int_eq(set(), TRIVET_BAD_VALUE);
    plate.slot_count = TRIVET_PLATE_SLOTS_MAX + 1;
    refuse_plate("deck top: it has 65 slots; give at most 64");
}
END_TEST

START_TEST(an_edge_rounds_the_corners_of_the_plate)
{
    plate.edge = 0.02;
    must(set(), &message);
    must(lay_out(), &message);
    int32_t count = 0;
    const double *const outline = trivet_cutting_outline(cutting, &count);
    ck_assert_int_eq(count, 6);
    /* Round A, B, E: turns of 135, 90, 135 degrees. */
    const double turns[3] = {135.0, 90.0, 135.0};
    const double corners[6][2] = {{-0.02 * sqrt(0.5), 0.02 * sqrt(0.5)},
                                  {0.0, -0.02},
                                  {1.0, -0.02},
                                  {1.02, 0.0},
                                  {1.02, 1.0},
                                  {1.0 - 0.02 * sqrt(0.5), 1.0 + 0.02 * sqrt(0.5)}};
    for (int i = 0; i < 6; i++) {
        near_scaled(outline[3 * i], corners[i][0], ROUNDING, 1.0);
        near_scaled(outline[3 * i + 1], corners[i][1], ROUNDING, 1.0);
        const double bulge = i % 2 == 0 ? tan(turns[i / 2] / 4.0 * PI / 180.0) : 0.0;
        near_scaled(outline[3 * i + 2], bulge, ROUNDING, 1.0);
    }
    trivet_cutting_holes(cutting, &count);
    ck_assert_int_eq(count, 0);
}
END_TEST

START_TEST(nothing_to_go_by_is_incomplete)
{
    refused(lay_out(), TRIVET_INCOMPLETE, &message,
            "deck top: nothing tells how far its plate reaches beyond its joints; add an edge such "
            "as 15 mm, an outline, or screws");
    ck_assert_ptr_null(cutting);
}
END_TEST

START_TEST(screws_say_how_far_the_plate_reaches)
{
    screw(0, (double)NAN);
    must(lay_out(), &message);
    int32_t count = 0;
    const double *const hole = trivet_cutting_holes(cutting, &count);
    ck_assert_int_eq(count, 1);
    ck_assert(hole[0] == 0.0 && hole[1] == 0.0);
    near_relative(hole[2], 0.0066, ROUNDING); /* M6: ISO 273 medium */
    near_relative(trivet_cutting_outline(cutting, NULL)[4], -2.0 * 0.0066, ROUNDING);
    trivet_cutting_free(cutting);
    screw(1, 0.018);
    must(lay_out(), &message);
    near_relative(trivet_cutting_outline(cutting, NULL)[4], -0.018, ROUNDING);
}
END_TEST

START_TEST(holes_keep_the_distance_that_is_checked)
{
    screw(0, 0.018);
    plate.edge = 0.012;
    must(set(), &message);
    refused(
        lay_out(), TRIVET_BAD_VALUE, &message,
        "deck top: the hole at A is 12 mm from the plate's edge, its screws are checked with 18 "
        "mm; let the plate reach farther, or give its screws the smaller distance, so that it "
        "is checked");
    plate.edge = 0.003;
    must(set(), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: the hole at A does not lie inside the plate; let the plate reach farther");
    plate.edge = 0.018;
    must(set(), &message);
    must(lay_out(), &message);
}
END_TEST

START_TEST(slots_stay_inside_and_apart)
{
    trivet_slot slots[2] = {{{0.5, 0.0}, {0.6, 0.0}, 0.03}, {{0.8, 0.3}, {0.9, 0.3}, 0.05}};
    screw(0, (double)NAN);
    plate.slots = slots;
    plate.slot_count = 2;
    plate.edge = 0.02;
    must(set(), &message);
    must(lay_out(), &message);
    int32_t count = 0;
    ck_assert_double_eq(trivet_cutting_slots(cutting, &count)[1].to[0], 0.9);
    ck_assert_int_eq(count, 2);
    trivet_cutting_free(cutting);
    slots[0].width = 0.0400001; /* 20 mm to the edge on each side of its middle line */
    must(set(), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: slot 1 does not lie inside the plate; move it or make it narrower");
    slots[0] = (trivet_slot){{0.01, 0.0}, {0.1, 0.0}, 0.014}; /* 3.3 + 7 mm from A, it is 10 */
    must(set(), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: slot 1 runs into the hole at A; move it or make it narrower");
    slots[0] = (trivet_slot){{0.8, 0.25}, {0.9, 0.28}, 0.02};
    must(set(), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: slot 2 runs into a slot before it; move it or make it narrower");
}
END_TEST

START_TEST(slots_do_not_cut_across_a_notch)
{
    /* Both ends of the slot lie in the plate, its middle crosses the notch. */
    const double notched[] = {-0.1, -0.1, 1.3, -0.1, 1.3, 1.3, 0.8, 0.1, -0.1, 1.3};
    const trivet_slot slot = {{0.3, 0.4}, {1.2, 0.4}, 0.01};
    plate.corners = notched;
    plate.corner_count = 5;
    plate.slots = &slot;
    plate.slot_count = 1;
    must(set(), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: slot 1 does not lie inside the plate; move it or make it narrower");
}
END_TEST

START_TEST(an_outline_is_taken_as_it_is_counter_clockwise)
{
    const double clockwise[] = {1.3, 1.3, 1.3, -0.1, -0.1, -0.1};
    plate.corner_count = 3;
    for (int i = 0; i < 2; i++) {
        plate.corners = i == 0 ? triangle : clockwise;
        must(set(), &message);
        trivet_cutting_free(cutting);
        must(lay_out(), &message);
        int32_t count = 0;
        const double *const outline = trivet_cutting_outline(cutting, &count);
        ck_assert_int_eq(count, 3);
        for (int k = 0; k < 3; k++) {
            ck_assert_double_eq(outline[3 * k], triangle[2 * k]);
            ck_assert_double_eq(outline[3 * k + 1], triangle[2 * k + 1]);
            ck_assert_double_eq(outline[3 * k + 2], 0.0);
        }
    }
}
END_TEST

START_TEST(joints_at_two_heights_bear_no_flat_plate)
{
    const double higher[3] = {1.0, 1.0, 0.0015};
    const double a_little[3] = {1.0, 1.0, 0.0009};
    plate.edge = 0.02;
    must(set(), &message);
    must(trivet_frame_set_position(frame, 4, higher, &message), &message);
    refused(lay_out(), TRIVET_BAD_VALUE, &message,
            "deck top: it is not level: E stands 1.5 mm above A; put its joints at one height; a "
            "plate is laid out flat, seen from above");
    must(trivet_frame_set_position(frame, 4, a_little, &message), &message);
    must(lay_out(), &message);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(defaults_say_nothing, what_is_said_is_copied_and_may_be_said_again,
              what_was_read_may_be_changed_and_set, calls_that_are_wrong_are_refused,
              plates_that_cannot_be_are_refused, an_edge_rounds_the_corners_of_the_plate,
              nothing_to_go_by_is_incomplete, screws_say_how_far_the_plate_reaches,
              holes_keep_the_distance_that_is_checked, slots_stay_inside_and_apart,
              slots_do_not_cut_across_a_notch, an_outline_is_taken_as_it_is_counter_clockwise,
              joints_at_two_heights_bear_no_flat_plate);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("plate", tests);
}
