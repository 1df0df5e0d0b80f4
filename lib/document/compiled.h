/*
 * What was found out when a file was first resolved and need not be looked for again when it is
 * resolved with other values: its expressions as programs, `let` in the order of dependence.
 */
#ifndef TRIVET_DOCUMENT_COMPILED_H
#define TRIVET_DOCUMENT_COMPILED_H

#include "base/program.h"
#include "document/record.h"
#include "document/tree.h"

typedef struct trivet__compiled {
    trivet__pool pool;
    trivet__program *programs; /* [nodes of the tree]; of those that are no expressions, none */
    const trivet__let *lets;   /* [let_count], the first document's */
    int32_t *order;            /* [let_count] numbers of lets: what one needs stands before it */
    int32_t let_count;
} trivet__compiled;

#endif
