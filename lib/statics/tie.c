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
#include "base/block.h"
#include "base/message.h"
#include "base/vec3.h"
#include "numerics/numerics.h"
#include "statics/statics.h"

#include <assert.h>
#include <string.h>

/* A pivot below this share of the ties' entries (which are 1 and lengths in m) is none. */
#define LEAST_PIVOT 1e-9

/* ---- which cargoes hang together ---- */

static void gather_ties(trivet_plan *plan, const trivet_frame *frame)
{
    plan->tie_count = 0;
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        const trivet__cargo *const cargo = &frame->cargos[i];
        for (int32_t k = 0; plan->cargo_nodes[i] >= 0 && k < cargo->joint_count; k++) {
            plan->ties[plan->tie_count++] = (trivet__tie){cargo->joints[k], plan->cargo_nodes[i]};
        }
    }
}

/* Spreads the lowest number over everything tied together until nothing changes. */
static void spread_clusters(trivet_plan *plan)
{
    for (int32_t t = 0; t < plan->tie_count; t++) {
        plan->node_clusters[plan->ties[t].joint] = plan->ties[t].body;
        plan->node_clusters[plan->ties[t].body] = plan->ties[t].body;
    }
    int changed = 1;
    while (changed) {
        changed = 0;
        for (int32_t t = 0; t < plan->tie_count; t++) {
            int32_t *const joint = &plan->node_clusters[plan->ties[t].joint];
            int32_t *const body = &plan->node_clusters[plan->ties[t].body];
            if (*joint != *body) {
                const int32_t lower = *joint < *body ? *joint : *body;
                *joint = lower;
                *body = lower;
                changed = 1;
            }
        }
    }
}

/* Ties sorted by cluster (few: insertion), clusters numbered from 0. */
static void number_clusters(trivet_plan *plan)
{
    for (int32_t t = 1; t < plan->tie_count; t++) {
        const trivet__tie moved = plan->ties[t];
        int32_t at = t;
        while (at > 0 &&
               plan->node_clusters[plan->ties[at - 1].body] > plan->node_clusters[moved.body]) {
            plan->ties[at] = plan->ties[at - 1];
            at--;
        }
        plan->ties[at] = moved;
    }
    plan->cluster_count = 0;
    int32_t name = -1;
    for (int32_t t = 0; t < plan->tie_count; t++) {
        const int32_t of = plan->node_clusters[plan->ties[t].body];
        if (of != name) {
            name = of;
            trivet__cluster *const cluster = &plan->clusters[plan->cluster_count++];
            cluster->first_tie = t;
            cluster->tie_count = 0;
        }
        plan->clusters[plan->cluster_count - 1].tie_count++;
    }
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const int32_t old = plan->node_clusters[plan->ties[plan->clusters[c].first_tie].body];
        for (int32_t node = 0; node < plan->node_count; node++) {
            if (plan->node_clusters[node] == old) {
                /* Marked below zero until all are numbered, so that none is taken twice. */
                plan->node_clusters[node] = -2 - c;
            }
        }
    }
    for (int32_t node = 0; node < plan->node_count; node++) {
        if (plan->node_clusters[node] < -1) {
            plan->node_clusters[node] = -2 - plan->node_clusters[node];
        }
    }
}

static int is_body(const trivet_plan *plan, int32_t node)
{
    return node >= plan->joint_count + plan->hidden_count;
}

/* Joints' translations first, then the bodies' six. */
static void list_directions(trivet_plan *plan)
{
    int32_t at = 0;
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        trivet__cluster *const cluster = &plan->clusters[c];
        cluster->first_direction = at;
        cluster->held_count = 0;
        for (int32_t node = 0; node < plan->node_count; node++) {
            const int own = plan->node_clusters[node] == c;
            const int count = is_body(plan, node) ? TRIVET__SIX : 3;
            for (int d = 0; own && d < count; d++) {
                const int32_t direction = TRIVET__SIX * node + d;
                cluster->held_count += plan->directions[direction] == TRIVET__HELD;
                plan->cluster_directions[at++] = direction;
            }
        }
        cluster->direction_count = at - cluster->first_direction;
    }
    plan->cluster_direction_count = at;
}

/* ---- conditions of a cluster ---- */

static int32_t row_count(const trivet__cluster *cluster)
{
    return 3 * cluster->tie_count;
}

static const int32_t *directions_of(const trivet_plan *plan, const trivet__cluster *cluster)
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

/* The conditions, [rows][directions]. */
static void fill_conditions(const trivet_plan *plan, const trivet_frame *frame,
                            const trivet__cluster *cluster, double *matrix)
{
    const int32_t *const directions = directions_of(plan, cluster);
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

/* One step of Gauss-Jordan: column becomes a unit vector with 1 in row. */
static void eliminate(double *matrix, int32_t rows, int32_t columns, const trivet__pivot *pivot)
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

/* ---- planning ---- */

static int has_pivot(const trivet_plan *plan, const trivet__cluster *cluster, int32_t row)
{
    for (int32_t p = 0; p < cluster->pivot_count; p++) {
        if (plan->pivots[cluster->first_pivot + p].row == row) {
            return 1;
        }
    }
    return 0;
}

/* The largest entry among directions still free, of joints or of bodies. 0 if there is none. */
static int find_pivot(const trivet_plan *plan, const trivet__cluster *cluster, const double *matrix,
                      int bodies, trivet__pivot *best)
{
    const int32_t *const directions = directions_of(plan, cluster);
    const int32_t columns = cluster->direction_count;
    double largest = LEAST_PIVOT;
    for (int32_t row = 0; row < row_count(cluster); row++) {
        if (has_pivot(plan, cluster, row)) {
            continue;
        }
        for (int32_t k = 0; k < columns; k++) {
            const int fits = plan->directions[directions[k]] >= 0 &&
                             is_body(plan, directions[k] / TRIVET__SIX) == bodies;
            const double size = fabs(matrix[(ptrdiff_t)row * columns + k]);
            if (fits && size > largest * (1.0 + 1e-9)) {
                largest = size;
                *best = (trivet__pivot){row, k};
            }
        }
    }
    return largest > LEAST_PIVOT;
}

static void choose_pivots(trivet_plan *plan, trivet__cluster *cluster, double *matrix)
{
    cluster->pivot_count = 0;
    for (int bodies = 0; bodies < 2; bodies++) {
        trivet__pivot pivot = {0, 0};
        while (find_pivot(plan, cluster, matrix, bodies, &pivot)) {
            eliminate(matrix, row_count(cluster), cluster->direction_count, &pivot);
            plan->pivots[cluster->first_pivot + cluster->pivot_count++] = pivot;
            plan->directions[directions_of(plan, cluster)[pivot.column]] = TRIVET__FOLLOWS;
        }
    }
}

/* A body on joints in one line could swing about that line. */
static trivet_status refuse_lines(const trivet_frame *frame, trivet_message *message)
{
    const double thin = 1e-6; /* of the spread along the line */
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        const trivet__cargo *const cargo = &frame->cargos[i];
        if (cargo->grip != TRIVET_GRIP_STIFF) {
            continue;
        }
        const double *const first = frame->joints[cargo->joints[0]].position;
        double line[3] = {0.0, 0.0, 0.0};
        double widest = 0.0;
        for (int32_t k = 1; k < cargo->joint_count; k++) {
            double to[3];
            trivet__minus3(frame->joints[cargo->joints[k]].position, first, to);
            if (trivet__length3(to) > trivet__length3(line)) {
                memcpy(line, to, sizeof line);
            }
        }
        for (int32_t k = 1; k < cargo->joint_count; k++) {
            double to[3];
            double across[3];
            trivet__minus3(frame->joints[cargo->joints[k]].position, first, to);
            trivet__cross3(line, to, across);
            widest = fmax(widest, trivet__length3(across));
        }
        if (!(widest > thin * trivet__dot3(line, line))) {
            trivet__refuse(message, TRIVET_BAD_VALUE, "", "",
                           "rest it on three joints that are not in one line, or make its grip "
                           "soft");
            trivet__message_thing(message, "cargo %s", cargo->name);
            trivet__message_problem(message,
                                    "its grip is stiff, but it rests on %d joint%s in one line "
                                    "and could swing about it",
                                    (int)cargo->joint_count, cargo->joint_count == 1 ? "" : "s");
            return TRIVET_BAD_VALUE;
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__tie_plan(const trivet_frame *frame, trivet_plan *plan,
                               trivet_message *message)
{
    const trivet_status status = refuse_lines(frame, message);
    gather_ties(plan, frame);
    if (status != TRIVET_OK || plan->tie_count == 0) {
        return status;
    }
    spread_clusters(plan);
    number_clusters(plan);
    list_directions(plan);
    size_t most = 0;
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const trivet__cluster *const cluster = &plan->clusters[c];
        const size_t size = (size_t)row_count(cluster) * (size_t)cluster->direction_count;
        most = size > most ? size : most;
    }
    trivet__carver carver = {NULL, 0, 0};
    trivet__carve(&carver, most, sizeof(double));
    double *const matrix = trivet__take_block(&carver);
    if (!matrix) {
        return trivet__no_memory(message);
    }
    plan->pivot_count = 0;
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        trivet__cluster *const cluster = &plan->clusters[c];
        cluster->first_pivot = plan->pivot_count;
        fill_conditions(plan, frame, cluster, matrix);
        choose_pivots(plan, cluster, matrix);
        plan->pivot_count += cluster->pivot_count;
    }
    trivet__give_back_block(matrix);
    plan->cluster_scratch = trivet__tie_scratch(plan);
    return TRIVET_OK;
}

/* ---- solving ---- */

/* Sizes of the equilibrium of a cluster: one row a direction, one column a condition or hold. */
static int32_t unknown_count(const trivet__cluster *cluster)
{
    return row_count(cluster) + cluster->held_count;
}

size_t trivet__tie_scratch(const trivet_plan *plan)
{
    size_t most = 0;
    for (int32_t c = 0; c < plan->cluster_count; c++) {
        const trivet__cluster *const cluster = &plan->clusters[c];
        const size_t n = (size_t)cluster->direction_count;
        const size_t m = (size_t)unknown_count(cluster);
        const size_t size = (size_t)row_count(cluster) * n + 2 * n * m + n + m +
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
    const int32_t *const directions = directions_of(plan, cluster);
    const int32_t columns = cluster->direction_count;
    for (int32_t row = 0; row < row_count(cluster); row++) {
        double sum = 0.0;
        double size = 0.0;
        for (int32_t k = 0; k < columns; k++) {
            if (plan->directions[directions[k]] == TRIVET__HELD) {
                const double part =
                    matrix[(ptrdiff_t)row * columns + k] * fixed[lanes * directions[k]];
                sum += part;
                size += fabs(part);
            }
        }
        int follows = 0;
        for (int32_t p = 0; p < cluster->pivot_count; p++) {
            const trivet__pivot *const pivot = &plan->pivots[cluster->first_pivot + p];
            if (pivot->row == row) {
                fixed[lanes * directions[pivot->column]] = -sum;
                follows = 1;
            }
        }
        if (!follows && fabs(sum) > LEAST_PIVOT * size) {
            return 0;
        }
    }
    return 1;
}

static void set_factors(const trivet_plan *plan, const trivet__cluster *cluster,
                        const double *matrix, double *factors)
{
    const int32_t *const directions = directions_of(plan, cluster);
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
        fill_conditions(plan, frame, cluster, matrix);
        for (int32_t p = 0; p < cluster->pivot_count; p++) {
            const trivet__pivot *const pivot = &plan->pivots[cluster->first_pivot + p];
            const double size =
                matrix[(ptrdiff_t)pivot->row * cluster->direction_count + pivot->column];
            if (!(fabs(size) > LEAST_PIVOT)) {
                return trivet__refuse(message, TRIVET_BAD_ORDER, "plan",
                                      "was made when the stiff cargo's joints lay otherwise",
                                      "make a new plan for this frame");
            }
            eliminate(matrix, row_count(cluster), cluster->direction_count, pivot);
        }
        set_factors(plan, cluster, matrix, workspace->expansion_factors);
        for (int32_t k = 0; workspace->has_moves && k < plan->case_count; k++) {
            double *const fixed = workspace->fixed + k;
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
    const int32_t rows = row_count(cluster);
    int32_t hold = rows;
    for (int32_t k = 0; k < n; k++) {
        double *const row = matrix + (ptrdiff_t)k * m;
        for (int32_t i = 0; i < m; i++) {
            row[i] = i < rows ? conditions[(ptrdiff_t)i * n + k] : 0.0;
        }
        if (plan->directions[directions_of(plan, cluster)[k]] == TRIVET__HELD) {
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
    const int32_t *const directions = directions_of(plan, cluster);
    const int32_t n = cluster->direction_count;
    for (int32_t k = 0; k < n; k++) {
        values[k] = unbalanced[lanes * directions[k]];
    }
    int32_t hold = row_count(cluster);
    for (int32_t k = 0; k < n; k++) {
        if (plan->directions[directions[k]] == TRIVET__HELD) {
            double sum = 0.0;
            for (int32_t j = 0; j < n; j++) {
                sum += inverse[(ptrdiff_t)hold * n + j] * values[j];
            }
            unbalanced[lanes * directions[k]] = sum;
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
        double *const matrix = conditions + row_count(cluster) * n;
        double *const inverse = matrix + n * m;
        double *const values = inverse + n * m;
        double *const scratch = values + n + m;
        fill_conditions(plan, frame, cluster, conditions);
        fill_equilibrium(plan, cluster, conditions, matrix);
        const int32_t rank =
            trivet__pseudo_inverse((int32_t)n, (int32_t)m, matrix, inverse, scratch);
        for (int32_t k = 0; rank > 0 && k < plan->case_count; k++) {
            share_holds(plan, cluster, inverse, workspace->unbalanced + k, values);
        }
    }
}
