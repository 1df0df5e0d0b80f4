/**
 * @file
 * The workshop: what to cut, how to set the saw, where to drill, which bars to buy.
 *
 * Geometry alone: nothing here is solved, and a cut list says nothing of whether the frame holds.
 * All lengths in m, angles in rad, masses in kg. Tubes have the axes of the model: x from the first
 * to the last joint, z up (the top), y to the left.
 */
#ifndef TRIVET_SHOP_H
#define TRIVET_SHOP_H

#include "trivet/base.h"
#include "trivet/frame.h"

#ifdef __cplusplus
extern "C" {
#endif

/** How the end of a tube is made. Numbers never change. */
typedef enum trivet_cut {
    TRIVET_CUT_AS_RULED = 0, /**< as the rule says; only as a wish */
    TRIVET_CUT_FREE = 1,     /**< meets no tube: square, at its joint */
    TRIVET_CUT_THROUGH = 2,  /**< square, past its joint to the far side of what sits on it */
    TRIVET_CUT_BUTT = 3,     /**< flat against the face of a tube */
    TRIVET_CUT_MITER = 4,    /**< on the plane that halves the corner of two tubes */
    TRIVET_CUT_SADDLE = 5,   /**< hollowed out to sit on a round tube */
    TRIVET_CUT_BEND = 6      /**< no cut: the bent piece goes on into the next tube */
} trivet_cut;

/** What the bars to buy are to be the least of. */
typedef enum trivet_aim { TRIVET_AIM_BARS = 0, TRIVET_AIM_COST = 1 } trivet_aim;

/** A bar on offer. Fill with trivet_shop_bar_defaults. */
typedef struct trivet_shop_bar {
    size_t size;
    int32_t stock; /**< for this stock alone, in place of those for all; -1: for all */
    int32_t have;  /**< so many lie there already; -1: as many as wanted can be bought; bars
                         at hand are of one stock, unless all pieces are */
    double length; /**< m */
    double price;  /**< of one, in any currency; NaN: not known */
} trivet_shop_bar;

/** A piece that is bent out of one bar. Fill with trivet_shop_bend_defaults. */
typedef struct trivet_shop_bend {
    size_t size;
    const char *name;
    const int32_t *tubes; /**< [tube_count] of the same stock, each joined to the next end to end */
    int32_t tube_count;   /**< at least 2 */
    double radius;        /**< m, to the tube's centre line */
    double neutral;       /**< where nothing stretches: share of the depth from the inside of the
                               bend, 0 to 1; 0.5 */
} trivet_shop_bend;

/** How one end is wanted. Fill with trivet_shop_end_defaults. */
typedef struct trivet_shop_end {
    size_t size;
    int32_t tube;
    int32_t joint; /**< first or last joint of the tube */
    int32_t cut;   /**< THROUGH, BUTT, MITER or SADDLE of trivet_cut */
} trivet_shop_end;

/**
 * How the workshop works. Fill with trivet_shop_defaults; the lists are only read while a call
 * lasts.
 */
typedef struct trivet_shop {
    size_t size;
    double kerf; /**< m that the saw turns into chips; 2.5 mm, an abrasive disc: common
                      practice */
    double gap;  /**< m left between parts that are welded; 0: they touch, common practice for
                      thin tube and wire feed */
    int32_t aim; /**< a trivet_aim; BARS */
    int64_t most_steps;  /**< after so many steps the search for bars stops; 2 million */
    double wire_factor;  /**< wire to buy over metal in the weld; 1.1: common practice */
    double stick_factor; /**< electrodes with their coating over metal in the weld; 1.8: common
                              practice */
    const trivet_shop_bar *bars;   /**< [bar_count]; none: 6 m, as many as wanted */
    const trivet_shop_bend *bends; /**< [bend_count] */
    const trivet_shop_end *ends;   /**< [end_count]; the rule decides on the others */
    int32_t bar_count;
    int32_t bend_count;
    int32_t end_count;
} trivet_shop;

/** Fills settings as above. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_shop_defaults(trivet_shop *shop, size_t size);
/** Fills a bar: 6 m for all stock, no price, as many as wanted. */
TRIVET_API trivet_status trivet_shop_bar_defaults(trivet_shop_bar *bar, size_t size);
/** Fills a bent piece: no tubes, radius 0, neutral in the middle. */
TRIVET_API trivet_status trivet_shop_bend_defaults(trivet_shop_bend *bend, size_t size);
/** Fills an end: tube and joint -1, as ruled. */
TRIVET_API trivet_status trivet_shop_end_defaults(trivet_shop_end *end, size_t size);

/**
 * Whether settings fit a frame: numbers, bent pieces, and whether each end can be cut as wanted.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE,
 *         TRIVET_NO_MEMORY. The thing is "tube NAME, cut at JOINT", "bent piece NAME" or "shop".
 */
TRIVET_API trivet_status trivet_shop_check(const trivet_frame *frame, const trivet_shop *shop,
                                           trivet_message *message);

/** One line of the rule by which ends are cut, in plain words. Static; NULL past the last. */
TRIVET_API const char *trivet_shop_rule(int32_t index);
/** The plain word for a trivet_cut, such as "miter"; "cut" if it is none. Static. */
TRIVET_API const char *trivet_cut_text(int32_t cut);

/** A cut list with everything that hangs on it. */
typedef struct trivet_cuts trivet_cuts;

/**
 * Makes the cut list of a frame. It is as it was if the frame changes later.
 *
 * @param shop     NULL for the defaults
 * @param cuts_out NULL on failure; free with trivet_cuts_free
 * @return as trivet_shop_check; also TRIVET_BAD_VALUE where nothing is left of a tube between its
 *         cuts, or the bars on offer cannot hold the pieces
 *
 * Tubes are taken as drawn: true to size, straight, with sharp ends. What is left out is said by
 * trivet_cuts_note.
 */
TRIVET_API trivet_status trivet_cuts_new(const trivet_frame *frame, const trivet_shop *shop,
                                         trivet_cuts **cuts_out, trivet_message *message);
/** Frees a cut list. NULL is ignored. */
TRIVET_API void trivet_cuts_free(trivet_cuts *cuts);

/** One cut end of a piece. Lengths run along the tube, outwards. */
typedef struct trivet_cut_end {
    size_t size;
    int32_t cut;   /**< a trivet_cut, never AS_RULED */
    int32_t joint; /**< -1: of an insert */
    int32_t onto;  /**< the tube that it butts against, sits on or is mitered with; -1: none */
    double angle; /**< rad off square, as a saw is set: 0 square, pi/4 half of a square corner. Of a
                       saddle: between its tube and a square one */
    double towards;  /**< rad, where round the tube the long point lies (of a saddle: the side to
                          which the tube it sits on leans, or its line): from the tube's top,
                          right-handed about its x; NaN if square */
    double beyond;   /**< m from the model's end of the tube to the cut on the centre line; below 0:
                          short of it */
    double longest;  /**< m, the same to the long point */
    double shortest; /**< m, to the short point */
    int32_t has_template; /**< 1 for a round tube on a round one: trivet_cuts_template_svg */
} trivet_cut_end;

/** A piece: a tube, several bent out of one, or an insert. */
typedef struct trivet_cut_piece {
    size_t size;
    int32_t kind;   /**< TRIVET_KIND_TUBE; 0: a bent piece; TRIVET_KIND_STOCK: an insert */
    int32_t tube;   /**< the tube, the first of a bent piece, the one that an insert sits in */
    int32_t bend;   /**< number of the bent piece; -1 */
    int32_t insert; /**< number of the insert in its tube; -1 */
    int32_t stock;
    int32_t bend_count; /**< bends, of a bent piece */
    double length;      /**< m on the centre line, of a bent piece unrolled on its neutral line */
    double longest;     /**< m, long point to long point, along the tube: what is cut off the bar */
    double shortest;    /**< m, short point to short point */
    double turn;        /**< rad by which the tube is turned about its own axis, right-handed about
                             x, between the first and the second cut: 0: the long points lie on the
                             same side; NaN if an end is square or the piece is bent */
    double mass;        /**< kg */
    trivet_cut_end ends[2]; /**< at its first and last joint */
} trivet_cut_piece;

/** Fills an end with zeros and its size. */
TRIVET_API trivet_status trivet_cut_end_defaults(trivet_cut_end *end, size_t size);
/** Fills a piece with zeros and its size. */
TRIVET_API trivet_status trivet_cut_piece_defaults(trivet_cut_piece *piece, size_t size);
/** The number of pieces; 0 if cuts is NULL. */
TRIVET_API int32_t trivet_cuts_count(const trivet_cuts *cuts);
/** Piece number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_piece(const trivet_cuts *cuts, int32_t index,
                                           trivet_cut_piece *piece_out);
/**
 * What a piece is called: "left rail", "hoop (bent)", "plug in left rail at FL".
 *
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_cuts_piece_text(const trivet_cuts *cuts, int32_t index, char *text,
                                         size_t size);

/** A bend of a bent piece, marked on the straight bar. */
typedef struct trivet_cut_bend {
    size_t size;
    int32_t joint; /**< where the two centre lines would meet */
    double angle;  /**< rad turned */
    double from;   /**< m from the piece's first cut on the centre line: the bend begins */
    double to;     /**< m, it ends */
    double turn;   /**< rad by which the piece is turned about its own axis since the bend before;
                        NaN for the first */
} trivet_cut_bend;

/** Fills a bend with zeros and its size. */
TRIVET_API trivet_status trivet_cut_bend_defaults(trivet_cut_bend *bend, size_t size);
/** Bend number index of a piece. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_bend(const trivet_cuts *cuts, int32_t piece, int32_t index,
                                          trivet_cut_bend *bend_out);

/**
 * How deep a saddle is cut at a place round the tube.
 *
 * @param end   0 or 1, the first or last of the piece
 * @param round rad from the tube's top, right-handed about its x
 * @return m from the long point back into the tube; NaN if there is no such saddle
 *
 * A line of the tube's outside at angle f meets the cylinder at
 * (r cos(f - f0) cos(a) + sqrt(R^2 - (r sin(f - f0) - e)^2)) / sin(a) short of the place where the
 * axes pass each other: r the radius of the tube, R of the one it sits on, a the angle between
 * them, e how far their axes pass apart, f0 the direction to which the other leans. A straight line
 * put into the equation of a cylinder: any text on descriptive geometry.
 */
TRIVET_API double trivet_cuts_saddle_depth(const trivet_cuts *cuts, int32_t piece, int32_t end,
                                           double round);
/**
 * A template to be printed at full size and wrapped round the tube: SVG in mm, with a check line of
 * 100 mm.
 *
 * @param text [size] filled with UTF-8 and a closing zero, cut if too long; NULL if size is 0
 * @return bytes needed without the closing zero; 0 if there is no such saddle
 */
TRIVET_API size_t trivet_cuts_template_svg(const trivet_cuts *cuts, int32_t piece, int32_t end,
                                           char *text, size_t size);

/**
 * A file name for that template: "03a-left-brace-LT.svg", a for the first end and b for the last.
 *
 * @return as trivet_cuts_template_svg; letters, digits, - and . alone
 */
TRIVET_API size_t trivet_cuts_template_name(const trivet_cuts *cuts, int32_t piece, int32_t end,
                                            char *text, size_t size);

/** What a hole is in. */
typedef enum trivet_hole_in {
    TRIVET_HOLE_WALL = 1,   /**< one wall of a tube, or right through a bar */
    TRIVET_HOLE_ACROSS = 2, /**< both walls of a tube */
    TRIVET_HOLE_END = 3,    /**< along the tube, into its end */
    TRIVET_HOLE_PLATE = 4   /**< a plate, tab or deck, which is no piece of the list */
} trivet_hole_in;

/** A hole to drill. */
typedef struct trivet_cut_hole {
    size_t size;
    int32_t piece;            /**< -1: a plate */
    int32_t bolts;            /**< number of the set of bolts */
    int32_t number;           /**< of the bolt in the set, from 0 */
    int32_t in;               /**< a trivet_hole_in */
    int32_t from;             /**< joint from whose end of the piece it is measured; -1: a plate */
    int32_t is_tapped;        /**< 1: then cut the thread */
    double at;                /**< m from the cut there, on the centre line */
    double at_longest;        /**< m from the long point there */
    double side;              /**< m beside the centre line, seen from the side that is drilled;
 above 0: to the left of the way along the tube's x */
    double towards;           /**< rad, on which side of the tube it is drilled: from its top,
                                   right-handed about its x; NaN in the end or a plate */
    double diameter;          /**< m: tapping drill, or clearance after ISO 273 medium; NaN: as the
                                   maker of the rivet nut says */
    double countersink;       /**< m, diameter at the surface; NaN: none */
    double countersink_angle; /**< rad, of the whole cone */
} trivet_cut_hole;

/** Fills a hole with zeros and its size. */
TRIVET_API trivet_status trivet_cut_hole_defaults(trivet_cut_hole *hole, size_t size);
/** The number of holes. */
TRIVET_API int32_t trivet_cuts_hole_count(const trivet_cuts *cuts);
/** Hole number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_hole(const trivet_cuts *cuts, int32_t index,
                                          trivet_cut_hole *hole_out);

/** A bar and what is cut from it. */
typedef struct trivet_cut_bar {
    size_t size;
    int32_t stock;
    int32_t is_bought; /**< 0: it was there already */
    int32_t piece_count;
    double length; /**< m */
    double price;  /**< NaN: not known */
    double rest;   /**< m left after the last cut */
} trivet_cut_bar;

/** Fills a bar with zeros and its size. */
TRIVET_API trivet_status trivet_cut_bar_defaults(trivet_cut_bar *bar, size_t size);
/** The number of bars. */
TRIVET_API int32_t trivet_cuts_bar_count(const trivet_cuts *cuts);
/** Bar number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_bar(const trivet_cuts *cuts, int32_t index,
                                         trivet_cut_bar *bar_out);
/** The pieces of a bar in the order of cutting, [*count_out], owned by cuts; or NULL. */
TRIVET_API const int32_t *trivet_cuts_bar_pieces(const trivet_cuts *cuts, int32_t bar,
                                                 int32_t *count_out);

/** All bars of one stock. */
typedef struct trivet_cut_stock {
    size_t size;
    int32_t stock;
    int32_t piece_count;
    int32_t bar_count;    /**< bars that are cut into, bought or not */
    int32_t bought;       /**< of these, how many are bought */
    int32_t is_proven;    /**< 1: no other way takes less of what is aimed at */
    double least;         /**< what any way takes at least: bars bought, or their price */
    double steps;         /**< of the search, a whole number */
    double bought_length; /**< m */
    double bought_mass;   /**< kg */
    double price;         /**< of what is bought; NaN: not known */
    double pieces_length; /**< m, long point to long point, of all pieces */
    double rest;          /**< m, of all bars that are cut into */
} trivet_cut_stock;

/** Fills it with zeros and its size. */
TRIVET_API trivet_status trivet_cut_stock_defaults(trivet_cut_stock *stock, size_t size);
/** The number of kinds of stock that pieces are cut from. */
TRIVET_API int32_t trivet_cuts_stock_count(const trivet_cuts *cuts);
/** Kind of stock number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_stock(const trivet_cuts *cuts, int32_t index,
                                           trivet_cut_stock *stock_out);

/** Small parts that are alike. */
typedef struct trivet_cut_part {
    size_t size;
    int32_t count;
    int32_t bolts; /**< the first set of bolts that needs it */
    int32_t kind;  /**< 1 bolt, 2 nut, 3 rivet nut or weld nut, 4 spacer, 5 sleeve */
} trivet_cut_part;

/** Fills a part with zeros and its size. */
TRIVET_API trivet_status trivet_cut_part_defaults(trivet_cut_part *part, size_t size);
/** The number of kinds of small part. */
TRIVET_API int32_t trivet_cuts_part_count(const trivet_cuts *cuts);
/** Part number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_cuts_part(const trivet_cuts *cuts, int32_t index,
                                          trivet_cut_part *part_out);
/** What a part is: "bolt M6 8.8, hexagon head". As trivet_cuts_piece_text. units may be NULL. */
TRIVET_API size_t trivet_cuts_part_text(const trivet_cuts *cuts, int32_t index,
                                        const trivet_units *units, char *text, size_t size);

/** Sums. */
typedef struct trivet_cut_totals {
    size_t size;
    double mass;           /**< kg, of all pieces */
    double bought_mass;    /**< kg, of all bars bought */
    double price;          /**< of all bars bought; NaN if one is not known */
    double paint_area;     /**< m^2, outside of all pieces but inserts, without the ends */
    double weld_length;    /**< m of fillet */
    double weld_metal;     /**< kg: throat^2 (a right-angled fillet) x length x density */
    double wire;           /**< kg to buy: weld_metal x wire_factor */
    double sticks;         /**< kg of electrodes to buy: weld_metal x stick_factor */
    int32_t spots;         /**< spot welds, not in the length */
    int32_t assumed_welds; /**< ends of which the model does not say how they are welded: taken all
                                round with 0.7 of the wall */
} trivet_cut_totals;

/** Fills sums with zeros and their size. */
TRIVET_API trivet_status trivet_cut_totals_defaults(trivet_cut_totals *totals, size_t size);
/** The sums. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_cuts_totals(const trivet_cuts *cuts, trivet_cut_totals *totals_out);

/** What to look at by hand, and what was left out, owned by cuts; NULL past the last. */
TRIVET_API const char *trivet_cuts_note(const trivet_cuts *cuts, int32_t index);

#ifdef __cplusplus
}
#endif

#endif
