/*
 * Arithmetic on quantities with units: the one reader behind trivet_quantity_read, gauges and the
 * expressions of the file.
 */
#ifndef TRIVET_BASE_QUANTITY_H
#define TRIVET_BASE_QUANTITY_H

#include "base/pool.h"
#include "trivet/base.h"

/* What the reader asks of others. Either function may be NULL: then names or gauges are refused. */
typedef struct trivet__quantity_hooks {
    /* The value of name[length], which stands at column in the text. */
    trivet_status (*name)(void *user, const char *name, size_t length, trivet_quantity *out,
                          trivet_message *message);
    /* The thickness of "number ga system[length]"; length 0 if no system follows. In m. */
    trivet_status (*gauge)(void *user, double number, const char *system, size_t length,
                           double *out, trivet_message *message);
    void *user;
    /* The number under which a program asks for a name again. NULL: programs cannot be made. */
    int32_t (*number)(void *user, const char *name, size_t length);
} trivet__quantity_hooks;

/*
 * Reads text[length]. On failure message->line is 0 and message->column the place in text, in
 * characters from 1; thing is the text itself, cut if long. hooks may be NULL.
 */
trivet_status trivet__quantity_parse(const char *text, size_t length,
                                     const trivet__quantity_hooks *hooks,
                                     trivet_quantity *quantity_out, trivet_message *message);

#endif
