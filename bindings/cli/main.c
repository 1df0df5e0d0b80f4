/*
 * The trivet command: a table of subcommands. What it knows, a program that embeds the library can
 * know as well: nothing is worked out here.
 */
#include "command.h"
#include "options.h"
#include "print.h"

#include <trivet/base.h>

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

/*
 * With one BLAS thread the same file gives the same bits on any number of processors. The command
 * may set that for its own process; the name is there if the library runs on this BLAS.
 */
extern void openblas_set_num_threads(int threads) __attribute__((weak));

static const command COMMANDS[] = {
    {"check", cmd_check, "FILE", 1, 0, "does it hold, what governs, how far it droops",
     "Reads FILE, works out what its loads do, and says whether the frame holds, where it is\n"
     "worst, how far it droops, what each mount carries, and what was not checked.\n\n"
     "  trivet check rack.yaml\n"
     "  trivet check rack.yaml --json > rack.json\n\n"
     "Exit status: 0 it holds, 1 it does not or a hand calculation in the file disagrees,\n"
     "2 the file is wrong, 3 it could not be worked out or no strength is known.\n"},
    {"explain", cmd_explain, "FILE [WHERE]", 1, 1, "the working of a check, line by line",
     "Reads FILE and writes out the check that governs as one would by hand: formula, numbers,\n"
     "result, source. With WHERE, the name of a tube, joint, mount, deck or kind of check, the\n"
     "worst check of each kind there.\n\n"
     "  trivet explain rack.yaml\n"
     "  trivet explain rack.yaml \"left rail\"\n"
     "  trivet explain rack.yaml weld\n\n"
     "Exit status: 0 it was explained, 2 the file is wrong or nothing of that name was checked,\n"
     "3 it could not be worked out.\n"},
    {"rate", cmd_rate, "FILE", 1, 0, "the largest cargo that still holds, and what stops it there",
     "Reads FILE and finds, for each cargo and for all together, the largest mass for which every\n"
     "check in every case still holds, what stops it there, and what comes next.\n\n"
     "  trivet rate rack.yaml\n\n"
     "Exit status: 0 the cargo in the file is within the rating, 1 it is not, 2 the file is "
     "wrong,\n"
     "3 it could not be worked out.\n"},
    {"draw", cmd_draw, "FILE", 1, 0, "a picture and three views with dimensions, as SVG",
     "Reads FILE and draws the frame: how much each tube is used, the shape under load, three\n"
     "views with dimensions. -o X.svg says where to (- for standard output). --case NAME picks\n"
     "the case of the shape; left out, it is the one with the worst droop. --tube NAME draws\n"
     "the forces inside a tube along it instead.\n\n"
     "  trivet draw rack.yaml -o rack.svg\n"
     "  trivet draw rack.yaml -o rail.svg --tube \"left rail\" --case parked\n\n"
     "Exit status: 0 it is written, whether or not the frame holds, 2 the file is wrong or has\n"
     "nothing of that name, 3 it could not be worked out or written.\n"},
    {"report", cmd_report, "FILE", 1, 0, "the whole answer as one page to read or print",
     "Reads FILE and writes one HTML page: verdict, pictures, droop, mounts, checks with their\n"
     "working, what was not checked, and the file itself. -o X.html says where to (- for\n"
     "standard output). --case NAME and --tube NAME pick what the pictures show.\n\n"
     "  trivet report rack.yaml -o rack.html\n\n"
     "Exit status: 0 it is written, whether or not the frame holds, 2 the file is wrong or has\n"
     "nothing of that name, 3 it could not be worked out or written.\n"},
    {"start", cmd_start, "FILE", 1, 0, "writes a commented starter file to change",
     "Writes a small frame with comments into FILE, which must not be there yet; - writes it\n"
     "to standard output.\n\n"
     "  trivet start rack.yaml\n"},
    {"show", cmd_show, "FILE", 1, 0, "what was understood: sizes, weights, joints, cases",
     "Reads FILE and shows what was understood of it, in its own units.\n\n"
     "  trivet show rack.yaml\n"},
    {"stock", cmd_stock, "[NAME]", 0, 0, "the built-in gauges, materials, threads, grades",
     "Lists the built-in gauges, materials, threads, grades and fillers, or shows one.\n\n"
     "  trivet stock\n"
     "  trivet stock E235\n"
     "  trivet stock M6\n"
     "  trivet stock 8.8\n"
     "  trivet stock \"16 ga BWG\"\n"},
};

enum { COMMAND_COUNT = (int)(sizeof COMMANDS / sizeof COMMANDS[0]) };

static void write_help(FILE *to)
{
    fputs("trivet tells whether a frame of tube will hold.\n\n", to);
    for (int i = 0; i < COMMAND_COUNT; i++) {
        char call[64];
        snprintf(call, sizeof call, "trivet %s %s", COMMANDS[i].name, COMMANDS[i].operand);
        fprintf(to, "  %-27s %s\n", call, COMMANDS[i].line);
    }
    fputs(
        "\n  --json     the answer as JSON, in SI units\n"
        "  --help     this, or the help of a command: trivet check --help\n"
        "  --version  the version\n"
        "  -o FILE    draw, report: the file to write; --case NAME, --tube NAME: what is drawn\n\n"
        "Begin with: trivet start rack.yaml && trivet check rack.yaml\n",
        to);
}

static void print_command_help(const command *of)
{
    printf("trivet %s %s [--json]: %s\n\n%s", of->name, of->operand, of->line, of->help);
}

static const command *find_command(const char *name)
{
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(COMMANDS[i].name, name) == 0) {
            return &COMMANDS[i];
        }
    }
    return NULL;
}

static int refuse_command(const options *given, const char *name)
{
    const char *names[COMMAND_COUNT + 1] = {NULL};
    trivet_message message;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        names[i] = COMMANDS[i].name;
    }
    const char *const nearest = nearest_word(name, names);
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_KEY;
    snprintf(message.thing, sizeof message.thing, "command %.100s", name);
    snprintf(message.problem, sizeof message.problem, "is not known");
    if (nearest) {
        snprintf(message.remedy, sizeof message.remedy, "did you mean %s?", nearest);
    } else {
        snprintf(message.remedy, sizeof message.remedy, "see trivet --help");
    }
    return fail(given, NULL, &message);
}

static int refuse_missing(const options *given, const command *of)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_INCOMPLETE;
    snprintf(message.thing, sizeof message.thing, "trivet %s", of->name);
    snprintf(message.problem, sizeof message.problem, "needs a file");
    snprintf(message.remedy, sizeof message.remedy, "give its name: trivet %s rack.yaml", of->name);
    return fail(given, NULL, &message);
}

/* The option of drawings that was given to a command that draws nothing; NULL if none was. */
static const char *stray_option(const options *given, const command *of)
{
    if (of->run == cmd_draw || of->run == cmd_report) {
        return NULL;
    }
    return given->output ? "-o" : given->in_case ? "--case" : given->tube ? "--tube" : NULL;
}

static int refuse_stray(const options *given, const command *of)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_KEY;
    snprintf(message.thing, sizeof message.thing, "option %s", stray_option(given, of));
    snprintf(message.problem, sizeof message.problem, "trivet %s does not take it", of->name);
    snprintf(message.remedy, sizeof message.remedy, "leave it out, or see trivet %s --help",
             of->name);
    return fail(given, NULL, &message);
}

static void print_version(const options *given)
{
    if (given->is_json) {
        printf("{\"trivet\": \"%s\"}\n", trivet_version());
    } else {
        printf("trivet %s\n", trivet_version());
    }
}

static int refuse_nothing(const options *given)
{
    trivet_message message;
    if (!given->is_json) {
        write_help(stderr);
        return EXIT_BAD_INPUT;
    }
    trivet_message_clear(&message);
    message.status = TRIVET_INCOMPLETE;
    snprintf(message.thing, sizeof message.thing, "trivet");
    snprintf(message.problem, sizeof message.problem, "needs a command");
    snprintf(message.remedy, sizeof message.remedy, "see trivet --help");
    return fail(given, NULL, &message);
}

static int run(int count, const char *const *words)
{
    options given;
    trivet_message message;
    const int status = options_read(words, count, &given, &message);
    const command *const asked = given.command ? find_command(given.command) : NULL;
    if (given.command && !asked) {
        return refuse_command(&given, given.command);
    }
    if (status != 0) {
        return fail(&given, NULL, &message);
    }
    if (given.wants_version) {
        print_version(&given);
    } else if (given.wants_help && asked) {
        print_command_help(asked);
    } else if (given.wants_help) {
        write_help(stdout);
    } else if (!asked) {
        return refuse_nothing(&given);
    } else if (given.second && !asked->takes_second) {
        options_refuse_extra(given.second, given.operand, &message);
        return fail(&given, NULL, &message);
    } else if (stray_option(&given, asked)) {
        return refuse_stray(&given, asked);
    } else if (asked->needs_operand && !given.operand) {
        return refuse_missing(&given, asked);
    } else {
        return asked->run(&given);
    }
    return EXIT_HOLDS;
}

int main(int count, char **words)
{
    /* A reader that goes away is noticed as a failed write, and said. */
    signal(SIGPIPE, SIG_IGN);
    if (openblas_set_num_threads) {
        openblas_set_num_threads(1);
    }
    errno = 0;
    const int status = run(count > 0 ? count - 1 : 0, (const char *const *)words + 1);
    const int failed_before = ferror(stdout);
    if (fflush(stdout) != 0 || failed_before) {
        const int reason = errno;
        fprintf(stderr,
                "trivet: standard output: could not be written%s%s; the answer is not "
                "complete\n",
                reason ? ": " : "", reason ? strerror(reason) : "");
        return EXIT_NO_ANSWER;
    }
    return status;
}
