/*
 * Drawings: what is asked for is checked, chosen where it was left open, and put on a sheet.
 */
#include "report/drawing.h"

#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "report/picture.h"
#include "report/sheets.h"

#include <string.h>

/* Heights of the title and of the three views at most, mm; together a page of Letter. */
#define TITLE 11.0
#define VIEWS_MOST 124.0
#define GAP 4.0

trivet_status trivet_drawing_defaults(trivet_drawing *drawing, size_t size)
{
    const trivet_status status = trivet__defaults(drawing, size, sizeof *drawing);
    if (status == TRIVET_OK) {
        drawing->in_case = -1;
        drawing->tube = -1;
    }
    return status;
}

trivet_status trivet__drawing_check(const trivet_frame *frame, const trivet_result *result,
                                    const trivet_drawing *drawing, trivet_message *message)
{
    const trivet_status status =
        trivet__size_check(drawing->size, sizeof *drawing, "the drawing's settings",
                           "fill them with trivet_drawing_defaults", message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!trivet_result_moves(result, NULL, NULL)) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved",
                              "solve the frame first");
    }
    if (drawing->sheet < TRIVET_SHEET_WHOLE || drawing->sheet > TRIVET_SHEET_FORCES) {
        return trivet__refuse(message, TRIVET_BAD_VALUE, "sheet", "there is none of that number",
                              "take a trivet_sheet");
    }
    if (drawing->in_case < -1 || drawing->in_case >= trivet_result_case_count(result)) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "case", "there is none of that number",
                              "take a result column, or -1");
    }
    if (drawing->tube < -1 || drawing->tube >= trivet_frame_count(frame, TRIVET_KIND_TUBE)) {
        return trivet__refuse(message, TRIVET_BAD_INDEX, "tube", "there is none of that number",
                              "take a tube of the frame, or -1");
    }
    return TRIVET_OK;
}

/* The case of the check that uses a tube most; that of the worst droop if it belongs to none. */
static int32_t case_of_use(const trivet__sheet *sheet)
{
    trivet_check check = {.size = sizeof check};
    if (trivet_checks_at(sheet->checks, sheet->uses[sheet->tube].check, &check) == TRIVET_OK &&
        check.case_index >= 0) {
        return check.case_index;
    }
    return trivet__case_of_worst_droop(sheet->frame, sheet->result);
}

static void choose(trivet__sheet *sheet, const trivet_drawing *drawing)
{
    sheet->tube =
        drawing->tube >= 0 ? drawing->tube : trivet__tube_used_most(sheet->frame, sheet->uses);
    sheet->in_case = drawing->in_case;
    if (sheet->in_case < 0) {
        sheet->in_case = drawing->sheet == TRIVET_SHEET_FORCES
                             ? case_of_use(sheet)
                             : trivet__case_of_worst_droop(sheet->frame, sheet->result);
    }
    sheet->magnified = trivet__magnify(sheet->frame, sheet->result, sheet->in_case);
}

/* What the picture shows, in a line under its title. */
static void write_heading(const trivet__sheet *sheet, int32_t kind, char *text, size_t size)
{
    const char *const in_case = trivet_frame_column_name(sheet->frame, sheet->in_case);
    switch (kind) {
    case TRIVET_SHEET_FORCES:
        trivet__text_print(text, size, "Forces inside %s in \"%s\"",
                           trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, sheet->tube), in_case);
        break;
    case TRIVET_SHEET_VIEWS:
        trivet__text_print(text, size, "Three views with dimensions");
        break;
    case TRIVET_SHEET_PICTURE:
        trivet__text_print(text, size, "Use of each tube, and the shape under load in \"%s\"",
                           in_case);
        break;
    default:
        trivet__text_print(text, size,
                           "Use of each tube, the shape under load in \"%s\", and three views",
                           in_case);
        break;
    }
}

/* The same for those who cannot see it: what matters most in it. */
static void write_about(const trivet__sheet *sheet, int32_t kind, char *text, size_t size)
{
    char used[64] = "not checked";
    char amount[64];
    double droop = 0.0;
    const int32_t most = trivet__tube_used_most(sheet->frame, sheet->uses);
    if (sheet->uses[most].check >= 0) {
        trivet_used_text(sheet->uses[most].used, used, sizeof used);
    }
    trivet_droop_worst(sheet->frame, sheet->result, sheet->in_case, NULL, NULL, &droop);
    trivet_units_text(sheet->units, TRIVET_LENGTH, droop, 3, amount, sizeof amount);
    if (kind == TRIVET_SHEET_FORCES) {
        trivet__text_print(text, size,
                           "Curves of the six section forces along the tube, with the largest and "
                           "smallest of each as text.");
    } else {
        trivet__text_print(text, size,
                           "%d tubes through %d joints on %d mounts. The tube used most is %s: %s. "
                           "The worst droop in the case drawn is %s.",
                           (int)trivet_frame_count(sheet->frame, TRIVET_KIND_TUBE),
                           (int)trivet_frame_count(sheet->frame, TRIVET_KIND_JOINT),
                           (int)trivet_frame_count(sheet->frame, TRIVET_KIND_MOUNT),
                           trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, most), used, amount);
    }
}

static trivet_status draw_panels(trivet__sheet *sheet, int32_t kind,
                                 const trivet__views_layout *layout, double top)
{
    if (kind == TRIVET_SHEET_FORCES) {
        return trivet__forces_panel(sheet, top);
    }
    trivet_status status = TRIVET_OK;
    double next = top;
    if (kind != TRIVET_SHEET_VIEWS) {
        status = trivet__picture_panel(sheet, top);
        next += trivet__picture_height() + GAP;
    }
    if (kind != TRIVET_SHEET_PICTURE && status == TRIVET_OK) {
        status = trivet__views_panel(sheet, layout, next);
    }
    return status;
}

static double height_of(int32_t kind, double top, const trivet__views_layout *layout)
{
    switch (kind) {
    case TRIVET_SHEET_FORCES:
        return top + trivet__forces_height();
    case TRIVET_SHEET_PICTURE:
        return top + trivet__picture_height();
    case TRIVET_SHEET_VIEWS:
        return top + layout->height;
    default:
        return top + trivet__picture_height() + GAP + layout->height;
    }
}

trivet_status trivet__drawing_write(const trivet_frame *frame, const trivet_result *result,
                                    const trivet_checks *checks, const trivet_drawing *drawing,
                                    const char *mark, trivet__markup *to)
{
    trivet__sheet sheet;
    trivet__views_layout layout;
    char heading[512];
    char about[640];
    char cut[400];
    memset(&sheet, 0, sizeof sheet);
    sheet.out = to;
    sheet.frame = frame;
    sheet.result = result;
    sheet.checks = checks;
    sheet.units = drawing->units;
    sheet.title = drawing->title ? drawing->title : "";
    sheet.mark = mark;
    sheet.uses = trivet__uses_find(frame, checks);
    if (!sheet.uses) {
        return TRIVET_NO_MEMORY;
    }
    choose(&sheet, drawing);
    const double top = sheet.title[0] ? TITLE : TITLE - 5.0;
    trivet__views_plan(&sheet, VIEWS_MOST, &layout);
    sheet.height = height_of(drawing->sheet, top, &layout);
    write_heading(&sheet, drawing->sheet, heading, sizeof heading);
    write_about(&sheet, drawing->sheet, about, sizeof about);
    trivet__sheet_open(&sheet, heading, about);
    trivet__lettering_cut(cut, sizeof cut, heading, 96);
    trivet__sheet_text(&sheet, "heading", "start", 1.0, top - 1.6, TRIVET__LETTER, cut);
    const trivet_status status = draw_panels(&sheet, drawing->sheet, &layout, top);
    trivet__sheet_close(&sheet);
    trivet__labels_clear(&sheet.labels);
    trivet__give_back(sheet.uses);
    return to->is_broken ? TRIVET_NO_MEMORY : status;
}

trivet_status trivet_drawing_svg(const trivet_frame *frame, const trivet_result *result,
                                 const trivet_checks *checks, const trivet_drawing *drawing,
                                 char **text_out, trivet_message *message)
{
    trivet_drawing own;
    trivet__markup markup = {0};
    if (text_out) {
        *text_out = NULL;
    }
    if (!frame || !result || !checks || !text_out) {
        return trivet__missing(message, !frame    ? "frame"
                                        : !result ? "result"
                                        : !checks ? "checks"
                                                  : "text_out");
    }
    if (!drawing) {
        const trivet_status status = trivet_drawing_defaults(&own, sizeof own);
        if (status != TRIVET_OK) {
            return status;
        }
        drawing = &own;
    }
    trivet_status status = trivet__drawing_check(frame, result, drawing, message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = trivet__drawing_write(frame, result, checks, drawing, "d", &markup);
    char *const text = trivet__markup_take(&markup);
    if (status != TRIVET_OK || !text) {
        trivet__give_back(text);
        return trivet__no_memory(message);
    }
    *text_out = text;
    trivet_message_clear(message);
    return TRIVET_OK;
}
