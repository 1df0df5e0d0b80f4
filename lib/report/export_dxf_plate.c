/*
 * A plate in DXF: outline, holes, slots, for a cutting table. z = 0 throughout.
 */
#include "report/export_dxf.h"

#include <math.h>

#define DEGREES 57.29577951308232

/* A closed polyline; the bulge of a corner is that of the side to the next. */
static void write_outline(trivet__bytes *bytes, const trivet_cutting *cutting,
                          const trivet__layer *layer)
{
    int32_t count = 0;
    const double *const corners = trivet_cutting_outline(cutting, &count);
    trivet__dxf_entity(bytes, "POLYLINE", layer);
    trivet__dxf_whole(bytes, 66, 1); /* vertices follow */
    trivet__dxf_point(bytes, 10, 0.0, 0.0, 0.0);
    trivet__dxf_whole(bytes, 70, 1); /* closed */
    for (int32_t i = 0; i < count; i++) {
        const double *const corner = corners + (ptrdiff_t)3 * i;
        trivet__dxf_entity(bytes, "VERTEX", layer);
        trivet__dxf_point(bytes, 10, corner[0], corner[1], 0.0);
        if (corner[2] != 0.0) {
            trivet__dxf_number(bytes, 42, corner[2]);
        }
    }
    trivet__dxf_entity(bytes, "SEQEND", layer);
}

static void write_holes(trivet__bytes *bytes, const trivet_cutting *cutting,
                        const trivet__layer *layer)
{
    int32_t count = 0;
    const double *const holes = trivet_cutting_holes(cutting, &count);
    for (int32_t i = 0; i < count; i++) {
        const double *const hole = holes + (ptrdiff_t)3 * i;
        trivet__dxf_entity(bytes, "CIRCLE", layer);
        trivet__dxf_point(bytes, 10, hole[0], hole[1], 0.0);
        trivet__dxf_length(bytes, 40, 0.5 * hole[2]);
    }
}

/* Half a circle about middle, counter-clockwise from a direction in degrees. */
static void write_round_end(trivet__bytes *bytes, const trivet__layer *layer,
                            const double middle[2], double radius, double from)
{
    trivet__dxf_entity(bytes, "ARC", layer);
    trivet__dxf_point(bytes, 10, middle[0], middle[1], 0.0);
    trivet__dxf_length(bytes, 40, radius);
    trivet__dxf_number(bytes, 50, fmod(from + 720.0, 360.0));
    trivet__dxf_number(bytes, 51, fmod(from + 900.0, 360.0));
}

static void write_slot(trivet__bytes *bytes, const trivet_slot *slot, const trivet__layer *layer)
{
    const double along[2] = {slot->to[0] - slot->from[0], slot->to[1] - slot->from[1]};
    const double length = hypot(along[0], along[1]);
    const double radius = 0.5 * slot->width;
    const double aside[2] = {-along[1] / length * radius, along[0] / length * radius};
    const double direction = atan2(along[1], along[0]) * DEGREES;
    for (int side = 0; side < 2; side++) {
        const double s = side == 0 ? 1.0 : -1.0;
        trivet__dxf_entity(bytes, "LINE", layer);
        trivet__dxf_point(bytes, 10, slot->from[0] + s * aside[0], slot->from[1] + s * aside[1],
                          0.0);
        trivet__dxf_point(bytes, 11, slot->to[0] + s * aside[0], slot->to[1] + s * aside[1], 0.0);
    }
    write_round_end(bytes, layer, slot->from, radius, direction + 90.0);
    write_round_end(bytes, layer, slot->to, radius, direction - 90.0);
}

void trivet__dxf_plate(trivet__bytes *bytes, const trivet_cutting *cutting,
                       const trivet__layer *layers)
{
    int32_t count = 0;
    const trivet_slot *const slots = trivet_cutting_slots(cutting, &count);
    write_outline(bytes, cutting, &layers[TRIVET__DXF_OUTLINE]);
    write_holes(bytes, cutting, &layers[TRIVET__DXF_HOLES]);
    for (int32_t i = 0; i < count; i++) {
        write_slot(bytes, &slots[i], &layers[TRIVET__DXF_SLOTS]);
    }
}
