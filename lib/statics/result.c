/*
 * Results: making room for them, and handing them out.
 */
#include "base/block.h"
#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "statics/statics.h"

#include <string.h>

static void carve_result(const trivet_plan *plan, trivet_result *of, trivet__carver *carver)
{
    const size_t columns = (size_t)plan->column_count;
    const size_t cases = (size_t)plan->case_count;
    const size_t spans = (size_t)plan->span_count;
    of->spans = trivet__carve(carver, spans, sizeof *of->spans);
    of->loads = trivet__carve(carver, (size_t)plan->load_count, sizeof *of->loads);
    of->load_counts = trivet__carve(carver, cases * spans, sizeof(int32_t));
    of->warm = trivet__carve(carver, cases, sizeof(double));
    of->factors = trivet__carve(carver, (size_t)plan->factor_count, sizeof(double));
    of->moves = trivet__carve(carver, columns * (size_t)plan->joint_count * 6, sizeof(double));
    of->reactions = trivet__carve(carver, columns * (size_t)plan->mount_count * 6, sizeof(double));
    of->span_ends = trivet__carve(carver, columns * spans * 12, sizeof(double));
    of->span_starts = trivet__carve(carver, columns * spans * 6, sizeof(double));
    of->quality = trivet__carve(carver, columns, sizeof *of->quality);
}

trivet_status trivet_result_new(const trivet_plan *plan, trivet_result **result_out,
                                trivet_message *message)
{
    if (!result_out) {
        return trivet__missing(message, "result_out");
    }
    *result_out = NULL;
    if (!plan) {
        return trivet__missing(message, "plan");
    }
    trivet_result *const made = trivet__take(1, sizeof *made);
    if (!made) {
        return trivet__no_memory(message);
    }
    trivet__carver carver = {NULL, 0, 0};
    carve_result(plan, made, &carver);
    made->block = trivet__take_block(&carver);
    if (!made->block) {
        trivet__give_back(made);
        return trivet__no_memory(message);
    }
    carver = (trivet__carver){made->block, 0, 0};
    carve_result(plan, made, &carver);
    made->plan = plan;
    for (int32_t c = 0; c < plan->column_count; c++) {
        made->quality[c].size = sizeof *made->quality;
    }
    *result_out = made;
    return TRIVET_OK;
}

void trivet_result_free(trivet_result *result)
{
    if (result) {
        trivet_plan_free(result->own_plan);
        trivet__give_back_block(result->block);
        trivet__give_back(result);
    }
}

int32_t trivet_result_case_count(const trivet_result *result)
{
    return result ? result->plan->column_count : 0;
}

/* Counts for whoever asked; the array only if it holds a solution. */
static const double *hand_out(const trivet_result *result, const double *array, int32_t *cases_out,
                              int32_t *others_out, int32_t others)
{
    if (cases_out) {
        *cases_out = trivet_result_case_count(result);
    }
    if (others_out) {
        *others_out = others;
    }
    return result && result->is_solved ? array : NULL;
}

const double *trivet_result_moves(const trivet_result *result, int32_t *case_count_out,
                                  int32_t *joint_count_out)
{
    return hand_out(result, result ? result->moves : NULL, case_count_out, joint_count_out,
                    result ? result->plan->joint_count : 0);
}

const double *trivet_result_reactions(const trivet_result *result, int32_t *case_count_out,
                                      int32_t *mount_count_out)
{
    return hand_out(result, result ? result->reactions : NULL, case_count_out, mount_count_out,
                    result ? result->plan->mount_count : 0);
}

const double *trivet_result_span_ends(const trivet_result *result, int32_t *case_count_out,
                                      int32_t *span_count_out)
{
    return hand_out(result, result ? result->span_ends : NULL, case_count_out, span_count_out,
                    trivet_result_span_count(result));
}

int32_t trivet_result_span_count(const trivet_result *result)
{
    return result ? result->plan->span_count : 0;
}

int32_t trivet_result_tube_spans(const trivet_result *result, int32_t tube, int32_t *span_count_out)
{
    const int fits = result && tube >= 0 && tube < result->plan->tube_count;
    if (span_count_out) {
        *span_count_out =
            fits ? result->plan->tube_spans[tube + 1] - result->plan->tube_spans[tube] : 0;
    }
    return fits ? result->plan->tube_spans[tube] : -1;
}

trivet_status trivet_span_defaults(trivet_span *span, size_t size)
{
    return trivet__defaults(span, size, sizeof *span);
}

trivet_status trivet_quality_defaults(trivet_quality *quality, size_t size)
{
    return trivet__defaults(quality, size, sizeof *quality);
}

trivet_status trivet_result_span(const trivet_result *result, int32_t span, trivet_span *span_out)
{
    if (!result || !span_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (span_out->size != sizeof *span_out) {
        return TRIVET_BAD_SIZE;
    }
    if (span < 0 || span >= result->plan->span_count) {
        return TRIVET_BAD_INDEX;
    }
    if (!result->is_solved) {
        return TRIVET_BAD_ORDER;
    }
    const trivet__span_map *const map = &result->plan->spans[span];
    const trivet__span *const placed = &result->spans[span];
    const int32_t joints = result->plan->joint_count;
    span_out->tube = map->tube;
    span_out->first_joint = map->first_node < joints ? map->first_node : -1;
    span_out->last_joint = map->last_node < joints ? map->last_node : -1;
    span_out->insert_stock = placed->insert_stock;
    span_out->insert_bond = placed->insert_bond;
    span_out->start = placed->start;
    span_out->length = placed->length;
    memcpy(span_out->axes, placed->axes, sizeof span_out->axes);
    return TRIVET_OK;
}

trivet_status trivet_result_quality(const trivet_result *result, int32_t in_case,
                                    trivet_quality *quality_out)
{
    if (!result || !quality_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (quality_out->size != sizeof *quality_out) {
        return TRIVET_BAD_SIZE;
    }
    if (in_case < 0 || in_case >= result->plan->column_count) {
        return TRIVET_BAD_INDEX;
    }
    if (!result->is_solved) {
        return TRIVET_BAD_ORDER;
    }
    *quality_out = result->quality[in_case];
    return TRIVET_OK;
}
