/*
 * Sets of names: found again, also among thousands; unknown ones are not.
 */
#include "frame/names.h"

#include "support/run.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

START_TEST(nothing_is_found_among_no_names)
{
    trivet__pool pool = {0};
    trivet__names names = {0};
    ck_assert_int_eq(trivet__names_find(&names, "A"), -1);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(names_are_copied_and_keep_their_number)
{
    trivet__pool pool = {0};
    trivet__names names = {0};
    char text[] = "FL";
    const char *const kept = trivet__names_add(&names, &pool, text, 41);
    ck_assert_ptr_nonnull(kept);
    text[0] = 'X';
    ck_assert_str_eq(kept, "FL");
    ck_assert_int_eq(trivet__names_find(&names, "FL"), 0);
    ck_assert_int_eq(trivet__names_find(&names, "XL"), -1);
    ck_assert_int_eq(names.list[0].number, 41);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(thousands_of_names_are_found_again)
{
    enum { MANY = 5000 };
    trivet__pool pool = {0};
    trivet__names names = {0};
    const char *first = NULL;
    for (int i = 0; i < MANY; i++) {
        char text[32];
        snprintf(text, sizeof text, "joint %d", i);
        const char *const kept = trivet__names_add(&names, &pool, text, -1 - i);
        ck_assert_ptr_nonnull(kept);
        first = first ? first : kept;
    }
    for (int i = 0; i < MANY; i++) {
        char text[32];
        snprintf(text, sizeof text, "joint %d", i);
        const int32_t place = trivet__names_find(&names, text);
        ck_assert_int_eq(place, i);
        ck_assert_int_eq(names.list[place].number, -1 - i);
    }
    ck_assert_int_eq(trivet__names_find(&names, "joint 5000"), -1);
    ck_assert_ptr_eq(names.list[0].text, first);
    trivet__pool_clear(&pool);
}
END_TEST

START_TEST(the_newest_are_forgotten_and_the_others_found)
{
    enum { MANY = 500, KEPT = 100 };
    trivet__pool pool = {0};
    trivet__names names = {0};
    char text[32];
    for (int i = 0; i < MANY; i++) {
        snprintf(text, sizeof text, "joint %d", i);
        ck_assert_ptr_nonnull(trivet__names_add(&names, &pool, text, i));
    }
    trivet__names_cut(&names, KEPT);
    ck_assert_int_eq(names.count, KEPT);
    for (int i = 0; i < MANY; i++) {
        snprintf(text, sizeof text, "joint %d", i);
        ck_assert_int_eq(trivet__names_find(&names, text), i < KEPT ? i : -1);
    }
    for (int i = MANY - 1; i >= KEPT; i--) {
        snprintf(text, sizeof text, "joint %d", i);
        ck_assert_ptr_nonnull(trivet__names_add(&names, &pool, text, -i));
    }
    ck_assert_int_eq(trivet__names_find(&names, "joint 100"), MANY - 1);
    ck_assert_int_eq(trivet__names_find(&names, "joint 99"), 99);
    trivet__names_cut(&names, 0);
    ck_assert_int_eq(trivet__names_find(&names, "joint 0"), -1);
    trivet__pool_clear(&pool);
}
END_TEST

int main(void)
{
    return run_tests("names",
                     TESTS(nothing_is_found_among_no_names, names_are_copied_and_keep_their_number,
                           thousands_of_names_are_found_again,
                           the_newest_are_forgotten_and_the_others_found));
}
