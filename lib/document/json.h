/*
 * Small steps on the way to JSON: nothing here can fail in the middle. A failure is remembered,
 * and shows when the text is made.
 */
#ifndef TRIVET_DOCUMENT_JSON_H
#define TRIVET_DOCUMENT_JSON_H

#include "trivet/base.h"

#include <jansson.h>

/* Objects, texts and numbers go in by these; a NULL value (no memory) spoils the whole. */
typedef struct trivet__json {
    int is_spoilt;
} trivet__json;

json_t *trivet__json_object(trivet__json *json);
json_t *trivet__json_list(trivet__json *json);

/* Puts value into object under key, or behind the last of a list; value belongs to it from now. */
void trivet__json_put(trivet__json *json, json_t *object, const char *key, json_t *value);
void trivet__json_push(trivet__json *json, json_t *list, json_t *value);

/* A number; null if it is not finite. */
void trivet__json_put_number(trivet__json *json, json_t *object, const char *key, double value);
void trivet__json_put_whole(trivet__json *json, json_t *object, const char *key, int64_t value);
void trivet__json_put_text(trivet__json *json, json_t *object, const char *key, const char *text);
void trivet__json_put_truth(trivet__json *json, json_t *object, const char *key, int truth);

/* Numbers as a list. */
void trivet__json_put_row(trivet__json *json, json_t *object, const char *key, const double *values,
                          int32_t count);

/* Numbers under names: {"N": 1, "Vy": 2}. */
void trivet__json_put_named(trivet__json *json, json_t *object, const char *key,
                            const char *const *names, const double *values, int32_t count);

/*
 * The text of root, which is freed. Numbers have 17 digits and read back to the same double.
 * TRIVET_NO_MEMORY if anything failed on the way. Free the text with trivet_text_free.
 */
trivet_status trivet__json_text(trivet__json *json, json_t *root, char **text_out,
                                trivet_message *message);

#endif
