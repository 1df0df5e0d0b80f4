/*
 * Rows of beams.csv with bent frames: L and U bents, portals, the gable frame. Frames in a plane
 * stand in the world's x and z.
 */
#include "beam_rows.h"

#include "support/near.h"

#include <string.h>

static int has_symbol(const table *rows, int row, const char *symbol)
{
    return strcmp(table_text(rows, row, "symbol"), symbol) == 0;
}

static int has_case(const table *rows, int row, const char *text)
{
    return strcmp(table_text(rows, row, "case"), text) == 0;
}

/* Post of height b, clamped at its foot; arm a to one side, P down at its tip. */
static double solve_bent_in_plane(const table *rows, int row)
{
    const double a = value_input(rows, row, "a") * PER_MM;
    const double b = value_input(rows, row, "b") * PER_MM;
    trivet_frame *frame = row_frame(rows, row);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, 0.0, 0.0, b);
    value_add_joint(frame, a, 0.0, b);
    value_add_tube(frame, 0, 1, 0);
    value_add_tube(frame, 1, 2, 0);
    must_add_mount(frame, 0, TRIVET_ALL);
    value_add_force(frame, 2, 0.0, 0.0, -value_input(rows, row, "P"));
    trivet_result *result = must_solve(frame);
    return answer_and_free(-value_move(result, 2)[2] / PER_MM, result, frame);
}

/*
 * Arm b along x, clamped at its root; second arm a along y; P down at its tip. On the root's face
 * with normal +x the part beyond turns with r x F = (-a P, b P, 0): T < 0 and My > 0.
 */
static double solve_bent_out_of_plane(const table *rows, int row)
{
    const double a = value_input(rows, row, "a") * PER_MM;
    const double b = value_input(rows, row, "b") * PER_MM;
    trivet_frame *frame = row_frame(rows, row);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, b, 0.0, 0.0);
    value_add_joint(frame, b, a, 0.0);
    value_add_tube(frame, 0, 1, 0);
    value_add_tube(frame, 1, 2, 0);
    must_add_mount(frame, 0, TRIVET_ALL);
    value_add_force(frame, 2, 0.0, 0.0, -value_input(rows, row, "P"));
    trivet_result *result = must_solve(frame);
    double forces[6];
    value_at(result, 0, 0.0, forces, NULL);
    double answer = -value_move(result, 2)[2] / PER_MM;
    if (has_symbol(rows, row, "T")) {
        answer = -forces[3] / PER_N_MM;
    } else if (has_symbol(rows, row, "M")) {
        answer = forces[4] / PER_N_MM;
    }
    return answer_and_free(answer, result, frame);
}

/* Two arms b along x, clamped at their roots; cross bar a along y, P down at its middle. */
static double solve_rack(const table *rows, int row)
{
    const double a = value_input(rows, row, "a") * PER_MM;
    const double b = value_input(rows, row, "b") * PER_MM;
    trivet_frame *frame = row_frame(rows, row);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, b, 0.0, 0.0);
    value_add_joint(frame, b, a, 0.0);
    value_add_joint(frame, 0.0, a, 0.0);
    value_add_tube(frame, 0, 1, 0);
    const int32_t bar = value_add_tube(frame, 1, 2, 0);
    value_add_tube(frame, 3, 2, 0);
    must_add_mount(frame, 0, TRIVET_ALL);
    must_add_mount(frame, 3, TRIVET_ALL);
    value_add_weight(frame, bar, 0.5 * a, value_input(rows, row, "P"));
    trivet_result *result = must_solve(frame);
    double corner[6];
    double arm[6];
    double middle[6];
    value_at(result, bar, 0.0, corner, NULL);
    value_at(result, bar, 0.5 * a, NULL, middle);
    value_at(result, 0, 0.0, arm, NULL);
    /* the cross bar's end hogs by as much as the arm is twisted */
    near_relative(fabs(arm[3]), corner[4], 1e-9);
    return answer_and_free(has_symbol(rows, row, "M0") ? corner[4] / PER_N_MM : -middle[2] / PER_MM,
                           result, frame);
}

/* A portal: columns (tubes 0 and 2, from the feet up), beam (tube 1), stiff along its tubes. */
static trivet_frame *row_portal(const table *rows, int row)
{
    const double h = value_input(rows, row, "h") * PER_MM;
    const double L = value_input(rows, row, "L") * PER_MM;
    trivet_frame *frame = value_frame_new();
    value_stock stock = row_stock(rows, row);
    stock.bending = value_input(rows, row, "Ic") * PER_MM4;
    stock.area = STIFF_AREA * stock.bending / (h * h);
    value_add_stock(frame, &stock);
    stock.bending = value_input(rows, row, "Ib") * PER_MM4;
    value_add_stock(frame, &stock);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, 0.0, 0.0, h);
    value_add_joint(frame, L, 0.0, h);
    value_add_joint(frame, L, 0.0, 0.0);
    value_add_tube(frame, 0, 1, 0);
    value_add_tube(frame, 1, 2, 1);
    value_add_tube(frame, 3, 2, 0);
    const int is_fixed = strcmp(table_text(rows, row, "group"), "portal fixed base") == 0;
    const uint32_t held = is_fixed ? TRIVET_ALL : TRIVET_ALL & ~(uint32_t)TRIVET_RY;
    must_add_mount(frame, 0, held);
    must_add_mount(frame, 3, held);
    return frame;
}

static void load_portal(const table *rows, int row, trivet_frame *frame)
{
    if (has_case(rows, row, "lateral load at top")) {
        value_add_force(frame, 1, value_input(rows, row, "P"), 0.0, 0.0);
    } else if (has_case(rows, row, "uniform load on beam")) {
        const double w = value_input(rows, row, "w") * PER_N_PER_MM;
        value_add_line(frame, 1, 0.0, (double)NAN, w, w);
    } else {
        value_add_weight(frame, 1, 0.5 * value_input(rows, row, "L") * PER_MM,
                         value_input(rows, row, "P"));
    }
}

/*
 * Portals. A push to the right makes the left corner sag and the right one hog, and turns both
 * feet against it (about -y); a load on the beam makes both corners hog and turns the left foot
 * about +y. The two sides are asked to agree before the left one is handed out.
 */
static double solve_portal(const table *rows, int row)
{
    trivet_frame *frame = row_portal(rows, row);
    load_portal(rows, row, frame);
    trivet_result *result = must_solve(frame);
    const int is_pushed = has_case(rows, row, "lateral load at top");
    const double side = is_pushed ? -1.0 : 1.0;
    double left[6];
    double right[6];
    value_at(result, 1, 0.0, left, NULL);
    value_at(result, 1, value_input(rows, row, "L") * PER_MM, right, NULL);
    const double *left_foot = value_reaction(result, 0);
    const double *right_foot = value_reaction(result, 1);
    double answer = (double)NAN;
    if (has_symbol(rows, row, "M_top")) {
        near_relative(side * left[4], right[4], 1e-5);
        answer = side * left[4] / PER_N_MM;
    } else if (has_symbol(rows, row, "M_base")) {
        near_relative(-side * left_foot[4], right_foot[4], 1e-5);
        answer = side * left_foot[4] / PER_N_MM;
    } else if (has_symbol(rows, row, "H")) {
        answer = left_foot[0];
    } else if (has_symbol(rows, row, "Delta")) {
        answer = value_move(result, 1)[0] / PER_MM;
    }
    return answer_and_free(answer, result, frame);
}

/* Gable: feet hinged, load given on the plan, so that the rafters carry w times cos of the rise. */
static double solve_gable(const table *rows, int row)
{
    const double h = value_input(rows, row, "h") * PER_MM;
    const double L = value_input(rows, row, "L") * PER_MM;
    const double rise = value_input(rows, row, "f") * PER_MM;
    const double rafter = hypot(0.5 * L, rise);
    const double w = value_input(rows, row, "w") * PER_N_PER_MM * 0.5 * L / rafter;
    trivet_frame *frame = value_frame_new();
    value_stock stock = row_stock(rows, row);
    stock.bending = value_input(rows, row, "I1") * PER_MM4;
    stock.area = STIFF_AREA * stock.bending / (h * h);
    value_add_stock(frame, &stock);
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, 0.0, 0.0, h);
    value_add_joint(frame, 0.5 * L, 0.0, h + rise);
    value_add_joint(frame, L, 0.0, h);
    value_add_joint(frame, L, 0.0, 0.0);
    for (int32_t i = 0; i < 4; i++) {
        value_add_tube(frame, i, i + 1, 0);
    }
    const uint32_t held = TRIVET_ALL & ~(uint32_t)TRIVET_RY;
    must_add_mount(frame, 0, held);
    must_add_mount(frame, 4, held);
    value_add_line(frame, 1, 0.0, (double)NAN, w, w);
    value_add_line(frame, 2, 0.0, (double)NAN, w, w);
    trivet_result *result = must_solve(frame);
    double forces[6];
    double answer = value_reaction(result, 0)[0];
    if (has_symbol(rows, row, "M_B")) {
        value_at(result, 1, 0.0, forces, NULL);
        answer = forces[4] / PER_N_MM;
    } else if (has_symbol(rows, row, "M_C")) {
        value_at(result, 1, rafter, forces, NULL);
        answer = -forces[4] / PER_N_MM;
    }
    return answer_and_free(answer, result, frame);
}

const beam_row bent_rows[] = {
    {"BEA-066", solve_bent_in_plane},
    {"BEA-068", solve_bent_out_of_plane},
    {"BEA-069", solve_bent_out_of_plane},
    {"BEA-070", solve_bent_out_of_plane},
    {"BEA-071", solve_rack},
    {"BEA-072", solve_rack},
    {"BEA-073", solve_portal},
    {"BEA-074", solve_portal},
    {"BEA-076", solve_portal},
    {"BEA-077", solve_portal},
    {"BEA-078", solve_portal},
    {"BEA-079", solve_portal},
    {"BEA-080", solve_portal},
    {"BEA-081", solve_portal},
    {"BEA-082", solve_portal},
    {"BEA-084", solve_portal},
    {"BEA-085", solve_gable},
    {"BEA-086", solve_gable},
    {"BEA-087", solve_gable},
    {NULL, NULL},
};
