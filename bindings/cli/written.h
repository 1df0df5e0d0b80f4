/*
 * Files that the command writes: whole or not at all.
 */
#ifndef TRIVET_CLI_WRITTEN_H
#define TRIVET_CLI_WRITTEN_H

#include "command.h"
#include "solved.h"

/*
 * The case and tube that --case and --tube name; -1 where none is named. Returns TRIVET_OK or
 * TRIVET_BAD_NAME with the nearest name in the message.
 */
trivet_status written_pick(const options *given, const solved *all, int32_t *case_out,
                           int32_t *tube_out, trivet_message *message);

/* Makes what is to be written, in memory from the library, or fills the message. */
typedef trivet_status written_maker(const options *given, const solved *all, char **text_out,
                                    trivet_message *message);

/*
 * Reads, solves and checks the file, lets make work and writes what it made to where -o says (- is
 * standard output): into a file beside it first, which then takes its name. name is the command's,
 * example a name that could stand behind -o. Returns the exit status.
 */
int written_run(const options *given, const char *name, const char *example, written_maker *make);

#endif
