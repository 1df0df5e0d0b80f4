/*
 * Sizes of what acts on spans: all that is needed to say what the forces inside stay below.
 */
#include "base/processor.h"
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

static void add_uneven(const trivet__span_load *load, double length, double factor,
                       double departures[6])
{
    const double half = 0.5 * (load->to - load->from);
    double W[3];
    for (int i = 0; i < 3; i++) {
        W[i] = factor * (load->is_point ? fabs(load->first[i])
                                        : half * (fabs(load->first[i]) + fabs(load->last[i])));
        departures[i] += W[i];
        departures[3 + i] += load->is_point ? factor * fabs(load->last[i]) : 0.0;
    }
    departures[4] += 0.25 * length * W[2];
    departures[5] += 0.25 * length * W[1];
}

/* Adds what the loads of a case add; 0 if one of them is not even along the whole span. */
TRIVET__INSIDE int add_departures(const trivet_result *result, int32_t list, double length,
                                  double factor, double departures[6])
{
    const trivet__span_load *const loads = result->loads + result->plan->load_starts[list];
    const double arm = 0.125 * length * length * factor;
    int is_even = 1;
    for (int32_t j = 0; j < result->load_counts[list]; j++) {
        if (loads[j].is_even) {
            departures[4] += arm * fabs(loads[j].first[2]);
            departures[5] += arm * fabs(loads[j].first[1]);
        } else {
            add_uneven(&loads[j], length, factor, departures);
            is_even = 0;
        }
    }
    return is_even;
}

int trivet__span_departures(const trivet_result *result, int32_t column, int32_t span,
                            double departures_out[6])
{
    const trivet_plan *const plan = result->plan;
    const double length = result->spans[span].length;
    int is_even = 1;
    for (int i = 0; i < 6; i++) {
        departures_out[i] = 0.0;
    }
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        const int32_t list = plan->column_cases[k] * plan->span_count + span;
        if (!add_departures(result, list, length, fabs(result->factors[k]), departures_out)) {
            is_even = 0;
        }
    }
    return is_even;
}

/* The larger one; not a number if any was none. */
TRIVET__INSIDE double larger_of(double most, double size)
{
    return ((size > most) | (size != size)) ? size : most;
}

static TRIVET__WIDE void raise_to(const double *values, size_t count, double *most)
{
    for (size_t i = 0; i < count; i++) {
        most[i] = larger_of(most[i], fabs(values[i]));
    }
}

/* What a column of one case alone departs by. */
static void raise_departures(const trivet_result *result, int32_t k, double *most)
{
    const trivet_plan *const plan = result->plan;
    const int32_t first = plan->column_cases[k] * plan->span_count;
    const double factor = fabs(result->factors[k]);
    for (int32_t s = 0; s < plan->span_count; s++) {
        double departures[6] = {0.0};
        if (result->load_counts[first + s] == 0) {
            continue;
        }
        add_departures(result, first + s, result->spans[s].length, factor, departures);
        for (int i = 0; i < 6; i++) {
            most[6 * s + i] = larger_of(most[6 * s + i], departures[i]);
        }
    }
}

void trivet__span_sizes(const trivet_result *result, double *ends_out, double *departures_out)
{
    const trivet_plan *const plan = result->plan;
    const size_t spans = (size_t)plan->span_count;
    memset(ends_out, 0, 12 * spans * sizeof *ends_out);
    memset(departures_out, 0, 6 * spans * sizeof *departures_out);
    for (int32_t c = 0; c < plan->column_count; c++) {
        const int32_t k = plan->column_starts[c];
        raise_to(result->span_ends + 12 * spans * (size_t)c, 12 * spans, ends_out);
        if (plan->column_starts[c + 1] - k == 1) {
            raise_departures(result, k, departures_out);
            continue;
        }
        for (int32_t s = 0; s < plan->span_count; s++) {
            double departures[6];
            trivet__span_departures(result, c, s, departures);
            for (int i = 0; i < 6; i++) {
                departures_out[6 * s + i] = larger_of(departures_out[6 * s + i], departures[i]);
            }
        }
    }
}
