/*
 * The page of trivet cut: tables in the order of work - buy, cut, mark, drill - then the small
 * print.
 */
#include "cut_page.h"

#include "columns.h"
#include "print.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TEXT_MAX = 1024, NUMBER_MAX = 64, DIGITS = 6, TABLE_ROWS = 9, TABLE_COLUMNS = 4 };

static const double PI = 3.14159265358979323846;

static const char *name_of(const cut_page *page, int32_t kind, int32_t index)
{
    const char *const name = trivet_frame_name(page->frame, kind, index);
    return name ? name : "-";
}

static void add_length(columns *table, const cut_page *page, double length)
{
    columns_add_value(table, &page->units, TRIVET_LENGTH, length, DIGITS);
}

static void add_angle(columns *table, const cut_page *page, double angle)
{
    char text[NUMBER_MAX];
    trivet_units_text(&page->units, TRIVET_ANGLE, angle, 4, text, sizeof text);
    columns_add(table, isnan(angle) ? "-" : text);
}

static void add_number(columns *table, int32_t number)
{
    char text[NUMBER_MAX];
    snprintf(text, sizeof text, "%d", (int)number);
    columns_add(table, text);
}

/* The number by which a piece is called on this page, and its name. */
static void add_piece_name(columns *table, const cut_page *page, int32_t piece)
{
    char text[TEXT_MAX];
    trivet_cuts_piece_text(page->cuts, piece, text, sizeof text);
    add_number(table, piece + 1);
    columns_add(table, text);
}

/* "top", "left", or "37.5 deg from the top". */
static void write_side(const cut_page *page, double round, char text[NUMBER_MAX])
{
    static const char *const WORDS[] = {"top", "right", "bottom", "left"};
    const double quarters = round / (0.5 * PI);
    const double nearest = nearbyint(quarters);
    if (isnan(round)) {
        snprintf(text, NUMBER_MAX, "-");
    } else if (fabs(quarters - nearest) < 5e-4) {
        snprintf(text, NUMBER_MAX, "%s", WORDS[((int)nearest % 4 + 4) % 4]);
    } else {
        char angle[32];
        trivet_units_text(&page->units, TRIVET_ANGLE, round, 4, angle, sizeof angle);
        snprintf(text, NUMBER_MAX, "%s from the top", angle);
    }
}

static int print_pieces(const cut_page *page)
{
    static const char *const HEADINGS[] = {"no",           "piece",          "stock",
                                           "long to long", "short to short", "on the centre line"};
    columns table;
    columns_start(&table, 2, "nttnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_cuts_count(page->cuts); i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        if (trivet_cuts_piece(page->cuts, i, &piece) != TRIVET_OK) {
            continue;
        }
        add_piece_name(&table, page, i);
        columns_add(&table, name_of(page, TRIVET_KIND_STOCK, piece.stock));
        add_length(&table, page, piece.longest);
        add_length(&table, page, piece.shortest);
        add_length(&table, page, piece.length);
    }
    print_heading("Pieces, long point to long point and short point to short point");
    return columns_print(&table);
}

/* What an end is: "miter with back", "saddle on left rail". */
static void write_cut(const cut_page *page, const trivet_cut_end *end, char text[TEXT_MAX])
{
    static const char *const JOINERS[] = {"", "", "", " against ", " with ", " on ", " into "};
    const char *const other = trivet_frame_name(page->frame, TRIVET_KIND_TUBE, end->onto);
    snprintf(text, TEXT_MAX, "%s%s%s", trivet_cut_text(end->cut), other ? JOINERS[end->cut] : "",
             other ? other : "");
}

static void add_end(columns *table, const cut_page *page, const trivet_cut_piece *piece,
                    int32_t number, int32_t end)
{
    const trivet_cut_end *const of = &piece->ends[end];
    char text[TEXT_MAX];
    char side[NUMBER_MAX];
    if (end == 0) {
        add_number(table, number + 1);
    } else {
        columns_add(table, "");
    }
    columns_add(table, name_of(page, TRIVET_KIND_JOINT, of->joint));
    add_angle(table, page, of->angle);
    write_side(page, of->towards, side);
    columns_add(table, side);
    if (end == 0) {
        columns_add(table, "");
    } else {
        add_angle(table, page, piece->turn);
    }
    write_cut(page, of, text);
    columns_add(table, text);
}

static int print_ends(const cut_page *page)
{
    static const char *const HEADINGS[] = {"no", "at", "off square", "long point", "turn", "cut"};
    columns table;
    columns_start(&table, 2, "ntntnw", HEADINGS);
    for (int32_t i = 0; i < trivet_cuts_count(page->cuts); i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        if (trivet_cuts_piece(page->cuts, i, &piece) != TRIVET_OK || piece.insert >= 0) {
            continue;
        }
        add_end(&table, page, &piece, i, 0);
        add_end(&table, page, &piece, i, 1);
    }
    print_heading("Saw settings");
    const int status = columns_print(&table);
    print_line(2,
               "Off square is what the saw is set to: 0 is square, 45 deg half of a square "
               "corner. Long point: the side of the tube on which it is longest, or for a saddle "
               "that to which the other tube leans; angles run from its top, right-handed about "
               "the way from its first joint to its last. Turn: by how much the tube is turned "
               "about itself, likewise, between the first and the second cut.");
    return status;
}

static int print_saddle(const cut_page *page, int32_t number, const trivet_cut_piece *piece,
                        int32_t end)
{
    static const char *const HEADINGS[] = {"round", "deep", "round", "deep",
                                           "round", "deep", "round", "deep"};
    char name[TEXT_MAX];
    char file[TEXT_MAX];
    columns table;
    trivet_cuts_piece_text(page->cuts, number, name, sizeof name);
    trivet_cuts_template_name(page->cuts, number, end, file, sizeof file);
    print_line(2, "%d %s at %s, template %s", (int)number + 1, name,
               name_of(page, TRIVET_KIND_JOINT, piece->ends[end].joint), file);
    columns_start(&table, 4, "nnnnnnnn", HEADINGS);
    for (int i = 0; i < TABLE_ROWS; i++) {
        for (int k = 0; k < TABLE_COLUMNS; k++) {
            const double round = 2.0 * PI * (i + TABLE_ROWS * k) / (TABLE_ROWS * TABLE_COLUMNS);
            add_angle(&table, page, round);
            columns_add_value(&table, &page->units, TRIVET_LENGTH,
                              trivet_cuts_saddle_depth(page->cuts, number, end, round), 4);
        }
    }
    return columns_print(&table);
}

static int print_saddles(const cut_page *page)
{
    int count = 0;
    int status = 0;
    for (int32_t i = 0; i < trivet_cuts_count(page->cuts); i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        if (trivet_cuts_piece(page->cuts, i, &piece) != TRIVET_OK) {
            continue;
        }
        for (int32_t end = 0; end < 2; end++) {
            if (!piece.ends[end].has_template) {
                continue;
            }
            if (count++ == 0) {
                print_heading("Saddles: how deep to cut, from the long point, round the tube from "
                              "its top");
            }
            status |= print_saddle(page, i, &piece, end);
        }
    }
    if (count > 0) {
        print_line(2,
                   "Depth at an angle f round the tube: (r cos f cos a + sqrt(R^2 - (r sin f - "
                   "e)^2)) / sin a, less its least; r the tube, R what it sits on, a the angle "
                   "between them, e how far their axes pass apart, f from where the other leans. "
                   "A line put into the equation of a cylinder: any text on descriptive "
                   "geometry.");
    }
    return status;
}

static int print_bends(const cut_page *page)
{
    static const char *const HEADINGS[] = {"no", "bend at", "by", "turn", "from", "to"};
    columns table;
    int count = 0;
    columns_start(&table, 2, "ntnnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_cuts_count(page->cuts); i++) {
        trivet_cut_bend bend = {.size = sizeof bend};
        for (int32_t k = 0; trivet_cuts_bend(page->cuts, i, k, &bend) == TRIVET_OK; k++, count++) {
            add_number(&table, i + 1);
            columns_add(&table, name_of(page, TRIVET_KIND_JOINT, bend.joint));
            add_angle(&table, page, bend.angle);
            add_angle(&table, page, bend.turn);
            add_length(&table, page, bend.from);
            add_length(&table, page, bend.to);
        }
    }
    if (count == 0) {
        columns_drop(&table);
        return 0;
    }
    print_heading("Bends, marked on the straight bar from its first cut on the centre line");
    const int status = columns_print(&table);
    print_line(2, "The length of a bent piece is that on the line which neither stretches nor "
                  "shrinks. Turn: of the piece about itself since the bend before it.");
    return status;
}

static void write_hole(const cut_page *page, const trivet_cut_hole *hole, char text[TEXT_MAX])
{
    static const char *const IN[] = {"", "one wall", "both walls", "into the end", "plate"};
    char bolts[TEXT_MAX / 2];
    char sunk[NUMBER_MAX];
    trivet_bolts_place_text(page->frame, hole->bolts, bolts, sizeof bolts);
    snprintf(text, TEXT_MAX, "%s%s, for the bolts of %s", IN[hole->in],
             hole->is_tapped ? ", tapped" : "", bolts);
    if (!isnan(hole->countersink)) {
        const size_t used = strlen(text);
        char angle[NUMBER_MAX];
        trivet_units_text(&page->units, TRIVET_LENGTH, hole->countersink, 4, sunk, sizeof sunk);
        trivet_units_text(&page->units, TRIVET_ANGLE, hole->countersink_angle, 4, angle,
                          sizeof angle);
        snprintf(text + used, TEXT_MAX - used, ", countersunk to %s at %s", sunk, angle);
    }
}

static void add_hole(columns *table, const cut_page *page, const trivet_cut_hole *hole)
{
    char text[TEXT_MAX];
    char side[NUMBER_MAX];
    if (hole->piece < 0) {
        columns_add(table, "-");
    } else {
        add_number(table, hole->piece + 1);
    }
    columns_add(table, name_of(page, TRIVET_KIND_JOINT, hole->from));
    if (hole->piece < 0) {
        columns_add(table, "-");
        columns_add(table, "-");
        columns_add(table, "-");
    } else {
        add_length(table, page, hole->at);
        add_length(table, page, hole->at_longest);
        columns_add_value(table, &page->units, TRIVET_LENGTH, hole->side, 4);
    }
    write_side(page, hole->towards, side);
    columns_add(table, side);
    if (isnan(hole->diameter)) {
        columns_add(table, "see maker");
    } else {
        columns_add_value(table, &page->units, TRIVET_LENGTH, hole->diameter, 4);
    }
    write_hole(page, hole, text);
    columns_add(table, text);
}

static int print_holes(const cut_page *page)
{
    static const char *const HEADINGS[] = {"no",     "from", "centre line", "long point",
                                           "beside", "side", "drill",       "hole"};
    columns table;
    columns_start(&table, 2, "ntnnntnw", HEADINGS);
    const int32_t count = trivet_cuts_hole_count(page->cuts);
    for (int32_t i = 0; i < count; i++) {
        trivet_cut_hole hole = {.size = sizeof hole};
        if (trivet_cuts_hole(page->cuts, i, &hole) == TRIVET_OK) {
            add_hole(&table, page, &hole);
        }
    }
    if (count > 0) {
        print_heading(
            "Holes, from the cut at a joint: on the centre line, and from the long point");
    }
    const int status = columns_print(&table);
    if (count > 0) {
        print_line(2, "Through holes: ISO 273 medium; before tapping: the usual drill. Beside: off "
                      "the centre line, looking at the side that is drilled with the tube's first "
                      "joint to the left, upwards above 0.");
    }
    return status;
}

/* "3 1 7" */
static void write_bar(const cut_page *page, int32_t bar, char text[TEXT_MAX])
{
    int32_t count = 0;
    const int32_t *const pieces = trivet_cuts_bar_pieces(page->cuts, bar, &count);
    text[0] = '\0';
    for (int32_t i = 0; i < count; i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        char length[NUMBER_MAX];
        if (trivet_cuts_piece(page->cuts, pieces[i], &piece) == TRIVET_OK) {
            trivet_units_text(&page->units, TRIVET_LENGTH, piece.longest, DIGITS, length,
                              sizeof length);
            add_to_list(text, TEXT_MAX, "no %d (%s)", (int)pieces[i] + 1, length);
        }
    }
}

static int print_bars(const cut_page *page)
{
    static const char *const HEADINGS[] = {"bar", "stock", "length", "rest", "pieces, in order"};
    columns table;
    columns_start(&table, 2, "ntnnw", HEADINGS);
    for (int32_t i = 0; i < trivet_cuts_bar_count(page->cuts); i++) {
        trivet_cut_bar bar = {.size = sizeof bar};
        char text[TEXT_MAX];
        if (trivet_cuts_bar(page->cuts, i, &bar) != TRIVET_OK) {
            continue;
        }
        add_number(&table, i + 1);
        columns_add(&table, name_of(page, TRIVET_KIND_STOCK, bar.stock));
        add_length(&table, page, bar.length);
        add_length(&table, page, bar.rest);
        write_bar(page, i, text);
        if (!bar.is_bought) {
            char had[TEXT_MAX];
            snprintf(had, sizeof had, "at hand: %.1000s", text);
            columns_add(&table, had);
        } else {
            columns_add(&table, text);
        }
    }
    print_heading("Which piece from which bar");
    return columns_print(&table);
}

/* "nothing takes fewer", or how far the answer may be from the best. */
static void write_proof(const cut_page *page, const trivet_cut_stock *stock, char text[TEXT_MAX])
{
    const int is_cost = page->shop.aim == TRIVET_AIM_COST;
    if (stock->is_proven) {
        snprintf(text, TEXT_MAX, "%s", is_cost ? "none costs less" : "none takes fewer");
    } else if (is_cost) {
        snprintf(text, TEXT_MAX, "stopped: may be as low as %.2f", stock->least);
    } else {
        snprintf(text, TEXT_MAX, "stopped: may be as few as %.0f", stock->least);
    }
}

static void add_price(columns *table, double price)
{
    char text[NUMBER_MAX];
    snprintf(text, sizeof text, "%.2f", price);
    columns_add(table, isnan(price) ? "-" : text);
}

static int print_stocks(const cut_page *page)
{
    static const char *const HEADINGS[] = {"stock", "to buy", "length", "mass",
                                           "price", "rest",   "as"};
    columns table;
    columns_start(&table, 2, "tnnnnnw", HEADINGS);
    for (int32_t i = 0; i < trivet_cuts_stock_count(page->cuts); i++) {
        trivet_cut_stock stock = {.size = sizeof stock};
        char profile[TEXT_MAX / 4];
        char text[TEXT_MAX];
        char proof[TEXT_MAX];
        if (trivet_cuts_stock(page->cuts, i, &stock) != TRIVET_OK) {
            continue;
        }
        trivet_profile_text(trivet_frame_profile(page->frame, stock.stock), &page->units, profile,
                            sizeof profile);
        write_proof(page, &stock, proof);
        snprintf(text, sizeof text, "%s, %s; %.256s", profile,
                 trivet_frame_material(page->frame, stock.stock)->name, proof);
        columns_add(&table, name_of(page, TRIVET_KIND_STOCK, stock.stock));
        add_number(&table, stock.bought);
        add_length(&table, page, stock.bought_length);
        columns_add_value(&table, &page->units, TRIVET_MASS, stock.bought_mass, 4);
        add_price(&table, stock.price);
        add_length(&table, page, stock.rest);
        columns_add(&table, text);
    }
    print_heading("Bars to buy");
    return columns_print(&table);
}

static int print_parts(const cut_page *page)
{
    static const char *const HEADINGS[] = {"number", "small part"};
    columns table;
    columns_start(&table, 2, "nw", HEADINGS);
    const int32_t count = trivet_cuts_part_count(page->cuts);
    for (int32_t i = 0; i < count; i++) {
        trivet_cut_part part = {.size = sizeof part};
        char text[TEXT_MAX];
        if (trivet_cuts_part(page->cuts, i, &part) == TRIVET_OK) {
            trivet_cuts_part_text(page->cuts, i, &page->units, text, sizeof text);
            add_number(&table, part.count);
            columns_add(&table, text);
        }
    }
    if (count > 0) {
        print_heading("Small parts");
    }
    return columns_print(&table);
}

static void print_value(const cut_page *page, const char *what, trivet_dimension dimension,
                        double value)
{
    char text[NUMBER_MAX];
    trivet_units_text(&page->units, dimension, value, 3, text, sizeof text);
    printf("  %-34s %s\n", what, text);
}

static void print_totals(const cut_page *page)
{
    trivet_cut_totals totals = {.size = sizeof totals};
    if (trivet_cuts_totals(page->cuts, &totals) != TRIVET_OK) {
        return;
    }
    print_heading("Sums");
    print_value(page, "all pieces weigh", TRIVET_MASS, totals.mass);
    print_value(page, "bars to buy weigh", TRIVET_MASS, totals.bought_mass);
    if (!isnan(totals.price)) {
        printf("  %-34s %.2f\n", "bars to buy cost", totals.price);
    }
    print_value(page, "to paint, outside, without ends", TRIVET_AREA, totals.paint_area);
    print_value(page, "fillet welds", TRIVET_LENGTH, totals.weld_length);
    if (totals.spots > 0) {
        printf("  %-34s %d\n", "spot welds", (int)totals.spots);
    }
    print_value(page, "metal in them", TRIVET_MASS, totals.weld_metal);
    print_value(page, "wire to buy for them, or", TRIVET_MASS, totals.wire);
    print_value(page, "electrodes to buy for them", TRIVET_MASS, totals.sticks);
    print_line(2,
               "Metal: throat squared, times length, times density. Wire is that times %.3g, "
               "electrodes with their coating times %.3g (common practice; wire factor, electrode "
               "factor).",
               page->shop.wire_factor, page->shop.stick_factor);
    if (totals.assumed_welds > 0) {
        print_line(2,
                   "Of %d end%s the file does not say how welded: taken all round, with a throat "
                   "of 0.7 of the wall.",
                   (int)totals.assumed_welds, totals.assumed_welds == 1 ? "" : "s");
    }
}

static void print_small_print(const cut_page *page)
{
    char kerf[NUMBER_MAX];
    char gap[NUMBER_MAX];
    const char *text = trivet_shop_rule(0);
    trivet_units_text(&page->units, TRIVET_LENGTH, page->shop.kerf, 4, kerf, sizeof kerf);
    trivet_units_text(&page->units, TRIVET_LENGTH, page->shop.gap, 4, gap, sizeof gap);
    print_heading("How the ends are cut");
    for (int32_t i = 1; text; i++) {
        print_line(2, "%s", text);
        text = trivet_shop_rule(i);
    }
    print_line(2,
               "The saw takes %s and the gap is %s; where the file does not say, that is common "
               "practice for an abrasive disc, and for thin tube and wire feed.",
               kerf, gap);
    print_heading("To look at by hand, and left out");
    text = trivet_cuts_note(page->cuts, 0);
    for (int32_t i = 1; text; i++) {
        print_line(2, "%s", text);
        text = trivet_cuts_note(page->cuts, i);
    }
    print_line(2,
               "A cut list says nothing of whether the frame holds: trivet check does, as far as "
               "it can.");
}

int print_cut_page(const cut_page *page)
{
    int (*const tables[])(const cut_page *) = {print_stocks, print_bars,    print_pieces,
                                               print_ends,   print_saddles, print_bends,
                                               print_holes,  print_parts};
    for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
        if (tables[i](page) != 0) {
            return -1;
        }
    }
    print_totals(page);
    print_small_print(page);
    return 0;
}
