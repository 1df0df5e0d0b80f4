/*
 * Files that are no store, stores of other runs, places that cannot be written, rows that do not
 * fit: each is answered, and what was there stays as it was.
 */
#define _DEFAULT_SOURCE

#include "store_place.h"
#include "sweep/store.h"
#include "sweep_rows.h"

#include "support/refused.h"
#include "support/run.h"

#include <check.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { ROWS = 600 };

/* Opens path for the made-up sweep, which must be refused in these words after the path. */
static void open_refused(const char *path, const trivet__run_head *head, trivet_status status,
                         const char *words)
{
    char text[1024];
    trivet_message message = {0};
    trivet__store *store = NULL;
    snprintf(text, sizeof text, "%s: %s", path, words);
    refused(trivet__store_open(path, head, &store, &message), status, &message, text);
    ck_assert_ptr_null(store);
}

/* ---- Other runs ---- */

#define ANOTHER "; give another name for the store, or delete this one to sweep anew"

START_TEST(store_of_another_run_is_refused_by_what_differs)
{
    static const char other_file[] = "trivet: 1\nname: another\n";
    static const char *const other_names[] = {"reach", "half", "wall", "=brace", "rail", "mass"};
    trivet__store *const store = place_open(ROWS);
    place_feed(store, 100, 30);
    trivet__store_free(store);
    const uint64_t before = place_hash("runs.sqlite");
    const char *const path = place_path("runs.sqlite");
    trivet__run_head head = made_head(ROWS, 0, ROWS);
    head.version = "9.9.9";
    open_refused(path, &head, TRIVET_BAD_VALUE,
                 "this store was made by version " TRIVET_VERSION
                 ", this is version 9.9.9" ANOTHER);
    head = made_head(ROWS, 0, ROWS);
    head.file_text = other_file;
    head.file_length = sizeof other_file - 1;
    open_refused(
        path, &head, TRIVET_BAD_VALUE,
        "this store was made from another input file, or the file has been changed" ANOTHER);
    head = made_head(ROWS, 0, ROWS);
    head.settings = "latin square, seed 3";
    open_refused(path, &head, TRIVET_BAD_VALUE,
                 "this store was made with other settings: all combinations; every case; wanted: "
                 "latin square, seed 3" ANOTHER);
    head = made_head(ROWS, 0, ROWS / 2);
    open_refused(
        path, &head, TRIVET_BAD_VALUE,
        "this store is of the part from variant 0 up to 600; wanted is 0 up to 300" ANOTHER);
    head = made_head(2 * ROWS, 0, ROWS);
    open_refused(path, &head, TRIVET_BAD_VALUE,
                 "this store is of another sweep: 6 inputs, 600 variants; wanted: 6 inputs, 1200 "
                 "variants" ANOTHER);
    head = made_head(ROWS, 0, ROWS);
    head.input_names = other_names;
    open_refused(path, &head, TRIVET_BAD_VALUE,
                 "this store is of another sweep: 6 inputs, 600 variants; wanted: 6 inputs, 600 "
                 "variants" ANOTHER);
    ck_assert_uint_eq(place_hash("runs.sqlite"), before);
}
END_TEST

/* ---- Files that are no store ---- */

static void write_file(const char *path, const char *bytes, size_t length)
{
    FILE *const file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

static size_t read_file(const char *path, char *bytes, size_t size)
{
    FILE *const file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    const size_t length = fread(bytes, 1, size, file);
    fclose(file);
    return length;
}

START_TEST(file_that_is_no_store_is_left_untouched)
{
    static char bytes[8192];
    static char after[sizeof bytes + 1];
    const size_t lengths[] = {1, 15, 100, 512, 5000, sizeof bytes};
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    for (int has_magic = 0; has_magic < 2; has_magic++) {
        memset(bytes, 'x', sizeof bytes);
        if (has_magic) {
            memcpy(bytes, "SQLite format 3", 16);
        }
        for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
            const char *const path = place_path("notes.txt");
            trivet_message message = {0};
            trivet__store *store = NULL;
            write_file(path, bytes, lengths[i]);
            open_refused(
                path, &head, TRIVET_UNREADABLE,
                "this is no store of a sweep; give another name; the file was left as it is");
            ck_assert_int_eq(trivet__store_read(path, &store, &message), TRIVET_UNREADABLE);
            ck_assert_uint_eq(read_file(path, after, sizeof after), lengths[i]);
            ck_assert_mem_eq(after, bytes, lengths[i]);
            ck_assert(!place_has("notes.txt-journal") && !place_has("notes.txt-wal"));
        }
    }
}
END_TEST

START_TEST(empty_file_becomes_a_store)
{
    trivet_message message = {0};
    trivet__store *store = NULL;
    write_file(place_path("runs.sqlite"), "", 0);
    ck_assert_int_eq(trivet__store_read(place_path("runs.sqlite"), &store, &message),
                     TRIVET_UNREADABLE);
    ck_assert_str_eq(message.problem, "this is no store of a sweep");
    store = place_open(ROWS);
    place_feed(store, ROWS, 100);
    place_finish(store);
}
END_TEST

START_TEST(names_with_signs_in_them_are_just_names)
{
    static const char *const names[] = {"a?mode=ro", "b#c", "d%41", ":memory:", "e f", "g\xC3\xBC"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        ck_assert(!place_has(names[i]));
        place_part(names[i], ROWS, 0, ROWS);
        ck_assert(place_has(names[i]));
    }
    /* A relative name is one of the folder at hand, whatever SQLite calls by it. */
    ck_assert_int_eq(chdir(place_path("")), 0);
    remove(":memory:");
    trivet_message message = {0};
    trivet__store *store = NULL;
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    fine(trivet__store_open(":memory:", &head, &store, &message), &message);
    ck_assert(place_has(":memory:"));
    trivet__store_free(store);
}
END_TEST

START_TEST(damaged_stores_are_answered)
{
    enum { STEP = 61, PAGE = 4096 };
    static char whole[1 << 19];
    trivet__store *store = place_open(ROWS);
    place_feed(store, ROWS, 100);
    place_finish(store);
    const char *const path = place_path("runs.sqlite");
    const size_t length = read_file(path, whole, sizeof whole);
    ck_assert_uint_lt(length, sizeof whole);
    int answered = 0;
    for (size_t at = 100; at < length; at += PAGE / 4 + STEP) {
        trivet_message message = {0};
        uint64_t hash = 0;
        char kept[STEP];
        memcpy(kept, whole + at, sizeof kept);
        memset(whole + at, 0xEE, at + STEP < length ? STEP : length - at);
        write_file(path, whole, length);
        trivet_status status = trivet__store_read(path, &store, &message);
        if (!status) {
            status = trivet__store_hash(store, &hash, &message);
        }
        answered += status == TRIVET_UNREADABLE;
        ck_assert(!status || status == TRIVET_UNREADABLE || status == TRIVET_NO_MEMORY);
        trivet__store_free(store);
        memcpy(whole + at, kept, sizeof kept);
    }
    ck_assert_int_gt(answered, 0);
    /* Cut off in the middle. */
    write_file(path, whole, length / 2);
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    trivet_message message = {0};
    trivet_status status = trivet__store_open(path, &head, &store, &message);
    if (!status) {
        uint64_t hash = 0;
        status = trivet__store_hash(store, &hash, &message);
    }
    ck_assert_int_eq(status, TRIVET_UNREADABLE);
    trivet__store_free(store);
}
END_TEST

/* ---- Two at a time ---- */

START_TEST(second_sweep_is_kept_out)
{
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    trivet__store *const store = place_open(ROWS);
    const char *const path = place_path("runs.sqlite");
    for (int64_t end = 0; end < ROWS; end += 150) {
        place_feed(store, end, 50);
        open_refused(
            path, &head, TRIVET_UNWRITABLE,
            "another sweep is writing into this store; wait until it is done, or give this "
            "one a store of its own");
    }
    place_feed(store, ROWS, 50);
    const uint64_t hash = place_finish(store);
    ck_assert_uint_eq(place_hash("runs.sqlite"), hash);
}
END_TEST

/* ---- Places that cannot be written ---- */

#define NO_PLACE                                                                                   \
    "this file cannot be written; choose a folder that is there and in which you may write"

START_TEST(places_that_cannot_be_written)
{
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    write_file(place_path("file"), "x", 1);
    open_refused(place_path("no such folder/runs.sqlite"), &head, TRIVET_UNWRITABLE, NO_PLACE);
    open_refused(place_path("file/runs.sqlite"), &head, TRIVET_UNWRITABLE, NO_PLACE);
    open_refused(place_path(""), &head, TRIVET_UNWRITABLE, NO_PLACE);
    open_refused("/proc/runs.sqlite", &head, TRIVET_UNWRITABLE, NO_PLACE);
    trivet_message message = {0};
    trivet__store *store = NULL;
    refused(trivet__store_open("", &head, &store, &message), TRIVET_BAD_VALUE, &message,
            "the store: its file has no name; give the name of a file");
}
END_TEST

/* Runs work in a process of its own, as a user without rights if it has any; 0 if all went well. */
static int in_child(int drops_rights, int (*work)(void))
{
    const pid_t child = fork();
    ck_assert_int_ge(child, 0);
    if (child == 0) {
        if (drops_rights && geteuid() == 0 && setuid(65534) != 0) {
            _exit(99);
        }
        _exit(work());
    }
    int how = 0;
    ck_assert_int_eq(waitpid(child, &how, 0), child);
    return WIFEXITED(how) ? WEXITSTATUS(how) : 98;
}

static int open_without_rights(void)
{
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    trivet_message message = {0};
    trivet__store *store = NULL;
    uint64_t hash = 0;
    if (trivet__store_open(place_path("runs.sqlite"), &head, &store, &message) !=
            TRIVET_UNWRITABLE ||
        strcmp(message.problem, "this file cannot be written") != 0) {
        return 1;
    }
    if (trivet__store_open(place_path("new.sqlite"), &head, &store, &message) !=
            TRIVET_UNWRITABLE ||
        strcmp(message.problem, "this file cannot be written") != 0) {
        return 2;
    }
    /* What may only be read can still be read. */
    if (trivet__store_read(place_path("runs.sqlite"), &store, &message) != TRIVET_OK ||
        trivet__store_hash(store, &hash, &message) != TRIVET_OK || hash == 0) {
        return 3;
    }
    trivet__store_free(store);
    return 0;
}

START_TEST(file_and_folder_that_may_only_be_read)
{
    place_part("runs.sqlite", ROWS, 0, ROWS);
    ck_assert_int_eq(chmod(place_path("runs.sqlite"), 0444), 0);
    ck_assert_int_eq(chmod(place_path(""), 0555), 0);
    const int failed = in_child(1, open_without_rights);
    ck_assert_int_eq(chmod(place_path(""), 0755), 0);
    ck_assert_int_eq(failed, 0);
}
END_TEST

/* ---- A disk that fills up ---- */

static int limit_files(rlim_t bytes)
{
    struct rlimit limit;
    signal(SIGXFSZ, SIG_IGN);
    if (getrlimit(RLIMIT_FSIZE, &limit) != 0) {
        return 0;
    }
    limit.rlim_cur = bytes;
    return setrlimit(RLIMIT_FSIZE, &limit) == 0;
}

static rlim_t room;

/* No file may grow beyond room: some batch is refused, and goes in when there is room again. */
static int fill_up(void)
{
    const trivet__run_head head = made_head(ROWS, 0, ROWS);
    trivet_message message = {0};
    trivet__store *store = NULL;
    int refusals = 0;
    if (!limit_files(room)) {
        return 97;
    }
    trivet_status status = trivet__store_open(place_path("runs.sqlite"), &head, &store, &message);
    if (status == TRIVET_OK) {
        status = feed_rows(store, ROWS, 20, 1, &message);
    } else {
        refusals = 1;
        if (status != TRIVET_UNWRITABLE || store || !limit_files(RLIM_INFINITY)) {
            return 1;
        }
        status = trivet__store_open(place_path("runs.sqlite"), &head, &store, &message);
    }
    if (status == TRIVET_UNWRITABLE && refusals == 0) {
        const int64_t next = trivet__store_next(store);
        refusals = 1;
        if (next % 20 != 0 || feed_rows(store, ROWS, 20, 1, &message) != TRIVET_UNWRITABLE ||
            trivet__store_next(store) != next || !limit_files(RLIM_INFINITY)) {
            return 2;
        }
        status = TRIVET_OK;
    }
    if (status || feed_rows(store, ROWS, 20, 1, &message)) {
        return 3;
    }
    status = trivet__store_finish(store, &message);
    if (status == TRIVET_UNWRITABLE) {
        refusals++;
        if (!limit_files(RLIM_INFINITY)) {
            return 4;
        }
        status = trivet__store_finish(store, &message);
    }
    trivet__store_free(store);
    return status ? 5 : refusals > 0 ? 0 : 96;
}

START_TEST(full_disk_is_answered_and_the_store_goes_on)
{
    static const rlim_t rooms[] = {0, 3000, 20000, 60000, 80000, 90000, 120000, 200000};
    trivet__store *const store = place_open(ROWS);
    place_feed(store, ROWS, 100);
    const uint64_t wanted = place_finish(store);
    for (size_t i = 0; i < sizeof rooms / sizeof rooms[0]; i++) {
        remove(place_path("runs.sqlite"));
        room = rooms[i];
        const int failed = in_child(0, fill_up);
        ck_assert_msg(failed == 0, "with room for %lld bytes: step %d", (long long)room, failed);
        ck_assert_uint_eq(place_hash("runs.sqlite"), wanted);
    }
}
END_TEST

/* ---- Rows that do not fit ---- */

START_TEST(rows_that_do_not_fit_change_nothing)
{
    trivet_message message = {0};
    trivet__store *const store = place_open(3);
    made_row made[4];
    trivet__variant_row rows[4];
    trivet__check_row check;
    for (int i = 0; i < 4; i++) {
        make_row(i, &made[i]);
        rows[i] = made[i].row;
    }
    ck_assert_int_eq(trivet__store_put(store, rows + 1, 1, NULL, 0, &message), TRIVET_BAD_ORDER);
    ck_assert_str_eq(message.problem, "variant 1: it is not the one that comes next");
    ck_assert_int_eq(trivet__store_put(store, rows, 4, NULL, 0, &message), TRIVET_BAD_ORDER);
    ck_assert_str_eq(message.problem, "variant 3: it is not the one that comes next");
    const trivet__variant_row twice[] = {rows[0], rows[0]};
    ck_assert_int_eq(trivet__store_put(store, twice, 2, NULL, 0, &message), TRIVET_BAD_ORDER);
    made[1].inputs[4] = 4.0;
    ck_assert_int_eq(trivet__store_put(store, rows, 2, NULL, 0, &message), TRIVET_BAD_INDEX);
    made[1].inputs[4] = (double)NAN;
    ck_assert_int_eq(trivet__store_put(store, rows, 2, NULL, 0, &message), TRIVET_BAD_INDEX);
    make_row(1, &made[1]);
    rows[1].outcome = 3;
    ck_assert_int_eq(trivet__store_put(store, rows, 2, NULL, 0, &message), TRIVET_BAD_INDEX);
    rows[1] = made[1].row;
    check = (trivet__check_row){2, "yield", "rail", "parked", 0.5};
    ck_assert_int_eq(trivet__store_put(store, rows, 2, &check, 1, &message), TRIVET_BAD_ORDER);
    ck_assert_int_eq(trivet__store_next(store), 0);
    ck_assert_int_eq(trivet__store_finish(store, &message), TRIVET_BAD_ORDER);
    ck_assert_str_eq(message.problem, "3 variants are still missing");
    place_feed(store, 3, 2);
    const uint64_t hash = place_finish(store);
    remove(place_path("runs.sqlite"));
    trivet__store *const straight = place_open(3);
    place_feed(straight, 3, 3);
    ck_assert_uint_eq(place_finish(straight), hash);
}
END_TEST

START_TEST(heads_that_make_no_sense)
{
    trivet_message message = {0};
    trivet__store *store = NULL;
    trivet__run_head head = made_head(0, 0, 0);
    const char *const path = place_path("runs.sqlite");
    refused(trivet__store_open(path, &head, &store, &message), TRIVET_BAD_VALUE, &message,
            "the sweep: it has no variants; vary less, or split the sweep into parts that fit");
    head = made_head(10, 4, 11);
    refused(
        trivet__store_open(path, &head, &store, &message), TRIVET_BAD_VALUE, &message,
        "the sweep: the part from variant 4 up to 11 is none of 0 to 10; vary less, or split the "
        "sweep into parts that fit");
    head = made_head(10, 0, 10);
    head.input_count = TRIVET__INPUTS_MAX + 1;
    refused(trivet__store_open(path, &head, &store, &message), TRIVET_BAD_VALUE, &message,
            "the sweep: it varies 201 inputs, at most 200 can be stored; vary less, or split the "
            "sweep into parts that fit");
    head = made_head(10, 0, 10);
    head.choices = NULL;
    ck_assert_int_eq(trivet__store_open(path, &head, &store, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert_int_eq(trivet__store_open(NULL, &head, &store, &message), TRIVET_MISSING_ARGUMENT);
    ck_assert(!place_has("runs.sqlite"));
    trivet__store_free(NULL);
}
END_TEST

int main(void)
{
    TCase *const tests = TESTS(
        store_of_another_run_is_refused_by_what_differs, file_that_is_no_store_is_left_untouched,
        empty_file_becomes_a_store, names_with_signs_in_them_are_just_names,
        damaged_stores_are_answered, second_sweep_is_kept_out, places_that_cannot_be_written,
        file_and_folder_that_may_only_be_read, full_disk_is_answered_and_the_store_goes_on,
        rows_that_do_not_fit_change_nothing, heads_that_make_no_sense);
    tcase_add_checked_fixture(tests, place_make, place_remove);
    return run_tests("what a store refuses", tests);
}
