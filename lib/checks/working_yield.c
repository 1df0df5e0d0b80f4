/*
 * The working of a check of yield, as one would write it by hand: forces, section values, stresses,
 * their sum after von Mises, the limit, the utilisation.
 */
#include "checks/check_yield.h"
#include "frame/frame.h"

#include <assert.h>
#include <math.h>

static const trivet__check_kind YIELD = {.check = "yield",
                                         .verb = "carries",
                                         .line = TRIVET_LINE_OVERLOAD,
                                         .where_kind = TRIVET_KIND_TUBE};

#define TABLE(name)                                                                                \
    static const trivet__table name = {name##_LINES,                                               \
                                       (int32_t)(sizeof name##_LINES / sizeof name##_LINES[0])}

#define SOLUTION "from the solution"
#define SECTION "section values of the stock"
#define POINT "stress points of the section"
#define RIM "where sigma^2 + 3 tau^2 is largest round the rim"
#define SHARED "stiffness of the part over that of tube and insert together"
#define BENDING "bending of a straight bar; any text on strength of materials"
#define MISES "von Mises (1913); EN 1993-1-1 6.2.1(5) with one shear stress (from memory)"

static const trivet__line FORCES_LINES[] = {
    {"N", "pull along the tube", "", SOLUTION, TRIVET_FORCE},
    {"Vy", "shear force along the section's width", "", SOLUTION, TRIVET_FORCE},
    {"Vz", "shear force along the section's height", "", SOLUTION, TRIVET_FORCE},
    {"T", "twist", "", SOLUTION, TRIVET_MOMENT},
    {"My", "bending moment about the width", "", SOLUTION, TRIVET_MOMENT},
    {"Mz", "bending moment about the height", "", SOLUTION, TRIVET_MOMENT},
};
TABLE(FORCES);

static const trivet__line SHARED_FORCES_LINES[] = {
    {"N_all", "pull along tube and insert", "", SOLUTION, TRIVET_FORCE},
    {"Vy_all", "shear force along the width", "", SOLUTION, TRIVET_FORCE},
    {"Vz_all", "shear force along the height", "", SOLUTION, TRIVET_FORCE},
    {"T_all", "twist", "", SOLUTION, TRIVET_MOMENT},
    {"My_all", "bending moment about the width", "", SOLUTION, TRIVET_MOMENT},
    {"Mz_all", "bending moment about the height", "", SOLUTION, TRIVET_MOMENT},
    {"s_N", "share of the pull", "", SHARED, TRIVET_NUMBER},
    {"s_Vy", "share of Vy", "", SHARED, TRIVET_NUMBER},
    {"s_Vz", "share of Vz", "", SHARED, TRIVET_NUMBER},
    {"s_T", "share of the twist", "", SHARED, TRIVET_NUMBER},
    {"s_My", "share of My", "", SHARED, TRIVET_NUMBER},
    {"s_Mz", "share of Mz", "", SHARED, TRIVET_NUMBER},
    {"N", "pull in this part", "s_N * N_all", SHARED, TRIVET_FORCE},
    {"Vy", "shear force in this part", "s_Vy * Vy_all", SHARED, TRIVET_FORCE},
    {"Vz", "shear force in this part", "s_Vz * Vz_all", SHARED, TRIVET_FORCE},
    {"T", "twist in this part", "s_T * T_all", SHARED, TRIVET_MOMENT},
    {"My", "bending moment in this part", "s_My * My_all", SHARED, TRIVET_MOMENT},
    {"Mz", "bending moment in this part", "s_Mz * Mz_all", SHARED, TRIVET_MOMENT},
};
TABLE(SHARED_FORCES);

#define POINT_LINES                                                                                \
    {"A", "area", "", SECTION, TRIVET_AREA},                                                       \
        {"Iyy", "second moment for My", "", SECTION, TRIVET_SECOND_MOMENT},                        \
        {"Izz", "second moment for Mz", "", SECTION, TRIVET_SECOND_MOMENT},                        \
        {"y", "place in the section along the width", "", POINT, TRIVET_LENGTH},                   \
        {"z", "place in the section along the height", "", POINT, TRIVET_LENGTH},                  \
        {"k_Vy", "shear stress there for Vy = 1", "", POINT, TRIVET_PER_AREA},                     \
        {"k_Vz", "shear stress there for Vz = 1", "", POINT, TRIVET_PER_AREA},                     \
        {"k_T", "shear stress there for T = 1", "", POINT, TRIVET_PER_VOLUME},                     \
    {                                                                                              \
        "sigma_N", "stress by pull", "N / A", "pull over area", TRIVET_STRESS                      \
    }

/* Sections with an axis of symmetry along y or z: the two bendings do not mix. */
static const trivet__line SYMMETRIC_LINES[] = {
    POINT_LINES,
    {"sigma_My", "stress by My", "My * z / Iyy", BENDING, TRIVET_STRESS},
    {"sigma_Mz", "stress by Mz", "-Mz * y / Izz", BENDING, TRIVET_STRESS},
    {"tau_V", "stress by shear", "k_Vy * Vy + k_Vz * Vz", POINT, TRIVET_STRESS},
    {"tau_T", "stress by twist", "k_T * T", POINT, TRIVET_STRESS},
    {"sigma", "along the tube", "sigma_N + sigma_My + sigma_Mz", "sum", TRIVET_STRESS},
};
TABLE(SYMMETRIC);

static const trivet__line SKEW_LINES[] = {
    POINT_LINES,
    {"Iyz", "product moment", "", SECTION, TRIVET_SECOND_MOMENT},
    {"sigma_My", "stress by My", "My * (Izz * z - Iyz * y) / (Iyy * Izz - Iyz^2)", BENDING,
     TRIVET_STRESS},
    {"sigma_Mz", "stress by Mz", "Mz * (Iyz * z - Iyy * y) / (Iyy * Izz - Iyz^2)", BENDING,
     TRIVET_STRESS},
    {"tau_V", "stress by shear", "k_Vy * Vy + k_Vz * Vz", POINT, TRIVET_STRESS},
    {"tau_T", "stress by twist", "k_T * T", POINT, TRIVET_STRESS},
    {"sigma", "along the tube", "sigma_N + sigma_My + sigma_Mz", "sum", TRIVET_STRESS},
};
TABLE(SKEW);

static const trivet__line ROUND_LINES[] = {
    {"A", "area", "", SECTION, TRIVET_AREA},
    {"I", "second moment", "", SECTION, TRIVET_SECOND_MOMENT},
    {"W_T", "torsion modulus", "", SECTION, TRIVET_VOLUME},
    {"r_o", "outer radius", "", SECTION, TRIVET_LENGTH},
    {"r_i", "inner radius", "", SECTION, TRIVET_LENGTH},
    {"y", "place on the rim along the width", "", RIM, TRIVET_LENGTH},
    {"z", "place on the rim along the height", "", RIM, TRIVET_LENGTH},
    {"sigma_N", "stress by pull", "N / A", "pull over area", TRIVET_STRESS},
    {"sigma_My", "stress by My", "My * z / I", BENDING, TRIVET_STRESS},
    {"sigma_Mz", "stress by Mz", "-Mz * y / I", BENDING, TRIVET_STRESS},
    {"k", "largest shear stress over V / A",
     "4 / 3 * (r_o^2 + r_o * r_i + r_i^2) / (r_o^2 + r_i^2)",
     "V Q / (I b) at the neutral axis (Jourawski); any text on strength of materials",
     TRIVET_NUMBER},
    {"tau_V", "stress by shear", "k / A * (Vz * y - Vy * z) / r_o",
     "along the rim as in a thin tube", TRIVET_STRESS},
    {"tau_T", "stress by twist", "T / W_T", "twist over torsion modulus", TRIVET_STRESS},
    {"sigma", "along the tube", "sigma_N + sigma_My + sigma_Mz", "sum", TRIVET_STRESS},
};
TABLE(ROUND);

#define END_LINES                                                                                  \
    {"sigma_v", "stress after von Mises", "sqrt(sigma^2 + 3 * tau^2)", MISES, TRIVET_STRESS},      \
        {"f_y", "yield strength there", "", NULL, TRIVET_STRESS},                                  \
        {"n", "factor of safety on yield", "", "limits, yield", TRIVET_NUMBER},                    \
        {"limit", "stress allowed", "f_y / n", "strength over factor of safety", TRIVET_STRESS},   \
    {                                                                                              \
        "used", "utilisation", "sigma_v / limit", "demand over limit", TRIVET_NUMBER               \
    }

static const trivet__line CLOSED_END_LINES[] = {
    {"tau", "along the wall", "tau_V + tau_T", "sum", TRIVET_STRESS}, END_LINES};
TABLE(CLOSED_END);

static const trivet__line OPEN_END_LINES[] = {
    {"tau", "along the wall", "abs(tau_V) + abs(tau_T)",
     "in an open section twist acts in both senses across the wall", TRIVET_STRESS},
    END_LINES};
TABLE(OPEN_END);

/* Stresses at the worst place. */
typedef struct stresses {
    double N;
    double My;
    double Mz;
    double sigma;
    double tau_V;
    double tau_T;
    double tau;
    double mises;
} stresses;

static void add_forces(trivet__making *making, trivet__record *record, const trivet__worst *worst,
                       int is_shared, double own[6])
{
    const trivet__part *const part = &worst->part;
    const double shares[6] = {part->share_N, part->share_Vy, part->share_Vz,
                              part->share_T, part->share_My, part->share_Mz};
    double values[18];
    for (int i = 0; i < 6; i++) {
        own[i] = shares[i] * worst->forces[i];
        values[i] = worst->forces[i];
        values[6 + i] = shares[i];
        values[12 + i] = own[i];
    }
    trivet__record_table(making, record, is_shared ? &SHARED_FORCES : &FORCES,
                         is_shared ? values : own);
}

static void add_point(trivet__making *making, trivet__record *record, const trivet_section *section,
                      const trivet__spot *spot, const double own[6], stresses *out)
{
    const trivet_stress_point *const point = &section->points[spot->point];
    const double Iyy = section->second_moment[0];
    const double Izz = section->second_moment[1];
    const double Iyz = section->product_moment;
    const int is_skew = Iyz != 0.0;
    double values[16];
    int n = 0;
    values[n++] = section->area;
    values[n++] = Iyy;
    values[n++] = Izz;
    values[n++] = point->y;
    values[n++] = point->z;
    values[n++] = point->per_Vy;
    values[n++] = point->per_Vz;
    values[n++] = point->per_T;
    values[n++] = out->N = own[0] / section->area;
    if (is_skew) {
        const double D = Iyy * Izz - Iyz * Iyz;
        values[n++] = Iyz;
        out->My = own[4] * (Izz * point->z - Iyz * point->y) / D;
        out->Mz = own[5] * (Iyz * point->z - Iyy * point->y) / D;
    } else {
        out->My = own[4] * point->z / Iyy;
        out->Mz = -own[5] * point->y / Izz;
    }
    values[n++] = out->My;
    values[n++] = out->Mz;
    values[n++] = out->tau_V = point->per_Vy * own[1] + point->per_Vz * own[2];
    values[n++] = out->tau_T = point->per_T * own[3];
    values[n++] = out->sigma = out->N + out->My + out->Mz;
    assert(n == (is_skew ? SKEW.count : SYMMETRIC.count));
    trivet__record_table(making, record, is_skew ? &SKEW : &SYMMETRIC, values);
}

static void add_rim(trivet__making *making, trivet__record *record, const trivet_section *section,
                    const trivet__spot *spot, const double own[6], stresses *out)
{
    const double I = section->second_moment[0];
    const double k = trivet__rim_shear_factor(section);
    out->N = own[0] / section->area;
    out->My = own[4] * spot->z / I;
    out->Mz = -own[5] * spot->y / I;
    out->tau_V = k / section->area * (own[2] * spot->y - own[1] * spot->z) / section->outer_radius;
    out->tau_T = own[3] / section->torsion_modulus;
    out->sigma = out->N + out->My + out->Mz;
    const double values[] = {section->area,
                             I,
                             section->torsion_modulus,
                             section->outer_radius,
                             section->inner_radius,
                             spot->y,
                             spot->z,
                             out->N,
                             out->My,
                             out->Mz,
                             k,
                             out->tau_V,
                             out->tau_T,
                             out->sigma};
    assert((int32_t)(sizeof values / sizeof values[0]) == ROUND.count);
    trivet__record_table(making, record, &ROUND, values);
}

/* What the stress is made of, for the advice beside the verdict. */
static void fill_shares(trivet__record *record, const stresses *s)
{
    const double bending = fabs(s->My + s->Mz);
    const double shear = sqrt(3.0) * fabs(s->tau);
    const double sum = fabs(s->N) + bending + shear;
    const double both = fabs(s->My) + fabs(s->Mz);
    if (sum > 0.0) {
        record->shares.bending = bending / sum;
        record->shares.shear = shear / sum;
    }
    if (both > 0.0) {
        record->shares.sideways = fabs(s->Mz) / both;
    }
}

void trivet__record_yield(trivet__making *making, int32_t tube, int32_t in_case,
                          const trivet__worst *worst)
{
    const trivet_section *const section = trivet_frame_section(making->frame, worst->part.stock);
    const trivet_material *const material = trivet_frame_material(making->frame, worst->part.stock);
    trivet__record *const record = trivet__record_start(making, &YIELD, tube, in_case);
    const trivet__part *const part = &worst->part;
    const int is_shared = worst->is_insert || part->share_My != 1.0 || part->share_N != 1.0;
    record->material_source = material->source[0] ? material->source : "material of the stock";
    record->check.source = MISES;
    record->check.at = worst->at;
    record->is_welded = worst->yield < material->yield;
    record->is_round = section->point_count == 0;
    record->insert =
        worst->is_insert ? trivet_frame_name(making->frame, TRIVET_KIND_STOCK, part->stock) : NULL;
    trivet__place_find(making->frame, making->result, tube, worst->at, &record->place);

    double own[6];
    stresses s;
    add_forces(making, record, worst, is_shared, own);
    if (section->point_count > 0) {
        add_point(making, record, section, &worst->spot, own, &s);
    } else {
        add_rim(making, record, section, &worst->spot, own, &s);
    }
    s.tau = section->is_open ? fabs(s.tau_V) + fabs(s.tau_T) : s.tau_V + s.tau_T;
    s.mises = sqrt(s.sigma * s.sigma + 3.0 * s.tau * s.tau);
    const double limit = worst->yield / making->limits.yield;
    const double values[] = {s.tau, s.mises,        worst->yield, making->limits.yield,
                             limit, s.mises / limit};
    trivet__record_table(making, record, section->is_open ? &OPEN_END : &CLOSED_END, values);
    fill_shares(record, &s);
    trivet__record_judge(making, record, TRIVET_STRESS, s.mises, limit);
}
