/*
 * Names, and the units behind a number or bracket: m/s^2, N*m/rad.
 */
#include "base/message.h"
#include "base/quantity_reader.h"
#include "base/units.h"

#include <string.h>

/* ---- Names and units ---- */

/* Whether the word is a name; BAD_NAME if not. Other failures are those of the name's own value. */
trivet_status trivet__reader_name(const trivet__reader *r, size_t at, size_t length,
                                  trivet_quantity *out, trivet_message *message)
{
    if (!r->hooks || !r->hooks->name || trivet__reader_char(r, at) == '%') {
        return TRIVET_BAD_NAME;
    }
    *out = (trivet_quantity){0};
    return r->hooks->name(r->hooks->user, r->text + at, length, out, message);
}

trivet_status trivet__reader_refuse_unit(const trivet__reader *r, size_t at, size_t length)
{
    char word[TRIVET__WORD_SHOWN];
    trivet__reader_piece(r, at, length, word);
    trivet__reader_refuse(
        r, TRIVET_BAD_UNIT, at, "",
        "use m mm cm in ft, kg g lb, N kN lbf kgf, MPa psi, rad deg, s, Hz, K or %");
    trivet__message_problem(r->message, "\"%s\" is not a unit", word);
    const char *const nearest = trivet__unit_nearest(word);
    if (nearest) {
        trivet__message_remedy(r->message, "did you mean \"%s\"?", nearest);
    }
    return TRIVET_BAD_UNIT;
}

/* A word that stands behind a number and is no unit: perhaps a name without its sign. */
static trivet_status refuse_word_behind_number(const trivet__reader *r, size_t at, size_t length)
{
    trivet_quantity unused;
    if (trivet__reader_name(r, at, length, &unused, NULL) != TRIVET_OK) {
        return trivet__reader_refuse_unit(r, at, length);
    }
    char word[TRIVET__WORD_SHOWN];
    trivet__reader_piece(r, at, length, word);
    trivet__reader_refuse(r, TRIVET_BAD_SYNTAX, at, "", "");
    trivet__message_problem(r->message, "a sign is missing before \"%s\"", word);
    trivet__message_remedy(r->message, "write * before \"%s\" to multiply", word);
    return TRIVET_BAD_SYNTAX;
}

/* The whole exponent of a unit, if "^" follows; 1 otherwise. Zeros in front do no harm. */
static trivet_status read_unit_power(trivet__reader *r, int32_t *power_out)
{
    *power_out = 1;
    const size_t sign = trivet__reader_behind_blanks(r, r->at);
    if (trivet__reader_char(r, sign) != '^') {
        return TRIVET_OK;
    }
    r->at = trivet__reader_behind_blanks(r, sign + 1);
    const int is_negative = trivet__reader_char(r, r->at) == '-';
    if (is_negative || trivet__reader_char(r, r->at) == '+') {
        r->at = trivet__reader_behind_blanks(r, r->at + 1);
    }
    const size_t first = r->at;
    int32_t power = 0;
    for (; trivet__reader_is_digit(trivet__reader_char(r, r->at)); r->at++) {
        power = power > TRIVET__POWER_MAX ? power : 10 * power + (r->text[r->at] - '0');
    }
    if (r->at == first || trivet__reader_char(r, r->at) == '.' || power > TRIVET__POWER_MAX) {
        return trivet__reader_refuse(r, TRIVET_BAD_UNIT, first,
                                     "the power of a unit must be a whole number up to 64",
                                     "write for example mm^2 or s^-1");
    }
    *power_out = is_negative ? -power : power;
    return TRIVET_OK;
}

/* The word at r->at as a factor: a name if it may be one, else a unit. NULL if neither. */
typedef struct unit_factor {
    trivet_quantity powers; /* value: of a name; 1 for a unit */
    double times;
    double over;
} unit_factor;

static int find_unit_factor(const trivet__reader *r, size_t at, size_t length, int may_be_name,
                            unit_factor *factor)
{
    *factor = (unit_factor){{0}, 1.0, 1.0};
    const trivet__unit *const unit = trivet__unit_find(r->text + at, length);
    if (!unit) {
        return 0;
    }
    if (may_be_name && trivet__reader_name(r, at, length, &factor->powers, NULL) == TRIVET_OK) {
        factor->times = factor->powers.value;
        if (r->recorder) {
            r->recorder->is_lost = 1; /* its value would be taken for that of a unit */
        }
        return 1;
    }
    factor->powers =
        (trivet_quantity){1.0, unit->length, unit->mass, unit->time, unit->temperature, 1};
    factor->times = unit->times;
    factor->over = unit->over;
    return 1;
}

/* Takes a factor to its power into the running product; the two factors are kept apart. */
static void apply_unit(const unit_factor *factor, int32_t power, trivet_quantity *to, double *times,
                       double *over)
{
    to->length += power * factor->powers.length;
    to->mass += power * factor->powers.mass;
    to->time += power * factor->powers.time;
    to->temperature += power * factor->powers.temperature;
    to->has_unit |= factor->powers.has_unit;
    for (int32_t i = 0; i < (power < 0 ? -power : power); i++) {
        *times *= power > 0 ? factor->times : factor->over;
        *over *= power > 0 ? factor->over : factor->times;
    }
}

/* What the units did to the value in brackets before them, for programs. */
static void record_units(const trivet__reader *r, const trivet_quantity *before,
                         const trivet_quantity *after, double times, double over, size_t at)
{
    const trivet_quantity powers = {0.0,
                                    after->length - before->length,
                                    after->mass - before->mass,
                                    after->time - before->time,
                                    after->temperature - before->temperature,
                                    after->has_unit};
    trivet__record_step(r->recorder, (trivet__step){.kind = TRIVET__STEP_UNITS,
                                                    .at = at,
                                                    .quantity = powers,
                                                    .times = times,
                                                    .over = over});
}

trivet_status trivet__reader_units(trivet__reader *r, trivet_quantity *value, int is_bracket)
{
    size_t word = trivet__reader_behind_blanks(r, r->at);
    const size_t start = word;
    const trivet_quantity before = *value;
    if (trivet__reader_word(r, word) == 0) {
        return TRIVET_OK;
    }
    int32_t turn = 1;
    int is_first = 1;
    double times = 1.0;
    double over = 1.0;
    for (;;) {
        const size_t length = trivet__reader_word(r, word);
        unit_factor factor;
        if (length == 0 || !find_unit_factor(r, word, length, !is_first, &factor)) {
            if (is_first) {
                return refuse_word_behind_number(r, word, length);
            }
            break;
        }
        r->at = word + length;
        int32_t power = 1;
        trivet_status status = read_unit_power(r, &power);
        if (status == TRIVET_OK) {
            apply_unit(&factor, turn * power, value, &times, &over);
            status = trivet__reader_check(r, value, word);
        }
        if (status != TRIVET_OK) {
            return status;
        }
        const size_t sign = trivet__reader_behind_blanks(r, r->at);
        if (trivet__reader_char(r, sign) != '*' && trivet__reader_char(r, sign) != '/') {
            break;
        }
        turn = trivet__reader_char(r, sign) == '*' ? 1 : -1;
        word = trivet__reader_behind_blanks(r, sign + 1);
        is_first = 0;
    }
    if (is_bracket) {
        record_units(r, &before, value, times, over, start);
    }
    const trivet_quantity none = {0};
    return trivet__reader_scale(r, value, &none, times, over, start);
}
