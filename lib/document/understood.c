/*
 * What was understood of a file, as JSON in SI: every size, section value, coordinate and load
 * after all expressions have been worked out.
 */
#include "base/directions.h"
#include "base/message.h"
#include "document/joins_json.h"
#include "document/json.h"
#include "document/record.h"

#include <math.h>
#include <stddef.h>

typedef struct showing {
    trivet__json json;
    const trivet_document *document;
    const trivet_frame *frame;
} showing;

static const char *name_of(const showing *s, int32_t kind, int32_t index)
{
    return trivet_frame_name(s->frame, kind, index);
}

static void put_directions(showing *s, json_t *into, const char *key, uint32_t bits)
{
    json_t *const list = trivet__json_list(&s->json);
    for (uint32_t i = 0; i < TRIVET__DIRECTIONS; i++) {
        if (bits & (1U << i)) {
            trivet__json_push(&s->json, list, json_string(trivet__direction_words()[i]));
        }
    }
    trivet__json_put(&s->json, into, key, list);
}

static void put_units(showing *s, json_t *root)
{
    json_t *const units = trivet__json_object(&s->json);
    trivet__json_put_text(&s->json, units, "length", s->document->units.length);
    trivet__json_put_text(&s->json, units, "mass", s->document->units.mass);
    trivet__json_put_text(&s->json, units, "force", s->document->units.force);
    trivet__json_put(&s->json, root, "units", units);
}

/* The plain word for what a quantity is; NULL if there is none. */
static const char *dimension_word(const trivet_quantity *quantity)
{
    for (int32_t i = TRIVET_NUMBER; i <= TRIVET_SPEED; i++) {
        if (trivet_quantity_fits(quantity, (trivet_dimension)i)) {
            return trivet_dimension_text((trivet_dimension)i);
        }
    }
    return NULL;
}

static void put_lets(showing *s, json_t *root)
{
    json_t *const lets = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_document_let_count(s->document); i++) {
        trivet_quantity quantity;
        json_t *const one = trivet__json_object(&s->json);
        const char *const name = trivet_document_let(s->document, i, &quantity);
        trivet__json_put_number(&s->json, one, "value", quantity.value);
        trivet__json_put_text(&s->json, one, "is", dimension_word(&quantity));
        trivet__json_put_truth(&s->json, one, "bare", !quantity.has_unit);
        trivet__json_put(&s->json, lets, name, one);
    }
    trivet__json_put(&s->json, root, "let", lets);
}

static void put_material(showing *s, json_t *into, const trivet_material *material)
{
    json_t *const one = trivet__json_object(&s->json);
    trivet__json_put_text(&s->json, one, "name", material->name);
    trivet__json_put_number(&s->json, one, "E", material->E);
    trivet__json_put_number(&s->json, one, "G", material->G);
    trivet__json_put_number(&s->json, one, "density", material->density);
    trivet__json_put_number(&s->json, one, "yield", material->yield);
    trivet__json_put_number(&s->json, one, "tensile", material->tensile);
    trivet__json_put_number(&s->json, one, "expansion", material->expansion);
    trivet__json_put_number(&s->json, one, "welded yield", material->welded_yield);
    trivet__json_put_number(&s->json, one, "welded tensile", material->welded_tensile);
    trivet__json_put_text(&s->json, one, "source", material->source);
    trivet__json_put(&s->json, into, "material", one);
}

static void put_section(showing *s, json_t *into, const trivet_section *section)
{
    json_t *const one = trivet__json_object(&s->json);
    trivet__json_put_number(&s->json, one, "area", section->area);
    trivet__json_put_row(&s->json, one, "shear areas", section->shear_area, 2);
    trivet__json_put_row(&s->json, one, "second moments", section->second_moment, 2);
    trivet__json_put_number(&s->json, one, "product moment", section->product_moment);
    trivet__json_put_row(&s->json, one, "principal moments", section->principal_moment, 2);
    trivet__json_put_number(&s->json, one, "principal angle", section->principal_angle);
    trivet__json_put_row(&s->json, one, "section moduli", section->elastic_modulus, 2);
    trivet__json_put_row(&s->json, one, "plastic moduli", section->plastic_modulus, 2);
    trivet__json_put_number(&s->json, one, "torsion constant", section->torsion_constant);
    trivet__json_put_number(&s->json, one, "torsion modulus", section->torsion_modulus);
    trivet__json_put_number(&s->json, one, "height", section->height);
    trivet__json_put_number(&s->json, one, "width", section->width);
    trivet__json_put_number(&s->json, one, "perimeter", section->perimeter);
    trivet__json_put(&s->json, into, "section", one);
}

static void put_sizes(showing *s, json_t *into, const trivet_profile *profile)
{
    const struct {
        const char *key;
        double value;
    } rows[] = {
        {"height", profile->height}, {"width", profile->width},
        {"wall", profile->wall},     {"diameter", profile->diameter},
        {"flange", profile->flange}, {"corner", profile->corner_radius},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (rows[i].value > 0.0) {
            trivet__json_put_number(&s->json, into, rows[i].key, rows[i].value);
        }
    }
    if (profile->corner == TRIVET_CORNER_SHARP) {
        trivet__json_put_text(&s->json, into, "corner", "sharp");
    }
}

static void put_stock(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_STOCK); i++) {
        const trivet_profile *const profile = trivet_frame_profile(s->frame, i);
        const trivet_section *const section = trivet_frame_section(s->frame, i);
        const trivet_material *const material = trivet_frame_material(s->frame, i);
        json_t *const one = trivet__json_object(&s->json);
        char text[128];
        trivet_profile_text(profile, &s->document->units, text, sizeof text);
        trivet__json_put_text(&s->json, one, "shape", trivet_shape_text(profile->shape));
        trivet__json_put_text(&s->json, one, "text", text);
        put_sizes(s, one, profile);
        trivet__json_put_number(&s->json, one, "mass per length",
                                section->mass_per_length > 0.0 ? section->mass_per_length
                                                               : section->area * material->density);
        put_section(s, one, section);
        put_material(s, one, material);
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_STOCK, i), one);
    }
    trivet__json_put(&s->json, root, "stock", map);
}

static void put_joints(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_JOINT); i++) {
        trivet__json_put_row(&s->json, map, name_of(s, TRIVET_KIND_JOINT, i),
                             trivet_frame_position(s->frame, i), 3);
    }
    trivet__json_put(&s->json, root, "joints", map);
}

static void put_joint_names(showing *s, json_t *into, const char *key, const int32_t *joints,
                            int32_t count)
{
    json_t *const list = trivet__json_list(&s->json);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(&s->json, list, json_string(name_of(s, TRIVET_KIND_JOINT, joints[i])));
    }
    trivet__json_put(&s->json, into, key, list);
}

static void put_inserts(showing *s, json_t *into, int32_t tube)
{
    json_t *const list = trivet__json_list(&s->json);
    for (size_t i = 0; i < s->document->inserts.count; i++) {
        const trivet__insert_note *const insert =
            TRIVET__AT(s->document->inserts, trivet__insert_note, i);
        if (insert->tube != tube) {
            continue;
        }
        json_t *const one = trivet__json_object(&s->json);
        trivet__json_put_text(&s->json, one, "at", name_of(s, TRIVET_KIND_JOINT, insert->joint));
        trivet__json_put_number(&s->json, one, "length", insert->length);
        trivet__json_put_text(&s->json, one, "stock", name_of(s, TRIVET_KIND_STOCK, insert->stock));
        trivet__json_put_text(&s->json, one, "bond",
                              insert->bond == TRIVET_TOGETHER ? "together" : "side by side");
        trivet__json_push(&s->json, list, one);
    }
    trivet__json_put(&s->json, into, "inserts", list);
}

/* Ends that are freed or stand off their joint. */
static void put_ends(showing *s, json_t *into, const trivet__tube_note *note, const int32_t *joints,
                     int32_t count)
{
    json_t *const ends = trivet__json_object(&s->json);
    for (int i = 0; i < 2; i++) {
        const double *const offset = note->offset[i];
        const int has_offset = offset[0] != 0.0 || offset[1] != 0.0 || offset[2] != 0.0;
        if (!note->free[i] && !has_offset) {
            continue;
        }
        json_t *const end = trivet__json_object(&s->json);
        put_directions(s, end, "free", note->free[i]);
        trivet__json_put_row(&s->json, end, "offset", offset, 3);
        trivet__json_put(&s->json, ends,
                         name_of(s, TRIVET_KIND_JOINT, joints[i == 0 ? 0 : count - 1]), end);
    }
    trivet__json_put(&s->json, into, "ends", ends);
}

static void put_tubes(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_TUBE); i++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(s->frame, i, &count);
        const trivet__tube_note *const note = trivet__tube_note_at(s->document, i);
        json_t *const one = trivet__json_object(&s->json);
        put_joint_names(s, one, "through", joints, count);
        trivet__json_put_text(&s->json, one, "stock",
                              name_of(s, TRIVET_KIND_STOCK, trivet_frame_tube_stock(s->frame, i)));
        trivet__json_put_number(&s->json, one, "length", trivet_frame_tube_length(s->frame, i));
        trivet__json_put_number(&s->json, one, "mass", trivet_frame_tube_mass(s->frame, i));
        if (note) {
            trivet__json_put_number(&s->json, one, "roll", note->roll);
            put_ends(s, one, note, joints, count);
        }
        put_inserts(s, one, i);
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_TUBE, i), one);
    }
    trivet__json_put(&s->json, root, "tubes", map);
}

static void put_mounts(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_MOUNT); i++) {
        trivet_mount mount;
        json_t *const one = trivet__json_object(&s->json);
        if (trivet_mount_defaults(&mount, sizeof mount) ||
            trivet_frame_mount(s->frame, i, &mount)) {
            s->json.is_spoilt = 1;
        } else {
            const double limits[] = {mount.limit_pull, mount.limit_push, mount.limit_shear,
                                     mount.limit_moment};
            const char *const names[] = {"pull", "push", "shear", "moment"};
            put_directions(s, one, "hold", mount.held);
            trivet__json_put_named(&s->json, one, "spring", trivet__direction_words(), mount.spring,
                                   TRIVET__DIRECTIONS);
            trivet__json_put_row(&s->json, one, "axes", mount.axes, 9);
            trivet__json_put_named(&s->json, one, "limit", names, limits, 4);
        }
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_MOUNT, i), one);
    }
    trivet__json_put(&s->json, root, "mounts", map);
}

static void put_cargo(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_CARGO); i++) {
        trivet_cargo cargo;
        json_t *const one = trivet__json_object(&s->json);
        if (trivet_cargo_defaults(&cargo, sizeof cargo) ||
            trivet_frame_cargo(s->frame, i, &cargo)) {
            s->json.is_spoilt = 1;
        } else {
            json_t *const items = trivet__json_object(&s->json);
            for (int32_t item = 0; item < cargo.item_count; item++) {
                double mass = 0.0;
                const char *const name = trivet_frame_item(s->frame, i, item, &mass);
                trivet__json_put_number(&s->json, items, name, mass);
            }
            trivet__json_put_number(&s->json, one, "mass", cargo.mass);
            trivet__json_put(&s->json, one, "items", items);
            trivet__json_put_row(&s->json, one, "centre", cargo.centre, 3);
            put_joint_names(s, one, "on", cargo.joints, cargo.joint_count);
            trivet__json_put_text(&s->json, one, "grip",
                                  cargo.grip == TRIVET_GRIP_STIFF ? "stiff" : "soft");
        }
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_CARGO, i), one);
    }
    trivet__json_put(&s->json, root, "cargo", map);
}

static void fill_tube_load(showing *s, json_t *one, const trivet__load_note *load)
{
    const int is_line = load->kind == TRIVET__LOAD_LINE;
    trivet__json_put_text(&s->json, one, "tube", name_of(s, TRIVET_KIND_TUBE, load->index));
    trivet__json_put_number(&s->json, one, is_line ? "from" : "at", load->from);
    if (is_line) {
        const double end = trivet_frame_tube_length(s->frame, load->index);
        trivet__json_put_number(&s->json, one, "to", isnan(load->to) ? end : load->to);
    }
    trivet__json_put_row(&s->json, one, is_line ? "line" : "force", load->first, 3);
    trivet__json_put_row(&s->json, one, is_line ? "to line" : "moment", load->last, 3);
    trivet__json_put_text(&s->json, one, "axes", load->axes == TRIVET_TUBE_AXES ? "tube" : "world");
}

static json_t *make_load(showing *s, const trivet__load_note *load)
{
    json_t *const one = trivet__json_object(&s->json);
    switch (load->kind) {
    case TRIVET__LOAD_JOINT:
    case TRIVET__LOAD_CARGO: {
        const int is_joint = load->kind == TRIVET__LOAD_JOINT;
        trivet__json_put_text(
            &s->json, one, is_joint ? "joint" : "cargo",
            name_of(s, is_joint ? TRIVET_KIND_JOINT : TRIVET_KIND_CARGO, load->index));
        trivet__json_put_row(&s->json, one, "force", load->first, 3);
        trivet__json_put_row(&s->json, one, "moment", load->last, 3);
        if (!isnan(load->place[0])) {
            trivet__json_put_row(&s->json, one, "at", load->place, 3);
        }
        break;
    }
    case TRIVET__LOAD_POINT:
    case TRIVET__LOAD_LINE:
        fill_tube_load(s, one, load);
        break;
    case TRIVET__LOAD_MOVE:
        trivet__json_put_text(&s->json, one, "mount", name_of(s, TRIVET_KIND_MOUNT, load->index));
        trivet__json_put_row(&s->json, one, "move", load->first, 3);
        trivet__json_put_row(&s->json, one, "turn", load->last, 3);
        break;
    case TRIVET__LOAD_FACTOR:
        trivet__json_put_text(&s->json, one, "cargo", name_of(s, TRIVET_KIND_CARGO, load->index));
        trivet__json_put_number(&s->json, one, "factor", load->from);
        break;
    case TRIVET__LOAD_WARM:
    default:
        trivet__json_put_number(&s->json, one, "warm", load->from);
        break;
    }
    return one;
}

/* Loads stand in the order of the cases, so that one walk serves all. */
static void put_cases(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    size_t next = 0;
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_CASE); i++) {
        json_t *const one = trivet__json_object(&s->json);
        json_t *const loads = trivet__json_list(&s->json);
        trivet__json_put_row(&s->json, one, "gravity", trivet_frame_gravity(s->frame, i), 3);
        while (next < s->document->loads.count) {
            const trivet__load_note *const load =
                TRIVET__AT(s->document->loads, trivet__load_note, next);
            if (load->in_case != i) {
                break;
            }
            trivet__json_push(&s->json, loads, make_load(s, load));
            next++;
        }
        trivet__json_put(&s->json, one, "loads", loads);
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_CASE, i), one);
    }
    trivet__json_put(&s->json, root, "cases", map);
}

static void put_combinations(showing *s, json_t *root)
{
    json_t *const map = trivet__json_object(&s->json);
    size_t next = 0;
    for (int32_t i = 0; i < trivet_frame_count(s->frame, TRIVET_KIND_COMBINATION); i++) {
        json_t *const one = trivet__json_object(&s->json);
        while (next < s->document->parts.count) {
            const trivet__part_note *const part =
                TRIVET__AT(s->document->parts, trivet__part_note, next);
            if (part->combination != i) {
                break;
            }
            trivet__json_put_number(&s->json, one, name_of(s, TRIVET_KIND_CASE, part->in_case),
                                    part->factor);
            next++;
        }
        trivet__json_put(&s->json, map, name_of(s, TRIVET_KIND_COMBINATION, i), one);
    }
    trivet__json_put(&s->json, root, "combine", map);
}

static void put_rest(showing *s, json_t *root)
{
    const trivet_limits *const limits = &s->document->limits;
    json_t *const map = trivet__json_object(&s->json);
    json_t *const unused = trivet__json_list(&s->json);
    trivet__json_put_number(&s->json, map, "yield", limits->yield);
    trivet__json_put_number(&s->json, map, "loads", limits->loads);
    trivet__json_put_number(&s->json, map, "crack", limits->crack);
    trivet__json_put_number(&s->json, map, "rack rating", limits->rack_rating);
    trivet__json_put_number(&s->json, map, "droop", limits->droop);
    trivet__json_put_number(&s->json, map, "droop ratio", limits->droop_ratio);
    json_t *const joints = trivet__json_object(&s->json);
    for (int32_t i = 0; i < trivet_frame_count(s->document->frame, TRIVET_KIND_JOINT); i++) {
        const double limit = trivet_frame_droop_limit(s->document->frame, i);
        if (!isnan(limit)) {
            trivet__json_put_number(&s->json, joints, name_of(s, TRIVET_KIND_JOINT, i), limit);
        }
    }
    trivet__json_put(&s->json, map, "droop at", joints);
    trivet__json_put(&s->json, root, "limits", map);
    const char *text = trivet_document_unused(s->document, 0);
    for (int32_t i = 1; text; i++) {
        trivet__json_push(&s->json, unused, json_string(text));
        text = trivet_document_unused(s->document, i);
    }
    trivet__json_put(&s->json, root, "not used", unused);
}

trivet_status trivet_document_understood_json(const trivet_document *document, char **text_out,
                                              trivet_message *message)
{
    if (text_out) {
        *text_out = NULL;
    }
    if (!document || !text_out) {
        return trivet__missing(message, document ? "text_out" : "document");
    }
    showing s = {.document = document, .frame = document->frame};
    json_t *const root = trivet__json_object(&s.json);
    trivet__json_put_text(&s.json, root, "trivet", trivet_version());
    trivet__json_put_text(&s.json, root, "name", document->name);
    trivet__json_put_number(&s.json, root, "mass", trivet_frame_mass(document->frame));
    put_units(&s, root);
    put_lets(&s, root);
    put_stock(&s, root);
    put_joints(&s, root);
    put_tubes(&s, root);
    put_mounts(&s, root);
    put_cargo(&s, root);
    put_cases(&s, root);
    put_combinations(&s, root);
    trivet__json_put_joins(&s.json, document->frame, root);
    put_rest(&s, root);
    return trivet__json_text(&s.json, root, text_out, message);
}
