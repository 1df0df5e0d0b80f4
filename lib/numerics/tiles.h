/*
 * Symmetric positive definite matrices in tiles: squares of 4 x 4 entries of the lower triangle,
 * row of tiles after row of tiles, each from its first tile that is not empty to the diagonal. A
 * tile stores its columns one after the other, so that a column is one value of four (base/four.h)
 * and no loop has a rest. Rows beyond the size, up to a multiple of four, are those of the unit
 * matrix.
 *
 * The factor is L D L^T without square roots: on the way each pivot is one division, and it is at
 * hand for the condition. LAPACK's dpbtrf and dpbtrs are its referees in tests/unit/numerics.
 *
 * Nothing here allocates. Results do not depend on the number of BLAS threads.
 */
#ifndef TRIVET_NUMERICS_TILES_H
#define TRIVET_NUMERICS_TILES_H

#include <stdint.h>

enum { TRIVET__TILE = 4, TRIVET__TILE_ENTRIES = TRIVET__TILE * TRIVET__TILE };

/* Where tiles stand: the same for all matrices of a plan. */
typedef struct trivet__tiles {
    int32_t count;   /* rows of tiles */
    int32_t *firsts; /* [count] the column of the first tile of each row; never falls */
    int32_t *starts; /* [count + 1] tiles before each row */
} trivet__tiles;

/* Rows of tiles for so many equations. */
static inline int32_t trivet__tile_count(int32_t size)
{
    return size / TRIVET__TILE + (size % TRIVET__TILE != 0);
}

/*
 * Fills firsts and starts: lowest [size] is the lowest equation that each shares an entry with.
 * Returns 0, or -1 if the tiles are too many for their numbers.
 */
int32_t trivet__tile_shape(int32_t size, const int32_t *lowest, trivet__tiles *shape);

/*
 * Entry (i, j), j <= i, stands at entries[rows[i] + columns[j]] if it is in a tile at all: at or
 * right of the first tile of its row.
 */
void trivet__tile_places(int32_t size, const trivet__tiles *shape, int32_t *rows, int32_t *columns);

/* Zeros, and ones on the diagonal beyond size. entries: [16 * starts[count]]. */
void trivet__tiles_clear(int32_t size, const trivet__tiles *shape, double *entries);

/*
 * Factor in place: L below the diagonal, D on it, and its inverses in inverses_out [4 * count].
 * Returns 0, or the number (from 1) of the first pivot that is not positive and finite, which is
 * that of the first leading minor that is not positive; then the entries are rubbish.
 */
int32_t trivet__tiles_factor(const trivet__tiles *shape, double *entries, double *inverses_out);

/*
 * Solves with a factor, in place: values [4 * count][columns], columns a multiple of four, all
 * right-hand sides of an equation in one row.
 */
void trivet__tiles_solve(const trivet__tiles *shape, const double *factor, const double *inverses,
                         int32_t columns, double *values);

#endif
