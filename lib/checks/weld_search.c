/*
 * The place where a weld is used most, as trivet__weld_worst finds it, bit for bit, but sooner.
 *
 * It looks at the same places in the same order and leaves out those that cannot be the worst:
 *
 * - Stress or force in all is a norm of the three forces, which are linear along a straight piece,
 *   so that it is convex there: at the inner samples it is at most the straight line between the
 *   two ends.
 * - On an arc the force square to the cut comes and goes by no more than what it changes by over
 *   the radius, and the force in the cut is taken for its worst direction (see bounds.c).
 *
 * - Between samples on an arc the square of the use lies above the straight line between them by no
 *   more than its second derivative allows. Where that cannot reach the worst so far, or where the
 *   use falls away from an end of the arc too steeply to rise again, no steps are made.
 *
 * Places at samples are found once a line. Where the limit goes with the direction of the force
 * (AISC), the weld is no plane or something is no number, the plain search is made.
 *
 * Expressions stand in the order of weld_force.c and weld_strength.c.
 */
#include "base/processor.h"
#include "checks/check_weld.h"

#include <math.h>
#include <string.h>

enum { SAMPLES = TRIVET__WELD_SAMPLES, STEPS = TRIVET__WELD_STEPS };

/* Far above the rounding of a use, far below what matters. */
#define ROUNDING 1e-9

/* What is the same at all places of a weld. */
typedef struct carried {
    double My, Mz, T;
    double S_yy, S_zz, S_yz, D, J;
    double pull; /* parts of the force that are the same everywhere */
    double across[2];
    double throat;
    double loads;
    double limit;
    int32_t is_directional;
    int32_t is_skew;
} carried;

typedef struct search {
    const trivet__weld_line *line;
    const trivet__weld_load *load;
    trivet__weld_kept *kept;
    carried by;
    trivet__weld_spot_at at; /* the worst place so far */
    double most;
    double floor; /* somewhere it is as much as this */
    double least; /* what stays below this is of no interest */
    double ends[TRIVET__WELD_ABREAST];
} search;

/* How much of its limit a place takes. */
static inline double use_at(const carried *of, double y, double z, double t_y, double t_z)
{
    const double q_x = of->is_skew ? of->pull + (of->My * (of->S_zz * z - of->S_yz * y) +
                                                 of->Mz * (of->S_yz * z - of->S_yy * y)) /
                                                    of->D
                                   : of->pull + of->My * z / of->S_yy - of->Mz * y / of->S_zz;
    const double q_y = of->across[0] - of->T * z / of->J;
    const double q_z = of->across[1] + of->T * y / of->J;
    const double q_t = q_y * t_y + q_z * t_z;
    const double q_n = q_y * t_z - q_z * t_y;
    const double sigma = (fabs(q_x) - fabs(q_n)) / (sqrt(2.0) * of->throat);
    const double tau = (fabs(q_x) + fabs(q_n)) / (sqrt(2.0) * of->throat);
    const double along = q_t / of->throat;
    const double square = of->is_directional ? sigma * sigma + 3.0 * (tau * tau + along * along)
                                             : q_x * q_x + q_n * q_n + q_t * q_t;
    return of->loads * sqrt(square) / of->limit;
}

/* The same for a whole row of places. */
static TRIVET__WIDE void use_of_row(const carried *by, const trivet__weld_row *row,
                                    double used[TRIVET__WELD_ABREAST])
{
    const carried of = *by;
    for (int i = 0; i < TRIVET__WELD_ABREAST; i++) {
        used[i] = use_at(&of, row->y[i], row->z[i], row->t_y[i], row->t_z[i]);
    }
}

static inline void offer(search *of, double used, const trivet__weld_row *row, int i)
{
    if (!(used <= of->most)) {
        of->most = used;
        of->at = (trivet__weld_spot_at){row->y[i], row->z[i], row->t_y[i], row->t_z[i]};
    }
}

static void put(trivet__weld_row *row, int i, const trivet__weld_spot_at *at)
{
    row->y[i] = at->y;
    row->z[i] = at->z;
    row->t_y[i] = at->t_y;
    row->t_z[i] = at->t_z;
}

/* Rows are filled up with their last place. */
static void find_ends(trivet__weld_kept *kept)
{
    const trivet__weld_line *const line = &kept->end.line;
    trivet__weld_spot_at at = {0.0, 0.0, 0.0, 0.0};
    for (int k = 0; k < TRIVET__WELD_ABREAST; k++) {
        if (k / 2 < line->piece_count) {
            trivet__weld_sample(line, k / 2, k % 2 == 0 ? 0 : SAMPLES, &at);
        }
        put(&kept->ends, k, &at);
    }
    kept->has_ends = 1;
}

/* Samples of a piece from an end whose line is the same. Or NULL. */
static const trivet__weld_row *find_alike(const trivet__weld_kept *kept, int32_t piece)
{
    const trivet__weld_kept *other = kept;
    while (other->alike > 0) {
        other -= other->alike;
        if ((other->has_samples >> piece & 1U) &&
            trivet__are_same(&other->key, &kept->key, sizeof kept->key)) {
            return &other->samples[piece];
        }
    }
    return NULL;
}

/* Samples of a piece, found when they are first wanted. */
static const trivet__weld_row *samples_of(trivet__weld_kept *kept, int32_t piece)
{
    trivet__weld_row *const row = &kept->samples[piece];
    trivet__weld_spot_at at = {0.0, 0.0, 0.0, 0.0};
    if (kept->has_samples >> piece & 1U) {
        return row;
    }
    const trivet__weld_row *const alike = find_alike(kept, piece);
    if (alike) {
        memcpy(row, alike, sizeof *row);
    }
    for (int k = 0; !alike && k < TRIVET__WELD_ABREAST; k++) {
        if (k <= SAMPLES) {
            trivet__weld_sample(&kept->end.line, piece, k, &at);
        }
        put(row, k, &at);
    }
    kept->has_samples |= 1U << piece;
    return row;
}

/* Somewhere the use is as much as this; not a number if it is none somewhere. */
static double find_floor(search *of)
{
    double floor = -1.0;
    use_of_row(&of->by, &of->kept->ends, of->ends);
    for (int i = 0; i < TRIVET__WELD_ABREAST; i++) {
        floor = of->ends[i] <= floor ? floor : of->ends[i];
    }
    return floor;
}

/* The ends, and what lies between them if that can be more. */
static void scan_straight(search *of, int32_t piece)
{
    const double first = of->ends[2 * piece];
    const double last = of->ends[2 * piece + 1];
    const double low = first < last ? first : last;
    const double high = first < last ? last : first;
    const double inside = high + (low - high) / SAMPLES;
    if (inside * (1.0 + ROUNDING) < of->floor) {
        offer(of, first, &of->kept->ends, 2 * piece);
        offer(of, last, &of->kept->ends, 2 * piece + 1);
        return;
    }
    const trivet__weld_row *const row = samples_of(of->kept, piece);
    double used[TRIVET__WELD_ABREAST];
    use_of_row(&of->by, row, used);
    for (int k = 0; k <= SAMPLES; k++) {
        offer(of, used[k], row, k);
    }
}

/* Sizes of the forces on an arc: with the angle, all of them turn as cosine and sine do. */
typedef struct arc_forces {
    double x;   /* most of the force square to the cut */
    double x_1; /* by how much it comes and goes */
    double p;   /* the force in the cut that the arc's middle would see: its direction turns */
    double c;   /* the force along the arc by twist */
} arc_forces;

static arc_forces find_arc_forces(const search *of, int32_t piece)
{
    const trivet__weld_line *const line = of->line;
    const trivet__weld_load *const load = of->load;
    const trivet__weld_piece *const arc = &line->pieces[piece];
    const double y = arc->start[0] - line->centre[0];
    const double z = arc->start[1] - line->centre[1];
    const double D = line->S_yy * line->S_zz - line->S_yz * line->S_yz;
    const double by_z = (load->My * line->S_zz + load->Mz * line->S_yz) / D;
    const double by_y = -(load->My * line->S_yz + load->Mz * line->S_yy) / D;
    const double q_y = of->by.across[0] - load->T * z / of->by.J;
    const double q_z = of->by.across[1] + load->T * y / of->by.J;
    arc_forces found;
    found.x_1 = arc->radius * sqrt(by_y * by_y + by_z * by_z);
    found.x = fabs(of->by.pull + by_z * z + by_y * y) + found.x_1;
    found.p = sqrt(q_y * q_y + q_z * q_z);
    found.c = arc->radius * fabs(load->T) / of->by.J;
    return found;
}

/* Use of forces whose 2 x^2 + 2 x n + 2 n^2 + 3 t^2 is square, and the other rule likewise. */
static double scale_of(const search *of)
{
    const double scale = of->by.loads / of->by.limit;
    return of->by.is_directional ? scale / of->by.throat : scale;
}

/* Most use on an arc. */
static double bound_arc(const search *of, const arc_forces *f)
{
    const double p = f->p + f->c;
    return scale_of(of) * sqrt(2.0 * f->x * f->x + 2.0 * f->x * p + 3.0 * p * p);
}

/*
 * Nowhere on an arc is the second derivative of the square of the use, by the angle, larger. Each
 * product of two forces a b has a'' b + 2 a' b' + a b''; whichever sign x n has, both are covered.
 */
static double bend_of(const search *of, const arc_forces *f)
{
    const double scale = scale_of(of);
    const double x_x = 2.0 * f->x_1 * (f->x_1 + f->x);
    const double n_n = 4.0 * f->p * f->p;
    const double x_n = f->p * (3.0 * f->x_1 + f->x);
    const double t_t = 4.0 * f->p * f->p + 2.0 * f->c * f->p;
    return scale * scale * (2.0 * x_x + 2.0 * n_n + 2.0 * x_n + 3.0 * t_t);
}

/* The most on a piece, the sample where that is, and the use at the sample beside an end. */
static double scan_arc(search *of, int32_t piece, int *sample_out, double *beside_out)
{
    const trivet__weld_row *const row = samples_of(of->kept, piece);
    double used[TRIVET__WELD_ABREAST];
    double most = -1.0;
    use_of_row(&of->by, row, used);
    for (int k = 0; k <= SAMPLES; k++) {
        offer(of, used[k], row, k);
        if (!(used[k] <= most)) {
            most = used[k];
            *sample_out = k;
        }
    }
    *beside_out = used[*sample_out == 0 ? 1 : SAMPLES - 1];
    return most;
}

static double offer_inside(search *of, int32_t piece, double u)
{
    trivet__weld_spot_at at;
    trivet__weld_spot_at_share(of->line, piece, u, &at);
    const double used = use_at(&of->by, at.y, at.z, at.t_y, at.t_z);
    if (!(used <= of->most)) {
        of->most = used;
        of->at = at;
    }
    return used;
}

/* Golden section between the neighbours of a sample. */
static void narrow_down(search *of, int32_t piece, int sample)
{
    double from = fmax(sample - 1, 0) / SAMPLES;
    double to = fmin(sample + 1, SAMPLES) / SAMPLES;
    double low = to - TRIVET__WELD_SHARE * (to - from);
    double high = from + TRIVET__WELD_SHARE * (to - from);
    double at_low = offer_inside(of, piece, low);
    double at_high = offer_inside(of, piece, high);
    for (int i = 0; i < STEPS; i++) {
        if (at_low > at_high) {
            to = high;
            high = low;
            at_high = at_low;
            low = to - TRIVET__WELD_SHARE * (to - from);
            at_low = offer_inside(of, piece, low);
        } else {
            from = low;
            low = high;
            at_low = at_high;
            high = from + TRIVET__WELD_SHARE * (to - from);
            at_high = offer_inside(of, piece, high);
        }
    }
}

/* Steeper than this share from one sample to the next, a fall is no rounding at any step. */
#define STEEP 1e-3

/* What is known of an arc once its samples were looked at. */
typedef struct arc {
    double most;   /* -1: nothing on it comes near to the worst */
    double beside; /* use at the sample beside an end */
    double bend;   /* see bend_of */
    double step;   /* rad, from one sample to the next */
    int sample;    /* where it is used most */
} arc;

/* Square of the most that there can be between the samples of an arc. */
static double square_between(const search *of, const arc *on)
{
    return of->line->cosine != 0.0
               ? HUGE_VAL /* the arc is an ellipse */
               : (on->most * on->most + on->step * on->step * on->bend / 8.0) * (1.0 + ROUNDING);
}

/* Whether steps beside the best sample of an arc can come to more than the worst so far. */
static int can_rise(const search *of, const arc *on)
{
    const double square = on->most * on->most;
    const double between = square_between(of, on);
    if (between < of->most * of->most || between < of->least * of->least) {
        return 0;
    }
    if (of->line->cosine == 0.0 && (on->sample == 0 || on->sample == SAMPLES)) {
        const double fall = square - on->beside * on->beside;
        return !(fall > 0.5 * on->step * on->step * on->bend + STEEP * square);
    }
    return 1;
}

static void scan_piece(search *of, int32_t piece, arc *on)
{
    *on = (arc){.most = -1.0};
    if (!(of->line->pieces[piece].radius > 0.0)) {
        scan_straight(of, piece);
        return;
    }
    const arc_forces f = find_arc_forces(of, piece);
    if (of->line->cosine == 0.0 &&
        bound_arc(of, &f) * (1.0 + ROUNDING) < of->floor * (1.0 - TRIVET__WELD_BETWEEN)) {
        return;
    }
    on->bend = bend_of(of, &f);
    on->step = fabs(of->line->pieces[piece].sweep) / SAMPLES;
    on->most = scan_arc(of, piece, &on->sample, &on->beside);
}

/* 0 if it is certain that nowhere the use is more than the least that is of interest. */
static int scan_line(search *of)
{
    arc arcs[TRIVET__WELD_PIECES_MAX];
    double most = 0.0;
    for (int32_t i = 0; i < of->line->piece_count; i++) {
        scan_piece(of, i, &arcs[i]);
        most = arcs[i].most >= 0.0 ? fmax(most, square_between(of, &arcs[i])) : most;
    }
    if (fmax(most, of->most * of->most) * (1.0 + ROUNDING) < of->least * of->least) {
        return 0;
    }
    const double near = of->most * (1.0 - TRIVET__WELD_BETWEEN);
    for (int32_t i = 0; i < of->line->piece_count; i++) {
        if (arcs[i].most >= 0.0 && arcs[i].most >= near && can_rise(of, &arcs[i])) {
            narrow_down(of, i, arcs[i].sample);
        }
    }
    return 1;
}

/* How much of its limit a place takes: what trivet__weld_worst asks for. */
static double use_of(const void *with, const trivet__weld_force *force)
{
    const trivet__weld_strength *const strength = with;
    return trivet__weld_demand(strength, force) / trivet__weld_limit(strength, force);
}

static carried find_carried(const trivet__weld_end *end, const trivet__weld_load *load)
{
    const trivet__weld_line *const line = &end->line;
    const trivet__weld_force none = {.y = 0.0};
    return (carried){.My = load->My,
                     .Mz = load->Mz,
                     .T = load->T,
                     .S_yy = line->S_yy,
                     .S_zz = line->S_zz,
                     .S_yz = line->S_yz,
                     .D = line->S_yy * line->S_zz - line->S_yz * line->S_yz,
                     .J = line->S_yy + line->S_zz,
                     .pull = load->forces[0] / line->amount,
                     .across = {load->forces[1] / line->amount, load->forces[2] / line->amount},
                     .throat = end->strength.throat,
                     .loads = end->strength.loads,
                     .limit = trivet__weld_limit(&end->strength, &none),
                     .is_directional = end->strength.rule == TRIVET_WELDS_DIRECTIONAL,
                     .is_skew = line->S_yz != 0.0};
}

/* Whether the plain search must be made. */
static int is_plain(const trivet__weld_end *end)
{
    const trivet__weld_strength *const strength = &end->strength;
    return (strength->rule == TRIVET_WELDS_AISC && strength->has_direction) ||
           end->line.spot_count > 0 || end->line.spread != TRIVET__WELD_PLANE;
}

static search start_search(trivet__weld_kept *kept, const trivet__weld_load *load)
{
    search of = {.line = &kept->end.line, .load = load, .kept = kept, .most = -1.0};
    if (!kept->has_ends) {
        find_ends(kept);
    }
    of.by = find_carried(&kept->end, load);
    of.floor = find_floor(&of);
    return of;
}

double trivet__weld_some_use(trivet__weld_kept *kept, const trivet__weld_load *load)
{
    return is_plain(&kept->end) ? 0.0 : start_search(kept, load).floor;
}

int trivet__weld_most_used(trivet__weld_kept *kept, const trivet__weld_load *load, double least,
                           trivet__weld_force *worst_out)
{
    const trivet__weld_line *const line = &kept->end.line;
    const trivet__weld_strength *const strength = &kept->end.strength;
    if (is_plain(&kept->end)) {
        trivet__weld_worst(line, load, use_of, strength, worst_out);
        return 1;
    }
    search of = start_search(kept, load);
    if (!(of.floor < HUGE_VAL)) {
        trivet__weld_worst(line, load, use_of, strength, worst_out);
        return 1;
    }
    of.least = least;
    if (!scan_line(&of)) {
        return 0;
    }
    trivet__weld_force_in(line, load, &of.at, worst_out);
    trivet__weld_straighten(worst_out);
    return 1;
}
