/*
 * The fillings of one bar, one after the other: counts of each batch as digits of a number that
 * falls. Only full ones are given, and of those none in which a piece could be changed for a longer
 * one that is left, or two for one as long or longer: any answer with such a filling stays as good
 * after the change (dominance after Martello and Toth).
 */
#include "shop/bar_search.h"

enum { DOMINANCE_MOST = 64 }; /* batches up to which pairs are looked at */

static int64_t smaller(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* As many as fit of each batch from `from` on. */
static void fill_on(const trivet__bar_problem *problem, const int32_t *left,
                    trivet__bar_filling *filling, int32_t from)
{
    for (int32_t b = from; b < problem->batch_count; b++) {
        const int64_t size = problem->batches[b].size;
        const int64_t count = smaller(left[b], filling->rest / size);
        filling->counts[b] = (int32_t)count;
        filling->rest -= count * size;
    }
}

static int is_full(const trivet__bar_problem *problem, const int32_t *left,
                   const trivet__bar_filling *filling)
{
    for (int32_t b = filling->first; b < problem->batch_count; b++) {
        if (left[b] > filling->counts[b] && problem->batches[b].size <= filling->rest) {
            return 0;
        }
    }
    return 1;
}

/* Whether a piece of a longer batch that is left fits in for sizes that are in. */
static int has_longer(const trivet__bar_problem *problem, const int32_t *left,
                      const trivet__bar_filling *filling, int32_t before, int64_t size)
{
    for (int32_t b = filling->first; b < before; b++) {
        const int64_t longer = problem->batches[b].size;
        if (left[b] > filling->counts[b] && longer >= size && longer <= size + filling->rest) {
            return 1;
        }
    }
    return 0;
}

static int is_dominated(const trivet__bar_problem *problem, const int32_t *left,
                        const trivet__bar_filling *filling)
{
    for (int32_t b = filling->first + 1; b < problem->batch_count; b++) {
        const int64_t size = problem->batches[b].size;
        if (filling->counts[b] == 0) {
            continue;
        }
        if (has_longer(problem, left, filling, b, size)) {
            return 1;
        }
        if (problem->batch_count > DOMINANCE_MOST) {
            continue;
        }
        for (int32_t c = b; c < problem->batch_count; c++) {
            const int enough = c == b ? filling->counts[b] > 1 : filling->counts[c] > 0;
            if (enough && has_longer(problem, left, filling, b, size + problem->batches[c].size)) {
                return 1;
            }
        }
    }
    return 0;
}

/* The sum of sizes from a batch on that are left, at most `most`. */
static int64_t sum_from(const trivet__bar_problem *problem, const int32_t *left, int32_t from,
                        int64_t most)
{
    int64_t sum = 0;
    for (int32_t b = from; b < problem->batch_count && sum < most; b++) {
        sum += left[b] * problem->batches[b].size;
    }
    return smaller(sum, most);
}

/* Takes one piece out, from the back; what stands behind it is filled anew. 0: none is left. */
static int step_down(const trivet__bar_problem *problem, const int32_t *left,
                     trivet__bar_filling *filling, trivet__bar_hope *hope, const void *user)
{
    const int64_t whole = problem->kinds[filling->kind].size;
    for (int32_t b = problem->batch_count - 1; b >= filling->first; b--) {
        const int64_t size = problem->batches[b].size;
        const int32_t least = b == filling->first ? 1 : 0;
        if (filling->counts[b] <= least) {
            continue;
        }
        const int is_last = b == problem->batch_count - 1;
        if (!is_last) {
            filling->counts[b]--;
            filling->rest += size;
            const int64_t used = whole - filling->rest;
            if (hope(user, used + sum_from(problem, left, b + 1, filling->rest))) {
                fill_on(problem, left, filling, b + 1);
                return 1;
            }
        }
        /* Fewer still of this one can only be worse, and without the last nothing is full. */
        filling->rest += (filling->counts[b] - least) * size;
        filling->counts[b] = least;
    }
    return 0;
}

int trivet__bar_filling_next(const trivet__bar_problem *problem, const int32_t *left,
                             trivet__bar_filling *filling, int64_t *steps, trivet__bar_hope *hope,
                             const void *user)
{
    int is_there = 1;
    if (filling->is_fresh) {
        filling->is_fresh = 0;
        for (int32_t b = 0; b < filling->first; b++) {
            filling->counts[b] = 0;
        }
        filling->rest = problem->kinds[filling->kind].size;
        fill_on(problem, left, filling, filling->first);
        is_there = filling->counts[filling->first] > 0;
    } else {
        is_there = step_down(problem, left, filling, hope, user);
    }
    while (is_there && *steps < problem->most_steps) {
        ++*steps;
        const int64_t used = problem->kinds[filling->kind].size - filling->rest;
        if (hope(user, used) && is_full(problem, left, filling) &&
            !is_dominated(problem, left, filling)) {
            return 1;
        }
        is_there = step_down(problem, left, filling, hope, user);
    }
    return 0;
}
