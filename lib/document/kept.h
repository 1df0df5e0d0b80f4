/*
 * A file that is parsed once and resolved again and again, each time with other values.
 */
#ifndef TRIVET_DOCUMENT_KEPT_H
#define TRIVET_DOCUMENT_KEPT_H

#include "document/overrides.h"
#include "document/reading.h"
#include "trivet/document.h"

/* Parses a file's text. Clear the tree after use. message is never NULL. */
trivet_status trivet__kept_parse(const char *text, size_t length, trivet__tree *tree_out,
                                 trivet_message *message);

/*
 * Makes the document of a tree with overrides (NULL: as it stands). Hand calculations are not read
 * with overrides: they were made for the file as it stands. after_let, if not NULL, is asked once
 * `let` is known; what it returns other than TRIVET_OK ends the reading.
 */
typedef trivet_status trivet__after_let(const trivet__reading *reading, void *user);
trivet_status trivet__kept_resolve(const trivet__tree *tree, const trivet__overrides *overrides,
                                   trivet__after_let *after_let, void *user,
                                   trivet_document **document_out, trivet_message *message);

/* A reading on a document that is there, to ask more of its tree. The document is only read. */
trivet_status trivet__kept_reading(trivet_document *document, const trivet__tree *tree,
                                   trivet__reading *reading_out, trivet_message *message);

#endif
