/*
 * Whether a frame can be planned: each thing that is missing or does not fit, by its words.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"

#include <math.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

/* Joints A, B, C at 0, 600 and 1000 mm along x; a tube "arm" through them; A clamped; "weight". */
static void make(void)
{
    static const char *const names[] = {"A", "B", "C"};
    static const double along[] = {0.0, 0.6, 1.0};
    const int32_t through[] = {0, 1, 2};
    const trivet_profile profile = square_tube(0.020, 0.002);
    memset(&message, 0, sizeof message);
    frame = must_new_frame();
    for (int i = 0; i < 3; i++) {
        must_add_joint(frame, names[i], along[i], 0.0, 0.0);
    }
    must_add_tube(frame, "arm", through, 3, must_add_stock(frame, "tube", &profile));
    must_add_mount(frame, 0, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static void says(trivet_status status, const char *text)
{
    refused(trivet_frame_validate(frame, &message), status, &message, text);
    ck_assert_int_eq(trivet_frame_validate(frame, NULL), status);
}

static void holds(void)
{
    must(trivet_frame_validate(frame, &message), &message);
}

static void place(int32_t joint, double x, double y, double z)
{
    const double position[3] = {x, y, z};
    must(trivet_frame_set_position(frame, joint, position, &message), &message);
}

static void insert(int32_t joint, double length)
{
    must(trivet_frame_add_insert(frame, 0, joint, length, 0, TRIVET_SIDE_BY_SIDE, &message),
         &message);
}

START_TEST(a_good_frame_is_let_through)
{
    holds();
    refused(trivet_frame_validate(NULL, &message), TRIVET_MISSING_ARGUMENT, &message,
            "frame: is NULL; hand in a pointer to it");
}
END_TEST

START_TEST(a_frame_needs_tube_mount_and_case)
{
    trivet_frame *const whole = frame;
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t ends[] = {0, 1};
    frame = must_new_frame();
    says(TRIVET_INCOMPLETE, "frame: there is no tube in it; add at least one tube");
    must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(frame, "B", 1.0, 0.0, 0.0);
    must_add_tube(frame, "arm", ends, 2, must_add_stock(frame, "tube", &profile));
    says(TRIVET_INCOMPLETE,
         "frame: there is no mount, so nothing holds it; add a mount where it is fastened");
    must_add_mount(frame, 0, TRIVET_ALL);
    says(TRIVET_INCOMPLETE, "frame: there is no case, so nothing loads it; add a case, for "
                            "instance gravity straight down");
    trivet_frame_free(whole);
}
END_TEST

START_TEST(a_joint_must_be_met_by_a_tube)
{
    int32_t joint = -1;
    const double position[3] = {0.0, 1.0, 0.0};
    must(trivet_frame_add_joint(frame, "X", position, &joint, &message), &message);
    says(TRIVET_INCOMPLETE, "joint X: no tube meets it; run a tube through it, or leave it out");
    must(
        trivet_frame_add_cargo(frame, "bag", position, &joint, 1, TRIVET_GRIP_SOFT, NULL, &message),
        &message);
    says(TRIVET_INCOMPLETE, "cargo bag: it rests on joint X, which no tube meets; run a tube "
                            "through that joint, or leave it out");
    must_add_mount(frame, joint, TRIVET_ALL);
    says(TRIVET_INCOMPLETE, "mount X: it is on a joint that no tube meets; run a tube through it, "
                            "or leave it out");
    const int32_t ends[] = {0, joint};
    must(trivet_frame_add_tube(frame, "side", ends, 2, 0, 0.0, NULL, &message), &message);
    holds();
}
END_TEST

START_TEST(a_span_must_have_a_length)
{
    place(1, 0.0, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: it has no length between joints A and B; move one of the "
                           "two, or leave it out");
    place(1, 1.0 + 1e-9, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: it has no length between joints B and C; move one of the "
                           "two, or leave it out");
    place(1, 0.5, 0.0, 0.0);
    place(2, 0.0, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: it has no length between joints A and C; move one of the "
                           "two, or leave it out");
}
END_TEST

START_TEST(offsets_can_take_a_length_away_or_give_it)
{
    const double back[3] = {-0.6, 0.0, 0.0};
    must(trivet_frame_set_offset(frame, 0, 1, back, &message), &message);
    says(TRIVET_BAD_VALUE, "tube arm: it has no length between joints A and B; move one of the "
                           "two, or leave it out");
    place(1, 0.9, 0.0, 0.0);
    holds();
}
END_TEST

START_TEST(a_tube_must_be_straight_to_a_thousandth)
{
    place(1, 0.6, 0.0, 0.0009);
    holds();
    /* The arm is 1 m long: 1.1 mm is just too much. */
    place(1, 0.6, 0.0, 0.0011);
    says(TRIVET_BAD_VALUE, "tube arm: joint B stands 1.1 mm off the line from A to C; move the "
                           "joint onto the line, or make two tubes of it");
    place(1, 0.6, 0.0, -0.0121);
    says(TRIVET_BAD_VALUE, "tube arm: joint B stands 12.1 mm off the line from A to C; move the "
                           "joint onto the line, or make two tubes of it");
    const double mended[3] = {0.0, 0.0, 0.0121};
    must(trivet_frame_set_offset(frame, 0, 1, mended, &message), &message);
    holds();
}
END_TEST

START_TEST(joints_must_stand_in_order)
{
    place(1, -0.2, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: joint B does not come after joint A along it; name its "
                           "joints in the order in which they stand");
    place(1, 1.2, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: joint C does not come after joint B along it; name its "
                           "joints in the order in which they stand");
}
END_TEST

START_TEST(an_insert_must_fit_into_its_tube)
{
    insert(0, 1.001);
    says(TRIVET_BAD_VALUE, "tube arm: the insert at joint A is 1001 mm long, the tube only 1000 "
                           "mm; make the insert shorter");
    place(2, 1.001, 0.0, 0.0);
    holds();
}
END_TEST

START_TEST(an_insert_in_the_middle_must_not_reach_beyond_the_ends)
{
    insert(1, 0.9);
    says(TRIVET_BAD_VALUE, "tube arm: the insert at joint B reaches 50 mm beyond the tube's end; "
                           "make the insert shorter");
    place(1, 0.4, 0.0, 0.0);
    says(TRIVET_BAD_VALUE, "tube arm: the insert at joint B reaches 50 mm beyond the tube's end; "
                           "make the insert shorter");
    place(1, 0.5, 0.0, 0.0);
    holds();
}
END_TEST

START_TEST(inserts_must_not_overlap)
{
    insert(0, 0.3);
    insert(1, 0.5);
    insert(2, 0.2);
    /* 0 to 300, 350 to 850, 800 to 1000 mm. */
    says(TRIVET_BAD_VALUE, "tube arm: the inserts at joints B and C overlap by 50 mm; make one of "
                           "them shorter, or one insert of the two");
    place(1, 0.5, 0.0, 0.0);
    /* The middle one now fills 250 to 750 mm. */
    says(TRIVET_BAD_VALUE, "tube arm: the inserts at joints A and B overlap by 50 mm; make one of "
                           "them shorter, or one insert of the two");
    place(1, 0.55, 0.0, 0.0);
    holds();
}
END_TEST

START_TEST(a_force_must_act_on_its_tube)
{
    const double force[3] = {0.0, 0.0, -10.0};
    must(trivet_frame_add_tube_force(frame, 0, 0, 1.0, force, NULL, 0, &message), &message);
    holds();
    must(trivet_frame_add_tube_force(frame, 0, 0, 1.0 + 1e-12, force, NULL, 0, &message), &message);
    holds();
    must(trivet_frame_add_tube_force(frame, 0, 0, 1.01, force, NULL, 0, &message), &message);
    says(TRIVET_BAD_VALUE, "case weight, tube arm: a force acts at 1010 mm, the tube is only 1000 "
                           "mm long; keep it on the tube");
}
END_TEST

START_TEST(a_line_load_must_end_on_its_tube)
{
    const double line[3] = {0.0, 0.0, -10.0};
    must(trivet_frame_add_tube_line(frame, 0, 0, 0.5, 1.0, line, line, 0, &message), &message);
    must(trivet_frame_add_tube_line(frame, 0, 0, 0.5, (double)NAN, line, line, 0, &message),
         &message);
    holds();
    must(trivet_frame_add_tube_line(frame, 0, 0, 0.5, 1.25, line, line, 0, &message), &message);
    says(TRIVET_BAD_VALUE, "case weight, tube arm: a line load ends at 1250 mm, the tube is only "
                           "1000 mm long; keep it on the tube");
}
END_TEST

START_TEST(a_line_load_to_the_end_must_begin_before_it)
{
    const double line[3] = {0.0, 0.0, -10.0};
    must(trivet_frame_add_tube_line(frame, 0, 0, 1.0, (double)NAN, line, line, 0, &message),
         &message);
    says(TRIVET_BAD_VALUE, "case weight, tube arm: a line load begins at 1000 mm, the tube is only "
                           "1000 mm long; keep it on the tube");
}
END_TEST

static int32_t empty_case(void)
{
    int32_t in_case = -1;
    must(trivet_frame_add_case(frame, "nothing", NULL, &in_case, &message), &message);
    says(TRIVET_INCOMPLETE, "case nothing: there is no load in it; give it gravity, a force, a "
                            "mount's move or warmth");
    return in_case;
}

START_TEST(warmth_is_a_load)
{
    must(trivet_frame_set_warm(frame, empty_case(), 30.0, &message), &message);
    holds();
}
END_TEST

START_TEST(a_moved_mount_is_a_load)
{
    const double move[6] = {0.0, 0.0, 1e-3, 0.0, 0.0, 0.0};
    must(trivet_frame_set_mount_move(frame, empty_case(), 0, move, &message), &message);
    holds();
}
END_TEST

START_TEST(each_kind_of_force_is_a_load)
{
    const double force[3] = {0.0, 0.0, -10.0};
    const double centre[3] = {0.5, 0.0, 0.2};
    const int32_t joint = 1;
    must(trivet_frame_add_cargo(frame, "bag", centre, &joint, 1, TRIVET_GRIP_SOFT, NULL, &message),
         &message);
    must(trivet_frame_add_joint_force(frame, empty_case(), 1, force, NULL, &message), &message);
    holds();
    int32_t in_case = -1;
    must(trivet_frame_add_case(frame, "b", NULL, &in_case, &message), &message);
    must(trivet_frame_add_cargo_force(frame, in_case, 0, force, NULL, NULL, &message), &message);
    holds();
    must(trivet_frame_add_case(frame, "c", NULL, &in_case, &message), &message);
    must(trivet_frame_add_tube_force(frame, in_case, 0, 0.1, force, NULL, 0, &message), &message);
    holds();
    must(trivet_frame_add_case(frame, "d", NULL, &in_case, &message), &message);
    must(trivet_frame_add_tube_line(frame, in_case, 0, 0.1, (double)NAN, force, force, 0, &message),
         &message);
    holds();
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(a_good_frame_is_let_through, a_frame_needs_tube_mount_and_case,
              a_joint_must_be_met_by_a_tube, a_span_must_have_a_length,
              offsets_can_take_a_length_away_or_give_it, a_tube_must_be_straight_to_a_thousandth,
              joints_must_stand_in_order, an_insert_must_fit_into_its_tube,
              an_insert_in_the_middle_must_not_reach_beyond_the_ends, inserts_must_not_overlap,
              a_force_must_act_on_its_tube, a_line_load_must_end_on_its_tube,
              a_line_load_to_the_end_must_begin_before_it, warmth_is_a_load,
              a_moved_mount_is_a_load, each_kind_of_force_is_a_load);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("validate", tests);
}
