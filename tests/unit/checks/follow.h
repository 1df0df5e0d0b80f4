/*
 * Following the working of a check with a calculator.
 */
#ifndef TRIVET_TESTS_FOLLOW_H
#define TRIVET_TESTS_FOLLOW_H

#include "beam.h"

/*
 * Ends the test unless every formula of the only check of a kind at a place in a case, worked out
 * from the lines above it, gives the number beside it, and the last lines are the check's limit
 * and utilisation.
 */
void follow_working(const beam *of, const char *check, const char *where, const char *in_case);

/* The number beside a symbol in that working, SI; ends the test if there is no such line. */
double working_value(const beam *of, const char *check, const char *where, const char *in_case,
                     const char *symbol);

/* The check as a sentence. */
void working_sentence(const beam *of, const char *check, const char *where, const char *in_case,
                      char text[512]);

#endif
