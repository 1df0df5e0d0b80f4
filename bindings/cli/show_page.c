/*
 * The page of trivet show: everything that the file says, resolved into numbers.
 */
#include "show_page.h"

#include "columns.h"
#include "pages.h"
#include "print.h"
#include "show_joins.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { TEXT_MAX = 1024, DIGITS = 4 };

static const char *name_of(const understood *of, int32_t kind, int32_t index)
{
    const char *const name = trivet_frame_name(of->frame, kind, index);
    return name ? name : "";
}

static void add_value(columns *table, const understood *of, trivet_dimension dimension,
                      double value)
{
    columns_add_value(table, &of->units, dimension, value, DIGITS);
}

/* A value under a heading that names the unit. */
static void add_bare(columns *table, const understood *of, trivet_dimension dimension, double value)
{
    columns_add_bare(table, &of->units, dimension, value);
}

/* "E, N/mm^2" */
static void add_unit_heading(columns *table, const understood *of, const char *what,
                             trivet_dimension dimension)
{
    char text[64];
    snprintf(text, sizeof text, "%s, %s", what, trivet_units_for(&of->units, dimension, NULL));
    columns_add(table, text);
}

/* A quantity in the first dimension that it fits, or in powers of the base units. */
static void add_quantity(columns *table, const understood *of, const trivet_quantity *quantity)
{
    char text[128];
    for (int d = TRIVET_NUMBER; d <= TRIVET_SPEED; d++) {
        if (trivet_quantity_fits(quantity, (trivet_dimension)d)) {
            add_value(table, of, (trivet_dimension)d, quantity->value);
            return;
        }
    }
    snprintf(text, sizeof text, "%.4g m^%d*kg^%d*s^%d*K^%d", quantity->value, (int)quantity->length,
             (int)quantity->mass, (int)quantity->time, (int)quantity->temperature);
    columns_add(table, text);
}

static int print_let(const understood *of)
{
    const int32_t count = trivet_document_let_count(of->document);
    static const char *const HEADINGS[] = {"name", "value"};
    columns table;
    if (count == 0) {
        return 0;
    }
    columns_start(&table, 2, "tn", HEADINGS);
    for (int32_t i = 0; i < count; i++) {
        trivet_quantity quantity;
        memset(&quantity, 0, sizeof quantity);
        const char *const name = trivet_document_let(of->document, i, &quantity);
        columns_add(&table, name ? name : "");
        add_quantity(&table, of, &quantity);
    }
    print_heading("Named quantities (let)");
    return columns_print(&table);
}

static int print_profiles(const understood *of)
{
    static const char *const HEADINGS[] = {"stock", "material", "per length", "profile"};
    columns table;
    columns_start(&table, 2, "ttnw", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_STOCK); i++) {
        const trivet_section *const section = trivet_frame_section(of->frame, i);
        const trivet_material *const material = trivet_frame_material(of->frame, i);
        char text[TEXT_MAX];
        columns_add(&table, name_of(of, TRIVET_KIND_STOCK, i));
        columns_add(&table, material->name[0] ? material->name : "own values");
        add_value(&table, of, TRIVET_MASS_PER_LENGTH,
                  section->mass_per_length > 0.0 ? section->mass_per_length
                                                 : section->area * material->density);
        trivet_profile_text(trivet_frame_profile(of->frame, i), &of->units, text, sizeof text);
        columns_add(&table, text);
    }
    print_heading("Stock");
    return columns_print(&table);
}

static int print_sections(const understood *of)
{
    columns table;
    columns_start(&table, 2, "tnnnnnnn", NULL);
    columns_add(&table, "stock");
    add_unit_heading(&table, of, "A", TRIVET_AREA);
    add_unit_heading(&table, of, "Iyy", TRIVET_SECOND_MOMENT);
    columns_add(&table, "Izz");
    columns_add(&table, "It");
    add_unit_heading(&table, of, "Wy", TRIVET_VOLUME);
    columns_add(&table, "Wz");
    columns_add(&table, "Wt");
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_STOCK); i++) {
        const trivet_section *const section = trivet_frame_section(of->frame, i);
        columns_add(&table, name_of(of, TRIVET_KIND_STOCK, i));
        add_bare(&table, of, TRIVET_AREA, section->area);
        add_bare(&table, of, TRIVET_SECOND_MOMENT, section->second_moment[0]);
        add_bare(&table, of, TRIVET_SECOND_MOMENT, section->second_moment[1]);
        add_bare(&table, of, TRIVET_SECOND_MOMENT, section->torsion_constant);
        add_bare(&table, of, TRIVET_VOLUME, section->elastic_modulus[0]);
        add_bare(&table, of, TRIVET_VOLUME, section->elastic_modulus[1]);
        add_bare(&table, of, TRIVET_VOLUME, section->torsion_modulus);
    }
    print_heading("Section values (y along the width, z along the height)");
    return columns_print(&table);
}

/* Each source once, at the first stock that has it. */
static void print_sources(const understood *of)
{
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_STOCK); i++) {
        const char *const source = trivet_frame_material(of->frame, i)->source;
        int is_said = source[0] == '\0';
        for (int32_t k = 0; k < i; k++) {
            is_said = is_said || strcmp(trivet_frame_material(of->frame, k)->source, source) == 0;
        }
        if (!is_said) {
            print_line(2, "%s: %s", name_of(of, TRIVET_KIND_STOCK, i), source);
        }
    }
}

static int print_materials(const understood *of)
{
    columns table;
    columns_start(&table, 2, "tnnnnn", NULL);
    columns_add(&table, "stock");
    add_unit_heading(&table, of, "E", TRIVET_STRESS);
    columns_add(&table, "G");
    columns_add(&table, "yield");
    columns_add(&table, "yield at weld");
    add_unit_heading(&table, of, "density", TRIVET_DENSITY);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_STOCK); i++) {
        const trivet_material *const material = trivet_frame_material(of->frame, i);
        const double yield = material->yield > 0.0 ? material->yield : (double)NAN;
        columns_add(&table, name_of(of, TRIVET_KIND_STOCK, i));
        add_bare(&table, of, TRIVET_STRESS, material->E);
        add_bare(&table, of, TRIVET_STRESS, material->G);
        add_bare(&table, of, TRIVET_STRESS, yield);
        add_bare(&table, of, TRIVET_STRESS,
                 material->welded_yield > 0.0 ? material->welded_yield : yield);
        add_bare(&table, of, TRIVET_DENSITY, material->density);
    }
    print_heading("Materials");
    const int status = columns_print(&table);
    print_sources(of);
    return status;
}

static int print_joints(const understood *of)
{
    static const char *const HEADINGS[] = {"joint", "x forward", "y left", "z up"};
    columns table;
    columns_start(&table, 2, "tnnn", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_JOINT); i++) {
        const double *const position = trivet_frame_position(of->frame, i);
        columns_add(&table, name_of(of, TRIVET_KIND_JOINT, i));
        for (int k = 0; k < 3; k++) {
            add_value(&table, of, TRIVET_LENGTH, position[k]);
        }
    }
    print_heading("Joints");
    return columns_print(&table);
}

/* "FL, ML, RL" */
static void write_joints(const understood *of, const int32_t *joints, int32_t count, char *text,
                         size_t size)
{
    text[0] = '\0';
    for (int32_t i = 0; i < count; i++) {
        add_to_list(text, size, "%s", name_of(of, TRIVET_KIND_JOINT, joints[i]));
    }
}

static int print_tubes(const understood *of)
{
    static const char *const HEADINGS[] = {"tube", "stock", "length", "mass", "through"};
    columns table;
    columns_start(&table, 2, "ttnnw", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_TUBE); i++) {
        int32_t count = 0;
        char text[TEXT_MAX];
        const int32_t *const joints = trivet_frame_tube_joints(of->frame, i, &count);
        write_joints(of, joints, count, text, sizeof text);
        columns_add(&table, name_of(of, TRIVET_KIND_TUBE, i));
        columns_add(&table, name_of(of, TRIVET_KIND_STOCK, trivet_frame_tube_stock(of->frame, i)));
        add_value(&table, of, TRIVET_LENGTH, trivet_frame_tube_length(of->frame, i));
        add_value(&table, of, TRIVET_MASS, trivet_frame_tube_mass(of->frame, i));
        columns_add(&table, text);
    }
    columns_add(&table, "all");
    columns_add(&table, "");
    columns_add(&table, "");
    add_value(&table, of, TRIVET_MASS, trivet_frame_mass(of->frame));
    columns_add(&table, "");
    print_heading("Tubes");
    return columns_print(&table);
}

static int print_spans(const understood *of)
{
    static const char *const HEADINGS[] = {"tube", "from", "to", "length", "insert"};
    const char *const inside = "end of insert";
    columns table;
    if (!of->result) {
        return 0;
    }
    columns_start(&table, 2, "tttnt", HEADINGS);
    for (int32_t i = 0; i < trivet_result_span_count(of->result); i++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(of->result, i, &span) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, name_of(of, TRIVET_KIND_TUBE, span.tube));
        columns_add(&table, span.first_joint >= 0 ? name_of(of, TRIVET_KIND_JOINT, span.first_joint)
                                                  : inside);
        columns_add(&table, span.last_joint >= 0 ? name_of(of, TRIVET_KIND_JOINT, span.last_joint)
                                                 : inside);
        add_value(&table, of, TRIVET_LENGTH, span.length);
        columns_add(&table, name_of(of, TRIVET_KIND_STOCK, span.insert_stock));
    }
    print_heading("Spans");
    return columns_print(&table);
}

static const char *const DIRECTIONS[6] = {"x", "y", "z", "rx", "ry", "rz"};

/* "x, y, z" of the directions held. */
static void write_directions(uint32_t held, char *text, size_t size)
{
    text[0] = '\0';
    if (held == TRIVET_ALL) {
        snprintf(text, size, "all (clamped)");
        return;
    }
    for (int d = 0; d < 6; d++) {
        if ((held >> d) & 1U) {
            add_to_list(text, size, "%s", DIRECTIONS[d]);
        }
    }
    if (text[0] == '\0') {
        snprintf(text, size, "nothing");
    }
}

/* "rz 900 N*m/rad, x 12 N/mm" */
static void write_springs(const understood *of, const trivet_mount *mount, char *text, size_t size)
{
    text[0] = '\0';
    for (int d = 0; d < 6; d++) {
        if (mount->spring[d] > 0.0) {
            char amount[64];
            trivet_units_text(&of->units, d < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING,
                              mount->spring[d], 4, amount, sizeof amount);
            add_to_list(text, size, "%s %s", DIRECTIONS[d], amount);
        }
    }
}

static void add_limit(columns *table, const understood *of, trivet_dimension dimension,
                      double limit)
{
    if (isnan(limit)) {
        columns_add(table, "-");
    } else {
        add_value(table, of, dimension, limit);
    }
}

static int print_mounts(const understood *of)
{
    static const char *const HEADINGS[] = {"mount",  "pull",  "push",   "shear",
                                           "moment", "holds", "springs"};
    columns table;
    columns_start(&table, 2, "tnnnntw", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_MOUNT); i++) {
        trivet_mount mount;
        char text[TEXT_MAX];
        if (trivet_mount_defaults(&mount, sizeof mount) != TRIVET_OK ||
            trivet_frame_mount(of->frame, i, &mount) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, name_of(of, TRIVET_KIND_MOUNT, i));
        add_limit(&table, of, TRIVET_FORCE, mount.limit_pull);
        add_limit(&table, of, TRIVET_FORCE, mount.limit_push);
        add_limit(&table, of, TRIVET_FORCE, mount.limit_shear);
        add_limit(&table, of, TRIVET_MOMENT, mount.limit_moment);
        write_directions(mount.held, text, sizeof text);
        columns_add(&table, text);
        write_springs(of, &mount, text, sizeof text);
        columns_add(&table, text);
    }
    print_heading("Mounts and what they may carry");
    return columns_print(&table);
}

static int print_cargo(const understood *of)
{
    static const char *const HEADINGS[] = {"cargo", "mass", "x", "y", "z", "grip", "on"};
    columns table;
    columns_start(&table, 2, "tnnnntw", HEADINGS);
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_CARGO);
    for (int32_t i = 0; i < count; i++) {
        trivet_cargo cargo;
        char text[TEXT_MAX];
        if (trivet_cargo_defaults(&cargo, sizeof cargo) != TRIVET_OK ||
            trivet_frame_cargo(of->frame, i, &cargo) != TRIVET_OK) {
            continue;
        }
        columns_add(&table, name_of(of, TRIVET_KIND_CARGO, i));
        add_value(&table, of, TRIVET_MASS, cargo.mass);
        for (int k = 0; k < 3; k++) {
            add_value(&table, of, TRIVET_LENGTH, cargo.centre[k]);
        }
        columns_add(&table, cargo.grip == TRIVET_GRIP_STIFF ? "stiff" : "soft");
        write_joints(of, cargo.joints, cargo.joint_count, text, sizeof text);
        columns_add(&table, text);
    }
    if (count > 0) {
        print_heading("Cargo");
    }
    return columns_print(&table);
}

static int print_items(const understood *of)
{
    static const char *const HEADINGS[] = {"item", "mass", "in"};
    columns table;
    columns_start(&table, 4, "tnt", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_CARGO); i++) {
        double mass = 0.0;
        for (int32_t k = 0; trivet_frame_item(of->frame, i, k, &mass); k++) {
            columns_add(&table, trivet_frame_item(of->frame, i, k, &mass));
            add_value(&table, of, TRIVET_MASS, mass);
            columns_add(&table, name_of(of, TRIVET_KIND_CARGO, i));
        }
    }
    return columns_print(&table);
}

static void print_length_limit(const understood *of, const char *what, double limit)
{
    char text[64] = "no limit";
    if (!isnan(limit)) {
        trivet_units_text(&of->units, TRIVET_LENGTH, limit, 4, text, sizeof text);
    }
    print_line(2, "%s: %s", what, text);
}

static void print_limits(const understood *of)
{
    static const char *const BOLTS[] = {"EN 1993-1-8", "AISC 360"};
    static const char *const WELDS[] = {"EN 1993-1-8, directional", "EN 1993-1-8, simplified",
                                        "AISC 360"};
    const trivet_limits *const limits = &of->limits;
    char text[64] = "no limit";
    if (!isnan(limits->droop_ratio)) {
        snprintf(text, sizeof text, "1/%.4g of the span or reach", 1.0 / limits->droop_ratio);
    }
    print_heading("Limits");
    print_line(2, "factor of safety on yield: %.4g", limits->yield);
    print_line(2, "factor on loads, for bolts, threads, welds and walls: %.4g", limits->loads);
    print_line(2, "factor on stress that comes and goes: %.4g", limits->crack);
    print_line(2, "bolts after %s, welds after %s", BOLTS[limits->bolt_rule],
               WELDS[limits->weld_rule]);
    print_length_limit(of, "droop", limits->droop);
    print_line(2, "droop ratio: %s", text);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_JOINT); i++) {
        const double limit = trivet_frame_droop_limit(of->frame, i);
        if (!isnan(limit)) {
            char what[TRIVET_NAME_MAX + 16];
            snprintf(what, sizeof what, "droop at %s", name_of(of, TRIVET_KIND_JOINT, i));
            print_length_limit(of, what, limit);
        }
    }
    if (!isnan(limits->rack_rating)) {
        trivet_units_text(&of->units, TRIVET_MASS, limits->rack_rating, 4, text, sizeof text);
        print_line(2, "rating of the vehicle's rack: %s", text);
    }
}

static void print_unused(const understood *of)
{
    if (trivet_document_unused(of->document, 0)) {
        print_heading("Parts of the file that this version reads past");
    }
    for (int32_t i = 0; trivet_document_unused(of->document, i); i++) {
        print_line(2, "%s", trivet_document_unused(of->document, i));
    }
}

static int print_fits(const understood *of)
{
    return print_inserts(of->frame, &of->units, 0);
}

static int print_all_cases(const understood *of)
{
    return print_cases(of->frame, &of->units, "Cases and combinations");
}

int show_page(const understood *of)
{
    const char *const name = trivet_document_name(of->document);
    int (*const parts[])(const understood *) = {
        print_let,   print_profiles, print_sections, print_materials, print_joints, print_tubes,
        print_fits,  print_spans,    print_corners,  print_welds,     print_mounts, print_bolts,
        print_decks, print_cargo,    print_items,    print_all_cases, print_cycles};
    int status = 0;
    print_text(name[0] ? name : "(the file has no name)");
    putchar('\n');
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        status |= parts[i](of);
    }
    print_limits(of);
    print_unused(of);
    return status;
}
