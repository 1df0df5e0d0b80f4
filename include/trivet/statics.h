/**
 * @file
 * Statics: what the loads do to the frame. Movements, mount reactions, forces inside the tubes.
 *
 * Spans are straight Timoshenko elements, exact for end loads, point loads and line loads that
 * vary linearly; what happens between joints is taken from the closed form.
 *
 * A plan holds what depends on topology alone; it is made once, never changes and may be shared
 * by threads. A workspace holds the numbers of one solve, one a thread. A result is what is kept.
 * After those three exist, solving allocates nothing.
 *
 * Result columns ("cases" below) are the frame's cases in order, then its combinations.
 */
#ifndef TRIVET_STATICS_H
#define TRIVET_STATICS_H

#include "trivet/base.h"
#include "trivet/frame.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct trivet_plan trivet_plan;
typedef struct trivet_workspace trivet_workspace;
typedef struct trivet_result trivet_result;

/**
 * Plans the solution of a frame.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, whatever trivet_frame_validate returns,
 *         TRIVET_BAD_VALUE (ends freed so that a span has no hold in itself, stiff cargo on joints
 *         in one line), TRIVET_NO_MEMORY
 *
 * The plan stays valid for this frame, and for any frame with the same joints, tubes, free ends,
 * inserts, mounts, cargo, cases and loads, whatever the positions, stock, sizes and load values.
 */
TRIVET_API trivet_status trivet_plan_new(const trivet_frame *frame, trivet_plan **plan_out,
                                         trivet_message *message);
/** Frees a plan. NULL is ignored. Results and workspaces made from it must be freed before. */
TRIVET_API void trivet_plan_free(trivet_plan *plan);
/** The number of equations of a plan, and how far off the diagonal they reach; may be NULL. */
TRIVET_API int32_t trivet_plan_size(const trivet_plan *plan, int32_t *bandwidth_out);

/** A workspace for a plan. Statuses: OK, MISSING_ARGUMENT, NO_MEMORY. */
TRIVET_API trivet_status trivet_workspace_new(const trivet_plan *plan,
                                              trivet_workspace **workspace_out,
                                              trivet_message *message);
/** Frees a workspace. NULL is ignored. */
TRIVET_API void trivet_workspace_free(trivet_workspace *workspace);

/** An empty result for a plan. Statuses: OK, MISSING_ARGUMENT, NO_MEMORY. */
TRIVET_API trivet_status trivet_result_new(const trivet_plan *plan, trivet_result **result_out,
                                           trivet_message *message);
/** Frees a result. NULL is ignored. */
TRIVET_API void trivet_result_free(trivet_result *result);

/**
 * Solves all cases and combinations of a frame. Allocates nothing.
 *
 * @param frame a frame that the plan fits
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_ORDER (the plan was made for another
 *         topology), what trivet_frame_validate returns, TRIVET_MOVES_FREELY (message names the
 *         joints, the direction and the likely missing hold), TRIVET_ILL_CONDITIONED
 */
TRIVET_API trivet_status trivet_plan_solve(const trivet_plan *plan, const trivet_frame *frame,
                                           trivet_workspace *workspace, trivet_result *result,
                                           trivet_message *message);

/** Plans and solves in one call; the result owns its plan. Statuses of both. */
TRIVET_API trivet_status trivet_frame_solve(const trivet_frame *frame, trivet_result **result_out,
                                            trivet_message *message);

/** Cases plus combinations; 0 for NULL. */
TRIVET_API int32_t trivet_result_case_count(const trivet_result *result);

/**
 * Movements of all joints in all cases.
 *
 * @return [case][joint][6], contiguous: ux uy uz in m, rx ry rz in rad, world axes. Owned by
 *         result, overwritten by the next solve into it. NULL if result is NULL or not solved.
 */
TRIVET_API const double *trivet_result_moves(const trivet_result *result, int32_t *case_count_out,
                                             int32_t *joint_count_out);

/**
 * What each mount does to the frame.
 *
 * @return [case][mount][6]: force in N and moment in N m about the joint, world axes; likewise.
 *
 * Where stiff cargo sits on held joints so that the frame does not decide how they share, the
 * share with the least sum of squares is given.
 */
TRIVET_API const double *trivet_result_reactions(const trivet_result *result,
                                                 int32_t *case_count_out, int32_t *mount_count_out);

/** A span: the part of a tube between two neighbouring joints or ends of inserts. */
typedef struct trivet_span {
    size_t size;
    int32_t tube;
    int32_t first_joint;  /**< -1 where the span begins at the end of an insert */
    int32_t last_joint;   /**< -1 where it ends at the end of an insert */
    int32_t insert_stock; /**< stock of the insert inside, -1 if none */
    int32_t insert_bond;  /**< a trivet_bond */
    double start;         /**< m along the tube from its first joint */
    double length;        /**< m */
    double axes[9];       /**< the span's x, y, z as rows, world axes: those of the tube */
} trivet_span;

/** Fills a span with zeros and its size. */
TRIVET_API trivet_status trivet_span_defaults(trivet_span *span, size_t size);
/** Number of spans; they stand tube by tube, along each tube. */
TRIVET_API int32_t trivet_result_span_count(const trivet_result *result);
/** A span as it was solved. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_result_span(const trivet_result *result, int32_t span,
                                            trivet_span *span_out);
/** First span of a tube and how many it has; -1 and 0 if there is no such tube. */
TRIVET_API int32_t trivet_result_tube_spans(const trivet_result *result, int32_t tube,
                                            int32_t *span_count_out);

/**
 * Forces inside all spans at their two ends.
 *
 * @return [case][span][2][6]: N Vy Vz in N, T My Mz in N m, in the tube's axes, on the face whose
 *         outward normal is +x; likewise owned.
 */
TRIVET_API const double *trivet_result_span_ends(const trivet_result *result,
                                                 int32_t *case_count_out, int32_t *span_count_out);

/**
 * Forces inside a span and its movement at any place.
 *
 * @param at         m from the span's start, 0 to its length (a rounding beyond is taken back)
 * @param forces_out [6] N Vy Vz T My Mz in the tube's axes, just before a point load that acts
 *                   there; at the span's end just after it, so that both ends agree with
 *                   trivet_result_span_ends; may be NULL
 * @param move_out   [6] ux uy uz rx ry rz of the tube's own line there, world axes; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE, TRIVET_BAD_ORDER
 */
TRIVET_API trivet_status trivet_result_at(const trivet_result *result, int32_t in_case,
                                          int32_t span, double at, double *forces_out,
                                          double *move_out);

/** The largest and smallest of something along a span, and where. */
typedef struct trivet_extreme {
    double least;    /**< its value */
    double least_at; /**< m from the span's start */
    double most;
    double most_at;
} trivet_extreme;

/**
 * Extremes of the forces inside a span in a case, found analytically. What the joints see counts
 * too, where a point load acts right at an end.
 *
 * @param extremes_out [6] of N Vy Vz T My Mz
 */
TRIVET_API trivet_status trivet_result_extremes(const trivet_result *result, int32_t in_case,
                                                int32_t span, trivet_extreme *extremes_out);

/**
 * The extremes of the forces inside a span over all cases and combinations, and which those are.
 *
 * @param extremes_out    [6] of N Vy Vz T My Mz
 * @param least_cases_out [6] number of the case of the least; may be NULL
 * @param most_cases_out  [6] of the most; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_ORDER
 */
TRIVET_API trivet_status trivet_result_envelope(const trivet_result *result, int32_t span,
                                                trivet_extreme *extremes_out,
                                                int32_t *least_cases_out, int32_t *most_cases_out);

/**
 * The extreme movement of a span along a direction in a case.
 *
 * @param direction [3] world axes, unit vector; [0, 0, -1] gives the droop as most
 */
TRIVET_API trivet_status trivet_result_extreme_move(const trivet_result *result, int32_t in_case,
                                                    int32_t span, const double *direction,
                                                    trivet_extreme *extreme_out);

/** How good a solution is. A combination is as good as the worst of its cases. */
typedef struct trivet_quality {
    size_t size;
    double balance_force;  /**< |loads + reactions| over the largest sum of force sizes */
    double balance_moment; /**< the same for moments about the middle of the frame */
    double residual;       /**< largest unbalanced force at a joint over the largest force there */
    double condition;      /**< condition number of the equations scaled to a diagonal of ones: at
                                least this; an estimate of it where it is above 1e6 */
} trivet_quality;

/** Fills a quality with zeros and its size. */
TRIVET_API trivet_status trivet_quality_defaults(trivet_quality *quality, size_t size);
/** The quality of a case. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX, BAD_ORDER. */
TRIVET_API trivet_status trivet_result_quality(const trivet_result *result, int32_t in_case,
                                               trivet_quality *quality_out);

#ifdef __cplusplus
}
#endif

#endif
