/*
 * Between which springs the truth lies, with 95 % confidence.
 *
 * A spring is allowed if, with it held there and the others fitted anew, the sum of squares grows
 * by no more than 3.84, the 95 % quantile of chi squared with one degree of freedom (the profile of
 * the likelihood: Wilks 1938; Cox and Hinkley, Theoretical Statistics, section 9.3; from memory).
 * The bounds of a linear law of errors are too narrow here: a drop hardly changes any more once a
 * spring is much softer or stiffer than the tubes beside it.
 */
#include "checks/give_fit.h"

#include <math.h>
#include <string.h>

#define ALLOWED 3.841458821 /* 1.959963985 squared (any table of the normal distribution) */
#define FIRST_STEP 0.02     /* of a logarithm, outward; doubled until the bound is passed */
#define CLOSE_BOUND 1e-9    /* of a logarithm */
#define CLOSE_EXCESS 1e-9   /* of a sum of squares */

enum { TRIES = 60 };

/* A search outward from the best springs with one of them held. */
typedef struct outward {
    const trivet__fitting *of; /* with held set */
    const double *best;        /* logs */
    double most;               /* the sum of squares that is allowed */
} outward;

/* How far the sum of squares, with the held spring there, lies above what is allowed. */
static trivet_status excess_at(const outward *at, double held_log, double *excess_out)
{
    double logs[TRIVET__UNKNOWNS_MAX];
    double misfit = HUGE_VAL;
    memcpy(logs, at->best, sizeof logs);
    logs[at->of->held] = held_log;
    const trivet_status status = trivet__fitting_descend(at->of, logs, &misfit);
    *excess_out = misfit - at->most;
    return trivet__fitting_is_bad_place(status) ? TRIVET_OK : status;
}

typedef struct spot {
    double log;
    double excess;
} spot;

/*
 * The place between an allowed and a forbidden spot where the excess passes 0: false position, the
 * end that stays being halved (the Illinois method: Dowell and Jarratt 1971; from memory).
 */
static trivet_status close_in(const outward *at, spot allowed, spot forbidden, double *log_out)
{
    trivet_status status = TRIVET_OK;
    int last = 0; /* which end moved: -1 allowed, 1 forbidden */
    *log_out = allowed.log;
    for (int i = 0; i < TRIES && fabs(forbidden.log - allowed.log) > CLOSE_BOUND; i++) {
        const double share =
            isfinite(forbidden.excess) ? allowed.excess / (allowed.excess - forbidden.excess) : 0.5;
        spot middle = {allowed.log + share * (forbidden.log - allowed.log), 0.0};
        status = excess_at(at, middle.log, &middle.excess);
        *log_out = middle.log;
        if (status != TRIVET_OK || fabs(middle.excess) < CLOSE_EXCESS) {
            return status;
        }
        if (middle.excess > 0.0) {
            allowed.excess *= last == 1 ? 0.5 : 1.0;
            forbidden = middle;
            last = 1;
        } else {
            forbidden.excess *= last == -1 ? 0.5 : 1.0;
            allowed = middle;
            last = -1;
        }
    }
    return status;
}

/* Goes outward, down (-1) or up (+1), to the limit of what a spring can be: beyond if allowed. */
static trivet_status find_bound(const outward *at, double way, double limit, double beyond,
                                double *spring_out)
{
    const double start = at->best[at->of->held];
    spot allowed = {start, -ALLOWED};
    trivet_status status = TRIVET_OK;
    *spring_out = beyond;
    for (double step = FIRST_STEP; status == TRIVET_OK && allowed.log != limit; step *= 2.0) {
        spot next = {way > 0.0 ? fmin(start + step, limit) : fmax(start - step, limit), 0.0};
        status = excess_at(at, next.log, &next.excess);
        if (status == TRIVET_OK && next.excess > 0.0) {
            double bound = 0.0;
            status = close_in(at, allowed, next, &bound);
            *spring_out = exp(bound);
            return status;
        }
        allowed = next;
    }
    return status;
}

trivet_status trivet__fitting_bounds(const trivet__fitting *of, const double *logs, double misfit,
                                     trivet_fitted *fitted)
{
    trivet_status status = TRIVET_OK;
    for (int32_t k = 0; k < of->unknown_count && status == TRIVET_OK; k++) {
        const int32_t d = of->unknowns[k];
        trivet__fitting held = *of; /* shares the room */
        held.held = k;
        const outward at = {&held, logs, misfit + ALLOWED};
        status = find_bound(&at, -1.0, log(TRIVET__SPRING_LEAST), 0.0, &fitted->least[d]);
        if (status == TRIVET_OK) {
            status = find_bound(&at, 1.0, log(TRIVET__SPRING_MOST), HUGE_VAL, &fitted->most[d]);
        }
    }
    return status;
}
