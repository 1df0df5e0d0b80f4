/*
 * Chunks of the heap, each twice as large as the one before, from which pieces are cut in turn.
 */
#include "base/pool.h"

#include "base/memory.h"
#include "base/watched.h"

#include <stdint.h>
#include <string.h>

enum { ALIGNMENT = 16, FIRST_BYTES = 2048, LIST_FIRST = 4 };

/* Its pieces lie behind it. */
struct trivet__chunk {
    trivet__chunk *next;
    size_t size; /* bytes for pieces */
    size_t used;
    size_t unused; /* keeps pieces aligned */
};

_Static_assert(sizeof(trivet__chunk) % ALIGNMENT == 0, "pieces begin aligned");

static char *pieces_of(trivet__chunk *chunk)
{
    return (char *)(chunk + 1);
}

static trivet__chunk *new_chunk(size_t size)
{
    trivet__chunk *const chunk = trivet__take(1, sizeof *chunk + size);
    if (chunk) {
        chunk->size = size;
        TRIVET__FORBID(pieces_of(chunk), size);
    }
    return chunk;
}

/* Makes a chunk with room for bytes the current one: the next that is free, or a new one. */
static int go_on(trivet__pool *pool, size_t bytes)
{
    trivet__chunk *const last = pool->current;
    trivet__chunk *const next = last ? last->next : pool->first;
    if (next && next->size >= bytes) {
        pool->current = next;
        return 1;
    }
    const size_t least = last ? 2 * last->size : FIRST_BYTES;
    trivet__chunk *const made = new_chunk(bytes > least ? bytes : least);
    if (!made) {
        return 0;
    }
    made->next = next;
    if (last) {
        last->next = made;
    } else {
        pool->first = made;
    }
    pool->current = made;
    return 1;
}

void *trivet__pool_take(trivet__pool *pool, size_t count, size_t size)
{
    if (size > 0 && count > (SIZE_MAX / 4) / size) {
        return NULL;
    }
    const size_t wanted = count * size;
    const size_t room = (wanted + TRIVET__GAP + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    trivet__chunk *chunk = pool->current;
    if (!chunk || chunk->size - chunk->used < room) {
        if (!go_on(pool, room)) {
            return NULL;
        }
        chunk = pool->current;
    }
    char *const piece = pieces_of(chunk) + chunk->used;
    chunk->used += room;
    TRIVET__ALLOW(piece, wanted);
    return memset(piece, 0, wanted);
}

char *trivet__pool_text(trivet__pool *pool, const char *text, size_t length)
{
    char *const copy = length < SIZE_MAX ? trivet__pool_take(pool, length + 1, 1) : NULL;
    if (copy && length > 0) {
        memcpy(copy, text, length);
    }
    return copy;
}

int trivet__pool_make_room(trivet__pool *pool, void **list, size_t count, size_t *capacity,
                           size_t size)
{
    if (count < *capacity) {
        return 1;
    }
    if (*capacity > SIZE_MAX / 2) {
        return 0;
    }
    const size_t wider = *capacity > 0 ? 2 * *capacity : LIST_FIRST;
    void *const moved = trivet__pool_take(pool, wider, size);
    if (!moved) {
        return 0;
    }
    if (count > 0) {
        memcpy(moved, *list, count * size);
    }
    *list = moved;
    *capacity = wider;
    return 1;
}

void trivet__pool_rewind(trivet__pool *pool)
{
    for (trivet__chunk *chunk = pool->first; chunk; chunk = chunk->next) {
        chunk->used = 0;
        TRIVET__FORBID(pieces_of(chunk), chunk->size);
    }
    pool->current = NULL;
}

void trivet__pool_clear(trivet__pool *pool)
{
    while (pool->first) {
        trivet__chunk *const next = pool->first->next;
        TRIVET__ALLOW(pieces_of(pool->first), pool->first->size);
        trivet__give_back(pool->first);
        pool->first = next;
    }
    pool->current = NULL;
}
