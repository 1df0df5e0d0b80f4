/*
 * Frames for the tests of published values, with every call asserted.
 */
#include "value_frame.h"

#include "support/near.h"

#include <stdio.h>
#include <string.h>

/* A name that is not taken: the letter and the number of things so far. */
static const char *number_name(char *text, size_t size, char letter, int32_t number)
{
    snprintf(text, size, "%c%d", letter, (int)number);
    return text;
}

trivet_frame *value_frame_new(void)
{
    trivet_message message;
    trivet_frame *frame = NULL;
    must(trivet_frame_new(&frame, &message), &message);
    must(trivet_frame_add_case(frame, "loads", NULL, NULL, &message), &message);
    return frame;
}

int32_t value_add_stock(trivet_frame *frame, const value_stock *stock)
{
    trivet_message message;
    trivet_profile profile;
    trivet_material material;
    ck_assert_int_eq(trivet_profile_defaults(&profile, sizeof profile), TRIVET_OK);
    ck_assert_int_eq(trivet_material_defaults(&material, sizeof material), TRIVET_OK);
    profile.shape = TRIVET_SHAPE_GIVEN_VALUES;
    profile.given_area = stock->area;
    profile.given_torsion_constant = stock->twist;
    for (int i = 0; i < 2; i++) {
        profile.given_second_moment[i] = stock->bending;
        profile.given_shear_area[i] = stock->shear_area;
    }
    material.E = stock->E;
    material.G = stock->G;
    material.density = 1.0; /* no case has gravity */
    material.expansion = stock->expansion;
    char name[16];
    number_name(name, sizeof name, 's', trivet_frame_count(frame, TRIVET_KIND_STOCK));
    int32_t number = -1;
    must(trivet_frame_add_stock(frame, name, &profile, &material, &number, &message), &message);
    return number;
}

int32_t value_add_joint(trivet_frame *frame, double x, double y, double z)
{
    char name[16];
    number_name(name, sizeof name, 'j', trivet_frame_count(frame, TRIVET_KIND_JOINT));
    return must_add_joint(frame, name, x, y, z);
}

int32_t value_add_tube(trivet_frame *frame, int32_t first, int32_t last, int32_t stock)
{
    const int32_t joints[2] = {first, last};
    char name[16];
    number_name(name, sizeof name, 't', trivet_frame_count(frame, TRIVET_KIND_TUBE));
    return must_add_tube(frame, name, joints, 2, stock);
}

void value_add_force(trivet_frame *frame, int32_t joint, double x, double y, double z)
{
    trivet_message message;
    const double force[3] = {x, y, z};
    must(trivet_frame_add_joint_force(frame, 0, joint, force, NULL, &message), &message);
}

void value_add_moment(trivet_frame *frame, int32_t joint, double x, double y, double z)
{
    trivet_message message;
    const double moment[3] = {x, y, z};
    must(trivet_frame_add_joint_force(frame, 0, joint, NULL, moment, &message), &message);
}

void value_add_weight(trivet_frame *frame, int32_t tube, double at, double force)
{
    trivet_message message;
    const double down[3] = {0.0, 0.0, -force};
    must(trivet_frame_add_tube_force(frame, 0, tube, at, down, NULL, TRIVET_WORLD_AXES, &message),
         &message);
}

void value_add_line(trivet_frame *frame, int32_t tube, double from, double to, double first,
                    double last)
{
    trivet_message message;
    const double down_first[3] = {0.0, 0.0, -first};
    const double down_last[3] = {0.0, 0.0, -last};
    must(trivet_frame_add_tube_line(frame, 0, tube, from, to, down_first, down_last,
                                    TRIVET_WORLD_AXES, &message),
         &message);
}

const double *value_move(const trivet_result *result, int32_t joint)
{
    int32_t count = 0;
    const double *moves = trivet_result_moves(result, NULL, &count);
    ck_assert_ptr_nonnull(moves);
    ck_assert(joint >= 0 && joint < count);
    return moves + (ptrdiff_t)6 * joint;
}

const double *value_reaction(const trivet_result *result, int32_t mount)
{
    int32_t count = 0;
    const double *reactions = trivet_result_reactions(result, NULL, &count);
    ck_assert_ptr_nonnull(reactions);
    ck_assert(mount >= 0 && mount < count);
    return reactions + (ptrdiff_t)6 * mount;
}

void value_at(const trivet_result *result, int32_t tube, double at, double *forces, double *move)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(result, tube, &count);
    for (int32_t k = first; k < first + count; k++) {
        trivet_span span;
        ck_assert_int_eq(trivet_span_defaults(&span, sizeof span), TRIVET_OK);
        ck_assert_int_eq(trivet_result_span(result, k, &span), TRIVET_OK);
        const double along = at - span.start;
        if (k == first + count - 1 || along <= span.length) {
            ck_assert_int_eq(trivet_result_at(result, 0, k, along, forces, move), TRIVET_OK);
            return;
        }
    }
    ck_abort_msg("tube %d has no spans", (int)tube);
}

double value_input(const table *rows, int row, const char *name)
{
    const double number = table_input(rows, row, "inputs", name);
    const int is_above = isnan(number) && strstr(table_text(rows, row, "inputs"), "as above");
    return is_above && row > 0 ? table_input(rows, row - 1, "inputs", name) : number;
}
