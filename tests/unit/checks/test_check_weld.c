/*
 * Welds in small frames: what is checked, by how much, what is listed instead, which bad designs
 * are found. Forces by statics, stresses by hand: EN 1993-1-8 4.5.3 from memory.
 */
#include "follow.h"
#include "weld_frames.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

/*
 * Rows WEL-088 to 091: tube 25 x 25, sharp, 600 N at 200 mm and 20 N m of twist. Sw = 833.3 mm^2:
 * 144 N/mm; 600/100 = 6; 20000 x 17.68/20833 = 16.97; sqrt(144^2 + 18^2 + 12^2) = 145.616 N/mm.
 * Throat 1.5 mm: limit 360/(sqrt(3) x 0.8 x 1.25) x 1.5 = 311.77 N/mm.
 */
START_TEST(a_tube_end_welded_all_round_matches_the_line_method)
{
    beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, fillet(0.0015));
    beam_force(&of, 0, B, 0.0, 0.0, -600.0);
    beam_moment(&of, 0, B, 20.0, 0.0, 0.0);
    of.limits.weld_rule = TRIVET_WELDS_SIMPLIFIED;
    of.limits.loads = 1.0;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "weld", "rail", "push");
    const double corner = 20.0 * 0.0125 / (0.05 * 0.05 * 0.05 / 6.0); /* each part of the twist */
    near_relative(fabs(working_value(&of, "weld", "rail", "push", "q_x")), 144e3, SOLVED);
    near_relative(check.demand, hypot(144e3, hypot(6e3 + corner, corner)), SOLVED);
    ck_assert(fabs(check.demand - 145.616e3) <= 1.46);
    near_relative(check.limit, 360e6 / sqrt(3.0) * 0.0015, 1e-14);
    ck_assert_int_eq(check.dimension, TRIVET_LINE_LOAD);
    ck_assert_int_eq(check.line, TRIVET_LINE_OVERLOAD);
    ck_assert_str_eq(check.subject, "weld of");
    ck_assert_int_eq(check.joint, A);
    ck_assert(check.at == 0.0);
    follow_weld(&of, "rail");
    beam_free(&of);
}
END_TEST

/*
 * 100 N down at 200 mm, throat of none said: 0.7 x 2 = 1.4 mm. At the bottom q_x = 20000/833.33 =
 * 24 N/mm, the shear 1 N/mm runs along the sides and across top and bottom; at a corner, on the
 * top: q_x = 24, q_n = 1: 1.5 sqrt(2 (24^2 + 24 + 1))/1.4; allowed 360.
 */
START_TEST(the_directional_method_takes_the_worst_side_of_a_corner)
{
    beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, fillet(0.0));
    beam_force(&of, 0, B, 0.0, 0.0, -100.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "weld", "rail", "push");
    near_relative(check.demand, 1.5 * sqrt(2.0 * (24.0 * 24.0 + 24.0 + 1.0)) / 1.4 * 1e6, SOLVED);
    near_relative(check.limit, 360e6, 1e-14);
    ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
    ck_assert_ptr_nonnull(strstr(check.note, "thinner than the 3 mm"));
    follow_weld(&of, "rail");
    beam_free(&of);
}
END_TEST

/* The weld at the last end sees the forces there; the place says which end. Half of the push each.
 */
START_TEST(the_last_end_has_its_own_weld)
{
    beam of = tee(0.0, 0.2);
    weld_end(&of, 0, C, fillet(0.001));
    beam_force(&of, 0, B, 500.0, 0.0, 0.0);
    of.limits.loads = 1.0;
    beam_check(&of);
    const trivet_check check = beam_find(&of, "weld", "rail", "push");
    near_relative(check.demand, sqrt(2.0) * 250.0 / 0.1 / 0.001, SOLVED);
    near_relative(check.at, 0.4, 1e-14);
    ck_assert_int_eq(check.joint, C);
    ck_assert_str_eq(beam_omission(&of, "weld of rail at A"), "no weld is given");
    beam_free(&of);
}
END_TEST

/* A weld said for both ends is none where there is nothing to weld to. */
START_TEST(an_end_in_the_air_has_no_weld)
{
    beam of = tee(0.0, 0.2);
    weld_end(&of, 1, -1, fillet(0.001));
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    ck_assert_int_eq(beam_find(&of, "weld", "post", "push").joint, B); /* the only one */
    beam_free(&of);
}
END_TEST

/*
 * A brace at 45 degrees, pulled along by 2000 N: cut of 2 x 25 (1 + sqrt(2)) = 120.71 mm; square to
 * it and in it 1414.2 N each: 11.716 N/mm. The sides across the lean have it across: sqrt(6) q/a.
 */
START_TEST(a_brace_is_cut_aslant_and_its_forces_are_turned)
{
    beam of = tee(0.2, 0.2);
    const double along = 2000.0 / sqrt(2.0);
    weld_end(&of, 1, B, fillet(0.0014));
    beam_force(&of, 0, D, along, 0.0, along);
    of.limits.loads = 1.0;
    beam_check(&of);
    const double q = along / (0.05 * (1.0 + sqrt(2.0)));
    near_relative(beam_find(&of, "weld", "post", "push").demand, sqrt(6.0) * q / 0.0014, SOLVED);
    near_relative(working_value(&of, "weld", "post", "push", "theta"), atan(1.0), 1e-14);
    near_relative(working_value(&of, "weld", "post", "push", "q_x"), q, SOLVED);
    follow_weld(&of, "post");
    beam_free(&of);
    /* The same weld on a square post: 100 mm, nothing in the cut. */
    of = tee(0.0, 0.2);
    weld_end(&of, 1, B, fillet(0.0014));
    beam_force(&of, 0, D, 0.0, 0.0, 2000.0);
    of.limits.loads = 1.0;
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").demand, sqrt(2.0) * 2000.0 / 0.1 / 0.0014,
                  SOLVED);
    beam_free(&of);
}
END_TEST

/* Leaning forward or back, welded at the first or the last end: the mirror image is as strong. */
START_TEST(mirrored_braces_are_equally_strong)
{
    double demand[4];
    for (int i = 0; i < 4; i++) {
        const double x = i % 2 ? 0.3 : -0.3;
        beam of = i < 2 ? tee_from(x, 0.2, B, D) : tee_from(x, 0.2, D, B);
        weld_end(&of, 1, B, fillet(0.0014));
        beam_force(&of, 0, D, i % 2 ? 50.0 : -50.0, 20.0, -80.0);
        beam_check(&of);
        demand[i] = beam_find(&of, "weld", "post", "push").demand;
        follow_weld(&of, "post");
        beam_free(&of);
    }
    for (int i = 1; i < 4; i++) {
        near_relative(demand[i], demand[0], SOLVED);
    }
}
END_TEST

/* ---- what is welded, what is not ---- */

START_TEST(welds_that_nobody_speaks_of_are_listed)
{
    beam of = tee(0.0, 0.2);
    trivet_weld none = fillet(0.0);
    none.kind = TRIVET_WELD_NONE;
    beam_force(&of, 0, D, 0.0, 0.0, 1.0);
    beam_check(&of);
    ck_assert_str_eq(beam_omission(&of, "weld of post at B"), "no weld is given");
    ck_assert_str_eq(beam_omission(&of, "weld of rail at A"), "no weld is given"); /* a mount */
    ck_assert_ptr_null(beam_omission(&of, "weld of post at D")); /* it ends in the air */
    ck_assert_ptr_null(beam_omission(&of, "weld of rail at B")); /* it runs on */
    beam_free(&of);
    of = tee(0.0, 0.2);
    beam_force(&of, 0, D, 0.0, 0.0, 1.0);
    weld_end(&of, 1, B, none);
    DO(trivet_frame_set_free_end(of.frame, 0, C, TRIVET_PINNED, NULL));
    beam_check(&of);
    ck_assert_ptr_null(beam_omission(&of, "weld of post at B"));
    ck_assert_ptr_null(beam_omission(&of, "weld of rail at C"));
    ck_assert_ptr_nonnull(beam_omission(&of, "weld of rail at A"));
    beam_free(&of);
}
END_TEST

static void bolt_end(beam *of, int32_t kind, int32_t index, int32_t joint)
{
    trivet_bolts bolts;
    trivet_message message = {0};
    DO(trivet_bolts_defaults(&bolts, sizeof bolts));
    bolts.where_kind = kind;
    bolts.where_index = index;
    bolts.joint = joint;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    must(trivet_frame_add_bolts(of->frame, &bolts, NULL, &message), &message);
}

START_TEST(bolted_ends_have_no_weld)
{
    beam of = tee(0.0, 0.2);
    beam_force(&of, 0, D, 0.0, 0.0, 1.0);
    weld_end(&of, 1, B, fillet(0.001));
    bolt_end(&of, TRIVET_KIND_TUBE, 1, B);
    bolt_end(&of, TRIVET_KIND_MOUNT, 0, -1);
    beam_check(&of);
    for (int32_t i = 0; i < trivet_checks_count(of.checks); i++) {
        trivet_check at = {.size = sizeof at};
        DO(trivet_checks_at(of.checks, i, &at));
        ck_assert_str_ne(at.check, "weld");
    }
    ck_assert_ptr_null(beam_omission(&of, "weld of post at B"));
    ck_assert_ptr_null(beam_omission(&of, "weld of rail at A"));
    ck_assert_ptr_nonnull(beam_omission(&of, "weld of rail at C"));
    beam_free(&of);
}
END_TEST

/* Two tubes end at B: one weld holds both, wherever it is said. */
START_TEST(a_corner_has_one_weld)
{
    beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    must_add_joint(of.frame, "C", 0.2, 0.2, 0.0);
    beam_tube(&of, "side", 0, B, C);
    weld_end(&of, 1, B, fillet(0.001));
    beam_force(&of, 0, C, 0.0, 300.0, 0.0);
    of.limits.loads = 1.0;
    beam_check(&of);
    ck_assert_ptr_null(beam_omission(&of, "weld of rail at B"));
    /* Pulled along side, which stands square on rail. */
    near_relative(beam_find(&of, "weld", "side", "push").demand, sqrt(2.0) * 300.0 / 0.1 / 0.001,
                  SOLVED);
    beam_free(&of);
    of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    must_add_joint(of.frame, "C", 0.4, 0.0, 0.0);
    beam_tube(&of, "more", 0, B, C);
    beam_force(&of, 0, C, 300.0, 0.0, 0.0);
    weld_end(&of, 1, B, fillet(0.001)); /* end to end: square */
    of.limits.loads = 1.0;
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "more", "push").demand, sqrt(2.0) * 300.0 / 0.1 / 0.001,
                  SOLVED);
    beam_free(&of);
}
END_TEST

/* ---- bad designs ---- */

/*
 * Tube 25 x 25 x 2 under 70 N m: the tube stands it (W = 1.4 cm^3: 49 of 157 N/mm^2). Two spots of
 * 4 mm, top and bottom: 1.5 x 70/0.025 = 4200 N each, of 360/sqrt(3)/1.25 x 12.57 = 2089 N. Welded
 * all round with 1.4 mm it holds: 1.5 sqrt(2) x 84/1.4 = 127 of 360 N/mm^2.
 */
START_TEST(spots_too_few_are_what_lets_go_first)
{
    char text[512];
    trivet_weld spots = fillet(0.0);
    spots.kind = TRIVET_WELD_SPOTS;
    spots.spot_count = 2;
    spots.spot_diameter = 0.004;
    beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, spots);
    beam_moment(&of, 0, B, 0.0, 70.0, 0.0);
    beam_check(&of);
    int32_t worst = -1;
    trivet_check check = {.size = sizeof check};
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_OVERLOAD, &worst), TRIVET_FAILS);
    DO(trivet_checks_at(of.checks, worst, &check));
    ck_assert_str_eq(check.check, "weld");
    near_relative(check.demand, 4200.0, SOLVED);
    near_relative(check.limit, 360e6 / sqrt(3.0) / 1.25 * acos(-1.0) * 4e-6, 1e-14);
    ck_assert_int_eq(beam_find(&of, "yield", "rail", "push").verdict, TRIVET_HOLDS);
    trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, text, sizeof text);
    ck_assert_str_eq(text,
                     "weld of rail at A carries 4200 of 2089 N in push (used 201 %); a weld all "
                     "round instead of spots, or more and larger spots, helps most");
    follow_weld(&of, "rail");
    beam_free(&of);
    of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, fillet(0.0));
    beam_moment(&of, 0, B, 0.0, 70.0, 0.0);
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "rail", "push").demand,
                  1.5 * sqrt(2.0) * 70.0 / 833.3333333333333e-6 / 0.0014, SOLVED);
    ck_assert_int_eq(trivet_checks_verdict(of.checks, TRIVET_LINE_OVERLOAD, NULL), TRIVET_HOLDS);
    beam_free(&of);
}
END_TEST

/* Half the run carries twice the stress; one side alone bends about its own line and fails. */
START_TEST(part_of_the_way_round_carries_more)
{
    char text[512];
    trivet_weld weld = fillet(0.0014);
    weld.run = 0.5;
    beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, weld);
    beam_force(&of, 0, B, 1000.0, 0.0, 0.0);
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "rail", "push").demand,
                  1.5 * sqrt(2.0) * 1000.0 / 0.05 / 0.0014, SOLVED);
    beam_free(&of);
    weld = fillet(0.0014);
    weld.sides = TRIVET_SIDE_TOP;
    of = cantilever(sharp_tube(0.025, 0.002), 0.2);
    weld_end(&of, 0, A, weld);
    beam_force(&of, 0, B, 1000.0, 0.0, 0.0);
    beam_check(&of);
    /* 40 N/mm, and 1000 x 12.5 about the line: 6 x 12500/(25 x 1.4) = 2142.9 N/mm. */
    near_relative(beam_find(&of, "weld", "rail", "push").demand,
                  1.5 * sqrt(2.0) * (40e3 + 6.0 * 12.5 / (0.025 * 0.0014)) / 0.0014, SOLVED);
    working_sentence(&of, "weld", "rail", "push", text);
    ck_assert_ptr_nonnull(strstr(text, "welding all round helps most"));
    ck_assert_ptr_nonnull(strstr(text, "shorter than EN 1993-1-8 4.5.1 counts"));
    follow_weld(&of, "rail");
    beam_free(&of);
}
END_TEST

/* 1400 N at 200 mm on 833.3 mm^2: 336 N/mm; 1.5 sqrt(2) x 336/2 = 356 of 360: tight. */
START_TEST(a_full_throat_sends_to_a_larger_tube)
{
    static const char *const HELPS[] = {"a thicker throat does not help beyond the wall",
                                        "a thicker throat helps, up to the thickness of the wall"};
    for (int i = 0; i < 2; i++) {
        char text[512];
        beam of = cantilever(sharp_tube(0.025, 0.002), 0.2);
        weld_end(&of, 0, A, fillet(i == 0 ? 0.002 : 0.001));
        beam_force(&of, 0, B, 0.0, 0.0, -1400.0);
        beam_check(&of);
        working_sentence(&of, "weld", "rail", "push", text);
        ck_assert_ptr_nonnull(strstr(text, HELPS[i]));
        ck_assert_ptr_null(strstr(text, "only as thick as the wall"));
        beam_free(&of);
    }
}
END_TEST

int main(void)
{
    return run_tests(
        "welds",
        TESTS(a_tube_end_welded_all_round_matches_the_line_method,
              the_directional_method_takes_the_worst_side_of_a_corner,
              the_last_end_has_its_own_weld, an_end_in_the_air_has_no_weld,
              a_brace_is_cut_aslant_and_its_forces_are_turned, mirrored_braces_are_equally_strong,
              welds_that_nobody_speaks_of_are_listed, bolted_ends_have_no_weld,
              a_corner_has_one_weld, spots_too_few_are_what_lets_go_first,
              part_of_the_way_round_carries_more, a_full_throat_sends_to_a_larger_tube));
}
