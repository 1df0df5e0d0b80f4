/*
 * Pieces: between neighbouring places where a load begins, ends or acts, line loads are linear, so
 * forces are cubics at most and movements quintics, all told by the state at the piece's start.
 */
#include "statics/span_pieces.h"

#include "statics/evaluate.h"
#include "statics/statics.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* The nearest place after x where the loads of a case change, or the nearest so far. */
static double next_change(const trivet_result *result, int32_t c, int32_t span, double x,
                          double nearest)
{
    const trivet_plan *const plan = result->plan;
    const int32_t list = c * plan->span_count + span;
    const double least = x + TRIVET__ROUNDING * result->spans[span].length;
    for (int32_t k = 0; k < result->load_counts[list]; k++) {
        const trivet__span_load *const load = &result->loads[plan->load_starts[list] + k];
        if (load->from > least && load->from < nearest) {
            nearest = load->from;
        }
        if (load->to > least && load->to < nearest) {
            nearest = load->to;
        }
    }
    return nearest;
}

/* The end of the piece that begins at x. */
static double piece_end(const trivet_result *result, int32_t column, int32_t span, double x)
{
    const trivet_plan *const plan = result->plan;
    double end = result->spans[span].length;
    const double rounding = TRIVET__ROUNDING * end;
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        end = next_change(result, plan->column_cases[k], span, x, end);
    }
    return result->spans[span].length - end <= rounding ? result->spans[span].length : end;
}

int32_t trivet__span_piece_count(const trivet_result *result, int32_t in_case, int32_t span)
{
    const double length = result->spans[span].length;
    double x = 0.0;
    int32_t count = 0;
    do {
        x = piece_end(result, in_case, span, x);
        count++;
    } while (x < length);
    return count;
}

/* Line load and its slope just inside a piece that begins at x and ends at end. */
static void line_at(const trivet_result *result, int32_t column, int32_t span, double x, double end,
                    double value[3], double slope[3])
{
    const trivet_plan *const plan = result->plan;
    const double middle = 0.5 * (x + end);
    memset(value, 0, 3 * sizeof *value);
    memset(slope, 0, 3 * sizeof *slope);
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        const int32_t list = plan->column_cases[k] * plan->span_count + span;
        for (int32_t j = 0; j < result->load_counts[list]; j++) {
            const trivet__span_load *const load = &result->loads[plan->load_starts[list] + j];
            if (load->is_point || middle <= load->from || middle >= load->to) {
                continue;
            }
            for (int i = 0; i < 3; i++) {
                const double rise = (load->last[i] - load->first[i]) / (load->to - load->from);
                value[i] += result->factors[k] * (load->first[i] + rise * (x - load->from));
                slope[i] += result->factors[k] * rise;
            }
        }
    }
}

/* My' = Vz, Mz' = -Vy, V' = -q, N' = -n, from values at the start. */
static void force_polynomials(const double f[6], const double q[3], const double r[3],
                              double forces[6][4])
{
    memset(forces, 0, sizeof(double) * 6 * 4);
    for (int i = 0; i < 3; i++) {
        forces[i][0] = f[i];
        forces[i][1] = -q[i];
        forces[i][2] = -r[i] / 2.0;
    }
    forces[3][0] = f[3];
    for (int k = 0; k < 3; k++) {
        forces[4][k + 1] = forces[2][k] / (k + 1);
        forces[5][k + 1] = -forces[1][k] / (k + 1);
    }
    forces[4][0] = f[4];
    forces[5][0] = f[5];
}

/* ty' = byy My + byz Mz, w' = -ty + Sz Vz and so on, integrated term by term. */
static void move_polynomials(const trivet__span *span, const double m[6], double warm,
                             double forces[6][4], double moves[3][6])
{
    double turns[2][5]; /* ty, tz */
    turns[0][0] = m[4];
    turns[1][0] = m[5];
    memset(moves, 0, sizeof(double) * 3 * 6);
    moves[0][0] = m[0];
    moves[1][0] = m[1];
    moves[2][0] = m[2];
    for (int k = 0; k < 4; k++) {
        const double My = forces[4][k];
        const double Mz = forces[5][k];
        turns[0][k + 1] = (span->bend[0] * My + span->bend[1] * Mz) / (k + 1);
        turns[1][k + 1] = (span->bend[1] * My + span->bend[2] * Mz) / (k + 1);
        moves[0][k + 1] = forces[0][k] / span->EA / (k + 1);
    }
    moves[0][1] += span->expansion * warm;
    for (int k = 0; k < 5; k++) {
        const double Vy = k < 4 ? forces[1][k] : 0.0;
        const double Vz = k < 4 ? forces[2][k] : 0.0;
        moves[1][k + 1] = (turns[1][k] + span->shear[0] * Vy) / (k + 1);
        moves[2][k + 1] = (-turns[0][k] + span->shear[1] * Vz) / (k + 1);
    }
}

void trivet__span_piece(const trivet_result *result, int32_t in_case, int32_t span, int32_t piece,
                        trivet__piece *out)
{
    double x = 0.0;
    for (int32_t k = 0; k < piece; k++) {
        x = piece_end(result, in_case, span, x);
    }
    double move[6];
    double force[6];
    double value[3];
    double slope[3];
    out->from = x;
    out->to = piece_end(result, in_case, span, x);
    trivet__state_at(result, in_case, span, x, 1, move, force);
    line_at(result, in_case, span, x, out->to, value, slope);
    force_polynomials(force, value, slope, out->forces);
    move_polynomials(&result->spans[span], move, trivet__column_warm(result, in_case), out->forces,
                     out->moves);
}

/* Shares by stiffness; what a loose insert cannot take stays with the tube. */
int32_t trivet__span_parts(const trivet_frame *frame, const trivet_result *result, int32_t span,
                           trivet__part parts_out[2])
{
    const trivet__span_map *const map = &result->plan->spans[span];
    const trivet__tube *const tube = &frame->tubes[map->tube];
    parts_out[0] = (trivet__part){tube->stock, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    if (map->insert < 0) {
        return 1;
    }
    const trivet__insert *const insert = &tube->inserts[map->insert];
    const trivet__stock *const outer = &frame->stocks[tube->stock];
    const trivet__stock *const inner = &frame->stocks[insert->stock];
    const double E = inner->material.E;
    const double G = inner->material.G;
    const trivet_section *const in = &inner->section;
    const trivet_section *const out = &outer->section;
    const double outer_E = outer->material.E;
    const double outer_G = outer->material.G;
    const int is_fast = insert->bond == TRIVET_TOGETHER;
    trivet__part part = {insert->stock, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    part.share_N = is_fast ? E * in->area / (E * in->area + outer_E * out->area) : 0.0;
    part.share_T = is_fast ? G * in->torsion_constant /
                                 (G * in->torsion_constant + outer_G * out->torsion_constant)
                           : 0.0;
    part.share_My =
        E * in->second_moment[0] / (E * in->second_moment[0] + outer_E * out->second_moment[0]);
    part.share_Mz =
        E * in->second_moment[1] / (E * in->second_moment[1] + outer_E * out->second_moment[1]);
    part.share_Vy = G * in->shear_area[0] / (G * in->shear_area[0] + outer_G * out->shear_area[0]);
    part.share_Vz = G * in->shear_area[1] / (G * in->shear_area[1] + outer_G * out->shear_area[1]);
    parts_out[0] = (trivet__part){tube->stock,         1.0 - part.share_N, 1.0 - part.share_My,
                                  1.0 - part.share_Mz, 1.0 - part.share_T, 1.0 - part.share_Vy,
                                  1.0 - part.share_Vz};
    parts_out[1] = part;
    return 2;
}
