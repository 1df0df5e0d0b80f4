/*
 * Views are parallel projections with true lengths across the line of sight; scales are round.
 */
#include "report/projection.h"

#include "base/vec3.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>

START_TEST(axes_are_square_and_of_length_one)
{
    for (int look = TRIVET__LOOK_LEFT; look <= TRIVET__LOOK_CORNER; look++) {
        trivet__view view;
        trivet__view_look(&view, (trivet__look)look);
        const double *const axes[3] = {view.right, view.up, view.toward};
        for (int i = 0; i < 3; i++) {
            for (int k = 0; k < 3; k++) {
                near_scaled(trivet__dot3(axes[i], axes[k]), i == k ? 1.0 : 0.0, 4 * DBL_EPSILON,
                            1.0);
            }
        }
        double across[3];
        trivet__cross3(view.right, view.up, across);
        near_scaled(trivet__dot3(across, view.toward), 1.0, 4 * DBL_EPSILON, 1.0);
    }
}
END_TEST

/* As the words on the drawing say: forward, left and up of the vehicle, on paper (y down). */
START_TEST(directions_lie_on_paper_as_the_words_say)
{
    static const double FORWARD[3] = {1, 0, 0};
    static const double LEFT[3] = {0, 1, 0};
    static const double UP[3] = {0, 0, 1};
    trivet__view view;
    double paper[2];
    trivet__view_look(&view, TRIVET__LOOK_LEFT);
    view.scale = 1.0;
    trivet__view_point(&view, FORWARD, paper);
    ck_assert(paper[0] == -1.0 && paper[1] == 0.0);
    trivet__view_point(&view, UP, paper);
    ck_assert(paper[0] == 0.0 && paper[1] == -1.0);
    trivet__view_look(&view, TRIVET__LOOK_BEHIND);
    view.scale = 1.0;
    trivet__view_point(&view, LEFT, paper);
    ck_assert(paper[0] == -1.0 && paper[1] == 0.0);
    trivet__view_look(&view, TRIVET__LOOK_ABOVE);
    view.scale = 1.0;
    trivet__view_point(&view, FORWARD, paper);
    ck_assert(paper[0] == -1.0 && paper[1] == 0.0);
    trivet__view_point(&view, LEFT, paper);
    ck_assert(paper[0] == 0.0 && paper[1] == 1.0);
    ck_assert(trivet__view_nearness(&view, UP) == 1.0);
}
END_TEST

START_TEST(round_numbers_are_the_next_below)
{
    near_relative(trivet__round_down(0.0199), 0.01, 4 * DBL_EPSILON);
    near_relative(trivet__round_down(20.0), 20.0, 4 * DBL_EPSILON);
    near_relative(trivet__round_down(49.0), 20.0, 4 * DBL_EPSILON);
    near_relative(trivet__round_down(1000.0), 1000.0, 4 * DBL_EPSILON);
    near_relative(trivet__round_down(999.0), 500.0, 4 * DBL_EPSILON);
    ck_assert(trivet__round_down(0.0) == 0.0);
    ck_assert(trivet__round_down((double)NAN) == 0.0);
    ck_assert(trivet__round_down(HUGE_VAL) == 0.0);
}
END_TEST

START_TEST(scales_fit_and_are_said_in_words)
{
    char words[32];
    near_relative(trivet__scale_choose(260.0, words, sizeof words), 250.0, 4 * DBL_EPSILON);
    ck_assert_str_eq(words, "1 : 4");
    near_relative(trivet__scale_choose(1999.0, words, sizeof words), 1000.0, 4 * DBL_EPSILON);
    ck_assert_str_eq(words, "1 : 1");
    near_relative(trivet__scale_choose(7000.0, words, sizeof words), 5000.0, 4 * DBL_EPSILON);
    ck_assert_str_eq(words, "5 : 1");
    near_relative(trivet__scale_choose(0.0666, words, sizeof words), 0.05, 4 * DBL_EPSILON);
    ck_assert_str_eq(words, "1 : 20000");
}
END_TEST

START_TEST(boxes_meet_only_where_they_overlap)
{
    const trivet__box one = {0, 0, 2, 2};
    const trivet__box beside = {2, 0, 4, 2};
    const trivet__box over = {1, 1, 3, 3};
    const trivet__box nothing = trivet__box_empty();
    ck_assert(!trivet__boxes_meet(&one, &beside));
    ck_assert(trivet__boxes_meet(&one, &over) && trivet__boxes_meet(&over, &one));
    ck_assert(!trivet__boxes_meet(&one, &nothing));
}
END_TEST

int main(void)
{
    return run_tests("report/projection",
                     TESTS(axes_are_square_and_of_length_one,
                           directions_lie_on_paper_as_the_words_say,
                           round_numbers_are_the_next_below, scales_fit_and_are_said_in_words,
                           boxes_meet_only_where_they_overlap));
}
