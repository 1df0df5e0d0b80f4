/*
 * Text handling on UTF-8 bytes. The distance of two names is that of Damerau (1964) in its form
 * for neighbouring letters: changes, additions, drops and swaps count one each.
 */
#include "base/text.h"

#include "base/memory.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Bytes of text, at most room, that end at a whole character. */
static size_t whole_characters(const char *text, size_t length, size_t room)
{
    if (length <= room) {
        return length;
    }
    size_t cut = room;
    while (cut > 0 && ((unsigned char)text[cut] & 0xC0U) == 0x80U) {
        cut--;
    }
    return cut;
}

void trivet__text_copy(char *into, size_t size, const char *text)
{
    if (size == 0) {
        return;
    }
    const char *const from = text ? text : "";
    const size_t length = whole_characters(from, strlen(from), size - 1);
    memmove(into, from, length);
    into[length] = '\0';
}

size_t trivet__text_print(char *into, size_t size, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    const int needed = vsnprintf(into, size, format, values);
    va_end(values);
    if (needed < 0) {
        if (size > 0) {
            into[0] = '\0';
        }
        return 0;
    }
    const size_t whole = (size_t)needed;
    if (size > 0 && whole >= size) {
        /* The cut may stand inside a character: step back to where its first byte was. */
        size_t end = size - 1;
        size_t first = end;
        while (first > 0 && ((unsigned char)into[first - 1] & 0xC0U) == 0x80U) {
            first--;
        }
        if (first > 0 && ((unsigned char)into[first - 1] & 0xC0U) == 0xC0U) {
            const unsigned char lead = (unsigned char)into[first - 1];
            const size_t wanted = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
            if (end - (first - 1) < wanted) {
                end = first - 1;
            }
        }
        into[end] = '\0';
    }
    return whole;
}

char *trivet__text_keep(const char *text, size_t length)
{
    if (length == SIZE_MAX) {
        return NULL;
    }
    char *const copy = trivet__take(length + 1, 1);
    if (copy && length > 0) {
        memcpy(copy, text, length);
    }
    return copy;
}

/* Length of the character at bytes[0..left), or 0 if it is not UTF-8 (RFC 3629). */
static size_t character_length(const unsigned char *bytes, size_t left)
{
    const unsigned char lead = bytes[0];
    if (lead < 0x80U) {
        return 1;
    }
    const size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
    if (lead < 0xC2U || lead > 0xF4U || left < length) {
        return 0;
    }
    for (size_t i = 1; i < length; i++) {
        if ((bytes[i] & 0xC0U) != 0x80U) {
            return 0;
        }
    }
    const int overlong = (lead == 0xE0U && bytes[1] < 0xA0U) || (lead == 0xF0U && bytes[1] < 0x90U);
    const int surrogate = lead == 0xEDU && bytes[1] >= 0xA0U;
    const int too_high = lead == 0xF4U && bytes[1] >= 0x90U;
    return overlong || surrogate || too_high ? 0 : length;
}

int trivet__text_is_utf8(const char *text, size_t length, size_t *bad_at_out)
{
    const unsigned char *const bytes = (const unsigned char *)text;
    size_t at = 0;
    while (at < length) {
        const size_t step = character_length(bytes + at, length - at);
        if (step == 0) {
            *bad_at_out = at;
            return 0;
        }
        at += step;
    }
    return 1;
}

enum { DISTANCE_MAX = 64 };

static double change_cost(char a, char b)
{
    if (a == b) {
        return 0.0;
    }
    return tolower((unsigned char)a) == tolower((unsigned char)b) ? 0.5 : 1.0;
}

static double smaller(double a, double b)
{
    return a < b ? a : b;
}

double trivet__text_distance(const char *one, const char *other)
{
    const size_t n = whole_characters(one, strlen(one), DISTANCE_MAX);
    const size_t m = whole_characters(other, strlen(other), DISTANCE_MAX);
    double rows[3][DISTANCE_MAX + 1];
    for (size_t j = 0; j <= m; j++) {
        rows[0][j] = (double)j;
    }
    for (size_t i = 1; i <= n; i++) {
        double *const row = rows[i % 3];
        const double *const above = rows[(i + 2) % 3];
        const double *const two_above = rows[(i + 1) % 3];
        row[0] = (double)i;
        for (size_t j = 1; j <= m; j++) {
            row[j] = smaller(above[j - 1] + change_cost(one[i - 1], other[j - 1]),
                             smaller(above[j], row[j - 1]) + 1.0);
            if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1]) {
                row[j] = smaller(row[j], two_above[j - 2] + 1.0);
            }
        }
    }
    return rows[n % 3][m];
}

void trivet__nearest_offer(trivet__nearest *search, const char *candidate)
{
    const double distance = trivet__text_distance(search->wish, candidate);
    const size_t length = strlen(search->wish);
    const double near_enough = length <= 2 ? 1.0 : length <= 5 ? 2.0 : 3.0;
    if (distance <= near_enough && (!search->nearest || distance < search->distance)) {
        search->nearest = candidate;
        search->distance = distance;
    }
}
