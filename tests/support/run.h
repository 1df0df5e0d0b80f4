/*
 * The last lines of every Check program.
 */
#ifndef TRIVET_TESTS_RUN_H
#define TRIVET_TESTS_RUN_H

#include <check.h>

/* Runs the tests as suite name, prints what failed, returns what main returns. Frees tests. */
int run_tests(const char *name, TCase *tests);

#endif
