/*
 * Options are few and the same for every subcommand, so one reader does for all.
 */
#include "options.h"

#include <stdio.h>
#include <string.h>

static const char *const KNOWN[] = {"--json", "--help", "-h", "--version", NULL};

enum { WORD_MAX = 32 };

/* Letters to change, add or drop between two words (Levenshtein 1966), of 32 letters at most. */
static int distance_of(const char *one, const char *other)
{
    int row[WORD_MAX + 1];
    const int n = (int)strnlen(one, WORD_MAX);
    const int m = (int)strnlen(other, WORD_MAX);
    for (int j = 0; j <= m; j++) {
        row[j] = j;
    }
    for (int i = 1; i <= n; i++) {
        int corner = row[0];
        row[0] = i;
        for (int j = 1; j <= m; j++) {
            const int changed = corner + (one[i - 1] != other[j - 1]);
            const int longer = (row[j] < row[j - 1] ? row[j] : row[j - 1]) + 1;
            corner = row[j];
            row[j] = changed < longer ? changed : longer;
        }
    }
    return row[m];
}

const char *nearest_word(const char *wish, const char *const *candidates)
{
    const char *nearest = NULL;
    int least = 4; /* three letters off may still be meant */
    for (int i = 0; candidates[i]; i++) {
        const int distance = distance_of(wish, candidates[i]);
        if (distance < least && distance < (int)strlen(candidates[i]) / 2 + 1) {
            least = distance;
            nearest = candidates[i];
        }
    }
    return nearest;
}

static const option_row *find_option(const command *of, const char *word)
{
    for (const option_row *row = of ? of->takes : NULL; row && row->name; row++) {
        const size_t length = strlen(row->name);
        if (strncmp(row->name, word, length) == 0 &&
            (word[length] == '\0' || (row->value && word[length] == '='))) {
            return row;
        }
    }
    return NULL;
}

/* An option that other commands take, and this one does not. Returns -1. */
static int refuse_option_of_others(const command *of, const char *word, const command *commands,
                                   int command_count, trivet_message *message)
{
    trivet_message_clear(message);
    message->status = TRIVET_BAD_KEY;
    snprintf(message->thing, sizeof message->thing, "option %.100s", word);
    snprintf(message->problem, sizeof message->problem, "is none of trivet %s", of->name);
    size_t at =
        (size_t)snprintf(message->remedy, sizeof message->remedy, "leave it out; these take it:");
    const char *separator = "";
    for (int i = 0; i < command_count && at < sizeof message->remedy; i++) {
        if (find_option(&commands[i], word)) {
            at += (size_t)snprintf(message->remedy + at, sizeof message->remedy - at, "%s %s",
                                   separator, commands[i].name);
            separator = ",";
        }
    }
    return -1;
}

static int is_option_of_any(const command *commands, int command_count, const char *word)
{
    for (int i = 0; i < command_count; i++) {
        if (find_option(&commands[i], word)) {
            return 1;
        }
    }
    return 0;
}

static int refuse_option(const command *of, const char *word, trivet_message *message)
{
    const char *known[NAMED_MAX + sizeof KNOWN / sizeof KNOWN[0]] = {NULL};
    size_t count = 0;
    for (; KNOWN[count]; count++) {
        known[count] = KNOWN[count];
    }
    for (const option_row *row = of ? of->takes : NULL; row && row->name; row++) {
        known[count++] = row->name;
    }
    const char *const nearest = nearest_word(word, known);
    trivet_message_clear(message);
    message->status = TRIVET_BAD_KEY;
    snprintf(message->thing, sizeof message->thing, "option %.100s", word);
    snprintf(message->problem, sizeof message->problem, "is not known");
    if (nearest) {
        snprintf(message->remedy, sizeof message->remedy, "did you mean %s?", nearest);
    } else {
        snprintf(message->remedy, sizeof message->remedy, "use --json, --help or --version");
    }
    return -1;
}

int options_refuse_extra(const char *word, const char *before, trivet_message *message)
{
    trivet_message_clear(message);
    message->status = TRIVET_BAD_KEY;
    snprintf(message->thing, sizeof message->thing, "%.120s", word);
    snprintf(message->problem, sizeof message->problem, "is one too many after %.200s", before);
    snprintf(message->remedy, sizeof message->remedy, "give one at a time");
    return -1;
}

static int refuse_named(const option_row *row, const char *problem, trivet_message *message)
{
    trivet_message_clear(message);
    message->status = TRIVET_INCOMPLETE;
    snprintf(message->thing, sizeof message->thing, "option %.100s", row->name);
    snprintf(message->problem, sizeof message->problem, "%s", problem);
    snprintf(message->remedy, sizeof message->remedy, "write %s%s%s", row->name,
             row->value ? " " : "", row->value ? row->value : " once");
    return -1;
}

const char *option_value(const options *given, const char *name)
{
    for (int i = 0; i < given->named_count; i++) {
        if (strcmp(given->names[i], name) == 0) {
            return given->values[i];
        }
    }
    return NULL;
}

const command *command_find(const command *commands, int count, const char *name)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(commands[i].name, name) == 0) {
            return &commands[i];
        }
    }
    return NULL;
}

/* A value behind an option: "-" may be one, other words with a dash in front are options. */
static int is_value(const char *const *words, int count, int at)
{
    return at < count && (words[at][0] != '-' || words[at][1] == '\0');
}

/* An option of the command's own at words[*at]; *at moves past its value. */
static int read_named(const option_row *row, const char *const *words, int count, int *at,
                      options *out, trivet_message *message)
{
    if (option_value(out, row->name) || out->named_count == NAMED_MAX) {
        return refuse_named(row, "stands twice", message);
    }
    const char *const own = words[*at] + strlen(row->name); /* "=value", or nothing */
    if (row->value && own[0] == '\0' && !is_value(words, count, *at + 1)) {
        return refuse_named(row, "has no value", message);
    }
    out->names[out->named_count] = row->name;
    out->values[out->named_count++] = !row->value ? "" : own[0] == '=' ? own + 1 : words[++*at];
    return 0;
}

static int read_operand(const char *word, options *out, trivet_message *message)
{
    if (!out->command) {
        out->command = word;
        return 0;
    }
    if (out->operand_count == OPERANDS_MAX) {
        return options_refuse_extra(word, out->operands[OPERANDS_MAX - 1], message);
    }
    out->operands[out->operand_count++] = word;
    out->operand = out->operands[0];
    out->second = out->operands[1];
    return 0;
}

/* One of the options that all commands take; 0 if it is none. */
static int read_common(const char *word, options *out)
{
    out->is_json |= strcmp(word, "--json") == 0;
    out->wants_help |= strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0;
    out->wants_version |= strcmp(word, "--version") == 0;
    for (int i = 0; KNOWN[i]; i++) {
        if (strcmp(KNOWN[i], word) == 0) {
            return 1;
        }
    }
    return 0;
}

int options_read(const char *const *words, int count, const command *commands, int command_count,
                 options *out, trivet_message *message)
{
    int status = 0;
    int only_operands = 0;
    const command *of = NULL;
    memset(out, 0, sizeof *out);
    for (int i = 0; i < count; i++) {
        const char *const word = words[i];
        const option_row *const row = find_option(of, word);
        int one = 0;
        if (only_operands || word[0] != '-' || word[1] == '\0') {
            one = read_operand(word, out, message);
            of = out->command ? command_find(commands, command_count, out->command) : NULL;
        } else if (strcmp(word, "--") == 0) {
            only_operands = 1;
        } else if (row) {
            one = read_named(row, words, count, &i, out, message);
        } else if (!read_common(word, out) && status == 0) {
            one = of && is_option_of_any(commands, command_count, word)
                      ? refuse_option_of_others(of, word, commands, command_count, message)
                      : refuse_option(of, word, message);
        }
        status = status != 0 ? status : one;
    }
    return status;
}
