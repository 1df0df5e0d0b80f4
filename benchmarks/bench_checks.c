/*
 * Time of all checks of a variant, made again into the same handle, beside that of its solve and
 * beside that of the bare factor and solve of a band matrix with as many equations, the same reach
 * and as many right-hand sides, by turns in one run. JSON to standard output.
 *
 * The frames are racks like ladders of square tube: two rails from end to end, a rung at every
 * station, fillets at all ends, the first station clamped, every fifth one on springs, mounts with
 * limits. "worst" is the worst of each line made again, "again" all checks made again, both with
 * their summary; "listed" is "again" and one check by its number, which puts all in order; "new" is
 * a handle of its own each time. The ratios are those of "worst". One BLAS thread.
 */
#define _POSIX_C_SOURCE 200809L

#include <cblas.h>
#include <lapacke.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <trivet/trivet.h>

enum {
    RUNS = 11,
    TURNS = 15, /* of each kind in a run; the run's time is their median */
    STATIONS_MOST = 30,
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
    stop_unless(trivet_material_find("S235", &material, &message), &message);
    stop_unless(trivet_frame_add_stock(frame, name, &profile, &material, &stock, &message),
                &message);
    return stock;
}

static void add_tube(trivet_frame *frame, const int32_t *joints, int32_t count, int32_t stock)
{
    trivet_message message;
    trivet_weld weld;
    int32_t tube = -1;
    char name[16];
    snprintf(name, sizeof name, "t%d", (int)trivet_frame_count(frame, TRIVET_KIND_TUBE));
    stop_unless(trivet_frame_add_tube(frame, name, joints, count, stock, 0.0, &tube, &message),
                &message);
    trivet_weld_defaults(&weld, sizeof weld);
    stop_unless(trivet_frame_set_weld(frame, tube, -1, &weld, &message), &message);
}

static void add_mount(trivet_frame *frame, int32_t joint, uint32_t held, double spring)
{
    trivet_message message;
    trivet_mount mount;
    trivet_mount_defaults(&mount, sizeof mount);
    mount.joint = joint;
    mount.held = held;
    mount.spring[2] = spring;
    mount.limit_pull = 900.0;
    mount.limit_push = 3000.0;
    mount.limit_shear = 1500.0;
    stop_unless(trivet_frame_add_mount(frame, &mount, NULL, &message), &message);
}

/* Cases in turn: weight, a push on every third joint, line loads on every second rung. */
static void add_cases(trivet_frame *frame, int32_t cases)
{
    trivet_message message;
    for (int32_t c = 0; c < cases; c++) {
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
        for (int32_t tube = 2; c % 3 == 2 && tube < trivet_frame_count(frame, TRIVET_KIND_TUBE);
             tube += 2) {
            stop_unless(trivet_frame_add_tube_line(frame, c, tube, 0.0, 0.9 * WIDE, line, line,
                                                   TRIVET_WORLD_AXES, &message),
                        &message);
        }
    }
}

/* Where a joint stands; longer: share by which all stations are farther apart. */
static void find_place(int32_t joint, double longer, double place_out[3])
{
    const int32_t station = joint / 2;
    place_out[0] = -STATION * (1.0 + longer) * station;
    place_out[1] = WIDE * (0.5 - joint % 2);
    place_out[2] = 0.0;
}

/* 12 equations a station behind the first. */
static trivet_frame *ladder_frame(int32_t stations, int32_t cases)
{
    trivet_message message;
    trivet_frame *frame = NULL;
    stop_unless(trivet_frame_new(&frame, &message), &message);
    const int32_t rail = add_stock(frame, "rail", 0.025, 0.002);
    const int32_t rung = add_stock(frame, "rung", 0.020, 0.0015);
    for (int32_t joint = 0; joint < 2 * (stations + 1); joint++) {
        double place[3];
        char name[16];
        find_place(joint, 0.0, place);
        snprintf(name, sizeof name, "%c%d", joint % 2 == 0 ? 'L' : 'R', (int)joint / 2);
        stop_unless(trivet_frame_add_joint(frame, name, place, NULL, &message), &message);
        if (joint < 2) {
            add_mount(frame, joint, TRIVET_ALL, 0.0);
        } else if (joint / 2 % SPRUNG_EVERY == 0) {
            add_mount(frame, joint, 0, 1e6);
        }
    }
    for (int32_t side = 0; side < 2; side++) {
        int32_t along[STATIONS_MOST + 1];
        for (int32_t i = 0; i <= stations; i++) {
            along[i] = 2 * i + side;
        }
        add_tube(frame, along, stations + 1, rail);
    }
    for (int32_t i = 1; i <= stations; i++) {
        const int32_t across[2] = {2 * i, 2 * i + 1};
        add_tube(frame, across, 2, rung);
    }
    add_cases(frame, cases);
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
    trivet_frame *frame;
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
    of->variant = (of->variant + 1) % 7;
    for (int32_t joint = 0; joint < trivet_frame_count(of->frame, TRIVET_KIND_JOINT); joint++) {
        double place[3];
        find_place(joint, 0.01 * of->variant, place);
        stop_unless(trivet_frame_set_position(of->frame, joint, place, &message), &message);
    }
    const double start = now();
    const trivet_status status =
        trivet_plan_solve(of->plan, of->frame, of->workspace, of->result, &message);
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
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
    const trivet_status status = again(checks, of->frame, of->result, NULL, &message);
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
    const trivet_status status = trivet_checks_new(of->frame, of->result, NULL, &checks, &message);
    trivet_checks_free(checks);
    const double time = now() - start;
    stop_unless(status, &message);
    return time;
}

/* What is timed. */
enum { SOLVE, BARE, WORST, AGAIN, LISTED, NEW, KINDS };

static void print_spread(const char *name, double *values, double scale, const char *end)
{
    const double middle = median(values, RUNS);
    printf("\"%s\": {\"median\": %.4g, \"least\": %.4g, \"most\": %.4g}%s", name, scale * middle,
           scale * values[0], scale * values[RUNS - 1], end);
}

static void print_times(double times[KINDS][RUNS])
{
    double ratios[RUNS];
    for (int run = 0; run < RUNS; run++) {
        ratios[run] = times[WORST][run] / times[BARE][run];
    }
    print_spread("ratio", ratios, 1.0, ",\n   ");
    for (int run = 0; run < RUNS; run++) {
        ratios[run] = times[WORST][run] / times[SOLVE][run];
    }
    print_spread("ratio_to_solve", ratios, 1.0, ",\n   ");
    print_spread("worst_us", times[WORST], 1e6, ",\n   ");
    print_spread("again_us", times[AGAIN], 1e6, ",\n   ");
    print_spread("listed_us", times[LISTED], 1e6, ",\n   ");
    print_spread("new_us", times[NEW], 1e6, ",\n   ");
    print_spread("solve_us", times[SOLVE], 1e6, ",\n   ");
    print_spread("lapack_us", times[BARE], 1e6, "}");
}

static void measure(whole *ours, const bare *theirs)
{
    double times[KINDS][RUNS];
    for (int run = 0; run < RUNS; run++) {
        double turns[KINDS][TURNS];
        for (int turn = 0; turn < TURNS; turn++) {
            turns[SOLVE][turn] = time_solve(ours);
            turns[WORST][turn] = time_again(ours, trivet_checks_worst_again, ours->worst);
            turns[AGAIN][turn] = time_again(ours, trivet_checks_again, ours->checks);
            turns[LISTED][turn] = turns[AGAIN][turn] + time_listed(ours);
            turns[NEW][turn] = time_new(ours);
            turns[BARE][turn] = time_bare(theirs);
        }
        for (int kind = 0; kind < KINDS; kind++) {
            times[kind][run] = median(turns[kind], TURNS);
        }
    }
    printf("  {\"equations\": %d, \"bandwidth\": %d, \"cases\": %d, \"checks\": %d, ",
           (int)theirs->size, (int)theirs->reach, (int)theirs->cases,
           (int)trivet_checks_count(ours->checks));
    print_times(times);
}

static void measure_ladder(int32_t stations, int32_t cases)
{
    trivet_message message;
    whole ours = {.frame = ladder_frame(stations, cases)};
    stop_unless(trivet_plan_new(ours.frame, &ours.plan, &message), &message);
    stop_unless(trivet_workspace_new(ours.plan, &ours.workspace, &message), &message);
    stop_unless(trivet_result_new(ours.plan, &ours.result, &message), &message);
    time_solve(&ours);
    stop_unless(trivet_checks_new(ours.frame, ours.result, NULL, &ours.checks, &message), &message);
    stop_unless(trivet_checks_new(ours.frame, ours.result, NULL, &ours.worst, &message), &message);
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
    trivet_frame_free(ours.frame);
}

int main(void)
{
    /* 60, 120, 240, 360 equations */
    static const int32_t ladders[][2] = {{5, 5}, {10, 10}, {20, 20}, {STATIONS_MOST, 20}};
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
