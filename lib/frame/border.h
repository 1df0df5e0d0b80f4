/*
 * What is looked at wherever something enters a frame: numbers of things, finite values; and the
 * refusals that go with it.
 */
#ifndef TRIVET_FRAME_BORDER_H
#define TRIVET_FRAME_BORDER_H

#include "base/message.h"
#include "base/pool.h"
#include "trivet/frame.h"

/* The longest length, m, and the largest other number: their powers and products stay finite. */
#define TRIVET__LENGTH_MOST 1e6
#define TRIVET__NUMBER_MOST 1e30

enum { TRIVET__VALUE_TEXT_MAX = 64 };

/* A list with room for one more element, or NULL; then the list is as it was. */
void *trivet__grown(trivet__pool *pool, void *list, int32_t count, size_t *capacity, size_t size);

int trivet__is_kind(int32_t kind);

/* trivet__refuse with "kind name" as the thing. */
trivet_status trivet__refuse_thing(trivet_message *message, trivet_status status, const char *kind,
                                   const char *name, const char *problem, const char *remedy);

/* TRIVET_OK, or a complaint about a name that a new thing of a kind cannot have or that is taken.
 */
trivet_status trivet__new_name_check(const trivet_frame *frame, int32_t kind, const char *name,
                                     trivet_message *message);

/* TRIVET_OK, or TRIVET_BAD_INDEX if there is no thing of this kind and number. */
trivet_status trivet__index_check(const trivet_frame *frame, int32_t kind, int32_t index,
                                  trivet_message *message);

/* What a number is and whose: for messages. */
typedef struct trivet__number_of {
    const char *kind; /* "tube" */
    const char *name; /* "left rail" */
    const char *what; /* "roll" */
    trivet_dimension dimension;
} trivet__number_of;

/* TRIVET_OK if all are finite and not beyond the largest of their dimension, or BAD_VALUE. */
trivet_status trivet__numbers_check(const double *values, int32_t count, trivet__number_of of,
                                    trivet_message *message);

/* The same for one number that must be at least 0, or above 0. */
trivet_status trivet__not_negative_check(double value, trivet__number_of of,
                                         trivet_message *message);
trivet_status trivet__positive_check(double value, trivet__number_of of, trivet_message *message);

/* TRIVET_OK, or BAD_VALUE unless axes are unit vectors at right angles, right-handed. */
trivet_status trivet__axes_check(const double axes[9], const char *kind, const char *name,
                                 trivet_message *message);

/* Whether text of at most size bytes is closed with zero and UTF-8. */
int trivet__is_text(const char *text, size_t size);

/*
 * The place of a joint along a tube that has it as its first or last one, or BAD_INDEX or
 * BAD_VALUE. remedy: what to do about a joint between the ends.
 */
trivet_status trivet__end_check(const trivet_frame *frame, int32_t tube, int32_t joint,
                                const char *remedy, int32_t *position_out, trivet_message *message);

/*
 * TRIVET_OK, or BAD_INDEX or BAD_VALUE if a number in the list names nothing or stands twice.
 * list[count] of things of a kind, that belong to the thing "owner name". Uses frame->scratch.
 */
trivet_status trivet__list_check(trivet_frame *frame, int32_t kind, const int32_t *list,
                                 int32_t count, const char *owner, const char *name,
                                 trivet_message *message);

#endif
