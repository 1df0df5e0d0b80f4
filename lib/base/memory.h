/*
 * The only door to the heap. Sizes are checked for overflow; memory comes zeroed.
 */
#ifndef TRIVET_BASE_MEMORY_H
#define TRIVET_BASE_MEMORY_H

#include <stddef.h>

/* count * size bytes of zeros, or NULL. A count or size of 0 gives one byte. */
void *trivet__take(size_t count, size_t size);

/* Grows or shrinks to count * size bytes; new bytes are not zeroed. NULL leaves the old block. */
void *trivet__retake(void *block, size_t count, size_t size);

void trivet__give_back(void *block);

/*
 * Makes room for one more element of size bytes in a growing array of *capacity elements that
 * holds count. Returns false, and changes nothing, if there is no memory.
 */
int trivet__make_room(void **array, size_t count, size_t *capacity, size_t size);

/*
 * Whether two things are the same byte for byte. What lies between members may differ though these
 * do not: then what depends on them is only found anew.
 */
int trivet__are_same(const void *one, const void *other, size_t size);

#endif
