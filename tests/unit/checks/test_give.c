/*
 * Mounts that give as named, beside mounts that do not.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "trivet/checks.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { DIRECTIONS = 6, PARKED = 0 };

static const int32_t GIVES[] = {TRIVET_GIVE_RIGID, TRIVET_GIVE_CAST_LUG, TRIVET_GIVE_TUBE_LOOP,
                                TRIVET_GIVE_RUBBER};

enum { GIVE_COUNT = sizeof GIVES / sizeof GIVES[0] };

static trivet_frame *must_give(const trivet_frame *frame, int32_t give)
{
    trivet_frame *copy = NULL;
    trivet_message message;
    must(trivet_frame_with_give(frame, give, &copy, &message), &message);
    ck_assert_ptr_nonnull(copy);
    return copy;
}

static double droop_of(const trivet_frame *frame)
{
    double droop = (double)NAN;
    trivet_result *const result = must_solve(frame);
    ck_assert_int_eq(trivet_droop_worst(frame, result, PARKED, NULL, NULL, &droop), TRIVET_OK);
    trivet_result_free(result);
    return droop;
}

/* Both solve to the same numbers, to the bit: the equations are the same. */
static void solve_alike(const trivet_frame *one, const trivet_frame *other)
{
    int32_t cases = 0;
    int32_t joints = 0;
    trivet_result *const first = must_solve(one);
    trivet_result *const second = must_solve(other);
    const double *const moves = trivet_result_moves(first, &cases, &joints);
    const size_t count = (size_t)cases * (size_t)joints * DIRECTIONS;
    ck_assert_uint_gt(count, 0);
    ck_assert_mem_eq(moves, trivet_result_moves(second, NULL, NULL), count * sizeof *moves);
    trivet_result_free(first);
    trivet_result_free(second);
}

START_TEST(every_give_has_a_name_and_springs)
{
    static const char *const TEXTS[] = {"rigid", "cast lug", "bolted tube loop", "rubber"};
    double before[DIRECTIONS];
    for (int i = 0; i < GIVE_COUNT; i++) {
        double springs[DIRECTIONS];
        ck_assert_int_eq(GIVES[i], i); /* numbers never change */
        ck_assert_str_eq(trivet_give_text(GIVES[i]), TEXTS[i]);
        ck_assert_int_eq(trivet_give_springs(GIVES[i], springs), TRIVET_OK);
        for (int d = 0; d < DIRECTIONS; d++) {
            ck_assert(i == 0 ? isinf(springs[d]) && springs[d] > 0.0
                             : springs[d] > 0.0 && springs[d] < before[d]);
        }
        memcpy(before, springs, sizeof before);
    }
}
END_TEST

START_TEST(unknown_gives_are_refused)
{
    static const int32_t NONE[] = {-1, GIVE_COUNT, INT32_MAX, INT32_MIN};
    trivet_frame *const frame = rack_frame();
    for (size_t i = 0; i < sizeof NONE / sizeof NONE[0]; i++) {
        double springs[DIRECTIONS] = {0.0};
        trivet_frame *copy = frame;
        trivet_message message;
        ck_assert_ptr_null(trivet_give_text(NONE[i]));
        ck_assert_int_eq(trivet_give_springs(NONE[i], springs), TRIVET_BAD_VALUE);
        for (int d = 0; d < DIRECTIONS; d++) {
            ck_assert(isnan(springs[d]));
        }
        refused(trivet_frame_with_give(frame, NONE[i], &copy, &message), TRIVET_BAD_VALUE, &message,
                "give: is of no known kind; use one of trivet_give");
        ck_assert_ptr_null(copy);
    }
    trivet_frame_free(frame);
}
END_TEST

START_TEST(arguments_are_checked)
{
    trivet_frame *const frame = rack_frame();
    trivet_frame *copy = frame;
    ck_assert_int_eq(trivet_give_springs(TRIVET_GIVE_RUBBER, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_frame_with_give(NULL, TRIVET_GIVE_RUBBER, &copy, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_ptr_null(copy);
    ck_assert_int_eq(trivet_frame_with_give(frame, TRIVET_GIVE_RUBBER, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    trivet_frame_free(frame);
}
END_TEST

/* Springs of a tube loop in every direction that was held, none in the others. */
START_TEST(what_is_held_gives_and_the_rest_stays_free)
{
    trivet_frame *const frame = rack_frame();
    trivet_frame *const loop = must_give(frame, TRIVET_GIVE_TUBE_LOOP);
    double springs[DIRECTIONS];
    ck_assert_int_eq(trivet_give_springs(TRIVET_GIVE_TUBE_LOOP, springs), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_count(loop, TRIVET_KIND_MOUNT), 6);
    for (int32_t m = 0; m < 6; m++) {
        trivet_mount held = {.size = sizeof held};
        trivet_mount gives = {.size = sizeof gives};
        ck_assert_int_eq(trivet_frame_mount(frame, m, &held), TRIVET_OK);
        ck_assert_int_eq(trivet_frame_mount(loop, m, &gives), TRIVET_OK);
        ck_assert_int_eq(gives.joint, held.joint);
        ck_assert_uint_eq(gives.held, 0);
        for (uint32_t d = 0; d < DIRECTIONS; d++) {
            ck_assert(gives.spring[d] == (held.held & (1U << d) ? springs[d] : 0.0));
        }
    }
    /* the frame that was given is as it was */
    trivet_frame *const fresh = rack_frame();
    solve_alike(frame, fresh);
    trivet_frame_free(fresh);
    trivet_frame_free(loop);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(droop_grows_with_give)
{
    trivet_frame *const frame = rack_frame();
    double before = 0.0;
    for (int i = 0; i < GIVE_COUNT; i++) {
        trivet_frame *const copy = must_give(frame, GIVES[i]);
        const double droop = droop_of(copy);
        ck_assert_msg(droop > before, "%s: %g after %g", trivet_give_text(GIVES[i]), droop, before);
        before = droop;
        trivet_frame_free(copy);
    }
    trivet_frame_free(frame);
}
END_TEST

START_TEST(rigid_is_held)
{
    trivet_frame *const frame = rack_frame();
    trivet_frame *const rigid = must_give(frame, TRIVET_GIVE_RIGID);
    solve_alike(frame, rigid);
    for (int i = 1; i < GIVE_COUNT; i++) {
        trivet_frame *const sprung = must_give(frame, GIVES[i]);
        trivet_frame *const again = must_give(sprung, TRIVET_GIVE_RIGID);
        solve_alike(frame, again);
        trivet_frame_free(again);
        trivet_frame_free(sprung);
    }
    trivet_frame_free(rigid);
    trivet_frame_free(frame);
}
END_TEST

/* Springs in the file count like holds: the give replaces them, too. */
START_TEST(springs_of_the_frame_are_replaced)
{
    trivet_frame *const held = rack_frame();
    trivet_frame *const mixed = rack_frame();
    trivet_mount mount = {.size = sizeof mount};
    trivet_message message;
    ck_assert_int_eq(trivet_frame_mount(mixed, 0, &mount), TRIVET_OK);
    mount.held = TRIVET_POSITION | TRIVET_RX | TRIVET_RZ;
    mount.spring[4] = 123.0;
    must(trivet_frame_set_mount(mixed, 0, &mount, &message), &message);
    for (int i = 0; i < GIVE_COUNT; i++) {
        trivet_frame *const one = must_give(held, GIVES[i]);
        trivet_frame *const other = must_give(mixed, GIVES[i]);
        solve_alike(one, other);
        trivet_frame_free(one);
        trivet_frame_free(other);
    }
    trivet_frame_free(mixed);
    trivet_frame_free(held);
}
END_TEST

/* A mount pulled 1 mm up: with it the rack stands differently, and stays so on springs. */
START_TEST(moves_of_the_ground_stay)
{
    const double move[DIRECTIONS] = {0.0, 0.0, 0.001, 0.0, 0.0, 0.0};
    trivet_frame *const frame = rack_frame();
    trivet_frame *const plain = must_give(frame, TRIVET_GIVE_TUBE_LOOP);
    trivet_message message;
    must(trivet_frame_set_mount_move(frame, PARKED, 0, move, &message), &message);
    trivet_frame *const rigid = must_give(frame, TRIVET_GIVE_RIGID);
    trivet_frame *const loop = must_give(frame, TRIVET_GIVE_TUBE_LOOP);
    trivet_frame *const back = must_give(loop, TRIVET_GIVE_RIGID);
    must(trivet_frame_set_mount_move(plain, PARKED, 0, move, &message), &message);
    solve_alike(frame, rigid);
    solve_alike(frame, back);
    solve_alike(plain, loop);
    trivet_frame_free(back);
    trivet_frame_free(loop);
    trivet_frame_free(rigid);
    trivet_frame_free(plain);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("give",
                     TESTS(every_give_has_a_name_and_springs, unknown_gives_are_refused,
                           arguments_are_checked, what_is_held_gives_and_the_rest_stays_free,
                           droop_grows_with_give, rigid_is_held, springs_of_the_frame_are_replaced,
                           moves_of_the_ground_stay));
}
