#include "usage_rack.h"

#include "support/frames.h"

#include <check.h>
#include <string.h>

trivet_frame *usage_rack(void)
{
    static const char *const names[] = {"FL", "FR", "ML", "MR", "RL", "RR"};
    static const int32_t left[] = {FL, ML, RL};
    static const int32_t right[] = {FR, MR, RR};
    static const int32_t back[] = {RL, RR};
    static const int32_t under[] = {ML, MR, RL, RR};
    const double centre[3] = {-0.4, 0.0, 1.0};
    const trivet_profile profile = square_tube(0.020, 0.002);
    trivet_message message = {0};
    int32_t box = -1;
    trivet_frame *const frame = must_new_frame();
    for (int i = 0; i < 6; i++) {
        must_add_joint(frame, names[i], -0.25 * (i / 2), i % 2 == 0 ? 0.16 : -0.16, 0.8);
    }
    const int32_t stock = must_add_stock(frame, "rail", &profile);
    must_add_tube(frame, "left rail", left, 3, stock);
    must_add_tube(frame, "right rail", right, 3, stock);
    must_add_tube(frame, "back", back, 2, stock);
    for (int32_t joint = FL; joint <= MR; joint++) {
        must_add_mount(frame, joint, TRIVET_POSITION);
    }
    must(trivet_frame_add_cargo(frame, "box", centre, under, 4, TRIVET_GRIP_STIFF, &box, &message),
         &message);
    must(trivet_frame_add_item(frame, box, "tools", 10.0, &message), &message);
    return frame;
}

void must_set_loads(trivet_frame *frame)
{
    trivet_vehicle vehicle;
    trivet_message message = {0};
    must(trivet_vehicle_defaults(&vehicle, sizeof vehicle), &message);
    vehicle.front_load = 80.0;
    vehicle.rear_load = 100.0;
    must(trivet_frame_set_vehicle(frame, &vehicle, &message), &message);
}

trivet_usage must_usage(int32_t kind)
{
    trivet_usage usage;
    trivet_message message = {0};
    must(trivet_usage_of(&usage, sizeof usage, kind), &message);
    return usage;
}

int32_t must_add_usage(trivet_frame *frame, const trivet_usage *usage)
{
    int32_t count = -1;
    trivet_message message = {0};
    must(trivet_frame_add_usage(frame, usage, &count, &message), &message);
    return count;
}

static int32_t number_of(const trivet_frame *frame, const char *name)
{
    int32_t number = -1;
    trivet_message message = {0};
    must(trivet_frame_find(frame, TRIVET_KIND_CASE, name, &number, &message), &message);
    return number;
}

const trivet__case *case_of(const trivet_frame *frame, const char *name)
{
    return &frame->cases[number_of(frame, name)];
}

void has_one_gap(const trivet_frame *frame, const char *what, const char *why)
{
    const char *got = NULL;
    ck_assert_int_eq(frame->gap_count, 1);
    ck_assert_str_eq(trivet_frame_gap(frame, 0, &got), what);
    ck_assert_str_eq(got, why);
}

void story_has(const trivet_frame *frame, const char *name, const char *words)
{
    const char *const story = trivet_frame_case_story(frame, number_of(frame, name), NULL);
    ck_assert_msg(strstr(story, words) != NULL, "\"%s\" is not in the story of %s: %s", words, name,
                  story);
}
