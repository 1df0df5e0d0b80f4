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

void trivet_frame_free(trivet_frame *frame)
{
    if (frame) {
        trivet__pool_clear(&frame->pool);
        trivet__pool_clear(&frame->scratch);
        trivet__give_back(frame->known);
        trivet__give_back(frame);
    }
}

void trivet_frame_clear(trivet_frame *frame)
{
    if (frame) {
        trivet__keep_sections(frame);
        trivet__pool_rewind(&frame->pool);
        *frame = (trivet_frame){.pool = frame->pool,
                                .scratch = frame->scratch,
                                .known = frame->known,
                                .known_count = frame->known_count,
                                .known_capacity = frame->known_capacity};
    }
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
