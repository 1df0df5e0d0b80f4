/*
 * What a document keeps once it has been read: the frame, and beside it what only the file knows.
 */
#ifndef TRIVET_DOCUMENT_RECORD_H
#define TRIVET_DOCUMENT_RECORD_H

#include "base/pool.h"
#include "document/overrides.h"
#include "trivet/document.h"

#include <stddef.h>

enum { TRIVET__KIND_COUNT = 10 }; /* kinds of trivet_kind, numbered from 1 */

typedef struct trivet__place {
    int32_t line;
    int32_t column;
} trivet__place;

typedef struct trivet__places {
    trivet__place *list;
    size_t count;
    size_t capacity;
} trivet__places;

/* A named quantity. */
typedef struct trivet__let {
    char *name;
    trivet_quantity quantity;
    int32_t node;  /* of its value, while the file is read */
    int32_t state; /* 0: not looked at, 1: being worked out, 2: known */
} trivet__let;

enum {
    TRIVET__SECTION_VALUES = 14, /* as resolve_expect.c numbers them */
    TRIVET__SCREW_VALUES = 5
};

/* What an expectation looks at. */
typedef enum trivet__expect_kind {
    TRIVET__EXPECT_DROOP = 0,
    TRIVET__EXPECT_MOVE,     /* component 0..5: x y z and turns about them */
    TRIVET__EXPECT_REACTION, /* component 0..5 */
    TRIVET__EXPECT_INSIDE,   /* component 0..5: N Vy Vz T My Mz */
    TRIVET__EXPECT_CHECK,    /* component 0..2: utilisation, demand, limit */
    TRIVET__EXPECT_SECTION,  /* component: the number of a section value, see expect.c */
    TRIVET__EXPECT_SCREW,    /* component: the number of a torque or preload, see expect.c */
    TRIVET__EXPECT_MASS
} trivet__expect_kind;

typedef struct trivet__expect {
    char *what;
    char *where; /* as it is shown: "FL", "back at TL" */
    char *check; /* name of the check, of TRIVET__EXPECT_CHECK */
    char *by;
    const char *place;   /* name of what stands there, owned by the frame; "": anything */
    const char *in_case; /* of a case, combination or cycles, likewise; "": the worst of all */
    int32_t kind;        /* a trivet__expect_kind */
    int32_t component;
    int32_t where_kind; /* a trivet_kind; 0: the whole frame */
    int32_t where_index;
    int32_t joint;         /* at which end or joint of it; -1: not said */
    int32_t bolts;         /* number of the set, of TRIVET__EXPECT_SCREW */
    int32_t result_column; /* -1 if no case is needed */
    int32_t dimension;     /* -1: that of the check, known once it is made */
    int32_t number;        /* in the list, from 1 */
    trivet__place of_value;
    double from;   /* m along the tube; NaN: the largest along it */
    double value;  /* NaN as long as the dimension is not known */
    double within; /* a share of value, or if value is 0 in its own unit */
    trivet_quantity value_read;
    trivet_quantity within_read;
} trivet__expect;

/* What the frame was told and does not tell again: shown, and never used to reckon. */
typedef struct trivet__tube_note {
    double roll;
    uint32_t free[2]; /* first and last end */
    double offset[2][3];
} trivet__tube_note;

typedef struct trivet__insert_note {
    int32_t tube;
    int32_t joint;
    int32_t stock;
    int32_t bond;
    double length;
} trivet__insert_note;

typedef enum trivet__load_kind {
    TRIVET__LOAD_JOINT = 0, /* first: force, last: moment */
    TRIVET__LOAD_CARGO,     /* likewise, at place */
    TRIVET__LOAD_POINT,     /* on a tube at from */
    TRIVET__LOAD_LINE,      /* first at from, last at to */
    TRIVET__LOAD_MOVE,      /* of a mount: first moves, last turns */
    TRIVET__LOAD_FACTOR,    /* of a cargo: from */
    TRIVET__LOAD_WARM       /* from, K */
} trivet__load_kind;

typedef struct trivet__load_note {
    int32_t kind; /* a trivet__load_kind */
    int32_t in_case;
    int32_t index; /* of the joint, cargo, tube or mount */
    int32_t axes;
    double from;
    double to;
    double place[3]; /* NaN: at the cargo's centre */
    double first[3];
    double last[3];
} trivet__load_note;

/* One case of one combination. */
typedef struct trivet__part_note {
    int32_t combination;
    int32_t in_case;
    double factor;
} trivet__part_note;

/* A growing list of records that may be moved. */
typedef struct trivet__notes {
    void *list;
    size_t count;
    size_t capacity;
} trivet__notes;

/* What a bent piece of the workshop owns. */
typedef struct trivet__bend_note {
    char *name;
    int32_t *tubes;
    trivet__place place;
} trivet__bend_note;

struct trivet_document {
    trivet__pool pool; /* all that stands below, and what is only needed while reading */
    trivet_frame *frame;
    char *name;
    char *text; /* the file itself */
    trivet_units units;
    trivet_limits limits;
    trivet_fitted fitted; /* the give that explains the readings */
    int32_t has_fitted;
    trivet__places places[TRIVET__KIND_COUNT];
    trivet__notes unused;     /* char * */
    trivet__notes lets;       /* trivet__let */
    trivet__notes expects;    /* trivet__expect */
    trivet__notes stocks;     /* trivet__stock_note, one a stock */
    trivet__notes tubes;      /* trivet__tube_note, one a tube */
    trivet__notes inserts;    /* trivet__insert_note */
    trivet__notes loads;      /* trivet__load_note */
    trivet__notes parts;      /* trivet__part_note */
    trivet_shop shop;         /* its lists are those below */
    trivet__notes shop_bars;  /* trivet_shop_bar */
    trivet__notes shop_bends; /* trivet_shop_bend, their texts in bend_notes */
    trivet__notes bend_notes; /* trivet__bend_note */
    trivet__notes shop_ends;  /* trivet_shop_end */
    trivet__notes end_places; /* trivet__place of each */
};

/* Appends a copy of a record to one of the document's lists; NULL if there is no memory. */
void *trivet__note(trivet_document *document, trivet__notes *notes, const void *record,
                   size_t size);

/* count * size bytes of zeros that last as long as the document, or NULL. */
void *trivet__room(trivet_document *document, size_t count, size_t size);

/* A copy of a text that lasts as long as the document, or NULL. */
char *trivet__keep(trivet_document *document, const char *text);

/* Record number index of a type. */
#define TRIVET__AT(notes, type, index) (&((type *)(notes).list)[index])

/* Typed reading of a list; NULL past its end. */
const trivet__let *trivet__let_at(const trivet_document *document, int32_t index);
const trivet__expect *trivet__expect_at(const trivet_document *document, int32_t index);
const trivet__stock_note *trivet__stock_note_at(const trivet_document *document, int32_t stock);
const trivet__tube_note *trivet__tube_note_at(const trivet_document *document, int32_t tube);

#endif
