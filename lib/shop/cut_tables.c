/*
 * Tables of words: one text that grows, and where in it each cell begins.
 */
#include "shop/cut_tables.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

trivet_status trivet_cut_table_defaults(trivet_cut_table *table, size_t size)
{
    return trivet__defaults(table, size, sizeof *table);
}

/* Adds bytes to the text. Returns where they begin. */
static size_t add_text(trivet_cut_tables *tables, const char *text)
{
    const size_t at = tables->length;
    const size_t needed = at + strlen(text) + 1;
    if (!tables->is_broken && needed > tables->room) {
        char *const grown = trivet__retake(tables->text, 2 * needed, 1);
        tables->is_broken = !grown;
        if (grown) {
            tables->text = grown;
            tables->room = 2 * needed;
        }
    }
    if (!tables->is_broken) {
        memcpy(tables->text + at, text, needed - at);
        tables->length = needed;
    }
    return at;
}

static void add_place(trivet_cut_tables *tables, size_t **places, size_t *count, size_t *capacity,
                      size_t place)
{
    void *list = *places;
    if (!tables->is_broken && trivet__make_room(&list, *count, capacity, sizeof place)) {
        *places = list;
        (*places)[(*count)++] = place;
    } else {
        tables->is_broken = 1;
    }
}

void trivet__cut_table_begin(trivet_cut_tables *tables, int32_t subject, const char *heading,
                             const char *kinds, const char *const *headings)
{
    void *list = tables->list;
    if (tables->is_broken ||
        !trivet__make_room(&list, tables->count, &tables->capacity, sizeof *tables->list)) {
        tables->is_broken = 1;
        return;
    }
    tables->list = list;
    tables->list[tables->count++] =
        (trivet__cut_table){.table = {.size = sizeof(trivet_cut_table),
                                      .subject = subject,
                                      .column_count = (int32_t)strlen(kinds),
                                      .piece = -1,
                                      .end = -1,
                                      .kinds = kinds,
                                      .heading = heading},
                            .headings = headings,
                            .title = add_text(tables, ""),
                            .first_cell = tables->cell_count,
                            .first_line = tables->line_count};
}

void trivet__cut_table_title(trivet_cut_tables *tables, int32_t piece, int32_t end,
                             const char *title)
{
    const size_t at = add_text(tables, title);
    if (!tables->is_broken) {
        trivet__cut_table *const one = &tables->list[tables->count - 1];
        one->title = at;
        one->table.piece = piece;
        one->table.end = end;
    }
}

void trivet__cut_table_end(trivet_cut_tables *tables)
{
    if (tables->is_broken) {
        return;
    }
    trivet__cut_table *const one = &tables->list[tables->count - 1];
    const size_t cells = tables->cell_count - one->first_cell;
    const int32_t columns = one->table.column_count;
    one->line_count = tables->line_count - one->first_line;
    one->table.row_count = columns > 0 ? (int32_t)cells / columns : 0;
    if (one->table.row_count == 0 && (columns > 0 || one->line_count == 0)) {
        tables->count--;
        tables->line_count = one->first_line;
    }
}

void trivet__cut_cell(trivet_cut_tables *tables, const char *format, ...)
{
    char text[TRIVET__CELL_MAX];
    va_list values;
    va_start(values, format);
    const int length = vsnprintf(text, sizeof text, format, values);
    va_end(values);
    add_place(tables, &tables->cells, &tables->cell_count, &tables->cell_capacity,
              add_text(tables, length < 0 ? "" : text));
}

void trivet__cut_cell_value(trivet_cut_tables *tables, int32_t dimension, double value, int digits)
{
    char text[64] = "-";
    if (!isnan(value)) {
        trivet_units_text(tables->units, (trivet_dimension)dimension, value, digits, text,
                          sizeof text);
    }
    trivet__cut_cell(tables, "%s", text);
}

void trivet__cut_cell_more(trivet_cut_tables *tables, const char *format, ...)
{
    char text[TRIVET__CELL_MAX];
    va_list values;
    va_start(values, format);
    const int length = vsnprintf(text, sizeof text, format, values);
    va_end(values);
    if (!tables->is_broken && length >= 0) {
        tables->length--; /* over the zero that closes the last cell */
        add_text(tables, text);
    }
}

void trivet__cut_line(trivet_cut_tables *tables, const char *format, ...)
{
    char text[TRIVET__CELL_MAX];
    va_list values;
    va_start(values, format);
    const int length = vsnprintf(text, sizeof text, format, values);
    va_end(values);
    add_place(tables, &tables->lines, &tables->line_count, &tables->line_capacity,
              add_text(tables, length < 0 ? "" : text));
}

void trivet_cut_tables_free(trivet_cut_tables *tables)
{
    if (tables) {
        trivet__give_back(tables->text);
        trivet__give_back(tables->cells);
        trivet__give_back(tables->lines);
        trivet__give_back(tables->list);
        trivet__give_back(tables);
    }
}

trivet_status trivet_cut_tables_new(const trivet_cuts *cuts, const trivet_units *units,
                                    trivet_cut_tables **tables_out, trivet_message *message)
{
    static void (*const WRITERS[])(trivet_cut_tables *) = {
        trivet__write_stocks, trivet__write_bars,  trivet__write_pieces, trivet__write_ends,
        trivet__write_depths, trivet__write_bends, trivet__write_holes,  trivet__write_parts,
        trivet__write_sums,   trivet__write_rules, trivet__write_notes};
    if (tables_out) {
        *tables_out = NULL;
    }
    if (!cuts || !tables_out) {
        return trivet__missing(message, !cuts ? "cuts" : "tables_out");
    }
    trivet_cut_tables *const tables = trivet__take(1, sizeof *tables);
    if (!tables) {
        return trivet__no_memory(message);
    }
    tables->cuts = cuts;
    tables->units = units;
    for (size_t i = 0; i < sizeof WRITERS / sizeof WRITERS[0]; i++) {
        WRITERS[i](tables);
    }
    tables->cuts = NULL;
    tables->units = NULL;
    if (tables->is_broken) {
        trivet_cut_tables_free(tables);
        return trivet__no_memory(message);
    }
    *tables_out = tables;
    trivet_message_clear(message);
    return TRIVET_OK;
}

int32_t trivet_cut_tables_count(const trivet_cut_tables *tables)
{
    return tables ? (int32_t)tables->count : 0;
}

static const trivet__cut_table *table_at(const trivet_cut_tables *tables, int32_t index)
{
    return index >= 0 && index < trivet_cut_tables_count(tables) ? &tables->list[index] : NULL;
}

trivet_status trivet_cut_tables_at(const trivet_cut_tables *tables, int32_t index,
                                   trivet_cut_table *table_out)
{
    const trivet_status status = trivet__out_check(tables, table_out, sizeof *table_out);
    const trivet__cut_table *const one = table_at(tables, index);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!one) {
        return TRIVET_BAD_INDEX;
    }
    *table_out = one->table;
    table_out->title = tables->text + one->title;
    return TRIVET_OK;
}

const char *trivet_cut_tables_cell(const trivet_cut_tables *tables, int32_t index, int32_t row,
                                   int32_t column)
{
    const trivet__cut_table *const one = table_at(tables, index);
    if (!one || row < -1 || row >= one->table.row_count || column < 0 ||
        column >= one->table.column_count) {
        return NULL;
    }
    const size_t place = (size_t)row * (size_t)one->table.column_count + (size_t)column;
    return row < 0 ? one->headings[column] : tables->text + tables->cells[one->first_cell + place];
}

const char *trivet_cut_tables_line(const trivet_cut_tables *tables, int32_t index, int32_t line)
{
    const trivet__cut_table *const one = table_at(tables, index);
    if (!one || line < 0 || (size_t)line >= one->line_count) {
        return NULL;
    }
    return tables->text + tables->lines[one->first_line + (size_t)line];
}
