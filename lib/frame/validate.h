/*
 * The two halves of trivet_frame_validate.
 */
#ifndef TRIVET_FRAME_VALIDATE_H
#define TRIVET_FRAME_VALIDATE_H

#include "trivet/frame.h"

/* A tube by itself: spans, straightness, order of its joints, inserts. */
trivet_status trivet__tube_validate(const trivet_frame *frame, int32_t tube,
                                    trivet_message *message);

#endif
