/*
 * Where a tube runs and what it weighs, from the positions, offsets and stock of the moment.
 */
#include "base/defaults.h"
#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>

void trivet__tube_end_point(const trivet_frame *frame, int32_t tube, int32_t position,
                            double out[3])
{
    const trivet__tube *const of = &frame->tubes[tube];
    const double *const joint = frame->joints[of->joints[position]].position;
    const double *const offset = of->offsets + 3 * (size_t)position;
    for (int i = 0; i < 3; i++) {
        out[i] = joint[i] + offset[i];
    }
}

double trivet__tube_distance(const trivet_frame *frame, int32_t tube, int32_t position)
{
    double distance = 0.0;
    double here[3];
    trivet__tube_end_point(frame, tube, 0, here);
    for (int32_t i = 1; i <= position; i++) {
        double next[3];
        double step[3];
        trivet__tube_end_point(frame, tube, i, next);
        trivet__minus3(next, here, step);
        distance += trivet__length3(step);
        for (int k = 0; k < 3; k++) {
            here[k] = next[k];
        }
    }
    return distance;
}

void trivet__insert_stretch(const trivet_frame *frame, int32_t tube, int32_t insert,
                            double *from_out, double *to_out)
{
    const trivet__tube *const of = &frame->tubes[tube];
    const trivet__insert *const inside = &of->inserts[insert];
    const double at = trivet__tube_distance(frame, tube, inside->position);
    trivet__insert_stretch_at(inside, of->joint_count, at, from_out, to_out);
}

void trivet__insert_stretch_at(const trivet__insert *insert, int32_t joint_count, double at,
                               double *from_out, double *to_out)
{
    double before = 0.5 * insert->length;
    if (insert->position == 0) {
        before = 0.0;
    } else if (insert->position == joint_count - 1) {
        before = insert->length;
    }
    *from_out = at - before;
    *to_out = at - before + insert->length;
}

static const trivet__tube *find_tube(const trivet_frame *frame, int32_t tube)
{
    return frame && tube >= 0 && tube < frame->tube_count ? &frame->tubes[tube] : NULL;
}

const int32_t *trivet_frame_tube_joints(const trivet_frame *frame, int32_t tube,
                                        int32_t *joint_count_out)
{
    const trivet__tube *const found = find_tube(frame, tube);
    if (joint_count_out) {
        *joint_count_out = found ? found->joint_count : 0;
    }
    return found ? found->joints : NULL;
}

int32_t trivet_frame_tube_stock(const trivet_frame *frame, int32_t tube)
{
    const trivet__tube *const found = find_tube(frame, tube);
    return found ? found->stock : -1;
}

double trivet_frame_tube_length(const trivet_frame *frame, int32_t tube)
{
    const trivet__tube *const found = find_tube(frame, tube);
    return found ? trivet__tube_distance(frame, tube, found->joint_count - 1) : (double)NAN;
}

double trivet_frame_tube_mass(const trivet_frame *frame, int32_t tube)
{
    const trivet__tube *const found = find_tube(frame, tube);
    if (!found) {
        return (double)NAN;
    }
    double mass = trivet__stock_mass_per_length(&frame->stocks[found->stock]) *
                  trivet_frame_tube_length(frame, tube);
    for (int32_t i = 0; i < found->insert_count; i++) {
        const trivet__insert *const inside = &found->inserts[i];
        mass += trivet__stock_mass_per_length(&frame->stocks[inside->stock]) * inside->length;
    }
    return mass;
}

trivet_status trivet_insert_defaults(trivet_insert *insert, size_t size)
{
    return trivet__defaults(insert, size, sizeof *insert);
}

int32_t trivet_frame_insert_count(const trivet_frame *frame, int32_t tube)
{
    return frame && tube >= 0 && tube < frame->tube_count ? frame->tubes[tube].insert_count : 0;
}

trivet_status trivet_frame_insert(const trivet_frame *frame, int32_t tube, int32_t index,
                                  trivet_insert *insert_out)
{
    const trivet_status status = trivet__out_check(frame, insert_out, sizeof *insert_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (index < 0 || index >= trivet_frame_insert_count(frame, tube)) {
        return TRIVET_BAD_INDEX;
    }
    const trivet__tube *const of = &frame->tubes[tube];
    const trivet__insert *const inside = &of->inserts[index];
    insert_out->joint = of->joints[inside->position];
    insert_out->stock = inside->stock;
    insert_out->bond = inside->bond;
    insert_out->length = inside->length;
    return TRIVET_OK;
}
