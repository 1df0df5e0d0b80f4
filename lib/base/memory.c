/*
 * The heap, asked in one place, so that a test can let any single request fail.
 */
#include "base/memory.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static int product_fits(size_t count, size_t size)
{
    return size == 0 || count <= SIZE_MAX / size;
}

void *trivet__take(size_t count, size_t size)
{
    if (!product_fits(count, size)) {
        return NULL;
    }
    const size_t bytes = count * size;
    return calloc(bytes > 0 ? bytes : 1, 1);
}

void *trivet__retake(void *block, size_t count, size_t size)
{
    if (!product_fits(count, size)) {
        return NULL;
    }
    const size_t bytes = count * size;
    return realloc(block, bytes > 0 ? bytes : 1);
}

void trivet__give_back(void *block)
{
    free(block);
}

int trivet__make_room(void **array, size_t count, size_t *capacity, size_t size)
{
    enum { FIRST_CAPACITY = 8 };
    if (count < *capacity) {
        return 1;
    }
    if (*capacity > SIZE_MAX / 2) {
        return 0;
    }
    const size_t wider = *capacity > 0 ? 2 * *capacity : FIRST_CAPACITY;
    void *const moved = trivet__retake(*array, wider, size);
    if (!moved) {
        return 0;
    }
    *array = moved;
    *capacity = wider;
    return 1;
}

int trivet__are_same(const void *one, const void *other, size_t size)
{
    return memcmp(one, other, size) == 0;
}
