/*
 * Matrices in tiles: where entries stand, factor, solution. LAPACK's band routines (dpbtrf, dpbtrs)
 * are the referees.
 *
 * Random matrices have a diagonal of 4 and off-diagonals of a row that sum to less than 2, so by
 * Gershgorin all eigenvalues lie in (2, 6) and the condition number is below 3.
 */
#include "numerics/numerics.h"
#include "numerics/tiles.h"
#include "support/dice.h"
#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>
#include <string.h>

enum { SIZE_MOST = 400, REACH_MOST = 61, COLUMNS_MOST = 32 };

typedef struct matrix {
    int32_t size, reach;
    trivet__tiles tiles;
    int32_t firsts[SIZE_MOST];
    int32_t starts[SIZE_MOST + 1];
    int32_t lowest[SIZE_MOST];
    int32_t rows[SIZE_MOST];
    int32_t columns[SIZE_MOST];
    double *entries;
    double *inverses;
    double *band;
} matrix;

/* 32 bytes apart, as the library's own blocks are. */
static double *take_doubles(size_t count)
{
    double *const taken = aligned_alloc(32, (count * sizeof(double) + 31) / 32 * 32);
    ck_assert_ptr_nonnull(taken);
    memset(taken, 0, count * sizeof *taken);
    return taken;
}

static double *entry(const matrix *of, int32_t i, int32_t j)
{
    return &of->entries[of->rows[i] + of->columns[j]];
}

static double *band_entry(const matrix *of, int32_t i, int32_t j)
{
    return &of->band[(i - j) + j * (of->reach + 1)];
}

/* Row i reaches back to lowest[i], at most reach below it. */
static matrix *new_matrix(int32_t size, int32_t reach, dice *d, int is_full)
{
    matrix *const of = calloc(1, sizeof *of);
    ck_assert_ptr_nonnull(of);
    of->size = size;
    of->reach = reach;
    of->tiles.firsts = of->firsts;
    of->tiles.starts = of->starts;
    for (int32_t i = 0; i < size; i++) {
        const int32_t most = i < reach ? i : reach;
        of->lowest[i] = i - (is_full ? most : dice_below(d, most + 1));
    }
    ck_assert_int_eq(trivet__tile_shape(size, of->lowest, &of->tiles), 0);
    trivet__tile_places(size, &of->tiles, of->rows, of->columns);
    const size_t tiles = (size_t)of->starts[of->tiles.count];
    of->entries = take_doubles(TRIVET__TILE_ENTRIES * tiles);
    of->inverses = take_doubles(TRIVET__TILE * (size_t)of->tiles.count);
    of->band = take_doubles((size_t)size * (size_t)(reach + 1));
    return of;
}

static void free_matrix(matrix *of)
{
    free(of->entries);
    free(of->inverses);
    free(of->band);
    free(of);
}

static void set_entry(const matrix *of, int32_t i, int32_t j, double value)
{
    *entry(of, i, j) = value;
    *band_entry(of, i, j) = value;
}

static void fill_matrix(const matrix *of, dice *d)
{
    trivet__tiles_clear(of->size, &of->tiles, of->entries);
    memset(of->band, 0, (size_t)of->size * (size_t)(of->reach + 1) * sizeof *of->band);
    for (int32_t i = 0; i < of->size; i++) {
        for (int32_t j = of->lowest[i]; j < i; j++) {
            set_entry(of, i, j, dice_between(d, -1.0, 1.0) / of->reach);
        }
        set_entry(of, i, i, 4.0);
    }
}

static int32_t factor_tiles(const matrix *of)
{
    return trivet__tiles_factor(&of->tiles, of->entries, of->inverses);
}

/* Each of L's and D's entries is off by at most its number of products, times the condition. */
static double rounding_of(const matrix *of)
{
    return 2.0 * 2.0 * (of->reach + 2.0) * 3.0 * DBL_EPSILON;
}

static void compare_factors(const matrix *of)
{
    ck_assert_int_eq(trivet__band_factor(of->size, of->reach, of->band), 0);
    for (int32_t j = 0; j < of->size; j++) {
        const double root = *band_entry(of, j, j);
        near_relative(*entry(of, j, j), root * root, rounding_of(of));
        near_relative(of->inverses[j], 1.0 / (root * root), rounding_of(of));
        for (int32_t i = j + 1; i < of->size && i <= j + of->reach; i++) {
            const int is_there = j / TRIVET__TILE >= of->firsts[i / TRIVET__TILE];
            near_scaled(is_there ? *entry(of, i, j) * root : 0.0, *band_entry(of, i, j),
                        rounding_of(of), 2.0);
        }
    }
}

/* A right side of at most 1 gives at most 1 / (4 - 2). */
static void compare_solutions(const matrix *of, int32_t columns, dice *d)
{
    const size_t padded = TRIVET__TILE * (size_t)of->tiles.count;
    double *const rows = take_doubles(padded * (size_t)columns);
    double *const packed = take_doubles((size_t)of->size * (size_t)columns);
    for (int32_t c = 0; c < columns; c++) {
        for (int32_t k = 0; k < of->size; k++) {
            packed[c * of->size + k] = rows[k * columns + c] = dice_between(d, -1.0, 1.0);
        }
    }
    trivet__tiles_solve(&of->tiles, of->entries, of->inverses, columns, rows);
    trivet__band_solve(of->size, of->reach, of->band, columns, packed);
    for (int32_t c = 0; c < columns; c++) {
        for (int32_t k = 0; k < of->size; k++) {
            near_scaled(rows[k * columns + c], packed[c * of->size + k], rounding_of(of), 0.5);
        }
    }
    for (size_t k = (size_t)of->size * (size_t)columns; k < padded * (size_t)columns; k++) {
        ck_assert(rows[k] == 0.0); /* rows beyond the size stay what they were */
    }
    free(rows);
    free(packed);
}

START_TEST(factor_and_solutions_are_those_of_lapack)
{
    static const int32_t sizes[] = {1, 2, 3, 4, 5, 7, 8, 9, 16, 17, 31, 60, 101, 255, SIZE_MOST};
    static const int32_t reaches[] = {0, 1, 3, 5, 17, 23, REACH_MOST};
    enum { SIZES = sizeof sizes / sizeof *sizes, REACHES = sizeof reaches / sizeof *reaches };
    dice d = dice_new(1);
    for (int k = 0; k < 2 * SIZES * REACHES; k++) {
        matrix *const of = new_matrix(sizes[k / 2 % SIZES], reaches[k / 2 / SIZES], &d, k % 2);
        fill_matrix(of, &d);
        ck_assert_int_eq(factor_tiles(of), 0);
        compare_factors(of);
        for (int32_t columns = 4; columns <= COLUMNS_MOST; columns += 4 + 8 * (of->size > 60)) {
            compare_solutions(of, columns, &d);
        }
        free_matrix(of);
    }
}
END_TEST

START_TEST(every_size_to_a_hundred_is_solved)
{
    dice d = dice_new(2);
    for (int32_t size = 1; size <= 100; size++) {
        matrix *const of = new_matrix(size, 1 + 2 * dice_below(&d, 12), &d, 0);
        fill_matrix(of, &d);
        ck_assert_int_eq(factor_tiles(of), 0);
        compare_factors(of);
        compare_solutions(of, 4 * (1 + dice_below(&d, 6)), &d);
        free_matrix(of);
    }
}
END_TEST

/*
 * The pivot of row k in the factor of the first k rows, less half of itself and itself: what is
 * left of the leading minor changes its sign, by far more than rounding.
 */
START_TEST(first_minor_that_is_not_positive_is_the_one_of_lapack)
{
    enum { TIMES = 300 };
    dice d = dice_new(3);
    for (int k = 0; k < TIMES; k++) {
        const int32_t size = 1 + dice_below(&d, 120);
        matrix *const of = new_matrix(size, 1 + dice_below(&d, 25), &d, dice_below(&d, 2));
        const dice same = d;
        fill_matrix(of, &d);
        ck_assert_int_eq(factor_tiles(of), 0);
        const int32_t bad = dice_below(&d, size);
        const double pivot = *entry(of, bad, bad);
        dice again = same;
        fill_matrix(of, &again);
        set_entry(of, bad, bad, 4.0 - 1.5 * pivot);
        ck_assert_int_eq(factor_tiles(of), bad + 1);
        ck_assert_int_eq(trivet__band_factor(size, of->reach, of->band), bad + 1);
        free_matrix(of);
    }
}
END_TEST

START_TEST(zero_is_no_pivot)
{
    dice d = dice_new(4);
    matrix *const of = new_matrix(6, 2, &d, 1);
    fill_matrix(of, &d);
    for (int32_t j = 0; j < 3; j++) {
        *entry(of, 3, j) = 0.0;
    }
    *entry(of, 3, 3) = 0.0;
    ck_assert_int_eq(factor_tiles(of), 4);
    free_matrix(of);
}
END_TEST

/* Wherever it stands in a row, that row's pivot is not a positive number any more. */
START_TEST(entries_that_are_not_finite_fail_in_their_row)
{
    enum { SIZE = 13, REACH = 6 };
    const double bad[] = {nan(""), HUGE_VAL, -HUGE_VAL};
    dice d = dice_new(5);
    matrix *const of = new_matrix(SIZE, REACH, &d, 1);
    for (int32_t i = 0; i < SIZE; i++) {
        for (int32_t j = of->lowest[i]; j <= i; j++) {
            for (int k = 0; k < 3; k++) {
                fill_matrix(of, &d);
                *entry(of, i, j) = bad[k];
                ck_assert_int_eq(factor_tiles(of), i + 1);
            }
        }
    }
    free_matrix(of);
}
END_TEST

/* L of rows (1), (1 1), (0 1 1), (0 0 1 1), ... and D = 2: A has 2, then 4, beside it 2. */
START_TEST(small_factor_is_exact)
{
    enum { SIZE = 6 };
    dice d = dice_new(6);
    matrix *const of = new_matrix(SIZE, 1, &d, 1);
    fill_matrix(of, &d);
    for (int32_t i = 0; i < SIZE; i++) {
        set_entry(of, i, i, i == 0 ? 2.0 : 4.0);
        if (i > 0) {
            set_entry(of, i, i - 1, 2.0);
        }
    }
    ck_assert_int_eq(factor_tiles(of), 0);
    for (int32_t i = 0; i < SIZE; i++) {
        ck_assert(*entry(of, i, i) == 2.0 && of->inverses[i] == 0.5);
        ck_assert(i == 0 || *entry(of, i, i - 1) == 1.0);
    }
    free_matrix(of);
}
END_TEST

START_TEST(rows_never_begin_before_those_below_allow)
{
    /* Equation 9 reaches back to 0, so rows of tiles 0 to 2 all begin at 0; then each at itself. */
    enum { SIZE = 17 };
    int32_t lowest[SIZE];
    int32_t firsts[5];
    int32_t starts[6];
    trivet__tiles tiles = {0, firsts, starts};
    for (int32_t i = 0; i < SIZE; i++) {
        lowest[i] = i;
    }
    lowest[9] = 0;
    ck_assert_int_eq(trivet__tile_shape(SIZE, lowest, &tiles), 0);
    ck_assert_int_eq(tiles.count, 5);
    const int32_t want_firsts[5] = {0, 0, 0, 3, 4};
    const int32_t want_starts[6] = {0, 1, 3, 6, 7, 8};
    for (int k = 0; k < 5; k++) {
        ck_assert_int_eq(firsts[k], want_firsts[k]);
        ck_assert_int_eq(starts[k], want_starts[k]);
    }
    ck_assert_int_eq(starts[5], want_starts[5]);
}
END_TEST

START_TEST(nothing_has_a_factor)
{
    int32_t starts[1];
    trivet__tiles tiles = {0, NULL, starts};
    ck_assert_int_eq(trivet__tile_shape(0, NULL, &tiles), 0);
    ck_assert_int_eq(tiles.count, 0);
    ck_assert_int_eq(starts[0], 0);
    ck_assert_int_eq(trivet__tiles_factor(&tiles, NULL, NULL), 0);
    trivet__tiles_solve(&tiles, NULL, NULL, 4, NULL);
}
END_TEST

int main(void)
{
    return run_tests(
        "tiles", TESTS(factor_and_solutions_are_those_of_lapack, every_size_to_a_hundred_is_solved,
                       first_minor_that_is_not_positive_is_the_one_of_lapack, zero_is_no_pivot,
                       entries_that_are_not_finite_fail_in_their_row, small_factor_is_exact,
                       rows_never_begin_before_those_below_allow, nothing_has_a_factor));
}
