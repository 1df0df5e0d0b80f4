/*
 * The seam to linear algebra: orderings, band factors, near-null vectors, roots. Speaks of no
 * frame. Everything else in lib/ reaches LAPACK and BLAS through here.
 *
 * Band matrices are symmetric and store their lower triangle by columns: entry (i, j), j <= i <=
 * j + reach, stands at band[(i - j) + j * (reach + 1)].
 *
 * Nothing here allocates; scratch is handed in, its size is stated at each function.
 */
#ifndef TRIVET_NUMERICS_NUMERICS_H
#define TRIVET_NUMERICS_NUMERICS_H

#include "trivet/base.h"

#include <stddef.h>
#include <stdint.h>

/*
 * Reverse Cuthill-McKee order of a graph of count nodes: node k's neighbours are
 * neighbours[starts[k] .. starts[k + 1]). Each connected part starts at a pseudo-peripheral node
 * (George and Liu 1979). order_out[new] = old. Ties are broken by node number: same graph, same
 * order. scratch: [4 * count].
 */
void trivet__order_nodes(int32_t count, const int32_t *starts, const int32_t *neighbours,
                         int32_t *order_out, int32_t *scratch);

/*
 * Cholesky factor in place. Returns 0, or the number (from 1) of the first leading minor that is
 * not positive; then the band holds rubbish. -1: an entry is not finite (looked at before).
 */
int32_t trivet__band_factor(int32_t size, int32_t reach, double *band);

/* Solves with a factor: columns right-hand sides, each of size, next to each other, in place. */
void trivet__band_solve(int32_t size, int32_t reach, const double *factor, int32_t columns,
                        double *values);

/* 1-norm of a symmetric band matrix. scratch: [size]. */
double trivet__band_norm(int32_t size, int32_t reach, const double *band, double *scratch);

/*
 * Estimate of the condition number in the 1-norm from the factor and the norm before factoring.
 * Infinite if it cannot be told. scratch: [3 * size], whole: [size].
 */
double trivet__band_condition(int32_t size, int32_t reach, const double *factor, double norm,
                              double *scratch, int32_t *whole);

/* y = A x for a symmetric band matrix. */
void trivet__band_times(int32_t size, int32_t reach, const double *band, const double *x,
                        double *y);

enum { TRIVET__NULL_MOST = 8 };

/*
 * The vectors that a symmetric, positive semi-definite band matrix with a diagonal of ones (rows
 * with nothing in them keep a zero diagonal) sends nearest to zero: subspace iteration with the
 * matrix shifted by a little, Rayleigh-Ritz at the end. vectors_out: [most][size], orthonormal,
 * most <= TRIVET__NULL_MOST and most <= size; values_out: [most], rising, Rayleigh quotients.
 * band is overwritten. scratch: trivet__null_scratch(size, reach, most) doubles.
 * Returns 0, or -1 if the shifted matrix could not be factored.
 */
size_t trivet__null_scratch(int32_t size, int32_t reach, int32_t most);
int32_t trivet__null_vectors(int32_t size, int32_t reach, double *band, int32_t most,
                             double *vectors_out, double *values_out, double *scratch);

enum { TRIVET__DEGREE_MOST = 12 };

/*
 * Real roots of c[0] + c[1] x + ... + c[degree] x^degree in [low, high], rising, each once:
 * between neighbouring roots of the derivative a polynomial is monotone, so bisection with
 * Newton steps finds every root there (recursion unrolled: degree is at most
 * TRIVET__DEGREE_MOST). A polynomial that is zero everywhere has no roots here. Returns how many
 * were written to roots_out [degree].
 */
int32_t trivet__polynomial_roots(const double *c, int32_t degree, double low, double high,
                                 double *roots_out);

/*
 * Moore-Penrose inverse of a real matrix [rows][columns], row by row, into inverse_out
 * [columns][rows]. Singular values below 1e-10 of the largest count as zero; their number is
 * rows or columns, whichever is less, minus the rank, which is returned (-1: did not converge).
 * scratch: trivet__inverse_scratch(rows, columns) doubles.
 */
size_t trivet__inverse_scratch(int32_t rows, int32_t columns);
int32_t trivet__pseudo_inverse(int32_t rows, int32_t columns, const double *matrix,
                               double *inverse_out, double *scratch);

#endif
