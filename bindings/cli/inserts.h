/*
 * Inserts and whether they slide into their tubes: for the pages of show and check.
 */
#ifndef TRIVET_CLI_INSERTS_H
#define TRIVET_CLI_INSERTS_H

#include <trivet/frame.h>

/*
 * Prints a heading and a row an insert, only those that do not slide in if only_trouble; nothing
 * if there is none. Returns 0, or -1 without memory.
 */
int print_inserts(const trivet_frame *frame, const trivet_units *units, int only_trouble);

#endif
