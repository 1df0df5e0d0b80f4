/*
 * A copy of a frame is equal to it and goes its own way.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static trivet_message message;

/* A story, a gap, a vehicle and a usage that makes no case. */
static void add_what_must_stand(trivet_frame *frame)
{
    trivet_vehicle vehicle;
    trivet_usage usage;
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.wheelbase = 1.45;
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), &message);
    must(trivet_frame_set_case_story(frame, 0, "it stands", "common practice", &message), &message);
    must(trivet_frame_add_gap(frame, "usage grab", "say which rail", &message), &message);
    must(trivet_usage_of(&usage, sizeof usage, TRIVET_USAGE_LOST_BOLT), &message);
    must(trivet_frame_add_usage(frame, &usage, NULL, &message), &message);
}

/* A random frame with all it may have, and what it may lack: cargo, decks, bolts, welds, cycles. */
static trivet_frame *everything(uint64_t seed)
{
    trivet_frame *const frame = random_frame(seed, NULL);
    const int32_t joints[] = {0, 1};
    const double centre[3] = {0.1, 0.0, 0.2};
    int32_t box = -1;
    must(trivet_frame_add_cargo(frame, "box", centre, joints, 2, TRIVET_GRIP_SOFT, &box, &message),
         &message);
    must(trivet_frame_add_item(frame, box, "shell", 4.0, &message), &message);
    must(trivet_frame_add_item(frame, box, "tools", 2.5, &message), &message);
    must(trivet_frame_add_deck(frame, "top", joints, 2, NULL, &message), &message);
    const double corners[] = {-9.0, -9.0, 9.0, -9.0, 0.0, 9.0};
    const trivet_slot slot = {{1.0, 2.0}, {3.0, 4.0}, 0.5};
    const trivet_plate plate = {sizeof plate, 3, 1, corners, &slot, 0.25};
    must(trivet_frame_set_plate(frame, 0, &plate, &message), &message);
    trivet_bolts bolts;
    must(trivet_bolts_defaults(&bolts, sizeof bolts), &message);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.torque = 9.0;
    snprintf(bolts.thread, sizeof bolts.thread, "M8");
    snprintf(bolts.grade, sizeof bolts.grade, "8.8");
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    trivet_weld weld;
    must(trivet_weld_defaults(&weld, sizeof weld), &message);
    weld.throat = 0.002;
    must(trivet_frame_set_weld(frame, 0, -1, &weld, &message), &message);
    trivet_cycles cycles;
    must(trivet_cycles_defaults(&cycles, sizeof cycles), &message);
    cycles.to = 0;
    must(trivet_frame_add_cycles(frame, "bumps", &cycles, NULL, &message), &message);
    must(trivet_frame_set_droop_limit(frame, 1, 0.004, &message), &message);
    add_what_must_stand(frame);
    return frame;
}

static trivet_frame *must_copy(const trivet_frame *frame)
{
    trivet_frame *copy = NULL;
    must(trivet_frame_copy(frame, &copy, &message), &message);
    ck_assert_ptr_nonnull(copy);
    return copy;
}

/* Equal bit for bit; both may be empty. */
static void same_bytes(const void *one, const void *other, size_t size)
{
    ck_assert(size == 0 || memcmp(one, other, size) == 0);
}

static void same_result(const trivet_frame *one, const trivet_frame *other)
{
    trivet_result *const first = must_solve(one);
    trivet_result *const second = must_solve(other);
    int32_t cases = 0;
    int32_t joints = 0;
    const double *const moves = trivet_result_moves(first, &cases, &joints);
    ck_assert(cases > 0 && joints > 0);
    same_bytes(moves, trivet_result_moves(second, NULL, NULL),
               6 * sizeof *moves * (size_t)cases * (size_t)joints);
    trivet_result_free(first);
    trivet_result_free(second);
}

START_TEST(a_copy_solves_to_the_same_bits)
{
    trivet_frame *const frame = everything((uint64_t)_i);
    trivet_frame *const copy = must_copy(frame);
    ck_assert_uint_eq(trivet__frame_topology(copy), trivet__frame_topology(frame));
    same_result(frame, copy);
    trivet_frame_free(frame);
    trivet_result_free(must_solve(copy)); /* it lives on without the original */
    trivet_frame_free(copy);
}
END_TEST

START_TEST(names_are_texts_of_the_copy_and_are_found)
{
    trivet_frame *const frame = everything(3);
    trivet_frame *const copy = must_copy(frame);
    for (int32_t kind = TRIVET_KIND_JOINT; kind <= TRIVET_KIND_CYCLES; kind++) {
        const int32_t count = trivet_frame_count(frame, kind);
        ck_assert_int_gt(count, 0);
        ck_assert_int_eq(trivet_frame_count(copy, kind), count);
        for (int32_t i = 0; i < count; i++) {
            int32_t found = -1;
            const char *const name = trivet_frame_name(frame, kind, i);
            ck_assert_str_eq(trivet_frame_name(copy, kind, i), name);
            ck_assert_ptr_ne(trivet_frame_name(copy, kind, i), name);
            must(trivet_frame_find(copy, kind, name, &found, &message), &message);
            ck_assert_int_eq(found, i);
        }
    }
    trivet_frame_free(frame);
    trivet_frame_free(copy);
}
END_TEST

START_TEST(what_solving_does_not_see_is_copied)
{
    trivet_frame *const frame = everything(5);
    trivet_frame *const copy = must_copy(frame);
    ck_assert_int_eq(copy->bolts_count, 1);
    same_bytes(copy->bolts, frame->bolts, sizeof *frame->bolts);
    ck_assert_int_eq(copy->cycles_count, 1);
    same_bytes(&copy->cycles->cycles, &frame->cycles->cycles, sizeof copy->cycles->cycles);
    int32_t count = 0;
    const int32_t *const under = trivet_frame_deck_joints(copy, 0, &count);
    ck_assert_int_eq(count, 2);
    ck_assert(under[0] == 0 && under[1] == 1);
    trivet_plate plate = {.size = sizeof plate};
    must(trivet_frame_plate(copy, 0, &plate), &message);
    ck_assert(plate.corner_count == 3 && plate.slot_count == 1 && plate.edge == 0.25);
    ck_assert(plate.corners != frame->decks[0].corners && plate.slots != frame->decks[0].slots);
    same_bytes(plate.corners, frame->decks[0].corners, 6 * sizeof *plate.corners);
    same_bytes(plate.slots, frame->decks[0].slots, sizeof *plate.slots);
    for (int32_t i = 0; i < frame->tube_count; i++) {
        same_bytes(&copy->tubes[i].weld_first, &frame->tubes[i].weld_first, sizeof(trivet_weld));
        same_bytes(&copy->tubes[i].weld_last, &frame->tubes[i].weld_last, sizeof(trivet_weld));
    }
    ck_assert_double_eq(trivet_frame_droop_limit(copy, 1), 0.004);
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        ck_assert_int_eq(copy->cargos[i].item_count, frame->cargos[i].item_count);
        for (int32_t k = 0; k < frame->cargos[i].item_count; k++) {
            double mass = 0.0;
            ck_assert_str_eq(trivet_frame_item(copy, i, k, &mass), frame->cargos[i].items[k].name);
            ck_assert_double_eq(mass, frame->cargos[i].items[k].mass);
        }
    }
    trivet_frame_free(frame);
    trivet_frame_free(copy);
}
END_TEST

/* Changes whatever can be changed in a frame and adds one of each kind. */
static void change(trivet_frame *frame)
{
    const double place[3] = {9.0, 9.0, 9.0};
    const double push[3] = {1.0, 2.0, 3.0};
    const double line[3] = {0.0, 0.0, -5.0};
    const double move[6] = {0.0};
    const trivet_profile profile = square_tube(0.080, 0.004);
    const trivet_material steel = steel_material();
    const int32_t joints[] = {0, 1};
    const double factor[] = {2.0};
    trivet_weld weld;
    trivet_cycles cycles;
    trivet_bolts bolts = frame->bolts[0];
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.joint = 0;
    must(trivet_weld_defaults(&weld, sizeof weld), &message);
    must(trivet_cycles_defaults(&cycles, sizeof cycles), &message);
    cycles.to = 0;
    must(trivet_frame_set_position(frame, 0, place, &message), &message);
    must(trivet_frame_add_joint(frame, "new", place, NULL, &message), &message);
    must(trivet_frame_set_stock(frame, 0, &profile, &steel, &message), &message);
    must(trivet_frame_add_stock(frame, "new", &profile, &steel, NULL, &message), &message);
    const int32_t tube = must_add_tube(frame, "new", joints, 2, 0);
    must(trivet_frame_set_free_end(frame, 0, frame->tubes[0].joints[0], TRIVET_RX, &message),
         &message);
    must(trivet_frame_set_offset(frame, 0, frame->tubes[0].joints[0], place, &message), &message);
    must(trivet_frame_add_insert(frame, tube, 0, 0.01, 0, TRIVET_TOGETHER, &message), &message);
    must(trivet_frame_set_weld(frame, 0, -1, &weld, &message), &message);
    must_add_mount(frame, frame->joint_count - 1, TRIVET_ALL);
    must(trivet_frame_set_mount_move(frame, 0, frame->mount_count - 1, move, &message), &message);
    must(trivet_frame_scale_cargo(frame, 0, 2.0, &message), &message);
    must(trivet_frame_add_item(frame, 0, "new", 1.0, &message), &message);
    must(trivet_frame_add_cargo(frame, "new", place, joints, 2, 0, NULL, &message), &message);
    must(trivet_frame_set_cargo_factor(frame, 0, 0, 0.5, &message), &message);
    must(trivet_frame_add_joint_force(frame, 0, 0, push, push, &message), &message);
    must(trivet_frame_add_cargo_force(frame, 0, 0, push, push, NULL, &message), &message);
    must(trivet_frame_add_tube_force(frame, 0, 0, 0.01, push, push, 0, &message), &message);
    must(trivet_frame_add_tube_line(frame, 0, 0, 0.0, 0.01, line, line, 0, &message), &message);
    must(trivet_frame_set_warm(frame, 0, 50.0, &message), &message);
    must_add_case(frame, "new", 1.0);
    must(trivet_frame_add_combination(frame, "new sum", joints, factor, 1, NULL, &message),
         &message);
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    must(trivet_frame_add_deck(frame, "new", joints, 2, NULL, &message), &message);
    must(trivet_frame_add_cycles(frame, "new", &cycles, NULL, &message), &message);
}

START_TEST(a_change_of_one_does_not_touch_the_other)
{
    trivet_frame *const frame = everything((uint64_t)_i);
    trivet_frame *const untouched = everything((uint64_t)_i);
    trivet_frame *const copy = must_copy(frame);
    change(copy);
    for (int32_t kind = TRIVET_KIND_JOINT; kind <= TRIVET_KIND_CYCLES; kind++) {
        ck_assert_int_eq(trivet_frame_count(copy, kind), trivet_frame_count(frame, kind) + 1);
        ck_assert_int_eq(trivet_frame_find(frame, kind, "new", &(int32_t){0}, NULL),
                         TRIVET_BAD_NAME);
    }
    ck_assert_uint_eq(trivet__frame_topology(frame), trivet__frame_topology(untouched));
    ck_assert_uint_ne(trivet__frame_topology(frame), trivet__frame_topology(copy));
    ck_assert_double_eq(frame->tubes[0].weld_first.throat, 0.002);
    ck_assert_double_eq(copy->tubes[0].weld_first.throat, 0.0);
    ck_assert_double_eq(frame->cargos[0].mass, untouched->cargos[0].mass);
    same_result(frame, untouched);
    trivet_frame_free(copy);
    same_result(frame, untouched);
    trivet_frame_free(frame);
    trivet_frame_free(untouched);
}
END_TEST

/* What add_what_must_stand added, in a frame that may outlive the one it was added to. */
static void has_what_must_stand(const trivet_frame *frame)
{
    const char *source = NULL;
    const char *why = NULL;
    trivet_vehicle vehicle;
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    must(trivet_frame_vehicle(frame, &vehicle), &message);
    ck_assert_double_eq(vehicle.wheelbase, 1.45);
    ck_assert_str_eq(trivet_frame_case_story(frame, 0, &source), "it stands");
    ck_assert_str_eq(source, "common practice");
    ck_assert_str_eq(trivet_frame_case_story(frame, 1, NULL), "");
    ck_assert_str_eq(trivet_frame_gap(frame, 0, &why), "usage grab");
    ck_assert_str_eq(why, "say which rail");
    ck_assert_ptr_null(trivet_frame_gap(frame, 1, NULL));
    ck_assert(trivet_frame_has_usage(frame, TRIVET_USAGE_LOST_BOLT));
    ck_assert(!trivet_frame_has_usage(frame, TRIVET_USAGE_ROAD));
}

START_TEST(stories_gaps_vehicle_and_usages_are_copied)
{
    trivet_frame *const frame = everything(7);
    trivet_frame *const copy = must_copy(frame);
    trivet_frame *const changed = must_copy(frame);
    trivet_vehicle vehicle;
    trivet_usage road;
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    must(trivet_usage_of(&road, sizeof road, TRIVET_USAGE_ROAD), &message);
    must(trivet_frame_set_vehicle(changed, &vehicle, &message), &message);
    must(trivet_frame_set_case_story(changed, 0, "another", "ours", &message), &message);
    must(trivet_frame_add_gap(changed, "more", "of it", &message), &message);
    must(trivet_frame_add_usage(changed, &road, NULL, &message), &message);
    has_what_must_stand(frame);
    trivet_frame_free(changed);
    trivet_frame_free(frame);
    has_what_must_stand(copy);
    trivet_frame_free(copy);
}
END_TEST

START_TEST(an_empty_frame_is_copied)
{
    trivet_frame *const frame = must_new_frame();
    trivet_frame *const copy = must_copy(frame);
    ck_assert_uint_eq(trivet__frame_topology(copy), trivet__frame_topology(frame));
    ck_assert_int_eq(must_add_joint(copy, "A", 0.0, 0.0, 0.0), 0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_JOINT), 0);
    trivet_frame_free(frame);
    trivet_frame_free(copy);
}
END_TEST

START_TEST(calls_that_are_wrong_are_refused)
{
    trivet_frame *const frame = must_new_frame();
    trivet_frame *copy = frame;
    refused(trivet_frame_copy(NULL, &copy, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    ck_assert_ptr_null(copy);
    refused(trivet_frame_copy(frame, NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "copy_out: is NULL; hand in a pointer to it");
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(names_are_texts_of_the_copy_and_are_found, what_solving_does_not_see_is_copied,
              stories_gaps_vehicle_and_usages_are_copied, an_empty_frame_is_copied,
              calls_that_are_wrong_are_refused);
    tcase_add_loop_test(tests, a_copy_solves_to_the_same_bits, 1, 21);
    tcase_add_loop_test(tests, a_change_of_one_does_not_touch_the_other, 1, 21);
    return run_tests("frame_copy", tests);
}
