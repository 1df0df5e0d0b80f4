/*
 * Straight beams of beams.csv.
 *
 * Beams lie along world x and are loaded downwards. Then the tube's z is up, My > 0 pulls the top
 * fibre (hogging), ry > 0 where the beam falls towards +x: dw/dx = -ry without shear. Each row of
 * the table says with a sign how the book counts.
 */
#include "beam_rows.h"

#include "support/near.h"

#include <string.h>

/* Places along a beam: a share of L, or the row's own a. */
#define AT_A (-1.0)

enum ask { DROOP, MOST_DROOP, SLOPE, MOMENT, MOST_MOMENT, REACTION };

typedef struct straight_beam {
    const char *id;
    const char *ends; /* c clamped, p pinned, f free: at 0 and at L */
    char load;        /* P force, M moment about y, w even, t rising from 0, d falling to 0 */
    double from;      /* of the load; a share of L, or AT_A */
    double to;        /* of a line load */
    enum ask ask;
    double at;   /* where it is asked */
    double sign; /* the book's value = sign times ours */
} straight_beam;

/* clang-format off */
static const straight_beam straight_beams[] = {
    {"BEA-001", "cf", 'P', 1.0, 0.0, DROOP, 1.0, 1.0},
    {"BEA-002", "cf", 'P', 1.0, 0.0, SLOPE, 1.0, 1.0},
    {"BEA-004", "cf", 'P', AT_A, 0.0, DROOP, 1.0, 1.0},
    {"BEA-005", "cf", 'w', 0.0, 1.0, DROOP, 1.0, 1.0},
    {"BEA-006", "cf", 'w', 0.0, 1.0, SLOPE, 1.0, 1.0},
    {"BEA-007", "cf", 'w', 0.0, 1.0, MOMENT, 0.0, 1.0},
    {"BEA-007", "cf", 'w', 0.0, 1.0, MOST_MOMENT, 0.0, 1.0},
    {"BEA-008", "cf", 'M', 1.0, 0.0, DROOP, 1.0, 1.0},
    {"BEA-009", "cf", 'M', 1.0, 0.0, SLOPE, 1.0, 1.0},
    {"BEA-010", "cf", 'd', 0.0, 1.0, DROOP, 1.0, 1.0},
    {"BEA-012", "cf", 'w', 0.0, AT_A, DROOP, 1.0, 1.0},
    {"BEA-014", "pp", 'P', 0.5, 0.0, DROOP, 0.5, 1.0},
    {"BEA-014", "pp", 'P', 0.5, 0.0, MOST_DROOP, 0.0, 1.0},
    {"BEA-015", "pp", 'P', 0.5, 0.0, SLOPE, 0.0, 1.0},
    {"BEA-015", "pp", 'P', 0.5, 0.0, SLOPE, 1.0, -1.0},
    {"BEA-016", "pp", 'P', AT_A, 0.0, DROOP, AT_A, 1.0},
    {"BEA-017", "pp", 'P', AT_A, 0.0, MOST_DROOP, 0.0, 1.0},
    {"BEA-018", "pp", 'P', AT_A, 0.0, MOMENT, AT_A, -1.0},
    {"BEA-018", "pp", 'P', AT_A, 0.0, MOST_MOMENT, 0.0, -1.0},
    {"BEA-020", "pp", 'w', 0.0, 1.0, SLOPE, 0.0, 1.0},
    {"BEA-021", "pp", 'w', 0.0, AT_A, REACTION, 0.0, 1.0},
    {"BEA-022", "pp", 'w', 0.0, AT_A, MOST_MOMENT, 0.0, -1.0},
    {"BEA-023", "pp", 't', 0.0, 1.0, MOST_MOMENT, 0.0, -1.0},
    {"BEA-028", "pp", 'M', 1.0, 0.0, SLOPE, 0.0, -1.0},
    {"BEA-029", "pp", 'M', 0.0, 0.0, MOST_DROOP, 0.0, 1.0},
    {"BEA-032", "cc", 'P', 0.5, 0.0, DROOP, 0.5, 1.0},
    {"BEA-033", "cc", 'P', 0.5, 0.0, MOMENT, 0.0, 1.0},
    {"BEA-033", "cc", 'P', 0.5, 0.0, MOMENT, 0.5, -1.0},
    {"BEA-033", "cc", 'P', 0.5, 0.0, MOMENT, 1.0, 1.0},
    {"BEA-034", "cc", 'P', AT_A, 0.0, MOMENT, 0.0, 1.0},
    {"BEA-036", "cc", 'P', AT_A, 0.0, DROOP, AT_A, 1.0},
    {"BEA-037", "cc", 'w', 0.0, 1.0, MOST_DROOP, 0.0, 1.0},
    {"BEA-038", "cc", 'w', 0.0, 1.0, MOMENT, 1.0, 1.0},
    {"BEA-040", "cc", 't', 0.0, 1.0, MOMENT, 0.0, 1.0},
    {"BEA-041", "cc", 't', 0.0, 1.0, MOMENT, 1.0, 1.0},
    {"BEA-044", "cp", 'w', 0.0, 1.0, MOMENT, 0.0, 1.0},
    {"BEA-045", "cp", 'w', 0.0, 1.0, MOST_DROOP, 0.0, 1.0},
    {"BEA-046", "cp", 'P', 0.5, 0.0, MOMENT, 0.0, 1.0},
    {"BEA-047", "cp", 'P', 0.5, 0.0, REACTION, 1.0, 1.0},
    {"BEA-048", "cp", 'P', 0.5, 0.0, DROOP, 0.5, 1.0},
    {"BEA-049", "cp", 'M', 1.0, 0.0, SLOPE, 1.0, 1.0},
    /* carried over with the same sense as the moment at the prop, seen by the reaction: inside
       the beam it has the other sign */
    {"BEA-050", "cp", 'M', 1.0, 0.0, MOMENT, 0.0, -1.0},
    {"BEA-101", "cf", 'P', 1.0, 0.0, DROOP, 1.0, 1.0},
    {"BEA-102", "pp", 'P', 0.5, 0.0, DROOP, 0.5, 1.0},
    {"BEA-103", "cc", 'P', 0.5, 0.0, DROOP, 0.5, 1.0},
    {"BEA-104", "pp", 'w', 0.0, 1.0, DROOP, 0.5, 1.0},
    {"BEA-105", "cf", 'w', 0.0, 1.0, DROOP, 1.0, 1.0},
};
/* clang-format on */

enum { STRAIGHT_COUNT = sizeof straight_beams / sizeof straight_beams[0] };
double input_or(const table *from, int row, const char *name, double stand_in)
{
    const double number = value_input(from, row, name);
    return isnan(number) ? stand_in : number;
}

value_stock row_stock(const table *from, int row)
{
    const double area = input_or(from, row, "A", 200.0) * PER_MM2;
    const value_stock stock = {
        .E = input_or(from, row, "E", 210000.0) * PER_MPA,
        .G = input_or(from, row, "G", 81000.0) * PER_MPA,
        .area = area,
        .bending = input_or(from, row, "I", 20000.0) * PER_MM4,
        .twist = input_or(from, row, "J", 30000.0) * PER_MM4,
        .shear_area = input_or(from, row, "kappa", 0.0) * area,
        .expansion = input_or(from, row, "alpha", 0.0),
    };
    return stock;
}

trivet_frame *row_frame(const table *from, int row)
{
    trivet_frame *frame = value_frame_new();
    const value_stock stock = row_stock(from, row);
    value_add_stock(frame, &stock);
    return frame;
}

void beam_hold(trivet_frame *frame, int32_t joint, char end)
{
    if (end == 'c') {
        must_add_mount(frame, joint, TRIVET_ALL);
    } else if (end == 'p') {
        must_add_mount(frame, joint,
                       joint == 0 ? TRIVET_POSITION | TRIVET_RX : TRIVET_Y | TRIVET_Z);
    }
}

/* A beam 0 to L with its ends held; tube 0, joints 0 and 1. */
trivet_frame *beam_frame(const table *rows, int row, const char *ends)
{
    trivet_frame *frame = row_frame(rows, row);
    const double L = value_input(rows, row, "L") * PER_MM;
    value_add_joint(frame, 0.0, 0.0, 0.0);
    value_add_joint(frame, L, 0.0, 0.0);
    value_add_tube(frame, 0, 1, 0);
    beam_hold(frame, 0, ends[0]);
    beam_hold(frame, 1, ends[1]);
    return frame;
}

static double place(const table *rows, int row, double share)
{
    return value_input(rows, row, "L") * PER_MM * (share >= 0.0 ? share : 0.0) +
           (share >= 0.0 ? 0.0 : value_input(rows, row, "a") * PER_MM);
}

static void load_straight(trivet_frame *frame, const table *rows, int row,
                          const straight_beam *beam)
{
    const double from = place(rows, row, beam->from);
    const double line =
        input_or(rows, row, "w", input_or(rows, row, "w0", (double)NAN)) * PER_N_PER_MM;
    if (beam->load == 'P') {
        value_add_weight(frame, 0, from, value_input(rows, row, "P"));
    } else if (beam->load == 'M') {
        const int32_t joint = beam->from > 0.0 ? 1 : 0;
        value_add_moment(frame, joint, 0.0, value_input(rows, row, "M") * PER_N_MM, 0.0);
    } else {
        value_add_line(frame, 0, from, place(rows, row, beam->to), beam->load == 't' ? 0.0 : line,
                       beam->load == 'd' ? 0.0 : line);
    }
}

double beam_droop(const trivet_result *result, int32_t tube, double at)
{
    double move[6];
    value_at(result, tube, at, NULL, move);
    return -move[2] / PER_MM;
}

double beam_slope(const trivet_result *result, int32_t tube, double at)
{
    double move[6];
    value_at(result, tube, at, NULL, move);
    return move[4];
}

double beam_moment(const trivet_result *result, int32_t tube, double at)
{
    double forces[6];
    value_at(result, tube, at, forces, NULL);
    return forces[4] / PER_N_MM;
}

double beam_most_droop(const trivet_result *result, int32_t span)
{
    const double down[3] = {0.0, 0.0, -1.0};
    trivet_extreme extreme;
    ck_assert_int_eq(trivet_result_extreme_move(result, 0, span, down, &extreme), TRIVET_OK);
    return extreme.most / PER_MM;
}

/* The moment that is largest in size, with its sign. */
static double most_moment(const trivet_result *result, int32_t span)
{
    trivet_extreme extremes[6];
    ck_assert_int_eq(trivet_result_extremes(result, 0, span, extremes), TRIVET_OK);
    const double least = extremes[4].least;
    const double most = extremes[4].most;
    return (fabs(most) >= fabs(least) ? most : least) / PER_N_MM;
}

static double answer_straight(const trivet_result *result, const table *rows, int row,
                              const straight_beam *beam)
{
    const double at = place(rows, row, beam->at);
    switch (beam->ask) {
    case DROOP:
        return beam_droop(result, 0, at);
    case MOST_DROOP:
        return beam_most_droop(result, 0);
    case SLOPE:
        return beam_slope(result, 0, at);
    case MOMENT:
        return beam_moment(result, 0, at);
    case MOST_MOMENT:
        return most_moment(result, 0);
    case REACTION:
        return value_reaction(result, beam->at > 0.0 ? 1 : 0)[2];
    }
    return (double)NAN;
}

static double solve_straight(const table *rows, int row, const straight_beam *beam)
{
    trivet_frame *frame = beam_frame(rows, row, beam->ends);
    load_straight(frame, rows, row, beam);
    trivet_result *result = must_solve(frame);
    return answer_and_free(beam->sign * answer_straight(result, rows, row, beam), result, frame);
}

int solve_straights(const table *rows, int row, double *answers, int most)
{
    const char *id = table_text(rows, row, "id");
    int count = 0;
    for (int i = 0; i < STRAIGHT_COUNT && count < most; i++) {
        if (strcmp(straight_beams[i].id, id) == 0) {
            answers[count++] = solve_straight(rows, row, &straight_beams[i]);
        }
    }
    return count;
}
