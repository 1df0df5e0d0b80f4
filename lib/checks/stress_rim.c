/*
 * Von Mises stress on the rim of a round tube or bar, largest along a stretch.
 *
 * On the rim at the angle phi from y towards z, with r the outer radius:
 *   sigma = N/A - Mz r/I cos(phi) + My r/I sin(phi)
 *   tau   = T/Wt + k/A (Vz cos(phi) - Vy sin(phi)),  k = 4/3 (ro^2 + ro ri + ri^2)/(ro^2 + ri^2)
 * k V/A is the mean shear stress across the wall at the neutral axis, V Q/(I b) (Jourawski), from
 * 4/3 for a bar to 2 for a thin tube; along the rim it falls off with the angle as in a thin tube.
 *
 * At a given place sigma^2 + 3 tau^2 is a trigonometric polynomial of degree two; with
 * u = tan(phi/2) its stationary points are the roots of a quartic, so the worst angle is exact. At
 * a given angle the worst place is exact too (see stress.c). The two are taken in turn until the
 * stress rises no more, from eight angles, so that the place found is the highest of all hills
 * but for hills that no one of the eight angles sees.
 */
#include "checks/stress.h"

#include "numerics/numerics.h"

#include <math.h>

enum { START_COUNT = 8, TURNS_MAX = 24 };

/* cos and sin of multiples of 45 degrees. */
#define HALF_ROOT_2 0.70710678118654752440
static const double START[START_COUNT][2] = {
    {1.0, 0.0},  {HALF_ROOT_2, HALF_ROOT_2},   {0.0, 1.0},  {-HALF_ROOT_2, HALF_ROOT_2},
    {-1.0, 0.0}, {-HALF_ROOT_2, -HALF_ROOT_2}, {0.0, -1.0}, {HALF_ROOT_2, -HALF_ROOT_2}};

/* sigma = [0] + [1] cos + [2] sin, tau = [3] + [4] cos + [5] sin, each a cubic of t. */
typedef struct rim {
    double cubics[6][4];
} rim;

double trivet__rim_shear_factor(const trivet_section *section)
{
    const double ro = section->outer_radius;
    const double ri = section->inner_radius;
    return 4.0 / 3.0 * (ro * ro + ro * ri + ri * ri) / (ro * ro + ri * ri);
}

static void fill_rim(const trivet_section *section, const trivet__stretch *stretch, rim *out)
{
    const double per_moment = section->outer_radius / section->second_moment[0];
    const double per_shear = trivet__rim_shear_factor(section) / section->area;
    for (int k = 0; k < 4; k++) {
        out->cubics[0][k] = stretch->forces[0][k] / section->area;
        out->cubics[1][k] = -stretch->forces[5][k] * per_moment;
        out->cubics[2][k] = stretch->forces[4][k] * per_moment;
        out->cubics[3][k] = stretch->forces[3][k] / section->torsion_modulus;
        out->cubics[4][k] = stretch->forces[2][k] * per_shear;
        out->cubics[5][k] = -stretch->forces[1][k] * per_shear;
    }
}

/* Nothing on the stretch is larger than this. */
static double square_bound(const rim *of)
{
    double s = 0.0;
    double q = 0.0;
    for (int i = 0; i < 3; i++) {
        s += trivet__cubic_bound(of->cubics[i]);
        q += trivet__cubic_bound(of->cubics[i + 3]);
    }
    return s * s + 3.0 * q * q;
}

/* Worst place at an angle given by its cosine and sine. */
static double worst_place(const rim *of, const double angle[2], double *t_out)
{
    double sigma[4];
    double tau[4];
    for (int k = 0; k < 4; k++) {
        sigma[k] = of->cubics[0][k] + angle[0] * of->cubics[1][k] + angle[1] * of->cubics[2][k];
        tau[k] = of->cubics[3][k] + angle[0] * of->cubics[4][k] + angle[1] * of->cubics[5][k];
    }
    return trivet__largest_square(sigma, tau, t_out);
}

static double square_of(const double v[6], double cosine, double sine)
{
    const double sigma = v[0] + cosine * v[1] + sine * v[2];
    const double tau = v[3] + cosine * v[4] + sine * v[5];
    return sigma * sigma + 3.0 * tau * tau;
}

/* Worst angle at a place: the stationary points of each half of the rim, u = tan(phi/2) in -1..1.
 */
static double worst_angle(const rim *of, double t, double angle[2])
{
    double v[6];
    for (int i = 0; i < 6; i++) {
        v[i] = trivet__cubic(of->cubics[i], t);
    }
    const double A1 = 2.0 * (v[0] * v[1] + 3.0 * v[3] * v[4]);
    const double B1 = 2.0 * (v[0] * v[2] + 3.0 * v[3] * v[5]);
    const double A2 = 0.5 * (v[1] * v[1] - v[2] * v[2] + 3.0 * (v[4] * v[4] - v[5] * v[5]));
    const double B2 = v[1] * v[2] + 3.0 * v[4] * v[5];
    double largest = square_of(v, angle[0], angle[1]);
    for (int half = 0; half < 2; half++) {
        const double side = half == 0 ? 1.0 : -1.0; /* the second half is turned by pi */
        const double a = side * A1;
        const double b = side * B1;
        const double slope[5] = {b + 2.0 * B2, -2.0 * a - 8.0 * A2, -12.0 * B2, -2.0 * a + 8.0 * A2,
                                 -b + 2.0 * B2};
        double roots[5];
        int32_t degree = 4;
        while (degree > 0 && slope[degree] == 0.0) {
            degree--;
        }
        const int32_t count =
            degree > 0 ? trivet__polynomial_roots(slope, degree, -1.0, 1.0, roots) : 0;
        for (int32_t i = 0; i <= count; i++) {
            const double u = i < count ? roots[i] : 1.0; /* the seam of the halves as well */
            const double cosine = side * (1.0 - u * u) / (1.0 + u * u);
            const double sine = side * 2.0 * u / (1.0 + u * u);
            const double square = square_of(v, cosine, sine);
            if (square > largest) {
                largest = square;
                angle[0] = cosine;
                angle[1] = sine;
            }
        }
    }
    return largest;
}

int trivet__stress_of_rim(const trivet_section *section, const trivet__stretch *stretch,
                          trivet__spot *spot)
{
    rim of;
    fill_rim(section, stretch, &of);
    const double bound = square_bound(&of);
    if (!(bound < HUGE_VAL)) {
        return -1;
    }
    if (bound <= spot->square) {
        return 0;
    }
    int found = 0;
    for (int start = 0; start < START_COUNT; start++) {
        double angle[2] = {START[start][0], START[start][1]};
        double t = 0.0;
        double square = worst_place(&of, angle, &t);
        for (int turn = 0; turn < TURNS_MAX; turn++) {
            const double before = square;
            square = worst_angle(&of, t, angle);
            double further = t;
            const double higher = worst_place(&of, angle, &further);
            if (higher > square) {
                square = higher;
                t = further;
            }
            if (!(square > before * (1.0 + 1e-14))) {
                break;
            }
        }
        if (square > spot->square) {
            const double r = section->outer_radius;
            *spot = (trivet__spot){square, t, r * angle[0], r * angle[1], -1};
            found = 1;
        }
    }
    return found;
}
