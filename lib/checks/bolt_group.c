/*
 * The elastic pattern of bolts: stress as in a bar whose section is the bolts, all of one area
 * ("centroid method"; Shigley, Mechanical Engineering Design, bolted joints loaded in shear, and
 * any text on steel design for the pull).
 *
 * Pull a x + b y, with a and b from the balance of moments about x and y, is the same as sharing by
 * the distance from the principal axes; it spares the turning there and back. In a row, y / x is
 * the same for all bolts, and both moments come down to one line.
 */
#include "checks/bolt_group.h"

#include <math.h>
#include <string.h>

/*
 * A pattern counts as a row if it is narrower than a thousandth of its length, as a tube counts as
 * straight: spread across over spread along, both squared.
 */
#define ROW_SHARE 1e-6
/* Below this share of the sum of squares the sum of products is rounding. */
#define PRODUCT_SHARE 1e-12

void trivet__pattern_find(const trivet_bolts *bolts, trivet__pattern *pattern_out)
{
    trivet__pattern p = {.count = bolts->count};
    for (int32_t i = 0; i < p.count; i++) {
        p.middle[0] += bolts->pattern[i][0] / p.count;
        p.middle[1] += bolts->pattern[i][1] / p.count;
    }
    for (int32_t i = 0; i < p.count; i++) {
        const double x = bolts->pattern[i][0] - p.middle[0];
        const double y = bolts->pattern[i][1] - p.middle[1];
        p.xx += x * x;
        p.yy += y * y;
        p.xy += x * y;
    }
    const double sum = p.xx + p.yy;
    p.xy = fabs(p.xy) <= PRODUCT_SHARE * sum ? 0.0 : p.xy;
    if (p.count < 2 || !(sum > 0.0)) {
        p.spread = TRIVET__SPREAD_POINT;
    } else if (!(p.xx * p.yy - p.xy * p.xy > ROW_SHARE * sum * sum)) {
        p.spread = TRIVET__SPREAD_ROW;
    } else {
        p.spread = TRIVET__SPREAD_PLANE;
    }
    *pattern_out = p;
}

void trivet__pattern_moments(const trivet__pattern *pattern, const double forces[6],
                             double moments_out[3])
{
    const double x = pattern->middle[0];
    const double y = pattern->middle[1];
    moments_out[0] = forces[3] - y * forces[2];
    moments_out[1] = forces[4] + x * forces[2];
    moments_out[2] = forces[5] - x * forces[1] + y * forces[0];
}

void trivet__pattern_share(const trivet__pattern *pattern, const double forces[6],
                           const double moments[3], double x, double y, double share_out[3])
{
    const trivet__pattern *const p = pattern;
    const double n = p->count;
    for (int i = 0; i < 3; i++) {
        share_out[i] = forces[i] / n;
    }
    if (p->spread == TRIVET__SPREAD_POINT) {
        return;
    }
    const double Mx = moments[0];
    const double My = moments[1];
    share_out[0] -= moments[2] * y / (p->xx + p->yy);
    share_out[1] += moments[2] * x / (p->xx + p->yy);
    if (p->spread == TRIVET__SPREAD_ROW) {
        share_out[2] += (Mx * y - My * x) / (p->xx + p->yy);
    } else if (p->xy == 0.0) {
        share_out[2] = share_out[2] + Mx * y / p->yy - My * x / p->xx;
    } else {
        share_out[2] += (Mx * (p->xx * y - p->xy * x) + My * (p->xy * y - p->yy * x)) /
                        (p->xx * p->yy - p->xy * p->xy);
    }
}

void trivet__pattern_rest(const trivet__pattern *pattern, const double moments[3],
                          double rest_out[3])
{
    const trivet__pattern *const p = pattern;
    memset(rest_out, 0, 3 * sizeof *rest_out);
    if (p->spread == TRIVET__SPREAD_POINT) {
        memcpy(rest_out, moments, 3 * sizeof *rest_out);
    } else if (p->spread == TRIVET__SPREAD_ROW) {
        /* The part along the row's line: Mx and My less the moment of the pulls. */
        const double sum = p->xx + p->yy;
        rest_out[0] = (moments[0] * p->xx + moments[1] * p->xy) / sum;
        rest_out[1] = (moments[0] * p->xy + moments[1] * p->yy) / sum;
    }
}

void trivet__bolt_shares(const trivet_bolts *bolts, const double forces[6],
                         double shares_out[TRIVET_BOLTS_MAX][3], double rest_out[3])
{
    trivet__pattern pattern;
    double moments[3];
    trivet__pattern_find(bolts, &pattern);
    trivet__pattern_moments(&pattern, forces, moments);
    trivet__pattern_rest(&pattern, moments, rest_out);
    for (int32_t i = 0; i < pattern.count; i++) {
        trivet__pattern_share(&pattern, forces, moments, bolts->pattern[i][0] - pattern.middle[0],
                              bolts->pattern[i][1] - pattern.middle[1], shares_out[i]);
    }
}
