/*
 * Bolts, nuts, spacers and sleeves, those that are alike together.
 */
#include "shop/cuts_record.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

enum { BOLT = 1, NUT = 2, RATED = 3, SPACER = 4, SLEEVE = 5, NUMBER_MAX = 64 };

static int is_same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || !(fabs(a - b) > 1e-9);
}

/* Whether two sets need the same part of a kind. */
static int is_alike(const trivet_bolts *a, const trivet_bolts *b, int32_t kind)
{
    const int same_thread = strcmp(a->thread, b->thread) == 0;
    switch (kind) {
    case BOLT:
        return same_thread && strcmp(a->grade, b->grade) == 0 && a->head == b->head;
    case NUT:
        return same_thread && strcmp(a->grade, b->grade) == 0;
    case SPACER:
        return same_thread && a->spacer == b->spacer &&
               is_same_number(a->spacer_height, b->spacer_height) &&
               is_same_number(a->spacer_diameter, b->spacer_diameter);
    case SLEEVE:
        return a->clamped_stock == b->clamped_stock &&
               is_same_number(a->sleeve_diameter, b->sleeve_diameter) &&
               is_same_number(a->sleeve_wall, b->sleeve_wall);
    default:
        return same_thread;
    }
}

static trivet_status add_part(trivet_cuts *cuts, int32_t bolts, int32_t kind)
{
    const trivet_bolts *const sets = cuts->frame->bolts;
    for (int32_t i = 0; i < cuts->part_count; i++) {
        trivet_cut_part *const part = &cuts->parts[i];
        if (part->kind == kind && is_alike(&sets[part->bolts], &sets[bolts], kind)) {
            part->count += sets[bolts].count;
            return TRIVET_OK;
        }
    }
    void *list = cuts->parts;
    const int has_room = trivet__make_room(&list, (size_t)cuts->part_count, &cuts->part_capacity,
                                           sizeof *cuts->parts);
    cuts->parts = list;
    if (!has_room) {
        return TRIVET_NO_MEMORY;
    }
    trivet_cut_part *const part = &cuts->parts[cuts->part_count++];
    trivet_cut_part_defaults(part, sizeof *part);
    part->count = sets[bolts].count;
    part->bolts = bolts;
    part->kind = kind;
    return TRIVET_OK;
}

static int needs(const trivet_bolts *set, int32_t kind)
{
    switch (kind) {
    case BOLT:
        return 1;
    case NUT:
        return set->into == TRIVET_INTO_NUT;
    case RATED:
        return set->into == TRIVET_INTO_RATED;
    case SPACER:
        return set->spacer != TRIVET_SPACER_NONE;
    case SLEEVE:
    default:
        return set->clamped == TRIVET_CLAMPED_SLEEVE;
    }
}

trivet_status trivet__cuts_parts(trivet_cuts *cuts)
{
    trivet_status status = TRIVET_OK;
    for (int32_t kind = BOLT; kind <= SLEEVE; kind++) {
        for (int32_t b = 0; b < cuts->frame->bolts_count && status == TRIVET_OK; b++) {
            if (needs(&cuts->frame->bolts[b], kind)) {
                status = add_part(cuts, b, kind);
            }
        }
    }
    return status;
}

/* "12 mm", or "?" if it is not known. */
static void write_length(const trivet_units *units, double length, char number[NUMBER_MAX])
{
    if (isnan(length)) {
        trivet__text_copy(number, NUMBER_MAX, "any size");
    } else {
        trivet_units_text(units, TRIVET_LENGTH, length, 4, number, NUMBER_MAX);
    }
}

static size_t write_spacer(const trivet_bolts *set, const trivet_units *units, char *text,
                           size_t size)
{
    char high[NUMBER_MAX];
    char wide[NUMBER_MAX];
    write_length(units, set->spacer_height, high);
    write_length(units, set->spacer_diameter, wide);
    return trivet__text_print(text, size, "%s spacer for %s, %s high, %s outside",
                              set->spacer == TRIVET_SPACER_METAL ? "metal" : "plastic", set->thread,
                              high, wide);
}

/* A sleeve is as long as the tube is deep between its walls, where that is the same both ways. */
static size_t write_sleeve(const trivet_frame *frame, const trivet_bolts *set,
                           const trivet_units *units, char *text, size_t size)
{
    char wide[NUMBER_MAX];
    char wall[NUMBER_MAX];
    char length[NUMBER_MAX] = "as long as the tube is deep inside";
    write_length(units, set->sleeve_diameter, wide);
    write_length(units, set->sleeve_wall, wall);
    if (set->clamped_stock >= 0) {
        const trivet__stock *const stock = &frame->stocks[set->clamped_stock];
        const double deep = stock->section.height - 2.0 * stock->profile.wall;
        if (stock->profile.shape == TRIVET_SHAPE_SQUARE_TUBE ||
            stock->profile.shape == TRIVET_SHAPE_ROUND_TUBE) {
            char number[NUMBER_MAX];
            write_length(units, deep, number);
            trivet__text_print(length, sizeof length, "%s long", number);
        }
    }
    return trivet__text_print(text, size, "crush sleeve %s outside, wall %s, %s", wide, wall,
                              length);
}

size_t trivet_cuts_part_text(const trivet_cuts *cuts, int32_t index, const trivet_units *units,
                             char *text, size_t size)
{
    static const char *const HEADS[] = {"hexagon head", "socket head", "countersunk head"};
    if (!cuts || index < 0 || index >= cuts->part_count) {
        return trivet__text_print(text, size, "%s", "");
    }
    const trivet_cut_part *const part = &cuts->parts[index];
    const trivet_bolts *const set = &cuts->frame->bolts[part->bolts];
    switch (part->kind) {
    case BOLT:
        return trivet__text_print(text, size, "bolt %s %s, %s", set->thread, set->grade,
                                  HEADS[set->head]);
    case NUT:
        return trivet__text_print(text, size, "nut %s for %s%s", set->thread,
                                  strncmp(set->grade, "grade", 5) == 0 ? "" : "grade ", set->grade);
    case RATED:
        return trivet__text_print(text, size, "rivet nut or weld nut %s", set->thread);
    case SPACER:
        return write_spacer(set, units, text, size);
    case SLEEVE:
    default:
        return write_sleeve(cuts->frame, set, units, text, size);
    }
}
