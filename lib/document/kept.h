/*
 * A file that is parsed once and resolved again and again, each time with other values.
 */
#ifndef TRIVET_DOCUMENT_KEPT_H
#define TRIVET_DOCUMENT_KEPT_H

#include "document/compiled.h"
#include "document/overrides.h"
#include "document/resolve.h"
#include "trivet/document.h"

/* Parses a file's text. Clear the tree after use. message is never NULL, here and below. */
trivet_status trivet__kept_parse(const char *text, size_t length, trivet__tree *tree_out,
                                 trivet_message *message);

/* Makes the document of a tree as it stands. */
trivet_status trivet__kept_resolve(const trivet__tree *tree, trivet_document **document_out,
                                   trivet_message *message);

/*
 * The same, and finds out what need not be looked for again. compiled_out: zeros; clear it after
 * use, and after all documents that it helped to make. It is good as long as tree and document are.
 */
trivet_status trivet__kept_compile(const trivet__tree *tree, trivet__compiled *compiled_out,
                                   trivet_document **document_out, trivet_message *message);
void trivet__compiled_clear(trivet__compiled *compiled);

/*
 * Fills *document with what the tree says with overrides (never NULL). *document is NULL at first
 * and then made; later it is emptied, and asks the heap for no more than it ever needed. It stays
 * after a failure too, half-filled: fill it again, or free it. Hand calculations are left out: they
 * were made for the file as it stands.
 */
trivet_status trivet__kept_again(const trivet__tree *tree, const trivet__compiled *compiled,
                                 const trivet__overrides *overrides, const trivet__asked *after_let,
                                 trivet_document **document, trivet_message *message);

/* A reading on a document that is there, to ask more of its tree. The document is only read. */
trivet_status trivet__kept_reading(trivet_document *document, const trivet__tree *tree,
                                   trivet__reading *reading_out, trivet_message *message);

#endif
