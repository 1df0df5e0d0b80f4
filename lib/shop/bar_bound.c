/*
 * Bounds from below on what bars cost. By sum: pieces melted down and poured into the cheapest
 * bars. By count: L2 of Martello and Toth (Discrete Applied Mathematics 28, 1990; from memory) on
 * the longest bar, less the bars that are at hand.
 */
#include "shop/bar_search.h"

#include <math.h>

/* A sum of costs that rounding may have left a trifle above a whole number. */
#define ROUNDING 1e-6

static int64_t larger(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

int64_t trivet__bar_bound_of_sum(const trivet__bar_problem *problem, int64_t sum,
                                 const int32_t *have)
{
    double cost = 0.0;
    int64_t rest = sum;
    for (int32_t k = 0; k < problem->kind_count && rest > 0; k++) {
        const trivet__bar_kind *const kind = &problem->kinds[k];
        if (have[k] < 0 || rest <= have[k] * kind->size) {
            cost += (double)kind->cost * ((double)rest / (double)kind->size);
            rest = 0;
        } else {
            cost += (double)kind->cost * (double)have[k];
            rest -= have[k] * kind->size;
        }
    }
    return rest > 0 ? TRIVET__BAR_NEVER : (int64_t)ceil(cost - ROUNDING);
}

/* L2 for one threshold: pieces of at least `least`, at most half a bar. */
static int64_t count_for(const trivet__bar_problem *problem, const int32_t *left, int64_t bar,
                         int64_t least)
{
    int64_t alone = 0; /* nothing of least fits beside them */
    int64_t halves = 0;
    int64_t halves_sum = 0;
    int64_t small_sum = 0;
    for (int32_t b = 0; b < problem->batch_count && problem->batches[b].size >= least; b++) {
        const int64_t size = problem->batches[b].size;
        if (size > bar - least) {
            alone += left[b];
        } else if (2 * size > bar) {
            halves += left[b];
            halves_sum += left[b] * size;
        } else {
            small_sum += left[b] * size;
        }
    }
    const int64_t over = small_sum - (halves * bar - halves_sum);
    return alone + halves + (over > 0 ? (over + bar - 1) / bar : 0);
}

int64_t trivet__bar_bound_count(const trivet__bar_problem *problem, const int32_t *left,
                                int64_t bar)
{
    int64_t best = count_for(problem, left, bar, 0);
    for (int32_t b = 0; b < problem->batch_count; b++) {
        if (left[b] > 0 && 2 * problem->batches[b].size <= bar) {
            best = larger(best, count_for(problem, left, bar, problem->batches[b].size));
        }
    }
    return best;
}

int64_t trivet__bar_bound(const trivet__bar_problem *problem, const int32_t *left,
                          const int32_t *have)
{
    int64_t sum = 0;
    int64_t longest = 0;
    int64_t at_hand = 0;
    int64_t least_cost = TRIVET__BAR_NEVER; /* of a bar without end */
    for (int32_t b = 0; b < problem->batch_count; b++) {
        sum += left[b] * problem->batches[b].size;
    }
    for (int32_t k = 0; k < problem->kind_count; k++) {
        const trivet__bar_kind *const kind = &problem->kinds[k];
        if (have[k] == 0) {
            continue;
        }
        longest = larger(longest, kind->size);
        if (have[k] < 0) {
            least_cost = kind->cost < least_cost ? kind->cost : least_cost;
        } else {
            at_hand += have[k];
        }
    }
    if (sum == 0) {
        return 0;
    }
    const int64_t by_sum = trivet__bar_bound_of_sum(problem, sum, have);
    const int64_t to_buy =
        longest > 0 ? trivet__bar_bound_count(problem, left, longest) - at_hand : 1;
    if (to_buy > 0 && least_cost == TRIVET__BAR_NEVER) {
        return TRIVET__BAR_NEVER;
    }
    return to_buy > 0 ? larger(by_sum, to_buy * least_cost) : by_sum;
}
