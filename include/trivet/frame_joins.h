/**
 * @file
 * The model, continued: what holds the parts together - bolts, welds, decks - and loads that come
 * and go.
 */
#ifndef TRIVET_FRAME_JOINS_H
#define TRIVET_FRAME_JOINS_H

#include "trivet/frame.h"

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Adds a deck: a plate on top of the frame, screwed down at joints. It stiffens nothing; its weight
 * is a cargo of its own. The screws are added with trivet_frame_add_bolts, and carry what all cargo
 * on those joints hands on there.
 *
 * @param name   its name, unique among decks
 * @param joints [joint_count] joints that it lies on, at least 1, none twice
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_NAME, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE,
 *         TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_add_deck(trivet_frame *frame, const char *name,
                                               const int32_t *joints, int32_t joint_count,
                                               int32_t *deck_out, trivet_message *message);
/** The joints of a deck, [*joint_count_out], owned by the frame; NULL if there is none. */
TRIVET_API const int32_t *trivet_frame_deck_joints(const trivet_frame *frame, int32_t deck,
                                                   int32_t *joint_count_out);

/** A slot through a deck's plate, such as for a strap: round at both ends. World x and y, m. */
typedef struct trivet_slot {
    double from[2]; /**< m, middle of its first round end */
    double to[2];   /**< m, middle of its last round end */
    double width;   /**< m, above 0 */
} trivet_slot;

enum {
    TRIVET_PLATE_CORNERS_MAX = 256, /**< of an outline */
    TRIVET_PLATE_SLOTS_MAX = 64     /**< of a deck */
};

/** How a deck's plate is cut. Fill with trivet_plate_defaults. */
typedef struct trivet_plate {
    size_t size;
    int32_t corner_count; /**< of its outline; 0: none is said, see edge */
    int32_t slot_count;
    const double *corners;    /**< [corner_count][2] m, world x and y, one after the other round it,
                                   either way */
    const trivet_slot *slots; /**< [slot_count] */
    double edge; /**< m: without an outline the plate reaches so far beyond the convex outline round
                      its joints and holes; NaN: the farthest edge that its screws are checked with,
                      or two hole diameters (common practice) */
} trivet_plate;

/** Fills a plate: no outline, no slots, edge NaN. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_plate_defaults(trivet_plate *plate, size_t size);
/**
 * Says how a deck's plate is cut; corners and slots are copied.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE
 *         (fewer than three corners, sides that cross, a slot without width or length, an edge that
 *         is not above 0), TRIVET_NO_MEMORY; whether all of it fits is looked at by
 *         trivet_frame_validate_plate
 */
TRIVET_API trivet_status trivet_frame_set_plate(trivet_frame *frame, int32_t deck,
                                                const trivet_plate *plate, trivet_message *message);
/** A deck's plate as it was said; arrays owned by the frame. Statuses: OK, MISSING_ARGUMENT,
 * BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_plate(const trivet_frame *frame, int32_t deck,
                                            trivet_plate *plate_out);

/** What is cut out of sheet for a deck: outline, holes, slots, in real size. */
typedef struct trivet_cutting trivet_cutting;

/**
 * Lays out a deck's plate, flat, seen from above: world x and y.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_INCOMPLETE (neither outline
 *         nor edge nor screws), TRIVET_BAD_VALUE (joints that differ by more than 1 mm in height; a
 *         hole outside the plate, or nearer to its edge than its screws are checked with; a slot
 *         that leaves the plate, or runs into a hole or another slot), TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_cutting_new(const trivet_frame *frame, int32_t deck,
                                            trivet_cutting **cutting_out, trivet_message *message);
/** Whether a deck's plate can be laid out; statuses and words of trivet_cutting_new. */
TRIVET_API trivet_status trivet_frame_validate_plate(trivet_frame *frame, int32_t deck,
                                                     trivet_message *message);
/** Frees a cutting. NULL is ignored. */
TRIVET_API void trivet_cutting_free(trivet_cutting *cutting);
/**
 * The outline, counter-clockwise: [*count_out][3], x and y in m and how the side to the next corner
 * bulges: the tangent of a quarter of its arc's angle, 0 for a straight side. Owned by cutting.
 */
TRIVET_API const double *trivet_cutting_outline(const trivet_cutting *cutting, int32_t *count_out);
/** The screw holes: [*count_out][3], x, y and diameter in m. Owned by cutting. */
TRIVET_API const double *trivet_cutting_holes(const trivet_cutting *cutting, int32_t *count_out);
/** The slots, [*count_out]. Owned by cutting. */
TRIVET_API const trivet_slot *trivet_cutting_slots(const trivet_cutting *cutting,
                                                   int32_t *count_out);

/** The head of a bolt or screw. */
typedef enum trivet_head {
    TRIVET_HEAD_HEXAGON = 0,
    TRIVET_HEAD_SOCKET = 1,
    TRIVET_HEAD_COUNTERSUNK = 2 /**< recessed: it carries less (ISO 10642) and needs depth */
} trivet_head;

/** What a thread sits in. */
typedef enum trivet_into {
    TRIVET_INTO_NUT = 0,    /**< a standard nut of the bolt's own grade: it does not strip first */
    TRIVET_INTO_TAPPED = 1, /**< tapped into solid material over the engagement */
    TRIVET_INTO_WALL = 2,   /**< cut straight into a tube's wall: as long as the wall is thick */
    TRIVET_INTO_RATED = 3   /**< a rivet nut or weld nut, as strong as the user says */
} trivet_into;

/** What the bolt presses together. */
typedef enum trivet_clamped {
    TRIVET_CLAMPED_SOLID = 0,  /**< plates and solid parts: nothing that could be crushed */
    TRIVET_CLAMPED_HOLLOW = 1, /**< across a hollow tube, walls unsupported */
    TRIVET_CLAMPED_SLEEVE = 2, /**< across a tube with a crush sleeve inside */
    TRIVET_CLAMPED_INSERT = 3  /**< across a tube with a solid insert in it */
} trivet_clamped;

/** What keeps the two parts apart. */
typedef enum trivet_spacer {
    TRIVET_SPACER_NONE = 0,
    TRIVET_SPACER_METAL = 1,
    TRIVET_SPACER_PLASTIC = 2 /**< creeps: no preload is left after a while */
} trivet_spacer;

enum { TRIVET_BOLTS_MAX = 16 };

/** Bolts or screws at one place. Fill with trivet_bolts_defaults. NaN: not said. */
typedef struct trivet_bolts {
    size_t size;
    int32_t where_kind; /**< TRIVET_KIND_MOUNT, TRIVET_KIND_TUBE (an end of it), TRIVET_KIND_DECK */
    int32_t where_index;   /**< number of the mount, tube or deck */
    int32_t joint;         /**< end of the tube, or joint of the deck; of a mount: its own, or -1 */
    int32_t count;         /**< 1 to TRIVET_BOLTS_MAX; 1 */
    int32_t head;          /**< a trivet_head */
    int32_t into;          /**< a trivet_into */
    int32_t into_stock;    /**< stock that the thread is cut into; -1 for nuts */
    int32_t clamped;       /**< a trivet_clamped */
    int32_t clamped_stock; /**< the tube that is clamped or countersunk; -1: none */
    int32_t spacer;        /**< a trivet_spacer */
    int32_t is_thread_clear; /**< 1: the shank, not the thread, lies where it is sheared */
    int32_t fixing_count;    /**< plug or spot welds that keep the tapped insert; 0: not said */
    char thread[24];         /**< as trivet_thread_find takes it */
    char grade[24];          /**< as trivet_grade_find takes it */
    double pattern[TRIVET_BOLTS_MAX][2]; /**< m, x and y of each bolt from the joint, in axes */
    double axes[9];       /**< x, y, z as rows, world axes, z along the bolt from what the part is
                               bolted to towards the part; zeros: the mount's, the tube's own
                               (z along its height), of a deck world axes */
    double engagement;    /**< m of thread; of TRIVET_INTO_WALL the wall */
    double torque;        /**< N m */
    double nut_factor;    /**< K in T = K F d; 0.2: dry zinc-plated steel */
    double scatter;       /**< share by which the preload may differ either way; 0.25 */
    double friction;      /**< of the faces that are pressed together; 0.2 */
    double rated_pull;    /**< N, of a rivet nut or weld nut */
    double rated_shear;   /**< N */
    double rated_torque;  /**< N m */
    double plate;         /**< m, thickness of the plate, tab or deck that the bolt goes through */
    double plate_yield;   /**< Pa */
    double plate_tensile; /**< Pa */
    double edge;          /**< m, from the hole's middle to the nearest edge along the load */
    double side;          /**< m, to the nearest edge across the load; NaN: as edge */
    double hole;          /**< m, diameter; NaN: the thread's clearance hole */
    double spacer_height; /**< m */
    double spacer_diameter; /**< m, outside; its hole is the clearance hole */
    double sleeve_diameter; /**< m, outside, of a crush sleeve */
    double sleeve_wall;     /**< m */
    double sleeve_yield;    /**< Pa; NaN: that of the clamped tube */
    double fixing_diameter; /**< m, of each plug or spot weld */
} trivet_bolts;

/** Fills bolts with what stands above, where_kind 0, indices -1, NaN for what is not said. */
TRIVET_API trivet_status trivet_bolts_defaults(trivet_bolts *bolts, size_t size);
/**
 * Adds bolts. One set for a mount, an end of a tube, a joint of a deck.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_NAME
 *         (unknown thread or grade, or bolts are there already), TRIVET_BAD_VALUE (a size that is
 *         not above 0, more than one bolt at one place, axes not at right angles, a thread tapped
 *         into nothing), TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_add_bolts(trivet_frame *frame, const trivet_bolts *bolts,
                                                int32_t *bolts_out, trivet_message *message);
/** The number of sets of bolts. */
TRIVET_API int32_t trivet_frame_bolts_count(const trivet_frame *frame);
/** Set number index, joint and axes filled in. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX.
 */
TRIVET_API trivet_status trivet_frame_bolts(const trivet_frame *frame, int32_t index,
                                            trivet_bolts *bolts_out);

/** How a tube's end is welded. */
typedef enum trivet_weld_kind {
    TRIVET_WELD_NOT_SAID = 0,
    TRIVET_WELD_FILLET = 1, /**< along the outline, all round or a share of it */
    TRIVET_WELD_SPOTS = 2,  /**< spots of a diameter, evenly round the outline */
    TRIVET_WELD_NONE = 3    /**< not welded */
} trivet_weld_kind;

/** Sides of a tube's outline, as bits. */
enum {
    TRIVET_SIDE_TOP = 1,    /**< +z of the tube */
    TRIVET_SIDE_BOTTOM = 2, /**< -z */
    TRIVET_SIDE_LEFT = 4,   /**< +y */
    TRIVET_SIDE_RIGHT = 8,  /**< -y */
    TRIVET_SIDES_ALL = 15
};

/** The weld at an end of a tube. Fill with trivet_weld_defaults. */
typedef struct trivet_weld {
    size_t size;
    int32_t kind;         /**< a trivet_weld_kind; fillet */
    uint32_t sides;       /**< sides that are welded; all. Round tube: the quarter round each */
    int32_t spot_count;   /**< spots in all */
    double spot_diameter; /**< m */
    double throat;        /**< m; 0: 0.7 of the tube's wall. Never counted above the wall */
    double run;           /**< welded share of the sides' length, evenly spread, above 0 to 1; 1 */
    double filler;        /**< Pa, tensile strength of the weld metal; NaN: at least the parent's */
    double detail;        /**< Pa, stress range that its toe stands for two million times (detail
                               category); NaN: a low one is taken */
} trivet_weld;

/** Fills a weld as above. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_weld_defaults(trivet_weld *weld, size_t size);
/**
 * Welds an end of a tube.
 *
 * @param joint first or last joint of the tube; -1: both ends
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE
 */
TRIVET_API trivet_status trivet_frame_set_weld(trivet_frame *frame, int32_t tube, int32_t joint,
                                               const trivet_weld *weld, trivet_message *message);
/** The weld at an end; kind is TRIVET_WELD_NOT_SAID if none was set. Statuses as above. */
TRIVET_API trivet_status trivet_frame_weld(const trivet_frame *frame, int32_t tube, int32_t joint,
                                           trivet_weld *weld_out);

/** Loads that come and go between two states. Fill with trivet_cycles_defaults. */
typedef struct trivet_cycles {
    size_t size;
    int32_t from; /**< result column (case, or number of cases plus combination); -1: unloaded */
    int32_t to;   /**< result column */
    double from_factor; /**< 1 */
    double to_factor;   /**< 1 */
    double count;       /**< how many times; 1e6 */
} trivet_cycles;

/** Fills cycles: columns -1, factors 1, a million times. */
TRIVET_API trivet_status trivet_cycles_defaults(trivet_cycles *cycles, size_t size);
/**
 * Adds cycles. Its cases and combinations must be there.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_NAME, TRIVET_BAD_INDEX,
 *         TRIVET_BAD_VALUE, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_add_cycles(trivet_frame *frame, const char *name,
                                                 const trivet_cycles *cycles, int32_t *cycles_out,
                                                 trivet_message *message);
/** Cycles number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_cycles(const trivet_frame *frame, int32_t index,
                                             trivet_cycles *cycles_out);

/**
 * A set of bolts as people say it: "2 x M6 8.8 countersunk, tapped 15 mm into plug, 10 N*m".
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size; empty text
 *         if there is no such set
 */
TRIVET_API size_t trivet_bolts_text(const trivet_frame *frame, int32_t bolts,
                                    const trivet_units *units, char *text, size_t size);
/** A weld likewise: "fillet all round, throat 2 mm". */
TRIVET_API size_t trivet_weld_text(const trivet_weld *weld, const trivet_units *units, char *text,
                                   size_t size);
/** Cycles likewise: "from unloaded to 2 x parked, 1e+06 times". */
TRIVET_API size_t trivet_cycles_text(const trivet_frame *frame, int32_t cycles, char *text,
                                     size_t size);

#ifdef __cplusplus
}
#endif

#endif
