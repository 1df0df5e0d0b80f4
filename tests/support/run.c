#include "support/run.h"

#include <stdlib.h>

TCase *make_tests(const TTest *const *tests, size_t count)
{
    TCase *const made = tcase_create("all");
    for (size_t i = 0; i < count; i++) {
        tcase_add_test(made, tests[i]);
    }
    return made;
}

int run_suite(Suite *suite)
{
    SRunner *const runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

int run_tests(const char *name, TCase *tests)
{
    Suite *const suite = suite_create(name);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
