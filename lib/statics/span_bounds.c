/*
 * What the forces inside a span stay below, from its ends and the sizes of its loads alone.
 *
 * With W the sum of the sizes of all loads across or along the span and L its length: a force at a
 * place differs from those at the ends by no more than W in all, so that it is at most half of both
 * ends and W; a moment lies above the straight line between its ends by no more than that of W in
 * the middle of a beam on two supports, W L/4 (any text on strength of materials).
 */
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>

/* W by direction and the sizes of all moments, of all loads of a column on a span. */
static void add_loads(const trivet_result *result, int32_t column, int32_t span, double force[3],
                      double moment[3])
{
    const trivet_plan *const plan = result->plan;
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        const int32_t list = plan->column_cases[k] * plan->span_count + span;
        const double factor = fabs(result->factors[k]);
        for (int32_t j = 0; j < result->load_counts[list]; j++) {
            const trivet__span_load *const load = &result->loads[plan->load_starts[list] + j];
            const double half = 0.5 * (load->to - load->from);
            for (int i = 0; i < 3; i++) {
                force[i] +=
                    factor * (load->is_point ? fabs(load->first[i])
                                             : half * (fabs(load->first[i]) + fabs(load->last[i])));
                moment[i] += load->is_point ? factor * fabs(load->last[i]) : 0.0;
            }
        }
    }
}

static inline double larger_of(double one, double other)
{
    return one > other ? one : other;
}

void trivet__span_bounds(const trivet_result *result, int32_t in_case, int32_t span,
                         double most_out[6])
{
    const trivet_plan *const plan = result->plan;
    const double *const first =
        result->span_ends + 12 * ((ptrdiff_t)in_case * plan->span_count + span);
    const double *const last = first + 6;
    double force[3] = {0.0, 0.0, 0.0};
    double moment[3] = {0.0, 0.0, 0.0};
    add_loads(result, in_case, span, force, moment);
    const double quarter = 0.25 * result->spans[span].length;
    const double bending[3] = {0.0, quarter * force[2], quarter * force[1]};
    double sum = 0.0;
    for (int i = 0; i < 3; i++) {
        const double both = fabs(first[i]) + fabs(last[i]) + force[i];
        const double turned = fabs(first[3 + i]) + fabs(last[3 + i]);
        /* Without loads both ends are the same force but for rounding. */
        most_out[i] = larger_of(0.5 * both, larger_of(fabs(first[i]), fabs(last[i])));
        most_out[3 + i] = larger_of(fabs(first[3 + i]), fabs(last[3 + i])) + bending[i] + moment[i];
        sum += both + turned;
    }
    if (!(sum < HUGE_VAL)) {
        most_out[0] = sum; /* what is no number somewhere is none here */
    }
}
