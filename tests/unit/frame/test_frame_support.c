/*
 * The tests' own frames: they can be planned, random ones come with everything, and changes of a
 * plan do what they say.
 */
#include "support/dice.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SEEDS = 300 };

static void must_validate(trivet_frame *frame, uint64_t seed)
{
    trivet_message message = {0};
    char text[512];
    const trivet_status status = trivet_frame_validate(frame, &message);
    trivet_message_text(&message, text, sizeof text);
    ck_assert_msg(status == TRIVET_OK, "seed %llu: %s", (unsigned long long)seed, text);
    trivet_frame_free(frame);
}

START_TEST(small_frames_can_be_planned)
{
    must_validate(cantilever_frame(0.5, -100.0), 0);
    must_validate(portal_frame(), 0);
    must_validate(rack_frame(), 0);
}
END_TEST

START_TEST(random_frames_can_be_planned)
{
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        must_validate(random_frame(seed, NULL), seed);
    }
}
END_TEST

START_TEST(the_same_seed_gives_the_same_frame)
{
    frame_plan *const one = random_plan(17, NULL);
    frame_plan *const same = random_plan(17, NULL);
    frame_plan *const other = random_plan(18, NULL);
    ck_assert_int_eq(one->joint_count, same->joint_count);
    ck_assert_mem_eq(one->joints, same->joints, sizeof one->joints);
    ck_assert_mem_eq(one->tubes, same->tubes, sizeof one->tubes);
    ck_assert_mem_eq(one->cases, same->cases, sizeof one->cases);
    ck_assert_mem_ne(one->joints, other->joints, sizeof one->joints);
    free(one);
    free(same);
    free(other);
}
END_TEST

/* How often things come up in many random frames. */
typedef struct tally {
    int through, upright, released, offset, inserts, more_mounts, springs, turned, stiff, soft;
    int gravity, joint_forces, cargo_forces, tube_forces, lines, tube_axes, moves, warm, angles;
} tally;

static void count_tubes(const frame_plan *plan, tally *of)
{
    for (int i = 0; i < plan->tube_count; i++) {
        const plan_tube *const tube = &plan->tubes[i];
        double a[3];
        double b[3];
        plan_tube_point(plan, i, 0, a);
        plan_tube_point(plan, i, tube->joint_count - 1, b);
        of->through += tube->joint_count == 3;
        of->upright += a[0] == b[0] && a[1] == b[1];
        of->released += tube->free_first != 0 || tube->free_last != 0;
        of->offset += tube->offsets[0][0] != 0.0;
        of->inserts += tube->insert_count;
        of->angles += plan->stocks[tube->stock].profile.shape == TRIVET_SHAPE_ANGLE;
    }
}

static void count_cases(const frame_plan *plan, tally *of)
{
    for (int i = 0; i < plan->case_count; i++) {
        const plan_case *const in = &plan->cases[i];
        of->gravity += in->gravity[0] != 0.0;
        of->warm += in->warm != 0.0;
        of->joint_forces += in->joint_force_count;
        of->cargo_forces += in->cargo_force_count;
        of->tube_forces += in->tube_force_count;
        of->lines += in->line_count;
        for (int k = 0; k < in->line_count; k++) {
            of->tube_axes += in->lines[k].axes == TRIVET_TUBE_AXES;
        }
        for (int k = 0; k < 6 * plan->mount_count; k++) {
            of->moves += in->mount_moves[k / 6][k % 6] != 0.0;
        }
    }
}

static void count_things(const frame_plan *plan, tally *of)
{
    count_tubes(plan, of);
    count_cases(plan, of);
    of->more_mounts += plan->mount_count > 1;
    for (int i = 0; i < plan->mount_count; i++) {
        of->turned += plan->mounts[i].axes[0] != 1.0;
        for (int k = 0; k < 6; k++) {
            of->springs += plan->mounts[i].spring[k] > 0.0;
        }
    }
    for (int i = 0; i < plan->cargo_count; i++) {
        of->stiff += plan->cargos[i].grip == TRIVET_GRIP_STIFF;
        of->soft += plan->cargos[i].grip == TRIVET_GRIP_SOFT;
    }
}

START_TEST(everything_comes_up)
{
    tally all;
    int counts[sizeof all / sizeof(int)];
    memset(&all, 0, sizeof all);
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        frame_plan *const plan = random_plan(seed, NULL);
        ck_assert_int_ge(plan->joint_count, 4);
        ck_assert_int_le(plan->joint_count, 14);
        ck_assert_int_ge(plan->case_count, 2);
        count_things(plan, &all);
        free(plan);
    }
    memcpy(counts, &all, sizeof all);
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        ck_assert_msg(counts[i] >= SEEDS / 20, "member %zu came up %d times", i, counts[i]);
    }
}
END_TEST

START_TEST(nothing_comes_up_that_is_switched_off)
{
    const random_options none = {.joint_forces = true};
    tally all;
    memset(&all, 0, sizeof all);
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        frame_plan *const plan = random_plan(seed, &none);
        count_things(plan, &all);
        ck_assert_int_eq(plan->tube_count, plan->joint_count - 1);
        ck_assert_int_eq(plan->has_combination, 0);
        for (int i = 0; i < plan->tube_count; i++) {
            ck_assert_double_eq(plan->tubes[i].roll, 0.0);
        }
        must_validate(plan_build(plan), seed);
        free(plan);
    }
    const int upright = all.upright;
    const int joint_forces = all.joint_forces;
    ck_assert_int_gt(upright, 0);
    ck_assert_int_gt(joint_forces, 0);
    all.upright = all.joint_forces = 0;
    const tally zero = {0};
    ck_assert_mem_eq(&all, &zero, sizeof all);
}
END_TEST

/* Axes written down by hand from design section 5. */
START_TEST(section_axes_follow_the_rule)
{
    static const double first[3] = {0.1, 0.2, 0.3};
    static const struct {
        double along[3];
        double roll;
        double axes[9];
    } rows[] = {
        {{2.0, 0.0, 0.0}, 0.0, {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0}},
        {{-2.0, 0.0, 0.0}, 0.0, {-1.0, 0.0, 0.0, 0.0, -1.0, 0.0, 0.0, 0.0, 1.0}},
        {{0.0, 3.0, 0.0}, 0.0, {0.0, 1.0, 0.0, -1.0, 0.0, 0.0, 0.0, 0.0, 1.0}},
        {{0.0, 0.0, 1.0}, 0.0, {0.0, 0.0, 1.0, 0.0, -1.0, 0.0, 1.0, 0.0, 0.0}},
        {{0.0, 0.0, -1.0}, 0.0, {0.0, 0.0, -1.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0}},
        {{3.0, 0.0, 4.0}, 0.0, {0.6, 0.0, 0.8, 0.0, 1.0, 0.0, -0.8, 0.0, 0.6}},
        /* A quarter turn about x, right-handed: y goes to where z was, z to -y. */
        {{2.0, 0.0, 0.0}, 0.5, {1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, -1.0, 0.0}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const double last[3] = {first[0] + rows[i].along[0], first[1] + rows[i].along[1],
                                first[2] + rows[i].along[2]};
        double axes[9];
        plan_section_axes(first, last, rows[i].roll * acos(-1.0), axes);
        for (int k = 0; k < 9; k++) {
            near_scaled(axes[k], rows[i].axes[k], 1e-14, 1.0);
        }
    }
}
END_TEST

START_TEST(rotations_are_rotations)
{
    dice d = dice_new(5);
    for (int n = 0; n < 100; n++) {
        double r[9];
        dice_rotation(&d, r);
        for (int i = 0; i < 3; i++) {
            for (int k = 0; k < 3; k++) {
                const double product =
                    r[3 * i] * r[3 * k] + r[3 * i + 1] * r[3 * k + 1] + r[3 * i + 2] * r[3 * k + 2];
                near_scaled(product, i == k ? 1.0 : 0.0, 1e-14, 1.0);
            }
        }
        near_scaled(r[0] * (r[4] * r[8] - r[5] * r[7]) - r[1] * (r[3] * r[8] - r[5] * r[6]) +
                        r[2] * (r[3] * r[7] - r[4] * r[6]),
                    1.0, 1e-14, 1.0);
    }
}
END_TEST

START_TEST(a_rotated_frame_keeps_its_sections_in_place)
{
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        frame_plan *const plan = random_plan(seed, NULL);
        frame_plan *const turned = plan_copy(plan);
        dice d = dice_new(seed + 1000);
        double rotation[9];
        dice_rotation(&d, rotation);
        plan_rotate(turned, rotation);
        for (int i = 0; i < plan->tube_count; i++) {
            const int last = plan->tubes[i].joint_count - 1;
            double ends[4][3];
            double axes[9];
            double axes_turned[9];
            plan_tube_point(plan, i, 0, ends[0]);
            plan_tube_point(plan, i, last, ends[1]);
            plan_tube_point(turned, i, 0, ends[2]);
            plan_tube_point(turned, i, last, ends[3]);
            plan_section_axes(ends[0], ends[1], plan->tubes[i].roll, axes);
            plan_section_axes(ends[2], ends[3], turned->tubes[i].roll, axes_turned);
            for (int k = 0; k < 9; k++) {
                const double *const axis = axes + 3 * (k / 3);
                const double *const row = rotation + 3 * (k % 3);
                near_scaled(axes_turned[k], row[0] * axis[0] + row[1] * axis[1] + row[2] * axis[2],
                            1e-11, 1.0);
            }
        }
        must_validate(plan_build(turned), seed);
        free(plan);
        free(turned);
    }
}
END_TEST

static int find_joint(const frame_plan *plan, const char *name)
{
    for (int i = 0; i < plan->joint_count; i++) {
        if (strcmp(plan->joints[i].name, name) == 0) {
            return i;
        }
    }
    ck_abort_msg("no joint %s", name);
    return -1;
}

static int find_tube(const frame_plan *plan, const char *name)
{
    for (int i = 0; i < plan->tube_count; i++) {
        if (strcmp(plan->tubes[i].name, name) == 0) {
            return i;
        }
    }
    ck_abort_msg("no tube %s", name);
    return -1;
}

START_TEST(a_renumbered_frame_is_the_same_by_its_names)
{
    int moved = 0;
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        frame_plan *const plan = random_plan(seed, NULL);
        frame_plan *const other = plan_copy(plan);
        plan_renumber(other, seed + 1);
        for (int i = 0; i < plan->joint_count; i++) {
            const int there = find_joint(other, plan->joints[i].name);
            moved += there != i;
            ck_assert_mem_eq(&plan->joints[i], &other->joints[there], sizeof plan->joints[i]);
        }
        for (int i = 0; i < plan->tube_count; i++) {
            const plan_tube *const tube = &plan->tubes[i];
            const plan_tube *const same = &other->tubes[find_tube(other, tube->name)];
            ck_assert_double_eq(tube->roll, same->roll);
            ck_assert_mem_eq(tube->offsets, same->offsets, sizeof tube->offsets);
            ck_assert_str_eq(plan->stocks[tube->stock].name, other->stocks[same->stock].name);
            for (int k = 0; k < tube->joint_count; k++) {
                ck_assert_str_eq(plan->joints[tube->joints[k]].name,
                                 other->joints[same->joints[k]].name);
            }
        }
        for (int i = 0; i < plan->case_count; i++) {
            for (int k = 0; k < plan->cases[i].line_count; k++) {
                ck_assert_str_eq(plan->tubes[plan->cases[i].lines[k].tube].name,
                                 other->tubes[other->cases[i].lines[k].tube].name);
            }
        }
        must_validate(plan_build(other), seed);
        free(plan);
        free(other);
    }
    ck_assert_int_gt(moved, SEEDS);
}
END_TEST

START_TEST(a_split_frame_has_more_joints_and_the_same_tubes)
{
    int more = 0;
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        frame_plan *const plan = random_plan(seed, NULL);
        frame_plan *const split = plan_copy(plan);
        plan_split(split, seed + 1);
        more += split->joint_count - plan->joint_count;
        ck_assert_int_eq(split->tube_count, plan->tube_count);
        for (int i = 0; i < plan->tube_count; i++) {
            near_relative(plan_tube_length(split, i), plan_tube_length(plan, i), 1e-15);
            for (int k = 0; k < plan->tubes[i].insert_count; k++) {
                const plan_insert *const insert = &plan->tubes[i].inserts[k];
                const plan_insert *const same = &split->tubes[i].inserts[k];
                ck_assert_int_eq(plan->tubes[i].joints[insert->position],
                                 split->tubes[i].joints[same->position]);
            }
        }
        must_validate(plan_build(split), seed);
        free(plan);
        free(split);
    }
    ck_assert_int_gt(more, 5 * SEEDS);
}
END_TEST

int main(void)
{
    return run_tests("frame_support",
                     TESTS(small_frames_can_be_planned, random_frames_can_be_planned,
                           the_same_seed_gives_the_same_frame, everything_comes_up,
                           nothing_comes_up_that_is_switched_off, section_axes_follow_the_rule,
                           rotations_are_rotations, a_rotated_frame_keeps_its_sections_in_place,
                           a_renumbered_frame_is_the_same_by_its_names,
                           a_split_frame_has_more_joints_and_the_same_tubes));
}
