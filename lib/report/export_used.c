/*
 * The beginning of every hand-over of a result.
 */
#include "report/export_used.h"

#include "base/message.h"

#include <math.h>

trivet_status trivet__handed_check(const trivet_frame *frame, const trivet_result *result,
                                   const trivet_checks *checks, char **bytes_out,
                                   size_t *length_out, trivet__handed *handed,
                                   trivet_message *message)
{
    if (bytes_out) {
        *bytes_out = NULL;
    }
    if (length_out) {
        *length_out = 0;
    }
    if (!bytes_out || !frame || !result || !checks) {
        return trivet__missing(message, !bytes_out ? "bytes_out"
                                        : !frame   ? "frame"
                                        : !result  ? "result"
                                                   : "checks");
    }
    *handed = (trivet__handed){.frame = frame, .result = result, .checks = checks};
    handed->moves = trivet_result_moves(result, &handed->case_count, &handed->joint_count);
    handed->reactions = trivet_result_reactions(result, NULL, &handed->mount_count);
    handed->span_ends = trivet_result_span_ends(result, NULL, &handed->span_count);
    if (!handed->moves || !handed->reactions || !handed->span_ends) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved",
                              "solve the frame first");
    }
    return TRIVET_OK;
}

double trivet__tube_used(const trivet_checks *checks, int32_t tube, int32_t *verdict_out)
{
    double used = -1.0;
    int32_t worst = TRIVET_NOT_CHECKED;
    const int32_t count = trivet_checks_count(checks);
    for (int32_t i = 0; i < count; i++) {
        trivet_check check = {.size = sizeof check};
        if (trivet_checks_at(checks, i, &check) == TRIVET_OK && check.line != TRIVET_LINE_SERVICE &&
            check.where_kind == TRIVET_KIND_TUBE && check.where_index == tube) {
            used = fmax(used, check.utilisation);
            worst = check.verdict > worst ? check.verdict : worst;
        }
    }
    if (verdict_out) {
        *verdict_out = worst;
    }
    return used;
}
