/*
 * Batches of variants of a ladder, all cases of each: trivet_plan_solve beside the bare loop
 * (bare.h), one after the other by turns on one thread; and two threads beside one. "checked" is
 * solving and making all checks of the variant, as a sweep does. Prints JSON.
 *
 * bench_variants                        all sizes
 * bench_variants serve STATIONS CASES   answers lines from standard input, one of: describe, ours,
 *                                       checked, bare, one, two; times in us a variant, of one and
 *                                       two threads those with checks. bench_variants.py
 *                                       asks, and lets NumPy and SciPy take their turn.
 */
#include "bare.h"
#include "ladder.h"
#include "timing.h"

#include <cblas.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { VARIANTS = 32, ROUNDS = 15, THREADS = 2, LEAST_SOLVES = 160000 };

typedef struct solver {
    trivet_workspace *workspace;
    trivet_result *result;
    trivet_checks *checks;
} solver;

typedef struct batch {
    int32_t size, cases;
    int repeats; /* of all variants, for one time */
    trivet_frame *frames[VARIANTS];
    trivet_plan *plan;
    solver solvers[THREADS];
    bare_frame bares[VARIANTS];
    bare_room room;
} batch;

static batch *make_batch(int stations, int32_t cases)
{
    trivet_message message;
    batch *of = take(1, sizeof *of);
    for (int v = 0; v < VARIANTS; v++) {
        of->frames[v] = ladder_frame(stations, cases, v);
        bare_frame_read(of->frames[v], &of->bares[v]);
    }
    stop_unless(trivet_plan_new(of->frames[0], &of->plan, &message), &message);
    for (int t = 0; t < THREADS; t++) {
        solver *one = &of->solvers[t];
        stop_unless(trivet_workspace_new(of->plan, &one->workspace, &message), &message);
        stop_unless(trivet_result_new(of->plan, &one->result, &message), &message);
    }
    bare_room_make(&of->bares[0], &of->room);
    of->size = of->room.size;
    of->cases = cases;
    of->repeats = 1 + LEAST_SOLVES / (VARIANTS * of->size * (4 + (int)cases));
    return of;
}

static void free_batch(batch *of)
{
    bare_room_free(&of->room);
    for (int t = 0; t < THREADS; t++) {
        trivet_checks_free(of->solvers[t].checks);
        trivet_result_free(of->solvers[t].result);
        trivet_workspace_free(of->solvers[t].workspace);
    }
    trivet_plan_free(of->plan);
    for (int v = 0; v < VARIANTS; v++) {
        bare_frame_free(&of->bares[v]);
        trivet_frame_free(of->frames[v]);
    }
    free(of);
}

static void solve_ours(const batch *of, int variant, const solver *by)
{
    trivet_message message;
    stop_unless(
        trivet_plan_solve(of->plan, of->frames[variant], by->workspace, by->result, &message),
        &message);
}

/* Solved and checked: every check is made, the worst of each line kept. */
static void check_ours(const batch *of, int variant, const solver *by)
{
    trivet_message message;
    solve_ours(of, variant, by);
    stop_unless(
        trivet_checks_worst_again(by->checks, of->frames[variant], by->result, NULL, &message),
        &message);
}

/* The first time it takes the room for checks. */
static void start_checks(batch *of)
{
    trivet_message message;
    for (int t = 0; t < THREADS; t++) {
        solver *by = &of->solvers[t];
        solve_ours(of, 0, by);
        stop_unless(trivet_checks_new(of->frames[0], by->result, NULL, &by->checks, &message),
                    &message);
        check_ours(of, 0, by);
    }
}

static void solve_bare(batch *of, int variant)
{
    if (bare_solve(&of->bares[variant], &of->room) != 0) {
        fprintf(stderr, "the bare loop could not solve a variant\n");
        exit(EXIT_FAILURE);
    }
}

/* us a variant */
static double time_ours(const batch *of)
{
    const double start = now();
    for (int k = 0; k < of->repeats * VARIANTS; k++) {
        solve_ours(of, k % VARIANTS, &of->solvers[0]);
    }
    return 1e6 * (now() - start) / (of->repeats * VARIANTS);
}

static double time_checked(const batch *of)
{
    const double start = now();
    for (int k = 0; k < of->repeats * VARIANTS; k++) {
        check_ours(of, k % VARIANTS, &of->solvers[0]);
    }
    return 1e6 * (now() - start) / (of->repeats * VARIANTS);
}

static double time_bare(batch *of)
{
    const double start = now();
    for (int k = 0; k < of->repeats * VARIANTS; k++) {
        solve_bare(of, k % VARIANTS);
    }
    return 1e6 * (now() - start) / (of->repeats * VARIANTS);
}

typedef struct share {
    const batch *of;
    int thread, threads, solves;
} share;

static void *solve_share(void *given)
{
    const share *mine = given;
    for (int k = mine->thread; k < mine->solves; k += mine->threads) {
        check_ours(mine->of, k % VARIANTS, &mine->of->solvers[mine->thread]);
    }
    return NULL;
}

/* us a variant, threads and their start included; long enough for that not to count. */
static double time_threads(const batch *of, int threads)
{
    const int solves = 8 * of->repeats * VARIANTS;
    share shares[THREADS];
    pthread_t started[THREADS];
    const double start = now();
    for (int t = 0; t < threads; t++) {
        shares[t] = (share){of, t, threads, solves};
        if (pthread_create(&started[t], NULL, solve_share, &shares[t]) != 0) {
            fprintf(stderr, "no thread could be started\n");
            exit(EXIT_FAILURE);
        }
    }
    for (int t = 0; t < threads; t++) {
        pthread_join(started[t], NULL);
    }
    return 1e6 * (now() - start) / solves;
}

/* Both must have solved the same thing: the largest difference of movements, over the largest. */
static double find_difference(batch *of)
{
    double difference = 0.0;
    for (int v = 0; v < VARIANTS; v++) {
        double largest = 0.0;
        double apart = 0.0;
        solve_ours(of, v, &of->solvers[0]);
        solve_bare(of, v);
        const double *moves = trivet_result_moves(of->solvers[0].result, NULL, NULL);
        for (int32_t c = 0; c < of->cases; c++) {
            for (int32_t i = 0; i < of->size; i++) {
                const double ours = moves[c * (of->size + 12) + 12 + i];
                const double theirs = of->room.values[c * of->size + i];
                largest = fmax(largest, fabs(ours));
                apart = fmax(apart, fabs(ours - theirs));
            }
        }
        difference = fmax(difference, apart / largest);
    }
    return difference;
}

static void require_agreement(batch *of)
{
    const double most = 1e-7; /* condition numbers reach 1e8 here */
    const double difference = find_difference(of);
    if (!(difference <= most)) {
        fprintf(stderr, "movements differ by %g of the largest\n", difference);
        exit(EXIT_FAILURE);
    }
}

/* How many times as fast as the bare loop, without and with checks. */
typedef struct ratios {
    double solved;
    double checked;
} ratios;

static ratios measure(batch *of, int is_last)
{
    double ours[ROUNDS];
    double checked[ROUNDS];
    double bare[ROUNDS];
    double ratio[ROUNDS];
    double ratio_checked[ROUNDS];
    double speed_up[ROUNDS];
    for (int round = 0; round < ROUNDS; round++) {
        ours[round] = time_ours(of);
        checked[round] = time_checked(of);
        bare[round] = time_bare(of);
        ratio[round] = bare[round] / ours[round];
        ratio_checked[round] = bare[round] / checked[round];
        speed_up[round] = time_threads(of, 1) / time_threads(of, 2);
    }
    printf(" {\"equations\": %d, \"cases\": %d, ", (int)of->size, (int)of->cases);
    print_spread("ours_us", ours, ROUNDS, 1.0, ", ");
    print_spread("checked_us", checked, ROUNDS, 1.0, ", ");
    print_spread("bare_us", bare, ROUNDS, 1.0, ",\n  ");
    print_spread("times_as_fast", ratio, ROUNDS, 1.0, ", ");
    print_spread("times_as_fast_checked", ratio_checked, ROUNDS, 1.0, ",\n  ");
    print_spread("two_threads", speed_up, ROUNDS, 1.0, is_last ? "}\n" : "},\n");
    fflush(stdout);
    return (ratios){median(ratio, ROUNDS), median(ratio_checked, ROUNDS)};
}

static void measure_all(void)
{
    static const int stations[] = {5, 10, 15, 20, 28, 30}; /* 60 to 360 equations */
    static const int32_t cases[] = {5, 10, 20};
    enum { SIZES = sizeof stations / sizeof *stations, COUNTS = sizeof cases / sizeof *cases };
    double solved = 0.0;
    double checked = 0.0;
    printf("{\"benchmark\": \"variants\", \"variants\": %d, \"rounds\": %d, \"blas_threads\": 1, "
           "\"frames\": [\n",
           VARIANTS, ROUNDS);
    for (int i = 0; i < SIZES * COUNTS; i++) {
        batch *of = make_batch(stations[i / COUNTS], cases[i % COUNTS]);
        require_agreement(of); /* warms up, too */
        start_checks(of);
        const ratios one = measure(of, i + 1 == SIZES * COUNTS);
        solved += log(one.solved);
        checked += log(one.checked);
        free_batch(of);
    }
    printf("], \"times_as_fast_in_geometric_mean\": %.3f,\n"
           " \"times_as_fast_checked_in_geometric_mean\": %.3f}\n",
           exp(solved / (SIZES * COUNTS)), exp(checked / (SIZES * COUNTS)));
}

static void print_numbers(const char *name, const double *values, int32_t count, const char *end)
{
    printf("\"%s\": [", name);
    for (int32_t i = 0; i < count; i++) {
        printf("%s%.17g", i > 0 ? ", " : "", values[i]);
    }
    printf("]%s", end);
}

/* What a variant is, and the movements that solve it. */
static void describe_variant(batch *of, int v)
{
    const bare_frame *frame = &of->bares[v];
    solve_bare(of, v);
    printf("{");
    print_numbers("places", frame->places, 3 * frame->joint_count, ", \"elements\": [");
    for (int32_t e = 0; e < frame->element_count; e++) {
        const bare_element *element = &frame->elements[e];
        printf("%s{\"joints\": [%d, %d], ", e > 0 ? ", " : "", (int)element->joints[0],
               (int)element->joints[1]);
        print_numbers("stiffs", element->stiffs, BARE_STIFFS, ", ");
        printf("\"mass\": %.17g}", element->mass);
    }
    printf("], ");
    print_numbers("moves", of->room.values, of->size * of->cases, "}");
}

static void describe(batch *of)
{
    printf("{\"reach\": %d, \"spring\": %.17g, \"loads\": [", (int)of->room.reach, LADDER_SPRING);
    for (int32_t c = 0; c < of->cases; c++) {
        double load[3];
        ladder_load(c, load);
        printf("%s[%.17g, %.17g, %.17g]", c > 0 ? ", " : "", load[0], load[1], load[2]);
    }
    printf("], \"variants\": [");
    for (int v = 0; v < VARIANTS; v++) {
        describe_variant(of, v);
        printf(v + 1 < VARIANTS ? ", " : "]}\n");
    }
}

static int serve(int stations, int32_t cases)
{
    char line[16];
    batch *of = make_batch(stations, cases);
    require_agreement(of);
    start_checks(of);
    while (fgets(line, sizeof line, stdin)) {
        if (strcmp(line, "describe\n") == 0) {
            describe(of);
        } else if (strcmp(line, "ours\n") == 0) {
            printf("%.6g\n", time_ours(of));
        } else if (strcmp(line, "checked\n") == 0) {
            printf("%.6g\n", time_checked(of));
        } else if (strcmp(line, "bare\n") == 0) {
            printf("%.6g\n", time_bare(of));
        } else if (strcmp(line, "one\n") == 0) {
            printf("%.6g\n", time_threads(of, 1));
        } else if (strcmp(line, "two\n") == 0) {
            printf("%.6g\n", time_threads(of, 2));
        } else {
            fprintf(stderr, "not understood: %s", line);
            return EXIT_FAILURE;
        }
        fflush(stdout);
    }
    free_batch(of);
    return EXIT_SUCCESS;
}

int main(int count, char **words)
{
    openblas_set_num_threads(1);
    if (count == 4 && strcmp(words[1], "serve") == 0) {
        const long stations = strtol(words[2], NULL, 10);
        const long cases = strtol(words[3], NULL, 10);
        if (stations > 0 && stations <= 80 && cases > 0 && cases <= 100) {
            return serve((int)stations, (int32_t)cases);
        }
    }
    if (count != 1) {
        fprintf(stderr, "usage: bench_variants [serve STATIONS CASES]\n");
        return EXIT_FAILURE;
    }
    measure_all();
    return EXIT_SUCCESS;
}
