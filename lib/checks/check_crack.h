/*
 * A place that can crack and what it sees, between finding it and writing its working.
 */
#ifndef TRIVET_CHECKS_CHECK_CRACK_H
#define TRIVET_CHECKS_CHECK_CRACK_H

#include "checks/check_record.h"
#include "checks/stress_cycles.h"

/* Where it cracks. */
typedef enum trivet__crack_kind {
    TRIVET__CRACK_TOE = 0,  /* beside the weld at a tube's own end */
    TRIVET__CRACK_ON = 1,   /* beside a weld of something on a tube that runs on */
    TRIVET__CRACK_HELD = 2, /* under a mount of which nothing is said */
    TRIVET__CRACK_HOLE = 3,
    TRIVET__CRACK_ROOT = 4 /* through the throat of the weld at a tube's own end */
} trivet__crack_kind;

typedef struct trivet__crack_place {
    int32_t kind; /* a trivet__crack_kind */
    int32_t tube;
    int32_t position;             /* number of the joint along the tube */
    const char *why;              /* static: why nothing can be told; NULL if it can */
    const trivet__detail *detail; /* of direct stress; NULL: the user says the category */
    double category;              /* Pa, of direct stress */
    double shear_category;        /* Pa */
    double size;     /* toe, root: welded share; on: m along the tube; hole: m, diameter */
    double width;    /* hole: m, of the wall that it goes through; root: m, wall */
    double throat;   /* root: m */
    double raise;    /* the nominal stress counts so many times */
    int32_t is_said; /* how it is fastened is said */
    int32_t is_thin; /* its wall lies outside the tests behind the rules */
    int32_t is_aluminium;
} trivet__crack_place;

/* A place as it was found, before it is looked at. */
typedef struct trivet__crack_seen {
    trivet__crack_place place;
    double most_cubed; /* third power of how much of its limit it uses at most */
} trivet__crack_seen;

/*
 * What there is at a joint of a tube, and how many: toe and root of the weld at its end, or else
 * the worst of what is fastened onto it.
 */
enum { TRIVET__CRACKS_AT = 2 };
int32_t trivet__crack_at(const trivet__making *making, int32_t tube, int32_t position,
                         trivet__crack_place places_out[TRIVET__CRACKS_AT]);
/* The hole of a set of bolts there. 1 if there is one. */
int trivet__crack_hole(const trivet__making *making, int32_t tube, int32_t position, int32_t bolts,
                       trivet__crack_place *place_out);

/* Loads that come and go, as they are looked at. */
typedef struct trivet__swing {
    const char *name;
    trivet_cycles cycles;
    int32_t is_own;   /* our default: the frame has none */
    int32_t is_alone; /* there are no others */
} trivet__swing;

/* What one of them does at a place. */
typedef struct trivet__crack {
    double ranges[6];  /* of N Vy Vz T My Mz in the tube */
    int32_t point;     /* of the section; -1: rim */
    double nominal[2]; /* Pa, ranges of direct and shear stress in the tube */
    double others;     /* damage by all other swings */
    double room;       /* times that leave room for the others */
    double stood[2];   /* Pa, ranges stood so many times */
    double shares[2];  /* of what is allowed */
    double range;      /* Pa, that counts */
    double limit;      /* Pa */
    double used;
} trivet__crack;

/* Fills room and what stands below it. */
void trivet__crack_judge(const trivet__crack_place *place, const trivet__swing *swing, double gamma,
                         trivet__crack *crack);

/* Ranges of direct and shear stress at a stress point of a section; at a rim its largest of each.
 */
void trivet__crack_nominal(const trivet_section *section, const double ranges[6], int32_t point,
                           double nominal_out[2]);

/* Makes the record and writes its working. */
void trivet__record_crack(trivet__making *making, const trivet__crack_place *place,
                          const trivet__swing *swing, const trivet__crack *crack);

#endif
