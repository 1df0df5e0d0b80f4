/**
 * @file
 * Checks: demands beside limits, the verdict, and the working of each check.
 */
#ifndef TRIVET_CHECKS_H
#define TRIVET_CHECKS_H

#include "trivet/base.h"
#include "trivet/frame.h"
#include "trivet/statics.h"

#ifdef __cplusplus
extern "C" {
#endif

/** What the user asks of the frame. Fill with trivet_limits_defaults. */
typedef struct trivet_limits {
    size_t size;
    double yield;       /**< factor of safety on yield, at least 1; 1.5 */
    double droop;       /**< m, most downward movement of any tube against the unloaded shape; NaN:
                             no limit */
    double droop_ratio; /**< most droop of a tube between two supports against the straight line
                             from one to the other, over their distance; beyond its last support
                             against that support, over the reach. Supports of a tube are the
                             mounts on it that carry weight, or if it has none, the joints where it
                             meets other tubes. NaN: no limit */
    double tight;       /**< utilisation above which a check that holds is called tight; 0.85 */
} trivet_limits;

/** Fills limits with the defaults above. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_limits_defaults(trivet_limits *limits, size_t size);

/** The three lines of the verdict. */
typedef enum trivet_line {
    TRIVET_LINE_OVERLOAD = 0, /**< yields, breaks, buckles or strips in the worst case */
    TRIVET_LINE_CRACKING = 1, /**< cracks after many bumps */
    TRIVET_LINE_SERVICE = 2   /**< droop and other limits that the user set */
} trivet_line;

enum { TRIVET_LINE_COUNT = 3 };

/** Verdict words, from good to bad. */
typedef enum trivet_verdict {
    TRIVET_NOT_CHECKED = 0,
    TRIVET_HOLDS = 1,
    TRIVET_TIGHT = 2,
    TRIVET_MAY_CRACK = 3,
    TRIVET_FAILS = 4
} trivet_verdict;

/** "holds", "tight", "may crack", "fails", "not checked". Static. */
TRIVET_API const char *trivet_verdict_text(int32_t verdict);

/** One comparison of a demand with a limit. Texts are owned by the checks. */
typedef struct trivet_check {
    size_t size;
    const char *check;   /**< what is compared: "yield", "droop", "droop ratio", "mount pull",
                              "mount push", "mount shear", "mount moment" */
    const char *where;   /**< name of the tube, joint or mount */
    const char *in_case; /**< name of the case or combination */
    const char *source;  /**< of the rule */
    int32_t line;        /**< a trivet_line */
    int32_t where_kind;  /**< a trivet_kind */
    int32_t where_index;
    int32_t case_index; /**< result column */
    int32_t dimension;  /**< a trivet_dimension, of demand and limit */
    int32_t verdict;    /**< holds, tight or fails */
    double at;          /**< m along the tube; NaN where that has no meaning */
    double demand;
    double limit;
    double utilisation; /**< demand over limit; infinite if the limit is 0 and demand is not */
    int32_t step_count; /**< lines of working */
} trivet_check;

/** Fills a check with zeros and its size. */
TRIVET_API trivet_status trivet_check_defaults(trivet_check *check, size_t size);

/**
 * One line of working. formula uses the symbols of earlier steps of the same check, numbers,
 * + - * / ^ ( ), sqrt, abs, max, min and pi, in SI; empty for a value that is taken from the
 * solution or the input, then source says from where.
 */
typedef struct trivet_step {
    size_t size;
    const char *symbol;  /**< such as "sigma_N" */
    const char *meaning; /**< such as "stress by pull" */
    const char *formula; /**< such as "N / A" */
    const char *source;
    double value;      /**< SI */
    int32_t dimension; /**< a trivet_dimension */
} trivet_step;

/** Fills a step with zeros and its size. */
TRIVET_API trivet_status trivet_step_defaults(trivet_step *step, size_t size);

typedef struct trivet_checks trivet_checks;

/**
 * Makes all checks of a solved frame: for each tube and case the worst place of yield, for each
 * tube and case the worst droop, for each mount and case each limit that it has.
 *
 * @param frame  the frame that was solved, unchanged since
 * @param limits NULL for the defaults
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_VALUE (a limit out of
 *         range), TRIVET_BAD_ORDER (not solved), TRIVET_NO_MEMORY
 *
 * Keeps nothing of result, but texts of frame: free the checks before the frame.
 */
TRIVET_API trivet_status trivet_checks_new(const trivet_frame *frame, const trivet_result *result,
                                           const trivet_limits *limits, trivet_checks **checks_out,
                                           trivet_message *message);
/** Frees checks. NULL is ignored. */
TRIVET_API void trivet_checks_free(trivet_checks *checks);

/** The number of checks; they stand by line of the verdict, then by utilisation, worst first. */
TRIVET_API int32_t trivet_checks_count(const trivet_checks *checks);
/** Check number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_checks_at(const trivet_checks *checks, int32_t index,
                                          trivet_check *check_out);
/** Step number step of a check's working. Statuses likewise. */
TRIVET_API trivet_status trivet_checks_step(const trivet_checks *checks, int32_t index,
                                            int32_t step, trivet_step *step_out);

/** The verdict of a line, and the number of its worst check (-1 if it has none; may be NULL). */
TRIVET_API int32_t trivet_checks_verdict(const trivet_checks *checks, int32_t line,
                                         int32_t *worst_out);
/** The worst verdict of the lines that were checked. */
TRIVET_API int32_t trivet_checks_overall(const trivet_checks *checks);

/** How many things were not checked. */
TRIVET_API int32_t trivet_checks_omission_count(const trivet_checks *checks);
/**
 * What was not checked and why.
 *
 * @param line_out a trivet_line; may be NULL
 * @param why_out  static or owned by checks; may be NULL
 * @return what, such as "welds"; NULL if there is none
 */
TRIVET_API const char *trivet_checks_omission(const trivet_checks *checks, int32_t index,
                                              int32_t *line_out, const char **why_out);

/**
 * The worst check of a line as one plain sentence: what, where, in which case, by how much, what
 * would help: "left rail at ML carries 122 of 157 N/mm^2 in two-up (used 78 %)".
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_checks_sentence(const trivet_checks *checks, int32_t line,
                                         const trivet_units *units, char *text, size_t size);

/**
 * A utilisation as people read it: "57 %". Near the limit it has the digit that tells the sides
 * apart, so that what fails never reads 100 %.
 *
 * @param utilisation demand over limit
 * @param text        [size] filled and closed with zero
 * @return bytes needed without the closing zero
 */
TRIVET_API size_t trivet_used_text(double utilisation, char *text, size_t size);

/**
 * Where check number index has its worst place: "left rail at ML", "back 320 mm from RL towards
 * RR", "left rail, insert plug, at FL", "mount FL".
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_checks_place_text(const trivet_checks *checks, int32_t index,
                                           const trivet_units *units, char *text, size_t size);

/**
 * A place on a tube by the joints beside it: "left rail at ML".
 *
 * @param at m along the tube from its first joint
 * @return as above; empty text if there is no such tube
 */
TRIVET_API size_t trivet_tube_place_text(const trivet_frame *frame, const trivet_result *result,
                                         int32_t tube, double at, const trivet_units *units,
                                         char *text, size_t size);

/**
 * The most downward movement of a case, against the unloaded shape.
 *
 * @param tube_out  the tube that droops most; -1 on failure; may be NULL
 * @param at_out    m along that tube from its first joint; may be NULL
 * @param droop_out m, at least 0: what rises everywhere droops by 0
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_ORDER (not solved)
 */
TRIVET_API trivet_status trivet_droop_worst(const trivet_frame *frame, const trivet_result *result,
                                            int32_t in_case, int32_t *tube_out, double *at_out,
                                            double *droop_out);

/** How a mount is loaded by the frame. */
enum {
    TRIVET_CARRY_PULL = 0,   /**< N, away from the vehicle along the mount's +z, at least 0 */
    TRIVET_CARRY_PUSH = 1,   /**< N, towards the vehicle along the mount's -z, at least 0 */
    TRIVET_CARRY_SHEAR = 2,  /**< N, across the mount's z */
    TRIVET_CARRY_MOMENT = 3, /**< N m, resultant */
    TRIVET_CARRY_COUNT = 4
};

/**
 * What a mount carries in a case, from the reaction turned into the mount's own axes.
 *
 * @param carried_out [TRIVET_CARRY_COUNT]
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_ORDER (not solved)
 */
TRIVET_API trivet_status trivet_mount_carries(const trivet_frame *frame,
                                              const trivet_result *result, int32_t in_case,
                                              int32_t mount, double *carried_out);

/**
 * The most that a mount carries in any case.
 *
 * @param carried_out [TRIVET_CARRY_COUNT]
 * @param cases_out   [TRIVET_CARRY_COUNT] the result column of each; may be NULL
 * @return as trivet_mount_carries
 */
TRIVET_API trivet_status trivet_mount_carries_most(const trivet_frame *frame,
                                                   const trivet_result *result, int32_t mount,
                                                   double *carried_out, int32_t *cases_out);

/** The usual cautions, one a call: index 0, 1, 2 ... until NULL. Static. */
TRIVET_API const char *trivet_caution(int32_t index);

#ifdef __cplusplus
}
#endif

#endif
