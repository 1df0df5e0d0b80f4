/*
 * Lettering: how wide text comes out in a typeface that nobody knows beforehand, and cutting long
 * names.
 */
#ifndef TRIVET_REPORT_LETTERING_H
#define TRIVET_REPORT_LETTERING_H

#include <stddef.h>

/* Sizes of letters, mm. */
#define TRIVET__LETTER 2.7       /* of names and dimensions */
#define TRIVET__LETTER_SMALL 2.4 /* of notes */
#define TRIVET__LETTER_LARGE 4.2 /* of titles */

/* Width of text, mm, at a size of letters: on the wide side of usual typefaces without serifs. */
double trivet__lettering_width(const char *text, double size);

/* A copy of a name into into[size], cut to so many characters with an ellipsis behind. */
void trivet__lettering_cut(char *into, size_t size, const char *name, int most);

#endif
