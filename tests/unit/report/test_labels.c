/*
 * Labels stand beside what they name, on no other label, off lines where they can, or not at all.
 */
#include "report/labels.h"

#include "support/dice.h"
#include "support/run.h"

#include <check.h>

static trivet__labels on_paper(double width, double height)
{
    trivet__labels labels = {0};
    labels.within = (trivet__box){0.0, 0.0, width, height};
    return labels;
}

START_TEST(a_lonely_label_stands_right_above)
{
    trivet__labels labels = on_paper(100, 100);
    double anchor[1][2] = {{50, 50}};
    trivet__box box;
    ck_assert_int_eq(trivet__labels_place(&labels, anchor, 1, 10, 3, 1, &box), 0);
    ck_assert(box.left == 45 && box.right == 55 && box.bottom == 49 && box.top == 46);
    trivet__labels_clear(&labels);
}
END_TEST

START_TEST(it_goes_below_where_a_line_runs_above)
{
    trivet__labels labels = on_paper(100, 100);
    double anchor[1][2] = {{50, 50}};
    const double from[2] = {0, 47.5};
    const double to[2] = {100, 47.5};
    trivet__box box;
    trivet__labels_avoid(&labels, from, to, 1.0);
    ck_assert_int_eq(trivet__labels_place(&labels, anchor, 1, 10, 3, 1, &box), 0);
    ck_assert(box.top == 51);
    trivet__labels_clear(&labels);
}
END_TEST

START_TEST(many_labels_of_one_place_overlap_nowhere_and_stay_on_the_paper)
{
    enum { MANY = 400 };
    trivet__labels labels = on_paper(120, 80);
    trivet__box boxes[MANY];
    dice rolls = dice_new(11);
    int placed = 0;
    for (int i = 0; i < MANY; i++) {
        double anchors[2][2] = {{dice_between(&rolls, 0, 120), dice_between(&rolls, 0, 80)},
                                {dice_between(&rolls, 0, 120), dice_between(&rolls, 0, 80)}};
        placed += trivet__labels_place(&labels, anchors, 2, dice_between(&rolls, 4, 18), 3, 1,
                                       &boxes[placed]) >= 0;
    }
    /* The paper holds about 290 of the middling size; greed leaves gaps. */
    ck_assert_int_gt(placed, 80);
    ck_assert_int_lt(placed, MANY);
    for (int i = 0; i < placed; i++) {
        ck_assert(boxes[i].left >= 0 && boxes[i].right <= 120);
        ck_assert(boxes[i].top >= 0 && boxes[i].bottom <= 80);
        for (int k = 0; k < i; k++) {
            ck_assert(!trivet__boxes_meet(&boxes[i], &boxes[k]));
        }
    }
    trivet__labels_clear(&labels);
}
END_TEST

START_TEST(where_there_is_no_room_there_is_no_label)
{
    trivet__labels labels = on_paper(9, 9);
    double anchor[1][2] = {{4, 4}};
    trivet__box box;
    ck_assert_int_eq(trivet__labels_place(&labels, anchor, 1, 10, 3, 1, &box), -1);
    ck_assert_int_eq((int)labels.box_count, 0);
    trivet__labels_clear(&labels);
}
END_TEST

int main(void)
{
    return run_tests("report/labels",
                     TESTS(a_lonely_label_stands_right_above, it_goes_below_where_a_line_runs_above,
                           many_labels_of_one_place_overlap_nowhere_and_stay_on_the_paper,
                           where_there_is_no_room_there_is_no_label));
}
