/*
 * Writing files: first beside their place, then by one rename into it.
 */
#include "output_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int write_all(int file, const char *bytes, size_t length)
{
    while (length > 0) {
        const ssize_t written = write(file, bytes, length);
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written <= 0) {
            return written < 0 ? errno : EIO;
        }
        bytes += written;
        length -= (size_t)written;
    }
    /* A device or a pipe has nothing to bring to the disk. */
    return fsync(file) == 0 || errno == EINVAL || errno == ENOTSUP || errno == EROFS ? 0 : errno;
}

mode_t new_file_mode(void)
{
    const mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* The path with an ending, in memory of its own; NULL without memory. */
static char *path_with(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t more = strlen(ending);
    char *const whole = malloc(length + more + 1);
    if (whole) {
        memcpy(whole, path, length);
        memcpy(whole + length, ending, more);
        whole[length + more] = '\0';
    }
    return whole;
}

/* Writes and closes. A file that was there keeps its permissions. */
static int fill(int file, const char *bytes, size_t length, mode_t mode)
{
    int error = write_all(file, bytes, length);
    if (error == 0 && mode != 0 && fchmod(file, mode) != 0) {
        error = errno;
    }
    if (close(file) != 0 && error == 0) {
        error = errno;
    }
    return error;
}

static int write_straight(const char *path, const char *bytes, size_t length)
{
    const int file = open(path, O_WRONLY);
    return file < 0 ? errno : fill(file, bytes, length, 0);
}

int output_prepare(const char *path, const char *bytes, size_t length, output_file *out)
{
    struct stat there;
    const int is_there = stat(path, &there) == 0;
    *out = (output_file){NULL, NULL};
    if (is_there && !S_ISREG(there.st_mode)) {
        return S_ISDIR(there.st_mode) ? EISDIR : write_straight(path, bytes, length);
    }
    out->path = is_there ? realpath(path, NULL) : path_with(path, "");
    out->temporary = out->path ? path_with(out->path, ".XXXXXX") : NULL;
    if (!out->temporary) {
        const int error = errno;
        output_drop(out);
        return error;
    }
    const int file = mkstemp(out->temporary);
    int error = file < 0 ? errno : 0;
    if (error != 0) {
        out->temporary[0] = '\0'; /* nothing was made that could be taken away */
    } else {
        error =
            fill(file, bytes, length, is_there ? there.st_mode & (mode_t)07777 : new_file_mode());
    }
    if (error != 0) {
        output_drop(out);
    }
    return error;
}

int output_finish(const output_file *of)
{
    return !of->temporary || rename(of->temporary, of->path) == 0 ? 0 : errno;
}

void output_drop(output_file *of)
{
    if (of->temporary && of->temporary[0]) {
        unlink(of->temporary);
    }
    free(of->temporary);
    free(of->path);
    *of = (output_file){NULL, NULL};
}
