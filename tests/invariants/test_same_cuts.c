/*
 * Cut lists of random frames: the same however the frame is turned in the world, and sound in
 * themselves.
 */
#include "solved_plan.h"

#include "support/dice.h"
#include "trivet/shop.h"

#include <math.h>
#include <stdlib.h>

/* m. Where an end is wider than the round tube it sits on, the saddle ends as a square root does:
 * rounding of 1e-16 becomes 1e-8 there. */
#define LENGTH_ALLOWED 1e-8

static trivet_cut_piece piece_of(const trivet_cuts *cuts, int32_t index)
{
    trivet_cut_piece piece = {.size = sizeof piece};
    ck_assert_int_eq(trivet_cuts_piece(cuts, index, &piece), TRIVET_OK);
    return piece;
}

static void agree_length(uint64_t seed, const char *what, double one, double other)
{
    ck_assert_msg(fabs(one - other) <= LENGTH_ALLOWED, "seed %llu: %s %.12g and %.12g",
                  (unsigned long long)seed, what, one, other);
}

static void check_piece(uint64_t seed, const trivet_cut_piece *piece)
{
    ck_assert_msg(piece->shortest > 0.0 && piece->shortest <= piece->length + 1e-12 &&
                      piece->length <= piece->longest + 1e-12,
                  "seed %llu: short %g, centre %g, long %g", (unsigned long long)seed,
                  piece->shortest, piece->length, piece->longest);
    for (int i = 0; i < 2; i++) {
        ck_assert(piece->ends[i].angle >= 0.0 && piece->ends[i].angle < 1.5707963267948966);
        ck_assert(piece->ends[i].cut != TRIVET_CUT_AS_RULED);
    }
}

/* 1 if both could be cut. */
static int compare(uint64_t seed, const trivet_frame *one, const trivet_frame *other)
{
    trivet_cuts *cuts[2] = {NULL, NULL};
    const trivet_status status = trivet_cuts_new(one, NULL, &cuts[0], NULL);
    ck_assert_int_eq(trivet_cuts_new(other, NULL, &cuts[1], NULL), status);
    ck_assert(status == TRIVET_OK || status == TRIVET_BAD_VALUE);
    ck_assert_int_eq(trivet_cuts_count(cuts[0]), trivet_cuts_count(cuts[1]));
    for (int32_t i = 0; i < trivet_cuts_count(cuts[0]); i++) {
        const trivet_cut_piece a = piece_of(cuts[0], i);
        const trivet_cut_piece b = piece_of(cuts[1], i);
        check_piece(seed, &a);
        agree_length(seed, "long", a.longest, b.longest);
        agree_length(seed, "short", a.shortest, b.shortest);
        agree_length(seed, "centre", a.length, b.length);
        for (int k = 0; k < 2; k++) {
            ck_assert_int_eq(a.ends[k].cut, b.ends[k].cut);
            ck_assert_int_eq(a.ends[k].onto, b.ends[k].onto);
            agree_length(seed, "angle", a.ends[k].angle, b.ends[k].angle);
        }
    }
    trivet_cuts_free(cuts[0]);
    trivet_cuts_free(cuts[1]);
    return status == TRIVET_OK;
}

START_TEST(turned_frame_gives_same_cuts)
{
    int cut = 0;
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        frame_plan *const plan = random_plan(seed, NULL);
        frame_plan *const turned = plan_copy(plan);
        dice d = dice_new(seed + 5000);
        double rotation[9];
        dice_rotation(&d, rotation);
        plan_rotate(turned, rotation);
        trivet_frame *const one = plan_build(plan);
        trivet_frame *const other = plan_build(turned);
        cut += compare(seed, one, other);
        trivet_frame_free(one);
        trivet_frame_free(other);
        free(plan);
        free(turned);
    }
    ck_assert_int_gt(cut, BATCH / 4);
}
END_TEST

int main(void)
{
    return RUN_INVARIANTS("same cuts", turned_frame_gives_same_cuts);
}
