/*
 * Walls of hollow sections under plates and bolts: every row of walls.csv.
 */
#include "checks/wall_strength.h"

#include "support/near.h"
#include "support/run.h"
#include "support/table.h"

#include <check.h>

static const double MM = 1e-3;
static const double MPA = 1e6;

/* The row of an id, held against a value in N. */
static void compare(const table *from, const char *id, double value)
{
    const int row = table_find(from, "id", id);
    ck_assert_int_ge(row, 0);
    ck_assert_str_eq(table_text(from, row, "unit"), "N");
    near_scaled(value, table_number(from, row, "expected"), 1.0,
                table_number(from, row, "tol_abs"));
}

/* A plate 3 mm thick and 40 mm long on a square tube 25 x 25 x 2, Fy = 235 N/mm^2. */
START_TEST(a_plate_along_a_tube_plastifies_its_face)
{
    table *const from = table_read(TEST_DATA "/walls.csv");
    compare(from, "MEM-141",
            trivet__face_stands(235.0 * MPA, 2.0 * MM, 25.0 * MM, 3.0 * MM, 40.0 * MM));
    table_free(from);
}
END_TEST

/* A bolt of 8 mm through two walls of 2 mm. */
START_TEST(a_bolt_bears_on_both_walls)
{
    table *const from = table_read(TEST_DATA "/walls.csv");
    ck_assert_int_eq(table_rows(from), 2);
    compare(from, "MEM-142", trivet__bearing_stands(235.0 * MPA, 8.0 * MM, 2.0 * 2.0 * MM));
    table_free(from);
}
END_TEST

int main(void)
{
    return run_tests("walls",
                     TESTS(a_plate_along_a_tube_plastifies_its_face, a_bolt_bears_on_both_walls));
}
