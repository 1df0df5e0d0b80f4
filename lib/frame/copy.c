/*
 * A copy of a whole frame, list by list.
 *
 * The copy begins with the pointers of the other frame; then one after the other is pointed to
 * memory of its own. The functions below return whether there was memory.
 */
#include "base/message.h"
#include "frame/frame.h"

#include <string.h>

/* A copy of count elements of size bytes, or NULL if there is no memory. */
static void *copied(trivet__pool *pool, const void *from, size_t count, size_t size)
{
    void *const copy = trivet__pool_take(pool, count, size);
    if (copy && count > 0) {
        memcpy(copy, from, count * size);
    }
    return copy;
}

/* Points a list to a copy of what it points to; not 0 if there was memory. */
#define OWN(pool, list, count) ((list) = copied(pool, list, (size_t)(count), sizeof *(list)))

/* The same for a text that may be missing. */
static int own_text(trivet__pool *pool, const char **text)
{
    *text = *text ? trivet__pool_text(pool, *text, strlen(*text)) : NULL;
    return *text != NULL;
}

static int own_names(trivet__pool *pool, trivet__names *names)
{
    names->capacity = (size_t)names->count;
    if (!OWN(pool, names->list, names->count) || !OWN(pool, names->slots, names->slot_count)) {
        return 0;
    }
    for (int32_t i = 0; i < names->count; i++) {
        trivet__name *const name = &names->list[i];
        name->room = strlen(name->text) + 1;
        if (!OWN(pool, name->text, name->room)) {
            return 0;
        }
    }
    return 1;
}

static int own_all_names(trivet_frame *to)
{
    return own_names(&to->pool, &to->joint_names) && own_names(&to->pool, &to->stock_names) &&
           own_names(&to->pool, &to->tube_names) && own_names(&to->pool, &to->cargo_names) &&
           own_names(&to->pool, &to->deck_names) && own_names(&to->pool, &to->cycles_names) &&
           own_names(&to->pool, &to->case_names);
}

static int own_lists(trivet_frame *to)
{
    to->joint_capacity = (size_t)to->joint_count;
    to->stock_capacity = (size_t)to->stock_count;
    to->tube_capacity = (size_t)to->tube_count;
    to->mount_capacity = (size_t)to->mount_count;
    to->cargo_capacity = (size_t)to->cargo_count;
    to->case_capacity = (size_t)to->case_count;
    to->combination_capacity = (size_t)to->combination_count;
    to->deck_capacity = (size_t)to->deck_count;
    to->bolts_capacity = (size_t)to->bolts_count;
    to->cycles_capacity = (size_t)to->cycles_count;
    to->gap_capacity = (size_t)to->gap_count;
    return OWN(&to->pool, to->joints, to->joint_count) &&
           OWN(&to->pool, to->stocks, to->stock_count) &&
           OWN(&to->pool, to->tubes, to->tube_count) &&
           OWN(&to->pool, to->mounts, to->mount_count) &&
           OWN(&to->pool, to->cargos, to->cargo_count) &&
           OWN(&to->pool, to->cases, to->case_count) &&
           OWN(&to->pool, to->combinations, to->combination_count) &&
           OWN(&to->pool, to->decks, to->deck_count) &&
           OWN(&to->pool, to->bolts, to->bolts_count) &&
           OWN(&to->pool, to->cycles, to->cycles_count) && OWN(&to->pool, to->gaps, to->gap_count);
}

static int own_tube(trivet__pool *pool, trivet__tube *tube)
{
    tube->insert_capacity = (size_t)tube->insert_count;
    return OWN(pool, tube->joints, tube->joint_count) &&
           OWN(pool, tube->offsets, 3 * (size_t)tube->joint_count) &&
           OWN(pool, tube->inserts, tube->insert_count);
}

static int own_cargo(trivet__pool *pool, trivet__cargo *cargo)
{
    cargo->item_capacity = (size_t)cargo->item_count;
    int is_own =
        OWN(pool, cargo->joints, cargo->joint_count) && OWN(pool, cargo->items, cargo->item_count);
    for (int32_t i = 0; i < cargo->item_count && is_own; i++) {
        is_own = own_text(pool, &cargo->items[i].name);
    }
    return is_own;
}

static int own_case(trivet_frame *to, trivet__case *of)
{
    trivet__pool *const pool = &to->pool;
    of->cargo_factor_capacity = (size_t)to->cargo_count;
    of->mount_move_capacity = (size_t)to->mount_count;
    of->joint_force_capacity = (size_t)of->joint_force_count;
    of->cargo_force_capacity = (size_t)of->cargo_force_count;
    of->tube_force_capacity = (size_t)of->tube_force_count;
    of->tube_line_capacity = (size_t)of->tube_line_count;
    of->told = (trivet__replaced){NULL, NULL, 0, 0};
    return OWN(pool, of->cargo_factors, of->cargo_factor_capacity) &&
           OWN(pool, of->mount_moves, 6 * of->mount_move_capacity) &&
           OWN(pool, of->joint_forces, of->joint_force_count) &&
           OWN(pool, of->cargo_forces, of->cargo_force_count) &&
           OWN(pool, of->tube_forces, of->tube_force_count) &&
           OWN(pool, of->tube_lines, of->tube_line_count) &&
           (!of->story || (own_text(pool, &of->story) && own_text(pool, &of->source)));
}

static int own_deck(trivet__pool *pool, trivet__deck *deck)
{
    deck->plate = (trivet__replaced){NULL, NULL, 0, 0};
    return OWN(pool, deck->joints, deck->joint_count) &&
           OWN(pool, deck->corners, 2 * (size_t)deck->corner_count) &&
           OWN(pool, deck->slots, deck->slot_count);
}

static int own_gap(trivet__pool *pool, trivet__gap *gap)
{
    gap->text = NULL;
    gap->room = 0;
    return own_text(pool, &gap->what) && own_text(pool, &gap->why);
}

/* What the elements of the lists point to. */
static int own_elements(trivet_frame *to)
{
    trivet__pool *const pool = &to->pool;
    int is_own = 1;
    for (int32_t i = 0; i < to->tube_count && is_own; i++) {
        is_own = own_tube(pool, &to->tubes[i]);
    }
    for (int32_t i = 0; i < to->cargo_count && is_own; i++) {
        is_own = own_cargo(pool, &to->cargos[i]);
    }
    for (int32_t i = 0; i < to->case_count && is_own; i++) {
        is_own = own_case(to, &to->cases[i]);
    }
    for (int32_t i = 0; i < to->combination_count && is_own; i++) {
        trivet__combination *const of = &to->combinations[i];
        is_own = OWN(pool, of->cases, of->case_count) && OWN(pool, of->factors, of->case_count);
    }
    for (int32_t i = 0; i < to->deck_count && is_own; i++) {
        is_own = own_deck(pool, &to->decks[i]);
    }
    for (int32_t i = 0; i < to->gap_count && is_own; i++) {
        is_own = own_gap(pool, &to->gaps[i]);
    }
    return is_own;
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
    const trivet_status status = trivet_frame_new(&copy, message);
    if (status != TRIVET_OK) {
        return status;
    }
    *copy = *frame;
    copy->pool = copy->scratch = (trivet__pool){NULL, NULL};
    copy->known = NULL;
    copy->known_count = 0;
    copy->known_capacity = 0;
    if (!own_lists(copy) || !own_all_names(copy) || !own_elements(copy)) {
        trivet_frame_free(copy);
        return trivet__no_memory(message);
    }
    take_names(copy);
    *copy_out = copy;
    return TRIVET_OK;
}
