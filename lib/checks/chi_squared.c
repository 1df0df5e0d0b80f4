/*
 * Chi squared with whole degrees of freedom.
 *
 * The probability beyond x is a finite sum (Abramowitz and Stegun, Handbook of Mathematical
 * Functions, 26.4.4 for odd and 26.4.5 for even degrees; from memory); the quantile is found by
 * bisection. Where the sum would be long, the cube of Wilson and Hilferty (1931) is exact to four
 * digits and more.
 */
#include "checks/chi_squared.h"

#include <math.h>

enum { SUMMED_MOST = 200, BISECTIONS = 200 };

/* Probability that chi squared exceeds x. */
static double probability_beyond(int32_t freedom, double x)
{
    const int is_odd = freedom % 2;
    /* Terms (x/2)^k / Gamma(k + 1) e^(-x/2), for k = 0, 1, 2 ... or k = 1/2, 3/2 ... */
    const double first = is_odd ? 0.5 : 0.0;
    double term = exp(-0.5 * x) * (is_odd ? 2.0 * sqrt(0.5 * x / acos(-1.0)) : 1.0);
    double sum = is_odd ? erfc(sqrt(0.5 * x)) : 0.0;
    for (int32_t i = 0; i < freedom / 2; i++) {
        sum += term;
        term *= 0.5 * x / (first + i + 1.0);
    }
    return sum;
}

static double bisect(int32_t freedom, double beyond)
{
    double low = 0.0;
    double high = 1.0;
    while (probability_beyond(freedom, high) > beyond) {
        high *= 2.0;
    }
    for (int i = 0; i < BISECTIONS; i++) {
        const double middle = 0.5 * (low + high);
        if (probability_beyond(freedom, middle) > beyond) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return 0.5 * (low + high);
}

double trivet__chi_squared_quantile(int32_t freedom, double beyond)
{
    if (freedom <= SUMMED_MOST) {
        return bisect(freedom, beyond);
    }
    /* The normal quantile z: chi squared with one degree exceeds z^2 with 2 beyond. */
    const double n = freedom;
    const double z = beyond < 0.5   ? sqrt(bisect(1, 2.0 * beyond))
                     : beyond > 0.5 ? -sqrt(bisect(1, 2.0 - 2.0 * beyond))
                                    : 0.0;
    const double root = 1.0 - 2.0 / (9.0 * n) + z * sqrt(2.0 / (9.0 * n));
    return n * root * root * root;
}
