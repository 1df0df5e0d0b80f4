/*
 * Plates of decks: outline to scale, holes and slots with their places.
 */
#include "report/page.h"

#include "base/text.h"
#include "report/projection.h"
#include "report/sheet.h"

#include <math.h>

enum { ARC_STEPS = 24 };

#define HIGH_MOST 90.0
#define EDGE 1.0

/* A point of the side from one corner to the next, whose bulge is that of its first. */
static void side_point(const double *one, const double *next, double share, double out[3])
{
    const double dx = next[0] - one[0];
    const double dy = next[1] - one[1];
    const double bulge = one[2];
    out[0] = one[0] + share * dx;
    out[1] = one[1] + share * dy;
    out[2] = 0.0;
    if (bulge != 0.0) {
        /* Arc of angle 4 atan(bulge); its centre lies beside the middle of the chord. */
        const double beside = (1.0 - bulge * bulge) / (4.0 * bulge);
        const double centre[2] = {0.5 * (one[0] + next[0]) - beside * dy,
                                  0.5 * (one[1] + next[1]) + beside * dx};
        const double turn = 4.0 * atan(bulge) * share;
        const double rx = one[0] - centre[0];
        const double ry = one[1] - centre[1];
        out[0] = centre[0] + rx * cos(turn) - ry * sin(turn);
        out[1] = centre[1] + rx * sin(turn) + ry * cos(turn);
    }
}

/* Grows a box by the outline, as the view has it. */
static void hold_outline(const trivet__view *view, const double *outline, int32_t count,
                         trivet__box *box)
{
    for (int32_t i = 0; i < count; i++) {
        for (int k = 0; k < ARC_STEPS; k++) {
            double point[3];
            double paper[2];
            side_point(outline + 3 * (size_t)i, outline + 3 * (size_t)((i + 1) % count),
                       (double)k / ARC_STEPS, point);
            trivet__view_point(view, point, paper);
            trivet__box_hold(box, paper[0], paper[1]);
        }
    }
}

static void draw_outline(trivet__page *page, const trivet__view *view, const double *outline,
                         int32_t count)
{
    trivet__write(page->out, "<polygon class='piece' points='");
    for (int32_t i = 0; i < count; i++) {
        const double *const one = outline + 3 * (size_t)i;
        const int steps = one[2] != 0.0 ? ARC_STEPS : 1;
        for (int k = 0; k < steps; k++) {
            double point[3];
            double paper[2];
            side_point(one, outline + 3 * (size_t)((i + 1) % count), (double)k / steps, point);
            trivet__view_point(view, point, paper);
            trivet__write(page->out, "%n,%n ", paper[0], paper[1]);
        }
    }
    trivet__write(page->out, "'/>");
}

/* Numbers stand on the side of the hole that looks at the middle of the plate. */
static void draw_holes(trivet__page *page, const trivet__view *view, double middle,
                       const trivet_cutting *cutting)
{
    int32_t count = 0;
    const double *const holes = trivet_cutting_holes(cutting, &count);
    for (int32_t i = 0; i < count; i++) {
        const double *const hole = holes + 3 * (size_t)i;
        const double point[3] = {hole[0], hole[1], 0.0};
        double paper[2];
        trivet__view_point(view, point, paper);
        const double radius = fmax(0.5 * view->scale * hole[2], 0.3);
        const int is_right = paper[0] > middle;
        trivet__write(
            page->out,
            "<circle cx='%n' cy='%n' r='%n'/><text x='%n' y='%n' text-anchor='%r'>%i</text>",
            paper[0], paper[1], radius, paper[0] + (is_right ? -1.0 : 1.0) * (radius + 0.7),
            paper[1] + 0.9, is_right ? "end" : "start", (int)i + 1);
    }
    const trivet_slot *const slots = trivet_cutting_slots(cutting, &count);
    for (int32_t i = 0; i < count; i++) {
        const double from[3] = {slots[i].from[0], slots[i].from[1], 0.0};
        const double to[3] = {slots[i].to[0], slots[i].to[1], 0.0};
        double start[2];
        double end[2];
        trivet__view_point(view, from, start);
        trivet__view_point(view, to, end);
        trivet__write(page->out, "<path class='slot' style='stroke-width:%npx' d='M%n %nL%n %n'/>",
                      fmax(view->scale * slots[i].width, 0.5), start[0], start[1], end[0], end[1]);
    }
}

/* From above, its scale as large as the page lets it be. */
static void draw_plate(trivet__page *page, const trivet_cutting *cutting, const char *name)
{
    trivet__view view;
    trivet__box box = trivet__box_empty();
    char scale[32];
    char along[64];
    char across[64];
    int32_t count = 0;
    const double *const outline = trivet_cutting_outline(cutting, &count);
    trivet__view_look(&view, TRIVET__LOOK_ABOVE);
    view.scale = 1.0;
    hold_outline(&view, outline, count, &box);
    const double wide = fmax(box.right - box.left, 1e-6);
    const double high = fmax(box.bottom - box.top, 1e-6);
    view.scale = trivet__scale_choose(
        fmin((TRIVET__SHEET_WIDTH - 2.0 * EDGE) / wide, HIGH_MOST / high), scale, sizeof scale);
    view.x = EDGE - view.scale * box.left;
    view.y = EDGE - view.scale * box.top;
    trivet__write(page->out,
                  "<figure><svg xmlns='http://www.w3.org/2000/svg' role='img' class='bar' "
                  "viewBox='0 0 %n %n' aria-label='Plate of %b'>",
                  TRIVET__SHEET_WIDTH, view.scale * high + 2.0 * EDGE, name);
    draw_outline(page, &view, outline, count);
    draw_holes(page, &view, EDGE + 0.5 * view.scale * wide, cutting);
    trivet__value_text(page, TRIVET_LENGTH, wide, along, sizeof along);
    trivet__value_text(page, TRIVET_LENGTH, high, across, sizeof across);
    trivet__write(page->out,
                  "</svg><figcaption><bdi>%e</bdi> from above, %r: forward is to the left of the "
                  "page, the left side below. It is %e long (x) and %e wide (y) in all. Holes have "
                  "their numbers.</figcaption></figure>",
                  name, scale, along, across);
}

static void write_plate_rows(trivet__page *page, const trivet_cutting *cutting)
{
    static const char *const HEADINGS[] = {"no", "what", "x forward", "y left", "wide"};
    int32_t count = 0;
    char number[32];
    const double *const holes = trivet_cutting_holes(cutting, &count);
    trivet__table_open(page, "", "ntnnn", HEADINGS);
    for (int32_t i = 0; i < count; i++) {
        trivet__text_print(number, sizeof number, "%d", (int)i + 1);
        trivet__cell(page, number);
        trivet__cell(page, "hole");
        for (int k = 0; k < 3; k++) {
            trivet__cell_value(page, TRIVET_LENGTH, holes[3 * (size_t)i + (size_t)k]);
        }
    }
    const trivet_slot *const slots = trivet_cutting_slots(cutting, &count);
    for (int32_t i = 0; i < count; i++) {
        for (int end = 0; end < 2; end++) {
            const double *const at = end == 0 ? slots[i].from : slots[i].to;
            trivet__text_print(number, sizeof number, "%d", (int)i + 1);
            trivet__cell(page, number);
            trivet__cell(page, end == 0 ? "slot, middle of its first round end"
                                        : "slot, middle of its last round end");
            trivet__cell_value(page, TRIVET_LENGTH, at[0]);
            trivet__cell_value(page, TRIVET_LENGTH, at[1]);
            trivet__cell_value(page, TRIVET_LENGTH, slots[i].width);
        }
    }
    trivet__table_close(page);
}

trivet_status trivet__page_plates(trivet__page *page)
{
    const int32_t count = trivet_frame_count(page->frame, TRIVET_KIND_DECK);
    if (count == 0) {
        return TRIVET_OK;
    }
    trivet__section_open(page, "plates", "Plates to cut");
    trivet__write(page->out, "<p>Places are those of the frame's own axes, to the middle of each "
                             "hole. \"trivet export FILE -o plates.dxf\" draws the plates in real "
                             "size for a cutting table. Whether the web between slots is strong "
                             "enough was not checked.</p>");
    for (int32_t i = 0; i < count; i++) {
        const char *const name = trivet_frame_name(page->frame, TRIVET_KIND_DECK, i);
        trivet_cutting *cutting = NULL;
        trivet_message message;
        trivet_message_clear(&message);
        trivet__write(page->out, "<h3><bdi>%e</bdi></h3>", name);
        const trivet_status status = trivet_cutting_new(page->frame, i, &cutting, &message);
        if (status == TRIVET_NO_MEMORY) {
            return status;
        }
        if (status == TRIVET_OK) {
            draw_plate(page, cutting, name);
            write_plate_rows(page, cutting);
        } else {
            char text[TRIVET__PAGE_TEXT];
            trivet_message_text(&message, text, sizeof text);
            trivet__write(page->out, "<p>Not drawn: %h</p>", text);
        }
        trivet_cutting_free(cutting);
    }
    trivet__section_close(page);
    return TRIVET_OK;
}
