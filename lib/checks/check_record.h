/*
 * The inside of a trivet_checks, and what the single checks need to fill it.
 *
 * A check's working is a chain of tables of lines (symbol, meaning, formula, source), which are
 * the same for all checks of a kind, beside the numbers, which are its own.
 */
#ifndef TRIVET_CHECKS_CHECK_RECORD_H
#define TRIVET_CHECKS_CHECK_RECORD_H

#include "base/memory.h"
#include "trivet/checks.h"

#include <stddef.h>

/* A line of working without its number. */
typedef struct trivet__line {
    const char *symbol;
    const char *meaning;
    const char *formula; /* "": the number is taken from elsewhere, source says from where */
    const char *source;  /* NULL: the source of the material */
    int32_t dimension;   /* a trivet_dimension */
} trivet__line;

typedef struct trivet__table {
    const trivet__line *lines;
    int32_t count;
} trivet__table;

/* What a kind of check is called, how its sentence goes on, and on which line it counts. */
typedef struct trivet__check_kind {
    const char *check;   /* "mount pull" */
    const char *verb;    /* between the place and the amount: "is pulled with" */
    const char *advice;  /* what helps if it is tight or fails; NULL: told from the stress */
    int32_t line;        /* a trivet_line */
    int32_t where_kind;  /* a trivet_kind */
    const char *subject; /* before the place: "weld of"; NULL: the place itself */
    const char *counted; /* after a plain number: "turns"; NULL: nothing */
    int32_t is_ratio;    /* demand and limit read as 1/200 */
} trivet__check_kind;

enum { TRIVET__TABLES_MAX = 6 };

/* A place on a tube by the joints beside it. */
typedef struct trivet__place {
    const char *tube;   /* or deck */
    const char *near;   /* the nearest joint */
    const char *beyond; /* the next joint on the other side of the place; NULL if there is none */
    double distance;    /* m from near; 0 if the place is the joint */
} trivet__place;

/* What the stress at the worst place is made of, as shares of their sum. */
typedef struct trivet__shares {
    double bending;  /* both ways together */
    double sideways; /* of the bending, that by Mz */
    double shear;    /* twist and shear */
} trivet__shares;

typedef struct trivet__record {
    const trivet__check_kind *kind;
    trivet_check check; /* step_count is filled by trivet__record_tables */
    const trivet__table *tables[TRIVET__TABLES_MAX];
    int32_t table_count;
    int32_t first_value;         /* in trivet_checks.values */
    const char *material_source; /* may be NULL */
    const char *insert;          /* stock of the insert that governs, NULL if the tube does */
    trivet__place place;         /* tube is NULL for mounts */
    trivet__shares shares;       /* yield only */
    int32_t is_welded;           /* yield only: the limit is that beside a weld */
    int32_t is_round;            /* yield only */
    int32_t is_reach;            /* droop ratio only: beyond the last support */
} trivet__record;

enum { TRIVET__REASON_MAX = 256 };

enum { TRIVET__OMISSION_PARTS = 6 };

/* Puts a reason together from what is missing, bits, and a static hint. text: [size] */
typedef void trivet__say_why(uint32_t missing, const char *hint, char *text, size_t size);

typedef struct trivet__omission {
    const char *parts[TRIVET__OMISSION_PARTS]; /* static or the frame's; NULL after the last */
    const char *why;                           /* static or the frame's; NULL: reason */
    int32_t line;                              /* a trivet_line */
    trivet__say_why *say;                      /* writes the reason if why is NULL */
    uint32_t missing;
    const char *hint;
    int32_t is_written;
    char what[192]; /* the parts put together, and the reason, once somebody asked */
    char reason[TRIVET__REASON_MAX];
} trivet__omission;

/* A tube at one of its joints. */
typedef struct trivet__run {
    int32_t tube;
    int32_t position;    /* of the joint along the tube */
    int32_t span_before; /* the span that ends there, -1 if the tube begins there */
    int32_t span_behind; /* the span that begins there, -1 if the tube ends there */
} trivet__run;

/*
 * What there is at each joint, found once for all checks. Runs of a joint stand by rising tube;
 * those of a tube, by number of its joint, are found through tube_runs.
 */
typedef struct trivet__around {
    int32_t *starts; /* [joint_count + 1] of runs */
    trivet__run *runs;
    int32_t *tube_starts;             /* [tube_count + 1] of tube_runs */
    int32_t *tube_runs;               /* number of the run of each joint of each tube */
    int32_t *meets;                   /* [joint_count] how many tubes run through it */
    int32_t *mounts;                  /* [joint_count] or -1 */
    struct trivet__meeting *meetings; /* [joint_count] */
    size_t start_capacity, run_capacity, tube_capacity, tube_run_capacity;
    size_t meet_capacity, mount_capacity, meeting_capacity;
} trivet__around;

/* What a record is sorted by. */
typedef struct trivet__rank {
    double used; /* not a number counts as endless */
    int32_t line;
    int32_t record;
} trivet__rank;

/* Records in the order in which they are shown, once somebody has asked for that. */
typedef struct trivet__order {
    trivet__rank *ranks; /* [capacity] */
    size_t capacity;
    int32_t is_made;
} trivet__order;

struct trivet_checks {
    trivet__record *records; /* [capacity], as made */
    trivet__order *order;
    double *values;
    trivet__omission *omissions;
    int32_t count;
    int32_t value_count;
    int32_t omission_count;
    int32_t line_count[TRIVET_LINE_COUNT];
    int32_t worst[TRIVET_LINE_COUNT]; /* records; the first of the worst of each line */
    size_t capacity;
    size_t value_capacity;
    size_t omission_capacity;
    trivet__around around;
    struct trivet__stress_bound *stress_bounds; /* [stock] */
    size_t stress_bound_capacity;
    struct trivet__stock_seen *stocks; /* [stock] see weld_cache.c */
    size_t stock_capacity;
    int32_t stock_version;
    struct trivet__weld_kept *welds; /* [2 * tube] likewise */
    size_t weld_capacity;
    struct trivet__face_kept *faces; /* [2 * tube] see check_face.c */
    size_t face_capacity;
    struct trivet__crack_seen *cracks; /* see check_crack.h */
    size_t crack_capacity;
    double *bounds; /* see bounds.h */
    size_t bound_capacity;
    double *sizes; /* likewise */
    size_t size_capacity;
};

/* What the checks read while they are made. */
typedef struct trivet__making {
    const trivet_frame *frame;
    const trivet_result *result;
    const double *span_ends; /* [column][span][2][6], see trivet_result_span_ends */
    const double *reactions; /* [column][mount][6] */
    int32_t span_count;
    int32_t columns;
    trivet_limits limits;
    trivet_checks *checks;
    int32_t is_worst_only;           /* of each line only the worst is wanted: see bounds.h */
    double floor[TRIVET_LINE_COUNT]; /* the worst of each line uses no less */
    const double *end_sizes;         /* [span][2][6] largest of all columns; see bounds.h */
    const double *departures;        /* [span][6] likewise */
    double *span_bounds;             /* [span] how much of its limit yield uses at most */
    double *weld_bounds;             /* [2 * tube] the same of welds */
    const int32_t *meets;            /* [joint]: how many tubes run through it */
    const trivet__around *around;    /* what else is there */
    trivet_status
        status; /* TRIVET_NO_MEMORY once a record found no room: what follows is dropped */
    trivet__record spare; /* written to and dropped where there is no room */
} trivet__making;

/*
 * Takes the next record and starts it: names from the frame, verdict from the numbers. in_case is a
 * result column; -1: "any case". Never NULL: without memory, making->status says so and the record
 * is dropped. The pointer holds until the next one is started.
 */
trivet__record *trivet__record_start(trivet__making *making, const trivet__check_kind *kind,
                                     int32_t index, int32_t in_case);
/* Sets demand, limit, utilisation and verdict. */
void trivet__record_judge(trivet__making *making, trivet__record *record, int32_t dimension,
                          double demand, double limit);
/* Hangs a table on a record's working, with its numbers: values [table->count]. */
void trivet__record_table(trivet__making *making, trivet__record *record,
                          const trivet__table *table, const double *values);
/* Puts a record at joint of a tube or deck: "back at TL". */
void trivet__record_at(trivet__making *making, trivet__record *record, const char *of,
                       int32_t joint);

/* Finds what there is at each joint, but for the meetings. 0 without memory. */
int trivet__around_find(trivet__making *making);
void trivet__around_free(trivet__around *around);
/* A tube at its joint number position. */
const trivet__run *trivet__run_at(const trivet__making *making, int32_t tube, int32_t position);
/* The tube at a joint; NULL if it does not run through it. */
const trivet__run *trivet__run_of(const trivet__making *making, int32_t tube, int32_t joint);
/* Room for count elements of size bytes, old ones kept. 0 without memory. */
int trivet__reserve(void **array, size_t *capacity, size_t count, size_t size);

/* The record that is shown as number index, which exists. */
const trivet__record *trivet__checks_record(const trivet_checks *checks, int32_t index);
/* Counts a record that has just been judged into its line. */
void trivet__order_count(trivet_checks *checks, const trivet__record *record);
/* Keeps the worst of each line and drops the rest. */
void trivet__order_keep_worst(trivet_checks *checks);
/* Room to put all records in order. 0 without memory. */
int trivet__order_make_room(trivet_checks *checks);

/* Whether a check asks for what no load changes: depths, distances, tightening. */
int trivet__is_fixed(const trivet_check *check);

/*
 * Where only the worst of each line is wanted: how much checks of a kind use at most in any case,
 * and that some check uses so much at least.
 */
void trivet__mounts_floor(trivet__making *making);
void trivet__yield_bounds(trivet__making *making);
void trivet__weld_bounds(trivet__making *making);
/* What is known of all welds before their forces are. 0 without memory. */
int trivet__welds_prepare(trivet__making *making);

/* The kinds of check: each adds its records and omissions. TRIVET_OK or TRIVET_NO_MEMORY. */
trivet_status trivet__check_yield(trivet__making *making);
trivet_status trivet__check_droop(trivet__making *making);
trivet_status trivet__check_sag(trivet__making *making);
trivet_status trivet__check_mounts(trivet__making *making);
trivet_status trivet__check_bolts(trivet__making *making);
trivet_status trivet__check_threads(trivet__making *making);
trivet_status trivet__check_walls(trivet__making *making);
trivet_status trivet__check_spacers(trivet__making *making);
trivet_status trivet__check_welds(trivet__making *making);
trivet_status trivet__check_faces(trivet__making *making);
trivet_status trivet__check_cracks(trivet__making *making);
trivet_status trivet__check_vehicle(trivet__making *making);

/* How many joints have a limit of their own. */
int32_t trivet__joint_limit_count(const trivet_frame *frame);

/* What no check looks at. */
trivet_status trivet__omit_always(trivet__making *making);
/* Adds one: "what name", all static or the frame's. name may be "". */
trivet_status trivet__omit(trivet_checks *checks, int32_t line, const char *what, const char *name,
                           const char *why);
/* Adds one whose name is put together from parts, likewise kept; NULL ends them early. */
trivet_status trivet__omit_parts(trivet_checks *checks, int32_t line,
                                 const char *const parts[TRIVET__OMISSION_PARTS], const char *why);
/* Adds one whose reason is put together once somebody asks. */
trivet_status trivet__omit_saying(trivet_checks *checks, int32_t line, const char *what,
                                  trivet__say_why *say, uint32_t missing, const char *hint);

/* The joints beside a place; at in m along the tube from its first joint. */
void trivet__place_find(const trivet_frame *frame, const trivet_result *result, int32_t tube,
                        double at, trivet__place *place_out);
/* "left rail at ML", "left rail, insert plug, at ML"; insert may be NULL. */
size_t trivet__place_write(const trivet__place *place, const char *insert,
                           const trivet_units *units, char *text, size_t size);

#endif
