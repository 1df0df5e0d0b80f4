/*
 * trivet check FILE: read, solve, check, print.
 */
#include "check_page.h"
#include "command.h"
#include "print.h"
#include "solved.h"

#include <trivet/trivet.h>

#include <stdio.h>
#include <string.h>

/* Whether each hand calculation in the file agrees. */
static trivet_status hand_calculations(const solved *all, int *agree_out, trivet_message *message)
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

static int exit_for(const solved *all, int agree)
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

static int print_answer(const options *given, const solved *all)
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
                         all->result,    all->checks,   all->units,
                         all->limits};
    return check_page(&page) == 0 ? EXIT_HOLDS
                                  : fail_status(given, given->operand, TRIVET_NO_MEMORY);
}

int cmd_check(const options *given)
{
    solved all;
    trivet_message message;
    int agree = 1;
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    trivet_status status = solved_make(given->operand, &all, &message);
    if (status == TRIVET_OK) {
        status = hand_calculations(&all, &agree, &message);
    }
    int exit_status = EXIT_HOLDS;
    if (status != TRIVET_OK) {
        exit_status = solved_fail(given, status, &message);
    } else {
        exit_status = print_answer(given, &all);
        if (exit_status == EXIT_HOLDS) {
            exit_status = exit_for(&all, agree);
        }
    }
    solved_free(&all);
    return exit_status;
}
