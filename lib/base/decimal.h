/*
 * Decimal numbers as text, the same in every language setting of the host program: the C library's
 * own functions read and write a comma in half of Europe.
 */
#ifndef TRIVET_BASE_DECIMAL_H
#define TRIVET_BASE_DECIMAL_H

#include <stddef.h>

/*
 * Reads the number at the beginning of text[length]: digits, point, exponent; no sign.
 * Returns the bytes used, 0 if no number stands there. *is_whole_out: digits alone. The value is
 * rounded to the nearest double; infinite if it is too large.
 */
size_t trivet__decimal_read(const char *text, size_t length, double *value_out, int *is_whole_out);

/*
 * Writes a finite value with so many significant digits (1 to 17) into text[size], without trailing
 * zeros and without "-0". Whole digits are never cut. An exponent only from 1e17 and below 1e-6.
 */
void trivet__decimal_write(double value, int digits, char *text, size_t size);

#endif
