/*
 * Tables of words while they are being filled. Nothing in the middle can fail: that there was no
 * memory is remembered.
 */
#ifndef TRIVET_SHOP_CUT_TABLES_H
#define TRIVET_SHOP_CUT_TABLES_H

#include "shop/cuts_record.h"
#include "trivet/shop_tables.h"

#include "base/text.h"

enum { TRIVET__CELL_MAX = 1024, TRIVET__CELL_DIGITS = 6 };

typedef struct trivet__cut_table {
    trivet_cut_table table;
    const char *const *headings;
    size_t title; /* where it begins in text */
    size_t first_cell;
    size_t first_line;
    size_t line_count;
} trivet__cut_table;

struct trivet_cut_tables {
    const trivet_cuts *cuts;   /* while they are filled */
    const trivet_units *units; /* likewise */
    char *text;                /* all cells and lines, each closed with zero */
    size_t length;
    size_t room;
    size_t *cells; /* where each begins in text */
    size_t cell_count;
    size_t cell_capacity;
    size_t *lines;
    size_t line_count;
    size_t line_capacity;
    trivet__cut_table *list;
    size_t count;
    size_t capacity;
    int is_broken; /* there was not enough memory */
};

/* Begins a table; what is written afterwards is in it. */
void trivet__cut_table_begin(trivet_cut_tables *tables, int32_t subject, const char *heading,
                             const char *kinds, const char *const *headings);
/* Says of which saddle it is. */
void trivet__cut_table_title(trivet_cut_tables *tables, int32_t piece, int32_t end,
                             const char *title);
/* Ends it: counts its rows, and takes it away if it has neither rows nor lines. */
void trivet__cut_table_end(trivet_cut_tables *tables);

/* The next cell, from left to right and top to bottom. */
void trivet__cut_cell(trivet_cut_tables *tables, const char *format, ...) TRIVET__FORMAT(2, 3);
/* One with a value and its unit; "-" if it is not-a-number. */
void trivet__cut_cell_value(trivet_cut_tables *tables, int32_t dimension, double value, int digits);
/* Goes on with the last cell. */
void trivet__cut_cell_more(trivet_cut_tables *tables, const char *format, ...) TRIVET__FORMAT(2, 3);
/* The next line below the table. */
void trivet__cut_line(trivet_cut_tables *tables, const char *format, ...) TRIVET__FORMAT(2, 3);

/* The tables, each in its place. */
void trivet__write_stocks(trivet_cut_tables *tables);
void trivet__write_bars(trivet_cut_tables *tables);
void trivet__write_pieces(trivet_cut_tables *tables);
void trivet__write_ends(trivet_cut_tables *tables);
void trivet__write_depths(trivet_cut_tables *tables);
void trivet__write_bends(trivet_cut_tables *tables);
void trivet__write_holes(trivet_cut_tables *tables);
void trivet__write_parts(trivet_cut_tables *tables);
void trivet__write_sums(trivet_cut_tables *tables);
void trivet__write_rules(trivet_cut_tables *tables);
void trivet__write_notes(trivet_cut_tables *tables);

#endif
