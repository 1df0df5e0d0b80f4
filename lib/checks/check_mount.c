/*
 * What the mounts carry, beside what the user says that they may.
 *
 * A reaction is what the mount does to the frame; the frame does the opposite to the mount. Along
 * the mount's own z, which points away from the vehicle, a reaction below zero means that the frame
 * pulls the mount away.
 */
#include "base/vec3.h"
#include "checks/bounds.h"
#include "checks/check_record.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

#define SOLUTION "from the solution, in the mount's axes"
#define SET "limit of the mount, set by the user"
/* A limit of 0 allows nothing: there is no share to work out. */
#define RATIO(demand)                                                                              \
    {                                                                                              \
        "used", "utilisation", demand " / limit", "demand over limit", TRIVET_NUMBER               \
    }

static const trivet__line PULL_LINES[] = {
    {"Rz", "force of the mount on the frame along its z", "", SOLUTION, TRIVET_FORCE},
    {"pull", "the frame pulls the mount away", "max(0 - Rz, 0)", "action and reaction",
     TRIVET_FORCE},
    {"limit", "pull allowed", "", SET, TRIVET_FORCE},
    RATIO("pull"),
};
static const trivet__line PUSH_LINES[] = {
    {"Rz", "force of the mount on the frame along its z", "", SOLUTION, TRIVET_FORCE},
    {"push", "the frame pushes the mount in", "max(Rz, 0)", "action and reaction", TRIVET_FORCE},
    {"limit", "push allowed", "", SET, TRIVET_FORCE},
    RATIO("push"),
};
static const trivet__line SHEAR_LINES[] = {
    {"Rx", "force of the mount on the frame along its x", "", SOLUTION, TRIVET_FORCE},
    {"Ry", "force of the mount on the frame along its y", "", SOLUTION, TRIVET_FORCE},
    {"shear", "force across the mount", "sqrt(Rx^2 + Ry^2)", "resultant", TRIVET_FORCE},
    {"limit", "shear allowed", "", SET, TRIVET_FORCE},
    RATIO("shear"),
};
static const trivet__line MOMENT_LINES[] = {
    {"Mx", "moment of the mount on the frame about its x", "", SOLUTION, TRIVET_MOMENT},
    {"My", "moment about its y", "", SOLUTION, TRIVET_MOMENT},
    {"Mz", "moment about its z", "", SOLUTION, TRIVET_MOMENT},
    {"moment", "in all", "sqrt(Mx^2 + My^2 + Mz^2)", "resultant", TRIVET_MOMENT},
    {"limit", "moment allowed", "", SET, TRIVET_MOMENT},
    RATIO("moment"),
};

/* The tables with the last line, and without it for a limit of 0. */
#define TABLES(lines)                                                                              \
    {                                                                                              \
        {lines, (int32_t)(sizeof(lines) / sizeof(lines)[0])},                                      \
        {                                                                                          \
            lines, (int32_t)(sizeof(lines) / sizeof(lines)[0]) - 1                                 \
        }                                                                                          \
    }
static const trivet__table LOADS[TRIVET_CARRY_COUNT][2] = {
    TABLES(PULL_LINES), TABLES(PUSH_LINES), TABLES(SHEAR_LINES), TABLES(MOMENT_LINES)};
#define HELP "less load, or a load nearer to the mounts, helps"
#define KIND(name, how)                                                                            \
    {                                                                                              \
        .check = name, .verb = how, .advice = HELP, .line = TRIVET_LINE_OVERLOAD,                  \
        .where_kind = TRIVET_KIND_MOUNT                                                            \
    }
static const trivet__check_kind KINDS[TRIVET_CARRY_COUNT] = {
    KIND("mount pull", "is pulled with"), KIND("mount push", "is pushed with"),
    KIND("mount shear", "is sheared with"), KIND("mount moment", "is turned with")};

/* A pull on a mount that may not be pulled counts from this share of all reactions in the case. */
#define ROUNDING_SHARE 1e-9

/* A reaction in the axes of its mount. */
static void turn(const trivet_mount *mount, const double reaction[6], double out[6])
{
    trivet__into_axes3(mount->axes, reaction, out);
    trivet__into_axes3(mount->axes, reaction + 3, out + 3);
}

/* Reaction of a mount in its own axes; 0 if there is no such mount. */
static int turned_reaction(const trivet_frame *frame, const trivet_result *result, int32_t in_case,
                           int32_t mount, double out[6])
{
    int32_t mount_count = 0;
    const double *const all = trivet_result_reactions(result, NULL, &mount_count);
    if (!all || mount >= mount_count || mount >= frame->mount_count) {
        return 0;
    }
    turn(&frame->mounts[mount], all + 6 * ((int64_t)in_case * mount_count + mount), out);
    return 1;
}

static void split(const double r[6], double carried[TRIVET_CARRY_COUNT])
{
    carried[TRIVET_CARRY_PULL] = r[2] < 0.0 ? -r[2] : 0.0;
    carried[TRIVET_CARRY_PUSH] = r[2] > 0.0 ? r[2] : 0.0;
    carried[TRIVET_CARRY_SHEAR] = sqrt(r[0] * r[0] + r[1] * r[1]);
    carried[TRIVET_CARRY_MOMENT] = trivet__length3(r + 3);
}

trivet_status trivet_mount_carries(const trivet_frame *frame, const trivet_result *result,
                                   int32_t in_case, int32_t mount, double *carried_out)
{
    if (!frame || !result || !carried_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    memset(carried_out, 0, TRIVET_CARRY_COUNT * sizeof *carried_out);
    if (!trivet_result_reactions(result, NULL, NULL)) {
        return TRIVET_BAD_ORDER;
    }
    double turned[6];
    if (in_case < 0 || in_case >= trivet_result_case_count(result) || mount < 0 ||
        !turned_reaction(frame, result, in_case, mount, turned)) {
        return TRIVET_BAD_INDEX;
    }
    split(turned, carried_out);
    return TRIVET_OK;
}

trivet_status trivet_mount_carries_most(const trivet_frame *frame, const trivet_result *result,
                                        int32_t mount, double *carried_out, int32_t *cases_out)
{
    double most[TRIVET_CARRY_COUNT] = {0.0};
    trivet_status status = trivet_mount_carries(frame, result, 0, mount, carried_out);
    if (status != TRIVET_OK) {
        return status;
    }
    for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
        most[i] = carried_out[i];
        if (cases_out) {
            cases_out[i] = 0;
        }
    }
    for (int32_t c = 1; c < trivet_result_case_count(result) && status == TRIVET_OK; c++) {
        double carried[TRIVET_CARRY_COUNT] = {0.0};
        status = trivet_mount_carries(frame, result, c, mount, carried);
        for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
            if (carried[i] > most[i]) {
                most[i] = carried[i];
                if (cases_out) {
                    cases_out[i] = c;
                }
            }
        }
    }
    memcpy(carried_out, most, sizeof most);
    return status;
}

/* Sum of the sizes of all reaction forces in a case, N. */
static double all_reactions(const trivet_result *result, int32_t in_case)
{
    int32_t mount_count = 0;
    const double *const all = trivet_result_reactions(result, NULL, &mount_count);
    double sum = 0.0;
    for (int32_t m = 0; all && m < mount_count; m++) {
        sum += trivet__length3(all + 6 * ((int64_t)in_case * mount_count + m));
    }
    return sum;
}

/* The lines of working of one load on a mount, in the order of its table. */
static int fill_values(int load, const double turned[6], double demand, double limit,
                       double values[8])
{
    static const int FIRST[TRIVET_CARRY_COUNT] = {2, 2, 0, 3};
    static const int COUNT[TRIVET_CARRY_COUNT] = {1, 1, 2, 3};
    int n = 0;
    for (int i = 0; i < COUNT[load]; i++) {
        values[n++] = turned[FIRST[load] + i];
    }
    values[n++] = demand;
    values[n++] = limit;
    if (limit > 0.0) {
        values[n++] = demand / limit;
    }
    return n;
}

/* Where only the worst of each line is wanted: whether any case of a load on a mount can be it. */
static int can_be_worst(const trivet__making *making, int32_t mount, int load, double limit)
{
    const trivet_mount *const at = &making->frame->mounts[mount];
    const int32_t mounts = making->frame->mount_count;
    double most = 0.0;
    for (int32_t c = 0; making->is_worst_only && c < making->columns; c++) {
        const double *const r = making->reactions + 6 * ((ptrdiff_t)c * mounts + mount);
        const double *const of = load == TRIVET_CARRY_MOMENT ? r + 3 : r;
        const double along = trivet__dot3(at->axes + 6, r);
        const double square = load == TRIVET_CARRY_PULL || load == TRIVET_CARRY_PUSH
                                  ? along * along
                                  : trivet__dot3(of, of);
        most = square <= most ? most : square;
    }
    return !making->is_worst_only || !(limit > 0.0) ||
           trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, sqrt(most) / limit);
}

static void check_load(trivet__making *making, int32_t mount, int32_t in_case, int load,
                       double limit)
{
    double turned[6] = {0.0};
    double carried[TRIVET_CARRY_COUNT];
    double values[8];
    turned_reaction(making->frame, making->result, in_case, mount, turned);
    split(turned, carried);
    double demand = carried[load];
    if (limit > 0.0 && !trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, demand / limit)) {
        return;
    }
    trivet__record *const record = trivet__record_start(making, &KINDS[load], mount, in_case);
    record->check.source = SET;
    fill_values(load, turned, demand, limit, values);
    trivet__record_table(making, record, &LOADS[load][limit > 0.0 ? 0 : 1], values);
    if (!(limit > 0.0) && demand <= ROUNDING_SHARE * all_reactions(making->result, in_case)) {
        demand = 0.0;
    }
    trivet__record_judge(making, record, load == TRIVET_CARRY_MOMENT ? TRIVET_MOMENT : TRIVET_FORCE,
                         demand, limit);
}

static void fill_limits(const trivet_mount *mount, double limits_out[TRIVET_CARRY_COUNT])
{
    limits_out[TRIVET_CARRY_PULL] = mount->limit_pull;
    limits_out[TRIVET_CARRY_PUSH] = mount->limit_push;
    limits_out[TRIVET_CARRY_SHEAR] = mount->limit_shear;
    limits_out[TRIVET_CARRY_MOMENT] = mount->limit_moment;
}

/* Mounts are quickly looked at, and what the worst of them uses rules out much else. */
void trivet__mounts_floor(trivet__making *making)
{
    const int32_t mounts = making->frame->mount_count;
    for (int32_t m = 0; m < mounts; m++) {
        const trivet_mount *const mount = &making->frame->mounts[m];
        double most[TRIVET_CARRY_COUNT] = {0.0};
        double limits[TRIVET_CARRY_COUNT];
        fill_limits(mount, limits);
        for (int32_t c = 0; c < making->columns; c++) {
            const double *const reaction = making->reactions + 6 * ((ptrdiff_t)c * mounts + m);
            double turned[6];
            double carried[TRIVET_CARRY_COUNT];
            turn(mount, reaction, turned);
            split(turned, carried);
            for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
                most[i] = carried[i] > most[i] ? carried[i] : most[i];
            }
        }
        for (int i = 0; i < TRIVET_CARRY_COUNT; i++) {
            if (limits[i] > 0.0) {
                trivet__floor_raise(making, TRIVET_LINE_OVERLOAD, most[i] / limits[i]);
            }
        }
    }
}

static const trivet__line RATING_LINES[] = {
    {"m_frame", "mass of the frame", "", "tubes and inserts by their section and density",
     TRIVET_MASS},
    {"m_cargo", "mass of all cargo", "", "ledger of the cargo", TRIVET_MASS},
    {"m", "on the vehicle's mounts", "m_frame + m_cargo", "sum", TRIVET_MASS},
    {"m_max", "most that the vehicle's maker allows there", "", "limits, rack rating", TRIVET_MASS},
    {"used", "utilisation", "m / m_max", "demand over limit", TRIVET_NUMBER},
};
static const trivet__table RATING = {RATING_LINES,
                                     (int32_t)(sizeof RATING_LINES / sizeof RATING_LINES[0])};
static const trivet__check_kind RACK = {.check = "rack rating",
                                        .verb = "weighs",
                                        .advice = "the maker's figure stands above every other: "
                                                  "carry less, or build lighter",
                                        .line = TRIVET_LINE_OVERLOAD,
                                        .where_kind = 0};

/* All that hangs on the mounts, beside what the vehicle's maker allows. */
static void check_rating(trivet__making *making)
{
    double cargo = 0.0;
    const double frame = trivet_frame_mass(making->frame);
    const double limit = making->limits.rack_rating;
    for (int32_t i = 0; i < trivet_frame_count(making->frame, TRIVET_KIND_CARGO); i++) {
        trivet_cargo about = {.size = sizeof about};
        if (trivet_frame_cargo(making->frame, i, &about) == TRIVET_OK) {
            cargo += about.mass;
        }
    }
    const double values[] = {frame, cargo, frame + cargo, limit, (frame + cargo) / limit};
    trivet__record *const record = trivet__record_start(making, &RACK, -1, -1);
    record->check.where = "the rack with its cargo";
    record->check.source = "rating of the vehicle's rack, set by the user";
    trivet__record_table(making, record, &RATING, values);
    trivet__record_judge(making, record, TRIVET_MASS, frame + cargo, limit);
}

trivet_status trivet__check_mounts(trivet__making *making)
{
    if (!isnan(making->limits.rack_rating)) {
        check_rating(making);
    }
    const int32_t mount_count = trivet_frame_count(making->frame, TRIVET_KIND_MOUNT);
    for (int32_t m = 0; m < mount_count; m++) {
        trivet_status status = TRIVET_OK;
        double limits[TRIVET_CARRY_COUNT];
        fill_limits(&making->frame->mounts[m], limits);
        int limit_count = 0;
        for (int load = 0; load < TRIVET_CARRY_COUNT; load++) {
            if (isnan(limits[load])) {
                continue;
            }
            limit_count++;
            const int is_of_interest = can_be_worst(making, m, load, limits[load]);
            for (int32_t c = 0; is_of_interest && c < making->columns; c++) {
                check_load(making, m, c, load, limits[load]);
            }
        }
        if (limit_count == 0) {
            status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "mount",
                                  trivet_frame_name(making->frame, TRIVET_KIND_MOUNT, m),
                                  "no limits are given");
        }
        if (status != TRIVET_OK) {
            return status;
        }
    }
    return TRIVET_OK;
}
