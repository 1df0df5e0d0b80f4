/*
 * One weld at an end of a tube, between finding it and writing its working.
 */
#ifndef TRIVET_CHECKS_CHECK_WELD_H
#define TRIVET_CHECKS_CHECK_WELD_H

#include "checks/check_record.h"
#include "checks/weld_line.h"
#include "checks/weld_strength.h"

/* What helps, and what must be said beside the number. */
typedef struct trivet__weld_words {
    int32_t is_partial;  /* not all sides or not all along */
    int32_t is_capped;   /* the throat that is said is thicker than the wall */
    int32_t is_full;     /* the throat is as thick as the wall: more of it does not help */
    int32_t is_thin;     /* the throat is below what the standard speaks of */
    int32_t is_short;    /* so is its length */
    int32_t is_overfull; /* more spots are said than fit round */
} trivet__weld_words;

/* What is the same in all result columns. */
typedef struct trivet__weld_end {
    int32_t tube;
    int32_t joint;
    double at;       /* m along the tube */
    double throat;   /* m, as said or from the wall, not yet cut down to the thinner wall */
    int32_t is_said; /* 1: the throat is the user's */
    double own_wall; /* m, of the tube; of a bar the thinner wall */
    double angle;    /* rad, between the tube and what it stands on */
    trivet__weld_line line;
    trivet__weld_strength strength;
    trivet__weld_words words;
    const char *source; /* of the weaker part's material */
} trivet__weld_end;

/* working_weld_line.c: forces at the end, the weld as a line, the force at its worst place. */
void trivet__record_weld_line(trivet__making *making, trivet__record *record,
                              const trivet__weld_end *end, const double forces[6],
                              const trivet__weld_load *load, const trivet__weld_force *force);

/* working_weld.c: adds the record of a result column, with its working. */
void trivet__record_weld(trivet__making *making, const trivet__weld_end *end, int32_t in_case,
                         const double forces[6], const trivet__weld_load *load,
                         const trivet__weld_force *force);

#endif
