/*
 * Recursive descent; the formulas are the library's own short ones, so depth is no question.
 */
#include "formula.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct reading {
    const char *at;
    const formula_symbol *symbols;
    int count;
    int is_bad;
} reading;

static double read_sum(reading *r);

static int take(reading *r, char wanted)
{
    while (*r->at == ' ') {
        r->at++;
    }
    if (*r->at == wanted) {
        r->at++;
        return 1;
    }
    return 0;
}

static double function_value(reading *r, const char *name)
{
    const double first = read_sum(r);
    double value = (double)NAN;
    if (strcmp(name, "sqrt") == 0) {
        value = sqrt(first);
    } else if (strcmp(name, "abs") == 0) {
        value = fabs(first);
    } else if (strcmp(name, "sin") == 0) {
        value = sin(first);
    } else if (strcmp(name, "cos") == 0) {
        value = cos(first);
    } else if ((strcmp(name, "max") == 0 || strcmp(name, "min") == 0) && take(r, ',')) {
        const double second = read_sum(r);
        value = name[1] == 'a' ? fmax(first, second) : fmin(first, second);
    } else {
        r->is_bad = 1;
    }
    if (!take(r, ')')) {
        r->is_bad = 1;
    }
    return value;
}

static double read_name(reading *r)
{
    char name[32];
    size_t length = 0;
    while (isalnum((unsigned char)*r->at) || *r->at == '_') {
        if (length + 1 < sizeof name) {
            name[length++] = *r->at;
        }
        r->at++;
    }
    name[length] = '\0';
    if (take(r, '(')) {
        return function_value(r, name);
    }
    if (strcmp(name, "pi") == 0) {
        return acos(-1.0);
    }
    for (int i = 0; i < r->count; i++) {
        if (strcmp(r->symbols[i].name, name) == 0) {
            return r->symbols[i].value;
        }
    }
    r->is_bad = 1;
    return (double)NAN;
}

static double read_atom(reading *r)
{
    if (take(r, '(')) {
        const double value = read_sum(r);
        r->is_bad = r->is_bad || !take(r, ')');
        return value;
    }
    if (isdigit((unsigned char)*r->at)) {
        char *end = NULL;
        const double value = strtod(r->at, &end);
        r->at = end;
        return value;
    }
    if (isalpha((unsigned char)*r->at)) {
        return read_name(r);
    }
    r->is_bad = 1;
    return (double)NAN;
}

/* A sign binds less than a power: -2^2 is -4. */
static double read_power(reading *r)
{
    const int is_negative = take(r, '-');
    double value = read_atom(r);
    if (take(r, '^')) {
        value = pow(value, read_power(r));
    }
    return is_negative ? -value : value;
}

static double read_product(reading *r)
{
    double value = read_power(r);
    for (;;) {
        if (take(r, '*')) {
            value *= read_power(r);
        } else if (take(r, '/')) {
            value /= read_power(r);
        } else {
            return value;
        }
    }
}

static double read_sum(reading *r)
{
    double value = read_product(r);
    for (;;) {
        if (take(r, '+')) {
            value += read_product(r);
        } else if (take(r, '-')) {
            value -= read_product(r);
        } else {
            return value;
        }
    }
}

double formula_value(const char *formula, const formula_symbol *symbols, int count)
{
    reading r = {formula, symbols, count, 0};
    const double value = read_sum(&r);
    return r.is_bad || *r.at != '\0' ? (double)NAN : value;
}
