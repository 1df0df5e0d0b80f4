/*
 * How much is welded: the outline of every end where it is cut, as far as it is welded. A miter's
 * two ends share one seam; an end that runs through is welded by those that sit on it.
 *
 * Metal in a fillet of throat a with legs at right angles: a^2 per length, less than what hands lay
 * down (common practice adds to it when buying, see trivet_shop).
 */
#include "shop/cuts_record.h"

#include "checks/joint_shape.h"
#include "checks/weld_line.h"
#include "checks/weld_strength.h"

#include <math.h>

enum { CURVE_PLACES = 1440 };

/* m round the cut of a saddle: the curve on the tube it sits on. */
static double saddle_round(const trivet__cut_plan *plan, const trivet__end *end)
{
    const trivet__silhouette *const of = trivet__tube_silhouette(plan, end->tube);
    trivet__saddle saddle;
    double before[3] = {0.0, 0.0, 0.0};
    double sum = 0.0;
    trivet__saddle_find(plan, end, &saddle);
    for (int i = 0; i <= CURVE_PLACES; i++) {
        double here[3];
        trivet__silhouette_point(of, (double)i / CURVE_PLACES, here);
        here[2] = trivet__saddle_length(&saddle, here);
        if (i > 0) {
            const double step[2] = {here[0] - before[0], here[1] - before[1]};
            sum += hypot(hypot(step[0], step[1]), here[2] - before[2]);
        }
        for (int k = 0; k < 3; k++) {
            before[k] = here[k];
        }
    }
    return sum;
}

/* m round the cut on some sides; NaN if the outline is not known. */
static double flat_round(const trivet__stock *stock, const trivet__end *end, uint32_t sides)
{
    trivet__weld_line line;
    trivet__weld_line_start(&line);
    if (!trivet__weld_outline(&stock->profile, &stock->section, sides, &line)) {
        return (double)NAN;
    }
    if (end->cut != TRIVET_CUT_SADDLE && !isnan(end->towards)) {
        line.cosine = sin(end->angle);
        line.lean[0] = -sin(end->towards);
        line.lean[1] = cos(end->towards);
    }
    trivet__weld_line_solve(&line);
    return line.outline;
}

static double length_round(const trivet_cuts *cuts, const trivet__end *end, uint32_t sides)
{
    const trivet__stock *const stock = &cuts->frame->stocks[cuts->frame->tubes[end->tube].stock];
    const double flat = flat_round(stock, end, sides);
    if (end->cut != TRIVET_CUT_SADDLE) {
        return flat;
    }
    /* Sides share the curve as they share the outline. */
    return saddle_round(&cuts->plan, end) * flat /
           flat_round(stock, end, (uint32_t)TRIVET_SIDES_ALL);
}

/* The throat that is said, or made from the wall; 0 if there is no wall. */
static double throat_of(const trivet_frame *frame, const trivet__end *end, const trivet_weld *weld)
{
    const double own = frame->stocks[frame->tubes[end->tube].stock].profile.wall;
    const double other =
        end->onto < 0 ? 0.0 : frame->stocks[frame->tubes[end->onto].stock].profile.wall;
    return weld->throat > 0.0 ? weld->throat : TRIVET__THROAT_PER_WALL * (own > 0.0 ? own : other);
}

/* Whether the seam of an end is its own to count. */
static int has_seam(const trivet_cuts *cuts, const trivet__end *end)
{
    if (end->onto < 0 || !trivet__end_is_welded(cuts->frame, end->tube, end->joint)) {
        return 0;
    }
    return end->cut == TRIVET_CUT_BUTT || end->cut == TRIVET_CUT_SADDLE ||
           (end->cut == TRIVET_CUT_MITER &&
            (end->tube < end->onto || !trivet__end_is_welded(cuts->frame, end->onto, end->joint)));
}

static void add_seam(trivet_cuts *cuts, const trivet__end *end)
{
    const trivet__tube *const tube = &cuts->frame->tubes[end->tube];
    const trivet_weld *const weld = end->is_last ? &tube->weld_last : &tube->weld_first;
    trivet_cut_totals *const totals = &cuts->totals;
    if (weld->kind == TRIVET_WELD_SPOTS) {
        totals->spots += weld->spot_count;
        return;
    }
    const int is_said = weld->kind == TRIVET_WELD_FILLET;
    const double length = length_round(cuts, end, is_said ? weld->sides : TRIVET_SIDES_ALL);
    const double throat = throat_of(cuts->frame, end, weld);
    if (!is_said) {
        totals->assumed_welds++;
    }
    if (length > 0.0) {
        const double run = is_said ? weld->run * length : length;
        totals->weld_length += run;
        totals->weld_metal +=
            throat * throat * run * cuts->frame->stocks[tube->stock].material.density;
    }
}

trivet_status trivet__cuts_welds(trivet_cuts *cuts)
{
    for (int32_t i = 0; i < 2 * cuts->frame->tube_count; i++) {
        if (has_seam(cuts, &cuts->plan.ends[i])) {
            add_seam(cuts, &cuts->plan.ends[i]);
        }
    }
    cuts->totals.wire = cuts->totals.weld_metal * cuts->shop.wire_factor;
    cuts->totals.sticks = cuts->totals.weld_metal * cuts->shop.stick_factor;
    return TRIVET_OK;
}
