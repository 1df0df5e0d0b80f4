/*
 * Usages solved on the rack with the cool box: in every case the mounts hold what the weight and
 * the added force ask for, in force and in moment, so that each force is as large as its story says
 * and acts where it should.
 *
 * Weight is taken from solved cases of 1 g along x, y and z; what it does in any case is their sum
 * in proportion.
 */
#include "frame/frame.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/frame_usage.h"

#include <stdio.h>
#include <string.h>

#define G 9.80665            /* m/s^2, ISO 80000-3 */
#define LIFT (0.5 * 180 * G) /* half of 80 + 100 kg */
#define FALL (180 * G)       /* twice the half, for the blow */
#define PERSON (75 * 1.5 * G)
#define SLOPE 0.714142842854285 /* sqrt(1 - 0.7^2) */
#define LEAN 1.4142135623730951 /* 1 / cos 45 degrees */

/* The rack's joints: x = 0, -120, -240, -420 mm, y = 160 and -160 mm, z = 0. */
#define BL                                                                                         \
    {                                                                                              \
        -0.24, 0.16, 0.0                                                                           \
    }
#define BR                                                                                         \
    {                                                                                              \
        -0.24, -0.16, 0.0                                                                          \
    }
#define RL                                                                                         \
    {                                                                                              \
        -0.42, 0.16, 0.0                                                                           \
    }
#define RR                                                                                         \
    {                                                                                              \
        -0.42, -0.16, 0.0                                                                          \
    }

static trivet_frame *frame;
static trivet_result *result;
static trivet_message message;

/* What each usage makes of the rack: gravity in multiples of g, one force at each of some places.
 */
typedef struct wanted_case {
    const char *name;
    double gravity[3];
    double force[3];
    int count;
    double at[4][3];
} wanted_case;

static const wanted_case WANTED[] = {
    {.name = "road, bump", .gravity = {0, 0, -3}},
    {.name = "road, rebound", .gravity = {0, 0, 1}},
    {.name = "road, braking", .gravity = {1, 0, -1}},
    {.name = "road, pulling away", .gravity = {-0.5, 0, -1}},
    {.name = "road, side left", .gravity = {0, 0.5, -1}},
    {.name = "road, side right", .gravity = {0, -0.5, -1}},
    {.name = "road, leaning in a corner", .gravity = {0, 0, -LEAN}},
    {.name = "rough track, bump", .gravity = {0, 0, -4}},
    {.name = "rough track, rebound", .gravity = {0, 0, 1}},
    {.name = "rough track, braking", .gravity = {1, 0, -1}},
    {.name = "rough track, pulling away", .gravity = {-0.5, 0, -1}},
    {.name = "rough track, side left", .gravity = {0, 0.5, -1}},
    {.name = "rough track, side right", .gravity = {0, -0.5, -1}},
    /* Over the box's centre, 350 mm above the mounts. */
    {"two-up, leaning back", {0, 0, -1}, {-400, 0, 0}, 1, {{-0.40, 0.0, 0.35}}},
    {"two-up, settling", {0, 0, -1}, {0, 0, -PERSON}, 1, {{-0.40, 0.0, 0.21}}},
    {"grab, holding on", {0, 0, -1}, {0, 0, 2000}, 1, {{-0.42, 0.0, 0.0}}}, /* the back tube */
    {"lifted, by its tail", {0, 0, -1}, {0, 0, LIFT / 2}, 2, {RL, RR}},
    {"standing, on RL", {0, 0, -1}, {0, 0, -PERSON}, 1, {RL}},
    {"standing, on RR", {0, 0, -1}, {0, 0, -PERSON}, 1, {RR}},
    {"fall, to the left", {0, 1, 0}, {0, -FALL, 0}, 1, {RL}},
    {"fall, to the right", {0, -1, 0}, {0, FALL, 0}, 1, {RR}},
    {"straps, pulled tight", {0, 0, -1}, {0, 0, -500}, 4, {BL, BR, RL, RR}},
    {.name = "misfit, FL"},
    {.name = "misfit, ML"},
    {.name = "misfit, BL"},
    {.name = "misfit, FR"},
    {.name = "misfit, MR"},
    {.name = "misfit, BR"},
    {.name = "trailer, bump", .gravity = {0, 0, -3}},
    {.name = "trailer, rebound", .gravity = {0, 0, 1}},
    {.name = "trailer, braking", .gravity = {0.8, 0, -1}},
    {.name = "trailer, pulling away", .gravity = {-0.5, 0, -1}},
    {.name = "trailer, side left", .gravity = {0, 0.5, -1}},
    {.name = "trailer, side right", .gravity = {0, -0.5, -1}},
    {.name = "quad bike, bump", .gravity = {0, 0, -4}},
    {.name = "quad bike, rebound", .gravity = {0, 0, 1}},
    {.name = "quad bike, downhill", .gravity = {0.7, 0, -SLOPE}},
    {.name = "quad bike, uphill", .gravity = {-0.7, 0, -SLOPE}},
    {.name = "quad bike, side left", .gravity = {0, 0.7, -1}},
    {.name = "quad bike, side right", .gravity = {0, -0.7, -1}},
    {.name = "stand, set down hard", .gravity = {0, 0, -1.5}},
    {"stand, leaned against", {0, 0, -1}, {0, 300, 0}, 1, {RL}},
};

enum { WANTED_COUNT = sizeof WANTED / sizeof WANTED[0], FIRST_UNIT = 2, FIRST_ADDED = 5 };

/* The rack on a vehicle with its own two cases, 1 g along x, y and z, and every usage. */
static void make(void)
{
    static const char *const units[] = {"along x", "along y", "along z"};
    trivet_vehicle vehicle;
    memset(&message, 0, sizeof message);
    frame = rack_frame();
    for (int i = 0; i < 3; i++) {
        double gravity[3] = {0.0, 0.0, 0.0};
        gravity[i] = 1.0;
        must(trivet_frame_add_case(frame, units[i], gravity, NULL, &message), &message);
    }
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.front_load = 80.0;
    vehicle.rear_load = 100.0;
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), &message);
    for (int32_t kind = TRIVET_USAGE_ROAD; kind <= TRIVET_USAGE_STAND; kind++) {
        trivet_usage usage;
        must(trivet_usage_of(&usage, sizeof usage, kind), &message);
        if (kind == TRIVET_USAGE_TWO_UP) {
            usage.height = 0.35;
        } else if (kind == TRIVET_USAGE_GRAB) {
            must(trivet_frame_find(frame, TRIVET_KIND_TUBE, "back", &usage.tube, &message),
                 &message);
        }
        must(trivet_frame_add_usage(frame, &usage, NULL, &message), &message);
    }
    result = must_solve(frame);
}

static void give_back(void)
{
    trivet_result_free(result);
    trivet_frame_free(frame);
}

/* Adds a force, and its moment about the origin, to a sum of six. */
static void add_force(const double force[3], const double at[3], double sum[6])
{
    for (int i = 0; i < 3; i++) {
        const int j = (i + 1) % 3;
        const int k = (i + 2) % 3;
        sum[i] += force[i];
        sum[3 + i] += at[j] * force[k] - at[k] * force[j];
    }
}

/* What all mounts do to the frame in a case: force, and moment about the origin. */
static void sum_reactions(int32_t in_case, double sum[6])
{
    int32_t cases = 0;
    int32_t mounts = 0;
    const double *const all = trivet_result_reactions(result, &cases, &mounts);
    ck_assert_int_lt(in_case, cases);
    ck_assert_int_eq(mounts, frame->mount_count);
    memset(sum, 0, 6 * sizeof *sum);
    for (int32_t m = 0; m < mounts; m++) {
        const double *const of = all + 6 * ((size_t)in_case * (size_t)mounts + (size_t)m);
        add_force(of, frame->joints[frame->mounts[m].joint].position, sum);
        for (int i = 3; i < 6; i++) {
            sum[i] += of[i];
        }
    }
}

/* What the mounts must do: against the weight in proportion, and against the added forces. */
static void sum_wanted(const wanted_case *wanted, double sum[6])
{
    memset(sum, 0, 6 * sizeof *sum);
    for (int32_t unit = 0; unit < 3; unit++) {
        double held[6];
        sum_reactions(FIRST_UNIT + unit, held);
        for (int i = 0; i < 6; i++) {
            sum[i] += wanted->gravity[unit] * held[i];
        }
    }
    for (int i = 0; i < wanted->count; i++) {
        const double against[3] = {-wanted->force[0], -wanted->force[1], -wanted->force[2]};
        add_force(against, wanted->at[i], sum);
    }
}

START_TEST(mounts_hold_the_weight_and_the_added_force)
{
    /* Forces of up to 2000 N, moments of up to 1000 N m; stiffness and rounding leave 1e-9. */
    const double rounding = 1e-9;
    const wanted_case *const wanted = &WANTED[_i];
    double got[6];
    double want[6];
    int32_t in_case = -1;
    must(trivet_frame_find(frame, TRIVET_KIND_CASE, wanted->name, &in_case, &message), &message);
    sum_reactions(in_case, got);
    sum_wanted(wanted, want);
    for (int i = 0; i < 6; i++) {
        near_scaled(got[i], want[i], rounding, 1000.0);
    }
}
END_TEST

/* The box alone weighs 14 kg: a sum that is always 0 would not do. */
START_TEST(weight_is_there_along_every_axis)
{
    double along[3];
    for (int32_t unit = 0; unit < 3; unit++) {
        double held[6];
        sum_reactions(FIRST_UNIT + unit, held);
        along[unit] = -held[unit];
        ck_assert_double_gt(along[unit], 14.0 * G);
    }
    near_relative(along[1], along[0], 1e-9);
    near_relative(along[2], along[0], 1e-9);
}
END_TEST

/* A mount that is pulled up by 1 mm pulls at others: nothing from outside, but something inside. */
START_TEST(a_misfit_loads_the_mounts_against_each_other)
{
    int32_t mounts = 0;
    const double *const all = trivet_result_reactions(result, NULL, &mounts);
    for (int32_t m = 0; m < mounts; m++) {
        char name[64];
        int32_t in_case = -1;
        snprintf(name, sizeof name, "misfit, %s", trivet_frame_name(frame, TRIVET_KIND_MOUNT, m));
        must(trivet_frame_find(frame, TRIVET_KIND_CASE, name, &in_case, &message), &message);
        const double *const of = all + 6 * ((size_t)in_case * (size_t)mounts + (size_t)m);
        ck_assert_double_gt(of[2], 1.0); /* N; the bolt pushes the frame up */
    }
}
END_TEST

/* Whether a name begins with a word and ", ". */
static int begins_with(const char *name, const char *word)
{
    const size_t length = strlen(word);
    return strncmp(name, word, length) == 0 && strncmp(name + length, ", ", 2) == 0;
}

START_TEST(names_begin_with_the_usage_and_every_case_is_one_of_these)
{
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CASE), FIRST_ADDED + WANTED_COUNT);
    for (int32_t i = FIRST_ADDED; i < FIRST_ADDED + WANTED_COUNT; i++) {
        const char *const name = trivet_frame_name(frame, TRIVET_KIND_CASE, i);
        const char *source = NULL;
        int found = 0;
        for (int32_t kind = TRIVET_USAGE_ROAD; kind <= TRIVET_USAGE_STAND; kind++) {
            found += begins_with(name, trivet_usage_text(kind));
        }
        ck_assert_msg(found == 1, "%s begins with the words of %d usages", name, found);
        ck_assert_str_ne(trivet_frame_case_story(frame, i, &source), "");
        ck_assert_str_ne(source, "");
    }
    ck_assert_ptr_null(trivet_frame_gap(frame, 0, NULL));
}
END_TEST

/* Refused the second time: cases, gaps and their names stay as they were. */
START_TEST(a_usage_with_a_gap_is_added_once_as_well)
{
    trivet_frame *const bare = rack_frame();
    trivet_usage usage;
    must(trivet_usage_of(&usage, sizeof usage, TRIVET_USAGE_TWO_UP), &message);
    must(trivet_frame_add_usage(bare, &usage, NULL, &message), &message);
    ck_assert_int_eq(trivet_frame_count(bare, TRIVET_KIND_CASE), 3);
    ck_assert_ptr_nonnull(trivet_frame_gap(bare, 0, NULL));
    usage.height = 0.35;
    int32_t count = 7;
    ck_assert_int_eq(trivet_frame_add_usage(bare, &usage, &count, &message), TRIVET_BAD_NAME);
    ck_assert_int_eq(count, 0);
    ck_assert_int_eq(trivet_frame_count(bare, TRIVET_KIND_CASE), 3);
    ck_assert_ptr_nonnull(trivet_frame_gap(bare, 0, NULL));
    ck_assert_ptr_null(trivet_frame_gap(bare, 1, NULL));
    trivet_frame_free(bare);
}
END_TEST

/* A case of that name is there: the gap that came first is taken back with the rest. */
START_TEST(a_taken_name_leaves_no_gap_behind)
{
    trivet_frame *const bare = rack_frame();
    trivet_usage usage;
    must_add_case(bare, "two-up, settling", 1.0);
    must(trivet_usage_of(&usage, sizeof usage, TRIVET_USAGE_TWO_UP), &message);
    ck_assert_int_eq(trivet_frame_add_usage(bare, &usage, NULL, &message), TRIVET_BAD_NAME);
    ck_assert_ptr_null(trivet_frame_gap(bare, 0, NULL));
    ck_assert_int_eq(trivet_frame_count(bare, TRIVET_KIND_CASE), 3);
    ck_assert(!trivet_frame_has_usage(bare, TRIVET_USAGE_TWO_UP));
    trivet_frame_free(bare);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(weight_is_there_along_every_axis, a_misfit_loads_the_mounts_against_each_other,
              names_begin_with_the_usage_and_every_case_is_one_of_these,
              a_usage_with_a_gap_is_added_once_as_well, a_taken_name_leaves_no_gap_behind);
    tcase_add_checked_fixture(tests, make, give_back);
    tcase_add_loop_test(tests, mounts_hold_the_weight_and_the_added_force, 0, WANTED_COUNT);
    return run_tests("usage_balance", tests);
}
