/*
 * Comparing doubles in Check tests: absolute on a stated scale, and not-a-number never passes.
 */
#ifndef TRIVET_TESTS_NEAR_H
#define TRIVET_TESTS_NEAR_H

#include <check.h>
#include <float.h>
#include <math.h>

/* Fails unless |got - want| <= tolerance * scale. */
#define near_scaled(got, want, tolerance, scale)                                                   \
    do {                                                                                           \
        const double near_got = (got);                                                             \
        const double near_want = (want);                                                           \
        const double near_allowed = (tolerance)*fabs(scale);                                       \
        ck_assert_msg(fabs(near_got - near_want) <= near_allowed,                                  \
                      "%s is %.17g, wanted %.17g, off by %.3g, allowed %.3g", #got, near_got,      \
                      near_want, near_got - near_want, near_allowed);                              \
    } while (0)

/* Relative to what is wanted. */
#define near_relative(got, want, tolerance) near_scaled(got, want, tolerance, want)

#endif
