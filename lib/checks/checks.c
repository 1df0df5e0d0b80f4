/*
 * Making, sorting and reading the checks of a solved frame.
 *
 * Records and the numbers of their working are two lists that grow. A record that finds no room is
 * written to a spare one and dropped; the status kept in trivet__making says so once, at the end.
 */
#include "base/memory.h"
#include "base/message.h"
#include "checks/bounds.h"
#include "checks/check_record.h"
#include "checks/check_weld.h"
#include "checks/joint_shape.h"
#include "frame/frame.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* The next free record; the spare one if there is no room. */
static trivet__record *take_record(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    void *list = checks->records;
    if (making->status != TRIVET_OK ||
        !trivet__make_room(&list, (size_t)checks->count, &checks->capacity,
                           sizeof *checks->records)) {
        making->status = making->status != TRIVET_OK ? making->status : TRIVET_NO_MEMORY;
        return &making->spare;
    }
    checks->records = list;
    return &checks->records[checks->count++];
}

trivet__record *trivet__record_start(trivet__making *making, const trivet__check_kind *kind,
                                     int32_t index, int32_t in_case)
{
    trivet__record *const record = take_record(making);
    memset(record, 0, sizeof *record);
    record->check.size = sizeof record->check;
    record->kind = kind;
    record->check.check = kind->check;
    record->check.where = trivet_frame_name(making->frame, kind->where_kind, index);
    record->check.in_case =
        in_case < 0 ? "any case" : trivet_frame_column_name(making->frame, in_case);
    record->check.source = "";
    record->check.subject = kind->subject ? kind->subject : "";
    record->check.note = "";
    record->check.line = kind->line;
    record->check.where_kind = kind->where_kind;
    record->check.where_index = index;
    record->check.case_index = in_case < 0 ? -1 : in_case;
    record->check.is_ratio = kind->is_ratio;
    record->check.joint = -1;
    record->check.at = (double)NAN;
    return record;
}

void trivet__record_judge(trivet__making *making, trivet__record *record, int32_t dimension,
                          double demand, double limit)
{
    trivet_check *const check = &record->check;
    check->dimension = dimension;
    check->demand = demand;
    check->limit = limit;
    if (limit > 0.0) {
        check->utilisation = demand / limit;
    } else {
        check->utilisation = demand == 0.0 ? 0.0 : HUGE_VAL;
    }
    if (!(check->utilisation <= 1.0)) {
        check->verdict = check->line == TRIVET_LINE_CRACKING ? TRIVET_MAY_CRACK : TRIVET_FAILS;
    } else {
        check->verdict = check->utilisation <= making->limits.tight ? TRIVET_HOLDS : TRIVET_TIGHT;
    }
    if (record != &making->spare) {
        trivet__order_count(making->checks, record);
    }
}

/* Of the vehicle's checks and the rack's, those of lengths are fixed, masses change with cargo. */
int trivet__is_fixed(const trivet_check *check)
{
    return (check->where_kind != 0 || check->dimension == TRIVET_LENGTH) &&
           (strcmp(check->in_case, "any case") == 0 || strcmp(check->in_case, "tightening") == 0);
}

static int is_limit(double value)
{
    return isnan(value) || (value > 0.0 && value < HUGE_VAL);
}

static trivet_status refuse_limit(const char *name, double value, const char *remedy,
                                  trivet_message *message)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "", "", remedy);
    trivet__message_thing(message, "limits, %s", name);
    trivet__message_problem(message, "is %g", value);
    return TRIVET_BAD_VALUE;
}

/* Every limit within its range. */
static trivet_status check_limits(const trivet_limits *limits, trivet_message *message)
{
    const struct {
        const char *name;
        double value;
        const char *remedy;
    } factors[] = {
        {"yield", limits->yield, "give the factor of safety on yield, 1 or more"},
        {"loads", limits->loads, "give the factor on loads, 1 or more"},
        {"crack", limits->crack, "give the factor on stress that comes and goes, 1 or more"},
    };
    const struct {
        const char *name;
        double value;
    } rows[] = {{"droop", limits->droop},
                {"droop ratio", limits->droop_ratio},
                {"rack rating", limits->rack_rating}};
    for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++) {
        if (!(factors[i].value >= 1.0 && factors[i].value < HUGE_VAL)) {
            return refuse_limit(factors[i].name, factors[i].value, factors[i].remedy, message);
        }
    }
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (!is_limit(rows[i].value)) {
            return refuse_limit(rows[i].name, rows[i].value,
                                "give a number above 0, or leave it out", message);
        }
    }
    if (!(limits->tight > 0.0 && limits->tight <= 1.0)) {
        return refuse_limit("tight", limits->tight, "give a share above 0 and at most 1", message);
    }
    if (limits->bolt_rule < TRIVET_BOLTS_EN || limits->bolt_rule > TRIVET_BOLTS_AISC) {
        return refuse_limit("bolt rule", limits->bolt_rule, "use one of trivet_bolt_rule", message);
    }
    if (limits->weld_rule < TRIVET_WELDS_DIRECTIONAL || limits->weld_rule > TRIVET_WELDS_AISC) {
        return refuse_limit("weld rule", limits->weld_rule, "use one of trivet_weld_rule", message);
    }
    return TRIVET_OK;
}

static trivet_status read_limits(const trivet_limits *limits, trivet_limits *out,
                                 trivet_message *message)
{
    if (trivet_limits_defaults(out, limits ? limits->size : sizeof *out) != TRIVET_OK) {
        return trivet__refuse(message, TRIVET_BAD_SIZE, "limits",
                              "have a size this library never had",
                              "fill them with trivet_limits_defaults");
    }
    if (limits) {
        memcpy(out, limits, out->size);
    }
    return check_limits(out, message);
}

int32_t trivet__joint_limit_count(const trivet_frame *frame)
{
    int32_t count = 0;
    for (int32_t joint = 0; joint < trivet_frame_count(frame, TRIVET_KIND_JOINT); joint++) {
        count += !isnan(trivet_frame_droop_limit(frame, joint));
    }
    return count;
}

static void empty(trivet_checks *checks)
{
    checks->count = 0;
    checks->value_count = 0;
    checks->omission_count = 0;
    memset(checks->line_count, 0, sizeof checks->line_count);
}

/* All checks, one kind after the other. */
static trivet_status make_checks(trivet__making *making)
{
    trivet_status (*const kinds[])(trivet__making *) = {
        trivet__check_yield,  trivet__check_mounts,  trivet__check_bolts, trivet__check_threads,
        trivet__check_walls,  trivet__check_spacers, trivet__check_welds, trivet__check_faces,
        trivet__check_cracks, trivet__check_droop,   trivet__check_sag,   trivet__check_vehicle,
        trivet__omit_always,
    };
    empty(making->checks);
    if (!trivet__around_find(making) || !trivet__meetings_find(making) ||
        !trivet__stress_bounds_find(making) || !trivet__stocks_note(making) ||
        !trivet__welds_prepare(making) || (making->is_worst_only && !trivet__bounds_find(making))) {
        return TRIVET_NO_MEMORY;
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const trivet_status status = kinds[i](making);
        if (status != TRIVET_OK || making->status != TRIVET_OK) {
            return status != TRIVET_OK ? status : making->status;
        }
    }
    if (making->is_worst_only) {
        trivet__order_keep_worst(making->checks);
    }
    return trivet__order_make_room(making->checks) ? TRIVET_OK : TRIVET_NO_MEMORY;
}

/* Whether a result has as many of everything as the frame. */
static int fits(const trivet_frame *frame, const trivet_result *result)
{
    int32_t joints = 0;
    int32_t mounts = 0;
    int32_t last_spans = 0;
    (void)trivet_result_moves(result, NULL, &joints);
    (void)trivet_result_reactions(result, NULL, &mounts);
    (void)trivet_result_tube_spans(result, frame->tube_count - 1, &last_spans);
    return joints == frame->joint_count && mounts == frame->mount_count && last_spans > 0 &&
           trivet_result_tube_spans(result, frame->tube_count, NULL) < 0 &&
           trivet_result_case_count(result) == frame->case_count + frame->combination_count;
}

static trivet_status refuse_order(trivet_status status, trivet_message *message)
{
    return trivet__refuse(message, status, "checks", "could not be made",
                          "hand in the frame that was solved, unchanged since");
}

/* Makes all, or the worst of each line. */
static trivet_status make_again(trivet_checks *checks, const trivet_frame *frame,
                                const trivet_result *result, const trivet_limits *limits,
                                int is_worst_only, trivet_message *message)
{
    if (!checks || !frame || !result) {
        return trivet__missing(message, !checks ? "checks" : frame ? "result" : "frame");
    }
    if (!trivet_result_moves(result, NULL, NULL)) {
        return trivet__refuse(message, TRIVET_BAD_ORDER, "result", "is not solved",
                              "solve the frame first");
    }
    trivet__making making;
    making.frame = frame;
    making.result = result;
    making.span_ends = trivet_result_span_ends(result, &making.columns, &making.span_count);
    making.reactions = trivet_result_reactions(result, NULL, NULL);
    making.checks = checks;
    making.is_worst_only = is_worst_only;
    memset(making.floor, 0, sizeof making.floor);
    making.status = TRIVET_OK;
    trivet_status status = read_limits(limits, &making.limits, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!fits(frame, result)) {
        return refuse_order(TRIVET_BAD_ORDER, message);
    }
    status = make_checks(&making);
    if (status == TRIVET_OK) {
        return TRIVET_OK;
    }
    empty(checks);
    return status == TRIVET_NO_MEMORY ? trivet__no_memory(message) : refuse_order(status, message);
}

trivet_status trivet_checks_again(trivet_checks *checks, const trivet_frame *frame,
                                  const trivet_result *result, const trivet_limits *limits,
                                  trivet_message *message)
{
    return make_again(checks, frame, result, limits, 0, message);
}

trivet_status trivet_checks_worst_again(trivet_checks *checks, const trivet_frame *frame,
                                        const trivet_result *result, const trivet_limits *limits,
                                        trivet_message *message)
{
    return make_again(checks, frame, result, limits, 1, message);
}

trivet_status trivet_checks_new(const trivet_frame *frame, const trivet_result *result,
                                const trivet_limits *limits, trivet_checks **checks_out,
                                trivet_message *message)
{
    if (!checks_out) {
        return trivet__missing(message, "checks_out");
    }
    *checks_out = NULL;
    trivet_checks *const made = trivet__take(1, sizeof *made);
    if (!made) {
        return trivet__no_memory(message);
    }
    const trivet_status status = trivet_checks_again(made, frame, result, limits, message);
    if (status == TRIVET_OK) {
        *checks_out = made;
    } else {
        trivet_checks_free(made);
    }
    return status;
}

void trivet_checks_free(trivet_checks *checks)
{
    if (checks) {
        trivet__give_back(checks->records);
        trivet__give_back(checks->order ? checks->order->ranks : NULL);
        trivet__give_back(checks->order);
        trivet__give_back(checks->values);
        trivet__give_back(checks->omissions);
        trivet__around_free(&checks->around);
        trivet__give_back(checks->stress_bounds);
        trivet__give_back(checks->stocks);
        trivet__give_back(checks->welds);
        trivet__give_back(checks->faces);
        trivet__give_back(checks->cracks);
        trivet__give_back(checks->bounds);
        trivet__give_back(checks->sizes);
        trivet__give_back(checks);
    }
}

int32_t trivet_checks_count(const trivet_checks *checks)
{
    return checks ? checks->count : 0;
}

/* As far as the caller's check goes. */
static void copy_check(const trivet__record *record, trivet_check *check_out)
{
    const size_t size = check_out->size;
    memcpy(check_out, &record->check, size);
    check_out->size = size;
}

static int is_line(int32_t line)
{
    return line >= 0 && line < TRIVET_LINE_COUNT;
}

trivet_status trivet_checks_at(const trivet_checks *checks, int32_t index, trivet_check *check_out)
{
    if (!checks || !check_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    trivet_check filled;
    if (trivet_check_defaults(&filled, check_out->size) != TRIVET_OK) {
        return TRIVET_BAD_SIZE;
    }
    if (index < 0 || index >= checks->count) {
        return TRIVET_BAD_INDEX;
    }
    copy_check(trivet__checks_record(checks, index), check_out);
    return TRIVET_OK;
}

trivet_status trivet_checks_worst(const trivet_checks *checks, int32_t line,
                                  trivet_check *worst_out)
{
    trivet_check filled;
    if (!checks || !worst_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (trivet_check_defaults(&filled, worst_out->size) != TRIVET_OK) {
        return TRIVET_BAD_SIZE;
    }
    if (!is_line(line) || checks->line_count[line] == 0) {
        return TRIVET_BAD_INDEX;
    }
    copy_check(&checks->records[checks->worst[line]], worst_out);
    return TRIVET_OK;
}

int32_t trivet_checks_verdict(const trivet_checks *checks, int32_t line, int32_t *worst_out)
{
    const int is_there = checks && is_line(line) && checks->line_count[line] > 0;
    int32_t first = 0;
    for (int32_t before = 0; is_there && before < line; before++) {
        first += checks->line_count[before];
    }
    if (worst_out) {
        *worst_out = is_there ? first : -1;
    }
    return is_there ? checks->records[checks->worst[line]].check.verdict : TRIVET_NOT_CHECKED;
}

int32_t trivet_checks_overall(const trivet_checks *checks)
{
    int32_t overall = TRIVET_NOT_CHECKED;
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        const int32_t verdict = trivet_checks_verdict(checks, line, NULL);
        overall = verdict > overall ? verdict : overall;
    }
    return overall;
}

int32_t trivet_checks_omission_count(const trivet_checks *checks)
{
    return checks ? checks->omission_count : 0;
}
