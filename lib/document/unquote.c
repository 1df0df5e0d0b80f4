/*
 * Single quotes (YAML 1.2.2, section 7.3.2): two quotes are one; line ends are folded: blanks
 * around them go, one line end is a blank, more are that many line ends less one. Done here because
 * libfyaml 0.7.12 loses memory on a run of doubled quotes.
 */
#include "document/unquote.h"

#include <string.h>

/* Skips blanks and line ends from *at on; how many line ends there were. */
static size_t skip_line_ends(const char *text, size_t length, size_t *at)
{
    size_t ends = 0;
    while (*at < length && strchr(" \t\r\n", text[*at])) {
        const int is_pair = text[*at] == '\r' && *at + 1 < length && text[*at + 1] == '\n';
        ends += text[*at] == '\n' || (text[*at] == '\r' && !is_pair);
        (*at)++;
    }
    return ends;
}

/* The length without blanks at the end. */
static size_t trim(const char *into, size_t filled)
{
    while (filled > 0 && (into[filled - 1] == ' ' || into[filled - 1] == '\t')) {
        filled--;
    }
    return filled;
}

size_t trivet__unquote(const char *text, size_t length, char *into)
{
    size_t filled = 0;
    size_t at = 0;
    while (at < length) {
        if (text[at] == '\'') {
            into[filled++] = '\'';
            at += at + 1 < length && text[at + 1] == '\'' ? 2 : 1;
        } else if (text[at] == '\n' || text[at] == '\r') {
            filled = trim(into, filled);
            const size_t ends = skip_line_ends(text, length, &at);
            const size_t added = ends > 1 ? ends - 1 : 1;
            memset(into + filled, ends > 1 ? '\n' : ' ', added);
            filled += added;
        } else {
            into[filled++] = text[at++];
        }
    }
    return filled;
}
