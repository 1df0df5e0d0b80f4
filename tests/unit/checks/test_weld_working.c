/*
 * What a weld in a frame stands: throat, weaker part, weld metal, each rule; and its working, line
 * by line. By hand: EN 1993-1-8 4.5.3 and AISC 360 J2 from memory.
 */
#include "follow.h"
#include "weld_frames.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

/* q_x = 1000/100 = 10 N/mm in all of these. */
START_TEST(the_throat_never_counts_above_the_thinner_wall)
{
    beam of = pulled_post(sharp_tube(0.025, 0.003), steel(360e6), fillet(0.004));
    beam_check(&of);
    trivet_check check = beam_find(&of, "weld", "post", "push");
    near_relative(check.demand, 1.5 * sqrt(2.0) * 10e3 / 0.0015, SOLVED);
    ck_assert_ptr_nonnull(strstr(check.note, "only as thick as the wall"));
    follow_weld(&of, "post");
    beam_free(&of);
    /* None is said: 0.7 x 3 = 2.1, cut down to 1.5 mm. */
    of = pulled_post(sharp_tube(0.025, 0.003), steel(360e6), fillet(0.0));
    beam_check(&of);
    check = beam_find(&of, "weld", "post", "push");
    near_relative(check.demand, 1.5 * sqrt(2.0) * 10e3 / 0.0015, SOLVED);
    follow_weld(&of, "post");
    beam_free(&of);
    /* A bar has no wall: 0.7 of the rail's. */
    of = pulled_post(square_bar(0.025), steel(360e6), fillet(0.0));
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").demand,
                  1.5 * sqrt(2.0) * 10e3 / (0.7 * 0.0015), SOLVED);
    beam_free(&of);
    of = cantilever(square_bar(0.02), 0.2);
    weld_end(&of, 0, A, fillet(0.0));
    beam_force(&of, 0, B, 1.0, 0.0, 0.0);
    beam_check(&of);
    ck_assert_str_eq(beam_omission(&of, "weld of rail at A"),
                     "its throat is not given, and there is no wall to take it from");
    beam_free(&of);
}
END_TEST

START_TEST(the_weaker_part_and_the_weaker_metal_count)
{
    const double none = (double)NAN;
    const struct {
        double post;
        double filler;
        double counts;
    } rows[] = {
        {310e6, none, 310e6}, {500e6, none, 360e6}, {500e6, 300e6, 300e6}, {500e6, 480e6, 360e6}};
    const trivet_profile tube = sharp_tube(0.025, 0.0015);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        trivet_weld weld = fillet(0.001);
        weld.filler = rows[i].filler;
        beam with = pulled_post(tube, steel(rows[i].post), weld);
        beam_check(&with);
        near_relative(beam_find(&with, "weld", "post", "push").limit, rows[i].counts / (0.8 * 1.25),
                      1e-14);
        follow_weld(&with, "post");
        beam_free(&with);
    }
    /* Softened by welding, like aluminium: no correlation to its advantage. */
    trivet_material soft = steel(260e6);
    soft.E = 70e9;
    soft.welded_yield = 115e6;
    soft.welded_tensile = 175e6;
    beam of = pulled_post(tube, soft, fillet(0.001));
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").limit, 175e6 / 1.25, 1e-14);
    beam_free(&of);
}
END_TEST

START_TEST(what_is_not_known_is_listed)
{
    const trivet_profile tube = sharp_tube(0.025, 0.0015);
    beam of = pulled_post(tube, steel((double)NAN), fillet(0.001));
    beam_check(&of);
    ck_assert_str_eq(beam_omission(&of, "weld of post at B"),
                     "the tensile strength of a material beside the weld is not known");
    beam_free(&of);
    trivet_profile given;
    DO(trivet_profile_defaults(&given, sizeof given));
    given.shape = TRIVET_SHAPE_GIVEN_VALUES;
    given.given_area = 1e-4;
    given.given_second_moment[0] = given.given_second_moment[1] = 1e-8;
    given.given_torsion_constant = 1e-8;
    of = pulled_post(given, steel(360e6), fillet(0.001));
    beam_check(&of);
    ck_assert_str_eq(beam_omission(&of, "weld of post at B"),
                     "the outline of its stock is not known");
    beam_free(&of);
}
END_TEST

/*
 * AISC: 10 N/mm as it is. Square tube: 0.6 x 360 x 1.0/2 = 108 N/mm; filler 480: 144; wall 1.5 mm:
 * 162. Round bar of 20 mm: the force is square to the weld, 1.5 times: 162 of 162 N/mm.
 */
START_TEST(the_american_rule_takes_loads_as_they_are)
{
    trivet_weld weld = fillet(0.001);
    beam of = pulled_post(sharp_tube(0.025, 0.0015), steel(360e6), weld);
    of.limits.weld_rule = TRIVET_WELDS_AISC;
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").demand, 10e3, SOLVED);
    near_relative(beam_find(&of, "weld", "post", "push").limit, 108e3, 1e-14);
    follow_weld(&of, "post");
    beam_free(&of);
    weld.filler = 480e6;
    of = pulled_post(sharp_tube(0.025, 0.0015), steel(360e6), weld);
    of.limits.weld_rule = TRIVET_WELDS_AISC;
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").limit, 144e3, 1e-14);
    follow_weld(&of, "post");
    beam_free(&of);
    of = pulled_post(round_bar(0.02), steel(360e6), fillet(0.0009));
    of.limits.weld_rule = TRIVET_WELDS_AISC;
    beam_check(&of);
    near_relative(beam_find(&of, "weld", "post", "push").limit, 1.5 * 97.2e3, SOLVED);
    near_relative(beam_find(&of, "weld", "post", "push").demand, 1000.0 / (acos(-1.0) * 0.02),
                  SOLVED);
    follow_weld(&of, "post");
    beam_free(&of);
}
END_TEST

/* ---- the working ---- */

/* Every kind of line of working: skew, row, spots of each spread, each rule, leaning or not. */
START_TEST(every_working_follows)
{
    const struct {
        uint32_t sides;
        int32_t spots;
    } welds[] = {
        {TRIVET_SIDES_ALL, 0},
        {TRIVET_SIDE_TOP | TRIVET_SIDE_LEFT, 0},
        {TRIVET_SIDE_LEFT, 0},
        {TRIVET_SIDES_ALL, 5},
        {TRIVET_SIDE_BOTTOM | TRIVET_SIDE_LEFT, 3},
        {TRIVET_SIDES_ALL, 2},
        {TRIVET_SIDE_TOP, 3},
        {TRIVET_SIDES_ALL, 1},
        {TRIVET_SIDES_ALL, 1000},
    };
    const int count = (int)(sizeof welds / sizeof welds[0]);
    for (int i = 0; i < 3 * count; i++) {
        for (int leans = 0; leans < 2; leans++) {
            beam of = tee(leans ? 0.15 : 0.0, 0.2);
            trivet_weld weld = fillet(i % 2 ? 0.0 : 0.0015);
            weld.sides = welds[i % count].sides;
            weld.kind = welds[i % count].spots ? TRIVET_WELD_SPOTS : TRIVET_WELD_FILLET;
            weld.spot_count = welds[i % count].spots;
            weld.spot_diameter = 0.005;
            weld.filler = i % 4 < 2 ? 480e6 : (double)NAN;
            weld_end(&of, 1, B, weld);
            beam_force(&of, 0, D, 210.0, -130.0, 370.0);
            beam_moment(&of, 0, D, 11.0, 5.0, -7.0);
            of.limits.weld_rule = i / count;
            beam_check(&of);
            follow_weld(&of, "post");
            beam_free(&of);
        }
    }
}
END_TEST

START_TEST(no_load_uses_nothing)
{
    for (int32_t rule = 0; rule < 3; rule++) {
        beam of = cantilever(round_bar(0.02), 0.2);
        must_add_joint(of.frame, "C", 0.2, 0.2, 0.0);
        beam_tube(&of, "side", 0, B, C);
        weld_end(&of, 1, B, fillet(0.002));
        beam_force(&of, 0, A, 0.0, 0.0, 1.0); /* on the mount: nothing for the tubes */
        of.limits.weld_rule = rule;
        beam_check(&of);
        const trivet_check check = beam_find(&of, "weld", "side", "push");
        ck_assert(check.utilisation == 0.0 && check.limit > 0.0);
        ck_assert_int_eq(check.verdict, TRIVET_HOLDS);
        beam_free(&of);
    }
}
END_TEST

int main(void)
{
    return run_tests("weld working",
                     TESTS(the_throat_never_counts_above_the_thinner_wall,
                           the_weaker_part_and_the_weaker_metal_count, what_is_not_known_is_listed,
                           the_american_rule_takes_loads_as_they_are, every_working_follows,
                           no_load_uses_nothing));
}
