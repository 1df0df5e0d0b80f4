/*
 * Where the cuts of a joint lie, end by end: miters, then what butts, then what runs through to the
 * far side of that, last what stands in line with it.
 */
#include "shop/cut_plan.h"

#include "base/vec3.h"

#include <math.h>
#include <string.h>

/* Whether the end stands past the edges of the flat side that it was cut on. */
static int overhangs(const trivet__cut_plan *plan, const trivet__end *end,
                     const trivet__entry *into)
{
    const trivet__silhouette *const host = trivet__tube_silhouette(plan, into->tube);
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, end->tube);
    const trivet__end *const other = &plan->ends[2 * (size_t)into->tube];
    const int across = into->face == 1 ? 1 : 0; /* 0: y, 1: z of the host, along the side */
    const double *const line = other->axes + 3 + 3 * (ptrdiff_t)across;
    const double square = trivet__dot3(into->normal, end->out);
    double from[3];
    double slope[3];
    trivet__minus3(end->point, other->point, from);
    const double middle = trivet__dot3(from, line) - host->centre[across] +
                          end->beyond * trivet__dot3(end->out, line);
    memcpy(slope, line, sizeof slope);
    trivet__add3(slope, -trivet__dot3(end->out, line) / square, into->normal);
    const double high = middle + trivet__reach_along(of, end->axes, slope);
    for (int i = 0; i < 3; i++) {
        slope[i] = -slope[i];
    }
    const double low = middle - trivet__reach_along(of, end->axes, slope);
    return high > host->half[across] + 1e-6 || low < -host->half[across] - 1e-6;
}

static void cut_on_face(const trivet__cut_plan *plan, trivet__end *end, const trivet__entry *into)
{
    const trivet__silhouette *const host = trivet__tube_silhouette(plan, into->tube);
    const int32_t shape = plan->frame->stocks[plan->frame->tubes[into->tube].stock].profile.shape;
    const double square = trivet__dot3(into->normal, end->out);
    trivet__cut_flat(plan, end, into->normal, into->way - plan->shop->gap / square);
    if (!host->is_known) {
        end->notes |= TRIVET__END_UNSIZED;
    } else if (host->is_round) {
        end->notes |= TRIVET__END_FLATTENED;
    } else if (overhangs(plan, end, into)) {
        end->notes |= TRIVET__END_OVERHANGS;
    }
    if (shape == TRIVET_SHAPE_ANGLE || shape == TRIVET_SHAPE_CHANNEL) {
        end->notes |= TRIVET__END_OPEN_FACE;
    }
}

/* An end that touches nothing across its way: in line with the one that runs through, or past all.
 */
static trivet_status cut_without_host(const trivet__cut_plan *plan, trivet__end *end,
                                      trivet_message *message)
{
    for (int32_t t = 0; t < plan->frame->tube_count; t++) {
        const trivet__end *const other = trivet__plan_end(plan, t, end->joint);
        double point[3];
        if (t == end->tube || !other || other->cut != TRIVET_CUT_THROUGH ||
            !(trivet__dot3(other->out, end->out) < 0.0) ||
            trivet__axes_meet(end, other, point) >
                trivet__reach_along(trivet__tube_silhouette(plan, t), other->axes,
                                    other->axes + 3) +
                    trivet__reach_along(trivet__tube_silhouette(plan, t), other->axes,
                                        other->axes + 6)) {
            continue;
        }
        if (end->wish == TRIVET_CUT_SADDLE) {
            break;
        }
        trivet__minus3(other->point, end->point, point);
        end->onto = t;
        trivet__cut_square(plan, end,
                           trivet__dot3(point, end->out) - other->beyond - plan->shop->gap);
        return TRIVET_OK;
    }
    if (end->wish != TRIVET_CUT_AS_RULED) {
        return trivet__refuse_end(plan, end, message,
                                  "it passes the tubes there and meets none of their faces",
                                  "leave the wish out, or look at its offset");
    }
    end->cut = TRIVET_CUT_FREE;
    end->notes |= TRIVET__END_PASSES;
    trivet__cut_square(plan, end, 0.0);
    return TRIVET_OK;
}

static trivet_status cut_butt(const trivet__cut_plan *plan, trivet__end *end,
                              trivet_message *message)
{
    trivet__entry into;
    trivet__host_find(plan, end, &into);
    if (into.tube < 0) {
        end->onto = -1;
        return TRIVET_OK; /* once the ends that run through are cut */
    }
    end->onto = into.tube;
    const trivet__silhouette *const host = trivet__tube_silhouette(plan, into.tube);
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, end->tube);
    if (end->wish == TRIVET_CUT_SADDLE && !host->is_round) {
        return trivet__refuse_end(plan, end, message,
                                  "the tube that it sits on is not round: there is no saddle",
                                  "say butt, or leave the wish out");
    }
    if (host->is_round && of->is_known && end->wish != TRIVET_CUT_BUTT) {
        trivet__cut_saddle(plan, end);
    } else {
        cut_on_face(plan, end, &into);
    }
    return TRIVET_OK;
}

/* How far a point of an end's cut lies along the tube that it sits on, from that tube's end. */
typedef struct foot {
    const trivet__end *end;
    const trivet__end *host;
    const trivet__saddle *saddle; /* NULL: flat */
} foot;

static double foot_along(const void *user, const double point[2])
{
    const foot *const of = user;
    const trivet__end *const end = of->end;
    double from[3];
    double offset[3] = {0.0, 0.0, 0.0};
    trivet__add3(offset, point[0], end->axes + 3);
    trivet__add3(offset, point[1], end->axes + 6);
    const double way = of->saddle ? trivet__saddle_length(of->saddle, point)
                                  : end->beyond - trivet__dot3(end->normal, offset) /
                                                      trivet__dot3(end->normal, end->out);
    trivet__minus3(end->point, of->host->point, from);
    trivet__add3(from, 1.0, offset);
    trivet__add3(from, way, end->out);
    return trivet__dot3(from, of->host->out);
}

/* An end that runs through: square, to the far side of what sits on it. */
static void cut_through(const trivet__cut_plan *plan, trivet__end *host)
{
    double beyond = 0.0;
    for (int32_t t = 0; t < plan->frame->tube_count; t++) {
        const trivet__end *const end = trivet__plan_end(plan, t, host->joint);
        trivet__saddle saddle;
        if (!end || end == host || end->onto != host->tube) {
            continue;
        }
        foot of = {end, host, NULL};
        if (end->cut == TRIVET_CUT_SADDLE) {
            trivet__saddle_find(plan, end, &saddle);
            of.saddle = &saddle;
        }
        beyond = fmax(beyond, trivet__silhouette_extreme(trivet__tube_silhouette(plan, t), 1,
                                                         foot_along, &of));
    }
    trivet__cut_square(plan, host, beyond);
}

/* Whether two tubes that run through a joint are in each other's way there. */
static int collide(const trivet__cut_plan *plan, int32_t one, int32_t other)
{
    const trivet__end *const a = &plan->ends[2 * (size_t)one];
    const trivet__end *const b = &plan->ends[2 * (size_t)other];
    double across[3];
    double from[3];
    trivet__cross3(a->axes, b->axes, across);
    const double length = trivet__length3(across);
    if (length < TRIVET__FLATTEST) {
        return 0;
    }
    trivet__minus3(b->point, a->point, from);
    const double apart = fabs(trivet__dot3(from, across)) / length;
    for (int i = 0; i < 3; i++) {
        across[i] /= length;
    }
    return apart + 1e-6 <
           trivet__reach_along(trivet__tube_silhouette(plan, one), a->axes, across) +
               trivet__reach_along(trivet__tube_silhouette(plan, other), b->axes, across);
}

static void look_for_crossing(trivet__cut_plan *plan, int32_t joint)
{
    int32_t first = -1;
    for (int32_t t = 0; t < plan->frame->tube_count; t++) {
        if (!trivet__runs_through(plan->frame, t, joint)) {
            continue;
        }
        if (first >= 0 && collide(plan, first, t)) {
            plan->crossing = plan->crossings == 0 ? joint : plan->crossing;
            plan->crossings++;
            return;
        }
        first = first < 0 ? t : first;
    }
}

trivet_status trivet__cut_joint(trivet__cut_plan *plan, int32_t joint, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    const int32_t count = plan->frame->tube_count;
    for (int32_t t = 0; t < count; t++) {
        trivet__end *const end = trivet__plan_end(plan, t, joint);
        if (end && end->cut == TRIVET_CUT_MITER) {
            trivet__cut_miter(plan, end, trivet__plan_end(plan, end->onto, joint));
        } else if (end && end->cut == TRIVET_CUT_FREE) {
            trivet__cut_square(plan, end, 0.0);
        }
    }
    for (int32_t t = 0; t < count && status == TRIVET_OK; t++) {
        trivet__end *const end = trivet__plan_end(plan, t, joint);
        if (end && end->cut == TRIVET_CUT_BUTT) {
            status = cut_butt(plan, end, message);
        }
    }
    for (int32_t t = 0; t < count && status == TRIVET_OK; t++) {
        trivet__end *const end = trivet__plan_end(plan, t, joint);
        if (end && end->cut == TRIVET_CUT_THROUGH) {
            cut_through(plan, end);
        }
    }
    for (int32_t t = 0; t < count && status == TRIVET_OK; t++) {
        trivet__end *const end = trivet__plan_end(plan, t, joint);
        if (end && end->cut == TRIVET_CUT_BUTT && end->onto < 0) {
            status = cut_without_host(plan, end, message);
        }
    }
    look_for_crossing(plan, joint);
    return status;
}
