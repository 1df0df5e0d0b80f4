/*
 * Bolts through tubes and plates: walls crushed without a sleeve, pressed sideways, countersinks
 * deeper than what they sink into, holes at an edge. Thread M6, class 8.8: d = 6 mm, stress area
 * 20.1 mm^2 and proof 580 N/mm^2 (ISO 898-1), head 10 mm, countersunk 13.44 mm (ISO 10642).
 */
#include "beam.h"
#include "follow.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

static trivet_bolts mount_bolts(void)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    return bolts;
}

/* Across the tube that is stock 0, tightened to 10 N m. */
static trivet_bolts clamping_bolts(int32_t clamped)
{
    trivet_bolts bolts = mount_bolts();
    bolts.clamped = clamped;
    bolts.clamped_stock = 0;
    bolts.torque = 10.0;
    bolts.sleeve_diameter = 0.012;
    bolts.sleeve_wall = 0.002;
    return bolts;
}

/* A cantilever on one mount A with these bolts, pushed by little at its tip. */
static beam bolted(trivet_profile profile, const trivet_bolts *bolts, double x, double y)
{
    beam of = beam_cantilever(profile, 235e6, 0.1, 1.0);
    trivet_message message = {0};
    beam_force(&of, 0, 1, x, y, 0.0);
    must(trivet_frame_add_bolts(of.frame, bolts, NULL, &message), &message);
    beam_check(&of);
    return of;
}

static int count_checks(const beam *of, const char *name)
{
    int count = 0;
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &at), TRIVET_OK);
        count += strcmp(at.check, name) == 0;
    }
    return count;
}

/*
 * Preload 10 / (0.2 * 0.006) = 8333 N, a quarter more 10417 N; the walls stand 7990 N (see
 * test_wall_strength.c), of which 1 / 1.25 counts.
 */
START_TEST(without_a_sleeve_the_walls_are_crushed)
{
    const trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    const trivet_check check = beam_find(&of, "wall crush", "A", "tightening");
    near_relative(check.demand, 10.0 / (0.2 * 0.006) * 1.25, 1e-12);
    near_relative(check.limit, 7990.0 / 1.25, 1e-12);
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    ck_assert_int_eq(check.case_index, -1);
    ck_assert_int_eq(check.line, TRIVET_LINE_OVERLOAD);
    ck_assert_str_eq(check.note, "");
    char text[512];
    working_sentence(&of, "wall crush", "A", "tightening", text);
    ck_assert_str_eq(text, "wall under the bolt of mount A is pressed with 10417 of 6392 N in "
                           "tightening (used 163 %); a crush sleeve or a solid insert under the "
                           "bolt, or less torque, helps");
    follow_working(&of, "wall crush", "A", "tightening");
    beam_free(&of);
}
END_TEST

/* The sleeve stands 14765 N. */
START_TEST(a_sleeve_holds_what_the_walls_do_not)
{
    trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_SLEEVE);
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    const trivet_check check = beam_find(&of, "wall crush", "A", "tightening");
    near_scaled(check.utilisation, 1.25 * 10416.7 / 14765.5, 1.0, 1e-5);
    ck_assert_int_eq(check.verdict, TRIVET_TIGHT);
    ck_assert_str_eq(check.subject, "sleeve under the bolt of");
    follow_working(&of, "wall crush", "A", "tightening");
    beam_free(&of);
    bolts.clamped = TRIVET_CLAMPED_INSERT;
    beam insert = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    ck_assert_int_eq(count_checks(&insert, "wall crush"), 0);
    beam_free(&insert);
}
END_TEST

START_TEST(every_form_of_wall_has_a_working_that_can_be_followed)
{
    trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    beam round = bolted(round_tube(0.025, 0.002), &bolts, 0.0, 0.0);
    near_relative(beam_find(&round, "wall crush", "A", "tightening").limit, 6768.0 / 1.25, 1e-12);
    follow_working(&round, "wall crush", "A", "tightening");
    follow_working(&round, "wall bearing", "A", "push");
    beam_free(&round);
    strcpy(bolts.thread, "M8");
    beam narrow = bolted(square_tube(0.015, 0.002), &bolts, 0.0, 0.0);
    near_scaled(beam_find(&narrow, "wall crush", "A", "tightening").limit, 11082.3 / 1.25, 1.0,
                0.05);
    follow_working(&narrow, "wall crush", "A", "tightening");
    beam_free(&narrow);
    beam thin = bolted(square_tube(0.06, 0.0015), &bolts, 0.0, 0.0);
    ck_assert_str_eq(beam_find(&thin, "wall crush", "A", "tightening").note,
                     "the wall is thinner than the rule was made for");
    follow_working(&thin, "wall crush", "A", "tightening");
    beam_free(&thin);
}
END_TEST

/* Three quarters of proof: 0.75 * 580 * 20.1 = 8744 N, a quarter more 10929 N; area to 0.05. */
START_TEST(without_a_torque_that_of_the_table_is_taken)
{
    trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    bolts.torque = (double)NAN;
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    const trivet_check check = beam_find(&of, "wall crush", "A", "tightening");
    near_scaled(check.demand, 0.75 * 580.0 * 20.1 * 1.25, 1.0, 0.75 * 580.0 * 0.05 * 1.25);
    ck_assert_str_eq(check.note, "no torque is given: that of the table for its grade is taken");
    follow_working(&of, "wall crush", "A", "tightening");
    beam_free(&of);
}
END_TEST

/* AISC 360 J7: 1.8 * 235 * (2 * 6 * 2) / 2.00 = 5076 N; 3000 and 4000 N across make 5000 N. */
START_TEST(walls_bear_a_bolt_that_is_pushed_sideways)
{
    const trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 3000.0, 4000.0);
    const trivet_check check = beam_find(&of, "wall bearing", "A", "push");
    near_relative(check.demand, 5000.0, 1e-10);
    near_relative(check.limit, 5076.0, 1e-12);
    ck_assert_int_eq(check.verdict, TRIVET_TIGHT);
    follow_working(&of, "wall bearing", "A", "push");
    beam_free(&of);
}
END_TEST

/* Two bolts 40 mm apart on x carry half of 600 N each; 24 N m about z at 40 mm add 600 N along y.
 */
START_TEST(the_worst_bolt_of_a_pattern_counts)
{
    trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    bolts.count = 2;
    bolts.pattern[0][0] = -0.02;
    bolts.pattern[1][0] = 0.02;
    beam of = beam_cantilever(square_tube(0.02, 0.002), 235e6, 0.1, 1.0);
    beam_force(&of, 0, 1, 600.0, 0.0, 0.0);
    beam_moment(&of, 0, 1, 0.0, 0.0, 24.0);
    ck_assert_int_eq(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL), TRIVET_OK);
    beam_check(&of);
    near_relative(beam_find(&of, "wall bearing", "A", "push").demand,
                  sqrt(300.0 * 300.0 + 360000.0), 1e-10);
    beam_free(&of);
}
END_TEST

/* ISO 10642: the head of M6 is 3.72 mm high at most, (13.44 - 6) / 2; at 0.75 t in 2, 4 and 5 mm.
 */
START_TEST(a_countersink_may_sink_into_three_quarters)
{
    trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    beam wall = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    const trivet_check in_wall = beam_find(&wall, "countersink", "A", "any case");
    near_relative(in_wall.demand, 3.72e-3, 1e-12);
    near_relative(in_wall.limit, 1.5e-3, 1e-12);
    ck_assert_int_eq(in_wall.verdict, TRIVET_FAILS);
    char text[512];
    working_sentence(&wall, "countersink", "A", "any case", text);
    ck_assert_str_eq(text, "screw head of mount A sinks in by 3.72 of 1.5 mm in any case (used 248 "
                           "%); a thicker plate, or a screw whose head lies on top, helps");
    follow_working(&wall, "countersink", "A", "any case");
    beam_free(&wall);
    bolts.plate = 0.004;
    beam thin = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    near_relative(beam_find(&thin, "countersink", "A", "any case").limit, 3e-3, 1e-12);
    ck_assert_int_eq(beam_find(&thin, "countersink", "A", "any case").verdict, TRIVET_FAILS);
    beam_free(&thin);
    bolts.plate = 0.005;
    beam thick = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    ck_assert_int_eq(beam_find(&thick, "countersink", "A", "any case").verdict, TRIVET_TIGHT);
    follow_working(&thick, "countersink", "A", "any case");
    beam_free(&thick);
}
END_TEST

/* ASME B18.3, 1/4 in: head 0.531 in, 82 degrees; the table has 0.161 in as its height. */
START_TEST(an_inch_head_has_the_steeper_cone)
{
    trivet_bolts bolts = mount_bolts();
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    bolts.plate = 0.25 * 0.0254;
    strcpy(bolts.thread, "1/4-20 UNC");
    strcpy(bolts.grade, "grade 5");
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    near_scaled(beam_find(&of, "countersink", "A", "any case").demand, 0.161 * 0.0254, 1.0,
                0.001 * 0.0254);
    beam_free(&of);
}
END_TEST

START_TEST(a_hole_stands_two_diameters_from_the_edge)
{
    trivet_bolts bolts = mount_bolts();
    bolts.edge = 0.01;
    beam near = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    const trivet_check check = beam_find(&near, "hole edge", "A", "any case");
    near_relative(check.demand, 0.012, 1e-12);
    near_relative(check.limit, 0.010, 1e-12);
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    follow_working(&near, "hole edge", "A", "any case");
    beam_free(&near);
    bolts.edge = 0.03;
    bolts.side = 0.015;
    beam far = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    near_relative(beam_find(&far, "hole edge", "A", "any case").utilisation, 0.8, 1e-12);
    ck_assert_int_eq(beam_find(&far, "hole edge", "A", "any case").verdict, TRIVET_HOLDS);
    beam_free(&far);
}
END_TEST

START_TEST(what_is_not_said_is_listed)
{
    trivet_bolts bolts = mount_bolts();
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    beam of = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    ck_assert_str_eq(beam_omission(&of, "countersink of mount A"),
                     "the thickness of the plate or wall is not given");
    ck_assert_int_eq(count_checks(&of, "countersink"), 0);
    ck_assert_int_eq(count_checks(&of, "wall crush"), 0);
    beam_free(&of);
    bolts.plate = 0.005;
    beam plate = bolted(square_tube(0.02, 0.002), &bolts, 0.0, 0.0);
    ck_assert_str_eq(beam_omission(&plate, "hole edge of mount A"),
                     "the distance from hole to edge is not given");
    beam_free(&plate);
}
END_TEST

START_TEST(a_wall_of_unknown_yield_is_listed)
{
    const trivet_bolts bolts = clamping_bolts(TRIVET_CLAMPED_HOLLOW);
    beam of = beam_cantilever(square_tube(0.02, 0.002), 0.0, 0.1, 1.0);
    ck_assert_int_eq(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL), TRIVET_OK);
    beam_check(&of);
    ck_assert_ptr_nonnull(beam_omission(&of, "wall under the bolt of mount A"));
    ck_assert_int_eq(count_checks(&of, "wall crush"), 0);
    ck_assert_int_eq(count_checks(&of, "wall bearing"), 0);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_crush",
        TESTS(without_a_sleeve_the_walls_are_crushed, a_sleeve_holds_what_the_walls_do_not,
              every_form_of_wall_has_a_working_that_can_be_followed,
              without_a_torque_that_of_the_table_is_taken,
              walls_bear_a_bolt_that_is_pushed_sideways, the_worst_bolt_of_a_pattern_counts,
              a_countersink_may_sink_into_three_quarters, an_inch_head_has_the_steeper_cone,
              a_hole_stands_two_diameters_from_the_edge, what_is_not_said_is_listed,
              a_wall_of_unknown_yield_is_listed));
}
