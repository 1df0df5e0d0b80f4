/*
 * A text under its name: what was there before stays until the new one is complete.
 */
#include "written.h"

#include "options.h"
#include "output_file.h"
#include "print.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

static int refuse(const options *given, trivet_status status, const char *thing,
                  const char *problem, const char *remedy)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = (int32_t)status;
    snprintf(message.thing, sizeof message.thing, "%.150s", thing);
    snprintf(message.problem, sizeof message.problem, "%.300s", problem);
    snprintf(message.remedy, sizeof message.remedy, "%.300s", remedy);
    return fail(given, NULL, &message);
}

static int needs_output(const options *given, const char *name, const char *example)
{
    char thing[64];
    char remedy[160];
    if (option_value(given, "-o")) {
        return EXIT_HOLDS;
    }
    snprintf(thing, sizeof thing, "trivet %s", name);
    snprintf(remedy, sizeof remedy, "say where to: trivet %s rack.yaml -o %s", name, example);
    return refuse(given, TRIVET_INCOMPLETE, thing, "needs a file to write", remedy);
}

/* The result column of a name; -1 if there is none. Offers the nearest in the message. */
static trivet_status find_case(const solved *all, const char *name, int32_t *case_out,
                               trivet_message *message)
{
    enum { MOST = 256 };
    const char *names[MOST + 1] = {NULL};
    for (int32_t c = 0; c < trivet_result_case_count(all->result); c++) {
        const char *const column = trivet_frame_column_name(all->frame, c);
        if (strcmp(column, name) == 0) {
            *case_out = c;
            return TRIVET_OK;
        }
        if (c < MOST) {
            names[c] = column;
        }
    }
    const char *const nearest = nearest_word(name, names);
    trivet_message_clear(message);
    message->status = TRIVET_BAD_NAME;
    snprintf(message->thing, sizeof message->thing, "case %.120s", name);
    snprintf(message->problem, sizeof message->problem, "there is no case of that name");
    if (nearest) {
        snprintf(message->remedy, sizeof message->remedy, "did you mean %.120s?", nearest);
    } else {
        snprintf(message->remedy, sizeof message->remedy, "see what trivet show lists");
    }
    return TRIVET_BAD_NAME;
}

trivet_status written_pick(const options *given, const solved *all, int32_t *case_out,
                           int32_t *tube_out, trivet_message *message)
{
    trivet_status status = TRIVET_OK;
    *case_out = -1;
    *tube_out = -1;
    if (option_value(given, "--case")) {
        status = find_case(all, option_value(given, "--case"), case_out, message);
    }
    if (option_value(given, "--tube") && status == TRIVET_OK) {
        status = trivet_frame_find(all->frame, TRIVET_KIND_TUBE, option_value(given, "--tube"),
                                   tube_out, message);
    }
    return status;
}

/* Returns 0 or the error. */
static int write_whole(const char *path, const char *text)
{
    output_file file;
    int error = output_prepare(path, text, strlen(text), &file);
    if (error == 0) {
        error = output_finish(&file);
        output_drop(&file);
    }
    return error;
}

static int give(const options *given, const char *text)
{
    if (strcmp(option_value(given, "-o"), "-") == 0) {
        if (given->is_json) {
            return refuse(given, TRIVET_BAD_KEY, "-o -", "what is written is no JSON",
                          "leave out --json, or give the name of a file");
        }
        fputs(text, stdout);
        return EXIT_HOLDS;
    }
    const int error = write_whole(option_value(given, "-o"), text);
    if (error != 0) {
        return refuse(given, error == ENOMEM ? TRIVET_NO_MEMORY : TRIVET_UNWRITABLE,
                      option_value(given, "-o"), strerror(error),
                      "choose a place where you may write");
    }
    if (given->is_json) {
        fputs("{\"written\": ", stdout);
        print_json_string(option_value(given, "-o"));
        fputs("}\n", stdout);
    } else {
        print_text(option_value(given, "-o"));
        puts(" is written.");
    }
    return EXIT_HOLDS;
}

int written_run(const options *given, const char *name, const char *example, written_maker *make)
{
    solved all;
    trivet_message message;
    char *text = NULL;
    int exit_status = needs_output(given, name, example);
    if (exit_status != EXIT_HOLDS) {
        return exit_status;
    }
    memset(&all, 0, sizeof all);
    trivet_message_clear(&message);
    trivet_status status = solved_make(given->operand, &all, &message);
    if (status == TRIVET_OK) {
        status = make(given, &all, &text, &message);
    }
    exit_status = status == TRIVET_OK ? give(given, text) : solved_fail(given, status, &message);
    trivet_text_free(text);
    solved_free(&all);
    return exit_status;
}
