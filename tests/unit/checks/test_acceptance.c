/*
 * A carrier that anybody can check by hand: two rails of 20 x 20 x 2 mm on two pairs of mounts 250
 * mm apart, 25 kg behind them. All expected values are arithmetic that stands beside them.
 *
 *      F ------ L ------ R ------ a ------ E
 *    front             rear               load
 *
 * Handbook formulas of an overhanging beam (any handbook of beams; from memory): with F down at E
 * the front mount pulls F a / L down on its rail, the rear one pushes F (L + a) / L up; the moment
 * over the rear mount is F a; the end comes down F a^2 (L + a) / (3 E I), and by shear F a / (G As)
 * on the overhang and, because the front span's slope F a / L / (G As) turns the rail over the rear
 * mount, a / L times as much again.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/checks.h"

#include <check.h>
#include <math.h>
#include <string.h>

#define GRAVITY 9.80665 /* m/s^2, standard gravity: 3rd CGPM 1901 */
#define PI 3.14159265358979323846
#define YIELD 235e6
#define E_STEEL 210e9
#define G_STEEL 81e9
#define MASS 25.0
#define SIDE 0.020
#define WALL 0.002

/* Rounding of a solution with few joints. The rails weigh 1e-6 / 7850 of steel: far below it. */
#define ROUNDING 1e-9

enum { FRONT_LEFT, REAR_LEFT, FRONT_RIGHT, REAR_RIGHT, MOUNTS };
enum { PARKED, ROAD, LEAN }; /* cases: 1 g, 3 g, a passenger */

typedef struct carrier {
    trivet_frame *frame;
    trivet_result *result;
    int32_t ends[2];
} carrier;

/*
 * EN 10219-2 annex B, corners of the standard for walls up to 6 mm: outside 2 T, inside 1 T.
 * Second moment of area, m^4.
 */
static double second_moment(void)
{
    const double h = SIDE;
    const double in = SIDE - 2.0 * WALL;
    const double ro = 2.0 * WALL;
    const double ri = WALL;
    const double own = 1.0 / 3.0 - PI / 16.0 - 1.0 / (3.0 * (12.0 - 3.0 * PI));
    const double arm = (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI);
    const double ag = (1.0 - PI / 4.0) * ro * ro;
    const double ax = (1.0 - PI / 4.0) * ri * ri;
    const double hg = h / 2.0 - arm * ro;
    const double hx = in / 2.0 - arm * ri;
    return pow(h, 4) / 12.0 - pow(in, 4) / 12.0 - 4.0 * (own * pow(ro, 4) + ag * hg * hg) +
           4.0 * (own * pow(ri, 4) + ax * hx * hx);
}

/* Section modulus 2 I / h, m^3. */
static double modulus(void)
{
    return 2.0 * second_moment() / SIDE;
}

/* Of one rail: half of the load. */
static double load_at(double g)
{
    return g * MASS * GRAVITY / 2.0;
}

static void add_mount(trivet_frame *frame, int32_t joint, double turning)
{
    trivet_mount mount;
    trivet_message message;
    must(trivet_mount_defaults(&mount, sizeof mount), NULL);
    mount.joint = joint;
    mount.held = TRIVET_POSITION | TRIVET_RX; /* a pin across the rail, which cannot roll over */
    mount.spring[4] = turning;
    must(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
}

static void add_load(carrier *of, double spacing, double reach)
{
    const double centre[3] = {-spacing - reach, 0.0, 0.0};
    const double at[3] = {-spacing - reach, 0.0, 0.35};
    const double push[3] = {-400.0, 0.0, 0.0};
    int32_t cargo = -1;
    trivet_message message;
    must(trivet_frame_add_cargo(of->frame, "load", centre, of->ends, 2, TRIVET_GRIP_SOFT, &cargo,
                                &message),
         &message);
    must(trivet_frame_add_item(of->frame, cargo, "bag", MASS, &message), &message);
    must_add_case(of->frame, "parked", 1.0);
    must_add_case(of->frame, "road", 3.0);
    const int32_t lean = must_add_case(of->frame, "lean", 0.0);
    must(trivet_frame_add_cargo_force(of->frame, lean, cargo, push, NULL, at, &message), &message);
}

/* turning: N m/rad about y at each rear mount, 0: none. */
static carrier carrier_of(double spacing, double reach, double turning)
{
    static const char *const NAMES[2][3] = {{"FL", "RL", "EL"}, {"FR", "RR", "ER"}};
    carrier of = {.frame = must_new_frame()};
    trivet_material steel = steel_material();
    const trivet_profile profile = square_tube(SIDE, WALL);
    trivet_message message;
    int32_t stock = -1;
    steel.density = 1e-6;
    must(trivet_frame_add_stock(of.frame, "rail", &profile, &steel, &stock, &message), &message);
    for (int side = 0; side < 2; side++) {
        const double along[3] = {0.0, -spacing, -spacing - reach};
        int32_t joints[3];
        for (int i = 0; i < 3; i++) {
            joints[i] =
                must_add_joint(of.frame, NAMES[side][i], along[i], side == 0 ? 0.16 : -0.16, 0.0);
        }
        must_add_tube(of.frame, side == 0 ? "left rail" : "right rail", joints, 3, stock);
        add_mount(of.frame, joints[0], 0.0);
        add_mount(of.frame, joints[1], turning);
        of.ends[side] = joints[2];
    }
    add_load(&of, spacing, reach);
    of.result = must_solve(of.frame);
    return of;
}

static void carrier_free(carrier *of)
{
    trivet_result_free(of->result);
    trivet_frame_free(of->frame);
}

/* A pull or push of a mount, N. */
static double carried(const carrier *of, int32_t in_case, int32_t mount, int what)
{
    double values[TRIVET_CARRY_COUNT];
    ck_assert_int_eq(trivet_mount_carries(of->frame, of->result, in_case, mount, values),
                     TRIVET_OK);
    return values[what];
}

static double end_droop(const carrier *of, int32_t in_case, int side)
{
    int32_t joints = 0;
    const double *const moves = trivet_result_moves(of->result, NULL, &joints);
    return -moves[6 * (in_case * joints + of->ends[side]) + 2];
}

static double shear_area(const carrier *of)
{
    return trivet_frame_section(of->frame, 0)->shear_area[1];
}

/* The value of a step of the working. */
static double step_of(const trivet_checks *checks, int32_t index, const char *symbol)
{
    trivet_check check = {.size = sizeof check};
    double value = (double)NAN;
    ck_assert_int_eq(trivet_checks_at(checks, index, &check), TRIVET_OK);
    for (int32_t s = 0; s < check.step_count; s++) {
        trivet_step step = {.size = sizeof step};
        ck_assert_int_eq(trivet_checks_step(checks, index, s, &step), TRIVET_OK);
        value = strcmp(step.symbol, symbol) == 0 ? step.value : value;
    }
    return value;
}

/*
 * The most that shear adds to M / W: the shear stress at the rail's neutral line, V Q / (2 I T),
 * with Q of half the square without its roundings, all of it where bending is at its most.
 */
static double with_shear(double sigma, double force)
{
    const double in = SIDE / 2.0 - WALL;
    const double q = SIDE * pow(SIDE / 2.0, 2) / 2.0 - in * in * in; /* m^3 */
    const double tau = force * q / (2.0 * second_moment() * WALL);
    return sqrt(sigma * sigma + 3.0 * tau * tau);
}

/*
 * M = 3 * 25 kg * 9.80665 m/s^2 / 2 * 250 mm = 91.94 N m; EN 10219-2: W = 692.2 mm^3; 132.8 N/mm^2.
 */
START_TEST(stress_over_the_rear_mount_at_3_g)
{
    carrier of = carrier_of(0.25, 0.25, 0.0);
    const double sigma = load_at(3.0) * 0.25 / modulus();
    trivet_checks *checks = NULL;
    trivet_message message;
    int found = 0;
    near_scaled(modulus() * 1e9, 692.2, 0.05, 1.0);
    near_scaled(sigma * 1e-6, 132.8, 0.05, 1.0);
    must(trivet_checks_new(of.frame, of.result, NULL, &checks, &message), &message);
    for (int32_t i = 0; i < trivet_checks_count(checks); i++) {
        trivet_check check = {.size = sizeof check};
        ck_assert_int_eq(trivet_checks_at(checks, i, &check), TRIVET_OK);
        if (strcmp(check.check, "yield") != 0 || strcmp(check.in_case, "road") != 0) {
            continue;
        }
        found++;
        near_relative(check.at, 0.25, ROUNDING);
        near_relative(check.limit, YIELD / 1.5, ROUNDING);
        near_relative(fabs(step_of(checks, i, "sigma")), sigma, ROUNDING);
        ck_assert(check.demand >= sigma * (1.0 - ROUNDING));
        ck_assert(check.demand <= with_shear(sigma, load_at(3.0)));
    }
    ck_assert_int_eq(found, 2); /* one a rail */
    trivet_checks_free(checks);
    carrier_free(&of);
}
END_TEST

/* 25 kg on two rails: 122.6 N each; in front it pulls as much, behind it pushes twice as much. */
START_TEST(front_pull_and_rear_push_balance)
{
    carrier of = carrier_of(0.25, 0.25, 0.0);
    for (int32_t c = PARKED; c <= ROAD; c++) {
        const double force = load_at(c == PARKED ? 1.0 : 3.0);
        for (int side = 0; side < 2; side++) {
            const int32_t front = side == 0 ? FRONT_LEFT : FRONT_RIGHT;
            const int32_t rear = side == 0 ? REAR_LEFT : REAR_RIGHT;
            const double pull = carried(&of, c, front, TRIVET_CARRY_PULL);
            const double push = carried(&of, c, rear, TRIVET_CARRY_PUSH);
            near_relative(pull, force * 0.25 / 0.25, ROUNDING);
            near_relative(push, force * (0.25 + 0.25) / 0.25, ROUNDING);
            near_scaled(push - pull, force, ROUNDING, push);
            near_scaled(carried(&of, c, front, TRIVET_CARRY_PUSH), 0.0, ROUNDING, push);
            near_scaled(carried(&of, c, rear, TRIVET_CARRY_PULL), 0.0, ROUNDING, push);
        }
    }
    carrier_free(&of);
}
END_TEST

/* A shorter lever in front pulls more: F 250 / 120, 255 N a bolt at 1 g. */
START_TEST(mounts_120_mm_apart_pull_more)
{
    carrier of = carrier_of(0.12, 0.25, 0.0);
    const double pull = load_at(1.0) * 0.25 / 0.12;
    near_scaled(pull, 255.4, 0.05, 1.0);
    near_relative(carried(&of, PARKED, FRONT_LEFT, TRIVET_CARRY_PULL), pull, ROUNDING);
    near_relative(carried(&of, PARKED, FRONT_RIGHT, TRIVET_CARRY_PULL), pull, ROUNDING);
    near_relative(carried(&of, ROAD, FRONT_LEFT, TRIVET_CARRY_PULL), 3.0 * pull, ROUNDING);
    carrier_free(&of);
}
END_TEST

/* F = 367.7 N, I = 6922 mm^4: F a^2 (L + a) / (3 E I) = 2.635 mm by bending alone. */
START_TEST(droop_of_the_overhanging_end)
{
    const double L = 0.25;
    const double a = 0.25;
    carrier of = carrier_of(L, a, 0.0);
    const double force = load_at(3.0);
    const double bending = force * a * a * (L + a) / (3.0 * E_STEEL * second_moment());
    const double shear = force * a / (G_STEEL * shear_area(&of)) * (1.0 + a / L);
    double droop = (double)NAN;
    near_scaled(bending * 1e3, 2.635, 0.0005, 1.0);
    ck_assert(shear > 0.0 && shear < 0.02 * bending); /* slender: what handbooks leave out */
    near_relative(end_droop(&of, ROAD, 0), bending + shear, ROUNDING);
    near_relative(end_droop(&of, ROAD, 1), bending + shear, ROUNDING);
    ck_assert_int_eq(trivet_droop_worst(of.frame, of.result, ROAD, NULL, NULL, &droop), TRIVET_OK);
    near_relative(droop, bending + shear, ROUNDING);
    carrier_free(&of);
}
END_TEST

/*
 * A spring k = 4 kN m/rad about y at each rear mount. The rail turns there by phi; its front span,
 * free to turn in front, resists like a beam with a moment M1 at one end (handbook, from memory):
 * phi = M1 L / (3 E I), and by shear its slope M1 / L / (G As) more. So
 *
 *     M1 = phi / (L / (3 E I) + 1 / (L G As)),    spring: k phi,    F a = M1 + k phi
 *
 * and the end comes down phi a, and what the overhang bends by itself: F a^3 / (3 E I) + F a / (G
 * As). In front the mount pulls M1 / L, behind it pushes that and F. Without the shear: 3 E I / L =
 * 17.44 kN m/rad, phi = 91.94 N m / 21.44 kN m/rad = 4.287e-3, droop 1.072 + 1.318 = 2.39 mm.
 */
START_TEST(a_rear_mount_that_holds_by_a_spring)
{
    const double L = 0.25;
    const double a = 0.25;
    const double k = 4000.0;
    carrier of = carrier_of(L, a, k);
    carrier pinned = carrier_of(L, a, 0.0);
    const double force = load_at(3.0);
    const double EI = E_STEEL * second_moment();
    const double GA = G_STEEL * shear_area(&of);
    const double span = 1.0 / (L / (3.0 * EI) + 1.0 / (L * GA));
    const double phi = force * a / (span + k);
    const double droop = phi * a + force * a * a * a / (3.0 * EI) + force * a / GA;
    const double bending = force * a / (3.0 * EI / L + k) * a + force * a * a * a / (3.0 * EI);
    near_scaled(bending * 1e3, 2.39, 0.005, 1.0);
    ck_assert(droop > bending && droop < 1.02 * bending);
    near_relative(end_droop(&of, ROAD, 0), droop, ROUNDING);
    near_relative(end_droop(&of, ROAD, 1), droop, ROUNDING);
    near_relative(carried(&of, ROAD, FRONT_LEFT, TRIVET_CARRY_PULL), span * phi / L, ROUNDING);
    near_relative(carried(&of, ROAD, REAR_LEFT, TRIVET_CARRY_PUSH), span * phi / L + force,
                  ROUNDING);
    near_relative(carried(&of, ROAD, REAR_LEFT, TRIVET_CARRY_MOMENT), k * phi, ROUNDING);
    ck_assert(droop < end_droop(&pinned, ROAD, 0)); /* a spring beside a pin helps */
    carrier_free(&pinned);
    carrier_free(&of);
}
END_TEST

/* Stood once: so that a million bumps, which are looked at if nothing is said, do not rate it. */
static void add_one_ride(trivet_frame *frame)
{
    trivet_cycles cycles;
    trivet_message message;
    must(trivet_cycles_defaults(&cycles, sizeof cycles), NULL);
    cycles.to = ROAD;
    cycles.count = 1.0;
    must(trivet_frame_add_cycles(frame, "one ride", &cycles, NULL, &message), &message);
}

/*
 * Bending alone: m = W 235 / 1.5 / (3 g a / 2). 29.5 kg at 250 mm, 21.1 kg at 350 mm. The shear
 * beside it can only take a little off, at most what with_shear adds; the rating is found to a
 * ten-thousandth.
 */
static void rate(double reach, double printed)
{
    carrier of = carrier_of(0.25, reach, 0.0);
    trivet_rates *rates = NULL;
    trivet_rate rated = {.size = sizeof rated};
    trivet_limits limits;
    trivet_message message;
    trivet_check stop = {.size = sizeof stop};
    const double sigma = load_at(3.0) * reach / modulus();
    const double mass = modulus() * YIELD / 1.5 / (3.0 * GRAVITY * reach / 2.0);
    near_scaled(mass, printed, 0.05, 1.0);
    add_one_ride(of.frame);
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    limits.yield = 1.5;
    must(trivet_rates_new(of.frame, &limits, &rates, &message), &message);
    ck_assert_int_eq(trivet_rates_count(rates), 1);
    ck_assert_int_eq(trivet_rates_at(rates, 0, &rated), TRIVET_OK);
    ck_assert_int_eq(
        trivet_checks_at(trivet_rates_checks(rates, 0), trivet_rates_stop(rates, 0, 0), &stop),
        TRIVET_OK);
    ck_assert_str_eq(stop.check, "yield");
    ck_assert_str_eq(stop.in_case, "road");
    ck_assert_msg(rated.mass <= mass * (1.0 + 1e-4), "%.9g of %.9g", rated.mass, mass);
    ck_assert_msg(rated.mass >= mass * (1.0 - 1e-4) * sigma / with_shear(sigma, load_at(3.0)),
                  "%.9g of %.9g", rated.mass, mass);
    trivet_rates_free(rates);
    carrier_free(&of);
}

START_TEST(allowable_mass_at_250_and_350_mm)
{
    rate(0.25, 29.5);
    rate(0.35, 21.1);
}
END_TEST

/*
 * 400 N backward, 350 mm over the rails: a couple of 140 N m; two rails take it by forces 250 mm
 * apart: 140 N m / 250 mm / 2 = 280 N up in front and down behind each.
 */
START_TEST(a_passenger_leans_on_the_load)
{
    carrier of = carrier_of(0.25, 0.25, 0.0);
    const double pair = 400.0 * 0.35 / 0.25 / 2.0;
    for (int32_t m = 0; m < MOUNTS; m += 2) {
        near_relative(carried(&of, LEAN, m, TRIVET_CARRY_PULL), pair, ROUNDING);
        near_relative(carried(&of, LEAN, m + 1, TRIVET_CARRY_PUSH), pair, ROUNDING);
    }
    int32_t mounts = 0;
    const double *const reactions = trivet_result_reactions(of.result, NULL, &mounts);
    double forward = 0.0;
    for (int32_t m = 0; m < mounts; m++) {
        forward += reactions[6 * (LEAN * mounts + m)];
    }
    near_relative(forward, 400.0, ROUNDING);
    carrier_free(&of);
}
END_TEST

/* 25 kg * 350 mm / 1450 mm = 6.03 kg off the front wheel; the rails weigh nothing. */
START_TEST(relief_of_the_front_wheel)
{
    carrier of = carrier_of(0.25, 0.25, 0.0);
    double relief[3];
    trivet_vehicle vehicle;
    trivet_message message;
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_INCOMPLETE);
    ck_assert(isnan(relief[0]));
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), NULL);
    vehicle.wheelbase = 1.45;
    vehicle.rear_axle = -0.50 + 0.35; /* the load's centre stands 350 mm behind it */
    must(trivet_frame_set_vehicle(of.frame, &vehicle, &message), &message);
    ck_assert_int_eq(trivet_vehicle_relief(of.frame, relief), TRIVET_OK);
    near_relative(relief[0], 25.0 * 0.35 / 1.45, ROUNDING);
    near_scaled(relief[0], 6.03, 0.005, 1.0);
    carrier_free(&of);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(stress_over_the_rear_mount_at_3_g, front_pull_and_rear_push_balance,
              mounts_120_mm_apart_pull_more, droop_of_the_overhanging_end,
              a_rear_mount_that_holds_by_a_spring, allowable_mass_at_250_and_350_mm,
              a_passenger_leans_on_the_load, relief_of_the_front_wheel);
    return run_tests("acceptance", tests);
}
