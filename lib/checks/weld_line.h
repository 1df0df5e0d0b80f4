/*
 * A weld as a line: along a tube's outline where it is cut to fit, or spots on that line.
 *
 * All lengths in m in the plane of the cut, y and z as the tube has them, turned with the cut. The
 * weld's amount is its length, or the number of its spots; what follows from it is per metre or per
 * spot.
 */
#ifndef TRIVET_CHECKS_WELD_LINE_H
#define TRIVET_CHECKS_WELD_LINE_H

#include "trivet/frame_joins.h"

enum { TRIVET__WELD_PIECES_MAX = 8, TRIVET__WELD_SPOTS_MAX = 1000 };

/* A straight step from start, or (radius > 0) an arc about it; before the cut leans. */
typedef struct trivet__weld_piece {
    double start[2]; /* y and z from the tube's axis */
    double step[2];
    double radius;
    double angle; /* rad, where the arc begins, from y to z */
    double sweep; /* rad, above 0 */
} trivet__weld_piece;

/* What moments a weld can take. */
typedef enum trivet__weld_spread {
    TRIVET__WELD_POINT = 0, /* one spot: what the spot itself takes */
    TRIVET__WELD_ROW = 1,   /* one straight run or row: about its own line only by its thickness */
    TRIVET__WELD_PLANE = 2  /* all */
} trivet__weld_spread;

typedef struct trivet__weld_line {
    trivet__weld_piece pieces[TRIVET__WELD_PIECES_MAX];
    int32_t piece_count;
    int32_t spot_count; /* 0: welded along the line */
    int32_t is_closed;  /* the pieces go all round */
    double run;         /* welded share of the line, evenly spread */
    double thickness;   /* throat, or diameter of a spot */
    double cosine;      /* of the angle between the tube and what it stands on; 0: square */
    double lean[2];     /* unit vector in the section, towards which the tube leans */
    /* Filled by trivet__weld_line_solve. */
    double begins[TRIVET__WELD_PIECES_MAX][2]; /* cosine and sine of where an arc begins */
    double lengths[TRIVET__WELD_PIECES_MAX];   /* m, of the pieces */
    double outline;                            /* m, of all of them, welded or not */
    double amount;                             /* m of weld, or spots */
    double centre[2];                          /* from the tube's axis */
    double S_yy;     /* integral of z^2 along the weld about its centre, for My */
    double S_zz;     /* of y^2, for Mz */
    double S_yz;     /* of y z */
    double along[2]; /* unit vector, the direction in which it reaches farthest */
    double S_along;  /* integral of the square along it */
    int32_t spread;  /* a trivet__weld_spread */
} trivet__weld_line;

/* An empty line: all along, square, no piece. */
void trivet__weld_line_start(trivet__weld_line *line_out);

/*
 * Adds the outline of stock, as far as sides has it; the corner between two sides belongs to the
 * weld if both do. 0 if the outline is not known.
 */
int trivet__weld_outline(const trivet_profile *profile, const trivet_section *section,
                         uint32_t sides, trivet__weld_line *line);

/* Length, centre and moments. No more spots are kept than fit on the line side by side. */
void trivet__weld_line_solve(trivet__weld_line *line);

/*
 * Place in the plane of the cut at share u of a piece, from the tube's axis, and its derivative; of
 * a line that is solved.
 */
void trivet__weld_place(const trivet__weld_line *line, int32_t piece, double u, double place[2],
                        double rate[2]);

/*
 * Where a spot sits: evenly along the line; all round, the first in the middle of the first piece.
 * Of an outline that is the top.
 */
void trivet__weld_spot(const trivet__weld_line *line, int32_t spot, int32_t *piece_out,
                       double *u_out);

/* N Vy Vz T My Mz of the tube turned into the axes of its cut: x square to the cut. */
void trivet__weld_turn(const trivet__weld_line *line, const double forces[6], double turned_out[6]);

/* What the weld carries, about its centre. */
typedef struct trivet__weld_load {
    double forces[6]; /* about the tube's axis, in the axes of the cut */
    double T;
    double My;
    double Mz;
} trivet__weld_load;

void trivet__weld_load_find(const trivet__weld_line *line, const double forces[6],
                            trivet__weld_load *load_out);

/* Force at a place of the weld: N/m, or N on a spot. */
typedef struct trivet__weld_force {
    double y; /* from the weld's centre */
    double z;
    double t_y; /* unit vector along the weld */
    double t_z;
    double q_x; /* square to the cut */
    double q_y;
    double q_z;
    double q_t; /* along the weld */
    double q_n; /* across it, in the plane of the cut */
} trivet__weld_force;

/* A place of the weld, from its centre, and the unit vector along the weld there. */
typedef struct trivet__weld_spot_at {
    double y;
    double z;
    double t_y;
    double t_z;
} trivet__weld_spot_at;

void trivet__weld_force_in(const trivet__weld_line *line, const trivet__weld_load *load,
                           const trivet__weld_spot_at *at, trivet__weld_force *force_out);

/* A place of the weld at share u of a piece. */
void trivet__weld_spot_at_share(const trivet__weld_line *line, int32_t piece, double u,
                                trivet__weld_spot_at *at_out);

/* The force at share u of a piece. */
void trivet__weld_force_at(const trivet__weld_line *line, const trivet__weld_load *load,
                           int32_t piece, double u, trivet__weld_force *force_out);

/* How much of its strength a force takes; with is handed on. */
typedef double trivet__weld_use(const void *with, const trivet__weld_force *force);

/*
 * The search: samples on each piece; on an arc whose best sample comes near to the best of all,
 * steps of the golden section round that.
 */
enum { TRIVET__WELD_SAMPLES = 12, TRIVET__WELD_STEPS = 40 };
#define TRIVET__WELD_SHARE 0.6180339887498949

/* Sample number k of a piece, 0 <= k <= TRIVET__WELD_SAMPLES, as places are. */
void trivet__weld_sample(const trivet__weld_line *line, int32_t piece, int k,
                         trivet__weld_spot_at *at_out);

/* Between two samples on a quarter circle a use rises by no more than this share. */
#define TRIVET__WELD_BETWEEN 0.03

/*
 * Near its most a use is level, so that the search finds the place to about the root of rounding;
 * a weld that runs along an axis up to that does so.
 */
void trivet__weld_straighten(trivet__weld_force *force);

/* The place where a weld is used most, and how much. */
double trivet__weld_worst(const trivet__weld_line *line, const trivet__weld_load *load,
                          trivet__weld_use *use, const void *with, trivet__weld_force *worst_out);

#endif
