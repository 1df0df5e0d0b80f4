/**
 * @file
 * Checks: demands beside limits, the verdict, and the working of each check.
 */
#ifndef TRIVET_CHECKS_H
#define TRIVET_CHECKS_H

#include "trivet/base.h"
#include "trivet/frame.h"
#include "trivet/frame_joins.h"
#include "trivet/frame_usage.h"
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
    double loads;       /**< factor on the loads in checks after EN 1993-1-8, whose strengths are
                             made for factored loads: bolts, threads, welds, walls; at least 1;
                             1.5 (EN 1990, of a load that varies). AISC's allowable strengths are
                             for loads as they are */
    int32_t bolt_rule;  /**< a trivet_bolt_rule; EN */
    int32_t weld_rule;  /**< a trivet_weld_rule; directional */
    double crack;       /**< partial factor on stress ranges that are stood for long, at least 1;
                             1.35: EN 1993-1-9 table 3.1, safe life, failure matters a lot */
    double rack_rating; /**< kg, most that the vehicle's maker allows on these mounts, frame and
                             cargo together; NaN: not said */
} trivet_limits;

/** How bolts are judged. */
typedef enum trivet_bolt_rule {
    TRIVET_BOLTS_EN = 0,  /**< EN 1993-1-8 table 3.4, gamma_M2 = 1.25, loads times limits.loads */
    TRIVET_BOLTS_AISC = 1 /**< AISC 360 J3, allowable strength, Omega = 2.00 */
} trivet_bolt_rule;

/** How welds are judged. */
typedef enum trivet_weld_rule {
    TRIVET_WELDS_DIRECTIONAL = 0, /**< EN 1993-1-8 4.5.3.2, loads times limits.loads */
    TRIVET_WELDS_SIMPLIFIED = 1,  /**< EN 1993-1-8 4.5.3.3, likewise */
    TRIVET_WELDS_AISC = 2         /**< AISC 360 J2, allowable strength, Omega = 2.00 */
} trivet_weld_rule;

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
                              "weld", "bolt", "thread", "wall crush", "cracking", ...: see
                              trivet_check_name */
    const char *where;   /**< name of the tube, joint or mount */
    const char *in_case; /**< name of the case or combination, of the cycles; "tightening" or "any
                              case" where no case matters */
    const char *source;  /**< of the rule */
    int32_t line;        /**< a trivet_line */
    int32_t where_kind;  /**< a trivet_kind */
    int32_t where_index;
    int32_t case_index; /**< result column; -1 where no single case matters */
    int32_t dimension;  /**< a trivet_dimension, of demand and limit */
    int32_t verdict;    /**< holds, tight, may crack or fails */
    double at;          /**< m along the tube; NaN where that has no meaning */
    double demand;
    double limit;
    double utilisation;  /**< demand over limit; infinite if the limit is 0 and demand is not */
    int32_t step_count;  /**< lines of working */
    int32_t is_ratio;    /**< 1: demand and limit read as 1/200 */
    int32_t joint;       /**< the joint where it is, -1 if it is none */
    const char *subject; /**< the part of the place that is meant: "weld of", "bolt of"; or "" */
    const char *note;    /**< what a reader must know beside the number, such as that the wall lies
                              outside the range of the rule; or "" */
} trivet_check;

/** The name of a kind of check, one a call: index 0, 1, 2 ... until NULL. Static. */
TRIVET_API const char *trivet_check_name(int32_t index);

/** Fills a check with zeros and its size. */
TRIVET_API trivet_status trivet_check_defaults(trivet_check *check, size_t size);

/**
 * One line of working. formula uses the symbols of earlier steps of the same check, numbers,
 * + - * / ^ ( ), sqrt, abs, max, min, sin, cos and pi, and is right in any units that belong
 * together; empty for a value that is taken from the solution or the input, then source says from
 * where.
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
 *         range), TRIVET_BAD_ORDER (not solved, or a frame that does not fit the result),
 *         TRIVET_NO_MEMORY
 *
 * Keeps nothing of result, but texts of frame: free the checks before the frame.
 */
TRIVET_API trivet_status trivet_checks_new(const trivet_frame *frame, const trivet_result *result,
                                           const trivet_limits *limits, trivet_checks **checks_out,
                                           trivet_message *message);

/**
 * Makes all checks again, of another variant or another result, into the same handle: what is in it
 * afterwards is, bit for bit and in the same order, what trivet_checks_new would have made.
 *
 * @param checks from trivet_checks_new; what it held before is gone, and so are its texts
 * @param frame  the frame that was solved, unchanged since; it may be another one than before
 * @param limits NULL for the defaults
 * @return as trivet_checks_new. TRIVET_NO_MEMORY leaves checks without any check and fit to be
 *         made again; the others leave it as it was
 *
 * Allocates nothing as long as there is no more to keep than there ever was in this handle. What a
 * variant is sorted out by is trivet_checks_worst: the list of all checks is put in order, and
 * places and sentences are put into words, only when they are asked for.
 */
TRIVET_API trivet_status trivet_checks_again(trivet_checks *checks, const trivet_frame *frame,
                                             const trivet_result *result,
                                             const trivet_limits *limits, trivet_message *message);

/**
 * Looks through all checks again, as trivet_checks_again does, but keeps of each line only the
 * worst: for sweeps, which ask of a variant no more than that. Check, working, sentence and place
 * are, bit for bit, those of trivet_checks_worst after trivet_checks_again; what was not checked is
 * listed in full. trivet_checks_count is then the number of lines that have a check.
 *
 * @return as trivet_checks_again
 *
 * Most checks are only looked at until it is certain that they are not the worst.
 */
TRIVET_API trivet_status trivet_checks_worst_again(trivet_checks *checks, const trivet_frame *frame,
                                                   const trivet_result *result,
                                                   const trivet_limits *limits,
                                                   trivet_message *message);

/** Frees checks. NULL is ignored. */
TRIVET_API void trivet_checks_free(trivet_checks *checks);

/** The number of checks; they stand by line of the verdict, then by utilisation, worst first. */
TRIVET_API int32_t trivet_checks_count(const trivet_checks *checks);
/** Check number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_checks_at(const trivet_checks *checks, int32_t index,
                                          trivet_check *check_out);
/** The checks of one kind. Fill with trivet_check_group_defaults before the call. */
typedef struct trivet_check_group {
    size_t size;
    int32_t worst;      /**< number of the worst, see trivet_checks_at */
    int32_t count;      /**< how many there are */
    int32_t fail_count; /**< how many of them fail or may crack */
    double utilisation; /**< of the worst */
} trivet_check_group;

/** Fills a group with zeros and its size. */
TRIVET_API trivet_status trivet_check_group_defaults(trivet_check_group *group, size_t size);
/**
 * The kinds of check, that which is used most first.
 *
 * @param rank 0, 1, ...
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX (past the last)
 */
TRIVET_API trivet_status trivet_checks_group(const trivet_checks *checks, int32_t rank,
                                             trivet_check_group *group_out);
/** Step number step of a check's working. Statuses likewise. */
TRIVET_API trivet_status trivet_checks_step(const trivet_checks *checks, int32_t index,
                                            int32_t step, trivet_step *step_out);

/** The verdict of a line, and the number of its worst check (-1 if it has none; may be NULL). */
TRIVET_API int32_t trivet_checks_verdict(const trivet_checks *checks, int32_t line,
                                         int32_t *worst_out);
/**
 * The worst check of a line: its verdict, utilisation, name, place and case. The same as
 * trivet_checks_at with the number that trivet_checks_verdict tells, but needs no list in order.
 *
 * @param line a trivet_line
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX (nothing of that
 *         line was checked)
 */
TRIVET_API trivet_status trivet_checks_worst(const trivet_checks *checks, int32_t line,
                                             trivet_check *worst_out);
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

/**
 * A line of working as one would write it by hand: "sigma_N = N / A = 250 N / 140 mm^2
 * = 1.7857 N/mm^2", with every number in units of the frame's length and force that belong
 * together, and enough digits that the numbers as printed give the result to three.
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size; empty text
 *         if there is no such step
 */
TRIVET_API size_t trivet_checks_step_text(const trivet_checks *checks, int32_t index, int32_t step,
                                          const trivet_units *units, char *text, size_t size);

/**
 * Picks the checks that answer a question: without a name the governing one, with the name of a
 * tube, joint, mount, deck or kind of check the worst of each kind of check there.
 *
 * @param where       a name; NULL: the worst check of all
 * @param indices_out [capacity] numbers of checks, rising: by line, worst first; may be NULL
 * @return how many there are, whatever the capacity; 0 if nothing of that name was checked
 */
TRIVET_API int32_t trivet_checks_select(const trivet_checks *checks, const char *where,
                                        int32_t *indices_out, int32_t capacity);

/**
 * Check number index as one plain sentence, as trivet_checks_sentence gives it for a line's worst.
 *
 * @return as above
 */
TRIVET_API size_t trivet_checks_sentence_of(const trivet_checks *checks, int32_t index,
                                            const trivet_units *units, char *text, size_t size);

/** Which part of a screwed place gives first when it is tightened. */
typedef enum trivet_weakest {
    TRIVET_WEAKEST_SCREW = 0,
    TRIVET_WEAKEST_SCREW_THREAD = 1,
    TRIVET_WEAKEST_HOLE_THREAD = 2,
    TRIVET_WEAKEST_WALL = 3,  /**< the tube's wall is crushed */
    TRIVET_WEAKEST_PLATE = 4, /**< the head pulls through the plate */
    TRIVET_WEAKEST_RATED = 5, /**< what the user says of the rivet nut or weld nut */
    TRIVET_WEAKEST_SLEEVE = 6,
    TRIVET_WEAKEST_FIXING = 7 /**< the spots that keep the insert */
} trivet_weakest;

/** Plain words for it: "the thread in the hole". Static. */
TRIVET_API const char *trivet_weakest_text(int32_t weakest);

/** How tight a screw may be made. */
typedef struct trivet_torque {
    size_t size;
    int32_t weakest; /**< a trivet_weakest */
    double table;    /**< N m, for its grade in steel as thick as it needs: 75 % of proof */
    double allowed;  /**< N m, that the weakest part stands even at the upper end of the scatter */
    double said;     /**< N m, as the file has it; NaN if it has none */
    double preload;  /**< N, at said, or if there is none at the smaller of table and allowed */
    double least;    /**< N, preload at the lower end of the scatter; 0 under a plastic spacer */
    double most;     /**< N, at the upper end */
} trivet_torque;

/** Fills a torque with zeros and its size. */
TRIVET_API trivet_status trivet_torque_defaults(trivet_torque *torque, size_t size);
/**
 * The torque for one set of bolts.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX
 *
 * T = K F d; see the working of the checks "thread", "wall crush" for what each part stands.
 */
TRIVET_API trivet_status trivet_frame_torque(const trivet_frame *frame, int32_t bolts,
                                             trivet_torque *torque_out);
/** Where a set of bolts sits: "mount FL", "back at TL", "lid at TL". As other texts. */
TRIVET_API size_t trivet_bolts_place_text(const trivet_frame *frame, int32_t bolts, char *text,
                                          size_t size);

typedef struct trivet_rates trivet_rates;

/** The largest cargo. */
typedef struct trivet_rate {
    size_t size;
    int32_t cargo;   /**< number of the cargo; -1: all together, each times the same factor */
    int32_t holds;   /**< 1: every check holds at mass; 0: it fails with any mass */
    int32_t is_open; /**< 1: nothing fails up to a thousand times the mass given, or the ton */
    double given;    /**< kg, as the frame has it */
    double mass;     /**< kg, the most; 0 if holds is 0 */
    double factor;   /**< mass over given; NaN if given is 0 */
} trivet_rate;

/** Fills a rate with zeros and its size. */
TRIVET_API trivet_status trivet_rate_defaults(trivet_rate *rate, size_t size);
/**
 * For each cargo alone (the others as they are) and for all together: the largest mass for which
 * every check in every case still holds, to a ten-thousandth. Every trial is solved and checked
 * anew: nothing is scaled.
 *
 * @param limits NULL for the defaults
 * @return as trivet_frame_solve and trivet_checks_new; also TRIVET_INCOMPLETE (no cargo with mass)
 *
 * Forces that a case puts on a cargo are kept as they are; so is the plate of a deck, the cargo of
 * the deck's name. The frame is not changed.
 */
TRIVET_API trivet_status trivet_rates_new(const trivet_frame *frame, const trivet_limits *limits,
                                          trivet_rates **rates_out, trivet_message *message);
/** Frees ratings with their checks. NULL is ignored. */
TRIVET_API void trivet_rates_free(trivet_rates *rates);
/** How many: one a cargo that has mass, and one for all together if there are two or more. */
TRIVET_API int32_t trivet_rates_count(const trivet_rates *rates);
/** Rating number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_rates_at(const trivet_rates *rates, int32_t index,
                                         trivet_rate *rate_out);
/** The checks at that mass, owned by rates; NULL if there is none. */
TRIVET_API const trivet_checks *trivet_rates_checks(const trivet_rates *rates, int32_t index);
/**
 * What stops a rating: number 0 the check that is at its limit there, 1 and 2 the next two of
 * another kind or place that depend on the cargo.
 *
 * @return the number of the check in trivet_rates_checks; -1 if there is none
 */
TRIVET_API int32_t trivet_rates_stop(const trivet_rates *rates, int32_t index, int32_t number);

/** How a mount gives, as a starting point where nobody measured it. */
typedef enum trivet_give {
    TRIVET_GIVE_RIGID = 0,
    TRIVET_GIVE_CAST_LUG = 1,  /**< a lug cast to a frame */
    TRIVET_GIVE_TUBE_LOOP = 2, /**< a bolted-on loop of thin tube */
    TRIVET_GIVE_RUBBER = 3     /**< on rubber bushes */
} trivet_give;

/** "rigid", "cast lug", "bolted tube loop", "rubber"; NULL if there is none. Static. */
TRIVET_API const char *trivet_give_text(int32_t give);
/**
 * The springs of a give: orders of magnitude, our own choice, to be replaced by a reading.
 *
 * @param springs_out [6] N/m and N m/rad about the mount's axes; infinite for rigid
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_VALUE
 */
TRIVET_API trivet_status trivet_give_springs(int32_t give, double *springs_out);
/**
 * A copy of a frame with every mount giving like that in each direction that it holds or springs;
 * rigid: held in each of them. Moves of the ground stay.
 *
 * @param copy_out NULL on failure; to be freed
 */
TRIVET_API trivet_status trivet_frame_with_give(const trivet_frame *frame, int32_t give,
                                                trivet_frame **copy_out, trivet_message *message);

/** A mass hung at a joint, and how far the joint came down. */
typedef struct trivet_reading {
    size_t size;
    int32_t joint;
    double mass;   /**< kg, above 0 */
    double drop;   /**< m, downward */
    double within; /**< m, how well it was read (one standard deviation), above 0; 0.2 mm */
} trivet_reading;

/** Fills a reading: joint -1, 0.2 mm. */
TRIVET_API trivet_status trivet_reading_defaults(trivet_reading *reading, size_t size);

/** The give that explains readings. */
typedef struct trivet_fitted {
    size_t size;
    uint32_t directions; /**< which springs were fitted, the same on every mount: bits */
    double spring[6];    /**< N/m and N m/rad; 0 where none was fitted */
    double least[6];     /**< 95 % bounds; 0 if the readings allow no spring at all */
    double most[6];      /**< infinite if the readings allow a rigid mount */
    double misfit;       /**< sum of squares of (computed - read) / within */
} trivet_fitted;

/** Fills a fit with zeros and its size. */
TRIVET_API trivet_status trivet_fitted_defaults(trivet_fitted *fitted, size_t size);
/**
 * Finds the springs, the same on every mount, that explain readings best (least squares), and a
 * copy of the frame with them in place of the holds in these directions.
 *
 * @param directions bits such as TRIVET_RY; at most as many as there are readings
 * @param copy_out   NULL on failure; to be freed; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE
 *         (more unknowns than readings; a drop smaller than the frame alone gives; readings that no
 *         give explains, or that contradict each other: the message says which), also those of
 *         trivet_frame_solve
 *
 * Gauss-Newton on the logarithm of the springs; bounds where the sum of squares, with one spring
 * held and the others fitted anew, has grown by 3.84 (profile likelihood); readings are refused
 * where misfit lies beyond the 99.9 % quantile of chi squared.
 */
TRIVET_API trivet_status trivet_give_fit(const trivet_frame *frame, const trivet_reading *readings,
                                         int32_t reading_count, uint32_t directions,
                                         trivet_fitted *fitted_out, trivet_frame **copy_out,
                                         trivet_message *message);

/**
 * What frame and cargo take off the front wheel: parked, on the vehicle's grade, pulling away.
 *
 * @param relief_out [3] kg, below 0 where they press on it; NaN where the vehicle is not known
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_INCOMPLETE (wheelbase or rear axle not said)
 */
TRIVET_API trivet_status trivet_vehicle_relief(const trivet_frame *frame, double *relief_out);

/** What happens if a bolt or a mount is lost. */
typedef enum trivet_loss_outcome {
    TRIVET_LOSS_HELD = 0,       /**< every check still holds */
    TRIVET_LOSS_OVERLOADED = 1, /**< it stays in place, and something fails */
    TRIVET_LOSS_SWINGS = 2      /**< the frame is free to move */
} trivet_loss_outcome;

typedef struct trivet_losses trivet_losses;

/** One bolt or mount lost. */
typedef struct trivet_loss {
    size_t size;
    int32_t mount;       /**< number of the mount */
    int32_t bolt;        /**< number of the bolt in its set; -1: the whole mount */
    int32_t outcome;     /**< a trivet_loss_outcome */
    double used;         /**< the largest utilisation; NaN if it swings */
    double direction[3]; /**< if it swings: the way the load goes first, world axes, length 1 */
} trivet_loss;

/** Fills a loss with zeros and its size. */
TRIVET_API trivet_status trivet_loss_defaults(trivet_loss *loss, size_t size);
/**
 * Takes away every bolt of a set with several, and every mount, in turn, solves and checks what is
 * left.
 *
 * @param limits NULL for the defaults
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_NO_MEMORY, also those of trivet_checks_new
 */
TRIVET_API trivet_status trivet_losses_new(const trivet_frame *frame, const trivet_limits *limits,
                                           trivet_losses **losses_out, trivet_message *message);
/** Frees losses. NULL is ignored. */
TRIVET_API void trivet_losses_free(trivet_losses *losses);
/** How many were tried. */
TRIVET_API int32_t trivet_losses_count(const trivet_losses *losses);
/** Loss number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_losses_at(const trivet_losses *losses, int32_t index,
                                          trivet_loss *loss_out);
/**
 * A loss in words: "mount FL lost: still held, weld of back at TL is used most (61 %)", "mount ML
 * lost: free to swing about the line through FL and FR, down onto the wheel".
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_losses_text(const trivet_losses *losses, int32_t index,
                                     const trivet_units *units, char *text, size_t size);

/** The usual cautions, one a call: index 0, 1, 2 ... until NULL. Static. */
TRIVET_API const char *trivet_caution(int32_t index);

#ifdef __cplusplus
}
#endif

#endif
