/*
 * Where names and numbers go on a drawing: near what they name, on no other label, and as little as
 * can be over lines.
 */
#ifndef TRIVET_REPORT_LABELS_H
#define TRIVET_REPORT_LABELS_H

#include "report/projection.h"

#include <stddef.h>

typedef struct trivet__segment {
    double from[2];
    double to[2];
    double weight; /* how bad it is to stand on a mm of it */
} trivet__segment;

typedef struct trivet__labels {
    trivet__box within; /* the paper there is */
    trivet__box *boxes; /* taken: labels, symbols, titles */
    size_t box_count;
    size_t box_room;
    trivet__segment *segments;
    size_t segment_count;
    size_t segment_room;
    int is_broken; /* there was not enough memory */
} trivet__labels;

/* Takes a box, so that no label comes to stand there. */
void trivet__labels_take(trivet__labels *labels, const trivet__box *box);
/* Notes a line that labels had better keep off. */
void trivet__labels_avoid(trivet__labels *labels, const double from[2], const double to[2],
                          double weight);
/*
 * Finds the best free place for a label of width by height mm beside one of count anchors, keeping
 * a gap from it, and takes it. Returns the number of the anchor, or -1 if there is no free place.
 */
int trivet__labels_place(trivet__labels *labels, double (*anchors)[2], int count, double width,
                         double height, double gap, trivet__box *box_out);
void trivet__labels_clear(trivet__labels *labels);

#endif
