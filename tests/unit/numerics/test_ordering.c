/*
 * Orders of nodes: a permutation always, and as narrow as the graph allows where that is known: 1
 * for a path, k for a k by n grid (both by drawing them).
 */
#include "numerics/numerics.h"
#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>
#include <string.h>

enum { NODES_MOST = 128 };

/* A graph as a table of who touches whom; small, plain, and not the form under test. */
typedef struct drawing {
    int32_t count;
    unsigned char touches[NODES_MOST][NODES_MOST];
} drawing;

static void join(drawing *d, int32_t a, int32_t b)
{
    d->touches[a][b] = 1;
    d->touches[b][a] = 1;
}

static void order(const drawing *d, int32_t *order_out)
{
    int32_t *const starts = calloc((size_t)d->count + 1, sizeof *starts);
    int32_t *const neighbours = calloc((size_t)d->count * (size_t)d->count + 1, sizeof *neighbours);
    int32_t *const scratch = calloc(4 * (size_t)d->count + 1, sizeof *scratch);
    ck_assert(starts && neighbours && scratch);
    int32_t at = 0;
    for (int32_t i = 0; i < d->count; i++) {
        starts[i] = at;
        for (int32_t j = 0; j < d->count; j++) {
            if (d->touches[i][j]) {
                neighbours[at++] = j;
            }
        }
    }
    starts[d->count] = at;
    trivet__order_nodes(d->count, starts, neighbours, order_out, scratch);
    free(starts);
    free(neighbours);
    free(scratch);
}

/* The farthest that two joined nodes stand apart in the new order; the test ends if it is none. */
static int32_t ordered_bandwidth(const drawing *d)
{
    int32_t order_out[NODES_MOST];
    int32_t place[NODES_MOST];
    order(d, order_out);
    for (int32_t i = 0; i < d->count; i++) {
        place[i] = -1;
    }
    for (int32_t k = 0; k < d->count; k++) {
        ck_assert(order_out[k] >= 0 && order_out[k] < d->count);
        ck_assert_int_eq(place[order_out[k]], -1);
        place[order_out[k]] = k;
    }
    int32_t widest = 0;
    for (int32_t i = 0; i < d->count; i++) {
        for (int32_t j = 0; j < d->count; j++) {
            const int32_t apart = abs(place[i] - place[j]);
            if (d->touches[i][j] && apart > widest) {
                widest = apart;
            }
        }
    }
    return widest;
}

/* Numbers 0 .. count - 1 shuffled by a step that has no divisor in common with count. */
static int32_t shuffled(int32_t k, int32_t step, int32_t count)
{
    return (int32_t)(((int64_t)k * step + 3) % count);
}

START_TEST(path_gets_bandwidth_one)
{
    for (int32_t step = 1; step < 101; step += 7) { /* 101 is prime */
        drawing d = {.count = 101};
        for (int32_t k = 0; k + 1 < 101; k++) {
            join(&d, shuffled(k, step, 101), shuffled(k + 1, step, 101));
        }
        ck_assert_int_eq(ordered_bandwidth(&d), 1);
    }
}
END_TEST

START_TEST(ring_gets_bandwidth_two)
{
    drawing d = {.count = 50};
    for (int32_t k = 0; k < 50; k++) {
        join(&d, shuffled(k, 7, 50), shuffled((k + 1) % 50, 7, 50));
    }
    ck_assert_int_eq(ordered_bandwidth(&d), 2);
}
END_TEST

START_TEST(grid_gets_its_shorter_side)
{
    for (int32_t wide = 2; wide <= 5; wide++) {
        const int32_t tall = 19;
        drawing d = {.count = wide * tall};
        for (int32_t r = 0; r < tall; r++) {
            for (int32_t c = 0; c < wide; c++) {
                const int32_t here = shuffled(r * wide + c, 23, d.count);
                if (c + 1 < wide) {
                    join(&d, here, shuffled(r * wide + c + 1, 23, d.count));
                }
                if (r + 1 < tall) {
                    join(&d, here, shuffled((r + 1) * wide + c, 23, d.count));
                }
            }
        }
        ck_assert_int_le(ordered_bandwidth(&d), wide);
    }
}
END_TEST

START_TEST(separate_paths_stay_paths)
{
    drawing d = {.count = 60};
    for (int32_t k = 0; k + 3 < 60; k++) {
        if (k % 20 < 17) { /* and loose nodes between */
            join(&d, k, k + 3);
        }
    }
    ck_assert_int_eq(ordered_bandwidth(&d), 1);
}
END_TEST

START_TEST(star_and_full_graph_are_permutations)
{
    drawing star = {.count = 100};
    drawing full = {.count = 20};
    for (int32_t k = 1; k < 100; k++) {
        join(&star, 0, k);
    }
    for (int32_t i = 0; i < 20; i++) {
        for (int32_t j = 0; j < 20; j++) {
            join(&full, i, j); /* with itself as well: harmless */
        }
    }
    ck_assert_int_le(ordered_bandwidth(&star), 99);
    ck_assert_int_eq(ordered_bandwidth(&full), 19);
}
END_TEST

START_TEST(lone_nodes_and_no_nodes_work)
{
    drawing lone = {.count = 5};
    ck_assert_int_eq(ordered_bandwidth(&lone), 0);
    drawing one = {.count = 1};
    ck_assert_int_eq(ordered_bandwidth(&one), 0);
    const int32_t starts[1] = {0};
    trivet__order_nodes(0, starts, NULL, NULL, NULL);
}
END_TEST

START_TEST(neighbours_in_any_order_give_one_order)
{
    /* a ladder of six, written twice: neighbours rising and falling */
    const int32_t starts[] = {0, 2, 5, 7, 9, 12, 14};
    const int32_t rising[] = {1, 3, 0, 2, 4, 1, 5, 0, 4, 1, 3, 5, 2, 4};
    const int32_t falling[] = {3, 1, 4, 2, 0, 5, 1, 4, 0, 5, 3, 1, 4, 2};
    int32_t one[6];
    int32_t other[6];
    int32_t scratch[24];
    trivet__order_nodes(6, starts, rising, one, scratch);
    trivet__order_nodes(6, starts, falling, other, scratch);
    ck_assert_int_eq(memcmp(one, other, sizeof one), 0);
}
END_TEST

int main(void)
{
    return run_tests("ordering",
                     TESTS(path_gets_bandwidth_one, ring_gets_bandwidth_two,
                           grid_gets_its_shorter_side, separate_paths_stay_paths,
                           star_and_full_graph_are_permutations, lone_nodes_and_no_nodes_work,
                           neighbours_in_any_order_give_one_order));
}
