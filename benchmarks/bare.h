/*
 * The referee of speed: the same ladders as a plain program would solve them, without looking at
 * anything: element matrices of 12 x 12 (S. Timoshenko's beam, J. S. Przemieniecki, Theory of
 * Matrix Structural Analysis, 1968, section 5.6), band storage, LAPACK's Cholesky factor and
 * solution, forces at the ends of the elements.
 */
#ifndef TRIVET_BENCHMARKS_BARE_H
#define TRIVET_BENCHMARKS_BARE_H

#include <trivet/trivet.h>

enum { BARE_STIFFS = 6 };

typedef struct bare_element {
    int32_t joints[2];
    double stiffs[BARE_STIFFS]; /* EA, GJ, E Iyy, E Izz in N, N m^2; G Ay, G Az in N */
    double mass;                /* kg/m */
} bare_element;

/* What a variant is. */
typedef struct bare_frame {
    int32_t joint_count, element_count, case_count;
    int32_t rung;   /* the first element that is one; those of the rails stand before it */
    double *places; /* [joint_count][3] m */
    bare_element *elements;
} bare_frame;

/* Room to solve in, and the answer. */
typedef struct bare_room {
    int32_t size, reach;
    double *band;
    double *values; /* [case_count][size] loads, then movements */
    double *axes;   /* [element_count][9] */
    double *local;  /* [element_count][12][12] */
    double *fixed;  /* [case_count][element_count][12] forces of ends held still */
    double *ends;   /* [case_count][element_count][12] forces at the ends, element axes */
} bare_room;

void bare_frame_read(const trivet_frame *frame, bare_frame *out);
void bare_frame_free(bare_frame *frame);
void bare_room_make(const bare_frame *frame, bare_room *out);
void bare_room_free(bare_room *room);

/* Returns 0, or what LAPACK said. */
int bare_solve(const bare_frame *frame, bare_room *room);

#endif
