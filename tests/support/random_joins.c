#include "support/random_joins.h"

#include "support/dice.h"
#include "support/frames.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static trivet_weld random_weld(dice *d)
{
    trivet_weld weld;
    ck_assert_int_eq(trivet_weld_defaults(&weld, sizeof weld), TRIVET_OK);
    if (dice_chance(d, 0.2)) {
        weld.kind = TRIVET_WELD_SPOTS;
        weld.spot_count = 1 + dice_below(d, 6);
        weld.spot_diameter = dice_between(d, 0.003, 0.008);
    } else if (dice_chance(d, 0.1)) {
        weld.kind = TRIVET_WELD_NONE;
    }
    if (dice_chance(d, 0.3)) {
        weld.sides = (uint32_t)(1 + dice_below(d, TRIVET_SIDES_ALL));
    }
    if (dice_chance(d, 0.3)) {
        weld.run = dice_between(d, 0.3, 1.0);
    }
    if (dice_chance(d, 0.5)) {
        weld.throat = dice_between(d, 0.001, 0.004);
    }
    if (dice_chance(d, 0.3)) {
        weld.filler = dice_between(d, 300e6, 600e6);
    }
    if (dice_chance(d, 0.2)) {
        weld.detail = dice_between(d, 36e6, 90e6);
    }
    return weld;
}

static void add_welds(dice *d, trivet_frame *frame)
{
    trivet_message message;
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(frame, tube, &count);
        for (int end = 0; end < 2; end++) {
            if (dice_chance(d, 0.85)) {
                const trivet_weld weld = random_weld(d);
                must(trivet_frame_set_weld(frame, tube, joints[end * (count - 1)], &weld, &message),
                     &message);
            }
        }
    }
}

static void add_limits(dice *d, trivet_frame *frame)
{
    trivet_message message;
    for (int32_t m = 0; m < trivet_frame_count(frame, TRIVET_KIND_MOUNT); m++) {
        trivet_mount mount;
        ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
        must(trivet_frame_mount(frame, m, &mount), &message);
        mount.limit_pull = dice_chance(d, 0.6) ? dice_between(d, 0.0, 900.0) : (double)NAN;
        mount.limit_push = dice_chance(d, 0.5) ? 2000.0 : (double)NAN;
        mount.limit_shear = dice_chance(d, 0.5) ? 1500.0 : (double)NAN;
        mount.limit_moment = dice_chance(d, 0.3) ? dice_below(d, 3) * 50.0 : (double)NAN;
        must(trivet_frame_set_mount(frame, m, &mount, &message), &message);
    }
    for (int32_t joint = 0; joint < trivet_frame_count(frame, TRIVET_KIND_JOINT); joint++) {
        if (dice_chance(d, 0.1)) {
            must(trivet_frame_set_droop_limit(frame, joint, 0.002, &message), &message);
        }
    }
}

static void add_bolts(dice *d, trivet_frame *frame)
{
    trivet_message message;
    for (int32_t m = 0; m < trivet_frame_count(frame, TRIVET_KIND_MOUNT); m++) {
        trivet_bolts bolts;
        if (!dice_chance(d, 0.5)) {
            continue;
        }
        ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
        bolts.where_kind = TRIVET_KIND_MOUNT;
        bolts.where_index = m;
        bolts.joint = -1;
        memcpy(bolts.thread, "M8", sizeof "M8");
        memcpy(bolts.grade, "8.8", sizeof "8.8");
        bolts.count = 1 + dice_below(d, 2);
        bolts.pattern[1][0] = 0.03;
        if (dice_chance(d, 0.6)) {
            bolts.torque = dice_between(d, 10.0, 25.0);
        }
        const int32_t shape = trivet_frame_profile(frame, 0)->shape;
        const int is_hollow = shape == TRIVET_SHAPE_SQUARE_TUBE || shape == TRIVET_SHAPE_ROUND_TUBE;
        if (is_hollow && dice_chance(d, 0.5)) {
            bolts.clamped = TRIVET_CLAMPED_HOLLOW;
            bolts.clamped_stock = 0;
        }
        must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    }
}

static void add_cycles(dice *d, trivet_frame *frame)
{
    trivet_message message;
    const int32_t columns = trivet_frame_count(frame, TRIVET_KIND_CASE);
    for (int i = dice_below(d, 3); i > 0 && columns > 0; i--) {
        trivet_cycles cycles;
        char name[24];
        ck_assert_int_eq(trivet_cycles_defaults(&cycles, sizeof cycles), TRIVET_OK);
        snprintf(name, sizeof name, "swing %d", i);
        cycles.from = dice_below(d, columns + 1) - 1;
        cycles.to = dice_below(d, columns);
        cycles.to_factor = dice_between(d, 0.5, 2.0);
        cycles.count = pow(10.0, dice_between(d, 3.0, 8.0));
        must(trivet_frame_add_cycles(frame, name, &cycles, NULL, &message), &message);
    }
}

void add_random_joins(trivet_frame *frame, uint64_t seed)
{
    dice d = dice_new(seed ^ 0x9e3779b97f4a7c15U);
    add_welds(&d, frame);
    add_limits(&d, frame);
    if (dice_chance(&d, 0.4)) {
        add_bolts(&d, frame);
    }
    if (dice_chance(&d, 0.5)) {
        add_cycles(&d, frame);
    }
}

trivet_limits random_limits(uint64_t seed)
{
    trivet_limits limits;
    dice d = dice_new(seed + 77U);
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    limits.droop = dice_chance(&d, 0.5) ? 0.004 : (double)NAN;
    limits.droop_ratio = dice_chance(&d, 0.5) ? 0.005 : (double)NAN;
    limits.bolt_rule = dice_below(&d, 2);
    limits.weld_rule = dice_below(&d, 3);
    limits.yield = dice_between(&d, 1.0, 2.0);
    limits.crack = dice_chance(&d, 0.5) ? 1.35 : 1.0;
    limits.rack_rating = dice_chance(&d, 0.3) ? 40.0 : (double)NAN;
    return limits;
}

/* Whether a joint may be moved alone: no tube through it has more than two joints. */
static int may_move(const trivet_frame *frame, int32_t joint)
{
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(frame, tube, &count);
        for (int32_t i = 0; count > 2 && i < count; i++) {
            if (joints[i] == joint) {
                return 0;
            }
        }
    }
    return 1;
}

static void change_stocks(dice *d, trivet_frame *frame)
{
    trivet_message message;
    for (int32_t s = 0; s < trivet_frame_count(frame, TRIVET_KIND_STOCK); s++) {
        trivet_profile profile = *trivet_frame_profile(frame, s);
        trivet_material material = *trivet_frame_material(frame, s);
        if (dice_chance(d, 0.5)) {
            profile.wall *= dice_between(d, 0.9, 1.0);
            material.yield *= dice_between(d, 0.8, 1.2);
            must(trivet_frame_set_stock(frame, s, &profile, &material, &message), &message);
        }
    }
}

void change_sizes_at_random(trivet_frame *frame, uint64_t seed)
{
    trivet_message message;
    dice d = dice_new(seed * 31U + 5U);
    for (int32_t joint = 0; joint < trivet_frame_count(frame, TRIVET_KIND_JOINT); joint++) {
        if (may_move(frame, joint) && dice_chance(&d, 0.3)) {
            double place[3];
            memcpy(place, trivet_frame_position(frame, joint), sizeof place);
            for (int k = 0; k < 3; k++) {
                place[k] += dice_between(&d, -0.01, 0.01);
            }
            must(trivet_frame_set_position(frame, joint, place, &message), &message);
        }
    }
    if (dice_chance(&d, 0.4)) {
        change_stocks(&d, frame);
    }
    for (int32_t tube = 0; tube < trivet_frame_count(frame, TRIVET_KIND_TUBE); tube++) {
        if (dice_chance(&d, 0.15)) {
            const trivet_weld weld = random_weld(&d);
            must(trivet_frame_set_weld(frame, tube, -1, &weld, &message), &message);
        }
    }
}

/* Check notes every assertion that holds, which would take longer than the tests. */
#define SEED(seed) ((unsigned long long)(seed))

static void must_be_same_text(uint64_t seed, const char *what, const char *one, const char *other)
{
    if (!one != !other || (one && other && strcmp(one, other) != 0)) {
        ck_abort_msg("seed %llu: %s: \"%s\" and \"%s\"", SEED(seed), what, one ? one : "nothing",
                     other ? other : "nothing");
    }
}

static void must_be_same_bits(uint64_t seed, const char *what, double one, double other)
{
    if (memcmp(&one, &other, sizeof one) != 0) {
        ck_abort_msg("seed %llu: %s: %.17g and %.17g", SEED(seed), what, one, other);
    }
}

static void must_be_same_number(uint64_t seed, const char *what, int32_t one, int32_t other)
{
    if (one != other) {
        ck_abort_msg("seed %llu: %s: %d and %d", SEED(seed), what, (int)one, (int)other);
    }
}

static void must_be_there(uint64_t seed, trivet_status status)
{
    if (status != TRIVET_OK) {
        ck_abort_msg("seed %llu: %s", SEED(seed), trivet_status_text((int32_t)status));
    }
}

void must_be_same_check(uint64_t seed, const trivet_check *one, const trivet_check *other)
{
    must_be_same_text(seed, "check", one->check, other->check);
    must_be_same_text(seed, "where", one->where, other->where);
    must_be_same_text(seed, "case", one->in_case, other->in_case);
    must_be_same_text(seed, "source", one->source, other->source);
    must_be_same_text(seed, "subject", one->subject, other->subject);
    must_be_same_text(seed, "note", one->note, other->note);
    must_be_same_number(seed, "line", one->line, other->line);
    must_be_same_number(seed, "kind of place", one->where_kind, other->where_kind);
    must_be_same_number(seed, "place", one->where_index, other->where_index);
    must_be_same_number(seed, "case number", one->case_index, other->case_index);
    must_be_same_number(seed, "dimension", one->dimension, other->dimension);
    must_be_same_number(seed, "verdict", one->verdict, other->verdict);
    must_be_same_number(seed, "steps", one->step_count, other->step_count);
    must_be_same_number(seed, "ratio", one->is_ratio, other->is_ratio);
    must_be_same_number(seed, "joint", one->joint, other->joint);
    must_be_same_bits(seed, "at", one->at, other->at);
    must_be_same_bits(seed, "demand", one->demand, other->demand);
    must_be_same_bits(seed, "limit", one->limit, other->limit);
    must_be_same_bits(seed, "utilisation", one->utilisation, other->utilisation);
}

static void must_be_same_steps(uint64_t seed, const trivet_checks *one, const trivet_checks *other,
                               int32_t index, int32_t count)
{
    for (int32_t i = 0; i < count; i++) {
        trivet_step a = {.size = sizeof a};
        trivet_step b = {.size = sizeof b};
        must_be_there(seed, trivet_checks_step(one, index, i, &a));
        must_be_there(seed, trivet_checks_step(other, index, i, &b));
        must_be_same_text(seed, "symbol", a.symbol, b.symbol);
        must_be_same_text(seed, "meaning", a.meaning, b.meaning);
        must_be_same_text(seed, "formula", a.formula, b.formula);
        must_be_same_text(seed, "source of a step", a.source, b.source);
        must_be_same_number(seed, "dimension of a step", a.dimension, b.dimension);
        must_be_same_bits(seed, a.symbol, a.value, b.value);
    }
}

/* Sentence and place in words. */
static void must_be_same_words(uint64_t seed, const trivet_checks *one, const trivet_checks *other,
                               int32_t index)
{
    char a[1024];
    char b[1024];
    trivet_checks_sentence_of(one, index, NULL, a, sizeof a);
    trivet_checks_sentence_of(other, index, NULL, b, sizeof b);
    must_be_same_text(seed, "sentence", a, b);
    trivet_checks_place_text(one, index, NULL, a, sizeof a);
    trivet_checks_place_text(other, index, NULL, b, sizeof b);
    must_be_same_text(seed, "place in words", a, b);
}

void must_be_same_checks(uint64_t seed, const trivet_checks *one, const trivet_checks *other)
{
    must_be_same_number(seed, "checks", trivet_checks_count(one), trivet_checks_count(other));
    for (int32_t i = 0; i < trivet_checks_count(one); i++) {
        trivet_check a = {.size = sizeof a};
        trivet_check b = {.size = sizeof b};
        must_be_there(seed, trivet_checks_at(one, i, &a));
        must_be_there(seed, trivet_checks_at(other, i, &b));
        must_be_same_check(seed, &a, &b);
        must_be_same_steps(seed, one, other, i, a.step_count);
        must_be_same_words(seed, one, other, i);
    }
    for (int32_t line = 0; line < TRIVET_LINE_COUNT; line++) {
        int32_t a = -1;
        int32_t b = -1;
        must_be_same_number(seed, "verdict of a line", trivet_checks_verdict(one, line, &a),
                            trivet_checks_verdict(other, line, &b));
        must_be_same_number(seed, "worst of a line", a, b);
    }
    must_be_same_number(seed, "omissions", trivet_checks_omission_count(one),
                        trivet_checks_omission_count(other));
    for (int32_t i = 0; i < trivet_checks_omission_count(one); i++) {
        int32_t lines[2] = {-1, -1};
        const char *whys[2] = {NULL, NULL};
        must_be_same_text(seed, "omission", trivet_checks_omission(one, i, &lines[0], &whys[0]),
                          trivet_checks_omission(other, i, &lines[1], &whys[1]));
        must_be_same_text(seed, "why", whys[0], whys[1]);
        must_be_same_number(seed, "line of an omission", lines[0], lines[1]);
    }
}
