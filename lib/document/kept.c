/*
 * A parsed file resolved again and again: the first time its expressions are compiled, later times
 * fill a document that is there in the memory that it has.
 */
#include "document/kept.h"

#include "base/memory.h"
#include "document/input.h"
#include "document/reader.h"
#include "document/resolve.h"

trivet_status trivet__kept_parse(const char *text, size_t length, trivet__tree *tree_out,
                                 trivet_message *message)
{
    const trivet_status status = trivet__input_check(text, length, message);
    return status ? status : trivet__reader_read(text, length, tree_out, message);
}

/* A document with an empty frame, or NULL. */
static trivet_document *new_document(trivet_message *message)
{
    trivet_document *const document = trivet__take(1, sizeof *document);
    if (!document) {
        trivet__no_memory(message);
        return NULL;
    }
    if (trivet_frame_new(&document->frame, message) != TRIVET_OK) {
        trivet_document_free(document);
        return NULL;
    }
    return document;
}

static trivet_status make_document(trivet__reading *reading, const trivet__asked *after_let,
                                   trivet_document **document_out)
{
    trivet_document *const document = new_document(reading->message);
    *document_out = NULL;
    if (!document) {
        return TRIVET_NO_MEMORY;
    }
    reading->document = document;
    reading->frame = document->frame;
    const trivet_status status = trivet__resolve(reading, after_let);
    if (status) {
        trivet_document_free(document);
        return status;
    }
    *document_out = document;
    return TRIVET_OK;
}

trivet_status trivet__kept_resolve(const trivet__tree *tree, trivet_document **document_out,
                                   trivet_message *message)
{
    const trivet__asked nobody = {NULL, NULL};
    trivet__reading reading = {.tree = tree, .root = trivet__tree_root(tree), .message = message};
    return make_document(&reading, &nobody, document_out);
}

trivet_status trivet__kept_compile(const trivet__tree *tree, trivet__compiled *compiled_out,
                                   trivet_document **document_out, trivet_message *message)
{
    const trivet__asked nobody = {NULL, NULL};
    trivet__compiled *const compiled = compiled_out;
    trivet__reading reading = {
        .tree = tree, .root = trivet__tree_root(tree), .message = message, .compiling = compiled};
    *document_out = NULL;
    compiled->programs =
        trivet__pool_take(&compiled->pool, tree->count, sizeof *compiled->programs);
    if (!compiled->programs) {
        return trivet__no_memory(message);
    }
    const trivet_status status = make_document(&reading, &nobody, document_out);
    if (!status) {
        compiled->lets = (*document_out)->lets.list;
        compiled->let_count = (int32_t)(*document_out)->lets.count;
    }
    return status;
}

void trivet__compiled_clear(trivet__compiled *compiled)
{
    trivet__pool_clear(&compiled->pool);
    *compiled = (trivet__compiled){0};
}

/* Empties a document; what it took from the heap stays with it. */
static void empty(trivet_document *document)
{
    trivet__pool pool = document->pool;
    trivet_frame *const frame = document->frame;
    trivet__pool_rewind(&pool);
    trivet_frame_clear(frame);
    *document = (trivet_document){.pool = pool, .frame = frame};
}

trivet_status trivet__kept_again(const trivet__tree *tree, const trivet__compiled *compiled,
                                 const trivet__overrides *overrides, const trivet__asked *after_let,
                                 trivet_document **document, trivet_message *message)
{
    if (*document) {
        empty(*document);
    } else {
        *document = new_document(message);
    }
    if (!*document) {
        return TRIVET_NO_MEMORY;
    }
    trivet__reading reading = {.document = *document,
                               .frame = (*document)->frame,
                               .tree = tree,
                               .root = trivet__tree_root(tree),
                               .message = message,
                               .overrides = overrides,
                               .compiled = compiled};
    return trivet__resolve(&reading, after_let);
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
