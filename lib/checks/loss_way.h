/*
 * Which way a frame goes that has lost a mount and is free to move.
 */
#ifndef TRIVET_CHECKS_LOSS_WAY_H
#define TRIVET_CHECKS_LOSS_WAY_H

#include "trivet/checks.h"

enum { TRIVET__WAY_MAX = 80 };

/*
 * frame: before the mount was lost. direction_out: [3], world axes, length 1; zeros if it cannot be
 * told. text: "down onto the wheel", "to the left, outward"; "" likewise. TRIVET_OK or NO_MEMORY.
 */
trivet_status trivet__loss_way(const trivet_frame *frame, int32_t mount, double direction_out[3],
                               char text[TRIVET__WAY_MAX], trivet_message *message);

#endif
