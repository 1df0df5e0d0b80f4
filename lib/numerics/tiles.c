/*
 * Factor of a matrix in tiles, row of tiles by row of tiles. In row I, W = L D comes first, tile
 * by tile from the left,
 *
 *     W(I,K) L(K,K)^T = A(I,K) - sum over J < K of W(I,J) L(K,J)^T,
 *
 * then L(I,J) = W(I,J) / D(J), and what is left of A(I,I) - sum over J of L(I,J) W(I,J)^T is a
 * tile to factor in itself (Golub and Van Loan, Matrix Computations, 4th edition, sections 4.1.2
 * and 4.2.5).
 */
#include "numerics/tiles.h"

#include "base/four.h"
#include "base/processor.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

enum { TILE = TRIVET__TILE, ENTRIES = TRIVET__TILE_ENTRIES };

int32_t trivet__tile_shape(int32_t size, const int32_t *lowest, trivet__tiles *shape)
{
    shape->count = trivet__tile_count(size);
    int32_t first = shape->count;
    for (int32_t row = shape->count - 1; row >= 0; row--) {
        first = row < first ? row : first;
        for (int32_t i = TILE * row; i < size && i < TILE * (row + 1); i++) {
            first = lowest[i] / TILE < first ? lowest[i] / TILE : first;
        }
        shape->firsts[row] = first;
    }
    int64_t total = 0;
    for (int32_t row = 0; row < shape->count; row++) {
        shape->starts[row] = (int32_t)total;
        total += row + 1 - shape->firsts[row];
        if (total > INT32_MAX / (2 * ENTRIES)) {
            return -1;
        }
    }
    shape->starts[shape->count] = (int32_t)total;
    return 0;
}

void trivet__tile_places(int32_t size, const trivet__tiles *shape, int32_t *rows, int32_t *columns)
{
    for (int32_t i = 0; i < size; i++) {
        const int32_t row = i / TILE;
        rows[i] = ENTRIES * (shape->starts[row] - shape->firsts[row]) + i % TILE;
        columns[i] = ENTRIES * row + TILE * (i % TILE);
    }
}

/* The tile (row, 0), were it there. */
static inline ptrdiff_t row_at(const trivet__tiles *shape, int32_t row)
{
    return (ptrdiff_t)ENTRIES * (shape->starts[row] - shape->firsts[row]);
}

void trivet__tiles_clear(int32_t size, const trivet__tiles *shape, double *entries)
{
    memset(entries, 0, (size_t)ENTRIES * (size_t)shape->starts[shape->count] * sizeof *entries);
    for (int32_t i = size; i < TILE * shape->count; i++) {
        const int32_t row = i / TILE;
        entries[row_at(shape, row) + (ptrdiff_t)ENTRIES * row + (TILE + 1) * (i % TILE)] = 1.0;
    }
}

TRIVET__INSIDE void load_tile(const double *tile, trivet__four c[TILE])
{
    for (int k = 0; k < TILE; k++) {
        c[k] = *trivet__fours(tile + (ptrdiff_t)TILE * k);
    }
}

/* C -= W B^T */
TRIVET__INSIDE void subtract_product(trivet__four c[TILE], const double *w, const double *b)
{
    for (int p = 0; p < TILE; p++) {
        const trivet__four column = *trivet__fours(w + (ptrdiff_t)TILE * p);
        for (int k = 0; k < TILE; k++) {
            c[k] -= column * b[TILE * p + k];
        }
    }
}

/* W(I,K) for all K < I of a row. */
TRIVET__INSIDE void reduce_row(const trivet__tiles *shape, int32_t row, double *entries)
{
    double *const own = entries + row_at(shape, row);
    const int32_t first = shape->firsts[row];
    for (int32_t k = first; k < row; k++) {
        const double *const other = entries + row_at(shape, k);
        const double *const diagonal = other + (ptrdiff_t)ENTRIES * k;
        double *const tile = own + (ptrdiff_t)ENTRIES * k;
        trivet__four c[TILE];
        load_tile(tile, c);
        for (int32_t j = first; j < k; j++) {
            subtract_product(c, own + (ptrdiff_t)ENTRIES * j, other + (ptrdiff_t)ENTRIES * j);
        }
        for (int p = 0; p < TILE; p++) {
            for (int m = p + 1; m < TILE; m++) {
                c[m] -= c[p] * diagonal[TILE * p + m];
            }
            *trivet__fours_of(tile + (ptrdiff_t)TILE * p) = c[p];
        }
    }
}

/* Factors a tile on the diagonal; returns 0 or the number (from 1) of the pivot that fails. */
TRIVET__INSIDE int factor_tile(trivet__four c[TILE], double *tile, double *inverses)
{
    int failed = 0;
    for (int p = TILE - 1; p >= 0; p--) {
        inverses[p] = 0.0;
    }
    for (int p = 0; p < TILE; p++) {
        const double pivot = c[p][p];
        if (failed == 0 && !(pivot > 0.0 && pivot < HUGE_VAL)) {
            failed = p + 1;
        }
        const double inverse = 1.0 / pivot;
        trivet__four column = c[p] * inverse;
        for (int m = p + 1; m < TILE; m++) {
            c[m] -= column * c[p][m];
        }
        column[p] = pivot;
        *trivet__fours_of(tile + (ptrdiff_t)TILE * p) = column;
        inverses[p] = inverse;
    }
    return failed;
}

/* L(I,J) from W(I,J), then the diagonal. */
TRIVET__INSIDE int finish_row(const trivet__tiles *shape, int32_t row, double *entries,
                              double *inverses)
{
    double *const own = entries + row_at(shape, row);
    double *const diagonal = own + (ptrdiff_t)ENTRIES * row;
    trivet__four c[TILE];
    load_tile(diagonal, c);
    for (int32_t j = shape->firsts[row]; j < row; j++) {
        for (int p = 0; p < TILE; p++) {
            double *const column = own + (ptrdiff_t)ENTRIES * j + (ptrdiff_t)TILE * p;
            const trivet__four scaled = *trivet__fours(column) * inverses[TILE * j + p];
            for (int k = 0; k < TILE; k++) {
                c[k] -= scaled * column[k];
            }
            *trivet__fours_of(column) = scaled;
        }
    }
    return factor_tile(c, diagonal, inverses + (ptrdiff_t)TILE * row);
}

TRIVET__WIDE
static int32_t factor(const trivet__tiles *shape, double *entries, double *inverses)
{
    for (int32_t row = 0; row < shape->count; row++) {
        reduce_row(shape, row, entries);
        const int failed = finish_row(shape, row, entries, inverses);
        if (failed != 0) {
            return TILE * row + failed;
        }
    }
    return 0;
}

int32_t trivet__tiles_factor(const trivet__tiles *shape, double *entries, double *inverses_out)
{
    return factor(shape, entries, inverses_out);
}

/*
 * Columns travel in groups of fixed width, so that the compiler keeps the sums of a row of tiles
 * in registers. Small inline copies for three widths.
 */
enum { WIDEST = 3 };

TRIVET__INSIDE void load_rows(const double *rows, int32_t columns, trivet__four x[TILE][WIDEST],
                              int width)
{
    for (int r = 0; r < TILE; r++) {
        for (int v = 0; v < width; v++) {
            x[r][v] = trivet__fours(rows + (ptrdiff_t)r * columns)[v];
        }
    }
}

TRIVET__INSIDE void store_rows(trivet__four x[TILE][WIDEST], int32_t columns, double *rows,
                               int width)
{
    for (int r = 0; r < TILE; r++) {
        for (int v = 0; v < width; v++) {
            trivet__fours_of(rows + (ptrdiff_t)r * columns)[v] = x[r][v];
        }
    }
}

/* L y = b, rows rising. */
TRIVET__INSIDE void solve_lower(const trivet__tiles *shape, const double *factor, int32_t columns,
                                double *values, int width)
{
    for (int32_t row = 0; row < shape->count; row++) {
        const double *const tiles = factor + row_at(shape, row);
        double *const own = values + (ptrdiff_t)TILE * row * columns;
        trivet__four x[TILE][WIDEST];
        load_rows(own, columns, x, width);
        for (int32_t i = TILE * shape->firsts[row]; i < TILE * row; i++) {
            const trivet__four *const other = trivet__fours(values + (ptrdiff_t)i * columns);
            const double *const column = tiles + (ptrdiff_t)TILE * i;
            for (int r = 0; r < TILE; r++) {
                for (int v = 0; v < width; v++) {
                    x[r][v] -= column[r] * other[v];
                }
            }
        }
        const double *const diagonal = tiles + (ptrdiff_t)ENTRIES * row;
        for (int p = 0; p < TILE; p++) {
            for (int r = p + 1; r < TILE; r++) {
                for (int v = 0; v < width; v++) {
                    x[r][v] -= diagonal[TILE * p + r] * x[p][v];
                }
            }
        }
        store_rows(x, columns, own, width);
    }
}

/* D L^T x = y, rows falling. */
TRIVET__INSIDE void solve_upper(const trivet__tiles *shape, const double *factor,
                                const double *inverses, int32_t columns, double *values, int width)
{
    for (int32_t row = shape->count - 1; row >= 0; row--) {
        double *const own = values + (ptrdiff_t)TILE * row * columns;
        trivet__four x[TILE][WIDEST];
        load_rows(own, columns, x, width);
        for (int r = 0; r < TILE; r++) {
            for (int v = 0; v < width; v++) {
                x[r][v] *= inverses[TILE * row + r];
            }
        }
        for (int32_t k = row + 1; k < shape->count && shape->firsts[k] <= row; k++) {
            const double *const tile = factor + row_at(shape, k) + (ptrdiff_t)ENTRIES * row;
            for (int p = 0; p < TILE; p++) {
                const trivet__four *const other =
                    trivet__fours(values + (ptrdiff_t)(TILE * k + p) * columns);
                for (int r = 0; r < TILE; r++) {
                    for (int v = 0; v < width; v++) {
                        x[r][v] -= tile[TILE * r + p] * other[v];
                    }
                }
            }
        }
        const double *const diagonal = factor + row_at(shape, row) + (ptrdiff_t)ENTRIES * row;
        for (int p = TILE - 1; p > 0; p--) {
            for (int r = 0; r < p; r++) {
                for (int v = 0; v < width; v++) {
                    x[r][v] -= diagonal[TILE * r + p] * x[p][v];
                }
            }
        }
        store_rows(x, columns, own, width);
    }
}

TRIVET__WIDE
static void solve_one(const trivet__tiles *shape, const double *factor, const double *inverses,
                      int32_t columns, double *values)
{
    solve_lower(shape, factor, columns, values, 1);
    solve_upper(shape, factor, inverses, columns, values, 1);
}

TRIVET__WIDE
static void solve_two(const trivet__tiles *shape, const double *factor, const double *inverses,
                      int32_t columns, double *values)
{
    solve_lower(shape, factor, columns, values, 2);
    solve_upper(shape, factor, inverses, columns, values, 2);
}

TRIVET__WIDE
static void solve_three(const trivet__tiles *shape, const double *factor, const double *inverses,
                        int32_t columns, double *values)
{
    solve_lower(shape, factor, columns, values, WIDEST);
    solve_upper(shape, factor, inverses, columns, values, WIDEST);
}

void trivet__tiles_solve(const trivet__tiles *shape, const double *factor, const double *inverses,
                         int32_t columns, double *values)
{
    int32_t at = 0;
    for (; columns - at >= TILE * WIDEST; at += TILE * WIDEST) {
        solve_three(shape, factor, inverses, columns, values + at);
    }
    if (columns - at == 2 * TILE) {
        solve_two(shape, factor, inverses, columns, values + at);
    } else if (columns - at == TILE) {
        solve_one(shape, factor, inverses, columns, values + at);
    }
}
