/*
 * What a bolt holds together: the plate's hole drawn long, the head pulled through the plate, faces
 * that slip or part. Their working.
 *
 * Every bolt counts as one beside the edge, and the distance to its nearest neighbour as the
 * spacing along the load and across it: where the load points is different in every case.
 */
#include "checks/check_bolt.h"
#include "checks/demand.h"

#include <assert.h>
#include <math.h>

#define SAID "as the user gives it"
#define THREAD "sizes of the thread"
#define GRADE "strength of the grade: ISO 898-1, ISO 3506-1 or SAE J429"
#define EN "EN 1993-1-8 table 3.4 (from memory)"
#define EN_FACTOR "EN 1993-1-8 table 2.1 (from memory)"
#define AISC_BEARING "AISC 360-16 J3.10 (from memory)"
#define AISC_SHEAR "AISC 360-16 J4.2 (from memory)"
#define PRELOAD_RULE "T = K F d (common practice)"
#define SLIP_RULE "friction times what presses the faces; common practice, as EN 1993-1-8 3.9"
#define GAP_RULE "all the pull taken as unloading the faces: common practice"
#define DEMAND "demand over limit"

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}
#define COUNT(values) ((int32_t)(sizeof(values) / sizeof(values)[0]))

#define PLATE                                                                                      \
    {"t_p", "thickness of the plate", "", SAID, TRIVET_LENGTH},                                    \
        {"f_u", "tensile strength of the plate", "", SAID, TRIVET_STRESS},                         \
        {"h", "depth of the countersink, 0 without", "", THREAD, TRIVET_LENGTH},                   \
    {                                                                                              \
        "t", "thickness that counts", "max(t_p - h / 2, 0)", EN, TRIVET_LENGTH                     \
    }
#define HOLE                                                                                       \
    {"d", "diameter of the bolt", "", THREAD, TRIVET_LENGTH},                                      \
        {"d_0", "diameter of the hole", "", "given, or the usual clearance hole", TRIVET_LENGTH},  \
    {                                                                                              \
        "e_1", "from the hole's middle to the edge along the load", "", SAID, TRIVET_LENGTH        \
    }
#define SPACING                                                                                    \
    {                                                                                              \
        "p", "from hole to hole, the nearest two", "", "places of the bolts", TRIVET_LENGTH        \
    }
#define EN_FORCE(of)                                                                               \
    {"g", "factor on loads", "", "limits, loads", TRIVET_NUMBER},                                  \
    {                                                                                              \
        "F_Ed", "force with its factor", "g * " of, "factor on loads", TRIVET_FORCE                \
    }
#define EN_GAMMA                                                                                   \
    {                                                                                              \
        "gamma_M2", "partial factor", "", EN_FACTOR, TRIVET_NUMBER                                 \
    }
#define EN_BEARING(along, across)                                                                  \
    {"e_2", "from the hole's middle to the edge across the load", "", SAID, TRIVET_LENGTH},        \
        {"f_ub", "tensile strength of the bolt", "", GRADE, TRIVET_STRESS},                        \
        {"alpha_b", "share of the strength along the load",                                        \
         "max(min(" along ", min(f_ub / f_u, 1)), 0)", EN, TRIVET_NUMBER},                         \
        {"k_1", "factor for the edge across the load", "max(min(" across ", 2.5), 0)", EN,         \
         TRIVET_NUMBER},                                                                           \
        EN_GAMMA,                                                                                  \
        {"limit", "force that the hole resists", "k_1 * alpha_b * f_u * d * t / gamma_M2", EN,     \
         TRIVET_FORCE},                                                                            \
    {                                                                                              \
        "used", "utilisation", "F_Ed / limit", DEMAND, TRIVET_NUMBER                               \
    }
#define OMEGA(source)                                                                              \
    {                                                                                              \
        "Omega", "factor of safety", "", source, TRIVET_NUMBER                                     \
    }
#define AISC_HOLE(clear)                                                                           \
    {"l_c", "clear distance in front of the bolt", "max(" clear ", 0)", AISC_BEARING,              \
     TRIVET_LENGTH},                                                                               \
        OMEGA(AISC_BEARING),                                                                       \
        {"limit", "force that the hole stands", "min(2.4 * d, 1.2 * l_c) * t * f_u / Omega",       \
         AISC_BEARING, TRIVET_FORCE},                                                              \
    {                                                                                              \
        "used", "utilisation", "V / limit", DEMAND, TRIVET_NUMBER                                  \
    }
#define END_ALONE "e_1 / (3 * d_0)"
#define SIDE_ALONE "2.8 * e_2 / d_0 - 1.7"

static const trivet__line EN_ONE_LINES[] = {EN_FORCE("V"), PLATE, HOLE,
                                            EN_BEARING(END_ALONE, SIDE_ALONE)};
static const trivet__line EN_GROUP_LINES[] = {
    EN_FORCE("V"), PLATE, HOLE, SPACING,
    EN_BEARING("min(" END_ALONE ", p / (3 * d_0) - 1 / 4)",
               "min(" SIDE_ALONE ", 1.4 * p / d_0 - 1.7)")};
static const trivet__line AISC_ONE_LINES[] = {PLATE, HOLE, AISC_HOLE("e_1 - d_0 / 2")};
static const trivet__line AISC_GROUP_LINES[] = {PLATE, HOLE, SPACING,
                                                AISC_HOLE("min(e_1 - d_0 / 2, p - d_0)")};

#define HEAD(factor)                                                                               \
    PLATE, {"d_m", "mean diameter of the head", "", THREAD, TRIVET_LENGTH},                        \
        {"B_p", "force that pushes the head through", "0.6 * pi * d_m * t * f_u",                  \
         EN ", in AISC J4.2 likewise", TRIVET_FORCE},                                              \
        factor
static const trivet__line EN_HEAD_LINES[] = {
    EN_FORCE("P"),
    HEAD(EN_GAMMA),
    {"limit", "pull that the plate resists", "B_p / gamma_M2", EN, TRIVET_FORCE},
    {"used", "utilisation", "F_Ed / limit", DEMAND, TRIVET_NUMBER}};
static const trivet__line AISC_HEAD_LINES[] = {
    HEAD(OMEGA(AISC_SHEAR)),
    {"limit", "pull that the plate stands", "B_p / Omega", AISC_SHEAR, TRIVET_FORCE},
    {"used", "utilisation", "P / limit", DEMAND, TRIVET_NUMBER}};

#define PRELOAD                                                                                    \
    {"T", "tightening torque", "", SAID, TRIVET_MOMENT},                                           \
        {"K", "nut factor", "", SAID " or 0.2: dry, zinc-plated (common practice)",                \
         TRIVET_NUMBER},                                                                           \
        {"d", "diameter of the bolt", "", THREAD, TRIVET_LENGTH},                                  \
    {                                                                                              \
        "u", "scatter of the preload", "", SAID " or 0.25: by hand (common practice)",             \
            TRIVET_NUMBER                                                                          \
    }
#define LEAST "T / (K * d) * (1 - u)"
#define SLIP(left)                                                                                 \
    PRELOAD, {"F_least", "least preload", LEAST, PRELOAD_RULE, TRIVET_FORCE},                      \
        {"mu", "friction of the faces", "", SAID " or 0.2 (common practice)", TRIVET_NUMBER},      \
        {"limit", "shear before the faces slip", left, SLIP_RULE, TRIVET_FORCE},                   \
    {                                                                                              \
        "used", "utilisation", "V / limit", DEMAND, TRIVET_NUMBER                                  \
    }
static const trivet__line SLIP_LINES[] = {SLIP("mu * F_least")};
static const trivet__line PULLED_SLIP_LINES[] = {SLIP("max(mu * (F_least - P), 0)")};
static const trivet__line GAP_LINES[] = {
    PRELOAD,
    {"limit", "least preload: pull before the faces part", LEAST, PRELOAD_RULE "; " GAP_RULE,
     TRIVET_FORCE},
    {"used", "utilisation", "P / limit", DEMAND, TRIVET_NUMBER}};
TABLE(GAP);

/* The tables with the last line, and without it for a limit of 0. */
#define PAIR(name)                                                                                 \
    {                                                                                              \
        {name##_LINES, (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])},                   \
        {                                                                                          \
            name##_LINES, (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0]) - 1              \
        }                                                                                          \
    }
/* [rule][whether there are several][whether the limit is 0] */
static const trivet__table BEARING[2][2][2] = {
    [TRIVET_BOLTS_EN] = {PAIR(EN_ONE), PAIR(EN_GROUP)},
    [TRIVET_BOLTS_AISC] = {PAIR(AISC_ONE), PAIR(AISC_GROUP)}};
static const trivet__table HEADS[2][2] = {
    [TRIVET_BOLTS_EN] = PAIR(EN_HEAD), [TRIVET_BOLTS_AISC] = PAIR(AISC_HEAD)};
/* [whether it is pulled][whether the limit is 0] */
static const trivet__table SLIPS[2][2] = {PAIR(SLIP), PAIR(PULLED_SLIP)};

#define KIND(name, of, how, help, on)                                                              \
    {                                                                                              \
        .check = name, .verb = how, .advice = help, .line = on, .where_kind = TRIVET_KIND_MOUNT,   \
        .subject = of                                                                              \
    }
static const trivet__check_kind BEARING_KIND = KIND(
    "bolt bearing", "bolt hole of", "is pressed with",
    "a thicker plate, a hole further from the edge or one bolt more helps", TRIVET_LINE_OVERLOAD);
static const trivet__check_kind HEAD_KIND =
    KIND("bolt head", "plate under the bolt of", "is pulled with",
         "a thicker plate or a bolt with a larger head helps", TRIVET_LINE_OVERLOAD);
static const trivet__check_kind SLIP_KIND =
    KIND("bolt slip", "bolt of", "is pushed against the friction of its faces with",
         "more torque, if all parts stand it, or one bolt more keeps the faces from shifting",
         TRIVET_LINE_SERVICE);
static const trivet__check_kind GAP_KIND =
    KIND("bolt gap", "bolt of", "is pulled against its preload with",
         "more torque, if all parts stand it, or one bolt more keeps the faces together",
         TRIVET_LINE_SERVICE);

static int32_t rule_of(const trivet__making *making)
{
    return making->limits.bolt_rule == TRIVET_BOLTS_AISC ? TRIVET_BOLTS_AISC : TRIVET_BOLTS_EN;
}

/* Ends a record: the numbers of its last table, which values holds in order, limit and used last.
 */
static void close_record(trivet__making *making, trivet__record *record,
                         const trivet__table tables[2], double *values, int32_t count,
                         double demand, double limit)
{
    const int has_limit = limit > 0.0;
    assert(count + 2 == tables[0].count);
    values[count] = limit;
    values[count + 1] = has_limit ? demand / limit : HUGE_VAL;
    trivet__record_table(making, record, &tables[has_limit ? 0 : 1], values);
    trivet__record_judge(making, record, TRIVET_FORCE, demand, limit);
}

static int32_t fill_plate(const trivet__bolt_set *set, double *values)
{
    values[0] = set->bolts->plate;
    values[1] = set->bolts->plate_tensile;
    values[2] = set->plate.sunk;
    values[3] = set->plate.thickness;
    return 4;
}

static int32_t fill_en_force(const trivet__making *making, double force, double *values)
{
    values[0] = making->limits.loads;
    values[1] = making->limits.loads * force;
    return 2;
}

/* Table 3.3 of EN 1993-1-8 asks for 1.2 d_0 to the edge (from memory). */
static const char *bearing_note(const trivet__bolt_set *set)
{
    const double nearest = fmin(set->plate.edge, set->plate.side);
    return nearest >= 1.2 * set->plate.hole ? ""
                                            : "the hole is nearer to the edge than 1.2 times its "
                                              "width, for which no rule is made";
}

void trivet__record_bearing(trivet__making *making, const trivet__bolt_set *set,
                            const trivet__bolt_load *load)
{
    const int32_t rule = rule_of(making);
    const int is_en = rule == TRIVET_BOLTS_EN;
    const int is_group = set->bolts->count > 1;
    const trivet__bolt_plate *const plate = &set->plate;
    const double d = set->thread.diameter;
    const double f_u = set->bolts->plate_tensile;
    double values[24];
    double demand = load->shear;
    double limit = 0.0;
    int32_t n = 0;
    trivet__record *const record =
        trivet__bolts_record(making, &BEARING_KIND, set->index, load->in_case);
    record->check.source = is_en ? EN : AISC_BEARING;
    record->check.note = bearing_note(set);
    trivet__record_bolt_load(making, record, set, load, 1, 0);
    n += is_en ? fill_en_force(making, load->shear, values) : 0;
    n += fill_plate(set, values + n);
    values[n++] = d;
    values[n++] = plate->hole;
    values[n++] = plate->edge;
    if (is_group) {
        values[n++] = set->spacing;
    }
    if (is_en) {
        const double alpha = trivet__bearing_alpha(plate->edge, set->spacing, plate->hole,
                                                   set->grade.tensile_design, f_u);
        const double k_1 = trivet__bearing_k1(plate->side, set->spacing, plate->hole);
        demand = making->limits.loads * load->shear;
        limit = trivet__bearing_en(k_1, alpha, f_u, d, plate->thickness);
        values[n++] = plate->side;
        values[n++] = set->grade.tensile_design;
        values[n++] = alpha;
        values[n++] = k_1;
        values[n++] = TRIVET__GAMMA_M2;
    } else {
        const double clear = fmin(plate->edge - plate->hole / 2.0, set->spacing - plate->hole);
        limit = trivet__bearing_aisc(d, clear, plate->thickness, f_u) / TRIVET__OMEGA_BOLT;
        values[n++] = fmax(clear, 0.0);
        values[n++] = TRIVET__OMEGA_BOLT;
    }
    close_record(making, record, BEARING[rule][is_group], values, n, demand, limit);
}

void trivet__record_head(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load)
{
    const int32_t rule = rule_of(making);
    const int is_en = rule == TRIVET_BOLTS_EN;
    const double factor = is_en ? TRIVET__GAMMA_M2 : TRIVET__OMEGA_BOLT;
    const double stands =
        trivet__punching(set->plate.head, set->plate.thickness, set->bolts->plate_tensile);
    double values[16];
    int32_t n = 0;
    trivet__record *const record =
        trivet__bolts_record(making, &HEAD_KIND, set->index, load->in_case);
    record->check.source = is_en ? EN : AISC_SHEAR;
    trivet__record_bolt_load(making, record, set, load, 0, 1);
    n += is_en ? fill_en_force(making, load->pull, values) : 0;
    n += fill_plate(set, values + n);
    values[n++] = set->plate.head;
    values[n++] = stands;
    values[n++] = factor;
    close_record(making, record, HEADS[rule], values, n,
                 is_en ? making->limits.loads * load->pull : load->pull, stands / factor);
}

static int32_t fill_preload(const trivet__bolt_set *set, double *values)
{
    values[0] = set->bolts->torque;
    values[1] = set->bolts->nut_factor;
    values[2] = set->thread.diameter;
    values[3] = set->bolts->scatter;
    return 4;
}

void trivet__record_slip(trivet__making *making, const trivet__bolt_set *set,
                         const trivet__bolt_load *load)
{
    const double stands = trivet__slip_force(set->bolts->friction, set->preload, load->pull);
    const int is_pulled = load->pull != 0.0;
    double values[12];
    trivet__record *const record =
        trivet__bolts_record(making, &SLIP_KIND, set->index, load->in_case);
    record->check.source = SLIP_RULE;
    trivet__record_bolt_load(making, record, set, load, 1, is_pulled);
    int32_t n = fill_preload(set, values);
    values[n++] = set->preload;
    values[n++] = set->bolts->friction;
    close_record(making, record, SLIPS[is_pulled], values, n, load->shear, stands);
}

void trivet__record_gap(trivet__making *making, const trivet__bolt_set *set,
                        const trivet__bolt_load *load)
{
    double values[8];
    trivet__record *const record =
        trivet__bolts_record(making, &GAP_KIND, set->index, load->in_case);
    record->check.source = GAP_RULE;
    trivet__record_bolt_load(making, record, set, load, 0, 1);
    int32_t n = fill_preload(set, values);
    values[n++] = set->preload;
    values[n++] = load->pull / set->preload;
    assert(n == GAP.count);
    trivet__record_table(making, record, &GAP, values);
    trivet__record_judge(making, record, TRIVET_FORCE, load->pull, set->preload);
}
