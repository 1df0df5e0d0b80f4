/*
 * Variants in words.
 */
#include "sweep_print.h"

#include "print.h"

#include <stdio.h>
#include <stdlib.h>

int read_sweep(const options *given, trivet_sweep **sweep_out)
{
    trivet_message message;
    trivet_message_clear(&message);
    const trivet_status status = trivet_sweep_read_file(given->operand, sweep_out, &message);
    return status == TRIVET_OK ? EXIT_HOLDS : fail(given, given->operand, &message);
}

void print_sweep(const trivet_sweep *sweep)
{
    const char *const name = trivet_document_name(trivet_sweep_document(sweep));
    char list[600] = "";
    for (int32_t i = 0; i < trivet_sweep_input_count(sweep); i++) {
        add_to_list(list, sizeof list, "%s", trivet_sweep_input(sweep, i, NULL));
    }
    if (name[0]) {
        print_text(name);
        putchar('\n');
    }
    const int64_t count = trivet_sweep_count(sweep);
    print_line(0, "%lld variant%s of %s", (long long)count, count == 1 ? "" : "s", list);
}

void input_text(const trivet_sweep *sweep, int32_t input, double value, char *text, size_t size)
{
    int32_t dimension = -1;
    trivet_units units = {.size = sizeof units};
    trivet_sweep_input(sweep, input, &dimension);
    trivet_document_units(trivet_sweep_document(sweep), &units);
    if (dimension == -2) {
        const char *const choice = trivet_sweep_choice(sweep, input, (int32_t)value);
        snprintf(text, size, "%s", choice ? choice : "");
    } else {
        trivet_units_text(&units, dimension < 0 ? TRIVET_NUMBER : (trivet_dimension)dimension,
                          value, 5, text, size);
    }
}

void inputs_text(const trivet_sweep *sweep, const double *values, char *text, size_t size)
{
    text[0] = '\0';
    for (int32_t i = 0; i < trivet_sweep_input_count(sweep); i++) {
        char one[160];
        input_text(sweep, i, values[i], one, sizeof one);
        add_to_list(text, size, "%s %s", trivet_sweep_input(sweep, i, NULL), one);
    }
}

int option_whole(const options *given, const char *name, int64_t least, int64_t most,
                 int64_t *value)
{
    char *end = NULL;
    const char *const text = option_value(given, name);
    if (!text) {
        return EXIT_HOLDS;
    }
    const long long read = strtoll(text, &end, 10);
    if (end != text && *end == '\0' && read >= least && read <= most) {
        *value = read;
        return EXIT_HOLDS;
    }
    trivet_message message;
    trivet_message_clear(&message);
    message.status = TRIVET_BAD_VALUE;
    snprintf(message.thing, sizeof message.thing, "option %s", name);
    snprintf(message.problem, sizeof message.problem, "\"%.100s\" is not a number that it takes",
             text);
    snprintf(message.remedy, sizeof message.remedy, "give a whole number from %lld to %lld",
             (long long)least, (long long)most);
    return fail(given, NULL, &message);
}
