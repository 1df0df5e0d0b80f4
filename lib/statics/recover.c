/*
 * What follows from the movements of the equations: movements of joints, forces at the ends of
 * spans, reactions, and how far inside and outside forces are from balance at every node. All
 * cases travel together, a lane each; combinations are sums of cases.
 */
#include "base/processor.h"
#include "base/vec3.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

TRIVET__WIDE
static void spread_moves(const trivet_plan *plan, trivet_workspace *workspace)
{
    const int32_t lanes = plan->lanes;
    memcpy(workspace->moves, workspace->fixed,
           (size_t)plan->direction_count * (size_t)lanes * sizeof(double));
    for (int32_t i = 0; i < plan->direction_count; i++) {
        for (int32_t p = plan->expansion_starts[i]; p < plan->expansion_starts[i + 1]; p++) {
            trivet__lanes_add(lanes, workspace->expansion_factors[p],
                              workspace->values + (ptrdiff_t)lanes * plan->expansion_equations[p],
                              workspace->moves + (ptrdiff_t)lanes * i);
        }
    }
}

/* Keeps the largest sizes of three rows each of forces and moments. */
static void keep_sizes(int32_t lanes, const double *rows, double *sizes)
{
    for (int i = 0; i < 6; i++) {
        double *const most = sizes + (ptrdiff_t)(i / 3) * lanes;
        for (int32_t c = 0; c < lanes; c++) {
            const double size = fabs(rows[i * lanes + c]);
            most[c] = size > most[c] ? size : most[c];
        }
    }
}

/* Slips at the start, out of the stretch that the forces make and the ends did not take part in. */
static void find_slips(const trivet__span *span, int32_t lanes, const double *p,
                       const double *free_stretch, const double *stretch, double *misfit,
                       double *slips)
{
    double flexibility[36];
    trivet__span_flexibility_matrix(span, flexibility);
    for (int32_t c = 0; c < 6 * lanes; c++) {
        misfit[c] = free_stretch[c] - stretch[c];
    }
    trivet__lanes_times(lanes, flexibility, 1.0, p, misfit);
    memset(slips, 0, 6 * (size_t)lanes * sizeof *slips);
    trivet__lanes_times(lanes, span->slip, 1.0, misfit, slips);
}

/*
 * Lanes of forces at both ends and of the start's movement, into the result, case by case. first
 * and start stand at the last end: from there back to the first, forces by balance, movement
 * rigidly; slips (or NULL) come on top.
 */
static void store_span(const trivet_plan *plan, const trivet__span *span, int32_t s,
                       const double *first, const double *last, const double *start,
                       const double *slips, trivet_result *result)
{
    const int32_t lanes = plan->lanes;
    for (int32_t c = 0; c < plan->case_count; c++) {
        const ptrdiff_t list = (ptrdiff_t)c * plan->span_count + s;
        double *const ends = result->span_ends + 12 * list;
        double *const starts = result->span_starts + 6 * list;
        for (int i = 0; i < 6; i++) {
            ends[i] = first[i * lanes + c];
            ends[6 + i] = last[i * lanes + c];
            starts[i] = start[i * lanes + c];
        }
        ends[4] -= span->length * ends[2];
        ends[5] += span->length * ends[1];
        starts[1] -= span->length * start[5 * lanes + c];
        starts[2] += span->length * start[4 * lanes + c];
        for (int i = 0; slips && i < 6; i++) {
            starts[i] += slips[i * lanes + c];
        }
    }
}

TRIVET__WIDE
static void recover_span(const trivet_plan *plan, trivet_workspace *workspace,
                         trivet_result *result, int32_t s)
{
    const int32_t lanes = plan->lanes;
    const ptrdiff_t rows = (ptrdiff_t)6 * lanes;
    const size_t bytes = (size_t)rows * sizeof(double);
    const trivet__span *const span = &result->spans[s];
    const trivet__span_map *const map = &plan->spans[s];
    const double *const first_map = workspace->first_maps + (ptrdiff_t)36 * s;
    const double *const last_map = workspace->last_maps + (ptrdiff_t)36 * s;
    const double *const first_moves = workspace->moves + rows * map->first_node;
    double *const start = workspace->rows; /* the first node carried to the last end */
    double *const stretch = start + rows;
    double *const p = stretch + rows;
    double *const first = p + rows;
    double *const node_forces = workspace->unbalanced;
    memset(start, 0, bytes);
    trivet__lanes_map(lanes, first_map, 1.0, first_moves, start);
    for (ptrdiff_t c = 0; c < rows; c++) {
        stretch[c] = -start[c];
    }
    trivet__lanes_map(lanes, last_map, 1.0, workspace->moves + rows * map->last_node, stretch);
    memcpy(p, workspace->span_fixed + rows * s, bytes);
    trivet__lanes_times(lanes, span->stiffness, 1.0, stretch, p);
    keep_sizes(lanes, p, workspace->sizes);
    trivet__lanes_map_turned(lanes, last_map, 1.0, p, node_forces + rows * map->last_node);
    double *slips = NULL;
    if (span->release_count > 0) {
        slips = workspace->span_fixed + rows * s; /* done with */
        find_slips(span, lanes, p, workspace->span_stretches + rows * s, stretch, first, slips);
    }
    const double *const resultant = workspace->span_resultants + rows * s;
    for (ptrdiff_t c = 0; c < rows; c++) {
        first[c] = p[c] + resultant[c];
    }
    store_span(plan, span, s, first, p, start, slips, result);
    keep_sizes(lanes, first, workspace->sizes);
    trivet__lanes_map_turned(lanes, first_map, -1.0, first, node_forces + rows * map->first_node);
}

/* Joints' rows into the result, case by case, turned into world axes where mounts are turned. */
static void store_moves(const trivet_plan *plan, const trivet_frame *frame,
                        const trivet_workspace *workspace, trivet_result *result)
{
    const int32_t lanes = plan->lanes;
    const int32_t width = TRIVET__SIX * plan->joint_count;
    for (int32_t c = 0; c < plan->case_count; c++) {
        double *const moves = result->moves + (ptrdiff_t)c * width;
        for (int32_t i = 0; i < width; i++) {
            moves[i] = workspace->moves[(ptrdiff_t)i * lanes + c];
        }
        for (int32_t m = 0; m < plan->mount_count; m++) {
            double *const at = moves + (ptrdiff_t)TRIVET__SIX * frame->mounts[m].joint;
            trivet__from_axes3(frame->mounts[m].axes, at, at);
            trivet__from_axes3(frame->mounts[m].axes, at + 3, at + 3);
        }
    }
}

/* What the mount's spring does to the frame in a direction, in one case. */
static double spring_force(const trivet_plan *plan, const trivet_frame *frame,
                           const trivet_workspace *workspace, int32_t mount, int d, int32_t c)
{
    const int32_t direction = TRIVET__SIX * frame->mounts[mount].joint + d;
    const double ground = frame->cases[c].mount_moves[TRIVET__SIX * mount + d];
    return frame->mounts[mount].spring[d] *
           (ground - workspace->moves[(ptrdiff_t)direction * plan->lanes + c]);
}

/* Starts the balance of every node with what acts from outside, springs included. */
static void start_balance(const trivet_plan *plan, const trivet_frame *frame,
                          trivet_workspace *workspace)
{
    const int32_t lanes = plan->lanes;
    memset(workspace->sizes, 0, 2 * (size_t)lanes * sizeof(double));
    for (int32_t node = 0; node < plan->node_count; node++) {
        const ptrdiff_t at = (ptrdiff_t)6 * lanes * node;
        keep_sizes(lanes, workspace->forces + at, workspace->sizes);
        for (ptrdiff_t c = at; c < at + 6 * lanes; c++) {
            workspace->unbalanced[c] = -workspace->forces[c];
        }
    }
    for (int32_t m = 0; m < plan->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const int32_t direction = TRIVET__SIX * frame->mounts[m].joint + d;
            for (int32_t c = 0; frame->mounts[m].spring[d] > 0.0 && c < plan->case_count; c++) {
                workspace->unbalanced[(ptrdiff_t)direction * lanes + c] -=
                    spring_force(plan, frame, workspace, m, d, c);
            }
        }
    }
}

/* The largest unbalanced force of an equation as a share of the largest force at a node. */
static void measure_residuals(const trivet_plan *plan, trivet_workspace *workspace, double arm,
                              trivet_result *result)
{
    const ptrdiff_t lanes = plan->lanes;
    const double *const sums = workspace->scratch;
    double *const worst = workspace->rows; /* two rows: forces and moments */
    trivet__gather_equations(plan, workspace, workspace->unbalanced, workspace->scratch);
    memset(worst, 0, 2 * (size_t)lanes * sizeof *worst);
    for (int32_t i = 0; i < plan->direction_count; i++) {
        double *const part = worst + i % TRIVET__SIX / 3 * lanes;
        for (int32_t c = 0; plan->directions[i] >= 0 && c < lanes; c++) {
            const double size = fabs(sums[plan->directions[i] * lanes + c]);
            part[c] = size <= part[c] ? part[c] : size; /* NaN stays */
        }
    }
    for (int32_t c = 0; c < plan->case_count; c++) {
        const double force = fmax(workspace->sizes[c], workspace->sizes[lanes + c] / arm);
        const double share = fmax(worst[c], worst[lanes + c] / arm);
        const int is_sound = worst[c] + worst[lanes + c] < HUGE_VAL;
        result->quality[c].residual = !is_sound ? HUGE_VAL : force > 0.0 ? share / force : 0.0;
    }
}

static void store_reactions(const trivet_plan *plan, const trivet_frame *frame,
                            const trivet_workspace *workspace, trivet_result *result)
{
    for (int32_t c = 0; c < plan->case_count; c++) {
        for (int32_t m = 0; m < plan->mount_count; m++) {
            const trivet_mount *const mount = &frame->mounts[m];
            double *const reaction =
                result->reactions + (ptrdiff_t)TRIVET__SIX * (c * plan->mount_count + m);
            for (int d = 0; d < TRIVET__SIX; d++) {
                const int32_t direction = TRIVET__SIX * mount->joint + d;
                reaction[d] = plan->directions[direction] == TRIVET__HELD
                                  ? workspace->unbalanced[(ptrdiff_t)direction * plan->lanes + c]
                                  : spring_force(plan, frame, workspace, m, d, c);
            }
            trivet__from_axes3(mount->axes, reaction, reaction);
            trivet__from_axes3(mount->axes, reaction + 3, reaction + 3);
        }
    }
}

/* Sums of cases, each times its factor, behind the cases. */
static void combine(const trivet_plan *plan, const double *factors, double *values, size_t width)
{
    for (int32_t column = plan->case_count; column < plan->column_count; column++) {
        double *const sum = values + (size_t)column * width;
        memset(sum, 0, width * sizeof *sum);
        for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
            const double *const part = values + (size_t)plan->column_cases[k] * width;
            for (size_t i = 0; i < width; i++) {
                sum[i] += factors[k] * part[i];
            }
        }
    }
}

void trivet__recover(const trivet_plan *plan, const trivet_frame *frame,
                     trivet_workspace *workspace, trivet_result *result)
{
    const size_t spans = (size_t)plan->span_count;
    spread_moves(plan, workspace);
    store_moves(plan, frame, workspace, result);
    start_balance(plan, frame, workspace);
    for (int32_t s = 0; s < plan->span_count; s++) {
        recover_span(plan, workspace, result, s);
    }
    measure_residuals(plan, workspace, trivet__frame_size(frame), result);
    trivet__tie_reactions(plan, frame, workspace);
    store_reactions(plan, frame, workspace, result);
    combine(plan, result->factors, result->moves, (size_t)plan->joint_count * TRIVET__SIX);
    combine(plan, result->factors, result->reactions, (size_t)plan->mount_count * TRIVET__SIX);
    combine(plan, result->factors, result->span_ends, 12 * spans);
    combine(plan, result->factors, result->span_starts, 6 * spans);
}
