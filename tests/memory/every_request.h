/*
 * Lets the 1st, 2nd, 3rd ... request for memory of a piece of work fail, until one run gets
 * through. Each run must answer TRIVET_NO_MEMORY at the call that met the failure, leave nothing
 * half made, and give everything back; made again, the same call must succeed, and the work must
 * come to the same end as if nothing had happened.
 */
#ifndef TRIVET_TESTS_EVERY_REQUEST_H
#define TRIVET_TESTS_EVERY_REQUEST_H

#include <trivet/base.h>

typedef struct attempt {
    int makes_again; /* whether a call that met the failure is made again, or the work given up */
    int refusals;    /* calls that answered TRIVET_NO_MEMORY */
    trivet_message message;
} attempt;

/*
 * Whether a call is to be made again: notes a refusal; ends the program on any other failure. Has
 * the form of a rack_again, user being the attempt.
 */
int attempt_again(void *user, trivet_status status);

/* Makes a call, and once more if that is wanted; the status of the last. */
#define ATTEMPT(try, status, call)                                                                 \
    do {                                                                                           \
        (status) = (call);                                                                         \
    } while ((status) != TRIVET_OK && attempt_again(try, status))

/* Ends the program with what unless holds. */
void attempt_needs(int holds, const char *what);

/*
 * A piece of work: does it all, frees all, and returns a number that is the same whenever it gets
 * to its end, or 0 if it was given up on the way.
 */
typedef uint64_t attempt_work(attempt *try);

/* Does the work over and over as said above; at least so many requests are expected. */
void attempt_every_request(const char *name, attempt_work *work, long at_least);

#endif
