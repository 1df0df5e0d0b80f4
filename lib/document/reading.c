/*
 * Questions that all sections ask: is it a map, a list, a known key, a name, one of these words.
 */
#include "document/reading.h"

#include "base/text.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

const char *trivet__meant(const trivet__nearest *search)
{
    enum { SHORT = 2 };
    const int is_short = strlen(search->wish) <= SHORT;
    return search->nearest && (!is_short || search->distance < 1.0) ? search->nearest : NULL;
}

void trivet__thing_set(trivet__thing *thing, const char *kind, const char *name)
{
    *thing = (trivet__thing){.word = kind, .name = name};
}

void trivet__thing_key(trivet__thing *thing_out, const trivet__thing *within, const char *key)
{
    *thing_out = (trivet__thing){.word = key, .within = within};
}

void trivet__thing_named(trivet__thing *thing, const char *kind, const trivet__node *name)
{
    *thing = (trivet__thing){.word = kind, .node = name};
}

void trivet__thing_pair(trivet__thing *thing_out, const trivet__thing *within,
                        const trivet__node *name)
{
    *thing_out = (trivet__thing){.node = name, .within = within};
}

void trivet__thing_item(trivet__thing *thing_out, const trivet__thing *within, const char *what,
                        int32_t number)
{
    *thing_out = (trivet__thing){.word = what, .number = number, .within = within};
}

/* Appends to text, whose length is *at. */
static void append(char text[TRIVET_THING_MAX], size_t *at, const char *separator, const char *more)
{
    *at += trivet__text_print(text + *at, TRIVET_THING_MAX - *at, "%s%s",
                              *at > 0 && more[0] ? separator : "", more);
}

/* In words, those that it stands within first. They are few. */
static void put_into_words(const trivet__reading *reading, const trivet__thing *thing,
                           char text[TRIVET_THING_MAX])
{
    enum { DEPTH_MAX = 16 };
    const trivet__thing *chain[DEPTH_MAX];
    int32_t depth = 0;
    size_t at = 0;
    text[0] = '\0';
    for (; thing && depth < DEPTH_MAX; thing = thing->within) {
        chain[depth++] = thing;
    }
    while (depth > 0) {
        const trivet__thing *const one = chain[--depth];
        char shown[TRIVET__SHOWN_MAX] = "";
        const char *const separator = one->word && one->word[0] ? " " : ", ";
        append(text, &at, ", ", one->word ? one->word : "");
        if (one->number != 0) {
            trivet__text_print(shown, sizeof shown, "%d", (int)one->number);
        } else if (one->node) {
            trivet__shown(reading, one->node, shown);
        }
        append(text, &at, separator, one->name ? one->name : shown);
    }
}

void trivet__tell_thing(const trivet__reading *reading, const trivet__thing *thing)
{
    put_into_words(reading, thing, reading->message->thing);
}

static int is_nowhere(const trivet__thing *thing)
{
    return !thing->within && !(thing->word && thing->word[0]) && !thing->name && !thing->node;
}

trivet_status trivet__complain(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing, trivet_status status)
{
    trivet__refuse(reading->message, status, "", "", "");
    trivet__tell_thing(reading, thing);
    if (node) {
        reading->message->line = node->line;
        reading->message->column = node->column;
    }
    return status;
}

trivet_status trivet__refuse_node(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, trivet_status status,
                                  const char *problem, const char *remedy)
{
    trivet__complain(reading, node, thing, status);
    trivet__message_problem(reading->message, "%s", problem);
    trivet__message_remedy(reading->message, "%s", remedy);
    return status;
}

trivet_status trivet__locate(const trivet__reading *reading, const trivet__node *node,
                             trivet_status status)
{
    if (status && status != TRIVET_NO_MEMORY && node && reading->message->line == 0) {
        reading->message->line = node->line;
        reading->message->column = node->column;
    }
    return status;
}

const char *trivet__shown(const trivet__reading *reading, const trivet__node *node,
                          char shown[TRIVET__SHOWN_MAX])
{
    return trivet__tree_show(reading->tree, node, shown);
}

trivet_status trivet__add_unused(const trivet__reading *reading, const trivet__thing *thing,
                                 const char *key)
{
    trivet__thing whole;
    char words[TRIVET_THING_MAX];
    trivet__thing_key(&whole, thing, key);
    put_into_words(reading, &whole, words);
    char *const text = trivet__keep(reading->document, words);
    if (!text || !trivet__note(reading->document, &reading->document->unused, &text, sizeof text)) {
        return trivet__no_memory(reading->message);
    }
    return TRIVET_OK;
}

trivet_status trivet__add_place(const trivet__reading *reading, int32_t kind,
                                const trivet__node *node)
{
    assert(kind > 0 && kind < TRIVET__KIND_COUNT);
    trivet__places *const places = &reading->document->places[kind];
    void *list = places->list;
    if (!trivet__pool_make_room(&reading->document->pool, &list, places->count, &places->capacity,
                                sizeof *places->list)) {
        return trivet__no_memory(reading->message);
    }
    places->list = list;
    places->list[places->count].line = node->line;
    places->list[places->count].column = node->column;
    places->count++;
    return TRIVET_OK;
}

trivet_status trivet__add_load(const trivet__reading *reading, const trivet__load_note *load)
{
    return trivet__note(reading->document, &reading->document->loads, load, sizeof *load)
               ? TRIVET_OK
               : trivet__no_memory(reading->message);
}

static const char *kind_words(const trivet__reading *reading, const trivet__node *node)
{
    if (trivet__tree_is_nothing(reading->tree, node)) {
        return "is empty";
    }
    switch (node->kind) {
    case TRIVET__LIST:
        return "is a list";
    case TRIVET__MAP:
        return "is a group of keys";
    default:
        return "is a single value";
    }
}

static trivet_status refuse_kind(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__thing *thing, const char *needed, const char *sample)
{
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_SYNTAX);
    trivet__message_problem(reading->message, "%s, where %s is needed", kind_words(reading, node),
                            needed);
    trivet__message_remedy(reading->message, "write it as %s", sample);
    return status;
}

trivet_status trivet__need_map(const trivet__reading *reading, const trivet__node *node,
                               const trivet__thing *thing)
{
    if (node->kind == TRIVET__MAP) {
        return TRIVET_OK;
    }
    return refuse_kind(reading, node, thing, "a group of keys", "{key: value, ...}");
}

trivet_status trivet__need_list(const trivet__reading *reading, const trivet__node *node,
                                const trivet__thing *thing, const char *sample)
{
    if (node->kind == TRIVET__LIST) {
        return TRIVET_OK;
    }
    return refuse_kind(reading, node, thing, "a list", sample);
}

trivet_status trivet__need_scalar(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing)
{
    if (node->kind == TRIVET__SCALAR && !trivet__tree_is_nothing(reading->tree, node)) {
        return TRIVET_OK;
    }
    return refuse_kind(reading, node, thing, "a single value", "key: value");
}

const trivet__node *trivet__member(const trivet__reading *reading, const trivet__node *node,
                                   const char *key)
{
    return trivet__tree_value(reading->tree, node, key);
}

/* The remedy for a key that is not in a table. */
static void advise_key(const trivet__reading *reading, const char *wish, const trivet__key *keys,
                       int32_t count)
{
    trivet__nearest search = {wish, NULL, 0};
    for (int32_t i = 0; i < count; i++) {
        trivet__nearest_offer(&search, keys[i].name);
    }
    if (trivet__meant(&search)) {
        trivet__message_remedy(reading->message, "did you mean \"%s\"?", search.nearest);
        return;
    }
    if (strchr(wish, ':')) {
        trivet__message_remedy(reading->message, "write a blank after the colon");
        return;
    }
    char known[TRIVET_REMEDY_MAX] = "";
    size_t length = 0;
    for (int32_t i = 0; i < count && length < sizeof known; i++) {
        length += trivet__text_print(known + length, sizeof known - length, "%s%s",
                                     i > 0 ? ", " : "", keys[i].name);
    }
    trivet__message_remedy(reading->message, "known here: %s", known);
}

static trivet_status refuse_key(const trivet__reading *reading, const trivet__node *name,
                                const trivet__thing *thing, const trivet__key *keys, int32_t count)
{
    char shown[TRIVET__SHOWN_MAX];
    const trivet__thing file = {.word = "the file"};
    const trivet_status status =
        trivet__complain(reading, name, is_nowhere(thing) ? &file : thing, TRIVET_BAD_KEY);
    trivet__message_problem(reading->message, "the key \"%s\" is not known here",
                            trivet__shown(reading, name, shown));
    advise_key(reading, trivet__tree_text(reading->tree, name), keys, count);
    return status;
}

static trivet_status refuse_missing(const trivet__reading *reading, const trivet__node *node,
                                    const trivet__thing *thing, const trivet__key *key)
{
    const trivet__thing file = {.word = "the file"};
    const trivet_status status =
        trivet__complain(reading, node, is_nowhere(thing) ? &file : thing, TRIVET_INCOMPLETE);
    trivet__message_problem(reading->message, "\"%s\" is missing", key->name);
    trivet__message_remedy(reading->message, "add it, such as %s: %s", key->name, key->sample);
    return status;
}

static trivet_status check_present(const trivet__reading *reading, const trivet__node *node,
                                   const trivet__thing *thing, const trivet__key *keys,
                                   int32_t count)
{
    trivet__pair pair = trivet__tree_first_pair(reading->tree, node);
    for (; pair.name; pair = trivet__tree_next_pair(reading->tree, pair)) {
        const trivet__node *const value = pair.value;
        const trivet__key *const key =
            trivet__key_find(keys, count, trivet__tree_text(reading->tree, pair.name));
        if (!key) {
            return refuse_key(reading, pair.name, thing, keys, count);
        }
        const int is_empty = value->kind == TRIVET__SCALAR
                                 ? trivet__tree_is_nothing(reading->tree, value)
                                 : value->first < 0;
        if (key->use == TRIVET__LATER && !is_empty) {
            const trivet_status status = trivet__add_unused(reading, thing, key->name);
            if (status) {
                return status;
            }
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__check_keys(const trivet__reading *reading, const trivet__node *node,
                                 const trivet__node *name, const trivet__thing *thing,
                                 trivet__key_place place)
{
    if (reading->compiled) {
        return TRIVET_OK; /* they were looked at when it was compiled */
    }
    int32_t count = 0;
    const trivet__key *const keys = trivet__keys_of(place, &count);
    const int is_nothing = trivet__tree_is_nothing(reading->tree, node);
    trivet_status status = is_nothing ? TRIVET_OK : trivet__need_map(reading, node, thing);
    if (!status && !is_nothing) {
        status = check_present(reading, node, thing, keys, count);
    }
    for (int32_t i = 0; i < count && !status; i++) {
        if (keys[i].use == TRIVET__NEEDED && !trivet__member(reading, node, keys[i].name)) {
            status = refuse_missing(reading, name ? name : node, thing, &keys[i]);
        }
    }
    return status;
}

trivet_status trivet__read_name(const trivet__reading *reading, const trivet__node *node,
                                const trivet__thing *thing, const char **name_out)
{
    const trivet_status status =
        node->is_key ? TRIVET_OK : trivet__need_scalar(reading, node, thing);
    if (status) {
        return status;
    }
    const char *const text = trivet__tree_text(reading->tree, node);
    const char *problem = NULL;
    if (text[0] == '\0') {
        problem = "the name is empty";
    } else if (node->length >= TRIVET_NAME_MAX) {
        problem = "the name is longer than 127 bytes";
    }
    for (const char *at = text; *at && !problem; at++) {
        if ((unsigned char)*at < 0x20U || *at == 0x7F) {
            problem = "the name does not stand in one line of plain text";
        }
    }
    if (problem) {
        return trivet__refuse_node(reading, node, thing, TRIVET_BAD_NAME, problem,
                                   "choose a short name");
    }
    *name_out = text;
    return TRIVET_OK;
}

static trivet_status refuse_choice(const trivet__reading *reading, const trivet__node *node,
                                   const trivet__thing *thing, const char *const *words,
                                   int32_t count)
{
    trivet__nearest search = {trivet__tree_text(reading->tree, node), NULL, 0};
    char known[TRIVET_REMEDY_MAX] = "";
    size_t length = 0;
    for (int32_t i = 0; i < count; i++) {
        trivet__nearest_offer(&search, words[i]);
        if (length < sizeof known) {
            const char *const joiner = i == 0 ? "" : i == count - 1 ? " or " : ", ";
            length +=
                trivet__text_print(known + length, sizeof known - length, "%s%s", joiner, words[i]);
        }
    }
    char shown[TRIVET__SHOWN_MAX];
    const trivet_status status = trivet__complain(reading, node, thing, TRIVET_BAD_NAME);
    trivet__message_problem(reading->message, "\"%s\" is not known here",
                            trivet__shown(reading, node, shown));
    if (trivet__meant(&search)) {
        trivet__message_remedy(reading->message, "did you mean \"%s\"?", search.nearest);
    } else {
        trivet__message_remedy(reading->message, "write %s", known);
    }
    return status;
}

trivet_status trivet__read_choice(const trivet__reading *reading, const trivet__node *node,
                                  const trivet__thing *thing, const char *const *words,
                                  int32_t count, int32_t *choice_out)
{
    const trivet_status status = trivet__need_scalar(reading, node, thing);
    if (status) {
        return status;
    }
    const char *const text = trivet__tree_text(reading->tree, node);
    for (int32_t i = 0; i < count; i++) {
        if (strcmp(text, words[i]) == 0) {
            *choice_out = i;
            return TRIVET_OK;
        }
    }
    return refuse_choice(reading, node, thing, words, count);
}

trivet_status trivet__read_choice_key(const trivet__reading *reading, const trivet__node *map,
                                      const trivet__thing *within, const char *key,
                                      const char *const *words, int32_t count, int32_t *choice_out)
{
    const trivet__node *const node = trivet__member(reading, map, key);
    if (!node) {
        return TRIVET_OK;
    }
    trivet__thing thing;
    trivet__thing_key(&thing, within, key);
    return trivet__read_choice(reading, node, &thing, words, count, choice_out);
}
