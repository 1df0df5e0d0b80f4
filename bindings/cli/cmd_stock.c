/*
 * trivet stock [NAME]: the built-in gauges, materials, screw threads, grades of screws and fillers.
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
    return columns_print(&table);
}

static int print_threads(void)
{
    static const char *const HEADINGS[] = {"name",           "pitch",   "drill",
                                           "clearance hole", "hexagon", "stress area"};
    columns table;
    columns_start(&table, 2, "tnnnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_thread_count(); i++) {
        trivet_thread thread;
        if (trivet_thread_defaults(&thread, sizeof thread) != TRIVET_OK ||
            trivet_thread_at(i, &thread) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, thread.name);
        columns_add_bare(&table, NULL, TRIVET_LENGTH, thread.pitch);
        columns_add_bare(&table, NULL, TRIVET_LENGTH, thread.tapping_drill);
        columns_add_bare(&table, NULL, TRIVET_LENGTH, thread.clearance_hole);
        columns_add_bare(&table, NULL, TRIVET_LENGTH, thread.hexagon_width);
        columns_add_bare(&table, NULL, TRIVET_AREA, thread.stress_area);
    }
    char heading[96];
    snprintf(heading, sizeof heading, "Screw threads: sizes in %s, stress area in %s",
             trivet_units_for(NULL, TRIVET_LENGTH, NULL),
             trivet_units_for(NULL, TRIVET_AREA, NULL));
    print_heading(heading);
    return columns_print(&table);
}

static int print_grades(void)
{
    static const char *const HEADINGS[] = {"name", "proof", "yield", "tensile"};
    columns table;
    columns_start(&table, 2, "tnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_grade_count(); i++) {
        trivet_grade grade;
        if (trivet_grade_defaults(&grade, sizeof grade) != TRIVET_OK ||
            trivet_grade_at(i, &grade) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, grade.name);
        add_known(&table, TRIVET_STRESS, grade.proof);
        add_known(&table, TRIVET_STRESS, grade.yield);
        add_known(&table, TRIVET_STRESS, grade.tensile);
    }
    char heading[96];
    snprintf(heading, sizeof heading, "Grades of screws: strengths in %s",
             trivet_units_for(NULL, TRIVET_STRESS, NULL));
    print_heading(heading);
    return columns_print(&table);
}

static int print_fillers(void)
{
    static const char *const HEADINGS[] = {"name", "yield", "tensile"};
    columns table;
    columns_start(&table, 2, "tnn", HEADINGS);
    for (int32_t i = 0; i < trivet_filler_count(); i++) {
        trivet_filler filler;
        if (trivet_filler_defaults(&filler, sizeof filler) != TRIVET_OK ||
            trivet_filler_at(i, &filler) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, filler.name);
        add_known(&table, TRIVET_STRESS, filler.yield);
        add_known(&table, TRIVET_STRESS, filler.tensile);
    }
    char heading[96];
    snprintf(heading, sizeof heading, "Fillers, for welds: least strengths in %s",
             trivet_units_for(NULL, TRIVET_STRESS, NULL));
    print_heading(heading);
    const int status = columns_print(&table);
    print_line(2, "trivet stock NAME shows one of all these with its source.");
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

/* Inches and pounds of force beside the metric values. */
static trivet_units inch_units(void)
{
    trivet_units inches;
    if (trivet_units_defaults(&inches, sizeof inches) == TRIVET_OK) {
        snprintf(inches.length, sizeof inches.length, "in");
        snprintf(inches.force, sizeof inches.force, "lbf");
    }
    return inches;
}

static void add_in_both(columns *table, int is_inch, trivet_dimension dimension, double value)
{
    const trivet_units inches = inch_units();
    columns_add_value(table, NULL, dimension, value, 4);
    if (is_inch) {
        columns_add_value(table, &inches, dimension, value, 4);
    } else {
        columns_add(table, "");
    }
}

/* What the grades make of a thread: inch grades for inch threads, metric and stainless for others.
 */
static int print_thread_loads(const trivet_thread *of)
{
    static const char *const HEADINGS[] = {"grade", "proof load", "", "breaks at", ""};
    columns table;
    columns_start(&table, 2, "tnnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_grade_count(); i++) {
        trivet_grade grade;
        if (trivet_grade_defaults(&grade, sizeof grade) != TRIVET_OK ||
            trivet_grade_at(i, &grade) != TRIVET_OK ||
            (strncmp(grade.name, "grade", strlen("grade")) == 0) != (of->is_inch != 0)) {
            continue;
        }
        columns_add(&table, grade.name);
        add_in_both(&table, of->is_inch, TRIVET_FORCE, grade.proof * of->stress_area);
        add_in_both(&table, of->is_inch, TRIVET_FORCE, grade.tensile * of->stress_area);
    }
    print_heading("Pull along the screw, stress area times strength, no factor in it");
    return columns_print(&table);
}

static int print_thread(const trivet_thread *of)
{
    const struct {
        const char *name;
        trivet_dimension dimension;
        double value;
    } rows[] = {
        {"outside diameter", TRIVET_LENGTH, of->diameter},
        {"pitch, one turn", TRIVET_LENGTH, of->pitch},
        {"drill before tapping", TRIVET_LENGTH, of->tapping_drill},
        {"clearance hole", TRIVET_LENGTH, of->clearance_hole},
        {"stress area", TRIVET_AREA, of->stress_area},
        {"pitch diameter", TRIVET_LENGTH, of->pitch_diameter},
        {"minor diameter of the hole", TRIVET_LENGTH, of->minor_diameter},
        {"root diameter of the screw", TRIVET_LENGTH, of->root_diameter},
        {"smallest outside diameter of the screw", TRIVET_LENGTH, of->screw_major_least},
        {"smallest pitch diameter of the screw", TRIVET_LENGTH, of->screw_pitch_least},
        {"largest minor diameter of the hole", TRIVET_LENGTH, of->hole_minor_most},
        {"largest pitch diameter of the hole", TRIVET_LENGTH, of->hole_pitch_most},
        {"hexagon head across the flats", TRIVET_LENGTH, of->hexagon_width},
        {"cylinder head with hexagon socket", TRIVET_LENGTH, of->socket_head},
        {"countersunk head", TRIVET_LENGTH, of->countersunk_head},
        {"cone of the countersunk head", TRIVET_ANGLE, of->countersunk_angle},
    };
    static const char *const HEADINGS[] = {"", "", ""};
    columns table;
    columns_start(&table, 2, "tnn", HEADINGS);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const int has_inches = of->is_inch && rows[i].dimension != TRIVET_ANGLE;
        columns_add(&table, rows[i].name);
        add_in_both(&table, has_inches, rows[i].dimension, rows[i].value);
    }
    print_text(of->name);
    const int status = columns_print(&table) | print_thread_loads(of);
    print_line(2, "source: %s",
               of->is_inch ? "ASME B1.1, limits of classes 2A and 2B; heads ASME B18.2.1 and B18.3 "
                             "(from memory); drill and clearance hole: common practice"
                           : "ISO 261, ISO 724, limits 6g and 6H of ISO 965; heads ISO 4017, 4762, "
                             "10642, clearance hole ISO 273 medium (from memory); drill: common "
                             "practice");
    return status;
}

static int print_grade(const trivet_grade *of)
{
    const struct {
        const char *name;
        trivet_dimension dimension;
        double value;
    } rows[] = {
        {"proof stress, up to which it stays as long as it was", TRIVET_STRESS, of->proof},
        {"yield", TRIVET_STRESS, of->yield},
        {"tensile strength", TRIVET_STRESS, of->tensile},
        {"tensile strength for design, f_ub", TRIVET_STRESS, of->tensile_design},
        {"share of it in shear, with the thread in the joint", TRIVET_NUMBER, of->shear_factor},
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

static int print_filler(const trivet_filler *of)
{
    static const char *const HEADINGS[] = {"", ""};
    columns table;
    columns_start(&table, 2, "tn", HEADINGS);
    columns_add(&table, "yield");
    columns_add_value(&table, NULL, TRIVET_STRESS, of->yield, 4);
    columns_add(&table, "tensile strength");
    columns_add_value(&table, NULL, TRIVET_STRESS, of->tensile, 4);
    print_text(of->name);
    const int status = columns_print(&table);
    print_line(2, "source: %s", of->source);
    return status;
}

static int print_gauge(const options *given)
{
    trivet_quantity thickness;
    trivet_message message;
    char text[64];
    trivet_message_clear(&message);
    if (trivet_stock_quantity_read(given->operand, &thickness, &message) != TRIVET_OK) {
        return fail(given, NULL, &message);
    }
    trivet_units_text(NULL, TRIVET_LENGTH, thickness.value, 4, text, sizeof text);
    printf("%s is %s\n", given->operand, text);
    return EXIT_HOLDS;
}

/* "BWG" or "MSG" asks for all gauges; the library has the words for a name that nothing has. */
static int print_gauges_or_fail(const options *given)
{
    trivet_message message;
    char *json = NULL;
    trivet_message_clear(&message);
    const trivet_status status = trivet_stock_json(given->operand, &json, &message);
    trivet_text_free(json);
    if (status != TRIVET_OK) {
        return fail(given, NULL, &message);
    }
    return print_gauges() ? fail_status(given, NULL, TRIVET_NO_MEMORY) : EXIT_HOLDS;
}

/* A material, a thread, a grade or a filler by its name, or else a gauge such as "16 ga BWG". */
static int print_one(const options *given)
{
    trivet_material material;
    trivet_thread thread;
    trivet_grade grade;
    trivet_filler filler;
    trivet_status status = trivet_material_defaults(&material, sizeof material);
    if (status == TRIVET_OK) {
        status = trivet_thread_defaults(&thread, sizeof thread);
    }
    if (status == TRIVET_OK) {
        status = trivet_grade_defaults(&grade, sizeof grade);
    }
    if (status == TRIVET_OK) {
        status = trivet_filler_defaults(&filler, sizeof filler);
    }
    if (status != TRIVET_OK) {
        return fail_status(given, NULL, status);
    }
    int failed = 0;
    if (trivet_material_find(given->operand, &material, NULL) == TRIVET_OK) {
        failed = print_material(&material);
    } else if (trivet_thread_find(given->operand, &thread, NULL) == TRIVET_OK) {
        failed = print_thread(&thread);
    } else if (trivet_grade_find(given->operand, &grade, NULL) == TRIVET_OK) {
        failed = print_grade(&grade);
    } else if (trivet_filler_find(given->operand, &filler, NULL) == TRIVET_OK) {
        failed = print_filler(&filler);
    } else if (strchr("0123456789", given->operand[0]) && strstr(given->operand, " ga")) {
        return print_gauge(given);
    } else {
        return print_gauges_or_fail(given);
    }
    return failed ? fail_status(given, NULL, TRIVET_NO_MEMORY) : EXIT_HOLDS;
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
    const int failed =
        print_gauges() | print_materials() | print_threads() | print_grades() | print_fillers();
    return failed ? fail_status(given, NULL, TRIVET_NO_MEMORY) : EXIT_HOLDS;
}
