/*
 * A folder for the stores of one test, and what most tests do in it.
 */
#ifndef TRIVET_TESTS_STORE_PLACE_H
#define TRIVET_TESTS_STORE_PLACE_H

#include "sweep/store.h"

/* Before and after each test: makes the folder, removes it with all that is in it. */
void place_make(void);
void place_remove(void);

/* The path of a name in the folder; valid until asked some sixty more times. */
const char *place_path(const char *name);

/* Whether the file of that name is there. */
int place_has(const char *name);

/* Fails with the message unless status is TRIVET_OK. */
void fine(trivet_status status, const trivet_message *message);

/* Opens "runs.sqlite" for the whole made-up sweep; with all rows, then finished and closed. */
trivet__store *place_open(int64_t count);

/* Puts rows and their checks up to end, in batches. */
void place_feed(trivet__store *store, int64_t end, int32_t batch);

/* Finishes and closes a store; the hash of its content. */
uint64_t place_finish(trivet__store *store);

/* The hash of the content of a store that is read. */
uint64_t place_hash(const char *name);

/* A finished store of a part, with checks; its path. */
const char *place_part(const char *name, int64_t count, int64_t first, int64_t end);

#endif
