/*
 * Which way a frame goes that lost a mount, and what else a loss leaves behind. Frames so plain
 * that one sees what they do.
 */
#include "beam.h"

#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <string.h>

static trivet_losses *must_lose(const beam *of)
{
    trivet_losses *losses = NULL;
    trivet_message message = {0};
    must(trivet_losses_new(of->frame, &of->limits, &losses, &message), &message);
    return losses;
}

static trivet_loss loss_at(const trivet_losses *losses, int32_t index)
{
    trivet_loss loss = {.size = sizeof loss};
    ck_assert_int_eq(trivet_losses_at(losses, index, &loss), TRIVET_OK);
    return loss;
}

/* The loss begins with these words, and goes that way, if way is not NULL. */
static void must_say(const trivet_losses *losses, int32_t index, const char *words,
                     const double *way)
{
    char text[1024];
    trivet_losses_text(losses, index, NULL, text, sizeof text);
    ck_assert_msg(strncmp(text, words, strlen(words)) == 0, "\"%s\" does not begin with \"%s\"",
                  text, words);
    for (int i = 0; way && i < 3; i++) {
        /* Bending of the tubes beside a fall of about a metre. */
        near_scaled(loss_at(losses, index).direction[i], way[i], 0.02, 1.0);
    }
}

static void must_be(const trivet_losses *losses, int32_t index, const char *words,
                    const double *way)
{
    char text[1024];
    trivet_losses_text(losses, index, NULL, text, sizeof text);
    ck_assert_str_eq(text, words);
    must_say(losses, index, words, way);
}

static trivet_material steel(void)
{
    trivet_material material = beam_material(235e6, 0.0);
    material.density = 7850.0;
    return material;
}

/* A triangle FL FR ML on three mounts that hold position, under its weight. */
static beam triangle(void)
{
    beam of = beam_new();
    const int32_t FL = must_add_joint(of.frame, "FL", 0.0, 0.1, 0.0);
    const int32_t FR = must_add_joint(of.frame, "FR", 0.0, -0.1, 0.0);
    const int32_t ML = must_add_joint(of.frame, "ML", -0.24, 0.0, 0.0);
    const int32_t stock = beam_stock(&of, "bar", square_bar(0.02), steel());
    beam_tube(&of, "front", stock, FL, FR);
    beam_tube(&of, "left", stock, FL, ML);
    beam_tube(&of, "right", stock, FR, ML);
    must_add_mount(of.frame, FL, TRIVET_POSITION);
    must_add_mount(of.frame, FR, TRIVET_POSITION);
    must_add_mount(of.frame, ML, TRIVET_POSITION);
    must_add_case(of.frame, "parked", 1.0);
    return of;
}

static const double DOWN[3] = {0.0, 0.0, -1.0};

static void put_wheel(beam *of, double axle, double ground, double radius)
{
    trivet_vehicle vehicle;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_vehicle_defaults(&vehicle, sizeof vehicle), TRIVET_OK);
    vehicle.rear_axle = axle;
    vehicle.ground = ground;
    vehicle.wheel_radius = radius;
    must(trivet_frame_set_vehicle(of->frame, &vehicle, &message), &message);
}

/*
 * Straight below ML, 450 mm down, lies the wheel's middle but 40 mm: onto it. A wheel 660 mm ahead,
 * 300 mm of radius, is passed: ML heads towards it, 56 degrees off. A wheel above it is left
 * behind.
 */
START_TEST(one_falls_onto_the_wheel)
{
    static const struct {
        double axle, ground;
        const char *text;
    } ROWS[] = {
        {-0.2, -0.75,
         "mount ML lost: free to swing about the line through FL and FR, down onto the wheel"},
        {-0.9, -0.75,
         "mount ML lost: free to swing about the line through FL and FR, down towards the wheel"},
        {-0.2, 0.5, "mount ML lost: free to swing about the line through FL and FR, down"},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        beam of = triangle();
        put_wheel(&of, ROWS[i].axle, ROWS[i].ground, 0.3);
        trivet_losses *const losses = must_lose(&of);
        must_be(losses, 2, ROWS[i].text, DOWN);
        trivet_losses_free(losses);
        beam_free(&of);
    }
}
END_TEST

/* On two mounts one above the other, and one behind: weight does not swing it, a push does. */
START_TEST(a_gate_swings_outward)
{
    beam of = beam_new();
    const int32_t L = must_add_joint(of.frame, "L", 0.0, 0.1, 0.0);
    const int32_t U = must_add_joint(of.frame, "U", 0.0, 0.1, 0.3);
    const int32_t C = must_add_joint(of.frame, "C", -0.3, 0.1, 0.0);
    const int32_t stock = beam_stock(&of, "bar", square_bar(0.02), steel());
    beam_tube(&of, "post", stock, L, U);
    beam_tube(&of, "sill", stock, L, C);
    beam_tube(&of, "brace", stock, U, C);
    must_add_mount(of.frame, L, TRIVET_POSITION);
    must_add_mount(of.frame, U, TRIVET_POSITION);
    must_add_mount(of.frame, C, TRIVET_POSITION);
    must_add_case(of.frame, "parked", 1.0);
    static const double LEFT[3] = {0.0, 1.0, 0.0};
    trivet_losses *const losses = must_lose(&of);
    must_be(losses, 2,
            "mount C lost: free to swing about the line through L and U, to the left, "
            "outward",
            LEFT);
    trivet_losses_free(losses);
    beam_free(&of);
}
END_TEST

/* Two rails, two mounts each, cross tubes front and back; every mount holds position. */
static beam two_pairs(void)
{
    static const char *const NAMES[6] = {"FL", "ML", "RL", "FR", "MR", "RR"};
    beam of = beam_new();
    int32_t at[6];
    for (int i = 0; i < 6; i++) {
        at[i] = must_add_joint(of.frame, NAMES[i], -0.25 * (i % 3), i < 3 ? 0.1 : -0.1, 0.0);
    }
    const int32_t stock = beam_stock(&of, "bar", square_bar(0.02), steel());
    beam_tube_of_three(&of, "left rail", stock, at[0], at[1], at[2]);
    beam_tube_of_three(&of, "right rail", stock, at[3], at[4], at[5]);
    beam_tube(&of, "front", stock, at[0], at[3]);
    beam_tube(&of, "back", stock, at[2], at[5]);
    for (int i = 0; i < 6; i++) {
        if (i % 3 < 2) {
            must_add_mount(of.frame, at[i], TRIVET_POSITION);
        }
    }
    must_add_case(of.frame, "parked", 1.0);
    return of;
}

/* A case that moves the ground under FL alone has nothing left in it when FL is lost. */
START_TEST(a_case_may_lose_all_it_has)
{
    static const double UP[6] = {0.0, 0.0, 1e-3, 0.0, 0.0, 0.0};
    beam of = two_pairs();
    const int32_t misfit = beam_case(&of, "misfit at FL");
    trivet_message message = {0};
    must(trivet_frame_set_mount_move(of.frame, misfit, 0, UP, &message), &message);
    trivet_losses *const losses = must_lose(&of);
    ck_assert_int_eq(trivet_losses_count(losses), 4);
    must_say(losses, 0, "mount FL lost: still held, ", NULL);
    trivet_losses_free(losses);
    beam_free(&of);
}
END_TEST

/* 100 N on the tip of 0.5 m: one bolt cannot carry 50 N m; the text must not keep quiet about it.
 */
START_TEST(a_moment_that_is_left_is_told)
{
    static const double PLACES[2][2] = {{0.1, 0.0}, {-0.1, 0.0}};
    beam of = beam_cantilever(square_bar(0.04), 235e6, 0.5, 100.0);
    trivet_message message = {0};
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.count = 2;
    strcpy(bolts.thread, "M6");
    strcpy(bolts.grade, "8.8");
    memcpy(bolts.pattern, PLACES, sizeof PLACES);
    must(trivet_frame_add_bolts(of.frame, &bolts, NULL, &message), &message);
    trivet_losses *const losses = must_lose(&of);
    char text[512];
    trivet_losses_text(losses, 0, NULL, text, sizeof text);
    ck_assert_msg(strstr(text, "still held, ") &&
                      strstr(text, "; a moment on the bolts that are left is not counted"),
                  "%s", text);
    trivet_losses_free(losses);
    beam_free(&of);
}
END_TEST

int main(void)
{
    return run_tests("loss_way", TESTS(one_falls_onto_the_wheel, a_gate_swings_outward,
                                       a_case_may_lose_all_it_has, a_moment_that_is_left_is_told));
}
