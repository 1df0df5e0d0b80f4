/*
 * Statuses: every number of the list through text and exit status.
 */
#include "trivet/base.h"

#include "support/run.h"

#include <check.h>
#include <string.h>

typedef struct status_row {
    int32_t number;
    const char *text;
} status_row;

#define LIST_ROW(name, number, text) {number, text},
static const status_row rows[] = {TRIVET_STATUS_LIST(LIST_ROW)};

enum { ROW_COUNT = sizeof rows / sizeof rows[0] };

static int row_with(int32_t number)
{
    for (int i = 0; i < ROW_COUNT; i++) {
        if (rows[i].number == number) {
            return i;
        }
    }
    return -1;
}

START_TEST(every_number_has_its_text_or_is_unknown)
{
    for (int32_t number = -5; number < 200; number++) {
        const int row = row_with(number);
        ck_assert_str_eq(trivet_status_text(number), row < 0 ? "unknown status" : rows[row].text);
    }
}
END_TEST

START_TEST(exit_status_follows_the_group)
{
    for (int i = 0; i < ROW_COUNT; i++) {
        const int32_t number = rows[i].number;
        const int32_t wanted = number == 0 ? 0 : number / 10 == 2 ? 2 : 3;
        ck_assert_int_eq(trivet_status_exit(number), wanted);
    }
    ck_assert_int_eq(trivet_status_exit(-1), 3);
    ck_assert_int_eq(trivet_status_exit(30), 3);
}
END_TEST

START_TEST(numbers_stay_what_they_are)
{
    ck_assert_int_eq(ROW_COUNT, 18);
    ck_assert_int_eq(TRIVET_OK, 0);
    ck_assert_int_eq(TRIVET_MISSING_ARGUMENT, 10);
    ck_assert_int_eq(TRIVET_BAD_INDEX, 11);
    ck_assert_int_eq(TRIVET_BAD_SIZE, 12);
    ck_assert_int_eq(TRIVET_BAD_ORDER, 13);
    ck_assert_int_eq(TRIVET_BAD_VALUE, 20);
    ck_assert_int_eq(TRIVET_BAD_UNIT, 21);
    ck_assert_int_eq(TRIVET_BAD_NAME, 22);
    ck_assert_int_eq(TRIVET_BAD_KEY, 23);
    ck_assert_int_eq(TRIVET_BAD_SYNTAX, 24);
    ck_assert_int_eq(TRIVET_INCOMPLETE, 25);
    ck_assert_int_eq(TRIVET_UNREADABLE, 26);
    ck_assert_int_eq(TRIVET_MOVES_FREELY, 30);
    ck_assert_int_eq(TRIVET_ILL_CONDITIONED, 31);
    ck_assert_int_eq(TRIVET_NO_MEMORY, 40);
    ck_assert_int_eq(TRIVET_UNWRITABLE, 41);
    ck_assert_int_eq(TRIVET_INTERRUPTED, 42);
    ck_assert_int_eq(TRIVET_INTERNAL, 90);
}
END_TEST

START_TEST(library_and_headers_are_of_one_version)
{
    ck_assert_str_eq(trivet_version(), TRIVET_VERSION);
    ck_assert_int_eq(trivet_abi(), TRIVET_ABI);
}
END_TEST

int main(void)
{
    return run_tests("statuses",
                     TESTS(every_number_has_its_text_or_is_unknown, exit_status_follows_the_group,
                           numbers_stay_what_they_are, library_and_headers_are_of_one_version));
}
