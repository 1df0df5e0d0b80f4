/*
 * The whole frame's balance, told from the loads as they were given and the reactions alone: it
 * owes nothing to the equations.
 */
#include "base/processor.h"
#include "base/vec3.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <string.h>

double trivet__frame_size(const trivet_frame *frame)
{
    double low[3];
    double high[3];
    memcpy(low, frame->joints[0].position, sizeof low);
    memcpy(high, frame->joints[0].position, sizeof high);
    for (int32_t k = 1; k < frame->joint_count; k++) {
        for (int i = 0; i < 3; i++) {
            low[i] = fmin(low[i], frame->joints[k].position[i]);
            high[i] = fmax(high[i], frame->joints[k].position[i]);
        }
    }
    trivet__minus3(high, low, high);
    return trivet__length3(high);
}

/* Force and moment about a place, and the sums of their sizes (of the three parts of each). */
typedef struct total {
    double force[3];
    double moment[3];
    double force_size;
    double moment_size;
} total;

static double size_of(const double v[3])
{
    return fabs(v[0]) + fabs(v[1]) + fabs(v[2]);
}

static void add_moment(total *sum, const double moment[3])
{
    trivet__add3(sum->moment, 1.0, moment);
    sum->moment_size += size_of(moment);
}

/* A force with its arm from the place that moments are taken about. */
static void add_force(total *sum, const double arm[3], const double force[3])
{
    double moment[3];
    trivet__cross3(arm, force, moment);
    trivet__add3(sum->force, 1.0, force);
    sum->force_size += size_of(force);
    add_moment(sum, moment);
}

static void add_force_at(total *sum, const double about[3], const double at[3],
                         const double force[3])
{
    double arm[3];
    trivet__minus3(at, about, arm);
    add_force(sum, arm, force);
}

static void add_node_loads(const trivet_frame *frame, const trivet__case *of, const double about[3],
                           total *sum)
{
    for (int32_t i = 0; i < of->joint_force_count; i++) {
        const trivet__joint_force *const load = &of->joint_forces[i];
        add_force_at(sum, about, frame->joints[load->joint].position, load->force);
        add_moment(sum, load->moment);
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        double weight[3];
        trivet__cargo_weight(frame, of, i, weight);
        add_force_at(sum, about, frame->cargos[i].centre, weight);
    }
    for (int32_t i = 0; i < of->cargo_force_count; i++) {
        const trivet__cargo_force *const load = &of->cargo_forces[i];
        add_force_at(sum, about, load->at_centre ? frame->cargos[load->cargo].centre : load->at,
                     load->force);
        add_moment(sum, load->moment);
    }
}

/* Rows: force, moment and their sizes, summed over spans. */
enum { FORCE = 0, MOMENT = 3, FORCE_SIZE = 6, MOMENT_SIZE = 7, SUMS = 8 };

/*
 * What turns a force along each axis of a span, at its last end, into moments about a place:
 * column a is arm x axis a.
 */
TRIVET__INSIDE void find_levers(const double axes[9], const double end[3], const double about[3],
                                double levers[9])
{
    double arm[3];
    trivet__minus3(end, about, arm);
    for (int a = 0; a < 3; a++) {
        trivet__cross3(arm, axes + (ptrdiff_t)3 * a, levers + (ptrdiff_t)3 * a);
    }
}

/* Adds four lanes of a span's resultant, world axes, and the sizes of its parts. */
TRIVET__INSIDE void add_resultant(const trivet__four local[6], const double axes[9],
                                  const double levers[9], trivet__four sums[SUMS])
{
    for (int i = 0; i < 3; i++) {
        const trivet__four force =
            axes[i] * local[0] + axes[3 + i] * local[1] + axes[6 + i] * local[2];
        const trivet__four moment = axes[i] * local[3] + axes[3 + i] * local[4] +
                                    axes[6 + i] * local[5] + levers[i] * local[0] +
                                    levers[3 + i] * local[1] + levers[6 + i] * local[2];
        sums[FORCE + i] += force;
        sums[MOMENT + i] += moment;
        trivet__four_add_size(&sums[FORCE_SIZE], &force);
        trivet__four_add_size(&sums[MOMENT_SIZE], &moment);
    }
}

/* Loads on spans by their resultants about the spans' last ends, a lane a case. */
TRIVET__WIDE
static void sum_span_loads(const trivet_plan *plan, const trivet_workspace *workspace,
                           const trivet_result *result, const double about[3], double *rows)
{
    const ptrdiff_t lanes = plan->lanes;
    for (ptrdiff_t c = 0; c < lanes; c += TRIVET__LANE_STEP) {
        trivet__four sums[SUMS];
        memset(sums, 0, sizeof sums);
        for (int32_t s = 0; s < plan->span_count; s++) {
            const double *const axes = result->spans[s].axes;
            const ptrdiff_t end = plan->spans[s].first_station + 1;
            double levers[9];
            trivet__four local[6];
            find_levers(axes, workspace->station_points + 3 * end, about, levers);
            trivet__six_load(workspace->span_resultants + 6 * (lanes * s + c), local);
            add_resultant(local, axes, levers, sums);
        }
        for (int i = 0; i < SUMS; i++) {
            *trivet__fours_of(rows + i * lanes + c) = sums[i];
        }
    }
}

static void start_total(int32_t lanes, const double *rows, int32_t c, total *sum)
{
    for (int i = 0; i < 3; i++) {
        sum->force[i] = rows[(FORCE + i) * lanes + c];
        sum->moment[i] = rows[(MOMENT + i) * lanes + c];
    }
    sum->force_size = rows[FORCE_SIZE * lanes + c];
    sum->moment_size = rows[MOMENT_SIZE * lanes + c];
}

static void add_reactions(const trivet_plan *plan, const trivet_frame *frame,
                          const double *reactions, const double about[3], total *sum)
{
    for (int32_t m = 0; m < plan->mount_count; m++) {
        const double *const reaction = reactions + (ptrdiff_t)TRIVET__SIX * m;
        add_force_at(sum, about, frame->joints[frame->mounts[m].joint].position, reaction);
        add_moment(sum, reaction + 3);
    }
}

static void judge_balance(const total *sum, double arm, trivet_quality *quality)
{
    const double size = fmax(sum->force_size, sum->moment_size / arm);
    quality->balance_force = size > 0.0 ? trivet__length3(sum->force) / size : 0.0;
    quality->balance_moment = size > 0.0 ? trivet__length3(sum->moment) / (size * arm) : 0.0;
}

void trivet__balance(const trivet_plan *plan, const trivet_frame *frame,
                     trivet_workspace *workspace, trivet_result *result)
{
    double middle[3] = {0.0, 0.0, 0.0};
    for (int32_t k = 0; k < plan->joint_count; k++) {
        trivet__add3(middle, 1.0 / plan->joint_count, frame->joints[k].position);
    }
    const double arm = trivet__frame_size(frame);
    sum_span_loads(plan, workspace, result, middle, workspace->rows);
    for (int32_t c = 0; c < plan->case_count; c++) {
        total sum;
        start_total(plan->lanes, workspace->rows, c, &sum);
        add_node_loads(frame, &frame->cases[c], middle, &sum);
        add_reactions(plan, frame, result->reactions + (size_t)c * (size_t)plan->mount_count * 6,
                      middle, &sum);
        judge_balance(&sum, arm, &result->quality[c]);
    }
    /* A sum of cases is as well balanced as the worst of them. */
    for (int32_t column = plan->case_count; column < plan->column_count; column++) {
        trivet_quality *const quality = &result->quality[column];
        quality->balance_force = 0.0;
        quality->balance_moment = 0.0;
        quality->residual = 0.0;
        for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
            const trivet_quality *const part = &result->quality[plan->column_cases[k]];
            quality->balance_force = fmax(quality->balance_force, part->balance_force);
            quality->balance_moment = fmax(quality->balance_moment, part->balance_moment);
            quality->residual = fmax(quality->residual, part->residual);
        }
    }
}
