/*
 * Small frames, built with the public calls alone.
 */
#include "support/frames.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

void must(trivet_status status, const trivet_message *message)
{
    /* A call that went well need not have written a message. */
    if (status != TRIVET_OK) {
        char text[1024];
        trivet_message_text(message, text, sizeof text);
        ck_abort_msg("%s (%s)", trivet_status_text((int32_t)status), text);
    }
}

trivet_material steel_material(void)
{
    trivet_material steel;
    trivet_message message = {0};
    must(trivet_material_defaults(&steel, sizeof steel), &message);
    snprintf(steel.name, sizeof steel.name, "plain steel");
    snprintf(steel.source, sizeof steel.source, "common practice");
    steel.E = 210e9;
    steel.G = 81e9;
    steel.density = 7850.0;
    steel.yield = 235e6;
    steel.welded_yield = 235e6;
    steel.tensile = 360e6;
    steel.welded_tensile = 360e6;
    steel.expansion = 12e-6;
    return steel;
}

static trivet_profile profile_of(trivet_shape shape)
{
    trivet_profile profile;
    trivet_message message = {0};
    must(trivet_profile_defaults(&profile, sizeof profile), &message);
    profile.shape = (int32_t)shape;
    return profile;
}

trivet_profile square_tube(double width, double wall)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_SQUARE_TUBE);
    profile.width = width;
    profile.wall = wall;
    return profile;
}

trivet_profile round_tube(double diameter, double wall)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_ROUND_TUBE);
    profile.diameter = diameter;
    profile.wall = wall;
    return profile;
}

trivet_profile square_bar(double width)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_SQUARE_BAR);
    profile.width = width;
    return profile;
}

trivet_profile round_bar(double diameter)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_ROUND_BAR);
    profile.diameter = diameter;
    return profile;
}

trivet_profile angle_bar(double height, double width, double wall)
{
    trivet_profile profile = profile_of(TRIVET_SHAPE_ANGLE);
    profile.height = height;
    profile.width = width;
    profile.wall = wall;
    return profile;
}

trivet_frame *must_new_frame(void)
{
    trivet_frame *frame = NULL;
    trivet_message message = {0};
    must(trivet_frame_new(&frame, &message), &message);
    return frame;
}

int32_t must_add_joint(trivet_frame *frame, const char *name, double x, double y, double z)
{
    const double position[3] = {x, y, z};
    int32_t joint = -1;
    trivet_message message = {0};
    must(trivet_frame_add_joint(frame, name, position, &joint, &message), &message);
    return joint;
}

int32_t must_add_stock(trivet_frame *frame, const char *name, const trivet_profile *profile)
{
    const trivet_material steel = steel_material();
    int32_t stock = -1;
    trivet_message message = {0};
    must(trivet_frame_add_stock(frame, name, profile, &steel, &stock, &message), &message);
    return stock;
}

int32_t must_add_tube(trivet_frame *frame, const char *name, const int32_t *joints,
                      int32_t joint_count, int32_t stock)
{
    int32_t tube = -1;
    trivet_message message = {0};
    must(trivet_frame_add_tube(frame, name, joints, joint_count, stock, 0.0, &tube, &message),
         &message);
    return tube;
}

int32_t must_add_mount(trivet_frame *frame, int32_t joint, uint32_t held)
{
    trivet_mount mount;
    int32_t number = -1;
    trivet_message message = {0};
    must(trivet_mount_defaults(&mount, sizeof mount), &message);
    mount.joint = joint;
    mount.held = held;
    must(trivet_frame_add_mount(frame, &mount, &number, &message), &message);
    return number;
}

int32_t must_add_case(trivet_frame *frame, const char *name, double down)
{
    const double gravity[3] = {0.0, 0.0, -down};
    int32_t added = -1;
    trivet_message message = {0};
    must(trivet_frame_add_case(frame, name, gravity, &added, &message), &message);
    return added;
}

trivet_result *must_solve(const trivet_frame *frame)
{
    trivet_result *result = NULL;
    trivet_message message = {0};
    must(trivet_frame_solve(frame, &result, &message), &message);
    return result;
}

trivet_frame *cantilever_frame(double length, double force)
{
    trivet_frame *const frame = must_new_frame();
    trivet_message message = {0};
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t ends[] = {must_add_joint(frame, "A", 0.0, 0.0, 0.0),
                            must_add_joint(frame, "B", length, 0.0, 0.0)};
    must_add_tube(frame, "arm", ends, 2, must_add_stock(frame, "tube", &profile));
    must_add_mount(frame, ends[0], TRIVET_ALL);
    const double tip[3] = {0.0, 0.0, force};
    must(trivet_frame_add_joint_force(frame, must_add_case(frame, "tip", 0.0), ends[1], tip, NULL,
                                      &message),
         &message);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

trivet_frame *portal_frame(void)
{
    trivet_frame *const frame = must_new_frame();
    trivet_message message = {0};
    const trivet_profile profile = square_tube(0.030, 0.002);
    const int32_t stock = must_add_stock(frame, "tube", &profile);
    const int32_t a = must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 0.0, 0.0, 0.5);
    const int32_t c = must_add_joint(frame, "C", 0.8, 0.0, 0.5);
    const int32_t d = must_add_joint(frame, "D", 0.8, 0.0, 0.0);
    const int32_t left[] = {a, b};
    const int32_t beam[] = {b, c};
    const int32_t right[] = {d, c};
    must_add_tube(frame, "left column", left, 2, stock);
    must_add_tube(frame, "beam", beam, 2, stock);
    must_add_tube(frame, "right column", right, 2, stock);
    must_add_mount(frame, a, TRIVET_ALL);
    must_add_mount(frame, d, TRIVET_ALL);
    const double push[3] = {100.0, 0.0, 0.0};
    must(trivet_frame_add_joint_force(frame, must_add_case(frame, "push", 0.0), b, push, NULL,
                                      &message),
         &message);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

/* The cool box, its two cases and their sum. back: BL BR RL RR. */
static void load_rack(trivet_frame *frame, const int32_t *back)
{
    trivet_message message = {0};
    const double centre[3] = {-0.40, 0.0, 0.21};
    int32_t box = -1;
    must(trivet_frame_add_cargo(frame, "cool box", centre, back, 4, TRIVET_GRIP_STIFF, &box,
                                &message),
         &message);
    must(trivet_frame_add_item(frame, box, "box", 4.5, &message), &message);
    must(trivet_frame_add_item(frame, box, "contents", 9.5, &message), &message);
    const int32_t cases[] = {must_add_case(frame, "parked", 1.0),
                             must_add_case(frame, "two-up", 2.0)};
    const double lean[3] = {-250.0, 0.0, 0.0};
    const double at[3] = {-0.30, 0.0, 0.35};
    must(trivet_frame_add_cargo_force(frame, cases[1], box, lean, NULL, at, &message), &message);
    const double factors[] = {0.5, 1.5};
    must(trivet_frame_add_combination(frame, "both", cases, factors, 2, NULL, &message), &message);
}

trivet_frame *rack_frame(void)
{
    static const char *const names[2][4] = {{"FL", "ML", "BL", "RL"}, {"FR", "MR", "BR", "RR"}};
    static const double along[4] = {0.0, -0.12, -0.24, -0.42};
    trivet_frame *const frame = must_new_frame();
    const trivet_profile square = square_tube(0.020, 0.002);
    const trivet_profile round = round_tube(0.019, 0.0015);
    const int32_t rail = must_add_stock(frame, "rail", &square);
    const int32_t cross = must_add_stock(frame, "cross", &round);
    int32_t joints[2][4];
    for (int side = 0; side < 2; side++) {
        for (int i = 0; i < 4; i++) {
            joints[side][i] =
                must_add_joint(frame, names[side][i], along[i], side == 0 ? 0.16 : -0.16, 0.0);
        }
    }
    must_add_tube(frame, "left rail", joints[0], 4, rail);
    must_add_tube(frame, "right rail", joints[1], 4, rail);
    const int32_t middle[] = {joints[0][1], joints[1][1]};
    const int32_t back[] = {joints[0][3], joints[1][3]};
    must_add_tube(frame, "middle", middle, 2, cross);
    must_add_tube(frame, "back", back, 2, cross);
    for (int side = 0; side < 2; side++) {
        must_add_mount(frame, joints[side][0], TRIVET_ALL);
        must_add_mount(frame, joints[side][1], TRIVET_POSITION);
        must_add_mount(frame, joints[side][2], TRIVET_POSITION);
    }
    const int32_t under[] = {joints[0][2], joints[1][2], joints[0][3], joints[1][3]};
    load_rack(frame, under);
    return frame;
}

trivet_frame *row_of_joints_frame(void)
{
    static const char *const names[] = {"A", "B", "C", "D", "E"};
    trivet_frame *const frame = must_new_frame();
    for (int i = 0; i < 5; i++) {
        must_add_joint(frame, names[i], i < 4 ? i : 1.0, i < 4 ? 0.0 : 1.0, 0.0);
    }
    trivet_profile rail = square_tube(0.020, 0.002);
    rail.corner = TRIVET_CORNER_SHARP;
    const trivet_profile plug = square_bar(0.015);
    must_add_stock(frame, "rail", &rail);
    must_add_stock(frame, "plug", &plug);
    return frame;
}
