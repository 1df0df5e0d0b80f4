/*
 * The order in which checks are shown: by line of the verdict, then worst first, then as made.
 *
 * The worst of each line is known as soon as the checks are made; the rest is sorted when somebody
 * asks for a check by its number.
 */
#include "base/memory.h"
#include "checks/check_record.h"

#include <assert.h>
#include <math.h>

/* What is no number is worst. */
static double rank_of(double used)
{
    return isnan(used) ? HUGE_VAL : used;
}

void trivet__order_count(trivet_checks *checks, const trivet__record *record)
{
    const trivet_check *const check = &record->check;
    const int32_t line = check->line;
    const int32_t worst = checks->worst[line];
    if (checks->line_count[line] == 0 ||
        rank_of(check->utilisation) > rank_of(checks->records[worst].check.utilisation)) {
        checks->worst[line] = (int32_t)(record - checks->records);
    }
    checks->line_count[line]++;
}

void trivet__order_keep_worst(trivet_checks *checks)
{
    trivet__record kept[TRIVET_LINE_COUNT];
    int32_t count = 0;
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        if (checks->line_count[line] > 0) {
            kept[count] = checks->records[checks->worst[line]];
            checks->line_count[line] = 1;
            checks->worst[line] = count++;
        }
    }
    for (int32_t i = 0; i < count; i++) {
        checks->records[i] = kept[i];
    }
    checks->count = count;
}

int trivet__order_make_room(trivet_checks *checks)
{
    if (!checks->order) {
        checks->order = trivet__take(1, sizeof *checks->order);
    }
    if (!checks->order) {
        return 0;
    }
    checks->order->is_made = 0;
    void *list = checks->order->ranks;
    const int has_room = trivet__reserve(&list, &checks->order->capacity, checks->capacity,
                                         sizeof *checks->order->ranks);
    checks->order->ranks = list;
    return has_room;
}

static int stands_before(const trivet__rank *one, const trivet__rank *other)
{
    if (one->line != other->line) {
        return one->line < other->line;
    }
    if (one->used > other->used || one->used < other->used) {
        return one->used > other->used;
    }
    return one->record < other->record;
}

static void sift_down(trivet__rank *heap, int32_t root, int32_t count)
{
    const trivet__rank sinking = heap[root];
    while (2 * root + 1 < count) {
        int32_t child = 2 * root + 1;
        if (child + 1 < count && stands_before(&heap[child], &heap[child + 1])) {
            child++;
        }
        if (!stands_before(&sinking, &heap[child])) {
            break;
        }
        heap[root] = heap[child];
        root = child;
    }
    heap[root] = sinking;
}

/* Heapsort (Williams 1964): in place, and unlike the library's qsort it never allocates. */
static void sort_ranks(trivet__rank *ranks, int32_t count)
{
    for (int32_t i = count / 2; i-- > 0;) {
        sift_down(ranks, i, count);
    }
    for (int32_t last = count - 1; last > 0; last--) {
        const trivet__rank swapped = ranks[0];
        ranks[0] = ranks[last];
        ranks[last] = swapped;
        sift_down(ranks, 0, last);
    }
}

const trivet__record *trivet__checks_record(const trivet_checks *checks, int32_t index)
{
    trivet__order *const order = checks->order;
    assert(index >= 0 && index < checks->count);
    if (!order->is_made) {
        for (int32_t i = 0; i < checks->count; i++) {
            const trivet_check *const check = &checks->records[i].check;
            order->ranks[i] = (trivet__rank){rank_of(check->utilisation), check->line, i};
        }
        sort_ranks(order->ranks, checks->count);
        order->is_made = 1;
    }
    return &checks->records[order->ranks[index].record];
}
