/*
 * Writes a frame plan as a file. Lengths, masses and forces are bare numbers in the units that the
 * file's head names; all else has its unit beside it, made of those three.
 */
#include "plan_text.h"

#include <check.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

enum { TEXT_ROOM = 1 << 18 };

typedef struct writer {
    char *text;
    size_t used;
    const text_units *units;
} writer;

text_units metric_units(void)
{
    const text_units units = {"mm", "kg", "N", "rad", 1e-3, 1.0, 1.0, 1.0};
    return units;
}

/* Inch, pound and standard gravity by definition (international yard and pound, 1959; CGPM 1901).
 */
text_units inch_units(void)
{
    const double pound = 0.45359237;
    const text_units units = {"in",   "lb",  "lbf",           "deg",
                              0.0254, pound, pound * 9.80665, acos(-1.0) / 180.0};
    return units;
}

__attribute__((format(printf, 2, 3))) static void put(writer *w, const char *format, ...)
{
    va_list values;
    va_start(values, format);
    const int length = vsnprintf(w->text + w->used, TEXT_ROOM - w->used, format, values);
    va_end(values);
    ck_assert(length >= 0 && (size_t)length < TEXT_ROOM - w->used);
    w->used += (size_t)length;
}

static void put_length(writer *w, double value)
{
    put(w, "%.17g", value / w->units->length_size);
}

/* A list of three, bare: lengths or forces by their size; sizes of 1 for plain numbers. */
static void put_three(writer *w, const double v[3], double size)
{
    put(w, "[%.17g, %.17g, %.17g]", v[0] / size, v[1] / size, v[2] / size);
}

/* A list of three with a unit made of force and length: "lbf*in" or "lbf/in". */
static void put_three_with(writer *w, const double v[3], char sign)
{
    const text_units *u = w->units;
    const double size =
        sign == '*' ? u->force_size * u->length_size : u->force_size / u->length_size;
    for (int i = 0; i < 3; i++) {
        put(w, "%s%.17g %s%c%s", i == 0 ? "[" : ", ", v[i] / size, u->force, sign, u->length);
    }
    put(w, "]");
}

static void put_sized(writer *w, const char *key, double value)
{
    put(w, ", %s: ", key);
    put_length(w, value);
}

static void put_stock(writer *w, const plan_stock *stock)
{
    const trivet_profile *p = &stock->profile;
    const trivet_material *m = &stock->material;
    const text_units *u = w->units;
    put(w, "  %s: {shape: %s", stock->name, trivet_shape_text(p->shape));
    if (p->shape == TRIVET_SHAPE_ANGLE) {
        put(w, ", legs: [%.17g, %.17g]", p->height / u->length_size, p->width / u->length_size);
    } else {
        if (p->height > 0.0) {
            put_sized(w, "height", p->height);
        }
        if (p->width > 0.0) {
            put_sized(w, "width", p->width);
        }
    }
    if (p->diameter > 0.0) {
        put_sized(w, "diameter", p->diameter);
    }
    if (p->wall > 0.0) {
        put_sized(w, "wall", p->wall);
    }
    if (p->corner == TRIVET_CORNER_SHARP) {
        put(w, ", corner: sharp");
    }
    const double stress = u->force_size / (u->length_size * u->length_size);
    const double density = u->mass_size / (u->length_size * u->length_size * u->length_size);
    put(w, ", material: {E: %.17g %s/%s^2, G: %.17g %s/%s^2, ", m->E / stress, u->force, u->length,
        m->G / stress, u->force, u->length);
    put(w, "density: %.17g %s/%s^3, expansion: %.17g/K}}\n", m->density / density, u->mass,
        u->length, m->expansion);
}

static void put_directions(writer *w, uint32_t bits)
{
    static const char *const names[6] = {"x", "y", "z", "rx", "ry", "rz"};
    const char *between = "[";
    for (uint32_t i = 0; i < 6; i++) {
        if ((bits >> i & 1U) != 0) {
            put(w, "%s%s", between, names[i]);
            between = ", ";
        }
    }
    put(w, "]");
}

static void put_ends(writer *w, const frame_plan *plan, const plan_tube *tube)
{
    const char *between = ", ends: {";
    for (int end = 0; end < 2; end++) {
        const uint32_t bits = end == 0 ? tube->free_first : tube->free_last;
        const int joint = tube->joints[end == 0 ? 0 : tube->joint_count - 1];
        if (bits == TRIVET_PINNED) {
            put(w, "%s%s: pinned", between, plan->joints[joint].name);
        } else if (bits != 0) {
            put(w, "%s%s: {free: ", between, plan->joints[joint].name);
            put_directions(w, bits);
            put(w, "}");
        }
        between = bits != 0 ? ", " : between;
    }
    put(w, "%s", tube->free_first != 0 || tube->free_last != 0 ? "}" : "");
}

static void put_tube(writer *w, const frame_plan *plan, const plan_tube *tube)
{
    put(w, "  %s: {through: [", tube->name);
    for (int i = 0; i < tube->joint_count; i++) {
        put(w, "%s%s", i == 0 ? "" : ", ", plan->joints[tube->joints[i]].name);
    }
    put(w, "], stock: %s, roll: %.17g %s", plan->stocks[tube->stock].name,
        tube->roll / w->units->angle_size, w->units->angle);
    put_ends(w, plan, tube);
    put(w, ", offset: {");
    for (int i = 0; i < tube->joint_count; i++) {
        put(w, "%s%s: ", i == 0 ? "" : ", ", plan->joints[tube->joints[i]].name);
        put_three(w, tube->offsets[i], w->units->length_size);
    }
    put(w, "}, inserts: [");
    for (int i = 0; i < tube->insert_count; i++) {
        const plan_insert *insert = &tube->inserts[i];
        put(w, "%s{at: %s, length: %.17g, stock: %s, bond: %s}", i == 0 ? "" : ", ",
            plan->joints[tube->joints[insert->position]].name,
            insert->length / w->units->length_size, plan->stocks[insert->stock].name,
            insert->bond == TRIVET_TOGETHER ? "together" : "side by side");
    }
    put(w, "]}\n");
}

static void put_mount(writer *w, const frame_plan *plan, const trivet_mount *mount)
{
    static const char *const names[6] = {"x", "y", "z", "rx", "ry", "rz"};
    const text_units *u = w->units;
    put(w, "  %s: {hold: ", plan->joints[mount->joint].name);
    put_directions(w, mount->held);
    put(w, ", axes: {x: ");
    put_three(w, mount->axes, 1.0);
    put(w, ", y: ");
    put_three(w, mount->axes + 3, 1.0);
    put(w, "}, spring: {");
    const char *between = "";
    for (int i = 0; i < 6; i++) {
        if (mount->spring[i] > 0.0 && i < 3) {
            put(w, "%s%s: %.17g %s/%s", between, names[i],
                mount->spring[i] * u->length_size / u->force_size, u->force, u->length);
            between = ", ";
        } else if (mount->spring[i] > 0.0) {
            put(w, "%s%s: %.17g %s*%s/rad", between, names[i],
                mount->spring[i] / (u->length_size * u->force_size), u->force, u->length);
            between = ", ";
        }
    }
    put(w, "}}\n");
}

static void put_cargo(writer *w, const frame_plan *plan, const plan_cargo *cargo)
{
    put(w, "  %s: {items: {box: %.17g, contents: %.17g}, centre: ", cargo->name,
        cargo->box / w->units->mass_size, cargo->contents / w->units->mass_size);
    put_three(w, cargo->centre, w->units->length_size);
    put(w, ", grip: %s, on: [", cargo->grip == TRIVET_GRIP_STIFF ? "stiff" : "soft");
    for (int i = 0; i < cargo->joint_count; i++) {
        put(w, "%s%s", i == 0 ? "" : ", ", plan->joints[cargo->joints[i]].name);
    }
    put(w, "]}\n");
}

static void put_force_and_moment(writer *w, const plan_force *load)
{
    put(w, ", force: ");
    put_three(w, load->force, w->units->force_size);
    put(w, ", moment: ");
    put_three_with(w, load->moment, '*');
}

static void put_forces(writer *w, const frame_plan *plan, const plan_case *of)
{
    put(w, "    forces:\n");
    for (int i = 0; i < of->joint_force_count; i++) {
        put(w, "      - {on: %s", plan->joints[of->joint_forces[i].on].name);
        put_force_and_moment(w, &of->joint_forces[i]);
        put(w, "}\n");
    }
    for (int i = 0; i < of->cargo_force_count; i++) {
        put(w, "      - {on: %s", plan->cargos[of->cargo_forces[i].on].name);
        put_force_and_moment(w, &of->cargo_forces[i]);
        put(w, ", at: ");
        put_three(w, of->cargo_forces[i].at, w->units->length_size);
        put(w, "}\n");
    }
}

static void put_tube_forces(writer *w, const frame_plan *plan, const plan_case *of)
{
    put(w, "    tube forces:\n");
    for (int i = 0; i < of->tube_force_count; i++) {
        const plan_force *load = &of->tube_forces[i];
        put(w, "      - {tube: %s, at: ", plan->tubes[load->on].name);
        put_length(w, load->at[0]);
        put_force_and_moment(w, load);
        put(w, "%s}\n", load->axes == TRIVET_TUBE_AXES ? ", axes: tube" : "");
    }
    for (int i = 0; i < of->line_count; i++) {
        const plan_line *load = &of->lines[i];
        put(w, "      - {tube: %s", plan->tubes[load->tube].name);
        put_sized(w, "from", load->from);
        if (!isnan(load->to)) {
            put_sized(w, "to", load->to);
        }
        put(w, ", line: ");
        put_three_with(w, load->first, '/');
        put(w, ", to line: ");
        put_three_with(w, load->last, '/');
        put(w, "%s}\n", load->axes == TRIVET_TUBE_AXES ? ", axes: tube" : "");
    }
}

static void put_moves(writer *w, const frame_plan *plan, const plan_case *of)
{
    static const char *const names[6] = {"x", "y", "z", "rx", "ry", "rz"};
    put(w, "    mount moves:\n");
    for (int m = 0; m < plan->mount_count; m++) {
        const char *between = "";
        put(w, "      %s: {", plan->joints[plan->mounts[m].joint].name);
        for (int i = 0; i < 6; i++) {
            const double move = of->mount_moves[m][i];
            if (move != 0.0 && i < 3) {
                put(w, "%s%s: %.17g", between, names[i], move / w->units->length_size);
                between = ", ";
            } else if (move != 0.0) {
                put(w, "%s%s: %.17g %s", between, names[i], move / w->units->angle_size,
                    w->units->angle);
                between = ", ";
            }
        }
        put(w, "}\n");
    }
}

static void put_case(writer *w, const frame_plan *plan, const plan_case *of)
{
    put(w, "  %s:\n    gravity: ", of->name);
    put_three(w, of->gravity, 1.0);
    put(w, "\n    warm: %.17g K\n    cargo: {", of->warm);
    for (int i = 0; i < plan->cargo_count; i++) {
        put(w, "%s%s: %.17g", i == 0 ? "" : ", ", plan->cargos[i].name, of->cargo_factors[i]);
    }
    put(w, "}\n");
    if (of->joint_force_count + of->cargo_force_count > 0) {
        put_forces(w, plan, of);
    }
    if (of->tube_force_count + of->line_count > 0) {
        put_tube_forces(w, plan, of);
    }
    put_moves(w, plan, of);
}

char *plan_text(const frame_plan *plan, const text_units *units)
{
    writer w = {.text = malloc(TEXT_ROOM), .units = units};
    ck_assert_ptr_nonnull(w.text);
    put(&w, "trivet: 1\nunits: {length: %s, mass: %s, force: %s}\nstock:\n", units->length,
        units->mass, units->force);
    for (int i = 0; i < plan->stock_count; i++) {
        put_stock(&w, &plan->stocks[i]);
    }
    put(&w, "joints:\n");
    for (int i = 0; i < plan->joint_count; i++) {
        put(&w, "  %s: ", plan->joints[i].name);
        put_three(&w, plan->joints[i].position, units->length_size);
        put(&w, "\n");
    }
    put(&w, "tubes:\n");
    for (int i = 0; i < plan->tube_count; i++) {
        put_tube(&w, plan, &plan->tubes[i]);
    }
    put(&w, "mounts:\n");
    for (int i = 0; i < plan->mount_count; i++) {
        put_mount(&w, plan, &plan->mounts[i]);
    }
    put(&w, "%s", plan->cargo_count > 0 ? "cargo:\n" : "");
    for (int i = 0; i < plan->cargo_count; i++) {
        put_cargo(&w, plan, &plan->cargos[i]);
    }
    put(&w, "cases:\n");
    for (int i = 0; i < plan->case_count; i++) {
        put_case(&w, plan, &plan->cases[i]);
    }
    if (plan->has_combination) {
        put(&w, "combine:\n  sum: {");
        for (int i = 0; i < plan->case_count; i++) {
            put(&w, "%s%s: %.17g", i == 0 ? "" : ", ", plan->cases[i].name, plan->factors[i]);
        }
        put(&w, "}\n");
    }
    return w.text;
}
