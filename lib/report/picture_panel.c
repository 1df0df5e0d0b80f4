/*
 * The picture: the frame from a corner, and under it how to read it.
 */
#include "report/picture.h"
#include "report/sheets.h"

#include "base/decimal.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { TEXT_MAX = 400 };

/* Height of the drawing and of the legend, mm; room for labels round the frame. */
#define AREA 92.0
#define LEGEND 22.0
#define MARGIN_X 26.0
#define MARGIN_Y 9.0

double trivet__picture_height(void)
{
    return AREA + LEGEND;
}

/* Places a view so that the frame fits into a box and stands in its middle. */
static void fit_view(const trivet__sheet *sheet, trivet__view *view, const trivet__box *area,
                     char *words, size_t size)
{
    trivet__box box = trivet__box_empty();
    view->scale = 1.0;
    trivet__hold_frame(sheet, view, 1, &box);
    const double wide = fmax(box.right - box.left, 1e-6);
    const double high = fmax(box.bottom - box.top, 1e-6);
    view->scale = trivet__scale_choose(
        fmin((area->right - area->left) / wide, (area->bottom - area->top) / high), words, size);
    view->x = 0.5 * (area->left + area->right - view->scale * (box.left + box.right));
    view->y = 0.5 * (area->top + area->bottom - view->scale * (box.top + box.bottom));
}

/* Three short arrows that say where forward, left and up lead. */
static void draw_directions(trivet__sheet *sheet, const trivet__view *view, double x, double y)
{
    static const double AXES[3][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    static const char *const WORDS[3] = {"forward", "left", "up"};
    trivet__view small = *view;
    small.x = x;
    small.y = y;
    small.scale = 9.0;
    trivet__write(sheet->out, "<g class='directions'>");
    for (int k = 0; k < 3; k++) {
        double tip[2];
        const double start[2] = {x, y};
        trivet__view_point(&small, AXES[k], tip);
        trivet__sheet_line(sheet, "curve", start, tip);
        const double dx = tip[0] - x;
        trivet__sheet_text(sheet, "note",
                           dx > 1.0    ? "start"
                           : dx < -1.0 ? "end"
                                       : "middle",
                           tip[0] + (dx > 1.0    ? 0.8
                                     : dx < -1.0 ? -0.8
                                                 : 0.0),
                           tip[1] + (k == 2 ? -0.9 : 0.9), TRIVET__LETTER_SMALL, WORDS[k]);
    }
    trivet__write(sheet->out, "</g>");
    const trivet__box taken = {x - 20.0, y - 11.5, x + 18.0, y + 6.0};
    trivet__labels_take(&sheet->labels, &taken);
}

static double draw_swatches(trivet__sheet *sheet, double y)
{
    static const char *const WORDS[TRIVET__USE_COUNT] = {
        "not checked", "used up to half", "used more", "TIGHT", "FAILS or MAY CRACK"};
    static const int ORDER[TRIVET__USE_COUNT] = {1, 2, 3, 4, 0};
    double x = 1.0;
    for (int i = 0; i < TRIVET__USE_COUNT; i++) {
        trivet__write(sheet->out,
                      "<rect class='face' fill='url(#%r-u%i)' x='%n' y='%n' width='8' "
                      "height='2.8'/>",
                      sheet->mark, ORDER[i], x, y - 2.3);
        trivet__sheet_text(sheet, "note", "start", x + 9.2, y, TRIVET__LETTER_SMALL,
                           WORDS[ORDER[i]]);
        x += 12.5 + trivet__lettering_width(WORDS[ORDER[i]], TRIVET__LETTER_SMALL);
    }
    return y + 4.0;
}

/* How the drooped shape is drawn, in words. */
static void write_droop(const trivet__sheet *sheet, char *text, size_t size)
{
    char factor[32];
    char amount[64];
    double droop = 0.0;
    trivet_droop_worst(sheet->frame, sheet->result, sheet->in_case, NULL, NULL, &droop);
    trivet_units_text(sheet->units, TRIVET_LENGTH, droop, 3, amount, sizeof amount);
    trivet__decimal_write(sheet->magnified, 6, factor, sizeof factor);
    trivet__text_print(text, size,
                       "Dashed: the shape under load in \"%s\", its movements drawn %s times as "
                       "large; its worst droop is %s.",
                       trivet_frame_column_name(sheet->frame, sheet->in_case), factor, amount);
}

static void draw_legend(trivet__sheet *sheet, double top, const char *scale)
{
    char text[TEXT_MAX];
    double y = draw_swatches(sheet, top + 3.0);
    const double width = TRIVET__SHEET_WIDTH - 2.0;
    write_droop(sheet, text, sizeof text);
    y = trivet__sheet_wrapped(sheet, 1.0, y, width, TRIVET__LETTER_SMALL, text);
    y = trivet__sheet_wrapped(
        sheet, 1.0, y, width, TRIVET__LETTER_SMALL,
        "Behind each tube's name: the most that any check of overload or cracking on it or its "
        "welds uses, in any case. Triangle: a mount that lets the tube turn; square: a clamped "
        "one; hollow: one that gives. Quartered disc: centre of cargo, dotted to the joints it "
        "rests on.");
    trivet__text_print(
        text, sizeof text,
        "Seen from behind, from %d degrees to the left of that and %d degrees above, in "
        "parallel projection, %s across the line of sight.%s",
        TRIVET__TURN, TRIVET__TILT, scale,
        sheet->left_out > 0 ? " Some names have no room here." : "");
    trivet__sheet_wrapped(sheet, 1.0, y, width, TRIVET__LETTER_SMALL, text);
}

trivet_status trivet__picture_panel(trivet__sheet *sheet, double top)
{
    trivet__view view;
    char scale[32];
    const trivet__box area = {MARGIN_X, top + MARGIN_Y, TRIVET__SHEET_WIDTH - MARGIN_X,
                              top + AREA - MARGIN_Y};
    trivet__view_look(&view, TRIVET__LOOK_CORNER);
    fit_view(sheet, &view, &area, scale, sizeof scale);
    trivet__labels_clear(&sheet->labels);
    sheet->labels.within = (trivet__box){0.5, top + 0.5, TRIVET__SHEET_WIDTH - 0.5, top + AREA};
    trivet__write(sheet->out,
                  "<g class='view' data-view='corner' data-scale='%n' data-factor='%n'>",
                  view.scale, sheet->magnified);
    const trivet_status status = trivet__draw_tubes(sheet, &view, 1);
    trivet__draw_droop(sheet, &view);
    trivet__draw_cargo(sheet, &view);
    trivet__draw_joints(sheet, &view);
    draw_directions(sheet, &view, 22.0, top + AREA - 7.0);
    trivet__draw_names(sheet, &view, TRIVET__SHOW_TUBE_NAMES);
    trivet__write(sheet->out, "</g>");
    draw_legend(sheet, top + AREA, scale);
    return sheet->labels.is_broken ? TRIVET_NO_MEMORY : status;
}
