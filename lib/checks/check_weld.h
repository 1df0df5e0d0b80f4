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

/* A stock as it was seen the last time. */
typedef struct trivet__stock_seen {
    trivet_profile profile;
    trivet_section section;
    int32_t version; /* another number each time that one of the two changes; 0: not seen yet */
} trivet__stock_seen;

/* What an end's line depends on, beside the stock. Compared byte by byte: cleared before use. */
typedef struct trivet__weld_key {
    int32_t stock_version; /* 0: no line was found yet */
    uint32_t sides;
    int32_t spot_count; /* as said; 0: no spots */
    double run;
    double thickness;
    double cosine;
    double lean[2];
} trivet__weld_key;

/* Places of a weld in rows, so that their uses are worked out side by side. */
enum { TRIVET__WELD_ABREAST = 2 * TRIVET__WELD_PIECES_MAX };
typedef struct trivet__weld_row {
    double y[TRIVET__WELD_ABREAST];
    double z[TRIVET__WELD_ABREAST];
    double t_y[TRIVET__WELD_ABREAST];
    double t_z[TRIVET__WELD_ABREAST];
} trivet__weld_row;

/* Force per metre of a weld by its load, and how much of the limit that is. */
typedef struct trivet__weld_bound {
    double per_N; /* of the force square to the cut */
    double per_My;
    double per_Mz;
    double per_T;           /* of the force in the cut */
    double scale;           /* use of a force of 1; infinite if no bound is known */
    int32_t is_directional; /* how forces in the two directions add up */
} trivet__weld_bound;

/* An end as it was found, kept for the next time: the line costs the most. */
typedef struct trivet__weld_kept {
    trivet__weld_key key;
    trivet__weld_end end;
    double reach[2];          /* m, how far the line goes from the tube's axis along y and z */
    int32_t is_checked;       /* now: there is a weld, and all that its check needs is known */
    trivet__weld_bound bound; /* now, where only the worst is wanted */
    const char *why;          /* now: there is one that is not checked; static, or NULL */
    int32_t has_outline;      /* 0: the outline of the stock is not known */
    /* Of this line, found when they are first wanted. */
    int32_t has_ends;
    uint32_t has_samples;  /* a bit for each piece */
    int32_t alike;         /* so many ends before this one stands one whose line was the same */
    trivet__weld_row ends; /* first and last sample of each piece */
    trivet__weld_row samples[TRIVET__WELD_PIECES_MAX];
} trivet__weld_kept;

/* Notes which stocks are as they were the last time. 0 without memory. */
int trivet__stocks_note(trivet__making *making);
/* Room for the welds of all ends: two a tube. 0 without memory. */
int trivet__welds_make_room(trivet__making *making);
/*
 * The line of an end: the one that was found the last time if nothing of its key has changed. 0 if
 * the outline is not known.
 */
int trivet__weld_line_find(const trivet__making *making, const trivet__weld_key *key,
                           trivet__weld_kept *kept);

/*
 * The force where the weld is used most; finds the samples of the line if there are none yet. 0,
 * and no force, if it is certain that the weld uses less than least of its limit.
 */
int trivet__weld_most_used(trivet__weld_kept *kept, const trivet__weld_load *load, double least,
                           trivet__weld_force *worst_out);
/* How much of its limit the weld uses at one of some places, quickly told. */
double trivet__weld_some_use(trivet__weld_kept *kept, const trivet__weld_load *load);

/* working_weld_line.c: forces at the end, the weld as a line, the force at its worst place. */
void trivet__record_weld_line(trivet__making *making, trivet__record *record,
                              const trivet__weld_end *end, const double forces[6],
                              const trivet__weld_load *load, const trivet__weld_force *force);

/* working_weld.c: adds the record of a result column, with its working. */
void trivet__record_weld(trivet__making *making, const trivet__weld_end *end, int32_t in_case,
                         const double forces[6], const trivet__weld_load *load,
                         const trivet__weld_force *force);

#endif
