/*
 * Filling a trivet_message. All take NULL for the message and return the status, so that a
 * refusal is one line: return trivet__refuse(message, TRIVET_BAD_VALUE, ...).
 */
#ifndef TRIVET_BASE_MESSAGE_H
#define TRIVET_BASE_MESSAGE_H

#include "trivet/base.h"

#if defined(__GNUC__) || defined(__clang__)
#define TRIVET__FORMAT(text, first) __attribute__((format(printf, text, first)))
#else
#define TRIVET__FORMAT(text, first)
#endif

/* Which thing, what is wrong, what to do: three plain texts. */
trivet_status trivet__refuse(trivet_message *message, trivet_status status, const char *thing,
                             const char *problem, const char *remedy);

/* The same with a format for one part each; call after trivet__refuse, which sets the others. */
void trivet__message_thing(trivet_message *message, const char *format, ...) TRIVET__FORMAT(2, 3);
void trivet__message_problem(trivet_message *message, const char *format, ...) TRIVET__FORMAT(2, 3);
void trivet__message_remedy(trivet_message *message, const char *format, ...) TRIVET__FORMAT(2, 3);

/* Puts "prefix " before the thing unless that is empty: upper levels add where. */
void trivet__message_within(trivet_message *message, const char *format, ...) TRIVET__FORMAT(2, 3);

trivet_status trivet__no_memory(trivet_message *message);

/* An argument of a public function that is NULL and must not be. */
trivet_status trivet__missing(trivet_message *message, const char *argument);

#endif
