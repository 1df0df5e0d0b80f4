/*
 * Welds, bolts, limits and cycles for random frames, and the comparison of two sets of checks.
 */
#ifndef TRIVET_TESTS_RANDOM_JOINS_H
#define TRIVET_TESTS_RANDOM_JOINS_H

#include <stdint.h>
#include <trivet/checks.h>

/* Welds on most ends, limits on mounts, bolts at some of them, droop limits, cycles at times. */
void add_random_joins(trivet_frame *frame, uint64_t seed);

/* Other limits and rules for each seed. */
trivet_limits random_limits(uint64_t seed);

/* Moves joints that no longer tube runs through, changes some stock and welds: same topology. */
void change_sizes_at_random(trivet_frame *frame, uint64_t seed);

/* Fails with the seed unless both hold the same checks, steps and omissions, bit for bit. */
void must_be_same_checks(uint64_t seed, const trivet_checks *one, const trivet_checks *other);

/* Fails with the seed unless both are the same check, bit for bit. */
void must_be_same_check(uint64_t seed, const trivet_check *one, const trivet_check *other);

#endif
