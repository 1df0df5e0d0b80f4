/*
 * Strength of fillet welds and spots.
 *
 * EN 1993-1-8 4.5.3.2, directional: stresses on the throat at 45 degrees,
 * sqrt(sigma^2 + 3 (tau^2 + along^2)) <= f_u / (beta_w gamma_M2) and sigma <= 0.9 f_u / gamma_M2.
 * Which way the throat leans depends on the leg that is looked at, so that both senses of q_n are
 * taken. The first condition then asks for sqrt(2 (q_x^2 + |q_x q_n| + q_n^2) + 3 q_t^2) / a, the
 * second for (|q_x| + |q_n|) / (sqrt(2) a), at most 1/sqrt(3) of it (q_x = q_n): with beta_w above
 * 0.65 the second is never the one that decides, but it is shown.
 *
 * EN 1993-1-8 4.5.3.3, simplified: the resultant <= f_u / (sqrt(3) beta_w gamma_M2) a.
 *
 * AISC 360 J2.4: the resultant <= 0.60 F_EXX k_ds a / 2.00, and the wall beside the weld J4.2:
 * 0.60 f_u t / 2.00. k_ds is 1 at the ends of square and rectangular tube (AISC 360-22 J2.4, in
 * tension; taken for all loads).
 *
 * Spots as plug welds, EN 1993-1-8 4.8: area times f_u / (sqrt(3) gamma_M2), with beta_w = 1, its
 * largest, since a spot on a thin wall is no plug weld of the standard; and no more than the wall
 * round the spot stands in shear. Pull counts like shear.
 *
 * All from memory.
 */
#include "checks/weld_strength.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

/* Below this, Pa, a metal is no steel. */
#define STEEL_LEAST 150e9

double trivet__welded_tensile(const trivet_material *material)
{
    const int is_softened =
        material->welded_yield > 0.0 && material->welded_yield < material->yield;
    if (isnan(material->welded_tensile)) {
        return is_softened ? (double)NAN : material->tensile;
    }
    return material->tensile < material->welded_tensile ? material->tensile
                                                        : material->welded_tensile;
}

static int begins(const char *name, const char *with)
{
    return strncmp(name, with, strlen(with)) == 0;
}

double trivet__weld_beta(const trivet_material *material)
{
    /* Stainless: EN 1993-1-4 6.3 has 1.0 whatever its strength. */
    static const struct {
        const char *begins;
        double beta;
    } NAMES[] = {{"S235", 0.8}, {"E235", 0.8}, {"S275", 0.85}, {"E275", 0.85},
                 {"S355", 0.9}, {"E355", 0.9}, {"S420", 1.0},  {"S460", 1.0},
                 {"1.4", 1.0},  {"304", 1.0},  {"316", 1.0}};
    /* Pa: f_u of S235, S275 and S355 in EN 1993-1-1 table 3.1, rounded up to the next grade. */
    static const struct {
        double tensile;
        double beta;
    } STRENGTHS[] = {{370e6, 0.8}, {430e6, 0.85}, {520e6, 0.9}};
    if (!(material->E >= STEEL_LEAST)) {
        return 1.0;
    }
    for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
        if (begins(material->name, NAMES[i].begins)) {
            return NAMES[i].beta;
        }
    }
    const double tensile = trivet__welded_tensile(material);
    for (size_t i = 0; i < sizeof STRENGTHS / sizeof STRENGTHS[0]; i++) {
        if (tensile <= STRENGTHS[i].tensile) {
            return STRENGTHS[i].beta;
        }
    }
    return 1.0;
}

double trivet__throat_shear(double tensile, double beta)
{
    return tensile / (sqrt(3.0) * beta * TRIVET__WELD_GAMMA_M2);
}

double trivet__throat_equal(double sigma, double tau, double along)
{
    return sqrt(sigma * sigma + 3.0 * (tau * tau + along * along));
}

void trivet__throat_stresses(const trivet__weld_force *force, double throat,
                             trivet__throat_stress *stress_out)
{
    const double across = fabs(force->q_x);
    const double beside = fabs(force->q_n);
    stress_out->sigma = (across - beside) / (sqrt(2.0) * throat);
    stress_out->tau = (across + beside) / (sqrt(2.0) * throat);
    stress_out->along = force->q_t / throat;
    stress_out->equal = trivet__throat_equal(stress_out->sigma, stress_out->tau, stress_out->along);
    stress_out->most = stress_out->tau;
}

double trivet__weld_direction(double sine)
{
    return 1.0 + 0.5 * pow(sine, 1.5);
}

double trivet__weld_metal_allows(double electrode, double direction, double area)
{
    return 0.6 * electrode * direction * area / TRIVET__WELD_OMEGA;
}

double trivet__weld_tensile(const trivet__weld_strength *strength)
{
    return strength->filler < strength->parent ? strength->filler : strength->parent;
}

double trivet__weld_electrode(const trivet__weld_strength *strength)
{
    return isnan(strength->filler) ? strength->parent : strength->filler;
}

double trivet__spot_area(const trivet__weld_strength *strength)
{
    return PI * strength->spot * strength->spot / 4.0;
}

double trivet__spot_rim(const trivet__weld_strength *strength)
{
    return PI * strength->spot * strength->wall;
}

double trivet__weld_resultant(const trivet__weld_force *force)
{
    return sqrt(force->q_x * force->q_x + force->q_n * force->q_n + force->q_t * force->q_t);
}

double trivet__weld_direction_at(const trivet__weld_strength *strength,
                                 const trivet__weld_force *force)
{
    const double q = trivet__weld_resultant(force);
    return strength->has_direction && q > 0.0
               ? trivet__weld_direction(sqrt(force->q_x * force->q_x + force->q_n * force->q_n) / q)
               : 1.0;
}

double trivet__weld_demand(const trivet__weld_strength *strength, const trivet__weld_force *force)
{
    if (strength->rule == TRIVET_WELDS_DIRECTIONAL && !strength->is_spots) {
        trivet__throat_stress stress;
        trivet__throat_stresses(force, strength->throat, &stress);
        return strength->loads * stress.equal;
    }
    return strength->loads * trivet__weld_resultant(force);
}

static double spot_limit(const trivet__weld_strength *strength)
{
    const double own = trivet__spot_area(strength);
    const double rim = trivet__spot_rim(strength);
    if (strength->rule == TRIVET_WELDS_AISC) {
        return fmin(trivet__weld_metal_allows(trivet__weld_electrode(strength), 1.0, own),
                    trivet__weld_metal_allows(strength->parent, 1.0, rim));
    }
    return trivet__throat_shear(trivet__weld_tensile(strength), 1.0) * fmin(own, rim);
}

double trivet__weld_limit(const trivet__weld_strength *strength, const trivet__weld_force *force)
{
    const double tensile = trivet__weld_tensile(strength);
    if (strength->is_spots) {
        return spot_limit(strength);
    }
    switch ((trivet_weld_rule)strength->rule) {
    case TRIVET_WELDS_AISC:
        return fmin(trivet__weld_metal_allows(trivet__weld_electrode(strength),
                                              trivet__weld_direction_at(strength, force),
                                              strength->throat),
                    trivet__weld_metal_allows(strength->parent, 1.0, strength->wall));
    case TRIVET_WELDS_SIMPLIFIED:
        return trivet__throat_shear(tensile, strength->beta) * strength->throat;
    case TRIVET_WELDS_DIRECTIONAL:
    default:
        return tensile / (strength->beta * TRIVET__WELD_GAMMA_M2);
    }
}

int32_t trivet__weld_dimension(const trivet__weld_strength *strength)
{
    if (strength->is_spots) {
        return TRIVET_FORCE;
    }
    return strength->rule == TRIVET_WELDS_DIRECTIONAL ? TRIVET_STRESS : TRIVET_LINE_LOAD;
}
