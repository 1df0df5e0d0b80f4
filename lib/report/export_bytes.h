/*
 * A file that grows in memory. Nothing here can fail in the middle: that there was no memory is
 * remembered, and shows when the file is handed out.
 */
#ifndef TRIVET_REPORT_EXPORT_BYTES_H
#define TRIVET_REPORT_EXPORT_BYTES_H

#include "trivet/base.h"

#include <stddef.h>
#include <stdint.h>

typedef struct trivet__bytes {
    char *at; /* NULL until something is added */
    size_t length;
    size_t capacity;
    int is_spoilt; /* there was no memory: what follows is dropped */
} trivet__bytes;

void trivet__bytes_add(trivet__bytes *bytes, const void *more, size_t length);
void trivet__bytes_text(trivet__bytes *bytes, const char *text);

/* A finite number with the digits that it takes to read back the same double. */
void trivet__bytes_number(trivet__bytes *bytes, double value);
void trivet__bytes_whole(trivet__bytes *bytes, int64_t value);

/* A text as an attribute of XML or between its tags: < > & " ' as entities, what XML 1.0 cannot
 * hold as U+FFFD. */
void trivet__bytes_xml(trivet__bytes *bytes, const char *text);

/* A text as a JSON string, with its quotes. */
void trivet__bytes_json(trivet__bytes *bytes, const char *text);

void trivet__bytes_free(trivet__bytes *bytes);

/* Hands the file out, closed with zero, or TRIVET_NO_MEMORY; bytes is empty afterwards. */
trivet_status trivet__bytes_hand_out(trivet__bytes *bytes, char **bytes_out, size_t *length_out,
                                     trivet_message *message);

#endif
