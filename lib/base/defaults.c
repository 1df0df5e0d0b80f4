/*
 * The common part of all ..._defaults functions.
 */
#include "base/defaults.h"

#include <string.h>

trivet_status trivet__defaults(void *out, size_t size, size_t own)
{
    if (!out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (size != own) {
        return TRIVET_BAD_SIZE;
    }
    memset(out, 0, own);
    memcpy(out, &size, sizeof size);
    return TRIVET_OK;
}
