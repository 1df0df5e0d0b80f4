/*
 * Whatever anybody calls a tube, it comes out as text and cannot turn what stands behind it.
 */
#include "report/markup.h"

#include "base/memory.h"
#include "support/run.h"

#include <check.h>
#include <locale.h>
#include <math.h>
#include <string.h>

#define FSI "\xE2\x81\xA8"
#define PDI "\xE2\x81\xA9"
#define UNKNOWN "\xEF\xBF\xBD"
#define SHALOM "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D"
#define RAFF "\xD8\xB1\xD9\x81"

static void written_is(trivet__markup *to, const char *wanted)
{
    char *const text = trivet__markup_take(to);
    ck_assert_ptr_nonnull(text);
    ck_assert_str_eq(text, wanted);
    trivet__give_back(text);
}

static void escaped_is(const char *text, const char *wanted)
{
    trivet__markup to = {0};
    trivet__write(&to, "%e", text);
    trivet__write(&to, ".");
    char *const got = trivet__markup_take(&to);
    ck_assert_ptr_nonnull(got);
    got[strlen(got) - 1] = '\0';
    ck_assert_str_eq(got, wanted);
    trivet__give_back(got);
}

START_TEST(markup_becomes_text)
{
    escaped_is("", "");
    escaped_is("left rail", "left rail");
    escaped_is("<script>\"a\" & 'b'</script>",
               "&lt;script&gt;&quot;a&quot; &amp; &#39;b&#39;&lt;/script&gt;");
    escaped_is("&amp;", "&amp;amp;");
    escaped_is("]]>", "]]&gt;");
    escaped_is("%n %s", "%n %s");
    escaped_is("line\nend\ttab", "line\nend\ttab");
}
END_TEST

START_TEST(characters_that_nobody_should_meet_are_shown_as_unknown)
{
    escaped_is("\x01\x1B[31m\x7F", UNKNOWN UNKNOWN "[31m" UNKNOWN);
    escaped_is("\xC2\x85", UNKNOWN);    /* U+0085 */
    escaped_is("\xC2\xA0", "\xC2\xA0"); /* U+00A0 stays */
    escaped_is("a\xE2\x80\xAE"
               "b",
               "a" UNKNOWN "b"); /* U+202E */
    escaped_is("\xE2\x81\xA6\xE2\x81\xA9", UNKNOWN UNKNOWN);
    escaped_is("\xE2\x80\x99\xE2\x81\xAA", "\xE2\x80\x99\xE2\x81\xAA"); /* their neighbours stay */
    escaped_is("\xEF\xBF\xBE\xEF\xBF\xBF", UNKNOWN UNKNOWN);            /* no characters in XML */
}
END_TEST

START_TEST(names_keep_their_own_direction)
{
    trivet__markup to = {0};
    trivet__write(&to, "%b|%b", "rail 5", SHALOM " 5 <");
    written_is(&to, "rail 5|" FSI SHALOM " 5 &lt;" PDI);
}
END_TEST

START_TEST(right_to_left_runs_in_sentences_are_set_apart)
{
    trivet__markup to = {0};
    trivet__write(&to, "%s", "weld of " SHALOM " - " RAFF " at A carries 5");
    trivet__write(&to, "%s", "; " SHALOM "5");
    written_is(&to, "weld of " FSI SHALOM " - " RAFF PDI " at A carries 5; " FSI SHALOM PDI "5");
    trivet__write(&to, "%h", "<b> " RAFF " & co");
    written_is(&to, "&lt;b&gt; <bdi>" RAFF "</bdi> &amp; co");
}
END_TEST

START_TEST(long_sentences_are_cut_nowhere)
{
    char text[2000];
    char *const end = text + sizeof text - 1;
    trivet__markup to = {0};
    /* Characters of two and three bytes, so that any cut at a number of bytes would show. */
    for (char *at = text; at < end; at++) {
        static const char PIECE[] = "a\xC3\xA4\xE2\x82\xAC";
        *at = PIECE[(size_t)(at - text) % 6];
    }
    text[(sizeof text - 1) / 6 * 6] = '\0';
    trivet__write(&to, "%s", text);
    written_is(&to, text);
}
END_TEST

START_TEST(numbers_have_three_digits_behind_the_point)
{
    trivet__markup to = {0};
    trivet__write(&to, "%n %n %n %n %n %n %n %n", 0.0, 1.0, -0.5, 123.4567, -0.0001, 100.0,
                  (double)NAN, 1e300);
    written_is(&to, "0 1 -0.5 123.457 0 100 0 0");
    trivet__write(&to, "%i%% %r", -7, "<g/>");
    written_is(&to, "-7% <g/>");
}
END_TEST

START_TEST(numbers_do_not_follow_the_host_program_s_language)
{
    trivet__markup to = {0};
    /* Where no such language is installed the call fails, and the test shows less. */
    (void)setlocale(LC_NUMERIC, "de_DE.UTF-8");
    trivet__write(&to, "%n", 2.25);
    (void)setlocale(LC_NUMERIC, "C");
    written_is(&to, "2.25");
}
END_TEST

int main(void)
{
    return run_tests(
        "report/markup",
        TESTS(markup_becomes_text, characters_that_nobody_should_meet_are_shown_as_unknown,
              names_keep_their_own_direction, right_to_left_runs_in_sentences_are_set_apart,
              long_sentences_are_cut_nowhere, numbers_have_three_digits_behind_the_point,
              numbers_do_not_follow_the_host_program_s_language));
}
