/*
 * Finding screw threads, and what a fabricator knows of them. Printed values:
 * values/test_screws.c.
 */
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/stock.h"

#include <check.h>
#include <stdio.h>

static trivet_thread empty_thread(void)
{
    trivet_thread thread;
    ck_assert_int_eq(trivet_thread_defaults(&thread, sizeof thread), TRIVET_OK);
    return thread;
}

START_TEST(thread_is_found_in_every_spelling)
{
    static const char *const texts[][2] = {
        {"M6", "M6"},
        {"m6", "M6"},
        {" M 6 ", "M6"},
        {"M6x1", "M6"},
        {"m6 X 1.0", "M6"},
        {"M4x0.7", "M4"},
        {"M8x1.25", "M8"},
        {"M8 x 1", "M8x1"},
        {"M10x1.25", "M10x1.25"},
        {"M12x1.75", "M12"},
        {"1/4-20 UNC", "1/4-20 UNC"},
        {"1/4-20", "1/4-20 UNC"},
        {"1/4 UNC", "1/4-20 UNC"},
        {"1/4unc", "1/4-20 UNC"},
        {"1/4-28", "1/4-28 UNF"},
        {"1/4 unf", "1/4-28 UNF"},
        {"1/4-28 UNF", "1/4-28 UNF"},
        {"10-24", "#10-24 UNC"},
        {"#10-32 unf", "#10-32 UNF"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        trivet_thread thread = empty_thread();
        trivet_message message = {0};
        ck_assert_msg(trivet_thread_find(texts[i][0], &thread, &message) == TRIVET_OK, "%s: %s",
                      texts[i][0], message.problem);
        ck_assert_str_eq(thread.name, texts[i][1]);
    }
}
END_TEST

START_TEST(unknown_thread_gets_the_nearest)
{
    static const char *const texts[][2] = {
        {"M7", "M6"},
        {"M20", "M16"},
        {"M3", "M4"},
        {"M8x1.5", "M8"},
        {"M10x1.24", "M10x1.25"},
        {"1/4-24", "1/4-20 UNC"},
        {"1/4 UN", "1/4-20 UNC"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        trivet_thread thread = empty_thread();
        trivet_message message;
        char remedy[64];
        snprintf(remedy, sizeof remedy, "did you mean \"%s\"?", texts[i][1]);
        ck_assert_int_eq(trivet_thread_find(texts[i][0], &thread, &message), TRIVET_BAD_NAME);
        ck_assert_str_eq(message.thing, texts[i][0]);
        ck_assert_str_eq(message.problem, "no built-in thread has this name");
        ck_assert_str_eq(message.remedy, remedy);
        ck_assert_str_eq(thread.name, "");
    }
    static const char *const strangers[] = {"", "M", "M0", "a nail", "Whitworth"};
    for (size_t i = 0; i < sizeof strangers / sizeof strangers[0]; i++) {
        trivet_thread thread = empty_thread();
        trivet_message message;
        ck_assert_int_eq(trivet_thread_find(strangers[i], &thread, &message), TRIVET_BAD_NAME);
        ck_assert(message.remedy[0] != '\0');
    }
}
END_TEST

/* Common practice: what hangs on the wall of every workshop. mm. */
START_TEST(sizes_are_those_of_the_trade)
{
    static const struct {
        const char *name;
        double pitch;
        double drill;
        double clearance; /* ISO 273 medium */
        double hexagon;   /* ISO 4017 */
        double socket;    /* ISO 4762 */
    } rows[] = {
        {"M4", 0.7, 3.3, 4.5, 7.0, 7.0},      {"M5", 0.8, 4.2, 5.5, 8.0, 8.5},
        {"M6", 1.0, 5.0, 6.6, 10.0, 10.0},    {"M8", 1.25, 6.8, 9.0, 13.0, 13.0},
        {"M10", 1.5, 8.5, 11.0, 16.0, 16.0},  {"M12", 1.75, 10.2, 13.5, 18.0, 18.0},
        {"M14", 2.0, 12.0, 15.5, 21.0, 21.0}, {"M16", 2.0, 14.0, 17.5, 24.0, 24.0},
        {"M8x1", 1.0, 7.0, 9.0, 13.0, 13.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        trivet_thread t = empty_thread();
        ck_assert_int_eq(trivet_thread_find(rows[i].name, &t, NULL), TRIVET_OK);
        near_relative(t.pitch, rows[i].pitch / 1e3, 1e-15);
        near_relative(t.tapping_drill, rows[i].drill / 1e3, 1e-15);
        near_relative(t.clearance_hole, rows[i].clearance / 1e3, 1e-15);
        near_relative(t.hexagon_width, rows[i].hexagon / 1e3, 1e-15);
        near_relative(t.socket_head, rows[i].socket / 1e3, 1e-15);
    }
    trivet_thread inch = empty_thread();
    ck_assert_int_eq(trivet_thread_find("1/4-20", &inch, NULL), TRIVET_OK);
    ck_assert_int_eq(inch.is_inch, 1);
    near_relative(inch.diameter, 0.00635, 1e-15);
    near_relative(inch.pitch, 0.00127, 1e-15);
    near_relative(inch.hexagon_width, 7.0 / 16.0 * 0.0254, 1e-15);
    /* A number 7 drill is 0.201 in. */
    near_relative(inch.tapping_drill, 0.201 * 0.0254, 1e-15);
}
END_TEST

START_TEST(every_thread_makes_sense)
{
    const double degree = 3.14159265358979323846 / 180.0;
    for (int32_t i = 0; i < trivet_thread_count(); i++) {
        trivet_thread t = empty_thread();
        ck_assert_int_eq(trivet_thread_at(i, &t), TRIVET_OK);
        ck_assert_msg(t.root_diameter < t.minor_diameter && t.minor_diameter < t.pitch_diameter &&
                          t.pitch_diameter < t.diameter,
                      "%s: basic sizes", t.name);
        ck_assert_msg(t.screw_major_least < t.diameter && t.screw_pitch_least < t.pitch_diameter &&
                          t.hole_minor_most > t.minor_diameter &&
                          t.hole_pitch_most > t.pitch_diameter,
                      "%s: limits", t.name);
        /* Screw and hole must still overlap, or nothing holds. */
        ck_assert_msg(t.screw_major_least > t.hole_pitch_most &&
                          t.screw_pitch_least > t.hole_minor_most,
                      "%s: overlap", t.name);
        /* A tapping drill makes the minor diameter, within a tenth of the pitch below it. */
        ck_assert_msg(t.tapping_drill > t.minor_diameter - 0.1 * t.pitch &&
                          t.tapping_drill < t.hole_minor_most + 0.1 * t.pitch,
                      "%s: drill", t.name);
        ck_assert_msg(t.clearance_hole > t.diameter && t.clearance_hole < t.hexagon_width,
                      "%s: clearance", t.name);
        ck_assert_msg(t.socket_head > t.clearance_hole && t.countersunk_head > t.socket_head,
                      "%s: heads", t.name);
        near_relative(t.countersunk_angle, (t.is_inch ? 82.0 : 90.0) * degree, 1e-15);
        trivet_thread again = empty_thread();
        ck_assert_int_eq(trivet_thread_find(t.name, &again, NULL), TRIVET_OK);
        ck_assert_str_eq(again.name, t.name);
    }
}
END_TEST

START_TEST(thread_outside_the_list_is_refused)
{
    trivet_thread thread = empty_thread();
    ck_assert_int_eq(trivet_thread_at(-1, &thread), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_thread_at(trivet_thread_count(), &thread), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_thread_at(0, NULL), TRIVET_MISSING_ARGUMENT);
    thread.size = 8;
    ck_assert_int_eq(trivet_thread_at(0, &thread), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(thread_takes_its_own_size_only)
{
    defaults_take_own_size(trivet_thread, trivet_thread_defaults);
    trivet_thread thread = {.size = 5};
    trivet_message message;
    ck_assert_int_eq(trivet_thread_find("M6", &thread, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 5, sizeof thread);
    ck_assert_int_eq(trivet_thread_find(NULL, &thread, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_thread_find("M6", NULL, &message), TRIVET_MISSING_ARGUMENT);
}
END_TEST

int main(void)
{
    return run_tests("threads",
                     TESTS(thread_is_found_in_every_spelling, unknown_thread_gets_the_nearest,
                           sizes_are_those_of_the_trade, every_thread_makes_sense,
                           thread_outside_the_list_is_refused, thread_takes_its_own_size_only));
}
