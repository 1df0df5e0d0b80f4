/*
 * The inside of plans, workspaces and results. One direction of flow: plan.c numbers, span.c and
 * span_load.c fill spans, tie.c ties rigid cargo, assemble.c and loads.c make the equations,
 * solve.c solves them, recover.c and balance.c say what follows.
 *
 * Nodes are the frame's joints, then the ends of inserts, then the bodies of stiff cargo. A node
 * has six directions along its own axes: those of its mount, or the world's. Direction d of node
 * k is number 6 k + d. A direction is free (an equation), held, or follows others (a tie); its
 * expansion lists the equations that it is a sum of.
 */
#ifndef TRIVET_STATICS_STATICS_H
#define TRIVET_STATICS_STATICS_H

#include "numerics/tiles.h"
#include "statics/span.h"
#include "trivet/frame.h"
#include "trivet/statics.h"

#include <stddef.h>
#include <stdint.h>

enum { TRIVET__SIX = 6 };

/* A place on a tube where spans meet: a joint, or the end of an insert. */
typedef struct trivet__station {
    int32_t node;
    int32_t position;   /* number of the joint along the tube, or -1 */
    int32_t insert;     /* number of the insert in the tube, or -1 */
    int32_t insert_end; /* 0 or 1 */
} trivet__station;

/* What of a span never changes. */
typedef struct trivet__span_map {
    int32_t tube;
    int32_t first_node;
    int32_t last_node;
    int32_t first_station; /* number in plan->stations; the last follows it */
    int32_t insert;        /* number of the insert that fills it, or -1 */
    uint32_t free_first;
    uint32_t free_last;
    int32_t is_plain; /* each of its twelve directions is one equation or held */
} trivet__span_map;

/*
 * Bodies of stiff cargo that share joints, tied together. Directions stand in cluster order:
 * translations of the joints, then six of each body. Rows: three a body and joint.
 */
typedef struct trivet__cluster {
    int32_t first_direction, direction_count; /* in plan->cluster_directions */
    int32_t first_tie, tie_count;             /* in plan->ties; rows = 3 tie_count */
    int32_t first_pivot, pivot_count;         /* in plan->pivots */
    int32_t held_count;                       /* of its directions */
} trivet__cluster;

typedef struct trivet__tie {
    int32_t joint;
    int32_t body; /* node */
} trivet__tie;

/* Row and column (in cluster order) of one step of elimination, chosen when planning. */
typedef struct trivet__pivot {
    int32_t row;
    int32_t column;
} trivet__pivot;

enum { TRIVET__HELD = -1, TRIVET__FOLLOWS = -2 };

struct trivet_plan {
    void *block;           /* arrays whose size the frame tells at once */
    void *expansion_block; /* those whose size the ties tell */
    uint64_t topology;
    int32_t joint_count, hidden_count, body_count, node_count;
    int32_t tube_count, mount_count, cargo_count, case_count, column_count;
    int32_t station_count, span_count, direction_count, equation_count, reach;
    int32_t cluster_count, tie_count, pivot_count, cluster_direction_count;
    int32_t lanes;        /* cases, padded */
    int32_t load_count;   /* load records of all cases and spans */
    int32_t factor_count; /* of all combinations, and one a case */
    int32_t expansion_count;
    size_t cluster_scratch; /* doubles */
    size_t null_scratch;    /* doubles */
    int32_t null_most;
    trivet__station *stations;
    int32_t *tube_stations; /* [tube_count + 1] first station of each tube */
    trivet__span_map *spans;
    int32_t *tube_spans;       /* [tube_count + 1] */
    int32_t *node_mounts;      /* [node_count] or -1 */
    int32_t *cargo_nodes;      /* [cargo_count] body node of stiff cargo, or -1 */
    int32_t *directions;       /* [direction_count] equation, TRIVET__HELD or TRIVET__FOLLOWS */
    int32_t *expansion_starts; /* [direction_count + 1] */
    int32_t *expansion_equations;
    trivet__tiles tiles;
    int32_t *tile_rows;    /* [equation_count] entry (i, j) of the matrix stands at */
    int32_t *tile_columns; /* [equation_count] tile_rows[i] + tile_columns[j] */
    trivet__cluster *clusters;
    int32_t *cluster_directions;
    int32_t *node_clusters; /* [node_count] or -1 */
    trivet__tie *ties;
    trivet__pivot *pivots;
    int32_t *load_starts;   /* [case_count * span_count + 1]: room for loads of a case on a span */
    int32_t *column_starts; /* [column_count + 1] in the lists of cases and factors */
    int32_t *column_cases;  /* [factor_count] */
};

/*
 * Rows of lanes: one number a case, see lanes.h.
 */
struct trivet_workspace {
    void *block;
    const trivet_plan *plan;
    double *station_points;    /* [station_count][3] world place of the tube's own line */
    double *station_distances; /* [station_count] m along the tube */
    double *matrix;            /* in plan->tiles */
    double *inverses;          /* [equations, padded] of the factor's pivots */
    double *band;              /* [equation_count * (reach + 1)], for frames that move freely */
    double *values;            /* [equations, padded] rows: loads, then movements */
    double *maps; /* [span_count][6][12] movement of the first node -> at the last end, and of the
                     last node: see lanes.h */
    int32_t *span_others;      /* [span_count] whether other loads than even ones are on it */
    double *span_fixed;        /* [span_count][6] rows: p with ends held still */
    double *span_resultants;   /* [span_count][6] rows: of loads, about the last end; until they
                                  are known, the first three are N/m of even loads, tube axes */
    double *span_stretches;    /* [span_count][6] rows: free stretch by loads and warmth, of
                                  spans with freed ends */
    double *expansion_factors; /* beside plan->expansion_equations */
    double *fixed;             /* [direction_count] rows: movement that does not depend on
                                  equations, of held directions and of those that follow them */
    double *forces;            /* [direction_count] rows: outside loads, node axes */
    double *unbalanced;        /* [direction_count] rows: inside minus outside, node axes */
    double *sizes;             /* [2] rows: largest force and moment at a node */
    double *moves;             /* [direction_count] rows, node axes */
    double *warm;              /* a row, K */
    double *rows;              /* [TRIVET__ROWS] rows of scratch */
    double *diagonal;          /* [equation_count] before factoring */
    double *scratch;           /* [3 * equation_count], or rows of equations, or for clusters */
    double *null_scratch;
    double *null_vectors; /* [null_most][equation_count] */
    double null_values[8];
    int32_t has_moves; /* a mount moves in some case */
};

enum { TRIVET__ROWS = 32 };

struct trivet_result {
    void *block;
    const trivet_plan *plan;
    trivet_plan *own_plan; /* freed with the result; NULL if the caller owns it */
    int32_t is_solved;
    trivet__span *spans;      /* [span_count] */
    trivet__span_load *loads; /* at plan->load_starts */
    int32_t *load_counts;     /* [case_count * span_count] */
    double *warm;             /* [case_count] K */
    double *factors;          /* [factor_count] beside plan->column_cases */
    double *moves;            /* [column][joint][6] */
    double *reactions;        /* [column][mount][6] */
    double *span_ends;        /* [column][span][2][6] */
    double *span_starts;      /* [column][span][6] movement of the tube's line at the start,
                                 tube axes */
    trivet_quality *quality;  /* [column] */
};

/* Axes of a node in this frame: those of its mount, or NULL for the world's. */
const double *trivet__node_axes(const trivet_plan *plan, const trivet_frame *frame, int32_t node);

/* tie_plan.c, tie.c: which directions follow, and by how much; what held ones among them carry. */
trivet_status trivet__tie_plan(const trivet_frame *frame, trivet_plan *plan,
                               trivet_message *message);
trivet_status trivet__tie_solve(const trivet_plan *plan, const trivet_frame *frame,
                                trivet_workspace *workspace, trivet_message *message);
void trivet__tie_reactions(const trivet_plan *plan, const trivet_frame *frame,
                           trivet_workspace *workspace);

/* geometry.c: stations, then spans and their place from the frame's numbers. */
trivet_status trivet__place_spans(const trivet_plan *plan, const trivet_frame *frame,
                                  trivet_workspace *workspace, trivet_result *result,
                                  trivet_message *message);

/* loads.c: loads on spans, joints and cargo, and what they do to the equations' right sides. */
void trivet__place_loads(const trivet_plan *plan, const trivet_frame *frame,
                         trivet_workspace *workspace, trivet_result *result);

/* Weight of a cargo in a case, N, world axes. */
void trivet__cargo_weight(const trivet_frame *frame, const trivet__case *of, int32_t cargo,
                          double force[3]);

/* span_rows.c: what loads and warmth do to a span, into span_fixed, _resultants, _stretches. */
void trivet__load_span(const trivet_plan *plan, trivet_workspace *workspace,
                       const trivet_result *result, int32_t s);

/* assemble.c */
void trivet__assemble_matrix(const trivet_plan *plan, const trivet_frame *frame,
                             trivet_workspace *workspace, const trivet_result *result);
void trivet__assemble_values(const trivet_plan *plan, const trivet_frame *frame,
                             trivet_workspace *workspace, const trivet_result *result);

/* Sums rows of directions into rows of equations: the transpose of the expansions. */
void trivet__gather_equations(const trivet_plan *plan, const trivet_workspace *workspace,
                              const double *directions, double *equations);

/* recover.c: everything that follows from the movements of the equations. */
void trivet__recover(const trivet_plan *plan, const trivet_frame *frame,
                     trivet_workspace *workspace, trivet_result *result);

/* balance.c: loads against reactions. */
void trivet__balance(const trivet_plan *plan, const trivet_frame *frame,
                     trivet_workspace *workspace, trivet_result *result);

/* The diagonal of the box around all joints, m. */
double trivet__frame_size(const trivet_frame *frame);

/* freedom.c: says which joints can move, and where; the matrix must have been assembled anew. */
trivet_status trivet__tell_freedom(const trivet_plan *plan, const trivet_frame *frame,
                                   trivet_workspace *workspace, double condition,
                                   trivet_message *message);

#endif
