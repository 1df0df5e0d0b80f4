/*
 * The axes of a tube. x runs from its first to its last joint; z lies in the vertical plane
 * through the tube and points up, or forward (world x) for a tube within 0.1 degree of vertical;
 * y = z cross x. Roll turns y and z about x, right-handed.
 */
#include "base/vec3.h"
#include "statics/span.h"

/* Sine of 0.1 degree: below it a tube counts as vertical. */
#define VERTICAL_SINE 1.7453283658983088e-3

static void make_unit(double v[3])
{
    const double length = trivet__length3(v);
    for (int i = 0; i < 3; i++) {
        v[i] /= length;
    }
}

void trivet__tube_axes(const double first[3], const double last[3], double roll, double axes[9])
{
    double *const x = axes;
    double *const y = axes + 3;
    double *const z = axes + 6;
    trivet__minus3(last, first, x);
    make_unit(x);
    const double sine = sqrt(x[0] * x[0] + x[1] * x[1]);
    const int is_vertical = sine < VERTICAL_SINE;
    const double towards[3] = {is_vertical ? 1.0 : 0.0, 0.0, is_vertical ? 0.0 : 1.0};
    trivet__cross3(towards, x, y);
    make_unit(y);
    trivet__cross3(x, y, z);
    if (roll == 0.0) {
        return;
    }
    const double c = cos(roll);
    const double s = sin(roll);
    for (int i = 0; i < 3; i++) {
        const double flat_y = y[i];
        const double flat_z = z[i];
        y[i] = c * flat_y + s * flat_z;
        z[i] = c * flat_z - s * flat_y;
    }
}
