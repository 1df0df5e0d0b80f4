/*
 * What numerics/ itself needs of LAPACK beyond numerics.h.
 */
#ifndef TRIVET_NUMERICS_LAPACK_H
#define TRIVET_NUMERICS_LAPACK_H

#include <stddef.h>
#include <stdint.h>

/* Whether every entry of a symmetric band matrix is finite; corners outside it are not looked at.
 */
int trivet__band_is_finite(int32_t size, int32_t reach, const double *band);

/* Work doubles of trivet__thin_svd. */
size_t trivet__thin_svd_work(int32_t rows, int32_t columns);

/*
 * matrix = U diag(s) V^T, all by columns, p = min(rows, columns): u_out [rows by p], s_out [p]
 * falling, vt_out [p by columns]. rows and columns at least 1, entries finite; matrix is
 * overwritten. Returns 0, or the number of values that did not converge.
 */
int32_t trivet__thin_svd(int32_t rows, int32_t columns, double *matrix, double *u_out,
                         double *s_out, double *vt_out, double *work);

#endif
