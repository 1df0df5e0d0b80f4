#define _POSIX_C_SOURCE 200809L

#include "timing.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

static int compare_times(const void *one, const void *other)
{
    const double a = *(const double *)one;
    const double b = *(const double *)other;
    return (a > b) - (a < b);
}

double median(double *values, size_t count)
{
    qsort(values, count, sizeof *values, compare_times);
    return count % 2 == 1 ? values[count / 2] : 0.5 * (values[count / 2 - 1] + values[count / 2]);
}

void print_spread(const char *name, double *values, size_t count, double scale, const char *end)
{
    const double middle = median(values, count);
    printf("\"%s\": {\"median\": %.4g, \"least\": %.4g, \"most\": %.4g}%s", name, scale * middle,
           scale * values[0], scale * values[count - 1], end);
}
