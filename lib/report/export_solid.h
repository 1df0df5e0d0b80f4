/*
 * The shape of a section as two paths of paired points, outside and inside, both running
 * counter-clockwise (y to the right, z up, seen from the tube's +x). Between them lies the metal.
 */
#ifndef TRIVET_REPORT_EXPORT_SOLID_H
#define TRIVET_REPORT_EXPORT_SOLID_H

#include "trivet/stock.h"

enum { TRIVET__PATH_MAX = 48 };

typedef struct trivet__path_point {
    double at[2];     /* m, y and z from the centroid */
    double normal[2]; /* unit vector out of the metal; a sharp corner is two points at one place */
} trivet__path_point;

typedef struct trivet__solid {
    int32_t count;   /* of each path */
    int32_t is_loop; /* the last point is joined to the first: tubes and bars; else open sections */
    trivet__path_point outer[TRIVET__PATH_MAX];
    trivet__path_point inner[TRIVET__PATH_MAX]; /* of a bar: its middle, throughout */
} trivet__solid;

/* Facets of a round corner. */
enum { TRIVET__CORNER_FACETS = 6 };

void trivet__solid_of(const trivet_profile *profile, const trivet_section *section,
                      trivet__solid *solid_out);

#endif
