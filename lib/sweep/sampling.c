/*
 * Points spread over the unit cube, each told by its number alone: nothing is stored, so that a
 * part of a sweep may begin anywhere.
 *
 * Sobol: Bratley and Fox, ACM TOMS 14 (1988) 88, in the order of the Gray code; polynomials and
 * first direction numbers of Joe and Kuo, SIAM J. Sci. Comput. 30 (2008) 2635 (their list
 * "new-joe-kuo-6", the first 20 dimensions).
 *
 * Latin hypercube: McKay, Beckman and Conover, Technometrics 21 (1979) 239; the shuffles are a
 * Feistel network over the numbers, walked until it lands inside (Black and Rogaway 2002).
 * All from memory but for the direction numbers.
 */
#include "sweep/vary.h"

#include <assert.h>
#include <math.h>

enum { BITS = 32, DEGREE_MAX = 7, ROUNDS = 4 };

/* The polynomial's coefficients as bits, leading one first; first direction numbers. */
static const struct {
    uint32_t polynomial;
    uint32_t first[DEGREE_MAX];
} SOBOL[TRIVET__AXES_MAX] = {
    {1, {1}},
    {3, {1}},
    {7, {1, 3}},
    {11, {1, 3, 1}},
    {13, {1, 1, 1}},
    {19, {1, 1, 3, 3}},
    {25, {1, 3, 5, 13}},
    {37, {1, 1, 5, 5, 17}},
    {41, {1, 1, 5, 5, 5}},
    {47, {1, 1, 7, 11, 19}},
    {55, {1, 1, 5, 1, 1}},
    {59, {1, 1, 1, 3, 11}},
    {61, {1, 3, 5, 5, 31}},
    {67, {1, 3, 3, 9, 7, 49}},
    {91, {1, 1, 1, 15, 21, 21}},
    {97, {1, 3, 1, 13, 27, 49}},
    {103, {1, 1, 1, 15, 7, 5}},
    {109, {1, 3, 1, 15, 13, 25}},
    {115, {1, 1, 5, 5, 19, 61}},
    {131, {1, 3, 7, 11, 23, 15, 103}},
};

static int32_t degree_of(uint32_t polynomial)
{
    int32_t degree = 0;
    while (polynomial >> (degree + 1)) {
        degree++;
    }
    return degree;
}

/* Direction numbers m[0 .. BITS - 1] of a dimension. */
static void fill_directions(int32_t dimension, uint32_t m[BITS])
{
    const uint32_t polynomial = SOBOL[dimension].polynomial;
    const int32_t degree = degree_of(polynomial);
    for (int32_t j = 0; j < BITS; j++) {
        if (degree == 0 || j < degree) {
            m[j] = degree == 0 ? 1 : SOBOL[dimension].first[j];
            continue;
        }
        m[j] = m[j - degree] ^ (m[j - degree] << degree);
        for (int32_t k = 1; k < degree; k++) {
            m[j] ^= (polynomial >> (degree - k)) & 1U ? m[j - k] << k : 0U;
        }
    }
}

double trivet__sobol(int64_t number, int32_t dimension)
{
    uint32_t m[BITS];
    uint32_t sum = 0;
    const uint64_t gray = (uint64_t)number ^ ((uint64_t)number >> 1);
    assert(number >= 0 && number < (int64_t)1 << BITS && dimension < TRIVET__AXES_MAX);
    fill_directions(dimension, m);
    for (int32_t j = 0; j < BITS; j++) {
        sum ^= (gray >> j) & 1U ? m[j] << (BITS - 1 - j) : 0U;
    }
    return (double)sum * 0x1p-32;
}

/* Scatters bits (splitmix64: Steele, Lea and Flood 2014). */
static uint64_t scatter(uint64_t x)
{
    x += 0x9e3779b97f4a7c15U;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9U;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebU;
    return x ^ (x >> 31);
}

/* A one-to-one map of 0 .. 4^half - 1 onto itself. */
static uint64_t shuffle_once(uint64_t x, int32_t half, uint64_t key)
{
    const uint64_t mask = ((uint64_t)1 << half) - 1;
    uint64_t left = x >> half;
    uint64_t right = x & mask;
    for (uint64_t round = 0; round < ROUNDS; round++) {
        const uint64_t turned = left ^ (scatter(right ^ scatter(key + round)) & mask);
        left = right;
        right = turned;
    }
    return left << half | right;
}

double trivet__latin(int64_t number, int64_t count, int32_t dimension, uint64_t seed)
{
    int32_t half = 1;
    const uint64_t key = scatter(seed) ^ scatter((uint64_t)dimension << 32);
    uint64_t stratum = (uint64_t)number;
    assert(number >= 0 && number < count);
    while ((int64_t)1 << (2 * half) < count) {
        half++;
    }
    do {
        stratum = shuffle_once(stratum, half, key);
    } while (stratum >= (uint64_t)count);
    const double inside = (double)(scatter(key ^ scatter(stratum + 1)) >> 11) * 0x1p-53;
    return fmin(((double)stratum + inside) / (double)count, 1.0 - 0x1p-53);
}
