/*
 * Time to solve a carrier with ten cases, and to build it in code and solve it; medians in us as
 * JSON. bench_python.py runs this beside the same in Python, by turns. One BLAS thread.
 *
 * usage: bench_carrier TURNS
 */
#define _POSIX_C_SOURCE 200809L

#include <cblas.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <trivet/trivet.h>

enum { TURNS_MOST = 10000, CASES = 10 };

static trivet_message message;

static void stop_unless(trivet_status status)
{
    if (status != TRIVET_OK) {
        fprintf(stderr, "%s: %s; %s\n", message.thing, message.problem, message.remedy);
        exit(EXIT_FAILURE);
    }
}

static void add_stock(trivet_frame *frame, const char *name, int32_t shape, double size,
                      double wall, const char *of)
{
    trivet_profile profile;
    trivet_material material;
    stop_unless(trivet_profile_defaults(&profile, sizeof profile));
    stop_unless(trivet_material_defaults(&material, sizeof material));
    stop_unless(trivet_material_find(of, &material, &message));
    profile.shape = shape;
    profile.wall = wall;
    if (shape == TRIVET_SHAPE_ROUND_TUBE) {
        profile.diameter = size;
    } else {
        profile.width = size;
    }
    stop_unless(trivet_frame_add_stock(frame, name, &profile, &material, NULL, &message));
}

static void add_tubes(trivet_frame *frame)
{
    static const char *const NAMES[] = {"left rail", "right rail", "middle", "rear", "back"};
    static const int32_t THROUGH[5][4] = {{0, 1, 2, 3}, {4, 5, 6, 7}, {1, 5}, {2, 6}, {3, 7}};
    for (int32_t i = 0; i < 5; i++) {
        stop_unless(trivet_frame_add_tube(frame, NAMES[i], THROUGH[i], i < 2 ? 4 : 2, i < 2 ? 0 : 1,
                                          0.0, NULL, &message));
    }
    stop_unless(trivet_frame_add_insert(frame, 0, 0, 0.04, 2, TRIVET_SIDE_BY_SIDE, &message));
    stop_unless(trivet_frame_add_insert(frame, 1, 4, 0.04, 2, TRIVET_SIDE_BY_SIDE, &message));
}

static void add_mounts(trivet_frame *frame)
{
    static const int32_t AT[] = {0, 1, 2, 4, 5, 6};
    for (int i = 0; i < 6; i++) {
        trivet_mount mount;
        stop_unless(trivet_mount_defaults(&mount, sizeof mount));
        mount.joint = AT[i];
        mount.held = TRIVET_POSITION;
        mount.limit_pull = 2500.0;
        mount.limit_shear = 1500.0;
        stop_unless(trivet_frame_add_mount(frame, &mount, NULL, &message));
    }
}

static void add_cases(trivet_frame *frame)
{
    const double push[3] = {-250.0, 0.0, 0.0};
    for (int c = 0; c < CASES; c++) {
        const double gravity[3] = {0.1 * c, 0.05 * c, -1.0 - 0.25 * c};
        char name[16];
        snprintf(name, sizeof name, "case %d", c);
        stop_unless(trivet_frame_add_case(frame, name, gravity, NULL, &message));
        stop_unless(trivet_frame_add_cargo_force(frame, c, 0, push, NULL, NULL, &message));
    }
}

static trivet_frame *carrier(void)
{
    static const char *const NAMES[] = {"FL", "ML", "RL", "TL", "FR", "MR", "RR", "TR"};
    static const double X[] = {0.0, -0.12, -0.24, -0.42};
    static const int32_t ON[] = {2, 6, 3, 7};
    const double centre[3] = {-0.31, 0.0, 0.21};
    trivet_frame *frame = NULL;
    stop_unless(trivet_frame_new(&frame, &message));
    add_stock(frame, "rail", TRIVET_SHAPE_SQUARE_TUBE, 0.02, 0.002, "E235");
    add_stock(frame, "cross", TRIVET_SHAPE_ROUND_TUBE, 0.01905, 0.00165, "E235");
    add_stock(frame, "plug", TRIVET_SHAPE_SQUARE_BAR, 0.014, 0.0, "S235");
    for (int i = 0; i < 8; i++) {
        const double place[3] = {X[i % 4], i < 4 ? 0.16 : -0.16, 0.0};
        stop_unless(trivet_frame_add_joint(frame, NAMES[i], place, NULL, &message));
    }
    add_tubes(frame);
    add_mounts(frame);
    stop_unless(
        trivet_frame_add_cargo(frame, "cool box", centre, ON, 4, TRIVET_GRIP_SOFT, NULL, &message));
    stop_unless(trivet_frame_add_item(frame, 0, "cool box", 14.0, &message));
    add_cases(frame);
    return frame;
}

/* The sum of all movements: the same bits in Python show that it is the same frame. */
static double sum_of_moves(const trivet_result *result)
{
    int32_t cases = 0;
    int32_t joints = 0;
    const double *const moves = trivet_result_moves(result, &cases, &joints);
    double sum = 0.0;
    for (int32_t i = 0; i < cases * joints * 6; i++) {
        sum += moves[i];
    }
    return sum;
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

static double median_us(double *times, int count)
{
    qsort(times, (size_t)count, sizeof *times, compare_times);
    return 1e6 * times[count / 2];
}

int main(int count, char **words)
{
    static double solve[TURNS_MOST];
    static double build[TURNS_MOST];
    static double again[TURNS_MOST];
    const int turns = count > 1 ? atoi(words[1]) : 1000;
    if (turns < 1 || turns > TURNS_MOST) {
        fprintf(stderr, "usage: bench_carrier TURNS, 1 to %d\n", TURNS_MOST);
        return 2;
    }
    openblas_set_num_threads(1);
    trivet_frame *const kept = carrier();
    trivet_plan *plan = NULL;
    trivet_workspace *workspace = NULL;
    stop_unless(trivet_plan_new(kept, &plan, &message));
    stop_unless(trivet_workspace_new(plan, &workspace, &message));
    double sum = 0.0;
    for (int i = 0; i < turns; i++) {
        trivet_result *result = NULL;
        double start = now();
        stop_unless(trivet_frame_solve(kept, &result, &message));
        sum = sum_of_moves(result);
        trivet_result_free(result);
        solve[i] = now() - start;
        start = now();
        stop_unless(trivet_result_new(plan, &result, &message));
        stop_unless(trivet_plan_solve(plan, kept, workspace, result, &message));
        trivet_result_free(result);
        again[i] = now() - start;
        start = now();
        trivet_frame *const frame = carrier();
        stop_unless(trivet_frame_solve(frame, &result, &message));
        trivet_result_free(result);
        trivet_frame_free(frame);
        build[i] = now() - start;
    }
    trivet_workspace_free(workspace);
    trivet_plan_free(plan);
    trivet_frame_free(kept);
    printf("{\"solve_us\": %.4f, \"planned_us\": %.4f, \"build_and_solve_us\": %.4f, "
           "\"sum_of_moves\": %.17g}\n",
           median_us(solve, turns), median_us(again, turns), median_us(build, turns), sum);
    return EXIT_SUCCESS;
}
