/*
 * Flat cuts. A plane with the outward normal n, through the centre line at `beyond` past the end of
 * the model, cuts the line of the outside at w (square to the axis d) at beyond - (n w)/(n d): the
 * long and the short point follow from how far the outline reaches along -n and n. A miter's normal
 * is the difference of the two outward directions: the plane that halves the corner.
 */
#include "shop/cut_plan.h"

#include "base/vec3.h"

#include <math.h>
#include <string.h>

/* Tubes that turn by less than this, rad, lie in one line. */
#define IN_LINE 1e-3

/* Axes that pass each other nearer than this, m, meet. */
#define MEETS 1e-4

/* How well outlines must fit each other: share of their size, and sine of an angle (0.5 degree). */
#define FITS 5e-3
#define TURNED 8.7e-3

double trivet__reach_along(const trivet__silhouette *of, const double axes[9], const double v[3])
{
    const double flat[2] = {trivet__dot3(v, axes + 3), trivet__dot3(v, axes + 6)};
    return trivet__silhouette_reach(of, flat);
}

/* Angle round the tube from its top, right-handed about x, of a direction. */
double trivet__angle_round(const double axes[9], const double v[3])
{
    return atan2(-trivet__dot3(v, axes + 3), trivet__dot3(v, axes + 6));
}

/* Cuts an end on the plane with this normal, through its centre line at beyond. */
void trivet__cut_flat(const trivet__cut_plan *plan, trivet__end *end, const double normal[3],
                      double beyond)
{
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, end->tube);
    const double square = trivet__dot3(normal, end->out);
    double up[3] = {0.0, 0.0, 0.0}; /* towards the long point */
    double down[3];
    double across[3];
    trivet__add3(up, -1.0 / square, normal);
    trivet__add3(up, 1.0, end->out);
    for (int i = 0; i < 3; i++) {
        down[i] = -up[i];
    }
    trivet__cross3(normal, end->out, across);
    memcpy(end->normal, normal, sizeof end->normal);
    end->beyond = end->mean = beyond;
    end->longest = beyond + trivet__reach_along(of, end->axes, up);
    end->shortest = beyond - trivet__reach_along(of, end->axes, down);
    end->angle = atan2(trivet__length3(across), square);
    end->towards = end->angle > 1e-6 ? trivet__angle_round(end->axes, up) : (double)NAN;
}

void trivet__cut_square(const trivet__cut_plan *plan, trivet__end *end, double beyond)
{
    double normal[3];
    memcpy(normal, end->out, sizeof normal);
    trivet__cut_flat(plan, end, normal, beyond);
}

/* Where two axes come nearest: half-way between; returns how far apart they are there. */
double trivet__axes_meet(const trivet__end *one, const trivet__end *other, double out[3])
{
    double across[3];
    double apart[3];
    double there[3];
    trivet__cross3(one->out, other->out, across);
    trivet__minus3(other->point, one->point, apart);
    const double sine2 = trivet__dot3(across, across);
    double way[2] = {0.0, 0.0};
    if (sine2 > IN_LINE * IN_LINE) {
        double turned[3];
        trivet__cross3(apart, other->out, turned);
        way[0] = trivet__dot3(turned, across) / sine2;
        trivet__cross3(apart, one->out, turned);
        way[1] = trivet__dot3(turned, across) / sine2;
    }
    memcpy(out, one->point, 3 * sizeof *out);
    trivet__add3(out, way[0], one->out);
    memcpy(there, other->point, sizeof there);
    trivet__add3(there, way[1], other->out);
    trivet__minus3(there, out, apart);
    trivet__add3(out, 0.5, apart);
    if (!(sine2 > IN_LINE * IN_LINE)) {
        trivet__add3(apart, -trivet__dot3(apart, one->out), one->out);
    }
    return trivet__length3(apart);
}

/* The normal of the plane between two ends, outwards of the first; 0 if they are folded back. */
static int normal_between(const trivet__end *one, const trivet__end *other, double normal[3])
{
    trivet__minus3(one->out, other->out, normal);
    const double length = trivet__length3(normal);
    if (!(length > TRIVET__FLATTEST)) {
        return 0;
    }
    for (int i = 0; i < 3; i++) {
        normal[i] /= length;
    }
    return 1;
}

/* Image of a direction in the plane with this normal. */
static void mirror(const double normal[3], const double v[3], double out[3])
{
    memcpy(out, v, 3 * sizeof *out);
    trivet__add3(out, -2.0 * trivet__dot3(v, normal), normal);
}

static int is_near(double a, double b, double scale)
{
    return fabs(a - b) <= FITS * scale;
}

/* Whether the box of one outline, mirrored, lies on that of the other. */
static int boxes_match(const trivet__silhouette *a, const trivet__silhouette *b,
                       const double mirrored[9], const double axes[9])
{
    const double scale = a->half[0] + a->half[1];
    double centres[2][3] = {{0.0, 0.0, 0.0}, {0.0, 0.0, 0.0}};
    double apart[3];
    for (int i = 0; i < 2; i++) {
        trivet__add3(centres[0], a->centre[i], mirrored + 3 + 3 * i);
        trivet__add3(centres[1], b->centre[i], axes + 3 + 3 * i);
    }
    trivet__minus3(centres[0], centres[1], apart);
    if (!(trivet__length3(apart) <= FITS * scale)) {
        return 0;
    }
    const double along = fabs(trivet__dot3(mirrored + 3, axes + 3));
    const double across = fabs(trivet__dot3(mirrored + 3, axes + 6));
    if (across <= TURNED) {
        return is_near(a->half[0], b->half[0], scale) && is_near(a->half[1], b->half[1], scale);
    }
    return along <= TURNED && is_near(a->half[0], b->half[1], scale) &&
           is_near(a->half[1], b->half[0], scale);
}

int trivet__ends_match(const trivet__cut_plan *plan, const trivet__end *one,
                       const trivet__end *other)
{
    const trivet__silhouette *const a = trivet__tube_silhouette(plan, one->tube);
    const trivet__silhouette *const b = trivet__tube_silhouette(plan, other->tube);
    double normal[3];
    double point[3];
    double mirrored[9];
    if (!a->is_known || !b->is_known || a->is_round != b->is_round ||
        !normal_between(one, other, normal) || trivet__axes_meet(one, other, point) > MEETS) {
        return 0;
    }
    if (a->is_round) {
        return is_near(a->half[0], b->half[0], a->half[0]);
    }
    for (int i = 0; i < 3; i++) {
        mirror(normal, one->axes + 3 * (ptrdiff_t)i, mirrored + 3 * (ptrdiff_t)i);
    }
    return boxes_match(a, b, mirrored, other->axes);
}

void trivet__cut_miter(const trivet__cut_plan *plan, trivet__end *end, const trivet__end *other)
{
    double normal[3];
    double point[3];
    double way[3];
    if (!normal_between(end, other, normal)) {
        return;
    }
    trivet__axes_meet(end, other, point);
    trivet__minus3(point, end->point, way);
    const double square = trivet__dot3(normal, end->out);
    trivet__cut_flat(plan, end, normal,
                     (trivet__dot3(way, normal) - 0.5 * plan->shop->gap) / square);
}
