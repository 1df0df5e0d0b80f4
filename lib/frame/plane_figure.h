/*
 * Figures in the plane: distances, convex outlines, polygons. Points are x, y one after the other.
 */
#ifndef TRIVET_FRAME_PLANE_FIGURE_H
#define TRIVET_FRAME_PLANE_FIGURE_H

#include <stdint.h>

/* From point p to the straight line between a and b. */
double trivet__distance_to_side(const double a[2], const double b[2], const double p[2]);

/* Between the line from a to b and that from c to d; 0 if they cross. */
double trivet__distance_of_sides(const double a[2], const double b[2], const double c[2],
                                 const double d[2]);

/*
 * The convex outline round points[count], counter-clockwise, without corners that lie on a straight
 * side: one point, two, or more. hull_out has room for count. Returns how many it has.
 */
int32_t trivet__convex_outline(const double *points, int32_t count, double *hull_out);

/* Positive if the corners run counter-clockwise. */
double trivet__polygon_area(const double *corners, int32_t count);

/*
 * The first two sides, from 0, that touch though they are no neighbours, or neighbours that fold
 * back onto each other. Returns 0 if there are none.
 */
int trivet__polygon_crosses(const double *corners, int32_t count, int32_t *one_out,
                            int32_t *other_out);

/*
 * How deep a point lies inside a polygon: its distance to the nearest side, negative outside. One
 * or two corners hold nothing.
 */
double trivet__polygon_depth(const double *corners, int32_t count, const double p[2]);

#endif
