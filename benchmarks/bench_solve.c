/*
 * Time of a whole solve (assemble, factor, ten cases, recover) beside that of the bare factor and
 * solve of a band matrix with as many equations, the same reach and as many right-hand sides, in
 * the same run and by turns. JSON to standard output.
 *
 * The frames are racks like ladders: two rails, a rung at every station, the first station clamped,
 * every fifth one on springs. One BLAS thread.
 */
#define _POSIX_C_SOURCE 200809L

#include <cblas.h>
#include <lapacke.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <trivet/trivet.h>

enum {
    RUNS = 21,
    TURNS = 25, /* solves of each kind in a run; the run's time is their median */
    CASES = 10,
    SPRUNG_EVERY = 5
};

#define STATION 0.2 /* m */
#define WIDE 0.4    /* m */

static void stop_unless(trivet_status status, const trivet_message *message)
{
    if (status != TRIVET_OK) {
        fprintf(stderr, "%s: %s; %s\n", message->thing, message->problem, message->remedy);
        exit(EXIT_FAILURE);
    }
}

static void *take(size_t count, size_t size)
{
    void *block = calloc(count, size);
    if (!block) {
        fprintf(stderr, "not enough memory\n");
        exit(EXIT_FAILURE);
    }
    return block;
}

static int32_t add_stock(trivet_frame *frame, const char *name, double width, double wall)
{
    trivet_message message;
    trivet_profile profile;
    trivet_material material;
    int32_t stock = -1;
    trivet_profile_defaults(&profile, sizeof profile);
    trivet_material_defaults(&material, sizeof material);
    profile.shape = TRIVET_SHAPE_SQUARE_TUBE;
    profile.width = width;
    profile.wall = wall;
    material.E = 210e9;
    material.G = 81e9;
    material.density = 7850.0;
    stop_unless(trivet_frame_add_stock(frame, name, &profile, &material, &stock, &message),
                &message);
    return stock;
}

static void add_tube(trivet_frame *frame, int32_t first, int32_t last, int32_t stock)
{
    trivet_message message;
    const int32_t joints[2] = {first, last};
    char name[16];
    snprintf(name, sizeof name, "t%d", (int)trivet_frame_count(frame, TRIVET_KIND_TUBE));
    stop_unless(trivet_frame_add_tube(frame, name, joints, 2, stock, 0.0, NULL, &message),
                &message);
}

static void add_mount(trivet_frame *frame, int32_t joint, uint32_t held, double spring)
{
    trivet_message message;
    trivet_mount mount;
    trivet_mount_defaults(&mount, sizeof mount);
    mount.joint = joint;
    mount.held = held;
    mount.spring[2] = spring;
    stop_unless(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
}

/* Cases in turn: weight, a push on every third joint, line loads on every second tube. */
static void add_cases(trivet_frame *frame)
{
    trivet_message message;
    for (int32_t c = 0; c < CASES; c++) {
        const double down[3] = {0.1 * c, 0.05 * c, -1.0 - 0.1 * c};
        const double push[3] = {10.0 * c, -5.0, -100.0};
        const double line[3] = {0.0, 20.0, -200.0 - c};
        char name[16];
        snprintf(name, sizeof name, "case %d", (int)c);
        stop_unless(trivet_frame_add_case(frame, name, c % 3 == 0 ? down : NULL, NULL, &message),
                    &message);
        for (int32_t joint = 2; c % 3 == 1 && joint < trivet_frame_count(frame, TRIVET_KIND_JOINT);
             joint += 3) {
            stop_unless(trivet_frame_add_joint_force(frame, c, joint, push, NULL, &message),
                        &message);
        }
        for (int32_t tube = 0; c % 3 == 2 && tube < trivet_frame_count(frame, TRIVET_KIND_TUBE);
             tube += 2) {
            stop_unless(trivet_frame_add_tube_line(frame, c, tube, 0.0, 0.9 * STATION, line, line,
                                                   TRIVET_WORLD_AXES, &message),
                        &message);
        }
    }
}

/* 12 equations a station behind the first. */
static trivet_frame *ladder_frame(int stations)
{
    trivet_message message;
    trivet_frame *frame = NULL;
    stop_unless(trivet_frame_new(&frame, &message), &message);
    const int32_t rail = add_stock(frame, "rail", 0.025, 0.002);
    const int32_t rung = add_stock(frame, "rung", 0.020, 0.0015);
    for (int32_t i = 0; i <= stations; i++) {
        for (int32_t side = 0; side < 2; side++) {
            const double place[3] = {-STATION * i, WIDE * (0.5 - side), 0.0};
            char name[16];
            snprintf(name, sizeof name, "%c%d", side == 0 ? 'L' : 'R', (int)i);
            stop_unless(trivet_frame_add_joint(frame, name, place, NULL, &message), &message);
            if (i == 0) {
                add_mount(frame, side, TRIVET_ALL, 0.0);
            } else if (i % SPRUNG_EVERY == 0) {
                add_mount(frame, 2 * i + side, 0, 1e6);
            }
        }
    }
    for (int32_t i = 0; i <= stations; i++) {
        for (int32_t side = 0; side < 2 && i > 0; side++) {
            add_tube(frame, 2 * (i - 1) + side, 2 * i + side, rail);
        }
        if (i > 0) {
            add_tube(frame, 2 * i, 2 * i + 1, rung);
        }
    }
    add_cases(frame);
    return frame;
}

static double now(void)
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

/* Sorts, too. */
static double median(double *times, size_t count)
{
    qsort(times, count, sizeof *times, compare_times);
    return count % 2 == 1 ? times[count / 2] : 0.5 * (times[count / 2 - 1] + times[count / 2]);
}

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
    double *fresh;
    double *band;
    double *values;
} bare;

/* s for one factor and solve; the copies before it are not counted. */
static double time_bare(const bare *of)
{
    memcpy(of->band, of->fresh, of->entries * sizeof *of->band);
    for (int32_t i = 0; i < of->size * CASES; i++) {
        of->values[i] = 1.0 + 0.001 * i;
    }
    const double start = now();
    const int factored =
        LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', of->size, of->reach, of->band, of->reach + 1);
    const int solved = LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', of->size, of->reach, CASES,
                                           of->band, of->reach + 1, of->values, of->size);
    const double time = now() - start;
    if (factored != 0 || solved != 0) {
        fprintf(stderr, "the band matrix could not be solved\n");
        exit(EXIT_FAILURE);
    }
    return time;
}

typedef struct whole {
    trivet_frame *frame;
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
} whole;

static double time_whole(const whole *of)
{
    trivet_message message;
    const double start = now();
    const trivet_status status =
        trivet_plan_solve(of->plan, of->frame, of->workspace, of->result, &message);
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
}

static void print_spread(const char *name, double *values, double scale, const char *end)
{
    const double middle = median(values, RUNS);
    printf("\"%s\": {\"median\": %.4g, \"least\": %.4g, \"most\": %.4g}%s", name, scale * middle,
           scale * values[0], scale * values[RUNS - 1], end);
}

static void measure(const whole *ours, const bare *theirs)
{
    double solve[RUNS];
    double factor[RUNS];
    double ratio[RUNS];
    for (int run = 0; run < RUNS; run++) {
        double one[TURNS];
        double other[TURNS];
        for (int turn = 0; turn < TURNS; turn++) {
            one[turn] = time_whole(ours);
            other[turn] = time_bare(theirs);
        }
        solve[run] = median(one, TURNS);
        factor[run] = median(other, TURNS);
        ratio[run] = solve[run] / factor[run];
    }
    printf("  {\"equations\": %d, \"bandwidth\": %d, ", (int)theirs->size, (int)theirs->reach);
    print_spread("solve_us", solve, 1e6, ", ");
    print_spread("lapack_us", factor, 1e6, ",\n   ");
    print_spread("ratio", ratio, 1.0, "}");
}

static void measure_ladder(int stations)
{
    trivet_message message;
    whole ours = {.frame = ladder_frame(stations)};
    stop_unless(trivet_plan_new(ours.frame, &ours.plan, &message), &message);
    stop_unless(trivet_workspace_new(ours.plan, &ours.workspace, &message), &message);
    stop_unless(trivet_result_new(ours.plan, &ours.result, &message), &message);
    bare theirs = {0};
    theirs.size = trivet_plan_size(ours.plan, &theirs.reach);
    theirs.entries = (size_t)theirs.size * (size_t)(theirs.reach + 1);
    theirs.fresh = full_band(theirs.size, theirs.reach);
    theirs.band = take(theirs.entries, sizeof *theirs.band);
    theirs.values = take((size_t)theirs.size * CASES, sizeof *theirs.values);
    measure(&ours, &theirs);
    free(theirs.fresh);
    free(theirs.band);
    free(theirs.values);
    trivet_result_free(ours.result);
    trivet_workspace_free(ours.workspace);
    trivet_plan_free(ours.plan);
    trivet_frame_free(ours.frame);
}

int main(void)
{
    const int stations[] = {5, 10, 20, 30}; /* 60, 120, 240, 360 equations */
    const size_t count = sizeof stations / sizeof stations[0];
    openblas_set_num_threads(1);
    printf("{\"benchmark\": \"solve\", \"cases\": %d, \"runs\": %d, \"blas_threads\": 1, "
           "\"frames\": [\n",
           CASES, RUNS);
    for (size_t i = 0; i < count; i++) {
        measure_ladder(stations[i]);
        printf("%s\n", i + 1 < count ? "," : "");
    }
    printf("]}\n");
    return EXIT_SUCCESS;
}
