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
enum { FORCE_SUMS = 0, MOMENT_SUMS = 12, SUM_ROWS = 21 };

static void add_other(int32_t lanes, int32_t c, const trivet__span_load *load, double length,
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

/* Integrals of each case's loads that are not even, one case a lane. */
static void gather_others(const trivet_plan *plan, const trivet_result *result, int32_t span,
                          double *rows)
{
    const int32_t lanes = plan->lanes;
    memset(rows, 0, (size_t)SUM_ROWS * (size_t)lanes * sizeof *rows);
    for (int32_t c = 0; c < plan->case_count; c++) {
        const int32_t list = c * plan->span_count + span;
        for (int32_t k = 0; k < result->load_counts[list]; k++) {
            const trivet__span_load *const load = &result->loads[plan->load_starts[list] + k];
            if (!load->is_even) {
                add_other(lanes, c, load, result->spans[span].length, rows);
            }
        }
    }
}

/* The integrals of four lanes. */
typedef struct four_sums {
    trivet__four force[3][4];
    trivet__four moment[3][3];
} four_sums;

/* Integrals of even loads are products. */
TRIVET__INSIDE void sum_even(const double *even, double length, four_sums *sums)
{
    double integral = 1.0;
    for (int k = 0; k < 4; k++) {
        integral *= length / (k + 1);
        for (int i = 0; i < 3; i++) {
            sums->force[i][k] = integral * trivet__fours(even)[i];
        }
    }
    memset(sums->moment, 0, sizeof sums->moment);
}

TRIVET__INSIDE void add_sums(const double *rows, ptrdiff_t lanes, four_sums *sums)
{
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 4; k++) {
            sums->force[i][k] += *trivet__fours(rows + (FORCE_SUMS + 4 * i + k) * lanes);
        }
        for (int k = 0; k < 3; k++) {
            sums->moment[i][k] += *trivet__fours(rows + (MOMENT_SUMS + 3 * i + k) * lanes);
        }
    }
}

TRIVET__INSIDE void find_resultant(const four_sums *sums, trivet__four resultant[6])
{
    for (int i = 0; i < 3; i++) {
        resultant[i] = sums->force[i][0];
        resultant[3 + i] = sums->moment[i][0];
    }
    resultant[4] += sums->force[2][1];
    resultant[5] -= sums->force[1][1];
}

/*
 * The state at the end (trivet__span_state) of a span that is still at its start and carries the
 * resultant there, the same terms in the same order.
 */
TRIVET__INSIDE void find_stretch(const trivet__span *span, const four_sums *sums,
                                 const trivet__four resultant[6], trivet__four stretch[6])
{
    const double L = span->length;
    const double L2 = L * L / 2.0;
    const double L3 = L2 * L / 3.0;
    const double *const b = span->bend;
    const trivet__four *const n = sums->force[0];
    const trivet__four *const qy = sums->force[1];
    const trivet__four *const qz = sums->force[2];
    const trivet__four Vy = resultant[1];
    const trivet__four Vz = resultant[2];
    const trivet__four My = resultant[4] - L * Vz;
    const trivet__four Mz = resultant[5] + L * Vy;
    const trivet__four My1 = My * L + Vz * L2 - qz[2] - sums->moment[1][1];
    const trivet__four Mz1 = Mz * L - Vy * L2 + qy[2] - sums->moment[2][1];
    const trivet__four My2 = My * L2 + Vz * L3 - qz[3] - sums->moment[1][2];
    const trivet__four Mz2 = Mz * L2 - Vy * L3 + qy[3] - sums->moment[2][2];
    const trivet__four Vy1 = Vy * L - qy[1];
    const trivet__four Vz1 = Vz * L - qz[1];
    stretch[0] = (resultant[0] * L - n[1]) / span->EA;
    stretch[1] = b[1] * My2 + b[2] * Mz2 + span->shear[0] * Vy1;
    stretch[2] = span->shear[1] * Vz1 - b[0] * My2 - b[1] * Mz2;
    stretch[3] = (resultant[3] * L - sums->moment[0][1]) / span->GJ;
    stretch[4] = b[0] * My1 + b[1] * Mz1;
    stretch[5] = b[1] * My1 + b[2] * Mz1;
}

/* What freed ends add to the forces of a span held still: see span.c. */
TRIVET__INSIDE void add_freed_ends(const trivet__span *span, const trivet__four resultant[6],
                                   trivet__four fixed[6])
{
    trivet__four from_ends[6];
    memset(from_ends, 0, sizeof from_ends);
    for (int32_t k = 0; k < span->release_count; k++) {
        const trivet__release *const release = &span->releases[k];
        const int d = (int)release->direction;
        trivet__four missing = {0.0, 0.0, 0.0, 0.0};
        if (release->at_first) {
            missing = resultant[d];
            if (d == 4) {
                missing -= span->length * resultant[2];
            } else if (d == 5) {
                missing += span->length * resultant[1];
            }
        }
        for (int i = 0; i < 6; i++) {
            missing -= release->column[i] * from_ends[i];
        }
        for (int i = 0; i < 6; i++) {
            from_ends[i] += missing * release->gain[i];
        }
    }
    for (int i = 0; i < 6; i++) {
        fixed[i] += from_ends[i];
    }
}

TRIVET__WIDE
static void load_span(const trivet_plan *plan, trivet_workspace *workspace,
                      const trivet_result *result, int32_t s)
{
    const ptrdiff_t lanes = plan->lanes;
    const trivet__span *const span = &result->spans[s];
    const double warm_stretch = span->expansion * span->length;
    const int has_others = workspace->span_others[s];
    if (has_others) {
        gather_others(plan, result, s, workspace->rows);
    }
    for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        const ptrdiff_t at = 6 * (lanes * s + c);
        four_sums sums;
        trivet__four resultant[6];
        trivet__four stretch[6];
        trivet__four fixed[6];
        sum_even(workspace->span_resultants + at, span->length, &sums);
        if (has_others) {
            add_sums(workspace->rows + c, lanes, &sums);
        }
        find_resultant(&sums, resultant);
        find_stretch(span, &sums, resultant, stretch);
        stretch[0] += warm_stretch * *trivet__fours(workspace->warm + c);
        trivet__six_times(span->stiffness, stretch, fixed);
        for (int i = 0; i < 6; i++) {
            fixed[i] = -fixed[i];
        }
        if (span->release_count > 0) {
            add_freed_ends(span, resultant, fixed);
            trivet__six_store(stretch, workspace->span_stretches + at);
        }
        trivet__six_store(resultant, workspace->span_resultants + at);
        trivet__six_store(fixed, workspace->span_fixed + at);
    }
}

void trivet__load_span(const trivet_plan *plan, trivet_workspace *workspace,
                       const trivet_result *result, int32_t s)
{
    load_span(plan, workspace, result, s);
}
