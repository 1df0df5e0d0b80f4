/*
 * Built-in materials against the table: every row that is a specific material, every value.
 */
#include "support/run.h"
#include "support/table.h"
#include "trivet/stock.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/*
 * Which row a material is. Where welding undoes what made the parent strong and the row has no
 * value for it, welded names the row of the same steel without that strength (see material.c). Its
 * yield also stands in for the two cold-drawn rows in which the standard promises none.
 */
typedef struct pair {
    const char *name;
    const char *row;
    const char *welded;
} pair;

static const pair pairs[] = {
    {"S235", "MAT-001", NULL},
    {"S275", "MAT-002", NULL},
    {"S355", "MAT-003", NULL},
    {"S235JRH hot finished", "MAT-004", NULL},
    {"S275J0H hot finished", "MAT-005", NULL},
    {"S355J0H hot finished", "MAT-006", NULL},
    {"S235JRH cold formed", "MAT-007", NULL},
    {"S275J0H cold formed", "MAT-008", NULL},
    {"S355J2H cold formed", "MAT-009", NULL},
    {"E235", "MAT-010", NULL},
    {"E235 +N", "MAT-010", NULL},
    {"E235 +SR", "MAT-011", "MAT-010"},
    {"E235 +C", "MAT-012", "MAT-010"},
    {"E355", "MAT-013", NULL},
    {"E355 +N", "MAT-013", NULL},
    {"E355 +SR", "MAT-014", "MAT-013"},
    {"E355 +C", "MAT-015", "MAT-013"},
    {"E220", "MAT-016", NULL},
    {"E220 +CR2", "MAT-016", NULL},
    {"A36", "MAT-017", NULL},
    {"A500 B round", "MAT-018", NULL},
    {"A500 C round", "MAT-019", NULL},
    {"A500 B shaped", "MAT-020", NULL},
    {"A500 C shaped", "MAT-021", NULL},
    {"A513 1008", "MAT-022", NULL},
    {"A513 1010", "MAT-023", NULL},
    {"A513 1015", "MAT-024", NULL},
    {"A513 1020", "MAT-025", NULL},
    {"A513 1015 DOM SR", "MAT-026", "MAT-024"},
    {"A513 1020 DOM SR", "MAT-027", "MAT-025"},
    {"A513 1026 DOM SR", "MAT-028", "MAT-025"},
    {"A513 1020 DOM", "MAT-029", "MAT-025"},
    {"A513 1026 DOM", "MAT-030", "MAT-025"},
    {"4130 N", "MAT-031", NULL},
    {"4130 N aircraft", "MAT-032", "MAT-031"},
    {"1.4301", "MAT-033", NULL},
    {"1.4307", "MAT-034", NULL},
    {"304", "MAT-035", NULL},
    {"304L", "MAT-036", NULL},
    {"EN AW-6061 T6", "MAT-037", NULL},
    {"EN AW-6063 T5 thin", "MAT-038", NULL},
    {"EN AW-6063 T5", "MAT-039", NULL},
    {"EN AW-6063 T6", "MAT-040", NULL},
    {"EN AW-6063 T6 drawn", "MAT-041", NULL},
    {"EN AW-6060 T6", "MAT-042", NULL},
    {"EN AW-6005A T6 open", "MAT-043", NULL},
    {"EN AW-6005A T6", "MAT-044", NULL},
    {"EN AW-6082 T6", "MAT-045", NULL},
    {"6061-T6", "MAT-046", NULL},
    {"6063-T5", "MAT-047", NULL},
    {"6063-T6", "MAT-048", NULL},
    {"5052-H32", "MAT-049", NULL},
};

enum { PAIR_COUNT = sizeof pairs / sizeof pairs[0] };

/* Rows that are no specific material: physical constants without strength. */
static const char *const not_materials[] = {"MAT-050", "MAT-051", "MAT-052"};

static int failures;

static void compare(const pair *which, const char *what, double got, double want)
{
    /* MPa times 1e6 may round once on either side. */
    if (!(fabs(got - want) <= 1e-15 * fabs(want) + 1e-30)) {
        failures++;
        fprintf(stderr, "%s (%s) %s: %.9g, printed %.9g\n", which->name, which->row, what, got,
                want);
    }
}

static double first_known(double one, double other, double last)
{
    return !isnan(one) ? one : !isnan(other) ? other : last;
}

static void compare_row(const table *from, const pair *which)
{
    trivet_material m;
    trivet_message message = {0};
    ck_assert_int_eq(trivet_material_defaults(&m, sizeof m), TRIVET_OK);
    ck_assert_msg(trivet_material_find(which->name, &m, &message) == TRIVET_OK, "%s: %s",
                  which->name, message.problem);
    ck_assert_str_eq(m.name, which->name);
    ck_assert_uint_gt(strlen(m.source), 0);
    const int row = table_find(from, "id", which->row);
    const int welded = which->welded ? table_find(from, "id", which->welded) : row;
    ck_assert_int_ge(row, 0);
    ck_assert_int_ge(welded, 0);
    const double MPa = 1e6;
    const double yield = table_number(from, row, "fy_MPa");
    const double tensile = table_number(from, row, "fu_MPa");
    const double plain_yield = table_number(from, welded, "fy_MPa");
    const double plain_tensile = table_number(from, welded, "fu_MPa");
    const double none = (double)NAN;
    compare(which, "E", m.E, table_number(from, row, "E_MPa") * MPa);
    compare(which, "G", m.G, table_number(from, row, "G_MPa") * MPa);
    compare(which, "density", m.density, table_number(from, row, "rho_kg_m3"));
    compare(which, "expansion", m.expansion, table_number(from, row, "alpha_per_K"));
    compare(which, "yield", m.yield, first_known(yield, plain_yield, none) * MPa);
    compare(which, "tensile", m.tensile, tensile * MPa);
    compare(which, "welded yield", m.welded_yield,
            first_known(table_number(from, row, "welded_or_haz_fy_MPa"), plain_yield, none) * MPa);
    compare(which, "welded tensile", m.welded_tensile,
            first_known(table_number(from, row, "welded_or_haz_fu_MPa"), plain_tensile, none) *
                MPa);
    /* What comes from memory says so. */
    if (strcmp(table_text(from, row, "status"), "memory") == 0) {
        ck_assert_msg(strstr(m.source, "memory") != NULL, "%s: %s", which->name, m.source);
    }
    if (strcmp(table_text(from, row, "value_type"), "typical") == 0) {
        ck_assert_msg(strstr(m.source, "typical") != NULL, "%s: %s", which->name, m.source);
    }
}

START_TEST(materials_match_their_rows)
{
    table *const from = table_read(TEST_DATA "/materials.csv");
    failures = 0;
    for (int i = 0; i < PAIR_COUNT; i++) {
        compare_row(from, &pairs[i]);
    }
    ck_assert_int_eq(failures, 0);
    table_free(from);
}
END_TEST

static int is_not_a_material(const char *id)
{
    for (size_t i = 0; i < sizeof not_materials / sizeof not_materials[0]; i++) {
        if (strcmp(id, not_materials[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(every_row_and_every_built_in_material_is_paired)
{
    table *const from = table_read(TEST_DATA "/materials.csv");
    ck_assert_int_eq(table_rows(from), 52);
    for (int row = 0; row < table_rows(from); row++) {
        const char *const id = table_text(from, row, "id");
        int found = is_not_a_material(id);
        for (int i = 0; i < PAIR_COUNT; i++) {
            found += strcmp(pairs[i].row, id) == 0;
        }
        ck_assert_msg(found > 0, "%s is compared with nothing", id);
    }
    ck_assert_int_eq(trivet_material_count(), PAIR_COUNT);
    for (int32_t i = 0; i < trivet_material_count(); i++) {
        trivet_material m;
        ck_assert_int_eq(trivet_material_defaults(&m, sizeof m), TRIVET_OK);
        ck_assert_int_eq(trivet_material_at(i, &m), TRIVET_OK);
        ck_assert_str_eq(m.name, pairs[i].name);
    }
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests("printed materials", TESTS(materials_match_their_rows,
                                                every_row_and_every_built_in_material_is_paired));
}
