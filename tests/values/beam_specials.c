/*
 * Beams of beams.csv that do not fit the table of straight ones: several fields, springs, sinking
 * mounts, shafts, bars, warmth, the share of shear areas. Axes and signs as in beam_straights.c.
 */
#include "beam_rows.h"

#include "support/near.h"

#include <string.h>

static double solve_stepped(const table *from, int row)
{
    trivet_frame *frame = value_frame_new();
    value_stock stock = row_stock(from, row);
    stock.bending = value_input(from, row, "I1") * PER_MM4;
    value_add_stock(frame, &stock);
    stock.bending = value_input(from, row, "I2") * PER_MM4;
    value_add_stock(frame, &stock);
    const double L = value_input(from, row, "L") * PER_MM;
    const double a = value_input(from, row, "a") * PER_MM;
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, L - a, 0.0, 0.0);
    value_add_joint(frame, L, 0.0, 0.0);
    value_add_tube(frame, 0, 1, 0);
    value_add_tube(frame, 1, 2, 1);
    must_add_mount(frame, 0, TRIVET_ALL);
    value_add_force(frame, 2, 0.0, 0.0, -value_input(from, row, "P"));
    trivet_result *result = must_solve(frame);
    return answer_and_free(-value_move(result, 2)[2] / PER_MM, result, frame);
}

/* Rows without inputs print a coefficient, the same for every beam: any numbers do. */
static trivet_result *solve_coefficient(trivet_frame **frame_out, const char *ends, double w0)
{
    const value_stock stock = {210e9, 81e9, 2e-4, 2e-8, 3e-8, 0.0, 0.0};
    trivet_frame *frame = value_frame_new();
    value_add_stock(frame, &stock);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, 0.8, 0.0, 0.0);
    value_add_tube(frame, 0, 1, 0);
    beam_hold(frame, 0, ends[0]);
    beam_hold(frame, 1, ends[1]);
    value_add_line(frame, 0, 0.0, (double)NAN, w0, 600.0);
    *frame_out = frame;
    return must_solve(frame);
}

/* Most droop times E I/(w0 L^4). */
static double solve_triangle_coefficient(const table *from, int row)
{
    (void)from;
    (void)row;
    trivet_frame *frame = NULL;
    trivet_result *result = solve_coefficient(&frame, "pp", 0.0);
    const double droop = beam_most_droop(result, 0) * PER_MM;
    trivet_result_free(result);
    trivet_frame_free(frame);
    return droop * 210e9 * 2e-8 / (600.0 * 0.8 * 0.8 * 0.8 * 0.8);
}

/* Slope where the moment is zero, (3 - sqrt 3)/6 of L, times E I/(w L^3). */
static double solve_slope_coefficient(const table *from, int row)
{
    (void)from;
    (void)row;
    trivet_frame *frame = NULL;
    trivet_result *result = solve_coefficient(&frame, "cc", 600.0);
    const double slope = beam_slope(result, 0, 0.8 * (3.0 - sqrt(3.0)) / 6.0);
    trivet_result_free(result);
    trivet_frame_free(frame);
    return slope * 210e9 * 2e-8 / (600.0 * 0.8 * 0.8 * 0.8);
}

/* A line load that rises to the middle and falls again; droop or sagging moment there. */
static double solve_tent(const table *from, int row)
{
    const double L = value_input(from, row, "L") * PER_MM;
    const double w0 = value_input(from, row, "w0") * PER_N_PER_MM;
    trivet_frame *frame = beam_frame(from, row, "pp");
    value_add_line(frame, 0, 0.0, 0.5 * L, 0.0, w0);
    value_add_line(frame, 0, 0.5 * L, L, w0, 0.0);
    trivet_result *result = must_solve(frame);
    const int is_droop = strcmp(table_text(from, row, "symbol"), "delta") == 0;
    const double answer =
        is_droop ? beam_droop(result, 0, 0.5 * L) : -beam_moment(result, 0, 0.5 * L);
    return answer_and_free(answer, result, frame);
}

static double solve_two_loads(const table *from, int row)
{
    const double L = value_input(from, row, "L") * PER_MM;
    const double a = value_input(from, row, "a") * PER_MM;
    const double P = value_input(from, row, "P");
    trivet_frame *frame = beam_frame(from, row, "pp");
    value_add_weight(frame, 0, a, P);
    value_add_weight(frame, 0, L - a, P);
    trivet_result *result = must_solve(frame);
    return answer_and_free(beam_most_droop(result, 0), result, frame);
}

static double solve_on_springs(const table *from, int row)
{
    const double L = value_input(from, row, "L") * PER_MM;
    trivet_frame *frame = beam_frame(from, row, "ff");
    for (int32_t joint = 0; joint < 2; joint++) {
        trivet_mount mount;
        ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
        mount.joint = joint;
        mount.held = joint == 0 ? TRIVET_X | TRIVET_Y | TRIVET_RX : TRIVET_Y;
        mount.spring[2] = value_input(from, row, "k") * PER_N_PER_MM;
        ck_assert_int_eq(trivet_frame_add_mount(frame, &mount, NULL, NULL), TRIVET_OK);
    }
    value_add_weight(frame, 0, 0.5 * L, value_input(from, row, "P"));
    trivet_result *result = must_solve(frame);
    return answer_and_free(beam_droop(result, 0, 0.5 * L), result, frame);
}

/* The right mount sinks by D, or by the 1 mm that the row's name says. */
static double solve_settlement(const table *from, int row)
{
    const int is_prop = strcmp(table_text(from, row, "group"), "Timoshenko beam") == 0;
    const double sinks[6] = {0.0, 0.0, -input_or(from, row, "D", 1.0) * PER_MM, 0.0, 0.0, 0.0};
    trivet_frame *frame = beam_frame(from, row, is_prop ? "cp" : "cc");
    ck_assert_int_eq(trivet_frame_set_mount_move(frame, 0, 1, sinks, NULL), TRIVET_OK);
    trivet_result *result = must_solve(frame);
    return answer_and_free(is_prop ? -value_reaction(result, 1)[2] : beam_moment(result, 0, 0.0),
                           result, frame);
}

/* Mounts at 0 and L, one tube on to L + a. */
static double solve_overhang(const table *from, int row)
{
    const double L = value_input(from, row, "L") * PER_MM;
    const double a = value_input(from, row, "a") * PER_MM;
    trivet_frame *frame = row_frame(from, row);
    const int32_t joints[3] = {value_add_joint(frame, 0.0, 0.0, 0.0),
                               value_add_joint(frame, L, 0.0, 0.0),
                               value_add_joint(frame, L + a, 0.0, 0.0)};
    ck_assert_int_eq(trivet_frame_add_tube(frame, "t", joints, 3, 0, 0.0, NULL, NULL), TRIVET_OK);
    beam_hold(frame, 0, 'p');
    beam_hold(frame, 1, 'p');
    const char *symbol = table_text(from, row, "symbol");
    const int is_even = strcmp(table_text(from, row, "case"), "uniform load on overhang") == 0;
    if (is_even) {
        const double w = value_input(from, row, "w") * PER_N_PER_MM;
        value_add_line(frame, 0, L, L + a, w, w);
    } else {
        value_add_weight(frame, 0, L + a, value_input(from, row, "P"));
    }
    trivet_result *result = must_solve(frame);
    double answer = 0.0;
    if (strcmp(symbol, "R2") == 0) {
        answer = value_reaction(result, 1)[2];
    } else if (is_even) {
        answer = beam_droop(result, 0, L + a);
    } else {
        const double up[3] = {0.0, 0.0, 1.0};
        trivet_extreme extreme;
        ck_assert_int_eq(trivet_result_extreme_move(result, 0, 0, up, &extreme), TRIVET_OK);
        near_scaled(extreme.most_at, L / sqrt(3.0), 1e-9, L);
        answer = extreme.most / PER_MM;
    }
    return answer_and_free(answer, result, frame);
}

/* One tube over two or three equal fields; the row asks at the first mount inside. */
static double solve_continuous(const table *from, int row)
{
    const int fields = strncmp(table_text(from, row, "case"), "two", 3) == 0 ? 2 : 3;
    const double L = value_input(from, row, "L") * PER_MM;
    const double w = value_input(from, row, "w") * PER_N_PER_MM;
    trivet_frame *frame = row_frame(from, row);
    int32_t joints[4];
    for (int i = 0; i <= fields; i++) {
        joints[i] = value_add_joint(frame, i * L, 0.0, 0.0);
        beam_hold(frame, joints[i], 'p');
    }
    ck_assert_int_eq(trivet_frame_add_tube(frame, "t", joints, fields + 1, 0, 0.0, NULL, NULL),
                     TRIVET_OK);
    value_add_line(frame, 0, 0.0, (double)NAN, w, w);
    trivet_result *result = must_solve(frame);
    const int is_moment = strcmp(table_text(from, row, "symbol"), "M") == 0;
    return answer_and_free(is_moment ? beam_moment(result, 0, L) : value_reaction(result, 1)[2],
                           result, frame);
}

/* A shaft clamped at both ends, torque at a. The left mount turns against the torque. */
static double solve_shaft(const table *from, int row)
{
    const double at = value_input(from, row, "a") * PER_MM;
    const double torque[3] = {value_input(from, row, "T") * PER_N_MM, 0.0, 0.0};
    trivet_frame *frame = row_frame(from, row);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, input_or(from, row, "L", value_input(from, row - 1, "L")) * PER_MM, 0.0,
                    0.0);
    value_add_tube(frame, 0, 1, 0);
    beam_hold(frame, 0, 'c');
    beam_hold(frame, 1, 'c');
    ck_assert_int_eq(
        trivet_frame_add_tube_force(frame, 0, 0, at, NULL, torque, TRIVET_TUBE_AXES, NULL),
        TRIVET_OK);
    trivet_result *result = must_solve(frame);
    double move[6];
    value_at(result, 0, at, NULL, move);
    const int is_torque = strcmp(table_text(from, row, "symbol"), "T1") == 0;
    return answer_and_free(is_torque ? -value_reaction(result, 0)[3] / PER_N_MM : move[3], result,
                           frame);
}

static double solve_bar(const table *from, int row)
{
    trivet_frame *frame = beam_frame(from, row, "cf");
    value_add_force(frame, 1, value_input(from, row, "P"), 0.0, 0.0);
    trivet_result *result = must_solve(frame);
    return answer_and_free(value_move(result, 1)[0] / PER_MM, result, frame);
}

/* Warmth: the clamped bar is pushed (the row gives the size), the free one grows. */
static double solve_warm(const table *from, int row)
{
    const int is_clamped = strcmp(table_text(from, row, "case"), "fixed-fixed bar") == 0;
    trivet_frame *frame = row_frame(from, row);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, input_or(from, row, "L", 800.0) * PER_MM, 0.0, 0.0);
    value_add_tube(frame, 0, 1, 0);
    beam_hold(frame, 0, 'c');
    beam_hold(frame, 1, is_clamped ? 'c' : 'f');
    ck_assert_int_eq(trivet_frame_set_warm(frame, 0, value_input(from, row, "dT"), NULL),
                     TRIVET_OK);
    trivet_result *result = must_solve(frame);
    double forces[6];
    value_at(result, 0, 0.0, forces, NULL);
    return answer_and_free(is_clamped ? -forces[0] : value_move(result, 1)[0] / PER_MM, result,
                           frame);
}

/* Shear area over area of the library's own sections; nu is 0.3 there as in the rows. */
static double solve_shear_share(const table *from, int row)
{
    const char *which = table_text(from, row, "case");
    trivet_profile profile;
    trivet_section section;
    ck_assert_int_eq(trivet_profile_defaults(&profile, sizeof profile), TRIVET_OK);
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    if (strcmp(which, "solid circle") == 0) {
        profile.shape = TRIVET_SHAPE_ROUND_BAR;
        profile.diameter = 0.02;
    } else if (strcmp(which, "solid rectangle") == 0) {
        profile.shape = TRIVET_SHAPE_FLAT_BAR;
        profile.height = 0.03;
        profile.width = 0.01;
    } else {
        profile.shape = TRIVET_SHAPE_ROUND_TUBE;
        profile.diameter = 0.02;
        const double inner = input_or(from, row, "m", 0.999); /* thin: the limit m -> 1 */
        profile.wall = 0.5 * 0.02 * (1.0 - inner);
    }
    ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_OK);
    near_relative(section.shear_area[0], section.shear_area[1], 1e-12);
    return section.shear_area[1] / section.area;
}

const beam_row special_rows[] = {
    {"BEA-013", solve_stepped},
    {"BEA-024", solve_triangle_coefficient},
    {"BEA-025", solve_tent},
    {"BEA-026", solve_tent},
    {"BEA-030", solve_two_loads},
    {"BEA-031", solve_on_springs},
    {"BEA-039", solve_slope_coefficient},
    {"BEA-042", solve_settlement},
    {"BEA-052", solve_overhang},
    {"BEA-053", solve_overhang},
    {"BEA-054", solve_overhang},
    {"BEA-055", solve_continuous},
    {"BEA-056", solve_continuous},
    {"BEA-057", solve_continuous},
    {"BEA-058", solve_continuous},
    {"BEA-060", solve_shaft},
    {"BEA-061", solve_shaft},
    {"BEA-062", solve_bar},
    {"BEA-063", solve_warm},
    {"BEA-064", solve_warm},
    {"BEA-096", solve_shear_share},
    {"BEA-097", solve_shear_share},
    {"BEA-098", solve_shear_share},
    {"BEA-100", solve_shear_share},
    {"BEA-106", solve_settlement},
    {NULL, NULL},
};
