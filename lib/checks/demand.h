/*
 * What ends of tubes, sets of bolts and cargo's joints have to carry, from the solution.
 */
#ifndef TRIVET_CHECKS_DEMAND_H
#define TRIVET_CHECKS_DEMAND_H

#include "checks/check_record.h"

/*
 * Section forces N Vy Vz T My Mz of a tube at its end at a joint, in the tube's axes, signs as
 * everywhere: on the face whose outward normal is +x. joint is the tube's first or last.
 */
void trivet__end_forces(const trivet__making *making, int32_t in_case, int32_t tube, int32_t joint,
                        double forces_out[6]);

/* The same in the first column; from one column to the next it is so many numbers further. */
const double *trivet__end_row(const trivet__making *making, int32_t tube, int32_t joint);
static inline ptrdiff_t trivet__column_step(const trivet__making *making)
{
    return 12 * (ptrdiff_t)making->span_count;
}

/* The tube's axes as rows, world axes. */
void trivet__axes_of_tube(const trivet__making *making, int32_t tube, double axes_out[9]);

/* Force and moment [6] that all cargo hands on to a joint, world axes, about the joint. */
void trivet__cargo_forces(const trivet__making *making, int32_t in_case, int32_t joint,
                          double forces_out[6]);

/*
 * Force and moment [6] that the part puts on what a set of bolts holds it to, in the axes of the
 * bolts, about the joint. [2] above 0 pulls at the bolts.
 */
void trivet__bolts_forces(const trivet__making *making, int32_t in_case, int32_t bolts,
                          double forces_out[6]);

/*
 * Starts a record about a set of bolts: named after the mount, or "back at TL", "lid at TL".
 * in_case as in trivet__record_start.
 */
trivet__record *trivet__bolts_record(trivet__making *making, const trivet__check_kind *kind,
                                     int32_t bolts, int32_t in_case);

/* Lists something about a set of bolts as not checked: what "bolts of", all static. */
trivet_status trivet__bolts_omit(trivet__making *making, int32_t bolts, const char *what,
                                 const char *why);
/* The same on another line of the verdict. */
trivet_status trivet__bolts_omit_line(trivet__making *making, int32_t line, int32_t bolts,
                                      const char *what, const char *why);

#endif
