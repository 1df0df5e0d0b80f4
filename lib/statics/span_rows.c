/*
 * What loads and warmth do to one span in all cases at once: their resultant about the last end,
 * the stretch they give when the last end is left alone, the forces when both are held still.
 *
 * All follow from the loads' repeated integrals S over the whole span: the resultant's moment is
 * the second integral, and the stretch is the state at the end of a span that is held at its
 * start and carries the resultant there.
 */
#include "base/processor.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <string.h>

/* Rows of scratch: integrals of forces (once to four times each) and moments (none to twice). */
enum { FORCE_SUMS = 0, MOMENT_SUMS = 12, SUM_ROWS = 21, END_ROWS = 21 };

/* A load of one size over the whole span, such as its weight: its integrals are products. */
static int is_uniform(const trivet__span_load *load, double length)
{
    return !load->is_point && load->from == 0.0 && load->to == length &&
           load->first[0] == load->last[0] && load->first[1] == load->last[1] &&
           load->first[2] == load->last[2];
}

static void add_uniform(int32_t lanes, int32_t c, const trivet__span_load *load, double length,
                        double *rows)
{
    double integral = 1.0;
    for (int k = 0; k < 4; k++) {
        integral *= length / (k + 1);
        for (int i = 0; i < 3; i++) {
            rows[(FORCE_SUMS + 4 * i + k) * lanes + c] += integral * load->first[i];
        }
    }
}

static void add_any(int32_t lanes, int32_t c, const trivet__span_load *load, double length,
                    double *rows)
{
    trivet__load_sums sums;
    memset(&sums, 0, sizeof sums);
    trivet__load_sums_add(&sums, load, 1, 1.0, length, 1);
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 4; k++) {
            rows[(FORCE_SUMS + 4 * i + k) * lanes + c] += sums.force[i][k];
        }
        for (int k = 0; k < 3; k++) {
            rows[(MOMENT_SUMS + 3 * i + k) * lanes + c] += sums.moment[i][k];
        }
    }
}

/* Integrals of each case's loads, one case a lane. Returns 0 if no case loads the span. */
static int gather_sums(const trivet_plan *plan, const trivet_result *result, int32_t span,
                       double *rows)
{
    const int32_t lanes = plan->lanes;
    const double length = result->spans[span].length;
    int any = 0;
    memset(rows, 0, (size_t)SUM_ROWS * (size_t)lanes * sizeof *rows);
    for (int32_t c = 0; c < plan->case_count; c++) {
        const int32_t list = c * plan->span_count + span;
        for (int32_t k = 0; k < result->load_counts[list]; k++) {
            const trivet__span_load *const load = &result->loads[plan->load_starts[list] + k];
            any = 1;
            if (is_uniform(load, length)) {
                add_uniform(lanes, c, load, length, rows);
            } else {
                add_any(lanes, c, load, length, rows);
            }
        }
    }
    return any;
}

static void find_resultants(int32_t lanes, const double *rows, double *resultant)
{
    const double *const qy = rows + (FORCE_SUMS + 4) * lanes;
    const double *const qz = rows + (FORCE_SUMS + 8) * lanes;
    for (int i = 0; i < 3; i++) {
        const double *const force = rows + (FORCE_SUMS + 4 * i) * lanes;
        const double *const moment = rows + (MOMENT_SUMS + 3 * i) * lanes;
        memcpy(resultant + i * lanes, force, (size_t)lanes * sizeof *force);
        memcpy(resultant + (3 + i) * lanes, moment, (size_t)lanes * sizeof *moment);
    }
    trivet__lanes_add(lanes, 1.0, qz + lanes, resultant + 4 * lanes);
    trivet__lanes_add(lanes, -1.0, qy + lanes, resultant + 5 * lanes);
}

/*
 * The state at the end (trivet__span_state) of a span that is still at its start and carries the
 * resultant there, the same terms in the same order, a lane a case.
 */
static void find_stretches(const trivet__span *span, int32_t lanes, const double *restrict rows,
                           const double *restrict resultant, double *restrict stretch)
{
    const double L = span->length;
    const double L2 = L * L / 2.0;
    const double L3 = L2 * L / 3.0;
    const double *const b = span->bend;
    const double *const n = rows + (ptrdiff_t)FORCE_SUMS * lanes;
    const double *const qy = n + 4 * lanes;
    const double *const qz = qy + 4 * lanes;
    const double *const mx = rows + (ptrdiff_t)MOMENT_SUMS * lanes;
    const double *const my = mx + 3 * lanes;
    const double *const mz = my + 3 * lanes;
    for (int32_t c = 0; c < lanes; c++) {
        const double Vy = resultant[lanes + c];
        const double Vz = resultant[2 * lanes + c];
        const double My = resultant[4 * lanes + c] - L * Vz;
        const double Mz = resultant[5 * lanes + c] + L * Vy;
        const double My1 = My * L + Vz * L2 - qz[2 * lanes + c] - my[lanes + c];
        const double Mz1 = Mz * L - Vy * L2 + qy[2 * lanes + c] - mz[lanes + c];
        const double My2 = My * L2 + Vz * L3 - qz[3 * lanes + c] - my[2 * lanes + c];
        const double Mz2 = Mz * L2 - Vy * L3 + qy[3 * lanes + c] - mz[2 * lanes + c];
        const double Vy1 = Vy * L - qy[lanes + c];
        const double Vz1 = Vz * L - qz[lanes + c];
        stretch[c] = (resultant[c] * L - n[lanes + c]) / span->EA;
        stretch[lanes + c] = b[1] * My2 + b[2] * Mz2 + span->shear[0] * Vy1;
        stretch[2 * lanes + c] = span->shear[1] * Vz1 - b[0] * My2 - b[1] * Mz2;
        stretch[3 * lanes + c] = (resultant[3 * lanes + c] * L - mx[lanes + c]) / span->GJ;
        stretch[4 * lanes + c] = b[0] * My1 + b[1] * Mz1;
        stretch[5 * lanes + c] = b[1] * My1 + b[2] * Mz1;
    }
}

/* What freed ends add to the forces of a span held still: see span.c. */
static void add_freed_ends(const trivet__span *span, int32_t lanes, const double *resultant,
                           double *from_ends, double *fixed)
{
    memset(from_ends, 0, 6 * (size_t)lanes * sizeof *from_ends);
    for (int32_t k = 0; k < span->release_count; k++) {
        const trivet__release *const release = &span->releases[k];
        const int d = (int)release->direction;
        for (int32_t c = 0; c < lanes; c++) {
            double missing = 0.0;
            if (release->at_first) {
                missing = resultant[d * lanes + c];
                missing -= d == 4 ? span->length * resultant[2 * lanes + c] : 0.0;
                missing += d == 5 ? span->length * resultant[lanes + c] : 0.0;
            }
            for (int i = 0; i < 6; i++) {
                missing -= release->column[i] * from_ends[i * lanes + c];
            }
            for (int i = 0; i < 6; i++) {
                from_ends[i * lanes + c] += missing * release->gain[i];
            }
        }
    }
    for (int i = 0; i < 6; i++) {
        trivet__lanes_add(lanes, 1.0, from_ends + i * lanes, fixed + i * lanes);
    }
}

TRIVET__WIDE
static void load_span(const trivet_plan *plan, trivet_workspace *workspace,
                      const trivet_result *result, int32_t s)
{
    const int32_t lanes = plan->lanes;
    const ptrdiff_t at = (ptrdiff_t)6 * lanes * s;
    const trivet__span *const span = &result->spans[s];
    double *const fixed = workspace->span_fixed + at;
    double *const resultant = workspace->span_resultants + at;
    double *const stretch = workspace->span_stretches + at;
    const size_t bytes = 6 * (size_t)lanes * sizeof *fixed;
    memset(fixed, 0, bytes);
    if (gather_sums(plan, result, s, workspace->rows)) {
        find_resultants(lanes, workspace->rows, resultant);
        find_stretches(span, lanes, workspace->rows, resultant, stretch);
    } else {
        memset(resultant, 0, bytes);
        memset(stretch, 0, bytes);
    }
    trivet__lanes_add(lanes, span->expansion * span->length, workspace->warm, stretch);
    trivet__lanes_times(lanes, span->stiffness, -1.0, stretch, fixed);
    if (span->release_count > 0) {
        add_freed_ends(span, lanes, resultant, workspace->rows + END_ROWS * lanes, fixed);
    }
}

void trivet__load_span(const trivet_plan *plan, trivet_workspace *workspace,
                       const trivet_result *result, int32_t s)
{
    load_span(plan, workspace, result, s);
}
