/*
 * Saddles as tables and as paper to wrap round the tube: the outside unrolled, one line an angle.
 */
#include "shop/cuts_record.h"

#include "base/text.h"
#include "base/xml_text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const double PI = 3.14159265358979323846;

enum { CURVE_STEPS = 180 };

/* mm on paper: margin, room for the check line and the words, tube kept behind the curve. */
#define MARGIN 12.0
#define WORDS 38.0
#define KEPT 15.0
#define CHECK 100.0
/* Of one name of three in a line of 160 mm, in heights of letters of 3 mm; whole in the label. */
#define NAME_WIDTH 16.0
#define NAME_WHOLE 1e3

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

/* How wide a character is at most in the typefaces of browsers, in heights of the letters. */
static double width_of(const char *at)
{
    const int is_plain = ((unsigned char)*at & 0x80U) == 0;
    return !is_plain ? 1.05 : *at >= 'A' && *at <= 'Z' ? 0.9 : 0.68;
}

/*
 * A name, which may hold anything: what means something in SVG is escaped, what runs from right to
 * left set apart, and what is wider than width (in heights of the letters) cut off.
 */
static void put_name(sheet *into, const char *name, double width)
{
    int is_plain = 1;
    double used = 3.0 * width_of(".");
    for (const char *at = name; *at; at++) {
        is_plain = is_plain && ((unsigned char)*at & 0x80U) == 0;
    }
    put(into, is_plain ? "" : TRIVET__ISOLATE);
    for (const char *at = name; *at;) {
        const char *const entity = trivet__entity(*at);
        const size_t unwanted = trivet__unwanted_length(at);
        used += width_of(at);
        if (used > width) {
            put(into, "...");
            break;
        }
        if (entity || unwanted > 0) {
            put(into, entity ? entity : TRIVET__UNKNOWN);
            at += unwanted > 0 ? unwanted : 1;
            continue;
        }
        do {
            put_byte(into, *at++);
        } while (((unsigned char)*at & 0xC0U) == 0x80U);
    }
    put(into, is_plain ? "" : TRIVET__END_ISOLATE);
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

/* "brace at LT, onto left rail", each name cut to a width. */
static void put_what(sheet *into, const trivet_cuts *cuts, int32_t piece, const trivet__end *end,
                     double width)
{
    char name[TRIVET_NAME_MAX + 32];
    trivet_cuts_piece_text(cuts, piece, name, sizeof name);
    put_name(into, name, width);
    put(into, " at ");
    put_name(into, cuts->frame->joints[end->joint].name, width);
    put(into, ", onto ");
    put_name(into, cuts->frame->tubes[end->onto].name, width);
}

static void put_words(sheet *into, const trivet_cuts *cuts, int32_t piece, const paper *on)
{
    const trivet__end *const end = on->saddle->end;
    put(into,
        "<g font-family=\"sans-serif\" font-size=\"3\" fill=\"black\" stroke=\"none\">\n"
        "<text x=\"@\" y=\"@\">",
        on->left, MARGIN);
    put_what(into, cuts, piece, end, NAME_WIDTH);
    put(into,
        "</text>\n<text x=\"@\" y=\"@\">tube @ mm, onto @ mm, @ degrees between them, gap @ "
        "mm</text>\n",
        on->left, MARGIN + 5.0, 2e3 * on->radius, 2e3 * (on->saddle->radius - cuts->shop.gap),
        90.0 - end->angle * 180.0 / PI, 1e3 * cuts->shop.gap);
    put(into,
        "<text x=\"@\" y=\"@\">Print at full size (100 %): this line is then 100 mm "
        "long.</text>\n",
        on->left, MARGIN + 12.0);
    put(into,
        "<text x=\"@\" y=\"@\">Wrap round the tube, print outside, 0 on its top line.</text>\n"
        "<text x=\"@\" y=\"@\">Arrow towards ",
        on->left, MARGIN + 24.0, on->left, MARGIN + 29.0);
    put_name(into, cuts->frame->joints[end->joint].name, NAME_WIDTH);
    put(into, ". Cut away the grey.</text>\n</g>\n<path d=\"M@ @v4m0 -2h@m0 -2v4\"/>\n", on->left,
        MARGIN + 14.0, CHECK);
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
        put(into,
            "<text x=\"@\" y=\"@\" font-family=\"sans-serif\" font-size=\"2\" "
            "text-anchor=\"middle\" fill=\"black\" stroke=\"none\">@</text>\n",
            x, bottom + 4.0, turned < -1e-9 ? turned + 360.0 : turned);
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
    put(&into, "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"Template: ");
    put_what(&into, cuts, piece, saddle.end, NAME_WHOLE);
    put(&into,
        "\" width=\"@mm\" height=\"@mm\" viewBox=\"0 0 @ @\" fill=\"none\" stroke=\"black\" "
        "stroke-width=\"0.25\">\n",
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
