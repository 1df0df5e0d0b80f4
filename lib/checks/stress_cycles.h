/*
 * How large a stress range steel stands how many times: EN 1993-1-9 as plain numbers.
 *
 * A detail category is the range that is stood two million times. Pa; plain numbers of times.
 */
#ifndef TRIVET_CHECKS_STRESS_CYCLES_H
#define TRIVET_CHECKS_STRESS_CYCLES_H

#include <stdint.h>

/* The curves begin and end here, times. */
#define TRIVET__TIMES_LEAST 1e4
#define TRIVET__TIMES_MOST 1e8

/*
 * Walls of hollow sections thinner than this, m, lie outside the tests behind the rules for welded
 * joints of them: ISO 14347, scope.
 */
#define TRIVET__WALL_TESTED 4e-3

/*
 * The range that is stood times times. slope 3: direct stress, falling with slope 3 to five million
 * and 5 beyond; slope 5: shear stress, and lattice joints. Both level out at the cut-off. Below the
 * curve's first end the range of that end.
 */
double trivet__range_stood(double category, int32_t slope, double times);

/* How many times a range is stood; infinite from the cut-off downward. */
double trivet__times_stood(double category, int32_t slope, double range);

/* A detail of the standard's tables. */
typedef struct trivet__detail {
    const char *name;
    double category; /* Pa */
    int32_t slope;   /* 3 or 5 */
    const char *source;
} trivet__detail;

/* Those that the check tells from the frame stand first. */
typedef enum trivet__detail_kind {
    TRIVET__DETAIL_ROUND_END = 0, /* end of a round tube, fillet all round */
    TRIVET__DETAIL_BOX_END = 1,   /* end of a square or rectangular tube, fillet all round */
    TRIVET__DETAIL_LOWEST = 2,    /* any fillet, also in parts */
    TRIVET__DETAIL_ON_50 = 3,     /* something welded on, up to 50 mm long */
    TRIVET__DETAIL_ON_80 = 4,
    TRIVET__DETAIL_ON_100 = 5,
    TRIVET__DETAIL_ON_LONG = 6,
    TRIVET__DETAIL_ON_HOLLOW = 7, /* something welded on a hollow section, up to 100 mm long */
    TRIVET__DETAIL_HOLE = 8,
    TRIVET__DETAIL_SHEAR = 9, /* away from welds */
    TRIVET__DETAIL_WELD_SHEAR = 10
} trivet__detail_kind;

/* Static; NULL past the last. */
const trivet__detail *trivet__detail_at(int32_t index);

/* Of something welded on that is length m long along the tube; not a number counts as long. */
const trivet__detail *trivet__detail_welded_on(double length, int is_hollow);

/* A row of the table of partial factors on stress ranges. */
typedef struct trivet__crack_factor {
    const char *life;        /* "damage tolerant": found and mended in time; or "safe life" */
    const char *consequence; /* of a crack: "low consequence" or "high consequence" */
    double value;
} trivet__crack_factor;

enum { TRIVET__CRACK_FACTOR_COUNT = 4 };

/* Static; index below TRIVET__CRACK_FACTOR_COUNT. */
const trivet__crack_factor *trivet__crack_factor_at(int32_t index);

#endif
