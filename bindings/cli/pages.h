/*
 * What the pages of show and check have in common: the settings of the file, inserts and whether
 * they slide into their tubes, cases in words; what was not checked.
 */
#ifndef TRIVET_CLI_PAGES_H
#define TRIVET_CLI_PAGES_H

#include <trivet/document.h>
#include <trivet/frame.h>

/* The units and limits of a file, the defaults where it gives none. */
trivet_status read_settings(const trivet_document *document, trivet_units *units_out,
                            trivet_limits *limits_out);

/*
 * Prints a heading and a row an insert, only those that do not slide in if only_trouble; nothing
 * if there is none. Returns 0, or -1 without memory.
 */
int print_inserts(const trivet_frame *frame, const trivet_units *units, int only_trouble);

/* Prints a heading and a row a case or combination. Returns 0, or -1 without memory. */
int print_cases(const trivet_frame *frame, const trivet_units *units, const char *heading);

/* Prints what was not checked, all with the same reason in one line, and what the file has unused.
 */
void print_omissions(const trivet_checks *checks, const trivet_document *document,
                     const char *heading);

/* Prints the usual cautions. */
void print_cautions(void);

#endif
