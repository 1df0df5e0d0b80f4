/*
 * Writing down what the reader of quantities does. For its files alone.
 */
#ifndef TRIVET_BASE_RECORDER_H
#define TRIVET_BASE_RECORDER_H

#include "base/program.h"

typedef enum trivet__step_kind {
    TRIVET__STEP_PUSH = 1, /* quantity */
    TRIVET__STEP_NAME,     /* the value of name number */
    TRIVET__STEP_UNITS,    /* top times units: powers in quantity, times over over */
    TRIVET__STEP_TURN,     /* top times -1 */
    TRIVET__STEP_ADD,      /* the two on top become one, likewise below */
    TRIVET__STEP_SUBTRACT,
    TRIVET__STEP_MULTIPLY,
    TRIVET__STEP_DIVIDE,
    TRIVET__STEP_RAISE
} trivet__step_kind;

struct trivet__step {
    int32_t kind; /* a trivet__step_kind */
    int32_t number;
    size_t at; /* place in the text, for complaints */
    trivet_quantity quantity;
    double times;
    double over;
};

typedef struct trivet__recorder {
    trivet__program *program;
    trivet__pool *pool;
    int32_t depth;   /* of the stack */
    int32_t is_lost; /* no program can be made */
    int32_t lacks_memory;
} trivet__recorder;

/* recorder may be NULL: then nothing is written down. */
void trivet__record_step(trivet__recorder *recorder, trivet__step step);

#endif
