/*
 * Von Mises stress at a section's stress points, largest along a stretch.
 *
 * At a point of the section sigma and tau are linear in the forces inside, which are cubics of the
 * way t along the stretch. So sigma^2 + 3 tau^2 is a polynomial of degree six; it is largest at an
 * end or at a root of its derivative, and all of those are looked at: nothing is sampled.
 *
 * Normal stress with skew axes, from sigma = N/A + b y + c z and My = integral of sigma z,
 * Mz = - integral of sigma y (any text on strength of materials):
 *   c = (My Izz + Mz Iyz) / D,  b = -(Mz Iyy + My Iyz) / D,  D = Iyy Izz - Iyz^2.
 */
#include "checks/stress.h"

#include "numerics/numerics.h"

#include <math.h>

void trivet__normal_stress(const trivet_section *section, double y, double z, double per[3])
{
    const double Iyy = section->second_moment[0];
    const double Izz = section->second_moment[1];
    const double Iyz = section->product_moment;
    const double D = Iyy * Izz - Iyz * Iyz;
    per[0] = 1.0 / section->area;
    per[1] = (Izz * z - Iyz * y) / D;
    per[2] = (Iyz * z - Iyy * y) / D;
}

double trivet__cubic(const double c[4], double t)
{
    return ((c[3] * t + c[2]) * t + c[1]) * t + c[0];
}

double trivet__cubic_bound(const double c[4])
{
    return fabs(c[0]) + fabs(c[1]) + fabs(c[2]) + fabs(c[3]);
}

static double square_at(const double sigma[4], const double tau[4], double t)
{
    const double s = trivet__cubic(sigma, t);
    const double q = trivet__cubic(tau, t);
    return s * s + 3.0 * q * q;
}

/* Derivative of sigma^2 + 3 tau^2: 2 sigma sigma' + 6 tau tau'. Returns its degree. */
static int32_t derive(const double sigma[4], const double tau[4], double out[6])
{
    for (int k = 0; k < 6; k++) {
        out[k] = 0.0;
    }
    for (int i = 0; i < 4; i++) {
        for (int j = 1; j < 4; j++) {
            out[i + j - 1] += 2.0 * (double)j * (sigma[i] * sigma[j] + 3.0 * tau[i] * tau[j]);
        }
    }
    int32_t degree = 5;
    while (degree > 0 && out[degree] == 0.0) {
        degree--;
    }
    return degree;
}

double trivet__largest_square(const double sigma[4], const double tau[4], double *t_out)
{
    double slope[6];
    double roots[6];
    const int32_t degree = derive(sigma, tau, slope);
    /* Squares of straight lines are convex: nothing between the ends is larger. */
    const int is_convex = sigma[2] == 0.0 && sigma[3] == 0.0 && tau[2] == 0.0 && tau[3] == 0.0;
    int32_t count = 0;
    if (degree > 0 && !is_convex) {
        count = trivet__polynomial_roots(slope, degree, 0.0, 1.0, roots);
    }
    double largest = square_at(sigma, tau, 0.0);
    *t_out = 0.0;
    for (int32_t i = 0; i <= count; i++) {
        const double t = i < count ? roots[i] : 1.0;
        const double square = square_at(sigma, tau, t);
        if (square > largest) {
            largest = square;
            *t_out = t;
        }
    }
    return largest;
}

/* sigma and tau along the stretch at a stress point; sense: +1 or -1, of the twist. */
static void stress_cubics(const trivet_section *section, const trivet_stress_point *point,
                          double sense, const trivet__stretch *stretch, double sigma[4],
                          double tau[4])
{
    double per[3];
    trivet__normal_stress(section, point->y, point->z, per);
    for (int k = 0; k < 4; k++) {
        sigma[k] = per[0] * stretch->forces[0][k] + per[1] * stretch->forces[4][k] +
                   per[2] * stretch->forces[5][k];
        tau[k] = point->per_Vy * stretch->forces[1][k] + point->per_Vz * stretch->forces[2][k] +
                 sense * point->per_T * stretch->forces[3][k];
    }
}

int trivet__stress_of_points(const trivet_section *section, const trivet__stretch *stretch,
                             trivet__spot *spot)
{
    const int senses = section->is_open ? 2 : 1;
    int found = 0;
    for (int32_t i = 0; i < section->point_count * senses; i++) {
        const int32_t p = i / senses;
        const trivet_stress_point *const point = &section->points[p];
        double sigma[4];
        double tau[4];
        stress_cubics(section, point, i % senses ? -1.0 : 1.0, stretch, sigma, tau);
        const double s = trivet__cubic_bound(sigma);
        const double q = trivet__cubic_bound(tau);
        const double bound = s * s + 3.0 * q * q;
        if (!(bound < HUGE_VAL)) {
            return -1;
        }
        if (bound <= spot->square) {
            continue; /* nowhere on the stretch can this point be the worst */
        }
        double t = 0.0;
        const double square = trivet__largest_square(sigma, tau, &t);
        if (square > spot->square) {
            *spot = (trivet__spot){square, t, point->y, point->z, p};
            found = 1;
        }
    }
    return found;
}
