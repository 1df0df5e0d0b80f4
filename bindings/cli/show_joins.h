/*
 * Tables of bolts, welds, decks and cycles.
 */
#ifndef TRIVET_CLI_SHOW_JOINS_H
#define TRIVET_CLI_SHOW_JOINS_H

#include "show_page.h"

/* Each prints a heading and a table, or nothing if there is none. 0, or -1 without memory. */
int print_bolts(const understood *of);
int print_welds(const understood *of);
int print_corners(const understood *of);
int print_decks(const understood *of);
int print_cycles(const understood *of);

#endif
