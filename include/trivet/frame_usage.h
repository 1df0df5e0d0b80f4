/**
 * @file
 * The model, continued: the vehicle, and ready-made cases for what the frame must stand.
 */
#ifndef TRIVET_FRAME_USAGE_H
#define TRIVET_FRAME_USAGE_H

#include "trivet/frame.h"

#ifdef __cplusplus
extern "C" {
#endif

/** The vehicle. Fill with trivet_vehicle_defaults: NaN for what is not said. */
typedef struct trivet_vehicle {
    size_t size;
    double wheelbase;     /**< m */
    double rear_axle;     /**< m, world x of the rear axle */
    double ground;        /**< m, world z of the ground under the wheels */
    double front_load;    /**< kg on the front axle as it stands, ready to ride, without frame and
                               cargo */
    double rear_load;     /**< kg on the rear axle, likewise */
    double front_most;    /**< kg, most on the front axle, as on the label */
    double rear_most;     /**< kg, most on the rear axle */
    double total_most;    /**< kg, most in all */
    double front_least;   /**< kg that must stay on the front wheel, set by the user */
    double grade;         /**< rad, slope up which it must climb; 0.12: one in eight */
    double accelerate;    /**< multiple of g at which it pulls away; 0.5 */
    double wheel_radius;  /**< m, of the rear wheel with tyre */
    double overhang_most; /**< m that frame and cargo's centre may reach behind the rear axle */
    double width_most;    /**< m, width of the frame in all */
} trivet_vehicle;

/** Fills a vehicle: NaN, but a grade of 12 % and pulling away with 0.5 g. */
TRIVET_API trivet_status trivet_vehicle_defaults(trivet_vehicle *vehicle, size_t size);
/** Sets the vehicle under the frame. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_VALUE. */
TRIVET_API trivet_status trivet_frame_set_vehicle(trivet_frame *frame,
                                                  const trivet_vehicle *vehicle,
                                                  trivet_message *message);
/** The vehicle; its defaults if none was set. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_frame_vehicle(const trivet_frame *frame,
                                              trivet_vehicle *vehicle_out);

/** Ready-made groups of cases. Numbers never change. */
typedef enum trivet_usage_kind {
    TRIVET_USAGE_ROAD = 1,        /**< a motorcycle on the road */
    TRIVET_USAGE_ROUGH_TRACK = 2, /**< the same on tracks */
    TRIVET_USAGE_TWO_UP = 3,      /**< a passenger leans on the load and settles on it */
    TRIVET_USAGE_GRAB = 4,        /**< the passenger holds on to a rail */
    TRIVET_USAGE_LIFTED = 5,      /**< the vehicle is lifted by the frame */
    TRIVET_USAGE_STANDING = 6,    /**< a person stands on each outer corner in turn */
    TRIVET_USAGE_FALL = 7,        /**< the vehicle falls on its side */
    TRIVET_USAGE_STRAPS = 8,      /**< straps pull the load down */
    TRIVET_USAGE_MISFIT = 9,      /**< each mount pulled out of place when it is bolted up */
    TRIVET_USAGE_LOST_BOLT = 10,  /**< each mount bolt missing in turn: see trivet_losses_new */
    TRIVET_USAGE_TRAILER = 11,    /**< a light trailer on the road */
    TRIVET_USAGE_QUAD = 12,       /**< a quad bike across country */
    TRIVET_USAGE_STAND = 13       /**< a stand in the workshop */
} trivet_usage_kind;

/** A usage with its numbers. Fill with trivet_usage_of for its kind; change what you like. */
typedef struct trivet_usage {
    size_t size;
    int32_t kind;      /**< a trivet_usage_kind */
    int32_t cargo;     /**< two-up, straps: the load; -1: the only one there is */
    int32_t tube;      /**< grab: the rail; -1: not said */
    double down;       /**< multiples of g in all, a bump; NaN where the kind has none */
    double up;         /**< multiples of g upward in all, the rebound */
    double brake;      /**< multiples of g; a quad bike: downhill, sine of the slope, at most 1 */
    double accelerate; /**< multiples of g; a quad bike: uphill, sine of the slope, at most 1 */
    double side;       /**< multiples of g, each way */
    double lean;       /**< rad from upright in a corner */
    double force;      /**< N: two-up the back, grab the hand, straps each */
    double mass;       /**< kg: two-up, standing the person */
    double height;     /**< m above the mounts' highest joint: the backrest; NaN: not said */
    double settle;     /**< multiples of g with which the person sits or steps down */
    double move;       /**< m, misfit */
} trivet_usage;

/** "road", "rough track", "two-up", ... as the file writes it; NULL if there is none. Static. */
TRIVET_API const char *trivet_usage_text(int32_t kind);
/** Fills a usage: of no kind yet, nothing named, NaN for every number. */
TRIVET_API trivet_status trivet_usage_defaults(trivet_usage *usage, size_t size);
/** Fills a usage with the numbers of a kind. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_VALUE.
 */
TRIVET_API trivet_status trivet_usage_of(trivet_usage *usage, size_t size, int32_t kind);
/**
 * Adds the cases of a usage, each with its story. What it needs and the frame lacks becomes a gap.
 * Cargo, mounts, tubes and the vehicle must be there.
 *
 * @param count_out how many cases were added; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE,
 *         TRIVET_BAD_NAME (a case of that name is there), TRIVET_NO_MEMORY; the
 *         frame is then as it was
 */
TRIVET_API trivet_status trivet_frame_add_usage(trivet_frame *frame, const trivet_usage *usage,
                                                int32_t *count_out, trivet_message *message);
/** Whether a usage of that kind was added. */
TRIVET_API bool trivet_frame_has_usage(const trivet_frame *frame, int32_t kind);

#ifdef __cplusplus
}
#endif

#endif
