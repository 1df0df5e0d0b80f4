/*
 * Hand calculations held against a result.
 */
#include "base/defaults.h"
#include "base/message.h"
#include "document/record.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const double down[3] = {0.0, 0.0, -1.0};

trivet_status trivet_expectation_defaults(trivet_expectation *expectation, size_t size)
{
    const trivet_status status = trivet__defaults(expectation, size, sizeof *expectation);
    if (status == TRIVET_OK) {
        expectation->what = "";
        expectation->where = "";
        expectation->in_case = "";
        expectation->by = "";
    }
    return status;
}

/* The span of a tube that holds a place, and how far into it. */
static int32_t find_span(const trivet_result *result, int32_t tube, double from, double *into)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, tube, &count);
    for (int32_t span = first; span < first + count; span++) {
        trivet_span about;
        if (trivet_span_defaults(&about, sizeof about) ||
            trivet_result_span(result, span, &about)) {
            return -1;
        }
        const int is_last = span == first + count - 1;
        if (from < about.start + about.length || is_last) {
            const double rest = from - about.start;
            *into = rest < 0.0 ? 0.0 : rest > about.length ? about.length : rest;
            return span;
        }
    }
    return -1;
}

/* Movement or force inside at a place along a tube; NaN if it cannot be told. */
static double at_place(const trivet_result *result, const trivet__expect *expect)
{
    double forces[6];
    double moves[6];
    double into = 0.0;
    const int32_t span = find_span(result, expect->where_index, expect->from, &into);
    if (span < 0 || trivet_result_at(result, expect->result_column, span, into, forces, moves)) {
        return (double)NAN;
    }
    if (expect->kind == TRIVET__EXPECT_INSIDE) {
        return forces[expect->component];
    }
    return expect->kind == TRIVET__EXPECT_DROOP ? -moves[2] : moves[expect->component];
}

/* The largest droop along a tube. */
static double most_droop(const trivet_result *result, const trivet__expect *expect)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, expect->where_index, &count);
    double most = (double)NAN;
    for (int32_t span = first; span < first + count; span++) {
        trivet_extreme extreme;
        if (trivet_result_extreme_move(result, expect->result_column, span, down, &extreme)) {
            return (double)NAN;
        }
        most = isnan(most) || extreme.most > most ? extreme.most : most;
    }
    return most;
}

/* The largest size of a force or moment along a tube. */
static double most_inside(const trivet_result *result, const trivet__expect *expect)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, expect->where_index, &count);
    double most = (double)NAN;
    for (int32_t span = first; span < first + count; span++) {
        trivet_extreme extremes[6];
        if (trivet_result_extremes(result, expect->result_column, span, extremes)) {
            return (double)NAN;
        }
        const trivet_extreme *const of = &extremes[expect->component];
        const double size = fmax(fabs(of->least), fabs(of->most));
        most = isnan(most) || size > most ? size : most;
    }
    return most;
}

/* The check of that name, place and case. */
static double of_check(const trivet_checks *checks, const trivet__expect *expect)
{
    const int32_t count = trivet_checks_count(checks);
    for (int32_t i = 0; i < count; i++) {
        trivet_check check;
        if (trivet_check_defaults(&check, sizeof check) || trivet_checks_at(checks, i, &check)) {
            return (double)NAN;
        }
        if (check.case_index == expect->result_column && check.where_kind == expect->where_kind &&
            check.where_index == expect->where_index && strcmp(check.check, expect->check) == 0) {
            return expect->kind == TRIVET__EXPECT_STRESS ? check.demand : check.utilisation;
        }
    }
    return (double)NAN;
}

/* One number of values [case][count][6]; NaN if they are NULL. */
static double pick(const double *values, int32_t count, const trivet__expect *expect)
{
    const size_t row = (size_t)expect->result_column * (size_t)count + (size_t)expect->where_index;
    return values ? values[6 * row + (size_t)expect->component] : (double)NAN;
}

static double of_joint(const trivet_result *result, const trivet__expect *expect)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(result, NULL, &joint_count);
    const double move = pick(moves, joint_count, expect);
    return expect->kind == TRIVET__EXPECT_DROOP ? -move : move;
}

static double of_mount(const trivet_result *result, const trivet__expect *expect)
{
    int32_t mount_count = 0;
    const double *const reactions = trivet_result_reactions(result, NULL, &mount_count);
    return pick(reactions, mount_count, expect);
}

static double compute(const trivet_document *document, const trivet_result *result,
                      const trivet_checks *checks, const trivet__expect *expect)
{
    const int is_tube = expect->where_kind == TRIVET_KIND_TUBE;
    switch (expect->kind) {
    case TRIVET__EXPECT_DROOP:
    case TRIVET__EXPECT_MOVE:
        if (!is_tube) {
            return of_joint(result, expect);
        }
        return isnan(expect->from) ? most_droop(result, expect) : at_place(result, expect);
    case TRIVET__EXPECT_REACTION:
        return of_mount(result, expect);
    case TRIVET__EXPECT_INSIDE:
        return isnan(expect->from) ? most_inside(result, expect) : at_place(result, expect);
    case TRIVET__EXPECT_MASS:
        return trivet_frame_mass(document->frame);
    default:
        return of_check(checks, expect);
    }
}

trivet_status trivet_document_expect(const trivet_document *document, const trivet_result *result,
                                     const trivet_checks *checks, int32_t index,
                                     trivet_expectation *expectation_out, trivet_message *message)
{
    if (!document || !result || !checks || !expectation_out) {
        return trivet__missing(message, !document ? "document"
                                        : !result ? "result"
                                        : !checks ? "checks"
                                                  : "expectation_out");
    }
    if (expectation_out->size != sizeof *expectation_out) {
        return trivet__refuse(message, TRIVET_BAD_SIZE, "expectation",
                              "has a size this library never had",
                              "fill it with trivet_expectation_defaults");
    }
    const trivet__expect *const expect = trivet__expect_at(document, index);
    if (!expect) {
        const trivet_status status = trivet__refuse(message, TRIVET_BAD_INDEX, "", "",
                                                    "count from 0 in the order of the file");
        trivet__message_thing(message, "expectation number %d", (int)index);
        trivet__message_problem(message, "there are %d of them",
                                (int)trivet_document_expectation_count(document));
        return status;
    }
    if (!trivet_result_moves(result, NULL, NULL)) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved yet",
                              "solve the frame first");
    }
    const double computed = compute(document, result, checks, expect);
    const char *const where =
        trivet_frame_name(document->frame, expect->where_kind, expect->where_index);
    const char *const in_case = trivet_frame_column_name(document->frame, expect->result_column);
    expectation_out->what = expect->what;
    expectation_out->where = where ? where : "";
    expectation_out->in_case = in_case ? in_case : "";
    expectation_out->by = expect->by;
    expectation_out->dimension = expect->dimension;
    expectation_out->by_hand = expect->value;
    expectation_out->computed = computed;
    expectation_out->difference =
        expect->value != 0.0 ? computed / expect->value - 1.0 : computed - expect->value;
    expectation_out->within = expect->within;
    expectation_out->agrees = fabs(expectation_out->difference) <= expect->within ? 1 : 0;
    return TRIVET_OK;
}
