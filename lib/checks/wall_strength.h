/*
 * What the walls of a tube stand when a bolt through it presses them together, with the numbers in
 * between for the working.
 */
#ifndef TRIVET_CHECKS_WALL_STRENGTH_H
#define TRIVET_CHECKS_WALL_STRENGTH_H

#include "checks/bolt_parts.h"

/* How the clamped stock carries the press of a head. */
typedef enum trivet__wall_form {
    TRIVET__WALL_UNKNOWN = 0, /* no tube is said, or its yield is not known */
    TRIVET__WALL_FLAT = 1,    /* square and rectangular tube */
    TRIVET__WALL_ROUND = 2
} trivet__wall_form;

/* Lengths in m, forces in N. What a form does not have is 0. */
typedef struct trivet__wall {
    int32_t form;       /* a trivet__wall_form */
    double yield;       /* Pa */
    double stiffness;   /* Pa, Young's modulus */
    double thickness;   /* t */
    double head;        /* w, diameter or width of the bolt's head */
    double height;      /* the larger side of a flat tube, the diameter of a round one */
    double share;       /* beta: of the face that the head covers; 1 or more: it meets the sides */
    double face;        /* R_f, the face dented between its sides; infinite if share is 1 or more */
    double punch;       /* R_p, the head pushed through the wall */
    double slenderness; /* lambda of the side walls */
    double helper;      /* phi of the buckling curve */
    double reduction;   /* chi */
    double side;        /* R_s, both side walls crushed */
    double stands;      /* the least of them */
} trivet__wall;

/* The walls under the bolts, whatever stands inside the tube. */
void trivet__wall_find(const trivet_frame *frame, const trivet_bolts *bolts,
                       trivet__wall *wall_out);

/* Width of the head, m. */
double trivet__head_width(const trivet_bolts *bolts, const trivet_thread *thread);

/* Yield of the crush sleeve, Pa: its own or that of the tube; NaN if neither is known. */
double trivet__sleeve_yield(const trivet_frame *frame, const trivet_bolts *bolts);

/*
 * The face of a rectangular tube pushed in between its sides by a stiff plate, N: across is the
 * plate's size from side to side, along that along the tube, face the width of the face between
 * its hinges. Infinite if across is face or more.
 */
double trivet__face_stands(double yield, double wall, double face, double across, double along);

/* A bolt pressing sideways on walls that are thickness thick in all, N. */
double trivet__bearing_stands(double yield, double diameter, double thickness);

#endif
