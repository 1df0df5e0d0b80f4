/*
 * From a tree to a document: section after section.
 */
#ifndef TRIVET_DOCUMENT_RESOLVE_H
#define TRIVET_DOCUMENT_RESOLVE_H

#include "document/reading.h"

/*
 * Asked once `let` is known; what it returns other than TRIVET_OK ends the reading. ask may be
 * NULL.
 */
typedef trivet_status trivet__after_let(const trivet__reading *reading, void *user);
typedef struct trivet__asked {
    trivet__after_let *ask;
    void *user;
} trivet__asked;

/* Fills the reading's empty document. */
trivet_status trivet__resolve(trivet__reading *reading, const trivet__asked *after_let);

#endif
