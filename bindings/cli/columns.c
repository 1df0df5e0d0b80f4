/*
 * Tables: cells are gathered in one block, measured, then printed.
 */
#include "columns.h"

#include "print.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { GAP = 2, WRAPPED_LEAST = 16 };

/* Widths: of the whole, and of a number's parts: before the decimal point, from it on, its unit. */
typedef struct measure {
    int whole;
    int before;
    int fraction;
    int unit;
} measure;

void columns_start(columns *table, int indent, const char *kinds, const char *const *headings)
{
    memset(table, 0, sizeof *table);
    table->indent = indent;
    for (; kinds[table->count] && table->count < COLUMNS_MAX; table->count++) {
        const char kind = kinds[table->count];
        table->kinds[table->count] = kind == 'n'   ? COLUMN_NUMBER
                                     : kind == 'w' ? COLUMN_WRAPPED
                                                   : COLUMN_TEXT;
    }
    for (int c = 0; headings && c < table->count; c++) {
        columns_add(table, headings[c]);
    }
}

void columns_add(columns *table, const char *text)
{
    const size_t length = strlen(text) + 1;
    if (table->is_broken) {
        return;
    }
    if (table->length + length > table->room) {
        const size_t room = 2 * table->room + length + 1024;
        char *const grown = realloc(table->text, room);
        if (!grown) {
            table->is_broken = 1;
            return;
        }
        table->text = grown;
        table->room = room;
    }
    memcpy(table->text + table->length, text, length);
    table->length += length;
    table->cells++;
}

void columns_add_value(columns *table, const trivet_units *units, trivet_dimension dimension,
                       double value, int digits)
{
    char text[64];
    trivet_units_text(units, dimension, value, digits, text, sizeof text);
    columns_add(table, text);
}

void columns_add_bare(columns *table, const trivet_units *units, trivet_dimension dimension,
                      double value)
{
    char text[64];
    double factor = 1.0;
    trivet_units_for(units, dimension, &factor);
    trivet_units_text(NULL, TRIVET_NUMBER, value / factor, 4, text, sizeof text);
    columns_add(table, isnan(value) ? "-" : text);
}

static int larger(int a, int b)
{
    return a > b ? a : b;
}

/* Takes a number such as "1.93 mm" apart; the unit with its blank. */
static measure measure_number(const char *cell)
{
    const size_t number = strcspn(cell, " ");
    const size_t before = strcspn(cell, ". ");
    const int whole = text_width(cell);
    const int unit = text_width(cell + number);
    const int fraction = text_width(cell + before) - unit;
    return (measure){whole, whole - fraction - unit, fraction, unit};
}

static void measure_cells(const columns *table, measure *widths)
{
    const char *cell = table->text;
    for (int i = 0; i < table->cells; i++, cell += strlen(cell) + 1) {
        measure *const of = &widths[i % table->count];
        of->whole = larger(of->whole, text_width(cell));
        if (i >= table->count && table->kinds[i % table->count] == COLUMN_NUMBER) {
            const measure number = measure_number(cell);
            of->before = larger(of->before, number.before);
            of->fraction = larger(of->fraction, number.fraction);
            of->unit = larger(of->unit, number.unit);
        }
    }
    for (int c = 0; c < table->count; c++) {
        widths[c].whole =
            larger(widths[c].whole, widths[c].before + widths[c].fraction + widths[c].unit);
    }
}

static void print_blanks_to(int *column, int wanted)
{
    while (*column < wanted) {
        putchar(' ');
        ++*column;
    }
}

static void print_at(int *column, int at, const char *text)
{
    if (text[0] != '\0') {
        print_blanks_to(column, at);
        print_text(text);
        *column += text_width(text);
    }
}

/* Prints a cell whose column begins at start; *column is where the cursor stands. */
static void print_cell(const columns *table, const measure *of, int c, int is_heading,
                       const char *cell, int start, int *column)
{
    const int end = start + of->whole;
    if (table->kinds[c] != COLUMN_NUMBER) {
        print_at(column, start, cell);
    } else if (is_heading) {
        print_at(column, end - text_width(cell), cell);
    } else {
        const size_t number = strcspn(cell, " ");
        char digits[64];
        const size_t kept = number < sizeof digits ? number : sizeof digits - 1;
        memcpy(digits, cell, kept);
        digits[kept] = '\0';
        const int point = end - of->unit - of->fraction;
        print_at(column, point - measure_number(cell).before, digits);
        print_at(column, end - of->unit, cell + number);
    }
}

/* The last column, wrapped into what is left of the line, or below it where hardly any is. */
static void print_rest(const columns *table, int start, int column, const char *cell)
{
    if (cell[0] == '\0') {
        putchar('\n');
    } else if (print_width() - start >= WRAPPED_LEAST) {
        print_blanks_to(&column, start);
        print_wrapped(start, start, cell);
    } else {
        putchar('\n');
        column = 0;
        print_blanks_to(&column, table->indent + 4);
        print_wrapped(column, column, cell);
    }
}

static void print_row(const columns *table, const measure *widths, const char *cell, int row)
{
    int column = 0;
    int start = table->indent;
    for (int c = 0; c < table->count; c++, cell += strlen(cell) + 1) {
        if (table->kinds[c] == COLUMN_WRAPPED) {
            print_rest(table, start, column, cell);
            return;
        }
        print_cell(table, &widths[c], c, row == 0, cell, start, &column);
        start += widths[c].whole + GAP;
    }
    putchar('\n');
}

int columns_width(const columns *table)
{
    measure widths[COLUMNS_MAX];
    int width = table->indent - GAP;
    memset(widths, 0, sizeof widths);
    if (!table->is_broken && table->cells > 0) {
        measure_cells(table, widths);
    }
    for (int c = 0; c < table->count; c++) {
        width += widths[c].whole + GAP;
    }
    return width;
}

void columns_drop(columns *table)
{
    free(table->text);
    table->text = NULL;
}

int columns_print(columns *table)
{
    measure widths[COLUMNS_MAX];
    memset(widths, 0, sizeof widths);
    const int rows = table->count > 0 ? table->cells / table->count : 0;
    if (!table->is_broken && rows > 1) {
        measure_cells(table, widths);
        const char *cell = table->text;
        for (int row = 0; row < rows; row++) {
            print_row(table, widths, cell, row);
            for (int c = 0; c < table->count; c++) {
                cell += strlen(cell) + 1;
            }
        }
    }
    const int status = table->is_broken ? -1 : 0;
    columns_drop(table);
    return status;
}
