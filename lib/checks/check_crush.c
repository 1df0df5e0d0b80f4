/*
 * Walls under bolts: crushed by the preload when the bolt is tightened, and pressed by the bolt
 * that is pushed sideways. A crush sleeve takes the preload off the walls, a solid insert as well.
 *
 * Preload: F = T / (K d), and more by the scatter. Against the walls as wall_strength.c has them,
 * over 1.25 as every other part on the torque card. The preload is no load of a case: no factor on
 * loads.
 */
#include "checks/bolt_group.h"
#include "checks/bolt_strength.h"
#include "checks/demand.h"
#include "checks/holes.h"
#include "checks/wall_strength.h"

#include <assert.h>
#include <math.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SAID "as the user gives it"
#define THREAD "sizes of the thread"
#define STOCK "stock that is clamped"
#define LARGER "the tube's larger side: which way the bolt goes is not looked at"
#define FACE_RULE                                                                                  \
    "EN 1993-1-8 table 7.11, AISC 360 K1-12: a stiff patch between the sides (from memory)"
#define ROUND_RULE "EN 1993-1-8 table 7.3: a plate across the tube (from memory)"
#define SIDE_RULE "EN 1993-1-8 table 7.11, side wall (from memory)"
#define CURVE "EN 1993-1-1 6.3.1.2, curve c (from memory)"
#define BEARING_RULE                                                                               \
    "AISC 360 J7, allowable strength, Omega = 2.00, whichever rule is chosen for the bolts "       \
    "(from memory)"

/* Walls thinner than this are outside the tests behind EN 1993-1-8 tables 7.1 and 7.8. */
#define FLAT_THIN 35.0
#define ROUND_THIN 50.0

static const trivet__check_kind WALL_CRUSH = {
    .check = "wall crush",
    .verb = "is pressed with",
    .advice = "a crush sleeve or a solid insert under the bolt, or less torque, helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT,
    .subject = "wall under the bolt of"};
static const trivet__check_kind SLEEVE_CRUSH = {
    .check = "wall crush",
    .verb = "is pressed with",
    .advice = "a thicker crush sleeve or a solid insert under the bolt, or less torque, helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT,
    .subject = "sleeve under the bolt of"};
static const trivet__check_kind WALL_BEARING = {
    .check = "wall bearing",
    .verb = "is pressed sideways with",
    .advice = "a thicker wall, a thicker bolt or more bolts help",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT,
    .subject = "wall beside the bolt of"};

static const trivet__line PRELOAD_LINES[] = {
    {"T", "tightening torque", "", SAID, TRIVET_MOMENT},
    {"K", "nut factor", "", SAID " or 0.2: dry zinc-plated steel", TRIVET_NUMBER},
    {"d", "diameter of the thread", "", THREAD, TRIVET_LENGTH},
    {"F_p", "preload", "T / (K * d)", "T = K F d (common practice)", TRIVET_FORCE},
    {"u", "scatter of the preload", "", SAID " or 0.25: by hand (common practice)", TRIVET_NUMBER},
    {"F_most", "most preload", "F_p * (1 + u)", "upper end of the scatter", TRIVET_FORCE},
};
TABLE(PRELOAD);

static const trivet__line HOLLOW_LINES[] = {
    {"fy", "yield of the wall", "", NULL, TRIVET_STRESS},
    {"t", "wall", "", STOCK, TRIVET_LENGTH},
    {"w", "width of the bolt's head", "", THREAD, TRIVET_LENGTH},
    {"R_p", "head pushed through the wall", "pi * w * t * fy / sqrt(3)",
     "EN 1993-1-8 table 7.11, pushing through (from memory)", TRIVET_FORCE},
    {"h", "side of the tube", "", LARGER, TRIVET_LENGTH},
};
TABLE(HOLLOW);

static const trivet__line FACE_LINES[] = {
    {"beta", "share of the face under the head", "w / (h - t)", FACE_RULE, TRIVET_NUMBER},
    {"R_f", "face dented between the sides",
     "fy * t^2 / (1 - beta) * (2 * beta + 4 * sqrt(1 - beta))", FACE_RULE, TRIVET_FORCE},
};
TABLE(FACE);

static const trivet__line SIDE_LINES[] = {
    {"E", "Young's modulus", "", NULL, TRIVET_STRESS},
    {"lambda", "slenderness of the side walls", "3.46 * (h / t - 2) / (pi * sqrt(E / fy))",
     SIDE_RULE, TRIVET_NUMBER},
    {"phi", "for chi", "0.5 * (1 + 0.49 * (lambda - 0.2) + lambda^2)", CURVE, TRIVET_NUMBER},
    {"chi", "reduction by buckling", "min(1, 1 / (phi + sqrt(phi^2 - lambda^2)))", CURVE,
     TRIVET_NUMBER},
    {"R_s", "both side walls crushed", "2 * chi * fy * t * (w + 5 * t)", SIDE_RULE, TRIVET_FORCE},
};
TABLE(SIDE);

static const trivet__line LEAST_LINES[] = {
    {"R", "the walls stand", "min(R_f, min(R_p, R_s))", "the least of them", TRIVET_FORCE},
};
TABLE(LEAST);

/* The head is as wide as the face: it rests on the side walls. */
static const trivet__line WIDE_LINES[] = {
    {"R", "the walls stand", "min(R_p, R_s)", "the less of them: the head meets the side walls",
     TRIVET_FORCE},
};
TABLE(WIDE);

static const trivet__line ROUND_LINES[] = {
    {"fy", "yield of the wall", "", NULL, TRIVET_STRESS},
    {"t", "wall", "", STOCK, TRIVET_LENGTH},
    {"w", "width of the bolt's head", "", THREAD, TRIVET_LENGTH},
    {"R_p", "head pushed through the wall", "pi * w * t * fy / sqrt(3)",
     "EN 1993-1-8 table 7.3, pushing through (from memory)", TRIVET_FORCE},
    {"D", "diameter of the tube", "", STOCK, TRIVET_LENGTH},
    {"beta", "head over diameter", "w / D", ROUND_RULE, TRIVET_NUMBER},
    {"R_f", "wall dented", "fy * t^2 * (4 + 20 * beta^2)", ROUND_RULE, TRIVET_FORCE},
    {"R", "the walls stand", "min(R_f, R_p)", "the less of them", TRIVET_FORCE},
};
TABLE(ROUND);

static const trivet__line SLEEVE_LINES[] = {
    {"D_s", "outside diameter of the sleeve", "", SAID, TRIVET_LENGTH},
    {"t_s", "wall of the sleeve", "", SAID, TRIVET_LENGTH},
    {"A_s", "area of the sleeve", "pi / 4 * (D_s^2 - (D_s - 2 * t_s)^2)", "area of a ring",
     TRIVET_AREA},
    {"fy", "yield of the sleeve", "", SAID " or that of the tube", TRIVET_STRESS},
    {"R", "the sleeve stands", "A_s * fy", "too short to buckle", TRIVET_FORCE},
};
TABLE(SLEEVE);

static const trivet__line END_LINES[] = {
    {"gamma", "partial factor", "", "1.25 as gamma_M2 of EN 1993-1-8: a common choice",
     TRIVET_NUMBER},
    {"limit", "preload allowed", "R / gamma", "strength over partial factor", TRIVET_FORCE},
    {"used", "utilisation", "F_most / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(END);

static const trivet__line BEARING_LINES[] = {
    {"Fx", "force on the worst bolt across it, along its x", "",
     "from the solution, shared over the bolts", TRIVET_FORCE},
    {"Fy", "along its y", "", "from the solution, shared over the bolts", TRIVET_FORCE},
    {"V", "force across the bolt", "sqrt(Fx^2 + Fy^2)", "resultant", TRIVET_FORCE},
    {"fy", "yield of the wall", "", NULL, TRIVET_STRESS},
    {"d", "diameter of the bolt", "", THREAD, TRIVET_LENGTH},
    {"t", "wall", "", STOCK, TRIVET_LENGTH},
    {"A_pb", "area that it presses on, two walls", "2 * d * t", BEARING_RULE, TRIVET_AREA},
    {"R_n", "strength of the walls", "1.8 * fy * A_pb", BEARING_RULE, TRIVET_FORCE},
    {"limit", "force allowed", "R_n / 2", BEARING_RULE, TRIVET_FORCE},
    {"used", "utilisation", "V / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(BEARING);

static const char *choose_note(int is_said, int is_thin)
{
    static const char *const NOTES[2][2] = {
        {"no torque is given: that of the table for its grade is taken",
         "no torque is given: that of the table for its grade is taken; the wall is thinner than "
         "the rule was made for"},
        {"", "the wall is thinner than the rule was made for"},
    };
    return NOTES[is_said][is_thin];
}

/* What the walls stand, with the lines that lead to it. */
static double add_wall(trivet__making *making, trivet__record *record, const trivet__wall *wall)
{
    if (wall->form == TRIVET__WALL_ROUND) {
        const double values[] = {wall->yield,  wall->thickness, wall->head, wall->punch,
                                 wall->height, wall->share,     wall->face, wall->stands};
        assert((int32_t)(sizeof values / sizeof values[0]) == ROUND.count);
        trivet__record_table(making, record, &ROUND, values);
        return wall->stands;
    }
    const double hollow[] = {wall->yield, wall->thickness, wall->head, wall->punch, wall->height};
    const double face[] = {wall->share, wall->face};
    const double side[] = {wall->stiffness, wall->slenderness, wall->helper, wall->reduction,
                           wall->side};
    assert((int32_t)(sizeof hollow / sizeof hollow[0]) == HOLLOW.count);
    assert((int32_t)(sizeof side / sizeof side[0]) == SIDE.count);
    const int is_wide = wall->share >= 1.0;
    trivet__record_table(making, record, &HOLLOW, hollow);
    if (!is_wide) {
        trivet__record_table(making, record, &FACE, face);
    }
    trivet__record_table(making, record, &SIDE, side);
    trivet__record_table(making, record, is_wide ? &WIDE : &LEAST, &wall->stands);
    return wall->stands;
}

static double add_sleeve(trivet__making *making, trivet__record *record, const trivet_bolts *bolts)
{
    const double stands = trivet__sleeve_stands(making->frame, bolts);
    const double yield = trivet__sleeve_yield(making->frame, bolts);
    const double values[] = {bolts->sleeve_diameter, bolts->sleeve_wall, stands / yield, yield,
                             stands};
    assert((int32_t)(sizeof values / sizeof values[0]) == SLEEVE.count);
    trivet__record_table(making, record, &SLEEVE, values);
    return stands;
}

/* The most preload, with the lines that lead to it. */
static double add_preload(trivet__making *making, trivet__record *record, const trivet_bolts *bolts,
                          double torque)
{
    trivet_thread thread;
    trivet_grade grade;
    trivet__bolt_kind(bolts, &thread, &grade);
    const double preload = trivet__preload_of_torque(torque, bolts->nut_factor, thread.diameter);
    const double most = preload * (1.0 + bolts->scatter);
    const double values[] = {torque,  bolts->nut_factor, thread.diameter,
                             preload, bolts->scatter,    most};
    assert((int32_t)(sizeof values / sizeof values[0]) == PRELOAD.count);
    trivet__record_table(making, record, &PRELOAD, values);
    return most;
}

static const char *source_of(const trivet_material *material)
{
    return material && material->source[0] ? material->source : "material of the stock";
}

static trivet_status check_crush(trivet__making *making, int32_t index, const trivet__wall *wall)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    const int is_sleeve = bolts->clamped == TRIVET_CLAMPED_SLEEVE;
    trivet_torque torque = {.size = sizeof torque};
    const trivet_status status = trivet_frame_torque(making->frame, index, &torque);
    if (status != TRIVET_OK) {
        return status;
    }
    const int is_said = !isnan(torque.said);
    const double thin = wall->form == TRIVET__WALL_ROUND ? ROUND_THIN : FLAT_THIN;
    trivet__record *const record =
        trivet__bolts_record(making, is_sleeve ? &SLEEVE_CRUSH : &WALL_CRUSH, index, -1);
    record->check.in_case = "tightening";
    record->check.source = is_sleeve ? "yield over the sleeve's ring"
                                     : "EN 1993-1-8 chapter 7, a patch on a hollow section "
                                       "(from memory)";
    record->check.note = choose_note(is_said, !is_sleeve && wall->height > thin * wall->thickness);
    record->material_source = source_of(trivet_frame_material(making->frame, bolts->clamped_stock));
    const double most = add_preload(making, record, bolts, is_said ? torque.said : torque.table);
    const double gamma = TRIVET__GAMMA_M2;
    const double stands =
        is_sleeve ? add_sleeve(making, record, bolts) : add_wall(making, record, wall);
    const double limit = stands / gamma;
    const double values[] = {gamma, limit, most / limit};
    trivet__record_table(making, record, &END, values);
    trivet__record_judge(making, record, TRIVET_FORCE, most, limit);
    return TRIVET_OK;
}

/* The bolt with the most force across it. */
static void find_most_across(const trivet__making *making, int32_t in_case, int32_t index,
                             double across_out[2])
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    double forces[6];
    double rest[3];
    double shares[TRIVET_BOLTS_MAX][3];
    double most = -1.0;
    trivet__bolts_forces(making, in_case, index, forces);
    trivet__bolt_shares(bolts, forces, shares, rest);
    for (int32_t i = 0; i < bolts->count; i++) {
        const double across = sqrt(shares[i][0] * shares[i][0] + shares[i][1] * shares[i][1]);
        if (!(across <= most)) {
            most = isnan(across) ? HUGE_VAL : across;
            across_out[0] = shares[i][0];
            across_out[1] = shares[i][1];
        }
    }
}

static void check_bearing(trivet__making *making, int32_t index, int32_t in_case,
                          const trivet__wall *wall)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    trivet_thread thread;
    trivet_grade grade;
    double across[2] = {0.0, 0.0};
    trivet__bolt_kind(bolts, &thread, &grade);
    find_most_across(making, in_case, index, across);
    const double force = sqrt(across[0] * across[0] + across[1] * across[1]);
    const double d = thread.diameter;
    const double t = wall->thickness;
    const double strength = trivet__bearing_stands(wall->yield, d, 2.0 * t);
    const double limit = strength / 2.0;
    trivet__record *const record = trivet__bolts_record(making, &WALL_BEARING, index, in_case);
    record->check.source = BEARING_RULE;
    record->material_source = source_of(trivet_frame_material(making->frame, bolts->clamped_stock));
    const double values[] = {across[0], across[1],   force,    wall->yield, d,
                             t,         2.0 * d * t, strength, limit,       force / limit};
    assert((int32_t)(sizeof values / sizeof values[0]) == BEARING.count);
    trivet__record_table(making, record, &BEARING, values);
    trivet__record_judge(making, record, TRIVET_FORCE, force, limit);
}

static trivet_status check_set(trivet__making *making, int32_t index)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    const int is_sleeve = bolts->clamped == TRIVET_CLAMPED_SLEEVE;
    trivet__wall wall;
    trivet_status status = TRIVET_OK;
    if (!is_sleeve && bolts->clamped != TRIVET_CLAMPED_HOLLOW) {
        return TRIVET_OK;
    }
    trivet__wall_find(making->frame, bolts, &wall);
    const double stands = is_sleeve ? trivet__sleeve_stands(making->frame, bolts) : wall.stands;
    if (!(stands > 0.0)) {
        status = trivet__bolts_omit(
            making, index, is_sleeve ? "sleeve under the bolt of" : "wall under the bolt of",
            is_sleeve
                ? "the sleeve's diameter and wall, or its yield, are not known"
                : "the sizes or the yield of the tube that it presses together are not known");
    } else if (stands < HUGE_VAL) {
        status = check_crush(making, index, &wall);
    }
    const int has_walls = wall.form != TRIVET__WALL_UNKNOWN;
    const int32_t columns = trivet_result_case_count(making->result);
    for (int32_t c = 0; has_walls && status == TRIVET_OK && c < columns; c++) {
        check_bearing(making, index, c, &wall);
    }
    return status;
}

trivet_status trivet__check_walls(trivet__making *making)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; status == TRIVET_OK && i < making->frame->bolts_count; i++) {
        status = check_set(making, i);
        status = status == TRIVET_OK ? trivet__check_holes(making, i) : status;
    }
    return status;
}
