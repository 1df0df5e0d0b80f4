/*
 * Sizes of what acts on spans: all that is needed to say what the forces inside stay below.
 */
#include "base/processor.h"
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

/* Sizes of all forces and all moments, by direction, of all loads of a column on a span. */
void trivet__span_load_sizes(const trivet_result *result, int32_t column, int32_t span,
                             double sizes_out[6])
{
    const trivet_plan *const plan = result->plan;
    for (int i = 0; i < 6; i++) {
        sizes_out[i] = 0.0;
    }
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        const int32_t list = plan->column_cases[k] * plan->span_count + span;
        const double factor = fabs(result->factors[k]);
        for (int32_t j = 0; j < result->load_counts[list]; j++) {
            const trivet__span_load *const load = &result->loads[plan->load_starts[list] + j];
            const double half = 0.5 * factor * (load->to - load->from);
            for (int i = 0; i < 3; i++) {
                if (load->is_point) {
                    sizes_out[i] += factor * fabs(load->first[i]);
                    sizes_out[3 + i] += factor * fabs(load->last[i]);
                } else {
                    sizes_out[i] += half * (fabs(load->first[i]) + fabs(load->last[i]));
                }
            }
        }
    }
}

/* The larger one; not a number if any was none. */
TRIVET__INSIDE double larger_of(double most, double size)
{
    return (size > most) | (size != size) ? size : most;
}

static TRIVET__WIDE void raise_to(const double *values, size_t count, double *most)
{
    for (size_t i = 0; i < count; i++) {
        most[i] = larger_of(most[i], fabs(values[i]));
    }
}

void trivet__span_sizes(const trivet_result *result, double *ends_out, double *loads_out)
{
    const trivet_plan *const plan = result->plan;
    const size_t spans = (size_t)plan->span_count;
    memset(ends_out, 0, 12 * spans * sizeof *ends_out);
    memset(loads_out, 0, 6 * spans * sizeof *loads_out);
    for (int32_t c = 0; c < plan->column_count; c++) {
        raise_to(result->span_ends + 12 * spans * (size_t)c, 12 * spans, ends_out);
        for (int32_t s = 0; s < plan->span_count; s++) {
            double sizes[6];
            trivet__span_load_sizes(result, c, s, sizes);
            for (int i = 0; i < 6; i++) {
                loads_out[6 * s + i] = larger_of(loads_out[6 * s + i], sizes[i]);
            }
        }
    }
}
