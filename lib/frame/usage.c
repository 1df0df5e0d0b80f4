/*
 * Ready-made groups of cases: their numbers, and which of them a usage adds.
 *
 * The numbers are common practice for motorcycles and light carriers, or our own choice where the
 * story says so; every one can be changed by the caller.
 */
#include "frame/usage.h"

#include "base/decimal.h"
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

trivet_status trivet_usage_defaults(trivet_usage *usage, size_t size)
{
    const trivet_status status = trivet__defaults(usage, size, sizeof *usage);
    if (status == TRIVET_OK) {
        *usage = (trivet_usage){.size = size,
                                .cargo = -1,
                                .tube = -1,
                                .down = NONE,
                                .up = NONE,
                                .brake = NONE,
                                .accelerate = NONE,
                                .side = NONE,
                                .lean = NONE,
                                .force = NONE,
                                .mass = NONE,
                                .height = NONE,
                                .settle = NONE,
                                .move = NONE};
    }
    return status;
}

trivet_status trivet_usage_of(trivet_usage *usage, size_t size, int32_t kind)
{
    const trivet_status status = trivet_usage_defaults(usage, size);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!is_kind(kind)) {
        return TRIVET_BAD_VALUE;
    }
    const usage_row *const row = &ROWS[kind - 1];
    usage->kind = kind;
    usage->down = row->down;
    usage->up = row->up;
    usage->brake = row->brake;
    usage->accelerate = row->accelerate;
    usage->side = row->side;
    usage->lean = row->lean;
    usage->force = row->force;
    usage->mass = row->mass;
    usage->settle = row->settle;
    usage->move = row->move;
    return TRIVET_OK;
}

bool trivet_frame_has_usage(const trivet_frame *frame, int32_t kind)
{
    return frame && is_kind(kind) && (frame->usages & (1U << kind)) != 0;
}

static trivet_status check_number(const trivet_usage *usage, const char *what, double value,
                                  double most, trivet_message *message)
{
    if (isnan(value) || (value >= 0.0 && value <= most)) {
        return TRIVET_OK;
    }
    trivet__refuse_thing(message, TRIVET_BAD_VALUE, "usage", trivet_usage_text(usage->kind), "",
                         "");
    trivet__message_problem(message, "its %s is below 0 or too large to be meant", what);
    char text[32];
    trivet__decimal_write(most, 3, text, sizeof text);
    trivet__message_remedy(message, "give a number from 0 to %s; 0 leaves its case out", text);
    return TRIVET_BAD_VALUE;
}

/* Numbers that are said must be at least 0. The limits keep what nobody means out of a case. */
static trivet_status check_numbers(const trivet_usage *usage, trivet_message *message)
{
    /* Multiples of g; a slope takes at most the whole weight; N, kg and m. */
    const double most_g = 1e3;
    const double most_along = usage->kind == TRIVET_USAGE_QUAD ? 1.0 : most_g;
    const struct {
        const char *what;
        double value;
        double most;
    } rows[] = {
        {"bump down", usage->down, most_g},
        {"rebound up", usage->up, most_g},
        {"braking", usage->brake, most_along},
        {"pulling away", usage->accelerate, most_along},
        {"side", usage->side, most_g},
        {"force", usage->force, 1e6},
        {"mass", usage->mass, 1e4},
        {"height", usage->height, 100.0},
        {"settling", usage->settle, most_g},
        {"move", usage->move, 1.0},
    };
    trivet_status status = TRIVET_OK;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && status == TRIVET_OK; i++) {
        status = check_number(usage, rows[i].what, rows[i].value, rows[i].most, message);
    }
    if (status == TRIVET_OK && !isnan(usage->lean) &&
        !(usage->lean >= 0.0 && usage->lean < 80.0 * DEGREES)) {
        status = trivet__refuse_thing(message, TRIVET_BAD_VALUE, "usage",
                                      trivet_usage_text(usage->kind), "nothing leans that far",
                                      "give the angle from upright, such as 45 deg");
    }
    return status;
}

static trivet_status check_usage(const trivet_frame *frame, const trivet_usage *usage,
                                 trivet_message *message)
{
    trivet_status status = trivet__size_check(usage->size, sizeof *usage, "usage",
                                              "fill it with trivet_usage_of first", message);
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
    const int32_t case_count = frame->case_count;
    const int32_t name_count = frame->case_names.count;
    const int32_t gap_count = frame->gap_count;
    trivet__usage_adding adding = {.frame = frame, .usage = usage, .message = message};
    trivet__usage_add(&adding);
    if (adding.status != TRIVET_OK) {
        frame->case_count = case_count;
        trivet__names_cut(&frame->case_names, name_count);
        frame->gap_count = gap_count;
        return adding.status;
    }
    frame->usages |= 1U << usage->kind;
    if (count_out) {
        *count_out = adding.count;
    }
    return TRIVET_OK;
}
