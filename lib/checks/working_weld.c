/*
 * The working of a weld: throat, forces and line (working_weld_line.c), strength, limit; and the
 * words beside it. Expressions stand in the order of weld_strength.c.
 */
#include "checks/check_weld.h"

#include <assert.h>
#include <math.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SAID "as the user gives it"
#define STOCK "stock of the tube and of what it is welded to"
#define FACTOR "limits, loads: made for factored loads, EN 1990 (from memory)"
#define GAMMA "EN 1993-1-8 table 2.1 (from memory)"
#define CORRELATION "EN 1993-1-8 table 4.1, by the weaker part (from memory)"
#define DIRECTIONAL "EN 1993-1-8 4.5.3.2, directional method (from memory)"
#define SIMPLIFIED "EN 1993-1-8 4.5.3.3, simplified method (from memory)"
#define PLUG "EN 1993-1-8 4.8, plug welds, with beta_w = 1 (from memory)"
#define METAL "AISC 360 J2.4, Omega = 2.00 (from memory)"
#define BASE "AISC 360 J4.2, Omega = 2.00 (from memory)"

/* ---- throat and strength ---- */

#define WALL_LINE                                                                                  \
    {                                                                                              \
        "t", "the thinner wall of the two", "", STOCK, TRIVET_LENGTH                               \
    }
#define THROAT_LINE                                                                                \
    {                                                                                              \
        "a", "throat, never more than the thinner wall", "min(a_w, t)", "common practice",         \
            TRIVET_LENGTH                                                                          \
    }

static const trivet__line SAID_THROAT_LINES[] = {
    WALL_LINE, {"a_w", "throat of the weld", "", SAID, TRIVET_LENGTH}, THROAT_LINE};
TABLE(SAID_THROAT);

static const trivet__line WALL_THROAT_LINES[] = {
    WALL_LINE,
    {"t_1", "wall of the tube", "", STOCK, TRIVET_LENGTH},
    {"a_w", "throat, none is given", "0.7 * t_1",
     "legs as long as the wall is thick (common practice)", TRIVET_LENGTH},
    THROAT_LINE};
TABLE(WALL_THROAT);

static const trivet__line SPOT_LINES[] = {
    WALL_LINE,
    {"d", "diameter of a spot", "", SAID, TRIVET_LENGTH},
    {"A_s", "area of a spot", "pi * d^2 / 4", "area of a circle", TRIVET_AREA},
    {"A_r", "wall that is torn round it", "pi * d * t", "rim of the spot through the wall",
     TRIVET_AREA},
};
TABLE(SPOT);

static void add_throat(trivet__making *making, trivet__record *record, const trivet__weld_end *end)
{
    const trivet__weld_strength *const s = &end->strength;
    const double spot[] = {s->wall, s->spot, trivet__spot_area(s), trivet__spot_rim(s)};
    const double said[] = {s->wall, end->throat, s->throat};
    const double from_wall[] = {s->wall, end->own_wall, end->throat, s->throat};
    if (s->is_spots) {
        trivet__record_table(making, record, &SPOT, spot);
    } else if (end->is_said) {
        trivet__record_table(making, record, &SAID_THROAT, said);
    } else {
        trivet__record_table(making, record, &WALL_THROAT, from_wall);
    }
}

#define PARENT_MEANING "tensile strength of the weaker part, beside the weld"
#define FILLER_LINE(symbol)                                                                        \
    {                                                                                              \
        symbol, "tensile strength of the weld metal", "", SAID, TRIVET_STRESS                      \
    }

static const trivet__line PARENT_LINES[] = {{"f_u", PARENT_MEANING, "", NULL, TRIVET_STRESS}};
TABLE(PARENT);

static const trivet__line FILLED_LINES[] = {
    {"f_p", PARENT_MEANING, "", NULL, TRIVET_STRESS},
    FILLER_LINE("f_w"),
    {"f_u", "the less of them", "min(f_p, f_w)", "the weaker breaks first", TRIVET_STRESS}};
TABLE(FILLED);

static const trivet__line MATCHED_LINES[] = {{"f_u", PARENT_MEANING, "", NULL, TRIVET_STRESS},
                                             {"F_EXX", "tensile strength of the weld metal", "f_u",
                                              "none is given: as strong as the weaker part",
                                              TRIVET_STRESS}};
TABLE(MATCHED);

static const trivet__line ELECTRODE_LINES[] = {{"f_u", PARENT_MEANING, "", NULL, TRIVET_STRESS},
                                               FILLER_LINE("F_EXX")};
TABLE(ELECTRODE);

static void add_strength(trivet__making *making, trivet__record *record,
                         const trivet__weld_strength *s)
{
    const int is_aisc = s->rule == TRIVET_WELDS_AISC;
    const double values[] = {s->parent, s->filler, trivet__weld_tensile(s)};
    const double matched[] = {s->parent, s->parent};
    if (isnan(s->filler)) {
        trivet__record_table(making, record, is_aisc ? &MATCHED : &PARENT, matched);
    } else {
        trivet__record_table(making, record, is_aisc ? &ELECTRODE : &FILLED, values);
    }
}

/* ---- the end ---- */

#define LOADS_LINE                                                                                 \
    {                                                                                              \
        "f", "factor on the loads", "", FACTOR, TRIVET_NUMBER                                      \
    }
#define GAMMA_LINE                                                                                 \
    {                                                                                              \
        "gamma_M2", "partial factor", "", GAMMA, TRIVET_NUMBER                                     \
    }
#define BETA_LINE                                                                                  \
    {                                                                                              \
        "beta_w", "correlation factor", "", CORRELATION, TRIVET_NUMBER                             \
    }
#define USED_LINE(demand)                                                                          \
    {                                                                                              \
        "used", "utilisation", demand " / limit", "demand over limit", TRIVET_NUMBER               \
    }

static const trivet__line DIRECTIONAL_END_LINES[] = {
    LOADS_LINE,
    {"sigma", "square to the throat", "f * (abs(q_x) - abs(q_n)) / (sqrt(2) * a)",
     DIRECTIONAL ", throat at 45 degrees, q_n in the worse sense", TRIVET_STRESS},
    {"tau", "in the throat, across the weld", "f * (abs(q_x) + abs(q_n)) / (sqrt(2) * a)",
     DIRECTIONAL, TRIVET_STRESS},
    {"tau_l", "in the throat, along the weld", "f * q_t / a", DIRECTIONAL, TRIVET_STRESS},
    {"sigma_v", "together", "sqrt(sigma^2 + 3 * (tau^2 + tau_l^2))", DIRECTIONAL, TRIVET_STRESS},
    BETA_LINE,
    GAMMA_LINE,
    {"sigma_m", "square to the throat, q_n in the other sense",
     "f * (abs(q_x) + abs(q_n)) / (sqrt(2) * a)", DIRECTIONAL, TRIVET_STRESS},
    {"used_m", "share of the second condition, for comparison", "sigma_m / (0.9 * f_u / gamma_M2)",
     DIRECTIONAL, TRIVET_NUMBER},
    {"limit", "stress allowed", "f_u / (beta_w * gamma_M2)", DIRECTIONAL, TRIVET_STRESS},
    USED_LINE("sigma_v"),
};
TABLE(DIRECTIONAL_END);

#define RESULTANT_LINE(q, factor, source)                                                          \
    {                                                                                              \
        "q", "force in all", factor "sqrt(q_x^2 + q_n^2 + q_t^2)", source, q                       \
    }

static const trivet__line SIMPLIFIED_END_LINES[] = {
    LOADS_LINE,
    RESULTANT_LINE(TRIVET_LINE_LOAD, "f * ", SIMPLIFIED),
    BETA_LINE,
    GAMMA_LINE,
    {"f_vw", "shear strength of the throat", "f_u / (sqrt(3) * beta_w * gamma_M2)", SIMPLIFIED,
     TRIVET_STRESS},
    {"limit", "force allowed", "f_vw * a", SIMPLIFIED, TRIVET_LINE_LOAD},
    USED_LINE("q"),
};
TABLE(SIMPLIFIED_END);

static const trivet__line SPOTS_END_LINES[] = {
    LOADS_LINE,
    RESULTANT_LINE(TRIVET_FORCE, "f * ", "pull counts like shear: on the side of caution"),
    GAMMA_LINE,
    {"f_s", "shear strength", "f_u / (sqrt(3) * gamma_M2)", PLUG, TRIVET_STRESS},
    {"limit", "force allowed on a spot", "f_s * min(A_s, A_r)", PLUG, TRIVET_FORCE},
    USED_LINE("q"),
};
TABLE(SPOTS_END);

#define AISC_REST                                                                                  \
    {"R_w", "force allowed by the weld metal", "0.6 * F_EXX * k_ds * a / 2", METAL,                \
     TRIVET_LINE_LOAD},                                                                            \
        {"R_b", "force allowed by the wall beside it", "0.6 * f_u * t / 2", BASE,                  \
         TRIVET_LINE_LOAD},                                                                        \
        {"limit", "force allowed", "min(R_w, R_b)", "the less of them", TRIVET_LINE_LOAD},         \
        USED_LINE("q")

static const trivet__line AISC_END_LINES[] = {RESULTANT_LINE(TRIVET_LINE_LOAD, "", "resultant"),
                                              {"k_ds", "direction of the force counts",
                                               "1 + 0.5 * (sqrt(q_x^2 + q_n^2) / q)^1.5", METAL,
                                               TRIVET_NUMBER},
                                              AISC_REST};
TABLE(AISC_END);

static const trivet__line AISC_PLAIN_END_LINES[] = {
    RESULTANT_LINE(TRIVET_LINE_LOAD, "", "resultant"),
    {"k_ds", "direction of the force: does not count at ends of rectangular tube, or no force", "",
     METAL, TRIVET_NUMBER},
    AISC_REST};
TABLE(AISC_PLAIN_END);

static const trivet__line AISC_SPOTS_END_LINES[] = {
    RESULTANT_LINE(TRIVET_FORCE, "", "resultant; pull counts like shear"),
    {"R_w", "force allowed on a spot by the weld metal", "0.6 * F_EXX * A_s / 2", METAL,
     TRIVET_FORCE},
    {"R_b", "force allowed by the wall round it", "0.6 * f_u * A_r / 2", BASE, TRIVET_FORCE},
    {"limit", "force allowed", "min(R_w, R_b)", "the less of them", TRIVET_FORCE},
    USED_LINE("q"),
};
TABLE(AISC_SPOTS_END);

static void add_directional(trivet__making *making, trivet__record *record,
                            const trivet__weld_strength *s, const trivet__weld_force *force,
                            double limit)
{
    trivet__throat_stress stress;
    const double f = s->loads;
    trivet__throat_stresses(force, s->throat, &stress);
    const double demand = f * stress.equal;
    const double second = 0.9 * trivet__weld_tensile(s) / TRIVET__WELD_GAMMA_M2;
    const double values[] = {f,
                             f * stress.sigma,
                             f * stress.tau,
                             f * stress.along,
                             demand,
                             s->beta,
                             TRIVET__WELD_GAMMA_M2,
                             f * stress.most,
                             f * stress.most / second,
                             limit,
                             demand / limit};
    assert((int32_t)(sizeof values / sizeof values[0]) == DIRECTIONAL_END.count);
    trivet__record_table(making, record, &DIRECTIONAL_END, values);
}

static void add_aisc(trivet__making *making, trivet__record *record, const trivet__weld_end *end,
                     const trivet__weld_force *force, double demand, double limit)
{
    const trivet__weld_strength *const s = &end->strength;
    const double electrode = trivet__weld_electrode(s);
    const double k = trivet__weld_direction_at(s, force);
    const int has_formula = s->has_direction && trivet__weld_resultant(force) > 0.0;
    const double spots[] = {demand, trivet__weld_metal_allows(electrode, 1.0, trivet__spot_area(s)),
                            trivet__weld_metal_allows(s->parent, 1.0, trivet__spot_rim(s)), limit,
                            demand / limit};
    const double fillet[] = {demand,
                             k,
                             trivet__weld_metal_allows(electrode, k, s->throat),
                             trivet__weld_metal_allows(s->parent, 1.0, s->wall),
                             limit,
                             demand / limit};
    if (s->is_spots) {
        trivet__record_table(making, record, &AISC_SPOTS_END, spots);
    } else {
        trivet__record_table(making, record, has_formula ? &AISC_END : &AISC_PLAIN_END, fillet);
    }
}

static void add_end(trivet__making *making, trivet__record *record, const trivet__weld_end *end,
                    const trivet__weld_force *force, double demand, double limit)
{
    const trivet__weld_strength *const s = &end->strength;
    const double gamma = TRIVET__WELD_GAMMA_M2;
    const double tensile = trivet__weld_tensile(s);
    const double spots[] = {s->loads, demand,        gamma, trivet__throat_shear(tensile, 1.0),
                            limit,    demand / limit};
    const double simplified[] = {
        s->loads, demand,        s->beta, gamma, trivet__throat_shear(tensile, s->beta),
        limit,    demand / limit};
    if (s->rule == TRIVET_WELDS_AISC) {
        add_aisc(making, record, end, force, demand, limit);
    } else if (s->is_spots) {
        trivet__record_table(making, record, &SPOTS_END, spots);
    } else if (s->rule == TRIVET_WELDS_SIMPLIFIED) {
        trivet__record_table(making, record, &SIMPLIFIED_END, simplified);
    } else {
        add_directional(making, record, s, force, limit);
    }
}

/* ---- words ---- */

#define KIND(help)                                                                                 \
    {                                                                                              \
        .check = "weld", .verb = "carries", .advice = help, .line = TRIVET_LINE_OVERLOAD,          \
        .where_kind = TRIVET_KIND_TUBE, .subject = "weld of"                                       \
    }

static const trivet__check_kind SPOTS_KIND =
    KIND("a weld all round instead of spots, or more and larger spots, helps most");
static const trivet__check_kind PARTIAL_KIND = KIND("welding all round helps most");
static const trivet__check_kind FULL_KIND =
    KIND("a thicker throat does not help beyond the wall; a larger tube, a thicker wall or less "
         "reach helps");
static const trivet__check_kind THIN_KIND =
    KIND("a thicker throat helps, up to the thickness of the wall; so does a larger tube");

/* Whether more throat would not raise the limit. */
static int is_at_wall(const trivet__weld_end *end, const trivet__weld_force *force)
{
    const trivet__weld_strength *const s = &end->strength;
    trivet__weld_strength thicker = *s;
    thicker.throat = s->wall;
    return end->words.is_full ||
           (s->rule == TRIVET_WELDS_AISC &&
            !(trivet__weld_limit(&thicker, force) > trivet__weld_limit(s, force)));
}

static const trivet__check_kind *choose_kind(const trivet__weld_end *end,
                                             const trivet__weld_force *force)
{
    if (end->strength.is_spots) {
        return &SPOTS_KIND;
    }
    if (end->words.is_partial) {
        return &PARTIAL_KIND;
    }
    return is_at_wall(end, force) ? &FULL_KIND : &THIN_KIND;
}

#define CAPPED "the throat is counted only as thick as the wall"
#define THIN "the throat is thinner than the 3 mm that EN 1993-1-8 4.5.2 starts from"
#define SHORT "the weld is shorter than EN 1993-1-8 4.5.1 counts: 30 mm or 6 throats"

static const char *choose_note(const trivet__weld_words *words)
{
    static const char *const NOTES[2][2][2] = {
        {{"", SHORT}, {THIN, THIN "; " SHORT}},
        {{CAPPED, CAPPED "; " SHORT}, {CAPPED "; " THIN, CAPPED "; " THIN "; " SHORT}}};
    if (words->is_overfull) {
        return "no more spots are counted than fit round the tube";
    }
    return NOTES[words->is_capped][words->is_thin][words->is_short];
}

static const char *source_of(const trivet__weld_strength *strength)
{
    if (strength->rule == TRIVET_WELDS_AISC) {
        return METAL;
    }
    if (strength->is_spots) {
        return PLUG;
    }
    return strength->rule == TRIVET_WELDS_SIMPLIFIED ? SIMPLIFIED : DIRECTIONAL;
}

void trivet__record_weld(trivet__making *making, const trivet__weld_end *end, int32_t in_case,
                         const double forces[6], const trivet__weld_load *load,
                         const trivet__weld_force *force)
{
    const double demand = trivet__weld_demand(&end->strength, force);
    const double limit = trivet__weld_limit(&end->strength, force);
    trivet__record *const record =
        trivet__record_start(making, choose_kind(end, force), end->tube, in_case);
    record->check.source = source_of(&end->strength);
    record->check.note = choose_note(&end->words);
    record->check.at = end->at;
    record->material_source = end->source;
    trivet__record_at(making, record, record->check.where, end->joint);
    add_throat(making, record, end);
    trivet__record_weld_line(making, record, end, forces, load, force);
    add_strength(making, record, &end->strength);
    add_end(making, record, end, force, demand, limit);
    trivet__record_judge(making, record, trivet__weld_dimension(&end->strength), demand, limit);
}
