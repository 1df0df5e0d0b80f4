/*
 * The table of units, for the reader of quantities.
 */
#ifndef TRIVET_BASE_UNITS_H
#define TRIVET_BASE_UNITS_H

#include "trivet/base.h"

/*
 * A unit: SI value = number * times / over. Two factors, both exact, so that 25 mm is the double
 * nearest to 0.025.
 */
typedef struct trivet__unit {
    const char *text;
    double times;
    double over;
    int32_t length;
    int32_t mass;
    int32_t time;
    int32_t temperature;
} trivet__unit;

/* The unit spelled text[length], or NULL. Capitals count: Pa, kN, lbf. */
const trivet__unit *trivet__unit_find(const char *text, size_t length);

/* The unit whose spelling is nearest to wish, or NULL if none is near enough to be meant. */
const char *trivet__unit_nearest(const char *wish);

/* What a quantity is, in words: "length", "plain number", or "quantity in kg*m^2" if it has none.
 */
void trivet__quantity_describe(const trivet_quantity *quantity, char *text, size_t size);

#endif
