/*
 * The text of a quantity: places, complaints, characters and words.
 */
#include "base/quantity_reader.h"

#include "base/message.h"

#include <math.h>
#include <string.h>

enum { THING_SHOWN = 400 }; /* bytes of text handed to the message, which cuts it */

/* ---- Complaints ---- */

static int32_t column_at(const trivet__reader *r, size_t at)
{
    int32_t column = 1;
    for (size_t i = 0; i < at && i < r->length; i++) {
        column += ((unsigned char)r->text[i] & 0xC0U) != 0x80U;
    }
    return column;
}

/* Refuses what stands at a place; the problem may be given a format afterwards. */
trivet_status trivet__reader_refuse(const trivet__reader *r, trivet_status status, size_t at,
                                    const char *problem, const char *remedy)
{
    trivet__refuse(r->message, status, "", problem, remedy);
    if (r->message) {
        const int shown = r->length < THING_SHOWN ? (int)r->length : THING_SHOWN;
        trivet__message_thing(r->message, "%.*s", shown, r->text);
        r->message->column = column_at(r, at);
    }
    return status;
}

/* The bytes of the character at a place: at least 1, never beyond the end. */
size_t trivet__reader_character(const trivet__reader *r, size_t at)
{
    size_t end = at + 1;
    while (end < r->length && ((unsigned char)r->text[end] & 0xC0U) == 0x80U) {
        end++;
    }
    return end - at;
}

/* A piece of the text for a message, cut at a character. */
void trivet__reader_piece(const trivet__reader *r, size_t at, size_t length,
                          char piece[TRIVET__WORD_SHOWN])
{
    size_t end = 0;
    while (end < length) {
        const size_t step = trivet__reader_character(r, at + end);
        if (end + step > TRIVET__WORD_SHOWN - 1) {
            break;
        }
        end += step;
    }
    memcpy(piece, r->text + at, end);
    piece[end] = '\0';
}

trivet_status trivet__reader_check(const trivet__reader *r, const trivet_quantity *value, size_t at)
{
    const int32_t powers[] = {value->length, value->mass, value->time, value->temperature};
    for (int i = 0; i < 4; i++) {
        if (powers[i] > TRIVET__POWER_MAX || powers[i] < -TRIVET__POWER_MAX) {
            return trivet__reader_refuse(r, TRIVET_BAD_UNIT, at,
                                         "the power of the unit is above 64", "check the powers");
        }
    }
    if (!isfinite(value->value)) {
        return trivet__reader_refuse(r, TRIVET_BAD_VALUE, at, "the result is not a finite number",
                                     "give numbers below 1e308 and powers that have a value");
    }
    return TRIVET_OK;
}

trivet_status trivet__reader_pass_on(const trivet__reader *r, trivet_status status, size_t at)
{
    if (r->message && r->message->line == 0) {
        r->message->column = column_at(r, at);
        if (!r->message->thing[0]) {
            const int shown = r->length < THING_SHOWN ? (int)r->length : THING_SHOWN;
            trivet__message_thing(r->message, "%.*s", shown, r->text);
        }
    }
    return status;
}

/* ---- Characters and words ---- */

int trivet__reader_is_digit(char c)
{
    return c >= '0' && c <= '9';
}

char trivet__reader_char(const trivet__reader *r, size_t at)
{
    if (at >= r->length) {
        return '\0';
    }
    return r->text[at];
}

/*
 * Letters of any alphabet make words; signs outside ASCII (U+00A0 to U+00BF, the multiplication and
 * division signs, U+2000 to U+2BFF) do not, so that a complaint can point at them.
 */
static int starts_letter(const trivet__reader *r, size_t at)
{
    const unsigned char c = (unsigned char)trivet__reader_char(r, at);
    if (c < 0x80U) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
    }
    const unsigned char next = (unsigned char)trivet__reader_char(r, at + 1);
    const int is_latin_sign = c == 0xC2U;
    const int is_times_or_over = c == 0xC3U && (next == 0x97U || next == 0xB7U);
    const int is_symbol = c == 0xE2U && next < 0xB0U;
    return !is_latin_sign && !is_times_or_over && !is_symbol;
}

/* Bytes of the word at a place, 0 if none begins there. "%" is a word of its own. */
size_t trivet__reader_word(const trivet__reader *r, size_t at)
{
    if (trivet__reader_char(r, at) == '%') {
        return 1;
    }
    size_t end = at;
    while (end < r->length &&
           (starts_letter(r, end) || (end > at && trivet__reader_is_digit(r->text[end])))) {
        end += trivet__reader_character(r, end);
    }
    return end - at;
}

size_t trivet__reader_behind_blanks(const trivet__reader *r, size_t at)
{
    while (at < r->length && strchr(" \t\r\n", r->text[at]) && r->text[at] != '\0') {
        at++;
    }
    return at;
}
