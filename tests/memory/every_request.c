#include "every_request.h"

#include "failing_heap.h"

#include <stdio.h>
#include <stdlib.h>

static long current_request;

int attempt_again(void *user, trivet_status status)
{
    attempt *const try = user;
    if (status != TRIVET_NO_MEMORY || !heap_failed() || try->refusals > 0) {
        fprintf(stderr, "request %ld: status %d: %s: %s\n", current_request, (int)status,
                try->message.thing, try->message.problem);
        exit(1);
    }
    try->refusals++;
    attempt_needs(try->message.status == TRIVET_NO_MEMORY, "the message does not say so");
    return try->makes_again;
}

void attempt_needs(int holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "request %ld: %s\n", current_request, what);
        exit(1);
    }
}

void attempt_every_request(const char *name, attempt_work *work, long at_least)
{
    attempt first = {0};
    heap_start(0);
    const uint64_t wanted = work(&first);
    const long requests = heap_requests();
    printf("%s: %ld requests\n", name, requests);
    attempt_needs(requests >= at_least, "fewer requests than expected: is the heap linked in?");
    attempt_needs(wanted != 0 && heap_blocks_held() == 0, "the undisturbed run keeps memory");
    for (long n = 1; n <= requests; n++) {
        current_request = n;
        for (int makes_again = 0; makes_again < 2; makes_again++) {
            attempt try = {0};
            try.makes_again = makes_again;
            heap_start(n);
            const uint64_t got = work(&try);
            attempt_needs(heap_failed(), "did not come: the work does not repeat itself");
            attempt_needs(try.refusals == 1, "failed, and no call said so");
            attempt_needs(got == (makes_again ? wanted : 0), "changed the result");
            attempt_needs(heap_blocks_held() == 0, "left memory that was not given back");
        }
    }
}
