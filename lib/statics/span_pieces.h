/*
 * Forces inside a span as polynomials between the places where loads begin, end or jump; and how
 * a tube shares them with its insert. For the parts below statics/ that look for worst places.
 */
#ifndef TRIVET_STATICS_SPAN_PIECES_H
#define TRIVET_STATICS_SPAN_PIECES_H

#include "trivet/frame.h"
#include "trivet/statics.h"

#include <stdint.h>

typedef struct trivet__piece {
    double from; /* m from the span's start */
    double to;
    double forces[6][4]; /* N Vy Vz T My Mz = c0 + c1 s + c2 s^2 + c3 s^3, s = x - from */
    double moves[3][6];  /* ux uy uz in the tube's axes, to s^5 */
} trivet__piece;

/* At least 1, for a result that is solved and indices that exist. */
int32_t trivet__span_piece_count(const trivet_result *result, int32_t in_case, int32_t span);

void trivet__span_piece(const trivet_result *result, int32_t in_case, int32_t span, int32_t piece,
                        trivet__piece *out);

/*
 * By how much N Vy Vz T My Mz inside a span depart at most, in a column, from straight lines
 * between those at the ends. With W the size of a load: forces by W, moments by W L/4, as in the
 * middle of a beam on two supports, and by moments of the load itself. Of a load that is even along
 * the whole span the forces are straight lines and the moments depart by W L/8 (any text on
 * strength of materials). Returns 1 if all loads are even, or there are none.
 */
int trivet__span_departures(const trivet_result *result, int32_t column, int32_t span,
                            double departures_out[6]);

/*
 * The largest sizes over all columns: of the forces at the ends of spans [span][2][6], and of the
 * departures [span][6]. Not a number where one of them is none.
 */
void trivet__span_sizes(const trivet_result *result, double *ends_out, double *departures_out);

/* A part of a span: the tube, or the insert in it, and its share of each force. */
typedef struct trivet__part {
    int32_t stock;
    double share_N, share_My, share_Mz, share_T, share_Vy, share_Vz;
} trivet__part;

/* 1, or 2 with an insert. */
int32_t trivet__span_parts(const trivet_frame *frame, const trivet_result *result, int32_t span,
                           trivet__part parts_out[2]);

#endif
