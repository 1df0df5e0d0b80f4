/*
 * The equations: span stiffnesses and springs into the tiles, loads into the right sides. Each of
 * a span's twelve directions is a sum of equations (its expansion); where all are single
 * equations, the span is scattered straight.
 */
#include "base/processor.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <assert.h>
#include <string.h>

enum { TWELVE = 12 };

static void add_entry(const trivet_plan *plan, double *matrix, int32_t row, int32_t column,
                      double value)
{
    assert(row >= column && column / TRIVET__TILE >= plan->tiles.firsts[row / TRIVET__TILE]);
    matrix[plan->tile_rows[row] + plan->tile_columns[column]] += value;
}

/* Stiffness of a span in the directions of its two nodes, lower triangle. */
TRIVET__WIDE
static void world_stiffness(const double stiffness[36], const double first[36],
                            const double last[36], double out[TWELVE][TWELVE])
{
    double map[6][TWELVE]; /* stretch = map * movements */
    double force[6][TWELVE];
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            map[i][j] = -first[6 * i + j];
            map[i][6 + j] = last[6 * i + j];
        }
    }
    memset(force, 0, sizeof force);
    for (int i = 0; i < 6; i++) {
        for (int k = 0; k < 6; k++) {
            const double s = stiffness[6 * i + k];
            for (int j = 0; s != 0.0 && j < TWELVE; j++) {
                force[i][j] += s * map[k][j];
            }
        }
    }
    memset(out, 0, sizeof(double) * TWELVE * TWELVE);
    for (int k = 0; k < 6; k++) {
        for (int i = 0; i < TWELVE; i++) {
            for (int j = 0; j < TWELVE; j++) {
                out[i][j] += map[k][i] * force[k][j];
            }
        }
    }
}

static int32_t span_direction(const trivet__span_map *span, int i)
{
    return i < TRIVET__SIX ? TRIVET__SIX * span->first_node + i
                           : TRIVET__SIX * span->last_node + i - TRIVET__SIX;
}

static void scatter_plain(const trivet_plan *plan, const trivet__span_map *span,
                          double stiffness[TWELVE][TWELVE], double *matrix)
{
    int32_t equations[TWELVE];
    for (int i = 0; i < TWELVE; i++) {
        equations[i] = plan->directions[span_direction(span, i)];
    }
    for (int i = 0; i < TWELVE; i++) {
        for (int j = 0; equations[i] >= 0 && j < TWELVE; j++) {
            if (equations[j] >= 0 && equations[i] >= equations[j]) {
                add_entry(plan, matrix, equations[i], equations[j], stiffness[i][j]);
            }
        }
    }
}

/* Adds value times the product of two directions' expansions. */
static void scatter_product(const trivet_plan *plan, const double *factors, int32_t one,
                            int32_t other, double value, double *matrix)
{
    for (int32_t p = plan->expansion_starts[one]; p < plan->expansion_starts[one + 1]; p++) {
        const int32_t row = plan->expansion_equations[p];
        const double scaled = value * factors[p];
        const int32_t end = plan->expansion_starts[other + 1];
        for (int32_t q = plan->expansion_starts[other]; q < end; q++) {
            const int32_t column = plan->expansion_equations[q];
            if (row >= column) {
                add_entry(plan, matrix, row, column, scaled * factors[q]);
            }
        }
    }
}

static void scatter_tied(const trivet_plan *plan, const trivet__span_map *span,
                         const double *factors, double stiffness[TWELVE][TWELVE], double *matrix)
{
    for (int i = 0; i < TWELVE; i++) {
        for (int j = 0; j < TWELVE; j++) {
            scatter_product(plan, factors, span_direction(span, i), span_direction(span, j),
                            stiffness[i][j], matrix);
        }
    }
}

void trivet__assemble_matrix(const trivet_plan *plan, const trivet_frame *frame,
                             trivet_workspace *workspace, const trivet_result *result)
{
    trivet__tiles_clear(plan->equation_count, &plan->tiles, workspace->matrix);
    for (int32_t s = 0; s < plan->span_count; s++) {
        double stiffness[TWELVE][TWELVE];
        world_stiffness(result->spans[s].stiffness, workspace->first_maps + (ptrdiff_t)36 * s,
                        workspace->last_maps + (ptrdiff_t)36 * s, stiffness);
        if (plan->spans[s].is_plain) {
            scatter_plain(plan, &plan->spans[s], stiffness, workspace->matrix);
        } else {
            scatter_tied(plan, &plan->spans[s], workspace->expansion_factors, stiffness,
                         workspace->matrix);
        }
    }
    for (int32_t m = 0; m < plan->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const int32_t direction = TRIVET__SIX * frame->mounts[m].joint + d;
            const double spring = frame->mounts[m].spring[d];
            if (spring > 0.0) {
                scatter_product(plan, workspace->expansion_factors, direction, direction, spring,
                                workspace->matrix);
            }
        }
    }
    for (int32_t i = 0; i < plan->equation_count; i++) {
        workspace->diagonal[i] = workspace->matrix[plan->tile_rows[i] + plan->tile_columns[i]];
    }
}

/* Forces that movements of held directions put on a span, added to p. */
static void move_span(const trivet_plan *plan, trivet_workspace *workspace,
                      const trivet__span *span, int32_t s, double *p)
{
    const int32_t lanes = plan->lanes;
    const trivet__span_map *const map = &plan->spans[s];
    double *const stretch = workspace->rows;
    memset(stretch, 0, 6 * (size_t)lanes * sizeof *stretch);
    trivet__lanes_map(lanes, workspace->last_maps + (ptrdiff_t)36 * s, 1.0,
                      workspace->fixed + (ptrdiff_t)6 * lanes * map->last_node, stretch);
    trivet__lanes_map(lanes, workspace->first_maps + (ptrdiff_t)36 * s, -1.0,
                      workspace->fixed + (ptrdiff_t)6 * lanes * map->first_node, stretch);
    trivet__lanes_times(lanes, span->stiffness, 1.0, stretch, p);
}

/* What a span's loads, and movements that are fixed, put on its nodes. */
TRIVET__WIDE
static void push_nodes(const trivet_plan *plan, trivet_workspace *workspace,
                       const trivet_result *result, int32_t s, double *outside)
{
    const int32_t lanes = plan->lanes;
    const ptrdiff_t at = (ptrdiff_t)6 * lanes * s;
    const trivet__span_map *const map = &plan->spans[s];
    double *const p = workspace->rows + (ptrdiff_t)6 * lanes;
    memcpy(p, workspace->span_fixed + at, 6 * (size_t)lanes * sizeof *p);
    if (workspace->has_moves) {
        move_span(plan, workspace, &result->spans[s], s, p);
    }
    trivet__lanes_map_turned(lanes, workspace->last_maps + (ptrdiff_t)36 * s, -1.0, p,
                             outside + (ptrdiff_t)6 * lanes * map->last_node);
    for (int i = 0; i < 6; i++) {
        trivet__lanes_add(lanes, 1.0, workspace->span_resultants + at + i * lanes, p + i * lanes);
    }
    trivet__lanes_map_turned(lanes, workspace->first_maps + (ptrdiff_t)36 * s, 1.0, p,
                             outside + (ptrdiff_t)6 * lanes * map->first_node);
}

/* Springs whose ground moves, and springs at ends that are moved. */
static void push_springs(const trivet_plan *plan, const trivet_frame *frame,
                         const trivet_workspace *workspace, double *outside)
{
    for (int32_t m = 0; m < plan->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const double spring = frame->mounts[m].spring[d];
            const ptrdiff_t row =
                (ptrdiff_t)plan->lanes * (TRIVET__SIX * frame->mounts[m].joint + d);
            for (int32_t c = 0; spring > 0.0 && c < plan->case_count; c++) {
                const double ground = frame->cases[c].mount_moves[TRIVET__SIX * m + d];
                outside[row + c] += spring * (ground - workspace->fixed[row + c]);
            }
        }
    }
}

TRIVET__WIDE
static void gather_equations(const trivet_plan *plan, const trivet_workspace *workspace,
                             const double *directions, double *equations)
{
    const int32_t lanes = plan->lanes;
    const size_t rows = TRIVET__TILE * (size_t)plan->tiles.count;
    memset(equations, 0, rows * (size_t)lanes * sizeof *equations);
    for (int32_t i = 0; i < plan->direction_count; i++) {
        for (int32_t p = plan->expansion_starts[i]; p < plan->expansion_starts[i + 1]; p++) {
            trivet__lanes_add(lanes, workspace->expansion_factors[p],
                              directions + (ptrdiff_t)lanes * i,
                              equations + (ptrdiff_t)lanes * plan->expansion_equations[p]);
        }
    }
}

void trivet__gather_equations(const trivet_plan *plan, const trivet_workspace *workspace,
                              const double *directions, double *equations)
{
    gather_equations(plan, workspace, directions, equations);
}

void trivet__assemble_values(const trivet_plan *plan, const trivet_frame *frame,
                             trivet_workspace *workspace, const trivet_result *result)
{
    const int32_t lanes = plan->lanes;
    const size_t row = (size_t)lanes * sizeof(double);
    double *const outside = workspace->unbalanced;
    memcpy(outside, workspace->forces, (size_t)plan->direction_count * row);
    for (int32_t s = 0; s < plan->span_count; s++) {
        trivet__load_span(plan, workspace, result, s);
        push_nodes(plan, workspace, result, s, outside);
    }
    if (workspace->has_moves) {
        push_springs(plan, frame, workspace, outside);
    }
    gather_equations(plan, workspace, outside, workspace->values);
}
