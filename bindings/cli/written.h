/*
 * Files that the command writes: whole or not at all.
 */
#ifndef TRIVET_CLI_WRITTEN_H
#define TRIVET_CLI_WRITTEN_H

#include "command.h"
#include "solved.h"

/* Refuses a call without -o. Returns the exit status, or EXIT_HOLDS if there is one. */
int written_needs_output(const options *given, const char *name, const char *example);

/*
 * The case and tube that --case and --tube name; -1 where none is named. Returns TRIVET_OK or
 * TRIVET_BAD_NAME with the nearest name in the message.
 */
trivet_status written_pick(const options *given, const solved *all, int32_t *case_out,
                           int32_t *tube_out, trivet_message *message);

/*
 * Writes text to where -o says (- is standard output): into a file beside it first, which then
 * takes its name. Says so, and returns the exit status.
 */
int written_give(const options *given, const char *text);

#endif
