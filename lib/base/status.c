/*
 * Version and statuses, all from the one list in trivet/base.h.
 */
#include "trivet/base.h"

const char *trivet_version(void)
{
    return TRIVET_VERSION;
}

int32_t trivet_abi(void)
{
    return TRIVET_ABI;
}

const char *trivet_status_text(int32_t status)
{
#define STATUS_TEXT_ROW(name, number, text)                                                        \
    case number:                                                                                   \
        return text;
    switch (status) {
        TRIVET_STATUS_LIST(STATUS_TEXT_ROW)
    default:
        return "unknown status";
    }
#undef STATUS_TEXT_ROW
}

int32_t trivet_status_exit(int32_t status)
{
    enum { EXIT_DONE = 0, EXIT_INPUT = 2, EXIT_OTHER = 3, FIRST_INPUT = 20, LAST_INPUT = 29 };
    if (status == TRIVET_OK) {
        return EXIT_DONE;
    }
    return status >= FIRST_INPUT && status <= LAST_INPUT ? EXIT_INPUT : EXIT_OTHER;
}
