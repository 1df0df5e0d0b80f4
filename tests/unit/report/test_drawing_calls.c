/*
 * The two public calls: what they take, what they refuse and leave behind.
 */
#include "trivet/report.h"

#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"

#include <check.h>
#include <string.h>

static const char FILE_TEXT[] =
    "trivet: 1\nname: Arm\nstock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
    "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\ntubes: {arm: {through: [A, B], stock: rail}}\n"
    "mounts: {A: {hold: all}}\ncases: {tip: {forces: [{on: B, force: [0, 0, -100 N]}]}}\n";

static struct {
    trivet_document *document;
    const trivet_frame *frame;
    trivet_result *result;
    trivet_checks *checks;
} arm;

static void make_arm(void)
{
    ck_assert_int_eq(
        trivet_document_read_text(FILE_TEXT, sizeof FILE_TEXT - 1, &arm.document, NULL), TRIVET_OK);
    arm.frame = trivet_document_frame(arm.document);
    ck_assert_int_eq(trivet_frame_solve(arm.frame, &arm.result, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_checks_new(arm.frame, arm.result, NULL, &arm.checks, NULL), TRIVET_OK);
}

static void free_arm(void)
{
    trivet_checks_free(arm.checks);
    trivet_result_free(arm.result);
    trivet_document_free(arm.document);
}

static trivet_status draw(const trivet_drawing *drawing, trivet_message *message)
{
    static char before[] = "before";
    char *text = before;
    const trivet_status status =
        trivet_drawing_svg(arm.frame, arm.result, arm.checks, drawing, &text, message);
    ck_assert_int_eq(status == TRIVET_OK, text != NULL);
    ck_assert_ptr_ne(text, before);
    if (text) {
        ck_assert_int_eq(strncmp(text, "<svg ", 5), 0);
        ck_assert_str_eq(text + strlen(text) - 6, "</svg>");
    }
    trivet_text_free(text);
    return status;
}

START_TEST(settings_take_their_own_size)
{
    defaults_take_own_size(trivet_drawing, trivet_drawing_defaults);
    defaults_take_own_size(trivet_report, trivet_report_defaults);
}
END_TEST

START_TEST(every_sheet_is_drawn)
{
    trivet_drawing drawing;
    trivet_message message;
    ck_assert_int_eq(draw(NULL, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_drawing_defaults(&drawing, sizeof drawing), TRIVET_OK);
    for (int32_t sheet = TRIVET_SHEET_WHOLE; sheet <= TRIVET_SHEET_FORCES; sheet++) {
        drawing.sheet = sheet;
        for (int32_t given = -1; given <= 0; given++) {
            drawing.in_case = given;
            drawing.tube = given;
            drawing.title = given ? NULL : "Title";
            ck_assert_int_eq(draw(&drawing, &message), TRIVET_OK);
        }
    }
}
END_TEST

START_TEST(wrong_settings_are_refused)
{
    trivet_drawing drawing;
    trivet_message message;
    ck_assert_int_eq(trivet_drawing_defaults(&drawing, sizeof drawing), TRIVET_OK);
    drawing.in_case = 1;
    refused(draw(&drawing, &message), TRIVET_BAD_INDEX, &message,
            "case: there is none of that number; take a result column, or -1");
    drawing.in_case = -2;
    ck_assert_int_eq(draw(&drawing, NULL), TRIVET_BAD_INDEX);
    drawing.in_case = -1;
    drawing.tube = 1;
    refused(draw(&drawing, &message), TRIVET_BAD_INDEX, &message,
            "tube: there is none of that number; take a tube of the frame, or -1");
    drawing.tube = -1;
    drawing.sheet = 4;
    refused(draw(&drawing, &message), TRIVET_BAD_VALUE, &message,
            "sheet: there is none of that number; take a trivet_sheet");
    drawing.sheet = 0;
    drawing.size--;
    ck_assert_int_eq(draw(&drawing, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, sizeof drawing - 1, sizeof drawing);
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    char *text = NULL;
    trivet_message message;
    ck_assert_int_eq(trivet_drawing_svg(NULL, arm.result, arm.checks, NULL, &text, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "frame");
    ck_assert_int_eq(trivet_drawing_svg(arm.frame, NULL, arm.checks, NULL, &text, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_drawing_svg(arm.frame, arm.result, NULL, NULL, &text, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_drawing_svg(arm.frame, arm.result, arm.checks, NULL, NULL, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "text_out");
    ck_assert_int_eq(trivet_report_html(NULL, arm.result, arm.checks, NULL, &text, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "document");
    ck_assert_int_eq(trivet_report_html(arm.document, NULL, arm.checks, NULL, &text, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_report_html(arm.document, arm.result, NULL, NULL, &text, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_report_html(arm.document, arm.result, arm.checks, NULL, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
}
END_TEST

START_TEST(an_unsolved_result_is_refused)
{
    trivet_plan *plan = NULL;
    trivet_result *empty = NULL;
    char *text = NULL;
    trivet_message message;
    ck_assert_int_eq(trivet_plan_new(arm.frame, &plan, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_result_new(plan, &empty, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_drawing_svg(arm.frame, empty, arm.checks, NULL, &text, &message),
                     TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet_report_html(arm.document, empty, arm.checks, NULL, &text, &message),
                     TRIVET_BAD_ORDER);
    ck_assert_ptr_null(text);
    trivet_result_free(empty);
    trivet_plan_free(plan);
}
END_TEST

START_TEST(the_page_is_written_and_wrong_settings_refused)
{
    trivet_report report;
    trivet_message message;
    char *text = NULL;
    ck_assert_int_eq(trivet_report_html(arm.document, arm.result, arm.checks, NULL, &text, NULL),
                     TRIVET_OK);
    ck_assert_ptr_nonnull(strstr(text, "<h1><bdi>Arm</bdi></h1>"));
    ck_assert_ptr_nonnull(strstr(text, "</html>"));
    trivet_text_free(text);
    ck_assert_int_eq(trivet_report_defaults(&report, sizeof report), TRIVET_OK);
    report.in_case = 7;
    ck_assert_int_eq(
        trivet_report_html(arm.document, arm.result, arm.checks, &report, &text, &message),
        TRIVET_BAD_INDEX);
    ck_assert_ptr_null(text);
    report.in_case = -1;
    report.size++;
    ck_assert_int_eq(
        trivet_report_html(arm.document, arm.result, arm.checks, &report, &text, &message),
        TRIVET_BAD_SIZE);
    names_both_sizes(&message, sizeof report + 1, sizeof report);
}
END_TEST

START_TEST(the_document_keeps_its_text)
{
    ck_assert_str_eq(trivet_document_text(arm.document), FILE_TEXT);
    ck_assert_str_eq(trivet_document_text(NULL), "");
}
END_TEST

START_TEST(offsets_of_tubes_can_be_asked)
{
    trivet_frame *frame = NULL;
    double offset[3] = {9, 9, 9};
    static const double MOVED[3] = {0.0, 0.01, -0.02};
    ck_assert_int_eq(trivet_frame_copy(arm.frame, &frame, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_offset(frame, 0, 1, offset), TRIVET_OK);
    ck_assert(offset[0] == 0 && offset[1] == 0 && offset[2] == 0);
    ck_assert_int_eq(trivet_frame_set_offset(frame, 0, 1, MOVED, NULL), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_offset(frame, 0, 1, offset), TRIVET_OK);
    ck_assert_mem_eq(offset, MOVED, sizeof MOVED);
    ck_assert_int_eq(trivet_frame_offset(frame, 1, 1, offset), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_offset(frame, 0, 2, offset), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_frame_offset(frame, 0, 0, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_offset(NULL, 0, 0, offset), TRIVET_MISSING_ARGUMENT);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(settings_take_their_own_size, every_sheet_is_drawn, wrong_settings_are_refused,
              missing_arguments_are_named, an_unsolved_result_is_refused,
              the_page_is_written_and_wrong_settings_refused, the_document_keeps_its_text,
              offsets_of_tubes_can_be_asked);
    tcase_add_checked_fixture(tests, make_arm, free_arm);
    return run_tests("report/drawing", tests);
}
