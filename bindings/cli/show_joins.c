/*
 * What holds the parts together, as understood: bolts, welds, decks; and loads that come and go.
 */
#include "show_joins.h"

#include "columns.h"
#include "print.h"

#include <stdio.h>

enum { TEXT_MAX = 1024 };

static const char *name_of(const understood *of, int32_t kind, int32_t index)
{
    const char *const name = trivet_frame_name(of->frame, kind, index);
    return name ? name : "";
}

int print_bolts(const understood *of)
{
    static const char *const HEADINGS[] = {"bolts of", "as understood"};
    columns table;
    columns_start(&table, 2, "tw", HEADINGS);
    const int32_t count = trivet_frame_bolts_count(of->frame);
    for (int32_t i = 0; i < count; i++) {
        char text[TEXT_MAX];
        trivet_bolts_place_text(of->frame, i, text, sizeof text);
        columns_add(&table, text);
        trivet_bolts_text(of->frame, i, &of->units, text, sizeof text);
        columns_add(&table, text);
    }
    if (count > 0) {
        print_heading("Bolts and screws");
    }
    return columns_print(&table);
}

/* The two ends of a tube. */
static void add_welds(columns *table, const understood *of, int32_t tube)
{
    int32_t count = 0;
    const int32_t *const joints = trivet_frame_tube_joints(of->frame, tube, &count);
    for (int end = 0; joints && end < 2; end++) {
        trivet_weld weld = {.size = sizeof weld};
        char text[TEXT_MAX];
        const int32_t joint = joints[end == 0 ? 0 : count - 1];
        if (trivet_frame_weld(of->frame, tube, joint, &weld) != TRIVET_OK) {
            continue;
        }
        trivet_weld_text(&weld, &of->units, text, sizeof text);
        columns_add(table, end == 0 ? name_of(of, TRIVET_KIND_TUBE, tube) : "");
        columns_add(table, name_of(of, TRIVET_KIND_JOINT, joint));
        columns_add(table, text);
    }
}

int print_welds(const understood *of)
{
    static const char *const HEADINGS[] = {"tube", "at", "weld"};
    columns table;
    columns_start(&table, 2, "ttw", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_TUBE); i++) {
        add_welds(&table, of, i);
    }
    print_heading("Welds");
    return columns_print(&table);
}

int print_corners(const understood *of)
{
    static const char *const HEADINGS[] = {"corner", "turns by", "cut each end, off square, by"};
    columns table;
    int count = 0;
    columns_start(&table, 2, "tnn", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_JOINT); i++) {
        double turn = 0.0;
        double miter = 0.0;
        if (trivet_frame_corner(of->frame, i, &turn, &miter) == TRIVET_OK) {
            columns_add(&table, name_of(of, TRIVET_KIND_JOINT, i));
            columns_add_value(&table, &of->units, TRIVET_ANGLE, turn, 4);
            columns_add_value(&table, &of->units, TRIVET_ANGLE, miter, 4);
            count++;
        }
    }
    if (count == 0) {
        columns_drop(&table);
        return 0;
    }
    print_heading("Corners, if they are mitred");
    return columns_print(&table);
}

/* How plates are cut, of those decks that say so. */
static int print_plates(const understood *of)
{
    static const char *const HEADINGS[] = {"plate of", "outline", "slots"};
    columns table;
    int32_t count = 0;
    columns_start(&table, 2, "ttn", HEADINGS);
    for (int32_t i = 0; i < trivet_frame_count(of->frame, TRIVET_KIND_DECK); i++) {
        trivet_plate plate = {.size = sizeof plate};
        char outline[TEXT_MAX] = "by its screws";
        char slots[16];
        if (trivet_frame_plate(of->frame, i, &plate) != TRIVET_OK ||
            (plate.corner_count == 0 && plate.slot_count == 0 && !(plate.edge > 0.0))) {
            continue;
        }
        if (plate.corner_count > 0) {
            snprintf(outline, sizeof outline, "%d corners", (int)plate.corner_count);
        } else if (plate.edge > 0.0) {
            char edge[64];
            trivet_units_text(&of->units, TRIVET_LENGTH, plate.edge, 4, edge, sizeof edge);
            snprintf(outline, sizeof outline, "%s beyond joints and holes", edge);
        }
        snprintf(slots, sizeof slots, "%d", (int)plate.slot_count);
        columns_add(&table, name_of(of, TRIVET_KIND_DECK, i));
        columns_add(&table, outline);
        columns_add(&table, slots);
        count++;
    }
    if (count > 0) {
        print_heading("Plates");
    }
    return columns_print(&table);
}

int print_decks(const understood *of)
{
    static const char *const HEADINGS[] = {"deck", "lies on"};
    columns table;
    columns_start(&table, 2, "tw", HEADINGS);
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_DECK);
    for (int32_t i = 0; i < count; i++) {
        int32_t joint_count = 0;
        char text[TEXT_MAX] = "";
        const int32_t *const joints = trivet_frame_deck_joints(of->frame, i, &joint_count);
        for (int32_t k = 0; k < joint_count; k++) {
            add_to_list(text, sizeof text, "%s", name_of(of, TRIVET_KIND_JOINT, joints[k]));
        }
        columns_add(&table, name_of(of, TRIVET_KIND_DECK, i));
        columns_add(&table, text);
    }
    if (count > 0) {
        print_heading("Decks");
    }
    const int failed = columns_print(&table);
    return print_plates(of) == 0 ? failed : -1;
}

int print_cycles(const understood *of)
{
    static const char *const HEADINGS[] = {"cycles", "as understood"};
    columns table;
    columns_start(&table, 2, "tw", HEADINGS);
    const int32_t count = trivet_frame_count(of->frame, TRIVET_KIND_CYCLES);
    for (int32_t i = 0; i < count; i++) {
        char text[TEXT_MAX];
        trivet_cycles_text(of->frame, i, text, sizeof text);
        columns_add(&table, name_of(of, TRIVET_KIND_CYCLES, i));
        columns_add(&table, text);
    }
    if (count > 0) {
        print_heading("Loads that come and go");
    }
    return columns_print(&table);
}
