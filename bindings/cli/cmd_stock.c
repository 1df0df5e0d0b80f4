/*
 * trivet stock [NAME]: the built-in gauges and materials.
 */
#include "columns.h"
#include "command.h"
#include "print.h"

#include <trivet/document.h>
#include <trivet/stock.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Thickness in mm and in inches; "" where the system has no such number. */
static void add_gauge(columns *table, int32_t system, int32_t number)
{
    double thickness = 0.0;
    if (trivet_gauge_thickness(system, number, &thickness, NULL) != TRIVET_OK) {
        columns_add(table, "");
        columns_add(table, "");
        return;
    }
    trivet_units inches;
    char text[64] = "";
    columns_add_value(table, NULL, TRIVET_LENGTH, thickness, 4);
    if (trivet_units_defaults(&inches, sizeof inches) == TRIVET_OK) {
        snprintf(inches.length, sizeof inches.length, "in");
        trivet_units_text(&inches, TRIVET_LENGTH, thickness, 4, text, sizeof text);
    }
    columns_add(table, text);
}

static int print_gauges(void)
{
    static const char *const HEADINGS[] = {"gauge", "BWG (tube)", "", "MSG (sheet)", ""};
    int32_t first = 0;
    int32_t last = -1;
    columns table;
    columns_start(&table, 2, "nnnnn", HEADINGS);
    trivet_gauge_range(&first, &last);
    for (int32_t number = first; number <= last; number++) {
        char text[16];
        snprintf(text, sizeof text, "%d", (int)number);
        columns_add(&table, text);
        add_gauge(&table, TRIVET_BWG, number);
        add_gauge(&table, TRIVET_MSG, number);
    }
    print_text("Gauges: a number alone means nothing, so write 16 ga BWG or 16 ga MSG");
    putchar('\n');
    return columns_print(&table);
}

/* A stress in N/mm^2 or a density in kg/m^3, as its heading says; "-" if it is not known. */
static void add_known(columns *table, trivet_dimension dimension, double value)
{
    columns_add_bare(table, NULL, dimension, value > 0.0 ? value : (double)NAN);
}

static int print_materials(void)
{
    static const char *const HEADINGS[] = {"name", "yield", "at a weld", "tensile", "E", "density"};
    columns table;
    columns_start(&table, 2, "tnnnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_material_count(); i++) {
        trivet_material material;
        if (trivet_material_defaults(&material, sizeof material) != TRIVET_OK ||
            trivet_material_at(i, &material) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, material.name);
        add_known(&table, TRIVET_STRESS, material.yield);
        add_known(&table, TRIVET_STRESS,
                  material.welded_yield > 0.0 ? material.welded_yield : material.yield);
        add_known(&table, TRIVET_STRESS, material.tensile);
        add_known(&table, TRIVET_STRESS, material.E);
        add_known(&table, TRIVET_DENSITY, material.density);
    }
    char heading[96];
    snprintf(heading, sizeof heading, "Materials: strengths and E in %s, density in %s",
             trivet_units_for(NULL, TRIVET_STRESS, NULL),
             trivet_units_for(NULL, TRIVET_DENSITY, NULL));
    print_heading(heading);
    const int status = columns_print(&table);
    print_line(2, "trivet stock NAME shows one of them with its source.");
    return status;
}

static int print_material(const trivet_material *of)
{
    const struct {
        const char *name;
        trivet_dimension dimension;
        double value;
    } rows[] = {
        {"E", TRIVET_STRESS, of->E},
        {"G", TRIVET_STRESS, of->G},
        {"density", TRIVET_DENSITY, of->density},
        {"yield", TRIVET_STRESS, of->yield},
        {"tensile", TRIVET_STRESS, of->tensile},
        {"yield beside a weld", TRIVET_STRESS,
         of->welded_yield > 0.0 ? of->welded_yield : of->yield},
        {"tensile beside a weld", TRIVET_STRESS, of->welded_tensile},
        {"expansion", TRIVET_EXPANSION, of->expansion},
    };
    static const char *const HEADINGS[] = {"", ""};
    columns table;
    columns_start(&table, 2, "tn", HEADINGS);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        columns_add(&table, rows[i].name);
        columns_add_value(&table, NULL, rows[i].dimension, rows[i].value, 4);
    }
    print_text(of->name);
    const int status = columns_print(&table);
    print_line(2, "source: %s", of->source);
    return status;
}

/* A material by its name, or else a gauge such as "16 ga BWG". */
static int print_one(const options *given)
{
    trivet_message message;
    trivet_material material;
    trivet_message_clear(&message);
    trivet_status status = trivet_material_defaults(&material, sizeof material);
    if (status == TRIVET_OK) {
        status = trivet_material_find(given->operand, &material, &message);
    }
    if (status == TRIVET_OK) {
        return print_material(&material) == 0 ? EXIT_HOLDS
                                              : fail_status(given, NULL, TRIVET_NO_MEMORY);
    }
    if (strchr("0123456789", given->operand[0]) && strstr(given->operand, " ga")) {
        trivet_quantity thickness;
        trivet_message gauge_message;
        char text[64];
        trivet_message_clear(&gauge_message);
        if (trivet_stock_quantity_read(given->operand, &thickness, &gauge_message) != TRIVET_OK) {
            return fail(given, NULL, &gauge_message);
        }
        trivet_units_text(NULL, TRIVET_LENGTH, thickness.value, 4, text, sizeof text);
        printf("%s is %s\n", given->operand, text);
        return EXIT_HOLDS;
    }
    return fail(given, NULL, &message);
}

int cmd_stock(const options *given)
{
    if (given->is_json) {
        trivet_message message;
        char *json = NULL;
        trivet_message_clear(&message);
        const trivet_status status = trivet_stock_json(given->operand, &json, &message);
        return print_json(given, NULL, status, json, &message);
    }
    if (given->operand) {
        return print_one(given);
    }
    const int failed = print_gauges() | print_materials();
    return failed ? fail_status(given, NULL, TRIVET_NO_MEMORY) : EXIT_HOLDS;
}
