/*
 * The largest von Mises stress on a stretch of tube along which the forces inside are cubics.
 */
#ifndef TRIVET_CHECKS_STRESS_H
#define TRIVET_CHECKS_STRESS_H

#include "trivet/stock.h"

/*
 * N Vy Vz T My Mz as c0 + c1 t + c2 t^2 + c3 t^3, 0 <= t <= 1, with at = from + t (to - from) in m
 * along the tube.
 */
typedef struct trivet__stretch {
    double from;
    double to;
    double forces[6][4];
} trivet__stretch;

/* The worst place: t along the stretch, y and z in the section. */
typedef struct trivet__spot {
    double square; /* sigma^2 + 3 tau^2, Pa^2 */
    double t;
    double y;
    double z;
    int32_t point; /* number of the stress point; -1 on a rim */
} trivet__spot;

/*
 * Both look for a place with more than spot->square and put it into *spot. They return 1 if there
 * is one, 0 if not, -1 if the stress is not a finite number somewhere.
 */
int trivet__stress_of_points(const trivet_section *section, const trivet__stretch *stretch,
                             trivet__spot *spot);
int trivet__stress_of_rim(const trivet_section *section, const trivet__stretch *stretch,
                          trivet__spot *spot);

/* Normal stress at y, z for N, My, Mz of 1: per[0] 1/m^2, per[1] and per[2] 1/m^3. */
void trivet__normal_stress(const trivet_section *section, double y, double z, double per[3]);

/* How the shear stress at a round section's rim stands to V / A at its most: 4/3 to 2. */
double trivet__rim_shear_factor(const trivet_section *section);

/* c0 + c1 t + c2 t^2 + c3 t^3 */
double trivet__cubic(const double c[4], double t);

/* Sum of the sizes of the coefficients: nothing in 0 <= t <= 1 is larger. */
double trivet__cubic_bound(const double c[4]);

/*
 * The largest sigma^2 + 3 tau^2 in 0 <= t <= 1 of two cubics, at the ends or where the derivative
 * of that polynomial of degree six is zero.
 */
double trivet__largest_square(const double sigma[4], const double tau[4], double *t_out);

#endif
