/*
 * Sums along a weld: length, centre, second moments. Straight pieces and arcs of circles are exact;
 * where the cut leans, arcs are parts of ellipses, taken by Gauss's formula in so many pieces that
 * rounding is left. Spots are sums over points.
 *
 * A tube that leans at an angle theta to what it stands on is cut aslant: its outline is stretched
 * by 1/sin(theta) towards the lean. On a round tube the true weld is a saddle, longer than the flat
 * line that is taken here.
 */
#include "checks/weld_line.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

/* Shares below which a number is rounding, and a weld is a row. */
#define ROUNDING 1e-12
#define ROW_SHARE 1e-9

/* Gauss's formula with 12 points (Abramowitz & Stegun, table 25.4). */
enum { HALF_POINTS = 6 };
static const double POINT_AT[HALF_POINTS] = {0.1252334085114689, 0.3678314989981802,
                                             0.5873179542866175, 0.7699026741943047,
                                             0.9041172563704748, 0.9815606342467192};
static const double POINT_WEIGHT[HALF_POINTS] = {0.2491470458134027,  0.23349253653835464,
                                                 0.20316742672306565, 0.1600783285433461,
                                                 0.10693932599531888, 0.04717533638651202};

/* A quarter of an ellipse is cut into so many pieces: with 12 points each, rounding is left. */
enum { ARC_PIECES = 8 };

/* Stretches a vector towards the lean: by 1/sin(theta). */
static void stretch(const trivet__weld_line *line, double v[2])
{
    if (line->cosine != 0.0) {
        const double more = 1.0 / sqrt(1.0 - line->cosine * line->cosine) - 1.0;
        const double part = more * (v[0] * line->lean[0] + v[1] * line->lean[1]);
        v[0] += part * line->lean[0];
        v[1] += part * line->lean[1];
    }
}

/* Cosine and sine of an angle on an arc, turned from where it begins by another's. */
static void turn_on(const double begin[2], double cosine, double sine, double out[2])
{
    out[0] = begin[0] * cosine - begin[1] * sine;
    out[1] = begin[1] * cosine + begin[0] * sine;
}

/* Place and derivative on an arc in the direction at. */
static void place_on_arc(const trivet__weld_line *line, int32_t piece, const double at[2],
                         double place[2], double rate[2])
{
    const trivet__weld_piece *const of = &line->pieces[piece];
    const double c = of->radius * at[0];
    const double s = of->radius * at[1];
    place[0] = of->start[0] + c;
    place[1] = of->start[1] + s;
    rate[0] = -s * of->sweep;
    rate[1] = c * of->sweep;
    stretch(line, place);
    stretch(line, rate);
}

/* Place and derivative of a piece at u from 0 to 1, in the plane of the cut. */
void trivet__weld_place(const trivet__weld_line *line, int32_t piece, double u, double place[2],
                        double rate[2])
{
    const trivet__weld_piece *const of = &line->pieces[piece];
    if (of->radius > 0.0) {
        double at[2];
        turn_on(line->begins[piece], cos(u * of->sweep), sin(u * of->sweep), at);
        place_on_arc(line, piece, at, place, rate);
        return;
    }
    for (int i = 0; i < 2; i++) {
        place[i] = of->start[i] + u * of->step[i];
        rate[i] = of->step[i];
    }
    stretch(line, place);
    stretch(line, rate);
}

static void spot_at(const trivet__weld_line *line, const double place[2], const double rate[2],
                    trivet__weld_spot_at *at_out)
{
    const double length = sqrt(rate[0] * rate[0] + rate[1] * rate[1]);
    at_out->y = place[0] - line->centre[0];
    at_out->z = place[1] - line->centre[1];
    at_out->t_y = rate[0] / length;
    at_out->t_z = rate[1] / length;
}

void trivet__weld_spot_at_share(const trivet__weld_line *line, int32_t piece, double u,
                                trivet__weld_spot_at *at_out)
{
    double place[2];
    double rate[2];
    trivet__weld_place(line, piece, u, place, rate);
    spot_at(line, place, rate, at_out);
}

void trivet__weld_sample(const trivet__weld_line *line, int32_t piece, int k,
                         trivet__weld_spot_at *at_out)
{
    enum { SAMPLES = TRIVET__WELD_SAMPLES };
    /* Cosines of multiples of 7.5 degrees: nearly all arcs are quarters of a circle. */
    static const double COSINES[SAMPLES + 1] = {
        1.0,
        0.99144486137381041114,
        0.96592582628906828675,
        0.92387953251128675613,
        0.86602540378443864676,
        0.79335334029123516458,
        0.70710678118654752440,
        0.60876142900872063942,
        0.5,
        0.38268343236508977173,
        0.25881904510252076235,
        0.13052619222005159155,
        0.0,
    };
    const trivet__weld_piece *const of = &line->pieces[piece];
    if (!(of->radius > 0.0) || of->sweep != 0.5 * PI) {
        trivet__weld_spot_at_share(line, piece, (double)k / SAMPLES, at_out);
        return;
    }
    double at[2];
    double place[2];
    double rate[2];
    turn_on(line->begins[piece], COSINES[k], COSINES[SAMPLES - k], at);
    place_on_arc(line, piece, at, place, rate);
    spot_at(line, place, rate, at_out);
}

/* Integrals along the line about the tube's axis. */
typedef struct sums {
    double amount;
    double y;
    double z;
    double yy;
    double zz;
    double yz;
} sums;

static void add_place(sums *sum, const double place[2], double weight)
{
    sum->amount += weight;
    sum->y += weight * place[0];
    sum->z += weight * place[1];
    sum->yy += weight * place[0] * place[0];
    sum->zz += weight * place[1] * place[1];
    sum->yz += weight * place[0] * place[1];
}

/* A straight piece needs no more than two points: all integrands are squares. */
static void add_straight(const trivet__weld_line *line, int32_t piece, sums *sum)
{
    const double off = 0.5 / sqrt(3.0);
    for (int p = 0; p < 2; p++) {
        double place[2];
        double rate[2];
        trivet__weld_place(line, piece, p == 0 ? 0.5 - off : 0.5 + off, place, rate);
        add_place(sum, place, 0.5 * hypot(rate[0], rate[1]));
    }
}

/*
 * An arc of a circle, with the integrals of cos, sin, cos^2, sin^2 and sin cos over its angle (any
 * table of integrals).
 */
static void add_arc(const trivet__weld_line *line, int32_t piece, sums *sum)
{
    const trivet__weld_piece *const of = &line->pieces[piece];
    const double *const from = line->begins[piece];
    const double y = of->start[0];
    const double z = of->start[1];
    const double r = of->radius;
    double to[2];
    turn_on(from, cos(of->sweep), sin(of->sweep), to);
    const double length = r * of->sweep;
    const double by_y = r * r * (to[1] - from[1]);
    const double by_z = r * r * (from[0] - to[0]);
    const double half = 0.5 * r * r * r;
    const double twice = to[1] * to[0] - from[1] * from[0];
    sum->amount += length;
    sum->y += y * length + by_y;
    sum->z += z * length + by_z;
    sum->yy += y * y * length + 2.0 * y * by_y + half * (of->sweep + twice);
    sum->zz += z * z * length + 2.0 * z * by_z + half * (of->sweep - twice);
    sum->yz += y * z * length + y * by_z + z * by_y + half * (to[1] * to[1] - from[1] * from[1]);
}

static void add_ellipse(const trivet__weld_line *line, int32_t piece, sums *sum)
{
    const double half = 0.5 / ARC_PIECES;
    for (int i = 0; i < ARC_PIECES; i++) {
        for (int p = 0; p < 2 * HALF_POINTS; p++) {
            const double side = p % 2 == 0 ? 1.0 : -1.0;
            double place[2];
            double rate[2];
            trivet__weld_place(line, piece, half * (2 * i + 1 + side * POINT_AT[p / 2]), place,
                               rate);
            add_place(sum, place, half * POINT_WEIGHT[p / 2] * hypot(rate[0], rate[1]));
        }
    }
}

static void add_whole_piece(const trivet__weld_line *line, int32_t piece, sums *sum)
{
    if (!(line->pieces[piece].radius > 0.0)) {
        add_straight(line, piece, sum);
    } else if (line->cosine == 0.0) {
        add_arc(line, piece, sum);
    } else {
        add_ellipse(line, piece, sum);
    }
}

void trivet__weld_spot(const trivet__weld_line *line, int32_t spot, int32_t *piece_out,
                       double *u_out)
{
    const double share = line->outline / line->spot_count;
    double left = line->is_closed ? 0.5 * line->lengths[0] + share * spot : share * (spot + 0.5);
    if (left >= line->outline) {
        left -= line->outline;
    }
    int32_t piece = 0;
    while (piece + 1 < line->piece_count && left > line->lengths[piece]) {
        left -= line->lengths[piece++];
    }
    *piece_out = piece;
    *u_out = fmin(left / line->lengths[piece], 1.0);
}

static void add_spots(trivet__weld_line *line, sums *sum)
{
    const double fit = floor(line->outline / line->thickness * (1.0 + ROUNDING));
    const double most = fmax(fmin(fit, TRIVET__WELD_SPOTS_MAX), 1.0);
    line->spot_count = line->spot_count > most ? (int32_t)most : line->spot_count;
    for (int32_t i = 0; i < line->spot_count; i++) {
        int32_t piece = 0;
        double u = 0.0;
        double place[2];
        double rate[2];
        trivet__weld_spot(line, i, &piece, &u);
        trivet__weld_place(line, piece, u, place, rate);
        add_place(sum, place, 1.0);
    }
}

/* What rounding has left of what is 0 by symmetry. */
static double clear(double value, double scale)
{
    return fabs(value) <= ROUNDING * scale ? 0.0 : value;
}

/* The principal direction in which the weld reaches farthest, and whether it reaches elsewhere. */
static void find_spread(trivet__weld_line *line)
{
    const double mean = 0.5 * (line->S_yy + line->S_zz);
    const double difference = 0.5 * (line->S_zz - line->S_yy);
    const double radius = hypot(difference, line->S_yz);
    const double angle = 0.5 * atan2(line->S_yz, difference);
    line->S_along = mean + radius;
    line->along[0] = cos(angle);
    line->along[1] = sin(angle);
    if (line->spot_count == 1) {
        line->spread = TRIVET__WELD_POINT;
    } else if (mean - radius <= ROW_SHARE * line->S_along) {
        line->spread = TRIVET__WELD_ROW;
    } else {
        line->spread = TRIVET__WELD_PLANE;
    }
}

void trivet__weld_line_solve(trivet__weld_line *line)
{
    sums sum = {.amount = 0.0};
    for (int32_t i = 0; i < line->piece_count; i++) {
        const double before = sum.amount;
        line->begins[i][0] = cos(line->pieces[i].angle);
        line->begins[i][1] = sin(line->pieces[i].angle);
        add_whole_piece(line, i, &sum);
        line->lengths[i] = sum.amount - before;
    }
    line->outline = sum.amount;
    double run = line->run;
    if (line->spot_count > 0) {
        memset(&sum, 0, sizeof sum);
        add_spots(line, &sum);
        run = 1.0;
    }
    const double reach = sqrt((sum.yy + sum.zz) / sum.amount);
    const double y = clear(sum.y / sum.amount, reach);
    const double z = clear(sum.z / sum.amount, reach);
    line->amount = run * sum.amount;
    line->centre[0] = y;
    line->centre[1] = z;
    line->S_yy = run * (sum.zz - sum.amount * z * z);
    line->S_zz = run * (sum.yy - sum.amount * y * y);
    line->S_yz = clear(run * (sum.yz - sum.amount * y * z), line->S_yy + line->S_zz);
    find_spread(line);
}
