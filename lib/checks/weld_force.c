/*
 * What a weld carries at each place (Blodgett, Design of Welded Structures; Shigley, chapter on
 * welds): the throat has no width, so that the weld is a line with a length L and second moments S
 * in m^3, and what it carries is a force per metre q:
 *
 *   square to the cut  q_x = N/L + My z/S_yy - Mz y/S_zz
 *   in the cut         q_y = Vy/L - T z/J,  q_z = Vz/L + T y/J,  J = S_yy + S_zz
 *
 * about the weld's centre, with the product moment where the weld is skew. The forces of a tube
 * that leans are turned with its cut.
 *
 * One straight run, or a row of spots, takes moments about its own line only by its thickness: a
 * throat a by 6 M/(L a), n spots of diameter d by 8 M/(n d), which are stresses M/(L a^2/6) and
 * 32 M/(n pi d^3) times throat and area. Twist of a single spot likewise: 16 T/(pi d^3) is 4 T/d.
 *
 * Expressions stand in the order of the lines of working, so that both give the same bits.
 */
#include "checks/weld_line.h"

#include <math.h>
#include <string.h>

enum { SAMPLES = TRIVET__WELD_SAMPLES, STEPS = TRIVET__WELD_STEPS };

void trivet__weld_turn(const trivet__weld_line *line, const double forces[6], double turned_out[6])
{
    const double c = line->cosine;
    const double s = sqrt(1.0 - c * c);
    for (int i = 0; i < 6; i += 3) {
        const double *const from = forces + i;
        const double towards = line->lean[0] * from[1] + line->lean[1] * from[2];
        const double turned = c * from[0] + s * towards;
        turned_out[i] = s * from[0] - c * towards;
        turned_out[i + 1] = from[1] + line->lean[0] * (turned - towards);
        turned_out[i + 2] = from[2] + line->lean[1] * (turned - towards);
    }
}

void trivet__weld_load_find(const trivet__weld_line *line, const double forces[6],
                            trivet__weld_load *load_out)
{
    const double y = line->centre[0];
    const double z = line->centre[1];
    memcpy(load_out->forces, forces, sizeof load_out->forces);
    load_out->T = forces[3] + z * forces[1] - y * forces[2];
    load_out->My = forces[4] - z * forces[0];
    load_out->Mz = forces[5] + y * forces[0];
}

/* Force square to the cut: N and the two bendings. */
static double square_force(const trivet__weld_line *line, const trivet__weld_load *load, double y,
                           double z)
{
    const double pull = load->forces[0] / line->amount;
    const double *const l = line->along;
    if (line->spread == TRIVET__WELD_PLANE) {
        const double D = line->S_yy * line->S_zz - line->S_yz * line->S_yz;
        return line->S_yz == 0.0 ? pull + load->My * z / line->S_yy - load->Mz * y / line->S_zz
                                 : pull + (load->My * (line->S_zz * z - line->S_yz * y) +
                                           load->Mz * (line->S_yz * z - line->S_yy * y)) /
                                              D;
    }
    const double own = (line->spot_count > 0 ? 8.0 : 6.0) / (line->amount * line->thickness);
    if (line->spread == TRIVET__WELD_POINT) {
        return fabs(pull) + own * sqrt(load->My * load->My + load->Mz * load->Mz);
    }
    const double across = l[1] * load->My - l[0] * load->Mz;
    const double about = l[0] * load->My + l[1] * load->Mz;
    return fabs(pull + across * (l[0] * y + l[1] * z) / line->S_along) + own * fabs(about);
}

/* Along the weld and across it. */
static void split_force(trivet__weld_force *force)
{
    force->q_t = force->q_y * force->t_y + force->q_z * force->t_z;
    force->q_n = force->q_y * force->t_z - force->q_z * force->t_y;
}

static void fill_force(const trivet__weld_line *line, const trivet__weld_load *load,
                       trivet__weld_force *force)
{
    const double *const f = load->forces;
    const double n = line->amount;
    force->q_x = square_force(line, load, force->y, force->z);
    if (line->spread == TRIVET__WELD_POINT) {
        /* Shear all round the spot and its twist, at the place of its rim where they add up. */
        force->q_y = hypot(f[1], f[2]) / n + 4.0 * fabs(load->T) / (n * line->thickness);
        force->q_z = 0.0;
        force->t_y = 1.0;
        force->t_z = 0.0;
    } else {
        const double J = line->S_yy + line->S_zz;
        force->q_y = f[1] / n - load->T * force->z / J;
        force->q_z = f[2] / n + load->T * force->y / J;
    }
    split_force(force);
}

void trivet__weld_force_in(const trivet__weld_line *line, const trivet__weld_load *load,
                           const trivet__weld_spot_at *at, trivet__weld_force *force_out)
{
    memset(force_out, 0, sizeof *force_out);
    force_out->y = at->y;
    force_out->z = at->z;
    force_out->t_y = at->t_y;
    force_out->t_z = at->t_z;
    fill_force(line, load, force_out);
}

void trivet__weld_force_at(const trivet__weld_line *line, const trivet__weld_load *load,
                           int32_t piece, double u, trivet__weld_force *force_out)
{
    trivet__weld_spot_at at;
    trivet__weld_spot_at_share(line, piece, u, &at);
    trivet__weld_force_in(line, load, &at, force_out);
}

/* ---- the worst place ---- */

typedef struct search {
    const trivet__weld_line *line;
    const trivet__weld_load *load;
    trivet__weld_use *use;
    const void *with;
    trivet__weld_force *worst;
    double most;
} search;

static double use_of(search *of, const trivet__weld_spot_at *at)
{
    trivet__weld_force force;
    trivet__weld_force_in(of->line, of->load, at, &force);
    const double used = of->use(of->with, &force);
    if (!(used <= of->most)) {
        of->most = used;
        *of->worst = force;
    }
    return used;
}

static double use_at(search *of, int32_t piece, double u)
{
    trivet__weld_spot_at at;
    trivet__weld_spot_at_share(of->line, piece, u, &at);
    return use_of(of, &at);
}

/* Looks at a piece from end to end; the most on it, and the sample where that is. */
static double scan_piece(search *of, int32_t piece, int *sample_out)
{
    double most = -1.0;
    for (int i = 0; i <= SAMPLES; i++) {
        trivet__weld_spot_at at;
        trivet__weld_sample(of->line, piece, i, &at);
        const double used = use_of(of, &at);
        if (!(used <= most)) {
            most = used;
            *sample_out = i;
        }
    }
    return most;
}

/* Golden section between the neighbours of a sample. */
static void narrow_down(search *of, int32_t piece, int sample)
{
    const double SHARE = TRIVET__WELD_SHARE;
    double from = fmax(sample - 1, 0) / SAMPLES;
    double to = fmin(sample + 1, SAMPLES) / SAMPLES;
    double low = to - SHARE * (to - from);
    double high = from + SHARE * (to - from);
    double at_low = use_at(of, piece, low);
    double at_high = use_at(of, piece, high);
    for (int i = 0; i < STEPS; i++) {
        if (at_low > at_high) {
            to = high;
            high = low;
            at_high = at_low;
            low = to - SHARE * (to - from);
            at_low = use_at(of, piece, low);
        } else {
            from = low;
            low = high;
            at_low = at_high;
            high = from + SHARE * (to - from);
            at_high = use_at(of, piece, high);
        }
    }
}

static void scan_line(search *of)
{
    double most[TRIVET__WELD_PIECES_MAX] = {0.0};
    int samples[TRIVET__WELD_PIECES_MAX] = {0};
    for (int32_t i = 0; i < of->line->piece_count; i++) {
        most[i] = scan_piece(of, i, &samples[i]);
    }
    const double near = of->most * (1.0 - TRIVET__WELD_BETWEEN);
    for (int32_t i = 0; i < of->line->piece_count; i++) {
        if (of->line->pieces[i].radius > 0.0 && most[i] >= near) {
            narrow_down(of, i, samples[i]);
        }
    }
}

void trivet__weld_straighten(trivet__weld_force *force)
{
    const double none = 1e-7;
    if (fabs(force->t_y) < none) {
        force->t_y = 0.0;
        force->t_z = copysign(1.0, force->t_z);
    } else if (fabs(force->t_z) < none) {
        force->t_z = 0.0;
        force->t_y = copysign(1.0, force->t_y);
    } else {
        return;
    }
    split_force(force);
}

double trivet__weld_worst(const trivet__weld_line *line, const trivet__weld_load *load,
                          trivet__weld_use *use, const void *with, trivet__weld_force *worst_out)
{
    search of = {line, load, use, with, worst_out, -1.0};
    memset(worst_out, 0, sizeof *worst_out);
    if (line->spot_count == 0) {
        scan_line(&of);
    }
    for (int32_t i = 0; i < line->spot_count; i++) {
        int32_t piece = 0;
        double u = 0.0;
        trivet__weld_spot(line, i, &piece, &u);
        use_at(&of, piece, u);
    }
    trivet__weld_straighten(worst_out);
    return of.most;
}
