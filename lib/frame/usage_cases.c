/*
 * The cases of a usage that shake everything alike: gravity in multiples, with a sentence each.
 *
 * x is forward, y left, z up. What throws the load forward when the vehicle brakes is told as
 * gravity forward. In a corner the vehicle leans until weight and centrifugal force together lie
 * along its own vertical: 1 / cos(lean) of them, 1.41 at 45 degrees.
 */
#include "frame/usage.h"

#include "base/decimal.h"
#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#define PRACTICE "common practice"
#define TIMES "# times its weight"

int32_t trivet__usage_case(trivet__usage_adding *adding, const char *name, const double *gravity,
                           const char *story, double number, const char *source)
{
    char whole[TRIVET_NAME_MAX];
    char text[400];
    char figures[64];
    int32_t made = -1;
    const char *const place = strchr(story, '#');
    assert(place);
    if (adding->status != TRIVET_OK) {
        return -1;
    }
    trivet__text_print(whole, sizeof whole, "%s, %s", trivet_usage_text(adding->usage->kind), name);
    /* "1 times its weight" is nothing that anybody would say. */
    const int is_whole = number == 1.0 && strncmp(place, TIMES, sizeof TIMES - 1) == 0;
    trivet__decimal_write(number, 3, figures, sizeof figures);
    trivet__text_print(text, sizeof text, "%.*s%s%s", (int)(place - story), story,
                       is_whole ? "its whole weight" : figures,
                       place + (is_whole ? sizeof TIMES - 1 : 1));
    adding->status = trivet_frame_add_case(adding->frame, whole, gravity, &made, adding->message);
    if (adding->status == TRIVET_OK) {
        adding->count++;
        adding->status =
            trivet_frame_set_case_story(adding->frame, made, text, source, adding->message);
    }
    return adding->status == TRIVET_OK ? made : -1;
}

void trivet__usage_gap(trivet__usage_adding *adding, const char *why)
{
    char what[64];
    if (adding->status == TRIVET_OK) {
        trivet__text_print(what, sizeof what, "usage %s", trivet_usage_text(adding->usage->kind));
        adding->status = trivet_frame_add_gap(adding->frame, what, why, adding->message);
    }
}

/* Which number of a usage makes a case, and the way that it pulls beside the weight of 1 g. */
typedef struct shake_row {
    const char *name;
    size_t number; /* offset of the double in trivet_usage */
    double x;
    double y;
    double z;
    double weight; /* multiples of g downward beside it */
    const char *story;
} shake_row;

#define NUMBER(member) offsetof(trivet_usage, member)
static const shake_row SHAKES[] = {
    {"bump", NUMBER(down), 0.0, 0.0, -1.0, 0.0,
     "a pothole or a stone at speed throws everything up and catches it again: for a moment frame "
     "and load weigh # times as much as standing still"},
    {"rebound", NUMBER(up), 0.0, 0.0, 1.0, 0.0,
     "after the bump the load flies up: it tears at the frame upward with # times its weight"},
    {"braking", NUMBER(brake), 1.0, 0.0, 0.0, 1.0,
     "braking as hard as the tyres allow: the load pushes forward with # times its weight"},
    {"pulling away", NUMBER(accelerate), -1.0, 0.0, 0.0, 1.0,
     "a brisk start: the load hangs back with # times its weight"},
    {"side left", NUMBER(side), 0.0, 1.0, 0.0, 1.0,
     "a swerve: the load pushes to the left with # times its weight"},
    {"side right", NUMBER(side), 0.0, -1.0, 0.0, 1.0,
     "a swerve the other way: the load pushes to the right with # times its weight"},
};

static double number_of(const trivet_usage *usage, size_t offset)
{
    return *(const double *)(const void *)((const char *)usage + offset);
}

/* A number that is left out, or 0, leaves its case out. */
static void add_shakes(trivet__usage_adding *adding)
{
    for (size_t i = 0; i < sizeof SHAKES / sizeof SHAKES[0]; i++) {
        const shake_row *const row = &SHAKES[i];
        const double number = number_of(adding->usage, row->number);
        const double gravity[3] = {row->x * number, row->y * number, row->z * number - row->weight};
        if (number > 0.0) {
            trivet__usage_case(adding, row->name, gravity, row->story, number, PRACTICE);
        }
    }
}

static void add_lean(trivet__usage_adding *adding)
{
    const double lean = adding->usage->lean;
    if (!(lean > 0.0)) {
        return;
    }
    const double along = 1.0 / cos(lean);
    const double gravity[3] = {0.0, 0.0, -along};
    trivet__usage_case(
        adding, "leaning in a corner", gravity,
        "leaned over in a corner, weight and sideways pull together press down along "
        "the vehicle's own vertical with # times the weight",
        along, "statics of a vehicle in a steady corner");
}

void trivet__usage_add(trivet__usage_adding *adding)
{
    static void (*const LOADS[])(trivet__usage_adding *) = {
        [TRIVET_USAGE_TWO_UP] = trivet__usage_two_up,
        [TRIVET_USAGE_GRAB] = trivet__usage_grab,
        [TRIVET_USAGE_LIFTED] = trivet__usage_lifted,
        [TRIVET_USAGE_STANDING] = trivet__usage_standing,
        [TRIVET_USAGE_FALL] = trivet__usage_fall,
        [TRIVET_USAGE_STRAPS] = trivet__usage_straps,
        [TRIVET_USAGE_MISFIT] = trivet__usage_misfit,
        [TRIVET_USAGE_STAND] = trivet__usage_push,
    };
    const int32_t kind = adding->usage->kind;
    add_shakes(adding);
    add_lean(adding);
    if (LOADS[kind]) {
        LOADS[kind](adding);
    }
}
