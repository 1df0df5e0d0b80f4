#include "support/run.h"

#include <stdlib.h>

int run_tests(const char *name, TCase *tests)
{
    Suite *const suite = suite_create(name);
    suite_add_tcase(suite, tests);
    SRunner *const runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
