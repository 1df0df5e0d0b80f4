/*
 * Outlines of stock as rectangles with rounded corners. The reach of such a shape in a direction is
 * that of the rectangle of its corners' centres plus the radius (support function of a sum of
 * shapes).
 */
#include "shop/silhouette.h"

#include "stock/sections.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

void trivet__silhouette_find(const trivet_profile *profile, const trivet_section *section,
                             trivet__silhouette *out)
{
    double inner = 0.0;
    memset(out, 0, sizeof *out);
    if (section->outer_radius > 0.0) {
        out->half[0] = out->half[1] = out->corner = section->outer_radius;
        out->is_round = out->is_known = 1;
        return;
    }
    if (profile->shape == TRIVET_SHAPE_GIVEN_VALUES || !(section->height > 0.0) ||
        !(section->width > 0.0)) {
        return;
    }
    out->is_known = 1;
    out->half[0] = 0.5 * section->width;
    out->half[1] = 0.5 * section->height;
    out->centre[0] = -section->centroid[0];
    out->centre[1] = -section->centroid[1];
    if (profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
        profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE) {
        trivet__corner_radii(profile, &out->corner, &inner);
    }
}

double trivet__silhouette_reach(const trivet__silhouette *of, const double d[2])
{
    return of->centre[0] * d[0] + of->centre[1] * d[1] + fabs(d[0]) * (of->half[0] - of->corner) +
           fabs(d[1]) * (of->half[1] - of->corner) + of->corner * hypot(d[0], d[1]);
}

void trivet__silhouette_point(const trivet__silhouette *of, double u, double out[2])
{
    /* Flats and corners in turn, counter-clockwise from the right: corner, top, corner, left ... */
    static const double SIGNS[4][2] = {{1.0, 1.0}, {-1.0, 1.0}, {-1.0, -1.0}, {1.0, -1.0}};
    const double flat[2] = {of->half[0] - of->corner, of->half[1] - of->corner};
    const double arc = 0.5 * PI * of->corner;
    double way = (u - floor(u)) * 4.0 * (flat[0] + flat[1] + arc) - flat[1];
    /* way 0: the beginning of the first corner; before it the upper half of the right flat. */
    for (int quarter = 0; quarter < 4; quarter++) {
        const double *const sign = SIGNS[quarter];
        const double along = quarter % 2 == 0 ? 2.0 * flat[0] : 2.0 * flat[1];
        const double start = 0.5 * PI * quarter;
        if (way < 0.0) { /* on the right flat, towards its end */
            out[0] = of->centre[0] + of->half[0];
            out[1] = of->centre[1] + flat[1] + way;
            return;
        }
        if (way < arc || (quarter == 3 && along <= 0.0)) {
            const double angle = start + (of->corner > 0.0 ? way / of->corner : 0.0);
            out[0] = of->centre[0] + sign[0] * flat[0] + of->corner * cos(angle);
            out[1] = of->centre[1] + sign[1] * flat[1] + of->corner * sin(angle);
            return;
        }
        way -= arc;
        if (way < along || quarter == 3) {
            const double step = fmin(way, along);
            const double turned = start + 0.5 * PI;
            out[0] =
                of->centre[0] + sign[0] * flat[0] + of->corner * cos(turned) - step * sin(turned);
            out[1] =
                of->centre[1] + sign[1] * flat[1] + of->corner * sin(turned) + step * cos(turned);
            return;
        }
        way -= along;
    }
}

double trivet__silhouette_extreme(const trivet__silhouette *of, int sign,
                                  trivet__silhouette_value *value, const void *user)
{
    enum { PLACES = 720, HALVINGS = 80 };
    static const double GOLDEN = 0.61803398874989485;
    double best = -(double)INFINITY;
    double at = 0.0;
    double point[2];
    for (int i = 0; i < PLACES; i++) {
        trivet__silhouette_point(of, (double)i / PLACES, point);
        const double here = sign * value(user, point);
        if (here > best) {
            best = here;
            at = (double)i / PLACES;
        }
    }
    /* Golden section beside the best place. */
    double low = at - 1.0 / PLACES;
    double high = at + 1.0 / PLACES;
    for (int i = 0; i < HALVINGS; i++) {
        const double a = high - GOLDEN * (high - low);
        const double b = low + GOLDEN * (high - low);
        double values[2];
        trivet__silhouette_point(of, a, point);
        values[0] = sign * value(user, point);
        trivet__silhouette_point(of, b, point);
        values[1] = sign * value(user, point);
        if (values[0] > values[1]) {
            high = b;
        } else {
            low = a;
        }
        best = fmax(best, fmax(values[0], values[1]));
    }
    return sign * best;
}
