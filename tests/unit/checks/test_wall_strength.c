/*
 * Walls under the head of a bolt, against formulas worked out by hand. Heads: M6 10 mm, M8 13 mm,
 * M16 24 mm, hexagon (ISO 4017) or socket (ISO 4762) alike. Steel of 235 N/mm^2, E = 210000 N/mm^2.
 * Formulas: EN 1993-1-8 tables 7.3 and 7.11, EN 1993-1-1 6.3.1.2 (from memory).
 */
#include "checks/wall_strength.h"

#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Bolts that are in no frame yet, across the frame's only stock. */
static trivet_bolts bolts_across(int32_t clamped, const char *thread, int32_t head)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.clamped = clamped;
    bolts.clamped_stock = 0;
    bolts.head = head;
    strcpy(bolts.thread, thread);
    strcpy(bolts.grade, "8.8");
    return bolts;
}

static trivet__wall wall_of(trivet_profile profile, const char *thread, int32_t head)
{
    beam of = beam_new();
    const trivet_bolts bolts = bolts_across(TRIVET_CLAMPED_HOLLOW, thread, head);
    trivet__wall wall;
    beam_stock(&of, "tube", profile, beam_material(235e6, 0.0));
    trivet__wall_find(of.frame, &bolts, &wall);
    ck_assert(wall.stands == trivet__wall_stands(of.frame, &bolts));
    beam_free(&of);
    return wall;
}

/* beta = 10/18: 235 * 4 / (1 - 5/9) * (10/9 + 4 sqrt(4/9)) = 2115 * 34/9 = 7990 N. */
START_TEST(a_narrow_head_dents_the_face_between_its_sides)
{
    const trivet__wall wall = wall_of(square_tube(0.02, 0.002), "M6", TRIVET_HEAD_HEXAGON);
    ck_assert_int_eq(wall.form, TRIVET__WALL_FLAT);
    near_relative(wall.face, 7990.0, 1e-12);
    ck_assert(wall.stands == wall.face);
    const trivet__wall socket = wall_of(square_tube(0.02, 0.002), "M6", TRIVET_HEAD_SOCKET);
    near_relative(socket.face, 7990.0, 1e-12);
}
END_TEST

/* 13 mm on 15 - 2 mm: pi * 13 * 2 * 235 / sqrt(3) = 11082.3 N. */
START_TEST(a_head_as_wide_as_the_face_is_pushed_through)
{
    const trivet__wall wall = wall_of(square_tube(0.015, 0.002), "M8", TRIVET_HEAD_HEXAGON);
    ck_assert(isinf(wall.face));
    near_scaled(wall.stands, 11082.3, 1.0, 0.05);
    ck_assert(wall.side > wall.stands);
}
END_TEST

/* chi of curve c in the printed tables: 0.5399 at a slenderness of 1.0, 0.1962 at 2.0. */
START_TEST(side_walls_buckle_after_curve_c)
{
    const double root = sqrt(210000.0 / 235.0);
    const double wall_mm = 1.0;
    for (int i = 1; i <= 2; i++) {
        const double width_mm = wall_mm * (2.0 + i * 3.14159265358979 * root / 3.46);
        const trivet__wall wall =
            wall_of(square_tube(1e-3 * width_mm, 1e-3 * wall_mm), "M6", TRIVET_HEAD_HEXAGON);
        const double chi = i == 1 ? 0.5399 : 0.1962;
        near_relative(wall.slenderness, (double)i, 1e-12);
        near_scaled(wall.reduction, chi, 1.0, 0.00005);
        /* Two walls of 1 mm, spread over 10 + 5 mm: 2 * 235 * 15 = 7050 N. */
        near_scaled(wall.side, 7050.0 * chi, 1.0, 7050.0 * 0.00005);
    }
    const trivet__wall stocky = wall_of(square_tube(0.01, 0.002), "M6", TRIVET_HEAD_HEXAGON);
    ck_assert(stocky.reduction == 1.0);
}
END_TEST

/*
 * 24 mm on a tube of 26 x 0.5: slenderness 3.46 * 50 / (pi * 29.893) = 1.8421, phi 2.5990, chi
 * 1 / (2.5990 + sqrt(6.7550 - 3.3934)) = 0.2256; 2 * 0.2256 * 235 * 0.5 * 26.5 = 1405 N.
 */
START_TEST(thin_side_walls_give_before_the_face)
{
    const trivet__wall wall = wall_of(square_tube(0.026, 0.0005), "M16", TRIVET_HEAD_HEXAGON);
    ck_assert(wall.stands == wall.side);
    near_scaled(wall.stands, 1405.0, 1.0, 0.5);
    ck_assert(wall.face > 2000.0);
}
END_TEST

/* Which way the bolt goes is not known: 40 x 20 stands what 40 x 40 stands. */
START_TEST(the_larger_side_of_a_rectangle_counts)
{
    trivet_profile flat = square_tube(0.02, 0.002);
    flat.shape = TRIVET_SHAPE_RECTANGULAR_TUBE;
    flat.height = 0.04;
    const double square = wall_of(square_tube(0.04, 0.002), "M6", TRIVET_HEAD_HEXAGON).stands;
    ck_assert(wall_of(flat, "M6", TRIVET_HEAD_HEXAGON).stands == square);
    flat.height = 0.02;
    flat.width = 0.04;
    ck_assert(wall_of(flat, "M6", TRIVET_HEAD_HEXAGON).stands == square);
}
END_TEST

/* 235 * 4 * (4 + 20 * 0.4^2) = 6768 N; 13 on 13 x 1: pi * 13 * 235 / sqrt(3) = 5541.2 N. */
START_TEST(a_round_tube_is_dented_or_pushed_through)
{
    const trivet__wall wide = wall_of(round_tube(0.025, 0.002), "M6", TRIVET_HEAD_HEXAGON);
    ck_assert_int_eq(wide.form, TRIVET__WALL_ROUND);
    near_relative(wide.stands, 6768.0, 1e-12);
    const trivet__wall narrow = wall_of(round_tube(0.013, 0.001), "M8", TRIVET_HEAD_HEXAGON);
    near_scaled(narrow.stands, 5541.2, 1.0, 0.05);
}
END_TEST

/* A ring 12 x 2: pi/4 (144 - 64) = 62.832 mm^2; 235 N/mm^2: 14765.5 N; 355 N/mm^2: 22305.3 N. */
START_TEST(a_sleeve_takes_over_from_the_walls)
{
    beam of = beam_new();
    trivet_bolts bolts = bolts_across(TRIVET_CLAMPED_SLEEVE, "M6", TRIVET_HEAD_HEXAGON);
    bolts.sleeve_diameter = 0.012;
    bolts.sleeve_wall = 0.002;
    beam_stock(&of, "tube", square_tube(0.02, 0.002), beam_material(235e6, 0.0));
    ck_assert(isinf(trivet__wall_stands(of.frame, &bolts)));
    near_scaled(trivet__sleeve_stands(of.frame, &bolts), 14765.5, 1.0, 0.05);
    bolts.sleeve_yield = 355e6;
    near_scaled(trivet__sleeve_stands(of.frame, &bolts), 22305.3, 1.0, 0.05);
    bolts.clamped = TRIVET_CLAMPED_INSERT;
    ck_assert(isinf(trivet__wall_stands(of.frame, &bolts)));
    ck_assert(isinf(trivet__sleeve_stands(of.frame, &bolts)));
    beam_free(&of);
}
END_TEST

START_TEST(what_is_not_known_is_no_number)
{
    beam of = beam_new();
    trivet_bolts bolts = bolts_across(TRIVET_CLAMPED_HOLLOW, "M6", TRIVET_HEAD_HEXAGON);
    beam_stock(&of, "no yield", square_tube(0.02, 0.002), beam_material(0.0, 0.0));
    ck_assert(isnan(trivet__wall_stands(of.frame, &bolts)));
    bolts.clamped = TRIVET_CLAMPED_SLEEVE;
    bolts.sleeve_diameter = 0.012;
    bolts.sleeve_wall = 0.002;
    ck_assert(isnan(trivet__sleeve_stands(of.frame, &bolts)));
    bolts.clamped = TRIVET_CLAMPED_HOLLOW;
    bolts.clamped_stock = -1;
    ck_assert(isnan(trivet__wall_stands(of.frame, &bolts)));
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("wall_strength",
                     TESTS(a_narrow_head_dents_the_face_between_its_sides,
                           a_head_as_wide_as_the_face_is_pushed_through,
                           side_walls_buckle_after_curve_c, thin_side_walls_give_before_the_face,
                           the_larger_side_of_a_rectangle_counts,
                           a_round_tube_is_dented_or_pushed_through,
                           a_sleeve_takes_over_from_the_walls, what_is_not_known_is_no_number));
}
