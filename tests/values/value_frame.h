/*
 * Frames for the tests of published values: every call is asserted, everything acts in one case,
 * the stock is a section given by its values.
 */
#ifndef TRIVET_TESTS_VALUE_FRAME_H
#define TRIVET_TESTS_VALUE_FRAME_H

#include "support/frames.h"
#include "support/table.h"

#include <trivet/trivet.h>

/* Stock in SI units; a shear area of 0 leaves shear out. */
typedef struct value_stock {
    double E;          /* Pa */
    double G;          /* Pa */
    double area;       /* m^2 */
    double bending;    /* m^4, about both axes */
    double twist;      /* m^4 */
    double shear_area; /* m^2, in both directions */
    double expansion;  /* 1/K */
} value_stock;

/* A new frame with one case, number 0, without gravity. */
trivet_frame *value_frame_new(void);
int32_t value_add_stock(trivet_frame *frame, const value_stock *stock);
int32_t value_add_joint(trivet_frame *frame, double x, double y, double z);
int32_t value_add_tube(trivet_frame *frame, int32_t first, int32_t last, int32_t stock);
void value_add_force(trivet_frame *frame, int32_t joint, double x, double y, double z);
void value_add_moment(trivet_frame *frame, int32_t joint, double x, double y, double z);

/* A downward force on a tube, and a downward line load; m along the tube, N, N/m. */
void value_add_weight(trivet_frame *frame, int32_t tube, double at, double force);
void value_add_line(trivet_frame *frame, int32_t tube, double from, double to, double first,
                    double last);

/* Movement [6] of a joint, what a mount does [6], case 0. */
const double *value_move(const trivet_result *result, int32_t joint);
const double *value_reaction(const trivet_result *result, int32_t mount);

/* Forces inside [6] and movement [6] at a place along a tube; either may be NULL. */
void value_at(const trivet_result *result, int32_t tube, double at, double *forces, double *move);

/*
 * The number behind "name=" in the inputs of a row; a row that says "as above" also has the inputs
 * of the row before. NaN if it is not there.
 */
double value_input(const table *rows, int row, const char *name);

#endif
