/*
 * The frame as a whole: made, freed, counted, named, found.
 */
#include "frame/frame.h"

#include "base/memory.h"
#include "base/text.h"
#include "frame/border.h"

#include <math.h>

trivet_status trivet_frame_new(trivet_frame **frame_out, trivet_message *message)
{
    if (!frame_out) {
        return trivet__missing(message, "frame_out");
    }
    *frame_out = trivet__take(1, sizeof **frame_out);
    return *frame_out ? TRIVET_OK : trivet__no_memory(message);
}

static void free_tubes(trivet_frame *frame)
{
    for (int32_t i = 0; i < frame->tube_count; i++) {
        trivet__give_back(frame->tubes[i].joints);
        trivet__give_back(frame->tubes[i].offsets);
        trivet__give_back(frame->tubes[i].inserts);
    }
    trivet__give_back(frame->tubes);
}

static void free_cargos(trivet_frame *frame)
{
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        for (int32_t k = 0; k < frame->cargos[i].item_count; k++) {
            trivet__give_back(frame->cargos[i].items[k].name);
        }
        trivet__give_back(frame->cargos[i].items);
        trivet__give_back(frame->cargos[i].joints);
    }
    trivet__give_back(frame->cargos);
}

void trivet__cut_cases(trivet_frame *frame, int32_t count)
{
    while (frame->case_count > count) {
        trivet__case *const last = &frame->cases[frame->case_count - 1];
        trivet__give_back(last->story);
        trivet__give_back(last->source);
        trivet__give_back(last->cargo_factors);
        trivet__give_back(last->mount_moves);
        trivet__give_back(last->joint_forces);
        trivet__give_back(last->cargo_forces);
        trivet__give_back(last->tube_forces);
        trivet__give_back(last->tube_lines);
        frame->case_count--;
    }
}

void trivet__cut_gaps(trivet_frame *frame, int32_t count)
{
    while (frame->gap_count > count) {
        trivet__give_back(frame->gaps[frame->gap_count - 1].what);
        trivet__give_back(frame->gaps[frame->gap_count - 1].why);
        frame->gap_count--;
    }
}

static void free_cases(trivet_frame *frame)
{
    trivet__cut_cases(frame, 0);
    trivet__give_back(frame->cases);
    for (int32_t i = 0; i < frame->combination_count; i++) {
        trivet__give_back(frame->combinations[i].cases);
        trivet__give_back(frame->combinations[i].factors);
    }
    trivet__give_back(frame->combinations);
}

static void free_decks(trivet_frame *frame)
{
    for (int32_t i = 0; i < frame->deck_count; i++) {
        trivet__give_back(frame->decks[i].joints);
        trivet__give_back(frame->decks[i].corners);
        trivet__give_back(frame->decks[i].slots);
    }
    trivet__give_back(frame->decks);
}

void trivet_frame_free(trivet_frame *frame)
{
    if (!frame) {
        return;
    }
    free_tubes(frame);
    free_cargos(frame);
    free_cases(frame);
    free_decks(frame);
    trivet__cut_gaps(frame, 0);
    trivet__give_back(frame->gaps);
    trivet__give_back(frame->bolts);
    trivet__give_back(frame->cycles);
    trivet__give_back(frame->joints);
    trivet__give_back(frame->stocks);
    trivet__give_back(frame->mounts);
    trivet__names_free(&frame->joint_names);
    trivet__names_free(&frame->stock_names);
    trivet__names_free(&frame->tube_names);
    trivet__names_free(&frame->cargo_names);
    trivet__names_free(&frame->deck_names);
    trivet__names_free(&frame->cycles_names);
    trivet__names_free(&frame->case_names);
    trivet__give_back(frame);
}

int32_t trivet_frame_count(const trivet_frame *frame, int32_t kind)
{
    if (!frame) {
        return 0;
    }
    switch (kind) {
    case TRIVET_KIND_JOINT:
        return frame->joint_count;
    case TRIVET_KIND_STOCK:
        return frame->stock_count;
    case TRIVET_KIND_TUBE:
        return frame->tube_count;
    case TRIVET_KIND_MOUNT:
        return frame->mount_count;
    case TRIVET_KIND_CARGO:
        return frame->cargo_count;
    case TRIVET_KIND_CASE:
        return frame->case_count;
    case TRIVET_KIND_COMBINATION:
        return frame->combination_count;
    case TRIVET_KIND_DECK:
        return frame->deck_count;
    case TRIVET_KIND_CYCLES:
        return frame->cycles_count;
    default:
        return 0;
    }
}

const char *trivet_frame_name(const trivet_frame *frame, int32_t kind, int32_t index)
{
    if (index < 0 || index >= trivet_frame_count(frame, kind)) {
        return NULL;
    }
    switch (kind) {
    case TRIVET_KIND_JOINT:
        return frame->joints[index].name;
    case TRIVET_KIND_STOCK:
        return frame->stocks[index].name;
    case TRIVET_KIND_TUBE:
        return frame->tubes[index].name;
    case TRIVET_KIND_MOUNT:
        return frame->joints[frame->mounts[index].joint].name;
    case TRIVET_KIND_CARGO:
        return frame->cargos[index].name;
    case TRIVET_KIND_CASE:
        return frame->cases[index].name;
    case TRIVET_KIND_COMBINATION:
        return frame->combinations[index].name;
    case TRIVET_KIND_DECK:
        return frame->decks[index].name;
    case TRIVET_KIND_CYCLES:
        return frame->cycles[index].name;
    default:
        return NULL;
    }
}

/* Where the names of a kind are kept; mounts bear those of their joints. */
static const trivet__names *names_of(const trivet_frame *frame, int32_t kind)
{
    switch (kind) {
    case TRIVET_KIND_STOCK:
        return &frame->stock_names;
    case TRIVET_KIND_TUBE:
        return &frame->tube_names;
    case TRIVET_KIND_CARGO:
        return &frame->cargo_names;
    case TRIVET_KIND_DECK:
        return &frame->deck_names;
    case TRIVET_KIND_CYCLES:
        return &frame->cycles_names;
    case TRIVET_KIND_CASE:
    case TRIVET_KIND_COMBINATION:
        return &frame->case_names;
    default:
        return &frame->joint_names;
    }
}

static int32_t find_index(const trivet_frame *frame, int32_t kind, const char *name)
{
    const trivet__names *const names = names_of(frame, kind);
    const int32_t place = trivet__names_find(names, name);
    if (place < 0) {
        return -1;
    }
    const int32_t number = names->list[place].number;
    if (kind == TRIVET_KIND_MOUNT) {
        return trivet__joint_mount(frame, number);
    }
    if (kind == TRIVET_KIND_COMBINATION) {
        return number < 0 ? -1 - number : -1;
    }
    return number < 0 ? -1 : number;
}

static trivet_status refuse_unknown(const trivet_frame *frame, int32_t kind, const char *name,
                                    trivet_message *message)
{
    trivet__nearest search = {name, NULL, 0.0};
    const int32_t count = trivet_frame_count(frame, kind);
    for (int32_t i = 0; message && i < count; i++) {
        trivet__nearest_offer(&search, trivet_frame_name(frame, kind, i));
    }
    trivet__refuse_thing(message, TRIVET_BAD_NAME, trivet_kind_text(kind), name, "",
                         "check the spelling, or add it");
    trivet__message_problem(message, "there %s no %s of this name",
                            kind == TRIVET_KIND_CYCLES ? "are" : "is", trivet_kind_text(kind));
    if (search.nearest) {
        trivet__message_remedy(message, "did you mean %s?", search.nearest);
    }
    return TRIVET_BAD_NAME;
}

trivet_status trivet_frame_find(const trivet_frame *frame, int32_t kind, const char *name,
                                int32_t *index_out, trivet_message *message)
{
    if (index_out) {
        *index_out = -1;
    }
    if (!frame || !name || !index_out) {
        return trivet__missing(message, !frame ? "frame" : !name ? "name" : "index_out");
    }
    if (!trivet__is_kind(kind)) {
        trivet__refuse(message, TRIVET_BAD_NAME, "", "there is no such kind of thing",
                       "use one of the kinds that the header lists");
        trivet__message_thing(message, "kind %d", (int)kind);
        return TRIVET_BAD_NAME;
    }
    const int32_t index = find_index(frame, kind, name);
    if (index < 0) {
        return refuse_unknown(frame, kind, name, message);
    }
    *index_out = index;
    return TRIVET_OK;
}

trivet_status trivet__new_name_check(const trivet_frame *frame, int32_t kind, const char *name,
                                     trivet_message *message)
{
    const char *const word = trivet_kind_text(kind);
    const trivet_status status = trivet__name_check(word, name, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__names *const names = names_of(frame, kind);
    const int32_t place = trivet__names_find(names, name);
    if (place < 0) {
        return TRIVET_OK;
    }
    const char *owner = word;
    if (names == &frame->case_names) {
        owner = names->list[place].number < 0 ? "combination" : "case";
    }
    trivet__refuse_thing(message, TRIVET_BAD_NAME, word, name, "", "choose another name");
    trivet__message_problem(message, "there %s %s of this name already",
                            kind == TRIVET_KIND_CYCLES ? "are" : "is a", owner);
    return TRIVET_BAD_NAME;
}

double trivet_frame_mass(const trivet_frame *frame)
{
    if (!frame) {
        return (double)NAN;
    }
    double mass = 0.0;
    for (int32_t i = 0; i < frame->tube_count; i++) {
        mass += trivet_frame_tube_mass(frame, i);
    }
    return mass;
}
