/*
 * Loops over all cases at once: a quantity of one place is a row of `lanes` numbers, one a case,
 * padded with zeros to a multiple of four.
 *
 * What belongs to a node or an end of a span is six rows. They stand together by four lanes, [6][4]
 * numbers, one such group after the other: that is what is taken into registers.
 */
#ifndef TRIVET_STATICS_LANES_H
#define TRIVET_STATICS_LANES_H

#include "base/four.h"
#include "base/processor.h"

#include <stddef.h>
#include <stdint.h>

enum { TRIVET__LANE_STEP = 4 };

/*
 * The maps of a span stand side by side: rows of twelve, six of the first node, six of the last.
 */
enum { TRIVET__MAP_STEP = 12, TRIVET__MAPS = 72, TRIVET__LAST_MAP = 6 };

static inline int32_t trivet__lanes_of(int32_t cases)
{
    return (cases + TRIVET__LANE_STEP - 1) / TRIVET__LANE_STEP * TRIVET__LANE_STEP;
}

/* Row r of sixes, lane c: at trivet__six_row(lanes, r) + trivet__six_lane(c). */
static inline ptrdiff_t trivet__six_row(ptrdiff_t lanes, ptrdiff_t row)
{
    return row / 6 * 6 * lanes + row % 6 * TRIVET__LANE_STEP;
}

static inline ptrdiff_t trivet__six_lane(ptrdiff_t lane)
{
    const ptrdiff_t rest = lane % TRIVET__LANE_STEP;
    return 6 * (lane - rest) + rest;
}

/* group stands at the first of four lanes of six rows. */
TRIVET__INSIDE void trivet__six_load(const double *group, trivet__four x[6])
{
    for (int i = 0; i < 6; i++) {
        x[i] = trivet__fours(group)[i];
    }
}

TRIVET__INSIDE void trivet__six_store(const trivet__four x[6], double *group)
{
    for (int i = 0; i < 6; i++) {
        trivet__fours_of(group)[i] = x[i];
    }
}

/*
 * Writes the six of each of the first count lanes (four or fewer) next to each other, lane after
 * lane, step numbers apart; to need not be aligned.
 */
TRIVET__INSIDE void trivet__six_turn(const trivet__four x[6], int32_t count, double *to,
                                     ptrdiff_t step)
{
    trivet__four four[4] = {x[0], x[1], x[2], x[3]};
    const trivet__four even = __builtin_shufflevector(x[4], x[5], 0, 4, 2, 6);
    const trivet__four odd = __builtin_shufflevector(x[4], x[5], 1, 5, 3, 7);
    const trivet__two_anywhere two[4] = {
        __builtin_shufflevector(even, even, 0, 1), __builtin_shufflevector(odd, odd, 0, 1),
        __builtin_shufflevector(even, even, 2, 3), __builtin_shufflevector(odd, odd, 2, 3)};
    trivet__four_turn(four);
    for (int k = 0; k < TRIVET__LANE_STEP; k++) {
        if (k < count) {
            double *const lane = to + k * step;
            *(trivet__four_anywhere *)(void *)lane = four[k];
            *(trivet__two_anywhere *)(void *)(lane + 4) = two[k];
        }
    }
}

/*
 * y = map x, for a map of movements: turns do not depend on movements, so the lower left quarter
 * of the map is zero and is left out.
 */
TRIVET__INSIDE void trivet__six_map(const double *map, const trivet__four x[6], trivet__four y[6])
{
    for (int i = 0; i < 3; i++) {
        const double *const row = map + (ptrdiff_t)TRIVET__MAP_STEP * i;
        y[i] = row[0] * x[0] + row[1] * x[1] + row[2] * x[2] + row[3] * x[3] + row[4] * x[4] +
               row[5] * x[5];
        y[3 + i] = row[0] * x[3] + row[1] * x[4] + row[2] * x[5];
    }
}

/* The same with the map transposed: forces at the span's end as forces at the node. */
TRIVET__INSIDE void trivet__six_map_turned(const double *map, const trivet__four x[6],
                                           trivet__four y[6])
{
    enum { STEP = TRIVET__MAP_STEP };
    for (int j = 0; j < 3; j++) {
        const double *const column = map + j;
        y[j] = column[0] * x[0] + column[STEP] * x[1] + column[2 * STEP] * x[2];
        y[3 + j] = column[3] * x[0] + column[STEP + 3] * x[1] + column[2 * STEP + 3] * x[2] +
                   column[0] * x[3] + column[STEP] * x[4] + column[2 * STEP] * x[5];
    }
}

TRIVET__INSIDE void trivet__six_add(const trivet__four x[6], double *group)
{
    for (int i = 0; i < 6; i++) {
        trivet__fours_of(group)[i] += x[i];
    }
}

TRIVET__INSIDE void trivet__six_subtract(const trivet__four x[6], double *group)
{
    for (int i = 0; i < 6; i++) {
        trivet__fours_of(group)[i] -= x[i];
    }
}

/*
 * y = matrix x for a stiffness or flexibility of a span, whatever its ends: pull and twist are
 * for themselves, the other four go together.
 */
TRIVET__INSIDE void trivet__six_times(const double matrix[36], const trivet__four x[6],
                                      trivet__four y[6])
{
    static const int bending[4] = {1, 2, 4, 5};
    y[0] = matrix[0] * x[0];
    y[3] = matrix[21] * x[3];
    for (int k = 0; k < 4; k++) {
        const double *const row = matrix + (ptrdiff_t)6 * bending[k];
        y[bending[k]] = row[1] * x[1] + row[2] * x[2] + row[4] * x[4] + row[5] * x[5];
    }
}

#endif
