/*
 * Time of all checks of a variant, made again into the same handle, beside that of its solve and
 * beside that of the bare factor and solve of a band matrix with as many equations, the same reach
 * and as many right-hand sides, by turns in one run. JSON to standard output.
 *
 * The frames are those of ladder.h. "worst" is the worst of each line made again, "again" all
 * checks made again, both with their summary; "listed" is "again" and one check by its number,
 * which puts all in order; "new" is a handle of its own each time. The ratios are those of "worst".
 * One BLAS thread.
 */
#include "ladder.h"
#include "timing.h"

#include <cblas.h>
#include <lapacke.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    RUNS = 11,
    TURNS = 15, /* of each kind in a run; the run's time is their median */
    FRAMES = 7, /* variants that take their turn */
};

/* A positive definite band matrix: every entry is there, the diagonal is more than the rest. */
static double *full_band(int32_t size, int32_t reach)
{
    double *band = take((size_t)size * (size_t)(reach + 1), sizeof *band);
    for (int32_t j = 0; j < size; j++) {
        double *column = band + (ptrdiff_t)j * (reach + 1);
        column[0] = 2.0 * reach + 1.0;
        for (int32_t i = 1; i <= reach && j + i < size; i++) {
            column[i] = -1.0 + 0.01 * ((i + 3 * j) % 7);
        }
    }
    return band;
}

typedef struct bare {
    int32_t size;
    int32_t reach;
    size_t entries;
    int32_t cases;
    double *fresh;
    double *band;
    double *values;
} bare;

/* s for one factor and solve; the copies before it are not counted. */
static double time_bare(const bare *of)
{
    memcpy(of->band, of->fresh, of->entries * sizeof *of->band);
    for (int32_t i = 0; i < of->size * of->cases; i++) {
        of->values[i] = 1.0 + 0.001 * i;
    }
    const double start = now();
    const int factored =
        LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', of->size, of->reach, of->band, of->reach + 1);
    const int solved = LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', of->size, of->reach, of->cases,
                                           of->band, of->reach + 1, of->values, of->size);
    const double time = now() - start;
    if (factored != 0 || solved != 0) {
        fprintf(stderr, "the band matrix could not be solved\n");
        exit(EXIT_FAILURE);
    }
    return time;
}

typedef struct whole {
    trivet_frame *frames[FRAMES];
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
    trivet_checks *checks;
    trivet_checks *worst;
    int32_t variant;
} whole;

/* s for the solve of the next variant. */
static double time_solve(whole *of)
{
    trivet_message message;
    of->variant = (of->variant + 1) % FRAMES;
    const double start = now();
    const trivet_status status =
        trivet_plan_solve(of->plan, of->frames[of->variant], of->workspace, of->result, &message);
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
}

static const trivet_frame *frame_of(const whole *of)
{
    return of->frames[of->variant];
}

/* A call that makes checks again. */
typedef trivet_status make_again(trivet_checks *checks, const trivet_frame *frame,
                                 const trivet_result *result, const trivet_limits *limits,
                                 trivet_message *message);

/* s for the checks of the variant that was solved, and their summary. */
static double time_again(const whole *of, make_again *again, trivet_checks *checks)
{
    trivet_message message;
    const double start = now();
    const trivet_status status = again(checks, frame_of(of), of->result, NULL, &message);
    for (int32_t line = 0; status == TRIVET_OK && line < TRIVET_LINE_COUNT; line++) {
        trivet_check worst;
        trivet_check_defaults(&worst, sizeof worst);
        if (trivet_checks_worst(checks, line, &worst) == TRIVET_OK && isnan(worst.utilisation)) {
            fprintf(stderr, "a utilisation is no number\n");
            exit(EXIT_FAILURE);
        }
    }
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
}

/* s for one check out of the middle of the list of those just made. */
static double time_listed(const whole *of)
{
    trivet_check check;
    const double start = now();
    trivet_check_defaults(&check, sizeof check);
    (void)trivet_checks_at(of->checks, trivet_checks_count(of->checks) / 2, &check);
    return now() - start;
}

static double time_new(const whole *of)
{
    trivet_message message;
    trivet_checks *checks = NULL;
    const double start = now();
    const trivet_status status =
        trivet_checks_new(frame_of(of), of->result, NULL, &checks, &message);
    trivet_checks_free(checks);
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
}

/* What is timed. */
enum { SOLVE, BARE, WORST, AGAIN, LISTED, NEW, TIMED };

static void print_times(double times[TIMED][RUNS])
{
    double ratios[RUNS];
    for (int run = 0; run < RUNS; run++) {
        ratios[run] = times[WORST][run] / times[BARE][run];
    }
    print_spread("ratio", ratios, RUNS, 1.0, ",\n   ");
    for (int run = 0; run < RUNS; run++) {
        ratios[run] = times[WORST][run] / times[SOLVE][run];
    }
    print_spread("ratio_to_solve", ratios, RUNS, 1.0, ",\n   ");
    print_spread("worst_us", times[WORST], RUNS, 1e6, ",\n   ");
    print_spread("again_us", times[AGAIN], RUNS, 1e6, ",\n   ");
    print_spread("listed_us", times[LISTED], RUNS, 1e6, ",\n   ");
    print_spread("new_us", times[NEW], RUNS, 1e6, ",\n   ");
    print_spread("solve_us", times[SOLVE], RUNS, 1e6, ",\n   ");
    print_spread("lapack_us", times[BARE], RUNS, 1e6, "}");
}

static void measure(whole *ours, const bare *theirs)
{
    double times[TIMED][RUNS];
    for (int run = 0; run < RUNS; run++) {
        double turns[TIMED][TURNS];
        for (int turn = 0; turn < TURNS; turn++) {
            turns[SOLVE][turn] = time_solve(ours);
            turns[WORST][turn] = time_again(ours, trivet_checks_worst_again, ours->worst);
            turns[AGAIN][turn] = time_again(ours, trivet_checks_again, ours->checks);
            turns[LISTED][turn] = turns[AGAIN][turn] + time_listed(ours);
            turns[NEW][turn] = time_new(ours);
            turns[BARE][turn] = time_bare(theirs);
        }
        for (int kind = 0; kind < TIMED; kind++) {
            times[kind][run] = median(turns[kind], TURNS);
        }
    }
    printf("  {\"equations\": %d, \"bandwidth\": %d, \"cases\": %d, \"checks\": %d, ",
           (int)theirs->size, (int)theirs->reach, (int)theirs->cases,
           (int)trivet_checks_count(ours->checks));
    print_times(times);
}

static void measure_ladder(int stations, int32_t cases)
{
    trivet_message message;
    whole ours = {.variant = 0};
    for (int v = 0; v < FRAMES; v++) {
        ours.frames[v] = ladder_frame(stations, cases, v);
    }
    stop_unless(trivet_plan_new(ours.frames[0], &ours.plan, &message), &message);
    stop_unless(trivet_workspace_new(ours.plan, &ours.workspace, &message), &message);
    stop_unless(trivet_result_new(ours.plan, &ours.result, &message), &message);
    time_solve(&ours);
    stop_unless(trivet_checks_new(frame_of(&ours), ours.result, NULL, &ours.checks, &message),
                &message);
    stop_unless(trivet_checks_new(frame_of(&ours), ours.result, NULL, &ours.worst, &message),
                &message);
    bare theirs = {.cases = cases};
    theirs.size = trivet_plan_size(ours.plan, &theirs.reach);
    theirs.entries = (size_t)theirs.size * (size_t)(theirs.reach + 1);
    theirs.fresh = full_band(theirs.size, theirs.reach);
    theirs.band = take(theirs.entries, sizeof *theirs.band);
    theirs.values = take((size_t)theirs.size * (size_t)cases, sizeof *theirs.values);
    measure(&ours, &theirs);
    free(theirs.fresh);
    free(theirs.band);
    free(theirs.values);
    trivet_checks_free(ours.checks);
    trivet_checks_free(ours.worst);
    trivet_result_free(ours.result);
    trivet_workspace_free(ours.workspace);
    trivet_plan_free(ours.plan);
    for (int v = 0; v < FRAMES; v++) {
        trivet_frame_free(ours.frames[v]);
    }
}

int main(void)
{
    /* 60, 120, 240, 360 equations */
    static const int ladders[][2] = {{5, 5}, {10, 10}, {20, 20}, {30, 20}};
    const size_t count = sizeof ladders / sizeof ladders[0];
    openblas_set_num_threads(1);
    printf("{\"benchmark\": \"checks\", \"runs\": %d, \"blas_threads\": 1, \"frames\": [\n", RUNS);
    for (size_t i = 0; i < count; i++) {
        measure_ladder(ladders[i][0], ladders[i][1]);
        printf("%s\n", i + 1 < count ? "," : "");
    }
    printf("]}\n");
    return EXIT_SUCCESS;
}
