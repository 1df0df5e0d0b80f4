/*
 * Loops over all cases at once: a quantity of one place is a row of `lanes` numbers, one a case,
 * padded with zeros to a multiple of four so that the inner loops have a fixed length.
 */
#ifndef TRIVET_STATICS_LANES_H
#define TRIVET_STATICS_LANES_H

#include "base/four.h"

#include <stddef.h>
#include <stdint.h>

enum { TRIVET__LANE_STEP = 4 };

static inline int32_t trivet__lanes_of(int32_t cases)
{
    return (cases + TRIVET__LANE_STEP - 1) / TRIVET__LANE_STEP * TRIVET__LANE_STEP;
}

/* y += factor * x, one row */
static inline void trivet__lanes_add(int32_t lanes, double factor, const double *x, double *y)
{
    for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        *trivet__fours_of(y + c) += factor * *trivet__fours(x + c);
    }
}

/* y[6 rows] += factor * matrix[36] x[6 rows]; many matrices are nearly empty. */
static inline void trivet__lanes_times(int32_t lanes, const double *matrix, double factor,
                                       const double *x, double *y)
{
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            const double entry = factor * matrix[6 * i + j];
            if (entry != 0.0) {
                trivet__lanes_add(lanes, entry, x + j * lanes, y + i * lanes);
            }
        }
    }
}

/*
 * y[6 rows] += factor * map[36] x[6 rows], for a map of movements: turns do not depend on
 * movements, so the lower left quarter of the map is zero and is left out.
 */
static inline void trivet__lanes_map(int32_t lanes, const double *map, double factor,
                                     const double *x, double *y)
{
    for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        trivet__four in[6];
        for (int j = 0; j < 6; j++) {
            in[j] = factor * *trivet__fours(x + j * lanes + c);
        }
        for (int i = 0; i < 3; i++) {
            const double *const row = map + 6 * i;
            *trivet__fours_of(y + i * lanes + c) += row[0] * in[0] + row[1] * in[1] +
                                                    row[2] * in[2] + row[3] * in[3] +
                                                    row[4] * in[4] + row[5] * in[5];
            *trivet__fours_of(y + (3 + i) * lanes + c) +=
                row[0] * in[3] + row[1] * in[4] + row[2] * in[5];
        }
    }
}

/* The same with the map transposed: forces at the span's end as forces at the node. */
static inline void trivet__lanes_map_turned(int32_t lanes, const double *map, double factor,
                                            const double *x, double *y)
{
    for (int32_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        trivet__four in[6];
        for (int j = 0; j < 6; j++) {
            in[j] = factor * *trivet__fours(x + j * lanes + c);
        }
        for (int j = 0; j < 3; j++) {
            const double *const column = map + j;
            *trivet__fours_of(y + j * lanes + c) +=
                column[0] * in[0] + column[6] * in[1] + column[12] * in[2];
            *trivet__fours_of(y + (3 + j) * lanes + c) += column[3] * in[0] + column[9] * in[1] +
                                                          column[15] * in[2] + column[0] * in[3] +
                                                          column[6] * in[4] + column[12] * in[5];
        }
    }
}

#endif
