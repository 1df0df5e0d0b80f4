/*
 * What the throat of a fillet weld, and a spot, stand. All SI.
 */
#ifndef TRIVET_CHECKS_WELD_STRENGTH_H
#define TRIVET_CHECKS_WELD_STRENGTH_H

#include "checks/weld_line.h"
#include "trivet/checks.h"

/* gamma_M2 of EN 1993-1-8 table 2.1, and Omega of AISC 360 J2.4. */
#define TRIVET__WELD_GAMMA_M2 1.25
#define TRIVET__WELD_OMEGA 2.00

/* Least throat that EN 1993-1-8 4.5.2 speaks of, m; least length: 4.5.1, m and in throats. */
#define TRIVET__THROAT_LEAST 3e-3
#define TRIVET__WELD_LENGTH_LEAST 30e-3
#define TRIVET__WELD_THROATS_LEAST 6.0

/* Throat of a weld of which none is said, over the wall: legs as long as the wall is thick. */
#define TRIVET__THROAT_PER_WALL 0.7

/* Tensile strength beside a weld, Pa; NaN if it is not known. */
double trivet__welded_tensile(const trivet_material *material);

/* Correlation factor beta_w of EN 1993-1-8 table 4.1, by name or else by strength beside a weld. */
double trivet__weld_beta(const trivet_material *material);

/* Shear strength of a throat, EN 1993-1-8 (4.4): f_u / (sqrt(3) beta_w gamma_M2), Pa. */
double trivet__throat_shear(double tensile, double beta);

/* Stresses on a throat at 45 degrees, Pa. */
typedef struct trivet__throat_stress {
    double sigma; /* square to it, q_n in the sense that gives the most tau */
    double tau;   /* across the weld */
    double along; /* shear along the weld */
    double equal; /* sqrt(sigma^2 + 3 (tau^2 + along^2)) */
    double most;  /* square to it, q_n in the other sense */
} trivet__throat_stress;

void trivet__throat_stresses(const trivet__weld_force *force, double throat,
                             trivet__throat_stress *stress_out);

/* sqrt(sigma^2 + 3 (tau^2 + along^2)): EN 1993-1-8 (4.1). */
double trivet__throat_equal(double sigma, double tau, double along);

/* k_ds of AISC 360 J2.4: 1 + 0.5 sin^1.5 of the angle between force and weld. */
double trivet__weld_direction(double sine);

/* Allowable force of weld metal on an area m^2, AISC 360 J2.4: 0.60 F_EXX k_ds A / Omega. */
double trivet__weld_metal_allows(double electrode, double direction, double area);

/* What a weld is judged by. */
typedef struct trivet__weld_strength {
    int32_t rule;          /* a trivet_weld_rule */
    int32_t is_spots;      /* spots are judged as plug welds */
    int32_t has_direction; /* AISC: the direction of the force counts */
    double loads;          /* factor on loads; 1 for AISC */
    double parent;         /* Pa, tensile, of the weaker part, beside the weld */
    double filler;         /* Pa, tensile; NaN: at least the parent's */
    double beta;           /* beta_w of the weaker part */
    double wall;           /* m, the thinner of the two parts */
    double throat;         /* m, as it counts */
    double spot;           /* m, diameter */
} trivet__weld_strength;

/* f_u for EN: the weaker of parent and filler; F_EXX for AISC: the filler's, or the parent's. */
double trivet__weld_tensile(const trivet__weld_strength *strength);
double trivet__weld_electrode(const trivet__weld_strength *strength);

/* A spot's own area, and that of the wall round it, m^2. */
double trivet__spot_area(const trivet__weld_strength *strength);
double trivet__spot_rim(const trivet__weld_strength *strength);

/*
 * Demand and limit at a place: Pa for the directional rule, else N/m; N for spots. The dimension of
 * both, a trivet_dimension.
 */
double trivet__weld_demand(const trivet__weld_strength *strength, const trivet__weld_force *force);
double trivet__weld_limit(const trivet__weld_strength *strength, const trivet__weld_force *force);
int32_t trivet__weld_dimension(const trivet__weld_strength *strength);

/* Resultant of a force, N/m or N. */
double trivet__weld_resultant(const trivet__weld_force *force);

/* k_ds at a place, 1 where it does not count. */
double trivet__weld_direction_at(const trivet__weld_strength *strength,
                                 const trivet__weld_force *force);

#endif
