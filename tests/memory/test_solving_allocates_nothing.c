/*
 * After plan, workspace and result exist, solving takes no memory: not for any case, not for
 * variants of the same topology, not when the frame is refused.
 */
#include "failing_heap.h"
#include "rack.h"

#include <stdio.h>
#include <stdlib.h>

static void stop_unless(int holds, const char *what, const trivet_message *message)
{
    if (!holds) {
        fprintf(stderr, "%s: %s: %s\n", what, message->thing, message->problem);
        exit(1);
    }
}

/* Solves and returns the status; ends the program if that took memory. */
static trivet_status solve_counted(const char *what, const trivet_plan *plan,
                                   const trivet_frame *frame, trivet_workspace *workspace,
                                   trivet_result *result, trivet_message *message)
{
    heap_start(0);
    const trivet_status status = trivet_plan_solve(plan, frame, workspace, result, message);
    if (heap_requests() != 0) {
        fprintf(stderr, "%s: %ld requests for memory while solving, wanted none\n", what,
                heap_requests());
        exit(1);
    }
    return status;
}

typedef struct solver {
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
} solver;

static solver make_solver(const trivet_frame *frame)
{
    solver made = {NULL, NULL, NULL};
    trivet_message message = {0};
    heap_start(0);
    stop_unless(trivet_plan_new(frame, &made.plan, &message) == TRIVET_OK, "plan", &message);
    stop_unless(trivet_workspace_new(made.plan, &made.workspace, &message) == TRIVET_OK,
                "workspace", &message);
    stop_unless(trivet_result_new(made.plan, &made.result, &message) == TRIVET_OK, "result",
                &message);
    if (heap_requests() < 3) {
        fputs("hardly any request was counted: the counting heap is not linked in\n", stderr);
        exit(1);
    }
    return made;
}

static void free_solver(const solver *made)
{
    trivet_result_free(made->result);
    trivet_workspace_free(made->workspace);
    trivet_plan_free(made->plan);
}

static void rack_and_its_variants(void)
{
    trivet_frame *frame = NULL;
    trivet_message message = {0};
    stop_unless(rack_build(0.18, NULL, NULL, &frame, &message) == TRIVET_OK, "rack", &message);
    const solver made = make_solver(frame);
    for (int variant = 0; variant < 5; variant++) {
        const double x = -0.42 - 0.05 * variant;
        const double left[3] = {x, 0.16, 0.0};
        const double right[3] = {x, -0.16, 0.0};
        stop_unless(trivet_frame_set_position(frame, 4, left, &message) == TRIVET_OK &&
                        trivet_frame_set_position(frame, 5, right, &message) == TRIVET_OK,
                    "moving the joints", &message);
        const trivet_status status =
            solve_counted("rack", made.plan, frame, made.workspace, made.result, &message);
        stop_unless(status == TRIVET_OK, "solving the rack", &message);
    }
    free_solver(&made);
    trivet_frame_free(frame);
}

/* One tube with a mount that holds it up and lets it swing and slide. */
static void frame_that_moves_freely(void)
{
    static const double positions[2][3] = {{0.0, 0.0, 0.0}, {0.5, 0.0, 0.0}};
    static const double down[3] = {0.0, 0.0, -1.0};
    static const int32_t joints[2] = {0, 1};
    trivet_frame *frame = NULL;
    trivet_message message = {0};
    trivet_profile bar;
    trivet_material steel;
    trivet_mount mount;
    int fine = trivet_frame_new(&frame, &message) == TRIVET_OK &&
               trivet_profile_defaults(&bar, sizeof bar) == TRIVET_OK &&
               trivet_material_find("S235", NULL, NULL) == TRIVET_MISSING_ARGUMENT &&
               trivet_material_defaults(&steel, sizeof steel) == TRIVET_OK &&
               trivet_material_find("S235", &steel, &message) == TRIVET_OK &&
               trivet_mount_defaults(&mount, sizeof mount) == TRIVET_OK;
    stop_unless(fine, "making ready", &message);
    bar.shape = TRIVET_SHAPE_ROUND_BAR;
    bar.diameter = 0.02;
    mount.joint = 0;
    mount.held = TRIVET_Z;
    fine = trivet_frame_add_joint(frame, "A", positions[0], NULL, &message) == TRIVET_OK &&
           trivet_frame_add_joint(frame, "B", positions[1], NULL, &message) == TRIVET_OK &&
           trivet_frame_add_stock(frame, "bar", &bar, &steel, NULL, &message) == TRIVET_OK &&
           trivet_frame_add_tube(frame, "tube", joints, 2, 0, 0.0, NULL, &message) == TRIVET_OK &&
           trivet_frame_add_mount(frame, &mount, NULL, &message) == TRIVET_OK &&
           trivet_frame_add_case(frame, "parked", down, NULL, &message) == TRIVET_OK;
    stop_unless(fine, "building", &message);
    const solver made = make_solver(frame);
    const trivet_status status = solve_counted("frame that moves freely", made.plan, frame,
                                               made.workspace, made.result, &message);
    stop_unless(status == TRIVET_MOVES_FREELY, "a frame that swings is refused", &message);
    free_solver(&made);
    trivet_frame_free(frame);
}

int main(void)
{
    rack_and_its_variants();
    frame_that_moves_freely();
    return 0;
}
