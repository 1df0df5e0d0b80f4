/*
 * Vectors nearest to zero. The matrices are chains of springs with free ends, scaled to a diagonal
 * of ones; a chain of n masses has the eigenvalues 1 - cos(pi k / (n - 1)), k = 0 .. n - 1
 * (F. R. K. Chung, Spectral Graph Theory, 1997, example 1.4, from memory; for n = 3 by hand:
 * rows 1 -s 0, -s 1 -s, 0 -s 1 with s = sqrt(1/2) have 0, 1, 2).
 */
#include "numerics/numerics.h"
#include "support/near.h"
#include "support/run.h"

#include <stdlib.h>
#include <string.h>

static const double pi = 3.14159265358979323846;

/* What must come out of a truly free vector, and the orthonormality of vectors. */
static const double free_most = 1e-13;
static const double orthonormal = 1e-14;

typedef struct problem {
    int32_t size;
    int32_t reach;
    int32_t most;
    double *band;
    double *copy;
    double *vectors;
    double *values;
    double *scratch;
} problem;

static double *numbers(size_t count)
{
    double *const block = calloc(count, sizeof *block);
    ck_assert_ptr_nonnull(block);
    return block;
}

static problem make_problem(int32_t size, int32_t reach, int32_t most)
{
    const size_t entries = (size_t)size * (size_t)(reach + 1);
    const problem made = {.size = size,
                          .reach = reach,
                          .most = most,
                          .band = numbers(entries),
                          .copy = numbers(entries),
                          .vectors = numbers((size_t)most * (size_t)size),
                          .values = numbers((size_t)most),
                          .scratch = numbers(trivet__null_scratch(size, reach, most))};
    return made;
}

static void free_problem(problem *p)
{
    free(p->band);
    free(p->copy);
    free(p->vectors);
    free(p->values);
    free(p->scratch);
}

static double *entry(problem *p, int32_t i, int32_t j)
{
    return p->band + (i - j) + (size_t)j * (size_t)(p->reach + 1);
}

/* A chain of count masses whose rows start at first. The ends have one spring, the others two. */
static void add_chain(problem *p, int32_t first, int32_t count)
{
    for (int32_t k = 0; k < count; k++) {
        *entry(p, first + k, first + k) = 1.0;
        if (k + 1 < count) {
            const double here = k == 0 ? 1.0 : 2.0;
            const double there = k + 2 == count ? 1.0 : 2.0;
            *entry(p, first + k + 1, first + k) = -1.0 / sqrt(here * there);
        }
    }
}

static double chain_value(int32_t count, int32_t k)
{
    /* 1 - cos t = 2 sin^2(t / 2), which loses no digits for small t */
    const double half_sine = sin(0.5 * pi * k / (count - 1));
    return 2.0 * half_sine * half_sine;
}

static int32_t solve(problem *p)
{
    memcpy(p->copy, p->band, sizeof(double) * (size_t)p->size * (size_t)(p->reach + 1));
    return trivet__null_vectors(p->size, p->reach, p->band, p->most, p->vectors, p->values,
                                p->scratch);
}

/* Orthonormal, values rising, and each value the Rayleigh quotient of its vector. */
static void check_vectors(const problem *p)
{
    double *const product = numbers((size_t)p->size);
    for (int32_t a = 0; a < p->most; a++) {
        const double *const va = p->vectors + (size_t)a * (size_t)p->size;
        trivet__band_times(p->size, p->reach, p->copy, va, product);
        double quotient = 0.0;
        for (int32_t i = 0; i < p->size; i++) {
            quotient += va[i] * product[i];
        }
        near_scaled(quotient, p->values[a], 1e-14, 1.0);
        ck_assert(a == 0 || p->values[a] >= p->values[a - 1]);
        for (int32_t b = 0; b <= a; b++) {
            const double *const vb = p->vectors + (size_t)b * (size_t)p->size;
            double sum = 0.0;
            for (int32_t i = 0; i < p->size; i++) {
                sum += va[i] * vb[i];
            }
            near_scaled(sum, a == b ? 1.0 : 0.0, orthonormal, 1.0);
        }
    }
    free(product);
}

/* How much of a vector lies in the span of the first count vectors found: 1 if all of it. */
static double share_within(const problem *p, int32_t count, const double *wanted)
{
    double all = 0.0;
    double within = 0.0;
    for (int32_t i = 0; i < p->size; i++) {
        all += wanted[i] * wanted[i];
    }
    for (int32_t a = 0; a < count; a++) {
        double sum = 0.0;
        for (int32_t i = 0; i < p->size; i++) {
            sum += p->vectors[(size_t)a * (size_t)p->size + (size_t)i] * wanted[i];
        }
        within += sum * sum;
    }
    return within / all;
}

/* chains of 20 masses each: as many free vectors, the rest as in the book. */
static void check_chains(int32_t chains)
{
    enum { LENGTH = 20 };
    problem p = make_problem(chains * LENGTH, 1, TRIVET__NULL_MOST);
    for (int32_t c = 0; c < chains; c++) {
        add_chain(&p, c * LENGTH, LENGTH);
    }
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    for (int32_t k = 0; k < TRIVET__NULL_MOST; k++) {
        const double want = chain_value(LENGTH, k / chains);
        near_scaled(p.values[k], want, k < chains ? free_most : 1e-6 * want, 1.0);
    }
    /* A chain that moves as a whole: scaled by the roots of the diagonal, 1 at ends, 2 inside. */
    double *const whole = numbers((size_t)p.size);
    for (int32_t c = 0; c < chains; c++) {
        for (int32_t i = 0; i < p.size; i++) {
            const int32_t place = i - c * LENGTH;
            const int is_in = place >= 0 && place < LENGTH;
            whole[i] = !is_in ? 0.0 : place == 0 || place == LENGTH - 1 ? 1.0 : sqrt(2.0);
        }
        near_relative(share_within(&p, chains, whole), 1.0, 1e-13);
    }
    free(whole);
    free_problem(&p);
}

START_TEST(one_free_chain_has_one_zero)
{
    check_chains(1);
}
END_TEST

START_TEST(two_free_chains_have_two_zeros)
{
    check_chains(2);
}
END_TEST

START_TEST(six_free_chains_have_six_zeros)
{
    check_chains(6);
}
END_TEST

START_TEST(more_zeros_than_asked_for_are_all_zero)
{
    enum { CHAINS = 15, LENGTH = 4 };
    problem p = make_problem(CHAINS * LENGTH, 1, 3);
    for (int32_t c = 0; c < CHAINS; c++) {
        add_chain(&p, c * LENGTH, LENGTH);
    }
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    for (int32_t k = 0; k < 3; k++) {
        near_scaled(p.values[k], 0.0, free_most, 1.0);
    }
    free_problem(&p);
}
END_TEST

START_TEST(long_chain_is_told_from_a_free_one)
{
    enum { LENGTH = 2000 }; /* its softest way to deform is at 1.2e-6 */
    problem p = make_problem(LENGTH, 1, 2);
    add_chain(&p, 0, LENGTH);
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    near_scaled(p.values[0], 0.0, free_most, 1.0);
    /* 1e-15 of rounding in a sum of numbers near 1, over 1.2e-6 */
    near_relative(p.values[1], chain_value(LENGTH, 1), 1e-8);
    free_problem(&p);
}
END_TEST

/* |1 -(1-d); -(1-d) 1| has the eigenvalues d and 2 - d. */
START_TEST(soft_pairs_come_out_in_order)
{
    const double soft[] = {1e-4, 0.0, 1e-6, 1e-8};
    const double want[] = {0.0, 1e-8, 1e-6, 1e-4};
    problem p = make_problem(8, 1, 5);
    for (int32_t k = 0; k < 4; k++) {
        *entry(&p, 2 * k, 2 * k) = 1.0;
        *entry(&p, 2 * k + 1, 2 * k + 1) = 1.0;
        *entry(&p, 2 * k + 1, 2 * k) = -(1.0 - soft[k]);
    }
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    for (int32_t k = 0; k < 4; k++) {
        near_scaled(p.values[k], want[k], 4.0 * DBL_EPSILON, 1.0);
    }
    near_scaled(p.values[4], 2.0, 1e-3, 1.0);
    free_problem(&p);
}
END_TEST

START_TEST(empty_rows_come_out_as_free)
{
    problem p = make_problem(7, 2, 5);
    add_chain(&p, 1, 3); /* rows 0, 4, 5 and 6 are empty */
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    for (int32_t k = 0; k < 5; k++) {
        near_scaled(p.values[k], 0.0, free_most, 1.0);
    }
    const int32_t empty[] = {0, 4, 5, 6};
    for (int32_t k = 0; k < 4; k++) {
        double wanted[7] = {0.0};
        wanted[empty[k]] = 1.0;
        near_relative(share_within(&p, 5, wanted), 1.0, 1e-13);
    }
    free_problem(&p);
}
END_TEST

START_TEST(nothing_but_empty_rows)
{
    problem p = make_problem(3, 0, 3);
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    ck_assert(p.values[0] == 0.0 && p.values[2] == 0.0);
    free_problem(&p);
}
END_TEST

START_TEST(whole_spectrum_of_eight_rows)
{
    problem p = make_problem(8, 3, 8);
    add_chain(&p, 0, 8);
    ck_assert_int_eq(solve(&p), 0);
    check_vectors(&p);
    for (int32_t k = 0; k < 8; k++) {
        near_scaled(p.values[k], chain_value(8, k), 64.0 * DBL_EPSILON, 1.0);
    }
    free_problem(&p);
}
END_TEST

START_TEST(sizes_of_nothing_and_one_work)
{
    ck_assert_int_eq(trivet__null_vectors(0, 3, NULL, 0, NULL, NULL, NULL), 0);
    for (int32_t diagonal = 0; diagonal < 2; diagonal++) {
        problem p = make_problem(1, 0, 1);
        p.band[0] = diagonal;
        ck_assert_int_eq(solve(&p), 0);
        ck_assert(p.values[0] == diagonal);
        ck_assert(fabs(p.vectors[0]) == 1.0);
        free_problem(&p);
    }
}
END_TEST

START_TEST(matrix_that_is_not_semi_definite_is_refused)
{
    problem p = make_problem(2, 1, 1);
    p.band[0] = 1.0;
    p.band[1] = 2.0; /* 1 * 1 < 2 * 2 */
    p.band[2] = 1.0;
    ck_assert_int_eq(solve(&p), -1);
    p.band[0] = 1.0;
    p.band[1] = nan("");
    p.band[2] = 1.0;
    ck_assert_int_eq(solve(&p), -1);
    free_problem(&p);
}
END_TEST

START_TEST(same_matrix_gives_the_same_bits)
{
    problem p = make_problem(60, 1, 4);
    problem q = make_problem(60, 1, 4);
    for (int32_t c = 0; c < 3; c++) {
        add_chain(&p, 20 * c, 20);
        add_chain(&q, 20 * c, 20);
    }
    ck_assert_int_eq(solve(&p), 0);
    ck_assert_int_eq(solve(&q), 0);
    ck_assert_int_eq(memcmp(p.vectors, q.vectors, 240 * sizeof(double)), 0);
    ck_assert_int_eq(memcmp(p.values, q.values, 4 * sizeof(double)), 0);
    free_problem(&p);
    free_problem(&q);
}
END_TEST

int main(void)
{
    return run_tests("null_space",
                     TESTS(one_free_chain_has_one_zero, two_free_chains_have_two_zeros,
                           six_free_chains_have_six_zeros, more_zeros_than_asked_for_are_all_zero,
                           long_chain_is_told_from_a_free_one, soft_pairs_come_out_in_order,
                           empty_rows_come_out_as_free, nothing_but_empty_rows,
                           whole_spectrum_of_eight_rows, sizes_of_nothing_and_one_work,
                           matrix_that_is_not_semi_definite_is_refused,
                           same_matrix_gives_the_same_bits));
}
