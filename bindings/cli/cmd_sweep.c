/*
 * trivet sweep FILE -o RUNS.sqlite: every variant into a store.
 */
#include "pages.h"
#include "print.h"
#include "progress.h"
#include "sweep_print.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { INPUTS_MAX = 64 };

static int refuse(const options *given, trivet_status status, const char *thing,
                  const char *problem, const char *remedy)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = (int32_t)status;
    snprintf(message.thing, sizeof message.thing, "%s", thing);
    snprintf(message.problem, sizeof message.problem, "%s", problem);
    snprintf(message.remedy, sizeof message.remedy, "%s", remedy);
    return fail(given, NULL, &message);
}

/* "3/8" */
static int read_part(const options *given, trivet_sweep_settings *settings)
{
    const char *const text = option_value(given, "--part");
    int part = 0;
    int parts = 0;
    char rest = '\0';
    if (!text) {
        return EXIT_HOLDS;
    }
    if (sscanf(text, "%d/%d%c", &part, &parts, &rest) != 2 || part < 1 || part > parts) {
        return refuse(given, TRIVET_BAD_VALUE, "option --part", "is not a part of the whole",
                      "write --part 3/8 for the third of eight");
    }
    settings->part = part;
    settings->parts = parts;
    return EXIT_HOLDS;
}

static void print_best(const trivet_sweep *sweep, const char *what, int64_t number,
                       const char *value)
{
    double inputs[INPUTS_MAX];
    char text[600];
    if (number >= 0 && trivet_sweep_inputs(sweep, number, inputs) == TRIVET_OK) {
        inputs_text(sweep, inputs, text, sizeof text);
        print_line(2, "%s: number %lld, %s, with %s", what, (long long)number, value, text);
    }
}

static void print_bests(const trivet_sweep *sweep, const trivet_sweep_summary *sum)
{
    char mass[64];
    char price[64];
    char droop[64];
    trivet_units units = {.size = sizeof units};
    trivet_document_units(trivet_sweep_document(sweep), &units);
    trivet_units_text(&units, TRIVET_MASS, sum->least_mass, 4, mass, sizeof mass);
    trivet_units_text(&units, TRIVET_LENGTH, sum->least_droop, 3, droop, sizeof droop);
    snprintf(price, sizeof price, "%.2f", sum->least_price);
    if (sum->hold > 0) {
        print_heading("Of those that hold in every line, as far as it was checked");
    }
    print_best(sweep, "lightest", sum->lightest, mass);
    print_best(sweep, "cheapest", sum->cheapest, price);
    print_best(sweep, "stiffest", sum->stiffest, droop);
}

static void print_summary(const options *given, const trivet_sweep *sweep,
                          const trivet_sweep_summary *sum, const char *store)
{
    print_line(0,
               "%lld of them are in %s: %lld hold, %lld do not, %lld were skipped, %lld could "
               "not be made or solved",
               (long long)sum->stored, store, (long long)sum->hold,
               (long long)(sum->checked - sum->hold), (long long)sum->skipped,
               (long long)sum->failed);
    print_bests(sweep, sum);
    print_heading("Go on");
    print_line(2,
               "One in full: trivet sweep %s --variant NUMBER > one.yaml && trivet check "
               "one.yaml",
               given->operand);
    print_line(2,
               "The store has views for the usual questions: sqlite3 %s \"SELECT * FROM "
               "best_by_mass LIMIT 10\"",
               store);
    print_cautions();
}

static void print_summary_json(const trivet_sweep_summary *sum)
{
    const struct {
        const char *name;
        int64_t value;
    } rows[] = {
        {"variants", sum->count},    {"stored", sum->stored},     {"checked", sum->checked},
        {"skipped", sum->skipped},   {"failed", sum->failed},     {"hold", sum->hold},
        {"lightest", sum->lightest}, {"cheapest", sum->cheapest}, {"stiffest", sum->stiffest},
    };
    printf("{\"trivet\": \"%s\"", trivet_version());
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].value < 0) {
            printf(", \"%s\": null", rows[i].name);
        } else {
            printf(", \"%s\": %lld", rows[i].name, (long long)rows[i].value);
        }
    }
    printf(", \"finished\": %s}\n", sum->is_finished ? "true" : "false");
}

static int write_piece(void *user, const char *text, size_t length)
{
    return fwrite(text, 1, length, user) == length ? 0 : -1;
}

static trivet_status refuse_table(const char *path, const char *problem, trivet_message *message)
{
    trivet_message_clear(message);
    message->status = TRIVET_UNWRITABLE;
    snprintf(message->thing, sizeof message->thing, "%.120s", path);
    snprintf(message->problem, sizeof message->problem, "%s", problem);
    snprintf(message->remedy, sizeof message->remedy,
             "look at the folder and whether the disk is full");
    return TRIVET_UNWRITABLE;
}

/* Into a file beside it first, so that half a table never bears the name. */
static trivet_status write_table(const char *store, const char *path, const trivet_units *units,
                                 trivet_message *message)
{
    char beside[1024];
    if ((size_t)snprintf(beside, sizeof beside, "%s.part", path) >= sizeof beside) {
        return refuse_table(path, "has too long a name", message);
    }
    FILE *const file = fopen(beside, "wb");
    if (!file) {
        return refuse_table(path, "could not be made", message);
    }
    trivet_status status = trivet_sweep_csv(store, units, write_piece, file, message);
    const int is_closed = fclose(file) == 0;
    if (status == TRIVET_OK && (!is_closed || rename(beside, path) != 0)) {
        status = refuse_table(path, "could not be written", message);
    }
    if (status != TRIVET_OK) {
        remove(beside);
    }
    return status;
}

/* The store summed up, and written as CSV if that was asked for. */
static int finish(const options *given, const trivet_sweep *sweep, const char *store)
{
    trivet_message message;
    trivet_units units = {.size = sizeof units};
    trivet_sweep_summary sum = {.size = sizeof sum};
    const char *const csv = option_value(given, "--csv");
    trivet_message_clear(&message);
    trivet_units_defaults(&units, sizeof units);
    if (sweep) {
        trivet_document_units(trivet_sweep_document(sweep), &units);
    }
    trivet_status status = trivet_sweep_summarise(store, &sum, &message);
    if (status == TRIVET_OK && csv) {
        status = write_table(store, csv, &units, &message);
    }
    if (status != TRIVET_OK) {
        return fail(given, store, &message);
    }
    if (given->is_json) {
        print_summary_json(&sum);
    } else if (sweep) {
        print_summary(given, sweep, &sum, store);
    } else {
        print_line(0, "%lld variants are in %s, %lld of them hold", (long long)sum.stored, store,
                   (long long)sum.hold);
    }
    return EXIT_HOLDS;
}

static int run_sweep(const options *given, const trivet_sweep *sweep, const char *store)
{
    progress shown;
    trivet_message message;
    trivet_sweep_settings settings;
    int64_t workers = 1;
    trivet_sweep_settings_defaults(&settings, sizeof settings);
    settings.checks = option_value(given, "--checks") != NULL;
    int exit_status = read_part(given, &settings);
    if (exit_status == EXIT_HOLDS) {
        exit_status = option_whole(given, "--workers", 1, 256, &workers);
    }
    if (exit_status != EXIT_HOLDS) {
        return exit_status;
    }
    settings.workers = (int32_t)workers;
    if (!given->is_json) {
        print_sweep(sweep);
        fflush(stdout); /* how many there are is said before the run */
    }
    trivet_message_clear(&message);
    progress_begin(&shown, "variants");
    const trivet_status status =
        trivet_sweep_store(sweep, &settings, store, progress_step, &shown, &message);
    progress_end(&shown);
    return status == TRIVET_OK ? finish(given, sweep, store) : fail(given, store, &message);
}

static int merge(const options *given, const char *store)
{
    trivet_message message;
    trivet_message_clear(&message);
    const trivet_status status =
        trivet_sweep_merge(store, given->operands, given->operand_count, &message);
    return status == TRIVET_OK ? finish(given, NULL, store) : fail(given, store, &message);
}

static int write_one(const options *given, const trivet_sweep *sweep)
{
    int64_t number = 0;
    char *text = NULL;
    trivet_message message;
    const int exit_status =
        option_whole(given, "--variant", 0, trivet_sweep_count(sweep) - 1, &number);
    if (exit_status != EXIT_HOLDS) {
        return exit_status;
    }
    trivet_message_clear(&message);
    const trivet_status status = trivet_sweep_variant_text(sweep, number, &text, &message);
    return print_json(given, given->operand, status, text, &message);
}

int cmd_sweep(const options *given)
{
    trivet_sweep *sweep = NULL;
    const char *const store = option_value(given, "-o");
    const int wants_one = option_value(given, "--variant") != NULL;
    if (!store && !wants_one) {
        return refuse(given, TRIVET_INCOMPLETE, "option -o", "is missing",
                      "say where the answers go: -o runs.sqlite");
    }
    if (option_value(given, "--merge")) {
        return merge(given, store);
    }
    if (given->operand_count > 1) {
        return refuse(given, TRIVET_BAD_KEY, given->operands[1], "is one file too many",
                      "give one, or merge stores with --merge");
    }
    int exit_status = read_sweep(given, &sweep);
    if (exit_status == EXIT_HOLDS) {
        exit_status = wants_one ? write_one(given, sweep) : run_sweep(given, sweep, store);
    }
    trivet_sweep_free(sweep);
    return exit_status;
}
