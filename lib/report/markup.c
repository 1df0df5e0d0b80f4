/*
 * Growing text. Numbers are written without the C library, which puts a comma into them in half of
 * Europe; three digits behind the point are a thousandth of a millimetre on paper.
 */
#include "report/markup.h"

#include "base/memory.h"
#include "base/xml_text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static int make_room(trivet__markup *to, size_t more)
{
    const size_t needed = to->length + more + 1;
    if (to->is_broken || needed < more) {
        to->is_broken = 1;
        return 0;
    }
    if (needed > to->room) {
        const size_t grown = 2 * needed > 4096 ? 2 * needed : 4096;
        char *const text = trivet__retake(to->text, grown, 1);
        if (!text) {
            to->is_broken = 1;
            return 0;
        }
        to->text = text;
        to->room = grown;
    }
    return 1;
}

void trivet__write_raw(trivet__markup *to, const char *text, size_t length)
{
    if (make_room(to, length)) {
        memcpy(to->text + to->length, text, length);
        to->length += length;
        to->text[to->length] = '\0';
    }
}

static void write_text(trivet__markup *to, const char *text)
{
    trivet__write_raw(to, text, strlen(text));
}

void trivet__write_escaped(trivet__markup *to, const char *text)
{
    const char *start = text;
    const char *at = text;
    while (*at) {
        const char *const entity = trivet__entity(*at);
        const size_t unwanted = trivet__unwanted_length(at);
        if (entity || unwanted > 0) {
            trivet__write_raw(to, start, (size_t)(at - start));
            write_text(to, entity ? entity : TRIVET__UNKNOWN);
            at += unwanted > 0 ? unwanted : 1;
            start = at;
        } else {
            at++;
        }
    }
    trivet__write_raw(to, start, (size_t)(at - start));
}

/*
 * ASCII runs from left to right whatever stands around it; the rest goes between U+2068 and U+2069,
 * which any reader of bidirectional text obeys, in SVG as well as in HTML.
 */
static void write_apart(trivet__markup *to, const char *text)
{
    int is_plain = 1;
    for (const char *at = text; *at; at++) {
        is_plain = is_plain && ((unsigned char)*at & 0x80U) == 0;
    }
    if (!is_plain) {
        write_text(to, TRIVET__ISOLATE);
    }
    trivet__write_escaped(to, text);
    if (!is_plain) {
        write_text(to, TRIVET__END_ISOLATE);
    }
}

/* Length of the character at text if it belongs to a script that runs from right to left; else 0.
 */
static size_t right_to_left_length(const unsigned char *text)
{
    if (text[0] >= 0xD6U && text[0] <= 0xDFU && text[1] >= 0x80U) {
        return text[0] == 0xD6U && text[1] < 0x90U ? 0 : 2; /* U+0590 to U+07FF */
    }
    if (text[0] == 0xE0U && text[1] >= 0xA0U && text[1] <= 0xA3U) {
        return 3; /* U+0800 to U+08FF */
    }
    if (text[0] == 0xEFU && text[1] >= 0xACU && text[1] <= 0xBBU) {
        const int is_first = text[1] == 0xACU && text[2] >= 0x9DU; /* U+FB1D to U+FDFF */
        const int is_last = text[1] == 0xB9U ? text[2] >= 0xB0U : text[1] > 0xB9U;
        return is_first || (text[1] >= 0xADU && text[1] <= 0xB7U) || is_last ? 3 : 0;
    }
    const int is_old = text[0] == 0xF0U && text[1] == 0x90U && text[2] >= 0xA0U;
    const int is_new = text[0] == 0xF0U && text[1] == 0x9EU && text[2] >= 0xA0U;
    return is_old || is_new ? 4 : 0; /* U+10800 and U+1E800 onward */
}

/* Bytes from text to the end of the last right-to-left character before a letter or digit of the
 * other direction. */
static size_t run_length(const char *text)
{
    size_t length = 0;
    size_t at = 0;
    while (text[at]) {
        const unsigned char *const here = (const unsigned char *)text + at;
        const size_t one = right_to_left_length(here);
        const int is_other = one == 0 && (here[0] >= 0x80U || (here[0] >= '0' && here[0] <= '9') ||
                                          ((here[0] | 0x20U) >= 'a' && (here[0] | 0x20U) <= 'z'));
        if (is_other) {
            break;
        }
        at += one > 0 ? one : 1;
        length = one > 0 ? at : length;
    }
    return length;
}

static void write_escaped_part(trivet__markup *to, const char *text, size_t length)
{
    char part[256];
    while (length > 0) {
        size_t kept = length < sizeof part ? length : sizeof part - 1;
        while (kept < length && kept > 1 && ((unsigned char)text[kept] & 0xC0U) == 0x80U) {
            kept--;
        }
        memcpy(part, text, kept);
        part[kept] = '\0';
        trivet__write_escaped(to, part);
        text += kept;
        length -= kept;
    }
}

static void write_sentence(trivet__markup *to, const char *text, const char *before,
                           const char *behind)
{
    while (*text) {
        size_t plain = 0;
        while (text[plain] && right_to_left_length((const unsigned char *)text + plain) == 0) {
            plain++;
        }
        write_escaped_part(to, text, plain);
        text += plain;
        const size_t run = run_length(text);
        if (run > 0) {
            write_text(to, before);
            write_escaped_part(to, text, run);
            write_text(to, behind);
            text += run;
        }
    }
}

static void write_number(trivet__markup *to, double value)
{
    char text[32];
    /* What is drawn lies within some metres of paper; NaN and what is beyond go to 0. */
    const double kept = value > -1e9 && value < 1e9 ? value : 0.0;
    const long long thousandths = llround(kept * 1000.0);
    const long long size = thousandths < 0 ? -thousandths : thousandths;
    int length = snprintf(text, sizeof text, "%s%lld.%03lld", thousandths < 0 ? "-" : "",
                          size / 1000, size % 1000);
    while (length > 1 && text[length - 1] == '0') {
        length--;
    }
    length -= text[length - 1] == '.';
    trivet__write_raw(to, text, (size_t)length);
}

static void write_whole(trivet__markup *to, int value)
{
    char text[16];
    snprintf(text, sizeof text, "%d", value);
    write_text(to, text);
}

void trivet__write(trivet__markup *to, const char *pattern, ...)
{
    va_list values;
    va_start(values, pattern);
    while (*pattern) {
        const size_t plain = strcspn(pattern, "%");
        trivet__write_raw(to, pattern, plain);
        pattern += plain;
        if (!pattern[0]) {
            break;
        }
        switch (pattern[1]) {
        case 'n':
            write_number(to, va_arg(values, double));
            break;
        case 'i':
            write_whole(to, va_arg(values, int));
            break;
        case 'r':
            write_text(to, va_arg(values, const char *));
            break;
        case 'e':
            trivet__write_escaped(to, va_arg(values, const char *));
            break;
        case 's':
            write_sentence(to, va_arg(values, const char *), TRIVET__ISOLATE, TRIVET__END_ISOLATE);
            break;
        case 'h':
            write_sentence(to, va_arg(values, const char *), "<bdi>", "</bdi>");
            break;
        case 'b':
            write_apart(to, va_arg(values, const char *));
            break;
        default:
            trivet__write_raw(to, "%", 1);
            break;
        }
        pattern += pattern[1] ? 2 : 1;
    }
    va_end(values);
}

char *trivet__markup_take(trivet__markup *from)
{
    char *text = from->text;
    if (from->is_broken) {
        trivet__give_back(text);
        text = NULL;
    }
    *from = (trivet__markup){0};
    return text;
}
