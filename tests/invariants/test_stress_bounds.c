/*
 * Stress inside the spans stays below what is said of it beforehand, in each case and over all
 * cases together: on random frames, at many places along each span, at every stress point or all
 * round the rim.
 *
 * sigma = N/A + y (Mz Iyy + My Iyz)/-D + z (My Izz + Mz Iyz)/D, D = Iyy Izz - Iyz^2; on a rim
 * sigma = N/A + r/I (My sin - Mz cos), tau = T/Wt + k/A (Vz cos - Vy sin),
 * k = 4/3 (ro^2 + ro ri + ri^2)/(ro^2 + ri^2) (any text on strength of materials).
 */
#include "solved_plan.h"

#include "checks/bounds.h"
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>
#include <stdlib.h>

enum { PLACES = 16, ANGLES = 64 };

static double square_at_point(const trivet_section *section, const trivet_stress_point *at,
                              const double f[6])
{
    const double Iyy = section->second_moment[0];
    const double Izz = section->second_moment[1];
    const double Iyz = section->product_moment;
    const double D = Iyy * Izz - Iyz * Iyz;
    const double sigma = f[0] / section->area - at->y * (f[5] * Iyy + f[4] * Iyz) / D +
                         at->z * (f[4] * Izz + f[5] * Iyz) / D;
    const double across = at->per_Vy * f[1] + at->per_Vz * f[2];
    const double twist = at->per_T * f[3];
    /* In an open section twist goes both ways through the wall. */
    const double tau = section->is_open ? fabs(across) + fabs(twist) : across + twist;
    return sigma * sigma + 3.0 * tau * tau;
}

static double square_on_rim(const trivet_section *section, double angle, const double f[6])
{
    const double ro = section->outer_radius;
    const double ri = section->inner_radius;
    const double k = 4.0 / 3.0 * (ro * ro + ro * ri + ri * ri) / (ro * ro + ri * ri);
    const double A = section->area;
    const double sigma =
        f[0] / A + ro / section->second_moment[0] * (f[4] * sin(angle) - f[5] * cos(angle));
    const double tau =
        f[3] / section->torsion_modulus + k / A * (f[2] * cos(angle) - f[1] * sin(angle));
    return sigma * sigma + 3.0 * tau * tau;
}

/* The largest at a place. */
static double stress_at(const trivet_section *section, const double f[6])
{
    double square = 0.0;
    for (int32_t i = 0; i < section->point_count; i++) {
        square = fmax(square, square_at_point(section, &section->points[i], f));
    }
    for (int i = 0; i < ANGLES && section->point_count == 0; i++) {
        square = fmax(square, square_on_rim(section, 2.0 * acos(-1.0) * i / ANGLES, f));
    }
    return sqrt(square);
}

/* What rounding of the forces inside may come to. */
static double stress_allowed(const trivet_section *section, double allowed)
{
    const double pull[6] = {allowed, allowed, allowed, 0.0, 0.0, 0.0};
    const double turn[6] = {
        0.0, 0.0, 0.0, PLAN_ARM * allowed, PLAN_ARM * allowed, PLAN_ARM * allowed};
    return 4.0 * (stress_at(section, pull) + stress_at(section, turn));
}

/* Sizes over all cases: see trivet__span_sizes. */
typedef struct sizes {
    double *ends;
    double *departures;
} sizes;

static void check_span(const solved_plan *solved, const sizes *of, int32_t column, int32_t index,
                       double allowed)
{
    const uint64_t seed = solved->plan->seed;
    const trivet_span span = span_of(solved, index);
    const trivet_section *const section =
        trivet_frame_section(solved->frame, trivet_frame_tube_stock(solved->frame, span.tube));
    trivet__stress_bound bound;
    double departures[6];
    if (span.insert_stock >= 0 || (section->point_count == 0 && !(section->outer_radius > 0.0))) {
        return;
    }
    trivet__stress_bound_find(section, &bound);
    const int is_even = trivet__span_departures(solved->result, column, index, departures);
    const double *const ends = solved->ends + 12 * ((ptrdiff_t)column * solved->spans + index);
    const double most =
        sqrt(trivet__span_square_most(&bound, span.length, ends, departures, is_even));
    const double ever = sqrt(trivet__span_square_most(
        &bound, span.length, of->ends + 12 * (ptrdiff_t)index, of->departures + 6 * index, 0));
    const double room = stress_allowed(section, allowed);
    for (int p = 0; p <= PLACES; p++) {
        double forces[6];
        done(seed, trivet_result_at(solved->result, column, index, span.length * p / PLACES, forces,
                                    NULL));
        const double stress = stress_at(section, forces);
        if (!(stress <= most * TRIVET__BOUND_MARGIN + room && stress <= ever + room)) {
            ck_abort_msg("seed %llu: stress inside is %g, its bounds %g and %g",
                         (unsigned long long)seed, stress, most, ever);
        }
    }
}

START_TEST(stress_stays_below_its_bounds)
{
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        solved_plan solved = solve_plan(random_plan(seed, NULL));
        double *const room = calloc(18 * (size_t)solved.spans, sizeof *room);
        ck_assert_ptr_nonnull(room);
        const sizes of = {room, room + 12 * (ptrdiff_t)solved.spans};
        trivet__span_sizes(solved.result, of.ends, of.departures);
        for (int32_t c = 0; c < solved.columns; c++) {
            const double allowed = forces_allowed(scale_of(&solved, c));
            for (int32_t k = 0; k < solved.spans; k++) {
                check_span(&solved, &of, c, k, allowed);
            }
        }
        free(room);
        free_solved_plan(&solved);
    }
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("bounds of stress", stress_stays_below_its_bounds);
}
