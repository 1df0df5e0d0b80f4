/*
 * Groups of DXF R12, and its rules for text and for names of layers.
 */
#include "report/export_dxf.h"

#include "base/decimal.h"
#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void write_code(trivet__bytes *bytes, int code)
{
    char text[16];
    snprintf(text, sizeof text, "%3d\r\n", code);
    trivet__bytes_text(bytes, text);
}

void trivet__dxf_word(trivet__bytes *bytes, int code, const char *word)
{
    write_code(bytes, code);
    trivet__bytes_text(bytes, word);
    trivet__bytes_text(bytes, "\r\n");
}

void trivet__dxf_whole(trivet__bytes *bytes, int code, int32_t value)
{
    write_code(bytes, code);
    trivet__bytes_whole(bytes, value);
    trivet__bytes_text(bytes, "\r\n");
}

/* Always with a point: some readers tell real numbers from whole ones by it. */
void trivet__dxf_number(trivet__bytes *bytes, int code, double value)
{
    enum { DIGITS = 15, ROOM = 64 };
    char text[ROOM];
    trivet__decimal_write(value, DIGITS, text, sizeof text);
    write_code(bytes, code);
    trivet__bytes_text(bytes, text);
    trivet__bytes_text(bytes, strpbrk(text, ".e") ? "\r\n" : ".0\r\n");
}

void trivet__dxf_length(trivet__bytes *bytes, int code, double length)
{
    const double MM_IN_M = 1000.0;
    const double ROUNDING = 1e-9; /* mm: less is none */
    const double mm = length * MM_IN_M;
    trivet__dxf_number(bytes, code, fabs(mm) < ROUNDING ? 0.0 : mm);
}

void trivet__dxf_point(trivet__bytes *bytes, int code, double x, double y, double z)
{
    trivet__dxf_length(bytes, code, x);
    trivet__dxf_length(bytes, code + 10, y);
    trivet__dxf_length(bytes, code + 20, z);
}

void trivet__dxf_entity(trivet__bytes *bytes, const char *kind, const trivet__layer *layer)
{
    trivet__dxf_word(bytes, 0, kind);
    trivet__dxf_word(bytes, 8, layer->name);
}

/* The character at text, which is UTF-8, and its bytes. */
static uint32_t character_at(const char *text, size_t *bytes_out)
{
    const unsigned char *const at = (const unsigned char *)text;
    const size_t bytes = at[0] < 0x80 ? 1 : at[0] < 0xE0 ? 2 : at[0] < 0xF0 ? 3 : 4;
    uint32_t character = bytes == 1 ? at[0] : at[0] & (0x7FU >> bytes);
    *bytes_out = 1;
    for (size_t i = 1; i < bytes && (at[i] & 0xC0U) == 0x80U; i++) {
        character = character << 6 | (at[i] & 0x3FU);
        *bytes_out = i + 1;
    }
    return character;
}

static void write_unit(trivet__bytes *bytes, uint32_t unit)
{
    char text[16];
    snprintf(text, sizeof text, "\\U+%04X", (unsigned)unit);
    trivet__bytes_text(bytes, text);
}

/* As UTF-16: beyond U+FFFF a pair of surrogates. Controls, which no drawing shows, as '?'. */
static void write_encoded(trivet__bytes *bytes, uint32_t character)
{
    if (character < 0x20 || character == 0x7F) {
        trivet__bytes_text(bytes, "?");
    } else if (character > 0xFFFF) {
        write_unit(bytes, 0xD800U + ((character - 0x10000U) >> 10));
        write_unit(bytes, 0xDC00U + ((character - 0x10000U) & 0x3FFU));
    } else {
        write_unit(bytes, character);
    }
}

size_t trivet__dxf_text(trivet__bytes *bytes, int code, const char *text)
{
    enum { VALUE_MAX = 255, WIDEST = 14 }; /* WIDEST: a pair of surrogates */
    const char *at = text;
    write_code(bytes, code);
    for (size_t start = bytes->length; *at && bytes->length - start <= VALUE_MAX - WIDEST;) {
        size_t length = 1;
        const uint32_t character = character_at(at, &length);
        const int is_pair = character == '%' && at[1] == '%';
        if (character < 0x20 || character > 0x7E || character == '\\' || character == '^' ||
            is_pair) {
            write_encoded(bytes, character);
        } else {
            trivet__bytes_add(bytes, at, 1);
        }
        at += length;
    }
    trivet__bytes_text(bytes, "\r\n");
    return (size_t)(at - text);
}

void trivet__dxf_label(trivet__bytes *bytes, const trivet__layer *layer, const double at[3],
                       double height, const char *text)
{
    const double LEADING = 1.5; /* from line to line, in heights */
    double y = at[1];
    do {
        trivet__dxf_entity(bytes, "TEXT", layer);
        trivet__dxf_point(bytes, 10, at[0], y, at[2]);
        trivet__dxf_length(bytes, 40, height);
        text += trivet__dxf_text(bytes, 1, text);
        y -= LEADING * height;
    } while (*text);
}

static int is_taken(const trivet__layers *layers, const char *name)
{
    for (int32_t i = 0; i < layers->count; i++) {
        if (strcmp(layers->list[i].name, name) == 0) {
            return 1;
        }
    }
    return 0;
}

/* What may stand in a layer's name: capitals, digits, $ - _. One sign for one character. */
static void take_allowed(const char *text, char *into, size_t size)
{
    size_t at = strlen(into);
    while (*text && at + 1 < size) {
        size_t length = 1;
        const uint32_t c = character_at(text, &length);
        const int is_small = c >= 'a' && c <= 'z';
        const int is_allowed =
            (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '$' || c == '-' || c == '_';
        into[at++] = (char)(is_small ? c - 'a' + 'A' : is_allowed ? c : '_');
        text += length;
    }
    into[at] = '\0';
}

int32_t trivet__layer_add(trivet__layers *layers, const char *prefix, const char *of,
                          int32_t colour)
{
    trivet__layer made = {"", of, colour};
    char whole[TRIVET__LAYER_MAX] = "";
    take_allowed(prefix, whole, sizeof whole);
    if (of) {
        take_allowed(of, whole, sizeof whole);
    }
    trivet__text_copy(made.name, sizeof made.name, whole);
    for (int number = 2; is_taken(layers, made.name); number++) {
        char ending[16];
        const int length = snprintf(ending, sizeof ending, "_%d", number);
        snprintf(made.name, sizeof made.name, "%.*s%s", (int)sizeof made.name - 1 - length, whole,
                 ending);
    }
    layers->list[layers->count] = made;
    return layers->count++;
}
