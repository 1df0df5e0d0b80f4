/*
 * Anywhere along a span: forces and movements from the closed form, and their extremes from the
 * roots of the polynomials' derivatives.
 */
#include "statics/evaluate.h"

#include "base/message.h"
#include "base/vec3.h"
#include "numerics/numerics.h"
#include "statics/span_pieces.h"
#include "statics/statics.h"

#include <math.h>
#include <string.h>

double trivet__column_warm(const trivet_result *result, int32_t column)
{
    const trivet_plan *const plan = result->plan;
    double warm = 0.0;
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        warm += result->factors[k] * result->warm[plan->column_cases[k]];
    }
    return warm;
}

void trivet__state_at(const trivet_result *result, int32_t column, int32_t span, double x,
                      int is_after, double move[6], double force[6])
{
    const trivet_plan *const plan = result->plan;
    const ptrdiff_t at = (ptrdiff_t)column * plan->span_count + span;
    trivet__load_sums sums;
    memset(&sums, 0, sizeof sums);
    for (int32_t k = plan->column_starts[column]; k < plan->column_starts[column + 1]; k++) {
        const int32_t list = plan->column_cases[k] * plan->span_count + span;
        trivet__load_sums_add(&sums, result->loads + plan->load_starts[list],
                              result->load_counts[list], result->factors[k], x, is_after);
    }
    trivet__span_state(&result->spans[span], result->span_starts + 6 * at,
                       result->span_ends + 12 * at, &sums, trivet__column_warm(result, column), x,
                       move, force);
}

/* Answers for what every evaluation asks: a solved result, a column and a span that exist. */
static trivet_status check_place(const trivet_result *result, int32_t column, int32_t span)
{
    if (!result) {
        return TRIVET_MISSING_ARGUMENT;
    }
    if (!result->is_solved) {
        return TRIVET_BAD_ORDER;
    }
    const int fits = column >= 0 && column < result->plan->column_count && span >= 0 &&
                     span < result->plan->span_count;
    return fits ? TRIVET_OK : TRIVET_BAD_INDEX;
}

trivet_status trivet_result_at(const trivet_result *result, int32_t in_case, int32_t span,
                               double at, double *forces_out, double *move_out)
{
    const trivet_status status = check_place(result, in_case, span);
    if (status != TRIVET_OK) {
        return status;
    }
    const trivet__span *const placed = &result->spans[span];
    const double rounding = TRIVET__ROUNDING * placed->length;
    if (!(at >= -rounding && at <= placed->length + rounding)) {
        return TRIVET_BAD_VALUE;
    }
    const double x = fmin(fmax(at, 0.0), placed->length);
    double move[6];
    double force[6];
    trivet__state_at(result, in_case, span, x, x >= placed->length, move, force);
    if (forces_out) {
        memcpy(forces_out, force, sizeof force);
    }
    if (move_out) {
        trivet__from_axes3(placed->axes, move, move_out);
        trivet__from_axes3(placed->axes, move + 3, move_out + 3);
    }
    return TRIVET_OK;
}

static double value_of(const double *c, int32_t degree, double s)
{
    double value = c[degree];
    for (int32_t k = degree - 1; k >= 0; k--) {
        value = value * s + c[k];
    }
    return value;
}

static void keep_extreme(trivet_extreme *extreme, double value, double at)
{
    if (value < extreme->least) {
        extreme->least = value;
        extreme->least_at = at;
    }
    if (value > extreme->most) {
        extreme->most = value;
        extreme->most_at = at;
    }
}

/* Ends of the piece, and every place inside where the polynomial is level. */
static void look_at_piece(const double *c, int32_t degree, const trivet__piece *piece,
                          trivet_extreme *extreme)
{
    double slope[TRIVET__DEGREE_MOST];
    double roots[TRIVET__DEGREE_MOST];
    const double width = piece->to - piece->from;
    for (int32_t k = 0; k < degree; k++) {
        slope[k] = (k + 1) * c[k + 1];
    }
    keep_extreme(extreme, c[0], piece->from);
    const int32_t count = trivet__polynomial_roots(slope, degree - 1, 0.0, width, roots);
    for (int32_t k = 0; k < count; k++) {
        keep_extreme(extreme, value_of(c, degree, roots[k]), piece->from + roots[k]);
    }
    keep_extreme(extreme, value_of(c, degree, width), piece->to);
}

/* A point load right at an end jumps between the piece and the end's own force. */
static void keep_ends(const trivet_result *result, int32_t column, int32_t span,
                      trivet_extreme *extremes)
{
    const double *const ends =
        result->span_ends + 12 * ((ptrdiff_t)column * result->plan->span_count + span);
    for (int i = 0; i < 6; i++) {
        keep_extreme(&extremes[i], ends[i], 0.0);
        keep_extreme(&extremes[i], ends[6 + i], result->spans[span].length);
    }
}

static const trivet_extreme nothing_yet = {HUGE_VAL, 0.0, -HUGE_VAL, 0.0};

trivet_status trivet_result_extremes(const trivet_result *result, int32_t in_case, int32_t span,
                                     trivet_extreme *extremes_out)
{
    const trivet_status status =
        extremes_out ? check_place(result, in_case, span) : TRIVET_MISSING_ARGUMENT;
    if (status != TRIVET_OK) {
        return status;
    }
    for (int i = 0; i < 6; i++) {
        extremes_out[i] = nothing_yet;
    }
    const int32_t count = trivet__span_piece_count(result, in_case, span);
    for (int32_t k = 0; k < count; k++) {
        trivet__piece piece;
        trivet__span_piece(result, in_case, span, k, &piece);
        for (int i = 0; i < 6; i++) {
            look_at_piece(piece.forces[i], 3, &piece, &extremes_out[i]);
        }
    }
    keep_ends(result, in_case, span, extremes_out);
    return TRIVET_OK;
}

trivet_status trivet_result_envelope(const trivet_result *result, int32_t span,
                                     trivet_extreme *extremes_out, int32_t *least_cases_out,
                                     int32_t *most_cases_out)
{
    trivet_status status = trivet_result_extremes(result, 0, span, extremes_out);
    for (int i = 0; status == TRIVET_OK && i < 6; i++) {
        if (least_cases_out) {
            least_cases_out[i] = 0;
        }
        if (most_cases_out) {
            most_cases_out[i] = 0;
        }
    }
    for (int32_t c = 1; status == TRIVET_OK && c < result->plan->column_count; c++) {
        trivet_extreme here[6];
        status = trivet_result_extremes(result, c, span, here);
        for (int i = 0; status == TRIVET_OK && i < 6; i++) {
            if (here[i].least < extremes_out[i].least && least_cases_out) {
                least_cases_out[i] = c;
            }
            if (here[i].most > extremes_out[i].most && most_cases_out) {
                most_cases_out[i] = c;
            }
            keep_extreme(&extremes_out[i], here[i].least, here[i].least_at);
            keep_extreme(&extremes_out[i], here[i].most, here[i].most_at);
        }
    }
    return status;
}

trivet_status trivet_result_extreme_move(const trivet_result *result, int32_t in_case, int32_t span,
                                         const double *direction, trivet_extreme *extreme_out)
{
    const trivet_status status =
        direction && extreme_out ? check_place(result, in_case, span) : TRIVET_MISSING_ARGUMENT;
    if (status != TRIVET_OK) {
        return status;
    }
    double along[3];
    trivet__into_axes3(result->spans[span].axes, direction, along);
    *extreme_out = nothing_yet;
    const int32_t count = trivet__span_piece_count(result, in_case, span);
    for (int32_t k = 0; k < count; k++) {
        trivet__piece piece;
        double c[6] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
        trivet__span_piece(result, in_case, span, k, &piece);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 6; j++) {
                c[j] += along[i] * piece.moves[i][j];
            }
        }
        look_at_piece(c, 5, &piece, extreme_out);
    }
    return TRIVET_OK;
}
