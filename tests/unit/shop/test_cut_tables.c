/*
 * The cut list in words: a corner and a saddle by hand, and what is refused.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/shop_tables.h"

#include <string.h>

/* A chord of 60 mm along x, a brace of 40 mm standing on its middle: T is 500 mm above O. */
static trivet_frame *crossing(const char *brace_name)
{
    trivet_frame *const frame = must_new_frame();
    const trivet_profile thick = round_tube(0.060, 0.003);
    const trivet_profile thin = round_tube(0.040, 0.002);
    const int32_t chord = must_add_stock(frame, "chord", &thick);
    const int32_t brace = must_add_stock(frame, "brace", &thin);
    const int32_t a = must_add_joint(frame, "A", -1.0, 0.0, 0.0);
    const int32_t o = must_add_joint(frame, "O", 0.0, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 1.0, 0.0, 0.0);
    const int32_t t = must_add_joint(frame, "T", 0.0, 0.0, 0.5);
    const int32_t along[3] = {a, o, b};
    const int32_t down[2] = {t, o};
    must_add_tube(frame, "chord", along, 3, chord);
    must_add_tube(frame, brace_name, down, 2, brace);
    must_add_mount(frame, a, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

static trivet_cut_tables *must_tell(const trivet_frame *frame)
{
    trivet_cuts *cuts = NULL;
    trivet_cut_tables *tables = NULL;
    trivet_message message;
    must(trivet_cuts_new(frame, NULL, &cuts, &message), &message);
    must(trivet_cut_tables_new(cuts, NULL, &tables, &message), &message);
    trivet_cuts_free(cuts); /* the tables stand on their own */
    return tables;
}

/* The number of the first table about a subject; -1. */
static int32_t find(const trivet_cut_tables *tables, int32_t subject, trivet_cut_table *table)
{
    for (int32_t i = 0; i < trivet_cut_tables_count(tables); i++) {
        table->size = sizeof *table;
        ck_assert_int_eq(trivet_cut_tables_at(tables, i, table), TRIVET_OK);
        if (table->subject == subject) {
            return i;
        }
    }
    return -1;
}

START_TEST(a_saddle_is_told_by_hand)
{
    /* Square on: 500 mm less sqrt(30^2 - (20 sin f)^2); least on the chord's flanks, where it is
     * sqrt(500) = 22.3607 mm, most on its ridge, 30 mm: 7.6393 mm deep. */
    trivet_frame *const frame = crossing("brace");
    trivet_cut_tables *const tables = must_tell(frame);
    trivet_cut_table table;
    const int32_t pieces = find(tables, TRIVET_CUT_PIECES, &table);
    ck_assert_str_eq(trivet_cut_tables_cell(tables, pieces, 1, 1), "brace");
    ck_assert_str_eq(trivet_cut_tables_cell(tables, pieces, 1, 3), "477.639 mm");
    ck_assert_str_eq(trivet_cut_tables_cell(tables, pieces, 1, 4), "470 mm");
    const int32_t saws = find(tables, TRIVET_CUT_ENDS, &table);
    ck_assert_int_eq(table.row_count, 4);
    ck_assert_str_eq(trivet_cut_tables_cell(tables, saws, -1, 2), "off square");
    ck_assert_str_eq(trivet_cut_tables_cell(tables, saws, 3, 5), "saddle on chord");
    const int32_t depths = find(tables, TRIVET_CUT_DEPTHS, &table);
    ck_assert_str_eq(table.title, "2 brace at O, template 02b-brace-O.svg");
    ck_assert_int_eq(table.piece, 1);
    ck_assert_int_eq(table.end, 1);
    /* The brace's top is x, the chord's way: on its flanks at 90 degrees it is longest. */
    ck_assert_str_eq(trivet_cut_tables_cell(tables, depths, 0, 1), "7.64 mm");
    ck_assert_str_eq(trivet_cut_tables_cell(tables, depths, 0, 3), "0 mm");
    ck_assert_ptr_nonnull(trivet_cut_tables_line(tables, depths, 0));
    ck_assert_int_eq(find(tables, TRIVET_CUT_BENDS, &table), -1);
    ck_assert_int_eq(find(tables, TRIVET_CUT_HOLES, &table), -1);
    trivet_cut_tables_free(tables);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(bars_that_are_assumed_are_said)
{
    trivet_frame *const frame = crossing("brace");
    trivet_cut_tables *const tables = must_tell(frame);
    trivet_cut_table table;
    const int32_t stocks = find(tables, TRIVET_CUT_STOCKS, &table);
    ck_assert_msg(strstr(trivet_cut_tables_line(tables, stocks, 0), "bars of 6000 mm are taken"),
                  "%s", trivet_cut_tables_line(tables, stocks, 0));
    ck_assert_ptr_null(trivet_cut_tables_line(tables, stocks, 1));
    trivet_cut_tables_free(tables);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(templates_take_any_name)
{
    trivet_frame *const frame = crossing("\xD7\xA9 <b> \xE2\x80\xAE & a name that goes on and on");
    trivet_cuts *cuts = NULL;
    trivet_message message;
    char svg[32768];
    must(trivet_cuts_new(frame, NULL, &cuts, &message), &message);
    const size_t length = trivet_cuts_template_svg(cuts, 1, 1, svg, sizeof svg);
    ck_assert_uint_gt(length, 1000);
    ck_assert_uint_lt(length, sizeof svg);
    /* Whole in the label; set apart, and the override shown as unknown. */
    ck_assert_ptr_nonnull(strstr(svg, "aria-label=\"Template: \xE2\x81\xA8\xD7\xA9 &lt;b&gt; "
                                      "\xEF\xBF\xBD &amp; a name that goes on and on\xE2\x81\xA9"));
    ck_assert_ptr_null(strstr(svg, "<b>"));
    ck_assert_ptr_null(strstr(svg, "\xE2\x80\xAE"));
    ck_assert_ptr_nonnull(strstr(svg, "...\xE2\x81\xA9 at O, onto chord</text>"));
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(what_is_missing_is_refused)
{
    trivet_frame *const frame = crossing("brace");
    trivet_cut_tables *tables = NULL;
    trivet_message message;
    trivet_cut_table table = {.size = sizeof table};
    ck_assert_int_eq(trivet_cut_tables_new(NULL, NULL, &tables, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_cut_tables_at(NULL, 0, &table), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_cut_tables_count(NULL), 0);
    ck_assert_ptr_null(trivet_cut_tables_cell(NULL, 0, 0, 0));
    ck_assert_ptr_null(trivet_cut_tables_line(NULL, 0, 0));
    tables = must_tell(frame);
    const int32_t count = trivet_cut_tables_count(tables);
    ck_assert_int_eq(trivet_cut_tables_at(tables, count, &table), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_cut_tables_at(tables, -1, &table), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_cut_tables_at(tables, 0, &table), TRIVET_OK);
    ck_assert_ptr_null(trivet_cut_tables_cell(tables, 0, table.row_count, 0));
    ck_assert_ptr_null(trivet_cut_tables_cell(tables, 0, -2, 0));
    ck_assert_ptr_null(trivet_cut_tables_cell(tables, 0, 0, table.column_count));
    ck_assert_ptr_null(trivet_cut_tables_cell(tables, count, 0, 0));
    ck_assert_ptr_null(trivet_cut_tables_line(tables, 0, -1));
    table.size = sizeof table - 1;
    ck_assert_int_eq(trivet_cut_tables_at(tables, 0, &table), TRIVET_BAD_SIZE);
    trivet_cut_tables_free(tables);
    trivet_cut_tables_free(NULL);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("cut tables", TESTS(a_saddle_is_told_by_hand, bars_that_are_assumed_are_said,
                                         templates_take_any_name, what_is_missing_is_refused));
}
