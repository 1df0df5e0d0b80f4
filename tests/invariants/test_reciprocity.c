/*
 * Linearity: Maxwell and Betti's reciprocity, superposition, scaled loads, combinations.
 */
#include "solved_plan.h"

#include "support/dice.h"

#include <math.h>
#include <string.h>

static random_options without_loads(void)
{
    random_options options = random_everything();
    options.gravity = options.tube_forces = options.tube_lines = false;
    options.mount_moves = options.warm = options.combination = false;
    return options;
}

/* A unit load: on a joint, or on a tube at a place; a force, or a moment. */
typedef struct unit_load {
    int on_tube;
    int on;
    double at;
    int direction; /* 0 to 5, world axes */
} unit_load;

static unit_load pick_load(dice *d, const frame_plan *plan)
{
    unit_load load = {.on_tube = dice_chance(d, 0.5), .direction = dice_below(d, 6)};
    load.on = dice_below(d, load.on_tube ? plan->tube_count : plan->joint_count);
    load.at = load.on_tube ? dice_between(d, 0.02, 0.98) * plan_tube_length(plan, load.on) : 0.0;
    return load;
}

static void put_load(frame_plan *plan, int in_case, const unit_load *load)
{
    plan_case *into = &plan->cases[in_case];
    plan_force force;
    memset(&force, 0, sizeof force);
    force.on = load->on;
    force.axes = TRIVET_WORLD_AXES;
    force.at[0] = load->at;
    if (load->direction < 3) {
        force.force[load->direction] = 1.0;
    } else {
        force.moment[load->direction - 3] = 1.0;
    }
    into->joint_force_count = load->on_tube ? 0 : 1;
    into->cargo_force_count = 0;
    into->tube_force_count = load->on_tube ? 1 : 0;
    into->line_count = 0;
    into->joint_forces[0] = force;
    into->tube_forces[0] = force;
}

/* The movement where and along which a unit load acts. */
static double moved(const solved_plan *solved, int32_t column, const unit_load *load)
{
    if (!load->on_tube) {
        const ptrdiff_t joint = (ptrdiff_t)column * solved->joints + load->on;
        return solved->moves[6 * joint + load->direction];
    }
    double along = 0.0;
    double move[6];
    const int32_t span = span_holding(solved, load->on, load->at, &along);
    done(solved->plan->seed, trivet_result_at(solved->result, column, span, along, NULL, move));
    return move[load->direction];
}

/* What load one does at place two is what load two does at place one. */
START_TEST(unit_loads_swap_places)
{
    const random_options options = without_loads();
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        dice d = dice_new(seed);
        frame_plan *plan = random_plan(seed, &options);
        const unit_load loads[2] = {pick_load(&d, plan), pick_load(&d, plan)};
        plan->case_count = 2;
        put_load(plan, 0, &loads[0]);
        put_load(plan, 1, &loads[1]);
        solved_plan solved = solve_plan(plan);
        find_flexibility(&solved);
        const double one_at_two = moved(&solved, 0, &loads[1]);
        const double two_at_one = moved(&solved, 1, &loads[0]);
        const plan_scale size = larger_scale(scale_of(&solved, 0), scale_of(&solved, 1));
        const double allowed = moves_allowed(size) / PLAN_ARM;
        agree(seed, "movement with loads swapped", one_at_two, two_at_one, allowed);
        /* flexibility is positive: |u12| <= sqrt(u11 u22) */
        const double own = moved(&solved, 0, &loads[0]) * moved(&solved, 1, &loads[1]);
        ck_assert_msg(fabs(one_at_two) <= sqrt(fabs(own)) + allowed,
                      "seed %llu: flexibility is not positive", (unsigned long long)seed);
        free_solved_plan(&solved);
    }
}
END_TEST

/* Halves the loads of a case, so that two cases fit into one, and takes all cargo along whole. */
static void thin_out(frame_plan *plan, plan_case *of)
{
    of->joint_force_count = of->joint_force_count > 2 ? 2 : of->joint_force_count;
    of->cargo_force_count = of->cargo_force_count > 2 ? 2 : of->cargo_force_count;
    of->tube_force_count = of->tube_force_count > 2 ? 2 : of->tube_force_count;
    of->line_count = of->line_count > 2 ? 2 : of->line_count;
    for (int i = 0; i < plan->cargo_count; i++) {
        of->cargo_factors[i] = 1.0;
    }
}

static void scale_forces(plan_force *forces, int count, double factor)
{
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < 3; k++) {
            forces[i].force[k] *= factor;
            forces[i].moment[k] *= factor;
        }
    }
}

static void scale_case(plan_case *of, double factor)
{
    for (int k = 0; k < 3; k++) {
        of->gravity[k] *= factor;
    }
    of->warm *= factor;
    for (int m = 0; m < PLAN_MOUNTS; m++) {
        for (int k = 0; k < 6; k++) {
            of->mount_moves[m][k] *= factor;
        }
    }
    scale_forces(of->joint_forces, of->joint_force_count, factor);
    scale_forces(of->cargo_forces, of->cargo_force_count, factor);
    scale_forces(of->tube_forces, of->tube_force_count, factor);
    for (int i = 0; i < of->line_count; i++) {
        for (int k = 0; k < 3; k++) {
            of->lines[i].first[k] *= factor;
            of->lines[i].last[k] *= factor;
        }
    }
}

static void append_forces(plan_force *into, int *count, const plan_force *from, int more)
{
    for (int i = 0; i < more; i++) {
        into[(*count)++] = from[i];
    }
}

static void add_case_to(plan_case *into, const plan_case *from)
{
    for (int k = 0; k < 3; k++) {
        into->gravity[k] += from->gravity[k];
    }
    into->warm += from->warm;
    for (int m = 0; m < PLAN_MOUNTS; m++) {
        for (int k = 0; k < 6; k++) {
            into->mount_moves[m][k] += from->mount_moves[m][k];
        }
    }
    append_forces(into->joint_forces, &into->joint_force_count, from->joint_forces,
                  from->joint_force_count);
    append_forces(into->cargo_forces, &into->cargo_force_count, from->cargo_forces,
                  from->cargo_force_count);
    append_forces(into->tube_forces, &into->tube_force_count, from->tube_forces,
                  from->tube_force_count);
    for (int i = 0; i < from->line_count; i++) {
        into->lines[into->line_count++] = from->lines[i];
    }
}

/* Columns: one, other, their sum as a case, -2.5 times one as a case, a combination. */
enum { ONE, OTHER, SUM, SCALED, COMBINED };

static frame_plan *superposed_plan(uint64_t seed)
{
    frame_plan *plan = random_plan(seed, NULL);
    plan->case_count = 4;
    thin_out(plan, &plan->cases[ONE]);
    thin_out(plan, &plan->cases[OTHER]);
    plan->cases[SUM] = plan->cases[ONE];
    add_case_to(&plan->cases[SUM], &plan->cases[OTHER]);
    plan->cases[SCALED] = plan->cases[ONE];
    scale_case(&plan->cases[SCALED], -2.5);
    memcpy(plan->cases[SUM].name, "two in one", sizeof "two in one");
    memcpy(plan->cases[SCALED].name, "scaled", sizeof "scaled");
    plan->has_combination = 1;
    const double factors[4] = {0.7, -1.3, 0.0, 0.4};
    memcpy(plan->factors, factors, sizeof factors);
    return plan;
}

static void weigh(const double *columns, ptrdiff_t stride, ptrdiff_t at, const double factors[4],
                  double out[6])
{
    for (int i = 0; i < 6; i++) {
        out[i] = 0.0;
        for (int c = 0; c < 4; c++) {
            out[i] += factors[c] * columns[stride * c + 6 * at + i];
        }
    }
}

static void check_column(const solved_plan *solved, int column, const double factors[4],
                         plan_scale scale)
{
    const uint64_t seed = solved->plan->seed;
    double want[6];
    const ptrdiff_t joints = (ptrdiff_t)6 * solved->joints;
    const ptrdiff_t mounts = (ptrdiff_t)6 * solved->mounts;
    const ptrdiff_t ends = (ptrdiff_t)12 * solved->spans;
    for (ptrdiff_t i = 0; i < solved->joints; i++) {
        weigh(solved->moves, joints, i, factors, want);
        agree_moves(seed, "movement", solved->moves + joints * column + 6 * i, want,
                    moves_allowed(scale));
    }
    for (ptrdiff_t i = 0; i < solved->mounts; i++) {
        weigh(solved->reactions, mounts, i, factors, want);
        agree_forces(seed, "reaction", solved->reactions + mounts * column + 6 * i, want,
                     forces_allowed(scale));
    }
    for (ptrdiff_t i = 0; i < (ptrdiff_t)2 * solved->spans; i++) {
        weigh(solved->ends, ends, i, factors, want);
        agree_forces(seed, "force inside", solved->ends + ends * column + 6 * i, want,
                     forces_allowed(scale));
    }
}

/* Inside the spans, too: what a column says there is the sum of what the cases say. */
static void check_inside(const solved_plan *solved, int column, const double factors[4],
                         plan_scale scale)
{
    const uint64_t seed = solved->plan->seed;
    for (int32_t k = 0; k < solved->spans; k++) {
        const trivet_span span = span_of(solved, k);
        const double at = 0.37 * span.length;
        double forces[5][6];
        double moves[5][6];
        double want[6];
        for (int c = 0; c < 5; c++) {
            done(seed, trivet_result_at(solved->result, c, k, at, forces[c], moves[c]));
        }
        weigh(forces[0], 6, 0, factors, want);
        agree_forces(seed, "force inside a span", forces[column], want, forces_allowed(scale));
        weigh(moves[0], 6, 0, factors, want);
        agree_moves(seed, "movement inside a span", moves[column], want, moves_allowed(scale));
    }
}

START_TEST(cases_add_up)
{
    const double factors[5][4] = {
        [SUM] = {1.0, 1.0, 0.0, 0.0},
        [SCALED] = {-2.5, 0.0, 0.0, 0.0},
        [COMBINED] = {0.7, -1.3, 0.0, 0.4},
    };
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(superposed_plan(seed));
        find_flexibility(&solved);
        plan_scale scale = scale_of(&solved, ONE);
        for (int c = OTHER; c <= SCALED; c++) {
            scale = larger_scale(scale, scale_of(&solved, c));
        }
        for (int c = SUM; c <= COMBINED; c++) {
            check_column(&solved, c, factors[c], scale);
            check_inside(&solved, c, factors[c], scale);
        }
        free_solved_plan(&solved);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("reciprocity and superposition", unit_loads_swap_places, cases_add_up);
}
