/*
 * The same frame said otherwise gives the same answer: turned in the world, numbered in another
 * order, its tubes run through more joints.
 */
#include "solved_plan.h"

#include "support/dice.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double no_turn[9] = {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0};

/* Both halves of a set of six, turned. */
static void turn_six(const double rotation[9], const double from[6], double into[6])
{
    for (int i = 0; i < 6; i++) {
        const double *v = from + 3 * (i / 3);
        const double *row = rotation + 3 * (i % 3);
        into[i] = row[0] * v[0] + row[1] * v[1] + row[2] * v[2];
    }
}

static int32_t find_thing(const solved_plan *in, int32_t kind, const char *name)
{
    int32_t index = -1;
    done(in->plan->seed, trivet_frame_find(in->frame, kind, name, &index, NULL));
    return index;
}

typedef struct allowance {
    double forces;
    double moves;
} allowance;

static allowance allowance_of(const solved_plan *one, const solved_plan *other, int32_t column)
{
    const plan_scale scale = larger_scale(scale_of(one, column), scale_of(other, column));
    const allowance allowed = {forces_allowed(scale), moves_allowed(scale)};
    return allowed;
}

/* Joints and mounts of one, by name, in other. */
static void check_joints(const solved_plan *one, const solved_plan *other, const double rotation[9],
                         int32_t column, allowance allowed)
{
    const uint64_t seed = one->plan->seed;
    double want[6];
    for (int32_t j = 0; j < one->joints; j++) {
        const int32_t there = find_thing(other, TRIVET_KIND_JOINT, one->plan->joints[j].name);
        turn_six(rotation, one->moves + (ptrdiff_t)6 * (column * one->joints + j), want);
        agree_moves(seed, "movement of a joint",
                    other->moves + (ptrdiff_t)6 * (column * other->joints + there), want,
                    allowed.moves);
    }
    for (int32_t m = 0; m < one->mounts; m++) {
        const char *name = trivet_frame_name(one->frame, TRIVET_KIND_MOUNT, m);
        const int32_t there = find_thing(other, TRIVET_KIND_MOUNT, name);
        turn_six(rotation, one->reactions + (ptrdiff_t)6 * (column * one->mounts + m), want);
        agree_forces(seed, "reaction",
                     other->reactions + (ptrdiff_t)6 * (column * other->mounts + there), want,
                     allowed.forces);
    }
}

/* Places inside the tubes, by the tubes' names: forces in tube axes, movements in the world's. */
static void check_tubes(const solved_plan *one, const solved_plan *other, const double rotation[9],
                        int32_t column, allowance allowed)
{
    static const double shares[] = {0.003, 0.137, 0.489, 0.731, 0.996};
    const uint64_t seed = one->plan->seed;
    for (int32_t t = 0; t < one->plan->tube_count; t++) {
        const int32_t there = find_thing(other, TRIVET_KIND_TUBE, one->plan->tubes[t].name);
        const double length = trivet_frame_tube_length(one->frame, t);
        for (size_t k = 0; k < sizeof shares / sizeof shares[0]; k++) {
            double along = 0.0;
            double forces[2][6];
            double moves[2][6];
            double want[6];
            int32_t span = span_holding(one, t, shares[k] * length, &along);
            done(seed, trivet_result_at(one->result, column, span, along, forces[0], moves[0]));
            span = span_holding(other, there, shares[k] * length, &along);
            done(seed, trivet_result_at(other->result, column, span, along, forces[1], moves[1]));
            agree_forces(seed, "force inside a tube", forces[1], forces[0], allowed.forces);
            turn_six(rotation, moves[0], want);
            agree_moves(seed, "movement inside a tube", moves[1], want, allowed.moves);
        }
    }
}

/* Solves both and compares all; takes over both plans. */
static void check_same(frame_plan *plan, frame_plan *changed, const double rotation[9])
{
    solved_plan one = solve_plan(plan);
    solved_plan other = solve_plan(changed);
    find_flexibility(&one); /* the other's is the same */
    ck_assert_int_eq(one.columns, other.columns);
    for (int32_t c = 0; c < one.columns; c++) {
        const allowance allowed = allowance_of(&one, &other, c);
        check_joints(&one, &other, rotation, c, allowed);
        check_tubes(&one, &other, rotation, c, allowed);
    }
    free_solved_plan(&one);
    free_solved_plan(&other);
}

START_TEST(turned_frame_gives_turned_answer)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        frame_plan *plan = random_plan(seed, NULL);
        frame_plan *turned = plan_copy(plan);
        dice d = dice_new(seed + 7000);
        double rotation[9];
        dice_rotation(&d, rotation);
        plan_rotate(turned, rotation);
        check_same(plan, turned, rotation);
    }
}
END_TEST

START_TEST(renumbered_frame_gives_same_answer)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        frame_plan *plan = random_plan(seed, NULL);
        frame_plan *changed = plan_copy(plan);
        plan_renumber(changed, seed + 8000);
        check_same(plan, changed, no_turn);
    }
}
END_TEST

START_TEST(split_spans_give_same_answer)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        frame_plan *plan = random_plan(seed, NULL);
        frame_plan *changed = plan_copy(plan);
        plan_split(changed, seed + 9000);
        check_same(plan, changed, no_turn);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("same answer", turned_frame_gives_turned_answer,
                          renumbered_frame_gives_same_answer, split_spans_give_same_answer);
}
