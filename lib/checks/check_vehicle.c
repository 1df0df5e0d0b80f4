/*
 * What the vehicle feels of frame and cargo: loads on its axles, what is left on the front wheel,
 * how far they reach.
 *
 * Statics of a body on two axles: a mass m whose centre lies b behind the rear axle, on a wheelbase
 * L, takes m b / L off the front axle and puts m (1 + b / L) on the rear one. On a grade it takes
 * m (b cos(grade) + h sin(grade)) / L off, h being its height above the ground, and pulling away
 * with a times g it takes m (b + h a) / L. What the vehicle shifts by itself then is not known and
 * not counted. Rules on overhang and width differ by country: the limits are the user's.
 */
#include "base/text.h"
#include "checks/check_record.h"
#include "frame/frame.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#define SAID "said of the vehicle"
#define LEDGER "tubes, inserts and the ledger of the cargo"
#define STATICS "moments about the rear wheel's contact with the ground"

/* Frame and cargo together. */
typedef struct burden {
    double mass;
    double centre[3];
    trivet_vehicle vehicle;
    double behind; /* m that the centre lies behind the rear axle */
    double height; /* m above the ground */
    double relief[3];
} burden;

static void add_mass(burden *of, double mass, const double at[3])
{
    of->mass += mass;
    for (int i = 0; i < 3; i++) {
        of->centre[i] += mass * at[i];
    }
}

/* A stretch of something along a tube, as a mass at its middle. */
static void add_stretch(const trivet_frame *frame, int32_t tube, int32_t stock, double from,
                        double to, burden *of)
{
    double first[3];
    double last[3];
    double at[3];
    const double length = trivet_frame_tube_length(frame, tube);
    const double share = 0.5 * (from + to) / length;
    trivet__tube_end_point(frame, tube, 0, first);
    trivet__tube_end_point(frame, tube, frame->tubes[tube].joint_count - 1, last);
    for (int i = 0; i < 3; i++) {
        at[i] = first[i] + share * (last[i] - first[i]);
    }
    add_mass(of, trivet__stock_mass_per_length(&frame->stocks[stock]) * (to - from), at);
}

static void find_burden(const trivet_frame *frame, burden *of)
{
    memset(of, 0, sizeof *of);
    of->vehicle.size = sizeof of->vehicle;
    trivet_frame_vehicle(frame, &of->vehicle);
    for (int32_t t = 0; t < frame->tube_count; t++) {
        add_stretch(frame, t, frame->tubes[t].stock, 0.0, trivet_frame_tube_length(frame, t), of);
        for (int32_t i = 0; i < frame->tubes[t].insert_count; i++) {
            double from = 0.0;
            double to = 0.0;
            trivet__insert_stretch(frame, t, i, &from, &to);
            add_stretch(frame, t, frame->tubes[t].inserts[i].stock, from, to, of);
        }
    }
    for (int32_t c = 0; c < frame->cargo_count; c++) {
        add_mass(of, frame->cargos[c].mass, frame->cargos[c].centre);
    }
    for (int i = 0; i < 3 && of->mass > 0.0; i++) {
        of->centre[i] /= of->mass;
    }
    const trivet_vehicle *const v = &of->vehicle;
    of->behind = v->rear_axle - of->centre[0];
    of->height = of->centre[2] - v->ground;
    of->relief[0] = of->mass * of->behind / v->wheelbase;
    of->relief[1] =
        of->mass * (of->behind * cos(v->grade) + of->height * sin(v->grade)) / v->wheelbase;
    of->relief[2] = of->mass * (of->behind + of->height * v->accelerate) / v->wheelbase;
}

trivet_status trivet_vehicle_relief(const trivet_frame *frame, double *relief_out)
{
    burden of;
    if (!frame || !relief_out) {
        return TRIVET_MISSING_ARGUMENT;
    }
    find_burden(frame, &of);
    memcpy(relief_out, of.relief, sizeof of.relief);
    return isnan(of.relief[0]) ? TRIVET_INCOMPLETE : TRIVET_OK;
}

#define COUNT_OF(lines) ((int32_t)(sizeof(lines) / sizeof(lines)[0]))
#define TABLE(name) static const trivet__table name = {name##_LINES, COUNT_OF(name##_LINES)}

static const trivet__line BURDEN_LINES[] = {
    {"m", "frame and cargo together", "", LEDGER, TRIVET_MASS},
    {"b", "their common centre behind the rear axle", "", LEDGER, TRIVET_LENGTH},
    {"L", "wheelbase", "", SAID, TRIVET_LENGTH},
    {"r", "taken off the front wheel, parked", "m * b / L", STATICS, TRIVET_MASS},
};
TABLE(BURDEN);
static const trivet__line WHEEL_LINES[] = {
    {"h", "height of their centre above the ground", "", LEDGER, TRIVET_LENGTH},
    {"theta", "grade", "", SAID, TRIVET_ANGLE},
    {"a", "start, in multiples of g", "", SAID, TRIVET_NUMBER},
    {"r_grade", "taken off on the grade", "m * (b * cos(theta) + h * sin(theta)) / L", STATICS,
     TRIVET_MASS},
    {"r_start", "taken off when it pulls away", "m * (b + h * a) / L", STATICS, TRIVET_MASS},
    {"F", "on the front wheel without frame and cargo", "", SAID, TRIVET_MASS},
    {"demand", "must stay", "", SAID, TRIVET_MASS},
    {"limit", "left on the front wheel", "max(F - max(r, max(r_grade, r_start)), 0)",
     "difference; a wheel in the air carries nothing", TRIVET_MASS},
    {"used", "utilisation", "demand / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(WHEEL);
static const trivet__line FRONT_LINES[] = {
    {"F", "on the front axle without frame and cargo", "", SAID, TRIVET_MASS},
    {"demand", "on the front axle", "max(F - r, 0)",
     "difference; a wheel in the air carries nothing", TRIVET_MASS},
};
TABLE(FRONT);
static const trivet__line REAR_LINES[] = {
    {"F", "on the rear axle without frame and cargo", "", SAID, TRIVET_MASS},
    {"demand", "on the rear axle", "F + m + r", STATICS, TRIVET_MASS},
};
TABLE(REAR);
static const trivet__line TOTAL_LINES[] = {
    {"m", "frame and cargo together", "", LEDGER, TRIVET_MASS},
    {"F_front", "on the front axle without them", "", SAID, TRIVET_MASS},
    {"F_rear", "on the rear axle without them", "", SAID, TRIVET_MASS},
    {"demand", "in all", "F_front + F_rear + m", "sum", TRIVET_MASS},
};
TABLE(TOTAL);
static const trivet__line MASS_END_LINES[] = {
    {"limit", "most, as on its label", "", SAID, TRIVET_MASS},
    {"used", "utilisation", "demand / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(MASS_END);
static const trivet__line OVERHANG_LINES[] = {
    {"x_axle", "x of the rear axle", "", SAID, TRIVET_LENGTH},
    {"x_back", "x of the rearmost joint or centre of cargo", "", "joints and cargo", TRIVET_LENGTH},
    {"demand", "how far it reaches behind the axle", "max(x_axle - x_back, 0)", "difference",
     TRIVET_LENGTH},
};
TABLE(OVERHANG);
static const trivet__line WIDTH_LINES[] = {
    {"y_left", "y of the leftmost joint", "", "joints; tubes reach half their width farther",
     TRIVET_LENGTH},
    {"y_right", "y of the rightmost joint", "", "joints; tubes reach half their width farther",
     TRIVET_LENGTH},
    {"demand", "width", "y_left - y_right", "difference", TRIVET_LENGTH},
};
TABLE(WIDTH);
static const trivet__line LENGTH_END_LINES[] = {
    {"limit", "allowed", "", SAID "; local rules differ by country", TRIVET_LENGTH},
    {"used", "utilisation", "demand / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(LENGTH_END);

static const trivet__check_kind WHEEL_KIND = {.check = "front wheel",
                                              .verb = "needs",
                                              .counted = "left on it",
                                              .advice =
                                                  "less load, or a load farther forward, helps",
                                              .line = TRIVET_LINE_SERVICE};
static const trivet__check_kind FRONT_KIND = {.check = "front axle",
                                              .verb = "carries",
                                              .advice = "less load helps",
                                              .line = TRIVET_LINE_OVERLOAD};
static const trivet__check_kind REAR_KIND = {.check = "rear axle",
                                             .verb = "carries",
                                             .advice =
                                                 "less load, or a load farther forward, helps",
                                             .line = TRIVET_LINE_OVERLOAD};
static const trivet__check_kind TOTAL_KIND = {
    .check = "vehicle total",
    .verb = "weighs",
    .advice = "the maker's figure stands above every other: carry less, or build lighter",
    .line = TRIVET_LINE_OVERLOAD};
static const trivet__check_kind OVERHANG_KIND = {.check = "overhang",
                                                 .verb = "reaches behind the rear axle by",
                                                 .advice = "a shorter frame helps",
                                                 .line = TRIVET_LINE_SERVICE};
static const trivet__check_kind WIDTH_KIND = {.check = "width",
                                              .verb = "takes a width of",
                                              .advice = "a narrower frame helps",
                                              .line = TRIVET_LINE_SERVICE};

/* A judged record about the vehicle, in any case, without working yet. */
static trivet__record *start_record(trivet__making *making, const trivet__check_kind *kind,
                                    const char *where, int32_t dimension, double demand,
                                    double limit)
{
    trivet__record *const record = trivet__record_start(making, kind, -1, -1);
    record->check.where = where;
    record->check.source = dimension == TRIVET_LENGTH
                               ? "limit set by the user; local rules differ by country"
                               : "limit set by the user";
    trivet__record_judge(making, record, dimension, demand, limit);
    return record;
}

/* The last lines of a working: the limit, and what is used of it. */
static void end_record(trivet__making *making, trivet__record *record, const trivet__table *table)
{
    const double values[] = {record->check.limit, record->check.utilisation};
    trivet__record_table(making, record, table, values);
}

static void add_burden(trivet__making *making, trivet__record *record, const burden *of)
{
    const double values[] = {of->mass, of->behind, of->vehicle.wheelbase, of->relief[0]};
    trivet__record_table(making, record, &BURDEN, values);
}

static void check_wheel(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double most = fmax(of->relief[0], fmax(of->relief[1], of->relief[2]));
    const double left = fmax(v->front_load - most, 0.0);
    trivet__record *const record =
        start_record(making, &WHEEL_KIND, "the front wheel", TRIVET_MASS, v->front_least, left);
    const double values[] = {of->height,     v->grade,      v->accelerate,
                             of->relief[1],  of->relief[2], v->front_load,
                             v->front_least, left,          record->check.utilisation};
    record->check.note = "what the vehicle itself shifts off it on a grade or when it pulls away "
                         "comes on top";
    add_burden(making, record, of);
    trivet__record_table(making, record, &WHEEL, values);
}

static void check_front(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double values[] = {v->front_load, fmax(v->front_load - of->relief[0], 0.0)};
    trivet__record *const record =
        start_record(making, &FRONT_KIND, "the front axle", TRIVET_MASS, values[1], v->front_most);
    add_burden(making, record, of);
    trivet__record_table(making, record, &FRONT, values);
    end_record(making, record, &MASS_END);
}

static void check_rear(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double values[] = {v->rear_load, v->rear_load + of->mass + of->relief[0]};
    trivet__record *const record =
        start_record(making, &REAR_KIND, "the rear axle", TRIVET_MASS, values[1], v->rear_most);
    add_burden(making, record, of);
    trivet__record_table(making, record, &REAR, values);
    end_record(making, record, &MASS_END);
}

static void check_total(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double values[] = {of->mass, v->front_load, v->rear_load,
                             v->front_load + v->rear_load + of->mass};
    trivet__record *const record = start_record(making, &TOTAL_KIND, "the vehicle with all of it",
                                                TRIVET_MASS, values[3], v->total_most);
    trivet__record_table(making, record, &TOTAL, values);
    end_record(making, record, &MASS_END);
}

/* How far joints and centres of cargo reach behind the rear axle. */
static void check_overhang(trivet__making *making, const burden *of)
{
    const trivet_frame *const frame = making->frame;
    const double axle = of->vehicle.rear_axle;
    double back = HUGE_VAL;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        back = fmin(back, frame->joints[j].position[0]);
    }
    for (int32_t c = 0; c < frame->cargo_count; c++) {
        back = fmin(back, frame->cargos[c].centre[0]);
    }
    const double values[] = {axle, back, fmax(axle - back, 0.0)};
    trivet__record *const record =
        start_record(making, &OVERHANG_KIND, "the frame with its cargo", TRIVET_LENGTH, values[2],
                     of->vehicle.overhang_most);
    trivet__record_table(making, record, &OVERHANG, values);
    end_record(making, record, &LENGTH_END);
}

/* How wide the joints stand. */
static void check_width(trivet__making *making, const burden *of)
{
    const trivet_frame *const frame = making->frame;
    double left = -HUGE_VAL;
    double right = HUGE_VAL;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        left = fmax(left, frame->joints[j].position[1]);
        right = fmin(right, frame->joints[j].position[1]);
    }
    const double values[] = {left, right, left - right};
    trivet__record *const record = start_record(making, &WIDTH_KIND, "the frame", TRIVET_LENGTH,
                                                values[2], of->vehicle.width_most);
    trivet__record_table(making, record, &WIDTH, values);
    end_record(making, record, &LENGTH_END);
}

/* What may be said of a vehicle, as the file writes it. */
enum {
    WHEELBASE = 1 << 0,
    REAR_AXLE = 1 << 1,
    GROUND = 1 << 2,
    FRONT_LOAD = 1 << 3,
    REAR_LOAD = 1 << 4,
    FRONT_MOST = 1 << 5,
    REAR_MOST = 1 << 6,
    TOTAL_MOST = 1 << 7,
    FRONT_LEAST = 1 << 8,
    OVERHANG_MOST = 1 << 9,
    WIDTH_MOST = 1 << 10,
    WHEEL_RADIUS = 1 << 11,
    EVERYTHING = (1 << 12) - 1
};

static const struct {
    const char *key;
    size_t at;
} KEYS[] = {
    {"wheelbase", offsetof(trivet_vehicle, wheelbase)},
    {"rear axle", offsetof(trivet_vehicle, rear_axle)},
    {"ground", offsetof(trivet_vehicle, ground)},
    {"front load", offsetof(trivet_vehicle, front_load)},
    {"rear load", offsetof(trivet_vehicle, rear_load)},
    {"front most", offsetof(trivet_vehicle, front_most)},
    {"rear most", offsetof(trivet_vehicle, rear_most)},
    {"total most", offsetof(trivet_vehicle, total_most)},
    {"front least", offsetof(trivet_vehicle, front_least)},
    {"overhang", offsetof(trivet_vehicle, overhang_most)},
    {"width", offsetof(trivet_vehicle, width_most)},
    {"wheel radius", offsetof(trivet_vehicle, wheel_radius)},
};
enum { KEY_COUNT = sizeof KEYS / sizeof KEYS[0] };

/* Bits of what was not said. */
static uint32_t find_missing(const trivet_vehicle *vehicle)
{
    uint32_t missing = 0;
    for (uint32_t k = 0; k < KEY_COUNT; k++) {
        double value = 0.0;
        memcpy(&value, (const char *)vehicle + KEYS[k].at, sizeof value);
        missing |= isnan(value) ? 1U << k : 0U;
    }
    return missing;
}

/* A check, what it needs beside its limit, and what to say where that limit is not known. */
static const struct {
    const char *what;
    void (*make)(trivet__making *making, const burden *of);
    uint32_t needs;
    uint32_t limit;
    const char *hint;
} CHECKS[] = {
    {"front wheel", check_wheel, WHEELBASE | REAR_AXLE | GROUND | FRONT_LOAD, FRONT_LEAST,
     "; front least is what must stay on it"},
    {"front axle", check_front, WHEELBASE | REAR_AXLE | FRONT_LOAD, FRONT_MOST,
     "; front most stands on the vehicle's label"},
    {"rear axle", check_rear, WHEELBASE | REAR_AXLE | REAR_LOAD, REAR_MOST,
     "; rear most stands on the vehicle's label"},
    {"vehicle total", check_total, FRONT_LOAD | REAR_LOAD, TOTAL_MOST,
     "; total most stands on the vehicle's label"},
    {"overhang", check_overhang, REAR_AXLE, OVERHANG_MOST,
     "; how much is allowed differs by country"},
    {"width", check_width, 0, WIDTH_MOST, "; how much is allowed differs by country"},
};

/* "add vehicle: {wheelbase: ..., front least: ...}; front least is what must stay on it" */
static void say_why(uint32_t missing, const char *hint, char *text, size_t size)
{
    char keys[TRIVET__REASON_MAX] = "";
    for (uint32_t k = 0; k < KEY_COUNT; k++) {
        if (missing & (1U << k)) {
            const size_t length = strlen(keys);
            trivet__text_print(keys + length, sizeof keys - length, "%s%s: ...",
                               length > 0 ? ", " : "", KEYS[k].key);
        }
    }
    trivet__text_print(text, size, "add vehicle: {%s}%s", keys, hint);
}

trivet_status trivet__check_vehicle(trivet__making *making)
{
    burden of;
    find_burden(making->frame, &of);
    const uint32_t missing = find_missing(&of.vehicle);
    trivet_status status = TRIVET_OK;
    if (missing == EVERYTHING) {
        return TRIVET_OK;
    }
    for (size_t i = 0; i < sizeof CHECKS / sizeof CHECKS[0] && status == TRIVET_OK; i++) {
        const uint32_t lacks = (CHECKS[i].needs | CHECKS[i].limit) & missing;
        if (lacks == 0) {
            CHECKS[i].make(making, &of);
        } else {
            status =
                trivet__omit_saying(making->checks, TRIVET_LINE_SERVICE, CHECKS[i].what, say_why,
                                    lacks, lacks & CHECKS[i].limit ? CHECKS[i].hint : "");
        }
    }
    return status;
}
