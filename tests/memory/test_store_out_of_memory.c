/*
 * Sweeping into a store, reading it, CSV and merging with each request for memory failing in turn.
 *
 * usage: test_store_out_of_memory ours|all FOLDER
 * ours: SQLite is a shared library whose requests are not met; each of ours must be answered, and
 *       the call made again must succeed.
 * all:  SQLite is linked in, and some of its many requests fail too. It gets by without a few of
 *       them; whatever is answered, the store must go on from there to the same content.
 */
#define _POSIX_C_SOURCE 200809L

#include "every_request.h"
#include "failing_heap.h"

#include "sweep/store.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* In the place of the C library's: no power fails here, so no disk need be waited for. */
int fsync(int file)
{
    (void)file;
    return 0;
}

int fdatasync(int file)
{
    (void)file;
    return 0;
}

enum { ROWS = 12, CUT = 5, BATCH = 4, PATH_BYTES = 512 };

static char whole_path[PATH_BYTES], first_path[PATH_BYTES], second_path[PATH_BYTES],
    merged_path[PATH_BYTES];

static void remove_store(const char *path)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        char name[PATH_BYTES + 16];
        snprintf(name, sizeof name, "%s%s", path, endings[i]);
        remove(name);
    }
}

static void remove_all(void)
{
    remove_store(whole_path);
    remove_store(first_path);
    remove_store(second_path);
    remove_store(merged_path);
}

static trivet__run_head head_of(int64_t first, int64_t end)
{
    static const char *const names[] = {"reach", "rail"};
    static const int32_t kinds[] = {TRIVET__INPUT_NUMBER, TRIVET__INPUT_CHOICE};
    static const int32_t dimensions[] = {TRIVET_LENGTH, TRIVET_NUMBER};
    static const char *const rails[] = {"20 x 2", "25 x 2"};
    static const char *const *const choices[] = {NULL, rails};
    static const int32_t counts[] = {0, 2};
    return (trivet__run_head){.file_text = "trivet: 1",
                              .file_length = 9,
                              .settings = "all",
                              .version = TRIVET_VERSION,
                              .variant_count = ROWS,
                              .first = first,
                              .end = end,
                              .input_count = 2,
                              .input_names = names,
                              .input_kinds = kinds,
                              .input_dimensions = dimensions,
                              .choice_counts = counts,
                              .choices = choices};
}

/* Puts the next batch of a store: a row and a check each, of its number alone. */
static trivet_status put_batch(trivet__store *store, trivet_message *message)
{
    static const char *const cases[] = {"parked", "two-up", "road"};
    static double inputs[BATCH][2];
    trivet__variant_row rows[BATCH];
    trivet__check_row checks[BATCH];
    const int64_t next = trivet__store_next(store);
    int32_t count = 0;
    for (; count < BATCH && next + count < trivet__store_head(store)->end; count++) {
        const int64_t number = next + count;
        inputs[count][0] = 0.01 * (double)number;
        inputs[count][1] = (double)(number % 2);
        rows[count] = (trivet__variant_row){number,         inputs[count], "",
                                            TRIVET__SOLVED, {1, 0, 2},     {0.5, (double)NAN, 0.9},
                                            "yield",        "rail",        cases[number % 3],
                                            0.001,          2.5,           (double)NAN,
                                            400.0};
        checks[count] = (trivet__check_row){number, "droop", "rail", cases[number % 3], 0.9};
    }
    return trivet__store_put(store, rows, count, checks, count, message);
}

static uint64_t hash_now(attempt *try, trivet__store *store, trivet_status *status)
{
    uint64_t hash = 0;
    ATTEMPT(try, *status, trivet__store_hash(store, &hash, &try->message));
    return hash;
}

/* Sweeps a part into path, to its end; the hash of what is there, or 0 if it was given up. */
static uint64_t sweep(attempt *try, const char *path, int64_t first, int64_t end)
{
    const trivet__run_head head = head_of(first, end);
    trivet__store *store = NULL;
    trivet_status status = TRIVET_OK;
    uint64_t hash = 0;
    ATTEMPT(try, status, trivet__store_open(path, &head, &store, &try->message));
    attempt_needs((status == TRIVET_OK) == (store != NULL), "half-made store");
    while (status == TRIVET_OK && trivet__store_next(store) < end) {
        const int64_t next = trivet__store_next(store);
        ATTEMPT(try, status, put_batch(store, &try->message));
        attempt_needs(status == TRIVET_OK || trivet__store_next(store) == next,
                      "a refused batch moved the store");
    }
    if (status == TRIVET_OK && !trivet__store_is_finished(store)) {
        ATTEMPT(try, status, trivet__store_finish(store, &try->message));
    }
    if (status == TRIVET_OK) {
        hash = hash_now(try, store, &status);
    }
    trivet__store_free(store);
    return status == TRIVET_OK ? hash : 0;
}

static trivet_status count_bytes(void *user, const char *text, size_t length,
                                 trivet_message *message)
{
    (void)text;
    (void)message;
    *(uint64_t *)user += length;
    return TRIVET_OK;
}

/* The hash and the length of the CSV of a store that is read. */
static uint64_t read_back(attempt *try, const char *path)
{
    trivet__store *store = NULL;
    trivet_status status = TRIVET_OK;
    uint64_t hash = 0;
    uint64_t length = 0;
    ATTEMPT(try, status, trivet__store_read(path, &store, &try->message));
    if (status == TRIVET_OK) {
        hash = hash_now(try, store, &status);
    }
    if (status == TRIVET_OK) {
        do {
            length = 0;
            status = trivet__store_csv(store, NULL, count_bytes, &length, &try->message);
        } while (status != TRIVET_OK && attempt_again(try, status));
    }
    trivet__store_free(store);
    return status == TRIVET_OK ? hash ^ length << 1U : 0;
}

static uint64_t merge(attempt *try)
{
    const char *const parts[] = {second_path, first_path};
    trivet_status status = TRIVET_OK;
    ATTEMPT(try, status, trivet__store_merge(merged_path, parts, 2, &try->message));
    return status == TRIVET_OK ? 1 : 0;
}

/* All of it, on what is there. */
static uint64_t go_on(attempt *try)
{
    uint64_t got = sweep(try, whole_path, 0, ROWS);
    got = got ? sweep(try, first_path, 0, CUT) : 0;
    got = got ? sweep(try, second_path, CUT, ROWS) : 0;
    got = got ? merge(try) : 0;
    const uint64_t merged = got ? read_back(try, merged_path) : 0;
    const uint64_t whole = merged ? read_back(try, whole_path) : 0;
    attempt_needs(!whole || whole == merged, "the merged store differs from that of one sweep");
    return whole;
}

static uint64_t start_anew(attempt *try)
{
    remove_all();
    return go_on(try);
}

/*
 * With SQLite's own requests among them; some it can do without. There are tens of thousands, much
 * alike: one in STRIDE fails, a prime, so that it does not fall into step with the rows.
 */
static void fail_any_request(void)
{
    enum { STRIDE = 101 };
    attempt first = {0};
    const uint64_t wanted = start_anew(&first); /* what SQLite keeps for the whole process */
    heap_start(0);
    attempt_needs(wanted != 0 && start_anew(&first) == wanted, "the work does not repeat itself");
    const long requests = heap_requests();
    attempt_needs(requests > 1000, "fewer requests than expected: is SQLite linked in?");
    printf("sweep, merge, read with SQLite: %ld requests\n", requests);
    long refusals = 0;
    long failures = 0;
    for (long n = 1; n <= requests; n += STRIDE) {
        attempt try = {0};
        heap_start(n);
        const uint64_t got = start_anew(&try);
        attempt_needs(got == wanted || (got == 0 && try.refusals == 1),
                      "was neither answered nor done without");
        attempt_needs(heap_blocks_held() == 0, "left memory that was not given back");
        refusals += try.refusals;
        failures++;
        heap_start(0);
        attempt after = {0};
        attempt_needs(go_on(&after) == wanted, "the stores do not go on from there");
    }
    printf("%ld failed, %ld of them answered\n", failures, refusals);
    attempt_needs(refusals > failures / 2, "hardly any failure was answered");
}

int main(int count, char **arguments)
{
    attempt_needs(count == 3, "usage: test_store_out_of_memory ours|all FOLDER");
    snprintf(whole_path, sizeof whole_path, "%s/whole.sqlite", arguments[2]);
    snprintf(first_path, sizeof first_path, "%s/first.sqlite", arguments[2]);
    snprintf(second_path, sizeof second_path, "%s/second.sqlite", arguments[2]);
    snprintf(merged_path, sizeof merged_path, "%s/merged.sqlite", arguments[2]);
    if (strcmp(arguments[1], "all") == 0) {
        fail_any_request();
    } else {
        attempt_every_request("sweep, merge, read", start_anew, 20);
    }
    remove_all();
    return 0;
}
