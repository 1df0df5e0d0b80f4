/*
 * A rack with something of everything, built through the public headers call by call: tubes of
 * several spans, a free end, an offset, an insert, held and sprung mounts, stiff and soft cargo,
 * cases with every kind of load, a combination.
 */
#ifndef TRIVET_TESTS_RACK_H
#define TRIVET_TESTS_RACK_H

#include <trivet/trivet.h>

/*
 * What stands between a call and its answer: hands the status on, or has the call made once more
 * by returning 1. Called with each status until it returns 0.
 */
typedef int rack_again(void *user, trivet_status status);

/*
 * Builds the rack; reach is how far it stands out behind the mounts, m. Every call that answers
 * something other than TRIVET_OK is handed to again (NULL: never made again). Returns the last
 * status; *rack_out is NULL unless that is TRIVET_OK.
 */
trivet_status rack_build(double reach, rack_again *again, void *user, trivet_frame **rack_out,
                         trivet_message *message);

/* The same in a frame that is there already and empty. */
trivet_status rack_fill(trivet_frame *frame, double reach, rack_again *again, void *user,
                        trivet_message *message);

/* A sum over the bits of all results: the same for the same results, bit for bit. */
uint64_t rack_print_of(const trivet_result *result);

#endif
