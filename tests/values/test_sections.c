/*
 * Section values against printed tables and closed forms: every row of the three files beside this
 * one, but for those that are named here with the reason.
 */
#include "stock/sections.h"
#include "support/printed.h"
#include "support/run.h"
#include "support/table.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

#define PI 3.14159265358979323846

static int failures;
static int cells;

static void begin(void)
{
    failures = 0;
    cells = 0;
}

static void compare(const char *row, const char *what, double got, double want, double tolerance)
{
    cells++;
    if (!rounds_to(got, want, tolerance)) {
        failures++;
        fprintf(stderr, "%s %s: computed %.9g, printed %.9g, off by %.3g, allowed %.3g\n", row,
                what, got, want, got - want, tolerance);
    }
}

/* A cell of a wide table; an empty one is not compared. unit: SI value of one of its units. */
static void compare_cell(const table *from, int row, const char *column, double value, double unit)
{
    const double want = table_number(from, row, column);
    if (isnan(want)) {
        ck_assert_str_eq(table_text(from, row, column), "");
        return;
    }
    compare(table_text(from, row, "id"), column, value / unit, want,
            half_unit(table_text(from, row, column)));
}

static trivet_section solve(const trivet_profile *profile)
{
    trivet_section section;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    ck_assert_msg(trivet_section_solve(profile, &section, &message) == TRIVET_OK, "%s: %s",
                  message.thing, message.problem);
    return section;
}

static trivet_profile profile_of(int32_t shape)
{
    trivet_profile profile;
    ck_assert_int_eq(trivet_profile_defaults(&profile, sizeof profile), TRIVET_OK);
    profile.shape = shape;
    return profile;
}

/* ---- EN 10219-2 and EN 10210-2 ---- */

static trivet_section section_of_row(const table *from, int row)
{
    const double mm = 1e-3;
    const double t = table_number(from, row, "t_mm") * mm;
    const double h = table_number(from, row, "h_mm") * mm;
    const double b = table_number(from, row, "b_mm") * mm;
    const char *const shape = table_text(from, row, "shape");
    if (strncmp(shape, "CHS", 3) == 0) {
        trivet_profile tube = profile_of(TRIVET_SHAPE_ROUND_TUBE);
        tube.diameter = h;
        tube.wall = t;
        return solve(&tube);
    }
    if (strncmp(table_text(from, row, "standard"), "EN 10219-2", 10) == 0) {
        trivet_profile tube =
            profile_of(h == b ? TRIVET_SHAPE_SQUARE_TUBE : TRIVET_SHAPE_RECTANGULAR_TUBE);
        tube.height = h == b ? 0.0 : h;
        tube.width = b;
        tube.wall = t;
        return solve(&tube);
    }
    /* Hot finished: radii inside and outside that a profile cannot ask for together. */
    trivet_section section = {0};
    trivet__hollow_rectangle(h, b, t, table_number(from, row, "ro_mm") * mm,
                             table_number(from, row, "ri_mm") * mm, &section);
    for (int i = 0; i < 2; i++) {
        section.radius_of_gyration[i] = sqrt(section.second_moment[i] / section.area);
    }
    return section;
}

START_TEST(hollow_sections_match_every_row_of_the_standards)
{
    const double cm = 1e-2;
    table *const from = table_read(TEST_DATA "/sections_en10219.csv");
    begin();
    for (int row = 0; row < table_rows(from); row++) {
        const trivet_section s = section_of_row(from, row);
        /* Steel of 7850 kg/m^3, as both standards lay down. */
        compare_cell(from, row, "M_kg_m", s.area * 7850.0, 1.0);
        compare_cell(from, row, "A_cm2", s.area, cm * cm);
        compare_cell(from, row, "Iy_cm4", s.second_moment[0], pow(cm, 4));
        compare_cell(from, row, "Iz_cm4", s.second_moment[1], pow(cm, 4));
        compare_cell(from, row, "Wely_cm3", s.elastic_modulus[0], pow(cm, 3));
        compare_cell(from, row, "Welz_cm3", s.elastic_modulus[1], pow(cm, 3));
        compare_cell(from, row, "Wply_cm3", s.plastic_modulus[0], pow(cm, 3));
        compare_cell(from, row, "Wplz_cm3", s.plastic_modulus[1], pow(cm, 3));
        compare_cell(from, row, "It_cm4", s.torsion_constant, pow(cm, 4));
        compare_cell(from, row, "Ct_cm3", s.torsion_modulus, pow(cm, 3));
        /* SEC-052 prints 2.1 for 2.0454: rounded twice, by way of 2.05. Its two cells are left out.
         */
        if (strcmp(table_text(from, row, "id"), "SEC-052") != 0) {
            compare_cell(from, row, "iy_cm", s.radius_of_gyration[0], cm);
            compare_cell(from, row, "iz_cm", s.radius_of_gyration[1], cm);
        }
    }
    ck_assert_int_eq(table_rows(from), 78);
    /* 12 cells a row; the 18 rows of cold-formed round tube leave It and Ct empty; SEC-052. */
    ck_assert_int_eq(cells, 78 * 12 - 18 * 2 - 2);
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

/* ---- AISC hollow structural sections, in inches ---- */

static void compare_relative(const table *from, int row, const char *column, double value,
                             double unit)
{
    const double want = table_number(from, row, column);
    if (!isnan(want)) {
        compare(table_text(from, row, "id"), column, value / unit, want,
                want * table_number(from, row, "tol_rel"));
    }
}

START_TEST(inch_sections_match_every_row)
{
    const double in = 0.0254;
    table *const from = table_read(TEST_DATA "/sections_aisc_hss.csv");
    begin();
    for (int row = 0; row < table_rows(from); row++) {
        const double H = table_number(from, row, "H_in") * in;
        const double B = table_number(from, row, "B_in") * in;
        const double t = table_number(from, row, "t_des_in") * in;
        trivet_profile tube =
            profile_of(isnan(B) ? TRIVET_SHAPE_ROUND_TUBE : TRIVET_SHAPE_RECTANGULAR_TUBE);
        tube.wall = t;
        if (isnan(B)) {
            tube.diameter = H;
        } else {
            tube.height = H;
            tube.width = B;
            tube.corner = TRIVET_CORNER_RADIUS;
            tube.corner_radius = 2.0 * t; /* AISC: outside radius 2 t */
        }
        const trivet_section s = solve(&tube);
        compare_relative(from, row, "A_in2", s.area, in * in);
        compare_relative(from, row, "Ix_in4", s.second_moment[0], pow(in, 4));
        compare_relative(from, row, "Sx_in3", s.elastic_modulus[0], pow(in, 3));
        compare_relative(from, row, "rx_in", s.radius_of_gyration[0], in);
        compare_relative(from, row, "Zx_in3", s.plastic_modulus[0], pow(in, 3));
        compare_relative(from, row, "Iy_in4", s.second_moment[1], pow(in, 4));
        compare_relative(from, row, "Sy_in3", s.elastic_modulus[1], pow(in, 3));
        compare_relative(from, row, "ry_in", s.radius_of_gyration[1], in);
        compare_relative(from, row, "Zy_in3", s.plastic_modulus[1], pow(in, 3));
        /* AISC leaves the T^3 hm/3 of EN 10219-2 out of J, and has C = 2 t Ah: put back here. */
        const double hm = 2.0 * (B - t + H - t) - 3.0 * t * (4.0 - PI);
        const double J = isnan(B) ? s.torsion_constant : s.torsion_constant - t * t * t * hm / 3.0;
        const double C = isnan(B) ? s.torsion_modulus : 2.0 * t * sqrt(J * hm / (4.0 * t));
        compare_relative(from, row, "J_in4", J, pow(in, 4));
        compare_relative(from, row, "C_in3", C, pow(in, 3));
    }
    ck_assert_int_eq(table_rows(from), 16);
    /* 6 cells a row; y cells of the three rectangles less one; C is printed in 12 rows. */
    ck_assert_int_eq(cells, 16 * 6 + 11 + 12);
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

/* ---- Closed forms ---- */

static double input_mm(const table *from, int row, const char *name)
{
    const double value = table_input(from, row, "inputs", name);
    ck_assert_msg(!isnan(value), "%s has no %s", table_text(from, row, "id"), name);
    return value * 1e-3;
}

static double optional_mm(const table *from, int row, const char *name)
{
    const double value = table_input(from, row, "inputs", name);
    return isnan(value) ? 0.0 : value * 1e-3;
}

static trivet_section flat_bar(double height, double width)
{
    trivet_profile bar = profile_of(TRIVET_SHAPE_FLAT_BAR);
    bar.height = height;
    bar.width = width;
    return solve(&bar);
}

static trivet_section angle_of_row(const table *from, int row)
{
    trivet_profile angle = profile_of(TRIVET_SHAPE_ANGLE);
    angle.height = input_mm(from, row, "a");
    angle.width = angle.height;
    angle.wall = input_mm(from, row, "t");
    angle.root_radius = optional_mm(from, row, "r1");
    angle.toe_radius = optional_mm(from, row, "r2");
    return solve(&angle);
}

static trivet_section channel_of_row(const table *from, int row)
{
    trivet_profile channel = profile_of(TRIVET_SHAPE_CHANNEL);
    const int has_one_thickness = !isnan(table_input(from, row, "inputs", "t"));
    channel.height = input_mm(from, row, "h");
    channel.width = input_mm(from, row, "b");
    channel.wall = input_mm(from, row, has_one_thickness ? "t" : "tw");
    channel.flange = input_mm(from, row, has_one_thickness ? "t" : "tf");
    channel.root_radius = optional_mm(from, row, "r");
    return solve(&channel);
}

/* Which value of a section a symbol stands for; is_measured_from_corner: c of angle and channel. */
static double value_named(const trivet_section *s, const char *symbol)
{
    const struct {
        const char *symbol;
        double value;
    } values[] = {
        {"A", s->area},
        {"I", s->second_moment[0]},
        {"Ix", s->second_moment[0]},
        {"Iy", s->second_moment[0]},
        {"Iz", s->second_moment[1]},
        {"Iu", s->principal_moment[0]},
        {"Iv", s->principal_moment[1]},
        {"W", s->elastic_modulus[0]},
        {"Wy", s->elastic_modulus[0]},
        {"Wel", s->elastic_modulus[0]},
        {"Wely", s->elastic_modulus[0]},
        {"Wpl", s->plastic_modulus[0]},
        {"Wply", s->plastic_modulus[0]},
        {"J", s->torsion_constant},
        {"Wt", s->torsion_modulus},
        {"c", 0.5 * s->width + s->centroid[0]},
    };
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        if (strcmp(values[i].symbol, symbol) == 0) {
            return values[i].value;
        }
    }
    ck_abort_msg("no section value is called %s", symbol);
    return (double)NAN;
}

static double unit_of_row(const table *from, int row)
{
    const char *const unit = table_text(from, row, "unit");
    if (strcmp(unit, "-") == 0) {
        return 1.0;
    }
    const double length = strncmp(unit, "mm", 2) == 0 ? 1e-3 : 1e-2;
    const char power = unit[2];
    return pow(length, power == '\0' ? 1.0 : power - '0');
}

static int group_begins(const char *group, const char *with)
{
    return strncmp(group, with, strlen(with)) == 0;
}

/* The value that a row speaks of, SI; NaN if the row is one of those that do not apply. */
static double closed_form_value(const table *from, int row)
{
    const char *const group = table_text(from, row, "group");
    const char *const symbol = table_text(from, row, "symbol");
    const double ratio = table_input(from, row, "inputs", "a/b");
    if (!isnan(ratio)) {
        const double b = 0.01;
        const double a = ratio * b;
        const trivet_section s = flat_bar(a, b);
        return strcmp(symbol, "beta") == 0 ? s.torsion_constant / (a * b * b * b)
                                           : s.torsion_modulus / (a * b * b);
    }
    if (group_begins(group, "solid rectangle")) {
        const trivet_section s = flat_bar(input_mm(from, row, "a"), input_mm(from, row, "b"));
        return value_named(&s, symbol);
    }
    if (group_begins(group, "flat bar")) {
        const trivet_section s = flat_bar(input_mm(from, row, "h"), input_mm(from, row, "b"));
        return value_named(&s, symbol);
    }
    if (group_begins(group, "solid square")) {
        trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR);
        bar.width = input_mm(from, row, "a");
        const trivet_section s = solve(&bar);
        return value_named(&s, symbol);
    }
    if (group_begins(group, "round bar")) {
        trivet_profile bar = profile_of(TRIVET_SHAPE_ROUND_BAR);
        bar.diameter = input_mm(from, row, "d");
        const trivet_section s = solve(&bar);
        return value_named(&s, symbol);
    }
    if (group_begins(group, "equal angle")) {
        const trivet_section s = angle_of_row(from, row);
        return value_named(&s, symbol);
    }
    if (group_begins(group, "channel thin wall")) {
        /* Inputs are those of the middle line: 47 and 23.5 for a channel of 50 x 25 x 3. */
        trivet_profile channel = profile_of(TRIVET_SHAPE_CHANNEL);
        channel.wall = input_mm(from, row, "t");
        channel.flange = channel.wall;
        channel.height = input_mm(from, row, "h") + channel.flange;
        channel.width = input_mm(from, row, "b") + 0.5 * channel.wall;
        const trivet_section s = solve(&channel);
        return value_named(&s, symbol);
    }
    if (group_begins(group, "channel")) {
        const trivet_section s = channel_of_row(from, row);
        return value_named(&s, symbol);
    }
    ck_assert_msg(group_begins(group, "thin square tube"), "%s: nobody computes %s",
                  table_text(from, row, "id"), group);
    trivet_profile tube = profile_of(TRIVET_SHAPE_SQUARE_TUBE);
    tube.width = input_mm(from, row, "a");
    tube.wall = input_mm(from, row, "t");
    tube.corner = TRIVET_CORNER_SHARP;
    const trivet_section s = solve(&tube);
    /* The thin closed tube has not the T^3 hm/3 of EN 10219-2; hm = 4 (a - t). */
    return s.torsion_constant - pow(tube.wall, 3) * 4.0 * (tube.width - tube.wall) / 3.0;
}

/* Rows that speak of something else. */
static const struct {
    const char *id;
    const char *why;
} not_applicable[] = {
    {"CLF-019", "an approximation; row CLF-020 has the exact value for the same bar"},
    {"CLF-092", "the shear centre is no section value here (see stock.h)"},
    {"CLF-095", "the thin-wall approximation; round tube is computed exactly"},
};

static int applies(const char *id)
{
    for (size_t i = 0; i < sizeof not_applicable / sizeof not_applicable[0]; i++) {
        if (strcmp(not_applicable[i].id, id) == 0) {
            return 0;
        }
    }
    return 1;
}

START_TEST(bars_angles_and_channels_match_closed_forms)
{
    table *const from = table_read(TEST_DATA "/sections_closed_forms.csv");
    begin();
    for (int row = 0; row < table_rows(from); row++) {
        const char *const id = table_text(from, row, "id");
        if (applies(id)) {
            compare(id, table_text(from, row, "symbol"),
                    closed_form_value(from, row) / unit_of_row(from, row),
                    table_number(from, row, "expected"), table_number(from, row, "tol_abs"));
        }
    }
    ck_assert_int_eq(table_rows(from), 86);
    ck_assert_int_eq(cells, 86 - 3);
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests("printed section values",
                     TESTS(hollow_sections_match_every_row_of_the_standards,
                           inch_sections_match_every_row,
                           bars_angles_and_channels_match_closed_forms));
}
