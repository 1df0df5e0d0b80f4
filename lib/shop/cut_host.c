/*
 * Which tube an end meets first, and where: its axis against boxes and cylinders without end.
 */
#include "shop/cut_plan.h"

#include "base/vec3.h"

#include <math.h>
#include <string.h>

/* Enters a box: the last of the two pairs of sides to be crossed. */
static int enter_box(const trivet__silhouette *of, const double axes[9], const double from[3],
                     const double out[3], trivet__entry *into)
{
    double enters = -(double)INFINITY;
    double leaves = (double)INFINITY;
    for (int i = 0; i < 2; i++) {
        const double *const axis = axes + 3 + 3 * (ptrdiff_t)i;
        const double place = trivet__dot3(from, axis) - of->centre[i];
        const double speed = trivet__dot3(out, axis);
        if (fabs(speed) < 1e-9) {
            if (fabs(place) >= of->half[i]) {
                return 0;
            }
            continue;
        }
        const double sign = speed > 0.0 ? 1.0 : -1.0;
        const double first = (-sign * of->half[i] - place) / speed;
        if (first > enters + 1e-9) {
            enters = first;
            into->face = i + 1;
            for (int k = 0; k < 3; k++) {
                into->normal[k] = sign * axis[k];
            }
        }
        leaves = fmin(leaves, (sign * of->half[i] - place) / speed);
    }
    into->way = enters;
    return enters < leaves;
}

/* Enters a cylinder of this radius; the normal is that of its skin there. */
static int enter_round(double radius, const double axis[3], const double from[3],
                       const double out[3], trivet__entry *into)
{
    double across[3];
    double speed[3];
    memcpy(across, from, sizeof across);
    trivet__add3(across, -trivet__dot3(from, axis), axis);
    memcpy(speed, out, sizeof speed);
    trivet__add3(speed, -trivet__dot3(out, axis), axis);
    const double a = trivet__dot3(speed, speed);
    const double b = trivet__dot3(across, speed);
    const double under = b * b - a * (trivet__dot3(across, across) - radius * radius);
    if (!(under > 0.0)) {
        return 0;
    }
    into->way = (-b - sqrt(under)) / a;
    into->face = 0;
    trivet__add3(across, into->way, speed);
    for (int i = 0; i < 3; i++) {
        into->normal[i] = -across[i] / radius;
    }
    return 1;
}

/* Whether a tube at a joint is something to butt against. */
static int is_host(const trivet__cut_plan *plan, int32_t tube, int32_t joint)
{
    const trivet__end *const end = trivet__plan_end(plan, tube, joint);
    return end ? end->cut == TRIVET_CUT_THROUGH || end->cut == TRIVET_CUT_MITER ||
                     end->cut == TRIVET_CUT_BEND
               : trivet__runs_through(plan->frame, tube, joint);
}

/* Whether an end meets a tube, and where. */
static int enter(const trivet__cut_plan *plan, const trivet__end *end, int32_t tube,
                 trivet__entry *into)
{
    const trivet__end *const host = &plan->ends[2 * (size_t)tube];
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, tube);
    double across[3];
    double from[3];
    trivet__cross3(host->axes, end->out, across);
    if (trivet__length3(across) < TRIVET__FLATTEST) {
        return 0;
    }
    trivet__minus3(end->point, host->point, from);
    into->tube = tube;
    if (!of->is_known) { /* up to its axis, square */
        into->way = 0.0;
        into->face = 0;
        memcpy(into->normal, end->out, sizeof into->normal);
        return 1;
    }
    return of->is_round ? enter_round(of->half[0], host->axes, from, end->out, into)
                        : enter_box(of, host->axes, from, end->out, into);
}

/* The tube that an end meets first. */
void trivet__host_find(const trivet__cut_plan *plan, const trivet__end *end, trivet__entry *first)
{
    memset(first, 0, sizeof *first);
    first->tube = -1;
    for (int32_t t = 0; t < plan->frame->tube_count; t++) {
        trivet__entry here = {.tube = -1};
        if (t != end->tube && is_host(plan, t, end->joint) && enter(plan, end, t, &here) &&
            (first->tube < 0 || here.way < first->way)) {
            *first = here;
        }
    }
}
