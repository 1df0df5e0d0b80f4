/*
 * Text: cutting, UTF-8, distance of names.
 */
#include "base/memory.h"
#include "base/text.h"

#include "support/run.h"

#include <check.h>
#include <stdint.h>
#include <string.h>

START_TEST(copy_is_cut_at_a_whole_character)
{
    char into[6];
    trivet__text_copy(into, sizeof into, "ab\xC3\xA4\xC3\xB6");
    ck_assert_str_eq(into, "ab\xC3\xA4");
    trivet__text_copy(into, sizeof into, "abcdefgh");
    ck_assert_str_eq(into, "abcde");
    trivet__text_copy(into, 2, "\xF0\x9F\x98\x80");
    ck_assert_str_eq(into, "");
    trivet__text_copy(into, sizeof into, NULL);
    ck_assert_str_eq(into, "");
    into[0] = '*';
    trivet__text_copy(into, 0, "abc");
    ck_assert_int_eq(into[0], '*');
}
END_TEST

START_TEST(print_is_cut_at_a_whole_character)
{
    char into[8];
    ck_assert_uint_eq(trivet__text_print(into, sizeof into, "%s", "abcde\xE2\x82\xAC"), 8);
    ck_assert_str_eq(into, "abcde");
    ck_assert_uint_eq(trivet__text_print(into, sizeof into, "%s", "abcd\xE2\x82\xAC"), 7);
    ck_assert_str_eq(into, "abcd\xE2\x82\xAC");
    ck_assert_uint_eq(trivet__text_print(into, 1, "%s", "abc"), 3);
    ck_assert_str_eq(into, "");
    ck_assert_uint_eq(trivet__text_print(NULL, 0, "%d", 12345), 5);
}
END_TEST

START_TEST(kept_text_is_a_closed_copy)
{
    char *const copy = trivet__text_keep("abcdef", 3);
    ck_assert_str_eq(copy, "abc");
    trivet__give_back(copy);
    char *const nothing = trivet__text_keep(NULL, 0);
    ck_assert_str_eq(nothing, "");
    trivet__give_back(nothing);
    ck_assert_ptr_null(trivet__text_keep("a", SIZE_MAX));
}
END_TEST

typedef struct utf8_case {
    const char *text;
    int is_good;
    size_t bad_at;
} utf8_case;

/* Edges after RFC 3629, section 4. */
static const utf8_case utf8_cases[] = {
    {"", 1, 0},
    {"plain", 1, 0},
    {"\xC2\x80", 1, 0},
    {"\xDF\xBF", 1, 0},
    {"\xE0\xA0\x80", 1, 0},
    {"\xED\x9F\xBF", 1, 0},
    {"\xEE\x80\x80", 1, 0},
    {"\xF0\x90\x80\x80", 1, 0},
    {"\xF4\x8F\xBF\xBF", 1, 0},
    {"a\x80", 0, 1},
    {"a\xC0\x80", 0, 1},
    {"a\xC1\xBF", 0, 1},
    {"ab\xE0\x9F\xBF", 0, 2},
    {"\xED\xA0\x80", 0, 0},
    {"\xF0\x8F\xBF\xBF", 0, 0},
    {"\xF4\x90\x80\x80", 0, 0},
    {"\xF5\x80\x80\x80", 0, 0},
    {"abc\xE2\x82", 0, 3},
    {"\xE2\x28\xA1", 0, 0},
};

enum { UTF8_COUNT = sizeof utf8_cases / sizeof utf8_cases[0] };

START_TEST(utf8_is_told_from_other_bytes)
{
    const utf8_case *const wanted = &utf8_cases[_i];
    size_t bad_at = 0;
    const int is_good = trivet__text_is_utf8(wanted->text, strlen(wanted->text), &bad_at);
    ck_assert_int_eq(is_good, wanted->is_good);
    ck_assert_uint_eq(bad_at, wanted->bad_at);
}
END_TEST

START_TEST(distance_counts_changes_additions_drops_and_swaps)
{
    ck_assert(trivet__text_distance("rail", "rail") == 0.0);
    ck_assert(trivet__text_distance("rail", "rali") == 1.0);
    ck_assert(trivet__text_distance("rail", "mail") == 1.0);
    ck_assert(trivet__text_distance("rail", "rails") == 1.0);
    ck_assert(trivet__text_distance("rail", "ail") == 1.0);
    ck_assert(trivet__text_distance("rail", "Rail") == 0.5);
    ck_assert(trivet__text_distance("", "abc") == 3.0);
    ck_assert(trivet__text_distance("kitten", "sitting") == 3.0);
}
END_TEST

START_TEST(long_names_are_compared_by_their_beginning)
{
    char one[201];
    char other[201];
    memset(one, 'a', 200);
    memset(other, 'a', 200);
    one[200] = '\0';
    other[200] = '\0';
    other[100] = 'b';
    ck_assert(trivet__text_distance(one, other) == 0.0);
}
END_TEST

START_TEST(nearest_is_offered_only_if_it_may_be_meant)
{
    trivet__nearest search = {"widht", NULL, 0.0};
    trivet__nearest_offer(&search, "height");
    trivet__nearest_offer(&search, "width");
    trivet__nearest_offer(&search, "wall");
    ck_assert_str_eq(search.nearest, "width");
    trivet__nearest far = {"x", NULL, 0.0};
    trivet__nearest_offer(&far, "width");
    ck_assert_ptr_null(far.nearest);
}
END_TEST

START_TEST(heap_refuses_what_overflows)
{
    ck_assert_ptr_null(trivet__take(SIZE_MAX / 2, 3));
    ck_assert_ptr_null(trivet__retake(NULL, SIZE_MAX / 2, 3));
    unsigned char *const zeros = trivet__take(4, 4);
    ck_assert_ptr_nonnull(zeros);
    for (int i = 0; i < 16; i++) {
        ck_assert_int_eq(zeros[i], 0);
    }
    trivet__give_back(zeros);
    void *array = NULL;
    size_t capacity = 0;
    ck_assert_int_eq(trivet__make_room(&array, 0, &capacity, sizeof(int)), 1);
    ck_assert_uint_gt(capacity, 0);
    const size_t first = capacity;
    ck_assert_int_eq(trivet__make_room(&array, first, &capacity, sizeof(int)), 1);
    ck_assert_uint_gt(capacity, first);
    trivet__give_back(array);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(copy_is_cut_at_a_whole_character, print_is_cut_at_a_whole_character,
              kept_text_is_a_closed_copy, distance_counts_changes_additions_drops_and_swaps,
              long_names_are_compared_by_their_beginning,
              nearest_is_offered_only_if_it_may_be_meant, heap_refuses_what_overflows);
    tcase_add_loop_test(tests, utf8_is_told_from_other_bytes, 0, UTF8_COUNT);
    return run_tests("text and heap", tests);
}
