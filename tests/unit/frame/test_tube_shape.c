/*
 * Where tubes run, how long they are and what they weigh.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/near.h"
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

static void add(void)
{
    const int32_t through[] = {0, 1, 3};
    must(trivet_frame_add_tube(frame, "t", through, 3, 0, 0.0, NULL, &message), &message);
}

START_TEST(distances_add_up_along_the_tube)
{
    add();
    ck_assert_double_eq(trivet__tube_distance(frame, 0, 0), 0.0);
    ck_assert_double_eq(trivet__tube_distance(frame, 0, 1), 1.0);
    ck_assert_double_eq(trivet__tube_distance(frame, 0, 2), 3.0);
    ck_assert_double_eq(trivet_frame_tube_length(frame, 0), 3.0);
}
END_TEST

START_TEST(offsets_move_the_tubes_own_line)
{
    /* 3 m along, 4 m up: 5 m. */
    const double up[3] = {0.0, 0.0, 4.0};
    const int32_t ends[] = {0, 3};
    double point[3];
    must(trivet_frame_add_tube(frame, "t", ends, 2, 0, 0.0, NULL, &message), &message);
    must(trivet_frame_set_offset(frame, 0, 3, up, &message), &message);
    trivet__tube_end_point(frame, 0, 1, point);
    ck_assert_double_eq(point[0], 3.0);
    ck_assert_double_eq(point[1], 0.0);
    ck_assert_double_eq(point[2], 4.0);
    near_relative(trivet_frame_tube_length(frame, 0), 5.0, 1e-15);
}
END_TEST

START_TEST(inserts_reach_from_the_ends_inwards_and_from_the_middle_both_ways)
{
    double from = 0.0;
    double to = 0.0;
    add();
    must(trivet_frame_add_insert(frame, 0, 0, 0.25, 1, 0, &message), &message);
    must(trivet_frame_add_insert(frame, 0, 1, 0.50, 1, 0, &message), &message);
    must(trivet_frame_add_insert(frame, 0, 3, 0.75, 1, 0, &message), &message);
    trivet__insert_stretch(frame, 0, 0, &from, &to);
    ck_assert_double_eq(from, 0.0);
    ck_assert_double_eq(to, 0.25);
    trivet__insert_stretch(frame, 0, 1, &from, &to);
    ck_assert_double_eq(from, 0.75);
    ck_assert_double_eq(to, 1.25);
    trivet__insert_stretch(frame, 0, 2, &from, &to);
    ck_assert_double_eq(from, 2.25);
    ck_assert_double_eq(to, 3.0);
}
END_TEST

START_TEST(inserts_are_given_back_as_they_were_put_in)
{
    trivet_insert insert;
    add();
    must(trivet_frame_add_insert(frame, 0, 3, 0.75, 1, TRIVET_TOGETHER, &message), &message);
    ck_assert_int_eq(trivet_frame_insert_count(frame, 0), 1);
    ck_assert_int_eq(trivet_frame_insert_count(frame, 1), 0);
    ck_assert_int_eq(trivet_frame_insert_count(NULL, 0), 0);
    ck_assert_int_eq(trivet_insert_defaults(NULL, sizeof insert), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_insert_defaults(&insert, sizeof insert - 1), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_insert_defaults(&insert, sizeof insert), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_insert(frame, 0, 0, &insert), TRIVET_OK);
    ck_assert_int_eq(insert.joint, 3);
    ck_assert_int_eq(insert.stock, 1);
    ck_assert_int_eq(insert.bond, TRIVET_TOGETHER);
    ck_assert_double_eq(insert.length, 0.75);
    ck_assert_int_eq(trivet_frame_insert(frame, 0, 1, &insert), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_insert(frame, 0, 0, NULL), TRIVET_MISSING_ARGUMENT);
    insert.size = 1;
    ck_assert_int_eq(trivet_frame_insert(frame, 0, 0, &insert), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(kinds_have_plain_words)
{
    ck_assert_str_eq(trivet_kind_text(TRIVET_KIND_JOINT), "joint");
    ck_assert_str_eq(trivet_kind_text(TRIVET_KIND_COMBINATION), "combination");
    ck_assert_str_eq(trivet_kind_text(0), "thing");
    ck_assert_str_eq(trivet_kind_text(99), "thing");
}
END_TEST

START_TEST(tubes_weigh_area_times_length_times_density)
{
    add();
    /* 144 mm^2 x 3 m x 7850 kg/m^3, then 15^2 mm^2 x 1 m more. */
    near_relative(trivet_frame_tube_mass(frame, 0), 144e-6 * 3.0 * 7850.0, 1e-12);
    must(trivet_frame_add_insert(frame, 0, 1, 1.0, 1, 0, &message), &message);
    const double filled = (144e-6 * 3.0 + 225e-6) * 7850.0;
    near_relative(trivet_frame_tube_mass(frame, 0), filled, 1e-12);
    const int32_t ends[] = {0, 4};
    must(trivet_frame_add_tube(frame, "u", ends, 2, 1, 0.0, NULL, &message), &message);
    /* A to E: sqrt 2 m of the bar. */
    near_relative(trivet_frame_mass(frame), filled + 225e-6 * sqrt(2.0) * 7850.0, 1e-12);
}
END_TEST

START_TEST(a_given_mass_per_length_goes_before_density)
{
    trivet_profile given;
    must(trivet_profile_defaults(&given, sizeof given), &message);
    given.shape = TRIVET_SHAPE_GIVEN_VALUES;
    given.given_area = 1e-4;
    given.given_second_moment[0] = 1e-9;
    given.given_second_moment[1] = 1e-9;
    given.given_torsion_constant = 1e-9;
    given.given_mass_per_length = 2.5;
    const trivet_material material = steel_material();
    add();
    must(trivet_frame_set_stock(frame, 0, &given, &material, &message), &message);
    near_relative(trivet_frame_tube_mass(frame, 0), 7.5, 1e-15);
}
END_TEST

START_TEST(getters_of_no_tube_give_nothing)
{
    int32_t count = 7;
    add();
    ck_assert_ptr_null(trivet_frame_tube_joints(frame, 1, &count));
    ck_assert_int_eq(count, 0);
    ck_assert_ptr_null(trivet_frame_tube_joints(frame, -1, NULL));
    ck_assert_ptr_null(trivet_frame_tube_joints(NULL, 0, &count));
    ck_assert_ptr_nonnull(trivet_frame_tube_joints(frame, 0, NULL));
    ck_assert_int_eq(trivet_frame_tube_stock(frame, 1), -1);
    ck_assert_int_eq(trivet_frame_tube_stock(NULL, 0), -1);
    ck_assert(isnan(trivet_frame_tube_length(frame, 1)));
    ck_assert(isnan(trivet_frame_tube_length(NULL, 0)));
    ck_assert(isnan(trivet_frame_tube_mass(frame, -1)));
    ck_assert(isnan(trivet_frame_mass(NULL)));
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(distances_add_up_along_the_tube, offsets_move_the_tubes_own_line,
              inserts_reach_from_the_ends_inwards_and_from_the_middle_both_ways,
              inserts_are_given_back_as_they_were_put_in, kinds_have_plain_words,
              tubes_weigh_area_times_length_times_density,
              a_given_mass_per_length_goes_before_density, getters_of_no_tube_give_nothing);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("tube_shape", tests);
}
