/*
 * Loads: on spans in their own axes, on nodes in the nodes' axes. Weight is a line load on every
 * span; cargo acts on its body (stiff) or is shared among its joints (soft).
 *
 * The share of soft cargo: each of n joints at d from their middle takes F / n + w x d, with w
 * from J w = M about the middle, J the sum of (|d|^2 1 - d d'): the least forces that balance F
 * and M. What of M no such forces can carry (joints in one line, or one joint) goes to the joints
 * as moments, in equal parts.
 */
#include "base/vec3.h"
#include "numerics/numerics.h"
#include "statics/lanes.h"
#include "statics/statics.h"

#include <assert.h>
#include <string.h>

/* ---- spans ---- */

/* Where loads on spans go. */
typedef struct span_lists {
    const trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
} span_lists;

static trivet__span_load *next_load(const span_lists *to, int32_t c, int32_t span)
{
    const int32_t list = c * to->plan->span_count + span;
    const int32_t at = to->plan->load_starts[list] + to->result->load_counts[list]++;
    assert(at < to->plan->load_starts[list + 1]);
    return &to->result->loads[at];
}

static void add_even(const span_lists *to, int32_t c, int32_t span, const double force[3])
{
    const ptrdiff_t lanes = to->plan->lanes;
    double *const even = to->workspace->span_resultants + 6 * lanes * span + trivet__six_lane(c);
    for (ptrdiff_t i = 0; i < 3; i++) {
        even[TRIVET__LANE_STEP * i] += force[i];
    }
}

/* The weight of a span in every case: N/m for each case's gravity in units of g. */
static void add_weights(const span_lists *to, const trivet_frame *frame, int32_t span)
{
    const trivet__span *const placed = &to->result->spans[span];
    for (int32_t c = 0; c < to->plan->case_count; c++) {
        const double *const gravity = frame->cases[c].gravity;
        if (gravity[0] == 0.0 && gravity[1] == 0.0 && gravity[2] == 0.0) {
            continue;
        }
        double force[3];
        for (int i = 0; i < 3; i++) {
            force[i] = gravity[i] * TRIVET__GRAVITY * placed->mass;
        }
        trivet__span_load *const load = next_load(to, c, span);
        load->is_point = 0;
        load->is_even = 1;
        load->from = 0.0;
        load->to = placed->length;
        trivet__into_axes3(placed->axes, force, load->first);
        memcpy(load->last, load->first, sizeof load->last);
        add_even(to, c, span, load->first);
    }
}

static void set_in_axes(const trivet__span *span, int32_t axes, const double given[3],
                        double out[3])
{
    if (axes == TRIVET_TUBE_AXES) {
        memcpy(out, given, 3 * sizeof *out);
    } else {
        trivet__into_axes3(span->axes, given, out);
    }
}

static int is_level(const trivet__tube_line *line)
{
    return line->first[0] == line->last[0] && line->first[1] == line->last[1] &&
           line->first[2] == line->last[2];
}

/* The part of a line load that lies on one span. */
static void add_line(const span_lists *to, const trivet__tube_line *line, double length, int32_t c,
                     int32_t span)
{
    const trivet__span *const placed = &to->result->spans[span];
    const double end = isnan(line->to) ? length : line->to;
    const double first = fmax(line->from, placed->start);
    const double last = fmin(end, placed->start + placed->length);
    if (!(last - first > TRIVET__ROUNDING * length)) {
        return;
    }
    trivet__span_load *const load = next_load(to, c, span);
    load->is_point = 0;
    load->from = first - placed->start;
    load->to = fmin(last - placed->start, placed->length);
    load->is_even = is_level(line) && load->from == 0.0 && load->to == placed->length;
    if (is_level(line)) {
        set_in_axes(placed, line->axes, line->first, load->first);
        memcpy(load->last, load->first, sizeof load->last);
    } else {
        double at_first[3];
        double at_last[3];
        for (int i = 0; i < 3; i++) {
            const double slope = (line->last[i] - line->first[i]) / (end - line->from);
            at_first[i] = line->first[i] + slope * (first - line->from);
            at_last[i] = line->first[i] + slope * (last - line->from);
        }
        set_in_axes(placed, line->axes, at_first, load->first);
        set_in_axes(placed, line->axes, at_last, load->last);
    }
    if (load->is_even) {
        add_even(to, c, span, load->first);
    } else {
        to->workspace->span_others[span] = 1;
    }
}

/* A force where two spans meet belongs to the later one, at the tube's end to the last. */
static int32_t span_at(const trivet_plan *plan, const trivet_result *result, int32_t tube,
                       double at)
{
    int32_t span = plan->tube_spans[tube + 1] - 1;
    while (span > plan->tube_spans[tube] && at < result->spans[span].start) {
        span--;
    }
    return span;
}

static void add_point(const span_lists *to, const trivet__tube_force *point, int32_t c)
{
    const int32_t span = span_at(to->plan, to->result, point->tube, point->at);
    const trivet__span *const placed = &to->result->spans[span];
    trivet__span_load *const load = next_load(to, c, span);
    load->is_point = 1;
    load->is_even = 0;
    load->from = fmin(fmax(point->at - placed->start, 0.0), placed->length);
    load->to = load->from;
    set_in_axes(placed, point->axes, point->force, load->first);
    set_in_axes(placed, point->axes, point->moment, load->last);
    to->workspace->span_others[span] = 1;
}

static double tube_length(const trivet_plan *plan, const trivet_result *result, int32_t tube)
{
    const trivet__span *const last = &result->spans[plan->tube_spans[tube + 1] - 1];
    return last->start + last->length;
}

/* Weights first, so that a span's own numbers are read once for all cases. */
static void load_spans(const span_lists *to, const trivet_frame *frame)
{
    const trivet_plan *const plan = to->plan;
    const size_t spans = (size_t)plan->span_count;
    memset(to->result->load_counts, 0, (size_t)plan->case_count * spans * sizeof(int32_t));
    memset(to->workspace->span_others, 0, spans * sizeof(int32_t));
    for (int32_t s = 0; s < plan->span_count; s++) {
        double *const even = to->workspace->span_resultants + (ptrdiff_t)6 * plan->lanes * s;
        memset(even, 0, 6 * (size_t)plan->lanes * sizeof *even);
        add_weights(to, frame, s);
    }
    for (int32_t c = 0; c < plan->case_count; c++) {
        const trivet__case *const of = &frame->cases[c];
        for (int32_t i = 0; i < of->tube_line_count; i++) {
            const trivet__tube_line *const line = &of->tube_lines[i];
            const int32_t end = plan->tube_spans[line->tube + 1];
            const double length = tube_length(plan, to->result, line->tube);
            for (int32_t s = plan->tube_spans[line->tube]; s < end; s++) {
                add_line(to, line, length, c, s);
            }
        }
        for (int32_t i = 0; i < of->tube_force_count; i++) {
            add_point(to, &of->tube_forces[i], c);
        }
    }
}

/* ---- nodes ---- */

/* Where the loads of one case on nodes go: its lane in the rows of forces. */
typedef struct lane {
    const trivet_plan *plan;
    const trivet_frame *frame;
    double *forces; /* the lane's first entry */
} lane;

/* Adds a force and a moment in world axes at a node. */
static void add_to_node(const lane *to, int32_t node, const double force[3], const double moment[3])
{
    const double *const axes = trivet__node_axes(to->plan, to->frame, node);
    const ptrdiff_t lanes = to->plan->lanes;
    double *const at = to->forces + TRIVET__SIX * lanes * node;
    for (int part = 0; part < 2; part++) {
        double turned[3];
        memcpy(turned, part == 0 ? force : moment, sizeof turned);
        if (axes) {
            trivet__into_axes3(axes, turned, turned);
        }
        for (int i = 0; i < 3; i++) {
            at[TRIVET__LANE_STEP * (3 * part + i)] += turned[i];
        }
    }
}

static void joints_middle(const trivet_frame *frame, const trivet__cargo *cargo, double middle[3])
{
    for (int i = 0; i < 3; i++) {
        middle[i] = 0.0;
    }
    for (int32_t k = 0; k < cargo->joint_count; k++) {
        trivet__add3(middle, 1.0 / cargo->joint_count, frame->joints[cargo->joints[k]].position);
    }
}

/* J, and its Moore-Penrose inverse. */
static void spread_inertia(const trivet_frame *frame, const trivet__cargo *cargo,
                           const double middle[3], double inertia[9], double inverse[9])
{
    enum { INVERSE_SCRATCH = 64 };
    double scratch[INVERSE_SCRATCH];
    assert(trivet__inverse_scratch(3, 3) <= INVERSE_SCRATCH);
    memset(inertia, 0, 9 * sizeof *inertia);
    for (int32_t k = 0; k < cargo->joint_count; k++) {
        double d[3];
        trivet__minus3(frame->joints[cargo->joints[k]].position, middle, d);
        for (int i = 0; i < 3; i++) {
            inertia[4 * i] += trivet__dot3(d, d);
            for (int j = 0; j < 3; j++) {
                inertia[3 * i + j] -= d[i] * d[j];
            }
        }
    }
    if (trivet__pseudo_inverse(3, 3, inertia, inverse, scratch) < 0) {
        memset(inverse, 0, 9 * sizeof *inverse);
    }
}

static void share_cargo(const lane *to, const trivet__cargo *cargo, const double force[3],
                        const double about_centre[3])
{
    const trivet_frame *const frame = to->frame;
    double middle[3];
    double inertia[9];
    double inverse[9];
    joints_middle(frame, cargo, middle);
    spread_inertia(frame, cargo, middle, inertia, inverse);
    double arm[3];
    double moment[3];
    trivet__minus3(cargo->centre, middle, arm);
    trivet__cross3(arm, force, moment);
    trivet__add3(moment, 1.0, about_centre);
    double w[3];
    double carried[3];
    trivet__into_axes3(inverse, moment, w);
    trivet__into_axes3(inertia, w, carried);
    double each[3];
    for (int i = 0; i < 3; i++) {
        each[i] = (moment[i] - carried[i]) / cargo->joint_count;
    }
    for (int32_t k = 0; k < cargo->joint_count; k++) {
        double d[3];
        double share[3];
        trivet__minus3(frame->joints[cargo->joints[k]].position, middle, d);
        trivet__cross3(w, d, share);
        trivet__add3(share, 1.0 / cargo->joint_count, force);
        add_to_node(to, cargo->joints[k], share, each);
    }
}

/* A force at a place and a moment, carried by a cargo. */
static void load_cargo(const lane *to, int32_t index, const double force[3], const double moment[3],
                       const double at[3])
{
    const trivet__cargo *const cargo = &to->frame->cargos[index];
    double arm[3];
    double about_centre[3];
    trivet__minus3(at, cargo->centre, arm);
    trivet__cross3(arm, force, about_centre);
    trivet__add3(about_centre, 1.0, moment);
    if (to->plan->cargo_nodes[index] >= 0) {
        add_to_node(to, to->plan->cargo_nodes[index], force, about_centre);
    } else {
        share_cargo(to, cargo, force, about_centre);
    }
}

void trivet__cargo_weight(const trivet_frame *frame, const trivet__case *of, int32_t cargo,
                          double force[3])
{
    const double mass = frame->cargos[cargo].mass * of->cargo_factors[cargo];
    for (int i = 0; i < 3; i++) {
        force[i] = of->gravity[i] * TRIVET__GRAVITY * mass;
    }
}

static void load_nodes(const lane *to, const trivet__case *of)
{
    const trivet_frame *const frame = to->frame;
    const double none[3] = {0.0, 0.0, 0.0};
    for (int32_t i = 0; i < of->joint_force_count; i++) {
        const trivet__joint_force *const load = &of->joint_forces[i];
        add_to_node(to, load->joint, load->force, load->moment);
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        double weight[3];
        trivet__cargo_weight(frame, of, i, weight);
        if (trivet__dot3(weight, weight) > 0.0) {
            load_cargo(to, i, weight, none, frame->cargos[i].centre);
        }
    }
    for (int32_t i = 0; i < of->cargo_force_count; i++) {
        const trivet__cargo_force *const load = &of->cargo_forces[i];
        const double *const at = load->at_centre ? frame->cargos[load->cargo].centre : load->at;
        load_cargo(to, load->cargo, load->force, load->moment, at);
    }
}

/* What moves with the ground: held directions. Sprung ones are loaded through their springs. */
static int32_t move_mounts(const lane *to, const trivet__case *of, double *fixed)
{
    int32_t any = 0;
    for (int32_t m = 0; m < to->frame->mount_count; m++) {
        for (int d = 0; d < TRIVET__SIX; d++) {
            const double move = of->mount_moves[TRIVET__SIX * m + d];
            const int32_t direction = TRIVET__SIX * to->frame->mounts[m].joint + d;
            any |= move != 0.0;
            if (to->plan->directions[direction] == TRIVET__HELD) {
                fixed[trivet__six_row(to->plan->lanes, direction)] = move;
            }
        }
    }
    return any;
}

static void set_factors(const trivet_frame *frame, trivet_result *result)
{
    for (int32_t i = 0; i < frame->case_count; i++) {
        result->factors[i] = 1.0;
    }
    int32_t at = frame->case_count;
    for (int32_t i = 0; i < frame->combination_count; i++) {
        const trivet__combination *const sum = &frame->combinations[i];
        memcpy(result->factors + at, sum->factors, (size_t)sum->case_count * sizeof(double));
        at += sum->case_count;
    }
}

void trivet__place_loads(const trivet_plan *plan, const trivet_frame *frame,
                         trivet_workspace *workspace, trivet_result *result)
{
    const size_t all = (size_t)plan->lanes * (size_t)plan->direction_count;
    memset(workspace->forces, 0, all * sizeof *workspace->forces);
    memset(workspace->fixed, 0, all * sizeof *workspace->fixed);
    workspace->has_moves = 0;
    load_spans(&(span_lists){plan, workspace, result}, frame);
    for (int32_t c = 0; c < plan->case_count; c++) {
        const trivet__case *const of = &frame->cases[c];
        const lane to = {plan, frame, workspace->forces + trivet__six_lane(c)};
        workspace->warm[c] = of->warm;
        result->warm[c] = of->warm;
        load_nodes(&to, of);
        workspace->has_moves |= move_mounts(&to, of, workspace->fixed + trivet__six_lane(c));
    }
    set_factors(frame, result);
}
