/*
 * Messages: three parts, one line, cut at a character.
 */
#include "base/message.h"

#include "support/run.h"

#include <check.h>
#include <string.h>

START_TEST(message_is_one_line)
{
    trivet_message message;
    char line[200];
    ck_assert_int_eq(trivet__refuse(&message, TRIVET_BAD_VALUE, "tube left rail",
                                    "the wall is 12 mm", "give less"),
                     TRIVET_BAD_VALUE);
    ck_assert_int_eq(message.status, TRIVET_BAD_VALUE);
    trivet_message_text(&message, line, sizeof line);
    ck_assert_str_eq(line, "tube left rail: the wall is 12 mm; give less");
    message.line = 4;
    trivet_message_text(&message, line, sizeof line);
    ck_assert_str_eq(line, "line 4: tube left rail: the wall is 12 mm; give less");
    message.column = 7;
    const size_t needed = trivet_message_text(&message, line, sizeof line);
    ck_assert_str_eq(line, "line 4, column 7: tube left rail: the wall is 12 mm; give less");
    ck_assert_uint_eq(needed, strlen(line));
    ck_assert_uint_eq(trivet_message_text(&message, NULL, 0), needed);
}
END_TEST

START_TEST(empty_parts_leave_no_marks)
{
    trivet_message message;
    char line[100] = "x";
    trivet__refuse(&message, TRIVET_BAD_VALUE, "", "is wrong", "");
    trivet_message_text(&message, line, sizeof line);
    ck_assert_str_eq(line, "is wrong");
    ck_assert_uint_eq(trivet_message_text(NULL, line, sizeof line), 0);
    ck_assert_str_eq(line, "");
}
END_TEST

START_TEST(long_parts_are_cut_at_a_character)
{
    /* 3 bytes a character: 159 and 319 bytes hold 53 and 106 of them whole. */
    char euros[3 * 200 + 1] = "";
    for (int i = 0; i < 200; i++) {
        memcpy(euros + 3 * i, "\xE2\x82\xAC", 4);
    }
    trivet_message message;
    trivet__refuse(&message, TRIVET_BAD_VALUE, euros, euros, euros);
    ck_assert_uint_eq(strlen(message.thing), 53 * 3);
    ck_assert_uint_eq(strlen(message.problem), 106 * 3);
    ck_assert_uint_eq(strlen(message.remedy), 106 * 3);
    trivet__message_thing(&message, "a%s", euros);
    ck_assert_uint_eq(strlen(message.thing), 1 + 52 * 3);
    char line[9];
    trivet_message_text(&message, line, sizeof line);
    ck_assert_str_eq(line, "a\xE2\x82\xAC\xE2\x82\xAC");
    for (size_t size = 1; size < sizeof line; size++) {
        trivet_message_text(&message, line, size);
        ck_assert_uint_eq(strlen(line), size == 1 ? 0 : 1 + (size - 2) / 3 * 3);
    }
}
END_TEST

START_TEST(format_of_one_part_leaves_the_others)
{
    trivet_message message;
    trivet__refuse(&message, TRIVET_BAD_UNIT, "thing", "problem", "remedy");
    trivet__message_problem(&message, "the %s is %d", "wall", 3);
    ck_assert_str_eq(message.thing, "thing");
    ck_assert_str_eq(message.problem, "the wall is 3");
    trivet__message_remedy(&message, "give %s", "less");
    ck_assert_str_eq(message.remedy, "give less");
    trivet__message_within(&message, "tube %s", "back");
    ck_assert_str_eq(message.thing, "tube back, thing");
    message.thing[0] = '\0';
    trivet__message_within(&message, "tube %s", "back");
    ck_assert_str_eq(message.thing, "tube back");
}
END_TEST

START_TEST(no_message_is_fine)
{
    ck_assert_int_eq(trivet__refuse(NULL, TRIVET_BAD_KEY, "a", "b", "c"), TRIVET_BAD_KEY);
    trivet__message_thing(NULL, "%d", 1);
    trivet__message_problem(NULL, "%d", 1);
    trivet__message_remedy(NULL, "%d", 1);
    trivet__message_within(NULL, "%d", 1);
    trivet_message_clear(NULL);
    ck_assert_int_eq(trivet__no_memory(NULL), TRIVET_NO_MEMORY);
    ck_assert_int_eq(trivet__missing(NULL, "frame"), TRIVET_MISSING_ARGUMENT);
}
END_TEST

int main(void)
{
    return run_tests("messages", TESTS(message_is_one_line, empty_parts_leave_no_marks,
                                       long_parts_are_cut_at_a_character,
                                       format_of_one_part_leaves_the_others, no_message_is_fine));
}
