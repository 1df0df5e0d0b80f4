/*
 * Symmetric band matrices without factoring: product, norm, finiteness. Plain loops on purpose:
 * the order of additions is then the same for any number of BLAS threads.
 */
#include "base/processor.h"
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

/*
 * Columns travel in groups of fixed width, so that the compiler unrolls the inner loops and enough
 * sums are under way at a time to hide the delay of each. Small inline copies for three widths.
 */
enum { STEP = 4, WIDEST = 12 };

/* x[i] = (b[i] - sum over j of L[i][j] x[j]) / L[i][i], i rising. */
static inline void solve_lower(int32_t size, int32_t reach, const double *restrict factor,
                               int32_t columns, double *restrict values, int width)
{
    const ptrdiff_t stride = reach + 1;
    for (int32_t i = 0; i < size; i++) {
        const int32_t first = i > reach ? i - reach : 0;
        double *const own = values + (ptrdiff_t)i * columns;
        double sum[WIDEST];
        for (int k = 0; k < width; k++) {
            sum[k] = own[k];
        }
        for (int32_t j = first; j < i; j++) {
            const double entry = factor[(i - j) + j * stride];
            const double *const other = values + (ptrdiff_t)j * columns;
            for (int k = 0; k < width; k++) {
                sum[k] -= entry * other[k];
            }
        }
        const double scale = 1.0 / factor[i * stride];
        for (int k = 0; k < width; k++) {
            own[k] = sum[k] * scale;
        }
    }
}

/* The same with the transposed factor, i falling. */
static inline void solve_upper(int32_t size, int32_t reach, const double *restrict factor,
                               int32_t columns, double *restrict values, int width)
{
    const ptrdiff_t stride = reach + 1;
    for (int32_t i = size - 1; i >= 0; i--) {
        const int32_t last = size - 1 - i > reach ? i + reach : size - 1;
        const double *const column = factor + i * stride;
        double *const own = values + (ptrdiff_t)i * columns;
        double sum[WIDEST];
        for (int k = 0; k < width; k++) {
            sum[k] = own[k];
        }
        for (int32_t j = i + 1; j <= last; j++) {
            const double *const other = values + (ptrdiff_t)j * columns;
            for (int k = 0; k < width; k++) {
                sum[k] -= column[j - i] * other[k];
            }
        }
        const double scale = 1.0 / column[0];
        for (int k = 0; k < width; k++) {
            own[k] = sum[k] * scale;
        }
    }
}

TRIVET__WIDE
static void solve_four(int32_t size, int32_t reach, const double *factor, int32_t columns,
                       double *values)
{
    solve_lower(size, reach, factor, columns, values, STEP);
    solve_upper(size, reach, factor, columns, values, STEP);
}

TRIVET__WIDE
static void solve_eight(int32_t size, int32_t reach, const double *factor, int32_t columns,
                        double *values)
{
    solve_lower(size, reach, factor, columns, values, 2 * STEP);
    solve_upper(size, reach, factor, columns, values, 2 * STEP);
}

TRIVET__WIDE
static void solve_twelve(int32_t size, int32_t reach, const double *factor, int32_t columns,
                         double *values)
{
    solve_lower(size, reach, factor, columns, values, WIDEST);
    solve_upper(size, reach, factor, columns, values, WIDEST);
}

void trivet__band_solve_rows(int32_t size, int32_t reach, const double *factor, int32_t columns,
                             double *values)
{
    assert(columns % STEP == 0);
    int32_t at = 0;
    for (; at + WIDEST <= columns; at += WIDEST) {
        solve_twelve(size, reach, factor, columns, values + at);
    }
    if (columns - at == 2 * STEP) {
        solve_eight(size, reach, factor, columns, values + at);
    } else if (columns - at == STEP) {
        solve_four(size, reach, factor, columns, values + at);
    }
}
