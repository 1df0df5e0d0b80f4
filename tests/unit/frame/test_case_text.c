/*
 * Cases and combinations in words.
 */
#include "support/frames.h"
#include "support/run.h"

#include <math.h>
#include <string.h>

enum { TEXT_MAX = 512, TIP = 0, TWO_UP = 2, BOTH = 3 };

static trivet_frame *frame;
static trivet_message message;

/* A cantilever with the cases "tip", "weight" and "two-up", and "both" of the first and last. */
static void make(void)
{
    const double down[3] = {0.0, 0.7, -2.0};
    const double centre[3] = {0.5, 0.0, 0.1};
    const double back[3] = {-250.0, 0.0, 0.0};
    const double line[3] = {0.0, 0.0, -2000.0};
    const int32_t on[1] = {1};
    const int32_t cases[2] = {TIP, TWO_UP};
    const double factors[2] = {1.0, 1.35};
    int32_t cargo = -1;
    int32_t in_case = -1;
    int32_t combination = -1;
    trivet_message_clear(&message);
    frame = cantilever_frame(0.8, -100.0);
    must(trivet_frame_add_cargo(frame, "cool box", centre, on, 1, TRIVET_GRIP_SOFT, &cargo,
                                &message),
         &message);
    must(trivet_frame_add_item(frame, cargo, "box", 4.0, &message), &message);
    must(trivet_frame_add_case(frame, "two-up", down, &in_case, &message), &message);
    ck_assert_int_eq(in_case, TWO_UP);
    must(trivet_frame_add_cargo_force(frame, TWO_UP, cargo, back, NULL, NULL, &message), &message);
    must(trivet_frame_add_tube_line(frame, TWO_UP, 0, 0.0, (double)NAN, line, line,
                                    TRIVET_WORLD_AXES, &message),
         &message);
    must(trivet_frame_set_cargo_factor(frame, TWO_UP, cargo, 1.2, &message), &message);
    must(trivet_frame_set_warm(frame, TWO_UP, 30.0, &message), &message);
    must(trivet_frame_add_combination(frame, "both", cases, factors, 2, &combination, &message),
         &message);
    ck_assert_int_eq(combination, 0);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static void expect_text(int32_t column, const char *expected)
{
    char text[TEXT_MAX];
    const size_t length = trivet_case_text(frame, column, NULL, text, sizeof text);
    ck_assert_str_eq(text, expected);
    ck_assert_uint_eq(length, strlen(expected));
}

START_TEST(a_case_reads_as_understood)
{
    expect_text(TIP, "100 N down on B");
    expect_text(TWO_UP, "2 g down, 0.7 g to the left; 250 N backward on cool box; 2 N/mm down on "
                        "arm; 1.2 times cool box; 30 K warmer");
}
END_TEST

START_TEST(a_combination_reads_as_a_sum)
{
    expect_text(BOTH, "1 times tip + 1.35 times two-up");
}
END_TEST

START_TEST(columns_that_are_not_there_have_no_text)
{
    expect_text(BOTH + 1, "");
    expect_text(-1, "");
}
END_TEST

START_TEST(a_case_is_cut_at_its_size)
{
    char cut[8];
    const size_t needed = trivet_case_text(frame, TWO_UP, NULL, NULL, 0);
    ck_assert_uint_gt(needed, sizeof cut);
    ck_assert_uint_eq(trivet_case_text(frame, TWO_UP, NULL, cut, sizeof cut), needed);
    ck_assert_str_eq(cut, "2 g dow");
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(a_case_reads_as_understood, a_combination_reads_as_a_sum,
                               columns_that_are_not_there_have_no_text, a_case_is_cut_at_its_size);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("case_text", tests);
}
