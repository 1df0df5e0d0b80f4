/*
 * Figures in the plane. The convex outline is found by walking round it, always to the point that
 * leaves all others to the left; whether a point lies inside a polygon, by counting the sides that
 * a ray from it crosses. Both are methods of any textbook of geometry.
 */
#include "frame/plane_figure.h"

#include <math.h>
#include <string.h>

/* A turn whose sine is below this counts as none: rounding of positions. */
#define STRAIGHT 1e-9

static double cross(const double o[2], const double a[2], const double b[2])
{
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
}

static double apart(const double a[2], const double b[2])
{
    return hypot(b[0] - a[0], b[1] - a[1]);
}

static const double *corner_at(const double *corners, int32_t count, int32_t i)
{
    return corners + 2 * (i % count);
}

double trivet__distance_to_side(const double a[2], const double b[2], const double p[2])
{
    const double along[2] = {b[0] - a[0], b[1] - a[1]};
    const double square = along[0] * along[0] + along[1] * along[1];
    double share = 0.0;
    if (square > 0.0) {
        share = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / square;
        share = fmin(fmax(share, 0.0), 1.0);
    }
    return hypot(p[0] - a[0] - share * along[0], p[1] - a[1] - share * along[1]);
}

double trivet__distance_of_sides(const double a[2], const double b[2], const double c[2],
                                 const double d[2])
{
    const int c_and_d_apart = cross(a, b, c) * cross(a, b, d) < 0.0;
    const int a_and_b_apart = cross(c, d, a) * cross(c, d, b) < 0.0;
    if (c_and_d_apart && a_and_b_apart) {
        return 0.0;
    }
    return fmin(fmin(trivet__distance_to_side(a, b, c), trivet__distance_to_side(a, b, d)),
                fmin(trivet__distance_to_side(c, d, a), trivet__distance_to_side(c, d, b)));
}

/* The point that is farthest back (x, then y). */
static int32_t first_of(const double *points, int32_t count)
{
    int32_t first = 0;
    for (int32_t i = 1; i < count; i++) {
        const double *const p = points + 2 * i;
        const double *const q = points + 2 * first;
        if (p[0] < q[0] || (p[0] == q[0] && p[1] < q[1])) {
            first = i;
        }
    }
    return first;
}

/* The next corner behind here: none lies to the right of the way there; of two on it the farther.
 */
static int32_t next_of(const double *points, int32_t count, int32_t here)
{
    const double *const o = points + 2 * here;
    int32_t next = here;
    for (int32_t i = 0; i < count; i++) {
        const double *const p = points + 2 * i;
        const double *const q = points + 2 * next;
        const double far = apart(o, p);
        const double near = apart(o, q);
        const double turn = cross(o, q, p);
        const double least = STRAIGHT * far * near;
        if (far > 0.0 && (next == here || turn < -least || (turn <= least && far > near))) {
            next = i;
        }
    }
    return next;
}

/* The number of a corner among those found, or -1. */
static int32_t corner_of(const double *hull, int32_t count, const double p[2])
{
    for (int32_t i = 0; i < count; i++) {
        if (hull[2 * i] == p[0] && hull[2 * i + 1] == p[1]) {
            return i;
        }
    }
    return -1;
}

/*
 * The walk ends where it meets itself. That need not be where it began: within rounding the first
 * point may lie on a straight side, and is then no corner.
 */
int32_t trivet__convex_outline(const double *points, int32_t count, double *hull_out)
{
    int32_t here = first_of(points, count);
    int32_t found = 0;
    int32_t met = -1;
    while (met < 0) {
        hull_out[2 * found] = points[2 * here];
        hull_out[2 * found + 1] = points[2 * here + 1];
        found++;
        here = next_of(points, count, here);
        met = corner_of(hull_out, found, points + 2 * here);
    }
    memmove(hull_out, hull_out + 2 * met, (size_t)(found - met) * 2 * sizeof *hull_out);
    return found - met;
}

double trivet__polygon_area(const double *corners, int32_t count)
{
    double twice = 0.0;
    for (int32_t i = 1; i + 1 < count; i++) {
        twice += cross(corners, corners + 2 * i, corners + 2 * (i + 1));
    }
    return 0.5 * twice;
}

/* Whether the side behind corner i turns straight back onto the one before it. */
static int folds_back(const double *corners, int32_t count, int32_t i)
{
    const double *const before = corner_at(corners, count, i + count - 1);
    const double *const here = corner_at(corners, count, i);
    const double *const after = corner_at(corners, count, i + 1);
    const double lengths = apart(before, here) * apart(here, after);
    const double on =
        (here[0] - before[0]) * (after[0] - here[0]) + (here[1] - before[1]) * (after[1] - here[1]);
    return !(lengths > 0.0) || (on < 0.0 && fabs(cross(before, here, after)) <= STRAIGHT * lengths);
}

int trivet__polygon_crosses(const double *corners, int32_t count, int32_t *one_out,
                            int32_t *other_out)
{
    for (int32_t i = 0; i < count; i++) {
        *one_out = (i + count - 1) % count;
        *other_out = i;
        if (folds_back(corners, count, i)) {
            return 1;
        }
        for (int32_t k = i + 2; k < count; k++) {
            const int are_neighbours = i == 0 && k == count - 1;
            const double distance = trivet__distance_of_sides(
                corner_at(corners, count, i), corner_at(corners, count, i + 1),
                corner_at(corners, count, k), corner_at(corners, count, k + 1));
            if (!are_neighbours && !(distance > 0.0)) {
                *one_out = i;
                *other_out = k;
                return 1;
            }
        }
    }
    return 0;
}

static int holds(const double *corners, int32_t count, const double p[2])
{
    int is_inside = 0;
    for (int32_t i = 0; i < count; i++) {
        const double *const a = corner_at(corners, count, i);
        const double *const b = corner_at(corners, count, i + 1);
        if ((a[1] > p[1]) != (b[1] > p[1])) {
            const double x = a[0] + (b[0] - a[0]) * ((p[1] - a[1]) / (b[1] - a[1]));
            is_inside ^= p[0] < x;
        }
    }
    return is_inside;
}

double trivet__polygon_depth(const double *corners, int32_t count, const double p[2])
{
    double nearest = (double)INFINITY;
    for (int32_t i = 0; i < count; i++) {
        nearest = fmin(nearest, trivet__distance_to_side(corner_at(corners, count, i),
                                                         corner_at(corners, count, i + 1), p));
    }
    return count > 2 && holds(corners, count, p) ? nearest : -nearest;
}
