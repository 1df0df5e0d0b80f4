/*
 * How much of its limit a check can use at most, told from a few sizes. Where only the worst check
 * of each line is wanted, what stays below the worst so far is not looked at any closer.
 *
 * Every bound errs upwards, by more than rounding (TRIVET__BOUND_MARGIN): what is left out could
 * not have been the worst, bit for bit. A bound that is not a number leaves nothing out.
 */
#ifndef TRIVET_CHECKS_BOUNDS_H
#define TRIVET_CHECKS_BOUNDS_H

#include "checks/check_record.h"
#include "checks/check_weld.h"
#include "checks/joint_face.h"

/* Rounding is 1e-12 at most where conditions are bad; the margin is far from both. */
#define TRIVET__BOUND_MARGIN 1.000001

/*
 * What uses less of its limit than this is not the worst of a line, for certain. 0 where all checks
 * are wanted.
 */
double trivet__least_of_interest(const trivet__making *making, int32_t line);
/* Whether a check that uses at most so much of its limit can be the worst of a line. */
int trivet__can_be_worst(const trivet__making *making, int32_t line, double bound);

/* Says that some check of a line, still to come, uses so much of its limit. */
void trivet__floor_raise(trivet__making *making, int32_t line, double used);

/* The largest of bounds that is finite, -1 if none is: it tells how little cannot be the worst. */
int32_t trivet__bounds_most(const double *bounds, int32_t count);

/*
 * Finds the sizes of forces over all cases, then what yield and welds use at most in any case, and
 * what the worst of them and of mounts uses at least. 0 without memory.
 *
 * Many places are ruled out by that for all cases at once; where they are not, cases are told apart
 * by what each of them uses at most.
 */
int trivet__bounds_find(trivet__making *making);

/*
 * A quintic c[0] + c[1] u + ... + c[5] u^5 is nowhere in 0 <= u <= width larger than this: the
 * largest of its coefficients in Bernstein's form (any text on curves), and some rounding.
 */
double trivet__quintic_most(const double c[6], double width);

/* Sizes of stress per force: direct by N, My, Mz, shear by Vy, Vz, T. */
typedef struct trivet__stress_row {
    double direct[3];
    double shear[3];
} trivet__stress_row;

/* A section's stress points, of those alike but for signs one; of a round section its rim. */
typedef struct trivet__stress_bound {
    trivet__stress_row rows[TRIVET_STRESS_POINTS_MAX];
    trivet__stress_row most; /* the largest of all rows */
    int32_t row_count;
    int32_t is_round; /* forces across add up as vectors */
} trivet__stress_bound;

/* Nowhere in the section is the stress larger than in the worst of its rows. */
void trivet__stress_bound_find(const trivet_section *section, trivet__stress_bound *bound_out);

/* Finds those of all stocks. 0 without memory. */
int trivet__stress_bounds_find(trivet__making *making);

/* Largest direct and shear stress by forces N Vy Vz T My Mz of so large sizes, Pa. */
static inline void trivet__stress_most(const trivet__stress_bound *bound, const double sizes[6],
                                       double *direct_out, double *shear_out)
{
    const trivet__stress_row *const most = &bound->most;
    *direct_out =
        most->direct[0] * sizes[0] + most->direct[1] * sizes[4] + most->direct[2] * sizes[5];
    *shear_out = most->shear[0] * sizes[1] + most->shear[1] * sizes[2] + most->shear[2] * sizes[3];
}

/*
 * Square of the von Mises stress that a span of so long a length has at most, from the forces at
 * both ends, or their sizes, and by how much those inside depart from them: see
 * trivet__span_departures. is_even: all loads are, and forces are no sizes but have their signs.
 */
double trivet__span_square_most(const trivet__stress_bound *bound, double length,
                                const double ends[12], const double departures[6], int is_even);
/* Direct stress at the ends alone. */
double trivet__ends_direct_most(const trivet__stress_bound *bound, const double ends[12]);

/* reach: how far the weld goes from the tube's axis along y and z, m. */
void trivet__weld_bound_find(const trivet__weld_end *end, const double reach[2],
                             trivet__weld_bound *bound_out);
double trivet__weld_bound_at(const trivet__weld_bound *bound, const trivet__weld_load *load);

/* Share of the resistance of a wall by the size of each force; chord not pressed. */
typedef struct trivet__face_bound {
    double per[2][3];  /* pulled, pushed: by force, moment in the plane and out of it */
    double per_stress; /* box onto round: by the stress in the tube that is welded on */
    double beta;
} trivet__face_bound;

void trivet__face_bound_find(const trivet__face *face, trivet__face_bound *bound_out);
/* n: compression in the chord over its yield; factor: on the loads. */
double trivet__face_bound_at(const trivet__face_bound *bound, const trivet__face *face,
                             double factor, double n, const double loads[3]);

#endif
