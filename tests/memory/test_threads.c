/*
 * Two threads solve different racks, over and over, each with handles of its own; then two threads
 * share one plan. Every result must be, bit for bit, the one that a single thread gets. Built with
 * the thread sanitizer, this also shows that they share nothing that is written.
 */
#include "rack.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>

enum { ROUNDS = 50, THREADS = 2 };

typedef struct job {
    double reach;
    const trivet_plan *plan; /* shared, or NULL: one of its own each round */
    uint64_t wanted;
    int wrong;
} job;

static uint64_t solve_alone(double reach)
{
    trivet_frame *frame = NULL;
    trivet_result *result = NULL;
    trivet_checks *checks = NULL;
    uint64_t print = 0;
    if (rack_build(reach, NULL, NULL, &frame, NULL) == TRIVET_OK &&
        trivet_frame_solve(frame, &result, NULL) == TRIVET_OK &&
        trivet_checks_new(frame, result, NULL, &checks, NULL) == TRIVET_OK) {
        print = rack_print_of(result) + (uint64_t)trivet_checks_count(checks);
    }
    trivet_checks_free(checks);
    trivet_result_free(result);
    trivet_frame_free(frame);
    return print;
}

/* Checks of one rack after the other, made again into one handle. */
static uint64_t check_again(double reach)
{
    trivet_frame *frames[2] = {NULL, NULL};
    trivet_checks *checks = NULL;
    uint64_t print = 0;
    for (int i = 0; i < 4; i++) {
        trivet_result *result = NULL;
        trivet_check worst = {.size = sizeof worst};
        if ((i < 2 && rack_build(reach + 0.1 * i, NULL, NULL, &frames[i], NULL) != TRIVET_OK) ||
            trivet_frame_solve(frames[i % 2], &result, NULL) != TRIVET_OK ||
            (!checks && trivet_checks_new(frames[0], result, NULL, &checks, NULL) != TRIVET_OK) ||
            (i % 2 ? trivet_checks_again : trivet_checks_worst_again)(checks, frames[i % 2], result,
                                                                      NULL, NULL) != TRIVET_OK ||
            trivet_checks_worst(checks, TRIVET_LINE_OVERLOAD, &worst) != TRIVET_OK) {
            puts("a rack could not be checked again");
            exit(1);
        }
        print = 31 * print + (uint64_t)(1e9 * worst.utilisation) +
                (uint64_t)trivet_checks_count(checks);
        trivet_result_free(result);
    }
    trivet_checks_free(checks);
    trivet_frame_free(frames[0]);
    trivet_frame_free(frames[1]);
    return print;
}

static uint64_t solve_planned(double reach, const trivet_plan *plan)
{
    trivet_frame *frame = NULL;
    trivet_workspace *workspace = NULL;
    trivet_result *result = NULL;
    uint64_t print = 0;
    if (rack_build(reach, NULL, NULL, &frame, NULL) == TRIVET_OK &&
        trivet_workspace_new(plan, &workspace, NULL) == TRIVET_OK &&
        trivet_result_new(plan, &result, NULL) == TRIVET_OK &&
        trivet_plan_solve(plan, frame, workspace, result, NULL) == TRIVET_OK) {
        print = rack_print_of(result);
    }
    trivet_result_free(result);
    trivet_workspace_free(workspace);
    trivet_frame_free(frame);
    return print;
}

static uint64_t solve_once(const job *own)
{
    return own->plan ? solve_planned(own->reach, own->plan)
                     : solve_alone(own->reach) + check_again(own->reach);
}

static void *work(void *argument)
{
    job *const own = argument;
    for (int round = 0; round < ROUNDS; round++) {
        own->wrong += solve_once(own) != own->wanted;
    }
    return NULL;
}

/* Returns how many results were not those of a single thread. */
static int together(const char *what, const trivet_plan *plan)
{
    job jobs[THREADS] = {{0.18, plan, 0, 0}, {0.33, plan, 0, 0}};
    pthread_t threads[THREADS];
    int wrong = 0;
    for (int i = 0; i < THREADS; i++) {
        jobs[i].wanted = solve_once(&jobs[i]);
        if (jobs[i].wanted == 0) {
            printf("%s: a rack could not be solved\n", what);
            return 1;
        }
    }
    if (jobs[0].wanted == jobs[1].wanted) {
        printf("%s: different racks gave the same result\n", what);
        return 1;
    }
    for (int i = 0; i < THREADS; i++) {
        if (pthread_create(&threads[i], NULL, work, &jobs[i]) != 0) {
            puts("no thread could be started");
            exit(1);
        }
    }
    for (int i = 0; i < THREADS; i++) {
        pthread_join(threads[i], NULL);
        wrong += jobs[i].wrong;
    }
    printf("%s: %d of %d results differ from those of a single thread\n", what, wrong,
           THREADS * ROUNDS);
    return wrong;
}

int main(void)
{
    trivet_frame *frame = NULL;
    trivet_plan *plan = NULL;
    int wrong = together("handles of their own", NULL);
    if (rack_build(0.18, NULL, NULL, &frame, NULL) != TRIVET_OK ||
        trivet_plan_new(frame, &plan, NULL) != TRIVET_OK) {
        puts("the rack could not be planned");
        return 1;
    }
    wrong += together("one plan for both", plan);
    trivet_plan_free(plan);
    trivet_frame_free(frame);
    return wrong > 0;
}
