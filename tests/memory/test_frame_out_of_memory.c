/*
 * Building, planning, solving, checking and copying a rack, with each request for memory failing in
 * turn.
 */
#include "every_request.h"
#include "rack.h"

#include <stddef.h>
#include <string.h>

/* Reads every check and its working, which must take no memory. */
static uint64_t read_checks(const trivet_checks *checks)
{
    uint64_t steps = 0;
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check;
        attempt_needs(trivet_check_defaults(&check, sizeof check) == TRIVET_OK &&
                          trivet_checks_at(checks, i, &check) == TRIVET_OK,
                      "a check cannot be read");
        steps += (uint64_t)check.step_count + 1;
    }
    attempt_needs(steps > 0, "there are no checks");
    return steps;
}

static uint64_t check_result(attempt *try, const trivet_frame *frame, const trivet_result *result)
{
    trivet_checks *checks = NULL;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_checks_new(frame, result, NULL, &checks, &try->message));
    attempt_needs((status == TRIVET_OK) == (checks != NULL), "half-made checks");
    const uint64_t print = status == TRIVET_OK ? rack_print_of(result) + read_checks(checks) : 0;
    trivet_checks_free(checks);
    return print;
}

static uint64_t in_steps(attempt *try)
{
    trivet_frame *frame = NULL;
    trivet_plan *plan = NULL;
    trivet_workspace *workspace = NULL;
    trivet_result *result = NULL;
    uint64_t print = 0;
    trivet_status status = rack_build(0.18, attempt_again, try, &frame, &try->message);
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_plan_new(frame, &plan, &try->message));
        attempt_needs((status == TRIVET_OK) == (plan != NULL), "half-made plan");
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_workspace_new(plan, &workspace, &try->message));
        attempt_needs((status == TRIVET_OK) == (workspace != NULL), "half-made workspace");
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_result_new(plan, &result, &try->message));
        attempt_needs((status == TRIVET_OK) == (result != NULL), "half-made result");
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_plan_solve(plan, frame, workspace, result, &try->message));
    }
    if (status == TRIVET_OK) {
        print = check_result(try, frame, result);
    }
    trivet_result_free(result);
    trivet_workspace_free(workspace);
    trivet_plan_free(plan);
    trivet_frame_free(frame);
    return print;
}

static uint64_t in_one_call(attempt *try)
{
    trivet_frame *frame = NULL;
    trivet_result *result = NULL;
    uint64_t print = 0;
    trivet_status status = rack_build(0.30, attempt_again, try, &frame, &try->message);
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_solve(frame, &result, &try->message));
        attempt_needs((status == TRIVET_OK) == (result != NULL), "half-made result");
    }
    if (status == TRIVET_OK) {
        print = check_result(try, frame, result);
    }
    trivet_result_free(result);
    trivet_frame_free(frame);
    return print;
}

/* More than the rack has: a second deck with a bolt, a mount's bolts, a weld, cycles. */
static trivet_status add_fastenings(attempt *try, trivet_frame *frame)
{
    static const int32_t joints[4] = {0, 1, 4, 5};
    trivet_bolts bolts;
    trivet_weld weld;
    trivet_cycles cycles;
    attempt_needs(trivet_bolts_defaults(&bolts, sizeof bolts) == TRIVET_OK &&
                      trivet_weld_defaults(&weld, sizeof weld) == TRIVET_OK &&
                      trivet_cycles_defaults(&cycles, sizeof cycles) == TRIVET_OK,
                  "there are no defaults");
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    cycles.to = 0;
    int32_t deck = -1;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_frame_add_deck(frame, "top", joints, 4, &deck, &try->message));
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_add_bolts(frame, &bolts, NULL, &try->message));
    }
    bolts.where_kind = TRIVET_KIND_DECK;
    bolts.where_index = deck;
    bolts.joint = 4;
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_add_bolts(frame, &bolts, NULL, &try->message));
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_set_weld(frame, 0, -1, &weld, &try->message));
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_add_cycles(frame, "bumps", &cycles, NULL, &try->message));
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_scale_cargo(frame, 0, 1.5, &try->message));
    }
    return status;
}

/* A vehicle, a story, a gap, and usages, which leave no trace behind when they are refused. */
static trivet_status add_usages(attempt *try, trivet_frame *frame)
{
    static const int32_t KINDS[] = {TRIVET_USAGE_ROAD, TRIVET_USAGE_LIFTED, TRIVET_USAGE_STANDING,
                                    TRIVET_USAGE_MISFIT, TRIVET_USAGE_GRAB};
    trivet_vehicle vehicle;
    attempt_needs(trivet_vehicle_defaults(&vehicle, sizeof vehicle) == TRIVET_OK,
                  "there are no defaults");
    vehicle.front_load = vehicle.rear_load = 90.0;
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet_frame_set_vehicle(frame, &vehicle, &try->message));
    if (status == TRIVET_OK) {
        ATTEMPT(
            try, status,
            trivet_frame_set_case_story(frame, 0, "it stands", "common practice", &try->message));
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_add_gap(frame, "usage", "say which", &try->message));
    }
    for (size_t i = 0; i < sizeof KINDS / sizeof KINDS[0] && status == TRIVET_OK; i++) {
        const int32_t cases = trivet_frame_count(frame, TRIVET_KIND_CASE);
        trivet_usage usage;
        attempt_needs(trivet_usage_of(&usage, sizeof usage, KINDS[i]) == TRIVET_OK,
                      "there are no numbers");
        do {
            status = trivet_frame_add_usage(frame, &usage, NULL, &try->message);
            attempt_needs(status == TRIVET_OK ||
                              (trivet_frame_count(frame, TRIVET_KIND_CASE) == cases &&
                               !trivet_frame_has_usage(frame, KINDS[i])),
                          "half of a usage was added");
        } while (status != TRIVET_OK && attempt_again(try, status));
    }
    return status;
}

static uint64_t in_a_copy(attempt *try)
{
    trivet_frame *frame = NULL;
    trivet_frame *copy = NULL;
    trivet_result *result = NULL;
    uint64_t print = 0;
    trivet_status status = rack_build(0.18, attempt_again, try, &frame, &try->message);
    if (status == TRIVET_OK) {
        status = add_fastenings(try, frame);
    }
    if (status == TRIVET_OK) {
        status = add_usages(try, frame);
    }
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_copy(frame, &copy, &try->message));
        attempt_needs((status == TRIVET_OK) == (copy != NULL), "half-made copy");
    }
    trivet_frame_free(frame);
    if (status == TRIVET_OK) {
        ATTEMPT(try, status, trivet_frame_solve(copy, &result, &try->message));
    }
    if (status == TRIVET_OK) {
        print = rack_print_of(result);
    }
    trivet_result_free(result);
    trivet_frame_free(copy);
    return print;
}

int main(void)
{
    attempt_every_request("plan, workspace, result", in_steps, 10);
    attempt_every_request("in one call", in_one_call, 10);
    attempt_every_request("copy", in_a_copy, 100);
    return 0;
}
