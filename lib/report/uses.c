/*
 * Which case and which tube a drawing is about, and how much each tube is used.
 */
#include "report/sheet.h"

#include "base/memory.h"

#include <math.h>

/* Up to here a tube counts as little used; our own choice, for the picture alone. */
#define LITTLE 0.5

static int32_t class_of(const trivet_check *check)
{
    if (check->verdict > TRIVET_TIGHT) {
        return TRIVET__USE_OVER;
    }
    if (check->verdict == TRIVET_TIGHT) {
        return TRIVET__USE_TIGHT;
    }
    return check->utilisation > LITTLE ? TRIVET__USE_MUCH : TRIVET__USE_LITTLE;
}

trivet__use *trivet__uses_find(const trivet_frame *frame, const trivet_checks *checks)
{
    const int32_t count = trivet_frame_count(frame, TRIVET_KIND_TUBE);
    trivet__use *const uses = trivet__take((size_t)count, sizeof *uses);
    if (!uses) {
        return NULL;
    }
    for (int32_t i = 0; i < count; i++) {
        uses[i] = (trivet__use){(double)NAN, -1, TRIVET__USE_UNKNOWN};
    }
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        if (trivet_checks_at(checks, i, &check) != TRIVET_OK ||
            check.where_kind != TRIVET_KIND_TUBE || check.line == TRIVET_LINE_SERVICE ||
            check.where_index < 0 || check.where_index >= count) {
            continue;
        }
        trivet__use *const use = &uses[check.where_index];
        if (use->check < 0 || check.utilisation > use->used) {
            *use = (trivet__use){check.utilisation, i, class_of(&check)};
        }
    }
    return uses;
}

int32_t trivet__tube_used_most(const trivet_frame *frame, const trivet__use *uses)
{
    int32_t most = 0;
    for (int32_t i = 1; i < trivet_frame_count(frame, TRIVET_KIND_TUBE); i++) {
        if (uses[i].used > uses[most].used || (isnan(uses[most].used) && !isnan(uses[i].used))) {
            most = i;
        }
    }
    return most;
}

int32_t trivet__case_of_worst_droop(const trivet_frame *frame, const trivet_result *result)
{
    int32_t worst = 0;
    double most = 0.0;
    for (int32_t c = 0; c < trivet_result_case_count(result); c++) {
        double droop = 0.0;
        if (trivet_droop_worst(frame, result, c, NULL, NULL, &droop) == TRIVET_OK && droop > most) {
            most = droop;
            worst = c;
        }
    }
    return worst;
}
