/*
 * Inside the spans: nothing exceeds the reported extremes, each extreme is there where it is said
 * to be, and the ends are those of the joints.
 */
#include "solved_plan.h"

#include "support/dice.h"

#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>

enum { SAMPLES = 50 };

/* One step of a span, far below everything that is modelled: the other side of a jump. */
#define STEP 1e-10

static void forces_at(const solved_plan *solved, int32_t column, int32_t index, double at,
                      double forces[6])
{
    done(solved->plan->seed, trivet_result_at(solved->result, column, index, at, forces, NULL));
}

/* The value at a place, or just beside it: a point load makes a jump, whose larger side counts. */
static void check_is_there(const solved_plan *solved, int32_t column, int32_t index, int which,
                           double value, double at, double allowed)
{
    const double length = span_of(solved, index).length;
    double nearest = (double)INFINITY;
    for (int side = -1; side <= 1; side++) {
        double forces[6];
        forces_at(solved, column, index, fmin(fmax(at + side * STEP * length, 0.0), length),
                  forces);
        nearest = fmin(nearest, fabs(forces[which] - value));
    }
    agree(solved->plan->seed, "distance of an extreme from the value at its place", nearest, 0.0,
          allowed);
}

static void check_forces(const solved_plan *solved, int32_t column, int32_t index, dice *d,
                         double allowed)
{
    const uint64_t seed = solved->plan->seed;
    const double length = span_of(solved, index).length;
    trivet_extreme extremes[6];
    done(seed, trivet_result_extremes(solved->result, column, index, extremes));
    for (int i = 0; i < 6; i++) {
        const double room = allowed * (i < 3 ? 1.0 : PLAN_ARM);
        check_is_there(solved, column, index, i, extremes[i].most, extremes[i].most_at, room);
        check_is_there(solved, column, index, i, extremes[i].least, extremes[i].least_at, room);
    }
    for (int k = 0; k < SAMPLES; k++) {
        const double at = dice_between(d, 0.0, length);
        double forces[6];
        forces_at(solved, column, index, at, forces);
        for (int i = 0; i < 6; i++) {
            const double room = allowed * (i < 3 ? 1.0 : PLAN_ARM);
            if (!(forces[i] <= extremes[i].most + room && forces[i] >= extremes[i].least - room)) {
                ck_abort_msg(
                    "seed %llu: force %d is %.17g at %.17g of span %d, extremes %.17g %.17g",
                    (unsigned long long)seed, i, forces[i], at, (int)index, extremes[i].least,
                    extremes[i].most);
            }
        }
    }
}

static double moved_along(const solved_plan *solved, int32_t column, int32_t index, double at,
                          const double direction[3])
{
    double move[6];
    done(solved->plan->seed, trivet_result_at(solved->result, column, index, at, NULL, move));
    return move[0] * direction[0] + move[1] * direction[1] + move[2] * direction[2];
}

static void check_moves(const solved_plan *solved, int32_t column, int32_t index, dice *d,
                        double allowed)
{
    const uint64_t seed = solved->plan->seed;
    const double length = span_of(solved, index).length;
    double rotation[9];
    trivet_extreme extreme;
    dice_rotation(d, rotation); /* its first row is any direction */
    done(seed, trivet_result_extreme_move(solved->result, column, index, rotation, &extreme));
    agree(seed, "largest movement", moved_along(solved, column, index, extreme.most_at, rotation),
          extreme.most, allowed);
    agree(seed, "least movement", moved_along(solved, column, index, extreme.least_at, rotation),
          extreme.least, allowed);
    for (int k = 0; k < SAMPLES; k++) {
        const double at = k == 0 ? 0.0 : k == 1 ? length : dice_between(d, 0.0, length);
        const double move = moved_along(solved, column, index, at, rotation);
        if (!(move <= extreme.most + allowed && move >= extreme.least - allowed)) {
            ck_abort_msg("seed %llu: movement is %.17g at %.17g of span %d, extremes %.17g %.17g",
                         (unsigned long long)seed, move, at, (int)index, extreme.least,
                         extreme.most);
        }
    }
}

/* Largest movement of any point of any span: a freed end can move farther than its joint. */
static double farthest(const solved_plan *solved, int32_t column)
{
    double most = scale_of(solved, column).move;
    for (int32_t k = 0; k < solved->spans; k++) {
        for (int axis = 0; axis < 3; axis++) {
            double direction[3] = {0.0, 0.0, 0.0};
            trivet_extreme extreme;
            direction[axis] = 1.0;
            done(solved->plan->seed,
                 trivet_result_extreme_move(solved->result, column, k, direction, &extreme));
            most = fmax(most, fmax(fabs(extreme.most), fabs(extreme.least)));
        }
    }
    return most;
}

/* One column a frame, cases and combinations in turn: there are thousands of spans even so. */
START_TEST(extremes_are_attained_and_never_exceeded)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        dice d = dice_new(seed + 5000);
        const int32_t c = (int32_t)(seed % (uint64_t)solved.columns);
        /* Beside a jump, one STEP of shear force may lie between: N per m times m. */
        const double forces = (1e-12 + 10.0 * STEP) * scale_of(&solved, c).force;
        const double moves = 1e-12 * farthest(&solved, c);
        for (int32_t k = 0; k < solved.spans; k++) {
            check_forces(&solved, c, k, &d, forces);
            check_moves(&solved, c, k, &d, moves);
        }
        free_solved_plan(&solved);
    }
}
END_TEST

/* The tube's own line at its end: the joint's movement, taken along rigidly by the offset. */
static void carried(const double joint[6], const double offset[3], double move[6])
{
    for (int i = 0; i < 3; i++) {
        const int j = (i + 1) % 3;
        const int k = (i + 2) % 3;
        move[i] = joint[i] + joint[3 + j] * offset[k] - joint[3 + k] * offset[j];
        move[3 + i] = joint[3 + i];
    }
}

static int position_of(const plan_tube *tube, int32_t joint)
{
    for (int i = 0; i < tube->joint_count; i++) {
        if (tube->joints[i] == joint) {
            return i;
        }
    }
    return -1;
}

static void check_end(const solved_plan *solved, int32_t column, int32_t index, int at_last,
                      plan_scale scale)
{
    const trivet_span span = span_of(solved, index);
    const plan_tube *tube = &solved->plan->tubes[span.tube];
    const int32_t joint = at_last ? span.last_joint : span.first_joint;
    double forces[6];
    double move[6];
    done(solved->plan->seed, trivet_result_at(solved->result, column, index,
                                              at_last ? span.length : 0.0, forces, move));
    agree_forces(solved->plan->seed, "force at a span's end", forces,
                 solved->ends + (ptrdiff_t)6 * (2 * (column * solved->spans + index) + at_last),
                 forces_allowed(scale));
    if (joint >= 0 && tube->free_first == 0 && tube->free_last == 0) {
        double want[6];
        const int position = position_of(tube, joint);
        ck_assert_int_ge(position, 0);
        carried(solved->moves + (ptrdiff_t)6 * (column * solved->joints + joint),
                tube->offsets[position], want);
        agree_moves(solved->plan->seed, "movement at a span's end", move, want,
                    moves_allowed(scale));
    }
}

static void check_end_among_extremes(const solved_plan *solved, int32_t column, int32_t index,
                                     int at_last, double allowed)
{
    const uint64_t seed = solved->plan->seed;
    const double *end =
        solved->ends + (ptrdiff_t)6 * (2 * (column * solved->spans + index) + at_last);
    trivet_extreme extremes[6];
    done(seed, trivet_result_extremes(solved->result, column, index, extremes));
    for (int i = 0; i < 6; i++) {
        const double nearest = fmin(fmax(end[i], extremes[i].least), extremes[i].most);
        agree(seed, "value within the extremes nearest to the end's", nearest, end[i], allowed);
    }
}

/* A load right at an end jumps to the joint without passing through the span: left out here. */
START_TEST(ends_are_among_extremes)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        for (int32_t c = 0; c < solved.columns; c++) {
            const double allowed = forces_allowed(scale_of(&solved, c));
            for (int32_t k = 0; k < solved.spans; k++) {
                for (int end = 0; end < 2; end++) {
                    if (!has_load_at_end(&solved, k, end)) {
                        check_end_among_extremes(&solved, c, k, end, allowed);
                    }
                }
            }
        }
        free_solved_plan(&solved);
    }
}
END_TEST

/*
 * Forces inside a span at several places depart from the straight line between its ends by no more
 * than is said; in a span without loads by no more than rounding. Forces of even loads are straight
 * lines themselves.
 */
static void check_departures(const solved_plan *solved, int32_t column, int32_t index,
                             double allowed)
{
    enum { PLACES = 16 };
    const uint64_t seed = solved->plan->seed;
    const trivet_result *const result = solved->result;
    const double *const first = trivet_result_span_ends(result, NULL, NULL) +
                                12 * ((ptrdiff_t)column * solved->spans + index);
    const double length = result->spans[index].length;
    double most[6];
    const int is_even = trivet__span_departures(result, column, index, most);
    for (int p = 1; p < PLACES; p++) {
        const double share = (double)p / PLACES;
        double force[6];
        done(seed, trivet_result_at(result, column, index, share * length, force, NULL));
        for (int i = 0; i < 6; i++) {
            const double line = first[i] + share * (first[6 + i] - first[i]);
            if (!(fabs(force[i] - line) <= most[i] + allowed)) {
                ck_abort_msg("seed %llu: force %d inside departs by %g, at most by %g",
                             (unsigned long long)seed, i, force[i] - line, most[i]);
            }
        }
    }
    for (int i = 0; i < 4 && is_even; i++) {
        ck_assert_double_eq(most[i], 0.0);
    }
    if (column == 0 && result->load_counts[index] == 0) {
        ck_assert(is_even);
        ck_assert_double_eq(most[4], 0.0);
        ck_assert_double_eq(most[5], 0.0);
    }
}

/* Over all columns together, sizes are the largest of each. */
static void check_sizes(const solved_plan *solved)
{
    const size_t spans = (size_t)solved->spans;
    double *const all = calloc(18 * spans, sizeof *all);
    double *const own = calloc(18 * spans, sizeof *own);
    const double *const ends = trivet_result_span_ends(solved->result, NULL, NULL);
    ck_assert(all && own);
    trivet__span_sizes(solved->result, all, all + 12 * spans);
    for (int32_t c = 0; c < solved->columns; c++) {
        for (size_t i = 0; i < 12 * spans; i++) {
            own[i] = fmax(own[i], fabs(ends[12 * spans * (size_t)c + i]));
        }
        for (int32_t k = 0; k < solved->spans; k++) {
            double sizes[6];
            trivet__span_departures(solved->result, c, k, sizes);
            for (int i = 0; i < 6; i++) {
                double *const kept = &own[12 * spans + 6 * (size_t)k + (size_t)i];
                *kept = fmax(*kept, sizes[i]);
            }
        }
    }
    ck_assert_mem_eq(all, own, 18 * spans * sizeof *all);
    free(all);
    free(own);
}

START_TEST(forces_inside_depart_no_more_than_said)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        for (int32_t c = 0; c < solved.columns; c++) {
            const double allowed = forces_allowed(scale_of(&solved, c));
            for (int32_t k = 0; k < solved.spans; k++) {
                check_departures(&solved, c, k, allowed);
            }
        }
        check_sizes(&solved);
        free_solved_plan(&solved);
    }
}
END_TEST

START_TEST(span_ends_are_those_of_joints)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        find_flexibility(&solved);
        for (int32_t c = 0; c < solved.columns; c++) {
            const plan_scale scale = scale_of(&solved, c);
            for (int32_t k = 0; k < solved.spans; k++) {
                check_end(&solved, c, k, 0, scale);
                check_end(&solved, c, k, 1, scale);
            }
        }
        free_solved_plan(&solved);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("inside the spans", extremes_are_attained_and_never_exceeded,
                          ends_are_among_extremes, forces_inside_depart_no_more_than_said,
                          span_ends_are_those_of_joints);
}
