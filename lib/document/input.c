/*
 * From a path to bytes that are sure to be text. A path is opened without waiting and asked what
 * it is before anything is read, so that a pipe or a device cannot hold the program up.
 */
#define _POSIX_C_SOURCE 200809L

#include "document/input.h"

#include "base/memory.h"
#include "base/message.h"
#include "base/text.h"
#include "document/tree.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { MEBIBYTE = 1024 * 1024 };

static trivet_status refuse_path(trivet_message *message, const char *path, const char *problem,
                                 const char *remedy)
{
    return trivet__refuse(message, TRIVET_UNREADABLE, path, problem, remedy);
}

static trivet_status refuse_error(trivet_message *message, const char *path, int error)
{
    switch (error) {
    case ENOENT:
    case ENOTDIR:
        return refuse_path(message, path, "there is no such file",
                           "look at the spelling and at the folder");
    case EACCES:
    case EPERM:
        return refuse_path(message, path, "you may not read this file",
                           "ask its owner, or change its permissions");
    case EISDIR:
        return refuse_path(message, path, "is a folder", "name a file in it");
    case ENOMEM:
        return trivet__no_memory(message);
    default: {
        char reason[128];
        if (strerror_r(error, reason, sizeof reason) != 0) {
            trivet__text_copy(reason, sizeof reason, "the system does not say why");
        }
        const trivet_status status = refuse_path(message, path, "", "try a copy of it");
        trivet__message_problem(message, "cannot be read: %s", reason);
        return status;
    }
    }
}

static trivet_status refuse_length(trivet_message *message, const char *thing)
{
    const trivet_status status = refuse_path(
        message, thing, "", "this is hardly a frame; look whether it is the right file");
    trivet__message_problem(message, "is longer than %d MiB", TRIVET__TEXT_MAX / MEBIBYTE);
    return status;
}

/* Reads until the end or until the buffer is full; -1 with errno on failure. */
static ssize_t read_all(int file, char *buffer, size_t room)
{
    size_t filled = 0;
    while (filled < room) {
        const ssize_t got = read(file, buffer + filled, room - filled);
        if (got == 0) {
            break;
        }
        if (got > 0) {
            filled += (size_t)got;
        } else if (errno != EINTR) {
            return -1;
        }
    }
    return (ssize_t)filled;
}

/* Reads an open file of a known kind; grown since it was asked for its size, it is refused too. */
static trivet_status read_open(int file, const char *path, char **text_out, size_t *length_out,
                               trivet_message *message)
{
    struct stat about;
    if (fstat(file, &about) != 0) {
        return refuse_error(message, path, errno);
    }
    if (S_ISDIR(about.st_mode)) {
        return refuse_error(message, path, EISDIR);
    }
    if (!S_ISREG(about.st_mode)) {
        return refuse_path(message, path, "is not a plain file",
                           "write its contents to a file first");
    }
    if (about.st_size > (off_t)TRIVET__TEXT_MAX) {
        return refuse_length(message, path);
    }
    const size_t room = (size_t)about.st_size + 1;
    char *const text = trivet__take(room, 1);
    if (!text) {
        return trivet__no_memory(message);
    }
    const ssize_t got = read_all(file, text, room);
    if (got < 0 || (size_t)got >= room) {
        const int error = got < 0 ? errno : EBUSY;
        trivet__give_back(text);
        return refuse_error(message, path, error);
    }
    *text_out = text;
    *length_out = (size_t)got;
    return TRIVET_OK;
}

trivet_status trivet__input_read(const char *path, char **text_out, size_t *length_out,
                                 trivet_message *message)
{
    *text_out = NULL;
    *length_out = 0;
    const int file = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        return refuse_error(message, path, errno);
    }
    const trivet_status status = read_open(file, path, text_out, length_out, message);
    (void)close(file); /* nothing was written: nothing can be lost */
    return status;
}

void trivet__input_place(const char *text, size_t at, int32_t *line_out, int32_t *column_out)
{
    int32_t line = 1;
    int32_t column = 1;
    for (size_t i = 0; i < at; i++) {
        if (text[i] == '\n') {
            line++;
            column = 1;
        } else if (((unsigned char)text[i] & 0xC0U) != 0x80U) {
            column++;
        }
    }
    *line_out = line;
    *column_out = column;
}

static trivet_status refuse_byte(const char *text, size_t at, const char *problem,
                                 const char *remedy, trivet_message *message)
{
    const trivet_status status =
        trivet__refuse(message, TRIVET_BAD_SYNTAX, "the file", problem, remedy);
    if (message) {
        trivet__input_place(text, at, &message->line, &message->column);
    }
    return status;
}

/* The first byte that stands in no text: a control sign other than tab and line end. */
static int find_control(const char *text, size_t length, size_t *at_out)
{
    enum { BLANK = 0x20, DELETE = 0x7F };
    for (size_t i = 0; i < length; i++) {
        const unsigned char byte = (unsigned char)text[i];
        const int is_white = byte == '\t' || byte == '\n' || byte == '\r';
        if ((byte < BLANK && !is_white) || byte == DELETE) {
            *at_out = i;
            return 1;
        }
    }
    return 0;
}

trivet_status trivet__input_check(const char *text, size_t length, trivet_message *message)
{
    if (length > TRIVET__TEXT_MAX) {
        return refuse_length(message, "the file");
    }
    if (length == 0) {
        return trivet__refuse(message, TRIVET_INCOMPLETE, "the file", "is empty",
                              "\"trivet start FILE\" writes one to begin with");
    }
    if (length >= 2 && (memcmp(text, "\xFF\xFE", 2) == 0 || memcmp(text, "\xFE\xFF", 2) == 0)) {
        return refuse_byte(text, 0, "is text in UTF-16", "save it as UTF-8", message);
    }
    size_t control = 0;
    size_t bad = 0;
    const int has_control = find_control(text, length, &control);
    const int is_utf8 = trivet__text_is_utf8(text, length, &bad);
    if (has_control && (is_utf8 || control < bad)) {
        return refuse_byte(text, control, "holds a sign that stands in no text",
                           "look whether it is the right file, and save it as plain text", message);
    }
    if (!is_utf8) {
        return refuse_byte(text, bad, "is not UTF-8 from here on", "save it as UTF-8", message);
    }
    return TRIVET_OK;
}
