/*
 * The springs of all mounts that explain readings best: least squares of (computed - read) /
 * within.
 *
 * Gauss and Newton on the logarithms of the springs, so that they stay above 0 and all sizes are
 * alike; derivatives by central differences. Where a full step does not improve, it is damped and
 * so shortened: (J'J + lambda I) step = J'r (Levenberg 1944; Nocedal and Wright, Numerical
 * Optimization, section 10.3; from memory). A step of plain halves would stand still where one
 * spring is so stiff that no reading feels it any more. From several starting points the best is
 * kept.
 */
#include "checks/give_fit.h"
#include "frame/frame.h"
#include "numerics/numerics.h"

#include <math.h>
#include <string.h>

enum { ROUNDS_MAX = 100, DAMPINGS = 16, UNKNOWNS_MAX = TRIVET__UNKNOWNS_MAX };

#define STEP 1e-4          /* of a logarithm, for derivatives */
#define LARGEST_STEP 2.0   /* of a logarithm, in one round */
#define CLOSE 1e-11        /* of a logarithm: the fit stands still */
#define LEAST_DAMPING 1e-8 /* share of the steepest slope squared; each time ten times more */

trivet_status trivet__fitting_set(trivet_frame *frame, const trivet__fitting *of,
                                  const double *logs)
{
    trivet_status status = TRIVET_OK;
    for (int32_t m = 0; m < frame->mount_count && status == TRIVET_OK; m++) {
        trivet_mount mount = frame->mounts[m];
        for (int32_t k = 0; k < of->unknown_count; k++) {
            const int32_t d = of->unknowns[k];
            const uint32_t bit = 1U << (uint32_t)d;
            if (!(mount.held & bit) && !(mount.spring[d] > 0.0)) {
                continue;
            }
            mount.held = logs ? mount.held & ~bit : mount.held | bit;
            mount.spring[d] = logs ? exp(logs[k]) : 0.0;
        }
        status = trivet_frame_set_mount(frame, m, &mount, of->message);
    }
    return status;
}

void trivet__fitting_read(const trivet__fitting *of, const trivet_result *result, double *drops_out)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(result, NULL, &joint_count);
    for (int32_t i = 0; i < of->count; i++) {
        const ptrdiff_t row = (ptrdiff_t)(of->first_case + i) * joint_count + of->readings[i].joint;
        drops_out[i] = -moves[6 * row + 2];
    }
}

trivet_status trivet__fitting_predict(const trivet__fitting *of, const double *logs,
                                      double *drops_out)
{
    trivet_status status = trivet__fitting_set(of->frame, of, logs);
    if (status == TRIVET_OK) {
        status = trivet_plan_solve(of->plan, of->frame, of->workspace, of->result, of->message);
    }
    if (status == TRIVET_OK) {
        trivet__fitting_read(of, of->result, drops_out);
    }
    return status;
}

static double misfit_of(const trivet__fitting *of, const double *drops)
{
    double sum = 0.0;
    for (int32_t i = 0; i < of->count; i++) {
        const double off = (drops[i] - of->readings[i].drop) / of->readings[i].within;
        sum += off * off;
    }
    return sum;
}

/* What is held has no slopes: the pseudo-inverse then takes no step that way. */
static void clear_slopes(const trivet__fitting *of, int32_t unknown)
{
    for (int32_t i = 0; i < of->count; i++) {
        of->slopes[(ptrdiff_t)i * of->unknown_count + unknown] = 0.0;
    }
}

trivet_status trivet__fitting_slopes(const trivet__fitting *of, const double *logs)
{
    trivet_status status = TRIVET_OK;
    for (int32_t k = 0; k < of->unknown_count && status == TRIVET_OK; k++) {
        double moved[UNKNOWNS_MAX];
        if (k == of->held) {
            clear_slopes(of, k);
            continue;
        }
        memcpy(moved, logs, sizeof moved);
        moved[k] = logs[k] + STEP;
        status = trivet__fitting_predict(of, moved, of->trial);
        moved[k] = logs[k] - STEP;
        if (status == TRIVET_OK) {
            status = trivet__fitting_predict(of, moved, of->other);
        }
        for (int32_t i = 0; i < of->count && status == TRIVET_OK; i++) {
            of->slopes[(ptrdiff_t)i * of->unknown_count + k] =
                (of->trial[i] - of->other[i]) / (2.0 * STEP) / of->readings[i].within;
        }
    }
    return status;
}

/* The steepest slope squared. */
static double steepest(const trivet__fitting *of)
{
    double most = 0.0;
    for (int32_t k = 0; k < of->unknown_count; k++) {
        double square = 0.0;
        for (int32_t i = 0; i < of->count; i++) {
            const double slope = of->slopes[(ptrdiff_t)i * of->unknown_count + k];
            square += slope * slope;
        }
        most = fmax(most, square);
    }
    return most;
}

/* The damped step out of slopes and drops: rows of sqrt(lambda) below the slopes do the damping. */
static void find_step(const trivet__fitting *of, double damping, double *step_out)
{
    const int32_t unknowns = of->unknown_count;
    const int32_t rows = of->count + unknowns;
    for (int32_t k = 0; k < unknowns; k++) {
        double *const row = of->slopes + (ptrdiff_t)(of->count + k) * unknowns;
        memset(row, 0, (size_t)unknowns * sizeof *row);
        row[k] = sqrt(damping);
    }
    if (trivet__pseudo_inverse(rows, unknowns, of->slopes, of->inverse, of->scratch) < 0) {
        memset(step_out, 0, (size_t)unknowns * sizeof *step_out);
        return;
    }
    for (int32_t k = 0; k < unknowns; k++) {
        double step = 0.0;
        for (int32_t i = 0; i < of->count; i++) {
            step += of->inverse[(ptrdiff_t)k * rows + i] * (of->readings[i].drop - of->drops[i]) /
                    of->readings[i].within;
        }
        step_out[k] = fmax(-LARGEST_STEP, fmin(LARGEST_STEP, step));
    }
}

/* A place one step on, kept inside what a spring can be; returns the largest change. */
static double go(const trivet__fitting *of, const double *logs, const double *step, double *to)
{
    double largest = 0.0;
    for (int32_t k = 0; k < of->unknown_count; k++) {
        to[k] = fmax(log(TRIVET__SPRING_LEAST), fmin(log(TRIVET__SPRING_MOST), logs[k] + step[k]));
        largest = fmax(largest, fabs(to[k] - logs[k]));
    }
    return largest;
}

int trivet__fitting_is_bad_place(trivet_status status)
{
    return status == TRIVET_MOVES_FREELY || status == TRIVET_ILL_CONDITIONED;
}

/* One round: goes on by the least damped step that improves. *largest_out: 0 if none does. */
static trivet_status improve(const trivet__fitting *of, double *logs, double *misfit,
                             double *largest_out)
{
    trivet_status status = trivet__fitting_slopes(of, logs);
    const double unit = status == TRIVET_OK ? LEAST_DAMPING * steepest(of) : 0.0;
    double damping = 0.0;
    *largest_out = 0.0;
    for (int i = 0; i < DAMPINGS && status == TRIVET_OK; i++) {
        double step[UNKNOWNS_MAX] = {0.0};
        double to[UNKNOWNS_MAX] = {0.0};
        find_step(of, damping, step);
        const double largest = go(of, logs, step, to);
        damping = i == 0 ? unit : 10.0 * damping;
        if (!(largest > CLOSE)) {
            return TRIVET_OK;
        }
        status = trivet__fitting_predict(of, to, of->trial);
        if (trivet__fitting_is_bad_place(status)) {
            status = TRIVET_OK;
            continue;
        }
        const double there = status == TRIVET_OK ? misfit_of(of, of->trial) : HUGE_VAL;
        if (there < *misfit) {
            *misfit = there;
            *largest_out = largest;
            memcpy(logs, to, sizeof to);
            memcpy(of->drops, of->trial, (size_t)of->count * sizeof *of->drops);
            return TRIVET_OK;
        }
    }
    return status;
}

trivet_status trivet__fitting_descend(const trivet__fitting *of, double *logs, double *misfit_out)
{
    double largest = HUGE_VAL;
    trivet_status status = trivet__fitting_predict(of, logs, of->drops);
    *misfit_out = status == TRIVET_OK ? misfit_of(of, of->drops) : HUGE_VAL;
    for (int round = 0; round < ROUNDS_MAX && status == TRIVET_OK && largest > CLOSE; round++) {
        status = improve(of, logs, misfit_out, &largest);
    }
    return status;
}

trivet_status trivet__fitting_search(const trivet__fitting *of, double *logs_out,
                                     double *misfit_out)
{
    trivet_status last = TRIVET_INTERNAL;
    *misfit_out = HUGE_VAL;
    for (int32_t give = TRIVET_GIVE_CAST_LUG; give <= TRIVET_GIVE_RUBBER; give++) {
        double springs[UNKNOWNS_MAX];
        double logs[UNKNOWNS_MAX] = {0.0};
        double misfit = HUGE_VAL;
        trivet_give_springs(give, springs);
        for (int32_t k = 0; k < of->unknown_count; k++) {
            logs[k] = log(springs[of->unknowns[k]]);
        }
        last = trivet__fitting_descend(of, logs, &misfit);
        if (last != TRIVET_OK && !trivet__fitting_is_bad_place(last)) {
            return last;
        }
        if (misfit < *misfit_out) {
            *misfit_out = misfit;
            memcpy(logs_out, logs, sizeof logs);
        }
    }
    return *misfit_out < HUGE_VAL ? trivet__fitting_predict(of, logs_out, of->drops) : last;
}
