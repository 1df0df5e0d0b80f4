/*
 * Stock: every shape, corners, materials by name and by value, gauges.
 */
#include "read_text.h"
#include "support/near.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>

#define EXACT 1e-15

/* Reads one kind of stock, of which an arm is made. */
static trivet_document *read_stock(const char *stock)
{
    char text[2048];
    snprintf(text, sizeof text,
             "trivet: 1\nstock: {rail: {%s}}\njoints: {A: [0, 0, 0], B: [300 mm, 0, 0]}\n"
             "tubes: {arm: {through: [A, B], stock: rail}}\nmounts: {A: {hold: all}}\n" PARKED,
             stock);
    return read_good(text);
}

static const trivet_profile *profile_of(const trivet_document *document)
{
    return trivet_frame_profile(trivet_document_frame(document), 0);
}

static void check_sizes(const char *stock, int32_t shape, double height, double width, double wall,
                        double diameter, double flange)
{
    trivet_document *const document = read_stock(stock);
    const trivet_profile *const profile = profile_of(document);
    ck_assert_int_eq(profile->shape, shape);
    near_scaled(profile->height, height, EXACT, 1.0);
    near_scaled(profile->width, width, EXACT, 1.0);
    near_scaled(profile->wall, wall, EXACT, 1.0);
    near_scaled(profile->diameter, diameter, EXACT, 1.0);
    near_scaled(profile->flange, flange, EXACT, 1.0);
    trivet_document_free(document);
}

START_TEST(every_shape_gets_its_sizes)
{
    check_sizes("shape: square tube, width: 20 mm, wall: 2 mm, material: E235",
                TRIVET_SHAPE_SQUARE_TUBE, 0, 0.02, 0.002, 0, 0);
    check_sizes("shape: rectangular tube, height: 30, width: 20, wall: 2, material: E235",
                TRIVET_SHAPE_RECTANGULAR_TUBE, 0.03, 0.02, 0.002, 0, 0);
    /* 16 BWG is 0.065 in, Birmingham wire gauge, handbook table */
    check_sizes("shape: round tube, diameter: 3/4 in, wall: 16 ga BWG, material: E235",
                TRIVET_SHAPE_ROUND_TUBE, 0, 0, 0.001651, 0.01905, 0);
    check_sizes("shape: square bar, width: 15 mm, material: S235", TRIVET_SHAPE_SQUARE_BAR, 0,
                0.015, 0, 0, 0);
    check_sizes("shape: flat bar, height: 30 mm, width: 5 mm, material: S235",
                TRIVET_SHAPE_FLAT_BAR, 0.03, 0.005, 0, 0, 0);
    check_sizes("shape: round bar, diameter: 12 mm, material: S235", TRIVET_SHAPE_ROUND_BAR, 0, 0,
                0, 0.012, 0);
    check_sizes("shape: angle, legs: [30 mm, 20 mm], wall: 3 mm, material: S235",
                TRIVET_SHAPE_ANGLE, 0.03, 0.02, 0.003, 0, 0);
    check_sizes("shape: channel, height: 60 mm, width: 30 mm, wall: 4 mm, flange: 6 mm, "
                "material: S235",
                TRIVET_SHAPE_CHANNEL, 0.06, 0.03, 0.004, 0, 0.006);
}
END_TEST

START_TEST(corners_are_standard_sharp_or_given)
{
    trivet_document *document =
        read_stock("shape: square tube, width: 20 mm, wall: 2 mm, material: E235");
    ck_assert_int_eq(profile_of(document)->corner, TRIVET_CORNER_STANDARD);
    trivet_document_free(document);
    document =
        read_stock("shape: square tube, width: 20 mm, wall: 2 mm, corner: sharp, material: E235");
    ck_assert_int_eq(profile_of(document)->corner, TRIVET_CORNER_SHARP);
    /* 20^2 - 16^2 = 144 mm^2 */
    near_relative(trivet_frame_section(trivet_document_frame(document), 0)->area, 144e-6, 1e-14);
    trivet_document_free(document);
    document =
        read_stock("shape: square tube, width: 20 mm, wall: 2 mm, corner: 3 mm, material: E235");
    ck_assert_int_eq(profile_of(document)->corner, TRIVET_CORNER_RADIUS);
    near_relative(profile_of(document)->corner_radius, 0.003, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(values_can_be_given)
{
    trivet_document *const document =
        read_stock("shape: values, area: 140 mm^2, shear areas: [60 mm^2, 70 mm^2], "
                   "second moments: [7300 mm^4, 0.8 cm^4], torsion constant: 12000 mm^4, "
                   "section moduli: [730 mm^3, 800 mm^3], torsion modulus: 1000 mm^3, "
                   "mass per length: 1.1 kg/m, material: S235");
    const trivet_profile *const profile = profile_of(document);
    ck_assert_int_eq(profile->shape, TRIVET_SHAPE_GIVEN_VALUES);
    near_relative(profile->given_area, 140e-6, EXACT);
    near_relative(profile->given_shear_area[1], 70e-6, EXACT);
    near_relative(profile->given_second_moment[0], 7.3e-9, EXACT);
    near_relative(profile->given_second_moment[1], 8e-9, EXACT);
    near_relative(profile->given_torsion_constant, 12e-9, EXACT);
    near_relative(profile->given_section_modulus[0], 730e-9, EXACT);
    near_relative(profile->given_torsion_modulus, 1e-6, EXACT);
    near_relative(profile->given_mass_per_length, 1.1, EXACT);
    trivet_document_free(document);
}
END_TEST

START_TEST(a_material_can_be_given_by_value)
{
    trivet_document *document =
        read_stock("shape: round bar, diameter: 12 mm, material: {E: 70 GPa, G: 27000 N/mm^2, "
                   "density: 2.7 g / (1 cm)^3, yield: 160 MPa, expansion: 23e-6 / (1 K)}");
    const trivet_material *material = trivet_frame_material(trivet_document_frame(document), 0);
    near_relative(material->E, 70e9, EXACT);
    near_relative(material->G, 27e9, EXACT);
    near_relative(material->density, 2700.0, EXACT);
    near_relative(material->yield, 160e6, EXACT);
    near_relative(material->expansion, 23e-6, EXACT);
    ck_assert(isnan(material->tensile));
    trivet_document_free(document);
    document = read_stock("shape: round bar, diameter: 12 mm, material: S235");
    material = trivet_frame_material(trivet_document_frame(document), 0);
    near_relative(material->yield, 235e6, EXACT); /* as its name says, EN 10025-2 */
    trivet_document_free(document);
}
END_TEST

int main(void)
{
    return run_tests("document, stock",
                     TESTS(every_shape_gets_its_sizes, corners_are_standard_sharp_or_given,
                           values_can_be_given, a_material_can_be_given_by_value));
}
