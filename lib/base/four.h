/*
 * Four numbers as one value. Compilers for processors with narrower registers use two or four;
 * the same operations in the same order everywhere. Addresses are multiples of 32 bytes, as
 * base/block.h hands them out.
 */
#ifndef TRIVET_BASE_FOUR_H
#define TRIVET_BASE_FOUR_H

#include "base/processor.h"

#include <stdint.h>

typedef double trivet__four __attribute__((vector_size(32), may_alias));

/* Four and two numbers at any address of a double. */
typedef double trivet__four_anywhere __attribute__((vector_size(32), aligned(8), may_alias));
typedef double trivet__two_anywhere __attribute__((vector_size(16), aligned(8), may_alias));

/* Four numbers bit by bit; comparing two fours gives all ones where it holds. */
typedef int64_t trivet__four_bits __attribute__((vector_size(32), may_alias));

static inline const trivet__four *trivet__fours(const double *row)
{
    return (const trivet__four *)(const void *)row;
}

static inline trivet__four *trivet__fours_of(double *row)
{
    return (trivet__four *)(void *)row;
}

/* Turns four columns into four rows. */
TRIVET__INSIDE void trivet__four_turn(trivet__four x[4])
{
    const trivet__four even01 = __builtin_shufflevector(x[0], x[1], 0, 4, 2, 6);
    const trivet__four odd01 = __builtin_shufflevector(x[0], x[1], 1, 5, 3, 7);
    const trivet__four even23 = __builtin_shufflevector(x[2], x[3], 0, 4, 2, 6);
    const trivet__four odd23 = __builtin_shufflevector(x[2], x[3], 1, 5, 3, 7);
    x[0] = __builtin_shufflevector(even01, even23, 0, 1, 4, 5);
    x[1] = __builtin_shufflevector(odd01, odd23, 0, 1, 4, 5);
    x[2] = __builtin_shufflevector(even01, even23, 2, 3, 6, 7);
    x[3] = __builtin_shufflevector(odd01, odd23, 2, 3, 6, 7);
}

/* sum += |x| */
TRIVET__INSIDE void trivet__four_add_size(trivet__four *sum, const trivet__four *x)
{
    *sum += (trivet__four)((trivet__four_bits)*x & INT64_MAX);
}

/* Lane by lane, one where all bits are set, else other. */
TRIVET__INSIDE void trivet__four_choose(const trivet__four_bits *is_one, const trivet__four *one,
                                        const trivet__four *other, trivet__four *out)
{
    *out = (trivet__four)((*is_one & (trivet__four_bits)*one) |
                          (~*is_one & (trivet__four_bits)*other));
}

/* most = max(most, |x|); not-a-number is never larger. */
TRIVET__INSIDE void trivet__four_keep_size(trivet__four *most, const trivet__four *x)
{
    const trivet__four size = (trivet__four)((trivet__four_bits)*x & INT64_MAX);
    const trivet__four_bits is_larger = size > *most;
    trivet__four_choose(&is_larger, &size, most, most);
}

/* The same, but not-a-number stays once it was met. */
TRIVET__INSIDE void trivet__four_keep_worst(trivet__four *most, const trivet__four *x)
{
    const trivet__four size = (trivet__four)((trivet__four_bits)*x & INT64_MAX);
    const trivet__four_bits is_no_larger = size <= *most;
    trivet__four_choose(&is_no_larger, most, &size, most);
}

#endif
