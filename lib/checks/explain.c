/*
 * The working in words: a formula, the same with its numbers put in, the result. All numbers stand
 * in units that belong together (mm and N, or inches and pounds), so that a calculator without
 * units gives the result; formulas are written so that this holds.
 */
#include "base/decimal.h"
#include "base/text.h"
#include "checks/check_record.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

enum { DIGITS = 6, DIGITS_MOST = 15, UNIT_MAX = 40, NUMBER_MAX = 96 };

/* A line being written; what does not fit is cut. The longest one takes a quarter of it. */
typedef struct writing {
    char text[2048];
    size_t length;
} writing;

static void put_bytes(writing *to, const char *bytes, size_t count)
{
    const size_t room = sizeof to->text - 1 - to->length;
    const size_t taken = count < room ? count : room;
    memcpy(to->text + to->length, bytes, taken);
    to->length += taken;
    to->text[to->length] = '\0';
}

static void put(writing *to, const char *text)
{
    put_bytes(to, text, strlen(text));
}

/* The units of a working: their names, and what one of them is in SI. */
typedef struct base_units {
    const char *length;
    const char *force;
    double length_factor;
    double force_factor;
} base_units;

static base_units find_units(const trivet_units *units)
{
    base_units base = {"mm", "N", 1e-3, 1.0};
    double factor = 1.0;
    const char *const length = trivet_units_for(units, TRIVET_AREA, &factor);
    if (strncmp(length, "in", 2) == 0) {
        base.length = "in";
        base.length_factor = 0.0254;
    }
    base.force = trivet_units_for(units, TRIVET_FORCE, &base.force_factor);
    return base;
}

/* Powers of force and length of the dimensions that are made of them. */
typedef struct powers {
    int force;
    int length;
} powers;

static int find_powers(int32_t dimension, powers *out)
{
    static const struct {
        int32_t dimension;
        powers of;
    } ROWS[] = {
        {TRIVET_NUMBER, {0, 0}},    {TRIVET_LENGTH, {0, 1}},        {TRIVET_FORCE, {1, 0}},
        {TRIVET_MOMENT, {1, 1}},    {TRIVET_STRESS, {1, -2}},       {TRIVET_AREA, {0, 2}},
        {TRIVET_VOLUME, {0, 3}},    {TRIVET_SECOND_MOMENT, {0, 4}}, {TRIVET_LINE_LOAD, {1, -1}},
        {TRIVET_PER_AREA, {0, -2}}, {TRIVET_PER_VOLUME, {0, -3}},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        if (ROWS[i].dimension == dimension) {
            *out = ROWS[i].of;
            return 1;
        }
    }
    return 0;
}

/* "N*mm", "N/mm^2", "/mm^3" */
static void write_unit(const base_units *base, powers of, char text[UNIT_MAX])
{
    char length[UNIT_MAX] = "";
    const int size = of.length < 0 ? -of.length : of.length;
    if (size == 1) {
        trivet__text_print(length, sizeof length, "%s", base->length);
    } else if (size > 1) {
        trivet__text_print(length, sizeof length, "%s^%d", base->length, size);
    }
    const char *const joiner = of.length < 0 ? "/" : of.force && of.length ? "*" : "";
    trivet__text_print(text, UNIT_MAX, "%s%s%s", of.force ? base->force : "", joiner, length);
}

/* A number with its unit. */
static void write_number(const base_units *base, int32_t dimension, double value, int32_t digits,
                         const trivet_units *units, char text[NUMBER_MAX])
{
    powers of = {0, 0};
    char unit[UNIT_MAX] = "";
    char figures[64];
    if (!find_powers(dimension, &of) || !isfinite(value)) {
        trivet_units_text(units, (trivet_dimension)dimension, value, digits, text, NUMBER_MAX);
        return;
    }
    write_unit(base, of, unit);
    const double scale = pow(base->force_factor, of.force) * pow(base->length_factor, of.length);
    trivet__decimal_write(value / scale, digits, figures, sizeof figures);
    trivet__text_print(text, NUMBER_MAX, "%s%s%s", figures, unit[0] ? " " : "", unit);
}

/* Length of the name at a place of a formula; 0 if none begins there. */
static size_t name_length(const char *at)
{
    size_t length = 0;
    while (isalnum((unsigned char)at[length]) || at[length] == '_') {
        length++;
    }
    return isalpha((unsigned char)at[0]) ? length : 0;
}

/* The number of the latest earlier step of that symbol; -1 if there is none. */
static int32_t find_symbol(const trivet_checks *checks, int32_t index, int32_t before,
                           const char *name, size_t length, trivet_step *step)
{
    for (int32_t i = before - 1; i >= 0; i--) {
        if (trivet_checks_step(checks, index, i, step) == TRIVET_OK &&
            strlen(step->symbol) == length && memcmp(step->symbol, name, length) == 0) {
            return i;
        }
    }
    return -1;
}

/*
 * What sums leave of a force, moment, length or stress that is none: less than this share of the
 * largest that the working could be about. It is written as 0. Far below what three digits of the
 * result could show, and above what the solution's rounding leaves; our own choice.
 */
#define ROUNDING 1e-9

/* The largest size of a dimension in a working. */
static double largest_of(const trivet_checks *checks, int32_t index, int32_t dimension)
{
    double largest = 0.0;
    trivet_step step = {.size = sizeof step};
    for (int32_t i = 0; trivet_checks_step(checks, index, i, &step) == TRIVET_OK; i++) {
        if (step.dimension == dimension && isfinite(step.value)) {
            largest = fmax(largest, fabs(step.value));
        }
    }
    return largest;
}

/*
 * Beside which a value of a dimension is judged: plain numbers, being shares and counts, beside 1;
 * forces beside what the area would stand. 0: nothing of that dimension is taken for rounding.
 */
static double scale_of(const trivet_checks *checks, int32_t index, int32_t dimension)
{
    const double own = largest_of(checks, index, dimension);
    const double length = largest_of(checks, index, TRIVET_LENGTH);
    const double stress = largest_of(checks, index, TRIVET_STRESS);
    const double force = fmax(largest_of(checks, index, TRIVET_FORCE),
                              stress * largest_of(checks, index, TRIVET_AREA));
    switch (dimension) {
    case TRIVET_NUMBER:
        return 1.0;
    case TRIVET_LENGTH:
    case TRIVET_STRESS:
        return own;
    case TRIVET_LINE_LOAD:
        return fmax(own, stress * length);
    case TRIVET_FORCE:
        return force;
    case TRIVET_MOMENT:
        return fmax(own, force * length);
    default:
        return 0.0;
    }
}

static double clean_value(const trivet_checks *checks, int32_t index, const trivet_step *step)
{
    const double scale = scale_of(checks, index, step->dimension);
    return fabs(step->value) < ROUNDING * scale ? 0.0 : step->value;
}

/* Whether a formula adds or subtracts and has that symbol in it. */
static int is_summed(const char *formula, const char *symbol)
{
    const size_t wanted = strlen(symbol);
    const int is_sum = strstr(formula, " + ") || strstr(formula, " - ");
    for (const char *at = formula; is_sum && *at;) {
        const size_t length = name_length(at);
        if (length == wanted && memcmp(at, symbol, length) == 0) {
            return 1;
        }
        at += length > 0 ? length : 1;
    }
    return 0;
}

/* Digits of a step's number: more where a later line takes away most of it. */
static int32_t digits_of(const trivet_checks *checks, int32_t index, int32_t number,
                         const trivet_step *step)
{
    int32_t digits = DIGITS;
    trivet_step later = {.size = sizeof later};
    for (int32_t i = number + 1; trivet_checks_step(checks, index, i, &later) == TRIVET_OK; i++) {
        if (later.dimension != step->dimension || !(fabs(step->value) > fabs(later.value)) ||
            !is_summed(later.formula, step->symbol)) {
            continue;
        }
        const double left = fabs(clean_value(checks, index, &later));
        const double lost = left > 0.0 ? ceil(log10(fabs(step->value) / left)) : 0.0;
        if (lost < DIGITS_MOST && DIGITS + (int32_t)lost > digits) {
            digits = DIGITS + (int32_t)lost;
        }
    }
    return digits < DIGITS_MOST ? digits : DIGITS_MOST;
}

/* A working that is being written. */
typedef struct working_text {
    const trivet_checks *checks;
    int32_t index;
    const trivet_units *units;
    base_units base;
} working_text;

/* The number of a step as it is written wherever it occurs. */
static void write_step(const working_text *of, int32_t number, const trivet_step *step,
                       char text[NUMBER_MAX])
{
    write_number(&of->base, step->dimension, clean_value(of->checks, of->index, step),
                 digits_of(of->checks, of->index, number, step), of->units, text);
}

/* A number in place of a symbol: in brackets where a sign or a power would mislead. */
static void put_number(writing *to, const char *number, int is_first, int has_power)
{
    const int is_plain =
        (number[0] != '-' || (is_first && !has_power)) && !(has_power && strchr(number, ' '));
    put(to, is_plain ? "" : "(");
    put(to, number);
    put(to, is_plain ? "" : ")");
}

/*
 * The formula with numbers for its symbols. Returns 0 if that says nothing new: there was no symbol
 * in it, or nothing but one.
 */
static int put_formula(writing *to, const working_text *of, int32_t number, const char *formula)
{
    int replaced = 0;
    for (const char *at = formula; *at;) {
        const size_t length = name_length(at);
        trivet_step step = {.size = sizeof step};
        const int32_t found = length > 0 && at[length] != '('
                                  ? find_symbol(of->checks, of->index, number, at, length, &step)
                                  : -1;
        if (found >= 0) {
            char text[NUMBER_MAX];
            write_step(of, found, &step, text);
            put_number(to, text, at == formula || at[-1] == '(', at[length] == '^');
            replaced = 1;
        } else {
            put_bytes(to, at, length > 0 ? length : 1);
        }
        at += length > 0 ? length : 1;
    }
    return replaced && formula[name_length(formula)] != '\0';
}

size_t trivet_checks_step_text(const trivet_checks *checks, int32_t index, int32_t step,
                               const trivet_units *units, char *text, size_t size)
{
    trivet_step about = {.size = sizeof about};
    writing to = {.length = 0};
    const working_text of = {checks, index, units, find_units(units)};
    char number[NUMBER_MAX];
    if (trivet_checks_step(checks, index, step, &about) != TRIVET_OK) {
        return trivet__text_print(text, size, "%s", "");
    }
    put(&to, about.symbol);
    put(&to, " = ");
    if (about.formula[0]) {
        put(&to, about.formula);
        const size_t end = to.length;
        put(&to, " = ");
        if (!put_formula(&to, &of, step, about.formula)) {
            to.length = end;
            to.text[end] = '\0';
        }
        put(&to, " = ");
    }
    write_step(&of, step, &about, number);
    put(&to, number);
    return trivet__text_print(text, size, "%s", to.text);
}

static int is_name(const char *name, const char *wanted)
{
    return name && strcmp(name, wanted) == 0;
}

static int is_there(const trivet__record *record, const char *where)
{
    return is_name(record->check.where, where) || is_name(record->place.near, where) ||
           is_name(record->check.check, where);
}

/* Whether an earlier, so a worse, record is of the same kind at the same place. */
static int is_worst_of_kind(const trivet_checks *checks, int32_t index, const char *where)
{
    const trivet_check *const own = &trivet__checks_record(checks, index)->check;
    for (int32_t i = 0; i < checks->count; i++) {
        const trivet__record *const other = trivet__checks_record(checks, i);
        if (i != index && is_there(other, where) && strcmp(other->check.check, own->check) == 0 &&
            other->check.where_kind == own->where_kind &&
            other->check.where_index == own->where_index && other->check.joint == own->joint &&
            (other->check.utilisation > own->utilisation ||
             (!(other->check.utilisation < own->utilisation) && i < index))) {
            return 0;
        }
    }
    return 1;
}

/* The worst of all lines. */
static int32_t governing(const trivet_checks *checks)
{
    int32_t worst = -1;
    double most = -1.0;
    for (int32_t i = 0; i < checks->count; i++) {
        const double used = trivet__checks_record(checks, i)->check.utilisation;
        if (!(used <= most)) {
            worst = i;
            most = used;
        }
    }
    return worst;
}

int32_t trivet_checks_select(const trivet_checks *checks, const char *where, int32_t *indices_out,
                             int32_t capacity)
{
    int32_t count = 0;
    if (!checks) {
        return 0;
    }
    for (int32_t i = 0; i < checks->count; i++) {
        const trivet__record *const record = trivet__checks_record(checks, i);
        const int is_wanted = where ? is_there(record, where) && is_worst_of_kind(checks, i, where)
                                    : i == governing(checks);
        if (!is_wanted) {
            continue;
        }
        if (indices_out && count < capacity) {
            indices_out[count] = i;
        }
        count++;
    }
    return count;
}
