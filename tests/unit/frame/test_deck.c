/*
 * Decks: plates that lie on joints.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static const int32_t joints[] = {0, 1, 4};

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = row_of_joints_frame();
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(const char *name, const int32_t *on, int32_t count)
{
    return trivet_frame_add_deck(frame, name, on, count, NULL, &message);
}

START_TEST(decks_are_copied_and_given_back)
{
    int32_t on[] = {4, 0, 1};
    int32_t number = -1;
    int32_t count = -1;
    must(add("top", joints, 3), &message);
    must(trivet_frame_add_deck(frame, "low", on, 3, &number, &message), &message);
    ck_assert_int_eq(number, 1);
    on[0] = 9;
    const int32_t *const got = trivet_frame_deck_joints(frame, 1, &count);
    ck_assert_int_eq(count, 3);
    ck_assert_int_eq(got[0], 4);
    ck_assert_int_eq(got[1], 0);
    ck_assert_int_eq(got[2], 1);
    ck_assert_int_eq(trivet_frame_deck_joints(frame, 0, NULL)[2], 4);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_DECK), 2);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_DECK, 1), "low");
    ck_assert_str_eq(trivet_kind_text(TRIVET_KIND_DECK), "deck");
}
END_TEST

START_TEST(decks_that_are_not_there_have_no_joints)
{
    int32_t count = 7;
    ck_assert_ptr_null(trivet_frame_deck_joints(frame, 0, &count));
    ck_assert_int_eq(count, 0);
    must(add("top", joints, 3), &message);
    count = 7;
    ck_assert_ptr_null(trivet_frame_deck_joints(frame, -1, &count));
    ck_assert_int_eq(count, 0);
    ck_assert_ptr_null(trivet_frame_deck_joints(frame, 1, NULL));
    ck_assert_ptr_null(trivet_frame_deck_joints(NULL, 0, &count));
}
END_TEST

START_TEST(decks_that_are_wrong_are_refused)
{
    int32_t number = 7;
    const int32_t twice[] = {0, 1, 0};
    const int32_t unknown[] = {0, 5};
    refused(trivet_frame_add_deck(NULL, "top", joints, 3, &number, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(number, -1);
    refused(add("top", NULL, 3), TRIVET_MISSING_ARGUMENT, &message,
            "joints: is NULL; hand in a pointer to it");
    refused(add(NULL, joints, 3), TRIVET_MISSING_ARGUMENT, &message,
            "name: is NULL; hand in a pointer to it");
    refused(add("", joints, 3), TRIVET_BAD_NAME, &message,
            "deck: the name is empty; give it a name");
    refused(add("top", joints, 0), TRIVET_BAD_VALUE, &message,
            "deck top: it lies on nothing; name the joints that it lies on");
    refused(add("top", twice, 3), TRIVET_BAD_VALUE, &message,
            "deck top: joint A stands in it twice; name it once");
    refused(add("top", unknown, 2), TRIVET_BAD_INDEX, &message,
            "deck top, joint number 5: there is none, the frame has 5 of them; count from 0 in the "
            "order of adding");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_DECK), 0);
    must(add("top", joints, 3), &message);
    refused(add("top", joints, 1), TRIVET_BAD_NAME, &message,
            "deck top: there is a deck of this name already; choose another name");
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(decks_are_copied_and_given_back, decks_that_are_not_there_have_no_joints,
              decks_that_are_wrong_are_refused);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("deck", tests);
}
