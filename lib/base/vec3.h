/*
 * Vectors of three and rotations: static inline, so that inner loops stay plain loops.
 */
#ifndef TRIVET_BASE_VEC3_H
#define TRIVET_BASE_VEC3_H

#include <math.h>

static inline double trivet__dot3(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static inline double trivet__length3(const double a[3])
{
    return sqrt(trivet__dot3(a, a));
}

static inline void trivet__cross3(const double a[3], const double b[3], double out[3])
{
    const double x = a[1] * b[2] - a[2] * b[1];
    const double y = a[2] * b[0] - a[0] * b[2];
    const double z = a[0] * b[1] - a[1] * b[0];
    out[0] = x;
    out[1] = y;
    out[2] = z;
}

static inline void trivet__minus3(const double a[3], const double b[3], double out[3])
{
    for (int i = 0; i < 3; i++) {
        out[i] = a[i] - b[i];
    }
}

/* out += factor * a */
static inline void trivet__add3(double out[3], double factor, const double a[3])
{
    for (int i = 0; i < 3; i++) {
        out[i] += factor * a[i];
    }
}

/* Components of a world vector along axes (rows are the axes): out = axes * v. */
static inline void trivet__into_axes3(const double axes[9], const double v[3], double out[3])
{
    const double x = trivet__dot3(axes, v);
    const double y = trivet__dot3(axes + 3, v);
    const double z = trivet__dot3(axes + 6, v);
    out[0] = x;
    out[1] = y;
    out[2] = z;
}

/* Back into world axes: out = axes^T * v. */
static inline void trivet__from_axes3(const double axes[9], const double v[3], double out[3])
{
    double w[3] = {0.0, 0.0, 0.0};
    for (int k = 0; k < 3; k++) {
        trivet__add3(w, v[k], axes + 3 * k);
    }
    for (int i = 0; i < 3; i++) {
        out[i] = w[i];
    }
}

#endif
