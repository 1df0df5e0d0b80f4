/*
 * What each part of a screwed place stands when the screw is tightened or pulled, N: characteristic
 * forces, nothing divided by a factor yet. NaN where it cannot be told, infinite where the part is
 * not there or cannot give first.
 */
#ifndef TRIVET_CHECKS_BOLT_PARTS_H
#define TRIVET_CHECKS_BOLT_PARTS_H

#include "frame/frame.h"

/* Thread and grade of a set; both were found when it was added. */
void trivet__bolt_kind(const trivet_bolts *bolts, trivet_thread *thread_out,
                       trivet_grade *grade_out);

/* thread_strength.c: the screw's own thread, and the thread in the hole, stripped off. */
double trivet__screw_thread_stands(const trivet_frame *frame, const trivet_bolts *bolts);
double trivet__hole_thread_stands(const trivet_frame *frame, const trivet_bolts *bolts);
/* The plug or spot welds that keep a tapped insert where it is. */
double trivet__fixing_stands(const trivet_frame *frame, const trivet_bolts *bolts);

/* wall_strength.c: the walls of the clamped tube under the preload, with or without sleeve. */
double trivet__wall_stands(const trivet_frame *frame, const trivet_bolts *bolts);
double trivet__sleeve_stands(const trivet_frame *frame, const trivet_bolts *bolts);

/* bolt_strength.c: the head pulled through the plate. */
double trivet__plate_stands(const trivet_frame *frame, const trivet_bolts *bolts);

#endif
