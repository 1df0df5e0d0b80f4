/*
 * Structs that carry their size: only the sizes that we have had are accepted.
 */
#ifndef TRIVET_TESTS_SIZES_H
#define TRIVET_TESTS_SIZES_H

#include "trivet/base.h"

#include <check.h>
#include <stdio.h>

/*
 * Fails unless a ..._defaults function takes the size of its struct, of type, and no other from 0
 * to two too large; where it refuses, the struct's own size stays as it was.
 */
#define defaults_take_own_size(type, defaults)                                                     \
    do {                                                                                           \
        union {                                                                                    \
            type of;                                                                               \
            char room[sizeof(type) + 2];                                                           \
        } sized;                                                                                   \
        for (size_t own_size = 0; own_size <= sizeof(type) + 2; own_size++) {                      \
            const int is_own = own_size == sizeof(type);                                           \
            sized.of.size = 99;                                                                    \
            ck_assert_int_eq(defaults(&sized.of, own_size), is_own ? TRIVET_OK : TRIVET_BAD_SIZE); \
            ck_assert_uint_eq(sized.of.size, is_own ? own_size : 99);                              \
        }                                                                                          \
        ck_assert_int_eq(defaults(NULL, 8), TRIVET_MISSING_ARGUMENT);                              \
        ck_assert_int_eq(defaults(NULL, sizeof(type)), TRIVET_MISSING_ARGUMENT);                   \
    } while (0)

/* Fails unless the message's problem names both sizes. */
static inline void names_both_sizes(const trivet_message *message, size_t given, size_t known)
{
    char both[80];
    snprintf(both, sizeof both, "its size is %zu bytes, this library knows %zu", given, known);
    ck_assert_str_eq(message->problem, both);
}

#endif
