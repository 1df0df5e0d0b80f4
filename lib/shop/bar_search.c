/*
 * The search itself: quick answers first, then every answer that could be better, bar by bar. It
 * walks without calling itself; bar number d of the answer in the making is level d.
 */
#include "shop/bar_search.h"

#include "base/memory.h"

#include <assert.h>
#include <string.h>

enum {
    SEEN_MOST = 1 << 15,  /* states that are remembered */
    GREEDY_STEPS = 20000, /* fillings that a quick answer tries for one bar */
    GREEDY_WAYS = 6       /* quick answers, each satisfied with a little more waste a bar */
};

/* A level: which kind of bar, its filling, what the bars before it cost. */
typedef struct level {
    trivet__bar_filling filling;
    int64_t cost;
} level;

typedef struct search {
    const trivet__bar_problem *problem;
    trivet__bar_answer *best;
    level *levels;      /* [piece_count] */
    int32_t *counts;    /* [piece_count][batch_count] */
    int32_t *left;      /* [batch_count] */
    int32_t *have;      /* [kind_count] */
    int32_t *seen;      /* [SEEN_MOST][batch_count + kind_count] */
    int64_t *seen_cost; /* [SEEN_MOST]; -1: empty */
    int32_t seen_count;
    int32_t depth; /* bars that are filled */
    int64_t left_sum;
    int64_t steps;
} search;

/* What a filling under way is asked against. */
typedef struct hope_for {
    const search *of;
    int64_t cost; /* with this bar */
} hope_for;

static int is_hopeful(const void *user, int64_t sum)
{
    const hope_for *const hope = user;
    const search *const of = hope->of;
    return hope->cost + trivet__bar_bound_of_sum(of->problem, of->left_sum - sum, of->have) <
           of->best->cost;
}

static int always_hopeful(const void *user, int64_t sum)
{
    (void)user;
    (void)sum;
    return 1;
}

/* Takes the pieces of a level's bar away (1) or puts them back (-1). */
static void take_bar(search *s, const level *at, int32_t sign)
{
    const trivet__bar_problem *const problem = s->problem;
    for (int32_t b = 0; b < problem->batch_count; b++) {
        s->left[b] -= sign * at->filling.counts[b];
        s->left_sum -= sign * at->filling.counts[b] * problem->batches[b].size;
    }
    if (problem->kinds[at->filling.kind].have >= 0) {
        s->have[at->filling.kind] -= sign;
    }
    s->depth += sign;
}

static int32_t first_left(const search *s)
{
    int32_t first = 0;
    while (first < s->problem->batch_count && s->left[first] == 0) {
        first++;
    }
    return first;
}

/* The bars of all levels are an answer: keep it if it is the best. */
static void keep_answer(search *s, int64_t cost)
{
    const size_t row = (size_t)s->problem->batch_count;
    if (s->best->bar_count > 0 && cost >= s->best->cost) {
        return;
    }
    s->best->cost = cost;
    s->best->bar_count = s->depth;
    for (int32_t d = 0; d < s->depth; d++) {
        s->best->kinds[d] = s->levels[d].filling.kind;
        memcpy(s->best->counts + (size_t)d * row, s->levels[d].filling.counts,
               row * sizeof *s->left);
    }
}

static void start_level(search *s, int64_t cost, int32_t kind)
{
    level *const at = &s->levels[s->depth];
    at->cost = cost;
    at->filling.counts = s->counts + (size_t)s->depth * (size_t)s->problem->batch_count;
    at->filling.first = first_left(s);
    at->filling.kind = kind;
    at->filling.is_fresh = 1;
}

/* The fullest filling of a kind, or the first that leaves no more than `waste`. 0: none. */
static int fill_well(search *s, int32_t kind, int64_t waste, int32_t *kept)
{
    const trivet__bar_problem *const problem = s->problem;
    const size_t bytes = (size_t)problem->batch_count * sizeof *kept;
    trivet__bar_problem limited = *problem;
    trivet__bar_filling *const filling = &s->levels[s->depth].filling;
    int64_t steps = 0;
    int64_t least = -1;
    limited.most_steps = GREEDY_STEPS;
    start_level(s, s->levels[s->depth].cost, kind);
    while (trivet__bar_filling_next(&limited, s->left, filling, &steps, always_hopeful, NULL)) {
        if (least < 0 || filling->rest < least) {
            least = filling->rest;
            memcpy(kept, filling->counts, bytes);
            if (least <= waste) {
                break;
            }
        }
    }
    if (least >= 0) {
        memcpy(filling->counts, kept, bytes);
        filling->rest = least;
    }
    return least >= 0;
}

/* Fills the next bar with the kind that costs least for what it takes. 0: none takes any. */
static int greedy_bar(search *s, int64_t waste, int32_t *kept, int64_t *cost)
{
    int32_t best = -1;
    double best_ratio = 0.0;
    for (int32_t k = 0; k < s->problem->kind_count; k++) {
        const trivet__bar_kind *const kind = &s->problem->kinds[k];
        if (s->have[k] == 0 || !fill_well(s, k, waste, kept)) {
            continue;
        }
        const int64_t used = kind->size - s->levels[s->depth].filling.rest;
        const double ratio = (double)kind->cost / (double)used;
        if (best < 0 || ratio < best_ratio) {
            best = k;
            best_ratio = ratio;
        }
    }
    if (best < 0 || !fill_well(s, best, waste, kept)) {
        return 0;
    }
    *cost += s->problem->kinds[best].cost;
    take_bar(s, &s->levels[s->depth], 1);
    return 1;
}

static void greedy_answer(search *s, int64_t waste, int32_t *kept)
{
    int64_t cost = 0;
    int works = 1;
    while (s->left_sum > 0 && works) {
        works = greedy_bar(s, waste, kept, &cost);
    }
    if (works) {
        keep_answer(s, cost);
    }
    while (s->depth > 0) {
        take_bar(s, &s->levels[s->depth - 1], -1);
    }
}

/* Several quick answers: with no waste allowed, then with more and more of the mean waste. */
static void greedy_answers(search *s, int32_t *kept)
{
    int64_t longest = 1;
    for (int32_t k = 0; k < s->problem->kind_count; k++) {
        longest = s->problem->kinds[k].size > longest ? s->problem->kinds[k].size : longest;
    }
    const int64_t bars = (s->left_sum + longest - 1) / longest;
    const int64_t mean = bars > 0 ? (bars * longest - s->left_sum) / bars : 0;
    for (int32_t way = 0; way < GREEDY_WAYS; way++) {
        if (s->best->bar_count == 0 || s->best->cost > s->best->bound) {
            greedy_answer(s, way * mean / 2, kept);
        }
    }
    greedy_answer(s, INT64_MAX, kept); /* the longest that fits, always */
}

static size_t state_hash(const int32_t *state, int32_t count)
{
    uint64_t print = 14695981039346656037U; /* FNV-1a over words */
    for (int32_t i = 0; i < count; i++) {
        print = (print ^ (uint32_t)state[i]) * 1099511628211U;
    }
    return (size_t)(print ^ (print >> 32U));
}

/*
 * Whether the same pieces and bars were left before at no more cost: nothing new can come of it.
 * Remembers them otherwise, as long as there is room.
 */
static int was_seen(search *s, int64_t cost)
{
    const int32_t batches = s->problem->batch_count;
    const int32_t width = batches + s->problem->kind_count;
    size_t at =
        (state_hash(s->left, batches) ^ (state_hash(s->have, s->problem->kind_count) << 1U));
    for (int32_t tries = 0; tries < SEEN_MOST; tries++, at++) {
        const size_t slot = at % SEEN_MOST;
        int32_t *const state = s->seen + slot * (size_t)width;
        if (s->seen_cost[slot] < 0) {
            if (s->seen_count < SEEN_MOST / 2) {
                memcpy(state, s->left, (size_t)batches * sizeof *state);
                memcpy(state + batches, s->have, (size_t)s->problem->kind_count * sizeof *state);
                s->seen_cost[slot] = cost;
                s->seen_count++;
            }
            return 0;
        }
        if (memcmp(state, s->left, (size_t)batches * sizeof *state) == 0 &&
            memcmp(state + batches, s->have, (size_t)s->problem->kind_count * sizeof *state) == 0) {
            const int is_no_better = s->seen_cost[slot] <= cost;
            s->seen_cost[slot] = is_no_better ? s->seen_cost[slot] : cost;
            return is_no_better;
        }
    }
    return 0;
}

/* A kind that is never worth taking: another, of which there is no end, is as long and no dearer.
 */
static int is_needless(const search *s, int32_t kind)
{
    const trivet__bar_kind *const of = &s->problem->kinds[kind];
    for (int32_t k = 0; k < s->problem->kind_count; k++) {
        const trivet__bar_kind *const other = &s->problem->kinds[k];
        const int is_as_good = other->size >= of->size && other->cost <= of->cost;
        const int is_same = other->size == of->size && other->cost == of->cost;
        if (k != kind && other->have < 0 && is_as_good && (!is_same || of->have >= 0 || k < kind)) {
            return 1;
        }
    }
    return 0;
}

/* The next filling of the level under way, of this kind of bar or a later one. 0: none. */
static int next_filling(search *s)
{
    level *const at = &s->levels[s->depth];
    while (at->filling.kind < s->problem->kind_count && s->steps < s->problem->most_steps) {
        const int32_t kind = at->filling.kind;
        if (s->have[kind] != 0 && !is_needless(s, kind)) {
            /* The bar itself is no longer at hand while its filling is looked for. */
            const hope_for hope = {s, at->cost + s->problem->kinds[kind].cost};
            if (trivet__bar_filling_next(s->problem, s->left, &at->filling, &s->steps, is_hopeful,
                                         &hope)) {
                return 1;
            }
        }
        start_level(s, at->cost, kind + 1);
    }
    return 0;
}

/* What becomes of the bar just filled: an answer, a level more, or neither. */
static void go_deeper(search *s)
{
    const level *const filled = &s->levels[s->depth];
    const int64_t cost = filled->cost + s->problem->kinds[filled->filling.kind].cost;
    take_bar(s, filled, 1);
    if (s->left_sum == 0) {
        keep_answer(s, cost);
    } else if (cost + trivet__bar_bound(s->problem, s->left, s->have) < s->best->cost &&
               !was_seen(s, cost)) {
        start_level(s, cost, 0);
        return;
    }
    take_bar(s, &s->levels[s->depth - 1], -1);
}

/* Walks through all answers that could be better than the best so far. */
static void walk(search *s)
{
    start_level(s, 0, 0);
    while (s->best->cost > s->best->bound) {
        if (next_filling(s)) {
            go_deeper(s);
        } else if (s->steps >= s->problem->most_steps || s->depth == 0) {
            break;
        } else {
            take_bar(s, &s->levels[s->depth - 1], -1);
        }
    }
    s->best->is_proven = s->best->cost <= s->best->bound || s->steps < s->problem->most_steps;
}

static trivet_status make_room(search *s)
{
    const trivet__bar_problem *const problem = s->problem;
    const size_t pieces = (size_t)problem->piece_count;
    const size_t batches = (size_t)problem->batch_count;
    const size_t width = batches + (size_t)problem->kind_count;
    if (width > SIZE_MAX / SEEN_MOST || batches > SIZE_MAX / (pieces + 1)) {
        return TRIVET_NO_MEMORY;
    }
    s->levels = trivet__take(pieces + 1, sizeof *s->levels);
    s->counts = trivet__take((pieces + 1) * batches, sizeof *s->counts);
    s->left = trivet__take(batches, sizeof *s->left);
    s->have = trivet__take((size_t)problem->kind_count, sizeof *s->have);
    s->seen = trivet__take(SEEN_MOST * width, sizeof *s->seen);
    s->seen_cost = trivet__take(SEEN_MOST, sizeof *s->seen_cost);
    return s->levels && s->counts && s->left && s->have && s->seen && s->seen_cost
               ? TRIVET_OK
               : TRIVET_NO_MEMORY;
}

static void start(search *s)
{
    const trivet__bar_problem *const problem = s->problem;
    for (int32_t b = 0; b < problem->batch_count; b++) {
        s->left[b] = problem->batches[b].count;
        s->left_sum += problem->batches[b].count * problem->batches[b].size;
    }
    for (int32_t k = 0; k < problem->kind_count; k++) {
        s->have[k] = problem->kinds[k].have;
    }
    for (int32_t i = 0; i < SEEN_MOST; i++) {
        s->seen_cost[i] = -1;
    }
    s->best->bar_count = 0;
    s->best->cost = TRIVET__BAR_NEVER;
    s->best->bound = trivet__bar_bound(problem, s->left, s->have);
}

trivet_status trivet__bars_search(const trivet__bar_problem *problem,
                                  trivet__bar_answer *answer_out)
{
    search s = {.problem = problem, .best = answer_out};
    int32_t *const kept = trivet__take((size_t)problem->batch_count, sizeof *kept);
    const trivet_status status = kept ? make_room(&s) : TRIVET_NO_MEMORY;
    assert(problem->batch_count > 0 && problem->kind_count > 0);
    if (status == TRIVET_OK) {
        start(&s);
        if (answer_out->bound < TRIVET__BAR_NEVER) {
            greedy_answers(&s, kept);
        }
        walk(&s);
        answer_out->steps = s.steps;
        if (answer_out->is_proven && answer_out->bar_count > 0) {
            answer_out->bound = answer_out->cost;
        }
    }
    trivet__give_back(kept);
    trivet__give_back(s.levels);
    trivet__give_back(s.counts);
    trivet__give_back(s.left);
    trivet__give_back(s.have);
    trivet__give_back(s.seen);
    trivet__give_back(s.seen_cost);
    return status;
}
