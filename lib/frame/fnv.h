/*
 * FNV-1a, 64 bits (Fowler, Noll, Vo; constants from memory): for names; topology.c goes by numbers.
 */
#ifndef TRIVET_FRAME_FNV_H
#define TRIVET_FRAME_FNV_H

#include <stdint.h>

#define TRIVET__FNV_START UINT64_C(14695981039346656037)
#define TRIVET__FNV_PRIME UINT64_C(1099511628211)

static inline uint64_t trivet__fnv_byte(uint64_t hash, unsigned char byte)
{
    return (hash ^ byte) * TRIVET__FNV_PRIME;
}

static inline uint64_t trivet__fnv_text(uint64_t hash, const char *text)
{
    uint64_t mixed = hash;
    for (const char *c = text; *c != '\0'; c++) {
        mixed = trivet__fnv_byte(mixed, (unsigned char)*c);
    }
    return mixed;
}

#endif
