/*
 * Every call of LAPACK in the library. Column-major _work functions only: they neither allocate
 * nor read the environment. They look at nothing either, and LAPACK answers a bad argument by a
 * line on standard output; so sizes and finiteness are made sure of here, before the call, and a
 * negative info is a mistake of ours.
 *
 * Method and names: LAPACK Users' Guide, 3rd edition, SIAM 1999.
 */
#include "numerics/lapack.h"
#include "numerics/numerics.h"

#include <assert.h>
#include <lapacke.h>
#include <math.h>

_Static_assert(sizeof(lapack_int) == 4, "the 32-bit interface of LAPACK is needed");

/* Whether LAPACK may be asked at all. A size of 0 may not: a leading dimension must be positive. */
static int is_worth_a_call(int32_t size, int32_t reach)
{
    assert(size >= 0 && reach >= 0 && reach < INT32_MAX);
    return size > 0 && reach >= 0 && reach < INT32_MAX;
}

/* A factor has a positive, finite diagonal; where products overflowed, LAPACK does not notice. */
static int32_t first_bad_pivot(int32_t size, int32_t reach, const double *factor)
{
    const size_t step = (size_t)reach + 1;
    for (int32_t j = 0; j < size; j++) {
        const double pivot = factor[(size_t)j * step];
        if (!(pivot > 0.0) || !isfinite(pivot)) {
            return j + 1;
        }
    }
    return 0;
}

int32_t trivet__band_factor(int32_t size, int32_t reach, double *band)
{
    if (!is_worth_a_call(size, reach)) {
        return 0;
    }
    if (!trivet__band_is_finite(size, reach, band)) {
        return -1;
    }
    const lapack_int info =
        LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', size, reach, band, reach + 1);
    assert(info >= 0);
    return info != 0 ? info : first_bad_pivot(size, reach, band);
}

void trivet__band_solve(int32_t size, int32_t reach, const double *factor, int32_t columns,
                        double *values)
{
    assert(columns >= 0);
    if (!is_worth_a_call(size, reach) || columns <= 0) {
        return;
    }
    const lapack_int info = LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', size, reach, columns, factor,
                                                reach + 1, values, size);
    assert(info == 0);
    (void)info;
}

double trivet__band_condition(int32_t size, int32_t reach, const double *factor, double norm,
                              double *scratch, int32_t *whole)
{
    if (!is_worth_a_call(size, reach)) {
        return 1.0;
    }
    if (!(norm > 0.0) || !isfinite(norm) || !trivet__band_is_finite(size, reach, factor) ||
        first_bad_pivot(size, reach, factor) != 0) {
        return HUGE_VAL;
    }
    double reciprocal = 0.0;
    const lapack_int info = LAPACKE_dpbcon_work(LAPACK_COL_MAJOR, 'L', size, reach, factor,
                                                reach + 1, norm, &reciprocal, scratch, whole);
    assert(info >= 0);
    return info == 0 && reciprocal > 0.0 ? 1.0 / reciprocal : HUGE_VAL;
}

size_t trivet__thin_svd_work(int32_t rows, int32_t columns)
{
    /* Description of DGESVD: LWORK >= MAX(1, 3*MIN(M,N) + MAX(M,N), 5*MIN(M,N)). */
    const size_t less = (size_t)(rows < columns ? rows : columns);
    const size_t more = (size_t)(rows < columns ? columns : rows);
    const size_t one = 3 * less + more;
    const size_t other = 5 * less;
    const size_t work = one > other ? one : other;
    return work > 1 ? work : 1;
}

int32_t trivet__thin_svd(int32_t rows, int32_t columns, double *matrix, double *u_out,
                         double *s_out, double *vt_out, double *work)
{
    const size_t work_size = trivet__thin_svd_work(rows, columns);
    assert(rows > 0 && columns > 0 && work_size <= INT32_MAX);
    const lapack_int less = rows < columns ? rows : columns;
    const lapack_int info =
        LAPACKE_dgesvd_work(LAPACK_COL_MAJOR, 'S', 'S', rows, columns, matrix, rows, s_out, u_out,
                            rows, vt_out, less, work, (lapack_int)work_size);
    assert(info >= 0);
    return info;
}
