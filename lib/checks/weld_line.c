/*
 * Sums along a weld: length, centre, second moments. Straight pieces are exact; arcs by Gauss's
 * formula, in so many pieces that rounding is left, also where the cut leans and they are parts of
 * ellipses. Spots are sums over points.
 *
 * A tube that leans at an angle theta to what it stands on is cut aslant: its outline is stretched
 * by 1/sin(theta) towards the lean. On a round tube the true weld is a saddle, longer than the flat
 * line that is taken here.
 */
#include "checks/weld_line.h"

#include <math.h>
#include <string.h>

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

/* Place and derivative of a piece at u from 0 to 1, in the plane of the cut. */
void trivet__weld_place(const trivet__weld_line *line, int32_t piece, double u, double place[2],
                        double rate[2])
{
    const trivet__weld_piece *const of = &line->pieces[piece];
    if (of->radius > 0.0) {
        const double angle = of->angle + u * of->sweep;
        const double c = of->radius * cos(angle);
        const double s = of->radius * sin(angle);
        place[0] = of->start[0] + c;
        place[1] = of->start[1] + s;
        rate[0] = -s * of->sweep;
        rate[1] = c * of->sweep;
    } else {
        for (int i = 0; i < 2; i++) {
            place[i] = of->start[i] + u * of->step[i];
            rate[i] = of->step[i];
        }
    }
    stretch(line, place);
    stretch(line, rate);
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

static void add_arc(const trivet__weld_line *line, int32_t piece, sums *sum)
{
    const int count = line->cosine != 0.0 ? ARC_PIECES : 1;
    const double half = 0.5 / count;
    for (int i = 0; i < count; i++) {
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
    if (line->pieces[piece].radius > 0.0) {
        add_arc(line, piece, sum);
    } else {
        add_straight(line, piece, sum);
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
