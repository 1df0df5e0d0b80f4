/*
 * Bolts, welds, decks, cycles and limits: what a file says arrives in the frame, in SI; what it
 * leaves out is as the format says. Wanted numbers are those of the texts, converted by hand.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

#define EXACT 1e-14 /* a few roundings of the conversion of units */

/* A rail through A, M, B, a cross tube from B to C, a stub from C to D; the rest is appended. */
#define STOCK                                                                                      \
    "trivet: 1\n"                                                                                  \
    "stock:\n"                                                                                     \
    "  rail: {shape: square tube, width: 20 mm, wall: 2 mm, material: E235}\n"                     \
    "  thin: {shape: round tube, diameter: 20 mm, wall: 1.5 mm, material: E235}\n"                 \
    "  plug: {shape: square bar, width: 15 mm, material: S235}\n"                                  \
    "joints: {A: [0, 0, 0], M: [150, 0, 0], B: [300, 0, 0], C: [300, 200, 0], D: [100, 200, 0]}\n" \
    "cases: {parked: {gravity: [0, 0, -1]}, pothole: {gravity: [0, 0, -3]}}\n"
#define TUBES                                                                                      \
    "tubes:\n"                                                                                     \
    "  arm: {through: [A, M, B], stock: rail}\n"                                                   \
    "  cross: {through: [B, C], stock: plug}\n"                                                    \
    "  stub: {through: [C, D], stock: thin}\n"
#define MOUNTS "mounts: {A: {hold: all}}\n"

static trivet_bolts bolts_at(const trivet_document *document, int32_t index)
{
    trivet_bolts bolts;
    ck_assert_int_eq(trivet_bolts_defaults(&bolts, sizeof bolts), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_bolts(trivet_document_frame(document), index, &bolts), TRIVET_OK);
    return bolts;
}

static trivet_weld weld_at(const trivet_document *document, const char *tube, const char *joint)
{
    trivet_weld weld;
    ck_assert_int_eq(trivet_weld_defaults(&weld, sizeof weld), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_weld(trivet_document_frame(document),
                                       find_thing(document, TRIVET_KIND_TUBE, tube),
                                       find_thing(document, TRIVET_KIND_JOINT, joint), &weld),
                     TRIVET_OK);
    return weld;
}

static trivet_cycles cycles_of(const trivet_document *document, const char *name)
{
    trivet_cycles cycles;
    ck_assert_int_eq(trivet_cycles_defaults(&cycles, sizeof cycles), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cycles(trivet_document_frame(document),
                                         find_thing(document, TRIVET_KIND_CYCLES, name), &cycles),
                     TRIVET_OK);
    return cycles;
}

static trivet_limits limits_of(const trivet_document *document)
{
    trivet_limits limits;
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    ck_assert_int_eq(trivet_document_limits(document, &limits), TRIVET_OK);
    return limits;
}

static void check_row(const double *got, const double *want, int count)
{
    for (int i = 0; i < count; i++) {
        near_scaled(got[i], want[i], EXACT, 1.0);
    }
}

START_TEST(bolts_of_a_mount_have_all_that_is_said)
{
    trivet_document *const document = read_good(
        STOCK TUBES
        "mounts:\n"
        "  A:\n"
        "    hold: all\n"
        "    axes: {x: [0, 1, 0], y: [-1, 0, 0]}\n"
        "    bolts: {thread: M8x1, grade: 10.9, count: 2, pattern: [[-15, 0], [15 mm, 2 mm]],\n"
        "            head: countersunk, into: plug, engagement: 12 mm, clamps: insert,\n"
        "            torque: 9 N*m, nut factor: 0.15, scatter: 30 %, friction: 0.12,\n"
        "            shear through: shank, fixing: {spots: 3, diameter: 7 mm},\n"
        "            plate: {thickness: 4 mm, material: S235, edge: 18 mm, side: 16 mm, hole: "
        "9}}\n");
    ck_assert_int_eq(trivet_frame_bolts_count(trivet_document_frame(document)), 1);
    const trivet_bolts bolts = bolts_at(document, 0);
    ck_assert_int_eq(bolts.where_kind, TRIVET_KIND_MOUNT);
    ck_assert_int_eq(bolts.where_index, 0);
    ck_assert_int_eq(bolts.joint, find_thing(document, TRIVET_KIND_JOINT, "A"));
    ck_assert_str_eq(bolts.thread, "M8x1");
    ck_assert_str_eq(bolts.grade, "10.9");
    ck_assert_int_eq(bolts.count, 2);
    check_row(bolts.pattern[0], (double[2]){-0.015, 0.0}, 2);
    check_row(bolts.pattern[1], (double[2]){0.015, 0.002}, 2);
    ck_assert_int_eq(bolts.head, TRIVET_HEAD_COUNTERSUNK);
    ck_assert_int_eq(bolts.into, TRIVET_INTO_TAPPED);
    ck_assert_int_eq(bolts.into_stock, find_thing(document, TRIVET_KIND_STOCK, "plug"));
    ck_assert_int_eq(bolts.clamped, TRIVET_CLAMPED_INSERT);
    ck_assert_int_eq(bolts.clamped_stock, find_thing(document, TRIVET_KIND_STOCK, "rail"));
    ck_assert_int_eq(bolts.is_thread_clear, 1);
    ck_assert_int_eq(bolts.fixing_count, 3);
    check_row((double[]){bolts.engagement, bolts.torque, bolts.nut_factor, bolts.scatter,
                         bolts.friction, bolts.fixing_diameter},
              (double[]){0.012, 9.0, 0.15, 0.30, 0.12, 0.007}, 6);
    check_row((double[]){bolts.plate, bolts.edge, bolts.side, bolts.hole},
              (double[]){0.004, 0.018, 0.016, 0.009}, 4);
    /* S235 up to 16 mm thick: EN 10025-2, 235 and 360 N/mm^2 */
    near_relative(bolts.plate_yield, 235e6, EXACT);
    near_relative(bolts.plate_tensile, 360e6, EXACT);
    /* the mount's axes, for the bolts have none of their own */
    check_row(bolts.axes, (double[]){0, 1, 0, -1, 0, 0, 0, 0, 1}, 9);
    trivet_document_free(document);
}
END_TEST

START_TEST(what_bolts_leave_out_is_as_the_format_says)
{
    trivet_document *const document =
        read_good(STOCK TUBES "mounts: {A: {hold: all, bolts: {thread: m 6, grade: Grade5}}}\n");
    const trivet_bolts bolts = bolts_at(document, 0);
    ck_assert_str_eq(bolts.thread, "M6"); /* as it is written in the list of built-in threads */
    ck_assert_str_eq(bolts.grade, "grade 5");
    ck_assert_int_eq(bolts.count, 1);
    check_row(bolts.pattern[0], (double[2]){0.0, 0.0}, 2);
    ck_assert_int_eq(bolts.head, TRIVET_HEAD_HEXAGON);
    ck_assert_int_eq(bolts.into, TRIVET_INTO_NUT);
    ck_assert_int_eq(bolts.into_stock, -1);
    ck_assert_int_eq(bolts.clamped, TRIVET_CLAMPED_SOLID);
    ck_assert_int_eq(bolts.spacer, TRIVET_SPACER_NONE);
    ck_assert_int_eq(bolts.is_thread_clear, 0);
    ck_assert_int_eq(bolts.fixing_count, 0);
    check_row((double[]){bolts.nut_factor, bolts.scatter, bolts.friction},
              (double[]){0.2, 0.25, 0.2}, 3);
    const double not_said[] = {bolts.engagement,
                               bolts.torque,
                               bolts.rated_pull,
                               bolts.rated_shear,
                               bolts.rated_torque,
                               bolts.plate,
                               bolts.plate_yield,
                               bolts.plate_tensile,
                               bolts.edge,
                               bolts.side,
                               bolts.hole,
                               bolts.spacer_height,
                               bolts.spacer_diameter,
                               bolts.sleeve_diameter,
                               bolts.sleeve_wall,
                               bolts.sleeve_yield,
                               bolts.fixing_diameter};
    for (size_t i = 0; i < sizeof not_said / sizeof not_said[0]; i++) {
        ck_assert_msg(isnan(not_said[i]), "number %zu is %g", i, not_said[i]);
    }
    trivet_document_free(document);
}
END_TEST

START_TEST(an_end_of_a_tube_is_bolted_in_its_own_stock)
{
    trivet_document *const document = read_good(
        STOCK MOUNTS
        "tubes:\n"
        "  arm: {through: [A, M, B], stock: rail}\n"
        "  cross: {through: [B, C], stock: plug}\n"
        "  stub: {through: [C, D], stock: thin, ends: {C: {bolts: {thread: M6, grade: A2-70,\n"
        "         head: socket, into: wall, axes: {x: [0, 0, 2], y: [0, 3, 0]}}}}}\n");
    const trivet_bolts bolts = bolts_at(document, 0);
    ck_assert_int_eq(bolts.where_kind, TRIVET_KIND_TUBE);
    ck_assert_int_eq(bolts.where_index, find_thing(document, TRIVET_KIND_TUBE, "stub"));
    ck_assert_int_eq(bolts.joint, find_thing(document, TRIVET_KIND_JOINT, "C"));
    ck_assert_int_eq(bolts.head, TRIVET_HEAD_SOCKET);
    ck_assert_int_eq(bolts.into, TRIVET_INTO_WALL);
    ck_assert_int_eq(bolts.into_stock, find_thing(document, TRIVET_KIND_STOCK, "thin"));
    ck_assert_int_eq(bolts.clamped_stock, bolts.into_stock);
    near_relative(bolts.engagement, 0.0015, EXACT); /* the wall is all the thread there is */
    check_row(bolts.axes, (double[]){0, 0, 1, 0, 1, 0, -1, 0, 0}, 9); /* z = x cross y */
    trivet_document_free(document);
}
END_TEST

START_TEST(sleeves_and_their_two_spellings)
{
    static const char *const SPELLINGS[] = {"", "clamps: sleeve, "};
    for (size_t i = 0; i < 2; i++) {
        char text[2048];
        snprintf(text, sizeof text,
                 STOCK TUBES "mounts: {A: {hold: all, bolts: {thread: M8, grade: 8.8, %s"
                             "sleeve: {diameter: 14 mm, wall: 2.5 mm, yield: 240 MPa}}}}\n",
                 SPELLINGS[i]);
        trivet_document *const document = read_good(text);
        const trivet_bolts bolts = bolts_at(document, 0);
        ck_assert_int_eq(bolts.clamped, TRIVET_CLAMPED_SLEEVE);
        check_row((double[]){bolts.sleeve_diameter, bolts.sleeve_wall}, (double[]){0.014, 0.0025},
                  2);
        near_relative(bolts.sleeve_yield, 240e6, EXACT);
        trivet_document_free(document);
    }
}
END_TEST

START_TEST(a_deck_has_its_screws_at_each_of_its_joints)
{
    trivet_document *const document = read_good(
        STOCK TUBES MOUNTS
        "decks:\n"
        "  lid:\n"
        "    on: [B, M, C]\n"
        "    screws: {thread: M5, grade: 8.8, into: rivet nut,\n"
        "             rated: {pull: 4 kN, shear: 2 kN, torque: 6 N*m},\n"
        "             spacer: {of: plastic, height: 20 mm, diameter: 15 mm}}\n"
        "  tray: {on: [D], screws: {thread: M5, grade: 8.8, spacer: {of: metal, height: 5}}}\n"
        "  loose: {on: [A, D]}\n");
    const trivet_frame *const frame = trivet_document_frame(document);
    static const char *const JOINTS[] = {"B", "M", "C"};
    const int32_t lid = find_thing(document, TRIVET_KIND_DECK, "lid");
    int32_t count = 0;
    const int32_t *const joints = trivet_frame_deck_joints(frame, lid, &count);
    ck_assert_int_eq(count, 3);
    ck_assert_int_eq(trivet_frame_bolts_count(frame), 4);
    for (int32_t i = 0; i < 3; i++) {
        const trivet_bolts bolts = bolts_at(document, i);
        ck_assert_int_eq(joints[i], find_thing(document, TRIVET_KIND_JOINT, JOINTS[i]));
        ck_assert_int_eq(bolts.where_kind, TRIVET_KIND_DECK);
        ck_assert_int_eq(bolts.where_index, lid);
        ck_assert_int_eq(bolts.joint, joints[i]);
        ck_assert_int_eq(bolts.into, TRIVET_INTO_RATED);
        ck_assert_int_eq(bolts.spacer, TRIVET_SPACER_PLASTIC);
        check_row((double[]){bolts.rated_pull, bolts.rated_shear, bolts.rated_torque},
                  (double[]){4000.0, 2000.0, 6.0}, 3);
        check_row((double[]){bolts.spacer_height, bolts.spacer_diameter}, (double[]){0.020, 0.015},
                  2);
        check_row(bolts.axes, (double[]){1, 0, 0, 0, 1, 0, 0, 0, 1}, 9); /* the world's */
    }
    ck_assert_int_eq(bolts_at(document, 3).spacer, TRIVET_SPACER_METAL);
    ck_assert_int_eq(bolts_at(document, 3).clamped_stock,
                     find_thing(document, TRIVET_KIND_STOCK, "thin"));
    /* a solid bar at C, a round tube too: the hollow one is what a screw there meets */
    ck_assert_int_eq(bolts_at(document, 2).clamped_stock,
                     find_thing(document, TRIVET_KIND_STOCK, "thin"));
    trivet_frame_deck_joints(frame, find_thing(document, TRIVET_KIND_DECK, "loose"), &count);
    ck_assert_int_eq(count, 2);
    trivet_document_free(document);
}
END_TEST

START_TEST(a_decks_plate_is_as_the_file_says)
{
    trivet_document *const document = read_good(
        STOCK TUBES MOUNTS
        "let: {far: 320 mm}\n"
        "units: {length: in}\n"
        "decks:\n"
        "  lid: {on: [B, C], outline: [[-20 mm, -20 mm], [far, -1], [far, 220 mm], [-20 mm, 9]],\n"
        "        slots: [{from: [1, 1], to: [2, 1], width: 6 mm}, {from: [1, 2], to: [2, 2], "
        "width: 0.25}]}\n"
        "  tray: {on: [B, C], edge: 3/4 in}\n"
        "  plain: {on: [B, C]}\n");
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_plate plate = {.size = sizeof plate};
    ck_assert_int_eq(trivet_frame_plate(frame, 0, &plate), TRIVET_OK);
    ck_assert_int_eq(plate.corner_count, 4);
    check_row(plate.corners,
              (double[]){-0.020, -0.020, 0.320, -0.0254, 0.320, 0.220, -0.020, 0.2286}, 8);
    ck_assert(isnan(plate.edge));
    ck_assert_int_eq(plate.slot_count, 2);
    check_row(plate.slots[0].from, (double[]){0.0254, 0.0254, 0.0508, 0.0254, 0.006}, 5);
    check_row(plate.slots[1].from, (double[]){0.0254, 0.0508, 0.0508, 0.0508, 0.00635}, 5);
    ck_assert_int_eq(trivet_frame_plate(frame, 1, &plate), TRIVET_OK);
    near_relative(plate.edge, 0.01905, EXACT);
    ck_assert(plate.corner_count == 0 && plate.slot_count == 0);
    ck_assert_int_eq(trivet_frame_plate(frame, 2, &plate), TRIVET_OK);
    ck_assert(isnan(plate.edge) && plate.corner_count == 0);
    trivet_document_free(document);
}
END_TEST

static trivet_cargo cargo_of(const trivet_document *document, const char *name)
{
    trivet_cargo cargo;
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(trivet_document_frame(document),
                                        find_thing(document, TRIVET_KIND_CARGO, name), &cargo),
                     TRIVET_OK);
    return cargo;
}

START_TEST(a_deck_with_mass_weighs_in_the_middle_of_its_joints)
{
    trivet_document *const document = read_good(
        STOCK TUBES MOUNTS "decks:\n"
                           "  lid: {on: [A, B, C], mass: 2.5 kg}\n"
                           "  tray: {on: [C, D], mass: 1, centre: [150 mm, 190 mm, 12 mm]}\n"
                           "  sheet: {on: [A, B]}\n"
                           "cargo: {bag: {mass: 3 kg, centre: [100, 0, 90], on: lid}}\n");
    /* A, B, C at x = 0, 300, 300 mm and y = 0, 0, 200 mm: the middle is at 200 and 200/3 mm */
    const trivet_cargo lid = cargo_of(document, "lid");
    near_relative(lid.mass, 2.5, EXACT);
    check_row(lid.centre, (double[3]){0.2, 0.2 / 3.0, 0.0}, 3);
    ck_assert_int_eq(lid.grip, TRIVET_GRIP_SOFT); /* adds no stiffness that nobody asked for */
    ck_assert_int_eq(lid.joint_count, 3);
    const trivet_cargo tray = cargo_of(document, "tray");
    near_relative(tray.mass, 1.0, EXACT);
    check_row(tray.centre, (double[3]){0.150, 0.190, 0.012}, 3);
    /* a cargo on a deck stands on the deck's joints; a deck without mass is no cargo */
    const trivet_cargo bag = cargo_of(document, "bag");
    ck_assert_int_eq(bag.joint_count, 3);
    for (int32_t i = 0; i < 3; i++) {
        ck_assert_int_eq(bag.joints[i], lid.joints[i]);
    }
    ck_assert_int_eq(trivet_frame_count(trivet_document_frame(document), TRIVET_KIND_CARGO), 3);
    trivet_document_free(document);
}
END_TEST

START_TEST(an_ends_own_weld_goes_before_its_tubes_and_that_before_the_files)
{
    trivet_document *const document = read_good(
        STOCK MOUNTS
        "weld: {throat: 1 mm, run: 60 %, sides: [top, right], filler: 480 MPa, detail: 56 MPa}\n"
        "tubes:\n"
        "  arm: {through: [A, M, B], stock: rail, weld: {throat: 2 mm, filler: ER70S-6},\n"
        "        ends: {B: {weld: {spots: 4, spot diameter: 6 mm}}}}\n"
        "  cross: {through: [B, C], stock: plug, ends: {C: {weld: none}}}\n"
        "  stub: {through: [C, D], stock: thin, weld: all round}\n");
    trivet_weld weld = weld_at(document, "arm", "A"); /* the tube's */
    ck_assert_int_eq(weld.kind, TRIVET_WELD_FILLET);
    near_relative(weld.throat, 0.002, EXACT);
    near_relative(weld.filler, 480e6, EXACT); /* AWS A5.18: 70 ksi is taken as 480 MPa */
    near_relative(weld.run, 1.0, EXACT);
    ck_assert_int_eq((int32_t)weld.sides, (int32_t)TRIVET_SIDES_ALL);
    ck_assert(isnan(weld.detail));
    weld = weld_at(document, "arm", "B"); /* the end's own */
    ck_assert_int_eq(weld.kind, TRIVET_WELD_SPOTS);
    ck_assert_int_eq(weld.spot_count, 4);
    near_relative(weld.spot_diameter, 0.006, EXACT);
    ck_assert(isnan(weld.filler));
    weld = weld_at(document, "cross", "B"); /* the file's */
    ck_assert_int_eq(weld.kind, TRIVET_WELD_FILLET);
    check_row((double[]){weld.throat, weld.run}, (double[]){0.001, 0.6}, 2);
    ck_assert_int_eq((int32_t)weld.sides, TRIVET_SIDE_TOP | TRIVET_SIDE_RIGHT);
    near_relative(weld.filler, 480e6, EXACT);
    near_relative(weld.detail, 56e6, EXACT);
    ck_assert_int_eq(weld_at(document, "cross", "C").kind, TRIVET_WELD_NONE);
    weld = weld_at(document, "stub", "D"); /* "all round" in full: nothing of the file's is left */
    ck_assert_int_eq(weld.kind, TRIVET_WELD_FILLET);
    check_row((double[]){weld.throat, weld.run}, (double[]){0.0, 1.0}, 2);
    ck_assert(isnan(weld.filler));
    trivet_document_free(document);
}
END_TEST

START_TEST(ends_of_which_nothing_is_said_stay_so)
{
    trivet_document *const document = read_good(STOCK TUBES MOUNTS "weld:\ndecks: {}\ncycles:\n");
    const trivet_frame *const frame = trivet_document_frame(document);
    ck_assert_int_eq(weld_at(document, "arm", "A").kind, TRIVET_WELD_NOT_SAID);
    ck_assert_int_eq(weld_at(document, "stub", "D").kind, TRIVET_WELD_NOT_SAID);
    ck_assert_int_eq(trivet_frame_bolts_count(frame), 0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_DECK), 0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_CYCLES), 0);
    trivet_document_free(document);
}
END_TEST

START_TEST(cycles_name_cases_and_combinations)
{
    trivet_document *const document = read_good(
        STOCK TUBES MOUNTS
        "combine: {worst: {pothole: 1.2}, best: {parked: 0.5}}\n"
        "cycles:\n"
        "  road: {from: parked, to: pothole, from factor: 0.5, to factor: 1.5, count: 2e5}\n"
        "  swing: {from: pothole, to: pothole, from factor: -1}\n"
        "  jolts: {to: best}\n");
    const trivet_cycles road = cycles_of(document, "road");
    ck_assert_int_eq(road.from, 0);
    ck_assert_int_eq(road.to, 1);
    check_row((double[]){road.from_factor, road.to_factor}, (double[]){0.5, 1.5}, 2);
    near_relative(road.count, 200000.0, EXACT);
    const trivet_cycles swing = cycles_of(document, "swing");
    ck_assert_int_eq(swing.from, swing.to);
    check_row((double[]){swing.from_factor, swing.to_factor}, (double[]){-1.0, 1.0}, 2);
    /* two cases, then the combinations: the second of those is column 3; from nothing at all */
    const trivet_cycles jolts = cycles_of(document, "jolts");
    ck_assert_int_eq(jolts.from, -1);
    ck_assert_int_eq(jolts.to, 3);
    near_relative(jolts.count, 1e6, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(limits_are_read_and_have_their_defaults)
{
    trivet_document *document = read_good(
        STOCK TUBES MOUNTS "limits: {loads: 1.35, bolt rule: AISC, weld rule: simplified,\n"
                           "         crack: 115 %, rack rating: 12 kg, yield: 2}\n");
    trivet_limits limits = limits_of(document);
    check_row((double[]){limits.loads, limits.crack, limits.rack_rating, limits.yield},
              (double[]){1.35, 1.15, 12.0, 2.0}, 4);
    ck_assert_int_eq(limits.bolt_rule, TRIVET_BOLTS_AISC);
    ck_assert_int_eq(limits.weld_rule, TRIVET_WELDS_SIMPLIFIED);
    trivet_document_free(document);
    document = read_good(STOCK TUBES MOUNTS "limits: {weld rule: AISC}\n");
    limits = limits_of(document);
    /* 1.5: EN 1990 table A1.2(B), a load that varies; 1.35: EN 1993-1-9 table 3.1 */
    check_row((double[]){limits.loads, limits.crack}, (double[]){1.5, 1.35}, 2);
    ck_assert(isnan(limits.rack_rating));
    ck_assert_int_eq(limits.bolt_rule, TRIVET_BOLTS_EN);
    ck_assert_int_eq(limits.weld_rule, TRIVET_WELDS_AISC);
    trivet_document_free(document);
}
END_TEST

START_TEST(bare_numbers_are_in_the_units_of_the_file)
{
    /* 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf = 4.4482216152605 N: exact by definition */
    const double inch = 0.0254;
    const double pound_force = 4.4482216152605;
    trivet_document *const document = read_good(
        "trivet: 1\nunits: {length: in, mass: lb, force: lbf}\n"
        "stock: {rail: {shape: square tube, width: 1, wall: 1/8, material: A36}}\n"
        "joints: {A: [0, 0, 0], B: [12, 0, 0]}\n"
        "tubes: {arm: {through: [A, B], stock: rail, weld: {throat: 1/16, run: 0.5}}}\n"
        "mounts: {A: {hold: all, bolts: {thread: 1/4-20, grade: grade 5, torque: 75 lbf*in,\n"
        "             pattern: [[-1/2, 0], [1/2, 0]], into: weld nut, rated: {pull: 500},\n"
        "             plate: {thickness: 3/16, edge: 1}, sleeve: {diameter: 3/8, wall: 1/16}}}}\n"
        "decks: {lid: {on: [A, B], mass: 4, screws: {thread: \"#10-24\", grade: grade 2,\n"
        "        spacer: {of: metal, height: 3/4}}}}\n"
        "limits: {rack rating: 25}\n" PARKED);
    const trivet_bolts bolts = bolts_at(document, 0);
    ck_assert_str_eq(bolts.thread, "1/4-20 UNC");
    ck_assert_int_eq(bolts.count, 2);
    near_relative(bolts.pattern[1][0], 0.5 * inch, EXACT);
    near_relative(bolts.torque, 75.0 * pound_force * inch, EXACT);
    near_relative(bolts.rated_pull, 500.0 * pound_force, EXACT);
    near_relative(bolts.plate, 3.0 / 16.0 * inch, EXACT);
    near_relative(bolts.edge, inch, EXACT);
    near_relative(bolts.sleeve_diameter, 0.375 * inch, EXACT);
    near_relative(bolts.sleeve_wall, inch / 16.0, EXACT);
    near_relative(bolts_at(document, 1).spacer_height, 0.75 * inch, EXACT);
    near_relative(weld_at(document, "arm", "B").throat, inch / 16.0, EXACT);
    near_relative(weld_at(document, "arm", "B").run, 0.5, EXACT);
    near_relative(cargo_of(document, "lid").mass, 4.0 * 0.45359237, EXACT);
    near_relative(cargo_of(document, "lid").centre[0], 6.0 * inch, EXACT);
    near_relative(limits_of(document).rack_rating, 25.0 * 0.45359237, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(decks_and_cycles_stand_where_their_names_do)
{
    trivet_document *const document = read_good(STOCK TUBES MOUNTS "decks:\n"
                                                                   "  lid: {on: [A, B]}\n"
                                                                   "cycles:\n"
                                                                   "  road: {to: pothole}\n");
    int32_t column = 0;
    /* eight lines of STOCK, four of TUBES, one of MOUNTS, one of "decks:" */
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_DECK, 0, &column), 14);
    ck_assert_int_eq(column, 3);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_CYCLES, 0, &column), 16);
    ck_assert_int_eq(column, 3);
    trivet_document_free(document);
}
END_TEST

int main(void)
{
    return run_tests(
        "document joins",
        TESTS(bolts_of_a_mount_have_all_that_is_said, what_bolts_leave_out_is_as_the_format_says,
              an_end_of_a_tube_is_bolted_in_its_own_stock, sleeves_and_their_two_spellings,
              a_deck_has_its_screws_at_each_of_its_joints, a_decks_plate_is_as_the_file_says,
              a_deck_with_mass_weighs_in_the_middle_of_its_joints,
              an_ends_own_weld_goes_before_its_tubes_and_that_before_the_files,
              ends_of_which_nothing_is_said_stay_so, cycles_name_cases_and_combinations,
              limits_are_read_and_have_their_defaults, bare_numbers_are_in_the_units_of_the_file,
              decks_and_cycles_stand_where_their_names_do));
}
