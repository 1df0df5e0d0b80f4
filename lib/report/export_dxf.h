/*
 * DXF R12 (ASCII): groups of a code and a value, each in a line of its own.
 */
#ifndef TRIVET_REPORT_EXPORT_DXF_H
#define TRIVET_REPORT_EXPORT_DXF_H

#include "report/export_bytes.h"
#include "trivet/frame_joins.h"

/* R12's longest name of a layer, with the closing zero. */
enum { TRIVET__LAYER_MAX = 32 };

typedef struct trivet__layer {
    char name[TRIVET__LAYER_MAX];
    const char *of; /* the user's name of what is on it; NULL: the layer's own name tells */
    int32_t colour; /* number in the format's own table of colours */
} trivet__layer;

/* Layers in the order in which they stand in the file. */
typedef struct trivet__layers {
    trivet__layer *list;
    int32_t count;
} trivet__layers;

/* Names a new layer after prefix and the user's name (may be NULL), unlike all before it. There
 * must be room for it. Returns its number. */
int32_t trivet__layer_add(trivet__layers *layers, const char *prefix, const char *of,
                          int32_t colour);

/*
 * A group with anybody's text, or as much of it as a value of R12 may have (255 characters, of
 * which one that is not ASCII takes seven). Returns the bytes of text that were written.
 */
size_t trivet__dxf_text(trivet__bytes *bytes, int code, const char *text);

/* A group with a text of our own, with a whole number, with a real number, with a length in m that
 * is written in mm. */
void trivet__dxf_word(trivet__bytes *bytes, int code, const char *word);
void trivet__dxf_whole(trivet__bytes *bytes, int code, int32_t value);
void trivet__dxf_number(trivet__bytes *bytes, int code, double value);
void trivet__dxf_length(trivet__bytes *bytes, int code, double length);

/* Groups code, code + 10, code + 20 of a point in m. */
void trivet__dxf_point(trivet__bytes *bytes, int code, double x, double y, double z);

/* Begins an entity on a layer. */
void trivet__dxf_entity(trivet__bytes *bytes, const char *kind, const trivet__layer *layer);

/* Layers of a deck, one after the other from first on. */
enum {
    TRIVET__DXF_OUTLINE = 0,
    TRIVET__DXF_HOLES = 1,
    TRIVET__DXF_SLOTS = 2,
    TRIVET__DXF_PLATE = 3
};

/* Outline, holes and slots of a plate. */
void trivet__dxf_plate(trivet__bytes *bytes, const trivet_cutting *cutting,
                       const trivet__layer *layers);

/* Anybody's text on a layer, of a height in m; what is too long for one line goes on below it. */
void trivet__dxf_label(trivet__bytes *bytes, const trivet__layer *layer, const double at[3],
                       double height, const char *text);

#endif
