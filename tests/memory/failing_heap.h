/*
 * A heap that counts, and fails when it is told to. Linked with -Wl,--wrap for malloc, calloc,
 * realloc and free, it stands between the objects of a program and the C library.
 */
#ifndef TRIVET_TESTS_FAILING_HEAP_H
#define TRIVET_TESTS_FAILING_HEAP_H

/* Starts a count: request number fail_at from here fails, once; 0: none fails. */
void heap_start(long fail_at);

/* Requests since heap_start. */
long heap_requests(void);

/* Counts one more request, from whoever stands before the heap; whether it is to fail. */
int heap_next_fails(void);

/* Whether the request that was to fail has come. */
int heap_failed(void);

/* Blocks taken since heap_start that were not given back. */
long heap_blocks_held(void);

#endif
