/*
 * Walls that tubes are welded onto, in small frames: what is checked, by how much, what is listed
 * instead. Forces by statics; resistances by hand on EN 1993-1-8:2005 chapter 7 (from memory).
 */
#include "beam.h"
#include "formula.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SYMBOLS_MAX = 64 };

#define SIX_DIGITS 5e-6
#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

/* Joints of a tee. */
enum { A = 0, B = 1, C = 2, D = 3 };

static const double UP[3] = {0.0, 0.0, 0.2};
static const double SLANTED[3] = {0.2, 0.0, 0.2};

/* A rail A-B-C of 400 mm, clamped at both ends, a post from B to D, rolled by roll; no load yet. */
static beam rolled_tee(trivet_profile rail, trivet_profile post, const double to[3], double roll)
{
    beam of = beam_new();
    must_add_joint(of.frame, "A", -0.2, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.2, 0.0, 0.0);
    must_add_joint(of.frame, "D", to[0], to[1], to[2]);
    const trivet_material steel = beam_material(235e6, 0.0);
    const int32_t joints[2] = {B, D};
    beam_tube_of_three(&of, "rail", beam_stock(&of, "rail", rail, steel), A, B, C);
    DO(trivet_frame_add_tube(of.frame, "post", joints, 2, beam_stock(&of, "post", post, steel),
                             roll, NULL, NULL));
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, C, TRIVET_ALL);
    beam_case(&of, "push");
    return of;
}

static beam tee(trivet_profile rail, trivet_profile post, const double to[3])
{
    return rolled_tee(rail, post, to, 0.0);
}

static const char *why_not(const beam *of)
{
    const char *const why = beam_omission(of, "wall of rail where post is welded on at B");
    return why ? why : "";
}

static int32_t count_walls(const beam *of, int32_t *last_out)
{
    int32_t count = 0;
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check check = {.size = sizeof check};
        DO(trivet_checks_at(of->checks, i, &check));
        if (strcmp(check.check, "chord wall") == 0) {
            *last_out = i;
            count++;
        }
    }
    return count;
}

/* The value of a line of the only check of a wall; NaN if there is no such line. */
static double line_of(const beam *of, const char *symbol)
{
    int32_t index = -1;
    trivet_check check = {.size = sizeof check};
    ck_assert_int_eq(count_walls(of, &index), 1);
    DO(trivet_checks_at(of->checks, index, &check));
    for (int32_t i = 0; i < check.step_count; i++) {
        trivet_step step = {.size = sizeof step};
        DO(trivet_checks_step(of->checks, index, i, &step));
        if (strcmp(step.symbol, symbol) == 0) {
            return step.value;
        }
    }
    return (double)NAN;
}

/* Works out every formula of a check from the lines above it. */
static void follow_lines(const beam *of, int32_t index)
{
    trivet_check check = {.size = sizeof check};
    formula_symbol symbols[SYMBOLS_MAX];
    DO(trivet_checks_at(of->checks, index, &check));
    ck_assert_int_gt(check.step_count, 10);
    ck_assert_int_le(check.step_count, SYMBOLS_MAX);
    for (int32_t i = 0; i < check.step_count; i++) {
        trivet_step step = {.size = sizeof step};
        DO(trivet_checks_step(of->checks, index, i, &step));
        ck_assert_msg(step.source && step.source[0], "%s: no source", step.symbol);
        if (step.formula[0]) {
            const double worked_out = formula_value(step.formula, symbols, i);
            /* A hundred roundings. */
            ck_assert_msg(fabs(step.value - worked_out) <= 1e-14 * fabs(step.value),
                          "%s = %s: %.17g, not %.17g", step.symbol, step.formula, step.value,
                          worked_out);
        }
        snprintf(symbols[i].name, sizeof symbols[i].name, "%s", step.symbol);
        symbols[i].value = step.value;
    }
    ck_assert_str_eq(symbols[check.step_count - 1].name, "used");
    ck_assert(symbols[check.step_count - 1].value == check.utilisation);
    ck_assert(symbols[check.step_count - 2].value == check.limit);
}

/* The same for the only check of a wall. */
static void follow(const beam *of)
{
    int32_t index = -1;
    ck_assert_int_eq(count_walls(of, &index), 1);
    follow_lines(of, index);
}

/*
 * 25 x 2 on 40 x 3, pulled with 5000 N: the face stands 20865.1 N (25 on 40 x 3, see
 * tests/values); its own bending, M = P L / 8, does not lower that: n / beta is under 0.75.
 */
START_TEST(pull_against_the_face)
{
    beam of = tee(square_tube(0.04, 0.003), square_tube(0.025, 0.002), UP);
    beam_force(&of, 0, D, 0.0, 0.0, 5000.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "chord wall", "rail", "push");
    near_relative(check.utilisation, 1.5 * 5000.0 / 20865.1, SIX_DIGITS);
    near_relative(fabs(line_of(&of, "My_0")), 5000.0 * 0.4 / 8.0, 1e-3);
    ck_assert_int_eq(check.line, TRIVET_LINE_OVERLOAD);
    ck_assert_int_eq(check.joint, B);
    ck_assert_str_eq(check.subject, "wall of");
    ck_assert_ptr_nonnull(strstr(check.note, "2.5 mm"));
    near_relative(check.at, 0.2, 1e-12);
    follow(&of);
    beam_free(&of);
}
END_TEST

/*
 * 20 x 2 on 60 x 2, 350 N at 0.2 m: 70 N m. Face: 235 * 4 * 20 (1.5 + 2 / 0.816497 + 0.5) =
 * 83650.4 N mm; 1.5 * 70 / 83.6504 = 1.25522. The post itself holds that.
 */
START_TEST(a_face_that_is_too_thin_fails_and_is_named)
{
    beam of = tee(square_tube(0.06, 0.002), square_tube(0.02, 0.002), UP);
    int32_t index = -1;
    char text[512];
    beam_force(&of, 0, D, 350.0, 0.0, 0.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "chord wall", "rail", "push");
    near_relative(check.utilisation, 1.25522, SIX_DIGITS);
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    ck_assert_int_eq(beam_find(&of, "yield", "post", "push").verdict, TRIVET_HOLDS);
    ck_assert_int_eq(beam_find(&of, "yield", "rail", "push").verdict, TRIVET_HOLDS);
    count_walls(&of, &index);
    trivet_checks_sentence_of(of.checks, index, NULL, text, sizeof text);
    ck_assert_msg(strstr(text, "wall of rail at B is loaded to 1.26 of 1 in push (used 126 %); a "
                               "thicker wall") == text,
                  "%s", text);
    ck_assert_msg(strstr(text, "outside the range of EN 1993-1-8") != NULL, "%s", text);
    follow(&of);
    beam_free(&of);
    /* Out of the plane: the same post pushed across the rail. */
    of = tee(square_tube(0.06, 0.002), square_tube(0.02, 0.002), UP);
    beam_force(&of, 0, D, 0.0, 350.0, 0.0);
    beam_check(&of);
    near_relative(fabs(line_of(&of, "M_o")), 70.0, 1e-10);
    near_scaled(line_of(&of, "M_i"), 0.0, 1e-12, 70.0);
    /* 235 * 4 (20 * 4 / 3 / (4 / 3) + sqrt(2 * 60 * 20 * 2)) = 940 (20 + 69.2820) */
    near_relative(line_of(&of, "M_oR"), 83.9251, SIX_DIGITS);
    beam_free(&of);
}
END_TEST

/* Which formulas are shown depends on the shapes; each set of lines must follow from itself. */
START_TEST(every_working_follows_from_its_lines)
{
    const struct {
        trivet_profile rail;
        trivet_profile post;
        const double *to;
        double lift;
    } rows[] = {
        {square_tube(0.04, 0.003), square_tube(0.025, 0.0025), SLANTED, 900.0},
        {square_tube(0.04, 0.003), round_tube(0.025, 0.002), UP, 900.0},
        {square_tube(0.04, 0.003), square_tube(0.04, 0.003), UP, 900.0},
        {square_tube(0.04, 0.003), square_tube(0.04, 0.003), SLANTED, -900.0},
        {square_tube(0.06, 0.003), square_tube(0.052, 0.003), UP, -900.0},
        {round_tube(0.0424, 0.0026), round_tube(0.0269, 0.0023), UP, -900.0},
        {round_tube(0.0424, 0.0026), round_tube(0.0269, 0.0023), SLANTED, 900.0},
        {round_tube(0.0424, 0.0026), square_tube(0.025, 0.002), UP, 900.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        beam of = tee(rows[i].rail, rows[i].post, rows[i].to);
        beam_force(&of, 0, D, 120.0, 70.0, rows[i].lift);
        beam_check(&of);
        ck_assert_msg(why_not(&of)[0] == '\0', "%d: %s", (int)i, why_not(&of));
        follow(&of);
        beam_free(&of);
    }
}
END_TEST

/* A tee with a second post from B, away from the first or beside it. */
static beam two_posts(trivet_profile rail, trivet_profile post, double x, double y, double z)
{
    beam of = tee(rail, post, UP);
    const int32_t foot = must_add_joint(of.frame, "E", x, y, z);
    beam_tube(&of, "foot", 1, B, foot);
    beam_force(&of, 0, D, 120.0, 70.0, -900.0);
    return of;
}

static void follow_cross(trivet_profile rail, trivet_profile post)
{
    beam of = two_posts(rail, post, 0.0, 0.0, -0.2);
    beam_check(&of);
    int32_t index = -1;
    ck_assert_int_eq(count_walls(&of, &index), 2);
    trivet_check check = {.size = sizeof check};
    DO(trivet_checks_at(of.checks, index, &check));
    ck_assert_ptr_nonnull(strstr(check.note, "opposite faces"));
    for (index = 0; index < trivet_checks_count(of.checks); index++) {
        DO(trivet_checks_at(of.checks, index, &check));
        if (strcmp(check.check, "chord wall") == 0) {
            follow_lines(&of, index);
        }
    }
    ck_assert_ptr_null(beam_omission(&of, "how several tubes at B work on one wall together"));
    beam_free(&of);
}

START_TEST(tubes_on_opposite_faces_are_a_cross)
{
    follow_cross(square_tube(0.04, 0.003), square_tube(0.04, 0.003));
    follow_cross(round_tube(0.0424, 0.0026), round_tube(0.0269, 0.0023));
    follow_cross(round_tube(0.0424, 0.0026), square_tube(0.025, 0.002));
}
END_TEST

START_TEST(tubes_side_by_side_are_listed)
{
    beam of = two_posts(square_tube(0.04, 0.003), square_tube(0.025, 0.002), 0.0, 0.2, 0.0);
    int32_t index = -1;
    beam_check(&of);
    ck_assert_int_eq(count_walls(&of, &index), 2);
    ck_assert_ptr_nonnull(beam_omission(&of, "how several tubes at B work on one wall together"));
    beam_free(&of);
}
END_TEST

/*
 * Rail clamped at one end and pressed along itself with 40 kN: sigma = 40000 / A, n = 1.5 of that
 * over 235, kn = 1.3 - 0.4 n / 0.625. A of 40 x 3 (EN 10219-2, corners 6 and 3 mm): 4 * 3 * 37 -
 * (4 - pi) 27 = 420.823 mm^2: n = 0.606714, kn = 0.911703.
 */
START_TEST(compression_along_the_rail_counts)
{
    beam of = beam_new();
    const trivet_material steel = beam_material(235e6, 0.0);
    must_add_joint(of.frame, "A", -0.2, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.2, 0.0, 0.0);
    must_add_joint(of.frame, "D", 0.0, 0.0, 0.2);
    beam_tube_of_three(&of, "rail", beam_stock(&of, "rail", square_tube(0.04, 0.003), steel), A, B,
                       C);
    beam_tube(&of, "post", beam_stock(&of, "post", square_tube(0.025, 0.002), steel), B, D);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_case(&of, "push");
    beam_force(&of, 0, C, -40000.0, 0.0, 0.0);
    beam_check(&of);
    near_relative(line_of(&of, "n"), 0.606714, SIX_DIGITS);
    near_relative(line_of(&of, "k_n"), 0.911703, SIX_DIGITS);
    beam_free(&of);
}
END_TEST

/* What is outside the rules is listed with its reason, and has no record. */
static void expect_listed(beam of, const char *reason)
{
    int32_t index = -1;
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    ck_assert_int_eq(count_walls(&of, &index), 0);
    ck_assert_msg(strstr(why_not(&of), reason) != NULL, "%s: %s", reason, why_not(&of));
    beam_free(&of);
}

START_TEST(what_the_rules_do_not_know_is_listed)
{
    const trivet_profile rail = square_tube(0.04, 0.003);
    const trivet_profile post = square_tube(0.025, 0.002);
    const double flat[3] = {0.2, 0.0, 0.1};
    const double across[3] = {0.0, 0.1, 0.1};
    expect_listed(tee(rail, post, flat), "30 degrees");
    expect_listed(tee(rail, post, across), "one face");
    expect_listed(rolled_tee(rail, post, UP, 0.2), "rolled");
    expect_listed(tee(rail, square_tube(0.045, 0.002), UP), "wider");
    expect_listed(tee(rail, square_bar(0.025), UP), "none");
    expect_listed(tee(angle_bar(0.04, 0.04, 0.003), post, UP), "no round");
    /* A little roll is nobody's fault. */
    beam of = rolled_tee(rail, post, UP, 0.05);
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    beam_find(&of, "chord wall", "rail", "push");
    beam_free(&of);
}
END_TEST

START_TEST(a_solid_bar_has_no_wall)
{
    beam of = tee(square_bar(0.04), square_tube(0.025, 0.002), UP);
    int32_t index = -1;
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    ck_assert_int_eq(count_walls(&of, &index), 0);
    ck_assert_str_eq(why_not(&of), "");
    beam_free(&of);
}
END_TEST

START_TEST(bolted_ends_and_loose_ends_are_none_of_its_business)
{
    for (int is_bolted = 0; is_bolted < 2; is_bolted++) {
        beam of = tee(square_tube(0.04, 0.003), square_tube(0.025, 0.002), UP);
        int32_t index = -1;
        if (is_bolted) {
            trivet_bolts bolts;
            DO(trivet_bolts_defaults(&bolts, sizeof bolts));
            bolts.where_kind = TRIVET_KIND_TUBE;
            bolts.where_index = 1;
            bolts.joint = B;
            strcpy(bolts.thread, "M6");
            strcpy(bolts.grade, "8.8");
            DO(trivet_frame_add_bolts(of.frame, &bolts, NULL, NULL));
        } else {
            trivet_weld weld;
            DO(trivet_weld_defaults(&weld, sizeof weld));
            weld.kind = TRIVET_WELD_NONE;
            DO(trivet_frame_set_weld(of.frame, 1, B, &weld, NULL));
        }
        beam_force(&of, 0, D, 0.0, 0.0, 100.0);
        beam_check(&of);
        ck_assert_int_eq(count_walls(&of, &index), 0);
        ck_assert_str_eq(why_not(&of), "");
        beam_free(&of);
    }
}
END_TEST

START_TEST(an_insert_under_the_wall_is_told)
{
    beam of = tee(square_tube(0.04, 0.003), square_tube(0.025, 0.002), UP);
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.03), beam_material(235e6, 0.0));
    DO(trivet_frame_add_insert(of.frame, 0, B, 0.05, plug, TRIVET_SIDE_BY_SIDE, NULL));
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "chord wall", "rail", "push");
    ck_assert_ptr_nonnull(strstr(check.note, "the insert inside it is not counted on"));
    ck_assert_ptr_nonnull(strstr(check.note, "2.5 mm"));
    beam_free(&of);
}
END_TEST

/* Two tubes of 40 x 3, from A along x to B and on to C, clamped at A, 300 N along x at C. */
static beam corner(double x, double z, double sideways)
{
    beam of = beam_new();
    must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.3, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.3 + x, 0.0, z);
    const int32_t stock =
        beam_stock(&of, "tube", square_tube(0.04, 0.003), beam_material(235e6, 0.0));
    beam_tube(&of, "rail", stock, A, B);
    beam_tube(&of, "post", stock, B, C);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_case(&of, "push");
    beam_force(&of, 0, C, 300.0, sideways, 0.0);
    beam_check(&of);
    return of;
}

/*
 * 300 N at 0.3 m: 90 N m in both tubes; in the rail also 300 N of pull. A = 420.823 mm^2 as above.
 * W_pl of 40 x 3 (annex B of EN 10219-2): 5.72 cm^3 in its table.
 * n = 450 / (420.823 * 235) = 0.00455035, m = 135000 / (5720 * 235) = 0.100431,
 * (n + m) / 0.711054 = 0.147643; off by no more than half of the table's last digit, 1 in 1144.
 */
START_TEST(a_corner_of_two_equal_tubes)
{
    beam of = corner(0.0, 0.3, 0.0);
    const trivet_check check = beam_find(&of, "chord wall", "rail", "push");
    near_relative(line_of(&of, "n"), 0.00455035, SIX_DIGITS);
    near_relative(check.utilisation, 0.147643, 1.0 / 1144.0);
    ck_assert_str_eq(check.note, "");
    follow(&of);
    ck_assert_ptr_null(beam_omission(&of, "bending out of the plane of the corner at B"));
    beam_free(&of);
    /* Opened to 135 degrees. */
    of = corner(0.3, 0.3, 0.0);
    near_relative(line_of(&of, "theta"), 0.75 * acos(-1.0), 1e-12);
    follow(&of);
    beam_free(&of);
    /* Pushed sideways: bending out of the plane is listed. */
    of = corner(0.0, 0.3, 500.0);
    ck_assert_ptr_nonnull(beam_omission(&of, "bending out of the plane of the corner at B"));
    beam_free(&of);
    /* Straight on: no wall is welded onto. */
    of = corner(0.3, 0.0, 0.0);
    int32_t index = -1;
    ck_assert_int_eq(count_walls(&of, &index), 0);
    ck_assert_ptr_null(beam_omission(&of, "wall of rail where post is welded on at B"));
    beam_free(&of);
}
END_TEST

START_TEST(corners_of_other_tubes_are_listed)
{
    beam of = beam_new();
    const trivet_material steel = beam_material(235e6, 0.0);
    must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.3, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.3, 0.0, 0.3);
    const int32_t beyond = must_add_joint(of.frame, "E", 0.6, 0.0, 0.3);
    const int32_t box = beam_stock(&of, "box", square_tube(0.04, 0.003), steel);
    const int32_t small = beam_stock(&of, "small", square_tube(0.03, 0.003), steel);
    beam_tube(&of, "rail", box, A, B);
    beam_tube(&of, "post", small, B, C);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_case(&of, "push");
    beam_tube(&of, "top", box, C, beyond);
    beam_force(&of, 0, beyond, 0.0, 0.0, -100.0);
    beam_check(&of);
    ck_assert_ptr_nonnull(strstr(why_not(&of), "two equal tubes"));
    trivet_checks_free(of.checks);
    trivet_result_free(of.result);
    /* A third tube that ends at B as well. */
    beam_tube(&of, "side", box, B, must_add_joint(of.frame, "F", 0.3, 0.3, 0.0));
    beam_check(&of);
    ck_assert_str_eq(why_not(&of), "");
    ck_assert_ptr_nonnull(beam_omission(&of, "how several tubes at B work on one wall together"));
    beam_free(&of);
}
END_TEST

/* 100 N m about the post itself. */
START_TEST(twist_is_listed)
{
    beam of = tee(square_tube(0.04, 0.003), square_tube(0.025, 0.002), UP);
    beam_moment(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    ck_assert_ptr_nonnull(beam_omission(&of, "twist of tubes where they are welded onto a wall"));
    beam_free(&of);
    of = tee(square_tube(0.04, 0.003), square_tube(0.025, 0.002), UP);
    beam_force(&of, 0, D, 0.0, 0.0, 100.0);
    beam_check(&of);
    ck_assert_ptr_null(beam_omission(&of, "twist of tubes where they are welded onto a wall"));
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests(
        "check_face",
        TESTS(pull_against_the_face, a_face_that_is_too_thin_fails_and_is_named,
              every_working_follows_from_its_lines, tubes_on_opposite_faces_are_a_cross,
              tubes_side_by_side_are_listed, compression_along_the_rail_counts,
              what_the_rules_do_not_know_is_listed, a_solid_bar_has_no_wall,
              bolted_ends_and_loose_ends_are_none_of_its_business, an_insert_under_the_wall_is_told,
              a_corner_of_two_equal_tubes, corners_of_other_tubes_are_listed, twist_is_listed));
}
