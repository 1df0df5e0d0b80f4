/*
 * Section values: which shape goes where, and what all shapes share.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "stock/sections.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

trivet_status trivet_section_defaults(trivet_section *section, size_t size)
{
    return trivet__defaults(section, size, sizeof *section);
}

void trivet__corner_radii(const trivet_profile *profile, double *outer_out, double *inner_out)
{
    const double wall = profile->wall;
    double outer = 0.0;
    if (profile->corner == TRIVET_CORNER_STANDARD) {
        /* EN 10219-2 annex B: 2 T up to 6 mm, 2.5 T up to 10 mm, 3 T above; inside one T less. */
        outer = wall <= 0.006 ? 2.0 * wall : wall <= 0.010 ? 2.5 * wall : 3.0 * wall;
    } else if (profile->corner == TRIVET_CORNER_RADIUS) {
        outer = profile->corner_radius;
    }
    *outer_out = outer;
    *inner_out = fmax(outer - wall, 0.0);
}

trivet_status trivet_profile_radii(const trivet_profile *profile, double *outer_out,
                                   double *inner_out)
{
    double outer = 0.0;
    double inner = 0.0;
    trivet_status status = TRIVET_MISSING_ARGUMENT;
    if (profile) {
        status = profile->size == sizeof *profile ? TRIVET_OK : TRIVET_BAD_SIZE;
    }
    if (status == TRIVET_OK && profile->shape != TRIVET_SHAPE_SQUARE_TUBE &&
        profile->shape != TRIVET_SHAPE_RECTANGULAR_TUBE) {
        status = TRIVET_BAD_VALUE;
    }
    if (status == TRIVET_OK) {
        trivet__corner_radii(profile, &outer, &inner);
    }
    if (outer_out) {
        *outer_out = outer;
    }
    if (inner_out) {
        *inner_out = inner;
    }
    return status;
}

void trivet__add_stress_point(trivet_section *section, trivet_stress_point point)
{
    assert(section->point_count < TRIVET_STRESS_POINTS_MAX);
    if (section->point_count < TRIVET_STRESS_POINTS_MAX) {
        section->points[section->point_count++] = point;
    }
}

void trivet__section_from_outline(const trivet__outline *outline, trivet_section *section)
{
    const double ROUNDING = 1e-12;
    trivet__outline_values values;
    trivet__outline_solve(outline, &values);
    section->area = values.area;
    section->perimeter = values.perimeter;
    section->width = values.high[0] - values.low[0];
    section->height = values.high[1] - values.low[1];
    for (int i = 0; i < 2; i++) {
        const double middle = 0.5 * (values.low[i] + values.high[i]);
        const double away = values.centroid[i] - middle;
        /* Symmetric shapes get exact zeros, not rounding. */
        section->centroid[i] = fabs(away) <= ROUNDING * section->width ? 0.0 : away;
        section->second_moment[i] = values.second_moment[i];
        const int along = 1 - i;
        const double farthest = fmax(values.high[along] - values.centroid[along],
                                     values.centroid[along] - values.low[along]);
        section->elastic_modulus[i] = values.second_moment[i] / farthest;
        section->plastic_modulus[i] =
            trivet__outline_plastic(outline, i, values.low[along], values.high[along]);
    }
    const double scale = values.second_moment[0] + values.second_moment[1];
    section->product_moment =
        fabs(values.product_moment) <= ROUNDING * scale ? 0.0 : values.product_moment;
}

/*
 * Principal moments (I_1,2 = mean +- hypot(half difference, Iyz)) and the axis of the larger. About
 * an axis turned by a from y: I(a) = mean + (Iyy - Izz)/2 cos 2a - Iyz sin 2a, largest where
 * tan 2a = -2 Iyz/(Iyy - Izz).
 */
static void finish(trivet_section *section)
{
    const double PI = 3.14159265358979323846;
    const double Iyy = section->second_moment[0];
    const double Izz = section->second_moment[1];
    const double Iyz = section->product_moment;
    const double mean = 0.5 * (Iyy + Izz);
    const double reach = hypot(0.5 * (Iyy - Izz), Iyz);
    section->principal_moment[0] = Iyz == 0.0 ? fmax(Iyy, Izz) : mean + reach;
    section->principal_moment[1] = Iyz == 0.0 ? fmin(Iyy, Izz) : mean - reach;
    if (Iyz == 0.0) {
        section->principal_angle = Iyy >= Izz ? 0.0 : 0.5 * PI;
    } else {
        const double angle = 0.5 * atan2(-2.0 * Iyz, Iyy - Izz);
        section->principal_angle = angle <= -0.5 * PI ? angle + PI : angle;
    }
    section->radius_of_gyration[0] = sqrt(Iyy / section->area);
    section->radius_of_gyration[1] = sqrt(Izz / section->area);
}

static double not_known_if_zero(double value)
{
    return value > 0.0 ? value : (double)NAN;
}

/*
 * Section given by its values. If both moduli are given, stress is looked at in the four corners
 * of a box whose sides the moduli tell: y = +-Izz/Wz, z = +-Iyy/Wy, with shear stress V over the
 * shear area (1.5 V/A as in a rectangle where none is given) in all four, and torsion T/Wt.
 */
static void take_given_values(const trivet_profile *profile, trivet_section *section)
{
    section->area = profile->given_area;
    section->torsion_constant = profile->given_torsion_constant;
    section->torsion_modulus = not_known_if_zero(profile->given_torsion_modulus);
    section->mass_per_length = profile->given_mass_per_length;
    section->perimeter = (double)NAN;
    section->height = (double)NAN;
    section->width = (double)NAN;
    double per_V[2];
    for (int i = 0; i < 2; i++) {
        const double shear_area = profile->given_shear_area[i];
        section->shear_area[i] = shear_area > 0.0 ? shear_area : (double)INFINITY;
        per_V[i] = shear_area > 0.0 ? 1.0 / shear_area : 1.5 / section->area;
        section->second_moment[i] = profile->given_second_moment[i];
        section->elastic_modulus[i] = not_known_if_zero(profile->given_section_modulus[i]);
        section->plastic_modulus[i] = (double)NAN;
    }
    const double *const modulus = profile->given_section_modulus;
    if (!(modulus[0] > 0.0) || !(modulus[1] > 0.0)) {
        return;
    }
    const double Wt = profile->given_torsion_modulus;
    for (int corner = 0; corner < 4; corner++) {
        const double sy = corner == 0 || corner == 3 ? 1.0 : -1.0;
        const double sz = corner < 2 ? 1.0 : -1.0;
        trivet__add_stress_point(
            section, (trivet_stress_point){.y = sy * section->second_moment[1] / modulus[1],
                                           .z = sz * section->second_moment[0] / modulus[0],
                                           .per_Vy = -sz * per_V[0],
                                           .per_Vz = sy * per_V[1],
                                           .per_T = Wt > 0.0 ? 1.0 / Wt : 0.0});
    }
}

static trivet_status solve_shape(const trivet_profile *profile, trivet_section *section)
{
    double outer = 0.0;
    double inner = 0.0;
    switch (profile->shape) {
    case TRIVET_SHAPE_SQUARE_TUBE:
        trivet__corner_radii(profile, &outer, &inner);
        trivet__hollow_rectangle(profile->width, profile->width, profile->wall, outer, inner,
                                 section);
        break;
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        trivet__corner_radii(profile, &outer, &inner);
        trivet__hollow_rectangle(profile->height, profile->width, profile->wall, outer, inner,
                                 section);
        break;
    case TRIVET_SHAPE_ROUND_TUBE:
        trivet__round_section(profile->diameter, profile->diameter - 2.0 * profile->wall, section);
        break;
    case TRIVET_SHAPE_SQUARE_BAR:
        trivet__solid_rectangle(profile->width, profile->width, section);
        break;
    case TRIVET_SHAPE_FLAT_BAR:
        trivet__solid_rectangle(profile->height, profile->width, section);
        break;
    case TRIVET_SHAPE_ROUND_BAR:
        trivet__round_section(profile->diameter, 0.0, section);
        break;
    case TRIVET_SHAPE_ANGLE:
        trivet__angle_section(profile, section);
        break;
    case TRIVET_SHAPE_CHANNEL:
        trivet__channel_section(profile, section);
        break;
    case TRIVET_SHAPE_GIVEN_VALUES:
        take_given_values(profile, section);
        break;
    default:
        assert(profile->shape == TRIVET_SHAPE_SQUARE_TUBE); /* the check let no other through */
        return TRIVET_INTERNAL;
    }
    finish(section);
    return TRIVET_OK;
}

trivet_status trivet_section_solve(const trivet_profile *profile, trivet_section *section_out,
                                   trivet_message *message)
{
    trivet_message_clear(message);
    if (!section_out) {
        return trivet__missing(message, "section_out");
    }
    trivet_status status =
        trivet__size_check(section_out->size, sizeof *section_out, "section",
                           "fill it with trivet_section_defaults first", message);
    if (status != TRIVET_OK) {
        return status;
    }
    *section_out = (trivet_section){.size = sizeof *section_out};
    if (!profile) {
        return trivet__missing(message, "profile");
    }
    status = trivet__profile_check(profile, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet_status solved = solve_shape(profile, section_out);
    if (solved != TRIVET_OK) {
        *section_out = (trivet_section){.size = sizeof *section_out};
        return trivet__refuse(message, solved, trivet_shape_text(profile->shape),
                              "has no section values", "report this as a mistake in the library");
    }
    return TRIVET_OK;
}
