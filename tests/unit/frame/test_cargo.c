/*
 * Cargo: a ledger of items, and how much of it a case takes aboard.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static const double centre[3] = {0.1, 0.2, 0.3};
static const int32_t joints[] = {0, 1};

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = must_new_frame();
    must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(frame, "B", 0.0, 0.0, 0.0);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(const char *name)
{
    return trivet_frame_add_cargo(frame, name, centre, joints, 2, TRIVET_GRIP_SOFT, NULL, &message);
}

START_TEST(cargo_is_copied_and_its_items_add_up)
{
    int32_t on[] = {0, 1};
    int32_t number = -1;
    trivet_cargo cargo;
    must(trivet_frame_add_cargo(frame, "box", centre, on, 2, TRIVET_GRIP_SOFT, &number, &message),
         &message);
    ck_assert_int_eq(number, 0);
    on[0] = 9;
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_double_eq(cargo.mass, 0.0);
    ck_assert_int_eq(cargo.item_count, 0);
    must(trivet_frame_add_item(frame, 0, "case", 4.25, &message), &message);
    must(trivet_frame_add_item(frame, 0, "contents", 9.5, &message), &message);
    must(trivet_frame_add_item(frame, 0, "nothing", 0.0, &message), &message);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_uint_eq(cargo.size, sizeof cargo);
    ck_assert_double_eq(cargo.mass, 13.75);
    ck_assert_double_eq(cargo.centre[2], 0.3);
    ck_assert_int_eq(cargo.grip, TRIVET_GRIP_SOFT);
    ck_assert_int_eq(cargo.item_count, 3);
    ck_assert_int_eq(cargo.joint_count, 2);
    ck_assert_int_eq(cargo.joints[0], 0);
    ck_assert_int_eq(cargo.joints[1], 1);
}
END_TEST

START_TEST(items_are_read_by_number)
{
    double mass = 0.0;
    must(add("box"), &message);
    must(trivet_frame_add_item(frame, 0, "contents", 9.5, &message), &message);
    ck_assert_str_eq(trivet_frame_item(frame, 0, 0, &mass), "contents");
    ck_assert_double_eq(mass, 9.5);
    ck_assert_str_eq(trivet_frame_item(frame, 0, 0, NULL), "contents");
    ck_assert_ptr_null(trivet_frame_item(frame, 0, 1, &mass));
    ck_assert(isnan(mass));
    ck_assert_ptr_null(trivet_frame_item(frame, 0, -1, NULL));
    ck_assert_ptr_null(trivet_frame_item(frame, 1, 0, NULL));
    ck_assert_ptr_null(trivet_frame_item(frame, -1, 0, NULL));
    ck_assert_ptr_null(trivet_frame_item(NULL, 0, 0, &mass));
}
END_TEST

START_TEST(sizes_of_structs_are_checked)
{
    trivet_cargo cargo;
    must(add("box"), &message);
    defaults_take_own_size(trivet_cargo, trivet_cargo_defaults);
    for (size_t size = 0; size <= sizeof cargo + 2; size++) {
        cargo.size = size;
        ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo),
                         size == sizeof cargo ? TRIVET_OK : TRIVET_BAD_SIZE);
    }
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(frame, 1, &cargo), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_cargo(frame, -1, &cargo), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_cargo(NULL, 0, &cargo), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, NULL), TRIVET_MISSING_ARGUMENT);
}
END_TEST

START_TEST(cargo_that_cannot_be_is_refused)
{
    const int32_t twice[] = {1, 1};
    const int32_t unknown[] = {0, 2};
    const double nowhere[3] = {0.0, (double)NAN, 0.0};
    int32_t number = 7;
    refused(trivet_frame_add_cargo(NULL, "g", centre, joints, 2, 0, &number, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_cargo(frame, "g", NULL, joints, 2, 0, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "centre: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_cargo(frame, "g", centre, NULL, 2, 0, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "joints: is NULL; hand in a pointer to it");
    refused(add(NULL), TRIVET_MISSING_ARGUMENT, &message, "name: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_cargo(frame, "g", nowhere, joints, 2, 0, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "cargo g: the centre is not a finite number; give a finite number");
    refused(trivet_frame_add_cargo(frame, "g", centre, joints, 0, 0, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "cargo g: it rests on nothing; name the joints that it rests on");
    refused(trivet_frame_add_cargo(frame, "g", centre, joints, 2, 2, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "cargo g: its grip is 2, which is none; take stiff or soft");
    refused(trivet_frame_add_cargo(frame, "g", centre, twice, 2, 0, NULL, &message),
            TRIVET_BAD_VALUE, &message, "cargo g: joint B stands in it twice; name it once");
    refused(trivet_frame_add_cargo(frame, "g", centre, unknown, 2, 0, NULL, &message),
            TRIVET_BAD_INDEX, &message,
            "cargo g, joint number 2: there is none, the frame has 2 of them; count from 0 in the "
            "order of adding");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CARGO), 0);
    must(add("g"), &message);
    refused(add("g"), TRIVET_BAD_NAME, &message,
            "cargo g: there is a cargo of this name already; choose another name");
}
END_TEST

START_TEST(items_that_cannot_be_are_refused)
{
    must(add("box"), &message);
    refused(trivet_frame_add_item(NULL, 0, "i", 1.0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_item(frame, 1, "i", 1.0, &message), TRIVET_BAD_INDEX, &message,
            "cargo number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_add_item(frame, 0, NULL, 1.0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "cargo box, name: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_item(frame, 0, "", 1.0, &message), TRIVET_BAD_NAME, &message,
            "cargo box, item: the name is empty; give it a name");
    refused(trivet_frame_add_item(frame, 0, "contents", -9.0, &message), TRIVET_BAD_VALUE, &message,
            "cargo box, item contents: the mass is -9 kg; give 0 or more");
    refused(trivet_frame_add_item(frame, 0, "contents", (double)INFINITY, &message),
            TRIVET_BAD_VALUE, &message,
            "cargo box, item contents: the mass is not a finite number; give a finite number");
    trivet_cargo cargo;
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_int_eq(cargo.item_count, 0);
    ck_assert_double_eq(cargo.mass, 0.0);
}
END_TEST

START_TEST(factors_are_one_unless_set_whatever_came_first)
{
    must(trivet_frame_add_case(frame, "before", NULL, NULL, &message), &message);
    for (int i = 0; i < 20; i++) {
        char name[16];
        snprintf(name, sizeof name, "g%d", i);
        must(add(name), &message);
        must(trivet_frame_set_cargo_factor(frame, 0, i, i, &message), &message);
    }
    must(trivet_frame_add_case(frame, "after", NULL, NULL, &message), &message);
    must(add("last"), &message);
    for (int i = 0; i < 20; i++) {
        ck_assert_double_eq(frame->cases[0].cargo_factors[i], i);
        ck_assert_double_eq(frame->cases[1].cargo_factors[i], 1.0);
    }
    ck_assert_double_eq(frame->cases[0].cargo_factors[20], 1.0);
    ck_assert_double_eq(frame->cases[1].cargo_factors[20], 1.0);
}
END_TEST

START_TEST(factors_that_cannot_be_are_refused)
{
    must(add("box"), &message);
    must(trivet_frame_add_case(frame, "parked", NULL, NULL, &message), &message);
    refused(trivet_frame_set_cargo_factor(NULL, 0, 0, 1.0, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_cargo_factor(frame, 1, 0, 1.0, &message), TRIVET_BAD_INDEX, &message,
            "case number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_cargo_factor(frame, 0, 1, 1.0, &message), TRIVET_BAD_INDEX, &message,
            "cargo number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_cargo_factor(frame, 0, 0, -0.5, &message), TRIVET_BAD_VALUE, &message,
            "case parked, cargo box: the factor is -0.5; give 0 or more");
    refused(trivet_frame_set_cargo_factor(frame, 0, 0, (double)NAN, &message), TRIVET_BAD_VALUE,
            &message,
            "case parked, cargo box: the factor is not a finite number; give a finite number");
    ck_assert_double_eq(frame->cases[0].cargo_factors[0], 1.0);
}
END_TEST

START_TEST(scaling_multiplies_every_item)
{
    double mass = 0.0;
    trivet_cargo cargo;
    must(trivet_cargo_defaults(&cargo, sizeof cargo), &message);
    must(add("box"), &message);
    must(add("bag"), &message);
    must(trivet_frame_add_item(frame, 0, "case", 4.0, &message), &message);
    must(trivet_frame_add_item(frame, 0, "contents", 10.0, &message), &message);
    must(trivet_frame_add_item(frame, 1, "tools", 3.0, &message), &message);
    must(trivet_frame_scale_cargo(frame, 0, 1.5, &message), &message);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_double_eq(cargo.mass, 21.0);
    trivet_frame_item(frame, 0, 0, &mass);
    ck_assert_double_eq(mass, 6.0);
    trivet_frame_item(frame, 0, 1, &mass);
    ck_assert_double_eq(mass, 15.0);
    trivet_frame_item(frame, 1, 0, &mass);
    ck_assert_double_eq(mass, 3.0);
    must(trivet_frame_scale_cargo(frame, 0, 0.0, &message), &message);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    ck_assert_double_eq(cargo.mass, 0.0);
}
END_TEST

START_TEST(a_wrong_scale_is_refused)
{
    must(add("box"), &message);
    must(trivet_frame_add_item(frame, 0, "case", 1e20, &message), &message);
    refused(trivet_frame_scale_cargo(NULL, 0, 1.0, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_scale_cargo(frame, 1, 1.0, &message), TRIVET_BAD_INDEX, &message,
            "cargo number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_scale_cargo(frame, 0, -0.5, &message), TRIVET_BAD_VALUE, &message,
            "cargo box: the factor is -0.5; give 0 or more");
    refused(trivet_frame_scale_cargo(frame, 0, (double)NAN, &message), TRIVET_BAD_VALUE, &message,
            "cargo box: the factor is not a finite number; give a finite number");
    refused(trivet_frame_scale_cargo(frame, 0, (double)INFINITY, &message), TRIVET_BAD_VALUE,
            &message, "cargo box: the factor is not a finite number; give a finite number");
    ck_assert_int_eq(trivet_frame_scale_cargo(frame, 0, 1e20, NULL), TRIVET_BAD_VALUE);
    ck_assert_double_eq(frame->cargos[0].mass, 1e20);
    ck_assert_double_eq(frame->cargos[0].items[0].mass, 1e20);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(cargo_is_copied_and_its_items_add_up, items_are_read_by_number,
              sizes_of_structs_are_checked, cargo_that_cannot_be_is_refused,
              items_that_cannot_be_are_refused, factors_are_one_unless_set_whatever_came_first,
              factors_that_cannot_be_are_refused, scaling_multiplies_every_item,
              a_wrong_scale_is_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("cargo", tests);
}
