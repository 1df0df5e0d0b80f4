/*
 * The answer of trivet check as text, from the verdict down to the details.
 */
#ifndef TRIVET_CLI_CHECK_PAGE_H
#define TRIVET_CLI_CHECK_PAGE_H

#include <trivet/checks.h>
#include <trivet/document.h>
#include <trivet/frame.h>
#include <trivet/statics.h>

/* All that there is to print. */
typedef struct answer {
    const char *path;
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_result *result;
    const trivet_checks *checks;
    trivet_units units;
    trivet_limits limits;
} answer;

/* Prints the whole page. Returns 0, or -1 if there was not enough memory for a table. */
int check_page(const answer *of);

#endif
