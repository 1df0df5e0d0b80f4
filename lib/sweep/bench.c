/*
 * Making one variant: its values put in place of the file's, the frame resolved, solved, checked.
 */
#include "sweep/sweep.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

void trivet__bench_clear(trivet__bench *bench)
{
    trivet_checks_free(bench->checks);
    trivet_result_free(bench->result);
    trivet_workspace_free(bench->workspace);
    trivet_plan_free(bench->own_plan);
    trivet_document_free(bench->documents[0]);
    trivet_document_free(bench->documents[1]);
    *bench = (trivet__bench){0};
}

static void fill_stock(const trivet__column *column, double value, trivet__filled *to)
{
    for (int32_t i = 0; i < column->of_count; i++) {
        to->stocks[to->all.stock_count++] =
            (trivet__stock_override){column->of[i], &column->choices[(int32_t)value]};
    }
}

void trivet__fill_overrides(const trivet__vary *vary, const double *inputs, trivet__filled *to)
{
    to->all = (trivet__overrides){
        .lets = to->lets, .stocks = to->stocks, .cargos = to->cargos, .cases = to->cases};
    for (int32_t c = 0; c < vary->column_count; c++) {
        const trivet__column *const column = &vary->columns[c];
        const trivet__factor_override factor = {column->target, inputs[c]};
        if (column->kind == TRIVET__COLUMN_LET) {
            trivet__let_override *const let = &to->lets[to->all.let_count++];
            *let = (trivet__let_override){column->target, column->unit};
            let->quantity.value = inputs[c];
        } else if (column->kind == TRIVET__COLUMN_STOCK) {
            fill_stock(column, inputs[c], to);
        } else if (column->kind == TRIVET__COLUMN_CARGO) {
            to->cargos[to->all.cargo_count++] = factor;
        } else {
            to->cases[to->all.case_count++] = factor;
        }
    }
}

typedef struct skipping {
    const trivet__vary *vary;
} skipping;

/* Ends the reading of a variant that a condition of the file skips. */
static trivet_status skip_by_condition(const trivet__reading *reading, void *user)
{
    const trivet__vary *const vary = ((const skipping *)user)->vary;
    for (int32_t i = 0; i < vary->condition_count; i++) {
        int holds = 0;
        const trivet_status status = trivet__condition_test(reading, &vary->conditions[i], &holds);
        if (status != TRIVET_OK) {
            return status;
        }
        if (holds) {
            trivet__message_problem(reading->message, "%s",
                                    trivet__tree_text(reading->tree, vary->conditions[i].node));
            return TRIVET_INTERRUPTED;
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__bench_resolve(trivet__bench *bench, int64_t number)
{
    const trivet_sweep *const sweep = bench->sweep;
    skipping skips = {&sweep->vary};
    const trivet__asked asked = {skip_by_condition, &skips};
    bench->turn = !bench->turn;
    bench->document = NULL;
    trivet__vary_values(&sweep->vary, number, bench->inputs);
    trivet__fill_overrides(&sweep->vary, bench->inputs, &bench->values);
    trivet_message_clear(&bench->message);
    trivet_document **const filled = &bench->documents[bench->turn];
    const trivet_status status = trivet__kept_again(
        &sweep->tree, &sweep->compiled, &bench->values.all, &asked, filled, &bench->message);
    if (status != TRIVET_OK) {
        return status;
    }
    bench->document = *filled;
    if (trivet__shop_lacks(bench->document, &bench->values.all, bench->message.problem,
                           sizeof bench->message.problem)) {
        return TRIVET_INTERRUPTED;
    }
    return TRIVET_OK;
}

/* Room for solving with a plan; what was for another is given back. */
static trivet_status take_room(trivet__bench *bench, const trivet_plan *plan)
{
    trivet_result_free(bench->result);
    trivet_workspace_free(bench->workspace);
    bench->result = NULL;
    bench->workspace = NULL;
    bench->plan = plan;
    trivet_status status = trivet_workspace_new(plan, &bench->workspace, &bench->message);
    if (status == TRIVET_OK) {
        status = trivet_result_new(plan, &bench->result, &bench->message);
    }
    return status;
}

static trivet_status plan_anew(trivet__bench *bench, const trivet_frame *frame)
{
    trivet_plan *plan = NULL;
    trivet_status status = trivet_plan_new(frame, &plan, &bench->message);
    if (status != TRIVET_OK) {
        return status;
    }
    status = take_room(bench, plan);
    trivet_plan_free(bench->own_plan);
    bench->own_plan = plan;
    return status;
}

/* With the plan at hand if it fits, else with one of its own. */
static trivet_status solve(trivet__bench *bench)
{
    const trivet_frame *const frame = trivet_document_frame(bench->document);
    trivet_status status = TRIVET_BAD_ORDER;
    if (!bench->plan && bench->sweep->plan) {
        status = take_room(bench, bench->sweep->plan);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    if (bench->plan) {
        status =
            trivet_plan_solve(bench->plan, frame, bench->workspace, bench->result, &bench->message);
    }
    if (status == TRIVET_BAD_ORDER) {
        status = plan_anew(bench, frame);
        if (status == TRIVET_OK) {
            status = trivet_plan_solve(bench->plan, frame, bench->workspace, bench->result,
                                       &bench->message);
        }
    }
    return status;
}

static trivet_status check(trivet__bench *bench)
{
    trivet_limits limits = {.size = sizeof limits};
    const trivet_frame *const frame = trivet_document_frame(bench->document);
    const trivet_status status = trivet_document_limits(bench->document, &limits);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!bench->checks) {
        return trivet_checks_new(frame, bench->result, &limits, &bench->checks, &bench->message);
    }
    return bench->wants_kinds
               ? trivet_checks_again(bench->checks, frame, bench->result, &limits, &bench->message)
               : trivet_checks_worst_again(bench->checks, frame, bench->result, &limits,
                                           &bench->message);
}

/* ---- the row ---- */

static void fill_verdicts(const trivet_checks *checks, trivet_variant *row)
{
    int32_t governs = -1;
    trivet_check at = {.size = sizeof at};
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        int32_t worst = -1;
        row->verdicts[line] = trivet_checks_verdict(checks, line, &worst);
        if (worst >= 0 && trivet_checks_at(checks, worst, &at) == TRIVET_OK) {
            row->used[line] = at.utilisation;
        }
    }
    if (trivet_checks_select(checks, NULL, &governs, 1) == 1 &&
        trivet_checks_at(checks, governs, &at) == TRIVET_OK) {
        trivet__text_copy(row->check, sizeof row->check, at.check);
        trivet__text_copy(row->where, sizeof row->where, at.where);
        trivet__text_copy(row->in_case, sizeof row->in_case, at.in_case);
    }
}

static double worst_droop(const trivet_frame *frame, const trivet_result *result)
{
    double worst = 0.0;
    for (int32_t c = 0; c < trivet_result_case_count(result); c++) {
        double droop = (double)NAN;
        if (trivet_droop_worst(frame, result, c, NULL, NULL, &droop) == TRIVET_OK) {
            worst = fmax(worst, droop);
        }
    }
    return worst;
}

static double worst_mount_force(const trivet_result *result)
{
    int32_t cases = 0;
    int32_t mounts = 0;
    double worst = 0.0;
    const double *const reactions = trivet_result_reactions(result, &cases, &mounts);
    for (ptrdiff_t i = 0; reactions && i < (ptrdiff_t)cases * mounts; i++) {
        const double *const force = reactions + 6 * i;
        worst = fmax(worst, sqrt(force[0] * force[0] + force[1] * force[1] + force[2] * force[2]));
    }
    return worst;
}

static void start_row(int64_t number, trivet_variant *row)
{
    *row = (trivet_variant){.size = sizeof *row, .number = number};
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        row->used[line] = (double)NAN;
    }
    row->droop = row->mass = row->price = row->mount_force = (double)NAN;
}

/* Failures of the machine end a sweep; any other is a row with its reason. */
static int ends_sweep(trivet_status status)
{
    return status == TRIVET_NO_MEMORY || status == TRIVET_INTERNAL ||
           status == TRIVET_MISSING_ARGUMENT || status == TRIVET_BAD_SIZE;
}

static void fill_reason(const trivet_message *message, trivet_variant *row)
{
    const int has_both = message->thing[0] && message->problem[0];
    trivet__text_print(row->reason, sizeof row->reason, "%s%s%s", message->thing,
                       has_both ? ": " : "", message->problem);
}

static trivet_status end_row(const trivet__bench *bench, trivet_status status, trivet_variant *row)
{
    if (ends_sweep(status)) {
        return status;
    }
    row->outcome = status == TRIVET_OK            ? TRIVET_OUTCOME_CHECKED
                   : status == TRIVET_INTERRUPTED ? TRIVET_OUTCOME_SKIPPED
                                                  : TRIVET_OUTCOME_FAILED;
    if (status != TRIVET_OK) {
        fill_reason(&bench->message, row);
    }
    return TRIVET_OK;
}

/* The frame of a variant, its mass and price; the status of resolving it. */
static trivet_status weigh(trivet__bench *bench, int64_t number, trivet_variant *row)
{
    start_row(number, row);
    const trivet_status status = trivet__bench_resolve(bench, number);
    if (bench->document) {
        row->mass = trivet_frame_mass(trivet_document_frame(bench->document));
        row->price = trivet__price_of(bench->document);
    }
    return status;
}

trivet_status trivet__bench_weigh(trivet__bench *bench, int64_t number, trivet_variant *row_out)
{
    return end_row(bench, weigh(bench, number, row_out), row_out);
}

trivet_status trivet__bench_make(trivet__bench *bench, int64_t number, trivet_variant *row_out)
{
    trivet_status status = weigh(bench, number, row_out);
    if (status == TRIVET_OK) {
        status = solve(bench);
    }
    if (status == TRIVET_OK) {
        status = check(bench);
    }
    if (status == TRIVET_OK) {
        fill_verdicts(bench->checks, row_out);
        row_out->droop = worst_droop(trivet_document_frame(bench->document), bench->result);
        row_out->mount_force = worst_mount_force(bench->result);
    }
    return end_row(bench, status, row_out);
}

static int is_listed(const trivet__kind_row *rows, int32_t count, const char *check)
{
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(rows[i].check, check) == 0) {
            return 1;
        }
    }
    return 0;
}

/* Checks stand worst first within their line, and a kind belongs to one line. */
int32_t trivet__bench_kinds(const trivet__bench *bench, trivet__kind_row *rows_out)
{
    int32_t count = 0;
    trivet_check at = {.size = sizeof at};
    for (int32_t i = 0; i < trivet_checks_count(bench->checks); i++) {
        if (trivet_checks_at(bench->checks, i, &at) != TRIVET_OK ||
            is_listed(rows_out, count, at.check) || count == TRIVET__KINDS_MAX) {
            continue;
        }
        trivet__kind_row *const row = &rows_out[count++];
        trivet__text_copy(row->check, sizeof row->check, at.check);
        trivet__text_copy(row->where, sizeof row->where, at.where);
        trivet__text_copy(row->in_case, sizeof row->in_case, at.in_case);
        row->used = at.utilisation;
    }
    return count;
}
