/*
 * The loads of a random frame: called once its joints, tubes, mounts and cargo are there.
 */
#ifndef TRIVET_TESTS_RANDOM_LOADS_H
#define TRIVET_TESTS_RANDOM_LOADS_H

#include "support/dice.h"
#include "support/frames.h"

/* 2 to 4 cases, none of them empty, and one combination, as options allow. */
void add_random_cases(dice *d, const random_options *options, frame_plan *plan);

#endif
