/*
 * What a subcommand is, and what main hands to it.
 */
#ifndef TRIVET_CLI_COMMAND_H
#define TRIVET_CLI_COMMAND_H

#include <trivet/base.h>

/* How the command ends. A trivet_status becomes one of these by trivet_status_exit. */
enum { EXIT_HOLDS = 0, EXIT_FAILS = 1, EXIT_BAD_INPUT = 2, EXIT_NO_ANSWER = 3 };

/* What stood on the command line. */
typedef struct options {
    const char *command; /* the first word that is no option; NULL if there is none */
    const char *operand; /* the file or name after it; NULL if none was given */
    const char *second;  /* what stands after that; NULL if nothing does */
    const char *output;  /* -o: the file to write; NULL if none was given */
    const char *in_case; /* --case */
    const char *tube;    /* --tube */
    int is_json;
    int wants_help;
    int wants_version;
} options;

typedef struct command {
    const char *name;
    int (*run)(const options *given); /* returns the exit status */
    const char *operand;              /* how the help calls the operand */
    int needs_operand;
    int takes_second;
    const char *line; /* what it answers, in one line */
    const char *help; /* the rest of its help, with an example */
} command;

int cmd_check(const options *given);
int cmd_draw(const options *given);
int cmd_explain(const options *given);
int cmd_rate(const options *given);
int cmd_report(const options *given);
int cmd_show(const options *given);
int cmd_start(const options *given);
int cmd_stock(const options *given);

#endif
