/*
 * Growing text of SVG and HTML, and the one way in which somebody's words get into it.
 */
#ifndef TRIVET_REPORT_MARKUP_H
#define TRIVET_REPORT_MARKUP_H

#include "trivet/base.h"

#include <stddef.h>

typedef struct trivet__markup {
    char *text; /* closed with zero once anything was written */
    size_t length;
    size_t room;
    int is_broken; /* there was not enough memory; what follows is dropped */
} trivet__markup;

/*
 * Writes a pattern, in which
 *   %n  a double, as a decimal number with at most three digits behind the point
 *   %i  an int (also an int32_t)
 *   %r  raw markup of our own
 *   %e  anybody's text, escaped
 *   %b  anybody's text, escaped and set apart from the direction of the text around it
 *   %s  a sentence with anybody's names in it, escaped; what runs from right to left is set apart
 *   %h  the same for HTML, where tags set it apart and copied text stays as it was
 *   %%  a percent sign
 */
void trivet__write(trivet__markup *to, const char *pattern, ...);

/*
 * Text as it may stand between tags and inside attributes in either kind of quotes. Control
 * characters, and those that turn or embed the direction of text, become U+FFFD, so that no name
 * can reorder what stands after it; tab and line end stay.
 */
void trivet__write_escaped(trivet__markup *to, const char *text);

/* Bytes as they are. */
void trivet__write_raw(trivet__markup *to, const char *text, size_t length);

/* The finished text, which the caller gets; NULL without memory. Leaves nothing behind. */
char *trivet__markup_take(trivet__markup *from);

#endif
