/*
 * The inside of a cut list, and who fills what of it.
 */
#ifndef TRIVET_SHOP_CUTS_RECORD_H
#define TRIVET_SHOP_CUTS_RECORD_H

#include "shop/cut_plan.h"

#include <stddef.h>

enum { TRIVET__NOTE_MAX = 320 };

typedef struct trivet__shop_note {
    char text[TRIVET__NOTE_MAX];
} trivet__shop_note;

/* A piece and what only the inside needs. */
typedef struct trivet__piece {
    trivet_cut_piece cut;
    int32_t first_bend;         /* in trivet_cuts.bends */
    const trivet__end *ends[2]; /* NULL for inserts */
} trivet__piece;

struct trivet_cuts {
    trivet_frame *frame;            /* a copy */
    trivet_shop shop;               /* of its lists only bends, which are copies */
    trivet_shop_bend *bends_wanted; /* [shop.bend_count] */
    int32_t *bend_tubes;            /* of all bent pieces */
    char *bend_names;
    trivet__cut_plan plan;
    trivet__piece *pieces;
    trivet_cut_bend *bends; /* of all pieces, one piece after the other */
    trivet_cut_hole *holes;
    trivet_cut_part *parts;
    trivet_cut_bar *bars;
    int32_t *bar_first; /* [bar_count] where its pieces begin in bar_pieces */
    int32_t *bar_pieces;
    trivet_cut_stock *stocks;
    trivet__shop_note *notes;
    int32_t assumed_bars; /* kinds of stock for which no bars on offer were named */
    int32_t piece_count;
    int32_t bend_count;
    int32_t hole_count;
    int32_t part_count;
    int32_t bar_count;
    int32_t bar_piece_count;
    int32_t stock_count;
    int32_t note_count;
    size_t piece_capacity;
    size_t bend_capacity;
    size_t hole_capacity;
    size_t part_capacity;
    size_t bar_capacity;
    size_t bar_first_capacity;
    size_t bar_piece_capacity;
    size_t stock_capacity;
    size_t note_capacity;
    trivet_cut_totals totals;
};

/* The steps by which a list is made, in this order. */
trivet_status trivet__cuts_pieces(trivet_cuts *cuts, trivet_message *message);
trivet_status trivet__cuts_holes(trivet_cuts *cuts);
trivet_status trivet__cuts_parts(trivet_cuts *cuts);
trivet_status trivet__cuts_bars(trivet_cuts *cuts, const trivet_shop *shop,
                                trivet_message *message);
trivet_status trivet__cuts_welds(trivet_cuts *cuts);
trivet_status trivet__cuts_notes(trivet_cuts *cuts);

/* The piece that a tube is (part of). */
const trivet__piece *trivet__piece_of(const trivet_cuts *cuts, int32_t tube, int32_t *index_out);

/* Where a place, m along one of its tubes, lies along a piece: m from its model's first end. */
double trivet__place_on_piece(const trivet_cuts *cuts, int32_t tube, double along);

#endif
