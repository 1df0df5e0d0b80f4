/*
 * Plain structs that may grow begin with their own size, which the caller hands in. What that size
 * may be is known here alone.
 */
#ifndef TRIVET_BASE_DEFAULTS_H
#define TRIVET_BASE_DEFAULTS_H

#include "base/message.h"

/*
 * Zeros and the size, for a struct of own bytes. Missing argument if out is NULL, bad size if the
 * caller's struct is not one this library has had; then nothing is written.
 */
trivet_status trivet__defaults(void *out, size_t size, size_t own);

/*
 * TRIVET_OK if what is read from a handle may be written into out, a struct of own bytes. Missing
 * argument if either is NULL, bad size if out does not begin with a size that this library has had.
 */
trivet_status trivet__out_check(const void *from, const void *out, size_t own);

/* The same of a struct that is there, in words. what: the struct; remedy: what to fill it with. */
trivet_status trivet__size_check(size_t size, size_t own, const char *what, const char *remedy,
                                 trivet_message *message);

#endif
