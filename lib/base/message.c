/*
 * Messages: filled part by part, cut at a character, never in need of memory.
 */
#include "base/message.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void trivet_message_clear(trivet_message *message)
{
    if (message) {
        memset(message, 0, sizeof *message);
    }
}

trivet_status trivet__refuse(trivet_message *message, trivet_status status, const char *thing,
                             const char *problem, const char *remedy)
{
    if (message) {
        trivet_message_clear(message);
        message->status = (int32_t)status;
        trivet__text_copy(message->thing, sizeof message->thing, thing);
        trivet__text_copy(message->problem, sizeof message->problem, problem);
        trivet__text_copy(message->remedy, sizeof message->remedy, remedy);
    }
    return status;
}

/* vsnprintf into a part of a message, then cut at a whole character. */
TRIVET__FORMAT(3, 0)
static void write_part(char *part, size_t size, const char *format, va_list values)
{
    char whole[2 * TRIVET_PROBLEM_MAX];
    if (vsnprintf(whole, sizeof whole, format, values) < 0) {
        whole[0] = '\0';
    }
    trivet__text_copy(part, size, whole);
}

void trivet__message_thing(trivet_message *message, const char *format, ...)
{
    if (message) {
        va_list values;
        va_start(values, format);
        write_part(message->thing, sizeof message->thing, format, values);
        va_end(values);
    }
}

void trivet__message_problem(trivet_message *message, const char *format, ...)
{
    if (message) {
        va_list values;
        va_start(values, format);
        write_part(message->problem, sizeof message->problem, format, values);
        va_end(values);
    }
}

void trivet__message_remedy(trivet_message *message, const char *format, ...)
{
    if (message) {
        va_list values;
        va_start(values, format);
        write_part(message->remedy, sizeof message->remedy, format, values);
        va_end(values);
    }
}

void trivet__message_within(trivet_message *message, const char *format, ...)
{
    if (message) {
        char prefix[TRIVET_THING_MAX];
        char thing[TRIVET_THING_MAX];
        va_list values;
        va_start(values, format);
        write_part(prefix, sizeof prefix, format, values);
        va_end(values);
        trivet__text_copy(thing, sizeof thing, message->thing);
        trivet__text_print(message->thing, sizeof message->thing, "%s%s%s", prefix,
                           thing[0] ? ", " : "", thing);
    }
}

trivet_status trivet__no_memory(trivet_message *message)
{
    return trivet__refuse(message, TRIVET_NO_MEMORY, "memory", "there is not enough of it",
                          "close other programs or make the frame smaller");
}

trivet_status trivet__missing(trivet_message *message, const char *argument)
{
    return trivet__refuse(message, TRIVET_MISSING_ARGUMENT, argument, "is NULL",
                          "hand in a pointer to it");
}

size_t trivet_message_text(const trivet_message *message, char *text, size_t size)
{
    if (!message) {
        return trivet__text_print(text, size, "%s", "");
    }
    char place[64] = "";
    if (message->line > 0 && message->column > 0) {
        snprintf(place, sizeof place, "line %d, column %d: ", (int)message->line,
                 (int)message->column);
    } else if (message->line > 0) {
        snprintf(place, sizeof place, "line %d: ", (int)message->line);
    }
    return trivet__text_print(text, size, "%s%s%s%s%s%s", place, message->thing,
                              message->thing[0] ? ": " : "", message->problem,
                              message->remedy[0] ? "; " : "", message->remedy);
}
