/*
 * Conditions of a cluster of stiff cargo, shared by planning (tie_plan.c) and solving (tie.c).
 */
#ifndef TRIVET_STATICS_TIE_H
#define TRIVET_STATICS_TIE_H

#include "statics/statics.h"

/* A pivot below this share of the ties' entries (which are 1 and lengths in m) is none. */
#define TRIVET__LEAST_PIVOT 1e-9

/* Three conditions a tie. */
int32_t trivet__tie_rows(const trivet__cluster *cluster);

/* The directions of a cluster, [direction_count]. */
const int32_t *trivet__tie_directions(const trivet_plan *plan, const trivet__cluster *cluster);

/* The conditions, [rows][directions]. */
void trivet__tie_conditions(const trivet_plan *plan, const trivet_frame *frame,
                            const trivet__cluster *cluster, double *matrix);

/* One step of Gauss-Jordan: the pivot's column becomes a unit vector with 1 in its row. */
void trivet__tie_eliminate(double *matrix, int32_t rows, int32_t columns,
                           const trivet__pivot *pivot);

/* Doubles of scratch that solving and reactions need. */
size_t trivet__tie_scratch(const trivet_plan *plan);

#endif
