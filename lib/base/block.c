/*
 * One block a handle: sizes are added up first, pieces handed out in a fixed order.
 */
#include "base/block.h"

#include "base/memory.h"

#include <stdint.h>

#if defined(__SANITIZE_ADDRESS__)
#define IS_WATCHED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define IS_WATCHED 1
#endif
#endif

#ifdef IS_WATCHED
#include <sanitizer/asan_interface.h>
enum { GAP = 32 };
#else
enum { GAP = 0 };
#endif

enum { ALIGNMENT = 64 };

void *trivet__carve(trivet__carver *carver, size_t count, size_t size)
{
    if (size > 0 && count > (SIZE_MAX / 4) / size) {
        carver->too_big = 1;
        return NULL;
    }
    const size_t wanted = count * size;
    const size_t room = (wanted + GAP + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (carver->size > SIZE_MAX / 2 - room) {
        carver->too_big = 1;
        return NULL;
    }
    char *const piece = carver->at;
    carver->size += room;
    if (piece) {
        carver->at += room;
#ifdef IS_WATCHED
        ASAN_POISON_MEMORY_REGION(piece + wanted, room - wanted);
#endif
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
#ifdef IS_WATCHED
    ASAN_UNPOISON_MEMORY_REGION(block, kept->size);
#endif
    trivet__give_back(taken);
}
