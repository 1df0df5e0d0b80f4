/*
 * Profiles: what each shape needs and refuses, with the exact words, and the text people say.
 */
#include "stock_of.h"
#include "support/run.h"
#include "support/sizes.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

typedef struct bad_case {
    int32_t shape;
    int32_t corner;
    double
        sizes[8]; /* mm: height width wall diameter corner_radius flange root_radius toe_radius */
    const char *thing;
    const char *problem;
    const char *remedy;
} bad_case;

#define NAN_MM ((double)NAN)
#define INF_MM ((double)INFINITY)

static const bad_case bad_cases[] = {
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 0, 2},
     "square tube",
     "the width is missing",
     "give the width"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 0},
     "square tube",
     "the wall is missing",
     "give the wall"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {20, 20, 2},
     "square tube",
     "it has no height",
     "leave the height out or choose another shape"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 2, 5},
     "square tube",
     "it has no diameter",
     "leave the diameter out or choose another shape"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 12},
     "square tube",
     "the wall of 12 mm leaves no room inside",
     "give a wall below 10 mm"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 10},
     "square tube",
     "the wall of 10 mm leaves no room inside",
     "give a wall below 10 mm"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, -20, 2},
     "square tube",
     "the width is -20 mm",
     "give a width above 0"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, NAN_MM},
     "square tube",
     "the wall is not known",
     "give a wall above 0"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, INF_MM, 2},
     "square tube",
     "the width is infinite",
     "check the unit of the width: no stock is of that size"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 1e303, 2},
     "square tube",
     "the width is 1e303 mm",
     "check the unit of the width: no stock is of that size"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 1e-9},
     "square tube",
     "the wall is 1e-9 mm",
     "check the unit of the wall: no stock is of that size"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 10, 3},
     "square tube",
     "the usual corner radius of 6 mm is more than half the side",
     "give the corner radius, or say that corners are sharp"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     1,
     {0, 20, 2, 0, 11},
     "square tube",
     "the corner radius of 11 mm is more than half the side",
     "give a corner radius below 10 mm"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     1,
     {0, 20, 2},
     "square tube",
     "the corner radius is missing",
     "give the outer radius, or say that corners are sharp"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     0,
     {0, 20, 2, 0, 3},
     "square tube",
     "a corner radius is given, but not asked for",
     "leave it out or set the kind of corner to a radius"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     3,
     {0, 20, 2},
     "square tube",
     "3 is no kind of corner for it",
     "use a trivet_corner"},
    {TRIVET_SHAPE_SQUARE_TUBE,
     -1,
     {0, 20, 2},
     "square tube",
     "-1 is no kind of corner for it",
     "use a trivet_corner"},
    {TRIVET_SHAPE_RECTANGULAR_TUBE,
     0,
     {0, 20, 2},
     "rectangular tube",
     "the height is missing",
     "give the height"},
    {TRIVET_SHAPE_RECTANGULAR_TUBE,
     0,
     {40, 20, 10},
     "rectangular tube",
     "the wall of 10 mm leaves no room inside",
     "give a wall below 10 mm"},
    {TRIVET_SHAPE_ROUND_TUBE,
     0,
     {0, 0, 2, 0},
     "round tube",
     "the diameter is missing",
     "give the diameter"},
    {TRIVET_SHAPE_ROUND_TUBE,
     0,
     {0, 0, 10, 20},
     "round tube",
     "the wall of 10 mm leaves no room inside",
     "give a wall below 10 mm"},
    {TRIVET_SHAPE_ROUND_TUBE,
     2,
     {0, 0, 2, 20},
     "round tube",
     "2 is no kind of corner for it",
     "leave the corner out"},
    {TRIVET_SHAPE_SQUARE_BAR,
     0,
     {0, 15, 2},
     "square bar",
     "it has no wall",
     "leave the wall out or choose another shape"},
    {TRIVET_SHAPE_FLAT_BAR, 0, {0, 15}, "flat bar", "the height is missing", "give the height"},
    {TRIVET_SHAPE_ROUND_BAR,
     0,
     {0, 15},
     "round bar",
     "it has no width",
     "leave the width out or choose another shape"},
    {TRIVET_SHAPE_ANGLE,
     0,
     {0, 30, 3},
     "angle",
     "the upright leg is missing",
     "give the upright leg"},
    {TRIVET_SHAPE_ANGLE,
     0,
     {30, 20, 20},
     "angle",
     "the wall of 20 mm is as thick as a leg is long",
     "give a wall below 20 mm"},
    {TRIVET_SHAPE_ANGLE,
     0,
     {30, 30, 3, 0, 0, 0, 0, 4},
     "angle",
     "the toe radius of 4 mm is more than the wall",
     "give a toe radius below 3 mm"},
    {TRIVET_SHAPE_ANGLE,
     0,
     {30, 30, 3, 0, 0, 0, 26, 2},
     "angle",
     "the root radius of 26 mm does not fit into the shorter leg",
     "give a root radius below 25 mm"},
    {TRIVET_SHAPE_CHANNEL, 0, {50, 25, 3}, "channel", "the flange is missing", "give the flange"},
    {TRIVET_SHAPE_CHANNEL,
     0,
     {50, 25, 25, 0, 0, 3},
     "channel",
     "the wall of 25 mm is as thick as the channel is wide",
     "give a wall below 25 mm"},
    {TRIVET_SHAPE_CHANNEL,
     0,
     {50, 25, 3, 0, 0, 25},
     "channel",
     "the flange of 25 mm leaves no room inside",
     "give a flange below 25 mm"},
    {TRIVET_SHAPE_CHANNEL,
     0,
     {50, 25, 3, 0, 0, 3, 23},
     "channel",
     "the root radius of 23 mm does not fit between web and flange",
     "give a root radius below 22 mm"},
    {TRIVET_SHAPE_GIVEN_VALUES,
     0,
     {50},
     "given values",
     "it has no height",
     "leave the height out or choose another shape"},
    {TRIVET_SHAPE_GIVEN_VALUES, 0, {0}, "given values", "the area is missing", "give the area"},
    {0, 0, {0}, "stock", "0 is no shape", "use a trivet_shape"},
    {10, 0, {0}, "stock", "10 is no shape", "use a trivet_shape"},
    {INT32_MIN, 0, {0}, "stock", "-2147483648 is no shape", "use a trivet_shape"},
};

enum { BAD_COUNT = sizeof bad_cases / sizeof bad_cases[0] };

START_TEST(bad_profile_is_refused)
{
    const bad_case *const wanted = &bad_cases[_i];
    trivet_profile profile =
        profile_of(wanted->shape, wanted->sizes[0], wanted->sizes[1], wanted->sizes[2]);
    profile.corner = wanted->corner;
    profile.diameter = wanted->sizes[3] / 1e3;
    profile.corner_radius = wanted->sizes[4] / 1e3;
    profile.flange = wanted->sizes[5] / 1e3;
    profile.root_radius = wanted->sizes[6] / 1e3;
    profile.toe_radius = wanted->sizes[7] / 1e3;
    trivet_section section;
    trivet_message message;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    section.area = 1.0;
    ck_assert_int_eq(trivet_section_solve(&profile, &section, &message), TRIVET_BAD_VALUE);
    ck_assert_int_eq(message.status, TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, wanted->thing);
    ck_assert_str_eq(message.problem, wanted->problem);
    ck_assert_str_eq(message.remedy, wanted->remedy);
    /* Zeros but for the size. */
    const trivet_section empty = {.size = sizeof empty};
    ck_assert(section.size == sizeof section && section.area == 0.0 && section.height == 0.0);
    ck_assert_int_eq(section.point_count, empty.point_count);
    ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_BAD_VALUE);
}
END_TEST

/* Every number of every shape, in turn not-a-number, infinite, negative: refused, never solved. */
START_TEST(no_number_may_be_other_than_finite_and_positive)
{
    static const double bad[] = {NAN_MM, INF_MM, -INF_MM, -1.0, 1e300, 5e-324};
    const size_t first = offsetof(trivet_profile, height);
    for (int32_t shape = TRIVET_SHAPE_SQUARE_TUBE; shape <= TRIVET_SHAPE_GIVEN_VALUES; shape++) {
        for (size_t at = first; at < sizeof(trivet_profile); at += sizeof(double)) {
            for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
                trivet_profile profile = profile_of(shape, 0, 0, 0);
                memcpy((char *)&profile + at, &bad[i], sizeof bad[i]);
                trivet_section section;
                ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
                ck_assert_int_eq(trivet_section_solve(&profile, &section, NULL), TRIVET_BAD_VALUE);
            }
        }
    }
}
END_TEST

START_TEST(shapes_have_the_names_of_the_file)
{
    static const char *const names[] = {"square tube", "rectangular tube", "round tube",
                                        "square bar",  "flat bar",         "round bar",
                                        "angle",       "channel",          "given values"};
    for (int32_t shape = 1; shape <= 9; shape++) {
        ck_assert_str_eq(trivet_shape_text(shape), names[shape - 1]);
    }
    ck_assert_str_eq(trivet_shape_text(0), "unknown shape");
    ck_assert_str_eq(trivet_shape_text(10), "unknown shape");
    ck_assert_str_eq(trivet_shape_text(-1), "unknown shape");
}
END_TEST

static void expect_text(trivet_profile profile, const trivet_units *units, const char *wanted)
{
    char text[100];
    const size_t needed = trivet_profile_text(&profile, units, text, sizeof text);
    ck_assert_str_eq(text, wanted);
    ck_assert_uint_eq(needed, strlen(wanted));
}

START_TEST(profile_is_said_as_people_say_it)
{
    expect_text(profile_of(TRIVET_SHAPE_SQUARE_TUBE, 0, 20, 2), NULL, "square tube 20 x 20 x 2 mm");
    expect_text(profile_of(TRIVET_SHAPE_RECTANGULAR_TUBE, 40, 20, 1.5), NULL,
                "rectangular tube 40 x 20 x 1.5 mm");
    expect_text(round_of(TRIVET_SHAPE_ROUND_TUBE, 25.4, 1.651), NULL, "round tube 25.4 x 1.651 mm");
    expect_text(profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0), NULL, "square bar 15 mm");
    expect_text(profile_of(TRIVET_SHAPE_FLAT_BAR, 40, 6, 0), NULL, "flat bar 40 x 6 mm");
    expect_text(round_of(TRIVET_SHAPE_ROUND_BAR, 10, 0), NULL, "round bar 10 mm");
    expect_text(profile_of(TRIVET_SHAPE_ANGLE, 60, 40, 5), NULL, "angle 60 x 40 x 5 mm");
    expect_text(channel_of(50, 25, 3, 4), NULL, "channel 50 x 25 x 3 x 4 mm");
    expect_text(profile_of(TRIVET_SHAPE_GIVEN_VALUES, 0, 0, 0), NULL, "given values");
    trivet_units inches;
    ck_assert_int_eq(trivet_units_defaults(&inches, sizeof inches), TRIVET_OK);
    strcpy(inches.length, "in");
    expect_text(round_of(TRIVET_SHAPE_ROUND_TUBE, 19.05, 1.651), &inches,
                "round tube 0.75 x 0.065 in");
    char text[8];
    const trivet_profile bar = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    ck_assert_uint_eq(trivet_profile_text(&bar, NULL, text, sizeof text), 16);
    ck_assert_str_eq(text, "square ");
    ck_assert_uint_eq(trivet_profile_text(NULL, NULL, text, sizeof text), 0);
    ck_assert_str_eq(text, "");
}
END_TEST

START_TEST(only_the_sizes_we_have_had_are_accepted)
{
    defaults_take_own_size(trivet_profile, trivet_profile_defaults);

    trivet_profile profile = profile_of(TRIVET_SHAPE_SQUARE_BAR, 0, 15, 0);
    trivet_section section;
    trivet_message message;
    ck_assert_int_eq(trivet_section_defaults(&section, sizeof section), TRIVET_OK);
    for (size_t size = 0; size <= sizeof profile + 2; size++) {
        profile.size = size;
        const trivet_status status = trivet_section_solve(&profile, &section, &message);
        ck_assert_int_eq(status, size == sizeof profile ? TRIVET_OK : TRIVET_BAD_SIZE);
        if (status != TRIVET_OK) {
            names_both_sizes(&message, size, sizeof profile);
            ck_assert_str_eq(message.thing, "profile");
        }
    }
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(no_number_may_be_other_than_finite_and_positive, shapes_have_the_names_of_the_file,
              profile_is_said_as_people_say_it, only_the_sizes_we_have_had_are_accepted);
    tcase_add_loop_test(tests, bad_profile_is_refused, 0, BAD_COUNT);
    return run_tests("profiles", tests);
}
