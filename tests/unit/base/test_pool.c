/*
 * The pool: pieces that do not touch, zeros, the same memory after rewinding.
 */
#include "base/pool.h"

#include "support/run.h"

#include <check.h>
#include <stdint.h>
#include <string.h>

enum { PIECES = 400 };

/* Sizes that go up and down, from 0 to some kilobytes. */
static size_t size_of(size_t i)
{
    return (i * i * 37U) % 5003U;
}

static int is_all(const unsigned char *bytes, size_t count, int value)
{
    size_t same = 0;
    while (same < count && bytes[same] == value) {
        same++;
    }
    return same == count;
}

static void take_all(trivet__pool *pool, unsigned char *pieces[PIECES])
{
    for (size_t i = 0; i < PIECES; i++) {
        pieces[i] = trivet__pool_take(pool, size_of(i), 1);
        ck_assert_ptr_nonnull(pieces[i]);
        ck_assert_uint_eq((uintptr_t)pieces[i] % 16, 0);
        ck_assert(is_all(pieces[i], size_of(i), 0));
        memset(pieces[i], (int)(i % 251) + 1, size_of(i));
    }
    for (size_t i = 0; i < PIECES; i++) {
        ck_assert(is_all(pieces[i], size_of(i), (int)(i % 251) + 1));
    }
}

START_TEST(pieces_are_zeros_and_do_not_touch)
{
    trivet__pool pool = {0};
    unsigned char *pieces[PIECES];
    take_all(&pool, pieces);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(rewound_it_hands_out_the_same_memory)
{
    trivet__pool pool = {0};
    unsigned char *pieces[PIECES];
    unsigned char *again[PIECES];
    take_all(&pool, pieces);
    for (int round = 0; round < 3; round++) {
        trivet__pool_rewind(&pool);
        take_all(&pool, again);
        ck_assert_mem_eq(pieces, again, sizeof pieces);
    }
    trivet__pool_clear(&pool);
    take_all(&pool, pieces);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(a_piece_larger_than_what_is_there_after_rewinding)
{
    trivet__pool pool = {0};
    ck_assert_ptr_nonnull(trivet__pool_take(&pool, 10, 1));
    trivet__pool_rewind(&pool);
    char *const large = trivet__pool_take(&pool, 1, 100000);
    ck_assert_ptr_nonnull(large);
    memset(large, 1, 100000);
    char *const small = trivet__pool_take(&pool, 10, 1);
    ck_assert_ptr_nonnull(small);
    memset(small, 2, 10);
    ck_assert_int_eq(large[99999], 1);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(sizes_that_overflow_are_refused)
{
    trivet__pool pool = {0};
    ck_assert_ptr_null(trivet__pool_take(&pool, SIZE_MAX / 2, 3));
    ck_assert_ptr_null(trivet__pool_take(&pool, SIZE_MAX, 1));
    ck_assert_ptr_null(trivet__pool_text(&pool, "", SIZE_MAX));
    ck_assert_ptr_nonnull(trivet__pool_take(&pool, 1, 1));
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(lists_grow_and_keep_what_they_hold)
{
    trivet__pool pool = {0};
    void *list = NULL;
    size_t capacity = 0;
    for (size_t i = 0; i < 1000; i++) {
        ck_assert(trivet__pool_make_room(&pool, &list, i, &capacity, sizeof(size_t)));
        ck_assert_uint_gt(capacity, i);
        ck_assert_uint_eq(((size_t *)list)[i], 0);
        ((size_t *)list)[i] = i + 1;
    }
    for (size_t i = 0; i < 1000; i++) {
        ck_assert_uint_eq(((size_t *)list)[i], i + 1);
    }
    ck_assert_str_eq(trivet__pool_text(&pool, "left rail, right rail", 9), "left rail");
    trivet__pool_clear(&pool);
}
END_TEST

/* Four pieces of which none fits beside another one, in any order, are four chunks at most. */
START_TEST(free_memory_that_is_large_enough_is_found)
{
    static const size_t sizes[] = {100, 60000, 9000, 300};
    trivet__pool pool = {0};
    unsigned char *first = NULL;
    for (size_t i = 0; i < 4; i++) {
        unsigned char *const piece = trivet__pool_take(&pool, sizes[i], 1);
        ck_assert_ptr_nonnull(piece);
        first = i == 1 ? piece : first;
    }
    for (int round = 0; round < 5; round++) {
        trivet__pool_rewind(&pool);
        ck_assert_ptr_eq(trivet__pool_take(&pool, sizes[1], 1), first);
        for (size_t i = 0; i < 4; i++) {
            unsigned char *const piece = trivet__pool_take(&pool, sizes[3 - i], 1);
            ck_assert_ptr_nonnull(piece);
            ck_assert(is_all(piece, sizes[3 - i], 0));
            memset(piece, 7, sizes[3 - i]);
        }
    }
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(a_piece_that_is_large_enough_is_used_again)
{
    trivet__pool pool = {0};
    size_t capacity = 0;
    char *const none = trivet__pool_refit(&pool, NULL, &capacity, 0, 8);
    ck_assert_ptr_nonnull(none);
    char *const ten = trivet__pool_refit(&pool, none, &capacity, 10, 8);
    ck_assert_uint_eq(capacity, 10);
    memset(ten, 1, 80);
    ck_assert_ptr_eq(trivet__pool_refit(&pool, ten, &capacity, 10, 8), ten);
    ck_assert_ptr_eq(trivet__pool_refit(&pool, ten, &capacity, 3, 8), ten);
    ck_assert_uint_eq(capacity, 10);
    char *const more = trivet__pool_refit(&pool, ten, &capacity, 11, 8);
    ck_assert_ptr_ne(more, ten);
    ck_assert_uint_eq(capacity, 20);
    ck_assert(is_all((unsigned char *)more, 160, 0));
    ck_assert_ptr_null(trivet__pool_refit(&pool, more, &capacity, SIZE_MAX / 2, 8));
    ck_assert_uint_eq(capacity, 20);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(content_may_be_made_from_what_it_replaces)
{
    trivet__pool pool = {0};
    trivet__replaced content = {0};
    char *text = trivet__pool_replace(&pool, &content, sizeof "01234567");
    memcpy(text, "01234567", sizeof "01234567");
    for (int i = 0; i < 100; i++) {
        char *const turned = trivet__pool_replace(&pool, &content, sizeof "01234567");
        ck_assert_ptr_nonnull(turned);
        ck_assert_ptr_eq(turned, content.now);
        for (int k = 0; k < 8; k++) {
            turned[k] = text[(k + 1) % 8];
        }
        turned[8] = '\0';
        text = turned;
    }
    ck_assert_str_eq(text, "45670123"); /* turned by 100 = 4 places beyond 12 rounds */
    ck_assert_ptr_null(trivet__pool_replace(&pool, &content, SIZE_MAX / 2));
    ck_assert_ptr_eq(content.now, text);
    ck_assert_str_eq(text, "45670123");
    trivet__pool_clear(&pool);
}
END_TEST

int main(void)
{
    return run_tests("pool",
                     TESTS(pieces_are_zeros_and_do_not_touch, rewound_it_hands_out_the_same_memory,
                           a_piece_larger_than_what_is_there_after_rewinding,
                           sizes_that_overflow_are_refused, lists_grow_and_keep_what_they_hold,
                           free_memory_that_is_large_enough_is_found,
                           a_piece_that_is_large_enough_is_used_again,
                           content_may_be_made_from_what_it_replaces));
}
