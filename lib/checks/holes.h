/*
 * Holes for bolts: how deep a countersunk head sinks in, how near the edge is.
 */
#ifndef TRIVET_CHECKS_HOLES_H
#define TRIVET_CHECKS_HOLES_H

#include "checks/check_record.h"

/* How deep a thread's countersunk head is, m: from its theoretical diameter to the thread's. */
double trivet__countersink_depth(const trivet_thread *thread);

/* TRIVET_OK or TRIVET_NO_MEMORY. */
trivet_status trivet__check_holes(trivet__making *making, int32_t bolts);

#endif
