/*
 * Under the address sanitizer, what lies between pieces of one block is out of bounds.
 */
#ifndef TRIVET_BASE_WATCHED_H
#define TRIVET_BASE_WATCHED_H

#if defined(__SANITIZE_ADDRESS__)
#define TRIVET__IS_WATCHED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define TRIVET__IS_WATCHED 1
#endif
#endif

#ifdef TRIVET__IS_WATCHED
#include <sanitizer/asan_interface.h>
#define TRIVET__FORBID(at, size) ASAN_POISON_MEMORY_REGION(at, size)
#define TRIVET__ALLOW(at, size) ASAN_UNPOISON_MEMORY_REGION(at, size)
enum { TRIVET__GAP = 32 }; /* bytes behind each piece */
#else
#define TRIVET__FORBID(at, size) ((void)(at), (void)(size))
#define TRIVET__ALLOW(at, size) ((void)(at), (void)(size))
enum { TRIVET__GAP = 0 };
#endif

#endif
