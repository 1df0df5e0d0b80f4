/**
 * @file
 * The model: joints, stock, tubes, mounts, cargo, cases, combinations.
 *
 * A trivet_frame is filled by add and set calls and is otherwise only read. Things are numbered
 * from 0 in the order in which they were added, each kind by itself. Arrays and texts handed in
 * are copied. A failed call leaves the frame as it was.
 */
#ifndef TRIVET_FRAME_H
#define TRIVET_FRAME_H

#include "trivet/base.h"
#include "trivet/stock.h"

#ifdef __cplusplus
extern "C" {
#endif

typedef struct trivet_frame trivet_frame;

/** The kinds of thing in a frame. Numbers never change. */
typedef enum trivet_kind {
    TRIVET_KIND_JOINT = 1,
    TRIVET_KIND_STOCK = 2,
    TRIVET_KIND_TUBE = 3,
    TRIVET_KIND_MOUNT = 4, /**< a mount bears the name of its joint */
    TRIVET_KIND_CARGO = 5,
    TRIVET_KIND_CASE = 6,
    TRIVET_KIND_COMBINATION = 7,
    TRIVET_KIND_DECK = 8,
    TRIVET_KIND_CYCLES = 9 /**< loads that come and go */
} trivet_kind;

/** Directions, as bits. */
enum {
    TRIVET_X = 1,
    TRIVET_Y = 2,
    TRIVET_Z = 4,
    TRIVET_RX = 8,
    TRIVET_RY = 16,
    TRIVET_RZ = 32,
    TRIVET_POSITION = 7, /**< x, y, z */
    TRIVET_ALL = 63,     /**< all six: clamped */
    TRIVET_PINNED = 48   /**< the end of a tube free to bend about its own y and z; it still carries
                              twist */
};

/** Axes in which a load on a tube is given. */
typedef enum trivet_axes { TRIVET_WORLD_AXES = 0, TRIVET_TUBE_AXES = 1 } trivet_axes;

/** How an insert works together with its tube. */
typedef enum trivet_bond {
    TRIVET_SIDE_BY_SIDE = 0, /**< they bend together; the tube alone carries pull and twist */
    TRIVET_TOGETHER = 1      /**< fast to each other: pull, bending and twist are all shared */
} trivet_bond;

/** How cargo holds on to the joints under it. */
typedef enum trivet_grip {
    TRIVET_GRIP_STIFF = 0, /**< a rigid body: the joints keep their distances (a hard case) */
    TRIVET_GRIP_SOFT = 1   /**< hands its load on and adds no stiffness (a strapped bag) */
} trivet_grip;

/** A new empty frame. Statuses: OK, MISSING_ARGUMENT, NO_MEMORY. Free with trivet_frame_free. */
TRIVET_API trivet_status trivet_frame_new(trivet_frame **frame_out, trivet_message *message);

/** Frees a frame. NULL is ignored. */
TRIVET_API void trivet_frame_free(trivet_frame *frame);

/**
 * Empties a frame and keeps its memory for what is put in next: for programs that make many frames
 * one after the other. Everything that pointed into it is void. NULL is ignored.
 */
TRIVET_API void trivet_frame_clear(trivet_frame *frame);

/**
 * Adds a joint.
 *
 * @param name     its name, unique among joints, 1 to TRIVET_NAME_MAX - 1 bytes of UTF-8
 * @param position [3] m, world axes, finite
 * @param joint_out its number; may be NULL
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_NAME, TRIVET_BAD_VALUE, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_add_joint(trivet_frame *frame, const char *name,
                                                const double *position, int32_t *joint_out,
                                                trivet_message *message);

/** Moves a joint: for variants of the same topology. [3] m. */
TRIVET_API trivet_status trivet_frame_set_position(trivet_frame *frame, int32_t joint,
                                                   const double *position, trivet_message *message);

/**
 * Limits how far a joint may move down in any case, against the unloaded shape.
 *
 * @param limit m, above 0; NaN takes the limit away
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE
 */
TRIVET_API trivet_status trivet_frame_set_droop_limit(trivet_frame *frame, int32_t joint,
                                                      double limit, trivet_message *message);

/** The droop limit of a joint, m; NaN if it has none or there is no such joint. */
TRIVET_API double trivet_frame_droop_limit(const trivet_frame *frame, int32_t joint);

/**
 * Adds stock: a profile of a material.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_NAME, TRIVET_BAD_VALUE, TRIVET_BAD_SIZE,
 *         TRIVET_NO_MEMORY. E, G and density must be above 0, yield at least 0 (0: not known).
 */
TRIVET_API trivet_status trivet_frame_add_stock(trivet_frame *frame, const char *name,
                                                const trivet_profile *profile,
                                                const trivet_material *material, int32_t *stock_out,
                                                trivet_message *message);

/**
 * Changes stock in place: for variants of the same topology. Stock that bolts need as a tube (a
 * thread in its wall, clamped across it) stays one: TRIVET_BAD_VALUE.
 */
TRIVET_API trivet_status trivet_frame_set_stock(trivet_frame *frame, int32_t stock,
                                                const trivet_profile *profile,
                                                const trivet_material *material,
                                                trivet_message *message);

/**
 * Adds a tube that runs straight through joints.
 *
 * @param joints      [joint_count] numbers of joints in order, at least 2, none twice
 * @param roll        rad, turns the section about the tube's x, right-handed
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_NAME, TRIVET_BAD_INDEX,
 *         TRIVET_BAD_VALUE (one joint, a joint twice), TRIVET_NO_MEMORY
 *
 * Lengths and straightness depend on positions and offsets that may still change; they are looked
 * at when the frame is planned or solved.
 */
TRIVET_API trivet_status trivet_frame_add_tube(trivet_frame *frame, const char *name,
                                               const int32_t *joints, int32_t joint_count,
                                               int32_t stock, double roll, int32_t *tube_out,
                                               trivet_message *message);

/**
 * Frees directions at an end of a tube, in the tube's axes.
 *
 * @param joint      number of the first or last joint of the tube
 * @param directions bits that the end does not carry, such as TRIVET_PINNED; 0 makes it rigid
 */
TRIVET_API trivet_status trivet_frame_set_free_end(trivet_frame *frame, int32_t tube, int32_t joint,
                                                   uint32_t directions, trivet_message *message);

/** Rigid offset [3] m, world axes, from a joint to the tube's own line there. */
TRIVET_API trivet_status trivet_frame_set_offset(trivet_frame *frame, int32_t tube, int32_t joint,
                                                 const double *offset, trivet_message *message);
/** The offset [3] m of a tube at one of its joints. Statuses: OK, MISSING_ARGUMENT, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_offset(const trivet_frame *frame, int32_t tube, int32_t joint,
                                             double *offset_out);

/**
 * Slides an insert into a tube from the joint towards the rest of the tube; from a joint in the
 * middle half its length goes to each side.
 *
 * @param length m, above 0
 * @param stock  the insert's stock
 * @param bond   a trivet_bond
 */
TRIVET_API trivet_status trivet_frame_add_insert(trivet_frame *frame, int32_t tube, int32_t joint,
                                                 double length, int32_t stock, int32_t bond,
                                                 trivet_message *message);

/** What an insert is. Fill with trivet_insert_defaults before the call. */
typedef struct trivet_insert {
    size_t size;
    int32_t joint; /**< where it sits */
    int32_t stock;
    int32_t bond;  /**< a trivet_bond */
    double length; /**< m */
} trivet_insert;

/** Fills an insert with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_insert_defaults(trivet_insert *insert, size_t size);
/** The number of inserts in a tube; 0 if there is no such tube. */
TRIVET_API int32_t trivet_frame_insert_count(const trivet_frame *frame, int32_t tube);
/** An insert of a tube. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_insert(const trivet_frame *frame, int32_t tube, int32_t index,
                                             trivet_insert *insert_out);

/** A mount. Fill with trivet_mount_defaults. */
typedef struct trivet_mount {
    size_t size;
    int32_t joint;       /**< where the frame is held */
    uint32_t held;       /**< directions that cannot move, in the mount's axes */
    double spring[6];    /**< N/m and N m/rad in the directions that are not held; 0: free */
    double axes[9];      /**< the mount's x, y and z as rows, right-handed unit vectors in world
                              axes; defaults to world axes */
    double limit_pull;   /**< N, away from the vehicle along the mount's +z; NaN: no limit set */
    double limit_push;   /**< N, towards the vehicle along the mount's -z; NaN: none */
    double limit_shear;  /**< N, across the mount's z; NaN: none */
    double limit_moment; /**< N m, resultant; NaN: none */
} trivet_mount;

/** Fills a mount: nothing held, no springs, world axes, no limits, joint -1. */
TRIVET_API trivet_status trivet_mount_defaults(trivet_mount *mount, size_t size);

/**
 * Adds a mount. One a joint.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_INDEX, TRIVET_BAD_NAME
 *         (the joint has a mount), TRIVET_BAD_VALUE (holds nothing, spring in a held direction,
 *         negative spring or limit, axes not at right angles), TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_add_mount(trivet_frame *frame, const trivet_mount *mount,
                                                int32_t *mount_out, trivet_message *message);

/**
 * Adds cargo with nothing in it; trivet_frame_add_item puts mass into it.
 *
 * @param centre [3] m, world axes: the centre of gravity of all items together
 * @param joints [joint_count] joints that it rests on, at least 1, none twice
 * @param grip   a trivet_grip
 */
TRIVET_API trivet_status trivet_frame_add_cargo(trivet_frame *frame, const char *name,
                                                const double *centre, const int32_t *joints,
                                                int32_t joint_count, int32_t grip,
                                                int32_t *cargo_out, trivet_message *message);

/** Adds an item to a cargo. mass in kg, at least 0. */
TRIVET_API trivet_status trivet_frame_add_item(trivet_frame *frame, int32_t cargo, const char *name,
                                               double mass, trivet_message *message);

/** Adds a case. gravity: [3] multiples of 9.80665 m/s^2, world axes; NULL for none. */
TRIVET_API trivet_status trivet_frame_add_case(trivet_frame *frame, const char *name,
                                               const double *gravity, int32_t *case_out,
                                               trivet_message *message);

/** Scales a cargo's mass in a case; 0 leaves it out. At least 0. 1 unless set. */
TRIVET_API trivet_status trivet_frame_set_cargo_factor(trivet_frame *frame, int32_t in_case,
                                                       int32_t cargo, double factor,
                                                       trivet_message *message);

/** Adds a force [3] N and a moment [3] N m on a joint, world axes; NULL for none. */
TRIVET_API trivet_status trivet_frame_add_joint_force(trivet_frame *frame, int32_t in_case,
                                                      int32_t joint, const double *force,
                                                      const double *moment,
                                                      trivet_message *message);

/** The same on a cargo, acting at [3] m world axes; at NULL: at the cargo's centre. */
TRIVET_API trivet_status trivet_frame_add_cargo_force(trivet_frame *frame, int32_t in_case,
                                                      int32_t cargo, const double *force,
                                                      const double *moment, const double *at,
                                                      trivet_message *message);

/**
 * Adds a force [3] N and a moment [3] N m at a place on a tube; NULL for none.
 *
 * @param at   m along the tube from its first joint, 0 to its length
 * @param axes a trivet_axes
 */
TRIVET_API trivet_status trivet_frame_add_tube_force(trivet_frame *frame, int32_t in_case,
                                                     int32_t tube, double at, const double *force,
                                                     const double *moment, int32_t axes,
                                                     trivet_message *message);

/**
 * Adds a line load that varies linearly from `from` to `to`.
 *
 * @param from  m along the tube, at least 0
 * @param to    m along the tube, above from, at most its length; NaN: to its end
 * @param first [3] N/m at from, per length of tube
 * @param last  [3] N/m at to
 */
TRIVET_API trivet_status trivet_frame_add_tube_line(trivet_frame *frame, int32_t in_case,
                                                    int32_t tube, double from, double to,
                                                    const double *first, const double *last,
                                                    int32_t axes, trivet_message *message);

/**
 * Moves the ground under a mount in a case.
 *
 * @param move [6] m and rad in the mount's axes; 0 in directions that are neither held nor sprung
 */
TRIVET_API trivet_status trivet_frame_set_mount_move(trivet_frame *frame, int32_t in_case,
                                                     int32_t mount, const double *move,
                                                     trivet_message *message);

/** Warms the whole frame in a case, K. */
TRIVET_API trivet_status trivet_frame_set_warm(trivet_frame *frame, int32_t in_case, double warm,
                                               trivet_message *message);

/**
 * Adds a combination: the sum of cases, each times a factor. Its results stand after those of the
 * cases. Its name is unique among cases and combinations.
 */
TRIVET_API trivet_status trivet_frame_add_combination(trivet_frame *frame, const char *name,
                                                      const int32_t *cases, const double *factors,
                                                      int32_t case_count, int32_t *combination_out,
                                                      trivet_message *message);

/**
 * Changes what a mount holds, its springs, axes and limits in place; its joint stays.
 *
 * @return as trivet_frame_add_mount; TRIVET_BAD_VALUE also if a case moves a direction that it
 *         would no longer hold
 */
TRIVET_API trivet_status trivet_frame_set_mount(trivet_frame *frame, int32_t mount,
                                                const trivet_mount *changed,
                                                trivet_message *message);
/** Takes a mount away, with its bolts and its moves; later mounts count one less. */
TRIVET_API trivet_status trivet_frame_remove_mount(trivet_frame *frame, int32_t mount,
                                                   trivet_message *message);

/**
 * Says in plain words why a case is there, and where its numbers come from.
 *
 * @param story  one sentence; copied; "" takes it away
 * @param source such as "common practice"; copied
 */
TRIVET_API trivet_status trivet_frame_set_case_story(trivet_frame *frame, int32_t in_case,
                                                     const char *story, const char *source,
                                                     trivet_message *message);
/** The sentence of a case, owned by the frame; "" if it has none. source_out may be NULL. */
TRIVET_API const char *trivet_frame_case_story(const trivet_frame *frame, int32_t in_case,
                                               const char **source_out);

/**
 * Remembers what was asked for and cannot be looked at: the checks list it as not checked.
 *
 * @param what such as "usage two-up"; copied
 * @param why  what to add, such as "say how high the backrest is: two-up: {height: 350 mm}"; copied
 */
TRIVET_API trivet_status trivet_frame_add_gap(trivet_frame *frame, const char *what,
                                              const char *why, trivet_message *message);
/** Gap number index, owned by the frame; NULL past the last. why_out may be NULL. */
TRIVET_API const char *trivet_frame_gap(const trivet_frame *frame, int32_t index,
                                        const char **why_out);

/**
 * A corner: a joint where just two tubes end and none runs on.
 *
 * @param turn_out  rad by which the second tube turns away from the first's direction: 0 straight
 *                  on, pi folded back; NaN on failure
 * @param miter_out rad off square that each of the two ends is cut, for a joint in the middle: half
 *                  the turn; two cuts of 22.5 degrees turn by 45; NaN on failure
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_INDEX, TRIVET_BAD_VALUE (no corner)
 */
TRIVET_API trivet_status trivet_frame_corner(const trivet_frame *frame, int32_t joint,
                                             double *turn_out, double *miter_out);

/** Multiplies the mass of every item of a cargo; factor at least 0. */
TRIVET_API trivet_status trivet_frame_scale_cargo(trivet_frame *frame, int32_t cargo, double factor,
                                                  trivet_message *message);

/**
 * A copy of a frame, to be changed and freed by itself.
 *
 * @param copy_out NULL on failure
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_NO_MEMORY
 */
TRIVET_API trivet_status trivet_frame_copy(const trivet_frame *frame, trivet_frame **copy_out,
                                           trivet_message *message);

/** The plain word for a kind, such as "joint"; "thing" if it is none. Static. */
TRIVET_API const char *trivet_kind_text(int32_t kind);

/** How many things of a kind there are; 0 if frame is NULL or kind is none. */
TRIVET_API int32_t trivet_frame_count(const trivet_frame *frame, int32_t kind);

/** The name of a thing, owned by the frame; NULL if there is none. */
TRIVET_API const char *trivet_frame_name(const trivet_frame *frame, int32_t kind, int32_t index);

/**
 * The number of a thing by its name.
 *
 * @param index_out -1 on failure
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_NAME (the remedy offers the nearest name)
 */
TRIVET_API trivet_status trivet_frame_find(const trivet_frame *frame, int32_t kind,
                                           const char *name, int32_t *index_out,
                                           trivet_message *message);

/** [3] m, owned by the frame, valid until the next joint is added; NULL if there is none. */
TRIVET_API const double *trivet_frame_position(const trivet_frame *frame, int32_t joint);

/** Section values of stock, owned by the frame, valid until stock is added or set; or NULL. */
TRIVET_API const trivet_section *trivet_frame_section(const trivet_frame *frame, int32_t stock);
/** The profile of stock, likewise. */
TRIVET_API const trivet_profile *trivet_frame_profile(const trivet_frame *frame, int32_t stock);
/** The material of stock, likewise. */
TRIVET_API const trivet_material *trivet_frame_material(const trivet_frame *frame, int32_t stock);

/** The joints of a tube in order, [*joint_count_out], owned by the frame; NULL if there is none. */
TRIVET_API const int32_t *trivet_frame_tube_joints(const trivet_frame *frame, int32_t tube,
                                                   int32_t *joint_count_out);
/** The stock of a tube, or -1. */
TRIVET_API int32_t trivet_frame_tube_stock(const trivet_frame *frame, int32_t tube);
/** The length of a tube from its first to its last joint with offsets, m; NaN if there is none. */
TRIVET_API double trivet_frame_tube_length(const trivet_frame *frame, int32_t tube);
/** The mass of a tube with its inserts, kg; NaN if there is none. */
TRIVET_API double trivet_frame_tube_mass(const trivet_frame *frame, int32_t tube);

/** A mount. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_mount(const trivet_frame *frame, int32_t mount,
                                            trivet_mount *mount_out);

/** What a cargo is. Fill with trivet_cargo_defaults before the call. */
typedef struct trivet_cargo {
    size_t size;
    double mass;      /**< kg, of all items */
    double centre[3]; /**< m, world axes */
    int32_t grip;     /**< a trivet_grip */
    int32_t item_count;
    int32_t joint_count;
    const int32_t *joints; /**< [joint_count], owned by the frame */
} trivet_cargo;

/** Fills a cargo with zeros and its size. */
TRIVET_API trivet_status trivet_cargo_defaults(trivet_cargo *cargo, size_t size);
/** A cargo. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_frame_cargo(const trivet_frame *frame, int32_t cargo,
                                            trivet_cargo *cargo_out);
/** An item of a cargo: its name and mass, kg. NULL if there is none. */
TRIVET_API const char *trivet_frame_item(const trivet_frame *frame, int32_t cargo, int32_t item,
                                         double *mass_out);

/** The mass of the frame without cargo, kg; NaN if frame is NULL. */
TRIVET_API double trivet_frame_mass(const trivet_frame *frame);

/** The gravity [3] of a case in multiples of 9.80665 m/s^2, owned by the frame; or NULL. */
TRIVET_API const double *trivet_frame_gravity(const trivet_frame *frame, int32_t in_case);

/**
 * The name of a result column, owned by the frame: of a case, then of a combination. NULL if there
 * is none.
 *
 * @param column a result column: a case, or the number of cases plus that of a combination
 */
TRIVET_API const char *trivet_frame_column_name(const trivet_frame *frame, int32_t column);

/**
 * A case or combination as one plain line: "gravity 2 g down; 250 N backward on cool box".
 *
 * @param column a result column: a case, or the number of cases plus that of a combination
 * @param units  NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_case_text(const trivet_frame *frame, int32_t column,
                                   const trivet_units *units, char *text, size_t size);

/**
 * Whether the frame can be planned: at least one tube, one mount and one case; every tube straight
 * (no joint farther off than a thousandth of its length) and no span without length; every joint
 * met by a tube; inserts and loads within their tubes; every case has a load, a move or warmth.
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_INCOMPLETE, TRIVET_BAD_VALUE
 */
TRIVET_API trivet_status trivet_frame_validate(const trivet_frame *frame, trivet_message *message);

#ifdef __cplusplus
}
#endif

#endif
