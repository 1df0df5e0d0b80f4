/*
 * Square and flat bar. Shear area: Cowper (1966), k = 10 (1+n)/(12+11n). Torsion: Saint-Venant's
 * series as in Timoshenko & Goodier, Theory of Elasticity, art. 109, with a >= b the sides:
 *
 *     It = a b^3 (1/3 - 64/pi^5 b/a sum over odd n of tanh(n pi a/(2b))/n^5)
 *     tau_max = T b k1/It, k1 = 1 - 8/pi^2 sum over odd n of 1/(n^2 cosh(n pi a/(2b)))
 *
 * tau_max stands in the middle of the long sides; the short sides are given the same.
 */
#include "stock/sections.h"

#include <math.h>

static void solve_torsion(double height, double width, trivet_section *section)
{
    const double PI = 3.14159265358979323846;
    enum { LAST_TERM = 399 }; /* 1/399^5 is below 1e-13: with the factor before it, rounding */
    const double a = fmax(height, width);
    const double b = fmin(height, width);
    double constant_sum = 0.0;
    double stress_sum = 0.0;
    /* Small terms first. */
    for (int n = LAST_TERM; n >= 1; n -= 2) {
        const double x = n * PI * a / (2.0 * b);
        const double n2 = (double)n * n;
        constant_sum += tanh(x) / (n2 * n2 * n);
        stress_sum += 1.0 / (n2 * cosh(x));
    }
    const double pi5 = PI * PI * PI * PI * PI;
    const double k1 = 1.0 - 8.0 / (PI * PI) * stress_sum;
    section->torsion_constant = a * b * b * b * (1.0 / 3.0 - 64.0 / pi5 * (b / a) * constant_sum);
    section->torsion_modulus = section->torsion_constant / (b * k1);
}

/* Corners carry no shear; the middles of the sides carry 1.5 V/A and the torsion. */
static void add_points(trivet_section *section)
{
    const double y = 0.5 * section->width;
    const double z = 0.5 * section->height;
    const double per_V = 1.5 / section->area;
    const double per_T = 1.0 / section->torsion_modulus;
    for (int side = 0; side < 2; side++) {
        const double s = side == 0 ? 1.0 : -1.0;
        trivet__add_stress_point(section, (trivet_stress_point){.y = s * y, .z = z});
        trivet__add_stress_point(section, (trivet_stress_point){.y = s * y, .z = -z});
        trivet__add_stress_point(
            section, (trivet_stress_point){.y = s * y, .per_Vz = s * per_V, .per_T = per_T});
        trivet__add_stress_point(
            section, (trivet_stress_point){.z = s * z, .per_Vy = -s * per_V, .per_T = per_T});
    }
}

void trivet__solid_rectangle(double height, double width, trivet_section *section)
{
    const double n = TRIVET__SHEAR_POISSON;
    const double k = 10.0 * (1.0 + n) / (12.0 + 11.0 * n);
    const double sides[2] = {height, width};
    section->area = height * width;
    for (int i = 0; i < 2; i++) {
        section->shear_area[i] = k * section->area;
        section->second_moment[i] = section->area * sides[i] * sides[i] / 12.0;
        section->elastic_modulus[i] = section->area * sides[i] / 6.0;
        section->plastic_modulus[i] = section->area * sides[i] / 4.0;
    }
    section->perimeter = 2.0 * (height + width);
    section->height = height;
    section->width = width;
    solve_torsion(height, width, section);
    add_points(section);
}
