/*
 * Random frames, solved; scales and allowances for what they are asked.
 */
#include "solved_plan.h"

#include "support/run.h"

#include <check.h>
#include <float.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* Constant of the allowances: a force at an end is a sum of twelve products of a movement and a
   stiffness, and each stiffness is made in some ten steps. */
#define FEW 128.0

/* The largest of count sets of six; the last three of each times arm. */
static double largest(const double *sets, ptrdiff_t count, double arm)
{
    double most = 0.0;
    for (ptrdiff_t i = 0; i < 6 * count; i++) {
        most = fmax(most, fabs(sets[i]) * (i % 6 < 3 ? 1.0 : arm));
    }
    return most;
}

/* A case for each joint and direction: 1 N, or the moment of 1 N at PLAN_ARM. */
static void add_unit_cases(const frame_plan *plan, trivet_frame *frame)
{
    for (int32_t k = 0; k < 6 * plan->joint_count; k++) {
        double load[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
        char name[24];
        int32_t added = -1;
        load[k % 6] = k % 6 < 3 ? 1.0 : PLAN_ARM;
        snprintf(name, sizeof name, "unit %d", (int)k);
        done(plan->seed, trivet_frame_add_case(frame, name, NULL, &added, NULL));
        done(plan->seed, trivet_frame_add_joint_force(frame, added, k / 6, load, load + 3, NULL));
    }
}

/* The largest movement in the columns of the unit cases, which stand behind the first column. */
void find_flexibility(solved_plan *solved)
{
    const frame_plan *plan = solved->plan;
    frame_plan *bare = plan_copy(plan);
    bare->case_count = 1;
    bare->has_combination = 0;
    trivet_frame *frame = plan_build(bare);
    trivet_result *result = NULL;
    int32_t columns = 0;
    int32_t joints = 0;
    add_unit_cases(bare, frame);
    done(plan->seed, trivet_frame_solve(frame, &result, NULL));
    const double *moves = trivet_result_moves(result, &columns, &joints);
    solved->flexibility =
        largest(moves + (ptrdiff_t)6 * joints, (ptrdiff_t)(columns - 1) * joints, PLAN_ARM);
    trivet_result_free(result);
    trivet_frame_free(frame);
    free(bare);
}

solved_plan solve_plan(frame_plan *plan)
{
    trivet_message message = {0};
    solved_plan out = {.plan = plan, .frame = plan_build(plan)};
    const trivet_status status = trivet_frame_solve(out.frame, &out.result, &message);
    ck_assert_msg(status == TRIVET_OK, "seed %llu: %s: %s; %s", (unsigned long long)plan->seed,
                  message.thing, message.problem, message.remedy);
    out.moves = trivet_result_moves(out.result, &out.columns, &out.joints);
    out.reactions = trivet_result_reactions(out.result, NULL, &out.mounts);
    out.ends = trivet_result_span_ends(out.result, NULL, &out.spans);
    ck_assert_ptr_nonnull(out.moves);
    ck_assert_ptr_nonnull(out.reactions);
    ck_assert_ptr_nonnull(out.ends);
    return out;
}

void free_solved_plan(solved_plan *solved)
{
    trivet_result_free(solved->result);
    trivet_frame_free(solved->frame);
    free(solved->plan);
}

/* EA and EI of stock, N and N m^2; about whichever axis is stiffer. */
static void add_stiffness(const solved_plan *solved, int32_t stock, double *EA, double *EI)
{
    const trivet_section *section = trivet_frame_section(solved->frame, stock);
    const double E = trivet_frame_material(solved->frame, stock)->E;
    *EA += E * section->area;
    *EI += E * section->principal_moment[0];
}

static double stiffness_of(const solved_plan *solved, int32_t index)
{
    const trivet_span span = span_of(solved, index);
    double EA = 0.0;
    double EI = 0.0;
    add_stiffness(solved, trivet_frame_tube_stock(solved->frame, span.tube), &EA, &EI);
    if (span.insert_stock >= 0) {
        add_stiffness(solved, span.insert_stock, &EA, &EI);
    }
    const double L = span.length;
    return fmax(EA / L, 12.0 * EI / (L * L * L));
}

plan_scale scale_of(const solved_plan *solved, int32_t column)
{
    const double *moves = solved->moves + (ptrdiff_t)6 * column * solved->joints;
    const double *reactions = solved->reactions + (ptrdiff_t)6 * column * solved->mounts;
    const double *ends = solved->ends + (ptrdiff_t)12 * column * solved->spans;
    plan_scale scale = {.flexibility = solved->flexibility};
    scale.move = largest(moves, solved->joints, PLAN_ARM);
    scale.force = fmax(largest(reactions, solved->mounts, 1.0 / PLAN_ARM),
                       largest(ends, (ptrdiff_t)2 * solved->spans, 1.0 / PLAN_ARM));
    for (int32_t i = 0; i < solved->spans; i++) {
        scale.stiffest = fmax(scale.stiffest, stiffness_of(solved, i));
    }
    return scale;
}

plan_scale larger_scale(plan_scale one, plan_scale other)
{
    const plan_scale larger = {fmax(one.force, other.force), fmax(one.move, other.move),
                               fmax(one.stiffest, other.stiffest),
                               fmax(one.flexibility, other.flexibility)};
    return larger;
}

double forces_allowed(plan_scale scale)
{
    return FEW * DBL_EPSILON * (scale.force + scale.stiffest * scale.move);
}

double moves_allowed(plan_scale scale)
{
    if (!(scale.flexibility > 0.0)) {
        ck_abort_msg("find_flexibility was not called");
    }
    return FEW * DBL_EPSILON * scale.move + scale.flexibility * forces_allowed(scale);
}

void agree(uint64_t seed, const char *what, double got, double want, double allowed)
{
    /* Check writes to a file at every assertion that it passes: there are millions here. */
    if (!(fabs(got - want) <= allowed)) {
        ck_abort_msg("seed %llu: %s is %.17g, wanted %.17g, off by %.3g, allowed %.3g",
                     (unsigned long long)seed, what, got, want, got - want, allowed);
    }
}

void agree_forces(uint64_t seed, const char *what, const double got[6], const double want[6],
                  double allowed)
{
    for (int i = 0; i < 6; i++) {
        agree(seed, what, got[i], want[i], allowed * (i < 3 ? 1.0 : PLAN_ARM));
    }
}

void agree_moves(uint64_t seed, const char *what, const double got[6], const double want[6],
                 double allowed)
{
    for (int i = 0; i < 6; i++) {
        agree(seed, what, got[i], want[i], allowed * (i < 3 ? 1.0 : 1.0 / PLAN_ARM));
    }
}

void done(uint64_t seed, trivet_status status)
{
    if (status != TRIVET_OK) {
        ck_abort_msg("seed %llu: %s", (unsigned long long)seed,
                     trivet_status_text((int32_t)status));
    }
}

trivet_span span_of(const solved_plan *solved, int32_t index)
{
    trivet_span span;
    done(solved->plan->seed, trivet_span_defaults(&span, sizeof span));
    done(solved->plan->seed, trivet_result_span(solved->result, index, &span));
    return span;
}

int has_load_at_end(const solved_plan *solved, int32_t index, int end)
{
    const trivet_span span = span_of(solved, index);
    const double place = span.start + (end == 0 ? 0.0 : span.length);
    for (int c = 0; c < solved->plan->case_count; c++) {
        const plan_case *of = &solved->plan->cases[c];
        for (int i = 0; i < of->tube_force_count; i++) {
            const plan_force *load = &of->tube_forces[i];
            if (load->on == span.tube && fabs(load->at[0] - place) < 1e-9) {
                return 1;
            }
        }
    }
    return 0;
}

int32_t span_holding(const solved_plan *solved, int32_t tube, double at, double *along_out)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(solved->result, tube, &count);
    for (int32_t k = first; k < first + count; k++) {
        const trivet_span span = span_of(solved, k);
        if (at <= span.start + span.length || k == first + count - 1) {
            *along_out = fmin(at - span.start, span.length);
            return k;
        }
    }
    return -1;
}

int run_invariants(const char *suite, const TTest *const *tests, size_t count)
{
    Suite *const all = suite_create(suite);
    for (size_t i = 0; i < count; i++) {
        TCase *const one = tcase_create(tests[i]->name);
        tcase_add_loop_test(one, tests[i], 0, FRAMES / BATCH);
        suite_add_tcase(all, one);
    }
    return run_suite(all);
}
