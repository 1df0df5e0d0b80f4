/*
 * Strength of bolts and of the plate round them, preload and torque.
 */
#include "checks/bolt_strength.h"

#include "checks/holes.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

/*
 * Mean of a hexagon's width across flats and corners over the nominal width, from the least sizes
 * of ISO 4017 (from memory): M4 1.03, rising to 1.05 for M16.
 */
#define HEXAGON_MEAN 1.03

/* fmin and fmax pass over what is not a number; here it must come through. */
static double smaller(double one, double other)
{
    return isnan(one) || isnan(other) ? (double)NAN : fmin(one, other);
}

static double at_least_none(double value)
{
    return isnan(value) ? value : fmax(value, 0.0);
}

double trivet__bolt_shear_en(double alpha_v, double tensile, double area)
{
    return alpha_v * tensile * area / TRIVET__GAMMA_M2;
}

double trivet__bolt_pull_en(double k_2, double tensile, double stress_area, double head_load)
{
    return smaller(k_2 * tensile * stress_area, head_load) / TRIVET__GAMMA_M2;
}

double trivet__bolt_both_en(double shear, double shear_limit, double pull, double pull_limit)
{
    return shear / shear_limit + pull / (1.4 * pull_limit);
}

double trivet__bearing_alpha(double end, double spacing, double hole, double bolt_tensile,
                             double plate_tensile)
{
    const double along = smaller(end / (3.0 * hole), spacing / (3.0 * hole) - 1.0 / 4.0);
    return at_least_none(smaller(smaller(along, bolt_tensile / plate_tensile), 1.0));
}

double trivet__bearing_k1(double side, double spacing, double hole)
{
    const double across = smaller(2.8 * side / hole - 1.7, 1.4 * spacing / hole - 1.7);
    return at_least_none(smaller(across, 2.5));
}

double trivet__bearing_en(double k_1, double alpha_b, double plate_tensile, double diameter,
                          double thickness)
{
    return k_1 * alpha_b * plate_tensile * diameter * thickness / TRIVET__GAMMA_M2;
}

double trivet__punching(double head_mean, double thickness, double plate_tensile)
{
    return 0.6 * PI * head_mean * thickness * plate_tensile;
}

double trivet__head_k2(int32_t head)
{
    return head == TRIVET_HEAD_COUNTERSUNK ? 0.63 : 0.9;
}

double trivet__head_share(int32_t head)
{
    return head == TRIVET_HEAD_COUNTERSUNK ? 0.8 : 1.0;
}

double trivet__head_load(int32_t head, double tensile, double stress_area)
{
    return trivet__head_share(head) * tensile * stress_area;
}

double trivet__pull_stress_aisc(double tensile, double shank_area, double head_load)
{
    return smaller(0.75 * tensile, head_load / shank_area);
}

double trivet__shear_share_aisc(int is_thread_clear)
{
    return is_thread_clear ? 0.563 : 0.45;
}

double trivet__pull_stress_both_aisc(double pull_stress, double shear_stress, double shear)
{
    return smaller(1.3 * pull_stress - TRIVET__OMEGA_BOLT * pull_stress / shear_stress * shear,
                   pull_stress);
}

double trivet__bearing_aisc(double diameter, double clear, double thickness, double plate_tensile)
{
    return smaller(2.4 * diameter, 1.2 * at_least_none(clear)) * thickness * plate_tensile;
}

/*
 * A countersunk head counts with the mean of its largest diameter and the thread's, and with half
 * its depth taken off the plate, for bearing (EN 1993-1-8 table 3.4) and, taken likewise, for
 * punching.
 */
void trivet__bolt_plate_find(const trivet_bolts *bolts, const trivet_thread *thread,
                             trivet__bolt_plate *plate_out)
{
    const int is_sunk = bolts->head == TRIVET_HEAD_COUNTERSUNK;
    plate_out->hole = isnan(bolts->hole) ? thread->clearance_hole : bolts->hole;
    plate_out->sunk = is_sunk ? trivet__countersink_depth(thread) : 0.0;
    plate_out->thickness = at_least_none(bolts->plate - plate_out->sunk / 2.0);
    plate_out->edge = bolts->edge;
    plate_out->side = isnan(bolts->side) ? bolts->edge : bolts->side;
    switch ((trivet_head)bolts->head) {
    case TRIVET_HEAD_SOCKET:
        plate_out->head = thread->socket_head;
        break;
    case TRIVET_HEAD_COUNTERSUNK:
        plate_out->head = (thread->countersunk_head + thread->diameter) / 2.0;
        break;
    case TRIVET_HEAD_HEXAGON:
    default:
        plate_out->head = HEXAGON_MEAN * thread->hexagon_width;
        break;
    }
}

void trivet__bolt_kind(const trivet_bolts *bolts, trivet_thread *thread_out,
                       trivet_grade *grade_out)
{
    (void)trivet_thread_defaults(thread_out, sizeof *thread_out);
    (void)trivet_grade_defaults(grade_out, sizeof *grade_out);
    (void)trivet_thread_find(bolts->thread, thread_out, NULL);
    (void)trivet_grade_find(bolts->grade, grade_out, NULL);
}

double trivet__plate_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    trivet_thread thread;
    trivet_grade grade;
    trivet__bolt_plate plate;
    (void)frame;
    if (isnan(bolts->plate)) {
        return HUGE_VAL;
    }
    trivet__bolt_kind(bolts, &thread, &grade);
    trivet__bolt_plate_find(bolts, &thread, &plate);
    return trivet__punching(plate.head, plate.thickness, bolts->plate_tensile);
}

double trivet__preload_of_torque(double torque, double nut_factor, double diameter)
{
    return torque / (nut_factor * diameter);
}

double trivet__torque_of_preload(double preload, double nut_factor, double diameter)
{
    return nut_factor * preload * diameter;
}

double trivet__usual_preload(double proof, double stress_area)
{
    return 0.75 * proof * stress_area;
}

double trivet__joint_share(double bolt_stiffness, double parts_stiffness)
{
    return bolt_stiffness / (bolt_stiffness + parts_stiffness);
}

double trivet__bolt_in_joint(double share, double pull, double preload)
{
    return share * pull + preload;
}

double trivet__joint_press(double share, double pull, double preload)
{
    return preload - (1.0 - share) * pull;
}

double trivet__slip_force(double friction, double preload, double pull)
{
    return at_least_none(friction * trivet__joint_press(0.0, pull, preload));
}

double trivet__assembly_preload(const trivet__tightening *of)
{
    const double d_0 = (of->pitch_diameter + of->root_diameter) / 2.0;
    const double twist = 1.5 * of->pitch_diameter / d_0 *
                         (of->pitch / (PI * of->pitch_diameter) + 1.155 * of->thread_friction);
    const double area = PI / 4.0 * d_0 * d_0;
    return of->use * of->yield * area / sqrt(1.0 + 3.0 * twist * twist);
}

double trivet__assembly_torque(const trivet__tightening *of, double preload)
{
    return preload * (0.16 * of->pitch + 0.58 * of->pitch_diameter * of->thread_friction +
                      of->head_mean / 2.0 * of->head_friction);
}

/* Usual: Shigley, table 8-15. Least and most: a fastener maker's engineering data. */
#define NONE ((double)NAN)
static const trivet__nut_factor NUT_FACTORS[] = {
    {"black, not plated", 0.30, NONE, NONE}, {"zinc-plated", 0.20, 0.17, 0.35},
    {"lubricated", 0.18, NONE, NONE},        {"cadmium-plated", 0.16, 0.15, 0.19},
    {"with anti-seize", 0.12, NONE, NONE},   {"with low-friction nuts", 0.09, NONE, NONE},
    {"dry steel", NONE, NONE, 0.27},         {"machine oil", NONE, 0.10, 0.26},
    {"phosphate and oil", NONE, 0.15, 0.22}, {"stainless", NONE, 0.30, NONE},
};

const trivet__nut_factor *trivet__nut_factor_at(int32_t index)
{
    const int32_t count = (int32_t)(sizeof NUT_FACTORS / sizeof NUT_FACTORS[0]);
    return index >= 0 && index < count ? &NUT_FACTORS[index] : NULL;
}
