/*
 * What is varied, once it has been read: the values of a variant.
 */
#include "sweep/vary.h"

#include "base/memory.h"

static void clear_column(trivet__column *column)
{
    for (int32_t i = 0; i < column->of_count; i++) {
        trivet__give_back(column->of[i]);
    }
    trivet__give_back(column->of);
    trivet__give_back(column->name);
    trivet__give_back(column->target);
    trivet__give_back(column->choices);
    trivet__give_back(column->catalogue);
    trivet__give_back(column->catalogue_name);
    trivet__give_back(column->values);
}

void trivet__vary_clear(trivet__vary *vary)
{
    for (int32_t i = 0; i < vary->column_count; i++) {
        clear_column(&vary->columns[i]);
    }
    trivet__pool_clear(&vary->pool);
    *vary = (trivet__vary){0};
}

static double coordinate(const trivet__vary *vary, int64_t number, int32_t axis)
{
    return vary->sampling == TRIVET__SOBOL ? trivet__sobol(number, axis)
                                           : trivet__latin(number, vary->count, axis, vary->seed);
}

void trivet__vary_values(const trivet__vary *vary, int64_t number, double *values_out)
{
    int64_t rest = number;
    for (int32_t a = vary->axis_count - 1; a >= 0; a--) {
        const trivet__axis *const axis = &vary->axes[a];
        int64_t index = rest % axis->count;
        rest /= axis->count;
        if (vary->sampling != TRIVET__GRID) {
            const double at = coordinate(vary, number, a);
            if (axis->is_range) {
                values_out[axis->first_column] = axis->from + (axis->to - axis->from) * at;
                continue;
            }
            index = (int64_t)(at * (double)axis->count);
        }
        for (int32_t c = axis->first_column; c < axis->first_column + axis->column_count; c++) {
            values_out[c] = vary->columns[c].values[index];
        }
    }
}
