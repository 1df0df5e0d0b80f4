/*
 * Mounts and bolts lost: what is left holds, is overloaded or swings, and about which line.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/checks.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LEFT, RIGHT, BACK }; /* joints and mounts of the bracket, in order */

static trivet_losses *must_lose(const trivet_frame *frame)
{
    trivet_losses *losses = NULL;
    trivet_message message;
    must(trivet_losses_new(frame, NULL, &losses, &message), &message);
    ck_assert_ptr_nonnull(losses);
    return losses;
}

static trivet_loss loss_at(const trivet_losses *losses, int32_t index)
{
    trivet_loss loss;
    ck_assert_int_eq(trivet_loss_defaults(&loss, sizeof loss), TRIVET_OK);
    ck_assert_int_eq(trivet_losses_at(losses, index, &loss), TRIVET_OK);
    return loss;
}

static void reads(const trivet_losses *losses, int32_t index, const char *wanted)
{
    char text[1024];
    const size_t length = trivet_losses_text(losses, index, NULL, text, sizeof text);
    ck_assert_str_eq(text, wanted);
    ck_assert_uint_eq(length, strlen(wanted));
}

static void must_add_cargo(trivet_frame *frame, const int32_t *joints, int32_t count,
                           const double centre[3], double mass)
{
    int32_t cargo = -1;
    trivet_message message;
    must(trivet_frame_add_cargo(frame, "bag", centre, joints, count, TRIVET_GRIP_SOFT, &cargo,
                                &message),
         &message);
    must(trivet_frame_add_item(frame, cargo, "contents", mass, &message), &message);
}

/*
 * A triangle of tubes on three mounts that hold position alone: left and right in front, one at the
 * back in the middle, 300 mm behind; a bag of 5 kg over its middle.
 */
static trivet_frame *bracket(void)
{
    static const int32_t ENDS[3][2] = {{LEFT, RIGHT}, {RIGHT, BACK}, {BACK, LEFT}};
    static const char *const NAMES[] = {"front", "right leg", "left leg"};
    const int32_t under[] = {LEFT, RIGHT, BACK};
    const double centre[] = {-0.1, 0.0, 0.05};
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t stock = must_add_stock(frame, "tube", &profile);
    must_add_joint(frame, "L", 0.0, 0.12, 0.0);
    must_add_joint(frame, "R", 0.0, -0.12, 0.0);
    must_add_joint(frame, "B", -0.3, 0.0, 0.0);
    for (int i = 0; i < 3; i++) {
        must_add_tube(frame, NAMES[i], ENDS[i], 2, stock);
    }
    for (int32_t m = LEFT; m <= BACK; m++) {
        must_add_mount(frame, m, TRIVET_POSITION);
    }
    must_add_cargo(frame, under, 3, centre, 5.0);
    must_add_case(frame, "parked", 1.0);
    return frame;
}

/* Of three points that hold, two are left: the frame swings about the line through them. */
START_TEST(a_bracket_on_three_points_swings)
{
    trivet_frame *const frame = bracket();
    trivet_losses *const losses = must_lose(frame);
    ck_assert_int_eq(trivet_losses_count(losses), 3);
    for (int32_t m = LEFT; m <= BACK; m++) {
        const trivet_loss loss = loss_at(losses, m);
        ck_assert_int_eq(loss.mount, m);
        ck_assert_int_eq(loss.bolt, -1);
        ck_assert_int_eq(loss.outcome, TRIVET_LOSS_SWINGS);
        ck_assert(isnan(loss.used));
        /* the frame is flat and the line lies in it: what swings starts straight down */
        near_scaled(loss.direction[0], 0.0, 1e-6, 1.0);
        near_scaled(loss.direction[1], 0.0, 1e-6, 1.0);
        near_scaled(loss.direction[2], -1.0, 1e-6, 1.0);
    }
    reads(losses, LEFT, "mount L lost: free to swing about the line through R and B, down");
    reads(losses, RIGHT, "mount R lost: free to swing about the line through L and B, down");
    reads(losses, BACK, "mount B lost: free to swing about the line through L and R, down");
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

static void put_wheel(trivet_frame *frame, double axle, double top)
{
    trivet_vehicle vehicle;
    trivet_message message;
    ck_assert_int_eq(trivet_vehicle_defaults(&vehicle, sizeof vehicle), TRIVET_OK);
    vehicle.rear_axle = axle;
    vehicle.wheel_radius = 0.3;
    vehicle.ground = top - 2.0 * vehicle.wheel_radius;
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), &message);
}

/* The back joint stands 100 mm over the top of the tyre: it falls onto it. */
START_TEST(over_the_wheel_it_falls_onto_the_wheel)
{
    trivet_frame *const frame = bracket();
    put_wheel(frame, -0.3, -0.1);
    trivet_losses *const losses = must_lose(frame);
    reads(losses, BACK,
          "mount B lost: free to swing about the line through L and R, down onto the wheel");
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

/* The wheel stands in front and higher than the frame, which falls away from it. */
START_TEST(away_from_the_wheel_it_only_falls)
{
    trivet_frame *const frame = bracket();
    put_wheel(frame, 1.0, 0.6);
    trivet_losses *const losses = must_lose(frame);
    reads(losses, BACK, "mount B lost: free to swing about the line through L and R, down");
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

/* Two rails on two pairs of mounts that hold position, cross tubes at all three joints. */
static trivet_frame *two_pairs(double mass)
{
    static const char *const NAMES[2][3] = {{"FL", "RL", "EL"}, {"FR", "RR", "ER"}};
    static const char *const CROSS[] = {"front", "middle", "back"};
    const double centre[] = {-0.30, 0.0, 0.10};
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t stock = must_add_stock(frame, "tube", &profile);
    int32_t joints[2][3];
    for (int side = 0; side < 2; side++) {
        for (int i = 0; i < 3; i++) {
            joints[side][i] =
                must_add_joint(frame, NAMES[side][i], -0.25 * i, side == 0 ? 0.16 : -0.16, 0.0);
        }
        must_add_tube(frame, side == 0 ? "left rail" : "right rail", joints[side], 3, stock);
    }
    for (int i = 0; i < 3; i++) {
        const int32_t ends[] = {joints[0][i], joints[1][i]};
        must_add_tube(frame, CROSS[i], ends, 2, stock);
    }
    for (int side = 0; side < 2; side++) {
        must_add_mount(frame, joints[side][0], TRIVET_POSITION);
        must_add_mount(frame, joints[side][1], TRIVET_POSITION);
    }
    const int32_t under[] = {joints[0][1], joints[1][1], joints[0][2], joints[1][2]};
    must_add_cargo(frame, under, 4, centre, mass);
    must_add_case(frame, "parked", 1.0);
    return frame;
}

/* Three points are left, not in one line: it is held, and the text says by how much. */
START_TEST(a_rack_on_two_pairs_is_held)
{
    trivet_frame *const frame = two_pairs(5.0);
    trivet_losses *const losses = must_lose(frame);
    ck_assert_int_eq(trivet_losses_count(losses), 4);
    for (int32_t m = 0; m < 4; m++) {
        char text[1024];
        char used[64];
        char start[64];
        char end[128];
        const trivet_loss loss = loss_at(losses, m);
        ck_assert_int_eq(loss.outcome, TRIVET_LOSS_HELD);
        ck_assert(loss.used > 0.0 && loss.used <= 1.0);
        ck_assert(loss.direction[0] == 0.0 && loss.direction[1] == 0.0 && loss.direction[2] == 0.0);
        trivet_losses_text(losses, m, NULL, text, sizeof text);
        trivet_used_text(loss.used, used, sizeof used);
        snprintf(start, sizeof start, "mount %s lost: still held, ",
                 trivet_frame_name(frame, TRIVET_KIND_MOUNT, m));
        snprintf(end, sizeof end, " is used most (%s)", used);
        ck_assert_msg(strncmp(text, start, strlen(start)) == 0, "%s", text);
        ck_assert_msg(strlen(text) > strlen(end) &&
                          strcmp(text + strlen(text) - strlen(end), end) == 0,
                      "%s", text);
    }
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_MOUNT), 4); /* it is as it was */
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

/* What is used is what a frame built without the mount uses. */
START_TEST(a_loss_is_a_frame_without_the_mount)
{
    trivet_frame *const frame = two_pairs(5.0);
    trivet_frame *const less = two_pairs(5.0);
    trivet_losses *const losses = must_lose(frame);
    trivet_checks *checks = NULL;
    trivet_message message;
    double most = 0.0;
    must(trivet_frame_remove_mount(less, 1, &message), &message);
    trivet_result *const result = must_solve(less);
    must(trivet_checks_new(less, result, NULL, &checks, &message), &message);
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(checks, i, &check), TRIVET_OK);
        most = fmax(most, check.utilisation);
    }
    near_relative(loss_at(losses, 1).used, most, 1e-12);
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_losses_free(losses);
    trivet_frame_free(less);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(too_much_on_what_is_left_overloads_it)
{
    trivet_frame *const frame = two_pairs(500.0);
    trivet_losses *const losses = must_lose(frame);
    for (int32_t m = 0; m < 4; m++) {
        char text[1024];
        const trivet_loss loss = loss_at(losses, m);
        ck_assert_int_eq(loss.outcome, TRIVET_LOSS_OVERLOADED);
        ck_assert(loss.used > 1.0);
        trivet_losses_text(losses, m, NULL, text, sizeof text);
        ck_assert_msg(strstr(text, " lost: overloaded, ") != NULL, "%s", text);
    }
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

/*
 * A lug under a beam, clamped by two bolts M5 4.6 at 30 mm to both sides, z of the mount down; a
 * hoist pulls it with 3500 N.
 */
static trivet_frame *lug(void)
{
    const double force[] = {0.0, 0.0, -3500.0};
    const double axes[9] = {1.0, 0.0, 0.0, 0.0, -1.0, 0.0, 0.0, 0.0, -1.0};
    trivet_frame *const frame = must_new_frame();
    trivet_message message;
    trivet_mount mount;
    trivet_bolts bolts;
    trivet_profile profile = square_bar(0.020);
    const int32_t ends[] = {must_add_joint(frame, "A", 0.0, 0.0, 0.0),
                            must_add_joint(frame, "B", 0.0, 0.0, -0.06)};
    must_add_tube(frame, "arm", ends, 2, must_add_stock(frame, "arm", &profile));
    must(trivet_mount_defaults(&mount, sizeof mount), NULL);
    mount.joint = ends[0];
    mount.held = TRIVET_ALL;
    memcpy(mount.axes, axes, sizeof axes);
    must(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
    must(trivet_bolts_defaults(&bolts, sizeof bolts), NULL);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.count = 2;
    bolts.pattern[0][0] = -0.03;
    bolts.pattern[1][0] = 0.03;
    snprintf(bolts.thread, sizeof bolts.thread, "M5");
    snprintf(bolts.grade, sizeof bolts.grade, "4.6");
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    const int32_t hanging = must_add_case(frame, "hanging", 0.0);
    must(trivet_frame_add_joint_force(frame, hanging, ends[1], force, NULL, &message), &message);
    return frame;
}

/*
 * EN 1993-1-8 table 3.4 (from memory): one bolt carries 0.9 f_ub A_s / 1.25 = 0.9 * 400 N/mm^2 *
 * 14.2 mm^2 / 1.25 = 4090 N (A_s of M5: ISO 898-1, printed 14.2). Loads times 1.5: two carry 2625 N
 * each, 64 %; one carries 5250 N, 128 %. A_s is known to half its last digit: 0.05 / 14.2.
 */
START_TEST(one_bolt_of_two_overloads_the_other)
{
    const double one = 0.9 * 400.0 * 14.2 / 1.25;
    trivet_frame *const frame = lug();
    trivet_losses *const losses = must_lose(frame);
    trivet_result *const result = must_solve(frame);
    trivet_checks *checks = NULL;
    trivet_message message;
    must(trivet_checks_new(frame, result, NULL, &checks, &message), &message);
    ck_assert_int_ne(trivet_checks_verdict(checks, TRIVET_LINE_OVERLOAD, NULL), TRIVET_FAILS);
    ck_assert_int_eq(trivet_losses_count(losses), 3);
    for (int32_t i = 0; i < 2; i++) {
        char text[1024];
        char start[64];
        const trivet_loss loss = loss_at(losses, i);
        ck_assert_int_eq(loss.mount, 0);
        ck_assert_int_eq(loss.bolt, i);
        ck_assert_int_eq(loss.outcome, TRIVET_LOSS_OVERLOADED);
        near_relative(loss.used, 1.5 * 3500.0 / one, 0.05 / 14.2);
        trivet_losses_text(losses, i, NULL, text, sizeof text);
        snprintf(start, sizeof start, "bolt %d of mount A lost: overloaded, bolt", (int)i + 1);
        ck_assert_msg(strncmp(text, start, strlen(start)) == 0, "%s", text);
    }
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

/* The only mount: nothing is left, and the frame falls. */
START_TEST(without_any_mount_it_falls)
{
    trivet_frame *const frame = lug();
    trivet_losses *const losses = must_lose(frame);
    const trivet_loss loss = loss_at(losses, 2);
    ck_assert_int_eq(loss.bolt, -1);
    ck_assert_int_eq(loss.outcome, TRIVET_LOSS_SWINGS);
    ck_assert(isnan(loss.used));
    near_scaled(loss.direction[2], -1.0, 1e-6, 1.0);
    reads(losses, 2, "mount A lost: free to fall: nothing holds it any more, down");
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(text_is_cut_to_fit)
{
    trivet_frame *const frame = bracket();
    trivet_losses *const losses = must_lose(frame);
    char whole[1024];
    char cut[12];
    const size_t length = trivet_losses_text(losses, 0, NULL, whole, sizeof whole);
    ck_assert_uint_eq(trivet_losses_text(losses, 0, NULL, cut, sizeof cut), length);
    ck_assert_str_eq(cut, "mount L los");
    ck_assert_uint_eq(trivet_losses_text(losses, 0, NULL, NULL, 0), length);
    ck_assert_uint_eq(trivet_losses_text(losses, -1, NULL, cut, sizeof cut), 0);
    ck_assert_str_eq(cut, "");
    ck_assert_uint_eq(trivet_losses_text(losses, 3, NULL, cut, sizeof cut), 0);
    ck_assert_uint_eq(trivet_losses_text(NULL, 0, NULL, cut, sizeof cut), 0);
    trivet_losses_free(losses);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(arguments_are_checked)
{
    trivet_frame *const frame = bracket();
    trivet_losses *const losses = must_lose(frame);
    trivet_losses *none = losses;
    trivet_loss loss = {.size = sizeof loss};
    trivet_limits limits = {.size = 3};
    trivet_message message;
    defaults_take_own_size(trivet_loss, trivet_loss_defaults);
    ck_assert_int_eq(trivet_losses_new(NULL, NULL, &none, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_ptr_null(none);
    ck_assert_int_eq(trivet_losses_new(frame, NULL, NULL, NULL), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_losses_at(losses, -1, &loss), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_losses_at(losses, 3, &loss), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_losses_at(NULL, 0, &loss), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_losses_at(losses, 0, NULL), TRIVET_MISSING_ARGUMENT);
    loss.size++;
    ck_assert_int_eq(trivet_losses_at(losses, 0, &loss), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_losses_count(NULL), 0);
    trivet_losses_free(NULL);
    trivet_losses_free(losses);
    trivet_frame_free(frame);
    trivet_frame *const held = two_pairs(5.0);
    ck_assert_int_eq(trivet_losses_new(held, &limits, &none, &message), TRIVET_BAD_SIZE);
    ck_assert_ptr_null(none);
    trivet_frame_free(held);
}
END_TEST

int main(void)
{
    return run_tests(
        "losses", TESTS(a_bracket_on_three_points_swings, over_the_wheel_it_falls_onto_the_wheel,
                        away_from_the_wheel_it_only_falls, a_rack_on_two_pairs_is_held,
                        a_loss_is_a_frame_without_the_mount, too_much_on_what_is_left_overloads_it,
                        one_bolt_of_two_overloads_the_other, without_any_mount_it_falls,
                        text_is_cut_to_fit, arguments_are_checked));
}
