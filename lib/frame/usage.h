/*
 * A usage on its way into a frame: for the files of frame/ alone.
 */
#ifndef TRIVET_FRAME_USAGE_PRIVATE_H
#define TRIVET_FRAME_USAGE_PRIVATE_H

#include "frame/border.h"
#include "frame/frame.h"

/* Sources of numbers that stand in no rule. */
#define TRIVET__PRACTICE "common practice"
#define TRIVET__OURS "our own choice"

/* Cases are added one by one; the first that cannot be ends it, and status says why. */
typedef struct trivet__usage_adding {
    trivet_frame *frame;
    const trivet_usage *usage;
    trivet_message *message;
    trivet_status status;
    int32_t count; /* of cases added */
} trivet__usage_adding;

/* Adds the cases of the usage's kind, and the gaps. */
void trivet__usage_add(trivet__usage_adding *adding);

/*
 * Adds a case "USAGE, name" with a gravity (NULL: none), and its story, in which # is the number.
 * Returns its number, or -1.
 */
int32_t trivet__usage_case(trivet__usage_adding *adding, const char *name, const double *gravity,
                           const char *story, double number, const char *source);
/* Adds a gap "usage NAME": why. */
void trivet__usage_gap(trivet__usage_adding *adding, const char *why);

/* Adds a force to the case that was just made; nothing if that failed. */
void trivet__usage_push_joint(trivet__usage_adding *adding, int32_t in_case, int32_t joint,
                              const double force[3]);
/* N with which the person of a usage sits or steps down; NaN or 0: left out. */
double trivet__usage_person(const trivet_usage *usage);

/* usage_loads.c, usage_standing.c: cases that push, lift or pull at certain places. */
void trivet__usage_two_up(trivet__usage_adding *adding);
void trivet__usage_grab(trivet__usage_adding *adding);
void trivet__usage_lifted(trivet__usage_adding *adding);
void trivet__usage_standing(trivet__usage_adding *adding);
void trivet__usage_fall(trivet__usage_adding *adding);
void trivet__usage_straps(trivet__usage_adding *adding);
void trivet__usage_misfit(trivet__usage_adding *adding);
void trivet__usage_push(trivet__usage_adding *adding);

#endif
