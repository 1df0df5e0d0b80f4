/*
 * The state at a place along a span in a column of results.
 */
#ifndef TRIVET_STATICS_EVALUATE_H
#define TRIVET_STATICS_EVALUATE_H

#include "trivet/statics.h"

/* Movement and forces [6] each, tube axes, just before or just after a point load at x. */
void trivet__state_at(const trivet_result *result, int32_t column, int32_t span, double x,
                      int is_after, double move[6], double force[6]);

/* K, the sum over the cases of a column. */
double trivet__column_warm(const trivet_result *result, int32_t column);

#endif
