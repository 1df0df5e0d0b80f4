/*
 * Saddles against the curve in which two cylinders meet, worked out the other way round: points of
 * the tube's outside are moved along it until their distance from the other axis is its radius.
 */
#include "support/dice.h"
#include "support/frames.h"
#include "support/near.h"
#include "support/run.h"
#include "trivet/shop.h"

#include <stdlib.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

/* A chord of 60 mm along x through O, a brace of 40 mm down from T onto it, `aside` beside it. */
static trivet_frame *saddle_frame(double angle, double aside)
{
    trivet_frame *const frame = must_new_frame();
    const trivet_profile thick = round_tube(0.060, 0.003);
    const trivet_profile thin = round_tube(0.040, 0.002);
    const int32_t chord = must_add_stock(frame, "chord", &thick);
    const int32_t brace = must_add_stock(frame, "brace & <b>", &thin);
    const int32_t a = must_add_joint(frame, "A", -1.0, 0.0, 0.0);
    const int32_t o = must_add_joint(frame, "O", 0.0, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 1.0, 0.0, 0.0);
    const int32_t t = must_add_joint(frame, "T", -0.5 * cos(angle), 0.0, 0.5 * sin(angle));
    const int32_t along[3] = {a, o, b};
    const int32_t down[2] = {t, o};
    const double offset[3] = {0.0, aside, 0.0};
    trivet_message message;
    must_add_tube(frame, "chord", along, 3, chord);
    const int32_t tube = must_add_tube(frame, "brace <&\"'>", down, 2, brace);
    must(trivet_frame_set_offset(frame, tube, o, offset, &message), &message);
    must(trivet_frame_set_offset(frame, tube, t, offset, &message), &message);
    must_add_mount(frame, a, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

static trivet_cuts *must_cut(const trivet_frame *frame, double gap)
{
    trivet_shop shop;
    trivet_cuts *cuts = NULL;
    trivet_message message;
    ck_assert_int_eq(trivet_shop_defaults(&shop, sizeof shop), TRIVET_OK);
    shop.gap = gap;
    must(trivet_cuts_new(frame, &shop, &cuts, &message), &message);
    return cuts;
}

/* How far from its end in the model a line of the brace's outside may run until it is as near to
 * the x axis as radius: by halving. round: from the top of the brace, right-handed about its way.
 */
static double meets_chord(double angle, double aside, double radius, double round)
{
    /* Down along d; the top of the brace is square to it, up; left is y or -y. */
    const double d[3] = {cos(angle), 0.0, -sin(angle)};
    const double top[3] = {sin(angle), 0.0, cos(angle)};
    const double left[3] = {0.0, 1.0, 0.0}; /* top x d */
    double low = -0.4;
    double high = 0.0; /* the axis of the brace passes the chord's at `aside` there */
    for (int i = 0; i < 200; i++) {
        const double middle = 0.5 * (low + high);
        double y = aside;
        double z = middle * d[2];
        y += 0.020 * (cos(round) * top[1] - sin(round) * left[1]);
        z += 0.020 * (cos(round) * top[2] - sin(round) * left[2]);
        if (hypot(y, z) > radius) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

START_TEST(saddle_fits_the_other_tube)
{
    static const double ANGLES[] = {0.5 * 3.14159265358979323846, 1.0, 0.6};
    static const double ASIDES[] = {0.0, 0.004, -0.009};
    for (size_t i = 0; i < 9; i++) {
        const double angle = ANGLES[i % 3];
        const double aside = ASIDES[i / 3];
        const double gap = i % 2 == 0 ? 0.0 : 0.0005;
        trivet_frame *const frame = saddle_frame(angle, aside);
        trivet_cuts *const cuts = must_cut(frame, gap);
        trivet_cut_piece piece = {.size = sizeof piece};
        ck_assert_int_eq(trivet_cuts_piece(cuts, 1, &piece), TRIVET_OK);
        const trivet_cut_end *const end = &piece.ends[1];
        ck_assert_int_eq(end->cut, TRIVET_CUT_SADDLE);
        ck_assert_int_eq(end->has_template, 1);
        near_scaled(end->angle, 0.5 * PI - angle, 1e-9, 1.0);
        for (int k = 0; k < 72; k++) {
            const double round = k * PI / 36.0;
            const double depth = trivet_cuts_saddle_depth(cuts, 1, 1, round);
            near_scaled(end->longest - depth, meets_chord(angle, aside, 0.030 + gap, round), 1e-9,
                        1.0);
        }
        trivet_cuts_free(cuts);
        trivet_frame_free(frame);
    }
}
END_TEST

/* Square on, axes meeting: r = 20 mm on R = 30 mm is R - sqrt(R^2 - r^2) = 7.64 mm deep. */
START_TEST(square_saddle_by_hand)
{
    trivet_frame *const frame = saddle_frame(0.5 * PI, 0.0);
    trivet_cuts *const cuts = must_cut(frame, 0.0);
    trivet_cut_piece piece = {.size = sizeof piece};
    ck_assert_int_eq(trivet_cuts_piece(cuts, 1, &piece), TRIVET_OK);
    near_scaled(piece.ends[1].longest - piece.ends[1].shortest, 0.030 - sqrt(5.0) / 100.0, 1e-12,
                1.0);
    near_scaled(piece.longest, 0.5 - sqrt(5.0) / 100.0, 1e-12, 1.0);
    near_scaled(piece.length, 0.47, 1e-12, 1.0);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(template_is_whole_and_escaped)
{
    trivet_frame *const frame = saddle_frame(1.0, 0.0);
    trivet_cuts *const cuts = must_cut(frame, 0.0);
    const size_t length = trivet_cuts_template_svg(cuts, 1, 1, NULL, 0);
    char *const text = malloc(length + 1);
    char shorter[64];
    char name[64];
    ck_assert_ptr_nonnull(text);
    ck_assert_uint_gt(length, 1000);
    ck_assert_uint_eq(trivet_cuts_template_svg(cuts, 1, 1, text, length + 1), length);
    ck_assert_uint_eq(strlen(text), length);
    ck_assert_ptr_nonnull(strstr(text, "brace &lt;&amp;&quot;&#39;&gt; at O, onto chord"));
    ck_assert_ptr_nonnull(strstr(text, "h100m0"));
    ck_assert_ptr_nonnull(strstr(text, "</svg>\n"));
    ck_assert_uint_eq(trivet_cuts_template_svg(cuts, 1, 1, shorter, sizeof shorter), length);
    ck_assert_int_eq(strncmp(shorter, text, sizeof shorter - 1), 0);
    ck_assert_uint_eq(strlen(shorter), sizeof shorter - 1);
    ck_assert_uint_eq(trivet_cuts_template_svg(cuts, 0, 1, text, length + 1), 0);
    trivet_cuts_template_name(cuts, 1, 1, name, sizeof name);
    ck_assert_str_eq(name, "02b-brace-------O.svg");
    free(text);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("saddle", TESTS(saddle_fits_the_other_tube, square_saddle_by_hand,
                                     template_is_whole_and_escaped));
}
