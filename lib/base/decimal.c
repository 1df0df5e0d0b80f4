/*
 * Decimal numbers as text. Reading: the digits are handed to strtod without their point, as
 * "12345e-2", which no language setting changes and which strtod rounds correctly. Writing: the
 * digits of "%.*e" are taken and the point is set by hand.
 */
#include "base/decimal.h"

#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    DIGITS_KEPT = 800,     /* no double needs more than 767 to be rounded correctly */
    EXPONENT_LIMIT = 9999, /* far outside what a double holds */
    WHOLE_EXPONENT = 17,   /* 10^17: from here on with an exponent */
    SMALL_EXPONENT = -6
};

static int is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The exponent at text[at..length), or 0; *used_out is the bytes that it takes, 0 if none is there.
 */
static long read_exponent(const char *text, size_t length, size_t at, size_t *used_out)
{
    size_t i = at;
    *used_out = 0;
    if (i >= length || (text[i] != 'e' && text[i] != 'E')) {
        return 0;
    }
    i++;
    const int is_negative = i < length && text[i] == '-';
    if (i < length && (text[i] == '-' || text[i] == '+')) {
        i++;
    }
    if (i >= length || !is_digit(text[i])) {
        return 0;
    }
    long exponent = 0;
    for (; i < length && is_digit(text[i]); i++) {
        if (exponent < EXPONENT_LIMIT) {
            exponent = 10 * exponent + (text[i] - '0');
        }
    }
    *used_out = i - at;
    return is_negative ? -exponent : exponent;
}

/* Significant digits of a number, and the power of ten that belongs to the last of them. */
typedef struct number_digits {
    char kept[DIGITS_KEPT + 32];
    size_t count;
    long power;
} number_digits;

static void keep_digit(number_digits *into, char digit, int is_behind_point)
{
    if (into->count == 0 && digit == '0') {
        into->power -= is_behind_point;
    } else if (into->count < DIGITS_KEPT) {
        into->kept[into->count++] = digit;
        into->power -= is_behind_point;
    } else {
        /* Dropped, but a digit that is not 0 must still push a tie upwards. */
        into->power += !is_behind_point;
        if (digit != '0') {
            into->kept[DIGITS_KEPT - 1] = '1';
        }
    }
}

size_t trivet__decimal_read(const char *text, size_t length, double *value_out, int *is_whole_out)
{
    number_digits found = {.count = 0, .power = 0};
    size_t at = 0;
    size_t digit_count = 0;
    int has_point = 0;
    for (; at < length; at++) {
        if (text[at] == '.' && !has_point) {
            has_point = 1;
        } else if (is_digit(text[at])) {
            keep_digit(&found, text[at], has_point);
            digit_count++;
        } else {
            break;
        }
    }
    if (digit_count == 0) {
        return 0;
    }
    size_t exponent_bytes = 0;
    const long exponent = read_exponent(text, length, at, &exponent_bytes);
    *is_whole_out = !has_point && exponent_bytes == 0;
    snprintf(found.kept + found.count, sizeof found.kept - found.count, "e%ld",
             found.power + exponent);
    *value_out = found.count > 0 ? strtod(found.kept, NULL) : 0.0;
    return at + exponent_bytes;
}

/* Takes zeros and then the point off the end of a number that has a point. */
static void drop_trailing_zeros(char *text)
{
    size_t end = strlen(text);
    while (end > 1 && text[end - 1] == '0') {
        end--;
    }
    if (end > 1 && text[end - 1] == '.') {
        end--;
    }
    text[end] = '\0';
}

/* "d.ddd" with digits[count], without trailing zeros. */
static void write_with_point(const char *digits, int count, int before_point, char *into,
                             size_t size)
{
    if (before_point <= 0) {
        snprintf(into, size, "0.%.*s%.*s", -before_point, "000000", count, digits);
    } else {
        snprintf(into, size, "%.*s.%.*s", before_point, digits, count - before_point,
                 digits + before_point);
    }
    drop_trailing_zeros(into);
}

void trivet__decimal_write(double value, int digits, char *text, size_t size)
{
    enum { DIGITS_MAX = 17 };
    const int wanted = digits < 1 ? 1 : digits > DIGITS_MAX ? DIGITS_MAX : digits;
    char scientific[48];
    snprintf(scientific, sizeof scientific, "%.*e", wanted - 1, fabs(value));
    char figures[DIGITS_MAX + 1] = "";
    int count = 0;
    const char *at = scientific;
    for (; *at != 'e' && *at != '\0'; at++) {
        if (is_digit(*at) && count < DIGITS_MAX) {
            figures[count++] = *at;
        }
    }
    const long exponent = *at == 'e' ? strtol(at + 1, NULL, 10) : 0;
    char number[64];
    if (exponent >= WHOLE_EXPONENT || exponent < SMALL_EXPONENT) {
        write_with_point(figures, count, 1, number, sizeof number);
        const size_t end = strlen(number);
        snprintf(number + end, sizeof number - end, "e%ld", exponent);
    } else if (exponent >= count) {
        snprintf(number, sizeof number, "%.0f", fabs(value));
    } else {
        write_with_point(figures, count, (int)exponent + 1, number, sizeof number);
    }
    trivet__text_print(text, size, "%s%s", value < 0.0 ? "-" : "", number);
}
