/*
 * Plain text on standard output: headings, wrapped lines, colour on a terminal. ASCII but for the
 * user's own names; control characters in those are shown as '?'.
 */
#ifndef TRIVET_CLI_PRINT_H
#define TRIVET_CLI_PRINT_H

#include "command.h"

#include <stddef.h>

#if defined(__GNUC__) || defined(__clang__)
#define FORMAT(text, first) __attribute__((format(printf, text, first)))
#else
#define FORMAT(text, first)
#endif

/* Columns of the terminal, 80 if there is none. */
int print_width(void);

/* Characters of UTF-8 text, not bytes. */
int text_width(const char *text);

/* The text as it is, control characters but newlines made harmless. */
void print_text(const char *text);

/* A line of its own with an empty one before it. */
void print_heading(const char *text);

/*
 * Text wrapped at blanks: the cursor stands at column at; later lines begin at indent. Ends with a
 * newline.
 */
void print_wrapped(int at, int indent, const char *text);

/* A formatted line, wrapped, with an indent for all of it and two columns more after the first. */
void print_line(int indent, const char *format, ...) FORMAT(2, 3);

/* Words of a verdict in capitals, in colour on a terminal, padded to a width (0: not at all). */
void print_verdict(int32_t verdict, int width);

/* Adds a formatted part to a list "a, b" of at most size bytes, cut where it is full. */
void add_to_list(char *list, size_t size, const char *format, ...) FORMAT(3, 4);

/* A JSON string with its quotes. */
void print_json_string(const char *text);

/*
 * Prints JSON that the library made and frees it; says what went wrong if status is one of failure.
 * path as below. Returns the exit status.
 */
int print_json(const options *given, const char *path, trivet_status status, char *json,
               const trivet_message *message);

/* "overload", "cracking", "service": a trivet_line in one word. */
const char *line_word(int32_t line);

/*
 * Says on standard error what went wrong, in JSON on standard output too if that was asked for.
 * path: the file it is about; NULL if none. Returns the exit status.
 */
int fail(const options *given, const char *path, const trivet_message *message);

/* The same for a call that gave a status and no message. */
int fail_status(const options *given, const char *path, trivet_status status);

#endif
