/*
 * The plan: stations and spans along the tubes, nodes, columns of results, room for loads. The
 * numbering of equations is in numbering.c, ties of stiff cargo in tie.c.
 */
#include "base/block.h"
#include "base/memory.h"
#include "base/message.h"
#include "numerics/numerics.h"
#include "statics/lanes.h"
#include "statics/numbering.h"
#include "statics/statics.h"

#include <assert.h>
#include <math.h>

/* Upper bounds of counts, and the counts of what hangs on the frame alone. */
static int count_parts(const trivet_frame *frame, trivet_plan *plan)
{
    int64_t stations = 0;
    int64_t inserts = 0;
    for (int32_t i = 0; i < frame->tube_count; i++) {
        inserts += frame->tubes[i].insert_count;
        stations += frame->tubes[i].joint_count;
    }
    stations += 2 * inserts;
    int64_t ties = 0;
    int64_t bodies = 0;
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        if (frame->cargos[i].grip == TRIVET_GRIP_STIFF) {
            ties += frame->cargos[i].joint_count;
            bodies++;
        }
    }
    int64_t factors = frame->case_count;
    for (int32_t i = 0; i < frame->combination_count; i++) {
        factors += frame->combinations[i].case_count;
    }
    const int64_t nodes = frame->joint_count + 2 * inserts + bodies;
    const int64_t columns = (int64_t)frame->case_count + frame->combination_count;
    const int64_t largest = INT32_MAX / 64;
    if (stations > largest || nodes > largest || ties > largest || factors > largest ||
        columns * stations > INT32_MAX / 16 || columns * nodes > INT32_MAX / 16) {
        return 0;
    }
    plan->joint_count = frame->joint_count;
    plan->tube_count = frame->tube_count;
    plan->mount_count = frame->mount_count;
    plan->cargo_count = frame->cargo_count;
    plan->case_count = frame->case_count;
    plan->lanes = trivet__lanes_of(frame->case_count);
    plan->column_count = (int32_t)columns;
    plan->factor_count = (int32_t)factors;
    plan->tie_count = (int32_t)ties;
    plan->body_count = (int32_t)bodies;
    plan->node_count = (int32_t)nodes;
    plan->station_count = (int32_t)stations;
    plan->direction_count = TRIVET__SIX * plan->node_count;
    plan->cluster_direction_count = 3 * plan->tie_count + TRIVET__SIX * plan->body_count;
    return 1;
}

static void carve_plan(trivet_plan *plan, trivet__carver *carver)
{
    const size_t nodes = (size_t)plan->node_count;
    const size_t stations = (size_t)plan->station_count;
    const size_t tubes = (size_t)plan->tube_count;
    const size_t ties = (size_t)plan->tie_count;
    const size_t bodies = (size_t)plan->body_count;
    plan->stations = trivet__carve(carver, stations, sizeof *plan->stations);
    plan->spans = trivet__carve(carver, stations, sizeof *plan->spans);
    plan->tube_stations = trivet__carve(carver, tubes + 1, sizeof(int32_t));
    plan->tube_spans = trivet__carve(carver, tubes + 1, sizeof(int32_t));
    plan->node_mounts = trivet__carve(carver, nodes, sizeof(int32_t));
    plan->node_clusters = trivet__carve(carver, nodes, sizeof(int32_t));
    plan->cargo_nodes = trivet__carve(carver, (size_t)plan->cargo_count, sizeof(int32_t));
    plan->directions = trivet__carve(carver, (size_t)plan->direction_count, sizeof(int32_t));
    plan->clusters = trivet__carve(carver, bodies, sizeof *plan->clusters);
    plan->cluster_directions =
        trivet__carve(carver, (size_t)plan->cluster_direction_count, sizeof(int32_t));
    plan->ties = trivet__carve(carver, ties, sizeof *plan->ties);
    plan->pivots = trivet__carve(carver, 3 * ties, sizeof *plan->pivots);
    plan->column_starts = trivet__carve(carver, (size_t)plan->column_count + 1, sizeof(int32_t));
    plan->column_cases = trivet__carve(carver, (size_t)plan->factor_count, sizeof(int32_t));
    plan->load_starts =
        trivet__carve(carver, (size_t)plan->case_count * stations + 1, sizeof(int32_t));
}

static trivet_status take_plan(trivet_plan *plan, trivet_message *message)
{
    trivet__carver carver = {NULL, 0, 0};
    carve_plan(plan, &carver);
    plan->block = trivet__take_block(&carver);
    if (!plan->block) {
        return trivet__no_memory(message);
    }
    carver = (trivet__carver){plan->block, 0, 0};
    carve_plan(plan, &carver);
    return TRIVET_OK;
}

/* Puts a station in its place among those of its tube, by distance. */
static void insert_station(trivet_plan *plan, const trivet_frame *frame, int32_t tube,
                           trivet__station station, double distance)
{
    int32_t at = plan->station_count;
    while (at > plan->tube_stations[tube] &&
           trivet__station_distance(frame, tube, &plan->stations[at - 1]) > distance) {
        plan->stations[at] = plan->stations[at - 1];
        at--;
    }
    plan->stations[at] = station;
    plan->station_count++;
}

static int is_new_place(const trivet_plan *plan, const trivet_frame *frame, int32_t tube,
                        double distance)
{
    for (int32_t i = plan->tube_stations[tube]; i < plan->station_count; i++) {
        const double there = trivet__station_distance(frame, tube, &plan->stations[i]);
        if (fabs(there - distance) <= TRIVET__SPAN_LEAST) {
            return 0;
        }
    }
    return 1;
}

static void add_stations(trivet_plan *plan, const trivet_frame *frame, int32_t tube)
{
    const trivet__tube *const of = &frame->tubes[tube];
    plan->tube_stations[tube] = plan->station_count;
    for (int32_t k = 0; k < of->joint_count; k++) {
        plan->stations[plan->station_count++] = (trivet__station){of->joints[k], k, -1, 0};
    }
    for (int32_t k = 0; k < of->insert_count; k++) {
        double ends[2];
        trivet__insert_stretch(frame, tube, k, &ends[0], &ends[1]);
        for (int32_t end = 0; end < 2; end++) {
            if (is_new_place(plan, frame, tube, ends[end])) {
                const int32_t node = plan->joint_count + plan->hidden_count++;
                insert_station(plan, frame, tube, (trivet__station){node, -1, k, end}, ends[end]);
            }
        }
    }
}

/* The insert that fills the middle between two places, or -1. */
static int32_t insert_between(const trivet_frame *frame, int32_t tube, double from, double to)
{
    for (int32_t k = 0; k < frame->tubes[tube].insert_count; k++) {
        double first = 0.0;
        double last = 0.0;
        trivet__insert_stretch(frame, tube, k, &first, &last);
        const double middle = 0.5 * (from + to);
        if (middle > first && middle < last) {
            return k;
        }
    }
    return -1;
}

static void add_spans(trivet_plan *plan, const trivet_frame *frame, int32_t tube)
{
    const trivet__tube *const of = &frame->tubes[tube];
    plan->tube_spans[tube] = plan->span_count;
    const int32_t last = plan->station_count - 1;
    for (int32_t i = plan->tube_stations[tube]; i < last; i++) {
        const trivet__station *const from = &plan->stations[i];
        const trivet__station *const to = &plan->stations[i + 1];
        trivet__span_map *const span = &plan->spans[plan->span_count++];
        span->tube = tube;
        span->first_node = from->node;
        span->last_node = to->node;
        span->first_station = i;
        span->insert = insert_between(frame, tube, trivet__station_distance(frame, tube, from),
                                      trivet__station_distance(frame, tube, to));
        span->free_first = i == plan->tube_stations[tube] ? of->free_first : 0;
        span->free_last = i + 1 == last ? of->free_last : 0;
    }
}

static void lay_out_tubes(trivet_plan *plan, const trivet_frame *frame)
{
    plan->station_count = 0;
    plan->span_count = 0;
    plan->hidden_count = 0;
    for (int32_t tube = 0; tube < plan->tube_count; tube++) {
        add_stations(plan, frame, tube);
        add_spans(plan, frame, tube);
    }
    plan->tube_stations[plan->tube_count] = plan->station_count;
    plan->tube_spans[plan->tube_count] = plan->span_count;
}

/* Bodies stand after the hidden nodes; the count of nodes shrinks to what there is. */
static void lay_out_nodes(trivet_plan *plan, const trivet_frame *frame)
{
    int32_t node = plan->joint_count + plan->hidden_count;
    for (int32_t i = 0; i < plan->cargo_count; i++) {
        const int is_body = frame->cargos[i].grip == TRIVET_GRIP_STIFF;
        plan->cargo_nodes[i] = is_body ? node++ : -1;
    }
    plan->node_count = node;
    plan->direction_count = TRIVET__SIX * node;
    for (int32_t i = 0; i < node; i++) {
        plan->node_mounts[i] = -1;
        plan->node_clusters[i] = -1;
    }
    for (int32_t i = 0; i < plan->mount_count; i++) {
        plan->node_mounts[frame->mounts[i].joint] = i;
    }
}

static void lay_out_columns(trivet_plan *plan, const trivet_frame *frame)
{
    int32_t at = 0;
    for (int32_t i = 0; i < plan->case_count; i++) {
        plan->column_starts[i] = at;
        plan->column_cases[at++] = i;
    }
    for (int32_t i = 0; i < frame->combination_count; i++) {
        const trivet__combination *const sum = &frame->combinations[i];
        plan->column_starts[plan->case_count + i] = at;
        for (int32_t k = 0; k < sum->case_count; k++) {
            plan->column_cases[at++] = sum->cases[k];
        }
    }
    plan->column_starts[plan->column_count] = at;
    assert(at == plan->factor_count);
}

/* Room for a case's loads on a tube's every span: its own weight, its lines, its points. */
static int32_t loads_on_tube(const trivet__case *of, int32_t tube)
{
    int32_t count = 1;
    for (int32_t i = 0; i < of->tube_line_count; i++) {
        count += of->tube_lines[i].tube == tube;
    }
    for (int32_t i = 0; i < of->tube_force_count; i++) {
        count += of->tube_forces[i].tube == tube;
    }
    return count;
}

static int lay_out_loads(trivet_plan *plan, const trivet_frame *frame)
{
    int64_t at = 0;
    for (int32_t c = 0; c < plan->case_count; c++) {
        for (int32_t tube = 0; tube < plan->tube_count; tube++) {
            const int32_t room = loads_on_tube(&frame->cases[c], tube);
            for (int32_t s = plan->tube_spans[tube]; s < plan->tube_spans[tube + 1]; s++) {
                plan->load_starts[c * plan->span_count + s] = (int32_t)at;
                at += room;
                if (at > INT32_MAX / 2) {
                    return 0;
                }
            }
        }
    }
    plan->load_starts[plan->case_count * plan->span_count] = (int32_t)at;
    plan->load_count = (int32_t)at;
    return 1;
}

static trivet_status fill_plan(trivet_plan *plan, const trivet_frame *frame,
                               trivet_message *message)
{
    lay_out_tubes(plan, frame);
    lay_out_nodes(plan, frame);
    lay_out_columns(plan, frame);
    if (!lay_out_loads(plan, frame)) {
        return trivet__no_memory(message);
    }
    trivet__hold_directions(plan, frame);
    const trivet_status status = trivet__tie_plan(frame, plan, message);
    return status == TRIVET_OK ? trivet__number_equations(plan, message) : status;
}

/* A span whose ends are freed so far that it has no hold in itself is told before any solve. */
static trivet_status try_spans(const trivet_plan *plan, const trivet_frame *frame,
                               trivet_message *message)
{
    const size_t stations = (size_t)plan->station_count;
    double *const points = trivet__take(4 * stations, sizeof(double));
    if (!points) {
        return trivet__no_memory(message);
    }
    double *const distances = points + 3 * stations;
    trivet__place_stations(plan, frame, points, distances);
    trivet_status status = TRIVET_OK;
    for (int32_t s = 0; s < plan->span_count && status == TRIVET_OK; s++) {
        trivet__span span;
        status = trivet__place_span(plan, frame, points, distances, s, &span, message);
    }
    trivet__give_back(points);
    return status;
}

trivet_status trivet_plan_new(const trivet_frame *frame, trivet_plan **plan_out,
                              trivet_message *message)
{
    if (!plan_out) {
        return trivet__missing(message, "plan_out");
    }
    *plan_out = NULL;
    trivet_status status = trivet_frame_validate(frame, message);
    if (status != TRIVET_OK) {
        return status;
    }
    trivet_plan *const plan = trivet__take(1, sizeof *plan);
    if (!plan || !count_parts(frame, plan)) {
        trivet_plan_free(plan);
        return trivet__no_memory(message);
    }
    plan->topology = trivet__frame_topology(frame);
    status = take_plan(plan, message);
    if (status == TRIVET_OK) {
        status = fill_plan(plan, frame, message);
    }
    if (status == TRIVET_OK) {
        status = try_spans(plan, frame, message);
    }
    if (status != TRIVET_OK) {
        trivet_plan_free(plan);
        return status;
    }
    *plan_out = plan;
    return TRIVET_OK;
}

void trivet_plan_free(trivet_plan *plan)
{
    if (plan) {
        trivet__give_back_block(plan->expansion_block);
        trivet__give_back_block(plan->block);
        trivet__give_back(plan);
    }
}

int32_t trivet_plan_size(const trivet_plan *plan, int32_t *bandwidth_out)
{
    if (bandwidth_out) {
        *bandwidth_out = plan ? plan->reach : 0;
    }
    return plan ? plan->equation_count : 0;
}
