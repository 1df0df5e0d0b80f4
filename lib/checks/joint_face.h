/*
 * What the wall of a tube stands where another tube is welded onto it, and what a welded corner
 * stands: EN 1993-1-8 chapter 7 as plain numbers.
 *
 * Letters as there: 0 is the tube that is welded onto, 1 the one that is welded on; i in the plane
 * of the two, o out of it. All SI.
 */
#ifndef TRIVET_CHECKS_JOINT_FACE_H
#define TRIVET_CHECKS_JOINT_FACE_H

#include <stdint.h>

/* A wall up to here, m, lies outside the range of the rules (7.1.1(5)). */
#define TRIVET__WALL_LEAST 2.5e-3

/* gamma_M5 of EN 1993-1-8 table 2.1: joints of hollow sections in lattice girders. */
#define TRIVET__GAMMA_M5 1.0

/* Brace over chord up to which the face, not the side walls, gives way (table 7.11). */
#define TRIVET__BETA_NARROW 0.85

/* One tube welded onto another. A round tube has its diameter in b and h. */
typedef struct trivet__face {
    int32_t is_round;       /* the tube that is welded onto */
    int32_t is_round_brace; /* the tube that is welded on */
    int32_t is_cross;       /* another one stands on the opposite face */
    double b0;              /* m, width of the face */
    double h0;              /* m, depth behind it */
    double t0;              /* m */
    double f0;              /* Pa, yield */
    double E;               /* Pa */
    double b1;              /* m, across the face */
    double h1;              /* m, along it, measured square to the tube's axis */
    double t1;              /* m */
    double f1;              /* Pa, yield */
    double area1;           /* m^2 */
    double elastic1[2];     /* m^3, section moduli in and out of the plane */
    double plastic1[2];     /* m^3 */
    double angle;           /* rad, between the axes, at most pi/2 */
} trivet__face;

/* Which tables of the standard apply. */
typedef enum trivet__face_rule {
    TRIVET__FACE_NARROW = 0,   /* onto a face of a box, clear of its corners */
    TRIVET__FACE_WIDE = 1,     /* as wide as the face, or nearly */
    TRIVET__FACE_ROUND = 2,    /* round onto round */
    TRIVET__FACE_ON_ROUND = 3, /* box onto round */
    TRIVET__FACE_RULE_COUNT = 4
} trivet__face_rule;

/* Resistances and what they are made of; only the numbers of the rule are filled, the rest 0. */
typedef struct trivet__face_strength {
    double k_b; /* pi/4 for a round tube on a box, else 1 */
    double beta;
    double eta;
    double gamma;
    double k_n; /* k_p for round tubes */
    double k_f; /* k_n at beta 0.85 */
    double N_f; /* N, face at beta 0.85 */
    double lambda;
    double phi;
    double chi;
    double k_w; /* k_n at beta 1 */
    double f_b; /* Pa */
    double N_w; /* N, side walls */
    double N_i; /* N, between face and side walls */
    double b_eff;
    double N_b; /* N, the tube welded on, across its uneven seat */
    double b_ep;
    double N_p;  /* N, punching */
    double f_k;  /* Pa */
    double M_if; /* N m, in the plane: face or side wall */
    double M_ib; /* N m, in the plane: the tube welded on; round: punching */
    double M_of; /* out of the plane, likewise */
    double M_ob;
    double M_od; /* N m, the box is racked out of square */
    double N_R;  /* N, the least, gamma_M5 not yet in it */
    double M_iR; /* N m */
    double M_oR; /* N m */
} trivet__face_strength;

/* The rule for two tubes. */
int32_t trivet__face_rule_of(const trivet__face *face);

/*
 * Resistances. n: compression in the tube that is welded onto over its yield, at least 0; is_push:
 * the tube welded on presses against the wall.
 */
void trivet__face_solve(const trivet__face *face, double n, int is_push,
                        trivet__face_strength *strength_out);

/* 0.9 for steel above 355 MPa, else 1: EN 1993-1-8 7.1.1(4). */
double trivet__strong_steel_factor(double yield);

/* Whether punching counts for a tube that is as wide as the face, or nearly. */
int trivet__face_punches(const trivet__face *face);

/* The first bound of the rules that is overstepped, in plain words; NULL: none. Walls may be thin.
 */
const char *trivet__face_refusal(const trivet__face *face);

/* A welded corner of two equal boxes. */
typedef struct trivet__knee {
    double b; /* m, across the plane of the corner */
    double h; /* m, in it */
    double t; /* m */
    double f; /* Pa, yield */
    double area;
    double plastic; /* m^3, bending in the plane */
    double angle;   /* rad, between the tubes, to pi */
} trivet__knee;

/* kappa of EN 1993-1-8 table 7.16, a corner without a plate in it; of a right angle, and of angle.
 */
void trivet__knee_factors(const trivet__knee *knee, double *right_out, double *kappa_out);

/* As trivet__face_refusal. */
const char *trivet__knee_refusal(const trivet__knee *knee);

/*
 * Class, 1 to 4, of a flat part held along both sides, c over t, in compression or in bending, and
 * of a round tube, d over t: EN 1993-1-1:2005 table 5.2.
 */
int32_t trivet__flat_class(double slenderness, double yield, int is_bent);
int32_t trivet__round_class(double slenderness, double yield);

#endif
