/*
 * The give of mounts out of readings that the test makes itself, from frames whose springs it
 * knows.
 */
#include "support/dice.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/checks.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { READINGS_MAX = 8, TRIALS = 500, DIRECTIONS = 6 };

#define GRAVITY 9.80665 /* m/s^2, standard gravity: 3rd CGPM 1901 */
#define DIAL 2e-5       /* m: a dial gauge, how well it is read; our own choice */
#define RULER 2e-4      /* m: a steel rule; our own choice */
#define PI 3.14159265358979323846

enum { FL, RL, EL, FR, RR, ER }; /* joints of the shelf, in order */

/*
 * Two rails FL RL EL and FR RR ER, 250 mm a span, with a cross tube at the end; four mounts that
 * are clamped but for directions, in which they have springs of their own. No weight but a case
 * that nothing is read from.
 */
static trivet_frame *shelf(uint32_t directions, const double springs[DIRECTIONS])
{
    static const char *const NAMES[2][3] = {{"FL", "RL", "EL"}, {"FR", "RR", "ER"}};
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t stock = must_add_stock(frame, "rail", &profile);
    for (int side = 0; side < 2; side++) {
        int32_t joints[3];
        for (int i = 0; i < 3; i++) {
            joints[i] =
                must_add_joint(frame, NAMES[side][i], -0.25 * i, side == 0 ? 0.16 : -0.16, 0.0);
        }
        must_add_tube(frame, side == 0 ? "left rail" : "right rail", joints, 3, stock);
    }
    const int32_t back[] = {EL, ER};
    must_add_tube(frame, "back", back, 2, stock);
    const int32_t mounted[] = {FL, RL, FR, RR};
    for (int m = 0; m < 4; m++) {
        trivet_mount mount;
        trivet_message message;
        must(trivet_mount_defaults(&mount, sizeof mount), NULL);
        mount.joint = mounted[m];
        mount.held = (uint32_t)TRIVET_ALL & ~directions;
        for (uint32_t d = 0; d < DIRECTIONS; d++) {
            mount.spring[d] = directions & (1U << d) ? springs[d] : 0.0;
        }
        must(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
    }
    must_add_case(frame, "parked", 1.0);
    return frame;
}

/* How far a joint of the frame comes down under a mass alone. */
static double drop_of(const trivet_frame *frame, int32_t joint, double mass)
{
    trivet_frame *copy = NULL;
    trivet_message message;
    int32_t hung = -1;
    int32_t joints = 0;
    const double force[3] = {0.0, 0.0, -mass * GRAVITY};
    must(trivet_frame_copy(frame, &copy, &message), &message);
    must(trivet_frame_add_case(copy, "hung", NULL, &hung, &message), &message);
    must(trivet_frame_add_joint_force(copy, hung, joint, force, NULL, &message), &message);
    trivet_result *const result = must_solve(copy);
    const double *const moves = trivet_result_moves(result, NULL, &joints);
    const double drop = -moves[DIRECTIONS * (hung * joints + joint) + 2];
    trivet_result_free(result);
    trivet_frame_free(copy);
    return drop;
}

static trivet_reading reading_of(const trivet_frame *truth, int32_t joint, double mass)
{
    trivet_reading reading;
    ck_assert_int_eq(trivet_reading_defaults(&reading, sizeof reading), TRIVET_OK);
    reading.joint = joint;
    reading.mass = mass;
    reading.drop = drop_of(truth, joint, mass);
    return reading;
}

/* A clamped shelf: what the user thinks it is. */
static trivet_frame *stiff_shelf(void)
{
    return shelf(0, NULL);
}

static const double TRUE_SPRINGS[DIRECTIONS] = {0.0, 0.0, 1.5e6, 0.0, 3700.0, 0.0};

static trivet_frame *true_shelf(uint32_t directions)
{
    return shelf(directions, TRUE_SPRINGS);
}

static trivet_fitted no_fit(void)
{
    trivet_fitted fitted;
    ck_assert_int_eq(trivet_fitted_defaults(&fitted, sizeof fitted), TRIVET_OK);
    return fitted;
}

/* Fits and compares with the truth; the copy comes down as was read. */
static void recover(uint32_t directions, const trivet_reading *readings, int32_t count)
{
    trivet_frame *const frame = stiff_shelf();
    trivet_frame *copy = NULL;
    trivet_message message;
    trivet_fitted fitted = no_fit();
    must(trivet_give_fit(frame, readings, count, directions, &fitted, &copy, &message), &message);
    ck_assert_uint_eq(fitted.directions, directions);
    for (uint32_t d = 0; d < DIRECTIONS; d++) {
        if (directions & (1U << d)) {
            near_relative(fitted.spring[d], TRUE_SPRINGS[d], 1e-6); /* as was asked for */
            ck_assert(fitted.least[d] < TRUE_SPRINGS[d] && TRUE_SPRINGS[d] < fitted.most[d]);
        } else {
            ck_assert(fitted.spring[d] == 0.0 && fitted.least[d] == 0.0 && fitted.most[d] == 0.0);
        }
    }
    for (int32_t i = 0; i < count; i++) {
        near_relative(drop_of(copy, readings[i].joint, readings[i].mass), readings[i].drop, 1e-6);
    }
    ck_assert_int_eq(trivet_frame_count(copy, TRIVET_KIND_CASE),
                     trivet_frame_count(frame, TRIVET_KIND_CASE));
    trivet_frame_free(copy);
    trivet_frame_free(frame);
}

START_TEST(one_spring_comes_back)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    const trivet_reading readings[] = {reading_of(truth, EL, 20.0)};
    recover(TRIVET_RY, readings, 1);
    trivet_frame_free(truth);
}
END_TEST

START_TEST(two_springs_come_back)
{
    trivet_frame *const truth = true_shelf(TRIVET_Z | TRIVET_RY);
    const trivet_reading readings[] = {reading_of(truth, EL, 20.0), reading_of(truth, ER, 40.0),
                                       reading_of(truth, RL, 40.0), reading_of(truth, FR, 40.0)};
    recover(TRIVET_Z | TRIVET_RY, readings, 4);
    recover(TRIVET_Z | TRIVET_RY, readings, 3);
    trivet_frame_free(truth);
}
END_TEST

/* A frame that stands on springs already is fitted anew. */
START_TEST(springs_of_the_frame_are_replaced)
{
    const double wrong[DIRECTIONS] = {0.0, 0.0, 0.0, 0.0, 90.0, 0.0};
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    trivet_frame *const frame = shelf(TRIVET_RY, wrong);
    const trivet_reading reading = reading_of(truth, EL, 20.0);
    trivet_fitted fitted = no_fit();
    trivet_message message;
    must(trivet_give_fit(frame, &reading, 1, TRIVET_RY, &fitted, NULL, &message), &message);
    near_relative(fitted.spring[4], TRUE_SPRINGS[4], 1e-6);
    trivet_frame_free(frame);
    trivet_frame_free(truth);
}
END_TEST

/* One reading: the bounds are the springs with which the joint comes down by 1.96 within less or
 * more (the sum of squares then is 1.96 squared: any table of the normal distribution). */
START_TEST(bounds_of_one_reading_are_known)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    trivet_frame *const frame = stiff_shelf();
    trivet_reading reading = reading_of(truth, EL, 40.0);
    trivet_fitted fitted = no_fit();
    trivet_message message;
    reading.within = DIAL;
    must(trivet_give_fit(frame, &reading, 1, TRIVET_RY, &fitted, NULL, &message), &message);
    for (int i = 0; i < 2; i++) {
        const double bound[DIRECTIONS] = {[4] = i == 0 ? fitted.least[4] : fitted.most[4]};
        trivet_frame *const at = shelf(TRIVET_RY, bound);
        const double wanted = reading.drop + (i == 0 ? 1.0 : -1.0) * 1.959964 * reading.within;
        near_relative(drop_of(at, EL, 40.0), wanted, 1e-7); /* the digits of 1.959964 */
        trivet_frame_free(at);
    }
    trivet_frame_free(frame);
    trivet_frame_free(truth);
}
END_TEST

/* Far more comes down on no springs at all than one that is read within a tenth of it. */
START_TEST(a_loose_mount_may_be_among_the_bounds)
{
    const double soft[DIRECTIONS] = {[4] = 50.0};
    trivet_frame *const truth = shelf(TRIVET_RY, soft);
    trivet_frame *const frame = stiff_shelf();
    const trivet_reading reading = reading_of(truth, EL, 20.0);
    trivet_fitted fitted = no_fit();
    trivet_message message;
    must(trivet_give_fit(frame, &reading, 1, TRIVET_RY, &fitted, NULL, &message), &message);
    ck_assert(fitted.least[4] == 0.0);
    ck_assert(isfinite(fitted.most[4]) && fitted.most[4] > 50.0);
    trivet_frame_free(frame);
    trivet_frame_free(truth);
}
END_TEST

/* A stiff frame read so badly that its mounts may be rigid. */
START_TEST(a_rigid_mount_may_be_among_the_bounds)
{
    trivet_frame *const frame = stiff_shelf();
    trivet_reading reading = reading_of(frame, EL, 20.0);
    trivet_fitted fitted = no_fit();
    trivet_message message;
    reading.within = DIAL;
    reading.drop += 0.5 * DIAL;
    must(trivet_give_fit(frame, &reading, 1, TRIVET_RY, &fitted, NULL, &message), &message);
    ck_assert(isinf(fitted.most[4]) && fitted.most[4] > 0.0);
    ck_assert(fitted.least[4] > 0.0 && fitted.least[4] < fitted.spring[4]);
    trivet_frame_free(frame);
}
END_TEST

/* Box and Muller (1958), from memory: of two uniform numbers one that is normal. */
static double gauss(dice *d)
{
    const double radius = sqrt(-2.0 * log(1.0 - dice_between(d, 0.0, 1.0)));
    return radius * cos(2.0 * PI * dice_between(d, 0.0, 1.0));
}

/* Which joints hang what, and how well they are read. */
typedef struct trials {
    uint32_t directions;
    int32_t count;
    int32_t joints[READINGS_MAX];
    double masses[READINGS_MAX]; /* kg */
    double within;               /* m */
} trials;

/* Three readings at the end of the shelf. */
static trials at_the_end(double within)
{
    return (trials){TRIVET_RY, 3, {EL, ER, EL}, {20.0, 30.0, 40.0}, within};
}

/* How many of TRIALS fits cover the spring in direction d, from readings with noise. */
static int count_covered(const trivet_frame *truth, const trivet_frame *frame, const trials *of,
                         int d)
{
    trivet_reading exact[READINGS_MAX];
    trivet_mount mount = {.size = sizeof mount};
    dice rolled = dice_new(4);
    int covered = 0;
    ck_assert_int_eq(trivet_frame_mount(truth, 0, &mount), TRIVET_OK);
    for (int i = 0; i < of->count; i++) {
        exact[i] = reading_of(truth, of->joints[i], of->masses[i]);
        exact[i].within = of->within;
    }
    for (int trial = 0; trial < TRIALS; trial++) {
        trivet_reading readings[READINGS_MAX];
        trivet_fitted fitted = no_fit();
        for (int i = 0; i < of->count; i++) {
            readings[i] = exact[i];
            readings[i].drop += of->within * gauss(&rolled);
        }
        covered += trivet_give_fit(frame, readings, of->count, of->directions, &fitted, NULL,
                                   NULL) == TRIVET_OK &&
                   fitted.least[d] <= mount.spring[d] && mount.spring[d] <= fitted.most[d];
    }
    return covered;
}

/*
 * 95 % bounds cover the truth in 95 of 100 trials. Of 500 trials the share that does scatters by
 * sqrt(0.95 * 0.05 / 500) = 0.97 %; three times that below 95 % is 92.1 %, above it 97.9 %: bounds
 * that are too wide fail, too. Trials that are refused as contradictory count as not covered.
 */
static void cover(const trivet_frame *truth, const trivet_frame *frame, const trials *of, int d)
{
    const double scatter = sqrt(0.95 * 0.05 / TRIALS);
    const int covered = count_covered(truth, frame, of, d);
    ck_assert_msg(covered >= (0.95 - 3.0 * scatter) * TRIALS, "%d of %d", covered, TRIALS);
    ck_assert_msg(covered <= (0.95 + 3.0 * scatter) * TRIALS, "%d of %d", covered, TRIALS);
}

/* Without the front pair the springs alone keep the rails from tipping. */
START_TEST(bounds_cover_the_truth_on_one_pair)
{
    trivet_frame *const frames[] = {true_shelf(TRIVET_RY), stiff_shelf()};
    const trials of = at_the_end(RULER);
    for (int i = 0; i < 2; i++) {
        trivet_message message;
        must(trivet_frame_remove_mount(frames[i], 2, &message), &message);
        must(trivet_frame_remove_mount(frames[i], 0, &message), &message);
    }
    cover(frames[0], frames[1], &of, 4);
    trivet_frame_free(frames[1]);
    trivet_frame_free(frames[0]);
}
END_TEST

/* On two pairs the rails bend between pin and clamp, whatever the springs: far from linear. */
START_TEST(bounds_cover_the_truth_on_two_pairs)
{
    static const double SPRINGS[] = {300.0, 3700.0};
    static const double WITHIN[] = {RULER, DIAL};
    trivet_frame *const frame = stiff_shelf();
    for (int i = 0; i < 2; i++) {
        const double springs[DIRECTIONS] = {[4] = SPRINGS[i]};
        trivet_frame *const truth = shelf(TRIVET_RY, springs);
        for (int w = 0; w < 2; w++) {
            const trials of = at_the_end(WITHIN[w]);
            cover(truth, frame, &of, 4);
        }
        trivet_frame_free(truth);
    }
    trivet_frame_free(frame);
}
END_TEST

/* Each of two springs, the other fitted with it. */
START_TEST(bounds_cover_two_springs)
{
    trivet_frame *const truth = true_shelf(TRIVET_Z | TRIVET_RY);
    trivet_frame *const frame = stiff_shelf();
    const trials of = {TRIVET_Z | TRIVET_RY, 4, {EL, ER, RL, FR}, {20.0, 40.0, 40.0, 40.0}, DIAL};
    cover(truth, frame, &of, 2);
    cover(truth, frame, &of, 4);
    trivet_frame_free(frame);
    trivet_frame_free(truth);
}
END_TEST

/* What a fit in ry by these readings is refused with. */
static void refuse(const trivet_reading *readings, int32_t count, uint32_t directions,
                   trivet_status wanted, const char *thing, const char *problem)
{
    trivet_frame *const frame = stiff_shelf();
    trivet_frame *copy = frame;
    trivet_message message;
    trivet_fitted fitted = no_fit();
    trivet_fitted before;
    memcpy(&before, &fitted, sizeof before);
    const trivet_status got =
        trivet_give_fit(frame, readings, count, directions, &fitted, &copy, &message);
    ck_assert_msg(got == wanted, "status %d, wanted %d: %s", (int)got, (int)wanted, problem);
    ck_assert_int_eq(message.status, (int32_t)wanted);
    ck_assert_str_eq(message.thing, thing);
    ck_assert_msg(strstr(message.problem, problem) != NULL, "\"%s\" lacks \"%s\"", message.problem,
                  problem);
    ck_assert_int_ne(message.remedy[0], '\0');
    ck_assert_ptr_null(copy);
    ck_assert_mem_eq(&fitted, &before, sizeof before);
    trivet_frame_free(frame);
}

/* The same mass at the same joint, and the third time it came down ten times within more. */
START_TEST(readings_that_contradict_each_other_are_refused)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    trivet_reading readings[3];
    for (int i = 0; i < 3; i++) {
        readings[i] = reading_of(truth, EL, 20.0);
    }
    readings[2].drop += 10.0 * readings[2].within;
    refuse(readings, 3, TRIVET_RY, TRIVET_BAD_VALUE, "reading 3, at joint EL",
           "the readings contradict each other: ");
    readings[2] = readings[0]; /* two alone: by five times within each */
    readings[1].drop += 10.0 * readings[1].within;
    trivet_fitted fitted = no_fit();
    trivet_message message;
    trivet_frame *const frame = stiff_shelf();
    ck_assert_int_eq(trivet_give_fit(frame, readings, 2, TRIVET_RY, &fitted, NULL, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_msg(strcmp(message.thing, "reading 1, at joint EL") == 0 ||
                      strcmp(message.thing, "reading 2, at joint EL") == 0,
                  "%s", message.thing);
    trivet_frame_free(frame);
    trivet_frame_free(truth);
}
END_TEST

START_TEST(a_drop_smaller_than_the_frame_alone_is_refused)
{
    trivet_frame *const frame = stiff_shelf();
    trivet_reading readings[] = {reading_of(frame, EL, 40.0), reading_of(frame, ER, 40.0)};
    readings[1].drop *= 0.5;
    readings[1].within = 0.1 * readings[1].drop;
    refuse(readings, 2, TRIVET_RY, TRIVET_BAD_VALUE, "reading 2, at joint ER",
           "the frame alone comes down ");
    trivet_frame_free(frame);
}
END_TEST

START_TEST(more_unknowns_than_readings_are_refused)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    const trivet_reading readings[] = {reading_of(truth, EL, 20.0), reading_of(truth, ER, 20.0)};
    refuse(readings, 1, TRIVET_Z | TRIVET_RY, TRIVET_BAD_VALUE, "give of the mounts",
           "1 reading cannot tell 2 unknown springs");
    refuse(readings, 2, TRIVET_X | TRIVET_Z | TRIVET_RY, TRIVET_BAD_VALUE, "give of the mounts",
           "2 readings cannot tell 3 unknown springs");
    refuse(readings, 0, TRIVET_RY, TRIVET_BAD_VALUE, "give of the mounts",
           "0 readings cannot tell 1 unknown springs");
    refuse(readings, 2, 0, TRIVET_BAD_VALUE, "give of the mounts", "no direction is named");
    refuse(readings, 2, 64, TRIVET_BAD_VALUE, "give of the mounts", "no direction is named");
    trivet_frame_free(truth);
}
END_TEST

/* Twist about the vertical moves nothing down: the readings say nothing of it. */
START_TEST(what_no_reading_feels_is_refused)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    const trivet_reading readings[] = {reading_of(truth, EL, 20.0), reading_of(truth, ER, 20.0)};
    refuse(readings, 2, TRIVET_RY | TRIVET_RZ, TRIVET_BAD_VALUE, "give of the mounts",
           "no reading feels how the mounts give in rz");
    trivet_frame_free(truth);
}
END_TEST

/* The same reading twice cannot tell two springs. */
START_TEST(springs_that_cannot_be_told_apart_are_refused)
{
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    const trivet_reading readings[] = {reading_of(truth, EL, 20.0), reading_of(truth, EL, 20.0)};
    refuse(readings, 2, TRIVET_Z | TRIVET_RY, TRIVET_BAD_VALUE, "give of the mounts",
           "cannot tell its springs in z and ry apart");
    trivet_frame_free(truth);
}
END_TEST

START_TEST(readings_are_checked)
{
    static const double NOT_ABOVE_0[] = {(double)NAN, 0.0, -1.0, (double)INFINITY, -(double)NAN};
    trivet_frame *const truth = true_shelf(TRIVET_RY);
    trivet_reading good = reading_of(truth, EL, 20.0);
    good.within = DIAL;
    trivet_reading readings[2] = {good, good};
    for (size_t i = 0; i < sizeof NOT_ABOVE_0 / sizeof NOT_ABOVE_0[0]; i++) {
        readings[1] = good;
        readings[1].mass = NOT_ABOVE_0[i];
        refuse(readings, 2, TRIVET_RY, TRIVET_BAD_VALUE, "reading 2, at joint EL",
               "its mass is not above 0");
        readings[1] = good;
        readings[1].within = NOT_ABOVE_0[i];
        refuse(readings, 2, TRIVET_RY, TRIVET_BAD_VALUE, "reading 2, at joint EL",
               "how well it was read is not above 0");
        readings[1] = good;
        readings[1].drop = NOT_ABOVE_0[i];
        refuse(readings, 2, TRIVET_RY, TRIVET_BAD_VALUE, "reading 2, at joint EL",
               NOT_ABOVE_0[i] == 0.0 ? "the frame alone comes down " : "its drop is below 0");
    }
    static const int32_t NO_JOINTS[] = {-1, 6, INT32_MAX, INT32_MIN};
    for (size_t i = 0; i < sizeof NO_JOINTS / sizeof NO_JOINTS[0]; i++) {
        readings[1] = good;
        readings[1].joint = NO_JOINTS[i];
        refuse(readings, 2, TRIVET_RY, TRIVET_BAD_INDEX, "reading 2",
               "it is at no joint of the frame");
    }
    readings[1] = good;
    readings[1].size--;
    refuse(readings, 2, TRIVET_RY, TRIVET_BAD_SIZE, "reading", "its size is ");
    trivet_frame_free(truth);
}
END_TEST

START_TEST(arguments_are_checked)
{
    trivet_frame *const frame = stiff_shelf();
    trivet_frame *copy = frame;
    trivet_fitted fitted = no_fit();
    trivet_message message;
    const trivet_reading reading = reading_of(frame, EL, 20.0);
    defaults_take_own_size(trivet_reading, trivet_reading_defaults);
    defaults_take_own_size(trivet_fitted, trivet_fitted_defaults);
    ck_assert_int_eq(trivet_give_fit(NULL, &reading, 1, TRIVET_RY, &fitted, &copy, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_ptr_null(copy);
    ck_assert_int_eq(trivet_give_fit(frame, NULL, 1, TRIVET_RY, &fitted, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_give_fit(frame, &reading, 1, TRIVET_RY, NULL, NULL, NULL),
                     TRIVET_MISSING_ARGUMENT);
    fitted.size++;
    ck_assert_int_eq(trivet_give_fit(frame, &reading, 1, TRIVET_RY, &fitted, NULL, &message),
                     TRIVET_BAD_SIZE);
    names_both_sizes(&message, sizeof fitted + 1, sizeof fitted);
    trivet_reading fresh = {.size = 0};
    ck_assert_int_eq(trivet_reading_defaults(&fresh, sizeof fresh), TRIVET_OK);
    ck_assert_int_eq(fresh.joint, -1);
    ck_assert(fresh.within == 0.0002);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        one_spring_comes_back, two_springs_come_back, springs_of_the_frame_are_replaced,
        bounds_of_one_reading_are_known, a_loose_mount_may_be_among_the_bounds,
        a_rigid_mount_may_be_among_the_bounds, bounds_cover_the_truth_on_one_pair,
        bounds_cover_the_truth_on_two_pairs, bounds_cover_two_springs,
        readings_that_contradict_each_other_are_refused,
        a_drop_smaller_than_the_frame_alone_is_refused, more_unknowns_than_readings_are_refused,
        what_no_reading_feels_is_refused, springs_that_cannot_be_told_apart_are_refused,
        readings_are_checked, arguments_are_checked);
    tcase_set_timeout(tests, 300.0);
    return run_tests("give_fit", tests);
}
