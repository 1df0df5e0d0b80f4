/*
 * trivet pick FILE: the best variant that holds.
 */
#include "columns.h"
#include "pages.h"
#include "print.h"
#include "progress.h"
#include "sweep_print.h"

#include <stdio.h>
#include <string.h>

enum { INPUTS_MAX = 64 };

static int read_aim(const options *given, int32_t *aim_out)
{
    static const char *const AIMS[] = {"mass", "price", "droop"};
    const char *const text = option_value(given, "--least");
    for (int32_t i = 0; text && i < 3; i++) {
        if (strcmp(AIMS[i], text) == 0) {
            *aim_out = i;
            return EXIT_HOLDS;
        }
    }
    if (!text) {
        return EXIT_HOLDS;
    }
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_VALUE;
    snprintf(message.thing, sizeof message.thing, "option --least");
    snprintf(message.problem, sizeof message.problem, "\"%.100s\" is nothing to pick by", text);
    snprintf(message.remedy, sizeof message.remedy, "write mass, price or droop");
    return fail(given, NULL, &message);
}

static int read_pick_settings(const options *given, trivet_pick_settings *settings)
{
    int64_t runners = 3;
    int64_t workers = 1;
    trivet_pick_settings_defaults(settings, sizeof *settings);
    int status = read_aim(given, &settings->aim);
    if (status == EXIT_HOLDS) {
        status = option_whole(given, "--more", 0, 100, &runners);
    }
    if (status == EXIT_HOLDS) {
        status = option_whole(given, "--most", 1, 1000000000, &settings->most);
    }
    if (status == EXIT_HOLDS) {
        status = option_whole(given, "--workers", 1, 256, &workers);
    }
    settings->runners_up = (int32_t)runners;
    settings->workers = (int32_t)workers;
    return status;
}

/* What is nearest to giving way, or what does. */
static void add_why(columns *table, const trivet_variant *variant)
{
    char why[TRIVET_REASON_MAX + 64];
    char used[32];
    double worst = 0.0;
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        worst = variant->used[line] > worst ? variant->used[line] : worst;
    }
    trivet_used_text(worst, used, sizeof used);
    if (variant->outcome != TRIVET_OUTCOME_CHECKED) {
        snprintf(why, sizeof why, "cannot be solved: %s", variant->reason);
    } else {
        snprintf(why, sizeof why, "%s: %s of %s, %s (used %s)",
                 trivet_variant_holds(variant) ? "holds" : "does not hold", variant->check,
                 variant->where, variant->in_case, used);
    }
    columns_add(table, why);
}

static void add_row(columns *table, const trivet_sweep *sweep, const trivet_pick *pick,
                    int32_t index, const trivet_units *units)
{
    double inputs[INPUTS_MAX];
    char number[32];
    char text[600];
    trivet_variant variant = {.size = sizeof variant};
    if (trivet_pick_at(pick, index, &variant, inputs) != TRIVET_OK) {
        return;
    }
    snprintf(number, sizeof number, "%lld", (long long)variant.number);
    columns_add(table, number);
    columns_add_value(table, units, TRIVET_MASS, variant.mass, 4);
    snprintf(number, sizeof number, "%.2f", variant.price);
    columns_add(table, variant.price >= 0.0 ? number : "-");
    columns_add_value(table, units, TRIVET_LENGTH, variant.droop, 3);
    inputs_text(sweep, inputs, text, sizeof text);
    columns_add(table, text);
    add_why(table, &variant);
}

static int print_rows(const trivet_sweep *sweep, const trivet_pick *pick, int holding,
                      const char *heading)
{
    static const char *const HEADINGS[] = {"number", "mass", "price", "droop", "with", "why"};
    columns table;
    trivet_units units = {.size = sizeof units};
    int any = 0;
    trivet_document_units(trivet_sweep_document(sweep), &units);
    columns_start(&table, 2, "nnnntw", HEADINGS);
    for (int32_t i = 0; i < trivet_pick_count(pick); i++) {
        trivet_variant variant = {.size = sizeof variant};
        if (trivet_pick_at(pick, i, &variant, NULL) == TRIVET_OK &&
            trivet_variant_holds(&variant) == holding) {
            add_row(&table, sweep, pick, i, &units);
            any = 1;
        }
    }
    if (any) {
        print_heading(heading);
    }
    return columns_print(&table);
}

static void print_proof(const trivet_sweep *sweep, const trivet_picked *how, int32_t aim)
{
    static const char *const LESS[] = {"lighter", "cheaper", "stiffer"};
    print_heading("How sure that is");
    print_line(2,
               "%lld of %lld variants can be made and are not skipped; %lld were solved, and "
               "%lld of them hold.",
               (long long)(how->count - how->ruled_out), (long long)how->count,
               (long long)how->solved, (long long)how->held);
    if (how->is_found && how->is_proven) {
        print_line(2,
                   "Proven: every %s one was solved and does not hold. That more stock makes a "
                   "frame stronger is assumed nowhere: loads find other ways.",
                   LESS[aim]);
    } else if (!how->is_found && how->is_proven) {
        print_line(2, "All were solved, and none holds.");
    } else {
        print_line(2, "Not proven: the search stopped where --most says.");
    }
    if (!how->is_proven && how->bound >= 0.0) {
        char bound[64];
        trivet_units units = {.size = sizeof units};
        trivet_document_units(trivet_sweep_document(sweep), &units);
        trivet_units_text(&units, aim == TRIVET_PICK_MASS ? TRIVET_MASS : TRIVET_NUMBER, how->bound,
                          4, bound, sizeof bound);
        print_line(2, "What was not solved has at least %s.", bound);
    }
}

/* A line of the verdict of which nothing could be checked holds nobody back. */
static void print_lines_not_checked(const trivet_pick *pick)
{
    trivet_variant best = {.size = sizeof best};
    if (trivet_pick_at(pick, 0, &best, NULL) != TRIVET_OK || !trivet_variant_holds(&best)) {
        return;
    }
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        if (best.verdicts[line] == TRIVET_NOT_CHECKED) {
            print_line(2,
                       "NOT CHECKED: %s. The best may fail there; trivet check says what it lacks.",
                       line_word(line));
        }
    }
}

static int print_pick(const options *given, const trivet_sweep *sweep, const trivet_pick *pick,
                      int32_t aim)
{
    static const char *const BEST[] = {"The lightest that holds, then the next",
                                       "The cheapest that holds, then the next",
                                       "The stiffest that holds, then the next"};
    static const char *const LOST[] = {"Lighter, and why they lost: the nearest first",
                                       "Cheaper, and why they lost: the nearest first",
                                       "Stiffer, and why they lost: the nearest first"};
    trivet_picked how = {.size = sizeof how};
    trivet_pick_outcome(pick, &how);
    print_sweep(sweep);
    if (!how.is_found) {
        print_heading("None of them holds");
    }
    if (print_rows(sweep, pick, 1, BEST[aim]) != 0 || print_rows(sweep, pick, 0, LOST[aim]) != 0) {
        return fail_status(given, given->operand, TRIVET_NO_MEMORY);
    }
    print_proof(sweep, &how, aim);
    print_lines_not_checked(pick);
    print_line(0, "%s", "");
    print_line(0,
               "Look at one in full: trivet sweep %s --variant NUMBER > one.yaml && trivet "
               "check one.yaml",
               given->operand);
    print_cautions();
    return how.is_found ? EXIT_HOLDS : EXIT_FAILS;
}

static int answer_pick(const options *given, const trivet_sweep *sweep, const trivet_pick *pick,
                       int32_t aim)
{
    trivet_picked how = {.size = sizeof how};
    if (!given->is_json) {
        return print_pick(given, sweep, pick, aim);
    }
    char *json = NULL;
    trivet_message message;
    trivet_message_clear(&message);
    const trivet_status status = trivet_pick_json(pick, &json, &message);
    const int exit_status = print_json(given, given->operand, status, json, &message);
    trivet_pick_outcome(pick, &how);
    return exit_status == EXIT_HOLDS && !how.is_found ? EXIT_FAILS : exit_status;
}

int cmd_pick(const options *given)
{
    progress shown;
    trivet_message message;
    trivet_pick_settings settings;
    trivet_sweep *sweep = NULL;
    trivet_pick *pick = NULL;
    int exit_status = read_pick_settings(given, &settings);
    if (exit_status == EXIT_HOLDS) {
        exit_status = read_sweep(given, &sweep);
    }
    if (exit_status == EXIT_HOLDS) {
        trivet_message_clear(&message);
        progress_begin(&shown, "variants at most");
        const trivet_status status =
            trivet_pick_new(sweep, &settings, progress_step, &shown, &pick, &message);
        progress_end(&shown);
        exit_status = status == TRIVET_OK ? answer_pick(given, sweep, pick, settings.aim)
                                          : fail(given, given->operand, &message);
    }
    trivet_pick_free(pick);
    trivet_sweep_free(sweep);
    return exit_status;
}
