/*
 * DXF R12 (AC1009): a header, a table of layers, entities. (The format: DXF reference of release
 * 12; its order of sections and the groups of each entity from memory, read back in the tests.)
 */
#include "report/export_dxf.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "trivet/report_export.h"

#include <math.h>

/* Height of lettering, m. */
#define LETTER 0.005

/* Numbers in the format's table of colours: 1 red, 3 green, 5 blue, 7 black or white, 8 grey. */
enum { RED = 1, GREEN = 3, BLUE = 5, BLACK = 7, GREY = 8 };

enum { FIXED_LAYERS = 3 }; /* JOINTS, JOINT_NAMES, PLATE_NAMES */

/* A writing in progress. */
typedef struct dxf_writing {
    const trivet_frame *frame;
    trivet__bytes *bytes;
    trivet__layers layers;     /* stocks, then three for each deck, then the fixed ones */
    trivet_cutting **cuttings; /* [deck], NULL: cannot be laid out */
    int32_t stock_count;
    int32_t deck_count;
} dxf_writing;

static const trivet__layer *fixed_layer(const dxf_writing *w, int32_t number)
{
    return &w->layers.list[w->stock_count + TRIVET__DXF_PLATE * w->deck_count + number];
}

static const trivet__layer *deck_layers(const dxf_writing *w, int32_t deck)
{
    return &w->layers.list[w->stock_count + TRIVET__DXF_PLATE * deck];
}

static void name_layers(dxf_writing *w)
{
    for (int32_t i = 0; i < w->stock_count; i++) {
        trivet__layer_add(&w->layers, "TUBE_", trivet_frame_name(w->frame, TRIVET_KIND_STOCK, i),
                          BLUE);
    }
    for (int32_t i = 0; i < w->deck_count; i++) {
        const char *const name = trivet_frame_name(w->frame, TRIVET_KIND_DECK, i);
        trivet__layer_add(&w->layers, "PLATE_", name, BLACK);
        trivet__layer_add(&w->layers, "HOLES_", name, RED);
        trivet__layer_add(&w->layers, "SLOTS_", name, GREEN);
    }
    trivet__layer_add(&w->layers, "JOINTS", NULL, GREY);
    trivet__layer_add(&w->layers, "JOINT_NAMES", NULL, GREY);
    trivet__layer_add(&w->layers, "PLATE_NAMES", NULL, GREY);
}

/* A comment: our own words, then anybody's text; over several lines if it is long. */
static void write_comment(dxf_writing *w, const char *words, const char *text)
{
    char line[TRIVET_THING_MAX + TRIVET_PROBLEM_MAX + TRIVET__LAYER_MAX + TRIVET_NAME_MAX];
    trivet__text_print(line, sizeof line, "%s%s", words, text);
    const char *rest = line;
    do {
        rest += trivet__dxf_text(w->bytes, 999, rest);
    } while (*rest);
}

static void write_comments(dxf_writing *w)
{
    write_comment(w,
                  "Lengths in mm. World axes: x forward, y left, z up; plates at z = 0, seen from "
                  "above.",
                  "");
    for (int32_t i = 0; i < w->layers.count; i++) {
        const trivet__layer *const layer = &w->layers.list[i];
        char words[TRIVET__LAYER_MAX + 8];
        if (layer->of) {
            trivet__text_print(words, sizeof words, "%s: ", layer->name);
            write_comment(w, words, layer->of);
        }
    }
}

/* Lays the decks out; why one cannot be becomes a comment. */
static trivet_status lay_out_decks(dxf_writing *w, trivet_message *message)
{
    for (int32_t i = 0; i < w->deck_count; i++) {
        trivet_message why;
        trivet_message_clear(&why);
        const trivet_status status = trivet_cutting_new(w->frame, i, &w->cuttings[i], &why);
        if (status == TRIVET_NO_MEMORY) {
            return trivet__no_memory(message);
        }
        if (status != TRIVET_OK) {
            char text[TRIVET_THING_MAX + TRIVET_PROBLEM_MAX];
            trivet__text_print(text, sizeof text, "%s: %s", why.thing, why.problem);
            write_comment(w, "No plate is drawn for ", text);
        }
    }
    return TRIVET_OK;
}

static void write_header(dxf_writing *w)
{
    trivet__dxf_word(w->bytes, 0, "SECTION");
    trivet__dxf_word(w->bytes, 2, "HEADER");
    trivet__dxf_word(w->bytes, 9, "$ACADVER");
    trivet__dxf_word(w->bytes, 1, "AC1009");
    trivet__dxf_word(w->bytes, 9, "$DWGCODEPAGE");
    trivet__dxf_word(w->bytes, 3, "ANSI_1252");
    trivet__dxf_word(w->bytes, 0, "ENDSEC");
}

static void write_layer_table(dxf_writing *w)
{
    trivet__dxf_word(w->bytes, 0, "TABLE");
    trivet__dxf_word(w->bytes, 2, "LAYER");
    trivet__dxf_whole(w->bytes, 70, w->layers.count);
    for (int32_t i = 0; i < w->layers.count; i++) {
        trivet__dxf_word(w->bytes, 0, "LAYER");
        trivet__dxf_word(w->bytes, 2, w->layers.list[i].name);
        trivet__dxf_whole(w->bytes, 70, 0);
        trivet__dxf_whole(w->bytes, 62, w->layers.list[i].colour);
        trivet__dxf_word(w->bytes, 6, "CONTINUOUS");
    }
    trivet__dxf_word(w->bytes, 0, "ENDTAB");
}

static void write_tables(dxf_writing *w)
{
    trivet__dxf_word(w->bytes, 0, "SECTION");
    trivet__dxf_word(w->bytes, 2, "TABLES");
    trivet__dxf_word(w->bytes, 0, "TABLE");
    trivet__dxf_word(w->bytes, 2, "LTYPE");
    trivet__dxf_whole(w->bytes, 70, 1);
    trivet__dxf_word(w->bytes, 0, "LTYPE");
    trivet__dxf_word(w->bytes, 2, "CONTINUOUS");
    trivet__dxf_whole(w->bytes, 70, 0);
    trivet__dxf_word(w->bytes, 3, "Solid line");
    trivet__dxf_whole(w->bytes, 72, 65); /* always */
    trivet__dxf_whole(w->bytes, 73, 0);  /* no dashes */
    trivet__dxf_number(w->bytes, 40, 0.0);
    trivet__dxf_word(w->bytes, 0, "ENDTAB");
    write_layer_table(w);
    trivet__dxf_word(w->bytes, 0, "ENDSEC");
}

static void tube_point(const dxf_writing *w, int32_t tube, int32_t joint, double out[3])
{
    const double *const at = trivet_frame_position(w->frame, joint);
    double offset[3] = {0.0, 0.0, 0.0};
    trivet_frame_offset(w->frame, tube, joint, offset);
    for (int i = 0; i < 3; i++) {
        out[i] = at[i] + offset[i];
    }
}

static void write_tubes(dxf_writing *w)
{
    for (int32_t tube = 0; tube < trivet_frame_count(w->frame, TRIVET_KIND_TUBE); tube++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(w->frame, tube, &count);
        const trivet__layer *const layer = &w->layers.list[trivet_frame_tube_stock(w->frame, tube)];
        for (int32_t i = 0; i + 1 < count; i++) {
            double from[3];
            double to[3];
            tube_point(w, tube, joints[i], from);
            tube_point(w, tube, joints[i + 1], to);
            trivet__dxf_entity(w->bytes, "LINE", layer);
            trivet__dxf_point(w->bytes, 10, from[0], from[1], from[2]);
            trivet__dxf_point(w->bytes, 11, to[0], to[1], to[2]);
        }
    }
}

static void write_joints(dxf_writing *w)
{
    for (int32_t i = 0; i < trivet_frame_count(w->frame, TRIVET_KIND_JOINT); i++) {
        const double *const at = trivet_frame_position(w->frame, i);
        trivet__dxf_entity(w->bytes, "POINT", fixed_layer(w, 0));
        trivet__dxf_point(w->bytes, 10, at[0], at[1], at[2]);
        trivet__dxf_label(w->bytes, fixed_layer(w, 1), at, LETTER,
                          trivet_frame_name(w->frame, TRIVET_KIND_JOINT, i));
    }
}

/* A plate's name stands above its topmost corner. */
static void write_plate_name(dxf_writing *w, int32_t deck)
{
    int32_t count = 0;
    const double *const corners = trivet_cutting_outline(w->cuttings[deck], &count);
    double at[3] = {corners[0], corners[1], 0.0};
    for (int32_t i = 1; i < count; i++) {
        at[0] = fmin(at[0], corners[3 * i]);
        at[1] = fmax(at[1], corners[3 * i + 1]);
    }
    at[1] += LETTER;
    trivet__dxf_label(w->bytes, fixed_layer(w, 2), at, LETTER,
                      trivet_frame_name(w->frame, TRIVET_KIND_DECK, deck));
}

static void write_entities(dxf_writing *w)
{
    trivet__dxf_word(w->bytes, 0, "SECTION");
    trivet__dxf_word(w->bytes, 2, "ENTITIES");
    write_tubes(w);
    write_joints(w);
    for (int32_t i = 0; i < w->deck_count; i++) {
        if (w->cuttings[i]) {
            trivet__dxf_plate(w->bytes, w->cuttings[i], deck_layers(w, i));
            write_plate_name(w, i);
        }
    }
    trivet__dxf_word(w->bytes, 0, "ENDSEC");
    trivet__dxf_word(w->bytes, 0, "EOF");
}

static trivet_status write_all(dxf_writing *w, trivet_message *message)
{
    const size_t layers =
        (size_t)w->stock_count + TRIVET__DXF_PLATE * (size_t)w->deck_count + FIXED_LAYERS;
    w->layers.list = trivet__take(layers, sizeof *w->layers.list);
    w->cuttings = trivet__take((size_t)w->deck_count, sizeof(trivet_cutting *));
    if (!w->layers.list || !w->cuttings) {
        return trivet__no_memory(message);
    }
    name_layers(w);
    write_comments(w);
    const trivet_status status = lay_out_decks(w, message);
    if (status == TRIVET_OK) {
        write_header(w);
        write_tables(w);
        write_entities(w);
    }
    return status;
}

trivet_status trivet_export_dxf(const trivet_frame *frame, char **bytes_out, size_t *length_out,
                                trivet_message *message)
{
    if (bytes_out) {
        *bytes_out = NULL;
    }
    if (length_out) {
        *length_out = 0;
    }
    if (!frame || !bytes_out) {
        return trivet__missing(message, frame ? "bytes_out" : "frame");
    }
    trivet__bytes bytes = {0};
    dxf_writing w = {.frame = frame, .bytes = &bytes};
    w.stock_count = trivet_frame_count(frame, TRIVET_KIND_STOCK);
    w.deck_count = trivet_frame_count(frame, TRIVET_KIND_DECK);
    trivet_status status = write_all(&w, message);
    for (int32_t i = 0; w.cuttings && i < w.deck_count; i++) {
        trivet_cutting_free(w.cuttings[i]);
    }
    trivet__give_back(w.cuttings);
    trivet__give_back(w.layers.list);
    if (status == TRIVET_OK) {
        status = trivet__bytes_hand_out(&bytes, bytes_out, length_out, message);
    }
    trivet__bytes_free(&bytes);
    return status;
}
