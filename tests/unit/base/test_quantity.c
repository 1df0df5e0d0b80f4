/*
 * Reading quantities. Factors in the expected values are the exact definitions: inch 25.4 mm, pound
 * 0.45359237 kg, standard gravity 9.80665 m/s^2.
 */
#include "base/quantity.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979323846
#define LBF 4.4482216152605

typedef struct good_case {
    const char *text;
    double value; /* SI */
    trivet_dimension dimension;
    int has_unit;
} good_case;

static const good_case good_cases[] = {
    {"25", 25.0, TRIVET_NUMBER, 0},
    {" 25 ", 25.0, TRIVET_NUMBER, 0},
    {"1e3", 1000.0, TRIVET_NUMBER, 0},
    {"1.5E-2", 0.015, TRIVET_NUMBER, 0},
    {".5", 0.5, TRIVET_NUMBER, 0},
    {"5.", 5.0, TRIVET_NUMBER, 0},
    {"-4", -4.0, TRIVET_NUMBER, 0},
    {"--4", 4.0, TRIVET_NUMBER, 0},
    {"2 + 3 * 4", 14.0, TRIVET_NUMBER, 0},
    {"(2 + 3) * 4", 20.0, TRIVET_NUMBER, 0},
    {"2 - 3 - 4", -5.0, TRIVET_NUMBER, 0},
    {"24 / 4 / 2", 3.0, TRIVET_NUMBER, 0},
    {"-2^2", -4.0, TRIVET_NUMBER, 0},
    {"(-2)^2", 4.0, TRIVET_NUMBER, 0},
    {"2^-1", 0.5, TRIVET_NUMBER, 0},
    {"2^0.5", 1.4142135623730951, TRIVET_NUMBER, 0},
    {"2 * -3", -6.0, TRIVET_NUMBER, 0},
    {"1/4", 0.25, TRIVET_NUMBER, 0},
    {"1 - 1/4", 0.75, TRIVET_NUMBER, 0},
    {"1 1/4", 1.25, TRIVET_NUMBER, 0},
    {"40 %", 0.4, TRIVET_NUMBER, 1},
    {"40%", 0.4, TRIVET_NUMBER, 1},
    {"90 deg", PI / 2.0, TRIVET_ANGLE, 1},
    {"2 rad", 2.0, TRIVET_ANGLE, 1},
    {"20 mm", 0.020, TRIVET_LENGTH, 1},
    {"20mm", 0.020, TRIVET_LENGTH, 1},
    {"1e3 mm", 1.0, TRIVET_LENGTH, 1},
    {"2.5 cm", 0.025, TRIVET_LENGTH, 1},
    {"1 ft", 0.3048, TRIVET_LENGTH, 1},
    {"3/4 in", 0.01905, TRIVET_LENGTH, 1},
    {"1 1/4 in", 0.03175, TRIVET_LENGTH, 1},
    {"1-1/4 in", 0.03175, TRIVET_LENGTH, 1},
    {"-1-1/4 in", -0.03175, TRIVET_LENGTH, 1},
    {"10/4 in", 0.0635, TRIVET_LENGTH, 1},
    {"2 * 3/4 in", 0.0381, TRIVET_LENGTH, 1},
    {"10 mm-1/4 in", 0.00365, TRIVET_LENGTH, 1},
    {"320 mm / 2", 0.160, TRIVET_LENGTH, 1},
    {"(1 + 2) mm", 0.003, TRIVET_LENGTH, 1},
    {"2 * 25 mm + 1-1/4 in", 0.08175, TRIVET_LENGTH, 1},
    {"(3 mm + 1 cm) * 2", 0.026, TRIVET_LENGTH, 1},
    {"14 kg", 14.0, TRIVET_MASS, 1},
    {"2 lb", 0.90718474, TRIVET_MASS, 1},
    {"500 g", 0.5, TRIVET_MASS, 1},
    {"14 kg * 9.80665 m/s^2", 14.0 * 9.80665, TRIVET_FORCE, 1},
    {"1.5 kN", 1500.0, TRIVET_FORCE, 1},
    {"10 lbf", 10.0 * LBF, TRIVET_FORCE, 1},
    {"1 kgf", 9.80665, TRIVET_FORCE, 1},
    {"900 N*m/rad", 900.0, TRIVET_TURN_SPRING, 1},
    {"10 N*m", 10.0, TRIVET_MOMENT, 1},
    {"12 lbf*in", 12.0 * LBF * 0.0254, TRIVET_MOMENT, 1},
    {"5 N/mm^2", 5e6, TRIVET_STRESS, 1},
    {"5 N / mm^2", 5e6, TRIVET_STRESS, 1},
    {"5 N/(mm^2)", 5e6, TRIVET_STRESS, 1},
    {"235 MPa", 235e6, TRIVET_STRESS, 1},
    {"210 GPa", 210e9, TRIVET_STRESS, 1},
    {"7 kPa", 7e3, TRIVET_STRESS, 1},
    {"1 psi", LBF / (0.0254 * 0.0254), TRIVET_STRESS, 1},
    {"36 ksi", 36e3 * LBF / (0.0254 * 0.0254), TRIVET_STRESS, 1},
    {"10 N / 2 mm", 5000.0, TRIVET_LINE_LOAD, 1},
    {"2 N/mm", 2000.0, TRIVET_LINE_LOAD, 1},
    {"4 mm^2", 4e-6, TRIVET_AREA, 1},
    {"(4 mm)^2", 16e-6, TRIVET_AREA, 1},
    {"3 cm^4", 3e-8, TRIVET_SECOND_MOMENT, 1},
    {"2 in^3", 2.0 * 0.0254 * 0.0254 * 0.0254, TRIVET_VOLUME, 1},
    {"7850 kg/m^3", 7850.0, TRIVET_DENSITY, 1},
    {"1.57 kg/m", 1.57, TRIVET_MASS_PER_LENGTH, 1},
    {"30 K", 30.0, TRIVET_TEMPERATURE, 1},
    {"12e-6 / K", 12e-6, TRIVET_EXPANSION, 1},
    {"1.2e-5 K^-1", 1.2e-5, TRIVET_EXPANSION, 1},
    {"90 km/h", 25.0, TRIVET_SPEED, 1},
    {"2 min + 30 s", 150.0, TRIVET_TIME, 1},
    {"11 ms", 0.011, TRIVET_TIME, 1},
    {"20 Hz", 20.0, TRIVET_FREQUENCY, 1},
    {"1/20 ms", 0.00005, TRIVET_TIME, 1},
    {"10 mm / 4 mm", 2.5, TRIVET_NUMBER, 1},
    {"1 / 20 ms", 50.0, TRIVET_FREQUENCY, 1},
};

enum { GOOD_COUNT = sizeof good_cases / sizeof good_cases[0] };

START_TEST(quantity_is_read)
{
    const good_case *const wanted = &good_cases[_i];
    trivet_quantity got;
    trivet_message message = {0};
    ck_assert_msg(trivet_quantity_read(wanted->text, &got, &message) == TRIVET_OK,
                  "\"%s\": column %d: %s; %s", wanted->text, (int)message.column, message.problem,
                  message.remedy);
    /* A handful of roundings: factors, products, the sum. */
    near_scaled(got.value, wanted->value, 4.0 * DBL_EPSILON, wanted->value);
    ck_assert_msg(trivet_quantity_fits(&got, wanted->dimension), "\"%s\" is not a %s", wanted->text,
                  trivet_dimension_text(wanted->dimension));
    ck_assert_int_eq(got.has_unit, wanted->has_unit);
}
END_TEST

START_TEST(whole_sizes_are_the_nearest_doubles)
{
    trivet_quantity got;
    ck_assert_int_eq(trivet_quantity_read("19 mm", &got, NULL), TRIVET_OK);
    ck_assert(got.value == 0.019);
    ck_assert_int_eq(trivet_quantity_read("7 mm^2", &got, NULL), TRIVET_OK);
    ck_assert(got.value == 7e-6);
    ck_assert_int_eq(trivet_quantity_read("3 in", &got, NULL), TRIVET_OK);
    ck_assert(got.value == 0.0762);
}
END_TEST

typedef struct bad_case {
    const char *text;
    trivet_status status;
    int32_t column;
    const char *problem; /* words that must stand in the problem */
    const char *remedy;  /* words that must stand in the remedy */
} bad_case;

static const bad_case bad_cases[] = {
    {"", TRIVET_BAD_SYNTAX, 1, "nothing is written", "20 mm"},
    {"   ", TRIVET_BAD_SYNTAX, 4, "ends where a number", "20 mm"},
    {"20 mm +", TRIVET_BAD_SYNTAX, 8, "ends where a number", "20 mm"},
    {"20 * / 3", TRIVET_BAD_SYNTAX, 6, "number is missing", "20 mm"},
    {"mm", TRIVET_BAD_SYNTAX, 1, "number before \"mm\" is missing", "1 mm"},
    {"20 mm 3", TRIVET_BAD_SYNTAX, 7, "sign is missing", "+ - * or /"},
    {"1.2.3", TRIVET_BAD_SYNTAX, 4, "sign is missing", "+ - * or /"},
    {"1 5/4", TRIVET_BAD_SYNTAX, 3, "sign is missing", "+ - * or /"},
    {"1-1/4", TRIVET_BAD_SYNTAX, 1, "two ways", "1 - 1/4"},
    {".", TRIVET_BAD_SYNTAX, 1, "number is missing", "digits"},
    {"(2 + 3", TRIVET_BAD_SYNTAX, 1, "not closed", ")"},
    {"2 + 3)", TRIVET_BAD_SYNTAX, 6, "closes none", "("},
    {"()", TRIVET_BAD_SYNTAX, 2, "bracket closes", "number"},
    {"1,5 mm", TRIVET_BAD_SYNTAX, 2, "sign , has no meaning", "behind a point"},
    {"2\"", TRIVET_BAD_SYNTAX, 2, "sign \" has no meaning", "write in"},
    {"20 mm; 3", TRIVET_BAD_SYNTAX, 6, "sign ; has no meaning", "use numbers"},
    {"2 \xC3\x97 3 mm", TRIVET_BAD_SYNTAX, 3, "sign \xC3\x97 has no meaning", "use numbers"},
    {"4 mm\xC2\xB2", TRIVET_BAD_SYNTAX, 5, "sign \xC2\xB2 has no meaning", "^"},
    {"2 + \x01", TRIVET_BAD_SYNTAX, 5, "number 1 has no meaning", "use numbers"},
    {"2^3^2", TRIVET_BAD_SYNTAX, 4, "two powers", "brackets"},
    {"2 mm \xFF", TRIVET_BAD_SYNTAX, 6, "UTF-8", "UTF-8"},
    {"20 mmm", TRIVET_BAD_UNIT, 4, "\"mmm\" is not a unit", "did you mean \"mm\"?"},
    {"20 MM", TRIVET_BAD_UNIT, 4, "\"MM\" is not a unit", "did you mean"},
    {"20 newton", TRIVET_BAD_UNIT, 4, "\"newton\" is not a unit", "use m mm"},
    {"5 N/mmm", TRIVET_BAD_UNIT, 5, "\"mmm\" is not a unit", "did you mean \"mm\"?"},
    {"\xC3\xA4 + 20 mmm", TRIVET_BAD_NAME, 1, "\"\xC3\xA4\" is neither", "number"},
    {"20 mm + 3 \xC3\xA4", TRIVET_BAD_UNIT, 11, "\"\xC3\xA4\" is not a unit", "use m mm"},
    {"20 mm + 3 kg", TRIVET_BAD_UNIT, 7, "length and mass cannot be added", "same kind"},
    {"20 N - 3 N*m", TRIVET_BAD_UNIT, 6, "force and moment cannot be subtracted", "same kind"},
    {"1 - 1/4 in", TRIVET_BAD_UNIT, 3, "plain number and length", "write the unit"},
    {"20 mm + 5", TRIVET_BAD_UNIT, 7, "length and plain number", "write the unit"},
    {"3 mm^5 + 1 mm", TRIVET_BAD_UNIT, 8, "quantity in m^5 and length", "same kind"},
    {"2^(3 mm)", TRIVET_BAD_UNIT, 2, "exponent has a unit", "plain number"},
    {"(4 mm^2)^0.5", TRIVET_BAD_UNIT, 9, "whole power", "whole number"},
    {"4 mm^0.5", TRIVET_BAD_UNIT, 6, "whole number", "mm^2"},
    {"4 mm^", TRIVET_BAD_UNIT, 6, "whole number", "mm^2"},
    {"4 mm^65", TRIVET_BAD_UNIT, 6, "whole number", "mm^2"},
    {"4 mm^60 * 1 mm^60", TRIVET_BAD_UNIT, 9, "power of the unit is above 64", "powers"},
    {"16 ga BWG", TRIVET_BAD_UNIT, 4, "gauges are not understood here", "1.5 mm"},
    {"2 * reach", TRIVET_BAD_NAME, 5, "\"reach\" is neither", "number"},
    {"inf", TRIVET_BAD_NAME, 1, "\"inf\" is neither", "number"},
    {"1e400", TRIVET_BAD_VALUE, 1, "too large", "1e308"},
    {"1e308 * 10", TRIVET_BAD_VALUE, 7, "not a finite number", "1e308"},
    {"1e308 km", TRIVET_BAD_VALUE, 7, "not a finite number", "1e308"},
    {"1 / 0", TRIVET_BAD_VALUE, 3, "divides by zero", "other than 0"},
    {"1 mm / (3 - 3)", TRIVET_BAD_VALUE, 6, "divides by zero", "other than 0"},
    {"1/0 in", TRIVET_BAD_VALUE, 1, "divides by zero", "other than 0"},
    {"0^-1", TRIVET_BAD_VALUE, 2, "divides by zero", "other than 0"},
    {"(-2)^0.5", TRIVET_BAD_VALUE, 5, "not a finite number", "powers"},
};

enum { BAD_COUNT = sizeof bad_cases / sizeof bad_cases[0] };

START_TEST(bad_quantity_is_refused_where_it_is_wrong)
{
    const bad_case *const wanted = &bad_cases[_i];
    trivet_quantity got = {.value = 1.0};
    trivet_message message = {0};
    const trivet_status status = trivet_quantity_read(wanted->text, &got, &message);
    ck_assert_msg(status == wanted->status && message.status == (int32_t)wanted->status,
                  "\"%s\" gives status %d: %s", wanted->text, (int)status, message.problem);
    ck_assert_msg(message.column == wanted->column, "\"%s\": column %d, wanted %d: %s",
                  wanted->text, (int)message.column, (int)wanted->column, message.problem);
    ck_assert_int_eq(message.line, 0);
    ck_assert_msg(strstr(message.problem, wanted->problem) != NULL, "\"%s\": problem: %s",
                  wanted->text, message.problem);
    ck_assert_msg(strstr(message.remedy, wanted->remedy) != NULL, "\"%s\": remedy: %s",
                  wanted->text, message.remedy);
    ck_assert(got.value == 0.0 && got.has_unit == 0);
    ck_assert_int_eq(trivet_quantity_read(wanted->text, &got, NULL), wanted->status);
}
END_TEST

START_TEST(brackets_nest_64_deep_and_no_deeper)
{
    char text[200];
    trivet_quantity got;
    trivet_message message;
    for (size_t depth = 64; depth <= 65; depth++) {
        memset(text, '(', depth);
        text[depth] = '7';
        memset(text + depth + 1, ')', depth);
        text[2 * depth + 1] = '\0';
        const trivet_status status = trivet_quantity_read(text, &got, &message);
        if (depth == 64) {
            ck_assert_int_eq(status, TRIVET_OK);
            ck_assert(got.value == 7.0);
        } else {
            ck_assert_int_eq(status, TRIVET_BAD_SYNTAX);
            ck_assert_int_eq(message.column, 65);
            ck_assert_ptr_nonnull(strstr(message.problem, "64 deep"));
        }
    }
}
END_TEST

START_TEST(long_text_is_read_in_one_go)
{
    enum { TERMS = 100000 };
    char *const text = malloc(2 * TERMS + 2);
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < TERMS; i++) {
        memcpy(text + 2 * i, "1+", 2);
    }
    memcpy(text + (size_t)2 * TERMS, "1", 2);
    trivet_quantity got;
    ck_assert_int_eq(trivet_quantity_read(text, &got, NULL), TRIVET_OK);
    ck_assert(got.value == TERMS + 1.0);
    memset(text, '-', (size_t)2 * TERMS);
    ck_assert_int_eq(trivet_quantity_read(text, &got, NULL), TRIVET_OK);
    ck_assert(got.value == 1.0);
    free(text);
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    trivet_quantity got = {.value = 1.0};
    trivet_message message;
    ck_assert_int_eq(trivet_quantity_read(NULL, &got, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "text");
    ck_assert(got.value == 0.0);
    ck_assert_int_eq(trivet_quantity_read("1", NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_str_eq(message.thing, "quantity_out");
}
END_TEST

/* ---- Hooks ---- */

static trivet_status name_hook(void *user, const char *name, size_t length, trivet_quantity *out,
                               trivet_message *message)
{
    (*(int *)user)++;
    if (length == 5 && memcmp(name, "reach", 5) == 0) {
        *out = (trivet_quantity){.value = 0.18, .length = 1, .has_unit = 1};
        return TRIVET_OK;
    }
    if (length == 1 && name[0] == 's') {
        *out = (trivet_quantity){.value = 3.0};
        return TRIVET_OK;
    }
    if (message) {
        *message = (trivet_message){.status = TRIVET_BAD_NAME, .problem = "no such name"};
    }
    return TRIVET_BAD_NAME;
}

static trivet_status gauge_hook(void *user, double number, const char *system, size_t length,
                                double *out, trivet_message *message)
{
    (void)user;
    (void)message;
    if (length == 3 && memcmp(system, "BWG", 3) == 0) {
        *out = number * 1e-4;
        return TRIVET_OK;
    }
    return TRIVET_BAD_UNIT;
}

static trivet_status parse(const char *text, trivet_quantity *got, trivet_message *message)
{
    int calls = 0;
    const trivet__quantity_hooks hooks = {name_hook, gauge_hook, &calls, NULL};
    return trivet__quantity_parse(text, strlen(text), &hooks, got, message);
}

START_TEST(names_are_values)
{
    trivet_quantity got;
    ck_assert_int_eq(parse("2 * reach - 5 mm", &got, NULL), TRIVET_OK);
    near_relative(got.value, 0.355, 4.0 * DBL_EPSILON);
    ck_assert(trivet_quantity_fits(&got, TRIVET_LENGTH));
    ck_assert_int_eq(parse("reach^2", &got, NULL), TRIVET_OK);
    near_relative(got.value, 0.0324, 4.0 * DBL_EPSILON);
    ck_assert(trivet_quantity_fits(&got, TRIVET_AREA));
}
END_TEST

START_TEST(name_that_is_a_unit_wins_except_behind_a_number)
{
    trivet_quantity got;
    ck_assert_int_eq(parse("2 s", &got, NULL), TRIVET_OK);
    ck_assert(trivet_quantity_fits(&got, TRIVET_TIME));
    ck_assert_int_eq(parse("2 * s", &got, NULL), TRIVET_OK);
    ck_assert(got.value == 6.0 && trivet_quantity_fits(&got, TRIVET_NUMBER));
    ck_assert_int_eq(parse("2 mm * s", &got, NULL), TRIVET_OK);
    ck_assert(trivet_quantity_fits(&got, TRIVET_LENGTH));
    near_relative(got.value, 0.006, 2.0 * DBL_EPSILON);
}
END_TEST

START_TEST(name_hook_complaint_gets_a_column)
{
    trivet_quantity got;
    trivet_message message;
    ck_assert_int_eq(parse("2 * outreach", &got, &message), TRIVET_BAD_NAME);
    ck_assert_int_eq(message.column, 5);
    ck_assert_str_eq(message.problem, "no such name");
    ck_assert_str_eq(message.thing, "2 * outreach");
    ck_assert_int_eq(parse("2 reach", &got, &message), TRIVET_BAD_SYNTAX);
    ck_assert_int_eq(message.column, 3);
    ck_assert_str_eq(message.remedy, "write * before \"reach\" to multiply");
}
END_TEST

START_TEST(gauges_are_lengths)
{
    trivet_quantity got;
    ck_assert_int_eq(parse("16 ga BWG", &got, NULL), TRIVET_OK);
    near_relative(got.value, 0.0016, 2.0 * DBL_EPSILON);
    ck_assert(trivet_quantity_fits(&got, TRIVET_LENGTH) && got.has_unit == 1);
    ck_assert_int_eq(parse("2 * 16 gauge BWG + 1 mm", &got, NULL), TRIVET_OK);
    near_relative(got.value, 0.0042, 4.0 * DBL_EPSILON);
    ck_assert_int_eq(parse("16 ga", &got, NULL), TRIVET_BAD_UNIT);
    ck_assert_int_eq(parse("16 ga XYZ", &got, NULL), TRIVET_BAD_UNIT);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(whole_sizes_are_the_nearest_doubles, brackets_nest_64_deep_and_no_deeper,
              long_text_is_read_in_one_go, missing_arguments_are_named, names_are_values,
              name_that_is_a_unit_wins_except_behind_a_number, name_hook_complaint_gets_a_column,
              gauges_are_lengths);
    tcase_add_loop_test(tests, quantity_is_read, 0, GOOD_COUNT);
    tcase_add_loop_test(tests, bad_quantity_is_refused_where_it_is_wrong, 0, BAD_COUNT);
    return run_tests("quantities", tests);
}
