/*
 * What a subcommand is, and what main hands to it.
 */
#ifndef TRIVET_CLI_COMMAND_H
#define TRIVET_CLI_COMMAND_H

#include <trivet/base.h>

/* How the command ends. A trivet_status becomes one of these by trivet_status_exit. */
enum { EXIT_HOLDS = 0, EXIT_FAILS = 1, EXIT_BAD_INPUT = 2, EXIT_NO_ANSWER = 3 };

enum { OPERANDS_MAX = 300, NAMED_MAX = 16 };

/* An option that a command takes beside those that all take. */
typedef struct option_row {
    const char *name;  /* with its dashes */
    const char *value; /* what its value is called; NULL: it takes none */
    const char *help;
} option_row;

/* What stood on the command line. */
typedef struct options {
    const char *command; /* the first word that is no option; NULL if there is none */
    const char *operand; /* the file or name after it; NULL if none was given */
    const char *second;  /* what stands after that; NULL if nothing does */
    const char *operands[OPERANDS_MAX];
    int operand_count;
    const char *names[NAMED_MAX]; /* of the command's own options that were given */
    const char *values[NAMED_MAX];
    int named_count;
    int is_json;
    int wants_help;
    int wants_version;
} options;

typedef struct command {
    const char *name;
    int (*run)(const options *given); /* returns the exit status */
    const char *operand;              /* how the help calls the operand */
    int needs_operand;
    int takes_second;        /* how many more operands it takes */
    const char *line;        /* what it answers, in one line */
    const char *help;        /* the rest of its help, with an example */
    const option_row *takes; /* its own options, closed by a row without a name; or NULL */
} command;

/* The value of an option of the command, "" if it takes none; NULL if it was not given. */
const char *option_value(const options *given, const char *name);

int cmd_check(const options *given);
int cmd_cut(const options *given);
int cmd_draw(const options *given);
int cmd_explain(const options *given);
int cmd_export(const options *given);
int cmd_rate(const options *given);
int cmd_report(const options *given);
int cmd_show(const options *given);
int cmd_start(const options *given);
int cmd_pick(const options *given);
int cmd_stock(const options *given);
int cmd_sweep(const options *given);

#endif
