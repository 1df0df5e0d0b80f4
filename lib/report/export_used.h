/*
 * What every hand-over of a result begins with: its arguments, and how far each tube is used.
 */
#ifndef TRIVET_REPORT_EXPORT_USED_H
#define TRIVET_REPORT_EXPORT_USED_H

#include "trivet/checks.h"

/* Of a solved and checked frame. */
typedef struct trivet__handed {
    const trivet_frame *frame;
    const trivet_result *result;
    const trivet_checks *checks;
    const double *moves;     /* [case][joint][6] */
    const double *reactions; /* [case][mount][6] */
    const double *span_ends; /* [case][span][2][6] */
    int32_t case_count;
    int32_t joint_count;
    int32_t mount_count;
    int32_t span_count;
} trivet__handed;

/* Empties the outputs, looks at the arguments and fills handed. */
trivet_status trivet__handed_check(const trivet_frame *frame, const trivet_result *result,
                                   const trivet_checks *checks, char **bytes_out,
                                   size_t *length_out, trivet__handed *handed,
                                   trivet_message *message);

/*
 * The largest utilisation of the checks of overload and cracking on a tube, -1 if there are none;
 * *verdict_out is the worst verdict of them, TRIVET_NOT_CHECKED if there are none; may be NULL.
 */
double trivet__tube_used(const trivet_checks *checks, int32_t tube, int32_t *verdict_out);

#endif
