/*
 * Blocks are remembered in a table, so that a block that somebody else took (a copy of text made
 * inside the C library, say) may be given back here without spoiling the count. For one thread.
 */
#include "failing_heap.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *block, size_t size);
void __real_free(void *block);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *block, size_t size);
void __wrap_free(void *block);

enum { PLACES = 1 << 16 };

static void *held[PLACES];
static long held_count;
static long requests;
static long failing;
static int has_failed;

void heap_start(long fail_at)
{
    for (size_t i = 0; held_count > 0 && i < PLACES; i++) {
        held[i] = NULL;
    }
    held_count = 0;
    requests = 0;
    failing = fail_at;
    has_failed = 0;
}

long heap_requests(void)
{
    return requests;
}

int heap_failed(void)
{
    return has_failed;
}

long heap_blocks_held(void)
{
    return held_count;
}

int heap_next_fails(void)
{
    requests++;
    if (requests == failing) {
        has_failed = 1;
        return 1;
    }
    return 0;
}

static size_t place_of(const void *block)
{
    return (size_t)(((uintptr_t)block >> 4U) * 2654435761U) % PLACES;
}

static void *remember(void *block)
{
    if (!block) {
        return NULL;
    }
    if (held_count >= PLACES / 2) {
        fputs("the table of blocks is full\n", stderr);
        exit(1);
    }
    size_t place = place_of(block);
    while (held[place]) {
        place = (place + 1) % PLACES;
    }
    held[place] = block;
    held_count++;
    return block;
}

/* Takes a block out of the table and closes the gap that it leaves among those behind it. */
static void forget(const void *block)
{
    size_t place = place_of(block);
    while (held[place] && held[place] != block) {
        place = (place + 1) % PLACES;
    }
    if (!held[place]) {
        return;
    }
    held_count--;
    held[place] = NULL;
    for (size_t next = (place + 1) % PLACES; held[next]; next = (next + 1) % PLACES) {
        void *const moved = held[next];
        held[next] = NULL;
        held_count--;
        remember(moved);
    }
}

void *__wrap_malloc(size_t size)
{
    return heap_next_fails() ? NULL : remember(__real_malloc(size));
}

void *__wrap_calloc(size_t count, size_t size)
{
    return heap_next_fails() ? NULL : remember(__real_calloc(count, size));
}

void *__wrap_realloc(void *block, size_t size)
{
    if (heap_next_fails()) {
        return NULL;
    }
    void *const moved = __real_realloc(block, size);
    if (moved) {
        if (block) {
            forget(block);
        }
        remember(moved);
    }
    return moved;
}

void __wrap_free(void *block)
{
    if (block) {
        forget(block);
    }
    __real_free(block);
}
