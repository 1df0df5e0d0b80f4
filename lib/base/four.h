/*
 * Four numbers as one value. Compilers for processors with narrower registers use two or four;
 * the same operations in the same order everywhere. Addresses are multiples of 32 bytes, as
 * base/block.h hands them out.
 */
#ifndef TRIVET_BASE_FOUR_H
#define TRIVET_BASE_FOUR_H

typedef double trivet__four __attribute__((vector_size(32), may_alias));

static inline const trivet__four *trivet__fours(const double *row)
{
    return (const trivet__four *)(const void *)row;
}

static inline trivet__four *trivet__fours_of(double *row)
{
    return (trivet__four *)(void *)row;
}

#endif
