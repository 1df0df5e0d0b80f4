/*
 * Where the spans lie in this frame, and how the movements of their nodes reach them.
 */
#include "base/message.h"
#include "base/vec3.h"
#include "statics/lanes.h"
#include "statics/numbering.h"
#include "statics/statics.h"

#include <assert.h>
#include <string.h>

const double *trivet__node_axes(const trivet_plan *plan, const trivet_frame *frame, int32_t node)
{
    const int32_t mount = plan->node_mounts[node];
    return mount < 0 ? NULL : frame->mounts[mount].axes;
}

/* Joints of a tube, one after the other. */
static void place_joints(const trivet_plan *plan, const trivet_frame *frame, int32_t tube,
                         double *points, double *distances)
{
    int32_t before = -1;
    for (int32_t k = plan->tube_stations[tube]; k < plan->tube_stations[tube + 1]; k++) {
        const trivet__station *const station = &plan->stations[k];
        if (station->position < 0) {
            continue;
        }
        double *const point = points + (ptrdiff_t)3 * k;
        trivet__tube_end_point(frame, tube, station->position, point);
        distances[k] = 0.0;
        if (before >= 0) {
            double step[3];
            trivet__minus3(point, points + (ptrdiff_t)3 * before, step);
            distances[k] = distances[before] + trivet__length3(step);
        }
        before = k;
    }
}

/* The end of an insert, on the straight line between the joints around it. */
static void place_insert_end(const trivet_plan *plan, const trivet_frame *frame, int32_t tube,
                             int32_t station, double *points, double *distances)
{
    int32_t before = station;
    int32_t after = station;
    while (plan->stations[before].position < 0) {
        before--;
    }
    while (plan->stations[after].position < 0) {
        after++;
    }
    distances[station] = trivet__station_distance(frame, tube, &plan->stations[station]);
    const double share =
        (distances[station] - distances[before]) / (distances[after] - distances[before]);
    for (int i = 0; i < 3; i++) {
        const double from = points[3 * before + i];
        points[3 * station + i] = from + share * (points[3 * after + i] - from);
    }
}

void trivet__place_stations(const trivet_plan *plan, const trivet_frame *frame, double *points,
                            double *distances)
{
    for (int32_t tube = 0; tube < plan->tube_count; tube++) {
        place_joints(plan, frame, tube, points, distances);
        const int32_t end = plan->tube_stations[tube + 1];
        for (int32_t k = plan->tube_stations[tube]; k < end; k++) {
            if (plan->stations[k].position < 0) {
                place_insert_end(plan, frame, tube, k, points, distances);
            }
        }
    }
}

/* The tube's axes turned the little that a span lies off the tube's line. */
static void span_axes(const trivet_plan *plan, const trivet_frame *frame, const double *points,
                      const trivet__span_map *map, double axes[9])
{
    const int32_t first = plan->tube_stations[map->tube];
    const int32_t last = plan->tube_stations[map->tube + 1] - 1;
    trivet__tube_axes(points + (ptrdiff_t)3 * first, points + (ptrdiff_t)3 * last,
                      frame->tubes[map->tube].roll, axes);
    if (last == first + 1) {
        return;
    }
    double *const x = axes;
    double *const y = axes + 3;
    double *const z = axes + 6;
    const double *const from = points + (ptrdiff_t)3 * map->first_station;
    trivet__minus3(from + 3, from, x);
    const double length = trivet__length3(x);
    for (int i = 0; i < 3; i++) {
        x[i] /= length;
    }
    const double along = trivet__dot3(z, x);
    trivet__add3(z, -along, x);
    const double height = trivet__length3(z);
    for (int i = 0; i < 3; i++) {
        z[i] /= height;
    }
    trivet__cross3(z, x, y);
}

static trivet_status refuse_hold(const trivet_frame *frame, int32_t tube, trivet_message *message)
{
    trivet__refuse(message, TRIVET_BAD_VALUE, "", "its ends are freed so far that nothing holds it",
                   "free fewer directions at its ends; one end at least must carry pull, and one "
                   "must carry twist");
    trivet__message_thing(message, "tube %s", frame->tubes[tube].name);
    return TRIVET_BAD_VALUE;
}

trivet_status trivet__place_span(const trivet_plan *plan, const trivet_frame *frame,
                                 const double *points, const double *distances, int32_t span,
                                 trivet__span *out, trivet_message *message)
{
    const trivet__span_map *const map = &plan->spans[span];
    const trivet__tube *const tube = &frame->tubes[map->tube];
    const double *const first = points + (ptrdiff_t)3 * map->first_station;
    double between[3];
    trivet__minus3(first + 3, first, between);
    out->length = trivet__length3(between);
    out->start = distances[map->first_station];
    if (!(out->length > TRIVET__SPAN_LEAST) || !(distances[map->first_station + 1] > out->start)) {
        trivet__refuse(message, TRIVET_BAD_ORDER, "plan", "", "make a new plan for this frame");
        trivet__message_problem(message,
                                "was made when tube %s had its joints and inserts in "
                                "another order",
                                tube->name);
        return TRIVET_BAD_ORDER;
    }
    span_axes(plan, frame, points, map, out->axes);
    const trivet__insert *const insert = map->insert < 0 ? NULL : &tube->inserts[map->insert];
    out->insert_stock = insert ? insert->stock : -1;
    out->insert_bond = insert ? insert->bond : TRIVET_SIDE_BY_SIDE;
    trivet__span_flexibility(out, &frame->stocks[tube->stock],
                             insert ? &frame->stocks[insert->stock] : NULL, out->insert_bond);
    if (!trivet__span_stiffness(out, map->free_first, map->free_last)) {
        return refuse_hold(frame, map->tube, message);
    }
    return TRIVET_OK;
}

/*
 * The map [6][6], in rows of twelve, from a node's six directions to the movement, in the span's
 * axes, of a point carried along rigidly at arm from it: u + turn x arm.
 */
static void node_map(const double axes[9], const double *node_axes, const double arm[3],
                     double *map)
{
    enum { STEP = TRIVET__MAP_STEP };
    for (int i = 0; i < 3; i++) {
        double lever[3]; /* (turn x arm) . axis = turn . (arm x axis) */
        trivet__cross3(arm, axes + (ptrdiff_t)3 * i, lever);
        double move[3];
        memcpy(move, axes + (ptrdiff_t)3 * i, sizeof move);
        if (node_axes) {
            trivet__into_axes3(node_axes, lever, lever);
            trivet__into_axes3(node_axes, move, move);
        }
        for (int k = 0; k < 3; k++) {
            map[STEP * i + k] = move[k];
            map[STEP * i + 3 + k] = lever[k];
            map[STEP * (i + 3) + k] = 0.0;
            map[STEP * (i + 3) + 3 + k] = move[k];
        }
    }
}

/* From a station's node to the tube's own line there: a joint's offset, else nothing. */
static void node_offset(const trivet_plan *plan, const trivet_frame *frame, const double *points,
                        int32_t station, double out[3])
{
    const int32_t node = plan->stations[station].node;
    memset(out, 0, 3 * sizeof *out);
    if (node < plan->joint_count) {
        trivet__minus3(points + (ptrdiff_t)3 * station, frame->joints[node].position, out);
    }
}

static void make_maps(const trivet_plan *plan, const trivet_frame *frame, int32_t span,
                      const trivet__span *placed, trivet_workspace *workspace)
{
    const trivet__span_map *const map = &plan->spans[span];
    double first[3];
    double last[3];
    node_offset(plan, frame, workspace->station_points, map->first_station, first);
    node_offset(plan, frame, workspace->station_points, map->first_station + 1, last);
    trivet__add3(first, placed->length, placed->axes);
    double *const maps = workspace->maps + (ptrdiff_t)TRIVET__MAPS * span;
    node_map(placed->axes, trivet__node_axes(plan, frame, map->first_node), first, maps);
    node_map(placed->axes, trivet__node_axes(plan, frame, map->last_node), last,
             maps + TRIVET__LAST_MAP);
}

trivet_status trivet__place_spans(const trivet_plan *plan, const trivet_frame *frame,
                                  trivet_workspace *workspace, trivet_result *result,
                                  trivet_message *message)
{
    double *const points = workspace->station_points;
    double *const distances = workspace->station_distances;
    trivet__place_stations(plan, frame, points, distances);
    for (int32_t s = 0; s < plan->span_count; s++) {
        const trivet_status status =
            trivet__place_span(plan, frame, points, distances, s, &result->spans[s], message);
        if (status != TRIVET_OK) {
            return status;
        }
        make_maps(plan, frame, s, &result->spans[s], workspace);
    }
    return TRIVET_OK;
}
