/*
 * The last lines of every Check program.
 */
#ifndef TRIVET_TESTS_RUN_H
#define TRIVET_TESTS_RUN_H

#include <check.h>
#include <stddef.h>

/*
 * A test case of these tests, run in this order. Fixtures and loop tests are added to it with
 * Check's own calls.
 */
#define TESTS(...)                                                                                 \
    make_tests((const TTest *const[]){__VA_ARGS__},                                                \
               sizeof((const TTest *const[]){__VA_ARGS__}) / sizeof(const TTest *))

TCase *make_tests(const TTest *const *tests, size_t count);

/* Runs the tests as suite name, prints what failed, returns what main returns. Frees tests. */
int run_tests(const char *name, TCase *tests);

/* The same for a suite of several test cases. Frees suite. */
int run_suite(Suite *suite);

#endif
