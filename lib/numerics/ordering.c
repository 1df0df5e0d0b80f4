/*
 * Reverse Cuthill-McKee order, so that neighbours get numbers near to each other and the matrix
 * becomes a narrow band.
 *
 * E. Cuthill, J. McKee, Reducing the bandwidth of sparse symmetric matrices, Proc. 24th ACM
 * National Conference, 1969: number from a start node, level by level, the neighbours of each
 * node in order of their degree. Reversed: J. A. George, Computer implementation of the finite
 * element method, Stanford 1971. Start node: J. A. George, J. W. H. Liu, An implementation of a
 * pseudoperipheral node finder, ACM TOMS 5 (1979) 284-295.
 *
 * Nodes of equal degree are taken by rising number. Numbers are chance, and on a grid the band may
 * come out one wider than its short side for that; so each part is walked from both of its ends,
 * by rising and by falling numbers, and the narrowest of the four bands is kept.
 */
#include "numerics/numerics.h"

#include <assert.h>

typedef struct graph {
    const int32_t *starts;
    const int32_t *neighbours;
    int32_t by_falling_number; /* between nodes of equal degree */
} graph;

static int32_t degree_of(const graph *g, int32_t node)
{
    return g->starts[node + 1] - g->starts[node];
}

/* Few neighbours first, then by number: no two nodes are equal, so any sort gives one order. */
static int comes_before(const graph *g, int32_t a, int32_t b)
{
    const int32_t of_a = degree_of(g, a);
    const int32_t of_b = degree_of(g, b);
    if (of_a != of_b) {
        return of_a < of_b;
    }
    return g->by_falling_number ? a > b : a < b;
}

/* Shell's sort with the steps 1, 4, 13, 40 ... (Knuth, volume 3, section 5.2.1). */
static void sort_by_degree(const graph *g, int32_t *nodes, int32_t count)
{
    int32_t gap = 1;
    while (gap < count / 3) {
        gap = 3 * gap + 1;
    }
    for (; gap > 0; gap /= 3) {
        for (int32_t i = gap; i < count; i++) {
            const int32_t node = nodes[i];
            int32_t k = i;
            for (; k >= gap && comes_before(g, node, nodes[k - gap]); k -= gap) {
                nodes[k] = nodes[k - gap];
            }
            nodes[k] = node;
        }
    }
}

/*
 * Numbers the connected part of start level by level: nodes_out in order of arrival, neighbours
 * of each by degree. is_seen must be 0 on the part and is 1 afterwards. Returns the number of
 * nodes; *depth_out is the number of levels, *last_out where the last level begins.
 */
static int32_t walk_levels(const graph *g, int32_t start, int32_t *is_seen, int32_t *nodes_out,
                           int32_t *depth_out, int32_t *last_out)
{
    int32_t count = 1;
    int32_t level_end = 0;
    *depth_out = 0;
    nodes_out[0] = start;
    is_seen[start] = 1;
    for (int32_t at = 0; at < count; at++) {
        if (at == level_end) {
            *last_out = at;
            *depth_out += 1;
            level_end = count;
        }
        const int32_t node = nodes_out[at];
        const int32_t before = count;
        for (int32_t k = g->starts[node]; k < g->starts[node + 1]; k++) {
            const int32_t next = g->neighbours[k];
            if (!is_seen[next]) {
                is_seen[next] = 1;
                nodes_out[count++] = next;
            }
        }
        sort_by_degree(g, nodes_out + before, count - before);
    }
    return count;
}

static void forget(int32_t *is_seen, const int32_t *nodes, int32_t count)
{
    for (int32_t k = 0; k < count; k++) {
        is_seen[nodes[k]] = 0;
    }
}

/*
 * George and Liu: from the farthest level's node of least degree go on while the levels grow.
 * Both ends of the longest walk.
 */
static void find_ends(const graph *g, int32_t any, int32_t *is_seen, int32_t *nodes,
                      int32_t ends_out[2])
{
    int32_t best_depth = 0;
    ends_out[0] = any;
    ends_out[1] = any;
    for (;;) {
        int32_t depth = 0;
        int32_t last = 0;
        const int32_t count = walk_levels(g, ends_out[1], is_seen, nodes, &depth, &last);
        forget(is_seen, nodes, count);
        if (depth <= best_depth) {
            return;
        }
        best_depth = depth;
        ends_out[0] = ends_out[1];
        ends_out[1] = nodes[last];
        for (int32_t k = last + 1; k < count; k++) {
            if (comes_before(g, nodes[k], ends_out[1])) {
                ends_out[1] = nodes[k];
            }
        }
    }
}

/* How far two neighbours stand apart at most. place: [nodes of the graph]. */
static int32_t bandwidth_of(const graph *g, const int32_t *nodes, int32_t count, int32_t *place)
{
    for (int32_t k = 0; k < count; k++) {
        place[nodes[k]] = k;
    }
    int32_t widest = 0;
    for (int32_t k = 0; k < count; k++) {
        for (int32_t i = g->starts[nodes[k]]; i < g->starts[nodes[k] + 1]; i++) {
            const int32_t apart = place[g->neighbours[i]] - k;
            widest = apart > widest ? apart : widest;
        }
    }
    return widest;
}

/* Orders the part that any belongs to into order_out; returns its number of nodes. */
static int32_t order_part(graph *g, int32_t any, int32_t *order_out, int32_t *is_seen,
                          int32_t *nodes, int32_t *place)
{
    int32_t ends[2];
    g->by_falling_number = 0;
    find_ends(g, any, is_seen, nodes, ends);
    int32_t count = 0;
    int32_t narrowest = INT32_MAX;
    for (int variant = 0; variant < 4; variant++) {
        int32_t depth = 0;
        int32_t last = 0;
        g->by_falling_number = variant / 2;
        count = walk_levels(g, ends[variant % 2], is_seen, nodes, &depth, &last);
        const int32_t bandwidth = bandwidth_of(g, nodes, count, place);
        if (bandwidth < narrowest) {
            narrowest = bandwidth;
            for (int32_t k = 0; k < count; k++) {
                order_out[k] = nodes[k];
            }
        }
        forget(is_seen, nodes, count);
    }
    for (int32_t k = 0; k < count; k++) {
        is_seen[order_out[k]] = 1;
    }
    return count;
}

void trivet__order_nodes(int32_t count, const int32_t *starts, const int32_t *neighbours,
                         int32_t *order_out, int32_t *scratch)
{
    assert(count >= 0);
    graph g = {starts, neighbours, 0};
    int32_t *const is_seen = scratch;
    for (int32_t k = 0; k < count; k++) {
        is_seen[k] = 0;
    }
    int32_t done = 0;
    for (int32_t k = 0; k < count; k++) {
        if (!is_seen[k]) {
            done += order_part(&g, k, order_out + done, is_seen, scratch + count,
                               scratch + 2 * (size_t)count);
        }
    }
    assert(done == count);
    for (int32_t k = 0; k < count / 2; k++) {
        const int32_t node = order_out[k];
        order_out[k] = order_out[count - 1 - k];
        order_out[count - 1 - k] = node;
    }
}
