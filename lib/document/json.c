/*
 * JSON through jansson.
 */
#include "document/json.h"

#include "base/memory.h"
#include "base/message.h"
#include "trivet/document.h"

#include <math.h>
#include <string.h>

json_t *trivet__json_object(trivet__json *json)
{
    json_t *const made = json_object();
    json->is_spoilt |= !made;
    return made;
}

json_t *trivet__json_list(trivet__json *json)
{
    json_t *const made = json_array();
    json->is_spoilt |= !made;
    return made;
}

void trivet__json_put(trivet__json *json, json_t *object, const char *key, json_t *value)
{
    json->is_spoilt |= json_object_set_new(object, key, value) != 0;
}

void trivet__json_push(trivet__json *json, json_t *list, json_t *value)
{
    json->is_spoilt |= json_array_append_new(list, value) != 0;
}

static json_t *number(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

void trivet__json_put_number(trivet__json *json, json_t *object, const char *key, double value)
{
    trivet__json_put(json, object, key, number(value));
}

void trivet__json_put_whole(trivet__json *json, json_t *object, const char *key, int64_t value)
{
    trivet__json_put(json, object, key, json_integer((json_int_t)value));
}

void trivet__json_put_text(trivet__json *json, json_t *object, const char *key, const char *text)
{
    trivet__json_put(json, object, key, text ? json_string(text) : json_null());
}

void trivet__json_put_truth(trivet__json *json, json_t *object, const char *key, int truth)
{
    trivet__json_put(json, object, key, json_boolean(truth));
}

void trivet__json_put_row(trivet__json *json, json_t *object, const char *key, const double *values,
                          int32_t count)
{
    json_t *const list = trivet__json_list(json);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_push(json, list, number(values[i]));
    }
    trivet__json_put(json, object, key, list);
}

void trivet__json_put_named(trivet__json *json, json_t *object, const char *key,
                            const char *const *names, const double *values, int32_t count)
{
    json_t *const map = trivet__json_object(json);
    for (int32_t i = 0; i < count; i++) {
        trivet__json_put_number(json, map, names[i], values[i]);
    }
    trivet__json_put(json, object, key, map);
}

/*
 * A growing text that jansson writes into. jansson 2.14 does not look whether a key was taken, so a
 * failure is remembered here.
 */
typedef struct sink {
    char *text;
    size_t length;
    size_t capacity;
    int has_failed;
} sink;

static int take_piece(const char *piece, size_t length, void *user)
{
    sink *const into = user;
    const size_t needed = into->length + length + 1;
    if (into->has_failed) {
        return -1;
    }
    if (needed > into->capacity) {
        const size_t wider = 2 * needed;
        char *const moved = trivet__retake(into->text, wider, 1);
        if (!moved) {
            into->has_failed = 1;
            return -1;
        }
        into->text = moved;
        into->capacity = wider;
    }
    memcpy(into->text + into->length, piece, length);
    into->length += length;
    into->text[into->length] = '\0';
    return 0;
}

trivet_status trivet__json_text(trivet__json *json, json_t *root, char **text_out,
                                trivet_message *message)
{
    enum { DIGITS = 17, INDENT = 1 };
    sink into = {NULL, 0, 0, 0};
    const int failed = json->is_spoilt || !root ||
                       json_dump_callback(root, take_piece, &into,
                                          JSON_INDENT(INDENT) | JSON_REAL_PRECISION(DIGITS)) != 0 ||
                       take_piece("\n", 1, &into) != 0 || into.has_failed;
    json_decref(root);
    if (failed) {
        trivet__give_back(into.text);
        *text_out = NULL;
        return trivet__no_memory(message);
    }
    *text_out = into.text;
    return TRIVET_OK;
}

void trivet_text_free(char *text)
{
    trivet__give_back(text);
}

trivet_status trivet_message_json(const trivet_message *message, char **text_out)
{
    if (!text_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    *text_out = NULL;
    if (!message) {
        return TRIVET_MISSING_ARGUMENT;
    }
    trivet__json json = {0};
    json_t *const root = trivet__json_object(&json);
    json_t *const error = trivet__json_object(&json);
    trivet__json_put_whole(&json, error, "status", message->status);
    trivet__json_put_text(&json, error, "meaning", trivet_status_text(message->status));
    trivet__json_put_whole(&json, error, "line", message->line);
    trivet__json_put_whole(&json, error, "column", message->column);
    trivet__json_put_text(&json, error, "thing", message->thing);
    trivet__json_put_text(&json, error, "problem", message->problem);
    trivet__json_put_text(&json, error, "remedy", message->remedy);
    trivet__json_put_text(&json, root, "trivet", trivet_version());
    trivet__json_put(&json, root, "error", error);
    return trivet__json_text(&json, root, text_out, NULL);
}
