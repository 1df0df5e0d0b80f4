/*
 * Combinations: sums of cases, each times a factor.
 */
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

static trivet_status check_combination(trivet_frame *frame, const char *name, const int32_t *cases,
                                       const double *factors, int32_t case_count,
                                       trivet_message *message)
{
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_COMBINATION, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (case_count < 1) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "combination", name,
                                    "there is no case in it", "name at least one case");
    }
    status = trivet__list_check(frame, TRIVET_KIND_CASE, cases, case_count, "combination", name,
                                message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__number_of of = {"combination", name, "factor", TRIVET_NUMBER};
    return trivet__numbers_check(factors, case_count, of, message);
}

static trivet_status commit_combination(trivet_frame *frame, const char *name,
                                        const trivet__combination *made, trivet_message *message)
{
    const int32_t count = frame->combination_count;
    trivet__combination *const list = trivet__grown(&frame->pool, frame->combinations, count,
                                                    &frame->combination_capacity, sizeof *list);
    if (!list) {
        return trivet__no_memory(message);
    }
    frame->combinations = list;
    const char *const kept = trivet__names_add(&frame->case_names, &frame->pool, name, -1 - count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    list[count] = *made;
    list[count].name = kept;
    frame->combination_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_combination(trivet_frame *frame, const char *name,
                                           const int32_t *cases, const double *factors,
                                           int32_t case_count, int32_t *combination_out,
                                           trivet_message *message)
{
    if (combination_out) {
        *combination_out = -1;
    }
    if (!frame || !cases || !factors) {
        return trivet__missing(message, !frame ? "frame" : !cases ? "cases" : "factors");
    }
    trivet_status status = check_combination(frame, name, cases, factors, case_count, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const size_t count = (size_t)case_count;
    trivet__combination made;
    memset(&made, 0, sizeof made);
    made.case_count = case_count;
    made.cases = trivet__pool_take(&frame->pool, count, sizeof *made.cases);
    made.factors = trivet__pool_take(&frame->pool, count, sizeof *made.factors);
    if (!made.cases || !made.factors) {
        return trivet__no_memory(message);
    }
    memcpy(made.cases, cases, count * sizeof *cases);
    memcpy(made.factors, factors, count * sizeof *factors);
    status = commit_combination(frame, name, &made, message);
    if (status == TRIVET_OK && combination_out) {
        *combination_out = frame->combination_count - 1;
    }
    return status;
}
