/*
 * The words: sentences of the verdict, places, utilisations, cautions.
 */
#include "beam.h"
#include "support/run.h"

#include <check.h>
#include <ctype.h>
#include <math.h>
#include <string.h>

enum { TEXT_MAX = 512 };

static void expect_sentence(const beam *of, int32_t line, const char *expected)
{
    char text[TEXT_MAX];
    trivet_checks_sentence(of->checks, line, NULL, text, sizeof text);
    ck_assert_str_eq(text, expected);
}

/* Bar of 20 mm, 0.8 m, 100 N: 6 P L/h^3 = 60 N/mm^2; 235/1.5 = 157. */
START_TEST(what_holds_is_said_without_advice)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    beam_check(&of);
    expect_sentence(&of, TRIVET_LINE_OVERLOAD,
                    "rail at A carries 60 of 157 N/mm^2 in push (used 38 %)");
    expect_sentence(&of, TRIVET_LINE_SERVICE, "no limit is set for droop");
    beam_free(&of);
}
END_TEST

START_TEST(what_fails_is_said_with_what_would_help)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 300.0);
    beam_check(&of);
    expect_sentence(&of, TRIVET_LINE_OVERLOAD,
                    "rail at A carries 180 of 157 N/mm^2 in push (used 115 %); a taller section or "
                    "a shorter reach helps most: the stress is 100 % bending");
    beam_free(&of);
    beam sideways = beam_cantilever(square_bar(0.02), 235e6, 0.8, 0.0);
    beam_force(&sideways, beam_case(&sideways, "lean"), 1, 0.0, 300.0, 0.0);
    beam_check(&sideways);
    expect_sentence(&sideways, TRIVET_LINE_OVERLOAD,
                    "rail at A carries 180 of 157 N/mm^2 in lean (used 115 %); a wider section or "
                    "a shorter reach helps most: the stress is 100 % bending");
    beam_free(&sideways);
}
END_TEST

/* 16 T/(pi d^3) times sqrt 3, d = 20 mm, T = 200 N m: 220.5 N/mm^2. */
START_TEST(twist_is_called_twist)
{
    beam of = beam_cantilever(round_bar(0.02), 235e6, 0.8, 0.0);
    beam_moment(&of, beam_case(&of, "wring"), 1, 200.0, 0.0, 0.0);
    beam_check(&of);
    const trivet_check check = beam_find(&of, "yield", "rail", "wring");
    char text[TEXT_MAX];
    trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "carries 221 of 157 N/mm^2 in wring (used 141 %)"));
    ck_assert_ptr_nonnull(strstr(text, "the stress is 100 % twist and shear"));
    ck_assert_int_eq(check.verdict, TRIVET_FAILS);
    beam_free(&of);
}
END_TEST

START_TEST(mounts_and_droop_have_their_own_words)
{
    trivet_mount mount;
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.5, 0.0, 0.0);
    beam_tube(&of, "rail", beam_stock(&of, "bar", square_bar(0.03), beam_material(235e6, 0.0)), A,
              B);
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    mount.joint = A;
    mount.held = TRIVET_ALL;
    mount.limit_pull = 200.0;
    ck_assert_int_eq(trivet_frame_add_mount(of.frame, &mount, NULL, NULL), TRIVET_OK);
    beam_force(&of, beam_case(&of, "lift"), B, 0.0, 0.0, 300.0);
    beam_force(&of, beam_case(&of, "push"), B, 0.0, 0.0, -30.0);
    of.limits.droop_ratio = 0.001;
    beam_check(&of);
    expect_sentence(&of, TRIVET_LINE_OVERLOAD,
                    "mount A is pulled with 300 of 200 N in lift (used 150 %); less load, or a "
                    "load nearer to the mounts, helps");
    /* P L^2/(3 E I) = 1.7637e-4 and by shear P/(G As) = 4.9e-7: 1/5654. */
    expect_sentence(&of, TRIVET_LINE_SERVICE,
                    "rail at B droops 1/5654 of its reach, 1/1000 allowed in push (used 18 %)");
    beam_free(&of);
}
END_TEST

START_TEST(text_is_cut_at_its_size)
{
    beam of = beam_cantilever(square_bar(0.02), 235e6, 0.8, 100.0);
    char whole[TEXT_MAX];
    beam_check(&of);
    const size_t needed =
        trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, whole, sizeof whole);
    ck_assert_uint_eq(needed, strlen(whole));
    for (size_t size = 0; size < needed + 2; size++) {
        char text[TEXT_MAX];
        memset(text, '#', sizeof text);
        ck_assert_uint_eq(trivet_checks_sentence(of.checks, TRIVET_LINE_OVERLOAD, NULL, text, size),
                          needed);
        if (size > 0) {
            const size_t kept = size - 1 < needed ? size - 1 : needed;
            ck_assert_uint_eq(strlen(text), kept);
            ck_assert(strncmp(text, whole, kept) == 0);
        }
        ck_assert(text[size] == '#');
    }
    beam_free(&of);
}
END_TEST

START_TEST(places_are_told_by_the_joints_beside_them)
{
    beam of = beam_new();
    char text[TEXT_MAX];
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", 0.3, 0.0, 0.0);
    const int32_t C = must_add_joint(of.frame, "C", 1.0, 0.0, 0.0);
    const int32_t bar = beam_stock(&of, "bar", square_bar(0.02), beam_material(235e6, 0.0));
    beam_tube_of_three(&of, "rail", bar, A, B, C);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "push"), C, 0.0, 0.0, -10.0);
    beam_check(&of);
    const struct {
        double at;
        const char *text;
    } places[] = {
        {0.0, "rail at A"},
        {0.1, "rail 100 mm from A towards B"},
        {0.2, "rail 100 mm from B towards A"},
        {0.3, "rail at B"},
        {0.3 + 1e-9, "rail at B"},
        {0.5, "rail 200 mm from B towards C"},
        {0.95, "rail 50 mm from C towards B"},
        {1.0, "rail at C"},
    };
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        trivet_tube_place_text(of.frame, of.result, 0, places[i].at, NULL, text, sizeof text);
        ck_assert_str_eq(text, places[i].text);
    }
    ck_assert_uint_eq(trivet_tube_place_text(of.frame, of.result, 1, 0.0, NULL, text, sizeof text),
                      0);
    ck_assert_str_eq(text, "");
    ck_assert_uint_eq(trivet_checks_place_text(of.checks, 1, NULL, text, sizeof text), 0);
    beam_free(&of);
}
END_TEST

START_TEST(a_place_past_an_insert_is_told_by_joints)
{
    beam of = beam_cantilever(square_tube(0.03, 0.002), 235e6, 0.5, 100.0);
    char text[TEXT_MAX];
    const int32_t plug = beam_stock(&of, "plug", square_bar(0.02), beam_material(235e6, 0.0));
    ck_assert_int_eq(trivet_frame_add_insert(of.frame, 0, 0, 0.1, plug, TRIVET_TOGETHER, NULL),
                     TRIVET_OK);
    beam_check(&of);
    trivet_tube_place_text(of.frame, of.result, 0, 0.1, NULL, text, sizeof text);
    ck_assert_str_eq(text, "rail 100 mm from A towards B");
    beam_free(&of);
}
END_TEST

START_TEST(a_utilisation_never_reads_as_the_other_side_of_the_limit)
{
    const struct {
        double used;
        const char *text;
    } rows[] = {
        {0.0, "0 %"},
        {0.004, "0.4 %"},
        {0.57, "57 %"},
        {0.9449, "94 %"},
        {0.999, "99.9 %"},
        {1.0, "100 %"},
        {1.0001, "just over 100 %"},
        {1.02, "102.0 %"},
        {2.5, "250 %"},
        {1e6, "without end"},
    };
    char text[64];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        trivet_used_text(rows[i].used, text, sizeof text);
        ck_assert_str_eq(text, rows[i].text);
    }
    trivet_used_text(0.99999, text, sizeof text);
    ck_assert_str_eq(text, "just under 100 %");
    trivet_used_text((double)INFINITY, text, sizeof text);
    ck_assert_str_eq(text, "without end");
    trivet_used_text((double)NAN, text, sizeof text);
    ck_assert_str_eq(text, "not known");
}
END_TEST

/* No verdict and no caution promises what nobody can. */
START_TEST(cautions_are_three_and_promise_nothing)
{
    int count = 0;
    for (; trivet_caution(count); count++) {
        char lower[TEXT_MAX];
        const char *const text = trivet_caution(count);
        size_t i = 0;
        for (; text[i] && i + 1 < sizeof lower; i++) {
            lower[i] = (char)tolower((unsigned char)text[i]);
        }
        lower[i] = '\0';
        ck_assert_ptr_null(strstr(lower, "safe"));
    }
    ck_assert_int_eq(count, 3);
    ck_assert_ptr_null(trivet_caution(-1));
}
END_TEST

int main(void)
{
    return run_tests(
        "sentence",
        TESTS(what_holds_is_said_without_advice, what_fails_is_said_with_what_would_help,
              twist_is_called_twist, mounts_and_droop_have_their_own_words, text_is_cut_at_its_size,
              places_are_told_by_the_joints_beside_them, a_place_past_an_insert_is_told_by_joints,
              a_utilisation_never_reads_as_the_other_side_of_the_limit,
              cautions_are_three_and_promise_nothing));
}
