/*
 * Which piece out of which bar: one-dimensional cutting with kerf, exact unless it grows too large.
 *
 * Everything is a whole number of micrometres and of ten-thousandths of the currency, so that sums
 * are exact. A piece counts with its kerf, a bar with one kerf more: n pieces need n - 1 cuts if
 * they use the bar up, and the last cut may run out of the end.
 *
 * Method: bars are filled one after the other; each takes the longest piece that is left, with
 * every filling that no better one dominates (Martello and Toth, Knapsack Problems, 1990, chapter
 * 8; bar by bar as in Korf, "A new algorithm for optimal bin packing", 2002; both from memory).
 * What cannot beat the best so far is cut off by bounds (bar_bound.c) and by remembering what was
 * left before. Steps are counted, so that the same input gives the same answer everywhere.
 */
#ifndef TRIVET_SHOP_BAR_SEARCH_H
#define TRIVET_SHOP_BAR_SEARCH_H

#include "trivet/base.h"

/* A kind of bar on offer. */
typedef struct trivet__bar_kind {
    int64_t size; /* length and one kerf, um */
    int64_t cost; /* what the aim counts, at least 0 */
    int32_t have; /* so many; -1: no end of them */
} trivet__bar_kind;

/* Pieces of one size. */
typedef struct trivet__bar_batch {
    int64_t size; /* length and one kerf, um, above 0 */
    int32_t count;
} trivet__bar_batch;

/* What is to be cut out of what. Kinds by rising cost for their size; batches by falling size. */
typedef struct trivet__bar_problem {
    const trivet__bar_kind *kinds;    /* [kind_count] */
    const trivet__bar_batch *batches; /* [batch_count] */
    int32_t kind_count;
    int32_t batch_count;
    int32_t piece_count; /* of all batches */
    int64_t most_steps;
} trivet__bar_problem;

/* An answer; the arrays are the caller's. */
typedef struct trivet__bar_answer {
    int32_t *kinds;    /* [piece_count] of the bars */
    int32_t *counts;   /* [piece_count][batch_count] how many of each batch a bar gives */
    int32_t bar_count; /* 0: none was found */
    int64_t cost;
    int64_t bound; /* no answer costs less */
    int64_t steps;
    int32_t is_proven; /* nothing costs less; with bar_count 0: there is no answer */
} trivet__bar_answer;

/* TRIVET_OK or TRIVET_NO_MEMORY. */
trivet_status trivet__bars_search(const trivet__bar_problem *problem,
                                  trivet__bar_answer *answer_out);

/* More than any cost: cannot be done. */
#define TRIVET__BAR_NEVER (INT64_MAX / 4)

/*
 * The least that what is left can cost: left [batch_count] pieces, have [kind_count] bars (-1: no
 * end). TRIVET__BAR_NEVER if there are not bars enough.
 */
int64_t trivet__bar_bound(const trivet__bar_problem *problem, const int32_t *left,
                          const int32_t *have);

/* The part of it that looks at the sum of sizes alone. */
int64_t trivet__bar_bound_of_sum(const trivet__bar_problem *problem, int64_t sum,
                                 const int32_t *have);

/* L2 of Martello and Toth: the fewest bars of a size that hold what is left. */
int64_t trivet__bar_bound_count(const trivet__bar_problem *problem, const int32_t *left,
                                int64_t bar);

/* A filling of one bar, and how the next one is found. */
typedef struct trivet__bar_filling {
    int32_t *counts; /* [batch_count] */
    int32_t first;   /* batch of the longest piece left: it is always in */
    int32_t kind;
    int64_t rest;     /* of the bar's size */
    int32_t is_fresh; /* nothing has been found yet */
} trivet__bar_filling;

/* Asks whether a filling whose pieces add up to at most sum can still be any good. */
typedef int trivet__bar_hope(const void *user, int64_t sum);

/*
 * The next filling, from the one that begins with the most of the longest: only full ones, and none
 * that another dominates. 0: there is none. *steps rises; stops with 0 if it reaches most_steps.
 */
int trivet__bar_filling_next(const trivet__bar_problem *problem, const int32_t *left,
                             trivet__bar_filling *filling, int64_t *steps, trivet__bar_hope *hope,
                             const void *user);

#endif
