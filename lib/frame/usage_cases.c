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

/* What stands still beside the pull of a row. */
typedef enum shake_rest {
    REST_NOTHING, /* the row pulls alone */
    REST_WEIGHT,  /* 1 g downward */
    REST_SLOPE    /* the share of 1 g that presses on a slope along which the row pulls */
} shake_rest;

#define ALL_KINDS (~0U)
#define ONLY(kind) (1U << (kind))
#define ALL_BUT(kind) (ALL_KINDS ^ ONLY(kind))

/* Which number of a usage makes a case, and the way that it pulls. */
typedef struct shake_row {
    const char *name;
    size_t number; /* offset of the double in trivet_usage */
    const char *story;
    const char *source;
    double pull[3];
    uint32_t kinds; /* of usages that have it: bits 1 << trivet_usage_kind */
    shake_rest rest;
} shake_row;

#define NUMBER(member) offsetof(trivet_usage, member)
static const shake_row SHAKES[] = {
    {"bump",
     NUMBER(down),
     "a pothole or a stone at speed throws everything up and catches it again: for a moment frame "
     "and load weigh # times as much as standing still",
     TRIVET__PRACTICE,
     {0.0, 0.0, -1.0},
     ALL_BUT(TRIVET_USAGE_STAND),
     REST_NOTHING},
    {"set down hard",
     NUMBER(down),
     "the load is dropped on the last bit of the way: for a moment frame and load weigh # times as "
     "much as standing still",
     TRIVET__PRACTICE,
     {0.0, 0.0, -1.0},
     ONLY(TRIVET_USAGE_STAND),
     REST_NOTHING},
    {"rebound",
     NUMBER(up),
     "after the bump the load flies up: it tears at the frame upward with # times its weight",
     TRIVET__PRACTICE,
     {0.0, 0.0, 1.0},
     ALL_KINDS,
     REST_NOTHING},
    {"braking",
     NUMBER(brake),
     "braking as hard as the tyres allow: the load pushes forward with # times its weight",
     TRIVET__PRACTICE,
     {1.0, 0.0, 0.0},
     ALL_BUT(TRIVET_USAGE_QUAD),
     REST_WEIGHT},
    {"downhill",
     NUMBER(brake),
     "down the steepest slope that it can stand on: the load pushes forward with # times its "
     "weight",
     TRIVET__OURS,
     {1.0, 0.0, 0.0},
     ONLY(TRIVET_USAGE_QUAD),
     REST_SLOPE},
    {"pulling away",
     NUMBER(accelerate),
     "a brisk start: the load hangs back with # times its weight",
     TRIVET__PRACTICE,
     {-1.0, 0.0, 0.0},
     ALL_BUT(TRIVET_USAGE_QUAD),
     REST_WEIGHT},
    {"uphill",
     NUMBER(accelerate),
     "up the steepest slope that it can climb: the load hangs back with # times its weight",
     TRIVET__OURS,
     {-1.0, 0.0, 0.0},
     ONLY(TRIVET_USAGE_QUAD),
     REST_SLOPE},
    {"side left",
     NUMBER(side),
     "a swerve: the load pushes to the left with # times its weight",
     TRIVET__PRACTICE,
     {0.0, 1.0, 0.0},
     ALL_KINDS,
     REST_WEIGHT},
    {"side right",
     NUMBER(side),
     "a swerve the other way: the load pushes to the right with # times its weight",
     TRIVET__PRACTICE,
     {0.0, -1.0, 0.0},
     ALL_KINDS,
     REST_WEIGHT},
};

static double number_of(const trivet_usage *usage, size_t offset)
{
    return *(const double *)(const void *)((const char *)usage + offset);
}

/* Downward multiples of g beside a pull of number: on a slope sin^2 + cos^2 = 1. */
static double weight_of(shake_rest rest, double number)
{
    switch (rest) {
    case REST_WEIGHT:
        return 1.0;
    case REST_SLOPE:
        return sqrt(1.0 - number * number);
    case REST_NOTHING:
    default:
        return 0.0;
    }
}

/* A number that is left out, or 0, leaves its case out. */
static void add_shakes(trivet__usage_adding *adding)
{
    for (size_t i = 0; i < sizeof SHAKES / sizeof SHAKES[0]; i++) {
        const shake_row *const row = &SHAKES[i];
        const double number = number_of(adding->usage, row->number);
        if ((row->kinds & ONLY(adding->usage->kind)) != 0 && number > 0.0) {
            const double gravity[3] = {row->pull[0] * number, row->pull[1] * number,
                                       row->pull[2] * number - weight_of(row->rest, number)};
            trivet__usage_case(adding, row->name, gravity, row->story, number, row->source);
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
