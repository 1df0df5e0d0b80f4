/*
 * Workspaces, and the solution of all cases at once: one factor, all right sides together.
 */
#include "base/block.h"
#include "base/memory.h"
#include "base/message.h"
#include "numerics/numerics.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

/* A condition number beyond this is rounding: the frame moves freely, or no digit is left. */
#define MOST_CONDITION 1e13

/* Beyond this lower bound the condition number is estimated properly. */
#define SUSPICIOUS_CONDITION 1e6

/* Unbalanced forces at joints up to this share of the largest are accepted. */
#define MOST_RESIDUAL 1e-6

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

static void carve_workspace(const trivet_plan *plan, trivet_workspace *of, trivet__carver *carver)
{
    const size_t one = sizeof(double);
    const size_t equations = (size_t)plan->equation_count;
    const size_t lanes = (size_t)plan->lanes;
    const size_t spans = (size_t)plan->span_count;
    const size_t stations = (size_t)plan->station_count;
    const size_t directions = (size_t)plan->direction_count;
    const size_t padded = TRIVET__TILE * (size_t)plan->tiles.count;
    const size_t tiles = (size_t)plan->tiles.starts[plan->tiles.count];
    const size_t scratch =
        larger(plan->cluster_scratch, larger(lanes, 2 * TRIVET__LANE_STEP) * padded);
    of->station_points = trivet__carve(carver, 3 * stations, one);
    of->station_distances = trivet__carve(carver, stations, one);
    of->matrix = trivet__carve(carver, TRIVET__TILE_ENTRIES * tiles, one);
    of->inverses = trivet__carve(carver, padded, one);
    of->band = trivet__carve(carver, equations * (size_t)(plan->reach + 1), one);
    of->values = trivet__carve(carver, lanes * padded, one);
    of->maps = trivet__carve(carver, TRIVET__MAPS * spans, one);
    of->span_others = trivet__carve(carver, spans, sizeof(int32_t));
    of->span_fixed = trivet__carve(carver, 6 * lanes * spans, one);
    of->span_resultants = trivet__carve(carver, 6 * lanes * spans, one);
    of->span_stretches = trivet__carve(carver, 6 * lanes * spans, one);
    of->expansion_factors = trivet__carve(carver, (size_t)plan->expansion_count, one);
    of->fixed = trivet__carve(carver, lanes * directions, one);
    of->forces = trivet__carve(carver, lanes * directions, one);
    of->unbalanced = trivet__carve(carver, lanes * directions, one);
    of->sizes = trivet__carve(carver, 2 * lanes, one);
    of->moves = trivet__carve(carver, lanes * directions, one);
    of->warm = trivet__carve(carver, lanes, one);
    of->rows = trivet__carve(carver, TRIVET__ROWS * lanes, one);
    of->diagonal = trivet__carve(carver, equations, one);
    of->scratch = trivet__carve(carver, scratch, one);
    of->null_scratch = trivet__carve(carver, plan->null_scratch, one);
    of->null_vectors = trivet__carve(carver, (size_t)plan->null_most * equations, one);
}

trivet_status trivet_workspace_new(const trivet_plan *plan, trivet_workspace **workspace_out,
                                   trivet_message *message)
{
    if (!workspace_out) {
        return trivet__missing(message, "workspace_out");
    }
    *workspace_out = NULL;
    if (!plan) {
        return trivet__missing(message, "plan");
    }
    trivet_workspace *const made = trivet__take(1, sizeof *made);
    if (!made) {
        return trivet__no_memory(message);
    }
    trivet__carver carver = {NULL, 0, 0};
    carve_workspace(plan, made, &carver);
    made->block = trivet__take_block(&carver);
    if (!made->block) {
        trivet__give_back(made);
        return trivet__no_memory(message);
    }
    carver = (trivet__carver){made->block, 0, 0};
    carve_workspace(plan, made, &carver);
    made->plan = plan;
    for (int32_t i = 0; i < plan->expansion_count; i++) {
        made->expansion_factors[i] = 1.0;
    }
    *workspace_out = made;
    return TRIVET_OK;
}

void trivet_workspace_free(trivet_workspace *workspace)
{
    if (workspace) {
        trivet__give_back_block(workspace->block);
        trivet__give_back(workspace);
    }
}

/* The largest diagonal entry over its pivot: a lower bound of the scaled condition number. */
static double pivot_bound(const trivet_plan *plan, const trivet_workspace *workspace)
{
    double most = 1.0;
    for (int32_t i = 0; i < plan->equation_count; i++) {
        const double share = workspace->diagonal[i] * workspace->inverses[i];
        most = share > most ? share : most;
    }
    return most;
}

/* x := inverse of the scaled matrix times x, for the first lane of rows of LANE_STEP. */
static void solve_scaled(const trivet_plan *plan, const trivet_workspace *workspace, double *x)
{
    for (int32_t i = 0; i < plan->equation_count; i++) {
        x[TRIVET__LANE_STEP * i] *= sqrt(workspace->diagonal[i]);
    }
    trivet__tiles_solve(&plan->tiles, workspace->matrix, workspace->inverses, TRIVET__LANE_STEP, x);
    for (int32_t i = 0; i < plan->equation_count; i++) {
        x[TRIVET__LANE_STEP * i] *= sqrt(workspace->diagonal[i]);
    }
}

/*
 * Estimate of the 1-norm of the scaled matrix's inverse by Hager's iteration (SIAM J. Sci. Stat.
 * Comput. 5, 1984). The matrix scaled to a diagonal of ones has a norm of at least 1, which is
 * what the estimate of the condition number leaves out.
 */
static double inverse_norm(const trivet_plan *plan, const trivet_workspace *workspace)
{
    enum { STEPS = 5, STEP = TRIVET__LANE_STEP };
    const int32_t n = plan->equation_count;
    const size_t rows = (size_t)STEP * TRIVET__TILE * (size_t)plan->tiles.count;
    double *const x = workspace->scratch;
    double *const signs = x + rows;
    double norm = 0.0;
    memset(x, 0, 2 * rows * sizeof *x);
    for (int32_t i = 0; i < n; i++) {
        x[STEP * i] = 1.0 / n;
    }
    for (int step = 0; step < STEPS; step++) {
        solve_scaled(plan, workspace, x);
        double sum = 0.0;
        for (int32_t i = 0; i < n; i++) {
            sum += fabs(x[STEP * i]);
            signs[STEP * i] = x[STEP * i] >= 0.0 ? 1.0 : -1.0;
        }
        if (!(sum > norm)) {
            break;
        }
        norm = sum;
        solve_scaled(plan, workspace, signs);
        int32_t largest = 0;
        for (int32_t i = 0; i < n; i++) {
            largest = fabs(signs[STEP * i]) > fabs(signs[STEP * largest]) ? i : largest;
            x[STEP * i] = 0.0;
        }
        x[STEP * largest] = 1.0;
    }
    return norm;
}

/* Factors the matrix, or says what moves. */
static trivet_status factor(const trivet_plan *plan, const trivet_frame *frame,
                            trivet_workspace *workspace, const trivet_result *result,
                            double *condition_out, trivet_message *message)
{
    trivet__assemble_matrix(plan, frame, workspace, result);
    const int32_t failed =
        trivet__tiles_factor(&plan->tiles, workspace->matrix, workspace->inverses);
    double condition = failed == 0 ? pivot_bound(plan, workspace) : HUGE_VAL;
    if (condition > SUSPICIOUS_CONDITION && condition < MOST_CONDITION) {
        condition = fmax(condition, inverse_norm(plan, workspace));
    }
    if (!(condition < MOST_CONDITION)) {
        trivet__assemble_matrix(plan, frame, workspace, result);
        return trivet__tell_freedom(plan, frame, workspace, condition, message);
    }
    *condition_out = condition;
    return TRIVET_OK;
}

static trivet_status refuse_residual(const trivet_frame *frame, int32_t c, double residual,
                                     double condition, trivet_message *message)
{
    trivet__refuse(message, TRIVET_ILL_CONDITIONED, "", "",
                   "look for a tube far stiffer or softer than its neighbours, a very short span, "
                   "or loads of absurd size");
    trivet__message_thing(message, "case %s", frame->cases[c].name);
    trivet__message_problem(message,
                            "forces at the joints stay out of balance by %.1g of the largest "
                            "(condition number about %.1g)",
                            residual, condition);
    return TRIVET_ILL_CONDITIONED;
}

static trivet_status judge(const trivet_plan *plan, const trivet_frame *frame,
                           trivet_result *result, double condition, trivet_message *message)
{
    for (int32_t c = 0; c < plan->column_count; c++) {
        result->quality[c].condition = condition;
    }
    for (int32_t c = 0; c < plan->case_count; c++) {
        const double residual = result->quality[c].residual;
        if (!(residual <= MOST_RESIDUAL)) {
            return refuse_residual(frame, c, residual, condition, message);
        }
    }
    return TRIVET_OK;
}

static trivet_status solve(const trivet_plan *plan, const trivet_frame *frame,
                           trivet_workspace *workspace, trivet_result *result,
                           trivet_message *message)
{
    double condition = 1.0;
    trivet_status status = trivet__place_spans(plan, frame, workspace, result, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__place_loads(plan, frame, workspace, result);
    status = trivet__tie_solve(plan, frame, workspace, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = factor(plan, frame, workspace, result, &condition, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__assemble_values(plan, frame, workspace, result);
    trivet__tiles_solve(&plan->tiles, workspace->matrix, workspace->inverses, plan->lanes,
                        workspace->values);
    trivet__recover(plan, frame, workspace, result);
    trivet__balance(plan, frame, workspace, result);
    return judge(plan, frame, result, condition, message);
}

trivet_status trivet_plan_solve(const trivet_plan *plan, const trivet_frame *frame,
                                trivet_workspace *workspace, trivet_result *result,
                                trivet_message *message)
{
    if (!plan || !frame || !workspace || !result) {
        return trivet__missing(message, !plan        ? "plan"
                                        : !frame     ? "frame"
                                        : !workspace ? "workspace"
                                                     : "result");
    }
    result->is_solved = 0;
    if (workspace->plan != plan || result->plan != plan) {
        return trivet__refuse(message, TRIVET_BAD_ORDER,
                              workspace->plan != plan ? "workspace" : "result",
                              "was made for another plan", "make one for this plan");
    }
    if (trivet__frame_topology(frame) != plan->topology) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "plan",
                              "was made for a frame of another topology",
                              "make a new plan for this frame");
    }
    trivet_status status = trivet_frame_validate(frame, message);
    if (status == TRIVET_OK) {
        status = solve(plan, frame, workspace, result, message);
    }
    result->is_solved = status == TRIVET_OK;
    return status;
}

trivet_status trivet_frame_solve(const trivet_frame *frame, trivet_result **result_out,
                                 trivet_message *message)
{
    trivet_plan *plan = NULL;
    trivet_workspace *workspace = NULL;
    trivet_result *result = NULL;
    if (!result_out) {
        return trivet__missing(message, "result_out");
    }
    *result_out = NULL;
    trivet_status status = trivet_plan_new(frame, &plan, message);
    if (status != TRIVET_OK) {
        goto done;
    }
    status = trivet_workspace_new(plan, &workspace, message);
    if (status != TRIVET_OK) {
        goto done;
    }
    status = trivet_result_new(plan, &result, message);
    if (status != TRIVET_OK) {
        goto done;
    }
    status = trivet_plan_solve(plan, frame, workspace, result, message);
    if (status == TRIVET_OK) {
        result->own_plan = plan;
        *result_out = result;
        result = NULL;
        plan = NULL;
    }
done:
    trivet_workspace_free(workspace);
    trivet_result_free(result);
    trivet_plan_free(plan);
    return status;
}
