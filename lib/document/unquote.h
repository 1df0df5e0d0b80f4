/*
 * The text between single quotes.
 */
#ifndef TRIVET_DOCUMENT_UNQUOTE_H
#define TRIVET_DOCUMENT_UNQUOTE_H

#include <stddef.h>

/* What text[length], without its outer quotes, stands for; into has room for length bytes. */
size_t trivet__unquote(const char *text, size_t length, char *into);

#endif
