/*
 * Reading a file, solving, checking and writing the answers, with each request for memory failing
 * in turn: those of the library and those of the JSON writer, which is linked in whole. Those of
 * the YAML reader are left out: libfyaml 0.7.12 itself leaks or crashes when some of its own fail.
 *
 * usage: test_document_out_of_memory FILE_TO_READ FILE_TO_WRITE_ABOUT   (the latter a short one:
 * writing makes thousands of requests, each of which fails in turn)
 */
#include "every_request.h"
#include "failing_heap.h"

#include <trivet/document.h>
#include <trivet/report.h>
#include <trivet/shop_tables.h>

#include <stddef.h>
#include <string.h>

static const char *path;
static const char *short_path;

/* FNV-1a over a text, mixed into what is there. */
static uint64_t mix(uint64_t print, const char *text)
{
    for (; *text; text++) {
        print = (print ^ (unsigned char)*text) * 1099511628211U;
    }
    return print;
}

/* What is read once, before any request fails, for those pieces of work that only write. */
static struct {
    trivet_document *document;
    trivet_result *result;
    trivet_checks *checks;
} ready;

static void make_ready(void)
{
    trivet_message message;
    attempt_needs(
        !trivet_document_read_file(short_path, &ready.document, &message) &&
            !trivet_frame_solve(trivet_document_frame(ready.document), &ready.result, &message) &&
            !trivet_checks_new(trivet_document_frame(ready.document), ready.result, NULL,
                               &ready.checks, &message),
        "the file cannot be read and solved");
}

static void free_ready(void)
{
    trivet_checks_free(ready.checks);
    trivet_result_free(ready.result);
    trivet_document_free(ready.document);
}

static trivet_status hold_against(attempt *try, const trivet_document *document,
                                  const trivet_result *result, const trivet_checks *checks)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < trivet_document_expectation_count(document); i++) {
        trivet_expectation expectation;
        attempt_needs(trivet_expectation_defaults(&expectation, sizeof expectation) == TRIVET_OK,
                      "an expectation cannot be made ready");
        ATTEMPT(try, status,
                trivet_document_expect(document, result, checks, i, &expectation, &try->message));
        if (status != TRIVET_OK) {
            break;
        }
    }
    return status;
}

/* Solves, checks, holds against the hand calculations: the number of checks, or 0. */
static uint64_t answer(attempt *try, const trivet_document *document)
{
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_result *result = NULL;
    trivet_checks *checks = NULL;
    trivet_limits limits;
    trivet_status status = TRIVET_OK;
    attempt_needs(trivet_limits_defaults(&limits, sizeof limits) == TRIVET_OK &&
                      trivet_document_limits(document, &limits) == TRIVET_OK,
                  "the limits cannot be read");
    ATTEMPT(try, status, trivet_frame_solve(frame, &result, &try->message));
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_checks_new(frame, result, &limits, &checks, &try->message));
    }
    if (status == TRIVET_OK) {
        status = hold_against(try, document, result, checks);
    }
    const uint64_t print = status == TRIVET_OK ? (uint64_t)trivet_checks_count(checks) : 0;
    trivet_checks_free(checks);
    trivet_result_free(result);
    return print;
}

static uint64_t read_and_answer(attempt *try)
{
    trivet_document *document = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_document_read_file(path, &document, &try->message));
    attempt_needs((status == TRIVET_OK) == (document != NULL), "half-made document");
    const uint64_t print = document ? answer(try, document) : 0;
    trivet_document_free(document);
    return print;
}

/* A text as a number, and the text freed. */
static uint64_t print_of(trivet_status status, char *text)
{
    attempt_needs((status == TRIVET_OK) == (text != NULL), "half-made text");
    const uint64_t print = text ? mix(14695981039346656037U, text) : 0;
    trivet_text_free(text);
    return print;
}

static uint64_t write_results(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status,
            trivet_document_results_json(ready.document, ready.result, ready.checks, &text,
                                         &try->message));
    return print_of(status, text);
}

static uint64_t write_understood(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_document_understood_json(ready.document, &text, &try->message));
    return print_of(status, text);
}

/* The cut list of a document and its JSON. */
static uint64_t cut(attempt *try, const trivet_document *document)
{
    trivet_shop shop = {.size = sizeof shop};
    trivet_cuts *cuts = NULL;
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    attempt_needs(trivet_document_shop(document, &shop) == TRIVET_OK, "no workshop");
    ATTEMPT(try, status,
            trivet_cuts_new(trivet_document_frame(document), &shop, &cuts, &try->message));
    attempt_needs((status == TRIVET_OK) == (cuts != NULL), "half-made cut list");
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_document_cuts_json(document, cuts, &text, &try->message));
    }
    trivet_cut_tables *tables = NULL;
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_cut_tables_new(cuts, NULL, &tables, &try->message));
        attempt_needs((status == TRIVET_OK) == (tables != NULL), "half-made tables");
        if (status != TRIVET_OK) {
            trivet_text_free(text);
            text = NULL;
        }
    }
    trivet_cut_tables_free(tables);
    trivet_cuts_free(cuts);
    return print_of(status, text);
}

static uint64_t write_cuts(attempt *try)
{
    return cut(try, ready.document);
}

static uint64_t write_stock(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_stock_json("E235", &text, &try->message));
    return print_of(status, text);
}

static uint64_t draw_frame(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status,
            trivet_drawing_svg(trivet_document_frame(ready.document), ready.result, ready.checks,
                               NULL, &text, &try->message));
    return print_of(status, text);
}

/* Also solves the frame with other mounts. */
static uint64_t write_report(attempt *try)
{
    char *text = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(
        try, status,
        trivet_report_html(ready.document, ready.result, ready.checks, NULL, &text, &try->message));
    return print_of(status, text);
}

/* A refusal needs memory for its JSON too. */
static uint64_t complaint(attempt *try)
{
    static const char text[] = "trivet: 1\nnmae: rack\n";
    trivet_document *document = NULL;
    trivet_message refusal = {0};
    char *json = NULL;
    trivet_status status = TRIVET_OK;
    do {
        status = trivet_document_read_text(text, sizeof text - 1, &document, &refusal);
        attempt_needs(!document && status != TRIVET_OK, "a wrong key was taken");
        try->message = refusal;
    } while (status == TRIVET_NO_MEMORY && attempt_again(try, status));
    if (status == TRIVET_NO_MEMORY) {
        return 0;
    }
    attempt_needs(status == TRIVET_BAD_KEY, "the wrong key is not what was refused");
    do {
        status = trivet_message_json(&refusal, &json);
        try->message.status = (int32_t)status;
    } while (status != TRIVET_OK && attempt_again(try, status));
    const uint64_t print = json ? mix(1, json) : 0;
    trivet_text_free(json);
    return print;
}

int main(int count, char **arguments)
{
    attempt_needs(count == 3, "usage: test_document_out_of_memory FILE FILE");
    path = arguments[1];
    short_path = arguments[2];
    attempt_every_request("read, solve, check", read_and_answer, 50);
    path = short_path;
    attempt_every_request("read, solve, check the short file", read_and_answer, 50);
    attempt_every_request("complaint", complaint, 5);
    heap_start(0);
    make_ready();
    attempt_every_request("results", write_results, 50);
    attempt_every_request("understood", write_understood, 50);
    attempt_every_request("cuts", write_cuts, 50);
    attempt_every_request("stock", write_stock, 5);
    attempt_every_request("drawing", draw_frame, 20);
    attempt_every_request("report", write_report, 100);
    free_ready();
    return 0;
}
