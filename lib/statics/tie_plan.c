/*
 * Which directions follow others: bodies of stiff cargo that share joints form a cluster, whose
 * conditions are eliminated by the largest pivots, joints before bodies. See tie.c.
 */
#include "statics/tie.h"

#include "base/block.h"
#include "base/message.h"
#include "base/vec3.h"

#include <string.h>

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

/* ---- which directions follow ---- */

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
    const int32_t *const directions = trivet__tie_directions(plan, cluster);
    const int32_t columns = cluster->direction_count;
    double largest = TRIVET__LEAST_PIVOT;
    for (int32_t row = 0; row < trivet__tie_rows(cluster); row++) {
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
    return largest > TRIVET__LEAST_PIVOT;
}

static void choose_pivots(trivet_plan *plan, trivet__cluster *cluster, double *matrix)
{
    cluster->pivot_count = 0;
    for (int bodies = 0; bodies < 2; bodies++) {
        trivet__pivot pivot = {0, 0};
        while (find_pivot(plan, cluster, matrix, bodies, &pivot)) {
            trivet__tie_eliminate(matrix, trivet__tie_rows(cluster), cluster->direction_count,
                                  &pivot);
            plan->pivots[cluster->first_pivot + cluster->pivot_count++] = pivot;
            plan->directions[trivet__tie_directions(plan, cluster)[pivot.column]] = TRIVET__FOLLOWS;
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
        const size_t size = (size_t)trivet__tie_rows(cluster) * (size_t)cluster->direction_count;
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
        trivet__tie_conditions(plan, frame, cluster, matrix);
        choose_pivots(plan, cluster, matrix);
        plan->pivot_count += cluster->pivot_count;
    }
    trivet__give_back_block(matrix);
    plan->cluster_scratch = trivet__tie_scratch(plan);
    return TRIVET_OK;
}
