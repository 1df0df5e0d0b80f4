/*
 * Pieces of a pool counted like requests to the heap, and failing like them: few of them need the
 * heap, and each must be able to fail. Linked with -Wl,--wrap for what hands out pieces.
 */
#include "base/pool.h"
#include "failing_heap.h"

void *__real_trivet__pool_take(trivet__pool *pool, size_t count, size_t size);
char *__real_trivet__pool_text(trivet__pool *pool, const char *text, size_t length);
int __real_trivet__pool_make_room(trivet__pool *pool, void **list, size_t count, size_t *capacity,
                                  size_t size);
void *__real_trivet__pool_refit(trivet__pool *pool, void *piece, size_t *capacity, size_t count,
                                size_t size);
void *__real_trivet__pool_replace(trivet__pool *pool, trivet__replaced *content, size_t bytes);
void *__wrap_trivet__pool_take(trivet__pool *pool, size_t count, size_t size);
char *__wrap_trivet__pool_text(trivet__pool *pool, const char *text, size_t length);
int __wrap_trivet__pool_make_room(trivet__pool *pool, void **list, size_t count, size_t *capacity,
                                  size_t size);
void *__wrap_trivet__pool_refit(trivet__pool *pool, void *piece, size_t *capacity, size_t count,
                                size_t size);
void *__wrap_trivet__pool_replace(trivet__pool *pool, trivet__replaced *content, size_t bytes);

void *__wrap_trivet__pool_take(trivet__pool *pool, size_t count, size_t size)
{
    return heap_next_fails() ? NULL : __real_trivet__pool_take(pool, count, size);
}

char *__wrap_trivet__pool_text(trivet__pool *pool, const char *text, size_t length)
{
    return heap_next_fails() ? NULL : __real_trivet__pool_text(pool, text, length);
}

int __wrap_trivet__pool_make_room(trivet__pool *pool, void **list, size_t count, size_t *capacity,
                                  size_t size)
{
    if (count >= *capacity && heap_next_fails()) {
        return 0;
    }
    return __real_trivet__pool_make_room(pool, list, count, capacity, size);
}

void *__wrap_trivet__pool_refit(trivet__pool *pool, void *piece, size_t *capacity, size_t count,
                                size_t size)
{
    if ((!piece || count > *capacity) && heap_next_fails()) {
        return NULL;
    }
    return __real_trivet__pool_refit(pool, piece, capacity, count, size);
}

void *__wrap_trivet__pool_replace(trivet__pool *pool, trivet__replaced *content, size_t bytes)
{
    return heap_next_fails() ? NULL : __real_trivet__pool_replace(pool, content, bytes);
}
