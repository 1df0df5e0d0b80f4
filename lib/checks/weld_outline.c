/*
 * The outline of stock as a line to weld along, y and z from the tube's axis, counter-clockwise,
 * beginning with the top. Angles and channels are drawn with sharp corners.
 */
#include "checks/weld_line.h"

#include "stock/sections.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

void trivet__weld_line_start(trivet__weld_line *line_out)
{
    memset(line_out, 0, sizeof *line_out);
    line_out->run = 1.0;
    line_out->lean[0] = 1.0;
}

static void add_piece(trivet__weld_line *line, trivet__weld_piece piece)
{
    assert(line->piece_count < TRIVET__WELD_PIECES_MAX);
    const int is_there = piece.radius > 0.0 || piece.step[0] != 0.0 || piece.step[1] != 0.0;
    if (is_there && line->piece_count < TRIVET__WELD_PIECES_MAX) {
        line->pieces[line->piece_count++] = piece;
    }
}

/* The side that a straight piece of an outline lies on; counter-clockwise, the inside is left. */
static uint32_t side_of(const double step[2])
{
    if (fabs(step[0]) > fabs(step[1])) {
        return step[0] > 0.0 ? TRIVET_SIDE_BOTTOM : TRIVET_SIDE_TOP;
    }
    return step[1] > 0.0 ? TRIVET_SIDE_LEFT : TRIVET_SIDE_RIGHT;
}

/* Adds a polygon with right angles, counter-clockwise, its corners rounded with radius. */
static void add_polygon(const double (*corners)[2], int32_t count, double radius, uint32_t sides,
                        trivet__weld_line *line)
{
    for (int32_t i = 0; i < count; i++) {
        const double *const here = corners[i];
        const double *const next = corners[(i + 1) % count];
        const double *const after = corners[(i + 2) % count];
        const double step[2] = {next[0] - here[0], next[1] - here[1]};
        const double step_on[2] = {after[0] - next[0], after[1] - next[1]};
        const double length = fabs(step[0]) + fabs(step[1]);
        const double length_on = fabs(step_on[0]) + fabs(step_on[1]);
        const double unit[2] = {step[0] / length, step[1] / length};
        const double unit_on[2] = {step_on[0] / length_on, step_on[1] / length_on};
        const double flat = fmax(length - 2.0 * radius, 0.0);
        if (!(sides & side_of(step))) {
            continue;
        }
        add_piece(line, (trivet__weld_piece){
                            .start = {here[0] + radius * unit[0], here[1] + radius * unit[1]},
                            .step = {flat * unit[0], flat * unit[1]}});
        if (radius > 0.0 && (sides & side_of(step_on))) {
            add_piece(line,
                      (trivet__weld_piece){.start = {next[0] + radius * (unit_on[0] - unit[0]),
                                                     next[1] + radius * (unit_on[1] - unit[1])},
                                           .radius = radius,
                                           .angle = atan2(-unit_on[1], -unit_on[0]),
                                           .sweep = 0.5 * PI});
        }
    }
}

/* Begins with the top, so that spots do. */
static void add_box(double height, double width, double radius, uint32_t sides,
                    trivet__weld_line *line)
{
    const double y = 0.5 * width;
    const double z = 0.5 * height;
    const double corners[4][2] = {{y, z}, {-y, z}, {-y, -z}, {y, -z}};
    add_polygon(corners, 4, radius, sides, line);
}

static void add_circle(double diameter, uint32_t sides, trivet__weld_line *line)
{
    static const uint32_t QUARTERS[4] = {TRIVET_SIDE_TOP, TRIVET_SIDE_RIGHT, TRIVET_SIDE_BOTTOM,
                                         TRIVET_SIDE_LEFT};
    for (int i = 0; i < 4; i++) {
        if (sides & QUARTERS[i]) {
            add_piece(line, (trivet__weld_piece){.radius = 0.5 * diameter,
                                                 .angle = (0.25 + 0.5 * i) * PI,
                                                 .sweep = 0.5 * PI});
        }
    }
}

/* Angle and channel with sharp corners, about the centroid. */
static void add_open(const trivet_profile *of, const trivet_section *section, uint32_t sides,
                     trivet__weld_line *line)
{
    const double right = -0.5 * of->width - section->centroid[0];
    const double left = 0.5 * of->width - section->centroid[0];
    const double low = -0.5 * of->height - section->centroid[1];
    const double high = 0.5 * of->height - section->centroid[1];
    const double web = right + of->wall;
    if (of->shape == TRIVET_SHAPE_ANGLE) {
        const double corners[6][2] = {{web, high}, {right, high},          {right, low},
                                      {left, low}, {left, low + of->wall}, {web, low + of->wall}};
        add_polygon(corners, 6, 0.0, sides, line);
        return;
    }
    const double corners[8][2] = {{left, high},
                                  {right, high},
                                  {right, low},
                                  {left, low},
                                  {left, low + of->flange},
                                  {web, low + of->flange},
                                  {web, high - of->flange},
                                  {left, high - of->flange}};
    add_polygon(corners, 8, 0.0, sides, line);
}

int trivet__weld_outline(const trivet_profile *profile, const trivet_section *section,
                         uint32_t sides, trivet__weld_line *line)
{
    double radius = 0.0;
    double inner = 0.0;
    const double width = profile->width;
    line->is_closed = sides == (uint32_t)TRIVET_SIDES_ALL;
    switch ((trivet_shape)profile->shape) {
    case TRIVET_SHAPE_SQUARE_TUBE:
        trivet__corner_radii(profile, &radius, &inner);
        add_box(width, width, radius, sides, line);
        return 1;
    case TRIVET_SHAPE_RECTANGULAR_TUBE:
        trivet__corner_radii(profile, &radius, &inner);
        add_box(profile->height, width, radius, sides, line);
        return 1;
    case TRIVET_SHAPE_SQUARE_BAR:
        add_box(width, width, 0.0, sides, line);
        return 1;
    case TRIVET_SHAPE_FLAT_BAR:
        add_box(profile->height, width, 0.0, sides, line);
        return 1;
    case TRIVET_SHAPE_ROUND_TUBE:
    case TRIVET_SHAPE_ROUND_BAR:
        add_circle(profile->diameter, sides, line);
        return 1;
    case TRIVET_SHAPE_ANGLE:
    case TRIVET_SHAPE_CHANNEL:
        add_open(profile, section, sides, line);
        return 1;
    case TRIVET_SHAPE_GIVEN_VALUES:
    default:
        return 0;
    }
}
