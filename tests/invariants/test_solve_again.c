/*
 * Solving again: the same bits for the same frame, and a plan that is used for other sizes of the
 * same topology answers like one made for them.
 */
#include "solved_plan.h"

#include <string.h>

START_TEST(same_frame_gives_same_bits)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan one = solve_plan(random_plan(seed, NULL));
        solved_plan other = solve_plan(random_plan(seed, NULL));
        ck_assert_int_eq(one.columns, other.columns);
        const size_t moves = (size_t)(6 * one.columns * one.joints) * sizeof(double);
        const size_t reactions = (size_t)(6 * one.columns * one.mounts) * sizeof(double);
        const size_t ends = (size_t)(12 * one.columns * one.spans) * sizeof(double);
        ck_assert_msg(memcmp(one.moves, other.moves, moves) == 0 &&
                          memcmp(one.reactions, other.reactions, reactions) == 0 &&
                          memcmp(one.ends, other.ends, ends) == 0,
                      "seed %llu: other bits the second time", (unsigned long long)seed);
        free_solved_plan(&one);
        free_solved_plan(&other);
    }
}
END_TEST

/* Larger and of other stock: all places a quarter farther out, walls and E a little less. */
static void change_sizes(frame_plan *plan)
{
    for (int i = 0; i < plan->joint_count; i++) {
        for (int k = 0; k < 3; k++) {
            plan->joints[i].position[k] *= 1.25;
        }
    }
    for (int i = 0; i < plan->stock_count; i++) {
        plan->stocks[i].profile.wall *= 0.9;
        plan->stocks[i].material.E *= 0.95;
    }
}

static void set_sizes(const frame_plan *plan, trivet_frame *frame)
{
    for (int32_t i = 0; i < plan->joint_count; i++) {
        done(plan->seed, trivet_frame_set_position(frame, i, plan->joints[i].position, NULL));
    }
    for (int32_t i = 0; i < plan->stock_count; i++) {
        done(plan->seed, trivet_frame_set_stock(frame, i, &plan->stocks[i].profile,
                                                &plan->stocks[i].material, NULL));
    }
}

static void compare_all(const solved_plan *fresh, const trivet_result *again)
{
    const uint64_t seed = fresh->plan->seed;
    const double *moves = trivet_result_moves(again, NULL, NULL);
    const double *reactions = trivet_result_reactions(again, NULL, NULL);
    const double *ends = trivet_result_span_ends(again, NULL, NULL);
    for (ptrdiff_t c = 0; c < fresh->columns; c++) {
        const plan_scale scale = scale_of(fresh, (int32_t)c);
        for (ptrdiff_t i = c * fresh->joints; i < (c + 1) * fresh->joints; i++) {
            agree_moves(seed, "movement", moves + 6 * i, fresh->moves + 6 * i,
                        moves_allowed(scale));
        }
        for (ptrdiff_t i = c * fresh->mounts; i < (c + 1) * fresh->mounts; i++) {
            agree_forces(seed, "reaction", reactions + 6 * i, fresh->reactions + 6 * i,
                         forces_allowed(scale));
        }
        for (ptrdiff_t i = 2 * c * fresh->spans; i < 2 * (c + 1) * fresh->spans; i++) {
            agree_forces(seed, "force inside", ends + 6 * i, fresh->ends + 6 * i,
                         forces_allowed(scale));
        }
    }
}

/* Solves the frame as it is, changes its sizes, solves it again with the same plan. */
static void check_plan_again(frame_plan *plan)
{
    const uint64_t seed = plan->seed;
    trivet_plan *made = NULL;
    trivet_workspace *workspace = NULL;
    trivet_result *result = NULL;
    trivet_frame *frame = plan_build(plan);
    done(seed, trivet_plan_new(frame, &made, NULL));
    done(seed, trivet_workspace_new(made, &workspace, NULL));
    done(seed, trivet_result_new(made, &result, NULL));
    done(seed, trivet_plan_solve(made, frame, workspace, result, NULL));
    change_sizes(plan);
    set_sizes(plan, frame);
    done(seed, trivet_plan_solve(made, frame, workspace, result, NULL));
    solved_plan fresh = solve_plan(plan);
    find_flexibility(&fresh);
    compare_all(&fresh, result);
    free_solved_plan(&fresh);
    trivet_result_free(result);
    trivet_workspace_free(workspace);
    trivet_plan_free(made);
    trivet_frame_free(frame);
}

START_TEST(plan_serves_other_sizes)
{
    random_options options = random_everything();
    options.offsets =
        false; /* offsets do not grow with the places: tubes would not stay straight */
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        check_plan_again(random_plan(seed, &options));
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("solving again", same_frame_gives_same_bits, plan_serves_other_sizes);
}
