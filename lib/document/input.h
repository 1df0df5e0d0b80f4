/*
 * Bytes of a file, looked at before anything parses them.
 */
#ifndef TRIVET_DOCUMENT_INPUT_H
#define TRIVET_DOCUMENT_INPUT_H

#include "trivet/base.h"

#include <stddef.h>

/* Reads a regular file of at most TRIVET__TEXT_MAX bytes. Give *text_out back. */
trivet_status trivet__input_read(const char *path, char **text_out, size_t *length_out,
                                 trivet_message *message);

/* Refuses text that is too long, empty, not UTF-8 or holds bytes that no text holds. */
trivet_status trivet__input_check(const char *text, size_t length, trivet_message *message);

/* Line and column, from 1 and in characters, of a byte. */
void trivet__input_place(const char *text, size_t at, int32_t *line_out, int32_t *column_out);

#endif
