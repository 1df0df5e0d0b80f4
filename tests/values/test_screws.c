/*
 * Threads and grades of screws against printed values: every row of threads.csv, but for those that
 * are named here with the reason; limits of size against the tolerance formulas and printed limits.
 */
#include "support/printed.h"
#include "support/run.h"
#include "support/table.h"
#include "trivet/stock.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979323846

enum { IS_LONG_ENOUGH = 48 };

static int failures;
static int cells;

static void compare(const char *row, const char *what, double got, double want, double tolerance)
{
    cells++;
    if (!rounds_to(got, want, tolerance)) {
        failures++;
        fprintf(stderr, "%s %s: computed %.9g, printed %.9g, off by %.3g, allowed %.3g\n", row,
                what, got, want, got - want, tolerance);
    }
}

static trivet_thread thread_named(const char *name)
{
    trivet_thread thread;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_thread_defaults(&thread, sizeof thread), TRIVET_OK);
    const trivet_status status = trivet_thread_find(name, &thread, &message);
    ck_assert_msg(status == TRIVET_OK, "%s: %s", name, message.problem);
    return thread;
}

static trivet_grade grade_named(const char *name)
{
    trivet_grade grade;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_grade_defaults(&grade, sizeof grade), TRIVET_OK);
    const trivet_status status = trivet_grade_find(name, &grade, &message);
    ck_assert_msg(status == TRIVET_OK, "%s: %s", name, message.problem);
    return grade;
}

static int begins(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

/* The first word of a text: "M6" of "M6 A2-70". */
static const char *first_word(const char *text, char word[IS_LONG_ENOUGH])
{
    snprintf(word, IS_LONG_ENOUGH, "%.*s", (int)strcspn(text, " "), text);
    return word;
}

static const char *last_word(const char *text)
{
    const char *const blank = strrchr(text, ' ');
    return blank ? blank + 1 : text;
}

/* What one of the row's units is in SI. */
static double unit_of_row(const table *from, int row)
{
    static const struct {
        const char *unit;
        double value;
    } units[] = {
        {"mm", 1e-3},
        {"mm2", 1e-6},
        {"N", 1.0},
        {"MPa", 1e6},
        {"in2", 0.0254 * 0.0254},
        {"lbf", 0.45359237 * 9.80665},
        {"ksi", 1000.0 * 0.45359237 * 9.80665 / (0.0254 * 0.0254)},
    };
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(units[i].unit, table_text(from, row, "unit")) == 0) {
            return units[i].value;
        }
    }
    ck_abort_msg("%s: no such unit", table_text(from, row, "id"));
    return (double)NAN;
}

/* ---- What the rows speak of, SI ---- */

static double size_named(const trivet_thread *of, const char *symbol)
{
    const struct {
        const char *symbol;
        double value;
    } values[] = {
        {"P", of->pitch},
        {"d2", of->pitch_diameter},
        {"d1", of->minor_diameter},
        {"d3", of->root_diameter},
        {"As", of->stress_area},
        {"At", of->stress_area},
        {"Ar", 0.25 * PI * of->root_diameter * of->root_diameter},
    };
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        if (strcmp(values[i].symbol, symbol) == 0) {
            return values[i].value;
        }
    }
    ck_abort_msg("no size is called %s", symbol);
    return (double)NAN;
}

static double strength_named(const trivet_grade *of, const char *symbol)
{
    const struct {
        const char *symbol;
        double value;
    } values[] = {
        {"Sp", of->proof}, {"Rm", of->tensile},  {"Su", of->tensile},
        {"Sy", of->yield}, {"Rp0.2", of->yield},
    };
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        if (strcmp(values[i].symbol, symbol) == 0) {
            return values[i].value;
        }
    }
    ck_abort_msg("no strength is called %s", symbol);
    return (double)NAN;
}

/* "A2-70 / A4-70" speaks of two grades, which must agree. */
static double strength_of_row(const table *from, int row)
{
    const char *const both = table_text(from, row, "case");
    const char *const symbol = table_text(from, row, "symbol");
    char word[IS_LONG_ENOUGH];
    if (begins(both, "grade ")) {
        snprintf(word, sizeof word, "%.7s", both);
    } else {
        first_word(both, word);
    }
    const trivet_grade grade = grade_named(word);
    if (strstr(both, " / ")) {
        const trivet_grade other = grade_named(last_word(both));
        ck_assert(strength_named(&other, symbol) == strength_named(&grade, symbol));
    }
    return strength_named(&grade, symbol);
}

/*
 * The load tables of the standards are made from the stress area as their own tables print it:
 * three digits of mm^2, four decimals of in^2.
 */
static double nominal_area(const trivet_thread *of)
{
    char printed[32];
    if (of->is_inch) {
        snprintf(printed, sizeof printed, "%.4f", of->stress_area / (0.0254 * 0.0254));
    } else {
        snprintf(printed, sizeof printed, "%.3g", of->stress_area / 1e-6);
    }
    return strtod(printed, NULL) * (of->is_inch ? 0.0254 * 0.0254 : 1e-6);
}

/* Thread and grade stand in the case, or the class in the group: "ISO 898-1 class 8.8". */
static double load_of_row(const table *from, int row)
{
    const char *const group = table_text(from, row, "group");
    const char *const of = table_text(from, row, "case");
    const char *const inch_grade = strstr(of, "grade ");
    char word[IS_LONG_ENOUGH];
    const trivet_thread thread = thread_named(first_word(of, word));
    const trivet_grade grade = grade_named(inch_grade                 ? inch_grade
                                           : strstr(group, " class ") ? last_word(group)
                                                                      : last_word(of));
    const int is_tensile = strstr(table_text(from, row, "quantity"), "ultimate") != NULL;
    return nominal_area(&thread) * (is_tensile ? grade.tensile : grade.proof);
}

/* The areas that shear when a thread strips over an engagement of one diameter (FED-STD-H28). */
static double stripping_of_row(const table *from, int row)
{
    const char *const symbol = table_text(from, row, "symbol");
    char word[IS_LONG_ENOUGH];
    const trivet_thread t = thread_named(first_word(table_text(from, row, "case"), word));
    const double n = 1.0 / t.pitch;
    const double Le = t.diameter;
    if (strcmp(symbol, "AS_s") == 0) {
        return PI * n * Le * t.hole_minor_most *
               (0.5 / n + 0.57735 * (t.screw_pitch_least - t.hole_minor_most));
    }
    if (strcmp(symbol, "AS_n") == 0) {
        return PI * n * Le * t.screw_major_least *
               (0.5 / n + 0.57735 * (t.screw_major_least - t.hole_pitch_most));
    }
    return size_named(&t, symbol);
}

static double value_of_row(const table *from, int row)
{
    const char *const group = table_text(from, row, "group");
    if (strstr(group, "loads") || begins(group, "ISO 898-1 class")) {
        return load_of_row(from, row);
    }
    if (strcmp(group, "thread stripping") == 0) {
        return stripping_of_row(from, row);
    }
    if (begins(group, "thread") || strcmp(group, "UNC/UNF") == 0) {
        const trivet_thread thread = thread_named(table_text(from, row, "case"));
        return size_named(&thread, table_text(from, row, "symbol"));
    }
    return strength_of_row(from, row);
}

/* Rows that speak of something else. */
static const struct {
    const char *id;
    const char *why;
} not_applicable[] = {
    {"BOL-126", "8.8 above 16 mm: the built-in threads end at M16"},
    {"BOL-127", "8.8 above 16 mm"},
    {"BOL-128", "8.8 above 16 mm"},
};

enum { NOT_APPLICABLE_COUNT = sizeof not_applicable / sizeof not_applicable[0] };

static int applies(const char *id)
{
    for (size_t i = 0; i < NOT_APPLICABLE_COUNT; i++) {
        if (strcmp(not_applicable[i].id, id) == 0) {
            return 0;
        }
    }
    return 1;
}

START_TEST(threads_and_grades_match_every_row)
{
    table *const from = table_read(TEST_DATA "/threads.csv");
    failures = 0;
    cells = 0;
    for (int row = 0; row < table_rows(from); row++) {
        const char *const id = table_text(from, row, "id");
        if (applies(id)) {
            compare(id, table_text(from, row, "symbol"),
                    value_of_row(from, row) / unit_of_row(from, row),
                    table_number(from, row, "expected"), table_number(from, row, "tol_abs"));
        }
    }
    ck_assert_int_eq(table_rows(from), 152);
    ck_assert_int_eq(cells, 152 - NOT_APPLICABLE_COUNT);
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

/* The limits of 6g and 6H that the rows on stripping print among their inputs, to 0.001 mm. */
START_TEST(metric_limits_match_the_printed_ones)
{
    table *const from = table_read(TEST_DATA "/threads.csv");
    failures = 0;
    cells = 0;
    for (int row = 0; row < table_rows(from); row++) {
        if (!begins(table_text(from, row, "symbol"), "AS_")) {
            continue;
        }
        char word[IS_LONG_ENOUGH];
        const trivet_thread t = thread_named(first_word(table_text(from, row, "case"), word));
        const struct {
            const char *name;
            double value;
        } limits[] = {
            {"d2min", t.screw_pitch_least},
            {"D1max", t.hole_minor_most},
            {"dmin", t.screw_major_least},
            {"D2max", t.hole_pitch_most},
        };
        for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
            compare(table_text(from, row, "id"), limits[i].name, limits[i].value / 1e-3,
                    table_input(from, row, "inputs", limits[i].name), 0.0005);
        }
    }
    ck_assert_int_eq(cells, 8 * 4);
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

/* ---- Limits of size against formulas ---- */

/* The geometric mean of the range of diameters that a diameter, mm, lies in (ISO 965-1). */
static double mean_diameter(double d)
{
    static const double ends[] = {2.8, 5.6, 11.2, 22.4};
    for (size_t i = 1; i < sizeof ends / sizeof ends[0]; i++) {
        if (d <= ends[i]) {
            return sqrt(ends[i - 1] * ends[i]);
        }
    }
    return (double)NAN;
}

/*
 * ISO 965-1, from memory, um from mm: the formulas that its tables were made with. The tables hold
 * a preferred number R40 beside the formula's value, not always the nearest: one step of R40, 6 %,
 * either way; the deviation es is in whole um. The digits are in the test before this one.
 */
START_TEST(metric_tolerances_match_the_formulas)
{
    failures = 0;
    cells = 0;
    for (int32_t i = 0; i < trivet_thread_count(); i++) {
        trivet_thread t;
        ck_assert_int_eq(trivet_thread_defaults(&t, sizeof t), TRIVET_OK);
        ck_assert_int_eq(trivet_thread_at(i, &t), TRIVET_OK);
        if (t.is_inch) {
            continue;
        }
        const double um = 1e-6;
        const double P = t.pitch / 1e-3;
        const double es = 15.0 + 11.0 * P;
        const double Td = 180.0 * cbrt(P * P) - 3.15 / sqrt(P);
        const double Td2 = 90.0 * pow(P, 0.4) * pow(mean_diameter(t.diameter / 1e-3), 0.1);
        const double TD1 = P <= 0.8 ? 433.0 * P - 190.0 * pow(P, 1.22) : 230.0 * pow(P, 0.7);
        const double slack = pow(10.0, 1.0 / 40.0) - 1.0;
        compare(t.name, "es + Td", (t.diameter - t.screw_major_least) / um, es + Td,
                0.5 + slack * Td);
        compare(t.name, "es + Td2", (t.pitch_diameter - t.screw_pitch_least) / um, es + Td2,
                0.5 + slack * Td2);
        compare(t.name, "TD1", (t.hole_minor_most - t.minor_diameter) / um, TD1, slack * TD1);
        compare(t.name, "TD2", (t.hole_pitch_most - t.pitch_diameter) / um, 1.32 * Td2,
                slack * 1.32 * Td2);
    }
    ck_assert_int_eq(cells, 17 * 4);
    ck_assert_int_eq(failures, 0);
}
END_TEST

/*
 * ASME B1.1 tables of limits, inches, from memory. The standard rounds allowance and tolerance to
 * the printed digits before it adds them, so the sum may be off by a whole unit of the last digit.
 */
START_TEST(inch_limits_match_the_printed_ones)
{
    static const struct {
        const char *name;
        const char *screw_major_least; /* 2A */
        const char *screw_pitch_least; /* 2A */
        const char *hole_minor_most;   /* 2B */
        const char *hole_pitch_most;   /* 2B */
    } rows[] = {
        {"#10-24 UNC", "0.1818", "0.1586", "0.156", "0.1672"},
        {"#10-32 UNF", "0.1831", "0.1658", "0.164", "0.1736"},
        {"1/4-20 UNC", "0.2408", "0.2127", "0.207", "0.2224"},
        {"1/4-28 UNF", "0.2425", "0.2225", "0.220", "0.2311"},
        {"5/16-18 UNC", "0.3026", "0.2712", "0.265", "0.2817"},
        {"5/16-24 UNF", "0.3042", "0.2806", "0.277", "0.2902"},
        {"3/8-16 UNC", "0.3643", "0.3287", "0.321", "0.3401"},
        {"3/8-24 UNF", "0.3667", "0.3430", "0.340", "0.3528"},
        {"1/2-13 UNC", "0.4876", "0.4435", "0.434", "0.4565"},
        {"1/2-20 UNF", "0.4906", "0.4619", "0.457", "0.4731"},
    };
    const double in = 0.0254;
    failures = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const trivet_thread t = thread_named(rows[i].name);
        const struct {
            const char *what;
            double value;
            const char *printed;
        } limits[] = {
            {"major 2A", t.screw_major_least, rows[i].screw_major_least},
            {"pitch 2A", t.screw_pitch_least, rows[i].screw_pitch_least},
            {"minor 2B", t.hole_minor_most, rows[i].hole_minor_most},
            {"pitch 2B", t.hole_pitch_most, rows[i].hole_pitch_most},
        };
        for (size_t j = 0; j < sizeof limits / sizeof limits[0]; j++) {
            compare(t.name, limits[j].what, limits[j].value / in, strtod(limits[j].printed, NULL),
                    2.0 * half_unit(limits[j].printed));
        }
    }
    ck_assert_int_eq(failures, 0);
}
END_TEST

int main(void)
{
    return run_tests("printed threads and grades",
                     TESTS(threads_and_grades_match_every_row, metric_limits_match_the_printed_ones,
                           metric_tolerances_match_the_formulas,
                           inch_limits_match_the_printed_ones));
}
