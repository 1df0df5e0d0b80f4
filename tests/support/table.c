/*
 * Comma-separated files (RFC 4180) for tests: the whole file is read, quotes are taken off in place
 * and every cell is remembered by where it begins. Rows that are shorter or longer than the line of
 * column names end the program, so that a slipped comma never goes unseen.
 */
#include "support/table.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct table {
    char *path;
    char *text;         /* the file, quotes taken off, cells closed by zeros */
    const char **cells; /* [rows + 1][columns]; the first row is the names */
    size_t cell_count;
    size_t cell_room;
    int rows;
    int columns;
};

__attribute__((noreturn, format(printf, 2, 3))) static void give_up(const char *path,
                                                                    const char *format, ...)
{
    va_list values;
    va_start(values, format);
    fprintf(stderr, "%s: ", path);
    vfprintf(stderr, format, values);
    fputc('\n', stderr);
    va_end(values);
    exit(EXIT_FAILURE);
}

static void *take_or_give_up(const char *path, void *old, size_t bytes)
{
    void *const block = realloc(old, bytes);
    if (!block) {
        give_up(path, "no memory for %zu bytes", bytes);
    }
    return block;
}

static char *read_file(const char *path)
{
    FILE *const file = fopen(path, "rb");
    if (!file) {
        give_up(path, "cannot be opened");
    }
    size_t length = 0;
    size_t room = 1U << 16U;
    char *text = take_or_give_up(path, NULL, room + 1);
    for (;;) {
        length += fread(text + length, 1, room - length, file);
        if (length < room) {
            break;
        }
        room *= 2;
        text = take_or_give_up(path, text, room + 1);
    }
    if (ferror(file)) {
        give_up(path, "cannot be read");
    }
    fclose(file);
    text[length] = '\0';
    if (strlen(text) != length) {
        give_up(path, "holds a zero byte");
    }
    return text;
}

static void remember_cell(table *into, const char *cell)
{
    if (into->cell_count == into->cell_room) {
        into->cell_room = into->cell_room > 0 ? 2 * into->cell_room : 512;
        void *const cells = into->cells;
        into->cells = take_or_give_up(into->path, cells, into->cell_room * sizeof *into->cells);
    }
    into->cells[into->cell_count++] = cell;
}

/*
 * Takes the quotes off one cell that begins at *from and closes it with a zero. *from is moved
 * behind its comma or line end. Returns the character that ended it: ',', '\n' or 0.
 */
static char cut_cell(table *into, char **from)
{
    char *read = *from;
    char *write = read;
    remember_cell(into, write);
    if (*read == '"') {
        read++;
        while (*read != '"' || read[1] == '"') {
            if (*read == '\0') {
                give_up(into->path, "a quote in row %d is not closed", into->rows);
            }
            read += *read == '"';
            *write++ = *read++;
        }
        read++;
    } else {
        while (*read != ',' && *read != '\n' && *read != '\r' && *read != '\0') {
            *write++ = *read++;
        }
    }
    read += *read == '\r';
    const char end = *read;
    if (end != ',' && end != '\n' && end != '\0') {
        give_up(into->path, "text follows a closing quote in row %d", into->rows);
    }
    *from = read + (end != '\0');
    *write = '\0';
    return end;
}

table *table_read(const char *path)
{
    table *const made = take_or_give_up(path, NULL, sizeof *made);
    *made = (table){0};
    made->path = take_or_give_up(path, NULL, strlen(path) + 1);
    memcpy(made->path, path, strlen(path) + 1);
    made->text = read_file(path);
    char *at = made->text;
    int line = 0;
    while (*at != '\0') {
        const size_t before = made->cell_count;
        while (cut_cell(made, &at) == ',') {
        }
        const int cells = (int)(made->cell_count - before);
        if (line == 0) {
            made->columns = cells;
        } else if (cells != made->columns) {
            give_up(path, "row %d has %d cells, the names are %d", line, cells, made->columns);
        }
        made->rows = line++;
    }
    if (line == 0) {
        give_up(path, "is empty");
    }
    return made;
}

void table_free(table *read)
{
    if (read) {
        void *const cells = read->cells;
        free(cells);
        free(read->text);
        free(read->path);
        free(read);
    }
}

int table_rows(const table *read)
{
    return read->rows;
}

static int column_named(const table *read, const char *column)
{
    for (int i = 0; i < read->columns; i++) {
        if (strcmp(read->cells[i], column) == 0) {
            return i;
        }
    }
    give_up(read->path, "there is no column \"%s\"", column);
}

const char *table_text(const table *read, int row, const char *column)
{
    const int at = column_named(read, column);
    if (row < 0 || row >= read->rows) {
        give_up(read->path, "there is no row %d, only %d", row, read->rows);
    }
    return read->cells[(size_t)(row + 1) * (size_t)read->columns + (size_t)at];
}

double table_number(const table *read, int row, const char *column)
{
    const char *const text = table_text(read, row, column);
    char *end = NULL;
    const double value = strtod(text, &end);
    return end == text || *end != '\0' ? (double)NAN : value;
}

int table_find(const table *read, const char *column, const char *text)
{
    for (int row = 0; row < read->rows; row++) {
        if (strcmp(table_text(read, row, column), text) == 0) {
            return row;
        }
    }
    return -1;
}

/* A name begins the list or follows one of these; "b" is not found in "a/b=2". */
static int may_stand_before_a_name(char c)
{
    return c == ';' || c == ' ' || c == ',' || c == '=' || c == '(';
}

/* Behind "tf=" in "tf=tw=3 mm" there is another name: step over it. */
static const char *skip_further_names(const char *value)
{
    for (;;) {
        const size_t name = strcspn(value, "=;, ");
        if (value[name] != '=') {
            return value;
        }
        value += name + 1;
    }
}

double table_input(const table *read, int row, const char *column, const char *name)
{
    const char *const list = table_text(read, row, column);
    const size_t length = strlen(name);
    for (const char *at = strstr(list, name); at && length > 0; at = strstr(at + 1, name)) {
        if ((at == list || may_stand_before_a_name(at[-1])) && at[length] == '=') {
            const char *const value = skip_further_names(at + length + 1);
            char *end = NULL;
            const double number = strtod(value, &end);
            return end == value ? (double)NAN : number;
        }
    }
    return (double)NAN;
}
