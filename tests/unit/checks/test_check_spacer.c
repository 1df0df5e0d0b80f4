/*
 * Screws across spacers, statics by hand. M6, class 8.8: root 4.773 mm and stress area 20.1 mm^2
 * as ISO 724 and ISO 898-1 print them, yield 640 N/mm^2; clearance hole 6.6 mm (ISO 273).
 */
#include "beam.h"
#include "follow.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

/* Half a unit of the last digit of the root, three times in its cube, and of the area. */
#define ROOT_DIGITS (3.0 * 0.0005 / 4.773)
#define AREA_DIGITS (0.05 / 20.1)

/* A screw of the lid at M on a spacer 20 mm high. */
static trivet_bolts lid_screw(int32_t spacer)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.where_index = 0;
    bolts.joint = 1;
    bolts.spacer = spacer;
    bolts.spacer_height = 0.02;
    bolts.spacer_diameter = 0.014;
    bolts.torque = 10.0;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    return bolts;
}

/*
 * A stout beam A-M-B on two mounts, a lid on M with one set of screws and a bag on it that is
 * pushed by (x, y, z) N from above M in the case "push".
 */
static beam lidded(const trivet_bolts *bolts, double x, double y, double z, double above)
{
    beam of = beam_new();
    const double centre[3] = {0.1, 0.0, above};
    const double force[3] = {x, y, z};
    trivet_message message = {0};
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t M = must_add_joint(of.frame, "M", 0.1, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.2, 0.0, 0.0);
    const int32_t bar = beam_stock(&of, "bar", square_bar(0.04), beam_material(235e6, 0.0));
    beam_tube_of_three(&of, "rail", bar, A, M, B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, B, TRIVET_Y | TRIVET_Z);
    must(trivet_frame_add_deck(of.frame, "lid", &M, 1, NULL, &message), &message);
    must(trivet_frame_add_cargo(of.frame, "bag", centre, &M, 1, TRIVET_GRIP_SOFT, NULL, &message),
         &message);
    must(trivet_frame_add_bolts(of.frame, bolts, NULL, &message), &message);
    beam_case(&of, "push");
    must(trivet_frame_add_cargo_force(of.frame, 0, 0, force, NULL, NULL, &message), &message);
    beam_check(&of);
    return of;
}

/* V = 100 N on 20 mm: 2 N m, 32 * 2000 / (pi * 4.773^3) = 187.3 N/mm^2; 50 N of pull, 2.5 more. */
START_TEST(under_plastic_the_screw_bends_alone)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_PLASTIC);
    beam of = lidded(&bolts, 60.0, 80.0, 50.0, 0.0);
    const trivet_check check = beam_find(&of, "screw bending", "lid", "push");
    const double bending = 32.0 * 2.0 / (PI * pow(4.773e-3, 3.0));
    const double pull = 50.0 / 20.1e-6;
    near_scaled(check.demand, bending + pull, 1.0, ROOT_DIGITS * bending + AREA_DIGITS * pull);
    near_relative(check.limit, 640e6 / 1.5, 1e-12);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    ck_assert_int_eq(check.joint, 1);
    ck_assert_str_eq(check.note,
                     "a plastic spacer creeps and keeps no preload: the screw alone is counted");
    ck_assert_str_eq(beam_omission(&of, "spacer crushed at lid at M"),
                     "the strength of a plastic spacer is not known");
    follow_working(&of, "screw bending", "lid", "push");
    beam_free(&of);
}
END_TEST

/* 300 N: 6 N m, 562 of 427 N/mm^2. The bar and the screw's own pull and shear have room to spare.
 */
START_TEST(a_plastic_spacer_in_side_load_is_named_first)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_PLASTIC);
    beam of = lidded(&bolts, 0.0, 300.0, 0.0, 0.0);
    char text[512];
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_OVERLOAD, NULL), TRIVET_FAILS);
    trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, text, sizeof text);
    ck_assert_str_eq(text,
                     "screw of lid at M is bent with 562 of 427 N/mm^2 in push (used 132 %); a "
                     "metal spacer under a screw tightened to a torque, a lower spacer or a "
                     "thicker screw helps; a plastic spacer creeps and keeps no preload: the screw "
                     "alone is counted");
    beam_free(&of);
}
END_TEST

/* A push goes through the spacer: only the 2 N m are left. */
START_TEST(a_push_does_not_pull_at_the_screw)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_PLASTIC);
    beam of = lidded(&bolts, 100.0, 0.0, -5000.0, 0.0);
    near_relative(beam_find(&of, "screw bending", "lid", "push").demand,
                  32.0 * 2.0 / (PI * pow(4.773e-3, 3.0)), ROOT_DIGITS);
    beam_free(&of);
}
END_TEST

/*
 * Least preload 0.75 * 10 / (0.2 * 0.006) = 6250 N, less 1.5 * 200 N; ring 14 x 6.6 mm: kern
 * (196 + 43.56) / 112 = 2.139 mm. 1.5 * 100 N * 20 mm = 3 N m of 5950 N * 2.139 mm = 12.73 N m.
 */
START_TEST(a_tight_metal_spacer_stands_flat)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_METAL);
    beam of = lidded(&bolts, 60.0, 80.0, 200.0, 0.0);
    const trivet_check check = beam_find(&of, "spacer tilt", "lid", "push");
    near_relative(check.demand, 3.0, 1e-9);
    near_relative(check.limit, 5950.0 * 239.56 / 112.0 * 1e-3, 1e-9);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    follow_working(&of, "spacer tilt", "lid", "push");
    char text[512];
    working_sentence(&of, "spacer tilt", "lid", "push", text);
    ck_assert_str_eq(text, "spacer of lid at M is tilted with 3 of 12.7 N*m in push (used 24 %)");
    beam_free(&of);
}
END_TEST

/* 1.5 * 5000 N is more than 6250 N: nothing presses the ring any more. */
START_TEST(a_spacer_pulled_open_fails)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_METAL);
    beam of = lidded(&bolts, 100.0, 0.0, 5000.0, 0.0);
    const trivet_check check = beam_find(&of, "spacer tilt", "lid", "push");
    ck_assert(check.limit == 0.0);
    ck_assert(isinf(check.utilisation));
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    beam_free(&of);
}
END_TEST

START_TEST(metal_without_torque_or_ring_counts_the_screw_alone)
{
    trivet_bolts bolts = lid_screw(TRIVET_SPACER_METAL);
    bolts.torque = (double)NAN;
    beam loose = lidded(&bolts, 100.0, 0.0, 0.0, 0.0);
    const trivet_check check = beam_find(&loose, "screw bending", "lid", "push");
    ck_assert_str_eq(check.note, "no torque is given, so no preload: the screw alone is counted");
    near_relative(check.demand, 32.0 * 2.0 / (PI * pow(4.773e-3, 3.0)), ROOT_DIGITS);
    ck_assert_str_eq(beam_omission(&loose, "spacer crushed at lid at M"),
                     "the metal of the spacer is not known");
    beam_free(&loose);
    bolts.torque = 10.0;
    bolts.spacer_diameter = (double)NAN;
    beam ringless = lidded(&bolts, 100.0, 0.0, 0.0, 0.0);
    ck_assert_str_eq(beam_find(&ringless, "screw bending", "lid", "push").note,
                     "no spacer wider than its hole is given: the screw alone is counted");
    beam_free(&ringless);
}
END_TEST

/* 100 N pushed 50 mm above M turn a single screw by 5 N m more. */
START_TEST(a_moment_that_the_pattern_cannot_take_bends_as_well)
{
    const trivet_bolts bolts = lid_screw(TRIVET_SPACER_PLASTIC);
    beam of = lidded(&bolts, 100.0, 0.0, 0.0, 0.05);
    near_relative(working_value(&of, "screw bending", "lid", "push", "M"), 2.0 + 5.0, 1e-9);
    beam_free(&of);
}
END_TEST

/*
 * Two screws 40 mm apart along x: 20 N m about y pull one by 500 N and push the other; the one that
 * is pulled is the worst. 100 N across make 50 N each.
 */
START_TEST(the_worst_screw_of_a_pattern_counts)
{
    trivet_bolts bolts = lid_screw(TRIVET_SPACER_PLASTIC);
    bolts.count = 2;
    bolts.pattern[0][0] = -0.02;
    bolts.pattern[1][0] = 0.02;
    beam of = lidded(&bolts, 100.0, 0.0, 0.0, 0.2);
    near_relative(working_value(&of, "screw bending", "lid", "push", "N"), 500.0, 1e-9);
    near_relative(working_value(&of, "screw bending", "lid", "push", "M"), 1.0, 1e-9);
    follow_working(&of, "screw bending", "lid", "push");
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_spacer",
        TESTS(under_plastic_the_screw_bends_alone, a_plastic_spacer_in_side_load_is_named_first,
              a_push_does_not_pull_at_the_screw, a_tight_metal_spacer_stands_flat,
              a_spacer_pulled_open_fails, metal_without_torque_or_ring_counts_the_screw_alone,
              a_moment_that_the_pattern_cannot_take_bends_as_well,
              the_worst_screw_of_a_pattern_counts));
}
