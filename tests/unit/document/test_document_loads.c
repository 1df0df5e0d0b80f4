/*
 * Tubes and cases: what the file says of ends, offsets, inserts and loads is told by the answer of
 * small frames that a handbook solves.
 *
 * The arm: square bar 20 mm of S235, E = 210000 N/mm^2, I = 20^4/12 mm^4, L = 300 mm. Reactions
 * come from equilibrium alone.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <stdio.h>

#define ROUNDING 1e-9 /* of a solve with a condition number of a few thousand */

/* The reaction at the first mount, [6], in a case of the arm. */
static void react(const char *file, double reaction[6])
{
    trivet_document *const document = read_good(file);
    trivet_result *const result = must_solve(trivet_document_frame(document));
    memcpy(reaction, trivet_result_reactions(result, NULL, NULL), 6 * sizeof *reaction);
    trivet_result_free(result);
    trivet_document_free(document);
}

static void check_reaction(const char *load, const double want[6])
{
    char text[2048];
    double got[6];
    snprintf(text, sizeof text,
             ARM "cargo: {box: {mass: 2 kg, centre: [200 mm, 0, 50 mm], on: B}}\n"
                 "cases: {one: {%s}}\n",
             load);
    react(text, got);
    for (int i = 0; i < 6; i++) {
        near_scaled(got[i], want[i], ROUNDING, 100.0);
    }
}

START_TEST(forces_on_joints_cargo_and_tubes_arrive)
{
    /* a force at the tip: force and moment -r x F */
    check_reaction("forces: [{on: B, force: [10 N, 20 N, -30 N], moment: [0, 1 N*m, 0]}]",
                   (double[6]){-10, -20, 30, 0, -0.3 * 30 - 1, -0.3 * 20});
    /* on cargo at its centre, 50 mm above the arm, 200 mm out */
    check_reaction("cargo: {box: 0}, forces: [{on: box, force: [10 N, 0, -30 N]}]",
                   (double[6]){-10, 0, 30, 0, -0.2 * 30 - 0.05 * 10, 0});
    /* on cargo elsewhere */
    check_reaction("forces: [{on: box, force: [0, 10 N, 0], at: [100 mm, 0, 80 mm]}]",
                   (double[6]){0, -10, 0, 0.08 * 10, 0, -0.1 * 10});
    /* at a share of the tube's length and at a length */
    check_reaction("tube forces: [{tube: arm, at: 40 %, force: [0, 0, -50]}]",
                   (double[6]){0, 0, 50, 0, -0.12 * 50, 0});
    check_reaction("tube forces: [{tube: arm, at: 120, force: [0, 0, -50 N], axes: tube}]",
                   (double[6]){0, 0, 50, 0, -0.12 * 50, 0});
}
END_TEST

START_TEST(line_loads_run_from_where_to_where)
{
    /* 1 N/mm over 100 mm to 300 mm: 200 N with its middle at 200 mm */
    check_reaction("tube forces: [{tube: arm, from: 100 mm, line: [0, 0, -1 N/mm]}]",
                   (double[6]){0, 0, 200, 0, -0.2 * 200, 0});
    /* a triangle from 0 to 2 N/mm over the whole arm: 300 N at two thirds */
    check_reaction("tube forces: [{tube: arm, line: [0, 0, 0], to line: [0, 0, -2 N/mm]}]",
                   (double[6]){0, 0, 300, 0, -0.2 * 300, 0});
    /* 1 N/mm between 50 mm and 50 %: 100 N with its middle at 100 mm */
    check_reaction("tube forces: [{tube: arm, from: 50 mm, to: 50 %, line: [0, 1 N/mm, 0]}]",
                   (double[6]){0, -100, 0, 0, 0, -0.1 * 100});
}
END_TEST

START_TEST(gravity_and_cargo_factors_scale_weight)
{
    /* arm: 0.02^2 * 0.3 * 7850 = 0.942 kg with its middle at 150 mm; cargo 2 kg times 1.5 */
    const double g = 9.80665; /* m/s^2, standard gravity */
    const double arm = 0.942 * g * 2.0;
    const double box = 2.0 * 1.5 * g * 2.0;
    check_reaction("gravity: [0, 0, -2], cargo: {box: 1.5}",
                   (double[6]){0, 0, arm + box, 0, -(0.15 * arm + 0.2 * box), 0});
}
END_TEST

/* An arm held at both ends with something written into its tube, and one load in the middle. */
static void react_both(const char *tube, const char *load, double reaction[6])
{
    char text[2048];
    snprintf(text, sizeof text,
             "trivet: 1\nstock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
             "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
             "tubes: {arm: {through: [A, B], stock: rail%s}}\n"
             "mounts: {A: {hold: all}, B: {hold: all}}\ncases: {one: {%s}}\n",
             tube, load);
    react(text, reaction);
}

START_TEST(pinned_and_freed_ends_carry_no_moment)
{
    const char *const load = "tube forces: [{tube: arm, at: 50 %, force: [0, 0, -100 N]}]";
    double reaction[6];
    react_both(", ends: {A: pinned, B: pinned}", load, reaction);
    near_scaled(reaction[2], 50.0, ROUNDING, 100.0);
    near_scaled(reaction[4], 0.0, ROUNDING, 100.0);
    react_both(", ends: {A: {free: [ry]}}", load, reaction);
    near_scaled(reaction[4], 0.0, ROUNDING, 100.0);
    ck_assert(reaction[2] < 49.0); /* the clamped end draws the load to itself */
    react_both(", ends: {B: {free: z}}", load, reaction);
    near_scaled(reaction[2], 100.0, ROUNDING, 100.0);
    react_both(", ends: {A: rigid}", load, reaction);
    near_scaled(reaction[2], 50.0, ROUNDING, 100.0);
    ck_assert(reaction[4] < -3.0); /* F L / 8 = 3.75 N m without shear */
}
END_TEST

START_TEST(warmth_presses_between_clamps)
{
    /* N = E A alpha dT = 210000 * 400 * 1.2e-5 * 30 = 30240 N */
    double reaction[6];
    react_both("", "warm: 30 K", reaction);
    near_scaled(reaction[0], 30240.0, ROUNDING, 30240.0);
}
END_TEST

START_TEST(moved_mounts_strain_the_tube)
{
    /* N = E A u / L = 210000 * 400 * 0.1 / 300 = 28000 N, pulling A towards B */
    double reaction[6];
    react_both("", "mount moves: {B: {x: 0.1 mm}}", reaction);
    near_scaled(reaction[0], -28000.0, ROUNDING, 28000.0);
}
END_TEST

START_TEST(offsets_move_the_tube_off_its_joint)
{
    /* the tube runs 40 mm above both joints: the same 100 N along it turn the mounts by 4 N m */
    double reaction[6];
    react_both(", offset: {A: [0, 0, 40 mm], B: [0, 0, 40 mm]}, ends: {B: {free: x}}",
               "tube forces: [{tube: arm, at: 50 %, force: [100 N, 0, 0]}]", reaction);
    near_scaled(reaction[0], -100.0, ROUNDING, 100.0);
    near_scaled(reaction[4], -4.0, ROUNDING, 100.0);
}
END_TEST

START_TEST(inserts_and_roll_are_shown_as_understood)
{
    trivet_document *const document = read_good(
        "trivet: 1\n"
        "stock:\n"
        "  rail: {shape: rectangular tube, height: 30, width: 20, wall: 2, material: E235}\n"
        "  plug: {shape: flat bar, height: 26, width: 16, material: S235}\n"
        "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
        "tubes: {arm: {through: [A, B], stock: rail, roll: 90 deg, inserts: "
        "[{at: A, length: 40 mm, stock: plug, bond: together}]}}\n"
        "mounts: {A: {hold: all}}\n" PARKED);
    char *text = NULL;
    ck_assert_int_eq(trivet_document_understood_json(document, &text, NULL), TRIVET_OK);
    ck_assert_ptr_nonnull(strstr(text, "\"roll\": 1.570796326794896"));
    ck_assert_ptr_nonnull(strstr(text, "\"bond\": \"together\""));
    /* 40 mm of 26 x 16 mm bar: 0.04 * 0.000416 * 7850 = 0.130624 kg more than the tube alone */
    const trivet_frame *const frame = trivet_document_frame(document);
    const double alone = trivet_frame_section(frame, 0)->area * 7850.0 * 0.3;
    near_relative(trivet_frame_tube_mass(frame, 0), alone + 0.130624, 1e-12);
    trivet_text_free(text);
    trivet_document_free(document);
}
END_TEST

START_TEST(combinations_add_cases_with_factors)
{
    trivet_document *const document =
        read_good(ARM "cases: {down: {forces: [{on: B, force: [0, 0, -10 N]}]}, "
                      "left: {forces: [{on: B, force: [0, 5 N, 0]}]}}\n"
                      "combine: {both: {down: 1.5, left: -2}}\n");
    trivet_result *result = NULL;
    ck_assert_int_eq(trivet_frame_solve(trivet_document_frame(document), &result, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_result_case_count(result), 3);
    const double *const reactions = trivet_result_reactions(result, NULL, NULL);
    near_scaled(reactions[12 + 2], 15.0, ROUNDING, 10.0);
    near_scaled(reactions[12 + 1], 10.0, ROUNDING, 10.0);
    trivet_result_free(result);
    trivet_document_free(document);
}
END_TEST

int main(void)
{
    return run_tests(
        "document, loads",
        TESTS(forces_on_joints_cargo_and_tubes_arrive, line_loads_run_from_where_to_where,
              gravity_and_cargo_factors_scale_weight, pinned_and_freed_ends_carry_no_moment,
              warmth_presses_between_clamps, moved_mounts_strain_the_tube,
              offsets_move_the_tube_off_its_joint, inserts_and_roll_are_shown_as_understood,
              combinations_add_cases_with_factors));
}
