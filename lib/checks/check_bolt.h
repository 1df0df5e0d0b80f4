/*
 * One bolt of a set in one result column, between finding it and writing its working.
 */
#ifndef TRIVET_CHECKS_CHECK_BOLT_H
#define TRIVET_CHECKS_CHECK_BOLT_H

#include "checks/bolt_group.h"
#include "checks/bolt_strength.h"
#include "checks/check_record.h"

/* What is the same for all bolts of a set and all columns. */
typedef struct trivet__bolt_set {
    int32_t index;
    const trivet_bolts *bolts;
    trivet_thread thread;
    trivet_grade grade;
    trivet__pattern pattern;
    trivet__bolt_plate plate;
    double
        spacing; /* m, between the two bolts that are nearest to each other; infinite: one bolt */
    double preload; /* N, at the lower end of the scatter; NaN: no torque is said */
} trivet__bolt_set;

/* What one of them carries. */
typedef struct trivet__bolt_load {
    int32_t in_case;
    double forces[6];  /* on the set, about the joint */
    double moments[3]; /* about the middle of the pattern */
    double x;          /* m, from the middle */
    double y;
    double share[3];
    double shear; /* N */
    double pull;  /* N, at least 0; 0 if it is rounding */
    int is_sheared;
} trivet__bolt_load;

/* How a bolt is loaded when it is at its worst. */
typedef enum trivet__bolt_mode {
    TRIVET__BOLT_SHEAR = 0,
    TRIVET__BOLT_PULL = 1,
    TRIVET__BOLT_BOTH = 2
} trivet__bolt_mode;

enum { TRIVET__BOLT_MODE_COUNT = 3 };

/* working_bolt.c: the bolt itself. */

/* Its largest utilisation of the three. */
double trivet__bolt_used(const trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load);
void trivet__record_bolt(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load);

/* working_pattern.c: how the pattern shares. */

/* The first lines of a record: forces on the set, how they are shared, shear and pull of this bolt.
 */
void trivet__record_bolt_load(trivet__making *making, trivet__record *record,
                              const trivet__bolt_set *set, const trivet__bolt_load *load,
                              int has_shear, int has_pull);

/* Whether a bolt in a pattern is loaded more by the moment on the set than by the force. */
int trivet__is_moved_apart(const trivet__bolt_set *set, const trivet__bolt_load *load, int is_pull);

/* working_bolted.c: what the bolt holds together. */
void trivet__record_bearing(trivet__making *making, const trivet__bolt_set *set,
                            const trivet__bolt_load *load);
void trivet__record_head(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load);
void trivet__record_slip(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load);
void trivet__record_gap(trivet__making *making, const trivet__bolt_set *set,
                        const trivet__bolt_load *load);

#endif
