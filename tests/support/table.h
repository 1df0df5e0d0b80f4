/*
 * Reference values as data: comma-separated files (RFC 4180) with a line of column names.
 */
#ifndef TRIVET_TESTS_TABLE_H
#define TRIVET_TESTS_TABLE_H

typedef struct table table;

/* Reads a whole file; ends the test program with a message if it cannot. Free with table_free. */
table *table_read(const char *path);
void table_free(table *read);
int table_rows(const table *read);

/* The text of a cell, "" if it is empty; ends the program if there is no such column. */
const char *table_text(const table *read, int row, const char *column);

/* The number in a cell; not-a-number if it is empty or no number. */
double table_number(const table *read, int row, const char *column);

/* The first row whose column holds exactly text, or -1. */
int table_find(const table *read, const char *column, const char *text);

/* The value of "name=value unit" in a list such as "E=210000 MPa; L=800 mm"; NaN if not there. */
double table_input(const table *read, int row, const char *column, const char *name);

#endif
