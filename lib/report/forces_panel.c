/*
 * Forces inside a tube along it, one row a force. Curves are the closed form at many places, with
 * steps where point loads act; extremes are the exact ones.
 */
#include "report/sheets.h"

#include "base/decimal.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { ROWS = 6, PIECES = 24, HALVINGS = 30, TEXT_MAX = 400 };

/* Layout, mm: where the curves begin, how long the tube may be, rows and how high curves rise. */
#define START 27.0
#define LONGEST 140.0
#define HEAD 21.0
#define PITCH 26.0
#define HIGHEST 9.0
#define NOTES 19.0
/* What is smaller than this share of the largest counts as rounding. */
#define NOTHING 1e-7

typedef struct diagram {
    trivet__sheet *sheet;
    int32_t first; /* span */
    int32_t count;
    double along;      /* mm on paper for each m of tube */
    double largest[2]; /* of forces, of moments, SI */
    double per[2];     /* SI for each mm of paper */
    double top;
} diagram;

double trivet__forces_height(void)
{
    return HEAD + ROWS * PITCH + NOTES;
}

/* 0 for forces, 1 for moments. */
static int group_of(int row)
{
    return row >= 3;
}

static trivet_dimension dimension_of(int row)
{
    return group_of(row) ? TRIVET_MOMENT : TRIVET_FORCE;
}

static double base_of(const diagram *of, int row)
{
    return of->top + HEAD + (row + 0.5) * PITCH;
}

/* Extremes of a row over all spans: value and m along the tube. */
static trivet_extreme extreme_of(const diagram *of, int row)
{
    trivet_extreme all = {HUGE_VAL, 0.0, -HUGE_VAL, 0.0};
    for (int32_t s = of->first; s < of->first + of->count; s++) {
        trivet_extreme extremes[ROWS];
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(of->sheet->result, s, &span) != TRIVET_OK ||
            trivet_result_extremes(of->sheet->result, of->sheet->in_case, s, extremes) !=
                TRIVET_OK) {
            continue;
        }
        if (extremes[row].least < all.least) {
            all.least = extremes[row].least;
            all.least_at = span.start + extremes[row].least_at;
        }
        if (extremes[row].most > all.most) {
            all.most = extremes[row].most;
            all.most_at = span.start + extremes[row].most_at;
        }
    }
    return all;
}

static void find_scales(diagram *of)
{
    for (int row = 0; row < ROWS; row++) {
        const trivet_extreme all = extreme_of(of, row);
        double *const largest = &of->largest[group_of(row)];
        *largest = fmax(*largest, fmax(fabs(all.least), fabs(all.most)));
    }
    for (int g = 0; g < 2; g++) {
        double factor = 1.0;
        trivet_units_for(of->sheet->units, g ? TRIVET_MOMENT : TRIVET_FORCE, &factor);
        const double shown = of->largest[g] / factor;
        /* The next round number above what fills the height. */
        of->per[g] = shown > 0.0 ? factor / trivet__round_down(HIGHEST / shown) : factor;
    }
}

static double force_at(const diagram *of, int32_t span, double at, int row)
{
    double forces[ROWS] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    trivet_result_at(of->sheet->result, of->sheet->in_case, span, at, forces, NULL);
    return forces[row];
}

static void add_point(const diagram *of, int row, double at, double force)
{
    trivet__write(of->sheet->out, "%n,%n ", START + of->along * at,
                  base_of(of, row) - force / of->per[group_of(row)]);
}

/* From a place on a span to the next; a step in between is found by halving and drawn upright. */
static void add_piece(const diagram *of, int row, int32_t span, double start, double from,
                      double to)
{
    const double first = force_at(of, span, from, row);
    const double last = force_at(of, span, to, row);
    double low = from;
    double high = to;
    double at_low = first;
    double at_high = last;
    if (fabs(last - first) > 0.01 * of->largest[group_of(row)]) {
        for (int i = 0; i < HALVINGS; i++) {
            const double middle = 0.5 * (low + high);
            const double at_middle = force_at(of, span, middle, row);
            if (fabs(at_middle - at_low) >= fabs(at_high - at_middle)) {
                high = middle;
                at_high = at_middle;
            } else {
                low = middle;
                at_low = at_middle;
            }
        }
        if (fabs(at_high - at_low) > 0.2 * fabs(last - first)) {
            add_point(of, row, start + low, at_low);
            add_point(of, row, start + high, at_high);
        }
    }
    add_point(of, row, start + to, last);
}

static void draw_curve(const diagram *of, int row, const char *kind)
{
    double end = 0.0;
    trivet__write(of->sheet->out, "<polyline %r points='%n,%n ", kind, START, base_of(of, row));
    for (int32_t s = of->first; s < of->first + of->count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(of->sheet->result, s, &span) != TRIVET_OK) {
            continue;
        }
        add_point(of, row, span.start, force_at(of, s, 0.0, row));
        for (int i = 0; i < PIECES; i++) {
            add_piece(of, row, s, span.start, span.length * i / PIECES,
                      span.length * (i + 1) / PIECES);
        }
        end = span.start + span.length;
    }
    trivet__write(of->sheet->out, "%n,%n'/>", START + of->along * end, base_of(of, row));
}

/* Keeps labels off the curve. */
static void keep_labels_off(const diagram *of, int row)
{
    const double per = of->per[group_of(row)];
    double before[2] = {START, base_of(of, row)};
    for (int32_t s = of->first; s < of->first + of->count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(of->sheet->result, s, &span) != TRIVET_OK) {
            continue;
        }
        for (int i = 0; i <= PIECES; i += 2) {
            const double at = span.length * i / PIECES;
            const double next[2] = {START + of->along * (span.start + at),
                                    base_of(of, row) - force_at(of, s, at, row) / per};
            trivet__labels_avoid(&of->sheet->labels, before, next, 1.2);
            before[0] = next[0];
            before[1] = next[1];
        }
    }
}

/* A dot on an extreme, and its value and place beside it. */
static void mark_extreme(const diagram *of, int row, double value, double at)
{
    char amount[64];
    char place[80];
    char behind[96];
    double point[1][2] = {
        {START + of->along * at, base_of(of, row) - value / of->per[group_of(row)]}};
    trivet_units_text(of->sheet->units, dimension_of(row), value, 4, amount, sizeof amount);
    trivet_units_text(of->sheet->units, TRIVET_LENGTH, at, 4, place, sizeof place);
    trivet__text_print(behind, sizeof behind, " at %s", place);
    trivet__write(of->sheet->out, "<circle class='extreme' cx='%n' cy='%n' r='.7'/>", point[0][0],
                  point[0][1]);
    const trivet__box taken = {point[0][0] - 0.7, point[0][1] - 0.7, point[0][0] + 0.7,
                               point[0][1] + 0.7};
    trivet__labels_take(&of->sheet->labels, &taken);
    trivet__sheet_label(of->sheet, "extreme-name", point, 1, amount, behind);
}

static void draw_row(const diagram *of, int row, double length)
{
    static const char *const SYMBOLS[ROWS] = {"N", "Vy", "Vz", "T", "My", "Mz"};
    static const char *const WORDS[ROWS] = {"pull along it",         "across, in its width",
                                            "across, in its height", "twist",
                                            "bending in its height", "bending in its width"};
    char per[96];
    char number[64];
    const int g = group_of(row);
    const double y = base_of(of, row);
    const double from[2] = {START, y};
    const double to[2] = {START + of->along * length, y};
    const trivet_extreme all = extreme_of(of, row);
    const double size = fmax(fabs(all.least), fabs(all.most));
    trivet_units_text(of->sheet->units, dimension_of(row), of->per[g], 3, number, sizeof number);
    trivet__text_print(per, sizeof per, "1 mm is %s", number);
    trivet__write(of->sheet->out, "<g class='row' data-force='%r' data-base='%n'>", SYMBOLS[row],
                  y);
    trivet__sheet_text(of->sheet, "title", "start", 1.0, y - 2.2, TRIVET__LETTER, SYMBOLS[row]);
    trivet__sheet_wrapped(of->sheet, 1.0, y + 1.2, 22.0, 2.1, WORDS[row]);
    trivet__sheet_text(of->sheet, "note per", "start", 1.0, y + 7.2, 2.1, per);
    draw_curve(of, row, "class='under' fill='#dfe9f2'");
    trivet__sheet_line(of->sheet, "base", from, to);
    if (size > NOTHING * of->largest[g]) {
        draw_curve(of, row, "class='curve'");
        trivet__labels_avoid(&of->sheet->labels, from, to, 0.6);
        keep_labels_off(of, row);
        if (fabs(all.most) > NOTHING * size) {
            mark_extreme(of, row, all.most, all.most_at);
        }
        if (fabs(all.least) > NOTHING * size && all.most - all.least > NOTHING * size) {
            mark_extreme(of, row, all.least, all.least_at);
        }
    } else {
        trivet__sheet_text(of->sheet, "note none", "start", START + 1.0, y - 1.0,
                           TRIVET__LETTER_SMALL, "none");
    }
    trivet__write(of->sheet->out, "</g>");
}

/* Distance of a tube's joint from its first, m; NaN if no span begins or ends there. */
static double distance_of(const diagram *of, int32_t joint)
{
    for (int32_t s = of->first; s < of->first + of->count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(of->sheet->result, s, &span) != TRIVET_OK) {
            continue;
        }
        if (span.first_joint == joint) {
            return span.start;
        }
        if (span.last_joint == joint) {
            return span.start + span.length;
        }
    }
    return (double)NAN;
}

/* The tube as a strip with its joints, and a thin line down from each. */
static void draw_strip(const diagram *of, double length)
{
    int32_t joint_count = 0;
    const double y = of->top + HEAD - 4.0;
    const int32_t *const joints =
        trivet_frame_tube_joints(of->sheet->frame, of->sheet->tube, &joint_count);
    trivet__write(of->sheet->out,
                  "<rect class='frame-line' x='%n' y='%n' width='%n' height='2.4'/>", START,
                  y - 1.2, of->along * length);
    for (int32_t i = 0; i < joint_count; i++) {
        const double at = distance_of(of, joints[i]);
        const double x = START + of->along * (isnan(at) ? 0.0 : at);
        double anchor[1][2] = {{x, y - 0.8}};
        const double from[2] = {x, y};
        const double to[2] = {x, of->top + HEAD + ROWS * PITCH - 3.0};
        trivet__sheet_line(of->sheet, "grid", from, to);
        trivet__labels_avoid(&of->sheet->labels, from, to, 0.3);
        trivet__write(of->sheet->out,
                      "<circle class='joint' data-joint='%e' cx='%n' cy='%n' r='.8'/>",
                      trivet_frame_name(of->sheet->frame, TRIVET_KIND_JOINT, joints[i]), x, y);
        trivet__sheet_label(of->sheet, "joint-name", anchor, 1,
                            trivet_frame_name(of->sheet->frame, TRIVET_KIND_JOINT, joints[i]), "");
    }
}

static void draw_notes(const diagram *of, const char *scale)
{
    char text[TEXT_MAX];
    trivet__sheet *const sheet = of->sheet;
    const double width = TRIVET__SHEET_WIDTH - 2.0;
    int32_t count = 0;
    const int32_t *const joints = trivet_frame_tube_joints(sheet->frame, sheet->tube, &count);
    const double y = of->top + HEAD + ROWS * PITCH + 1.0;
    trivet__text_print(
        text, sizeof text,
        "Along the tube %s when printed at full size; 0 mm is at %s. Forces share one scale, "
        "moments another. Dots: the exact largest and smallest.",
        scale, joints ? trivet_frame_name(sheet->frame, TRIVET_KIND_JOINT, joints[0]) : "");
    const double next = trivet__sheet_wrapped(sheet, 1.0, y, width, TRIVET__LETTER_SMALL, text);
    trivet__sheet_wrapped(
        sheet, 1.0, next, width, TRIVET__LETTER_SMALL,
        "Above the line: N pulls; Vy and Vz act to the tube's left and top on the cut that looks "
        "to its last joint; T turns that cut right-handed about the tube; My stretches the tube's "
        "top, Mz its right side. The top of a tube looks up, that of an upright tube forward, "
        "unless it is rolled.");
}

trivet_status trivet__forces_panel(trivet__sheet *sheet, double top)
{
    diagram of = {.sheet = sheet, .top = top};
    char scale[32];
    char text[64];
    char heading[TEXT_MAX];
    const double length = trivet_frame_tube_length(sheet->frame, sheet->tube);
    of.first = trivet_result_tube_spans(sheet->result, sheet->tube, &of.count);
    of.along = trivet__scale_choose(LONGEST / length, scale, sizeof scale);
    find_scales(&of);
    trivet__labels_clear(&sheet->labels);
    sheet->labels.within =
        (trivet__box){START - 8.0, top + 8.0, TRIVET__SHEET_WIDTH - 0.5, top + HEAD + ROWS * PITCH};
    trivet_profile_text(
        trivet_frame_profile(sheet->frame, trivet_frame_tube_stock(sheet->frame, sheet->tube)),
        sheet->units, heading, sizeof heading);
    trivet_units_text(sheet->units, TRIVET_LENGTH, length, 4, text, sizeof text);
    trivet__write(sheet->out,
                  "<g class='forces' data-tube='%e' data-case='%e'>"
                  "<text class='note' x='1' y='%n' font-size='%n'>%e, %e long</text>",
                  trivet_frame_name(sheet->frame, TRIVET_KIND_TUBE, sheet->tube),
                  trivet_frame_column_name(sheet->frame, sheet->in_case), top + 4.0, TRIVET__LETTER,
                  heading, text);
    draw_strip(&of, length);
    for (int row = 0; row < ROWS; row++) {
        sheet->labels.within.top = row == 0 ? top + HEAD : base_of(&of, row) - 0.5 * PITCH;
        sheet->labels.within.bottom = base_of(&of, row) + 0.5 * PITCH;
        draw_row(&of, row, length);
    }
    draw_notes(&of, scale);
    trivet__write(sheet->out, "</g>");
    return sheet->labels.is_broken ? TRIVET_NO_MEMORY : TRIVET_OK;
}
