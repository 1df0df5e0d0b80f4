/*
 * Threads: stripped by the pull on the screw or when it is tightened, too few turns in a wall; and
 * what the user says of rivet nuts and weld nuts; and the welds that keep a tapped insert.
 *
 * A standard nut of the bolt's own grade does not strip before the bolt breaks (ISO 898-2): bolts
 * in nuts have no check here. The preload and the pull of a load are looked at one by one: in a
 * stiff joint the pull unloads the faces before it adds to the screw.
 *
 * The welds of an insert are taken to hold the whole pull of the screw. Where the screw draws the
 * insert against the inside of the tube's wall they carry less than that.
 */
#include "checks/bolt_group.h"
#include "checks/bolt_strength.h"
#include "checks/demand.h"
#include "checks/thread_strength.h"
#include "checks/torque.h"

#include <math.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SHARE "from the solution, shared elastically over the bolts"
#define LOADS "factor on loads; EN 1990 (from memory)"
#define H28 "FED-STD-H28"
#define LIMITS "ISO 965-1 6g 6H or ASME B1.1 2A 2B"
#define SHEAR "shear strength 0.6 of tensile: common practice; VDI 2230 (from memory)"
#define PART_FACTOR "1.25 as gamma_M2 of EN 1993-1-8: a common choice"
#define THREE "at least three full turns: common practice"
#define RATED "of the rivet nut or weld nut, as the user says"
#define PLUG "plug weld after EN 1993-1-8 4.8 with beta_w = 1 (from memory)"

#define NO_TORQUE "no torque is given: that of the table for its grade is taken"

/* How much wider than the wall is thick the hole of a plug weld must be, m: EN 1993-1-8 4.3.5 (from
 * memory). */
#define PLUG_WIDER 0.008

#define KIND(name, of, how, help)                                                                  \
    {                                                                                              \
        .check = name, .subject = of, .verb = how, .advice = help, .line = TRIVET_LINE_OVERLOAD,   \
        .where_kind = TRIVET_KIND_MOUNT                                                            \
    }
#define LONGER "a longer thread, a stronger material or a nut helps"
#define MORE_WELD "more or larger welds on the insert help"
#define NUT "rivet or weld nut of"
static const trivet__check_kind PULLED = KIND("thread", "thread in", "is pulled with", LONGER);
static const trivet__check_kind TIGHTENED =
    KIND("thread", "thread in", "is pulled with", LONGER ", or less torque");
static const trivet__check_kind FIXING_PULLED =
    KIND("insert fixing", "welds on the insert of", "are pulled with", MORE_WELD);
static const trivet__check_kind FIXING_TIGHTENED = KIND(
    "insert fixing", "welds on the insert of", "are pulled with", MORE_WELD ", or less torque");
static const trivet__check_kind NUT_PULLED =
    KIND("nut pull", NUT, "is pulled with", "a larger nut or more bolts help");
static const trivet__check_kind NUT_SHEARED =
    KIND("nut shear", NUT, "is sheared with", "a larger nut or more bolts help");
static const trivet__check_kind TOO_FEW_TURNS = {
    .check = "thread turns",
    .subject = "thread in",
    .verb = "needs",
    .counted = "turns",
    .advice = "a tapped insert, a rivet nut or a weld nut gives the screw a longer thread",
    .line = TRIVET_LINE_OVERLOAD,
    .where_kind = TRIVET_KIND_MOUNT};

static const trivet__line PULL_LINES[] = {
    {"F_z", "force along the bolt that is pulled most", "", SHARE, TRIVET_FORCE},
    {"gamma_F", "factor on loads", "", LOADS, TRIVET_NUMBER},
    {"F_t", "pull", "gamma_F * max(F_z, 0)", "a push does not strip", TRIVET_FORCE},
};
TABLE(PULL);

static const trivet__line STRIP_LINES[] = {
    {"P", "pitch", "", "ISO 261 or ASME B1.1", TRIVET_LENGTH},
    {"L_e", "length of the thread that is engaged", "", "as the file says, or the wall",
     TRIVET_LENGTH},
    {"D_1", "largest minor diameter of the hole", "", LIMITS, TRIVET_LENGTH},
    {"D_2", "largest pitch diameter of the hole", "", LIMITS, TRIVET_LENGTH},
    {"d_1", "smallest outside diameter of the screw", "", LIMITS, TRIVET_LENGTH},
    {"d_2", "smallest pitch diameter of the screw", "", LIMITS, TRIVET_LENGTH},
    {"A_s", "thread of the screw that is sheared",
     "pi * L_e / P * D_1 * (P / 2 + 0.57735 * (d_2 - D_1))", H28, TRIVET_AREA},
    {"A_h", "thread of the hole that is sheared",
     "pi * L_e / P * d_1 * (P / 2 + 0.57735 * (d_1 - D_2))", H28, TRIVET_AREA},
    {"R_s", "tensile strength of the screw", "", "ISO 898-1, ISO 3506-1 or SAE J429",
     TRIVET_STRESS},
    {"R_h", "tensile strength of what the thread is cut into", "", NULL, TRIVET_STRESS},
    {"A_t", "stress area of the screw", "", "ISO 898-1 or ASME B1.1", TRIVET_AREA},
    {"L_1", "length for the screw to break first, hole as strong as the screw",
     "2 * A_t / (pi * D_1 * (0.5 + 0.57735 * (d_2 - D_1) / P))", "Machinery's Handbook",
     TRIVET_LENGTH},
    {"J", "strength of the screw's thread over the hole's", "A_s * R_s / (A_h * R_h)",
     "Machinery's Handbook", TRIVET_NUMBER},
    {"L_n", "length for the screw to break first", "max(J, 1) * L_1", "Machinery's Handbook",
     TRIVET_LENGTH},
    {"F_s", "the thread of the screw stands", "0.6 * R_s * A_s", SHEAR, TRIVET_FORCE},
    {"F_h", "the thread of the hole stands", "0.6 * R_h * A_h", SHEAR, TRIVET_FORCE},
    {"limit", "pull allowed", "min(F_s, F_h) / 1.25", PART_FACTOR, TRIVET_FORCE},
    {"used", "utilisation", "F_t / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(STRIP);

static const trivet__line TURNS_LINES[] = {
    {"L_e", "length of the thread", "", "thickness of the wall, or as the file says",
     TRIVET_LENGTH},
    {"P", "pitch", "", "ISO 261 or ASME B1.1", TRIVET_LENGTH},
    {"n", "turns that it needs", "", THREE, TRIVET_NUMBER},
    {"limit", "turns there", "L_e / P", "length over pitch", TRIVET_NUMBER},
    {"used", "utilisation", "n / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(TURNS);

static const trivet__line FIXING_LINES[] = {
    {"n_w", "plug or spot welds", "", "as the file says", TRIVET_NUMBER},
    {"d_w", "diameter of each", "", "as the file says", TRIVET_LENGTH},
    {"R_w", "tensile strength of the weaker of insert and tube", "", NULL, TRIVET_STRESS},
    {"F_w", "the welds stand", "n_w * pi * d_w^2 / 4 * R_w / sqrt(3)", PLUG, TRIVET_FORCE},
    {"limit", "pull allowed", "F_w / 1.25", "gamma_M2 of EN 1993-1-8 (from memory)", TRIVET_FORCE},
    {"used", "utilisation", "F_t / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(FIXING);

static const trivet__line NUT_PULL_LINES[] = {
    {"limit", "pull allowed", "", RATED, TRIVET_FORCE},
    {"used", "utilisation", "F_t / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(NUT_PULL);

static const trivet__line NUT_SHEAR_LINES[] = {
    {"F_x", "force across the bolt that is sheared most, along its x", "", SHARE, TRIVET_FORCE},
    {"F_y", "force across it along its y", "", SHARE, TRIVET_FORCE},
    {"gamma_F", "factor on loads", "", LOADS, TRIVET_NUMBER},
    {"F_v", "force across it", "gamma_F * sqrt(F_x^2 + F_y^2)", "resultant", TRIVET_FORCE},
    {"limit", "shear allowed", "", RATED, TRIVET_FORCE},
    {"used", "utilisation", "F_v / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(NUT_SHEAR);

/* A set of bolts while its checks are made. */
typedef struct bolt_set {
    int32_t index;
    const trivet_bolts *bolts;
    trivet__torque_card card;
} bolt_set;

/* The bolts of a set that are pulled and sheared most in a case: N along x, y, z. */
typedef struct most_loaded {
    double pull;      /* along the bolt that is pulled most; below 0: pushed */
    double across[2]; /* of the bolt that is sheared most */
} most_loaded;

static most_loaded find_most(const trivet__making *making, const bolt_set *set, int32_t in_case)
{
    double forces[6];
    double rest[3];
    double shares[TRIVET_BOLTS_MAX][3];
    most_loaded most = {-HUGE_VAL, {0.0, 0.0}};
    trivet__bolts_forces(making, in_case, set->index, forces);
    trivet__bolt_shares(set->bolts, forces, shares, rest);
    for (int32_t i = 0; i < set->bolts->count; i++) {
        most.pull = shares[i][2] > most.pull ? shares[i][2] : most.pull;
        if (hypot(shares[i][0], shares[i][1]) > hypot(most.across[0], most.across[1])) {
            most.across[0] = shares[i][0];
            most.across[1] = shares[i][1];
        }
    }
    return most;
}

/* Starts a record with the pull on the worst bolt in a case; in_case -1: with the preload. */
static trivet__record *start_pulled(trivet__making *making, const bolt_set *set, int32_t in_case,
                                    const trivet__check_kind *kind, double *pull_out)
{
    trivet__record *const record = trivet__bolts_record(making, kind, set->index, in_case);
    if (in_case < 0) {
        record->check.in_case = "tightening";
        record->check.note = isnan(set->bolts->torque) ? NO_TORQUE : "";
        trivet__record_preload(making, record, set->bolts, &set->card);
        *pull_out = trivet__most_preload(set->bolts, &set->card);
        return record;
    }
    const double along = find_most(making, set, in_case).pull;
    *pull_out = making->limits.loads * (along > 0.0 ? along : 0.0);
    const double values[] = {along, making->limits.loads, *pull_out};
    trivet__record_table(making, record, &PULL, values);
    return record;
}

static void check_turns(trivet__making *making, const bolt_set *set,
                        const trivet__stripping *stripping)
{
    const double P = stripping->thread.pitch;
    const double turns = stripping->engagement / P;
    const double values[] = {stripping->engagement, P, TRIVET__TURNS_LEAST, turns,
                             TRIVET__TURNS_LEAST / turns};
    trivet__record *const record = trivet__bolts_record(making, &TOO_FEW_TURNS, set->index, -1);
    record->check.source = THREE;
    trivet__record_table(making, record, &TURNS, values);
    trivet__record_judge(making, record, TRIVET_NUMBER, TRIVET__TURNS_LEAST, turns);
}

/* What a reader must know beside the number; at most one thing, the gravest. */
static const char *strip_note(const trivet__stripping *stripping, const char *note)
{
    if (note[0]) {
        return note;
    }
    if (stripping->is_softened) {
        return "the welds on the insert have softened its thread";
    }
    return stripping->needed > stripping->engagement
               ? "the thread is too short for the screw to break before it strips"
               : "";
}

static void check_strip(trivet__making *making, const bolt_set *set, int32_t in_case,
                        const trivet__stripping *of)
{
    const trivet_thread *const t = &of->thread;
    double pull = 0.0;
    trivet__record *const record =
        start_pulled(making, set, in_case, in_case < 0 ? &TIGHTENED : &PULLED, &pull);
    const double least = of->screw_stands < of->hole_stands ? of->screw_stands : of->hole_stands;
    const double limit = least / TRIVET__GAMMA_M2;
    const double J = of->screw_area * of->screw_tensile / (of->hole_area * of->hole_tensile);
    const double values[] = {t->pitch,
                             of->engagement,
                             t->hole_minor_most,
                             t->hole_pitch_most,
                             t->screw_major_least,
                             t->screw_pitch_least,
                             of->screw_area,
                             of->hole_area,
                             of->screw_tensile,
                             of->hole_tensile,
                             t->stress_area,
                             trivet__equal_engagement(t),
                             J,
                             of->needed,
                             of->screw_stands,
                             of->hole_stands,
                             limit,
                             pull / limit};
    record->check.source = H28 "; " SHEAR;
    record->check.note = strip_note(of, record->check.note);
    record->material_source = of->source;
    trivet__record_table(making, record, &STRIP, values);
    trivet__record_judge(making, record, TRIVET_FORCE, pull, limit);
}

static trivet_status check_cut_thread(trivet__making *making, const bolt_set *set)
{
    trivet__stripping stripping;
    trivet__stripping_find(making->frame, set->bolts, &stripping);
    check_turns(making, set, &stripping);
    if (!(stripping.hole_stands > 0.0)) {
        return trivet__bolts_omit(making, set->index, "stripping of the thread in",
                                  "the tensile strength of its material is not known");
    }
    for (int32_t c = -1; c < trivet_result_case_count(making->result); c++) {
        check_strip(making, set, c, &stripping);
    }
    return TRIVET_OK;
}

static void check_nut_pull(trivet__making *making, const bolt_set *set, int32_t in_case)
{
    double pull = 0.0;
    const double limit = set->bolts->rated_pull;
    trivet__record *const record = start_pulled(making, set, in_case, &NUT_PULLED, &pull);
    const double values[] = {limit, pull / limit};
    record->check.source = RATED;
    trivet__record_table(making, record, &NUT_PULL, values);
    trivet__record_judge(making, record, TRIVET_FORCE, pull, limit);
}

static void check_nut_shear(trivet__making *making, const bolt_set *set, int32_t in_case)
{
    const most_loaded most = find_most(making, set, in_case);
    const double limit = set->bolts->rated_shear;
    const double gamma = making->limits.loads;
    const double shear = gamma * hypot(most.across[0], most.across[1]);
    const double values[] = {most.across[0], most.across[1], gamma, shear, limit, shear / limit};
    trivet__record *const record = trivet__bolts_record(making, &NUT_SHEARED, set->index, in_case);
    record->check.source = RATED;
    trivet__record_table(making, record, &NUT_SHEAR, values);
    trivet__record_judge(making, record, TRIVET_FORCE, shear, limit);
}

static trivet_status check_rated_nut(trivet__making *making, const bolt_set *set)
{
    const int32_t columns = trivet_result_case_count(making->result);
    const trivet_bolts *const bolts = set->bolts;
    trivet_status status = TRIVET_OK;
    if (!(bolts->rated_pull > 0.0)) {
        status = trivet__bolts_omit(making, set->index, "pull on the rivet or weld nut of",
                                    "its rated pull is not given");
    }
    if (status == TRIVET_OK && !(bolts->rated_shear > 0.0)) {
        status = trivet__bolts_omit(making, set->index, "shear on the rivet or weld nut of",
                                    "its rated shear is not given");
    }
    if (status == TRIVET_OK && !isnan(bolts->torque) && !(bolts->rated_torque > 0.0)) {
        status = trivet__bolts_omit(making, set->index, "torque on the rivet or weld nut of",
                                    "its rated torque is not given");
    }
    for (int32_t c = 0; status == TRIVET_OK && c < columns; c++) {
        if (bolts->rated_pull > 0.0) {
            check_nut_pull(making, set, c);
        }
        if (bolts->rated_shear > 0.0) {
            check_nut_shear(making, set, c);
        }
    }
    return status;
}

static void check_fixing_in(trivet__making *making, const bolt_set *set, int32_t in_case,
                            const trivet__fixing *fixing)
{
    double pull = 0.0;
    const double d = set->bolts->fixing_diameter;
    const double limit = fixing->stands / TRIVET__GAMMA_M2;
    trivet__record *const record =
        start_pulled(making, set, in_case, in_case < 0 ? &FIXING_TIGHTENED : &FIXING_PULLED, &pull);
    const double values[] = {set->bolts->fixing_count, d,     fixing->tensile,
                             fixing->stands,           limit, pull / limit};
    record->check.source = PLUG;
    record->material_source = fixing->source;
    if (!record->check.note[0] && d < fixing->wall + PLUG_WIDER) {
        record->check.note = "the welds are smaller than the plug welds of EN 1993-1-8";
    }
    trivet__record_table(making, record, &FIXING, values);
    trivet__record_judge(making, record, TRIVET_FORCE, pull, limit);
}

static trivet_status check_fixing(trivet__making *making, const bolt_set *set)
{
    trivet__fixing fixing;
    trivet__fixing_find(making->frame, set->bolts, &fixing);
    if (!fixing.is_there) {
        return TRIVET_OK;
    }
    if (!(fixing.stands > 0.0)) {
        return trivet__bolts_omit(making, set->index, "hold of the insert of",
                                  "the welds that keep it, their number, diameter or material, "
                                  "are not given");
    }
    for (int32_t c = -1; c < trivet_result_case_count(making->result); c++) {
        check_fixing_in(making, set, c, &fixing);
    }
    return TRIVET_OK;
}

trivet_status trivet__check_threads(trivet__making *making)
{
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; status == TRIVET_OK && i < making->frame->bolts_count; i++) {
        bolt_set set = {.index = i, .bolts = &making->frame->bolts[i]};
        trivet__torque_card_find(making->frame, set.bolts, &set.card);
        if (trivet__is_cut(set.bolts)) {
            status = check_cut_thread(making, &set);
        } else if (set.bolts->into == TRIVET_INTO_RATED) {
            status = check_rated_nut(making, &set);
        }
        if (status == TRIVET_OK) {
            status = check_fixing(making, &set);
        }
        if (status == TRIVET_OK) {
            status = trivet__check_torque(making, i);
        }
    }
    return status;
}
