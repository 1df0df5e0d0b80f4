#include "checks/bounds.h"

#include "checks/stress.h"
#include "frame/frame.h"
#include "statics/span_pieces.h"

#include <math.h>
#include <string.h>

/* The range that the strength of pressed walls has: see joint_face.c. */
#define PRESSED_LEAST 0.01

double trivet__least_of_interest(const trivet__making *making, int32_t line)
{
    const trivet_checks *const checks = making->checks;
    if (!making->is_worst_only) {
        return 0.0;
    }
    const double worst =
        checks->line_count[line] > 0 ? checks->records[checks->worst[line]].check.utilisation : 0.0;
    const double floor = making->floor[line];
    return isnan(worst) ? HUGE_VAL : (worst > floor ? worst : floor) / TRIVET__BOUND_MARGIN;
}

int trivet__can_be_worst(const trivet__making *making, int32_t line, double bound)
{
    return !(bound < trivet__least_of_interest(making, line));
}

void trivet__floor_raise(trivet__making *making, int32_t line, double used)
{
    making->floor[line] = used > making->floor[line] ? used : making->floor[line];
}

int32_t trivet__bounds_most(const double *bounds, int32_t count)
{
    int32_t most = -1;
    for (int32_t i = 0; i < count; i++) {
        if (bounds[i] < HUGE_VAL && (most < 0 || bounds[i] > bounds[most])) {
            most = i;
        }
    }
    return most;
}

static int make_room(double **array, size_t *capacity, size_t count)
{
    void *list = *array;
    const int has_room = trivet__reserve(&list, capacity, count, sizeof **array);
    *array = list;
    return has_room;
}

int trivet__bounds_find(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    const size_t spans = (size_t)making->span_count;
    const size_t ends = 2 * (size_t)making->frame->tube_count;
    if (!make_room(&checks->sizes, &checks->size_capacity, 18 * spans) ||
        !make_room(&checks->bounds, &checks->bound_capacity, spans + ends)) {
        return 0;
    }
    trivet__span_sizes(making->result, checks->sizes, checks->sizes + 12 * spans);
    making->end_sizes = checks->sizes;
    making->departures = checks->sizes + 12 * spans;
    making->span_bounds = checks->bounds;
    making->weld_bounds = checks->bounds + spans;
    trivet__mounts_floor(making);
    trivet__yield_bounds(making);
    trivet__weld_bounds(making);
    return 1;
}

double trivet__quintic_most(const double c[6], double width)
{
    /* Binomials: i over k, over 5 over k. */
    static const double SHARES[6][6] = {
        {1.0},
        {1.0, 0.2},
        {1.0, 0.4, 0.1},
        {1.0, 0.6, 0.3, 0.1},
        {1.0, 0.8, 0.6, 0.4, 0.2},
        {1.0, 1.0, 1.0, 1.0, 1.0, 1.0},
    };
    double terms[6];
    double size = 0.0;
    double power = 1.0;
    for (int k = 0; k < 6; k++, power *= width) {
        terms[k] = c[k] * power;
        size += fabs(terms[k]);
    }
    double most = -HUGE_VAL;
    for (int i = 0; i < 6; i++) {
        double value = 0.0;
        for (int k = 0; k <= i; k++) {
            value += SHARES[i][k] * terms[k];
        }
        most = value <= most ? most : value;
    }
    return most + (TRIVET__BOUND_MARGIN - 1.0) * size;
}

/* Sizes of the forces of a span: those that give direct stress, those that give shear. */
typedef struct span_forces {
    double ends[2][3];
    double departures[3]; /* of a straight line between the ends */
    double inside[3];     /* the most of each anywhere, if that is known, or as much as none */
    double shear[3];
} span_forces;

static double larger_size(double one, double other)
{
    return fabs(one) > fabs(other) ? fabs(one) : fabs(other);
}

/* The most of a parabola that begins with first and the slope before, and ends with the slope
 * behind. */
static double most_of_parabola(double length, double first, double last, double before,
                               double behind)
{
    const double ends = larger_size(first, last);
    return before * behind < 0.0
               ? larger_size(ends, first + 0.5 * before * length * before / (before - behind))
               : ends;
}

static span_forces find_span_forces(double length, const double ends[12],
                                    const double departures[6], int is_even)
{
    const double *const a = ends;
    const double *const b = ends + 6;
    span_forces of = {
        .ends = {{fabs(a[0]), fabs(a[4]), fabs(a[5])}, {fabs(b[0]), fabs(b[4]), fabs(b[5])}},
        .departures = {departures[0], departures[4], departures[5]},
        .inside = {HUGE_VAL, HUGE_VAL, HUGE_VAL}};
    for (int i = 0; i < 3; i++) {
        of.shear[i] = larger_size(a[1 + i], b[1 + i]) + departures[1 + i];
    }
    if (is_even) {
        of.inside[0] = larger_size(a[0], b[0]);
        of.inside[1] = most_of_parabola(length, a[4], b[4], a[2], b[2]);
        of.inside[2] = most_of_parabola(length, a[5], b[5], -a[1], -b[1]);
    }
    return of;
}

/* Two ways of bending or shearing a round section are one, in a direction between them. */
static void join_ways(span_forces *of)
{
    double *const pairs[] = {of->ends[0] + 1, of->ends[1] + 1, of->departures + 1, of->inside + 1,
                             of->shear};
    for (int i = 0; i < 5; i++) {
        pairs[i][0] = sqrt(pairs[i][0] * pairs[i][0] + pairs[i][1] * pairs[i][1]);
        pairs[i][1] = 0.0;
    }
}

static double sum_of(const double per[3], const double sizes[3])
{
    return per[0] * sizes[0] + per[1] * sizes[1] + per[2] * sizes[2];
}

/*
 * Direct stress at a point is a straight line between the ends, which is nowhere larger than at
 * one of them, and what it departs from that by.
 */
static double square_of_row(const trivet__stress_row *row, const span_forces *of)
{
    const double first = sum_of(row->direct, of->ends[0]);
    const double last = sum_of(row->direct, of->ends[1]);
    const double by_ends = (first < last ? last : first) + sum_of(row->direct, of->departures);
    const double inside = sum_of(row->direct, of->inside);
    const double sigma = inside < by_ends ? inside : by_ends;
    const double tau = sum_of(row->shear, of->shear);
    return sigma * sigma + 3.0 * tau * tau;
}

double trivet__span_square_most(const trivet__stress_bound *bound, double length,
                                const double ends[12], const double departures[6], int is_even)
{
    span_forces of = find_span_forces(length, ends, departures, is_even);
    double sum = 0.0;
    double most = 0.0;
    for (int i = 0; i < 12; i++) {
        sum += fabs(ends[i]);
    }
    if (!(sum < HUGE_VAL)) {
        return HUGE_VAL; /* what is no number may lose a comparison */
    }
    if (bound->is_round) {
        join_ways(&of);
    }
    for (int32_t i = 0; i < bound->row_count; i++) {
        const double square = square_of_row(&bound->rows[i], &of);
        most = square <= most || isnan(most) ? most : square;
    }
    return most;
}

double trivet__ends_direct_most(const trivet__stress_bound *bound, const double ends[12])
{
    const double *const b = ends + 6;
    const double first =
        sum_of(bound->most.direct, (const double[3]){fabs(ends[0]), fabs(ends[4]), fabs(ends[5])});
    const double last =
        sum_of(bound->most.direct, (const double[3]){fabs(b[0]), fabs(b[4]), fabs(b[5])});
    return first < last ? last : first;
}

static void add_row(trivet__stress_bound *bound, const trivet__stress_row *row)
{
    for (int32_t i = 0; i < bound->row_count; i++) {
        if (trivet__are_same(&bound->rows[i], row, sizeof *row)) {
            return;
        }
    }
    bound->rows[bound->row_count++] = *row;
    for (int k = 0; k < 3; k++) {
        const double direct = row->direct[k];
        const double shear = row->shear[k];
        trivet__stress_row *const most = &bound->most;
        most->direct[k] = direct <= most->direct[k] ? most->direct[k] : direct;
        most->shear[k] = shear <= most->shear[k] ? most->shear[k] : shear;
    }
}

void trivet__stress_bound_find(const trivet_section *section, trivet__stress_bound *bound_out)
{
    bound_out->row_count = 0;
    bound_out->is_round = section->point_count == 0;
    memset(&bound_out->most, 0, sizeof bound_out->most);
    if (bound_out->is_round) {
        const double bending = section->outer_radius / section->second_moment[0];
        const double shear = trivet__rim_shear_factor(section) / section->area;
        add_row(bound_out, &(trivet__stress_row){{1.0 / section->area, bending, bending},
                                                 {shear, shear, 1.0 / section->torsion_modulus}});
        return;
    }
    for (int32_t i = 0; i < section->point_count; i++) {
        const trivet_stress_point *const at = &section->points[i];
        trivet__stress_row row = {.shear = {fabs(at->per_Vy), fabs(at->per_Vz), fabs(at->per_T)}};
        double per[3];
        trivet__normal_stress(section, at->y, at->z, per);
        for (int k = 0; k < 3; k++) {
            row.direct[k] = fabs(per[k]);
        }
        add_row(bound_out, &row);
    }
}

int trivet__stress_bounds_find(trivet__making *making)
{
    trivet_checks *const checks = making->checks;
    const int32_t count = making->frame->stock_count;
    void *list = checks->stress_bounds;
    const int has_room = trivet__reserve(&list, &checks->stress_bound_capacity, (size_t)count,
                                         sizeof *checks->stress_bounds);
    checks->stress_bounds = list;
    for (int32_t i = 0; has_room && i < count; i++) {
        trivet__stress_bound_find(&making->frame->stocks[i].section, &checks->stress_bounds[i]);
    }
    return has_room;
}

/* Least limit of a weld, whichever way the force goes. */
static double least_limit(const trivet__weld_strength *strength)
{
    trivet__weld_strength any = *strength;
    const trivet__weld_force none = {.y = 0.0};
    any.has_direction = 0;
    return trivet__weld_limit(&any, &none);
}

void trivet__weld_bound_find(const trivet__weld_end *end, const double reach[2],
                             trivet__weld_bound *bound_out)
{
    const trivet__weld_line *const line = &end->line;
    const trivet__weld_strength *const strength = &end->strength;
    const double y = reach[0] + fabs(line->centre[0]);
    const double z = reach[1] + fabs(line->centre[1]);
    const double D = fabs(line->S_yy * line->S_zz - line->S_yz * line->S_yz);
    const double skew = fabs(line->S_yz);
    trivet__weld_bound *const b = bound_out;
    b->is_directional = strength->rule == TRIVET_WELDS_DIRECTIONAL && !strength->is_spots;
    b->per_N = 1.0 / line->amount;
    b->per_My = (line->S_zz * z + skew * y) / D;
    b->per_Mz = (line->S_yy * y + skew * z) / D;
    b->per_T = sqrt(y * y + z * z) / (line->S_yy + line->S_zz);
    b->scale = strength->loads / least_limit(strength);
    b->scale = b->is_directional ? b->scale / strength->throat : b->scale;
    b->scale = line->spread == TRIVET__WELD_PLANE ? b->scale : HUGE_VAL;
}

/*
 * With x the force square to the cut, p that in it, n and t its parts across and along the weld:
 * sigma^2 + 3 (tau^2 + along^2) = (2 x^2 + 2 n^2 + 2 x n + 3 t^2) / a^2, which is at most
 * (2 x^2 + 2 x p + 3 p^2) / a^2.
 */
double trivet__weld_bound_at(const trivet__weld_bound *bound, const trivet__weld_load *load)
{
    const double *const f = load->forces;
    const double x =
        bound->per_N * fabs(f[0]) + bound->per_My * fabs(load->My) + bound->per_Mz * fabs(load->Mz);
    const double p = bound->per_N * sqrt(f[1] * f[1] + f[2] * f[2]) + bound->per_T * fabs(load->T);
    const double square =
        bound->is_directional ? 2.0 * x * x + 2.0 * x * p + 3.0 * p * p : x * x + p * p;
    return bound->scale * sqrt(square);
}

void trivet__face_bound_find(const trivet__face *face, trivet__face_bound *bound_out)
{
    const double steel = trivet__strong_steel_factor(face->f0 > face->f1 ? face->f0 : face->f1);
    for (int is_push = 0; is_push < 2; is_push++) {
        trivet__face_strength s;
        double *const per = bound_out->per[is_push];
        trivet__face_solve(face, 0.0, is_push, &s);
        per[0] = TRIVET__GAMMA_M5 / (steel * s.N_R);
        per[1] = TRIVET__GAMMA_M5 / (steel * s.M_iR);
        per[2] = TRIVET__GAMMA_M5 / (steel * s.M_oR);
    }
    bound_out->per_stress =
        trivet__face_rule_of(face) == TRIVET__FACE_ON_ROUND
            ? sqrt(3.0) * face->t1 * TRIVET__GAMMA_M5 / (steel * face->t0 * face->f0)
            : 0.0;
    bound_out->beta = face->b1 / face->b0 < 0.85 ? face->b1 / face->b0 : 0.85;
}

/* No resistance falls by more than this share where the chord is pressed. */
static double weakened(const trivet__face *face, double beta, double n)
{
    const double left = face->is_round ? 1.0 - 0.3 * n * (1.0 + n) : 1.3 - 0.4 * n / beta;
    const double most = left < 1.0 ? left : 1.0;
    return most > PRESSED_LEAST ? most : PRESSED_LEAST;
}

double trivet__face_bound_at(const trivet__face_bound *bound, const trivet__face *face,
                             double factor, double n, const double loads[3])
{
    const double *const per = bound->per[loads[0] < 0.0];
    const double k = weakened(face, bound->beta, n);
    const double pull = factor * per[0] * fabs(loads[0]) / k;
    const double in = factor * per[1] * fabs(loads[1]) / k;
    const double out = factor * per[2] * fabs(loads[2]) / k;
    const double stress =
        factor * (fabs(loads[0]) / face->area1 + fabs(loads[1]) / face->elastic1[0] +
                  fabs(loads[2]) / face->elastic1[1]);
    const double punch = bound->per_stress > 0.0 ? bound->per_stress * stress : 0.0;
    const double sum =
        pull + (trivet__face_rule_of(face) == TRIVET__FACE_ROUND ? in * in : in) + out;
    return !(sum < punch) ? sum : punch;
}
