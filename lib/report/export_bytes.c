/*
 * A file that grows in memory, and text made fit for XML and JSON.
 */
#include "report/export_bytes.h"

#include "base/decimal.h"
#include "base/memory.h"
#include "base/message.h"

#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

void trivet__bytes_add(trivet__bytes *bytes, const void *more, size_t length)
{
    if (bytes->is_spoilt || length > SIZE_MAX / 4 - bytes->length) {
        bytes->is_spoilt = 1;
        return;
    }
    const size_t needed = bytes->length + length + 1; /* with the zero that closes it */
    if (needed > bytes->capacity) {
        const size_t wider = 2 * needed;
        char *const moved = trivet__retake(bytes->at, wider, 1);
        if (!moved) {
            bytes->is_spoilt = 1;
            return;
        }
        bytes->at = moved;
        bytes->capacity = wider;
    }
    if (length > 0) {
        memcpy(bytes->at + bytes->length, more, length);
    }
    bytes->length += length;
    bytes->at[bytes->length] = '\0';
}

void trivet__bytes_text(trivet__bytes *bytes, const char *text)
{
    trivet__bytes_add(bytes, text, strlen(text));
}

void trivet__bytes_number(trivet__bytes *bytes, double value)
{
    enum { DIGITS = 17, ROOM = 64 };
    char text[ROOM];
    trivet__decimal_write(value, DIGITS, text, sizeof text);
    trivet__bytes_text(bytes, text);
}

void trivet__bytes_whole(trivet__bytes *bytes, int64_t value)
{
    char text[24];
    snprintf(text, sizeof text, "%" PRId64, value);
    trivet__bytes_text(bytes, text);
}

/* Bytes of a character that XML 1.0 cannot hold (controls, U+FFFE, U+FFFF), else 0. */
static size_t forbidden(const char *text)
{
    const unsigned char c = (unsigned char)text[0];
    if (c < 0x20) {
        return c != '\t' && c != '\n' && c != '\r';
    }
    return strncmp(text, "\xEF\xBF\xBE", 3) == 0 || strncmp(text, "\xEF\xBF\xBF", 3) == 0 ? 3 : 0;
}

static const char *entity(char c)
{
    switch (c) {
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '&':
        return "&amp;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

void trivet__bytes_xml(trivet__bytes *bytes, const char *text)
{
    while (*text) {
        const size_t bad = forbidden(text);
        const char *const written = entity(*text);
        if (bad > 0) {
            trivet__bytes_text(bytes, "\xEF\xBF\xBD");
        } else if (written) {
            trivet__bytes_text(bytes, written);
        } else {
            trivet__bytes_add(bytes, text, 1);
        }
        text += bad > 0 ? bad : 1;
    }
}

void trivet__bytes_json(trivet__bytes *bytes, const char *text)
{
    trivet__bytes_text(bytes, "\"");
    for (; *text; text++) {
        const unsigned char c = (unsigned char)*text;
        char escape[8];
        if (c == '"' || c == '\\') {
            trivet__bytes_text(bytes, "\\");
        }
        if (c < 0x20) {
            snprintf(escape, sizeof escape, "\\u%04x", (unsigned)c);
            trivet__bytes_text(bytes, escape);
        } else {
            trivet__bytes_add(bytes, text, 1);
        }
    }
    trivet__bytes_text(bytes, "\"");
}

void trivet__bytes_free(trivet__bytes *bytes)
{
    trivet__give_back(bytes->at);
    *bytes = (trivet__bytes){NULL, 0, 0, 0};
}

trivet_status trivet__bytes_hand_out(trivet__bytes *bytes, char **bytes_out, size_t *length_out,
                                     trivet_message *message)
{
    trivet__bytes_add(bytes, "", 0);
    if (bytes->is_spoilt) {
        trivet__bytes_free(bytes);
        return trivet__no_memory(message);
    }
    *bytes_out = bytes->at;
    if (length_out) {
        *length_out = bytes->length;
    }
    *bytes = (trivet__bytes){NULL, 0, 0, 0};
    return TRIVET_OK;
}
