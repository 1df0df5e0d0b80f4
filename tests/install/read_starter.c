/*
 * A program of somebody else's that reads a file: the starter text, which holds. Compiles as C and
 * as C++.
 */
#include <trivet/document.h>

#include <stdio.h>
#include <string.h>

int main(void)
{
    trivet_document *document = NULL;
    trivet_result *result = NULL;
    trivet_checks *checks = NULL;
    trivet_message message;
    int32_t overall = TRIVET_NOT_CHECKED;
    char *json = NULL;
    memset(&message, 0, sizeof message);
    if (!trivet_document_read_text(trivet_starter_text(), strlen(trivet_starter_text()), &document,
                                   &message) &&
        !trivet_frame_solve(trivet_document_frame(document), &result, &message) &&
        !trivet_checks_new(trivet_document_frame(document), result, NULL, &checks, &message) &&
        !trivet_document_results_json(document, result, checks, &json, &message)) {
        overall = trivet_checks_overall(checks);
        printf("%s %s\n", trivet_document_name(document), trivet_verdict_text(overall));
    } else {
        printf("%s: %s\n", message.thing, message.problem);
    }
    trivet_text_free(json);
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_document_free(document);
    return overall == TRIVET_HOLDS || overall == TRIVET_TIGHT ? 0 : 1;
}
