/*
 * Square and rectangular tube after EN 10219-2 annex B (EN 10210-2 has the same formulas with
 * other radii), and round tube and bar.
 *
 * Area, moments and moduli come from the outline with its rounded corners. Torsion: with the mean
 * radius Rc, the length hm and the area Ah of the line in the middle of the wall,
 * It = T^3 hm/3 + 2 K Ah, Ct = It/(T + K/T), K = 2 Ah T/hm. Shear area: I^2 / integral of Q^2/t ds
 * along the middle line with sharp corners.
 */
#include "stock/sections.h"

#include <math.h>

#define PI 3.14159265358979323846

/*
 * Shear area for shear along the side `along` of a thin-walled box; across: the other side; both of
 * the middle line. With a = along/2, flow is 0 in the middle of the flanges and grows to
 * Q = t a across/2 in the corners, then in each web Q(z) = t (a across/2 + (a^2 - z^2)/2).
 */
static double box_shear_area(double along, double across, double wall)
{
    const double a = 0.5 * along;
    const double q = 0.5 * a * across;
    const double moment = wall * (2.0 * across * a * a + along * along * along / 6.0);
    const double flanges = a * a * across * across * across / 6.0;
    const double webs =
        2.0 * (2.0 * a * q * q + 4.0 / 3.0 * a * a * a * q + 4.0 / 15.0 * a * a * a * a * a);
    return moment * moment / (wall * (flanges + webs));
}

/*
 * The four corners, taken as sharp (y = b/2, z = h/2: on the side of caution, and the same as
 * N/A + My/Wy + Mz/Wz), and the middles of the walls. Half the flow of V runs in each of two walls:
 * tau = V Q/(I 2 T), with Q of half the section (half the plastic modulus) in the middle of a wall
 * and of one flange, T b' h'/2, in a corner.
 */
static void add_box_points(double wall, trivet_section *section)
{
    const double b = section->width;
    const double h = section->height;
    const double corner_Q = 0.5 * wall * (b - wall) * (h - wall);
    const double per_wall_z = 1.0 / (2.0 * wall * section->second_moment[0]);
    const double per_wall_y = 1.0 / (2.0 * wall * section->second_moment[1]);
    const double per_T = 1.0 / section->torsion_modulus;
    for (int corner = 0; corner < 4; corner++) {
        const double sy = corner == 0 || corner == 3 ? 1.0 : -1.0;
        const double sz = corner < 2 ? 1.0 : -1.0;
        trivet__add_stress_point(section,
                                 (trivet_stress_point){.y = sy * 0.5 * b,
                                                       .z = sz * 0.5 * h,
                                                       .per_Vy = -sz * corner_Q * per_wall_y,
                                                       .per_Vz = sy * corner_Q * per_wall_z,
                                                       .per_T = per_T});
    }
    for (int side = 0; side < 2; side++) {
        const double s = side == 0 ? 1.0 : -1.0;
        const double side_Q = 0.5 * section->plastic_modulus[0];
        const double top_Q = 0.5 * section->plastic_modulus[1];
        trivet__add_stress_point(section, (trivet_stress_point){.y = s * 0.5 * b,
                                                                .per_Vz = s * side_Q * per_wall_z,
                                                                .per_T = per_T});
        trivet__add_stress_point(section, (trivet_stress_point){.z = s * 0.5 * h,
                                                                .per_Vy = -s * top_Q * per_wall_y,
                                                                .per_T = per_T});
    }
}

static void add_rectangle(trivet__outline *outline, double height, double width, double radius,
                          int is_hole)
{
    const double y = 0.5 * width;
    const double z = 0.5 * height;
    const trivet__corner corners[4] = {
        {y, -z, radius}, {y, z, radius}, {-y, z, radius}, {-y, -z, radius}};
    trivet__outline_add(outline, corners, 4, is_hole);
}

void trivet__hollow_rectangle(double height, double width, double wall, double outer_radius,
                              double inner_radius, trivet_section *section)
{
    trivet__outline outline = {0};
    add_rectangle(&outline, height, width, outer_radius, 0);
    add_rectangle(&outline, height - 2.0 * wall, width - 2.0 * wall, inner_radius, 1);
    trivet__section_from_outline(&outline, section);

    const double along = height - wall;
    const double across = width - wall;
    section->shear_area[0] = box_shear_area(across, along, wall);
    section->shear_area[1] = box_shear_area(along, across, wall);

    const double Rc = 0.5 * (outer_radius + inner_radius);
    const double hm = 2.0 * (along + across) - 2.0 * Rc * (4.0 - PI);
    const double Ah = along * across - Rc * Rc * (4.0 - PI);
    const double K = 2.0 * Ah * wall / hm;
    section->torsion_constant = wall * wall * wall * hm / 3.0 + 2.0 * K * Ah;
    section->torsion_modulus = section->torsion_constant / (wall + K / wall);
    add_box_points(wall, section);
}

/*
 * Shear area of rounds: Cowper (1966), "The shear coefficient in Timoshenko's beam theory", table
 * 1: k = 6 (1+n)(1+m^2)^2 / ((7+6n)(1+m^2)^2 + (20+12n) m^2) with m = inner/outer radius.
 */
void trivet__round_section(double outer, double inner, trivet_section *section)
{
    const double n = TRIVET__SHEAR_POISSON;
    const double m2 = inner * inner / (outer * outer);
    const double sum2 = (1.0 + m2) * (1.0 + m2);
    const double k = 6.0 * (1.0 + n) * sum2 / ((7.0 + 6.0 * n) * sum2 + (20.0 + 12.0 * n) * m2);
    /* Differences of powers as products: thin walls lose no digits. */
    const double ring = (outer - inner) * (outer + inner);
    section->area = 0.25 * PI * ring;
    const double I = PI / 64.0 * ring * (outer * outer + inner * inner);
    const double plastic = (outer - inner) * (outer * outer + outer * inner + inner * inner) / 6.0;
    for (int i = 0; i < 2; i++) {
        section->second_moment[i] = I;
        section->shear_area[i] = k * section->area;
        section->elastic_modulus[i] = 2.0 * I / outer;
        section->plastic_modulus[i] = plastic;
    }
    section->torsion_constant = 2.0 * I;
    section->torsion_modulus = 4.0 * I / outer;
    section->perimeter = PI * outer;
    section->height = outer;
    section->width = outer;
    section->outer_radius = 0.5 * outer;
    section->inner_radius = 0.5 * inner;
}
