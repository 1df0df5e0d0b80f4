/*
 * Tables of a cut list.
 */
#include "report/export_csv.h"

#include "base/message.h"
#include "trivet/checks.h"
#include "trivet/report_export.h"

#include <math.h>

enum { TEXT_MAX = 1024, DEPTHS = 36 };

static const double PI = 3.14159265358979323846;

typedef trivet_status cut_fill(const trivet_frame *frame, const trivet_cuts *cuts,
                               trivet__csv *csv);

static void put_name(const trivet_frame *frame, trivet__csv *csv, int32_t kind, int32_t index)
{
    trivet__csv_text(csv, trivet_frame_name(frame, kind, index));
}

static trivet_status fill_pieces(const trivet_frame *frame, const trivet_cuts *cuts,
                                 trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < trivet_cuts_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        char name[TEXT_MAX];
        status = trivet_cuts_piece(cuts, i, &piece);
        trivet_cuts_piece_text(cuts, i, name, sizeof name);
        trivet__csv_whole(csv, i + 1);
        trivet__csv_text(csv, name);
        trivet__csv_text(csv, piece.insert >= 0 ? "insert" : piece.bend >= 0 ? "bent" : "tube");
        put_name(frame, csv, TRIVET_KIND_STOCK, piece.stock);
        trivet__csv_number(csv, piece.longest);
        trivet__csv_number(csv, piece.shortest);
        trivet__csv_number(csv, piece.length);
        trivet__csv_number(csv, piece.turn);
        trivet__csv_number(csv, piece.mass);
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_ends(const trivet_frame *frame, const trivet_cuts *cuts, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < 2 * trivet_cuts_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        status = trivet_cuts_piece(cuts, i / 2, &piece);
        const trivet_cut_end *const end = &piece.ends[i % 2];
        if (piece.insert >= 0) {
            continue;
        }
        trivet__csv_whole(csv, i / 2 + 1);
        trivet__csv_text(csv, i % 2 == 0 ? "first" : "last");
        put_name(frame, csv, TRIVET_KIND_JOINT, end->joint);
        trivet__csv_text(csv, trivet_cut_text(end->cut));
        put_name(frame, csv, TRIVET_KIND_TUBE, end->onto);
        trivet__csv_number(csv, end->angle);
        trivet__csv_number(csv, end->towards);
        trivet__csv_number(csv, end->beyond);
        trivet__csv_number(csv, end->longest);
        trivet__csv_number(csv, end->shortest);
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_saddles(const trivet_frame *frame, const trivet_cuts *cuts,
                                  trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < 2 * trivet_cuts_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        status = trivet_cuts_piece(cuts, i / 2, &piece);
        for (int k = 0; k < DEPTHS && piece.ends[i % 2].has_template; k++) {
            const double round = 2.0 * PI * k / DEPTHS;
            trivet__csv_whole(csv, i / 2 + 1);
            put_name(frame, csv, TRIVET_KIND_JOINT, piece.ends[i % 2].joint);
            trivet__csv_number(csv, round);
            trivet__csv_number(csv, trivet_cuts_saddle_depth(cuts, i / 2, i % 2, round));
            trivet__csv_end_row(csv);
        }
    }
    return status;
}

static trivet_status fill_bends(const trivet_frame *frame, const trivet_cuts *cuts,
                                trivet__csv *csv)
{
    for (int32_t i = 0; i < trivet_cuts_count(cuts); i++) {
        trivet_cut_bend bend = {.size = sizeof bend};
        for (int32_t k = 0; trivet_cuts_bend(cuts, i, k, &bend) == TRIVET_OK; k++) {
            trivet__csv_whole(csv, i + 1);
            put_name(frame, csv, TRIVET_KIND_JOINT, bend.joint);
            trivet__csv_number(csv, bend.angle);
            trivet__csv_number(csv, bend.turn);
            trivet__csv_number(csv, bend.from);
            trivet__csv_number(csv, bend.to);
            trivet__csv_end_row(csv);
        }
    }
    return TRIVET_OK;
}

static trivet_status fill_holes(const trivet_frame *frame, const trivet_cuts *cuts,
                                trivet__csv *csv)
{
    static const char *const IN[] = {"", "wall", "across", "end", "plate"};
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < trivet_cuts_hole_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_hole hole = {.size = sizeof hole};
        char text[TEXT_MAX];
        status = trivet_cuts_hole(cuts, i, &hole);
        trivet_bolts_place_text(frame, hole.bolts, text, sizeof text);
        if (hole.piece >= 0) {
            trivet__csv_whole(csv, hole.piece + 1);
        } else {
            trivet__csv_text(csv, NULL);
        }
        trivet__csv_text(csv, text);
        trivet__csv_whole(csv, hole.number + 1);
        trivet__csv_text(csv, IN[hole.in]);
        put_name(frame, csv, TRIVET_KIND_JOINT, hole.from);
        trivet__csv_text(csv, hole.is_tapped ? "yes" : "no");
        trivet__csv_number(csv, hole.at);
        trivet__csv_number(csv, hole.at_longest);
        trivet__csv_number(csv, hole.side);
        trivet__csv_number(csv, hole.towards);
        trivet__csv_number(csv, hole.diameter);
        trivet__csv_number(csv, hole.countersink);
        trivet__csv_number(csv, hole.countersink_angle);
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_bars(const trivet_frame *frame, const trivet_cuts *cuts, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < trivet_cuts_bar_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_bar bar = {.size = sizeof bar};
        status = trivet_cuts_bar(cuts, i, &bar);
        trivet__csv_whole(csv, i + 1);
        put_name(frame, csv, TRIVET_KIND_STOCK, bar.stock);
        trivet__csv_text(csv, bar.is_bought ? "yes" : "no");
        trivet__csv_number(csv, bar.length);
        trivet__csv_number(csv, bar.price);
        trivet__csv_number(csv, bar.rest);
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_layout(const trivet_frame *frame, const trivet_cuts *cuts,
                                 trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    (void)frame;
    for (int32_t i = 0; i < trivet_cuts_bar_count(cuts); i++) {
        int32_t count = 0;
        const int32_t *const pieces = trivet_cuts_bar_pieces(cuts, i, &count);
        for (int32_t k = 0; k < count && status == TRIVET_OK; k++) {
            trivet_cut_piece piece = {.size = sizeof piece};
            status = trivet_cuts_piece(cuts, pieces[k], &piece);
            trivet__csv_whole(csv, i + 1);
            trivet__csv_whole(csv, k + 1);
            trivet__csv_whole(csv, pieces[k] + 1);
            trivet__csv_number(csv, piece.longest);
            trivet__csv_end_row(csv);
        }
    }
    return status;
}

static trivet_status fill_buy(const trivet_frame *frame, const trivet_cuts *cuts, trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < trivet_cuts_stock_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_stock stock = {.size = sizeof stock};
        status = trivet_cuts_stock(cuts, i, &stock);
        put_name(frame, csv, TRIVET_KIND_STOCK, stock.stock);
        trivet__csv_whole(csv, stock.piece_count);
        trivet__csv_whole(csv, stock.bar_count);
        trivet__csv_whole(csv, stock.bought);
        trivet__csv_number(csv, stock.bought_length);
        trivet__csv_number(csv, stock.bought_mass);
        trivet__csv_number(csv, stock.price);
        trivet__csv_number(csv, stock.rest);
        trivet__csv_text(csv, stock.is_proven ? "yes" : "no");
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_parts(const trivet_frame *frame, const trivet_cuts *cuts,
                                trivet__csv *csv)
{
    trivet_status status = TRIVET_OK;
    (void)frame;
    for (int32_t i = 0; i < trivet_cuts_part_count(cuts) && status == TRIVET_OK; i++) {
        trivet_cut_part part = {.size = sizeof part};
        char text[TEXT_MAX];
        status = trivet_cuts_part(cuts, i, &part);
        trivet_cuts_part_text(cuts, i, NULL, text, sizeof text);
        trivet__csv_whole(csv, part.count);
        trivet__csv_text(csv, text);
        trivet__csv_end_row(csv);
    }
    return status;
}

static trivet_status fill_sums(const trivet_frame *frame, const trivet_cuts *cuts, trivet__csv *csv)
{
    trivet_cut_totals totals = {.size = sizeof totals};
    const trivet_status status = trivet_cuts_totals(cuts, &totals);
    (void)frame;
    trivet__csv_number(csv, totals.mass);
    trivet__csv_number(csv, totals.bought_mass);
    trivet__csv_number(csv, totals.price);
    trivet__csv_number(csv, totals.paint_area);
    trivet__csv_number(csv, totals.weld_length);
    trivet__csv_number(csv, totals.weld_metal);
    trivet__csv_number(csv, totals.wire);
    trivet__csv_number(csv, totals.sticks);
    trivet__csv_whole(csv, totals.spots);
    trivet__csv_whole(csv, totals.assumed_welds);
    trivet__csv_end_row(csv);
    return status;
}

static trivet_status fill_notes(const trivet_frame *frame, const trivet_cuts *cuts,
                                trivet__csv *csv)
{
    const char *text = trivet_cuts_note(cuts, 0);
    (void)frame;
    for (int32_t i = 1; text; i++) {
        trivet__csv_text(csv, text);
        trivet__csv_end_row(csv);
        text = trivet_cuts_note(cuts, i);
    }
    return TRIVET_OK;
}

static const struct cut_row {
    const char *name;
    const char *headings;
    cut_fill *fill;
} TABLES[] = {
    {"pieces",
     "number,piece,kind,stock,long to long (m),short to short (m),centre line (m),turn (rad),"
     "mass (kg)",
     fill_pieces},
    {"ends",
     "piece,end,joint,cut,onto,off square (rad),long point (rad),beyond the model (m),"
     "long point beyond (m),short point beyond (m)",
     fill_ends},
    {"saddles", "piece,joint,round (rad),deep (m)", fill_saddles},
    {"bends", "piece,joint,by (rad),turn (rad),from (m),to (m)", fill_bends},
    {"holes",
     "piece,bolts of,bolt,in,from,tapped,at (m),at from long point (m),beside (m),side (rad),"
     "drill (m),countersink (m),countersink angle (rad)",
     fill_holes},
    {"bars", "bar,stock,to buy,length (m),price,rest (m)", fill_bars},
    {"layout", "bar,place,piece,long to long (m)", fill_layout},
    {"buy", "stock,pieces,bars,to buy,length (m),mass (kg),price,rest (m),none takes less",
     fill_buy},
    {"parts", "number,small part", fill_parts},
    {"sums",
     "pieces (kg),to buy (kg),price,paint (m^2),fillet welds (m),weld metal (kg),wire (kg),"
     "electrodes (kg),spot welds,assumed welds",
     fill_sums},
    {"by-hand", "note", fill_notes},
};

enum { TABLE_COUNT = (int)(sizeof TABLES / sizeof TABLES[0]) };

const char *trivet_export_cut_table(int32_t index)
{
    return index >= 0 && index < TABLE_COUNT ? TABLES[index].name : NULL;
}

trivet_status trivet_export_cuts_csv(const trivet_frame *frame, const trivet_cuts *cuts,
                                     int32_t table, char **bytes_out, size_t *length_out,
                                     trivet_message *message)
{
    trivet__bytes bytes = {0};
    trivet__csv csv = {&bytes, 0};
    if (bytes_out) {
        *bytes_out = NULL;
    }
    if (length_out) {
        *length_out = 0;
    }
    if (!frame || !cuts || !bytes_out) {
        return trivet__missing(message, !frame ? "frame" : !cuts ? "cuts" : "bytes_out");
    }
    if (!trivet_export_cut_table(table)) {
        return trivet__csv_no_table(message, table, TABLE_COUNT);
    }
    trivet__bytes_text(&bytes, TABLES[table].headings);
    trivet__csv_end_row(&csv);
    const trivet_status status = TABLES[table].fill(frame, cuts, &csv);
    if (status != TRIVET_OK) {
        trivet__bytes_free(&bytes);
        return status == TRIVET_NO_MEMORY ? trivet__no_memory(message) : status;
    }
    return trivet__bytes_hand_out(&bytes, bytes_out, length_out, message);
}
