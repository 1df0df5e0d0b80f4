/*
 * Angles and channels are drawn as the box around them; a profile by its values alone, whose
 * sizes nobody knows, as a square bar of its area.
 */
#include "report/body.h"

#include "base/vec3.h"

#include <math.h>
#include <string.h>

static void set_thickness(const trivet_profile *profile, trivet__body *body)
{
    double width = profile->width;
    double height = profile->height > 0.0 ? profile->height : width;
    body->is_round = profile->diameter > 0.0;
    if (body->is_round) {
        width = height = profile->diameter;
    } else if (!(width > 0.0)) {
        width = height = sqrt(profile->given_area);
    }
    body->half_width = 0.5 * width;
    body->half_height = 0.5 * height;
}

int trivet__body_find(const trivet_frame *frame, const trivet_result *result, int32_t span,
                      trivet__body *body_out)
{
    int32_t joint_count = 0;
    int32_t span_count = 0;
    double offset[3] = {0.0, 0.0, 0.0};
    memset(body_out, 0, sizeof *body_out);
    body_out->span.size = sizeof body_out->span;
    if (trivet_result_span(result, span, &body_out->span) != TRIVET_OK) {
        return 0;
    }
    const int32_t tube = body_out->span.tube;
    const int32_t *const joints = trivet_frame_tube_joints(frame, tube, &joint_count);
    const trivet_profile *const profile =
        trivet_frame_profile(frame, trivet_frame_tube_stock(frame, tube));
    const int32_t first = trivet_result_tube_spans(result, tube, &span_count);
    if (!joints || !profile || trivet_frame_offset(frame, tube, joints[0], offset) != TRIVET_OK) {
        return 0;
    }
    const double *const start = trivet_frame_position(frame, joints[0]);
    for (int k = 0; k < 3; k++) {
        const double x = body_out->span.axes[k];
        body_out->from[k] = start[k] + offset[k] + body_out->span.start * x;
        body_out->to[k] = body_out->from[k] + body_out->span.length * x;
    }
    body_out->begins = span == first;
    body_out->ends = span == first + span_count - 1;
    set_thickness(profile, body_out);
    return 1;
}

double trivet__body_half(const trivet__body *body, const double direction[3])
{
    if (body->is_round) {
        return body->half_width;
    }
    return fabs(trivet__dot3(body->span.axes + 3, direction)) * body->half_width +
           fabs(trivet__dot3(body->span.axes + 6, direction)) * body->half_height;
}
