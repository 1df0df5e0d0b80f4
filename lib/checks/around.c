/*
 * What there is at each joint: which tubes run through it, which spans lie beside it, which mount
 * holds it. Found once, before the checks ask for it over and over.
 */
#include "base/memory.h"
#include "checks/check_record.h"
#include "frame/frame.h"

#include <string.h>

int trivet__reserve(void **array, size_t *capacity, size_t count, size_t size)
{
    if (count <= *capacity) {
        return 1;
    }
    void *const wider = trivet__retake(*array, count, size);
    if (!wider) {
        return 0;
    }
    *array = wider;
    *capacity = count;
    return 1;
}

static int reserve_numbers(int32_t **array, size_t *capacity, int32_t count)
{
    void *list = *array;
    const int has_room = trivet__reserve(&list, capacity, (size_t)count, sizeof **array);
    *array = list;
    return has_room;
}

static int make_room(trivet__around *around, int32_t joints, int32_t tubes, int32_t runs)
{
    void *list = around->runs;
    const int has_runs =
        trivet__reserve(&list, &around->run_capacity, (size_t)runs, sizeof *around->runs);
    around->runs = list;
    return has_runs && reserve_numbers(&around->starts, &around->start_capacity, joints + 1) &&
           reserve_numbers(&around->tube_starts, &around->tube_capacity, tubes + 1) &&
           reserve_numbers(&around->tube_runs, &around->tube_run_capacity, runs) &&
           reserve_numbers(&around->meets, &around->meet_capacity, joints) &&
           reserve_numbers(&around->mounts, &around->mount_capacity, joints);
}

/* Spans stand along the tube as its joints do; those of inserts lie between. */
static void find_spans(const trivet__making *making, const trivet__around *around, int32_t tube)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(making->result, tube, &count);
    const int32_t *const runs = around->tube_runs + around->tube_starts[tube];
    const int32_t joints = making->frame->tubes[tube].joint_count;
    int32_t position = 0;
    for (int32_t s = first; s < first + count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(making->result, s, &span) != TRIVET_OK) {
            continue;
        }
        if (span.first_joint >= 0 && position < joints) {
            around->runs[runs[position]].span_behind = s;
        }
        if (span.last_joint >= 0 && position + 1 < joints) {
            position++;
            around->runs[runs[position]].span_before = s;
        }
    }
}

static void add_runs(const trivet_frame *frame, const trivet__around *around)
{
    int32_t number = 0;
    for (int32_t t = 0; t < frame->tube_count; t++) {
        around->tube_starts[t] = number;
        for (int32_t i = 0; i < frame->tubes[t].joint_count; i++) {
            const int32_t joint = frame->tubes[t].joints[i];
            const int32_t run = around->starts[joint] + around->meets[joint]++;
            around->runs[run] = (trivet__run){t, i, -1, -1};
            around->tube_runs[number++] = run;
        }
    }
    around->tube_starts[frame->tube_count] = number;
}

int trivet__around_find(trivet__making *making)
{
    const trivet_frame *const frame = making->frame;
    trivet__around *const around = &making->checks->around;
    const size_t joints = (size_t)frame->joint_count;
    int32_t runs = 0;
    for (int32_t t = 0; t < frame->tube_count; t++) {
        runs += frame->tubes[t].joint_count;
    }
    if (!make_room(around, frame->joint_count, frame->tube_count, runs)) {
        return 0;
    }
    memset(around->starts, 0, (joints + 1) * sizeof *around->starts);
    memset(around->meets, 0, joints * sizeof *around->meets);
    memset(around->mounts, -1, joints * sizeof *around->mounts);
    for (int32_t t = 0; t < frame->tube_count; t++) {
        for (int32_t i = 0; i < frame->tubes[t].joint_count; i++) {
            around->starts[frame->tubes[t].joints[i] + 1]++;
        }
    }
    for (size_t j = 0; j < joints; j++) {
        around->starts[j + 1] += around->starts[j];
    }
    for (int32_t m = 0; m < frame->mount_count; m++) {
        around->mounts[frame->mounts[m].joint] = m;
    }
    add_runs(frame, around);
    for (int32_t t = 0; t < frame->tube_count; t++) {
        find_spans(making, around, t);
    }
    making->meets = around->meets;
    making->around = around;
    return 1;
}

const trivet__run *trivet__run_at(const trivet__making *making, int32_t tube, int32_t position)
{
    const trivet__around *const around = making->around;
    return &around->runs[around->tube_runs[around->tube_starts[tube] + position]];
}

const trivet__run *trivet__run_of(const trivet__making *making, int32_t tube, int32_t joint)
{
    const trivet__around *const around = making->around;
    for (int32_t r = around->starts[joint]; r < around->starts[joint + 1]; r++) {
        if (around->runs[r].tube == tube) {
            return &around->runs[r];
        }
    }
    return NULL;
}

void trivet__around_free(trivet__around *around)
{
    trivet__give_back(around->starts);
    trivet__give_back(around->runs);
    trivet__give_back(around->tube_starts);
    trivet__give_back(around->tube_runs);
    trivet__give_back(around->meets);
    trivet__give_back(around->mounts);
    trivet__give_back(around->meetings);
}
