/*
 * What reading a quantity did, step by step: run again, it gives the same bits for other values of
 * the names without looking at the text, which stays for complaints.
 */
#ifndef TRIVET_BASE_PROGRAM_H
#define TRIVET_BASE_PROGRAM_H

#include "base/pool.h"
#include "base/quantity.h"

typedef struct trivet__step trivet__step;

typedef struct trivet__program {
    const char *text;
    size_t length;
    trivet__step *steps; /* [count]; 0: it was not made */
    size_t count;
    size_t capacity;
} trivet__program;

/*
 * As trivet__quantity_parse, and makes the program in pool. hooks must number their names. If it
 * would be too deep, count is 0. The text must stay.
 */
trivet_status trivet__program_make(const char *text, size_t length,
                                   const trivet__quantity_hooks *hooks, trivet__pool *pool,
                                   trivet__program *program_out, trivet_quantity *quantity_out,
                                   trivet_message *message);

/* The value of a name by its number. */
typedef const trivet_quantity *trivet__value_of(const void *user, int32_t number);

/* Refuses as trivet__quantity_parse would, in the same words. count must not be 0. */
trivet_status trivet__program_run(const trivet__program *program, trivet__value_of *value_of,
                                  const void *user, trivet_quantity *quantity_out,
                                  trivet_message *message);

#endif
