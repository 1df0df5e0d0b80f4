/*
 * Real roots of a polynomial in an interval, from the roots of its derivatives.
 *
 * The last derivative but one is a straight line; its root splits the interval into pieces in
 * which the derivative before it only rises or only falls, and so on up to the polynomial itself.
 * A monotone piece has one root if its ends differ in sign, found by Newton steps held inside a
 * shrinking bracket. An end at which the polynomial is zero to rounding is itself the root: this
 * is how a root that only touches zero is found.
 *
 * Zero to rounding: |p(x)| <= (2 n + 2) u sum |c_k| |x|^k, the bound of Horner's rule (N. J.
 * Higham, Accuracy and Stability of Numerical Algorithms, 2nd edition, section 5.1) and of
 * coefficients that are themselves rounded.
 *
 * The variable is scaled by a power of two so that the interval lies in [-1, 1], the coefficients
 * so that the largest is near 1: no power overflows, and scaling rounds nothing.
 */
#include "numerics/numerics.h"

#include <assert.h>
#include <float.h>
#include <math.h>

/* A polynomial and its derivative at a point. */
typedef struct value_slope {
    double value;
    double slope;
} value_slope;

static value_slope evaluate(const double *c, int32_t degree, double x)
{
    value_slope p = {c[degree], 0.0};
    for (int32_t k = degree - 1; k >= 0; k--) {
        p.slope = p.slope * x + p.value;
        p.value = p.value * x + c[k];
    }
    return p;
}

/* The value, or 0 if it cannot be told from 0. */
static double clear_value(const double *c, int32_t degree, double x)
{
    const double value = evaluate(c, degree, x).value;
    double bound = fabs(c[degree]);
    for (int32_t k = degree - 1; k >= 0; k--) {
        bound = bound * fabs(x) + fabs(c[k]);
    }
    bound *= (2.0 * degree + 2.0) * (0.5 * DBL_EPSILON);
    return fabs(value) <= bound ? 0.0 : value;
}

/* The root between low and high, where the values have different signs. */
static double find_between(const double *c, int32_t degree, double low, double high)
{
    enum { STEPS_MOST = 1200 }; /* halving from 1 to the smallest double takes 1074 */
    const int rises = evaluate(c, degree, high).value > 0.0;
    double x = 0.5 * (low + high);
    double last_step = high - low;
    for (int step_count = 0; step_count < STEPS_MOST; step_count++) {
        const value_slope p = evaluate(c, degree, x);
        if (p.value == 0.0) {
            return x;
        }
        if ((p.value > 0.0) == rises) {
            high = x;
        } else {
            low = x;
        }
        double next = x - p.value / p.slope;
        /* Newton must stay inside and halve its steps at least, or the bracket is halved. */
        if (!(next >= low && next <= high) || !(fabs(next - x) <= 0.5 * last_step)) {
            next = low + 0.5 * (high - low);
        }
        last_step = fabs(next - x);
        if (!(last_step > 0.5 * DBL_EPSILON * fabs(x))) {
            return next;
        }
        x = next;
    }
    return x;
}

/*
 * Roots from the points between which the polynomial is monotone: count of them, rising, the ends
 * of the interval among them. Neighbouring points that are all zero to rounding are one root.
 */
static int32_t roots_between(const double *c, int32_t degree, const double *points, int32_t count,
                             double *roots_out)
{
    int32_t found = 0;
    double before = 0.0; /* the value at the point before, once there is one */
    double least = 0.0;  /* |p| at the root that was found last, if that was a point */
    for (int32_t k = 0; k < count; k++) {
        const double value = clear_value(c, degree, points[k]);
        const int is_first = k == 0;
        if (value == 0.0) {
            const double size = fabs(evaluate(c, degree, points[k]).value);
            if (is_first || before != 0.0) {
                roots_out[found++] = points[k];
                least = size;
            } else if (size < least) {
                roots_out[found - 1] = points[k];
                least = size;
            }
        } else if (!is_first && before != 0.0 && (value > 0.0) != (before > 0.0)) {
            roots_out[found++] = find_between(c, degree, points[k - 1], points[k]);
        }
        before = value;
    }
    return found;
}

/* c_k X^k, X = 2^power, all times one power of two that brings the largest near 1. */
static void scale_coefficients(const double *c, int32_t degree, int power, double *scaled_out)
{
    int largest = INT32_MIN;
    for (int32_t k = 0; k <= degree; k++) {
        int exponent = 0;
        (void)frexp(c[k], &exponent);
        if (c[k] != 0.0 && exponent + k * power > largest) {
            largest = exponent + k * power;
        }
    }
    for (int32_t k = 0; k <= degree; k++) {
        scaled_out[k] = c[k] != 0.0 ? ldexp(c[k], k * power - largest) : 0.0;
    }
}

static int are_finite(const double *c, int32_t degree)
{
    for (int32_t k = 0; k <= degree; k++) {
        if (!isfinite(c[k])) {
            return 0;
        }
    }
    return 1;
}

/* The times-th derivative. */
static void differentiate(const double *c, int32_t degree, int32_t times, double *out)
{
    for (int32_t k = times; k <= degree; k++) {
        double factor = 1.0;
        for (int32_t i = 0; i < times; i++) {
            factor *= k - i;
        }
        out[k - times] = factor * c[k];
    }
}

/* Roots in [low, high], which lies in [-1, 1]. */
static int32_t scaled_roots(const double *c, int32_t degree, double low, double high,
                            double *roots_out)
{
    double points[TRIVET__DEGREE_MOST + 2] = {low, high};
    int32_t found = 0;
    for (int32_t times = degree - 1; times >= 0; times--) {
        double derivative[TRIVET__DEGREE_MOST + 1] = {0.0};
        differentiate(c, degree, times, derivative);
        points[found + 1] = high;
        found = roots_between(derivative, degree - times, points, found + 2, roots_out);
        for (int32_t k = 0; k < found; k++) {
            points[k + 1] = roots_out[k];
        }
    }
    return found;
}

int32_t trivet__polynomial_roots(const double *c, int32_t degree, double low, double high,
                                 double *roots_out)
{
    assert(degree <= TRIVET__DEGREE_MOST);
    if (degree > TRIVET__DEGREE_MOST || !are_finite(c, degree) || !isfinite(low) ||
        !isfinite(high) || !(low <= high)) {
        return 0;
    }
    while (degree > 0 && c[degree] == 0.0) {
        degree--;
    }
    if (degree <= 0) {
        return 0;
    }
    int power = 0; /* of the interval's farther end: 2^(power - 1) <= |end| < 2^power */
    (void)frexp(fmax(fabs(low), fabs(high)), &power);
    double scaled[TRIVET__DEGREE_MOST + 1];
    scale_coefficients(c, degree, power, scaled);
    while (degree > 0 && scaled[degree] == 0.0) {
        degree--;
    }
    if (degree == 0) {
        return 0;
    }
    const int32_t found =
        scaled_roots(scaled, degree, ldexp(low, -power), ldexp(high, -power), roots_out);
    for (int32_t k = 0; k < found; k++) {
        roots_out[k] = fmin(fmax(ldexp(roots_out[k], power), low), high);
    }
    return found;
}
