/*
 * The first half of a weld's working: forces at the end, turned with the cut, the weld as a line,
 * the force at its worst place. Expressions stand in the order of weld_force.c.
 */
#include "checks/check_weld.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SOLUTION "from the solution, at the joint"
#define COORDINATES "coordinates of the joints"
#define TURN "forces turned into the plane of the cut"
#define OUTLINE "outline of the tube where it is cut, as far as it is welded"
#define WORST "place of the weld that is used most"
#define AS_LINE "weld as a line: Blodgett, Design of Welded Structures; Shigley, chapter on welds"
#define OWN "its own thickness bent or twisted: any text on strength of materials"

/* ---- forces ---- */

#define FORCE_LINES(mark)                                                                          \
    {"N" mark, "pull along the tube", "", SOLUTION, TRIVET_FORCE},                                 \
        {"Vy" mark, "shear force along the tube's width", "", SOLUTION, TRIVET_FORCE},             \
        {"Vz" mark, "shear force along its height", "", SOLUTION, TRIVET_FORCE},                   \
        {"T" mark, "twist", "", SOLUTION, TRIVET_MOMENT},                                          \
        {"My" mark, "bending moment about the width", "", SOLUTION, TRIVET_MOMENT},                \
    {                                                                                              \
        "Mz" mark, "bending moment about the height", "", SOLUTION, TRIVET_MOMENT                  \
    }

static const trivet__line STRAIGHT_LINES[] = {FORCE_LINES("")};
TABLE(STRAIGHT);

static const trivet__line LEANING_LINES[] = {
    FORCE_LINES("_t"),
    {"theta", "angle between the tube and what it is welded to", "", COORDINATES, TRIVET_ANGLE},
    {"c", "its cosine", "", COORDINATES, TRIVET_NUMBER},
    {"d_y", "lean of the tube along its width", "", COORDINATES, TRIVET_NUMBER},
    {"d_z", "lean along its height", "", COORDINATES, TRIVET_NUMBER},
    {"s", "sine of the angle", "sqrt(1 - c^2)", COORDINATES, TRIVET_NUMBER},
    {"V_d", "shear force towards the lean", "d_y * Vy_t + d_z * Vz_t", TURN, TRIVET_FORCE},
    {"V_u", "force in the cut towards the lean", "c * N_t + s * V_d", TURN, TRIVET_FORCE},
    {"M_d", "moment about the lean", "d_y * My_t + d_z * Mz_t", TURN, TRIVET_MOMENT},
    {"M_u", "moment about the lean, in the cut", "c * T_t + s * M_d", TURN, TRIVET_MOMENT},
    {"N", "pull square to the cut", "s * N_t - c * V_d", TURN, TRIVET_FORCE},
    {"Vy", "shear force in the cut along the width", "Vy_t + d_y * (V_u - V_d)", TURN,
     TRIVET_FORCE},
    {"Vz", "shear force in the cut along the height", "Vz_t + d_z * (V_u - V_d)", TURN,
     TRIVET_FORCE},
    {"T", "twist in the cut", "s * T_t - c * M_d", TURN, TRIVET_MOMENT},
    {"My", "bending moment about the width, in the cut", "My_t + d_y * (M_u - M_d)", TURN,
     TRIVET_MOMENT},
    {"Mz", "bending moment about the height, in the cut", "Mz_t + d_z * (M_u - M_d)", TURN,
     TRIVET_MOMENT},
};
TABLE(LEANING);

static void add_forces(trivet__making *making, trivet__record *record, const trivet__weld_end *end,
                       const double forces[6], const double turned[6])
{
    const double c = end->line.cosine;
    const double *const d = end->line.lean;
    if (c == 0.0) {
        trivet__record_table(making, record, &STRAIGHT, forces);
        return;
    }
    const double s = sqrt(1.0 - c * c);
    const double V_d = d[0] * forces[1] + d[1] * forces[2];
    const double M_d = d[0] * forces[4] + d[1] * forces[5];
    const double middle[] = {
        end->angle, c, d[0], d[1], s, V_d, c * forces[0] + s * V_d, M_d, c * forces[3] + s * M_d};
    double values[21];
    memcpy(values, forces, 6 * sizeof *values);
    memcpy(values + 6, middle, sizeof middle);
    memcpy(values + 15, turned, 6 * sizeof *values);
    assert((int32_t)(sizeof values / sizeof values[0]) == LEANING.count);
    trivet__record_table(making, record, &LEANING, values);
}

/* ---- the line ---- */

/* Amount n, its meaning and dimension, dimension of the sums, dimension of q. */
#define CENTRE_LINES(n, what, amount)                                                              \
    {n, what, "", OUTLINE, amount},                                                                \
        {"y_c", "its centre along the width", "", OUTLINE, TRIVET_LENGTH},                         \
        {"z_c", "its centre along the height", "", OUTLINE, TRIVET_LENGTH},                        \
        {"T_c", "twist about the weld's centre", "T + z_c * Vy - y_c * Vz",                        \
         "moved to the weld's centre", TRIVET_MOMENT},                                             \
        {"My_c", "moment about the width through it", "My - z_c * N",                              \
         "moved to the weld's centre", TRIVET_MOMENT},                                             \
    {                                                                                              \
        "Mz_c", "moment about the height through it", "Mz + y_c * N",                              \
            "moved to the weld's centre", TRIVET_MOMENT                                            \
    }

#define PLACE_LINES                                                                                \
    {"y", "worst place from the centre, along the width", "", WORST, TRIVET_LENGTH},               \
        {"z", "along the height", "", WORST, TRIVET_LENGTH},                                       \
        {"t_y", "direction of the weld there along the width", "", WORST, TRIVET_NUMBER},          \
    {                                                                                              \
        "t_z", "along the height", "", WORST, TRIVET_NUMBER                                        \
    }

#define SPLIT_LINES(q)                                                                             \
    {"q_t", "along the weld", "q_y * t_y + q_z * t_z", "split into components", q},                \
    {                                                                                              \
        "q_n", "across the weld", "q_y * t_z - q_z * t_y", "split into components", q              \
    }

#define IN_CUT_LINES(n, J, q)                                                                      \
    {"q_y", "in the cut along the width", "Vy / " n " - T_c * z / " J, AS_LINE, q},                \
        {"q_z", "in the cut along the height", "Vz / " n " + T_c * y / " J, AS_LINE, q},           \
        SPLIT_LINES(q)

#define MOMENT_LINES(sums)                                                                         \
    {"S_yy", "second moment of the weld for My", "", OUTLINE, sums},                               \
    {                                                                                              \
        "S_zz", "second moment of the weld for Mz", "", OUTLINE, sums                              \
    }

#define SYMMETRIC_LINES(n, what, amount, sums, q)                                                  \
    CENTRE_LINES(n, what, amount), MOMENT_LINES(sums), PLACE_LINES,                                \
        {"q_x", "square to the cut", "N / " n " + My_c * z / S_yy - Mz_c * y / S_zz", AS_LINE, q}, \
        IN_CUT_LINES(n, "(S_yy + S_zz)", q)

#define SKEW_LINES(n, what, amount, sums, q)                                                       \
    CENTRE_LINES(n, what, amount), MOMENT_LINES(sums),                                             \
        {"S_yz", "product moment of the weld", "", OUTLINE, sums}, PLACE_LINES,                    \
        {"q_x", "square to the cut",                                                               \
         "N / " n " + (My_c * (S_zz * z - S_yz * y) + Mz_c * (S_yz * z - S_yy * y)) / "            \
         "(S_yy * S_zz - S_yz^2)",                                                                 \
         AS_LINE, q},                                                                              \
        IN_CUT_LINES(n, "(S_yy + S_zz)", q)

#define ROW_LINES(n, what, amount, sums, q, own)                                                   \
    CENTRE_LINES(n, what, amount),                                                                 \
        {"l_y", "direction of the row along the width", "", OUTLINE, TRIVET_NUMBER},               \
        {"l_z", "along the height", "", OUTLINE, TRIVET_NUMBER},                                   \
        {"S", "second moment of the weld along the row", "", OUTLINE, sums}, PLACE_LINES,          \
        {"M_p", "moment that bends it along the row", "l_z * My_c - l_y * Mz_c",                   \
         "split into components", TRIVET_MOMENT},                                                  \
        {"M_l", "moment about the row's own line", "l_y * My_c + l_z * Mz_c",                      \
         "split into components", TRIVET_MOMENT},                                                  \
        {"q_l", "for that, by its own thickness", own, OWN, q},                                    \
        {"q_x", "square to the cut, at most",                                                      \
         "abs(N / " n " + M_p * (l_y * y + l_z * z) / S) + q_l", AS_LINE, q},                      \
        IN_CUT_LINES(n, "S", q)

#define WELD_OF "L", "length of the weld", TRIVET_LENGTH, TRIVET_VOLUME, TRIVET_LINE_LOAD
#define SPOTS_OF "n", "number of spots", TRIVET_NUMBER, TRIVET_AREA, TRIVET_FORCE
#define EXPAND(lines, ...) lines(__VA_ARGS__)

static const trivet__line SYMMETRIC_WELD_LINES[] = {EXPAND(SYMMETRIC_LINES, WELD_OF)};
TABLE(SYMMETRIC_WELD);
static const trivet__line SYMMETRIC_SPOTS_LINES[] = {EXPAND(SYMMETRIC_LINES, SPOTS_OF)};
TABLE(SYMMETRIC_SPOTS);
static const trivet__line SKEW_WELD_LINES[] = {EXPAND(SKEW_LINES, WELD_OF)};
TABLE(SKEW_WELD);
static const trivet__line SKEW_SPOTS_LINES[] = {EXPAND(SKEW_LINES, SPOTS_OF)};
TABLE(SKEW_SPOTS);
static const trivet__line ROW_WELD_LINES[] = {EXPAND(ROW_LINES, WELD_OF, "6 * abs(M_l) / (L * a)")};
TABLE(ROW_WELD);
static const trivet__line ROW_SPOTS_LINES[] = {
    EXPAND(ROW_LINES, SPOTS_OF, "8 * abs(M_l) / (n * d)")};
TABLE(ROW_SPOTS);

static const trivet__line POINT_LINES[] = {
    CENTRE_LINES("n", "number of spots", TRIVET_NUMBER),
    {"q_x", "square to the cut, at the rim of the spot",
     "abs(N) / n + 8 * sqrt(My_c^2 + Mz_c^2) / (n * d)", OWN, TRIVET_FORCE},
    {"q_t", "in the cut, likewise", "sqrt(Vy^2 + Vz^2) / n + 4 * abs(T_c) / (n * d)", OWN,
     TRIVET_FORCE},
    {"q_n", "across it: nothing is left", "", "one spot: all of it is in q_t", TRIVET_FORCE},
};
TABLE(POINT);

static const trivet__table *line_table(const trivet__weld_line *line)
{
    if (line->spread == TRIVET__WELD_POINT) {
        return &POINT;
    }
    if (line->spread == TRIVET__WELD_ROW) {
        return line->spot_count > 0 ? &ROW_SPOTS : &ROW_WELD;
    }
    if (line->S_yz != 0.0) {
        return line->spot_count > 0 ? &SKEW_SPOTS : &SKEW_WELD;
    }
    return line->spot_count > 0 ? &SYMMETRIC_SPOTS : &SYMMETRIC_WELD;
}

static int32_t add_values(double *values, int32_t n, const double *more, int32_t count)
{
    memcpy(values + n, more, (size_t)count * sizeof *values);
    return n + count;
}

static void add_line(trivet__making *making, trivet__record *record, const trivet__weld_line *line,
                     const trivet__weld_load *load, const trivet__weld_force *at)
{
    const double *const l = line->along;
    const double centre[] = {line->amount, line->centre[0], line->centre[1],
                             load->T,      load->My,        load->Mz};
    const double moments[] = {line->S_yy, line->S_zz, line->S_yz};
    const double row[] = {l[0], l[1], line->S_along};
    const double place[] = {at->y, at->z, at->t_y, at->t_z};
    const double M_l = l[0] * load->My + l[1] * load->Mz;
    const double own =
        (line->spot_count > 0 ? 8.0 : 6.0) * fabs(M_l) / (line->amount * line->thickness);
    const double bent[] = {l[1] * load->My - l[0] * load->Mz, M_l, own};
    const double force[] = {at->q_x, at->q_y, at->q_z, at->q_t, at->q_n};
    const double point[] = {at->q_x, at->q_t, at->q_n};
    const trivet__table *const table = line_table(line);
    double values[24];
    int32_t n = add_values(values, 0, centre, 6);
    if (line->spread == TRIVET__WELD_POINT) {
        n = add_values(values, n, point, 3);
    } else if (line->spread == TRIVET__WELD_ROW) {
        n = add_values(values, n, row, 3);
        n = add_values(values, n, place, 4);
        n = add_values(values, n, bent, 3);
        n = add_values(values, n, force, 5);
    } else {
        n = add_values(values, n, moments, line->S_yz != 0.0 ? 3 : 2);
        n = add_values(values, n, place, 4);
        n = add_values(values, n, force, 5);
    }
    assert(n == table->count);
    trivet__record_table(making, record, table, values);
}

void trivet__record_weld_line(trivet__making *making, trivet__record *record,
                              const trivet__weld_end *end, const double forces[6],
                              const trivet__weld_load *load, const trivet__weld_force *force)
{
    add_forces(making, record, end, forces, load->forces);
    add_line(making, record, &end->line, load, force);
}
