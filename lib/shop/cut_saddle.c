/*
 * Saddles: the end of a tube hollowed out to sit on a round one. Each line of its outside is put
 * into the equation of the cylinder; the nearer solution is where it is cut.
 */
#include "shop/cut_plan.h"

#include "base/vec3.h"

#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;

/* Lines of the outside that a mean is taken over. */
enum { ROUND_PLACES = 720 };

void trivet__saddle_find(const trivet__cut_plan *plan, const trivet__end *end,
                         trivet__saddle *saddle_out)
{
    const trivet__end *const host = &plan->ends[2 * (size_t)end->onto];
    const double lean = trivet__dot3(host->axes, end->out);
    saddle_out->end = end;
    saddle_out->radius = trivet__tube_silhouette(plan, end->onto)->half[0] + plan->shop->gap;
    for (int i = 0; i < 3; i++) {
        saddle_out->axis[i] = lean < 0.0 ? -host->axes[i] : host->axes[i];
        saddle_out->place[i] = host->point[i];
    }
}

double trivet__saddle_length(const void *user, const double point[2])
{
    const trivet__saddle *const saddle = user;
    const trivet__end *const end = saddle->end;
    double from[3];
    double speed[3];
    trivet__minus3(end->point, saddle->place, from);
    trivet__add3(from, point[0], end->axes + 3);
    trivet__add3(from, point[1], end->axes + 6);
    trivet__add3(from, -trivet__dot3(from, saddle->axis), saddle->axis);
    memcpy(speed, end->out, sizeof speed);
    trivet__add3(speed, -trivet__dot3(end->out, saddle->axis), saddle->axis);
    const double a = trivet__dot3(speed, speed);
    const double b = trivet__dot3(from, speed);
    const double under = b * b - a * (trivet__dot3(from, from) - saddle->radius * saddle->radius);
    /* Beside the cylinder: cut as at its flank. */
    return (-b - sqrt(fmax(under, 0.0))) / a;
}

static double mean_length(const trivet__silhouette *of, const trivet__saddle *saddle)
{
    double sum = 0.0;
    for (int i = 0; i < ROUND_PLACES; i++) {
        double point[2];
        trivet__silhouette_point(of, (double)i / ROUND_PLACES, point);
        sum += trivet__saddle_length(saddle, point);
    }
    return sum / ROUND_PLACES;
}

/* Whether an end reaches past the flanks of the cylinder that it sits on. */
static int has_ears(const trivet__saddle *saddle, const trivet__silhouette *of)
{
    const trivet__end *const end = saddle->end;
    double across[3];
    double back[3];
    double from[3];
    trivet__cross3(saddle->axis, end->out, across);
    const double length = trivet__length3(across);
    for (int i = 0; i < 3; i++) {
        across[i] /= length;
        back[i] = -across[i];
    }
    trivet__minus3(end->point, saddle->place, from);
    const double aside = trivet__dot3(from, across);
    return aside + trivet__reach_along(of, end->axes, across) > saddle->radius + 1e-9 ||
           -aside + trivet__reach_along(of, end->axes, back) > saddle->radius + 1e-9;
}

void trivet__cut_saddle(const trivet__cut_plan *plan, trivet__end *end)
{
    static const double AXIS[2] = {0.0, 0.0};
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, end->tube);
    trivet__saddle saddle;
    double leans[3];
    trivet__saddle_find(plan, end, &saddle);
    const double cosine = trivet__dot3(saddle.axis, end->out);
    memcpy(leans, saddle.axis, sizeof leans);
    trivet__add3(leans, -cosine, end->out);
    end->cut = TRIVET_CUT_SADDLE;
    end->angle = asin(fmin(cosine, 1.0));
    end->towards = trivet__angle_round(end->axes, leans);
    if (end->angle < 1e-6 && (end->towards < 0.0 || end->towards > PI - 1e-9)) {
        end->towards += end->towards < 0.0 ? PI : -PI; /* a line, not a side */
    }
    end->beyond = trivet__saddle_length(&saddle, AXIS);
    end->longest = trivet__silhouette_extreme(of, 1, trivet__saddle_length, &saddle);
    end->shortest = trivet__silhouette_extreme(of, -1, trivet__saddle_length, &saddle);
    end->mean = mean_length(of, &saddle);
    end->notes |= of->is_round ? 0 : (uint32_t)TRIVET__END_COPED;
    end->notes |= has_ears(&saddle, of) ? (uint32_t)TRIVET__END_EARS : 0;
}
