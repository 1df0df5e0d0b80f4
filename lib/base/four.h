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

/* The same, bit by bit; comparing two fours gives all ones where it holds. */
typedef int64_t trivet__four_bits __attribute__((vector_size(32), may_alias));

static inline const trivet__four *trivet__fours(const double *row)
{
    return (const trivet__four *)(const void *)row;
}

static inline trivet__four *trivet__fours_of(double *row)
{
    return (trivet__four *)(void *)row;
}

/* most = max(most, |x|); not-a-number is never larger. */
TRIVET__INSIDE void trivet__four_keep_size(trivet__four *most, const trivet__four *x)
{
    const trivet__four size = (trivet__four)((trivet__four_bits)*x & INT64_MAX);
    const trivet__four_bits is_larger = size > *most;
    *most = (trivet__four)((is_larger & (trivet__four_bits)size) |
                           (~is_larger & (trivet__four_bits)*most));
}

#endif
