/*
 * A frame plan written as a file, in units of the test's choice.
 */
#ifndef TRIVET_TESTS_PLAN_TEXT_H
#define TRIVET_TESTS_PLAN_TEXT_H

#include "support/frame_plan.h"

/* Units: their names in the file and their sizes in SI, by definition. */
typedef struct text_units {
    const char *length; /* lengths, masses and forces are written bare */
    const char *mass;
    const char *force;
    const char *angle;
    double length_size; /* m */
    double mass_size;   /* kg */
    double force_size;  /* N */
    double angle_size;  /* rad */
} text_units;

/* mm, kg, N, rad; and in, lb, lbf, deg. */
text_units metric_units(void);
text_units inch_units(void);

/* The file, zero-ended; give it back with free. Seventeen digits a number. */
char *plan_text(const frame_plan *plan, const text_units *units);

#endif
