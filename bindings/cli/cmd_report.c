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
    return written_run(given, "report", "rack.html", report);
}
