/*
 * Carving one block of memory into arrays. The same function runs twice: with at = NULL it only
 * adds up sizes, then with the block it hands out the pieces in the same order. With the address
 * sanitizer on, the gaps between pieces are poisoned.
 */
#ifndef TRIVET_BASE_BLOCK_H
#define TRIVET_BASE_BLOCK_H

#include <stddef.h>

typedef struct trivet__carver {
    char *at;    /* NULL while counting */
    size_t size; /* bytes so far */
    int too_big; /* the sum does not fit into size_t */
} trivet__carver;

/* The next piece of count elements of size bytes, aligned for any type; NULL while counting. */
void *trivet__carve(trivet__carver *carver, size_t count, size_t size);

/* Zeroed memory for what a counting carver added up, or NULL. Give back with the next. */
void *trivet__take_block(const trivet__carver *counted);

void trivet__give_back_block(void *block);

#endif
