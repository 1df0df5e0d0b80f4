/*
 * Bolts: what is looked at when they are added, and what follows when stock changes. For the files
 * of frame/ alone.
 */
#ifndef TRIVET_FRAME_BOLTS_H
#define TRIVET_FRAME_BOLTS_H

#include "base/message.h"
#include "frame/frame.h"

/*
 * TRIVET_OK, or BAD_NAME, BAD_INDEX or BAD_VALUE for everything about bolts but their place. name:
 * their place in words, such as "mount FL".
 */
trivet_status trivet__bolts_check(const trivet_frame *frame, const trivet_bolts *bolts,
                                  const char *name, trivet_message *message);

/* The bolts of a place in words, "bolts of" left out. */
enum { TRIVET__PLACE_TEXT_MAX = 2 * TRIVET_NAME_MAX + 32 };
void trivet__bolts_place(const trivet_frame *frame, const trivet_bolts *bolts,
                         char text[TRIVET__PLACE_TEXT_MAX]);

/* Takes one bolt out of the pattern of a set that has several. */
void trivet__bolts_drop(trivet_frame *frame, int32_t set, int32_t bolt);

int trivet__is_hollow(const trivet_profile *profile);

/* Refuses a profile for stock whose wall bolts need: threads are cut into it, or it is clamped. */
trivet_status trivet__bolts_stock_check(const trivet_frame *frame, int32_t stock,
                                        const trivet_profile *profile, trivet_message *message);

/* Sets the engagement of threads that are cut into this stock's wall. */
void trivet__bolts_follow_stock(trivet_frame *frame, int32_t stock);

#endif
