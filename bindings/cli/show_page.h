/*
 * What was understood of a file, as text.
 */
#ifndef TRIVET_CLI_SHOW_PAGE_H
#define TRIVET_CLI_SHOW_PAGE_H

#include <trivet/document.h>
#include <trivet/frame.h>
#include <trivet/statics.h>

typedef struct understood {
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_result *result; /* NULL if it cannot be solved: then spans are not listed */
    trivet_units units;
    trivet_limits limits;
} understood;

/* Prints the whole page. Returns 0, or -1 if there was not enough memory for a table. */
int show_page(const understood *of);

#endif
