/*
 * Decimal numbers as text: rounded as the C library rounds them, and the same in every language.
 */
#include "base/decimal.h"

#include "support/run.h"

#include <check.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double read_whole(const char *text)
{
    double value = (double)NAN;
    int is_whole = 0;
    const size_t used = trivet__decimal_read(text, strlen(text), &value, &is_whole);
    ck_assert_msg(used == strlen(text), "%s: %zu bytes used", text, used);
    return value;
}

START_TEST(number_is_rounded_to_the_nearest_double)
{
    /* The C library in its own language is the referee. */
    static const char *const texts[] = {
        "0",
        "1",
        "0.1",
        "1.9",
        "123.456",
        "9007199254740993",
        "1e22",
        "1e23",
        "4.9e-324",
        "2.2250738585072014e-308",
        "1.7976931348623157e308",
        "0.000000000000000000001",
        "00012.500",
        "8.5e0007",
        "3.14159265358979323846264338327950288",
        "9007199254740992.999999999999999999999999999999999999999999999999999999999999999",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        const double wanted = strtod(texts[i], NULL);
        ck_assert_msg(read_whole(texts[i]) == wanted, "%s gives %.17g", texts[i],
                      read_whole(texts[i]));
    }
}
END_TEST

START_TEST(thousands_of_digits_still_break_a_tie)
{
    /* 2^53 + 1 lies in the middle of two doubles; a single 1 far behind the point lifts it. */
    enum { ZEROS = 2000 };
    char text[ZEROS + 32] = "9007199254740993.";
    const size_t start = strlen(text);
    memset(text + start, '0', ZEROS);
    text[start + ZEROS] = '\0';
    ck_assert(read_whole(text) == 9007199254740992.0);
    text[start + ZEROS] = '1';
    text[start + ZEROS + 1] = '\0';
    ck_assert(read_whole(text) == 9007199254740994.0);
}
END_TEST

START_TEST(reading_stops_behind_the_number)
{
    static const struct {
        const char *text;
        size_t used;
        int is_whole;
    } cases[] = {
        {"12 mm", 2, 1}, {"12.5mm", 4, 0}, {"1e3x", 3, 0}, {"2em", 1, 1}, {"2e+", 1, 1},
        {"1.2.3", 3, 0}, {"", 0, 0},       {".", 0, 0},    {"e5", 0, 0},  {"-1", 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double value = 0.0;
        int is_whole = 0;
        const size_t used =
            trivet__decimal_read(cases[i].text, strlen(cases[i].text), &value, &is_whole);
        ck_assert_msg(used == cases[i].used, "\"%s\": %zu", cases[i].text, used);
        if (used > 0) {
            ck_assert_int_eq(is_whole, cases[i].is_whole);
        }
    }
    /* Never behind the given length. */
    double value = 0.0;
    int is_whole = 0;
    ck_assert_uint_eq(trivet__decimal_read("1234", 2, &value, &is_whole), 2);
    ck_assert(value == 12.0);
}
END_TEST

START_TEST(too_large_is_infinite_and_too_small_is_zero)
{
    ck_assert(isinf(read_whole("1e400")));
    ck_assert(isinf(read_whole("1e99999999999999999999")));
    ck_assert(read_whole("1e-400") == 0.0);
    ck_assert(read_whole("0e99999") == 0.0);
}
END_TEST

START_TEST(seventeen_digits_read_back)
{
    static const double values[] = {0.1, 1.0 / 3.0, 123456789.123, 2.5e-5, 1e16, 7.0e-9, 4e22};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        char text[64];
        trivet__decimal_write(values[i], 17, text, sizeof text);
        ck_assert_msg(read_whole(text) == values[i], "%s", text);
    }
}
END_TEST

START_TEST(language_of_the_host_changes_nothing)
{
    static const char *const languages[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "pt_BR.UTF-8", "de_DE"};
    int tried = 0;
    for (size_t i = 0; i < sizeof languages / sizeof languages[0]; i++) {
        if (!setlocale(LC_ALL, languages[i])) {
            continue; /* not installed here */
        }
        tried++;
        char text[64];
        ck_assert(read_whole("1.5") == 1.5);
        trivet__decimal_write(1.5, 3, text, sizeof text);
        ck_assert_str_eq(text, "1.5");
    }
    if (tried == 0) {
        fprintf(stderr, "no language with a decimal comma is installed: not tried\n");
    }
    setlocale(LC_ALL, "C");
}
END_TEST

int main(void)
{
    return run_tests("decimals",
                     TESTS(number_is_rounded_to_the_nearest_double,
                           thousands_of_digits_still_break_a_tie, reading_stops_behind_the_number,
                           too_large_is_infinite_and_too_small_is_zero, seventeen_digits_read_back,
                           language_of_the_host_changes_nothing));
}
