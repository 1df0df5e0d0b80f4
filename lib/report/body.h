/*
 * A span as a body in space: its line, and how thick its tube is.
 */
#ifndef TRIVET_REPORT_BODY_H
#define TRIVET_REPORT_BODY_H

#include "trivet/statics.h"

typedef struct trivet__body {
    trivet_span span;
    double from[3]; /* m, world axes, on the tube's own line */
    double to[3];
    double half_width;  /* m along the tube's y; round: the radius */
    double half_height; /* m along the tube's z */
    int is_round;
    int begins; /* the tube begins here */
    int ends;   /* the tube ends here */
} trivet__body;

/* Body number span. Returns 0 if there is none. */
int trivet__body_find(const trivet_frame *frame, const trivet_result *result, int32_t span,
                      trivet__body *body_out);

/* Half of its thickness along a direction of length one across it, m. */
double trivet__body_half(const trivet__body *body, const double direction[3]);

#endif
