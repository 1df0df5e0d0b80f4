/*
 * Memory that is taken piece by piece and given back as a whole. Rewound, it hands out the same
 * memory again: what is made again and again in the same way asks the heap the first time only.
 */
#ifndef TRIVET_BASE_POOL_H
#define TRIVET_BASE_POOL_H

#include <stddef.h>

typedef struct trivet__chunk trivet__chunk;

/* All zeros is a pool that has nothing yet. */
typedef struct trivet__pool {
    trivet__chunk *first;
    trivet__chunk *current; /* that pieces are cut from; those behind it are free */
} trivet__pool;

/* count * size bytes of zeros, aligned for any type; NULL if there is no memory. */
void *trivet__pool_take(trivet__pool *pool, size_t count, size_t size);

/* A zero-ended copy of text[length], or NULL. */
char *trivet__pool_text(trivet__pool *pool, const char *text, size_t length);

/*
 * Room for one more element of a list of count: moves it into a larger piece if need be, whose new
 * elements are zeros. Returns 0, and changes nothing, if there is no memory.
 */
int trivet__pool_make_room(trivet__pool *pool, void **list, size_t count, size_t *capacity,
                           size_t size);

/*
 * Room for count elements in a piece of *capacity, whose content is not kept: the same piece if it
 * is large enough, else one at least twice as large. piece may be NULL. Returns NULL, and changes
 * nothing, if there is no memory.
 */
void *trivet__pool_refit(trivet__pool *pool, void *piece, size_t *capacity, size_t count,
                         size_t size);

/*
 * Content that is replaced as a whole, again and again. The new one may be made from the old one,
 * which stays as it is until the next replacement. All zeros has no content.
 */
typedef struct trivet__replaced {
    void *now;
    void *before;
    size_t now_size;
    size_t before_size;
} trivet__replaced;

/* Room for new content, or NULL, and nothing changed. Replacing needs memory a few times only. */
void *trivet__pool_replace(trivet__pool *pool, trivet__replaced *content, size_t bytes);

/* Takes all pieces back and keeps the memory. */
void trivet__pool_rewind(trivet__pool *pool);

/* Gives the memory back. The pool is then empty and may be used again. */
void trivet__pool_clear(trivet__pool *pool);

#endif
