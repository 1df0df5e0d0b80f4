/*
 * One block a handle: sizes are added up first, pieces handed out in a fixed order.
 */
#include "base/block.h"

#include "base/memory.h"
#include "base/watched.h"

#include <stdint.h>

enum { ALIGNMENT = 64 };

void *trivet__carve(trivet__carver *carver, size_t count, size_t size)
{
    if (size > 0 && count > (SIZE_MAX / 4) / size) {
        carver->too_big = 1;
        return NULL;
    }
    const size_t wanted = count * size;
    const size_t room = (wanted + TRIVET__GAP + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (carver->size > SIZE_MAX / 2 - room) {
        carver->too_big = 1;
        return NULL;
    }
    char *const piece = carver->at;
    carver->size += room;
    if (piece) {
        carver->at += room;
        TRIVET__FORBID(piece + wanted, room - wanted);
    }
    return piece;
}

/* Stands just before the aligned block and remembers what was taken from the heap. */
typedef struct header {
    void *taken;
    size_t size;
} header;

void *trivet__take_block(const trivet__carver *counted)
{
    if (counted->too_big) {
        return NULL;
    }
    char *const taken = trivet__take(counted->size + sizeof(header) + ALIGNMENT, 1);
    if (!taken) {
        return NULL;
    }
    const uintptr_t after = (uintptr_t)taken + sizeof(header);
    const size_t shift = (ALIGNMENT - after % ALIGNMENT) % ALIGNMENT;
    char *const block = taken + sizeof(header) + shift;
    header *const kept = (header *)(void *)(block - sizeof(header));
    kept->taken = taken;
    kept->size = counted->size;
    return block;
}

void trivet__give_back_block(void *block)
{
    if (!block) {
        return;
    }
    header *const kept = (header *)(void *)((char *)block - sizeof(header));
    void *const taken = kept->taken;
    TRIVET__ALLOW(block, kept->size);
    trivet__give_back(taken);
}
