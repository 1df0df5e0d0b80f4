/*
 * What is bought, in words: bars, small parts, sums; then the rules and what is left to hands and
 * eyes.
 */
#include "shop/cut_tables.h"

#include "base/decimal.h"

#include <math.h>
#include <stdio.h>

enum { SUM_DIGITS = 3, MASS_DIGITS = 4, AMOUNT_MAX = 64 };

static const char *stock_name(const trivet_cut_tables *tables, int32_t stock)
{
    return trivet_frame_name(tables->cuts->frame, TRIVET_KIND_STOCK, stock);
}

static void add_length(trivet_cut_tables *tables, double length)
{
    trivet__cut_cell_value(tables, TRIVET_LENGTH, length, TRIVET__CELL_DIGITS);
}

/* With two digits behind the point, in every language setting. */
static void write_price(double price, char text[AMOUNT_MAX])
{
    if (!(fabs(price) < 1e15)) {
        snprintf(text, AMOUNT_MAX, "-");
    } else {
        const long long cents = llround(price * 100.0);
        snprintf(text, AMOUNT_MAX, "%lld.%02lld", cents / 100, cents % 100);
    }
}

static void add_price(trivet_cut_tables *tables, double price)
{
    char text[AMOUNT_MAX];
    write_price(price, text);
    trivet__cut_cell(tables, "%s", text);
}

/* What it is; and "none takes fewer", or how far the answer may be from the best. */
static void add_stock_text(trivet_cut_tables *tables, const trivet_cut_stock *stock)
{
    const trivet_frame *const frame = tables->cuts->frame;
    const int is_cost = tables->cuts->shop.aim == TRIVET_AIM_COST;
    char profile[TRIVET__CELL_MAX / 4];
    trivet_profile_text(trivet_frame_profile(frame, stock->stock), tables->units, profile,
                        sizeof profile);
    trivet__cut_cell(tables, "%s, %s; ", profile, trivet_frame_material(frame, stock->stock)->name);
    if (stock->is_proven) {
        trivet__cut_cell_more(tables, "%s", is_cost ? "none costs less" : "none takes fewer");
    } else if (is_cost) {
        char least[AMOUNT_MAX];
        write_price(stock->least, least);
        trivet__cut_cell_more(tables, "stopped: may be as low as %s", least);
    } else {
        trivet__cut_cell_more(tables, "stopped: may be as few as %lld", llround(stock->least));
    }
}

/* That no bars on offer were named, and what was taken instead. */
static void write_assumed_bars(trivet_cut_tables *tables)
{
    char length[AMOUNT_MAX];
    trivet_shop_bar usual;
    trivet_shop_bar_defaults(&usual, sizeof usual);
    trivet_units_text(tables->units, TRIVET_LENGTH, usual.length, TRIVET__CELL_DIGITS, length,
                      sizeof length);
    trivet__cut_line(tables,
                     "%s bars of %s are taken, as many as wanted: \"bars\" under \"shop\" in the "
                     "file says what there is to buy.",
                     tables->cuts->assumed_bars == tables->cuts->stock_count
                         ? "The file names no bars on offer;"
                         : "For some of the stock the file names no bars on offer;",
                     length);
}

void trivet__write_stocks(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"stock", "to buy", "length", "mass",
                                           "price", "rest",   "as"};
    const trivet_cuts *const cuts = tables->cuts;
    trivet__cut_table_begin(tables, TRIVET_CUT_STOCKS, "Bars to buy", "onnnnns", HEADINGS);
    for (int32_t i = 0; i < cuts->stock_count; i++) {
        const trivet_cut_stock *const stock = &cuts->stocks[i];
        trivet__cut_cell(tables, "%s", stock_name(tables, stock->stock));
        trivet__cut_cell(tables, "%d", (int)stock->bought);
        add_length(tables, stock->bought_length);
        trivet__cut_cell_value(tables, TRIVET_MASS, stock->bought_mass, MASS_DIGITS);
        add_price(tables, stock->price);
        add_length(tables, stock->rest);
        add_stock_text(tables, stock);
    }
    if (cuts->assumed_bars > 0) {
        write_assumed_bars(tables);
    }
    trivet__cut_table_end(tables);
}

void trivet__write_bars(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"bar", "stock", "length", "rest", "pieces, in order"};
    trivet__cut_table_begin(tables, TRIVET_CUT_BARS, "Which piece from which bar", "nonns",
                            HEADINGS);
    for (int32_t i = 0; i < tables->cuts->bar_count; i++) {
        const trivet_cut_bar *const bar = &tables->cuts->bars[i];
        int32_t count = 0;
        const int32_t *const pieces = trivet_cuts_bar_pieces(tables->cuts, i, &count);
        trivet__cut_cell(tables, "%d", (int)i + 1);
        trivet__cut_cell(tables, "%s", stock_name(tables, bar->stock));
        add_length(tables, bar->length);
        add_length(tables, bar->rest);
        trivet__cut_cell(tables, "%s", bar->is_bought ? "" : "at hand: ");
        for (int32_t k = 0; k < count; k++) {
            char length[AMOUNT_MAX];
            trivet_units_text(tables->units, TRIVET_LENGTH,
                              tables->cuts->pieces[pieces[k]].cut.longest, TRIVET__CELL_DIGITS,
                              length, sizeof length);
            trivet__cut_cell_more(tables, "%sno %d (%s)", k > 0 ? ", " : "", (int)pieces[k] + 1,
                                  length);
        }
    }
    trivet__cut_table_end(tables);
}

void trivet__write_parts(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"number", "small part"};
    trivet__cut_table_begin(tables, TRIVET_CUT_PARTS, "Small parts", "ns", HEADINGS);
    for (int32_t i = 0; i < tables->cuts->part_count; i++) {
        char text[TRIVET__CELL_MAX];
        trivet_cuts_part_text(tables->cuts, i, tables->units, text, sizeof text);
        trivet__cut_cell(tables, "%d", (int)tables->cuts->parts[i].count);
        trivet__cut_cell(tables, "%s", text);
    }
    trivet__cut_table_end(tables);
}

static void add_sum(trivet_cut_tables *tables, const char *what, int32_t dimension, double value)
{
    trivet__cut_cell(tables, "%s", what);
    trivet__cut_cell_value(tables, dimension, value, SUM_DIGITS);
}

static void write_sum_lines(trivet_cut_tables *tables)
{
    const trivet_shop *const shop = &tables->cuts->shop;
    const int assumed = (int)tables->cuts->totals.assumed_welds;
    char wire[AMOUNT_MAX];
    char sticks[AMOUNT_MAX];
    trivet__decimal_write(shop->wire_factor, 3, wire, sizeof wire);
    trivet__decimal_write(shop->stick_factor, 3, sticks, sizeof sticks);
    trivet__cut_line(tables,
                     "Metal: throat squared, times length, times density. Wire is that times %s, "
                     "electrodes with their coating times %s (common practice; wire factor, "
                     "electrode factor).",
                     wire, sticks);
    if (assumed > 0) {
        trivet__cut_line(tables,
                         "Of %d end%s the file does not say how welded: taken all round, with a "
                         "throat of 0.7 of the wall.",
                         assumed, assumed == 1 ? "" : "s");
    }
}

void trivet__write_sums(trivet_cut_tables *tables)
{
    static const char *const HEADINGS[] = {"sum", "amount"};
    char area[AMOUNT_MAX];
    const trivet_cut_totals *const totals = &tables->cuts->totals;
    trivet__cut_table_begin(tables, TRIVET_CUT_SUMS, "Sums", "tn", HEADINGS);
    add_sum(tables, "all pieces weigh", TRIVET_MASS, totals->mass);
    add_sum(tables, "bars to buy weigh", TRIVET_MASS, totals->bought_mass);
    if (!isnan(totals->price)) {
        trivet__cut_cell(tables, "bars to buy cost");
        add_price(tables, totals->price);
    }
    add_sum(tables, "to paint, outside, without ends", TRIVET_AREA, totals->paint_area);
    /* Tins of paint speak of square metres, whatever a drawing is in. */
    trivet__decimal_write(totals->paint_area, SUM_DIGITS, area, sizeof area);
    trivet__cut_cell(tables, "that is");
    trivet__cut_cell(tables, "%s m^2", area);
    add_sum(tables, "fillet welds", TRIVET_LENGTH, totals->weld_length);
    if (totals->spots > 0) {
        trivet__cut_cell(tables, "spot welds");
        trivet__cut_cell(tables, "%d", (int)totals->spots);
    }
    add_sum(tables, "metal in them", TRIVET_MASS, totals->weld_metal);
    add_sum(tables, "wire to buy for them, or", TRIVET_MASS, totals->wire);
    add_sum(tables, "electrodes to buy for them", TRIVET_MASS, totals->sticks);
    write_sum_lines(tables);
    trivet__cut_table_end(tables);
}

void trivet__write_rules(trivet_cut_tables *tables)
{
    const trivet_shop *const shop = &tables->cuts->shop;
    const char *text = trivet_shop_rule(0);
    char kerf[AMOUNT_MAX];
    char gap[AMOUNT_MAX];
    trivet_units_text(tables->units, TRIVET_LENGTH, shop->kerf, 4, kerf, sizeof kerf);
    trivet_units_text(tables->units, TRIVET_LENGTH, shop->gap, 4, gap, sizeof gap);
    trivet__cut_table_begin(tables, TRIVET_CUT_RULES, "How the ends are cut", "", NULL);
    for (int32_t i = 1; text; i++) {
        trivet__cut_line(tables, "%s", text);
        text = trivet_shop_rule(i);
    }
    trivet__cut_line(tables,
                     "The saw takes %s and the gap is %s; where the file does not say, that is "
                     "common practice for an abrasive disc, and for thin tube and wire feed.",
                     kerf, gap);
    trivet__cut_table_end(tables);
}

void trivet__write_notes(trivet_cut_tables *tables)
{
    trivet__cut_table_begin(tables, TRIVET_CUT_NOTES, "To look at by hand, and left out", "", NULL);
    for (int32_t i = 0; i < tables->cuts->note_count; i++) {
        trivet__cut_line(tables, "%s", tables->cuts->notes[i].text);
    }
    trivet__cut_line(tables,
                     "A cut list says nothing of whether the frame holds: the checks do, as "
                     "far as they can.");
    trivet__cut_table_end(tables);
}
