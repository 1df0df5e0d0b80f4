/*
 * The working of a check of a welded corner: forces, sizes, what the corner stands after EN
 * 1993-1-8 table 7.16 (see joint_face.c). Of the two tubes the one that is loaded more is shown.
 */
#include "checks/joint_shape.h"

#include <assert.h>
#include <math.h>

static const trivet__check_kind CORNER = {
    .check = "chord wall",
    .verb = "is loaded to",
    .advice = "a thicker wall, or a plate in or over the corner helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_TUBE,
    .subject = "wall of"};

#define COUNT(lines) ((int32_t)(sizeof(lines) / sizeof(lines)[0]))
#define MEMORY " (from memory)"
#define EN "EN 1993-1-8 "
#define SECTION "section values of the stock"
#define STOCK "size of the stock"

#define KNEE_LINES_OF(kappa)                                                                       \
    {                                                                                              \
        {"gamma_F", "factor on the loads", "", "limits, loads", TRIVET_NUMBER},                    \
            {"N", "pull of the tube", "", "from the solution, at the corner", TRIVET_FORCE},       \
            {"M", "its bending in the plane of the corner", "",                                    \
             "from the solution, at the corner", TRIVET_MOMENT},                                   \
            {"theta", "angle between the tubes", "", "from the joints", TRIVET_ANGLE},             \
            {"b_0", "tube across the plane of the corner", "", STOCK, TRIVET_LENGTH},              \
            {"h_0", "tube in the plane", "", STOCK, TRIVET_LENGTH},                                \
            {"t_0", "wall", "", STOCK, TRIVET_LENGTH}, {"A", "area", "", SECTION, TRIVET_AREA},    \
            {"W_pl", "plastic modulus in the plane", "", SECTION, TRIVET_VOLUME},                  \
            {"f_y", "yield strength, beside a weld", "", NULL, TRIVET_STRESS},                     \
            {"gamma_M5", "partial factor", "", EN "table 2.1" MEMORY, TRIVET_NUMBER},              \
            {"n", "share of the pull that the tube stands",                                        \
             "gamma_F * abs(N) * gamma_M5 / (A * f_y)", EN "7.5.2.1" MEMORY, TRIVET_NUMBER},       \
            {"m", "share of the bending that the tube stands",                                     \
             "gamma_F * abs(M) * gamma_M5 / (W_pl * f_y)", EN "7.5.2.1" MEMORY, TRIVET_NUMBER},    \
            {"kappa_90", "what a corner of a right angle or less stands of that",                  \
             "3 * sqrt(b_0 / h_0) / (b_0 / t_0)^0.8 + 1 / (1 + 2 * b_0 / h_0)",                    \
             EN "table 7.16" MEMORY, TRIVET_NUMBER},                                               \
            {"kappa", "what this corner stands", kappa, EN "table 7.16" MEMORY, TRIVET_NUMBER},    \
            {"sum", "pull and bending together, or pull alone over 0.2",                           \
             "max((n + m) / kappa, n / 0.2)", EN "table 7.16" MEMORY, TRIVET_NUMBER},              \
            {"limit", "all of it", "", "a sum of shares may be 1", TRIVET_NUMBER},                 \
        {                                                                                          \
            "used", "utilisation", "sum / limit", "demand over limit", TRIVET_NUMBER               \
        }                                                                                          \
    }
static const trivet__line KNEE_LINES[] = KNEE_LINES_OF("kappa_90");
static const trivet__line OPEN_KNEE_LINES[] =
    KNEE_LINES_OF("1 - sqrt(2) * cos(theta / 2) * (1 - kappa_90)");
static const trivet__table KNEES[2] = {{KNEE_LINES, COUNT(KNEE_LINES)},
                                       {OPEN_KNEE_LINES, COUNT(OPEN_KNEE_LINES)}};

/* One tube at a corner. */
typedef struct knee_loads {
    double pull;
    double moment;
    double n;
    double m;
    double right;
    double kappa;
    double sum;
} knee_loads;

static void solve_knee(const trivet__making *making, const trivet__corner_joint *corner, int which,
                       int32_t in_case, knee_loads *out)
{
    const trivet__knee *const knee = &corner->knees[which];
    const double factor = making->limits.loads * TRIVET__GAMMA_M5;
    out->moment = trivet__end_moment(making, in_case, corner->tubes[which], corner->joint,
                                     corner->across, &out->pull);
    out->n = factor * fabs(out->pull) / (knee->area * knee->f);
    out->m = factor * fabs(out->moment) / (knee->plastic * knee->f);
    trivet__knee_factors(knee, &out->right, &out->kappa);
    out->sum = fmax((out->n + out->m) / out->kappa, out->n / 0.2);
}

void trivet__record_knee(trivet__making *making, const trivet__corner_joint *corner,
                         int32_t in_case)
{
    knee_loads both[2];
    solve_knee(making, corner, 0, in_case, &both[0]);
    solve_knee(making, corner, 1, in_case, &both[1]);
    const int worst = both[1].sum > both[0].sum;
    const knee_loads *const of = &both[worst];
    const trivet__knee *const knee = &corner->knees[worst];
    trivet__record *const record =
        trivet__wall_record(making, &CORNER, corner->tubes[worst], corner->joint, in_case);
    record->check.source = EN "table 7.16" MEMORY;
    record->check.note = trivet__wall_note(knee->t, corner->has_insert, 0);
    const double values[] = {making->limits.loads,
                             of->pull,
                             of->moment,
                             knee->angle,
                             knee->b,
                             knee->h,
                             knee->t,
                             knee->area,
                             knee->plastic,
                             knee->f,
                             TRIVET__GAMMA_M5,
                             of->n,
                             of->m,
                             of->right,
                             of->kappa,
                             of->sum,
                             1.0,
                             of->sum};
    static_assert(sizeof values / sizeof values[0] == COUNT(KNEE_LINES), "a number a line");
    trivet__record_table(making, record, &KNEES[of->kappa == of->right ? 0 : 1], values);
    trivet__record_judge(making, record, TRIVET_NUMBER, of->sum, 1.0);
}
