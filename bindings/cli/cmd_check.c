/*
 * trivet check FILE: read, solve, check, print.
 */
#include "check_page.h"
#include "command.h"
#include "pages.h"
#include "print.h"

#include <trivet/trivet.h>

#include <stdio.h>
#include <string.h>

/* What was made on the way, to be freed in one place. */
typedef struct made {
    trivet_document *document;
    trivet_result *result;
    trivet_checks *checks;
    trivet_limits limits;
    trivet_units units;
} made;

/* Reads, solves and checks. Statuses of all of them. */
static trivet_status make(const char *path, made *all, trivet_message *message)
{
    trivet_status status = trivet_document_read_file(path, &all->document, message);
    if (status == TRIVET_OK) {
        status = read_settings(all->document, &all->units, &all->limits);
    }
    const trivet_frame *const frame = trivet_document_frame(all->document);
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(frame, &all->result, message);
    }
    if (status == TRIVET_OK) {
        status = trivet_checks_new(frame, all->result, &all->limits, &all->checks, message);
    }
    return status;
}

static void free_made(made *all)
{
    trivet_checks_free(all->checks);
    trivet_result_free(all->result);
    trivet_document_free(all->document);
}

/* Whether each hand calculation in the file agrees. */
static trivet_status hand_calculations(const made *all, int *agree_out, trivet_message *message)
{
    *agree_out = 1;
    const int32_t count = trivet_document_expectation_count(all->document);
    for (int32_t i = 0; i < count; i++) {
        trivet_expectation expectation;
        trivet_status status = trivet_expectation_defaults(&expectation, sizeof expectation);
        if (status == TRIVET_OK) {
            status = trivet_document_expect(all->document, all->result, all->checks, i,
                                            &expectation, message);
        }
        if (status != TRIVET_OK) {
            return status;
        }
        *agree_out = *agree_out && expectation.agrees;
    }
    return TRIVET_OK;
}

static int exit_for(const made *all, int agree)
{
    const int32_t verdict = trivet_checks_overall(all->checks);
    if (verdict == TRIVET_FAILS || verdict == TRIVET_MAY_CRACK || !agree) {
        return EXIT_FAILS;
    }
    /* Where no strength was known, a droop within its limit is no "holds". */
    return trivet_checks_verdict(all->checks, TRIVET_LINE_OVERLOAD, NULL) == TRIVET_NOT_CHECKED
               ? EXIT_NO_ANSWER
               : EXIT_HOLDS;
}

static int print_answer(const options *given, const made *all)
{
    if (given->is_json) {
        trivet_message message;
        char *json = NULL;
        trivet_message_clear(&message);
        const trivet_status status =
            trivet_document_results_json(all->document, all->result, all->checks, &json, &message);
        return print_json(given, given->operand, status, json, &message);
    }
    const answer page = {given->operand, all->document, trivet_document_frame(all->document),
                         all->result,    all->checks,   all->units};
    return check_page(&page) == 0 ? EXIT_HOLDS
                                  : fail_status(given, given->operand, TRIVET_NO_MEMORY);
}

int cmd_check(const options *given)
{
    made all;
    trivet_message message;
    int agree = 1;
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    trivet_status status = make(given->operand, &all, &message);
    if (status == TRIVET_OK) {
        status = hand_calculations(&all, &agree, &message);
    }
    int exit_status = EXIT_HOLDS;
    if (status != TRIVET_OK) {
        if (message.status == TRIVET_OK) {
            exit_status = fail_status(given, given->operand, status);
        } else {
            exit_status = fail(given, given->operand, &message);
        }
    } else {
        exit_status = print_answer(given, &all);
        if (exit_status == EXIT_HOLDS) {
            exit_status = exit_for(&all, agree);
        }
    }
    free_made(&all);
    return exit_status;
}
