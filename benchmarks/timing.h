/*
 * Clock, medians, numbers as JSON.
 */
#ifndef TRIVET_BENCHMARKS_TIMING_H
#define TRIVET_BENCHMARKS_TIMING_H

#include <stddef.h>

/* s */
double now(void);

/* Sorts, too. */
double median(double *values, size_t count);

/* "name": {median, least, most}, then end; sorts. */
void print_spread(const char *name, double *values, size_t count, double scale, const char *end);

#endif
