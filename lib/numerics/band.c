/*
 * Symmetric band matrices without factoring: product, norm, finiteness. Plain loops on purpose:
 * the order of additions is then the same for any number of BLAS threads.
 */
#include "numerics/lapack.h"
#include "numerics/numerics.h"

#include <assert.h>
#include <math.h>

/* How many entries column j has below its diagonal. */
static int32_t entries_below(int32_t size, int32_t reach, int32_t j)
{
    const int32_t left = size - 1 - j;
    return left < reach ? left : reach;
}

int trivet__band_is_finite(int32_t size, int32_t reach, const double *band)
{
    const size_t step = (size_t)reach + 1;
    for (int32_t j = 0; j < size; j++) {
        const double *const column = band + (size_t)j * step;
        const int32_t below = entries_below(size, reach, j);
        /* 0 * x is 0 for a finite x and not-a-number otherwise: no branch in the loop. */
        double sum = 0.0;
        for (int32_t k = 0; k <= below; k++) {
            sum += 0.0 * column[k];
        }
        if (!(sum == 0.0)) {
            return 0;
        }
    }
    return 1;
}

double trivet__band_norm(int32_t size, int32_t reach, const double *band, double *scratch)
{
    assert(size >= 0 && reach >= 0);
    const size_t step = (size_t)reach + 1;
    for (int32_t j = 0; j < size; j++) {
        scratch[j] = 0.0;
    }
    for (int32_t j = 0; j < size; j++) {
        const double *const column = band + (size_t)j * step;
        const int32_t below = entries_below(size, reach, j);
        double sum = fabs(column[0]);
        for (int32_t k = 1; k <= below; k++) {
            const double entry = fabs(column[k]);
            sum += entry;
            scratch[j + k] += entry;
        }
        scratch[j] += sum;
    }
    double norm = 0.0;
    for (int32_t j = 0; j < size; j++) {
        if (!(scratch[j] <= norm)) {
            norm = scratch[j];
        }
        if (isnan(norm)) {
            return norm;
        }
    }
    return norm;
}

/* sum of a[k] b[k] in four running sums, which the compiler can keep side by side. */
static double dot_of_four(int32_t count, const double *a, const double *b)
{
    double sum[4] = {0.0, 0.0, 0.0, 0.0};
    int32_t k = 0;
    for (; k + 4 <= count; k += 4) {
        for (int32_t i = 0; i < 4; i++) {
            sum[i] += a[k + i] * b[k + i];
        }
    }
    double rest = 0.0;
    for (; k < count; k++) {
        rest += a[k] * b[k];
    }
    return ((sum[0] + sum[2]) + (sum[1] + sum[3])) + rest;
}

/* Column j's part below the diagonal works twice: down on y and, being a row too, on y[j]. */
void trivet__band_times(int32_t size, int32_t reach, const double *band, const double *x, double *y)
{
    assert(size >= 0 && reach >= 0 && (size == 0 || x != y));
    const size_t step = (size_t)reach + 1;
    for (int32_t j = 0; j < size; j++) {
        y[j] = 0.0;
    }
    for (int32_t j = 0; j < size; j++) {
        const double *restrict const column = band + (size_t)j * step;
        const int32_t below = entries_below(size, reach, j);
        double *restrict const down = y + j;
        const double pull = x[j];
        for (int32_t k = 1; k <= below; k++) {
            down[k] += column[k] * pull;
        }
        down[0] += column[0] * pull + dot_of_four(below, column + 1, x + j + 1);
    }
}
