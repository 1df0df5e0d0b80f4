/*
 * Why a case is there, and what was asked for and cannot be looked at.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = must_new_frame();
    must_add_case(frame, "parked", 1.0);
    must_add_case(frame, "bump", 3.0);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static void tells(int32_t in_case, const char *story, const char *source)
{
    const char *got = NULL;
    ck_assert_str_eq(trivet_frame_case_story(frame, in_case, &got), story);
    ck_assert_str_eq(got, source);
    ck_assert_str_eq(trivet_frame_case_story(frame, in_case, NULL), story);
}

START_TEST(a_story_belongs_to_its_case_and_is_copied)
{
    char story[] = "a pothole weighs 3 times as much";
    char source[] = "common practice";
    tells(0, "", "");
    must(trivet_frame_set_case_story(frame, 1, story, source, &message), &message);
    story[0] = source[0] = 'X';
    tells(1, "a pothole weighs 3 times as much", "common practice");
    tells(0, "", "");
    must(trivet_frame_set_case_story(frame, 1, "another", "our own choice", &message), &message);
    tells(1, "another", "our own choice");
}
END_TEST

START_TEST(an_empty_story_takes_it_away_with_its_source)
{
    must(trivet_frame_set_case_story(frame, 0, "it stands", "common practice", &message), &message);
    must(trivet_frame_set_case_story(frame, 0, "", "common practice", &message), &message);
    tells(0, "", "");
    must(trivet_frame_set_case_story(frame, 0, "", "", &message), &message);
    tells(0, "", "");
}
END_TEST

START_TEST(a_story_may_be_made_of_itself)
{
    const char *source = NULL;
    must(trivet_frame_set_case_story(frame, 0, "it stands", "common practice", &message), &message);
    const char *const story = trivet_frame_case_story(frame, 0, &source);
    must(trivet_frame_set_case_story(frame, 0, story, source, &message), &message);
    tells(0, "it stands", "common practice");
}
END_TEST

START_TEST(stories_of_no_case_are_empty)
{
    tells(2, "", "");
    tells(-1, "", "");
    const char *source = NULL;
    ck_assert_str_eq(trivet_frame_case_story(NULL, 0, &source), "");
    ck_assert_str_eq(source, "");
}
END_TEST

START_TEST(wrong_calls_for_a_story_are_refused)
{
    refused(trivet_frame_set_case_story(NULL, 0, "a", "b", &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_case_story(frame, 0, NULL, "b", &message), TRIVET_MISSING_ARGUMENT,
            &message, "story: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_case_story(frame, 0, "a", NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "source: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_case_story(frame, 2, "a", "b", &message), TRIVET_BAD_INDEX, &message,
            "case number 2: there is none, the frame has 2 of them; count from 0 in the order of "
            "adding");
    tells(0, "", "");
}
END_TEST

START_TEST(gaps_are_kept_in_order_and_copied)
{
    char what[16];
    char why[16];
    for (int i = 0; i < 20; i++) {
        snprintf(what, sizeof what, "what %d", i);
        snprintf(why, sizeof why, "why %d", i);
        must(trivet_frame_add_gap(frame, what, why, &message), &message);
    }
    for (int i = 0; i < 20; i++) {
        const char *got = NULL;
        snprintf(what, sizeof what, "what %d", i);
        snprintf(why, sizeof why, "why %d", i);
        ck_assert_str_eq(trivet_frame_gap(frame, i, &got), what);
        ck_assert_str_eq(got, why);
        ck_assert_str_eq(trivet_frame_gap(frame, i, NULL), what);
    }
}
END_TEST

START_TEST(there_is_no_gap_past_the_last)
{
    const char *why = "untouched";
    ck_assert_ptr_null(trivet_frame_gap(frame, 0, &why));
    ck_assert_ptr_null(why);
    must(trivet_frame_add_gap(frame, "usage two-up", "say how high", &message), &message);
    ck_assert_ptr_null(trivet_frame_gap(frame, 1, NULL));
    ck_assert_ptr_null(trivet_frame_gap(frame, -1, NULL));
    ck_assert_ptr_null(trivet_frame_gap(NULL, 0, NULL));
}
END_TEST

START_TEST(wrong_calls_for_a_gap_are_refused)
{
    refused(trivet_frame_add_gap(NULL, "a", "b", &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_gap(frame, NULL, "b", &message), TRIVET_MISSING_ARGUMENT, &message,
            "what: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_gap(frame, "a", NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "why: is NULL; hand in a pointer to it");
    ck_assert_ptr_null(trivet_frame_gap(frame, 0, NULL));
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        a_story_belongs_to_its_case_and_is_copied, an_empty_story_takes_it_away_with_its_source,
        a_story_may_be_made_of_itself, stories_of_no_case_are_empty,
        wrong_calls_for_a_story_are_refused, gaps_are_kept_in_order_and_copied,
        there_is_no_gap_past_the_last, wrong_calls_for_a_gap_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("story", tests);
}
