/*
 * A store summed up.
 */
#include "sweep/store.h"
#include "sweep/sweep.h"

#include "base/defaults.h"
#include "base/message.h"

#include <math.h>

trivet_status trivet_sweep_summary_defaults(trivet_sweep_summary *summary, size_t size)
{
    return trivet__defaults(summary, size, sizeof *summary);
}

static int holds(const trivet__variant_row *row)
{
    trivet_variant variant = {.outcome = row->outcome};
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        variant.verdicts[line] = row->verdicts[line];
    }
    return trivet_variant_holds(&variant);
}

/* Of equals the first stays. */
static void keep_least(double value, int64_t number, double *least, int64_t *who)
{
    if (!isnan(value) && (isnan(*least) || value < *least)) {
        *least = value;
        *who = number;
    }
}

static trivet_status add_row(void *user, const trivet__variant_row *row, trivet_message *message)
{
    trivet_sweep_summary *const sum = user;
    (void)message;
    sum->stored++;
    sum->checked += row->outcome == TRIVET_OUTCOME_CHECKED;
    sum->skipped += row->outcome == TRIVET_OUTCOME_SKIPPED;
    sum->failed += row->outcome == TRIVET_OUTCOME_FAILED;
    if (holds(row)) {
        sum->hold++;
        keep_least(row->mass, row->number, &sum->least_mass, &sum->lightest);
        keep_least(row->price, row->number, &sum->least_price, &sum->cheapest);
        keep_least(row->droop, row->number, &sum->least_droop, &sum->stiffest);
    }
    return TRIVET_OK;
}

trivet_status trivet_sweep_summarise(const char *store_path, trivet_sweep_summary *summary_out,
                                     trivet_message *message)
{
    trivet_message said;
    trivet__store *store = NULL;
    trivet_sweep_summary sum = {.size = sizeof sum};
    trivet_message_clear(&said);
    trivet_status status = trivet__out_check(store_path, summary_out, sizeof *summary_out);
    if (status != TRIVET_OK) {
        return trivet__refuse(message, status, "summary_out", "is missing or of a wrong size",
                              "fill it with trivet_sweep_summary_defaults first");
    }
    status = trivet__store_read(store_path, &store, &said);
    if (status == TRIVET_OK) {
        const trivet__run_head *const head = trivet__store_head(store);
        sum.count = head->variant_count;
        sum.first = head->first;
        sum.end = head->end;
        sum.lightest = sum.cheapest = sum.stiffest = -1;
        sum.least_mass = sum.least_price = sum.least_droop = (double)NAN;
        sum.is_finished = trivet__store_is_finished(store);
        status = trivet__store_rows(store, add_row, &sum, &said);
    }
    trivet__store_free(store);
    if (status == TRIVET_OK) {
        *summary_out = sum;
    } else if (message) {
        *message = said;
    }
    return status;
}
