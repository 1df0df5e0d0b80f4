/*
 * The border of a frame. NaN takes the refusing branch everywhere.
 */
#include "frame/border.h"

#include "base/text.h"
#include "base/vec3.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

/* How far axes may be from unit vectors at right angles. */
static const double axes_tolerance = 1e-9;

void *trivet__grown(trivet__pool *pool, void *list, int32_t count, size_t *capacity, size_t size)
{
    void *grown = list;
    if (count == INT32_MAX ||
        !trivet__pool_make_room(pool, &grown, (size_t)count, capacity, size)) {
        return NULL;
    }
    return grown;
}

static const char *const words[] = {
    [TRIVET_KIND_JOINT] = "joint",
    [TRIVET_KIND_STOCK] = "stock",
    [TRIVET_KIND_TUBE] = "tube",
    [TRIVET_KIND_MOUNT] = "mount",
    [TRIVET_KIND_CARGO] = "cargo",
    [TRIVET_KIND_CASE] = "case",
    [TRIVET_KIND_COMBINATION] = "combination",
    [TRIVET_KIND_DECK] = "deck",
    [TRIVET_KIND_CYCLES] = "cycles",
};

int trivet__is_kind(int32_t kind)
{
    return kind >= TRIVET_KIND_JOINT && kind <= TRIVET_KIND_CYCLES;
}

const char *trivet_kind_text(int32_t kind)
{
    return trivet__is_kind(kind) ? words[kind] : "thing";
}

trivet_status trivet__refuse_thing(trivet_message *message, trivet_status status, const char *kind,
                                   const char *name, const char *problem, const char *remedy)
{
    trivet__refuse(message, status, "", problem, remedy);
    trivet__message_thing(message, "%s %s", kind, name);
    return status;
}

trivet_status trivet__index_check(const trivet_frame *frame, int32_t kind, int32_t index,
                                  trivet_message *message)
{
    const int32_t count = trivet_frame_count(frame, kind);
    if (index >= 0 && index < count) {
        return TRIVET_OK;
    }
    trivet__refuse(message, TRIVET_BAD_INDEX, "", "", "count from 0 in the order of adding");
    trivet__message_thing(message, "%s number %d", trivet_kind_text(kind), (int)index);
    trivet__message_problem(message, "there is none, the frame has %d of them", (int)count);
    return TRIVET_BAD_INDEX;
}

static trivet_status refuse_number(double value, trivet__number_of of, const char *complaint,
                                   const char *remedy, trivet_message *message)
{
    char text[TRIVET__VALUE_TEXT_MAX];
    trivet_units_text(NULL, of.dimension, value, 6, text, sizeof text);
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, of.kind, of.name, "", remedy);
    trivet__message_problem(message, "the %s is %s%s", of.what, text, complaint);
    return TRIVET_BAD_VALUE;
}

trivet_status trivet__numbers_check(const double *values, int32_t count, trivet__number_of of,
                                    trivet_message *message)
{
    const double most = of.dimension == TRIVET_LENGTH ? TRIVET__LENGTH_MOST : TRIVET__NUMBER_MOST;
    for (int32_t i = 0; i < count; i++) {
        if (!isfinite(values[i])) {
            trivet__refuse_thing(message, TRIVET_BAD_VALUE, of.kind, of.name, "",
                                 "give a finite number");
            trivet__message_problem(message, "the %s is not a finite number", of.what);
            return TRIVET_BAD_VALUE;
        }
        if (!(fabs(values[i]) <= most)) {
            return refuse_number(values[i], of, ", beyond what can be reckoned with",
                                 "give a smaller number", message);
        }
    }
    return TRIVET_OK;
}

trivet_status trivet__not_negative_check(double value, trivet__number_of of,
                                         trivet_message *message)
{
    const trivet_status status = trivet__numbers_check(&value, 1, of, message);
    if (status != TRIVET_OK || value >= 0.0) {
        return status;
    }
    return refuse_number(value, of, "", "give 0 or more", message);
}

trivet_status trivet__positive_check(double value, trivet__number_of of, trivet_message *message)
{
    const trivet_status status = trivet__numbers_check(&value, 1, of, message);
    if (status != TRIVET_OK || value > 0.0) {
        return status;
    }
    return refuse_number(value, of, "", "give more than 0", message);
}

static int is_near(double value, double wanted)
{
    return fabs(value - wanted) <= axes_tolerance;
}

/* Unit vectors at right angles, right-handed: x cross y is z. */
static int are_axes(const double axes[9])
{
    double z[3];
    trivet__cross3(axes, axes + 3, z);
    return is_near(trivet__dot3(axes, axes), 1.0) &&
           is_near(trivet__dot3(axes + 3, axes + 3), 1.0) &&
           is_near(trivet__dot3(axes, axes + 3), 0.0) && is_near(z[0], axes[6]) &&
           is_near(z[1], axes[7]) && is_near(z[2], axes[8]);
}

trivet_status trivet__axes_check(const double axes[9], const char *kind, const char *name,
                                 trivet_message *message)
{
    return are_axes(axes) ? TRIVET_OK
                          : trivet__refuse_thing(message, TRIVET_BAD_VALUE, kind, name,
                                                 "its axes are not unit vectors at right angles",
                                                 "give x, y and z of length 1 with z = x cross y");
}

int trivet__is_text(const char *text, size_t size)
{
    size_t bad_at = 0;
    const char *const end = memchr(text, '\0', size);
    return end && trivet__text_is_utf8(text, (size_t)(end - text), &bad_at);
}

/* The place of the first number that stands earlier in the list already, or -1. */
static int32_t find_twice(const int32_t *list, int32_t count, unsigned char *seen)
{
    for (int32_t i = 0; i < count; i++) {
        if (seen[list[i]]) {
            return i;
        }
        seen[list[i]] = 1;
    }
    return -1;
}

trivet_status trivet__list_check(trivet_frame *frame, int32_t kind, const int32_t *list,
                                 int32_t count, const char *owner, const char *name,
                                 trivet_message *message)
{
    for (int32_t i = 0; i < count; i++) {
        const trivet_status status = trivet__index_check(frame, kind, list[i], message);
        if (status != TRIVET_OK) {
            trivet__message_within(message, "%s %s", owner, name);
            return status;
        }
    }
    trivet__pool_rewind(&frame->scratch);
    unsigned char *const seen =
        trivet__pool_take(&frame->scratch, (size_t)trivet_frame_count(frame, kind), 1);
    if (!seen) {
        return trivet__no_memory(message);
    }
    const int32_t twice = find_twice(list, count, seen);
    if (twice < 0) {
        return TRIVET_OK;
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, owner, name, "", "name it once");
    trivet__message_problem(message, "%s %s stands in it twice", trivet_kind_text(kind),
                            trivet_frame_name(frame, kind, list[twice]));
    return TRIVET_BAD_VALUE;
}
