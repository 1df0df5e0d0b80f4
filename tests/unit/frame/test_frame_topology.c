/*
 * The topology number: same for variants of the same frame, another for another frame.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/run.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static frame_plan *plan;
static uint64_t before;

static uint64_t number_of(const frame_plan *of)
{
    trivet_frame *const frame = plan_build(of);
    const uint64_t number = trivet__frame_topology(frame);
    trivet_frame_free(frame);
    return number;
}

/* A seed whose frame has what the tests below change; they check that it has. */
static void make(void)
{
    const random_options all = random_everything();
    for (uint64_t seed = 1;; seed++) {
        plan = random_plan(seed, &all);
        const plan_case *const first = &plan->cases[0];
        if (plan->cargo_count > 0 && plan->tubes[0].insert_count > 0 && plan->mount_count > 1 &&
            first->joint_force_count > 0 && first->cargo_force_count > 0 &&
            first->tube_force_count > 0 && first->line_count > 0) {
            break;
        }
        free(plan);
    }
    before = number_of(plan);
}

static void give_back(void)
{
    free(plan);
}

START_TEST(the_same_frame_gives_the_same_number)
{
    ck_assert_uint_eq(number_of(plan), before);
}
END_TEST

START_TEST(sizes_places_and_values_do_not_count)
{
    const double rotation[9] = {0.0, -1.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0};
    plan_rotate(plan, rotation);
    plan->tubes[0].roll += 0.5;
    plan->tubes[0].inserts[0].length *= 0.5;
    plan->stocks[0].material.E *= 2.0;
    plan->cases[0].gravity[0] += 1.0;
    plan->cases[0].warm += 10.0;
    plan->cases[0].joint_forces[0].force[0] += 1.0;
    plan->cases[0].lines[0].last[1] += 1.0;
    plan->cases[0].cargo_factors[0] += 1.0;
    plan->cargos[0].box += 1.0;
    plan->mounts[0].limit_pull = 100.0;
    plan->factors[0] += 1.0;
    ck_assert_uint_eq(number_of(plan), before);
}
END_TEST

START_TEST(stock_of_tubes_and_inserts_does_not_count)
{
    plan->tubes[0].stock = (plan->tubes[0].stock + 1) % plan->stock_count;
    plan->tubes[0].inserts[0].stock = plan->tubes[0].stock;
    ck_assert_uint_eq(number_of(plan), before);
}
END_TEST

START_TEST(tubes_count)
{
    plan_tube *const tube = &plan->tubes[0];
    const int first = tube->joints[0];
    tube->joints[0] = tube->joints[tube->joint_count - 1];
    tube->joints[tube->joint_count - 1] = first;
    ck_assert_uint_ne(number_of(plan), before);
}
END_TEST

START_TEST(free_ends_count)
{
    plan->tubes[0].free_first ^= TRIVET_RY;
    const uint64_t other = number_of(plan);
    ck_assert_uint_ne(other, before);
    plan->tubes[0].free_first ^= TRIVET_RY;
    plan->tubes[0].free_last ^= TRIVET_RY;
    ck_assert_uint_ne(number_of(plan), before);
    ck_assert_uint_ne(number_of(plan), other);
}
END_TEST

START_TEST(inserts_and_their_bond_count)
{
    plan->tubes[0].inserts[0].bond = 1 - plan->tubes[0].inserts[0].bond;
    ck_assert_uint_ne(number_of(plan), before);
    plan->tubes[0].inserts[0].bond = 1 - plan->tubes[0].inserts[0].bond;
    plan->tubes[0].insert_count = 0;
    ck_assert_uint_ne(number_of(plan), before);
}
END_TEST

START_TEST(what_mounts_hold_counts)
{
    trivet_mount *const mount = &plan->mounts[0];
    for (int i = 0; i < plan->case_count; i++) {
        memset(plan->cases[i].mount_moves, 0, sizeof plan->cases[i].mount_moves);
    }
    mount->held = TRIVET_ALL & ~TRIVET_RZ;
    const uint64_t loose = number_of(plan);
    ck_assert_uint_ne(loose, before);
    mount->spring[5] = 900.0;
    const uint64_t sprung = number_of(plan);
    ck_assert_uint_ne(sprung, loose);
    mount->spring[5] = 1800.0;
    ck_assert_uint_eq(number_of(plan), sprung);
    mount->held = TRIVET_ALL;
    mount->spring[5] = 0.0;
    plan->mount_count--;
    ck_assert_uint_ne(number_of(plan), before);
}
END_TEST

START_TEST(cargo_counts)
{
    plan->cargos[0].grip = 1 - plan->cargos[0].grip;
    ck_assert_uint_ne(number_of(plan), before);
    plan->cargos[0].grip = 1 - plan->cargos[0].grip;
    int *const joint = &plan->cargos[0].joints[0];
    const int kept = *joint;
    for (int other = 0; other < plan->joint_count; other++) {
        int is_free = 1;
        for (int k = 0; k < plan->cargos[0].joint_count; k++) {
            is_free = is_free && plan->cargos[0].joints[k] != other;
        }
        if (is_free) {
            *joint = other;
            ck_assert_uint_ne(number_of(plan), before);
            *joint = kept;
        }
    }
}
END_TEST

START_TEST(loads_and_what_they_act_on_count)
{
    plan_case *const first = &plan->cases[0];
    first->joint_forces[0].on = (first->joint_forces[0].on + 1) % plan->joint_count;
    ck_assert_uint_ne(number_of(plan), before);
    first->joint_forces[0].on =
        (first->joint_forces[0].on + plan->joint_count - 1) % plan->joint_count;
    ck_assert_uint_eq(number_of(plan), before);
    int *const counts[] = {&first->joint_force_count, &first->cargo_force_count,
                           &first->tube_force_count, &first->line_count};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        (*counts[i])--;
        ck_assert_uint_ne(number_of(plan), before);
        (*counts[i])++;
    }
    plan->has_combination = 0;
    ck_assert_uint_ne(number_of(plan), before);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(the_same_frame_gives_the_same_number, sizes_places_and_values_do_not_count,
              stock_of_tubes_and_inserts_does_not_count, tubes_count, free_ends_count,
              inserts_and_their_bond_count, what_mounts_hold_counts, cargo_counts,
              loads_and_what_they_act_on_count);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("frame_topology", tests);
}
