/*
 * Curves, detail categories and partial factors of EN 1993-1-9:2005 (from memory).
 *
 * Figure 7.1, direct stress: C at 2e6 times, slope 3 to D at 5e6, slope 5 to the cut-off at 1e8:
 *   D = (2/5)^(1/3) C = 0.737 C,  L = (5/100)^(1/5) D = 0.549 D.
 * Figure 7.2, shear stress: slope 5 from C at 2e6 to the cut-off at 1e8: L = (2/100)^(1/5) C
 * = 0.457 C. Ranges of one size alone could be stood for ever below D; loads on a road are not of
 * one size, so the curve of mixed ranges is taken throughout. Stainless steel counts as steel
 * (EN 1993-1-4 clause 9); aluminium has curves of its own (EN 1999-1-3), which are not here.
 */
#include "checks/stress_cycles.h"

#include <math.h>
#include <stddef.h>

#define TIMES_CATEGORY 2e6
#define TIMES_KNEE 5e6

static double clip(double times)
{
    return fmin(fmax(times, TRIVET__TIMES_LEAST), TRIVET__TIMES_MOST);
}

/* Falling less steeply beyond the knee, the curve is the larger of its two straight lines. */
double trivet__range_stood(double category, int32_t slope, double times)
{
    const double n = clip(times);
    if (slope == 5) {
        return category * pow(TIMES_CATEGORY / n, 1.0 / 5.0);
    }
    const double knee = pow(TIMES_CATEGORY / TIMES_KNEE, 1.0 / 3.0);
    return category * fmax(cbrt(TIMES_CATEGORY / n), knee * pow(TIMES_KNEE / n, 1.0 / 5.0));
}

double trivet__times_stood(double category, int32_t slope, double range)
{
    if (range <= trivet__range_stood(category, slope, TRIVET__TIMES_MOST)) {
        return HUGE_VAL;
    }
    if (slope == 5) {
        return TIMES_CATEGORY * pow(category / range, 5.0);
    }
    const double knee = trivet__range_stood(category, slope, TIMES_KNEE);
    return range >= knee ? TIMES_CATEGORY * pow(category / range, 3.0)
                         : TIMES_KNEE * pow(knee / range, 5.0);
}

#define TABLE(number) "EN 1993-1-9 table 8." number " (from memory)"

/*
 * No row of the standard is a tube welded onto the side of another one and bent: the ends of tubes
 * are taken as those of tubes welded end to end onto a plate, which leads the force out through the
 * same fillet round the same outline.
 */
static const trivet__detail DETAILS[] = {
    [TRIVET__DETAIL_ROUND_END] = {"CHS fillet welded end to end with intermediate plate", 40e6, 3,
                                  TABLE("6 detail 8")},
    [TRIVET__DETAIL_BOX_END] = {"RHS fillet welded end to end with intermediate plate", 36e6, 3,
                                TABLE("6 detail 9")},
    [TRIVET__DETAIL_LOWEST] = {"cruciform or tee, root failure in fillet or partial penetration "
                               "weld",
                               36e6, 3, TABLE("5 detail 3")},
    [TRIVET__DETAIL_ON_50] = {"longitudinal attachment L<=50 mm", 80e6, 3, TABLE("4 detail 1")},
    [TRIVET__DETAIL_ON_80] = {"longitudinal attachment 50<L<=80 mm", 71e6, 3, TABLE("4 detail 1")},
    [TRIVET__DETAIL_ON_100] = {"longitudinal attachment 80<L<=100 mm", 63e6, 3,
                               TABLE("4 detail 1")},
    [TRIVET__DETAIL_ON_LONG] = {"longitudinal attachment L>100 mm", 56e6, 3, TABLE("4 detail 1")},
    [TRIVET__DETAIL_ON_HOLLOW] = {"non load-carrying attachment on hollow section, length <=100 mm",
                                  71e6, 3, TABLE("6 detail 5")},
    [TRIVET__DETAIL_HOLE] = {"hole in what is bent or pulled", 90e6, 3, TABLE("1 detail 11")},
    [TRIVET__DETAIL_SHEAR] = {"shear away from welds (m=5)", 100e6, 5, TABLE("1 detail 6")},
    [TRIVET__DETAIL_WELD_SHEAR] = {"longitudinal fillet in shear / shear flow (m=5)", 80e6, 5,
                                   TABLE("5 detail 8")},
    {"rolled hollow section, plain", 160e6, 3, TABLE("1")},
    {"plain material, machine gas cut edges", 140e6, 3, TABLE("1")},
    {"bolt in tension", 50e6, 3, TABLE("1 detail 14")},
    {"bolt in shear (m=5)", 100e6, 5, TABLE("1 detail 15")},
    {"continuous longitudinal fillet, manual", 100e6, 3, TABLE("2")},
    {"continuous longitudinal fillet, automatic with stop/start", 112e6, 3, TABLE("2")},
    {"intermittent longitudinal fillet", 80e6, 3, TABLE("2")},
    {"longitudinal seam of hollow section (automatic, t<=12.5)", 140e6, 3, TABLE("2")},
    {"transverse attachment l<=50 mm", 80e6, 3, TABLE("4 details 6 to 8")},
    {"transverse attachment 50<l<=80 mm", 71e6, 3, TABLE("4 details 6 to 8")},
    {"gusset welded to plate edge", 40e6, 3, TABLE("4 detail 5")},
    {"cruciform or tee, toe failure, l<50 mm", 80e6, 3, TABLE("5 detail 1")},
    {"cruciform or tee, toe failure, 50<l<=80 mm", 71e6, 3, TABLE("5 detail 1")},
    {"overlapped elements of lap joint", 45e6, 3, TABLE("5 detail 5")},
    {"tube-plate joint, flattened tube, butt weld (t<=12.5)", 71e6, 3, TABLE("6 detail 1")},
    {"slit tube welded to plate, alpha<=45 deg", 71e6, 3, TABLE("6 detail 2")},
    {"slit tube welded to plate, alpha>45 deg", 63e6, 3, TABLE("6 detail 2")},
    {"transverse butt weld between CHS", 71e6, 3, TABLE("6 detail 3")},
    {"transverse butt weld between RHS", 56e6, 3, TABLE("6 detail 4")},
    {"CHS butt welded end to end with intermediate plate", 50e6, 3, TABLE("6 detail 6")},
    {"lattice joint CHS K/N gap t0/ti>=2.0 (m=5)", 90e6, 5, TABLE("7")},
    {"lattice joint CHS K/N gap t0/ti=1.0 (m=5)", 45e6, 5, TABLE("7")},
    {"lattice joint RHS K/N gap t0/ti>=2.0 (m=5)", 71e6, 5, TABLE("7")},
    {"lattice joint RHS K/N gap t0/ti=1.0 (m=5)", 36e6, 5, TABLE("7")},
    {"lattice joint K overlap t0/ti>=1.4 (m=5)", 71e6, 5, TABLE("7")},
    {"lattice joint K overlap t0/ti=1.0 (m=5)", 56e6, 5, TABLE("7")},
};

const trivet__detail *trivet__detail_at(int32_t index)
{
    const int32_t count = (int32_t)(sizeof DETAILS / sizeof DETAILS[0]);
    return index >= 0 && index < count ? &DETAILS[index] : NULL;
}

/* On a hollow section the lower of its own row and of the row by length. */
const trivet__detail *trivet__detail_welded_on(double length, int is_hollow)
{
    const trivet__detail *const by_length = length <= 0.05   ? &DETAILS[TRIVET__DETAIL_ON_50]
                                            : length <= 0.08 ? &DETAILS[TRIVET__DETAIL_ON_80]
                                            : length <= 0.1  ? &DETAILS[TRIVET__DETAIL_ON_100]
                                                             : &DETAILS[TRIVET__DETAIL_ON_LONG];
    const trivet__detail *const hollow = &DETAILS[TRIVET__DETAIL_ON_HOLLOW];
    return is_hollow && hollow->category < by_length->category ? hollow : by_length;
}

const trivet__crack_factor *trivet__crack_factor_at(int32_t index)
{
    static const trivet__crack_factor FACTORS[TRIVET__CRACK_FACTOR_COUNT] = {
        {"damage tolerant", "low consequence", 1.00},
        {"damage tolerant", "high consequence", 1.15},
        {"safe life", "low consequence", 1.15},
        {"safe life", "high consequence", 1.35},
    };
    return index >= 0 && index < TRIVET__CRACK_FACTOR_COUNT ? &FACTORS[index] : NULL;
}
