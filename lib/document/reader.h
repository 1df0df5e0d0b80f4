/*
 * From text to a tree of nodes: the only file that knows the parser of YAML.
 */
#ifndef TRIVET_DOCUMENT_READER_H
#define TRIVET_DOCUMENT_READER_H

#include "document/tree.h"

/* Reads text that passed trivet__input_check. tree is empty on failure; clear it after use. */
trivet_status trivet__reader_read(const char *text, size_t length, trivet__tree *tree_out,
                                  trivet_message *message);

#endif
