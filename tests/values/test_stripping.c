/*
 * Threads stripped off and screws tightened against printed values: the areas of threads.csv with
 * the limits that the rows print and with our own, the rows of stripping.csv, and the torques of
 * bolts.csv as the torque card gives them.
 */
#include "checks/thread_strength.h"
#include "trivet/checks.h"

#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "support/table.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LBF 4.4482216152605
#define LBF_FT (LBF * 0.3048)

enum { NAME_MAX_HERE = 24 };

static trivet_thread thread_named(const char *name)
{
    trivet_thread thread;
    ck_assert_int_eq(trivet_thread_defaults(&thread, sizeof thread), TRIVET_OK);
    ck_assert_int_eq(trivet_thread_find(name, &thread, NULL), TRIVET_OK);
    return thread;
}

/* "M6" of "M6 Le=1d". */
static void first_word(const char *text, char word[NAME_MAX_HERE])
{
    const size_t length = strcspn(text, " ");
    ck_assert_uint_lt(length, NAME_MAX_HERE);
    memcpy(word, text, length);
    word[length] = '\0';
}

/* A thread with the limits of size that a row prints, m. */
static trivet_thread printed_thread(const table *from, int row, double pitch)
{
    trivet_thread thread = {.size = sizeof thread, .pitch = pitch};
    thread.screw_pitch_least = 1e-3 * table_input(from, row, "inputs", "d2min");
    thread.hole_minor_most = 1e-3 * table_input(from, row, "inputs", "D1max");
    thread.screw_major_least = 1e-3 * table_input(from, row, "inputs", "dmin");
    thread.hole_pitch_most = 1e-3 * table_input(from, row, "inputs", "D2max");
    return thread;
}

static double area_of(const trivet_thread *thread, const char *symbol, double engagement)
{
    return strcmp(symbol, "AS_s") == 0 ? trivet__screw_thread_area(thread, engagement)
                                       : trivet__hole_thread_area(thread, engagement);
}

START_TEST(areas_are_those_of_the_table)
{
    table *const from = table_read(TEST_DATA "/threads.csv");
    int count = 0;
    for (int row = 0; row < table_rows(from); row++) {
        const char *const symbol = table_text(from, row, "symbol");
        if (strcmp(symbol, "AS_s") != 0 && strcmp(symbol, "AS_n") != 0) {
            continue;
        }
        char name[NAME_MAX_HERE];
        first_word(table_text(from, row, "case"), name);
        const trivet_thread own = thread_named(name);
        const trivet_thread printed = printed_thread(from, row, own.pitch);
        const double want = 1e-6 * table_number(from, row, "expected");
        const double allowed = 1e-6 * table_number(from, row, "tol_abs");
        near_scaled(area_of(&printed, symbol, own.diameter), want, 1.0, allowed);
        near_scaled(area_of(&own, symbol, own.diameter), want, 1.0, allowed);
        count++;
    }
    ck_assert_int_ge(count, 8); /* M6, M8, M10, M14, M16 */
    table_free(from);
}
END_TEST

static int row_of(const table *from, const char *id)
{
    const int row = table_find(from, "id", id);
    ck_assert_msg(row >= 0, "no row %s", id);
    return row;
}

/* The row prints its area as 134.63 mm^2 for 8 mm, and its strength. */
START_TEST(a_tapped_hole_strips_at_the_force_of_the_row)
{
    table *const from = table_read(TEST_DATA "/stripping.csv");
    const int row = row_of(from, "BOL-281");
    const double area = 134.63e-6 / 8.0 * 12.0;
    const double tensile = 1e6 * table_input(from, row, "inputs", "Rm");
    near_scaled(trivet__strip_force(area, tensile), table_number(from, row, "expected"), 1.0,
                table_number(from, row, "tol_abs"));
    /* With our own limits of size the area may be off by the 0.2 % of the rows on areas. */
    const trivet_thread M8 = thread_named("M8");
    near_relative(trivet__strip_force(trivet__hole_thread_area(&M8, 0.012), tensile),
                  table_number(from, row, "expected"), 2e-3);
    table_free(from);
}
END_TEST

START_TEST(equal_strength_needs_the_length_of_the_row)
{
    table *const from = table_read(TEST_DATA "/stripping.csv");
    const int row = row_of(from, "BOL-283");
    trivet_thread thread = {.size = sizeof thread, .pitch = 1.25e-3};
    thread.stress_area = 1e-6 * table_input(from, row, "inputs", "At");
    thread.hole_minor_most = 1e-3 * table_input(from, row, "inputs", "D1max");
    thread.screw_pitch_least = 1e-3 * table_input(from, row, "inputs", "d2min");
    near_scaled(trivet__equal_engagement(&thread), 1e-3 * table_number(from, row, "expected"), 1.0,
                1e-3 * table_number(from, row, "tol_abs"));
    table_free(from);
}
END_TEST

/* "1.0 d", "1.5-2.0 d": the ends of a range. */
static void read_range(const table *from, int row, double *least, double *most)
{
    char *end = NULL;
    const char *const text = table_text(from, row, "expected");
    *least = *most = strtod(text, &end);
    if (*end == '-') {
        *most = strtod(end + 1, NULL);
    }
    ck_assert(*least > 0.0 && *most >= *least);
}

/* Rules of the trade are on the long side: what is worked out lies at or below them. */
START_TEST(rules_of_the_trade_are_long_enough)
{
    table *const from = table_read(TEST_DATA "/stripping.csv");
    double least = 0.0;
    double most = 0.0;
    static const char *const COARSE[] = {"M4", "M5", "M6", "M8", "M10", "M12", "M14", "M16"};
    for (size_t i = 0; i < sizeof COARSE / sizeof COARSE[0]; i++) {
        const trivet_thread thread = thread_named(COARSE[i]);
        read_range(from, row_of(from, "BOL-284"), &least, &most);
        const double steel = trivet__needed_engagement(&thread, 800e6, 800e6);
        ck_assert_msg(steel > 0.5 * thread.diameter && steel <= most * thread.diameter,
                      "%s in steel: %g d", COARSE[i], steel / thread.diameter);
        /* 8.8 in 6061-T6 of 260 MPa. */
        read_range(from, row_of(from, "BOL-286"), &least, &most);
        const double soft = trivet__needed_engagement(&thread, 800e6, 260e6);
        ck_assert_msg(soft >= thread.diameter && soft <= most * thread.diameter,
                      "%s in aluminium: %g d", COARSE[i], soft / thread.diameter);
    }
    table_free(from);
}
END_TEST

START_TEST(sheet_needs_the_turns_of_the_rule)
{
    table *const from = table_read(TEST_DATA "/stripping.csv");
    int turns = 0;
    const char *const text = table_text(from, row_of(from, "BOL-287"), "expected");
    ck_assert_int_eq(sscanf(text, "at least %d full threads", &turns), 1);
    near_relative(TRIVET__TURNS_LEAST, (double)turns, 1e-15);
    table_free(from);
}
END_TEST

/* "grade 2 1/4-20" or "M8 8.8 short form" in a nut, with a nut factor; K NaN: the usual one. */
static trivet_torque card_of(const char *of, double K)
{
    trivet_frame *const frame = cantilever_frame(0.5, -100.0);
    trivet_bolts bolts;
    trivet_torque card = {.size = sizeof card};
    trivet_message message = {0};
    char grade[NAME_MAX_HERE] = "";
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    if (strncmp(of, "grade ", 6) == 0) {
        snprintf(grade, sizeof grade, "%.7s", of);
        first_word(of + 8, bolts.thread);
    } else {
        first_word(of, bolts.thread);
        first_word(of + strlen(bolts.thread) + 1, grade);
    }
    memcpy(bolts.grade, grade, sizeof grade);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.nut_factor = isnan(K) ? bolts.nut_factor : K;
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    ck_assert_int_eq(trivet_frame_torque(frame, 0, &card), TRIVET_OK);
    trivet_frame_free(frame);
    return card;
}

/*
 * BOL-214 is flagged as inconsistent. BOL-259 takes the proof load of M8 as ISO 898-1 prints it,
 * which is up to 0.6 % off the product of its stress and area.
 */
START_TEST(the_card_gives_the_printed_torques)
{
    table *const from = table_read(TEST_DATA "/bolts.csv");
    int count = 0;
    for (int row = 0; row < table_rows(from); row++) {
        const char *const group = table_text(from, row, "group");
        const int is_preload = strcmp(group, "preload") == 0;
        if ((!is_preload && strcmp(group, "torque") != 0) ||
            strncmp(table_text(from, row, "flag"), "INCONSISTENT", 12) == 0) {
            continue;
        }
        const char *const unit = table_text(from, row, "unit");
        const double SI = strcmp(unit, "lbf") == 0      ? LBF
                          : strcmp(unit, "lbf ft") == 0 ? LBF_FT
                                                        : 1.0;
        const double want = SI * table_number(from, row, "expected");
        const double allowed = strcmp(table_text(from, row, "id"), "BOL-259") == 0
                                   ? 6e-3 * want
                                   : SI * table_number(from, row, "tol_abs");
        const int is_force = strcmp(table_text(from, row, "symbol"), "Fi") == 0;
        const trivet_torque card =
            card_of(table_text(from, row, "case"), table_input(from, row, "inputs", "K"));
        ck_assert_int_eq(card.weakest, TRIVET_WEAKEST_SCREW);
        ck_assert(card.allowed == card.table);
        near_scaled(is_force ? card.preload : card.table, want, 1.0, allowed);
        count++;
    }
    ck_assert_int_ge(count, 7);
    table_free(from);
}
END_TEST

START_TEST(the_usual_nut_factor_is_that_of_zinc)
{
    table *const from = table_read(TEST_DATA "/bolts.csv");
    const int row = row_of(from, "BOL-219");
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    near_relative(bolts.nut_factor, table_number(from, row, "expected"), 1e-15);
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests(
        "stripping",
        TESTS(areas_are_those_of_the_table, a_tapped_hole_strips_at_the_force_of_the_row,
              equal_strength_needs_the_length_of_the_row, rules_of_the_trade_are_long_enough,
              sheet_needs_the_turns_of_the_rule, the_card_gives_the_printed_torques,
              the_usual_nut_factor_is_that_of_zinc));
}
