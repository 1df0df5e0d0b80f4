/*
 * Moore-Penrose inverse by singular values: A = U S V^T gives A+ = V S+ U^T (Golub and Van Loan,
 * Matrix Computations, 4th edition, section 5.5.2). Singular values below a share of the largest
 * are taken as zeros, so that a set of equations that repeats itself still has its least answer.
 */
#include "numerics/lapack.h"
#include "numerics/numerics.h"

#include <assert.h>
#include <float.h>
#include <math.h>

static const double zero_share = 1e-10;

size_t trivet__inverse_scratch(int32_t rows, int32_t columns)
{
    if (rows <= 0 || columns <= 0) {
        return 1;
    }
    const size_t m = (size_t)rows;
    const size_t n = (size_t)columns;
    const size_t less = m < n ? m : n;
    return m * n + less + m * less + less * n + trivet__thin_svd_work(columns, rows);
}

static int32_t count_rank(int32_t count, const double *s)
{
    const double limit = fmax(zero_share * s[0], DBL_MIN);
    int32_t rank = 0;
    while (rank < count && s[rank] > limit) {
        rank++;
    }
    return rank;
}

int32_t trivet__pseudo_inverse(int32_t rows, int32_t columns, const double *matrix,
                               double *inverse_out, double *scratch)
{
    assert(rows >= 0 && columns >= 0);
    if (rows <= 0 || columns <= 0) {
        return 0;
    }
    const size_t m = (size_t)rows;
    const size_t n = (size_t)columns;
    const size_t less = m < n ? m : n;

    double *const copy = scratch;
    double *const s = copy + m * n;
    double *const u = s + less;
    double *const vt = u + n * less;
    double *const work = vt + less * m;
    for (size_t i = 0; i < m * n; i++) {
        if (!isfinite(matrix[i])) {
            return -1;
        }
        copy[i] = matrix[i];
    }

    /* Rows of A are columns of A^T = U S V^T; so A+ = U S+ V^T, and no copy is turned round. */
    if (trivet__thin_svd(columns, rows, copy, u, s, vt, work) != 0) {
        return -1;
    }
    const int32_t rank = count_rank((int32_t)less, s);
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < m; j++) {
            double sum = 0.0;
            for (size_t k = 0; k < (size_t)rank; k++) {
                sum += u[i + k * n] / s[k] * vt[k + j * less];
            }
            inverse_out[i * m + j] = sum;
        }
    }
    return rank;
}
