/*
 * Green's theorem over the outline: the integral of f(z) over the area is the integral of y f(z) dz
 * along the outline, counter-clockwise. Every edge is integrated by Gauss's formula with 12 points
 * (Abramowitz & Stegun, table 25.4), which is exact for lines and at rounding level for quarter
 * circles, so one mechanism serves all moments. A cut along z = constant adds nothing to the
 * integral (dz = 0 there), which gives the plastic modulus without clipping the shape.
 */
#include "stock/outline.h"

#include <assert.h>
#include <math.h>

#define HALF_PI 1.57079632679489661923

enum { HALF_POINTS = 6, HALVINGS = 64 };

static const double gauss_place[HALF_POINTS] = {0.1252334085114689, 0.3678314989981802,
                                                0.5873179542866175, 0.7699026741943047,
                                                0.9041172563704748, 0.9815606342467192};
static const double gauss_weight[HALF_POINTS] = {0.2491470458134027,  0.23349253653835464,
                                                 0.20316742672306565, 0.1600783285433461,
                                                 0.10693932599531888, 0.04717533638651202};

/* Place and derivative of an edge at u from 0 to 1. */
static void edge_at(const trivet__edge *edge, double u, double place[2], double rate[2])
{
    if (edge->radius > 0.0) {
        const double angle = edge->angle + u * edge->sweep;
        const double c = edge->radius * cos(angle);
        const double s = edge->radius * sin(angle);
        place[0] = edge->start[0] + c;
        place[1] = edge->start[1] + s;
        rate[0] = -s * edge->sweep;
        rate[1] = c * edge->sweep;
    } else {
        for (int i = 0; i < 2; i++) {
            place[i] = edge->start[i] + u * edge->step[i];
            rate[i] = edge->step[i];
        }
    }
}

static void add_edge(trivet__outline *outline, trivet__edge edge)
{
    assert(outline->count < TRIVET__EDGES_MAX);
    if (outline->count < TRIVET__EDGES_MAX) {
        outline->edges[outline->count++] = edge;
    }
}

/* The direction from one corner to the next, one of the four along the axes. */
static void direction_between(const trivet__corner *from, const trivet__corner *to, double out[2])
{
    const double y = to->y - from->y;
    const double z = to->z - from->z;
    assert(y == 0.0 || z == 0.0);
    out[0] = y > 0.0 ? 1.0 : y < 0.0 ? -1.0 : 0.0;
    out[1] = z > 0.0 ? 1.0 : z < 0.0 ? -1.0 : 0.0;
}

void trivet__outline_add(trivet__outline *outline, const trivet__corner *corners, int count,
                         int is_hole)
{
    const double weight = is_hole ? -1.0 : 1.0;
    for (int i = 0; i < count; i++) {
        const trivet__corner *const here = &corners[i];
        const trivet__corner *const next = &corners[(i + 1) % count];
        double in[2];
        double out[2];
        direction_between(&corners[(i + count - 1) % count], here, in);
        direction_between(here, next, out);
        const double r = here->radius;
        if (r > 0.0) {
            const double turn = in[0] * out[1] - in[1] * out[0];
            add_edge(outline, (trivet__edge){.start = {here->y + r * (out[0] - in[0]),
                                                       here->z + r * (out[1] - in[1])},
                                             .radius = r,
                                             .angle = atan2(-out[1], -out[0]),
                                             .sweep = turn * HALF_PI,
                                             .weight = weight});
        }
        const double start[2] = {here->y + r * out[0], here->z + r * out[1]};
        add_edge(outline, (trivet__edge){.start = {start[0], start[1]},
                                         .step = {next->y - next->radius * out[0] - start[0],
                                                  next->z - next->radius * out[1] - start[1]},
                                         .weight = weight});
    }
}

/* What is summed along the outline: areas and moments about the origin. */
typedef struct sums {
    double area;
    double first[2]; /* of y, of z */
    double zz;
    double yy;
    double yz;
    double length;
} sums;

static void add_point(sums *to, const double place[2], const double rate[2], double weight)
{
    const double y = place[0];
    const double z = place[1];
    const double dz = rate[1] * weight;
    to->area += y * dz;
    to->first[0] += 0.5 * y * y * dz;
    to->first[1] += y * z * dz;
    to->zz += y * z * z * dz;
    to->yy += y * y * y / 3.0 * dz;
    to->yz += 0.5 * y * y * z * dz;
    to->length += weight > 0.0 ? weight * hypot(rate[0], rate[1]) : 0.0;
}

static void widen_box(trivet__outline_values *values, const trivet__edge *edge)
{
    for (int end = 0; end < 2; end++) {
        double place[2];
        double rate[2];
        edge_at(edge, end, place, rate);
        for (int i = 0; i < 2; i++) {
            values->low[i] = fmin(values->low[i], place[i]);
            values->high[i] = fmax(values->high[i], place[i]);
        }
    }
}

void trivet__outline_solve(const trivet__outline *outline, trivet__outline_values *values_out)
{
    sums sum = {0};
    *values_out =
        (trivet__outline_values){.low = {HUGE_VAL, HUGE_VAL}, .high = {-HUGE_VAL, -HUGE_VAL}};
    for (int e = 0; e < outline->count; e++) {
        const trivet__edge *const edge = &outline->edges[e];
        for (int p = 0; p < 2 * HALF_POINTS; p++) {
            const double side = p % 2 == 0 ? 1.0 : -1.0;
            double place[2];
            double rate[2];
            edge_at(edge, 0.5 + 0.5 * side * gauss_place[p / 2], place, rate);
            add_point(&sum, place, rate, 0.5 * gauss_weight[p / 2] * edge->weight);
        }
        widen_box(values_out, edge);
    }
    const double y = sum.first[0] / sum.area;
    const double z = sum.first[1] / sum.area;
    values_out->area = sum.area;
    values_out->centroid[0] = y;
    values_out->centroid[1] = z;
    values_out->second_moment[0] = sum.zz - sum.area * z * z;
    values_out->second_moment[1] = sum.yy - sum.area * y * y;
    values_out->product_moment = sum.yz - sum.area * y * z;
    values_out->perimeter = sum.length;
}

/* Where an edge crosses the line on which coordinate k is cut; 0 or 1 if it lies on one side. */
static double crossing(const trivet__edge *edge, int k, double cut)
{
    double first[2];
    double last[2];
    double rate[2];
    edge_at(edge, 0.0, first, rate);
    edge_at(edge, 1.0, last, rate);
    if (!((first[k] < cut && cut < last[k]) || (last[k] < cut && cut < first[k]))) {
        return 0.0;
    }
    if (!(edge->radius > 0.0)) {
        return (cut - first[k]) / (last[k] - first[k]);
    }
    /* In a quarter between two axes the coordinate grows or falls all the way. */
    const double share = fmin(fabs(cut - edge->start[k]) / edge->radius, 1.0);
    const int rises = fabs(first[k] - edge->start[k]) < fabs(last[k] - edge->start[k]);
    return (rises ? asin(share) : acos(share)) / HALF_PI;
}

/* Area below the cut, and the integral over the whole shape of the distance from it. */
static void split_at(const trivet__outline *outline, int k, double cut, double *below_out,
                     double *distance_out)
{
    const int other = 1 - k;
    /* Along z: y dz. Along y the outline runs the other way round: -z dy. */
    const double sense = k == 1 ? 1.0 : -1.0;
    *below_out = 0.0;
    *distance_out = 0.0;
    for (int e = 0; e < outline->count; e++) {
        const trivet__edge *const edge = &outline->edges[e];
        const double middle = crossing(edge, k, cut);
        const double ends[3] = {0.0, middle, 1.0};
        for (int piece = middle > 0.0 ? 0 : 1; piece < 2; piece++) {
            const double half = 0.5 * (ends[piece + 1] - ends[piece]);
            for (int p = 0; p < 2 * HALF_POINTS; p++) {
                const double side = p % 2 == 0 ? 1.0 : -1.0;
                double place[2];
                double rate[2];
                edge_at(edge, ends[piece] + half * (1.0 + side * gauss_place[p / 2]), place, rate);
                const double strip =
                    sense * edge->weight * half * gauss_weight[p / 2] * place[other] * rate[k];
                *below_out += place[k] < cut ? strip : 0.0;
                *distance_out += strip * fabs(place[k] - cut);
            }
        }
    }
}

double trivet__outline_plastic(const trivet__outline *outline, int axis, double low, double high)
{
    const double ROUNDING = 1e-14;
    const int k = axis == 0 ? 1 : 0;
    double area = 0.0;
    double distance = 0.0;
    split_at(outline, k, 2.0 * high - low, &area, &distance);
    double from = low;
    double to = high;
    for (int i = 0; i < HALVINGS; i++) {
        const double cut = 0.5 * (from + to);
        double below = 0.0;
        split_at(outline, k, cut, &below, &distance);
        if (fabs(2.0 * below - area) <= ROUNDING * area) {
            break;
        }
        if (2.0 * below < area) {
            from = cut;
        } else {
            to = cut;
        }
    }
    return distance;
}
