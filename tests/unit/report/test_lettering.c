/*
 * Widths of lettering, and cutting of long names at whole characters.
 */
#include "report/lettering.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>

START_TEST(width_grows_with_the_text_and_the_size)
{
    ck_assert(trivet__lettering_width("", 3.0) == 0.0);
    ck_assert(trivet__lettering_width("rail", 3.0) < trivet__lettering_width("rail 5", 3.0));
    near_relative(trivet__lettering_width("rail", 6.0), 2.0 * trivet__lettering_width("rail", 3.0),
                  4 * DBL_EPSILON);
}
END_TEST

/* The advance widths of DejaVu Sans, one of the widest faces in use, as its font file has them, in
 * 1/2048 em: i 569, n 1298, W 2025, 5 1303, % 1946. */
START_TEST(letters_are_no_wider_than_assumed)
{
    ck_assert(trivet__lettering_width("i", 2048.0) >= 569.0);
    ck_assert(trivet__lettering_width("n", 2048.0) >= 1298.0);
    ck_assert(trivet__lettering_width("W", 2048.0) >= 2025.0);
    ck_assert(trivet__lettering_width("5", 2048.0) >= 1303.0);
    ck_assert(trivet__lettering_width("%", 2048.0) >= 1946.0);
}
END_TEST

START_TEST(marks_over_letters_take_no_room)
{
    ck_assert(trivet__lettering_width("e\xCC\x81", 3.0) == trivet__lettering_width("e", 3.0));
}
END_TEST

START_TEST(short_names_stay_as_they_are)
{
    char text[64];
    trivet__lettering_cut(text, sizeof text, "rail", 4);
    ck_assert_str_eq(text, "rail");
    trivet__lettering_cut(text, sizeof text, "", 4);
    ck_assert_str_eq(text, "");
}
END_TEST

START_TEST(long_names_end_in_an_ellipsis_at_a_whole_character)
{
    char text[64];
    trivet__lettering_cut(text, sizeof text, "rails", 4);
    ck_assert_str_eq(text, "rai\xE2\x80\xA6");
    trivet__lettering_cut(text, sizeof text, "\xC3\xA4\xC3\xB6\xC3\xBC\xC3\x9F", 3);
    ck_assert_str_eq(text, "\xC3\xA4\xC3\xB6\xE2\x80\xA6");
    char small[6];
    trivet__lettering_cut(small, sizeof small, "\xC3\xA4\xC3\xB6\xC3\xBC\xC3\x9F", 9);
    ck_assert_str_eq(small, "\xC3\xA4\xC3\xB6");
}
END_TEST

int main(void)
{
    return run_tests("report/lettering",
                     TESTS(width_grows_with_the_text_and_the_size,
                           letters_are_no_wider_than_assumed, marks_over_letters_take_no_room,
                           short_names_stay_as_they_are,
                           long_names_end_in_an_ellipsis_at_a_whole_character));
}
