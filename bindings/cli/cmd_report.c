/*
 * trivet report FILE -o X.html: the whole answer as one page.
 */
#include "command.h"
#include "print.h"
#include "solved.h"
#include "written.h"

#include <trivet/report.h>

#include <string.h>

static trivet_status report(const options *given, const solved *all, char **text_out,
                            trivet_message *message)
{
    trivet_report page;
    trivet_status status = trivet_report_defaults(&page, sizeof page);
    if (status == TRIVET_OK) {
        status = written_pick(given, all, &page.in_case, &page.tube, message);
    }
    if (status == TRIVET_OK) {
        const char *const slash = strrchr(given->operand, '/');
        page.file_name = slash ? slash + 1 : given->operand;
        status =
            trivet_report_html(all->document, all->result, all->checks, &page, text_out, message);
    }
    return status;
}

int cmd_report(const options *given)
{
    solved all;
    trivet_message message;
    char *text = NULL;
    int exit_status = written_needs_output(given, "report", "rack.html");
    if (exit_status != EXIT_HOLDS) {
        return exit_status;
    }
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    trivet_status status = solved_make(given->operand, &all, &message);
    if (status == TRIVET_OK) {
        status = report(given, &all, &text, &message);
    }
    exit_status =
        status == TRIVET_OK ? written_give(given, text) : solved_fail(given, status, &message);
    trivet_text_free(text);
    solved_free(&all);
    return exit_status;
}
