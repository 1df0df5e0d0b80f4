/*
 * The names of one kind of thing: unique texts, each with a number, found by hashing.
 */
#ifndef TRIVET_FRAME_NAMES_H
#define TRIVET_FRAME_NAMES_H

#include "base/pool.h"
#include "trivet/base.h"

#include <stddef.h>
#include <stdint.h>

typedef struct trivet__name {
    char *text;
    size_t room;    /* bytes that fit into text; what was cut off is written over */
    int32_t number; /* what it names */
} trivet__name;

/* All zeros is a set without names. Its memory is the pool's that names are added from. */
typedef struct trivet__names {
    trivet__name *list; /* [count], in the order in which they were added */
    int32_t *slots;     /* [slot_count] places in list, -1 where empty; slot_count a power of two */
    int32_t count;
    size_t capacity;
    size_t slot_count;
} trivet__names;

/* The place in list of a name, or -1. */
int32_t trivet__names_find(const trivet__names *names, const char *text);

/*
 * Adds a copy of a name that is not there yet and returns the copy, which stays where it is until
 * it is cut off. NULL, and nothing changed, if there is no memory.
 */
const char *trivet__names_add(trivet__names *names, trivet__pool *pool, const char *text,
                              int32_t number);

/* Forgets the newest names down to count, with their texts. Needs no memory. */
void trivet__names_cut(trivet__names *names, int32_t count);

/*
 * Whether text can be a name: 1 to TRIVET_NAME_MAX - 1 bytes of UTF-8 without control characters.
 * kind is the plain word for what it would name. TRIVET_OK, MISSING_ARGUMENT or BAD_NAME.
 */
trivet_status trivet__name_check(const char *kind, const char *text, trivet_message *message);

#endif
