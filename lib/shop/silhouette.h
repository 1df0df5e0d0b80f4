/*
 * The outside of stock as seen along the tube: a rectangle with rounded corners, of which a circle
 * is one. Angles and channels count by the box around them.
 */
#ifndef TRIVET_SHOP_SILHOUETTE_H
#define TRIVET_SHOP_SILHOUETTE_H

#include "trivet/stock.h"

typedef struct trivet__silhouette {
    double half[2];   /* m, along y and z */
    double centre[2]; /* m, of the box, y and z from the tube's axis */
    double corner;    /* m, radius */
    int32_t is_round; /* a round tube or bar */
    int32_t is_known; /* 0: the stock is given by values without sizes */
} trivet__silhouette;

void trivet__silhouette_find(const trivet_profile *profile, const trivet_section *section,
                             trivet__silhouette *out);

/* How far it reaches in a direction: the largest y d[0] + z d[1] over it; d of any length. */
double trivet__silhouette_reach(const trivet__silhouette *of, const double d[2]);

/* The point of the outline at share u of its way round, 0 to 1, from the middle of the right. */
void trivet__silhouette_point(const trivet__silhouette *of, double u, double out[2]);

/* A value at a point of the outline. */
typedef double trivet__silhouette_value(const void *user, const double point[2]);

/* The largest (sign 1) or smallest (sign -1) value round the outline, to rounding. */
double trivet__silhouette_extreme(const trivet__silhouette *of, int sign,
                                  trivet__silhouette_value *value, const void *user);

#endif
