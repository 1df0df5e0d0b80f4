/*
 * Real roots. Expected roots are those that the polynomials were multiplied out from (by hand), or
 * those of Chebyshev's polynomials: T_n(cos t) = cos n t, coefficients from Abramowitz and Stegun,
 * table 22.3 (from memory; T_6 = 2 T_3^2 - 1 by hand).
 */
#include "numerics/numerics.h"
#include "support/near.h"
#include "support/run.h"

static const double pi = 3.14159265358979323846;

/*
 * How far a simple root may be off: coefficients and Horner's rule leave an uncertainty of
 * (2 n + 2) u sum |c_k x^k| in the value; divided by the slope that is a distance. Besides,
 * neighbouring doubles are 2 u |x| apart.
 */
static double allowed_off(const double *c, int32_t degree, double root)
{
    double slope = 0.0;
    double size = 0.0;
    for (int32_t k = degree; k >= 0; k--) {
        slope += k > 0 ? k * c[k] * pow(root, k - 1) : 0.0;
        size += fabs(c[k]) * pow(fabs(root), k);
    }
    return (2.0 * degree + 2.0) * 0.5 * DBL_EPSILON * size / fabs(slope) +
           2.0 * DBL_EPSILON * fabs(root);
}

static void check_simple_roots(const double *c, int32_t degree, double low, double high,
                               const double *want, int32_t count)
{
    double roots[TRIVET__DEGREE_MOST];
    ck_assert_int_eq(trivet__polynomial_roots(c, degree, low, high, roots), count);
    for (int32_t k = 0; k < count; k++) {
        near_scaled(roots[k], want[k], allowed_off(c, degree, want[k]), 1.0);
    }
}

/* For roots that only touch: as near as stated. */
static void check_roots(const double *c, int32_t degree, double low, double high,
                        const double *want, int32_t count, double off)
{
    double roots[TRIVET__DEGREE_MOST];
    ck_assert_int_eq(trivet__polynomial_roots(c, degree, low, high, roots), count);
    for (int32_t k = 0; k < count; k++) {
        near_scaled(roots[k], want[k], off, 1.0);
    }
}

static void check_no_roots(const double *c, int32_t degree, double low, double high)
{
    double roots[TRIVET__DEGREE_MOST];
    ck_assert_int_eq(trivet__polynomial_roots(c, degree, low, high, roots), 0);
}

/* Chebyshev's roots cos((2 k - 1) pi / (2 n)), k = n .. 1, written with sines: rising, exact at 0.
 */
static void check_chebyshev(const double *c, int32_t degree)
{
    double want[TRIVET__DEGREE_MOST];
    for (int32_t k = 0; k < degree; k++) {
        want[k] = sin((2.0 * k + 1.0 - degree) * pi / (2.0 * degree));
    }
    check_simple_roots(c, degree, -1.0, 1.0, want, degree);
}

START_TEST(roots_of_chebyshev)
{
    const double t3[] = {0.0, -3.0, 0.0, 4.0};
    const double t6[] = {-1.0, 0.0, 18.0, 0.0, -48.0, 0.0, 32.0};
    const double t12[] = {1.0, 0.0,    -72.0, 0.0,     840.0, 0.0,   -3584.0,
                          0.0, 6912.0, 0.0,   -6144.0, 0.0,   2048.0};
    check_chebyshev(t3, 3);
    check_chebyshev(t6, 6);
    check_chebyshev(t12, 12);
}
END_TEST

START_TEST(roots_at_one_to_six)
{
    /* (x-1)(x-2)(x-3)(x-4)(x-5)(x-6); Stirling numbers of the first kind */
    const double c[] = {720.0, -1764.0, 1624.0, -735.0, 175.0, -21.0, 1.0};
    const double want[] = {1.0, 2.0, 3.0, 4.0, 5.0, 6.0};
    check_simple_roots(c, 6, 0.0, 10.0, want, 6);
    check_simple_roots(c, 6, -1e6, 1e6, want, 6);
    check_simple_roots(c, 6, 1.0, 6.0, want, 6); /* two of them at the very ends */
    check_simple_roots(c, 6, 2.5, 5.5, want + 2, 3);
    check_no_roots(c, 6, 1.25, 1.75);
    check_no_roots(c, 6, 6.5, 100.0);
}
END_TEST

START_TEST(roots_far_apart_keep_their_digits)
{
    /* (x - 2^-20)(x - 1)(x - 2^20), exact in double */
    const double tiny = 0x1p-20;
    const double huge = 0x1p20;
    const double c[] = {-1.0, 1.0 + tiny + huge, -(1.0 + tiny + huge), 1.0};
    const double want[] = {tiny, 1.0, huge};
    check_simple_roots(c, 3, 0.0, 0x1p21, want, 3);
}
END_TEST

START_TEST(straight_line)
{
    const double c[] = {-1.0, 4.0};
    const double want[] = {0.25};
    check_simple_roots(c, 1, 0.0, 1.0, want, 1);
    check_simple_roots(c, 1, 0.25, 1.0, want, 1);
    check_simple_roots(c, 1, -1.0, 0.25, want, 1);
    check_simple_roots(c, 1, 0.25, 0.25, want, 1);
    check_no_roots(c, 1, 0.5, 1.0);
    check_no_roots(c, 1, 0.5, 0.5);
}
END_TEST

START_TEST(leading_coefficients_of_zero_are_left_out)
{
    const double c[] = {-1.0, 4.0, 0.0, 0.0, -0.0};
    const double want[] = {0.25};
    check_simple_roots(c, 4, 0.0, 1.0, want, 1);
}
END_TEST

START_TEST(tiny_leading_coefficients_do_no_harm)
{
    const double tiny[] = {1e-17, 1e-30, 1e-200, 5e-324};
    const double want[] = {0.25};
    for (int k = 0; k < 4; k++) {
        const double plus[] = {-1.0, 4.0, tiny[k], tiny[k]};
        const double minus[] = {-1.0, 4.0, -tiny[k], tiny[k]};
        check_simple_roots(plus, 3, -10.0, 10.0, want, 1);
        check_simple_roots(minus, 3, -10.0, 10.0, want, 1);
    }
}
END_TEST

START_TEST(root_that_only_touches_counts_once)
{
    /* (x + 1/4)(x - 1/2)^2, exact in double */
    const double c[] = {0.0625, 0.0, -0.75, 1.0};
    const double want[] = {-0.25, 0.5};
    check_roots(c, 3, -1.0, 1.0, want, 2, 4.0 * DBL_EPSILON);
    /* (x - 0.3)^2, whose coefficients are rounded */
    const double rounded[] = {0.09, -0.6, 1.0};
    const double touch[] = {0.3};
    check_roots(rounded, 2, 0.0, 1.0, touch, 1, 4.0 * DBL_EPSILON);
}
END_TEST

START_TEST(several_touching_roots)
{
    /* T_3^2 = (4 x^3 - 3 x)^2; 1 - T_3^2 = (1 - x^2)(4 x^2 - 1)^2 */
    const double square[] = {0.0, 0.0, 9.0, 0.0, -24.0, 0.0, 16.0};
    const double at_zeros[] = {-sqrt(0.75), 0.0, sqrt(0.75)};
    check_roots(square, 6, -1.0, 1.0, at_zeros, 3, 8.0 * DBL_EPSILON);
    const double rest[] = {1.0, 0.0, -9.0, 0.0, 24.0, 0.0, -16.0};
    const double at_ones[] = {-1.0, -0.5, 0.5, 1.0};
    check_roots(rest, 6, -1.0, 1.0, at_ones, 4, 8.0 * DBL_EPSILON);
    check_roots(rest, 6, -2.0, 2.0, at_ones, 4, 128.0 * DBL_EPSILON);
}
END_TEST

START_TEST(roots_of_high_order_count_once)
{
    const double third[] = {-1.0, 3.0, -3.0, 1.0};       /* (x - 1)^3 */
    const double fourth[] = {1.0, -4.0, 6.0, -4.0, 1.0}; /* (x - 1)^4 */
    const double at_one[] = {1.0};
    check_roots(third, 3, 0.0, 3.0, at_one, 1, 4.0 * DBL_EPSILON);
    check_roots(fourth, 4, 0.0, 3.0, at_one, 1, 4.0 * DBL_EPSILON);
    const double power[] = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 2.0};
    const double at_zero[] = {0.0};
    check_roots(power, 6, -1.0, 3.0, at_zero, 1, 0.0);
    check_roots(power, 6, 0.0, 3.0, at_zero, 1, 0.0);
    check_roots(power, 6, -3.0, 0.0, at_zero, 1, 0.0);
    check_roots(power, 6, 0.0, 0.0, at_zero, 1, 0.0);
}
END_TEST

START_TEST(ends_belong_to_the_interval)
{
    const double c[] = {0.0, 1.0, -1.0}; /* x (1 - x) */
    const double want[] = {0.0, 1.0};
    check_roots(c, 2, 0.0, 1.0, want, 2, 0.0);
    /* 0.1 and 0.7 are no doubles: ends that are roots but for rounding */
    const double rounded[] = {0.07, -0.8, 1.0};
    const double ends[] = {0.1, 0.7};
    check_roots(rounded, 2, 0.1, 0.7, ends, 2, 4.0 * DBL_EPSILON);
}
END_TEST

START_TEST(polynomials_without_roots)
{
    const double above[] = {1.0, 0.0, 1.0};
    const double near[] = {1e-12, 0.0, 1.0}; /* misses zero by far more than rounding */
    const double constant[] = {3.0, 0.0};
    const double nothing[] = {0.0, 0.0, 0.0};
    check_no_roots(above, 2, -5.0, 5.0);
    check_no_roots(near, 2, -5.0, 5.0);
    check_no_roots(constant, 1, -1.0, 1.0);
    check_no_roots(constant, 0, -1.0, 1.0);
    check_no_roots(nothing, 2, -1.0, 1.0);
}
END_TEST

START_TEST(numbers_of_any_size_work)
{
    const double wide[] = {-1e20, 0.0, 1.0};
    const double far_ends[] = {-1e10, 1e10};
    check_roots(wide, 2, -1e100, 1e100, far_ends, 2, 1e10 * 4.0 * DBL_EPSILON);
    const double heavy[] = {-1e300, 1e300, 1e300}; /* x^2 + x - 1 */
    const double golden[] = {0.5 * (sqrt(5.0) - 1.0)};
    check_roots(heavy, 2, 0.0, 1e3, golden, 1, 8.0 * DBL_EPSILON);
    const double light[] = {-1e-300, 1e-300, 1e-300};
    check_roots(light, 2, 0.0, 1e3, golden, 1, 8.0 * DBL_EPSILON);
    const double tight[] = {-2e-6, 1.0};
    const double small[] = {2e-6};
    check_roots(tight, 1, 0.0, 3e-6, small, 1, 2e-6 * 2.0 * DBL_EPSILON);
}
END_TEST

START_TEST(input_that_makes_no_sense_has_no_roots)
{
    const double c[] = {-1.0, 4.0};
    const double bad[] = {-1.0, nan("")};
    const double endless[] = {-1.0, HUGE_VAL};
    check_no_roots(c, 1, 1.0, 0.0);
    check_no_roots(c, 1, nan(""), 1.0);
    check_no_roots(c, 1, 0.0, nan(""));
    check_no_roots(c, 1, -HUGE_VAL, HUGE_VAL);
    check_no_roots(bad, 1, 0.0, 1.0);
    check_no_roots(endless, 1, 0.0, 1.0);
}
END_TEST

int main(void)
{
    return run_tests("polynomial",
                     TESTS(roots_of_chebyshev, roots_at_one_to_six,
                           roots_far_apart_keep_their_digits, straight_line,
                           leading_coefficients_of_zero_are_left_out,
                           tiny_leading_coefficients_do_no_harm, root_that_only_touches_counts_once,
                           several_touching_roots, roots_of_high_order_count_once,
                           ends_belong_to_the_interval, polynomials_without_roots,
                           numbers_of_any_size_work, input_that_makes_no_sense_has_no_roots));
}
