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

static const option_row SWEEP_OPTIONS[] = {
    {"-o", "STORE", "where the answers go, such as runs.sqlite"},
    {"--part", "K/N", "only part K of N, for several machines"},
    {"--workers", "N", "threads; the answers are the same bits with any number"},
    {"--checks", NULL, "keep the worst of each kind of check of every variant"},
    {"--csv", "TABLE", "write the store as a table for a spreadsheet too"},
    {"--merge", NULL, "the files are stores of parts: join them"},
    {"--variant", "NUMBER", "write one variant as a file of its own, and nothing else"},
    {NULL, NULL, NULL},
};

static const option_row CUT_OPTIONS[] = {
    {"--templates", "DIR", "write a paper template for each saddle into that folder"},
    {NULL, NULL, NULL},
};

static const option_row OUTPUT_OPTION[] = {
    {"-o", "X", "the file to write"},
    {NULL, NULL, NULL},
};

static const option_row DRAWING_OPTIONS[] = {
    {"-o", "X", "the file to write"},
    {"--case", "NAME", "the case of the shape; if left out that with the worst droop"},
    {"--tube", "NAME", "the tube whose forces are drawn"},
    {NULL, NULL, NULL},
};

static const option_row PICK_OPTIONS[] = {
    {"--least", "AIM", "mass, price or droop; mass if left out"},
    {"--more", "N", "how many more that hold to show; 3"},
    {"--most", "N", "how many to solve at most; 100000"},
    {"--workers", "N", "threads"},
    {NULL, NULL, NULL},
};

static const command COMMANDS[] = {
    {"check", cmd_check, "FILE", 1, 0, "does it hold, what governs, how far it droops",
     "Reads FILE, works out what its loads do, and says whether the frame holds, where it is\n"
     "worst, how far it droops, what each mount carries, and what was not checked.\n\n"
     "  trivet check rack.yaml\n"
     "  trivet check rack.yaml --json > rack.json\n\n"
     "Exit status: 0 it holds, 1 it does not or a hand calculation in the file disagrees,\n"
     "2 the file is wrong, 3 it could not be worked out or no strength is known.\n",
     NULL},
    {"explain", cmd_explain, "FILE [WHERE]", 1, 1, "the working of a check, line by line",
     "Reads FILE and writes out the check that governs as one would by hand: formula, numbers,\n"
     "result, source. With WHERE, the name of a tube, joint, mount, deck or kind of check, the\n"
     "worst check of each kind there.\n\n"
     "  trivet explain rack.yaml\n"
     "  trivet explain rack.yaml \"left rail\"\n"
     "  trivet explain rack.yaml weld\n\n"
     "Exit status: 0 it was explained, 2 the file is wrong or nothing of that name was checked,\n"
     "3 it could not be worked out.\n",
     NULL},
    {"rate", cmd_rate, "FILE", 1, 0, "the largest cargo that still holds, and what stops it there",
     "Reads FILE and finds, for each cargo and for all together, the largest mass for which every\n"
     "check in every case still holds, what stops it there, and what comes next.\n\n"
     "  trivet rate rack.yaml\n\n"
     "Exit status: 0 the cargo in the file is within the rating, 1 it is not, 2 the file is "
     "wrong,\n"
     "3 it could not be worked out.\n",
     NULL},
    {"cut", cmd_cut, "FILE", 1, 0, "pieces, saw settings, holes, bars to buy, weight",
     "Reads FILE and lists what is to be cut and drilled, how the saw is set, which bars to buy\n"
     "and which piece comes out of which, and what else is needed. It says nothing of whether\n"
     "the frame holds.\n\n"
     "  trivet cut rack.yaml\n"
     "  trivet cut rack.yaml --templates paper\n\n"
     "Exit status: 0 done, 2 the file is wrong or cannot be cut as it says, 3 a template could\n"
     "not be written.\n",
     CUT_OPTIONS},
    {"export", cmd_export, "FILE -o X", 1, 0, "the frame for other programs: VTU, glTF, DXF, CSV",
     "Reads FILE and writes the frame into X for other programs; the ending of X says how.\n\n"
     "  trivet export rack.yaml -o rack.vtu     movements and forces inside, case by case\n"
     "  trivet export rack.yaml -o rack.glb     the tubes as solids (glTF 2.0)\n"
     "  trivet export rack.yaml -o rack.dxf     centre lines, and plates of decks to be cut\n"
     "  trivet export rack.yaml -o tables/      every table as CSV, a file each\n"
     "  trivet export rack.yaml -o checks.csv   one table: joints, tubes, sections, cases,\n"
     "                                          reactions, movements, forces, checks, bolts,\n"
     "                                          droop, mounts, inserts, cargo, plates,\n"
     "                                          not-checked; of the cut list: pieces, ends,\n"
     "                                          saddles, bends, holes, bars, layout, buy,\n"
     "                                          parts, sums, by-hand\n\n"
     "VTU, glTF and CSV are in metres and newtons, DXF in mm. What X was before is replaced.\n\n"
     "Exit status: 0 it was written, 2 the file is wrong, 3 it could not be worked out or "
     "written.\n",
     OUTPUT_OPTION},
    {"draw", cmd_draw, "FILE -o X", 1, 0, "a picture and three views with dimensions, as SVG",
     "Reads FILE and draws the frame: how much each tube is used, the shape under load, three\n"
     "views with dimensions. With --tube the forces inside that tube along it instead.\n"
     "-o - writes to standard output.\n\n"
     "  trivet draw rack.yaml -o rack.svg\n"
     "  trivet draw rack.yaml -o rail.svg --tube \"left rail\" --case parked\n\n"
     "Exit status: 0 it is written, whether or not the frame holds, 2 the file is wrong or has\n"
     "nothing of that name, 3 it could not be worked out or written.\n",
     DRAWING_OPTIONS},
    {"report", cmd_report, "FILE -o X", 1, 0, "the whole answer as one page to read or print",
     "Reads FILE and writes one HTML page: verdict, pictures, droop, mounts, checks with their\n"
     "working, the cut list with bars to buy and saddle templates, what was not checked, and\n"
     "the file itself. -o - writes to standard output.\n\n"
     "  trivet report rack.yaml -o rack.html\n\n"
     "Exit status: 0 it is written, whether or not the frame holds, 2 the file is wrong or has\n"
     "nothing of that name, 3 it could not be worked out or written.\n",
     DRAWING_OPTIONS},
    {"start", cmd_start, "FILE", 1, 0, "writes a commented starter file to change",
     "Writes a small frame with comments into FILE, which must not be there yet; - writes it\n"
     "to standard output.\n\n"
     "  trivet start rack.yaml\n",
     NULL},
    {"show", cmd_show, "FILE", 1, 0, "what was understood: sizes, weights, joints, cases",
     "Reads FILE and shows what was understood of it, in its own units.\n\n"
     "  trivet show rack.yaml\n",
     NULL},
    {"sweep", cmd_sweep, "FILE -o STORE", 1, OPERANDS_MAX - 1, "every variant, stored",
     "Reads FILE, makes every variant of what stands under vary, solves and checks each, and\n"
     "stores the answers in an SQLite file. Stopped or killed, the same call goes on.\n\n"
     "  trivet sweep rack.yaml -o runs.sqlite --workers 4\n"
     "  trivet sweep rack.yaml -o part3.sqlite --part 3/8\n"
     "  trivet sweep --merge part*.sqlite -o runs.sqlite --csv runs.csv\n"
     "  trivet sweep rack.yaml --variant 17 > one.yaml && trivet check one.yaml\n\n"
     "Exit status: 0 all are stored, 2 the file or store is wrong, 3 it could not go on.\n",
     SWEEP_OPTIONS},
    {"pick", cmd_pick, "FILE", 1, 0, "the lightest, cheapest or stiffest that holds",
     "Reads FILE and finds, among the variants of what stands under vary, the best that holds in\n"
     "every line of the verdict, with proof, the next ones, and why the better ones lost.\n\n"
     "  trivet pick rack.yaml\n"
     "  trivet pick rack.yaml --least price\n\n"
     "Exit status: 0 one was found, 1 none holds, 2 the file is wrong, 3 it could not be worked "
     "out.\n",
     PICK_OPTIONS},
    {"stock", cmd_stock, "[NAME]", 0, 0, "the built-in gauges, materials, threads, grades",
     "Lists the built-in gauges, materials, threads, grades and fillers, or shows one.\n\n"
     "  trivet stock\n"
     "  trivet stock E235\n"
     "  trivet stock M6\n"
     "  trivet stock 8.8\n"
     "  trivet stock \"16 ga BWG\"\n",
     NULL},
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
    fputs("\n  --json     the answer as JSON, in SI units\n"
          "  --help     this, or the help of a command with its own options: trivet sweep --help\n"
          "  --version  the version\n\n"
          "Begin with: trivet start rack.yaml && trivet check rack.yaml\n",
          to);
}

static void print_command_help(const command *of)
{
    printf("trivet %s %s [--json]: %s\n\n%s", of->name, of->operand, of->line, of->help);
    for (const option_row *row = of->takes; row && row->name; row++) {
        char call[64];
        snprintf(call, sizeof call, "%s %s", row->name, row->value ? row->value : "");
        printf("%s  %-18s %s\n", row == of->takes ? "\n" : "", call, row->help);
    }
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

/* What only writes to standard output has no use for -o. */
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
    const int status = options_read(words, count, COMMANDS, COMMAND_COUNT, &given, &message);
    const command *const asked =
        given.command ? command_find(COMMANDS, COMMAND_COUNT, given.command) : NULL;
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
    } else if (given.operand_count > 1 + asked->takes_second) {
        options_refuse_extra(given.operands[1 + asked->takes_second],
                             given.operands[asked->takes_second], &message);
        return fail(&given, NULL, &message);
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
