/*
 * Cases: gravity, warmth, and how much of each cargo is aboard.
 */
#include "base/memory.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

static void free_made(trivet__case *made)
{
    trivet__give_back(made->cargo_factors);
    trivet__give_back(made->mount_moves);
}

/* Arrays for the cargo and the mounts that there are already. */
static int take_arrays(const trivet_frame *frame, trivet__case *made)
{
    made->cargo_factor_capacity = (size_t)frame->cargo_count;
    made->mount_move_capacity = (size_t)frame->mount_count;
    made->cargo_factors = trivet__take(made->cargo_factor_capacity, sizeof *made->cargo_factors);
    made->mount_moves = trivet__take(made->mount_move_capacity, 6 * sizeof *made->mount_moves);
    if (!made->cargo_factors || !made->mount_moves) {
        return 0;
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        made->cargo_factors[i] = 1.0;
    }
    return 1;
}

static trivet_status commit_case(trivet_frame *frame, const char *name, const trivet__case *made,
                                 trivet_message *message)
{
    trivet__case *const cases =
        trivet__grown(frame->cases, frame->case_count, &frame->case_capacity, sizeof *cases);
    if (!cases) {
        return trivet__no_memory(message);
    }
    frame->cases = cases;
    const char *const kept = trivet__names_add(&frame->case_names, name, frame->case_count);
    if (!kept) {
        return trivet__no_memory(message);
    }
    cases[frame->case_count] = *made;
    cases[frame->case_count].name = kept;
    frame->case_count++;
    return TRIVET_OK;
}

trivet_status trivet_frame_add_case(trivet_frame *frame, const char *name, const double *gravity,
                                    int32_t *case_out, trivet_message *message)
{
    if (case_out) {
        *case_out = -1;
    }
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__new_name_check(frame, TRIVET_KIND_CASE, name, message);
    if (status == TRIVET_OK && gravity) {
        const trivet__number_of of = {"case", name, "gravity", TRIVET_NUMBER};
        status = trivet__numbers_check(gravity, 3, of, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    trivet__case made;
    memset(&made, 0, sizeof made);
    if (gravity) {
        memcpy(made.gravity, gravity, sizeof made.gravity);
    }
    status = take_arrays(frame, &made) ? commit_case(frame, name, &made, message)
                                       : trivet__no_memory(message);
    if (status != TRIVET_OK) {
        free_made(&made);
    } else if (case_out) {
        *case_out = frame->case_count - 1;
    }
    return status;
}

trivet_status trivet_frame_set_cargo_factor(trivet_frame *frame, int32_t in_case, int32_t cargo,
                                            double factor, trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CASE, in_case, message);
    if (status == TRIVET_OK) {
        status = trivet__index_check(frame, TRIVET_KIND_CARGO, cargo, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__number_of of = {"cargo", frame->cargos[cargo].name, "factor", TRIVET_NUMBER};
    status = trivet__not_negative_check(factor, of, message);
    if (status != TRIVET_OK) {
        trivet__message_within(message, "case %s", frame->cases[in_case].name);
        return status;
    }
    frame->cases[in_case].cargo_factors[cargo] = factor;
    return TRIVET_OK;
}

trivet_status trivet_frame_set_warm(trivet_frame *frame, int32_t in_case, double warm,
                                    trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CASE, in_case, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__number_of of = {"case", frame->cases[in_case].name, "warmth", TRIVET_TEMPERATURE};
    status = trivet__numbers_check(&warm, 1, of, message);
    if (status == TRIVET_OK) {
        frame->cases[in_case].warm = warm;
    }
    return status;
}

const double *trivet_frame_gravity(const trivet_frame *frame, int32_t in_case)
{
    return frame && in_case >= 0 && in_case < frame->case_count ? frame->cases[in_case].gravity
                                                                : NULL;
}
