/*
 * A sweep made up for the tests of the store: its head, and rows that follow from their numbers
 * alone, so that any program can make any of them again.
 */
#ifndef TRIVET_TESTS_SWEEP_ROWS_H
#define TRIVET_TESTS_SWEEP_ROWS_H

#include "sweep/store.h"

enum { MADE_INPUTS = 6, MADE_CHECKS_MOST = 3, MADE_BATCH_MOST = 4096 };

/* The head of a sweep of count variants, of which this is the part from first up to end. */
trivet__run_head made_head(int64_t count, int64_t first, int64_t end);

typedef struct made_row {
    trivet__variant_row row;
    double inputs[MADE_INPUTS];
    char reason[64];
} made_row;

/* Row number, whose pointers point into made or to static text. */
void make_row(int64_t number, made_row *made);

/* Checks of a variant, 0 to MADE_CHECKS_MOST; texts are static. Returns how many. */
int32_t make_checks(int64_t number, trivet__check_row checks[MADE_CHECKS_MOST]);

/* Puts rows in batches from where the store stands up to end (exclusive). */
trivet_status feed_rows(trivet__store *store, int64_t end, int32_t batch, int has_checks,
                        trivet_message *message);

#endif
