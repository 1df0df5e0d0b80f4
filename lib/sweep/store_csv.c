/*
 * The rows as comma-separated values after RFC 4180: fields with commas, quotes or line ends stand
 * in quotes, a quote is written twice, lines end in CR LF.
 *
 * A spreadsheet runs a cell that begins with = + - or @ (or a tab or line end before one) as a
 * formula, quotes or not; text gets an apostrophe before it, which marks it as text (common
 * practice). Numbers are written by us and cannot be formulas.
 */
#include "sweep/store_inside.h"

#include "base/decimal.h"
#include "base/memory.h"
#include "base/message.h"
#include "trivet/checks.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ROOM = 1 << 14, NUMBER_ROOM = 512, DIGITS = 15 };

typedef struct csv {
    trivet__csv_take *take;
    void *user;
    trivet_message *message;
    const trivet__run_head *head;
    const trivet_units *units;
    trivet_status status;
    int is_first; /* of its line */
    size_t length;
    char room[ROOM];
} csv;

static void flush(csv *c)
{
    if (!c->status && c->length > 0) {
        c->status = c->take(c->user, c->room, c->length, c->message);
    }
    c->length = 0;
}

static void write_char(csv *c, char letter)
{
    if (c->length == sizeof c->room) {
        flush(c);
    }
    c->room[c->length++] = letter;
}

static void write_plain(csv *c, const char *text)
{
    for (; *text; text++) {
        write_char(c, *text);
    }
}

static void begin_field(csv *c)
{
    if (!c->is_first) {
        write_char(c, ',');
    }
    c->is_first = 0;
}

static void end_line(csv *c)
{
    write_plain(c, "\r\n");
    c->is_first = 1;
}

/* Text, and behind it " (unit)" unless that is empty. */
static void write_text(csv *c, const char *text, const char *unit)
{
    begin_field(c);
    const int is_formula = text[0] && strchr("=+-@\t\r\n", text[0]) != NULL;
    const int is_quoted = strpbrk(text, ",\"\r\n") || text[0] == ' ';
    if (is_quoted) {
        write_char(c, '"');
    }
    if (is_formula) {
        write_char(c, '\'');
    }
    for (const char *at = text; *at; at++) {
        if (*at == '"') {
            write_char(c, '"');
        }
        write_char(c, *at);
    }
    if (unit[0]) {
        write_plain(c, " (");
        write_plain(c, unit);
        write_char(c, ')');
    }
    if (is_quoted) {
        write_char(c, '"');
    }
}

static void write_number(csv *c, double value)
{
    char text[NUMBER_ROOM] = "";
    begin_field(c);
    if (isinf(value)) {
        write_plain(c, value > 0.0 ? "infinite" : "minus infinite");
    } else if (!isnan(value)) {
        trivet__decimal_write(value, DIGITS, text, sizeof text);
        write_plain(c, text);
    }
}

static void write_whole(csv *c, int64_t value)
{
    char text[32];
    begin_field(c);
    snprintf(text, sizeof text, "%lld", (long long)value);
    write_plain(c, text);
}

/* SI in, the user's unit out. */
static void write_quantity(csv *c, int32_t dimension, double value)
{
    double factor = 1.0;
    trivet_units_for(c->units, (trivet_dimension)dimension, &factor);
    write_number(c, value / factor);
}

static void write_titles(csv *c)
{
    static const char *const verdicts[] = {"reason", "overload", "cracking", "service"};
    static const char *const used[] = {"overload used", "cracking used", "service used"};
    static const char *const governs[] = {"governing check", "where", "case"};
    write_text(c, "variant", "");
    for (int32_t i = 0; i < c->head->input_count; i++) {
        const int is_number = c->head->input_kinds[i] == TRIVET__INPUT_NUMBER;
        const trivet_dimension dimension = (trivet_dimension)c->head->input_dimensions[i];
        write_text(c, c->head->input_names[i],
                   is_number ? trivet_units_for(c->units, dimension, NULL) : "");
    }
    write_text(c, "outcome", "");
    for (size_t i = 0; i < sizeof verdicts / sizeof verdicts[0]; i++) {
        write_text(c, verdicts[i], "");
    }
    for (size_t i = 0; i < sizeof used / sizeof used[0]; i++) {
        write_text(c, used[i], "%");
    }
    for (size_t i = 0; i < sizeof governs / sizeof governs[0]; i++) {
        write_text(c, governs[i], "");
    }
    write_text(c, "droop", trivet_units_for(c->units, TRIVET_LENGTH, NULL));
    write_text(c, "mass", trivet_units_for(c->units, TRIVET_MASS, NULL));
    write_text(c, "price", "");
    write_text(c, "mount force", trivet_units_for(c->units, TRIVET_FORCE, NULL));
    end_line(c);
}

static void write_input(csv *c, const trivet__variant_row *row, int32_t input)
{
    const double value = row->inputs[input];
    if (c->head->input_kinds[input] == TRIVET__INPUT_NUMBER) {
        write_quantity(c, c->head->input_dimensions[input], value);
    } else if (value >= 0.0 && value < (double)c->head->choice_counts[input]) {
        write_text(c, c->head->choices[input][(int32_t)value], "");
    } else {
        write_number(c, (double)NAN);
    }
}

static trivet_status write_row(void *user, const trivet__variant_row *row, trivet_message *message)
{
    static const char *const outcomes[] = {"solved", "skipped", "failed"};
    (void)message;
    csv *const c = user;
    const int is_known = row->outcome >= TRIVET__SOLVED && row->outcome <= TRIVET__UNSOLVED;
    write_whole(c, row->number);
    for (int32_t i = 0; i < c->head->input_count; i++) {
        write_input(c, row, i);
    }
    write_text(c, is_known ? outcomes[row->outcome] : "", "");
    write_text(c, row->reason, "");
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        write_text(c, row->outcome == TRIVET__SOLVED ? trivet_verdict_text(row->verdicts[i]) : "",
                   "");
    }
    for (int i = 0; i < TRIVET_LINE_COUNT; i++) {
        write_number(c, 100.0 * row->used[i]);
    }
    write_text(c, row->governs_check, "");
    write_text(c, row->governs_where, "");
    write_text(c, row->governs_case, "");
    write_quantity(c, TRIVET_LENGTH, row->droop);
    write_quantity(c, TRIVET_MASS, row->mass);
    write_number(c, row->price);
    write_quantity(c, TRIVET_FORCE, row->mount_force);
    end_line(c);
    return c->status;
}

/* Whether any text of the store has letters beyond ASCII. */
static int has_letters_beyond(trivet__store *store, int64_t *has_out)
{
    return trivet__sql_number(
        store->db,
        "SELECT EXISTS(SELECT 1 FROM (SELECT name AS text FROM inputs"
        " UNION ALL SELECT text FROM choices UNION ALL SELECT text FROM texts)"
        " WHERE length(text) < length(CAST(text AS BLOB)))",
        has_out);
}

trivet_status trivet__store_csv(trivet__store *store, const trivet_units *units,
                                trivet__csv_take *take, void *user, trivet_message *message)
{
    if (!store || !take) {
        return trivet__missing(message, !store ? "store" : "take");
    }
    int64_t is_beyond = 0;
    const int result = has_letters_beyond(store, &is_beyond);
    if (result != SQLITE_OK) {
        return trivet__sql_status(store, result, message);
    }
    csv *const c = trivet__take(1, sizeof *c);
    if (!c) {
        return trivet__no_memory(message);
    }
    c->take = take;
    c->user = user;
    c->message = message;
    c->head = &store->head;
    c->units = units;
    c->is_first = 1;
    if (is_beyond) {
        write_plain(c, "\xEF\xBB\xBF");
    }
    write_titles(c);
    trivet_status status = trivet__store_rows(store, write_row, c, message);
    if (!status) {
        flush(c);
        status = c->status;
    }
    trivet__give_back(c);
    return status;
}
