/*
 * Checks made again into the same handle take no memory once it has held as many; a request that
 * fails leaves a handle without checks that the next call fills.
 */
#include "failing_heap.h"
#include "rack.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop_unless(int holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "%s\n", what);
        exit(1);
    }
}

typedef struct solver {
    trivet_frame *frame;
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
} solver;

static solver make_solver(void)
{
    solver made = {NULL, NULL, NULL, NULL};
    stop_unless(rack_build(0.18, NULL, NULL, &made.frame, NULL) == TRIVET_OK &&
                    trivet_plan_new(made.frame, &made.plan, NULL) == TRIVET_OK &&
                    trivet_workspace_new(made.plan, &made.workspace, NULL) == TRIVET_OK &&
                    trivet_result_new(made.plan, &made.result, NULL) == TRIVET_OK,
                "the rack could not be made ready");
    return made;
}

static void free_solver(const solver *made)
{
    trivet_result_free(made->result);
    trivet_workspace_free(made->workspace);
    trivet_plan_free(made->plan);
    trivet_frame_free(made->frame);
}

/* Variant 0, 1, 2 ...: the back farther out and higher up, walls thicker, other welds. */
static void solve_variant(const solver *of, int variant)
{
    const double x = -0.42 - 0.03 * variant;
    const double left[3] = {x, 0.16, 0.0};
    const double right[3] = {x, -0.16, 0.0};
    trivet_profile profile = *trivet_frame_profile(of->frame, 1);
    const trivet_material material = *trivet_frame_material(of->frame, 1);
    trivet_weld weld;
    profile.wall = 0.002 + 0.0001 * variant;
    stop_unless(trivet_weld_defaults(&weld, sizeof weld) == TRIVET_OK, "weld");
    weld.run = 1.0 - 0.1 * (variant % 3);
    stop_unless(trivet_frame_set_position(of->frame, 4, left, NULL) == TRIVET_OK &&
                    trivet_frame_set_position(of->frame, 5, right, NULL) == TRIVET_OK &&
                    trivet_frame_set_stock(of->frame, 1, &profile, &material, NULL) == TRIVET_OK &&
                    trivet_frame_set_weld(of->frame, 2, -1, &weld, NULL) == TRIVET_OK &&
                    trivet_plan_solve(of->plan, of->frame, of->workspace, of->result, NULL) ==
                        TRIVET_OK,
                "a variant could not be solved");
}

/* Everything that a sweep asks of a variant, and the list of all. */
static void ask(const trivet_checks *checks)
{
    trivet_check check = {.size = sizeof check};
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        (void)trivet_checks_worst(checks, line, &check);
        (void)trivet_checks_verdict(checks, line, NULL);
    }
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        stop_unless(trivet_checks_at(checks, i, &check) == TRIVET_OK, "a check is not there");
    }
    for (int32_t i = 0; i < trivet_checks_omission_count(checks); i++) {
        stop_unless(trivet_checks_omission(checks, i, NULL, NULL) != NULL, "nothing omitted");
    }
}

/* The call under test: all checks, or the worst of each line. */
typedef trivet_status make_again(trivet_checks *checks, const trivet_frame *frame,
                                 const trivet_result *result, const trivet_limits *limits,
                                 trivet_message *message);

static void variants_take_no_memory(const char *name, make_again *again)
{
    const solver of = make_solver();
    trivet_checks *checks = NULL;
    trivet_limits limits;
    stop_unless(trivet_limits_defaults(&limits, sizeof limits) == TRIVET_OK, "limits");
    limits.droop = 0.004;
    limits.droop_ratio = 0.005;
    solve_variant(&of, 0);
    heap_start(0);
    stop_unless(trivet_checks_new(of.frame, of.result, &limits, &checks, NULL) == TRIVET_OK &&
                    again(checks, of.frame, of.result, &limits, NULL) == TRIVET_OK,
                "the checks could not be made");
    stop_unless(heap_requests() > 3, "hardly any request was counted: is the heap linked in?");
    for (int variant = 0; variant < 6; variant++) {
        solve_variant(&of, variant);
        heap_start(0);
        const trivet_status status = again(checks, of.frame, of.result, &limits, NULL);
        ask(checks);
        stop_unless(status == TRIVET_OK, "the checks could not be made again");
        if (heap_requests() != 0) {
            fprintf(stderr, "%s: %ld requests for memory, wanted none\n", name, heap_requests());
            exit(1);
        }
    }
    trivet_checks_free(checks);
    free_solver(&of);
}

/* All bits of all checks. */
static uint64_t print_of(const trivet_checks *checks)
{
    uint64_t print = 14695981039346656037U;
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        (void)trivet_checks_at(checks, i, &check);
        const double values[3] = {check.demand, check.limit, check.utilisation};
        const unsigned char *const bytes = (const unsigned char *)values;
        for (size_t k = 0; k < sizeof values; k++) {
            print = (print ^ bytes[k]) * 1099511628211U;
        }
    }
    return print + (uint64_t)trivet_checks_omission_count(checks);
}

/* A handle that has held the checks of a single tube only. */
static trivet_checks *small_handle(void)
{
    static const double places[2][3] = {{0.0, 0.0, 0.0}, {0.5, 0.0, 0.0}};
    static const double down[3] = {0.0, 0.0, -1.0};
    static const int32_t joints[2] = {0, 1};
    trivet_frame *frame = NULL;
    trivet_result *result = NULL;
    trivet_checks *checks = NULL;
    trivet_profile bar;
    trivet_material steel;
    trivet_mount mount;
    int fine = trivet_frame_new(&frame, NULL) == TRIVET_OK &&
               trivet_profile_defaults(&bar, sizeof bar) == TRIVET_OK &&
               trivet_material_defaults(&steel, sizeof steel) == TRIVET_OK &&
               trivet_material_find("S235", &steel, NULL) == TRIVET_OK &&
               trivet_mount_defaults(&mount, sizeof mount) == TRIVET_OK;
    stop_unless(fine, "making ready");
    bar.shape = TRIVET_SHAPE_ROUND_BAR;
    bar.diameter = 0.02;
    mount.joint = 0;
    mount.held = TRIVET_ALL;
    fine = trivet_frame_add_joint(frame, "A", places[0], NULL, NULL) == TRIVET_OK &&
           trivet_frame_add_joint(frame, "B", places[1], NULL, NULL) == TRIVET_OK &&
           trivet_frame_add_stock(frame, "bar", &bar, &steel, NULL, NULL) == TRIVET_OK &&
           trivet_frame_add_tube(frame, "tube", joints, 2, 0, 0.0, NULL, NULL) == TRIVET_OK &&
           trivet_frame_add_mount(frame, &mount, NULL, NULL) == TRIVET_OK &&
           trivet_frame_add_case(frame, "parked", down, NULL, NULL) == TRIVET_OK &&
           trivet_frame_solve(frame, &result, NULL) == TRIVET_OK &&
           trivet_checks_new(frame, result, NULL, &checks, NULL) == TRIVET_OK;
    stop_unless(fine, "a tube could not be checked");
    trivet_result_free(result);
    trivet_frame_free(frame);
    return checks;
}

/* The 1st, 2nd, 3rd ... request fails until one call gets through. */
static void every_request_fails_once(make_again *again)
{
    const solver of = make_solver();
    trivet_checks *wanted = small_handle();
    long failed = 0;
    solve_variant(&of, 1);
    heap_start(0);
    stop_unless(again(wanted, of.frame, of.result, NULL, NULL) == TRIVET_OK, "the checks");
    for (long n = 1;; n++) {
        trivet_checks *const checks = small_handle();
        trivet_message message = {0};
        heap_start(n);
        const trivet_status status = again(checks, of.frame, of.result, NULL, &message);
        if (heap_failed()) {
            failed++;
            stop_unless(status == TRIVET_NO_MEMORY && message.status == TRIVET_NO_MEMORY,
                        "a failed request was not told");
            stop_unless(trivet_checks_count(checks) == 0 &&
                            trivet_checks_omission_count(checks) == 0 &&
                            trivet_checks_overall(checks) == TRIVET_NOT_CHECKED,
                        "the handle holds something half made");
            ask(checks);
            stop_unless(again(checks, of.frame, of.result, NULL, NULL) == TRIVET_OK,
                        "the handle is of no use any more");
        }
        stop_unless(print_of(checks) == print_of(wanted), "other checks after a failure");
        const int is_through = !heap_failed();
        heap_start(0);
        trivet_checks_free(checks);
        if (is_through) {
            break;
        }
    }
    stop_unless(failed > 5, "hardly any request failed");
    printf("%ld requests failed in turn\n", failed);
    trivet_checks_free(wanted);
    free_solver(&of);
}

int main(void)
{
    variants_take_no_memory("all checks", trivet_checks_again);
    variants_take_no_memory("the worst", trivet_checks_worst_again);
    every_request_fails_once(trivet_checks_again);
    every_request_fails_once(trivet_checks_worst_again);
    return 0;
}
