/*
 * Rows of beams.csv with rings and bows, as polygons of straight spans with their corners on the
 * circle. The answer of a polygon with n spans a quarter differs from that of the circle by
 * c/n^2 + d/n^4 + ...; two polygons, n and 2n, take the first term out (Richardson). At n = 45 the
 * rest is of the order (pi/(2 n))^4 / 100 = 1e-8, the rows' tolerances are 1e-5.
 *
 * The sources leave the give along the curve out: the area is STIFF_AREA I/R^2.
 */
#include "beam_rows.h"

#include "support/near.h"

#include <string.h>

enum { COARSE = 45 }; /* spans a quarter */

#define RIGHT_ANGLE 1.57079632679489661923

typedef double (*curve_solver)(const table *rows, int row, int quarter);

static double extrapolate(curve_solver solve, const table *rows, int row)
{
    const double coarse = solve(rows, row, COARSE);
    const double fine = solve(rows, row, 2 * COARSE);
    /* a polygon that is far off, or does not come nearer as 1/n^2, must not slip through */
    ck_assert(fabs(fine - coarse) <= 1e-3 * fabs(fine));
    return fine + (fine - coarse) / 3.0;
}

static double radius(const table *rows, int row)
{
    return value_input(rows, row, "R") * PER_MM;
}

static trivet_frame *curve_frame(const table *rows, int row)
{
    trivet_frame *frame = value_frame_new();
    value_stock stock = row_stock(rows, row);
    stock.area = STIFF_AREA * stock.bending / (radius(rows, row) * radius(rows, row));
    value_add_stock(frame, &stock);
    return frame;
}

/* The size of the bending moment at the start of a tube; its axes turn with the ring. */
static double moment_size(const trivet_result *result, int32_t tube)
{
    double forces[6];
    value_at(result, tube, 0.0, forces, NULL);
    return fabs(forces[4]) / PER_N_MM;
}

/* A ring in x and z, from its lowest joint round; that one is clamped, the highest is pushed. */
static double solve_ring(const table *rows, int row, int quarter)
{
    const double R = radius(rows, row);
    const int32_t count = 4 * quarter;
    trivet_frame *frame = curve_frame(rows, row);
    for (int32_t i = 0; i < count; i++) {
        const double angle = RIGHT_ANGLE * i / quarter;
        value_add_joint(frame, R * sin(angle), 0.0, -R * cos(angle));
    }
    for (int32_t i = 0; i < count; i++) {
        value_add_tube(frame, i, (i + 1) % count, 0);
    }
    must_add_mount(frame, 0, TRIVET_ALL);
    value_add_force(frame, 2 * quarter, 0.0, 0.0, -value_input(rows, row, "P"));
    trivet_result *result = must_solve(frame);
    const char *quantity = table_text(rows, row, "quantity");
    double answer = -value_move(result, 2 * quarter)[2] / PER_MM;
    if (strcmp(quantity, "moment under load") == 0) {
        answer = moment_size(result, 2 * quarter);
    } else if (strcmp(quantity, "moment at 90 deg") == 0) {
        answer = moment_size(result, quarter);
    }
    return answer_and_free(answer, result, frame);
}

/*
 * A quarter of a circle in x and (second axis): free at (R, 0), where its tangent lies along the
 * second axis, clamped at (0, R). force: [3] on the free end for 1 N.
 */
static double solve_bow(const table *rows, int row, int quarter, int is_upright,
                        const double force[3], int asked)
{
    const double R = radius(rows, row);
    const double P = value_input(rows, row, "P");
    trivet_frame *frame = curve_frame(rows, row);
    for (int32_t i = 0; i <= quarter; i++) {
        const double angle = RIGHT_ANGLE * i / quarter;
        const double second = R * sin(angle);
        value_add_joint(frame, R * cos(angle), is_upright ? 0.0 : second,
                        is_upright ? second : 0.0);
    }
    for (int32_t i = 0; i < quarter; i++) {
        value_add_tube(frame, i, i + 1, 0);
    }
    must_add_mount(frame, quarter, TRIVET_ALL);
    value_add_force(frame, 0, P * force[0], P * force[1], P * force[2]);
    trivet_result *result = must_solve(frame);
    return answer_and_free(value_move(result, 0)[asked] / PER_MM, result, frame);
}

/* Along the tangent: down. The free end goes down and, by the second row, inwards. */
static double solve_tangent_load(const table *rows, int row, int quarter)
{
    const double down[3] = {0.0, 0.0, -1.0};
    const int is_along = strcmp(table_text(rows, row, "quantity"), "deflection along load") == 0;
    return -solve_bow(rows, row, quarter, 1, down, is_along ? 2 : 0);
}

static double solve_normal_load(const table *rows, int row, int quarter)
{
    const double outward[3] = {1.0, 0.0, 0.0};
    return solve_bow(rows, row, quarter, 1, outward, 0);
}

static double solve_flat_bow(const table *rows, int row, int quarter)
{
    const double down[3] = {0.0, 0.0, -1.0};
    return -solve_bow(rows, row, quarter, 0, down, 2);
}

static double ring(const table *rows, int row)
{
    return extrapolate(solve_ring, rows, row);
}

static double tangent_load(const table *rows, int row)
{
    return extrapolate(solve_tangent_load, rows, row);
}

static double normal_load(const table *rows, int row)
{
    return extrapolate(solve_normal_load, rows, row);
}

static double flat_bow(const table *rows, int row)
{
    return extrapolate(solve_flat_bow, rows, row);
}

const beam_row curve_rows[] = {
    {"BEA-088", ring},         {"BEA-089", ring},
    {"BEA-090", ring},         {"BEA-092", tangent_load},
    {"BEA-093", tangent_load}, {"BEA-094", normal_load},
    {"BEA-095", flat_bow},     {NULL, NULL},
};
