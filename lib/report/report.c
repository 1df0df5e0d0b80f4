/*
 * The report page: its head, and its sections in order.
 */
#include "report/page.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "report/drawing.h"

#include <string.h>

trivet_status trivet_report_defaults(trivet_report *report, size_t size)
{
    const trivet_status status = trivet__defaults(report, size, sizeof *report);
    if (status == TRIVET_OK) {
        report->in_case = -1;
        report->tube = -1;
    }
    return status;
}

/* Where to find what; the print leaves it out. */
static void write_contents(trivet__page *page)
{
    static const char *const PLACES[][2] = {{"verdict", "Does it hold?"},
                                            {"picture", "The frame under load"},
                                            {"views", "Views and dimensions"},
                                            {"droop", "Droop"},
                                            {"mounts", "Mounts"},
                                            {"forces", "Forces inside a tube"},
                                            {"checks", "Checks and working"},
                                            {"weight", "Weight"},
                                            {NULL, NULL}, /* the workshop */
                                            {"not-checked", "What was not checked"},
                                            {"cautions", "Before you trust it"},
                                            {"file", "The file, to do it again"}};
    trivet__write(page->out, "<nav aria-label='Contents'><ul>");
    for (size_t i = 0; i < sizeof PLACES / sizeof PLACES[0]; i++) {
        if (PLACES[i][0]) {
            trivet__write(page->out, "<li><a href='#%r'>%r</a></li>", PLACES[i][0], PLACES[i][1]);
        } else {
            trivet__page_shop_contents(page);
        }
    }
    trivet__write(page->out, "</ul></nav>");
}

static void write_head(trivet__page *page)
{
    trivet__write(page->out,
                  "<!DOCTYPE html>\n<html lang='en'><head><meta charset='utf-8'>"
                  "<meta name='viewport' content='width=device-width,initial-scale=1'>"
                  "<meta name='generator' content='trivet %e'>"
                  "<link rel='icon' href='data:,'><title>%b: report</title><style>%r</style></head>"
                  "<body><main><h1><bdi>%e</bdi></h1>",
                  trivet_version(), page->name, trivet__page_style(), page->name);
    trivet__write(page->out, "<p class='quiet'>Report");
    if (page->file_name[0]) {
        trivet__write(page->out, " of <bdi>%e</bdi>", page->file_name);
    }
    trivet__write(page->out, ", worked out by trivet %e. x is forward, y left, z up.</p>",
                  trivet_version());
    write_contents(page);
}

static trivet_status write_sections(trivet__page *page)
{
    trivet_status status = TRIVET_OK;
    trivet__page_verdict(page);
    status = trivet__page_picture(page);
    if (status == TRIVET_OK) {
        trivet__page_stories(page);
        status = trivet__page_views(page);
    }
    if (status == TRIVET_OK) {
        status = trivet__page_droop(page);
    }
    if (status == TRIVET_OK) {
        trivet__page_mounts(page);
        status = trivet__page_losses(page);
    }
    if (status == TRIVET_OK) {
        trivet__page_vehicle(page);
        status = trivet__page_forces(page);
    }
    if (status == TRIVET_OK) {
        trivet__page_checks(page);
        trivet__page_torques(page);
        status = trivet__page_expectations(page);
    }
    if (status == TRIVET_OK) {
        trivet__page_inserts(page);
        trivet__page_weight(page);
        status = trivet__page_shop(page);
    }
    if (status == TRIVET_OK) {
        status = trivet__page_plates(page);
    }
    if (status == TRIVET_OK) {
        trivet__page_cases(page);
        trivet__page_quality(page);
        trivet__page_omissions(page);
        trivet__page_cautions(page);
        trivet__page_file(page);
    }
    return status;
}

static trivet_status write_page(trivet__page *page)
{
    const char *const name = trivet_document_name(page->document);
    trivet_status status = trivet_units_defaults(&page->units, sizeof page->units);
    page->name = name[0] ? name : page->file_name[0] ? page->file_name : "A frame";
    if (status == TRIVET_OK) {
        status = trivet_document_units(page->document, &page->units);
    }
    if (status == TRIVET_OK) {
        status = trivet_limits_defaults(&page->limits, sizeof page->limits);
    }
    if (status == TRIVET_OK) {
        status = trivet_document_limits(page->document, &page->limits);
    }
    if (status == TRIVET_OK) {
        status = trivet__page_shop_open(page);
    }
    if (status == TRIVET_OK) {
        write_head(page);
        status = write_sections(page);
        trivet__write(page->out, "</main><script>");
        for (int i = 0; trivet__page_script(i); i++) {
            trivet__write(page->out, "%r", trivet__page_script(i));
        }
        trivet__write(page->out, "</script></body></html>\n");
    }
    return page->out->is_broken ? TRIVET_NO_MEMORY : status;
}

/* The settings of the pictures are what a drawing would check. */
static trivet_status check_settings(const trivet_frame *frame, const trivet_result *result,
                                    const trivet_report *report, trivet_message *message)
{
    trivet_drawing drawing;
    trivet_status status = trivet__size_check(report->size, sizeof *report, "the report's settings",
                                              "fill them with trivet_report_defaults", message);
    if (status == TRIVET_OK) {
        status = trivet_drawing_defaults(&drawing, sizeof drawing);
    }
    if (status == TRIVET_OK) {
        drawing.in_case = report->in_case;
        drawing.tube = report->tube;
        status = trivet__drawing_check(frame, result, &drawing, message);
    }
    return status;
}

trivet_status trivet_report_html(const trivet_document *document, const trivet_result *result,
                                 const trivet_checks *checks, const trivet_report *report,
                                 char **text_out, trivet_message *message)
{
    trivet_report own = {.size = sizeof own, .in_case = -1, .tube = -1};
    trivet__markup markup = {0};
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !result || !checks || !text_out) {
        return trivet__missing(message, !document ? "document"
                                        : !result ? "result"
                                        : !checks ? "checks"
                                                  : "text_out");
    }
    const trivet_report *const settings = report ? report : &own;
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_status status = check_settings(frame, result, settings, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__page page = {.out = &markup,
                         .document = document,
                         .frame = frame,
                         .result = result,
                         .checks = checks,
                         .file_name = settings->file_name ? settings->file_name : "",
                         .in_case = settings->in_case,
                         .tube = settings->tube};
    status = write_page(&page);
    trivet__page_shop_close(&page);
    char *const text = trivet__markup_take(&markup);
    if (status != TRIVET_OK || !text) {
        trivet__give_back(text);
        return trivet__no_memory(message);
    }
    *text_out = text;
    trivet_message_clear(message);
    return TRIVET_OK;
}
