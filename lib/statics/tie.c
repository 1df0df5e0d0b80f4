/*
 * Stiff cargo is a rigid body: the translation of each joint under it is that of the body there,
 *
 *     u(joint) = u(body) + turn(body) x (joint - centre),
 *
 * the joint's turns stay its own. Bodies that share joints form a cluster, whose conditions are
 * solved together by Gauss-Jordan elimination: some directions then follow the others. Which ones
 * is chosen when planning, by the largest pivots, joints before bodies; solving repeats the same
 * steps with the numbers of the day.
 *
 * Held directions inside a cluster may leave it to nobody how the holds share the load (a hard
 * case on four rigid mounts). Then their reactions are those of least squares: the Moore-Penrose
 * solution of the cluster's equilibrium.
 */
#include "statics/tie.h"

#include "base/message.h"
#include "base/vec3.h"
#include "numerics/numerics.h"
#include "statics/lanes.h"

#include <assert.h>
#include <string.h>

/* ---- conditions of a cluster ---- */

int32_t trivet__tie_rows(const trivet__cluster *cluster)
{
    return 3 * cluster->tie_count;
}

const int32_t *trivet__tie_directions(const trivet_plan *plan, const trivet__cluster *cluster)
{
    return plan->cluster_directions + cluster->first_direction;
}

/* Coefficient of a direction in condition row i (world axis i) of a tie. */
static double tie_entry(const trivet_plan *plan, const trivet_frame *frame, const trivet__tie *tie,
                        int i, int32_t direction, const double *centre)
{
    const int32_t node = direction / TRIVET__SIX;
    const int d = (int)(direction % TRIVET__SIX);
    if (node == tie->joint && d < 3) {
        const double *const axes = trivet__node_axes(plan, frame, node);
        return axes ? axes[3 * d + i] : (double)(d == i);
    }
    if (node != tie->body) {
        return 0.0;
    }
    if (d < 3) {
        return d == i ? -1.0 : 0.0;
    }
    double arm[3];
    trivet__minus3(frame->joints[tie->joint].position, centre, arm);
    double turn[3] = {0.0, 0.0, 0.0};
    turn[d - 3] = 1.0;
    double move[3];
    trivet__cross3(turn, arm, move);
    return -move[i];
}

static const double *body_centre(const trivet_plan *plan, const trivet_frame *frame, int32_t body)
{
    for (int32_t i = 0; i < plan->cargo_count; i++) {
        if (plan->cargo_nodes[i] == body) {
            return frame->cargos[i].centre;
        }
    }
    assert(0 && "a body belongs to a cargo");
    return NULL;
}

void trivet__tie_conditions(const trivet_plan *plan, const trivet_frame *frame,
                            const trivet__cluster *cluster, double *matrix)
{
    const int32_t *const directions = trivet__tie_directions(plan, cluster);
    const int32_t columns = cluster->direction_count;
    for (int32_t t = 0; t < cluster->tie_count; t++) {
        const trivet__tie *const tie = &plan->ties[cluster->first_tie + t];
        const double *const centre = body_centre(plan, frame, tie->body);
        for (int i = 0; i < 3; i++) {
            double *const row = matrix + (ptrdiff_t)(3 * t + i) * columns;
            for (int32_t k = 0; k < columns; k++) {
                row[k] = tie_entry(plan, frame, tie, i, directions[k], centre);
            }
        }
    }
}

void trivet__tie_eliminate(double *matrix, int32_t rows, int32_t columns,
                           const trivet__pivot *pivot)
{
    double *const from = matrix + (ptrdiff_t)pivot->row * columns;
    const double scale = 1.0 / from[pivot->column];
    for (int32_t k = 0; k < columns; k++) {
        from[k] *= scale;
    }
    from[pivot->column] = 1.0;
    for (int32_t i = 0; i < rows; i++) {
        double *const row = matrix + (ptrdiff_t)i * columns;
        const double share = row[pivot->column];
        if (i == pivot->row || share == 0.0) {
            continue;
        }
        for (int32_t k = 0; k < columns; k++) {
            row[k] -= share * from[k];
        }
        row[pivot->column] = 0.0;
    }
}

/* ---- solving ---- */

/* Sizes of the equilibrium of a cluster: one row a direction, one column a condition or hold. */
static int32_t unknown_count(const trivet__cluster *cluster)
{
    return trivet__tie_rows(cluster) + cluster->held_count;
}

size_t trivet__tie_scratch(const trivet_plan *plan)
{
    size_t most = 0;
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const trivet__cluster *const cluster = &plan->clusters[c];
        const size_t n = (size_t)cluster->direction_count;
        const size_t m = (size_t)unknown_count(cluster);
        const size_t size = (size_t)trivet__tie_rows(cluster) * n + 2 * n * m + n + m +
                            trivet__inverse_scratch((int32_t)n, (int32_t)m);
        most = size > most ? size : most;
    }
    return most;
}

/* Movement of pivot directions that does not depend on equations, and what the ties forbid. */
static int fix_followers(const trivet_plan *plan, const trivet__cluster *cluster,
                         const double *matrix, double *fixed)
{
    const ptrdiff_t lanes = plan->lanes;
    const int32_t *const directions = trivet__tie_directions(plan, cluster);
    const int32_t columns = cluster->direction_count;
    for (int32_t row = 0; row < trivet__tie_rows(cluster); row++) {
        double sum = 0.0;
        double size = 0.0;
        for (int32_t k = 0; k < columns; k++) {
            if (plan->directions[directions[k]] == TRIVET__HELD) {
                const double part = matrix[(ptrdiff_t)row * columns + k] *
                                    fixed[trivet__six_row(lanes, directions[k])];
                sum += part;
                size += fabs(part);
            }
        }
        int follows = 0;
        for (int32_t p = 0; p < cluster->pivot_count; p++) {
            const trivet__pivot *const pivot = &plan->pivots[cluster->first_pivot + p];
            if (pivot->row == row) {
                fixed[trivet__six_row(lanes, directions[pivot->column])] = -sum;
                follows = 1;
            }
        }
        if (!follows && fabs(sum) > TRIVET__LEAST_PIVOT * size) {
            return 0;
        }
    }
    return 1;
}

static void set_factors(const trivet_plan *plan, const trivet__cluster *cluster,
                        const double *matrix, double *factors)
{
    const int32_t *const directions = trivet__tie_directions(plan, cluster);
    const int32_t columns = cluster->direction_count;
    for (int32_t p = 0; p < cluster->pivot_count; p++) {
        const trivet__pivot *const pivot = &plan->pivots[cluster->first_pivot + p];
        const double *const row = matrix + (ptrdiff_t)pivot->row * columns;
        int32_t at = plan->expansion_starts[directions[pivot->column]];
        for (int32_t k = 0; k < columns; k++) {
            if (plan->directions[directions[k]] >= 0) {
                factors[at++] = -row[k];
            }
        }
        assert(at == plan->expansion_starts[directions[pivot->column] + 1]);
    }
}

static trivet_status refuse_torn(const trivet_plan *plan, const trivet_frame *frame, int32_t c,
                                 trivet_message *message)
{
    const int32_t joint = plan->ties[plan->clusters[c].first_tie].joint;
    trivet__refuse(message, TRIVET_BAD_VALUE, "", "the mounts under it move apart",
                   "move them alike, or make the cargo's grip soft");
    trivet__message_thing(message, "stiff cargo on joint %s", frame->joints[joint].name);
    return TRIVET_BAD_VALUE;
}

trivet_status trivet__tie_solve(const trivet_plan *plan, const trivet_frame *frame,
                                trivet_workspace *workspace, trivet_message *message)
{
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const trivet__cluster *const cluster = &plan->clusters[c];
        double *const matrix = workspace->scratch;
        trivet__tie_conditions(plan, frame, cluster, matrix);
        for (int32_t p = 0; p < cluster->pivot_count; p++) {
            const trivet__pivot *const pivot = &plan->pivots[cluster->first_pivot + p];
            const double size =
                matrix[(ptrdiff_t)pivot->row * cluster->direction_count + pivot->column];
            if (!(fabs(size) > TRIVET__LEAST_PIVOT)) {
                return trivet__refuse(message, TRIVET_BAD_ORDER, "plan",
                                      "was made when the stiff cargo's joints lay otherwise",
                                      "make a new plan for this frame");
            }
            trivet__tie_eliminate(matrix, trivet__tie_rows(cluster), cluster->direction_count,
                                  pivot);
        }
        set_factors(plan, cluster, matrix, workspace->expansion_factors);
        for (int32_t k = 0; workspace->has_moves && k < plan->case_count; k++) {
            double *const fixed = workspace->fixed + trivet__six_lane(k);
            if (!fix_followers(plan, cluster, matrix, fixed)) {
                return refuse_torn(plan, frame, c, message);
            }
        }
    }
    return TRIVET_OK;
}

/* ---- reactions ---- */

/* The equilibrium's matrix: the conditions turned on their side, then a unit column a hold. */
static void fill_equilibrium(const trivet_plan *plan, const trivet__cluster *cluster,
                             const double *conditions, double *matrix)
{
    const int32_t n = cluster->direction_count;
    const int32_t m = unknown_count(cluster);
    const int32_t rows = trivet__tie_rows(cluster);
    int32_t hold = rows;
    for (int32_t k = 0; k < n; k++) {
        double *const row = matrix + (ptrdiff_t)k * m;
        for (int32_t i = 0; i < m; i++) {
            row[i] = i < rows ? conditions[(ptrdiff_t)i * n + k] : 0.0;
        }
        if (plan->directions[trivet__tie_directions(plan, cluster)[k]] == TRIVET__HELD) {
            row[hold++] = 1.0;
        }
    }
    assert(hold == m);
}

/* Puts the holds' shares in the place of what is unbalanced at held directions of one case. */
static void share_holds(const trivet_plan *plan, const trivet__cluster *cluster,
                        const double *inverse, double *unbalanced, double *values)
{
    const ptrdiff_t lanes = plan->lanes;
    const int32_t *const directions = trivet__tie_directions(plan, cluster);
    const int32_t n = cluster->direction_count;
    for (int32_t k = 0; k < n; k++) {
        values[k] = unbalanced[trivet__six_row(lanes, directions[k])];
    }
    int32_t hold = trivet__tie_rows(cluster);
    for (int32_t k = 0; k < n; k++) {
        if (plan->directions[directions[k]] == TRIVET__HELD) {
            double sum = 0.0;
            for (int32_t j = 0; j < n; j++) {
                sum += inverse[(ptrdiff_t)hold * n + j] * values[j];
            }
            unbalanced[trivet__six_row(lanes, directions[k])] = sum;
            hold++;
        }
    }
}

void trivet__tie_reactions(const trivet_plan *plan, const trivet_frame *frame,
                           trivet_workspace *workspace)
{
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const trivet__cluster *const cluster = &plan->clusters[c];
        if (cluster->held_count == 0) {
            continue;
        }
        const ptrdiff_t n = cluster->direction_count;
        const ptrdiff_t m = unknown_count(cluster);
        double *const conditions = workspace->scratch;
        double *const matrix = conditions + trivet__tie_rows(cluster) * n;
        double *const inverse = matrix + n * m;
        double *const values = inverse + n * m;
        double *const scratch = values + n + m;
        trivet__tie_conditions(plan, frame, cluster, conditions);
        fill_equilibrium(plan, cluster, conditions, matrix);
        const int32_t rank =
            trivet__pseudo_inverse((int32_t)n, (int32_t)m, matrix, inverse, scratch);
        for (int32_t k = 0; rank > 0 && k < plan->case_count; k++) {
            share_holds(plan, cluster, inverse, workspace->unbalanced + trivet__six_lane(k),
                        values);
        }
    }
}
