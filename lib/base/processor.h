/*
 * Functions that the compiler makes twice, for processors with and without 256-bit registers; the
 * loader picks one. Both do the same operations in the same order (no fused multiply-add), so the
 * bits of the results are the same. For static functions only: the copies forget that a symbol is
 * hidden. Sanitizers and other platforms get the plain one.
 */
#ifndef TRIVET_BASE_PROCESSOR_H
#define TRIVET_BASE_PROCESSOR_H

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define TRIVET__PLAIN_ONLY 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer) ||                         \
    __has_feature(memory_sanitizer)
#define TRIVET__PLAIN_ONLY 1
#endif
#endif

/* Clang 14 exports a resolver for each such function, hidden or not, so it gets the plain one. */
#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && !defined(__clang__) &&   \
    !defined(TRIVET__PLAIN_ONLY)
#define TRIVET__WIDE __attribute__((target_clones("avx2", "default")))
#else
#define TRIVET__WIDE
#endif

/* What such functions are made of: a copy that stays outside would be compiled only once. */
#ifdef __GNUC__
#define TRIVET__INSIDE static inline __attribute__((always_inline))
#else
#define TRIVET__INSIDE static inline
#endif

#endif
