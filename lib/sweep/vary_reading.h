/*
 * Reading `vary`: what its files share.
 */
#ifndef TRIVET_SWEEP_VARY_READING_H
#define TRIVET_SWEEP_VARY_READING_H

#include "sweep/vary.h"

typedef struct trivet__varying {
    const trivet__reading *reading;
    const trivet__shelf *shelf;
    trivet__vary *vary;
    int32_t is_sampled; /* "sample" is there */
} trivet__varying;

/* A further axis, empty. */
trivet_status trivet__vary_add_axis(const trivet__varying *v, const trivet__node *node,
                                    trivet__axis **axis_out);

/* A further column of the last axis; it belongs to the vary even if this fails. */
trivet_status trivet__vary_add_column(const trivet__varying *v, const trivet__node *node,
                                      trivet__axis *axis, int32_t kind, const char *prefix,
                                      const char *name, trivet__column **column_out);

/* Room for count values of a column. */
trivet_status trivet__vary_take_values(const trivet__varying *v, trivet__column *column,
                                       int64_t count);

/* The let that a name means, and the powers of its units. */
trivet_status trivet__vary_find_let(const trivet__varying *v, const trivet__node *name,
                                    const trivet__thing *within, trivet_quantity *unit_out);

/* A value of a let: it must be of the same kind as what `let` says. */
trivet_status trivet__vary_read_let(const trivet__varying *v, const trivet__node *node,
                                    const trivet__thing *thing, const trivet__column *column,
                                    double *value_out);

trivet_status trivet__vary_refuse_count(const trivet__varying *v, const trivet__node *node,
                                        const trivet__thing *thing, const char *problem);

/* Parts of `vary` in files of their own. */
trivet_status trivet__vary_read_tuples(const trivet__varying *v, const trivet__node *vary);
trivet_status trivet__vary_read_drawing(const trivet__varying *v, const trivet__node *vary);

#endif
