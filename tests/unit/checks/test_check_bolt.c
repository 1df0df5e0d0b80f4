/*
 * Bolts of a cantilever that reaches 0.5 m along x from its clamp A; the bolts stand along z, up is
 * away from the vehicle. M6 8.8: A_s = 20.123 mm^2 (pi/4 (d - 0.9382 P)^2), A_b = 28.274 mm^2,
 * 800 N/mm^2. Answers by hand; loads times 1.5 and gamma_M2 = 1.25 after EN.
 */
#include "beam.h"
#include "follow.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Of the stress area: the digits of 0.9382, and five digits of 20.123. */
#define AREA_DIGITS 1e-4

static trivet_bolts m6(int32_t mount)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = mount;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    return bolts;
}

static void place(trivet_bolts *bolts, const double (*places)[2], int32_t count)
{
    bolts->count = count;
    memcpy(bolts->pattern, places, (size_t)count * sizeof *places);
}

static trivet_bolts m6_square(void)
{
    static const double PLACES[4][2] = {{0.03, 0.02}, {0.03, -0.02}, {-0.03, 0.02}, {-0.03, -0.02}};
    trivet_bolts bolts = m6(0);
    place(&bolts, PLACES, 4);
    return bolts;
}

/* A plate of 3 mm, 360 N/mm^2, 12 mm to the edge, and 10 N m. */
static void say_everything(trivet_bolts *bolts)
{
    bolts->plate = 0.003;
    bolts->plate_tensile = 360e6;
    bolts->edge = 0.012;
    bolts->torque = 10.0;
}

/* Bolts at A, force (x, y, z) at the tip; bolts may be NULL. Rule is a trivet_bolt_rule. */
static beam bolted(const trivet_bolts *bolts, int32_t rule, double x, double y, double z)
{
    beam of = beam_cantilever(square_bar(0.04), 235e6, 0.5, 0.0);
    trivet_message message = {0};
    beam_force(&of, 0, 1, x, y, z);
    if (bolts) {
        must(trivet_frame_add_bolts(of.frame, bolts, NULL, &message), &message);
    }
    of.limits.bolt_rule = rule;
    beam_check(&of);
    return of;
}

static trivet_check found(const beam *of, const char *check)
{
    return beam_find(of, check, "A", "push");
}

static void must_not_find(const beam *of, const char *check)
{
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        ck_assert_int_eq(trivet_checks_at(of->checks, i, &at), TRIVET_OK);
        ck_assert_str_ne(at.check, check);
    }
}

static void must_say(const beam *of, const char *check, const char *words)
{
    char text[512];
    working_sentence(of, check, "A", "push", text);
    ck_assert_msg(strstr(text, words) != NULL, "\"%s\" is not in \"%s\"", words, text);
}

/* 1500 of 0.9 x 800 x 20.123 / 1.25 = 11 591 N. */
START_TEST(a_bolt_that_is_pulled)
{
    const trivet_bolts bolts = m6(0);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 1000.0);
    const trivet_check check = found(&of, "bolt");
    near_relative(check.demand, 1500.0, 1e-9);
    near_relative(check.limit, 0.9 * 800.0 * 20.123 / 1.25, AREA_DIGITS);
    ck_assert_int_eq(check.dimension, TRIVET_FORCE);
    ck_assert_int_eq(check.line, TRIVET_LINE_OVERLOAD);
    ck_assert_int_eq(check.where_kind, TRIVET_KIND_MOUNT);
    must_say(&of, "bolt", "bolt of mount A is pulled with 1500 of 11591 N in push (used 13 %)");
    follow_working(&of, "bolt", "A", "push");
    beam_free(&of);
}
END_TEST

/* Across, 500 N: 750 of 0.6 x 800 x 20.123 / 1.25; through the shank 28.274 mm^2. */
START_TEST(a_bolt_that_is_sheared)
{
    trivet_bolts bolts = m6(0);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 300.0, 400.0, -200.0);
    near_relative(found(&of, "bolt").demand, 750.0, 1e-9);
    near_relative(found(&of, "bolt").limit, 0.6 * 800.0 * 20.123 / 1.25, AREA_DIGITS);
    must_say(&of, "bolt", "is sheared with");
    follow_working(&of, "bolt", "A", "push");
    beam_free(&of);
    bolts.is_thread_clear = 1;
    beam clear = bolted(&bolts, TRIVET_BOLTS_EN, 300.0, 400.0, -200.0);
    near_relative(found(&clear, "bolt").limit, 0.6 * 800.0 * 9.0 * acos(-1.0) / 1.25, 1e-9);
    beam_free(&clear);
}
END_TEST

/* 4500 / 7727 + 1500 / (1.4 x 11 591) = 0.5824 + 0.0924. */
START_TEST(a_bolt_that_is_pulled_and_sheared)
{
    const trivet_bolts bolts = m6(0);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 3000.0, 0.0, 1000.0);
    const trivet_check check = found(&of, "bolt");
    const double shear = 4500.0 / (0.6 * 800.0 * 20.123 / 1.25);
    const double pull = 1500.0 / (0.9 * 800.0 * 20.123 / 1.25);
    near_relative(check.demand, shear + pull / 1.4, AREA_DIGITS);
    ck_assert(check.limit == 1.0);
    ck_assert_int_eq(check.dimension, TRIVET_NUMBER);
    must_say(&of, "bolt", "bolt of mount A is pulled and sheared up to 0.675 of 1 in push");
    follow_working(&of, "bolt", "A", "push");
    beam_free(&of);
    /* Little shear: the pull alone is more than the sum with 1 / 1.4. */
    beam little = bolted(&bolts, TRIVET_BOLTS_EN, 50.0, 0.0, 1000.0);
    near_relative(found(&little, "bolt").utilisation, pull, AREA_DIGITS);
    must_say(&little, "bolt", "is pulled with");
    beam_free(&little);
}
END_TEST

/* 300 N up at 0.5 m: 75 N each and 150 N m x 0.03 / (4 x 0.03^2) = 1250 N. */
START_TEST(a_pattern_shares_force_and_moment)
{
    const trivet_bolts bolts = m6_square();
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 300.0);
    near_relative(found(&of, "bolt").demand, 1.5 * 1325.0, 1e-9);
    near_relative(working_value(&of, "bolt", "A", "push", "S_xx"), 0.0036, 1e-9);
    follow_working(&of, "bolt", "A", "push");
    ck_assert_ptr_null(beam_omission(&of, "moment on the bolts of mount A"));
    beam_free(&of);
    /* 300 N sideways: 75 N and 150 N m about z: x 0.03, y 0.02 over sum 0.0052 m^2. */
    beam side = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 300.0, 0.0);
    const double x = 150.0 * 0.02 / 0.0052;
    const double y = 75.0 + 150.0 * 0.03 / 0.0052;
    near_relative(found(&side, "bolt").demand, 1.5 * sqrt(x * x + y * y), 1e-9);
    follow_working(&side, "bolt", "A", "push");
    beam_free(&side);
}
END_TEST

/* Ten times as much: 19 875 of 11 591 N fails, by the moment. */
START_TEST(bolts_too_near_to_each_other_are_told_apart)
{
    const trivet_bolts bolts = m6_square();
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 3000.0);
    ck_assert_int_eq(found(&of, "bolt").verdict, TRIVET_FAILS);
    must_say(&of, "bolt", "bolts further apart help most");
    beam_free(&of);
    const trivet_bolts one = m6(0);
    beam alone = bolted(&one, TRIVET_BOLTS_EN, 0.0, 0.0, 9000.0);
    must_say(&alone, "bolt", "a larger bolt, a better grade or one bolt more helps");
    beam_free(&alone);
}
END_TEST

/*
 * No factor on loads; Omega 2. Pull: the thread's own 800 x 20.123 lies below 0.75 x 800 x 28.274.
 * Shear: 0.45 x 800 x 28.274. Both: with V = 3000 N of 5089 N, 1.3 - 3000 / 5089 of the pull.
 */
START_TEST(aisc_takes_loads_as_they_are)
{
    const trivet_bolts bolts = m6(0);
    const double A_b = 9.0 * acos(-1.0);
    const double shear_limit = 0.45 * 800.0 * A_b / 2.0;
    const double pull_limit = 800.0 * 20.123 / 2.0;
    beam pulled = bolted(&bolts, TRIVET_BOLTS_AISC, 0.0, 0.0, 1000.0);
    near_relative(found(&pulled, "bolt").demand, 1000.0, 1e-9);
    near_relative(found(&pulled, "bolt").limit, pull_limit, AREA_DIGITS);
    follow_working(&pulled, "bolt", "A", "push");
    beam_free(&pulled);
    beam sheared = bolted(&bolts, TRIVET_BOLTS_AISC, 3000.0, 0.0, 0.0);
    near_relative(found(&sheared, "bolt").limit, shear_limit, 1e-9);
    follow_working(&sheared, "bolt", "A", "push");
    beam_free(&sheared);
    beam both = bolted(&bolts, TRIVET_BOLTS_AISC, 3000.0, 0.0, 5000.0);
    const double left = (1.3 - 3000.0 / shear_limit) * pull_limit;
    near_relative(found(&both, "bolt").demand, 5000.0, 1e-9);
    near_relative(found(&both, "bolt").limit, left, AREA_DIGITS);
    ck_assert_str_eq(found(&both, "bolt").source, "AISC 360-16 J3.7 (from memory)");
    follow_working(&both, "bolt", "A", "push");
    beam_free(&both);
    /* Shear that leaves nothing for the pull is over its own limit. */
    beam over = bolted(&bolts, TRIVET_BOLTS_AISC, 7000.0, 0.0, 10.0);
    near_relative(found(&over, "bolt").utilisation, 7000.0 / shear_limit, 1e-9);
    follow_working(&over, "bolt", "A", "push");
    beam_free(&over);
}
END_TEST

/* e_1 = 12 mm, d_0 = 6.6 mm: alpha_b = 0.606, k_1 = 2.5: 7855 N; AISC: l_c = 8.7 mm, 1.2 l_c < 2.4
 * d. */
START_TEST(holes_bear)
{
    trivet_bolts bolts = m6(0);
    say_everything(&bolts);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 0.0);
    near_relative(found(&of, "bolt bearing").demand, 600.0, 1e-9);
    near_relative(found(&of, "bolt bearing").limit, 2.5 * (12.0 / 19.8) * 360.0 * 6.0 * 3.0 / 1.25,
                  1e-9);
    must_say(&of, "bolt bearing", "bolt hole of mount A is pressed with 600 of 7855 N");
    follow_working(&of, "bolt bearing", "A", "push");
    must_not_find(&of, "bolt head");
    must_not_find(&of, "bolt gap");
    beam_free(&of);
    beam aisc = bolted(&bolts, TRIVET_BOLTS_AISC, 400.0, 0.0, 0.0);
    near_relative(found(&aisc, "bolt bearing").limit, 1.2 * 8.7 * 3.0 * 360.0 / 2.0, 1e-9);
    follow_working(&aisc, "bolt bearing", "A", "push");
    beam_free(&aisc);
    bolts.edge = 0.007;
    beam near = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 0.0);
    ck_assert(strstr(found(&near, "bolt bearing").note, "nearer to the edge") != NULL);
    beam_free(&near);
}
END_TEST

/* The two that are nearest: 20 mm. alpha_b = min(0.606, 20 / 19.8 - 1/4), k_1 = 1.4 x 20/6.6 - 1.7.
 */
START_TEST(holes_near_each_other_bear_less)
{
    static const double PLACES[2][2] = {{0.0, 0.008}, {0.0, -0.008}};
    trivet_bolts bolts = m6(0);
    place(&bolts, PLACES, 2);
    say_everything(&bolts);
    bolts.edge = 0.02;
    const double alpha = 16.0 / 19.8 - 0.25;
    const double k_1 = 1.4 * 16.0 / 6.6 - 1.7;
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 0.0);
    near_relative(found(&of, "bolt bearing").demand, 300.0, 1e-9);
    near_relative(found(&of, "bolt bearing").limit, k_1 * alpha * 360.0 * 6.0 * 3.0 / 1.25, 1e-9);
    follow_working(&of, "bolt bearing", "A", "push");
    beam_free(&of);
    beam aisc = bolted(&bolts, TRIVET_BOLTS_AISC, 400.0, 0.0, 0.0);
    near_relative(found(&aisc, "bolt bearing").limit, 1.2 * 9.4 * 3.0 * 360.0 / 2.0, 1e-9);
    follow_working(&aisc, "bolt bearing", "A", "push");
    beam_free(&aisc);
}
END_TEST

/* 10 N m / (0.2 x 6 mm) = 8333 N, three quarters of it 6250 N; 0.2 x (6250 - 1000) = 1050 N. */
START_TEST(preload_keeps_faces_from_slipping_and_parting)
{
    trivet_bolts bolts = m6(0);
    say_everything(&bolts);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 1000.0);
    near_relative(found(&of, "bolt slip").demand, 400.0, 1e-9);
    near_relative(found(&of, "bolt slip").limit, 1050.0, 1e-9);
    near_relative(found(&of, "bolt gap").demand, 1000.0, 1e-9);
    near_relative(found(&of, "bolt gap").limit, 6250.0, 1e-9);
    ck_assert_int_eq(found(&of, "bolt slip").line, TRIVET_LINE_SERVICE);
    ck_assert_int_eq(found(&of, "bolt gap").line, TRIVET_LINE_SERVICE);
    /* The head, 10 mm over flats, counts 10.3 mm: 0.6 pi x 10.3 x 3 x 360 / 1.25. */
    near_relative(found(&of, "bolt head").limit, 0.6 * acos(-1.0) * 10.3 * 3.0 * 360.0 / 1.25,
                  1e-9);
    follow_working(&of, "bolt slip", "A", "push");
    follow_working(&of, "bolt gap", "A", "push");
    follow_working(&of, "bolt head", "A", "push");
    beam_free(&of);
    beam pushed = bolted(&bolts, TRIVET_BOLTS_AISC, 400.0, 0.0, -1000.0);
    near_relative(found(&pushed, "bolt slip").limit, 1250.0, 1e-9);
    follow_working(&pushed, "bolt slip", "A", "push");
    beam_free(&pushed);
    /* Pulled more than the preload: no friction is left. */
    beam open = bolted(&bolts, TRIVET_BOLTS_AISC, 400.0, 0.0, 7000.0);
    ck_assert(found(&open, "bolt slip").limit == 0.0);
    ck_assert(isinf(found(&open, "bolt slip").utilisation));
    ck_assert_int_eq(found(&open, "bolt gap").verdict, TRIVET_FAILS);
    follow_working(&open, "bolt head", "A", "push");
    beam_free(&open);
}
END_TEST

/* 3.72 mm deep: a plate of 1.5 mm has nothing left, one of 3 mm has 1.14 mm. */
START_TEST(a_countersink_takes_from_the_plate)
{
    trivet_bolts bolts = m6(0);
    say_everything(&bolts);
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 1000.0);
    near_relative(working_value(&of, "bolt head", "A", "push", "t"), 0.00114, 1e-9);
    near_relative(working_value(&of, "bolt bearing", "A", "push", "t"), 0.00114, 1e-9);
    const double shear = 600.0 / (0.6 * 800.0 * 20.123 / 1.25);
    const double pull = 1500.0 / (0.63 * 800.0 * 20.123 / 1.25);
    near_relative(found(&of, "bolt").utilisation, shear + pull / 1.4, AREA_DIGITS);
    follow_working(&of, "bolt", "A", "push");
    follow_working(&of, "bolt head", "A", "push");
    follow_working(&of, "bolt bearing", "A", "push");
    beam_free(&of);
    bolts.plate = 0.0015;
    beam thin = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 1000.0);
    ck_assert(isinf(found(&thin, "bolt head").utilisation));
    ck_assert(isinf(found(&thin, "bolt bearing").utilisation));
    ck_assert_int_eq(found(&thin, "bolt head").verdict, TRIVET_FAILS);
    beam_free(&thin);
}
END_TEST

/* Along y, the moment of the tip's weight turns about the row's own line. */
START_TEST(moments_that_nothing_takes_are_listed)
{
    static const double ALONG_Y[2][2] = {{0.0, 0.03}, {0.0, -0.03}};
    static const double ALONG_X[2][2] = {{0.03, 0.0}, {-0.03, 0.0}};
    trivet_bolts bolts = m6(0);
    beam one = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 300.0);
    ck_assert_ptr_nonnull(
        strstr(beam_omission(&one, "moment on the bolts of mount A"), "one bolt"));
    beam_free(&one);
    place(&bolts, ALONG_Y, 2);
    beam across = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 300.0);
    ck_assert_ptr_nonnull(
        strstr(beam_omission(&across, "moment on the bolts of mount A"), "in a row"));
    near_relative(found(&across, "bolt").demand, 1.5 * 150.0, 1e-9);
    beam_free(&across);
    place(&bolts, ALONG_X, 2);
    beam along = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 300.0);
    ck_assert_ptr_null(beam_omission(&along, "moment on the bolts of mount A"));
    /* 150 N and 150 N m over 60 mm. */
    near_relative(found(&along, "bolt").demand, 1.5 * 2650.0, 1e-9);
    follow_working(&along, "bolt", "A", "push");
    beam_free(&along);
}
END_TEST

/* Three bolts in a triangle that leans: the pattern's own axes are not x and y. */
START_TEST(a_skew_pattern_shows_its_working)
{
    static const double PLACES[3][2] = {{0.0, 0.0}, {0.1, 0.0}, {0.0, 0.1}};
    trivet_bolts bolts = m6(0);
    place(&bolts, PLACES, 3);
    say_everything(&bolts);
    /* 60 N up at x = 0.5: f2 0.1 = 30 N m, f3 = 0, f1 = 60 - f2: bolt 2 has 300 N. */
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 20.0, 30.0, 60.0);
    near_relative(found(&of, "bolt gap").demand, 300.0, 1e-9);
    follow_working(&of, "bolt", "A", "push");
    follow_working(&of, "bolt bearing", "A", "push");
    follow_working(&of, "bolt slip", "A", "push");
    follow_working(&of, "bolt gap", "A", "push");
    follow_working(&of, "bolt head", "A", "push");
    beam_free(&of);
}
END_TEST

/* The end of the tube at A is bolted to what stands there: the same force, in the tube's axes. */
START_TEST(bolts_at_an_end_of_a_tube_are_named_by_it)
{
    trivet_bolts bolts = m6(0);
    bolts.where_kind = TRIVET_KIND_TUBE;
    bolts.joint = 0;
    bolts.torque = 10.0;
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 0.0, 0.0, 1000.0);
    char text[512];
    near_relative(beam_find(&of, "bolt", "rail", "push").demand, 1500.0, 1e-9);
    near_relative(beam_find(&of, "bolt gap", "rail", "push").demand, 1000.0, 1e-9);
    working_sentence(&of, "bolt", "rail", "push", text);
    ck_assert_ptr_nonnull(strstr(text, "bolt of rail at A is pulled with"));
    ck_assert_ptr_nonnull(beam_omission(&of, "plate at the bolts of rail at A"));
    ck_assert_str_eq(beam_omission(&of, "bolts of mount A"), "no bolts are given");
    beam_free(&of);
}
END_TEST

START_TEST(what_is_not_said_is_listed)
{
    trivet_bolts bolts = m6(0);
    beam of = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, 1000.0);
    ck_assert_ptr_nonnull(strstr(beam_omission(&of, "plate at the bolts of mount A"), "no plate"));
    ck_assert_ptr_nonnull(
        strstr(beam_omission(&of, "slip and gap at the bolts of mount A"), "torque"));
    ck_assert_ptr_nonnull(beam_omission(&of, "prying on bolts"));
    must_not_find(&of, "bolt bearing");
    must_not_find(&of, "bolt slip");
    beam_free(&of);
    say_everything(&bolts);
    bolts.edge = (double)NAN;
    bolts.spacer = TRIVET_SPACER_PLASTIC;
    bolts.spacer_height = 0.01;
    bolts.spacer_diameter = 0.012;
    beam plastic = bolted(&bolts, TRIVET_BOLTS_EN, 400.0, 0.0, -1000.0);
    ck_assert_ptr_nonnull(
        strstr(beam_omission(&plastic, "slip and gap at the bolts of mount A"), "plastic"));
    ck_assert_ptr_nonnull(
        strstr(beam_omission(&plastic, "holes for the bolts of mount A"), "edge"));
    ck_assert_ptr_null(beam_omission(&plastic, "prying on bolts"));
    must_not_find(&plastic, "bolt slip");
    must_not_find(&plastic, "bolt bearing");
    beam_free(&plastic);
}
END_TEST

START_TEST(mounts_without_bolts_are_listed)
{
    beam none = bolted(NULL, TRIVET_BOLTS_EN, 0.0, 0.0, -300.0);
    ck_assert_ptr_nonnull(beam_omission(&none, "bolts"));
    must_not_find(&none, "bolt");
    beam_free(&none);
    beam of = beam_on_two_mounts(square_bar(0.03), 235e6, 0.5);
    const trivet_bolts bolts = m6(0);
    trivet_message message = {0};
    beam_line(&of, beam_case(&of, "weight"), 0, 800.0);
    beam_force(&of, beam_case(&of, "lift"), 1, 0.0, 0.0, 90.0);
    must(trivet_frame_add_bolts(of.frame, &bolts, NULL, &message), &message);
    beam_check(&of);
    ck_assert_str_eq(beam_omission(&of, "bolts of mount B"), "no bolts are given");
    ck_assert_ptr_null(beam_omission(&of, "bolts of mount A"));
    ck_assert_ptr_null(beam_omission(&of, "bolts"));
    /* A mount that lets the tube turn hands on no moment, and pushes only. */
    ck_assert_ptr_null(beam_omission(&of, "moment on the bolts of mount A"));
    ck_assert_ptr_null(beam_omission(&of, "prying on bolts"));
    near_scaled(beam_find(&of, "bolt", "A", "weight").demand, 0.0, 1e-9, 300.0);
    near_scaled(beam_find(&of, "bolt", "A", "lift").demand, 0.0, 1e-9, 90.0);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_bolt",
        TESTS(a_bolt_that_is_pulled, a_bolt_that_is_sheared, a_bolt_that_is_pulled_and_sheared,
              a_pattern_shares_force_and_moment, bolts_too_near_to_each_other_are_told_apart,
              aisc_takes_loads_as_they_are, holes_bear, holes_near_each_other_bear_less,
              preload_keeps_faces_from_slipping_and_parting, a_countersink_takes_from_the_plate,
              moments_that_nothing_takes_are_listed, a_skew_pattern_shows_its_working,
              bolts_at_an_end_of_a_tube_are_named_by_it, what_is_not_said_is_listed,
              mounts_without_bolts_are_listed));
}
