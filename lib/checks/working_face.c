/*
 * The working of a check of the wall that a tube is welded onto: forces,
 * sizes, resistances after EN 1993-1-8 chapter 7 (see joint_face.c), their shares, the sum.
 */
#include "checks/demand.h"
#include "checks/joint_shape.h"
#include "frame/frame.h"

#include <assert.h>
#include <math.h>

static const trivet__check_kind FACE = {
    .check = "chord wall",
    .verb = "is loaded to",
    .advice = "a thicker wall, a wider tube welded onto it, or a plate between the two helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_TUBE,
    .subject = "wall of"};
#define COUNT(lines) ((int32_t)(sizeof(lines) / sizeof(lines)[0]))
#define TABLE(name) static const trivet__table name = {name##_LINES, COUNT(name##_LINES)}

#define MEMORY " (from memory)"
#define EN "EN 1993-1-8 "
#define SOLUTION "from the solution, at the end of the tube welded on"
#define BESIDE "from the solution, beside the joint where it is pressed most"
#define SECTION "section values of the stock"
#define STOCK "size of the stock"
#define OTHER "material of the tube welded on"
#define CURVE "EN 1993-1-1 6.3.1.2, curve c" MEMORY
#define RESISTANCE "least of the above"
#define FACTOR_LINE                                                                                \
    {                                                                                              \
        "gamma_F", "factor on the loads", "", "limits, loads", TRIVET_NUMBER                       \
    }

static const trivet__line LOADS_LINES[] = {
    FACTOR_LINE,
    {"N_1", "pull of the tube welded on", "", SOLUTION, TRIVET_FORCE},
    {"M_i", "its bending in the plane of the two tubes", "", SOLUTION, TRIVET_MOMENT},
    {"M_o", "its bending out of that plane", "", SOLUTION, TRIVET_MOMENT},
    {"N_0", "pull of the tube welded onto", "", BESIDE, TRIVET_FORCE},
    {"My_0", "its bending about the width", "", BESIDE, TRIVET_MOMENT},
    {"Mz_0", "its bending about the height", "", BESIDE, TRIVET_MOMENT},
    {"A_0", "its area", "", SECTION, TRIVET_AREA},
    {"W_y0", "its section modulus about the width", "", SECTION, TRIVET_VOLUME},
    {"W_z0", "its section modulus about the height", "", SECTION, TRIVET_VOLUME},
    {"f_y0", "its yield strength, beside a weld", "", NULL, TRIVET_STRESS},
    {"sigma_0", "largest compression in it",
     "max(abs(My_0) / W_y0 + abs(Mz_0) / W_z0 - N_0 / A_0, 0)",
     "pull and bending of a straight bar", TRIVET_STRESS},
    {"n", "that over its yield", "gamma_F * sigma_0 / f_y0", EN "7.5.1(3), 7.2.1(3)" MEMORY,
     TRIVET_NUMBER},
    {"theta", "angle between the axes", "", "from the joints", TRIVET_ANGLE},
    {"s", "its sine", "sin(theta)", "geometry", TRIVET_NUMBER},
    {"t_0", "wall that is welded onto", "", STOCK, TRIVET_LENGTH},
};
TABLE(LOADS);

static const trivet__line BOX_LINES[] = {
    {"b_0", "width of the face that is welded onto", "", STOCK, TRIVET_LENGTH},
    {"h_0", "depth behind it", "", STOCK, TRIVET_LENGTH},
    {"b_1", "tube welded on, across the face", "", STOCK, TRIVET_LENGTH},
    {"h_1", "tube welded on, along the face", "", STOCK, TRIVET_LENGTH},
    {"beta", "its width over that of the face", "b_1 / b_0", EN "1.5" MEMORY, TRIVET_NUMBER},
    {"eta", "its depth over the width of the face", "h_1 / b_0", EN "1.5" MEMORY, TRIVET_NUMBER},
};
TABLE(BOX);

static const trivet__line ROUND_SIZES_LINES[] = {
    {"d_0", "diameter of the tube welded onto", "", STOCK, TRIVET_LENGTH},
    {"d_1", "diameter of the tube welded on", "", STOCK, TRIVET_LENGTH},
    {"beta", "ratio of the diameters", "d_1 / d_0", EN "1.5" MEMORY, TRIVET_NUMBER},
    {"gamma", "half the diameter over the wall", "d_0 / (2 * t_0)", EN "1.5" MEMORY, TRIVET_NUMBER},
};
TABLE(ROUND_SIZES);

static const trivet__line ON_ROUND_SIZES_LINES[] = {
    {"d_0", "diameter of the tube welded onto", "", STOCK, TRIVET_LENGTH},
    {"b_1", "tube welded on, across it", "", STOCK, TRIVET_LENGTH},
    {"h_1", "tube welded on, along it", "", STOCK, TRIVET_LENGTH},
    {"beta", "its width over the diameter", "b_1 / d_0", EN "1.5" MEMORY, TRIVET_NUMBER},
    {"eta", "its depth over the diameter", "h_1 / d_0", EN "1.5" MEMORY, TRIVET_NUMBER},
};
TABLE(ON_ROUND_SIZES);

#define RACKED_LINE                                                                                \
    {                                                                                              \
        "M_od", "bending out of the plane: it is racked out of square",                            \
            "2 * f_y0 * t_0 * (h_1 * t_0 + sqrt(b_0 * h_0 * t_0 * (b_0 + h_0)))",                  \
            EN "table 7.14" MEMORY, TRIVET_MOMENT                                                  \
    }

static const trivet__line NARROW_LINES[] = {
    {"k_b", "for the shape of the tube welded on", "",
     EN "tables 7.11: pi/4 for a round tube, else 1" MEMORY, TRIVET_NUMBER},
    {"k_n", "for compression in the wall, kept above 0", "max(min(1.3 - 0.4 * n / beta, 1), 0.01)",
     EN "tables 7.11, 7.14" MEMORY, TRIVET_NUMBER},
    {"N_R", "pull or push that the face stands",
     "k_b * k_n * f_y0 * t_0^2 / ((1 - beta) * s) * (2 * eta / s + 4 * sqrt(1 - beta))",
     EN "table 7.11" MEMORY, TRIVET_FORCE},
    {"M_iR", "bending in the plane that it stands",
     "k_b * k_n * f_y0 * t_0^2 * h_1 * (1 / (2 * eta) + 2 / sqrt(1 - beta) + eta / (1 - beta))",
     EN "table 7.14" MEMORY, TRIVET_MOMENT},
    {"M_of", "bending out of the plane: the face gives way",
     "k_b * k_n * f_y0 * t_0^2 * (h_1 * (1 + beta) / (2 * (1 - beta)) + "
     "sqrt(2 * b_0 * b_1 * (1 + beta) / (1 - beta)))",
     EN "table 7.14" MEMORY, TRIVET_MOMENT},
    RACKED_LINE,
    {"M_oR", "bending out of the plane that it stands", "min(M_of, M_od)", RESISTANCE,
     TRIVET_MOMENT},
};
TABLE(NARROW);

/* Side walls; f_b is what they stand: pulled, pressed, pressed from both sides. */
#define SIDE_WALL_LINES(f_b)                                                                       \
    {                                                                                              \
        {"E", "modulus of elasticity", "", NULL, TRIVET_STRESS},                                   \
            {"k_f", "for compression in the wall, at beta 0.85",                                   \
             "max(min(1.3 - 0.4 * n / 0.85, 1), 0.01)", EN "table 7.11" MEMORY, TRIVET_NUMBER},    \
            {"N_f", "pull or push at beta 0.85: the face gives way",                               \
             "k_f * f_y0 * t_0^2 / ((1 - 0.85) * s) * (2 * eta / s + 4 * sqrt(1 - 0.85))",         \
             EN "table 7.11" MEMORY, TRIVET_FORCE},                                                \
            {"lambda", "slenderness of the side walls",                                            \
             "3.46 * (h_0 / t_0 - 2) * sqrt(1 / s) / (pi * sqrt(E / f_y0))",                       \
             EN "table 7.11" MEMORY, TRIVET_NUMBER},                                               \
            {"phi", "in the formula for chi", "0.5 * (1 + 0.49 * (lambda - 0.2) + lambda^2)",      \
             CURVE, TRIVET_NUMBER},                                                                \
            {"chi", "reduction for buckling", "min(1 / (phi + sqrt(phi^2 - lambda^2)), 1)", CURVE, \
             TRIVET_NUMBER},                                                                       \
            {"k_w", "for compression in the wall, at beta 1", "max(min(1.3 - 0.4 * n, 1), 0.01)",  \
             EN "table 7.11" MEMORY, TRIVET_NUMBER},                                               \
            {"f_b", "stress that the side walls stand", f_b, EN "table 7.11" MEMORY,               \
             TRIVET_STRESS},                                                                       \
            {"N_w", "pull or push at beta 1: the side walls give way",                             \
             "k_w * f_b * t_0 / s * (2 * h_1 / s + 10 * t_0)", EN "table 7.11" MEMORY,             \
             TRIVET_FORCE},                                                                        \
            {"N_i", "pull or push: on the line between the two",                                   \
             "N_f + (beta - 0.85) / 0.15 * (N_w - N_f)", EN "table 7.11" MEMORY, TRIVET_FORCE},    \
            {"f_y1", "yield strength of the tube welded on", "", OTHER, TRIVET_STRESS},            \
            {"t_1", "its wall", "", STOCK, TRIVET_LENGTH},                                         \
            {"b_eff", "width of it that works",                                                    \
             "min(10 * t_0 / b_0 * f_y0 * t_0 / (f_y1 * t_1) * b_1, b_1)", EN "table 7.11" MEMORY, \
             TRIVET_LENGTH},                                                                       \
        {                                                                                          \
            "N_b", "pull or push: the tube welded on gives way",                                   \
                "f_y1 * t_1 * (2 * h_1 - 4 * t_1 + 2 * b_eff)", EN "table 7.11" MEMORY,            \
                TRIVET_FORCE                                                                       \
        }                                                                                          \
    }
static const trivet__line PULLED_LINES[] = SIDE_WALL_LINES("f_y0");
static const trivet__line PRESSED_LINES[] = SIDE_WALL_LINES("chi * f_y0");
static const trivet__line CROSSED_LINES[] = SIDE_WALL_LINES("0.8 * chi * f_y0 * s");
static const trivet__table SIDE_WALLS[3] = {{PULLED_LINES, COUNT(PULLED_LINES)},
                                            {PRESSED_LINES, COUNT(PRESSED_LINES)},
                                            {CROSSED_LINES, COUNT(CROSSED_LINES)}};

static const trivet__line UNPUNCHED_LINES[] = {
    {"N_R", "pull or push that the wall stands", "min(N_i, N_b)", RESISTANCE, TRIVET_FORCE},
};
static const trivet__line PUNCHED_LINES[] = {
    {"b_ep", "width that works in punching", "min(10 * t_0 / b_0 * b_1, b_1)",
     EN "table 7.11" MEMORY, TRIVET_LENGTH},
    {"N_p", "pull or push: it punches through",
     "f_y0 * t_0 / (sqrt(3) * s) * (2 * h_1 / s + 2 * b_ep)", EN "table 7.11" MEMORY, TRIVET_FORCE},
    {"N_R", "pull or push that the wall stands", "min(min(N_i, N_b), N_p)", RESISTANCE,
     TRIVET_FORCE},
};
static const trivet__table PUNCHING[2] = {{UNPUNCHED_LINES, COUNT(UNPUNCHED_LINES)},
                                          {PUNCHED_LINES, COUNT(PUNCHED_LINES)}};

#define WIDE_BENDING_LINES(f_k)                                                                    \
    {                                                                                              \
        {"f_k", "stress that the side walls stand", f_k, EN "table 7.14" MEMORY, TRIVET_STRESS},   \
            {"W_i1", "plastic modulus of the tube welded on, in the plane", "", SECTION,           \
             TRIVET_VOLUME},                                                                       \
            {"W_o1", "plastic modulus out of the plane", "", SECTION, TRIVET_VOLUME},              \
            {"M_if", "bending in the plane: the side walls are crushed",                           \
             "0.5 * f_k * t_0 * (h_1 + 5 * t_0)^2", EN "table 7.14" MEMORY, TRIVET_MOMENT},        \
            {"M_ib", "bending in the plane: the tube welded on gives way",                         \
             "f_y1 * (W_i1 - (1 - b_eff / b_1) * b_1 * (h_1 - t_1) * t_1)",                        \
             EN "table 7.14" MEMORY, TRIVET_MOMENT},                                               \
            {"M_iR", "bending in the plane that it stands", "min(M_if, M_ib)", RESISTANCE,         \
             TRIVET_MOMENT},                                                                       \
            {"M_of", "bending out of the plane: the side walls are crushed",                       \
             "f_k * t_0 * (b_0 - t_0) * (h_1 + 5 * t_0)", EN "table 7.14" MEMORY, TRIVET_MOMENT},  \
            {"M_ob", "bending out of the plane: the tube welded on gives way",                     \
             "f_y1 * (W_o1 - 0.5 * (1 - b_eff / b_1)^2 * b_1^2 * t_1)", EN "table 7.14" MEMORY,    \
             TRIVET_MOMENT},                                                                       \
            RACKED_LINE,                                                                           \
        {                                                                                          \
            "M_oR", "bending out of the plane that it stands", "min(min(M_of, M_ob), M_od)",       \
                RESISTANCE, TRIVET_MOMENT                                                          \
        }                                                                                          \
    }
static const trivet__line WIDE_LINES[] = WIDE_BENDING_LINES("f_y0");
static const trivet__line WIDE_CROSS_LINES[] = WIDE_BENDING_LINES("0.8 * f_y0");
static const trivet__table WIDE[2] = {{WIDE_LINES, COUNT(WIDE_LINES)},
                                      {WIDE_CROSS_LINES, COUNT(WIDE_CROSS_LINES)}};

#define K_P_LINE                                                                                   \
    {                                                                                              \
        "k_p", "for compression in the wall, kept above 0", "max(1 - 0.3 * n * (1 + n), 0.01)",    \
            EN "table 7.2" MEMORY, TRIVET_NUMBER                                                   \
    }
#define ROUND_LINES_OF(N_f)                                                                        \
    {                                                                                              \
        K_P_LINE,                                                                                  \
            {"N_f", "pull or push: the wall is bent in or out", N_f, EN "table 7.2" MEMORY,        \
             TRIVET_FORCE},                                                                        \
            {"N_p", "pull or push: it punches through",                                            \
             "f_y0 / sqrt(3) * t_0 * pi * d_1 * (1 + s) / (2 * s^2)",                              \
             EN "table 7.2" MEMORY ", counted for every width", TRIVET_FORCE},                     \
            {"N_R", "pull or push that the wall stands", "min(N_f, N_p)", RESISTANCE,              \
             TRIVET_FORCE},                                                                        \
            {"M_if", "bending in the plane: the wall gives way",                                   \
             "4.85 * k_p * f_y0 * t_0^2 / s * d_1 * sqrt(gamma) * beta", EN "table 7.5" MEMORY,    \
             TRIVET_MOMENT},                                                                       \
            {"M_ip", "bending in the plane: it punches through",                                   \
             "f_y0 / sqrt(3) * t_0 * d_1^2 * (1 + 3 * s) / (4 * s^2)", EN "table 7.5" MEMORY,      \
             TRIVET_MOMENT},                                                                       \
            {"M_iR", "bending in the plane that it stands", "min(M_if, M_ip)", RESISTANCE,         \
             TRIVET_MOMENT},                                                                       \
            {"M_of", "bending out of the plane: the wall gives way",                               \
             "k_p * f_y0 * t_0^2 / s * d_1 * 2.7 / (1 - 0.81 * beta)", EN "table 7.5" MEMORY,      \
             TRIVET_MOMENT},                                                                       \
            {"M_op", "bending out of the plane: it punches through",                               \
             "f_y0 / sqrt(3) * t_0 * d_1^2 * (3 + s) / (4 * s^2)", EN "table 7.5" MEMORY,          \
             TRIVET_MOMENT},                                                                       \
        {                                                                                          \
            "M_oR", "bending out of the plane that it stands", "min(M_of, M_op)", RESISTANCE,      \
                TRIVET_MOMENT                                                                      \
        }                                                                                          \
    }
static const trivet__line ROUND_LINES[] =
    ROUND_LINES_OF("k_p * f_y0 * t_0^2 / s * gamma^0.2 * (2.8 + 14.2 * beta^2)");
static const trivet__line ROUND_CROSS_LINES[] =
    ROUND_LINES_OF("k_p * f_y0 * t_0^2 / s * 5.2 / (1 - 0.81 * beta)");
static const trivet__table ROUND[2] = {{ROUND_LINES, COUNT(ROUND_LINES)},
                                       {ROUND_CROSS_LINES, COUNT(ROUND_CROSS_LINES)}};

#define ON_ROUND_LINES_OF(shape)                                                                   \
    {                                                                                              \
        K_P_LINE,                                                                                  \
            {"N_R", "pull or push that the wall stands",                                           \
             "k_p * f_y0 * t_0^2 * (" shape ") * (1 + 0.25 * eta)", EN "table 7.4" MEMORY,         \
             TRIVET_FORCE},                                                                        \
            {"M_iR", "bending in the plane that it stands", "h_1 * N_R", EN "table 7.4" MEMORY,    \
             TRIVET_MOMENT},                                                                       \
            {"M_oR", "bending out of the plane that it stands", "0.5 * b_1 * N_R",                 \
             EN "table 7.4" MEMORY, TRIVET_MOMENT},                                                \
            {"t_1", "wall of the tube welded on", "", STOCK, TRIVET_LENGTH},                       \
            {"A_1", "its area", "", SECTION, TRIVET_AREA},                                         \
            {"W_i1", "its section modulus in the plane", "", SECTION, TRIVET_VOLUME},              \
            {"W_o1", "its section modulus out of the plane", "", SECTION, TRIVET_VOLUME},          \
        {                                                                                          \
            "sigma_1", "stress in it",                                                             \
                "gamma_F * (abs(N_1) / A_1 + abs(M_i) / W_i1 + abs(M_o) / W_o1)",                  \
                "pull and bending of a straight bar", TRIVET_STRESS                                \
        }                                                                                          \
    }
static const trivet__line ON_ROUND_LINES[] = ON_ROUND_LINES_OF("4 + 20 * beta^2");
static const trivet__line ON_ROUND_CROSS_LINES[] = ON_ROUND_LINES_OF("5 / (1 - 0.81 * beta)");
static const trivet__table ON_ROUND[2] = {{ON_ROUND_LINES, COUNT(ON_ROUND_LINES)},
                                          {ON_ROUND_CROSS_LINES, COUNT(ON_ROUND_CROSS_LINES)}};

#define GAMMA_LINE                                                                                 \
    {                                                                                              \
        "gamma_M5", "partial factor", "", EN "table 2.1" MEMORY, TRIVET_NUMBER                     \
    }
#define LAST_LINES                                                                                 \
    {"limit", "all of it", "", "a sum of shares may be 1", TRIVET_NUMBER},                         \
    {                                                                                              \
        "used", "utilisation", "sum / limit", "demand over limit", TRIVET_NUMBER                   \
    }
#define SHARE_LINES                                                                                \
    {"k_s", "1, or 0.9 for steel above 355 N/mm^2", "", EN "7.1.1(4)" MEMORY, TRIVET_NUMBER},      \
        GAMMA_LINE,                                                                                \
        {"u_N", "share by pull or push", "gamma_F * abs(N_1) * gamma_M5 / (k_s * N_R)",            \
         "factored force over resistance", TRIVET_NUMBER},                                         \
        {"u_i", "share by bending in the plane", "gamma_F * abs(M_i) * gamma_M5 / (k_s * M_iR)",   \
         "factored moment over resistance", TRIVET_NUMBER},                                        \
    {                                                                                              \
        "u_o", "share by bending out of the plane",                                                \
            "gamma_F * abs(M_o) * gamma_M5 / (k_s * M_oR)", "factored moment over resistance",     \
            TRIVET_NUMBER                                                                          \
    }
static const trivet__line SUM_LINES[] = {
    SHARE_LINES,
    {"sum", "together", "u_N + u_i + u_o", EN "(7.4)" MEMORY, TRIVET_NUMBER},
    LAST_LINES,
};
TABLE(SUM);
static const trivet__line ROUND_SUM_LINES[] = {
    SHARE_LINES,
    {"sum", "together", "u_N + u_i^2 + u_o", EN "(7.3)" MEMORY, TRIVET_NUMBER},
    LAST_LINES,
};
TABLE(ROUND_SUM);
static const trivet__line ON_ROUND_SUM_LINES[] = {
    SHARE_LINES,
    {"u_p", "share by punching", "sqrt(3) * sigma_1 * t_1 * gamma_M5 / (k_s * t_0 * f_y0)",
     EN "table 7.4" MEMORY, TRIVET_NUMBER},
    {"sum", "together, or punching if that is more", "max(u_N + u_i + u_o, u_p)",
     EN "(7.4), the stricter of the two sums" MEMORY, TRIVET_NUMBER},
    LAST_LINES,
};
TABLE(ON_ROUND_SUM);

#define THIN                                                                                       \
    "walls under 2.5 mm lie outside the range of EN 1993-1-8 chapter 7; the rule is used all the " \
    "same"
#define FILLED "the insert inside it is not counted on"
#define CROSS "of the tubes on opposite faces each is looked at by itself"

/* Note by bits: 1 thin, 2 insert, 4 cross. */
static const char *const NOTES[8] = {"",
                                     THIN,
                                     FILLED,
                                     THIN "; " FILLED,
                                     CROSS,
                                     THIN "; " CROSS,
                                     FILLED "; " CROSS,
                                     THIN "; " FILLED "; " CROSS};

const char *trivet__wall_note(double wall, int32_t has_insert, int32_t is_cross)
{
    const int is_thin = wall < TRIVET__WALL_LEAST * (1.0 - 1e-9);
    return NOTES[(is_thin ? 1 : 0) + (has_insert ? 2 : 0) + (is_cross ? 4 : 0)];
}

/* What the two tubes bring to the joint, and what is made of it. */
typedef struct loads {
    double factor;
    double pull; /* of the tube welded on */
    double in;   /* its moment in the plane */
    double out;  /* and out of it */
    double n;    /* compression in the other over its yield */
    double chord[6];
    double stress; /* its compression */
} loads;

/* Compression by the forces on a face of a section, at least 0. */
static double compression(const trivet_section *section, const double forces[6])
{
    return fmax(fabs(forces[4]) / section->elastic_modulus[0] +
                    fabs(forces[5]) / section->elastic_modulus[1] - forces[0] / section->area,
                0.0);
}

/* Keeps the forces of a side of the joint if it is pressed more there. */
static void look_at_side(const trivet_section *section, const double forces[6], int *is_found,
                         loads *out)
{
    const double stress = compression(section, forces);
    if (!*is_found || stress > out->stress) {
        for (int i = 0; i < 6; i++) {
            out->chord[i] = forces[i];
        }
        out->stress = stress;
        *is_found = 1;
    }
}

static void find_loads(const trivet__making *making, const trivet__welded_on *on, int32_t in_case,
                       const trivet_section *section, loads *out)
{
    int32_t all = 0;
    int is_found = 0;
    const double *const ends = trivet_result_span_ends(making->result, NULL, &all);
    const double *const here = ends + 12 * (ptrdiff_t)in_case * all;
    const trivet__run *const run = trivet__run_of(making, on->chord, on->joint);
    *out = (loads){.factor = making->limits.loads};
    if (run->span_before >= 0) {
        look_at_side(section, here + 12 * (ptrdiff_t)run->span_before + 6, &is_found, out);
    }
    if (run->span_behind >= 0) {
        look_at_side(section, here + 12 * (ptrdiff_t)run->span_behind, &is_found, out);
    }
    out->n = out->factor * out->stress / on->face.f0;
    out->in = trivet__end_moment(making, in_case, on->brace, on->joint, on->across, &out->pull);
    out->out = trivet__end_moment(making, in_case, on->brace, on->joint, on->upright, &out->pull);
}

static void add_loads(trivet__making *making, trivet__record *record, const trivet__face *face,
                      const trivet_section *section, const loads *of)
{
    const double values[] = {of->factor,
                             of->pull,
                             of->in,
                             of->out,
                             of->chord[0],
                             of->chord[4],
                             of->chord[5],
                             section->area,
                             section->elastic_modulus[0],
                             section->elastic_modulus[1],
                             face->f0,
                             of->stress,
                             of->n,
                             face->angle,
                             sin(face->angle),
                             face->t0};
    static_assert(sizeof values / sizeof values[0] == COUNT(LOADS_LINES), "a number a line");
    trivet__record_table(making, record, &LOADS, values);
}

/* Sizes and resistances, a box that is clear of the corners. */
static void add_narrow(trivet__making *making, trivet__record *record,
                       const trivet__face_strength *s)
{
    const double values[] = {s->k_b, s->k_n, s->N_R, s->M_iR, s->M_of, s->M_od, s->M_oR};
    static_assert(sizeof values / sizeof values[0] == COUNT(NARROW_LINES), "a number a line");
    trivet__record_table(making, record, &NARROW, values);
}

static void add_wide(trivet__making *making, trivet__record *record, const trivet__face *f,
                     const trivet__face_strength *s, int is_push)
{
    const double walls[] = {f->E,   s->k_f, s->N_f, s->lambda, s->phi, s->chi,   s->k_w,
                            s->f_b, s->N_w, s->N_i, f->f1,     f->t1,  s->b_eff, s->N_b};
    const double punched[] = {s->b_ep, s->N_p, s->N_R};
    const double bending[] = {s->f_k,  f->plastic1[0], f->plastic1[1], s->M_if, s->M_ib,
                              s->M_iR, s->M_of,        s->M_ob,        s->M_od, s->M_oR};
    static_assert(sizeof walls / sizeof walls[0] == COUNT(PULLED_LINES), "a number a line");
    static_assert(sizeof bending / sizeof bending[0] == COUNT(WIDE_LINES), "a number a line");
    const int punches = trivet__face_punches(f);
    trivet__record_table(making, record, &SIDE_WALLS[!is_push ? 0 : f->is_cross ? 2 : 1], walls);
    trivet__record_table(making, record, &PUNCHING[punches], punches ? punched : &s->N_R);
    trivet__record_table(making, record, &WIDE[f->is_cross ? 1 : 0], bending);
}

static void add_round(trivet__making *making, trivet__record *record, const trivet__face *f,
                      const trivet__face_strength *s)
{
    const double sizes[] = {f->b0, f->b1, s->beta, s->gamma};
    const double values[] = {s->k_n,  s->N_f,  s->N_p,  s->N_R,  s->M_if,
                             s->M_ib, s->M_iR, s->M_of, s->M_ob, s->M_oR};
    static_assert(sizeof sizes / sizeof sizes[0] == COUNT(ROUND_SIZES_LINES), "a number a line");
    static_assert(sizeof values / sizeof values[0] == COUNT(ROUND_LINES), "a number a line");
    trivet__record_table(making, record, &ROUND_SIZES, sizes);
    trivet__record_table(making, record, &ROUND[f->is_cross ? 1 : 0], values);
}

/* Returns the stress in the tube welded on, for punching. */
static double add_on_round(trivet__making *making, trivet__record *record, const trivet__face *f,
                           const trivet__face_strength *s, const loads *of)
{
    const double stress = of->factor * (fabs(of->pull) / f->area1 + fabs(of->in) / f->elastic1[0] +
                                        fabs(of->out) / f->elastic1[1]);
    const double sizes[] = {f->b0, f->b1, f->h1, s->beta, s->eta};
    const double values[] = {s->k_n,   s->N_R,         s->M_iR,        s->M_oR, f->t1,
                             f->area1, f->elastic1[0], f->elastic1[1], stress};
    static_assert(sizeof sizes / sizeof sizes[0] == COUNT(ON_ROUND_SIZES_LINES), "a number a line");
    static_assert(sizeof values / sizeof values[0] == COUNT(ON_ROUND_LINES), "a number a line");
    trivet__record_table(making, record, &ON_ROUND_SIZES, sizes);
    trivet__record_table(making, record, &ON_ROUND[f->is_cross ? 1 : 0], values);
    return stress;
}

/* Adds the shares and judges their sum. stress: in the tube welded on; box onto round alone. */
static void add_sum(trivet__making *making, trivet__record *record, const trivet__face *f,
                    const trivet__face_strength *s, const loads *of, double stress)
{
    static const trivet__table *const SUMS[TRIVET__FACE_RULE_COUNT] = {&SUM, &SUM, &ROUND_SUM,
                                                                       &ON_ROUND_SUM};
    const int32_t rule = trivet__face_rule_of(f);
    const double steel = trivet__strong_steel_factor(fmax(f->f0, f->f1));
    const double per = of->factor * TRIVET__GAMMA_M5 / steel;
    const double pull = per * fabs(of->pull) / s->N_R;
    const double in = per * fabs(of->in) / s->M_iR;
    const double out = per * fabs(of->out) / s->M_oR;
    const double punch = sqrt(3.0) * stress * f->t1 * TRIVET__GAMMA_M5 / (steel * f->t0 * f->f0);
    double sum = pull + (rule == TRIVET__FACE_ROUND ? in * in : in) + out;
    double values[9] = {steel, TRIVET__GAMMA_M5, pull, in, out};
    int n = 5;
    if (rule == TRIVET__FACE_ON_ROUND) {
        values[n++] = punch;
        sum = fmax(sum, punch);
    }
    values[n++] = sum;
    values[n++] = 1.0;
    values[n++] = sum;
    assert(n == SUMS[rule]->count);
    trivet__record_table(making, record, SUMS[rule], values);
    trivet__record_judge(making, record, TRIVET_NUMBER, sum, 1.0);
}

trivet__record *trivet__wall_record(trivet__making *making, const trivet__check_kind *kind,
                                    int32_t tube, int32_t joint, int32_t in_case)
{
    trivet__record *const record = trivet__record_start(making, kind, tube, in_case);
    const trivet__tube *const of = &making->frame->tubes[tube];
    const char *const source = making->frame->stocks[of->stock].material.source;
    record->material_source = source[0] ? source : "material of the stock";
    record->check.at =
        trivet__tube_distance(making->frame, tube, trivet__run_of(making, tube, joint)->position);
    trivet__record_at(making, record, of->name, joint);
    return record;
}

void trivet__record_face(trivet__making *making, const trivet__welded_on *on, int32_t in_case)
{
    static const char *const SOURCES[TRIVET__FACE_RULE_COUNT] = {
        EN "tables 7.11 and 7.14" MEMORY, EN "tables 7.11 and 7.14" MEMORY,
        EN "tables 7.2 and 7.5" MEMORY, EN "table 7.4" MEMORY};
    const trivet__face *const f = &on->face;
    const trivet_section *const section =
        &making->frame->stocks[making->frame->tubes[on->chord].stock].section;
    const int32_t rule = trivet__face_rule_of(f);
    trivet__record *const record =
        trivet__wall_record(making, &FACE, on->chord, on->joint, in_case);
    record->check.source = SOURCES[rule];
    record->check.note = trivet__wall_note(fmin(f->t0, f->t1), on->has_insert, f->is_cross);

    loads of;
    trivet__face_strength strength;
    double stress = 0.0;
    find_loads(making, on, in_case, section, &of);
    const int is_push = of.pull < 0.0;
    trivet__face_solve(f, of.n, is_push, &strength);
    add_loads(making, record, f, section, &of);
    if (!f->is_round) {
        const double sizes[] = {f->b0, f->h0, f->b1, f->h1, strength.beta, strength.eta};
        static_assert(sizeof sizes / sizeof sizes[0] == COUNT(BOX_LINES), "a number a line");
        trivet__record_table(making, record, &BOX, sizes);
    }
    switch (rule) {
    case TRIVET__FACE_NARROW:
        add_narrow(making, record, &strength);
        break;
    case TRIVET__FACE_WIDE:
        add_wide(making, record, f, &strength, is_push);
        break;
    case TRIVET__FACE_ROUND:
        add_round(making, record, f, &strength);
        break;
    default:
        stress = add_on_round(making, record, f, &strength, &of);
        break;
    }
    add_sum(making, record, f, &strength, &of, stress);
}
