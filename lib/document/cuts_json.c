/*
 * A cut list as JSON, in SI.
 */
#include "base/message.h"
#include "document/json.h"
#include "document/record.h"

#include <math.h>
#include <stddef.h>

enum { TEXT_MAX = 512, TABLE_STEPS = 36 };

static const double PI = 3.14159265358979323846;

/* Everything that the writing looks at. */
typedef struct cuts_writing {
    trivet__json json;
    const trivet_document *document;
    const trivet_frame *frame;
    const trivet_cuts *cuts;
} cuts_writing;

static void put_name(cuts_writing *w, json_t *into, const char *key, int32_t kind, int32_t index)
{
    trivet__json_put_text(&w->json, into, key, trivet_frame_name(w->frame, kind, index));
}

/* The depth of a saddle all round, and where its template goes. */
static void put_saddle(cuts_writing *w, json_t *into, int32_t piece, int32_t end)
{
    double rounds[TABLE_STEPS];
    double depths[TABLE_STEPS];
    char name[TEXT_MAX];
    json_t *const saddle = trivet__json_object(&w->json);
    for (int32_t i = 0; i < TABLE_STEPS; i++) {
        rounds[i] = 2.0 * PI * i / TABLE_STEPS;
        depths[i] = trivet_cuts_saddle_depth(w->cuts, piece, end, rounds[i]);
    }
    trivet_cuts_template_name(w->cuts, piece, end, name, sizeof name);
    trivet__json_put_text(&w->json, saddle, "template", name);
    trivet__json_put_row(&w->json, saddle, "round", rounds, TABLE_STEPS);
    trivet__json_put_row(&w->json, saddle, "depth", depths, TABLE_STEPS);
    trivet__json_put(&w->json, into, "saddle", saddle);
}

static json_t *make_end(cuts_writing *w, const trivet_cut_piece *piece, int32_t number, int32_t end)
{
    const trivet_cut_end *const of = &piece->ends[end];
    json_t *const one = trivet__json_object(&w->json);
    put_name(w, one, "joint", TRIVET_KIND_JOINT, of->joint);
    trivet__json_put_text(&w->json, one, "cut", trivet_cut_text(of->cut));
    put_name(w, one, "onto", TRIVET_KIND_TUBE, of->onto);
    trivet__json_put_number(&w->json, one, "angle", of->angle);
    trivet__json_put_number(&w->json, one, "towards", of->towards);
    trivet__json_put_number(&w->json, one, "beyond", of->beyond);
    trivet__json_put_number(&w->json, one, "long beyond", of->longest);
    trivet__json_put_number(&w->json, one, "short beyond", of->shortest);
    if (of->has_template) {
        put_saddle(w, one, number, end);
    }
    return one;
}

static json_t *make_bend(cuts_writing *w, int32_t piece, int32_t index)
{
    json_t *const one = trivet__json_object(&w->json);
    trivet_cut_bend bend = {.size = sizeof bend};
    if (trivet_cuts_bend(w->cuts, piece, index, &bend) != TRIVET_OK) {
        w->json.is_spoilt = 1;
        return one;
    }
    put_name(w, one, "joint", TRIVET_KIND_JOINT, bend.joint);
    trivet__json_put_number(&w->json, one, "angle", bend.angle);
    trivet__json_put_number(&w->json, one, "from", bend.from);
    trivet__json_put_number(&w->json, one, "to", bend.to);
    trivet__json_put_number(&w->json, one, "turn", bend.turn);
    return one;
}

static json_t *make_piece(cuts_writing *w, int32_t index)
{
    json_t *const one = trivet__json_object(&w->json);
    json_t *const ends = trivet__json_list(&w->json);
    json_t *const bends = trivet__json_list(&w->json);
    trivet_cut_piece piece = {.size = sizeof piece};
    char name[TEXT_MAX];
    if (trivet_cuts_piece(w->cuts, index, &piece) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    trivet_cuts_piece_text(w->cuts, index, name, sizeof name);
    trivet__json_put_whole(&w->json, one, "number", index + 1);
    trivet__json_put_text(&w->json, one, "name", name);
    trivet__json_put_text(&w->json, one, "kind",
                          piece.insert >= 0 ? "insert"
                          : piece.bend >= 0 ? "bent"
                                            : "tube");
    put_name(w, one, "tube", TRIVET_KIND_TUBE, piece.tube);
    put_name(w, one, "stock", TRIVET_KIND_STOCK, piece.stock);
    trivet__json_put_number(&w->json, one, "centre", piece.length);
    trivet__json_put_number(&w->json, one, "long", piece.longest);
    trivet__json_put_number(&w->json, one, "short", piece.shortest);
    trivet__json_put_number(&w->json, one, "turn", piece.turn);
    trivet__json_put_number(&w->json, one, "mass", piece.mass);
    for (int32_t end = 0; end < 2; end++) {
        trivet__json_push(&w->json, ends, make_end(w, &piece, index, end));
    }
    for (int32_t i = 0; i < piece.bend_count; i++) {
        trivet__json_push(&w->json, bends, make_bend(w, index, i));
    }
    trivet__json_put(&w->json, one, "ends", ends);
    trivet__json_put(&w->json, one, "bends", bends);
    return one;
}

static json_t *make_hole(cuts_writing *w, int32_t index)
{
    static const char *const IN[] = {"", "wall", "across", "end", "plate"};
    json_t *const one = trivet__json_object(&w->json);
    trivet_cut_hole hole = {.size = sizeof hole};
    char text[TEXT_MAX];
    if (trivet_cuts_hole(w->cuts, index, &hole) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    trivet__json_put(&w->json, one, "piece",
                     hole.piece < 0 ? json_null() : json_integer(hole.piece + 1));
    trivet_bolts_place_text(w->frame, hole.bolts, text, sizeof text);
    trivet__json_put_text(&w->json, one, "bolts of", text);
    trivet__json_put_whole(&w->json, one, "bolt", hole.number + 1);
    trivet__json_put_text(&w->json, one, "in", IN[hole.in]);
    put_name(w, one, "from", TRIVET_KIND_JOINT, hole.from);
    trivet__json_put_truth(&w->json, one, "tapped", hole.is_tapped);
    trivet__json_put_number(&w->json, one, "at", hole.at);
    trivet__json_put_number(&w->json, one, "at from long point", hole.at_longest);
    trivet__json_put_number(&w->json, one, "side", hole.side);
    trivet__json_put_number(&w->json, one, "towards", hole.towards);
    trivet__json_put_number(&w->json, one, "diameter", hole.diameter);
    trivet__json_put_number(&w->json, one, "countersink", hole.countersink);
    trivet__json_put_number(&w->json, one, "countersink angle", hole.countersink_angle);
    return one;
}

static json_t *make_bar(cuts_writing *w, int32_t index)
{
    json_t *const one = trivet__json_object(&w->json);
    json_t *const pieces = trivet__json_list(&w->json);
    trivet_cut_bar bar = {.size = sizeof bar};
    int32_t count = 0;
    if (trivet_cuts_bar(w->cuts, index, &bar) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    const int32_t *const of = trivet_cuts_bar_pieces(w->cuts, index, &count);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(&w->json, pieces, json_integer(of[i] + 1));
    }
    trivet__json_put_whole(&w->json, one, "number", index + 1);
    put_name(w, one, "stock", TRIVET_KIND_STOCK, bar.stock);
    trivet__json_put_number(&w->json, one, "length", bar.length);
    trivet__json_put_truth(&w->json, one, "bought", bar.is_bought);
    trivet__json_put_number(&w->json, one, "price", bar.price);
    trivet__json_put(&w->json, one, "pieces", pieces);
    trivet__json_put_number(&w->json, one, "rest", bar.rest);
    return one;
}

static json_t *make_stock(cuts_writing *w, int32_t index)
{
    json_t *const one = trivet__json_object(&w->json);
    trivet_cut_stock stock = {.size = sizeof stock};
    if (trivet_cuts_stock(w->cuts, index, &stock) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    put_name(w, one, "stock", TRIVET_KIND_STOCK, stock.stock);
    trivet__json_put_whole(&w->json, one, "pieces", stock.piece_count);
    trivet__json_put_whole(&w->json, one, "bars", stock.bar_count);
    trivet__json_put_whole(&w->json, one, "bought", stock.bought);
    trivet__json_put_truth(&w->json, one, "proven", stock.is_proven);
    trivet__json_put_number(&w->json, one, "least", stock.least);
    trivet__json_put_number(&w->json, one, "steps", stock.steps);
    trivet__json_put_number(&w->json, one, "bought length", stock.bought_length);
    trivet__json_put_number(&w->json, one, "bought mass", stock.bought_mass);
    trivet__json_put_number(&w->json, one, "price", stock.price);
    trivet__json_put_number(&w->json, one, "pieces length", stock.pieces_length);
    trivet__json_put_number(&w->json, one, "rest", stock.rest);
    return one;
}

static json_t *make_part(cuts_writing *w, int32_t index)
{
    json_t *const one = trivet__json_object(&w->json);
    trivet_cut_part part = {.size = sizeof part};
    char text[TEXT_MAX];
    if (trivet_cuts_part(w->cuts, index, &part) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    trivet_cuts_part_text(w->cuts, index, NULL, text, sizeof text);
    trivet__json_put_whole(&w->json, one, "count", part.count);
    trivet__json_put_text(&w->json, one, "part", text);
    return one;
}

static void put_list(cuts_writing *w, json_t *root, const char *key, int32_t count,
                     json_t *(*make)(cuts_writing *, int32_t))
{
    json_t *const list = trivet__json_list(&w->json);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(&w->json, list, make(w, i));
    }
    trivet__json_put(&w->json, root, key, list);
}

static void put_totals(cuts_writing *w, json_t *root)
{
    json_t *const one = trivet__json_object(&w->json);
    trivet_cut_totals totals = {.size = sizeof totals};
    if (trivet_cuts_totals(w->cuts, &totals) != TRIVET_OK) {
        w->json.is_spoilt = 1;
    }
    trivet__json_put_number(&w->json, one, "mass", totals.mass);
    trivet__json_put_number(&w->json, one, "bought mass", totals.bought_mass);
    trivet__json_put_number(&w->json, one, "price", totals.price);
    trivet__json_put_number(&w->json, one, "paint area", totals.paint_area);
    trivet__json_put_number(&w->json, one, "weld length", totals.weld_length);
    trivet__json_put_number(&w->json, one, "weld metal", totals.weld_metal);
    trivet__json_put_number(&w->json, one, "wire", totals.wire);
    trivet__json_put_number(&w->json, one, "electrodes", totals.sticks);
    trivet__json_put_whole(&w->json, one, "spots", totals.spots);
    trivet__json_put_whole(&w->json, one, "assumed welds", totals.assumed_welds);
    trivet__json_put(&w->json, root, "totals", one);
}

static void put_settings(cuts_writing *w, json_t *root)
{
    const trivet_shop *const shop = &w->document->shop;
    json_t *const one = trivet__json_object(&w->json);
    trivet__json_put_number(&w->json, one, "kerf", shop->kerf);
    trivet__json_put_number(&w->json, one, "gap", shop->gap);
    trivet__json_put_text(&w->json, one, "aim", shop->aim == TRIVET_AIM_COST ? "cost" : "bars");
    trivet__json_put_number(&w->json, one, "wire factor", shop->wire_factor);
    trivet__json_put_number(&w->json, one, "electrode factor", shop->stick_factor);
    trivet__json_put(&w->json, root, "shop", one);
}

static void put_texts(cuts_writing *w, json_t *root)
{
    json_t *const rules = trivet__json_list(&w->json);
    json_t *const notes = trivet__json_list(&w->json);
    const char *text = trivet_shop_rule(0);
    for (int32_t i = 1; text; i++) {
        trivet__json_push(&w->json, rules, json_string(text));
        text = trivet_shop_rule(i);
    }
    text = trivet_cuts_note(w->cuts, 0);
    for (int32_t i = 1; text; i++) {
        trivet__json_push(&w->json, notes, json_string(text));
        text = trivet_cuts_note(w->cuts, i);
    }
    trivet__json_put(&w->json, root, "rules", rules);
    trivet__json_put(&w->json, root, "notes", notes);
}

trivet_status trivet_document_cuts_json(const trivet_document *document, const trivet_cuts *cuts,
                                        char **text_out, trivet_message *message)
{
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !cuts || !text_out) {
        return trivet__missing(message, !document ? "document" : !cuts ? "cuts" : "text_out");
    }
    cuts_writing w = {.document = document, .frame = document->frame, .cuts = cuts};
    json_t *const root = trivet__json_object(&w.json);
    trivet__json_put_text(&w.json, root, "trivet", trivet_version());
    trivet__json_put_text(&w.json, root, "name", document->name);
    put_settings(&w, root);
    put_list(&w, root, "pieces", trivet_cuts_count(cuts), make_piece);
    put_list(&w, root, "holes", trivet_cuts_hole_count(cuts), make_hole);
    put_list(&w, root, "bars", trivet_cuts_bar_count(cuts), make_bar);
    put_list(&w, root, "stocks", trivet_cuts_stock_count(cuts), make_stock);
    put_list(&w, root, "parts", trivet_cuts_part_count(cuts), make_part);
    put_totals(&w, root);
    put_texts(&w, root);
    return trivet__json_text(&w.json, root, text_out, message);
}
