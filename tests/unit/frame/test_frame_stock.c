/*
 * Stock in a frame: what is solved, what is refused, what stays when a change fails.
 */
#include "support/frames.h"
#include "support/near.h"
#include "support/refused.h"
#include "support/run.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static trivet_frame *frame;
static trivet_message message;

static trivet_profile profile;
static trivet_material material;

static void make(void)
{
    memset(&message, 0, sizeof message);
    must(trivet_frame_new(&frame, &message), &message);
    profile = square_tube(0.020, 0.002);
    profile.corner = TRIVET_CORNER_SHARP;
    material = steel_material();
}

static void give_back(void)
{
    trivet_frame_free(frame);
}

static trivet_status add(const char *name)
{
    return trivet_frame_add_stock(frame, name, &profile, &material, NULL, &message);
}

START_TEST(stock_is_copied_and_its_section_solved)
{
    int32_t stock = -1;
    must(trivet_frame_add_stock(frame, "rail", &profile, &material, &stock, &message), &message);
    ck_assert_int_eq(stock, 0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 1);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_STOCK, 0), "rail");
    profile.width = 1.0;
    material.E = 1.0;
    ck_assert_double_eq(trivet_frame_profile(frame, 0)->width, 0.020);
    ck_assert_double_eq(trivet_frame_material(frame, 0)->E, 210e9);
    /* 20^2 - 16^2 = 144 mm^2; (20^4 - 16^4)/12 = 7872 mm^4. */
    near_relative(trivet_frame_section(frame, 0)->area, 144e-6, 1e-12);
    near_relative(trivet_frame_section(frame, 0)->second_moment[0], 7872e-12, 1e-12);
}
END_TEST

START_TEST(getters_of_no_stock_give_nothing)
{
    must(add("rail"), &message);
    static const int32_t none[] = {-1, 1, INT32_MAX, INT32_MIN};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        ck_assert_ptr_null(trivet_frame_section(frame, none[i]));
        ck_assert_ptr_null(trivet_frame_profile(frame, none[i]));
        ck_assert_ptr_null(trivet_frame_material(frame, none[i]));
    }
    ck_assert_ptr_null(trivet_frame_section(NULL, 0));
    ck_assert_ptr_null(trivet_frame_profile(NULL, 0));
    ck_assert_ptr_null(trivet_frame_material(NULL, 0));
}
END_TEST

START_TEST(missing_arguments_are_named)
{
    int32_t stock = 7;
    refused(trivet_frame_add_stock(NULL, "rail", &profile, &material, &stock, &message),
            TRIVET_MISSING_ARGUMENT, &message, "frame: is NULL; hand in a pointer to it");
    ck_assert_int_eq(stock, -1);
    refused(trivet_frame_add_stock(frame, "rail", NULL, &material, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "profile: is NULL; hand in a pointer to it");
    refused(trivet_frame_add_stock(frame, "rail", &profile, NULL, NULL, &message),
            TRIVET_MISSING_ARGUMENT, &message, "material: is NULL; hand in a pointer to it");
    refused(add(NULL), TRIVET_MISSING_ARGUMENT, &message, "name: is NULL; hand in a pointer to it");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 0);
}
END_TEST

START_TEST(names_are_unique_among_stock)
{
    must(add("rail"), &message);
    refused(add("rail"), TRIVET_BAD_NAME, &message,
            "stock rail: there is a stock of this name already; choose another name");
    refused(add(""), TRIVET_BAD_NAME, &message, "stock: the name is empty; give it a name");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 1);
}
END_TEST

START_TEST(sizes_of_structs_are_checked)
{
    const size_t known = sizeof material;
    must(add("rail"), &message);
    for (size_t size = 0; size <= known + 2; size++) {
        material.size = size;
        ck_assert_int_eq(trivet_frame_set_stock(frame, 0, &profile, &material, NULL),
                         size == known ? TRIVET_OK : TRIVET_BAD_SIZE);
    }
    char text[160];
    material.size = 12;
    snprintf(text, sizeof text,
             "stock other, material: its size is 12 bytes, this library knows %zu; fill it with "
             "its defaults first",
             known);
    refused(add("other"), TRIVET_BAD_SIZE, &message, text);
    material.size = known;
    profile.size = 1;
    ck_assert_int_eq(add("other"), TRIVET_BAD_SIZE);
    ck_assert_int_eq(strncmp(message.thing, "stock other", 11), 0);
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 1);
}
END_TEST

START_TEST(a_material_needs_stiffness_and_weight)
{
    material.E = 0.0;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the modulus of elasticity E is 0 N/mm^2; give more than 0");
    material = steel_material();
    material.G = -81e9;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the shear modulus G is -81000 N/mm^2; give more than 0");
    material = steel_material();
    material.density = 0.0;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the density is 0 kg/m^3; give more than 0");
    material = steel_material();
    material.yield = -235e6;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the yield strength is -235 N/mm^2; give 0 or more");
    material = steel_material();
    material.welded_yield = (double)NAN;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the yield strength beside welds is not a finite number; give a finite "
            "number");
    material = steel_material();
    material.expansion = (double)INFINITY;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the thermal expansion is not a finite number; give a finite number");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 0);
}
END_TEST

START_TEST(strengths_may_be_unknown_but_not_negative)
{
    material.tensile = (double)NAN;
    material.welded_tensile = (double)NAN;
    material.yield = 0.0;
    material.welded_yield = 0.0;
    must(add("unknown"), &message);
    material.tensile = -1e6;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the tensile strength is -1 N/mm^2; give 0 or more");
    material.tensile = 1e6;
    material.welded_tensile = (double)INFINITY;
    refused(add("rail"), TRIVET_BAD_VALUE, &message,
            "stock rail: the tensile strength beside welds is not a finite number; give a finite "
            "number");
}
END_TEST

START_TEST(texts_of_a_material_must_be_text)
{
    memset(material.name, 'n', sizeof material.name);
    refused(add("rail"), TRIVET_BAD_NAME, &message,
            "stock rail: the material's name or source is not UTF-8 text; write it in UTF-8 and "
            "close it with zero");
    material = steel_material();
    material.source[0] = (char)0xff;
    ck_assert_int_eq(add("rail"), TRIVET_BAD_NAME);
}
END_TEST

START_TEST(a_profile_that_is_none_is_refused_by_the_name_of_the_stock)
{
    profile.wall = 0.012;
    ck_assert_int_eq(add("rail"), TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, "stock rail, square tube");
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 0);
}
END_TEST

START_TEST(sizes_that_overflow_are_refused)
{
    static const double sizes[] = {1e300, 1e80, 1e-100, 1e-300, (double)INFINITY, (double)NAN};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        profile.width = sizes[i];
        profile.wall = 0.1 * sizes[i];
        ck_assert_int_eq(add("rail"), TRIVET_BAD_VALUE);
    }
    ck_assert_int_eq(trivet_frame_count(frame, TRIVET_KIND_STOCK), 0);
}
END_TEST

START_TEST(stock_can_be_changed_in_place)
{
    must(add("rail"), &message);
    profile = round_tube(0.020, 0.002);
    must(trivet_frame_set_stock(frame, 0, &profile, &material, &message), &message);
    /* pi (10^2 - 8^2) mm^2. */
    near_relative(trivet_frame_section(frame, 0)->area, 36e-6 * acos(-1.0), 1e-12);
    ck_assert_str_eq(trivet_frame_name(frame, TRIVET_KIND_STOCK, 0), "rail");
    profile.wall = -1.0;
    ck_assert_int_eq(trivet_frame_set_stock(frame, 0, &profile, &material, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.thing, "stock rail, round tube");
    near_relative(trivet_frame_section(frame, 0)->area, 36e-6 * acos(-1.0), 1e-12);
    ck_assert_double_eq(trivet_frame_profile(frame, 0)->wall, 0.002);
    refused(trivet_frame_set_stock(frame, 1, &profile, &material, &message), TRIVET_BAD_INDEX,
            &message,
            "stock number 1: there is none, the frame has 1 of them; count from 0 in the order of "
            "adding");
    refused(trivet_frame_set_stock(NULL, 0, &profile, &material, &message), TRIVET_MISSING_ARGUMENT,
            &message, "frame: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_stock(frame, 0, NULL, &material, &message), TRIVET_MISSING_ARGUMENT,
            &message, "profile: is NULL; hand in a pointer to it");
    refused(trivet_frame_set_stock(frame, 0, &profile, NULL, &message), TRIVET_MISSING_ARGUMENT,
            &message, "material: is NULL; hand in a pointer to it");
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(stock_is_copied_and_its_section_solved, getters_of_no_stock_give_nothing,
              missing_arguments_are_named, names_are_unique_among_stock,
              sizes_of_structs_are_checked, a_material_needs_stiffness_and_weight,
              strengths_may_be_unknown_but_not_negative, texts_of_a_material_must_be_text,
              a_profile_that_is_none_is_refused_by_the_name_of_the_stock,
              sizes_that_overflow_are_refused, stock_can_be_changed_in_place);
    tcase_add_checked_fixture(tests, make, give_back);
    return run_tests("frame_stock", tests);
}
