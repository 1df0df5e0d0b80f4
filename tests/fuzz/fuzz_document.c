/*
 * Any bytes are read as a file; what is accepted is shown, solved, checked, cut and written.
 */
#include "trivet/document.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

/* Frames beyond this are left unsolved: the fuzzer should spend its time on reading. */
enum { MOST_JOINTS = 40, MOST_CASES = 40 };

static void solve(const trivet_document *document)
{
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_limits limits;
    trivet_result *result = NULL;
    trivet_checks *checks = NULL;
    trivet_message message;
    char *text = NULL;
    if (trivet_limits_defaults(&limits, sizeof limits) == TRIVET_OK &&
        trivet_document_limits(document, &limits) == TRIVET_OK &&
        trivet_frame_solve(frame, &result, &message) == TRIVET_OK &&
        trivet_checks_new(frame, result, &limits, &checks, &message) == TRIVET_OK) {
        (void)trivet_document_results_json(document, result, checks, &text, &message);
    }
    trivet_text_free(text);
    trivet_checks_free(checks);
    trivet_result_free(result);
}

static void cut(const trivet_document *document)
{
    trivet_shop shop = {.size = sizeof shop};
    trivet_cuts *cuts = NULL;
    char *text = NULL;
    if (trivet_document_shop(document, &shop) == TRIVET_OK) {
        shop.most_steps = 1000;
        if (trivet_cuts_new(trivet_document_frame(document), &shop, &cuts, NULL) == TRIVET_OK) {
            (void)trivet_document_cuts_json(document, cuts, &text, NULL);
        }
    }
    trivet_text_free(text);
    trivet_cuts_free(cuts);
}

static void show(const trivet_document *document)
{
    char *text = NULL;
    const trivet_frame *const frame = trivet_document_frame(document);
    if (trivet_document_understood_json(document, &text, NULL) != TRIVET_OK) {
        abort(); /* what was read can be shown */
    }
    trivet_text_free(text);
    if (trivet_frame_count(frame, TRIVET_KIND_JOINT) <= MOST_JOINTS &&
        trivet_frame_count(frame, TRIVET_KIND_CASE) <= MOST_CASES) {
        solve(document);
        cut(document);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    char line[1024];
    trivet_message message;
    trivet_document *document = NULL;
    const trivet_status status =
        trivet_document_read_text((const char *)bytes, length, &document, &message);
    const size_t needed = trivet_message_text(&message, line, sizeof line);
    /* accepted without a complaint, or refused with one */
    if ((status == TRIVET_OK) != (document != NULL) || (status == TRIVET_OK) != (needed == 0) ||
        status == TRIVET_INTERNAL) {
        abort();
    }
    if (document) {
        show(document);
    }
    trivet_document_free(document);
    return 0;
}
