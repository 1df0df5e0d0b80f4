/*
 * How the pattern shares the forces on a set of bolts: the first lines of every working about one
 * of them.
 */
#include "checks/check_bolt.h"

#include <assert.h>
#include <math.h>

#define SOLUTION "from the solution, in the axes of the bolts"
#define PATTERN "places of the bolts, set by the user"
#define ELASTIC                                                                                    \
    "elastic pattern, every bolt as stiff as the next (Shigley, bolted joints loaded in shear)"
#define BALANCE "balance of moments, elastic pattern; any text on steel design"

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}
#define COUNT(values) ((int32_t)(sizeof(values) / sizeof(values)[0]))

static const trivet__line ONE_LINES[] = {
    {"Fx", "force on the bolt along its x, across it", "", SOLUTION, TRIVET_FORCE},
    {"Fy", "force along its y, across it", "", SOLUTION, TRIVET_FORCE},
    {"Fz", "force along the bolt", "", SOLUTION, TRIVET_FORCE},
};
TABLE(ONE);

#define GROUP_LINES                                                                                \
    {"Fx", "force on all bolts along x, across them", "", SOLUTION, TRIVET_FORCE},                 \
        {"Fy", "force along y, across them", "", SOLUTION, TRIVET_FORCE},                          \
        {"Fz", "force along them", "", SOLUTION, TRIVET_FORCE},                                    \
        {"Mx", "moment about x at the joint", "", SOLUTION, TRIVET_MOMENT},                        \
        {"My", "moment about y at the joint", "", SOLUTION, TRIVET_MOMENT},                        \
        {"Mz", "moment about z at the joint", "", SOLUTION, TRIVET_MOMENT},                        \
        {"n", "number of bolts", "", PATTERN, TRIVET_NUMBER},                                      \
        {"c_x", "middle of the pattern from the joint, along x", "", PATTERN, TRIVET_LENGTH},      \
        {"c_y", "middle of the pattern, along y", "", PATTERN, TRIVET_LENGTH},                     \
        {"S_xx", "sum of the squares of x from the middle", "", PATTERN, TRIVET_AREA},             \
        {"S_yy", "sum of the squares of y from the middle", "", PATTERN, TRIVET_AREA},             \
        {"x", "place of this bolt from the middle, along x", "", PATTERN, TRIVET_LENGTH},          \
    {                                                                                              \
        "y", "place of this bolt from the middle, along y", "", PATTERN, TRIVET_LENGTH             \
    }
static const trivet__line PLAIN_GROUP_LINES[] = {GROUP_LINES};
TABLE(PLAIN_GROUP);
static const trivet__line SKEW_GROUP_LINES[] = {
    GROUP_LINES, {"S_xy", "sum of x times y from the middle", "", PATTERN, TRIVET_AREA}};
TABLE(SKEW_GROUP);

static const trivet__line ONE_SHEAR_LINES[] = {
    {"V", "shear in the bolt", "sqrt(Fx^2 + Fy^2)", "resultant", TRIVET_FORCE},
};
TABLE(ONE_SHEAR);
static const trivet__line GROUP_SHEAR_LINES[] = {
    {"M_z", "moment about z at the middle", "Mz - c_x * Fy + c_y * Fx", "moved to the middle",
     TRIVET_MOMENT},
    {"V_x", "shear in this bolt along x", "Fx / n - M_z * y / (S_xx + S_yy)", ELASTIC,
     TRIVET_FORCE},
    {"V_y", "shear in this bolt along y", "Fy / n + M_z * x / (S_xx + S_yy)", ELASTIC,
     TRIVET_FORCE},
    {"V", "shear in this bolt", "sqrt(V_x^2 + V_y^2)", "resultant", TRIVET_FORCE},
};
TABLE(GROUP_SHEAR);

static const trivet__line ONE_PULL_LINES[] = {
    {"P", "pull in the bolt", "max(Fz, 0)", "along the bolt", TRIVET_FORCE},
};
TABLE(ONE_PULL);
#define PULL_LINES(formula)                                                                        \
    {"M_x", "moment about x at the middle", "Mx - c_y * Fz", "moved to the middle",                \
     TRIVET_MOMENT},                                                                               \
        {"M_y", "moment about y at the middle", "My + c_x * Fz", "moved to the middle",            \
         TRIVET_MOMENT},                                                                           \
        {"F_b", "force along this bolt", formula, BALANCE, TRIVET_FORCE},                          \
    {                                                                                              \
        "P", "pull in this bolt", "max(F_b, 0)", "along the bolt", TRIVET_FORCE                    \
    }
static const trivet__line STRAIGHT_PULL_LINES[] = {
    PULL_LINES("Fz / n + M_x * y / S_yy - M_y * x / S_xx")};
TABLE(STRAIGHT_PULL);
static const trivet__line SKEW_PULL_LINES[] = {PULL_LINES(
    "Fz / n + (M_x * (S_xx * y - S_xy * x) + M_y * (S_xy * y - S_yy * x)) / (S_xx * S_yy "
    "- S_xy^2)")};
TABLE(SKEW_PULL);
static const trivet__line ROW_PULL_LINES[] = {
    PULL_LINES("Fz / n + (M_x * y - M_y * x) / (S_xx + S_yy)")};
TABLE(ROW_PULL);

int trivet__is_moved_apart(const trivet__bolt_set *set, const trivet__bolt_load *load, int is_pull)
{
    const double *const F = load->forces;
    const double n = set->pattern.count;
    const double direct = is_pull ? fabs(F[2]) / n : sqrt(F[0] * F[0] + F[1] * F[1]) / n;
    return set->pattern.spread != TRIVET__SPREAD_POINT &&
           direct < 0.5 * (is_pull ? load->pull : load->shear);
}

static void add_pull(trivet__making *making, trivet__record *record, const trivet__bolt_set *set,
                     const trivet__bolt_load *load)
{
    const double values[] = {load->moments[0], load->moments[1], load->share[2], load->pull};
    const trivet__table *const table = set->pattern.spread == TRIVET__SPREAD_ROW ? &ROW_PULL
                                       : set->pattern.xy == 0.0                  ? &STRAIGHT_PULL
                                                                                 : &SKEW_PULL;
    assert(COUNT(values) == table->count);
    trivet__record_table(making, record, table, values);
}

void trivet__record_bolt_load(trivet__making *making, trivet__record *record,
                              const trivet__bolt_set *set, const trivet__bolt_load *load,
                              int has_shear, int has_pull)
{
    const trivet__pattern *const p = &set->pattern;
    const double *const F = load->forces;
    if (p->spread == TRIVET__SPREAD_POINT) {
        trivet__record_table(making, record, &ONE, F);
        if (has_shear) {
            trivet__record_table(making, record, &ONE_SHEAR, &load->shear);
        }
        if (has_pull) {
            trivet__record_table(making, record, &ONE_PULL, &load->pull);
        }
        return;
    }
    const int is_skew = has_pull && p->spread == TRIVET__SPREAD_PLANE && p->xy != 0.0;
    const double values[] = {F[0],         F[1],         F[2],  F[3],  F[4],    F[5],    p->count,
                             p->middle[0], p->middle[1], p->xx, p->yy, load->x, load->y, p->xy};
    assert(COUNT(values) == SKEW_GROUP.count);
    trivet__record_table(making, record, is_skew ? &SKEW_GROUP : &PLAIN_GROUP, values);
    if (has_shear) {
        const double shear[] = {load->moments[2], load->share[0], load->share[1], load->shear};
        assert(COUNT(shear) == GROUP_SHEAR.count);
        trivet__record_table(making, record, &GROUP_SHEAR, shear);
    }
    if (has_pull) {
        add_pull(making, record, set, load);
    }
}
