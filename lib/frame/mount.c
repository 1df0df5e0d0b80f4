/*
 * Mounts: where the world holds the frame, in which directions, how stiffly, up to what.
 */
#include "base/defaults.h"
#include "base/directions.h"
#include "frame/border.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

static int is_held(uint32_t held, int direction)
{
    return (int)((held >> direction) & 1U);
}

static int has_spring(const trivet_mount *mount, int direction)
{
    return mount->spring[direction] > 0.0;
}

trivet_status trivet_mount_defaults(trivet_mount *mount, size_t size)
{
    const trivet_status status = trivet__defaults(mount, size, sizeof *mount);
    if (status == TRIVET_OK) {
        mount->joint = -1;
        mount->axes[0] = mount->axes[4] = mount->axes[8] = 1.0;
        mount->limit_pull = mount->limit_push = (double)NAN;
        mount->limit_shear = mount->limit_moment = (double)NAN;
    }
    return status;
}

int32_t trivet__joint_mount(const trivet_frame *frame, int32_t joint)
{
    for (int32_t i = 0; i < frame->mount_count; i++) {
        if (frame->mounts[i].joint == joint) {
            return i;
        }
    }
    return -1;
}

static trivet_status check_hold(const char *name, const trivet_mount *mount,
                                trivet_message *message)
{
    if (mount->held > (uint32_t)TRIVET_ALL) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name,
                                    "the held directions are not made of x, y, z, rx, ry, rz",
                                    "add up the bits of the directions");
    }
    int holds = mount->held != 0;
    for (int i = 0; i < TRIVET__DIRECTIONS; i++) {
        trivet__number_of of = {"mount", name, "spring", TRIVET_LINE_LOAD};
        of.dimension = i < 3 ? TRIVET_LINE_LOAD : TRIVET_TURN_SPRING;
        const trivet_status status = trivet__not_negative_check(mount->spring[i], of, message);
        if (status != TRIVET_OK) {
            return status;
        }
        if (has_spring(mount, i) && is_held(mount->held, i)) {
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name, "",
                                 "leave out the spring, or do not hold that direction");
            trivet__message_problem(message, "%s is held and has a spring as well",
                                    trivet__direction_words()[i]);
            return TRIVET_BAD_VALUE;
        }
        holds = holds || has_spring(mount, i);
    }
    if (!holds) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name, "it holds nothing",
                                    "say which directions it holds, or give it springs");
    }
    return TRIVET_OK;
}

static trivet_status check_limits(const char *name, const trivet_mount *mount,
                                  trivet_message *message)
{
    const double limits[] = {mount->limit_pull, mount->limit_push, mount->limit_shear,
                             mount->limit_moment};
    static const char *const whats[] = {"limit of pull", "limit of push", "limit of shear",
                                        "limit of moment"};
    for (int i = 0; i < 4; i++) {
        const trivet__number_of of = {"mount", name, whats[i],
                                      i < 3 ? TRIVET_FORCE : TRIVET_MOMENT};
        const trivet_status status =
            isnan(limits[i]) ? TRIVET_OK : trivet__not_negative_check(limits[i], of, message);
        if (status != TRIVET_OK) {
            return status;
        }
    }
    return TRIVET_OK;
}

/* own: the number that the mount has already; -1 if it is new. */
static trivet_status check_mount(const trivet_frame *frame, const trivet_mount *mount, int32_t own,
                                 trivet_message *message)
{
    trivet_status status = trivet__size_check(mount->size, sizeof *mount, "mount",
                                              "fill it with its defaults first", message);
    if (status == TRIVET_OK) {
        status = trivet__index_check(frame, TRIVET_KIND_JOINT, mount->joint, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const char *const name = frame->joints[mount->joint].name;
    const int32_t there = trivet__joint_mount(frame, mount->joint);
    if (there >= 0 && there != own) {
        return trivet__refuse_thing(message, TRIVET_BAD_NAME, "mount", name,
                                    "its joint has a mount already", "make one of the two");
    }
    status = check_hold(name, mount, message);
    if (status == TRIVET_OK) {
        status = trivet__axes_check(mount->axes, "mount", name, message);
    }
    return status == TRIVET_OK ? check_limits(name, mount, message) : status;
}

/* Room for the moves of one more mount in every case. */
static int grow_moves(trivet_frame *frame)
{
    for (int32_t i = 0; i < frame->case_count; i++) {
        trivet__case *const of = &frame->cases[i];
        double *const moves =
            trivet__grown(&frame->pool, of->mount_moves, frame->mount_count,
                          &of->mount_move_capacity, TRIVET__DIRECTIONS * sizeof *moves);
        if (!moves) {
            return 0;
        }
        of->mount_moves = moves;
    }
    return 1;
}

trivet_status trivet_frame_add_mount(trivet_frame *frame, const trivet_mount *mount,
                                     int32_t *mount_out, trivet_message *message)
{
    if (mount_out) {
        *mount_out = -1;
    }
    if (!frame || !mount) {
        return trivet__missing(message, frame ? "mount" : "frame");
    }
    const trivet_status status = check_mount(frame, mount, -1, message);
    if (status != TRIVET_OK) {
        return status;
    }
    const int32_t count = frame->mount_count;
    trivet_mount *const mounts =
        trivet__grown(&frame->pool, frame->mounts, count, &frame->mount_capacity, sizeof *mounts);
    if (!mounts) {
        return trivet__no_memory(message);
    }
    frame->mounts = mounts;
    if (!grow_moves(frame)) {
        return trivet__no_memory(message);
    }
    mounts[count] = *mount;
    for (int32_t i = 0; i < frame->case_count; i++) {
        memset(frame->cases[i].mount_moves + TRIVET__DIRECTIONS * (size_t)count, 0,
               TRIVET__DIRECTIONS * sizeof(double));
    }
    frame->mount_count++;
    if (mount_out) {
        *mount_out = count;
    }
    return TRIVET_OK;
}

/* Whether a case moves the ground under a direction that would be neither held nor sprung. */
static int loses_move(const trivet_frame *frame, int32_t mount, const trivet_mount *changed)
{
    for (int32_t c = 0; c < frame->case_count; c++) {
        const double *const move = frame->cases[c].mount_moves + TRIVET__DIRECTIONS * (size_t)mount;
        for (int i = 0; i < TRIVET__DIRECTIONS; i++) {
            if (move[i] != 0.0 && !is_held(changed->held, i) && !has_spring(changed, i)) {
                return 1;
            }
        }
    }
    return 0;
}

static int are_same_axes(const double one[9], const double other[9])
{
    int are_same = 1;
    for (int i = 0; i < 9; i++) {
        are_same = are_same && one[i] == other[i];
    }
    return are_same;
}

/* Bolts that stand along the mount's own axes turn with it; call before it is changed. */
static void turn_bolts(trivet_frame *frame, int32_t mount, const double axes[9])
{
    for (int32_t i = 0; i < frame->bolts_count; i++) {
        trivet_bolts *const bolts = &frame->bolts[i];
        if (bolts->where_kind == TRIVET_KIND_MOUNT && bolts->where_index == mount &&
            are_same_axes(bolts->axes, frame->mounts[mount].axes)) {
            memcpy(bolts->axes, axes, sizeof bolts->axes);
        }
    }
}

trivet_status trivet_frame_set_mount(trivet_frame *frame, int32_t mount,
                                     const trivet_mount *changed, trivet_message *message)
{
    if (!frame || !changed) {
        return trivet__missing(message, frame ? "changed" : "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_MOUNT, mount, message);
    if (status == TRIVET_OK) {
        status = check_mount(frame, changed, mount, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const char *const name = frame->joints[frame->mounts[mount].joint].name;
    if (changed->joint != frame->mounts[mount].joint) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name,
                                    "it would move to another joint",
                                    "remove it, and add one there");
    }
    if (loses_move(frame, mount, changed)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name,
                                    "a case moves it in a direction that it would not hold",
                                    "hold that direction, or take the move out of the case");
    }
    turn_bolts(frame, mount, changed->axes);
    frame->mounts[mount] = *changed;
    return TRIVET_OK;
}

/* Takes element number index out of a list of count elements of size bytes. */
static void close_gap(void *list, int32_t index, int32_t count, size_t size)
{
    char *const at = (char *)list + (size_t)index * size;
    memmove(at, at + size, (size_t)(count - index - 1) * size);
}

static void remove_bolts(trivet_frame *frame, int32_t mount)
{
    for (int32_t i = frame->bolts_count - 1; i >= 0; i--) {
        trivet_bolts *const bolts = &frame->bolts[i];
        if (bolts->where_kind != TRIVET_KIND_MOUNT) {
            continue;
        }
        if (bolts->where_index == mount) {
            close_gap(frame->bolts, i, frame->bolts_count, sizeof *bolts);
            frame->bolts_count--;
        } else if (bolts->where_index > mount) {
            bolts->where_index--;
        }
    }
}

trivet_status trivet_frame_remove_mount(trivet_frame *frame, int32_t mount, trivet_message *message)
{
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    const trivet_status status = trivet__index_check(frame, TRIVET_KIND_MOUNT, mount, message);
    if (status != TRIVET_OK) {
        return status;
    }
    remove_bolts(frame, mount);
    for (int32_t c = 0; c < frame->case_count; c++) {
        close_gap(frame->cases[c].mount_moves, mount, frame->mount_count,
                  TRIVET__DIRECTIONS * sizeof(double));
    }
    close_gap(frame->mounts, mount, frame->mount_count, sizeof *frame->mounts);
    frame->mount_count--;
    return TRIVET_OK;
}

trivet_status trivet_frame_mount(const trivet_frame *frame, int32_t mount, trivet_mount *mount_out)
{
    const trivet_status status = trivet__out_check(frame, mount_out, sizeof *mount_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (mount < 0 || mount >= frame->mount_count) {
        return TRIVET_BAD_INDEX;
    }
    *mount_out = frame->mounts[mount];
    return TRIVET_OK;
}

trivet_status trivet_frame_set_mount_move(trivet_frame *frame, int32_t in_case, int32_t mount,
                                          const double *move, trivet_message *message)
{
    if (!frame || !move) {
        return trivet__missing(message, frame ? "move" : "frame");
    }
    trivet_status status = trivet__index_check(frame, TRIVET_KIND_CASE, in_case, message);
    if (status == TRIVET_OK) {
        status = trivet__index_check(frame, TRIVET_KIND_MOUNT, mount, message);
    }
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet_mount *const of = &frame->mounts[mount];
    const char *const name = frame->joints[of->joint].name;
    const trivet__number_of way = {"mount", name, "move", TRIVET_LENGTH};
    const trivet__number_of turn = {"mount", name, "turn", TRIVET_ANGLE};
    status = trivet__numbers_check(move, 3, way, message);
    if (status == TRIVET_OK) {
        status = trivet__numbers_check(move + 3, 3, turn, message);
    }
    for (int i = 0; status == TRIVET_OK && i < TRIVET__DIRECTIONS; i++) {
        if (move[i] != 0.0 && !is_held(of->held, i) && !has_spring(of, i)) {
            status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, "mount", name, "",
                                          "hold that direction, or leave out its move");
            trivet__message_problem(message, "it moves in %s, which it does not hold",
                                    trivet__direction_words()[i]);
        }
    }
    if (status != TRIVET_OK) {
        trivet__message_within(message, "case %s", frame->cases[in_case].name);
        return status;
    }
    memmove(frame->cases[in_case].mount_moves + TRIVET__DIRECTIONS * (size_t)mount, move,
            TRIVET__DIRECTIONS * sizeof *move);
    return TRIVET_OK;
}
