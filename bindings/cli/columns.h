/*
 * Tables of plain text: columns as wide as their widest cell, numbers at their decimal points. The
 * last column may be wrapped into what the others leave of the line.
 */
#ifndef TRIVET_CLI_COLUMNS_H
#define TRIVET_CLI_COLUMNS_H

#include <trivet/base.h>

#include <stddef.h>

enum { COLUMNS_MAX = 10 };

/* How cells stand in their column. */
typedef enum column_kind { COLUMN_TEXT = 0, COLUMN_NUMBER = 1, COLUMN_WRAPPED = 2 } column_kind;

typedef struct columns {
    int count;
    int indent;
    column_kind kinds[COLUMNS_MAX];
    char *text; /* all cells, each closed with zero */
    size_t length;
    size_t room;
    int cells;     /* how many */
    int is_broken; /* there was not enough memory */
} columns;

/*
 * Starts a table: kinds as letters, t text, n number, w wrapped; headings, one a kind, are its
 * first row, which is added by the caller if they are NULL. Free with columns_print, which prints
 * and empties the table.
 */
void columns_start(columns *table, int indent, const char *kinds, const char *const *headings);
/* The next cell, from left to right and top to bottom. */
void columns_add(columns *table, const char *text);
/* A cell with a value and its unit. units may be NULL. */
void columns_add_value(columns *table, const trivet_units *units, trivet_dimension dimension,
                       double value, int digits);
/* A cell with a value under a heading that names the unit; "-" if it is NaN. */
void columns_add_bare(columns *table, const trivet_units *units, trivet_dimension dimension,
                      double value);
/* How wide the table is, with nothing wrapped. */
int columns_width(const columns *table);
/* Empties a table that is not to be printed. */
void columns_drop(columns *table);
/* Prints the table; nothing if it has no row under its headings. Returns 0, or -1 without memory.
 */
int columns_print(columns *table);

#endif
