/*
 * The cut list by hand: corners, butts, who runs through, wishes, welds, holes.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"
#include "trivet/shop.h"

#include <string.h>

static const double PI = 3.14159265358979323846;

/* An L of 20 x 20 x 2 mm in the ground plane: A-B 300 mm along x, B-C 200 mm turned by `turn`. */
static trivet_frame *corner_frame(double turn)
{
    trivet_frame *const frame = must_new_frame();
    const trivet_profile profile = square_tube(0.020, 0.002);
    const int32_t stock = must_add_stock(frame, "rail", &profile);
    const int32_t a = must_add_joint(frame, "A", 0.0, 0.0, 0.0);
    const int32_t b = must_add_joint(frame, "B", 0.3, 0.0, 0.0);
    const int32_t c = must_add_joint(frame, "C", 0.3 + 0.2 * cos(turn), 0.2 * sin(turn), 0.0);
    const int32_t first[2] = {a, b};
    const int32_t second[2] = {b, c};
    must_add_tube(frame, "one", first, 2, stock);
    must_add_tube(frame, "two", second, 2, stock);
    must_add_mount(frame, a, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
    return frame;
}

static trivet_cuts *must_cut(const trivet_frame *frame, const trivet_shop *shop)
{
    trivet_cuts *cuts = NULL;
    trivet_message message;
    trivet_message_clear(&message);
    must(trivet_cuts_new(frame, shop, &cuts, &message), &message);
    ck_assert_ptr_nonnull(cuts);
    return cuts;
}

static trivet_cut_piece piece_of(const trivet_cuts *cuts, int32_t index)
{
    trivet_cut_piece piece = {.size = sizeof piece};
    ck_assert_int_eq(trivet_cuts_piece(cuts, index, &piece), TRIVET_OK);
    return piece;
}

static trivet_shop usual_shop(void)
{
    trivet_shop shop;
    ck_assert_int_eq(trivet_shop_defaults(&shop, sizeof shop), TRIVET_OK);
    return shop;
}

static trivet_shop_end wish(int32_t tube, int32_t joint, int32_t cut)
{
    trivet_shop_end end;
    ck_assert_int_eq(trivet_shop_end_defaults(&end, sizeof end), TRIVET_OK);
    end.tube = tube;
    end.joint = joint;
    end.cut = cut;
    return end;
}

/* Two cuts of 22.5 degrees turn by 45 (common practice); both halves agree with what the frame
 * itself says of its corner. */
START_TEST(a_corner_is_halved)
{
    const double turns[] = {0.25 * PI, 0.5 * PI, 0.1, 2.5};
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        trivet_frame *const frame = corner_frame(turns[i]);
        trivet_cuts *const cuts = must_cut(frame, NULL);
        double turn = 0.0;
        double miter = 0.0;
        ck_assert_int_eq(trivet_frame_corner(frame, 1, &turn, &miter), TRIVET_OK);
        for (int32_t p = 0; p < 2; p++) {
            const trivet_cut_piece piece = piece_of(cuts, p);
            const trivet_cut_end *const end = &piece.ends[1 - p];
            ck_assert_int_eq(end->cut, TRIVET_CUT_MITER);
            ck_assert_int_eq(end->onto, 1 - p);
            near_scaled(end->angle, 0.5 * turns[i], 1e-12, 1.0);
            near_scaled(end->angle, miter, 1e-12, 1.0);
            /* Half the width times the tangent, each way. */
            near_scaled(end->longest, 0.010 * tan(0.5 * turns[i]), 1e-12, 1.0);
            near_scaled(end->shortest, -0.010 * tan(0.5 * turns[i]), 1e-12, 1.0);
            near_scaled(end->beyond, 0.0, 1e-12, 1.0);
        }
        near_scaled(piece_of(cuts, 0).longest, 0.3 + 0.010 * tan(0.5 * turns[i]), 1e-12, 1.0);
        near_scaled(piece_of(cuts, 1).shortest, 0.2 - 0.010 * tan(0.5 * turns[i]), 1e-12, 1.0);
        trivet_cuts_free(cuts);
        trivet_frame_free(frame);
    }
}
END_TEST

/* With a gap g, half of it on each side, square to the cut: (g/2)/cos along the tube. */
START_TEST(the_gap_comes_off_both_sides_of_a_miter)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    trivet_shop shop = usual_shop();
    shop.gap = 0.001;
    trivet_cuts *const cuts = must_cut(frame, &shop);
    near_scaled(piece_of(cuts, 0).ends[1].beyond, -0.0005 * sqrt(2.0), 1e-12, 1.0);
    near_scaled(piece_of(cuts, 1).ends[0].beyond, -0.0005 * sqrt(2.0), 1e-12, 1.0);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

/* One end through, so that the other butts: half the width off, and half the width on. */
START_TEST(a_wish_makes_the_other_give_way)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    const trivet_shop_end through = wish(1, 1, TRIVET_CUT_THROUGH);
    trivet_shop shop = usual_shop();
    shop.ends = &through;
    shop.end_count = 1;
    trivet_cuts *const cuts = must_cut(frame, &shop);
    const trivet_cut_piece butts = piece_of(cuts, 0);
    const trivet_cut_piece runs = piece_of(cuts, 1);
    ck_assert_int_eq(butts.ends[1].cut, TRIVET_CUT_BUTT);
    ck_assert_int_eq(butts.ends[1].onto, 1);
    near_scaled(butts.longest, 0.290, 1e-12, 1.0);
    near_scaled(butts.shortest, 0.290, 1e-12, 1.0);
    ck_assert_int_eq(runs.ends[0].cut, TRIVET_CUT_THROUGH);
    near_scaled(runs.longest, 0.210, 1e-12, 1.0);
    ck_assert_int_eq(runs.ends[1].cut, TRIVET_CUT_FREE);
    ck_assert(isnan(butts.turn));
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

static void expect_refusal(const trivet_frame *frame, const trivet_shop_end *ends, int32_t count,
                           const char *thing, const char *problem)
{
    trivet_shop shop = usual_shop();
    trivet_message message;
    trivet_cuts *cuts = NULL;
    shop.ends = ends;
    shop.end_count = count;
    ck_assert_int_eq(trivet_shop_check(frame, &shop, &message), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, thing);
    ck_assert_msg(strstr(message.problem, problem), "%s", message.problem);
    ck_assert_int_eq(trivet_cuts_new(frame, &shop, &cuts, &message), TRIVET_BAD_VALUE);
    ck_assert_ptr_null(cuts);
}

START_TEST(wishes_that_cannot_be_granted_are_refused)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    const trivet_shop_end free_end = wish(0, 0, TRIVET_CUT_BUTT);
    const trivet_shop_end both_through[2] = {wish(0, 1, TRIVET_CUT_THROUGH),
                                             wish(1, 1, TRIVET_CUT_THROUGH)};
    const trivet_shop_end both_butt[2] = {wish(0, 1, TRIVET_CUT_BUTT), wish(1, 1, TRIVET_CUT_BUTT)};
    const trivet_shop_end half_miter[2] = {wish(0, 1, TRIVET_CUT_MITER),
                                           wish(1, 1, TRIVET_CUT_BUTT)};
    const trivet_shop_end saddle = wish(0, 1, TRIVET_CUT_SADDLE);
    expect_refusal(frame, &free_end, 1, "tube one, cut at A", "no other tube");
    expect_refusal(frame, both_through, 2, "tube one, cut at B", "both to run through");
    expect_refusal(frame, both_butt, 2, "tube one, cut at B", "none runs through");
    expect_refusal(frame, half_miter, 2, "tube one, cut at B", "the other tube there is not");
    expect_refusal(frame, &saddle, 1, "tube one, cut at B", "not round");
    trivet_frame_free(frame);
}
END_TEST

/* A post of 30 x 30 on which two beams of 20 x 20 end: the heavier runs through, to the far side of
 * what sits on it; the beams lose half its width. Weld: twice the outline of a 20 mm tube with
 * corners of 4 mm, 4 x 12 + 8 pi; metal a^2 L rho with a = 0.7 x 2 mm. */
START_TEST(the_heaviest_runs_through)
{
    trivet_frame *const frame = must_new_frame();
    const trivet_profile thin = square_tube(0.020, 0.002);
    const trivet_profile thick = square_tube(0.030, 0.002);
    const int32_t beam = must_add_stock(frame, "beam", &thin);
    const int32_t post = must_add_stock(frame, "post", &thick);
    const int32_t o = must_add_joint(frame, "O", 0.0, 0.0, 0.0);
    const int32_t x = must_add_joint(frame, "X", 0.5, 0.0, 0.0);
    const int32_t y = must_add_joint(frame, "Y", 0.0, 0.4, 0.0);
    const int32_t z = must_add_joint(frame, "Z", 0.0, 0.0, -0.6);
    const int32_t along[3][2] = {{o, x}, {y, o}, {z, o}};
    const double round = 4.0 * 0.012 + 8e-3 * PI;
    trivet_cut_totals totals = {.size = sizeof totals};
    must_add_tube(frame, "east", along[0], 2, beam);
    must_add_tube(frame, "north", along[1], 2, beam);
    must_add_tube(frame, "post", along[2], 2, post);
    must_add_mount(frame, z, TRIVET_ALL);
    must_add_case(frame, "weight", 1.0);
    trivet_cuts *const cuts = must_cut(frame, NULL);
    near_scaled(piece_of(cuts, 0).longest, 0.485, 1e-12, 1.0);
    near_scaled(piece_of(cuts, 1).longest, 0.385, 1e-12, 1.0);
    ck_assert_int_eq(piece_of(cuts, 2).ends[1].cut, TRIVET_CUT_THROUGH);
    near_scaled(piece_of(cuts, 2).longest, 0.610, 1e-9, 1.0);
    ck_assert_int_eq(trivet_cuts_totals(cuts, &totals), TRIVET_OK);
    near_relative(totals.weld_length, 2.0 * round, 1e-9);
    near_relative(totals.weld_metal, 0.0014 * 0.0014 * 2.0 * round * 7850.0, 1e-9);
    near_relative(totals.wire, 1.1 * totals.weld_metal, 1e-12);
    near_relative(totals.sticks, 1.8 * totals.weld_metal, 1e-12);
    ck_assert_int_eq(totals.assumed_welds, 2);
    /* Outside: the outline times the length, of each tube. */
    near_relative(totals.paint_area, round * (0.485 + 0.385) + (4.0 * 0.022 + 8e-3 * PI) * 0.610,
                  1e-9);
    near_relative(totals.mass,
                  trivet_frame_section(frame, beam)->area * 7850.0 * (0.485 + 0.385) +
                      trivet_frame_section(frame, post)->area * 7850.0 * 0.610,
                  1e-9);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

/* A bolt across the tube 50 mm beyond joint B along the tube; M8: ISO 273 medium 9 mm. Countersunk
 * head of M8 by ISO 10642: 17.92 mm (theoretical). */
START_TEST(holes_are_measured_from_the_nearer_cut)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    trivet_bolts bolts;
    trivet_message message;
    trivet_cut_hole hole = {.size = sizeof hole};
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    bolts.where_kind = TRIVET_KIND_MOUNT;
    bolts.where_index = 0;
    bolts.clamped = TRIVET_CLAMPED_HOLLOW;
    bolts.clamped_stock = 0;
    bolts.head = TRIVET_HEAD_COUNTERSUNK;
    bolts.pattern[0][0] = 0.050;
    bolts.pattern[0][1] = 0.003;
    strcpy(bolts.thread, "M8"); /* NOLINT: it fits */
    strcpy(bolts.grade, "8.8"); /* NOLINT: it fits */
    must(trivet_frame_add_bolts(frame, &bolts, NULL, &message), &message);
    trivet_cuts *const cuts = must_cut(frame, NULL);
    ck_assert_int_eq(trivet_cuts_hole_count(cuts), 1);
    ck_assert_int_eq(trivet_cuts_hole(cuts, 0, &hole), TRIVET_OK);
    ck_assert_int_eq(hole.piece, 0);
    ck_assert_int_eq(hole.from, 0);
    ck_assert_int_eq(hole.in, TRIVET_HOLE_ACROSS);
    near_scaled(hole.at, 0.050, 1e-12, 1.0);
    near_scaled(hole.diameter, 0.009, 1e-12, 1.0);
    near_scaled(hole.countersink, 0.01792, 1e-12, 1.0);
    near_scaled(hole.countersink_angle, 0.5 * PI, 1e-12, 1.0);
    /* The head is below, where the vehicle is; seen from there with A to the left, y points down.
     */
    near_scaled(fabs(hole.towards), PI, 1e-12, 1.0);
    near_scaled(hole.side, -0.003, 1e-12, 1.0);
    ck_assert_int_eq(trivet_cuts_part_count(cuts), 2); /* bolt and nut */
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(bars_hold_what_is_cut_from_them)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    trivet_cut_bar bar = {.size = sizeof bar};
    trivet_cut_stock stock = {.size = sizeof stock};
    trivet_cuts *const cuts = must_cut(frame, NULL);
    int32_t count = 0;
    ck_assert_int_eq(trivet_cuts_bar_count(cuts), 1);
    ck_assert_int_eq(trivet_cuts_bar(cuts, 0, &bar), TRIVET_OK);
    const int32_t *const pieces = trivet_cuts_bar_pieces(cuts, 0, &count);
    ck_assert_int_eq(count, 2);
    ck_assert_int_eq(pieces[0], 0);
    ck_assert_int_eq(pieces[1], 1);
    /* 6 m less 310 and 210 mm and two cuts of 2.5 mm. */
    near_scaled(bar.rest, 6.0 - 0.310 - 0.210 - 0.005, 1e-6, 1.0);
    ck_assert_int_eq(trivet_cuts_stock(cuts, 0, &stock), TRIVET_OK);
    ck_assert_int_eq(stock.is_proven, 1);
    ck_assert_int_eq(stock.bought, 1);
    near_scaled(stock.pieces_length, 0.520, 1e-12, 1.0);
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

/* What two tubes of 300 mm and a kerf take of a bar that is there, to the last micrometre. */
START_TEST(a_bar_is_used_to_its_end)
{
    trivet_frame *const frame = corner_frame(0.5 * PI);
    trivet_shop shop = usual_shop();
    trivet_shop_bar bars[2];
    trivet_cuts *cuts = NULL;
    trivet_message message;
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(trivet_shop_bar_defaults(&bars[i], sizeof bars[i]), TRIVET_OK);
    }
    bars[0].length = 0.310 + 0.0025 + 0.210;
    bars[0].have = 1;
    shop.bars = bars;
    shop.bar_count = 1;
    cuts = must_cut(frame, &shop);
    trivet_cut_stock stock = {.size = sizeof stock};
    ck_assert_int_eq(trivet_cuts_stock(cuts, 0, &stock), TRIVET_OK);
    ck_assert_int_eq(stock.bought, 0);
    ck_assert_int_eq(stock.bar_count, 1);
    near_scaled(stock.rest, 0.0, 1e-12, 1.0);
    trivet_cuts_free(cuts);
    bars[0].length -= 1e-5;
    ck_assert_int_eq(trivet_cuts_new(frame, &shop, &cuts, &message), TRIVET_BAD_VALUE);
    ck_assert_ptr_null(cuts);
    ck_assert_msg(strstr(message.problem, "do not hold"), "%s", message.problem);
    bars[0].length = 0.3;
    ck_assert_int_eq(trivet_cuts_new(frame, &shop, &cuts, &message), TRIVET_BAD_VALUE);
    ck_assert_msg(strstr(message.problem, "the longest bar"), "%s", message.problem);
    trivet_frame_free(frame);
}
END_TEST

START_TEST(what_is_missing_is_refused)
{
    trivet_frame *const frame = corner_frame(1.0);
    trivet_cuts *cuts = NULL;
    trivet_message message;
    trivet_shop shop = usual_shop();
    trivet_cut_piece piece = {.size = sizeof piece};
    ck_assert_int_eq(trivet_cuts_new(NULL, NULL, &cuts, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_cuts_new(frame, NULL, NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_shop_check(frame, NULL, &message), TRIVET_MISSING_ARGUMENT);
    shop.size--;
    ck_assert_int_eq(trivet_cuts_new(frame, &shop, &cuts, &message), TRIVET_BAD_SIZE);
    shop = usual_shop();
    shop.kerf = (double)NAN;
    ck_assert_int_eq(trivet_cuts_new(frame, &shop, &cuts, &message), TRIVET_BAD_VALUE);
    cuts = must_cut(frame, NULL);
    ck_assert_int_eq(trivet_cuts_piece(cuts, 2, &piece), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_cuts_piece(cuts, -1, &piece), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_cuts_count(NULL), 0);
    ck_assert_ptr_null(trivet_cuts_bar_pieces(cuts, 1, NULL));
    ck_assert(isnan(trivet_cuts_saddle_depth(cuts, 0, 0, 0.0)));
    ck_assert_uint_eq(trivet_cuts_template_svg(cuts, 0, 0, NULL, 0), 0);
    ck_assert_ptr_null(trivet_shop_rule(-1));
    ck_assert_str_eq(trivet_cut_text(TRIVET_CUT_MITER), "miter");
    trivet_cuts_free(cuts);
    trivet_frame_free(frame);
}
END_TEST

int main(void)
{
    return run_tests("cuts",
                     TESTS(a_corner_is_halved, the_gap_comes_off_both_sides_of_a_miter,
                           a_wish_makes_the_other_give_way,
                           wishes_that_cannot_be_granted_are_refused, the_heaviest_runs_through,
                           holes_are_measured_from_the_nearer_cut, bars_hold_what_is_cut_from_them,
                           a_bar_is_used_to_its_end, what_is_missing_is_refused));
}
