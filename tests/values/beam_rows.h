/*
 * How the rows of beams.csv are worked out: a row's number, a function that builds what the row
 * describes from the row's own inputs, and gives the row's quantity in the row's unit and sense.
 *
 * The file is in N, mm and N/mm^2; the frames are in m and Pa.
 */
#ifndef TRIVET_TESTS_BEAM_ROWS_H
#define TRIVET_TESTS_BEAM_ROWS_H

#include "value_frame.h"

#define PER_MM 1e-3      /* m */
#define PER_MM2 1e-6     /* m^2 */
#define PER_MM4 1e-12    /* m^4 */
#define PER_MPA 1e6      /* Pa */
#define PER_N_PER_MM 1e3 /* N/m */
#define PER_N_MM 1e-3    /* N m */

/*
 * Area of frames that the source takes as inextensible: A = 1e7 I/L^2. The give along the tubes
 * changes an answer by about I/(A L^2) = 1e-7 of itself; the rows' tolerances are 1e-5.
 */
#define STIFF_AREA 1e7

/* The answer as it is: the last line of a function that built a frame for it. */
static inline double answer_and_free(double answer, trivet_result *result, trivet_frame *frame)
{
    trivet_result_free(result);
    trivet_frame_free(frame);
    return answer;
}

typedef struct beam_row {
    const char *id;
    double (*solve)(const table *rows, int row);
} beam_row;

/* Tables that end with a row whose id is NULL. */
extern const beam_row special_rows[];
extern const beam_row bent_rows[];
extern const beam_row curve_rows[];

/*
 * Stock with the row's E, G, I, A, J and kappa. What a row does not give does not decide its
 * answer (a moment of a continuous beam, say): then 210000, 81000, 20000, 200, 30000 stand in, and
 * no shear give.
 */
value_stock row_stock(const table *rows, int row);

/* The number behind a name in the row; a stand-in if the row does not have it. */
double input_or(const table *rows, int row, const char *name, double stand_in);

/* A new frame and its first stock, number 0, from the row. */
trivet_frame *row_frame(const table *rows, int row);

/* A beam from 0 to the row's L, ends "cp" and so on; tube 0, joints 0 and 1. */
trivet_frame *beam_frame(const table *rows, int row, const char *ends);
/* Holds a joint of a beam: c clamped, p hinged, f free. */
void beam_hold(trivet_frame *frame, int32_t joint, char end);

/* mm, rad and N mm at a place [m] along a tube that lies along x: down, -dw/dx, hogging. */
double beam_droop(const trivet_result *result, int32_t tube, double at);
double beam_slope(const trivet_result *result, int32_t tube, double at);
double beam_moment(const trivet_result *result, int32_t tube, double at);
/* mm, anywhere along a span. */
double beam_most_droop(const trivet_result *result, int32_t span);

/* All answers that the table of straight beams has for a row; returns how many, at most most. */
int solve_straights(const table *rows, int row, double *answers, int most);

#endif
