/*
 * A copy of a whole frame, array by array.
 *
 * The functions below fill the copy so far that freeing it frees what there is of it: a count rises
 * when an element is owned, and what the element does not own yet is NULL. They return whether
 * there was memory.
 */
#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "frame/frame.h"

#include <string.h>

/* A copy of count elements of size bytes, or NULL if there is no memory. */
static void *copied(const void *from, size_t count, size_t size)
{
    void *const copy = trivet__take(count, size);
    if (copy && count > 0) {
        memcpy(copy, from, count * size);
    }
    return copy;
}

static int copy_names(const trivet__names *from, trivet__names *to)
{
    to->list = trivet__take((size_t)from->count, sizeof *to->list);
    to->slots = copied(from->slots, from->slot_count, sizeof *to->slots);
    if (!to->list || !to->slots) {
        return 0;
    }
    to->capacity = (size_t)from->count;
    to->slot_count = from->slot_count;
    for (int32_t i = 0; i < from->count; i++) {
        to->list[i].text = trivet__text_keep(from->list[i].text, strlen(from->list[i].text));
        if (!to->list[i].text) {
            return 0;
        }
        to->list[i].number = from->list[i].number;
        to->count++;
    }
    return 1;
}

static int copy_all_names(const trivet_frame *from, trivet_frame *to)
{
    return copy_names(&from->joint_names, &to->joint_names) &&
           copy_names(&from->stock_names, &to->stock_names) &&
           copy_names(&from->tube_names, &to->tube_names) &&
           copy_names(&from->cargo_names, &to->cargo_names) &&
           copy_names(&from->deck_names, &to->deck_names) &&
           copy_names(&from->cycles_names, &to->cycles_names) &&
           copy_names(&from->case_names, &to->case_names);
}

/* Things that own nothing but their place in a list. */
static int copy_plain(const trivet_frame *from, trivet_frame *to)
{
    to->joints = copied(from->joints, (size_t)from->joint_count, sizeof *to->joints);
    to->stocks = copied(from->stocks, (size_t)from->stock_count, sizeof *to->stocks);
    to->mounts = copied(from->mounts, (size_t)from->mount_count, sizeof *to->mounts);
    to->bolts = copied(from->bolts, (size_t)from->bolts_count, sizeof *to->bolts);
    to->cycles = copied(from->cycles, (size_t)from->cycles_count, sizeof *to->cycles);
    if (!to->joints || !to->stocks || !to->mounts || !to->bolts || !to->cycles) {
        return 0;
    }
    to->joint_count = from->joint_count;
    to->stock_count = from->stock_count;
    to->mount_count = from->mount_count;
    to->bolts_count = from->bolts_count;
    to->cycles_count = from->cycles_count;
    to->joint_capacity = (size_t)from->joint_count;
    to->stock_capacity = (size_t)from->stock_count;
    to->mount_capacity = (size_t)from->mount_count;
    to->bolts_capacity = (size_t)from->bolts_count;
    to->cycles_capacity = (size_t)from->cycles_count;
    return 1;
}

static int copy_tube(const trivet__tube *from, trivet__tube *to)
{
    const size_t joint_count = (size_t)from->joint_count;
    *to = *from;
    to->joints = copied(from->joints, joint_count, sizeof *to->joints);
    to->offsets = copied(from->offsets, joint_count, 3 * sizeof *to->offsets);
    to->inserts = copied(from->inserts, (size_t)from->insert_count, sizeof *to->inserts);
    to->insert_capacity = (size_t)from->insert_count;
    return to->joints && to->offsets && to->inserts;
}

static int copy_tubes(const trivet_frame *from, trivet_frame *to)
{
    to->tubes = trivet__take((size_t)from->tube_count, sizeof *to->tubes);
    if (!to->tubes) {
        return 0;
    }
    to->tube_capacity = (size_t)from->tube_count;
    for (int32_t i = 0; i < from->tube_count; i++) {
        to->tube_count++;
        if (!copy_tube(&from->tubes[i], &to->tubes[i])) {
            return 0;
        }
    }
    return 1;
}

static int copy_cargo(const trivet__cargo *from, trivet__cargo *to)
{
    *to = *from;
    to->item_count = 0;
    to->item_capacity = (size_t)from->item_count;
    to->joints = copied(from->joints, (size_t)from->joint_count, sizeof *to->joints);
    to->items = trivet__take((size_t)from->item_count, sizeof *to->items);
    if (!to->joints || !to->items) {
        return 0;
    }
    for (int32_t i = 0; i < from->item_count; i++) {
        const trivet__item *const item = &from->items[i];
        to->items[i].name = trivet__text_keep(item->name, strlen(item->name));
        if (!to->items[i].name) {
            return 0;
        }
        to->items[i].mass = item->mass;
        to->item_count++;
    }
    return 1;
}

static int copy_cargos(const trivet_frame *from, trivet_frame *to)
{
    to->cargos = trivet__take((size_t)from->cargo_count, sizeof *to->cargos);
    if (!to->cargos) {
        return 0;
    }
    to->cargo_capacity = (size_t)from->cargo_count;
    for (int32_t i = 0; i < from->cargo_count; i++) {
        to->cargo_count++;
        if (!copy_cargo(&from->cargos[i], &to->cargos[i])) {
            return 0;
        }
    }
    return 1;
}

/* A text that may be missing. */
static int copy_text(const char *from, char **to)
{
    *to = from ? trivet__text_keep(from, strlen(from)) : NULL;
    return !from || *to;
}

static int copy_case(const trivet__case *from, size_t cargo_count, size_t mount_count,
                     trivet__case *to)
{
    const size_t joint_forces = (size_t)from->joint_force_count;
    const size_t cargo_forces = (size_t)from->cargo_force_count;
    const size_t tube_forces = (size_t)from->tube_force_count;
    const size_t tube_lines = (size_t)from->tube_line_count;
    *to = *from;
    to->story = to->source = NULL;
    to->cargo_factors = copied(from->cargo_factors, cargo_count, sizeof *to->cargo_factors);
    to->mount_moves = copied(from->mount_moves, mount_count, 6 * sizeof *to->mount_moves);
    to->joint_forces = copied(from->joint_forces, joint_forces, sizeof *to->joint_forces);
    to->cargo_forces = copied(from->cargo_forces, cargo_forces, sizeof *to->cargo_forces);
    to->tube_forces = copied(from->tube_forces, tube_forces, sizeof *to->tube_forces);
    to->tube_lines = copied(from->tube_lines, tube_lines, sizeof *to->tube_lines);
    to->cargo_factor_capacity = cargo_count;
    to->mount_move_capacity = mount_count;
    to->joint_force_capacity = joint_forces;
    to->cargo_force_capacity = cargo_forces;
    to->tube_force_capacity = tube_forces;
    to->tube_line_capacity = tube_lines;
    return to->cargo_factors && to->mount_moves && to->joint_forces && to->cargo_forces &&
           to->tube_forces && to->tube_lines && copy_text(from->story, &to->story) &&
           copy_text(from->source, &to->source);
}

static int copy_gaps(const trivet_frame *from, trivet_frame *to)
{
    to->gaps = trivet__take((size_t)from->gap_count, sizeof *to->gaps);
    if (!to->gaps) {
        return 0;
    }
    to->gap_capacity = (size_t)from->gap_count;
    for (int32_t i = 0; i < from->gap_count; i++) {
        to->gap_count++;
        if (!copy_text(from->gaps[i].what, &to->gaps[i].what) ||
            !copy_text(from->gaps[i].why, &to->gaps[i].why)) {
            return 0;
        }
    }
    return 1;
}

static int copy_cases(const trivet_frame *from, trivet_frame *to)
{
    to->cases = trivet__take((size_t)from->case_count, sizeof *to->cases);
    if (!to->cases) {
        return 0;
    }
    to->case_capacity = (size_t)from->case_count;
    for (int32_t i = 0; i < from->case_count; i++) {
        to->case_count++;
        if (!copy_case(&from->cases[i], (size_t)from->cargo_count, (size_t)from->mount_count,
                       &to->cases[i])) {
            return 0;
        }
    }
    return 1;
}

static int copy_combinations(const trivet_frame *from, trivet_frame *to)
{
    to->combinations = trivet__take((size_t)from->combination_count, sizeof *to->combinations);
    if (!to->combinations) {
        return 0;
    }
    to->combination_capacity = (size_t)from->combination_count;
    for (int32_t i = 0; i < from->combination_count; i++) {
        const trivet__combination *const of = &from->combinations[i];
        trivet__combination *const made = &to->combinations[i];
        made->case_count = of->case_count;
        made->cases = copied(of->cases, (size_t)of->case_count, sizeof *made->cases);
        made->factors = copied(of->factors, (size_t)of->case_count, sizeof *made->factors);
        to->combination_count++;
        if (!made->cases || !made->factors) {
            return 0;
        }
    }
    return 1;
}

static int copy_decks(const trivet_frame *from, trivet_frame *to)
{
    to->decks = trivet__take((size_t)from->deck_count, sizeof *to->decks);
    if (!to->decks) {
        return 0;
    }
    to->deck_capacity = (size_t)from->deck_count;
    for (int32_t i = 0; i < from->deck_count; i++) {
        const trivet__deck *const of = &from->decks[i];
        trivet__deck *const made = &to->decks[i];
        made->joint_count = of->joint_count;
        made->joints = copied(of->joints, (size_t)of->joint_count, sizeof *made->joints);
        made->corners = copied(of->corners, (size_t)of->corner_count, 2 * sizeof *made->corners);
        made->slots = copied(of->slots, (size_t)of->slot_count, sizeof *made->slots);
        made->corner_count = of->corner_count;
        made->slot_count = of->slot_count;
        made->edge = of->edge;
        to->deck_count++;
        if (!made->joints || !made->corners || !made->slots) {
            return 0;
        }
    }
    return 1;
}

/* Points every thing to the copy's own text of its name. */
static void take_names(trivet_frame *to)
{
    for (int32_t i = 0; i < to->joint_names.count; i++) {
        to->joints[to->joint_names.list[i].number].name = to->joint_names.list[i].text;
    }
    for (int32_t i = 0; i < to->stock_names.count; i++) {
        to->stocks[to->stock_names.list[i].number].name = to->stock_names.list[i].text;
    }
    for (int32_t i = 0; i < to->tube_names.count; i++) {
        to->tubes[to->tube_names.list[i].number].name = to->tube_names.list[i].text;
    }
    for (int32_t i = 0; i < to->cargo_names.count; i++) {
        to->cargos[to->cargo_names.list[i].number].name = to->cargo_names.list[i].text;
    }
    for (int32_t i = 0; i < to->deck_names.count; i++) {
        to->decks[to->deck_names.list[i].number].name = to->deck_names.list[i].text;
    }
    for (int32_t i = 0; i < to->cycles_names.count; i++) {
        to->cycles[to->cycles_names.list[i].number].name = to->cycles_names.list[i].text;
    }
    for (int32_t i = 0; i < to->case_names.count; i++) {
        const trivet__name *const name = &to->case_names.list[i];
        if (name->number < 0) {
            to->combinations[-1 - name->number].name = name->text;
        } else {
            to->cases[name->number].name = name->text;
        }
    }
}

trivet_status trivet_frame_copy(const trivet_frame *frame, trivet_frame **copy_out,
                                trivet_message *message)
{
    if (copy_out) {
        *copy_out = NULL;
    }
    if (!frame || !copy_out) {
        return trivet__missing(message, frame ? "copy_out" : "frame");
    }
    trivet_frame *copy = NULL;
    trivet_status status = trivet_frame_new(&copy, message);
    if (status != TRIVET_OK) {
        goto done;
    }
    if (!copy_all_names(frame, copy) || !copy_plain(frame, copy) || !copy_tubes(frame, copy) ||
        !copy_cargos(frame, copy) || !copy_cases(frame, copy) || !copy_combinations(frame, copy) ||
        !copy_decks(frame, copy) || !copy_gaps(frame, copy)) {
        status = trivet__no_memory(message);
        goto done;
    }
    copy->vehicle = frame->vehicle;
    copy->usages = frame->usages;
    take_names(copy);
    *copy_out = copy;
    copy = NULL;
done:
    trivet_frame_free(copy);
    return status;
}
