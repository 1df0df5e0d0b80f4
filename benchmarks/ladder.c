#include "ladder.h"

#include <stdio.h>
#include <stdlib.h>

#define STATION 0.2 /* m */
#define WIDE 0.4    /* m */

void stop_unless(trivet_status status, const trivet_message *message)
{
    if (status != TRIVET_OK) {
        fprintf(stderr, "%s: %s; %s\n", message->thing, message->problem, message->remedy);
        exit(EXIT_FAILURE);
    }
}

void *take(size_t count, size_t size)
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

void ladder_load(int32_t in_case, double load[3])
{
    const double c = in_case;
    switch (in_case % KINDS) {
    case WEIGHT:
        load[0] = 0.1 * c;
        load[1] = 0.05 * c;
        load[2] = -1.0 - 0.1 * c;
        break;
    case PUSH:
        load[0] = 10.0 * c;
        load[1] = -5.0;
        load[2] = -100.0;
        break;
    default:
        load[0] = 0.0;
        load[1] = 20.0;
        load[2] = -200.0 - c;
    }
}

static void fill_case(trivet_frame *frame, int32_t in_case, const double load[3])
{
    trivet_message message;
    const int32_t joints = trivet_frame_count(frame, TRIVET_KIND_JOINT);
    const int32_t tubes = trivet_frame_count(frame, TRIVET_KIND_TUBE);
    if (in_case % KINDS == PUSH) {
        for (int32_t joint = 2; joint < joints; joint += PUSHED_EVERY) {
            stop_unless(trivet_frame_add_joint_force(frame, in_case, joint, load, NULL, &message),
                        &message);
        }
    } else if (in_case % KINDS == LINE) {
        for (int32_t tube = 2; tube < tubes; tube += LOADED_EVERY) {
            stop_unless(trivet_frame_add_tube_line(frame, in_case, tube, 0.0,
                                                   trivet_frame_tube_length(frame, tube), load,
                                                   load, TRIVET_WORLD_AXES, &message),
                        &message);
        }
    }
}

static void add_cases(trivet_frame *frame, int32_t cases)
{
    trivet_message message;
    for (int32_t c = 0; c < cases; c++) {
        double load[3];
        char name[16];
        ladder_load(c, load);
        snprintf(name, sizeof name, "case %d", (int)c);
        stop_unless(
            trivet_frame_add_case(frame, name, c % KINDS == WEIGHT ? load : NULL, NULL, &message),
            &message);
        fill_case(frame, c, load);
    }
}

trivet_frame *ladder_frame(int stations, int32_t cases, int variant)
{
    trivet_message message;
    trivet_frame *frame = NULL;
    stop_unless(trivet_frame_new(&frame, &message), &message);
    const int32_t rail = add_stock(frame, "rail", 0.025 + 0.001 * (variant % 7), 0.002);
    const int32_t rung = add_stock(frame, "rung", 0.020 + 0.001 * (variant % 5), 0.0015);
    const double step = STATION + 0.002 * (variant % 11);
    const double wide = WIDE + 0.005 * (variant % 13);
    for (int32_t i = 0; i <= stations; i++) {
        for (int32_t side = 0; side < 2; side++) {
            const double place[3] = {-step * i, wide * (0.5 - side), 0.003 * i};
            char name[16];
            snprintf(name, sizeof name, "%c%d", side == 0 ? 'L' : 'R', (int)i);
            stop_unless(trivet_frame_add_joint(frame, name, place, NULL, &message), &message);
            if (i == 0) {
                add_mount(frame, side, TRIVET_ALL, 0.0);
            } else if (i % SPRUNG_EVERY == 0) {
                add_mount(frame, 2 * i + side, 0, LADDER_SPRING);
            }
        }
    }
    int32_t *const along = take((size_t)stations + 1, sizeof *along);
    for (int32_t side = 0; side < 2; side++) {
        for (int32_t i = 0; i <= stations; i++) {
            along[i] = 2 * i + side;
        }
        add_tube(frame, along, stations + 1, rail);
    }
    free(along);
    for (int32_t i = 1; i <= stations; i++) {
        const int32_t across[2] = {2 * i, 2 * i + 1};
        add_tube(frame, across, 2, rung);
    }
    add_cases(frame, cases);
    return frame;
}
