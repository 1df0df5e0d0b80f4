/*
 * The inside of a trivet_frame: plain arrays, read by index by the stages that come later. Only
 * lib/frame writes into it. Everything stands in SI and world axes.
 *
 * Every list is a pointer, a count and a capacity; the count is what the frame has. Cases, gaps and
 * names beyond the count are zeros or were cut off, and their memory is used again.
 */
#ifndef TRIVET_FRAME_FRAME_H
#define TRIVET_FRAME_FRAME_H

#include "base/pool.h"
#include "frame/names.h"
#include "trivet/frame.h"
#include "trivet/frame_joins.h"
#include "trivet/frame_usage.h"

#include <stddef.h>
#include <stdint.h>

/* Standard acceleration of gravity, m/s^2 (ISO 80000-3). */
#define TRIVET__GRAVITY 9.80665

/* A span shorter than this, m, counts as none; places on a tube nearer than this are one place. */
#define TRIVET__SPAN_LEAST 1e-6

/* How far a joint may stand off its tube's line, as a share of the tube's length. */
#define TRIVET__STRAIGHT 1e-3

/* How far beyond a tube's end a place may lie by rounding, as a share of the tube's length. */
#define TRIVET__ROUNDING 1e-9

typedef struct trivet__joint {
    const char *name;
    double position[3]; /* m */
    double droop_limit; /* m; NaN: none */
    int32_t tube_count; /* tubes that run through it or end at it */
} trivet__joint;

typedef struct trivet__stock {
    const char *name;
    trivet_profile profile;
    trivet_material material;
    trivet_section section; /* of profile */
} trivet__stock;

/* A section as it was solved for a profile. */
typedef struct trivet__known_section {
    trivet_profile profile;
    trivet_section section;
} trivet__known_section;

typedef struct trivet__insert {
    int32_t position; /* of its joint along the tube: 0 to joint_count - 1 */
    int32_t stock;
    int32_t bond;  /* a trivet_bond */
    double length; /* m */
} trivet__insert;

typedef struct trivet__tube {
    const char *name;
    int32_t joint_count;
    int32_t stock;
    int32_t *joints;     /* [joint_count] */
    double *offsets;     /* [joint_count][3] m, from the joint to the tube's own line */
    double roll;         /* rad */
    uint32_t free_first; /* directions that the first end does not carry, tube axes */
    uint32_t free_last;
    trivet_weld weld_first; /* kind TRIVET_WELD_NOT_SAID unless set */
    trivet_weld weld_last;
    trivet__insert *inserts; /* by rising position, one a joint at most */
    int32_t insert_count;
    size_t insert_capacity;
} trivet__tube;

typedef struct trivet__item {
    const char *name;
    double mass; /* kg */
} trivet__item;

typedef struct trivet__cargo {
    const char *name;
    double centre[3]; /* m */
    double mass;      /* kg, of all items */
    int32_t *joints;  /* [joint_count] */
    int32_t joint_count;
    int32_t grip; /* a trivet_grip */
    trivet__item *items;
    int32_t item_count;
    size_t item_capacity;
} trivet__cargo;

typedef struct trivet__joint_force {
    int32_t joint;
    double force[3];  /* N */
    double moment[3]; /* N m */
} trivet__joint_force;

typedef struct trivet__cargo_force {
    int32_t cargo;
    int32_t at_centre; /* 1: acts at the cargo's centre, wherever that is moved to */
    double force[3];   /* N */
    double moment[3];  /* N m */
    double at[3];      /* m; the centre if at_centre */
} trivet__cargo_force;

typedef struct trivet__tube_force {
    int32_t tube;
    int32_t axes; /* a trivet_axes */
    double at;    /* m along the tube */
    double force[3];
    double moment[3];
} trivet__tube_force;

typedef struct trivet__tube_line {
    int32_t tube;
    int32_t axes; /* a trivet_axes */
    double from;  /* m along the tube */
    double to;    /* m along the tube; NaN: to its end */
    double first[3];
    double last[3];
} trivet__tube_line;

typedef struct trivet__case {
    const char *name;
    const char *story;     /* NULL: none */
    const char *source;    /* NULL: none */
    trivet__replaced told; /* story and source */
    double gravity[3];     /* multiples of TRIVET__GRAVITY */
    double warm;           /* K */
    double *cargo_factors; /* [frame->cargo_count], 1 unless set */
    double *mount_moves;   /* [frame->mount_count][6] m and rad, in the mount's axes */
    size_t cargo_factor_capacity;
    size_t mount_move_capacity; /* in mounts */
    trivet__joint_force *joint_forces;
    int32_t joint_force_count;
    size_t joint_force_capacity;
    trivet__cargo_force *cargo_forces;
    int32_t cargo_force_count;
    size_t cargo_force_capacity;
    trivet__tube_force *tube_forces;
    int32_t tube_force_count;
    size_t tube_force_capacity;
    trivet__tube_line *tube_lines;
    int32_t tube_line_count;
    size_t tube_line_capacity;
} trivet__case;

typedef struct trivet__combination {
    const char *name;
    int32_t case_count;
    int32_t *cases;  /* [case_count] */
    double *factors; /* [case_count] */
} trivet__combination;

typedef struct trivet__deck {
    const char *name;
    int32_t *joints; /* [joint_count] */
    int32_t joint_count;
    int32_t corner_count; /* of its plate's outline; 0: none is said */
    int32_t slot_count;
    const double *corners; /* [corner_count][2] m */
    const trivet_slot *slots;
    trivet__replaced plate; /* corners and slots */
    double edge;            /* m; NaN: not said */
} trivet__deck;

typedef struct trivet__cycles_named {
    const char *name;
    trivet_cycles cycles;
} trivet__cycles_named;

typedef struct trivet__gap {
    const char *what;
    const char *why;
    char *text; /* both */
    size_t room;
} trivet__gap;

struct trivet_frame {
    trivet__pool pool;            /* has all that the things below point to */
    trivet__pool scratch;         /* for one call at a time, which rewinds it first */
    trivet__known_section *known; /* [known_count] of stock before it was last cleared */
    int32_t known_count;
    size_t known_capacity;
    trivet__joint *joints;
    trivet__stock *stocks;
    trivet__tube *tubes;
    trivet_mount *mounts; /* one a joint at most */
    trivet__cargo *cargos;
    trivet__case *cases;
    trivet__combination *combinations;
    trivet__deck *decks;
    trivet_bolts *bolts; /* joint and axes filled in */
    trivet__cycles_named *cycles;
    trivet__gap *gaps;
    int32_t joint_count;
    int32_t stock_count;
    int32_t tube_count;
    int32_t mount_count;
    int32_t cargo_count;
    int32_t case_count;
    int32_t combination_count;
    int32_t deck_count;
    int32_t bolts_count;
    int32_t cycles_count;
    int32_t gap_count;
    size_t joint_capacity;
    size_t stock_capacity;
    size_t tube_capacity;
    size_t mount_capacity;
    size_t cargo_capacity;
    size_t case_capacity;
    size_t combination_capacity;
    size_t deck_capacity;
    size_t bolts_capacity;
    size_t cycles_capacity;
    size_t gap_capacity;
    trivet_vehicle vehicle; /* size 0: none was set */
    uint32_t usages;        /* bits 1 << trivet_usage_kind of those that were added */
    trivet__names joint_names;
    trivet__names stock_names;
    trivet__names tube_names;
    trivet__names cargo_names;
    trivet__names deck_names;
    trivet__names cycles_names;
    trivet__names case_names; /* of cases and of combinations: number below zero, ~index */
};

/* World position of the tube's own line at its joint number position: joint plus offset. */
void trivet__tube_end_point(const trivet_frame *frame, int32_t tube, int32_t position,
                            double out[3]);

/* m along the tube from its first joint to joint number position: the sum of span lengths. */
double trivet__tube_distance(const trivet_frame *frame, int32_t tube, int32_t position);

/* The stretch of its tube that an insert fills, m along the tube. */
void trivet__insert_stretch(const trivet_frame *frame, int32_t tube, int32_t insert,
                            double *from_out, double *to_out);

/* The same for an insert whose joint stands at distance at, in a tube through joint_count joints.
 */
void trivet__insert_stretch_at(const trivet__insert *insert, int32_t joint_count, double at,
                               double *from_out, double *to_out);

/*
 * For the next filling, which mostly brings the same stock in the same order: solving sections is
 * a good part of it.
 */
void trivet__keep_sections(trivet_frame *frame);

/* kg/m: what the profile gives, or area times density. */
double trivet__stock_mass_per_length(const trivet__stock *stock);

/* The mount of a joint, or -1. */
int32_t trivet__joint_mount(const trivet_frame *frame, int32_t joint);

/*
 * One number for everything topological: joints, how tubes run, free ends, where inserts sit and
 * their bond, what mounts hold and where they spring, cargo's joints and grip, the number and kind
 * of loads of each case and what they act on, which cases are combined. Not positions, stock,
 * sizes, load values. FNV-1a, 64 bits (Fowler, Noll, Vo; from memory). Allocates nothing.
 */
uint64_t trivet__frame_topology(const trivet_frame *frame);

#endif
