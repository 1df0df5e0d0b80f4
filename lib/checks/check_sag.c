/*
 * Droop ratio: how far a tube sags between its supports, or dips beyond the last one, against the
 * length over which it does so (span/200 and the like).
 *
 * Supports of a tube are the joints with a mount that carries weight; a tube without such a mount
 * is supported where it meets other tubes. Between two supports, droop counts from the straight
 * line between them as they have moved; beyond the last support it counts from that support, over
 * the whole reach.
 *
 * Between load steps the movement of a tube is a polynomial of degree five at most; its stationary
 * points against the line are the roots of a derivative of degree four, so nothing is sampled.
 */
#include "checks/bounds.h"
#include "checks/check_record.h"
#include "frame/frame.h"
#include "numerics/numerics.h"
#include "statics/span_pieces.h"

#include <math.h>
#include <string.h>

enum { TERMS = 6 };

/* A mount's direction carries weight if it leans at least so much on the vertical. */
#define LEAN_LEAST 0.1

/* Far above the rounding of a movement, as a share of it, and far below what matters. */
#define TINY 1e-12

#define SOLUTION "from the solution, downward"
#define ALONG "along the tube"
#define LAST_LINES                                                                                 \
    {"ratio", "sag over length", "sag / L", "definition of the droop ratio", TRIVET_NUMBER},       \
        {"limit", "ratio allowed", "", "limits, droop ratio", TRIVET_NUMBER},                      \
    {                                                                                              \
        "used", "utilisation", "ratio / limit", "demand over limit", TRIVET_NUMBER                 \
    }

static const trivet__line BAY_LINES[] = {
    {"w", "movement of the worst place", "", SOLUTION, TRIVET_LENGTH},
    {"w_a", "movement of the support before it", "", SOLUTION, TRIVET_LENGTH},
    {"w_b", "movement of the support beyond it", "", SOLUTION, TRIVET_LENGTH},
    {"x", "distance from the support before it", "", ALONG, TRIVET_LENGTH},
    {"L", "distance of the two supports", "", ALONG, TRIVET_LENGTH},
    {"line", "straight line between the supports", "w_a + (w_b - w_a) * x / L", "straight line",
     TRIVET_LENGTH},
    {"sag", "below that line", "max(w - line, 0)", "definition of sag", TRIVET_LENGTH},
    LAST_LINES,
};
static const trivet__line REACH_LINES[] = {
    {"w", "movement of the worst place", "", SOLUTION, TRIVET_LENGTH},
    {"w_a", "movement of the last support", "", SOLUTION, TRIVET_LENGTH},
    {"L", "reach beyond the support", "", ALONG, TRIVET_LENGTH},
    {"sag", "below the support", "max(w - w_a, 0)", "definition of sag", TRIVET_LENGTH},
    LAST_LINES,
};
#define COUNT_OF(lines) ((int32_t)(sizeof(lines) / sizeof(lines)[0]))
static const trivet__check_kind SAG = {.check = "droop ratio",
                                       .verb = "droops",
                                       .advice =
                                           "a taller section, a brace or a shorter reach helps",
                                       .line = TRIVET_LINE_SERVICE,
                                       .where_kind = TRIVET_KIND_TUBE,
                                       .is_ratio = 1};
static const trivet__table BAY = {BAY_LINES, COUNT_OF(BAY_LINES)};
static const trivet__table REACH = {REACH_LINES, COUNT_OF(REACH_LINES)};

/* A stretch of tube with one line of reference. */
typedef struct bay {
    double from; /* m along the tube */
    double to;
    double support_at; /* the support that the line starts from: from, or to on a reach at the
                          tube's beginning */
    double w_a;        /* m down, of that support */
    double w_b;        /* m down, of the other support; w_a on a reach */
    int32_t is_reach;
} bay;

/* The worst place so far. */
typedef struct sag {
    bay of;
    double at;
    double w;
    double ratio; /* may be below 0: then nothing sags */
    int32_t is_found;
} sag;

typedef struct looking {
    const trivet_result *result;
    int32_t in_case;
    int32_t first_span;
    int32_t span_count;
} looking;

static double down_in_span(const looking *at_work, int32_t span, double at)
{
    double move[6];
    if (trivet_result_at(at_work->result, at_work->in_case, span, at, NULL, move) != TRIVET_OK) {
        return (double)NAN;
    }
    return -move[2];
}

/* Movement down at a place of the tube. */
static double down_at(const looking *at_work, double at)
{
    trivet_span span = {.size = sizeof span};
    for (int32_t s = at_work->first_span; s < at_work->first_span + at_work->span_count; s++) {
        if (trivet_result_span(at_work->result, s, &span) != TRIVET_OK) {
            break;
        }
        const double x = at - span.start;
        if (x <= span.length || s + 1 == at_work->first_span + at_work->span_count) {
            return down_in_span(at_work, s, fmin(fmax(x, 0.0), span.length));
        }
    }
    return (double)NAN;
}

/* Line of reference at a place: straight between supports, level on a reach. */
static double line_at(const bay *of, double at)
{
    return of->w_a + (of->w_b - of->w_a) * (at - of->support_at) / (of->to - of->from);
}

static void offer(sag *worst, const bay *of, double at, double w)
{
    const double ratio = (w - line_at(of, at)) / (of->to - of->from);
    if (!worst->is_found || ratio > worst->ratio) {
        *worst = (sag){*of, at, w, ratio, 1};
    }
}

/* Movement down against the line of reference, as a polynomial of u = 0..1 along the piece. */
static void sag_polynomial(const bay *of, const trivet_span *span, const trivet__piece *piece,
                           double c[TERMS])
{
    const double w = piece->to - piece->from;
    double power = 1.0;
    for (int k = 0; k < TERMS; k++, power *= w) {
        c[k] = 0.0;
        for (int i = 0; i < 3; i++) {
            c[k] -= power * span->axes[3 * i + 2] * piece->moves[i][k];
        }
    }
    const double start = line_at(of, span->start + piece->from);
    c[0] -= start;
    c[1] -= line_at(of, span->start + piece->to) - start;
}

static void look_at_piece(const bay *of, const trivet_span *span, const trivet__piece *piece,
                          sag *worst)
{
    double c[TERMS];
    double slope[TERMS];
    double roots[TERMS];
    sag_polynomial(of, span, piece, c);
    if (worst->is_found) {
        const double rounding = TINY * (fabs(of->w_a) + fabs(of->w_b));
        const double most = (trivet__quintic_most(c, 1.0) + rounding) / (of->to - of->from);
        if (most < worst->ratio) {
            return; /* nowhere on the piece is it worse */
        }
    }
    int32_t degree = TERMS - 2;
    for (int k = 0; k + 1 < TERMS; k++) {
        slope[k] = (k + 1) * c[k + 1];
    }
    while (degree > 0 && slope[degree] == 0.0) {
        degree--;
    }
    const int32_t count = degree > 0 ? trivet__polynomial_roots(slope, degree, 0.0, 1.0, roots) : 0;
    for (int32_t i = -2; i < count; i++) {
        const double u = i == -2 ? 0.0 : i == -1 ? 1.0 : roots[i];
        double below = 0.0;
        for (int k = TERMS - 1; k >= 0; k--) {
            below = below * u + c[k];
        }
        const double at = span->start + piece->from + u * (piece->to - piece->from);
        offer(worst, of, at, below + line_at(of, at));
    }
}

/* Supports stand at joints, joints at ends of spans: a span lies in a bay whole or not at all.
 */
static void look_at_bay(const looking *at_work, const bay *of, sag *worst)
{
    for (int32_t s = at_work->first_span; s < at_work->first_span + at_work->span_count; s++) {
        trivet_span span = {.size = sizeof span};
        if (trivet_result_span(at_work->result, s, &span) != TRIVET_OK) {
            return;
        }
        const double middle = span.start + 0.5 * span.length;
        if (!(middle > of->from && middle < of->to)) {
            continue;
        }
        const int32_t pieces = trivet__span_piece_count(at_work->result, at_work->in_case, s);
        for (int32_t p = 0; p < pieces; p++) {
            trivet__piece piece;
            trivet__span_piece(at_work->result, at_work->in_case, s, p, &piece);
            look_at_piece(of, &span, &piece, worst);
        }
    }
}

/* Whether a joint's mount takes some weight. */
static int carries_weight(const trivet_frame *frame, int32_t joint)
{
    const int32_t mount = trivet__joint_mount(frame, joint);
    trivet_mount at = {.size = sizeof at};
    if (mount < 0 || trivet_frame_mount(frame, mount, &at) != TRIVET_OK) {
        return 0;
    }
    for (int d = 0; d < 3; d++) {
        const int acts = ((at.held >> d) & 1U) != 0 || at.spring[d] > 0.0;
        if (acts && fabs(at.axes[3 * d + 2]) >= LEAN_LEAST) {
            return 1;
        }
    }
    return 0;
}

/* Looks at all bays and reaches of a tube in a case. */
static void look_along(const trivet__making *making, const looking *at_work, int32_t tube,
                       sag *worst)
{
    int32_t joint_count = 0;
    const int32_t *const joints = trivet_frame_tube_joints(making->frame, tube, &joint_count);
    int on_mounts = 0;
    for (int32_t i = 0; i < joint_count; i++) {
        on_mounts = on_mounts || carries_weight(making->frame, joints[i]);
    }
    const double end = trivet_frame_tube_length(making->frame, tube);
    int has_support = 0;
    double last_at = 0.0;
    double last_w = 0.0;
    for (int32_t i = 0; i < joint_count; i++) {
        const int is_support =
            on_mounts ? carries_weight(making->frame, joints[i]) : making->meets[joints[i]] > 1;
        if (!is_support) {
            continue;
        }
        const double at = trivet__tube_distance(making->frame, tube, i);
        const double w = down_at(at_work, at);
        if (has_support) {
            look_at_bay(at_work, &(bay){last_at, at, last_at, last_w, w, 0}, worst);
        } else if (i > 0) {
            look_at_bay(at_work, &(bay){0.0, at, at, w, w, 1}, worst);
        }
        has_support = 1;
        last_at = at;
        last_w = w;
    }
    if (has_support && end - last_at > TRIVET__SPAN_LEAST) {
        look_at_bay(at_work, &(bay){last_at, end, last_at, last_w, last_w, 1}, worst);
    }
}

static void record_sag(trivet__making *making, int32_t tube, int32_t in_case, const sag *worst)
{
    const bay *const of = &worst->of;
    const double L = of->to - of->from;
    const double line = line_at(of, worst->at);
    const double below = worst->w - line > 0.0 ? worst->w - line : 0.0;
    const double limit = making->limits.droop_ratio;
    const double ratio = below / L;
    const double in_bay[] = {worst->w, of->w_a,      of->w_b, worst->at - of->support_at,
                             L,        line,         below,   ratio,
                             limit,    ratio / limit};
    const double on_reach[] = {worst->w, of->w_a, L, below, ratio, limit, ratio / limit};
    trivet__record *const record = trivet__record_start(making, &SAG, tube, in_case);
    record->check.source = "limit set by the user";
    record->check.at = worst->at;
    record->is_reach = of->is_reach;
    trivet__place_find(making->frame, making->result, tube, worst->at, &record->place);
    trivet__record_table(making, record, of->is_reach ? &REACH : &BAY,
                         of->is_reach ? on_reach : in_bay);
    trivet__record_judge(making, record, TRIVET_NUMBER, ratio, limit);
}

trivet_status trivet__check_sag(trivet__making *making)
{
    if (isnan(making->limits.droop_ratio)) {
        return TRIVET_OK;
    }
    const int32_t tube_count = trivet_frame_count(making->frame, TRIVET_KIND_TUBE);
    const int32_t columns = trivet_result_case_count(making->result);
    for (int32_t tube = 0; tube < tube_count; tube++) {
        looking at_work = {.result = making->result};
        at_work.first_span = trivet_result_tube_spans(making->result, tube, &at_work.span_count);
        for (int32_t c = 0; c < columns; c++) {
            sag worst = {.is_found = 0};
            at_work.in_case = c;
            look_along(making, &at_work, tube, &worst);
            if (worst.is_found) {
                record_sag(making, tube, c, &worst);
            }
        }
    }
    return TRIVET_OK;
}
