/*
 * Plain structs that may grow begin with their own size, which the caller hands in.
 */
#ifndef TRIVET_BASE_DEFAULTS_H
#define TRIVET_BASE_DEFAULTS_H

#include "trivet/base.h"

/*
 * Zeros and the size, for a struct of own bytes. Missing argument if out is NULL, bad size if the
 * caller's struct is not one this library has had; then nothing is written.
 */
trivet_status trivet__defaults(void *out, size_t size, size_t own);

#endif
