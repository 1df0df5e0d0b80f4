/*
 * Where beams crack, by hand: toes and roots of welds, what is welded on, holes, mounts.
 */
#include "crack_beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

/* Of such a cantilever the check of its weld's toe, or root. */
static trivet_check weld_part_of(const char *subject, trivet_profile profile, trivet_weld weld)
{
    beam of = bent(profile, 20.0, &weld);
    beam_check(&of);
    const trivet_check check = crack_of(&of, subject);
    beam_free(&of);
    return check;
}

static trivet_check toe_of(trivet_profile profile, trivet_weld weld)
{
    return weld_part_of("weld toe of", profile, weld);
}

/* 20 N at 0.5 m: 10 N m. Nothing is said of the weld: category 36. */
START_TEST(the_toe_at_a_clamped_end_sees_the_bending_stress)
{
    beam of = bent(square_bar(0.02), 20.0, NULL);
    char text[512];
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "A");
    near_relative(check.demand, 7.5e6, ROUNDING);
    near_relative(check.limit, million(36.0), 1e-12);
    ck_assert_str_eq(check.subject, "weld toe of");
    ck_assert_str_eq(check.in_case, "bumps");
    ck_assert_str_eq(check.note, "how it is welded is not said: a weld all round and a low detail "
                                 "category are taken");
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    trivet_checks_sentence(of.checks, TRIVET_LINE_CRACKING, NULL, text, sizeof text);
    ck_assert_msg(strstr(text, "weld toe of rail at A sees a stress that swings by 7.5 of 33.6 "
                               "N/mm^2 in bumps (used 22 %)") == text,
                  "%s", text);
    beam_free(&of);
}
END_TEST

/* 100 N: 37.5 MPa of 33.6. */
START_TEST(what_swings_too_far_may_crack)
{
    beam of = bent(square_bar(0.02), 100.0, NULL);
    char text[512];
    beam_check(&of);
    ck_assert_int_eq(crack_at(&of, "rail", "A").verdict, TRIVET_MAY_CRACK);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_CRACKING, NULL),
                     TRIVET_MAY_CRACK);
    trivet_checks_sentence(of.checks, TRIVET_LINE_CRACKING, NULL, text, sizeof text);
    ck_assert_msg(strstr(text, "a weld nearer to the middle of the span") != NULL, "%s", text);
    ck_assert_ptr_null(strstr(text, "km"));
    beam_free(&of);
}
END_TEST

START_TEST(the_partial_factor_is_the_one_in_the_limits)
{
    beam of = bent(square_bar(0.02), 20.0, NULL);
    of.limits.crack = 1.0;
    beam_check(&of);
    near_relative(crack_at(&of, "rail", "A").limit, 36e6 * cbrt(2.0), 1e-12);
    beam_free(&of);
}
END_TEST

/* EN 1993-1-9 table 8.6 details 8 and 9, table 8.5 detail 3, from memory. */
START_TEST(the_category_follows_from_how_the_end_is_welded)
{
    const trivet_weld all_round = weld_of(TRIVET_WELD_FILLET);
    trivet_weld said = all_round;
    said.detail = 71e6;
    near_relative(toe_of(round_tube(0.03, 0.005), all_round).limit, million(40.0), 1e-12);
    near_relative(toe_of(square_tube(0.03, 0.005), all_round).limit, million(36.0), 1e-12);
    near_relative(toe_of(square_bar(0.02), all_round).limit, million(36.0), 1e-12);
    const trivet_check check = toe_of(square_bar(0.02), said);
    near_relative(check.limit, million(71.0), 1e-12);
    near_relative(check.demand, 7.5e6, ROUNDING);
    ck_assert_str_eq(check.note,
                     "its detail category is the user's, for the root of the weld as well");
}
END_TEST

START_TEST(a_longer_weld_helps)
{
    trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
    near_relative(toe_of(square_bar(0.02), weld).demand, 7.5e6, ROUNDING);
    weld.run = 0.6;
    near_relative(toe_of(square_bar(0.02), weld).demand, 7.5e6 / 0.6, ROUNDING);
    weld.sides = TRIVET_SIDE_TOP | TRIVET_SIDE_BOTTOM; /* half of a square outline */
    near_relative(toe_of(square_bar(0.02), weld).demand, 7.5e6 / 0.3, ROUNDING);
    /* A flat bar 30 mm high and 10 mm wide, W = 10 * 30^2 / 6 = 1500 mm^3: top and left are half
     * of its outline of 80 mm, left alone is 30 mm of it. */
    trivet_profile flat = square_bar(0.0);
    flat.shape = TRIVET_SHAPE_FLAT_BAR;
    flat.height = 0.03;
    flat.width = 0.01;
    weld.run = 1.0;
    weld.sides = TRIVET_SIDE_TOP | TRIVET_SIDE_LEFT;
    const double whole = 10.0 / 1500e-9;
    near_relative(toe_of(flat, weld).demand, whole * 2.0, ROUNDING);
    weld.sides = TRIVET_SIDE_LEFT;
    near_relative(toe_of(flat, weld).demand, whole * 80.0 / 30.0, ROUNDING);
    /* 4 spots of 6 mm on an outline of 80 mm; 20 of them are all of it. */
    trivet_weld spots = weld_of(TRIVET_WELD_SPOTS);
    spots.spot_diameter = 0.006;
    spots.spot_count = 4;
    near_relative(toe_of(square_bar(0.02), spots).demand, 7.5e6 * 80.0 / 24.0, ROUNDING);
    spots.spot_count = 20;
    near_relative(toe_of(square_bar(0.02), spots).demand, 7.5e6, ROUNDING);
}
END_TEST

/* A wall of 5 mm: 3.5 mm of throat if none is said, never more than the wall. Category 36. */
START_TEST(a_thicker_throat_helps_the_root)
{
    const trivet_profile tube = square_tube(0.03, 0.005);
    const double nominal = nominal_of_tube(tube);
    trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
    near_relative(weld_part_of("weld root of", tube, weld).limit, million(36.0), 1e-12);
    near_relative(weld_part_of("weld root of", tube, weld).demand, nominal / 0.7, ROUNDING);
    weld.throat = 0.002;
    near_relative(weld_part_of("weld root of", tube, weld).demand, nominal * 2.5, ROUNDING);
    weld.run = 0.5;
    near_relative(weld_part_of("weld root of", tube, weld).demand, nominal * 5.0, ROUNDING);
    weld.run = 1.0;
    weld.throat = 0.008;
    near_relative(weld_part_of("weld root of", tube, weld).demand, nominal, ROUNDING);
}
END_TEST

START_TEST(an_end_without_a_weld_has_no_toe)
{
    const trivet_weld none = weld_of(TRIVET_WELD_NONE);
    beam of = bent(square_bar(0.02), 100.0, &none);
    beam_check(&of);
    ck_assert_int_eq(cracks_at(&of, "rail", "A", NULL), 0);
    ck_assert_int_eq(cracks_at(&of, "rail", "B", NULL), 0);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_CRACKING, NULL),
                     TRIVET_NOT_CHECKED);
    beam_free(&of);
}
END_TEST

/* A corner at B: the weld stands with the post, and joins both tubes; a hinge there is no weld. */
START_TEST(one_weld_joins_two_tubes_at_a_corner)
{
    for (int is_hinged = 0; is_hinged < 2; is_hinged++) {
        beam of = bent(square_bar(0.02), 20.0, NULL);
        const int32_t T = must_add_joint(of.frame, "T", 0.5, 0.0, 0.2);
        const int32_t post = beam_tube(&of, "post", 0, 1, T);
        trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
        weld.detail = 50e6;
        if (is_hinged) {
            DO(trivet_frame_set_free_end(of.frame, 0, 1, TRIVET_RY, NULL));
            must_add_mount(of.frame, T, TRIVET_ALL);
        } else {
            set_weld(&of, post, 1, weld);
        }
        beam_check(&of);
        ck_assert_int_eq(count_cracks(&of, "weld toe of", "rail", "B", NULL), !is_hinged);
        if (!is_hinged) {
            near_relative(crack_at(&of, "rail", "B").limit, million(50.0), 1e-12);
            near_relative(crack_at(&of, "post", "B").limit, million(50.0), 1e-12);
        }
        beam_free(&of);
    }
}
END_TEST

/*
 * A rail of 1 m on two mounts with 100 N in its middle: 50 N at each mount, 50 N times the
 * distance from the nearer one. A cross bar of its own is welded on at M, where nothing pulls at
 * it.
 */
static trivet_check weld_at(double place, trivet_profile rail, trivet_profile cross, double lean)
{
    beam of = beam_new();
    const trivet_material steel = beam_material(235e6, 0.0);
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t M = must_add_joint(of.frame, "M", place, 0.0, 0.0);
    const int32_t L = must_add_joint(of.frame, "L", 0.5, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 1.0, 0.0, 0.0);
    const int32_t T = must_add_joint(of.frame, "T", place + lean, 0.0, 0.1);
    const int32_t joints[4] = {A, M, L, B};
    must_add_tube(of.frame, "rail", joints, 4, beam_stock(&of, "bar", rail, steel));
    beam_tube(&of, "post", beam_stock(&of, "cross", cross, steel), M, T);
    must_add_mount(of.frame, A, TRIVET_POSITION | TRIVET_RX);
    must_add_mount(of.frame, B, TRIVET_Y | TRIVET_Z);
    beam_force(&of, beam_case(&of, "push"), L, 0.0, 0.0, -100.0);
    add_cycles(&of, "bumps", -1, 0, 1e6);
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "M");
    ck_assert_str_eq(check.subject, "weld on");
    near_relative(check.at, place, 1e-12);
    ck_assert_int_eq(cracks_at(&of, "post", "M", NULL), 1);
    ck_assert_int_eq(cracks_at(&of, "post", "T", NULL), 0);
    ck_assert_int_eq(cracks_at(&of, "rail", "L", NULL), 0);
    beam_free(&of);
    return check;
}

START_TEST(moving_a_weld_to_where_the_tube_bends_less_helps)
{
    const trivet_profile bar = square_bar(0.02);
    near_relative(weld_at(0.4, bar, bar, 0.0).demand, 15e6, ROUNDING);
    near_relative(weld_at(0.1, bar, bar, 0.0).demand, 3.75e6, ROUNDING);
    near_relative(weld_at(0.4, bar, bar, 0.0).limit, million(80.0), 1e-12);
}
END_TEST

/* EN 1993-1-9 table 8.4 detail 1 by length along the rail; a bar at 45 degrees is 1.41 as long. */
START_TEST(what_is_welded_on_counts_by_its_length)
{
    const trivet_profile bar = square_bar(0.02);
    trivet_profile flat = square_bar(0.0);
    flat.shape = TRIVET_SHAPE_FLAT_BAR;
    flat.width = 0.01;
    flat.height = 0.06; /* upright posts have their height along world x: along the rail */
    near_relative(weld_at(0.4, bar, flat, 0.0).limit, million(71.0), 1e-12);
    near_relative(weld_at(0.4, bar, flat, 0.1).limit, million(63.0), 1e-12);
    flat.height = 0.09;
    near_relative(weld_at(0.4, bar, flat, 0.0).limit, million(63.0), 1e-12);
    near_relative(weld_at(0.4, bar, flat, 0.1).limit, million(56.0), 1e-12);
    /* Round: 40 / sin 45 = 56.6 mm. */
    near_relative(weld_at(0.4, bar, round_bar(0.04), 0.0).limit, million(80.0), 1e-12);
    near_relative(weld_at(0.4, bar, round_bar(0.04), 0.1).limit, million(71.0), 1e-12);
    /* On a hollow section never above 71 (table 8.6 detail 5). */
    near_relative(weld_at(0.4, square_tube(0.03, 0.005), bar, 0.0).limit, million(71.0), 1e-12);
}
END_TEST

/* A rail that sticks out by 0.5 m with 40 N at its tip; a brace holds its middle. */
static double used_at_mount(int has_brace)
{
    beam of = beam_new();
    const trivet_material steel = beam_material(235e6, 0.0);
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t M = must_add_joint(of.frame, "M", 0.25, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.5, 0.0, 0.0);
    const int32_t F = must_add_joint(of.frame, "F", 0.0, 0.0, -0.25);
    const int32_t bar = beam_stock(&of, "bar", square_bar(0.02), steel);
    beam_tube_of_three(&of, "rail", bar, A, M, B);
    beam_tube(&of, "post", bar, A, F);
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, F, TRIVET_ALL);
    if (has_brace) {
        beam_tube(&of, "brace", bar, F, M);
    }
    beam_force(&of, beam_case(&of, "push"), B, 0.0, 0.0, -40.0);
    add_cycles(&of, "bumps", -1, 0, 1e6);
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "A");
    beam_free(&of);
    return check.utilisation;
}

START_TEST(a_brace_helps)
{
    near_relative(used_at_mount(0), 15e6 / million(36.0), ROUNDING);
    ck_assert(used_at_mount(1) < 0.5 * used_at_mount(0));
}
END_TEST

/* M8: 9 mm clearance (ISO 273 medium). 30 mm of wall less 9: 21. Table 8.1 detail 11: 90. */
START_TEST(a_hole_for_a_bolt_takes_its_width_out_of_the_wall)
{
    const trivet_profile tube = square_tube(0.03, 0.003);
    beam of = bent(tube, 20.0, NULL);
    add_bolts(&of, TRIVET_CLAMPED_HOLLOW, 0, TRIVET_INTO_NUT);
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "A"); /* bolted, so it has no toe */
    ck_assert_str_eq(check.subject, "hole in");
    ck_assert_str_eq(check.note, "");
    near_relative(check.limit, million(90.0), 1e-12);
    near_relative(check.demand, nominal_of_tube(tube) * 30.0 / 21.0, ROUNDING);
    beam_free(&of);
}
END_TEST

/* A thread cut into the wall leaves a hole of 8 mm; a quarter of a round outline is pi 30 / 4. */
START_TEST(a_hole_with_a_thread_is_as_wide_as_the_screw)
{
    const trivet_profile tube = round_tube(0.03, 0.003);
    const double quarter = acos(-1.0) * 30.0 / 4.0;
    beam of = bent(tube, 20.0, NULL);
    add_bolts(&of, TRIVET_CLAMPED_SOLID, 0, TRIVET_INTO_WALL);
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "A");
    near_relative(check.demand, nominal_of_tube(tube) * quarter / (quarter - 8.0), ROUNDING);
    beam_free(&of);
}
END_TEST

START_TEST(a_hole_that_leaves_no_wall_is_listed)
{
    beam of = bent(square_tube(0.008, 0.001), 1.0, NULL);
    add_bolts(&of, TRIVET_CLAMPED_HOLLOW, 0, TRIVET_INTO_NUT);
    beam_check(&of);
    ck_assert_int_eq(cracks_at(&of, "rail", "A", NULL), 0);
    ck_assert_str_eq(beam_omission(&of, "cracking of rail"),
                     "a hole for a bolt leaves nothing of the wall, or its width is not given");
    beam_free(&of);
}
END_TEST

/* A rail over a mount in its middle; 40 N at 0.25 m beyond it: 10 N m over the mount. */
START_TEST(a_mount_under_a_rail_counts_if_nothing_is_said_of_it)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t M = must_add_joint(of.frame, "M", 0.5, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.75, 0.0, 0.0);
    const int32_t bar = beam_stock(&of, "bar", square_bar(0.02), beam_material(235e6, 0.0));
    beam_tube_of_three(&of, "rail", bar, A, M, B);
    must_add_mount(of.frame, A, TRIVET_POSITION | TRIVET_RX);
    must_add_mount(of.frame, M, TRIVET_Y | TRIVET_Z);
    beam_force(&of, beam_case(&of, "push"), B, 0.0, 0.0, -40.0);
    add_cycles(&of, "bumps", -1, 0, 1e6);
    beam_check(&of);
    const trivet_check check = crack_at(&of, "rail", "M");
    near_relative(check.demand, 7.5e6, ROUNDING);
    near_relative(check.limit, million(56.0), 1e-12);
    ck_assert_str_eq(check.subject, "mount on");
    beam_free(&of);
}
END_TEST

START_TEST(thin_walls_are_worked_out_and_said_to_be_outside)
{
    trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
    const trivet_check thin = toe_of(square_tube(0.03, 0.002), weld);
    const trivet_check thick = toe_of(square_tube(0.03, 0.004), weld);
    near_relative(thin.demand, nominal_of_tube(square_tube(0.03, 0.002)), ROUNDING);
    ck_assert_str_eq(
        thin.note, "its wall is under 4 mm, thinner than the tests behind such rules (ISO 14347)");
    ck_assert_str_eq(thick.note, "");
}
END_TEST

START_TEST(aluminium_needs_a_category_of_the_user)
{
    for (int is_said = 0; is_said < 2; is_said++) {
        beam of = beam_new();
        const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
        const int32_t B = must_add_joint(of.frame, "B", 0.5, 0.0, 0.0);
        trivet_material soft = beam_material(115e6, 0.0);
        soft.E = 70e9;
        soft.G = 27e9;
        beam_tube(&of, "rail", beam_stock(&of, "bar", square_bar(0.02), soft), A, B);
        must_add_mount(of.frame, A, TRIVET_ALL);
        beam_force(&of, beam_case(&of, "push"), B, 0.0, 0.0, -20.0);
        add_cycles(&of, "bumps", -1, 0, 1e6);
        if (is_said) {
            trivet_weld weld = weld_of(TRIVET_WELD_FILLET);
            weld.detail = 14e6;
            set_weld(&of, 0, A, weld);
        }
        beam_check(&of);
        ck_assert_int_eq(cracks_at(&of, "rail", "A", NULL), is_said);
        if (is_said) {
            near_relative(crack_at(&of, "rail", "A").limit, million(14.0), 1e-12);
            ck_assert_str_eq(crack_at(&of, "rail", "A").note,
                             "its detail category is the user's, for the root of the weld as well; "
                             "the curve of steel is taken for its aluminium");
        } else {
            ck_assert_str_eq(
                beam_omission(&of, "cracking of rail"),
                "aluminium has rules of its own (EN 1999-1-3), which are not built in");
        }
        beam_free(&of);
    }
}
END_TEST

START_TEST(what_is_not_looked_at_is_listed)
{
    static const char *const rest[] = {"cracking of spots and of welds on bars",
                                       "cracking of bolts", "cracking of walls under welded tubes",
                                       "cracking between joints"};
    beam of = bent(square_bar(0.02), 20.0, NULL);
    beam_check(&of);
    for (size_t i = 0; i < sizeof rest / sizeof rest[0]; i++) {
        ck_assert_ptr_nonnull(beam_omission(&of, rest[i]));
    }
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_crack",
        TESTS(the_toe_at_a_clamped_end_sees_the_bending_stress, what_swings_too_far_may_crack,
              the_partial_factor_is_the_one_in_the_limits,
              the_category_follows_from_how_the_end_is_welded, a_longer_weld_helps,
              a_thicker_throat_helps_the_root, an_end_without_a_weld_has_no_toe,
              one_weld_joins_two_tubes_at_a_corner,
              moving_a_weld_to_where_the_tube_bends_less_helps,
              what_is_welded_on_counts_by_its_length, a_brace_helps,
              a_hole_for_a_bolt_takes_its_width_out_of_the_wall,
              a_hole_with_a_thread_is_as_wide_as_the_screw, a_hole_that_leaves_no_wall_is_listed,
              a_mount_under_a_rail_counts_if_nothing_is_said_of_it,
              thin_walls_are_worked_out_and_said_to_be_outside,
              aluminium_needs_a_category_of_the_user, what_is_not_looked_at_is_listed));
}
