/*
 * Layout of plain text, and the one way in which every subcommand says that it failed.
 */
#include "print.h"

#include <trivet/checks.h>
#include <trivet/document.h>

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { WIDTH = 80, WIDTH_LEAST = 40, WIDTH_MOST = 120 };

int print_width(void)
{
    struct winsize size;
    if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
        const int columns = size.ws_col;
        return columns < WIDTH_LEAST ? WIDTH_LEAST : columns > WIDTH_MOST ? WIDTH_MOST : columns;
    }
    return WIDTH;
}

/* Colour on a terminal, unless the user said that none is wanted (the NO_COLOR convention). */
static int has_colour(void)
{
    const char *const refused = getenv("NO_COLOR");
    return isatty(STDOUT_FILENO) && !(refused && refused[0]);
}

int text_width(const char *text)
{
    int width = 0;
    for (; *text; text++) {
        width += ((unsigned char)*text & 0xC0U) != 0x80U;
    }
    return width;
}

/* Bytes of the control character at text (of ASCII, or U+0080 to U+009F), 0 if it is none. */
static int control_length(const char *text)
{
    const unsigned char first = (unsigned char)text[0];
    const unsigned char second = first ? (unsigned char)text[1] : 0;
    if ((first < 0x20U && first != '\n') || first == 0x7FU) {
        return 1;
    }
    return first == 0xC2U && second >= 0x80U && second < 0xA0U ? 2 : 0;
}

static void write_clean(FILE *to, const char *text)
{
    while (*text) {
        const int control = control_length(text);
        putc(control ? '?' : *text, to);
        text += control ? control : 1;
    }
}

void print_text(const char *text)
{
    write_clean(stdout, text);
}

void print_heading(const char *text)
{
    const int colour = has_colour();
    fputs(colour ? "\n\033[1m" : "\n", stdout);
    print_text(text);
    fputs(colour ? "\033[0m\n" : "\n", stdout);
}

static void print_blanks(int count)
{
    for (int i = 0; i < count; i++) {
        putchar(' ');
    }
}

void print_wrapped(int at, int indent, const char *text)
{
    const int width = print_width();
    int column = at;
    int is_first = 1;
    while (*text) {
        const size_t blanks = strspn(text, " \n");
        const size_t length = strcspn(text + blanks, " \n");
        if (length == 0) {
            break;
        }
        char word[512];
        const size_t kept = length < sizeof word ? length : sizeof word - 1;
        memcpy(word, text + blanks, kept);
        word[kept] = '\0';
        const int wide = text_width(word);
        const int gap = is_first ? 0 : (int)(blanks > 2 ? 2 : blanks);
        if (!is_first && column + gap + wide > width) {
            putchar('\n');
            print_blanks(indent);
            column = indent;
        } else {
            print_blanks(gap);
            column += gap;
        }
        print_text(word);
        column += wide;
        is_first = 0;
        text += blanks + kept;
    }
    putchar('\n');
}

void print_line(int indent, const char *format, ...)
{
    char text[2048];
    va_list values;
    va_start(values, format);
    if (vsnprintf(text, sizeof text, format, values) < 0) {
        text[0] = '\0';
    }
    va_end(values);
    print_blanks(indent);
    print_wrapped(indent, indent + 2, text);
}

void print_verdict(int32_t verdict, int width)
{
    static const char *const COLOURS[] = {"\033[36m", "\033[32m", "\033[33m", "\033[35m",
                                          "\033[31m"};
    char word[32];
    const char *const text = trivet_verdict_text(verdict);
    size_t i = 0;
    for (; text[i] && i + 1 < sizeof word; i++) {
        word[i] = (char)(text[i] >= 'a' && text[i] <= 'z' ? text[i] - 'a' + 'A' : text[i]);
    }
    word[i] = '\0';
    const int colour = has_colour() && verdict >= 0 && verdict <= TRIVET_FAILS;
    printf("%s%s%s", colour ? COLOURS[verdict] : "", word, colour ? "\033[0m" : "");
    print_blanks(width - (int)i);
}

void add_to_list(char *list, size_t size, const char *format, ...)
{
    size_t used = strlen(list);
    if (used > 0) {
        snprintf(list + used, size - used, ", ");
        used = strlen(list);
    }
    va_list values;
    va_start(values, format);
    if (vsnprintf(list + used, size - used, format, values) < 0) {
        list[used] = '\0';
    }
    va_end(values);
}

/* Prints JSON with a newline behind it, and frees it. */
static void give_json(char *text)
{
    const size_t length = strlen(text);
    fputs(text, stdout);
    if (length == 0 || text[length - 1] != '\n') {
        putchar('\n');
    }
    trivet_text_free(text);
}

void print_json_string(const char *text)
{
    putchar('"');
    for (; *text; text++) {
        const unsigned char byte = (unsigned char)*text;
        if (byte == '"' || byte == '\\') {
            printf("\\%c", byte);
        } else if (byte < 0x20U) {
            printf("\\u%04x", byte);
        } else {
            putchar(byte);
        }
    }
    putchar('"');
}

int print_json(const options *given, const char *path, trivet_status status, char *json,
               const trivet_message *message)
{
    if (status != TRIVET_OK) {
        return fail(given, path, message);
    }
    give_json(json);
    return EXIT_HOLDS;
}

int fail(const options *given, const char *path, const trivet_message *message)
{
    char text[1024];
    trivet_message_text(message, text, sizeof text);
    /* A message about the file itself names it already. */
    const int names_path = path && strncmp(message->thing, path, sizeof message->thing - 1) == 0;
    fputs("trivet: ", stderr);
    if (path && !names_path) {
        write_clean(stderr, path);
        fputs(": ", stderr);
    }
    write_clean(stderr, text);
    putc('\n', stderr);
    if (given->is_json) {
        char *json = NULL;
        if (trivet_message_json(message, &json) == TRIVET_OK) {
            give_json(json);
        }
    }
    return trivet_status_exit(message->status);
}

int fail_status(const options *given, const char *path, trivet_status status)
{
    trivet_message message;
    trivet_message_clear(&message);
    message.status = (int32_t)status;
    snprintf(message.problem, sizeof message.problem, "%s", trivet_status_text((int32_t)status));
    return fail(given, path, &message);
}

const char *line_word(int32_t line)
{
    static const char *const WORDS[TRIVET_LINE_COUNT] = {"overload", "cracking", "service"};
    return line >= 0 && line < TRIVET_LINE_COUNT ? WORDS[line] : "";
}
