/*
 * Bent pieces: several tubes of the model made out of one bar.
 */
#ifndef TRIVET_SHOP_BENT_H
#define TRIVET_SHOP_BENT_H

#include "shop/cut_plan.h"

/* A tube of a bent piece, and the bend that follows it. */
typedef struct trivet__bent_step {
    int32_t number;           /* in the piece, from 0 */
    const trivet__end *entry; /* where the piece comes in; of the first its own end */
    const trivet__end *exit;
    double length;   /* m of the model's tube */
    double base;     /* m along the unrolled piece, of entry if the tube were straight to there */
    double middle;   /* m on the centre line up to here, less what the bends before cut off */
    double angle;    /* rad of the bend after it; 0 for the last */
    double setback;  /* m from the corner to where the bend begins */
    double within;   /* m of the section inside of the centre line there */
    double arc;      /* m on the neutral line */
    double turn;     /* rad, of the plane of that bend against the one before; NaN: none before */
    double plane[3]; /* normal of that bend's plane */
} trivet__bent_step;

/* The first tube of a bent piece that has been marked; then the next: 0 behind the last. */
void trivet__bent_first(const trivet__cut_plan *plan, int32_t bend, trivet__bent_step *step);
int trivet__bent_next(const trivet__cut_plan *plan, int32_t bend, trivet__bent_step *step);

#endif
