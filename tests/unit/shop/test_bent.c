/*
 * Bent pieces by hand: straights less setbacks plus arcs.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/shop.h"

#include <string.h>

static const double PI = 3.14159265358979323846;

static const int32_t TUBES[] = {0, 1, 2};

/* A hoop of 20 mm round tube: 300 mm up, 400 mm across, 300 mm along x. */
static trivet_frame *hoop_frame(void)
{
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = round_tube(0.020, 0.002);
    const int32_t stock = must_add_stock(frame, "tube", &profile);
    const int32_t a = must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 0.0, 0.0, 0.3);
    const int32_t c = must_add_joint(frame, "C", 0.0, 0.4, 0.3);
    const int32_t d = must_add_joint(frame, "D", 0.3, 0.4, 0.3);
    const int32_t along[3][2] = {{a, b}, {c, b}, {c, d}}; /* the second runs the other way */
    must_add_tube(frame, "up", along[0], 2, stock);
    must_add_tube(frame, "across", along[1], 2, stock);
    must_add_tube(frame, "out", along[2], 2, stock);
    must_add_mount(frame, a, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

static trivet_shop_bend hoop(double radius, double neutral)
{
    trivet_shop_bend bend;
    ck_assert_int_eq(trivet_shop_bend_defaults(&bend, sizeof bend), TRIVET_OK);
    bend.name = "hoop";
    bend.tubes = TUBES;
    bend.tube_count = 3;
    bend.radius = radius;
    bend.neutral = neutral;
    return bend;
}

static trivet_shop shop_with(const trivet_shop_bend *bend)
{
    trivet_shop shop;
    ck_assert_int_eq(trivet_shop_defaults(&shop, sizeof shop), TRIVET_OK);
    shop.bends = bend;
    shop.bend_count = 1;
    return shop;
}

/* Each bend of 90 degrees sets back R tan 45 = 60 mm on both sides and takes pi/2 rho of the bar,
 * rho = 60 - 10 + 0.4 x 20 = 58 mm. Second bend: its plane is turned by 90 degrees. */
START_TEST(developed_length_by_hand)
{
    trivet_frame *const frame = hoop_frame();
    const trivet_shop_bend bend = hoop(0.060, 0.4);
    const trivet_shop shop = shop_with(&bend);
    trivet_cuts *cuts = NULL;
    trivet_message message;
    trivet_cut_piece piece = {.size = sizeof piece};
    trivet_cut_bend bends[2] = {{.size = sizeof bends[0]}, {.size = sizeof bends[0]}};
    const double arc = 0.5 * PI * 0.058;
    must(trivet_cuts_new(frame, &shop, &cuts, &message), &message);
    ck_assert_int_eq(trivet_cuts_count(cuts), 1);
    ck_assert_int_eq(trivet_cuts_piece(cuts, 0, &piece), TRIVET_OK);
    ck_assert_int_eq(piece.bend, 0);
    ck_assert_int_eq(piece.bend_count, 2);
    near_scaled(piece.length, 1.0 - 4.0 * 0.060 + 2.0 * arc, 1e-12, 1.0);
    /* Its mass is that along the centre line: bending moves nothing away. */
    near_relative(piece.mass,
                  trivet_frame_section(frame, 0)->area * 7850.0 *
                      (1.0 - 4.0 * 0.060 + 2.0 * 0.5 * PI * 0.060),
                  1e-12);
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(trivet_cuts_bend(cuts, 0, i, &bends[i]), TRIVET_OK);
        near_scaled(bends[i].angle, 0.5 * PI, 1e-12, 1.0);
        near_scaled(bends[i].to - bends[i].from, arc, 1e-12, 1.0);
    }
    near_scaled(bends[0].from, 0.240, 1e-12, 1.0);
    near_scaled(bends[1].from, 0.240 + arc + 0.280, 1e-12, 1.0);
    ck_assert(isnan(bends[0].turn));
    /* Up, then along y: normal z x y = -x. Along y, then x: normal y x x = -z. From -x to -z about
     * y, right-handed: x goes to -z, so -x goes to z: a quarter turn back. */
    near_scaled(bends[1].turn, -0.5 * PI, 1e-12, 1.0);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

static void refuse(double radius, double neutral, int32_t count, const char *problem)
{
    trivet_frame *const frame = hoop_frame();
    trivet_shop_bend bend = hoop(radius, neutral);
    trivet_message message;
    bend.tube_count = count;
    const trivet_shop shop = shop_with(&bend);
    ck_assert_int_eq(trivet_shop_check(frame, &shop, &message), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, "bent piece hoop");
    ck_assert_msg(strstr(message.problem, problem), "%s", message.problem);
    trivet_frame_free(frame);
}

START_TEST(what_cannot_be_bent_is_refused)
{
    refuse(0.25, 0.5, 3, "its bends take 500 mm of tube across, which is 400 mm long");
    refuse(0.009, 0.5, 3, "smaller radius than half its depth");
    refuse((double)NAN, 0.5, 3, "no radius");
    refuse(0.06, 1.5, 3, "neutral line outside");
    refuse(0.06, 0.5, 1, "one tube only");
}
END_TEST

int main(void)
{
    return run_tests("bent", TESTS(developed_length_by_hand, what_cannot_be_bent_is_refused));
}
