/*
 * The wall that is welded onto, after EN 1993-1-8:2005 chapter 7 (from memory): tables 7.2 and 7.5
 * round onto round, 7.4 box onto round, 7.11 and 7.14 onto a box, 7.16 corners. gamma_M5 and the
 * factor on the loads are left to the caller.
 *
 * T and Y joints, and crosses (X) of two tubes on opposite faces. K and KT joints, where tubes on
 * one face pull against each other, are not here.
 */
#include "checks/joint_face.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

/* Bounds are ratios of sizes as typed in: this much over one is rounding. */
#define ROUNDING 1e-9

/* Yield above which resistances are lowered, and above which the rules end, Pa: 7.1.1(3), (4). */
#define STRONG_STEEL 355e6
#define STRONGEST_STEEL 460e6

/* No strength worth the name is left where the wall is at yield already; kept above 0 for the sum
 * of shares to be a number. */
#define PRESSED_LEAST 0.01

/* alpha of buckling curve c, cold-formed tube: EN 1993-1-1 table 6.1. */
#define CURVE_C 0.49

int32_t trivet__face_rule_of(const trivet__face *face)
{
    if (face->is_round) {
        return face->is_round_brace ? TRIVET__FACE_ROUND : TRIVET__FACE_ON_ROUND;
    }
    return face->b1 / face->b0 <= TRIVET__BETA_NARROW ? TRIVET__FACE_NARROW : TRIVET__FACE_WIDE;
}

double trivet__strong_steel_factor(double yield)
{
    return yield <= STRONG_STEEL * (1.0 + ROUNDING) ? 1.0 : 0.9;
}

int trivet__face_punches(const trivet__face *face)
{
    return face->b1 / face->b0 <= 1.0 - 2.0 * face->t0 / face->b0;
}

/* Tables 7.10 and 7.11: how far the compression in a box weakens its face. */
static double pressed_box(double n, double beta)
{
    return fmax(fmin(1.3 - 0.4 * n / beta, 1.0), PRESSED_LEAST);
}

/* Table 7.2: the same for a round tube. */
static double pressed_round(double n)
{
    return fmax(1.0 - 0.3 * n * (1.0 + n), PRESSED_LEAST);
}

/* Table 7.14, T joints: the chord is racked out of square. */
static double racking(const trivet__face *f)
{
    return 2.0 * f->f0 * f->t0 * (f->h1 * f->t0 + sqrt(f->b0 * f->h0 * f->t0 * (f->b0 + f->h0)));
}

/* Face failure, tables 7.11 and 7.14. */
static void solve_narrow(const trivet__face *f, double n, trivet__face_strength *s)
{
    const double sine = sin(f->angle);
    const double beta = s->beta;
    const double eta = s->eta;
    s->k_n = pressed_box(n, beta);
    const double unit = s->k_b * s->k_n * f->f0 * f->t0 * f->t0;
    s->N_R = unit / ((1.0 - beta) * sine) * (2.0 * eta / sine + 4.0 * sqrt(1.0 - beta));
    s->M_iR = unit * f->h1 * (1.0 / (2.0 * eta) + 2.0 / sqrt(1.0 - beta) + eta / (1.0 - beta));
    s->M_of = unit * (f->h1 * (1.0 + beta) / (2.0 * (1.0 - beta)) +
                      sqrt(2.0 * f->b0 * f->b1 * (1.0 + beta) / (1.0 - beta)));
    s->M_od = racking(f);
    s->M_oR = fmin(s->M_of, s->M_od);
}

/* Side walls at beta 1, table 7.11, and the straight line from the face at beta 0.85 to there. */
static void solve_side_walls(const trivet__face *f, double n, int is_push, trivet__face_strength *s)
{
    const double sine = sin(f->angle);
    s->k_f = pressed_box(n, 0.85);
    s->N_f = s->k_f * f->f0 * f->t0 * f->t0 / ((1.0 - 0.85) * sine) *
             (2.0 * s->eta / sine + 4.0 * sqrt(1.0 - 0.85));
    s->lambda = 3.46 * (f->h0 / f->t0 - 2.0) * sqrt(1.0 / sine) / (PI * sqrt(f->E / f->f0));
    s->phi = 0.5 * (1.0 + CURVE_C * (s->lambda - 0.2) + s->lambda * s->lambda);
    s->chi = fmin(1.0 / (s->phi + sqrt(s->phi * s->phi - s->lambda * s->lambda)), 1.0);
    s->k_w = pressed_box(n, 1.0);
    s->f_b = f->f0;
    if (is_push) {
        s->f_b = f->is_cross ? 0.8 * s->chi * f->f0 * sine : s->chi * f->f0;
    }
    s->N_w = s->k_w * s->f_b * f->t0 / sine * (2.0 * f->h1 / sine + 10.0 * f->t0);
    s->N_i = s->N_f + (s->beta - 0.85) / 0.15 * (s->N_w - s->N_f);
}

/* Tables 7.11 and 7.14 for beta above 0.85. */
static void solve_wide(const trivet__face *f, double n, int is_push, trivet__face_strength *s)
{
    const double sine = sin(f->angle);
    solve_side_walls(f, n, is_push, s);
    s->b_eff = fmin(10.0 * f->t0 / f->b0 * f->f0 * f->t0 / (f->f1 * f->t1) * f->b1, f->b1);
    s->N_b = f->f1 * f->t1 * (2.0 * f->h1 - 4.0 * f->t1 + 2.0 * s->b_eff);
    s->N_R = fmin(s->N_i, s->N_b);
    if (trivet__face_punches(f)) {
        s->b_ep = fmin(10.0 * f->t0 / f->b0 * f->b1, f->b1);
        s->N_p = f->f0 * f->t0 / (sqrt(3.0) * sine) * (2.0 * f->h1 / sine + 2.0 * s->b_ep);
        s->N_R = fmin(s->N_R, s->N_p);
    }
    const double gap = 1.0 - s->b_eff / f->b1;
    s->f_k = f->is_cross ? 0.8 * f->f0 : f->f0;
    s->M_if = 0.5 * s->f_k * f->t0 * (f->h1 + 5.0 * f->t0) * (f->h1 + 5.0 * f->t0);
    s->M_ib = f->f1 * (f->plastic1[0] - gap * f->b1 * (f->h1 - f->t1) * f->t1);
    s->M_iR = fmin(s->M_if, s->M_ib);
    s->M_of = s->f_k * f->t0 * (f->b0 - f->t0) * (f->h1 + 5.0 * f->t0);
    s->M_ob = f->f1 * (f->plastic1[1] - 0.5 * gap * gap * f->b1 * f->b1 * f->t1);
    s->M_od = racking(f);
    s->M_oR = fmin(fmin(s->M_of, s->M_ob), s->M_od);
}

/* Tables 7.2 and 7.5. The standard leaves punching out where the tube is wider than the inside;
 * here it counts always, which is on the low side. */
static void solve_round(const trivet__face *f, double n, trivet__face_strength *s)
{
    const double sine = sin(f->angle);
    const double d1 = f->b1;
    const double beta = s->beta;
    s->k_n = pressed_round(n);
    const double unit = s->k_n * f->f0 * f->t0 * f->t0 / sine;
    const double shear = f->f0 / sqrt(3.0) * f->t0;
    s->N_f = f->is_cross ? unit * 5.2 / (1.0 - 0.81 * beta)
                         : unit * pow(s->gamma, 0.2) * (2.8 + 14.2 * beta * beta);
    s->N_p = shear * PI * d1 * (1.0 + sine) / (2.0 * sine * sine);
    s->N_R = fmin(s->N_f, s->N_p);
    s->M_if = 4.85 * unit * d1 * sqrt(s->gamma) * beta;
    s->M_ib = shear * d1 * d1 * (1.0 + 3.0 * sine) / (4.0 * sine * sine);
    s->M_iR = fmin(s->M_if, s->M_ib);
    s->M_of = unit * d1 * 2.7 / (1.0 - 0.81 * beta);
    s->M_ob = shear * d1 * d1 * (3.0 + sine) / (4.0 * sine * sine);
    s->M_oR = fmin(s->M_of, s->M_ob);
}

/* Table 7.4. */
static void solve_on_round(const trivet__face *f, double n, trivet__face_strength *s)
{
    s->k_n = pressed_round(n);
    const double shape =
        f->is_cross ? 5.0 / (1.0 - 0.81 * s->beta) : 4.0 + 20.0 * s->beta * s->beta;
    s->N_R = s->k_n * f->f0 * f->t0 * f->t0 * shape * (1.0 + 0.25 * s->eta);
    s->M_iR = f->h1 * s->N_R;
    s->M_oR = 0.5 * f->b1 * s->N_R;
}

void trivet__face_solve(const trivet__face *face, double n, int is_push,
                        trivet__face_strength *strength_out)
{
    memset(strength_out, 0, sizeof *strength_out);
    strength_out->k_b = !face->is_round && face->is_round_brace ? PI / 4.0 : 1.0;
    strength_out->beta = face->b1 / face->b0;
    strength_out->eta = face->h1 / face->b0;
    strength_out->gamma = face->b0 / (2.0 * face->t0);
    switch (trivet__face_rule_of(face)) {
    case TRIVET__FACE_NARROW:
        solve_narrow(face, n, strength_out);
        break;
    case TRIVET__FACE_WIDE:
        solve_wide(face, n, is_push, strength_out);
        break;
    case TRIVET__FACE_ROUND:
        solve_round(face, n, strength_out);
        break;
    default:
        solve_on_round(face, n, strength_out);
        break;
    }
}

/* EN 1993-1-1 table 5.2: epsilon. */
static double epsilon(double yield)
{
    return sqrt(235e6 / yield);
}

static int32_t class_by(double slenderness, const double bounds[3])
{
    for (int32_t i = 0; i < 3; i++) {
        if (slenderness <= bounds[i] * (1.0 + ROUNDING)) {
            return i + 1;
        }
    }
    return 4;
}

int32_t trivet__flat_class(double slenderness, double yield, int is_bent)
{
    static const double PRESSED[3] = {33.0, 38.0, 42.0};
    static const double BENT[3] = {72.0, 83.0, 124.0};
    return class_by(slenderness / epsilon(yield), is_bent ? BENT : PRESSED);
}

int32_t trivet__round_class(double slenderness, double yield)
{
    static const double ROUND[3] = {50.0, 70.0, 90.0};
    return class_by(slenderness / (epsilon(yield) * epsilon(yield)), ROUND);
}

static int is_above(double value, double bound)
{
    return !(value <= bound * (1.0 + ROUNDING));
}

static int is_below(double value, double bound)
{
    return !(value >= bound * (1.0 - ROUNDING));
}

/* Class 1 or 2 in compression; the flat of a box is b - 3 t. */
static int is_slender(int is_round, double b, double h, double t, double yield)
{
    return is_round ? trivet__round_class(b / t, yield) > 2
                    : trivet__flat_class(fmax(b, h) / t - 3.0, yield, 0) > 2;
}

/* Table 7.8: bounds of a box that is welded onto. */
static const char *refuse_box(const trivet__face *f, double beta)
{
    if (f->is_round_brace ? is_below(beta, 0.4) : is_below(beta, 0.25)) {
        return "it is too narrow beside the wall for EN 1993-1-8 table 7.8 (a quarter, a round "
               "tube 0.4)";
    }
    if (f->is_round_brace && is_above(beta, 0.8)) {
        return "a round tube of more than 0.8 of the wall's width lies outside EN 1993-1-8 table "
               "7.8";
    }
    if (is_above(fmax(f->b0, f->h0) / fmin(f->b0, f->h0), 2.0)) {
        return "the tube welded onto is more than twice as deep as wide, outside EN 1993-1-8 "
               "table 7.8";
    }
    return is_above(fmax(f->b0, f->h0) / f->t0, 35.0)
               ? "the wall is thinner than 1/35 of its width, outside EN 1993-1-8 table 7.8"
               : NULL;
}

/* Tables 7.1 and 7.4: bounds of a round tube that is welded onto. */
static const char *refuse_round(const trivet__face *f, double beta)
{
    if (is_below(beta, f->is_round_brace ? 0.2 : 0.4)) {
        return "it is too narrow beside the round tube for EN 1993-1-8 tables 7.1 and 7.4 (0.2 of "
               "it, a square tube 0.4)";
    }
    if (!f->is_round_brace && is_below(sin(f->angle), sin(85.0 * PI / 180.0))) {
        return "EN 1993-1-8 table 7.4 knows square tubes on round ones only at a right angle";
    }
    if (!f->is_round_brace && is_above(f->h1 / f->b0, 4.0)) {
        return "it is more than four times as deep as the round tube is wide, outside EN 1993-1-8 "
               "table 7.4";
    }
    if (is_below(f->b0 / f->t0, 10.0)) {
        return "the wall is thicker than a tenth of the diameter, outside EN 1993-1-8 table 7.1";
    }
    return is_above(f->b0 / f->t0, f->is_cross ? 40.0 : 50.0)
               ? "the wall is thinner than 1/50 of the diameter (1/40 with tubes on both sides), "
                 "outside EN 1993-1-8 table 7.1"
               : NULL;
}

/* Tables 7.1 and 7.8: bounds of the tube that is welded on. */
static const char *refuse_brace(const trivet__face *f)
{
    if (is_above(fmax(f->b1, f->h1) / f->t1, f->is_round_brace ? 50.0 : 35.0)) {
        return "the tube welded on has a wall thinner than 1/35 of its width (round 1/50), outside "
               "EN 1993-1-8 tables 7.1 and 7.8";
    }
    return is_above(fmax(f->b1, f->h1) / fmin(f->b1, f->h1), 2.0)
               ? "the tube welded on is more than twice as deep as wide, outside EN 1993-1-8 table "
                 "7.8"
               : NULL;
}

const char *trivet__face_refusal(const trivet__face *f)
{
    const double beta = f->b1 / f->b0;
    if (is_below(f->angle, PI / 6.0)) {
        return "the tubes meet at less than 30 degrees, outside EN 1993-1-8 chapter 7";
    }
    if (is_above(beta, 1.0)) {
        return "it is wider than the wall that it stands on, outside EN 1993-1-8 chapter 7";
    }
    const char *const chord = f->is_round ? refuse_round(f, beta) : refuse_box(f, beta);
    const char *const why = chord ? chord : refuse_brace(f);
    if (why) {
        return why;
    }
    if (is_above(fmax(f->f0, f->f1), STRONGEST_STEEL)) {
        return "steel above 460 N/mm^2 lies outside EN 1993-1-8 chapter 7";
    }
    return is_slender(f->is_round, f->b0, f->h0, f->t0, f->f0) ||
                   is_slender(f->is_round_brace, f->b1, f->h1, f->t1, f->f1)
               ? "a wall is too slender for its steel (class 3 or 4 of EN 1993-1-1), outside EN "
                 "1993-1-8 chapter 7"
               : NULL;
}

void trivet__knee_factors(const trivet__knee *k, double *right_out, double *kappa_out)
{
    const double right =
        3.0 * sqrt(k->b / k->h) / pow(k->b / k->t, 0.8) + 1.0 / (1.0 + 2.0 * k->b / k->h);
    *right_out = right;
    *kappa_out =
        k->angle <= PI / 2.0 ? right : 1.0 - sqrt(2.0) * cos(k->angle / 2.0) * (1.0 - right);
}

const char *trivet__knee_refusal(const trivet__knee *k)
{
    if (is_above(k->f, STRONGEST_STEEL)) {
        return "steel above 460 N/mm^2 lies outside EN 1993-1-8 chapter 7";
    }
    return trivet__flat_class(k->b / k->t - 3.0, k->f, 0) > 1 ||
                   trivet__flat_class(k->h / k->t - 3.0, k->f, 1) > 1
               ? "the walls are too slender for a corner without a plate (class 1 of EN 1993-1-1 "
                 "is asked for)"
               : NULL;
}
