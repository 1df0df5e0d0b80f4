/*
 * Choices of stock: names of the file's own stock, or a catalogue, which is a file with stock and
 * prices that many sweeps share.
 */
#include "sweep/vary.h"

#include "base/memory.h"
#include "base/text.h"
#include "document/input.h"

#include <assert.h>
#include <string.h>

enum { PATH_MAX_BYTES = 1024 };

static trivet_status find_own(const trivet__reading *reading, const trivet__node *node,
                              const trivet__thing *thing, const trivet__node **name_out,
                              const trivet__node **map_out)
{
    int32_t index = -1;
    const trivet_status status =
        trivet__read_thing(reading, node, thing, TRIVET_KIND_STOCK, &index);
    const trivet__node *const section = trivet__member(reading, reading->root, "stock");
    trivet__pair pair = trivet__tree_first_pair(reading->tree, section);
    const char *const wish = trivet__tree_text(reading->tree, node);
    while (!status && pair.name && strcmp(trivet__tree_text(reading->tree, pair.name), wish) != 0) {
        pair = trivet__tree_next_pair(reading->tree, pair);
    }
    *name_out = pair.name;
    *map_out = pair.value;
    return status;
}

trivet_status trivet__vary_own_stock(const trivet__reading *reading, const trivet__node *node,
                                     const trivet__thing *thing, trivet__stock_choice *choice_out)
{
    const trivet__node *name = NULL;
    const trivet__node *map = NULL;
    trivet_status status = find_own(reading, node, thing, &name, &map);
    if (!status) {
        status = trivet__read_stock_choice(reading, name, map, choice_out);
    }
    if (!status) {
        choice_out->node = map;
    }
    return status;
}

static trivet_status read_own_list(const trivet__reading *reading, const trivet__node *list,
                                   const trivet__thing *thing, trivet__column *column)
{
    if (list->count < 1) {
        return trivet__refuse_node(reading, list, thing, TRIVET_INCOMPLETE, "names no stock",
                                   "name stock of the file, such as [rail, thick rail]");
    }
    column->choices = trivet__take((size_t)list->count, sizeof *column->choices);
    trivet_status status = column->choices ? TRIVET_OK : trivet__no_memory(reading->message);
    const trivet__node *item = trivet__tree_first(reading->tree, list);
    for (; item && !status; item = trivet__tree_next(reading->tree, item)) {
        assert(column->choices);
        status =
            trivet__vary_own_stock(reading, item, thing, &column->choices[column->choice_count]);
        column->choice_count += status == TRIVET_OK;
    }
    return status;
}

/* ---- the catalogue ---- */

static void join_path(const char *folder, const char *name, char path[PATH_MAX_BYTES])
{
    const int is_whole = name[0] == '/' || folder[0] == '\0';
    trivet__text_print(path, PATH_MAX_BYTES, "%s%s%s", is_whole ? "" : folder, is_whole ? "" : "/",
                       name);
}

static int is_among(const trivet__reading *reading, const trivet__node *among, const char *name)
{
    const trivet__node *item = among ? trivet__tree_first(reading->tree, among) : NULL;
    for (; item; item = trivet__tree_next(reading->tree, item)) {
        if (strcmp(trivet__tree_text(reading->tree, item), name) == 0) {
            return 1;
        }
    }
    return among == NULL;
}

/* Every name of "among" stands in the catalogue. */
static trivet_status check_among(const trivet__reading *reading, const trivet__node *among,
                                 const trivet__thing *thing, const trivet__column *column)
{
    const trivet__node *item = among ? trivet__tree_first(reading->tree, among) : NULL;
    for (; item; item = trivet__tree_next(reading->tree, item)) {
        int32_t i = 0;
        const char *const name = trivet__tree_text(reading->tree, item);
        while (i < column->choice_count && strcmp(column->choices[i].name, name) != 0) {
            i++;
        }
        if (i == column->choice_count) {
            trivet__complain(reading, item, thing, TRIVET_BAD_NAME);
            trivet__message_problem(reading->message, "\"%s\" is not in the catalogue", name);
            trivet__message_remedy(reading->message, "look at the spelling, or leave it out");
            return TRIVET_BAD_NAME;
        }
    }
    return TRIVET_OK;
}

/* The stock of a catalogue that was parsed; its own reading knows no names of `let`. */
static trivet_status fill_choices(const trivet__reading *shelf, const trivet__reading *reading,
                                  const trivet__node *among, trivet__column *column)
{
    const trivet__thing nowhere = {.word = "the catalogue"};
    const trivet__node *section = NULL;
    trivet__thing thing;
    trivet_status status = TRIVET_OK;
    if (!shelf->root || shelf->root->kind != TRIVET__MAP) {
        return trivet__refuse_node(shelf, shelf->root, &nowhere, TRIVET_BAD_SYNTAX,
                                   "does not begin with a key and a colon",
                                   "begin it with catalogue: 1");
    }
    status = trivet__check_keys(shelf, shelf->root, NULL, &nowhere, TRIVET__KEYS_CATALOGUE);
    if (!status) {
        status = trivet__read_map_key(shelf, shelf->root, &nowhere, "stock", &thing, &section);
    }
    if (status || !section || section->count < 1) {
        return status ? status
                      : trivet__refuse_node(shelf, shelf->root, &nowhere, TRIVET_INCOMPLETE,
                                            "holds no stock", "add some under stock:");
    }
    column->choices = trivet__take((size_t)section->count, sizeof *column->choices);
    if (!column->choices) {
        return trivet__no_memory(shelf->message);
    }
    trivet__pair pair = trivet__tree_first_pair(shelf->tree, section);
    for (; pair.name && !status; pair = trivet__tree_next_pair(shelf->tree, pair)) {
        trivet__stock_choice *const choice = &column->choices[column->choice_count];
        status = trivet__read_stock_choice(shelf, pair.name, pair.value, choice);
        choice->node = NULL;
        column->choice_count += !status && is_among(reading, among, choice->name);
    }
    return status;
}

/* A complaint from inside a catalogue names it and its line; the place is where it is named. */
static void name_catalogue(const trivet__reading *reading, const trivet__node *node,
                           const char *name)
{
    trivet_message *const message = reading->message;
    char thing[TRIVET_THING_MAX];
    char line[32] = "";
    if (message->line > 0) {
        trivet__text_print(line, sizeof line, ", line %d", (int)message->line);
    }
    trivet__text_print(thing, sizeof thing, "%.60s%s: %s", name, line, message->thing);
    trivet__text_copy(message->thing, sizeof message->thing,
                      strcmp(message->thing, name) == 0 ? name : thing);
    message->line = node->line;
    message->column = node->column;
}

/* The text of a catalogue: from those at hand, or from its file. */
static trivet_status take_text(const trivet__shelf *shelf, const char *name, trivet__column *column,
                               trivet_message *message)
{
    char path[PATH_MAX_BYTES];
    const char *text = NULL;
    for (int32_t i = 0; i < shelf->text_count && !text; i++) {
        text = strcmp(shelf->texts[i].name, name) == 0 ? shelf->texts[i].text : NULL;
    }
    column->catalogue_name = trivet__text_keep(name, strlen(name));
    if (!column->catalogue_name) {
        return trivet__no_memory(message);
    }
    if (!text && shelf->folder) {
        join_path(shelf->folder, name, path);
        return trivet__input_read(path, &column->catalogue, &column->catalogue_length, message);
    }
    if (!text) {
        return trivet__refuse(message, TRIVET_UNREADABLE, name, "is not among the catalogues given",
                              "hand its text in with the text of the file");
    }
    const trivet_status status = trivet__input_check(text, strlen(text), message);
    if (!status) {
        column->catalogue_length = strlen(text);
        column->catalogue = trivet__text_keep(text, column->catalogue_length);
    }
    return status || column->catalogue ? status : trivet__no_memory(message);
}

static trivet_status read_catalogue(const trivet__reading *reading, const trivet__shelf *shelves,
                                    const trivet__node *node, const trivet__node *among,
                                    trivet__column *column)
{
    const char *const name = trivet__tree_text(reading->tree, node);
    trivet__tree tree = {0};
    trivet_document *scratch = trivet__take(1, sizeof *scratch);
    trivet_status status = scratch ? take_text(shelves, name, column, reading->message)
                                   : trivet__no_memory(reading->message);
    if (!status) {
        status = trivet__kept_parse(column->catalogue, column->catalogue_length, &tree,
                                    reading->message);
        if (!status) {
            trivet__reading shelf;
            status = trivet__kept_reading(scratch, &tree, &shelf, reading->message);
            if (!status) {
                status = fill_choices(&shelf, reading, among, column);
            }
        }
    }
    if (status && status != TRIVET_NO_MEMORY) {
        name_catalogue(reading, node, name);
    }
    trivet__tree_clear(&tree);
    trivet_document_free(scratch);
    return status;
}

/* ---- one column ---- */

/* The stock that the choice stands for: the names under "of", or the column's own name. */
static trivet_status read_of(const trivet__reading *reading, const trivet__node *name,
                             const trivet__node *list, const trivet__thing *thing,
                             trivet__column *column)
{
    const trivet__node *item = list ? trivet__tree_first(reading->tree, list) : name;
    const int32_t count = list ? list->count : 1;
    int32_t index = -1;
    trivet_status status = TRIVET_OK;
    if (count > TRIVET__OF_MAX) {
        return trivet__refuse_node(reading, list, thing, TRIVET_BAD_VALUE,
                                   "stands for more than 8 kinds of stock",
                                   "let tubes of one kind share one stock");
    }
    column->of = trivet__take((size_t)(count > 0 ? count : 1), sizeof *column->of);
    if (!column->of) {
        return trivet__no_memory(reading->message);
    }
    for (; item && !status; item = list ? trivet__tree_next(reading->tree, item) : NULL) {
        const char *const text = trivet__tree_text(reading->tree, item);
        status = trivet__read_thing(reading, item, thing, TRIVET_KIND_STOCK, &index);
        if (!status) {
            column->of[column->of_count] = trivet__text_keep(text, strlen(text));
            status = column->of[column->of_count] ? TRIVET_OK : trivet__no_memory(reading->message);
            column->of_count += status == TRIVET_OK;
        }
    }
    return status;
}

static trivet_status read_from_map(const trivet__reading *reading, const trivet__shelf *shelf,
                                   const trivet__node *name, const trivet__node *map,
                                   const trivet__thing *thing, trivet__column *column)
{
    trivet__thing part;
    const trivet__node *of = NULL;
    const trivet__node *among = NULL;
    const char *file = NULL;
    const trivet__node *const catalogue = trivet__member(reading, map, "catalogue");
    trivet_status status = trivet__check_keys(reading, map, NULL, thing, TRIVET__KEYS_VARY_STOCK);
    if (!status) {
        status = trivet__read_list_key(reading, map, thing, "of", "[rail, cross]", &part, &of);
    }
    if (!status) {
        status = trivet__read_list_key(reading, map, thing, "among", "[rail, thick rail]", &part,
                                       &among);
    }
    if (!status) {
        status = read_of(reading, name, of, thing, column);
    }
    if (!status && !catalogue) {
        return among ? read_own_list(reading, among, thing, column)
                     : trivet__refuse_node(reading, map, thing, TRIVET_INCOMPLETE,
                                           "says neither \"catalogue\" nor \"among\"",
                                           "add one, such as catalogue: shop.yaml");
    }
    if (!status) {
        status = trivet__read_name(reading, catalogue, thing, &file);
    }
    if (!status) {
        status = read_catalogue(reading, shelf, catalogue, among, column);
    }
    return status ? status : check_among(reading, among, thing, column);
}

trivet_status trivet__vary_read_stock(const trivet__reading *reading, const trivet__shelf *shelf,
                                      const trivet__node *name, const trivet__node *value,
                                      trivet__column *column)
{
    trivet__thing thing;
    trivet__thing_named(&thing, "vary, stock", name);
    if (value->kind == TRIVET__MAP) {
        return read_from_map(reading, shelf, name, value, &thing, column);
    }
    trivet_status status =
        trivet__need_list(reading, value, &thing, "[rail, thick rail], or {catalogue: shop.yaml}");
    if (!status) {
        status = read_of(reading, name, NULL, &thing, column);
    }
    return status ? status : read_own_list(reading, value, &thing, column);
}
