/*
 * Three views in third-angle arrangement: from above on top, from the left side below it, from
 * behind beside that. Lengths in one view stand right over or beside the same lengths in the next.
 */
#include "report/picture.h"
#include "report/sheets.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { CHAIN_MOST = 24, TEXT_MAX = 400 };

/* Paper round the views, mm: beside them for upright dimensions and names, between them, above each
 * for its title, below for dimensions. */
#define LEFT 22.0
#define BETWEEN 24.0
#define RIGHT 18.0
#define ABOVE 12.0
#define BELOW 15.0
#define BELOW_UPPER 9.0 /* no dimensions stand there */
/* A title needs at least this much, mm. */
#define COLUMN_LEAST 36.0
/* Distance of dimension lines from the view and from each other, mm. */
#define OFF 6.5
#define STEP 5.0

/* The frame's box in a view at scale 1, m; y as on paper. */
static trivet__box box_of(const trivet__sheet *sheet, trivet__look look, int with_droop)
{
    trivet__view view;
    trivet__box box = trivet__box_empty();
    trivet__view_look(&view, look);
    view.scale = 1.0;
    trivet__hold_frame(sheet, &view, with_droop, &box);
    return box;
}

void trivet__views_plan(const trivet__sheet *sheet, double most, trivet__views_layout *layout)
{
    const trivet__box side = box_of(sheet, TRIVET__LOOK_LEFT, 1);
    const trivet__box behind = box_of(sheet, TRIVET__LOOK_BEHIND, 1);
    const trivet__box above = box_of(sheet, TRIVET__LOOK_ABOVE, 0);
    const double x = fmax(side.right, above.right) - fmin(side.left, above.left);
    const double y = behind.right - behind.left;
    const double upper = above.bottom - above.top;
    const double lower = fmax(side.bottom, behind.bottom) - fmin(side.top, behind.top);
    const double width = TRIVET__SHEET_WIDTH - LEFT - BETWEEN - RIGHT;
    const double height = most - 2.0 * ABOVE - BELOW - BELOW_UPPER;
    double wish = fmin(width / fmax(x + y, 1e-6), height / fmax(upper + lower, 1e-6));
    wish = fmin(
        wish, fmin((width - COLUMN_LEAST) / fmax(x, 1e-6), (width - COLUMN_LEAST) / fmax(y, 1e-6)));
    /* Where a column is kept wider than its view, the other has less. */
    layout->scale = trivet__scale_choose(wish, layout->words, sizeof layout->words);
    while (fmax(x * layout->scale, COLUMN_LEAST) + fmax(y * layout->scale, COLUMN_LEAST) >
           width + 1e-9) {
        layout->scale =
            trivet__scale_choose(0.99 * layout->scale, layout->words, sizeof layout->words);
    }
    layout->columns[0] = fmax(x * layout->scale, COLUMN_LEAST);
    layout->columns[1] = fmax(y * layout->scale, COLUMN_LEAST);
    layout->rows[0] = upper * layout->scale;
    layout->rows[1] = lower * layout->scale;
    layout->height = layout->rows[0] + layout->rows[1] + 2.0 * ABOVE + BELOW + BELOW_UPPER;
}

static void sort_numbers(double *list, int32_t count)
{
    for (int32_t i = 1; i < count; i++) {
        const double one = list[i];
        int32_t k = i;
        for (; k > 0 && list[k - 1] > one; k--) {
            list[k] = list[k - 1];
        }
        list[k] = one;
    }
}

/* Where joints stand along a world axis, each place once, rising; at most CHAIN_MOST of them, or
 * the first and last alone. Returns how many. */
static int32_t find_places(const trivet_frame *frame, int axis, double places[CHAIN_MOST])
{
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    int32_t count = 0;
    int is_full = 0;
    for (int32_t j = 0; j < trivet_frame_count(frame, TRIVET_KIND_JOINT); j++) {
        const double at = trivet_frame_position(frame, j)[axis];
        int is_new = 1;
        low = fmin(low, at);
        high = fmax(high, at);
        for (int32_t i = 0; i < count; i++) {
            is_new = is_new && fabs(places[i] - at) > 1e-6;
        }
        is_full = is_full || (is_new && count == CHAIN_MOST);
        if (is_new && !is_full) {
            places[count++] = at;
        }
    }
    if (is_full) {
        places[0] = low;
        places[1] = high;
        return 2;
    }
    sort_numbers(places, count);
    return count;
}

/* Paper coordinate of a place along a world axis that lies across the page or up it. */
static double on_paper(const trivet__view *view, int axis, int is_upright, double at)
{
    double point[3] = {0.0, 0.0, 0.0};
    double paper[2];
    point[axis] = at;
    trivet__view_point(view, point, paper);
    return paper[is_upright];
}

/*
 * Dimensions along one world axis beside a view: from joint to joint where there is room, and over
 * all. edge: the side of the view they stand at; way: 1 below or to the right, -1 to the left.
 */
static void draw_chain(trivet__sheet *sheet, const trivet__view *view, int axis, int is_upright,
                       double edge, double way)
{
    double places[CHAIN_MOST];
    const int32_t count = find_places(sheet->frame, axis, places);
    int drawn = 0;
    if (count < 2) {
        return;
    }
    for (int32_t i = 0; i + 1 < count && count > 2; i++) {
        drawn +=
            trivet__sheet_dimension(sheet, is_upright, on_paper(view, axis, is_upright, places[i]),
                                    on_paper(view, axis, is_upright, places[i + 1]),
                                    edge + way * OFF, edge, places[i + 1] - places[i]);
    }
    trivet__sheet_dimension(sheet, is_upright, on_paper(view, axis, is_upright, places[0]),
                            on_paper(view, axis, is_upright, places[count - 1]),
                            edge + way * (drawn > 0 ? OFF + STEP : OFF), edge,
                            places[count - 1] - places[0]);
}

/* How high the centre of cargo stands above the joints that it rests on. */
static void draw_cargo_height(trivet__sheet *sheet, const trivet__view *view, double edge)
{
    double off = OFF;
    for (int32_t c = 0; c < trivet_frame_count(sheet->frame, TRIVET_KIND_CARGO); c++) {
        trivet_cargo cargo = {.size = sizeof cargo};
        double under = -HUGE_VAL;
        if (trivet_frame_cargo(sheet->frame, c, &cargo) != TRIVET_OK) {
            continue;
        }
        for (int32_t k = 0; k < cargo.joint_count; k++) {
            under = fmax(under, trivet_frame_position(sheet->frame, cargo.joints[k])[2]);
        }
        if (off < OFF + 2.5 * STEP &&
            trivet__sheet_dimension(sheet, 1, on_paper(view, 2, 1, under),
                                    on_paper(view, 2, 1, cargo.centre[2]), edge + off, edge,
                                    fabs(cargo.centre[2] - under))) {
            off += STEP;
        }
    }
}

/* Puts the views into the middle of their cells: those that share a column share what lies right
 * below what, those that share a row what lies right beside what. */
static void place_views(const trivet__sheet *sheet, double scale, const trivet__box cells[3],
                        trivet__view views[3])
{
    trivet__box boxes[3];
    for (int i = 0; i < 3; i++) {
        boxes[i] = box_of(sheet, (trivet__look)i, i != TRIVET__LOOK_ABOVE);
    }
    trivet__box *const side = &boxes[TRIVET__LOOK_LEFT];
    trivet__box *const behind = &boxes[TRIVET__LOOK_BEHIND];
    trivet__box *const above = &boxes[TRIVET__LOOK_ABOVE];
    side->left = above->left = fmin(side->left, above->left);
    side->right = above->right = fmax(side->right, above->right);
    side->top = behind->top = fmin(side->top, behind->top);
    side->bottom = behind->bottom = fmax(side->bottom, behind->bottom);
    for (int i = 0; i < 3; i++) {
        trivet__view_look(&views[i], (trivet__look)i);
        views[i].scale = scale;
        views[i].x =
            0.5 * (cells[i].left + cells[i].right - scale * (boxes[i].left + boxes[i].right));
        views[i].y =
            0.5 * (cells[i].top + cells[i].bottom - scale * (boxes[i].top + boxes[i].bottom));
    }
}

/* What a view holds on paper; dimensions stand beside that. */
static trivet__box drawn_box(const trivet__sheet *sheet, const trivet__view *view, int with_droop)
{
    trivet__box box = trivet__box_empty();
    trivet__hold_frame(sheet, view, with_droop, &box);
    return box;
}

static void draw_title(trivet__sheet *sheet, const trivet__box *cell, const char *title,
                       const char *directions)
{
    const double y = cell->top - ABOVE + 3.0;
    trivet__sheet_text(sheet, "title", "start", cell->left, y, TRIVET__LETTER, title);
    trivet__sheet_text(sheet, "note", "start", cell->left, y + 3.4, TRIVET__LETTER_SMALL,
                       directions);
    const trivet__box taken = {cell->left - 1.0, y - 3.0, cell->left + COLUMN_LEAST + 6.0, y + 4.3};
    trivet__labels_take(&sheet->labels, &taken);
}

static trivet_status draw_view(trivet__sheet *sheet, trivet__look look, const trivet__view *view)
{
    static const char *const NAMES[] = {"left", "behind", "above"};
    trivet__write(sheet->out, "<g class='view' data-view='%r' data-scale='%n' data-factor='%n'>",
                  NAMES[look], view->scale, sheet->magnified);
    const trivet_status status = trivet__draw_tubes(sheet, view, 0);
    if (look != TRIVET__LOOK_ABOVE) {
        trivet__draw_droop(sheet, view);
    }
    trivet__draw_cargo(sheet, view);
    trivet__draw_joints(sheet, view);
    const trivet__box box = drawn_box(sheet, view, look != TRIVET__LOOK_ABOVE);
    if (look == TRIVET__LOOK_LEFT) {
        draw_chain(sheet, view, 0, 0, box.bottom, 1.0);
        draw_chain(sheet, view, 2, 1, box.left, -1.0);
    } else if (look == TRIVET__LOOK_ABOVE) {
        draw_chain(sheet, view, 1, 1, box.left, -1.0);
    } else {
        draw_chain(sheet, view, 1, 0, box.bottom, 1.0);
        draw_cargo_height(sheet, view, box.right);
    }
    trivet__draw_names(sheet, view, 0);
    trivet__write(sheet->out, "</g>");
    return status;
}

static void draw_notes(trivet__sheet *sheet, const trivet__views_layout *layout,
                       const trivet__box *cell)
{
    char text[TEXT_MAX];
    const double width = TRIVET__SHEET_WIDTH - 2.0 - cell->left;
    double y = cell->top - ABOVE + 3.0;
    trivet__text_print(text, sizeof text, "Scale %s when printed at full size.", layout->words);
    y = trivet__sheet_wrapped(sheet, cell->left, y, width, TRIVET__LETTER_SMALL, text);
    trivet__text_print(
        text, sizeof text,
        "Dimensions (%s) run from joint to joint along the middle lines of the tubes; "
        "beside the cargo, how high its centre is above what it rests on.",
        trivet_units_for(sheet->units, TRIVET_LENGTH, NULL));
    y = trivet__sheet_wrapped(sheet, cell->left, y, width, TRIVET__LETTER_SMALL, text);
    trivet__text_print(text, sizeof text,
                       "Dashed: the shape under load in \"%s\", %.0f times as large.",
                       trivet_frame_column_name(sheet->frame, sheet->in_case), sheet->magnified);
    y = trivet__sheet_wrapped(sheet, cell->left, y, width, TRIVET__LETTER_SMALL, text);
    if (sheet->left_out > 0) {
        trivet__sheet_wrapped(sheet, cell->left, y, width, TRIVET__LETTER_SMALL,
                              "Some names have no room here.");
    }
}

trivet_status trivet__views_panel(trivet__sheet *sheet, const trivet__views_layout *layout,
                                  double top)
{
    trivet__view views[3];
    trivet__box cells[3];
    const double right = LEFT + layout->columns[0] + BETWEEN;
    const double below = top + ABOVE + layout->rows[0] + BELOW_UPPER + ABOVE;
    static const char *const TITLES[] = {"From the left side", "From behind", "From above"};
    static const char *const WAYS[] = {"\xE2\x86\x90 forward, \xE2\x86\x91 up",
                                       "\xE2\x86\x90 left, \xE2\x86\x91 up",
                                       "\xE2\x86\x90 forward, \xE2\x86\x93 left"};
    trivet_status status = TRIVET_OK;
    cells[TRIVET__LOOK_LEFT] =
        (trivet__box){LEFT, below, LEFT + layout->columns[0], below + layout->rows[1]};
    cells[TRIVET__LOOK_BEHIND] =
        (trivet__box){right, below, right + layout->columns[1], below + layout->rows[1]};
    cells[TRIVET__LOOK_ABOVE] =
        (trivet__box){LEFT, top + ABOVE, LEFT + layout->columns[0], top + ABOVE + layout->rows[0]};
    sheet->left_out = 0;
    place_views(sheet, layout->scale, cells, views);
    for (int i = 2; i >= 0 && !status; i--) {
        trivet__labels_clear(&sheet->labels);
        sheet->labels.within = (trivet__box){
            i == TRIVET__LOOK_BEHIND ? right - BETWEEN + 8.0 : 0.5, cells[i].top - ABOVE,
            i == TRIVET__LOOK_BEHIND ? TRIVET__SHEET_WIDTH - 0.5 : right - BETWEEN + 8.0,
            cells[i].bottom + (i == TRIVET__LOOK_ABOVE ? BELOW_UPPER : BELOW)};
        draw_title(sheet, &cells[i], TITLES[i], WAYS[i]);
        status = draw_view(sheet, (trivet__look)i, &views[i]);
        if (sheet->labels.is_broken) {
            status = TRIVET_NO_MEMORY;
        }
    }
    const trivet__box notes = {right, top + ABOVE, TRIVET__SHEET_WIDTH, below};
    draw_notes(sheet, layout, &notes);
    return status;
}
