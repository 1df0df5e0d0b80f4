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
            const double *const part =
                workspace->values + (ptrdiff_t)lanes * plan->expansion_equations[p];
            double *const row = workspace->moves + trivet__six_row(lanes, i);
            for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
                *trivet__fours_of(row + 6 * c) +=
                    workspace->expansion_factors[p] * *trivet__fours(part + c);
            }
        }
    }
}

/* Keeps the largest sizes of forces and moments in two rows. */
TRIVET__INSIDE void keep_sizes(const trivet__four x[6], ptrdiff_t lanes, double *sizes)
{
    for (int part = 0; part < 2; part++) {
        trivet__four most = *trivet__fours(sizes + part * lanes);
        for (int i = 0; i < 3; i++) {
            trivet__four_keep_size(&most, &x[3 * part + i]);
        }
        *trivet__fours_of(sizes + part * lanes) = most;
    }
}

/* Four lanes of a span's forces and movement, on the way into the result. */
typedef struct recovered {
    trivet__four first[6]; /* forces at the first end, told at the last */
    trivet__four p[6];     /* forces at the last end */
    trivet__four start[6]; /* the first node's movement, told at the last end */
} recovered;

/* From the last end back to the first: forces by balance, movement rigidly. */
TRIVET__INSIDE void carry_back(double length, recovered *of)
{
    of->first[4] -= length * of->first[2];
    of->first[5] += length * of->first[1];
    of->start[1] -= length * of->start[5];
    of->start[2] += length * of->start[4];
}

/*
 * Slips at the start, out of the stretch that the forces make and the ends did not take part in;
 * they come on top of the movement there.
 */
TRIVET__INSIDE void add_slips(const trivet__span *span, const double flexibility[36],
                              const trivet__four free_stretch[6], const trivet__four stretch[6],
                              recovered *of)
{
    trivet__four misfit[6];
    trivet__six_times(flexibility, of->p, misfit);
    for (int i = 0; i < 6; i++) {
        misfit[i] += free_stretch[i] - stretch[i];
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            of->start[i] += span->slip[6 * i + j] * misfit[j];
        }
    }
}

/* Case by case; lanes beyond the last case are dropped. */
TRIVET__INSIDE void store_span(const trivet_plan *plan, const recovered *of, int32_t s, int32_t c,
                               trivet_result *result)
{
    const ptrdiff_t spans = plan->span_count;
    const ptrdiff_t list = c * spans + s;
    const int32_t count = plan->case_count - c;
    trivet__six_turn(of->first, count, result->span_ends + 12 * list, 12 * spans);
    trivet__six_turn(of->p, count, result->span_ends + 12 * list + 6, 12 * spans);
    trivet__six_turn(of->start, count, result->span_starts + 6 * list, 6 * spans);
}

TRIVET__WIDE
static void recover_span(const trivet_plan *plan, trivet_workspace *workspace,
                         trivet_result *result, int32_t s)
{
    const int32_t lanes = plan->lanes;
    const trivet__span *const span = &result->spans[s];
    const double *const maps = workspace->maps + (ptrdiff_t)TRIVET__MAPS * s;
    const ptrdiff_t first_node = (ptrdiff_t)6 * lanes * plan->spans[s].first_node;
    const ptrdiff_t last_node = (ptrdiff_t)6 * lanes * plan->spans[s].last_node;
    double flexibility[36];
    if (span->release_count > 0) {
        trivet__span_flexibility_matrix(span, flexibility);
    }
    for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        const ptrdiff_t group = (ptrdiff_t)6 * c;
        const ptrdiff_t at = (ptrdiff_t)6 * lanes * s + group;
        recovered of;
        trivet__four x[6];
        trivet__four stretch[6];
        trivet__four push[6];
        trivet__six_load(workspace->moves + first_node + group, x);
        trivet__six_map(maps, x, of.start);
        trivet__six_load(workspace->moves + last_node + group, x);
        trivet__six_map(maps + TRIVET__LAST_MAP, x, stretch);
        for (int i = 0; i < 6; i++) {
            stretch[i] -= of.start[i];
        }
        trivet__six_load(workspace->span_fixed + at, x);
        trivet__six_times(span->stiffness, stretch, of.p);
        for (int i = 0; i < 6; i++) {
            of.p[i] += x[i];
        }
        trivet__six_map_turned(maps + TRIVET__LAST_MAP, of.p, push);
        trivet__six_add(push, workspace->unbalanced + last_node + group);
        trivet__six_load(workspace->span_resultants + at, of.first);
        for (int i = 0; i < 6; i++) {
            of.first[i] += of.p[i];
        }
        keep_sizes(of.p, lanes, workspace->sizes + c);
        keep_sizes(of.first, lanes, workspace->sizes + c);
        trivet__six_map_turned(maps, of.first, push);
        trivet__six_subtract(push, workspace->unbalanced + first_node + group);
        carry_back(span->length, &of);
        if (span->release_count > 0) {
            trivet__six_load(workspace->span_stretches + at, x);
            add_slips(span, flexibility, x, stretch, &of);
        }
        store_span(plan, &of, s, c, result);
    }
}

/* Joints' rows into the result, case by case. */
TRIVET__WIDE
static void store_moves(const trivet_plan *plan, const trivet_workspace *workspace,
                        trivet_result *result)
{
    const int32_t lanes = plan->lanes;
    const ptrdiff_t width = (ptrdiff_t)TRIVET__SIX * plan->joint_count;
    for (int32_t k = 0; k < plan->joint_count; k++) {
        for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
            trivet__four x[6];
            trivet__six_load(workspace->moves + (ptrdiff_t)6 * (lanes * k + c), x);
            trivet__six_turn(x, plan->case_count - c, result->moves + c * width + (ptrdiff_t)6 * k,
                             width);
        }
    }
}

static int is_turned(const trivet_mount *mount)
{
    const double *const axes = mount->axes;
    return !(axes[0] == 1.0 && axes[4] == 1.0 && axes[8] == 1.0);
}

/* Where mounts are turned, movements are told in the mounts' axes; the result tells the world's. */
static void turn_moves(const trivet_plan *plan, const trivet_frame *frame, trivet_result *result)
{
    const ptrdiff_t width = (ptrdiff_t)TRIVET__SIX * plan->joint_count;
    for (int32_t m = 0; m < plan->mount_count; m++) {
        const trivet_mount *const mount = &frame->mounts[m];
        for (int32_t c = 0; is_turned(mount) && c < plan->case_count; c++) {
            double *const at = result->moves + c * width + (ptrdiff_t)TRIVET__SIX * mount->joint;
            trivet__from_axes3(mount->axes, at, at);
            trivet__from_axes3(mount->axes, at + 3, at + 3);
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
           (ground -
            workspace->moves[trivet__six_row(plan->lanes, direction) + trivet__six_lane(c)]);
}

/* Starts the balance of every node with what acts from outside. */
TRIVET__WIDE
static void start_balance(const trivet_plan *plan, trivet_workspace *workspace)
{
    const int32_t lanes = plan->lanes;
    memset(workspace->sizes, 0, 2 * (size_t)lanes * sizeof(double));
    for (int32_t node = 0; node < plan->node_count; node++) {
        for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
            const ptrdiff_t at = (ptrdiff_t)6 * (lanes * node + c);
            trivet__four x[6];
            trivet__six_load(workspace->forces + at, x);
            keep_sizes(x, lanes, workspace->sizes + c);
            for (int i = 0; i < 6; i++) {
                x[i] = -x[i];
            }
            trivet__six_store(x, workspace->unbalanced + at);
        }
    }
}

static void balance_springs(const trivet_plan *plan, const trivet_frame *frame,
                            trivet_workspace *workspace)
{
    for (int32_t m = 0; m < plan->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const int32_t direction = TRIVET__SIX * frame->mounts[m].joint + d;
            for (int32_t c = 0; frame->mounts[m].spring[d] > 0.0 && c < plan->case_count; c++) {
                workspace
                    ->unbalanced[trivet__six_row(plan->lanes, direction) + trivet__six_lane(c)] -=
                    spring_force(plan, frame, workspace, m, d, c);
            }
        }
    }
}

/*
 * The largest unbalanced force and moment of the equations, two rows; not-a-number stays. Without
 * ties each equation is one direction, with them a sum, gathered in scratch.
 */
TRIVET__WIDE
static void find_worst(const trivet_plan *plan, const trivet_workspace *workspace, double *worst)
{
    const ptrdiff_t lanes = plan->lanes;
    const int is_tied = plan->cluster_count > 0;
    memset(worst, 0, 2 * (size_t)lanes * sizeof *worst);
    for (int32_t i = 0; i < plan->direction_count; i++) {
        if (plan->directions[i] < 0) {
            continue;
        }
        double *const part = worst + i % TRIVET__SIX / 3 * lanes;
        const double *const sum = is_tied ? workspace->scratch + plan->directions[i] * lanes
                                          : workspace->unbalanced + trivet__six_row(lanes, i);
        const ptrdiff_t step = is_tied ? 1 : 6;
        for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
            trivet__four_keep_worst(trivet__fours_of(part + c), trivet__fours(sum + step * c));
        }
    }
}

/* The largest unbalanced force of an equation as a share of the largest force at a node. */
static void measure_residuals(const trivet_plan *plan, trivet_workspace *workspace, double arm,
                              trivet_result *result)
{
    const ptrdiff_t lanes = plan->lanes;
    double *const worst = workspace->rows;
    if (plan->cluster_count > 0) {
        trivet__gather_equations(plan, workspace, workspace->unbalanced, workspace->scratch);
    }
    find_worst(plan, workspace, worst);
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
                                  ? workspace->unbalanced[trivet__six_row(plan->lanes, direction) +
                                                          trivet__six_lane(c)]
                                  : spring_force(plan, frame, workspace, m, d, c);
            }
            if (is_turned(mount)) {
                trivet__from_axes3(mount->axes, reaction, reaction);
                trivet__from_axes3(mount->axes, reaction + 3, reaction + 3);
            }
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
    store_moves(plan, workspace, result);
    turn_moves(plan, frame, result);
    start_balance(plan, workspace);
    balance_springs(plan, frame, workspace);
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
