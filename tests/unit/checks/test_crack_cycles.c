/*
 * What comes and goes, by hand: ranges, our own bumps, damage that adds up, shear beside bending;
 * and the working of it all.
 */
#include "crack_beam.h"
#include "formula.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

START_TEST(a_range_goes_from_one_state_to_the_other)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.5, 20.0);
    trivet_cycles cycles;
    beam_force(&of, beam_case(&of, "lift"), 1, 0.0, 0.0, 8.0);
    DO(trivet_cycles_defaults(&cycles, sizeof cycles));
    cycles.from = 0;
    cycles.to = 1;
    cycles.from_factor = 0.5;
    cycles.to_factor = 2.5;
    cycles.count = 2e6;
    DO(trivet_frame_add_cycles(of.frame, "bumps", &cycles, NULL, NULL));
    beam_check(&of);
    /* From 10 N down to 20 N up: 30 N, half as much again as 20 N. */
    near_relative(crack_at(&of, "rail", "A").demand, 1.5 * 7.5e6, ROUNDING);
    near_relative(crack_at(&of, "rail", "A").limit, 36e6 / 1.35, 1e-12);
    beam_free(&of);
}
END_TEST

/* A cantilever with 2 kg at its tip, no force. */
static beam weighted(double down, double second)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.5, 0.0, 0.0);
    const double centre[3] = {0.5, 0.0, 0.0};
    int32_t box = -1;
    beam_tube(&of, "rail", beam_stock(&of, "bar", square_bar(0.02), beam_material(235e6, 0.0)), A,
              B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    DO(trivet_frame_add_cargo(of.frame, "box", centre, &B, 1, TRIVET_GRIP_SOFT, &box, NULL));
    DO(trivet_frame_add_item(of.frame, box, "box", 2.0, NULL));
    must_add_case(of.frame, "first", down);
    if (second > 0.0) {
        must_add_case(of.frame, "second", second);
    }
    return of;
}

/* From nothing to twice 2 kg: 2 * 2 * 9.80665 N at 0.5 m; the bar itself weighs 4e-10 kg/m. */
START_TEST(without_cycles_bumps_of_one_g_are_taken_and_called_our_own)
{
    const double range = 4.0 * 9.80665 * 0.5 / (4.0 / 3.0 * 1e-6);
    static const double down[3] = {1.0, 2.0, 0.5};
    for (int i = 0; i < 3; i++) {
        beam of = weighted(down[i], 0.0);
        beam_check(&of);
        const trivet_check check = crack_at(&of, "rail", "A");
        near_relative(check.demand, range, ROUNDING);
        near_relative(check.limit, million(36.0), 1e-12);
        ck_assert_str_eq(check.in_case, "bumps of 1 g");
        ck_assert_ptr_nonnull(strstr(
            check.note, "no cycles are given: 1 g up and down a million times is our own default"));
        beam_free(&of);
    }
}
END_TEST

START_TEST(the_weight_must_stand_alone)
{
    const double aside[3] = {0.0, 0.1, -1.0};
    beam of = weighted(1.0, 1.0);
    beam_force(&of, 0, 1, 0.0, 0.0, -1000.0); /* "first" is no plain weight, "second" is */
    beam_check(&of);
    near_relative(crack_at(&of, "rail", "A").demand, 4.0 * 9.80665 * 0.5 / (4.0 / 3.0 * 1e-6),
                  ROUNDING);
    beam_free(&of);

    of = weighted(1.0, 0.0);
    DO(trivet_frame_set_cargo_factor(of.frame, 0, 0, 0.5, NULL));
    DO(trivet_frame_add_case(of.frame, "aside", aside, NULL, NULL));
    DO(trivet_frame_set_warm(of.frame, must_add_case(of.frame, "hot", 1.0), 10.0, NULL));
    beam_check(&of);
    ck_assert_int_eq(cracks_at(&of, "rail", "A", NULL), 0);
    int found = 0;
    for (int32_t i = 0; i < trivet_checks_omission_count(of.checks); i++) {
        int32_t line = -1;
        const char *why = NULL;
        const char *const what = trivet_checks_omission(of.checks, i, &line, &why);
        found += strcmp(what, "cracking") == 0 && line == TRIVET_LINE_CRACKING &&
                 strcmp(why, "no case holds the weight alone; name two cases under cycles") == 0;
    }
    ck_assert_int_eq(found, 1);
    beam_free(&of);
}
END_TEST

/*
 * 7.5 MPa times a factor that makes the range as large as the category is stood two million times;
 * a million of them do half of the damage. Two such sets do all of it: at the limit, each beside
 * the other.
 */
START_TEST(damage_by_several_cycles_adds_up)
{
    const double down = 20.0 * 36.0 / 7.5 / 1.35;
    beam of = bent(square_bar(0.02), down, NULL);
    beam_check(&of);
    near_relative(crack_at(&of, "rail", "A").utilisation, 1.0 / cbrt(2.0), ROUNDING);
    beam_free(&of);

    of = bent(square_bar(0.02), down, NULL);
    add_cycles(&of, "more bumps", -1, 0, 1e6);
    beam_check(&of);
    trivet_check worst;
    ck_assert_int_eq(cracks_at(&of, "rail", "A", &worst), 2);
    near_relative(beam_find(&of, "cracking", "rail", "bumps").utilisation, 1.0, ROUNDING);
    near_relative(beam_find(&of, "cracking", "rail", "more bumps").utilisation, 1.0, ROUNDING);
    beam_free(&of);

    /* Three of them, each with 0.9 of the damage: the other two leave no room. */
    of = bent(square_bar(0.02), down * cbrt(1.8), NULL);
    add_cycles(&of, "b", -1, 0, 1e6);
    add_cycles(&of, "c", -1, 0, 1e6);
    beam_check(&of);
    ck_assert_int_eq(beam_find(&of, "cracking", "rail", "bumps").verdict, TRIVET_MAY_CRACK);
    ck_assert_int_eq(beam_find(&of, "cracking", "rail", "c").verdict, TRIVET_MAY_CRACK);
    beam_free(&of);
}
END_TEST

/* What never reaches the cut-off does no harm beside others: 36 MPa (2/5)^(1/3) (1/20)^(1/5). */
START_TEST(small_ranges_do_no_damage)
{
    const double down = 20.0 * 36.0 / 7.5 / 1.35;
    const double cut_off = cbrt(0.4) * pow(0.05, 0.2);
    beam of = bent(square_bar(0.02), down, NULL);
    trivet_cycles cycles;
    DO(trivet_cycles_defaults(&cycles, sizeof cycles));
    cycles.to = 0;
    cycles.to_factor = 0.99 * cut_off;
    cycles.count = 1e12;
    DO(trivet_frame_add_cycles(of.frame, "ripples", &cycles, NULL, NULL));
    beam_check(&of);
    near_relative(beam_find(&of, "cracking", "rail", "bumps").utilisation, 1.0 / cbrt(2.0),
                  ROUNDING);
    beam_free(&of);
}
END_TEST

/* 5 N m of twist: tau = T / W_T; category 80 in shear, 80 2^(1/5) a million times. */
START_TEST(twist_alone_counts_as_shear)
{
    const trivet_profile tube = round_tube(0.03, 0.005);
    trivet_section section;
    beam of = beam_cantilever(tube, 235e6, 0.5, 0.0);
    DO(trivet_section_defaults(&section, sizeof section));
    DO(trivet_section_solve(&tube, &section, NULL));
    beam_moment(&of, 0, 1, 5.0, 0.0, 0.0);
    add_cycles(&of, "bumps", -1, 0, 1e6);
    beam_check(&of);
    const double tau = 5.0 / section.torsion_modulus;
    near_relative(crack_of(&of, "weld toe of").utilisation,
                  tau * 1.35 / (80e6 * pow(2.0, 1.0 / 5.0)), ROUNDING);
    beam_free(&of);
}
END_TEST

/* EN 1993-1-9 8(3): cubes of the direct and fifth powers of the shear stress, at most 1. */
START_TEST(shear_beside_bending_makes_it_worse)
{
    const trivet_profile tube = round_tube(0.03, 0.005);
    trivet_section section;
    beam of = beam_cantilever(tube, 235e6, 0.5, 0.0);
    DO(trivet_section_defaults(&section, sizeof section));
    DO(trivet_section_solve(&tube, &section, NULL));
    const double a = 0.9;
    const double c = 0.8;
    const double T = c * 80e6 * pow(2.0, 1.0 / 5.0) / 1.35 * section.torsion_modulus;
    const double M = a * million(36.0) * section.elastic_modulus[0];
    beam_moment(&of, 0, 1, T, M, 0.0);
    add_cycles(&of, "bumps", -1, 0, 1e6);
    beam_check(&of);
    near_relative(crack_of(&of, "weld toe of").utilisation, cbrt(a * a * a + pow(c, 5.0)),
                  ROUNDING);
    ck_assert_int_eq(crack_of(&of, "weld toe of").verdict, TRIVET_MAY_CRACK);
    beam_free(&of);
}
END_TEST

enum { SYMBOLS_MAX = 64 };

/* Works out one check's lines from those above them. */
static void follow(const beam *of, int32_t index, const trivet_check *check)
{
    formula_symbol symbols[SYMBOLS_MAX];
    double scale = 0.0; /* of what is added and taken off above */
    trivet_step step = {.size = sizeof step};
    ck_assert_int_lt(check->step_count, SYMBOLS_MAX);
    for (int32_t i = 0; i < check->step_count; i++) {
        DO(trivet_checks_step(of->checks, index, i, &step));
        ck_assert_msg(step.source && step.source[0], "%s: no source", step.symbol);
        for (int32_t k = 0; k < i; k++) {
            ck_assert_msg(strcmp(symbols[k].name, step.symbol) != 0, "%s twice", step.symbol);
        }
        if (step.formula[0]) {
            const double worked_out = formula_value(step.formula, symbols, i);
            scale =
                step.dimension == TRIVET_STRESS ? fmax(scale, fabs(step.value)) : fabs(step.value);
            near_scaled(step.value, worked_out, 1e-12, scale);
        }
        snprintf(symbols[i].name, sizeof symbols[i].name, "%s", step.symbol);
        symbols[i].value = step.value;
    }
    ck_assert_str_eq(step.symbol, "used");
    near_relative(step.value, check->utilisation, 1e-15);
}

/* A braced rail with every kind of section and place; several cycles, or one, or our own. */
static beam everything(int cycles)
{
    beam of = beam_new();
    const trivet_material steel = beam_material(235e6, 0.0);
    const int32_t box = beam_stock(&of, "box", square_tube(0.03, 0.002), steel);
    const int32_t pipe = beam_stock(&of, "pipe", round_tube(0.03, 0.002), steel);
    const int32_t skew = beam_stock(&of, "angle", angle_bar(0.04, 0.03, 0.004), steel);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.024), steel);
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.3, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", -0.4, 0.3, 0.0);
    const int32_t C = must_add_joint(of.frame, "C", -0.7, 0.3, 0.0);
    const int32_t D = must_add_joint(of.frame, "D", 0.0, -0.3, 0.0);
    const int32_t E = must_add_joint(of.frame, "E", -0.4, -0.3, 0.0);
    const int32_t F = must_add_joint(of.frame, "F", -0.7, -0.3, 0.0);
    const int32_t G = must_add_joint(of.frame, "G", -0.2, -0.3, 0.0);
    const int32_t right[4] = {D, G, E, F};
    const int32_t left = beam_tube_of_three(&of, "left", box, A, B, C);
    must_add_tube(of.frame, "right", right, 4, pipe);
    const int32_t back = beam_tube(&of, "back", pipe, C, F);
    beam_tube(&of, "middle", skew, B, E);
    DO(trivet_frame_add_insert(of.frame, left, A, 0.08, plug, TRIVET_SIDE_BY_SIDE, NULL));
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, D, TRIVET_ALL);
    must_add_mount(of.frame, B, TRIVET_POSITION);
    must_add_mount(of.frame, G, TRIVET_POSITION);
    add_bolts(&of, TRIVET_CLAMPED_HOLLOW, box, TRIVET_INTO_NUT);
    trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
    weld.run = 0.7;
    set_weld(&of, back, C, weld);
    weld.detail = 50e6;
    set_weld(&of, back, F, weld);
    must_add_case(of.frame, "parked", 1.0);
    const int32_t loaded = beam_case(&of, "loaded");
    beam_line(&of, loaded, back, 900.0);
    beam_force(&of, loaded, F, -150.0, 120.0, -300.0);
    beam_moment(&of, loaded, C, 9.0, 5.0, -7.0);
    if (cycles > 0) {
        add_cycles(&of, "bumps", -1, loaded, 1e5);
    }
    if (cycles > 1) {
        add_cycles(&of, "ripples", 0, loaded, 7e6);
    }
    beam_check(&of);
    return of;
}

START_TEST(every_line_follows_from_those_above_it)
{
    static const char *const subjects[] = {"weld toe of", "weld on", "mount on", "hole in",
                                           "weld root of"};
    for (int cycles = 0; cycles < 3; cycles++) {
        beam of = everything(cycles);
        int counts[5] = {0};
        for (int32_t i = 0; i < trivet_checks_count(of.checks); i++) {
            trivet_check check = {.size = sizeof check};
            DO(trivet_checks_at(of.checks, i, &check));
            if (strcmp(check.check, "cracking") != 0) {
                continue;
            }
            follow(&of, i, &check);
            for (int s = 0; s < 5; s++) {
                counts[s] += strcmp(check.subject, subjects[s]) == 0;
            }
        }
        /* Toes: left C, right D and F, both ends of back and middle; on: left B, right E. */
        const int sets = cycles > 1 ? 2 : 1;
        ck_assert_int_eq(counts[0], 7 * sets);
        ck_assert_int_eq(counts[1], 2 * sets);
        ck_assert_int_eq(counts[2], 1 * sets);
        ck_assert_int_eq(counts[3], 1 * sets);
        /* Roots: left C, right D, back C; not at F, where the category is said, nor of the angle.
         */
        ck_assert_int_eq(counts[4], 3 * sets);
        beam_free(&of);
    }
}
END_TEST

int main(void)
{
    return run_tests("crack_cycles",
                     TESTS(a_range_goes_from_one_state_to_the_other,
                           without_cycles_bumps_of_one_g_are_taken_and_called_our_own,
                           the_weight_must_stand_alone, damage_by_several_cycles_adds_up,
                           small_ranges_do_no_damage, twist_alone_counts_as_shear,
                           shear_beside_bending_makes_it_worse,
                           every_line_follows_from_those_above_it));
}
