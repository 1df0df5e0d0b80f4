#include "trivet/report.h"

#include "base/defaults.h"
#include "base/message.h"

trivet_status trivet_report_defaults(trivet_report *report, size_t size)
{
    const trivet_status status = trivet__defaults(report, size, sizeof *report);
    if (status == TRIVET_OK) {
        report->in_case = -1;
        report->tube = -1;
    }
    return status;
}

trivet_status trivet_report_html(const trivet_document *document, const trivet_result *result,
                                 const trivet_checks *checks, const trivet_report *report,
                                 char **text_out, trivet_message *message)
{
    (void)document;
    (void)result;
    (void)checks;
    (void)report;
    (void)text_out;
    return trivet__no_memory(message);
}
