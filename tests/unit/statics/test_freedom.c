/*
 * A frame that can move is refused, and told who moves, where to and what hold is missing.
 */
#include "support/frames.h"
#include "support/run.h"
#include "trivet/statics.h"

#include <check.h>
#include <string.h>

/* Joints A at 0, B at x = 0.5, C at x = 1, D at B + 0.4 up. */
static trivet_frame *start_frame(void)
{
    static const struct {
        const char *name;
        double position[3];
    } joints[] = {{"A", {0.0, 0.0, 0.0}},
                  {"B", {0.5, 0.0, 0.0}},
                  {"C", {1.0, 0.0, 0.0}},
                  {"D", {0.5, 0.0, 0.4}}};
    trivet_message message;
    trivet_frame *frame = NULL;
    must(trivet_frame_new(&frame, &message), &message);
    for (int i = 0; i < 4; i++) {
        must(trivet_frame_add_joint(frame, joints[i].name, joints[i].position, NULL, &message),
             &message);
    }
    const trivet_profile profile = square_tube(0.02, 0.002);
    const trivet_material material = steel_material();
    must(trivet_frame_add_stock(frame, "tube", &profile, &material, NULL, &message), &message);
    const double down[3] = {0.0, 0.0, -1.0};
    must(trivet_frame_add_case(frame, "parked", down, NULL, &message), &message);
    return frame;
}

static int32_t add_tube(trivet_frame *frame, const char *name, int32_t from, int32_t to,
                        uint32_t free_first, uint32_t free_last)
{
    trivet_message message;
    const int32_t joints[2] = {from, to};
    int32_t tube = -1;
    must(trivet_frame_add_tube(frame, name, joints, 2, 0, 0.0, &tube, &message), &message);
    must(trivet_frame_set_free_end(frame, tube, from, free_first, &message), &message);
    must(trivet_frame_set_free_end(frame, tube, to, free_last, &message), &message);
    return tube;
}

static void add_mount(trivet_frame *frame, int32_t joint, uint32_t held)
{
    trivet_message message;
    trivet_mount mount;
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = joint;
    mount.held = held;
    must(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
}

/* A star of rigid tubes from B. */
static trivet_frame *rigid_star(void)
{
    trivet_frame *const frame = start_frame();
    add_tube(frame, "AB", 0, 1, 0, 0);
    add_tube(frame, "BC", 1, 2, 0, 0);
    add_tube(frame, "BD", 1, 3, 0, 0);
    return frame;
}

static void expect_refusal(trivet_frame *frame, const char *wanted)
{
    trivet_message message;
    trivet_result *result = NULL;
    char text[1024];
    const trivet_status status = trivet_frame_solve(frame, &result, &message);
    trivet_message_text(&message, text, sizeof text);
    ck_assert_msg(status == TRIVET_MOVES_FREELY, "status %d: %s", (int)status, text);
    ck_assert_ptr_null(result);
    ck_assert_str_eq(text, wanted);
    trivet_frame_free(frame);
}

START_TEST(two_hinges_leave_a_swing)
{
    trivet_frame *const frame = rigid_star();
    add_mount(frame, 0, TRIVET_POSITION);
    add_mount(frame, 2, TRIVET_POSITION);
    expect_refusal(frame, "the whole frame: is free to swing about the line through A and C; add "
                          "a mount off that line, or let A or C also hold turning (hold: all)");
}
END_TEST

START_TEST(one_hinge_leaves_turns)
{
    trivet_frame *const frame = rigid_star();
    add_mount(frame, 0, TRIVET_POSITION | TRIVET_RX | TRIVET_RZ);
    expect_refusal(frame, "the whole frame: is free to turn about y (sideways) at A; let A hold "
                          "that turn too (hold: all), or add a mount");
}
END_TEST

START_TEST(mounts_without_x_leave_a_slide)
{
    trivet_frame *const frame = rigid_star();
    add_mount(frame, 0, TRIVET_ALL & ~(uint32_t)TRIVET_X);
    add_mount(frame, 2, TRIVET_ALL & ~(uint32_t)TRIVET_X);
    expect_refusal(frame, "the whole frame: is free to slide along x (lengthways); let a mount "
                          "hold x too");
}
END_TEST

START_TEST(joint_with_every_end_pinned_spins)
{
    trivet_frame *const frame = start_frame();
    add_tube(frame, "AB", 0, 1, 0, TRIVET_PINNED);
    add_tube(frame, "BC", 1, 2, TRIVET_PINNED, 0);
    add_tube(frame, "BD", 1, 3, TRIVET_PINNED, 0);
    add_mount(frame, 0, TRIVET_ALL);
    add_mount(frame, 2, TRIVET_ALL);
    add_mount(frame, 3, TRIVET_ALL);
    expect_refusal(frame, "joint B: is free to spin about y (sideways): every tube end there is "
                          "pinned or freed; leave one tube's end rigid there");
}
END_TEST

/* D turns about C: (0.4, 0, 0.5) / 0.64 by hand. */
START_TEST(chain_of_pins_gives_way_in_the_middle)
{
    trivet_frame *const frame = start_frame();
    add_tube(frame, "AB", 0, 1, TRIVET_PINNED, TRIVET_RY);
    add_tube(frame, "BC", 1, 2, 0, TRIVET_PINNED);
    add_tube(frame, "BD", 1, 3, 0, 0);
    add_mount(frame, 0, TRIVET_ALL);
    add_mount(frame, 2, TRIVET_ALL);
    expect_refusal(frame,
                   "joints B, D: are free to move together, joint D along [0.62, 0, 0.78]: too "
                   "many tube ends are pinned or freed; make an end of a tube there rigid, "
                   "add a brace, or hold joint D with a mount");
}
END_TEST

START_TEST(tube_free_to_spin_in_itself_is_refused_by_name)
{
    trivet_message message;
    trivet_result *result = NULL;
    char text[1024];
    trivet_frame *const frame = rigid_star();
    const int32_t brace = add_tube(frame, "brace", 0, 3, TRIVET_RX, TRIVET_RX);
    ck_assert_int_eq(brace, 3);
    add_mount(frame, 0, TRIVET_ALL);
    ck_assert_int_eq(trivet_frame_solve(frame, &result, &message), TRIVET_BAD_VALUE);
    trivet_message_text(&message, text, sizeof text);
    ck_assert_str_eq(text, "tube brace: its ends are freed so far that nothing holds it; free "
                           "fewer directions at its ends; one end at least must carry pull, and "
                           "one must carry twist");
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    TCase *const cases = tcase_create("freedom");
    tcase_add_test(cases, two_hinges_leave_a_swing);
    tcase_add_test(cases, one_hinge_leaves_turns);
    tcase_add_test(cases, mounts_without_x_leave_a_slide);
    tcase_add_test(cases, joint_with_every_end_pinned_spins);
    tcase_add_test(cases, chain_of_pins_gives_way_in_the_middle);
    tcase_add_test(cases, tube_free_to_spin_in_itself_is_refused_by_name);
    return run_tests("freedom", cases);
}
