/*
 * The common part of all ..._defaults functions, and of all that read or fill such structs.
 */
#include "base/defaults.h"

#include <string.h>

/* None of the structs has grown yet. */
static int is_known(size_t size, size_t own)
{
    return size == own;
}

trivet_status trivet__defaults(void *out, size_t size, size_t own)
{
    if (!out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (!is_known(size, own)) {
        return TRIVET_BAD_SIZE;
    }
    memset(out, 0, own);
    memcpy(out, &size, sizeof size);
    return TRIVET_OK;
}

trivet_status trivet__out_check(const void *from, const void *out, size_t own)
{
    if (!from || !out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    size_t size = 0;
    memcpy(&size, out, sizeof size);
    return is_known(size, own) ? TRIVET_OK : TRIVET_BAD_SIZE;
}

trivet_status trivet__size_check(size_t size, size_t own, const char *what, const char *remedy,
                                 trivet_message *message)
{
    if (is_known(size, own)) {
        return TRIVET_OK;
    }
    trivet__refuse(message, TRIVET_BAD_SIZE, what, "", remedy);
    trivet__message_problem(message, "its size is %zu bytes, this library knows %zu", size, own);
    return TRIVET_BAD_SIZE;
}
