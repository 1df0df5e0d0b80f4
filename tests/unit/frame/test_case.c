/*
 * Cases, their loads, and combinations of them.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <math.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static const double up[3] = {0.0, 0.0, 10.0};
static const double bad[3] = {0.0, 0.0, (double)NAN};
static const double here[3] = {1.0, 2.0, 3.0};

/* A cantilever's two cases, "tip" (0) and "weight" (1), with a cargo. */
static void make(void)
{
    const int32_t joint = 1;
    memset(&message, 0, sizeof message);
    frame = cantilever_frame(0.5, -100.0);
    must(trivet_frame_add_cargo(frame, "bag", here, &joint, 1, TRIVET_GRIP_SOFT, NULL, &message),
         &message);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static const char *const no_frame = "frame: is NULL; hand in a pointer to it";
static const char *const no_load = "force and moment: is NULL; hand in a pointer to it";
static const char *const no_case = "case number 2: there is none, the frame has 2 of them; count "
                                   "from 0 in the order of adding";

START_TEST(gravity_is_none_unless_given)
{
    double gravity[3] = {0.0, 0.7, -1.0};
    int32_t number = -1;
    must(trivet_frame_add_case(frame, "cornering", gravity, &number, &message), &message);
    ck_assert_int_eq(number, 2);
    gravity[1] = 9.0;
    ck_assert_double_eq(trivet_frame_gravity(frame, 2)[1], 0.7);
    must(trivet_frame_add_case(frame, "empty", NULL, &number, &message), &message);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq(trivet_frame_gravity(frame, number)[i], 0.0);
    }
    ck_assert_ptr_null(trivet_frame_gravity(frame, 4));
    ck_assert_ptr_null(trivet_frame_gravity(frame, -1));
    ck_assert_ptr_null(trivet_frame_gravity(NULL, 0));
}
END_TEST

START_TEST(cases_that_cannot_be_are_refused)
{
    int32_t number = 7;
    refused(trivet_frame_add_case(NULL, "c", up, &number, &message), TRIVET_MISSING_ARGUMENT,
            &message, no_frame);
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_case(frame, NULL, up, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "name: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_case(frame, "tip", up, NULL, &message), TRIVET_BAD_NAME, &message,
            "case tip: there is a case of this name already; choose another name");
    refused(trivet_frame_add_case(frame, "c", bad, NULL, &message), TRIVET_BAD_VALUE, &message,
            "case c: the gravity is not a finite number; give a finite number");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CASE), 2);
}
END_TEST

START_TEST(warmth_is_set)
{
    must(trivet_frame_set_warm(frame, 0, 30.0, &message), &message);
    ck_assert_double_eq(frame->cases[0].warm, 30.0);
    refused(trivet_frame_set_warm(frame, 0, (double)INFINITY, &message), TRIVET_BAD_VALUE, &message,
            "case tip: the warmth is not a finite number; give a finite number");
    refused(trivet_frame_set_warm(frame, 2, 1.0, &message), TRIVET_BAD_INDEX, &message, no_case);
    refused(trivet_frame_set_warm(NULL, 0, 1.0, &message), TRIVET_MISSING_ARGUMENT, &message,
            no_frame);
    ck_assert_double_eq(frame->cases[0].warm, 30.0);
}
END_TEST

START_TEST(joints_are_loaded)
{
    must(trivet_frame_add_joint_force(frame, 1, 1, up, NULL, &message), &message);
    must(trivet_frame_add_joint_force(frame, 1, 1, NULL, up, &message), &message);
    ck_assert_int_eq(frame->cases[1].joint_force_count, 2);
    ck_assert_double_eq(frame->cases[1].joint_forces[0].force[2], 10.0);
    ck_assert_double_eq(frame->cases[1].joint_forces[0].moment[2], 0.0);
    ck_assert_double_eq(frame->cases[1].joint_forces[1].force[2], 0.0);
    ck_assert_double_eq(frame->cases[1].joint_forces[1].moment[2], 10.0);
    refused(trivet_frame_add_joint_force(frame, 1, 1, NULL, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_load);
    refused(trivet_frame_add_joint_force(NULL, 1, 1, up, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, no_frame);
    refused(trivet_frame_add_joint_force(frame, 2, 1, up, NULL, &message), TRIVET_BAD_INDEX,
            &message, no_case);
    refused(trivet_frame_add_joint_force(frame, 1, 2, up, NULL, &message), TRIVET_BAD_INDEX,
            &message,
            "case weight, joint number 2: there is none, the frame has 2 of them; count from 0 in "
            "the order of adding");
    refused(trivet_frame_add_joint_force(frame, 1, 1, bad, NULL, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, joint B: the force is not a finite number; give a finite number");
    refused(trivet_frame_add_joint_force(frame, 1, 1, up, bad, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, joint B: the moment is not a finite number; give a finite number");
    ck_assert_int_eq(frame->cases[1].joint_force_count, 2);
}
END_TEST

START_TEST(cargo_is_loaded_at_its_centre_or_elsewhere)
{
    must(trivet_frame_add_cargo_force(frame, 1, 0, up, NULL, NULL, &message), &message);
    must(trivet_frame_add_cargo_force(frame, 1, 0, up, up, up, &message), &message);
    const trivet__cargo_force *const loads = frame->cases[1].cargo_forces;
    ck_assert_int_eq(frame->cases[1].cargo_force_count, 2);
    ck_assert_int_eq(loads[0].at_centre, 1);
    ck_assert_double_eq(loads[0].at[1], 2.0);
    ck_assert_int_eq(loads[1].at_centre, 0);
    ck_assert_double_eq(loads[1].at[2], 10.0);
    refused(trivet_frame_add_cargo_force(frame, 1, 0, NULL, NULL, up, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_load);
    refused(trivet_frame_add_cargo_force(NULL, 1, 0, up, NULL, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_frame);
    refused(trivet_frame_add_cargo_force(frame, 2, 0, up, NULL, NULL, &message), TRIVET_BAD_INDEX,
            &message, no_case);
    refused(trivet_frame_add_cargo_force(frame, 1, 1, up, NULL, NULL, &message), TRIVET_BAD_INDEX,
            &message,
            "case weight, cargo number 1: there is none, the frame has 1 of them; count from 0 in "
            "the order of adding");
    refused(trivet_frame_add_cargo_force(frame, 1, 0, bad, NULL, NULL, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, cargo bag: the force is not a finite number; give a finite number");
    refused(trivet_frame_add_cargo_force(frame, 1, 0, up, NULL, bad, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, cargo bag: the place of the force is not a finite number; give a finite "
            "number");
    ck_assert_int_eq(frame->cases[1].cargo_force_count, 2);
}
END_TEST

START_TEST(tubes_are_loaded_at_a_place)
{
    must(trivet_frame_add_tube_force(frame, 1, 0, 0.2, up, NULL, TRIVET_TUBE_AXES, &message),
         &message);
    must(trivet_frame_add_tube_force(frame, 1, 0, 0.0, NULL, up, TRIVET_WORLD_AXES, &message),
         &message);
    const trivet__tube_force *const loads = frame->cases[1].tube_forces;
    ck_assert_int_eq(frame->cases[1].tube_force_count, 2);
    ck_assert_double_eq(loads[0].at, 0.2);
    ck_assert_int_eq(loads[0].axes, TRIVET_TUBE_AXES);
    ck_assert_double_eq(loads[1].moment[2], 10.0);
    refused(trivet_frame_add_tube_force(frame, 1, 0, 0.2, NULL, NULL, 0, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_load);
    refused(trivet_frame_add_tube_force(NULL, 1, 0, 0.2, up, NULL, 0, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_frame);
    refused(trivet_frame_add_tube_force(frame, 2, 0, 0.2, up, NULL, 0, &message), TRIVET_BAD_INDEX,
            &message, no_case);
    refused(trivet_frame_add_tube_force(frame, 1, 1, 0.2, up, NULL, 0, &message), TRIVET_BAD_INDEX,
            &message,
            "case weight, tube number 1: there is none, the frame has 1 of them; count from 0 in "
            "the order of adding");
    refused(trivet_frame_add_tube_force(frame, 1, 0, -0.2, up, NULL, 0, &message), TRIVET_BAD_VALUE,
            &message, "case weight, tube arm: the place of the force is -200 mm; give 0 or more");
    refused(trivet_frame_add_tube_force(frame, 1, 0, (double)NAN, up, NULL, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the place of the force is not a finite number; give a finite "
            "number");
    refused(trivet_frame_add_tube_force(frame, 1, 0, 0.2, bad, NULL, 0, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, tube arm: the force is not a finite number; give a finite number");
    refused(trivet_frame_add_tube_force(frame, 1, 0, 0.2, up, NULL, 2, &message), TRIVET_BAD_VALUE,
            &message,
            "case weight, tube arm: the load's axes are 2, which are none; take world or tube "
            "axes");
    ck_assert_int_eq(frame->cases[1].tube_force_count, 2);
}
END_TEST

START_TEST(tubes_are_loaded_along_a_stretch)
{
    must(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, up, here, TRIVET_TUBE_AXES, &message),
         &message);
    must(trivet_frame_add_tube_line(frame, 1, 0, 0.0, (double)NAN, up, up, TRIVET_WORLD_AXES,
                                    &message),
         &message);
    const trivet__tube_line *const loads = frame->cases[1].tube_lines;
    ck_assert_int_eq(frame->cases[1].tube_line_count, 2);
    ck_assert_double_eq(loads[0].from, 0.1);
    ck_assert_double_eq(loads[0].to, 0.2);
    ck_assert_double_eq(loads[0].first[2], 10.0);
    ck_assert_double_eq(loads[0].last[2], 3.0);
    ck_assert(isnan(loads[1].to));
    refused(trivet_frame_add_tube_line(NULL, 1, 0, 0.1, 0.2, up, up, 0, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_frame);
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, NULL, up, 0, &message),
            TRIVET_MISSING_ARGUMENT, &message, "first: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, up, NULL, 0, &message),
            TRIVET_MISSING_ARGUMENT, &message, "last: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_tube_line(frame, 2, 0, 0.1, 0.2, up, up, 0, &message),
            TRIVET_BAD_INDEX, &message, no_case);
    ck_assert_int_eq(trivet_frame_add_tube_line(frame, 1, -1, 0.1, 0.2, up, up, 0, NULL),
                     TRIVET_BAD_INDEX);
    ck_assert_int_eq(frame->cases[1].tube_line_count, 2);
}
END_TEST

START_TEST(stretches_that_cannot_be_are_refused)
{
    refused(trivet_frame_add_tube_line(frame, 1, 0, -0.1, 0.2, up, up, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the start of the load is -100 mm; give 0 or more");
    refused(trivet_frame_add_tube_line(frame, 1, 0, (double)NAN, 0.2, up, up, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the start of the load is not a finite number; give a finite "
            "number");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, (double)INFINITY, up, up, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the end of the load is not a finite number; give a finite "
            "number");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.2, 0.2, up, up, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the load runs from 200 mm to 200 mm; let it end beyond its "
            "start, or use a single force");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, bad, up, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the line load is not a finite number; give a finite number");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, up, bad, 0, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the line load is not a finite number; give a finite number");
    refused(trivet_frame_add_tube_line(frame, 1, 0, 0.1, 0.2, up, up, -1, &message),
            TRIVET_BAD_VALUE, &message,
            "case weight, tube arm: the load's axes are -1, which are none; take world or tube "
            "axes");
    ck_assert_int_eq(frame->cases[1].tube_line_count, 0);
}
END_TEST

START_TEST(combinations_are_copied)
{
    int32_t cases[] = {1, 0};
    double factors[] = {1.35, -1.5};
    int32_t number = -1;
    must(trivet_frame_add_combination(frame, "both", cases, factors, 2, &number, &message),
         &message);
    ck_assert_int_eq(number, 0);
    cases[0] = 7;
    factors[0] = 7.0;
    ck_assert_int_eq(frame->combinations[0].cases[0], 1);
    ck_assert_double_eq(frame->combinations[0].factors[0], 1.35);
    ck_assert_double_eq(frame->combinations[0].factors[1], -1.5);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_COMBINATION, 0), "both");
}
END_TEST

START_TEST(combinations_that_cannot_be_are_refused)
{
    const int32_t cases[] = {0, 1};
    const int32_t twice[] = {1, 1};
    const int32_t unknown[] = {0, 2};
    const double factors[] = {1.0, 2.0};
    const double endless[] = {1.0, (double)INFINITY};
    int32_t number = 7;
    refused(trivet_frame_add_combination(NULL, "k", cases, factors, 2, &number, &message),
            TRIVET_MISSING_ARGUMENT, &message, no_frame);
    ck_assert_int_eq(number, -1);
    refused(trivet_frame_add_combination(frame, "k", NULL, factors, 2, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "cases: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_combination(frame, "k", cases, NULL, 2, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "factors: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_combination(frame, "tip", cases, factors, 2, NULL, &message),
            TRIVET_BAD_NAME, &message,
            "combination tip: there is a case of this name already; choose another name");
    refused(trivet_frame_add_combination(frame, "k", cases, factors, 0, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "combination k: there is no case in it; name at least one case");
    refused(trivet_frame_add_combination(frame, "k", twice, factors, 2, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "combination k: case weight stands in it twice; name it once");
    refused(trivet_frame_add_combination(frame, "k", unknown, factors, 2, NULL, &message),
            TRIVET_BAD_INDEX, &message,
            "combination k, case number 2: there is none, the frame has 2 of them; count from 0 in "
            "the order of adding");
    refused(trivet_frame_add_combination(frame, "k", cases, endless, 2, NULL, &message),
            TRIVET_BAD_VALUE, &message,
            "combination k: the factor is not a finite number; give a finite number");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_COMBINATION), 0);
    must(trivet_frame_add_combination(frame, "k", cases, factors, 2, NULL, &message), &message);
    refused(trivet_frame_add_case(frame, "k", up, NULL, &message), TRIVET_BAD_NAME, &message,
            "case k: there is a combination of this name already; choose another name");
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        gravity_is_none_unless_given, cases_that_cannot_be_are_refused, warmth_is_set,
        joints_are_loaded, cargo_is_loaded_at_its_centre_or_elsewhere, tubes_are_loaded_at_a_place,
        tubes_are_loaded_along_a_stretch, stretches_that_cannot_be_are_refused,
        combinations_are_copied, combinations_that_cannot_be_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("case", tests);
}
