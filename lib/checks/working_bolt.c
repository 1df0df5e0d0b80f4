/*
 * A bolt that is sheared, pulled or both: its utilisation, and the working of its strength as one
 * would write it by hand.
 */
#include "checks/check_bolt.h"
#include "checks/demand.h"

#include <assert.h>
#include <math.h>

static const double PI = 3.14159265358979323846;

#define THREAD "sizes of the thread"
#define GRADE "strength of the grade: ISO 898-1, ISO 3506-1 or SAE J429"
#define EN "EN 1993-1-8 table 3.4 (from memory)"
#define EN_FACTOR "EN 1993-1-8 table 2.1 (from memory)"
#define AISC "AISC 360-16 J3.6, table J3.2 (from memory)"
#define AISC_BOTH "AISC 360-16 J3.7 (from memory)"
#define HEAD_RULE "1; countersunk 0.8 (ISO 10642, taken for inch screws as well)"
#define DEMAND "demand over limit"

#define EN_BASE                                                                                    \
    {"g", "factor on loads", "", "limits, loads", TRIVET_NUMBER},                                  \
        {"f_ub", "tensile strength of the bolt", "", GRADE, TRIVET_STRESS},                        \
    {                                                                                              \
        "gamma_M2", "partial factor", "", EN_FACTOR, TRIVET_NUMBER                                 \
    }
#define EN_SHEAR                                                                                   \
    {"F_vEd", "shear with its factor", "g * V", "factor on loads", TRIVET_FORCE},                  \
        {"alpha_v", "share of the strength in shear", "", EN, TRIVET_NUMBER},                      \
    {                                                                                              \
        "A_v", "area that is sheared, of the thread or of the shank", "", THREAD, TRIVET_AREA      \
    }
#define EN_PULL                                                                                    \
    {"F_tEd", "pull with its factor", "g * P", "factor on loads", TRIVET_FORCE},                   \
        {"A_s", "stress area of the thread", "", THREAD, TRIVET_AREA},                             \
        {"k_2", "share of the strength under pull: 0.9, countersunk 0.63", "", EN, TRIVET_NUMBER}, \
        {"R_m", "least tensile strength of the bolt", "", GRADE, TRIVET_STRESS},                   \
    {                                                                                              \
        "k_h", "share of the thread's strength that the head passes on", "", HEAD_RULE,            \
            TRIVET_NUMBER                                                                          \
    }
#define EN_SHEAR_LIMIT "alpha_v * f_ub * A_v / gamma_M2"
#define EN_PULL_LIMIT "min(k_2 * f_ub * A_s, k_h * R_m * A_s) / gamma_M2"

static const trivet__line EN_SHEAR_LINES[] = {
    EN_BASE,
    EN_SHEAR,
    {"limit", "shear that the bolt resists", EN_SHEAR_LIMIT, EN, TRIVET_FORCE},
    {"used", "utilisation", "F_vEd / limit", DEMAND, TRIVET_NUMBER}};
static const trivet__line EN_PULL_LINES[] = {
    EN_BASE,
    EN_PULL,
    {"limit", "pull that the bolt resists", EN_PULL_LIMIT, EN, TRIVET_FORCE},
    {"used", "utilisation", "F_tEd / limit", DEMAND, TRIVET_NUMBER}};
static const trivet__line EN_BOTH_LINES[] = {
    EN_BASE,
    EN_SHEAR,
    {"F_vRd", "shear that the bolt resists", EN_SHEAR_LIMIT, EN, TRIVET_FORCE},
    EN_PULL,
    {"F_tRd", "pull that the bolt resists", EN_PULL_LIMIT, EN, TRIVET_FORCE},
    {"sum", "shear and pull together", "F_vEd / F_vRd + F_tEd / (1.4 * F_tRd)", EN, TRIVET_NUMBER},
    {"limit", "most that they may add up to", "", EN, TRIVET_NUMBER},
    {"used", "utilisation", "sum / limit", DEMAND, TRIVET_NUMBER}};

#define AISC_BASE                                                                                  \
    {"F_u", "least tensile strength of the bolt", "", GRADE, TRIVET_STRESS},                       \
        {"d", "diameter", "", THREAD, TRIVET_LENGTH},                                              \
        {"A_b", "area of the shank", "pi * d^2 / 4", "circle", TRIVET_AREA},                       \
    {                                                                                              \
        "Omega", "factor of safety", "", AISC, TRIVET_NUMBER                                       \
    }
#define AISC_SHEAR                                                                                 \
    {"k_v", "share of the strength in shear: 0.45, with the thread clear 0.563", "", AISC,         \
     TRIVET_NUMBER},                                                                               \
    {                                                                                              \
        "F_nv", "nominal shear stress", "k_v * F_u", AISC, TRIVET_STRESS                           \
    }
#define AISC_PULL                                                                                  \
    {"A_s", "stress area of the thread", "", THREAD, TRIVET_AREA},                                 \
        {"k_h", "share of the thread's strength that the head passes on", "", HEAD_RULE,           \
         TRIVET_NUMBER},                                                                           \
    {                                                                                              \
        "F_nt", "nominal pull stress, at most what thread and head stand",                         \
            "min(0.75 * F_u, k_h * F_u * A_s / A_b)", AISC "; small threads: their own strength",  \
            TRIVET_STRESS                                                                          \
    }

static const trivet__line AISC_SHEAR_LINES[] = {
    AISC_BASE,
    AISC_SHEAR,
    {"limit", "shear allowed", "F_nv * A_b / Omega", AISC, TRIVET_FORCE},
    {"used", "utilisation", "V / limit", DEMAND, TRIVET_NUMBER}};
static const trivet__line AISC_PULL_LINES[] = {
    AISC_BASE,
    AISC_PULL,
    {"limit", "pull allowed", "F_nt * A_b / Omega", AISC, TRIVET_FORCE},
    {"used", "utilisation", "P / limit", DEMAND, TRIVET_NUMBER}};
static const trivet__line AISC_BOTH_LINES[] = {
    AISC_BASE,
    AISC_SHEAR,
    AISC_PULL,
    {"f_rv", "shear stress", "V / A_b", AISC_BOTH, TRIVET_STRESS},
    {"F_ntv", "pull stress that is left beside the shear",
     "min(1.3 * F_nt - Omega * F_nt / F_nv * f_rv, F_nt)", AISC_BOTH, TRIVET_STRESS},
    {"limit", "pull allowed beside the shear", "F_ntv * A_b / Omega", AISC_BOTH, TRIVET_FORCE},
    {"used", "utilisation", "P / limit", DEMAND, TRIVET_NUMBER}};

#define ROW(name)                                                                                  \
    {                                                                                              \
        name##_LINES, (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])                      \
    }
static const trivet__table STRENGTHS[2][TRIVET__BOLT_MODE_COUNT] = {
    [TRIVET_BOLTS_EN] = {[TRIVET__BOLT_SHEAR] = ROW(EN_SHEAR),
                         [TRIVET__BOLT_PULL] = ROW(EN_PULL),
                         [TRIVET__BOLT_BOTH] = ROW(EN_BOTH)},
    [TRIVET_BOLTS_AISC] = {[TRIVET__BOLT_SHEAR] = ROW(AISC_SHEAR),
                           [TRIVET__BOLT_PULL] = ROW(AISC_PULL),
                           [TRIVET__BOLT_BOTH] = ROW(AISC_BOTH)}};

#define KIND(how, help)                                                                            \
    {                                                                                              \
        .check = "bolt", .verb = how, .advice = help, .line = TRIVET_LINE_OVERLOAD,                \
        .where_kind = TRIVET_KIND_MOUNT, .subject = "bolt of"                                      \
    }
#define MORE "a larger bolt, a better grade or one bolt more helps"
#define APART "bolts further apart help most: it is a moment that loads them; a larger bolt helps"
/* [rule][mode][whether a moment loads it most] */
static const trivet__check_kind KINDS[2][TRIVET__BOLT_MODE_COUNT][2] = {
    [TRIVET_BOLTS_EN] = {[TRIVET__BOLT_SHEAR] = {KIND("is sheared with", MORE),
                                                 KIND("is sheared with", APART)},
                         [TRIVET__BOLT_PULL] = {KIND("is pulled with", MORE),
                                                KIND("is pulled with", APART)},
                         [TRIVET__BOLT_BOTH] = {KIND("is pulled and sheared up to", MORE),
                                                KIND("is pulled and sheared up to", APART)}},
    [TRIVET_BOLTS_AISC] = {
        [TRIVET__BOLT_SHEAR] = {KIND("is sheared with", MORE), KIND("is sheared with", APART)},
        [TRIVET__BOLT_PULL] = {KIND("is pulled with", MORE), KIND("is pulled with", APART)},
        [TRIVET__BOLT_BOTH] = {KIND("is sheared and also pulled with", MORE),
                               KIND("is sheared and also pulled with", APART)}}};

/* What governs, with the numbers in between. */
typedef struct judged {
    int32_t mode; /* a trivet__bolt_mode */
    int32_t dimension;
    double demand;
    double limit;
    double used;
    double shear_area; /* EN */
    double alpha_v;
    double shear_limit;
    double pull_limit;
    double shank_area; /* AISC */
    double shear_stress;
    double pull_stress;
    double pull_stress_left;
} judged;

static double over(double demand, double limit)
{
    return limit > 0.0 ? demand / limit : demand == 0.0 ? 0.0 : HUGE_VAL;
}

static void decide(judged *of, int32_t mode, int32_t dimension, double demand, double limit)
{
    const double used = over(demand, limit);
    if (!(used <= of->used)) {
        of->mode = mode;
        of->dimension = dimension;
        of->demand = demand;
        of->limit = limit;
        of->used = used;
    }
}

static double shank_area(const trivet__bolt_set *set)
{
    return PI * set->thread.diameter * set->thread.diameter / 4.0;
}

static void judge_en(const trivet__making *making, const trivet__bolt_set *set,
                     const trivet__bolt_load *load, judged *out)
{
    const trivet_grade *const grade = &set->grade;
    const double area = set->thread.stress_area;
    const int32_t head = set->bolts->head;
    const double shear = making->limits.loads * load->shear;
    const double pull = making->limits.loads * load->pull;
    const int is_clear = set->bolts->is_thread_clear;
    out->shear_area = is_clear ? shank_area(set) : area;
    out->alpha_v = is_clear ? 0.6 : grade->shear_factor;
    out->shear_limit = trivet__bolt_shear_en(out->alpha_v, grade->tensile_design, out->shear_area);
    out->pull_limit = trivet__bolt_pull_en(trivet__head_k2(head), grade->tensile_design, area,
                                           trivet__head_load(head, grade->tensile, area));
    if (load->pull == 0.0) {
        decide(out, TRIVET__BOLT_SHEAR, TRIVET_FORCE, shear, out->shear_limit);
        return;
    }
    decide(out, TRIVET__BOLT_PULL, TRIVET_FORCE, pull, out->pull_limit);
    if (load->is_sheared) {
        decide(out, TRIVET__BOLT_BOTH, TRIVET_NUMBER,
               trivet__bolt_both_en(shear, out->shear_limit, pull, out->pull_limit), 1.0);
    }
}

static void judge_aisc(const trivet__bolt_set *set, const trivet__bolt_load *load, judged *out)
{
    const double tensile = set->grade.tensile;
    const double area = shank_area(set);
    out->shank_area = area;
    out->shear_stress = trivet__shear_share_aisc(set->bolts->is_thread_clear) * tensile;
    out->pull_stress = trivet__pull_stress_aisc(
        tensile, area, trivet__head_load(set->bolts->head, tensile, set->thread.stress_area));
    out->pull_stress_left =
        trivet__pull_stress_both_aisc(out->pull_stress, out->shear_stress, load->shear / area);
    if (load->pull == 0.0 || load->is_sheared) {
        decide(out, TRIVET__BOLT_SHEAR, TRIVET_FORCE, load->shear,
               out->shear_stress * area / TRIVET__OMEGA_BOLT);
    }
    if (load->pull == 0.0) {
        return;
    }
    /* Where shear leaves nothing for pull, shear itself is over its limit and is shown. */
    if (!load->is_sheared) {
        decide(out, TRIVET__BOLT_PULL, TRIVET_FORCE, load->pull,
               out->pull_stress * area / TRIVET__OMEGA_BOLT);
    } else if (!(out->pull_stress_left <= 0.0)) {
        decide(out, TRIVET__BOLT_BOTH, TRIVET_FORCE, load->pull,
               out->pull_stress_left * area / TRIVET__OMEGA_BOLT);
    }
}

static judged judge(const trivet__making *making, const trivet__bolt_set *set,
                    const trivet__bolt_load *load)
{
    judged out = {.used = -1.0};
    if (making->limits.bolt_rule == TRIVET_BOLTS_AISC) {
        judge_aisc(set, load, &out);
    } else {
        judge_en(making, set, load, &out);
    }
    return out;
}

double trivet__bolt_used(const trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load)
{
    return judge(making, set, load).used;
}

/* The numbers of a table of strength, in its order. */
static int32_t fill_en(const trivet__making *making, const trivet__bolt_set *set,
                       const trivet__bolt_load *load, const judged *of, double *values)
{
    const int has_shear = of->mode != TRIVET__BOLT_PULL;
    const int has_pull = of->mode != TRIVET__BOLT_SHEAR;
    const double g = making->limits.loads;
    int32_t n = 0;
    values[n++] = g;
    values[n++] = set->grade.tensile_design;
    values[n++] = TRIVET__GAMMA_M2;
    if (has_shear) {
        values[n++] = g * load->shear;
        values[n++] = of->alpha_v;
        values[n++] = of->shear_area;
    }
    if (has_shear && has_pull) {
        values[n++] = of->shear_limit;
    }
    if (has_pull) {
        values[n++] = g * load->pull;
        values[n++] = set->thread.stress_area;
        values[n++] = trivet__head_k2(set->bolts->head);
        values[n++] = set->grade.tensile;
        values[n++] = trivet__head_share(set->bolts->head);
    }
    if (has_shear && has_pull) {
        values[n++] = of->pull_limit;
        values[n++] = of->demand;
    }
    values[n++] = of->limit;
    values[n++] = of->used;
    return n;
}

static int32_t fill_aisc(const trivet__bolt_set *set, const trivet__bolt_load *load,
                         const judged *of, double *values)
{
    const int has_shear = of->mode != TRIVET__BOLT_PULL;
    const int has_pull = of->mode != TRIVET__BOLT_SHEAR;
    int32_t n = 0;
    values[n++] = set->grade.tensile;
    values[n++] = set->thread.diameter;
    values[n++] = of->shank_area;
    values[n++] = TRIVET__OMEGA_BOLT;
    if (has_shear) {
        values[n++] = trivet__shear_share_aisc(set->bolts->is_thread_clear);
        values[n++] = of->shear_stress;
    }
    if (has_pull) {
        values[n++] = set->thread.stress_area;
        values[n++] = trivet__head_share(set->bolts->head);
        values[n++] = of->pull_stress;
    }
    if (has_shear && has_pull) {
        values[n++] = load->shear / of->shank_area;
        values[n++] = of->pull_stress_left;
    }
    values[n++] = of->limit;
    values[n++] = of->used;
    return n;
}

void trivet__record_bolt(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load)
{
    const judged of = judge(making, set, load);
    const int is_aisc = making->limits.bolt_rule == TRIVET_BOLTS_AISC;
    const int32_t rule = is_aisc ? TRIVET_BOLTS_AISC : TRIVET_BOLTS_EN;
    const int has_shear = of.mode != TRIVET__BOLT_PULL;
    const int has_pull = of.mode != TRIVET__BOLT_SHEAR;
    const int is_apart = trivet__is_moved_apart(set, load, has_pull);
    double values[24];
    trivet__record *const record =
        trivet__bolts_record(making, &KINDS[rule][of.mode][is_apart], set->index, load->in_case);
    record->check.source = !is_aisc ? EN : has_shear && has_pull ? AISC_BOTH : AISC;
    trivet__record_bolt_load(making, record, set, load, has_shear, has_pull);
    const int32_t count =
        is_aisc ? fill_aisc(set, load, &of, values) : fill_en(making, set, load, &of, values);
    assert(count == STRENGTHS[rule][of.mode].count);
    (void)count;
    trivet__record_table(making, record, &STRENGTHS[rule][of.mode], values);
    trivet__record_judge(making, record, of.dimension, of.demand, of.limit);
}
