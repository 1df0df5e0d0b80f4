/*
 * Threads, rivet nuts and inserts on a post that is pulled off its mount. Areas of M6 over 6 mm as
 * printed (Bickford & Nassar): screw 51.875 mm^2, hole 73.145 mm^2, with limits of size rounded to
 * a thousandth of a mm; the rest by hand.
 */
#include "beam.h"
#include "follow.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define SCREW_AREA 51.875e-6
#define HOLE_AREA 73.145e-6
#define ROUNDED 2e-3
/* A wall of 14 gauge BWG, m, and the turns of M6 x 1 in it. */
#define GAUGE_14 2.108e-3

enum { TUBE = 0, BAR = 1 };

static trivet_material material(double tensile, double welded)
{
    trivet_material made = beam_material(235e6, 0.0);
    made.tensile = tensile;
    made.welded_tensile = welded;
    return made;
}

/*
 * A post of 500 mm from A, a clamped mount, straight up to B, a tube of 340 MPa with a wall of 14
 * gauge; stock for a bar of 15 mm of some strength; a case "lift" that pulls B up with 2000 N.
 */
static beam post(double bar_tensile, double bar_welded)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.0, 0.0, 0.5);
    beam_stock(&of, "tube", square_tube(0.03, GAUGE_14), material(340e6, (double)NAN));
    beam_stock(&of, "bar", square_bar(0.015), material(bar_tensile, bar_welded));
    beam_tube(&of, "post", TUBE, A, B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "lift"), B, 0.0, 0.0, 2000.0);
    return of;
}

/* An M6 of 8.8 at the mount. */
static trivet_bolts screw(int32_t into, int32_t stock)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.into = into;
    bolts.into_stock = stock;
    return bolts;
}

static void check_with(beam *of, const trivet_bolts *bolts)
{
    trivet_message message = {0};
    must(trivet_frame_add_bolts(of->frame, bolts, NULL, &message), &message);
    beam_check(of);
}

static int32_t count_checks(const beam *of, const char *check)
{
    int32_t count = 0;
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &at), TRIVET_OK);
        count += strcmp(at.check, check) == 0;
    }
    return count;
}

/* 2.108 mm at 1 mm a turn: three turns are not there. */
START_TEST(a_thread_in_a_bare_wall_is_named)
{
    beam of = post(360e6, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_WALL, TUBE);
    bolts.torque = 3.0;
    check_with(&of, &bolts);
    const trivet_check turns = beam_find(&of, "thread turns", "A", "any case");
    near_relative(turns.limit, 2.108, 1e-12);
    near_relative(turns.demand, 3.0, 1e-15);
    ck_assert_int_eq(turns.verdict, TRIVET_FAILS);
    ck_assert_int_eq(turns.line, TRIVET_LINE_OVERLOAD);
    follow_working(&of, "thread turns", "A", "any case");
    char text[512];
    working_sentence(&of, "thread turns", "A", "any case", text);
    ck_assert_str_eq(text,
                     "thread in mount A needs 3 of 2.11 turns in any case (used 142 %); a tapped "
                     "insert, a rivet nut or a weld nut gives the screw a longer thread");
    trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, text, sizeof text);
    ck_assert_msg(strncmp(text, "thread in mount A", 17) == 0, "%s", text);
    beam_free(&of);
}
END_TEST

/* The hole's thread is the weaker: 0.6 x 340 MPa x 73.145 mm^2 x 2.108 / 6 / 1.25 = 4194 N. */
START_TEST(a_wall_strips_at_what_its_turns_carry)
{
    beam of = post(360e6, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_WALL, TUBE);
    bolts.torque = 3.0;
    check_with(&of, &bolts);
    const double limit = 204e6 * HOLE_AREA * 2.108 / 6.0 / 1.25;
    const trivet_check pulled = beam_find(&of, "thread", "A", "lift");
    near_relative(pulled.demand, 1.5 * 2000.0, 1e-9);
    near_relative(pulled.limit, limit, ROUNDED);
    near_relative(pulled.utilisation, 3000.0 / limit, ROUNDED);
    ck_assert_str_eq(pulled.note,
                     "the thread is too short for the screw to break before it strips");
    follow_working(&of, "thread", "A", "lift");
    const trivet_check tightened = beam_find(&of, "thread", "A", "tightening");
    ck_assert_int_eq(tightened.case_index, -1);
    /* 3 N m / (0.2 x 6 mm), and a quarter more. */
    near_relative(tightened.demand, 3125.0, 1e-12);
    near_relative(tightened.limit, limit, ROUNDED);
    follow_working(&of, "thread", "A", "tightening");
    beam_free(&of);
}
END_TEST

/* Without a torque the table's: 0.75 x 580 MPa x 20.1 mm^2 and a quarter more pull the wall out. */
START_TEST(an_unsaid_torque_is_that_of_the_table)
{
    beam of = post(360e6, (double)NAN);
    const trivet_bolts bolts = screw(TRIVET_INTO_WALL, TUBE);
    check_with(&of, &bolts);
    const trivet_check tightened = beam_find(&of, "thread", "A", "tightening");
    near_relative(tightened.demand, 1.25 * 0.75 * 580.0 * 20.1, 0.05 / 20.1);
    ck_assert_int_eq(tightened.verdict, TRIVET_FAILS);
    ck_assert_str_eq(tightened.note,
                     "no torque is given: that of the table for its grade is taken");
    follow_working(&of, "thread", "A", "tightening");
    ck_assert_ptr_nonnull(beam_omission(&of, "torque of mount A"));
    beam_free(&of);
}
END_TEST

/* 15 mm in 360 MPa: 216 MPa x 2.5 x 73.145 mm^2 / 1.25 = 31.6 kN. */
START_TEST(a_tapped_insert_holds)
{
    beam of = post(360e6, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.015;
    bolts.torque = 8.0;
    check_with(&of, &bolts);
    const trivet_check pulled = beam_find(&of, "thread", "A", "lift");
    near_relative(pulled.limit, 216e6 * 2.5 * HOLE_AREA / 1.25, ROUNDED);
    ck_assert_int_eq(pulled.verdict, TRIVET_HOLDS);
    ck_assert_str_eq(pulled.note, "");
    ck_assert_int_eq(beam_find(&of, "thread turns", "A", "any case").verdict, TRIVET_HOLDS);
    near_relative(beam_find(&of, "thread turns", "A", "any case").limit, 15.0, 1e-12);
    /* J = 51.875 x 800 / (73.145 x 360), times 4.655 mm by hand. */
    near_relative(working_value(&of, "thread", "A", "lift", "J"), 1.5760, ROUNDED);
    near_relative(working_value(&of, "thread", "A", "lift", "L_n"), 7.336e-3, 2.0 * ROUNDED);
    near_relative(working_value(&of, "thread", "A", "lift", "F_s"), 480e6 * 2.5 * SCREW_AREA,
                  ROUNDED);
    follow_working(&of, "thread", "A", "lift");
    beam_free(&of);
}
END_TEST

/* Hole as strong as needed: then the screw's own thread is the weaker one. */
START_TEST(a_hard_hole_strips_the_screw)
{
    beam of = post(1000e6, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.006;
    strcpy(bolts.grade, "4.6");
    check_with(&of, &bolts);
    near_relative(beam_find(&of, "thread", "A", "lift").limit, 240e6 * SCREW_AREA / 1.25, ROUNDED);
    beam_free(&of);
}
END_TEST

/* Two bolts 100 mm apart, 50 N m beside the 2000 N: 1000 + 500 N on the worse one. */
START_TEST(the_worst_bolt_of_a_pair_counts)
{
    beam of = post(360e6, (double)NAN);
    beam_moment(&of, 0, 1, 0.0, 50.0, 0.0);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.015;
    bolts.count = 2;
    bolts.pattern[0][0] = -0.05;
    bolts.pattern[1][0] = 0.05;
    check_with(&of, &bolts);
    near_relative(beam_find(&of, "thread", "A", "lift").demand, 1.5 * 1500.0, 1e-9);
    beam_free(&of);
}
END_TEST

START_TEST(a_push_does_not_strip)
{
    beam of = post(360e6, (double)NAN);
    beam_force(&of, beam_case(&of, "push"), 1, 0.0, 0.0, -5000.0);
    trivet_bolts bolts = screw(TRIVET_INTO_WALL, TUBE);
    bolts.torque = 1.0;
    check_with(&of, &bolts);
    ck_assert(beam_find(&of, "thread", "A", "push").demand == 0.0);
    ck_assert_int_eq(beam_find(&of, "thread", "A", "push").verdict, TRIVET_HOLDS);
    follow_working(&of, "thread", "A", "push");
    beam_free(&of);
}
END_TEST

START_TEST(a_nut_of_its_grade_is_not_looked_at)
{
    beam of = post(360e6, (double)NAN);
    const trivet_bolts bolts = screw(TRIVET_INTO_NUT, -1);
    check_with(&of, &bolts);
    ck_assert_int_eq(count_checks(&of, "thread"), 0);
    ck_assert_int_eq(count_checks(&of, "thread turns"), 0);
    beam_free(&of);
}
END_TEST

START_TEST(an_unknown_strength_is_listed)
{
    beam of = post((double)NAN, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.015;
    check_with(&of, &bolts);
    ck_assert_int_eq(count_checks(&of, "thread"), 0);
    ck_assert_str_eq(beam_omission(&of, "stripping of the thread in mount A"),
                     "the tensile strength of its material is not known");
    beam_free(&of);
}
END_TEST

/* Pull 1.5 x 2000 N on a nut of 1500 N; 1.5 x 500 N across on one of 1000 N. */
START_TEST(a_rivet_nut_over_its_rating_is_named)
{
    beam of = post(360e6, (double)NAN);
    beam_force(&of, 0, 1, 300.0, -400.0, 0.0);
    trivet_bolts bolts = screw(TRIVET_INTO_RATED, -1);
    bolts.rated_pull = 1500.0;
    bolts.rated_shear = 1000.0;
    bolts.rated_torque = 4.0;
    bolts.torque = 5.0;
    check_with(&of, &bolts);
    near_relative(beam_find(&of, "nut pull", "A", "lift").utilisation, 2.0, 1e-9);
    near_relative(beam_find(&of, "nut shear", "A", "lift").utilisation, 0.75, 1e-9);
    near_relative(beam_find(&of, "torque", "A", "tightening").utilisation, 1.25, 1e-12);
    follow_working(&of, "nut pull", "A", "lift");
    follow_working(&of, "nut shear", "A", "lift");
    follow_working(&of, "torque", "A", "tightening");
    char text[512];
    working_sentence(&of, "nut pull", "A", "lift", text);
    ck_assert_str_eq(text, "rivet or weld nut of mount A is pulled with 3000 of 1500 N in lift "
                           "(used 200 %); a larger nut or more bolts help");
    beam_free(&of);
}
END_TEST

START_TEST(what_is_not_said_of_a_rivet_nut_is_listed)
{
    beam of = post(360e6, (double)NAN);
    trivet_bolts bolts = screw(TRIVET_INTO_RATED, -1);
    bolts.torque = 5.0;
    check_with(&of, &bolts);
    ck_assert_ptr_nonnull(beam_omission(&of, "pull on the rivet or weld nut of mount A"));
    ck_assert_ptr_nonnull(beam_omission(&of, "shear on the rivet or weld nut of mount A"));
    ck_assert_ptr_nonnull(beam_omission(&of, "torque on the rivet or weld nut of mount A"));
    ck_assert_int_eq(count_checks(&of, "nut pull") + count_checks(&of, "nut shear"), 0);
    beam_free(&of);
}
END_TEST

/* One spot of 4 mm in 340 MPa: 12.566 x 340 / sqrt(3) / 1.25 = 1973.4 N. */
START_TEST(too_few_spots_on_an_insert_are_named)
{
    beam of = post(360e6, 300e6);
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.04, BAR, TRIVET_SIDE_BY_SIDE, NULL),
                     TRIVET_OK);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.015;
    bolts.torque = 4.0;
    bolts.fixing_count = 1;
    bolts.fixing_diameter = 0.004;
    check_with(&of, &bolts);
    const trivet_check pulled = beam_find(&of, "insert fixing", "A", "lift");
    /* The bar beside its weld, 300 MPa, is weaker than the tube. */
    near_scaled(pulled.limit, 1973.4 * 300.0 / 340.0, 1.0, 0.1);
    near_relative(pulled.demand, 3000.0, 1e-9);
    ck_assert_int_eq(pulled.verdict, TRIVET_FAILS);
    ck_assert_str_eq(pulled.note, "the welds are smaller than the plug welds of EN 1993-1-8");
    follow_working(&of, "insert fixing", "A", "lift");
    follow_working(&of, "insert fixing", "A", "tightening");
    /* 4 N m / (0.2 x 6 mm), and a quarter more. */
    near_relative(beam_find(&of, "insert fixing", "A", "tightening").demand, 4166.667, 1e-6);
    ck_assert_str_eq(beam_find(&of, "thread", "A", "lift").note,
                     "the welds on the insert have softened its thread");
    beam_free(&of);
}
END_TEST

START_TEST(an_insert_that_nothing_keeps_is_listed)
{
    beam of = post(360e6, (double)NAN);
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.04, BAR, TRIVET_SIDE_BY_SIDE, NULL),
                     TRIVET_OK);
    trivet_bolts bolts = screw(TRIVET_INTO_TAPPED, BAR);
    bolts.engagement = 0.015;
    check_with(&of, &bolts);
    ck_assert_int_eq(count_checks(&of, "insert fixing"), 0);
    ck_assert_ptr_nonnull(beam_omission(&of, "hold of the insert of mount A"));
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_thread",
        TESTS(a_thread_in_a_bare_wall_is_named, a_wall_strips_at_what_its_turns_carry,
              an_unsaid_torque_is_that_of_the_table, a_tapped_insert_holds,
              a_hard_hole_strips_the_screw, the_worst_bolt_of_a_pair_counts, a_push_does_not_strip,
              a_nut_of_its_grade_is_not_looked_at, an_unknown_strength_is_listed,
              a_rivet_nut_over_its_rating_is_named, what_is_not_said_of_a_rivet_nut_is_listed,
              too_few_spots_on_an_insert_are_named, an_insert_that_nothing_keeps_is_listed));
}
