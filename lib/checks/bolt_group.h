/*
 * How the bolts of a set share the force and moment on it.
 */
#ifndef TRIVET_CHECKS_BOLT_GROUP_H
#define TRIVET_CHECKS_BOLT_GROUP_H

#include "trivet/frame_joins.h"

/*
 * Force [3] on each bolt, N, in the axes of the bolts: x and y across it, z along it (above 0: it
 * is pulled; below: the faces are pushed together there). The pattern shares elastically, every
 * bolt as stiff as the next: Fz / n and the moments Mx, My in proportion to the distance from the
 * principal axes through their middle; Fx / n, Fy / n and Mz in proportion to the distance from
 * the middle. Of moments that the pattern cannot take (one bolt; a row of bolts about its own line)
 * nothing is shared out; *rest_out [3] is what is left of Mx, My, Mz about the middle, N m.
 */
void trivet__bolt_shares(const trivet_bolts *bolts, const double forces[6],
                         double shares_out[TRIVET_BOLTS_MAX][3], double rest_out[3]);

/* What moments a pattern can take. */
typedef enum trivet__spread {
    TRIVET__SPREAD_POINT = 0, /* one bolt: none */
    TRIVET__SPREAD_ROW = 1,   /* all but that about its own line */
    TRIVET__SPREAD_PLANE = 2  /* all */
} trivet__spread;

/* The pattern about its middle: what the lines of working are made of. */
typedef struct trivet__pattern {
    int32_t count;
    int32_t spread;   /* a trivet__spread */
    double middle[2]; /* m, from the joint */
    double xx;        /* m^2, sum over the bolts of the square of x from the middle */
    double yy;        /* m^2, of y */
    double xy;        /* m^2, of x times y; 0 where x and y are the principal axes */
} trivet__pattern;

void trivet__pattern_find(const trivet_bolts *bolts, trivet__pattern *pattern_out);

/* Moment [3] about the middle, N m, of force and moment [6] about the joint. */
void trivet__pattern_moments(const trivet__pattern *pattern, const double forces[6],
                             double moments_out[3]);

/* Force [3] on the bolt at x, y m from the middle. */
void trivet__pattern_share(const trivet__pattern *pattern, const double forces[6],
                           const double moments[3], double x, double y, double share_out[3]);

/* What is left of the moments about the middle [3], N m; 0 for all that the pattern can take. */
void trivet__pattern_rest(const trivet__pattern *pattern, const double moments[3],
                          double rest_out[3]);

#endif
