/*
 * Yield: for each tube and case the place where the von Mises stress comes nearest to its limit.
 *
 * Between neighbouring joints and load steps the forces inside are cubics along the tube; on each
 * such piece the largest stress is found from its polynomial (stress.c, stress_rim.c). A span with
 * an insert is looked at twice, the tube and the insert each with its share of the forces.
 *
 * The limit is the yield strength over the factor of safety. Where welding softens the material,
 * the strength beside a weld counts near every joint where tubes meet.
 */
#include "checks/check_yield.h"

#include "checks/bounds.h"
#include "checks/stress.h"
#include "frame/frame.h"
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

/*
 * Reach of the softened zone from the middle of a weld, m: common practice for thin aluminium;
 * EN 1999-1-1 gives 20 to 30 mm for walls to 12 mm (from memory).
 */
#define SOFT_REACH 0.025

/* Borders nearer than this, m, count as one. */
#define BORDER_LEAST 1e-9

/* What is looked through at the moment. */
typedef struct looking {
    trivet__making *making;
    trivet__worst *worst;
    trivet_span span;
    int32_t tube;
    int32_t in_case;
    int32_t is_insert;  /* the part looked at is the insert */
    int32_t is_unknown; /* a stress came out as no number */
} looking;

/* Whether stresses of a stock can be told at all. */
static int has_stress(const trivet_section *section)
{
    return section->point_count > 0 || section->outer_radius > 0.0;
}

/*
 * Whether a place on the tube lies in a softened zone, and the next border of a zone beyond it
 * (infinite if there is none).
 */
static int is_soft(const looking *at_work, double at, double *border_out)
{
    const trivet__making *const making = at_work->making;
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(making->result, at_work->tube, &count);
    int soft = 0;
    double border = HUGE_VAL;
    for (int32_t i = 0; i < 2 * count; i++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(making->result, first + i / 2, &span) != TRIVET_OK) {
            continue;
        }
        const int32_t joint = i % 2 ? span.last_joint : span.first_joint;
        const double place = i % 2 ? span.start + span.length : span.start;
        if (joint < 0 || making->meets[joint] < 2) {
            continue;
        }
        soft = soft || fabs(at - place) <= SOFT_REACH;
        for (int side = -1; side <= 1; side += 2) {
            const double edge = place + side * SOFT_REACH;
            if (edge > at && edge < border) {
                border = edge;
            }
        }
    }
    *border_out = border;
    return soft;
}

/* c(a + w t) as a cubic of t. */
static void shift_cubic(const double c[4], double factor, double a, double w, double out[4])
{
    out[0] = factor * (((c[3] * a + c[2]) * a + c[1]) * a + c[0]);
    out[1] = factor * w * ((3.0 * c[3] * a + 2.0 * c[2]) * a + c[1]);
    out[2] = factor * w * w * (3.0 * c[3] * a + c[2]);
    out[3] = factor * w * w * w * c[3];
}

/* Looks at one part of the span between two places of a piece where its limit is the same. */
static void look_at_stretch(looking *at_work, const trivet__piece *piece, const trivet__part *part,
                            double from, double to, double yield)
{
    const double shares[6] = {part->share_N, part->share_Vy, part->share_Vz,
                              part->share_T, part->share_My, part->share_Mz};
    const trivet__making *const making = at_work->making;
    const trivet_section *const section = trivet_frame_section(making->frame, part->stock);
    trivet__worst *const worst = at_work->worst;
    const double limit = yield / making->limits.yield;
    trivet__stretch stretch = {.from = from, .to = to};
    for (int i = 0; i < 6; i++) {
        shift_cubic(piece->forces[i], shares[i], from - at_work->span.start - piece->from,
                    to - from, stretch.forces[i]);
    }
    trivet__spot spot = {.square = worst->is_found ? pow(worst->used * limit, 2.0) : -1.0};
    const int found = section->point_count > 0 ? trivet__stress_of_points(section, &stretch, &spot)
                                               : trivet__stress_of_rim(section, &stretch, &spot);
    if (found < 0) {
        at_work->is_unknown = 1;
    } else if (found > 0) {
        worst->is_found = 1;
        worst->used = sqrt(spot.square) / limit;
        worst->at = from + spot.t * (to - from);
        worst->yield = yield;
        worst->part = *part;
        worst->is_insert = at_work->is_insert;
        worst->spot = spot;
        for (int i = 0; i < 6; i++) {
            double whole[4];
            shift_cubic(piece->forces[i], 1.0, from - at_work->span.start - piece->from, to - from,
                        whole);
            worst->forces[i] = trivet__cubic(whole, spot.t);
        }
    }
}

/* Cuts a piece where the limit changes, and looks at each stretch. */
static void look_at_piece(looking *at_work, const trivet__piece *piece, const trivet__part *part)
{
    const trivet_material *const material =
        trivet_frame_material(at_work->making->frame, part->stock);
    const trivet_section *const section = trivet_frame_section(at_work->making->frame, part->stock);
    if (!(material->yield > 0.0) || !has_stress(section)) {
        return; /* said once by omit_unknown */
    }
    const int softens = material->welded_yield > 0.0 && material->welded_yield < material->yield;
    const double end = at_work->span.start + piece->to;
    double from = at_work->span.start + piece->from;
    do {
        double to = end;
        double yield = material->yield;
        if (softens) {
            double border = HUGE_VAL;
            is_soft(at_work, from + BORDER_LEAST, &border);
            to = border < end - BORDER_LEAST ? border : end;
            yield = is_soft(at_work, 0.5 * (from + to), &border) ? material->welded_yield : yield;
        }
        look_at_stretch(at_work, piece, part, from, to, yield);
        from = to;
    } while (from < end && !at_work->is_unknown);
}

/* The least limit that a tube's stress is held against, Pa. */
static double least_limit(const trivet__making *making, int32_t stock)
{
    const trivet_material *const of = &making->frame->stocks[stock].material;
    const int softens = of->welded_yield > 0.0 && of->welded_yield < of->yield;
    return (softens ? of->welded_yield : of->yield) / making->limits.yield;
}

/* How much of its limit a span uses at most: see trivet__span_square_most. */
static double most_by_forces(const trivet__making *making, int32_t tube, int32_t span,
                             const double ends[12], const double departures[6], int is_even)
{
    const trivet__tube *const of = &making->frame->tubes[tube];
    if (of->insert_count > 0) {
        return HUGE_VAL;
    }
    const double square =
        trivet__span_square_most(&making->checks->stress_bounds[of->stock],
                                 making->result->spans[span].length, ends, departures, is_even);
    return sqrt(square) / least_limit(making, of->stock);
}

/* The same in a case. */
static double most_used(const trivet__making *making, int32_t tube, int32_t in_case, int32_t span)
{
    double departures[6];
    const ptrdiff_t at = (ptrdiff_t)in_case * making->span_count + span;
    const int is_even = trivet__span_departures(making->result, in_case, span, departures);
    return most_by_forces(making, tube, span, making->span_ends + 12 * at, departures, is_even);
}

/* The same in any case. */
static double most_used_ever(const trivet__making *making, int32_t tube, int32_t span)
{
    return most_by_forces(making, tube, span, making->end_sizes + 12 * (ptrdiff_t)span,
                          making->departures + 6 * (ptrdiff_t)span, 0);
}

/* Whether the worst of all tubes can lie in a span. */
static int can_be_worst(const looking *at_work, int32_t span)
{
    const trivet__making *const making = at_work->making;
    if (!making->is_worst_only) {
        return 1;
    }
    return trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, making->span_bounds[span]) &&
           trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD,
                                most_used(making, at_work->tube, at_work->in_case, span));
}

static void look_at_span(looking *at_work, int32_t index)
{
    const trivet__making *const making = at_work->making;
    at_work->span.size = sizeof at_work->span;
    if (trivet_result_span(making->result, index, &at_work->span) != TRIVET_OK) {
        at_work->is_unknown = 1;
        return;
    }
    trivet__part parts[2];
    const int32_t part_count = trivet__span_parts(making->frame, making->result, index, parts);
    const int32_t piece_count = trivet__span_piece_count(making->result, at_work->in_case, index);
    for (int32_t p = 0; p < piece_count; p++) {
        trivet__piece piece;
        trivet__span_piece(making->result, at_work->in_case, index, p, &piece);
        for (int32_t i = 0; i < part_count; i++) {
            at_work->is_insert = i > 0;
            look_at_piece(at_work, &piece, &parts[i]);
        }
    }
}

/* Looks along a whole tube in a case. */
static void look_along(looking *at_work)
{
    int32_t span_count = 0;
    const int32_t first =
        trivet_result_tube_spans(at_work->making->result, at_work->tube, &span_count);
    for (int32_t s = first; s < first + span_count && !at_work->is_unknown; s++) {
        if (can_be_worst(at_work, s)) {
            look_at_span(at_work, s);
        }
    }
}

/* Why the yield of a stock cannot be checked; NULL if it can. */
static const char *unknown_stock(const trivet_frame *frame, int32_t stock)
{
    if (!(trivet_frame_material(frame, stock)->yield > 0.0)) {
        return "the yield strength of its material is not given";
    }
    if (!has_stress(trivet_frame_section(frame, stock))) {
        return "the section moduli of its stock are not given";
    }
    return NULL;
}

/* Lists what cannot be checked on a tube and its inserts. */
static trivet_status omit_unknown(trivet__making *making, int32_t tube)
{
    const char *const name = trivet_frame_name(making->frame, TRIVET_KIND_TUBE, tube);
    const char *const why =
        unknown_stock(making->frame, trivet_frame_tube_stock(making->frame, tube));
    trivet_status status = TRIVET_OK;
    if (why) {
        status = trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "yield of", name, why);
    }
    int32_t span_count = 0;
    const int32_t first = trivet_result_tube_spans(making->result, tube, &span_count);
    span_count = making->frame->tubes[tube].insert_count > 0 ? span_count : 0;
    for (int32_t s = first; status == TRIVET_OK && s < first + span_count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(making->result, s, &span) == TRIVET_OK && span.insert_stock >= 0) {
            const char *const insert_why = unknown_stock(making->frame, span.insert_stock);
            if (insert_why) {
                return trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "yield of the insert in",
                                    name, insert_why);
            }
        }
    }
    return status;
}

/* The worst place of a tube in a case; 0 if its stress is not a number somewhere. */
static int find_worst(trivet__making *making, int32_t tube, int32_t in_case, trivet__worst *worst)
{
    memset(worst, 0, sizeof *worst);
    looking at_work = {.making = making, .worst = worst, .tube = tube, .in_case = in_case};
    look_along(&at_work);
    return !at_work.is_unknown;
}

/* The case that can use most of a span's limit. */
static int32_t worst_case(const trivet__making *making, int32_t tube, int32_t span)
{
    int32_t worst = 0;
    double largest = 0.0;
    for (int32_t c = 0; c < making->columns; c++) {
        const double used = most_used(making, tube, c, span);
        if (used > largest) {
            worst = c;
            largest = used;
        }
    }
    return worst;
}

/* Looks at a span in its worst case, which says how much is used at least. */
static void raise_floor(trivet__making *making, int32_t tube, int32_t span)
{
    trivet__worst worst = {.is_found = 0};
    looking at_work = {
        .making = making, .worst = &worst, .tube = tube, .in_case = worst_case(making, tube, span)};
    look_at_span(&at_work, span);
    if (worst.is_found && !at_work.is_unknown) {
        trivet__floor_raise(making, TRIVET_LINE_OVERLOAD, worst.used);
    }
}

/* The span whose ends alone may use most is looked at before all others. */
void trivet__yield_bounds(trivet__making *making)
{
    double most = -1.0;
    int32_t worst_tube = -1;
    int32_t worst_span = -1;
    for (int32_t tube = 0; tube < making->frame->tube_count; tube++) {
        const int32_t stock = making->frame->tubes[tube].stock;
        const double limit = least_limit(making, stock);
        int32_t count = 0;
        const int32_t first = trivet_result_tube_spans(making->result, tube, &count);
        for (int32_t s = first; s < first + count; s++) {
            const double at_ends = trivet__ends_direct_most(&making->checks->stress_bounds[stock],
                                                            making->end_sizes + 12 * (ptrdiff_t)s) /
                                   limit;
            making->span_bounds[s] = most_used_ever(making, tube, s);
            if (at_ends > most && making->span_bounds[s] < HUGE_VAL) {
                most = at_ends;
                worst_tube = tube;
                worst_span = s;
            }
        }
    }
    if (worst_span >= 0 &&
        trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, making->span_bounds[worst_span])) {
        raise_floor(making, worst_tube, worst_span);
    }
}

/* Whether the worst of all tubes can lie in this one. */
static int is_of_interest(const trivet__making *making, int32_t tube)
{
    int32_t count = 0;
    const int32_t first = trivet_result_tube_spans(making->result, tube, &count);
    int is_any = !making->is_worst_only;
    for (int32_t s = first; s < first + count && !is_any; s++) {
        is_any = trivet__can_be_worst(making, TRIVET_LINE_OVERLOAD, making->span_bounds[s]);
    }
    return is_any;
}

/* All cases of a tube. */
static trivet_status check_tube(trivet__making *making, int32_t tube, int32_t columns)
{
    trivet_status status = omit_unknown(making, tube);
    int32_t is_unknown = 0;
    const int has_worst = is_of_interest(making, tube);
    for (int32_t c = 0; status == TRIVET_OK && has_worst && c < columns; c++) {
        trivet__worst worst;
        if (!find_worst(making, tube, c, &worst)) {
            is_unknown = 1;
        } else if (worst.is_found) {
            trivet__record_yield(making, tube, c, &worst);
        }
    }
    return status == TRIVET_OK && is_unknown
               ? trivet__omit(making->checks, TRIVET_LINE_OVERLOAD, "yield of",
                              trivet_frame_name(making->frame, TRIVET_KIND_TUBE, tube),
                              "its stress does not come out as a number")
               : status;
}

trivet_status trivet__check_yield(trivet__making *making)
{
    const int32_t columns = trivet_result_case_count(making->result);
    trivet_status status = TRIVET_OK;
    for (int32_t tube = 0; status == TRIVET_OK && tube < making->frame->tube_count; tube++) {
        status = check_tube(making, tube, columns);
    }
    return status;
}
