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
    return own->plan ? solve_planned(own->reach, own->plan) : solve_alone(own->reach);
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
