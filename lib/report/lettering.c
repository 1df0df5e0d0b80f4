/*
 * Widths are shares of the letter size (em), rounded up from the wide end of the common sans-serif
 * typefaces (Arial, Liberation Sans, DejaVu Sans), so that a text that fits here fits everywhere.
 */
#include "report/lettering.h"

#include "base/text.h"

#include <stdint.h>
#include <string.h>

static double ascii_width(char letter)
{
    if (strchr("il|!.,:;'I", letter)) {
        return 0.36;
    }
    if (strchr("fjrt()[]/\\ -", letter)) {
        return 0.41;
    }
    if (strchr("mwMW@%", letter)) {
        return 1.0;
    }
    if (letter >= 'A' && letter <= 'Z') {
        return 0.75;
    }
    return strchr("+=<>~#&", letter) ? 0.84 : 0.64;
}

/* The character at text and its length in bytes; anything that is not UTF-8 counts as one byte. */
static uint32_t next_character(const unsigned char *text, size_t *length_out)
{
    const size_t length = text[0] >= 0xF0U ? 4 : text[0] >= 0xE0U ? 3 : text[0] >= 0xC0U ? 2 : 1;
    uint32_t code = length == 1 ? text[0] : text[0] & (0xFFU >> (length + 1));
    for (size_t i = 1; i < length; i++) {
        if ((text[i] & 0xC0U) != 0x80U) {
            *length_out = i;
            return code;
        }
        code = (code << 6) | (text[i] & 0x3FU);
    }
    *length_out = length;
    return code;
}

/* Marks that stand over or under the letter before them, and what has no width at all. */
static int is_mark(uint32_t code)
{
    return (code >= 0x300U && code <= 0x36FU) || (code >= 0x591U && code <= 0x5C7U) ||
           (code >= 0x64BU && code <= 0x65FU) || (code >= 0x200BU && code <= 0x200FU) ||
           (code >= 0xFE00U && code <= 0xFE0FU);
}

static double width_of(uint32_t code)
{
    if (code < 0x80U) {
        return ascii_width((char)code);
    }
    if (is_mark(code)) {
        return 0.0;
    }
    /* Greek and Cyrillic capitals are wide; ideographs, kana, emoji fill their square. */
    return code < 0x1100U ? 0.8 : code >= 0x2E80U ? 1.1 : 0.9;
}

double trivet__lettering_width(const char *text, double size)
{
    const unsigned char *at = (const unsigned char *)text;
    double width = 0.0;
    while (*at) {
        size_t length = 1;
        width += width_of(next_character(at, &length));
        at += length;
    }
    return width * size;
}

void trivet__lettering_cut(char *into, size_t size, const char *name, int most)
{
    const unsigned char *at = (const unsigned char *)name;
    const unsigned char *cut = at;
    int count = 0;
    while (*at) {
        size_t length = 1;
        const uint32_t code = next_character(at, &length);
        count += !is_mark(code);
        at += length;
        if (count < most) {
            cut = at;
        }
    }
    if (count <= most) {
        trivet__text_copy(into, size, name);
    } else {
        trivet__text_print(into, size, "%.*s\xE2\x80\xA6", (int)(cut - (const unsigned char *)name),
                           name);
    }
}
