/*
 * What the pages of show and check have in common.
 */
#include "pages.h"

#include "columns.h"
#include "print.h"

#include <trivet/stock.h>

#include <stdio.h>

enum { FIT_MAX = 400, CASE_MAX = 1024 };

trivet_status read_settings(const trivet_document *document, trivet_units *units_out,
                            trivet_limits *limits_out)
{
    trivet_status status = trivet_units_defaults(units_out, sizeof *units_out);
    if (status == TRIVET_OK) {
        status = trivet_document_units(document, units_out);
    }
    if (status == TRIVET_OK) {
        status = trivet_limits_defaults(limits_out, sizeof *limits_out);
    }
    return status == TRIVET_OK ? trivet_document_limits(document, limits_out) : status;
}

static void add_insert(columns *table, const trivet_frame *frame, const trivet_units *units,
                       int32_t tube, const trivet_insert *insert, const char *fit)
{
    columns_add(table, trivet_frame_name(frame, TRIVET_KIND_TUBE, tube));
    columns_add(table, trivet_frame_name(frame, TRIVET_KIND_JOINT, insert->joint));
    columns_add(table, trivet_frame_name(frame, TRIVET_KIND_STOCK, insert->stock));
    columns_add_value(table, units, TRIVET_LENGTH, insert->length, 4);
    columns_add(table, fit);
}

/* How an insert fits by its sizes alone; what a weld seam inside takes stands in the heading. */
static int fit_of(const trivet_frame *frame, const trivet_units *units, int32_t tube,
                  const trivet_insert *insert, char *text, size_t size)
{
    const trivet_profile *const outer =
        trivet_frame_profile(frame, trivet_frame_tube_stock(frame, tube));
    const trivet_profile *const inner = trivet_frame_profile(frame, insert->stock);
    trivet_message message;
    trivet_fit fit = {.size = sizeof fit};
    if (trivet_fit_solve(outer, inner, 0.0, &fit, &message) != TRIVET_OK) {
        snprintf(text, size, "not known: %s", message.problem);
        return 0;
    }
    trivet_fit_text(&fit, units, text, size);
    return fit.slides;
}

int print_inserts(const trivet_frame *frame, const trivet_units *units, int only_trouble)
{
    static const char *const HEADINGS[] = {"tube", "at", "insert", "length", "does it go in"};
    columns table;
    int shown = 0;
    columns_start(&table, 2, "tttnw", HEADINGS);
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        for (int32_t i = 0; i < trivet_frame_insert_count(frame, tube); i++) {
            trivet_insert insert = {.size = sizeof insert};
            char fit[FIT_MAX];
            if (trivet_frame_insert(frame, tube, i, &insert) == TRIVET_OK &&
                (!fit_of(frame, units, tube, &insert, fit, sizeof fit) || !only_trouble)) {
                add_insert(&table, frame, units, tube, &insert, fit);
                shown++;
            }
        }
    }
    if (shown == 0) {
        columns_drop(&table);
        return 0;
    }
    print_heading("Inserts, by their sizes (a weld seam inside the tube needs its height more)");
    return columns_print(&table);
}

int print_cases(const trivet_frame *frame, const trivet_units *units, const char *heading)
{
    static const char *const HEADINGS[] = {"case", "as understood"};
    const int32_t count = trivet_frame_count(frame, TRIVET_KIND_CASE) +
                          trivet_frame_count(frame, TRIVET_KIND_COMBINATION);
    columns table;
    columns_start(&table, 2, "tw", HEADINGS);
    for (int32_t c = 0; c < count; c++) {
        char text[CASE_MAX];
        trivet_case_text(frame, c, units, text, sizeof text);
        columns_add(&table, trivet_frame_column_name(frame, c));
        columns_add(&table, text);
    }
    print_heading(heading);
    return columns_print(&table);
}
