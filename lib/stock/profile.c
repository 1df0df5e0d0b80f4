/*
 * Profiles by their sizes: names of shapes, what each shape needs, and the text people say.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "base/text.h"
#include "stock/sections.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

trivet_status trivet_profile_defaults(trivet_profile *profile, size_t size)
{
    return trivet__defaults(profile, size, sizeof *profile);
}

/* The sizes of a profile, one bit each, in the order of the table below. */
enum {
    HEIGHT = 1U << 0U,
    WIDTH = 1U << 1U,
    WALL = 1U << 2U,
    DIAMETER = 1U << 3U,
    CORNER_RADIUS = 1U << 4U,
    FLANGE = 1U << 5U,
    ROOT_RADIUS = 1U << 6U,
    TOE_RADIUS = 1U << 7U,
    AREA = 1U << 8U,
    SHEAR_AREA_Y = 1U << 9U,
    SHEAR_AREA_Z = 1U << 10U,
    MOMENT_Y = 1U << 11U,
    MOMENT_Z = 1U << 12U,
    TORSION_CONSTANT = 1U << 13U,
    MODULUS_Y = 1U << 14U,
    MODULUS_Z = 1U << 15U,
    TORSION_MODULUS = 1U << 16U,
    MASS_PER_LENGTH = 1U << 17U
};

typedef struct size_row {
    size_t offset;
    const char *text;
    trivet_dimension dimension;
} size_row;

static const size_row size_rows[] = {
    {offsetof(trivet_profile, height), "height", TRIVET_LENGTH},
    {offsetof(trivet_profile, width), "width", TRIVET_LENGTH},
    {offsetof(trivet_profile, wall), "wall", TRIVET_LENGTH},
    {offsetof(trivet_profile, diameter), "diameter", TRIVET_LENGTH},
    {offsetof(trivet_profile, corner_radius), "corner radius", TRIVET_LENGTH},
    {offsetof(trivet_profile, flange), "flange", TRIVET_LENGTH},
    {offsetof(trivet_profile, root_radius), "root radius", TRIVET_LENGTH},
    {offsetof(trivet_profile, toe_radius), "toe radius", TRIVET_LENGTH},
    {offsetof(trivet_profile, given_area), "area", TRIVET_AREA},
    {offsetof(trivet_profile, given_shear_area), "shear area along y", TRIVET_AREA},
    {offsetof(trivet_profile, given_shear_area) + sizeof(double), "shear area along z",
     TRIVET_AREA},
    {offsetof(trivet_profile, given_second_moment), "second moment about y", TRIVET_SECOND_MOMENT},
    {offsetof(trivet_profile, given_second_moment) + sizeof(double), "second moment about z",
     TRIVET_SECOND_MOMENT},
    {offsetof(trivet_profile, given_torsion_constant), "torsion constant", TRIVET_SECOND_MOMENT},
    {offsetof(trivet_profile, given_section_modulus), "section modulus about y", TRIVET_VOLUME},
    {offsetof(trivet_profile, given_section_modulus) + sizeof(double), "section modulus about z",
     TRIVET_VOLUME},
    {offsetof(trivet_profile, given_torsion_modulus), "torsion modulus", TRIVET_VOLUME},
    {offsetof(trivet_profile, given_mass_per_length), "mass per length", TRIVET_MASS_PER_LENGTH},
};

enum { SIZE_COUNT = sizeof size_rows / sizeof size_rows[0] };

typedef struct shape_row {
    const char *text;
    uint32_t needed;
    uint32_t allowed; /* besides those needed */
    int has_corner;
} shape_row;

static const shape_row shape_rows[] = {
    [TRIVET_SHAPE_SQUARE_TUBE] = {"square tube", WIDTH | WALL, CORNER_RADIUS, 1},
    [TRIVET_SHAPE_RECTANGULAR_TUBE] = {"rectangular tube", HEIGHT | WIDTH | WALL, CORNER_RADIUS, 1},
    [TRIVET_SHAPE_ROUND_TUBE] = {"round tube", DIAMETER | WALL, 0, 0},
    [TRIVET_SHAPE_SQUARE_BAR] = {"square bar", WIDTH, 0, 0},
    [TRIVET_SHAPE_FLAT_BAR] = {"flat bar", HEIGHT | WIDTH, 0, 0},
    [TRIVET_SHAPE_ROUND_BAR] = {"round bar", DIAMETER, 0, 0},
    [TRIVET_SHAPE_ANGLE] = {"angle", HEIGHT | WIDTH | WALL, ROOT_RADIUS | TOE_RADIUS, 0},
    [TRIVET_SHAPE_CHANNEL] = {"channel", HEIGHT | WIDTH | WALL | FLANGE, ROOT_RADIUS, 0},
    [TRIVET_SHAPE_GIVEN_VALUES] = {"given values", AREA | MOMENT_Y | MOMENT_Z | TORSION_CONSTANT,
                                   SHEAR_AREA_Y | SHEAR_AREA_Z | MODULUS_Y | MODULUS_Z |
                                       TORSION_MODULUS | MASS_PER_LENGTH,
                                   0},
};

static const shape_row *row_of(int32_t shape)
{
    const int32_t last = sizeof shape_rows / sizeof shape_rows[0] - 1;
    return shape >= TRIVET_SHAPE_SQUARE_TUBE && shape <= last ? &shape_rows[shape] : NULL;
}

const char *trivet_shape_text(int32_t shape)
{
    const shape_row *const row = row_of(shape);
    return row ? row->text : "unknown shape";
}

static double size_of(const trivet_profile *profile, const size_row *row)
{
    double value = 0.0;
    memcpy(&value, (const char *)profile + row->offset, sizeof value);
    return value;
}

/* An angle's sides are its legs to whoever wrote the file. */
static const char *size_text(const trivet_profile *profile, int i)
{
    if (profile->shape == TRIVET_SHAPE_ANGLE && i < 2) {
        return i == 0 ? "upright leg" : "flat leg";
    }
    return size_rows[i].text;
}

/* Far outside of what is sold, and far inside of what a double can take to the fourth power. */
static int is_within_range(trivet_dimension dimension, double value)
{
    const double LEAST = 1e-6; /* m */
    const double MOST = 100.0; /* m */
    const double power = dimension == TRIVET_LENGTH          ? 1.0
                         : dimension == TRIVET_AREA          ? 2.0
                         : dimension == TRIVET_VOLUME        ? 3.0
                         : dimension == TRIVET_SECOND_MOMENT ? 4.0
                                                             : 0.0;
    if (dimension == TRIVET_MASS_PER_LENGTH) {
        return value >= 1e-9 && value <= 1e9;
    }
    return value >= pow(LEAST, power) && value <= pow(MOST, power);
}

static trivet_status check_size(const trivet_profile *profile, const shape_row *row, int i,
                                trivet_message *message)
{
    const uint32_t bit = 1U << (uint32_t)i;
    const double value = size_of(profile, &size_rows[i]);
    const char *const name = size_text(profile, i);
    if (value == 0.0 && !(row->needed & bit)) {
        return TRIVET_OK;
    }
    if (value == 0.0) {
        trivet__refuse(message, TRIVET_BAD_VALUE, row->text, "", "");
        trivet__message_problem(message, "the %s is missing", name);
        trivet__message_remedy(message, "give the %s", name);
        return TRIVET_BAD_VALUE;
    }
    if (!((row->needed | row->allowed) & bit)) {
        trivet__refuse(message, TRIVET_BAD_VALUE, row->text, "", "");
        trivet__message_problem(message, "it has no %s", name);
        trivet__message_remedy(message, "leave the %s out or choose another shape", name);
        return TRIVET_BAD_VALUE;
    }
    if (is_within_range(size_rows[i].dimension, value)) {
        return TRIVET_OK;
    }
    char number[64];
    trivet_units_text(NULL, size_rows[i].dimension, value, 6, number, sizeof number);
    trivet__refuse(message, TRIVET_BAD_VALUE, row->text, "", "");
    trivet__message_problem(message, "the %s is %s", name, number);
    trivet__message_remedy(message,
                           value > 0.0 ? "check the unit of the %s: no stock is of that size"
                                       : "give a %s above 0",
                           name);
    return TRIVET_BAD_VALUE;
}

/* Refuses a size that is too large beside another; most: what it may be at most, m. */
static trivet_status refuse_size(const char *shape, const char *name, double value, double most,
                                 const char *why, trivet_message *message)
{
    char is[64];
    char may[64];
    trivet_units_text(NULL, TRIVET_LENGTH, value, 6, is, sizeof is);
    trivet_units_text(NULL, TRIVET_LENGTH, most, 6, may, sizeof may);
    trivet__refuse(message, TRIVET_BAD_VALUE, shape, "", "");
    trivet__message_problem(message, "the %s of %s %s", name, is, why);
    trivet__message_remedy(message, "give a %s below %s", name, may);
    return TRIVET_BAD_VALUE;
}

static trivet_status check_box(const trivet_profile *profile, const char *shape,
                               trivet_message *message)
{
    const double least = profile->shape == TRIVET_SHAPE_SQUARE_TUBE
                             ? profile->width
                             : fmin(profile->width, profile->height);
    if (!(2.0 * profile->wall < least)) {
        return refuse_size(shape, "wall", profile->wall, 0.5 * least, "leaves no room inside",
                           message);
    }
    double outer = 0.0;
    double inner = 0.0;
    trivet__corner_radii(profile, &outer, &inner);
    if (outer <= 0.5 * least) {
        return TRIVET_OK;
    }
    if (profile->corner == TRIVET_CORNER_RADIUS) {
        return refuse_size(shape, "corner radius", outer, 0.5 * least, "is more than half the side",
                           message);
    }
    refuse_size(shape, "usual corner radius", outer, 0.5 * least, "is more than half the side",
                message);
    trivet__message_remedy(message, "give the corner radius, or say that corners are sharp");
    return TRIVET_BAD_VALUE;
}

static trivet_status check_angle(const trivet_profile *profile, const char *shape,
                                 trivet_message *message)
{
    const double least = fmin(profile->width, profile->height);
    const double free_leg = least - profile->wall;
    if (!(free_leg > 0.0)) {
        return refuse_size(shape, "wall", profile->wall, least, "is as thick as a leg is long",
                           message);
    }
    if (!(profile->toe_radius <= profile->wall)) {
        return refuse_size(shape, "toe radius", profile->toe_radius, profile->wall,
                           "is more than the wall", message);
    }
    if (!(profile->root_radius + profile->toe_radius <= free_leg)) {
        return refuse_size(shape, "root radius", profile->root_radius,
                           free_leg - profile->toe_radius, "does not fit into the shorter leg",
                           message);
    }
    return TRIVET_OK;
}

static trivet_status check_channel(const trivet_profile *profile, const char *shape,
                                   trivet_message *message)
{
    if (!(profile->wall < profile->width)) {
        return refuse_size(shape, "wall", profile->wall, profile->width,
                           "is as thick as the channel is wide", message);
    }
    const double inside = profile->height - 2.0 * profile->flange;
    if (!(inside > 0.0)) {
        return refuse_size(shape, "flange", profile->flange, 0.5 * profile->height,
                           "leaves no room inside", message);
    }
    const double most = fmin(profile->width - profile->wall, 0.5 * inside);
    if (!(profile->root_radius <= most)) {
        return refuse_size(shape, "root radius", profile->root_radius, most,
                           "does not fit between web and flange", message);
    }
    return TRIVET_OK;
}

static trivet_status check_fit(const trivet_profile *profile, const char *shape,
                               trivet_message *message)
{
    switch (profile->shape) {
    case TRIVET_SHAPE_SQUARE_TUBE:
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        return check_box(profile, shape, message);
    case TRIVET_SHAPE_ROUND_TUBE:
        if (!(2.0 * profile->wall < profile->diameter)) {
            return refuse_size(shape, "wall", profile->wall, 0.5 * profile->diameter,
                               "leaves no room inside", message);
        }
        return TRIVET_OK;
    case TRIVET_SHAPE_ANGLE:
        return check_angle(profile, shape, message);
    case TRIVET_SHAPE_CHANNEL:
        return check_channel(profile, shape, message);
    default:
        return TRIVET_OK;
    }
}

static trivet_status check_corner(const trivet_profile *profile, const shape_row *row,
                                  trivet_message *message)
{
    const int is_known =
        profile->corner >= TRIVET_CORNER_STANDARD && profile->corner <= TRIVET_CORNER_SHARP;
    if (!is_known || (!row->has_corner && profile->corner != TRIVET_CORNER_STANDARD)) {
        trivet__refuse(message, TRIVET_BAD_VALUE, row->text, "",
                       row->has_corner ? "use a trivet_corner" : "leave the corner out");
        trivet__message_problem(message, "%d is no kind of corner for it", (int)profile->corner);
        return TRIVET_BAD_VALUE;
    }
    const int has_radius = profile->corner_radius != 0.0;
    if (has_radius && profile->corner != TRIVET_CORNER_RADIUS) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, row->text,
                              "a corner radius is given, but not asked for",
                              "leave it out or set the kind of corner to a radius");
    }
    if (!has_radius && profile->corner == TRIVET_CORNER_RADIUS) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, row->text, "the corner radius is missing",
                              "give the outer radius, or say that corners are sharp");
    }
    return TRIVET_OK;
}

trivet_status trivet__profile_check(const trivet_profile *profile, trivet_message *message)
{
    const trivet_status sized =
        trivet__size_check(profile->size, sizeof *profile, "profile",
                           "fill it with trivet_profile_defaults first", message);
    if (sized != TRIVET_OK) {
        return sized;
    }
    const shape_row *const row = row_of(profile->shape);
    if (!row) {
        trivet__refuse(message, TRIVET_BAD_VALUE, "stock", "", "use a trivet_shape");
        trivet__message_problem(message, "%d is no shape", (int)profile->shape);
        return TRIVET_BAD_VALUE;
    }
    for (int i = 0; i < SIZE_COUNT; i++) {
        const trivet_status status = check_size(profile, row, i, message);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    const trivet_status status = check_corner(profile, row, message);
    return status != TRIVET_OK ? status : check_fit(profile, row->text, message);
}

/* The sizes that people say, joined by " x "; the unit comes behind the last. */
size_t trivet_profile_text(const trivet_profile *profile, const trivet_units *units, char *text,
                           size_t size)
{
    enum { DIGITS = 6 };
    if (!profile || profile->size != sizeof *profile) {
        return trivet__text_print(text, size, "%s", "");
    }
    static const uint32_t said[] = {DIAMETER, HEIGHT, WIDTH, WALL, FLANGE};
    const int is_square_tube = profile->shape == TRIVET_SHAPE_SQUARE_TUBE;
    char sizes[256] = "";
    const char *const unit = trivet_units_for(units, TRIVET_LENGTH, NULL);
    for (size_t k = 0; k < sizeof said / sizeof said[0]; k++) {
        for (int i = 0; i < SIZE_COUNT; i++) {
            const double value = size_of(profile, &size_rows[i]);
            if (said[k] != 1U << (uint32_t)i || value == 0.0) {
                continue;
            }
            char number[64];
            trivet_units_text(units, TRIVET_LENGTH, value, DIGITS, number, sizeof number);
            char *const blank = strrchr(number, ' ');
            if (blank) {
                *blank = '\0';
            }
            const size_t end = strlen(sizes);
            trivet__text_print(sizes + end, sizeof sizes - end, "%s%s%s%s", end > 0 ? " x " : "",
                               number, is_square_tube && said[k] == WIDTH ? " x " : "",
                               is_square_tube && said[k] == WIDTH ? number : "");
        }
    }
    return trivet__text_print(text, size, "%s%s%s%s%s", trivet_shape_text(profile->shape),
                              sizes[0] ? " " : "", sizes, sizes[0] ? " " : "",
                              sizes[0] ? unit : "");
}
