/*
 * What the vehicle feels of a rack: masses times levers by hand, and what is said where a number is
 * missing.
 *
 * The rack lies at z = 0 from x = 0 back to x = -500 mm: two rails 300 mm apart and a cross tube
 * at the back, of 20 x 20 x 2 mm with sharp corners: 144 mm^2 of 7850 kg/m^3, 1.1304 kg/m. In the
 * left rail's front end 100 mm of square bar of 15 mm: 225 mm^2, 1.76625 kg/m.
 *
 *              kg             x        kg m
 *   rails      2 x 0.5652     -0.25   -0.2826
 *   back       0.33912        -0.50   -0.16956
 *   insert     0.176625       -0.05   -0.00883125
 *   box       10              -0.40   -4             300 mm above the rails: 3 kg m
 *   together  11.646145               -4.46099125
 */
#include "follow.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Sums of a dozen numbers. */
#define ROUNDING 1e-13

#define FRAME_MASS 1.646145
#define FRAME_MOMENT 0.46099125 /* kg m behind x = 0 */
#define BOX 10.0
#define BOX_BACK 0.4
#define ALL_MASS (FRAME_MASS + BOX)
#define ALL_MOMENT (FRAME_MOMENT + BOX * BOX_BACK)
#define ALL_HEIGHT 3.0 /* kg m above z = 0 */

#define WHEELBASE 1.45
#define AXLE 0.05   /* m behind x = 0 */
#define GROUND 0.75 /* m below z = 0 */
#define GRADE 0.1   /* rad */
#define START 0.4   /* of g */
#define FRONT 80.0  /* kg on the axles without the rack */
#define REAR 90.0

/* Taken off the front wheel, kg: moments about the rear wheel's contact with the ground. */
#define PARKED ((ALL_MOMENT - AXLE * ALL_MASS) / WHEELBASE)
#define LIFT ((ALL_HEIGHT + GROUND * ALL_MASS) / WHEELBASE)

static trivet_vehicle motorcycle(void)
{
    trivet_vehicle vehicle;
    ck_assert_int_eq(trivet_vehicle_defaults(&vehicle, sizeof vehicle), TRIVET_OK);
    vehicle.wheelbase = WHEELBASE;
    vehicle.rear_axle = -AXLE;
    vehicle.ground = -GROUND;
    vehicle.grade = GRADE;
    vehicle.accelerate = START;
    vehicle.front_load = FRONT;
    vehicle.rear_load = REAR;
    vehicle.front_most = 100.0;
    vehicle.rear_most = 130.0;
    vehicle.total_most = 200.0;
    vehicle.front_least = 60.0;
    vehicle.overhang_most = 0.5;
    vehicle.width_most = 0.4;
    return vehicle;
}

static beam rack_with_box(double box_x)
{
    beam of = beam_new();
    const int32_t FL = must_add_joint(of.frame, "FL", 0.0, 0.15, 0.0);
    const int32_t BL = must_add_joint(of.frame, "BL", -0.5, 0.15, 0.0);
    const int32_t FR = must_add_joint(of.frame, "FR", 0.0, -0.15, 0.0);
    const int32_t BR = must_add_joint(of.frame, "BR", -0.5, -0.15, 0.0);
    const int32_t under[] = {BL, BR};
    const double centre[3] = {box_x, 0.02, 0.3};
    trivet_profile profile = square_tube(0.02, 0.002);
    trivet_message message;
    int32_t cargo = -1;
    profile.corner = TRIVET_CORNER_SHARP;
    const int32_t rail = beam_stock(&of, "rail", profile, steel_material());
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.015), steel_material());
    const int32_t left = beam_tube(&of, "left rail", rail, FL, BL);
    beam_tube(&of, "right rail", rail, FR, BR);
    beam_tube(&of, "back", rail, BL, BR);
    must(trivet_frame_add_insert(of.frame, left, FL, 0.1, plug, TRIVET_TOGETHER, &message),
         &message);
    must_add_mount(of.frame, FL, TRIVET_ALL);
    must_add_mount(of.frame, FR, TRIVET_ALL);
    must(trivet_frame_add_cargo(of.frame, "box", centre, under, 2, TRIVET_GRIP_SOFT, &cargo,
                                &message),
         &message);
    must(trivet_frame_add_item(of.frame, cargo, "all of it", BOX, &message), &message);
    must_add_case(of.frame, "hardly a load", 0.1); /* the vehicle's checks ask for masses alone */
    return of;
}

static beam rack(void)
{
    return rack_with_box(-BOX_BACK);
}

static void put_on(beam *of, const trivet_vehicle *vehicle)
{
    trivet_message message;
    must(trivet_frame_set_vehicle(of->frame, vehicle, &message), &message);
}

/* The rack on a vehicle, checked. */
static beam checked_on(const trivet_vehicle *vehicle)
{
    beam of = rack();
    put_on(&of, vehicle);
    beam_check(&of);
    return of;
}

static int has_check(const beam *of, const char *name)
{
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &check), TRIVET_OK);
        if (strcmp(check.check, name) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(kilograms_off_the_front_wheel)
{
    beam of = rack();
    const trivet_vehicle vehicle = motorcycle();
    double relief[3];
    put_on(&of, &vehicle);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_OK);
    near_relative(relief[0], PARKED, ROUNDING);
    near_relative(relief[1], PARKED * cos(GRADE) + LIFT * sin(GRADE), ROUNDING);
    near_relative(relief[2], PARKED + LIFT * START, ROUNDING);
    near_scaled(relief[0], 2.675, 0.0005, 1.0); /* (4.46099 - 0.05 * 11.6461) / 1.45 */
    beam_free(&of);
}
END_TEST

/*
 * 25 kg more at 350 mm behind the axle and 1.05 m above the ground, on a wheelbase of 1450 mm: the
 * rack's own share falls out of the difference.
 */
START_TEST(a_load_behind_the_axle_takes_its_lever_off)
{
    static const int32_t under[] = {1, 3};
    const double centre[3] = {-AXLE - 0.35, 0.0, 0.3};
    const trivet_vehicle vehicle = motorcycle();
    beam of = rack();
    trivet_message message;
    double before[3];
    double after[3];
    int32_t bag = -1;
    put_on(&of, &vehicle);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, before), TRIVET_OK);
    must(
        trivet_frame_add_cargo(of.frame, "bag", centre, under, 2, TRIVET_GRIP_SOFT, &bag, &message),
        &message);
    must(trivet_frame_add_item(of.frame, bag, "all of it", 25.0, &message), &message);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, after), TRIVET_OK);
    near_scaled(after[0] - before[0], 6.0345, 0.00005, 1.0); /* 25 * 350 / 1450 */
    near_relative(after[1] - before[1],
                  25.0 * (0.35 * cos(GRADE) + (GROUND + 0.3) * sin(GRADE)) / WHEELBASE, ROUNDING);
    near_relative(after[2] - before[2], 25.0 * (0.35 + (GROUND + 0.3) * START) / WHEELBASE,
                  ROUNDING);
    beam_free(&of);
}
END_TEST

START_TEST(a_load_before_the_axle_presses_on_the_front_wheel)
{
    beam of = rack();
    trivet_vehicle vehicle = motorcycle();
    double relief[3];
    vehicle.rear_axle = -0.6;
    put_on(&of, &vehicle);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_OK);
    near_relative(relief[0], (ALL_MOMENT - 0.6 * ALL_MASS) / WHEELBASE, ROUNDING);
    ck_assert(relief[0] < 0.0);
    beam_free(&of);
}
END_TEST

START_TEST(a_relief_needs_to_know_the_axles)
{
    beam of = rack();
    trivet_vehicle vehicle = motorcycle();
    double relief[3] = {1.0, 1.0, 1.0};
    ck_assert_int_eq(trivet_vehicle_relief(NULL, relief), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_INCOMPLETE);
    ck_assert(isnan(relief[0]) && isnan(relief[1]) && isnan(relief[2]));
    vehicle.ground = (double)NAN;
    put_on(&of, &vehicle);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_OK);
    near_relative(relief[0], PARKED, ROUNDING);
    ck_assert(isnan(relief[1]) && isnan(relief[2]));
    beam_free(&of);
}
END_TEST

START_TEST(what_is_left_on_the_front_wheel)
{
    const trivet_vehicle vehicle = motorcycle();
    beam of = checked_on(&vehicle);
    const trivet_check check = beam_find(&of, "front wheel", "the front wheel", "any case");
    const double left = FRONT - (PARKED + LIFT * START); /* pulling away takes most */
    char text[512];
    ck_assert_int_eq(check.line, TRIVET_LINE_SERVICE);
    ck_assert_int_eq(check.dimension, TRIVET_MASS);
    ck_assert_int_eq(check.case_index, -1);
    near_relative(check.demand, 60.0, ROUNDING);
    near_relative(check.limit, left, ROUNDING);
    near_relative(check.utilisation, 60.0 / left, ROUNDING);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    follow_working(&of, "front wheel", "the front wheel", "any case");
    /* 80 - 2.675 - 8.093 * 0.4 = 74.09; 60 / 74.09 = 0.81 */
    working_sentence(&of, "front wheel", "the front wheel", "any case", text);
    ck_assert_str_eq(text,
                     "the front wheel needs 60 of 74.1 kg left on it in any case (used 81 %); "
                     "what the vehicle itself shifts off it on a grade or when it pulls away "
                     "comes on top");
    beam_free(&of);
}
END_TEST

START_TEST(a_steep_grade_takes_more_than_a_start)
{
    trivet_vehicle vehicle = motorcycle();
    vehicle.grade = 0.5;
    vehicle.accelerate = 0.1;
    beam of = checked_on(&vehicle);
    near_relative(beam_find(&of, "front wheel", "the front wheel", "any case").limit,
                  FRONT - (PARKED * cos(0.5) + LIFT * sin(0.5)), ROUNDING);
    beam_free(&of);
}
END_TEST

/* 2 kg on the front wheel, 2.675 taken off. */
START_TEST(a_wheel_in_the_air_carries_nothing)
{
    trivet_vehicle vehicle = motorcycle();
    vehicle.front_load = 2.0;
    beam of = checked_on(&vehicle);
    const trivet_check wheel = beam_find(&of, "front wheel", "the front wheel", "any case");
    ck_assert(wheel.limit == 0.0);
    ck_assert(isinf(wheel.utilisation));
    ck_assert_int_eq(wheel.verdict, TRIVET_FAILS);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_SERVICE, NULL), TRIVET_FAILS);
    ck_assert(beam_find(&of, "front axle", "the front axle", "any case").demand == 0.0);
    beam_free(&of);
}
END_TEST

START_TEST(loads_on_the_axles_and_on_the_label)
{
    const trivet_vehicle vehicle = motorcycle();
    beam of = checked_on(&vehicle);
    const trivet_check front = beam_find(&of, "front axle", "the front axle", "any case");
    const trivet_check rear = beam_find(&of, "rear axle", "the rear axle", "any case");
    const trivet_check total =
        beam_find(&of, "vehicle total", "the vehicle with all of it", "any case");
    near_relative(front.demand, FRONT - PARKED, ROUNDING);
    near_relative(rear.demand, REAR + ALL_MASS + PARKED, ROUNDING);
    near_relative(total.demand, FRONT + REAR + ALL_MASS, ROUNDING);
    near_relative(front.demand + rear.demand, total.demand, ROUNDING);
    near_relative(front.utilisation, (FRONT - PARKED) / 100.0, ROUNDING);
    near_relative(rear.utilisation, (REAR + ALL_MASS + PARKED) / 130.0, ROUNDING);
    near_relative(total.utilisation, (FRONT + REAR + ALL_MASS) / 200.0, ROUNDING);
    ck_assert_int_eq(front.line, TRIVET_LINE_OVERLOAD);
    ck_assert_int_eq(rear.line, TRIVET_LINE_OVERLOAD);
    ck_assert_int_eq(total.line, TRIVET_LINE_OVERLOAD);
    follow_working(&of, "front axle", "the front axle", "any case");
    follow_working(&of, "rear axle", "the rear axle", "any case");
    follow_working(&of, "vehicle total", "the vehicle with all of it", "any case");
    beam_free(&of);
}
END_TEST

START_TEST(an_overloaded_axle_fails)
{
    trivet_vehicle vehicle = motorcycle();
    vehicle.rear_most = 104.0; /* 90 + 11.65 + 2.67 = 104.32 */
    beam of = checked_on(&vehicle);
    ck_assert_int_eq(beam_find(&of, "rear axle", "the rear axle", "any case").verdict,
                     TRIVET_FAILS);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_OVERLOAD, NULL), TRIVET_FAILS);
    beam_free(&of);
}
END_TEST

/* Back to x = -500 mm from an axle at -50 mm; joints 300 mm apart. */
START_TEST(reach_and_width_of_the_rack)
{
    const trivet_vehicle vehicle = motorcycle();
    beam of = checked_on(&vehicle);
    const trivet_check over = beam_find(&of, "overhang", "the frame with its cargo", "any case");
    const trivet_check wide = beam_find(&of, "width", "the frame", "any case");
    char text[512];
    near_relative(over.demand, 0.45, ROUNDING);
    near_relative(over.limit, 0.5, ROUNDING);
    near_relative(wide.demand, 0.3, ROUNDING);
    near_relative(wide.limit, 0.4, ROUNDING);
    ck_assert_int_eq(over.line, TRIVET_LINE_SERVICE);
    ck_assert_int_eq(wide.line, TRIVET_LINE_SERVICE);
    ck_assert_str_eq(over.source, "limit set by the user; local rules differ by country");
    ck_assert_str_eq(wide.source, "limit set by the user; local rules differ by country");
    follow_working(&of, "overhang", "the frame with its cargo", "any case");
    follow_working(&of, "width", "the frame", "any case");
    working_sentence(&of, "width", "the frame", "any case", text);
    ck_assert_str_eq(text, "the frame takes a width of 300 of 400 mm in any case (used 75 %)");
    beam_free(&of);
}
END_TEST

/* A centre at -700 mm lies behind the last joint; an axle at -900 mm behind everything. */
START_TEST(cargo_reaches_farther_than_the_frame)
{
    trivet_vehicle vehicle = motorcycle();
    beam behind = rack_with_box(-0.7);
    put_on(&behind, &vehicle);
    beam_check(&behind);
    near_relative(beam_find(&behind, "overhang", "the frame with its cargo", "any case").demand,
                  0.65, ROUNDING);
    beam_free(&behind);
    vehicle.rear_axle = -0.9;
    beam before = checked_on(&vehicle);
    ck_assert(beam_find(&before, "overhang", "the frame with its cargo", "any case").demand == 0.0);
    beam_free(&before);
}
END_TEST

#define MEMBER(name) offsetof(trivet_vehicle, name)
#define LABEL " stands on the vehicle's label"
#define COUNTRY "how much is allowed differs by country"
static const struct {
    size_t at;
    const char *check;
    const char *why;
} MISSING[] = {
    {MEMBER(wheelbase), "front wheel", "add vehicle: {wheelbase: ...}"},
    {MEMBER(wheelbase), "front axle", "add vehicle: {wheelbase: ...}"},
    {MEMBER(wheelbase), "rear axle", "add vehicle: {wheelbase: ...}"},
    {MEMBER(rear_axle), "front wheel", "add vehicle: {rear axle: ...}"},
    {MEMBER(rear_axle), "front axle", "add vehicle: {rear axle: ...}"},
    {MEMBER(rear_axle), "rear axle", "add vehicle: {rear axle: ...}"},
    {MEMBER(rear_axle), "overhang", "add vehicle: {rear axle: ...}"},
    {MEMBER(ground), "front wheel", "add vehicle: {ground: ...}"},
    {MEMBER(front_load), "front wheel", "add vehicle: {front load: ...}"},
    {MEMBER(front_load), "front axle", "add vehicle: {front load: ...}"},
    {MEMBER(front_load), "vehicle total", "add vehicle: {front load: ...}"},
    {MEMBER(rear_load), "rear axle", "add vehicle: {rear load: ...}"},
    {MEMBER(rear_load), "vehicle total", "add vehicle: {rear load: ...}"},
    {MEMBER(front_least), "front wheel",
     "add vehicle: {front least: ...}; front least is what must stay on it"},
    {MEMBER(front_most), "front axle", "add vehicle: {front most: ...}; front most" LABEL},
    {MEMBER(rear_most), "rear axle", "add vehicle: {rear most: ...}; rear most" LABEL},
    {MEMBER(total_most), "vehicle total", "add vehicle: {total most: ...}; total most" LABEL},
    {MEMBER(overhang_most), "overhang", "add vehicle: {overhang: ...}; " COUNTRY},
    {MEMBER(width_most), "width", "add vehicle: {width: ...}; " COUNTRY},
};

START_TEST(what_is_missing_is_named)
{
    trivet_vehicle vehicle = motorcycle();
    const double nothing = (double)NAN;
    memcpy((char *)&vehicle + MISSING[_i].at, &nothing, sizeof nothing);
    beam of = checked_on(&vehicle);
    ck_assert_msg(!has_check(&of, MISSING[_i].check), "%s was checked", MISSING[_i].check);
    ck_assert_pstr_eq(beam_omission(&of, MISSING[_i].check), MISSING[_i].why);
    beam_free(&of);
}
END_TEST

START_TEST(all_that_is_missing_is_named_together)
{
    trivet_vehicle vehicle;
    ck_assert_int_eq(trivet_vehicle_defaults(&vehicle, sizeof vehicle), TRIVET_OK);
    vehicle.wheel_radius = 0.3;
    beam of = checked_on(&vehicle);
    ck_assert_pstr_eq(beam_omission(&of, "front wheel"),
                      "add vehicle: {wheelbase: ..., rear axle: ..., ground: ..., front load: ..., "
                      "front least: ...}; front least is what must stay on it");
    ck_assert_pstr_eq(beam_omission(&of, "vehicle total"),
                      "add vehicle: {front load: ..., rear load: ..., total most: ...}; total most "
                      "stands on the vehicle's label");
    beam_free(&of);
}
END_TEST

static const char *const KINDS[] = {"front wheel",   "front axle", "rear axle",
                                    "vehicle total", "overhang",   "width"};

START_TEST(everything_said_leaves_nothing_out)
{
    const trivet_vehicle vehicle = motorcycle();
    beam of = checked_on(&vehicle);
    for (size_t k = 0; k < sizeof KINDS / sizeof KINDS[0]; k++) {
        ck_assert(has_check(&of, KINDS[k]));
        ck_assert_ptr_null(beam_omission(&of, KINDS[k]));
    }
    beam_free(&of);
}
END_TEST

/* No vehicle, and one of which nothing is said. */
START_TEST(without_a_vehicle_nothing_is_said)
{
    trivet_vehicle vehicle;
    beam of = rack();
    ck_assert_int_eq(trivet_vehicle_defaults(&vehicle, sizeof vehicle), TRIVET_OK);
    if (_i == 1) {
        put_on(&of, &vehicle);
    }
    beam_check(&of);
    for (size_t k = 0; k < sizeof KINDS / sizeof KINDS[0]; k++) {
        ck_assert(!has_check(&of, KINDS[k]));
        ck_assert_ptr_null(beam_omission(&of, KINDS[k]));
    }
    beam_free(&of);
}
END_TEST

START_TEST(gaps_are_listed_as_not_checked)
{
    beam of = rack();
    trivet_message message;
    int32_t line = -1;
    int found = 0;
    must(trivet_frame_add_gap(of.frame, "usage two-up", "say how high the backrest is", &message),
         &message);
    must(trivet_frame_add_gap(of.frame, "usage grab", "say which rail", &message), &message);
    beam_check(&of);
    ck_assert_pstr_eq(beam_omission(&of, "usage two-up"), "say how high the backrest is");
    ck_assert_pstr_eq(beam_omission(&of, "usage grab"), "say which rail");
    for (int32_t i = 0; i < trivet_checks_omission_count(of.checks); i++) {
        if (strncmp(trivet_checks_omission(of.checks, i, &line, NULL), "usage ", 6) == 0) {
            ck_assert_int_eq(line, TRIVET_LINE_OVERLOAD);
            found++;
        }
    }
    ck_assert_int_eq(found, 2);
    beam_free(&of);
}
END_TEST

/*
 * The box alone may grow until the rear axle has its 110 kg: with c kg of it
 *
 *     90 + 1.646145 + c + (0.46099125 + 0.4 c - 0.05 (1.646145 + c)) / 1.45 = 110
 *
 * What no load changes is no further stop: how far the rack reaches, how wide it is.
 */
START_TEST(an_axle_stops_the_load)
{
    beam of = rack();
    trivet_vehicle vehicle = motorcycle();
    trivet_rates *rates = NULL;
    trivet_rate rate = {.size = sizeof rate};
    trivet_cycles cycles;
    trivet_message message;
    const double most =
        (110.0 - REAR - FRAME_MASS - (FRAME_MOMENT - AXLE * FRAME_MASS) / WHEELBASE) /
        (1.0 + (BOX_BACK - AXLE) / WHEELBASE);
    /* Stood once: so that a million bumps, taken where nothing is said, do not stop it first. */
    must(trivet_cycles_defaults(&cycles, sizeof cycles), NULL);
    cycles.to = 0;
    cycles.count = 1.0;
    must(trivet_frame_add_cycles(of.frame, "one ride", &cycles, NULL, &message), &message);
    vehicle.rear_most = 110.0;
    vehicle.overhang_most = 0.4501;
    vehicle.width_most = 0.3001;
    put_on(&of, &vehicle);
    must(trivet_rates_new(of.frame, NULL, &rates, &message), &message);
    ck_assert_int_eq(trivet_rates_at(rates, 0, &rate), TRIVET_OK);
    ck_assert_int_eq(rate.holds, 1);
    for (int32_t number = 0; number < 3; number++) {
        trivet_check stop = {.size = sizeof stop};
        const int32_t index = trivet_rates_stop(rates, 0, number);
        ck_assert_int_eq(trivet_checks_at(trivet_rates_checks(rates, 0), index, &stop), TRIVET_OK);
        ck_assert_str_ne(stop.check, "overhang");
        ck_assert_str_ne(stop.check, "width");
        if (number == 0) {
            ck_assert_str_eq(stop.check, "rear axle"); /* of all checks the first */
        }
    }
    near_relative(rate.mass, most, 1e-4); /* as near as a rating is looked for */
    trivet_rates_free(rates);
    beam_free(&of);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        kilograms_off_the_front_wheel, a_load_behind_the_axle_takes_its_lever_off,
        a_load_before_the_axle_presses_on_the_front_wheel, a_relief_needs_to_know_the_axles,
        what_is_left_on_the_front_wheel, a_steep_grade_takes_more_than_a_start,
        a_wheel_in_the_air_carries_nothing, loads_on_the_axles_and_on_the_label,
        an_overloaded_axle_fails, reach_and_width_of_the_rack, cargo_reaches_farther_than_the_frame,
        all_that_is_missing_is_named_together, everything_said_leaves_nothing_out,
        gaps_are_listed_as_not_checked, an_axle_stops_the_load);
    tcase_add_loop_test(tests, what_is_missing_is_named, 0,
                        (int)(sizeof MISSING / sizeof MISSING[0]));
    tcase_add_loop_test(tests, without_a_vehicle_nothing_is_said, 0, 2);
    return run_tests("vehicle checks", tests);
}
