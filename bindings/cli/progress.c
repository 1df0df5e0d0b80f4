/*
 * The line "12000 of 100000 variants, 850 a second, 1 min 44 s left", rewritten in place.
 */
#include "progress.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static volatile sig_atomic_t stop_wanted;

static void ask_to_stop(int number)
{
    (void)number;
    stop_wanted = 1;
}

static double now(void)
{
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

void progress_begin(progress *of, const char *what)
{
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = ask_to_stop;
    action.sa_flags = (int)SA_RESETHAND; /* a second time it stops at once */
    sigaction(SIGINT, &action, NULL);
    sigaction(SIGTERM, &action, NULL);
    *of = (progress){.what = what, .is_shown = isatty(STDERR_FILENO), .begun_at = -1};
}

static void show_time(double seconds)
{
    const long whole = (long)seconds;
    if (whole >= 3600) {
        fprintf(stderr, "%ld h %ld min", whole / 3600, whole / 60 % 60);
    } else if (whole >= 60) {
        fprintf(stderr, "%ld min %ld s", whole / 60, whole % 60);
    } else {
        fprintf(stderr, "%ld s", whole);
    }
}

int progress_step(void *user, int64_t done, int64_t count)
{
    progress *const of = user;
    const double at = of->is_shown ? now() : 0.0;
    if (of->begun_at < 0) {
        of->begun_at = done;
        of->begun = at;
    }
    if (of->is_shown && at - of->shown > 0.25) {
        const double rate = (double)(done - of->begun_at) / (at - of->begun + 1e-9);
        of->shown = at;
        fprintf(stderr, "\r\033[K%lld of %lld %s, %.0f a second", (long long)done, (long long)count,
                of->what, rate);
        if (rate > 0.0) {
            fputs(", ", stderr);
            show_time((double)(count - done) / rate);
            fputs(" left", stderr);
        }
        fflush(stderr);
    }
    return stop_wanted != 0;
}

void progress_end(progress *of)
{
    if (of->is_shown && of->begun_at >= 0) {
        fputs("\r\033[K", stderr);
        fflush(stderr);
    }
}
