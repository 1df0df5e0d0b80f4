/*
 * A program of somebody else's: finds the installed library, solves a tube held at one end with a
 * force on the other, and holds the droop against the hand calculation P L^3 / (3 E I) + P L / (G
 * A) (Euler-Bernoulli bending plus Timoshenko's shear, any textbook on strength of materials).
 * Compiles as C and as C++.
 */
#include <trivet/trivet.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

static int fail(const char *what, const trivet_message *message)
{
    char line[512];
    trivet_message_text(message, line, sizeof line);
    printf("%s: %s\n", what, line);
    return 1;
}

static trivet_status build(double P, double L, const trivet_profile *profile,
                           const trivet_material *material, trivet_frame *frame,
                           trivet_message *message)
{
    const double held_at[3] = {0.0, 0.0, 0.0};
    const double tip_at[3] = {L, 0.0, 0.0};
    const double force[3] = {0.0, 0.0, -P};
    const int32_t through[2] = {0, 1};
    trivet_mount mount;
    trivet_status status = trivet_mount_defaults(&mount, sizeof mount);
    mount.joint = 0;
    mount.held = TRIVET_ALL;
    if (!status) {
        status = trivet_frame_add_joint(frame, "held", held_at, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_joint(frame, "tip", tip_at, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_stock(frame, "bar", profile, material, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_tube(frame, "arm", through, 2, 0, 0.0, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_mount(frame, &mount, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_case(frame, "hung", NULL, NULL, message);
    }
    if (!status) {
        status = trivet_frame_add_joint_force(frame, 0, 1, force, NULL, message);
    }
    return status;
}

int main(void)
{
    const double P = 300.0;      /* N */
    const double L = 0.5;        /* m */
    const double E = 210e9;      /* Pa */
    const double G = 80e9;       /* Pa */
    const double I = 8.0e-9;     /* m^4 */
    const double shear = 4.0e-5; /* m^2 */
    trivet_profile profile;
    trivet_material material;
    trivet_frame *frame = NULL;
    trivet_result *result = NULL;
    trivet_message message;
    memset(&message, 0, sizeof message);

    if (trivet_abi() != TRIVET_ABI || strcmp(trivet_version(), TRIVET_VERSION) != 0) {
        puts("headers and library are of different versions");
        return 1;
    }
    if (trivet_profile_defaults(&profile, sizeof profile) ||
        trivet_material_defaults(&material, sizeof material)) {
        puts("header and library disagree on the size of a struct");
        return 1;
    }
    profile.shape = TRIVET_SHAPE_GIVEN_VALUES;
    profile.given_area = 1.0e-4;
    profile.given_shear_area[0] = shear;
    profile.given_shear_area[1] = shear;
    profile.given_second_moment[0] = I;
    profile.given_second_moment[1] = I;
    profile.given_torsion_constant = 2.0 * I;
    material.E = E;
    material.G = G;
    material.density = 7850.0;

    if (trivet_frame_new(&frame, &message) || build(P, L, &profile, &material, frame, &message) ||
        trivet_frame_solve(frame, &result, &message)) {
        trivet_frame_free(frame);
        return fail("cantilever", &message);
    }
    const double *const moves = trivet_result_moves(result, NULL, NULL); /* [case][joint][6] */
    const double droop = -moves[6 + 2];
    const double by_hand = P * L * L * L / (3.0 * E * I) + P * L / (G * shear);
    trivet_result_free(result);
    trivet_frame_free(frame);
    printf("droop %.9f mm, by hand %.9f mm\n", 1e3 * droop, 1e3 * by_hand);
    /* A 6 x 6 solve of condition below 1e6 after scaling loses at most some 10 digits of 16. */
    return fabs(droop - by_hand) <= 1e-9 * by_hand ? 0 : 1;
}
