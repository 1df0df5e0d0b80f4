/*
 * A frame that can move is refused, and told who moves, where to and what hold is missing.
 */
#include "support/frames.h"
#include "support/refused.h"
#include "support/run.h"
#include "trivet/statics.h"

#include <check.h>

/* Joints A at 0, B at x = 0.5, C at x = 1, D at B + 0.4 up. */
static trivet_frame *start_frame(void)
{
    trivet_frame *const frame = must_new_frame();
    must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(frame, "B", 0.5, 0.0, 0.0);
    must_add_joint(frame, "C", 1.0, 0.0, 0.0);
    must_add_joint(frame, "D", 0.5, 0.0, 0.4);
    const trivet_profile profile = square_tube(0.02, 0.002);
    must_add_stock(frame, "tube", &profile);
    must_add_case(frame, "parked", 1.0);
    return frame;
}

static int32_t add_tube(trivet_frame *frame, const char *name, int32_t from, int32_t to,
                        uint32_t free_first, uint32_t free_last)
{
    trivet_message message;
    const int32_t joints[2] = {from, to};
    const int32_t tube = must_add_tube(frame, name, joints, 2, 0);
    must(trivet_frame_set_free_end(frame, tube, from, free_first, &message), &message);
    must(trivet_frame_set_free_end(frame, tube, to, free_last, &message), &message);
    return tube;
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
    refused(trivet_frame_solve(frame, &result, &message), TRIVET_MOVES_FREELY, &message, wanted);
    ck_assert_ptr_null(result);
    trivet_frame_free(frame);
}

START_TEST(two_hinges_leave_a_swing)
{
    trivet_frame *const frame = rigid_star();
    must_add_mount(frame, 0, TRIVET_POSITION);
    must_add_mount(frame, 2, TRIVET_POSITION);
    expect_refusal(frame, "the whole frame: is free to swing about the line through A and C; add "
                          "a mount off that line, or let A or C also hold turning (hold: all)");
}
END_TEST

START_TEST(one_hinge_leaves_turns)
{
    trivet_frame *const frame = rigid_star();
    must_add_mount(frame, 0, TRIVET_POSITION | TRIVET_RX | TRIVET_RZ);
    expect_refusal(frame, "the whole frame: is free to turn about y (sideways) at A; let A hold "
                          "that turn too (hold: all), or add a mount");
}
END_TEST

START_TEST(mounts_without_x_leave_a_slide)
{
    trivet_frame *const frame = rigid_star();
    must_add_mount(frame, 0, TRIVET_ALL & ~(uint32_t)TRIVET_X);
    must_add_mount(frame, 2, TRIVET_ALL & ~(uint32_t)TRIVET_X);
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
    must_add_mount(frame, 0, TRIVET_ALL);
    must_add_mount(frame, 2, TRIVET_ALL);
    must_add_mount(frame, 3, TRIVET_ALL);
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
    must_add_mount(frame, 0, TRIVET_ALL);
    must_add_mount(frame, 2, TRIVET_ALL);
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
    trivet_frame *const frame = rigid_star();
    const int32_t brace = add_tube(frame, "brace", 0, 3, TRIVET_RX, TRIVET_RX);
    ck_assert_int_eq(brace, 3);
    must_add_mount(frame, 0, TRIVET_ALL);
    refused(trivet_frame_solve(frame, &result, &message), TRIVET_BAD_VALUE, &message,
            "tube brace: its ends are freed so far that nothing holds it; free "
            "fewer directions at its ends; one end at least must carry pull, and "
            "one must carry twist");
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("freedom",
                     TESTS(two_hinges_leave_a_swing, one_hinge_leaves_turns,
                           mounts_without_x_leave_a_slide, joint_with_every_end_pinned_spins,
                           chain_of_pins_gives_way_in_the_middle,
                           tube_free_to_spin_in_itself_is_refused_by_name));
}
