/*
 * What goes into a store comes out of it, whatever the batches and however often it was stopped.
 */
#define _POSIX_C_SOURCE 200809L

#include "store_place.h"
#include "sweep/store.h"
#include "sweep_rows.h"

#include "support/run.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/* ---- Content ---- */

static void same_bits(double got, double want, int64_t number)
{
    uint64_t got_bits = 0;
    uint64_t want_bits = 0;
    memcpy(&got_bits, &got, sizeof got);
    memcpy(&want_bits, &want, sizeof want);
    ck_assert_msg(isnan(got) ? isnan(want) : got_bits == want_bits,
                  "variant %lld: %.17g, wanted %.17g", (long long)number, got, want);
}

typedef struct seen {
    int64_t rows;
    int64_t checks;     /* of the variant at hand */
    int64_t check_rows; /* of all */
    int64_t variant;
} seen;

static trivet_status look_at_row(void *user, const trivet__variant_row *row,
                                 trivet_message *message)
{
    (void)message;
    seen *const s = user;
    made_row want;
    make_row(s->rows, &want);
    ck_assert_int_eq(row->number, s->rows);
    ck_assert_int_eq(row->outcome, want.row.outcome);
    for (int i = 0; i < MADE_INPUTS; i++) {
        same_bits(row->inputs[i], want.inputs[i], row->number);
    }
    for (int i = 0; i < 3; i++) {
        ck_assert_int_eq(row->verdicts[i], want.row.verdicts[i]);
        same_bits(row->used[i], want.row.used[i], row->number);
    }
    ck_assert_str_eq(row->reason, want.reason);
    ck_assert_str_eq(row->governs_check, want.row.governs_check);
    ck_assert_str_eq(row->governs_where, want.row.governs_where);
    ck_assert_str_eq(row->governs_case, want.row.governs_case);
    same_bits(row->droop, want.row.droop, row->number);
    same_bits(row->mass, want.row.mass, row->number);
    same_bits(row->price, want.row.price, row->number);
    same_bits(row->mount_force, want.row.mount_force, row->number);
    s->rows++;
    return TRIVET_OK;
}

static trivet_status look_at_check(void *user, const trivet__check_row *row,
                                   trivet_message *message)
{
    (void)message;
    seen *const s = user;
    trivet__check_row want[MADE_CHECKS_MOST];
    if (row->number != s->variant) {
        s->variant = row->number;
        s->checks = 0;
    }
    const int32_t count = make_checks(row->number, want);
    ck_assert_int_lt(s->checks, count);
    ck_assert_str_eq(row->check, want[s->checks].check);
    ck_assert_str_eq(row->where, want[s->checks].where);
    ck_assert_str_eq(row->in_case, want[s->checks].in_case);
    same_bits(row->used, want[s->checks].used, row->number);
    s->checks++;
    s->check_rows++;
    return TRIVET_OK;
}

enum { ROWS = 700 };

START_TEST(rows_and_checks_come_back_bit_for_bit)
{
    trivet_message message = {0};
    trivet__store *store = place_open(ROWS);
    place_feed(store, ROWS, 64);
    place_finish(store);
    fine(trivet__store_read(place_path("runs.sqlite"), &store, &message), &message);
    ck_assert(trivet__store_is_finished(store));
    ck_assert_int_eq(trivet__store_next(store), ROWS);
    seen s = {0, 0, 0, -1};
    fine(trivet__store_rows(store, look_at_row, &s, &message), &message);
    fine(trivet__store_checks(store, look_at_check, &s, &message), &message);
    ck_assert_int_eq(s.rows, ROWS);
    int64_t wanted = 0;
    for (int64_t i = 0; i < ROWS; i++) {
        trivet__check_row checks[MADE_CHECKS_MOST];
        wanted += make_checks(i, checks);
    }
    ck_assert_int_eq(s.check_rows, wanted);
    trivet__store_free(store);
}
END_TEST

START_TEST(head_comes_back)
{
    trivet__store *const store = place_open(ROWS);
    const trivet__run_head want = made_head(ROWS, 0, ROWS);
    const trivet__run_head *const got = trivet__store_head(store);
    ck_assert_uint_eq(got->file_length, want.file_length);
    ck_assert_mem_eq(got->file_text, want.file_text, want.file_length);
    ck_assert_str_eq(got->settings, want.settings);
    ck_assert_str_eq(got->version, want.version);
    ck_assert_int_eq(got->input_count, MADE_INPUTS);
    for (int i = 0; i < MADE_INPUTS; i++) {
        ck_assert_str_eq(got->input_names[i], want.input_names[i]);
        ck_assert_int_eq(got->input_kinds[i], want.input_kinds[i]);
        ck_assert_int_eq(got->input_dimensions[i], want.input_dimensions[i]);
        ck_assert_int_eq(got->choice_counts[i], want.choice_counts[i]);
        for (int k = 0; k < want.choice_counts[i]; k++) {
            ck_assert_str_eq(got->choices[i][k], want.choices[i][k]);
        }
    }
    trivet__store_free(store);
}
END_TEST

START_TEST(batches_and_stops_do_not_change_the_content)
{
    trivet__store *store = place_open(ROWS);
    place_feed(store, ROWS, ROWS);
    const uint64_t wanted = place_finish(store);
    remove(place_path("runs.sqlite"));
    store = place_open(ROWS);
    place_feed(store, ROWS, 1);
    ck_assert_uint_eq(place_finish(store), wanted);
    remove(place_path("runs.sqlite"));
    for (int64_t stop = 0; stop < ROWS; stop += 93) {
        store = place_open(ROWS);
        ck_assert_int_eq(trivet__store_next(store), stop > 0 ? stop - 93 : 0);
        place_feed(store, stop, 17);
        trivet__store_free(store);
    }
    store = place_open(ROWS);
    place_feed(store, ROWS, 50);
    ck_assert_uint_eq(place_finish(store), wanted);
}
END_TEST

START_TEST(any_change_changes_the_hash)
{
    uint64_t hashes[3] = {0};
    for (int i = 0; i < 3; i++) {
        trivet_message message = {0};
        trivet__store *const store = place_open(2);
        made_row made[2];
        make_row(0, &made[0]);
        make_row(1, &made[1]);
        if (i == 1) {
            made[1].inputs[0] = nextafter(made[1].inputs[0], 1.0);
        } else if (i == 2) {
            made[1].row.governs_case = "another case";
        }
        const trivet__variant_row rows[] = {made[0].row, made[1].row};
        fine(trivet__store_put(store, rows, 2, NULL, 0, &message), &message);
        hashes[i] = place_finish(store);
        remove(place_path("runs.sqlite"));
    }
    ck_assert_uint_ne(hashes[0], hashes[1]);
    ck_assert_uint_ne(hashes[0], hashes[2]);
    ck_assert_uint_ne(hashes[1], hashes[2]);
}
END_TEST

START_TEST(finished_store_is_one_plain_file)
{
    trivet_message message = {0};
    trivet__store *store = place_open(ROWS);
    place_feed(store, ROWS, 100);
    ck_assert(place_has("runs.sqlite-wal"));
    const uint64_t hash = place_finish(store);
    ck_assert(!place_has("runs.sqlite-wal") && !place_has("runs.sqlite-shm") &&
              !place_has("runs.sqlite-journal"));
    store = place_open(ROWS);
    ck_assert(trivet__store_is_finished(store));
    ck_assert_uint_eq(place_finish(store), hash);
    ck_assert(!place_has("runs.sqlite-wal"));
    fine(trivet__store_read(place_path("runs.sqlite"), &store, &message), &message);
    trivet__store_free(store);
}
END_TEST

START_TEST(reader_sees_what_is_there_so_far)
{
    trivet_message message = {0};
    trivet__store *const store = place_open(ROWS);
    trivet__store *reader = NULL;
    place_feed(store, 100, 10);
    fine(trivet__store_read(place_path("runs.sqlite"), &reader, &message), &message);
    ck_assert_int_eq(trivet__store_next(reader), 100);
    ck_assert(!trivet__store_is_finished(reader));
    place_feed(store, 200, 10);
    seen s = {0, 0, 0, -1};
    fine(trivet__store_rows(reader, look_at_row, &s, &message), &message);
    ck_assert_int_eq(s.rows, 200);
    place_feed(store, ROWS, 10);
    /* With a reader the log cannot go yet; the store is finished all the same. */
    place_finish(store);
    trivet__store_free(reader);
    fine(trivet__store_read(place_path("runs.sqlite"), &reader, &message), &message);
    ck_assert(trivet__store_is_finished(reader));
    trivet__store_free(reader);
}
END_TEST

START_TEST(long_log_goes_into_the_store_on_the_way)
{
    enum { MANY = 160000 };
    struct stat info;
    trivet__store *const store = place_open(MANY);
    trivet_message message = {0};
    fine(feed_rows(store, MANY, 2000, 0, &message), &message);
    ck_assert_int_eq(stat(place_path("runs.sqlite-wal"), &info), 0);
    /* 4000 pages of 4 KiB with 24 bytes each before them, and one batch more. */
    ck_assert_int_lt(info.st_size, 20000000);
    place_finish(store);
}
END_TEST

START_TEST(variant_takes_less_than_200_bytes)
{
    enum { MANY = 100000, BYTES = 200 };
    struct stat info;
    trivet_message message = {0};
    trivet__store *const store = place_open(MANY);
    fine(feed_rows(store, MANY, 2500, 0, &message), &message);
    place_finish(store);
    ck_assert_int_eq(stat(place_path("runs.sqlite"), &info), 0);
    printf("%.1f bytes a variant\n", (double)info.st_size / MANY);
    ck_assert_int_lt(info.st_size, (int64_t)MANY * BYTES);
}
END_TEST

START_TEST(run_without_inputs_or_variants_of_its_part)
{
    trivet_message message = {0};
    trivet__store *store = NULL;
    trivet__run_head head = made_head(5, 3, 3);
    head.input_count = 0;
    head.file_length = 0;
    fine(trivet__store_open(place_path("runs.sqlite"), &head, &store, &message), &message);
    ck_assert_int_eq(trivet__store_next(store), 3);
    place_finish(store);
    fine(trivet__store_open(place_path("runs.sqlite"), &head, &store, &message), &message);
    ck_assert(trivet__store_is_finished(store));
    trivet__store_free(store);
}
END_TEST

int main(void)
{
    TCase *const tests =
        TESTS(rows_and_checks_come_back_bit_for_bit, head_comes_back,
              batches_and_stops_do_not_change_the_content, any_change_changes_the_hash,
              finished_store_is_one_plain_file, reader_sees_what_is_there_so_far,
              long_log_goes_into_the_store_on_the_way, variant_takes_less_than_200_bytes,
              run_without_inputs_or_variants_of_its_part);
    tcase_add_checked_fixture(tests, place_make, place_remove);
    return run_tests("the store of a sweep", tests);
}
