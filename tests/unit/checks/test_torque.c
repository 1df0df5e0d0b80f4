/*
 * The torque card: T = K F d by hand, with stress areas as ISO 898-1 prints them (M6 20.1 mm^2, M8
 * 36.6 mm^2) and the printed area of M6's thread in a hole, 73.145 mm^2 over 6 mm.
 */
#include "beam.h"
#include "follow.h"

#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Half a unit of the last printed digit of the stress areas, and of rounded limits of size. */
#define AREA_M6 (0.05 / 20.1)
#define AREA_M8 (0.05 / 36.6)
#define ROUNDED 2e-3

enum { TUBE = 0 };

static beam post(void)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.0, 0.0, 0.5);
    trivet_material steel = beam_material(235e6, 0.0);
    steel.tensile = 340e6;
    beam_stock(&of, "tube", square_tube(0.03, 2.108e-3), steel);
    beam_tube(&of, "post", TUBE, A, B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "lift"), B, 0.0, 0.0, 200.0);
    return of;
}

static trivet_bolts screw(const char *thread, int32_t into)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    strcpy(bolts.thread, thread);
    strcpy(bolts.grade, "8.8");
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.into = into;
    bolts.into_stock = into == TRIVET_INTO_WALL ? TUBE : -1;
    return bolts;
}

/* The card of the only set in a frame of its own. */
static trivet_torque card_of(const trivet_bolts *bolts)
{
    beam of = post();
    trivet_torque card;
    trivet_message message = {0};
    must(trivet_frame_add_bolts(of.frame, bolts, NULL, &message), &message);
    ck_assert_int_eq(trivet_torque_defaults(&card, sizeof card), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_torque(of.frame, 0, &card), TRIVET_OK);
    ck_assert_uint_eq(card.size, sizeof card);
    beam_free(&of);
    return card;
}

START_TEST(a_screw_in_a_nut_takes_the_table)
{
    const trivet_bolts bolts = screw("M8", TRIVET_INTO_NUT);
    const trivet_torque card = card_of(&bolts);
    const double preload = 0.75 * 580.0 * 36.6;
    near_relative(card.table, 0.2 * preload * 0.008, AREA_M8);
    ck_assert(card.allowed == card.table);
    ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_SCREW);
    ck_assert(isnan(card.said));
    near_relative(card.preload, preload, AREA_M8);
    near_relative(card.least, 0.75 * preload, AREA_M8);
    near_relative(card.most, 1.25 * preload, AREA_M8);
}
END_TEST

/* 0.6 x 340 MPa x 73.145 mm^2 x 2.108 / 6 over 1.25, reached at the upper end of the scatter. */
START_TEST(a_thread_in_a_bare_wall_takes_less)
{
    trivet_bolts bolts = screw("M6", TRIVET_INTO_WALL);
    const double force = 204.0 * 73.145 * 2.108 / 6.0 / 1.25;
    trivet_torque card = card_of(&bolts);
    ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_HOLE_THREAD);
    near_relative(card.table, 0.2 * 0.75 * 580.0 * 20.1 * 0.006, AREA_M6);
    near_relative(card.allowed, 0.2 * force * 0.006 / 1.25, ROUNDED);
    near_relative(card.most, force, ROUNDED);
    bolts.scatter = 0.0;
    bolts.nut_factor = 0.15;
    card = card_of(&bolts);
    near_relative(card.allowed, 0.15 * force * 0.006, ROUNDED);
    ck_assert(card.least == card.most);
}
END_TEST

START_TEST(a_countersunk_screw_takes_four_fifths)
{
    trivet_bolts bolts = screw("M6", TRIVET_INTO_NUT);
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    const trivet_torque card = card_of(&bolts);
    near_relative(card.table, 0.2 * 0.75 * 580.0 * 20.1 * 0.006, AREA_M6);
    near_relative(card.allowed, 0.8 * card.table, 1e-14);
    ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_SCREW);
}
END_TEST

/* What the user says of the nut; without its torque what its pull allows: 1500 / 1.25 / 1.25 N. */
START_TEST(a_rivet_nut_takes_what_the_user_says)
{
    trivet_bolts bolts = screw("M6", TRIVET_INTO_RATED);
    bolts.rated_pull = 1500.0;
    bolts.rated_torque = 4.0;
    trivet_torque card = card_of(&bolts);
    ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_RATED);
    near_relative(card.allowed, 4.0, 1e-15);
    bolts.rated_torque = (double)NAN;
    card = card_of(&bolts);
    ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_RATED);
    near_relative(card.allowed, 0.2 * 960.0 * 0.006, 1e-14);
    bolts.rated_torque = 400.0;
    ck_assert_int_eq(card_of(&bolts).weakest, TRIVET_WEAKEST_SCREW);
}
END_TEST

START_TEST(the_torque_said_makes_the_preload)
{
    trivet_bolts bolts = screw("M8", TRIVET_INTO_NUT);
    bolts.torque = 16.0;
    trivet_torque card = card_of(&bolts);
    near_relative(card.said, 16.0, 1e-15);
    near_relative(card.preload, 10000.0, 1e-14);
    near_relative(card.least, 7500.0, 1e-14);
    near_relative(card.most, 12500.0, 1e-14);
    bolts.spacer = TRIVET_SPACER_METAL;
    bolts.spacer_height = 0.01;
    bolts.spacer_diameter = 0.016;
    near_relative(card_of(&bolts).least, 7500.0, 1e-14);
    bolts.spacer = TRIVET_SPACER_PLASTIC;
    card = card_of(&bolts);
    ck_assert(card.least == 0.0);
    near_relative(card.most, 12500.0, 1e-14);
}
END_TEST

/* A hollow tube under the bolt gives long before the bolt; a sleeve in it makes good for that. */
START_TEST(a_hollow_tube_takes_less_than_one_with_a_sleeve)
{
    trivet_bolts bolts = screw("M8", TRIVET_INTO_NUT);
    bolts.clamped = TRIVET_CLAMPED_HOLLOW;
    bolts.clamped_stock = TUBE;
    const trivet_torque hollow = card_of(&bolts);
    ck_assert_int_eq(hollow.weakest, TRIVET_WEAKEST_WALL);
    ck_assert(hollow.allowed < 0.8 * hollow.table);
    bolts.clamped = TRIVET_CLAMPED_SLEEVE;
    bolts.sleeve_diameter = 0.014;
    bolts.sleeve_wall = 0.0025;
    bolts.sleeve_yield = 100e6;
    const trivet_torque sleeve = card_of(&bolts);
    /* pi x 11.5 x 2.5 mm^2 x 100 MPa = 9032 N is less than the bolt's 15.9 kN. */
    ck_assert_int_eq(sleeve.weakest, TRIVET_WEAKEST_SLEEVE);
    near_relative(sleeve.allowed, 0.2 * 9032.08 / 1.25 * 0.008 / 1.25, 1e-6);
}
END_TEST

START_TEST(a_torque_over_what_is_allowed_names_the_weakest_part)
{
    beam of = post();
    trivet_bolts bolts = screw("M6", TRIVET_INTO_WALL);
    bolts.torque = 9.0;
    ck_assert_int_eq(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL), TRIVET_OK);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "torque", "A", "tightening");
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    ck_assert_int_eq(check.dimension, TRIVET_MOMENT);
    ck_assert_int_eq(check.case_index, -1);
    near_relative(check.demand, 9.0, 1e-15);
    near_relative(check.limit, 0.2 * 204.0 * 73.145 * 2.108 / 7.5 * 0.006 / 1.25, ROUNDED);
    follow_working(&of, "torque", "A", "tightening");
    char text[512];
    /* With the area from the printed limits of size, 73.115 mm^2: 4.024 N m. */
    working_sentence(&of, "torque", "A", "tightening", text);
    ck_assert_str_eq(text,
                     "screw of mount A is tightened with 9 of 4.02 N*m in tightening (used 224 %); "
                     "the thread in the hole gives first: tighten it less, or make the thread "
                     "longer or use a nut");
    beam_free(&of);
}
END_TEST

START_TEST(a_torque_the_screw_stands_holds)
{
    beam of = post();
    trivet_bolts bolts = screw("M6", TRIVET_INTO_NUT);
    bolts.torque = 8.0;
    ck_assert_int_eq(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL), TRIVET_OK);
    beam_check(&of);
    near_relative(beam_find(&of, "torque", "A", "tightening").utilisation,
                  8.0 / (0.2 * 0.75 * 580.0 * 20.1 * 0.006), AREA_M6);
    follow_working(&of, "torque", "A", "tightening");
    ck_assert_ptr_null(beam_omission(&of, "torque of mount A"));
    beam_free(&of);
}
END_TEST

START_TEST(every_weakest_part_has_words_of_its_own)
{
    for (int32_t i = TRIVET_WEAKEST_SCREW; i <= TRIVET_WEAKEST_FIXING; i++) {
        for (int32_t k = TRIVET_WEAKEST_SCREW; k < i; k++) {
            ck_assert_str_ne(trivet_weakest_text(i), trivet_weakest_text(k));
        }
        ck_assert_str_ne(trivet_weakest_text(i), "not known");
    }
    ck_assert_str_eq(trivet_weakest_text(TRIVET_WEAKEST_HOLE_THREAD), "the thread in the hole");
    ck_assert_str_eq(trivet_weakest_text(-1), "not known");
    ck_assert_str_eq(trivet_weakest_text(TRIVET_WEAKEST_FIXING + 1), "not known");
}
END_TEST

START_TEST(bad_questions_get_a_status)
{
    beam of = post();
    const trivet_bolts bolts = screw("M6", TRIVET_INTO_NUT);
    trivet_torque card;
    defaults_take_own_size(trivet_torque, trivet_torque_defaults);
    ck_assert_int_eq(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_torque_defaults(&card, sizeof card), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_torque(NULL, 0, &card), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_torque(of.frame, 0, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_torque(of.frame, -1, &card), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_torque(of.frame, 1, &card), TRIVET_BAD_INDEX);
    card.size = 3;
    ck_assert_int_eq(trivet_frame_torque(of.frame, 0, &card), TRIVET_BAD_SIZE);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "torque",
        TESTS(a_screw_in_a_nut_takes_the_table, a_thread_in_a_bare_wall_takes_less,
              a_countersunk_screw_takes_four_fifths, a_rivet_nut_takes_what_the_user_says,
              the_torque_said_makes_the_preload, a_hollow_tube_takes_less_than_one_with_a_sleeve,
              a_torque_over_what_is_allowed_names_the_weakest_part, a_torque_the_screw_stands_holds,
              every_weakest_part_has_words_of_its_own, bad_questions_get_a_status));
}
