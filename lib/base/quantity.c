/*
 * Arithmetic on quantities with units, read by recursive descent; brackets nest at most 64 deep, so
 * the stack is bounded whatever the text.
 *
 *     sum     = product { ("+" | "-") product }
 *     product = signed { ("*" | "/") signed }
 *     signed  = { "+" | "-" } power
 *     power   = atom [ "^" { "+" | "-" } atom ]           one power only: 2^3^4 needs brackets
 *     atom    = number [units | gauge] | "(" sum ")" [units] | name | unit
 *     units   = unit [ "^" whole ] { ("*" | "/") unit [ "^" whole ] }
 *
 * Rules where trade writing and arithmetic differ:
 * - Units bind to the number before them more tightly than any sign: 900 N*m/rad is one quantity,
 *   10 N / 2 mm is 5 N/mm.
 * - Whole numbers with a slash and no blanks, with a unit behind, are one workshop fraction: 3/4 in
 *   is 0.75 in and not 3/(4 in); 10 / 4 in, with blanks, divides by 4 in. Behind "/" and "^" there
 *   are no fractions.
 * - 1 1/4 and 1-1/4 in are 1.25 if the fraction is below 1. 1-1/4 without a unit can be read in two
 *   ways and is refused; 1 - 1/4, with blanks, is arithmetic.
 * - Behind a number or bracket a word is a unit. Elsewhere it is a name first, then a unit.
 */
#include "base/quantity.h"

#include "base/message.h"
#include "base/quantity_reader.h"
#include "base/text.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

enum { DEPTH_MAX = 64 }; /* nested brackets */

typedef trivet__reader reader;

/* ---- Grammar ---- */

static void record(const reader *r, trivet__step_kind kind, size_t at)
{
    trivet__record_step(r->recorder, (trivet__step){.kind = (int32_t)kind, .at = at});
}

static void record_value(const reader *r, const trivet_quantity *value)
{
    trivet__record_step(r->recorder, (trivet__step){.kind = TRIVET__STEP_PUSH, .quantity = *value});
}

static void record_name(const reader *r, size_t at, size_t length)
{
    if (r->recorder) {
        const int32_t number = r->hooks->number(r->hooks->user, r->text + at, length);
        trivet__record_step(r->recorder,
                            (trivet__step){.kind = TRIVET__STEP_NAME, .number = number, .at = at});
    }
}

static trivet_status read_sum(reader *r, trivet_quantity *out);

static trivet_status read_bracket(reader *r, trivet_quantity *out)
{
    const size_t start = r->at;
    if (r->depth == DEPTH_MAX) {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, start,
                                     "brackets are nested more than 64 deep",
                                     "take out brackets that are not needed");
    }
    r->depth++;
    r->at++;
    const trivet_status status = read_sum(r, out);
    if (status != TRIVET_OK) {
        return status;
    }
    r->depth--;
    if (trivet__reader_char(r, r->at) != ')') {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, start, "this bracket is not closed",
                                     "write ) where it ends");
    }
    r->at++;
    return trivet__reader_units(r, out, 1);
}

/* A name or, failing that, a unit that stands for one of itself as in 1/s. */
static trivet_status read_word(reader *r, size_t length, char sign, trivet_quantity *out)
{
    const size_t start = r->at;
    const int is_behind_unit = sign == '*' || sign == '/';
    r->at += length;
    const trivet_status status = trivet__reader_name(r, start, length, out, r->message);
    if (status == TRIVET_OK) {
        r->has_number = 1;
        record_name(r, start, length);
        return TRIVET_OK;
    }
    const trivet__unit *const unit = trivet__unit_find(r->text + start, length);
    if (unit && r->has_number) {
        *out = (trivet_quantity){
            unit->times / unit->over, unit->length, unit->mass, unit->time, unit->temperature, 1};
        trivet_message_clear(r->message);
        record_value(r, out);
        return TRIVET_OK;
    }
    char word[TRIVET__WORD_SHOWN];
    trivet__reader_piece(r, start, length, word);
    if (unit) {
        trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, start, "", "");
        trivet__message_problem(r->message, "the number before \"%s\" is missing", word);
        trivet__message_remedy(r->message, "write for example 1 %s", word);
        return TRIVET_BAD_SYNTAX;
    }
    if (is_behind_unit && status == TRIVET_BAD_NAME && trivet__unit_nearest(word)) {
        return trivet__reader_refuse_unit(r, start, length);
    }
    if (r->hooks && r->hooks->name) {
        return trivet__reader_pass_on(r, status, start);
    }
    trivet__reader_refuse(r, TRIVET_BAD_NAME, start, "", "write a number with its unit instead");
    trivet__message_problem(r->message, "\"%s\" is neither a number nor a unit", word);
    return TRIVET_BAD_NAME;
}

/* What is wrong with a character that begins nothing. */
static trivet_status refuse_character(const reader *r)
{
    if (r->at >= r->length) {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at,
                                     r->length == 0 ? "nothing is written here"
                                                    : "the text ends where a number should stand",
                                     "write a number with its unit, such as 20 mm");
    }
    const char c = r->text[r->at];
    if (c == ')') {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at,
                                     "a bracket closes where a number should stand",
                                     "write the number before it or take it out");
    }
    if (strchr("+-*/^", c) && c != '\0') {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at, "a number is missing here",
                                     "write a number with its unit, such as 20 mm");
    }
    char piece[TRIVET__WORD_SHOWN];
    trivet__reader_piece(r, r->at, trivet__reader_character(r, r->at), piece);
    trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at, "",
                          c == ','                ? "write the decimals behind a point, as in 1.5"
                          : c == '"' || c == '\'' ? "write in for inches and ft for feet"
                                                  : "use numbers, units, + - * / ^ and brackets");
    if ((unsigned char)c < ' ') {
        trivet__message_problem(r->message, "the character with the number %d has no meaning here",
                                (int)c);
    } else {
        trivet__message_problem(r->message, "the sign %s has no meaning here", piece);
    }
    return TRIVET_BAD_SYNTAX;
}

static trivet_status read_atom(reader *r, char sign, trivet_quantity *out)
{
    r->at = trivet__reader_behind_blanks(r, r->at);
    const char c = trivet__reader_char(r, r->at);
    if (trivet__reader_is_digit(c) || c == '.') {
        const trivet_status status = trivet__reader_number(r, sign, out);
        record_value(r, out);
        return status;
    }
    if (c == '(') {
        return read_bracket(r, out);
    }
    const size_t length = trivet__reader_word(r, r->at);
    return length > 0 ? read_word(r, length, sign, out) : refuse_character(r);
}

/* A run of signs: 1 or -1. */
static double read_signs(reader *r)
{
    double turn = 1.0;
    for (;;) {
        r->at = trivet__reader_behind_blanks(r, r->at);
        const char c = trivet__reader_char(r, r->at);
        if (c != '+' && c != '-') {
            return turn;
        }
        turn = c == '-' ? -turn : turn;
        r->at++;
    }
}

static trivet_status read_power(reader *r, char sign, trivet_quantity *out)
{
    trivet_status status = read_atom(r, sign, out);
    if (status != TRIVET_OK) {
        return status;
    }
    const size_t caret = trivet__reader_behind_blanks(r, r->at);
    if (trivet__reader_char(r, caret) != '^') {
        return TRIVET_OK;
    }
    r->at = caret + 1;
    const double turn = read_signs(r);
    trivet_quantity exponent = {0};
    status = read_atom(r, '^', &exponent);
    if (status != TRIVET_OK) {
        return status;
    }
    exponent.value *= turn;
    if (turn < 0.0) {
        record(r, TRIVET__STEP_TURN, caret);
    }
    record(r, TRIVET__STEP_RAISE, caret);
    status = trivet__reader_raise(r, out, &exponent, caret);
    const size_t next = trivet__reader_behind_blanks(r, r->at);
    if (status == TRIVET_OK && trivet__reader_char(r, next) == '^') {
        return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, next, "two powers follow each other",
                                     "put brackets round the one that comes first");
    }
    return status;
}

static trivet_status read_signed(reader *r, char sign, trivet_quantity *out)
{
    const double turn = read_signs(r);
    const trivet_status status = read_power(r, sign, out);
    if (status != TRIVET_OK) {
        return status;
    }
    out->value *= turn;
    if (turn < 0.0) {
        record(r, TRIVET__STEP_TURN, r->at);
    }
    return TRIVET_OK;
}

/* Two things side by side without a sign between them, or a character that is none of ours. */
static trivet_status refuse_missing_sign(const reader *r)
{
    const char c = trivet__reader_char(r, r->at);
    const size_t word = trivet__reader_word(r, r->at);
    if (word == 0 && c != '(' && c != '.' && !trivet__reader_is_digit(c)) {
        return refuse_character(r);
    }
    return trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, r->at, "a sign is missing before this",
                                 "write + - * or / between the two");
}

static trivet_status read_product(reader *r, trivet_quantity *out)
{
    trivet_status status = read_signed(r, '\0', out);
    while (status == TRIVET_OK) {
        r->at = trivet__reader_behind_blanks(r, r->at);
        const size_t at = r->at;
        const char sign = trivet__reader_char(r, at);
        if (sign == '+' || sign == '-' || sign == ')' || at == r->length) {
            break;
        }
        if (sign != '*' && sign != '/') {
            return refuse_missing_sign(r);
        }
        r->at++;
        trivet_quantity factor;
        status = read_signed(r, sign, &factor);
        if (status == TRIVET_OK) {
            record(r, sign == '*' ? TRIVET__STEP_MULTIPLY : TRIVET__STEP_DIVIDE, at);
            status = trivet__reader_multiply(r, out, &factor, sign, at);
        }
    }
    return status;
}

static trivet_status read_sum(reader *r, trivet_quantity *out)
{
    trivet_status status = read_product(r, out);
    while (status == TRIVET_OK) {
        const size_t at = r->at;
        const char sign = trivet__reader_char(r, at);
        if (sign != '+' && sign != '-') {
            break;
        }
        r->at++;
        trivet_quantity term;
        status = read_product(r, &term);
        if (status == TRIVET_OK) {
            record(r, sign == '+' ? TRIVET__STEP_ADD : TRIVET__STEP_SUBTRACT, at);
            status = trivet__reader_add(r, out, &term, sign, at);
        }
    }
    return status;
}

trivet_status trivet__quantity_record(const char *text, size_t length,
                                      const trivet__quantity_hooks *hooks,
                                      trivet__recorder *recorder, trivet_quantity *quantity_out,
                                      trivet_message *message)
{
    reader r = {
        .text = text, .length = length, .hooks = hooks, .message = message, .recorder = recorder};
    *quantity_out = (trivet_quantity){0};
    trivet_message_clear(message);
    size_t bad_at = 0;
    if (!trivet__text_is_utf8(text, length, &bad_at)) {
        r.length = bad_at;
        return trivet__reader_refuse(&r, TRIVET_BAD_SYNTAX, bad_at, "the text is not UTF-8 here",
                                     "save it as UTF-8");
    }
    trivet_quantity value = {0};
    trivet_status status = read_sum(&r, &value);
    if (status == TRIVET_OK && r.at < length) {
        status = trivet__reader_refuse(&r, TRIVET_BAD_SYNTAX, r.at,
                                       "this bracket closes none that is open",
                                       "take it out or write ( where it begins");
    }
    if (status == TRIVET_OK) {
        *quantity_out = value;
    }
    return status;
}

trivet_status trivet__quantity_parse(const char *text, size_t length,
                                     const trivet__quantity_hooks *hooks,
                                     trivet_quantity *quantity_out, trivet_message *message)
{
    return trivet__quantity_record(text, length, hooks, NULL, quantity_out, message);
}

trivet_status trivet_quantity_read(const char *text, trivet_quantity *quantity_out,
                                   trivet_message *message)
{
    if (quantity_out) {
        *quantity_out = (trivet_quantity){0};
    }
    if (!text || !quantity_out) {
        return trivet__missing(message, text ? "quantity_out" : "text");
    }
    return trivet__quantity_parse(text, strlen(text), NULL, quantity_out, message);
}
