/*
 * Options are few and the same for every subcommand, so one reader does for all.
 */
#include "options.h"

#include <stdio.h>
#include <string.h>

static const char *const KNOWN[] = {"--json", "--help", "-h",     "--version",
                                    "-o",     "--case", "--tube", NULL};

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

static int refuse_option(const char *word, trivet_message *message)
{
    const char *const nearest = nearest_word(word, KNOWN);
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

static int refuse_without_value(const char *word, trivet_message *message)
{
    trivet_message_clear(message);
    message->status = TRIVET_INCOMPLETE;
    snprintf(message->thing, sizeof message->thing, "option %.100s", word);
    snprintf(message->problem, sizeof message->problem, "says nothing");
    snprintf(message->remedy, sizeof message->remedy, "put %s behind it",
             strcmp(word, "-o") == 0       ? "the name of the file to write"
             : strcmp(word, "--case") == 0 ? "the name of a case"
                                           : "the name of a tube");
    return -1;
}

/* The word behind an option, or behind its "=". Returns 0, or -1 if there is none. */
static int read_value(const char *const *words, int count, int *at, const char *name,
                      const char **value_out, trivet_message *message)
{
    const char *const own = words[*at] + strlen(name);
    if (own[0] == '=') {
        *value_out = own + 1;
    } else if (*at + 1 < count) {
        *value_out = words[++*at];
    }
    return *value_out && (*value_out)[0] ? 0 : refuse_without_value(name, message);
}

/* The place of an option's value; NULL if the word is no option that has one. */
static const char **value_of(options *out, const char *word, const char **name_out)
{
    static const char *const NAMES[] = {"-o", "--case", "--tube"};
    const char **const values[] = {&out->output, &out->in_case, &out->tube};
    for (int i = 0; i < 3; i++) {
        const size_t length = strlen(NAMES[i]);
        if (strncmp(word, NAMES[i], length) == 0 && (word[length] == '\0' || word[length] == '=')) {
            *name_out = NAMES[i];
            return values[i];
        }
    }
    return NULL;
}

int options_read(const char *const *words, int count, options *out, trivet_message *message)
{
    int status = 0;
    int only_operands = 0;
    memset(out, 0, sizeof *out);
    for (int i = 0; i < count; i++) {
        const char *const word = words[i];
        const char *name = NULL;
        const char **const value = only_operands ? NULL : value_of(out, word, &name);
        if (value) {
            trivet_message later; /* the first complaint stands */
            const int read =
                read_value(words, count, &i, name, value, status == 0 ? message : &later);
            status = status == 0 ? read : status;
        } else if (only_operands || word[0] != '-' || word[1] == '\0') {
            if (!out->command) {
                out->command = word;
            } else if (!out->operand) {
                out->operand = word;
            } else if (!out->second) {
                out->second = word;
            } else if (status == 0) {
                status = options_refuse_extra(word, out->second, message);
            }
        } else if (strcmp(word, "--") == 0) {
            only_operands = 1;
        } else if (strcmp(word, "--json") == 0) {
            out->is_json = 1;
        } else if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            out->wants_help = 1;
        } else if (strcmp(word, "--version") == 0) {
            out->wants_version = 1;
        } else if (status == 0) {
            status = refuse_option(word, message);
        }
    }
    return status;
}
