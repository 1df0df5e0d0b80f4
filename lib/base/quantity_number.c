/*
 * A number in a quantity with what belongs to it: workshop fraction, gauge, units. The rules stand
 * at the head of quantity.c.
 */
#include "base/decimal.h"
#include "base/quantity_reader.h"

#include <math.h>

/* A run of digits at a place that is not part of a longer number; 0 if none. */
static size_t whole_at(const trivet__reader *r, size_t at, double *value_out)
{
    int is_whole = 0;
    const size_t used = trivet__decimal_read(r->text + at, r->length - at, value_out, &is_whole);
    return is_whole ? used : 0;
}

/* "3/4" without blanks at a place: its bytes, 0 if there is no such thing. */
static size_t fraction_at(const trivet__reader *r, size_t at, double *over_out, double *under_out)
{
    if (at >= r->length) {
        return 0;
    }
    const size_t over = whole_at(r, at, over_out);
    const size_t slash = at + over;
    if (over == 0 || trivet__reader_char(r, slash) != '/' || slash + 1 >= r->length) {
        return 0;
    }
    const size_t under = whole_at(r, slash + 1, under_out);
    return under > 0 ? over + 1 + under : 0;
}

static int word_follows(const trivet__reader *r, size_t at)
{
    return trivet__reader_word(r, trivet__reader_behind_blanks(r, at)) > 0;
}

/*
 * Workshop fractions: whole stands at start, r->at behind it. Adds the fraction of "1 1/4" and
 * "1-1/4 in", or divides in "3/4 in"; leaves everything as it is if none of them is there.
 */
static trivet_status read_fraction(trivet__reader *r, size_t start, double *whole)
{
    double over = 0.0;
    double under = 1.0;
    const size_t blank = trivet__reader_behind_blanks(r, r->at);
    const int has_dash = trivet__reader_char(r, r->at) == '-';
    size_t first = has_dash ? r->at + 1 : blank;
    size_t bytes = has_dash || blank > r->at ? fraction_at(r, first, &over, &under) : 0;
    double sum = *whole;
    if (bytes > 0) {
        if (!(over < under)) {
            return TRIVET_OK;
        }
        if (has_dash && !word_follows(r, first + bytes)) {
            return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, start,
                                         "a dash before a fraction can be read in two ways",
                                         "write 1-1/4 in for the size, 1 - 1/4 for the difference");
        }
    } else {
        first = start;
        bytes = fraction_at(r, first, &over, &under);
        if (bytes == 0 || !word_follows(r, first + bytes)) {
            return TRIVET_OK;
        }
        sum = 0.0;
    }
    if (under == 0.0) {
        return trivet__reader_refuse(r, TRIVET_BAD_VALUE, first, "the fraction divides by zero",
                                     "give a number other than 0 behind the /");
    }
    /* One division, so that 3/4 and 0.75 are the same double. */
    *whole = (sum * under + over) / under;
    r->at = first + bytes;
    return TRIVET_OK;
}

static int is_gauge_word(const trivet__reader *r, size_t at, size_t length)
{
    static const char *const words[] = {"ga", "gauge"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        size_t same = 0;
        while (same < length && words[i][same] != '\0' &&
               (r->text[at + same] | ' ') == words[i][same]) {
            same++;
        }
        if (same == length && words[i][same] == '\0') {
            return 1;
        }
    }
    return 0;
}

/* "ga BWG" behind a number; r->at is on "ga". */
static trivet_status read_gauge(trivet__reader *r, size_t start, size_t length,
                                trivet_quantity *value)
{
    if (!r->hooks || !r->hooks->gauge) {
        return trivet__reader_refuse(r, TRIVET_BAD_UNIT, r->at, "gauges are not understood here",
                                     "give the thickness as a length, such as 1.5 mm");
    }
    r->at += length;
    const size_t system = trivet__reader_behind_blanks(r, r->at);
    const size_t system_length = trivet__reader_word(r, system);
    double thickness = 0.0;
    const trivet_status status = r->hooks->gauge(r->hooks->user, value->value, r->text + system,
                                                 system_length, &thickness, r->message);
    if (status != TRIVET_OK) {
        return trivet__reader_pass_on(r, status, start);
    }
    r->at = system_length > 0 ? system + system_length : r->at;
    *value = (trivet_quantity){.value = thickness, .length = 1, .has_unit = 1};
    return TRIVET_OK;
}

/* A number, its fraction, its units. sign is the sign before it, or 0. */
trivet_status trivet__reader_number(trivet__reader *r, char sign, trivet_quantity *out)
{
    const size_t start = r->at;
    int is_whole = 0;
    *out = (trivet_quantity){0};
    const size_t used =
        trivet__decimal_read(r->text + r->at, r->length - r->at, &out->value, &is_whole);
    if (used == 0) {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at, "a number is missing here",
                                     "write digits beside the decimal point");
    }
    if (!isfinite(out->value)) {
        return trivet__reader_refuse(r, TRIVET_BAD_VALUE, start, "the number is too large",
                                     "give a number below 1e308");
    }
    r->at += used;
    r->has_number = 1;
    if (is_whole && sign != '/' && sign != '^') {
        const trivet_status status = read_fraction(r, start, &out->value);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    const size_t word = trivet__reader_behind_blanks(r, r->at);
    const size_t length = trivet__reader_word(r, word);
    if (length > 0 && is_gauge_word(r, word, length)) {
        r->at = word;
        return read_gauge(r, start, length, out);
    }
    return trivet__reader_units(r, out, 0);
}
