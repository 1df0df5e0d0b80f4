/*
 * Loads along a span, in closed form: each load enters through its repeated integrals from the
 * span's start, powers of the distance past its place (Macaulay's brackets), so that forces and
 * movements at any x are sums of a few products and nothing is sampled.
 */
#include "statics/span.h"

#include <string.h>

/* Integrals of one component of a line load that begins at 0 with value a and slope s, to t > 0. */
static void add_line(double sums[4], double a, double s, double t)
{
    const double t2 = t * t;
    sums[0] += a * t + s * t2 / 2.0;
    sums[1] += t2 * (a / 2.0 + s * t / 6.0);
    sums[2] += t2 * t * (a / 6.0 + s * t / 24.0);
    sums[3] += t2 * t2 * (a / 24.0 + s * t / 120.0);
}

static void add_point(trivet__load_sums *sums, const trivet__span_load *load, double factor,
                      double t)
{
    for (int i = 0; i < 3; i++) {
        const double force = factor * load->first[i];
        const double moment = factor * load->last[i];
        sums->force[i][0] += force;
        sums->force[i][1] += force * t;
        sums->force[i][2] += force * t * t / 2.0;
        sums->force[i][3] += force * t * t * t / 6.0;
        sums->moment[i][0] += moment;
        sums->moment[i][1] += moment * t;
        sums->moment[i][2] += moment * t * t / 2.0;
    }
}

void trivet__load_sums_add(trivet__load_sums *sums, const trivet__span_load *loads, int32_t count,
                           double factor, double x, int with_last)
{
    for (int32_t k = 0; k < count; k++) {
        const trivet__span_load *const load = &loads[k];
        const double t = x - load->from;
        if (load->is_point) {
            if (t > 0.0 || (with_last && t >= 0.0)) {
                add_point(sums, load, factor, t);
            }
            continue;
        }
        if (!(t > 0.0)) {
            continue;
        }
        const double past = x - load->to;
        for (int i = 0; i < 3; i++) {
            const double rise = load->last[i] - load->first[i];
            const double slope = rise != 0.0 ? rise / (load->to - load->from) : 0.0;
            add_line(sums->force[i], factor * load->first[i], factor * slope, t);
            if (past > 0.0) {
                add_line(sums->force[i], -factor * load->last[i], -factor * slope, past);
            }
        }
    }
}

void trivet__span_state(const trivet__span *span, const double start_move[6],
                        const double start_force[6], const trivet__load_sums *sums, double warm,
                        double x, double move[6], double force[6])
{
    const double *const f = start_force;
    const double *const n = sums->force[0];
    const double *const qy = sums->force[1];
    const double *const qz = sums->force[2];
    const double x2 = x * x / 2.0;
    const double x3 = x2 * x / 3.0;
    force[0] = f[0] - n[0];
    force[1] = f[1] - qy[0];
    force[2] = f[2] - qz[0];
    force[3] = f[3] - sums->moment[0][0];
    force[4] = f[4] + f[2] * x - qz[1] - sums->moment[1][0];
    force[5] = f[5] - f[1] * x + qy[1] - sums->moment[2][0];
    /* Integrals of the moments, once and twice, and of the shear forces. */
    const double My1 = f[4] * x + f[2] * x2 - qz[2] - sums->moment[1][1];
    const double Mz1 = f[5] * x - f[1] * x2 + qy[2] - sums->moment[2][1];
    const double My2 = f[4] * x2 + f[2] * x3 - qz[3] - sums->moment[1][2];
    const double Mz2 = f[5] * x2 - f[1] * x3 + qy[3] - sums->moment[2][2];
    const double Vy1 = f[1] * x - qy[1];
    const double Vz1 = f[2] * x - qz[1];
    const double *const b = span->bend;
    const double *const m = start_move;
    move[0] = m[0] + (f[0] * x - n[1]) / span->EA + span->expansion * warm * x;
    move[1] = m[1] + m[5] * x + b[1] * My2 + b[2] * Mz2 + span->shear[0] * Vy1;
    move[2] = m[2] - m[4] * x - b[0] * My2 - b[1] * Mz2 + span->shear[1] * Vz1;
    move[3] = m[3] + (f[3] * x - sums->moment[0][1]) / span->GJ;
    move[4] = m[4] + b[0] * My1 + b[1] * Mz1;
    move[5] = m[5] + b[1] * My1 + b[2] * Mz1;
}
