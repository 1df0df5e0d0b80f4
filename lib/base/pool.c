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

/* Bytes of a new chunk: twice the largest that there is, so that there are never many. */
static size_t next_size(const trivet__pool *pool)
{
    size_t size = FIRST_BYTES;
    for (const trivet__chunk *chunk = pool->first; chunk; chunk = chunk->next) {
        size = size > 2 * chunk->size ? size : 2 * chunk->size;
    }
    return size;
}

/* Makes a chunk with room for bytes the current one: the first of the free ones, or a new one. */
static int go_on(trivet__pool *pool, size_t bytes)
{
    trivet__chunk **const behind = pool->current ? &pool->current->next : &pool->first;
    trivet__chunk **at = behind;
    while (*at && (*at)->size < bytes) {
        at = &(*at)->next;
    }
    trivet__chunk *chunk = *at;
    if (chunk) {
        *at = chunk->next;
    } else {
        const size_t least = next_size(pool);
        chunk = new_chunk(bytes > least ? bytes : least);
    }
    if (!chunk) {
        return 0;
    }
    chunk->next = *behind;
    *behind = chunk;
    pool->current = chunk;
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

void *trivet__pool_refit(trivet__pool *pool, void *piece, size_t *capacity, size_t count,
                         size_t size)
{
    if (piece && count <= *capacity) {
        return piece;
    }
    const size_t twice = 2 * *capacity;
    const size_t wider = count > twice ? count : twice;
    void *const made = trivet__pool_take(pool, wider, size);
    if (made) {
        *capacity = wider;
    }
    return made;
}

void *trivet__pool_replace(trivet__pool *pool, trivet__replaced *content, size_t bytes)
{
    size_t size = content->before_size;
    void *const made = trivet__pool_refit(pool, content->before, &size, bytes, 1);
    if (made) {
        content->before = content->now;
        content->before_size = content->now_size;
        content->now = made;
        content->now_size = size;
    }
    return made;
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
