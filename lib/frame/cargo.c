/*
 * Cargo: a ledger of items with one centre of gravity, resting on joints.
 */
#include "base/defaults.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

static trivet_status check_cargo(trivet_frame *frame, const char *name, const double *centre,
                                 const int32_t *joints, int32_t joint_count, int32_t grip,
                                 trivet_message *message)
{
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_CARGO, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__number_of of = {"cargo", name, "centre", TRIVET_LENGTH};
    status = trivet__numbers_check(centre, 3, of, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (joint_count < 1) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "cargo", name, "it rests on nothing",
                                    "name the joints that it rests on");
    }
    if (grip != TRIVET_GRIP_STIFF && grip != TRIVET_GRIP_SOFT) {
        trivet__refuse_thing(message, TRIVET_BAD_VALUE, "cargo", name, "", "take stiff or soft");
        trivet__message_problem(message, "its grip is %d, which is none", (int)grip);
        return TRIVET_BAD_VALUE;
    }
    return trivet__list_check(frame, TRIVET_KIND_JOINT, joints, joint_count, "cargo", name,
                              message);
}

/* Room for the factor of one more cargo in every case. */
static int grow_factors(trivet_frame *frame)
{
    for (int32_t i = 0; i < frame->case_count; i++) {
        trivet__case *const of = &frame->cases[i];
        double *const factors = trivet__grown(&frame->pool, of->cargo_factors, frame->cargo_count,
                                              &of->cargo_factor_capacity, sizeof *factors);
        if (!factors) {
            return 0;
        }
        of->cargo_factors = factors;
    }
    return 1;
}

static trivet_status commit_cargo(trivet_frame *frame, const char *name, const trivet__cargo *made,
                                  trivet_message *message)
{
    const int32_t count = frame->cargo_count;
    trivet__cargo *const cargos =
        trivet__grown(&frame->pool, frame->cargos, count, &frame->cargo_capacity, sizeof *cargos);
    if (!cargos) {
        return trivet__no_memory(message);
    }
    frame->cargos = cargos;
    if (!grow_factors(frame)) {
        return trivet__no_memory(message);
    }
    const char *const kept = trivet__names_add(&frame->cargo_names, &frame->pool, name, count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    cargos[count] = *made;
    cargos[count].name = kept;
    for (int32_t i = 0; i < frame->case_count; i++) {
        frame->cases[i].cargo_factors[count] = 1.0;
    }
    frame->cargo_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_cargo(trivet_frame *frame, const char *name, const double *centre,
                                     const int32_t *joints, int32_t joint_count, int32_t grip,
                                     int32_t *cargo_out, trivet_message *message)
{
    if (cargo_out) {
        *cargo_out = -1;
    }
    if (!frame || !centre || !joints) {
        return trivet__missing(message, !frame ? "frame" : !centre ? "centre" : "joints");
    }
    trivet_status status = check_cargo(frame, name, centre, joints, joint_count, grip, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__cargo made;
    memset(&made, 0, sizeof made);
    memcpy(made.centre, centre, sizeof made.centre);
    made.joint_count = joint_count;
    made.grip = grip;
    made.joints = trivet__pool_take(&frame->pool, (size_t)joint_count, sizeof *made.joints);
    if (!made.joints) {
        return trivet__no_memory(message);
    }
    memcpy(made.joints, joints, (size_t)joint_count * sizeof *joints);
    status = commit_cargo(frame, name, &made, message);
    if (status == TRIVET_OK && cargo_out) {
        *cargo_out = frame->cargo_count - 1;
    }
    return status;
}

trivet_status trivet_frame_add_item(trivet_frame *frame, int32_t cargo, const char *name,
                                    double mass, trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CARGO, cargo, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__cargo *const into = &frame->cargos[cargo];
    status = trivet__name_check("item", name, message);
    if (status == TRIVET_OK) {
        const trivet__number_of of = {"item", name, "mass", TRIVET_MASS};
        status = trivet__not_negative_check(mass, of, message);
    }
    if (status != TRIVET_OK) {
        trivet__message_within(message, "cargo %s", into->name);
        return status;
    }
    trivet__item *const items = trivet__grown(&frame->pool, into->items, into->item_count,
                                              &into->item_capacity, sizeof *items);
    if (!items) {
        return trivet__no_memory(message);
    }
    into->items = items;
    const char *const kept = trivet__pool_text(&frame->pool, name, strlen(name));
    if (!kept) {
        return trivet__no_memory(message);
    }
    items[into->item_count].name = kept;
    items[into->item_count].mass = mass;
    into->item_count++;
    into->mass += mass;
    return TRIVET_OK;
}

trivet_status trivet_frame_scale_cargo(trivet_frame *frame, int32_t cargo, double factor,
                                       trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CARGO, cargo, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__cargo *const of = &frame->cargos[cargo];
    trivet__number_of number = {"cargo", of->name, "factor", TRIVET_NUMBER};
    status = trivet__not_negative_check(factor, number, message);
    if (status == TRIVET_OK) {
        number.what = "mass";
        number.dimension = TRIVET_MASS;
        status = trivet__not_negative_check(factor * of->mass, number, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    /* Summed up again, so that the cargo is the one that these items would make. */
    of->mass = 0.0;
    for (int32_t i = 0; i < of->item_count; i++) {
        of->items[i].mass *= factor;
        of->mass += of->items[i].mass;
    }
    return TRIVET_OK;
}

trivet_status trivet_cargo_defaults(trivet_cargo *cargo, size_t size)
{
    return trivet__defaults(cargo, size, sizeof *cargo);
}

trivet_status trivet_frame_cargo(const trivet_frame *frame, int32_t cargo, trivet_cargo *cargo_out)
{
    const trivet_status status = trivet__out_check(frame, cargo_out, sizeof *cargo_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (cargo < 0 || cargo >= frame->cargo_count) {
        return TRIVET_BAD_INDEX;
    }
    const trivet__cargo *const from = &frame->cargos[cargo];
    cargo_out->mass = from->mass;
    memcpy(cargo_out->centre, from->centre, sizeof cargo_out->centre);
    cargo_out->grip = from->grip;
    cargo_out->item_count = from->item_count;
    cargo_out->joint_count = from->joint_count;
    cargo_out->joints = from->joints;
    return TRIVET_OK;
}

const char *trivet_frame_item(const trivet_frame *frame, int32_t cargo, int32_t item,
                              double *mass_out)
{
    const int is_there = frame && cargo >= 0 && cargo < frame->cargo_count && item >= 0 &&
                         item < frame->cargos[cargo].item_count;
    if (mass_out) {
        *mass_out = is_there ? frame->cargos[cargo].items[item].mass : (double)NAN;
    }
    return is_there ? frame->cargos[cargo].items[item].name : NULL;
}
