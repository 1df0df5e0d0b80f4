/*
 * The shape of a section. Corners that are not rounded have as many points as rounded ones, all in
 * one place, so that outside and inside pair up; what has no area is dropped when it is meshed.
 */
#include "report/export_solid.h"

#include <assert.h>
#include <math.h>

#define PI 3.14159265358979323846

static void add_point(trivet__solid *solid, trivet__path_point outer, trivet__path_point inner)
{
    assert(solid->count < TRIVET__PATH_MAX);
    if (solid->count < TRIVET__PATH_MAX) {
        solid->outer[solid->count] = outer;
        solid->inner[solid->count] = inner;
        solid->count++;
    }
}

/* A place at radius from middle in a direction, the normal along it (sign 1) or against it. */
static trivet__path_point round_point(double y, double z, double radius, const double direction[2],
                                      double sign)
{
    return (trivet__path_point){{y + radius * direction[0], z + radius * direction[1]},
                                {sign * direction[0], sign * direction[1]}};
}

/* Exact where a facet meets a straight side. */
static void direction_at(int number, int of, double out[2])
{
    const int quarter = of / 4;
    const int turns = number / quarter;
    const double angle = 2.0 * PI * (number % quarter) / of;
    const double c = number % quarter == 0 ? 1.0 : cos(angle);
    const double s = number % quarter == 0 ? 0.0 : sin(angle);
    const double quarters[4][2] = {{c, s}, {-s, c}, {-c, -s}, {s, -c}};
    out[0] = quarters[turns % 4][0];
    out[1] = quarters[turns % 4][1];
}

static void add_round(trivet__solid *solid, double outer, double inner)
{
    for (int i = 0; i < TRIVET__PATH_MAX; i++) {
        double direction[2];
        direction_at(i, TRIVET__PATH_MAX, direction);
        add_point(solid, round_point(0.0, 0.0, outer, direction, 1.0),
                  round_point(0.0, 0.0, inner, direction, -1.0));
    }
}

/* A rectangle's size, m, and the radius of its corners. */
typedef struct rectangle {
    double width;
    double height;
    double radius;
} rectangle;

static trivet__path_point rectangle_point(const rectangle *of, int corner,
                                          const double direction[2], double sign)
{
    const double sy = corner == 0 || corner == 3 ? 1.0 : -1.0;
    const double sz = corner < 2 ? 1.0 : -1.0;
    return round_point(sy * (0.5 * of->width - of->radius), sz * (0.5 * of->height - of->radius),
                       of->radius, direction, sign);
}

/* From the right upwards: the corner +y +z is turned first. */
static void add_rectangles(trivet__solid *solid, const rectangle *outer, const rectangle *inner)
{
    for (int corner = 0; corner < 4; corner++) {
        for (int i = 0; i <= TRIVET__CORNER_FACETS; i++) {
            double direction[2];
            direction_at(corner * TRIVET__CORNER_FACETS + i, 4 * TRIVET__CORNER_FACETS, direction);
            add_point(solid, rectangle_point(outer, corner, direction, 1.0),
                      rectangle_point(inner, corner, direction, -1.0));
        }
    }
}

/* A wall of an open section: from its first to its last end, outside and inside. */
static void add_wall(trivet__solid *solid, const double outer[2][2], const double inner[2][2])
{
    const double along[2] = {outer[1][0] - outer[0][0], outer[1][1] - outer[0][1]};
    const double length = hypot(along[0], along[1]);
    const double out[2] = {along[1] / length, -along[0] / length};
    for (int i = 0; i < 2; i++) {
        add_point(solid, (trivet__path_point){{outer[i][0], outer[i][1]}, {out[0], out[1]}},
                  (trivet__path_point){{inner[i][0], inner[i][1]}, {-out[0], -out[1]}});
    }
}

/* An angle's heel is at -y -z; the path runs down the upright and out along the foot. */
static void add_angle(trivet__solid *solid, const trivet_profile *of)
{
    const double y = 0.5 * of->width;
    const double z = 0.5 * of->height;
    const double t = of->wall;
    const double outer[3][2] = {{-y, z}, {-y, -z}, {y, -z}};
    const double inner[3][2] = {{t - y, z}, {t - y, t - z}, {y, t - z}};
    for (int i = 0; i < 2; i++) {
        add_wall(solid, outer + i, inner + i);
    }
}

/* A channel's web is at -y; the path runs in along the top, down the web, out along the bottom. */
static void add_channel(trivet__solid *solid, const trivet_profile *of)
{
    const double y = 0.5 * of->width;
    const double z = 0.5 * of->height;
    const double t = of->wall;
    const double f = of->flange;
    const double outer[4][2] = {{y, z}, {-y, z}, {-y, -z}, {y, -z}};
    const double inner[4][2] = {{y, z - f}, {t - y, z - f}, {t - y, f - z}, {y, f - z}};
    for (int i = 0; i < 3; i++) {
        add_wall(solid, outer + i, inner + i);
    }
}

static void add_box(trivet__solid *solid, const trivet_profile *of, const trivet_section *section)
{
    rectangle outer = {section->width, section->height, 0.0};
    rectangle inner = {section->width - 2.0 * of->wall, section->height - 2.0 * of->wall, 0.0};
    trivet_profile_radii(of, &outer.radius, &inner.radius);
    add_rectangles(solid, &outer, &inner);
}

static void add_bar(trivet__solid *solid, double width, double height)
{
    const rectangle outer = {width, height, 0.0};
    const rectangle inner = {0.0, 0.0, 0.0};
    add_rectangles(solid, &outer, &inner);
}

static void move_to_centroid(trivet__solid *solid, const double centroid[2])
{
    for (int32_t i = 0; i < solid->count; i++) {
        for (int k = 0; k < 2; k++) {
            solid->outer[i].at[k] -= centroid[k];
            solid->inner[i].at[k] -= centroid[k];
        }
    }
}

void trivet__solid_of(const trivet_profile *profile, const trivet_section *section,
                      trivet__solid *solid_out)
{
    const double side = sqrt(section->area);
    solid_out->count = 0;
    solid_out->is_loop = 1;
    switch (profile->shape) {
    case TRIVET_SHAPE_ROUND_TUBE:
    case TRIVET_SHAPE_ROUND_BAR:
        add_round(solid_out, section->outer_radius, section->inner_radius);
        break;
    case TRIVET_SHAPE_SQUARE_TUBE:
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        add_box(solid_out, profile, section);
        break;
    case TRIVET_SHAPE_SQUARE_BAR:
    case TRIVET_SHAPE_FLAT_BAR:
        add_bar(solid_out, section->width, section->height);
        break;
    case TRIVET_SHAPE_ANGLE:
        solid_out->is_loop = 0;
        add_angle(solid_out, profile);
        move_to_centroid(solid_out, section->centroid);
        break;
    case TRIVET_SHAPE_CHANNEL:
        solid_out->is_loop = 0;
        add_channel(solid_out, profile);
        move_to_centroid(solid_out, section->centroid);
        break;
    default: /* values alone: no shape is known */
        add_bar(solid_out, side, side);
        break;
    }
}
