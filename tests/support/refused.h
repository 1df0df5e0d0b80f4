/*
 * Looking at refusals: status and the whole message as one line.
 */
#ifndef TRIVET_TESTS_REFUSED_H
#define TRIVET_TESTS_REFUSED_H

#include "trivet/base.h"

#include <check.h>

/* Fails unless got is the wanted status and the message reads exactly as text and clears after. */
static inline void refused(trivet_status got, trivet_status wanted, trivet_message *message,
                           const char *text)
{
    char said[1024];
    trivet_message_text(message, said, sizeof said);
    ck_assert_msg(got == wanted, "status %d, wanted %d: %s", (int)got, (int)wanted, said);
    ck_assert_int_eq(message->status, (int32_t)wanted);
    ck_assert_str_eq(said, text);
    trivet_message_clear(message);
}

#endif
