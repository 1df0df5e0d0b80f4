/*
 * trivet show FILE: what was understood of it.
 */
#include "command.h"
#include "pages.h"
#include "print.h"
#include "show_page.h"

#include <trivet/trivet.h>

#include <stdio.h>
#include <string.h>

static int show_json(const options *given, const trivet_document *document)
{
    trivet_message message;
    char *json = NULL;
    trivet_message_clear(&message);
    const trivet_status status = trivet_document_understood_json(document, &json, &message);
    return print_json(given, given->operand, status, json, &message);
}

static int show_text(const options *given, const trivet_document *document)
{
    understood page;
    trivet_result *result = NULL;
    trivet_message message;
    memset(&page, 0, sizeof page);
    trivet_message_clear(&message);
    page.document = document;
    page.frame = trivet_document_frame(document);
    if (read_settings(document, &page.units, &page.limits) != TRIVET_OK) {
        return fail_status(given, given->operand, TRIVET_INTERNAL);
    }
    /* The spans stand in a solved result; a frame that cannot be solved is shown without them. */
    const trivet_status status = trivet_frame_solve(page.frame, &result, &message);
    page.result = result;
    const int failed = show_page(&page);
    if (status != TRIVET_OK) {
        char text[1024];
        trivet_message_text(&message, text, sizeof text);
        print_heading("It cannot be worked out as it stands");
        print_line(2, "%s", text);
    }
    trivet_result_free(result);
    return failed ? fail_status(given, given->operand, TRIVET_NO_MEMORY) : EXIT_HOLDS;
}

int cmd_show(const options *given)
{
    trivet_document *document = NULL;
    trivet_message message;
    trivet_message_clear(&message);
    if (trivet_document_read_file(given->operand, &document, &message) != TRIVET_OK) {
        return fail(given, given->operand, &message);
    }
    const int status = given->is_json ? show_json(given, document) : show_text(given, document);
    trivet_document_free(document);
    return status;
}
