/*
 * Cracking: the stress that comes and goes beside welds and at holes, against what EN 1993-1-9 lets
 * a detail of that kind stand so many times.
 *
 * Range of a force inside: to_factor F(to) - from_factor F(from). The stress range follows from it
 * as stress does from force, nominal: no share of the joint's own shape, which is in the category.
 * A joint in the middle of a tube has two sections, just before and just behind it; of both and of
 * all stress points the worst counts. With several cycles each is held against the times that leave
 * room for the damage by the others at the same point (Palmgren and Miner): n / (1 - D).
 *
 * Not looked at, and listed: spots and welds on bars themselves, bolts, the wall that bends under a
 * tube welded onto it, tubes between their joints. Nothing is told about kilometres or years: how
 * often which bump comes nobody knows.
 */
#include "checks/check_crack.h"

#include "base/memory.h"
#include "checks/bounds.h"
#include "checks/stress.h"
#include "frame/frame.h"
#include "statics/span_pieces.h"

#include <math.h>
#include <string.h>

/* Least room that the damage by the others leaves; beyond it the place has cracked anyway. */
#define ROOM_LEAST 1e-3

/* A sum this much smaller than what it is made of is rounding. */
#define CANCELLED 1e-12

enum { SIDES = 2 };

/* Damage by all swings together at each point of the section on both sides of a joint. */
typedef struct damages {
    double sums[SIDES][TRIVET_STRESS_POINTS_MAX];
} damages;

static int has_loads(const trivet__case *of)
{
    return of->joint_force_count > 0 || of->cargo_force_count > 0 || of->tube_force_count > 0 ||
           of->tube_line_count > 0;
}

/* Whether a case is weight alone, pulling straight down on everything. */
static int is_plain_weight(const trivet_frame *frame, const trivet__case *of)
{
    if (!(of->gravity[2] < 0.0) || of->gravity[0] != 0.0 || of->gravity[1] != 0.0 ||
        of->warm != 0.0 || has_loads(of)) {
        return 0;
    }
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        if (of->cargo_factors[i] != 1.0) {
            return 0;
        }
    }
    for (int32_t i = 0; i < 6 * frame->mount_count; i++) {
        if (of->mount_moves[i] != 0.0) {
            return 0;
        }
    }
    return 1;
}

/* One g more and one g less than the weight: from nothing to twice the weight. 1 if it is known. */
static int own_swing(const trivet_frame *frame, trivet__swing *swing_out)
{
    for (int32_t c = 0; c < frame->case_count; c++) {
        if (is_plain_weight(frame, &frame->cases[c])) {
            trivet_cycles_defaults(&swing_out->cycles, sizeof swing_out->cycles);
            swing_out->cycles.to = c;
            swing_out->cycles.to_factor = -2.0 / frame->cases[c].gravity[2];
            swing_out->name = "bumps of 1 g";
            swing_out->is_own = swing_out->is_alone = 1;
            return 1;
        }
    }
    return 0;
}

static int32_t swing_count(const trivet_frame *frame)
{
    return frame->cycles_count > 0 ? frame->cycles_count : 1;
}

/* What is found once for all places. */
typedef struct known {
    trivet__swing own; /* our default, where the frame has no cycles */
    int32_t has_own;
    /* Stress ranges that are stood so many times, of the categories that were asked for last. */
    double category;
    double shear_category;
    double count;
    double ranges[2];
} known;

/* Swing number index; 0 if there is none. */
static int find_swing(const trivet_frame *frame, const known *of, int32_t index,
                      trivet__swing *swing_out)
{
    if (frame->cycles_count == 0) {
        *swing_out = of->own;
        return of->has_own;
    }
    memset(swing_out, 0, sizeof *swing_out);
    swing_out->name = frame->cycles[index].name;
    swing_out->cycles = frame->cycles[index].cycles;
    swing_out->is_alone = frame->cycles_count == 1;
    return 1;
}

/* Forces inside the tube alone at an end of a span in a result column; no column: none. */
static void span_forces(const trivet__making *making, int32_t tube, int32_t column, int32_t span,
                        int side, double forces_out[6])
{
    trivet__part parts[2];
    if (column < 0) {
        memset(forces_out, 0, 6 * sizeof *forces_out);
        return;
    }
    const double *const at =
        making->span_ends + 12 * ((ptrdiff_t)column * making->span_count + span) + 6 * side;
    if (making->frame->tubes[tube].insert_count == 0 ||
        trivet__span_parts(making->frame, making->result, span, parts) == 1) {
        memcpy(forces_out, at, 6 * sizeof *forces_out);
        return;
    }
    const double shares[6] = {parts[0].share_N, parts[0].share_Vy, parts[0].share_Vz,
                              parts[0].share_T, parts[0].share_My, parts[0].share_Mz};
    for (int i = 0; i < 6; i++) {
        forces_out[i] = shares[i] * at[i];
    }
}

/* The span of a tube that ends (side 1) or begins (side 0) at a joint; -1 if there is none. */
static int32_t span_beside(const trivet__making *making, const trivet__crack_place *place, int side)
{
    const trivet__run *const run = trivet__run_at(making, place->tube, place->position);
    return side ? run->span_before : run->span_behind;
}

static void find_ranges(const trivet__making *making, int32_t tube, const trivet__swing *swing,
                        int32_t span, int side, double ranges_out[6])
{
    const trivet_cycles *const cycles = &swing->cycles;
    double from[6];
    span_forces(making, tube, cycles->from, span, side, from);
    span_forces(making, tube, cycles->to, span, side, ranges_out);
    for (int i = 0; i < 6; i++) {
        ranges_out[i] = cycles->to_factor * ranges_out[i] - cycles->from_factor * from[i];
    }
}

/* Of three numbers; 0 if they cancel but for rounding. */
static double size_of_sum(const double of[3])
{
    const double sum = fabs(of[0] + of[1] + of[2]);
    return sum <= CANCELLED * (fabs(of[0]) + fabs(of[1]) + fabs(of[2])) ? 0.0 : sum;
}

void trivet__crack_nominal(const trivet_section *section, const double ranges[6], int32_t point,
                           double nominal_out[2])
{
    if (point < 0) {
        const double A = section->area;
        const double M = sqrt(ranges[4] * ranges[4] + ranges[5] * ranges[5]);
        const double V = sqrt(ranges[1] * ranges[1] + ranges[2] * ranges[2]);
        nominal_out[0] =
            fabs(ranges[0]) / A + M * section->outer_radius / section->second_moment[0];
        nominal_out[1] =
            trivet__rim_shear_factor(section) * V / A + fabs(ranges[3]) / section->torsion_modulus;
        return;
    }
    const trivet_stress_point *const at = &section->points[point];
    double per[3];
    trivet__normal_stress(section, at->y, at->z, per);
    const double direct[3] = {per[0] * ranges[0], per[1] * ranges[4], per[2] * ranges[5]};
    const double shear[3] = {at->per_Vy * ranges[1], at->per_Vz * ranges[2], at->per_T * ranges[3]};
    nominal_out[0] = size_of_sum(direct);
    nominal_out[1] =
        section->is_open ? fabs(shear[0] + shear[1]) + fabs(shear[2]) : size_of_sum(shear);
}

/* Damage by one swing: times that it comes over times that its stress is stood. */
static double damage_of(const trivet__crack_place *place, const trivet__swing *swing, double gamma,
                        const double nominal[2])
{
    const double factor = place->raise * gamma;
    return swing->cycles.count *
           (1.0 / trivet__times_stood(place->category, 3, factor * nominal[0]) +
            1.0 / trivet__times_stood(place->shear_category, 5, factor * nominal[1]));
}

static void find_shares(const trivet__crack_place *place, double gamma, trivet__crack *crack)
{
    for (int i = 0; i < 2; i++) {
        crack->shares[i] = place->raise * crack->nominal[i] * gamma / crack->stood[i];
    }
}

static void find_used(double gamma, trivet__crack *crack)
{
    crack->limit = crack->stood[0] / gamma;
    crack->range = crack->limit *
                   fmax(crack->shares[1],
                        pow(pow(crack->shares[0], 3.0) + pow(crack->shares[1], 5.0), 1.0 / 3.0));
    crack->used = crack->range / crack->limit;
}

void trivet__crack_judge(const trivet__crack_place *place, const trivet__swing *swing, double gamma,
                         trivet__crack *crack)
{
    crack->room = swing->cycles.count / fmax(1.0 - crack->others, ROOM_LEAST);
    crack->stood[0] = trivet__range_stood(place->category, 3, crack->room);
    crack->stood[1] = trivet__range_stood(place->shear_category, 5, crack->room);
    find_shares(place, gamma, crack);
    find_used(gamma, crack);
}

static double cube(double value)
{
    return value * value * value;
}

/*
 * Whether a crack has the same shares as another one, or uses less by more than rounding; a use is
 * max(c, (a^3 + c^5)^(1/3)).
 */
static int is_no_more(const trivet__crack *one, const trivet__crack *other)
{
    const double a = one->shares[0];
    const double c = one->shares[1];
    const double most = cube(other->used) * (1.0 - CANCELLED);
    return (a == other->shares[0] && c == other->shares[1]) ||
           (cube(a) + c * c * cube(c) < most && cube(c) < most);
}

/* What is done with each section and point on both sides of the place's joint. */
typedef struct looking {
    const trivet__making *making;
    const trivet__crack_place *place;
    const trivet_section *section;
    damages *all;
} looking;

static int32_t point_count(const trivet_section *section)
{
    return section->point_count > 0 ? section->point_count : 1;
}

static void add_damages(const looking *at_work, const trivet__swing *swing)
{
    const double gamma = at_work->making->limits.crack;
    for (int side = 0; side < SIDES; side++) {
        const int32_t span = span_beside(at_work->making, at_work->place, side);
        double ranges[6];
        if (span < 0) {
            continue;
        }
        find_ranges(at_work->making, at_work->place->tube, swing, span, side, ranges);
        for (int32_t p = 0; p < point_count(at_work->section); p++) {
            double nominal[2];
            trivet__crack_nominal(at_work->section, ranges,
                                  at_work->section->point_count > 0 ? p : -1, nominal);
            at_work->all->sums[side][p] += damage_of(at_work->place, swing, gamma, nominal);
        }
    }
}

static void find_stood(const trivet__crack_place *place, double count, known *of)
{
    if (of->category != place->category || of->shear_category != place->shear_category ||
        of->count != count) {
        of->category = place->category;
        of->shear_category = place->shear_category;
        of->count = count;
        of->ranges[0] = trivet__range_stood(place->category, 3, count);
        of->ranges[1] = trivet__range_stood(place->shear_category, 5, count);
    }
}

/* The worst of both sides and of all points. 0 if the stress is not a number somewhere. */
static int find_worst(const looking *at_work, const trivet__swing *swing, known *of,
                      trivet__crack *worst_out)
{
    find_stood(at_work->place, swing->cycles.count, of);
    const double gamma = at_work->making->limits.crack;
    int is_found = 0;
    for (int side = 0; side < SIDES; side++) {
        const int32_t span = span_beside(at_work->making, at_work->place, side);
        trivet__crack crack;
        if (span < 0) {
            continue;
        }
        find_ranges(at_work->making, at_work->place->tube, swing, span, side, crack.ranges);
        for (int32_t p = 0; p < point_count(at_work->section); p++) {
            crack.point = at_work->section->point_count > 0 ? p : -1;
            trivet__crack_nominal(at_work->section, crack.ranges, crack.point, crack.nominal);
            if (swing->is_alone) {
                crack.others = 0.0;
                crack.room = swing->cycles.count;
                memcpy(crack.stood, of->ranges, sizeof crack.stood);
                find_shares(at_work->place, gamma, &crack);
                if (is_found && is_no_more(&crack, worst_out)) {
                    continue;
                }
                find_used(gamma, &crack);
            } else {
                const double own = damage_of(at_work->place, swing, gamma, crack.nominal);
                crack.others = fmax(at_work->all->sums[side][p] - own, 0.0);
                trivet__crack_judge(at_work->place, swing, gamma, &crack);
            }
            if (!(crack.used < HUGE_VAL)) {
                return 0;
            }
            if (!is_found || crack.used > worst_out->used) {
                *worst_out = crack;
                is_found = 1;
            }
        }
    }
    return is_found;
}

/* Most direct and shear stress on both sides of a joint of a tube, by one swing. */
typedef struct joint_stress {
    int32_t tube;
    int32_t position;
    double most[SIDES][2];
} joint_stress;

static void find_joint_stress(const trivet__making *making, const trivet__crack_place *place,
                              const trivet__swing *swing, joint_stress *of)
{
    const int32_t stock = making->frame->tubes[place->tube].stock;
    of->tube = place->tube;
    of->position = place->position;
    for (int side = 0; side < SIDES; side++) {
        const int32_t span = span_beside(making, place, side);
        double ranges[6];
        of->most[side][0] = of->most[side][1] = 0.0;
        if (span < 0) {
            continue;
        }
        find_ranges(making, place->tube, swing, span, side, ranges);
        for (int i = 0; i < 6; i++) {
            ranges[i] = fabs(ranges[i]);
        }
        trivet__stress_most(&making->checks->stress_bounds[stock], ranges, &of->most[side][0],
                            &of->most[side][1]);
    }
}

/* Third power of how much a place where one swing alone acts uses at most. */
static double most_used_cubed(const trivet__making *making, const trivet__crack_place *place,
                              const joint_stress *stress, const known *of)
{
    const double factor = place->raise * making->limits.crack;
    double most = 0.0;
    for (int side = 0; side < SIDES; side++) {
        const double a = factor * stress->most[side][0] / of->ranges[0];
        const double c = factor * stress->most[side][1] / of->ranges[1];
        /* Never below max(c, (a^3 + c^5)^(1/3)): below 1, c^3 is more than c^5; above, c^5 more. */
        const double third = a * a * a + c * c * c * (c <= 1.0 ? 1.0 : c * c);
        most = third <= most || isnan(most) ? most : third;
    }
    return most;
}

static int can_be_worst(const trivet__making *making, const trivet__crack_seen *seen)
{
    const double least = trivet__least_of_interest(making, TRIVET_LINE_CRACKING);
    return !(seen->most_cubed < least * least * least / TRIVET__BOUND_MARGIN);
}

/* All swings at a place. Why it cannot be told; NULL if it was. */
static const char *check_place(trivet__making *making, const trivet__crack_place *place, known *of)
{
    const trivet_frame *const frame = making->frame;
    trivet__swing swing;
    damages all = {{{0.0}}};
    const looking at_work = {.making = making,
                             .place = place,
                             .section = &frame->stocks[frame->tubes[place->tube].stock].section,
                             .all = &all};
    for (int32_t i = 0; i < swing_count(frame); i++) {
        if (find_swing(frame, of, i, &swing) && !swing.is_alone) {
            add_damages(&at_work, &swing);
        }
    }
    for (int32_t i = 0; i < swing_count(frame); i++) {
        trivet__crack worst;
        if (!find_swing(frame, of, i, &swing) || !find_worst(&at_work, &swing, of, &worst)) {
            return "its stress does not come out as a number";
        }
        trivet__record_crack(making, place, &swing, &worst);
    }
    return NULL;
}

/* What the place that may use most does use, where one swing acts alone. */
static void raise_floor(trivet__making *making, int32_t count, known *of)
{
    const trivet_frame *const frame = making->frame;
    const trivet__crack_seen *most = NULL;
    joint_stress stress = {.tube = -1};
    trivet__swing swing;
    if (swing_count(frame) != 1 || !find_swing(frame, of, 0, &swing)) {
        return;
    }
    for (int32_t i = 0; i < count; i++) {
        trivet__crack_seen *const seen = &making->checks->cracks[i];
        if (!seen->place.why) {
            if (stress.tube != seen->place.tube || stress.position != seen->place.position) {
                find_joint_stress(making, &seen->place, &swing, &stress);
            }
            find_stood(&seen->place, swing.cycles.count, of);
            seen->most_cubed = most_used_cubed(making, &seen->place, &stress, of);
            most = seen->most_cubed < HUGE_VAL && !(most && seen->most_cubed <= most->most_cubed)
                       ? seen
                       : most;
        }
    }
    if (most) {
        const looking at_work = {.making = making,
                                 .place = &most->place,
                                 .section =
                                     &frame->stocks[frame->tubes[most->place.tube].stock].section};
        trivet__crack worst;
        if (find_worst(&at_work, &swing, of, &worst)) {
            trivet__floor_raise(making, TRIVET_LINE_CRACKING, worst.used);
        }
    }
}

/* Adds a place. 0 without memory. */
static int add_place(trivet_checks *checks, const trivet__crack_place *place, int32_t *count)
{
    void *list = checks->cracks;
    const int has_room =
        trivet__make_room(&list, (size_t)*count, &checks->crack_capacity, sizeof *checks->cracks);
    checks->cracks = list;
    if (has_room) {
        checks->cracks[(*count)++] = (trivet__crack_seen){.place = *place, .most_cubed = HUGE_VAL};
    }
    return has_room;
}

/* Adds the places at a joint of a tube. 0 without memory. */
static int add_places(trivet__making *making, int32_t tube, int32_t position, int32_t *count)
{
    trivet__crack_place places[TRIVET__CRACKS_AT];
    const int32_t found = trivet__crack_at(making, tube, position, places);
    for (int32_t i = 0; i < found; i++) {
        if (!add_place(making->checks, &places[i], count)) {
            return 0;
        }
    }
    for (int32_t b = 0; b < making->frame->bolts_count; b++) {
        if (trivet__crack_hole(making, tube, position, b, &places[0]) &&
            !add_place(making->checks, &places[0], count)) {
            return 0;
        }
    }
    return 1;
}

/* All places of all tubes; -1 without memory. */
static int32_t find_places(trivet__making *making)
{
    int32_t count = 0;
    for (int32_t t = 0; t < making->frame->tube_count; t++) {
        for (int32_t i = 0; i < making->frame->tubes[t].joint_count; i++) {
            if (!add_places(making, t, i, &count)) {
                return -1;
            }
        }
    }
    return count;
}

/* Places from the first on that are of one tube; one omission for what cannot be told of them. */
static trivet_status check_tube(trivet__making *making, int32_t first, int32_t end, known *of)
{
    const int32_t tube = making->checks->cracks[first].place.tube;
    const char *why = NULL;
    for (int32_t i = first; i < end; i++) {
        const trivet__crack_seen *const seen = &making->checks->cracks[i];
        const char *reason = seen->place.why;
        if (!reason && (!making->is_worst_only || can_be_worst(making, seen))) {
            reason = check_place(making, &seen->place, of);
        }
        why = why ? why : reason;
    }
    return why ? trivet__omit(making->checks, TRIVET_LINE_CRACKING, "cracking of",
                              making->frame->tubes[tube].name, why)
               : TRIVET_OK;
}

/* What can crack and is not looked at. */
static trivet_status omit_rest(trivet__making *making)
{
    static const char *const REST[][2] = {
        {"cracking of spots and of welds on bars",
         "only the metal beside them is looked at, not the weld itself"},
        {"cracking of bolts", "the pull and shear that come and go in them are not looked at"},
        {"cracking of walls under welded tubes",
         "how the wall bends under a tube that is welded onto it is not looked at"},
        {"cracking between joints", "only joints, ends and holes of tubes are looked at"},
    };
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; status == TRIVET_OK && i < sizeof REST / sizeof REST[0]; i++) {
        status = trivet__omit(making->checks, TRIVET_LINE_CRACKING, REST[i][0], "", REST[i][1]);
    }
    return status;
}

trivet_status trivet__check_cracks(trivet__making *making)
{
    known of;
    memset(&of, 0, sizeof of);
    of.has_own = making->frame->cycles_count == 0 && own_swing(making->frame, &of.own);
    if (making->frame->cycles_count == 0 && !of.has_own) {
        return trivet__omit(making->checks, TRIVET_LINE_CRACKING, "cracking", "",
                            "no case holds the weight alone; name two cases under cycles");
    }
    trivet_status status = omit_rest(making);
    const int32_t count = find_places(making);
    if (count < 0) {
        return TRIVET_NO_MEMORY;
    }
    if (making->is_worst_only) {
        raise_floor(making, count, &of);
    }
    for (int32_t first = 0, end = 0; status == TRIVET_OK && first < count; first = end) {
        const trivet__crack_seen *const seen = making->checks->cracks;
        while (end < count && seen[end].place.tube == seen[first].place.tube) {
            end++;
        }
        status = check_tube(making, first, end, &of);
    }
    return status;
}
