/*
 * Bad files: every NAME.yaml in tests/cli/bad gives exactly the line in NAME.err. Those that no
 * repository should hold are made here.
 */
#define _POSIX_C_SOURCE 200809L

#include "trivet/document.h"

#include "support/run.h"

#include <check.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LINE_MAX_BYTES = 2048, FEWEST_PAIRS = 60 };

static char folder[] = "/tmp/trivet-bad-XXXXXX";

static void make_folder(void)
{
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void remove_folder(void)
{
    ck_assert_int_eq(rmdir(folder), 0);
}

/* Reads a file that must be refused; the complaint as a line, without the path before it. */
static int32_t complaint_of(const char *path, char line[LINE_MAX_BYTES])
{
    trivet_message message;
    trivet_document *document = NULL;
    const trivet_status status = trivet_document_read_file(path, &document, &message);
    ck_assert_msg(status != TRIVET_OK, "%s was accepted", path);
    ck_assert_ptr_null(document);
    ck_assert_int_eq(message.status, status);
    trivet_message_text(&message, line, LINE_MAX_BYTES);
    return (int32_t)status;
}

static void check_pair(const char *data)
{
    char path[1024];
    char got[LINE_MAX_BYTES];
    char want[LINE_MAX_BYTES] = "";
    snprintf(path, sizeof path, "%s", data);
    const int32_t status = complaint_of(path, got);
    ck_assert_msg(trivet_status_exit(status) == 2, "%s: status %d is not about input", data,
                  (int)status);
    memcpy(path + strlen(path) - strlen(".yaml"), ".err", sizeof ".err");
    FILE *const file = fopen(path, "r");
    ck_assert_msg(file != NULL, "%s is missing", path);
    ck_assert_msg(fgets(want, sizeof want, file) != NULL, "%s is empty", path);
    fclose(file);
    want[strcspn(want, "\n")] = '\0';
    ck_assert_msg(strcmp(got, want) == 0, "%s\n  says:  %s\n  wanted: %s", data, got, want);
}

START_TEST(every_bad_file_gives_its_line)
{
    const char *const where = SOURCE_ROOT "/tests/cli/bad";
    DIR *const directory = opendir(where);
    ck_assert_ptr_nonnull(directory);
    int count = 0;
    for (const struct dirent *entry = readdir(directory); entry; entry = readdir(directory)) {
        const size_t length = strlen(entry->d_name);
        if (length > 5 && strcmp(entry->d_name + length - 5, ".yaml") == 0) {
            char path[1024];
            snprintf(path, sizeof path, "%s/%s", where, entry->d_name);
            check_pair(path);
            count++;
        }
    }
    closedir(directory);
    ck_assert_int_ge(count, FEWEST_PAIRS);
}
END_TEST

/* Makes a file of these bytes in our folder and gives its path. */
static void make_file(const char *name, const void *bytes, size_t length, char path[256])
{
    snprintf(path, 256, "%s/%s", folder, name);
    FILE *const file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

/* Reads what was made, takes it away, and compares everything behind the path. */
static void check_made(const char *path, trivet_status status, const char *rest)
{
    char line[LINE_MAX_BYTES];
    const int32_t got = complaint_of(path, line);
    const char *const behind = strncmp(line, path, strlen(path)) == 0 ? line + strlen(path) : line;
    ck_assert_str_eq(behind, rest);
    ck_assert_int_eq(got, status);
}

static void check_bytes(const char *name, const void *bytes, size_t length, trivet_status status,
                        const char *rest)
{
    char path[256];
    make_file(name, bytes, length, path);
    check_made(path, status, rest);
    ck_assert_int_eq(unlink(path), 0);
}

START_TEST(files_that_are_no_text_are_refused)
{
    make_folder();
    check_bytes("empty", "", 0, TRIVET_INCOMPLETE,
                "the file: is empty; \"trivet start FILE\" writes one to begin with");
    check_bytes("binary",
                "\x7f"
                "ELF\2\1\1\0\0\0",
                10, TRIVET_BAD_SYNTAX,
                "line 1, column 1: the file: holds a sign that stands in no text; look whether it "
                "is the right file, and save it as plain text");
    check_bytes("zero", "trivet: 1\nname: a\0b\n", 20, TRIVET_BAD_SYNTAX,
                "line 2, column 8: the file: holds a sign that stands in no text; look whether it "
                "is the right file, and save it as plain text");
    check_bytes("latin",
                "trivet: 1\nname: Gep\xe4"
                "cktr\xe4ger\n",
                26, TRIVET_BAD_SYNTAX,
                "line 2, column 10: the file: is not UTF-8 from here on; save it as UTF-8");
    check_bytes("overlong", "name: \xc0\xaf\n", 9, TRIVET_BAD_SYNTAX,
                "line 1, column 7: the file: is not UTF-8 from here on; save it as UTF-8");
    check_bytes("utf16", "\xff\xfet\0r\0i\0", 8, TRIVET_BAD_SYNTAX,
                "line 1, column 1: the file: is text in UTF-16; save it as UTF-8");
    remove_folder();
}
END_TEST

START_TEST(what_is_no_file_is_refused)
{
    char path[256];
    make_folder();
    check_made(folder, TRIVET_UNREADABLE, ": is a folder; name a file in it");
    snprintf(path, sizeof path, "%s/pipe", folder);
    ck_assert_int_eq(mkfifo(path, 0600), 0);
    check_made(path, TRIVET_UNREADABLE,
               ": is not a plain file; write its contents to a file first");
    ck_assert_int_eq(unlink(path), 0);
    check_made(path, TRIVET_UNREADABLE,
               ": there is no such file; look at the spelling and at the folder");
    remove_folder();
}
END_TEST

START_TEST(a_file_of_100_MB_is_refused_unread)
{
    char path[256];
    make_folder();
    make_file("long", "trivet: 1\n", 10, path);
    ck_assert_int_eq(truncate(path, 100 * 1000 * 1000), 0);
    check_made(
        path, TRIVET_UNREADABLE,
        ": is longer than 16 MiB; this is hardly a frame; look whether it is the right file");
    ck_assert_int_eq(unlink(path), 0);
    remove_folder();
}
END_TEST

START_TEST(a_file_without_permission_is_refused)
{
    char path[256];
    if (geteuid() == 0) {
        return; /* nothing is forbidden to this user */
    }
    make_folder();
    make_file("closed", "trivet: 1\n", 10, path);
    ck_assert_int_eq(chmod(path, 0), 0);
    check_made(path, TRIVET_UNREADABLE,
               ": you may not read this file; ask its owner, or change its permissions");
    ck_assert_int_eq(unlink(path), 0);
    remove_folder();
}
END_TEST

START_TEST(text_that_is_too_long_or_too_rich_is_refused)
{
    enum { LONG = 16 * 1024 * 1024 + 1, RICH = 3 * 1000 * 1000 };
    trivet_message message;
    trivet_document *document = NULL;
    char *const text = malloc(LONG);
    ck_assert_ptr_nonnull(text);
    memset(text, ' ', LONG);
    ck_assert_int_eq(trivet_document_read_text(text, LONG, &document, &message), TRIVET_UNREADABLE);
    ck_assert_str_eq(message.problem, "is longer than 16 MiB");
    for (int i = 0; i < RICH; i++) {
        text[i] = i == 0 ? '[' : i % 2 ? '1' : ',';
    }
    ck_assert_int_eq(trivet_document_read_text(text, RICH, &document, &message), TRIVET_BAD_SYNTAX);
    for (int i = RICH; i < 2 * RICH; i++) {
        text[i] = i % 2 ? '1' : ',';
    }
    ck_assert_int_eq(trivet_document_read_text(text, 2 * RICH, &document, &message),
                     TRIVET_BAD_VALUE);
    ck_assert_str_eq(message.problem, "holds more than 2000000 values");
    free(text);
}
END_TEST

START_TEST(deep_text_is_refused_early)
{
    enum { DEEP = 8 * 1000 * 1000 };
    static const char *const openings[] = {"[", "{a: ", "- ", "? ", "a:\n "};
    trivet_message message;
    trivet_document *document = NULL;
    char *const text = malloc(DEEP + 8);
    ck_assert_ptr_nonnull(text);
    for (size_t i = 0; i < sizeof openings / sizeof openings[0]; i++) {
        size_t length = 0;
        while (length < DEEP) {
            const size_t piece = strlen(openings[i]);
            memcpy(text + length, openings[i], piece);
            length += piece;
        }
        ck_assert_int_ne(trivet_document_read_text(text, length, &document, &message), TRIVET_OK);
        ck_assert_ptr_null(document);
    }
    free(text);
}
END_TEST

START_TEST(missing_arguments_are_told)
{
    trivet_message message;
    trivet_document *document = NULL;
    ck_assert_int_eq(trivet_document_read_file(NULL, &document, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_document_read_file("x", NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_document_read_text(NULL, 0, &document, &message),
                     TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_document_read_text("x", 1, NULL, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet_document_read_text("x", 1, &document, NULL), TRIVET_BAD_SYNTAX);
    trivet_document_free(NULL);
}
END_TEST

int main(void)
{
    return run_tests("bad files",
                     TESTS(every_bad_file_gives_its_line, files_that_are_no_text_are_refused,
                           what_is_no_file_is_refused, a_file_of_100_MB_is_refused_unread,
                           a_file_without_permission_is_refused,
                           text_that_is_too_long_or_too_rich_is_refused, deep_text_is_refused_early,
                           missing_arguments_are_told));
}
