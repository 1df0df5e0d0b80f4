/*
 * Text that belongs to nobody else: cutting at a character, nearest names, copies.
 */
#ifndef TRIVET_BASE_TEXT_H
#define TRIVET_BASE_TEXT_H

#include "base/message.h"

#include <stddef.h>

/* Copies text into into[size], cut at a whole UTF-8 character, always closed with zero. */
void trivet__text_copy(char *into, size_t size, const char *text);

/* snprintf that cuts at a whole character; returns the length that the whole would have. */
size_t trivet__text_print(char *into, size_t size, const char *format, ...) TRIVET__FORMAT(3, 4);

/* A heap copy of length bytes with a closing zero, or NULL. */
char *trivet__text_keep(const char *text, size_t length);

/* Whether length bytes are UTF-8; *bad_at_out is the first byte that is not. */
int trivet__text_is_utf8(const char *text, size_t length, size_t *bad_at_out);

/*
 * How many letters must be changed, added, dropped or swapped with their neighbour to make one
 * text out of the other (capitals count half as much as letters). At most 64 bytes of each are
 * looked at.
 */
double trivet__text_distance(const char *one, const char *other);

/*
 * A running search for the name nearest to a wish: start with {wish, NULL, 0}, offer every
 * candidate, read nearest: NULL if none is near enough to be meant.
 */
typedef struct trivet__nearest {
    const char *wish;
    const char *nearest;
    double distance;
} trivet__nearest;

void trivet__nearest_offer(trivet__nearest *search, const char *candidate);

#endif
