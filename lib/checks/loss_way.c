/*
 * Which way a frame goes that has lost a mount and is free to move: the mount is hung on springs so
 * weak that they hold nothing up, and what moves most under the load tells the way. The movements
 * are those of a small displacement, so they are the way at the start: at right angles to the arm
 * about the line that stays.
 */
#include "checks/loss_way.h"
#include "base/message.h"
#include "base/text.h"
#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* N/m and N m/rad: the weight of a kilogram moves it by a metre. */
#define WEAK 10.0

/* Share of the frame's size: a frame that bends moves less, one that falls on WEAK springs more. */
#define LOOSE 0.05

/* Share of the largest movement from which on a joint counts as moving. */
#define MOVING 0.1

/* Cosine of the angle off the straight way to the wheel's middle up to which it goes towards it. */
#define TOWARDS 0.5

enum { OWN_CASES = 3 };

/* Weight downward, and to both sides in case that downward moves nothing. */
static trivet_status add_own_cases(trivet_frame *frame)
{
    static const struct {
        const char *name;
        double gravity[3];
    } CASES[OWN_CASES] = {
        {"the way it goes, by its weight", {0.0, 0.0, -1.0}},
        {"the way it goes, pushed backward", {-1.0, 0.0, 0.0}},
        {"the way it goes, pushed sideways", {0.0, 1.0, 0.0}},
    };
    trivet_status status = TRIVET_OK;
    for (int i = 0; i < OWN_CASES && status == TRIVET_OK; i++) {
        status = trivet_frame_add_case(frame, CASES[i].name, CASES[i].gravity, NULL, NULL);
    }
    return status;
}

static trivet_status hang_weakly(trivet_frame *frame, int32_t number)
{
    trivet_mount mount = frame->mounts[number];
    mount.held = 0;
    for (int i = 0; i < 6; i++) {
        mount.spring[i] = WEAK;
    }
    return trivet_frame_set_mount(frame, number, &mount, NULL);
}

/* The movement of a joint in a case. */
static const double *move_of(const trivet_result *result, int32_t in_case, int32_t joint)
{
    int32_t joint_count = 0;
    const double *const moves = trivet_result_moves(result, NULL, &joint_count);
    return moves + 6 * ((ptrdiff_t)in_case * joint_count + joint);
}

static int is_under_cargo(const trivet_frame *frame, int32_t joint)
{
    for (int32_t c = 0; c < frame->cargo_count; c++) {
        for (int32_t i = 0; i < frame->cargos[c].joint_count; i++) {
            if (frame->cargos[c].joints[i] == joint) {
                return 1;
            }
        }
    }
    return 0;
}

/* The joint that moves most in a case, and how far; of those under cargo if there is any. */
static int32_t most_moved(const trivet_frame *frame, const trivet_result *result, int32_t in_case,
                          double *length_out)
{
    int32_t most = -1;
    *length_out = 0.0;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        if (frame->cargo_count > 0 && !is_under_cargo(frame, j)) {
            continue;
        }
        const double length = trivet__length3(move_of(result, in_case, j));
        if (length > *length_out * (1.0 + 1e-9)) { /* of equal ones the first, whatever rounding */
            *length_out = length;
            most = j;
        }
    }
    return most;
}

static double size_of(const trivet_frame *frame)
{
    double size = 0.0;
    for (int32_t j = 1; j < frame->joint_count; j++) {
        double arm[3];
        trivet__minus3(frame->joints[j].position, frame->joints[0].position, arm);
        size = fmax(size, trivet__length3(arm));
    }
    return size;
}

static int is_plain_weight(const trivet__case *of)
{
    return of->gravity[2] < 0.0 && of->gravity[0] == 0.0 && of->gravity[1] == 0.0;
}

/*
 * The case that shows the way: the first of weight alone, else our own; where that hardly moves
 * anything, the one that moves most. own: number of our first.
 */
static int32_t find_case(const trivet_frame *frame, const trivet_result *result, int32_t own)
{
    int32_t plain = own;
    for (int32_t c = own - 1; c >= 0; c--) {
        plain = is_plain_weight(&frame->cases[c]) ? c : plain;
    }
    double length = 0.0;
    most_moved(frame, result, plain, &length);
    if (length > LOOSE * size_of(frame)) {
        return plain;
    }
    int32_t best = plain;
    double largest = length;
    for (int32_t c = 0; c < frame->case_count; c++) {
        most_moved(frame, result, c, &length);
        if (length > largest) {
            largest = length;
            best = c;
        }
    }
    return best;
}

/* Where a joint stands seen from the middle of the rear wheel, in the plane of the wheel. */
static void seen_from_wheel(const trivet_frame *frame, const trivet_vehicle *vehicle, int32_t joint,
                            double at[2])
{
    at[0] = frame->joints[joint].position[0] - vehicle->rear_axle;
    at[1] = frame->joints[joint].position[2] - (vehicle->ground + vehicle->wheel_radius);
}

/* Whether a joint that goes on as it starts comes onto the wheel; seen from the side. */
static int hits_wheel(const double at[2], const double move[3], double radius)
{
    const double speed = hypot(move[0], move[2]);
    const double towards = -(at[0] * move[0] + at[1] * move[2]) / speed;
    const double past = (at[0] * move[2] - at[1] * move[0]) / speed;
    return speed > 0.0 && towards > 0.0 && fabs(past) < radius;
}

/* " onto the wheel" if a joint that moves meets it, " towards the wheel" if the joint heads that
 * way. */
static const char *wheel_text(const trivet_frame *frame, const trivet_result *result,
                              int32_t in_case, int32_t joint)
{
    trivet_vehicle vehicle = {.size = sizeof vehicle};
    double at[2];
    if (trivet_frame_vehicle(frame, &vehicle) != TRIVET_OK || !isfinite(vehicle.rear_axle) ||
        !isfinite(vehicle.ground) || !isfinite(vehicle.wheel_radius)) {
        return "";
    }
    const double most = trivet__length3(move_of(result, in_case, joint));
    for (int32_t j = 0; j < frame->joint_count; j++) {
        const double *const move = move_of(result, in_case, j);
        seen_from_wheel(frame, &vehicle, j, at);
        if (trivet__length3(move) > MOVING * most && hits_wheel(at, move, vehicle.wheel_radius)) {
            return " onto the wheel";
        }
    }
    const double *const move = move_of(result, in_case, joint);
    seen_from_wheel(frame, &vehicle, joint, at);
    const double nearing = -(at[0] * move[0] + at[1] * move[2]);
    return nearing > TOWARDS * hypot(at[0], at[1]) * most ? " towards the wheel" : "";
}

/* The word for the axis that most of the way lies along. */
static const char *way_word(const double way[3])
{
    static const char *const WORDS[3][2] = {
        {"backward", "forward"}, {"to the right", "to the left"}, {"down", "up"}};
    int axis = 2;
    for (int i = 0; i < 2; i++) {
        axis = fabs(way[i]) > fabs(way[axis]) + 1e-6 ? i : axis; /* down, if it is as much */
    }
    return WORDS[axis][way[axis] > 0.0];
}

static void tell_way(const trivet_frame *frame, const trivet_result *result, int32_t own,
                     double direction_out[3], char text[TRIVET__WAY_MAX])
{
    double length = 0.0;
    const int32_t in_case = find_case(frame, result, own);
    const int32_t joint = most_moved(frame, result, in_case, &length);
    if (joint < 0) {
        return;
    }
    for (int i = 0; i < 3; i++) {
        direction_out[i] = move_of(result, in_case, joint)[i] / length;
    }
    const double beside = frame->joints[joint].position[1];
    const int is_outward = fabs(direction_out[1]) > MOVING && beside * direction_out[1] > 0.0;
    trivet__text_print(text, TRIVET__WAY_MAX, "%s%s%s", way_word(direction_out),
                       wheel_text(frame, result, in_case, joint), is_outward ? ", outward" : "");
}

trivet_status trivet__loss_way(const trivet_frame *frame, int32_t mount, double direction_out[3],
                               char text[TRIVET__WAY_MAX], trivet_message *message)
{
    trivet_frame *copy = NULL;
    trivet_result *result = NULL;
    memset(direction_out, 0, 3 * sizeof *direction_out);
    text[0] = '\0';
    trivet_status status = trivet_frame_copy(frame, &copy, message);
    if (status == TRIVET_OK) {
        status = hang_weakly(copy, mount);
    }
    if (status == TRIVET_OK) {
        status = add_own_cases(copy);
    }
    if (status == TRIVET_OK) {
        status = trivet_frame_solve(copy, &result, NULL);
    }
    if (status == TRIVET_OK) {
        tell_way(copy, result, frame->case_count, direction_out, text);
    }
    trivet_result_free(result);
    trivet_frame_free(copy);
    /* What has no way, has none; only memory is a reason to give up. */
    return status == TRIVET_NO_MEMORY ? trivet__no_memory(message) : TRIVET_OK;
}
