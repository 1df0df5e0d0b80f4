/*
 * Long work: progress on a terminal, and a clean stop when the user asks for one.
 */
#ifndef TRIVET_CLI_PROGRESS_H
#define TRIVET_CLI_PROGRESS_H

#include <stdint.h>

typedef struct progress {
    const char *what; /* "variants" */
    int is_shown;     /* standard error is a terminal */
    int64_t begun_at; /* done when it began; -1: not begun */
    double begun;     /* s */
    double shown;     /* s, when it was last shown */
} progress;

/* Begins; from now on the keys that stop a program ask for a clean stop. */
void progress_begin(progress *of, const char *what);
/* A trivet_sweep_progress with a progress as user. */
int progress_step(void *user, int64_t done, int64_t count);
/* Wipes the line. */
void progress_end(progress *of);

#endif
