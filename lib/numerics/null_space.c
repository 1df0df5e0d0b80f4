/*
 * The vectors that a positive semi-definite band matrix sends nearest to zero: in what ways a
 * frame can move without resistance.
 *
 * Subspace iteration with the inverse of A + shift I, a Rayleigh-Ritz step in each round and a few
 * vectors more than are asked for (Golub and Van Loan, Matrix Computations, 4th edition, sections
 * 8.2.4 and 8.1.4; K.-J. Bathe, Finite Element Procedures, section 11.6). The Ritz values are
 * taken of A itself, not of the shifted matrix: a vector that moves freely has one of rounding
 * size, about 1e-16, which may be below zero.
 *
 * The shift: A has ones on its diagonal, so that rounding moves its eigenvalues by some 1e-16 times
 * the rows that a sum runs over, 1e-13 for a large frame, while the weakest way to move a frame
 * that does hold is seldom below 1e-6. A shift of 1e-10 is far from both: A + shift I can be
 * factored whatever is free, an empty row included, and each round shrinks what a free vector
 * holds of a held one by shift / 1e-6 = 1e-4.
 *
 * Values that are not free come from above. Where many crowd together, as they do near 1, the
 * rounds end before their last digits have settled.
 */
#include "numerics/numerics.h"

#include <assert.h>
#include <float.h>
#include <math.h>

static const double shift = 1e-10;

enum {
    GUARDS = 4, /* vectors beyond those asked for: the last one asked for settles sooner */
    WIDEST = TRIVET__NULL_MOST + GUARDS,
    ROUNDS_MOST = 60,
    SWEEPS_MOST = 30 /* Jacobi needs six to ten */
};

/* Everything that the rounds work on; columns stand next to each other. */
typedef struct subspace {
    int32_t size;
    int32_t reach;
    int32_t width;        /* vectors carried along */
    const double *matrix; /* A */
    const double *factor; /* of A + shift I */
    double *x;            /* [width][size] */
    double *ax;           /* [width][size] */
    double *small;        /* [width][width] */
    double *turn;         /* [width][width] */
    uint64_t random;      /* state of the pseudo-random numbers */
} subspace;

static int32_t width_for(int32_t size, int32_t most)
{
    return size < most + GUARDS ? size : most + GUARDS;
}

/* Evenly spread in [-1, 1): xorshift64* of S. Vigna, ACM TOMS 42 (2016) 30, with a fixed seed. */
static double next_random(uint64_t *state)
{
    uint64_t bits = *state;
    bits ^= bits >> 12;
    bits ^= bits << 25;
    bits ^= bits >> 27;
    *state = bits;
    return ldexp((double)((bits * UINT64_C(2685821657736338717)) >> 11), -52) - 1.0;
}

static void fill_random(subspace *s, int32_t column)
{
    double *const v = s->x + (size_t)column * (size_t)s->size;
    for (int32_t i = 0; i < s->size; i++) {
        v[i] = next_random(&s->random);
    }
}

static double dot(int32_t size, const double *a, const double *b)
{
    double sum = 0.0;
    for (int32_t i = 0; i < size; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

static void scale_vector(int32_t size, double factor, double *v)
{
    for (int32_t i = 0; i < size; i++) {
        v[i] *= factor;
    }
}

/* Takes out of column what it shares with the columns before; returns the length that is left. */
static double clear_of_earlier(subspace *s, int32_t column)
{
    double *const v = s->x + (size_t)column * (size_t)s->size;
    for (int32_t k = 0; k < column; k++) {
        const double *const q = s->x + (size_t)k * (size_t)s->size;
        const double share = dot(s->size, q, v);
        for (int32_t i = 0; i < s->size; i++) {
            v[i] -= share * q[i];
        }
    }
    return sqrt(dot(s->size, v, v));
}

/*
 * Modified Gram-Schmidt, each vector twice: the second time removes what rounding of the first
 * left. A vector of which nothing but rounding remains is drawn anew.
 */
static void make_orthonormal(subspace *s)
{
    enum { DRAWS_MOST = 8 };
    static const double lost = 1e-12;
    for (int32_t j = 0; j < s->width; j++) {
        double *const v = s->x + (size_t)j * (size_t)s->size;
        for (int draw = 0; draw < DRAWS_MOST; draw++) {
            const double length = sqrt(dot(s->size, v, v));
            if (length > 0.0 && isfinite(length)) {
                scale_vector(s->size, 1.0 / length, v);
                const double left = clear_of_earlier(s, j);
                if (left > lost) {
                    scale_vector(s->size, 1.0 / left, v);
                    scale_vector(s->size, 1.0 / clear_of_earlier(s, j), v);
                    break;
                }
            }
            fill_random(s, j);
        }
    }
}

/* Turns rows and columns p and q of the small matrix so that its entry (p, q) becomes zero. */
static void turn_pair(subspace *s, int32_t p, int32_t q)
{
    const int32_t n = s->width;
    double *const a = s->small;
    const double apq = a[p * n + q];
    const double theta = (a[q * n + q] - a[p * n + p]) / (2.0 * apq);
    const double tangent = copysign(1.0, theta) / (fabs(theta) + hypot(theta, 1.0));
    const double c = 1.0 / hypot(tangent, 1.0);
    const double sine = tangent * c;
    for (int32_t k = 0; k < n; k++) {
        const double akp = a[k * n + p];
        const double akq = a[k * n + q];
        a[k * n + p] = c * akp - sine * akq;
        a[k * n + q] = sine * akp + c * akq;
        const double tp = s->turn[p * n + k];
        const double tq = s->turn[q * n + k];
        s->turn[p * n + k] = c * tp - sine * tq;
        s->turn[q * n + k] = sine * tp + c * tq;
    }
    for (int32_t k = 0; k < n; k++) {
        const double apk = a[p * n + k];
        const double aqk = a[q * n + k];
        a[p * n + k] = c * apk - sine * aqk;
        a[q * n + k] = sine * apk + c * aqk;
    }
    a[p * n + q] = 0.0;
    a[q * n + p] = 0.0;
}

/*
 * Row-cyclic Jacobi (Golub and Van Loan, section 8.5.3): small = turn^T diag turn. Entries below
 * the rounding that the small matrix was made with are left alone.
 */
static void diagonalise(subspace *s)
{
    const int32_t n = s->width;
    double largest = 0.0;
    for (int32_t k = 0; k < n * n; k++) {
        s->turn[k] = k % (n + 1) == 0 ? 1.0 : 0.0;
        largest = fmax(largest, fabs(s->small[k]));
    }
    const double negligible = 0.0625 * DBL_EPSILON * largest;
    int32_t turned = 1;
    for (int sweep = 0; sweep < SWEEPS_MOST && turned > 0; sweep++) {
        turned = 0;
        for (int32_t p = 0; p < n; p++) {
            for (int32_t q = p + 1; q < n; q++) {
                if (fabs(s->small[p * n + q]) > negligible) {
                    turn_pair(s, p, q);
                    turned++;
                }
            }
        }
    }
}

/* Rows of turn in rising order of the diagonal. */
static void sort_rising(subspace *s, double *values_out)
{
    const int32_t n = s->width;
    for (int32_t i = 0; i < n; i++) {
        values_out[i] = s->small[i * n + i];
    }
    for (int32_t i = 1; i < n; i++) {
        for (int32_t k = i; k > 0 && values_out[k] < values_out[k - 1]; k--) {
            const double value = values_out[k];
            values_out[k] = values_out[k - 1];
            values_out[k - 1] = value;
            for (int32_t c = 0; c < n; c++) {
                const double entry = s->turn[k * n + c];
                s->turn[k * n + c] = s->turn[(k - 1) * n + c];
                s->turn[(k - 1) * n + c] = entry;
            }
        }
    }
}

/* Replaces the vectors by those combinations of them that are eigenvectors as nearly as can be. */
static void take_ritz_vectors(subspace *s, double *values_out)
{
    const int32_t n = s->width;
    const size_t size = (size_t)s->size;
    for (int32_t j = 0; j < n; j++) {
        trivet__band_times(s->size, s->reach, s->matrix, s->x + (size_t)j * size,
                           s->ax + (size_t)j * size);
        for (int32_t i = 0; i <= j; i++) {
            const double entry = dot(s->size, s->x + (size_t)i * size, s->ax + (size_t)j * size);
            s->small[i * n + j] = entry;
            s->small[j * n + i] = entry;
        }
    }
    diagonalise(s);
    sort_rising(s, values_out);
    for (size_t i = 0; i < size; i++) {
        double row[WIDEST];
        for (int32_t j = 0; j < n; j++) {
            row[j] = s->x[(size_t)j * size + i];
        }
        for (int32_t j = 0; j < n; j++) {
            s->x[(size_t)j * size + i] = dot(n, s->turn + j * n, row);
        }
    }
}

/* Whether the first count values stand still: to rounding, or to more digits than anyone reads. */
static int have_settled(int32_t count, const double *values, const double *before)
{
    static const double rounding = 1e-15;
    static const double share = 1e-9;
    for (int32_t k = 0; k < count; k++) {
        if (!(fabs(values[k] - before[k]) <= rounding + share * fabs(values[k]))) {
            return 0;
        }
    }
    return 1;
}

static void iterate(subspace *s, int32_t most, double values[WIDEST])
{
    enum { ROUNDS_LEAST = 4 }; /* 1e-4 each, see above: held parts are below rounding */
    double before[WIDEST];
    for (int32_t j = 0; j < s->width; j++) {
        fill_random(s, j);
    }
    make_orthonormal(s);
    take_ritz_vectors(s, values);
    for (int round = 0; round < ROUNDS_MOST; round++) {
        for (int32_t k = 0; k < most; k++) {
            before[k] = values[k];
        }
        trivet__band_solve(s->size, s->reach, s->factor, s->width, s->x);
        make_orthonormal(s);
        take_ritz_vectors(s, values);
        if (round + 1 >= ROUNDS_LEAST && have_settled(most, values, before)) {
            return;
        }
    }
}

size_t trivet__null_scratch(int32_t size, int32_t reach, int32_t most)
{
    if (size <= 0 || reach < 0 || most <= 0) {
        return 1;
    }
    const size_t n = (size_t)size;
    const size_t width = (size_t)width_for(size, most);
    return n * ((size_t)reach + 1) + 2 * width * n + 2 * width * width;
}

int32_t trivet__null_vectors(int32_t size, int32_t reach, double *band, int32_t most,
                             double *vectors_out, double *values_out, double *scratch)
{
    assert(most <= TRIVET__NULL_MOST && most <= size);
    if (most > TRIVET__NULL_MOST || most > size) {
        return -1;
    }
    if (size <= 0 || most <= 0) {
        return 0;
    }
    const size_t n = (size_t)size;
    const size_t step = (size_t)reach + 1;
    const size_t width = (size_t)width_for(size, most);
    double *const x = scratch + n * step;
    subspace s = {.size = size,
                  .reach = reach,
                  .width = (int32_t)width,
                  .matrix = scratch,
                  .factor = band,
                  .x = x,
                  .ax = x + width * n,
                  .small = x + 2 * width * n,
                  .turn = x + 2 * width * n + width * width,
                  .random = UINT64_C(0x9e3779b97f4a7c15)};
    for (size_t k = 0; k < n * step; k++) {
        scratch[k] = band[k];
    }
    for (size_t j = 0; j < n; j++) {
        band[j * step] += shift;
    }
    if (trivet__band_factor(size, reach, band) != 0) {
        return -1;
    }
    double values[WIDEST] = {0.0};
    iterate(&s, most, values);
    for (size_t k = 0; k < (size_t)most * n; k++) {
        vectors_out[k] = s.x[k];
    }
    for (int32_t k = 0; k < most; k++) {
        values_out[k] = values[k];
    }
    return 0;
}
