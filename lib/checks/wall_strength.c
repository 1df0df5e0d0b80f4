/*
 * The walls of a tube under a bolt that presses them together.
 *
 * Rectangular tube: the least of three. The face as a plate that hinges along lines round a stiff
 * patch between the side walls, here a square as wide as the bolt's head: fy t^2 / (1 - beta)
 * (2 eta + 4 sqrt(1 - beta)), EN 1993-1-8 table 7.11 and AISC 360 K1-12. The head pushed through:
 * its outline times t times fy / sqrt(3). The two side walls as short columns: 2 chi fy t (w + 5 t)
 * with chi after EN 1993-1-1 6.3.1.2, curve c (cold formed), for the slenderness of table 7.11.
 *
 * Round tube: a plate across it, fy t^2 (4 + 20 beta^2), EN 1993-1-8 table 7.3; and the same
 * pushing through.
 *
 * All from memory. Which way the bolt goes through a rectangular tube is not looked at: its larger
 * side stands for both. Stress along the tube is left out (kn = kp = 1), the hole as well.
 */
#include "checks/wall_strength.h"

#include <math.h>

static const double PI = 3.14159265358979323846;

double trivet__face_stands(double yield, double wall, double face, double across, double along)
{
    const double beta = across / face;
    if (beta >= 1.0) {
        return HUGE_VAL;
    }
    return yield * wall * wall / (1.0 - beta) * (2.0 * along / face + 4.0 * sqrt(1.0 - beta));
}

/* AISC 360 J7-1, 1.8 Fy A_pb. */
double trivet__bearing_stands(double yield, double diameter, double thickness)
{
    return 1.8 * yield * diameter * thickness;
}

double trivet__head_width(const trivet_bolts *bolts, const trivet_thread *thread)
{
    if (bolts->head == TRIVET_HEAD_SOCKET) {
        return thread->socket_head;
    }
    return bolts->head == TRIVET_HEAD_COUNTERSUNK ? thread->countersunk_head
                                                  : thread->hexagon_width;
}

static int32_t find_form(const trivet_profile *profile, const trivet_material *material)
{
    if (!profile || !material || !(material->yield > 0.0)) {
        return TRIVET__WALL_UNKNOWN;
    }
    if (profile->shape == TRIVET_SHAPE_ROUND_TUBE) {
        return TRIVET__WALL_ROUND;
    }
    return profile->shape == TRIVET_SHAPE_SQUARE_TUBE ||
                   profile->shape == TRIVET_SHAPE_RECTANGULAR_TUBE
               ? TRIVET__WALL_FLAT
               : TRIVET__WALL_UNKNOWN;
}

/* The flexural buckling of a side wall, EN 1993-1-8 table 7.11 and EN 1993-1-1 6.3.1.2 curve c. */
static void solve_side(trivet__wall *wall)
{
    const double imperfection = 0.49;
    const double t = wall->thickness;
    const double lambda =
        3.46 * (wall->height / t - 2.0) / (PI * sqrt(wall->stiffness / wall->yield));
    const double phi = 0.5 * (1.0 + imperfection * (lambda - 0.2) + lambda * lambda);
    wall->slenderness = lambda;
    wall->helper = phi;
    wall->reduction = fmin(1.0, 1.0 / (phi + sqrt(phi * phi - lambda * lambda)));
    wall->side = 2.0 * wall->reduction * wall->yield * t * (wall->head + 5.0 * t);
}

static void solve_flat(const trivet_profile *profile, trivet__wall *wall)
{
    const double t = wall->thickness;
    wall->height = fmax(profile->height, profile->width);
    const double between = wall->height - t;
    wall->share = wall->head / between;
    wall->face = trivet__face_stands(wall->yield, t, between, wall->head, wall->head);
    solve_side(wall);
    wall->stands = fmin(wall->face, fmin(wall->punch, wall->side));
}

static void solve_round(const trivet_profile *profile, trivet__wall *wall)
{
    wall->height = profile->diameter;
    wall->share = wall->head / wall->height;
    wall->face =
        wall->yield * wall->thickness * wall->thickness * (4.0 + 20.0 * wall->share * wall->share);
    wall->stands = fmin(wall->face, wall->punch);
}

void trivet__wall_find(const trivet_frame *frame, const trivet_bolts *bolts, trivet__wall *wall_out)
{
    const trivet_profile *const profile = trivet_frame_profile(frame, bolts->clamped_stock);
    const trivet_material *const material = trivet_frame_material(frame, bolts->clamped_stock);
    const int32_t form = find_form(profile, material);
    trivet_thread thread;
    trivet_grade grade;
    *wall_out = (trivet__wall){.form = form, .stands = (double)NAN};
    if (form == TRIVET__WALL_UNKNOWN) {
        return;
    }
    trivet__bolt_kind(bolts, &thread, &grade);
    wall_out->yield = material->yield;
    wall_out->stiffness = material->E;
    wall_out->thickness = profile->wall;
    wall_out->head = trivet__head_width(bolts, &thread);
    wall_out->punch = PI * wall_out->head * profile->wall * material->yield / sqrt(3.0);
    if (form == TRIVET__WALL_FLAT) {
        solve_flat(profile, wall_out);
    } else {
        solve_round(profile, wall_out);
    }
}

double trivet__wall_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    trivet__wall wall;
    if (bolts->clamped != TRIVET_CLAMPED_HOLLOW) {
        return HUGE_VAL;
    }
    trivet__wall_find(frame, bolts, &wall);
    return wall.stands;
}

double trivet__sleeve_yield(const trivet_frame *frame, const trivet_bolts *bolts)
{
    if (!isnan(bolts->sleeve_yield)) {
        return bolts->sleeve_yield;
    }
    const trivet_material *const material = trivet_frame_material(frame, bolts->clamped_stock);
    return material && material->yield > 0.0 ? material->yield : (double)NAN;
}

/* Its ring squashed flat; it is too short to buckle. */
double trivet__sleeve_stands(const trivet_frame *frame, const trivet_bolts *bolts)
{
    if (bolts->clamped != TRIVET_CLAMPED_SLEEVE) {
        return HUGE_VAL;
    }
    const double outside = bolts->sleeve_diameter;
    const double inside = outside - 2.0 * bolts->sleeve_wall;
    return PI / 4.0 * (outside * outside - inside * inside) * trivet__sleeve_yield(frame, bolts);
}
