/*
 * The topology number: everything a plan depends on, and nothing that a variant may change. Every
 * solve asks for it, so it goes by numbers, not by bytes; it is never stored.
 */
#include "frame/fnv.h"
#include "frame/frame.h"

/* A step of FNV-1a for the whole number; the shift lets its high bits act on the low ones too. */
static uint64_t mix_number(uint64_t hash, int32_t number)
{
    const uint64_t mixed = (hash ^ (uint32_t)number) * TRIVET__FNV_PRIME;
    return mixed ^ mixed >> 32;
}

static uint64_t mix_list(uint64_t hash, const int32_t *list, int32_t count)
{
    uint64_t mixed = mix_number(hash, count);
    for (int32_t i = 0; i < count; i++) {
        mixed = mix_number(mixed, list[i]);
    }
    return mixed;
}

static uint64_t mix_tube(uint64_t hash, const trivet__tube *tube)
{
    uint64_t mixed = mix_list(hash, tube->joints, tube->joint_count);
    mixed = mix_number(mixed, (int32_t)tube->free_first);
    mixed = mix_number(mixed, (int32_t)tube->free_last);
    mixed = mix_number(mixed, tube->insert_count);
    for (int32_t i = 0; i < tube->insert_count; i++) {
        mixed = mix_number(mixed, tube->inserts[i].position);
        mixed = mix_number(mixed, tube->inserts[i].bond);
    }
    return mixed;
}

static uint64_t mix_mount(uint64_t hash, const trivet_mount *mount)
{
    int32_t sprung = 0;
    for (int i = 0; i < 6; i++) {
        if (mount->spring[i] > 0.0) {
            sprung |= 1 << i;
        }
    }
    uint64_t mixed = mix_number(hash, mount->joint);
    mixed = mix_number(mixed, (int32_t)mount->held);
    return mix_number(mixed, sprung);
}

static uint64_t mix_case(uint64_t hash, const trivet__case *of)
{
    uint64_t mixed = mix_number(hash, of->joint_force_count);
    for (int32_t i = 0; i < of->joint_force_count; i++) {
        mixed = mix_number(mixed, of->joint_forces[i].joint);
    }
    mixed = mix_number(mixed, of->cargo_force_count);
    for (int32_t i = 0; i < of->cargo_force_count; i++) {
        mixed = mix_number(mixed, of->cargo_forces[i].cargo);
    }
    mixed = mix_number(mixed, of->tube_force_count);
    for (int32_t i = 0; i < of->tube_force_count; i++) {
        mixed = mix_number(mixed, of->tube_forces[i].tube);
    }
    mixed = mix_number(mixed, of->tube_line_count);
    for (int32_t i = 0; i < of->tube_line_count; i++) {
        mixed = mix_number(mixed, of->tube_lines[i].tube);
    }
    return mixed;
}

uint64_t trivet__frame_topology(const trivet_frame *frame)
{
    uint64_t mixed = mix_number(TRIVET__FNV_START, frame->joint_count);
    mixed = mix_number(mixed, frame->stock_count);
    mixed = mix_number(mixed, frame->tube_count);
    for (int32_t i = 0; i < frame->tube_count; i++) {
        mixed = mix_tube(mixed, &frame->tubes[i]);
    }
    mixed = mix_number(mixed, frame->mount_count);
    for (int32_t i = 0; i < frame->mount_count; i++) {
        mixed = mix_mount(mixed, &frame->mounts[i]);
    }
    mixed = mix_number(mixed, frame->cargo_count);
    for (int32_t i = 0; i < frame->cargo_count; i++) {
        mixed = mix_list(mixed, frame->cargos[i].joints, frame->cargos[i].joint_count);
        mixed = mix_number(mixed, frame->cargos[i].grip);
    }
    mixed = mix_number(mixed, frame->case_count);
    for (int32_t i = 0; i < frame->case_count; i++) {
        mixed = mix_case(mixed, &frame->cases[i]);
    }
    mixed = mix_number(mixed, frame->combination_count);
    for (int32_t i = 0; i < frame->combination_count; i++) {
        mixed = mix_list(mixed, frame->combinations[i].cases, frame->combinations[i].case_count);
    }
    return mixed;
}
