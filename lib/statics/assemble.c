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

enum { TWELVE = 12, THREE = TWELVE / TRIVET__LANE_STEP };

static void add_entry(const trivet_plan *plan, double *matrix, int32_t row, int32_t column,
                      double value)
{
    assert(row >= column && column / TRIVET__TILE >= plan->tiles.firsts[row / TRIVET__TILE]);
    matrix[plan->tile_rows[row] + plan->tile_columns[column]] += value;
}

/*
 * Stiffness of a span in the directions of its two nodes, at least the lower triangle: m^T S m,
 * m the map of both nodes with the first's movements against the stretch. Rows of movements leave
 * out the map's turns.
 */
TRIVET__WIDE
static void world_stiffness(const double stiffness[36], const double maps[TRIVET__MAPS],
                            trivet__four out[TWELVE][THREE])
{
    static const trivet__four signs[THREE] = {
        {-1.0, -1.0, -1.0, -1.0}, {-1.0, -1.0, 1.0, 1.0}, {1.0, 1.0, 1.0, 1.0}};
    trivet__four map[6][THREE];
    trivet__four force[6][THREE];
    for (int i = 0; i < 6; i++) {
        for (int v = 0; v < THREE; v++) {
            map[i][v] = trivet__fours(maps + (ptrdiff_t)TWELVE * i)[v] * signs[v];
        }
    }
    for (int v = 0; v < THREE; v++) {
        const trivet__four stretch[6] = {map[0][v], map[1][v], map[2][v],
                                         map[3][v], map[4][v], map[5][v]};
        trivet__four p[6];
        trivet__six_times(stiffness, stretch, p);
        for (int i = 0; i < 6; i++) {
            force[i][v] = p[i];
        }
    }
    for (int i = 0; i < TWELVE; i++) {
        const int rows = i % 6 < 3 ? 3 : 6;
        for (int v = 0; v <= i / 4; v++) {
            trivet__four sum = map[0][i / 4][i % 4] * force[0][v];
            for (int k = 1; k < rows; k++) {
                sum += map[k][i / 4][i % 4] * force[k][v];
            }
            out[i][v] = sum;
        }
    }
}

static int32_t span_direction(const trivet__span_map *span, int i)
{
    return i < TRIVET__SIX ? TRIVET__SIX * span->first_node + i
                           : TRIVET__SIX * span->last_node + i - TRIVET__SIX;
}

/* Places of a span's directions in the matrix: see tile_rows in statics.h. */
typedef struct span_places {
    int32_t rows[TWELVE];
    int32_t columns[TWELVE];
    int32_t is_free[TWELVE];
    int is_all_free;
    int is_last_later; /* the last node's equations stand below the first's */
} span_places;

static void find_places(const trivet_plan *plan, const trivet__span_map *span, span_places *out)
{
    int32_t ends[2] = {-1, -1}; /* the last equation of each */
    out->is_all_free = 1;
    for (int i = 0; i < TWELVE; i++) {
        const int32_t equation = plan->directions[span_direction(span, i)];
        out->is_free[i] = equation >= 0;
        out->is_all_free &= equation >= 0;
        if (equation >= 0) {
            out->rows[i] = plan->tile_rows[equation];
            out->columns[i] = plan->tile_columns[equation];
            ends[i / TRIVET__SIX] = equation;
        }
    }
    out->is_last_later = ends[1] > ends[0];
}

/* Adds the entries of the lower triangle whose rows and columns are free. */
TRIVET__INSIDE void scatter(const span_places *of, const double *stiffness, int is_all_free,
                            double *matrix)
{
    for (int i = 0; i < TWELVE; i++) {
        const double *const row = stiffness + (ptrdiff_t)TWELVE * i;
        for (int j = 0; j <= i; j++) {
            if (is_all_free || (of->is_free[i] && of->is_free[j])) {
                const int is_upright = of->is_last_later || i / TRIVET__SIX == j / TRIVET__SIX;
                matrix[is_upright ? of->rows[i] + of->columns[j] : of->rows[j] + of->columns[i]] +=
                    row[j];
            }
        }
    }
}

static void scatter_plain(const trivet_plan *plan, const trivet__span_map *span,
                          const double *stiffness, double *matrix)
{
    span_places places;
    find_places(plan, span, &places);
    if (places.is_all_free) {
        scatter(&places, stiffness, 1, matrix);
    } else {
        scatter(&places, stiffness, 0, matrix);
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
                         const double *factors, const double *stiffness, double *matrix)
{
    for (int i = 0; i < TWELVE; i++) {
        for (int j = 0; j < TWELVE; j++) {
            const double entry = stiffness[i >= j ? TWELVE * i + j : TWELVE * j + i];
            scatter_product(plan, factors, span_direction(span, i), span_direction(span, j), entry,
                            matrix);
        }
    }
}

void trivet__assemble_matrix(const trivet_plan *plan, const trivet_frame *frame,
                             trivet_workspace *workspace, const trivet_result *result)
{
    trivet__tiles_clear(plan->equation_count, &plan->tiles, workspace->matrix);
    for (int32_t s = 0; s < plan->span_count; s++) {
        trivet__four rows[TWELVE][THREE];
        const double *const stiffness = (const double *)rows;
        world_stiffness(result->spans[s].stiffness, workspace->maps + (ptrdiff_t)TRIVET__MAPS * s,
                        rows);
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

/* Forces that movements of held directions put on a span: four lanes. */
TRIVET__INSIDE void move_span(const double *maps, const double stiffness[36],
                              const double *first_fixed, const double *last_fixed,
                              trivet__four p[6])
{
    trivet__four first[6];
    trivet__four last[6];
    trivet__four stretch[6];
    trivet__four push[6];
    trivet__six_load(last_fixed, push);
    trivet__six_map(maps + TRIVET__LAST_MAP, push, last);
    trivet__six_load(first_fixed, push);
    trivet__six_map(maps, push, first);
    for (int i = 0; i < 6; i++) {
        stretch[i] = last[i] - first[i];
    }
    trivet__six_times(stiffness, stretch, push);
    for (int i = 0; i < 6; i++) {
        p[i] += push[i];
    }
}

/* What a span's loads, and movements that are fixed, put on its nodes. */
TRIVET__WIDE
static void push_nodes(const trivet_plan *plan, trivet_workspace *workspace,
                       const trivet_result *result, int32_t s, double *outside)
{
    const ptrdiff_t lanes = plan->lanes;
    const trivet__span_map *const map = &plan->spans[s];
    const double *const maps = workspace->maps + (ptrdiff_t)TRIVET__MAPS * s;
    const ptrdiff_t first = 6 * lanes * map->first_node;
    const ptrdiff_t last = 6 * lanes * map->last_node;
    for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        const ptrdiff_t at = 6 * (lanes * s + c);
        trivet__four p[6];
        trivet__four resultant[6];
        trivet__four push[6];
        trivet__six_load(workspace->span_fixed + at, p);
        trivet__six_load(workspace->span_resultants + at, resultant);
        if (workspace->has_moves) {
            move_span(maps, result->spans[s].stiffness, workspace->fixed + first + 6 * c,
                      workspace->fixed + last + 6 * c, p);
        }
        trivet__six_map_turned(maps + TRIVET__LAST_MAP, p, push);
        trivet__six_subtract(push, outside + last + 6 * c);
        for (int i = 0; i < 6; i++) {
            p[i] += resultant[i];
        }
        trivet__six_map_turned(maps, p, push);
        trivet__six_add(push, outside + first + 6 * c);
    }
}

/* Springs whose ground moves, and springs at ends that are moved. */
static void push_springs(const trivet_plan *plan, const trivet_frame *frame,
                         const trivet_workspace *workspace, double *outside)
{
    for (int32_t m = 0; m < plan->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const double spring = frame->mounts[m].spring[d];
            const ptrdiff_t row =
                trivet__six_row(plan->lanes, TRIVET__SIX * frame->mounts[m].joint + d);
            for (int32_t c = 0; spring > 0.0 && c < plan->case_count; c++) {
                const double ground = frame->cases[c].mount_moves[TRIVET__SIX * m + d];
                const ptrdiff_t at = row + trivet__six_lane(c);
                outside[at] += spring * (ground - workspace->fixed[at]);
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
            const double *const row = directions + trivet__six_row(lanes, i);
            double *const sum = equations + (ptrdiff_t)lanes * plan->expansion_equations[p];
            for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
                *trivet__fours_of(sum + c) +=
                    workspace->expansion_factors[p] * *trivet__fours(row + 6 * c);
            }
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
