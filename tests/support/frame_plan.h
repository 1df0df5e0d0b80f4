/*
 * A frame as plain data, so that tests can change it before it is built: turn it in the world,
 * add its things in another order, run its tubes through more joints.
 */
#ifndef TRIVET_TESTS_FRAME_PLAN_H
#define TRIVET_TESTS_FRAME_PLAN_H

#include "trivet/frame.h"

enum {
    PLAN_JOINTS = 64,
    PLAN_STOCKS = 6,
    PLAN_TUBES = 40,
    PLAN_TUBE_JOINTS = 8,
    PLAN_INSERTS = 2,
    PLAN_MOUNTS = 4,
    PLAN_CARGOS = 2,
    PLAN_CARGO_JOINTS = 4,
    PLAN_CASES = 4,
    PLAN_LOADS = 4,
    PLAN_NAME = 16
};

typedef struct plan_joint {
    char name[PLAN_NAME];
    double position[3];
} plan_joint;

typedef struct plan_stock {
    char name[PLAN_NAME];
    trivet_profile profile;
    trivet_material material;
} plan_stock;

typedef struct plan_insert {
    int position; /* number of its joint along the tube */
    double length;
    int stock;
    int bond;
} plan_insert;

typedef struct plan_tube {
    char name[PLAN_NAME];
    int joint_count;
    int joints[PLAN_TUBE_JOINTS];
    int stock;
    double roll;
    double offsets[PLAN_TUBE_JOINTS][3];
    uint32_t free_first;
    uint32_t free_last;
    int insert_count;
    plan_insert inserts[PLAN_INSERTS];
} plan_tube;

typedef struct plan_cargo {
    char name[PLAN_NAME];
    double centre[3];
    int joint_count;
    int joints[PLAN_CARGO_JOINTS];
    int grip;
    double box;      /* kg */
    double contents; /* kg */
} plan_cargo;

/* A force and a moment on a joint, a cargo (at a place) or a tube (at[0] along it, in axes). */
typedef struct plan_force {
    int on;
    int axes;
    double force[3];
    double moment[3];
    double at[3];
} plan_force;

typedef struct plan_line {
    int tube;
    int axes;
    double from;
    double to; /* NaN: to the tube's end */
    double first[3];
    double last[3];
} plan_line;

typedef struct plan_case {
    char name[PLAN_NAME];
    double gravity[3];
    double warm;
    double cargo_factors[PLAN_CARGOS];
    double mount_moves[PLAN_MOUNTS][6];
    int joint_force_count, cargo_force_count, tube_force_count, line_count;
    plan_force joint_forces[PLAN_LOADS];
    plan_force cargo_forces[PLAN_LOADS];
    plan_force tube_forces[PLAN_LOADS];
    plan_line lines[PLAN_LOADS];
} plan_case;

typedef struct frame_plan {
    uint64_t seed; /* for failures; 0 if it is not a random one */
    int joint_count, stock_count, tube_count, mount_count, cargo_count, case_count;
    plan_joint joints[PLAN_JOINTS];
    plan_stock stocks[PLAN_STOCKS];
    plan_tube tubes[PLAN_TUBES];
    trivet_mount mounts[PLAN_MOUNTS];
    plan_cargo cargos[PLAN_CARGOS];
    plan_case cases[PLAN_CASES];
    int has_combination; /* of all cases, named "sum" */
    double factors[PLAN_CASES];
} frame_plan;

/* A copy on the heap; give it back with free. */
frame_plan *plan_copy(const frame_plan *plan);

/* Builds the frame with the public calls; a refusal fails the test with seed and message. */
trivet_frame *plan_build(const frame_plan *plan);

/* A point of the tube's own line: joint number position plus offset. */
void plan_tube_point(const frame_plan *plan, int tube, int position, double out[3]);

/* From the first to the last point of the tube's own line, m. */
double plan_tube_length(const frame_plan *plan, int tube);

/*
 * The section's axes as rows x, y, z in the world, for a tube from first to last: z in the
 * vertical plane through the tube and up, or forward if the tube is within 0.1 degree of vertical;
 * then turned by roll about x.
 */
void plan_section_axes(const double first[3], const double last[3], double roll, double axes[9]);

/* Turns the whole frame with all its loads: v becomes rotation v. Sections keep their place. */
void plan_rotate(frame_plan *plan, const double rotation[9]);

/* Joints, stock, tubes and cargo in another order. Names stay, so that results can be matched. */
void plan_renumber(frame_plan *plan, uint64_t seed);

/* Runs every tube that has room for it through one more joint, somewhere inside one of its spans.
 */
void plan_split(frame_plan *plan, uint64_t seed);

#endif
