/*
 * The page of trivet check, top down: verdict, droop, mounts, weight, then the details.
 */
#include "check_page.h"

#include "columns.h"
#include "pages.h"
#include "print.h"
#include "stand_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TEXT_MAX = 1024, DIGITS = 3 };

/* Of 16 digits a condition of 1e10 leaves six; our own choice of where to speak up. */
#define POOR_CONDITION 1e10

static void add_value(columns *table, const answer *of, int32_t dimension, double value)
{
    columns_add_value(table, &of->units, (trivet_dimension)dimension, value, DIGITS);
}

static void print_title(const answer *of)
{
    const char *const name = trivet_document_name(of->document);
    print_text(name[0] ? name : of->path);
    putchar('\n');
}

static void print_verdicts(const answer *of)
{
    const int32_t overall = trivet_checks_overall(of->checks);
    fputs("\nVerdict: ", stdout);
    print_verdict(overall, 0);
    /* Some line is never checked: nobody may take the first word for the whole answer. */
    puts(overall == TRIVET_HOLDS || overall == TRIVET_TIGHT ? ", as far as it was checked" : "");
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        char text[TEXT_MAX];
        printf("  %-9s ", line_word(line));
        print_verdict(trivet_checks_verdict(of->checks, line, NULL), 12);
        trivet_checks_sentence(of->checks, line, &of->units, text, sizeof text);
        print_wrapped(24, 24, text);
    }
}

static void add_carried(columns *table, const answer *of, int load, double carried, int32_t in_case)
{
    if (carried > 0.0) {
        add_value(table, of, load == TRIVET_CARRY_MOMENT ? TRIVET_MOMENT : TRIVET_FORCE, carried);
        columns_add(table, trivet_frame_column_name(of->frame, in_case));
    } else {
        columns_add(table, "-");
        columns_add(table, "");
    }
}

/* A row a mount, or where that gets too wide, a row a mount and kind of load. */
static void fill_mounts(columns *table, const answer *of, int is_narrow)
{
    static const char *const LOADS[TRIVET_CARRY_COUNT] = {"pull", "push", "shear", "moment"};
    static const char *const NARROW[] = {"mount", "", "most", "in"};
    static const char *const WIDE[] = {"mount", "pull", "in",     "push", "in",
                                       "shear", "in",   "moment", "in"};
    columns_start(table, 2, is_narrow ? "ttnt" : "tntntntnt", is_narrow ? NARROW : WIDE);
    for (int32_t m = 0; m < trivet_frame_count(of->frame, TRIVET_KIND_MOUNT); m++) {
        double carried[TRIVET_CARRY_COUNT];
        int32_t cases[TRIVET_CARRY_COUNT];
        if (trivet_mount_carries_most(of->frame, of->result, m, carried, cases) != TRIVET_OK) {
            continue;
        }
        for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
            if (i == 0 || is_narrow) {
                columns_add(table,
                            i == 0 ? trivet_frame_name(of->frame, TRIVET_KIND_MOUNT, m) : "");
            }
            if (is_narrow) {
                columns_add(table, LOADS[i]);
            }
            add_carried(table, of, i, carried[i], cases[i]);
        }
    }
}

static int print_mounts(const answer *of)
{
    columns table;
    fill_mounts(&table, of, 0);
    if (columns_width(&table) > print_width()) {
        columns_drop(&table);
        fill_mounts(&table, of, 1);
    }
    print_heading("Mounts: the most that each has to carry, and in which case");
    return columns_print(&table);
}

/* "box 4.1 kg, contents 9 kg" */
static void write_items(const answer *of, int32_t cargo, int32_t count, char *text, size_t size)
{
    text[0] = '\0';
    for (int32_t i = 0; i < count; i++) {
        double mass = 0.0;
        char amount[64];
        const char *const name = trivet_frame_item(of->frame, cargo, i, &mass);
        trivet_units_text(&of->units, TRIVET_MASS, mass, 3, amount, sizeof amount);
        add_to_list(text, size, "%s %s", name ? name : "", amount);
    }
}

static int print_weight(const answer *of)
{
    static const char *const HEADINGS[] = {"", "mass", "of which"};
    columns table;
    columns_start(&table, 2, "tnw", HEADINGS);
    columns_add(&table, "frame");
    add_value(&table, of, TRIVET_MASS, trivet_frame_mass(of->frame));
    columns_add(&table, "all tubes and inserts");
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_CARGO); i++) {
        trivet_cargo cargo;
        char items[TEXT_MAX];
        if (trivet_cargo_defaults(&cargo, sizeof cargo) != TRIVET_OK ||
            trivet_frame_cargo(of->frame, i, &cargo) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, trivet_frame_name(of->frame, TRIVET_KIND_CARGO, i));
        add_value(&table, of, TRIVET_MASS, cargo.mass);
        write_items(of, i, cargo.item_count, items, sizeof items);
        columns_add(&table, cargo.item_count > 1 ? items : "");
    }
    print_heading("Weight");
    return columns_print(&table);
}

/* "the screw itself; preload 5000 to 8000 N" */
static void write_weakest(const answer *of, const trivet_torque *torque, char *text, size_t size)
{
    char least[64];
    char most[64];
    trivet_units_text(&of->units, TRIVET_FORCE, torque->least, DIGITS, least, sizeof least);
    trivet_units_text(&of->units, TRIVET_FORCE, torque->most, DIGITS, most, sizeof most);
    snprintf(text, size, "%s; preload %s to %s", trivet_weakest_text(torque->weakest), least, most);
}

/* The torque for every screw: what its grade stands in thick steel, and what it may get here. */
static int print_torques(const answer *of)
{
    static const char *const HEADINGS[] = {"screws of", "screw",       "table",
                                           "allowed",   "in the file", "weakest"};
    columns table;
    const int32_t count = trivet_frame_bolts_count(of->frame);
    if (count == 0) {
        return 0;
    }
    columns_start(&table, 2, "ttnnnw", HEADINGS);
    for (int32_t i = 0; i < count; i++) {
        trivet_torque torque = {.size = sizeof torque};
        trivet_bolts bolts = {.size = sizeof bolts};
        char text[TEXT_MAX];
        if (trivet_frame_torque(of->frame, i, &torque) != TRIVET_OK ||
            trivet_frame_bolts(of->frame, i, &bolts) != TRIVET_OK) {
            continue;
        }
        trivet_bolts_place_text(of->frame, i, text, sizeof text);
        columns_add(&table, text);
        snprintf(text, sizeof text, "%s %s", bolts.thread, bolts.grade);
        columns_add(&table, text);
        add_value(&table, of, TRIVET_MOMENT, torque.table);
        add_value(&table, of, TRIVET_MOMENT, torque.allowed);
        if (isnan(torque.said)) {
            columns_add(&table, "-");
        } else {
            add_value(&table, of, TRIVET_MOMENT, torque.said);
        }
        write_weakest(of, &torque, text, sizeof text);
        columns_add(&table, text);
    }
    print_heading(
        "Torque card: for its grade in thick steel, and what the weakest part here allows");
    return columns_print(&table);
}

/* Demand or limit of a check; a ratio as 1/200. */
static void add_amount(columns *table, const answer *of, const trivet_check *check, double value)
{
    if (check->is_ratio) {
        char text[64] = "0";
        if (value > 0.0) {
            snprintf(text, sizeof text, value < 0.01 ? "1/%.0f" : "1/%.3g", 1.0 / value);
        }
        columns_add(table, text);
    } else {
        add_value(table, of, check->dimension, value);
    }
}

static int print_checks(const answer *of)
{
    static const char *const HEADINGS[] = {"used", "check", "demand", "limit",
                                           "fail", "case",  "where"};
    trivet_check_group group = {.size = sizeof group};
    columns table;
    columns_start(&table, 2, "ntnnttw", HEADINGS);
    for (int32_t rank = 0; trivet_checks_group(of->checks, rank, &group) == TRIVET_OK; rank++) {
        trivet_check check = {.size = sizeof check};
        char text[TEXT_MAX];
        if (trivet_checks_at(of->checks, group.worst, &check) != TRIVET_OK) {
            break;
        }
        trivet_used_text(check.utilisation, text, sizeof text);
        columns_add(&table, text);
        columns_add(&table, check.check);
        add_amount(&table, of, &check, check.demand);
        add_amount(&table, of, &check, check.limit);
        snprintf(text, sizeof text, "%d of %d", (int)group.fail_count, (int)group.count);
        columns_add(&table, text);
        columns_add(&table, check.in_case);
        trivet_checks_place_text(of->checks, group.worst, &of->units, text, sizeof text);
        columns_add(&table, text);
    }
    print_heading(trivet_checks_count(of->checks) > 0 ? "Checks: the worst of each kind"
                                                      : "Checks: none could be made");
    return columns_print(&table);
}

/* "+0.5 %", or the bare difference where the hand calculation gives 0. */
static void add_difference(columns *table, const answer *of, const trivet_expectation *held)
{
    char text[64];
    if (isnan(held->difference)) {
        columns_add(table, "-");
    } else if (held->by_hand != 0.0) {
        const double percent = 100.0 * held->difference;
        snprintf(text, sizeof text, "%+.2f %%", fabs(percent) < 0.005 ? 0.0 : percent);
        columns_add(table, text);
    } else {
        add_value(table, of, held->dimension, held->difference);
    }
}

/* What the numbers show of why a hand calculation is off. */
static void print_hint(const trivet_expectation *held)
{
    if (held->hint[0]) {
        print_line(2, "%s%s%s%s%s: %s.", held->what, held->where[0] ? " at " : "", held->where,
                   held->in_case[0] ? " in " : "", held->in_case, held->hint);
    }
}

/* Hand calculation number index beside the result; 0 if it cannot be held against it. */
static int hold(const answer *of, int32_t index, trivet_expectation *held)
{
    return trivet_expectation_defaults(held, sizeof *held) == TRIVET_OK &&
           trivet_document_expect(of->document, of->result, of->checks, index, held, NULL) ==
               TRIVET_OK;
}

static int print_expectations(const answer *of)
{
    static const char *const HEADINGS[] = {"what",     "where",      "case",   "by hand",
                                           "computed", "difference", "agrees", "worked out as"};
    const int32_t count = trivet_document_expectation_count(of->document);
    trivet_expectation held;
    columns table;
    if (count == 0) {
        return 0;
    }
    columns_start(&table, 2, "tttnnntw", HEADINGS);
    for (int32_t i = 0; i < count; i++) {
        if (!hold(of, i, &held)) {
            continue;
        }
        columns_add(&table, held.what);
        columns_add(&table, held.where);
        columns_add(&table, held.in_case);
        add_value(&table, of, held.dimension, held.by_hand);
        if (isnan(held.computed)) {
            columns_add(&table, "-");
        } else {
            add_value(&table, of, held.dimension, held.computed);
        }
        add_difference(&table, of, &held);
        columns_add(&table, held.agrees ? "yes" : "NO");
        columns_add(&table, held.by);
    }
    print_heading("Hand calculations in the file");
    const int status = columns_print(&table);
    for (int32_t i = 0; i < count; i++) {
        if (hold(of, i, &held)) {
            print_hint(&held);
        }
    }
    return status;
}

static void print_quality(const answer *of)
{
    double balance = 0.0;
    double residual = 0.0;
    double condition = 0.0;
    for (int32_t c = 0; c < trivet_result_case_count(of->result); c++) {
        trivet_quality quality = {.size = sizeof quality};
        if (trivet_result_quality(of->result, c, &quality) == TRIVET_OK) {
            balance = fmax(balance, fmax(quality.balance_force, quality.balance_moment));
            residual = fmax(residual, quality.residual);
            condition = fmax(condition, quality.condition);
        }
    }
    print_heading("How well the sums come out");
    print_line(2,
               "Loads and reactions balance to %.1e, each joint to %.1e (0 would be exact); "
               "condition of the equations %.1e.",
               balance, residual, condition);
    if (condition > POOR_CONDITION) {
        print_line(2, "That condition is poor: the frame is nearly free to move somewhere, or has "
                      "parts so unlike in stiffness that the sums lose most of their digits. Look "
                      "for a missing hold, and do not lean on more than the first digits.");
    }
}

int check_page(const answer *of)
{
    int status = 0;
    print_title(of);
    print_stories(of->frame);
    print_fitted(of);
    print_verdicts(of);
    status |= print_mounts(of);
    status |= print_droop(of);
    print_losses(of);
    print_vehicle(of);
    status |= print_weight(of);
    status |= print_inserts(of->frame, &of->units, 1);
    status |= print_checks(of);
    status |= print_torques(of);
    status |= print_cases(of->frame, &of->units, "Cases");
    status |= print_expectations(of);
    print_quality(of);
    print_omissions(of->checks, of->document, "NOT CHECKED");
    print_cautions();
    return status;
}
