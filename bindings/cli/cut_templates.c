/*
 * Templates as files, each under its own name.
 */
#include "cut_page.h"

#include <trivet/shop.h>

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static trivet_status refuse(trivet_message *message, trivet_status status, const char *path,
                            const char *problem)
{
    trivet_message_clear(message);
    message->status = (int32_t)status;
    snprintf(message->thing, sizeof message->thing, "%.150s", path);
    snprintf(message->problem, sizeof message->problem, "%s", problem);
    snprintf(message->remedy, sizeof message->remedy, "choose a place where you may write");
    return status;
}

/* Writes text into a temporary file beside path, then gives it its name. Returns 0 or the error. */
static int write_file(const char *path, const char *text)
{
    static const char ENDING[] = ".part";
    char *const temporary = malloc(strlen(path) + sizeof ENDING);
    if (!temporary) {
        return ENOMEM;
    }
    sprintf(temporary, "%s%s", path, ENDING); /* NOLINT: the room was measured */
    FILE *const file = fopen(temporary, "w");
    int error = file ? 0 : errno;
    if (file) {
        const int failed = fputs(text, file) < 0;
        error = failed ? errno : 0;
        if (fclose(file) != 0 && error == 0) {
            error = errno;
        }
        if (error == 0 && rename(temporary, path) != 0) {
            error = errno;
        }
        if (error != 0) {
            unlink(temporary);
        }
    }
    free(temporary);
    return error;
}

static trivet_status write_one(const trivet_cuts *cuts, int32_t piece, int32_t end,
                               const char *folder, trivet_message *message)
{
    char name[512];
    const size_t length = trivet_cuts_template_svg(cuts, piece, end, NULL, 0);
    trivet_cuts_template_name(cuts, piece, end, name, sizeof name);
    char *const text = malloc(length + 1);
    char *const path = malloc(strlen(folder) + sizeof name + 2);
    trivet_status status = TRIVET_NO_MEMORY;
    if (text && path) {
        sprintf(path, "%s/%s", folder, name); /* NOLINT: the room was measured */
        trivet_cuts_template_svg(cuts, piece, end, text, length + 1);
        const int error = write_file(path, text);
        status = error == 0 ? TRIVET_OK : refuse(message, TRIVET_UNWRITABLE, path, strerror(error));
    } else {
        refuse(message, TRIVET_NO_MEMORY, folder, "there is not enough memory");
    }
    free(text);
    free(path);
    return status;
}

trivet_status write_templates(const trivet_cuts *cuts, const char *folder, int *count_out,
                              trivet_message *message)
{
    *count_out = 0;
    if (mkdir(folder, 0777) != 0 && errno != EEXIST) {
        return refuse(message, TRIVET_UNWRITABLE, folder, strerror(errno));
    }
    for (int32_t p = 0; p < trivet_cuts_count(cuts); p++) {
        trivet_cut_piece piece = {.size = sizeof piece};
        if (trivet_cuts_piece(cuts, p, &piece) != TRIVET_OK) {
            continue;
        }
        for (int32_t end = 0; end < 2; end++) {
            if (!piece.ends[end].has_template) {
                continue;
            }
            const trivet_status status = write_one(cuts, p, end, folder, message);
            if (status != TRIVET_OK) {
                return status;
            }
            ++*count_out;
        }
    }
    return TRIVET_OK;
}
