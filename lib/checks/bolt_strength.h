/*
 * What bolts, and the plate round them, stand: numbers in, numbers out. m, m^2, N, Pa, N m; a
 * number that is not known is NaN and makes the answer NaN.
 */
#ifndef TRIVET_CHECKS_BOLT_STRENGTH_H
#define TRIVET_CHECKS_BOLT_STRENGTH_H

#include "checks/bolt_parts.h"

/* Partial factor of EN 1993-1-8 table 2.1 on bolts and plates in bearing (from memory). */
#define TRIVET__GAMMA_M2 1.25
/* Factor of safety of AISC 360-16 J3 on bolts and J4 on plates (from memory). */
#define TRIVET__OMEGA_BOLT 2.00

/* EN 1993-1-8 table 3.4 (from memory): design resistances, divided by gamma_M2. */

/* alpha_v f_ub A / gamma_M2: area of the thread, or of the shank where that is sheared. */
double trivet__bolt_shear_en(double alpha_v, double tensile, double area);
/* k_2 f_ub A_s / gamma_M2, at most what the head passes on (below). */
double trivet__bolt_pull_en(double k_2, double tensile, double stress_area, double head_load);
/* F_v / F_vRd + F_t / (1.4 F_tRd) */
double trivet__bolt_both_en(double shear, double shear_limit, double pull, double pull_limit);
/*
 * alpha_b = min(e_1 / (3 d_0), p_1 / (3 d_0) - 1/4, f_ub / f_u, 1). end is e_1, infinite for an
 * inner bolt; spacing is p_1 along the load, infinite if no bolt follows.
 */
double trivet__bearing_alpha(double end, double spacing, double hole, double bolt_tensile,
                             double plate_tensile);
/* k_1 = min(2.8 e_2 / d_0 - 1.7, 1.4 p_2 / d_0 - 1.7, 2.5), at least 0; likewise across the load.
 */
double trivet__bearing_k1(double side, double spacing, double hole);
/* k_1 alpha_b f_u d t / gamma_M2 */
double trivet__bearing_en(double k_1, double alpha_b, double plate_tensile, double diameter,
                          double thickness);
/* Pulled through the plate, characteristic: 0.6 pi d_m t_p f_u, not divided by gamma_M2. */
double trivet__punching(double head_mean, double thickness, double plate_tensile);

/* k_2: 0.9, countersunk 0.63. head is a trivet_head. */
double trivet__head_k2(int32_t head);
/*
 * The share of the thread's least breaking load that a head passes on: 1, countersunk 0.8 (ISO
 * 10642); for inch screws the same is taken.
 */
double trivet__head_share(int32_t head);
/* head_share times R_m A_s: the least breaking load, ISO 898-1. */
double trivet__head_load(int32_t head, double tensile, double stress_area);

/* AISC 360-16 J3.6, J3.7 and table J3.2 (from memory): nominal stresses on the shank's area. */

/* F_nt = 0.75 F_u, at most head_load / A_b: small threads and countersunk heads lie below 0.75. */
double trivet__pull_stress_aisc(double tensile, double shank_area, double head_load);
/* F_nv over F_u: 0.450 with the thread in shear, 0.563 without. */
double trivet__shear_share_aisc(int is_thread_clear);
/* F_nt' = 1.3 F_nt - Omega F_nt / F_nv f_rv, at most F_nt. */
double trivet__pull_stress_both_aisc(double pull_stress, double shear_stress, double shear);
/* min(2.4 d t F_u, 1.2 l_c t F_u), J3.10: nominal, not divided by Omega. */
double trivet__bearing_aisc(double diameter, double clear, double thickness, double plate_tensile);

/* The plate round a bolt. */
typedef struct trivet__bolt_plate {
    double hole;      /* m, diameter */
    double sunk;      /* m, depth of the countersink; 0 if there is none */
    double thickness; /* m, that counts: less half the countersink, EN 1993-1-8 table 3.4 */
    double head;      /* m, mean diameter of the head */
    double edge;      /* m, e_1 */
    double side;      /* m, e_2 */
} trivet__bolt_plate;

void trivet__bolt_plate_find(const trivet_bolts *bolts, const trivet_thread *thread,
                             trivet__bolt_plate *plate_out);

/* T / (K d): short form of the torque equation (Shigley, common practice). */
double trivet__preload_of_torque(double torque, double nut_factor, double diameter);
/* K F d */
double trivet__torque_of_preload(double preload, double nut_factor, double diameter);
/* 0.75 of the proof load: Shigley's for joints that are taken apart again, common practice. */
double trivet__usual_preload(double proof, double stress_area);

/* C = k_b / (k_b + k_m): the share of the pull that the bolt gets (Shigley). */
double trivet__joint_share(double bolt_stiffness, double parts_stiffness);
/* C P + F_i: force in the bolt as long as the joint has not opened (Shigley). */
double trivet__bolt_in_joint(double share, double pull, double preload);
/* F_i - (1 - C) P: what still presses the parts together; share 0: all the pull unloads them. */
double trivet__joint_press(double share, double pull, double preload);
/* mu (F_i - P), at least 0: shear before the faces slip, one pair of faces. Common practice. */
double trivet__slip_force(double friction, double preload, double pull);

/* VDI 2230-1 (2003): a screw that is tightened to a share of its 0.2 % stress. */
typedef struct trivet__tightening {
    double pitch;
    double pitch_diameter;
    double root_diameter;
    double yield;           /* Pa, 0.2 % stress */
    double use;             /* nu, usually 0.9 */
    double thread_friction; /* mu_G */
    double head_friction;   /* mu_K */
    double head_mean;       /* D_Km, m: friction diameter under the head */
} trivet__tightening;

/* F_M = nu R_p A_0 / sqrt(1 + 3 (3/2 d_2 / d_0 (P / (pi d_2) + 1.155 mu_G))^2) */
double trivet__assembly_preload(const trivet__tightening *of);
/* M_A = F_M (0.16 P + 0.58 d_2 mu_G + D_Km / 2 mu_K) */
double trivet__assembly_torque(const trivet__tightening *of, double preload);

/* Nut factor K by surface. NaN: not known. */
typedef struct trivet__nut_factor {
    const char *surface;
    double usual;
    double least;
    double most;
} trivet__nut_factor;

/* Row number index, NULL behind the last. Static. */
const trivet__nut_factor *trivet__nut_factor_at(int32_t index);

#endif
