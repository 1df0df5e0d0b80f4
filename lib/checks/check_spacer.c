/*
 * Screws that reach across a spacer: under side load the screw bends, unless its preload keeps the
 * spacer standing flat.
 *
 * The side load V at the top of the spacer makes the moment V h at its foot; the head is taken as
 * free to turn, which is on the careful side: a stiff plate held at several places halves it. What
 * the pattern cannot take of the moment on the set comes on top, shared alike.
 *
 * Metal spacer on a tightened screw: the ring stays closed as long as the moment is no more than
 * the force in it times the kern of the ring, (D^2 + d_h^2) / (8 D); the screw then bends no more
 * than the ring. Force in it: the least preload less all of the pull; loads times limits.loads.
 *
 * Plastic creeps and keeps no preload; a screw without a torque has none that can be counted on.
 * Then the screw alone carries N / A_s + 32 M / (pi d3^3), against yield over limits.yield.
 */
#include "checks/bolt_group.h"
#include "checks/bolt_strength.h"
#include "checks/demand.h"

#include <assert.h>
#include <math.h>

static const double PI = 3.14159265358979323846;

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SAID "as the user gives it"
#define SHARED "from the solution, shared over the bolts"
#define THREAD "sizes of the thread"
#define KERN "ring that stays pressed all over; any text on strength of materials"
#define GRADE "ISO 898-1, ISO 3506-1 or SAE J429, by the screw's grade"

static const trivet__check_kind SPACER_TILT = {
    .check = "spacer tilt",
    .verb = "is tilted with",
    .advice = "a lower or wider spacer, or a tighter screw, helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_DECK,
    .subject = "spacer of"};
static const trivet__check_kind SCREW_BENDING = {
    .check = "screw bending",
    .verb = "is bent with",
    .advice = "a metal spacer under a screw tightened to a torque, a lower spacer or a thicker "
              "screw helps",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_DECK,
    .subject = "screw of"};

static const trivet__line LOAD_LINES[] = {
    {"Fx", "force on the worst screw across it, along its x", "", SHARED, TRIVET_FORCE},
    {"Fy", "along its y", "", SHARED, TRIVET_FORCE},
    {"Fz", "along it, above 0 a pull", "", SHARED, TRIVET_FORCE},
    {"M_r", "moment on the set that its pattern cannot take", "", SHARED, TRIVET_MOMENT},
    {"n", "screws", "", SAID, TRIVET_NUMBER},
    {"h", "height of the spacer", "", SAID, TRIVET_LENGTH},
    {"V", "side load", "sqrt(Fx^2 + Fy^2)", "resultant", TRIVET_FORCE},
    {"N", "pull", "max(Fz, 0)", "a push goes through the spacer", TRIVET_FORCE},
    {"M", "moment at the foot of the spacer", "V * h + M_r / n",
     "the head taken as free to turn (careful)", TRIVET_MOMENT},
};
TABLE(LOAD);

#define TILT_STEPS                                                                                 \
    {"T", "tightening torque", "", SAID, TRIVET_MOMENT},                                           \
        {"K", "nut factor", "", SAID " or 0.2: dry zinc-plated steel", TRIVET_NUMBER},             \
        {"d", "diameter of the thread", "", THREAD, TRIVET_LENGTH},                                \
        {"u", "scatter of the preload", "", SAID " or 0.25: by hand (common practice)",            \
         TRIVET_NUMBER},                                                                           \
        {"F_least", "least preload", "T / (K * d) * (1 - u)",                                      \
         "T = K F d (common practice), lower end of the scatter", TRIVET_FORCE},                   \
        {"s", "factor on the loads", "", "limit loads", TRIVET_NUMBER},                            \
        {"F_c", "force left in the spacer", "max(F_least - s * N, 0)",                             \
         "all of the pull taken off (careful)", TRIVET_FORCE},                                     \
        {"D", "outside diameter of the spacer", "", SAID, TRIVET_LENGTH},                          \
        {"d_h", "its hole", "", "clearance hole, ISO 273 or common practice", TRIVET_LENGTH},      \
        {"k", "kern of the ring", "(D^2 + d_h^2) / (8 * D)", KERN, TRIVET_LENGTH},                 \
        {"M_d", "moment times the factor", "s * M", "EN 1990 (from memory)", TRIVET_MOMENT},       \
    {                                                                                              \
        "limit", "moment at which it begins to gape", "F_c * k", KERN, TRIVET_MOMENT               \
    }

static const trivet__line TILT_LINES[] = {
    TILT_STEPS, {"used", "utilisation", "M_d / limit", "demand over limit", TRIVET_NUMBER}};
TABLE(TILT);
/* Pulled open: nothing is left to take a share of. */
static const trivet__line OPEN_LINES[] = {TILT_STEPS};
TABLE(OPEN);
#undef TILT_STEPS

static const trivet__line BENDING_LINES[] = {
    {"A_s", "stress area of the thread", "", THREAD, TRIVET_AREA},
    {"d_3", "root diameter of the thread", "", THREAD, TRIVET_LENGTH},
    {"sigma_N", "stress by pull", "N / A_s", "pull over area", TRIVET_STRESS},
    {"sigma_M", "stress by bending", "32 * M / (pi * d_3^3)",
     "bending of a round bar; any text on strength of materials", TRIVET_STRESS},
    {"sigma", "in the thread's root", "sigma_N + sigma_M", "sum", TRIVET_STRESS},
    {"f_y", "least yield of the screw", "", GRADE, TRIVET_STRESS},
    {"S", "factor of safety on yield", "", "limit yield", TRIVET_NUMBER},
    {"limit", "stress allowed", "f_y / S", "limit yield", TRIVET_STRESS},
    {"used", "utilisation", "sigma / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(BENDING);

/* A set of screws across spacers, and what one of them carries. */
typedef struct trivet__across {
    const trivet_bolts *bolts;
    trivet_thread thread;
    trivet_grade grade;
    int32_t index;
    int is_tight;    /* a metal ring with preload in it */
    double preload;  /* N, least; 0 unless is_tight */
    double kern;     /* m */
    double share[3]; /* N, on the screw looked at, in the axes of the bolts */
    double rest;     /* N m */
    double moment;   /* N m, at the foot */
    double pull;     /* N */
} trivet__across;

static void solve_moment(trivet__across *of, const double share[3], double rest)
{
    for (int i = 0; i < 3; i++) {
        of->share[i] = share[i];
    }
    of->rest = rest;
    of->pull = share[2] < 0.0 ? 0.0 : share[2];
    of->moment = sqrt(share[0] * share[0] + share[1] * share[1]) * of->bolts->spacer_height +
                 rest / of->bolts->count;
}

/* Moment that the ring stays closed under, N m. */
static double tilt_limit(const trivet__making *making, const trivet__across *of)
{
    return fmax(of->preload - making->limits.loads * of->pull, 0.0) * of->kern;
}

static double bending_stress(const trivet__across *of)
{
    const double d3 = of->thread.root_diameter;
    return of->pull / of->thread.stress_area + 32.0 * of->moment / (PI * d3 * d3 * d3);
}

/* How far the screw or its spacer is used, to find the worst one; no number is worst. */
static double rank(const trivet__making *making, const trivet__across *of)
{
    if (!of->is_tight) {
        return bending_stress(of);
    }
    const double limit = tilt_limit(making, of);
    if (limit > 0.0) {
        return making->limits.loads * of->moment / limit;
    }
    return of->moment == 0.0 ? 0.0 : HUGE_VAL;
}

static void find_worst(const trivet__making *making, int32_t in_case, trivet__across *of)
{
    double forces[6];
    double rest[3];
    double shares[TRIVET_BOLTS_MAX][3];
    double most = -1.0;
    int32_t worst = 0;
    trivet__bolts_forces(making, in_case, of->index, forces);
    trivet__bolt_shares(of->bolts, forces, shares, rest);
    const double across = sqrt(rest[0] * rest[0] + rest[1] * rest[1]);
    for (int32_t i = 0; i < of->bolts->count; i++) {
        solve_moment(of, shares[i], across);
        const double used = rank(making, of);
        if (!(used <= most)) {
            most = isnan(used) ? HUGE_VAL : used;
            worst = i;
        }
    }
    solve_moment(of, shares[worst], across);
}

static void add_loads(trivet__making *making, trivet__record *record, const trivet__across *of)
{
    const double V = sqrt(of->share[0] * of->share[0] + of->share[1] * of->share[1]);
    const double values[] = {of->share[0],
                             of->share[1],
                             of->share[2],
                             of->rest,
                             of->bolts->count,
                             of->bolts->spacer_height,
                             V,
                             of->pull,
                             of->moment};
    assert((int32_t)(sizeof values / sizeof values[0]) == LOAD.count);
    trivet__record_table(making, record, &LOAD, values);
}

static void record_tilt(trivet__making *making, int32_t in_case, const trivet__across *of)
{
    const trivet_bolts *const bolts = of->bolts;
    const double s = making->limits.loads;
    const double limit = tilt_limit(making, of);
    const double demand = s * of->moment;
    trivet__record *const record = trivet__bolts_record(making, &SPACER_TILT, of->index, in_case);
    record->check.source = KERN;
    add_loads(making, record, of);
    const double values[] = {bolts->torque,
                             bolts->nut_factor,
                             of->thread.diameter,
                             bolts->scatter,
                             of->preload,
                             s,
                             fmax(of->preload - s * of->pull, 0.0),
                             bolts->spacer_diameter,
                             of->thread.clearance_hole,
                             of->kern,
                             demand,
                             limit,
                             demand / limit};
    assert((int32_t)(sizeof values / sizeof values[0]) == TILT.count);
    trivet__record_table(making, record, limit > 0.0 ? &TILT : &OPEN, values);
    trivet__record_judge(making, record, TRIVET_MOMENT, demand, limit);
}

static const char *bending_note(const trivet_bolts *bolts)
{
    if (bolts->spacer == TRIVET_SPACER_PLASTIC) {
        return "a plastic spacer creeps and keeps no preload: the screw alone is counted";
    }
    return isnan(bolts->torque)
               ? "no torque is given, so no preload: the screw alone is counted"
               : "no spacer wider than its hole is given: the screw alone is counted";
}

static void record_bending(trivet__making *making, int32_t in_case, const trivet__across *of)
{
    const double stress = bending_stress(of);
    const double by_pull = of->pull / of->thread.stress_area;
    const double limit = of->grade.yield / making->limits.yield;
    const double values[] = {
        of->thread.stress_area, of->thread.root_diameter, by_pull, stress - by_pull, stress,
        of->grade.yield,        making->limits.yield,     limit,   stress / limit};
    assert((int32_t)(sizeof values / sizeof values[0]) == BENDING.count);
    trivet__record *const record = trivet__bolts_record(making, &SCREW_BENDING, of->index, in_case);
    record->check.source = "bending of a round bar, the head free to turn";
    record->check.note = bending_note(of->bolts);
    add_loads(making, record, of);
    trivet__record_table(making, record, &BENDING, values);
    trivet__record_judge(making, record, TRIVET_STRESS, stress, limit);
}

/* Preload that can be counted on, and the ring that it presses. */
static void find_preload(trivet__across *of)
{
    const trivet_bolts *const bolts = of->bolts;
    const double D = bolts->spacer_diameter;
    const double hole = of->thread.clearance_hole;
    const double least =
        trivet__preload_of_torque(bolts->torque, bolts->nut_factor, of->thread.diameter) *
        (1.0 - bolts->scatter);
    of->is_tight = bolts->spacer == TRIVET_SPACER_METAL && least > 0.0 && D > hole;
    of->preload = of->is_tight ? least : 0.0;
    of->kern = of->is_tight ? (D * D + hole * hole) / (8.0 * D) : 0.0;
}

static trivet_status check_set(trivet__making *making, int32_t index)
{
    trivet__across of = {.bolts = &making->frame->bolts[index], .index = index};
    const trivet_bolts *const bolts = of.bolts;
    if (bolts->spacer == TRIVET_SPACER_NONE) {
        return TRIVET_OK;
    }
    trivet__bolt_kind(bolts, &of.thread, &of.grade);
    const trivet_status status = trivet__bolts_omit(
        making, index, "spacer crushed at",
        bolts->spacer == TRIVET_SPACER_PLASTIC ? "the strength of a plastic spacer is not known"
                                               : "the metal of the spacer is not known");
    const int32_t columns = trivet_result_case_count(making->result);
    find_preload(&of);
    for (int32_t c = 0; status == TRIVET_OK && c < columns; c++) {
        find_worst(making, c, &of);
        if (of.is_tight) {
            record_tilt(making, c, &of);
        } else {
            record_bending(making, c, &of);
        }
    }
    return status;
}

trivet_status trivet__check_spacers(trivet__making *making)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; status == TRIVET_OK && i < making->frame->bolts_count; i++) {
        status = check_set(making, i);
    }
    return status;
}
