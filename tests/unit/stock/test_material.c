/*
 * Finding built-in materials. Their values are compared in values/test_materials.c.
 */
#include "support/run.h"
#include "support/sizes.h"
#include "trivet/stock.h"

#include <check.h>
#include <math.h>
#include <string.h>

static trivet_material empty_material(void)
{
    trivet_material material;
    ck_assert_int_eq(trivet_material_defaults(&material, sizeof material), TRIVET_OK);
    return material;
}

START_TEST(capitals_and_blanks_do_not_matter)
{
    static const char *const texts[][2] = {
        {"E235", "E235"},      {"e235", "E235"},       {" E 235 ", "E235"},
        {"e235+n", "E235 +N"}, {"6061-t6", "6061-T6"}, {"a513 1020dom", "A513 1020 DOM"},
        {"S235JR", "S235"},    {"4130", "4130 N"},     {"en aw-6082t6", "EN AW-6082 T6"},
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        trivet_material material = empty_material();
        trivet_message message = {0};
        ck_assert_msg(trivet_material_find(texts[i][0], &material, &message) == TRIVET_OK, "%s: %s",
                      texts[i][0], message.problem);
        ck_assert_str_eq(material.name, texts[i][1]);
    }
}
END_TEST

START_TEST(unknown_name_gets_the_nearest)
{
    trivet_material material = empty_material();
    trivet_message message;
    ck_assert_int_eq(trivet_material_find("E325", &material, &message), TRIVET_BAD_NAME);
    ck_assert_str_eq(message.thing, "E325");
    ck_assert_str_eq(message.problem, "no built-in material has this name");
    ck_assert_str_eq(message.remedy, "did you mean \"E235\"?");
    ck_assert_str_eq(material.name, "");
    ck_assert_int_eq(trivet_material_find("cardboard", &material, &message), TRIVET_BAD_NAME);
    ck_assert_ptr_nonnull(strstr(message.remedy, "trivet stock"));
    ck_assert_int_eq(trivet_material_find("", &material, &message), TRIVET_BAD_NAME);
}
END_TEST

START_TEST(every_material_makes_sense)
{
    for (int32_t i = 0; i < trivet_material_count(); i++) {
        trivet_material m = empty_material();
        ck_assert_int_eq(trivet_material_at(i, &m), TRIVET_OK);
        ck_assert_msg(m.E > 2.0 * m.G && m.E < 3.0 * m.G, "%s: E and G", m.name);
        ck_assert_msg(m.yield > 0.0 && m.yield < m.tensile, "%s: yield", m.name);
        ck_assert_msg(m.welded_yield > 0.0 && m.welded_yield <= m.yield, "%s: weld", m.name);
        ck_assert_msg(m.welded_yield < m.welded_tensile && m.welded_tensile <= m.tensile,
                      "%s: weld", m.name);
        /* Every name is found, and finds itself. */
        trivet_material again = empty_material();
        ck_assert_int_eq(trivet_material_find(m.name, &again, NULL), TRIVET_OK);
        ck_assert_str_eq(again.name, m.name);
    }
}
END_TEST

START_TEST(index_outside_the_list_is_refused)
{
    trivet_material material = empty_material();
    ck_assert_int_eq(trivet_material_at(-1, &material), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_material_at(trivet_material_count(), &material), TRIVET_BAD_INDEX);
    ck_assert_int_eq(trivet_material_at(0, NULL), TRIVET_MISSING_ARGUMENT);
    material.size = 8;
    ck_assert_int_eq(trivet_material_at(0, &material), TRIVET_BAD_SIZE);
}
END_TEST

START_TEST(only_the_sizes_we_have_had_are_accepted)
{
    defaults_take_own_size(trivet_material, trivet_material_defaults);
    const trivet_material fresh = empty_material();
    ck_assert(isnan(fresh.tensile) && isnan(fresh.welded_tensile));
    ck_assert(fresh.yield == 0.0 && fresh.welded_yield == 0.0 && fresh.name[0] == '\0');

    trivet_material material = {.size = 5};
    trivet_message message;
    ck_assert_int_eq(trivet_material_find("E235", &material, &message), TRIVET_BAD_SIZE);
    names_both_sizes(&message, 5, sizeof material);
    ck_assert_int_eq(trivet_material_find(NULL, &material, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_material_find("E235", NULL, &message), TRIVET_MISSING_ARGUMENT);
}
END_TEST

int main(void)
{
    return run_tests("materials",
                     TESTS(capitals_and_blanks_do_not_matter, unknown_name_gets_the_nearest,
                           every_material_makes_sense, index_outside_the_list_is_refused,
                           only_the_sizes_we_have_had_are_accepted));
}
