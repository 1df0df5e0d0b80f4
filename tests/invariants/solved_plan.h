/*
 * A random frame, solved, and how much of its numbers is rounding.
 */
#ifndef TRIVET_TESTS_SOLVED_PLAN_H
#define TRIVET_TESTS_SOLVED_PLAN_H

#include "support/frames.h"

#include <check.h>

#include <trivet/trivet.h>

enum {
    FRAMES = 1000, /* random frames a property, seeds 1 to FRAMES */
    BATCH = 50     /* frames a loop of Check: a failure costs the rest of its batch */
};

typedef struct solved_plan {
    frame_plan *plan; /* owned */
    trivet_frame *frame;
    trivet_result *result;
    int32_t columns, joints, mounts, spans;
    const double *moves;     /* [column][joint][6] */
    const double *reactions; /* [column][mount][6] */
    const double *ends;      /* [column][span][2][6] */
    double flexibility;      /* m/N, as in plan_scale; 0 before find_flexibility */
} solved_plan;

/* Sizes of one column. Moments count as forces and turns as movements at half a metre, which is
   about the size of the frames, so that neither is judged by an accidental zero of its own. */
typedef struct plan_scale {
    double force;       /* N, largest reaction or force inside */
    double move;        /* m, largest movement of a joint */
    double stiffest;    /* N/m, largest of EA/L and 12 EI/L^3 of all spans */
    double flexibility; /* m/N, largest movement of a joint under 1 N on any joint */
} plan_scale;

#define PLAN_ARM 0.5 /* m */

/* Builds and solves; takes the plan over. Fails the test with its seed if it is refused. */
solved_plan solve_plan(frame_plan *plan);
/* Solves once more, with unit loads: needed before movements are compared. */
void find_flexibility(solved_plan *solved);

void free_solved_plan(solved_plan *solved);

plan_scale scale_of(const solved_plan *solved, int32_t column);

/* The larger scale of each kind. */
plan_scale larger_scale(plan_scale one, plan_scale other);

/*
 * What two answers to the same question may differ by. Forces inside are differences of movements
 * times a stiffness: eps times stiffness times movement of them is rounding, whoever computes them,
 * and a wrong force of that size at a joint moves the frame by its flexibility. That, times the
 * number of steps that a force takes, is allowed.
 */
double forces_allowed(plan_scale scale);
double moves_allowed(plan_scale scale);

/*
 * Fails with its seed unless six numbers agree: the first three to allowed times size, the last
 * three to that times arm (for forces and moments), or over arm (movements and turns).
 */
void agree_forces(uint64_t seed, const char *what, const double got[6], const double want[6],
                  double allowed);
void agree_moves(uint64_t seed, const char *what, const double got[6], const double want[6],
                 double allowed);
void agree(uint64_t seed, const char *what, double got, double want, double allowed);

/* Fails the test with its seed unless status is TRIVET_OK. */
void done(uint64_t seed, trivet_status status);

/* A span as it was solved. */
trivet_span span_of(const solved_plan *solved, int32_t index);

/* Whether a point load of any case acts right at an end, 0 or 1, of a span: whether it belongs to
   this span or to its neighbour is then a matter of rounding. */
int has_load_at_end(const solved_plan *solved, int32_t index, int end);

/* The span of a tube that holds a place, and the place from the span's start. */
int32_t span_holding(const solved_plan *solved, int32_t tube, double at, double *along_out);

/* Runs loop tests of FRAMES / BATCH rounds, each a test case of its own; returns what main returns.
 */
#define RUN_INVARIANTS(suite, ...)                                                                 \
    run_invariants(suite, (const TTest *const[]){__VA_ARGS__},                                     \
                   sizeof((const TTest *const[]){__VA_ARGS__}) / sizeof(const TTest *))

int run_invariants(const char *suite, const TTest *const *tests, size_t count);

#endif
