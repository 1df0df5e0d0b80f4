/*
 * The quick search for the worst place of a weld against the plain one, which looks everywhere: the
 * same force, bit for bit. And the use that is quickly told, and that which leaves a weld out, are
 * on the right side of it.
 */
#include "checks/bounds.h"
#include "checks/check_weld.h"

#include "support/dice.h"
#include "support/frames.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { ROUNDS = 20, BATCH = 500 };

static trivet_profile random_profile(dice *d)
{
    trivet_profile profile;
    switch (dice_below(d, 4)) {
    case 0:
        profile = round_tube(dice_between(d, 0.01, 0.06), 0.001);
        break;
    case 1:
        profile = angle_bar(dice_between(d, 0.02, 0.05), dice_between(d, 0.02, 0.05), 0.003);
        break;
    default:
        profile = square_tube(dice_between(d, 0.015, 0.06), dice_between(d, 0.001, 0.0025));
        break;
    }
    if (profile.shape == TRIVET_SHAPE_SQUARE_TUBE && dice_chance(d, 0.4)) {
        profile.shape = TRIVET_SHAPE_RECTANGULAR_TUBE;
        profile.height = profile.width * dice_between(d, 1.0, 2.0);
    }
    return profile;
}

static void fill_line(dice *d, trivet__weld_end *end)
{
    const trivet_profile profile = random_profile(d);
    trivet_section section;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_OK);
    trivet__weld_line_start(&end->line);
    const uint32_t sides = dice_chance(d, 0.7) ? (uint32_t)TRIVET_SIDES_ALL
                                               : (uint32_t)(1 + dice_below(d, TRIVET_SIDES_ALL));
    ck_assert_int_eq(trivet__weld_outline(&profile, &section, sides, &end->line), 1);
    if (dice_chance(d, 0.2)) {
        const double lean = dice_between(d, -3.0, 3.0);
        end->line.cosine = dice_between(d, 0.1, 0.9);
        end->line.lean[0] = cos(lean);
        end->line.lean[1] = sin(lean);
    }
    end->line.thickness = end->strength.throat;
    end->line.run = dice_between(d, 0.5, 1.0);
    if (dice_chance(d, 0.1)) {
        end->line.spot_count = 1 + dice_below(d, 5);
    }
    trivet__weld_line_solve(&end->line);
}

/* At times one force alone, or hardly anything beside it: then many places are used nearly alike.
 */
static trivet__weld_load random_load(dice *d, const trivet__weld_line *line)
{
    double forces[6];
    trivet__weld_load load;
    for (int i = 0; i < 6; i++) {
        forces[i] = dice_between(d, -1.0, 1.0) * (i < 3 ? 1000.0 : 40.0);
        forces[i] *= dice_chance(d, 0.4) ? 0.0 : dice_chance(d, 0.3) ? 1e-6 : 1.0;
    }
    trivet__weld_load_find(line, forces, &load);
    return load;
}

static trivet__weld_strength random_strength(dice *d)
{
    trivet__weld_strength strength = {.rule = dice_below(d, 3), .loads = 1.5, .beta = 0.8};
    strength.has_direction = dice_below(d, 2);
    strength.parent = 360e6;
    strength.filler = dice_chance(d, 0.5) ? 420e6 : (double)NAN;
    strength.wall = 0.003;
    strength.throat = dice_between(d, 0.001, 0.003);
    strength.spot = 0.005;
    return strength;
}

static double use_of(const void *with, const trivet__weld_force *force)
{
    const trivet__weld_strength *const strength = with;
    return trivet__weld_demand(strength, force) / trivet__weld_limit(strength, force);
}

static void compare(uint64_t seed, trivet__weld_kept *kept, const trivet__weld_load *load)
{
    const trivet__weld_strength *const strength = &kept->end.strength;
    trivet__weld_force plain;
    trivet__weld_force quick;
    const double most = trivet__weld_worst(&kept->end.line, load, use_of, strength, &plain);
    if (!trivet__weld_most_used(kept, load, 0.0, &quick) ||
        memcmp(&plain, &quick, sizeof plain) != 0) {
        ck_abort_msg("seed %llu: other bits: used %.17g and %.17g at %g %g and %g %g",
                     (unsigned long long)seed, most, use_of(strength, &quick), plain.y, plain.z,
                     quick.y, quick.z);
    }
    ck_assert(trivet__weld_some_use(kept, load) <= most * TRIVET__BOUND_MARGIN);
    const double shares[] = {0.5, 0.999, 1.0, 1.001, 1.5};
    for (int i = 0; i < 5; i++) {
        const double least = shares[i] * most;
        const int is_found = trivet__weld_most_used(kept, load, least, &quick);
        if (is_found ? least <= most && memcmp(&plain, &quick, sizeof plain) != 0 : most >= least) {
            ck_abort_msg("seed %llu: %.17g used, %.17g wanted: %s", (unsigned long long)seed, most,
                         least, is_found ? "other bits" : "left out");
        }
    }
}

START_TEST(quick_search_gives_the_bits_of_the_plain_one)
{
    trivet__weld_kept *const kept = calloc(1, sizeof *kept);
    ck_assert_ptr_nonnull(kept);
    for (uint64_t seed = 1 + (uint64_t)_i * BATCH; seed <= ((uint64_t)_i + 1) * BATCH; seed++) {
        dice d = dice_new(seed);
        kept->end.strength = random_strength(&d);
        kept->has_ends = 0;
        kept->has_samples = 0;
        fill_line(&d, &kept->end);
        for (int i = 0; i < 5; i++) {
            const trivet__weld_load load = random_load(&d, &kept->end.line);
            compare(seed, kept, &load);
        }
    }
    free(kept);
}
END_TEST

/* What is no number, or too large to square, is left to the plain search. */
START_TEST(no_numbers_are_left_to_the_plain_search)
{
    trivet__weld_kept *const kept = calloc(1, sizeof *kept);
    ck_assert_ptr_nonnull(kept);
    dice d = dice_new(7);
    kept->end.strength = random_strength(&d);
    kept->end.strength.rule = TRIVET_WELDS_DIRECTIONAL;
    fill_line(&d, &kept->end);
    const double values[] = {(double)NAN, HUGE_VAL, 1e300};
    for (int i = 0; i < 3; i++) {
        trivet__weld_load load = random_load(&d, &kept->end.line);
        trivet__weld_force plain;
        trivet__weld_force quick;
        load.My = values[i];
        trivet__weld_worst(&kept->end.line, &load, use_of, &kept->end.strength, &plain);
        ck_assert_int_eq(trivet__weld_most_used(kept, &load, 0.0, &quick), 1);
        ck_assert(memcmp(&plain, &quick, sizeof plain) == 0);
    }
    free(kept);
}
END_TEST

int main(void)
{
    Suite *const suite = suite_create("search along welds");
    TCase *const random = tcase_create("random welds");
    tcase_add_loop_test(random, quick_search_gives_the_bits_of_the_plain_one, 0, ROUNDS);
    suite_add_tcase(suite, random);
    suite_add_tcase(suite, TESTS(no_numbers_are_left_to_the_plain_search));
    return run_suite(suite);
}
