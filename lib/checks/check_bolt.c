/*
 * Bolts: for every set and every result column the worst bolt, and what is not looked at.
 *
 * Pull counts in full as unloading the faces: with the share C of the pull that goes into the bolt,
 * (1 - C) of it would; C of bolts through tube and thin plate is anybody's guess.
 */
#include "checks/check_bolt.h"
#include "checks/demand.h"

#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/*
 * What is smaller than this share of all mount reactions and of the set's own forces counts as
 * rounding; moments against the same times a metre, the size of a frame.
 */
#define ROUNDING_SHARE 1e-9

static double least_spacing(const trivet_bolts *bolts)
{
    double least = HUGE_VAL;
    for (int32_t i = 0; i < bolts->count; i++) {
        for (int32_t k = 0; k < i; k++) {
            least = fmin(least, hypot(bolts->pattern[i][0] - bolts->pattern[k][0],
                                      bolts->pattern[i][1] - bolts->pattern[k][1]));
        }
    }
    return least;
}

static void find_set(const trivet__making *making, int32_t index, trivet__bolt_set *set_out)
{
    const trivet_bolts *const bolts = &making->frame->bolts[index];
    set_out->index = index;
    set_out->bolts = bolts;
    trivet__bolt_kind(bolts, &set_out->thread, &set_out->grade);
    trivet__pattern_find(bolts, &set_out->pattern);
    trivet__bolt_plate_find(bolts, &set_out->thread, &set_out->plate);
    set_out->spacing = least_spacing(bolts);
    set_out->preload =
        trivet__preload_of_torque(bolts->torque, bolts->nut_factor, set_out->thread.diameter) *
        (1.0 - bolts->scatter);
}

/* Sum of the sizes of the forces about: of all mounts in the column, and on the set. */
static double force_scale(const trivet__making *making, int32_t in_case, const double forces[6])
{
    int32_t count = 0;
    const double *const all = trivet_result_reactions(making->result, NULL, &count);
    double sum = trivet__length3(forces);
    for (int32_t m = 0; all && m < count; m++) {
        sum += trivet__length3(all + 6 * ((ptrdiff_t)in_case * count + m));
    }
    return sum;
}

/* What is the same for all bolts of the column. */
static void find_column(const trivet__making *making, const trivet__bolt_set *set, int32_t in_case,
                        trivet__bolt_load *load_out)
{
    memset(load_out, 0, sizeof *load_out);
    load_out->in_case = in_case;
    trivet__bolts_forces(making, in_case, set->index, load_out->forces);
    trivet__pattern_moments(&set->pattern, load_out->forces, load_out->moments);
}

static void find_load(const trivet__bolt_set *set, int32_t bolt, double rounding,
                      trivet__bolt_load *load)
{
    load->x = set->bolts->pattern[bolt][0] - set->pattern.middle[0];
    load->y = set->bolts->pattern[bolt][1] - set->pattern.middle[1];
    trivet__pattern_share(&set->pattern, load->forces, load->moments, load->x, load->y,
                          load->share);
    load->shear = sqrt(load->share[0] * load->share[0] + load->share[1] * load->share[1]);
    load->is_sheared = !(load->shear <= rounding);
    load->pull = load->share[2] <= rounding ? 0.0 : load->share[2];
}

static double shear_of(const trivet__making *making, const trivet__bolt_set *set,
                       const trivet__bolt_load *load)
{
    (void)making;
    (void)set;
    return load->shear;
}

static double pull_of(const trivet__making *making, const trivet__bolt_set *set,
                      const trivet__bolt_load *load)
{
    (void)making;
    (void)set;
    return load->pull;
}

/* The nearest to slipping; 0 if it is not sheared. */
static double slip_of(const trivet__making *making, const trivet__bolt_set *set,
                      const trivet__bolt_load *load)
{
    (void)making;
    const double stands = trivet__slip_force(set->bolts->friction, set->preload, load->pull);
    if (!load->is_sheared) {
        return 0.0;
    }
    return stands > 0.0 ? load->shear / stands : HUGE_VAL;
}

typedef double measure(const trivet__making *making, const trivet__bolt_set *set,
                       const trivet__bolt_load *load);

/* The bolt of the column that is worst by a measure; what is no number is worst. */
static void find_worst(const trivet__making *making, const trivet__bolt_set *set,
                       const trivet__bolt_load *column, measure *of, trivet__bolt_load *worst_out)
{
    const double rounding = ROUNDING_SHARE * force_scale(making, column->in_case, column->forces);
    double most = -1.0;
    trivet__bolt_load load = *column;
    *worst_out = *column;
    for (int32_t i = 0; i < set->bolts->count; i++) {
        find_load(set, i, rounding, &load);
        const double used = of(making, set, &load);
        if (!(used <= most)) {
            most = used;
            *worst_out = load;
        }
    }
}

/* What of a set can be checked. */
typedef struct knowledge {
    int has_head;    /* plate and its strength */
    int has_bearing; /* and the distance to the edge */
    int has_preload;
} knowledge;

/* What the columns have shown. */
typedef struct findings {
    int is_pulled;
    int is_sheared;
    int has_rest;
} findings;

static knowledge known_of(const trivet__bolt_set *set)
{
    const trivet_bolts *const bolts = set->bolts;
    knowledge known;
    known.has_head = bolts->plate > 0.0 && bolts->plate_tensile > 0.0;
    known.has_bearing = known.has_head && bolts->edge > 0.0;
    known.has_preload = set->preload > 0.0 && bolts->spacer != TRIVET_SPACER_PLASTIC;
    return known;
}

static void check_column(trivet__making *making, const trivet__bolt_set *set, int32_t in_case,
                         const knowledge *known, findings *found)
{
    trivet__bolt_load column;
    trivet__bolt_load worst;
    double rest[3];
    find_column(making, set, in_case, &column);
    trivet__pattern_rest(&set->pattern, column.moments, rest);
    const double scale = force_scale(making, in_case, column.forces);
    found->has_rest |= !(trivet__length3(rest) <= ROUNDING_SHARE * scale * 1.0);
    find_worst(making, set, &column, trivet__bolt_used, &worst);
    trivet__record_bolt(making, set, &worst);
    if (known->has_bearing) {
        find_worst(making, set, &column, shear_of, &worst);
        trivet__record_bearing(making, set, &worst);
    }
    find_worst(making, set, &column, slip_of, &worst);
    found->is_sheared |= worst.is_sheared;
    if (known->has_preload && worst.is_sheared) {
        trivet__record_slip(making, set, &worst);
    }
    find_worst(making, set, &column, pull_of, &worst);
    if (!(worst.pull > 0.0)) {
        return;
    }
    found->is_pulled = 1;
    if (known->has_head) {
        trivet__record_head(making, set, &worst);
    }
    if (known->has_preload) {
        trivet__record_gap(making, set, &worst);
    }
}

static trivet_status omit_plate(trivet__making *making, const trivet__bolt_set *set,
                                const knowledge *known)
{
    if (known->has_bearing) {
        return TRIVET_OK;
    }
    if (!known->has_head) {
        return trivet__bolts_omit(
            making, set->index, "plate at the bolts of",
            set->bolts->plate > 0.0
                ? "the strength of the plate is not given: a hole drawn long and a head pulled "
                  "through are not looked at"
                : "no plate is given: a hole drawn long and a head pulled through are not looked "
                  "at");
    }
    return trivet__bolts_omit(making, set->index, "holes for the bolts of",
                              "the distance from hole to edge is not given");
}

static trivet_status omit_preload(trivet__making *making, const trivet__bolt_set *set,
                                  const knowledge *known)
{
    if (known->has_preload) {
        return TRIVET_OK;
    }
    return trivet__bolts_omit_line(
        making, TRIVET_LINE_SERVICE, set->index, "slip and gap at the bolts of",
        set->bolts->spacer == TRIVET_SPACER_PLASTIC
            ? "the plastic spacer creeps and keeps no preload"
            : "no tightening torque is given, so no preload can be counted on");
}

static trivet_status omit_rest(trivet__making *making, const trivet__bolt_set *set)
{
    return trivet__bolts_omit(
        making, set->index, "moment on the bolts of",
        set->pattern.spread == TRIVET__SPREAD_POINT
            ? "one bolt cannot carry a moment: what the faces round it do about it is not counted"
            : "bolts in a row cannot carry a moment about their own line: it is not counted");
}

static trivet_status check_set(trivet__making *making, int32_t index, findings *found)
{
    trivet__bolt_set set;
    find_set(making, index, &set);
    const knowledge known = known_of(&set);
    findings own = {0, 0, 0};
    const int32_t columns = trivet_result_case_count(making->result);
    for (int32_t c = 0; c < columns; c++) {
        check_column(making, &set, c, &known, &own);
    }
    trivet_status status = making->status;
    if (status == TRIVET_OK) {
        status = omit_plate(making, &set, &known);
    }
    if (status == TRIVET_OK && (own.is_pulled || own.is_sheared)) {
        status = omit_preload(making, &set, &known);
    }
    if (status == TRIVET_OK && own.has_rest) {
        status = omit_rest(making, &set);
    }
    found->is_pulled |= own.is_pulled;
    return status;
}

/* Mounts without bolts. */
static trivet_status omit_mounts(trivet__making *making)
{
    const trivet_frame *const frame = making->frame;
    trivet_status status = TRIVET_OK;
    for (int32_t m = 0; status == TRIVET_OK && m < frame->mount_count; m++) {
        int has_bolts = 0;
        for (int32_t i = 0; i < frame->bolts_count; i++) {
            has_bolts |=
                frame->bolts[i].where_kind == TRIVET_KIND_MOUNT && frame->bolts[i].where_index == m;
        }
        if (!has_bolts) {
            status =
                trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "bolts of mount",
                             trivet_frame_name(frame, TRIVET_KIND_MOUNT, m), "no bolts are given");
        }
    }
    return status;
}

trivet_status trivet__check_bolts(trivet__making *making)
{
    const int32_t count = trivet_frame_bolts_count(making->frame);
    findings found = {0, 0, 0};
    trivet_status status = TRIVET_OK;
    if (count == 0) {
        return trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "bolts", "",
                            "no bolts are given: what the mounts carry is told, not what holds it");
    }
    for (int32_t i = 0; status == TRIVET_OK && i < count; i++) {
        status = check_set(making, i, &found);
    }
    if (status == TRIVET_OK && found.is_pulled) {
        status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "prying on bolts", "",
                              "a plate or tab that bends levers at the bolts that hold it and "
                              "pulls them harder; that is not counted");
    }
    return status == TRIVET_OK ? omit_mounts(making) : status;
}
