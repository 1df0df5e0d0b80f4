/*
 * Frames for tests, made in code. Sizes and loads are invented.
 */
#ifndef TRIVET_TESTS_FRAMES_H
#define TRIVET_TESTS_FRAMES_H

#include "support/frame_plan.h"
#include "trivet/frame_joins.h"
#include "trivet/statics.h"

#include <stdbool.h>

/* Fails the test with the message's text unless status is TRIVET_OK. */
void must(trivet_status status, const trivet_message *message);

/* E = 210 GPa, G = 81 GPa, 7850 kg/m^3, yield 235 MPa, 12e-6 per K: common practice for steel. */
trivet_material steel_material(void);

/* Sizes in m; corners as the standard has them. */
trivet_profile square_tube(double width, double wall);
trivet_profile round_tube(double diameter, double wall);
trivet_profile square_bar(double width);
trivet_profile round_bar(double diameter);
trivet_profile angle_bar(double height, double width, double wall);

/* Calls that must succeed. What is added comes back as its number. */
trivet_frame *must_new_frame(void);
int32_t must_add_joint(trivet_frame *frame, const char *name, double x, double y, double z);
int32_t must_add_mount(trivet_frame *frame, int32_t joint, uint32_t held);
trivet_result *must_solve(const trivet_frame *frame);

/* Stock of plain steel. */
int32_t must_add_stock(trivet_frame *frame, const char *name, const trivet_profile *profile);

/* A tube that is not rolled, all its ends rigid. */
int32_t must_add_tube(trivet_frame *frame, const char *name, const int32_t *joints,
                      int32_t joint_count, int32_t stock);

/* A case of so many g downward. */
int32_t must_add_case(trivet_frame *frame, const char *name, double down);

/*
 * A tube along x from A, clamped, to B at length; stock "tube" 20 x 20 x 2 mm. Cases: "tip" with
 * force in z at B, "weight" with gravity.
 */
trivet_frame *cantilever_frame(double length, double force);

/*
 * Two columns A-B and D-C of 500 mm, a beam B-C of 800 mm, clamped at A and D. Cases: "push" with
 * 100 N along x at B, "weight" with gravity.
 */
trivet_frame *portal_frame(void);

/*
 * Two rails (left rail: FL ML BL RL, right rail alike) with cross tubes at the middle and the
 * back, six mounts at F, M and B, a cool box of 14 kg standing stiffly on BL BR RL RR and reaching
 * past them. Cases: "parked", "two-up"; combination "both".
 */
trivet_frame *rack_frame(void);

/*
 * No tubes yet: joints A to D a metre apart along x, E a metre beside B; stock "rail", a tube of 20
 * x 20 x 2 mm with sharp corners, and "plug", a square bar of 15 mm.
 */
trivet_frame *row_of_joints_frame(void);

/* What a random frame may have. */
typedef struct random_options {
    bool roll;
    bool unsymmetric; /* angles among the stock */
    bool through;     /* tubes through three joints */
    bool extra_tubes; /* more than a tree */
    bool releases;
    bool offsets;
    bool inserts;
    bool more_mounts;
    bool springs;
    bool turned_mounts;
    bool stiff_cargo;
    bool soft_cargo;
    bool gravity;
    bool joint_forces;
    bool tube_forces;
    bool tube_lines;
    bool tube_axes; /* some loads on tubes in the tube's axes */
    bool mount_moves;
    bool warm;
    bool combination;
} random_options;

/* All of them. */
random_options random_everything(void);

/*
 * A random frame that is well held: 4 to 14 joints in a box of about 1 m, all on a tree of rigidly
 * joined tubes with one mount clamped; what else options allow. options may be NULL: everything.
 * Give it back with free.
 */
frame_plan *random_plan(uint64_t seed, const random_options *options);

/* The same, built. */
trivet_frame *random_frame(uint64_t seed, const random_options *options);

#endif
