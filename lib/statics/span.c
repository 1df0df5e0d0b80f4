/*
 * The Timoshenko span. With My' = Vz, Mz' = -Vy, curvatures (ty', tz') = bend (My, Mz),
 * w' = -ty + Sz Vz and v' = tz + Sy Vy, a span held at its start and pulled at its end by p
 * stretches by the flexibility below (integrals of the same equations; S. Timoshenko, Strength of
 * Materials, for the shear terms). Its inverse is the stiffness; freed ends are condensed out of
 * it one by one, each by a step of Gaussian elimination.
 *
 * Bending about y and z couples where the section has a product moment:
 * My = E (Iyy ty' - Iyz tz'), Mz = E (Izz tz' - Iyz ty').
 */
#include "statics/span.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Second moments times E of one piece of stock: Iyy, Izz, Iyz. */
static void add_bending(const trivet__stock *stock, double sums[3])
{
    const trivet_section *const section = &stock->section;
    const double E = stock->material.E;
    sums[0] += E * section->second_moment[0];
    sums[1] += E * section->second_moment[1];
    sums[2] += E * section->product_moment;
}

static void invert_bending(const double sums[3], double bend[3])
{
    const double determinant = sums[0] * sums[1] - sums[2] * sums[2];
    bend[0] = sums[1] / determinant;
    bend[1] = sums[2] / determinant;
    bend[2] = sums[0] / determinant;
}

void trivet__span_flexibility(trivet__span *span, const trivet__stock *stock,
                              const trivet__stock *insert, int32_t bond)
{
    const trivet_section *const section = &stock->section;
    const trivet_material *const material = &stock->material;
    double bending[3] = {0.0, 0.0, 0.0};
    add_bending(stock, bending);
    span->EA = material->E * section->area;
    span->GJ = material->G * section->torsion_constant;
    span->expansion = material->expansion;
    span->mass = trivet__stock_mass_per_length(stock);
    double stiff_y = material->G * section->shear_area[0];
    double stiff_z = material->G * section->shear_area[1];
    if (insert) {
        const trivet_section *const inner = &insert->section;
        const double EA = insert->material.E * inner->area;
        add_bending(insert, bending);
        stiff_y += insert->material.G * inner->shear_area[0];
        stiff_z += insert->material.G * inner->shear_area[1];
        span->mass += trivet__stock_mass_per_length(insert);
        if (bond == TRIVET_TOGETHER) {
            span->expansion =
                (span->EA * span->expansion + EA * insert->material.expansion) / (span->EA + EA);
            span->EA += EA;
            span->GJ += insert->material.G * inner->torsion_constant;
        }
    }
    span->shear[0] = 1.0 / stiff_y;
    span->shear[1] = 1.0 / stiff_z;
    invert_bending(bending, span->bend);
}

/*
 * Flexibility of (v, w, ty, tz) under (Vy, Vz, My, Mz) at the end: symmetric 4 x 4.
 */
static void bending_flexibility(const trivet__span *span, double f[4][4])
{
    const double L = span->length;
    const double *const b = span->bend;
    f[0][0] = b[2] * L * L * L / 3.0 + span->shear[0] * L;
    f[1][1] = b[0] * L * L * L / 3.0 + span->shear[1] * L;
    f[2][2] = b[0] * L;
    f[3][3] = b[2] * L;
    f[0][1] = f[1][0] = -b[1] * L * L * L / 3.0;
    f[0][2] = f[2][0] = b[1] * L * L / 2.0;
    f[0][3] = f[3][0] = b[2] * L * L / 2.0;
    f[1][2] = f[2][1] = -b[0] * L * L / 2.0;
    f[1][3] = f[3][1] = -b[1] * L * L / 2.0;
    f[2][3] = f[3][2] = b[1] * L;
}

/* Inverse of [a, b; b, c]. */
static void invert_two(double a, double b, double c, double inverse[3])
{
    const double determinant = a * c - b * b;
    inverse[0] = c / determinant;
    inverse[1] = -b / determinant;
    inverse[2] = a / determinant;
}

/* Inverse of a symmetric positive 4 x 4 by two blocks of two: Schur's complement. */
static void invert_four(double f[4][4], double k[4][4])
{
    double p[3];
    invert_two(f[2][2], f[2][3], f[3][3], p);
    const double P[2][2] = {{p[0], p[1]}, {p[1], p[2]}};
    double B[2][2]; /* upper right block times P */
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            B[i][j] = f[i][2] * P[0][j] + f[i][3] * P[1][j];
        }
    }
    double schur[3];
    invert_two(f[0][0] - B[0][0] * f[0][2] - B[0][1] * f[0][3],
               f[0][1] - B[0][0] * f[1][2] - B[0][1] * f[1][3],
               f[1][1] - B[1][0] * f[1][2] - B[1][1] * f[1][3], schur);
    const double S[2][2] = {{schur[0], schur[1]}, {schur[1], schur[2]}};
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            k[i][j] = S[i][j];
            k[i][2 + j] = -(S[i][0] * B[0][j] + S[i][1] * B[1][j]);
            k[2 + j][i] = k[i][2 + j];
        }
    }
    for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
            k[2 + i][2 + j] = P[i][j] - (B[0][i] * k[0][2 + j] + B[1][i] * k[1][2 + j]);
        }
    }
}

/* The places of Vy, Vz, My, Mz among N Vy Vz T My Mz. */
static const int bending_places[4] = {1, 2, 4, 5};

static void whole_stiffness(trivet__span *span)
{
    double f[4][4];
    double k[4][4];
    bending_flexibility(span, f);
    invert_four(f, k);
    memset(span->stiffness, 0, sizeof span->stiffness);
    span->stiffness[0] = span->EA / span->length;
    span->stiffness[6 * 3 + 3] = span->GJ / span->length;
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            span->stiffness[6 * bending_places[i] + bending_places[j]] = k[i][j];
        }
    }
}

void trivet__span_flexibility_matrix(const trivet__span *span, double matrix[36])
{
    double f[4][4];
    bending_flexibility(span, f);
    memset(matrix, 0, 36 * sizeof *matrix);
    matrix[0] = span->length / span->EA;
    matrix[6 * 3 + 3] = span->length / span->GJ;
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            matrix[6 * bending_places[i] + bending_places[j]] = f[i][j];
        }
    }
}

/* What a slip of one in a direction at an end adds to the stretch. */
static void slip_column(const trivet__span *span, int at_first, int direction, double column[6])
{
    memset(column, 0, 6 * sizeof *column);
    if (!at_first) {
        column[direction] = 1.0;
        return;
    }
    column[direction] = -1.0;
    if (direction == 4) {
        column[2] = span->length;
    } else if (direction == 5) {
        column[1] = -span->length;
    }
}

static double dot6(const double a[6], const double b[6])
{
    double sum = 0.0;
    for (int i = 0; i < 6; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

static void times6(const double matrix[36], const double x[6], double y[6])
{
    for (int i = 0; i < 6; i++) {
        y[i] = dot6(matrix + (ptrdiff_t)6 * i, x);
    }
}

/* Takes one freed direction out of the stiffness. Returns 0 if nothing resists it any more. */
static int condense(trivet__span *span, const double whole[36], int at_first, int direction)
{
    /* Rounding leaves 1e-15 or so of the stiffness behind where nothing is left of it. */
    const double nothing_left = 1e-10;
    trivet__release *const release = &span->releases[span->release_count];
    double force[6];
    double before[6];
    release->at_first = at_first;
    release->direction = direction;
    slip_column(span, at_first, direction, release->column);
    times6(whole, release->column, before);
    times6(span->stiffness, release->column, force);
    const double resistance = dot6(release->column, force);
    if (!(resistance > nothing_left * dot6(release->column, before))) {
        return 0;
    }
    for (int i = 0; i < 6; i++) {
        release->gain[i] = force[i] / resistance;
    }
    for (int i = 0; i < 6; i++) {
        for (int j = 0; j < 6; j++) {
            span->stiffness[6 * i + j] -= release->gain[i] * force[j];
        }
    }
    if (!at_first) {
        for (int i = 0; i < 6; i++) {
            span->stiffness[6 * direction + i] = 0.0;
            span->stiffness[6 * i + direction] = 0.0;
        }
    }
    span->release_count++;
    return 1;
}

/*
 * The slips s of all freed directions out of a misfit d = sum of column s (least squares by
 * normal equations; the columns are independent), kept as the map from d to slips at the start.
 */
static void make_slip_map(trivet__span *span)
{
    const int n = (int)span->release_count;
    double normal[6][12];
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            normal[i][j] = dot6(span->releases[i].column, span->releases[j].column);
        }
        for (int j = 0; j < 6; j++) {
            normal[i][6 + j] = span->releases[i].column[j];
        }
    }
    for (int pivot = 0; pivot < n; pivot++) {
        for (int i = 0; i < n; i++) {
            const double share = i == pivot ? 0.0 : normal[i][pivot] / normal[pivot][pivot];
            for (int j = 0; j < 12; j++) {
                if (j < n || j >= 6) {
                    normal[i][j] -= share * normal[pivot][j];
                }
            }
        }
    }
    memset(span->slip, 0, sizeof span->slip);
    for (int i = 0; i < n; i++) {
        const trivet__release *const release = &span->releases[i];
        for (int j = 0; release->at_first && j < 6; j++) {
            span->slip[6 * release->direction + j] = normal[i][6 + j] / normal[i][i];
        }
    }
}

int trivet__span_stiffness(trivet__span *span, uint32_t free_first, uint32_t free_last)
{
    whole_stiffness(span);
    span->release_count = 0;
    if (free_first == 0 && free_last == 0) {
        return 1;
    }
    double whole[36];
    memcpy(whole, span->stiffness, sizeof whole);
    for (int end = 0; end < 2; end++) {
        const uint32_t directions = end == 0 ? free_first : free_last;
        for (int direction = 0; direction < 6; direction++) {
            const uint32_t bit = 1U << direction;
            if ((directions & bit) != 0) {
                if (span->release_count == 6 || !condense(span, whole, end == 0, direction)) {
                    return 0;
                }
            }
        }
    }
    make_slip_map(span);
    return 1;
}
