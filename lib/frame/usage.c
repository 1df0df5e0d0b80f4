/*
 * Ready-made groups of cases: their numbers, and which of them a usage adds.
 *
 * The numbers are common practice for motorcycles and light carriers, or our own choice where the
 * story says so; every one can be changed by the caller.
 */
#include "frame/usage.h"

#include "base/defaults.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

#define NONE ((double)NAN)
#define DEGREES (3.14159265358979323846 / 180.0)
#define PERSON 75.0 /* kg, common practice */

typedef struct usage_row {
    const char *word;
    double down;
    double up;
    double brake;
    double accelerate;
    double side;
    double lean;
    double force;
    double mass;
    double settle;
    double move;
} usage_row;

static const usage_row ROWS[] = {
    {"road", 3.0, 1.0, 1.0, 0.5, 0.5, 45.0 * DEGREES, NONE, NONE, NONE, NONE},
    {"rough track", 4.0, 1.0, 1.0, 0.5, 0.5, NONE, NONE, NONE, NONE, NONE},
    {"two-up", NONE, NONE, NONE, NONE, NONE, NONE, 400.0, PERSON, 1.5, NONE},
    {"grab", NONE, NONE, NONE, NONE, NONE, NONE, 2000.0, NONE, NONE, NONE},
    {"lifted", NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE},
    {"standing", NONE, NONE, NONE, NONE, NONE, NONE, NONE, PERSON, 1.5, NONE},
    {"fall", NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE},
    {"straps", NONE, NONE, NONE, NONE, NONE, NONE, 500.0, NONE, NONE, NONE},
    {"misfit", NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, 1e-3},
    {"lost bolt", NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE},
    {"trailer", 3.0, 1.0, 0.8, 0.5, 0.5, NONE, NONE, NONE, NONE, NONE},
    {"quad bike", 4.0, 1.0, 0.7, 0.7, 0.7, NONE, NONE, NONE, NONE, NONE},
    {"stand", 1.5, NONE, NONE, NONE, NONE, NONE, 300.0, NONE, NONE, NONE},
};

enum { KIND_COUNT = sizeof ROWS / sizeof ROWS[0] };

static int is_kind(int32_t kind)
{
    return kind >= TRIVET_USAGE_ROAD && kind <= KIND_COUNT;
}

const char *trivet_usage_text(int32_t kind)
{
    return is_kind(kind) ? ROWS[kind - 1].word : NULL;
}

trivet_status trivet_usage_defaults(trivet_usage *usage, size_t size, int32_t kind)
{
    if (!is_kind(kind)) {
        return TRIVET_BAD_VALUE;
    }
    const trivet_status status = trivet__defaults(usage, size, sizeof *usage);
    if (status == TRIVET_OK) {
        const usage_row *const row = &ROWS[kind - 1];
        *usage = (trivet_usage){.size = size,
                                .kind = kind,
                                .cargo = -1,
                                .tube = -1,
                                .down = row->down,
                                .up = row->up,
                                .brake = row->brake,
                                .accelerate = row->accelerate,
                                .side = row->side,
                                .lean = row->lean,
                                .force = row->force,
                                .mass = row->mass,
                                .height = NONE,
                                .settle = row->settle,
                                .move = row->move};
    }
    return status;
}

bool trivet_frame_has_usage(const trivet_frame *frame, int32_t kind)
{
    return frame && is_kind(kind) && (frame->usages & (1U << kind)) != 0;
}

/* Numbers that are said must be finite and at least 0; a lean stays below upright by far. */
static trivet_status check_numbers(const trivet_usage *usage, trivet_message *message)
{
    const double values[] = {usage->down,   usage->up,     usage->brake, usage->accelerate,
                             usage->side,   usage->lean,   usage->force, usage->mass,
                             usage->height, usage->settle, usage->move};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        if (!isnan(values[i]) && !(values[i] >= 0.0 && values[i] < 1e6)) {
            return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "usage",
                                        trivet_usage_text(usage->kind),
                                        "one of its numbers is below 0 or out of all proportion",
                                        "give numbers of 0 or more");
        }
    }
    if (!isnan(usage->lean) && !(usage->lean < 80.0 * DEGREES)) {
        return trivet__refuse_thing(message, TRIVET_BAD_VALUE, "usage",
                                    trivet_usage_text(usage->kind), "nothing leans over that far",
                                    "give the angle from upright, such as 45 deg");
    }
    return TRIVET_OK;
}

static trivet_status check_usage(const trivet_frame *frame, const trivet_usage *usage,
                                 trivet_message *message)
{
    trivet_status status = trivet__size_check(usage->size, sizeof *usage, "usage",
                                              "fill it with trivet_usage_defaults first", message);
    if (status == TRIVET_OK && !is_kind(usage->kind)) {
        status = trivet__refuse(message, TRIVET_BAD_VALUE, "usage", "is of no known kind",
                                "use one of trivet_usage_kind");
    }
    if (status == TRIVET_OK && usage->cargo != -1) {
        status = trivet__index_check(frame, TRIVET_KIND_CARGO, usage->cargo, message);
    }
    if (status == TRIVET_OK && usage->tube != -1) {
        status = trivet__index_check(frame, TRIVET_KIND_TUBE, usage->tube, message);
    }
    return status == TRIVET_OK ? check_numbers(usage, message) : status;
}

/* Adds the usage to a copy first: what cannot be added leaves the frame as it was. */
static trivet_status try_usage(const trivet_frame *frame, const trivet_usage *usage,
                               trivet_message *message)
{
    trivet_frame *copy = NULL;
    trivet_status status = trivet_frame_copy(frame, &copy, message);
    if (status == TRIVET_OK) {
        trivet__usage_adding adding = {.frame = copy, .usage = usage, .message = message};
        trivet__usage_add(&adding);
        status = adding.status;
    }
    trivet_frame_free(copy);
    return status;
}

trivet_status trivet_frame_add_usage(trivet_frame *frame, const trivet_usage *usage,
                                     int32_t *count_out, trivet_message *message)
{
    if (count_out) {
        *count_out = 0;
    }
    if (!frame || !usage) {
        return trivet__missing(message, frame ? "usage" : "frame");
    }
    const trivet_status status = check_usage(frame, usage, message);
    if (status != TRIVET_OK) {
        return status;
    }
    if (trivet_frame_has_usage(frame, usage->kind)) {
        return trivet__refuse_thing(message, TRIVET_BAD_NAME, "usage",
                                    trivet_usage_text(usage->kind), "it was added already",
                                    "name it once");
    }
    const trivet_status trial = try_usage(frame, usage, message);
    if (trial != TRIVET_OK) {
        return trial;
    }
    trivet__usage_adding adding = {.frame = frame, .usage = usage, .message = message};
    trivet__usage_add(&adding);
    if (adding.status == TRIVET_OK) {
        frame->usages |= 1U << usage->kind;
        if (count_out) {
            *count_out = adding.count;
        }
    }
    return adding.status;
}
