/*
 * From plain data to a frame.
 */
#include "support/frame_plan.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

frame_plan *plan_copy(const frame_plan *plan)
{
    frame_plan *const copy = malloc(sizeof *copy);
    ck_assert_ptr_nonnull(copy);
    *copy = *plan;
    return copy;
}

static void must_build(const frame_plan *plan, trivet_status status, const trivet_message *message)
{
    char text[512];
    trivet_message_text(message, text, sizeof text);
    ck_assert_msg(status == TRIVET_OK, "seed %llu: %s (%s)", (unsigned long long)plan->seed,
                  trivet_status_text((int32_t)status), text);
}

static void copy_numbers(const int *from, int count, int32_t *into)
{
    for (int i = 0; i < count; i++) {
        into[i] = from[i];
    }
}

static void build_tube(const frame_plan *plan, const plan_tube *tube, trivet_frame *frame)
{
    trivet_message message = {0};
    int32_t joints[PLAN_TUBE_JOINTS];
    int32_t added = -1;
    copy_numbers(tube->joints, tube->joint_count, joints);
    must_build(plan,
               trivet_frame_add_tube(frame, tube->name, joints, tube->joint_count, tube->stock,
                                     tube->roll, &added, &message),
               &message);
    const int32_t last = joints[tube->joint_count - 1];
    must_build(plan, trivet_frame_set_free_end(frame, added, joints[0], tube->free_first, &message),
               &message);
    must_build(plan, trivet_frame_set_free_end(frame, added, last, tube->free_last, &message),
               &message);
    for (int i = 0; i < tube->joint_count; i++) {
        must_build(plan,
                   trivet_frame_set_offset(frame, added, joints[i], tube->offsets[i], &message),
                   &message);
    }
    for (int i = 0; i < tube->insert_count; i++) {
        const plan_insert *const insert = &tube->inserts[i];
        must_build(plan,
                   trivet_frame_add_insert(frame, added, joints[insert->position], insert->length,
                                           insert->stock, insert->bond, &message),
                   &message);
    }
}

static void build_cargo(const frame_plan *plan, const plan_cargo *cargo, trivet_frame *frame)
{
    trivet_message message = {0};
    int32_t joints[PLAN_CARGO_JOINTS];
    int32_t added = -1;
    copy_numbers(cargo->joints, cargo->joint_count, joints);
    must_build(plan,
               trivet_frame_add_cargo(frame, cargo->name, cargo->centre, joints, cargo->joint_count,
                                      cargo->grip, &added, &message),
               &message);
    must_build(plan, trivet_frame_add_item(frame, added, "box", cargo->box, &message), &message);
    must_build(plan, trivet_frame_add_item(frame, added, "contents", cargo->contents, &message),
               &message);
}

static void build_loads(const frame_plan *plan, const plan_case *from, int32_t into,
                        trivet_frame *frame)
{
    trivet_message message = {0};
    for (int i = 0; i < from->joint_force_count; i++) {
        const plan_force *const load = &from->joint_forces[i];
        must_build(plan,
                   trivet_frame_add_joint_force(frame, into, load->on, load->force, load->moment,
                                                &message),
                   &message);
    }
    for (int i = 0; i < from->cargo_force_count; i++) {
        const plan_force *const load = &from->cargo_forces[i];
        must_build(plan,
                   trivet_frame_add_cargo_force(frame, into, load->on, load->force, load->moment,
                                                load->at, &message),
                   &message);
    }
    for (int i = 0; i < from->tube_force_count; i++) {
        const plan_force *const load = &from->tube_forces[i];
        must_build(plan,
                   trivet_frame_add_tube_force(frame, into, load->on, load->at[0], load->force,
                                               load->moment, load->axes, &message),
                   &message);
    }
    for (int i = 0; i < from->line_count; i++) {
        const plan_line *const load = &from->lines[i];
        must_build(plan,
                   trivet_frame_add_tube_line(frame, into, load->tube, load->from, load->to,
                                              load->first, load->last, load->axes, &message),
                   &message);
    }
}

static void build_case(const frame_plan *plan, const plan_case *from, trivet_frame *frame)
{
    trivet_message message = {0};
    int32_t added = -1;
    must_build(plan, trivet_frame_add_case(frame, from->name, from->gravity, &added, &message),
               &message);
    must_build(plan, trivet_frame_set_warm(frame, added, from->warm, &message), &message);
    for (int i = 0; i < plan->cargo_count; i++) {
        must_build(plan,
                   trivet_frame_set_cargo_factor(frame, added, i, from->cargo_factors[i], &message),
                   &message);
    }
    for (int i = 0; i < plan->mount_count; i++) {
        must_build(plan,
                   trivet_frame_set_mount_move(frame, added, i, from->mount_moves[i], &message),
                   &message);
    }
    build_loads(plan, from, added, frame);
}

trivet_frame *plan_build(const frame_plan *plan)
{
    trivet_frame *frame = NULL;
    trivet_message message = {0};
    must_build(plan, trivet_frame_new(&frame, &message), &message);
    for (int i = 0; i < plan->joint_count; i++) {
        const plan_joint *const joint = &plan->joints[i];
        must_build(plan,
                   trivet_frame_add_joint(frame, joint->name, joint->position, NULL, &message),
                   &message);
    }
    for (int i = 0; i < plan->stock_count; i++) {
        const plan_stock *const stock = &plan->stocks[i];
        must_build(plan,
                   trivet_frame_add_stock(frame, stock->name, &stock->profile, &stock->material,
                                          NULL, &message),
                   &message);
    }
    for (int i = 0; i < plan->tube_count; i++) {
        build_tube(plan, &plan->tubes[i], frame);
    }
    for (int i = 0; i < plan->mount_count; i++) {
        must_build(plan, trivet_frame_add_mount(frame, &plan->mounts[i], NULL, &message), &message);
    }
    for (int i = 0; i < plan->cargo_count; i++) {
        build_cargo(plan, &plan->cargos[i], frame);
    }
    int32_t cases[PLAN_CASES];
    for (int i = 0; i < plan->case_count; i++) {
        build_case(plan, &plan->cases[i], frame);
        cases[i] = i;
    }
    if (plan->has_combination) {
        must_build(plan,
                   trivet_frame_add_combination(frame, "sum", cases, plan->factors,
                                                plan->case_count, NULL, &message),
                   &message);
    }
    return frame;
}

void plan_tube_point(const frame_plan *plan, int tube, int position, double out[3])
{
    const plan_tube *const of = &plan->tubes[tube];
    for (int i = 0; i < 3; i++) {
        out[i] = plan->joints[of->joints[position]].position[i] + of->offsets[position][i];
    }
}

double plan_tube_length(const frame_plan *plan, int tube)
{
    double first[3];
    double last[3];
    plan_tube_point(plan, tube, 0, first);
    plan_tube_point(plan, tube, plan->tubes[tube].joint_count - 1, last);
    return hypot(hypot(last[0] - first[0], last[1] - first[1]), last[2] - first[2]);
}
