/*
 * The document: read from a text, then asked.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "base/text.h"
#include "document/input.h"
#include "document/kept.h"

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

static trivet_status read_text(const char *text, size_t length, trivet_document **document_out,
                               trivet_message *message)
{
    trivet__tree tree = {0};
    trivet_status status = trivet__kept_parse(text, length, &tree, message);
    if (!status) {
        status = trivet__kept_resolve(&tree, document_out, message);
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
