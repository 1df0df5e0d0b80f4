/*
 * Band matrices: factor, solve, condition, norm, product. Expected values by hand, worked beside
 * each test.
 */
#include "numerics/numerics.h"
#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>

/*
 * A = | 4 2 0 |       | 2     |
 *     | 2 5 2 | = L L^T,  L = | 1 2   |   multiplied out by hand.
 *     | 0 2 5 |       | 0 1 2 |
 */
enum { SMALL = 3, SMALL_REACH = 1, SMALL_BAND = 6 };
static const double unused = 7e77; /* stands in the corner that is not part of the matrix */
static const double small_matrix[SMALL_BAND] = {4.0, 2.0, 5.0, 2.0, 5.0, 7e77};

static void copy_numbers(int count, const double *from, double *to)
{
    for (int k = 0; k < count; k++) {
        to[k] = from[k];
    }
}

START_TEST(factor_of_three_rows_is_exact)
{
    double band[SMALL_BAND];
    copy_numbers(SMALL_BAND, small_matrix, band);
    ck_assert_int_eq(trivet__band_factor(SMALL, SMALL_REACH, band), 0);
    const double want[SMALL_BAND] = {2.0, 1.0, 2.0, 1.0, 2.0, unused};
    for (int k = 0; k < SMALL_BAND; k++) {
        ck_assert(band[k] == want[k]); /* square roots of squares: no rounding anywhere */
    }
}
END_TEST

START_TEST(two_columns_are_solved_at_once)
{
    double band[SMALL_BAND];
    copy_numbers(SMALL_BAND, small_matrix, band);
    ck_assert_int_eq(trivet__band_factor(SMALL, SMALL_REACH, band), 0);
    /* A (1 2 3) = (4+4, 2+10+6, 4+15);  A (-1 0 2) = (-4, -2+4, 10) */
    double values[6] = {8.0, 18.0, 19.0, -4.0, 2.0, 10.0};
    trivet__band_solve(SMALL, SMALL_REACH, band, 2, values);
    const double want[6] = {1.0, 2.0, 3.0, -1.0, 0.0, 2.0};
    for (int k = 0; k < 6; k++) {
        near_scaled(values[k], want[k], 16.0 * DBL_EPSILON, 3.0);
    }
}
END_TEST

START_TEST(product_uses_both_triangles)
{
    const double x[SMALL] = {1.0, 2.0, 3.0};
    double y[SMALL];
    trivet__band_times(SMALL, SMALL_REACH, small_matrix, x, y);
    ck_assert(y[0] == 8.0 && y[1] == 18.0 && y[2] == 19.0);
}
END_TEST

/* Rows of 13 entries: longer than the product's four running sums. Full matrix of i + j + 1. */
START_TEST(product_of_a_full_matrix_is_exact)
{
    enum { SIZE = 13, REACH = SIZE - 1 };
    double band[SIZE * (REACH + 1)];
    for (int j = 0; j < SIZE; j++) {
        for (int k = 0; k <= REACH; k++) {
            band[k + j * (REACH + 1)] = j + k < SIZE ? 2.0 * j + k + 1.0 : unused;
        }
    }
    double x[SIZE];
    double y[SIZE];
    for (int j = 0; j < SIZE; j++) {
        x[j] = 1.0;
    }
    trivet__band_times(SIZE, REACH, band, x, y);
    for (int i = 0; i < SIZE; i++) {
        /* sum of i + j + 1 over j = 0 .. 12 is 13 (i + 1) + 78 */
        ck_assert(y[i] == 13.0 * (i + 1) + 78.0);
    }
}
END_TEST

START_TEST(norm_is_the_largest_sum_of_a_column)
{
    double scratch[SMALL];
    /* columns: 4+2, 2+5+2, 2+5 */
    ck_assert(trivet__band_norm(SMALL, SMALL_REACH, small_matrix, scratch) == 9.0);
    const double negative[4] = {-1.0, -3.0, 2.0, unused};
    ck_assert(trivet__band_norm(2, 1, negative, scratch) == 5.0);
    const double not_a_number[4] = {1.0, 0.0 * HUGE_VAL, 1.0, unused};
    ck_assert(isnan(trivet__band_norm(2, 1, not_a_number, scratch)));
}
END_TEST

START_TEST(condition_of_two_rows)
{
    /* |2 1; 1 2| has norm 3; its inverse |2 -1; -1 2| / 3 has norm 1. */
    double band[4] = {2.0, 1.0, 2.0, unused};
    double scratch[6];
    int32_t whole[2];
    const double norm = trivet__band_norm(2, 1, band, scratch);
    ck_assert_int_eq(trivet__band_factor(2, 1, band), 0);
    near_relative(trivet__band_condition(2, 1, band, norm, scratch, whole), 3.0,
                  16.0 * DBL_EPSILON);
    /* diag(1, 4^-10): 4^10 */
    double diagonal[2] = {1.0, 0x1p-20};
    ck_assert_int_eq(trivet__band_factor(2, 0, diagonal), 0);
    near_relative(trivet__band_condition(2, 0, diagonal, 1.0, scratch, whole), 0x1p20,
                  16.0 * DBL_EPSILON);
}
END_TEST

START_TEST(condition_that_cannot_be_told_is_infinite)
{
    double scratch[6];
    int32_t whole[2];
    const double fine[2] = {1.0, 1.0};
    const double zero[2] = {1.0, 0.0};
    const double endless[2] = {1.0, HUGE_VAL};
    const double norms[] = {0.0, -1.0, HUGE_VAL, nan("")};
    for (int k = 0; k < 4; k++) {
        ck_assert(trivet__band_condition(2, 0, fine, norms[k], scratch, whole) == HUGE_VAL);
    }
    ck_assert(trivet__band_condition(2, 0, zero, 1.0, scratch, whole) == HUGE_VAL);
    ck_assert(trivet__band_condition(2, 0, endless, 1.0, scratch, whole) == HUGE_VAL);
}
END_TEST

START_TEST(sizes_of_nothing_and_one_work)
{
    double one = 9.0;
    double value = 6.0;
    double scratch[3];
    int32_t whole = 0;
    ck_assert_int_eq(trivet__band_factor(0, 0, NULL), 0);
    ck_assert_int_eq(trivet__band_factor(0, 5, NULL), 0);
    trivet__band_solve(0, 3, NULL, 1, NULL);
    trivet__band_times(0, 3, NULL, NULL, NULL);
    ck_assert(trivet__band_norm(0, 3, NULL, scratch) == 0.0);
    ck_assert(trivet__band_condition(0, 3, NULL, 0.0, scratch, &whole) == 1.0);

    ck_assert_int_eq(trivet__band_factor(1, 0, &one), 0);
    ck_assert(one == 3.0);
    trivet__band_solve(1, 0, &one, 0, NULL); /* no columns */
    trivet__band_solve(1, 0, &one, 1, &value);
    near_relative(value, 6.0 / 9.0, 4.0 * DBL_EPSILON);
    near_relative(trivet__band_condition(1, 0, &one, 9.0, scratch, &whole), 1.0, 4.0 * DBL_EPSILON);
}
END_TEST

START_TEST(reach_may_pass_the_size)
{
    double band[12] = {4.0, 2.0, unused, unused, unused, unused, 5.0, unused};
    ck_assert_int_eq(trivet__band_factor(2, 5, band), 0);
    ck_assert(band[0] == 2.0 && band[1] == 1.0 && band[6] == 2.0);
    double values[2] = {4.0 - 2.0, 2.0 - 5.0}; /* A (1 -1) */
    trivet__band_solve(2, 5, band, 1, values);
    near_relative(values[0], 1.0, 8.0 * DBL_EPSILON);
    near_relative(values[1], -1.0, 8.0 * DBL_EPSILON);
}
END_TEST

START_TEST(first_minor_that_is_not_positive_is_named)
{
    double zero[1] = {0.0};
    ck_assert_int_eq(trivet__band_factor(1, 0, zero), 1);
    double second[4] = {1.0, 2.0, 1.0, unused}; /* 1 * 1 - 2 * 2 = -3 */
    ck_assert_int_eq(trivet__band_factor(2, 1, second), 2);
    double third[SMALL_BAND];
    copy_numbers(SMALL_BAND, small_matrix, third);
    third[4] = 1.0; /* from L: 1 - 1 * 1 = 0 */
    ck_assert_int_eq(trivet__band_factor(SMALL, SMALL_REACH, third), 3);
    double overflow[4] = {1.0, 1e200, 1.0, unused}; /* 1 - 1e400 */
    ck_assert_int_eq(trivet__band_factor(2, 1, overflow), 2);
}
END_TEST

/* LAPACK takes wide bands in blocks; the number must be that of the whole matrix all the same. */
START_TEST(minor_is_named_in_a_wide_band)
{
    enum { SIZE = 200, REACH = 70, BAD = 150 };
    double *const band = calloc((size_t)SIZE * (REACH + 1), sizeof *band);
    ck_assert_ptr_nonnull(band);
    for (int j = 0; j < SIZE; j++) {
        for (int k = 1; k <= REACH; k++) {
            band[k + j * (REACH + 1)] = 1.0;
        }
        band[j * (REACH + 1)] = 2.0 * REACH + 1.0; /* more than the rest of the row */
    }
    band[(BAD - 1) * (REACH + 1)] = -1.0;
    ck_assert_int_eq(trivet__band_factor(SIZE, REACH, band), BAD);
    free(band);
}
END_TEST

START_TEST(entries_that_are_not_finite_are_refused)
{
    const double bad[] = {nan(""), HUGE_VAL, -HUGE_VAL};
    for (int place = 0; place < SMALL_BAND - 1; place++) {
        for (int k = 0; k < 3; k++) {
            double band[SMALL_BAND];
            copy_numbers(SMALL_BAND, small_matrix, band);
            band[place] = bad[k];
            ck_assert_int_eq(trivet__band_factor(SMALL, SMALL_REACH, band), -1);
        }
    }
    double corner[SMALL_BAND];
    copy_numbers(SMALL_BAND, small_matrix, corner);
    corner[SMALL_BAND - 1] = nan(""); /* not part of the matrix */
    ck_assert_int_eq(trivet__band_factor(SMALL, SMALL_REACH, corner), 0);
}
END_TEST

/*
 * Rows -1 2 -1 with right-hand sides 1: x_i = i (n + 1 - i) / 2, since the second difference of
 * that parabola is -1 and it vanishes at 0 and n + 1. The condition number in the 1-norm is
 * 4 max(x) = (n + 1)^2 / 2 for odd n, because the inverse has no negative entries.
 */
START_TEST(chain_of_springs_hangs_in_a_parabola)
{
    enum { SIZE = 301, REACH = 1 };
    static double band[SIZE * (REACH + 1)];
    static double values[SIZE];
    static double scratch[3 * SIZE];
    static int32_t whole[SIZE];
    for (int j = 0; j < SIZE; j++) {
        band[2 * j] = 2.0;
        band[2 * j + 1] = -1.0;
        values[j] = 1.0;
    }
    const double norm = trivet__band_norm(SIZE, REACH, band, scratch);
    ck_assert(norm == 4.0);
    ck_assert_int_eq(trivet__band_factor(SIZE, REACH, band), 0);
    trivet__band_solve(SIZE, REACH, band, 1, values);
    const double condition = (SIZE + 1.0) * (SIZE + 1.0) / 2.0;
    for (int i = 1; i <= SIZE; i++) {
        near_scaled(values[i - 1], i * (SIZE + 1.0 - i) / 2.0, 8.0 * DBL_EPSILON * condition,
                    condition / 4.0);
    }
    near_relative(trivet__band_condition(SIZE, REACH, band, norm, scratch, whole), condition,
                  8.0 * DBL_EPSILON * condition);
}
END_TEST

int main(void)
{
    return run_tests("band",
                     TESTS(factor_of_three_rows_is_exact, two_columns_are_solved_at_once,
                           product_uses_both_triangles, product_of_a_full_matrix_is_exact,
                           norm_is_the_largest_sum_of_a_column, condition_of_two_rows,
                           condition_that_cannot_be_told_is_infinite, sizes_of_nothing_and_one_work,
                           reach_may_pass_the_size, first_minor_that_is_not_positive_is_named,
                           minor_is_named_in_a_wide_band, entries_that_are_not_finite_are_refused,
                           chain_of_springs_hangs_in_a_parabola));
}
