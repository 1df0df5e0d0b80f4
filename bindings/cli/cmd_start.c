/*
 * trivet start FILE: a starter file, whole or not at all, and never over a file that is there.
 */
#include "command.h"
#include "output_file.h"
#include "print.h"

#include <trivet/document.h>

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int refuse(const options *given, trivet_status status, const char *problem,
                  const char *remedy)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = (int32_t)status;
    snprintf(message.problem, sizeof message.problem, "%s", problem);
    snprintf(message.remedy, sizeof message.remedy, "%s", remedy);
    return fail(given, given->operand, &message);
}

static int refuse_error(const options *given, int error)
{
    if (error == EEXIST) {
        return refuse(given, TRIVET_BAD_NAME, "is there already",
                      "give a new name; trivet start writes over nothing");
    }
    return refuse(given, TRIVET_UNWRITABLE, strerror(error), "choose a place where you may write");
}

/* Gives the finished temporary file its name, unless that is taken. Returns 0 or the error. */
static int give_name(const char *temporary, const char *path)
{
    if (link(temporary, path) == 0) {
        return unlink(temporary) == 0 ? 0 : errno;
    }
    if (errno != EPERM && errno != ENOTSUP && errno != EMLINK && errno != ENOSYS) {
        return errno;
    }
    /* A file system without hard links: claim the name first, then put the file over the claim. */
    const int claim = open(path, O_WRONLY | O_CREAT | O_EXCL, 0666);
    if (claim < 0) {
        return errno;
    }
    close(claim);
    if (rename(temporary, path) == 0) {
        return 0;
    }
    const int error = errno;
    unlink(path);
    return error;
}

static int write_starter(const char *path, const char *text)
{
    static const char ENDING[] = ".XXXXXX";
    struct stat there;
    if (lstat(path, &there) == 0) {
        return EEXIST;
    }
    char *const temporary = malloc(strlen(path) + sizeof ENDING);
    if (!temporary) {
        return ENOMEM;
    }
    strcpy(temporary, path);   /* NOLINT: the room was measured above */
    strcat(temporary, ENDING); /* NOLINT: likewise */
    int error = 0;
    const int file = mkstemp(temporary);
    if (file < 0) {
        error = errno;
        free(temporary);
        return error;
    }
    error = write_all(file, text, strlen(text));
    if (error == 0 && fchmod(file, new_file_mode()) != 0) {
        error = errno;
    }
    if (close(file) != 0 && error == 0) {
        error = errno;
    }
    if (error == 0) {
        error = give_name(temporary, path);
    }
    if (error != 0) {
        unlink(temporary);
    }
    free(temporary);
    return error;
}

int cmd_start(const options *given)
{
    const char *const text = trivet_starter_text();
    if (strcmp(given->operand, "-") == 0) {
        if (given->is_json) {
            return refuse(given, TRIVET_BAD_KEY, "the starter itself is no JSON",
                          "leave out --json");
        }
        fputs(text, stdout);
        return EXIT_HOLDS;
    }
    const int error = write_starter(given->operand, text);
    if (error != 0) {
        return refuse_error(given, error);
    }
    if (given->is_json) {
        fputs("{\"written\": ", stdout);
        print_json_string(given->operand);
        fputs("}\n", stdout);
    } else {
        print_text(given->operand);
        fputs(" is written. Change it, then: trivet check ", stdout);
        print_text(given->operand);
        putchar('\n');
    }
    return EXIT_HOLDS;
}
