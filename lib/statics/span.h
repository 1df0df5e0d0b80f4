/*
 * One span: a straight Timoshenko element. Its end forces are told by the six forces at its last
 * end alone, p = N Vy Vz T My Mz there; those at the first end follow by equilibrium. Its own
 * stretch is e, the movement of the last end against a first end that is taken along rigidly.
 *
 *     p = stiffness (e - e0) + p0
 *
 * with e0 the stretch that loads and warmth would give with p = 0, and p0 what freed ends add.
 */
#ifndef TRIVET_STATICS_SPAN_H
#define TRIVET_STATICS_SPAN_H

#include "frame/frame.h"
#include "trivet/statics.h"

#include <stdint.h>

/* A load on a span, tube axes, places in m from the span's start. */
typedef struct trivet__span_load {
    int32_t is_point;
    int32_t is_even; /* one force per length over the whole span, such as its weight */
    double from;     /* of a point load: its place */
    double to;
    double first[3]; /* N/m at from; of a point load N */
    double last[3];  /* N/m at to; of a point load its moment, N m */
} trivet__span_load;

typedef struct trivet__release {
    double column[6]; /* what a slip of one does to the stretch */
    double gain[6];   /* forces that give no force in the freed direction but one unit */
    int32_t at_first;
    int32_t direction;
} trivet__release;

typedef struct trivet__span {
    int32_t insert_stock; /* -1 if none */
    int32_t insert_bond;
    double axes[9];
    double length;
    double start;         /* m along the tube */
    double EA, GJ;        /* N, N m^2 */
    double bend[3];       /* 1/(N m^2): byy, byz, bzz; curvatures = bend * (My, Mz) */
    double shear[2];      /* 1/N: of Vy and Vz */
    double expansion;     /* 1/K */
    double mass;          /* kg/m */
    double stiffness[36]; /* row by row, symmetric */
    double slip[36];      /* slips at the first end out of a misfit of stretch */
    int32_t release_count;
    trivet__release releases[6];
} trivet__span;

/* The axes of a tube from one point to another: rows x, y, z (design section 5). */
void trivet__tube_axes(const double first[3], const double last[3], double roll, double axes[9]);

/* Flexibilities of stock with an insert (NULL for none) that is held by a bond. */
void trivet__span_flexibility(trivet__span *span, const trivet__stock *stock,
                              const trivet__stock *insert, int32_t bond);

/* Stiffness from flexibility and freed ends. Returns 0 if the span has no hold in itself. */
int trivet__span_stiffness(trivet__span *span, uint32_t free_first, uint32_t free_last);

/* stretch = matrix p without loads, row by row. */
void trivet__span_flexibility_matrix(const trivet__span *span, double matrix[36]);

/* Repeated integrals of loads from the start to a place: see span_load.c. */
typedef struct trivet__load_sums {
    double force[3][4];  /* once to four times, of the three forces */
    double moment[3][3]; /* none to twice, of the three moments */
} trivet__load_sums;

/* Adds factor times the integrals of loads up to x; a point load at x counts if with_last. */
void trivet__load_sums_add(trivet__load_sums *sums, const trivet__span_load *loads, int32_t count,
                           double factor, double x, int with_last);

/*
 * Movement and forces at x from those at the start (tube axes): move and force [6] each.
 */
void trivet__span_state(const trivet__span *span, const double start_move[6],
                        const double start_force[6], const trivet__load_sums *sums, double warm,
                        double x, double move[6], double force[6]);

#endif
