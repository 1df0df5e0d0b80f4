/*
 * Hand-overs: what is asked wrongly, what is the same for all of them. What the files hold is read
 * back in tests/export.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "trivet/document.h"
#include "trivet/report_export.h"

#include <locale.h>
#include <string.h>

typedef trivet_status export_call(const trivet_frame *frame, const trivet_result *result,
                                  const trivet_checks *checks, char **bytes_out, size_t *length_out,
                                  trivet_message *message);

static trivet_status export_joints(const trivet_frame *frame, const trivet_result *result,
                                   const trivet_checks *checks, char **bytes_out,
                                   size_t *length_out, trivet_message *message)
{
    return trivet_export_csv(frame, result, checks, 0, bytes_out, length_out, message);
}

static export_call *const calls[] = {trivet_export_vtu, trivet_export_glb, export_joints};

enum { CALL_COUNT = sizeof calls / sizeof calls[0] };

static trivet_frame *frame;
static trivet_result *result;
static trivet_checks *checks;
static trivet_message message;
static char *bytes;
static size_t length;

static void make(void)
{
    memset(&message, 0, sizeof message);
    frame = cantilever_frame(0.5, -100.0);
    result = must_solve(frame);
    must(trivet_checks_new(frame, result, NULL, &checks, &message), &message);
    bytes = NULL;
}

static void give_back(void)
{
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_frame_free(frame);
}

START_TEST(missing_arguments_are_named)
{
    for (int i = 0; i < CALL_COUNT; i++) {
        char stale = 'x';
        bytes = &stale;
        length = 9;
        refused(calls[i](NULL, result, checks, &bytes, &length, &message), TRIVET_MISSING_ARGUMENT,
                &message, "frame: is NULL; hand in a pointer to it");
        ck_assert(bytes == NULL && length == 0);
        refused(calls[i](frame, NULL, checks, &bytes, &length, &message), TRIVET_MISSING_ARGUMENT,
                &message, "result: is NULL; hand in a pointer to it");
        refused(calls[i](frame, result, NULL, &bytes, &length, &message), TRIVET_MISSING_ARGUMENT,
                &message, "checks: is NULL; hand in a pointer to it");
        refused(calls[i](frame, result, checks, NULL, &length, &message), TRIVET_MISSING_ARGUMENT,
                &message, "bytes_out: is NULL; hand in a pointer to it");
    }
    refused(trivet_export_dxf(NULL, &bytes, &length, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
    refused(trivet_export_dxf(frame, NULL, &length, &message), TRIVET_MISSING_ARGUMENT, &message,
            "bytes_out: is NULL; hand in a pointer to it");
}
END_TEST

START_TEST(a_result_that_is_not_solved_is_refused)
{
    trivet_plan *plan = NULL;
    trivet_result *empty = NULL;
    must(trivet_plan_new(frame, &plan, &message), &message);
    must(trivet_result_new(plan, &empty, &message), &message);
    for (int i = 0; i < CALL_COUNT; i++) {
        refused(calls[i](frame, empty, checks, &bytes, &length, &message), TRIVET_BAD_ORDER,
                &message, "result: is not solved; solve the frame first");
        ck_assert_ptr_null(bytes);
    }
    trivet_result_free(empty);
    trivet_plan_free(plan);
}
END_TEST

START_TEST(tables_have_names_and_numbers)
{
    ck_assert_str_eq(trivet_export_table(0), "joints");
    ck_assert_str_eq(trivet_export_table(8), "bolts");
    ck_assert_str_eq(trivet_export_table(14), "not-checked");
    ck_assert_ptr_null(trivet_export_table(15));
    ck_assert_ptr_null(trivet_export_table(-1));
    refused(trivet_export_csv(frame, result, checks, 15, &bytes, &length, &message),
            TRIVET_BAD_INDEX, &message, "table number 15: there is none; give 0 to 14");
    ck_assert_ptr_null(bytes);
    refused(trivet_export_csv(frame, result, checks, -1, &bytes, &length, &message),
            TRIVET_BAD_INDEX, &message, "table number -1: there is none; give 0 to 14");
}
END_TEST

START_TEST(tables_of_a_cut_list_have_names_and_numbers)
{
    trivet_cuts *cuts = NULL;
    must(trivet_cuts_new(frame, NULL, &cuts, &message), &message);
    ck_assert_str_eq(trivet_export_cut_table(0), "pieces");
    ck_assert_str_eq(trivet_export_cut_table(10), "by-hand");
    ck_assert_ptr_null(trivet_export_cut_table(11));
    ck_assert_ptr_null(trivet_export_cut_table(-1));
    refused(trivet_export_cuts_csv(frame, cuts, 11, &bytes, &length, &message), TRIVET_BAD_INDEX,
            &message, "table number 11: there is none; give 0 to 10");
    ck_assert_ptr_null(bytes);
    refused(trivet_export_cuts_csv(frame, NULL, 0, &bytes, &length, &message),
            TRIVET_MISSING_ARGUMENT, &message, "cuts: is NULL; hand in a pointer to it");
    trivet_cuts_free(cuts);
}
END_TEST

/* The same bytes every time, whatever the language of the host program. */
START_TEST(files_are_the_same_with_a_comma_for_the_point)
{
    const char *const languages[] = {"de_DE.UTF-8", "de_DE", "fr_FR.UTF-8", "C.UTF-8"};
    for (int i = 0; i < CALL_COUNT; i++) {
        char *again = NULL;
        size_t other = 0;
        must(calls[i](frame, result, checks, &bytes, &length, &message), &message);
        ck_assert(length > 40 && bytes[length] == '\0');
        for (size_t k = 0; k < sizeof languages / sizeof languages[0]; k++) {
            setlocale(LC_ALL, languages[k]);
            must(calls[i](frame, result, checks, &again, &other, &message), &message);
            setlocale(LC_ALL, "C");
            ck_assert_uint_eq(length, other);
            ck_assert(memcmp(bytes, again, length) == 0);
            trivet_text_free(again);
        }
        trivet_text_free(bytes);
    }
    must(trivet_export_dxf(frame, &bytes, NULL, NULL), &message);
    ck_assert(strstr(bytes, "AC1009") != NULL);
    trivet_text_free(bytes);
}
END_TEST

START_TEST(inserts_and_offsets_are_handed_over)
{
    const double offset[3] = {0.0, 0.0, 0.01};
    const trivet_profile plug = square_bar(0.015);
    const int32_t stock = must_add_stock(frame, "plug", &plug);
    must(trivet_frame_add_insert(frame, 0, 0, 0.1, stock, TRIVET_SIDE_BY_SIDE, &message), &message);
    must(trivet_frame_set_offset(frame, 0, 0, offset, &message), &message);
    must(trivet_frame_set_offset(frame, 0, 1, offset, &message), &message);
    trivet_checks_free(checks);
    trivet_result_free(result);
    result = must_solve(frame);
    must(trivet_checks_new(frame, result, NULL, &checks, &message), &message);
    must(trivet_export_glb(frame, result, checks, &bytes, &length, &message), &message);
    ck_assert(strstr(bytes + 20, ", insert plug\"") != NULL);
    trivet_text_free(bytes);
    must(trivet_export_dxf(frame, &bytes, &length, &message), &message);
    ck_assert(strstr(bytes, " 30\r\n10.0\r\n 11\r\n500.0\r\n 21\r\n0.0\r\n 31\r\n10.0\r\n") !=
              NULL);
    trivet_text_free(bytes);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(missing_arguments_are_named, a_result_that_is_not_solved_is_refused,
              tables_have_names_and_numbers, tables_of_a_cut_list_have_names_and_numbers,
              files_are_the_same_with_a_comma_for_the_point, inserts_and_offsets_are_handed_over);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("export", tests);
}
