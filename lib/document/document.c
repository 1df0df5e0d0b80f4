/*
 * The document: made by reading section after section, each of which may use what earlier ones
 * defined, whatever their order in the file; then asked.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "base/text.h"
#include "document/input.h"
#include "document/kept.h"
#include "document/reader.h"
#include "document/reading.h"

#include <math.h>
#include <string.h>

void *trivet__note(trivet_document *document, trivet__notes *notes, const void *record, size_t size)
{
    if (!trivet__pool_make_room(&document->pool, &notes->list, notes->count, &notes->capacity,
                                size)) {
        return NULL;
    }
    char *const at = (char *)notes->list + notes->count * size;
    memcpy(at, record, size);
    notes->count++;
    return at;
}

void *trivet__room(trivet_document *document, size_t count, size_t size)
{
    return trivet__pool_take(&document->pool, count, size);
}

char *trivet__keep(trivet_document *document, const char *text)
{
    return trivet__pool_text(&document->pool, text, strlen(text));
}

const trivet__let *trivet__let_at(const trivet_document *document, int32_t index)
{
    const int is_there = document && index >= 0 && (size_t)index < document->lets.count;
    return is_there ? TRIVET__AT(document->lets, trivet__let, index) : NULL;
}

const trivet__expect *trivet__expect_at(const trivet_document *document, int32_t index)
{
    const int is_there = document && index >= 0 && (size_t)index < document->expects.count;
    return is_there ? TRIVET__AT(document->expects, trivet__expect, index) : NULL;
}

const trivet__stock_note *trivet__stock_note_at(const trivet_document *document, int32_t stock)
{
    const int is_there = stock >= 0 && (size_t)stock < document->stocks.count;
    return is_there ? TRIVET__AT(document->stocks, trivet__stock_note, stock) : NULL;
}

const trivet__tube_note *trivet__tube_note_at(const trivet_document *document, int32_t tube)
{
    const int is_there = tube >= 0 && (size_t)tube < document->tubes.count;
    return is_there ? TRIVET__AT(document->tubes, trivet__tube_note, tube) : NULL;
}

void trivet_document_free(trivet_document *document)
{
    if (!document) {
        return;
    }
    trivet__pool_clear(&document->pool);
    trivet_frame_free(document->frame);
    trivet__give_back(document);
}

/* How many bytes of thing are "kind name", closed by its end or a comma; 0 if it is not that. */
static size_t match_thing(const char *thing, const char *kind, const char *name)
{
    const size_t kind_length = strlen(kind);
    const size_t length = kind_length + 1 + strlen(name);
    const int is_it = strncmp(thing, kind, kind_length) == 0 && thing[kind_length] == ' ' &&
                      strncmp(thing + kind_length + 1, name, strlen(name)) == 0 &&
                      (thing[length] == '\0' || thing[length] == ',');
    return is_it ? length : 0;
}

/* The place of the thing that a complaint about the whole frame names. */
static void locate_thing(const trivet__reading *reading)
{
    size_t longest = 0;
    trivet_message *const message = reading->message;
    for (int32_t kind = TRIVET_KIND_JOINT; kind <= TRIVET_KIND_CYCLES; kind++) {
        const int32_t count = trivet_frame_count(reading->frame, kind);
        for (int32_t i = 0; i < count; i++) {
            const char *const name = trivet_frame_name(reading->frame, kind, i);
            const size_t length = match_thing(message->thing, trivet_kind_text(kind), name);
            if (length > longest) {
                longest = length;
                message->line = trivet_document_place(reading->document, kind, i, &message->column);
            }
        }
    }
    if (longest == 0) {
        message->line = reading->root->line;
        message->column = reading->root->column;
    }
}

static trivet_status check_frame(const trivet__reading *reading)
{
    trivet_message_clear(reading->message);
    const trivet_status status = trivet_frame_validate(reading->frame, reading->message);
    if (status && status != TRIVET_NO_MEMORY) {
        locate_thing(reading);
    }
    return status;
}

/* Who is asked once `let` is known. */
typedef struct asked {
    trivet__after_let *ask;
    void *user;
} asked;

static trivet_status read_sections(trivet__reading *reading, const asked *after_let)
{
    trivet_status (*const sections[])(trivet__reading *) = {
        trivet__read_stock,  trivet__read_joint_section, trivet__read_tubes,
        trivet__read_welds,  trivet__read_mounts,        trivet__read_decks,
        trivet__read_cargo,  trivet__read_vehicle,       trivet__read_cases,
        trivet__read_usage,  trivet__read_combinations,  trivet__read_cycles,
        trivet__read_limits,
    };
    trivet_status status = trivet__read_head(reading);
    if (!status) {
        status = trivet__read_let(reading);
    }
    if (!status && after_let->ask) {
        status = after_let->ask(reading, after_let->user);
    }
    for (size_t i = 0; i < sizeof sections / sizeof sections[0] && !status; i++) {
        status = sections[i](reading);
    }
    if (!status) {
        status = check_frame(reading);
    }
    if (!status) {
        status = trivet__read_measured(reading);
    }
    if (!status) {
        status = trivet__read_shop(reading);
    }
    return status || reading->overrides ? status : trivet__read_expect(reading);
}

static trivet_status refuse_root(const trivet__reading *reading)
{
    const trivet__thing file = {.word = "the file"};
    if (!reading->root || trivet__tree_is_nothing(reading->tree, reading->root)) {
        trivet__complain(reading, reading->root, &file, TRIVET_INCOMPLETE);
        reading->message->line = 1;
        reading->message->column = 1;
        trivet__message_problem(reading->message, "says nothing");
        trivet__message_remedy(reading->message, "\"trivet start FILE\" writes one to begin with");
        return TRIVET_INCOMPLETE;
    }
    return trivet__refuse_node(reading, reading->root, &file, TRIVET_BAD_SYNTAX,
                               "does not begin with a key and a colon", "begin it with trivet: 1");
}

/* Everything of a document, in a tree that has been read; message is never NULL. */
static trivet_status fill_document(trivet_document *document, const trivet__tree *tree,
                                   const trivet__overrides *overrides, const asked *after_let,
                                   trivet_message *message)
{
    trivet__reading reading = {.document = document,
                               .tree = tree,
                               .root = trivet__tree_root(tree),
                               .message = message,
                               .overrides = overrides};
    if (!reading.root || reading.root->kind != TRIVET__MAP) {
        return refuse_root(&reading);
    }
    trivet_status status = trivet_frame_new(&document->frame, message);
    reading.frame = document->frame;
    if (!status) {
        status = read_sections(&reading, after_let);
    }
    return status;
}

trivet_status trivet__kept_parse(const char *text, size_t length, trivet__tree *tree_out,
                                 trivet_message *message)
{
    const trivet_status status = trivet__input_check(text, length, message);
    return status ? status : trivet__reader_read(text, length, tree_out, message);
}

trivet_status trivet__kept_resolve(const trivet__tree *tree, const trivet__overrides *overrides,
                                   trivet__after_let *after_let, void *user,
                                   trivet_document **document_out, trivet_message *message)
{
    const asked whom = {after_let, user};
    trivet_document *document = trivet__take(1, sizeof *document);
    const trivet_status status = document ? fill_document(document, tree, overrides, &whom, message)
                                          : trivet__no_memory(message);
    if (status) {
        trivet_document_free(document);
        document = NULL;
    }
    *document_out = document;
    return status;
}

trivet_status trivet__kept_reading(trivet_document *document, const trivet__tree *tree,
                                   trivet__reading *reading_out, trivet_message *message)
{
    *reading_out = (trivet__reading){.document = document,
                                     .frame = document->frame,
                                     .tree = tree,
                                     .root = trivet__tree_root(tree),
                                     .message = message};
    return trivet__read_units(reading_out);
}

static trivet_status read_text(const char *text, size_t length, trivet_document **document_out,
                               trivet_message *message)
{
    trivet__tree tree = {0};
    trivet_status status = trivet__kept_parse(text, length, &tree, message);
    if (!status) {
        status = trivet__kept_resolve(&tree, NULL, NULL, NULL, document_out, message);
    }
    if (!status) {
        (*document_out)->text = trivet__pool_text(&(*document_out)->pool, text, length);
        status = (*document_out)->text ? TRIVET_OK : trivet__no_memory(message);
    }
    if (status) {
        trivet_document_free(*document_out);
        *document_out = NULL;
    }
    trivet__tree_clear(&tree);
    return status;
}

trivet_status trivet_document_read_text(const char *text, size_t length,
                                        trivet_document **document_out, trivet_message *message)
{
    if (document_out) {
        *document_out = NULL;
    }
    if (!text || !document_out) {
        return trivet__missing(message, text ? "document_out" : "text");
    }
    trivet_message own; /* reading needs one, whether or not anybody wants to see it */
    trivet_message_clear(&own);
    const trivet_status status = read_text(text, length, document_out, &own);
    if (message) {
        trivet_message_clear(message);
        if (status) {
            *message = own;
        }
    }
    return status;
}

trivet_status trivet_document_read_file(const char *path, trivet_document **document_out,
                                        trivet_message *message)
{
    if (document_out) {
        *document_out = NULL;
    }
    if (!path || !document_out) {
        return trivet__missing(message, path ? "document_out" : "path");
    }
    char *text = NULL;
    size_t length = 0;
    trivet_status status = trivet__input_read(path, &text, &length, message);
    if (!status) {
        status = trivet_document_read_text(text, length, document_out, message);
    }
    trivet__give_back(text);
    return status;
}

const trivet_frame *trivet_document_frame(const trivet_document *document)
{
    return document ? document->frame : NULL;
}

const char *trivet_document_name(const trivet_document *document)
{
    return document && document->name ? document->name : "";
}

const char *trivet_document_text(const trivet_document *document)
{
    return document && document->text ? document->text : "";
}

trivet_status trivet_document_units(const trivet_document *document, trivet_units *units_out)
{
    const trivet_status status = trivet__out_check(document, units_out, sizeof *units_out);
    if (status == TRIVET_OK) {
        *units_out = document->units;
    }
    return status;
}

trivet_status trivet_document_limits(const trivet_document *document, trivet_limits *limits_out)
{
    const trivet_status status = trivet__out_check(document, limits_out, sizeof *limits_out);
    if (status == TRIVET_OK) {
        *limits_out = document->limits;
    }
    return status;
}

trivet_status trivet_document_shop(const trivet_document *document, trivet_shop *shop_out)
{
    const trivet_status status = trivet__out_check(document, shop_out, sizeof *shop_out);
    if (status == TRIVET_OK) {
        *shop_out = document->shop;
    }
    return status;
}

trivet_status trivet_document_fitted(const trivet_document *document, trivet_fitted *fitted_out)
{
    const trivet_status status = trivet__out_check(document, fitted_out, sizeof *fitted_out);
    if (status == TRIVET_OK && !document->has_fitted) {
        return TRIVET_BAD_ORDER;
    }
    if (status == TRIVET_OK) {
        *fitted_out = document->fitted;
    }
    return status;
}

int32_t trivet_document_place(const trivet_document *document, int32_t kind, int32_t index,
                              int32_t *column_out)
{
    if (column_out) {
        *column_out = 0;
    }
    if (!document || kind <= 0 || kind >= TRIVET__KIND_COUNT || index < 0 ||
        (size_t)index >= document->places[kind].count) {
        return 0;
    }
    const trivet__place *const place = &document->places[kind].list[index];
    if (column_out) {
        *column_out = place->column;
    }
    return place->line;
}

const char *trivet_document_unused(const trivet_document *document, int32_t index)
{
    const int is_there = document && index >= 0 && (size_t)index < document->unused.count;
    return is_there ? *TRIVET__AT(document->unused, char *, index) : NULL;
}

int32_t trivet_document_let_count(const trivet_document *document)
{
    return document ? (int32_t)document->lets.count : 0;
}

const char *trivet_document_let(const trivet_document *document, int32_t index,
                                trivet_quantity *quantity_out)
{
    const trivet__let *const let = trivet__let_at(document, index);
    if (quantity_out) {
        *quantity_out = let ? let->quantity : (trivet_quantity){0};
    }
    return let ? let->name : NULL;
}

int32_t trivet_document_expectation_count(const trivet_document *document)
{
    return document ? (int32_t)document->expects.count : 0;
}
