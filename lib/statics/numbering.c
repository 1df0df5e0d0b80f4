/*
 * Numbering. Whole nodes are ordered (six rows travel together), by reverse Cuthill-McKee on the
 * graph of nodes that share a span or a tie; then the free directions of each node are numbered.
 */
#include "statics/numbering.h"

#include "base/block.h"
#include "base/message.h"
#include "numerics/numerics.h"

#include <assert.h>
#include <stdlib.h>

double trivet__station_distance(const trivet_frame *frame, int32_t tube,
                                const trivet__station *station)
{
    if (station->position >= 0) {
        return trivet__tube_distance(frame, tube, station->position);
    }
    double ends[2];
    trivet__insert_stretch(frame, tube, station->insert, &ends[0], &ends[1]);
    return ends[station->insert_end];
}

void trivet__hold_directions(trivet_plan *plan, const trivet_frame *frame)
{
    for (int32_t i = 0; i < plan->direction_count; i++) {
        plan->directions[i] = 0;
    }
    for (int32_t i = 0; i < plan->mount_count; i++) {
        const trivet_mount *const mount = &frame->mounts[i];
        for (int d = 0; d < TRIVET__SIX; d++) {
            if ((mount->held >> d & 1U) != 0) {
                plan->directions[TRIVET__SIX * mount->joint + d] = TRIVET__HELD;
            }
        }
    }
}

typedef struct graph {
    void *block;
    int32_t *scopes;       /* nodes of all scopes, one after the other */
    int32_t *scope_starts; /* [span_count + 1] */
    int32_t *starts;       /* [node_count + 1] */
    int32_t *neighbours;
    int32_t *order;
    int32_t *marks;   /* [node_count] */
    int32_t *scratch; /* [4 * node_count] */
    int64_t scope_size;
    int64_t pair_count;
} graph;

static int has_equations(const trivet_plan *plan, int32_t node)
{
    for (int d = 0; d < TRIVET__SIX; d++) {
        if (plan->directions[TRIVET__SIX * node + d] >= 0) {
            return 1;
        }
    }
    return 0;
}

/* Writes the nodes of a span's scope that have equations; list NULL only counts. */
static int32_t write_scope(const trivet_plan *plan, int32_t span, int32_t *list, int32_t *marks)
{
    const int32_t ends[2] = {plan->spans[span].first_node, plan->spans[span].last_node};
    int32_t count = 0;
    for (int end = 0; end < 2; end++) {
        const int32_t cluster = plan->node_clusters[ends[end]];
        for (int32_t node = 0; node < plan->node_count; node++) {
            if (cluster < 0) {
                node = ends[end];
            }
            const int belongs = cluster < 0 || plan->node_clusters[node] == cluster;
            if (belongs && has_equations(plan, node) && marks[node] != span + 1) {
                marks[node] = span + 1;
                if (list) {
                    list[count] = node;
                }
                count++;
            }
            if (cluster < 0) {
                break;
            }
        }
    }
    return count;
}

static void carve_graph(const trivet_plan *plan, graph *of, trivet__carver *carver)
{
    const size_t nodes = (size_t)plan->node_count;
    of->scope_starts = trivet__carve(carver, (size_t)plan->span_count + 1, sizeof(int32_t));
    of->starts = trivet__carve(carver, nodes + 1, sizeof(int32_t));
    of->order = trivet__carve(carver, nodes, sizeof(int32_t));
    of->marks = trivet__carve(carver, nodes, sizeof(int32_t));
    of->scratch = trivet__carve(carver, 4 * nodes, sizeof(int32_t));
    of->scopes = trivet__carve(carver, (size_t)of->scope_size, sizeof(int32_t));
    of->neighbours = trivet__carve(carver, (size_t)of->pair_count, sizeof(int32_t));
}

/*
 * A scope is never larger than its two ends and what their clusters hold. Only frames with tied
 * cargo have scopes of more than two.
 */
static void bound_graph(const trivet_plan *plan, graph *of)
{
    for (int32_t s = 0; s < plan->span_count; s++) {
        int64_t most = 0;
        const int32_t ends[2] = {plan->spans[s].first_node, plan->spans[s].last_node};
        for (int end = 0; end < 2; end++) {
            const int32_t cluster = plan->node_clusters[ends[end]];
            most += cluster < 0 ? 1 : plan->clusters[cluster].direction_count / 3;
        }
        of->scope_size += most;
        of->pair_count += most * (most - 1);
    }
}

static int compare_numbers(const void *a, const void *b)
{
    const int32_t one = *(const int32_t *)a;
    const int32_t other = *(const int32_t *)b;
    return (one > other) - (one < other);
}

/* Sorts each node's neighbours and drops those that stand twice. */
static void tidy_neighbours(graph *of, int32_t node_count)
{
    int32_t to = 0;
    int32_t from = 0;
    for (int32_t node = 0; node < node_count; node++) {
        const int32_t end = of->starts[node + 1];
        qsort(of->neighbours + from, (size_t)(end - from), sizeof(int32_t), compare_numbers);
        of->starts[node] = to;
        for (int32_t i = from; i < end; i++) {
            if (to == of->starts[node] || of->neighbours[to - 1] != of->neighbours[i]) {
                of->neighbours[to++] = of->neighbours[i];
            }
        }
        from = end;
    }
    of->starts[node_count] = to;
}

static void list_neighbours(const trivet_plan *plan, graph *of)
{
    for (int32_t s = 0; s < plan->span_count; s++) {
        const int32_t count = of->scope_starts[s + 1] - of->scope_starts[s];
        for (int32_t i = 0; i < count; i++) {
            of->starts[of->scopes[of->scope_starts[s] + i] + 1] += count - 1;
        }
    }
    for (int32_t node = 0; node < plan->node_count; node++) {
        of->starts[node + 1] += of->starts[node];
        of->marks[node] = of->starts[node];
    }
    for (int32_t s = 0; s < plan->span_count; s++) {
        const int32_t *const list = of->scopes + of->scope_starts[s];
        const int32_t count = of->scope_starts[s + 1] - of->scope_starts[s];
        for (int32_t i = 0; i < count; i++) {
            for (int32_t j = 0; j < count; j++) {
                if (i != j) {
                    of->neighbours[of->marks[list[i]]++] = list[j];
                }
            }
        }
    }
    tidy_neighbours(of, plan->node_count);
}

static trivet_status make_graph(const trivet_plan *plan, graph *of, trivet_message *message)
{
    bound_graph(plan, of);
    trivet__carver carver = {NULL, 0, 0};
    carve_graph(plan, of, &carver);
    of->block = of->pair_count > INT32_MAX ? NULL : trivet__take_block(&carver);
    if (!of->block) {
        return trivet__no_memory(message);
    }
    carver = (trivet__carver){of->block, 0, 0};
    carve_graph(plan, of, &carver);
    int32_t at = 0;
    for (int32_t s = 0; s < plan->span_count; s++) {
        of->scope_starts[s] = at;
        at += write_scope(plan, s, of->scopes + at, of->marks);
    }
    of->scope_starts[plan->span_count] = at;
    assert(at <= of->scope_size);
    list_neighbours(plan, of);
    return TRIVET_OK;
}

static void number_directions(trivet_plan *plan, const graph *of)
{
    plan->equation_count = 0;
    for (int32_t i = 0; i < plan->node_count; i++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            int32_t *const direction = &plan->directions[TRIVET__SIX * of->order[i] + d];
            if (*direction >= 0) {
                *direction = plan->equation_count++;
            }
        }
    }
}

static int32_t least_of(int32_t a, int32_t b)
{
    return a < b ? a : b;
}

static int32_t most_of(int32_t a, int32_t b)
{
    return a > b ? a : b;
}

static void lower_scope(const trivet_plan *plan, const graph *of, int32_t span, int32_t first,
                        int32_t *lowest)
{
    for (int32_t i = of->scope_starts[span]; i < of->scope_starts[span + 1]; i++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const int32_t equation = plan->directions[TRIVET__SIX * of->scopes[i] + d];
            if (equation >= 0) {
                lowest[equation] = least_of(lowest[equation], first);
            }
        }
    }
}

/* How far equations that share a span lie apart, and the lowest that each shares one with. */
static void measure_reach(trivet_plan *plan, const graph *of, int32_t *lowest)
{
    plan->reach = 0;
    for (int32_t i = 0; i < plan->equation_count; i++) {
        lowest[i] = i;
    }
    for (int32_t s = 0; s < plan->span_count; s++) {
        int32_t first = INT32_MAX;
        int32_t last = -1;
        for (int32_t i = of->scope_starts[s]; i < of->scope_starts[s + 1]; i++) {
            for (int d = 0; d < TRIVET__SIX; d++) {
                const int32_t equation = plan->directions[TRIVET__SIX * of->scopes[i] + d];
                if (equation >= 0) {
                    first = least_of(first, equation);
                    last = most_of(last, equation);
                }
            }
        }
        plan->reach = most_of(plan->reach, last < 0 ? 0 : last - first);
        lower_scope(plan, of, s, first, lowest);
    }
}

/* A direction that follows others is a sum of all equations among its cluster's directions. */
static int32_t expand_direction(const trivet_plan *plan, int32_t direction, int32_t *list)
{
    const int32_t equation = plan->directions[direction];
    if (equation >= 0) {
        if (list) {
            list[0] = equation;
        }
        return 1;
    }
    if (equation == TRIVET__HELD) {
        return 0;
    }
    const trivet__cluster *const cluster =
        &plan->clusters[plan->node_clusters[direction / TRIVET__SIX]];
    int32_t count = 0;
    for (int32_t i = 0; i < cluster->direction_count; i++) {
        const int32_t other =
            plan->directions[plan->cluster_directions[cluster->first_direction + i]];
        if (other >= 0) {
            if (list) {
                list[count] = other;
            }
            count++;
        }
    }
    return count;
}

static void carve_tiles(trivet_plan *plan, trivet__carver *carver)
{
    const size_t equations = (size_t)plan->equation_count;
    const size_t rows = (size_t)trivet__tile_count(plan->equation_count);
    plan->tiles.firsts = trivet__carve(carver, rows, sizeof(int32_t));
    plan->tiles.starts = trivet__carve(carver, rows + 1, sizeof(int32_t));
    plan->tile_rows = trivet__carve(carver, equations, sizeof(int32_t));
    plan->tile_columns = trivet__carve(carver, equations, sizeof(int32_t));
}

static trivet_status expand_directions(trivet_plan *plan, trivet_message *message)
{
    int64_t total = 0;
    for (int32_t i = 0; i < plan->direction_count; i++) {
        total += expand_direction(plan, i, NULL);
    }
    trivet__carver carver = {NULL, 0, 0};
    for (int pass = 0; pass < 2; pass++) {
        plan->expansion_starts =
            trivet__carve(&carver, (size_t)plan->direction_count + 1, sizeof(int32_t));
        plan->expansion_equations = trivet__carve(&carver, (size_t)total, sizeof(int32_t));
        carve_tiles(plan, &carver);
        if (pass == 0) {
            plan->expansion_block = total > INT32_MAX ? NULL : trivet__take_block(&carver);
            if (!plan->expansion_block) {
                return trivet__no_memory(message);
            }
            carver = (trivet__carver){plan->expansion_block, 0, 0};
        }
    }
    int32_t at = 0;
    for (int32_t i = 0; i < plan->direction_count; i++) {
        plan->expansion_starts[i] = at;
        at += expand_direction(plan, i, plan->expansion_equations + at);
    }
    plan->expansion_starts[plan->direction_count] = at;
    plan->expansion_count = at;
    return TRIVET_OK;
}

static void mark_plain_spans(trivet_plan *plan)
{
    for (int32_t s = 0; s < plan->span_count; s++) {
        trivet__span_map *const span = &plan->spans[s];
        span->is_plain =
            plan->node_clusters[span->first_node] < 0 && plan->node_clusters[span->last_node] < 0;
    }
}

static trivet_status lay_out_matrix(trivet_plan *plan, const graph *of, trivet_message *message)
{
    int32_t *const lowest = plan->tile_columns; /* until it is filled */
    measure_reach(plan, of, lowest);
    if (trivet__tile_shape(plan->equation_count, lowest, &plan->tiles) != 0) {
        return trivet__no_memory(message);
    }
    trivet__tile_places(plan->equation_count, &plan->tiles, plan->tile_rows, plan->tile_columns);
    return TRIVET_OK;
}

trivet_status trivet__number_equations(trivet_plan *plan, trivet_message *message)
{
    graph of = {NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, 0, 0};
    trivet_status status = make_graph(plan, &of, message);
    if (status == TRIVET_OK) {
        trivet__order_nodes(plan->node_count, of.starts, of.neighbours, of.order, of.scratch);
        number_directions(plan, &of);
        mark_plain_spans(plan);
        status = expand_directions(plan, message);
    }
    if (status == TRIVET_OK) {
        status = lay_out_matrix(plan, &of, message);
    }
    trivet__give_back_block(of.block);
    plan->null_most = least_of(TRIVET__NULL_MOST, plan->equation_count);
    plan->null_scratch = trivet__null_scratch(plan->equation_count, plan->reach, plan->null_most);
    return status;
}
