/*
 * Printed numbers: how far a value may be from what a table prints.
 */
#ifndef TRIVET_TESTS_PRINTED_H
#define TRIVET_TESTS_PRINTED_H

#include <math.h>
#include <string.h>

/* Half a unit of the last digit of a decimal number without exponent, such as "1.40". */
static inline double half_unit(const char *printed)
{
    const char *const point = strchr(printed, '.');
    const double decimals = point ? (double)strlen(point + 1) : 0.0;
    return 0.5 * pow(10.0, -decimals);
}

/* Whether a value rounds to what is printed; a tie at the fifteenth digit may go either way. */
static inline int rounds_to(double value, double printed, double half)
{
    return fabs(value - printed) <= half * (1.0 + 1e-9);
}

#endif
