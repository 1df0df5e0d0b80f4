/*
 * The strokes that all drawings share. Colours go from light to dark as use grows, and every class
 * has a pattern of its own, so that a drawing reads in black and white and by the colour-blind.
 */
#include "report/sheet.h"

#include "base/decimal.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { NAME_MOST = 26, LINE_MAX = 256 };

/* Of a dimension after ISO 129-1: how far its lines run past, and its arrowheads, mm. */
#define PAST 1.0
#define ARROW 1.8
#define ARROW_HALF 0.35

static const char STYLE[] =
    "<style>"
    "text{font-family:Arial,'Liberation Sans','DejaVu Sans',sans-serif;fill:#111;"
    "paint-order:stroke;stroke:#fff;stroke-width:.55px;stroke-linejoin:round}"
    ".own{unicode-bidi:isolate}.title{font-weight:bold}.cargo-name{font-style:italic}"
    ".face{stroke:#222;stroke-width:.16px;stroke-linejoin:round}"
    ".axis{stroke:#222;stroke-width:.16px}.outline{fill:none;stroke:#222;stroke-width:.16px}"
    ".droop{fill:none;stroke:#8a1f11;stroke-width:.42px;stroke-dasharray:1.6 .8}"
    ".moved{fill:#fff;stroke:#8a1f11;stroke-width:.3px}"
    ".joint{fill:#111}.mount{fill:#111;stroke:#fff;stroke-width:.25px}"
    ".mount-open{fill:#fff;stroke:#111;stroke-width:.35px}"
    ".rests{stroke:#33557a;stroke-width:.22px;stroke-dasharray:.3 .9;stroke-linecap:round}"
    ".leader{stroke:#555;stroke-width:.14px}.dimension,.extension{stroke:#444;stroke-width:.14px}"
    ".arrow,.dark{fill:#222}.white{fill:#fff}.grid{stroke:#999;stroke-width:.12px}"
    ".base{stroke:#111;stroke-width:.25px}.curve{fill:none;stroke:#111;stroke-width:.4px}"
    ".under{stroke:none}.shade{fill-opacity:.09}.extreme{fill:#8a1f11}.frame-line{fill:none;stroke:"
    "#777;stroke-width:.2px}"
    "</style>";

/* The fills of use: paler lines for less, denser ones for more, solid where it is over. */
static void write_patterns(trivet__sheet *sheet)
{
    trivet__write(
        sheet->out,
        "<defs>"
        "<pattern id='%r-u0' width='2' height='2' patternUnits='userSpaceOnUse'>"
        "<rect width='2' height='2' fill='#fff'/><circle cx='1' cy='1' r='.25' fill='#777'/>"
        "</pattern>"
        "<pattern id='%r-u1' width='4' height='4' patternUnits='userSpaceOnUse'>"
        "<rect width='4' height='4' fill='#fff'/></pattern>"
        "<pattern id='%r-u2' width='1.5' height='1.5' patternUnits='userSpaceOnUse' "
        "patternTransform='rotate(45)'><rect width='1.5' height='1.5' fill='#d9ebf7'/>"
        "<path d='M0 0V1.5' stroke='#2f6f9f' stroke-width='.5'/></pattern>"
        "<pattern id='%r-u3' width='1.2' height='1.2' patternUnits='userSpaceOnUse' "
        "patternTransform='rotate(45)'><rect width='1.2' height='1.2' fill='#f2c14e'/>"
        "<path d='M0 0V1.2M0 0H1.2' stroke='#6b4a00' stroke-width='.55'/></pattern>"
        "<pattern id='%r-u4' width='4' height='4' patternUnits='userSpaceOnUse'>"
        "<rect width='4' height='4' fill='#5c1020'/></pattern>"
        "</defs>",
        sheet->mark, sheet->mark, sheet->mark, sheet->mark, sheet->mark);
}

void trivet__sheet_open(trivet__sheet *sheet, const char *heading, const char *about)
{
    char title[TRIVET_NAME_MAX * 4];
    trivet__write(sheet->out,
                  "<svg xmlns='http://www.w3.org/2000/svg' role='img' lang='en' "
                  "aria-labelledby='%r-t %r-d' viewBox='0 0 %n %n' width='%nmm' height='%nmm'>"
                  "<title id='%r-t'>%b%r%s</title><desc id='%r-d'>%s</desc>%r",
                  sheet->mark, sheet->mark, TRIVET__SHEET_WIDTH, sheet->height, TRIVET__SHEET_WIDTH,
                  sheet->height, sheet->mark, sheet->title, sheet->title[0] ? ": " : "", heading,
                  sheet->mark, about, STYLE);
    write_patterns(sheet);
    trivet__write(sheet->out, "<rect class='white' width='%n' height='%n'/>", TRIVET__SHEET_WIDTH,
                  sheet->height);
    if (sheet->title[0]) {
        trivet__lettering_cut(title, sizeof title, sheet->title, 52);
        trivet__sheet_text(sheet, "title", "start", 1.0, 5.0, TRIVET__LETTER_LARGE, title);
    }
}

void trivet__sheet_close(trivet__sheet *sheet)
{
    trivet__write(sheet->out, "</svg>");
}

void trivet__sheet_text(trivet__sheet *sheet, const char *kind, const char *anchor, double x,
                        double y, double size, const char *text)
{
    trivet__write(sheet->out,
                  "<text class='%r' text-anchor='%r' x='%n' y='%n' font-size='%n'>"
                  "%s</text>",
                  kind, anchor, x, y, size, text);
}

/* Bytes of text that fit into a width, broken at a blank; at least one word. */
static size_t line_length(const char *text, double width, double size)
{
    char line[LINE_MAX];
    size_t fits = strcspn(text, " ");
    for (size_t end = fits; text[end];) {
        end += 1 + strcspn(text + end + 1, " ");
        if (end >= sizeof line) {
            break;
        }
        trivet__text_print(line, sizeof line, "%.*s", (int)end, text);
        if (trivet__lettering_width(line, size) > width) {
            break;
        }
        fits = end;
    }
    return fits;
}

double trivet__sheet_wrapped(trivet__sheet *sheet, double x, double y, double width, double size,
                             const char *text)
{
    while (*text) {
        char line[LINE_MAX];
        char cut[LINE_MAX];
        const size_t length = line_length(text, width, size);
        trivet__text_print(line, sizeof line, "%.*s", (int)length, text);
        trivet__lettering_cut(cut, sizeof cut, line, (int)(width / (0.5 * size)));
        trivet__sheet_text(sheet, "note", "start", x, y, size, cut);
        y += 1.35 * size;
        text += length;
        text += strspn(text, " ");
    }
    return y;
}

void trivet__sheet_line(trivet__sheet *sheet, const char *kind, const double from[2],
                        const double to[2])
{
    trivet__write(sheet->out, "<line class='%r' x1='%n' y1='%n' x2='%n' y2='%n'/>", kind, from[0],
                  from[1], to[0], to[1]);
}

void trivet__sheet_polygon(trivet__sheet *sheet, const char *kind, double (*points)[2], int count)
{
    trivet__write(sheet->out, "<polygon class='%r' points='", kind);
    for (int i = 0; i < count; i++) {
        trivet__write(sheet->out, i == 0 ? "%n,%n" : " %n,%n", points[i][0], points[i][1]);
    }
    trivet__write(sheet->out, "'/>");
}

/* A thin line from a box to what it names, if that is not right beside it. */
static void draw_leader(trivet__sheet *sheet, const trivet__box *box, const double anchor[2])
{
    const double x = fmax(box->left, fmin(box->right, anchor[0]));
    const double y = fmax(box->top, fmin(box->bottom, anchor[1]));
    if (hypot(x - anchor[0], y - anchor[1]) > 3.3) {
        trivet__sheet_line(sheet, "leader", (const double[]){x, y}, anchor);
    }
}

/* Names with line ends between them, each by a pattern, with something else between them. */
static void write_names(trivet__markup *to, const char *names, const char *pattern,
                        const char *between)
{
    while (*names) {
        char one[LINE_MAX];
        const size_t length = strcspn(names, "\n");
        trivet__text_print(one, sizeof one, "%.*s", (int)length, names);
        trivet__write(to, pattern, one);
        trivet__write(to, "%r", names[length] ? between : "");
        names += length + (names[length] != '\0');
    }
}

static double width_of_names(const char *names, double size)
{
    double width = trivet__lettering_width(names, size);
    for (const char *at = names; *at; at++) {
        width += *at == '\n' ? trivet__lettering_width("  ", size) : 0.0;
    }
    return width;
}

static void write_label(trivet__sheet *sheet, const char *kind, const trivet__box *box,
                        const char *name, const char *cut, const char *more)
{
    trivet__write(sheet->out, "<g class='label %r' data-name='", kind);
    write_names(sheet->out, name, "%e", "&#10;");
    trivet__write(sheet->out, "' data-box='%n %n %n %n'><title>", box->left, box->top, box->right,
                  box->bottom);
    write_names(sheet->out, name, "%b", " / ");
    trivet__write(sheet->out, "%e</title>", more);
    trivet__write(sheet->out, "<text text-anchor='middle' x='%n' y='%n' font-size='%n'>",
                  0.5 * (box->left + box->right), box->bottom - 0.28 * TRIVET__LETTER,
                  TRIVET__LETTER);
    /* Each name keeps its own direction. */
    write_names(sheet->out, cut, "<tspan class='own'>%b</tspan>", " / ");
    trivet__write(sheet->out, "%e</text></g>", more);
}

int trivet__sheet_label(trivet__sheet *sheet, const char *kind, double (*anchors)[2], int count,
                        const char *name, const char *more)
{
    char cut[LINE_MAX];
    trivet__box box = {0};
    const double size = TRIVET__LETTER;
    trivet__lettering_cut(cut, sizeof cut, name, NAME_MOST);
    const double width = width_of_names(cut, size) + trivet__lettering_width(more, size);
    const int chosen =
        trivet__labels_place(&sheet->labels, anchors, count, width, 1.1 * size, 0.9, &box);
    if (chosen < 0) {
        sheet->left_out++;
        return 0;
    }
    draw_leader(sheet, &box, anchors[chosen]);
    write_label(sheet, kind, &box, name, cut, more);
    return 1;
}

/* An arrowhead with its tip at x, y, pointing along dx, dy of length one. */
static void draw_arrow(trivet__sheet *sheet, double x, double y, double dx, double dy)
{
    double points[3][2] = {{x, y},
                           {x - ARROW * dx + ARROW_HALF * dy, y - ARROW * dy - ARROW_HALF * dx},
                           {x - ARROW * dx - ARROW_HALF * dy, y - ARROW * dy + ARROW_HALF * dx}};
    trivet__sheet_polygon(sheet, "arrow", points, 3);
}

/* Along and across the dimension, as x and y on paper. */
static void set_point(int is_upright, double along, double across, double point[2])
{
    point[0] = is_upright ? across : along;
    point[1] = is_upright ? along : across;
}

static void draw_extension(trivet__sheet *sheet, int is_upright, double along, double edge,
                           double at)
{
    double from[2];
    double to[2];
    const double way = at > edge ? 1.0 : -1.0;
    set_point(is_upright, along, edge + way * PAST, from);
    set_point(is_upright, along, at + way * PAST, to);
    trivet__sheet_line(sheet, "extension", from, to);
    trivet__labels_avoid(&sheet->labels, from, to, 0.4);
}

int trivet__sheet_dimension(trivet__sheet *sheet, int is_upright, double from, double to, double at,
                            double from_edge, double length)
{
    char number[64];
    double factor = 1.0;
    double ends[2][2];
    double middle[2];
    const double low = fmin(from, to);
    const double high = fmax(from, to);
    trivet_units_for(sheet->units, TRIVET_LENGTH, &factor);
    trivet__decimal_write(length / factor, 4, number, sizeof number);
    const double wide = trivet__lettering_width(number, TRIVET__LETTER);
    if (high - low < wide + 2.0 * ARROW) {
        return 0;
    }
    draw_extension(sheet, is_upright, low, from_edge, at);
    draw_extension(sheet, is_upright, high, from_edge, at);
    set_point(is_upright, low, at, ends[0]);
    set_point(is_upright, high, at, ends[1]);
    trivet__sheet_line(sheet, "dimension", ends[0], ends[1]);
    draw_arrow(sheet, ends[0][0], ends[0][1], is_upright ? 0.0 : -1.0, is_upright ? -1.0 : 0.0);
    draw_arrow(sheet, ends[1][0], ends[1][1], is_upright ? 0.0 : 1.0, is_upright ? 1.0 : 0.0);
    set_point(is_upright, 0.5 * (low + high), at - 0.6, middle);
    trivet__box box = {middle[0] - 0.5 * wide, middle[1] - 0.8 * TRIVET__LETTER,
                       middle[0] + 0.5 * wide, middle[1] + 0.2 * TRIVET__LETTER};
    if (is_upright) {
        box = (trivet__box){middle[0] - 0.8 * TRIVET__LETTER, middle[1] - 0.5 * wide,
                            middle[0] + 0.2 * TRIVET__LETTER, middle[1] + 0.5 * wide};
    }
    trivet__labels_take(&sheet->labels, &box);
    trivet__labels_avoid(&sheet->labels, ends[0], ends[1], 1.0);
    trivet__write(sheet->out,
                  "<g class='label number' data-length='%n' data-box='%n %n %n %n'>"
                  "<text text-anchor='middle' x='%n' y='%n' font-size='%n'",
                  high - low, box.left, box.top, box.right, box.bottom, middle[0], middle[1],
                  TRIVET__LETTER);
    if (is_upright) {
        trivet__write(sheet->out, " transform='rotate(-90 %n %n)'", middle[0], middle[1]);
    }
    trivet__write(sheet->out, ">%e</text></g>", number);
    return 1;
}
