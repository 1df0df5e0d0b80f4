/*
 * Welded joints of tubes, classes of walls and what whole sections stand, against the table: every
 * row. A bound is found by halving: where the answer of the rule changes.
 */
#include "checks/joint_face.h"
#include "support/frames.h"
#include "support/run.h"
#include "support/table.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MPA 1e6
#define RIGHT_ANGLE 1.57079632679489662
#define COLUMN "inputs"

/* The section of SHS 25 x 25 x 2, as all rows about sections mean it. */
static trivet_section small_section(void)
{
    const trivet_profile profile = square_tube(0.025, 0.002);
    trivet_section section;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_OK);
    return section;
}

/* SHS 25 x 25 x 2 on SHS 40 x 40 x 3, or CHS 26.9 x 2.3 on CHS 42.4 x 2.6; S235. */
static trivet__face joint_of(int is_round)
{
    trivet__face face;
    memset(&face, 0, sizeof face);
    face.is_round = face.is_round_brace = is_round;
    face.b0 = face.h0 = is_round ? 0.0424 : 0.040;
    face.t0 = is_round ? 0.0026 : 0.003;
    face.b1 = face.h1 = is_round ? 0.0269 : 0.025;
    face.t1 = is_round ? 0.0023 : 0.002;
    face.f0 = face.f1 = 235.0 * MPA;
    face.E = 210e9;
    face.angle = RIGHT_ANGLE;
    return face;
}

/* What is varied until a rule says something else. */
typedef enum vary { CLASS, BOX_WALL, BRACE_WALL, ROUND_WALL, WIDTH, ANGLE } vary;

typedef struct question {
    vary what;
    int32_t class; /* highest that is still right */
    int is_round;
    int is_bent;
    double yield; /* Pa */
} question;

/* Whether the rule still takes a value. */
static int takes(const question *q, double value)
{
    if (q->what == CLASS) {
        const int32_t class = q->is_round ? trivet__round_class(value, q->yield)
                                          : trivet__flat_class(value, q->yield, q->is_bent);
        return class <= q->class;
    }
    trivet__face face = joint_of(q->is_round);
    if (q->what == BRACE_WALL) {
        face.t1 = face.b1 / value;
    } else if (q->what == WIDTH) {
        face.b1 = face.h1 = value * face.b0;
        face.t1 = face.b1 / 20.0;
    } else if (q->what == ANGLE) {
        face.angle = value * RIGHT_ANGLE / 90.0;
    } else {
        face.t0 = face.b0 / value;
    }
    return trivet__face_refusal(&face) == NULL;
}

/* The bound between a value that is taken and one that is not. */
static double bound(question q, double taken, double refused)
{
    ck_assert(takes(&q, taken) && !takes(&q, refused));
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (taken + refused);
        if (takes(&q, middle)) {
            taken = middle;
        } else {
            refused = middle;
        }
    }
    return taken;
}

/* epsilon follows from where class 1 of a flat part ends: 33 epsilon. */
static double epsilon(double yield)
{
    const question q = {.what = CLASS, .class = 1, .yield = yield};
    return bound(q, 1.0, 300.0) / 33.0;
}

static double class_bound(int32_t class, int is_round, int is_bent)
{
    const question q = {
        .what = CLASS, .class = class, .is_round = is_round, .is_bent = is_bent, .yield = 235e6};
    return bound(q, 1.0, 300.0);
}

static double joint_bound(vary what, int is_round, double taken, double refused)
{
    const question q = {.what = what, .is_round = is_round};
    return bound(q, taken, refused);
}

static trivet__face_strength strength_of(int is_round)
{
    const trivet__face face = joint_of(is_round);
    trivet__face_strength strength;
    trivet__face_solve(&face, 0.0, 0, &strength);
    return strength;
}

/* What the library says for a row, in the row's unit. */
static double value_of(const table *from, int row)
{
    const char *const id = table_text(from, row, "id");
    const int number = (int)strtol(id + 4, NULL, 10);
    const trivet_section section = small_section();
    switch (number) {
    case 51:
    case 52:
    case 53:
        return epsilon(table_input(from, row, COLUMN, "fy") * MPA);
    case 54:
    case 55:
    case 56:
        return class_bound(number - 53, 0, 0);
    case 57:
    case 58:
        return class_bound(number - 56, 0, 1);
    case 60:
    case 61:
    case 62:
        return class_bound(number - 59, 1, 0);
    case 70:
        return section.area * table_input(from, row, COLUMN, "fy") * MPA;
    case 71:
        return section.plastic_modulus[0] * table_input(from, row, COLUMN, "fy") * MPA * 1e3;
    case 137:
        return strength_of(0).N_R;
    case 138:
        return strength_of(0).M_iR * 1e3;
    case 139:
        return strength_of(1).N_R;
    case 143:
        return fmin(joint_bound(BOX_WALL, 0, 20.0, 40.0), joint_bound(BRACE_WALL, 0, 20.0, 40.0));
    case 144:
        return joint_bound(ROUND_WALL, 1, 20.0, 60.0);
    case 145:
        return joint_bound(WIDTH, 0, 0.6, 0.1);
    case 146:
        return joint_bound(ANGLE, 0, 90.0, 10.0);
    case 147:
        return table_input(from, row, COLUMN, "T") * 1e-3 / section.torsion_modulus / MPA;
    default:
        ck_abort_msg("%s is compared with nothing", id);
        return (double)NAN;
    }
}

START_TEST(every_row_is_met)
{
    table *const from = table_read(TEST_DATA "/tube_joints.csv");
    int failures = 0;
    ck_assert_int_eq(table_rows(from), 21);
    for (int row = 0; row < table_rows(from); row++) {
        const double got = value_of(from, row);
        const double want = table_number(from, row, "expected");
        if (!(fabs(got - want) <= table_number(from, row, "tol_abs"))) {
            failures++;
            fprintf(stderr, "%s: %.9g, printed %s %s\n", table_text(from, row, "id"), got,
                    table_text(from, row, "expected"), table_text(from, row, "unit"));
        }
    }
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

/* Bounds are whole numbers of the standard, nearer than the half unit that the table grants. */
START_TEST(bounds_are_exact)
{
    const double ROUNDING = 1e-8;
    ck_assert(fabs(joint_bound(BOX_WALL, 0, 20.0, 40.0) - 35.0) <= 35.0 * ROUNDING);
    ck_assert(fabs(joint_bound(BRACE_WALL, 0, 20.0, 40.0) - 35.0) <= 35.0 * ROUNDING);
    ck_assert(fabs(joint_bound(ROUND_WALL, 1, 20.0, 60.0) - 50.0) <= 50.0 * ROUNDING);
    ck_assert(fabs(joint_bound(WIDTH, 0, 0.6, 0.1) - 0.25) <= 0.25 * ROUNDING);
    ck_assert(fabs(joint_bound(ANGLE, 0, 90.0, 10.0) - 30.0) <= 30.0 * ROUNDING);
}
END_TEST

int main(void)
{
    return run_tests("printed tube joints", TESTS(every_row_is_met, bounds_are_exact));
}
