/*
 * Reading the command line.
 */
#ifndef TRIVET_CLI_OPTIONS_H
#define TRIVET_CLI_OPTIONS_H

#include "command.h"

/*
 * Reads words [count], command first, options and operands in any order; what follows "--" is no
 * option. Returns 0, or -1 with a message; out then holds what could be read, so that a refusal
 * knows whether JSON was asked for. Options of its own are known once the command is.
 */
int options_read(const char *const *words, int count, const command *commands, int command_count,
                 options *out, trivet_message *message);

/* The row of a command, or NULL. */
const command *command_find(const command *commands, int count, const char *name);

/* Refuses a word that is one too many. Returns -1. */
int options_refuse_extra(const char *word, const char *before, trivet_message *message);

/* The candidate nearest to a wish, or NULL if none is near. candidates end with NULL. */
const char *nearest_word(const char *wish, const char *const *candidates);

#endif
