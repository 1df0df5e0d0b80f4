/*
 * What the vehicle feels of frame and cargo: loads on its axles, what is left on the front wheel,
 * how far they reach.
 *
 * Statics of a body on two axles: a mass m whose centre lies b behind the rear axle, on a wheelbase
 * L, takes m b / L off the front axle and puts m (1 + b / L) on the rear one. On a grade its height
 * h adds h sin(grade), pulling away h a / g. Rules on overhang and width differ by country: the
 * limits are the user's.
 */
#include "checks/check_record.h"
#include "frame/frame.h"

#include <math.h>
#include <string.h>

#define SAID "vehicle, as the file says"
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
#define BURDEN_ROWS                                                                                \
    {"m", "frame and cargo together", "", "tubes, inserts and the ledger of the cargo",            \
     TRIVET_MASS},                                                                                 \
        {"b", "their common centre behind the rear axle", "",                                      \
         "tubes, inserts and the ledger of the cargo", TRIVET_LENGTH},                             \
        {"L", "wheelbase", "", SAID, TRIVET_LENGTH},                                               \
    {                                                                                              \
        "r", "taken off the front wheel, parked", "m * b / L", STATICS, TRIVET_MASS                \
    }
#define END_ROWS                                                                                   \
    {"limit", "allowed", "", SAID, TRIVET_MASS},                                                   \
    {                                                                                              \
        "used", "utilisation", "demand / limit", "demand over limit", TRIVET_NUMBER                \
    }

static const trivet__line WHEEL_LINES[] = {
    BURDEN_ROWS,
    {"h", "height of their centre above the ground", "", SAID, TRIVET_LENGTH},
    {"theta", "grade", "", SAID, TRIVET_ANGLE},
    {"a", "start, in multiples of g", "", SAID, TRIVET_NUMBER},
    {"r_grade", "taken off on the grade", "m * (b * cos(theta) + h * sin(theta)) / L", STATICS,
     TRIVET_MASS},
    {"r_start", "taken off when pulling away", "m * (b + h * a) / L", STATICS, TRIVET_MASS},
    {"F", "on the front wheel without frame and cargo", "", SAID, TRIVET_MASS},
    {"limit", "left on the front wheel", "F - max(r, max(r_grade, r_start))", "difference",
     TRIVET_MASS},
    {"demand", "must stay", "", SAID, TRIVET_MASS},
};
TABLE(WHEEL);
static const trivet__line FRONT_LINES[] = {
    BURDEN_ROWS,
    {"F", "on the front axle without frame and cargo", "", SAID, TRIVET_MASS},
    {"demand", "on the front axle", "F - r", "difference", TRIVET_MASS},
    END_ROWS,
};
TABLE(FRONT);
static const trivet__line REAR_LINES[] = {
    BURDEN_ROWS,
    {"F", "on the rear axle without frame and cargo", "", SAID, TRIVET_MASS},
    {"demand", "on the rear axle", "F + m + r", STATICS, TRIVET_MASS},
    END_ROWS,
};
TABLE(REAR);
static const trivet__line TOTAL_LINES[] = {
    {"m", "frame and cargo together", "", "tubes, inserts and the ledger of the cargo",
     TRIVET_MASS},
    {"F", "the vehicle without them", "", SAID, TRIVET_MASS},
    {"demand", "in all", "F + m", "sum", TRIVET_MASS},
    END_ROWS,
};
TABLE(TOTAL);
static const trivet__line REACH_LINES[] = {
    {"demand", "as built", "", "joints and centres of cargo", TRIVET_LENGTH},
    {"limit", "allowed", "", SAID "; rules differ by country", TRIVET_LENGTH},
    {"used", "utilisation", "demand / limit", "demand over limit", TRIVET_NUMBER},
};
TABLE(REACH);

#define KIND(name, what, help, on)                                                                 \
    {                                                                                              \
        .check = name, .verb = what, .advice = help, .line = on, .where_kind = 0                   \
    }
static const trivet__check_kind WHEEL_KIND = KIND(
    "front wheel", "needs", "less load, or a load farther forward, helps", TRIVET_LINE_SERVICE);
static const trivet__check_kind FRONT_KIND =
    KIND("front axle", "carries", "less load helps", TRIVET_LINE_OVERLOAD);
static const trivet__check_kind REAR_KIND = KIND(
    "rear axle", "carries", "less load, or a load farther forward, helps", TRIVET_LINE_OVERLOAD);
static const trivet__check_kind TOTAL_KIND = KIND(
    "vehicle total", "weighs", "the maker's figure stands above every other", TRIVET_LINE_OVERLOAD);
static const trivet__check_kind OVERHANG_KIND = KIND("overhang", "reaches behind the rear axle by",
                                                     "a shorter frame helps", TRIVET_LINE_SERVICE);
static const trivet__check_kind WIDTH_KIND =
    KIND("width", "is as wide as", "a narrower frame helps", TRIVET_LINE_SERVICE);

/* A record about the vehicle, in any case. */
static void add_record(trivet__making *making, const trivet__check_kind *kind, const char *where,
                       const trivet__table *table, const double *values, int32_t dimension,
                       double demand, double limit)
{
    trivet__record *const record = trivet__record_start(making, kind, -1, -1);
    record->check.where = where;
    record->check.source = "limit set by the user";
    trivet__record_table(making, record, table, values);
    trivet__record_judge(making, record, dimension, demand, limit);
}

static void check_wheel(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double most = fmax(of->relief[0], fmax(of->relief[1], of->relief[2]));
    const double left = v->front_load - most;
    const double values[] = {of->mass,      of->behind,    v->wheelbase,  of->relief[0],
                             of->height,    v->grade,      v->accelerate, of->relief[1],
                             of->relief[2], v->front_load, left,          v->front_least};
    add_record(making, &WHEEL_KIND, "the front wheel", &WHEEL, values, TRIVET_MASS, v->front_least,
               left);
}

/* One axle: its load without the burden, with it, and what it may carry. */
static void check_axle(trivet__making *making, const burden *of, int is_front)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double before = is_front ? v->front_load : v->rear_load;
    const double limit = is_front ? v->front_most : v->rear_most;
    const double load = is_front ? before - of->relief[0] : before + of->mass + of->relief[0];
    const double values[] = {of->mass, of->behind, v->wheelbase, of->relief[0],
                             before,   load,       limit,        load / limit};
    add_record(making, is_front ? &FRONT_KIND : &REAR_KIND,
               is_front ? "the front axle" : "the rear axle", is_front ? &FRONT : &REAR, values,
               TRIVET_MASS, load, limit);
}

static void check_total(trivet__making *making, const burden *of)
{
    const trivet_vehicle *const v = &of->vehicle;
    const double before = v->front_load + v->rear_load;
    const double total = before + of->mass;
    const double values[] = {of->mass, before, total, v->total_most, total / v->total_most};
    add_record(making, &TOTAL_KIND, "the vehicle with all of it", &TOTAL, values, TRIVET_MASS,
               total, v->total_most);
}

/* How far joints and cargo reach behind the rear axle, and how wide the joints stand. */
static void check_reach(trivet__making *making, const burden *of)
{
    const trivet_frame *const frame = making->frame;
    double back = HUGE_VAL;
    double left = -HUGE_VAL;
    double right = HUGE_VAL;
    for (int32_t j = 0; j < frame->joint_count; j++) {
        back = fmin(back, frame->joints[j].position[0]);
        left = fmax(left, frame->joints[j].position[1]);
        right = fmin(right, frame->joints[j].position[1]);
    }
    for (int32_t c = 0; c < frame->cargo_count; c++) {
        back = fmin(back, frame->cargos[c].centre[0]);
    }
    const double overhang = fmax(0.0, of->vehicle.rear_axle - back);
    const double over[] = {overhang, of->vehicle.overhang_most,
                           overhang / of->vehicle.overhang_most};
    const double wide[] = {left - right, of->vehicle.width_most,
                           (left - right) / of->vehicle.width_most};
    if (!isnan(over[2])) {
        add_record(making, &OVERHANG_KIND, "the frame with its cargo", &REACH, over, TRIVET_LENGTH,
                   over[0], over[1]);
    }
    if (!isnan(wide[2])) {
        add_record(making, &WIDTH_KIND, "the frame", &REACH, wide, TRIVET_LENGTH, wide[0], wide[1]);
    }
}

static trivet_status omit(trivet__making *making, int is_missing, const char *what, const char *why)
{
    return is_missing ? trivet__omit(making->checks, TRIVET_LINE_SERVICE, what, "", why)
                      : TRIVET_OK;
}

trivet_status trivet__check_vehicle(trivet__making *making)
{
    burden of;
    if (making->frame->vehicle.size == 0) {
        return TRIVET_OK;
    }
    find_burden(making->frame, &of);
    const trivet_vehicle *const v = &of.vehicle;
    const double wheel =
        of.relief[0] + of.relief[1] + of.relief[2] + v->front_load + v->front_least;
    const double front = of.relief[0] + v->front_load + v->front_most;
    const double rear = of.relief[0] + v->rear_load + v->rear_most;
    const double total = v->front_load + v->rear_load + v->total_most;
    if (!isnan(wheel)) {
        check_wheel(making, &of);
    }
    if (!isnan(front)) {
        check_axle(making, &of, 1);
    }
    if (!isnan(rear)) {
        check_axle(making, &of, 0);
    }
    if (!isnan(total)) {
        check_total(making, &of);
    }
    check_reach(making, &of);
    trivet_status status =
        omit(making, isnan(wheel), "front wheel",
             "add under vehicle: wheelbase, rear axle, ground, front load and front least, what "
             "must stay on it");
    if (status == TRIVET_OK) {
        status = omit(making, isnan(front) || isnan(rear) || isnan(total), "axle loads",
                      "add under vehicle: wheelbase, rear axle, front load, rear load, front most, "
                      "rear most and total most, as on the label");
    }
    return status == TRIVET_OK
               ? omit(making, isnan(v->overhang_most) || isnan(v->width_most), "overhang and width",
                      "add under vehicle: overhang and width as your local rules allow; they "
                      "differ by country")
               : status;
}
