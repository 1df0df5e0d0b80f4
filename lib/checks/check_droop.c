/*
 * Droop: how far a tube moves down against the unloaded shape, at its worst place in a case.
 */
#include "checks/bounds.h"
#include "checks/check_record.h"
#include "statics/span_pieces.h"

#include <math.h>

#define TABLE_COUNT(lines) ((int32_t)(sizeof(lines) / sizeof(lines)[0]))

static const trivet__line LINES[] = {
    {"w", "largest movement down", "", "from the solution", TRIVET_LENGTH},
    {"droop", "what counts: nothing if all of it rises", "max(w, 0)", "definition of droop",
     TRIVET_LENGTH},
    {"limit", "droop allowed", "", "limits, droop", TRIVET_LENGTH},
    {"used", "utilisation", "droop / limit", "demand over limit", TRIVET_NUMBER},
};
#define HELP "a taller section, a brace or a shorter reach helps"
static const trivet__check_kind OF_TUBE = {.check = "droop",
                                           .verb = "droops",
                                           .advice = HELP,
                                           .line = TRIVET_LINE_SERVICE,
                                           .where_kind = TRIVET_KIND_TUBE};
static const trivet__check_kind OF_JOINT = {.check = "droop",
                                            .verb = "droops",
                                            .advice = HELP,
                                            .line = TRIVET_LINE_SERVICE,
                                            .where_kind = TRIVET_KIND_JOINT};
static const trivet__table TABLE = {LINES, TABLE_COUNT(LINES)};

/* A span moves down nowhere by more than this. */
static double most_down(const trivet_result *result, int32_t in_case, int32_t index)
{
    trivet_span span = {.size = sizeof span};
    double most = -HUGE_VAL;
    if (trivet_result_span(result, index, &span) != TRIVET_OK) {
        return HUGE_VAL;
    }
    const int32_t pieces = trivet__span_piece_count(result, in_case, index);
    for (int32_t p = 0; p < pieces; p++) {
        trivet__piece piece;
        double c[6];
        trivet__span_piece(result, in_case, index, p, &piece);
        for (int k = 0; k < 6; k++) {
            c[k] = -(span.axes[2] * piece.moves[0][k] + span.axes[5] * piece.moves[1][k] +
                     span.axes[8] * piece.moves[2][k]);
        }
        const double here = trivet__quintic_most(c, piece.to - piece.from);
        most = here <= most ? most : here;
    }
    return most;
}

/*
 * Largest movement down of a tube in a case, and where, in m along the tube. Spans that stay above
 * the largest so far, or above what is of interest, are not looked at any closer; -HUGE_VAL if that
 * is all of them.
 */
static trivet_status tube_droop(const trivet_result *result, int32_t in_case, int32_t tube,
                                double least, double *down_out, double *at_out)
{
    static const double DOWN[3] = {0.0, 0.0, -1.0};
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, tube, &count);
    *down_out = -HUGE_VAL;
    *at_out = 0.0;
    for (int32_t s = first; s < first + count; s++) {
        trivet_span span = {.size = sizeof span};
        trivet_extreme extreme;
        const double bound = most_down(result, in_case, s);
        if (bound < *down_out || bound < least) {
            continue;
        }
        trivet_status status = trivet_result_extreme_move(result, in_case, s, DOWN, &extreme);
        if (status == TRIVET_OK) {
            status = trivet_result_span(result, s, &span);
        }
        if (status != TRIVET_OK) {
            return status;
        }
        if (!(extreme.most <= *down_out)) {
            *down_out = extreme.most;
            *at_out = span.start + extreme.most_at;
        }
    }
    return TRIVET_OK;
}

trivet_status trivet_droop_worst(const trivet_frame *frame, const trivet_result *result,
                                 int32_t in_case, int32_t *tube_out, double *at_out,
                                 double *droop_out)
{
    if (tube_out) {
        *tube_out = -1;
    }
    if (!frame || !result || !droop_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    *droop_out = 0.0;
    if (!trivet_result_moves(result, NULL, NULL)) {
        return TRIVET_BAD_ORDER;
    }
    if (in_case < 0 || in_case >= trivet_result_case_count(result)) {
        return TRIVET_BAD_INDEX;
    }
    int32_t worst_tube = -1;
    double worst = -HUGE_VAL;
    double worst_at = 0.0;
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        double down = 0.0;
        double at = 0.0;
        const trivet_status status = tube_droop(result, in_case, tube, -HUGE_VAL, &down, &at);
        if (status != TRIVET_OK) {
            return status;
        }
        if (worst_tube < 0 || !(down <= worst)) {
            worst_tube = tube;
            worst = down;
            worst_at = at;
        }
    }
    if (tube_out) {
        *tube_out = worst_tube;
    }
    if (at_out) {
        *at_out = worst_at;
    }
    *droop_out = worst > 0.0 ? worst : 0.0;
    return TRIVET_OK;
}

/* Joints whose droop has a limit of its own. */
static void check_joints(trivet__making *making)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(making->result, NULL, &joint_count);
    for (int32_t joint = 0; joint < joint_count; joint++) {
        const double limit = trivet_frame_droop_limit(making->frame, joint);
        const int32_t columns = isnan(limit) ? 0 : trivet_result_case_count(making->result);
        for (int32_t c = 0; c < columns; c++) {
            const double down = -moves[6 * ((size_t)c * (size_t)joint_count + (size_t)joint) + 2];
            const double droop = down <= 0.0 ? 0.0 : down;
            const double values[] = {down, droop, limit, droop / limit};
            trivet__record *const record = trivet__record_start(making, &OF_JOINT, joint, c);
            record->check.source = "limit set by the user for this joint";
            trivet__record_table(making, record, &TABLE, values);
            trivet__record_judge(making, record, TRIVET_LENGTH, droop, limit);
        }
    }
}

trivet_status trivet__check_droop(trivet__making *making)
{
    check_joints(making);
    if (isnan(making->limits.droop)) {
        return TRIVET_OK;
    }
    const int32_t tube_count = trivet_frame_count(making->frame, TRIVET_KIND_TUBE);
    const int32_t columns = trivet_result_case_count(making->result);
    for (int32_t tube = 0; tube < tube_count; tube++) {
        for (int32_t c = 0; c < columns; c++) {
            double down = 0.0;
            double at = 0.0;
            const double limit = making->limits.droop;
            const double least = limit * trivet__least_of_interest(making, TRIVET_LINE_SERVICE);
            const trivet_status status =
                tube_droop(making->result, c, tube, least > 0.0 ? least : -HUGE_VAL, &down, &at);
            if (status != TRIVET_OK) {
                return status;
            }
            if (down == -HUGE_VAL) {
                continue;
            }
            const double droop = down <= 0.0 ? 0.0 : down;
            const double values[] = {down, droop, limit, droop / limit};
            trivet__record *const record = trivet__record_start(making, &OF_TUBE, tube, c);
            record->check.source = "limit set by the user";
            record->check.at = at;
            trivet__place_find(making->frame, making->result, tube, at, &record->place);
            trivet__record_table(making, record, &TABLE, values);
            trivet__record_judge(making, record, TRIVET_LENGTH, droop, limit);
        }
    }
    return TRIVET_OK;
}
