/*
 * The largest cargo: for each cargo alone and for all together, the largest mass for which every
 * check in every case holds.
 *
 * Every trial is a copy of the frame with the cargo scaled, solved by the plan of the first one and
 * checked in full, so that no check needs to be linear. The utilisation of almost every check is a
 * convex function of the mass (the size of a sum that is linear in it), so the masses that hold are
 * one stretch; its upper end is bracketed by doubling and then halved.
 */
#include "base/defaults.h"
#include "base/memory.h"
#include "base/message.h"
#include "checks/check_record.h"

#include <math.h>
#include <string.h>

/* How near the bracket closes, as a share of the mass. */
#define CLOSE 1e-5

/* Beyond this many times the mass given, or this mass in kg, nothing is looked for. */
#define MOST_FACTOR 1000.0
#define MOST_MASS 1000.0

enum { STOPS = 3, CLOSING_MAX = 60 };

typedef struct rated {
    trivet_rate rate;
    trivet_frame *frame;   /* with the cargo at that mass: the checks point to its texts */
    trivet_checks *checks; /* of that frame */
    int32_t stops[STOPS];
} rated;

struct trivet_rates {
    rated *list;
    int32_t count;
};

/* What all trials share. */
typedef struct trying {
    const trivet_frame *frame;
    const trivet_limits *limits;
    trivet_plan *plan;
    trivet_workspace *workspace;
    trivet_result *result;
    trivet_message *message;
    int32_t cargo; /* -1: all */
} trying;

trivet_status trivet_rate_defaults(trivet_rate *rate, size_t size)
{
    return trivet__defaults(rate, size, sizeof *rate);
}

/* The largest utilisation of all checks; not a number counts as endless. */
static double most_used(const trivet_checks *checks)
{
    double most = 0.0;
    for (int32_t i = 0; i < checks->count; i++) {
        const double used = checks->records[i].check.utilisation;
        most = used <= most ? most : isnan(used) ? HUGE_VAL : used;
    }
    return most;
}

/* The plate of a deck is a cargo of the deck's name: it weighs what it weighs. */
static int is_plate(const trivet_frame *frame, int32_t cargo)
{
    const char *const name = trivet_frame_name(frame, TRIVET_KIND_CARGO, cargo);
    int32_t deck = -1;
    return name && trivet_frame_find(frame, TRIVET_KIND_DECK, name, &deck, NULL) == TRIVET_OK;
}

/* Whether a cargo is rated when number `wanted` is; -1: all. */
static int is_rated(const trivet_frame *frame, int32_t wanted, int32_t cargo)
{
    return (wanted < 0 || wanted == cargo) && !is_plate(frame, cargo);
}

/* The frame with the cargo at factor times its mass, and its checks. */
static trivet_status make_trial(const trying *with, double factor, trivet_frame **frame_out,
                                trivet_checks **checks_out)
{
    const int32_t count = trivet_frame_count(with->frame, TRIVET_KIND_CARGO);
    trivet_status status = trivet_frame_copy(with->frame, frame_out, with->message);
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        if (is_rated(with->frame, with->cargo, i)) {
            status = trivet_frame_scale_cargo(*frame_out, i, factor, with->message);
        }
    }
    if (status == TRIVET_OK) {
        status =
            trivet_plan_solve(with->plan, *frame_out, with->workspace, with->result, with->message);
    }
    return status == TRIVET_OK ? trivet_checks_new(*frame_out, with->result, with->limits,
                                                   checks_out, with->message)
                               : status;
}

static trivet_status try_factor(const trying *with, double factor, double *used_out)
{
    trivet_frame *frame = NULL;
    trivet_checks *checks = NULL;
    const trivet_status status = make_trial(with, factor, &frame, &checks);
    *used_out = status == TRIVET_OK ? most_used(checks) : HUGE_VAL;
    trivet_checks_free(checks);
    trivet_frame_free(frame);
    return status;
}

/* Where a frame that fails with and without its cargo fails least: golden section from 0 to far. */
static trivet_status find_least(const trying *with, double far, double *factor_out,
                                double *used_out)
{
    static const double GOLDEN = 0.61803398874989485;
    double from = 0.0;
    double to = far;
    trivet_status status = TRIVET_OK;
    *used_out = HUGE_VAL;
    for (int i = 0; i < CLOSING_MAX && status == TRIVET_OK && *used_out > 1.0; i++) {
        const double low = to - GOLDEN * (to - from);
        const double high = from + GOLDEN * (to - from);
        double used_low = HUGE_VAL;
        double used_high = HUGE_VAL;
        status = try_factor(with, low, &used_low);
        if (status == TRIVET_OK) {
            status = try_factor(with, high, &used_high);
        }
        const int is_low = used_low < used_high;
        *factor_out = is_low ? low : high;
        *used_out = is_low ? used_low : used_high;
        from = is_low ? from : low;
        to = is_low ? high : to;
        if (to - from <= CLOSE * to) {
            break;
        }
    }
    return status;
}

/* A factor that holds, starting from one that fails; *used_out above 1 if there is none. */
static trivet_status find_holding(const trying *with, double *factor_out, double *used_out)
{
    double far = 1.0;
    double used_far = HUGE_VAL;
    double used_next = HUGE_VAL;
    trivet_status status = try_factor(with, 0.0, used_out);
    *factor_out = 0.0;
    if (status != TRIVET_OK || *used_out <= 1.0) {
        return status;
    }
    status = try_factor(with, far, &used_far);
    for (int i = 0; i < 8 && status == TRIVET_OK; i++) {
        status = try_factor(with, 2.0 * far, &used_next);
        if (!(used_next < used_far)) {
            break;
        }
        far *= 2.0;
        used_far = used_next;
    }
    return status == TRIVET_OK ? find_least(with, 2.0 * far, factor_out, used_out) : status;
}

/* Doubles from a factor that holds to one that fails; *fails_out is infinite beyond most. */
static trivet_status find_failing(const trying *with, double holds, double most, double *holds_out,
                                  double *fails_out)
{
    double factor = holds > 0.0 ? 2.0 * holds : 1e-3;
    trivet_status status = TRIVET_OK;
    *holds_out = holds;
    *fails_out = HUGE_VAL;
    while (status == TRIVET_OK && factor <= most) {
        double used = 0.0;
        status = try_factor(with, factor, &used);
        if (!(used <= 1.0)) {
            *fails_out = factor;
            return status;
        }
        *holds_out = factor;
        factor *= 2.0;
    }
    return status;
}

static trivet_status close_bracket(const trying *with, double *holds, double fails)
{
    trivet_status status = TRIVET_OK;
    double low = *holds;
    double high = fails;
    for (int i = 0; i < CLOSING_MAX && status == TRIVET_OK && high - low > CLOSE * high; i++) {
        const double middle = 0.5 * (low + high);
        double used = 0.0;
        status = try_factor(with, middle, &used);
        if (used <= 1.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *holds = low;
    return status;
}

static int is_same_thing(const trivet_check *one, const trivet_check *other)
{
    return strcmp(one->check, other->check) == 0 && one->where_kind == other->where_kind &&
           one->where_index == other->where_index && one->joint == other->joint;
}

/* The worst check, and the next two of different kind or place that the cargo has a hand in. */
static void find_stops(rated *into)
{
    const trivet_checks *const checks = into->checks;
    for (int number = 0; number < STOPS; number++) {
        double most = -1.0;
        into->stops[number] = -1;
        for (int32_t i = 0; i < checks->count; i++) {
            const trivet_check *const check = &trivet__checks_record(checks, i)->check;
            int is_taken = number > 0 && trivet__is_fixed(check);
            for (int k = 0; k < number && into->stops[k] >= 0; k++) {
                is_taken =
                    is_taken ||
                    is_same_thing(check, &trivet__checks_record(checks, into->stops[k])->check);
            }
            if (!is_taken && !(check->utilisation <= most)) {
                most = check->utilisation;
                into->stops[number] = i;
            }
        }
    }
}

static double mass_of(const trivet_frame *frame, int32_t cargo)
{
    double mass = 0.0;
    for (int32_t i = 0; i < trivet_frame_count(frame, TRIVET_KIND_CARGO); i++) {
        trivet_cargo about = {.size = sizeof about};
        if (is_rated(frame, cargo, i) && trivet_frame_cargo(frame, i, &about) == TRIVET_OK) {
            mass += about.mass;
        }
    }
    return mass;
}

static trivet_status rate_one(const trying *with, rated *into)
{
    trivet_rate *const rate = &into->rate;
    double factor = 1.0;
    double fails = HUGE_VAL;
    double used = 0.0;
    rate->size = sizeof *rate;
    rate->cargo = with->cargo;
    rate->given = mass_of(with->frame, with->cargo);
    const double most = fmax(MOST_FACTOR, MOST_MASS / rate->given);
    trivet_status status = try_factor(with, 1.0, &used);
    if (status == TRIVET_OK && !(used <= 1.0)) {
        status = find_holding(with, &factor, &used);
    }
    rate->holds = used <= 1.0;
    if (status == TRIVET_OK && rate->holds) {
        status = find_failing(with, factor, most, &factor, &fails);
        rate->is_open = fails == HUGE_VAL;
    }
    if (status == TRIVET_OK && rate->holds && !rate->is_open) {
        status = close_bracket(with, &factor, fails);
    }
    if (status == TRIVET_OK) {
        /* Where no mass holds, the one in the file shows what fails. */
        factor = rate->holds ? factor : 1.0;
        status = make_trial(with, factor, &into->frame, &into->checks);
    }
    if (status == TRIVET_OK) {
        rate->factor = rate->holds ? factor : 0.0;
        rate->mass = rate->factor * rate->given;
        find_stops(into);
    }
    return status;
}

/* Cargo with mass, one after the other, then all together if there are two or more. */
static trivet_status rate_all(trying *with, trivet_rates *rates)
{
    const int32_t count = trivet_frame_count(with->frame, TRIVET_KIND_CARGO);
    trivet_status status = TRIVET_OK;
    for (int32_t i = 0; i < count && status == TRIVET_OK; i++) {
        with->cargo = i;
        if (mass_of(with->frame, i) > 0.0) {
            status = rate_one(with, &rates->list[rates->count]);
            rates->count++;
        }
    }
    with->cargo = -1;
    if (status == TRIVET_OK && rates->count > 1) {
        status = rate_one(with, &rates->list[rates->count]);
        rates->count++;
    }
    return status;
}

static trivet_status make_rates(const trivet_frame *frame, const trivet_limits *limits,
                                trivet_rates *rates, trivet_message *message)
{
    trying with = {.frame = frame, .limits = limits, .message = message};
    trivet_status status = trivet_plan_new(frame, &with.plan, message);
    if (status == TRIVET_OK) {
        status = trivet_workspace_new(with.plan, &with.workspace, message);
    }
    if (status == TRIVET_OK) {
        status = trivet_result_new(with.plan, &with.result, message);
    }
    if (status == TRIVET_OK) {
        status = rate_all(&with, rates);
    }
    trivet_result_free(with.result);
    trivet_workspace_free(with.workspace);
    trivet_plan_free(with.plan);
    return status;
}

trivet_status trivet_rates_new(const trivet_frame *frame, const trivet_limits *limits,
                               trivet_rates **rates_out, trivet_message *message)
{
    if (!rates_out) {
        return trivet__missing(message, "rates_out");
    }
    *rates_out = NULL;
    if (!frame) {
        return trivet__missing(message, "frame");
    }
    if (!(mass_of(frame, -1) > 0.0)) {
        return trivet__refuse(message, TRIVET_INCOMPLETE, "the frame", "carries no cargo with mass",
                              "add cargo: what it weighs and what it rests on");
    }
    trivet_rates *const rates = trivet__take(1, sizeof *rates);
    const size_t room = (size_t)trivet_frame_count(frame, TRIVET_KIND_CARGO) + 1;
    if (rates) {
        rates->list = trivet__take(room, sizeof *rates->list);
    }
    const trivet_status status = rates && rates->list ? make_rates(frame, limits, rates, message)
                                                      : trivet__no_memory(message);
    if (status != TRIVET_OK) {
        trivet_rates_free(rates);
        return status;
    }
    *rates_out = rates;
    return TRIVET_OK;
}

void trivet_rates_free(trivet_rates *rates)
{
    for (int32_t i = 0; rates && rates->list && i < rates->count; i++) {
        trivet_checks_free(rates->list[i].checks);
        trivet_frame_free(rates->list[i].frame);
    }
    if (rates) {
        trivet__give_back(rates->list);
    }
    trivet__give_back(rates);
}

int32_t trivet_rates_count(const trivet_rates *rates)
{
    return rates ? rates->count : 0;
}

static int is_index(const trivet_rates *rates, int32_t index)
{
    return rates && index >= 0 && index < rates->count;
}

trivet_status trivet_rates_at(const trivet_rates *rates, int32_t index, trivet_rate *rate_out)
{
    const trivet_status status = trivet__out_check(rates, rate_out, sizeof *rate_out);
    if (status != TRIVET_OK) {
        return status;
    }
    if (!is_index(rates, index)) {
        return TRIVET_BAD_INDEX;
    }
    *rate_out = rates->list[index].rate;
    return TRIVET_OK;
}

const trivet_checks *trivet_rates_checks(const trivet_rates *rates, int32_t index)
{
    return is_index(rates, index) ? rates->list[index].checks : NULL;
}

int32_t trivet_rates_stop(const trivet_rates *rates, int32_t index, int32_t number)
{
    return is_index(rates, index) && number >= 0 && number < STOPS
               ? rates->list[index].stops[number]
               : -1;
}
