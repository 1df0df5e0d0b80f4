/*
 * Moore-Penrose inverses: by hand for small matrices; Penrose's four conditions for larger ones
 * (R. Penrose, A generalized inverse for matrices, Proc. Cambridge Phil. Soc. 51 (1955) 406).
 */
#include "numerics/numerics.h"
#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>

static double *numbers(size_t count)
{
    double *const block = calloc(count, sizeof *block);
    ck_assert_ptr_nonnull(block);
    return block;
}

static int32_t invert(int32_t rows, int32_t columns, const double *matrix, double *inverse_out)
{
    double *const scratch = numbers(trivet__inverse_scratch(rows, columns));
    const int32_t rank = trivet__pseudo_inverse(rows, columns, matrix, inverse_out, scratch);
    free(scratch);
    return rank;
}

/* out [m][n] = a [m][k] b [k][n] */
static void multiply(int32_t m, int32_t k, int32_t n, const double *a, const double *b, double *out)
{
    for (int32_t i = 0; i < m; i++) {
        for (int32_t j = 0; j < n; j++) {
            double sum = 0.0;
            for (int32_t l = 0; l < k; l++) {
                sum += a[i * k + l] * b[l * n + j];
            }
            out[i * n + j] = sum;
        }
    }
}

static void check_same(int32_t count, const double *got, const double *want, double allowed)
{
    for (int32_t k = 0; k < count; k++) {
        near_scaled(got[k], want[k], allowed, 1.0);
    }
}

static void check_symmetric(int32_t size, const double *a, double allowed)
{
    for (int32_t i = 0; i < size; i++) {
        for (int32_t j = 0; j < i; j++) {
            near_scaled(a[i * size + j], a[j * size + i], allowed, 1.0);
        }
    }
}

/* A P A = A, P A P = P, (A P)^T = A P, (P A)^T = P A; condition numbers here are below 1e3. */
static void check_penrose(int32_t rows, int32_t columns, const double *a, int32_t rank)
{
    const double allowed = 1e3 * 64.0 * DBL_EPSILON;
    const size_t m = (size_t)rows;
    const size_t n = (size_t)columns;
    double *const p = numbers(m * n);
    double *const ap = numbers(m * m);
    double *const pa = numbers(n * n);
    double *const again = numbers(m * n);
    ck_assert_int_eq(invert(rows, columns, a, p), rank);
    multiply(rows, columns, rows, a, p, ap);
    multiply(columns, rows, columns, p, a, pa);
    check_symmetric(rows, ap, allowed);
    check_symmetric(columns, pa, allowed);
    multiply(rows, rows, columns, ap, a, again);
    check_same(rows * columns, again, a, allowed);
    multiply(columns, columns, rows, pa, p, again);
    check_same(rows * columns, again, p, allowed);
    free(p);
    free(ap);
    free(pa);
    free(again);
}

START_TEST(square_matrix_gives_its_inverse)
{
    const double a[] = {2.0, 1.0, 1.0, 1.0};
    const double want[] = {1.0, -1.0, -1.0, 2.0};
    double got[4];
    ck_assert_int_eq(invert(2, 2, a, got), 2);
    check_same(4, got, want, 32.0 * DBL_EPSILON);
}
END_TEST

START_TEST(row_and_column_give_themselves_over_their_square)
{
    const double a[] = {3.0, 4.0}; /* square of the length: 25 */
    const double want[] = {3.0 / 25.0, 4.0 / 25.0};
    double got[2];
    ck_assert_int_eq(invert(1, 2, a, got), 1);
    check_same(2, got, want, 4.0 * DBL_EPSILON);
    ck_assert_int_eq(invert(2, 1, a, got), 1);
    check_same(2, got, want, 4.0 * DBL_EPSILON);
}
END_TEST

START_TEST(repeated_row_lowers_the_rank)
{
    /* one direction (1 2)(1 2)^T, its only singular value 5: the inverse is A / 25 */
    const double a[] = {1.0, 2.0, 2.0, 4.0};
    const double want[] = {0.04, 0.08, 0.08, 0.16};
    double got[4];
    ck_assert_int_eq(invert(2, 2, a, got), 1);
    check_same(4, got, want, 8.0 * DBL_EPSILON);
}
END_TEST

START_TEST(zero_matrix_gives_zeros)
{
    const double a[6] = {0.0};
    double got[6] = {1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    ck_assert_int_eq(invert(2, 3, a, got), 0);
    for (int k = 0; k < 6; k++) {
        ck_assert(got[k] == 0.0);
    }
}
END_TEST

START_TEST(singular_values_below_the_share_count_as_zero)
{
    double got[4];
    const double below[] = {1.0, 0.0, 0.0, 0.5e-10};
    ck_assert_int_eq(invert(2, 2, below, got), 1);
    ck_assert(got[0] == 1.0 && got[3] == 0.0);
    const double above[] = {1.0, 0.0, 0.0, 2e-10};
    ck_assert_int_eq(invert(2, 2, above, got), 2);
    near_relative(got[3], 0.5e10, 4.0 * DBL_EPSILON);
    const double small[] = {1e-200, 0.0, 0.0, 1e-201}; /* the share is of the largest, not of 1 */
    ck_assert_int_eq(invert(2, 2, small, got), 2);
    near_relative(got[3], 1e201, 16.0 * DBL_EPSILON);
}
END_TEST

/* Every shape from 1 by 1 to 12 by 12, and LAPACK's other ways through for 40 by 3. */
START_TEST(penrose_conditions_hold_for_all_shapes)
{
    double a[144];
    for (int32_t rows = 1; rows <= 12; rows++) {
        for (int32_t columns = 1; columns <= 12; columns++) {
            /* ones, with another slope on the diagonal: full rank, condition below 100 */
            for (int32_t k = 0; k < rows * columns; k++) {
                a[k] = 1.0 + (k / columns == k % columns ? 1.0 + k % columns : 0.0);
            }
            check_penrose(rows, columns, a, rows < columns ? rows : columns);
        }
    }
    for (int32_t k = 0; k < 120; k++) {
        a[k] = sin(k * k); /* no pattern */
    }
    check_penrose(40, 3, a, 3);
    check_penrose(3, 40, a, 3);
}
END_TEST

START_TEST(penrose_conditions_hold_below_full_rank)
{
    /* rows i, columns j: 1 + i j has rank 2 */
    double a[35];
    for (int32_t k = 0; k < 35; k++) {
        a[k] = 1.0 + (k / 5) * (k % 5);
    }
    check_penrose(7, 5, a, 2);
    for (int32_t k = 0; k < 35; k++) {
        a[k] = 1.0 + (k / 7) * (k % 7);
    }
    check_penrose(5, 7, a, 2);
}
END_TEST

START_TEST(nothing_has_rank_zero)
{
    double scratch[1];
    ck_assert_int_eq(trivet__pseudo_inverse(0, 3, NULL, NULL, scratch), 0);
    ck_assert_int_eq(trivet__pseudo_inverse(3, 0, NULL, NULL, scratch), 0);
}
END_TEST

START_TEST(entries_that_are_not_finite_are_refused)
{
    double got[2];
    const double bad[] = {1.0, nan("")};
    const double endless[] = {-HUGE_VAL, 1.0};
    ck_assert_int_eq(invert(1, 2, bad, got), -1);
    ck_assert_int_eq(invert(2, 1, endless, got), -1);
}
END_TEST

int main(void)
{
    return run_tests(
        "inverse",
        TESTS(square_matrix_gives_its_inverse, row_and_column_give_themselves_over_their_square,
              repeated_row_lowers_the_rank, zero_matrix_gives_zeros,
              singular_values_below_the_share_count_as_zero, penrose_conditions_hold_for_all_shapes,
              penrose_conditions_hold_below_full_rank, nothing_has_rank_zero,
              entries_that_are_not_finite_are_refused));
}
