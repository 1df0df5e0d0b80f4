/*
 * The working of a check of cracking: ranges of the forces inside, nominal stress ranges, what
 * raises them at the place, what the detail stands so many times, the utilisation.
 */
#include "checks/check_crack.h"
#include "checks/stress.h"
#include "frame/frame.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SOLUTION "from the solution, the tube's own share"
#define SECTION "section values of the stock"
#define POINT "stress points of the section"
#define BENDING "bending of a straight bar; any text on strength of materials"
#define BALANCE "balance alone; our own, no rule of the standard"
#define DIRECT_CURVE "EN 1993-1-9 7.1, figure 7.1, mixed ranges (from memory)"
#define SHEAR_CURVE "EN 1993-1-9 7.1, figure 7.2 (from memory)"
#define RULE "EN 1993-1-9 8 (2), (3) (from memory)"

#define VERB "sees a stress that swings by"
#define KIND(of, help)                                                                             \
    {                                                                                              \
        .check = "cracking", .verb = VERB, .advice = help, .line = TRIVET_LINE_CRACKING,           \
        .where_kind = TRIVET_KIND_TUBE, .subject = of                                              \
    }
#define PARTIAL_HELP "a longer weld, all round, helps most: only a part of the outline is welded"

/* What helps is chosen by the numbers: see choose_kind. */
static const trivet__check_kind PARTIAL_TOE = KIND(
    "weld toe of", "a longer weld, all round, helps most: only a part of the outline is welded");
static const trivet__check_kind BENT_TOE =
    KIND("weld toe of", "a weld nearer to the middle of the span, where the tube bends less, a "
                        "taller section or a brace helps: the stress is mostly bending");
static const trivet__check_kind PLAIN_TOE =
    KIND("weld toe of", "a weld all round, a thicker wall, a larger section or a brace helps");
static const trivet__check_kind PARTIAL_ROOT = KIND("weld root of", PARTIAL_HELP);
static const trivet__check_kind PLAIN_ROOT =
    KIND("weld root of", "a thicker throat, up to the wall, or a weld nearer to the middle of the "
                         "span, where the tube bends less, or a brace helps");
static const trivet__check_kind FULL_ROOT =
    KIND("weld root of", "a weld nearer to the middle of the span, where the tube bends less, a "
                         "larger section or a brace helps");
static const trivet__check_kind WELD_ON =
    KIND("weld on", "a weld where the tube bends less, a shorter thing welded on, a taller section "
                    "or a brace helps");
static const trivet__check_kind MOUNT_ON =
    KIND("mount on", "a mount where the tube bends less, a shorter overhang, a taller section or a "
                     "brace helps");
static const trivet__check_kind HOLE_IN =
    KIND("hole in", "a smaller hole, a hole where the tube bends less, a taller section or a brace "
                    "helps");

#define FORCE_LINES                                                                                \
    {"dN", "range of the pull along the tube", "", SOLUTION, TRIVET_FORCE},                        \
        {"dVy", "range of the shear force along the width", "", SOLUTION, TRIVET_FORCE},           \
        {"dVz", "range of the shear force along the height", "", SOLUTION, TRIVET_FORCE},          \
        {"dT", "range of the twist", "", SOLUTION, TRIVET_MOMENT},                                 \
        {"dMy", "range of the bending moment about the width", "", SOLUTION, TRIVET_MOMENT},       \
    {                                                                                              \
        "dMz", "range of the bending moment about the height", "", SOLUTION, TRIVET_MOMENT         \
    }

static const trivet__line POINTED_LINES[] = {
    FORCE_LINES,
    {"A", "area", "", SECTION, TRIVET_AREA},
    {"Iyy", "second moment for My", "", SECTION, TRIVET_SECOND_MOMENT},
    {"Izz", "second moment for Mz", "", SECTION, TRIVET_SECOND_MOMENT},
    {"y", "place in the section along the width", "", POINT, TRIVET_LENGTH},
    {"z", "place in the section along the height", "", POINT, TRIVET_LENGTH},
    {"k_Vy", "shear stress there for Vy = 1", "", POINT, TRIVET_PER_AREA},
    {"k_Vz", "shear stress there for Vz = 1", "", POINT, TRIVET_PER_AREA},
    {"k_T", "shear stress there for T = 1", "", POINT, TRIVET_PER_VOLUME},
    {"s_N", "stress range by pull", "dN / A", "pull over area", TRIVET_STRESS},
};
TABLE(POINTED);

static const trivet__line STRAIGHT_LINES[] = {
    {"s_My", "stress range by My", "dMy * z / Iyy", BENDING, TRIVET_STRESS},
    {"s_Mz", "stress range by Mz", "-dMz * y / Izz", BENDING, TRIVET_STRESS},
};
TABLE(STRAIGHT);

static const trivet__line SKEW_LINES[] = {
    {"Iyz", "product moment", "", SECTION, TRIVET_SECOND_MOMENT},
    {"s_My", "stress range by My", "dMy * (Izz * z - Iyz * y) / (Iyy * Izz - Iyz^2)", BENDING,
     TRIVET_STRESS},
    {"s_Mz", "stress range by Mz", "dMz * (Iyz * z - Iyy * y) / (Iyy * Izz - Iyz^2)", BENDING,
     TRIVET_STRESS},
};
TABLE(SKEW);

#define DIRECT_SUM                                                                                 \
    {                                                                                              \
        "s_n", "nominal stress range along the tube", "abs(s_N + s_My + s_Mz)", "sum",             \
            TRIVET_STRESS                                                                          \
    }
#define SHEAR_SUM "nominal range of the shear stress along the wall"

static const trivet__line CLOSED_LINES[] = {
    DIRECT_SUM,
    {"t_n", SHEAR_SUM, "abs(k_Vy * dVy + k_Vz * dVz + k_T * dT)", POINT, TRIVET_STRESS},
};
TABLE(CLOSED);

static const trivet__line OPEN_LINES[] = {
    DIRECT_SUM,
    {"t_n", SHEAR_SUM, "abs(k_Vy * dVy + k_Vz * dVz) + abs(k_T * dT)",
     "in an open section twist acts in both senses across the wall", TRIVET_STRESS},
};
TABLE(OPEN);

/* The largest of each round the rim, wherever that is. */
static const trivet__line ROUND_LINES[] = {
    FORCE_LINES,
    {"A", "area", "", SECTION, TRIVET_AREA},
    {"I", "second moment", "", SECTION, TRIVET_SECOND_MOMENT},
    {"W_T", "torsion modulus", "", SECTION, TRIVET_VOLUME},
    {"r_o", "outer radius", "", SECTION, TRIVET_LENGTH},
    {"r_i", "inner radius", "", SECTION, TRIVET_LENGTH},
    {"dM", "range of bending, both ways together", "sqrt(dMy^2 + dMz^2)", "resultant",
     TRIVET_MOMENT},
    {"dV", "range of shear, both ways together", "sqrt(dVy^2 + dVz^2)", "resultant", TRIVET_FORCE},
    {"s_n", "largest nominal stress range along the tube", "abs(dN) / A + dM * r_o / I", BENDING,
     TRIVET_STRESS},
    {"k", "largest shear stress over V / A",
     "4 / 3 * (r_o^2 + r_o * r_i + r_i^2) / (r_o^2 + r_i^2)",
     "V Q / (I b) at the neutral axis (Jourawski); any text on strength of materials",
     TRIVET_NUMBER},
    {"t_n", "largest nominal range of the shear stress", "k * dV / A + abs(dT) / W_T",
     "shear and twist, each at its largest", TRIVET_STRESS},
};
TABLE(ROUND);

/* The source of the category is that of the detail. */
#define CATEGORIES(shear)                                                                          \
    {"s_C", "detail category: the range stood two million times", "", NULL, TRIVET_STRESS},        \
    {                                                                                              \
        "t_C", "the same for shear", "", shear, TRIVET_STRESS                                      \
    }
#define WELD_SHEAR "EN 1993-1-9 table 8.5 detail 8 (from memory)"
#define WALL_SHEAR "EN 1993-1-9 table 8.1 detail 6 (from memory)"

static const trivet__line TOE_LINES[] = {
    {"w", "welded share of the outline", "", "weld of the tube's end; not said: all of it",
     TRIVET_NUMBER},
    {"s", "stress range at the toe", "s_n / w", BALANCE, TRIVET_STRESS},
    {"t", "range of the shear stress there", "t_n / w", BALANCE, TRIVET_STRESS},
    CATEGORIES(WELD_SHEAR),
};
TABLE(TOE);

/* The root: the stress of the wall goes through the throat. */
static const trivet__line ROOT_LINES[] = {
    {"w", "welded share of the outline", "", "weld of the tube's end; not said: all of it",
     TRIVET_NUMBER},
    {"t_w", "wall of the tube", "", "the stock", TRIVET_LENGTH},
    {"a_w", "throat of the weld", "", "said, or 0.7 of the wall; at most the wall", TRIVET_LENGTH},
    {"s", "stress range through the throat", "s_n * t_w / (a_w * w)",
     "EN 1993-1-9 5 (6), the wall's force over the throat (from memory)", TRIVET_STRESS},
    {"t", "range of the shear stress along the throat", "t_n * t_w / (a_w * w)",
     "EN 1993-1-9 5 (6), likewise (from memory)", TRIVET_STRESS},
    CATEGORIES(WELD_SHEAR),
};
TABLE(ROOT);

static const trivet__line ON_LINES[] = {
    {"L", "length of what is welded on, along the tube", "",
     "outline of the tube that is welded on, at its angle", TRIVET_LENGTH},
    {"s", "stress range beside it", "s_n", "nominal", TRIVET_STRESS},
    {"t", "range of the shear stress there", "t_n", "nominal", TRIVET_STRESS},
    CATEGORIES(WELD_SHEAR),
};
TABLE(ON);

static const trivet__line HELD_LINES[] = {
    {"s", "stress range beside it", "s_n", "nominal", TRIVET_STRESS},
    {"t", "range of the shear stress there", "t_n", "nominal", TRIVET_STRESS},
    CATEGORIES(WELD_SHEAR),
};
TABLE(HELD);

static const trivet__line HOLE_LINES[] = {
    {"d_h", "diameter of the hole", "", "the bolts: said, or the thread's", TRIVET_LENGTH},
    {"b", "width of the wall that it goes through", "",
     "the stock; of a round tube a quarter of its outline", TRIVET_LENGTH},
    {"s", "stress range in what is left of the wall", "s_n * b / (b - d_h)", BALANCE,
     TRIVET_STRESS},
    {"t", "range of the shear stress there", "t_n * b / (b - d_h)", BALANCE, TRIVET_STRESS},
    CATEGORIES(WALL_SHEAR),
};
TABLE(HOLE);

/* times: what the curves are entered with. */
#define CURVE(times)                                                                               \
    {"n_c", "on the curves, which run from ten thousand to a hundred million",                     \
     "min(max(" times ", 10000), 100000000)", DIRECT_CURVE, TRIVET_NUMBER},                        \
        {"s_R", "stress range stood so many times",                                                \
         "s_C * max((2000000 / n_c)^(1 / 3), (2 / 5)^(1 / 3) * (5000000 / n_c)^(1 / 5))",          \
         DIRECT_CURVE, TRIVET_STRESS},                                                             \
    {                                                                                              \
        "t_R", "the same for shear", "t_C * (2000000 / n_c)^(1 / 5)", SHEAR_CURVE, TRIVET_STRESS   \
    }
#define TIMES "times that it comes and goes"

static const trivet__line OWN_LINES[] = {
    {"n", TIMES, "", "our own default: no cycles are given", TRIVET_NUMBER},
    CURVE("n"),
};
TABLE(OWN);

static const trivet__line ALONE_LINES[] = {
    {"n", TIMES, "", "the cycles, as given", TRIVET_NUMBER},
    CURVE("n"),
};
TABLE(ALONE);

static const trivet__line AMONG_LINES[] = {
    {"n", TIMES, "", "the cycles, as given", TRIVET_NUMBER},
    {"D_o", "damage by all other cycles at the same point", "",
     "sum of n / N over them, N from the same curves; EN 1993-1-9 A.5 (from memory)",
     TRIVET_NUMBER},
    {"n_o", "times that leave room for the others", "n / max(1 - D_o, 0.001)",
     "Palmgren and Miner: all damage together at most 1", TRIVET_NUMBER},
    CURVE("n_o"),
};
TABLE(AMONG);

#define END_LINES(factor)                                                                          \
    {"gamma", "partial factor on stress ranges", "", factor, TRIVET_NUMBER},                       \
        {"a", "share of the direct stress", "s * gamma / s_R", RULE, TRIVET_NUMBER},               \
        {"c", "share of the shear stress", "t * gamma / t_R", RULE, TRIVET_NUMBER},                \
        {"s_e", "stress range that counts, shear with it",                                         \
         "s_R / gamma * max(c, (a^3 + c^5)^(1 / 3))", RULE, TRIVET_STRESS},                        \
        {"limit", "stress range allowed", "s_R / gamma", RULE, TRIVET_STRESS},                     \
    {                                                                                              \
        "used", "utilisation", "s_e / limit", "range over limit", TRIVET_NUMBER                    \
    }
#define FACTOR "limits, crack; EN 1993-1-9 table 3.1 (from memory): "

/* One for each row of the table of factors, and one for a factor of the user's own. */
enum { LINES_OF_END = 6 };
static const trivet__line END_OF_FACTOR[TRIVET__CRACK_FACTOR_COUNT + 1][LINES_OF_END] = {
    {END_LINES(FACTOR "damage tolerant, low consequence")},
    {END_LINES(FACTOR "damage tolerant, high consequence")},
    {END_LINES(FACTOR "safe life, low consequence")},
    {END_LINES(FACTOR "safe life, high consequence")},
    {END_LINES("limits, crack")},
};
#define END_TABLE(row)                                                                             \
    {                                                                                              \
        END_OF_FACTOR[row], LINES_OF_END                                                           \
    }
static const trivet__table ENDS[TRIVET__CRACK_FACTOR_COUNT + 1] = {
    END_TABLE(0), END_TABLE(1), END_TABLE(2), END_TABLE(3), END_TABLE(4)};

static const trivet__table *end_table(double factor)
{
    int32_t row = 0;
    while (row < TRIVET__CRACK_FACTOR_COUNT && trivet__crack_factor_at(row)->value != factor) {
        row++;
    }
    return &ENDS[row];
}

/* Notes: how it is fastened, the wall, whose cycles; each may be there or not. */
#define WELD_UNSAID                                                                                \
    "how it is welded is not said: a weld all round and a low detail category are taken"
#define MOUNT_UNSAID "how the mount is fastened to it is not said: a low detail category is taken"
#define DETAIL_SAID "its detail category is the user's, for the root of the weld as well"
#define ALUMINIUM DETAIL_SAID "; the curve of steel is taken for its aluminium"
#define THIN "its wall is under 4 mm, thinner than the tests behind such rules (ISO 14347)"
#define OWN_BUMPS "no cycles are given: 1 g up and down a million times is our own default"
#define WITH(text)                                                                                 \
    {                                                                                              \
        {text, text "; " OWN_BUMPS},                                                               \
        {                                                                                          \
            text "; " THIN, text "; " THIN "; " OWN_BUMPS                                          \
        }                                                                                          \
    }

static const char *choose_note(const trivet__crack_place *place, const trivet__swing *swing)
{
    static const char *const NOTES[5][2][2] = {
        {{"", OWN_BUMPS}, {THIN, THIN "; " OWN_BUMPS}},
        WITH(WELD_UNSAID),
        WITH(MOUNT_UNSAID),
        WITH(DETAIL_SAID),
        WITH(ALUMINIUM),
    };
    int first = 0;
    if (!place->detail) {
        first = place->is_aluminium ? 4 : 3;
    } else if (!place->is_said) {
        first = place->kind == TRIVET__CRACK_HELD ? 2 : 1;
    }
    return NOTES[first][place->is_thin][swing->is_own];
}

/* Bending as a share of the direct stress: above this it is called the reason. */
#define MOSTLY 0.6

static const trivet__check_kind *choose_kind(const trivet__crack_place *place,
                                             const trivet_section *section,
                                             const trivet__crack *crack)
{
    const double pull = fabs(crack->ranges[0]) / section->area;
    switch ((trivet__crack_kind)place->kind) {
    case TRIVET__CRACK_ON:
        return &WELD_ON;
    case TRIVET__CRACK_HELD:
        return &MOUNT_ON;
    case TRIVET__CRACK_HOLE:
        return &HOLE_IN;
    case TRIVET__CRACK_ROOT:
        return place->size < 1.0              ? &PARTIAL_ROOT
               : place->throat < place->width ? &PLAIN_ROOT
                                              : &FULL_ROOT;
    case TRIVET__CRACK_TOE:
    default:
        break;
    }
    if (place->size < 1.0) {
        return &PARTIAL_TOE;
    }
    const int is_bent = crack->nominal[0] > crack->nominal[1] &&
                        crack->nominal[0] - pull >= MOSTLY * crack->nominal[0];
    return is_bent ? &BENT_TOE : &PLAIN_TOE;
}

static void add_round(trivet__making *making, trivet__record *record, const trivet_section *section,
                      const trivet__crack *crack)
{
    const double *const d = crack->ranges;
    const double values[] = {d[0],
                             d[1],
                             d[2],
                             d[3],
                             d[4],
                             d[5],
                             section->area,
                             section->second_moment[0],
                             section->torsion_modulus,
                             section->outer_radius,
                             section->inner_radius,
                             sqrt(d[4] * d[4] + d[5] * d[5]),
                             sqrt(d[1] * d[1] + d[2] * d[2]),
                             crack->nominal[0],
                             trivet__rim_shear_factor(section),
                             crack->nominal[1]};
    assert((int32_t)(sizeof values / sizeof values[0]) == ROUND.count);
    trivet__record_table(making, record, &ROUND, values);
}

static void add_point(trivet__making *making, trivet__record *record, const trivet_section *section,
                      const trivet__crack *crack)
{
    const double *const d = crack->ranges;
    const trivet_stress_point *const at = &section->points[crack->point];
    double per[3];
    trivet__normal_stress(section, at->y, at->z, per);
    const double pointed[] = {d[0],
                              d[1],
                              d[2],
                              d[3],
                              d[4],
                              d[5],
                              section->area,
                              section->second_moment[0],
                              section->second_moment[1],
                              at->y,
                              at->z,
                              at->per_Vy,
                              at->per_Vz,
                              at->per_T,
                              per[0] * d[0]};
    const double bent[] = {section->product_moment, per[1] * d[4], per[2] * d[5]};
    const int is_skew = section->product_moment != 0.0;
    assert((int32_t)(sizeof pointed / sizeof pointed[0]) == POINTED.count);
    trivet__record_table(making, record, &POINTED, pointed);
    trivet__record_table(making, record, is_skew ? &SKEW : &STRAIGHT, is_skew ? bent : bent + 1);
    trivet__record_table(making, record, section->is_open ? &OPEN : &CLOSED, crack->nominal);
}

static void add_place(trivet__making *making, trivet__record *record,
                      const trivet__crack_place *place, const trivet__crack *crack)
{
    const double s = place->raise * crack->nominal[0];
    const double t = place->raise * crack->nominal[1];
    const double values[] = {place->size, s, t, place->category, place->shear_category};
    const double hole[] = {place->size, place->width, s, t, place->category, place->shear_category};
    const double root[] = {place->size, place->width,    place->throat,        s,
                           t,           place->category, place->shear_category};
    switch ((trivet__crack_kind)place->kind) {
    case TRIVET__CRACK_ROOT:
        trivet__record_table(making, record, &ROOT, root);
        return;
    case TRIVET__CRACK_ON:
        trivet__record_table(making, record, &ON, values);
        return;
    case TRIVET__CRACK_HELD:
        trivet__record_table(making, record, &HELD, values + 1);
        return;
    case TRIVET__CRACK_HOLE:
        trivet__record_table(making, record, &HOLE, hole);
        return;
    case TRIVET__CRACK_TOE:
    default:
        trivet__record_table(making, record, &TOE, values);
        return;
    }
}

static void add_curve(trivet__making *making, trivet__record *record, const trivet__swing *swing,
                      const trivet__crack *crack)
{
    const double n_c = fmin(fmax(crack->room, TRIVET__TIMES_LEAST), TRIVET__TIMES_MOST);
    const double alone[] = {swing->cycles.count, n_c, crack->stood[0], crack->stood[1]};
    const double among[] = {swing->cycles.count, crack->others,  crack->room, n_c,
                            crack->stood[0],     crack->stood[1]};
    assert((int32_t)(sizeof alone / sizeof alone[0]) == ALONE.count && ALONE.count == OWN.count);
    assert((int32_t)(sizeof among / sizeof among[0]) == AMONG.count);
    if (swing->is_alone) {
        trivet__record_table(making, record, swing->is_own ? &OWN : &ALONE, alone);
    } else {
        trivet__record_table(making, record, &AMONG, among);
    }
}

void trivet__record_crack(trivet__making *making, const trivet__crack_place *place,
                          const trivet__swing *swing, const trivet__crack *crack)
{
    const trivet__tube *const tube = &making->frame->tubes[place->tube];
    const trivet_section *const section = &making->frame->stocks[tube->stock].section;
    const double gamma = making->limits.crack;
    trivet__record *const record =
        trivet__record_start(making, choose_kind(place, section, crack), place->tube, -1);
    record->check.in_case = swing->name;
    record->check.source = place->detail ? place->detail->source : RULE;
    record->check.note = choose_note(place, swing);
    record->check.at = trivet__tube_distance(making->frame, place->tube, place->position);
    record->material_source =
        place->detail ? place->detail->source : "the weld's detail, set by the user";
    trivet__record_at(making, record, tube->name, tube->joints[place->position]);
    if (crack->point < 0) {
        add_round(making, record, section, crack);
    } else {
        add_point(making, record, section, crack);
    }
    add_place(making, record, place, crack);
    add_curve(making, record, swing, crack);
    const double end[] = {gamma,        crack->shares[0], crack->shares[1],
                          crack->range, crack->limit,     crack->used};
    assert((int32_t)(sizeof end / sizeof end[0]) == LINES_OF_END);
    trivet__record_table(making, record, end_table(gamma), end);
    trivet__record_judge(making, record, TRIVET_STRESS, crack->range, crack->limit);
}
