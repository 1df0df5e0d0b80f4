/*
 * trivet rate FILE: the largest cargo that still holds.
 */
#include "columns.h"
#include "command.h"
#include "pages.h"
#include "print.h"
#include "solved.h"

#include <trivet/trivet.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TEXT_MAX = 1024, STOPS = 3 };

static const char *cargo_name(const solved *all, const trivet_rate *rate)
{
    return rate->cargo < 0 ? "all cargo together"
                           : trivet_frame_name(all->frame, TRIVET_KIND_CARGO, rate->cargo);
}

/* A mass to four digits, never more than it is: what is printed holds as well. In kg. */
static double rounded_down(const solved *all, double mass)
{
    double factor = 1.0;
    trivet_units_for(&all->units, TRIVET_MASS, &factor);
    if (!(mass > 0.0)) {
        return 0.0;
    }
    const double shown = mass / factor;
    const double digit = pow(10.0, floor(log10(shown)) - 3.0);
    return floor(shown / digit) * digit * factor;
}

static int print_table(const solved *all, const trivet_rates *rates)
{
    static const char *const HEADINGS[] = {"cargo", "at most", "in the file", ""};
    columns table;
    columns_start(&table, 2, "tnnw", HEADINGS);
    for (int32_t i = 0; i < trivet_rates_count(rates); i++) {
        trivet_rate rate = {.size = sizeof rate};
        if (trivet_rates_at(rates, i, &rate) != TRIVET_OK) {
            continue;
        }
        const char *word = rate.given <= rate.mass ? "within it" : "TOO MUCH";
        columns_add(&table, cargo_name(all, &rate));
        if (!rate.holds) {
            columns_add(&table, "-");
            word = "fails whatever it weighs";
        } else if (rate.is_open) {
            columns_add(&table, "endless");
            word = "nothing stops it";
        } else {
            columns_add_value(&table, &all->units, TRIVET_MASS, rounded_down(all, rate.mass), 4);
        }
        columns_add_value(&table, &all->units, TRIVET_MASS, rate.given, 4);
        columns_add(&table, word);
    }
    print_heading("The largest mass for which every check in every case still holds");
    return columns_print(&table);
}

static void print_stops(const solved *all, const trivet_rates *rates, int32_t index)
{
    static const char *const WORDS[STOPS] = {"stops it", "next", "then"};
    const trivet_checks *const checks = trivet_rates_checks(rates, index);
    trivet_rate rate = {.size = sizeof rate};
    char heading[TEXT_MAX];
    char mass[64];
    if (trivet_rates_at(rates, index, &rate) != TRIVET_OK) {
        return;
    }
    trivet_units_text(&all->units, TRIVET_MASS,
                      rate.holds ? rounded_down(all, rate.mass) : rate.given, 4, mass, sizeof mass);
    snprintf(heading, sizeof heading, "%.120s at %s%s", cargo_name(all, &rate), mass,
             !rate.holds    ? ", as in the file"
             : rate.is_open ? ", where the search ends"
                            : "");
    print_heading(heading);
    for (int32_t i = 0; i < STOPS; i++) {
        char text[TEXT_MAX];
        const int32_t stop = trivet_rates_stop(rates, index, i);
        if (stop < 0) {
            break;
        }
        trivet_checks_sentence_of(checks, stop, &all->units, text, sizeof text);
        printf("  %-9s ", i > 0          ? WORDS[i]
                          : !rate.holds  ? "fails"
                          : rate.is_open ? "highest"
                                         : WORDS[0]);
        print_wrapped(12, 12, text);
    }
}

static void print_meaning(const solved *all)
{
    print_heading("What the number means");
    print_line(2, "It is the mass of the cargo itself, box and straps included, at the place and "
                  "in the cases of the file: the bumps are in the cases, not in the number.");
    print_line(2,
               "Factors: yield strength over %.3g; loads times %.3g on bolts, threads, welds "
               "and walls after EN 1993-1-8; stress that comes and goes times %.3g.",
               all->limits.yield, all->limits.loads, all->limits.crack);
    print_omissions(all->checks, all->document, "Not checked, so not in the number");
    print_cautions();
}

static int print_page(const options *given, const solved *all, const trivet_rates *rates)
{
    const char *const name = trivet_document_name(all->document);
    print_text(name[0] ? name : given->operand);
    putchar('\n');
    if (print_table(all, rates) != 0) {
        return fail_status(given, given->operand, TRIVET_NO_MEMORY);
    }
    for (int32_t i = 0; i < trivet_rates_count(rates); i++) {
        print_stops(all, rates, i);
    }
    print_meaning(all);
    return EXIT_HOLDS;
}

static int print_answer(const options *given, const solved *all, const trivet_rates *rates)
{
    if (given->is_json) {
        trivet_message message;
        char *json = NULL;
        trivet_message_clear(&message);
        const trivet_status status =
            trivet_document_rates_json(all->document, rates, &json, &message);
        return print_json(given, given->operand, status, json, &message);
    }
    return print_page(given, all, rates);
}

/* Whether each cargo of the file is within its rating. */
static int is_within(const trivet_rates *rates)
{
    int within = 1;
    for (int32_t i = 0; i < trivet_rates_count(rates); i++) {
        trivet_rate rate = {.size = sizeof rate};
        within = within && trivet_rates_at(rates, i, &rate) == TRIVET_OK && rate.holds &&
                 (rate.is_open || rate.given <= rate.mass);
    }
    return within;
}

int cmd_rate(const options *given)
{
    solved all;
    trivet_message message;
    trivet_rates *rates = NULL;
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    trivet_status status = solved_make(given->operand, &all, &message);
    if (status == TRIVET_OK) {
        status = trivet_rates_new(all.frame, &all.limits, &rates, &message);
    }
    int exit_status = EXIT_HOLDS;
    if (status != TRIVET_OK) {
        exit_status = solved_fail(given, status, &message);
    } else {
        exit_status = print_answer(given, &all, rates);
        if (exit_status == EXIT_HOLDS && !is_within(rates)) {
            exit_status = EXIT_FAILS;
        }
    }
    trivet_rates_free(rates);
    solved_free(&all);
    return exit_status;
}
