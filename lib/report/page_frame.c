/*
 * Pictures with the tables that say the same in words, weight, inserts, cases.
 */
#include "report/page.h"

#include "base/memory.h"
#include "base/text.h"
#include "report/drawing.h"
#include "report/sheet.h"

#include <string.h>

/* Pictures of other cases than the first: so many at most, and none once all are so large. */
enum { CASES_MOST = 24, CASES_BYTES = 300000 };

/* A drawing in what stands open already. */
static trivet_status draw_open(trivet__page *page, int32_t sheet, int32_t in_case, const char *mark)
{
    trivet_drawing drawing;
    trivet_status status = trivet_drawing_defaults(&drawing, sizeof drawing);
    if (status == TRIVET_OK) {
        drawing.sheet = sheet;
        drawing.in_case = in_case;
        drawing.tube = page->tube;
        drawing.units = &page->units;
        status = trivet__drawing_write(page->frame, page->result, page->checks, &drawing, mark,
                                       page->out);
    }
    return status;
}

static trivet_status draw(trivet__page *page, int32_t sheet, const char *mark)
{
    trivet__write(page->out, "<figure>");
    const trivet_status status = draw_open(page, sheet, page->in_case, mark);
    trivet__write(page->out, "</figure>");
    return status;
}

/* The picture of one case; the script lets the reader change to those that are hidden. */
static trivet_status draw_case(trivet__page *page, int32_t in_case, const char *hidden)
{
    char mark[16];
    trivet__text_print(mark, sizeof mark, "p%d", (int)in_case);
    trivet__write(page->out, "<figure class='case'%r data-case='%e'>", hidden,
                  trivet_frame_column_name(page->frame, in_case));
    const trivet_status status = draw_open(page, TRIVET_SHEET_PICTURE, in_case, mark);
    trivet__page_moved(page, in_case);
    trivet__write(page->out, "</figure>");
    return status;
}

/* The case that governs the picture, then the others as far as the page stays small. */
static trivet_status draw_cases(trivet__page *page)
{
    const int32_t count = trivet_frame_count(page->frame, TRIVET_KIND_CASE);
    const int32_t shown =
        page->in_case >= 0 ? page->in_case : trivet__case_of_worst_droop(page->frame, page->result);
    const size_t start = page->out->length;
    int drawn = 0;
    trivet_status status = draw_case(page, shown, "");
    for (int32_t c = 0; c < count && drawn < CASES_MOST && status == TRIVET_OK; c++) {
        if (c != shown && page->out->length - start < CASES_BYTES) {
            status = draw_case(page, c, " hidden");
            drawn++;
        }
    }
    return status;
}

static void write_tube_row(trivet__page *page, int32_t tube, const trivet__use *use)
{
    char text[TRIVET__PAGE_TEXT] = "not checked";
    trivet_check check = {.size = sizeof check};
    const int is_known = trivet_checks_at(page->checks, use->check, &check) == TRIVET_OK;
    trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_TUBE, tube));
    if (is_known) {
        trivet_used_text(use->used, text, sizeof text);
    }
    trivet__cell(page, text);
    text[0] = '\0';
    if (is_known) {
        trivet__text_print(text, sizeof text, "%s, in %s", check.check, check.in_case);
    }
    trivet__cell(page, text);
    trivet__cell_value(page, TRIVET_LENGTH, trivet_frame_tube_length(page->frame, tube));
    trivet__cell_value(page, TRIVET_MASS, trivet_frame_tube_mass(page->frame, tube));
    trivet_profile_text(
        trivet_frame_profile(page->frame, trivet_frame_tube_stock(page->frame, tube)), &page->units,
        text, sizeof text);
    const trivet_material *const material =
        trivet_frame_material(page->frame, trivet_frame_tube_stock(page->frame, tube));
    if (material && material->name[0]) {
        const size_t used = strlen(text);
        trivet__text_print(text + used, sizeof text - used, ", %s", material->name);
    }
    trivet__cell(page, text);
}

trivet_status trivet__page_picture(trivet__page *page)
{
    static const char *const HEADINGS[] = {"tube", "used", "by what", "length", "mass", "stock"};
    trivet__use *const uses = trivet__uses_find(page->frame, page->checks);
    if (!uses) {
        return TRIVET_NO_MEMORY;
    }
    trivet__section_open(page, "picture", "The frame under load");
    const trivet_status status = draw_cases(page);
    trivet__page_turning(page, uses);
    trivet__table_open(page, "Each tube, and the check of overload or cracking that uses it most",
                       "onsnns", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(page->frame, TRIVET_KIND_TUBE); i++) {
        write_tube_row(page, i, &uses[i]);
    }
    trivet__table_close(page);
    trivet__section_close(page);
    trivet__give_back(uses);
    return status;
}

trivet_status trivet__page_views(trivet__page *page)
{
    static const char *const HEADINGS[] = {"joint", "x forward", "y left", "z up"};
    trivet__section_open(page, "views", "Views and dimensions");
    const trivet_status status = draw(page, TRIVET_SHEET_VIEWS, "v");
    trivet__write(page->out, "<details><summary>Where each joint is</summary>");
    trivet__table_open(page, "", "onnn", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(page->frame, TRIVET_KIND_JOINT); i++) {
        const double *const at = trivet_frame_position(page->frame, i);
        trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_JOINT, i));
        for (int k = 0; k < 3; k++) {
            char text[64];
            trivet_units_text(&page->units, TRIVET_LENGTH, at[k], 4, text, sizeof text);
            trivet__cell(page, text);
        }
    }
    trivet__table_close(page);
    trivet__write(page->out, "</details>");
    trivet__section_close(page);
    return status;
}

trivet_status trivet__page_forces(trivet__page *page)
{
    trivet__section_open(page, "forces", "Forces inside a tube");
    const trivet_status status = draw(page, TRIVET_SHEET_FORCES, "f");
    trivet__section_close(page);
    return status;
}

void trivet__page_weight(trivet__page *page)
{
    static const char *const HEADINGS[] = {"", "mass", "of which"};
    trivet__section_open(page, "weight", "Weight");
    trivet__table_open(page, "", "ons", HEADINGS);
    trivet__cell(page, "frame");
    trivet__cell_value(page, TRIVET_MASS, trivet_frame_mass(page->frame));
    trivet__cell(page, "all tubes and inserts");
    for (int32_t i = 0; i < trivet_frame_count(page->frame, TRIVET_KIND_CARGO); i++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        char items[TRIVET__PAGE_TEXT] = "";
        if (trivet_frame_cargo(page->frame, i, &cargo) != TRIVET_OK) {
            continue;
        }
        trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_CARGO, i));
        trivet__cell_value(page, TRIVET_MASS, cargo.mass);
        for (int32_t k = 0; k < cargo.item_count && cargo.item_count > 1; k++) {
            char amount[64];
            double mass = 0.0;
            const char *const name = trivet_frame_item(page->frame, i, k, &mass);
            const size_t used = strlen(items);
            trivet__value_text(page, TRIVET_MASS, mass, amount, sizeof amount);
            trivet__text_print(items + used, sizeof items - used, "%s%s %s", used ? ", " : "", name,
                               amount);
        }
        trivet__cell(page, items);
    }
    trivet__table_close(page);
    trivet__section_close(page);
}

/* Whether an insert slides in by its sizes, in words. */
static void write_fit(const trivet__page *page, int32_t tube, const trivet_insert *insert,
                      char *text, size_t size)
{
    trivet_message message;
    trivet_fit fit = {.size = sizeof fit};
    const trivet_profile *const outer =
        trivet_frame_profile(page->frame, trivet_frame_tube_stock(page->frame, tube));
    if (trivet_fit_solve(outer, trivet_frame_profile(page->frame, insert->stock), 0.0, &fit,
                         &message) != TRIVET_OK) {
        trivet__text_print(text, size, "not known: %s", message.problem);
    } else {
        trivet_fit_text(&fit, &page->units, text, size);
    }
}

void trivet__page_inserts(trivet__page *page)
{
    static const char *const HEADINGS[] = {"tube", "at", "insert", "length", "does it go in"};
    int count = 0;
    for (int32_t tube = 0; tube < trivet_frame_count(page->frame, TRIVET_KIND_TUBE); tube++) {
        for (int32_t i = 0; i < trivet_frame_insert_count(page->frame, tube); i++) {
            trivet_insert insert = {.size = sizeof insert};
            char text[400];
            if (trivet_frame_insert(page->frame, tube, i, &insert) != TRIVET_OK) {
                continue;
            }
            if (count++ == 0) {
                trivet__section_open(page, "inserts", "Inserts");
                trivet__write(page->out, "<p>By their sizes alone: a weld seam inside the tube "
                                         "needs its height more.</p>");
                trivet__table_open(page, "", "ooons", HEADINGS);
            }
            write_fit(page, tube, &insert, text, sizeof text);
            trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_TUBE, tube));
            trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_JOINT, insert.joint));
            trivet__cell(page, trivet_frame_name(page->frame, TRIVET_KIND_STOCK, insert.stock));
            trivet__cell_value(page, TRIVET_LENGTH, insert.length);
            trivet__cell(page, text);
        }
    }
    if (count > 0) {
        trivet__table_close(page);
        trivet__section_close(page);
    }
}

void trivet__page_cases(trivet__page *page)
{
    static const char *const HEADINGS[] = {"case", "as understood"};
    trivet__section_open(page, "cases", "Cases");
    trivet__table_open(page, "", "os", HEADINGS);
    for (int32_t c = 0; c < trivet_result_case_count(page->result); c++) {
        char text[TRIVET__PAGE_TEXT];
        trivet_case_text(page->frame, c, &page->units, text, sizeof text);
        trivet__cell(page, trivet_frame_column_name(page->frame, c));
        trivet__cell(page, text);
    }
    trivet__table_close(page);
    trivet__section_close(page);
}
