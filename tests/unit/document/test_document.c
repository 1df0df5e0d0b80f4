/*
 * Reading: units, names, expressions, joints, tubes, mounts, places, what is read past.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

#define EXACT 1e-15 /* a rounding or two of the arithmetic in the file */

static const double *position(const trivet_document *document, const char *joint)
{
    return trivet_frame_position(trivet_document_frame(document),
                                 find_thing(document, TRIVET_KIND_JOINT, joint));
}

START_TEST(bare_numbers_take_the_units_of_the_file)
{
    trivet_document *const document = read_good(
        "trivet: 1\nname: In inches\nunits: {length: in, mass: lb, force: lbf}\n"
        "stock: {bar: {shape: round bar, diameter: 1/2, material: S235}}\n"
        "joints: {A: [0, 0, 0], B: [10, 0, 0], C: [1-1/4 in + 10 in, 20 mm, \"2\"]}\n"
        "tubes: {one: {through: [A, B], stock: bar}, two: {through: [B, C], stock: bar}}\n"
        "mounts: {A: {hold: all, limit: {pull: 3}}}\n"
        "cargo: {box: {mass: 2, centre: [1, 0, 0], on: [B]}}\n" PARKED);
    trivet_units units;
    trivet_mount mount;
    trivet_cargo cargo;
    const trivet_frame *const frame = trivet_document_frame(document);
    ck_assert_str_eq(trivet_document_name(document), "In inches");
    trivet_units_defaults(&units, sizeof units);
    ck_assert_int_eq(trivet_document_units(document, &units), TRIVET_OK);
    ck_assert_str_eq(units.length, "in");
    ck_assert_str_eq(units.mass, "lb");
    ck_assert_str_eq(units.force, "lbf");
    /* 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf = 4.4482216152605 N: exact by definition */
    near_relative(position(document, "B")[0], 0.254, EXACT);
    near_relative(position(document, "C")[0], 0.28575, EXACT);
    near_relative(position(document, "C")[1], 0.020, EXACT);
    near_relative(position(document, "C")[2], 0.0508, EXACT);
    near_relative(trivet_frame_profile(frame, 0)->diameter, 0.0127, EXACT);
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_mount(frame, 0, &mount), TRIVET_OK);
    near_relative(mount.limit_pull, 3.0 * 4.4482216152605, EXACT);
    ck_assert(isnan(mount.limit_push));
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    near_relative(cargo.mass, 2.0 * 0.45359237, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(names_of_let_are_worked_out_in_any_order)
{
    trivet_document *const document = read_good(
        "trivet: 1\n"
        "let: {outer: 2 * half + edge, half: width / 2, width: 640 mm, edge: 3 mm, größe: 1 m}\n"
        "stock: {bar: {shape: round bar, diameter: 12 mm, material: S235}}\n"
        "joints: {A: [0, 0, 0], B: [-outer, edge, größe - half]}\n"
        "tubes: {one: {through: [A, B], stock: bar}}\n"
        "mounts: {A: {hold: all}}\n" PARKED);
    near_relative(position(document, "B")[0], -0.643, EXACT);
    near_relative(position(document, "B")[1], 0.003, EXACT);
    near_relative(position(document, "B")[2], 0.680, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(let_keeps_order_values_and_dimensions)
{
    trivet_document *const document = read_good(
        "let: {c: 2 * b, b: a + 20 mm, a: 30 mm, load: 4 kg * 9.80665 m/s^2, n: 3}\n" ARM PARKED);
    trivet_quantity quantity;
    ck_assert_int_eq(trivet_document_let_count(document), 5);
    ck_assert_str_eq(trivet_document_let(document, 0, &quantity), "c");
    near_relative(quantity.value, 0.1, EXACT);
    ck_assert_int_eq(quantity.length, 1);
    ck_assert_str_eq(trivet_document_let(document, 3, &quantity), "load");
    near_relative(quantity.value, 39.2266, EXACT);
    ck_assert(trivet_quantity_fits(&quantity, TRIVET_FORCE));
    ck_assert_str_eq(trivet_document_let(document, 4, &quantity), "n");
    ck_assert_int_eq(quantity.has_unit, 0);
    ck_assert_ptr_null(trivet_document_let(document, 5, &quantity));
    ck_assert_ptr_null(trivet_document_let(document, -1, &quantity));
    trivet_document_free(document);
}
END_TEST

START_TEST(json_with_tabs_reads_like_yaml)
{
    trivet_document *const document =
        read_good("{\n\t\"trivet\": 1,\n\t\"stock\": {\n\t\t\"rail\": {\"shape\": \"square "
                  "bar\",\"width\":20,"
                  "\"material\":\"S235\"}\n\t},\n\t\"joints\": {\"A\":[0,0,0],\"B\":[0.3e3,0,0]},\n"
                  "\t\"tubes\": {\"arm\":{\"through\":[\"A\",\"B\"],\"stock\":\"rail\"}},\n"
                  "\t\"mounts\": {\"A\":{\"hold\":\"all\"}},\n"
                  "\t\"cases\": {\"parked\":{\"gravity\":[0,0,-1]}},\n\t\"cargo\": null\n}\n");
    near_relative(position(document, "B")[0], 0.3, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(line_ends_and_byte_order_mark_of_other_systems_do_no_harm)
{
    trivet_document *const document =
        read_good("\xEF\xBB\xBFtrivet: 1\r\n"
                  "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\r\n"
                  "joints:\r\n  A: [0, 0, 0]\r\n  B: [300 mm, 0, 0]\r\n"
                  "tubes: {arm: {through: [A, B], stock: rail}}\r\n"
                  "mounts: {A: {hold: all}}\r\n"
                  "cases: {parked: {gravity: [0, 0, -1]}}\r\n");
    int32_t column = 0;
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_JOINT, 1, &column), 5);
    ck_assert_int_eq(column, 3);
    trivet_document_free(document);
}
END_TEST

START_TEST(texts_in_quotes_are_unfolded)
{
    /* YAML 1.2.2, sections 7.3.1 and 7.3.2 */
    static const char *const pairs[][2] = {
        {"'it''s  \n  a\r\n\r\n\n  ''''rack'' '", "it's a\n\n''rack' "},
        {"'one\n  two'", "one two"},
        {"''", ""},
        {"\"a\\tb \\\"c\\\"\"", "a\tb \"c\""},
        {"plain\n  text", "plain text"},
        {"|\n  two\n  lines\n", "two\nlines\n"},
    };
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        char text[1024];
        snprintf(text, sizeof text, ARM "name: %s\n" PARKED, pairs[i][0]);
        trivet_document *const document = read_good(text);
        ck_assert_str_eq(trivet_document_name(document), pairs[i][1]);
        trivet_document_free(document);
    }
}
END_TEST

START_TEST(places_are_those_of_the_names)
{
    trivet_document *const document =
        read_good(ARM "cases:\n"
                      "  parked: {gravity: [0, 0, -1]}\n"
                      "combine: {twice: {parked: 2}}\n"
                      "cargo:\n"
                      "  größe: {mass: 1, centre: [0, 0, 0], on: B}\n");
    int32_t column = 0;
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_STOCK, 0, &column), 2);
    ck_assert_int_eq(column, 9);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_JOINT, 1, &column), 3);
    ck_assert_int_eq(column, 24);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_TUBE, 0, NULL), 4);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_MOUNT, 0, NULL), 5);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_CASE, 0, NULL), 7);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_COMBINATION, 0, NULL), 8);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_CARGO, 0, NULL), 10);
    ck_assert_int_eq(trivet_document_place(document, TRIVET_KIND_CARGO, 1, &column), 0);
    ck_assert_int_eq(column, 0);
    ck_assert_int_eq(trivet_document_place(document, 99, 0, NULL), 0);
    ck_assert_int_eq(trivet_document_place(NULL, TRIVET_KIND_JOINT, 0, NULL), 0);
    trivet_document_free(document);
}
END_TEST

START_TEST(what_is_read_past_is_listed)
{
    trivet_document *const document =
        read_good("trivet: 1\n"
                  "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
                  "joints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
                  "tubes: {arm: {through: [A, B], stock: rail, weld: {throat: 2 mm, run: 60 %}}}\n"
                  "mounts: {A: {hold: all, bolts: {thread: M6, grade: 8.8}}}\n"
                  "limits: {lowest frequency: 20 Hz}\n"
                  "rides: {washboard: {speed: 30 km/h}}\nvehicle: {}\nvary:\n" PARKED);
    static const char *const want[] = {"rides", "limits, lowest frequency"};
    for (int32_t i = 0; i < 2; i++) {
        ck_assert_str_eq(trivet_document_unused(document, i), want[i]);
    }
    ck_assert_ptr_null(trivet_document_unused(document, 2));
    ck_assert_ptr_null(trivet_document_unused(document, -1));
    ck_assert_ptr_null(trivet_document_unused(NULL, 0));
    trivet_document_free(document);
}
END_TEST

START_TEST(limits_are_those_of_the_file_or_the_defaults)
{
    trivet_limits limits;
    trivet_limits defaults;
    ck_assert_int_eq(trivet_limits_defaults(&limits, sizeof limits), TRIVET_OK);
    ck_assert_int_eq(trivet_limits_defaults(&defaults, sizeof defaults), TRIVET_OK);
    trivet_document *document = read_good(ARM PARKED);
    ck_assert_int_eq(trivet_document_limits(document, &limits), TRIVET_OK);
    ck_assert(limits.yield == defaults.yield);
    ck_assert(isnan(limits.droop) && isnan(limits.droop_ratio));
    trivet_document_free(document);
    document = read_good(ARM PARKED "limits: {yield: 2, droop: 4 mm, droop ratio: 1/200}\n");
    ck_assert_int_eq(trivet_document_limits(document, &limits), TRIVET_OK);
    near_relative(limits.yield, 2.0, EXACT);
    near_relative(limits.droop, 0.004, EXACT);
    near_relative(limits.droop_ratio, 0.005, EXACT);
    limits.size = 1;
    ck_assert_int_eq(trivet_document_limits(document, &limits), TRIVET_BAD_SIZE);
    ck_assert_int_eq(trivet_document_limits(document, NULL), TRIVET_MISSING_ARGUMENT);
    trivet_document_free(document);
}
END_TEST

START_TEST(mounts_hold_spring_and_turn_as_written)
{
    trivet_document *const document = read_good(
        "trivet: 1\n"
        "stock: {rail: {shape: square bar, width: 20 mm, material: S235}}\n"
        "joints: {A: [0, 0, 0], B: [300 mm, 0, 0], C: [600 mm, 0, 0]}\n"
        "tubes: {arm: {through: [A, B, C], stock: rail}}\n"
        "mounts:\n"
        "  A: {hold: position, spring: {ry: 900 N*m/rad, rz: 1 kN*m/rad}}\n"
        "  B: {hold: [z, rx], axes: {x: [0, 2, 0], y: [-1, 0, 0]}, limit: {moment: 20 N*m}}\n"
        "  C: {spring: {z: 5 N/mm}}\n" PARKED);
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_mount mount;
    ck_assert_int_eq(trivet_mount_defaults(&mount, sizeof mount), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_mount(frame, 0, &mount), TRIVET_OK);
    ck_assert_uint_eq(mount.held, TRIVET_POSITION);
    near_relative(mount.spring[4], 900.0, EXACT);
    near_relative(mount.spring[5], 1000.0, EXACT);
    ck_assert_int_eq(trivet_frame_mount(frame, 1, &mount), TRIVET_OK);
    ck_assert_uint_eq(mount.held, TRIVET_Z | TRIVET_RX);
    /* x to the left, y to the back, so z up: right-handed */
    const double axes[9] = {0, 1, 0, -1, 0, 0, 0, 0, 1};
    for (int i = 0; i < 9; i++) {
        near_scaled(mount.axes[i], axes[i], EXACT, 1.0);
    }
    near_relative(mount.limit_moment, 20.0, EXACT);
    ck_assert_int_eq(trivet_frame_mount(frame, 2, &mount), TRIVET_OK);
    ck_assert_uint_eq(mount.held, 0);
    near_relative(mount.spring[2], 5000.0, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(cargo_is_a_ledger)
{
    trivet_document *const document =
        read_good(ARM PARKED "cargo:\n"
                             "  box: {items: {box: 4.1 kg, plate: 900 g, contents: 9}, "
                             "centre: [1 m, 0, 2 m], on: [A, B], grip: stiff}\n"
                             "  bag: {mass: 3 kg, centre: [0, 0, 0], on: B}\n");
    const trivet_frame *const frame = trivet_document_frame(document);
    trivet_cargo cargo;
    double mass = 0.0;
    ck_assert_int_eq(trivet_cargo_defaults(&cargo, sizeof cargo), TRIVET_OK);
    ck_assert_int_eq(trivet_frame_cargo(frame, 0, &cargo), TRIVET_OK);
    near_relative(cargo.mass, 14.0, EXACT);
    ck_assert_int_eq(cargo.item_count, 3);
    ck_assert_int_eq(cargo.grip, TRIVET_GRIP_STIFF);
    ck_assert_str_eq(trivet_frame_item(frame, 0, 1, &mass), "plate");
    near_relative(mass, 0.9, EXACT);
    near_relative(cargo.centre[2], 2.0, EXACT);
    ck_assert_int_eq(trivet_frame_cargo(frame, 1, &cargo), TRIVET_OK);
    ck_assert_int_eq(cargo.grip, TRIVET_GRIP_SOFT);
    ck_assert_int_eq(cargo.joint_count, 1);
    ck_assert_int_eq(cargo.joints[0], 1);
    trivet_document_free(document);
}
END_TEST

START_TEST(a_starter_reads_solves_and_holds)
{
    answered it = answer_good(trivet_starter_text());
    ck_assert_int_eq(trivet_checks_overall(it.checks), TRIVET_HOLDS);
    ck_assert_ptr_null(trivet_document_unused(it.document, 0));
    free_answered(&it);
}
END_TEST

int main(void)
{
    return run_tests(
        "document",
        TESTS(bare_numbers_take_the_units_of_the_file, names_of_let_are_worked_out_in_any_order,
              let_keeps_order_values_and_dimensions, json_with_tabs_reads_like_yaml,
              line_ends_and_byte_order_mark_of_other_systems_do_no_harm,
              texts_in_quotes_are_unfolded, places_are_those_of_the_names,
              what_is_read_past_is_listed, limits_are_those_of_the_file_or_the_defaults,
              mounts_hold_spring_and_turn_as_written, cargo_is_a_ledger,
              a_starter_reads_solves_and_holds));
}
