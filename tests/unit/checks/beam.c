#include "beam.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

beam beam_new(void)
{
    beam of = {NULL, NULL, NULL, {0}};
    DO(trivet_frame_new(&of.frame, NULL));
    DO(trivet_limits_defaults(&of.limits, sizeof of.limits));
    return of;
}

void beam_free(beam *of)
{
    trivet_checks_free(of->checks);
    trivet_result_free(of->result);
    trivet_frame_free(of->frame);
}

trivet_material beam_material(double yield, double welded_yield)
{
    trivet_material material;
    DO(trivet_material_defaults(&material, sizeof material));
    material.E = 210e9;
    material.G = 81e9;
    material.density = 1e-6;
    material.yield = yield;
    material.welded_yield = welded_yield;
    strcpy(material.source, "made up for the test");
    return material;
}

int32_t beam_stock(beam *of, const char *name, trivet_profile profile, trivet_material material)
{
    int32_t stock = -1;
    DO(trivet_frame_add_stock(of->frame, name, &profile, &material, &stock, NULL));
    return stock;
}

int32_t beam_tube(beam *of, const char *name, int32_t stock, int32_t first, int32_t last)
{
    const int32_t joints[2] = {first, last};
    return must_add_tube(of->frame, name, joints, 2, stock);
}

int32_t beam_tube_of_three(beam *of, const char *name, int32_t stock, int32_t first, int32_t middle,
                           int32_t last)
{
    const int32_t joints[3] = {first, middle, last};
    return must_add_tube(of->frame, name, joints, 3, stock);
}

int32_t beam_case(beam *of, const char *name)
{
    int32_t number = -1;
    DO(trivet_frame_add_case(of->frame, name, NULL, &number, NULL));
    return number;
}

void beam_force(beam *of, int32_t in_case, int32_t joint, double x, double y, double z)
{
    const double force[3] = {x, y, z};
    DO(trivet_frame_add_joint_force(of->frame, in_case, joint, force, NULL, NULL));
}

void beam_moment(beam *of, int32_t in_case, int32_t joint, double x, double y, double z)
{
    const double moment[3] = {x, y, z};
    DO(trivet_frame_add_joint_force(of->frame, in_case, joint, NULL, moment, NULL));
}

void beam_line(beam *of, int32_t in_case, int32_t tube, double down)
{
    const double line[3] = {0.0, 0.0, -down};
    DO(trivet_frame_add_tube_line(of->frame, in_case, tube, 0.0, (double)NAN, line, line,
                                  TRIVET_WORLD_AXES, NULL));
}

void beam_check(beam *of)
{
    trivet_message message;
    of->result = must_solve(of->frame);
    must(trivet_checks_new(of->frame, of->result, &of->limits, &of->checks, &message), &message);
}

trivet_check beam_find(const beam *of, const char *check, const char *where, const char *in_case)
{
    trivet_check found = {.size = 0};
    int count = 0;
    for (int32_t i = 0; i < trivet_checks_count(of->checks); i++) {
        trivet_check at = {.size = sizeof at};
        DO(trivet_checks_at(of->checks, i, &at));
        if (strcmp(at.check, check) == 0 && strcmp(at.where, where) == 0 &&
            strcmp(at.in_case, in_case) == 0) {
            found = at;
            count++;
        }
    }
    ck_assert_msg(count == 1, "%d checks of %s at %s in %s", count, check, where, in_case);
    return found;
}

const char *beam_omission(const beam *of, const char *what)
{
    for (int32_t i = 0; i < trivet_checks_omission_count(of->checks); i++) {
        const char *why = NULL;
        if (strcmp(trivet_checks_omission(of->checks, i, NULL, &why), what) == 0) {
            return why;
        }
    }
    return NULL;
}

beam beam_cantilever(trivet_profile profile, double yield, double length, double down)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", length, 0.0, 0.0);
    beam_tube(&of, "rail", beam_stock(&of, "bar", profile, beam_material(yield, 0.0)), A, B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "push"), B, 0.0, 0.0, -down);
    return of;
}

beam beam_on_two_mounts(trivet_profile profile, double yield, double length)
{
    beam of = beam_new();
    const int32_t A = must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    const int32_t B = must_add_joint(of.frame, "B", length, 0.0, 0.0);
    beam_tube(&of, "rail", beam_stock(&of, "bar", profile, beam_material(yield, 0.0)), A, B);
    must_add_mount(of.frame, A, TRIVET_POSITION | TRIVET_RX);
    must_add_mount(of.frame, B, TRIVET_Y | TRIVET_Z);
    return of;
}
