/*
 * What the pages of show and check have in common.
 */
#include "pages.h"

#include "columns.h"
#include "print.h"

#include <trivet/stock.h>

#include <stdio.h>
#include <string.h>

enum { FIT_MAX = 400, CASE_MAX = 1024, LIST_MAX = 1600 };

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

/* Whether an earlier thing was left out for the same reason: it was listed with that. */
static int is_listed(const trivet_checks *checks, int32_t index, const char *why)
{
    const char *other = NULL;
    for (int32_t i = 0; i < index; i++) {
        if (trivet_checks_omission(checks, i, NULL, &other) && strcmp(why, other) == 0) {
            return 1;
        }
    }
    return 0;
}

/* "mount FL, mount FR: no limits are given": all with the same reason in one line. */
void print_omissions(const trivet_checks *checks, const trivet_document *document,
                     const char *heading)
{
    const int32_t count = trivet_checks_omission_count(checks);
    print_heading(heading);
    for (int32_t i = 0; i < count; i++) {
        char list[LIST_MAX] = "";
        int more = 0;
        const char *why = "";
        trivet_checks_omission(checks, i, NULL, &why);
        if (is_listed(checks, i, why)) {
            continue;
        }
        for (int32_t k = i; k < count; k++) {
            const char *other = "";
            const char *const what = trivet_checks_omission(checks, k, NULL, &other);
            const int has_room = strlen(list) + TRIVET_NAME_MAX + 80 < sizeof list;
            if (strcmp(why, other) == 0 && has_room) {
                add_to_list(list, sizeof list, "%s", what);
            } else if (strcmp(why, other) == 0) {
                more++;
            }
        }
        if (more > 0) {
            add_to_list(list, sizeof list, "and %d more", more);
        }
        print_line(2, "%s: %s", list, why);
    }
    for (int32_t i = 0; trivet_document_unused(document, i); i++) {
        print_line(2, "%s: this version reads past that part of the file",
                   trivet_document_unused(document, i));
    }
}

void print_cautions(void)
{
    print_heading("Before you trust it");
    for (int32_t i = 0; trivet_caution(i); i++) {
        print_line(2, "%s", trivet_caution(i));
    }
}
