/*
 * How mounts give where nobody measured it. The springs are orders of magnitude, our own choice: a
 * cast lug hardly moves, a bolted-on loop of thin tube bends, rubber is soft.
 */
#include "base/message.h"
#include "frame/frame.h"
#include "trivet/checks.h"

#include <math.h>

typedef struct give_row {
    const char *text;
    double move; /* N/m */
    double turn; /* N m/rad */
} give_row;

static const give_row GIVES[] = {
    [TRIVET_GIVE_RIGID] = {"rigid", HUGE_VAL, HUGE_VAL},
    [TRIVET_GIVE_CAST_LUG] = {"cast lug", 2e7, 2e4},
    [TRIVET_GIVE_TUBE_LOOP] = {"bolted tube loop", 2e6, 4e3},
    [TRIVET_GIVE_RUBBER] = {"rubber", 3e5, 3e2},
};

enum { GIVE_COUNT = sizeof GIVES / sizeof GIVES[0], DIRECTIONS = 6 };

static int is_give(int32_t give)
{
    return give >= 0 && give < GIVE_COUNT;
}

const char *trivet_give_text(int32_t give)
{
    return is_give(give) ? GIVES[give].text : NULL;
}

trivet_status trivet_give_springs(int32_t give, double *springs_out)
{
    if (!springs_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    for (int i = 0; i < DIRECTIONS; i++) {
        springs_out[i] = !is_give(give) ? (double)NAN : i < 3 ? GIVES[give].move : GIVES[give].turn;
    }
    return is_give(give) ? TRIVET_OK : TRIVET_BAD_VALUE;
}

/* Every direction that is held or sprung: a spring of the give, or held if it is rigid. */
static void change_mount(trivet_mount *mount, int32_t give, const double springs[DIRECTIONS])
{
    uint32_t used = mount->held;
    for (uint32_t i = 0; i < DIRECTIONS; i++) {
        used |= mount->spring[i] > 0.0 ? 1U << i : 0U;
    }
    for (uint32_t i = 0; i < DIRECTIONS; i++) {
        const int gives = (used & (1U << i)) && give != TRIVET_GIVE_RIGID;
        mount->spring[i] = gives ? springs[i] : 0.0;
    }
    mount->held = give == TRIVET_GIVE_RIGID ? used : 0U;
}

trivet_status trivet_frame_with_give(const trivet_frame *frame, int32_t give,
                                     trivet_frame **copy_out, trivet_message *message)
{
    double springs[DIRECTIONS];
    trivet_frame *copy = NULL;
    if (copy_out) {
        *copy_out = NULL;
    }
    if (!frame || !copy_out) {
        return trivet__missing(message, frame ? "copy_out" : "frame");
    }
    trivet_status status = trivet_give_springs(give, springs);
    if (status != TRIVET_OK) {
        return trivet__refuse(message, status, "give", "is of no known kind",
                              "use one of trivet_give");
    }
    status = trivet_frame_copy(frame, &copy, message);
    for (int32_t m = 0; status == TRIVET_OK && m < trivet_frame_count(frame, TRIVET_KIND_MOUNT);
         m++) {
        trivet_mount mount = {.size = sizeof mount};
        status = trivet_frame_mount(copy, m, &mount);
        change_mount(&mount, give, springs);
        if (status == TRIVET_OK) {
            status = trivet_frame_set_mount(copy, m, &mount, message);
        }
    }
    if (status != TRIVET_OK) {
        trivet_frame_free(copy);
        return status;
    }
    *copy_out = copy;
    return TRIVET_OK;
}
