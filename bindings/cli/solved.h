/*
 * A file read, solved and checked: what check, explain and rate begin with.
 */
#ifndef TRIVET_CLI_SOLVED_H
#define TRIVET_CLI_SOLVED_H

#include "command.h"

#include <trivet/document.h>

/* What was made on the way, to be freed in one place. Begin with zeros. */
typedef struct solved {
    trivet_document *document;
    const trivet_frame *frame; /* the document's */
    trivet_result *result;
    trivet_checks *checks;
    trivet_limits limits;
    trivet_units units;
} solved;

/* Reads a file and its settings. Statuses of the calls. */
trivet_status solved_read(const char *path, solved *all, trivet_message *message);
/* Reads, solves and checks. */
trivet_status solved_make(const char *path, solved *all, trivet_message *message);
void solved_free(solved *all);

/* Says what went wrong, with the message if it holds one. Returns the exit status. */
int solved_fail(const options *given, trivet_status status, const trivet_message *message);

#endif
