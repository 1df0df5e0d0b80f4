/*
 * Which directions are equations, and in which order. Used by the plan alone.
 */
#ifndef TRIVET_STATICS_NUMBERING_H
#define TRIVET_STATICS_NUMBERING_H

#include "statics/statics.h"

/* m along the tube of a station in this frame. */
double trivet__station_distance(const trivet_frame *frame, int32_t tube,
                                const trivet__station *station);

/* Marks what mounts hold; everything else becomes 0: an equation still without a number. */
void trivet__hold_directions(trivet_plan *plan, const trivet_frame *frame);

/* Orders the nodes and numbers the equations; lists what each direction is a sum of. */
trivet_status trivet__number_equations(trivet_plan *plan, trivet_message *message);

/* Places of all stations: points [station_count][3], distances [station_count]. */
void trivet__place_stations(const trivet_plan *plan, const trivet_frame *frame, double *points,
                            double *distances);

/* One span from the frame's numbers: place, axes, flexibility, stiffness. */
trivet_status trivet__place_span(const trivet_plan *plan, const trivet_frame *frame,
                                 const double *points, const double *distances, int32_t span,
                                 trivet__span *out, trivet_message *message);

#endif
