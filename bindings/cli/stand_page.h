/*
 * What the frame must stand, told before any result; and what the vehicle feels of it.
 */
#ifndef TRIVET_CLI_STAND_PAGE_H
#define TRIVET_CLI_STAND_PAGE_H

#include "check_page.h"

/* The ready-made cases as sentences, and what of them is missing. Nothing if there are none. */
void print_stories(const trivet_frame *frame);

/* The give that was fitted to readings. Nothing if the file has none. */
void print_fitted(const answer *of);

/*
 * The droop of every case as solved and with the mounts as they are not: rigid beside a give, a
 * usual give beside rigid. Returns 0, or -1 without memory.
 */
int print_droop(const answer *of);

/* What is taken off the front wheel. Nothing without a vehicle. */
void print_vehicle(const answer *of);

/* What happens if a bolt or a mount is lost, if the file asks for it. */
void print_losses(const answer *of);

#endif
