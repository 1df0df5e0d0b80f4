/*
 * What a sweep varies: axes of values, the columns that they fill, how variants are drawn from
 * them.
 *
 * A grid takes every combination; the last axis runs fastest. A sample takes points in the unit
 * cube of its axes: a range becomes any value between its ends, a list one of its values.
 */
#ifndef TRIVET_SWEEP_VARY_H
#define TRIVET_SWEEP_VARY_H

#include "document/kept.h"
#include "trivet/sweep.h"

typedef enum trivet__column_kind {
    TRIVET__COLUMN_LET = 0,
    TRIVET__COLUMN_STOCK = 1, /* values are numbers of choices */
    TRIVET__COLUMN_CARGO = 2, /* values are factors */
    TRIVET__COLUMN_CASE = 3   /* values are factors */
} trivet__column_kind;

/* One input of every variant. Its name is unique among columns. */
typedef struct trivet__column {
    int32_t kind; /* a trivet__column_kind */
    char *name;
    char *target; /* of a factor: the cargo or case; of a let: its name */
    char **of;    /* of stock: what the choice stands for */
    int32_t of_count;
    trivet_quantity unit; /* of a let: powers of its units */
    trivet__stock_choice *choices;
    int32_t choice_count;
    char *catalogue; /* text of the file that the choices come from, or NULL */
    char *catalogue_name;
    size_t catalogue_length;
    double *values; /* [axis count] SI, factor or number of the choice */
} trivet__column;

typedef struct trivet__axis {
    int64_t count;
    int32_t first_column;
    int32_t column_count; /* more than one: tuples */
    int32_t is_range;     /* its one column runs from from to to */
    double from;
    double to;
} trivet__axis;

typedef enum trivet__sampling {
    TRIVET__GRID = 0,
    TRIVET__LATIN_HYPERCUBE = 1,
    TRIVET__SOBOL = 2
} trivet__sampling;

enum {
    TRIVET__AXES_MAX = 20, /* Sobol's numbers reach that far */
    TRIVET__COLUMNS_MAX = 40,
    TRIVET__OF_MAX = 8, /* kinds of stock that a choice stands for */
    TRIVET__AXIS_VALUES_MAX = 100000,
    TRIVET__CONDITIONS_MAX = 32
};

typedef struct trivet__comparison trivet__comparison;

/* A condition on the values of `let`: comparisons joined by "and", those by "or". */
typedef struct trivet__condition {
    const trivet__node *node; /* in the file's tree */
    trivet__comparison *list; /* [count] */
    size_t count;
    size_t capacity;
} trivet__condition;

typedef struct trivet__vary {
    trivet__pool pool; /* of the conditions */
    trivet__axis axes[TRIVET__AXES_MAX];
    int32_t axis_count;
    trivet__column columns[TRIVET__COLUMNS_MAX];
    int32_t column_count;
    int32_t sampling; /* a trivet__sampling */
    uint64_t seed;
    int64_t count;                                        /* of variants */
    trivet__condition conditions[TRIVET__CONDITIONS_MAX]; /* "skip when" */
    int32_t condition_count;
} trivet__vary;

/* Where catalogues are found. */
typedef struct trivet__shelf {
    const char *folder; /* where the file lies, "" for the working folder; NULL: in texts alone */
    const trivet_catalogue *texts; /* [text_count] */
    int32_t text_count;
} trivet__shelf;

/*
 * Reads `vary` of a file whose document is there. vary_out is empty on failure; clear it after use.
 */
trivet_status trivet__vary_read(const trivet__reading *reading, const trivet__shelf *shelf,
                                trivet__vary *vary_out);
void trivet__vary_clear(trivet__vary *vary);

/* The choices of stock for one column: names of the file, or a catalogue. */
trivet_status trivet__vary_read_stock(const trivet__reading *reading, const trivet__shelf *shelf,
                                      const trivet__node *name, const trivet__node *value,
                                      trivet__column *column);

/* The choice that a name in the file's own stock stands for. */
trivet_status trivet__vary_own_stock(const trivet__reading *reading, const trivet__node *node,
                                     const trivet__thing *thing, trivet__stock_choice *choice_out);

/* The values [column_count] of variant number of 0 .. count - 1. */
void trivet__vary_values(const trivet__vary *vary, int64_t number, double *values_out);

/* sampling.c: coordinate in [0, 1) of point number of count in dimension. */
double trivet__sobol(int64_t number, int32_t dimension);
double trivet__latin(int64_t number, int64_t count, int32_t dimension, uint64_t seed);

/*
 * condition.c: reads a condition such as "reach > 2 * half and half < 150 mm" into pool, and tries
 * it with the values of `let` of the reading.
 */
trivet_status trivet__condition_read(const trivet__reading *reading, const trivet__node *node,
                                     trivet__pool *pool, trivet__condition *condition_out);

/* Whether it holds with the values of `let` of a reading. */
trivet_status trivet__condition_test(const trivet__reading *reading,
                                     const trivet__condition *condition, int *holds_out);

#endif
