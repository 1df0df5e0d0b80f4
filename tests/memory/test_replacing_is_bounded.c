/*
 * A frame that lives long and is changed over and over asks the heap a few times only: what is
 * replaced, taken out or refused leaves its memory to what comes next.
 */
#include "failing_heap.h"
#include "rack.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TIMES = 100000, LONGEST = 2000 };

/*
 * Content is held by two pieces in turn, and a piece that is too small is followed by one at least
 * twice as large. All pieces that are ever taken for content of n bytes are then no more than 8 n;
 * chunks of the heap double as well, from 2 KiB: log2(8 n / 2 KiB) requests and one.
 */
static long most_requests(size_t bytes)
{
    long most = 1;
    for (size_t chunk = 2048; chunk < 8 * bytes; chunk *= 2) {
        most++;
    }
    return most;
}

static trivet_frame *frame;
static trivet_message message;

static void stop_unless(int holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "%s (%ld requests): %s: %s\n", what, heap_requests(), message.thing,
                message.problem);
        exit(1);
    }
}

static void must(trivet_status status, const char *what)
{
    stop_unless(status == TRIVET_OK, what);
}

/* Rises slowly to LONGEST, then goes up and down. */
static size_t length_of(size_t i)
{
    return i < LONGEST ? i + 1 : 1 + (i * i * 37U) % LONGEST;
}

static void stories(void)
{
    char story[LONGEST + 1];
    const char *source = NULL;
    heap_start(0);
    for (size_t i = 0; i < TIMES; i++) {
        const size_t length = length_of(i);
        memset(story, 'a' + (int)(i % 26), length);
        story[length] = '\0';
        must(trivet_frame_set_case_story(frame, 1, story, i % 3 == 0 ? "" : "a source", &message),
             "a story");
        if (i % 1000 == 0) {
            stop_unless(strcmp(trivet_frame_case_story(frame, 1, &source), story) == 0 &&
                            strcmp(source, i % 3 == 0 ? "" : "a source") == 0,
                        "the story is not what was set");
        }
    }
    stop_unless(heap_requests() <= most_requests(LONGEST + sizeof "a source" + 1),
                "stories took memory too often");
}

static void plates(void)
{
    enum { CORNERS = 40, SLOTS = 12 };
    double corners[2 * CORNERS];
    trivet_slot slots[SLOTS];
    for (int32_t i = 0; i < CORNERS; i++) {
        corners[2 * i] = i; /* points of a parabola: a convex outline */
        corners[2 * i + 1] = (double)i * i;
    }
    for (int32_t i = 0; i < SLOTS; i++) {
        slots[i] = (trivet_slot){{i, 0.0}, {i, 1.0}, 0.5};
    }
    heap_start(0);
    for (int32_t i = 0; i < TIMES; i++) {
        trivet_plate plate = {
            sizeof plate, 3 + i * 7 % (CORNERS - 2), i * 5 % (SLOTS + 1), corners, slots,
            (double)NAN};
        must(trivet_frame_set_plate(frame, 0, &plate, &message), "a plate");
    }
    stop_unless(heap_requests() <= most_requests(sizeof corners + sizeof slots),
                "plates took memory too often");
}

/* A case's name that the usage needs is taken: it is refused after its first case was added. */
static void usages_that_are_refused(void)
{
    trivet_usage usage;
    must(trivet_usage_of(&usage, sizeof usage, TRIVET_USAGE_ROAD), "the numbers of a usage");
    must(trivet_frame_add_case(frame, "road, rebound", NULL, NULL, &message), "a case");
    heap_start(0);
    for (int i = 0; i < TIMES; i++) {
        stop_unless(trivet_frame_add_usage(frame, &usage, NULL, &message) == TRIVET_BAD_NAME,
                    "the usage is refused");
    }
    /* Room for one case more, with arrays and texts: far below 4 KiB. */
    stop_unless(heap_requests() <= most_requests(4096), "refused usages took memory too often");
}

static void mounts_and_stock(void)
{
    trivet_mount mount = {.size = sizeof mount};
    must(trivet_frame_mount(frame, 0, &mount), "the mount");
    heap_start(0);
    for (int i = 0; i < TIMES; i++) {
        must(trivet_frame_remove_mount(frame, 0, &message), "removing a mount");
        const int32_t last = trivet_frame_count(frame, TRIVET_KIND_MOUNT);
        must(trivet_frame_add_mount(frame, &mount, NULL, &message), "adding it again");
        must(trivet_frame_mount(frame, 0, &mount), "the next mount");
        must(trivet_frame_set_mount(frame, last, &mount, NULL) == TRIVET_OK ? TRIVET_BAD_VALUE
                                                                            : TRIVET_OK,
             "a mount does not move to another joint");
        must(trivet_frame_set_stock(frame, 0, trivet_frame_profile(frame, i % 2),
                                    trivet_frame_material(frame, 1), &message),
             "setting stock");
        must(trivet_frame_scale_cargo(frame, 0, i % 2 == 0 ? 2.0 : 0.5, &message), "scaling");
    }
    stop_unless(heap_requests() == 0, "what needs no more room took memory");
}

/* What a call needs for itself is left to the next call. */
static void tubes_and_plates_that_are_refused(void)
{
    enum { JOINTS = 6 };
    static const int32_t joints[] = {0, 1, 0};
    heap_start(0);
    for (int i = 0; i < TIMES; i++) {
        stop_unless(trivet_frame_add_tube(frame, "bent back", joints, 3, 0, 0.0, NULL, &message) ==
                        TRIVET_BAD_VALUE,
                    "a tube with a joint twice is refused");
    }
    stop_unless(heap_requests() <= most_requests(JOINTS), "looking at lists took memory too often");
    heap_start(0);
    for (int i = 0; i < TIMES; i++) {
        stop_unless(trivet_frame_validate_plate(frame, 0, &message) == TRIVET_BAD_VALUE,
                    "a plate beside its screws is refused");
    }
    stop_unless(heap_requests() <= most_requests(4096), "looking at plates took memory too often");
}

int main(void)
{
    must(rack_build(0.18, NULL, NULL, &frame, &message), "the rack");
    heap_start(0);
    stories();
    plates();
    usages_that_are_refused();
    mounts_and_stock();
    tubes_and_plates_that_are_refused();
    trivet_frame_free(frame);
    return 0;
}
