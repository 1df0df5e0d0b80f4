/*
 * Cases: gravity, warmth, and how much of each cargo is aboard.
 */
#include "base/directions.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <string.h>

/* Factors of the cargo and moves of the mounts that there are already. */
static int fill_arrays(trivet_frame *frame, trivet__case *made)
{
    const size_t cargo_count = (size_t)frame->cargo_count;
    const size_t mount_count = (size_t)frame->mount_count;
    double *const factors =
        trivet__pool_refit(&frame->pool, made->cargo_factors, &made->cargo_factor_capacity,
                           cargo_count, sizeof *factors);
    if (!factors) {
        return 0;
    }
    made->cargo_factors = factors;
    double *const moves =
        trivet__pool_refit(&frame->pool, made->mount_moves, &made->mount_move_capacity, mount_count,
                           TRIVET__DIRECTIONS * sizeof *moves);
    if (!moves) {
        return 0;
    }
    made->mount_moves = moves;
    for (size_t i = 0; i < cargo_count; i++) {
        factors[i] = 1.0;
    }
    memset(moves, 0, mount_count * TRIVET__DIRECTIONS * sizeof *moves);
    return 1;
}

/* Everything but the arrays, which keep the room that they have. */
static void fill_rest(trivet__case *made, const char *name, const double *gravity)
{
    made->name = name;
    made->story = made->source = NULL;
    made->warm = 0.0;
    for (int i = 0; i < 3; i++) {
        made->gravity[i] = gravity ? gravity[i] : 0.0;
    }
    made->joint_force_count = made->cargo_force_count = 0;
    made->tube_force_count = made->tube_line_count = 0;
}

static trivet_status add_case(trivet_frame *frame, const char *name, const double *gravity,
                              trivet_message *message)
{
    trivet__case *const cases = trivet__grown(&frame->pool, frame->cases, frame->case_count,
                                              &frame->case_capacity, sizeof *cases);
    if (!cases) {
        return trivet__no_memory(message);
    }
    frame->cases = cases;
    trivet__case *const made = &cases[frame->case_count];
    const char *const kept =
        fill_arrays(frame, made)
            ? trivet__names_add(&frame->case_names, &frame->pool, name, frame->case_count)
            : NULL;
    if (!kept) {
        return trivet__no_memory(message);
    }
    fill_rest(made, kept, gravity);
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
    if (status == TRIVET_OK) {
        status = add_case(frame, name, gravity, message);
    }
    if (status == TRIVET_OK && case_out) {
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
