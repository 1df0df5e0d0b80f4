/*
 * A frame that is emptied and filled again in the same way takes no memory, whatever was in it in
 * between, and is the frame that a new one would be.
 */
#include "failing_heap.h"
#include "rack.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static trivet_message message;

static void stop_unless(int holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "%s: %s: %s\n", what, message.thing, message.problem);
        exit(1);
    }
}

static void must(trivet_status status, const char *what)
{
    stop_unless(status == TRIVET_OK, what);
}

/* The results of a frame, all bits. */
static uint64_t print_of(const trivet_frame *frame)
{
    trivet_result *result = NULL;
    must(trivet_frame_solve(frame, &result, &message), "solving");
    const uint64_t print = rack_print_of(result);
    trivet_result_free(result);
    return print;
}

static void fill_rack(trivet_frame *frame, double reach)
{
    must(rack_fill(frame, reach, NULL, NULL, &message), "the rack");
}

/* Ready-made cases, with what they ask for. */
static void add_usages(trivet_frame *frame)
{
    trivet_vehicle vehicle;
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), "the defaults of a vehicle");
    vehicle.front_load = vehicle.rear_load = 90.0;
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), "the vehicle");
    for (int32_t kind = TRIVET_USAGE_ROAD; trivet_usage_text(kind); kind++) {
        trivet_usage usage;
        must(trivet_usage_of(&usage, sizeof usage, kind), "the numbers of a usage");
        must(trivet_frame_add_usage(frame, &usage, NULL, &message), "a usage");
    }
}

/* The plate of the rack's only deck, whose screws stand at (-0.42, 0.16) and (-0.42, -0.16). */
static void add_plate(trivet_frame *frame)
{
    static const double corners[] = {-0.5, -0.2, -0.3, -0.2, -0.3, 0.2, -0.5, 0.2};
    const trivet_slot slot = {{-0.4, 0.0}, {-0.4, 0.05}, 0.008};
    const trivet_plate plate = {sizeof plate, 4, 1, corners, &slot, (double)NAN};
    must(trivet_frame_set_plate(frame, 0, &plate, &message), "the plate");
    must(trivet_frame_validate_plate(frame, 0, &message), "laying the plate out");
}

static void fill_more(trivet_frame *frame)
{
    fill_rack(frame, 0.18);
    add_usages(frame);
    add_plate(frame);
    must(trivet_frame_set_case_story(frame, 0, "it stands", "common practice", &message), "story");
    must(trivet_frame_add_gap(frame, "rides", "there is no road yet", &message), "a gap");
    must(trivet_frame_validate(frame, &message), "the whole");
}

/* A row of joints, unlike the rack: many names, one long tube, nothing else. */
static void fill_row(trivet_frame *frame)
{
    enum { JOINTS = 700 };
    static int32_t joints[JOINTS];
    trivet_profile bar;
    trivet_material steel;
    must(trivet_profile_defaults(&bar, sizeof bar), "the defaults of a profile");
    must(trivet_material_defaults(&steel, sizeof steel), "the defaults of a material");
    must(trivet_material_find("S235", &steel, &message), "the material");
    bar.shape = TRIVET_SHAPE_ROUND_BAR;
    bar.diameter = 0.02;
    for (int32_t i = 0; i < JOINTS; i++) {
        const double position[3] = {0.1 * i, 0.0, 0.0};
        char name[32];
        snprintf(name, sizeof name, "joint %d", (int)i);
        must(trivet_frame_add_joint(frame, name, position, NULL, &message), "a joint");
        joints[i] = i;
    }
    must(trivet_frame_add_stock(frame, "bar", &bar, &steel, NULL, &message), "the stock");
    must(trivet_frame_add_tube(frame, "row", joints, JOINTS, 0, 0.0, NULL, &message), "the tube");
}

/* Empties a frame and fills it, counting. */
static long requests_of(trivet_frame *frame, void (*fill)(trivet_frame *frame))
{
    heap_start(0);
    trivet_frame_clear(frame);
    fill(frame);
    return heap_requests();
}

static trivet_frame *new_frame(void)
{
    trivet_frame *frame = NULL;
    must(trivet_frame_new(&frame, &message), "a new frame");
    return frame;
}

static void the_same_again(void)
{
    trivet_frame *const fresh = new_frame();
    trivet_frame *const used = new_frame();
    fill_more(fresh);
    stop_unless(requests_of(used, fill_more) > 0, "the counting heap is not linked in");
    for (int round = 0; round < 3; round++) {
        stop_unless(requests_of(used, fill_more) == 0, "filling in the same way took memory");
        stop_unless(print_of(used) == print_of(fresh), "the results differ");
    }
    trivet_frame_free(fresh);
    trivet_frame_free(used);
}

static void others_in_between(void)
{
    static void (*const fills[])(trivet_frame *) = {fill_more, fill_row};
    trivet_frame *const fresh = new_frame();
    trivet_frame *const used = new_frame();
    fill_rack(fresh, 0.30);
    fill_rack(used, 0.30);
    for (int round = 0; round < 5; round++) {
        for (size_t i = 0; i < sizeof fills / sizeof fills[0]; i++) {
            const long requests = requests_of(used, fills[i]);
            stop_unless(round == 0 || requests == 0, "what was in it before took memory again");
            trivet_frame_clear(used);
            heap_start(0);
            fill_rack(used, 0.30);
            stop_unless(heap_requests() == 0, "filling after others took memory");
            stop_unless(print_of(used) == print_of(fresh), "the results differ after others");
        }
    }
    trivet_frame_free(fresh);
    trivet_frame_free(used);
}

/* Contents that grow a little each time ask the heap as often as doubling needs to. */
static void growing_from_round_to_round(void)
{
    enum { ROUNDS = 2000 };
    trivet_frame *const frame = new_frame();
    long requests = 0;
    char why[16 * ROUNDS + 1];
    for (int round = 0; round < ROUNDS; round++) {
        snprintf(why, sizeof why, "%*s", 16 * (round + 1), "why");
        heap_start(0);
        trivet_frame_clear(frame);
        must(trivet_frame_add_gap(frame, "what", why, &message), "a gap");
        requests += heap_requests();
    }
    /* From 2 KiB to at least 32 KB by doubling: five requests. */
    stop_unless(requests <= 5, "contents that grow slowly took memory too often");
    trivet_frame_free(frame);
}

/* A cleared frame is an empty one. */
static void nothing_is_left(void)
{
    trivet_frame *const frame = new_frame();
    trivet_vehicle vehicle;
    fill_more(frame);
    trivet_frame_clear(NULL);
    trivet_frame_clear(frame);
    for (int32_t kind = TRIVET_KIND_JOINT; kind <= TRIVET_KIND_CYCLES; kind++) {
        stop_unless(trivet_frame_count(frame, kind) == 0, "something was left");
    }
    int32_t found = 0;
    stop_unless(trivet_frame_find(frame, TRIVET_KIND_JOINT, "FL", &found, NULL) == TRIVET_BAD_NAME,
                "a name was left");
    stop_unless(trivet_frame_bolts_count(frame) == 0, "bolts were left");
    stop_unless(!trivet_frame_gap(frame, 0, NULL), "a gap was left");
    stop_unless(!trivet_frame_has_usage(frame, TRIVET_USAGE_ROAD), "a usage was left");
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), "the defaults of a vehicle");
    stop_unless(trivet_frame_vehicle(frame, &vehicle) != TRIVET_OK || isnan(vehicle.front_load),
                "the vehicle was left");
    trivet_frame_free(frame);
}

int main(void)
{
    the_same_again();
    others_in_between();
    growing_from_round_to_round();
    nothing_is_left();
    return 0;
}
