#include "weld_frames.h"

#include "follow.h"

#include <check.h>

#define DO(call) ck_assert_int_eq((call), TRIVET_OK)

trivet_profile sharp_tube(double width, double wall)
{
    trivet_profile of = square_tube(width, wall);
    of.corner = TRIVET_CORNER_SHARP;
    return of;
}

trivet_material steel(double tensile)
{
    trivet_material of = beam_material(235e6, 0.0);
    of.tensile = tensile;
    return of;
}

trivet_weld fillet(double throat)
{
    trivet_weld weld;
    DO(trivet_weld_defaults(&weld, sizeof weld));
    weld.throat = throat;
    return weld;
}

void weld_end(beam *of, int32_t tube, int32_t joint, trivet_weld weld)
{
    DO(trivet_frame_set_weld(of->frame, tube, joint, &weld, NULL));
}

beam cantilever(trivet_profile profile, double length)
{
    beam of = beam_new();
    must_add_joint(of.frame, "A", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "B", length, 0.0, 0.0);
    beam_tube(&of, "rail", beam_stock(&of, "bar", profile, steel(360e6)), A, B);
    must_add_mount(of.frame, A, TRIVET_ALL);
    beam_case(&of, "push");
    return of;
}

beam tee_from(double x, double z, int32_t first, int32_t last)
{
    beam of = beam_new();
    must_add_joint(of.frame, "A", -0.2, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.2, 0.0, 0.0);
    must_add_joint(of.frame, "D", x, 0.0, z);
    const int32_t stock = beam_stock(&of, "tube", sharp_tube(0.025, 0.002), steel(360e6));
    beam_tube_of_three(&of, "rail", stock, A, B, C);
    beam_tube(&of, "post", stock, first, last);
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, C, TRIVET_ALL);
    beam_case(&of, "push");
    return of;
}

beam tee(double x, double z)
{
    return tee_from(x, z, B, D);
}

beam pulled_post(trivet_profile post, trivet_material material, trivet_weld weld)
{
    beam of = beam_new();
    must_add_joint(of.frame, "A", -0.2, 0.0, 0.0);
    must_add_joint(of.frame, "B", 0.0, 0.0, 0.0);
    must_add_joint(of.frame, "C", 0.2, 0.0, 0.0);
    must_add_joint(of.frame, "D", 0.0, 0.0, 0.2);
    beam_tube_of_three(&of, "rail",
                       beam_stock(&of, "rail", sharp_tube(0.025, 0.0015), steel(360e6)), A, B, C);
    beam_tube(&of, "post", beam_stock(&of, "post", post, material), B, D);
    must_add_mount(of.frame, A, TRIVET_ALL);
    must_add_mount(of.frame, C, TRIVET_ALL);
    beam_force(&of, beam_case(&of, "push"), D, 0.0, 0.0, 1000.0);
    weld_end(&of, 1, B, weld);
    return of;
}

void follow_weld(const beam *of, const char *tube)
{
    follow_working(of, "weld", tube, "push");
}
