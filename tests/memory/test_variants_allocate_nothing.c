/*
 * A sweep asks the heap when it starts, and for no variant more: many variants take as many
 * requests as few, on one thread and on two.
 *
 * usage: test_variants_allocate_nothing FILE...
 */
#include "failing_heap.h"

#include <trivet/sweep.h>

#include <stdio.h>
#include <stdlib.h>

static void stop_unless(int holds, const char *path, const char *what)
{
    if (!holds) {
        fprintf(stderr, "%s: %s\n", path, what);
        exit(1);
    }
}

static int count_solved(void *user, const trivet_variant *variant, const double *inputs)
{
    int64_t *const solved = user;
    (void)inputs;
    *solved += variant->outcome == TRIVET_OUTCOME_CHECKED;
    return 0;
}

/* Requests for the variants first to first + count - 1. */
static long requests_for(const trivet_sweep *sweep, const char *path, int64_t count,
                         int32_t workers)
{
    int64_t solved = 0;
    trivet_message message;
    heap_start(0);
    const trivet_status status =
        trivet_sweep_run(sweep, 0, count, workers, count_solved, &solved, &message);
    const long requests = heap_requests();
    stop_unless(status == TRIVET_OK, path, message.problem);
    stop_unless(solved > count / 4, path, "hardly any variant was solved");
    return requests;
}

static void look_at(const char *path)
{
    trivet_message message;
    trivet_sweep *sweep = NULL;
    stop_unless(trivet_sweep_read_file(path, &sweep, &message) == TRIVET_OK, path, message.problem);
    const int64_t all = trivet_sweep_count(sweep);
    stop_unless(all >= 1000, path, "there are too few variants to tell");
    const long few = requests_for(sweep, path, all / 4, 1);
    const long many = requests_for(sweep, path, all, 1);
    printf("%s: %ld requests for %lld variants, %ld for %lld\n", path, few, (long long)all / 4,
           many, (long long)all);
    stop_unless(many == few, path, "more variants took more requests");
    trivet_sweep_free(sweep);
}

int main(int count, char **words)
{
    stop_unless(count > 1, "usage", "name files to read");
    for (int i = 1; i < count; i++) {
        look_at(words[i]);
    }
    return 0;
}
