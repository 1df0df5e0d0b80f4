/*
 * Names in an open-addressing table (linear probing) over FNV-1a hashes. Slots hold places in the
 * list, so that growing the table moves small numbers only. At most half of the slots are taken.
 */
#include "frame/names.h"

#include "base/text.h"
#include "frame/border.h"
#include "frame/fnv.h"

#include <string.h>

/* The slot of a name: the one that holds it, or the empty one where it would go. */
static size_t find_slot(const trivet__name *list, const int32_t *slots, size_t slot_count,
                        const char *text)
{
    size_t slot = (size_t)trivet__fnv_text(TRIVET__FNV_START, text) & (slot_count - 1);
    while (slots[slot] >= 0 && strcmp(list[slots[slot]].text, text) != 0) {
        slot = (slot + 1) & (slot_count - 1);
    }
    return slot;
}

int32_t trivet__names_find(const trivet__names *names, const char *text)
{
    if (names->slot_count == 0) {
        return -1;
    }
    return names->slots[find_slot(names->list, names->slots, names->slot_count, text)];
}

/* Makes sure that one more name leaves half of the slots empty. */
static int widen_slots(trivet__names *names, trivet__pool *pool)
{
    enum { FIRST_SLOTS = 16 };
    if (2 * ((size_t)names->count + 1) <= names->slot_count) {
        return 1;
    }
    const size_t wider = names->slot_count > 0 ? 2 * names->slot_count : FIRST_SLOTS;
    int32_t *const slots = trivet__pool_take(pool, wider, sizeof *slots);
    if (!slots) {
        return 0;
    }
    for (size_t i = 0; i < wider; i++) {
        slots[i] = -1;
    }
    for (int32_t i = 0; i < names->count; i++) {
        slots[find_slot(names->list, slots, wider, names->list[i].text)] = i;
    }
    names->slots = slots;
    names->slot_count = wider;
    return 1;
}

const char *trivet__names_add(trivet__names *names, trivet__pool *pool, const char *text,
                              int32_t number)
{
    trivet__name *const list =
        trivet__grown(pool, names->list, names->count, &names->capacity, sizeof *list);
    if (!list) {
        return NULL;
    }
    names->list = list;
    if (!widen_slots(names, pool)) {
        return NULL;
    }
    trivet__name *const name = &list[names->count];
    const size_t size = strlen(text) + 1;
    char *const copy = trivet__pool_refit(pool, name->text, &name->room, size, 1);
    if (!copy) {
        return NULL;
    }
    memcpy(copy, text, size);
    names->slots[find_slot(list, names->slots, names->slot_count, copy)] = names->count;
    name->text = copy;
    name->number = number;
    names->count++;
    return copy;
}

/* Slots were filled in the order of the list, so no name was probed past one added after it. */
void trivet__names_cut(trivet__names *names, int32_t count)
{
    while (names->count > count) {
        const char *const text = names->list[names->count - 1].text;
        names->slots[find_slot(names->list, names->slots, names->slot_count, text)] = -1;
        names->count--;
    }
}

/* A line break or an escape sequence in a name would spoil every message that prints it. */
static int has_control(const char *text)
{
    enum { DELETE = 0x7f };
    for (const char *c = text; *c != '\0'; c++) {
        const unsigned char byte = (unsigned char)*c;
        if (byte < ' ' || byte == DELETE) {
            return 1;
        }
    }
    return 0;
}

trivet_status trivet__name_check(const char *kind, const char *text, trivet_message *message)
{
    if (!text) {
        return trivet__missing(message, "name");
    }
    const size_t length = strlen(text);
    if (length == 0) {
        return trivet__refuse(message, TRIVET_BAD_NAME, kind, "the name is empty",
                              "give it a name");
    }
    if (length >= TRIVET_NAME_MAX) {
        const trivet_status status =
            trivet__refuse(message, TRIVET_BAD_NAME, kind, "", "choose a shorter name");
        trivet__message_problem(message, "the name is %zu bytes long, at most %d fit", length,
                                TRIVET_NAME_MAX - 1);
        return status;
    }
    size_t bad_at = 0;
    if (!trivet__text_is_utf8(text, length, &bad_at)) {
        const trivet_status status =
            trivet__refuse(message, TRIVET_BAD_NAME, kind, "", "write it in UTF-8");
        trivet__message_problem(message, "the name is not UTF-8 from byte %zu on", bad_at + 1);
        return status;
    }
    if (has_control(text)) {
        return trivet__refuse(message, TRIVET_BAD_NAME, kind,
                              "the name has a character that cannot be printed",
                              "leave out line breaks, tabs and the like");
    }
    return TRIVET_OK;
}
