/*
 * Units as people see them. Factors: inch 0.0254 m, pound 0.45359237 kg, gravity 9.80665 m/s^2.
 */
#include "support/near.h"
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/base.h"

#include <check.h>
#include <string.h>

#define PI 3.14159265358979323846
#define IN 0.0254
#define FT 0.3048
#define LB 0.45359237
#define LBF (LB * 9.80665)

static trivet_units units_with(const char *length, const char *mass, const char *force)
{
    trivet_units units;
    ck_assert_int_eq(trivet_units_defaults(&units, sizeof units), TRIVET_OK);
    strcpy(units.length, length);
    strcpy(units.mass, mass);
    strcpy(units.force, force);
    return units;
}

typedef struct shown_case {
    const char *length;
    const char *mass;
    const char *force;
    trivet_dimension dimension;
    const char *text;
    double factor;
} shown_case;

static const shown_case shown_cases[] = {
    {"mm", "kg", "N", TRIVET_NUMBER, "", 1.0},
    {"mm", "kg", "N", TRIVET_LENGTH, "mm", 1e-3},
    {"mm", "kg", "N", TRIVET_MASS, "kg", 1.0},
    {"mm", "kg", "N", TRIVET_FORCE, "N", 1.0},
    {"mm", "kg", "N", TRIVET_MOMENT, "N*m", 1.0},
    {"mm", "kg", "N", TRIVET_STRESS, "N/mm^2", 1e6},
    {"mm", "kg", "N", TRIVET_ANGLE, "deg", PI / 180.0},
    {"mm", "kg", "N", TRIVET_TEMPERATURE, "K", 1.0},
    {"mm", "kg", "N", TRIVET_TIME, "s", 1.0},
    {"mm", "kg", "N", TRIVET_FREQUENCY, "Hz", 1.0},
    {"mm", "kg", "N", TRIVET_AREA, "mm^2", 1e-6},
    {"mm", "kg", "N", TRIVET_VOLUME, "mm^3", 1e-9},
    {"mm", "kg", "N", TRIVET_SECOND_MOMENT, "mm^4", 1e-12},
    {"mm", "kg", "N", TRIVET_DENSITY, "kg/m^3", 1.0},
    {"mm", "kg", "N", TRIVET_MASS_PER_LENGTH, "kg/m", 1.0},
    {"mm", "kg", "N", TRIVET_LINE_LOAD, "N/mm", 1e3},
    {"mm", "kg", "N", TRIVET_TURN_SPRING, "N*m/rad", 1.0},
    {"mm", "kg", "N", TRIVET_EXPANSION, "/K", 1.0},
    {"mm", "kg", "N", TRIVET_ACCELERATION, "m/s^2", 1.0},
    {"mm", "kg", "N", TRIVET_SPEED, "m/s", 1.0},
    {"mm", "kg", "N", TRIVET_PER_AREA, "/mm^2", 1e6},
    {"mm", "kg", "N", TRIVET_PER_VOLUME, "/mm^3", 1e9},
    {"cm", "g", "kN", TRIVET_LENGTH, "cm", 1e-2},
    {"cm", "g", "kN", TRIVET_SECOND_MOMENT, "cm^4", 1e-8},
    {"cm", "g", "kN", TRIVET_VOLUME, "cm^3", 1e-6},
    {"cm", "g", "kN", TRIVET_AREA, "cm^2", 1e-4},
    {"cm", "g", "kN", TRIVET_MASS, "g", 1e-3},
    {"cm", "g", "kN", TRIVET_FORCE, "kN", 1e3},
    {"cm", "g", "kN", TRIVET_MOMENT, "N*m", 1.0},
    {"m", "kg", "kgf", TRIVET_LENGTH, "m", 1.0},
    {"m", "kg", "kgf", TRIVET_AREA, "mm^2", 1e-6},
    {"m", "kg", "kgf", TRIVET_FORCE, "kgf", 9.80665},
    {"m", "kg", "kgf", TRIVET_STRESS, "N/mm^2", 1e6},
    {"in", "lb", "lbf", TRIVET_LENGTH, "in", IN},
    {"in", "lb", "lbf", TRIVET_MASS, "lb", LB},
    {"in", "lb", "lbf", TRIVET_FORCE, "lbf", LBF},
    {"in", "lb", "lbf", TRIVET_MOMENT, "lbf*in", LBF *IN},
    {"in", "lb", "lbf", TRIVET_STRESS, "psi", LBF / (IN * IN)},
    {"in", "lb", "lbf", TRIVET_AREA, "in^2", IN *IN},
    {"in", "lb", "lbf", TRIVET_VOLUME, "in^3", IN *IN *IN},
    {"in", "lb", "lbf", TRIVET_SECOND_MOMENT, "in^4", IN *IN *IN *IN},
    {"in", "lb", "lbf", TRIVET_DENSITY, "lb/in^3", LB / (IN * IN * IN)},
    {"in", "lb", "lbf", TRIVET_MASS_PER_LENGTH, "lb/ft", LB / FT},
    {"in", "lb", "lbf", TRIVET_LINE_LOAD, "lbf/in", LBF / IN},
    {"in", "lb", "lbf", TRIVET_TURN_SPRING, "lbf*in/rad", LBF *IN},
    {"in", "lb", "lbf", TRIVET_ACCELERATION, "in/s^2", IN},
    {"in", "lb", "lbf", TRIVET_SPEED, "in/s", IN},
    {"in", "kg", "N", TRIVET_FORCE, "N", 1.0},
    {"ft", "lb", "lbf", TRIVET_LENGTH, "ft", FT},
    {"ft", "lb", "lbf", TRIVET_MOMENT, "lbf*ft", LBF *FT},
    {"ft", "lb", "lbf", TRIVET_STRESS, "psi", LBF / (IN * IN)},
    {"ft", "lb", "lbf", TRIVET_AREA, "in^2", IN *IN},
    {"ft", "lb", "lbf", TRIVET_LINE_LOAD, "lbf/ft", LBF / FT},
    {"ft", "lb", "lbf", TRIVET_TURN_SPRING, "lbf*ft/rad", LBF *FT},
    /* What is no unit of its kind falls back on the default. */
    {"stone", "stone", "stone", TRIVET_LENGTH, "mm", 1e-3},
    {"stone", "mm", "kg", TRIVET_MASS, "kg", 1.0},
    {"stone", "mm", "kg", TRIVET_FORCE, "N", 1.0},
};

enum { SHOWN_COUNT = sizeof shown_cases / sizeof shown_cases[0] };

START_TEST(dimension_is_shown_in_its_unit)
{
    const shown_case *const wanted = &shown_cases[_i];
    const trivet_units units = units_with(wanted->length, wanted->mass, wanted->force);
    double factor = 0.0;
    ck_assert_str_eq(trivet_units_for(&units, wanted->dimension, &factor), wanted->text);
    near_relative(factor, wanted->factor, 8.0 * DBL_EPSILON);
    ck_assert_str_eq(trivet_units_for(&units, wanted->dimension, NULL), wanted->text);
}
END_TEST

START_TEST(every_shown_unit_reads_back)
{
    static const char *const lengths[] = {"mm", "cm", "m", "in", "ft"};
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        const trivet_units units = units_with(lengths[i], "lb", "lbf");
        for (int d = TRIVET_LENGTH; d <= TRIVET_PER_VOLUME; d++) {
            char text[64];
            trivet_quantity got;
            trivet_units_text(&units, (trivet_dimension)d, 0.75, 17, text, sizeof text);
            ck_assert_msg(trivet_quantity_read(text, &got, NULL) == TRIVET_OK, "%s", text);
            near_relative(got.value, 0.75, 16.0 * DBL_EPSILON);
            ck_assert_msg(trivet_quantity_fits(&got, (trivet_dimension)d), "%s", text);
        }
    }
}
END_TEST

typedef struct text_case {
    trivet_dimension dimension;
    double value;
    int32_t digits;
    const char *text;
} text_case;

static const text_case text_cases[] = {
    {TRIVET_LENGTH, 0.0019, 3, "1.9 mm"},
    {TRIVET_LENGTH, 0.012, 3, "12 mm"},
    {TRIVET_LENGTH, 0.00193, 3, "1.93 mm"},
    {TRIVET_LENGTH, 1.2345678, 3, "1235 mm"},
    {TRIVET_LENGTH, 0.0, 3, "0 mm"},
    {TRIVET_LENGTH, -0.0, 3, "0 mm"},
    {TRIVET_LENGTH, -0.0019, 3, "-1.9 mm"},
    {TRIVET_LENGTH, 0.01, 1, "10 mm"},
    {TRIVET_LENGTH, 0.009996, 3, "10 mm"},
    {TRIVET_LENGTH, 0.9996, 3, "1000 mm"},
    {TRIVET_LENGTH, 1e-6, 3, "0.001 mm"},
    {TRIVET_LENGTH, 1.23e-7, 2, "0.00012 mm"},
    {TRIVET_LENGTH, 1.5e-12, 3, "1.5e-9 mm"},
    {TRIVET_LENGTH, 0.001651, 4, "1.651 mm"},
    {TRIVET_LENGTH, 0.02, 0, "20 mm"},
    {TRIVET_FORCE, 1234.0, 3, "1234 N"},
    {TRIVET_FORCE, 1234.5, 3, "1234 N"},
    {TRIVET_FORCE, 100000.0, 1, "100000 N"},
    {TRIVET_FORCE, 1e20, 3, "1e20 N"},
    {TRIVET_FORCE, 0.5, 3, "0.5 N"},
    {TRIVET_FORCE, 1.0 / 3.0, 17, "0.33333333333333331 N"},
    {TRIVET_FORCE, 1.0 / 3.0, 40, "0.33333333333333331 N"},
    {TRIVET_STRESS, 235e6, 3, "235 N/mm^2"},
    {TRIVET_STRESS, 210e9, 3, "210000 N/mm^2"},
    {TRIVET_ANGLE, PI / 2.0, 3, "90 deg"},
    {TRIVET_NUMBER, 0.57, 2, "0.57"},
    {TRIVET_EXPANSION, 1.2e-5, 3, "0.000012 /K"},
};

enum { TEXT_COUNT = sizeof text_cases / sizeof text_cases[0] };

START_TEST(value_is_written_as_people_read_it)
{
    const text_case *const wanted = &text_cases[_i];
    char text[64];
    const size_t needed = trivet_units_text(NULL, wanted->dimension, wanted->value, wanted->digits,
                                            text, sizeof text);
    ck_assert_str_eq(text, wanted->text);
    ck_assert_uint_eq(needed, strlen(wanted->text));
}
END_TEST

START_TEST(what_is_not_a_number_is_said_in_words)
{
    char text[64];
    trivet_units_text(NULL, TRIVET_LENGTH, (double)NAN, 3, text, sizeof text);
    ck_assert_str_eq(text, "not known");
    trivet_units_text(NULL, TRIVET_LENGTH, (double)INFINITY, 3, text, sizeof text);
    ck_assert_str_eq(text, "infinite");
    trivet_units_text(NULL, TRIVET_LENGTH, -(double)INFINITY, 3, text, sizeof text);
    ck_assert_str_eq(text, "minus infinite");
}
END_TEST

START_TEST(short_room_cuts_the_text_and_tells_the_need)
{
    char text[5] = "****";
    ck_assert_uint_eq(trivet_units_text(NULL, TRIVET_FORCE, 1234.0, 3, text, sizeof text), 6);
    ck_assert_str_eq(text, "1234");
    ck_assert_uint_eq(trivet_units_text(NULL, TRIVET_FORCE, 1234.0, 3, NULL, 0), 6);
}
END_TEST

START_TEST(only_the_sizes_we_have_had_are_accepted)
{
    defaults_take_own_size(trivet_units, trivet_units_defaults);
    trivet_units units;
    ck_assert_int_eq(trivet_units_defaults(&units, sizeof units), TRIVET_OK);
    ck_assert_str_eq(units.length, "mm");
    ck_assert_str_eq(units.mass, "kg");
    ck_assert_str_eq(units.force, "N");
}
END_TEST

START_TEST(dimension_has_name_and_powers)
{
    ck_assert_str_eq(trivet_dimension_text(TRIVET_LENGTH), "length");
    ck_assert_str_eq(trivet_dimension_text(TRIVET_STRESS), "stress");
    ck_assert_str_eq(trivet_dimension_text((trivet_dimension)-1), "unknown");
    ck_assert_str_eq(trivet_dimension_text((trivet_dimension)22), "unknown");
    for (int d = TRIVET_NUMBER; d <= TRIVET_PER_VOLUME; d++) {
        ck_assert_str_ne(trivet_dimension_text((trivet_dimension)d), "unknown");
    }
    const trivet_quantity plain = {.value = 2.0};
    ck_assert(trivet_quantity_fits(&plain, TRIVET_NUMBER));
    ck_assert(trivet_quantity_fits(&plain, TRIVET_ANGLE));
    ck_assert(!trivet_quantity_fits(&plain, TRIVET_LENGTH));
    ck_assert(!trivet_quantity_fits(&plain, (trivet_dimension)22));
    ck_assert(!trivet_quantity_fits(NULL, TRIVET_NUMBER));
    /* A spring is a force a length. */
    const trivet_quantity spring = {.value = 1.0, .mass = 1, .time = -2, .has_unit = 1};
    ck_assert(trivet_quantity_fits(&spring, TRIVET_LINE_LOAD));
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(every_shown_unit_reads_back, what_is_not_a_number_is_said_in_words,
              short_room_cuts_the_text_and_tells_the_need, only_the_sizes_we_have_had_are_accepted,
              dimension_has_name_and_powers);
    tcase_add_loop_test(tests, dimension_is_shown_in_its_unit, 0, SHOWN_COUNT);
    tcase_add_loop_test(tests, value_is_written_as_people_read_it, 0, TEXT_COUNT);
    return run_tests("units", tests);
}
