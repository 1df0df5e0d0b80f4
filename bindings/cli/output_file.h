/*
 * Writing files: whole or not at all.
 */
#ifndef TRIVET_CLI_OUTPUT_FILE_H
#define TRIVET_CLI_OUTPUT_FILE_H

#include <stddef.h>
#include <sys/types.h>

/* Writes all bytes and sees to it that they are on the disk. Returns 0 or the error. */
int write_all(int file, const char *bytes, size_t length);

/* The permissions that a new file gets. */
mode_t new_file_mode(void);

/* A file on its way: what it will be called, and what it is called until then. */
typedef struct output_file {
    char *path;      /* where a link leads, if the path is one */
    char *temporary; /* beside it; NULL if it is no ordinary file, which is written straight into */
} output_file;

/* Writes the bytes beside path, or straight into it if that is a device or a pipe. Returns 0 or the
 * error; then nothing is left. */
int output_prepare(const char *path, const char *bytes, size_t length, output_file *out);

/* Puts the finished file in the place of what had its name before. Returns 0 or the error. */
int output_finish(const output_file *of);

/* Takes away what was not finished, and forgets it. Zeros are ignored. */
void output_drop(output_file *of);

#endif
