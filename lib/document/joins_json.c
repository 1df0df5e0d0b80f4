/*
 * Bolts, welds, decks and cycles as understood, as JSON in SI.
 */
#include "document/joins_json.h"

#include <stddef.h>

static const char *name_of(const trivet_frame *frame, int32_t kind, int32_t index)
{
    return trivet_frame_name(frame, kind, index);
}

static json_t *make_bolts(trivet__json *json, const trivet_frame *frame, int32_t index)
{
    json_t *const one = trivet__json_object(json);
    trivet_bolts bolts;
    char text[512];
    if (trivet_bolts_defaults(&bolts, sizeof bolts) || trivet_frame_bolts(frame, index, &bolts)) {
        json->is_spoilt = 1;
        return one;
    }
    const struct {
        const char *key;
        double value;
    } rows[] = {
        {"engagement", bolts.engagement},
        {"torque", bolts.torque},
        {"nut factor", bolts.nut_factor},
        {"scatter", bolts.scatter},
        {"friction", bolts.friction},
        {"plate", bolts.plate},
        {"edge", bolts.edge},
        {"hole", bolts.hole},
        {"spacer height", bolts.spacer_height},
    };
    trivet__json_put_text(json, one, trivet_kind_text(bolts.where_kind),
                          name_of(frame, bolts.where_kind, bolts.where_index));
    trivet__json_put_text(json, one, "joint", name_of(frame, TRIVET_KIND_JOINT, bolts.joint));
    trivet__json_put_text(json, one, "thread", bolts.thread);
    trivet__json_put_text(json, one, "grade", bolts.grade);
    trivet__json_put_whole(json, one, "count", bolts.count);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        trivet__json_put_number(json, one, rows[i].key, rows[i].value);
    }
    trivet_bolts_text(frame, index, NULL, text, sizeof text);
    trivet__json_put_text(json, one, "text", text);
    return one;
}

static json_t *make_weld(trivet__json *json, const trivet_frame *frame, int32_t tube, int32_t joint)
{
    json_t *const one = trivet__json_object(json);
    trivet_weld weld;
    char text[256];
    if (trivet_weld_defaults(&weld, sizeof weld) || trivet_frame_weld(frame, tube, joint, &weld)) {
        json->is_spoilt = 1;
        return one;
    }
    trivet_weld_text(&weld, NULL, text, sizeof text);
    trivet__json_put_text(json, one, "tube", name_of(frame, TRIVET_KIND_TUBE, tube));
    trivet__json_put_text(json, one, "joint", name_of(frame, TRIVET_KIND_JOINT, joint));
    trivet__json_put_text(json, one, "text", text);
    if (weld.kind == TRIVET_WELD_FILLET) {
        trivet__json_put_number(json, one, "throat", weld.throat);
        trivet__json_put_number(json, one, "run", weld.run);
    }
    return one;
}

static void put_welds(trivet__json *json, const trivet_frame *frame, json_t *root)
{
    json_t *const list = trivet__json_list(json);
    for (int32_t t = 0; t < trivet_frame_count(frame, TRIVET_KIND_TUBE); t++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_tube_joints(frame, t, &count);
        trivet__json_push(json, list, make_weld(json, frame, t, joints[0]));
        trivet__json_push(json, list, make_weld(json, frame, t, joints[count - 1]));
    }
    trivet__json_put(json, root, "welds", list);
}

static void put_decks(trivet__json *json, const trivet_frame *frame, json_t *root)
{
    json_t *const map = trivet__json_object(json);
    for (int32_t d = 0; d < trivet_frame_count(frame, TRIVET_KIND_DECK); d++) {
        int32_t count = 0;
        const int32_t *const joints = trivet_frame_deck_joints(frame, d, &count);
        json_t *const list = trivet__json_list(json);
        for (int32_t i = 0; i < count; i++) {
            trivet__json_push(json, list,
                              json_string(name_of(frame, TRIVET_KIND_JOINT, joints[i])));
        }
        trivet__json_put(json, map, name_of(frame, TRIVET_KIND_DECK, d), list);
    }
    trivet__json_put(json, root, "decks", map);
}

static void put_slots(trivet__json *json, json_t *into, const trivet_plate *plate)
{
    json_t *const slots = trivet__json_list(json);
    for (int32_t i = 0; i < plate->slot_count; i++) {
        json_t *const slot = trivet__json_object(json);
        trivet__json_put_row(json, slot, "from", plate->slots[i].from, 2);
        trivet__json_put_row(json, slot, "to", plate->slots[i].to, 2);
        trivet__json_put_number(json, slot, "width", plate->slots[i].width);
        trivet__json_push(json, slots, slot);
    }
    trivet__json_put(json, into, "slots", slots);
}

/* How the plate of each deck is cut, as far as it is said. */
static void put_plates(trivet__json *json, const trivet_frame *frame, json_t *root)
{
    json_t *const map = trivet__json_object(json);
    for (int32_t d = 0; d < trivet_frame_count(frame, TRIVET_KIND_DECK); d++) {
        trivet_plate plate = {.size = sizeof plate};
        json_t *const one = trivet__json_object(json);
        json_t *const corners = trivet__json_list(json);
        json->is_spoilt |= trivet_frame_plate(frame, d, &plate) != TRIVET_OK;
        for (int32_t i = 0; i < plate.corner_count; i++) {
            json_t *const corner = trivet__json_list(json);
            trivet__json_push(json, corner, json_real(plate.corners[2 * i]));
            trivet__json_push(json, corner, json_real(plate.corners[2 * i + 1]));
            trivet__json_push(json, corners, corner);
        }
        trivet__json_put(json, one, "outline", corners);
        trivet__json_put_number(json, one, "edge", plate.edge);
        put_slots(json, one, &plate);
        trivet__json_put(json, map, name_of(frame, TRIVET_KIND_DECK, d), one);
    }
    trivet__json_put(json, root, "plates", map);
}

static void put_state(trivet__json *json, const trivet_frame *frame, json_t *into, const char *key,
                      int32_t column)
{
    const char *const name = column < 0 ? NULL : trivet_frame_column_name(frame, column);
    trivet__json_put(json, into, key, name ? json_string(name) : json_null());
}

static void put_cycles(trivet__json *json, const trivet_frame *frame, json_t *root)
{
    json_t *const map = trivet__json_object(json);
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_CYCLES); i++) {
        json_t *const one = trivet__json_object(json);
        trivet_cycles cycles;
        if (trivet_cycles_defaults(&cycles, sizeof cycles) ||
            trivet_frame_cycles(frame, i, &cycles)) {
            json->is_spoilt = 1;
        } else {
            put_state(json, frame, one, "from", cycles.from);
            put_state(json, frame, one, "to", cycles.to);
            trivet__json_put_number(json, one, "from factor", cycles.from_factor);
            trivet__json_put_number(json, one, "to factor", cycles.to_factor);
            trivet__json_put_number(json, one, "count", cycles.count);
        }
        trivet__json_put(json, map, name_of(frame, TRIVET_KIND_CYCLES, i), one);
    }
    trivet__json_put(json, root, "cycles", map);
}

void trivet__json_put_joins(trivet__json *json, const trivet_frame *frame, json_t *root)
{
    json_t *const list = trivet__json_list(json);
    for (int32_t i = 0; i < trivet_frame_bolts_count(frame); i++) {
        trivet__json_push(json, list, make_bolts(json, frame, i));
    }
    trivet__json_put(json, root, "bolts", list);
    put_welds(json, frame, root);
    put_decks(json, frame, root);
    put_plates(json, frame, root);
    put_cycles(json, frame, root);
}
