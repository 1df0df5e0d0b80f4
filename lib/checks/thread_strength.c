/*
 * Threads stripped off, and the welds that keep an insert.
 *
 * Areas after FED-STD-H28, with n = 1/P turns a length, over the length of engagement Le:
 *   screw: pi n Le D1max [1/(2n) + 0.57735 (d2min - D1max)]
 *   hole:  pi n Le dmin [1/(2n) + 0.57735 (dmin - D2max)]
 * at the limits of size (largest hole, smallest screw), times the shear strength of 0.6 Rm. All
 * turns are taken to carry alike.
 *
 * Engagement for the screw to break first: 2 At / (pi D1max [0.5 + 0.57735 n (d2min - D1max)]),
 * times J = AS_s Rm_s / (AS_n Rm_n) if that is above 1 (Machinery's Handbook, formulas 1 and 4).
 * Its 2 takes the shear strength as half of the tensile, so that it errs to the long side.
 *
 * A plug weld shears over the area of its hole at fu / (sqrt(3) beta_w), EN 1993-1-8 4.8 with
 * 4.5.3.3 (from memory); beta_w is taken as 1, its largest. Spots count the same.
 */
#include "checks/thread_strength.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;
/* 1 / sqrt(3): the slope of a flank of 60 degrees, to the digits of the standard. */
static const double FLANK = 0.57735;

double trivet__screw_thread_area(const trivet_thread *thread, double engagement)
{
    const double D1 = thread->hole_minor_most;
    const double P = thread->pitch;
    return PI * engagement / P * D1 * (0.5 * P + FLANK * (thread->screw_pitch_least - D1));
}

double trivet__hole_thread_area(const trivet_thread *thread, double engagement)
{
    const double d = thread->screw_major_least;
    const double P = thread->pitch;
    return PI * engagement / P * d * (0.5 * P + FLANK * (d - thread->hole_pitch_most));
}

double trivet__strip_force(double area, double tensile)
{
    return TRIVET__THREAD_SHEAR * tensile * area;
}

double trivet__equal_engagement(const trivet_thread *thread)
{
    const double D1 = thread->hole_minor_most;
    const double overlap = thread->screw_pitch_least - D1;
    return 2.0 * thread->stress_area / (PI * D1 * (0.5 + FLANK * overlap / thread->pitch));
}

double trivet__needed_engagement(const trivet_thread *thread, double screw_tensile,
                                 double hole_tensile)
{
    const double J = trivet__screw_thread_area(thread, 1.0) * screw_tensile /
                     (trivet__hole_thread_area(thread, 1.0) * hole_tensile);
    return trivet__equal_engagement(thread) * (J > 1.0 ? J : 1.0);
}

int trivet__is_cut(const trivet_bolts *bolts)
{
    return bolts->into == TRIVET_INTO_TAPPED || bolts->into == TRIVET_INTO_WALL;
}

static const char *source_of(const trivet_material *material)
{
    return material && material->source[0] ? material->source : "material of the stock";
}

/* Tensile strength beside a weld, never above the material's own; NaN if that is not known. */
static double welded_tensile(const trivet_material *material)
{
    return material->welded_tensile < material->tensile ? material->welded_tensile
                                                        : material->tensile;
}

void trivet__stripping_find(const trivet_frame *frame, const trivet_bolts *bolts,
                            trivet__stripping *out)
{
    trivet_grade grade;
    const trivet_material *const material = trivet_frame_material(frame, bolts->into_stock);
    memset(out, 0, sizeof *out);
    trivet__bolt_kind(bolts, &out->thread, &grade);
    out->source = source_of(material);
    out->engagement = bolts->engagement;
    out->screw_tensile = grade.tensile;
    out->hole_tensile = material ? material->tensile : (double)NAN;
    if (material && bolts->fixing_count > 0 && welded_tensile(material) < material->tensile) {
        out->is_softened = 1;
        out->hole_tensile = welded_tensile(material);
    }
    out->screw_area = trivet__screw_thread_area(&out->thread, out->engagement);
    out->hole_area = trivet__hole_thread_area(&out->thread, out->engagement);
    out->screw_stands = trivet__strip_force(out->screw_area, out->screw_tensile);
    out->hole_stands = trivet__strip_force(out->hole_area, out->hole_tensile);
    out->needed = trivet__needed_engagement(&out->thread, out->screw_tensile, out->hole_tensile);
}

double trivet__screw_thread_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    trivet__stripping stripping;
    if (!trivet__is_cut(bolts)) {
        return HUGE_VAL;
    }
    trivet__stripping_find(frame, bolts, &stripping);
    return stripping.screw_stands;
}

double trivet__hole_thread_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    trivet__stripping stripping;
    if (!trivet__is_cut(bolts)) {
        return HUGE_VAL;
    }
    trivet__stripping_find(frame, bolts, &stripping);
    return stripping.hole_stands;
}

/* Whether a tube has an insert of that stock at a joint. */
static int has_insert(const trivet__tube *tube, int32_t joint, int32_t stock)
{
    for (int32_t i = 0; i < tube->insert_count; i++) {
        const trivet__insert *const insert = &tube->inserts[i];
        if (insert->stock == stock && tube->joints[insert->position] == joint) {
            return 1;
        }
    }
    return 0;
}

/* The stock of the tube that the tapped piece sits in, -1 if it sits in none that is known. */
static int32_t tube_round_insert(const trivet_frame *frame, const trivet_bolts *bolts)
{
    for (int32_t t = 0; t < frame->tube_count; t++) {
        if (has_insert(&frame->tubes[t], bolts->joint, bolts->into_stock)) {
            return frame->tubes[t].stock;
        }
    }
    return bolts->fixing_count > 0 ? bolts->clamped_stock : -1;
}

void trivet__fixing_find(const trivet_frame *frame, const trivet_bolts *bolts,
                         trivet__fixing *fixing_out)
{
    memset(fixing_out, 0, sizeof *fixing_out);
    fixing_out->source = source_of(NULL);
    fixing_out->tensile = fixing_out->wall = (double)NAN;
    fixing_out->stands = HUGE_VAL;
    if (bolts->into != TRIVET_INTO_TAPPED) {
        return;
    }
    const int32_t outer = tube_round_insert(frame, bolts);
    const trivet_material *const inside = trivet_frame_material(frame, bolts->into_stock);
    const trivet_material *const tube = trivet_frame_material(frame, outer);
    if (outer < 0 && bolts->fixing_count == 0) {
        return; /* not an insert: a thread in a solid part of the frame */
    }
    fixing_out->is_there = 1;
    if (inside) {
        fixing_out->tensile = welded_tensile(inside);
        fixing_out->source = source_of(inside);
    }
    if (tube && !isnan(fixing_out->tensile) && !(welded_tensile(tube) >= fixing_out->tensile)) {
        fixing_out->tensile = welded_tensile(tube);
        fixing_out->source = source_of(tube);
    }
    const trivet_profile *const profile = trivet_frame_profile(frame, outer);
    if (profile && profile->wall > 0.0) {
        fixing_out->wall = profile->wall;
    }
    const double d = bolts->fixing_count > 0 ? bolts->fixing_diameter : (double)NAN;
    fixing_out->stands = bolts->fixing_count * 0.25 * PI * d * d * fixing_out->tensile / sqrt(3.0);
}

double trivet__fixing_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    trivet__fixing fixing;
    trivet__fixing_find(frame, bolts, &fixing);
    return fixing.stands;
}
