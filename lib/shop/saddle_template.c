/*
 * Saddles as tables and as paper to wrap round the tube: the outside unrolled, one line an angle.
 */
#include "shop/cuts_record.h"

#include "base/text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const double PI = 3.14159265358979323846;

enum { CURVE_STEPS = 180 };

/* mm on paper: margin, room for the check line and the words, tube kept behind the curve. */
#define MARGIN 12.0
#define WORDS 40.0
#define KEPT 15.0
#define CHECK 100.0

/* The saddle at an end of a piece; 0 if there is none for which a template is made. */
static int find_saddle(const trivet_cuts *cuts, int32_t piece, int32_t end,
                       trivet__saddle *saddle_out, double *radius_out)
{
    if (!cuts || piece < 0 || piece >= cuts->piece_count || end < 0 || end > 1 ||
        !cuts->pieces[piece].cut.ends[end].has_template) {
        return 0;
    }
    const trivet__end *const of = cuts->pieces[piece].ends[end];
    trivet__saddle_find(&cuts->plan, of, saddle_out);
    *radius_out = trivet__tube_silhouette(&cuts->plan, of->tube)->half[0];
    return 1;
}

static double depth_at(const trivet__saddle *saddle, double radius, double round)
{
    const double point[2] = {-radius * sin(round), radius * cos(round)};
    const double depth = saddle->end->longest - trivet__saddle_length(saddle, point);
    return depth > 1e-9 ? depth : 0.0; /* less is rounding */
}

double trivet_cuts_saddle_depth(const trivet_cuts *cuts, int32_t piece, int32_t end, double round)
{
    trivet__saddle saddle;
    double radius = 0.0;
    if (!isfinite(round) || !find_saddle(cuts, piece, end, &saddle, &radius)) {
        return (double)NAN;
    }
    return depth_at(&saddle, radius, round);
}

/* A text that grows up to its room and counts on beyond it. */
typedef struct sheet {
    char *text;
    size_t size;
    size_t length;
} sheet;

static void put_byte(sheet *into, char byte)
{
    if (into->length + 1 < into->size) {
        into->text[into->length] = byte;
    }
    into->length++;
}

/* A number to thousandths, with a point in every language setting. */
static void put_number(sheet *into, double value)
{
    char digits[32];
    const long long thousandths = llround(fabs(value) * 1e3);
    int count =
        snprintf(digits, sizeof digits, "%lld.%03d", thousandths / 1000, (int)(thousandths % 1000));
    if (value < 0.0 && thousandths > 0) {
        put_byte(into, '-');
    }
    while (digits[count - 1] == '0') {
        count--;
    }
    count -= digits[count - 1] == '.';
    for (int i = 0; i < count; i++) {
        put_byte(into, digits[i]);
    }
}

/* Words as they are, but for each @ the next number. */
static void put(sheet *into, const char *words, ...)
{
    va_list values;
    va_start(values, words);
    for (; *words; words++) {
        if (*words == '@') {
            put_number(into, va_arg(values, double));
        } else {
            put_byte(into, *words);
        }
    }
    va_end(values);
}

/* Names may hold what means something in SVG, and control characters, which XML does not take. */
static void put_escaped(sheet *into, const char *name)
{
    for (; *name; name++) {
        switch (*name) {
        case '<':
            put(into, "&lt;");
            break;
        case '>':
            put(into, "&gt;");
            break;
        case '&':
            put(into, "&amp;");
            break;
        case '"':
            put(into, "&quot;");
            break;
        case '\'':
            put(into, "&#39;");
            break;
        default:
            put_byte(into, (unsigned char)*name < 0x20U || *name == 0x7F ? '?' : *name);
            break;
        }
    }
}

/* Everything in mm. */
typedef struct paper {
    const trivet__saddle *saddle;
    double radius;  /* m, of the tube */
    double width;   /* of the unrolled outside */
    double deepest; /* of the curve */
    double left;
    double top; /* where the long point lies */
} paper;

static void put_words(sheet *into, const trivet_cuts *cuts, int32_t piece, const paper *on)
{
    const trivet__end *const end = on->saddle->end;
    char name[TRIVET_NAME_MAX + 32];
    trivet_cuts_piece_text(cuts, piece, name, sizeof name);
    put(into, "<text x=\"@\" y=\"@\" font-size=\"4\">", on->left, MARGIN);
    put_escaped(into, name);
    put(into, " at ");
    put_escaped(into, cuts->frame->joints[end->joint].name);
    put(into, ", onto ");
    put_escaped(into, cuts->frame->tubes[end->onto].name);
    put(into,
        "</text>\n<text x=\"@\" y=\"@\" font-size=\"3\">tube @ mm, onto @ mm, "
        "@ degrees between them, gap @ mm</text>\n",
        on->left, MARGIN + 6.0, 2e3 * on->radius, 2e3 * (on->saddle->radius - cuts->shop.gap),
        90.0 - end->angle * 180.0 / PI, 1e3 * cuts->shop.gap);
    put(into,
        "<text x=\"@\" y=\"@\" font-size=\"3\">Print at full size: this line is 100 mm "
        "long.</text>\n",
        on->left, MARGIN + 13.0);
    put(into, "<path d=\"M@ @v4m0 -2h@m0 -2v4\"/>\n", on->left, MARGIN + 15.0, CHECK);
    put(into,
        "<text x=\"@\" y=\"@\" font-size=\"3\">Wrap round the tube, print outside, 0 on its top "
        "line, arrow towards ",
        on->left, MARGIN + 24.0);
    put_escaped(into, cuts->frame->joints[end->joint].name);
    put(into, "; cut away the grey.</text>\n");
}

/* Round the tube, from its top. Angles that rise right-handed about x run to the right on paper on
 * which x points up, as degrees east do on a map with north up; to the left if it points down. */
static double paper_round(const paper *on, double share)
{
    return (on->saddle->end->is_last ? 1.0 : -1.0) * 2.0 * PI * share;
}

static void put_curve(sheet *into, const paper *on)
{
    for (int i = 0; i <= CURVE_STEPS; i++) {
        const double share = (double)i / CURVE_STEPS;
        const double depth = 1e3 * depth_at(on->saddle, on->radius, paper_round(on, share));
        put(into, i == 0 ? "M@ @" : " @ @", on->left + share * on->width, on->top + depth);
    }
}

static void put_lines(sheet *into, const paper *on)
{
    const double bottom = on->top + on->deepest + KEPT;
    for (int degrees = 0; degrees <= 360; degrees += 30) {
        const double share = degrees / 360.0;
        const double turned = paper_round(on, share) * 180.0 / PI;
        const double x = on->left + share * on->width;
        put(into, "<path d=\"M@ @V@\" stroke-width=\"0.1\"/>\n", x, on->top, bottom);
        put(into, "<text x=\"@\" y=\"@\" font-size=\"2\" text-anchor=\"middle\">@</text>\n", x,
            bottom + 4.0, turned < -1e-9 ? turned + 360.0 : turned);
    }
    put(into, "<path d=\"M@ @h@V@h@z\"/>\n", on->left, bottom, on->width, on->top, -on->width);
    put(into, "<path d=\"M@ @v@m-1.5 3l1.5 -3l1.5 3\"/>\n", on->left + 0.03 * on->width,
        bottom - 2.0, -(KEPT - 5.0));
}

size_t trivet_cuts_template_svg(const trivet_cuts *cuts, int32_t piece, int32_t end, char *text,
                                size_t size)
{
    trivet__saddle saddle;
    sheet into = {text, text ? size : 0, 0};
    paper on = {.saddle = &saddle, .left = MARGIN, .top = MARGIN + WORDS};
    if (text && size > 0) {
        text[0] = '\0';
    }
    if (!find_saddle(cuts, piece, end, &saddle, &on.radius)) {
        return 0;
    }
    on.width = 2e3 * PI * on.radius;
    on.deepest = 1e3 * (saddle.end->longest - saddle.end->shortest);
    const double wide = 2.0 * MARGIN + fmax(on.width, 160.0);
    const double high = on.top + on.deepest + KEPT + MARGIN;
    put(&into,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"@mm\" height=\"@mm\" "
        "viewBox=\"0 0 @ @\" fill=\"none\" stroke=\"black\" stroke-width=\"0.25\">\n"
        "<style>text{font-family:sans-serif;fill:black;stroke:none}</style>\n",
        wide, high, wide, high);
    put_words(&into, cuts, piece, &on);
    put(&into, "<path fill=\"#ddd\" stroke=\"none\" d=\"");
    put_curve(&into, &on);
    put(&into, "V@H@z\"/>\n<path d=\"", on.top, on.left);
    put_curve(&into, &on);
    put(&into, "\"/>\n");
    put_lines(&into, &on);
    put(&into, "</svg>\n");
    if (text && size > 0) {
        text[into.length < into.size ? into.length : into.size - 1] = '\0';
    }
    return into.length;
}

size_t trivet_cuts_template_name(const trivet_cuts *cuts, int32_t piece, int32_t end, char *text,
                                 size_t size)
{
    trivet__saddle saddle;
    double radius = 0.0;
    char name[2 * TRIVET_NAME_MAX + 32];
    char whole[sizeof name + 64];
    if (!find_saddle(cuts, piece, end, &saddle, &radius)) {
        return trivet__text_print(text, size, "%s", "");
    }
    trivet_cuts_piece_text(cuts, piece, name, sizeof name);
    trivet__text_print(whole, sizeof whole, "%02d%c-%.150s-%.100s", (int)piece + 1,
                       end == 0 ? 'a' : 'b', name, cuts->frame->joints[saddle.end->joint].name);
    for (char *at = whole; *at; at++) {
        const int is_plain =
            (*at >= '0' && *at <= '9') || (*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z');
        *at = is_plain ? *at : '-';
    }
    return trivet__text_print(text, size, "%s.svg", whole);
}
