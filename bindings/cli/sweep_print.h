/*
 * What sweep and pick say of variants.
 */
#ifndef TRIVET_CLI_SWEEP_PRINT_H
#define TRIVET_CLI_SWEEP_PRINT_H

#include "command.h"

#include <trivet/sweep.h>

/* Reads the sweep of the file that was given; says what is wrong. Returns the exit status. */
int read_sweep(const options *given, trivet_sweep **sweep_out);

/* "18 variants: reach (3 values), rail (3 choices)". */
void print_sweep(const trivet_sweep *sweep);

/* An input as people read it: "180 mm", "sq 20 x 2". */
void input_text(const trivet_sweep *sweep, int32_t input, double value, char *text, size_t size);

/* All inputs: "reach 180 mm, rail sq 20 x 2". */
void inputs_text(const trivet_sweep *sweep, const double *values, char *text, size_t size);

/* A whole number from least to most that an option has; *value is left alone if it is not given.
 * Returns 0, or the exit status after saying what is wrong. */
int option_whole(const options *given, const char *name, int64_t least, int64_t most,
                 int64_t *value);

#endif
